/* SPDX-License-Identifier: MIT */
/* What each vessel gets as the fire is turned down. */
#include "page/cards.h"
#include "page/pictures.h"

#include <math.h>
#include <stdlib.h>

/* Heat against need where every open vessel has a need, else heat alone. */
static bool knows_needs(const page_view *v)
{
    const fv_steady_result *state = v->flow->state;
    for (size_t i = 0; i < state->vessel_count; i++)
        if (state->vessels[i].verdict != FV_SHUT_OFF && !(state->vessels[i].need > 0.0))
            return false;
    return true;
}

static double height(const page_view *v, const fv_vessel_result *vessel)
{
    if (vessel->verdict == FV_SHUT_OFF)
        return NAN;
    return knows_needs(v) ? 100.0 * vessel->heat / vessel->need : page_view_value(v, FV_SHOW_POWER, vessel->heat);
}

static void curve(const page_view *v, page_markup *m, const page_plot *p, size_t vessel)
{
    size_t count = v->flow->turndown_count;
    double *x = malloc((count + 1) * sizeof *x), *y = malloc((count + 1) * sizeof *y);
    for (size_t i = 0; x && y && i < count; i++) {
        const fv_turndown_row *row = &v->flow->turndown[i];
        x[i] = 100.0 * row->fire;
        y[i] = row->state ? height(v, &row->state->vessels[vessel]) : (double)NAN;
    }
    page_card_curve(v, m, p, vessel, (page_card_points){x, y, count, !v->many});
    free(x);
    free(y);
}

static void about(const page_view *v, size_t which, fv_text *out)
{
    (void)which;
    fv_text_add(out, knows_needs(v) ? "Heat to each vessel, as a share of its need, against the fire setting. "
                                    : "Heat to each vessel against the fire setting. ");
    if (v->flow->dropout_vessel >= 0 && !isnan(v->flow->dropout_fire))
        fv_text_add(out, "From %s down, %s gets less than its need.",
                    page_view_shown(v, FV_SHOW_SHARE, v->flow->dropout_fire).text,
                    page_view_vessel(v, (size_t)v->flow->dropout_vessel));
    else
        fv_text_add(out, "No further vessel drops below its need.");
}

static void draw(const page_view *v, page_markup *m, const page_card *set, size_t which)
{
    double head = page_card_title(v, m, set, -1, set->name);
    page_plot p = page_card_plot(set, head, page_view_vessel_keys_height(v, set->width - 16.0) + 4.0);
    print_shown power = page_view_axis_name(v, "heat to a vessel", FV_SHOW_POWER);
    double most = knows_needs(v) ? 110.0 : 0.0;
    (void)which;
    for (size_t r = 0; r < v->flow->turndown_count; r++)
        for (size_t i = 0; v->flow->turndown[r].state && i < v->plant->vessel_count; i++)
            most = fmax(most, height(v, &v->flow->turndown[r].state->vessels[i]));
    p.x = page_axis_number(0.0, 100.0, 5, "fire, % of the boilers' own settings");
    p.y = page_axis_number(0.0, most, 6, knows_needs(v) ? "heat to a vessel, % of its need" : power.text);
    page_plot_begin(m, &p, "plot");
    if (knows_needs(v))
        page_plot_level(m, &p, 100.0, "target", "its need");
    page_plot_moment(m, &p, v->flow->dropout_vessel >= 0 ? 100.0 * v->flow->dropout_fire : (double)NAN, "cool");
    page_card_curves(v, m, set, &p, curve);
}

void page_svg_turndown(const page_view *v, page_markup *m)
{
    const page_card set = {
        .width = SVG_CARD, .height = SVG_CHART, .draw = draw, .name = "If the fire is turned down", .about = about};
    if (v->flow->turndown_count > 0)
        page_card_draw(v, m, &set);
}
