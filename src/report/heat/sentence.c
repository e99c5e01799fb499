/* SPDX-License-Identifier: MIT */
/* The heat answer in plain words: who is starved or late, by how much, and when all is done. */
#include "report/heat/report.h"

#include <math.h>

typedef struct {
    size_t by_outcome[OUTCOMES];
    size_t on_steam, arrived, held;
    size_t worst;       /* the first of the worst outcome that is latest, or coldest at the end */
    size_t first, last; /* by the time that the core took, among those that arrived */
    double done;        /* when the last hold ended */
} survey;

static const fv_vessel_history *history(const report_heat *heat, size_t i)
{
    return &heat->result->vessels[i];
}

static bool is_worse(const report_heat *heat, size_t a, size_t b)
{
    if (heat->outcomes[a] != heat->outcomes[b])
        return heat->outcomes[a] < heat->outcomes[b];
    double took_a = report_heat_took(heat, a), took_b = report_heat_took(heat, b);
    if (isnan(took_a) || isnan(took_b))
        return isnan(took_a) && (!isnan(took_b) || history(heat, a)->core_end < history(heat, b)->core_end);
    return took_a > took_b;
}

static double through(const report_heat *heat, size_t i)
{
    const fv_vessel_history *h = history(heat, i);
    return isnan(h->hold) ? h->core : h->hold;
}

static survey look(const report_heat *heat)
{
    survey s = {.done = 0.0};
    for (size_t i = 0; i < heat->result->vessel_count; i++) {
        s.by_outcome[heat->outcomes[i]]++;
        if (heat->outcomes[i] == OUTCOME_SHUT)
            continue;
        if (s.on_steam++ == 0 || is_worse(heat, i, s.worst))
            s.worst = i;
        if (isnan(report_heat_took(heat, i)))
            continue;
        if (s.arrived == 0 || report_heat_took(heat, i) < report_heat_took(heat, s.first))
            s.first = i;
        if (s.arrived++ == 0 || history(heat, i)->core > history(heat, s.last)->core)
            s.last = i;
        s.done = fmax(s.done, through(heat, i));
    }
    return s;
}

static const char *name(const report_heat *heat, size_t i)
{
    return heat->result->plant->vessels[i]->part.id;
}

static void add_all(size_t count, fv_text *out)
{
    if (count == 2)
        fv_text_add(out, "Both vessels");
    else
        fv_text_add(out, "All %zu vessels", count);
}

/* "6 h 20 min (12:38)": from the opening of its steam, as the time allowed counts. */
static print_shown arrives(const report_heat *heat, size_t i)
{
    return print_after(&heat->clock, report_heat_took(heat, i), history(heat, i)->core);
}

/* The same from lighting the fire, as what stands beside it counts. */
static print_shown comes(const report_heat *heat, size_t i)
{
    return print_after(&heat->clock, history(heat, i)->core, history(heat, i)->core);
}

/* "; that of bin1 does after 6 h 20 min (12:38)" */
static void add_first(const report_heat *heat, const survey *s, fv_text *out)
{
    fv_vessel *const *vessels = heat->result->plant->vessels;
    if (s->arrived == 0 || s->first == s->worst)
        return;
    fv_text_add(out, "; that of %s ", name(heat, s->first));
    if (vessels[s->first]->target.v == vessels[s->worst]->target.v)
        fv_text_add(out, "does");
    else
        fv_text_add(out, "reaches its %s", report_target(heat, s->first).text);
    fv_text_add(out, " after %s", arrives(heat, s->first).text);
}

