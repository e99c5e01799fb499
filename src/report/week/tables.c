/* SPDX-License-Identifier: MIT */
/* What stands in the tables of the week answer. */
#include "report/week/report.h"
#include "print/clock.h"
#include "print/fields.h"

#include <math.h>
#include <stdio.h>

static const report_week *week(const void *answer)
{
    return answer;
}

/* ---- timetable ---- */

static const report_week_line *line(const void *answer, size_t i)
{
    return &week(answer)->lines[i];
}
ROWS(lines, week(answer)->line_count)
ROW(line_row, line(answer, i))
static const report_week_line *group(const void *answer, size_t i)
{
    return &week(answer)->groups[i];
}
ROWS(groups, week(answer)->group_count)
ROW(group_row, group(answer, i))
WORD_OF(group_time, report_week_time(answer, group(answer, i)->begins, buffer, PRINT_WORD_SIZE))
WORD_OF(group_takes, group(answer, i)->takes > 0.0 ? SHOWN(print_shown_time(group(answer, i)->takes)) : "-")

WORD_OF(line_which, line(answer, i)->which)
WORD_OF(group_which, group(answer, i)->which)

#define L(name, member, unit, where, show) NUMBER(report_week_line, name, member, unit, where, show)
static const print_field line_fields[] = {
    TEXT(report_week_line, "day", day, IN_DATA),
    L("begins", begins, "_s", IN_DATA, FV_SHOW_NUMBER),
    TEXT(report_week_line, "what", task, IN_DATA),
    COUNT(report_week_line, "vessels", vessels, IN_DATA),
    COUNT(report_week_line, "people", people, IN_DATA),
    L("takes", takes, "_s", IN_DATA, FV_SHOW_NUMBER),
    WORD("which", IN_DATA, line_which),
};
static const print_field group_fields[] = {
    TEXT(report_week_line, "day", day, IN_TEXT),        WORD("time", IN_TEXT, group_time),
    TEXT(report_week_line, "what", task, IN_TEXT),      COUNT(report_week_line, "vessels", vessels, IN_TEXT),
    COUNT(report_week_line, "people", people, IN_TEXT), WORD("takes", IN_TEXT, group_takes),
    WORD("which", IN_TEXT_SAID, group_which),
};

/* ---- batches ---- */

static const fv_week_run *run(const void *answer, size_t i)
{
    return &week(answer)->answer->runs[i + 1];
}
static size_t times_of(const fv_week_answer *a, size_t batch)
{
    size_t times = 0;
    for (size_t i = 0; i < a->plan.entry_count; i++)
        times += a->plan.entries[i].what == FV_TASK_LIGHT && a->plan.entries[i].vessel == batch;
    return times;
}
static const char *count_shown(size_t count, char *buffer)
{
    snprintf(buffer, PRINT_WORD_SIZE, "%zu", count);
    return buffer;
}
static size_t vessels_of(const void *answer, size_t i)
{
    return fv_week_batch_vessels(&week(answer)->answer->problem, i + 1);
}
ROWS(runs, fv_week_batches(&week(answer)->answer->problem))
ROW(run_row, run(answer, i))
WORD_OF(run_which, report_week_batch(week(answer)->answer, i + 1, buffer, PRINT_WORD_SIZE))
WORD_OF(run_size, count_shown(vessels_of(answer, i), buffer))
WORD_OF(run_times, count_shown(times_of(week(answer)->answer, i + 1), buffer))
NUMBER_OF(run_size_number, (double)vessels_of(answer, i))
NUMBER_OF(run_times_number, (double)times_of(week(answer)->answer, i + 1))
WORD_OF(run_core, SHOWN(print_hours(run(answer, i)->last_core)))
WORD_OF(run_steam, SHOWN(print_hours(run(answer, i)->steam_end)))
WORD_OF(run_cool, SHOWN(print_hours(run(answer, i)->cool)))
WORD_OF(run_why, run(answer, i)->why ? run(answer, i)->why : "")

#define B(name, member, unit, where, show) NUMBER(fv_week_run, name, member, unit, where, show)
static const print_field run_fields[] = {
    CELL("vessels", "", IN_DATA, FV_SHOW_NUMBER, run_size_number),
    WORD("vessels", IN_TEXT, run_size),
    CELL("times", "", IN_DATA, FV_SHOW_NUMBER, run_times_number),
    WORD("times_a week", IN_TEXT, run_times),
    WORD("last_core", IN_TEXT, run_core),
    B("last_core", last_core, "_s", IN_DATA, FV_SHOW_NUMBER),
    WORD("steam_shut", IN_TEXT, run_steam),
    B("steam_end", steam_end, "_s", IN_DATA, FV_SHOW_NUMBER),
    WORD("cooled", IN_TEXT, run_cool),
    B("cool", cool, "_s", IN_DATA, FV_SHOW_NUMBER),
    B("treated", kg, "_kg", IN_ALL, FV_SHOW_MASS),
    B("fuel", fuel, "_j", IN_ALL, FV_SHOW_ENERGY),
    B("water", water, "_kg", IN_ALL, FV_SHOW_WATER),
    FLAG(fv_week_run, "works", works, IN_DATA),
    WORD("which", IN_DATA | IN_TEXT_SAID, run_which),
    WORD("not", IN_DATA | IN_TEXT_SAID, run_why),
};

