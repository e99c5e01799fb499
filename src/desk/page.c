/* SPDX-License-Identifier: MIT */
/* The page of a session, and what of it is new: the report's renderer makes all of it, and its sections are cut out of
 * what it made, so that a section sent alone is the same to the byte. */
#include "desk/session.h"
#include "print/safe.h"

#include <jansson.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* "hose s1: bore 25 mm, in the file 19 mm" */
static const char *in_words(const fv_desk *desk, const fv_edit *edit, const fv_source *source, fv_arena *arena)
{
    const fv_element *element;
    const fv_part *part = fv_plant_find(desk->at_now.plant, edit->part, &element);
    const char *before = desk_typed(source, edit->part, edit->attribute, arena);
    const char *is = edit->value ? edit->value : "not said";
    const bool named = part && part->id && strcmp(part->id, element->name) != 0;
    return fv_arena_printf(arena, "%s%s%s: %s %s, in the file %s", named ? element->name : "", named ? " " : "",
                           edit->part, edit->attribute, is, before ? before : "not said");
}

/* `--set s1.bore='25 mm'` as a shell takes it; NULL: out of memory. */
static const char *as_option(const fv_edit *edit, fv_arena *arena)
{
    fv_text option = {0}, setting = {0};
    fv_text_add(&setting, "%s.%s=%s", edit->part, edit->attribute, edit->value);
    fv_text_add(&option, "--set ");
    if (setting.text)
        print_shell_word(setting.text, &option);
    const char *copy = setting.failed || option.failed ? NULL : fv_arena_copy(arena, option.text);
    fv_text_free(&setting);
    fv_text_free(&option);
    return copy;
}

static fv_page_change *changes_of(const fv_desk *desk, fv_arena *arena)
{
    const desk_state *now = desk_now(desk);
    fv_page_change *made = fv_arena_alloc(arena, now->count + 1, sizeof *made);
    fv_source *source = fv_source_new(desk->began, desk->began_length);
    for (size_t i = 0; made && i < now->count; i++) {
        const desk_change *change = &now->changes[i];
        const fv_edit *edit = change->edits;
        made[i].what = desk_is_value(change) ? in_words(desk, edit, source, arena) : change->words;
        made[i].setting = desk_is_value(change) && edit->value ? as_option(edit, arena) : change->command;
        made[i].alone = desk_effect_of(desk, change);
        if (!made[i].what)
            made = NULL;
    }
    fv_source_free(source);
    return made;
}

static fv_status render(fv_desk *desk, const fv_page_session *session, fv_text *out)
{
    fv_page_options options;
    fv_page_defaults(&options);
    options.units = desk->options.units;
    options.clock = desk->options.clock;
    options.twelve_hours = desk->options.twelve_hours;
    options.date = desk->options.date;
    const fv_page_content content = {
        .flow = desk->at_now.flow, .heat = desk->at_now.heat, .remarks = desk->at_now.remarks, .session = session};
    return fv_report_page(&content, &options, out);
}

/* What a desk in the page begins from. No "<" stands in it, so that no script ends early. NULL: out of memory. */
static const char *begins(const fv_desk *desk, fv_arena *arena)
{
    const fv_desk_options *o = &desk->options;
    json_t *root = json_pack(
        "{s:o,s:s,s:i,s:o,s:i,s:s}", "plant",
        desk_asks(desk) ? json_null() : json_stringn(desk->at_now.text.text, desk->at_now.text.length), "file",
        desk->name, "units", (int)o->units, "clock", isnan(o->clock) ? json_null() : json_real(o->clock), "twelve",
        (int)o->twelve_hours, "date", o->date ? o->date : "");
    char *text = root ? json_dumps(root, JSON_COMPACT | JSON_ENSURE_ASCII) : NULL;
    fv_text safe = {0};
    for (const char *at = text; at && *at; at++)
        fv_text_add(&safe, *at == '<' ? "\\u003c" : "%c", *at);
    const char *copy = safe.text && !safe.failed ? fv_arena_copy(arena, safe.text) : NULL;
    fv_text_free(&safe);
    free(text);
    json_decref(root);
    return copy;
}

static void write_questions(const fv_desk *desk, fv_page_question *questions, fv_arena *arena)
{
    for (int q = 0; q < FV_NEW_QUESTIONS; q++) {
        const fv_new_words words = fv_new_words_of((fv_new_question)q, FV_METRIC);
        const char *both =
            fv_arena_printf(arena, "%s; %s", words.example, fv_new_words_of((fv_new_question)q, FV_US).example);
        questions[q] = (fv_page_question){.name = words.name,
                                          .question = words.question,
                                          .parts = words.parts,
                                          .example = both ? both : words.example,
                                          .typed = desk->asked[q] ? desk->asked[q] : "",
                                          .wrong = desk->wrong_answer == (fv_new_question)q ? desk->said.text : NULL};
    }
}