/* The cause in a few words, behind "never reaches 95 degC". */
static void add_cause(const report_heat *heat, size_t i, fv_text *out)
{
    const fv_heat_result *r = heat->result;
    const fv_vessel_history *h = history(heat, i);
    int dry = report_dry_boiler(heat);
    if (h->arrival == FV_NOT_DRY && dry >= 0)
        fv_text_add(out, ", since %s runs dry %s", r->plant->boilers[dry]->part.id,
                    print_at(&heat->clock, r->boilers[dry].dry).text);
    else if (h->arrival == FV_NOT_BOILING_POINT)
        fv_text_add(out, ", since water boils at %s here",
                    print_shown_as(heat->units, FV_SHOW_TEMPERATURE, r->boiling_point).text);
    else if (h->arrival == FV_NOT_STEAM)
        fv_text_add(out, ", since no steam gets to it");
    else if (h->arrival == FV_NOT_THERMOSTAT)
        fv_text_add(out, ", since a thermostat keeps its chamber at %s at the most",
                    print_shown_said(heat->units, FV_SHOW_TEMPERATURE, h->settles).text);
    else if (!isnan(h->settles))
        fv_text_add(out, ", its chamber settles at %s",
                    print_shown_as(heat->units, FV_SHOW_TEMPERATURE, h->settles).text);
    else
        fv_text_add(out, ", it is at %s when the run ends after %s",
                    print_shown_as(heat->units, FV_SHOW_TEMPERATURE, h->core_end).text, print_shown_time(r->end).text);
}

static void say_never(const report_heat *heat, const survey *s, fv_text *out)
{
    bool open_end = history(heat, s->worst)->arrival == FV_NOT_TIME;
    fv_text_add(out, "the core of %s %s %s", name(heat, s->worst), open_end ? "does not reach" : "never reaches",
                report_target(heat, s->worst).text);
    add_cause(heat, s->worst, out);
    add_first(heat, s, out);
}

static void say_late(const report_heat *heat, const survey *s, fv_text *out)
{
    fv_text_add(out, "the core of %s reaches %s only after %s", name(heat, s->worst),
                report_target(heat, s->worst).text, arrives(heat, s->worst).text);
    fv_text_add(out, ", %s are allowed", print_shown_time(heat->result->plant->vessels[s->worst]->within.v).text);
    add_first(heat, s, out);
}

static void say_starved(const report_heat *heat, const survey *s, fv_text *out)
{
    size_t starved = s->by_outcome[OUTCOME_NEVER] + s->by_outcome[OUTCOME_LATE];
    if (starved == 1)
        fv_text_add(out, "%s is starved: ", name(heat, s->worst));
    else if (starved == s->on_steam) {
        add_all(starved, out);
        fv_text_add(out, " are starved: ");
    } else
        fv_text_add(out, "%zu of %zu vessels are starved: ", starved, s->on_steam);
    if (heat->outcomes[s->worst] == OUTCOME_NEVER)
        say_never(heat, s, out);
    else
        say_late(heat, s, out);
}

static void say_unheld(const report_heat *heat, const survey *s, fv_text *out)
{
    const fv_vessel_history *h = history(heat, s->worst);
    const fv_vessel *vessel = heat->result->plant->vessels[s->worst];
    size_t unheld = s->by_outcome[OUTCOME_UNHELD];
    bool starved = !isnan(report_starved_at(heat, s->worst));
    if (unheld > 1)
        fv_text_add(out, "The hold breaks in %zu of %zu vessels: ", unheld, s->on_steam);
    fv_text_add(out, "%s is fed while heating but %s: its core reaches %s after %s", vessel->part.id,
                starved ? "starved in the hold" : "not held", report_target(heat, s->worst).text,
                comes(heat, s->worst).text);
    if (isnan(h->hold_broken))
        fv_text_add(out, " but is held for %s of the %s", print_shown_time(h->hold_longest).text,
                    print_shown_time(vessel->hold.v).text);
    else
        fv_text_add(out, " but falls below it %s, %s into the hold of %s", print_at(&heat->clock, h->hold_broken).text,
                    print_shown_time(h->hold_broken - h->core).text, print_shown_time(vessel->hold.v).text);
    if (!isnan(h->hold))
        fv_text_add(out, "; it is through only %s", print_at(&heat->clock, h->hold).text);
}

