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

#endif
