/* SPDX-License-Identifier: MIT */
#include "print/clock.h"

#include <math.h>
#include <stdio.h>

enum { MINUTES_A_DAY = 1440, MINUTES_AN_HOUR = 60, HOURS_TO_NOON = 12 };

typedef struct {
    int day, hour, minute;
} clock_time;

static clock_time read_clock(const print_clock *clock, double time)
{
    long minutes = lround((clock->start + time) / 60.0);
    long of_day = minutes % MINUTES_A_DAY;
    return (clock_time){(int)(minutes / MINUTES_A_DAY), (int)(of_day / MINUTES_AN_HOUR),
                        (int)(of_day % MINUTES_AN_HOUR)};
}

/* "06:20", or "6:20 am" where the start was said so. */
static print_shown face(const print_clock *clock, clock_time t)
{
    print_shown shown;
    int hour = t.hour % HOURS_TO_NOON;
    if (clock->twelve_hours)
        snprintf(shown.text, sizeof shown.text, "%d:%02d %s", hour ? hour : HOURS_TO_NOON, t.minute,
                 t.hour < HOURS_TO_NOON ? "am" : "pm");
    else
        snprintf(shown.text, sizeof shown.text, "%02d:%02d", t.hour, t.minute);
    return shown;
}

print_shown print_hours(double seconds)
{
    print_shown shown = {"-"};
    if (isnan(seconds))
        return shown;
    long minutes = lround(seconds / 60.0);
    snprintf(shown.text, sizeof shown.text, "%ld:%02ld", minutes / MINUTES_AN_HOUR, minutes % MINUTES_AN_HOUR);
    return shown;
}

print_shown print_when(const print_clock *clock, double time)
{
    if (isnan(time) || isnan(clock->start))
        return print_hours(time);
    clock_time t = read_clock(clock, time);
    print_shown shown = face(clock, t), with_day;
    if (t.day == 0)
        return shown;
    snprintf(with_day.text, sizeof with_day.text, "day %d %.20s", t.day + 1, shown.text);
    return with_day;
}

static print_shown in_words(const print_clock *clock, const char *preposition, double time)
{
    print_shown shown;
    if (isnan(clock->start)) {
        snprintf(shown.text, sizeof shown.text, "after %.40s", print_shown_time(time).text);
        return shown;
    }
    clock_time t = read_clock(clock, time);
    print_shown hour = face(clock, t);
    if (t.day == 0)
        snprintf(shown.text, sizeof shown.text, "%s %.20s", preposition, hour.text);
    else if (t.day == 1)
        snprintf(shown.text, sizeof shown.text, "%s %.20s the next day", preposition, hour.text);
    else
        snprintf(shown.text, sizeof shown.text, "%s %.20s %d days later", preposition, hour.text, t.day);
    return shown;
}

print_shown print_at(const print_clock *clock, double time)
{
    return in_words(clock, "at", time);
}

print_shown print_by(const print_clock *clock, double time)
{
    return in_words(clock, "by", time);
}

print_shown print_after(const print_clock *clock, double took, double time)
{
    print_shown shown, duration = print_shown_time(took);
    if (isnan(clock->start))
        return duration;
    snprintf(shown.text, sizeof shown.text, "%.40s (%.20s)", duration.text, print_when(clock, time).text);
    return shown;
}