/* ---- one more of each; and what nothing can exceed ---- */

static const char *first_of_kind(const fv_week_answer *a, size_t kind)
{
    size_t i = 0;
    while (i + 1 < a->plant->vessel_count && a->kind_of[i] != kind)
        i++;
    return a->plant->vessels[i]->part.id;
}

const char *report_week_more(const report_week *w, fv_week_more more, char buffer[PRINT_WORD_SIZE])
{
    const double output = w->answer->boiler_output;
    switch (more) {
    case FV_WEEK_MORE_VESSELS:
        if (w->answer->problem.kind_count < 2)
            return "one more vessel";
        snprintf(buffer, PRINT_WORD_SIZE, "one more vessel like %s", first_of_kind(w->answer, w->answer->more_kind));
        return buffer;
    case FV_WEEK_MORE_BOILER:
        snprintf(buffer, PRINT_WORD_SIZE, "boilers of %s in all",
                 print_shown_brief(w->units, FV_SHOW_POWER, output).text);
        return buffer;
    case FV_WEEK_MORE_CREW:
        return "an hour more in the evening";
    case FV_WEEK_MORE_PEOPLE:
        return "one more person";
    default:
        return "cooling in half the time";
    }
}
ROWS(gains, FV_WEEK_MORES)
WORD_OF(gain_what, report_week_more(answer, (fv_week_more)i, buffer))
WORD_OF(gain_word, fv_week_more_word((fv_week_more)i))
NUMBER_OF(gain_kg, week(answer)->answer->gain[i])
static const print_field gain_fields[] = {
    WORD("more", IN_DATA, gain_word),
    WORD("one_more", IN_TEXT, gain_what),
    CELL("brings_a week", "_kg", IN_TEXT, FV_SHOW_MASS, gain_kg),
    CELL("gain", "_kg", IN_DATA, FV_SHOW_MASS, gain_kg),
};

ROWS(bounds, 4)
WORD_OF(bound_by, fv_week_limit_word((fv_week_limit)i))
NUMBER_OF(bound_kg, week(answer)->answer->plan.bound[i])
static const print_field bound_fields[] = {
    WORD("by", IN_ALL, bound_by),
    CELL("at_most", "_kg", IN_ALL, FV_SHOW_MASS, bound_kg),
};

/* ---- batches as they might turn out ---- */

static const fv_week_spread *spread(const void *answer, size_t i)
{
    return &week(answer)->answer->odds.spread[i + 1];
}
/* "never" where so many runs do not end. */
static const char *hours_or_never(double seconds, char *buffer)
{
    return isfinite(seconds) ? SHOWN(print_hours(seconds)) : "never";
}
ROWS(spreads, week(answer)->answer->odds.runs > 0 ? fv_week_batches(&week(answer)->answer->problem) : 0)
ROW(spread_row, spread(answer, i))
WORD_OF(spread_size, count_shown(vessels_of(answer, i), buffer))
NUMBER_OF(spread_size_number, (double)vessels_of(answer, i))
WORD_OF(spread_low, hours_or_never(spread(answer, i)->steam[0], buffer))
WORD_OF(spread_middle, hours_or_never(spread(answer, i)->steam[1], buffer))
WORD_OF(spread_high, hours_or_never(spread(answer, i)->steam[2], buffer))
WORD_OF(spread_cool_high, hours_or_never(spread(answer, i)->cool[2], buffer))
WORD_OF(spread_ends, SHOWN(print_shown_brief(week(answer)->units, FV_SHOW_SHARE, spread(answer, i)->ends)))
static const print_field spread_fields[] = {
    CELL("vessels", "", IN_DATA, FV_SHOW_NUMBER, spread_size_number),
    WORD("vessels", IN_TEXT, spread_size),
    WORD("steam shut,_1 in 10", IN_TEXT, spread_low),
    WORD("half_of them", IN_TEXT, spread_middle),
    WORD("9 in 10_(planned)", IN_TEXT, spread_high),
    WORD("cool after,_9 in 10", IN_TEXT, spread_cool_high),
    WORD("come to_an end", IN_TEXT, spread_ends),
    NUMBER(fv_week_spread, "steam_low", steam[0], "_s", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_week_spread, "steam_middle", steam[1], "_s", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_week_spread, "steam_high", steam[2], "_s", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_week_spread, "cool_low", cool[0], "_s", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_week_spread, "cool_middle", cool[1], "_s", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_week_spread, "cool_high", cool[2], "_s", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_week_spread, "ends", ends, "", IN_DATA, FV_SHOW_NUMBER),
    WORD("which", IN_DATA | IN_TEXT_SAID, run_which),
};

const print_table report_week_tables[WEEK_ALL_TABLES] = {
    [WEEK_TIMETABLE] = {"timetable", FIELDS(line_fields), lines, line_row, NULL},
    [WEEK_BATCHES] = {"batches", FIELDS(run_fields), runs, run_row, NULL},
    [WEEK_GAINS] = {"gains", FIELDS(gain_fields), gains, NULL, NULL},
    [WEEK_SPREAD] = {"spread", FIELDS(spread_fields), spreads, spread_row, NULL},
    [WEEK_GROUPS] = {"groups", FIELDS(group_fields), groups, group_row, NULL},
    [WEEK_BOUNDS] = {"bounds", FIELDS(bound_fields), bounds, NULL, NULL},
};
