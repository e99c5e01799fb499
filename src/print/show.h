/* SPDX-License-Identifier: MIT */
/* Numbers as people read them: in the user's units, with the unit behind. */
#ifndef PRINT_SHOW_H
#define PRINT_SHOW_H

#include "farvessel/model.h"
#include "farvessel/units.h"

enum { PRINT_SHOW_SIZE = 96 };
typedef struct {
    char text[PRINT_SHOW_SIZE];
} print_shown;

/* "5.2 kW"; "-" for NaN. Returned by value, so that several stand in one printf. */
print_shown print_shown_as(fv_unit_system system, fv_show show, double si);
/* The same for what somebody said or chose: four digits at most, but no zeros that nobody measured: "50 %". */
print_shown print_shown_said(fv_unit_system system, fv_show show, double si);
/* For what is proposed, or a limit: as print_shown_as has it, without zeros at the end: "25 mm", "0.118 in". */
print_shown print_shown_brief(fv_unit_system system, fv_show show, double si);
/* A value of the plant by its dimension; words by their name. */
print_shown print_shown_value(fv_unit_system system, const fv_attr *attr, double si);
/* How far an audit is off: "3.1e-16", "0". */
print_shown print_tiny(double value);
/* "12 h", "90 min", "6 h 30 min". */
print_shown print_shown_time(double seconds);

#endif
