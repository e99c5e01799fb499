/* SPDX-License-Identifier: MIT */
/* Text to SI: a number with its unit, or several parts of one quantity ("6 h 30 min", "2 ft 6 in"). */
#include "units/unit.h"

#include <math.h>
#include <string.h>

enum { COUNT_LIMIT = 1000000000 };

typedef struct {
    const fv_units *units;
    fv_dim dim;
    units_powers wanted;
    const char *at;
    bool later_part; /* past the first number and unit */
    fv_text problem;
} reading;

static bool fail(reading *r, const char *problem)
{
    fv_text_add(&r->problem, "%s", problem);
    return false;
}

static void skip_spaces(reading *r)
{
    while (*r->at == ' ')
        r->at++;
}

/* Kinds whose quantities people write in parts. */
static bool comes_in_parts(fv_dim dim)
{
    return dim == FV_DIM_LENGTH || dim == FV_DIM_TIME || dim == FV_DIM_MASS;
}

static bool starts_number(const char *at)
{
    return *at >= '0' && *at <= '9';
}

/* What follows a finished quantity and should not be there. */
static bool fail_on_rest(reading *r)
{
    if (starts_number(r->at))
        return fail(r, "has two numbers in a row");
    fv_text_add(&r->problem, "has an unexpected \"%s\" at its end", fv_shorten(r->at, 20).text);
    return false;
}

/* "is a temperature"; where the database knows a rare word ("5 T", "4 pis"), with the common one that was meant. */
static bool fail_on_kind(reading *r, const char *unit_text, size_t length, units_powers powers)
{
    const char *name = units_powers_name(powers);
    const char *meant = NULL;
    char word[UNITS_WORD_LIMIT];
    if (length < sizeof word) {
        memcpy(word, unit_text, length);
        word[length] = '\0';
        meant = units_unit_find(word) ? NULL : units_unit_nearest(word, r->wanted, false);
    }
    fv_text_add(&r->problem, "is %s", name ? name : "another kind of quantity");
    if (meant)
        fv_text_add(&r->problem, ", perhaps \"%s\" was meant", meant);
    return false;
}

static bool check_gauge(reading *r, const char *unit_text, size_t length, units_says says)
{
    if (r->dim == FV_DIM_GAUGE_PRESSURE && says == UNITS_SAYS_ABSOLUTE) {
        fv_text_add(&r->problem, "\"%.*s\" is absolute, but this pressure counts from the site's air", (int)length,
                    unit_text);
        return false;
    }
    if (r->dim == FV_DIM_ABSOLUTE_PRESSURE && says == UNITS_SAYS_GAUGE) {
        fv_text_add(&r->problem, "\"%.*s\" counts from the site's air, but this pressure is absolute", (int)length,
                    unit_text);
        return false;
    }
    return true;
}

/* The unit at r->at, which has to be of the wanted kind. */
static bool read_unit(reading *r, units_unit *unit)
{
    skip_spaces(r);
    const char *text = r->at;
    const char *end = units_expression_read(r->units, text, r->wanted, comes_in_parts(r->dim), unit, &r->problem);
    if (!end)
        return false;
    r->at = end;
    if (end == text && *text)
        return fail_on_rest(r);
    if (end == text)
        return fail(r, r->later_part ? "has a bare number at its end" : "a bare number");
    size_t length = (size_t)(end - text);
    while (length > 0 && text[length - 1] == ' ')
        length--;
    if (!units_powers_equal(unit->powers, r->wanted))
        return fail_on_kind(r, text, length, unit->powers);
    return check_gauge(r, text, length, unit->says);
}

static double to_si(const units_unit *unit, double value)
{
    return (value + unit->zero) * unit->num / unit->den;
}

/* A quantity as a ratio, so that parts in exact units add up exactly: 1 ft 6 in is (3048 + 6 * 254) / 10000 m. */
typedef struct {
    double top, den;
} ratio;

static void add_part(ratio *sum, const units_unit *unit, double value)
{
    if (unit->den > sum->den) {
        sum->top *= unit->den / sum->den;
        sum->den = unit->den;
    }
    sum->top += value * unit->num * (sum->den / unit->den);
}

/* A dash stands only right after the feet: 2'-6". */
static bool starts_part(const reading *r)
{
    bool dash = r->dim == FV_DIM_LENGTH && *r->at == '-' && r->at[-1] != ' ';
    return starts_number(r->at + dash);
}

static bool read_amount(reading *r, double *value, bool *whole, units_unit *unit)
{
    const char *end = units_number_read(r->at, value, whole, &r->problem);
    if (!end)
        return false;
    r->at = end;
    return read_unit(r, unit);
}

