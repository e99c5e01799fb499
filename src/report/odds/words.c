/* SPDX-License-Identifier: MIT */
/* The odds answer in sentences. */
#include "report/odds/report.h"

#include <math.h>
#include <stdio.h>

print_shown report_odds_time(const report_odds *odds, double time)
{
    const print_shown never = {"never"};
    return isinf(time) ? never : print_when(&odds->clock, time);
}

/* "at 19:25", "after 13 h 7 min", "never" */
static print_shown moment(const report_odds *odds, double time)
{
    const print_shown never = {"never"};
    return isinf(time) ? never : print_at(&odds->clock, time);
}

print_shown report_odds_minutes(double seconds)
{
    print_shown shown = {"-"};
    if (!isnan(seconds))
        snprintf(shown.text, sizeof shown.text, "%ld", lround(seconds / 60));
    return shown;
}

print_shown report_chance(double chance)
{
    print_shown shown;
    if (chance > 0 && chance < 0.005)
        snprintf(shown.text, sizeof shown.text, "<1 %%");
    else if (chance < 1 && chance > 0.995)
        snprintf(shown.text, sizeof shown.text, ">99 %%");
    else
        snprintf(shown.text, sizeof shown.text, "%.0f %%", 100 * chance);
    return shown;
}

print_shown report_unknown_spread(const fv_unknown *unknown)
{
    print_shown shown;
    if (unknown->shape == FV_SPREAD_NORMAL)
        snprintf(shown.text, sizeof shown.text, "%.2g K", unknown->spread);
    else if (unknown->shape == FV_SPREAD_EVEN_FACTOR)
        snprintf(shown.text, sizeof shown.text, "factor %.3g", unknown->spread);
    else
        snprintf(shown.text, sizeof shown.text, "%.3g %s", 100 * unknown->spread,
                 unknown->shape == FV_SPREAD_LOGIT_NORMAL ? "points" : "%");
    return shown;
}

/* The vessel that is last most often. */
static size_t usual_last(const fv_odds_answer *a)
{
    size_t last = 0;
    for (size_t i = 0; i < a->plant->vessel_count; i++)
        if (a->vessels[i].last > a->vessels[last].last)
            last = i;
    return last;
}

void report_odds_sentence(const report_frame *frame, fv_text *out)
{
    const report_odds *odds = frame->answer;
    const fv_odds_answer *a = odds->answer;
    const size_t last = usual_last(a);
    const fv_odds_vessel *v = &a->vessels[last];
    if (a->stopped)
        fv_text_add(out, "Stopped early, after %zu of %zu runs. ", a->runs_done, a->runs);
    fv_text_add(out, "The last core, %s most often (%s), is at its target %s in the middle, ",
                a->plant->vessels[last]->part.id, report_chance(v->last).text, moment(odds, a->last.middle).text);
    fv_text_add(out, "eight times in ten between %s and %s", report_odds_time(odds, a->last.low).text,
                report_odds_time(odds, a->last.high).text);
    fv_text_add(out, "; as the file has it, %s. ", isnan(a->last_now) ? "never" : moment(odds, a->last_now).text);
    fv_text_add(out, "%s done in %s time%s: chance %s.", a->plant->vessel_count > 1 ? "All vessels" : "It is",
                a->plant->vessel_count > 1 ? "their" : "its", a->plant->vessel_count > 1 ? "" : "",
                report_chance(a->all_within).text);
}

bool report_odds_measure(const fv_odds_answer *answer, size_t i, fv_text *what, fv_text *effect)
{
    static const double MINUTE_WORTH = 60; /* s */
    const fv_odds_input *in = &answer->inputs[answer->first_measure[i]];
    const fv_unknown *u = &answer->unknowns[in->unknown];
    if (in->narrows < MINUTE_WORTH)
        return false;
    fv_text_add(what, "%s: %s", u->name, u->measurement.how);
    fv_text_add(effect, "the band would be %s min narrower", report_odds_minutes(in->narrows).text);
    return true;
}

void report_odds_counts(const report_frame *frame, fv_text *out)
{
    const report_odds *odds = frame->answer;
    const fv_odds_answer *a = odds->answer;
    fv_text_add(out,
                "What the bands count: the %zu unknowns that `--table inputs` lists, as independent quantities, in %zu "
                "whole runs of the plant",
                a->unknown_count, a->runs_done);
    if (a->runs_failed)
        fv_text_add(out, ", %zu of which found no solution and are left out", a->runs_failed);
    fv_text_add(out,
                ". What they leave out: lids that are opened, gaps moved by hand, coils that clog, other loads than "
                "the file says, and faults of the model.");
}
