/* SPDX-License-Identifier: MIT */
/* The plant as it was entered: every value that the file gives, or a setting on top of it, in the order of the file and
 * in the units in which such a thing is measured. */
#include "page/parts.h"

#include <stdlib.h>

typedef struct {
    int line; /* of the file */
    size_t order;
    const fv_stop *seen;
} entry;

typedef struct {
    fv_arena *arena;
    entry *entries;
    size_t count, capacity;
    bool failed;
} entries;

static bool is_given(const fv_value *value)
{
    return value->origin == FV_GIVEN || value->origin == FV_SETTING;
}

static bool is_text(const fv_attr *attr)
{
    return attr->dim == FV_DIM_TEXT || attr->dim == FV_DIM_ID;
}

/* Text of row `i` of the element as the file has it; NULL: not said here. */
static const char *given_text(const fv_stop *seen, size_t i)
{
    const char *text = *fv_attr_text(seen->part, &seen->element->attrs[i]);
    return text && !((seen->part->texts_from_kind >> i) & 1u) && text != seen->part->id ? text : NULL;
}

static const fv_value *given_value(const fv_stop *seen, size_t i)
{
    const fv_value *value = fv_attr_value(seen->part, &seen->element->attrs[i]);
    return is_given(value) ? value : NULL;
}

static void add_known(const fv_value *value, fv_text *out)
{
    static const char *const words[] = {[FV_KNOWN_UNSAID] = "",
                                        [FV_KNOWN_TAPE] = " (tape)",
                                        [FV_KNOWN_NAMEPLATE] = " (nameplate)",
                                        [FV_KNOWN_PROBE] = " (probe)",
                                        [FV_KNOWN_GUESS] = " (guess)"};
    if (value->known < sizeof words / sizeof *words)
        fv_text_add(out, "%s", words[value->known]);
    if (value->origin == FV_SETTING)
        fv_text_add(out, " (changed on top of the file)");
}

static void add_value(const fv_attr *attr, const fv_value *value, fv_text *out)
{
    char buffer[96];
    if (attr->dim == FV_DIM_WORD)
        fv_word_at(attr->words, (int)value->v, buffer, sizeof buffer);
    else if (!fv_quantity_print(attr->dim, value->v, buffer, sizeof buffer))
        return;
    fv_text_add(out, "%s", buffer);
    add_known(value, out);
}

/* "from t1, to c1, length 3 m, bore 19 mm" */
static void add_all(const fv_stop *seen, fv_text *out)
{
    const char *between = "";
    for (size_t i = 0; i < seen->element->attr_count; i++) {
        const fv_attr *attr = &seen->element->attrs[i];
        const char *text = is_text(attr) ? given_text(seen, i) : NULL;
        const fv_value *value = is_text(attr) ? NULL : given_value(seen, i);
        if (!text && !value)
            continue;
        fv_text_add(out, "%s%s ", between, attr->name);
        if (text)
            fv_text_add(out, "%s", text);
        else
            add_value(attr, value, out);
        between = ", ";
    }
}

static bool collect(void *context, const fv_stop *seen)
{
    entries *e = context;
    fv_text words = {0};
    add_all(seen, &words);
    bool empty = words.length == 0 || seen->taken;
    e->failed = e->failed || words.failed;
    fv_text_free(&words);
    if (empty || e->failed)
        return !e->failed;
    void *list = e->entries;
    fv_stop *copy = fv_arena_alloc(e->arena, 1, sizeof *copy);
    e->failed = !copy || !fv_grow(&list, &e->capacity, e->count + 1, sizeof *e->entries);
    if (e->failed)
        return false;
    *copy = *seen;
    e->entries = list;
    e->entries[e->count] = (entry){seen->part->loc.line, e->count, copy};
    e->count++;
    return true;
}

static int in_file_order(const void *a, const void *b)
{
    const entry *x = a, *y = b;
    return x->line != y->line ? (x->line < y->line ? -1 : 1) : x->order < y->order ? -1 : x->order > y->order;
}

/* "hose s1", "wall 2 of bench" */
static void name(const fv_stop *seen, fv_text *out)
{
    fv_text_add(out, "%s", seen->element->name);
    if (seen->part->id)
        fv_text_add(out, " %s", seen->part->id);
    else if (seen->number > 0)
        fv_text_add(out, " %zu", seen->number);
    if (seen->owner && seen->owner->id)
        fv_text_add(out, " of %s", seen->owner->id);
}

static void rows(page_doc *d, const entries *e)
{
    static const page_doc_column columns[] = {
        {"part", "", DOC_WORD}, {"as entered", "", DOC_PROSE}, {"line of the file", "", DOC_NUMBER}};
    page_doc_table(d, "Every value that was given", columns, sizeof columns / sizeof *columns);
    for (size_t i = 0; i < e->count; i++) {
        fv_text who = {0}, what = {0};
        name(e->entries[i].seen, &who);
        add_all(e->entries[i].seen, &what);
        page_doc_cell(d, "%s", page_doc_words(d, &who));
        page_doc_cell(d, "%s", page_doc_words(d, &what));
        page_doc_cell(d, "%d", e->entries[i].line);
        fv_text_free(&who);
        fv_text_free(&what);
    }
    page_doc_table_end(d);
}

void page_entered(page_doc *d)
{
    entries e = {.arena = fv_arena_new()};
    e.failed = !e.arena;
    page_doc_section(d, "entered", "The plant as entered");
    page_doc_paragraph(d, NULL, "What was measured and written down, for whoever checks it against the plant.");
    if (!e.failed)
        fv_plant_walk(d->v->plant, collect, &e);
    if (!e.failed) {
        qsort(e.entries, e.count, sizeof *e.entries, in_file_order);
        page_doc_fold(d, "Show every value");
        rows(d, &e);
        page_doc_end(d);
    } else {
        page_doc_fail(d);
    }
    page_doc_end(d);
    free(e.entries);
    fv_arena_free(e.arena);
}
