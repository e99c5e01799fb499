/* SPDX-License-Identifier: MIT */
/* The why answer in plain words: who is slow, because of what, and what to do next. */
#include "report/slip.h"
#include "report/slow_load.h"
#include "report/why/report.h"

#include <math.h>

static const char *name(const report_why *why, size_t vessel)
{
    return why->answer->plant->vessels[vessel]->part.id;
}

static const fv_why_vessel *of(const report_why *why, size_t vessel)
{
    return &why->answer->vessels[vessel];
}

/* "takes 13 h 5 min where 4 h 20 min would do", "does not get there within 36 h, where ..." */
static void add_times(const report_why *why, size_t vessel, fv_text *out)
{
    const fv_why_vessel *v = of(why, vessel);
    if (v->arrives)
        fv_text_add(out, "takes %s", print_shown_time(v->took).text);
    else
        fv_text_add(out, "does not get there within %s", print_shown_time(why->answer->cap).text);
    if (v->first != FV_WHY_NOTHING || why->answer->stopped)
        fv_text_add(out, " where %s would do", print_shown_time(v->ideal).text);
    else
        fv_text_add(out, ", and such a load needs %s", print_shown_time(v->ideal).text);
}

static void say_nothing(const report_why *why, size_t target, fv_text *out)
{
    if (why->answer->options.vessel || why->answer->plant->vessel_count == 1)
        fv_text_add(out, "Nothing holds %s up: it ", name(why, target));
    else
        fv_text_add(out, "Nothing holds the vessels up: %s, the last one, ", name(why, target));
    add_times(why, target, out);
}

static void add_next(const fv_why_vessel *v, fv_text *out)
{
    if (v->next != FV_WHY_NOTHING)
        fv_text_add(out, "; once that is cured, %s would be next", report_why_noun(v->next));
}

void report_why_sentence(const report_frame *frame, fv_text *out)
{
    const report_why *why = frame->answer;
    const size_t target = (size_t)why->answer->target;
    const fv_why_vessel *v = of(why, target);
    if (why->answer->stopped) {
        fv_text_add(out, "Stopped early, before causes were known: %s ", name(why, target));
        add_times(why, target, out);
    } else if (v->first == FV_WHY_NOTHING) {
        say_nothing(why, target, out);
    } else {
        fv_text_add(out, "%s ", name(why, target));
        add_times(why, target, out);
        fv_text_add(out, ": ");
        report_why_cause(why, target, out);
        add_next(v, out);
    }
    fv_text_add(out, ".");
    if (report_is_slow_load(why->answer->plant->vessels[target], v->ample)) {
        fv_text_add(out, " Even with steam in plenty its load takes %s, ", print_shown_time(v->ample).text);
        report_slow_load(why->answer->plant->vessels[target], out);
        fv_text_add(out, ".");
    }
}

/* When the last vessel has its core as things are, s; NaN: one never does. */
static double last_now(const fv_why_answer *answer)
{
    double last = 0;
    for (size_t i = 0; i < answer->now->vessel_count; i++) {
        const fv_vessel_history *h = &answer->now->vessels[i];
        if (isnan(h->opened))
            continue;
        last = isnan(h->core) || isnan(last) ? (double)NAN : fmax(last, h->core);
    }
    return last;
}

static void add_effect(const report_why *why, const fv_why_remedy *r, fv_text *out)
{
    const fv_why_answer *a = why->answer;
    const bool one = a->options.vessel != NULL;
    const double now = one ? a->now->vessels[a->target].core : last_now(a);
    const double then = one ? r->core[a->target] : r->slowest;
    fv_text_add(out, one ? "the core of %s" : "the last core%s", one ? name(why, (size_t)a->target) : "");
    if (isnan(then))
        fv_text_add(out, " still does not get there");
    else
        fv_text_add(out, " gets there %s after the start", print_shown_time(then).text);
    if (isnan(now))
        fv_text_add(out, " instead of never");
    else
        fv_text_add(out, " instead of %s", print_shown_time(now).text);
}

static void add_remedy(const report_why *why, int index, fv_text *out)
{
    const fv_why_remedy *r = &why->answer->remedies[index];
    fv_text_add(out, "%s; ", why->remedies[index]);
    add_effect(why, r, out);
    fv_text_add(out, " (%s).", report_why_cost(why, r).text);
}

void report_why_safety(const report_why *why, fv_text *out)
{
    const fv_why_answer *a = why->answer;
    size_t lifted = 0, first = 0;
    double pressure = 0, vent = 0;
    for (size_t i = a->plant->vessel_count; i-- > 0;)
        if (a->vessels[i].vent > 0) {
            first = i;
            lifted++;
            pressure = fmax(pressure, a->pressures[i]);
            vent = fmax(vent, a->vessels[i].vent);
        }
    if (lifted > 0) {
        fv_text_add(out, "%sThe pressure in the chamber of %s", out->length > 0 ? " " : "", name(why, first));
        if (lifted > 1)
            fv_text_add(out, " and of %zu more", lifted - 1);
        fv_text_add(out, ", up to %s, lifts its lid: a vent of %s keeps it to %s.",
                    print_shown_as(why->units, FV_SHOW_PRESSURE, pressure).text,
                    print_shown_brief(why->units, FV_SHOW_BORE, vent).text,
                    print_shown_brief(why->units, FV_SHOW_PRESSURE, FV_LID_PRESSURE).text);
    }
    if (a->unheld >= 0)
        fv_text_add(out,
                    "%sIn time as it is, but the hold of %s breaks then: farvessel heat says why, plan what keeps it.",
                    out->length > 0 ? " " : "", name(why, (size_t)a->unheld));
}

void report_why_step(const report_why *why, fv_text *out)
{
    const fv_why_answer *a = why->answer;
    if (a->cheapest < 0)
        return;
    fv_text_add(out, "%s", out->length > 0 ? " " : "");
    fv_text_add(out, a->unheld >= 0 ? "To be earlier: "
                     : a->in_time   ? "In time as it is; to be earlier: "
                                    : "Next step: ");
    add_remedy(why, a->cheapest, out);
    if (a->slip.late > 0 || a->slip.lifts)
        report_slip(a->plant, &(print_clock){.start = NAN}, &a->slip, NAN, out);
    if (a->strongest != a->cheapest) {
        fv_text_add(out, " Most would help: ");
        add_remedy(why, a->strongest, out);
    }
    if (!a->in_time && (!a->remedies[a->cheapest].in_time || a->remedies[a->cheapest].effort == FV_EFFORT_BUY))
        fv_text_add(out, " What several small things and hands do together, farvessel plan tells.");
}

/* "; it adds 4 h 18 min more to bench6 than to bench1" */
static void add_weight(const report_why *why, size_t vessel, fv_text *out)
{
    const fv_why_vessel *v = of(why, vessel);
    const double share = v->share[v->first];
    if (v->against_best)
        fv_text_add(out, "; that adds %s more to %s than to %s",
                    print_shown_time(share - of(why, (size_t)why->answer->best)->share[v->first]).text,
                    name(why, vessel), name(why, (size_t)why->answer->best));
    else
        fv_text_add(out, "; that adds %s to %s", print_shown_time(share).text, name(why, vessel));
}

void report_why_because(const report_why *why, size_t vessel, fv_text *out)
{
    const fv_why_vessel *v = of(why, vessel);
    report_why_cause(why, vessel, out);
    if (v->first != FV_WHY_NOTHING) {
        add_weight(why, vessel, out);
        add_next(v, out);
    }
    fv_text_add(out, ".");
}
