/* SPDX-License-Identifier: MIT */
/* A plant as a file: what was said of each part and nothing else, so that defaults and kinds stay what they are. A part
 * that is like another one which was changed alone also says what it keeps; where a file has no words for that (what
 * the other says now, it leaves open), it is written in full and is like nothing. */
#include "farvessel/plantfile.h"
#include "model/contains.h"
#include "plantfile/encoding.h"

#include <math.h>
#include <string.h>

enum { WIDEST = 110 };

typedef struct {
    fv_text *out;
    const fv_plant *plant;
    int depth;
    size_t line;     /* where the last line begins */
    fv_text pending; /* an attribute before it is known whether it fits on the line */
    bool failed;     /* a value that cannot be written: a NaN that never should have been set */
} writer;

/* A part and how it is written. */
typedef struct {
    const fv_element *element;
    const void *part;
    const void
        *from; /* what reading takes over from, in a part of the plant that it is like; NULL: from nothing or a kind */
    bool full; /* also what was taken over */
} written;

/* Puts ` name="value"` on the line, or on one of its own if that would be too long. */
static void add_pending(writer *w)
{
    if (w->pending.text && w->out->length - w->line + w->pending.length > WIDEST) {
        fv_text_add(w->out, "\n%*s", 2 * w->depth + 3, "");
        w->line = w->out->length - (size_t)(2 * w->depth + 3);
    }
    if (w->pending.text)
        fv_text_add(w->out, "%s", w->pending.text);
    w->failed = w->failed || w->pending.failed;
    fv_text_free(&w->pending);
}

static fv_value value_at(const void *part, const fv_attr *attr)
{
    return *(const fv_value *)(const void *)((const char *)part + attr->offset);
}

/* Whether reading would take over another value than this one. */
static bool differs(const written *at, const fv_attr *attr)
{
    if (!at->from || model_is_own(value_at(at->part, attr)) || value_at(at->from, attr).origin < FV_KIND)
        return false;
    const double mine = value_at(at->part, attr).v, theirs = value_at(at->from, attr).v;
    return mine != theirs && !(isnan(mine) && isnan(theirs));
}

/* Whether a value is to be written: own ones; in a list that must be written in full also those taken over. Not what a
 * setting has outdone: reading would refuse the two together. */
static bool counts(const written *at, const fv_attr *attr)
{
    const fv_value value = value_at(at->part, attr);
    const bool kept = (at->full && value.origin == FV_KIND) || (differs(at, attr) && !isnan(value.v));
    return (model_is_own(value) || kept) && !model_is_outdone(at->element, at->part, attr);
}

static void write_value(writer *w, const fv_attr *attr, fv_value value)
{
    char word[64];
    fv_text_add(&w->pending, " %s=\"", attr->name);
    if (attr->dim == FV_DIM_WORD)
        fv_text_add(&w->pending, "%s", fv_word_at(attr->words, fv_word(value), word, sizeof word));
    else
        w->failed = !fv_quantity_write(attr->dim, value.v, &w->pending) || w->failed;
    fv_text_add(&w->pending, "\"");
    add_pending(w);
}

/* known="tape" where all written values agree, known="bore:tape length:guess" where they do not. */
static void write_known(writer *w, const written *at)
{
    char word[32];
    int common = -1;
    bool agree = true;
    for (size_t i = 0; i < at->element->attr_count; i++) {
        const fv_attr *attr = &at->element->attrs[i];
        if (model_is_text(attr) || !counts(at, attr))
            continue;
        const fv_value value = value_at(at->part, attr);
        agree = agree && (common < 0 || common == value.known);
        common = value.known;
    }
    if (common < 0 || (agree && common == FV_KNOWN_UNSAID))
        return;
    if (agree) {
        fv_text_add(&w->pending, " known=\"%s\"",
                    fv_word_at(fv_provenance_attr(FV_SAYS_KNOWN)->words, common - FV_KNOWN_TAPE, word, sizeof word));
        add_pending(w);
        return;
    }
    const char *gap = "";
    fv_text_add(&w->pending, " known=\"");
    for (size_t i = 0; i < at->element->attr_count; i++) {
        const fv_attr *attr = &at->element->attrs[i];
        if (model_is_text(attr) || !counts(at, attr) || value_at(at->part, attr).known == FV_KNOWN_UNSAID)
            continue;
        const int known = value_at(at->part, attr).known;
        fv_text_add(&w->pending, "%s%s:%s", gap, attr->name,
                    fv_word_at(fv_provenance_attr(FV_SAYS_KNOWN)->words, known - FV_KNOWN_TAPE, word, sizeof word));
        gap = " ";
    }
    fv_text_add(&w->pending, "\"");
    add_pending(w);
}

