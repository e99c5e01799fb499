/* SPDX-License-Identifier: MIT */
/* A piece whose properties do not change: exact lags, one list of rates for each surface coefficient. */
#ifndef FARVESSEL_HEATUP_MODAL_H
#define FARVESSEL_HEATUP_MODAL_H

#include "heatup/spectrum.h"

/* The state. T - t_ref = sum over modes of phi (field e^(-rate age) + history(rate)). */
typedef struct {
    bool condensing;             /* under which spectrum */
    bool fresh;                  /* still even at t_ref */
    bool has_field;              /* the coefficient was changed on the way: what was there then fades as `field` */
    double t_ref;                /* K */
    double t_now;                /* surroundings at the end of the last step, K */
    double age;                  /* s since the coefficient changed */
    double mean_sum, centre_sum; /* K above t_ref: the sums of */
    double *mean, *centre;       /* by rate */
    double *history;             /* by rate: answer of a mode to the surroundings since then */
    double *field;               /* by mode, product order */
} heatup_modal_state;

typedef struct heatup_modal heatup_modal;
heatup_modal *heatup_modal_new(const heatup_geometry *geometry, double h_condensing, double h_cooling, double t_start);
heatup_modal *heatup_modal_copy(const heatup_modal *modal); /* NULL: out of memory */
void heatup_modal_free(heatup_modal *modal);

/* Rise of the mean over a step with the surroundings standing at t all of it: a + b t, K. */
void heatup_modal_probe_held(heatup_modal *modal, double dt, bool condensing, double *a, double *b);
void heatup_modal_advance(heatup_modal *modal, double dt, double tc0, double tc1, bool condensing);
double heatup_modal_mean(const heatup_modal *modal);
double heatup_modal_mean_slope(const heatup_modal *modal); /* K/s, at the end of the last step */
double heatup_modal_core(const heatup_modal *modal);
double heatup_modal_core_slope(const heatup_modal *modal,
                               double t); /* K/s, with the surroundings at t, coefficient as it is */
double heatup_modal_core_after(heatup_modal *modal, double dt, double tc0, double slope, bool condensing);
double heatup_modal_surroundings(const heatup_modal *modal, bool *condensing); /* at the end of the last step */

const heatup_geometry *heatup_modal_geometry(const heatup_modal *modal);
const heatup_spectrum *heatup_modal_spectrum(const heatup_modal *modal, bool condensing);
/* The temperatures of another piece of the same geometry, under the one coefficient that this one has. */
void heatup_modal_carry(heatup_modal *from, heatup_modal *to);
/* From now on T = tc + sum of field x phi, with that mean and centre, K. */
void heatup_modal_take(heatup_modal *modal, const double *field, double tc, double mean, double centre,
                       bool condensing);

/* K on the way from the centre to the surface along one axis, 0..1. Within 2e-5 of a step; once the coefficient was
 * changed, a block's outer quarter within 0.3 K for a minute. */
double heatup_modal_at(heatup_modal *modal, int axis, double position);

/* reproject.c: a field in modes, T - tc, with its mean and centre, as the state that fades from it. */
void heatup_modal_write(const heatup_geometry *geometry, heatup_spectrum *to, const double *field, double tc,
                        double mean, double centre, heatup_modal_state *out);
/* T there, by the field; scratch: a field. */
double heatup_modal_field_at(const heatup_geometry *geometry, heatup_spectrum *spectrum, const heatup_modal_state *now,
                             int axis, double position, double *scratch);
/* The same temperatures under another spectrum. Both have equal field sizes.
 * scratch: two fields. Mean and centre are kept to rounding. */
void heatup_modal_reproject(const heatup_geometry *geometry, heatup_spectrum *from, const heatup_modal_state *now,
                            heatup_spectrum *to, heatup_modal_state *out, double *scratch);

#endif
