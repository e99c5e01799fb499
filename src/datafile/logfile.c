/* SPDX-License-Identifier: MIT */
/* From bytes to rows of readings. */
#include "farvessel/constants.h"
#include "datafile/parts.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const double DAY = 86400, HALF_DAY = 43200;
enum { HEAD = 1 << 17, PIECE = 1 << 16, BYTES_MOST = 1 << 26 /* half a million rows of ten channels */ };

typedef struct {
    fv_logfile *log;
    const fv_datafile_options *options;
    fv_faults *faults;
    datafile_dialect dialect;
    size_t capacity;
    double *month_first; /* times by the other order of day and month; while both are possible */
    bool day_possible, month_possible;
    int ambiguous;     /* line where the two differ; 0: none */
    char shown[24];    /* that date */
    double *to_pascal; /* by channel */
    size_t *column;    /* by channel of the wide form */
    double first_offset, midnight, last_seconds;
    char mark; /* decimal mark met: . or , or 0 */
    bool failed;
} reader;

void fv_datafile_defaults(fv_datafile_options *options)
{
    if (!options)
        return;
    *options = (fv_datafile_options){.interval = NAN};
}

static void say(reader *r, fv_err_class blame, int line, const char *fmt, ...) FV_PRINTF(4, 5);
static void say(reader *r, fv_err_class blame, int line, const char *fmt, ...)
{
    fv_text text = {0};
    va_list args;
    va_start(args, fmt);
    fv_text_addv(&text, fmt, args);
    va_end(args);
    fv_error(r->faults, blame, (fv_loc){r->log->file, line}, "%s", text.text ? text.text : "out of memory");
    fv_text_free(&text);
    r->failed = true;
}

static void out_of_memory(reader *r)
{
    say(r, FV_ERR_SYSTEM, 0, "out of memory");
}

/* ---- room ---- */

static bool room_for_rows(reader *r, size_t need)
{
    fv_logfile *log = r->log;
    if (need <= r->capacity)
        return true;
    const size_t more = r->capacity ? 2 * r->capacity : 1024;
    double *time = realloc(log->time, more * sizeof *time);
    log->time = time ? time : log->time;
    int *line = realloc(log->line, more * sizeof *line);
    log->line = line ? line : log->line;
    double *other = realloc(r->month_first, more * sizeof *other);
    r->month_first = other ? other : r->month_first;
    bool good = time && line && other;
    for (size_t i = 0; i < log->channel_count && good; i++) {
        double *value = realloc(log->channels[i].value, more * sizeof *value);
        good = value != NULL;
        log->channels[i].value = value ? value : log->channels[i].value;
    }
    if (good)
        r->capacity = more;
    else
        out_of_memory(r);
    return good;
}

/* A channel with all rows so far empty. */
static bool add_channel(reader *r, const char *heading, size_t column, int line)
{
    fv_logfile *log = r->log;
    if (log->channel_count == DATAFILE_FIELDS_MOST) {
        say(r, FV_ERR_INPUT, line, "more than 512 channels; is the column of channels the right one?");
        return false;
    }
    fv_log_channel *c = &log->channels[log->channel_count];
    double *value = malloc((r->capacity ? r->capacity : 1) * sizeof *value);
    *c = (fv_log_channel){
        .heading = fv_arena_copy(log->arena, heading), .name = datafile_name(log->arena, heading), .value = value};
    if (!c->heading || !c->name || !value) {
        free(value);
        out_of_memory(r);
        return false;
    }
    for (size_t i = 0; i < log->count; i++)
        value[i] = NAN;
    r->column[log->channel_count] = column;
    log->channel_count++;
    return true;
}

