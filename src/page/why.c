/* SPDX-License-Identifier: MIT */
/* What a why study found, as the page shows it: its sentence, and remedies with the next step first. */
#include "page/why.h"

#include <math.h>
#include <stdlib.h>

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
        return fv_arena_printf(arena, "last core after %s instead of never", print_shown_time(remedy->slowest).text);
    return fv_arena_printf(arena, "last core after %s instead of %s", print_shown_time(remedy->slowest).text,
                           print_shown_time(now).text);
}

static bool add(page_why *p, size_t index)
{
    const fv_why_remedy *remedy = &p->words.answer->remedies[index];
    fv_page_remedy *row = &p->rows[p->count++];
    *row = (fv_page_remedy){.what = p->words.remedies[index],
                            .effect = effect(p, remedy),
                            .cost = fv_arena_copy(p->words.arena, report_why_cost(&p->words, remedy).text),
                            .settings = p->words.commands[index]};
    return row->effect && row->cost;
}

bool page_why_make(const fv_why_answer *answer, fv_unit_system units, page_why *p)
{
    enum { MOST = 12 };
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
        report_why_sentence(&p->words, &sentence);
    p->because = sentence.text && !sentence.failed ? fv_arena_copy(p->words.arena, sentence.text) : NULL;
    good = good && !sentence.failed && (p->because || answer->target < 0);
    fv_text_free(&sentence);
    return good;
}

void page_why_free(page_why *p)
{
    report_why_free(&p->words);
}
