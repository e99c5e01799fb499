/* SPDX-License-Identifier: MIT */
/* When the cores will be at their targets, predicted from the steam of one moment. */
#ifndef STEADY_PREDICT_H
#define STEADY_PREDICT_H

#include "steady/holding.h"

/* What a vessel that heats gets and may have. */
typedef struct {
    bool takes;         /* it takes steam now: it heats or holds */
    bool heats;         /* its core is to be predicted; else it goes on as it is */
    double steam, heat; /* kg/s, W as in fv_vessel_result */
    double t_most;      /* K: where its chamber stands at last with this steam */
    double warming;     /* s until its lines are warm */
} steady_fed;

typedef struct steady_predictor steady_predictor;

/* NULL: out of memory. Its vessels' responses are worked out once, for any steam. holds: by vessel. */
steady_predictor *steady_predictor_new(const fv_plant *plant, const fv_vessel_need *needs, const steady_holding *holds,
                                       const fv_sat *sat);
void steady_predictor_free(steady_predictor *f);
/* took: s by vessel from now to the core's target; INFINITY: not within what was looked at, which is a
 * third more than the longest allowed time. dry_after: s until steam ends, INFINITY: never; scarce: what a vessel
 * leaves goes to the others. False: none was through its hold by then and left anything. */
bool steady_predict(steady_predictor *f, const steady_fed *fed, double dry_after, bool scarce, double *took);

#endif
