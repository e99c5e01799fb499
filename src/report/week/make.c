/* SPDX-License-Identifier: MIT */
/* The timetable's lines. */
#include "report/week/report.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const days[] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};

/* Whether all that take after the same are of this kind, and more than one. */
static bool share_a_name(const fv_week_answer *a, size_t kind, const char *like)
{
    size_t alike = 0;
    for (size_t i = 0; like && i < a->plant->vessel_count; i++) {
        const char *other = a->plant->vessels[i]->part.like;
        const bool same_name = other && strcmp(other, like) == 0;
        if (same_name != (a->kind_of[i] == kind))
            return false;
        alike += same_name;
    }
    return alike > 1;
}

const char *report_week_kind(const fv_week_answer *a, size_t kind, char *buffer, size_t size)
{
    buffer[0] = 0;
    for (size_t i = 0; i < a->plant->vessel_count && a->problem.kind_count > 1 && !buffer[0]; i++) {
        const fv_part *part = &a->plant->vessels[i]->part;
        if (a->kind_of[i] == kind)
            snprintf(buffer, size, "%s", share_a_name(a, kind, part->like) ? part->like : part->id);
    }
    return buffer;
}

const char *report_week_batch(const fv_week_answer *a, size_t batch, char *buffer, size_t size)
{
    char kind[REPORT_WEEK_WHICH];
    buffer[0] = 0;
    for (size_t k = 0, used = 0; k < a->problem.kind_count && a->problem.kind_count > 1 && used < size; k++) {
        const size_t of = a->problem.batch[batch].of[k];
        if (of == 0)
            continue;
        const char *name = report_week_kind(a, k, kind, sizeof kind), *between = used > 0 ? ", " : "";
        const int more = of == 1 ? snprintf(buffer + used, size - used, "%s%s", between, name)
                                 : snprintf(buffer + used, size - used, "%s%zu x %s", between, of, name);
        used += more > 0 ? (size_t)more : 0;
    }
    return buffer;
}

static report_week_line line_of(const fv_week_answer *a, const fv_week_entry *entry)
{
    const fv_week_problem *p = &a->problem;
    const fv_week_task task = p->task[entry->what];
    const size_t day = entry->slot / p->slots_a_day;
    report_week_line line = {.day = days[day],
                             .task = fv_week_word(entry->what),
                             .begins = (double)(entry->slot % p->slots_a_day) * a->options.slot,
                             .takes = (double)task.slots * a->options.slot,
                             .vessels = entry->what == FV_TASK_LIGHT ? fv_week_batch_vessels(p, entry->vessel) : 1,
                             .people = task.people,
                             .day_number = day};
    if (entry->what == FV_TASK_LIGHT)
        report_week_batch(a, entry->vessel, line.which, sizeof line.which);
    else
        report_week_kind(a, fv_week_kind_of(p, entry->vessel), line.which, sizeof line.which);
    return line;
}

/* The line that stands for the same task at the same time already. */
static report_week_line *same(report_week *week, const report_week_line *line)
{
    for (size_t i = week->line_count; i-- > 0;) {
        report_week_line *other = &week->lines[i];
        if (other->day_number != line->day_number || other->begins != line->begins)
            return NULL;
        if (other->task == line->task && strcmp(other->which, line->which) == 0)
            return other;
    }
    return NULL;
}

/* The first line of a day; line_count where there is none. */
static size_t first_of(const report_week *week, size_t day)
{
    size_t i = 0;
    while (i < week->line_count && week->lines[i].day_number < day)
        i++;
    return i;
}

static bool days_are_alike(const report_week *week, size_t one, size_t other)
{
    const size_t a = first_of(week, one), b = first_of(week, other), count = first_of(week, one + 1) - a;
    bool alike = first_of(week, other + 1) - b == count;
    for (size_t i = 0; alike && i < count; i++) {
        const report_week_line *x = &week->lines[a + i], *y = &week->lines[b + i];
        alike = x->task == y->task && x->begins == y->begins && x->vessels == y->vessels && x->people == y->people &&
                strcmp(x->which, y->which) == 0;
    }
    return alike;
}

static void group_days(report_week *week)
{
    for (size_t day = 0, last; day < FV_WEEK_DAYS; day = last + 1) {
        for (last = day; last + 1 < FV_WEEK_DAYS && days_are_alike(week, day, last + 1);)
            last++;
        snprintf(week->days[day], sizeof week->days[day], last > day ? "%s-%s" : "%s", days[day], days[last]);
        for (size_t i = first_of(week, day); i < first_of(week, day + 1); i++) {
            report_week_line *line = &week->groups[week->group_count++];
            *line = week->lines[i];
            line->day = week->days[day];
        }
    }
}

bool report_week_make(const fv_week_answer *answer, const fv_report_options *options, report_week *week)
{
    *week = (report_week){.answer = answer, .units = options->units, .twelve_hours = options->twelve_hours};
    week->lines = calloc(answer->plan.entry_count + 1, sizeof *week->lines);
    for (size_t i = 0; week->lines && i < answer->plan.entry_count; i++) {
        const report_week_line line = line_of(answer, &answer->plan.entries[i]);
        report_week_line *there = same(week, &line);
        if (there) {
            there->vessels += line.vessels;
            there->people += line.people;
        } else {
            week->lines[week->line_count++] = line;
        }
    }
    week->groups = calloc(week->line_count + 1, sizeof *week->groups);
    if (week->lines && week->groups)
        group_days(week);
    return week->lines && week->groups;
}

void report_week_free(report_week *week)
{
    free(week->lines);
    free(week->groups);
}

const char *report_week_time(const report_week *week, double begins, char *buffer, size_t size)
{
    const int minutes = (int)(begins / 60.0 + 0.5), hour = minutes / 60;
    if (week->twelve_hours)
        snprintf(buffer, size, "%d:%02d %s", (hour + 11) % 12 + 1, minutes % 60, hour < 12 ? "am" : "pm");
    else
        snprintf(buffer, size, "%02d:%02d", hour, minutes % 60);
    return buffer;
}

const char *report_week_when(const report_week *week, double s, char *buffer, size_t size)
{
    const double minute = 60.0 * floor(fmod(s + 7.0 * 86400.0, 7.0 * 86400.0) / 60.0 + 0.5);
    char time[16];
    const size_t day = (size_t)(minute / 86400.0);
    snprintf(buffer, size, "%s %s", days[day % 7],
             report_week_time(week, minute - 86400.0 * (double)day, time, sizeof time));
    return buffer;
}
