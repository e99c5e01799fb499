/* SPDX-License-Identifier: MIT */
/* A week that repeats: each vessel, the places on the header, the boiler and the people, with the nights behind. */
#include "page/cards.h"
#include "page/pictures.h"

#include <math.h>
#include <stdio.h>

enum { TOP = 26, LEFT = 62, RIGHT = 6, BAR = 12, ROW = 17, SIDE = 4, FOOT = 18, MOST_ROWS = 24 };
static const double NIGHT_FROM = 22.0, NIGHT_LASTS = 8.0; /* h of the day */

typedef struct {
    const page_view *v;
    const fv_week_answer *a;
    page_markup *m;
    size_t slots; /* of the week */
    double y, width;
} week;

static week week_of(const page_view *v, page_markup *m, double width)
{
    const fv_week_answer *a = v->content->week;
    return (week){v, a, m, FV_WEEK_DAYS * a->problem.slots_a_day, TOP, width - LEFT - RIGHT};
}

/* ---- time ---- */

static double x_of(const week *w, double slot)
{
    return LEFT + w->width * slot / (double)w->slots;
}

static void piece(const week *w, double from, double to, double height, const char *css_class)
{
    page_svg_rect(w->m, x_of(w, from), w->y + 0.5 * (BAR - height), x_of(w, to) - x_of(w, from), height, css_class);
}

/* What goes on past Sunday goes on on Monday. */
static void span(const week *w, size_t from, size_t length, double height, const char *css_class)
{
    const double begin = (double)(from % w->slots), end = begin + (double)length, all = (double)w->slots;
    if (length == 0)
        return;
    piece(w, begin, fmin(end, all), height, css_class);
    if (end > all)
        piece(w, 0.0, fmin(end - all, all), height, css_class);
}

/* Slots from one to the other, round the end of the week. */
static size_t until(const week *w, size_t from, size_t to)
{
    return (to + w->slots - from % w->slots) % w->slots;
}

/* ---- one stay of a vessel on the header ---- */

typedef struct {
    size_t hung, lit, steam, emptied; /* emptied: begun */
    size_t left;                      /* its place is free again */
} stay;

/* Whether the batch has vessels like this one. */
static bool takes(const week *w, size_t batch, size_t vessel)
{
    const fv_week_problem *p = &w->a->problem;
    return p->batch[batch].of[fv_week_kind_of(p, vessel)] > 0;
}

/* The next entry of a kind from a slot on, of this vessel or (light) of a batch with one like it; NULL: there is none.
 */
static const fv_week_entry *next(const week *w, size_t from, fv_week_what what, size_t vessel)
{
    const fv_week_entry *best = NULL;
    for (size_t i = 0; i < w->a->plan.entry_count; i++) {
        const fv_week_entry *e = &w->a->plan.entries[i];
        if (e->what == what && (what == FV_TASK_LIGHT ? takes(w, e->vessel, vessel) : e->vessel == vessel) &&
            (!best || until(w, from, e->slot) < until(w, from, best->slot)))
            best = e;
    }
    return best;
}

/* False: no vessel is hung on there, or the week does not say when it leaves. */
static bool stay_of(const week *w, const fv_week_entry *hung, stay *s)
{
    *s = (stay){0};
    if (hung->what != FV_TASK_HANG_ON)
        return false;
    const fv_week_problem *p = &w->a->problem;
    const fv_week_entry *lit = next(w, hung->slot, FV_TASK_LIGHT, hung->vessel);
    const fv_week_entry *off = p->taken_off ? next(w, hung->slot, FV_TASK_TAKE_OFF, hung->vessel) : NULL;
    const fv_week_entry *emptied = next(w, hung->slot, FV_TASK_EMPTY, hung->vessel);
    if (!lit || !emptied || (p->taken_off && !off))
        return false;
    const size_t left =
        off ? off->slot + p->task[FV_TASK_TAKE_OFF].slots : emptied->slot + p->task[FV_TASK_EMPTY].slots;
    *s = (stay){hung->slot, lit->slot, p->batch[lit->vessel].steam, emptied->slot, left};
    return true;
}

