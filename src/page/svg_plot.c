/* SPDX-License-Identifier: MIT */
/* Scales, ticks, curves and keys. */
#include "page/svg_plot.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- scales ---- */

page_axis page_axis_number(double from, double to, int most, const char *name)
{
    page_axis a = {.kind = AXIS_NUMBER, .from = from, .name = name};
    double span = to > from ? to - from : 1.0;
    double raw = span / most, power = pow(10.0, floor(log10(raw)));
    const double rounds[] = {1.0, 2.0, 5.0, 10.0};
    int i = 0;
    while (i < 3 && rounds[i] * power < raw * (1.0 - 1e-9))
        i++;
    a.step = rounds[i] * power;
    a.from = a.step * floor(from / a.step + 1e-9);
    a.to = a.step * ceil((from + span) / a.step - 1e-9);
    return a;
}

page_axis page_axis_time(double from, double to, int most, double clock, bool twelve_hours, const char *name)
{
    static const double steps[] = {1.0 / 12, 1.0 / 6, 0.25, 0.5, 1, 2, 3, 4, 6, 12, 24, 48, 96, 168, 336};
    enum { STEPS = sizeof steps / sizeof *steps };
    int i = 0;
    while (i < STEPS - 1 && (to - from) / steps[i] > most)
        i++;
    return (page_axis){.kind = AXIS_TIME,
                       .from = from,
                       .to = to > from ? to : from + 1.0,
                       .step = steps[i],
                       .name = name,
                       .clock = clock,
                       .twelve_hours = twelve_hours};
}

page_svg_point page_plot_at(const page_plot *p, double x, double y)
{
    double u = (x - p->x.from) / (p->x.to - p->x.from), v = (y - p->y.from) / (p->y.to - p->y.from);
    return (page_svg_point){p->left + p->width * fmin(fmax(u, 0.0), 1.0),
                            p->top + p->height * (1.0 - fmin(fmax(v, 0.0), 1.0))};
}

/* ---- words at the ticks ---- */

static const double LABEL = 11.0, LABEL_GAP = 3.0; /* px */

/* "12:30" or "3 h" as at the axis; day 2 and later with the day before it. */
static void axis_time_text(const page_axis *a, double hours, fv_text *out)
{
    if (isnan(a->clock)) {
        double minutes = round(60.0 * hours), whole = floor(minutes / 60.0);
        if (minutes - 60.0 * whole > 0.5)
            fv_text_add(out, "%.0f:%02.0f h", whole, minutes - 60.0 * whole);
        else
            fv_text_add(out, "%.0f h", whole);
        return;
    }
    double minutes = round(60.0 * (a->clock + hours)), day = floor(minutes / 1440.0);
    minutes -= 1440.0 * day;
    double whole = floor(minutes / 60.0), twelve = fmod(whole + 11.0, 12.0) + 1.0;
    if (day > 0.0)
        fv_text_add(out, "day %.0f ", day + 1.0);
    if (a->twelve_hours)
        fv_text_add(out, "%.0f:%02.0f %s", twelve, minutes - 60.0 * whole, whole < 12.0 ? "am" : "pm");
    else
        fv_text_add(out, "%02.0f:%02.0f", whole, minutes - 60.0 * whole);
}

/* At a tick midnight names the day that begins, and whole hours go without minutes in twelve-hour style. */
static void tick_text(const page_axis *a, double value, fv_text *out)
{
    if (a->kind == AXIS_NUMBER) {
        int decimals = 0;
        while (decimals < 6 && fabs(a->step * pow(10.0, decimals) - round(a->step * pow(10.0, decimals))) > 1e-6)
            decimals++;
        fv_text_add(out, "%.*f", decimals, fabs(value) < 1e-9 * a->step ? 0.0 : value);
        return;
    }
    if (isnan(a->clock)) {
        axis_time_text(a, value, out);
        return;
    }
    double since = round(60.0 * (a->clock + value)), minutes = fmod(since, 1440.0), whole = floor(minutes / 60.0);
    minutes -= 60.0 * whole;
    if (since > 0.0 && whole == 0.0 && minutes == 0.0) {
        fv_text_add(out, "day %.0f", since / 1440.0 + 1.0);
        return;
    }
    if (a->twelve_hours && minutes < 0.5)
        fv_text_add(out, "%.0f %s", fmod(whole + 11.0, 12.0) + 1.0, whole < 12.0 ? "am" : "pm");
    else if (a->twelve_hours)
        fv_text_add(out, "%.0f:%02.0f", fmod(whole + 11.0, 12.0) + 1.0, minutes);
    else
        fv_text_add(out, "%02.0f:%02.0f", whole, minutes);
}

/* Ticks of times stand at whole steps, on a clock at those of the day. */
static double first_tick(const page_axis *a)
{
    double midnight = isnan(a->clock) ? 0.0 : a->clock;
    if (a->kind == AXIS_TIME)
        return a->step * ceil((midnight + a->from) / a->step - 1e-9) - midnight;
    return a->from;
}