/* spread="bore:1 % area:factor 2" of the written values that have one. */
static void write_spread(writer *w, const written *at)
{
    const char *gap = " spread=\"";
    for (size_t i = 0; i < at->element->attr_count; i++) {
        const fv_attr *attr = &at->element->attrs[i];
        if (model_is_text(attr) || !counts(at, attr))
            continue;
        const fv_value value = value_at(at->part, attr);
        if (value.spread_as == FV_SPREAD_UNSAID)
            continue;
        fv_text_add(&w->pending, "%s%s:", gap, attr->name);
        gap = " ";
        if (value.spread_as == FV_SPREAD_FACTOR)
            fv_text_add(&w->pending, "factor %.6g", (double)value.spread);
        else if (attr->dim == FV_DIM_TEMPERATURE || attr->dim == FV_DIM_TEMPERATURE_DIFFERENCE)
            fv_text_add(&w->pending, "%.6g K", (double)value.spread);
        else
            fv_text_add(&w->pending, "%.6g %%", 100 * (double)value.spread);
    }
    if (*gap == ' ' && gap[1] == '\0') {
        fv_text_add(&w->pending, "\"");
        add_pending(w);
    }
}

static void write_attributes(writer *w, const written *at)
{
    const fv_element *element = at->element;
    const unsigned taken_over = model_has_head(element) ? ((const fv_part *)at->part)->texts_from_kind : 0;
    for (size_t i = 0; i < element->attr_count; i++) {
        const fv_attr *attr = &element->attrs[i];
        if (model_is_text(attr)) {
            const char *text = *(const char *const *)(const void *)((const char *)at->part + attr->offset);
            if (!text || (!at->full && (taken_over >> i & 1u)) || (at->full && strcmp(attr->name, "like") == 0))
                continue;
            fv_text_add(&w->pending, " %s=\"", attr->name);
            plantfile_escape(text, '"', &w->pending);
            fv_text_add(&w->pending, "\"");
            add_pending(w);
        } else if (counts(at, attr)) {
            write_value(w, attr, value_at(at->part, attr));
        }
    }
    write_known(w, at);
    write_spread(w, at);
}

static void indent(writer *w)
{
    w->line = w->out->length;
    fv_text_add(w->out, "%*s", 2 * w->depth, "");
}

/* Opens a tag and leaves it open for children; close_tag ends it in the shorter way if there were none. */
static size_t open_tag(writer *w, const written *at)
{
    indent(w);
    fv_text_add(w->out, "<%s", model_tag(at->element));
    write_attributes(w, at);
    fv_text_add(w->out, ">\n");
    w->depth++;
    return w->out->length;
}

static void close_tag(writer *w, const fv_element *element, size_t opened)
{
    w->depth--;
    if (w->out->failed)
        return;
    if (w->out->length == opened) {
        w->out->length -= 2; /* ">\n" */
        w->out->text[w->out->length] = '\0';
        fv_text_add(w->out, "/>\n");
    } else {
        indent(w);
        fv_text_add(w->out, "</%s>\n", model_tag(element));
    }
}

static bool is_taken(const model_slot *slot, const void *owner)
{
    return slot->bit && (((const fv_part *)owner)->lists_from_kind & slot->bit);
}

static bool is_unsayable(const writer *w, const written *at);

