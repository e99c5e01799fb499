/* SPDX-License-Identifier: MIT */
/* How a program embeds farvessel: build a plant, solve one moment, follow it in time. Copy it and change it. */
#ifndef FV_EXAMPLE_EMBED_H
#define FV_EXAMPLE_EMBED_H

#include <farvessel/farvessel.h>

typedef struct {
    double steam[2]; /* kg/s into each drum while heating */
    double core[2];  /* s from the start to the target; NaN: never */
} example_answer;

/* Two drums on one boiler, the second on a hose of `far_length` m. false: reasons are in faults. */
bool example_run(double far_length, example_answer *answer, fv_faults *faults);

#endif