static size_t tick_count(const page_axis *a)
{
    double count = floor((a->to - first_tick(a)) / a->step + 1e-6) + 1.0;
    return count > 0.0 && count < 200.0 ? (size_t)count : 0;
}

static void tick_label(page_markup *m, const page_axis *a, double value, double x, double y, const char *css_class)
{
    fv_text text = {0};
    tick_text(a, value, &text);
    page_svg_text(m, x, y, css_class, "%s", page_markup_words(m, &text));
    fv_text_free(&text);
}

static double label_width(page_markup *m, const page_axis *a, double value)
{
    fv_text text = {0};
    tick_text(a, value, &text);
    const char *words = page_markup_words(m, &text);
    const double width = page_svg_width(words, strlen(words), LABEL, false);
    fv_text_free(&text);
    return width;
}

static void draw_grid(page_markup *m, fv_text *grid)
{
    if (grid->length > 0 || grid->failed)
        page_svg_path(m, page_markup_words(m, grid), "grid");
    fv_text_free(grid);
}

static void draw_x_axis(page_markup *m, const page_plot *p)
{
    double bottom = p->top + p->height, taken = -INFINITY; /* up to where words stand */
    fv_text grid = {0};
    for (size_t i = 0; i < tick_count(&p->x); i++) {
        double value = first_tick(&p->x) + p->x.step * (double)i;
        double x = page_plot_at(p, value, p->y.from).x;
        fv_text_add(&grid, "M%.1f %.1fV%.1f", x, p->top, bottom + 4.0);
        bool at_end = x > p->left + p->width - 12.0; /* half the words would lie outside the drawing */
        const double width = label_width(m, &p->x, value), right = at_end ? p->left + p->width + 6.0 : x + 0.5 * width;
        if (right - width < taken + LABEL_GAP)
            continue;
        tick_label(m, &p->x, value, at_end ? right : x, bottom + 15.0, at_end ? "e" : "m");
        taken = right;
    }
    draw_grid(m, &grid);
    if (p->x.name)
        page_svg_text(m, p->left + p->width, bottom + 30.0, "e name", "%s", p->x.name);
}

static void draw_y_axis(page_markup *m, const page_plot *p)
{
    fv_text grid = {0};
    for (size_t i = 0; i < tick_count(&p->y); i++) {
        double value = p->y.from + p->y.step * (double)i;
        double y = page_plot_at(p, p->x.from, value).y;
        fv_text_add(&grid, "M%.1f %.1fH%.1f", p->left - (p->y.bare ? 0.0 : 4.0), y, p->left + p->width);
        if (!p->y.bare)
            tick_label(m, &p->y, value, p->left - 7.0, y + 4.0, "e");
    }
    draw_grid(m, &grid);
    if (p->y.name)
        page_svg_text(m, 2.0, p->top - 9.0, "name", "%s", p->y.name);
}

void page_plot_begin(page_markup *m, const page_plot *p, const char *css_class)
{
    page_markup_open(m, "g", "class", css_class, NULL);
    page_markup_attr(m, "data-box", "%.1f %.1f %.1f %.1f", p->left, p->top, p->width, p->height);
    page_markup_attr(m, "data-x", "%.6g %.6g%s", p->x.from, p->x.to, p->x.kind == AXIS_TIME ? " h" : "");
    page_markup_attr(m, "data-y", "%.6g %.6g", p->y.from, p->y.to);
    if (p->x.kind == AXIS_TIME && !isnan(p->x.clock))
        page_markup_attr(m, "data-clock", "%.6g", p->x.clock);
    if (p->x.name)
        page_markup_attr(m, "data-xname", "%s", p->x.name);
    if (p->y.name)
        page_markup_attr(m, "data-yname", "%s", p->y.name);
    page_svg_rect(m, p->left, p->top, p->width, p->height, "field");
    draw_y_axis(m, p);
    draw_x_axis(m, p);
    fv_text axes = {0};
    fv_text_add(&axes, "M%.1f %.1fV%.1fH%.1f", p->left, p->top, p->top + p->height, p->left + p->width);
    page_svg_path(m, page_markup_words(m, &axes), "axis");
    fv_text_free(&axes);
}

void page_plot_end(page_markup *m)
{
    page_markup_close(m);
}

/* ---- curves ---- */

/* Marks the points to keep between first and last: those that leave the straight line by more than `slack`
 * (Ramer-Douglas-Peucker). */
static void thin(const page_svg_point *points, bool *keep, size_t first, size_t last, double slack)
{
    double worst = slack;
    size_t at = 0;
    double dx = points[last].x - points[first].x, dy = points[last].y - points[first].y, length = hypot(dx, dy);
    for (size_t i = first + 1; i < last; i++) {
        double ex = points[i].x - points[first].x, ey = points[i].y - points[first].y;
        double off = length > 0.0 ? fabs(dx * ey - dy * ex) / length : hypot(ex, ey);
        if (off > worst) {
            worst = off;
            at = i;
        }
    }
    if (at == 0)
        return;
    keep[at] = true;
    thin(points, keep, first, at, slack);
    thin(points, keep, at, last, slack);
}

