/* SPDX-License-Identifier: MIT */
/* The plant as it stands: where it goes, how much, at what pressure. A line is as wide as the steam in it; a joint that
 * lies in several rows is a stroke; what stops or chokes a line is drawn on it and said beside it. */
#include "report/flow_tables.h"
#include "report/layout.h"
#include "report/view.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { WIDEST = 12, PANEL_HEIGHT = 900, ONE_PANEL = 1150, MOST_LINES = 1500 };
#define THINNEST 1.8

typedef struct {
    const view *v;
    markup *m;
    layout l;
    double most;       /* kg/s in any line */
    double top, below; /* what of the layout is being drawn */
} drawing;

static bool within(const drawing *d, double y)
{
    return y >= d->top && y < d->below;
}

/* ---- lines ---- */

static const fv_line_result *result(const drawing *d, int line)
{
    return &d->v->flow->state->lines[line];
}

static double steam(const fv_line_result *line)
{
    return fmax(fabs(line->flow_from), fabs(line->flow_to));
}

static bool is_stopped(const fv_line_result *line)
{
    return line->blocked || line->shut || steam(line) <= 0.0;
}

static double stroke(const drawing *d, double flow)
{
    return d->most > 0.0 ? fmax(THINNEST, WIDEST * flow / d->most) : THINNEST;
}

/* Steam through a joint: the most that any of its lines takes or gives. */
static double steam_at(const drawing *d, int node)
{
    const fv_plant *plant = d->v->plant;
    double most = 0.0;
    for (size_t i = 0; i < plant->line_count; i++)
        if (plant->lines[i]->node_from == node || plant->lines[i]->node_to == node)
            most = fmax(most, steam(result(d, (int)i)));
    return most;
}

static void add_path(const layout_wire *wire, double top, double below, fv_text *path)
{
    if (wire->curved) {
        fv_text_add(path, "M");
        for (size_t i = 0; i < wire->count; i++) {
            if (i % 3 == 1)
                fv_text_add(path, "C");
            svg_add_point(path, wire->points[i]);
        }
        return;
    }
    for (size_t i = 0; i < wire->count; i++) {
        fv_text_add(path, i ? "L" : "M");
        svg_add_point(path, (svg_point){wire->points[i].x, fmin(fmax(wire->points[i].y, top), below)});
    }
}

static void draw_stroke(drawing *d, const layout_wire *wire)
{
    const fv_line_result *line = wire->line >= 0 ? result(d, wire->line) : NULL;
    fv_text path = {0};
    add_path(wire, d->top, d->below, &path);
    if (path.text && !path.failed) {
        path.text[path.length - 1] = '\0';
        markup_open(d->m, "path", "d", path.text, "class", line && is_stopped(line) ? "wire still" : "wire", NULL);
        markup_attr_number(d->m, "stroke-width", stroke(d, line ? steam(line) : steam_at(d, wire->node)));
        markup_end(d->m);
    } else {
        markup_fail(d->m);
    }
    fv_text_free(&path);
}

/* An arrow head on the line, the way the steam goes. */
static void draw_arrow(drawing *d, const layout_wire *wire)
{
    const fv_line_result *line = result(d, wire->line);
    if (is_stopped(line) || wire->count < 2)
        return;
    bool back = (line->flow_from < 0.0) != wire->backwards;
    svg_point a = wire->points[0], b = wire->points[wire->count - 1];
    double angle = atan2(b.y - a.y, b.x - a.x) * 180.0 / acos(-1.0) + (back ? 180.0 : 0.0);
    double size = fmax(1.0, stroke(d, steam(line)) / 7.0), share = 0.5;
    double x = a.x + share * (b.x - a.x), y = a.y + share * (b.y - a.y);
    if (wire->how == LAYOUT_WORDS_AROUND)
        x = b.x - 12.0;
    if (!within(d, y))
        return;
    markup_open(d->m, "path", "class", "arrow", "d", "M-4 -4.2L4.5 0L-4 4.2L-2 0z", NULL);
    markup_attr(d->m, "transform", "translate(%.1f %.1f) rotate(%.0f) scale(%.2f)", x, y, angle, size);
    markup_end(d->m);
}

/* A belly with water in it, two wedges that pinch, the bow tie of a valve: on lines that run to the right, where there
 * is room; `x` runs leftwards from the end. */
