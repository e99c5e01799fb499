/* SPDX-License-Identifier: MIT */
/* Moments of a plant by its vessels' phases: network, solver and chambers, made once for all settings. A chamber that
 * holds stands where its own balances of heat and air meet the network. */
#ifndef STEADY_WORKSPACE_H
#define STEADY_WORKSPACE_H

#include "steady/predict.h"
#include "steady/holding.h"

typedef struct {
    const fv_plant *plant;
    fv_network *net;
    fv_solver *solver;
    double *fire;
    double last; /* share of the fires that was solved last; 0: none yet */
    fv_chamber *chambers;
    fv_vessel_need *needs;
    steady_holding *holds; /* by vessel; vessel NULL: it does not hold */
    steady_held *held;     /* by vessel, as the last solve left it */
    const fv_sat *sat;
    steady_predictor *predictor; /* made where a moment is predicted from */
    int steps_left;              /* of Newton's, for all solves to come; none left: they have no solution, unsaid */
    bool out_of_memory;          /* while solving; not the plant's fault */
} steady_workspace;

/* phase -1: as each vessel says. False: said in faults; close it all the same. */
bool steady_workspace_open(steady_workspace *d, const fv_plant *plant, const fv_sat *sat, int phase, fv_faults *faults);
void steady_workspace_close(steady_workspace *d);
/* From now on that vessel holds and all others are shut. */
void steady_workspace_only(steady_workspace *d, size_t vessel);
/* At a share of each boiler's own fire. NULL: no solution, or out of memory, said in faults. */
fv_steady_result *steady_workspace_solve(steady_workspace *d, double fire, fv_faults *faults);
steady_holding steady_workspace_holding(const steady_workspace *d, size_t vessel);

#endif
