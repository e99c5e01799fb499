/* SPDX-License-Identifier: MIT */
/* Channels and their readings in SI (K, Pa): a column each, or a row each reading. A probe that is not there is a NaN.
 */
#include "datafile/reader.h"

#include "farvessel/constants.h"

#include <stdlib.h>
#include <string.h>

static bool room_for_rows(datafile_reader *r, size_t need)
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
        datafile_say(r, FV_ERR_SYSTEM, 0, "out of memory");
    return good;
}

/* A channel with all rows so far empty. */
static bool add_channel(datafile_reader *r, const char *heading, size_t column, int line)
{
    fv_logfile *log = r->log;
    if (log->channel_count == DATAFILE_FIELDS_MOST) {
        datafile_say(r, FV_ERR_INPUT, line, "more than 512 channels; is the column of channels the right one?");
        return false;
    }
    fv_log_channel *c = &log->channels[log->channel_count];
    double *value = malloc((r->capacity ? r->capacity : 1) * sizeof *value);
    *c = (fv_log_channel){
        .heading = fv_arena_copy(log->arena, heading), .name = datafile_name(log->arena, heading), .value = value};
    if (!c->heading || !c->name || !value) {
        free(value);
        datafile_say(r, FV_ERR_SYSTEM, 0, "out of memory");
        return false;
    }
    for (size_t i = 0; i < log->count; i++)
        value[i] = NAN;
    r->column[log->channel_count] = column;
    log->channel_count++;
    return true;
}

/* Unit: of the heading, of a line before, as asked. */
static bool settle_unit(datafile_reader *r, size_t channel, const char *value_heading)
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
    datafile_say(
        r, FV_ERR_INPUT, r->dialect.heading_line,
        "neither the heading '%.60s' nor a line before it names the unit; say --unit degC, --unit degF or --unit K",
        value_heading ? value_heading : c->heading);
    return false;
}

bool datafile_channels_wide(datafile_reader *r, const datafile_row *first)
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
                datafile_say(r, FV_ERR_INPUT, d->heading_line, "two columns are called '%.60s'; give each its own name",
                             d->heading[i]);
                return false;
            }
        if (!add_channel(r, d->heading[i], i, d->heading_line) || !settle_unit(r, r->log->channel_count - 1, NULL))
            return false;
    }
    if (r->log->channel_count == 0)
        datafile_say(r, FV_ERR_INPUT, d->heading_line, "no column but the time has a heading");
    return r->log->channel_count > 0;
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

static bool read_value(datafile_reader *r, size_t channel, const char *text, int line, double *si)
{
    fv_log_channel *c = &r->log->channels[channel];
    double value;
    bool comma;
    *si = NAN;
    const datafile_kind kind = datafile_number(text, &value, &comma);
    c->open += kind == DATAFILE_OPEN;
    c->blank += kind == DATAFILE_BLANK;
    if (kind == DATAFILE_TEXT || kind == DATAFILE_MIXED) {
        datafile_say(r, FV_ERR_INPUT, line,
                     kind == DATAFILE_TEXT
                         ? "%s: '%.40s' is neither a reading nor a word for an open probe"
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
        datafile_say(r, FV_ERR_INPUT, line, "%s: '%.40s' has a decimal %s, readings before it a decimal %s", c->name,
                     text, mark == ',' ? "comma" : "point", mark == ',' ? "point" : "comma");
        return false;
    }
    r->mark = mark ? mark : r->mark;
    *si = to_si(c->unit, value, r->to_pascal[channel]);
    return true;
}

static bool add_row(datafile_reader *r, double day_first, double month_first, int line)
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

bool datafile_take_wide(datafile_reader *r, const datafile_row *row, double day_first, double month_first)
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

bool datafile_take_long(datafile_reader *r, const datafile_row *row, double day_first, double month_first)
{
    fv_logfile *log = r->log;
    const datafile_dialect *d = &r->dialect;
    const char *name = row->fields[d->channel_column];
    size_t c = 0;
    while (c < log->channel_count && !datafile_same_name(log->channels[c].heading, name))
        c++;
    if (*name == '\0') {
        datafile_say(r, FV_ERR_INPUT, row->line, "the reading here has no channel");
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
