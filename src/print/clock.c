/* SPDX-License-Identifier: MIT */
/* Times of a run as people read them: on the grower's clock where it is known, else since the start. */
#include "report/heat/report.h"

#include <math.h>
#include <stdio.h>

enum { MINUTES_A_DAY = 1440, MINUTES_AN_HOUR = 60, HOURS_TO_NOON = 12 };

typedef struct {
    int day, hour, minute;
} clock_time;

static clock_time read_clock(const report_heat *heat, double time)
{
    long minutes = lround((heat->clock + time) / 60.0);
    long of_day = minutes % MINUTES_A_DAY;
    return (clock_time){(int)(minutes / MINUTES_A_DAY), (int)(of_day / MINUTES_AN_HOUR),
                        (int)(of_day % MINUTES_AN_HOUR)};
}

/* "06:20", or "6:20 am" where the start was said so. */
static print_shown face(const report_heat *heat, clock_time t)
{
    print_shown shown;
    int hour = t.hour % HOURS_TO_NOON;
    if (heat->twelve_hours)
        snprintf(shown.text, sizeof shown.text, "%d:%02d %s", hour ? hour : HOURS_TO_NOON, t.minute,
                 t.hour < HOURS_TO_NOON ? "am" : "pm");
    else
        snprintf(shown.text, sizeof shown.text, "%02d:%02d", t.hour, t.minute);
    return shown;
}

print_shown report_hours(double seconds)
{
    print_shown shown = {"-"};
    if (isnan(seconds))
        return shown;
    long minutes = lround(seconds / 60.0);
    snprintf(shown.text, sizeof shown.text, "%ld:%02ld", minutes / MINUTES_AN_HOUR, minutes % MINUTES_AN_HOUR);
    return shown;
}

print_shown report_when(const report_heat *heat, double time)
{
    if (isnan(time) || isnan(heat->clock))
        return report_hours(time);
    clock_time t = read_clock(heat, time);
    print_shown shown = face(heat, t), with_day;
    if (t.day == 0)
        return shown;
    snprintf(with_day.text, sizeof with_day.text, "day %d %.20s", t.day + 1, shown.text);
    return with_day;
}

static print_shown in_words(const report_heat *heat, const char *preposition, double time)
{
    print_shown shown;
    if (isnan(heat->clock)) {
        snprintf(shown.text, sizeof shown.text, "after %.40s", print_shown_time(time).text);
        return shown;
    }
    clock_time t = read_clock(heat, time);
    print_shown hour = face(heat, t);
    if (t.day == 0)
        snprintf(shown.text, sizeof shown.text, "%s %.20s", preposition, hour.text);
    else if (t.day == 1)
        snprintf(shown.text, sizeof shown.text, "%s %.20s the next day", preposition, hour.text);
    else
        snprintf(shown.text, sizeof shown.text, "%s %.20s %d days later", preposition, hour.text, t.day);
    return shown;
}

print_shown report_at(const report_heat *heat, double time)
{
    return in_words(heat, "at", time);
}

print_shown report_by(const report_heat *heat, double time)
{
    return in_words(heat, "by", time);
}

print_shown report_after(const report_heat *heat, double took, double time)
{
    print_shown shown, duration = print_shown_time(took);
    if (isnan(heat->clock))
        return duration;
    snprintf(shown.text, sizeof shown.text, "%.40s (%.20s)", duration.text, report_when(heat, time).text);
    return shown;
}
