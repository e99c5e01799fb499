/* SPDX-License-Identifier: MIT */
/* Stepping a piece exactly through surroundings that run linearly.
 *
 * A lag x' = r (w u - x) with u from u0 to u0 + du over dt: x1 = x0 - p x0 + w (p u0 + q du), p = 1 - e^-z,
 * q = 1 - p/z, z = r dt. Steps of any length are exact, so the caller's choice of dt costs no accuracy.
 *
 * Each of the two surface coefficients has its own spectrum. When the coefficient changes, the field is written in the
 * other's modes (reproject.c); a probe for the other coefficient does this aside and keeps the result for the step. */
#include "heatup/modal.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    double dt; /* of what follows; negative: none */
    double loss[RATES_MOST], ramp[RATES_MOST];
    double mean_loss; /* weighted sum */
} step_factors;

/* What pieces of one sort have in common. */
typedef struct {
    heatup_geometry geometry;
    heatup_spectrum spectrum[2]; /* by `condensing` */
    step_factors factors[2];
    size_t users;
} modal_sort;

struct heatup_modal {
    modal_sort *sort;
    heatup_modal_state now, other;
    bool other_valid; /* `other` is `now` under the other spectrum */
    size_t lags, field_size;
    double *memory;
    double *scratch;
};

static bool allocate(heatup_modal *modal)
{
    size_t one = 3 * modal->lags + modal->field_size;
    modal->memory = calloc(2 * one + 2 * modal->field_size, sizeof(double));
    if (!modal->memory)
        return false;
    heatup_modal_state *states[] = {&modal->now, &modal->other};
    for (size_t i = 0; i < 2; i++) {
        double *base = modal->memory + i * one;
        states[i]->mean = base;
        states[i]->centre = base + modal->lags;
        states[i]->history = base + 2 * modal->lags;
        states[i]->field = base + 3 * modal->lags;
    }
    modal->scratch = modal->memory + 2 * one;
    return true;
}

static void leave_sort(modal_sort *sort)
{
    if (--sort->users > 0)
        return;
    heatup_spectrum_clear(&sort->spectrum[0]);
    heatup_spectrum_clear(&sort->spectrum[1]);
    free(sort);
}

static modal_sort *new_sort(const heatup_geometry *geometry, double h_condensing, double h_cooling)
{
    modal_sort *sort = calloc(1, sizeof *sort);
    if (!sort)
        return NULL;
    sort->geometry = *geometry;
    sort->factors[0].dt = sort->factors[1].dt = -1;
    sort->users = 1;
    if (heatup_spectrum_init(&sort->spectrum[0], geometry, h_cooling) != FV_FAIL &&
        heatup_spectrum_init(&sort->spectrum[1], geometry, h_condensing) != FV_FAIL)
        return sort;
    leave_sort(sort);
    return NULL;
}

heatup_modal *heatup_modal_new(const heatup_geometry *geometry, double h_condensing, double h_cooling, double t_start)
{
    modal_sort *sort = new_sort(geometry, h_condensing, h_cooling);
    heatup_modal *modal = sort ? calloc(1, sizeof *modal) : NULL;
    if (!modal) {
        if (sort)
            leave_sort(sort);
        return NULL;
    }
    const heatup_spectrum *s = sort->spectrum;
    modal->sort = sort;
    modal->lags = s[0].rates.count > s[1].rates.count ? s[0].rates.count : s[1].rates.count;
    modal->field_size = (size_t)s[0].field_size;
    if (!allocate(modal)) {
        heatup_modal_free(modal);
        return NULL;
    }
    modal->now.fresh = true;
    modal->now.condensing = true;
    modal->now.t_ref = modal->now.t_now = t_start;
    return modal;
}

heatup_modal *heatup_modal_copy(const heatup_modal *modal)
{
    heatup_modal *copy = malloc(sizeof *copy);
    if (!copy)
        return NULL;
    *copy = *modal;
    copy->sort->users++;
    copy->other_valid = false;
    if (!allocate(copy)) {
        heatup_modal_free(copy);
        return NULL;
    }
    memcpy(copy->now.mean, modal->now.mean, (3 * modal->lags + modal->field_size) * sizeof(double));
    return copy;
}

void heatup_modal_free(heatup_modal *modal)
{
    if (!modal)
        return;
    leave_sort(modal->sort);
    free(modal->memory);
    free(modal);
}

/* p = 1 - e^-z and q = 1 - p/z. */
static void lag_factors(double z, double *p, double *q)
{
    *p = -expm1(-z);
    *q = z > 0.01 ? 1 - *p / z : z / 2 * (1 - z / 3 * (1 - z / 4 * (1 - z / 5 * (1 - z / 6))));
}

static const step_factors *factors_for(heatup_modal *modal, bool condensing, double dt)
{
    step_factors *f = &modal->sort->factors[condensing];
    if (f->dt == dt)
        return f;
    const heatup_spectrum *spectrum = &modal->sort->spectrum[condensing];
    f->dt = dt;
    f->mean_loss = 0;
    for (size_t i = 0; i < spectrum->rates.count; i++) {
        lag_factors(spectrum->rates.rate[i] * dt, &f->loss[i], &f->ramp[i]);
        f->mean_loss += spectrum->weights.mean[i] * f->loss[i];
    }
    return f;
}

/* The present state under the wanted coefficient. */
static heatup_modal_state *state_for(heatup_modal *modal, bool condensing)
{
    heatup_modal_state *now = &modal->now;
    if (now->condensing == condensing)
        return now;
    if (now->fresh) { // even, nothing has happened: the same under both
        now->condensing = condensing;
        return now;
    }
    if (!modal->other_valid) {
        heatup_modal_reproject(&modal->sort->geometry, &modal->sort->spectrum[now->condensing], now,
                               &modal->sort->spectrum[condensing], &modal->other, modal->scratch);
        modal->other.condensing = condensing;
        modal->other_valid = true;
    }
    return &modal->other;
}

