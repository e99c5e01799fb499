/* SPDX-License-Identifier: MIT */
/* Lines in the drawing: as wide as the steam in them, with an arrow, with what stops or chokes them, and with words. */
#include "page/svg_plant.h"

#include <math.h>
#include <stdio.h>

enum { WIDEST = 12 };
#define THINNEST 1.8

bool page_drawing_shows(const page_drawing *d, double y)
{
    return y >= d->top && y < d->below;
}

static const fv_line_result *result(const page_drawing *d, int line)
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
            most = fmax(most, page_drawing_steam(result(d, (int)i)));
    return most;
}

static void add_path(const page_layout_wire *wire, double top, double below, fv_text *path)
{
    if (wire->curved) {
        fv_text_add(path, "M");
        for (size_t i = 0; i < wire->count; i++) {
            if (i % 3 == 1)
                fv_text_add(path, "C");
            page_svg_add_point(path, wire->points[i]);
        }
        return;
    }
    for (size_t i = 0; i < wire->count; i++) {
        fv_text_add(path, i ? "L" : "M");
        page_svg_add_point(path, (page_svg_point){wire->points[i].x, fmin(fmax(wire->points[i].y, top), below)});
    }
}

static void draw_stroke(page_drawing *d, const page_layout_wire *wire)
{
    const fv_line_result *line = wire->line >= 0 ? result(d, wire->line) : NULL;
    fv_text path = {0};
    add_path(wire, d->top, d->below, &path);
    if (path.text && !path.failed) {
        path.text[path.length - 1] = '\0';
        page_markup_open(d->m, "path", "d", path.text, "class", line && is_stopped(line) ? "wire still" : "wire", NULL);
        page_markup_attr_number(
            d->m, "stroke-width",
            page_drawing_stroke(d, line ? page_drawing_steam(line) : page_drawing_steam_at(d, wire->node)));
        page_markup_end(d->m);
    } else {
        page_markup_fail(d->m);
    }
    fv_text_free(&path);
}

/* An arrow head on the line, the way the steam goes. */
static void draw_arrow(page_drawing *d, const page_layout_wire *wire)
{
    const fv_line_result *line = result(d, wire->line);
    if (is_stopped(line) || wire->count < 2)
        return;
    bool back = (line->flow_from < 0.0) != wire->backwards;
    page_svg_point a = wire->points[0], b = wire->points[wire->count - 1];
    double angle = atan2(b.y - a.y, b.x - a.x) * 180.0 / acos(-1.0) + (back ? 180.0 : 0.0);
    double size = fmax(1.0, page_drawing_stroke(d, page_drawing_steam(line)) / 7.0), share = 0.5;
    double x = a.x + share * (b.x - a.x), y = a.y + share * (b.y - a.y);
    if (wire->how == LAYOUT_WORDS_AROUND)
        x = b.x - 12.0;
    if (!page_drawing_shows(d, y))
        return;
    page_markup_open(d->m, "path", "class", "arrow", "d", "M-4 -4.2L4.5 0L-4 4.2L-2 0z", NULL);
    page_markup_attr(d->m, "transform", "translate(%.1f %.1f) rotate(%.0f) scale(%.2f)", x, y, angle, size);
    page_markup_end(d->m);
}

/* A belly with water in it, two wedges that pinch, the bow tie of a valve: on lines that run to the right, where there
 * is room; `x` runs leftwards from the end. */