static void draw_fixtures(drawing *d, const layout_wire *wire)
{
    const fv_line *line = d->v->plant->lines[wire->line];
    const fv_line_result *r = result(d, wire->line);
    double x = wire->points[1].x - 32.0, y = wire->points[0].y;
    if (fv_is_set(line->sag) && line->sag.v > 0.0) {
        svg_group(d->m, x, y, r->blocked ? "sag full" : "sag");
        svg_path(d->m, "M-14 0C-8 0 -9 13 0 13S8 0 14 0", "belly");
        svg_path(d->m, "M-8.5 5C-6.5 10 -4.5 13 0 13S6.5 10 8.5 5z", "pool");
        markup_close(d->m);
        x -= 30.0;
    }
    for (size_t i = 0; i < line->fitting_count; i++) {
        const fv_fitting_entry *entry = fv_fitting_entry_of(line->fittings[i]);
        if (line->fittings[i]->kind != FV_FITTING_VALVE && !(entry && entry->valve))
            continue;
        svg_group(d->m, x, y, r->shut ? "valve closed" : "valve");
        svg_path(d->m, "M-7 -5.5L7 5.5V-5.5L-7 5.5z", "body");
        markup_close(d->m);
        x -= 22.0;
        break;
    }
    if (r->choked) {
        svg_group(d->m, x, y, "pinch");
        svg_path(d->m, "M-6 -9H6L0 -1.5zM-6 9H6L0 1.5z", "body");
        markup_close(d->m);
    }
}

/* "12.1→2.3 mbar", the way the steam goes. */
static report_shown pressures(const drawing *d, const fv_line_result *line)
{
    report_shown shown;
    char before[24], after[24];
    bool back = line->flow_from < 0.0;
    fv_show_number(d->v->units, FV_SHOW_PRESSURE, back ? line->pressure_to : line->pressure_from, before,
                   sizeof before);
    fv_show_number(d->v->units, FV_SHOW_PRESSURE, back ? line->pressure_from : line->pressure_to, after, sizeof after);
    snprintf(shown.text, sizeof shown.text, "%s\xE2\x86\x92%s %s", before, after, view_unit(d->v, FV_SHOW_PRESSURE));
    return shown;
}