/* Unit: of the heading, of a line before, as asked. */
static bool settle_unit(reader *r, size_t channel, const char *value_heading)
{
    fv_log_channel *c = &r->log->channels[channel];
    double *to_pascal = &r->to_pascal[channel];
    c->unit = datafile_unit(c->heading, to_pascal);
    if (c->unit == FV_LOG_UNIT_UNSAID && value_heading)
        c->unit = datafile_unit(value_heading, to_pascal);
    if (c->unit == FV_LOG_UNIT_UNSAID)
        c->unit = r->dialect.unit_before;
    if (c->unit == FV_LOG_UNIT_UNSAID)
        c->unit = r->options->unit;
    if (c->unit != FV_LOG_UNIT_UNSAID)
        return true;
    say(r, FV_ERR_INPUT, r->dialect.heading_line,
        "neither the heading '%.60s' nor a line before it names the unit; say --unit degC, --unit degF or --unit K",
        value_heading ? value_heading : c->heading);
    return false;
}

static bool add_wide_channels(reader *r, const datafile_row *first)
{
    const datafile_dialect *d = &r->dialect;
    for (size_t i = 0; i < d->width; i++) {
        double value;
        bool comma;
        double to_pascal;
        const bool time = i == d->time_column || i == d->date_column || i < d->time_column;
        if (time || d->heading[i][0] == '\0')
            continue;
        /* a column of words, such as alarms, is no channel */
        if (i < first->count && datafile_number(first->fields[i], &value, &comma) == DATAFILE_TEXT &&
            datafile_unit(d->heading[i], &to_pascal) == FV_LOG_UNIT_UNSAID)
            continue;
        for (size_t k = 0; k < r->log->channel_count; k++)
            if (datafile_same_name(r->log->channels[k].heading, d->heading[i])) {
                say(r, FV_ERR_INPUT, d->heading_line, "two columns are called '%.60s'; give each its own name",
                    d->heading[i]);
                return false;
            }
        if (!add_channel(r, d->heading[i], i, d->heading_line) || !settle_unit(r, r->log->channel_count - 1, NULL))
            return false;
    }
    if (r->log->channel_count == 0)
        say(r, FV_ERR_INPUT, d->heading_line, "no column but the time has a heading");
    return r->log->channel_count > 0;
}

/* ---- times ---- */

/* Both orders of day and month; NaN: no such date. */
static void days_of(const datafile_stamp *s, double *day_first, double *month_first)
{
    *day_first = datafile_days(s->year, s->second, s->first);
    *month_first = s->named ? *day_first : datafile_days(s->year, s->first, s->second);
}

static bool settle_order(reader *r, const datafile_stamp *s, int line, double *day_first, double *month_first)
{
    days_of(s, day_first, month_first);
    if (isnan(*day_first) && isnan(*month_first)) {
        say(r, FV_ERR_INPUT, line, "there is no day %d-%02d-%02d", s->year, s->second, s->first);
        return false;
    }
    if (isnan(*day_first))
        r->day_possible = false;
    if (isnan(*month_first))
        r->month_possible = false;
    if (!r->day_possible && !r->month_possible) {
        say(r, FV_ERR_INPUT, line, "the date here puts %s first, dates before it the other way round",
            isnan(*day_first) ? "the month" : "the day");
        return false;
    }
    if (r->ambiguous == 0 && *day_first != *month_first && !isnan(*day_first) && !isnan(*month_first)) {
        r->ambiguous = line;
        snprintf(r->shown, sizeof r->shown, "%d/%d/%d", s->first, s->second, s->year);
    }
    return true;
}

static bool read_stamp(reader *r, const datafile_row *row, double *day_first, double *month_first)
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
static double read_time_only(reader *r, const char *text)
{
    datafile_stamp s;
    datafile_stamp_read(text, &s);
    if (s.seconds < r->last_seconds - HALF_DAY)
        r->midnight += DAY;
    r->last_seconds = s.seconds;
    return r->midnight + s.seconds;
}

static bool read_number_time(reader *r, const datafile_row *row, double *time)
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
        say(r, FV_ERR_INPUT, row->line, "'%.40s' is no time", text);
        return false;
    }
    *time = d->clock == DATAFILE_ROWS ? (value - 1) * d->interval : value * d->unit;
    return true;
}

static bool read_time(reader *r, const datafile_row *row, double *day_first, double *month_first)
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

/* ---- values ---- */

