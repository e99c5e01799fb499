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
} fv_modal_state;

typedef struct fv_modal fv_modal;
fv_modal *fv_modal_new(const fv_geometry *geometry, double h_condensing, double h_cooling, double t_start);
fv_modal *fv_modal_copy(const fv_modal *modal); /* NULL: out of memory */
void fv_modal_free(fv_modal *modal);

/* Rise of the mean over a step, a + b tc1, K. */
void fv_modal_probe(fv_modal *modal, double dt, double tc0, bool condensing, double *a, double *b);
/* The same with the surroundings standing at t all the step: a + b t. */
void fv_modal_probe_held(fv_modal *modal, double dt, bool condensing, double *a, double *b);
void fv_modal_advance(fv_modal *modal, double dt, double tc0, double tc1, bool condensing);
double fv_modal_mean(const fv_modal *modal);
double fv_modal_mean_slope(const fv_modal *modal); /* K/s, at the end of the last step */
double fv_modal_core(const fv_modal *modal);
double fv_modal_core_slope(const fv_modal *modal, double t); /* K/s, with the surroundings at t, coefficient as it is */
double fv_modal_core_after(fv_modal *modal, double dt, double tc0, double slope, bool condensing);
double fv_modal_surroundings(const fv_modal *modal, bool *condensing); /* at the end of the last step */

const fv_geometry *fv_modal_geometry(const fv_modal *modal);
const fv_spectrum *fv_modal_spectrum(const fv_modal *modal, bool condensing);
/* From now on T = tc + sum of field x phi, with that mean and centre, K. */
void fv_modal_take(fv_modal *modal, const double *field, double tc, double mean, double centre, bool condensing);

size_t fv_modal_state_size(const fv_modal *modal);
void fv_modal_save(const fv_modal *modal, void *state);
void fv_modal_restore(fv_modal *modal, const void *state);

/* reproject.c: a field in modes, T - tc, with its mean and centre, as the state that fades from it. */
void fv_modal_write(const fv_geometry *geometry, fv_spectrum *to, const double *field, double tc, double mean,
                    double centre, fv_modal_state *out);
/* The same temperatures under another spectrum. Both have equal field sizes.
 * scratch: two fields. Mean and centre are kept to rounding. */
void fv_modal_reproject(const fv_geometry *geometry, fv_spectrum *from, const fv_modal_state *now, fv_spectrum *to,
                        fv_modal_state *out, double *scratch);

#endif
