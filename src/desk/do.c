/* SPDX-License-Identifier: MIT */
/* Requests to a session. */
#include "desk/session.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

static void forget_refusal(fv_desk *desk)
{
    fv_text_free(&desk->said);
    free(desk->said_part);
    free(desk->said_attribute);
    free(desk->said_value);
    desk->wrong_answer = FV_NEW_QUESTIONS;
    desk->said_part = desk->said_attribute = desk->said_value = NULL;
    desk->said_sentence = (fv_page_sentence){.command = NULL};
}

static void tell(fv_desk *desk, const fv_faults *faults)
{
    for (size_t i = 0; i < fv_faults_count(faults); i++) {
        const fv_fault *f = fv_faults_at(faults, i);
        if (!f->caution)
            fv_text_add(&desk->said, "%s%s", desk->said.length ? "; " : "", f->text);
    }
    if (!desk->said.text)
        fv_text_add(&desk->said, "out of memory");
}

static fv_status set(fv_desk *desk, const char *form, size_t length, fv_arena *arena, fv_faults *faults)
{
    const char *part = desk_form_value(form, length, "part", arena);
    const char *attribute = desk_form_value(form, length, "attribute", arena);
    const char *value = desk_form_value(form, length, "value", arena);
    if (!part || !attribute || !value)
        return fv_error(faults, FV_ERR_INPUT, (fv_loc){NULL, 0}, "that cannot be read");
    const fv_status status = fv_desk_set(desk, part, attribute, value, faults);
    if (status == FV_FAIL) {
        desk->said_part = strdup(part);
        desk->said_attribute = strdup(attribute);
        desk->said_value = strdup(value);
    }
    return status;
}

/* ---- parts that come and go ---- */

typedef struct {
    const char *command, *names[FV_SENTENCE_TYPED];
} sentence;

static const sentence sentences[] = {
    {"add", {"like", "hose", "far"}},
    {"put", {"what", "into"}},
    {"join", {"line", "from", "to", "bore", "length"}},
    {"away", {"part"}},
};

static const sentence *sentence_of(const char *command)
{
    for (size_t i = 0; command && i < sizeof sentences / sizeof *sentences; i++)
        if (strcmp(sentences[i].command, command) == 0)
            return &sentences[i];
    return NULL;
}

static fv_status alter(fv_desk *desk, const sentence *s, const char *form, size_t length, fv_faults *faults)
{
    const char *t[FV_SENTENCE_TYPED];
    fv_page_sentence said = {.command = s->command};
    for (size_t i = 0; i < FV_SENTENCE_TYPED; i++) {
        said.names[i] = s->names[i];
        said.typed[i] = t[i] = s->names[i] ? desk_form_value(form, length, s->names[i], desk->arena) : NULL;
    }
    const fv_status status = s == &sentences[0]   ? fv_desk_add_vessel(desk, t[0], t[1], t[2], faults)
                             : s == &sentences[1] ? fv_desk_put_valve(desk, t[0], t[1], faults)
                             : s == &sentences[2] ? fv_desk_join(desk, t[0], t[1], t[2], t[3], t[4], faults)
                                                  : fv_desk_take_away(desk, t[0], faults);
    if (status == FV_FAIL)
        desk->said_sentence = said;
    return status;
}

/* The eight answers become the plant. */
static fv_status begin_new(fv_desk *desk, const char *form, size_t length, fv_faults *faults)
{
    fv_new *plant = desk_asks(desk) ? fv_new_begin(NULL) : NULL;
    fv_status status = plant ? FV_OK : FV_FAIL;
    if (!plant)
        fv_error(faults, FV_ERR_INPUT, (fv_loc){NULL, 0}, "there is a plant already");
    for (int q = 0; q < FV_NEW_QUESTIONS && plant; q++) {
        desk->asked[q] =
            desk_form_value(form, length, fv_new_words_of((fv_new_question)q, FV_METRIC).name, desk->arena);
        if (status == FV_OK && desk->asked[q])
            status = fv_new_answer(plant, (fv_new_question)q, desk->asked[q], faults);
        if (status == FV_FAIL && desk->wrong_answer == FV_NEW_QUESTIONS)
            desk->wrong_answer = (fv_new_question)q;
    }
    if (status == FV_OK) {
        fv_text xml = {0};
        fv_new_write(plant, &xml);
        if (!xml.text || xml.failed || !desk_begin(desk, xml.text, xml.length, false, faults))
            status = FV_FAIL;
        desk->version += status == FV_OK;
        fv_text_free(&xml);
    }
    fv_new_free(plant);
    return status;
}

