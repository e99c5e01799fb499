/* SPDX-License-Identifier: MIT */
/* Everything a program may use. Any number of threads may work at a time, on plants of their own or reading the same
 * one; what one thread alone may use (fv_solver, fv_heat_cache, fv_faults, fv_text) says so or is written to. */
#ifndef FARVESSEL_FARVESSEL_H
#define FARVESSEL_FARVESSEL_H

#include "farvessel/base.h"
#include "farvessel/units.h"
#include "farvessel/props.h"
#include "farvessel/flow.h"
#include "farvessel/heat.h"
#include "farvessel/model.h"
#include "farvessel/plantfile.h"
#include "farvessel/steady.h"
#include "farvessel/heatup.h"
#include "farvessel/study.h"
#include "farvessel/print.h"
#include "farvessel/report.h"

#endif
