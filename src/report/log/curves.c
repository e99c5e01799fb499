/* SPDX-License-Identifier: MIT */
/* Readings of each core over time, for the terminal: # read, x left out, - the target. */
#include "print/screen.h"
#include "report/log/report.h"

#include <math.h>
#include <string.h>

enum { WIDE = 60, HIGH = 9, SHOWN = 6 };

typedef struct {
    char cell[HIGH][WIDE + 1];
    double from, to, low, high; /* s; shown temperatures */
} canvas;

static void put(canvas *c, double time, double value, char mark)
{
    const int x = (int)((WIDE - 1) * (time - c->from) / (c->to - c->from) + 0.5);
    const int y = (int)((HIGH - 1) * (value - c->low) / (c->high - c->low) + 0.5);
    if (x < 0 || x >= WIDE || y < 0 || y >= HIGH)
        return;
    char *cell = &c->cell[HIGH - 1 - y][x];
    if (*cell != '#')
        *cell = mark;
}

static void draw(const report_log *log, const fv_log_probe *p, canvas *c)
{
    const fv_probe_readings *r = &p->readings;
    for (int y = 0; y < HIGH; y++) {
        memset(c->cell[y], ' ', WIDE);
        c->cell[y][WIDE] = '\0';
    }
    for (int x = 0; x < WIDE; x++)
        put(c, c->from + (c->to - c->from) * x / (WIDE - 1), fv_show_value(log->units, FV_SHOW_TEMPERATURE, p->target),
            '-');
    for (size_t i = 0; i < r->count; i++)
        if (isfinite(r->value[i]))
            put(c, r->time[i], fv_show_value(log->units, FV_SHOW_TEMPERATURE, r->value[i]),
                r->flaw[i] == FV_READING_GOOD ? '#' : 'x');
}

static void print(const report_log *log, const fv_log_probe *p, canvas *c, size_t probe, fv_text *out)
{
    fv_text_add(out, "\n       %s: %s\n", report_log_place(log, probe).text, report_log_verdict(p->verdict));
    for (int y = 0; y < HIGH; y++) {
        int end = WIDE;
        while (end > 0 && c->cell[y][end - 1] == ' ')
            end--;
        const double level = c->high - (c->high - c->low) * y / (HIGH - 1);
        if (y % 2 == 0)
            fv_text_add(out, "  %4.0f |%.*s\n", level, end, c->cell[y]);
        else
            fv_text_add(out, "       |%.*s\n", end, c->cell[y]);
    }
    fv_text_add(out, "       %-*s%s\n", WIDE - 8, report_log_time(log, c->from).text, report_log_time(log, c->to).text);
}

void report_log_curves(const report_log *log, fv_text *out)
{
    const fv_log_answer *a = log->answer;
    size_t shown = 0;
    canvas c = {.low = log->units == FV_US ? 40 : 0, .high = log->units == FV_US ? 220 : 104};
    if (a->log->count < 2)
        return;
    c.from = a->log->time[0];
    c.to = a->log->time[a->log->count - 1];
    print_section(out, "Curves");
    print_sayf(out, "  ", "%s against time: # read, x left out, - the target.",
               fv_show_unit(log->units, FV_SHOW_TEMPERATURE));
    for (size_t i = 0; i < a->probe_count && shown < SHOWN; i++) {
        if (a->probes[i].readings.at != FV_PROBE_CORE)
            continue;
        draw(log, &a->probes[i], &c);
        print(log, &a->probes[i], &c, i, out);
        shown++;
    }
}
