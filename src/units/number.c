/* SPDX-License-Identifier: MIT */
/* Numbers as people write them: 1.5, 1e3, 3/4, 1 1/2, 1-1/2. The decimal mark is a point whatever the locale. */
#include "units/unit.h"

#include <ctype.h>
#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

static const char *past_digits(const char *at)
{
    while (isdigit((unsigned char)*at))
        at++;
    return at;
}

static const char *past_spaces(const char *at)
{
    while (*at == ' ')
        at++;
    return at;
}

/* strtod reads the locale's decimal mark, so it gets that one. */
static double to_double(const char *at, size_t length)
{
    char copy[2 * UNITS_TEXT_LIMIT + 16];
    const char *mark = localeconv()->decimal_point;
    size_t n = 0;
    for (size_t i = 0; i < length && n + strlen(mark) + 1 < sizeof copy; i++) {
        if (at[i] == '.') {
            memcpy(copy + n, mark, strlen(mark));
            n += strlen(mark);
        } else {
            copy[n++] = at[i];
        }
    }
    copy[n] = '\0';
    return strtod(copy, NULL);
}

void units_number_print(char *buffer, size_t size, char form, int precision, double value)
{
    snprintf(buffer, size, form == 'f' ? "%.*f" : form == 'e' ? "%.*e" : "%.*g", precision, value);
    const char *mark = localeconv()->decimal_point;
    char *found = strcmp(mark, ".") ? strstr(buffer, mark) : NULL;
    if (found) {
        *found = '.';
        memmove(found + 1, found + strlen(mark), strlen(found + strlen(mark)) + 1);
    }
}

/* "3/4" at `at`, blanks about the stroke allowed; NULL: no fraction stands here. */
static const char *read_fraction(const char *at, double *top, double *bottom)
{
    const char *end = past_digits(at);
    const char *stroke = past_spaces(end);
    const char *low = past_spaces(stroke + (*stroke == '/'));
    if (end == at || *stroke != '/' || !isdigit((unsigned char)*low))
        return NULL;
    *top = to_double(at, (size_t)(end - at));
    *bottom = to_double(low, (size_t)(past_digits(low) - low));
    return past_digits(low);
}

/* A mixed number or a fraction; NULL: neither. */
static const char *read_mixed(const char *at, double *value, bool *by_zero)
{
    double top, bottom, ones = 0.0;
    const char *end = read_fraction(at, &top, &bottom);
    if (!end) {
        const char *rest = past_digits(at);
        const char *next = past_spaces(rest);
        if (rest == at)
            return NULL;
        if (next == rest && *next == '-')
            next++;
        end = next == rest ? NULL : read_fraction(next, &top, &bottom);
        if (!end)
            return NULL;
        ones = to_double(at, (size_t)(rest - at));
    }
    *by_zero = bottom == 0.0;
    *value = *by_zero ? 0.0 : (ones * bottom + top) / bottom;
    return end;
}

static const char *past_decimal(const char *at)
{
    const char *end = past_digits(at);
    if (*end == '.' && (end > at || isdigit((unsigned char)end[1])))
        end = past_digits(end + 1);
    if (end == at)
        return NULL;
    if (*end == 'e' || *end == 'E') {
        const char *power = end + 1 + (end[1] == '+' || end[1] == '-');
        if (isdigit((unsigned char)*power))
            end = past_digits(power);
    }
    return end;
}

static void say_comma(const char *text, const char *comma, fv_text *problem)
{
    size_t after = (size_t)(past_digits(comma + 1) - comma - 1);
    int before = (int)(comma - text);
    if (after == 3) /* "1,000 mm" may be one or a thousand */
        fv_text_add(problem, "has a comma; write \"%.*s.%s\" or \"%.*s%s\", whichever is meant", before, text,
                    comma + 1, before, text, comma + 1);
    else
        fv_text_add(problem, "has a decimal comma; write \"%.*s.%s\"", before, text, comma + 1);
}

/* Whether the digits before the exponent are all zeros: a zero that was meant, not one that a double made. */
static bool all_zero(const char *at, const char *end)
{
    for (; at < end && *at != 'e' && *at != 'E'; at++)
        if (*at >= '1' && *at <= '9')
            return false;
    return true;
}

static bool not_finite_word(const char *at)
{
    return !strncasecmp(at, "nan", 3) || !strncasecmp(at, "inf", 3);
}

const char *units_number_read(const char *at, double *value, bool *whole, fv_text *problem)
{
    const char *text = at;
    bool negative = *at == '-', by_zero = false;
    if (*at == '-' || *at == '+')
        at = past_spaces(at + 1);
    const char *end = read_mixed(at, value, &by_zero);
    bool mixed = end != NULL;
    if (!mixed)
        end = past_decimal(at);
    if (!end) {
        fv_text_add(problem, not_finite_word(at) ? "is not a finite number" : "does not begin with a number");
        return NULL;
    }
    if (*end == ',' && isdigit((unsigned char)end[1])) {
        say_comma(text, end, problem);
        return NULL;
    }
    if (by_zero) {
        fv_text_add(problem, "divides by zero");
        return NULL;
    }
    const char *stroke = past_spaces(end);
    if ((mixed && *end == '.' && isdigit((unsigned char)end[1])) ||
        (*stroke == '/' && isdigit((unsigned char)*past_spaces(stroke + 1)))) {
        fv_text_add(problem, "has a fraction that is not of two whole numbers, as 3/4 is");
        return NULL;
    }
    if (!mixed)
        *value = to_double(at, (size_t)(end - at));
    if (!isfinite(*value) || (*value == 0.0 && !mixed && !all_zero(at, end))) {
        fv_text_add(problem, *value == 0.0 ? "is too small a number" : "is too large a number");
        return NULL;
    }
    *whole = !mixed && past_digits(at) == end;
    if (negative)
        *value = -*value;
    return end;
}
