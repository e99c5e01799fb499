/* SPDX-License-Identifier: MIT */
/* A plant file as text: where its tags and attributes stand. Only for a text that the reader has taken. */
#ifndef PLANTFILE_SOURCE_H
#define PLANTFILE_SOURCE_H

#include "model/contains.h"

typedef struct {
    size_t from, to; /* bytes of the text */
} source_span;

typedef struct {
    source_span name, value; /* the value without its quotes */
} source_attr;

typedef struct {
    const fv_element *element; /* NULL: none of ours */
    size_t parent;             /* its node; its own number at the top */
    source_span name;          /* in the start tag, with its prefix */
    size_t from, open_end;     /* '<', and behind the start tag's '>' */
    size_t close, to;          /* the end tag's '<' (open_end of an empty tag), and behind its '>' */
    bool empty;                /* "<hose .../>" */
    size_t first_attr, attr_count;
} source_node;

typedef struct {
    const char *text;
    size_t length;
    source_node *nodes;
    source_attr *attrs;
    size_t node_count, node_capacity, attr_count, attr_capacity;
} source_map;

#define SOURCE_NONE ((size_t)-1)

/* False: out of memory. Free it in any case. */
bool plantfile_source_read(source_map *map, const char *text, size_t length);
void plantfile_source_free(source_map *map);

/* The attribute of a node by its local name; NULL: none. */
const source_attr *plantfile_source_attr(const source_map *map, size_t node, const char *name);
bool plantfile_source_is(const source_map *map, source_span span, const char *word);

/* source_find.c: where the part that a path names (as in fv_plant_find) stands in the text itself. SOURCE_NONE: it does
 * not; then *owner is the part that it would stand in, SOURCE_NONE where there is none, and *step what is lacking
 * there, "coil" or "valve1". */
size_t plantfile_source_find(const source_map *map, const char *path, size_t *owner, const char **step, size_t *length);
/* The node with that id; SOURCE_NONE: none. */
size_t plantfile_source_id(const source_map *map, const char *id, size_t length);

#endif
