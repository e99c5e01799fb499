/* SPDX-License-Identifier: MIT */
/* Dates and times of day as loggers write them. */
#include "datafile/parts.h"

#include <ctype.h>
#include <string.h>
#include <strings.h>

/* Days from the civil calendar: years begin in March, eras of 400 years have 146 097 days. */
double datafile_days(int year, int month, int day)
{
    static const int length[12] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    if (year < 1970 || year > 2200 || month < 1 || month > 12 || day < 1 ||
        day > length[month - 1] + (month == 2 && leap))
        return NAN;
    const int y = year - (month <= 2), m = (month + 9) % 12;
    return 365.0 * y + y / 4 - y / 100 + y / 400 + (153 * m + 2) / 5 + day - 1 - 719468;
}

/* Up to `most` digits; how many there were. */
static int digits(const char **c, int most, int *value)
{
    int n = 0;
    *value = 0;
    for (; n < most && isdigit((unsigned char)**c); n++)
        *value = 10 * *value + (*(*c)++ - '0');
    return n;
}

static int month_word(const char **c)
{
    static const char *const names[12] = {"jan", "feb", "mar", "apr", "may", "jun",
                                          "jul", "aug", "sep", "oct", "nov", "dec"};
    for (int i = 0; i < 12; i++)
        if (strncasecmp(*c, names[i], 3) == 0) {
            while (isalpha((unsigned char)**c) || **c == '.')
                (*c)++;
            return i + 1;
        }
    return 0;
}

static bool mark(const char **c, const char *marks)
{
    if (!**c || !strchr(marks, **c))
        return false;
    (*c)++;
    return true;
}

static bool read_date(const char **c, datafile_stamp *s)
{
    const char *at = *c;
    int a, b = 0, third, n = digits(&at, 4, &a);
    if ((n != 1 && n != 2 && n != 4) || !mark(&at, "-/. "))
        return false;
    const int word = n < 4 ? month_word(&at) : 0;
    if ((!word && digits(&at, 2, &b) == 0) || !mark(&at, "-/. "))
        return false;
    const int m = digits(&at, 4, &third);
    if (n == 4 && (m == 1 || m == 2)) {
        *s = (datafile_stamp){.named = true, .year = a, .second = b, .first = third};
    } else if (n < 4 && (m == 4 || m == 2)) {
        const int year = m == 4 ? third : third + (third < 70 ? 2000 : 1900);
        *s = (datafile_stamp){.named = word > 0, .year = year, .first = a, .second = word ? word : b};
    } else {
        return false;
    }
    s->date = true;
    *c = at;
    return true;
}

static void skip_blanks(const char **c)
{
    while (**c == ' ')
        (*c)++;
}

/* am, PM, a.m. */
static bool read_half(const char **c, int *hour)
{
    const char *at = *c;
    skip_blanks(&at);
    const int half = tolower((unsigned char)*at);
    if (half != 'a' && half != 'p')
        return true;
    at++;
    if (*at == '.')
        at++;
    if (tolower((unsigned char)*at) != 'm')
        return true;
    at++;
    if (*at == '.')
        at++;
    if (*hour < 1 || *hour > 12)
        return false;
    *hour = *hour % 12 + (half == 'p' ? 12 : 0);
    *c = at;
    return true;
}

/* Z, +02:00, -0700. */
static bool read_offset(const char **c, double *offset)
{
    int hours, minutes = 0;
    if (**c == 'Z' || **c == 'z') {
        (*c)++;
        *offset = 0;
        return true;
    }
    if (**c != '+' && **c != '-')
        return true;
    const double sign = **c == '-' ? -1 : 1;
    (*c)++;
    if (digits(c, 2, &hours) != 2)
        return false;
    mark(c, ":");
    digits(c, 2, &minutes);
    *offset = sign * (3600.0 * hours + 60.0 * minutes);
    return true;
}

static bool read_time(const char **c, datafile_stamp *s)
{
    int hour, minute, second = 0;
    double share = 0, place = 0.1;
    const char *at = *c;
    const int n = digits(&at, 4, &hour);
    if (n == 0 || !mark(&at, ":") || digits(&at, 2, &minute) != 2)
        return false;
    if (mark(&at, ":") && digits(&at, 2, &second) != 2)
        return false;
    if (mark(&at, ".,"))
        for (; isdigit((unsigned char)*at); at++, place /= 10)
            share += place * (*at - '0');
    if (!read_half(&at, &hour) || !read_offset(&at, &s->offset) || minute > 59 || second > 60)
        return false;
    s->seconds = 3600.0 * hour + 60.0 * minute + second + share;
    s->time = true;
    *c = at;
    return true;
}

bool datafile_stamp_read(const char *text, datafile_stamp *stamp)
{
    const char *c = text;
    *stamp = (datafile_stamp){0};
    skip_blanks(&c);
    const bool date = read_date(&c, stamp);
    stamp->offset = NAN;
    if (date) {
        if (*c == 'T' || *c == 't' || *c == ',')
            c++;
        skip_blanks(&c);
    }
    const bool time = *c && read_time(&c, stamp);
    skip_blanks(&c);
    return (date || time) && !*c && (!date || !time || stamp->seconds < 86401);
}

double datafile_duration(const char *text)
{
    datafile_stamp stamp;
    double sum = 0;
    int parts = 0;
    if (datafile_stamp_read(text, &stamp) && stamp.time && !stamp.date)
        return stamp.seconds;
    for (const char *c = text; *c;) {
        double value = 0, place = 0;
        while (*c == ' ')
            c++;
        if (!isdigit((unsigned char)*c))
            return parts ? sum : NAN;
        for (; isdigit((unsigned char)*c) || *c == '.' || *c == ','; c++)
            if (isdigit((unsigned char)*c)) {
                value = place > 0 ? value + place * (*c - '0') : 10 * value + (*c - '0');
                place /= 10;
            } else {
                place = 0.1;
            }
        while (*c == ' ')
            c++;
        const int unit = tolower((unsigned char)*c);
        const bool milli = unit == 'm' && tolower((unsigned char)c[1]) == 's';
        sum += value * (milli ? 1e-3 : unit == 'm' ? 60 : unit == 'h' ? 3600 : unit == 'd' ? 86400 : 1);
        while (isalpha((unsigned char)*c) || *c == '.')
            c++;
        parts++;
    }
    return parts ? sum : NAN;
}
