/* SPDX-License-Identifier: MIT */
/* Who does what when: a bar for each vessel and each boiler on one line of time, with the end of the time allowed. It
 * is what gets pinned to the wall. Heating and hold fill the width; cooling runs off its end, with its time in words.
 */
#include "page/cards.h"
#include "page/pictures.h"
#include "page/svg_words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { LEFT = 8, RIGHT = 10, TOP = 26, BAR = 16, GAP = 9, LABEL = 20, FOOT = 22 };

typedef struct {
    const page_view *v;
    page_markup *m; /* NULL: only measured */
    page_plot p;
    double y, width;
    double due; /* s: a mark that no word may lie under; NaN */
} timeline;

static double x_of(const timeline *t, double seconds)
{
    return page_plot_at(&t->p, seconds / 3600.0, t->p.y.from).x;
}

/* ---- bars ---- */

/* From one time to another; a word in it where there is room. */
static void bar(timeline *t, double from, double to, double height, const char *css_class, const char *word)
{
    if (!t->m || isnan(from) || isnan(to) || to <= from || from / 3600.0 >= t->p.x.to)
        return;
    double a = x_of(t, from), b = x_of(t, to), middle = t->y + 0.5 * BAR;
    page_svg_rect(t->m, a, middle - 0.5 * height, b - a, height, css_class);
    const double mark = isnan(t->due) ? a : fmin(fmax(x_of(t, t->due), a), b);
    a = mark - a > b - mark ? a : mark;
    b = a == mark ? b : mark;
    if (word && page_svg_width(word, strlen(word), 11.0, false) + 6.0 < b - a)
        page_svg_text(t->m, 0.5 * (a + b), middle + 4.0, "m", "%s", word);
}

static void due_mark(timeline *t, double due)
{
    if (!t->m || isnan(due) || due / 3600.0 > t->p.x.to)
        return;
    double x = x_of(t, due);
    page_svg_line(t->m, (page_svg_point){x, t->y - 1.0}, (page_svg_point){x, t->y + BAR + 3.0}, "due");
    fv_text flag = {0};
    fv_text_add(&flag, "M%.1f %.1fl-4 5h8z", x, t->y + BAR + 1.0);
    page_svg_path(t->m, page_markup_words(t->m, &flag), "dueflag");
    fv_text_free(&flag);
}

/* What somebody does to this boiler or vessel. */
static void action_marks(timeline *t, int boiler, int vessel)
{
    const fv_heat_result *heat = t->v->heat;
    for (size_t i = 0; t->m && i < heat->event_count; i++) {
        const fv_heat_event *h = &heat->events[i];
        if (h->kind != FV_HEAT_EVENT_ACTION || h->time / 3600.0 > t->p.x.to ||
            !((boiler >= 0 && h->boiler == boiler) || (vessel >= 0 && h->vessel == vessel)))
            continue;
        page_svg_circle(t->m, x_of(t, h->time), t->y + 0.5 * BAR, 3.0, "act");
    }
}

/* ---- vessels ---- */

/* Below its bar, pale: from steam to core as it was before the last change, with an end where the core came. */
static void ghost(timeline *t, size_t vessel)
{
    const int which = page_ghost_vessel(t->v, vessel);
    const fv_vessel_history *was = which >= 0 ? &page_ghost(t->v)->vessels[which] : NULL;
    if (!t->m || !was || isnan(was->steam_on))
        return;
    const double y = t->y + BAR + 3.0, end = isnan(was->core) ? page_ghost(t->v)->end : was->core;
    const double from = x_of(t, was->steam_on), most = LEFT + t->p.width, to = fmin(x_of(t, end), most);
    if (from >= most)
        return;
    page_markup_open(t->m, "g", "class", "ghost", NULL);
    page_svg_line(t->m, (page_svg_point){from, y}, (page_svg_point){to, y}, NULL);
    if (!isnan(was->core) && to < most)
        page_svg_line(t->m, (page_svg_point){to, y - 3.0}, (page_svg_point){to, y + 3.0}, NULL);
    page_markup_close(t->m);
}

