/* SPDX-License-Identifier: MIT */
/* The plant as it stands: where the steam goes, how much, at what pressure; cut into panels of a page's height where it
 * is long, so that it reads on a phone, on paper and on a wide screen. */
#include "page/svg_plant.h"
#include "page/pictures.h"

#include <math.h>

enum { PANEL_HEIGHT = 800, ONE_PANEL = 900, SEAM = 16, MOST_LINES = 1500 };

/* Where lines go on below the panel, or come from above. */
static void draw_turnings(page_drawing *d)
{
    if (d->top > 0.0)
        page_svg_text(d->m, d->l.right - 4.0, d->top - 3.0, "e soft", "\xE2\x86\x91 from the part before");
    if (d->below < d->l.height)
        page_svg_text(d->m, d->l.right - 4.0, d->below + 11.0, "e soft", "\xE2\x86\x93 on in the next part");
}

static void draw_part(page_drawing *d)
{
    page_drawing_wires(d);
    page_drawing_places(d);
    draw_turnings(d);
}

/* The y at which the panel that starts at `top` ends: where the branches are least deep, rather later than earlier. */
static double panel_end(const page_layout *l, double top)
{
    static const double least = 0.6;
    double end = l->height;
    int depth = -1;
    if (l->height - top <= ONE_PANEL)
        return l->height;
    for (size_t i = 0; i < l->row_count; i++) {
        const page_layout_row *row = &l->rows[i];
        if (row->y < top + least * PANEL_HEIGHT || row->y > top + PANEL_HEIGHT)
            continue;
        if (depth < 0 || row->depth <= depth) {
            depth = row->depth;
            end = row->y;
        }
    }
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
        double above = top > 0.0 ? SEAM : 0.0, under = d->below < d->l.height ? SEAM : 0.0;
        page_svg_begin(d->m, d->l.width, d->below - top + above + under, "rows", NULL, page_markup_words(d->m, &title),
                       panel < 2 ? about : NULL);
        page_svg_group(d->m, 0, above - top, "plant");
        draw_part(d);
        page_markup_close(d->m);
        page_svg_end(d->m);
        fv_text_free(&title);
    }
}

/* All panels side by side in one file; each cuts off what it does not show. */
static void draw_one_figure(page_drawing *d, const char *about)
{
    enum { GAP = 30 };
    double width = 0.0, height = 0.0, x = 0.0;
    for (double top = 0.0; top < d->l.height; top = panel_end(&d->l, top)) {
        width += d->l.width + (top > 0.0 ? GAP : 0.0);
        height = fmax(height, panel_end(&d->l, top) - top + 2.0 * SEAM);
    }
    page_svg_begin(d->m, width, height, NULL, d->v->css, "The plant: steam, pressures and verdicts", about);
    for (double top = 0.0; top < d->l.height; top = d->below) {
        d->top = top;
        d->below = panel_end(&d->l, top);
        page_markup_open(d->m, "svg", "class", "plant", NULL);
        page_markup_attr_number(d->m, "x", x);
        page_markup_attr_number(d->m, "width", d->l.width);
        page_markup_attr_number(d->m, "height", d->below - top + 2.0 * SEAM);
        page_markup_attr(d->m, "viewBox", "0 %.1f %.1f %.1f", top - SEAM, d->l.width, d->below - top + 2.0 * SEAM);
        draw_part(d);
        page_markup_close(d->m);
        x += d->l.width + GAP;
    }
    page_svg_end(d->m);
}

static double line_room(const void *context, int line, double width)
{
    return page_drawing_line_words(context, NULL, line, (page_svg_point){0.0, 0.0}, width);
}

static double part_room(const void *context, page_layout_kind kind, int index, double width)
{
    return page_drawing_part_words(context, NULL, kind, index, (page_svg_point){0.0, 0.0}, width);
}

static void lay_out(page_drawing *d)
{
    const fv_steady_result *state = d->v->flow->state;
    const page_layout_words words = {d->v, line_room, part_room};
    page_layout_make(d->v->plant, &words, &d->l);
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
