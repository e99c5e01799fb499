/* SPDX-License-Identifier: MIT */
/* Lines in the drawing: as wide as the steam in them, with an arrow, with what stops or chokes them, and with words. */
#include "page/svg_plant.h"

#include <math.h>

enum { WIDEST = 12 };
#define THINNEST 1.8

bool page_drawing_shows(const page_drawing *d, double y)
{
    return y >= d->top && y < d->below;
}

static const fv_line_result *line_result(const page_drawing *d, int line)
{
    return &d->v->flow->state->lines[line];
}

double page_drawing_steam(const fv_line_result *line)
{
    return fmax(fabs(line->flow_from), fabs(line->flow_to));
}

static bool is_stopped(const fv_line_result *line)
{
    return line->blocked || line->shut || page_drawing_steam(line) <= 0.0;
}

double page_drawing_stroke(const page_drawing *d, double flow)
{
    return d->most > 0.0 ? fmax(THINNEST, WIDEST * flow / d->most) : THINNEST;
}

double page_drawing_steam_at(const page_drawing *d, int node)
{
    const fv_plant *plant = d->v->plant;
    double most = 0.0;
    for (size_t i = 0; i < plant->line_count; i++)
        if (plant->lines[i]->node_from == node || plant->lines[i]->node_to == node)
            most = fmax(most, page_drawing_steam(line_result(d, (int)i)));
    return most;
}

/* ---- the line itself ---- */

/* The width that a line had before the last change, where that can be told from the one it has. */
static void draw_ghost(page_drawing *d, const page_layout_wire *wire, const char *path)
{
    static const double told = 0.5; /* units of the drawing */
    const fv_line_result *was = wire->line >= 0 ? page_ghost_line(d->v, wire->line) : NULL;
    const double steam = was ? page_drawing_steam(was) : 0.0;
    const double now = was ? page_drawing_steam(line_result(d, wire->line)) : 0.0;
    if (!was || fabs(page_drawing_stroke(d, steam) - page_drawing_stroke(d, now)) < told)
        return;
    page_markup_open(d->m, "g", "class", "ghost", NULL);
    page_markup_open(d->m, "path", "d", path, NULL);
    page_markup_attr_number(d->m, "stroke-width", fmin(page_drawing_stroke(d, steam), WIDEST + 4.0));
    page_markup_end(d->m);
    page_markup_close(d->m);
}

static void draw_stroke(page_drawing *d, const page_layout_wire *wire)
{
    const fv_line_result *line = wire->line >= 0 ? line_result(d, wire->line) : NULL;
    fv_text path = {0};
    for (size_t i = 0; i < wire->count; i++) {
        fv_text_add(&path, i ? "L" : "M");
        page_svg_add_point(&path, wire->points[i]);
    }
    if (path.text && !path.failed) {
        path.text[path.length - 1] = '\0';
        page_markup_open(d->m, "path", "d", path.text, "class", line && is_stopped(line) ? "wire still" : "wire", NULL);
        page_markup_attr_number(
            d->m, "stroke-width",
            page_drawing_stroke(d, line ? page_drawing_steam(line) : page_drawing_steam_at(d, wire->node)));
        page_markup_end(d->m);
        draw_ghost(d, wire, path.text);
    } else {
        page_markup_fail(d->m);
    }
    fv_text_free(&path);
}

/* The piece that carries arrow and valve: the one to the symbol, the one that runs down, or the one on the right. */
static void main_piece(const page_layout_wire *wire, page_svg_point *a, page_svg_point *b)
{
    size_t first = wire->count == 4 ? 1 : 0;
    *a = wire->points[first];
    *b = wire->points[first + 1];
}

/* An arrow head on the line, the way the steam goes. */
static void draw_arrow(page_drawing *d, const page_layout_wire *wire)
{
    const fv_line_result *line = line_result(d, wire->line);
    page_svg_point a, b;
    if (is_stopped(line))
        return;
    main_piece(wire, &a, &b);
    bool back = (line->flow_from < 0.0) != wire->backwards;
    double angle = atan2(b.y - a.y, b.x - a.x) * 180.0 / acos(-1.0) + (back ? 180.0 : 0.0);
    double size = fmax(1.0, page_drawing_stroke(d, page_drawing_steam(line)) / 7.0);
    double x = wire->ends ? b.x - 12.0 : 0.5 * (a.x + b.x), y = 0.5 * (a.y + b.y);
    if (!page_drawing_shows(d, y))
        return;
    page_markup_open(d->m, "path", "class", "arrow", "d", "M-4 -4.2L4.5 0L-4 4.2L-2 0z", NULL);
    page_markup_attr(d->m, "transform", "translate(%.1f %.1f) rotate(%.0f) scale(%.2f)", x, y, angle, size);
    page_markup_end(d->m);
}

