/* SPDX-License-Identifier: MIT */
/* Vessels, boilers and joints in the drawing. */
#include "page/svg_plant.h"

#include <math.h>

static void draw_words(page_drawing *d, const page_layout_place *place)
{
    page_drawing_part_words(d->v, d->m, place->kind, place->index, (page_svg_point){place->words.x, place->words.y},
                            place->words.width);
}

static double depth(const fv_vessel_result *r)
{
    return 27.0 * (r->need > 0.0 ? fmax(fmin(r->heat / r->need, 1.0), 0.0) : 0.0);
}

/* The level before the last change. */
static void draw_ghost(page_drawing *d, const fv_vessel_result *was, double now)
{
    if (!was || fabs(depth(was) - now) < 0.5)
        return;
    const double y = 13.0 - depth(was);
    page_markup_open(d->m, "g", "class", "ghost", NULL);
    page_svg_line(d->m, (page_svg_point){2.5, y}, (page_svg_point){33.5, y}, "was");
    page_markup_close(d->m);
}

static void draw_vessel(page_drawing *d, const page_layout_place *place)
{
    const fv_vessel_result *r = &d->v->flow->state->vessels[place->index];
    size_t vessel = (size_t)place->index;
    double deep = depth(r);
    page_markup_open(d->m, "g", "class", "vessel", "data-vessel", page_view_vessel(d->v, vessel), NULL);
    page_svg_group(d->m, place->at.x, place->at.y, "symbol");
    page_svg_rect(d->m, 0, -17, 36, 32, "vat");
    page_svg_rect(d->m, 2.5, 13.0 - deep, 31, deep, "level");
    draw_ghost(d, page_ghost_level(d->v, vessel), deep);
    page_svg_line(d->m, (page_svg_point){-2, -17}, (page_svg_point){38, -17}, "lid");
    page_svg_mark(d->m, page_view_mark(page_view_verdict(d->v, vessel)), 18, -2, 9);
    page_markup_close(d->m);
    draw_words(d, place);
    page_markup_close(d->m);
}

static void draw_boiler(page_drawing *d, const page_layout_place *place)
{
    const fv_boiler_result *r = &d->v->flow->state->boilers[place->index];
    page_markup_open(d->m, "g", "class", r->state == FV_BOILER_OFF ? "boiler cold" : "boiler", NULL);
    page_svg_group(d->m, place->at.x + LAYOUT_HALF_SYMBOL, place->at.y, "symbol");
    page_svg_path(d->m, "M-20 12V-9C-20 -17 20 -17 20 -9V12z", "drum");
    page_svg_path(d->m, "M-20 1Q-15 -2.500 -10 1T0 1T10 1T20 1V12H-20z", "pool");
    if (r->state != FV_BOILER_OFF)
        page_svg_path(
            d->m,
            "M-13 22Q-16 18 -12 13.500Q-8 18 -11 22zM-2 22Q-5 18 -1 13.500Q3 18 0 22zM9 22Q6 18 10 13.500Q14 18 11 "
            "22z",
            "flame");
    page_markup_close(d->m);
    draw_words(d, place);
    page_markup_close(d->m);
}

static bool has_drip_leg(const fv_plant *plant, int node)
{
    for (size_t i = 0; i < plant->drip_count; i++)
        if (plant->drips[i]->node == node)
            return true;
    return false;
}

static void draw_joint(page_drawing *d, const page_layout_place *place)
{
    const char *name = d->v->plant->nodes[place->index];
    page_markup_open(d->m, "g", "class", "joint", NULL);
    page_markup_open(d->m, "title", NULL);
    bool drips = has_drip_leg(d->v->plant, place->index);
    page_markup_say(d->m, "joint %s%s: %s", name, drips ? " with a drip leg" : "",
                    page_view_shown(d->v, FV_SHOW_PRESSURE, d->v->flow->state->nodes[place->index].pressure).text);
    page_markup_close(d->m);
    page_svg_circle(d->m, place->at.x, place->at.y,
                    fmax(3.2, 0.5 * page_drawing_stroke(d, page_drawing_steam_at(d, place->index)) + 1.2), "node");
    if (drips) {
        page_svg_group(d->m, place->at.x - 12.0, place->at.y + 9.0, "drip");
        page_svg_path(d->m, "M0 -6C3 -1 4 1 4 3A4 4 0 0 1 -4 3C-4 1 -3 -1 0 -6z", "drop");
        page_markup_close(d->m);
    }
    if (place->words.height > 0.0)
        draw_words(d, place);
    page_markup_close(d->m);
}

void page_drawing_places(page_drawing *d)
{
    for (size_t i = 0; i < d->l.place_count; i++) {
        const page_layout_place *place = &d->l.places[i];
        if (!page_drawing_shows(d, place->at.y))
            continue;
        if (place->kind == LAYOUT_VESSEL)
            draw_vessel(d, place);
        else if (place->kind == LAYOUT_BOILER)
            draw_boiler(d, place);
        else
            draw_joint(d, place);
    }
}