/* What is wrong with the line; "" if nothing is. */
static report_shown trouble(const drawing *d, int line)
{
    const fv_line_result *r = result(d, line);
    report_shown shown = {""};
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

static report_shown arrives(const drawing *d, int line)
{
    return view_shown(d->v, FV_SHOW_STEAM,
                      fabs(result(d, line)->flow_from < 0.0 ? result(d, line)->flow_from : result(d, line)->flow_to));
}

static void words_around(drawing *d, const layout_wire *wire, const char *id)
{
    report_shown bad = trouble(d, wire->line);
    double wide = 0.5 * stroke(d, steam(result(d, wire->line)));
    markup_open(d->m, "text", "class", "t", NULL);
    markup_attr_number(d->m, "x", wire->words.x);
    markup_attr_number(d->m, "y", wire->words.y - 5.0 - wide);
    markup_leaf(d->m, "tspan", svg_fit(id, 8).text, "class", "id", NULL);
    markup_say(d->m, " %s", arrives(d, wire->line).text);
    markup_close(d->m);
    svg_text(d->m, wire->words.x, wire->words.y + 12.0 + wide, bad.text[0] ? "t bad" : "t soft", "%s",
             bad.text[0] ? bad.text : pressures(d, result(d, wire->line)).text);
}

static void words_behind(drawing *d, const layout_wire *wire, const char *id)
{
    report_shown bad = trouble(d, wire->line);
    markup_open(d->m, "text", "class", "t", NULL);
    markup_attr_number(d->m, "x", wire->words.x);
    markup_attr_number(d->m, "y", wire->words.y);
    markup_leaf(d->m, "tspan", svg_fit(id, 10).text, "class", "id", NULL);
    markup_say(d->m, " %s ", arrives(d, wire->line).text);
    markup_leaf(d->m, "tspan", bad.text[0] ? bad.text : pressures(d, result(d, wire->line)).text, "class",
                bad.text[0] ? "bad" : "soft", NULL);
    markup_close(d->m);
}

static void words_tag(drawing *d, const layout_wire *wire, const char *id)
{
    report_shown bad = trouble(d, wire->line);
    svg_rect(d->m, wire->words.x - 0.5 * LAYOUT_TAG_WIDTH, wire->words.y - 0.5 * LAYOUT_TAG_HEIGHT, LAYOUT_TAG_WIDTH,
             LAYOUT_TAG_HEIGHT, "tag");
    markup_open(d->m, "text", "class", "t m", NULL);
    markup_attr_number(d->m, "x", wire->words.x);
    markup_attr_number(d->m, "y", wire->words.y - 2.5);
    markup_leaf(d->m, "tspan", svg_fit(id, 8).text, "class", "id", NULL);
    markup_say(d->m, " %s", arrives(d, wire->line).text);
    markup_close(d->m);
    svg_text(d->m, wire->words.x, wire->words.y + 10.5, bad.text[0] ? "t m bad" : "t m soft", "%s",
             bad.text[0] ? bad.text : pressures(d, result(d, wire->line)).text);
}

/* Full name and numbers, for whoever points at it. */
static void wire_title(drawing *d, int index)
{
    static const char *const kinds[] = {"header", "pipe", "hose"};
    const fv_line *line = d->v->plant->lines[index];
    const fv_line_result *r = result(d, index);
    markup_open(d->m, "title", NULL);
    markup_say(d->m, "%s %s, %s to %s: bore %s, ", kinds[line->kind], line->part.id, line->from, line->to,
               view_shown(d->v, FV_SHOW_BORE, line->bore.v).text);
    markup_say(d->m, "length %s, ", view_shown(d->v, FV_SHOW_LENGTH, line->length.v).text);
    markup_say(d->m, "%s arrives, ", arrives(d, index).text);
    markup_say(d->m, "pressure %s, ", pressures(d, r).text);
    markup_say(d->m, "fastest %s", view_shown(d->v, FV_SHOW_VELOCITY, r->velocity).text);
    markup_close(d->m);
}

static void draw_words(drawing *d, const layout_wire *wire)
{
    const char *id = d->v->plant->lines[wire->line]->part.id;
    markup_open(d->m, "g", NULL);
    wire_title(d, wire->line);
    if (wire->how == LAYOUT_WORDS_AROUND)
        words_around(d, wire, id);
    else if (wire->how == LAYOUT_WORDS_BEHIND)
        words_behind(d, wire, id);
    else
        words_tag(d, wire, id);
    markup_close(d->m);
}

static bool is_seen(const drawing *d, const layout_wire *wire)
{
    if (wire->curved)
        return true;
    double a = wire->points[0].y, b = wire->points[1].y;
    return fmin(a, b) < d->below && fmax(a, b) >= d->top;
}

static void draw_wires(drawing *d)
{
    for (size_t i = 0; i < d->l.wire_count; i++)
        if (is_seen(d, &d->l.wires[i]))
            draw_stroke(d, &d->l.wires[i]);
    for (size_t i = 0; i < d->l.wire_count; i++) {
        const layout_wire *wire = &d->l.wires[i];
        if (wire->line < 0 || !is_seen(d, wire))
            continue;
        draw_arrow(d, wire);
        if (wire->how == LAYOUT_WORDS_AROUND)
            draw_fixtures(d, wire);
        if (wire->how != LAYOUT_WORDS_NONE && within(d, wire->words.y))
            draw_words(d, wire);
    }
}

/* ---- parts ---- */

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
    svg_circle(d->m, place->at.x, place->at.y, fmax(3.2, 0.5 * stroke(d, steam_at(d, place->index)) + 1.2), "node");
    if (drips) {
        svg_group(d->m, place->at.x - 13.0, place->at.y + 7.0, "drip");
        svg_path(d->m, "M0 -6C3 -1 4 1 4 3A4 4 0 0 1 -4 3C-4 1 -3 -1 0 -6z", "drop");
        markup_close(d->m);
    }
    if (place->kind == LAYOUT_LINK)
        svg_text(d->m, place->at.x + 10.0, place->at.y + 4.0, "t", "joins %s again", svg_fit(name, 12).text);
    markup_close(d->m);
}

static void draw_places(drawing *d)
{
    for (size_t i = 0; i < d->l.place_count; i++) {
        const layout_place *place = &d->l.places[i];
        if (!within(d, place->at.y))
            continue;
        if (place->kind == LAYOUT_VESSEL)
            draw_vessel(d, place);
        else if (place->kind == LAYOUT_BOILER)
            draw_boiler(d, place);
        else
            draw_joint(d, place);
    }
}

/* ---- panels ---- */

/* Where trunks leave the panel below or come in from above; words stand at the rightmost only. */
static void draw_turnings(drawing *d)
{
    double from = -1.0, on = -1.0;
    for (size_t i = 0; i < d->l.wire_count; i++) {
        const layout_wire *wire = &d->l.wires[i];
        double a = fmin(wire->points[0].y, wire->points[1].y), b = fmax(wire->points[0].y, wire->points[1].y);
        if (wire->curved || b - a < 1.0)
            continue;
        if (a < d->top && b >= d->top)
            from = fmax(from, wire->points[0].x);
        if (a < d->below && b > d->below)
            on = fmax(on, wire->points[0].x);
    }
    if (from >= 0.0)
        svg_text(d->m, from + 12.0, d->top - 1.0, "t soft", "\xE2\x86\x91 from the part before");
    if (on >= 0.0)
        svg_text(d->m, on + 12.0, d->below + 10.0, "t soft", "\xE2\x86\x93 on in the next part");
}

