/* SPDX-License-Identifier: MIT */
/* Text to SI. Each row names its source:
 * "SI"     the SI brochure: prefixes, and units exact by definition.
 * "1959"   the international yard and pound: 1 yd = 0.9144 m, 1 lb = 0.45359237 kg, exact; squares and cubes of them.
 * "SP 811" NIST Special Publication 811 (2008), appendix B, with the digits it prints; from memory.
 * "UDUNITS" its database, version 2.2.28, as installed.
 * "ANSI"   a boiler horsepower as 33475 Btu_IT/h; the Btu from SP 811.
 * "IEC"    IEC 60534: Kv = 0.865 Cv; from memory.
 * "spelling" the same quantity as another row, written in another way. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "farvessel/units.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum {
    NUM = FV_DIM_NUMBER,
    CNT = FV_DIM_COUNT,
    SHARE = FV_DIM_FRACTION,
    LEN = FV_DIM_LENGTH,
    AREA = FV_DIM_AREA,
    VOL = FV_DIM_VOLUME,
    MASS = FV_DIM_MASS,
    TIME = FV_DIM_TIME,
    TEMP = FV_DIM_TEMPERATURE,
    DIFF = FV_DIM_TEMPERATURE_DIFFERENCE,
    GAUGE = FV_DIM_GAUGE_PRESSURE,
    ABSP = FV_DIM_ABSOLUTE_PRESSURE,
    POW = FV_DIM_POWER,
    ENE = FV_DIM_ENERGY,
    FLOW = FV_DIM_MASS_FLOW,
    VEL = FV_DIM_VELOCITY,
    DENS = FV_DIM_DENSITY,
    COND = FV_DIM_CONDUCTIVITY,
    SPEC = FV_DIM_SPECIFIC_HEAT,
    HCAP = FV_DIM_HEAT_CAPACITY,
    COEF = FV_DIM_HEAT_COEFFICIENT,
    HPL = FV_DIM_HEAT_PER_LENGTH,
    EPM = FV_DIM_ENERGY_PER_MASS,
    ANG = FV_DIM_ANGLE,
    KV = FV_DIM_FLOW_COEFFICIENT,
    PRICE = FV_DIM_PRICE
};

/* Exact definitions to a few roundings; seven printed digits to half of the last one. */
#define EXACT 4e-16
#define SEVEN 5e-7

