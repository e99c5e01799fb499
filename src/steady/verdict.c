/* SPDX-License-Identifier: MIT */
/* What a time to the core, s, means against the allowed one: the only definition, for all verbs. */
#include "farvessel/steady.h"

#include <math.h>

const char *fv_verdict_word(fv_verdict verdict)
{
    static const char *const words[] = {"fed", "lagging", "starved", "shut"};
    return words[verdict];
}

fv_verdict fv_verdict_of(double took, double within)
{
    if (isnan(took) || took > within)
        return FV_STARVED;
    return within - took < FV_SPARE_LEAST * within ? FV_LAGGING : FV_FED;
}
