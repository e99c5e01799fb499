/* SPDX-License-Identifier: MIT */
/* Floor 6: which of the things that the plant file does not say, or guesses, matter most. Each documented default and
 * each guess is changed alone, in all parts that share it, and the plant is followed until its last core is there. */
#ifndef FARVESSEL_ASSUMED_H
#define FARVESSEL_ASSUMED_H

#include "farvessel/heatup.h"

FV_C_BEGIN

/* How an assumption is changed: another word; 5 K; a fifth more, or less where that is not allowed; from nothing to the
 * most that is usual. */
typedef struct {
    const fv_element *element;
    const fv_attr *attr;
    double from, to;  /* SI; words: their index */
    bool guess;       /* known="guess"; else the documented default */
    size_t parts;     /* that share it */
    const char *part; /* the first of them: the id of the line, vessel or boiler it belongs to */
    double last_core; /* s, with it changed; NaN: some core does not arrive, or no solution was found */
    double shift;     /* s, by which that is later than now; INFINITY where the core never arrives so */
    bool solved;
} fv_assumed_row;

#define FV_ASSUMED_MOST 3000    /* assumptions times vessels: what a second or two can follow */
#define FV_ASSUMED_LONGEST 10.0 /* times the last core as things are: what takes longer counts as never */
typedef struct fv_assumed_answer fv_assumed_answer;
struct fv_assumed_answer {
    const fv_plant *plant;
    double last_core;     /* s, as things are; NaN: some core does not arrive, and nothing was tried */
    fv_assumed_row *rows; /* what moves the last core most first */
    size_t row_count;
    size_t runs;
    bool too_many;   /* assumptions times vessels are more than FV_ASSUMED_MOST: none was tried */
    fv_arena *arena; /* of the rows */
};

/* The answer is the same for any number of threads (0: as many as there are processors). NULL: said in faults. */
fv_assumed_answer *fv_assumed_run(const fv_plant *plant, size_t threads, const fv_progress *progress,
                                  fv_faults *faults);
void fv_assumed_free(fv_assumed_answer *answer);

FV_C_END

#endif
