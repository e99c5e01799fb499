/* SPDX-License-Identifier: MIT */
/* Which vessels to point out, and how numbers, times and curves are named. */
#include "page/view.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- which vessels to point out ---- */

/* Larger is worse: those whose core never arrives first, by how far it is off; then by time. */
static double badness(const page_view *v, size_t vessel)
{
    static const double never = 1e12, scale = 1e6;
    const fv_vessel_result *steady = &v->flow->state->vessels[vessel];
    if (page_view_verdict(v, vessel) == FV_SHUT_OFF)
        return -never;
    if (v->heat && !isnan(v->heat->vessels[vessel].core))
        return report_heat_took(&v->words, vessel);
    if (v->heat)
        return never - scale * v->heat->vessels[vessel].core_end;
    return steady->need > 0.0 ? -steady->heat / steady->need : -steady->steam;
}

/* By badness; equal ones as in the file. */
static bool rank(page_view *v)
{
    size_t count = v->flow->state->vessel_count;
    v->ranked = malloc((count + 1) * sizeof *v->ranked);
    for (size_t i = 0; v->ranked && i < count; i++) {
        size_t at = i;
        for (; at > 0 && badness(v, v->ranked[at - 1]) < badness(v, i); at--)
            v->ranked[at] = v->ranked[at - 1];
        v->ranked[at] = i;
    }
    for (size_t i = 0; v->ranked && i < count; i++)
        if (page_view_verdict(v, v->ranked[i]) != FV_SHUT_OFF)
            v->best = v->ranked[i];
    v->worst = v->ranked && count > 0 ? v->ranked[0] : 0;
    return v->ranked != NULL;
}

size_t page_view_ranked(const page_view *v, size_t place)
{
    return v->ranked[place];
}

bool page_view_make(const fv_page_content *content, const fv_page_options *options, page_view *v)
{
    const fv_report_options words = {
        .units = options->units, .clock = options->clock, .twelve_hours = options->twelve_hours};
    *v = (page_view){.content = content,
                     .options = options,
                     .flow = content->flow,
                     .heat = content->heat,
                     .plant = content->flow->plant,
                     .units = options->units,
                     .many = content->flow->state->vessel_count > VIEW_FEW};
    if (v->heat && !report_heat_make(v->heat, &words, &v->words))
        return false;
    if (content->why && !page_why_make(content->why, options->units, &v->why))
        return false;
    if (content->plan && !report_plan_make(content->plan, &words, &v->plan))
        return false;
    if (content->week && !report_week_make(content->week, &words, &v->week))
        return false;
    snprintf(v->currency, sizeof v->currency, "%s%.20s", v->plant->currency ? " " : "",
             v->plant->currency ? v->plant->currency : "");
    v->cost = (report_cost){content->cost, options->units, v->currency};
    v->remedies = content->why ? v->why.rows : content->remedies;
    v->remedy_count = content->why ? v->why.count : content->remedy_count;
    v->because = content->why ? (content->remedies_only ? v->why.besides : v->why.because) : content->because;
    return rank(v);
}

void page_view_free(page_view *v)
{
    free(v->ranked);
    report_heat_free(&v->words);
    page_why_free(&v->why);
    report_plan_free(&v->plan);
    report_week_free(&v->week);
}

fv_verdict page_view_verdict(const page_view *v, size_t vessel)
{
    static const fv_verdict verdicts[OUTCOMES] = {
        [OUTCOME_NEVER] = FV_STARVED,   [OUTCOME_LATE] = FV_STARVED,    [OUTCOME_UNHELD] = FV_STARVED,
        [OUTCOME_PENDING] = FV_LAGGING, [OUTCOME_LAGGING] = FV_LAGGING, [OUTCOME_FED] = FV_FED,
        [OUTCOME_SHUT] = FV_SHUT_OFF,
    };
    return v->heat ? verdicts[v->words.outcomes[vessel]] : v->flow->state->vessels[vessel].verdict;
}

const char *page_view_outcome(const page_view *v, size_t vessel)
{
    return v->heat ? report_outcome_shown(v->words.outcomes[vessel]) : fv_verdict_word(page_view_verdict(v, vessel));
}

page_svg_mark_kind page_view_mark(fv_verdict verdict)
{
    static const page_svg_mark_kind marks[] = {
        [FV_FED] = SVG_MARK_FED,
        [FV_LAGGING] = SVG_MARK_LAGGING,
        [FV_STARVED] = SVG_MARK_STARVED,
        [FV_SHUT_OFF] = SVG_MARK_SHUT,
    };
    return marks[verdict];
}

