/* SPDX-License-Identifier: MIT */
/* Vessels, boilers and joints in the drawing. */
#include "report/flow/tables.h"
#include "page/svg_plant.h"

#include <math.h>
#include <stdio.h>

static void draw_vessel(drawing *d, const layout_place *place)
{
    const fv_vessel_result *r = &d->v->flow->state->vessels[place->index];
    size_t vessel = (size_t)place->index;
    fv_verdict verdict = view_verdict(d->v, vessel);
    double share = r->need > 0.0 ? fmin(r->heat / r->need, 1.0) : 0.0, deep = 27.0 * fmax(share, 0.0);
    char need[24], heat[24];
    fv_show_number(d->v->units, FV_SHOW_POWER, r->heat, heat, sizeof heat);
    fv_show_number(d->v->units, FV_SHOW_POWER, r->need, need, sizeof need);
    svg_group(d->m, place->at.x, place->at.y, "vessel");
    markup_attr(d->m, "data-vessel", "%s", view_vessel(d->v, vessel));
    markup_leaf(d->m, "title", view_vessel(d->v, vessel), NULL);
    svg_rect(d->m, 0, -17, 36, 32, "vat");
    svg_rect(d->m, 2.5, 13.0 - deep, 31, deep, "level");
    svg_line(d->m, (svg_point){-2, -17}, (svg_point){38, -17}, "lid");
    svg_mark(d->m, view_mark(verdict), 18, -2, 9);
    svg_text(d->m, 45, -7, "t id big", "%s", svg_fit(view_vessel(d->v, vessel), 17).text);
    report_shown time = {""};
    if (d->v->heat && verdict != FV_SHUT_OFF)
        time = view_arrival(d->v, vessel);
    svg_text(d->m, 45, 6, "t", "%s%s%s", view_fate(d->v, vessel), time.text[0] ? ", " : "", time.text);
    if (verdict != FV_SHUT_OFF && r->need > 0.0)
        svg_text(d->m, 45, 19, "t soft", "%s %s, needs %s", heat, view_unit(d->v, FV_SHOW_POWER), need);
    else
        svg_text(d->m, 45, 19, "t soft", "%s %s", heat, view_unit(d->v, FV_SHOW_POWER));
    markup_close(d->m);
}

static void draw_boiler(drawing *d, const layout_place *place)
{
    const fv_boiler_result *r = &d->v->flow->state->boilers[place->index];
    const char *id = d->v->plant->boilers[place->index]->part.id;
    svg_group(d->m, place->at.x, place->at.y, r->state == FV_BOILER_OFF ? "boiler cold" : "boiler");
    markup_leaf(d->m, "title", id, NULL);
    svg_path(d->m, "M-20 12V-9C-20 -17 20 -17 20 -9V12z", "drum");
    svg_path(d->m, "M-20 1Q-15 -2.500 -10 1T0 1T10 1T20 1V12H-20z", "pool");
    if (r->state != FV_BOILER_OFF)
        svg_path(
            d->m,
            "M-13 22Q-16 18 -12 13.500Q-8 18 -11 22zM-2 22Q-5 18 -1 13.500Q3 18 0 22zM9 22Q6 18 10 13.500Q14 18 11 "
            "22z",
            "flame");
    svg_text(d->m, 28, -7, "t id big", "%s", svg_fit(id, 16).text);
    svg_text(d->m, 28, 6, "t", "%s, %s", report_boiler_word(r->state), view_shown(d->v, FV_SHOW_STEAM, r->steam).text);
    svg_text(d->m, 28, 19, "t soft", "at %s", view_shown(d->v, FV_SHOW_PRESSURE, r->pressure).text);
    markup_close(d->m);
}

static bool has_drip_leg(const fv_plant *plant, int node)
{
    for (size_t i = 0; i < plant->drip_count; i++)
        if (plant->drips[i]->node == node)
            return true;
    return false;
}

static void draw_joint(drawing *d, const layout_place *place)
{
    const char *name = d->v->plant->nodes[place->index];
    markup_open(d->m, "g", "class", "joint", NULL);
    markup_open(d->m, "title", NULL);
    bool drips = has_drip_leg(d->v->plant, place->index);
    markup_say(d->m, "joint %s%s: %s", name, drips ? " with a drip leg" : "",
               view_shown(d->v, FV_SHOW_PRESSURE, d->v->flow->state->nodes[place->index].pressure).text);
    markup_close(d->m);
    svg_circle(d->m, place->at.x, place->at.y,
               fmax(3.2, 0.5 * drawing_stroke(d, drawing_steam_at(d, place->index)) + 1.2), "node");
    if (drips) {
        svg_group(d->m, place->at.x - 13.0, place->at.y + 7.0, "drip");
        svg_path(d->m, "M0 -6C3 -1 4 1 4 3A4 4 0 0 1 -4 3C-4 1 -3 -1 0 -6z", "drop");
        markup_close(d->m);
    }
    if (place->kind == LAYOUT_LINK)
        svg_text(d->m, place->at.x + 10.0, place->at.y + 4.0, "t", "joins %s again", svg_fit(name, 12).text);
    markup_close(d->m);
}

void drawing_places(drawing *d)
{
    for (size_t i = 0; i < d->l.place_count; i++) {
        const layout_place *place = &d->l.places[i];
        if (!drawing_shows(d, place->at.y))
            continue;
        if (place->kind == LAYOUT_VESSEL)
            draw_vessel(d, place);
        else if (place->kind == LAYOUT_BOILER)
            draw_boiler(d, place);
        else
            draw_joint(d, place);
    }
}
