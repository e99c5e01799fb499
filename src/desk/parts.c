/* SPDX-License-Identifier: MIT */
/* Parts that come and go. Each is one change of several edits, which is taken back as one; the reader and the solver
 * then judge the plant as any other. */
#include "desk/session.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

enum { EDITS_MOST = 64, NAMES_MOST = 8 };
static const fv_loc nowhere = {NULL, 0};

typedef struct {
    fv_desk *desk;
    const fv_plant *plant;
    fv_edit *edits; /* in the session's arena */
    size_t count;
    const char *names[NAMES_MOST]; /* that the change gives */
    size_t name_count;
    fv_text words; /* of the change */
    bool failed;
} builder;

static fv_status refuse(fv_faults *faults, const char *fmt, const char *name)
{
    return fv_error(faults, FV_ERR_INPUT, nowhere, fmt, fv_shorten(name, 60).text);
}

static bool begin(builder *b, fv_desk *desk, fv_faults *faults)
{
    *b = (builder){.desk = desk, .plant = desk ? desk->at_now.plant : NULL};
    if (!b->plant) {
        fv_error(faults, FV_ERR_INPUT, nowhere, "there is no plant yet");
        return false;
    }
    b->edits = fv_arena_alloc(desk->arena, EDITS_MOST, sizeof *b->edits);
    b->failed = !b->edits;
    return true;
}

static void edit(builder *b, fv_edit_kind kind, const char *part, const char *attribute, const char *value)
{
    if (b->failed || b->count == EDITS_MOST) {
        b->failed = true;
        return;
    }
    fv_edit *made = &b->edits[b->count++];
    *made = (fv_edit){.kind = kind,
                      .part = fv_arena_copy(b->desk->arena, part),
                      .attribute = attribute,
                      .value = value ? fv_arena_copy(b->desk->arena, value) : NULL};
    b->failed = !made->part || (value ? !made->value : kind == FV_EDIT_PUT);
}

/* The change is entered, or nothing is. */
static fv_status finish(builder *b, fv_faults *faults)
{
    const char *words =
        b->failed || b->words.failed || !b->words.text ? NULL : fv_arena_copy(b->desk->arena, b->words.text);
    fv_text_free(&b->words);
    if (!words)
        return fv_error(faults, FV_ERR_SYSTEM, nowhere,
                        b->count == EDITS_MOST ? "too many parts for one change" : "out of memory");
    const desk_change change = {.edits = b->edits, .count = b->count, .words = words};
    return desk_add_change(b->desk, &change, faults);
}

/* ---- names ---- */

static size_t stem_of(const char *name)
{
    size_t length = strlen(name);
    while (length > 0 && isdigit((unsigned char)name[length - 1]))
        length--;
    return length;
}

typedef struct {
    const char *like;
    size_t stem;
    unsigned long most;
} highest;

static void look(highest *h, const char *name)
{
    enum { DIGITS = 6 };
    if (name && stem_of(name) == h->stem && strlen(name) <= h->stem + DIGITS && memcmp(name, h->like, h->stem) == 0) {
        const unsigned long number = strtoul(name + h->stem, NULL, 10);
        h->most = number > h->most ? number : h->most;
    }
}

static bool visit_name(void *context, const fv_stop *stop)
{
    look(context, stop->part->id);
    return true;
}

/* "bench7" where "bench6" is the highest that there is of such names, of parts and joints. */
static const char *next_name(builder *b, const char *like)
{
    highest h = {like, stem_of(like), 0};
    fv_plant_walk(b->plant, visit_name, &h);
    for (size_t i = 0; i < b->plant->node_count; i++)
        look(&h, b->plant->nodes[i]);
    for (size_t i = 0; i < b->name_count; i++)
        look(&h, b->names[i]);
    const char *name = fv_arena_printf(b->desk->arena, "%.*s%lu", (int)h.stem, like, h.most + 1);
    b->failed = b->failed || !name || b->name_count == NAMES_MOST;
    if (!b->failed)
        b->names[b->name_count++] = name;
    return name ? name : "";
}