static void vessel_bars(timeline *t, size_t vessel)
{
    const fv_vessel_history *h = &t->v->heat->vessels[vessel];
    double end = t->v->heat->end, core = isnan(h->core) ? end : h->core;
    double hold = isnan(h->hold) ? end : h->hold, cool = isnan(h->cool) ? end : h->cool;
    const double gone = report_heat_steam_gone(t->v->heat);
    t->due = page_view_deadline(t->v, vessel);
    bar(t, 0.0, isnan(h->opened) ? end : h->opened, 2.0, "wait", NULL);
    bar(t, h->opened, isnan(h->steam_on) ? end : h->steam_on, 6.0, "warm", NULL);
    bar(t, h->steam_on, fmin(core, gone), BAR, "heating", "heating");
    bar(t, fmax(h->steam_on, gone), core, 2.0, "wait", NULL);
    if (!isnan(h->core))
        bar(t, h->core, hold, BAR, "holding", "hold");
    if (!isnan(h->hold))
        bar(t, h->hold, cool, 8.0, "cooling", NULL);
    if (!isnan(h->cool))
        bar(t, h->cool, end, 2.0, "wait", NULL);
    due_mark(t, t->due);
    ghost(t, vessel);
    t->due = NAN;
    action_marks(t, -1, (int)vessel);
}

typedef struct {
    char text[2 * PRINT_SHOW_SIZE];
} phrase;

static phrase phrase_of(const char *what, print_shown time)
{
    phrase p;
    snprintf(p.text, sizeof p.text, "%s %s", what, time.text);
    return p;
}

static void vessel_label(timeline *t, size_t vessel)
{
    const page_view *v = t->v;
    const fv_vessel_history *h = &v->heat->vessels[vessel];
    double due = page_view_deadline(v, vessel);
    bool shut = page_view_verdict(v, vessel) == FV_SHUT_OFF;
    const bool shelves = fv_word(v->heat->plant->vessels[vessel]->cooling) == FV_COOL_SHELVES;
    phrase core = isnan(h->core) ? (phrase){"core not at its target,"} : phrase_of("core", page_view_time(v, h->core));
    phrase until = phrase_of("allowed", page_view_time(v, due)),
           cool = phrase_of(shelves ? "on shelves, cool" : "cool", page_view_time(v, h->cool));
    const page_svg_run runs[] = {
        {page_view_vessel(v, vessel), "id", 11.0, true, false},
        {shut ? page_view_outcome(v, vessel) : core.text, NULL, 11.0, false, false},
        {isnan(due) ? NULL : until.text, isnan(h->core) || h->core > due ? "bad" : "soft", 11.0, false, false},
        {isnan(h->cool) ? NULL : cool.text, "soft", 11.0, false, false},
    };
    if (t->m)
        page_svg_mark(t->m, page_view_mark(page_view_verdict(v, vessel)), LEFT + 6.0, t->y + 8.0, 6.0);
    t->y += page_svg_words(t->m, LEFT + 16.0, t->y, t->width - LEFT - RIGHT - 16.0, runs, 4);
}

static void vessel_row(timeline *t, size_t vessel)
{
    if (t->m)
        page_markup_open(t->m, "g", "class", "row", "data-vessel", page_view_vessel(t->v, vessel), NULL);
    vessel_label(t, vessel);
    vessel_bars(t, vessel);
    if (t->m)
        page_markup_close(t->m);
    t->y += BAR + GAP;
}

/* ---- boilers ---- */

typedef enum { COLD, FIRED, STEAMING } boiler_phase;

/* What turns a boiler's fire on and off; NULL: nothing does. */
static const fv_thermostat_history *thermostat_of(const fv_heat_result *heat, size_t boiler)
{
    for (size_t i = 0; i < heat->thermostat_count; i++)
        if (heat->plant->thermostats[i]->boiler_index == (int)boiler && heat->thermostats[i].cycles > 0)
            return &heat->thermostats[i];
    return NULL;
}