static fv_status obey(fv_desk *desk, const char *form, size_t length, fv_arena *arena, fv_faults *faults)
{
    const fv_loc nowhere = {NULL, 0};
    const char *what = desk_form_value(form, length, "do", arena);
    const char *seen = desk_form_value(form, length, "seen", arena);
    if (seen && strtoul(seen, NULL, 10) != desk->version)
        return fv_error(
            faults, FV_ERR_INPUT, nowhere,
            "the plant was changed elsewhere meanwhile; here is how it stands now, and nothing was changed");
    if (what && strcmp(what, "set") == 0)
        return set(desk, form, length, arena, faults);
    if (what && strcmp(what, "new") == 0)
        return begin_new(desk, form, length, faults);
    if (what && strcmp(what, "undo") == 0)
        return fv_desk_undo(desk, faults);
    if (what && strcmp(what, "redo") == 0)
        return fv_desk_redo(desk, faults);
    if (what && strcmp(what, "save") == 0)
        return fv_desk_save(desk, faults);
    if (what && strcmp(what, "back") == 0) {
        const char *change = desk_form_value(form, length, "change", arena);
        return fv_desk_take_back(desk, change ? strtoul(change, NULL, 10) : SIZE_MAX, faults);
    }
    if (what && strcmp(what, "ask") == 0)
        return desk_ask(desk, desk_form_value(form, length, "what", arena), faults);
    if (what && strcmp(what, "try") == 0) {
        const char *proposal = desk_form_value(form, length, "proposal", arena);
        return desk_try(desk, proposal ? strtoul(proposal, NULL, 10) : SIZE_MAX, faults);
    }
    if (sentence_of(what))
        return alter(desk, sentence_of(what), form, length, faults);
    if (what && strcmp(what, "effects") == 0)
        return desk_effects(desk, desk_form_value(form, length, "all", arena) != NULL, faults);
    return fv_error(faults, FV_ERR_INPUT, nowhere, "that cannot be done here");
}

fv_status fv_desk_do(fv_desk *desk, const char *form, size_t length, fv_text *out)
{
    if (!desk || !form || !out)
        return FV_FAIL;
    fv_arena *arena = fv_arena_new();
    fv_faults *faults = fv_faults_new();
    forget_refusal(desk);
    if (arena && faults && obey(desk, form, length, arena, faults) == FV_FAIL)
        tell(desk, faults);
    if (fv_desk_change_count(desk) == 1) /* that is known already */
        desk_effects(desk, true, NULL);
    const bool able = arena && faults;
    fv_arena_free(arena);
    fv_faults_free(faults);
    return able && !desk->options.unanswered ? fv_desk_answer(desk, out) : able ? FV_OK : FV_FAIL;
}

fv_status fv_desk_give(fv_desk *desk, const char *name, const char *form, size_t length, fv_text *out)
{
    if (!desk || !name || !out)
        return FV_FAIL;
    if (strcmp(name, "do") == 0)
        return fv_desk_do(desk, form, length, out);
    if (name[0] == '\0' || strcmp(name, "report.html") == 0)
        return fv_desk_page(desk, name[0] != '\0', out);
    if (strcmp(name, "plant.xml") != 0 || desk_asks(desk))
        return FV_FAIL;
    fv_text_add(out, "%s", fv_desk_text(desk, NULL));
    return out->failed ? FV_FAIL : FV_OK;
}
