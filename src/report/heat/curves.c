/* SPDX-License-Identifier: MIT */
/* A small curve for each vessel, two beside each other, in plain ASCII: '#' the core, ':' the chamber. The line below
 * them is '-' while the steam is on and '=' while the core is held. */
#include "report/heat/report.h"
#include "print/screen.h"

#include <math.h>
#include <string.h>

enum { MOST_ROWS = 12, LABEL = 7, NARROW = 33, WIDE = 70, GAP = 3, SHOWN_AT_MOST = 8 };
#define HOUR 3600.0
#define BEYOND 1.1 /* of the time until the last thing happens */

typedef struct {
    double from, step; /* lowest row and distance of rows, in the unit shown */
    int rows;
} scale;

typedef struct {
    const report_heat *heat;
    scale y;
    double span; /* s from left to right */
    int width;   /* columns of each curve */
} canvas;

static double shown(const report_heat *heat, double kelvin)
{
    return fv_show_value(heat->units, FV_SHOW_TEMPERATURE, kelvin);
}

/* Rows 20 degC or 40 degF apart, wider where there would be too many. */
static scale find_scale(const report_heat *heat)
{
    const fv_series *s = &heat->result->series;
    size_t n = s->count * heat->result->vessel_count;
    double low = INFINITY, high = shown(heat, heat->result->boiling_point);
    for (size_t i = 0; i < n; i++) {
        low = fmin(low, shown(heat, fmin(s->core[i], s->chamber[i])));
        high = fmax(high, shown(heat, fmax(s->core[i], s->chamber[i])));
    }
    scale y = {.step = heat->units == FV_US ? 40.0 : 20.0};
    do {
        y.from = y.step * floor(low / y.step + 0.5);
        y.rows = (int)(ceil(high / y.step - 0.5) - floor(low / y.step + 0.5)) + 1;
        y.step *= y.rows > MOST_ROWS ? 2.0 : 1.0;
    } while (y.rows > MOST_ROWS);
    return y;
}

double report_heat_steam_gone(const fv_heat_result *r)
{
    double last = 0.0;
    for (size_t i = 0; i < r->boiler_count; i++)
        last = isnan(r->boilers[i].dry) ? INFINITY : fmax(last, r->boilers[i].dry);
    for (size_t i = 0; i < r->event_count; i++)
        if (r->events[i].kind == FV_HEAT_EVENT_REFILLED && r->events[i].time >= last)
            return INFINITY;
    return last;
}

double report_heat_waits_until(const fv_heat_result *r)
{
    static const double after = 4.0; /* times that it took */
    return fmin(r->end, after * report_heat_steam_gone(r));
}

/* As far as anything happens but cooling, and a little more, in whole even hours, so that the middle is a whole hour.
 */
static double find_span(const report_heat *heat)
{
    const fv_heat_result *r = heat->result;
    double end = 0.0;
    for (size_t i = 0; i < r->event_count; i++)
        if (r->events[i].kind != FV_HEAT_EVENT_COOL && r->events[i].kind != FV_HEAT_EVENT_SETTLED)
            end = fmax(end, r->events[i].time);
    for (size_t i = 0; i < r->vessel_count; i++) {
        const fv_vessel_history *h = &r->vessels[i];
        bool open_end = heat->outcomes[i] == OUTCOME_NEVER || heat->outcomes[i] == OUTCOME_PENDING;
        end = fmax(end, open_end ? report_heat_waits_until(r) : fmax(h->core, h->hold)); /* fmax leaves NaN aside */
    }
    end = fmin(BEYOND * end, r->end);
    return 2.0 * HOUR * fmax(1.0, ceil(end / (2.0 * HOUR)));
}

static int row_of(const scale *y, double value)
{
    return (int)lround((value - y->from) / y->step);
}

static char spot(const canvas *c, size_t vessel, int column, int row)
{
    const fv_series *s = &c->heat->result->series;
    size_t n = c->heat->result->vessel_count;
    double time = ((double)column + 0.5) * c->span / (double)c->width;
    double core = report_series_at(c->heat, s->core, n, vessel, time);
    double chamber = report_series_at(c->heat, s->chamber, n, vessel, time);
    if (isnan(core))
        return ' ';
    if (row_of(&c->y, shown(c->heat, core)) == row)
        return '#';
    return row_of(&c->y, shown(c->heat, chamber)) == row ? ':' : ' ';
}

/* '=' from the core's arrival to the end of its hold, '-' from steam on to when it is shut. */
static char ground(const canvas *c, size_t vessel, int column)
{
    const fv_heat_result *r = c->heat->result;
    const fv_vessel_history *h = &r->vessels[vessel];
    double time = ((double)column + 0.5) * c->span / (double)c->width;
    double shut = fmin(isnan(h->hold) ? r->steam_end : h->hold, report_heat_steam_gone(r));
    double broken = isnan(h->hold_broken) ? shut : h->hold_broken;
    if (time >= h->core && time < fmin(shut, broken))
        return '=';
    return time >= h->steam_on && time < shut ? '-' : '.';
}

