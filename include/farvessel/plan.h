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
 * Where time counts, a plan that keeps as many vessels in time whatever one slip of a hand may do (fv_slip) is taken
 * before one that does not, if its last core comes at most 3 % later.
 *
 * The search goes from several handlings (as it is; balanced by an inverse solve for equal shares of steam; throttled
 * once a core is there; one after the other, the thickest load first) by pattern search over all knobs at once, then
 * with each thing that could be bought or mended, and with pairs of them. The answer is the same for any number of
 * threads. */
#ifndef FARVESSEL_PLAN_H
#define FARVESSEL_PLAN_H

#include "farvessel/why.h"

FV_C_BEGIN

typedef enum {
    FV_PLAN_CHEAPEST,
    FV_PLAN_EARLIEST,
    FV_PLAN_MOST_EVEN,
    FV_PLAN_LEAST_FUEL,
    FV_PLAN_MOST_OUTPUT,
    FV_PLAN_GOALS
} fv_plan_goal;
#define FV_PLAN_GOAL_WORDS "cheapest|earliest|even|fuel|output"

typedef struct {
    fv_plan_goal goal;
    bool buy;          /* also what could be mended or bought; default true */
    double span;       /* s from the lighting to the end of the last hold, at most; INFINITY: as long as it takes */
    double wage;       /* money for an hour of a grower's work; default 20, common practice */
    double turnaround; /* s from the end of the last hold to the next fire; default 2 h */
    size_t most;       /* plans of hands that are looked at; 0: 300, with fewer than 5 vessels up to 600 */
    size_t threads;    /* 0: as many as there are processors; the answer is the same */
} fv_plan_options;
void fv_plan_defaults(fv_plan_options *options);

/* One thing that hands do. */
typedef enum {
    FV_PLAN_SET_VALVE,    /* before lighting: to `value`, a share of its way */
    FV_PLAN_FIT_WASHER,   /* before lighting: at the end of the hose, with a hole of `value` m */
    FV_PLAN_OPEN,         /* a vessel's steam is opened; value: s after lighting */
    FV_PLAN_AT_FULL,      /* its valve is turned to `value` once it is full of steam */
    FV_PLAN_AT_CORE,      /* the same once its core is there */
    FV_PLAN_FIRE_AT_CORE, /* a boiler's fire is turned down to `value` once the last core, as predicted this vessel's,
                             is there */
    FV_PLAN_FIRE_INSTEAD  /* a boiler's fire is `value` where the plant itself turns it down further */
} fv_plan_action;
typedef struct {
    fv_plan_action action;
    const char *part; /* id of valve, hose, vessel or boiler, "s2.fitting1" */
    int vessel;       /* whose */
    double value;
    double time;       /* s after lighting at which it will be due, as predicted; 0 before lighting; NaN: not known */
    const char *after; /* of a fire: what it waits for, "bin1 core" or "last core"; else NULL */
    double delay;      /* s after that */
} fv_plan_step;

/* One plan. Times in s from the lighting of the first fire; arrays by vessel. */
typedef struct {
    fv_change change;            /* all of it */
    const fv_why_remedy **moves; /* what is mended or bought */
    size_t move_count;
    fv_plan_step *steps; /* of hands, in the order of time */
    size_t step_count;
    double money;             /* NaN: some price is not known */
    double minutes;           /* of work */
    size_t before;            /* things to set before the fire is lit */
    size_t during;            /* things to do in the course of the run */
    bool ran;                 /* false: it could not be followed, and nothing below is known */
    size_t late;              /* vessels not in their time, or whose hold breaks */
    int broken;               /* one whose hold breaks; -1: none */
    size_t unsafe;            /* boilers over their relief pressure or dry, lids lifted more than now */
    size_t lifted;            /* lids that its chambers lift no more than they do now */
    double first, last, done; /* cores, INFINITY: never; end of the last hold, NaN: never */
    double spread;            /* slowest / fastest, from opening to core */
    double fuel, water, mass,
        mass_per_day; /* J (NaN: no fuel named), kg, kg that reach the end of their hold, kg/day */
    double fuel_full; /* J, were the fire not turned down in the end; NaN: it is not */
    double boiler_pressure, chamber_pressure; /* Pa gauge, highest */
    const double *core, *opened, *hold;
    const fv_verdict *verdicts;
} fv_plan_row;

typedef struct {
    const fv_plant *plant;
    fv_plan_options options;
    fv_plan_row now;
    fv_plan_row *rows; /* the answer first; then others that nothing beats in money and work and in time at once */
    size_t row_count;
    bool gains;                /* the answer is better than the plant as it is */
    double conduction, energy; /* s: no core of the last vessel can be earlier, whatever hands do; NaN: not known */
    double sharing;            /* s: the last core with all steam shared perfectly, an estimate; NaN: not known */
    int slow;          /* the vessel that is latest against its time even with ample steam; -1: none is late then */
    double slow_takes; /* s: what it takes then */
    fv_slip slip;      /* how near the answer stands to missing a vessel's time */
    double quickest;   /* s, last core of an earlier plan passed over, for a slip would have made a vessel late; NaN */
    const char *currency;
    size_t looked_at; /* different plans followed */
    size_t runs;      /* of the plant in time */
    bool stopped;     /* the user stopped it: the best so far */
    fv_arena *arena;
} fv_plan_answer;

/* NULL: faults say why, or the user stopped it before anything was found. The plant must outlive the answer. */
fv_plan_answer *fv_plan_run(const fv_plant *plant, const fv_plan_options *options, const fv_progress *progress,
                            fv_faults *faults);
void fv_plan_free(fv_plan_answer *answer);

FV_C_END

#endif
