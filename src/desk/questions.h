/* SPDX-License-Identifier: MIT */
/* What each question's answer holds. */
#ifndef DESK_QUESTIONS_H
#define DESK_QUESTIONS_H

#include "farvessel/desk.h"

enum { DESK_PARTS_MOST = 6, DESK_LENGTHS_MOST = 24, DESK_TEXT_SIZE = 48 };

/* One part of an answer. A word is one of `words`; a size is "13 x 13 x 20 cm" or, of round ones, "15 x 30 cm". */
typedef enum { DESK_QUANTITY, DESK_WORD, DESK_SIZE, DESK_MATERIAL } desk_sort;
typedef struct {
    desk_sort sort;
    fv_dim dim;
    const char *unit[2]; /* of a bare number, by fv_unit_system */
    const char *words;
    bool many; /* the last part may be given several times, once for each vessel */
} desk_part;

typedef struct {
    const char *name, *question, *parts;
    const char *example[2]; /* by fv_unit_system */
    desk_part part[DESK_PARTS_MOST];
    size_t part_count, least; /* parts that there are, and that an answer must have */
} desk_question;

const desk_question *desk_question_of(fv_new_question question);

#endif
