/* SPDX-License-Identifier: MIT */
/* What is like a part of the plant that is changed alone keeps what it has: an attribute that was typed there, or a
 * list, is copied into it. What nobody typed (a default) no text keeps: then it is given all that it had from there,
 * and is like that part's own kind, or like nothing, from then on. Kinds are not kept from: they stand for all that are
 * like them. */
#include "plantfile/edit.h"

#include <string.h>

static bool has(const source_map *map, size_t node, const char *attribute)
{
    return plantfile_source_attr(map, node, attribute) != NULL;
}

/* Names of parts and joints are a part's own, and so is what it is like. */
static bool is_handed_on(const source_map *map, const source_node *part, const source_attr *attr)
{
    for (size_t i = 0; i < part->element->attr_count; i++)
        if (part->element->attrs[i].dim == FV_DIM_ID &&
            plantfile_source_is(map, attr->name, part->element->attrs[i].name))
            return false;
    return !plantfile_source_is(map, attr->name, "like");
}

/* An attribute as it was typed at another node; none where it is in this one. */
static edit_step copy_attribute(fv_text *text, const source_map *map, size_t to, const source_attr *attr)
{
    char name[64] = "";
    const size_t length = attr->name.to - attr->name.from;
    if (length < sizeof name)
        memcpy(name, map->text + attr->name.from, length);
    if (!*name || has(map, to, name))
        return EDIT_DONE;
    fv_text put = {0};
    fv_text_add(&put, " %.*s", (int)(attr->value.to + 1 - attr->name.from), map->text + attr->name.from);
    const size_t at = plantfile_place_for_attr(map, to);
    const bool good = plantfile_splice(text, at, at, &put);
    fv_text_free(&put);
    return good ? EDIT_AGAIN : EDIT_FAILED;
}

static edit_step put(fv_text *text, const source_map *map, size_t node, fv_text *inside)
{
    const bool good = inside->text && plantfile_put_inside(text, map, node, inside);
    fv_text_free(inside);
    return good ? EDIT_AGAIN : EDIT_FAILED;
}

/* The next thing that stands at `from` and not at `to`. */
static edit_step hand_on(fv_text *text, const source_map *map, size_t to, size_t from)
{
    const source_node *theirs = &map->nodes[from];
    edit_step step = EDIT_DONE;
    for (size_t i = theirs->first_attr; i < theirs->first_attr + theirs->attr_count && step == EDIT_DONE; i++)
        if (is_handed_on(map, theirs, &map->attrs[i]))
            step = copy_attribute(text, map, to, &map->attrs[i]);
    for (const model_slot *s = model_slot_next(theirs->element, NULL); s && step == EDIT_DONE;
         s = model_slot_next(theirs->element, s)) {
        const size_t other = plantfile_child_from(map, from, s, from + 1),
                     own = plantfile_child_from(map, to, s, to + 1);
        fv_text inside = {0};
        if (other != SOURCE_NONE && own != SOURCE_NONE && s->count == MODEL_ONCE) {
            step = hand_on(text, map, own, other);
        } else if (other != SOURCE_NONE && own == SOURCE_NONE) {
            for (size_t i = other; i != SOURCE_NONE; i = plantfile_child_from(map, from, s, i + 1)) {
                plantfile_add_line(map, to, "  ", &inside);
                plantfile_add_copy(map, i, &inside);
            }
            step = put(text, map, to, &inside);
        }
    }
    return step;
}

/* Like what the other is like. */
static edit_step part_from(fv_text *text, const source_map *map, size_t follower, size_t top)
{
    const source_attr *mine = plantfile_source_attr(map, follower, "like");
    const source_attr *theirs = plantfile_source_attr(map, top, "like");
    fv_text other = {0};
    size_t from = mine->name.from;
    if (theirs)
        fv_text_add(&other, "%.*s", (int)(theirs->value.to + 1 - theirs->name.from), map->text + theirs->name.from);
    while (!theirs && from > 0 && strchr(" \t\r\n", map->text[from - 1]))
        from--;
    const bool good = plantfile_splice(text, from, mine->value.to + 1, &other);
    fv_text_free(&other);
    return good ? EDIT_AGAIN : EDIT_FAILED;
}

/* The place inside `top` whose part holds the node. */
static const model_slot *slot_of(const source_map *map, size_t top, size_t node)
{
    const fv_element *element = map->nodes[top].element;
    while (map->nodes[node].parent != top)
        node = map->nodes[node].parent;
    for (const model_slot *s = model_slot_next(element, NULL); s; s = model_slot_next(element, s))
        if (plantfile_child_from(map, top, s, node) == node)
            return s;
    return NULL;
}

/* The attribute where a part has it from: at itself, or at what it is like. NULL: nowhere. */
static const source_attr *typed_for(const source_map *map, size_t node, const char *attribute)
{
    const source_attr *typed = plantfile_source_attr(map, node, attribute), *like;
    for (size_t far = 0; !typed && far < map->node_count; far++) {
        if (!(like = plantfile_source_attr(map, node, "like")))
            return NULL;
        node = plantfile_source_id(map, map->text + like->value.from, like->value.to - like->value.from);
        if (node == SOURCE_NONE)
            return NULL;
        typed = plantfile_source_attr(map, node, attribute);
    }
    return typed;
}

static edit_step keep(fv_text *text, const source_map *map, size_t follower, size_t top, size_t node,
                      const char *attribute)
{
    const model_slot *slot = node == top ? NULL : slot_of(map, top, node);
    const source_attr *typed = node == top ? typed_for(map, top, attribute) : NULL;
    fv_text inside = {0};
    if (node == top && has(map, follower, attribute))
        return EDIT_DONE;
    if (typed)
        return copy_attribute(text, map, follower, typed);
    if (slot && slot->count != MODEL_ONCE) {
        if (plantfile_child_from(map, follower, slot, follower + 1) != SOURCE_NONE)
            return EDIT_DONE;
        plantfile_add_list(map, follower, slot, &inside);
        return put(text, map, follower, &inside);
    }
    const edit_step step = hand_on(text, map, follower, top);
    return step == EDIT_DONE ? part_from(text, map, follower, top) : step;
}

edit_step plantfile_keep_followers(fv_text *text, const source_map *map, size_t node, const char *attribute)
{
    size_t top = node;
    while (top != 0 && map->nodes[top].parent != 0)
        top = map->nodes[top].parent;
    const source_attr *id = top ? plantfile_source_attr(map, top, "id") : NULL;
    if (!id || !map->nodes[top].element || map->nodes[top].element == model_element(EL_KIND) ||
        strcmp(attribute, "like") == 0)
        return EDIT_DONE;
    edit_step step = EDIT_DONE;
    for (size_t i = 1; i < map->node_count && step == EDIT_DONE; i++) {
        const source_attr *like = map->nodes[i].parent == 0 ? plantfile_source_attr(map, i, "like") : NULL;
        if (like && map->nodes[i].element &&
            plantfile_source_id(map, map->text + like->value.from, like->value.to - like->value.from) == top)
            step = keep(text, map, i, top, node, attribute);
    }
    return step;
}
