/* SPDX-License-Identifier: MIT */
/* A log's times as people write them. */
#include "datafile/parts.h"

#include <stdio.h>

static const double DAY = 86400;

/* The civil date of a day number: the inverse of datafile_days. */
static void civil(long days, int *year, int *month, int *day)
{
    const long z = days + 719468, era = z / 146097, of = z - era * 146097;
    const long y = (of - of / 1460 + of / 36524 - of / 146096) / 365, in = of - (365 * y + y / 4 - y / 100);
    const long m = (5 * in + 2) / 153;
    *day = (int)(in - (153 * m + 2) / 5 + 1);
    *month = (int)(m < 10 ? m + 3 : m - 9);
    *year = (int)(y + era * 400 + (*month <= 2));
}

char *fv_logfile_stamp(const fv_logfile *log, double time, char *buffer, size_t size)
{
    if (!log || !buffer)
        return NULL;
    const long days = (long)floor(time / DAY), s = (long)floor(time - (double)days * DAY + 0.5);
    int year, month, day;
    if (!log->clock || !log->dated) {
        snprintf(buffer, size, "%02ld:%02ld:%02ld", s / 3600 + (log->clock ? 0 : 24 * days), s / 60 % 60, s % 60);
        return buffer;
    }
    civil(days, &year, &month, &day);
    snprintf(buffer, size, "%04d-%02d-%02d %02ld:%02ld:%02ld", year, month, day, s / 3600, s / 60 % 60, s % 60);
    return buffer;
}