static void draw_fixtures(page_drawing *d, const page_layout_wire *wire)
{
    const fv_line *line = d->v->plant->lines[wire->line];
    const fv_line_result *r = result(d, wire->line);
    double x = wire->points[1].x - 32.0, y = wire->points[0].y;
    if (fv_is_set(line->sag) && line->sag.v > 0.0) {
        page_svg_group(d->m, x, y, r->blocked ? "sag full" : "sag");
        page_svg_path(d->m, "M-14 0C-8 0 -9 13 0 13S8 0 14 0", "belly");
        page_svg_path(d->m, "M-8.5 5C-6.5 10 -4.5 13 0 13S6.5 10 8.5 5z", "pool");
        page_markup_close(d->m);
        x -= 30.0;
    }
    for (size_t i = 0; i < line->fitting_count; i++) {
        const fv_fitting_entry *entry = fv_fitting_entry_of(line->fittings[i]);
        if (line->fittings[i]->kind != FV_FITTING_VALVE && !(entry && entry->valve))
            continue;
        page_svg_group(d->m, x, y, r->shut ? "valve closed" : "valve");
        page_svg_path(d->m, "M-7 -5.5L7 5.5V-5.5L-7 5.5z", "body");
        page_markup_close(d->m);
        x -= 22.0;
        break;
    }
    if (r->choked) {
        page_svg_group(d->m, x, y, "pinch");
        page_svg_path(d->m, "M-6 -9H6L0 -1.5zM-6 9H6L0 1.5z", "body");
        page_markup_close(d->m);
    }
}

/* "12.1→2.3 mbar", the way the steam goes. */
static print_shown pressures(const page_drawing *d, const fv_line_result *line)
{
    print_shown shown;
    char before[24], after[24];
    bool back = line->flow_from < 0.0;
    fv_show_number(d->v->units, FV_SHOW_PRESSURE, back ? line->pressure_to : line->pressure_from, before,
                   sizeof before);
    fv_show_number(d->v->units, FV_SHOW_PRESSURE, back ? line->pressure_from : line->pressure_to, after, sizeof after);
    snprintf(shown.text, sizeof shown.text, "%s\xE2\x86\x92%s %s", before, after,
             page_view_unit(d->v, FV_SHOW_PRESSURE));
    return shown;
}

/* What is wrong with the line; "" if nothing is. */
static print_shown trouble(const page_drawing *d, int line)
{
    const fv_line_result *r = result(d, line);
    print_shown shown = {""};
    if (r->shut)
        snprintf(shown.text, sizeof shown.text, "valve shut");
    else if (r->blocked)
        snprintf(shown.text, sizeof shown.text, "water in sag blocks");
    else if (r->condenses_all)
        snprintf(shown.text, sizeof shown.text, "all condenses");
    else if (r->choked)
        snprintf(shown.text, sizeof shown.text, "choked");
    return shown;
}

static print_shown arrives(const page_drawing *d, int line)
{
    return page_view_shown(
        d->v, FV_SHOW_STEAM,
        fabs(result(d, line)->flow_from < 0.0 ? result(d, line)->flow_from : result(d, line)->flow_to));
}

static void words_around(page_drawing *d, const page_layout_wire *wire, const char *id)
{
    print_shown bad = trouble(d, wire->line);
    double wide = 0.5 * page_drawing_stroke(d, page_drawing_steam(result(d, wire->line)));
    page_markup_open(d->m, "text", "class", "t", NULL);
    page_markup_attr_number(d->m, "x", wire->words.x);
    page_markup_attr_number(d->m, "y", wire->words.y - 5.0 - wide);
    page_markup_leaf(d->m, "tspan", page_svg_fit(id, 8).text, "class", "id", NULL);
    page_markup_say(d->m, " %s", arrives(d, wire->line).text);
    page_markup_close(d->m);
    page_svg_text(d->m, wire->words.x, wire->words.y + 12.0 + wide, bad.text[0] ? "t bad" : "t soft", "%s",
                  bad.text[0] ? bad.text : pressures(d, result(d, wire->line)).text);
}

static void words_behind(page_drawing *d, const page_layout_wire *wire, const char *id)
{
    print_shown bad = trouble(d, wire->line);
    page_markup_open(d->m, "text", "class", "t", NULL);
    page_markup_attr_number(d->m, "x", wire->words.x);
    page_markup_attr_number(d->m, "y", wire->words.y);
    page_markup_leaf(d->m, "tspan", page_svg_fit(id, 10).text, "class", "id", NULL);
    page_markup_say(d->m, " %s ", arrives(d, wire->line).text);
    page_markup_leaf(d->m, "tspan", bad.text[0] ? bad.text : pressures(d, result(d, wire->line)).text, "class",
                     bad.text[0] ? "bad" : "soft", NULL);
    page_markup_close(d->m);
}

