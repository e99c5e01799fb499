/* SPDX-License-Identifier: MIT */
/* Floor 1: quantities with units in text, both ways, on UDUNITS-2. SI inside. */
#ifndef FARVESSEL_UNITS_H
#define FARVESSEL_UNITS_H

#include "farvessel/base.h"

FV_C_BEGIN

typedef enum {
    FV_DIM_NUMBER,                 /* plain number: "0.6" */
    FV_DIM_COUNT,                  /* whole number >= 0 */
    FV_DIM_FRACTION,               /* 0..1, "0.6" or "60 %" */
    FV_DIM_LENGTH,                 /* m */
    FV_DIM_AREA,                   /* m2 */
    FV_DIM_VOLUME,                 /* m3 */
    FV_DIM_MASS,                   /* kg */
    FV_DIM_TIME,                   /* s; "90 min", "2 h", "6 h 30 min", "2 d" */
    FV_DIM_TEMPERATURE,            /* K; "80 degC", "176 degF", "353 K" */
    FV_DIM_TEMPERATURE_DIFFERENCE, /* K; "10 K", "10 degC", "18 degF" are differences here */
    FV_DIM_GAUGE_PRESSURE,         /* Pa above the site's air: "0.25 bar", "4 psi", "30 mmH2O"; "psig" and "barg" too;
                                      "psia"/"bara" refused with a hint */
    FV_DIM_ABSOLUTE_PRESSURE,      /* Pa; "1013 hPa"; "psig"/"barg" refused */
    FV_DIM_POWER,                  /* W; "24 kW", "2.4 boiler_horsepower", "80000 Btu/h" */
    FV_DIM_ENERGY,                 /* J; "12.8 kWh" */
    FV_DIM_MASS_FLOW,              /* kg/s; "20 kg/h", "45 lb/h" */
    FV_DIM_VELOCITY,               /* m/s; "5 m/s", "10 mph" */
    FV_DIM_DENSITY,                /* kg/m3 */
    FV_DIM_CONDUCTIVITY,           /* W/m/K */
    FV_DIM_SPECIFIC_HEAT,          /* J/kg/K */
    FV_DIM_HEAT_CAPACITY,          /* J/K */
    FV_DIM_HEAT_COEFFICIENT,       /* W/m2/K */
    FV_DIM_HEAT_PER_LENGTH,        /* W/m */
    FV_DIM_ENERGY_PER_MASS,        /* J/kg; "12.8 kWh/kg" */
    FV_DIM_ANGLE,                  /* rad; "45 deg" */
    FV_DIM_FLOW_COEFFICIENT,       /* Kv, m3/h of water at 1 bar: "12 m3/h", "12", "14 Cv" */
    FV_DIM_PRICE,                  /* plain number >= 0 in the stock's currency */
    FV_DIM_TEXT,                   /* free text */
    FV_DIM_ID,                     /* a name: letters, digits, - _ . */
    FV_DIM_WORD,                   /* one of a list */
    FV_DIM_KINDS
} fv_dim;

const char *fv_dim_name(fv_dim dim);        /* "a length" */
const char *fv_dim_example(fv_dim dim);     /* "19 mm or 3/4 in" */
const char *fv_dim_si_unit(fv_dim dim);     /* "m"; "" for plain numbers */
const char *fv_dim_json_suffix(fv_dim dim); /* "_m", "_pa_gauge", "_kg_s", "_w"; "" for plain numbers */

/* The unit system: some 130 common units built in, all of UDUNITS-2's for the rest; its database takes about 5 ms to
 * read and is read when first needed. Any number of threads may share one. NULL: no unit database or no memory, said in
 * faults. */
typedef struct fv_units fv_units;
fv_units *fv_units_new(fv_faults *faults);
void fv_units_free(fv_units *units);

/* Text (UTF-8, at most 200 bytes; NULL counts as empty) to SI. The decimal mark is a point in every locale. On failure
 * returns FV_FAIL, leaves *si alone and writes one line to `why` (malloc'ed, for the caller to free; `why` may be NULL
 * if not wanted; *why is NULL on success, and when memory is out), which names the expected dimension with an example:
 * `a bare number; expected a length with its unit, such as "19 mm" or "3/4 in"`. Other lines begin like
 * `is a temperature; `, `has a decimal comma; write "1.5 m"; `, `unknown unit "KW", perhaps "kW"; `, so they read well
 * after `bore="80 degC": `. `units` NULL: only the built-in units are known. */
fv_status fv_quantity_parse(const fv_units *units, fv_dim dim, const char *text, double *si, char **why);

/* SI to text that parses back to the same double, in the unit a grower would write that makes the shortest number
 * ("19 mm", "0.75 in", "2.4 boiler_hp"). False: no memory, or no such text (not finite, below absolute zero, TEXT). */
bool fv_quantity_write(fv_dim dim, double si, fv_text *out);
/* The same into a buffer of the caller's, without memory. False: no such text, or it does not fit; 80 bytes do. */
bool fv_quantity_print(fv_dim dim, double si, char *buffer, size_t size);

/* Unit choice for people. Shows a value in the display unit of the system with sensible digits. */
typedef enum { FV_METRIC, FV_US } fv_unit_system;
typedef enum {
    FV_SHOW_BORE,                   /* mm | in */
    FV_SHOW_LENGTH,                 /* m | ft */
    FV_SHOW_AREA,                   /* m2 | ft2 */
    FV_SHOW_VOLUME,                 /* L | gal */
    FV_SHOW_MASS,                   /* kg | lb */
    FV_SHOW_PRESSURE,               /* mbar | psi, gauge or difference */
    FV_SHOW_TEMPERATURE,            /* degC | degF */
    FV_SHOW_TEMPERATURE_DIFFERENCE, /* K | degF */
    FV_SHOW_STEAM,                  /* kg/h | lb/h */
    FV_SHOW_POWER,                  /* kW | Btu/h (thousands: MBH is jargon, so kBtu/h) */
    FV_SHOW_ENERGY,                 /* kWh | kBtu */
    FV_SHOW_VELOCITY,               /* m/s | ft/s */
    FV_SHOW_HEAT_PER_LENGTH,        /* W/m | Btu/h/ft */
    FV_SHOW_SHARE,                  /* % */
    FV_SHOW_WATER,                  /* kg | gal, at 1000 kg/m3 */
    FV_SHOW_WIND,                   /* m/s | mph */
    FV_SHOW_DROP,                   /* mbar | inH2O, inches of water: small differences of pressure */
    FV_SHOW_NUMBER,
    FV_SHOW_KINDS
} fv_show;
const char *fv_show_unit(fv_unit_system system, fv_show show);
double fv_show_value(fv_unit_system system, fv_show show, double si);
/* Number alone, 3 significant digits but never more decimals than the kind deserves (bore: 1 in mm, 3 in inches); whole
 * digits are never rounded away (12346 kg), exponents only from ten millions on, at most 8 characters below that. "-"
 * for NaN. Into buffer (16 bytes do), which is returned. */
char *fv_show_number(fv_unit_system system, fv_show show, double si, char *buffer, size_t size);

FV_C_END

#endif
