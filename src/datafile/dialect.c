/* SPDX-License-Identifier: MIT */
/* Which dialect a logger's file is in, from its first lines: separator, where the readings begin, what the times are,
 * wide or long. */
#include "datafile/parts.h"

#include <string.h>

enum { LOOK_MOST = 400 }; /* rows */

typedef struct {
    fv_arena *arena;
    datafile_row row[LOOK_MOST];
    size_t count;
    bool no_memory;
} look;

static bool keep(void *context, const datafile_row *row)
{
    look *l = context;
    const char **fields = fv_arena_alloc(l->arena, row->count + 1, sizeof *fields);
    l->no_memory = !fields;
    for (size_t i = 0; i < row->count && !l->no_memory; i++)
        l->no_memory = !(fields[i] = fv_arena_copy(l->arena, row->fields[i]));
    if (l->no_memory || l->count == LOOK_MOST)
        return false;
    l->row[l->count++] = (datafile_row){fields, row->count, row->line, row->whole};
    return true;
}

/* ---- what a row's first fields are ---- */

static bool is_value(const char *text)
{
    double value;
    bool comma;
    const datafile_kind kind = datafile_number(text, &value, &comma);
    return kind == DATAFILE_NUMBER || kind == DATAFILE_OPEN;
}

static bool is_plain_number(const char *text)
{
    return *text && strspn(text, "0123456789.,") == strlen(text);
}

/* Finds the times in a row; columns that count rows before a date are passed over. */
static bool find_times(const datafile_row *row, datafile_dialect *d, size_t *after)
{
    datafile_stamp stamp, next = {0};
    size_t first = 0;
    if (row->count > 2 && is_plain_number(row->fields[0]) && datafile_stamp_read(row->fields[1], &stamp))
        first = 1;
    if (first + 1 >= row->count)
        return false;
    const bool is_stamp = datafile_stamp_read(row->fields[first], &stamp);
    const bool second = datafile_stamp_read(row->fields[first + 1], &next);
    d->time_column = d->date_column = first;
    *after = first + 1;
    if (is_stamp && stamp.date && stamp.time) {
        d->clock = DATAFILE_STAMPS;
    } else if (is_stamp && second && stamp.date != next.date && stamp.time != next.time) {
        d->clock = DATAFILE_DATE_TIME;
        *(stamp.date ? &d->time_column : &d->date_column) = first + 1;
        *after = first + 2;
    } else if (is_stamp && stamp.time) {
        d->clock = DATAFILE_TIME_ONLY;
    } else if (is_plain_number(row->fields[first])) {
        d->clock = DATAFILE_ROWS;
    } else {
        return false;
    }
    return true;
}

/* A reading: times, then values, or the name of a channel and its value. */
static bool looks_like_reading(const datafile_row *row, datafile_dialect *d)
{
    size_t after, values = 0;
    if (!find_times(row, d, &after) || after >= row->count)
        return false;
    for (size_t i = after; i < row->count; i++)
        values += is_value(row->fields[i]);
    d->width = row->count;
    d->long_form = row->count == after + 2 && *row->fields[after] && !is_value(row->fields[after]);
    d->channel_column = after;
    d->value_column = after + 1;
    return values > 0;
}

bool datafile_has_time(const datafile_dialect *d, const datafile_row *row)
{
    datafile_stamp stamp;
    if (d->time_column >= row->count || d->date_column >= row->count)
        return false;
    const char *text = row->fields[d->time_column];
    switch (d->clock) {
    case DATAFILE_STAMPS:
        return datafile_stamp_read(text, &stamp) && stamp.date && stamp.time;
    case DATAFILE_DATE_TIME:
        return datafile_stamp_read(text, &stamp) && stamp.time &&
               datafile_stamp_read(row->fields[d->date_column], &stamp) && stamp.date;
    case DATAFILE_TIME_ONLY:
        return datafile_stamp_read(text, &stamp) && stamp.time && !stamp.date;
    default:
        return is_plain_number(text) ||
               (d->clock == DATAFILE_ELAPSED && datafile_stamp_read(text, &stamp) && !stamp.date);
    }
}