static const void *find(const builder *b, const char *name, const char *sort)
{
    const fv_element *element;
    const void *found = name ? fv_plant_find(b->plant, name, &element) : NULL;
    return found && strcmp(element->name, sort) == 0 ? found : NULL;
}

static const fv_line *line_of(const builder *b, const char *name)
{
    for (size_t i = 0; name && i < b->plant->line_count; i++)
        if (strcmp(b->plant->lines[i]->part.id, name) == 0)
            return b->plant->lines[i];
    return NULL;
}

static const char *sort_of(const fv_line *line)
{
    static const char *const sorts[] = {[FV_LINE_HEADER] = "header", [FV_LINE_PIPE] = "pipe", [FV_LINE_HOSE] = "hose"};
    return sorts[line->kind];
}

/* The i-th line that ends at a node; NULL: there are fewer. */
static const fv_line *line_at(const builder *b, int node, size_t i)
{
    for (size_t k = 0; k < b->plant->line_count; k++) {
        const fv_line *line = b->plant->lines[k];
        if ((line->node_from == node || line->node_to == node) && i-- == 0)
            return line;
    }
    return NULL;
}

/* ---- one more vessel ---- */

/* A header like the one that ends at a joint, from there on; returns where it leads. NULL: there is none like it. */
static const char *further(builder *b, int joint, const char *far)
{
    const char *from = b->plant->nodes[joint], *to = next_name(b, from);
    const fv_line *like = NULL, *line;
    for (size_t i = 0; (line = line_at(b, joint, i)); i++)
        if (line->kind != FV_LINE_HOSE && (!like || line->node_to == joint))
            like = line;
    if (!like)
        return NULL;
    const char *name = next_name(b, like->part.id);
    edit(b, FV_EDIT_PUT, "", NULL,
         fv_arena_printf(b->desk->arena, "%s id=\"%s\" from=\"%s\" to=\"%s\" like=\"%s\"", sort_of(like), name, from,
                         to, like->part.id));
    edit(b, FV_EDIT_SET, name, "length", far);
    fv_text_add(&b->words, ", %s further along %s %s like %s", far, sort_of(like), name, like->part.id);
    return to;
}

fv_status fv_desk_add_vessel(fv_desk *desk, const char *like, const char *hose, const char *far, fv_faults *faults)
{
    builder b;
    if (!begin(&b, desk, faults))
        return FV_FAIL;
    const fv_vessel *vessel = find(&b, like, "vessel");
    if (!vessel)
        return refuse(faults, "no vessel is called '%s'", like ? like : "");
    const fv_line *own = line_at(&b, vessel->node, 0), *line = hose && hose[0] ? line_of(&b, hose) : own;
    if (!own || !line)
        return refuse(faults, own ? "no line is called '%s'" : "no line leads to %s", own ? hose : like);
    const int joint = own->node_from == vessel->node ? own->node_to : own->node_from;
    const char *name = next_name(&b, like), *hose_name = next_name(&b, line->part.id);
    const char *end = next_name(&b, b.plant->nodes[vessel->node]), *from = b.plant->nodes[joint];
    fv_text_add(&b.words, "added: vessel %s like %s, on %s %s like %s", name, like, sort_of(line), hose_name,
                line->part.id);
    if (far && far[0] && !(from = further(&b, joint, far))) {
        fv_text_free(&b.words);
        return refuse(faults, "no header leads to %s that could go on", b.plant->nodes[joint]);
    }
    edit(&b, FV_EDIT_PUT, "", NULL,
         fv_arena_printf(desk->arena, "%s id=\"%s\" from=\"%s\" to=\"%s\" like=\"%s\"", sort_of(line), hose_name, from,
                         end, line->part.id));
    edit(&b, FV_EDIT_PUT, "", NULL,
         fv_arena_printf(desk->arena, "vessel id=\"%s\" like=\"%s\" at=\"%s\"", name, like, end));
    return finish(&b, faults);
}