const char *page_view_vessel(const page_view *v, size_t vessel)
{
    return v->plant->vessels[vessel]->part.id;
}

/* ---- numbers ---- */

const char *page_view_unit(const page_view *v, fv_show show)
{
    static const char *const pretty[][2] = {
        {"degC", "\xC2\xB0"
                 "C"},
        {"degF", "\xC2\xB0"
                 "F"},
        {"m2", "m\xC2\xB2"},
        {"ft2", "ft\xC2\xB2"},
    };
    const char *unit = fv_show_unit(v->units, show);
    for (size_t i = 0; i < sizeof pretty / sizeof *pretty; i++)
        if (strcmp(unit, pretty[i][0]) == 0)
            return pretty[i][1];
    return unit;
}

double page_view_value(const page_view *v, fv_show show, double si)
{
    return fv_show_value(v->units, show, si);
}

print_shown page_view_shown(const page_view *v, fv_show show, double si)
{
    print_shown shown;
    char number[PRINT_SHOW_SIZE / 2];
    const char *unit = page_view_unit(v, show);
    fv_show_number(v->units, show, si, number, sizeof number);
    snprintf(shown.text, sizeof shown.text, "%s%s%s", number, unit[0] ? " " : "", unit);
    return shown;
}

print_shown page_view_duration(double seconds)
{
    return isnan(seconds) ? (print_shown){"-"} : print_shown_time(seconds);
}

print_shown page_view_arrival(const page_view *v, size_t vessel)
{
    static const print_shown not_yet = {"not yet"}, never = {"never"};
    double took = report_heat_took(&v->words, vessel);
    if (!isnan(took))
        return print_shown_time(took);
    return v->words.outcomes[vessel] == OUTCOME_PENDING ? not_yet : never;
}

double page_view_deadline(const page_view *v, size_t vessel)
{
    return v->heat ? v->heat->vessels[vessel].opened + fv_or(v->plant->vessels[vessel]->within, NAN) : (double)NAN;
}

print_shown page_view_time(const page_view *v, double seconds)
{
    return isnan(v->options->clock) ? page_view_duration(seconds) : print_when(&v->words.clock, seconds);
}

print_shown page_view_axis_name(const page_view *v, const char *what, fv_show show)
{
    print_shown name;
    snprintf(name.text, sizeof name.text, "%s, %s", what, page_view_unit(v, show));
    return name;
}

/* ---- curves of vessels ---- */

const char *page_view_curve_class(const page_view *v, size_t vessel)
{
    static const char *const classes[VIEW_FEW] = {"c k0", "c k1", "c k2", "c k3", "c k4", "c k5"};
    if (!v->many)
        return classes[vessel % VIEW_FEW];
    return vessel == v->worst ? "c worst" : vessel == v->best ? "c best" : "c faint";
}

static size_t keys_of(const page_view *v, page_plot_key keys[VIEW_FEW], char names[VIEW_FEW][SVG_FIT_SIZE + 16])
{
    size_t count = v->flow->state->vessel_count;
    if (!v->many) {
        for (size_t i = 0; i < count; i++) {
            snprintf(names[i], sizeof names[i], "%s", page_svg_fit(page_view_vessel(v, i), 34).text);
            keys[i] = (page_plot_key){page_view_curve_class(v, i), names[i]};
        }
        return count;
    }
    snprintf(names[0], sizeof names[0], "worst: %s", page_svg_fit(page_view_vessel(v, v->worst), 30).text);
    snprintf(names[1], sizeof names[1], "best: %s", page_svg_fit(page_view_vessel(v, v->best), 30).text);
    snprintf(names[2], sizeof names[2], "the other %zu", count - 2);
    keys[0] = (page_plot_key){"c worst", names[0]};
    keys[1] = (page_plot_key){"c best", names[1]};
    keys[2] = (page_plot_key){"c faint", names[2]};
    return 3;
}

double page_view_vessel_keys(const page_view *v, page_markup *m, double left, double top, double width)
{
    page_plot_key keys[VIEW_FEW];
    char names[VIEW_FEW][SVG_FIT_SIZE + 16];
    return page_plot_keys(m, left, top, width, keys, keys_of(v, keys, names));
}

double page_view_vessel_keys_height(const page_view *v, double width)
{
    page_plot_key keys[VIEW_FEW];
    char names[VIEW_FEW][SVG_FIT_SIZE + 16];
    return page_plot_keys(NULL, 0, 0, width, keys, keys_of(v, keys, names));
}
