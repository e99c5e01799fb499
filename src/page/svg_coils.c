/* SPDX-License-Identifier: MIT */
/* Each coil to scale along its length, its holes as large as the steam that leaves them: how even it is. */
#include "page/cards.h"
#include "page/pictures.h"
#include "page/svg_words.h"

#include <math.h>
#include <stdio.h>

enum { MOST_ROWS = 12, HINT = 30, ROW = 24, SIDE = 8, LARGEST = 7, FOOT = 8 };

static size_t row_count(const page_view *v)
{
    return v->plant->vessel_count < MOST_ROWS ? v->plant->vessel_count : MOST_ROWS;
}

static const fv_hole_result *holes_of(const page_view *v, size_t vessel)
{
    return v->flow->state->holes + v->flow->state->vessels[vessel].first_hole;
}

/* The longest coil, and the largest flow of any hole: what all are drawn to. */
static void scales(const page_view *v, double *length, double *flow)
{
    *length = *flow = 0.0;
    for (size_t i = 0; i < v->flow->state->hole_count; i++) {
        *length = fmax(*length, v->flow->state->holes[i].position);
        *flow = fmax(*flow, fabs(v->flow->state->holes[i].flow));
    }
    for (size_t i = 0; i < v->plant->vessel_count; i++)
        *length = fmax(*length, fv_or(v->plant->vessels[i]->coil.length, 0.0));
}

static void draw_coil(const page_view *v, page_markup *m, double y, double room, size_t vessel)
{
    double length, flow;
    scales(v, &length, &flow);
    const fv_vessel_result *r = &v->flow->state->vessels[vessel];
    double end = fv_or(v->plant->vessels[vessel]->coil.length, length);
    page_svg_line(m, (page_svg_point){SIDE, y}, (page_svg_point){SIDE + room * fmin(end / length, 1.0), y}, "coil");
    page_svg_group(m, 0.0, y, "blows");
    for (size_t i = 0; i < r->hole_count && flow > 0.0; i++) {
        const fv_hole_result *hole = &holes_of(v, vessel)[i];
        page_svg_circle(m, SIDE + room * hole->position / length, 0.0,
                        fmax(0.7, LARGEST * sqrt(fabs(hole->flow) / flow)), hole->flow < 0.0 ? "draws" : NULL);
    }
    page_markup_close(m);
}

static double rows(const page_view *v, page_markup *m, double width, double y)
{
    double top = y;
    for (size_t i = 0; i < row_count(v); i++) {
        size_t vessel = page_view_ranked(v, i);
        const fv_vessel_result *r = &v->flow->state->vessels[vessel];
        print_shown even;
        if (r->evenness < 0.0)
            snprintf(even.text, sizeof even.text, "draws in at a hole");
        else
            snprintf(even.text, sizeof even.text, "least hole %.40s of the largest",
                     page_view_shown(v, FV_SHOW_SHARE, r->evenness).text);
        const page_svg_run runs[] = {
            {page_view_vessel(v, vessel), "id", 11.0, true, false},
            {r->hole_count < 2 || !(fabs(r->steam) > 0.0) ? NULL : even.text, r->evenness < 0.0 ? "bad" : "soft", 11.0,
             false, false},
        };
        y += page_svg_words(m, SIDE, y, width - 2.0 * SIDE, runs, 2);
        if (m)
            draw_coil(v, m, y + 0.4 * ROW, width - 2.0 * SIDE, vessel);
        y += ROW;
    }
    return y - top;
}

static void about(const page_view *v, size_t which, fv_text *out)
{
    (void)which;
    fv_text_add(out,
                "Each coil along its length from the inlet at the left; the area of a disc is the steam of a hole. ");
    for (size_t i = 0; i < row_count(v); i++) {
        size_t vessel = page_view_ranked(v, i);
        fv_text_add(out, "%s: %zu holes. ", page_view_vessel(v, vessel), v->flow->state->vessels[vessel].hole_count);
    }
}

static void draw(const page_view *v, page_markup *m, const page_card *set, size_t which)
{
    double y = page_card_title(v, m, set, -1, set->name), length, flow;
    (void)which;
    scales(v, &length, &flow);
    const page_svg_run hint = {"The larger a disc, the more steam leaves the hole. Steam enters at the left.", "soft",
                               11.0, false, false};
    page_svg_words(m, 2.0, y, set->width - 4.0, &hint, 1);
    rows(v, m, set->width, y + HINT + 2.0);
    page_svg_text(m, set->width - SIDE, set->height - 6.0, "e soft", "the whole width is %s",
                  page_view_shown(v, FV_SHOW_LENGTH, length).text);
}

void page_svg_coils(const page_view *v, page_markup *m)
{
    const page_card set = {.width = SVG_CARD,
                           .height = 24.0 + HINT + rows(v, NULL, SVG_CARD, 0.0) + 12.0 + FOOT,
                           .draw = draw,
                           .name = "Coils to scale",
                           .about = about};
    page_card_draw(v, m, &set);
}
