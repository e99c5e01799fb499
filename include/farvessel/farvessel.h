/* SPDX-License-Identifier: MIT */
/* Everything a program may use. */
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
