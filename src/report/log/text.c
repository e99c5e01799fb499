/* SPDX-License-Identifier: MIT */
/* The log answer as a screen. */
#include "print/screen.h"
#include "report/log/report.h"

#include <math.h>

static void add_minutes(print_grid *grid, double low, double as_read, double high)
{
    print_grid_addf(grid, "%.0f", low / 60);
    print_grid_addf(grid, "%.0f", as_read / 60);
    print_grid_addf(grid, "%.0f", high / 60);
}

static void probes(const report_log *log, fv_text *out)
{
    static const print_grid_column columns[] = {{"probe", "", true},          {"first at_target", "", false},
                                                {"held_low", "min", false},   {"as_read", "min", false},
                                                {"held_high", "min", false},  {"of", "min", false},
                                                {"worth_low", "min", false},  {"as_read", "min", false},
                                                {"worth_high", "min", false}, {"verdict", "", true}};
    const fv_log_answer *a = log->answer;
    print_grid *grid = print_grid_new(columns, sizeof columns / sizeof *columns);
    for (size_t i = 0; i < a->probe_count; i++) {
        const fv_log_probe *p = &a->probes[i];
        if (p->readings.at == FV_PROBE_AIR)
            continue;
        print_grid_add(grid, report_log_place(log, i).text);
        print_grid_add(grid, report_log_time(log, p->as_read.first).text);
        add_minutes(grid, p->low.longest, p->as_read.longest, p->high.longest);
        print_grid_addf(grid, "%.0f", p->hold / 60);
        add_minutes(grid, p->low.lethality, p->as_read.lethality, p->high.lethality);
        print_grid_add(grid, report_log_verdict(p->verdict));
    }
    print_grid_section(grid, "Probes", out);
    const fv_log_probe *p = &a->probes[a->coldest >= 0 ? a->coldest : 0];
    print_sayf(out, "  ",
               "held: longest unbroken time at the target. worth: minutes at %s that would do the same, z %s.",
               print_shown_said(log->units, FV_SHOW_TEMPERATURE, p->reference).text,
               print_shown_said(log->units, FV_SHOW_TEMPERATURE_DIFFERENCE, p->z).text);
}

static void rules(const report_log *log, fv_text *out)
{
    static const print_grid_column columns[] = {
        {"rule", "", true}, {"as_read", "times", false}, {"low_end", "times", false}};
    const fv_log_answer *a = log->answer;
    size_t count;
    const fv_log_rule *all = fv_log_rules(&count);
    const fv_log_probe *p = &a->probes[a->coldest];
    print_grid *grid = print_grid_new(columns, sizeof columns / sizeof *columns);
    for (size_t i = 0; i < count; i++) {
        print_grid_add(grid, all[i].what);
        print_grid_addf(grid, "%.2f", p->rules[i].done);
        print_grid_addf(grid, "%.2f", p->rules[i].low);
    }
    print_grid_section(grid, "What others ask, at the coldest probe", out);
    print_sayf(out, "  ",
               "Times what each asks: 1 and more is enough. `--format csv --table rules` names the sources; "
               "whether one applies is for local rules to say.");
}

void report_log_lead(const report_frame *frame, fv_text *out)
{
    const report_log *log = frame->answer;
    const fv_logfile *l = log->answer->log;
    print_sayf(out, "", "%s: %zu rows, %s to %s, one each %s.", l->file, l->count,
               report_log_time(log, l->time[0]).text, report_log_time(log, l->time[l->count - 1]).text,
               print_shown_time(l->interval).text);
}

void report_log_table(const report_frame *frame, fv_text *out)
{
    const report_log *log = frame->answer;
    fv_text line = {0};
    probes(log, out);
    report_log_told(frame, &line);
    if (line.length) {
        print_section(out, "What was left out or put right");
        print_say(out, "  ", &line);
    }
    fv_text_free(&line);
    if (log->answer->coldest >= 0)
        rules(log, out);
    report_log_curves(log, out);
}
