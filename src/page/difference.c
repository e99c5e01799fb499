/* SPDX-License-Identifier: MIT */
/* What was before the last change: said in a sentence, and pale in charts and drawing. Parts are found by their names,
 * for one may have come or gone. */
#include "page/parts.h"

#include <math.h>
#include <string.h>

/* ---- parts by name ---- */

int page_vessel_of(const fv_heat_result *heat, const char *id)
{
    for (size_t i = 0; i < heat->vessel_count; i++)
        if (strcmp(heat->plant->vessels[i]->part.id, id) == 0)
            return (int)i;
    return -1;
}

const fv_heat_result *page_ghost(const page_view *v)
{
    return v->content->session ? v->content->session->ghost : NULL;
}

int page_ghost_vessel(const page_view *v, size_t vessel)
{
    return page_ghost(v) ? page_vessel_of(page_ghost(v), page_view_vessel(v, vessel)) : -1;
}

const fv_vessel_result *page_ghost_level(const page_view *v, size_t vessel)
{
    const fv_flow_answer *flow = v->content->session ? v->content->session->ghost_flow : NULL;
    for (size_t i = 0; flow && i < flow->plant->vessel_count; i++)
        if (strcmp(flow->plant->vessels[i]->part.id, page_view_vessel(v, vessel)) == 0)
            return &flow->state->vessels[i];
    return NULL;
}

const fv_line_result *page_ghost_line(const page_view *v, int line)
{
    const fv_flow_answer *flow = v->content->session ? v->content->session->ghost_flow : NULL;
    for (size_t i = 0; flow && i < flow->plant->line_count; i++)
        if (strcmp(flow->plant->lines[i]->part.id, v->plant->lines[line]->part.id) == 0)
            return &flow->state->lines[i];
    return NULL;
}

/* ---- the sentence ---- */

/* When a core comes, s since the start, infinite where it never does; NaN: its steam stays shut. */
static double core(const fv_heat_result *heat, size_t vessel)
{
    const fv_vessel_history *h = &heat->vessels[vessel];
    return isnan(h->opened) ? (double)NAN : isnan(h->core) ? (double)INFINITY : h->core;
}

static double last_core(const fv_heat_result *heat)
{
    double last = NAN;
    for (size_t i = 0; i < heat->vessel_count; i++)
        last = fmax(last, core(heat, i));
    return last;
}

static double fuel(const fv_heat_result *heat)
{
    double sum = 0.0;
    for (size_t i = 0; i < heat->boiler_count; i++)
        sum += heat->boilers[i].fuel;
    return sum;
}

/* By how much it comes later, s. Differences that no clock shows are none. */
static double later(double was, double now)
{
    static const double minute = 60.0;
    const double by = was == now ? 0.0 : now - was;
    return fabs(by) < minute ? 0.0 : by;
}

static void say_last(double was, double now, fv_text *out)
{
    const double by = later(was, now);
    if (isnan(was) || isnan(now))
        fv_text_add(out, "last core not comparable");
    else if (isinf(was) && isinf(now))
        fv_text_add(out, "one core still never comes");
    else if (isinf(was))
        fv_text_add(out, "last core after %s instead of never", print_shown_time(now).text);
    else if (isinf(now))
        fv_text_add(out, "one core never comes any more");
    else if (by == 0.0)
        fv_text_add(out, "last core at the same time");
    else
        fv_text_add(out, "last core %s %s", print_shown_time(fabs(by)).text, by < 0.0 ? "earlier" : "later");
}

/* Who pays for it, or gains from it: the one that it moves most, and how many others. `sign` 1: those that come later.
 */
static void say_others(const fv_heat_result *was, const fv_heat_result *now, double sign, fv_text *out)
{
    double most = 0.0;
    size_t moved = 0, which = 0;
    for (size_t i = 0; i < now->vessel_count; i++) {
        const int old = page_vessel_of(was, now->plant->vessels[i]->part.id);
        const double by = old < 0 ? 0.0 : sign * later(core(was, (size_t)old), core(now, i));
        if (!(by > 0.0))
            continue;
        moved++;
        which = by > most ? i : which;
        most = fmax(most, by);
    }
    if (moved == 0)
        return;
    fv_text_add(out, ", %s ", now->plant->vessels[which]->part.id);
    if (isinf(most))
        fv_text_add(out, sign > 0.0 ? "never any more" : "now, too");
    else
        fv_text_add(out, "%s %s", print_shown_time(most).text, sign > 0.0 ? "later" : "earlier");
    if (moved > 1)
        fv_text_add(out, " and %zu other%s by less", moved - 1, moved > 2 ? "s" : "");
}

static void say_fuel(double was, double now, fv_text *out)
{
    static const double least = 0.005;
    const double share = was > 0.0 ? now / was - 1.0 : 0.0;
    if (fabs(share) >= least)
        fv_text_add(out, "; fuel %.0f %% %s", 100.0 * fabs(share), share < 0.0 ? "less" : "more");
}

bool fv_page_difference(const fv_heat_result *was, const fv_heat_result *now, fv_text *out)
{
    if (!was || !now || !out)
        return false;
    const double first = last_core(was), last = last_core(now);
    say_last(first, last, out);
    say_others(was, now, last > first ? -1.0 : 1.0, out);
    say_fuel(fuel(was), fuel(now), out);
    return !out->failed;
}

void page_difference(page_doc *d)
{
    fv_text words = {0};
    const fv_heat_result *was = page_ghost(d->v);
    if (!was || !d->v->heat)
        return;
    if (!fv_page_difference(was, d->v->heat, &words))
        page_doc_fail(d);
    page_doc_paragraph(d, "difference", "The last change: %s. Pale in charts and drawing: how it was before it.",
                       page_doc_words(d, &words));
    fv_text_free(&words);
}