static double to_si(fv_log_unit unit, double value, double to_pascal)
{
    switch (unit) {
    case FV_LOG_DEG_F:
        return (value - 32) / 1.8 + FV_CELSIUS;
    case FV_LOG_KELVIN:
        return value;
    case FV_LOG_PRESSURE:
        return value * to_pascal;
    default:
        return value + FV_CELSIUS;
    }
}

static bool read_value(reader *r, size_t channel, const char *text, int line, double *si)
{
    fv_log_channel *c = &r->log->channels[channel];
    double value;
    bool comma;
    *si = NAN;
    const datafile_kind kind = datafile_number(text, &value, &comma);
    c->open += kind == DATAFILE_OPEN;
    c->blank += kind == DATAFILE_BLANK;
    if (kind == DATAFILE_TEXT || kind == DATAFILE_MIXED) {
        say(r, FV_ERR_INPUT, line,
            kind == DATAFILE_TEXT ? "%s: '%.40s' is neither a reading nor a word for an open probe"
                                  : "%s: '%.40s' has more than one decimal mark; write 1234.5 without marks between "
                                    "thousands",
            c->name, text);
        return false;
    }
    /* a pressure may well be 1013 */
    if (kind == DATAFILE_OPEN && c->unit == FV_LOG_PRESSURE && isfinite(value))
        c->open--;
    else if (kind != DATAFILE_NUMBER)
        return true;
    const char mark = comma ? ',' : strchr(text, '.') ? '.' : 0;
    if (mark && r->mark && mark != r->mark) {
        say(r, FV_ERR_INPUT, line, "%s: '%.40s' has a decimal %s, readings before it a decimal %s", c->name, text,
            mark == ',' ? "comma" : "point", mark == ',' ? "point" : "comma");
        return false;
    }
    r->mark = mark ? mark : r->mark;
    *si = to_si(c->unit, value, r->to_pascal[channel]);
    return true;
}

static bool add_row(reader *r, double day_first, double month_first, int line)
{
    fv_logfile *log = r->log;
    if (!room_for_rows(r, log->count + 1))
        return false;
    log->time[log->count] = day_first;
    r->month_first[log->count] = month_first;
    log->line[log->count] = line;
    for (size_t i = 0; i < log->channel_count; i++)
        log->channels[i].value[log->count] = NAN;
    log->count++;
    return true;
}

static bool take_wide(reader *r, const datafile_row *row, double day_first, double month_first)
{
    fv_logfile *log = r->log;
    if (!add_row(r, day_first, month_first, row->line))
        return false;
    for (size_t i = 0; i < log->channel_count; i++) {
        const size_t column = r->column[i];
        if (!read_value(r, i, column < row->count ? row->fields[column] : "", row->line,
                        &log->channels[i].value[log->count - 1]))
            return false;
    }
    return true;
}

static bool take_long(reader *r, const datafile_row *row, double day_first, double month_first)
{
    fv_logfile *log = r->log;
    const datafile_dialect *d = &r->dialect;
    const char *name = row->fields[d->channel_column];
    size_t c = 0;
    while (c < log->channel_count && !datafile_same_name(log->channels[c].heading, name))
        c++;
    if (*name == '\0') {
        say(r, FV_ERR_INPUT, row->line, "the reading here has no channel");
        return false;
    }
    if (c == log->channel_count &&
        (!add_channel(r, name, d->value_column, row->line) || !settle_unit(r, c, d->heading[d->value_column])))
        return false;
    const bool new_row =
        log->count == 0 || log->time[log->count - 1] != day_first || !isnan(log->channels[c].value[log->count - 1]);
    if (new_row && !add_row(r, day_first, month_first, row->line))
        return false;
    return read_value(r, c, row->fields[d->value_column], row->line, &log->channels[c].value[log->count - 1]);
}

/* ---- rows that are no readings ---- */

static bool is_heading(const reader *r, const datafile_row *row)
{
    for (size_t i = 0; i < r->dialect.width && i < row->count; i++)
        if (strcmp(row->fields[i], r->dialect.heading[i]) != 0)
            return false;
    return true;
}

