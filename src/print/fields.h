/* SPDX-License-Identifier: MIT */
/* What tables are written with: a field is a line, and so is a function that finds one. For source files only. */
#ifndef PRINT_FIELDS_H
#define PRINT_FIELDS_H

#include "print/table.h"

#include <stddef.h>

/* ---- members of a row, which is a `type` ---- */

#define MEMBER(type, label, member, si, in, as, what)                                                                  \
    .name = (label), .unit = (si), .where = (in), .kind = (what), .show = (as), .offset = offsetof(type, member)
#define NUMBER(type, label, member, si, in, as)                                                                        \
    {                                                                                                                  \
        MEMBER(type, label, member, si, in, as, FIELD_NUMBER)                                                          \
    }
#define COLUMN(type, label, member, si, in, as)                                                                        \
    {                                                                                                                  \
        MEMBER(type, label, member, si, in, as, FIELD_COLUMN)                                                          \
    }
#define COUNT(type, label, member, in)                                                                                 \
    {                                                                                                                  \
        MEMBER(type, label, member, "", in, FV_SHOW_NUMBER, FIELD_COUNT)                                               \
    }
#define FLAG(type, label, member, in)                                                                                  \
    {                                                                                                                  \
        MEMBER(type, label, member, "", in, FV_SHOW_NUMBER, FIELD_FLAG)                                                \
    }
#define TEXT(type, label, member, in)                                                                                  \
    {                                                                                                                  \
        MEMBER(type, label, member, "", in, FV_SHOW_NUMBER, FIELD_TEXT)                                                \
    }
#define NAMES(type, label, member, in)                                                                                 \
    {                                                                                                                  \
        MEMBER(type, label, member, "", in, FV_SHOW_NUMBER, FIELD_NAMES)                                               \
    }
/* An fv_band for programs: three columns. */
#define BAND(type, label, member, si)                                                                                  \
    NUMBER(type, label "_10", member.low, si, IN_DATA, FV_SHOW_NUMBER),                                                \
        NUMBER(type, label "_50", member.middle, si, IN_DATA, FV_SHOW_NUMBER),                                         \
        NUMBER(type, label "_90", member.high, si, IN_DATA, FV_SHOW_NUMBER)

/* ---- members of the part that a row is about ---- */

#define PART_VALUE(type, label, member, si, in, as)                                                                    \
    {                                                                                                                  \
        MEMBER(type, label, member, si, in, as, FIELD_VALUE), .of_part = true                                          \
    }
#define PART_NUMBER(type, label, member, si, in, as)                                                                   \
    {                                                                                                                  \
        MEMBER(type, label, member, si, in, as, FIELD_NUMBER), .of_part = true                                         \
    }
#define PART_TEXT(type, label, member, in)                                                                             \
    {                                                                                                                  \
        MEMBER(type, label, member, "", in, FV_SHOW_NUMBER, FIELD_TEXT), .of_part = true                               \
    }

/* ---- what a function finds ---- */

#define CELL(label, si, in, as, function)                                                                              \
    {                                                                                                                  \
        .name = (label), .unit = (si), .where = (in), .kind = FIELD_CELL, .show = (as), .number = (function)           \
    }
#define WORD(label, in, function)                                                                                      \
    {                                                                                                                  \
        .name = (label), .unit = "", .where = (in), .kind = FIELD_WORD, .show = FV_SHOW_NUMBER, .word = (function)     \
    }

/* Such functions, of the `answer` and the number of the row, `i`. */
#define NUMBER_OF(function, expression)                                                                                \
    static double function(const void *answer, size_t i)                                                               \
    {                                                                                                                  \
        (void)answer, (void)i;                                                                                         \
        return expression;                                                                                             \
    }
#define WORD_OF(function, expression)                                                                                  \
    static const char *function(const void *answer, size_t i, char *buffer)                                            \
    {                                                                                                                  \
        (void)answer, (void)i, (void)buffer;                                                                           \
        return expression;                                                                                             \
    }
#define ROWS(function, expression)                                                                                     \
    static size_t function(const void *answer)                                                                         \
    {                                                                                                                  \
        (void)answer;                                                                                                  \
        return expression;                                                                                             \
    }
#define ROW(function, expression)                                                                                      \
    static const void *function(const void *answer, size_t i)                                                          \
    {                                                                                                                  \
        (void)answer, (void)i;                                                                                         \
        return expression;                                                                                             \
    }
/* Copies what is shown to the buffer of WORD_OF. */
#define SHOWN(shown) (snprintf(buffer, PRINT_WORD_SIZE, "%s", (shown).text), (const char *)buffer)

#define FIELDS(list) list, sizeof list / sizeof *list

#endif
