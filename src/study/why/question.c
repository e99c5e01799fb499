/* SPDX-License-Identifier: MIT */
/* What all parts of the answer ask of the question: which vessels get steam, and how a time by the clock counts. */
#include "study/why/question.h"

#include <math.h>

bool study_opens(const study_question *q, size_t vessel)
{
    return !isnan(q->answer->now->vessels[vessel].opened);
}

double study_by_clock(const study_question *q, double core)
{
    return core < q->until ? core : q->until; /* until for NaN */
}
