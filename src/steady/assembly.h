/* SPDX-License-Identifier: MIT */
/* What is done with all equations at once, before, in and after Newton's method. */
#ifndef STEADY_ASSEMBLY_H
#define STEADY_ASSEMBLY_H

#include "steady/equations.h"

/* convect.c: enthalpy, heat loss and the heat of water along the flow. Returns the largest change, relative to
 * all steam.
 */
double steady_convect(fv_solver *s, double *x);
/* Flows of all lines that are not shut, their losses brought up to date. */
void steady_find_flows(fv_solver *s, const double *x);

/* form.c: which lines are shut; must be called when valves, fires or chambers changed. */
void steady_choose_forms(fv_solver *s);
int steady_other_end(const fv_network *net, int line, int node); /* plant nodes */

/* dry.c: where the boilers make less than the lines could condense. */
void steady_find_dry_pressures(fv_solver *s);

/* assemble.c: all residuals, and the Jacobian where stamps are wanted. */
void steady_assemble(const fv_solver *s, const double *x, double *residual, steady_stamps *stamps);

/* start.c: a first guess from a tree of flows. */
void steady_start_guess(fv_solver *s);
/* Nothing flows in the coils of shut vessels, and to them what condenses on the way; all else stays. */
void steady_guess_what_was_shut(fv_solver *s);

/* result.c. What enters each node less what leaves it, kg/s, flows as steady_convect found them; out: by node. */
void steady_imbalances(const fv_solver *s, const double *x, double *out);
void steady_fill_result(fv_solver *s, fv_steady_result *result);

#endif
