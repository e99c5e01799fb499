/* SPDX-License-Identifier: MIT */
/* Steps of changing a plant file's text. Each makes the map that it was given out of date. */
#ifndef PLANTFILE_EDIT_H
#define PLANTFILE_EDIT_H

#include "farvessel/plantfile.h"
#include "plantfile/source.h"

/* The text with `put` in place of the bytes from `from` to `to`. False: out of memory, nothing changed. */
bool plantfile_splice(fv_text *text, size_t from, size_t to, const fv_text *put);
/* Where another attribute is to stand: behind the last one that is not about the others. */
size_t plantfile_place_for_attr(const source_map *map, size_t node);
/* Adds a line's end as the file has it and the blanks before a tag; nothing where the tag does not begin its line. */
void plantfile_add_line(const source_map *map, size_t node, const char *more, fv_text *out);
/* Puts `inside` (lines of its own) behind all else in a node. */
bool plantfile_put_inside(fv_text *text, const source_map *map, size_t node, const fv_text *inside);
/* Adds a copy of a part without its id, which must not stand twice. */
void plantfile_add_copy(const source_map *map, size_t node, fv_text *out);
/* Adds the list that a part has from what it is like, to stand in it. */
void plantfile_add_list(const source_map *map, size_t owner, const model_slot *slot, fv_text *out);
/* The first part that stands in `owner` in that place, from node `from` on; SOURCE_NONE: none. */
size_t plantfile_child_from(const source_map *map, size_t owner, const model_slot *slot, size_t from);

/* Sets, or with `value` NULL takes out, an attribute of a node's own. */
bool plantfile_write_attribute(fv_text *text, const source_map *map, size_t node, const char *name, const char *value);
/* The prefix of a node's name, with the colon. */
source_span plantfile_prefix_of(const source_map *map, size_t node);
/* What has the list that a node has from what it is like; SOURCE_NONE: nothing. */
size_t plantfile_owner_of_list(const source_map *map, size_t node, const model_slot *slot);

/* edit_keep.c: a part of the plant is changed alone, so what is like it is given what it had from there. */
typedef enum {
    EDIT_DONE,
    EDIT_AGAIN,    /* nearer to it: read the text again */
    EDIT_SUPPLIED, /* that, by what the path lacked */
    EDIT_NOWHERE,
    EDIT_FAILED
} edit_step;
/* One step of it for an attribute that is to change at a node. EDIT_AGAIN: read the text again, there may be more to
 * do; EDIT_DONE: there is not. */
edit_step plantfile_keep_followers(fv_text *text, const source_map *map, size_t node, const char *attribute);

#endif
