/* SPDX-License-Identifier: MIT */
/* Pressure along the way that the steam takes to each vessel: straight between joints, a step where a sag holds water,
 * and at the end the fall across the holes. */
#include "page/cards.h"
#include "page/pictures.h"
#include "page/way.h"

#include <math.h>
#include <stdlib.h>

typedef struct {
    double *x, *y; /* from the vessel back to the boiler, in shown units */
    size_t count;
} way;

/* Falls as points of a curve: lengths count from the boiler. */
static bool make(const page_view *v, size_t vessel, way *w)
{
    page_way found;
    bool good = page_way_make(v, vessel, &found);
    *w = (way){malloc((found.count + 1) * sizeof(double)), malloc((found.count + 1) * sizeof(double)), 0};
    good = good && w->x && w->y;
    for (size_t i = 0; good && i < found.count; i++) {
        const page_way_step *step = &found.steps[i];
        if (i == 0) {
            w->x[0] = page_view_value(v, FV_SHOW_LENGTH, found.length);
            w->y[0] = page_view_value(v, FV_SHOW_DROP, step->after);
        }
        w->x[i + 1] = page_view_value(v, FV_SHOW_LENGTH, found.length - step->length);
        w->y[i + 1] = page_view_value(v, FV_SHOW_DROP, step->before);
        w->count = i + 2;
    }
    page_way_free(&found);
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
    if (make(v, vessel, &w))
        page_card_curve(v, m, p, vessel, (page_card_points){w.x, w.y, w.count, !v->many});
    else
        page_markup_fail(m);
    drop(&w);
}

static void about(const page_view *v, size_t which, fv_text *out)
{
    const fv_steady_result *state = v->flow->state;
    (void)which;
    fv_text_add(out, "Pressure above the air's against the length of pipe and hose from the boiler; the last fall is "
                     "across the holes. ");
    for (size_t i = 0; i < state->vessel_count && i < 2 * VIEW_FEW; i++)
        fv_text_add(out, "%s: %s at its coil. ", page_view_vessel(v, i),
                    page_view_shown(v, FV_SHOW_DROP, state->vessels[i].coil_pressure).text);
}

static void draw(const page_view *v, page_markup *m, const page_card *set, size_t which)
{
    double head = page_card_title(v, m, set, -1, set->name);
    page_plot p = page_card_plot(set, head, page_view_vessel_keys_height(v, set->width - 16.0) + 4.0);
    print_shown x = page_view_axis_name(v, "pipe and hose from the boiler", FV_SHOW_LENGTH);
    print_shown y = page_view_axis_name(v, "pressure above the air's", FV_SHOW_DROP);
    double length, most, least;
    (void)which;
    extent(v, m, &length, &most, &least);
    p.x = page_axis_number(0.0, length, 5, x.text);
    p.y = page_axis_number(least, most, 6, y.text);
    page_plot_begin(m, &p, "plot");
    page_card_curves(v, m, set, &p, curve);
}

void page_svg_pressure(const page_view *v, page_markup *m)
{
    const page_card set = {.width = SVG_CARD,
                           .height = SVG_CHART,
                           .draw = draw,
                           .name = "Pressure along the way to each vessel",
                           .about = about};
    page_card_draw(v, m, &set);
}
