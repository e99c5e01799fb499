/* SPDX-License-Identifier: MIT */
/* A plant as a file: what was said of each part and nothing else, so that defaults and kinds stay what they are. */
#include "farvessel/plantfile.h"
#include "model/contains.h"
#include "plantfile/encoding.h"

#include <string.h>

enum { WIDEST = 110 };

typedef struct {
    fv_text *out;
    int depth;
    size_t line;     /* where the last line begins */
    fv_text pending; /* an attribute before it is known whether it fits on the line */
    bool failed;     /* a value that cannot be written: a NaN that never should have been set */
} writer;

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

/* Whether a value is to be written: own ones; in a list that must be written in full also those taken over. Not what a
 * setting has outdone: reading would refuse the two together. */
static bool counts(const fv_element *element, const void *part, const fv_attr *attr, bool full)
{
    const fv_value value = *(const fv_value *)(const void *)((const char *)part + attr->offset);
    return (model_is_own(value) || (full && value.origin == FV_KIND)) && !model_is_outdone(element, part, attr);
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
static void write_known(writer *w, const fv_element *element, const void *part, bool full)
{
    char word[32];
    int common = -1;
    bool agree = true;
    for (size_t i = 0; i < element->attr_count; i++) {
        const fv_attr *attr = &element->attrs[i];
        const fv_value *value = (const fv_value *)(const void *)((const char *)part + attr->offset);
        if (model_is_text(attr) || !counts(element, part, attr, full))
            continue;
        agree = agree && (common < 0 || common == value->known);
        common = value->known;
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
    for (size_t i = 0; i < element->attr_count; i++) {
        const fv_attr *attr = &element->attrs[i];
        const fv_value *value = (const fv_value *)(const void *)((const char *)part + attr->offset);
        if (model_is_text(attr) || !counts(element, part, attr, full) || value->known == FV_KNOWN_UNSAID)
            continue;
        fv_text_add(
            &w->pending, "%s%s:%s", gap, attr->name,
            fv_word_at(fv_provenance_attr(FV_SAYS_KNOWN)->words, value->known - FV_KNOWN_TAPE, word, sizeof word));
        gap = " ";
    }
    fv_text_add(&w->pending, "\"");
    add_pending(w);
}

/* spread="bore:1 % area:factor 2" of the written values that have one. */
static void write_spread(writer *w, const fv_element *element, const void *part, bool full)
{
    const char *gap = " spread=\"";
    for (size_t i = 0; i < element->attr_count; i++) {
        const fv_attr *attr = &element->attrs[i];
        if (model_is_text(attr))
            continue;
        const fv_value value = *(const fv_value *)(const void *)((const char *)part + attr->offset);
        if (!counts(element, part, attr, full) || value.spread_as == FV_SPREAD_UNSAID)
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

static void write_attributes(writer *w, const fv_element *element, const void *part, unsigned texts_from_kind,
                             bool full)
{
    for (size_t i = 0; i < element->attr_count; i++) {
        const fv_attr *attr = &element->attrs[i];
        const char *place = (const char *)part + attr->offset;
        if (model_is_text(attr)) {
            const char *text = *(const char *const *)(const void *)place;
            if (!text || (!full && (texts_from_kind >> i & 1u)))
                continue;
            fv_text_add(&w->pending, " %s=\"", attr->name);
            plantfile_escape(text, '"', &w->pending);
            fv_text_add(&w->pending, "\"");
            add_pending(w);
        } else {
            const fv_value value = *(const fv_value *)(const void *)place;
            if (counts(element, part, attr, full))
                write_value(w, attr, value);
        }
    }
    write_known(w, element, part, full);
    write_spread(w, element, part, full);
}

static void indent(writer *w)
{
    w->line = w->out->length;
    fv_text_add(w->out, "%*s", 2 * w->depth, "");
}

/* Opens a tag and leaves it open for children; close_tag ends it in the shorter way if there were none. */
static size_t open_tag(writer *w, const fv_element *element, const void *part, bool full)
{
    const fv_part *head = part;
    indent(w);
    fv_text_add(w->out, "<%s", model_tag(element));
    write_attributes(w, element, part, model_has_head(element) ? head->texts_from_kind : 0, full);
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

/* Whether anything is said of a part or of what is inside it. */
static bool is_touched(const fv_element *element, const void *part)
{
    bool touched = model_says(element, part);
    for (const model_slot *s = model_slot_next(element, NULL); s; s = model_slot_next(element, s))
        for (size_t i = 0; i < model_slot_count(s, part) && !touched; i++) {
            const void *child = model_slot_part(s, part, i);
            touched = is_touched(model_slot_element(s, child), child);
        }
    return touched;
}

/* A list that was taken over is written only if something in it was set since; then in full, for it replaces the kind's
 * as a whole. What is always there is written if something is said of it. */
static bool is_written(const model_slot *slot, const void *owner, bool taken, bool full)
{
    bool touched = false;
    for (size_t i = 0; i < model_slot_count(slot, owner) && !touched; i++) {
        const void *part = model_slot_part(slot, owner, i);
        touched = is_touched(model_slot_element(slot, part), part);
    }
    return touched || (slot->count != MODEL_ONCE && (full || !taken));
}

static void write_children(writer *w, const fv_element *element, const void *part, bool full);

static void write_part(writer *w, const fv_element *element, const void *part, bool full)
{
    size_t opened = open_tag(w, element, part, full);
    write_children(w, element, part, full);
    close_tag(w, element, opened);
}

static void write_children(writer *w, const fv_element *element, const void *part, bool full)
{
    for (const model_slot *s = model_slot_next(element, NULL); s; s = model_slot_next(element, s)) {
        bool taken = s->bit && (((const fv_part *)part)->lists_from_kind & s->bit);
        if (!is_written(s, part, taken, full))
            continue;
        for (size_t i = 0; i < model_slot_count(s, part); i++) {
            const void *child = model_slot_part(s, part, i);
            write_part(w, model_slot_element(s, child), child, full || taken);
        }
    }
}

bool fv_plantfile_write(const fv_plant *plant, fv_text *out)
{
    if (!plant || !out)
        return false;
    writer w = {.out = out};
    fv_text_add(out, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
    if (plant->comment && !strstr(plant->comment, "--"))
        fv_text_add(out, "<!-- %s -->\n", plant->comment);
    w.line = out->length;
    fv_text_add(out, "<network xmlns=\"%s\"", FV_PLANTFILE_NAMESPACE);
    write_attributes(&w, model_element(EL_NETWORK), plant, 0, false);
    fv_text_add(out, ">\n");
    w.depth++;
    write_children(&w, model_element(EL_NETWORK), plant, false);
    fv_text_add(out, "</network>\n");
    return !out->failed && !w.failed;
}
