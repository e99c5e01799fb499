/* SPDX-License-Identifier: MIT */
/* From wished flows to valves and washers: the plant is solved backwards at one moment.
 *
 * Wishes are shares of the steam, since the boilers decide how much there is. The vessel that is hardest to serve keeps
 * its valve wide open; each other valve, or washer, takes what pressure its vessel has over. The equations are those of
 * the network itself, flows fixed and losses free: ln(m_i / m_r) = ln(w_i / w_r), solved for the resistances by
 * Broyden's method (C. G. Broyden 1965, from memory), each evaluation one solve of the plant. Loops are no matter. */
#ifndef STUDY_BALANCE_H
#define STUDY_BALANCE_H

#include "study/handling.h"

/* wishes: by vessel, above 0, of those that have a valve or washer; others are left out with 0. values: by knob of the
 * handling, filled for openings (share of the handle's way, not rounded) and washers (k in place of what is there).
 * FV_FAIL: no solution was found, or *no_memory; FV_DOUBTFUL: not all shares can be had, or not to 1e-9. */
fv_status study_balance(const study_handling *handling, const double *wishes, double *values, bool *no_memory);
/* The plant with those values; NULL: said in faults. */
fv_plant *study_balanced(const study_handling *handling, const double *values, fv_faults *faults);
/* Places of the knobs nearest to the values; the other knobs of `point` stay. */
void study_balance_round(const study_handling *handling, const double *values, int *point);

#endif