static void words_tag(page_drawing *d, const page_layout_wire *wire, const char *id)
{
    print_shown bad = trouble(d, wire->line);
    page_svg_rect(d->m, wire->words.x - 0.5 * LAYOUT_TAG_WIDTH, wire->words.y - 0.5 * LAYOUT_TAG_HEIGHT,
                  LAYOUT_TAG_WIDTH, LAYOUT_TAG_HEIGHT, "tag");
    page_markup_open(d->m, "text", "class", "t m", NULL);
    page_markup_attr_number(d->m, "x", wire->words.x);
    page_markup_attr_number(d->m, "y", wire->words.y - 2.5);
    page_markup_leaf(d->m, "tspan", page_svg_fit(id, 8).text, "class", "id", NULL);
    page_markup_say(d->m, " %s", arrives(d, wire->line).text);
    page_markup_close(d->m);
    page_svg_text(d->m, wire->words.x, wire->words.y + 10.5, bad.text[0] ? "t m bad" : "t m soft", "%s",
                  bad.text[0] ? bad.text : pressures(d, result(d, wire->line)).text);
}

/* Full name and numbers, for whoever points at it. */
static void wire_title(page_drawing *d, int index)
{
    static const char *const kinds[] = {"header", "pipe", "hose"};
    const fv_line *line = d->v->plant->lines[index];
    const fv_line_result *r = result(d, index);
    page_markup_open(d->m, "title", NULL);
    page_markup_say(d->m, "%s %s, %s to %s: bore %s, ", kinds[line->kind], line->part.id, line->from, line->to,
                    page_view_shown(d->v, FV_SHOW_BORE, line->bore.v).text);
    page_markup_say(d->m, "length %s, ", page_view_shown(d->v, FV_SHOW_LENGTH, line->length.v).text);
    page_markup_say(d->m, "%s arrives, ", arrives(d, index).text);
    page_markup_say(d->m, "pressure %s, ", pressures(d, r).text);
    page_markup_say(d->m, "fastest %s", page_view_shown(d->v, FV_SHOW_VELOCITY, r->velocity).text);
    page_markup_close(d->m);
}

static void draw_words(page_drawing *d, const page_layout_wire *wire)
{
    const char *id = d->v->plant->lines[wire->line]->part.id;
    page_markup_open(d->m, "g", NULL);
    wire_title(d, wire->line);
    if (wire->how == LAYOUT_WORDS_AROUND)
        words_around(d, wire, id);
    else if (wire->how == LAYOUT_WORDS_BEHIND)
        words_behind(d, wire, id);
    else
        words_tag(d, wire, id);
    page_markup_close(d->m);
}

static bool is_seen(const page_drawing *d, const page_layout_wire *wire)
{
    if (wire->curved)
        return true;
    double a = wire->points[0].y, b = wire->points[1].y;
    return fmin(a, b) < d->below && fmax(a, b) >= d->top;
}

void page_drawing_wires(page_drawing *d)
{
    for (size_t i = 0; i < d->l.wire_count; i++)
        if (is_seen(d, &d->l.wires[i]))
            draw_stroke(d, &d->l.wires[i]);
    for (size_t i = 0; i < d->l.wire_count; i++) {
        const page_layout_wire *wire = &d->l.wires[i];
        if (wire->line < 0 || !is_seen(d, wire))
            continue;
        draw_arrow(d, wire);
        if (wire->how == LAYOUT_WORDS_AROUND)
            draw_fixtures(d, wire);
        if (wire->how != LAYOUT_WORDS_NONE && page_drawing_shows(d, wire->words.y))
            draw_words(d, wire);
    }
}
