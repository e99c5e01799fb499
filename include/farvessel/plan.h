/* SPDX-License-Identifier: MIT */
/* Floor 6: all done by noon, what do I do and when do I light? A search through what hands can do with valves, washers
 * and starts, and through what could be mended or bought, each plan followed in time by fv_heat_run.
 *
 * A plan is better than another when fewer boilers pass their relief pressure or run dry and fewer lids lift (more
 * than they do now); then when fewer vessels are late, each against its own allowed time from its own opening, holds
 * kept; then by the goal:
 *
 *   cheapest   least money and work together (half an hour's work makes no difference), then the earliest last core
 *   earliest   the earliest last core, then the least money and work
 *   even       slowest vessel / fastest, each from its opening
 *   fuel       least fuel until the last hold ends
 *   output     most kg a day
 *
 * The search goes from several handlings (as it is; balanced by an inverse solve for equal shares of steam; throttled
 * once a core is there; one after the other, the thickest load first) by pattern search over all knobs at once, then
 * with each thing that could be bought or mended, and with pairs of them. The answer is the same for any number of
 * threads. */
#ifndef FARVESSEL_PLAN_H
#define FARVESSEL_PLAN_H

#include "farvessel/change.h"
#include "farvessel/heatup.h"

typedef enum {
    FV_PLAN_CHEAPEST,
    FV_PLAN_EARLIEST,
    FV_PLAN_MOST_EVEN,
    FV_PLAN_LEAST_FUEL,
    FV_PLAN_MOST_OUTPUT,
    FV_PLAN_GOALS
} fv_plan_goal;
#define FV_PLAN_GOAL_WORDS "cheapest|earliest|even|fuel|output"

#endif
