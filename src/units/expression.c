/* SPDX-License-Identifier: MIT */
/* Unit expressions as the trade writes them: "W/m2/K", "W/(m2 K)", "W/m2K", "W/mK", "kg h-1", "Btu/h ft2 degF".
 *
 * Everything after a stroke stands below it, up to a closing parenthesis: "W/m2 K" is W/(m2 K), the trade's meaning.
 * A word after a stroke that ends in K, degC or degF and is no built-in unit is taken apart: "W/mK" is W/(m K), not
 * watts per millikelvin. Products drop the zero of a temperature scale: "W/m2/degC" is W/m2/K. */
#include "units/unit.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

enum { DEPTH_LIMIT = 4, POWER_LIMIT = 9 };

typedef struct {
    const fv_units *units;
    const char *at;
    units_powers wanted;
    bool in_parts;
    int depth;
    int words; /* read so far */
    units_unit unit;
    fv_text *problem;
} reader;

static bool read_product(reader *r, int sign);

static void skip_spaces(reader *r)
{
    while (*r->at == ' ')
        r->at++;
}

static bool multiply(reader *r, const units_unit *by, int power)
{
    units_unit *unit = &r->unit;
    bool alone = r->words == 0 && power == 1;
    for (int i = 0; i < abs(power); i++) {
        unit->num *= power > 0 ? by->num : by->den;
        unit->den *= power > 0 ? by->den : by->num;
    }
    for (size_t i = 0; i < UNITS_BASE_COUNT; i++) {
        int sum = unit->powers.of[i] + by->powers.of[i] * power;
        if (abs(sum) > 100) {
            fv_text_add(r->problem, "has powers in its unit that no quantity has");
            return false;
        }
        unit->powers.of[i] = (signed char)sum;
    }
    unit->zero = alone ? by->zero : 0.0;
    unit->says = alone ? by->says : UNITS_SAYS_NOTHING;
    r->words++;
    return true;
}

/* Digits right after a word are a power ("m2"), unless the quantity continues in parts ("6h30min", "2ft6in"). */
static bool digits_are_power(const reader *r)
{
    if (!r->in_parts)
        return true;
    return isdigit((unsigned char)r->at[0]) && (!r->at[1] || strchr(" )*/", r->at[1]) != NULL);
}

static bool read_power(reader *r, int *power)
{
    const char *at = r->at;
    bool marked = *at == '^' || (at[0] == '*' && at[1] == '*');
    if (marked)
        at += *at == '^' ? 1 : 2;
    bool negative = *at == '-';
    if (*at == '-' || (marked && *at == '+'))
        at++;
    if (!isdigit((unsigned char)*at) || (!marked && negative && r->in_parts) || (!marked && !digits_are_power(r))) {
        if (marked)
            fv_text_add(r->problem, "has no whole number after \"^\" in its unit");
        return !marked;
    }
    long value = strtol(at, (char **)&r->at, 10);
    if (value > POWER_LIMIT) {
        fv_text_add(r->problem, "has powers in its unit that no quantity has");
        return false;
    }
    *power *= negative ? -(int)value : (int)value;
    return true;
}

/* Letters and underscores; digits too in names such as H2O and water_60F. */
static size_t word_length(const char *at)
{
    size_t n = 0;
    bool joined = false;
    for (;; n++) {
        joined = joined || at[n] == '_';
        bool water =
            n > 0 && (at[n - 1] == 'H' || at[n - 1] == 'h') && at[n] == '2' && toupper((unsigned char)at[n + 1]) == 'O';
        if (!isalpha((unsigned char)at[n]) && at[n] != '_' && !water && !(joined && isdigit((unsigned char)at[n])))
            return n;
    }
}

/* "deg C" and "degrees C" become degC. */
static void join_degrees(reader *r, char *word)
{
    const char *next = r->at;
    while (*next == ' ')
        next++;
    if (word_length(next) == 1 && strchr("CFK", *next)) {
        memcpy(word, "degC", sizeof "degC");
        word[3] = *next;
        r->at = next + 1;
    }
}

/* "bar(g)", "bar g" at the end of the text become barg, likewise with a for absolute. */
static void join_gauge(reader *r, char *word)
{
    const char *next = r->at;
    bool parenthesis = *next == '(';
    while (*next == ' ' || (parenthesis && *next == '('))
        next++;
    size_t length = strlen(word);
    if ((*next != 'g' && *next != 'a') || length + 2 > UNITS_WORD_LIMIT || strcmp(next + 1, parenthesis ? ")" : ""))
        return;
    word[length] = *next;
    word[length + 1] = '\0';
    const units_unit_row *row = units_unit_find(word);
    if (row && row->unit.says != UNITS_SAYS_NOTHING)
        r->at = next + strlen(next);
    else
        word[length] = '\0';
}

/* Takes one word off the text: `"`, `'`, `%` or letters. */
static bool take_word(reader *r, char *word)
{
    size_t length = strchr("\"'%", *r->at) ? 1 : word_length(r->at);
    if (length >= UNITS_WORD_LIMIT) {
        fv_text_add(r->problem, "unknown unit \"%.*s...\"", UNITS_WORD_LIMIT - 1, r->at);
        return false;
    }
    memcpy(word, r->at, length);
    word[length] = '\0';
    r->at += length;
    if (!strcmp(word, "deg") || !strcmp(word, "degree") || !strcmp(word, "degrees"))
        join_degrees(r, word);
    else
        join_gauge(r, word);
    return true;
}