/* The cycles of a thermostat are shorter than samples are apart: they count as steaming. */
static boiler_phase phase_at(const fv_heat_result *heat, size_t boiler, size_t sample)
{
    const fv_thermostat_history *h = thermostat_of(heat, boiler);
    if (h && heat->series.time[sample] >= h->first_off && heat->series.time[sample] <= h->last_off)
        return STEAMING;
    size_t at = sample * heat->boiler_count + boiler;
    return heat->series.boiler_steam[at] > 0.0 ? STEAMING : heat->series.boiler_fuel[at] > 0.0 ? FIRED : COLD;
}

static void boiler_bars(timeline *t, size_t boiler)
{
    const fv_heat_result *heat = t->v->heat;
    const fv_series *series = &heat->series;
    const fv_boiler_history *h = &heat->boilers[boiler];
    for (size_t i = 0; i + 1 < series->count;) {
        boiler_phase phase = phase_at(heat, boiler, i);
        size_t last = i + 1;
        while (last + 1 < series->count && phase_at(heat, boiler, last) == phase)
            last++;
        double from = series->time[i], to = series->time[last];
        if (phase == STEAMING && h->steam_up > from && h->steam_up < to && i == 0)
            from = h->steam_up;
        bar(t, from, to,
            phase == STEAMING ? BAR
            : phase == FIRED  ? 6.0
                              : 2.0,
            phase == STEAMING ? "steaming"
            : phase == FIRED  ? "warm"
                              : "wait",
            phase == STEAMING ? "gives steam" : NULL);
        i = last;
    }
    if (t->m && !isnan(h->dry) && h->dry / 3600.0 <= t->p.x.to) {
        double x = x_of(t, h->dry), y = t->y + 0.5 * BAR;
        fv_text cross = {0};
        fv_text_add(&cross, "M%.1f %.1fl8 8m0 -8l-8 8", x - 4.0, y - 4.0);
        page_svg_path(t->m, page_markup_words(t->m, &cross), "dry");
        fv_text_free(&cross);
    }
    action_marks(t, (int)boiler, -1);
}

static void boiler_row(timeline *t, size_t boiler)
{
    const fv_boiler_history *h = &t->v->heat->boilers[boiler];
    const double gone = report_heat_steam_gone(t->v->heat);
    phrase steam = phrase_of("steam from", page_view_time(t->v, h->steam_up));
    phrase dry = phrase_of("out of water", page_view_time(t->v, h->dry));
    const fv_thermostat_history *kept = thermostat_of(t->v->heat, boiler);
    phrase duty =
        phrase_of("thermostat: on", print_shown_as(t->v->units, FV_SHOW_SHARE, kept ? fv_thermostat_duty(kept) : NAN));
    phrase fire = phrase_of("fire out", page_view_time(t->v, fmin(t->v->heat->steam_end, gone)));
    const page_svg_run runs[] = {
        {t->v->plant->boilers[boiler]->part.id, "id", 11.0, true, false},
        {isnan(h->steam_up) ? "gives no steam" : steam.text, NULL, 11.0, false, false},
        {isnan(h->dry) ? NULL : dry.text, "bad", 11.0, false, false},
        {kept ? duty.text : NULL, NULL, 11.0, false, false},
        {fire.text, "soft", 11.0, false, false},
    };
    t->y += page_svg_words(t->m, LEFT, t->y, t->width - LEFT - RIGHT, runs, sizeof runs / sizeof *runs);
    boiler_bars(t, boiler);
    t->y += BAR + GAP;
}

/* ---- all of it ---- */

/* So many vessels to a card, so that each fits a page; the boilers stand on the first. */
enum { EACH = 15 };

static void rows(timeline *t, size_t which)
{
    for (size_t i = 0; which == 0 && i < t->v->heat->boiler_count; i++)
        boiler_row(t, i);
    for (size_t i = which * EACH; i < (which + 1) * EACH && i < t->v->heat->vessel_count; i++)
        vessel_row(t, i);
}

