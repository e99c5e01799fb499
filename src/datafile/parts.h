/* SPDX-License-Identifier: MIT */
/* What the files of this folder share. */
#ifndef DATAFILE_PARTS_H
#define DATAFILE_PARTS_H

#include "farvessel/datafile.h"

#include <math.h>

enum { DATAFILE_FIELDS_MOST = 512 };

/* ---- rows.c: libcsv, fed line by line ---- */

/* One row: its fields without the blanks around them, and the line where it begins. */
typedef struct {
    const char *const *fields;
    size_t count;
    int line;
    bool whole; /* ended by a line end; false: the file's last, perhaps still being written */
} datafile_row;
/* False ends the reading. */
typedef bool datafile_take(void *context, const datafile_row *row);

typedef struct datafile_rows datafile_rows;
datafile_rows *datafile_rows_new(char separator, const char *file, datafile_take *take, void *context,
                                 fv_faults *faults);
/* Takes bytes as they come. False: reading has ended (said in faults, or the taker had enough). */
bool datafile_rows_feed(datafile_rows *rows, const char *bytes, size_t length);
bool datafile_rows_end(datafile_rows *rows);
void datafile_rows_free(datafile_rows *rows);

/* ---- number.c ---- */
typedef enum { DATAFILE_NUMBER, DATAFILE_OPEN, DATAFILE_BLANK, DATAFILE_TEXT, DATAFILE_MIXED } datafile_kind;
/* What a field holds. Numbers may have a decimal point or comma (comma is then true); MIXED: both. OPEN: how loggers
 * write a probe that is not there (OL, ---, NaN, or a figure that no plant has). */
datafile_kind datafile_number(const char *text, double *value, bool *comma);

/* ---- stamp.c ---- */
typedef struct {
    bool date, time;
    bool named;        /* order is clear: year first, or the month is a word */
    int first, second; /* day and month in one order or the other; named: day, month */
    int year;
    double seconds; /* of the day */
    double offset;  /* s east of UTC; NaN: not said */
} datafile_stamp;
bool datafile_stamp_read(const char *text, datafile_stamp *stamp);
/* Days since 1970-01-01, NaN where there is no such date. */
double datafile_days(int year, int month, int day);
/* "2 h 30 min", "60 s", "00:01:00", "60": s; NaN: no time. */
double datafile_duration(const char *text);

/* ---- heading.c ---- */
fv_log_unit datafile_unit(const char *heading, double *to_pascal);
/* Heading without its unit and what surrounds it, into arena. */
const char *datafile_name(fv_arena *arena, const char *heading);
bool datafile_same_name(const char *a, const char *b);
/* What a heading says of a column of numbers: elapsed (*unit: s of one; NaN: not said), rows, or neither. */
fv_times datafile_times(const char *heading, double *unit);

/* ---- dialect.c ---- */
typedef enum {
    DATAFILE_STAMPS,
    DATAFILE_DATE_TIME,
    DATAFILE_TIME_ONLY,
    DATAFILE_ELAPSED,
    DATAFILE_ROWS
} datafile_clock;

typedef struct {
    char separator;
    size_t skip;      /* bytes of a mark at the start of the file */
    int first_line;   /* of the first reading */
    int heading_line; /* 0: none */
    size_t width;     /* fields of a reading's row */
    datafile_clock clock;
    size_t date_column, time_column;
    double unit; /* s of one where times are numbers; NaN */
    bool long_form;
    size_t channel_column, value_column;
    const char **heading; /* width texts, in the arena */
    const char **before;  /* lines before the heading, their fields joined; in the arena */
    size_t before_count;
    bool has_start; /* a line before says when the logger began: */
    datafile_stamp start;
    int start_line;
    double interval;         /* s, the same; NaN */
    fv_log_unit unit_before; /* as a line before says */
} datafile_dialect;
/* Looks at the first bytes of a file. */
fv_status datafile_sniff(const char *head, size_t length, const char *file, const fv_datafile_options *options,
                         fv_arena *arena, datafile_dialect *out, fv_faults *faults);
/* Fields of a row joined by blanks. */
const char *datafile_joined(fv_arena *arena, const datafile_row *row);
/* Whether its time stands where the dialect has it. */
bool datafile_has_time(const datafile_dialect *d, const datafile_row *row);

/* ---- before.c: what lines above the heading say of start, interval and unit ---- */
void datafile_read_before(datafile_dialect *d, const char *line, int number);

/* ---- order.c: times that rise, rows that stand once ---- */
fv_status datafile_put_in_order(fv_logfile *log, const fv_datafile_options *options, fv_faults *faults);

#endif
