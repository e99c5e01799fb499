/* SPDX-License-Identifier: MIT */
/* Floor 3: what loggers write. Reads the CSV of any logger: one time column and channels, or one reading a row (time,
 * channel, value); comma, semicolon or tab; decimal point or comma; dates and times, time elapsed, or row numbers.
 * What is ambiguous is an error that names the line, both readings and the option that settles it; nothing is guessed.
 * SI inside: K, Pa, s. */
#ifndef FARVESSEL_DATAFILE_H
#define FARVESSEL_DATAFILE_H

#include "farvessel/base.h"

FV_C_BEGIN

typedef enum { FV_DATES_UNSAID, FV_DATES_DAY_FIRST, FV_DATES_MONTH_FIRST } fv_dates;
#define FV_DATES_WORDS "day-first|month-first" /* in that order, as all of these */
typedef enum { FV_LOG_UNIT_UNSAID, FV_LOG_DEG_C, FV_LOG_DEG_F, FV_LOG_KELVIN, FV_LOG_PRESSURE } fv_log_unit;
#define FV_LOG_UNIT_WORDS "degC|degF|K"
typedef enum { FV_CLOCK_UNSAID, FV_CLOCK_BACK, FV_CLOCK_FORWARD, FV_CLOCK_STEADY } fv_clock_change;
#define FV_CLOCK_WORDS "back|forward|steady"
typedef enum { FV_TIMES_UNSAID, FV_TIMES_ELAPSED, FV_TIMES_ROWS } fv_times;
#define FV_TIMES_WORDS "elapsed|rows"

/* What the file does not say, or not clearly. */
typedef struct {
    fv_dates dates;
    fv_log_unit unit; /* of temperatures; asked only where no heading names one */
    fv_clock_change clock;
    fv_times times;  /* what a column of plain numbers is */
    double interval; /* s from row to row; NaN: as the file says */
} fv_datafile_options;
void fv_datafile_defaults(fv_datafile_options *options);

typedef struct {
    const char *name;    /* the heading without its unit */
    const char *heading; /* as it stands */
    fv_log_unit unit;    /* as it was written */
    double *value;       /* K or Pa by row; NaN: open, or nothing was written */
    size_t open, blank;  /* readings of a probe that was open; places without any reading */
} fv_log_channel;

/* What was noticed and done on the way, for the reader to know. */
typedef struct {
    size_t restarts;  /* headings repeated */
    size_t sorted;    /* rows that stood later than their time */
    size_t repeated;  /* rows that stood twice, word by word */
    size_t half;      /* 1: the last line was not finished and was left out */
    double moved;     /* s by which the clock was put right after its change; 0 */
    double gap;       /* s, longest time without a row; and */
    double gap_at;    /* when it began */
    int heading_line; /* 0: none */
    char separator;   /* , ; or a tab */
    bool decimal_comma;
} fv_log_told;

/* Rows in rising order of time. Everything belongs to it. */
typedef struct {
    fv_arena *arena;
    const char *file;
    bool clock; /* times are seconds since 1970-01-01 00:00 by the logger's own clock; else since its start */
    bool dated; /* with a date; else the day is not known and day 0 stands for it */
    size_t count;
    double *time;
    int *line;       /* where a row stands */
    double interval; /* s, median from row to row */
    fv_log_channel *channels;
    size_t channel_count;
    fv_log_told told;
} fv_logfile;

/* Reads a file ("-": standard input). NULL: faults say why, with their lines. At most 64 MiB. */
fv_logfile *fv_logfile_read(const char *path, const fv_datafile_options *options, fv_faults *faults);
fv_logfile *fv_logfile_read_memory(const char *bytes, size_t length, const char *name,
                                   const fv_datafile_options *options, fv_faults *faults);
void fv_logfile_free(fv_logfile *log);

/* A time that somebody says: "2027-04-06 07:46", the time of day "07:46" or "7:46 am" that lies nearest to `near`, or,
 * where the log has no clock, a time since its first row such as "3 min". FV_FAIL: it is none of these, and the reason
 * is in faults under the name `what`. */
fv_status fv_logfile_when(const fv_logfile *log, const char *text, double near, const char *what, double *time,
                          fv_faults *faults);

/* The channel of that name or heading, whatever the case and the blanks; -1: none. */
int fv_logfile_channel(const fv_logfile *log, const char *name);

/* "2027-04-06 07:46:00", "07:46:00" without a date, "1:23:00" where times are elapsed; into buffer (32 bytes do), which
 * is returned. */
char *fv_logfile_stamp(const fv_logfile *log, double time, char *buffer, size_t size);

FV_C_END

#endif
