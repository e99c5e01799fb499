/* SPDX-License-Identifier: MIT */
/* Steam from each hole along each coil. */
#include "page/cards.h"
#include "page/pictures.h"

#include <math.h>
#include <stdlib.h>

enum { FEW_HOLES = 20 }; /* so many have a sign each on a curve */

static const fv_hole_result *holes_of(const page_view *v, size_t vessel)
{
    return v->flow->state->holes + v->flow->state->vessels[vessel].first_hole;
}

static size_t hole_count(const page_view *v, size_t vessel)
{
    return v->flow->state->vessels[vessel].hole_count;
}

static void curve(const page_view *v, page_markup *m, const page_plot *p, size_t vessel)
{
    size_t count = hole_count(v, vessel);
    const fv_hole_result *holes = holes_of(v, vessel);
    double *x = malloc((count + 1) * sizeof *x), *y = malloc((count + 1) * sizeof *y);
    for (size_t i = 0; x && y && i < count; i++) {
        x[i] = page_view_value(v, FV_SHOW_LENGTH, holes[i].position);
        y[i] = page_view_value(v, FV_SHOW_STEAM, holes[i].flow);
    }
    page_card_curve(v, m, p, vessel, (page_card_points){x, y, count, !v->many && count <= FEW_HOLES});
    free(x);
    free(y);
}

static void about(const page_view *v, size_t which, fv_text *out)
{
    const fv_vessel_result *vessels = v->flow->state->vessels;
    (void)which;
    fv_text_add(out, "Flow of each hole against its place along the coil. ");
    for (size_t i = 0; i < v->plant->vessel_count && i < 2 * VIEW_FEW; i++)
        if (hole_count(v, i) > 1 && vessels[i].steam > 0.0)
            fv_text_add(out, "%s: the smallest flow is %s of the largest. ", page_view_vessel(v, i),
                        page_view_shown(v, FV_SHOW_SHARE, vessels[i].evenness).text);
}

static void draw(const page_view *v, page_markup *m, const page_card *set, size_t which)
{
    double head = page_card_title(v, m, set, -1, set->name);
    page_plot p = page_card_plot(set, head, page_view_vessel_keys_height(v, set->width - 16.0) + 4.0);
    print_shown x = page_view_axis_name(v, "place along the coil", FV_SHOW_LENGTH);
    print_shown y = page_view_axis_name(v, "steam from a hole", FV_SHOW_STEAM);
    double length = 0.0, most = 0.0, least = 0.0;
    (void)which;
    for (size_t i = 0; i < v->flow->state->hole_count; i++) {
        const fv_hole_result *hole = &v->flow->state->holes[i];
        length = fmax(length, page_view_value(v, FV_SHOW_LENGTH, hole->position));
        most = fmax(most, page_view_value(v, FV_SHOW_STEAM, hole->flow));
        least = fmin(least, page_view_value(v, FV_SHOW_STEAM, hole->flow));
    }
    p.x = page_axis_number(0.0, length, 5, x.text);
    p.y = page_axis_number(least, most, 6, y.text);
    page_plot_begin(m, &p, "plot");
    page_card_curves(v, m, set, &p, curve);
}

void page_svg_holes(const page_view *v, page_markup *m)
{
    const page_card set = {.width = SVG_CARD,
                           .height = SVG_CHART,
                           .draw = draw,
                           .name = "Steam from each hole along the coils",
                           .about = about};
    page_card_draw(v, m, &set);
}
