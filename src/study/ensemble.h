/* SPDX-License-Identifier: MIT */
/* Whole runs of one plant with many values of its unknowns, side by side. */
#ifndef STUDY_ENSEMBLE_H
#define STUDY_ENSEMBLE_H

#include "study/parallel.h"
#include "study/unknowns.h"

typedef struct {
    const fv_plant *plant;
    const study_unknowns *unknowns;
    const double *z; /* count x unknowns, standard normals */
    size_t count;
    fv_heat_options options; /* of each run; the cache is the ensemble's affair */
    /* What came of run `index`; NULL: no solution, or the plant is not sound so. Called by its thread; may write what
     * belongs to the index. */
    void (*take)(void *context, size_t index, const fv_heat_result *result);
    void *context;
} study_ensemble;

/* A run that fails is no failure of the whole; where memory is out it is. */
study_ending study_ensemble_run(const study_ensemble *ensemble, const study_work *plan);

/* One run, tried with other steps where no solution is found. NULL: none, said in faults. */
fv_heat_result *study_run_somehow(const fv_plant *plant, const fv_heat_options *options, const fv_progress *progress,
                                  fv_faults *faults);

#endif