static const struct {
    int dim;
    const char *text;
    double si, tolerance;
    const char *source;
} rows[] = {
    /* plain numbers */
    {NUM, "0.6", 0.6, 0, "arithmetic"},
    {NUM, "-0.6", -0.6, 0, "arithmetic"},
    {NUM, "+0.6", 0.6, 0, "arithmetic"},
    {NUM, ".6", 0.6, 0, "arithmetic"},
    {NUM, "6.", 6, 0, "arithmetic"},
    {NUM, "6e-1", 0.6, 0, "arithmetic"},
    {NUM, "6E+2", 600, 0, "arithmetic"},
    {NUM, "0", 0, 0, "arithmetic"},
    {NUM, "0e99", 0, 0, "arithmetic"},
    {NUM, "3/4", 0.75, 0, "arithmetic"},
    {NUM, "-1 1/2", -1.5, 0, "arithmetic"},
    {NUM, "  0.6  ", 0.6, 0, "arithmetic"},
    {NUM,
     "\xE2\x88\x92"
     "0.6",
     -0.6, 0, "spelling"}, /* minus sign */
    {NUM, "0.1000000000000000055511151231257827", 0.1, 0, "arithmetic"},
    {NUM, "1.7976931348623157e308", 1.7976931348623157e308, 0, "largest double"},
    {CNT, "24", 24, 0, "arithmetic"},
    {CNT, "0", 0, 0, "arithmetic"},
    {CNT, "1e3", 1000, 0, "arithmetic"},
    {SHARE, "0.6", 0.6, 0, "arithmetic"},
    {SHARE, "60 %", 0.6, 0, "arithmetic"},
    {SHARE, "60%", 0.6, 0, "spelling"},
    {SHARE, "60 percent", 0.6, 0, "spelling"},
    {SHARE, "3/5", 0.6, 0, "arithmetic"},
    {SHARE, "62.5 %", 0.625, 0, "arithmetic"},
    {SHARE, "100 %", 1, 0, "arithmetic"},
    {SHARE, "250 ppm", 250e-6, EXACT, "UDUNITS"},
    {PRICE, "12.50", 12.5, 0, "arithmetic"},
    /* length */
    {LEN, "19 mm", 0.019, 0, "SI"},
    {LEN, "19mm", 0.019, 0, "spelling"},
    {LEN, "19\xC2\xA0mm", 0.019, 0, "spelling"},     /* no-break space */
    {LEN, "19\xE2\x80\xAFmm", 0.019, 0, "spelling"}, /* narrow no-break space */
    {LEN, " 19\tmm\n", 0.019, 0, "spelling"},
    {LEN, "1.9 cm", 0.019, EXACT, "SI"},
    {LEN, "2.5 m", 2.5, 0, "SI"},
    {LEN, "2.5 metres", 2.5, 0, "spelling"},
    {LEN, "0.12 km", 120, 0, "SI"},
    {LEN, "45 um", 45e-6, 0, "SI"},
    {LEN, "45 \xC2\xB5m", 45e-6, 0, "spelling"}, /* micro sign */
    {LEN, "-120 m", -120, 0, "SI"},
    {LEN, "1 in", 0.0254, 0, "1959"},
    {LEN, "3/4 in", 0.01905, 0, "1959"},
    {LEN, "3 / 4 in", 0.01905, 0, "spelling"},
    {LEN, "3/4in", 0.01905, 0, "spelling"},
    {LEN, "3/4\"", 0.01905, 0, "spelling"},
    {LEN, "\xC2\xBE in", 0.01905, 0, "spelling"},          /* three quarters */
    {LEN, "\xC2\xBE\xE2\x80\xB3", 0.01905, 0, "spelling"}, /* and a double prime */
    {LEN,
     "3\xE2\x81\x84"
     "4 in",
     0.01905, 0, "spelling"}, /* fraction slash */
    {LEN, "3/4 in.", 0.01905, 0, "spelling"},
    {LEN, "0.75 inch", 0.01905, 0, "spelling"},
    {LEN, "0.75 inches", 0.01905, 0, "spelling"},
    {LEN, "1 1/2 in", 0.0381, 0, "1959"},
    {LEN, "1-1/2 in", 0.0381, 0, "spelling"},
    {LEN, "1\xC2\xBD in", 0.0381, 0, "spelling"},
    {LEN, "1 \xC2\xBD in", 0.0381, 0, "spelling"},
    {LEN, "\xC2\xBC in", 0.00635, 0, "1959"},
    {LEN, "\xE2\x85\x9B in", 0.003175, 0, "1959"},
    {LEN, "\xE2\x85\x9C in", 0.009525, 0, "1959"},
    {LEN, "\xE2\x85\x9D in", 0.015875, 0, "1959"},
    {LEN, "\xE2\x85\x9E in", 0.022225, 0, "1959"},
    {LEN, "\xE2\x85\x93 in", 0.0254 / 3, EXACT, "1959"},
    {LEN, "-3/4 in", -0.01905, 0, "1959"},
    {LEN, "1 ft", 0.3048, 0, "1959"},
    {LEN, "2 ft 6 in", 0.762, 0, "1959"},
    {LEN, "2 feet 6 inches", 0.762, 0, "spelling"},
    {LEN, "2'6\"", 0.762, 0, "spelling"},
    {LEN, "2' 6\"", 0.762, 0, "spelling"},
    {LEN, "2'-6\"", 0.762, 0, "spelling"},
    {LEN,
     "2\xE2\x80\xB2"
     "6\xE2\x80\xB3",
     0.762, 0, "spelling"}, /* primes */
    {LEN,
     "2\xE2\x80\x99"
     "6\xE2\x80\x9D",
     0.762, 0, "spelling"}, /* curly quotes */
    {LEN, "2ft6in", 0.762, 0, "spelling"},
    {LEN, "2ft3in", 0.6858, 0, "1959"},
    {LEN, "2 ft 6 1/2 in", 0.7747, 0, "1959"},
    {LEN, "2'-6 1/2\"", 0.7747, 0, "spelling"},
    {LEN, "2'-6\xC2\xBD\"", 0.7747, 0, "spelling"},
    {LEN, "-1 ft 6 in", -0.4572, 0, "1959"},
    {LEN, "1 m 20 cm 5 mm", 1.205, EXACT, "SI"},
    {LEN, "1 yd", 0.9144, 0, "1959"},
    {LEN, "1 mile", 1609.344, 0, "1959"},
    {LEN, "1 fathom", 1.828804, SEVEN, "SP 811"},
    {LEN, "1 mil", 25.4e-6, EXACT, "UDUNITS"},
    /* area and volume */
    {AREA, "0.5 m2", 0.5, 0, "SI"},
    {AREA, "0.5 m\xC2\xB2", 0.5, 0, "spelling"},
    {AREA, "0.5 m^2", 0.5, 0, "spelling"},
    {AREA, "0.5 m**2", 0.5, 0, "spelling"},
    {AREA, "0.5 sq m", 0.5, 0, "spelling"},
    {AREA, "0.5 square metres", 0.5, 0, "spelling"},
    {AREA, "15 cm2", 0.0015, EXACT, "SI"},
    {AREA, "1 ft2", 0.09290304, EXACT, "1959"},
    {AREA, "1 sq ft", 0.09290304, EXACT, "spelling"},
    {AREA, "1 sqft", 0.09290304, EXACT, "spelling"},
    {AREA, "1 in\xC2\xB2", 6.4516e-4, EXACT, "1959"},
    {AREA, "1 ft in", 0.3048 * 0.0254, EXACT, "1959"},
    {AREA, "1 acre", 4046.873, SEVEN, "SP 811"},
    {VOL, "60 L", 0.06, 0, "SI"},
    {VOL, "60 l", 0.06, 0, "spelling"},
    {VOL, "60 litres", 0.06, 0, "spelling"},
    {VOL, "250 mL", 0.00025, 0, "SI"},
    {VOL, "2 m3", 2, 0, "SI"},
    {VOL, "2 m\xC2\xB3", 2, 0, "spelling"},
    {VOL, "1 gal", 3.785412e-3, SEVEN, "SP 811"},
    {VOL, "1 gal", 231 * 0.0254 * 0.0254 * 0.0254, 1e-15, "1959, with a gallon of 231 cubic inches"},
    {VOL, "55 gallons", 0.2081976, SEVEN, "SP 811"},
    {VOL, "1 ft3", 2.831685e-2, SEVEN, "SP 811"},
    {VOL, "1 cu ft", 2.831685e-2, SEVEN, "SP 811"},
    {VOL, "1 in3", 1.638706e-5, SEVEN, "SP 811"},
    {VOL, "1 pint", 4.731765e-4, SEVEN, "SP 811"},
    /* mass */
    {MASS, "2.3 kg", 2.3, 0, "SI"},
    {MASS, "450 g", 0.45, 0, "SI"},
    {MASS, "1.5 t", 1500, 0, "SI"},
    {MASS, "1.5 tonnes", 1500, 0, "spelling"},
    {MASS, "1 lb", 0.45359237, 0, "1959"},
    {MASS, "5 lbs", 2.26796185, 0, "1959"},
    {MASS, "1 oz", 2.834952e-2, SEVEN, "SP 811"},
    {MASS, "5 lb 4 oz", 5.25 * 0.45359237, EXACT, "1959"},
    {MASS, "1 short_ton", 907.1847, SEVEN, "SP 811"},
    {MASS, "250 mg", 250e-6, EXACT, "SI"},
    /* time */
    {TIME, "90 min", 5400, 0, "SI"},
    {TIME, "90 minutes", 5400, 0, "spelling"},
    {TIME, "2 h", 7200, 0, "SI"},
    {TIME, "2 hr", 7200, 0, "spelling"},
    {TIME, "2 hours", 7200, 0, "spelling"},
    {TIME, "2 d", 172800, 0, "SI"},
    {TIME, "2 days", 172800, 0, "spelling"},
    {TIME, "30 s", 30, 0, "SI"},
    {TIME, "6 h 30 min", 23400, 0, "SI"},
    {TIME, "6h30min", 23400, 0, "spelling"},
    {TIME, "6h 5min", 21900, 0, "SI"},
    {TIME, "6h5min", 21900, 0, "spelling"},
    {TIME, "1 d 6 h 30 min 15 s", 109815, 0, "SI"},
    {TIME, "1 week", 604800, 0, "UDUNITS"},
    {TIME, "1 1/2 h", 5400, 0, "SI"},
    {TIME, "1\xC2\xBD h", 5400, 0, "spelling"},
    {TIME, "500 ms", 0.5, EXACT, "SI"},
    /* temperature */
    {TEMP, "80 degC", 353.15, EXACT, "SI"},
    {TEMP,
     "80 \xC2\xB0"
     "C",
     353.15, EXACT, "spelling"},
    {TEMP,
     "80\xC2\xB0"
     "C",
     353.15, EXACT, "spelling"},
    {TEMP,
     "80 \xC2\xBA"
     "C",
     353.15, EXACT, "spelling"},                          /* the ordinal sign that keyboards offer */
    {TEMP, "80 \xE2\x84\x83", 353.15, EXACT, "spelling"}, /* the one-character degree Celsius */
    {TEMP, "80 deg C", 353.15, EXACT, "spelling"},
    {TEMP, "80 degrees C", 353.15, EXACT, "spelling"},
    {TEMP, "80 C", 353.15, EXACT, "spelling"},
    {TEMP, "80 celsius", 353.15, EXACT, "UDUNITS"},
    {TEMP, "-5 degC", 268.15, EXACT, "SI"},
    {TEMP, "-273.15 degC", 0, 0, "SI"},
    {TEMP, "353 K", 353, 0, "SI"},
    {TEMP, "0 K", 0, 0, "SI"},
    {TEMP, "176 degF", 353.15, EXACT, "SP 811: (t + 459.67) / 1.8"},
    {TEMP,
     "176 \xC2\xB0"
     "F",
     353.15, EXACT, "spelling"},
    {TEMP, "176 F", 353.15, EXACT, "spelling"},
    {TEMP, "212 degF", 373.15, EXACT, "SP 811: (t + 459.67) / 1.8"},
    {TEMP, "32 degF", 273.15, EXACT, "SP 811: (t + 459.67) / 1.8"},
    {TEMP, "-40 degF", 233.15, EXACT, "SP 811: (t + 459.67) / 1.8"},
    {TEMP, "-459.67 degF", 0, 0, "SP 811: (t + 459.67) / 1.8"},
    {TEMP, "671.67 degR", 373.15, EXACT, "UDUNITS"},
    {DIFF, "10 K", 10, 0, "SI"},
    {DIFF, "10 degC", 10, 0, "SI"},
    {DIFF, "-10 degC", -10, 0, "SI"},
    {DIFF, "18 degF", 10, 0, "SP 811"},
    {DIFF,
     "18 \xC2\xB0"
     "F",
     10, 0, "spelling"},
    {DIFF, "1 degF", 0.5555556, SEVEN, "SP 811"},
    {DIFF, "10 celsius", 10, 0, "UDUNITS"},
    {DIFF, "18 fahrenheit", 10, EXACT, "UDUNITS"},
    /* pressure */
    {GAUGE, "0.25 bar", 25000, 0, "SI"},
    {GAUGE, "0.25 barg", 25000, 0, "spelling"},
    {GAUGE, "0.25 bar(g)", 25000, 0, "spelling"},
    {GAUGE, "0.25 bar g", 25000, 0, "spelling"},
    {GAUGE, "30 mbar", 3000, 0, "SI"},
    {GAUGE, "-5 mbar", -500, 0, "SI"},
    {GAUGE, "2.5 kPa", 2500, 0, "SI"},
    {GAUGE, "4 psi", 4 * 6894.757, SEVEN, "SP 811"},
    {GAUGE, "4 psig", 4 * 6894.757, SEVEN, "SP 811"},
    {GAUGE, "4 PSI", 4 * 6894.757, SEVEN, "spelling"},
    {GAUGE, "1 lbf/in2", 6894.757, SEVEN, "SP 811"},
    {GAUGE, "1 lbf/sq in", 6894.757, SEVEN, "spelling"},
    {GAUGE, "30 mmH2O", 294.1995, EXACT, "SP 811, conventional"},
    {GAUGE, "30 mm H2O", 294.1995, EXACT, "spelling"},
    {GAUGE, "12 inH2O", 12 * 249.0889, SEVEN, "SP 811, conventional"},
    {GAUGE, "12 in H2O", 12 * 249.0889, SEVEN, "spelling"},
    {GAUGE, "12 inWC", 12 * 249.0889, SEVEN, "spelling"},
    {GAUGE, "12\" WC", 12 * 249.0889, SEVEN, "spelling"},
    {GAUGE, "1 cmH2O", 98.0665, EXACT, "SP 811, conventional"},
    {GAUGE, "1 ftH2O", 2989.067, SEVEN, "SP 811, conventional"},
    {GAUGE, "1 inHg", 3386.389, SEVEN, "SP 811, conventional"},
    {GAUGE, "1 kgf/cm2", 98066.5, EXACT, "SP 811"},
    {ABSP, "1013 hPa", 101300, 0, "SI"},
    {ABSP, "1.013 bara", 101300, EXACT, "spelling"},
    {ABSP, "1.013 bar(a)", 101300, EXACT, "spelling"},
    {ABSP, "1 atm", 101325, 0, "SP 811"},
    {ABSP, "760 mmHg", 760 * 133.3224, SEVEN, "SP 811, conventional"},
    {ABSP, "14.7 psia", 14.7 * 6894.757, SEVEN, "SP 811"},
    {ABSP, "29.92 inHg", 29.92 * 3386.389, SEVEN, "SP 811, conventional"},
    {ABSP, "101325 N/m2", 101325, 0, "SI"},
    /* power, energy */
    {POW, "24 kW", 24000, 0, "SI"},
    {POW, "24000 W", 24000, 0, "SI"},
    {POW, "24000 J/s", 24000, 0, "SI"},
    {POW, "1 Btu/h", 0.2930711, SEVEN, "SP 811, Btu_IT"},
    {POW, "1 Btu/hr", 0.2930711, SEVEN, "spelling"},
    {POW, "1 BTU per hour", 0.2930711, SEVEN, "spelling"},
    {POW, "80000 Btu/h", 80000 * 0.2930711, SEVEN, "SP 811, Btu_IT"},
    {POW, "80 MBH", 80000 * 0.2930711, SEVEN, "SP 811, Btu_IT"},
    {POW, "80 kBtu/h", 80000 * 0.2930711, SEVEN, "SP 811, Btu_IT"},
    {POW, "1 boiler_horsepower", 33475 * 1055.05585262 / 3600, EXACT, "ANSI"},
    {POW, "1 boiler_hp", 9810.554, SEVEN, "ANSI"},
    {POW, "2.4 boiler_horsepower", 2.4 * 33475 * 1055.05585262 / 3600, EXACT, "ANSI"},
    {POW, "1 kcal/h", 1.163, EXACT, "SP 811"},
    {POW, "1 electric_horsepower", 746, EXACT, "SP 811"},
    {ENE, "12.8 kWh", 12.8 * 3.6e6, EXACT, "SI"},
    {ENE, "12.8 kW h", 12.8 * 3.6e6, EXACT, "spelling"},
    {ENE, "12.8 kW\xC2\xB7h", 12.8 * 3.6e6, EXACT, "spelling"}, /* middle dot */
    {ENE, "50 MJ", 50e6, 0, "SI"},
    {ENE, "1 Btu", 1055.056, SEVEN, "SP 811, Btu_IT"},
    {ENE, "1 kcal", 4186.8, 0, "SP 811, calorie_IT"},
    {ENE, "1 therm", 1.054804e8, SEVEN, "SP 811, therm (US)"},
    /* flow, velocity, density */
    {FLOW, "20 kg/h", 20 / 3600.0, 0, "SI"},
    {FLOW, "20 kg h-1", 20 / 3600.0, 0, "spelling"},
    {FLOW, "20 kg h\xE2\x81\xBB\xC2\xB9", 20 / 3600.0, 0, "spelling"}, /* raised minus one */
    {FLOW, "20 kg/hr", 20 / 3600.0, 0, "spelling"},
    {FLOW, "5 g/s", 0.005, 0, "SI"},
    {FLOW, "1 lb/h", 1.259979e-4, SEVEN, "SP 811"},
    {FLOW, "1 lb/min", 7.559873e-3, SEVEN, "SP 811"},
    {VEL, "5 m/s", 5, 0, "SI"},
    {VEL, "5 m s^-1", 5, 0, "spelling"},
    {VEL, "18 km/h", 5, 0, "SI"},
    {VEL, "18 kph", 5, 0, "spelling"},
    {VEL, "10 mph", 4.4704, 0, "SP 811"},
    {VEL, "1 ft/s", 0.3048, 0, "1959"},
    {VEL, "100 ft/min", 0.508, EXACT, "1959"},
    {VEL, "1 knot", 0.5144444, SEVEN, "SP 811"},
    {DENS, "600 kg/m3", 600, 0, "SI"},
    {DENS, "0.6 g/cm3", 600, EXACT, "SI"},
    {DENS, "0.6 kg/L", 600, EXACT, "SI"},
    {DENS, "1 lb/ft3", 16.01846, SEVEN, "SP 811"},
    /* heat */
    {COND, "0.04 W/m/K", 0.04, 0, "SI"},
    {COND, "0.04 W/mK", 0.04, 0, "spelling"},
    {COND, "0.04 W/(m K)", 0.04, 0, "spelling"},
    {COND, "0.04 W/(m\xC2\xB7K)", 0.04, 0, "spelling"},
    {COND, "0.04 W/m-K", 0.04, 0, "spelling"},
    {COND, "0.04 W m-1 K-1", 0.04, 0, "spelling"},
    {COND, "0.04 W.m-1.K-1", 0.04, 0, "spelling"},
    {COND, "0.04 W/m/degC", 0.04, 0, "spelling"},
    {COND,
     "0.04 W/m\xC2\xB0"
     "C",
     0.04, 0, "spelling"},
    {COND, "40 mW/m/K", 0.04, EXACT, "SI"},
    {COND, "1 Btu/h/ft/degF", 1.730735, SEVEN, "SP 811, Btu_IT"},
    {COND,
     "1 Btu/(h ft \xC2\xB0"
     "F)",
     1.730735, SEVEN, "spelling"},
    {COND, "1 Btu in/h ft2 F", 0.1442279, SEVEN, "SP 811, Btu_IT"},
    {SPEC, "3.1 kJ/kg/K", 3100, 0, "SI"},
    {SPEC, "3.1 kJ/kgK", 3100, 0, "spelling"},
    {SPEC, "3.1 kJ/(kg K)", 3100, 0, "spelling"},
    {SPEC, "3100 J/kgK", 3100, 0, "SI"},
    {SPEC, "3100 J/kg/degC", 3100, 0, "SI"},
    {SPEC, "1 Btu/lb/degF", 4186.8, EXACT, "SP 811, Btu_IT"},
    {SPEC,
     "1 Btu/lb\xC2\xB0"
     "F",
     4186.8, EXACT, "spelling"},
    {SPEC, "1 kcal/kg/K", 4186.8, EXACT, "SP 811, calorie_IT"},
    {SPEC, "1.16 Wh/kgK", 4176, EXACT, "SI"},
    {HCAP, "40 kJ/K", 40000, 0, "SI"},
    {HCAP, "1 Btu/degF", 1899.101, SEVEN, "SP 811, Btu_IT"},
    {COEF, "8 W/m2/K", 8, 0, "SI"},
    {COEF, "8 W/m2K", 8, 0, "spelling"},
    {COEF, "8 W/(m2 K)", 8, 0, "spelling"},
    {COEF, "8 W/m\xC2\xB2K", 8, 0, "spelling"},
    {COEF, "8 W/m2 K", 8, 0, "spelling"},
    {COEF, "8 W/m2\xC2\xB7K", 8, 0, "spelling"},
    {COEF, "8 W m-2 K-1", 8, 0, "spelling"},
    {COEF, "8 W m\xE2\x81\xBB\xC2\xB2 K\xE2\x81\xBB\xC2\xB9", 8, 0, "spelling"},
    {COEF, "1 Btu/h/ft2/degF", 5.678263, SEVEN, "SP 811, Btu_IT"},
    {COEF, "1 Btu/(h sq ft F)", 5.678263, SEVEN, "spelling"},
    {HPL, "90 W/m", 90, 0, "SI"},
    {HPL, "1 Btu/h/ft", 0.2930711 / 0.3048, SEVEN, "SP 811, Btu_IT"},
    {EPM, "12.8 kWh/kg", 46.08e6, EXACT, "SI"},
    {EPM, "46.1 MJ/kg", 46.1e6, EXACT, "SI"},
    {EPM, "1 Btu/lb", 2326, EXACT, "SP 811, Btu_IT"},
    /* angle, flow coefficient */
    {ANG, "45 deg", 0.78539816339744831, EXACT, "SI"},
    {ANG, "45\xC2\xB0", 0.78539816339744831, EXACT, "spelling"},
    {ANG, "45 degrees", 0.78539816339744831, EXACT, "spelling"},
    {ANG, "0.8 rad", 0.8, 0, "SI"},
    {KV, "12 m3/h", 12, 0, "SI"},
    {KV, "12 m\xC2\xB3/h", 12, 0, "spelling"},
    {KV, "12", 12, 0, "spelling"},
    {KV, "12 Kv", 12, 0, "spelling"},
    {KV, "14 Cv", 14 * 0.865, 5e-4, "IEC"},
    {KV, "1 Cv", 0.06 * 3.785412 * 3.808384, 1e-6, "definitions, gallon and psi from SP 811"},
};