/* `engine` NULL: the page asks a server. */
static fv_status write_page(fv_desk *desk, const char *engine, fv_text *out)
{
    desk_fields fields = {.arena = desk_asks(desk) ? fv_arena_new() : NULL};
    fv_page_question questions[FV_NEW_QUESTIONS];
    fv_page_change *changes = NULL;
    if (!desk_asks(desk) && desk_fields_make(desk, &fields))
        changes = changes_of(desk, fields.arena);
    else if (desk_asks(desk))
        write_questions(desk, questions, fields.arena);
    fv_page_asked asked = desk->asked_of_plant;
    asked.stale = desk->asked_version != desk->version;
    const bool able = changes || (desk_asks(desk) && fields.arena);
    const char *from = able && engine ? begins(desk, fields.arena) : NULL;
    const fv_page_session session = {.fields = fields.fields,
                                     .field_count = fields.count,
                                     .changes = changes,
                                     .change_count = desk_now(desk)->count,
                                     .can_undo = desk->now > 0,
                                     .can_redo = desk->now + 1 < desk->count,
                                     .unsaved = fv_desk_unsaved(desk),
                                     .file = desk->name,
                                     .version = desk->version,
                                     .before = desk->at_first.heat,
                                     .ghost_flow = desk->before.flow,
                                     .ghost = desk->before.heat,
                                     .wrong = desk->said.text,
                                     .wrong_part = desk->said_part,
                                     .wrong_attribute = desk->said_attribute,
                                     .wrong_value = desk->said_value,
                                     .sentence = desk->said_sentence,
                                     .asked = asked.what ? &asked : NULL,
                                     .engine = engine,
                                     .begins = from,
                                     .questions = desk_asks(desk) ? questions : NULL,
                                     .question_count = FV_NEW_QUESTIONS};
    const fv_status status = able && (from || !engine) ? render(desk, &session, out) : FV_FAIL;
    desk_fields_free(&fields);
    return status;
}

fv_status fv_desk_live(fv_desk *desk, const char *engine, fv_text *out)
{
    return desk && engine && out && !desk->options.unanswered ? write_page(desk, engine, out) : FV_FAIL;
}

fv_status fv_desk_page(fv_desk *desk, bool plain, fv_text *out)
{
    if (!desk || !out || desk->options.unanswered)
        return FV_FAIL;
    if (plain)
        return desk_asks(desk) ? FV_FAIL : render(desk, NULL, out);
    fv_text page = {0};
    if (write_page(desk, NULL, &page) != FV_OK) {
        fv_text_free(&page);
        return FV_FAIL;
    }
    fv_text_free(&desk->page);
    desk->page = page;
    fv_text_add(out, "%s", page.text);
    return out->failed ? FV_FAIL : FV_OK;
}

/* ---- sections ---- */

typedef struct {
    const char *at, *id; /* "<section ...>...</section>", and its id */
    size_t length, id_length;
} section;

/* The next section from `at` on. Text is escaped, so that no other "<section" can stand there. */
static bool next_section(const char *at, section *s)
{
    static const char begin[] = "<section id=\"", end[] = "</section>";
    s->at = strstr(at, begin);
    const char *last = s->at ? strstr(s->at, end) : NULL;
    if (!last)
        return false;
    s->id = s->at + strlen(begin);
    s->id_length = strcspn(s->id, "\"");
    s->length = (size_t)(last - s->at) + strlen(end);
    return true;
}

static bool find_section(const char *page, const section *wanted, section *found)
{
    for (const char *at = page; next_section(at, found); at = found->at + found->length)
        if (found->id_length == wanted->id_length && memcmp(found->id, wanted->id, wanted->id_length) == 0)
            return true;
    return false;
}

static bool add_fragment(json_t *list, const section *s)
{
    json_t *fragment = json_pack("{s:s%,s:s%}", "id", s->id, s->id_length, "html", s->at, s->length);
    return fragment && json_array_append_new(list, fragment) == 0;
}

/* Sections of `page` that `old` has otherwise; a whole page where one has sections that the other lacks. */
static json_t *fragments(const char *old, const char *page)
{
    json_t *list = json_array();
    section s, was;
    bool good = list != NULL;
    for (const char *at = page; good && next_section(at, &s); at = s.at + s.length)
        if (!find_section(old, &s, &was) || was.length != s.length || memcmp(was.at, s.at, s.length) != 0)
            good = add_fragment(list, &s);
    if (good)
        return list;
    json_decref(list);
    return NULL;
}

fv_status fv_desk_answer(fv_desk *desk, fv_text *out)
{
    fv_text old = {0}, page = {0};
    fv_status status = FV_FAIL;
    if (!desk || !out || desk->options.unanswered)
        return FV_FAIL;
    old = desk->page;
    desk->page = (fv_text){0};
    json_t *list = fv_desk_page(desk, false, &page) == FV_OK ? fragments(old.text ? old.text : "", page.text) : NULL;
    json_t *root =
        list ? json_pack("{s:I,s:s,s:b,s:o}", "version", (json_int_t)desk->version, "refused",
                         desk->said.text ? desk->said.text : "", "unsaved", fv_desk_unsaved(desk), "fragments", list)
             : NULL;
    char *text = root ? json_dumps(root, JSON_COMPACT | JSON_ENSURE_ASCII) : NULL;
    if (text) {
        fv_text_add(out, "%s", text);
        status = out->failed ? FV_FAIL : FV_OK;
    }
    free(text);
    json_decref(root);
    fv_text_free(&page);
    fv_text_free(&old);
    return status;
}