static size_t keys_of(const page_view *v, page_plot_key keys[6])
{
    bool due = false, acts = false;
    size_t n = 0;
    for (size_t i = 0; i < v->heat->vessel_count; i++)
        due = due || !isnan(page_view_deadline(v, i));
    for (size_t i = 0; i < v->heat->event_count; i++)
        acts = acts || v->heat->events[i].kind == FV_HEAT_EVENT_ACTION;
    keys[n++] = (page_plot_key){"kwarm", "warming lines or boiler"};
    keys[n++] = (page_plot_key){"kheat", "heating"};
    keys[n++] = (page_plot_key){"khold", "hold"};
    keys[n++] = (page_plot_key){"kcool", "cooling"};
    if (due)
        keys[n++] = (page_plot_key){"last", "time allowed ends"};
    if (acts)
        keys[n++] = (page_plot_key){"kact", "somebody acts"};
    return n;
}

static timeline begin(const page_view *v, page_markup *m, double width)
{
    timeline t = {.v = v, .m = m, .width = width, .y = TOP + LABEL, .due = NAN};
    t.p = (page_plot){.left = LEFT, .top = TOP + LABEL - 4.0, .width = width - LEFT - RIGHT, .height = 1.0};
    t.p.x = page_card_time_axis(v, 0.0, page_card_steaming(v), 5, false);
    t.p.y = (page_axis){.kind = AXIS_NUMBER, .from = 0.0, .to = 1.0, .step = 2.0, .bare = true};
    return t;
}

static double height_of_rows(const page_view *v, double width, size_t which)
{
    timeline t = begin(v, NULL, width);
    rows(&t, which);
    return t.y - (TOP + LABEL);
}

static void title(const page_view *v, size_t which, fv_text *out)
{
    if (which > 0)
        fv_text_add(out, "Part %zu. ", which + 1);
    fv_text_add(out, v->heat->vessel_count > 1 ? "When: each vessel, and the fire" : "When: the vessel, and the fire");
}

static void about(const page_view *v, size_t which, fv_text *out)
{
    fv_text_add(out, "Waiting, heating, hold and cooling as bars on one line of time. ");
    for (size_t i = which * EACH; i < v->heat->vessel_count && i < (which + 1) * EACH; i++) {
        double due = page_view_deadline(v, i);
        fv_text_add(out, "%s: core at its target %s", page_view_vessel(v, i),
                    isnan(v->heat->vessels[i].core) ? "never" : page_view_time(v, v->heat->vessels[i].core).text);
        if (!isnan(due))
            fv_text_add(out, ", allowed until %s", page_view_time(v, due).text);
        fv_text_add(out, ". ");
    }
}

static void draw(const page_view *v, page_markup *m, const page_card *set, size_t which)
{
    page_plot_key keys[6];
    size_t key_count = keys_of(v, keys);
    timeline t = begin(v, m, set->width);
    fv_text words = {0};
    title(v, which, &words);
    page_card_title(v, m, set, -1, page_markup_words(m, &words));
    t.p.height = height_of_rows(v, set->width, which);
    page_plot_begin(m, &t.p, "plot when");
    page_plot_end(m);
    rows(&t, which);
    page_plot_keys(m, LEFT, t.y + FOOT, set->width - LEFT - RIGHT, keys, key_count);
    fv_text_free(&words);
}

static double height_of(const page_view *v, size_t which)
{
    page_plot_key keys[6];
    double below = page_plot_keys(NULL, 0, 0, SVG_CARD - LEFT - RIGHT, keys, keys_of(v, keys));
    return TOP + LABEL + height_of_rows(v, SVG_CARD, which) + FOOT + below + 4.0;
}

void page_svg_timeline(const page_view *v, page_markup *m)
{
    const page_card set = {.width = SVG_CARD,
                           .height = height_of(v, 0),
                           .height_of = height_of,
                           .count = (v->heat->vessel_count + EACH - 1) / EACH,
                           .draw = draw,
                           .title = title,
                           .about = about};
    page_cards_draw(v, m, &set, 1, "When: each vessel, and the fire");
}
