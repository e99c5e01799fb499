/* SPDX-License-Identifier: MIT */
/* The why answer as a screen: the sentence and the next step, the delay shared out, why, the way of the steam, what
 * would help, how it was found, cautions. */
#include "print/clock.h"
#include "print/screen.h"
#include "report/remedy.h"
#include "report/why/report.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { REMEDIES_SHOWN = 12, NAMES_SHOWN = 6, COLUMNS_MOST = 16 };

static print_shown minutes(double seconds)
{
    print_shown shown = {"-"};
    if (!isnan(seconds))
        snprintf(shown.text, sizeof shown.text, "%.0f", seconds / 60.0 + 0.0);
    if (strcmp(shown.text, "-0") == 0)
        snprintf(shown.text, sizeof shown.text, "0");
    return shown;
}

static void say_setting(const report_why *why, fv_text *out)
{
    const fv_why_answer *a = why->answer;
    fv_text line = {0};
    if (a->plant->title)
        fv_text_add(&line, "%s: ", a->plant->title);
    fv_text_add(&line,
                "times count from the opening of a vessel's steam until its core is at the target. Water boils at %s "
                "here.",
                print_shown_as(why->units, FV_SHOW_TEMPERATURE, a->now->boiling_point).text);
    print_say(out, "", &line);
}

/* ---- the delay shared out ---- */

/* Short enough that ten of them stand side by side. */
static const char *column_of(fv_why_cause cause)
{
    static const char *const names[] = {"boiler", "header",     "hose", "fit-_tings", "sag",       "water", "holes",
                                        "coil",   "open-_ings", "air",  "walls",      "line_loss", "load"};
    return names[cause];
}

static void shares(const report_why *why, fv_text *out)
{
    const fv_why_answer *a = why->answer;
    print_grid_column columns[COLUMNS_MOST] = {
        {"vessel", "", true}, {"takes", "h:min", false}, {"could", "h:min", false}};
    size_t count = 3;
    for (size_t i = 0; i < a->kept_count && count < COLUMNS_MOST - 1; i++)
        columns[count++] = (print_grid_column){column_of(a->kept[i]), "min", false};
    columns[count++] = (print_grid_column){"rest", "min", false};
    print_grid *grid = print_grid_new(columns, count);
    bool capped = false;
    for (size_t i = 0; i < a->plant->vessel_count; i++) {
        const fv_why_vessel *v = &a->vessels[i];
        print_shown took = print_hours(v->took), over;
        if (!v->asked)
            continue;
        snprintf(over.text, sizeof over.text, ">%.20s", took.text);
        print_grid_add(grid, a->plant->vessels[i]->part.id);
        print_grid_add(grid, v->arrives ? took.text : over.text);
        print_grid_add(grid, print_hours(v->ideal).text);
        for (size_t k = 0; k < a->kept_count; k++)
            print_grid_add(grid, minutes(v->share[a->kept[k]]).text);
        print_grid_add(grid, minutes(v->small).text);
        capped = capped || !v->arrives;
    }
    print_grid_section(grid, "The delay, shared out", out);
    print_sayf(out, "  ",
               "could: with all that holds it up taken away in the whole plant. Below each cause the minutes that it "
               "adds (negative: it favours this vessel); rest: small things together.");
    if (capped)
        print_sayf(out, "  ", ">: not there by then; counted as if it were.");
}

/* ---- why ---- */

/* Vessels with the same cause in the same place share a paragraph; the slowest of them speaks. */
static bool is_alike(const fv_why_vessel *a, const fv_why_vessel *b)
{
    return a->first == b->first && a->part_here == b->part_here && a->against_best == b->against_best;
}

static void because(const report_why *why, size_t first, bool *said, fv_text *out)
{
    const fv_why_answer *a = why->answer;
    print_names names = {0};
    fv_text line = {0};
    size_t slowest = first;
    for (size_t i = first; i < a->plant->vessel_count; i++) {
        if (!a->vessels[i].asked || !is_alike(&a->vessels[first], &a->vessels[i]))
            continue;
        said[i] = true;
        slowest = a->vessels[i].took > a->vessels[slowest].took ? i : slowest;
        out->failed = out->failed || !print_names_push(&names, why->arena, a->plant->vessels[i]->part.id);
    }
    print_names_say(&names, NAMES_SHOWN, &line);
    fv_text_add(&line, ": ");
    report_why_because(why, slowest, &line);
    print_say(out, "  - ", &line);
}

static void reasons(const report_why *why, fv_text *out)
{
    const fv_why_answer *a = why->answer;
    bool *said = fv_arena_alloc(why->arena, a->plant->vessel_count + 1, sizeof(bool));
    if (!said) {
        out->failed = true;
        return;
    }
    print_section(out, "Why");
    for (size_t i = 0; i < a->plant->vessel_count; i++)
        if (a->vessels[i].asked && !said[i])
            because(why, i, said, out);
}

/* ---- where the millibars go ---- */

static void place(const report_why *why, const fv_why_place *p, print_grid *grid)
{
    static const char *const kinds[] = {"", "sag of ", "joint ", "coil of ", "water in ", "holes of "};
    char number[32];
    const fv_unit_system units = why->units;
    const bool line = p->kind == FV_PLACE_LINE;
    print_grid_addf(grid, "%s%.60s", kinds[p->kind], p->part);
    print_grid_show(grid, units, FV_SHOW_PRESSURE, p->before);
    print_grid_show(grid, units, FV_SHOW_PRESSURE, p->drop);
    print_grid_show(grid, units, FV_SHOW_SHARE, p->share);
    print_grid_add(grid, line ? fv_show_number(units, FV_SHOW_PRESSURE, p->friction, number, sizeof number) : "");
    print_grid_add(grid, line ? fv_show_number(units, FV_SHOW_PRESSURE, p->fittings, number, sizeof number) : "");
}

