/* SPDX-License-Identifier: MIT */
/* What the files of this folder share: one unit as a ratio and powers, the built-in units, reading text. */
#ifndef FARVESSEL_UNITS_UNIT_H
#define FARVESSEL_UNITS_UNIT_H

#include "farvessel/units.h"

enum {
    FV_TEXT_LIMIT = 200, /* bytes of one quantity in a file */
    FV_WORD_LIMIT = 40,  /* letters of one unit word */
    FV_BASE_COUNT = 8
};

/* Powers of m, kg, s, K, rad, A, mol, cd. */
typedef struct {
    signed char of[FV_BASE_COUNT];
} fv_powers;

/* What a unit says beside its size. */
typedef enum { FV_SAYS_NOTHING, FV_SAYS_GAUGE, FV_SAYS_ABSOLUTE, FV_SAYS_CV } fv_says;

/* SI = (value + zero) * num / den. The ratio is kept in two exact numbers where it has them, so that "19 mm" becomes
 * the double nearest to 0.019. */
typedef struct {
    double num, den, zero;
    fv_powers powers;
    fv_says says;
} fv_unit;

bool fv_powers_equal(fv_powers a, fv_powers b);

/* Built-in units (table.c). The definition is what UDUNITS-2 has to agree with. */
typedef struct {
    const char *word;
    const char *definition;
    fv_unit unit;
} fv_unit_row;
extern const fv_unit_row fv_unit_rows[];
extern const size_t fv_unit_row_count;
const fv_unit_row *fv_unit_find(const char *word);
/* Why a word is refused although it is a unit ("hp": an engine's or a boiler's?); NULL when it is not. */
const char *fv_unit_refusal(const char *word);
/* The built-in word that was probably meant: right but for letter case, or one slip apart; NULL: none. One of `wanted`
 * goes first; `any_kind` false: only such a one. */
const char *fv_unit_nearest(const char *word, fv_powers wanted, bool any_kind);

/* The word in UDUNITS-2's database, read when first needed (database.c). */
typedef enum { FV_LOOKUP_FOUND, FV_LOOKUP_UNKNOWN, FV_LOOKUP_NO_DATABASE } fv_lookup;
fv_lookup fv_database_find(const fv_units *units, const char *word, fv_unit *unit);

/* Rewrites the ways to write the same thing into ASCII: no-break spaces, fractions, powers, degrees, primes, minus
 * signs. `ascii` holds 2 * FV_TEXT_LIMIT + 1. False: a character that no quantity has, said in problem. */
bool fv_ascii_from(const char *text, char *ascii, fv_text *problem);

/* Reads a number at `at`; returns what follows it. NULL: said in problem. Point form in every locale. */
const char *fv_number_read(const char *at, double *value, bool *whole, fv_text *problem);
/* snprintf of "%.*g" or "%.*f" with a point in every locale. */
void fv_number_print(char *buffer, size_t size, char form, int precision, double value);

/* Reads a unit at `at` ("W/m2/K"); returns what follows it. NULL: said in problem. `units` NULL: built-in units only.
 * `in_parts`: a quantity of this kind may continue after the unit ("6h30min"), so digits stand for the next part. */
const char *fv_expression_read(const fv_units *units, const char *at, fv_powers wanted, bool in_parts, fv_unit *unit,
                               fv_text *problem);

/* What the dimensions are (dimension.c). */
typedef enum { FV_KIND_PLAIN, FV_KIND_UNIT, FV_KIND_OTHER } fv_dim_kind;
fv_dim_kind fv_dim_kind_of(fv_dim dim);
fv_powers fv_dim_powers(fv_dim dim);
/* `a length with its unit, such as "19 mm" or "3/4 in"` */
void fv_dim_expect(fv_dim dim, fv_text *out);
/* "a length", from the powers alone; NULL: a kind without a name here. */
const char *fv_powers_name(fv_powers powers);

#endif