/* ---- rows ---- */

static void label(const week *w, const char *words)
{
    page_svg_text(w->m, LEFT - 5.0, w->y + BAR - 2.0, "e", "%s", words);
}

static void tasks(const week *w, fv_week_what what, size_t vessel)
{
    for (size_t i = 0; i < w->a->plan.entry_count; i++) {
        const fv_week_entry *e = &w->a->plan.entries[i];
        if (e->what == what && e->vessel == vessel)
            span(w, e->slot, w->a->problem.task[what].slots, BAR, "bar");
    }
}

static void vessel_row(const week *w, size_t vessel)
{
    char name[32];
    snprintf(name, sizeof name, "vessel %zu", vessel + 1);
    label(w, name);
    for (size_t i = 0; i < w->a->plan.entry_count; i++) {
        const fv_week_entry *e = &w->a->plan.entries[i];
        stay s;
        if (!stay_of(w, e, &s) || e->vessel != vessel)
            continue;
        span(w, s.hung, until(w, s.hung, s.lit), 4.0, "wait");
        span(w, s.lit + s.steam, until(w, s.lit + s.steam, s.emptied), 6.0, "cooling");
        span(w, s.lit, s.steam, BAR, "heating");
    }
    tasks(w, FV_TASK_FILL, vessel);
    tasks(w, FV_TASK_EMPTY, vessel);
}

/* Whether two stays are on the header at once. */
static bool meet(const week *w, const stay *a, const stay *b)
{
    return until(w, a->hung, b->hung) < until(w, a->hung, a->left) ||
           until(w, b->hung, a->hung) < until(w, b->hung, b->left);
}

/* The place that each stay takes: the first one free, in the order of hanging on. Rows of `place` by entry. */
static void choose_places(const week *w, size_t *place)
{
    const fv_week_plan *plan = &w->a->plan;
    for (size_t i = 0; i < plan->entry_count; i++) {
        stay mine, other;
        const bool known = stay_of(w, &plan->entries[i], &mine);
        place[i] = 0;
        for (size_t k = 0; known && k < i; k++) {
            if (stay_of(w, &plan->entries[k], &other) && place[k] == place[i] && meet(w, &mine, &other)) {
                place[i]++;
                k = (size_t)-1; /* once more from the first */
            }
        }
    }
}

static void place_rows(week *w)
{
    const fv_week_plan *plan = &w->a->plan;
    fv_arena *arena = fv_arena_new();
    size_t *place = arena ? fv_arena_alloc(arena, plan->entry_count + 1, sizeof *place) : NULL;
    if (place)
        choose_places(w, place);
    else
        page_markup_fail(w->m);
    for (size_t p = 0; place && p < w->a->problem.places; p++) {
        char name[32];
        snprintf(name, sizeof name, "place %zu", p + 1);
        label(w, name);
        for (size_t i = 0; i < plan->entry_count; i++) {
            stay s;
            if (stay_of(w, &plan->entries[i], &s) && place[i] == p)
                span(w, s.hung, until(w, s.hung, s.left), BAR, "taken");
        }
        w->y += ROW;
    }
    fv_arena_free(arena);
}

static void boiler_row(const week *w)
{
    label(w, "boiler");
    for (size_t i = 0; i < w->a->plan.entry_count; i++) {
        const fv_week_entry *e = &w->a->plan.entries[i];
        if (e->what == FV_TASK_LIGHT)
            span(w, e->slot, w->a->problem.batch[e->vessel].steam, BAR, "heating");
    }
}

static void crew_row(const week *w)
{
    label(w, "people");
    for (size_t from = 0, to; from < w->slots; from = to + 1) {
        for (to = from; to < w->slots && w->a->people[to] > 0;)
            to++;
        span(w, from, to - from, BAR, "there");
    }
    for (size_t i = 0; i < w->a->plan.entry_count; i++) {
        const fv_week_entry *e = &w->a->plan.entries[i];
        span(w, e->slot, w->a->problem.task[e->what].slots, 6.0, "bar");
    }
}

