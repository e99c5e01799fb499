/* SPDX-License-Identifier: MIT */
/* What does a batch cost, and does a change pay? The plant is followed from lighting until all is cool, as it is and
 * with the change; money comes from the prices in <work>. What has no price is counted and not paid: it is said, never
 * taken as nought. */
#ifndef FARVESSEL_COST_H
#define FARVESSEL_COST_H

#include "farvessel/heatup.h"

FV_C_BEGIN

typedef enum { FV_COST_FUEL, FV_COST_WATER, FV_COST_HOURS, FV_COST_MEDIUM, FV_COST_BAGS, FV_COST_ITEMS } fv_cost_item;
const char *fv_cost_word(fv_cost_item item); /* "fuel", "water", "hours", "medium", "bags" */

/* One thing that a batch takes. */
typedef struct {
    double amount; /* J of fuel, kg of water, s of people's work, kg of medium, pieces */
    double money;  /* NaN: no price */
} fv_cost_row;

typedef struct {
    fv_cost_row rows[FV_COST_ITEMS];
    double money;     /* of what has a price; NaN: nothing has */
    double kg, worth; /* treated; NaN: no price for what is treated */
    size_t pieces;
    double least_fuel; /* J: heat that brings the loads to their targets, were nothing lost */
    double last_core;  /* s; NaN: one never arrives */
    double steam_end;  /* s */
    size_t starved;    /* vessels */
    bool ran;
} fv_cost_batch;

typedef struct {
    double spend;          /* for the change; NaN: not said */
    double batches_a_year; /* NaN: not said */
    double years;          /* over which a change is looked at; default 10, common practice */
} fv_cost_options;
void fv_cost_defaults(fv_cost_options *options);

typedef struct {
    const fv_plant *plant, *changed; /* changed: NULL where there is none */
    fv_cost_options options;
    fv_cost_batch now, then;                     /* then: of the changed plant */
    double saved;                                /* a batch, of what has a price in both */
    double saved_a_year, payback, present_value; /* money, years, money; NaN where something is not said */
    double break_even; /* price of fuel in its own unit at which the change pays for itself in `years`; NaN */
} fv_cost_answer;

/* NULL: said in faults. */
fv_cost_answer *fv_cost_run(const fv_plant *plant, const fv_plant *changed, const fv_cost_options *options,
                            const fv_progress *progress, fv_faults *faults);
void fv_cost_free(fv_cost_answer *answer);

/* Units of the price's own that `fuel` joules are bought as: kg, litres, ... of the first boiler's fuel; NaN: that fuel
 * is not bought so. */
double fv_cost_fuel_units(const fv_plant *plant, fv_per per, double fuel);

FV_C_END

#endif