/* ---- separator and first reading ---- */

/* A second one follows soon, perhaps below a heading that is repeated. */
static bool goes_on(const look *l, size_t i)
{
    enum { SOON = 3 };
    datafile_dialect next;
    for (size_t k = i + 1; k <= i + SOON && k < l->count; k++)
        if (looks_like_reading(&l->row[k], &next))
            return true;
    return i + 1 >= l->count;
}

static size_t first_reading(const look *l, datafile_dialect *d)
{
    for (size_t i = 0; i < l->count; i++)
        if (looks_like_reading(&l->row[i], d) && goes_on(l, i))
            return i;
    return l->count;
}

static bool look_at(const char *head, size_t length, char separator, fv_arena *arena, look *l)
{
    l->arena = arena;
    l->count = 0;
    fv_faults *own = fv_faults_new(); /* with another separator all may be well */
    datafile_rows *rows = own ? datafile_rows_new(separator, NULL, keep, l, own) : NULL;
    const bool whole = rows && datafile_rows_feed(rows, head, length);
    l->no_memory = l->no_memory || !rows || (!whole && fv_faults_errors(own) > 0 && fv_faults_blame_system(own));
    datafile_rows_free(rows);
    fv_faults_free(own);
    return !l->no_memory;
}

static char find_separator(const char *head, size_t length, fv_arena *arena, look *l)
{
    static const char candidates[] = {'\t', ';', ','};
    char best = 0;
    size_t most = 0;
    for (size_t i = 0; i < sizeof candidates; i++) {
        datafile_dialect d;
        size_t readings = 0;
        if (!look_at(head, length, candidates[i], arena, l))
            return 0;
        for (size_t k = first_reading(l, &d); k < l->count; k++)
            readings += looks_like_reading(&l->row[k], &d);
        if (readings > most) {
            most = readings;
            best = candidates[i];
        }
    }
    return best && look_at(head, length, best, arena, l) ? best : 0;
}

const char *datafile_joined(fv_arena *arena, const datafile_row *row)
{
    fv_text text = {0};
    for (size_t i = 0; i < row->count; i++)
        fv_text_add(&text, "%s%s", i ? " " : "", row->fields[i]);
    const char *copy = fv_arena_copy(arena, text.text && !text.failed ? text.text : "");
    fv_text_free(&text);
    return copy;
}

/* ---- heading ---- */

static bool take_heading(const look *l, size_t first, fv_arena *arena, datafile_dialect *d)
{
    d->heading = fv_arena_alloc(arena, d->width + 1, sizeof *d->heading);
    if (!d->heading)
        return false;
    for (size_t i = 0; i < d->width; i++)
        d->heading[i] = "";
    const datafile_row *above = first > 0 ? &l->row[first - 1] : NULL;
    if (!above || above->count < d->width - (*l->row[first].fields[d->width - 1] == '\0') ||
        datafile_has_time(d, above))
        return true;
    d->heading_line = above->line;
    for (size_t i = 0; i < d->width && i < above->count; i++)
        d->heading[i] = above->fields[i];
    return true;
}

static bool read_before(const look *l, size_t first, fv_arena *arena, datafile_dialect *d)
{
    const size_t lines = first - (d->heading_line > 0);
    d->before = fv_arena_alloc(arena, lines + 1, sizeof *d->before);
    for (size_t i = 0; d->before && i < lines; i++) {
        d->before[i] = datafile_joined(arena, &l->row[i]);
        if (!d->before[i])
            return false;
        d->before_count++;
        datafile_read_before(d, d->before[i], l->row[i].line);
    }
    return d->before != NULL;
}

