/* SPDX-License-Identifier: MIT */
#include "report/frame.h"
#include "print/cautions.h"
#include "print/screen.h"
#include "report/lid.h"
#include "report/unreachable.h"

#include "farvessel/steady.h"

#include <string.h>

enum { BRIEF_LINES = 20 };

/* The table named, the first where none is; FV_FAIL where there is none of that name. */
static fv_status as_csv(const report_frame *frame, const char *name, fv_text *out)
{
    for (size_t i = 0; i < frame->table_count; i++) {
        if (name && strcmp(frame->tables[i].name, name) != 0)
            continue;
        print_table_csv(&frame->tables[i], frame->answer, out);
        return out->failed ? FV_FAIL : FV_OK;
    }
    const struct {
        const print_table *table;
        const void *answer; /* NULL: not asked */
    } shared[] = {{&report_choices_table, frame->odds},
                  {&report_choices_vessels_table, frame->odds},
                  {&report_lid_table, frame->lids}};
    for (size_t i = 0; i < sizeof shared / sizeof *shared && name; i++)
        if (shared[i].answer && strcmp(shared[i].table->name, name) == 0) {
            print_table_csv(shared[i].table, shared[i].answer, out);
            return out->failed ? FV_FAIL : FV_OK;
        }
    return FV_FAIL;
}

/* What stands first: targets that no steam reaches, then the question's own sentence, unless all are such. */
static void first_sentence(const report_frame *frame, fv_text *out)
{
    if (!frame->counts) {
        const double boiling_point = fv_site_boiling_point(&frame->plant->site);
        const report_unreachable found = report_unreachable_say(frame->plant, boiling_point, frame->units, out);
        if (found == UNREACHABLE_ALL || !frame->sentence)
            return;
    }
    fv_text_add(out, "%s", out->length > 0 ? " " : "");
    frame->sentence(frame, out);
}

json_t *report_frame_said_json(const report_frame *frame, void (*say)(const report_frame *, fv_text *))
{
    fv_text said = {0};
    say(frame, &said);
    json_t *word = said.failed ? NULL : print_json_word(said.text);
    fv_text_free(&said);
    return word;
}

static json_t *notes_json(const report_frame *frame)
{
    print_notes notes = {0};
    frame->notes(frame, &notes);
    json_t *array = print_notes_json(&notes);
    print_notes_free(&notes);
    return array;
}

static fv_status as_json(const report_frame *frame, fv_text *out)
{
    const fv_plant none = {0}, *plant = frame->plant ? frame->plant : &none;
    json_t *root = print_json_head(frame->kind, plant);
    if (frame->sentence)
        print_json_set(&root, "answer", report_frame_said_json(frame, first_sentence));
    frame->json(frame, &root);
    if (frame->lids)
        print_json_set(&root, report_lid_table.name, print_table_json(&report_lid_table, frame->lids));
    if (frame->odds)
        print_json_set(&root, "odds", report_choices_json(frame->odds));
    if (frame->notes_for_programs)
        print_json_set(&root, "notes", notes_json(frame));
    print_json_set(&root, "remarks", print_remarks_json(frame->remarks));
    if (frame->audit)
        print_json_set(&root, "audit", frame->audit(frame));
    if (!frame->no_cautions)
        print_json_set(&root, "cautions", print_cautions_json(plant));
    return print_json_finish(root, out);
}

static void paragraph(const report_frame *frame, void (*say)(const report_frame *, fv_text *), fv_text *out)
{
    fv_text line = {0};
    say(frame, &line);
    if (line.text || line.failed)
        print_say(out, "", &line);
}

/* The notes and remarks under their heading; nothing where there are none. */
static void second_look(const report_frame *frame, fv_text *out)
{
    print_notes notes = {0};
    fv_text looked = {0};
    if (frame->notes)
        frame->notes(frame, &notes);
    print_notes_text(&notes, &looked);
    print_remarks_text(frame->remarks, frame->units, &looked);
    if (looked.length > 0)
        fv_text_add(out, "\nWorth a second look\n%s", looked.failed ? "" : looked.text);
    out->failed = out->failed || looked.failed;
    fv_text_free(&looked);
    print_notes_free(&notes);
}

