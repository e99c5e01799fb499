/* SPDX-License-Identifier: MIT */
/* Pressure along the way that the steam takes to each vessel: straight between joints, a step where a sag holds water,
 * and at the end the fall across the holes. */
#include "page/cards.h"
#include "page/pictures.h"

#include <math.h>
#include <stdlib.h>

typedef struct {
    double *x, *y; /* from the vessel back to the boiler, in shown units */
    size_t count;
} way;

/* Steam that a line brings to a joint, kg/s; negative where it takes some away. */
static double brings(const fv_plant *plant, const fv_steady_result *state, size_t line, int node)
{
    return plant->lines[line]->node_to == node ? state->lines[line].flow_to : -state->lines[line].flow_from;
}

/* The line that brings most steam to a joint; where none does, because a sag or a valve stops it, the one with the most
 * pressure behind it. -1: the way begins here. */
static int upstream(const fv_plant *plant, const fv_steady_result *state, int node, const bool *walked)
{
    int by_flow = -1, by_pressure = -1;
    double most = 0.0, highest = state->nodes[node].pressure;
    for (size_t i = 0; i < plant->line_count; i++) {
        const fv_line *line = plant->lines[i];
        if ((line->node_from != node && line->node_to != node) || walked[i])
            continue;
        double flow = brings(plant, state, i, node);
        double behind = state->nodes[line->node_from == node ? line->node_to : line->node_from].pressure;
        if (flow > most) {
            most = flow;
            by_flow = (int)i;
        }
        if (behind > highest && flow >= 0.0) {
            highest = behind;
            by_pressure = (int)i;
        }
    }
    return by_flow >= 0 ? by_flow : by_pressure;
}

static void step(way *w, double length, double pressure)
{
    w->x[w->count] = length;
    w->y[w->count++] = pressure;
}

static void walk(const page_view *v, size_t vessel, bool *walked, way *w)
{
    const fv_plant *plant = v->plant;
    const fv_steady_result *state = v->flow->state;
    int node = plant->vessels[vessel]->node, line;
    double length = 0.0;
    step(w, 0.0, state->vessels[vessel].chamber_pressure);
    step(w, 0.0, state->vessels[vessel].coil_pressure);
    while ((line = upstream(plant, state, node, walked)) >= 0) {
        const fv_line_result *r = &state->lines[line];
        bool forward = plant->lines[line]->node_to == node;
        walked[line] = true;
        if (fabs(r->drop_sag) > 0.0)
            step(w, length, (forward ? r->pressure_to : r->pressure_from) + fabs(r->drop_sag));
        length += plant->lines[line]->length.v;
        node = forward ? plant->lines[line]->node_from : plant->lines[line]->node_to;
        step(w, length, state->nodes[node].pressure);
    }
    for (size_t i = 0; i < w->count; i++) { /* lengths count from the boiler */
        w->x[i] = page_view_value(v, FV_SHOW_LENGTH, length - w->x[i]);
        w->y[i] = page_view_value(v, FV_SHOW_PRESSURE, w->y[i]);
    }
}

static bool make(const page_view *v, size_t vessel, way *w)
{
    size_t room = 2 * v->plant->line_count + 3;
    bool *walked = calloc(v->plant->line_count + 1, sizeof *walked);
    *w = (way){malloc(room * sizeof(double)), malloc(room * sizeof(double)), 0};
    bool good = walked && w->x && w->y;
    if (good)
        walk(v, vessel, walked, w);
    free(walked);
    return good;
}

static void drop(way *w)
{
    free(w->x);
    free(w->y);
}

static void extent(const page_view *v, page_markup *m, double *length, double *most, double *least)
{
    *length = *most = *least = 0.0;
    for (size_t i = 0; i < v->plant->vessel_count; i++) {
        way w;
        if (!make(v, i, &w))
            page_markup_fail(m);
        for (size_t k = 0; k < w.count; k++) {
            *length = fmax(*length, w.x[k]);
            *most = fmax(*most, w.y[k]);
            *least = fmin(*least, w.y[k]);
        }
        drop(&w);
    }
}

static void curve(const page_view *v, page_markup *m, const page_plot *p, size_t vessel)
{
    way w;
    if (make(v, vessel, &w)) {
        page_plot_curve c = {.name = page_view_vessel(v, vessel),
                             .vessel = page_view_vessel(v, vessel),
                             .css_class = page_view_curve_class(v, vessel),
                             .x = w.x,
                             .y = w.y,
                             .count = w.count,
                             .markers = !v->many};
        page_plot_draw(m, p, &c);
    } else {
        page_markup_fail(m);
    }
    drop(&w);
}

static void title(const page_view *v, size_t which, fv_text *out)
{
    (void)v;
    (void)which;
    fv_text_add(out, "Pressure along the way to each vessel");
}

static void about(const page_view *v, size_t which, fv_text *out)
{
    const fv_steady_result *state = v->flow->state;
    (void)which;
    fv_text_add(out, "Pressure above the air's against the length of pipe and hose from the boiler; the last fall is "
                     "across the holes. ");
    for (size_t i = 0; i < state->vessel_count && i < 2 * VIEW_FEW; i++)
        fv_text_add(out, "%s: %s at its coil. ", page_view_vessel(v, i),
                    page_view_shown(v, FV_SHOW_PRESSURE, state->vessels[i].coil_pressure).text);
}

static void draw(const page_view *v, page_markup *m, const page_card *set, size_t which)
{
    double head = page_card_title(v, m, set, -1, "Pressure along the way to each vessel");
    page_plot p = page_card_plot(set, head, page_view_vessel_keys_height(v, set->width - 16.0) + 4.0);
    print_shown x = page_view_axis_name(v, "pipe and hose from the boiler", FV_SHOW_LENGTH);
    print_shown y = page_view_axis_name(v, "pressure above the air's", FV_SHOW_PRESSURE);
    double length, most, least;
    (void)which;
    extent(v, m, &length, &most, &least);
    p.x = page_axis_number(0.0, length, 5, x.text);
    p.y = page_axis_number(least, most, 6, y.text);
    page_plot_begin(m, &p, "plot");
    for (size_t i = 0; i < v->plant->vessel_count; i++)
        if (!v->many || (i != v->worst && i != v->best))
            curve(v, m, &p, i);
    if (v->many) {
        curve(v, m, &p, v->best);
        curve(v, m, &p, v->worst);
    }
    page_plot_end(m);
    page_view_vessel_keys(v, m, 8.0, p.top + p.height + 38.0, set->width - 16.0);
}

void page_svg_pressure(const page_view *v, page_markup *m)
{
    const page_card set = {.width = SVG_CARD, .height = 286, .count = 1, .draw = draw, .title = title, .about = about};
    page_cards_draw(v, m, &set, 1, "Pressure along the way to each vessel");
}
