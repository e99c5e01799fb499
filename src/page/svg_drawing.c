/* SPDX-License-Identifier: MIT */
/* The plant as it stands: where the steam goes, how much, at what pressure; cut into panels of a page's height where it
 * is long, so that it reads on a phone, on paper and on a wide screen. */
#include "page/svg_plant.h"
#include "page/pictures.h"

#include <math.h>

enum { PANEL_HEIGHT = 900, ONE_PANEL = 1150, MOST_LINES = 1500 };

/* Where trunks leave the panel below or come in from above; words stand at the rightmost only. */
static void draw_turnings(page_drawing *d)
{
    double from = -1.0, on = -1.0;
    for (size_t i = 0; i < d->l.wire_count; i++) {
        const page_layout_wire *wire = &d->l.wires[i];
        double a = fmin(wire->points[0].y, wire->points[1].y), b = fmax(wire->points[0].y, wire->points[1].y);
        if (wire->curved || b - a < 1.0)
            continue;
        if (a < d->top && b >= d->top)
            from = fmax(from, wire->points[0].x);
        if (a < d->below && b > d->below)
            on = fmax(on, wire->points[0].x);
    }
    if (from >= 0.0)
        page_svg_text(d->m, from + 12.0, d->top - 1.0, "t soft", "\xE2\x86\x91 from the part before");
    if (on >= 0.0)
        page_svg_text(d->m, on + 12.0, d->below + 10.0, "t soft", "\xE2\x86\x93 on in the next part");
}

static void draw_part(page_drawing *d)
{
    page_drawing_wires(d);
    page_drawing_places(d);
    draw_turnings(d);
}

/* The y at which the panel that starts at `top` ends. */
static double panel_end(const page_layout *l, double top)
{
    if (!l->in_rows || l->height <= ONE_PANEL)
        return l->height;
    double end = l->height;
    for (size_t i = l->row_count; i-- > 0 && l->rows[i] > top;)
        if (end - top > PANEL_HEIGHT)
            end = l->rows[i];
    return end;
}

static void drawing_text(const page_drawing *d, fv_text *out)
{
    const fv_steady_result *state = d->v->flow->state;
    fv_text_add(out, "%zu boiler%s, %zu lines and %zu vessel%s, drawn from the boilers to the vessels. ",
                state->boiler_count, state->boiler_count == 1 ? "" : "s", state->line_count, state->vessel_count,
                state->vessel_count == 1 ? "" : "s");
    for (int verdict = FV_FED; verdict <= FV_SHUT_OFF; verdict++) {
        size_t count = 0;
        for (size_t i = 0; i < state->vessel_count; i++) {
            if (page_view_verdict(d->v, i) != (fv_verdict)verdict)
                continue;
            if (count++ == 0)
                fv_text_add(out, "%s: %s", fv_verdict_word((fv_verdict)verdict), page_view_vessel(d->v, i));
            else
                fv_text_add(out, ", %s", page_view_vessel(d->v, i));
        }
        if (count > 0)
            fv_text_add(out, ". ");
    }
    fv_text_add(out, "The tables of vessels and lines give the same figures.");
}

static void draw_panel_figures(page_drawing *d, const char *about)
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
        page_svg_begin(d->m, d->l.width, d->below - top + above + under, d->l.in_rows ? "rows" : "net", NULL,
                       page_markup_words(d->m, &title), panel < 2 ? about : NULL);
        page_svg_group(d->m, 0, above - top, "plant");
        draw_part(d);
        page_markup_close(d->m);
        page_svg_end(d->m);
        fv_text_free(&title);
    }
}

/* All panels side by side in one file. */
static void draw_one_figure(page_drawing *d, const char *about)
{
    enum { GAP = 30 };
    double width = 0.0, height = 0.0;
    for (double top = 0.0; top < d->l.height; top = panel_end(&d->l, top)) {
        width += d->l.width + (top > 0.0 ? GAP : 0.0);
        height = fmax(height, panel_end(&d->l, top) - top + 28.0);
    }
    page_svg_begin(d->m, width, height, NULL, d->v->css, "The plant: steam, pressures and verdicts", about);
    double x = 0.0;
    for (double top = 0.0; top < d->l.height; top = d->below) {
        d->top = top;
        d->below = panel_end(&d->l, top);
        page_svg_group(d->m, x, 14.0 - top, "plant");
        draw_part(d);
        page_markup_close(d->m);
        x += d->l.width + GAP;
    }
    page_svg_end(d->m);
}

static void lay_out(page_drawing *d)
{
    const fv_steady_result *state = d->v->flow->state;
    if (!page_layout_has_loops(d->v->plant) || !page_layout_loops(d->v->plant, state, &d->l))
        page_layout_tree(d->v->plant, &d->l);
    for (size_t i = 0; i < state->line_count; i++)
        d->most = fmax(d->most, page_drawing_steam(&state->lines[i]));
}

void page_svg_drawing(const page_view *v, page_markup *m)
{
    page_drawing d = {.v = v, .m = m};
    fv_text about = {0};
    if (v->plant->line_count > MOST_LINES)
        return;
    lay_out(&d);
    drawing_text(&d, &about);
    if (d.l.failed || about.failed)
        page_markup_fail(m);
    else if (v->css)
        draw_one_figure(&d, about.text);
    else
        draw_panel_figures(&d, about.text);
    page_layout_free(&d.l);
    fv_text_free(&about);
}
