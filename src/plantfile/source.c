/* SPDX-License-Identifier: MIT */
/* Tags and attributes of a well-formed text without a DTD, found by their bytes: comments, CDATA and processing
 * instructions are stepped over. What is not well-formed was refused before and ends the map early here. */
#include "plantfile/source.h"

#include <stdlib.h>
#include <string.h>

enum { INSIDE_MOST = 64 };

typedef struct {
    source_map *map;
    size_t at;
    size_t open[INSIDE_MOST]; /* nodes that are not closed */
    size_t depth;
} scan;

static bool is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '\r' || c == '\n';
}

static size_t blanks(const source_map *map, size_t at)
{
    while (at < map->length && is_blank(map->text[at]))
        at++;
    return at;
}

static bool begins(const source_map *map, size_t at, const char *with)
{
    const size_t length = strlen(with);
    return map->length - at >= length && memcmp(map->text + at, with, length) == 0;
}

/* Behind the next `what`; the end of the text where there is none. */
static size_t behind(const source_map *map, size_t at, const char *what)
{
    while (at < map->length && !begins(map, at, what))
        at++;
    return at < map->length ? at + strlen(what) : at;
}

static size_t name_end(const source_map *map, size_t at)
{
    while (at < map->length && !is_blank(map->text[at]) && !strchr("=/>", map->text[at]))
        at++;
    return at;
}

/* Without its prefix. */
static source_span local(const source_map *map, source_span name)
{
    for (size_t i = name.from; i < name.to; i++)
        if (map->text[i] == ':')
            return (source_span){i + 1, name.to};
    return name;
}

bool plantfile_source_is(const source_map *map, source_span span, const char *word)
{
    const size_t length = strlen(word);
    return span.to - span.from == length && memcmp(map->text + span.from, word, length) == 0;
}

const source_attr *plantfile_source_attr(const source_map *map, size_t node, const char *name)
{
    const source_node *n = &map->nodes[node];
    for (size_t i = n->first_attr; i < n->first_attr + n->attr_count; i++)
        if (plantfile_source_is(map, map->attrs[i].name, name))
            return &map->attrs[i];
    return NULL;
}

static const fv_element *element_of(const source_map *map, const source_node *node, bool top)
{
    char tag[32];
    const source_span name = local(map, node->name);
    const fv_element *parent = top ? NULL : map->nodes[node->parent].element, *element = NULL;
    if (top)
        return model_element(EL_NETWORK);
    if (!parent || name.to - name.from >= sizeof tag)
        return NULL;
    memcpy(tag, map->text + name.from, name.to - name.from);
    tag[name.to - name.from] = '\0';
    return model_slot_find(parent, tag, &element) ? element : NULL;
}

/* One attribute; false: there is none, or memory is out. */
static bool attribute(scan *s, source_node *node)
{
    source_map *map = s->map;
    void *list = map->attrs;
    const size_t from = s->at = blanks(map, s->at), to = name_end(map, from);
    const size_t quote = blanks(map, blanks(map, to) + 1);
    if (to == from || quote >= map->length)
        return false;
    const char *end = memchr(map->text + quote + 1, map->text[quote], map->length - quote - 1);
    if (!end || !fv_grow(&list, &map->attr_capacity, map->attr_count + 1, sizeof *map->attrs))
        return false;
    map->attrs = list;
    map->attrs[map->attr_count++] = (source_attr){{from, to}, {quote + 1, (size_t)(end - map->text)}};
    node->attr_count++;
    s->at = (size_t)(end - map->text) + 1;
    return true;
}

static bool start_tag(scan *s)
{
    source_map *map = s->map;
    void *list = map->nodes;
    const bool top = s->depth == 0;
    if (s->depth == INSIDE_MOST || !fv_grow(&list, &map->node_capacity, map->node_count + 1, sizeof *map->nodes))
        return false;
    map->nodes = list;
    source_node *node = &map->nodes[map->node_count];
    *node = (source_node){.from = s->at, .parent = top ? map->node_count : s->open[s->depth - 1]};
    node->name = (source_span){s->at + 1, name_end(map, s->at + 1)};
    node->element = element_of(map, node, top);
    node->first_attr = map->attr_count;
    s->at = node->name.to;
    while (attribute(s, node))
        ;
    s->at = blanks(map, s->at);
    node->empty = begins(map, s->at, "/>");
    if (!node->empty && !begins(map, s->at, ">"))
        return false;
    s->at += node->empty ? 2 : 1;
    node->open_end = node->close = node->to = s->at;
    if (!node->empty)
        s->open[s->depth++] = map->node_count;
    map->node_count++;
    return true;
}

static bool end_tag(scan *s)
{
    if (s->depth == 0)
        return false;
    source_node *node = &s->map->nodes[s->open[--s->depth]];
    node->close = s->at;
    node->to = s->at = behind(s->map, s->at, ">");
    return true;
}

bool plantfile_source_read(source_map *map, const char *text, size_t length)
{
    *map = (source_map){.text = text, .length = length};
    scan s = {.map = map};
    bool good = true;
    while (good) {
        const char *next = s.at < length ? memchr(text + s.at, '<', length - s.at) : NULL;
        if (!next)
            break;
        s.at = (size_t)(next - text);
        if (begins(map, s.at, "<!--"))
            s.at = behind(map, s.at + 4, "-->");
        else if (begins(map, s.at, "<![CDATA["))
            s.at = behind(map, s.at, "]]>");
        else if (begins(map, s.at, "<?"))
            s.at = behind(map, s.at, "?>");
        else if (begins(map, s.at, "</"))
            good = end_tag(&s);
        else
            good = start_tag(&s);
    }
    return good && s.depth == 0 && map->node_count > 0;
}

void plantfile_source_free(source_map *map)
{
    free(map->nodes);
    free(map->attrs);
    *map = (source_map){.text = NULL};
}
