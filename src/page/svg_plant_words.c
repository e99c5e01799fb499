/* SPDX-License-Identifier: MIT */
/* Words in the drawing: what was measured, and what the answer says of it. */
#include "page/svg_plant.h"
#include "page/svg_words.h"
#include "report/flow/report.h"

#include <math.h>
#include <stdio.h>

enum { SMALL = 11, BIG = 13 };

typedef struct {
    char text[4 * PRINT_SHOW_SIZE];
} phrase;

static double draw(page_markup *m, page_svg_point at, double width, const page_svg_run *runs, size_t count)
{
    return page_svg_words(m, at.x, at.y, width, runs, count);
}

/* What was measured, shown without digits that nobody read off. */
static print_shown said(const page_view *v, fv_show show, double si)
{
    return print_shown_said(v->units, show, si);
}

/* ---- lines ---- */

/* "(19 mm, 3 m)"; what lies in a sag besides. */
static phrase sizes(const page_view *v, const fv_line *line)
{
    phrase p;
    int used = snprintf(p.text, sizeof p.text, "(%s, %s", said(v, FV_SHOW_BORE, line->bore.v).text,
                        said(v, FV_SHOW_LENGTH, line->length.v).text);
    if (fv_is_set(line->sag) && line->sag.v > 0.0)
        used +=
            snprintf(p.text + used, sizeof p.text - (size_t)used, ", sag %s", said(v, FV_SHOW_BORE, line->sag.v).text);
    snprintf(p.text + used, sizeof p.text - (size_t)used, ")");
    return p;
}

/* "12.1→2.3 mbar", the way the steam goes. */
static phrase pressures(const page_view *v, const fv_line_result *line)
{
    phrase p;
    char before[24], after[24];
    bool back = line->flow_from < 0.0;
    fv_show_number(v->units, FV_SHOW_DROP, back ? line->pressure_to : line->pressure_from, before, sizeof before);
    fv_show_number(v->units, FV_SHOW_DROP, back ? line->pressure_from : line->pressure_to, after, sizeof after);
    snprintf(p.text, sizeof p.text, "%s\xE2\x86\x92%s %s", before, after, page_view_unit(v, FV_SHOW_DROP));
    return p;
}

/* What is wrong with the line; NULL if nothing is. */
static const char *trouble(const fv_line_result *r)
{
    return r->shut            ? "valve shut"
           : r->blocked       ? "water in sag blocks"
           : r->condenses_all ? "all condenses"
           : r->choked        ? "choked"
                              : NULL;
}

double page_drawing_line_words(const page_view *v, page_markup *m, int index, page_svg_point at, double width)
{
    const fv_line *line = v->plant->lines[index];
    const fv_line_result *r = &v->flow->state->lines[index];
    phrase measured = sizes(v, line), pressure = pressures(v, r);
    print_shown steam = page_view_shown(v, FV_SHOW_STEAM, fabs(r->flow_from < 0.0 ? r->flow_from : r->flow_to));
    const char *bad = trouble(r);
    const page_svg_run runs[] = {
        {line->part.id, "id", SMALL, true, false},
        {measured.text, NULL, SMALL, false, false},
        {steam.text, "much", SMALL, true, false},
        {bad ? bad : pressure.text, bad ? "bad" : "soft", SMALL, bad != NULL, false},
    };
    return draw(m, at, width, runs, sizeof runs / sizeof *runs);
}

/* ---- parts ---- */

/* "40 holes of 3 mm," */
static phrase holes(const page_view *v, const fv_coil *c)
{
    phrase p = {""};
    if (c->hole_count > 0)
        snprintf(p.text, sizeof p.text, "%zu sorts of holes,", c->hole_count);
    else if (fv_is_set(c->holes))
        snprintf(p.text, sizeof p.text, "%.0f hole%s of %s,", c->holes.v, c->holes.v > 1 ? "s" : "",
                 said(v, FV_SHOW_BORE, c->drill.v).text);
    return p;
}

static double vessel_words(const page_view *v, page_markup *m, size_t vessel, page_svg_point at, double width)
{
    const fv_vessel_result *r = &v->flow->state->vessels[vessel];
    bool shut = page_view_verdict(v, vessel) == FV_SHUT_OFF;
    const fv_coil *c = &v->plant->vessels[vessel]->coil;
    print_shown time = {""};
    phrase outcome, heat, need = {""}, drilled = holes(v, c), coil;
    if (v->heat && !shut)
        time = page_view_arrival(v, vessel);
    snprintf(outcome.text, sizeof outcome.text, "%s%s%s", page_view_outcome(v, vessel), time.text[0] ? ", " : "",
             time.text);
    bool needy = !shut && r->need > 0.0;
    snprintf(heat.text, sizeof heat.text, "%s%s", page_view_shown(v, FV_SHOW_POWER, r->heat).text, needy ? "," : "");
    snprintf(coil.text, sizeof coil.text, "coil %s", said(v, FV_SHOW_BORE, c->bore.v).text);
    if (needy)
        snprintf(need.text, sizeof need.text, "needs %s", page_view_shown(v, FV_SHOW_POWER, r->need).text);
    const page_svg_run runs[] = {
        {page_view_vessel(v, vessel), "id big", BIG, true, false},
        {outcome.text, NULL, SMALL, false, true},
        {heat.text, "soft", SMALL, false, true},
        {need.text, "soft", SMALL, false, false},
        {drilled.text, "soft", SMALL, false, true},
        {coil.text, "soft", SMALL, false, false},
    };
    return draw(m, at, width, runs, sizeof runs / sizeof *runs);
}

static double boiler_words(const page_view *v, page_markup *m, size_t boiler, page_svg_point at, double width)
{
    const fv_boiler_result *r = &v->flow->state->boilers[boiler];
    const fv_boiler *b = v->plant->boilers[boiler];
    print_shown steam = page_view_shown(v, FV_SHOW_STEAM, r->steam);
    phrase state, size, pressure;
    snprintf(state.text, sizeof state.text, "%s,", report_boiler_word(r->state));
    snprintf(size.text, sizeof size.text, "(%s)", said(v, FV_SHOW_POWER, b->output.v).text);
    snprintf(pressure.text, sizeof pressure.text, "at %s", page_view_shown(v, FV_SHOW_PRESSURE, r->pressure).text);
    const page_svg_run runs[] = {
        {b->part.id, "id big", BIG, true, false},     {size.text, NULL, SMALL, false, false},
        {state.text, NULL, SMALL, false, true},       {steam.text, "much", SMALL, true, false},
        {pressure.text, "soft", SMALL, false, false},
    };
    return draw(m, at, width, runs, sizeof runs / sizeof *runs);
}

double page_drawing_part_words(const page_view *v, page_markup *m, page_layout_kind kind, int index, page_svg_point at,
                               double width)
{
    if (kind == LAYOUT_VESSEL)
        return vessel_words(v, m, (size_t)index, at, width);
    if (kind == LAYOUT_BOILER)
        return boiler_words(v, m, (size_t)index, at, width);
    const page_svg_run runs[] = {{"joint", "soft", SMALL, false, false},
                                 {v->plant->nodes[index], "soft", SMALL, false, false}};
    return draw(m, at, width, runs, 2);
}
