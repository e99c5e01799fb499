/* SPDX-License-Identifier: MIT */
/* The list of notes, and how it is written. */
#include "print/notes.h"
#include "print/json.h"
#include "print/screen.h"
#include "print/reword.h"

#include <stdlib.h>
#include <string.h>

enum { NAMES_SHOWN = 6 };

void print_notes_free(print_notes *notes)
{
    fv_arena_free(notes->arena);
    free(notes->notes);
    *notes = (print_notes){0};
}

void print_note_add(print_notes *notes, const char *id, const char *fmt, ...)
{
    if (!notes->arena)
        notes->arena = fv_arena_new();
    void *list = notes->notes;
    fv_text text = {0};
    va_list args;
    va_start(args, fmt);
    fv_text_addv(&text, fmt, args);
    va_end(args);
    bool grown = fv_grow(&list, &notes->capacity, notes->count + 1, sizeof(print_note));
    char *copy = notes->arena && text.text ? fv_arena_copy(notes->arena, text.text) : NULL;
    notes->failed = notes->failed || !grown || !copy || text.failed;
    if (grown)
        notes->notes = list;
    if (!notes->failed)
        notes->notes[notes->count++] = (print_note){.id = id, .text = copy};
    fv_text_free(&text);
}

void print_note_part(print_notes *notes, const char *part)
{
    if (notes->failed)
        return;
    notes->failed = !print_names_push(&notes->notes[notes->count - 1].parts, notes->arena, part);
}

void print_notes_text(const print_notes *notes, fv_text *out)
{
    for (size_t i = 0; i < notes->count; i++) {
        fv_text line = {0};
        print_names_say(&notes->notes[i].parts, NAMES_SHOWN, &line);
        fv_text_add(&line, "%s%s", notes->notes[i].parts.count ? ": " : "", notes->notes[i].text);
        print_say(out, "  - ", &line);
    }
    out->failed = out->failed || notes->failed;
}

json_t *print_notes_json(const print_notes *notes)
{
    json_t *array = notes->failed ? NULL : json_array();
    for (size_t i = 0; array && i < notes->count; i++) {
        const print_note *note = &notes->notes[i];
        json_t *object = json_pack("{s:s, s:o, s:o}", "id", note->id, "text", print_json_text(note->text), "parts",
                                   print_json_names(&note->parts));
        print_json_append(&array, object);
    }
    return array;
}

/* True of a caution that was not given before: every solve of a study says the same again. */
static bool is_remark(const fv_faults *remarks, size_t i)
{
    const fv_fault *fault = fv_faults_at(remarks, i);
    for (size_t j = 0; j < i; j++) {
        const fv_fault *earlier = fv_faults_at(remarks, j);
        if (earlier->caution && earlier->line == fault->line && strcmp(earlier->text, fault->text) == 0)
            return false;
    }
    return fault->caution;
}

/* The part that a remark begins with, as in "header 'h1': its bore ..."; length 0: none. */
static const char *name_in(const char *text, size_t *length)
{
    const char *open = strchr(text, '\''), *close = open ? strstr(open, "':") : NULL;
    *length = close ? (size_t)(close + 1 - open) : 0;
    return close ? open : text;
}

/* The same is said of another part. */
static bool are_alike(const fv_fault *a, const fv_fault *b)
{
    size_t in_a, in_b;
    const char *name_a = name_in(a->text, &in_a), *name_b = name_in(b->text, &in_b);
    const ptrdiff_t before = name_a - a->text;
    return b->caution && in_a > 0 && in_b > 0 && before == name_b - b->text &&
           strncmp(a->text, b->text, (size_t)before) == 0 && strcmp(name_a + in_a, name_b + in_b) == 0;
}

bool print_remark(const fv_faults *remarks, size_t i, fv_unit_system units, fv_text *place, fv_text *out)
{
    const fv_fault *fault = fv_faults_at(remarks, i);
    size_t length, others = 0;
    const char *name = name_in(fault->text, &length);
    for (size_t j = 0; j < i; j++)
        if (are_alike(fault, fv_faults_at(remarks, j)))
            return false;
    if (!is_remark(remarks, i))
        return false;
    fv_text_add(out, "%.*s", (int)(name + length - fault->text), fault->text);
    for (size_t j = i + 1; j < fv_faults_count(remarks); j++) {
        size_t also;
        const char *other = name_in(fv_faults_at(remarks, j)->text, &also);
        if (!are_alike(fault, fv_faults_at(remarks, j)) || !is_remark(remarks, j))
            continue;
        if (++others < NAMES_SHOWN)
            fv_text_add(out, ", %.*s", (int)also, other);
    }
    if (others >= NAMES_SHOWN)
        fv_text_add(out, " and %zu more", others + 1 - NAMES_SHOWN);
    print_reword(units, name + length, out);
    if (fault->line > 0)
        fv_text_add(place, "line %d", fault->line);
    if (fault->line > 0 && others)
        fv_text_add(place, " and %zu more", others);
    return true;
}

void print_remarks_text(const fv_faults *remarks, fv_unit_system units, fv_text *out)
{
    for (size_t i = 0; i < fv_faults_count(remarks); i++) {
        fv_text place = {0}, text = {0}, line = {0};
        if (print_remark(remarks, i, units, &place, &text)) {
            if (place.length > 0)
                fv_text_add(&line, "%s: ", place.text);
            fv_text_add(&line, "%s", text.text ? text.text : "");
            print_say(out, "  - ", &line);
        }
        out->failed = out->failed || place.failed || text.failed;
        fv_text_free(&place);
        fv_text_free(&text);
    }
}

json_t *print_remarks_json(const fv_faults *remarks)
{
    json_t *array = json_array();
    for (size_t i = 0; array && i < fv_faults_count(remarks); i++) {
        const fv_fault *fault = fv_faults_at(remarks, i);
        if (!is_remark(remarks, i))
            continue;
        json_t *object = json_pack("{s:o, s:i, s:o}", "file", print_json_word(fault->file), "line", fault->line, "text",
                                   print_json_text(fault->text));
        print_json_append(&array, object);
    }
    return array;
}