static bool stood_before(reader *r, const datafile_row *row)
{
    const char *text = datafile_joined(r->log->arena, row);
    for (size_t i = 0; text && i < r->dialect.before_count; i++) {
        const size_t key = strcspn(r->dialect.before[i], " :=");
        if (key > 0 && strncmp(text, r->dialect.before[i], key) == 0)
            return true;
    }
    return false;
}

static bool pass_over(reader *r, const datafile_row *row)
{
    if (is_heading(r, row)) {
        r->log->told.restarts++;
        return true;
    }
    if (stood_before(r, row))
        return true;
    if (!row->whole) {
        r->log->told.half = 1;
        return true;
    }
    say(r, FV_ERR_INPUT, row->line, "'%.40s' is no time as the rows before have it, nor is this line a heading again",
        row->fields[r->dialect.time_column < row->count ? r->dialect.time_column : 0]);
    return false;
}

static bool right_width(reader *r, const datafile_row *row)
{
    size_t count = row->count;
    while (count > r->dialect.width && row->fields[count - 1][0] == '\0')
        count--;
    size_t least = r->dialect.width;
    while (least > 0 && r->dialect.heading[least - 1][0] == '\0')
        least--;
    if (count >= least && count <= r->dialect.width)
        return true;
    if (!row->whole && count < least) {
        r->log->told.half = 1;
        return false;
    }
    say(r, FV_ERR_INPUT, row->line, "%zu fields, where the heading in line %d has %zu%s", count,
        r->dialect.heading_line, least,
        count > least && r->dialect.separator == ',' ? "; is the decimal mark a comma, and the separator, too?" : "");
    return false;
}

static bool take(void *context, const datafile_row *row)
{
    reader *r = context;
    double day_first, month_first;
    if (row->line < r->dialect.first_line)
        return true;
    if (!datafile_has_time(&r->dialect, row))
        return pass_over(r, row);
    if (!right_width(r, row))
        return !r->failed;
    if (r->log->channel_count == 0 && !r->dialect.long_form && !add_wide_channels(r, row))
        return false;
    if (!read_time(r, row, &day_first, &month_first))
        return false;
    return r->dialect.long_form ? take_long(r, row, day_first, month_first) : take_wide(r, row, day_first, month_first);
}

/* ---- the end ---- */

static bool choose_order(reader *r)
{
    fv_logfile *log = r->log;
    if (r->options->dates != FV_DATES_UNSAID) {
        const bool possible = r->options->dates == FV_DATES_DAY_FIRST ? r->day_possible : r->month_possible;
        r->day_possible = r->options->dates == FV_DATES_DAY_FIRST;
        if (!possible)
            say(r, FV_ERR_INPUT, r->dialect.first_line, "--dates %s: there are dates that cannot be read so",
                r->day_possible ? "day-first" : "month-first");
    } else if (r->day_possible && r->month_possible && r->ambiguous) {
        int a, b, year;
        static const char *const month[] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                            "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
        sscanf(r->shown, "%d/%d/%d", &a, &b, &year);
        say(r, FV_ERR_INPUT, r->ambiguous,
            "%s is %d %s or %d %s, and no line settles it; say --dates day-first or --dates month-first", r->shown, a,
            month[b - 1], b, month[a - 1]);
    }
    if (!r->day_possible)
        memcpy(log->time, r->month_first, log->count * sizeof *log->time);
    return !r->failed;
}

/* Times counted from the start: by the clock where a line says when that was. */
static bool add_start(reader *r)
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
static bool settle_elapsed(reader *r)
{
    if (r->dialect.clock != DATAFILE_ELAPSED || !isnan(r->dialect.unit))
        return true;
    say(r, FV_ERR_INPUT, r->dialect.heading_line,
        "'%.60s' does not say in what; let the heading name it, such as \"Elapsed s\" or \"Elapsed min\"",
        r->dialect.heading[r->dialect.time_column]);
    return false;
}

