/* SPDX-License-Identifier: MIT */
/* Which element stands in which, how often, and how the model makes it. */
#ifndef PLANTFILE_GRAMMAR_H
#define PLANTFILE_GRAMMAR_H

#include "farvessel/plantfile.h"

/* What is being built: the plant and the innermost line, vessel and wall. */
typedef struct {
    fv_plant *plant;
    fv_line *line;
    fv_vessel *vessel;
    fv_wall *wall;
} building;

/* Makes the part, or gives the one that is there; NULL: out of memory. */
typedef void *grammar_make(building *b, fv_loc loc);

typedef struct {
    const char *parent;  /* name in the schema */
    const char *name;    /* in the file */
    const char *element; /* name in the schema */
    bool once;
    grammar_make *make;
} grammar_rule;

const grammar_rule *plantfile_grammar_rules(size_t *count);
/* NULL: no such child there. */
const grammar_rule *plantfile_grammar_find(const char *parent, const char *name);

#endif
