/* SPDX-License-Identifier: MIT */
/* A log while it is read: what has been settled so far, and what each row goes through. */
#ifndef DATAFILE_READER_H
#define DATAFILE_READER_H

#include "datafile/parts.h"

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
} datafile_reader;

/* An error at a line of the file, 0: of the whole; reading ends. */
void datafile_say(datafile_reader *r, fv_err_class blame, int line, const char *fmt, ...) FV_PRINTF(4, 5);

/* ---- times.c; false: said ---- */
bool datafile_times_unit(datafile_reader *r); /* before the first row */
/* The time of a row, s, with the day first and with the month first. */
bool datafile_time_read(datafile_reader *r, const datafile_row *row, double *day_first, double *month_first);
bool datafile_times_start(datafile_reader *r);  /* after the last row: elapsed times by the clock */
bool datafile_times_choose(datafile_reader *r); /* then: the order of day and month */

/* ---- channels.c; false: said ---- */
/* All channels of the wide form, each a column. */
bool datafile_channels_wide(datafile_reader *r, const datafile_row *first);
/* A row's readings, in SI. */
bool datafile_take_wide(datafile_reader *r, const datafile_row *row, double day_first, double month_first);
bool datafile_take_long(datafile_reader *r, const datafile_row *row, double day_first, double month_first);

#endif