static void draw_part(drawing *d)
{
    draw_wires(d);
    draw_places(d);
    draw_turnings(d);
}

/* The y at which the panel that starts at `top` ends. */
static double panel_end(const layout *l, double top)
{
    if (!l->in_rows || l->height <= ONE_PANEL)
        return l->height;
    double end = l->height;
    for (size_t i = l->row_count; i-- > 0 && l->rows[i] > top;)
        if (end - top > PANEL_HEIGHT)
            end = l->rows[i];
    return end;
}

static void drawing_text(const drawing *d, fv_text *out)
{
    const fv_steady_result *state = d->v->flow->state;
    fv_text_add(out, "%zu boiler%s, %zu lines and %zu vessel%s, drawn from the boilers to the vessels. ",
                state->boiler_count, state->boiler_count == 1 ? "" : "s", state->line_count, state->vessel_count,
                state->vessel_count == 1 ? "" : "s");
    for (int verdict = FV_FED; verdict <= FV_SHUT_OFF; verdict++) {
        size_t count = 0;
        for (size_t i = 0; i < state->vessel_count; i++) {
            if (view_verdict(d->v, i) != (fv_verdict)verdict)
                continue;
            if (count++ == 0)
                fv_text_add(out, "%s: %s", fv_verdict_word((fv_verdict)verdict), view_vessel(d->v, i));
            else
                fv_text_add(out, ", %s", view_vessel(d->v, i));
        }
        if (count > 0)
            fv_text_add(out, ". ");
    }
    fv_text_add(out, "The tables of vessels and lines give the same figures.");
}

static void draw_panel_figures(drawing *d, const char *about)
{
    size_t panels = 0, panel = 0;
    for (double top = 0.0; top < d->l.height; top = panel_end(&d->l, top))
        panels++;
    for (double top = 0.0; top < d->l.height; top = d->below) {
        fv_text title = {0};
        d->top = top;
        d->below = panel_end(&d->l, top);
        fv_text_add(&title, "The plant: steam, pressures and verdicts");
        if (panels > 1)
            fv_text_add(&title, ", part %zu of %zu", ++panel, panels);
        double above = top > 0.0 ? 14.0 : 0.0, under = d->below < d->l.height ? 14.0 : 0.0;
        svg_begin(d->m, d->l.width, d->below - top + above + under, d->l.in_rows ? "rows" : "net", NULL,
                  markup_words(d->m, &title), panel < 2 ? about : NULL);
        svg_group(d->m, 0, above - top, "plant");
        draw_part(d);
        markup_close(d->m);
        svg_end(d->m);
        fv_text_free(&title);
    }
}

/* All panels side by side in one file. */
static void draw_one_figure(drawing *d, const char *about)
{
    enum { GAP = 30 };
    double width = 0.0, height = 0.0;
    for (double top = 0.0; top < d->l.height; top = panel_end(&d->l, top)) {
        width += d->l.width + (top > 0.0 ? GAP : 0.0);
        height = fmax(height, panel_end(&d->l, top) - top + 28.0);
    }
    svg_begin(d->m, width, height, NULL, d->v->css, "The plant: steam, pressures and verdicts", about);
    double x = 0.0;
    for (double top = 0.0; top < d->l.height; top = d->below) {
        d->top = top;
        d->below = panel_end(&d->l, top);
        svg_group(d->m, x, 14.0 - top, "plant");
        draw_part(d);
        markup_close(d->m);
        x += d->l.width + GAP;
    }
    svg_end(d->m);
}

static void lay_out(drawing *d)
{
    const fv_steady_result *state = d->v->flow->state;
    if (!layout_has_loops(d->v->plant) || !layout_loops(d->v->plant, state, &d->l))
        layout_tree(d->v->plant, &d->l);
    for (size_t i = 0; i < state->line_count; i++)
        d->most = fmax(d->most, steam(&state->lines[i]));
}

void svg_drawing(const view *v, markup *m)
{
    drawing d = {.v = v, .m = m};
    fv_text about = {0};
    if (v->plant->line_count > MOST_LINES)
        return;
    lay_out(&d);
    drawing_text(&d, &about);
    if (d.l.failed || about.failed)
        markup_fail(m);
    else if (v->css)
        draw_one_figure(&d, about.text);
    else
        draw_panel_figures(&d, about.text);
    layout_free(&d.l);
    fv_text_free(&about);
}
