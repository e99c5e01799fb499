/* SPDX-License-Identifier: MIT */
/* Floor 3, folder datafile: a weekly timetable as an iCalendar file (RFC 5545), for phones. */
#ifndef FARVESSEL_CALENDAR_H
#define FARVESSEL_CALENDAR_H

#include "farvessel/base.h"

FV_C_BEGIN

/* Something that happens every week. */
typedef struct {
    const char *summary, *description; /* UTF-8; description may be NULL */
    size_t day;                        /* 0: Monday */
    double begins;                     /* s after midnight */
    double takes;                      /* s; 0: a moment */
} fv_calendar_event;

/* Adds the calendar to `out`. `monday`: the first week's, "2031-03-17"; times are local wherever it is read. FV_FAIL:
 * no such date, no Monday, or out of memory (`out->failed`). */
fv_status fv_calendar_write(const char *title, const char *monday, const fv_calendar_event *events, size_t count,
                            fv_text *out);

FV_C_END

#endif