static void say_unknown(reader *r, const char *word, bool no_database)
{
    const char *nearest = units_unit_nearest(word, r->wanted, true);
    fv_text_add(r->problem, "unknown unit \"%s\"", word);
    if (nearest)
        fv_text_add(r->problem, ", perhaps \"%s\"", nearest);
    else if (no_database)
        fv_text_add(r->problem, " (not built in, and the unit database cannot be read)");
}

/* "mK" after a stroke is m K. */
static const units_unit_row *front_of_temperature(const char *word, const char **temperature)
{
    static const char *const tails[] = {"degC", "degF", "K"};
    size_t length = strlen(word);
    for (size_t i = 0; i < sizeof tails / sizeof *tails; i++) {
        size_t tail = strlen(tails[i]);
        if (length <= tail || strcmp(word + length - tail, tails[i]))
            continue;
        char front[UNITS_WORD_LIMIT];
        memcpy(front, word, length - tail);
        front[length - tail] = '\0';
        *temperature = tails[i];
        return units_unit_find(front);
    }
    return NULL;
}

static bool find_word(reader *r, const char *word, units_unit *unit)
{
    const units_unit_row *row = units_unit_find(word);
    if (row) {
        *unit = row->unit;
        return true;
    }
    const char *refusal = units_unit_refusal(word);
    if (refusal) {
        fv_text_add(r->problem, "\"%s\" %s", word, refusal);
        return false;
    }
    units_lookup found = r->units ? units_database_find(r->units, word, unit) : UNITS_LOOKUP_UNKNOWN;
    if (found != UNITS_LOOKUP_FOUND)
        say_unknown(r, word, found == UNITS_LOOKUP_NO_DATABASE);
    return found == UNITS_LOOKUP_FOUND;
}

static int square_or_cube(const char *word)
{
    return !strcmp(word, "sq") || !strcmp(word, "square") ? 2 : !strcmp(word, "cu") || !strcmp(word, "cubic") ? 3 : 1;
}

static bool read_word(reader *r, int sign)
{
    char word[UNITS_WORD_LIMIT];
    if (!take_word(r, word))
        return false;
    int power = sign * square_or_cube(word);
    if (abs(power) > 1) {
        skip_spaces(r);
        if (isalpha((unsigned char)*r->at) && !take_word(r, word))
            return false;
    }
    const char *temperature;
    const units_unit_row *front = sign < 0 && !units_unit_find(word) ? front_of_temperature(word, &temperature) : NULL;
    if (front)
        return multiply(r, &front->unit, sign) && multiply(r, &units_unit_find(temperature)->unit, sign);
    units_unit unit;
    if (!find_word(r, word, &unit))
        return false;
    /* No power after a quote: 2'6" is feet and inches. */
    if (word[0] != '\'' && word[0] != '"' && !read_power(r, &power))
        return false;
    return multiply(r, &unit, power);
}

static bool read_factor(reader *r, int sign)
{
    skip_spaces(r);
    if (*r->at != '(')
        return read_word(r, sign);
    if (++r->depth > DEPTH_LIMIT) {
        fv_text_add(r->problem, "has too many parentheses in its unit");
        return false;
    }
    r->at++;
    int before = r->words;
    if (!read_product(r, sign))
        return false;
    if (r->words == before) {
        fv_text_add(r->problem, "has nothing after \"(\" in its unit");
        return false;
    }
    if (*r->at != ')') {
        fv_text_add(r->problem, "has \"(\" without \")\" in its unit");
        return false;
    }
    r->at++;
    r->depth--;
    return true;
}

static bool starts_factor(const char *at)
{
    return *at && (isalpha((unsigned char)*at) || strchr("_%'\"(", *at));
}

static bool is_per(const char *at)
{
    return !strncmp(at, "per", 3) && word_length(at) == 3;
}

static bool read_product(reader *r, int entered)
{
    int sign = entered;
    for (;;) {
        skip_spaces(r);
        const char *mark = r->at;
        if (*mark == '/' || is_per(mark)) {
            sign = -entered;
            r->at += *mark == '/' ? 1 : 3;
        } else if (*mark == '*' || *mark == '.' || (*mark == '-' && isalpha((unsigned char)mark[1]))) {
            r->at++;
        } else if (!starts_factor(mark)) {
            return true;
        } else {
            mark = NULL;
        }
        skip_spaces(r);
        if (mark && !starts_factor(r->at)) {
            if (*mark == '.' && !*r->at) /* "3/4 in." */
                return true;
            fv_text_add(r->problem, "has nothing after \"%.*s\" in its unit", *mark == 'p' ? 3 : 1, mark);
            return false;
        }
        if (!read_factor(r, sign))
            return false;
    }
}

const char *units_expression_read(const fv_units *units, const char *at, units_powers wanted, bool in_parts,
                                  units_unit *unit, fv_text *problem)
{
    reader r = {.units = units,
                .at = at,
                .wanted = wanted,
                .in_parts = in_parts,
                .unit = {.num = 1.0, .den = 1.0},
                .problem = problem};
    if (!read_product(&r, 1))
        return NULL;
    *unit = r.unit;
    return r.at;
}
