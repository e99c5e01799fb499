/* SPDX-License-Identifier: MIT */
/* A search for the best point of a grid, each point a change of one plant that is followed in time.
 *
 * Where the grid has few points all are tried and the best is proven. Else a pattern search (R. Hooke and T. A. Jeeves
 * 1961, from memory): first what the owner of the grid proposes from what the best outcome looks like, as long as that
 * gains; then every knob a step up and a step down, some at a time, what gains taken at once, and the way of a whole
 * round once more; where nothing gains, steps are halved, and in the end two knobs move at a time. A polish tries each
 * knob at many of its places. Batches are the same for any number of threads. */
#ifndef STUDY_SEARCH_H
#define STUDY_SEARCH_H

#include "study/objective.h"

typedef struct {
    size_t count;      /* of knobs */
    const int *places; /* by knob: 0 to places - 1 */
    const int *steps;  /* by knob: the first step; 0: stays where it is */
    void *context;
    void (*settings)(void *context, const int *point, study_settings *settings);
    study_effort (*effort)(void *context, const int *point);
    /* Which points are out of the question, as out[i]; NULL: none is. */
    study_ending (*screen)(void *context, const int *points, size_t count, bool *out);
    /* Whether one knob moved from `point`, with that outcome, to a place cannot win; NULL: any may. */
    bool (*hopeless)(void *context, const study_objective *objective, const int *point, const study_outcome *outcome,
                     size_t knob, int place);
    /* Further points worth a try: fills up to `most` rows of `points`; NULL: has none. */
    size_t (*propose)(void *context, const int *point, const study_outcome *outcome, int *points, size_t most);
} study_grid;

typedef struct {
    study_evaluator *evaluator;
    const study_grid *grid;
    study_objective objective;
    size_t most;     /* plans that may be looked at */
    double fineness; /* of the steps while it searches */
    bool pairs;      /* two knobs at a time in the end */
    bool polish;     /* each knob by itself at many of its places, until none of them is better */
    double sieve;    /* fineness of runs that say which points are worth the search's own; 0: all are */
    double give_up;  /* s: what takes longer is of no interest; 0: nothing is given up for that */
    bool front;      /* what is worse but cheaper is wanted, too */
    /* found: */
    int *best; /* point, in room of the caller's */
    study_scored score;
    size_t looked_at; /* plans of this search */
    bool proven;      /* all points of the grid were tried */
    bool stopped;     /* the user asked to stop: best so far */
} study_search;

/* From `count` points, one after the other in `starts`; the best goes on. */
study_ending study_search_run(study_search *search, const int *starts, size_t count);
/* The scores of points, row by row, followed with `fineness`; to the end of the holds with `follow`. */
study_ending study_search_score(study_search *search, const int *points, size_t count, double fineness, bool follow,
                                study_scored *scores);
/* The score of a point that the search has looked at, as far as it was followed then. */
study_ending study_search_known(study_search *search, const int *point, study_scored *score);

#endif
