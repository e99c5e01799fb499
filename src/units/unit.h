/* SPDX-License-Identifier: MIT */
/* What the files of this folder share: one unit as a ratio and powers, the built-in units, reading text. */
#ifndef FARVESSEL_UNITS_UNIT_H
#define FARVESSEL_UNITS_UNIT_H

#include "farvessel/units.h"

enum {
    UNITS_TEXT_LIMIT = 200, /* bytes of one quantity in a file */
    UNITS_WORD_LIMIT = 40,  /* letters of one unit word */
    UNITS_BASE_COUNT = 8
};

/* Powers of m, kg, s, K, rad, A, mol, cd. */
typedef struct {
    signed char of[UNITS_BASE_COUNT];
} units_powers;

/* What a unit says beside its size. */
typedef enum { UNITS_SAYS_NOTHING, UNITS_SAYS_GAUGE, UNITS_SAYS_ABSOLUTE, UNITS_SAYS_CV } units_says;

/* SI = (value + zero) * num / den. The ratio is kept in two exact numbers where it has them, so that "19 mm" becomes
 * the double nearest to 0.019. */
typedef struct {
    double num, den, zero;
    units_powers powers;
    units_says says;
} units_unit;

bool units_powers_equal(units_powers a, units_powers b);

/* Built-in units (table.c). The definition is what UDUNITS-2 has to agree with. */
typedef struct {
    const char *word;
    const char *definition;
    units_unit unit;
} units_unit_row;
extern const units_unit_row units_unit_rows[];
extern const size_t units_unit_row_count;
const units_unit_row *units_unit_find(const char *word);
/* Why a word is refused although it is a unit ("hp": an engine's or a boiler's?); NULL when it is not. */
const char *units_unit_refusal(const char *word);
/* The built-in word that was probably meant: right but for letter case, or one slip apart; NULL: none. One of `wanted`
 * goes first; `any_kind` false: only such a one. */
const char *units_unit_nearest(const char *word, units_powers wanted, bool any_kind);

/* The word in UDUNITS-2's database, read when first needed (database.c). */
typedef enum { UNITS_LOOKUP_FOUND, UNITS_LOOKUP_UNKNOWN, UNITS_LOOKUP_NO_DATABASE } units_lookup;
units_lookup units_database_find(const fv_units *units, const char *word, units_unit *unit);

/* Rewrites the ways to write the same thing into ASCII: no-break spaces, fractions, powers, degrees, primes, minus
 * signs. `ascii` holds 2 * UNITS_TEXT_LIMIT + 1. False: a character that no quantity has, said in problem. */
bool units_ascii_from(const char *text, char *ascii, fv_text *problem);

/* Reads a number at `at`; returns what follows it. NULL: said in problem. Point form in every locale. */
const char *units_number_read(const char *at, double *value, bool *whole, fv_text *problem);
/* snprintf of "%.*g" or "%.*f" with a point in every locale. */
void units_number_print(char *buffer, size_t size, char form, int precision, double value);

/* Reads a unit at `at` ("W/m2/K"); returns what follows it. NULL: said in problem. `units` NULL: built-in units only.
 * `in_parts`: a quantity of this kind may continue after the unit ("6h30min"), so digits stand for the next part. */
const char *units_expression_read(const fv_units *units, const char *at, units_powers wanted, bool in_parts,
                                  units_unit *unit, fv_text *problem);

/* What the dimensions are (dimension.c). */
typedef enum { UNITS_KIND_PLAIN, UNITS_KIND_UNIT, UNITS_KIND_OTHER } units_dim_kind;
units_dim_kind units_dim_kind_of(fv_dim dim);
units_powers units_dim_powers(fv_dim dim);
/* `a length with its unit, such as "19 mm" or "3/4 in"` */
void units_dim_expect(fv_dim dim, fv_text *out);
/* "a length", from the powers alone; NULL: a kind without a name here. */
const char *units_powers_name(units_powers powers);

#endif
