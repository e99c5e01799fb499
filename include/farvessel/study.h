/* SPDX-License-Identifier: MIT */
/* Floor 6: questions that are answered by many runs. */
#ifndef FARVESSEL_STUDY_H
#define FARVESSEL_STUDY_H

#include "farvessel/change.h"
#include "farvessel/week.h"
#include "farvessel/why.h"
#include "farvessel/size.h"
#include "farvessel/sweep.h"
#include "farvessel/carry.h"
#include "farvessel/plan.h"
#include "farvessel/choices.h"
#include "farvessel/log.h"
#include "farvessel/forecast.h"

#endif