/* ---- the whole ---- */

static size_t vessel_rows(const fv_week_answer *a)
{
    return a->problem.vessels < MOST_ROWS ? a->problem.vessels : MOST_ROWS;
}

static double rows_height(const fv_week_answer *a)
{
    return ROW * (double)(vessel_rows(a) + a->problem.places + 2);
}

static void nights(const week *w)
{
    static const char *const days[] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
    const double hour = (double)w->a->problem.slots_a_day / 24.0, height = rows_height(w->a);
    fv_text grid = {0};
    for (int day = 0; day < FV_WEEK_DAYS; day++) {
        const double begins = 24.0 * hour * day, dawn = begins + (NIGHT_FROM + NIGHT_LASTS - 24.0) * hour;
        page_svg_rect(w->m, x_of(w, begins), TOP - 4.0, x_of(w, dawn) - x_of(w, begins), height, "night");
        const double dusk = begins + NIGHT_FROM * hour, over = begins + 24.0 * hour;
        page_svg_rect(w->m, x_of(w, dusk), TOP - 4.0, x_of(w, over) - x_of(w, dusk), height, "night");
        fv_text_add(&grid, "M%.1f %.1fV%.1f", x_of(w, begins), TOP - 4.0, TOP + height);
        page_svg_text(w->m, x_of(w, begins + 12.0 * hour), TOP + height + 9.0, "m", "%s", days[day]);
    }
    page_svg_path(w->m, page_markup_words(w->m, &grid), "grid");
    fv_text_free(&grid);
}

static const page_plot_key keys[] = {
    {"know", "filling, emptying, at work"},
    {"kheat", "on the steam, burning"},
    {"kcool", "cooling"},
    {"ktaken", "place taken"},
    {"kthere", "people are there"},
    {"knight", "night"},
};
enum { KEYS = sizeof keys / sizeof *keys };

static void about(const page_view *v, size_t which, fv_text *out)
{
    const fv_week_answer *a = v->content->week;
    char time[32];
    (void)which;
    fv_text_add(out, "Vessels, places, boiler and people from Monday to Sunday. Lit: ");
    for (size_t i = 0; i < v->week.line_count; i++)
        if (v->week.lines[i].task == fv_week_word(FV_TASK_LIGHT))
            fv_text_add(out, "%s %s, %zu vessels. ", v->week.lines[i].day,
                        report_week_time(&v->week, v->week.lines[i].begins, time, sizeof time),
                        v->week.lines[i].vessels);
    fv_text_add(out, "%zu vessels, %zu places.", a->problem.vessels, a->problem.places);
}

static void draw(const page_view *v, page_markup *m, const page_card *set, size_t which)
{
    week w = week_of(v, m, set->width);
    page_card_title(v, m, set, -1, set->name);
    (void)which;
    nights(&w);
    for (size_t i = 0; i < vessel_rows(w.a); i++) {
        vessel_row(&w, i);
        w.y += ROW;
    }
    place_rows(&w);
    boiler_row(&w);
    w.y += ROW;
    crew_row(&w);
    page_plot_keys(m, SIDE, TOP + rows_height(w.a) + FOOT, set->width - 2.0 * SIDE, keys, KEYS);
}

void page_svg_week(const page_view *v, page_markup *m)
{
    const fv_week_answer *a = v->content->week;
    const double below = page_plot_keys(NULL, 0, 0, SVG_CARD - 2.0 * SIDE, keys, KEYS);
    const page_card set = {.width = SVG_CARD,
                           .height = TOP + rows_height(a) + FOOT + below + 4.0,
                           .draw = draw,
                           .name = "A week that repeats",
                           .about = about};
    page_card_draw(v, m, &set);
}