static void every_row(void **state)
{
    fv_units *units = *state;
    size_t count = sizeof rows / sizeof *rows, wrong = 0;
    double worst = 0.0;
    for (size_t i = 0; i < count; i++) {
        double si = NAN;
        char *why = NULL;
        fv_status status = fv_quantity_parse(units, (fv_dim)rows[i].dim, rows[i].text, &si, &why);
        double scale = rows[i].si != 0.0 ? fabs(rows[i].si) : 1.0;
        double deviation = status == FV_OK ? fabs(si - rows[i].si) / scale : INFINITY;
        if (!(deviation <= rows[i].tolerance) || why) {
            printf("row \"%s\": %.17g, expected %.17g (%s) %s\n", rows[i].text, si, rows[i].si, rows[i].source,
                   why ? why : "");
            wrong++;
        } else if (rows[i].tolerance >= 1e-7) {
            printf("check | %s | %.9g | got %.9g | dev %.1e | %s\n", rows[i].text, rows[i].si, si, deviation,
                   rows[i].source);
        }
        if (rows[i].tolerance < 1e-7 && deviation > worst)
            worst = deviation;
        free(why);
    }
    printf("check | %zu quantities; worst of the exact ones | 0 | got %.1e | dev %.1e | definitions named by row\n",
           count, worst, worst);
    assert_true(count >= 150);
    assert_int_equal(wrong, 0);
}

static int setup(void **state)
{
    *state = fv_units_new(NULL);
    return *state ? 0 : -1;
}

static int teardown(void **state)
{
    fv_units_free(*state);
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(every_row)};
    return cmocka_run_group_tests_name("units: text to SI", tests, setup, teardown);
}