static void pressure(const report_why *why, fv_text *out)
{
    const fv_why_answer *a = why->answer;
    const char *unit = fv_show_unit(why->units, FV_SHOW_PRESSURE);
    const print_grid_column columns[] = {{"place", "", true},   {"before", unit, false},   {"drop", unit, false},
                                         {"share", "%", false}, {"friction", unit, false}, {"fittings", unit, false}};
    print_grid *grid = print_grid_new(columns, sizeof columns / sizeof *columns);
    size_t rows = 0;
    for (size_t i = 0; i < a->place_count; i++)
        if (a->places[i].vessel == a->target) {
            place(why, &a->places[i], grid);
            rows++;
        }
    if (rows == 0) {
        print_grid_free(grid);
        return;
    }
    print_grid_section(grid, "Where the pressure goes", out);
    print_sayf(out, "  ", "On the way to %s, when steam first flows.%s", a->plant->vessels[a->target]->part.id,
               a->place_count > rows ? " The others: --format csv --table pressure." : "");
}

/* ---- what would help ---- */

static void cost_cell(const fv_why_remedy *r, print_grid *grid)
{
    print_shown shown = {"?"};
    if (r->effort == FV_EFFORT_FREE)
        snprintf(shown.text, sizeof shown.text, "-");
    else if (!isnan(r->cost))
        snprintf(shown.text, sizeof shown.text, "%.0f", r->cost);
    print_grid_add(grid, shown.text);
}

/* The vessel that fares worst under it, apart from the target. */
static double worst_for_others(const fv_why_answer *a, const fv_why_remedy *r)
{
    double worst = NAN;
    for (size_t v = 0; v < a->plant->vessel_count; v++)
        if ((int)v != a->target && !isnan(a->now->vessels[v].opened))
            worst = fmin(worst, r->gain[v]);
    return worst;
}

static void remedy(const report_why *why, size_t i, print_grid *grid)
{
    const fv_why_answer *a = why->answer;
    const fv_why_remedy *r = &a->remedies[i];
    print_grid_addf(grid, "%s%s%.200s", (int)i == a->cheapest ? "> " : "",
                    r->over_relief ? "(blows relief) "
                    : r->lifts_lid ? "(lifts a lid) "
                                   : "",
                    why->remedies[i]);
    print_grid_add(grid, fv_effort_word(r->effort));
    cost_cell(r, grid);
    print_grid_add(grid, print_hours(r->slowest).text);
    print_grid_add(grid, minutes(r->gain[a->target]).text);
    print_grid_add(grid, minutes(worst_for_others(a, r)).text);
}

static void remedies(const report_why *why, fv_text *out)
{
    const fv_why_answer *a = why->answer;
    const char *currency = a->plant->currency ? a->plant->currency : "";
    const print_grid_column columns[] = {{"change", "", true},       {"effort", "", true},
                                         {"cost", currency, false},  {"last_core", "h:min", false},
                                         {"it_gains", "min", false}, {"others_at_worst", "min", false}};
    if (!a->options.remedies)
        return;
    print_section(out, "What would help");
    size_t shown = 0;
    print_grid *grid = print_grid_new(columns, sizeof columns / sizeof *columns);
    for (size_t i = 0; i < a->remedy_count && shown < REMEDIES_SHOWN && a->remedies[i].worth >= 60.0; i++, shown++)
        remedy(why, i, grid);
    if (shown > 0) {
        print_grid_print(grid, out);
        print_sayf(out, "  ",
                   "last core: when the last vessel is there, by the clock that starts with the fire; it gains: %s; "
                   "others at worst: the other vessel that loses most, or gains least.%s",
                   a->plant->vessels[a->target]->part.id, a->cheapest >= 0 ? " >: the next step." : "");
    } else {
        print_grid_free(grid);
        print_sayf(out, "  ", "Of %zu changes tried, none gains a minute.", a->remedy_count);
    }
    if (a->cheapest < 0)
        return;
    fv_text_add(out, "\n  The next step, to try it:\n  ");
    report_command(a->plant, "heat", &a->remedies[a->cheapest].change, " \\\n    ", out);
    fv_text_add(out, "\n");
}

void report_why_method(const report_frame *frame, fv_text *out)
{
    const fv_why_answer *a = ((const report_why *)frame->answer)->answer;
    fv_text_add(out,
                "Found by %zu runs of the whole plant. The delay is shared out by Shapley values over %zu causes, all "
                "2^%zu combinations of them run; what changes next to nothing, taken away alone or last, is in the "
                "rest.",
                a->runs, a->kept_count, a->kept_count);
    if (a->runs_failed > 0)
        fv_text_add(out, " %zu runs found no solution; the causes concerned are left out.", a->runs_failed);
    if (a->remedies_failed > 0)
        fv_text_add(out, " %zu changes could not be tried.", a->remedies_failed);
}

void report_why_step_said(const report_frame *frame, fv_text *out)
{
    report_why_safety(frame->answer, out);
    report_why_step(frame->answer, out);
}

void report_why_lead(const report_frame *frame, fv_text *out)
{
    say_setting(frame->answer, out);
}

void report_why_table(const report_frame *frame, fv_text *out)
{
    if (!((const report_why *)frame->answer)->answer->stopped)
        shares(frame->answer, out);
}

void report_why_reasons(const report_frame *frame, fv_text *out)
{
    if (!((const report_why *)frame->answer)->answer->stopped)
        reasons(frame->answer, out);
    remedies(frame->answer, out);
}

void report_why_details(const report_frame *frame, fv_text *out)
{
    pressure(frame->answer, out);
}