/* ---- a valve, a line ---- */

/* A line is like another, and has the other's fittings. */
static bool has_fittings_of(const builder *b, const fv_line *line, const fv_line *other)
{
    while (line && line != other && (line->fitting_count == 0 || line->part.lists_from_kind))
        line = line_of(b, line->part.like);
    return line == other;
}

static void say_heirs(builder *b, const fv_line *line)
{
    for (size_t i = 0; i < b->plant->line_count; i++)
        if (b->plant->lines[i] != line && has_fittings_of(b, b->plant->lines[i], line)) {
            fv_text_add(&b->words, ", and in what is like it");
            return;
        }
}

fv_status fv_desk_put_valve(fv_desk *desk, const char *type, const char *line, fv_faults *faults)
{
    builder b;
    if (!begin(&b, desk, faults))
        return FV_FAIL;
    const fv_fitting_entry *entry = type ? fv_fitting_find(type) : NULL;
    const fv_line *into = line_of(&b, line);
    if (!into || !entry || !entry->valve)
        return into ? refuse(faults, "no valve is called '%s'", type ? type : "")
                    : refuse(faults, "no line is called '%s'", line ? line : "");
    const char *name = next_name(&b, "v");
    edit(&b, FV_EDIT_PUT, line, NULL, fv_arena_printf(desk->arena, "valve id=\"%s\" type=\"%s\"", name, entry->name));
    fv_text_add(&b.words, "added: %s %s in %s %s", entry->name, name, sort_of(into), line);
    say_heirs(&b, into);
    return finish(&b, faults);
}

fv_status fv_desk_join(fv_desk *desk, const char *sort, const char *from, const char *to, const char *bore,
                       const char *length, fv_faults *faults)
{
    static const char *const stems[][2] = {{"header", "h"}, {"pipe", "p"}, {"hose", "s"}};
    builder b;
    size_t which = 0;
    if (!begin(&b, desk, faults))
        return FV_FAIL;
    while (which < 3 && strcmp(stems[which][0], sort ? sort : "") != 0)
        which++;
    const char *ends[] = {from ? from : "", to ? to : ""};
    for (size_t i = 0; which < 3 && i < 2; i++)
        if (!ends[i][0] || ends[i][strcspn(ends[i], "<>&\"' ")])
            return refuse(faults, "'%s' is no name of a joint", ends[i]);
    if (which == 3)
        return refuse(faults, "'%s' is neither header, pipe nor hose", sort ? sort : "");
    const char *name = next_name(&b, stems[which][1]);
    edit(&b, FV_EDIT_PUT, "", NULL,
         fv_arena_printf(desk->arena, "%s id=\"%s\" from=\"%s\" to=\"%s\"", sort, name, from, to));
    edit(&b, FV_EDIT_SET, name, "length", length);
    edit(&b, FV_EDIT_SET, name, "bore", bore);
    fv_text_add(&b.words, "added: %s %s from %s to %s, bore %s, length %s", sort, name, from, to,
                bore ? bore : "not said", length ? length : "not said");
    return finish(&b, faults);
}

/* ---- less ---- */

typedef struct {
    builder *b;
    const char *gone;
} following;

/* What hangs on a part and goes with it: probes, meters, tees; not what is only like it. */
static bool visit_following(void *context, const fv_stop *stop)
{
    following *f = context;
    const char *name = stop->element->name;
    const bool stays = !stop->part->id || strcmp(name, "vessel") == 0 || strcmp(name, "kind") == 0 ||
                       strcmp(name, "header") == 0 || strcmp(name, "pipe") == 0 || strcmp(name, "hose") == 0;
    for (size_t i = 0; !stays && i < stop->element->attr_count; i++) {
        const fv_attr *attr = &stop->element->attrs[i];
        const char *text = attr->dim == FV_DIM_ID ? *fv_attr_text(stop->part, attr) : NULL;
        if (text && strcmp(attr->name, "id") != 0 && strcmp(text, f->gone) == 0) {
            fv_text_add(&f->b->words, ", %s %s", name, stop->part->id);
            edit(f->b, FV_EDIT_TAKE_OUT, stop->part->id, NULL, NULL);
            break;
        }
    }
    return true;
}

