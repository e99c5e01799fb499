/* SPDX-License-Identifier: MIT */
/* From bytes to rows of readings. */
#include "datafile/reader.h"

#include <stdlib.h>
#include <string.h>

enum { HEAD = 1 << 17, PIECE = 1 << 16, BYTES_MOST = 1 << 26 /* half a million rows of ten channels */ };

void fv_datafile_defaults(fv_datafile_options *options)
{
    if (!options)
        return;
    *options = (fv_datafile_options){.interval = NAN};
}

/* ---- rows that are no readings ---- */

static bool is_heading(const datafile_reader *r, const datafile_row *row)
{
    for (size_t i = 0; i < r->dialect.width && i < row->count; i++)
        if (strcmp(row->fields[i], r->dialect.heading[i]) != 0)
            return false;
    return true;
}

static bool stood_before(datafile_reader *r, const datafile_row *row)
{
    const char *text = datafile_joined(r->log->arena, row);
    for (size_t i = 0; text && i < r->dialect.before_count; i++) {
        const size_t key = strcspn(r->dialect.before[i], " :=");
        if (key > 0 && strncmp(text, r->dialect.before[i], key) == 0)
            return true;
    }
    return false;
}

static bool pass_over(datafile_reader *r, const datafile_row *row)
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
    datafile_say(r, FV_ERR_INPUT, row->line,
                 "'%.40s' is no time as the rows before have it, nor is this line a heading again",
                 row->fields[r->dialect.time_column < row->count ? r->dialect.time_column : 0]);
    return false;
}

static bool right_width(datafile_reader *r, const datafile_row *row)
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
    datafile_say(r, FV_ERR_INPUT, row->line, "%zu fields, where the heading in line %d has %zu%s", count,
                 r->dialect.heading_line, least,
                 count > least && r->dialect.separator == ',' ? "; is the decimal mark a comma, and the separator, too?"
                                                              : "");
    return false;
}

static bool take(void *context, const datafile_row *row)
{
    datafile_reader *r = context;
    double day_first, month_first;
    if (row->line < r->dialect.first_line)
        return true;
    if (!datafile_has_time(&r->dialect, row))
        return pass_over(r, row);
    if (!right_width(r, row))
        return !r->failed;
    if (r->log->channel_count == 0 && !r->dialect.long_form && !datafile_channels_wide(r, row))
        return false;
    if (!datafile_time_read(r, row, &day_first, &month_first))
        return false;
    return r->dialect.long_form ? datafile_take_long(r, row, day_first, month_first)
                                : datafile_take_wide(r, row, day_first, month_first);
}

static bool finish(datafile_reader *r)
{
    fv_logfile *log = r->log;
    if (!r->failed && log->count == 0)
        datafile_say(r, FV_ERR_INPUT, r->dialect.heading_line, "there is a heading, but no reading below it");
    if (r->failed || !datafile_times_start(r) || !datafile_times_choose(r))
        return false;
    log->told.heading_line = r->dialect.heading_line;
    log->told.separator = r->dialect.separator;
    log->told.decimal_comma = r->mark == ',';
    return datafile_put_in_order(log, r->options, r->faults) == FV_OK;
}

/* ---- bytes ---- */

static bool read_all(datafile_reader *r, const char *bytes, size_t length)
{
    const size_t head = length < HEAD ? length : HEAD;
    if (datafile_sniff(bytes, head, r->log->file, r->options, r->log->arena, &r->dialect, r->faults) == FV_FAIL ||
        !datafile_times_unit(r))
        return false;
    datafile_rows *rows = datafile_rows_new(r->dialect.separator, r->log->file, take, r, r->faults);
    bool good = rows && datafile_rows_feed(rows, bytes + r->dialect.skip, head - r->dialect.skip);
    for (size_t at = head, n; at < length && good; at += n) {
        n = length - at < PIECE ? length - at : PIECE;
        if (memchr(bytes + at, 0, n))
            datafile_say(r, FV_ERR_INPUT, r->log->count ? r->log->line[r->log->count - 1] : 0,
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
    datafile_reader r = {.log = log,
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
