/* SPDX-License-Identifier: MIT */
/* Lists of names of parts. */
#ifndef PRINT_NAMES_H
#define PRINT_NAMES_H

#include "farvessel/base.h"

typedef struct {
    const char **list; /* in the arena that the names were pushed with; the names themselves are not copied */
    size_t count;
    const char *all; /* what is said in their place, "all vessels"; NULL: the names */
} print_names;

bool print_names_push(print_names *names, fv_arena *arena, const char *name);
/* "s1, s2, s3 and 4 more": about `most` names. */
void print_names_say(const print_names *names, size_t most, fv_text *out);
/* The same, cut to the buffer, without memory: where nobody can be told that there is none. */
void print_names_print(const print_names *names, size_t most, char *buffer, size_t size);

#endif