void heatup_modal_carry(heatup_modal *from, heatup_modal *to)
{
    if (from->now.fresh)
        return;
    heatup_modal_reproject(&to->sort->geometry, &from->sort->spectrum[from->now.condensing], &from->now,
                           &to->sort->spectrum[0], &to->now, to->scratch);
    to->now.condensing = false;
}

/* How much of what mean still has above t_ref fades over the step. */
static double fade(const heatup_modal *modal, const step_factors *f, const heatup_modal_state *s, bool condensing)
{
    double total = 0;
    size_t count = modal->sort->spectrum[condensing].rates.count;
    for (size_t i = 0; i < count; i++)
        total += f->loss[i] * s->mean[i];
    return total;
}

void heatup_modal_probe_held(heatup_modal *modal, double dt, bool condensing, double *a, double *b)
{
    const step_factors *f = factors_for(modal, condensing, dt);
    const heatup_modal_state *s = state_for(modal, condensing);
    *a = -s->t_ref * f->mean_loss - fade(modal, f, s, condensing);
    *b = f->mean_loss;
}

void heatup_modal_advance(heatup_modal *modal, double dt, double tc0, double tc1, bool condensing)
{
    const step_factors *f = factors_for(modal, condensing, dt);
    if (state_for(modal, condensing) == &modal->other) {
        heatup_modal_state previous = modal->now;
        modal->now = modal->other;
        modal->other = previous;
    }
    modal->other_valid = false;
    heatup_modal_state *s = &modal->now;
    const heatup_spectrum *spectrum = &modal->sort->spectrum[condensing];
    double u0 = tc0 - s->t_ref, du = tc1 - tc0, mean = 0, centre = 0;
    for (size_t i = 0; i < spectrum->rates.count; i++) {
        double push = f->loss[i] * u0 + f->ramp[i] * du;
        s->mean[i] += spectrum->weights.mean[i] * push - f->loss[i] * s->mean[i];
        s->centre[i] += spectrum->weights.centre[i] * push - f->loss[i] * s->centre[i];
        s->history[i] += push - f->loss[i] * s->history[i];
        mean += s->mean[i];
        centre += s->centre[i];
    }
    s->mean_sum = mean;
    s->centre_sum = centre;
    s->fresh = false;
    s->t_now = tc1;
    s->age += dt;
}

double heatup_modal_mean(const heatup_modal *modal)
{
    return modal->now.t_ref + modal->now.mean_sum;
}

double heatup_modal_core(const heatup_modal *modal)
{
    return modal->now.t_ref + modal->now.centre_sum;
}

double heatup_modal_mean_slope(const heatup_modal *modal)
{
    const heatup_modal_state *s = &modal->now;
    const heatup_spectrum *spectrum = &modal->sort->spectrum[s->condensing];
    double u = s->t_now - s->t_ref, slope = 0;
    for (size_t i = 0; i < spectrum->rates.count; i++)
        slope += spectrum->rates.rate[i] * (spectrum->weights.mean[i] * u - s->mean[i]);
    return slope;
}

double heatup_modal_core_slope(const heatup_modal *modal, double t)
{
    const heatup_modal_state *s = &modal->now;
    const heatup_spectrum *spectrum = &modal->sort->spectrum[s->condensing];
    double u = t - s->t_ref, slope = 0;
    for (size_t i = 0; i < spectrum->rates.count; i++)
        slope += spectrum->rates.rate[i] * (spectrum->weights.centre[i] * u - s->centre[i]);
    return slope;
}

double heatup_modal_surroundings(const heatup_modal *modal, bool *condensing)
{
    *condensing = modal->now.condensing;
    return modal->now.t_now;
}

double heatup_modal_core_after(heatup_modal *modal, double dt, double tc0, double slope, bool condensing)
{
    const heatup_modal_state *s = state_for(modal, condensing);
    const heatup_spectrum *spectrum = &modal->sort->spectrum[condensing];
    const step_factors *known = modal->sort->factors[condensing].dt == dt ? &modal->sort->factors[condensing] : NULL;
    double u0 = tc0 - s->t_ref, du = slope * dt, core = s->t_ref;
    for (size_t i = 0; i < spectrum->rates.count; i++) {
        double p = known ? known->loss[i] : 0, q = known ? known->ramp[i] : 0;
        if (!known)
            lag_factors(spectrum->rates.rate[i] * dt, &p, &q);
        core += s->centre[i] - p * s->centre[i] + spectrum->weights.centre[i] * (p * u0 + q * du);
    }
    return core;
}

const heatup_geometry *heatup_modal_geometry(const heatup_modal *modal)
{
    return &modal->sort->geometry;
}

const heatup_spectrum *heatup_modal_spectrum(const heatup_modal *modal, bool condensing)
{
    return &modal->sort->spectrum[condensing];
}

void heatup_modal_take(heatup_modal *modal, const double *field, double tc, double mean, double centre, bool condensing)
{
    heatup_modal_write(&modal->sort->geometry, &modal->sort->spectrum[condensing], field, tc, mean, centre,
                       &modal->now);
    modal->now.condensing = condensing;
    modal->other_valid = false;
}

double heatup_modal_at(heatup_modal *modal, int axis, double position)
{
    const heatup_modal_state *now = &modal->now;
    return now->fresh ? now->t_ref
                      : heatup_modal_field_at(&modal->sort->geometry, &modal->sort->spectrum[now->condensing], now,
                                              axis, position, modal->scratch);
}