static void say_pending(const report_heat *heat, const survey *s, fv_text *out)
{
    const fv_vessel_history *h = history(heat, s->worst);
    size_t pending = s->by_outcome[OUTCOME_PENDING];
    fv_text_add(out, "The run ends %s, too early: ", print_at(&heat->clock, heat->result->end).text);
    if (pending == s->on_steam && pending > 1)
        fv_text_add(out, "none of %zu vessels is through; ", pending);
    else if (pending > 1)
        fv_text_add(out, "%zu of %zu vessels are not through; ", pending, s->on_steam);
    if (isnan(h->core))
        fv_text_add(out, "the core of %s is at %s of %s", name(heat, s->worst),
                    print_shown_as(heat->units, FV_SHOW_TEMPERATURE, h->core_end).text,
                    report_target(heat, s->worst).text);
    else
        fv_text_add(out, "%s has held for %s of %s", name(heat, s->worst), print_shown_time(h->hold_longest).text,
                    print_shown_time(heat->result->plant->vessels[s->worst]->hold.v).text);
}

/* "bin4 is last, its core reaches 95 degC after 6 h 40 min (12:58)" */
static void add_last(const report_heat *heat, const survey *s, fv_text *out)
{
    const fv_vessel *vessel = heat->result->plant->vessels[s->last];
    fv_text_add(out,
                s->on_steam > 1 ? "%s is last, its core reaches %s after %s" : "the core of %s reaches %s after %s",
                vessel->part.id, report_target(heat, s->last).text, comes(heat, s->last).text);
    if (vessel->hold.v > 0.0)
        fv_text_add(out, " and is held for %s", print_shown_time(vessel->hold.v).text);
}

static void say_fed(const report_heat *heat, const survey *s, fv_text *out)
{
    size_t lagging = s->by_outcome[OUTCOME_LAGGING];
    if (s->on_steam > 1)
        add_all(s->on_steam, out);
    else
        fv_text_add(out, "%s", name(heat, s->worst));
    fv_text_add(out, " %s done %s", s->on_steam > 1 ? "are" : "is", print_by(&heat->clock, s->done).text);
    if (lagging == 0) {
        fv_text_add(out, ": ");
        add_last(heat, s, out);
        return;
    }
    fv_text_add(out, ", but %s%s: ",
                lagging == 1             ? name(heat, s->worst)
                : lagging == s->on_steam ? "all"
                                         : "some",
                lagging == 1 ? " lags" : " lag");
    fv_text_add(out, "the core of %s reaches %s after %s of the %s allowed", name(heat, s->worst),
                report_target(heat, s->worst).text, arrives(heat, s->worst).text,
                print_shown_time(heat->result->plant->vessels[s->worst]->within.v).text);
}

static bool no_boiler_steams(const fv_heat_result *r)
{
    for (size_t i = 0; i < r->boiler_count; i++)
        if (!isnan(r->boilers[i].steam_up))
            return false;
    return true;
}

void report_heat_sentence(const report_frame *frame, fv_text *out)
{
    const report_heat *heat = frame->answer;
    survey s = look(heat);
    if (no_boiler_steams(heat->result))
        fv_text_add(out, "No boiler gives steam %s %s: no vessel is heated",
                    heat->result->options.fire > 0.0 ? "up to" : "without fire, up to",
                    print_when(&heat->clock, heat->result->end).text);
    else if (s.on_steam == 0)
        fv_text_add(out, "No vessel is ever open to the steam");
    else if (s.by_outcome[OUTCOME_NEVER] + s.by_outcome[OUTCOME_LATE] > 0)
        say_starved(heat, &s, out);
    else if (s.by_outcome[OUTCOME_UNHELD] > 0)
        say_unheld(heat, &s, out);
    else if (s.by_outcome[OUTCOME_PENDING] > 0)
        say_pending(heat, &s, out);
    else
        say_fed(heat, &s, out);
    fv_text_add(out, ".");
    report_heat_overheating(heat, out);
}