static void draw_piece(page_markup *m, const page_svg_point *points, size_t count, bool *keep)
{
    static const double slack = 0.25;
    fv_text list = {0};
    memset(keep, 0, count * sizeof *keep);
    keep[0] = keep[count - 1] = true;
    thin(points, keep, 0, count - 1, slack);
    for (size_t i = 0; i < count; i++)
        if (keep[i])
            page_svg_add_point(&list, points[i]);
    if (list.text && !list.failed)
        list.text[list.length - 1] = '\0';
    page_markup_void(m, "polyline", "points", page_markup_words(m, &list), NULL);
    fv_text_free(&list);
}

static void draw_markers(page_markup *m, const page_svg_point *points, size_t count)
{
    for (size_t i = 0; i < count; i++)
        page_svg_circle(m, points[i].x, points[i].y, 2.2, "dot");
}

/* Where the line from point i - 1 to point i passes x. */
static page_svg_point at_edge(const page_plot *p, const page_plot_curve *curve, size_t i, double x)
{
    double share = (x - curve->x[i - 1]) / (curve->x[i] - curve->x[i - 1]);
    return page_plot_at(p, x, curve->y[i - 1] + share * (curve->y[i] - curve->y[i - 1]));
}

static bool outside(const page_plot *p, double x)
{
    static const double slack = 1e-9;
    double width = p->x.to - p->x.from;
    return x < p->x.from - slack * width || x > p->x.to + slack * width;
}

/* Points of one unbroken piece from number *i on, cut where it enters and leaves the plot; *i: behind it. */
static size_t take_piece(const page_plot *p, const page_plot_curve *curve, size_t *i, page_svg_point *points)
{
    size_t filled = 0, at = *i;
    for (; at < curve->count && !isnan(curve->y[at]); at++) {
        bool linked = at > *i, out = outside(p, curve->x[at]), was_out = linked && outside(p, curve->x[at - 1]);
        if (!out && was_out && curve->x[at - 1] < p->x.from)
            points[filled++] = at_edge(p, curve, at, p->x.from);
        if (!out)
            points[filled++] = page_plot_at(p, curve->x[at], curve->y[at]);
        if (out && linked && !was_out && curve->x[at] > p->x.to)
            points[filled++] = at_edge(p, curve, at, p->x.to);
    }
    *i = at + 1;
    return filled;
}

void page_plot_draw(page_markup *m, const page_plot *p, const page_plot_curve *curve)
{
    page_svg_point *points = malloc((curve->count + 3) * sizeof *points);
    bool *keep = malloc((curve->count + 3) * sizeof *keep);
    page_markup_open(m, "g", "class", curve->css_class, "data-vessel", curve->vessel, NULL);
    page_markup_leaf(m, "title", curve->name, NULL);
    for (size_t i = 0; points && keep && i < curve->count;) {
        size_t filled = take_piece(p, curve, &i, points);
        if (filled > 1)
            draw_piece(m, points, filled, keep);
        if (curve->markers)
            draw_markers(m, points, filled);
    }
    page_markup_close(m);
    if (!points || !keep)
        page_markup_fail(m);
    free(points);
    free(keep);
}

void page_plot_level(page_markup *m, const page_plot *p, double y, const char *css_class, const char *word)
{
    if (isnan(y) || y < p->y.from || y > p->y.to)
        return;
    page_svg_point left = page_plot_at(p, p->x.from, y), right = page_plot_at(p, p->x.to, y);
    page_svg_line(m, left, right, css_class);
    if (word)
        page_svg_text(m, left.x + 5.0, left.y - 3.5, "halo", "%s", word);
}

void page_plot_moment(page_markup *m, const page_plot *p, double x, const char *css_class)
{
    if (isnan(x) || x < p->x.from || x > p->x.to)
        return;
    page_svg_line(m, page_plot_at(p, x, p->y.from), page_plot_at(p, x, p->y.to), css_class);
}

double page_plot_keys(page_markup *m, double left, double top, double width, const page_plot_key *keys, size_t count)
{
    enum { ROW = 17, SAMPLE = 24, GAP = 14 };
    double x = left, y = top;
    for (size_t i = 0; i < count; i++) {
        double takes = SAMPLE + 5.0 + page_svg_width(keys[i].name, strlen(keys[i].name), 11.0, false) + GAP;
        if (x > left && x + takes - GAP > left + width) {
            x = left;
            y += ROW;
        }
        if (m) {
            page_svg_group(m, 0, 0, keys[i].css_class);
            page_svg_line(m, (page_svg_point){x, y + 6.0}, (page_svg_point){x + SAMPLE, y + 6.0}, "sample");
            page_markup_close(m);
            page_svg_text(m, x + SAMPLE + 5.0, y + 10.0, NULL, "%s", keys[i].name);
        }
        x += takes;
    }
    return y - top + ROW;
}
