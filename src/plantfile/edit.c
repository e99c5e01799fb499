/* SPDX-License-Identifier: MIT */
/* An attribute of a plant file is changed in its text, a part put in or taken out: all other bytes stay as somebody
 * wrote them. What a part has from its kind and is changed for it alone is written into it: a coil, load or shell with
 * that attribute only, a list as the kind has it, for a list of one's own replaces the kind's. */
#include "plantfile/edit.h"

#include "plantfile/encoding.h"

#include <stdlib.h>
#include <string.h>

static const fv_loc nowhere = {NULL, 0};

/* The place that a step of a path names, and the tag where it names one sort. */
static const model_slot *slot_of_step(const fv_element *owner, const char *step, size_t length, const char **tag)
{
    while (length > 0 && strchr("0123456789", step[length - 1]))
        length--;
    for (const model_slot *s = model_slot_next(owner, NULL); s; s = model_slot_next(owner, s)) {
        if (s->any && strlen(s->any) == length && memcmp(s->any, step, length) == 0)
            return s;
        for (const fv_element *e = model_element(s->first); e <= model_element(s->last); e++)
            if (strlen(model_tag(e)) == length && memcmp(model_tag(e), step, length) == 0) {
                *tag = model_tag(e);
                return s;
            }
    }
    return NULL;
}

/* Puts in what a path lacks: an empty coil, or the list that the owner's kind has. False: there is nothing to put in.
 */
static bool supply(fv_text *text, const source_map *map, size_t owner, const char *step, size_t length)
{
    const char *tag = NULL;
    fv_text inside = {0};
    const model_slot *slot = slot_of_step(map->nodes[owner].element, step, length, &tag);
    if (!slot)
        return false;
    if (slot->count == MODEL_ONCE && tag) {
        const source_span prefix = plantfile_prefix_of(map, owner);
        plantfile_add_line(map, owner, "  ", &inside);
        fv_text_add(&inside, "<%.*s%s/>", (int)(prefix.to - prefix.from), map->text + prefix.from, tag);
    } else if (slot->count != MODEL_ONCE) {
        plantfile_add_list(map, owner, slot, &inside);
    }
    const bool good = inside.text && plantfile_put_inside(text, map, owner, &inside);
    fv_text_free(&inside);
    return good;
}

/* ---- the change ---- */

/* Those that stand in `owner`: the last of a sort, or else the last in their place. */
static size_t last_in(const source_map *map, size_t owner, const model_slot *slot, const fv_element *element)
{
    size_t last = SOURCE_NONE;
    for (size_t i = plantfile_child_from(map, owner, slot, owner + 1); i != SOURCE_NONE;
         i = plantfile_child_from(map, owner, slot, i + 1))
        if (last == SOURCE_NONE || map->nodes[i].element == element || map->nodes[last].element != element)
            last = i;
    return last;
}

static edit_step put_part(fv_text *text, const source_map *map, size_t owner, const char *tag)
{
    char name[24] = "";
    const fv_element *element;
    fv_text put = {0};
    const size_t length = strcspn(tag, " ");
    if (length < sizeof name)
        memcpy(name, tag, length);
    const model_slot *slot = model_slot_find(map->nodes[owner].element, name, &element);
    if (!slot)
        return EDIT_NOWHERE;
    const size_t last = last_in(map, owner, slot, element);
    const source_span prefix = plantfile_prefix_of(map, owner);
    if (last == SOURCE_NONE && slot->count != MODEL_ONCE)
        plantfile_add_list(map, owner, slot, &put);
    plantfile_add_line(map, last == SOURCE_NONE ? owner : last, last == SOURCE_NONE ? "  " : "", &put);
    fv_text_add(&put, "<%.*s%s/>", (int)(prefix.to - prefix.from), map->text + prefix.from, tag);
    const bool good = last == SOURCE_NONE ? plantfile_put_inside(text, map, owner, &put)
                                          : plantfile_splice(text, map->nodes[last].to, map->nodes[last].to, &put);
    fv_text_free(&put);
    return good ? EDIT_DONE : EDIT_FAILED;
}

/* With its line, where it has one for itself. The last of a list stays where a kind has such a list, for that would
 * then count. */
static edit_step take_out(fv_text *text, const source_map *map, size_t node)
{
    const source_node *n = &map->nodes[node];
    const fv_element *element;
    const model_slot *slot = model_slot_find(map->nodes[n->parent].element, model_tag(n->element), &element);
    size_t from = n->from;
    if (!slot)
        return EDIT_NOWHERE;
    const size_t first = plantfile_child_from(map, n->parent, slot, n->parent + 1);
    const bool only = first == node && plantfile_child_from(map, n->parent, slot, node + 1) == SOURCE_NONE;
    if (only && plantfile_owner_of_list(map, n->parent, slot) != SOURCE_NONE)
        return EDIT_NOWHERE;
    while (from > 0 && strchr(" \t", map->text[from - 1]))
        from--;
    const bool alone = from > 0 && map->text[from - 1] == '\n' && strchr("\r\n", map->text[n->to]);
    if (alone)
        from -= from > 1 && map->text[from - 2] == '\r' ? 2 : 1;
    const fv_text nothing = {0};
    return plantfile_splice(text, alone ? from : n->from, n->to, &nothing) ? EDIT_DONE : EDIT_FAILED;
}

