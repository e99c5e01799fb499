/* SPDX-License-Identifier: MIT */
#include "study/batch.h"

#include <math.h>
#include <stdlib.h>

bool study_batch_open(study_batch *batch, size_t count)
{
    *batch = (study_batch){.settings = calloc(count + 1, sizeof *batch->settings),
                           .outcomes = calloc(count + 1, sizeof *batch->outcomes)};
    if (!batch->settings || !batch->outcomes)
        return false;
    batch->count = count;
    for (size_t i = 0; i < count; i++)
        study_settings_open(&batch->settings[i]);
    return true;
}

study_ending study_batch_evaluate(study_evaluator *evaluator, study_batch *batch, bool follow, double fineness)
{
    study_ask *asks = calloc(batch->count + 1, sizeof *asks);
    bool good = asks != NULL;
    for (size_t i = 0; i < batch->count && good; i++) {
        good = !batch->settings[i].failed;
        asks[i] = (study_ask){
            .change = &batch->settings[i].change, .follow = follow, .fineness = fineness, .until = INFINITY};
    }
    const study_ending ending = good ? study_evaluate(evaluator, asks, batch->count, batch->outcomes) : STUDY_FAILED;
    free(asks);
    return ending;
}

void study_batch_close(study_batch *batch)
{
    for (size_t i = 0; i < batch->count; i++)
        study_settings_free(&batch->settings[i]);
    free(batch->settings);
    free(batch->outcomes);
}
