/* SPDX-License-Identifier: MIT */
/* A cut through each sort of vessel: coil and holes, water over them, openings at their heights above the holes.
 * Heights are to scale, the width is not. Vessels of one kind share a drawing. */
#include "page/cards.h"
#include "page/pictures.h"
#include "page/svg_words.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MOST = 6, WALL = 12, INSIDE = 126, WORDS = 164, TOP = 46, ROOM = 150, HEIGHT = 236, HOLES = 16, LABELS = 9 };

typedef struct {
    double low, high; /* m above the holes */
    double top, room; /* of the drawing */
} scale;

static double y_of(const scale *s, double height)
{
    return s->top + s->room * (s->high - height) / (s->high - s->low);
}

/* ---- which vessels ---- */

static bool same_sort(const fv_vessel *a, const fv_vessel *b)
{
    bool own = a->coil.bore.origin == FV_GIVEN || b->coil.bore.origin == FV_GIVEN;
    return a->part.like && b->part.like && strcmp(a->part.like, b->part.like) == 0 && !own &&
           a->opening_count == b->opening_count && fabs(a->water.v - b->water.v) < 1e-9;
}

static bool is_first_of_sort(const page_view *v, size_t vessel)
{
    for (size_t i = 0; i < vessel; i++)
        if (same_sort(v->plant->vessels[i], v->plant->vessels[vessel]))
            return false;
    return true;
}

/* The vessel that card `which` shows; the count of cards where `which` is past the last. */
static size_t sort_at(const page_view *v, size_t which)
{
    size_t found = 0;
    for (size_t i = 0; i < v->plant->vessel_count; i++)
        if (is_first_of_sort(v, i) && found++ == which)
            return i;
    return found;
}

/* ---- heights ---- */

static scale heights_of(const fv_vessel *vessel)
{
    scale s = {.low = -0.05, .high = 0.3, .top = TOP, .room = ROOM};
    for (size_t i = 0; i < vessel->opening_count; i++) {
        double height = fv_or(vessel->openings[i]->height, 0.0);
        s.low = fmin(s.low, height - 0.05);
        s.high = fmax(s.high, height);
    }
    for (size_t i = 0; i < vessel->wall_count; i++)
        s.high = fmax(s.high, fv_or(vessel->walls[i]->height, 0.0));
    return s;
}

/* ---- what it consists of ---- */

static void draw_shell(page_markup *m, const scale *s)
{
    page_svg_rect(m, WALL, s->top - 4.0, INSIDE, s->room + 8.0, "vat");
    page_svg_line(m, (page_svg_point){WALL - 4.0, s->top - 4.0}, (page_svg_point){WALL + INSIDE + 4.0, s->top - 4.0},
                  "lid");
}

static void draw_coil(page_markup *m, const scale *s, const fv_vessel *vessel, size_t holes)
{
    double y = y_of(s, 0.0), left = WALL + 10.0, right = WALL + INSIDE - 12.0;
    double water = fv_or(vessel->water, 0.0);
    size_t shown = holes < HOLES ? holes : HOLES;
    if (water > 0.0)
        page_svg_rect(m, WALL + 1.0, y_of(s, water), INSIDE - 2.0, s->top + s->room + 3.0 - y_of(s, water), "pool");
    page_svg_line(m, (page_svg_point){WALL - 10.0, y}, (page_svg_point){right, y}, "coilcut");
    for (size_t i = 0; i < shown; i++)
        page_svg_circle(m, left + (right - left) * ((double)i + 0.5) / (double)shown, y, 2.0, "node");
}

static const char *opening_word(const fv_opening *opening)
{
    static const char *const words[] = {
        [FV_OPENING_VENT] = "vent", [FV_OPENING_DRAIN] = "drain", [FV_OPENING_GAP] = "gap"};
    return words[opening->kind];
}

static void opening_words(const page_view *v, const fv_opening *opening, char *out, size_t size)
{
    char wide[96] = "";
    if (fv_is_set(opening->diameter))
        snprintf(wide, sizeof wide, "%s", print_shown_said(v->units, FV_SHOW_BORE, opening->diameter.v).text);
    else
        fv_quantity_print(FV_DIM_AREA, fv_or(opening->area, 0.0), wide, sizeof wide);
    snprintf(out, size, "%s %.60s, %.60s up", opening_word(opening), wide,
             page_view_shown(v, FV_SHOW_LENGTH, fv_or(opening->height, 0.0)).text);
}

typedef struct {
    double y; /* of what the words are about */
    char text[160];
} label;

static double label_height(const label *l, double width)
{
    const page_svg_run run = {l->text, NULL, 11.0, false, false};
    return page_svg_words(NULL, 0, 0, width - WORDS, &run, 1);
}

static int by_height(const void *a, const void *b)
{
    const label *one = a, *other = b;
    if (one->y != other->y)
        return one->y < other->y ? -1 : 1;
    return strcmp(one->text, other->text);
}

/* Tops of the words: as near to what they are about as they can be, none on another, all within the cut's height. */
static void spread_labels(const label *labels, size_t count, double width, double *tops)
{
    double end = TOP + ROOM + 20.0;
    for (size_t i = 0; i < count; i++)
        tops[i] = fmax(labels[i].y - 9.0, i > 0 ? tops[i - 1] + label_height(&labels[i - 1], width) : TOP - 14.0);
    for (size_t i = count; i-- > 0;) {
        tops[i] = fmin(tops[i], end - label_height(&labels[i], width));
        end = tops[i];
    }
}