static void put_curve(const canvas *c, size_t vessel, int row, fv_text *out)
{
    char line[WIDE + 1];
    for (int column = 0; column < c->width; column++)
        line[column] = row < 0 ? ground(c, vessel, column) : spot(c, vessel, column, row);
    line[c->width] = '\0';
    fv_text_add(out, "%s", line);
}

static void put_title(const canvas *c, size_t vessel, fv_text *out)
{
    const char *id = c->heat->result->plant->vessels[vessel]->part.id,
               *word = report_outcome_shown(c->heat->outcomes[vessel]);
    size_t room = (size_t)c->width - strlen(word) - 2, columns = print_columns(id, strlen(id));
    size_t cut = columns > room ? room : columns;
    fv_text_add(out, "%.*s: %s%*s", (int)print_bytes(id, cut), id, word, (int)(room - cut), "");
}

/* Left, middle and right end of the time axis. */
static void put_times(const canvas *c, fv_text *out)
{
    char line[WIDE + 1];
    print_shown ends[3] = {print_when(&c->heat->clock, 0.0), print_when(&c->heat->clock, c->span / 2.0),
                           print_when(&c->heat->clock, c->span)};
    size_t width = (size_t)c->width, middle = strlen(ends[1].text), right = strlen(ends[2].text);
    memset(line, ' ', width);
    memcpy(line, ends[0].text, strlen(ends[0].text));
    memcpy(line + width / 2 - middle / 2, ends[1].text, middle);
    memcpy(line + width - right, ends[2].text, right);
    line[width] = '\0';
    fv_text_add(out, "%s", line);
}

/* Drops the blanks at the end of a row. */
static void end_row(fv_text *out)
{
    while (!out->failed && out->length > 0 && out->text[out->length - 1] == ' ')
        out->text[--out->length] = '\0';
    fv_text_add(out, "\n");
}

/* One or two vessels beside each other. */
static void put_pair(const canvas *c, const size_t *vessels, size_t count, fv_text *out)
{
    fv_text_add(out, "\n%*s", LABEL, "");
    for (size_t i = 0; i < count; i++) {
        fv_text_add(out, "%*s", i ? GAP : 0, "");
        put_title(c, vessels[i], out);
    }
    end_row(out);
    for (int row = c->y.rows - 1; row >= -1; row--) {
        if (row >= 0)
            fv_text_add(out, "%5.0f |", c->y.from + row * c->y.step);
        else
            fv_text_add(out, "%*s+", LABEL - 1, "");
        for (size_t i = 0; i < count; i++) {
            fv_text_add(out, "%s", i ? row < 0 ? "  +" : "  |" : "");
            put_curve(c, vessels[i], row, out);
        }
        end_row(out);
    }
    fv_text_add(out, "%*s", LABEL, "");
    for (size_t i = 0; i < count; i++) {
        fv_text_add(out, "%*s", i ? GAP : 0, "");
        put_times(c, out);
    }
    end_row(out);
}

/* How much a vessel deserves to be seen: the worse it fares and the later its core, the more. */
static bool is_before(const report_heat *heat, size_t a, size_t b)
{
    if (heat->outcomes[a] != heat->outcomes[b])
        return heat->outcomes[a] < heat->outcomes[b];
    return report_heat_took(heat, a) > report_heat_took(heat, b);
}

/* All that were on the steam, or the worst and the best where they are many; in the plant's order. */
static size_t choose(const report_heat *heat, size_t chosen[SHOWN_AT_MOST])
{
    size_t count = 0, n = heat->result->vessel_count;
    for (size_t i = 0; i < n; i++) {
        size_t ahead = 0, behind = 0;
        if (heat->outcomes[i] == OUTCOME_SHUT)
            continue;
        for (size_t k = 0; k < n; k++) {
            if (k == i || heat->outcomes[k] == OUTCOME_SHUT)
                continue;
            bool first = is_before(heat, k, i) || (!is_before(heat, i, k) && k < i);
            ahead += first;
            behind += !first;
        }
        if (ahead + behind + 1 <= SHOWN_AT_MOST || ahead + 1 < SHOWN_AT_MOST || behind == 0)
            chosen[count++] = i;
    }
    return count;
}

void report_heat_curves(const report_heat *heat, fv_text *out)
{
    size_t chosen[SHOWN_AT_MOST], count = choose(heat, chosen), on_steam = 0;
    for (size_t i = 0; i < heat->result->vessel_count; i++)
        on_steam += heat->outcomes[i] != OUTCOME_SHUT;
    if (count == 0 || heat->result->series.count < 2)
        return;
    canvas c = {heat, find_scale(heat), find_span(heat), count == 1 ? WIDE : NARROW};
    print_section(out, "Curves");
    print_sayf(out, "  ", "%s against time: # core, : chamber; below them - steam on, = held.%s",
               fv_show_unit(heat->units, FV_SHOW_TEMPERATURE),
               on_steam > count ? " Only the worst vessels and the best." : "");
    for (size_t i = 0; i < count; i += 2)
        put_pair(&c, chosen + i, count - i > 1 ? 2 : 1, out);
}
