/* SPDX-License-Identifier: MIT */
/* The odds answer as a screen: the sentence, bands by vessel, what matters, what to measure, where probes tell most,
 * what is counted, cautions. */
#include "print/screen.h"
#include "report/odds/report.h"

#include <math.h>

enum { INPUTS_SHOWN = 8, MEASURES_SHOWN = 5 };

static void vessels(const report_odds *odds, fv_text *out)
{
    static const print_grid_column columns[] = {
        {"vessel", "", true}, {"file_says", "", false},    {"10 %", "", false},     {"core at_target", "", false},
        {"90 %", "", false},  {"in its_time", "%", false}, {"starved", "%", false}, {"comes_last", "%", false}};
    const fv_odds_answer *a = odds->answer;
    print_grid *grid = print_grid_new(columns, sizeof columns / sizeof *columns);
    for (size_t i = 0; i < a->plant->vessel_count; i++) {
        const fv_odds_vessel *v = &a->vessels[i];
        print_grid_add(grid, a->plant->vessels[i]->part.id);
        print_grid_add(grid, isnan(v->now) ? "never" : report_odds_time(odds, v->now).text);
        print_grid_add(grid, report_odds_time(odds, v->core.low).text);
        print_grid_add(grid, report_odds_time(odds, v->core.middle).text);
        print_grid_add(grid, report_odds_time(odds, v->core.high).text);
        const double shares[] = {v->within, v->verdict[FV_STARVED], v->last};
        for (size_t k = 0; k < 3; k++) {
            print_grid_addf(grid, "%.0f", 100 * shares[k]);
        }
    }
    print_grid_section(grid, "When each core is at its target", out);
    if (isfinite(a->last.low_error) && isfinite(a->last.high_error))
        print_sayf(out, "  ",
                   "Sampling error (one standard error) of the last core's times: 10 %% %s, 90 %% %s min; of "
                   "the chance that all are in time %.0f points.",
                   report_odds_minutes(a->last.low_error).text, report_odds_minutes(a->last.high_error).text,
                   100 * a->all_within_error);
}

static void inputs(const report_odds *odds, fv_text *out)
{
    static const print_grid_column columns[] = {{"unknown", "", true},
                                                {"spread", "", false},
                                                {"share", "%", false},
                                                {"with_others", "%", false},
                                                {"narrows", "min", false}};
    const fv_odds_answer *a = odds->answer;
    print_grid *grid = print_grid_new(columns, sizeof columns / sizeof *columns);
    for (size_t i = 0; i < a->unknown_count && i < INPUTS_SHOWN; i++) {
        const fv_odds_input *in = &a->inputs[i];
        const fv_unknown *u = &a->unknowns[in->unknown];
        const bool exact = !isnan(in->exact_first);
        if (in->total <= 0 && !exact)
            break;
        print_grid_add(grid, u->name);
        print_grid_add(grid, report_unknown_spread(u).text);
        print_grid_addf(grid, "%.0f", 100 * fmax(0, exact ? in->exact_first : in->first));
        print_grid_addf(grid, "%.0f", 100 * fmax(0, exact ? in->exact_total : in->total));
        print_grid_add(grid, report_odds_minutes(in->narrows).text);
    }
    print_grid_section(grid, "What makes the band of the last core wide", out);
    if (a->unknown_count > 0 && !isnan(a->inputs[0].exact_first))
        print_sayf(out, "  ", "Shares of the variance by the Saltelli and Jansen scheme.");
    else
        print_sayf(out, "  ",
                   "Shares of the variance by regression on polynomials, which explain %.0f %% of it (--exact runs "
                   "the full scheme). narrows: by so much the 80 %% band would shrink if that were known.",
                   100 * fmax(0, a->explained));
}

static void measures(const report_odds *odds, fv_text *out)
{
    const fv_odds_answer *a = odds->answer;
    print_section(out, "What to measure first (minutes of band for the effort)");
    size_t said = 0;
    for (size_t i = 0; i < a->unknown_count && said < MEASURES_SHOWN; i++) {
        fv_text line = {0}, effect = {0};
        if (!report_odds_measure(a, i, &line, &effect))
            continue;
        fv_text_add(&line, "; %s", effect.text ? effect.text : "");
        print_say(out, "  - ", &line);
        fv_text_free(&effect);
        said++;
    }
    if (said == 0)
        print_sayf(out, "  ", "No single measurement narrows the band by as much as a minute.");
    for (size_t i = 0; i < a->place_count; i++) {
        const fv_odds_place *p = &a->places[i];
        print_sayf(out, "  - ",
                   "%s probe: %s of %s; read for the first half of the way, %s makes the band of the last core %s min "
                   "narrower",
                   i == 0   ? "first"
                   : i == 1 ? "second"
                   : i == 2 ? "third"
                            : "next",
                   p->core ? "core" : "chamber", a->plant->vessels[p->vessel]->part.id,
                   i == 0 ? "it" : "with those before it", report_odds_minutes(p->narrows).text);
    }
}

void report_odds_lead(const report_frame *frame, fv_text *out)
{
    const report_odds *odds = frame->answer;
    if (frame->plant->title)
        print_sayf(out, "", "%s: times are %s.", frame->plant->title,
                   isnan(odds->clock.start) ? "in hours:minutes from the start, --start 06:00 gives clock times"
                                            : "clock times");
    if (odds->answer->over_relief > 0)
        print_sayf(out, "", "Chance that some boiler goes above its relief pressure: %s.",
                   report_chance(odds->answer->over_relief).text);
}

void report_odds_table(const report_frame *frame, fv_text *out)
{
    vessels(frame->answer, out);
    inputs(frame->answer, out);
    measures(frame->answer, out);
}