/* ---- what is built into it ---- */

static bool has_valve(const fv_line *line)
{
    for (size_t i = 0; i < line->fitting_count; i++) {
        const fv_fitting_entry *entry = fv_fitting_entry_of(line->fittings[i]);
        if (line->fittings[i]->kind == FV_FITTING_VALVE || (entry && entry->valve))
            return true;
    }
    return false;
}

static void fixture(page_drawing *d, page_svg_point at, bool upright, const char *css_class, const char *outline)
{
    page_markup_open(d->m, "g", "class", css_class, NULL);
    page_markup_attr(d->m, "transform", upright ? "translate(%.1f %.1f) rotate(90)" : "translate(%.1f %.1f)", at.x,
                     at.y);
    page_svg_path(d->m, outline, "body");
    page_markup_close(d->m);
}

static void draw_sag(page_drawing *d, page_svg_point at, bool full)
{
    page_svg_group(d->m, at.x, at.y, full ? "sag full" : "sag");
    page_svg_path(d->m, "M-14 0C-8 0 -9 13 0 13S8 0 14 0", "belly");
    page_svg_path(d->m, "M-8.5 5C-6.5 10 -4.5 13 0 13S6.5 10 8.5 5z", "pool");
    page_markup_close(d->m);
}

/* A belly with water in it, two wedges that pinch, the bow tie of a valve (ISO 14617): on lines to a symbol from its
 * left on, on others before the arrow. Sags are drawn where the line runs level. */
static void draw_fixtures(page_drawing *d, const page_layout_wire *wire)
{
    const fv_line *line = d->v->plant->lines[wire->line];
    const fv_line_result *r = line_result(d, wire->line);
    page_svg_point a, b;
    main_piece(wire, &a, &b);
    page_svg_point at = wire->ends ? (page_svg_point){b.x - 32.0, b.y} : (page_svg_point){a.x, a.y + 10.0};
    bool upright = !wire->ends;
    if (!page_drawing_shows(d, at.y))
        return;
    if (wire->ends && fv_is_set(line->sag) && line->sag.v > 0.0) {
        draw_sag(d, at, r->blocked);
        at.x -= 24.0;
    }
    if (has_valve(line)) {
        fixture(d, at, upright, r->shut ? "valve closed" : "valve", "M-7 -5.5L7 5.5V-5.5L-7 5.5z");
        at.x -= 15.0;
    }
    if (r->choked && wire->ends)
        fixture(d, at, upright, "pinch", "M-6 -9H6L0 -1.5zM-6 9H6L0 1.5z");
}

/* ---- words ---- */

static void draw_words(page_drawing *d, const page_layout_wire *wire)
{
    const fv_line *line = d->v->plant->lines[wire->line];
    page_markup_open(d->m, "g", "class", "line", "data-line", line->part.id, NULL);
    page_drawing_line_words(d->v, d->m, wire->line, (page_svg_point){wire->words.x, wire->words.y}, wire->words.width);
    page_markup_close(d->m);
}

static bool is_seen(const page_drawing *d, const page_layout_wire *wire)
{
    double least = wire->points[0].y, most = least;
    for (size_t i = 1; i < wire->count; i++) {
        least = fmin(least, wire->points[i].y);
        most = fmax(most, wire->points[i].y);
    }
    return least < d->below && most >= d->top;
}

void page_drawing_wires(page_drawing *d)
{
    for (size_t i = 0; i < d->l.wire_count; i++)
        if (is_seen(d, &d->l.wires[i]))
            draw_stroke(d, &d->l.wires[i]);
    for (size_t i = 0; i < d->l.wire_count; i++) {
        const page_layout_wire *wire = &d->l.wires[i];
        if (wire->line < 0)
            continue;
        if (is_seen(d, wire)) {
            draw_arrow(d, wire);
            draw_fixtures(d, wire);
        }
        if (page_drawing_shows(d, wire->words.y))
            draw_words(d, wire);
    }
}
