/* SPDX-License-Identifier: MIT */
/* Constants that more than one folder needs, SI. */
#ifndef FARVESSEL_CONSTANTS_H
#define FARVESSEL_CONSTANTS_H

#define FV_PI 3.14159265358979323846
#define FV_GRAVITY 9.80665            /* m/s2, standard acceleration of free fall (3rd CGPM 1901) */
#define FV_GAS_CONSTANT_AIR 287.05287 /* J/kg/K, dry air (ISO 2533) */
#define FV_GAS_CONSTANT_WATER 461.526 /* J/kg/K (IAPWS R7-97(2012), equation 1) */
#define FV_CP_AIR 1006.0              /* J/kg/K, dry air near 50 degC (Incropera & DeWitt, table A.4; from memory) */
#define FV_CELSIUS 273.15             /* K: 0 degC */
#define FV_MELTING_POINT 273.15       /* K, ice at 1 atm */
#define FV_PRESSURE_EQUIPMENT 50000.0 /* Pa gauge: above 0.5 bar directive 2014/68/EU applies */
#define FV_LOW_PRESSURE                                                                                                \
    103421.35939752542   /* Pa gauge: 15 psi, the limit of low-pressure steam (ASME BPVC Section IV) */
#define FV_INCH 0.0254   /* m, exact (international yard, 1959) */
#define FV_FOOT 0.3048   /* m, the same */
#define FV_INSULATES 0.1 /* W/m/K: what conducts less is insulation, not a board */

#endif