/* With a thin line to what they are about. */
static void draw_labels(page_markup *m, label *labels, size_t count, double width)
{
    double tops[LABELS];
    qsort(labels, count, sizeof *labels, by_height);
    spread_labels(labels, count, width, tops);
    for (size_t i = 0; i < count; i++) {
        const page_svg_run run = {labels[i].text, NULL, 11.0, false, false};
        page_svg_words(m, WORDS, tops[i], width - WORDS, &run, 1);
        page_svg_line(m, (page_svg_point){WALL + INSIDE + 4.0, labels[i].y},
                      (page_svg_point){WORDS - 3.0, tops[i] + 8.0}, "leader");
    }
}

static size_t labels_of(const page_view *v, size_t which, const scale *s, label *labels, size_t most)
{
    const fv_vessel *vessel = v->plant->vessels[which];
    const fv_coil *coil = &vessel->coil;
    size_t n = 0, holes = v->flow->state->vessels[which].hole_count;
    labels[n].y = y_of(s, 0.0);
    snprintf(labels[n++].text, sizeof labels->text, "coil %.60s, %zu holes%s%.60s",
             print_shown_said(v->units, FV_SHOW_BORE, coil->bore.v).text, holes, fv_is_set(coil->drill) ? " of " : "",
             fv_is_set(coil->drill) ? print_shown_said(v->units, FV_SHOW_BORE, coil->drill.v).text : "");
    if (fv_or(vessel->water, 0.0) > 0.0) {
        labels[n].y = y_of(s, vessel->water.v);
        snprintf(labels[n++].text, sizeof labels->text, "water %.60s over the holes",
                 print_shown_said(v->units, FV_SHOW_BORE, vessel->water.v).text);
    }
    for (size_t i = 0; i < vessel->opening_count && n < most; i++) {
        labels[n].y = y_of(s, fv_or(vessel->openings[i]->height, 0.0));
        opening_words(v, vessel->openings[i], labels[n++].text, sizeof labels->text);
    }
    return n;
}

static void draw_openings(page_markup *m, const scale *s, const fv_vessel *vessel)
{
    for (size_t i = 0; i < vessel->opening_count; i++) {
        double y = y_of(s, fv_or(vessel->openings[i]->height, 0.0)), x = WALL + INSIDE;
        page_svg_rect(m, x - 5.0, y - 3.0, 10.0, 6.0, "mouth");
    }
}

static void title(const page_view *v, size_t which, fv_text *out)
{
    size_t first = sort_at(v, which), like = 0;
    for (size_t i = 0; i < v->plant->vessel_count; i++)
        like += i != first && same_sort(v->plant->vessels[first], v->plant->vessels[i]);
    fv_text_add(out, "Inside %s", page_view_vessel(v, first));
    if (like > 0)
        fv_text_add(out, " and %zu like it", like);
}

static void about(const page_view *v, size_t which, fv_text *out)
{
    size_t vessel = sort_at(v, which);
    scale s = heights_of(v->plant->vessels[vessel]);
    label labels[LABELS] = {{0}};
    size_t count = labels_of(v, vessel, &s, labels, LABELS);
    fv_text_add(out, "Cut through the vessel, heights above the holes. ");
    for (size_t i = 0; i < count; i++)
        fv_text_add(out, "%s. ", labels[i].text);
}

/* The title; returns by how much it is higher than a line. */
static double heading(const page_view *v, page_markup *m, size_t which)
{
    const page_card set = {.width = SVG_CARD};
    fv_text words = {0};
    title(v, which, &words);
    double height = page_card_title(v, m, &set, -1, words.text ? words.text : "");
    if (m && words.failed)
        page_markup_fail(m);
    fv_text_free(&words);
    return fmax(0.0, height - 20.0);
}

static double height_of(const page_view *v, size_t which)
{
    return HEIGHT + heading(v, NULL, which);
}

static void draw(const page_view *v, page_markup *m, const page_card *set, size_t which)
{
    size_t vessel = sort_at(v, which);
    const fv_vessel *one = v->plant->vessels[vessel];
    scale s = heights_of(one);
    label labels[LABELS] = {{0}};
    page_svg_group(m, 0.0, heading(v, m, which), "cut");
    draw_shell(m, &s);
    draw_coil(m, &s, one, v->flow->state->vessels[vessel].hole_count);
    draw_openings(m, &s, one);
    draw_labels(m, labels, labels_of(v, vessel, &s, labels, LABELS), set->width);
    print_shown volume = page_view_shown(v, FV_SHOW_VOLUME, one->volume.v);
    page_svg_text(m, WALL + 0.5 * INSIDE, TOP + 14.0, "m soft", "%s", volume.text);
    page_svg_text(m, 2.0, HEIGHT - 8.0, "soft", "Heights to scale, above the holes.");
    page_markup_close(m);
}

void page_svg_vessels(const page_view *v, page_markup *m)
{
    size_t sorts = sort_at(v, v->plant->vessel_count);
    double height = HEIGHT;
    for (size_t i = 0; i < sorts && i < MOST; i++)
        height = fmax(height, height_of(v, i));
    const page_card set = {.width = SVG_CARD,
                           .height = height,
                           .height_of = height_of,
                           .count = sorts < MOST ? sorts : MOST,
                           .draw = draw,
                           .title = title,
                           .about = about};
    page_cards_draw(v, m, &set, 1, "Inside the vessels");
}