/* The first lines, and a word about the others where there are more. */
static void cut_lines(const char *text, fv_text *out)
{
    size_t lines = 0, bytes = 0, kept = 0;
    for (; text[bytes]; bytes++) {
        lines += text[bytes] == '\n';
        kept = lines < BRIEF_LINES ? bytes + 1 : kept;
    }
    if (lines <= BRIEF_LINES)
        fv_text_add(out, "%s", text);
    else
        fv_text_add(out, "%.*s  and %zu lines more, without --brief\n", (int)kept, text, lines - BRIEF_LINES + 1);
}

static fv_status as_brief_text(const report_frame *frame, fv_text *out)
{
    fv_text whole = {0};
    paragraph(frame, first_sentence, &whole);
    if (frame->step)
        paragraph(frame, frame->step, &whole);
    frame->table(frame, &whole);
    if (frame->odds)
        report_choices_text(frame->odds, &whole);
    if (whole.text && !whole.failed)
        cut_lines(whole.text, out);
    out->failed = out->failed || whole.failed;
    fv_text_free(&whole);
    return out->failed ? FV_FAIL : FV_OK;
}

static fv_status as_sample_text(const report_frame *frame, fv_text *out)
{
    fv_text line = {0};
    paragraph(frame, first_sentence, out);
    frame->lead(frame, out);
    frame->table(frame, out);
    print_section(out, "What this counts");
    frame->counts(frame, &line);
    print_say(out, "  ", &line);
    print_remarks_text(frame->remarks, frame->units, out);
    print_cautions_text(frame->plant, frame->full_cautions, out);
    return out->failed ? FV_FAIL : FV_OK;
}

static fv_status as_text(const report_frame *frame, fv_text *out)
{
    if (frame->brief)
        return as_brief_text(frame, out);
    if (frame->counts)
        return as_sample_text(frame, out);
    paragraph(frame, first_sentence, out);
    if (frame->step)
        paragraph(frame, frame->step, out);
    if (frame->lead)
        frame->lead(frame, out);
    frame->table(frame, out);
    if (frame->odds)
        report_choices_text(frame->odds, out);
    if (frame->why)
        frame->why(frame, out);
    second_look(frame, out);
    if (!frame->no_cautions) {
        print_section(out, frame->full_cautions ? "Cautions" : "Cautions (--cautions: all of their words)");
        print_cautions_text(frame->plant, frame->full_cautions, out);
    }
    if (frame->details)
        frame->details(frame, out);
    if (frame->method) {
        fv_text_add(out, "\n");
        paragraph(frame, frame->method, out);
    }
    return out->failed ? FV_FAIL : FV_OK;
}

fv_status report_frame_print(const report_frame *frame, fv_report_format format, const char *table, fv_text *out)
{
    switch (format) {
    case FV_REPORT_JSON:
        return as_json(frame, out);
    case FV_REPORT_CSV:
        return as_csv(frame, table, out);
    default:
        return as_text(frame, out);
    }
}

void report_frame_table(const report_frame *frame, size_t table, const char *title, fv_text *out)
{
    if (frame->tables[table].rows(frame->answer) == 0)
        return;
    print_section(out, title);
    print_table_text(&frame->tables[table], frame->answer, frame->units, out);
}

void report_frame_table_json(const report_frame *frame, size_t table, json_t **root)
{
    print_json_set(root, frame->tables[table].name, print_table_json(&frame->tables[table], frame->answer));
}

json_t *report_settings_json(const fv_plant *plant, const fv_change *change)
{
    json_t *array = json_array();
    for (size_t i = 0; array && i < change->count; i++) {
        fv_text text = {0};
        const bool good = fv_setting_write(&change->settings[i], plant, &text);
        print_json_append(&array, good ? print_json_word(text.text) : NULL);
        fv_text_free(&text);
    }
    return array;
}

json_t *report_actions_json(const fv_change *change)
{
    json_t *array = json_array();
    for (size_t i = 0; array && i < change->action_count; i++) {
        fv_text text = {0};
        const bool good = fv_change_action_write(&change->actions[i], &text);
        print_json_append(&array, good ? print_json_word(text.text) : NULL);
        fv_text_free(&text);
    }
    return array;
}