/* The value is there already. */
static bool stands(const source_map *map, size_t node, const fv_edit *edit)
{
    const source_attr *attr = plantfile_source_attr(map, node, edit->attribute);
    return attr ? edit->value && plantfile_source_is(map, attr->value, edit->value) : !edit->value;
}

static edit_step edit_at(fv_text *text, const source_map *map, size_t node, const fv_edit *edit)
{
    const edit_step kept = edit->kind == FV_EDIT_SET && !stands(map, node, edit)
                               ? plantfile_keep_followers(text, map, node, edit->attribute)
                               : EDIT_DONE;
    if (kept != EDIT_DONE)
        return kept;
    if (edit->kind == FV_EDIT_PUT)
        return put_part(text, map, node, edit->value);
    if (edit->kind == FV_EDIT_TAKE_OUT)
        return take_out(text, map, node);
    return plantfile_write_attribute(text, map, node, edit->attribute, edit->value) ? EDIT_DONE : EDIT_FAILED;
}

static edit_step try_once(fv_text *text, const fv_edit *edit)
{
    source_map map;
    const char *step = NULL;
    size_t owner, length = 0;
    edit_step done = EDIT_FAILED;
    if (plantfile_source_read(&map, text->text, text->length)) {
        const size_t node = edit->part[0] ? plantfile_source_find(&map, edit->part, &owner, &step, &length) : 0;
        if (node != SOURCE_NONE)
            done = edit_at(text, &map, node, edit);
        else if (owner != SOURCE_NONE && map.nodes[owner].element && supply(text, &map, owner, step, length))
            done = EDIT_SUPPLIED;
        else /* gone is gone */
            done = edit->kind == FV_EDIT_TAKE_OUT ? EDIT_DONE : EDIT_NOWHERE;
    }
    plantfile_source_free(&map);
    return done;
}

fv_status fv_plantfile_edit(const char *bytes, size_t length, const fv_edit *edits, size_t count, fv_text *out,
                            fv_faults *faults)
{
    enum { SUPPLIES_MOST = 4 }; /* the longest path is as long */
    if (!bytes || !out || (count > 0 && !edits))
        return fv_error_null(faults, __func__);
    fv_text text = {0};
    fv_text_add(&text, "%.*s", (int)length, bytes);
    bool good = !text.failed && text.text;
    for (size_t i = 0; i < count && good; i++) {
        edit_step step = EDIT_AGAIN;
        for (int supplied = 0; step == EDIT_AGAIN || (step == EDIT_SUPPLIED && supplied < SUPPLIES_MOST);) {
            step = try_once(&text, &edits[i]);
            supplied += step == EDIT_SUPPLIED;
        }
        good = step == EDIT_DONE;
        if (step == EDIT_NOWHERE || step == EDIT_SUPPLIED)
            fv_error(faults, FV_ERR_INPUT, nowhere,
                     edits[i].kind == FV_EDIT_TAKE_OUT ? "%s cannot be taken out of the file"
                                                       : "%s does not stand in the file and cannot be written into it",
                     fv_shorten(edits[i].part, 80).text);
        else if (!good)
            fv_error(faults, FV_ERR_SYSTEM, nowhere, "out of memory");
    }
    if (good)
        fv_text_add(out, "%s", text.text);
    fv_text_free(&text);
    return good && !out->failed ? FV_OK : FV_FAIL;
}

bool fv_plantfile_can_edit(const char *bytes, size_t length, const char *name, fv_faults *faults)
{
    if (!bytes) {
        fv_error_null(faults, __func__);
        return false;
    }
    char *made = NULL;
    size_t left = length;
    const bool as_it_is = plantfile_utf8(bytes, &left, name, &made, faults) && !made && !memchr(bytes, 0, length);
    free(made);
    if (!as_it_is)
        fv_error(faults, FV_ERR_INPUT, (fv_loc){name, 0},
                 "only a file in UTF-8 can be changed here; save it as UTF-8 first");
    return as_it_is;
}

struct fv_source {
    source_map map;
};

fv_source *fv_source_new(const char *bytes, size_t length)
{
    fv_source *source = bytes ? calloc(1, sizeof *source) : NULL;
    if (source && !plantfile_source_read(&source->map, bytes, length)) {
        fv_source_free(source);
        return NULL;
    }
    return source;
}

void fv_source_free(fv_source *source)
{
    if (source)
        plantfile_source_free(&source->map);
    free(source);
}

bool fv_source_typed(const fv_source *source, const char *part, const char *attribute, fv_text *out)
{
    const char *step;
    size_t owner, n;
    if (!source || !part || !attribute || !out)
        return false;
    const source_map *map = &source->map;
    const size_t node = plantfile_source_find(map, part, &owner, &step, &n);
    const source_attr *attr = node == SOURCE_NONE ? NULL : plantfile_source_attr(map, node, attribute);
    if (attr)
        fv_text_add(out, "%.*s", (int)(attr->value.to - attr->value.from), map->text + attr->value.from);
    return attr && !out->failed;
}
