/* SPDX-License-Identifier: MIT */
/* The time of each row, s, by the clock and calendar that the dialect found. Day and month are read in both orders
 * until a date, or the user, settles which. */
#include "datafile/reader.h"

#include <stdio.h>
#include <string.h>

static const double DAY = 86400, HALF_DAY = 43200;

/* Both orders of day and month; NaN: no such date. */
static void days_of(const datafile_stamp *s, double *day_first, double *month_first)
{
    *day_first = datafile_days(s->year, s->second, s->first);
    *month_first = s->named ? *day_first : datafile_days(s->year, s->first, s->second);
}

static bool settle_order(datafile_reader *r, const datafile_stamp *s, int line, double *day_first, double *month_first)
{
    days_of(s, day_first, month_first);
    if (isnan(*day_first) && isnan(*month_first)) {
        datafile_say(r, FV_ERR_INPUT, line, "there is no day %d-%02d-%02d", s->year, s->second, s->first);
        return false;
    }
    if (isnan(*day_first))
        r->day_possible = false;
    if (isnan(*month_first))
        r->month_possible = false;
    if (!r->day_possible && !r->month_possible) {
        datafile_say(r, FV_ERR_INPUT, line, "the date here puts %s first, dates before it the other way round",
                     isnan(*day_first) ? "the month" : "the day");
        return false;
    }
    if (r->ambiguous == 0 && *day_first != *month_first && !isnan(*day_first) && !isnan(*month_first)) {
        r->ambiguous = line;
        snprintf(r->shown, sizeof r->shown, "%d/%d/%d", s->first, s->second, s->year);
    }
    return true;
}

static bool read_stamp(datafile_reader *r, const datafile_row *row, double *day_first, double *month_first)
{
    const datafile_dialect *d = &r->dialect;
    datafile_stamp date, time;
    datafile_stamp_read(row->fields[d->date_column], &date);
    datafile_stamp_read(row->fields[d->time_column], &time);
    if (!settle_order(r, &date, row->line, day_first, month_first))
        return false;
    if (!isnan(time.offset) && isnan(r->first_offset))
        r->first_offset = time.offset;
    const double seconds = time.seconds - (isnan(time.offset) ? 0 : time.offset - r->first_offset);
    *day_first = *day_first * DAY + seconds;
    *month_first = *month_first * DAY + seconds;
    return true;
}

/* Times of day without a date go past midnight when they fall by more than half a day. */
static double read_time_only(datafile_reader *r, const char *text)
{
    datafile_stamp s;
    datafile_stamp_read(text, &s);
    if (s.seconds < r->last_seconds - HALF_DAY)
        r->midnight += DAY;
    r->last_seconds = s.seconds;
    return r->midnight + s.seconds;
}

static bool read_number_time(datafile_reader *r, const datafile_row *row, double *time)
{
    const datafile_dialect *d = &r->dialect;
    const char *text = row->fields[d->time_column];
    datafile_stamp s;
    double value = NAN;
    if (datafile_stamp_read(text, &s) && s.time) {
        *time = s.seconds;
        return true;
    }
    bool comma;
    datafile_number(text, &value, &comma); /* 9999 s is a time, though no reading */
    if (isnan(value)) {
        datafile_say(r, FV_ERR_INPUT, row->line, "'%.40s' is no time", text);
        return false;
    }
    *time = d->clock == DATAFILE_ROWS ? (value - 1) * d->interval : value * d->unit;
    return true;
}

bool datafile_time_read(datafile_reader *r, const datafile_row *row, double *day_first, double *month_first)
{
    switch (r->dialect.clock) {
    case DATAFILE_STAMPS:
    case DATAFILE_DATE_TIME:
        return read_stamp(r, row, day_first, month_first);
    case DATAFILE_TIME_ONLY:
        *day_first = *month_first = read_time_only(r, row->fields[r->dialect.time_column]);
        return true;
    default:
        if (!read_number_time(r, row, day_first))
            return false;
        *month_first = *day_first;
        return true;
    }
}

bool datafile_times_choose(datafile_reader *r)
{
    fv_logfile *log = r->log;
    if (r->options->dates != FV_DATES_UNSAID) {
        const bool possible = r->options->dates == FV_DATES_DAY_FIRST ? r->day_possible : r->month_possible;
        r->day_possible = r->options->dates == FV_DATES_DAY_FIRST;
        if (!possible)
            datafile_say(r, FV_ERR_INPUT, r->dialect.first_line, "--dates %s: there are dates that cannot be read so",
                         r->day_possible ? "day-first" : "month-first");
    } else if (r->day_possible && r->month_possible && r->ambiguous) {
        int a, b, year;
        static const char *const month[] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                            "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
        sscanf(r->shown, "%d/%d/%d", &a, &b, &year);
        datafile_say(r, FV_ERR_INPUT, r->ambiguous,
                     "%s is %d %s or %d %s, and no line settles it; say --dates day-first or --dates month-first",
                     r->shown, a, month[b - 1], b, month[a - 1]);
    }
    if (!r->day_possible)
        memcpy(log->time, r->month_first, log->count * sizeof *log->time);
    return !r->failed;
}

/* Times counted from the start: by the clock where a line says when that was. */
bool datafile_times_start(datafile_reader *r)
{
    const datafile_dialect *d = &r->dialect;
    fv_logfile *log = r->log;
    if (d->clock != DATAFILE_ELAPSED && d->clock != DATAFILE_ROWS) {
        log->clock = true;
        log->dated = d->clock != DATAFILE_TIME_ONLY;
        return true;
    }
    if (!d->has_start)
        return true;
    double day_first = 0, month_first = 0;
    if (d->start.date && !settle_order(r, &d->start, d->start_line, &day_first, &month_first))
        return false;
    log->clock = true;
    log->dated = d->start.date;
    for (size_t i = 0; i < log->count; i++) {
        r->month_first[i] += month_first * DAY + d->start.seconds;
        log->time[i] += day_first * DAY + d->start.seconds;
    }
    return true;
}

/* Unit of elapsed times that no heading names: from the interval. */
bool datafile_times_unit(datafile_reader *r)
{
    if (r->dialect.clock != DATAFILE_ELAPSED || !isnan(r->dialect.unit))
        return true;
    datafile_say(r, FV_ERR_INPUT, r->dialect.heading_line,
                 "'%.60s' does not say in what; let the heading name it, such as \"Elapsed s\" or \"Elapsed min\"",
                 r->dialect.heading[r->dialect.time_column]);
    return false;
}
