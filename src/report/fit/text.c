/* SPDX-License-Identifier: MIT */
/* The fit answer as a screen. */
#include "print/screen.h"
#include "report/fit/report.h"

#include <math.h>
#include <stdio.h>

enum { UNKNOWNS_SHOWN = 12, STRETCHES_SHOWN = 6, PAIRS_SHOWN = 3 };

static void modes(const report_fit *fit, fv_text *out)
{
    const fv_fit_answer *a = fit->answer;
    double rest = 1;
    print_section(out, "What explains the log");
    for (size_t k = 0; k < a->mode_count; k++) {
        fv_text line = {0};
        rest -= a->modes[k].probability;
        fv_text_add(&line, "chance %.0f %%: ", 100 * a->modes[k].probability);
        report_fit_mode(fit, &a->modes[k], &line);
        print_say(out, "  - ", &line);
    }
    if (rest > 0.01)
        print_sayf(out, "  - ", "chance %.0f %%: one thing is wrong that the log hardly shows yet", 100 * rest);
    if (a->mode_count > 1)
        print_sayf(out, "  ",
                   "Explanations that the log can hardly tell from each other stand side by side: look at the "
                   "coil, the hose and its sag.");
}

static void vessels(const report_fit *fit, fv_text *out)
{
    static const print_grid_column columns[] = {
        {"vessel", "", true},     {"core_10 %", "", false}, {"at_target", "", false}, {"core_90 %", "", false},
        {"hold_10 %", "", false}, {"done", "", false},      {"hold_90 %", "", false}};
    const fv_fit_answer *a = fit->answer;
    print_grid *grid = print_grid_new(columns, sizeof columns / sizeof *columns);
    for (size_t i = 0; i < a->plant->vessel_count; i++) {
        const fv_fit_vessel *v = &a->vessels[i];
        const double times[] = {v->core.low, v->core.middle, v->core.high, v->hold.low, v->hold.middle, v->hold.high};
        print_grid_add(grid, a->plant->vessels[i]->part.id);
        for (size_t k = 0; k < 6; k++)
            print_grid_add(grid, report_fit_time(fit, times[k]).text);
    }
    print_grid_section(grid, "When each vessel was, or will be, done", out);
}

/* A value as a share of what the file says, or as a difference from it. */
static void add_value(print_grid *grid, const fv_unknown *u, double value)
{
    if (u->shape == FV_SPREAD_NORMAL)
        print_grid_addf(grid, "%+.1f K", value - u->centre);
    else
        print_grid_addf(grid, "%+.0f %%", 100 * (value / u->centre - 1));
}

static void unknowns(const report_fit *fit, fv_text *out)
{
    static const print_grid_column columns[] = {{"unknown", "", true},      {"before_10 %", "", false},
                                                {"before_90 %", "", false}, {"now_10 %", "", false},
                                                {"now_middle", "", false},  {"now_90 %", "", false}};
    const fv_fit_answer *a = fit->answer;
    print_grid *grid = print_grid_new(columns, sizeof columns / sizeof *columns);
    size_t shown = 0;
    for (int level = FV_LEARNT; level <= FV_LEARNT_LITTLE; level++)
        for (size_t i = 0; i < a->unknown_count && shown < UNKNOWNS_SHOWN; i++) {
            const fv_fit_unknown *u = &a->unknowns[i];
            if ((int)u->learnt != level)
                continue;
            const double values[] = {u->prior_low, u->prior_high, u->low, u->middle, u->high};
            print_grid_add(grid, a->unknown_list[i].name);
            for (size_t k = 0; k < 5; k++)
                add_value(grid, &a->unknown_list[i], values[k]);
            shown++;
        }
    print_section(out, "What the log taught, against what the file says");
    if (shown > 0) {
        print_grid_print(grid, out);
    } else {
        print_grid_free(grid);
        print_sayf(out, "  ", "Nothing: the readings are too few, or too early.");
    }
    size_t pairs = 0;
    for (size_t i = 0; i < a->unknown_count && pairs < PAIRS_SHOWN; i++) {
        const fv_fit_unknown *u = &a->unknowns[i];
        if (u->pair <= (int)i)
            continue;
        const fv_unknown *one = &a->unknown_list[i], *other = &a->unknown_list[u->pair];
        const fv_unknown *easy = one->measurement.effort <= other->measurement.effort ? one : other;
        print_sayf(out, "  - ", "hard to tell apart: %s and %s; measure the %s (%s)", one->name, other->name,
                   easy->name, easy->measurement.how);
        pairs++;
    }
}