static void take_out(builder *b, const char *part)
{
    following f = {b, part};
    edit(b, FV_EDIT_TAKE_OUT, part, NULL, NULL);
    fv_plant_walk(b->plant, visit_following, &f);
}

static bool goes(const builder *b, const char *part)
{
    for (size_t i = 0; part && i < b->count; i++)
        if (strcmp(b->edits[i].part, part) == 0)
            return true;
    return false;
}

/* The one line that is left at a joint where nothing else is; NULL: there are more, or none. */
static const fv_line *dead_end(const builder *b, int node)
{
    const fv_plant *plant = b->plant;
    const fv_line *left = NULL, *line;
    size_t others = 0;
    for (size_t i = 0; i < plant->boiler_count; i++)
        others += plant->boilers[i]->node == node;
    for (size_t i = 0; i < plant->drip_count; i++)
        others += plant->drips[i]->node == node;
    for (size_t i = 0; i < plant->vessel_count; i++)
        others += plant->vessels[i]->node == node && !goes(b, plant->vessels[i]->part.id);
    for (size_t i = 0; (line = line_at(b, node, i)); i++)
        if (!goes(b, line->part.id)) {
            others += left != NULL;
            left = line;
        }
    return others == 0 ? left : NULL;
}

/* The line that a fitting is in; NULL: it is none. */
static const fv_line *line_with(const builder *b, const void *fitting)
{
    for (size_t i = 0; i < b->plant->line_count; i++)
        for (size_t k = 0; k < b->plant->lines[i]->fitting_count; k++)
            if (b->plant->lines[i]->fittings[k] == fitting)
                return b->plant->lines[i];
    return NULL;
}

/* A line goes, and what then leads nowhere with it. */
static void take_out_line(builder *b, const fv_line *line, int from)
{
    while (line && !b->failed) {
        fv_text_add(&b->words, ", %s %s", sort_of(line), line->part.id);
        take_out(b, line->part.id);
        from = line->node_from == from ? line->node_to : line->node_from;
        line = dead_end(b, from);
    }
}

typedef struct {
    const builder *b;
    const char *like; /* what is like a part that goes; NULL: nothing */
    const char *gone;
} heir;

static bool visit_heir(void *context, const fv_stop *stop)
{
    heir *h = context;
    const fv_attr *attr = fv_attr_find(stop->element, "like");
    const char *like = attr ? *fv_attr_text(stop->part, attr) : NULL;
    if (like && stop->part->id && goes(h->b, like) && !goes(h->b, stop->part->id)) {
        h->like = stop->part->id;
        h->gone = like;
    }
    return !h->like;
}

fv_status fv_desk_take_away(fv_desk *desk, const char *part, fv_faults *faults)
{
    builder b;
    const fv_element *element;
    if (!begin(&b, desk, faults))
        return FV_FAIL;
    const void *found = part ? fv_plant_find(b.plant, part, &element) : NULL;
    if (!found)
        return refuse(faults, "nothing is called '%s'", part ? part : "");
    fv_text_add(&b.words, "taken away: %s %s", element->name, part);
    const fv_line *with = line_with(&b, found);
    if (with)
        say_heirs(&b, with);
    take_out(&b, part);
    const fv_vessel *vessel = find(&b, part, "vessel");
    if (vessel)
        take_out_line(&b, dead_end(&b, vessel->node), vessel->node);
    heir h = {.b = &b};
    fv_plant_walk(b.plant, visit_heir, &h);
    if (!h.like || b.failed)
        return finish(&b, faults);
    fv_text_free(&b.words);
    return fv_error(faults, FV_ERR_INPUT, nowhere, "%s is what %s is like, so it stays: take away %s instead", h.gone,
                    h.like, h.like);
}
