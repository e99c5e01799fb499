/* SPDX-License-Identifier: MIT */
/* The next step, before and after: when each core is at its target, with the end of the time allowed. */
#include "page/cards.h"
#include "page/pictures.h"
#include "page/svg_bars.h"

#include <math.h>
#include <stdio.h>

enum { MOST_ROWS = 12, HINT = 17, THIN = 8, GAP = 9, SIDE = 4, FOOT = 4 };

/* Cores as things are and then, s from the start; NaN: never. */
typedef struct {
    const char *title, *then;
    const double *after;
} change;

static bool change_of(const page_view *v, change *c)
{
    const fv_why_answer *why = v->content->why;
    const fv_plan_row *plan = v->content->plan ? v->content->plan->rows : NULL;
    if (plan && plan->change.count + plan->change.action_count == 0)
        return false;
    if (plan)
        *c = (change){"The plan, before and after", "as planned", plan->core};
    else if (why && why->cheapest >= 0)
        *c = (change){"The next step, before and after", "with the next step", why->remedies[why->cheapest].core};
    else
        return false;
    return c->after != NULL;
}

static change of(const page_view *v)
{
    change c = {"", "", NULL};
    change_of(v, &c);
    return c;
}

static double now_of(const page_view *v, size_t vessel)
{
    return v->heat->vessels[vessel].core;
}

static size_t row_count(const page_view *v)
{
    return v->plant->vessel_count < MOST_ROWS ? v->plant->vessel_count : MOST_ROWS;
}

static double longest(const page_view *v)
{
    double most = 1.0;
    for (size_t i = 0; i < v->plant->vessel_count; i++)
        most = fmax(most, fmax(fmax(now_of(v, i), of(v).after[i]), page_view_deadline(v, i)));
    return most;
}

static print_shown moment(const page_view *v, double core)
{
    return isnan(core) ? (print_shown){"never"} : page_view_time(v, core);
}

/* A bar that goes on without an end where the core never arrives. */
static void bar(page_markup *m, double y, double room, double share, bool after)
{
    const char *css_class = isnan(share) ? "bar never" : after ? "bar useful" : "bar";
    page_svg_rect(m, SIDE, y, room * (isnan(share) ? 1.0 : share), THIN, css_class);
}

static double row(const page_view *v, page_markup *m, double width, double y, size_t vessel)
{
    double now = now_of(v, vessel), then = of(v).after[vessel], room = width - 2.0 * SIDE, most = longest(v);
    char change[2 * PRINT_SHOW_SIZE + 8];
    snprintf(change, sizeof change, "%s \xE2\x86\x92 %s", moment(v, now).text, moment(v, then).text);
    const page_svg_run runs[] = {{page_view_vessel(v, vessel), "id", 11.0, true, false},
                                 {change, NULL, 11.0, false, false}};
    double words = page_svg_words(m, SIDE, y, room, runs, 2), at = y + words;
    if (m) {
        double due = page_view_deadline(v, vessel) / most;
        bar(m, at, room, now / most, false);
        bar(m, at + THIN + 1.0, room, then / most, true);
        if (!isnan(due))
            page_svg_line(m, (page_svg_point){SIDE + room * due, at - 2.0},
                          (page_svg_point){SIDE + room * due, at + 2.0 * THIN + 3.0}, "due");
    }
    return words + 2.0 * THIN + 1.0 + GAP;
}

static double rows(const page_view *v, page_markup *m, double width, double y)
{
    double top = y;
    for (size_t i = 0; i < row_count(v); i++)
        y += row(v, m, width, y, page_view_ranked(v, i));
    return y - top;
}

static void about(const page_view *v, size_t which, fv_text *out)
{
    (void)which;
    fv_text_add(out, "When each core is at its target as things are, and %s. ", of(v).then);
    for (size_t i = 0; i < row_count(v); i++) {
        size_t vessel = page_view_ranked(v, i);
        fv_text_add(out, "%s: %s, then ", page_view_vessel(v, vessel), moment(v, now_of(v, vessel)).text);
        fv_text_add(out, "%s. ", moment(v, of(v).after[vessel]).text);
    }
}

static size_t keys_of(const page_view *v, page_plot_key keys[3])
{
    size_t n = 0;
    bool due = false;
    for (size_t i = 0; i < v->plant->vessel_count; i++)
        due = due || !isnan(page_view_deadline(v, i));
    keys[n++] = (page_plot_key){"know", "core as things are"};
    keys[n++] = (page_plot_key){"kthen", of(v).then};
    if (due)
        keys[n++] = (page_plot_key){"last", "time allowed ends"};
    return n;
}

static void draw(const page_view *v, page_markup *m, const page_card *set, size_t which)
{
    page_plot_key keys[3];
    (void)which;
    double y = page_card_title(v, m, set, -1, set->name);
    y += rows(v, m, set->width, y + 2.0);
    page_plot_keys(m, SIDE, y + 2.0, set->width - 2.0 * SIDE, keys, keys_of(v, keys));
}

void page_svg_remedy(const page_view *v, page_markup *m)
{
    page_plot_key keys[3];
    change c;
    if (!v->heat || !change_of(v, &c))
        return;
    double below = page_plot_keys(NULL, 0, 0, SVG_CARD - 2.0 * SIDE, keys, keys_of(v, keys));
    const page_card set = {.width = SVG_CARD,
                           .height = HINT + 6.0 + rows(v, NULL, SVG_CARD, 0.0) + below + FOOT,
                           .draw = draw,
                           .name = c.title,
                           .about = about};
    page_card_draw(v, m, &set);
}