static bool finish(reader *r)
{
    fv_logfile *log = r->log;
    if (!r->failed && log->count == 0)
        say(r, FV_ERR_INPUT, r->dialect.heading_line, "there is a heading, but no reading below it");
    if (r->failed || !add_start(r) || !choose_order(r))
        return false;
    log->told.heading_line = r->dialect.heading_line;
    log->told.separator = r->dialect.separator;
    log->told.decimal_comma = r->mark == ',';
    return datafile_put_in_order(log, r->options, r->faults) == FV_OK;
}

/* ---- bytes ---- */

static bool read_all(reader *r, const char *bytes, size_t length)
{
    const size_t head = length < HEAD ? length : HEAD;
    if (datafile_sniff(bytes, head, r->log->file, r->options, r->log->arena, &r->dialect, r->faults) == FV_FAIL ||
        !settle_elapsed(r))
        return false;
    datafile_rows *rows = datafile_rows_new(r->dialect.separator, r->log->file, take, r, r->faults);
    bool good = rows && datafile_rows_feed(rows, bytes + r->dialect.skip, head - r->dialect.skip);
    for (size_t at = head, n; at < length && good; at += n) {
        n = length - at < PIECE ? length - at : PIECE;
        if (memchr(bytes + at, 0, n))
            say(r, FV_ERR_INPUT, r->log->count ? r->log->line[r->log->count - 1] : 0,
                "after this line come bytes that are no text; the file is damaged");
        good = !r->failed && datafile_rows_feed(rows, bytes + at, n);
    }
    good = good && !r->failed && datafile_rows_end(rows);
    datafile_rows_free(rows);
    return good && finish(r);
}

fv_logfile *fv_logfile_read_memory(const char *bytes, size_t length, const char *name,
                                   const fv_datafile_options *options, fv_faults *faults)
{
    if (!name) {
        fv_error_null(faults, __func__);
        return NULL;
    }
    fv_arena *arena = fv_arena_new();
    fv_logfile *log = calloc(1, sizeof *log);
    reader r = {.log = log,
                .options = options,
                .faults = faults,
                .day_possible = true,
                .month_possible = true,
                .first_offset = NAN};
    bool good = arena && log;
    if (good) {
        log->arena = arena;
        log->file = fv_arena_copy(arena, name);
        log->channels = fv_arena_alloc(arena, DATAFILE_FIELDS_MOST, sizeof *log->channels);
        r.to_pascal = fv_arena_alloc(arena, DATAFILE_FIELDS_MOST, sizeof *r.to_pascal);
        r.column = fv_arena_alloc(arena, DATAFILE_FIELDS_MOST, sizeof *r.column);
        good = log->file && log->channels && r.to_pascal && r.column;
    }
    if (!good)
        fv_error(faults, FV_ERR_SYSTEM, (fv_loc){name, 0}, "out of memory");
    good = good && read_all(&r, bytes, length);
    free(r.month_first);
    if (good)
        return log;
    if (log && log->arena)
        fv_logfile_free(log);
    else {
        fv_arena_free(arena);
        free(log);
    }
    return NULL;
}

fv_logfile *fv_logfile_read(const char *path, const fv_datafile_options *options, fv_faults *faults)
{
    if (!path) {
        fv_error_null(faults, __func__);
        return NULL;
    }
    size_t length = 0;
    char *bytes = fv_read_whole(path, BYTES_MOST, &length, faults);
    fv_logfile *log =
        bytes ? fv_logfile_read_memory(bytes, length, strcmp(path, "-") == 0 ? "standard input" : path, options, faults)
              : NULL;
    free(bytes);
    return log;
}

void fv_logfile_free(fv_logfile *log)
{
    if (!log)
        return;
    for (size_t i = 0; i < log->channel_count; i++)
        free(log->channels[i].value);
    free(log->time);
    free(log->line);
    fv_arena_free(log->arena);
    free(log);
}

int fv_logfile_channel(const fv_logfile *log, const char *name)
{
    if (!log)
        return -1;
    for (size_t i = 0; i < log->channel_count; i++)
        if (datafile_same_name(log->channels[i].name, name) || datafile_same_name(log->channels[i].heading, name))
            return (int)i;
    return -1;
}
