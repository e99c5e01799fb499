/* SPDX-License-Identifier: MIT */
/* What a why study found, as the page shows it: its sentence, and remedies with the next step first. */
#include "page/why.h"

#include <math.h>
#include <string.h>

/* When the last vessel has its core as things are, s; NaN: one never does. */
static double last_now(const fv_why_answer *answer)
{
    double last = 0.0;
    for (size_t i = 0; i < answer->now->vessel_count; i++) {
        const fv_vessel_history *h = &answer->now->vessels[i];
        if (!isnan(h->opened))
            last = isnan(h->core) || isnan(last) ? (double)NAN : fmax(last, h->core);
    }
    return last;
}

static const char *effect(const page_why *p, const fv_why_remedy *remedy)
{
    double now = last_now(p->words.answer);
    fv_arena *arena = p->words.arena;
    if (isnan(remedy->slowest))
        return fv_arena_copy(arena, "one core still does not arrive");
    if (isnan(now))
        return fv_arena_printf(arena, "last core %s after lighting instead of never",
                               print_shown_time(remedy->slowest).text);
    return fv_arena_printf(arena, "last core %s after lighting instead of %s", print_shown_time(remedy->slowest).text,
                           print_shown_time(now).text);
}

/* Whose valve: "v1", "of s2" for "s2.fitting1". */
static void add_setting(fv_unit_system units, const fv_setting *setting, fv_text *out)
{
    const char *dot = strchr(setting->path, '.');
    fv_text_add(out, "%s", out->length > 0 ? ", " : "");
    if (strcmp(setting->attribute, "start") == 0)
        fv_text_add(out, "open the steam of %s after %s", setting->path, print_shown_time(setting->si).text);
    else if (strcmp(setting->attribute, "washer") == 0)
        fv_text_add(out, "a washer at the end of %s, its hole %s", setting->path,
                    print_shown_said(units, FV_SHOW_BORE, setting->si).text);
    else
        fv_text_add(out, "%s%.*s to %s", dot ? "the valve of " : "",
                    dot ? (int)(dot - setting->path) : (int)strlen(setting->path), setting->path,
                    print_shown_said(units, FV_SHOW_SHARE, setting->si).text);
}

/* What hands do is said thing by thing. NULL: none to be said so. */
static const char *by_hand(const page_why *p, const fv_why_remedy *remedy)
{
    fv_text words = {0};
    bool all = remedy->kind == FV_REMEDY_HANDS && remedy->change.action_count == 0;
    for (size_t i = 0; all && i < remedy->change.count; i++) {
        const char *attribute = remedy->change.settings[i].attribute;
        all = strcmp(attribute, "open") == 0 || strcmp(attribute, "start") == 0 || strcmp(attribute, "washer") == 0;
        if (all)
            add_setting(p->words.units, &remedy->change.settings[i], &words);
    }
    const char *said =
        all && words.text && !words.failed ? fv_arena_printf(p->words.arena, "by hand: %s", words.text) : NULL;
    fv_text_free(&words);
    return said;
}

static bool add(page_why *p, size_t index)
{
    const fv_why_remedy *remedy = &p->words.answer->remedies[index];
    fv_page_remedy *row = &p->rows[p->count++];
    const char *said = by_hand(p, remedy);
    *row = (fv_page_remedy){.what = said ? said : p->words.remedies[index],
                            .effect = effect(p, remedy),
                            .cost = fv_arena_copy(p->words.arena, report_why_cost(&p->words, remedy).text),
                            .settings = p->words.commands[index],
                            .change = &remedy->change};
    return row->effect && row->cost;
}

bool page_why_make(const fv_why_answer *answer, fv_unit_system units, page_why *p)
{
    enum { MOST = 12 };
    const report_frame frame = {.answer = &p->words};
    fv_text sentence = {0};
    *p = (page_why){.count = 0};
    if (!report_why_make(answer, units, &p->words))
        return false;
    p->rows = fv_arena_alloc(p->words.arena, answer->remedy_count + 1, sizeof *p->rows);
    bool good = p->rows != NULL;
    if (good && answer->cheapest >= 0)
        good = add(p, (size_t)answer->cheapest);
    for (size_t i = 0; good && i < answer->remedy_count && p->count < MOST; i++)
        if ((int)i != answer->cheapest && answer->remedies[i].worth > 0.0)
            good = add(p, i);
    if (answer->target >= 0)
        report_why_sentence(&frame, &sentence);
    const size_t from = sentence.length + (sentence.length > 0); /* past the blank */
    report_why_safety(&p->words, &sentence);
    if (good && p->count == 0 && answer->options.remedies && answer->remedy_count > 0)
        fv_text_add(&sentence, "%sOf %zu changes tried one by one, none brings the last core a minute earlier.",
                    sentence.length > 0 ? " " : "", answer->remedy_count);
    p->because = sentence.text && !sentence.failed ? fv_arena_copy(p->words.arena, sentence.text) : NULL;
    p->besides = p->because && sentence.length > from ? p->because + from : NULL;
    good = good && !sentence.failed && (p->because || !sentence.text);
    fv_text_free(&sentence);
    return good;
}

void page_why_free(page_why *p)
{
    report_why_free(&p->words);
}
