/* SPDX-License-Identifier: MIT */
/* Putting text into a plant file: attributes, parts and lists in the way that its other lines are written. */
#include "plantfile/edit.h"

#include "plantfile/encoding.h"

#include <string.h>

bool plantfile_splice(fv_text *text, size_t from, size_t to, const fv_text *put)
{
    fv_text made = {0};
    fv_text_add(&made, "%.*s%s%s", (int)from, text->text, put->text ? put->text : "", text->text + to);
    made.failed = made.failed || put->failed;
    if (made.failed) {
        fv_text_free(&made);
        return false;
    }
    fv_text_free(text);
    *text = made;
    return true;
}

size_t plantfile_place_for_attr(const source_map *map, size_t node)
{
    const source_node *n = &map->nodes[node];
    size_t at = n->name.to;
    for (size_t i = n->first_attr; i < n->first_attr + n->attr_count; i++)
        if (!plantfile_source_is(map, map->attrs[i].name, "known") &&
            !plantfile_source_is(map, map->attrs[i].name, "spread"))
            at = map->attrs[i].value.to + 1;
    return at;
}

bool plantfile_write_attribute(fv_text *text, const source_map *map, size_t node, const char *name, const char *value)
{
    const source_attr *attr = plantfile_source_attr(map, node, name);
    fv_text put = {0};
    bool good = true;
    if (attr && value) {
        plantfile_escape(value, map->text[attr->value.to], &put);
        good = plantfile_splice(text, attr->value.from, attr->value.to, &put);
    } else if (attr) {
        size_t from = attr->name.from;
        while (from > 0 && strchr(" \t\r\n", map->text[from - 1]))
            from--;
        good = plantfile_splice(text, from, attr->value.to + 1, &put);
    } else if (value) {
        fv_text_add(&put, " %s=\"", name);
        plantfile_escape(value, '"', &put);
        fv_text_add(&put, "\"");
        const size_t at = plantfile_place_for_attr(map, node);
        good = plantfile_splice(text, at, at, &put);
    }
    fv_text_free(&put);
    return good;
}

void plantfile_add_line(const source_map *map, size_t node, const char *more, fv_text *out)
{
    const size_t at = map->nodes[node].from;
    size_t begin = at;
    while (begin > 0 && (map->text[begin - 1] == ' ' || map->text[begin - 1] == '\t'))
        begin--;
    if (begin == 0 || map->text[begin - 1] != '\n')
        return;
    const bool two = begin > 1 && map->text[begin - 2] == '\r';
    fv_text_add(out, "%s%.*s%s", two ? "\r\n" : "\n", (int)(at - begin), map->text + begin, more);
}

bool plantfile_put_inside(fv_text *text, const source_map *map, size_t node, const fv_text *inside)
{
    const source_node *n = &map->nodes[node];
    fv_text put = {0};
    size_t from, to;
    if (n->empty) {
        from = n->open_end - 2;
        to = n->open_end;
        fv_text_add(&put, ">%s", inside->text ? inside->text : "");
        plantfile_add_line(map, node, "", &put);
        fv_text_add(&put, "</%.*s>", (int)(n->name.to - n->name.from), map->text + n->name.from);
    } else {
        from = n->close;
        while (from > n->open_end && strchr(" \t\r\n", map->text[from - 1]))
            from--;
        to = from;
        fv_text_add(&put, "%s", inside->text ? inside->text : "");
    }
    put.failed = put.failed || inside->failed;
    const bool good = plantfile_splice(text, from, to, &put);
    fv_text_free(&put);
    return good;
}

source_span plantfile_prefix_of(const source_map *map, size_t node)
{
    const source_span name = map->nodes[node].name;
    for (size_t i = name.from; i < name.to; i++)
        if (map->text[i] == ':')
            return (source_span){name.from, i + 1};
    return (source_span){name.from, name.from};
}

static bool stands_in(const source_map *map, size_t i, size_t owner, const model_slot *slot)
{
    const fv_element *e = map->nodes[i].element;
    return map->nodes[i].parent == owner && i != owner && e && e >= model_element(slot->first) &&
           e <= model_element(slot->last);
}

size_t plantfile_child_from(const source_map *map, size_t owner, const model_slot *slot, size_t from)
{
    for (size_t i = from; i < map->node_count && map->nodes[i].from < map->nodes[owner].to; i++)
        if (stands_in(map, i, owner, slot))
            return i;
    return SOURCE_NONE;
}

size_t plantfile_owner_of_list(const source_map *map, size_t node, const model_slot *slot)
{
    for (size_t far = 0; far < map->node_count; far++) {
        const source_attr *like = plantfile_source_attr(map, node, "like");
        if (!like)
            return SOURCE_NONE;
        node = plantfile_source_id(map, map->text + like->value.from, like->value.to - like->value.from);
        if (node == SOURCE_NONE)
            return SOURCE_NONE;
        if (plantfile_child_from(map, node, slot, node + 1) != SOURCE_NONE)
            return node;
    }
    return SOURCE_NONE;
}

void plantfile_add_copy(const source_map *map, size_t node, fv_text *out)
{
    const source_node *n = &map->nodes[node];
    const source_attr *id = plantfile_source_attr(map, node, "id");
    size_t from = n->to, to = n->to;
    if (id) {
        to = id->value.to + 1;
        from = id->name.from;
        while (from > n->name.to && strchr(" \t\r\n", map->text[from - 1]))
            from--;
    }
    fv_text_add(out, "%.*s%.*s", (int)(from - n->from), map->text + n->from, (int)(n->to - to), map->text + to);
}

void plantfile_add_list(const source_map *map, size_t owner, const model_slot *slot, fv_text *out)
{
    const size_t from = plantfile_owner_of_list(map, owner, slot);
    for (size_t i = 0; from != SOURCE_NONE && i < map->node_count; i++)
        if (stands_in(map, i, from, slot)) {
            plantfile_add_line(map, owner, "  ", out);
            plantfile_add_copy(map, i, out);
        }
}