/* Further parts, each in a smaller unit than the one before: "30 min" after "6 h". */
static bool read_parts(reading *r, units_unit before, bool whole, ratio *sum)
{
    r->later_part = true;
    while (skip_spaces(r), starts_part(r)) {
        if (!comes_in_parts(r->dim))
            return fail(r, "has two numbers in a row");
        if (!whole)
            return fail(r, "has a fraction before its last part");
        r->at += *r->at == '-';
        double value;
        units_unit unit;
        if (!read_amount(r, &value, &whole, &unit))
            return false;
        if (unit.num / unit.den >= before.num / before.den)
            return fail(r, "has parts that do not go from large to small");
        add_part(sum, &unit, value);
        before = unit;
    }
    return true;
}

static bool read_with_unit(reading *r, double *si)
{
    double value;
    bool whole;
    units_unit unit;
    if (!read_amount(r, &value, &whole, &unit))
        return false;
    if (r->dim == FV_DIM_TEMPERATURE) {
        *si = to_si(&unit, value);
        return true;
    }
    /* The zero of the unit is left out: "10 degC" is a difference of 10 K. */
    ratio sum = {fabs(value) * unit.num, unit.den};
    if (!read_parts(r, unit, whole, &sum))
        return false;
    *si = copysign(sum.top / sum.den, value);
    return true;
}

/* Kinds that stand without a unit, or may. */
static bool read_plain(reading *r, double *si)
{
    bool whole;
    const char *end = units_number_read(r->at, si, &whole, &r->problem);
    if (!end)
        return false;
    r->at = end;
    skip_spaces(r);
    if (!*r->at)
        return true;
    units_unit unit;
    const char *text = r->at;
    end = units_expression_read(r->units, text, r->wanted, false, &unit, &r->problem);
    if (!end)
        return false;
    if (end == text)
        return fail_on_rest(r);
    r->at = end;
    if (r->dim == FV_DIM_FLOW_COEFFICIENT && units_powers_equal(unit.powers, r->wanted)) {
        /* Kv is told in m3/h at 1 bar; other volume flows belong to other pressures, as gal/min to 1 psi. */
        double per_hour = unit.num / unit.den * 3600.0;
        if (unit.says != UNITS_SAYS_CV && fabs(per_hour - 1.0) > 1e-12)
            return fail(r, "is not in m3/h, in which Kv is told");
        *si *= unit.says == UNITS_SAYS_CV ? unit.num : 1.0;
        return true;
    }
    if (r->dim == FV_DIM_FRACTION && units_powers_equal(unit.powers, r->wanted)) {
        *si = to_si(&unit, *si);
        return true;
    }
    if (units_powers_equal(unit.powers, (units_powers){{0}}))
        return fail(r, "has a unit");
    return fail_on_kind(r, text, 0, unit.powers);
}

/* What a number of the kind can be. */
static bool check_range(reading *r, double si)
{
    if (!isfinite(si))
        return fail(r, "is too large a number");
    switch (r->dim) {
    case FV_DIM_TEMPERATURE:
        return si >= 0.0 || fail(r, "is below absolute zero");
    case FV_DIM_ABSOLUTE_PRESSURE:
        return si >= 0.0 || fail(r, "is below a vacuum");
    case FV_DIM_FRACTION:
        return (si >= 0.0 && si <= 1.0) || fail(r, "is not between 0 and 1");
    case FV_DIM_COUNT:
        if (si != floor(si))
            return fail(r, "is not a whole number");
        return (si >= 0.0 && si <= COUNT_LIMIT) || fail(r, si < 0.0 ? "is below zero" : "is too large a number");
    case FV_DIM_PRICE:
        return si >= 0.0 || fail(r, "is below zero");
    default:
        return true;
    }
}

static bool read_quantity(reading *r, const char *text, double *si)
{
    char ascii[2 * UNITS_TEXT_LIMIT + 1];
    if (units_dim_kind_of(r->dim) == UNITS_KIND_OTHER)
        return fail(r, "is not a quantity");
    if (text && strlen(text) > UNITS_TEXT_LIMIT)
        return fail(r, "is longer than 200 bytes");
    if (!units_ascii_from(text ? text : "", ascii, &r->problem))
        return false;
    r->at = ascii;
    skip_spaces(r);
    if (!*r->at)
        return fail(r, "is empty");
    bool plain = units_dim_kind_of(r->dim) == UNITS_KIND_PLAIN;
    if (!(plain ? read_plain(r, si) : read_with_unit(r, si)))
        return false;
    skip_spaces(r);
    return *r->at ? fail_on_rest(r) : check_range(r, *si);
}

fv_status fv_quantity_parse(const fv_units *units, fv_dim dim, const char *text, double *si, char **why)
{
    reading r = {.units = units, .dim = dim, .wanted = units_dim_powers(dim)};
    double value = 0.0;
    bool good = read_quantity(&r, text, &value);
    if (good)
        *si = value + 0.0; /* no negative zero */
    if (why) {
        *why = NULL;
        if (!good) {
            fv_text_add(&r.problem, "; expected ");
            units_dim_expect(dim, &r.problem);
            *why = r.problem.failed ? NULL : r.problem.text;
            r.problem.text = r.problem.failed ? r.problem.text : NULL;
        }
    }
    fv_text_free(&r.problem);
    return good ? FV_OK : FV_FAIL;
}