static written child_of(const writer *w, const written *owner, const model_slot *slot, size_t i)
{
    const void *part = model_slot_part(slot, owner->part, i);
    const bool both = owner->from && i < model_slot_count(slot, owner->from) &&
                      (slot->count == MODEL_ONCE || is_taken(slot, owner->part));
    written child = {.element = model_slot_element(slot, part),
                     .part = part,
                     .from = both ? model_slot_part(slot, owner->from, i) : NULL,
                     .full = owner->full};
    const char *like = model_has_head(child.element) ? ((const fv_part *)part)->like : NULL;
    const fv_element *element;
    const fv_part *from = like ? fv_plant_find(w->plant, like, &element) : NULL;
    if (from && element != model_element(EL_KIND))
        child.from = from;
    child.full = child.full || is_unsayable(w, &child);
    return child;
}

/* Whether a part leaves open what reading would give it from the one that it is like. In a list that is no matter: it
 * is written in full. */
static bool is_unsayable(const writer *w, const written *at)
{
    bool found = false;
    for (size_t i = 0; i < at->element->attr_count && at->from && !found; i++) {
        const fv_attr *attr = &at->element->attrs[i];
        found = !model_is_text(attr) && differs(at, attr) && isnan(value_at(at->part, attr).v);
    }
    for (const model_slot *s = model_slot_next(at->element, NULL); s && at->from && !found;
         s = model_slot_next(at->element, s))
        if (s->count == MODEL_ONCE) {
            const written child = child_of(w, at, s, 0);
            found = child.full && !at->full;
        }
    return found;
}

/* Whether anything is to be said of a part or of what is inside it. */
static bool is_touched(const writer *w, const written *at)
{
    bool touched = model_says(at->element, at->part);
    for (size_t i = 0; i < at->element->attr_count && !touched; i++)
        touched = !model_is_text(&at->element->attrs[i]) && differs(at, &at->element->attrs[i]);
    for (const model_slot *s = model_slot_next(at->element, NULL); s; s = model_slot_next(at->element, s))
        for (size_t i = 0; i < model_slot_count(s, at->part) && !touched; i++) {
            const written child = child_of(w, at, s, i);
            touched = is_touched(w, &child);
        }
    return touched;
}

/* A list that was taken over is written only if something in it was set since; then in full, for it replaces the kind's
 * as a whole. What is always there is written if something is said of it. */
static bool is_written(const writer *w, const model_slot *slot, const written *owner)
{
    bool touched = false;
    for (size_t i = 0; i < model_slot_count(slot, owner->part) && !touched; i++) {
        const written child = child_of(w, owner, slot, i);
        touched = is_touched(w, &child);
    }
    return touched || (slot->count != MODEL_ONCE && (owner->full || !is_taken(slot, owner->part)));
}

static void write_children(writer *w, const written *at);

static void write_part(writer *w, const written *at)
{
    size_t opened = open_tag(w, at);
    write_children(w, at);
    close_tag(w, at->element, opened);
}

static void write_children(writer *w, const written *at)
{
    for (const model_slot *s = model_slot_next(at->element, NULL); s; s = model_slot_next(at->element, s)) {
        if (!is_written(w, s, at))
            continue;
        for (size_t i = 0; i < model_slot_count(s, at->part); i++) {
            written child = child_of(w, at, s, i);
            child.full = child.full || is_taken(s, at->part);
            write_part(w, &child);
        }
    }
}

bool fv_plantfile_write(const fv_plant *plant, fv_text *out)
{
    if (!plant || !out)
        return false;
    writer w = {.out = out, .plant = plant};
    const written network = {.element = model_element(EL_NETWORK), .part = plant};
    fv_text_add(out, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
    if (plant->comment && !strstr(plant->comment, "--"))
        fv_text_add(out, "<!-- %s -->\n", plant->comment);
    w.line = out->length;
    fv_text_add(out, "<network xmlns=\"%s\"", FV_PLANTFILE_NAMESPACE);
    write_attributes(&w, &network);
    fv_text_add(out, ">\n");
    w.depth++;
    write_children(&w, &network);
    fv_text_add(out, "</network>\n");
    return !out->failed && !w.failed;
}