/* The one that departs most; three deviations are once in 370 probes by chance. */
static void departing(const report_fit *fit, fv_text *out)
{
    const fv_fit_answer *a = fit->answer;
    const fv_show show = FV_SHOW_TEMPERATURE_DIFFERENCE;
    size_t most = 0;
    for (size_t i = 1; i < a->probe_count; i++)
        if (fabs(a->probes[i].departs) > fabs(a->probes[most].departs) || isnan(a->probes[most].departs))
            most = i;
    const fv_fit_probe *p = &a->probes[most];
    const fv_probe_readings *r = &a->cleaned[most].readings;
    if (a->probe_count == 0 || !(fabs(p->departs) > 3))
        return;
    print_sayf(
        out, "  - ",
        "%s departs from what the plant and the other probes say: left to them, it reads %s too %s (+-%s), where "
        "%s is usual; check it in melting ice and in boiling water, and whether it lies where the file says",
        r->name, print_shown_as(fit->units, show, fabs(p->others - r->offset)).text,
        p->others > r->offset ? "high" : "low", print_shown_as(fit->units, show, p->others_error).text,
        print_shown_as(fit->units, show, r->reach).text);
}

static void probes(const report_fit *fit, fv_text *out)
{
    static const print_grid_column columns[] = {
        {"probe", "", true}, {"readings_used", "", false}, {"rms", "K", false},       {"offset", "K", false},
        {"+-", "K", false},  {"noise", "K", false},        {"auto-_corr.", "", false}};
    const fv_fit_answer *a = fit->answer;
    print_grid *grid = print_grid_new(columns, sizeof columns / sizeof *columns);
    for (size_t i = 0; i < a->probe_count; i++) {
        const fv_fit_probe *p = &a->probes[i];
        const double numbers[] = {p->rms, p->offset, p->offset_error, p->noise, p->autocorrelation};
        char text[32];
        print_grid_add(grid, a->cleaned[i].readings.name);
        print_grid_addf(grid, "%zu", p->used);
        for (size_t k = 0; k < 5; k++) {
            snprintf(text, sizeof text, "%.2f", numbers[k]);
            print_grid_add(grid, isnan(numbers[k]) ? "-" : text);
        }
    }
    print_grid_section(grid, "How well each probe is followed", out);
    departing(fit, out);
    for (size_t i = 0; i < a->stretch_count && i < STRETCHES_SHOWN; i++) {
        fv_text line = {0};
        report_fit_stretch(fit, &a->stretches[i], &line);
        print_say(out, "  - ", &line);
    }
}

static void instruments(const report_fit *fit, fv_text *out)
{
    const fv_fit_answer *a = fit->answer;
    for (size_t i = a->probe_count; i < a->probe_count + a->instrument_count; i++) {
        const fv_probe_readings *r = &a->cleaned[i].readings;
        const fv_show show = r->reads == FV_READS_WATER ? FV_SHOW_WATER : FV_SHOW_DROP;
        const print_shown rms = print_shown_as(fit->units, show, a->probes[i].rms);
        print_sayf(out, "  - ", "%s %s: %s to %s%s", r->reads == FV_READS_WATER ? "meter" : "gauge", r->name,
                   r->reads == FV_READS_WATER ? "the water is met" : "followed", rms.text,
                   r->reads == FV_READS_WATER ? "" : " rms");
    }
}

void report_fit_lead(const report_frame *frame, fv_text *out)
{
    const report_fit *fit = frame->answer;
    print_sayf(out, "", "%s: times are those of %s; the fire was lit at %s, to %.0f s.",
               frame->plant->title ? frame->plant->title : "The plant", fit->answer->log->file,
               report_fit_time(fit, 0).text, fit->answer->lit_error);
}

void report_fit_table(const report_frame *frame, fv_text *out)
{
    modes(frame->answer, out);
    vessels(frame->answer, out);
    unknowns(frame->answer, out);
    probes(frame->answer, out);
    instruments(frame->answer, out);
}
