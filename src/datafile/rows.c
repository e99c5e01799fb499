/* SPDX-License-Identifier: MIT */
/* Rows of a CSV file by libcsv, with the lines they stand on: bytes are handed over up to each line end, so that the
 * line is known whenever a row ends. */
#include "datafile/parts.h"

#include <csv.h>
#include <stdlib.h>
#include <string.h>

enum { LINES_MOST = 64 }; /* of one row: more, and a quote was never closed */

struct datafile_rows {
    struct csv_parser parser;
    const char *file;
    datafile_take *take;
    void *context;
    fv_faults *faults;
    char *bytes; /* of the row's fields, one after another */
    size_t length, capacity;
    size_t at[DATAFILE_FIELDS_MOST]; /* where they begin */
    size_t count;
    int line, begun; /* being read; where the row began */
    bool ended, content, after_return;
};

datafile_rows *datafile_rows_new(char separator, const char *file, datafile_take *take, void *context,
                                 fv_faults *faults)
{
    datafile_rows *rows = calloc(1, sizeof *rows);
    if (!rows || csv_init(&rows->parser, CSV_STRICT | CSV_STRICT_FINI | CSV_APPEND_NULL) != 0) {
        fv_error(faults, FV_ERR_SYSTEM, (fv_loc){file, 0}, "out of memory");
        free(rows);
        return NULL;
    }
    csv_set_delim(&rows->parser, (unsigned char)separator);
    rows->file = file;
    rows->take = take;
    rows->context = context;
    rows->faults = faults;
    rows->line = rows->begun = 1;
    return rows;
}

void datafile_rows_free(datafile_rows *rows)
{
    if (!rows)
        return;
    csv_free(&rows->parser);
    free(rows->bytes);
    free(rows);
}

static void end_with(datafile_rows *rows, fv_err_class blame, const char *text)
{
    if (!rows->ended)
        fv_error(rows->faults, blame, (fv_loc){rows->file, rows->begun}, "%s", text);
    rows->ended = true;
}

static void field(void *text, size_t length, void *context)
{
    datafile_rows *rows = context;
    void *bytes = rows->bytes;
    if (rows->ended)
        return;
    if (rows->count == DATAFILE_FIELDS_MOST) {
        end_with(rows, FV_ERR_INPUT, "more than 512 fields in a row; is this a logger's file?");
        return;
    }
    if (!fv_grow(&bytes, &rows->capacity, rows->length + length + 1, 1)) {
        end_with(rows, FV_ERR_SYSTEM, "out of memory");
        return;
    }
    rows->bytes = bytes;
    rows->at[rows->count++] = rows->length;
    if (length > 0)
        memcpy(rows->bytes + rows->length, text, length);
    rows->bytes[rows->length + length] = '\0';
    rows->length += length + 1;
}

static void give(datafile_rows *rows, bool whole)
{
    const char *fields[DATAFILE_FIELDS_MOST];
    for (size_t i = 0; i < rows->count; i++)
        fields[i] = rows->bytes + rows->at[i];
    const datafile_row row = {fields, rows->count, rows->begun, whole};
    if (!rows->ended && rows->count > 0 && !rows->take(rows->context, &row))
        rows->ended = true;
    rows->count = rows->length = 0;
    rows->content = false;
}

static void row_end(int by, void *context)
{
    give(context, by != -1);
}

/* A stretch without a line end in its midst. */
static bool hand_over(datafile_rows *rows, const char *bytes, size_t length)
{
    if (!rows->content) {
        rows->begun = rows->line;
        rows->content = true;
    }
    if (csv_parse(&rows->parser, bytes, length, field, row_end, rows) != length)
        end_with(rows, csv_error(&rows->parser) == CSV_ENOMEM ? FV_ERR_SYSTEM : FV_ERR_INPUT,
                 csv_error(&rows->parser) == CSV_ENOMEM
                     ? "out of memory"
                     : "a quote stands inside a field; a field with quotes is written as \"5\"\" hose\"");
    return !rows->ended;
}

static bool is_blank(const char *bytes, size_t length)
{
    for (size_t i = 0; i < length; i++)
        if (bytes[i] != ' ' && bytes[i] != '\t')
            return false;
    return true;
}

bool datafile_rows_feed(datafile_rows *rows, const char *bytes, size_t length)
{
    while (length > 0 && !rows->ended) {
        size_t n = 0;
        while (n < length && bytes[n] != '\n' && bytes[n] != '\r')
            n++;
        const bool end = n < length;
        const char mark = end ? bytes[n] : 0;
        const bool blank = end && is_blank(bytes, n);
        if (!hand_over(rows, bytes, n + end))
            break;
        bytes += n + end;
        length -= n + end;
        /* a return and a newline are one line end */
        if (end && !(mark == '\n' && n == 0 && rows->after_return))
            rows->line++;
        rows->after_return = mark == '\r';
        if (blank && rows->line - rows->begun <= 1 && rows->count == 0)
            rows->content = false;
        if (rows->line - rows->begun > LINES_MOST && rows->content)
            end_with(rows, FV_ERR_INPUT, "a quote is opened here and never closed");
    }
    return !rows->ended;
}

bool datafile_rows_end(datafile_rows *rows)
{
    if (!rows->ended && csv_fini(&rows->parser, field, row_end, rows) != 0)
        end_with(rows, FV_ERR_INPUT, "a quote is opened here and never closed");
    return !rows->ended;
}