/* What a column of numbers, or of times without a date, counts. */
static fv_status settle_times(const fv_datafile_options *o, const char *file, datafile_dialect *d, fv_faults *faults)
{
    const char *heading = d->heading[d->time_column];
    const fv_times said = o->times != FV_TIMES_UNSAID ? o->times : datafile_times(heading, &d->unit);
    if (d->clock == DATAFILE_TIME_ONLY && (o->times == FV_TIMES_ELAPSED || strstr(heading, "lapsed"))) {
        d->clock = DATAFILE_ELAPSED;
        d->unit = 1;
    }
    if (d->clock != DATAFILE_ROWS)
        return FV_OK;
    if (said == FV_TIMES_UNSAID)
        return fv_error(
            faults, FV_ERR_INPUT, (fv_loc){file, d->heading_line ? d->heading_line : d->first_line},
            "column '%.60s' holds numbers: time elapsed or row numbers? Say --times elapsed or --times rows", heading);
    if (said == FV_TIMES_ELAPSED) {
        d->clock = DATAFILE_ELAPSED;
        if (o->times != FV_TIMES_UNSAID)
            datafile_times(heading, &d->unit);
        return FV_OK;
    }
    d->interval = isnan(o->interval) ? d->interval : o->interval;
    if (d->interval > 0)
        return FV_OK;
    return fv_error(faults, FV_ERR_INPUT, (fv_loc){file, d->first_line},
                    "rows are numbered, and no line says how far apart they are; say it, such as --interval \"60 s\"");
}

static void refuse(const char *head, size_t length, const char *file, fv_faults *faults)
{
    const fv_loc top = {file, 1};
    const unsigned char *b = (const unsigned char *)head;
    if (length == 0)
        fv_error(faults, FV_ERR_INPUT, top, "the file is empty");
    else if (length >= 2 && ((b[0] == 0xFF && b[1] == 0xFE) || (b[0] == 0xFE && b[1] == 0xFF)))
        fv_error(faults, FV_ERR_INPUT, top, "the file is in UTF-16; save it as UTF-8 or plain CSV");
    else if (memchr(head, 0, length))
        fv_error(faults, FV_ERR_INPUT, top, "this is no text; have the logger's software write CSV");
    else if (b[0] == 'P' && length > 1 && b[1] == 'K')
        fv_error(faults, FV_ERR_INPUT, top, "this is a packed file, a spreadsheet perhaps; save it as CSV");
    else if (b[0] == '<' || b[0] == '{')
        fv_error(faults, FV_ERR_INPUT, top, "this is no table of readings; a logger's CSV was expected");
    else
        fv_error(faults, FV_ERR_INPUT, top,
                 "no readings found: no line begins with a time and goes on with values, separated by comma, semicolon "
                 "or tab");
}

fv_status datafile_sniff(const char *head, size_t length, const char *file, const fv_datafile_options *options,
                         fv_arena *arena, datafile_dialect *out, fv_faults *faults)
{
    look *l = fv_arena_alloc(arena, 1, sizeof *l);
    *out = (datafile_dialect){.unit = NAN, .interval = NAN};
    if (!l)
        return fv_error(faults, FV_ERR_SYSTEM, (fv_loc){file, 0}, "out of memory");
    out->skip = length >= 3 && memcmp(head, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0;
    const bool text = length > 0 && !memchr(head, 0, length);
    out->separator = text ? find_separator(head + out->skip, length - out->skip, arena, l) : 0;
    if (l->no_memory)
        return fv_error(faults, FV_ERR_SYSTEM, (fv_loc){file, 0}, "out of memory");
    if (!out->separator) {
        refuse(head, length, file, faults);
        return FV_FAIL;
    }
    const size_t first = first_reading(l, out);
    out->first_line = l->row[first].line;
    if (!take_heading(l, first, arena, out) || !read_before(l, first, arena, out))
        return fv_error(faults, FV_ERR_SYSTEM, (fv_loc){file, 0}, "out of memory");
    if (out->heading_line == 0) {
        return fv_error(faults, FV_ERR_INPUT, (fv_loc){file, out->first_line},
                        "readings begin here, and no heading above them names their %zu columns; add a line such as "
                        "Time,CH 1 degC,CH 2 degC",
                        out->width);
    }
    return settle_times(options, file, out, faults);
}
