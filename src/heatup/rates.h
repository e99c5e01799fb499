/* SPDX-License-Identifier: MIT */
/* A short list of decay rates that stands for any number of them.
 *
 * Conduction in a body is a sum of modes, each with weight w and rate r, each following the surroundings as a first
 * order lag: its history depends on r alone, and smoothly on ln r. So the history is kept at a few rates (Chebyshev
 * points in ln r, RATES_PER_BIN to each factor e^2), and a mode of any rate shares its weight among the points of its
 * bin as Lagrange's polynomials say. Sums over thousands of modes become sums over about a hundred points. */
#ifndef FARVESSEL_HEATUP_RATES_H
#define FARVESSEL_HEATUP_RATES_H

#include <stddef.h>

enum { RATES_PER_BIN = 14, RATES_BINS_MOST = 14, RATES_MOST = RATES_PER_BIN * RATES_BINS_MOST };

typedef struct {
    double low, high; /* 1/s; rates outside count as the nearer end */
    double bin;       /* width of a bin in ln r */
    size_t bins, count;
    double point[RATES_PER_BIN], share[RATES_PER_BIN]; /* in a bin, -1..1, and their barycentric weights */
    double rate[RATES_MOST];                           /* ascending */
} heatup_rates;

/* 0 < low < high. A range too wide for RATES_BINS_MOST is cut at its high end. */
void heatup_rates_init(heatup_rates *rates, double low, double high);
/* Two kinds of weights at once, because the costly part is the same: for the mean over a body and for its centre. */
typedef struct {
    double mean[RATES_MOST], centre[RATES_MOST];
} heatup_weights;
/* Adds one mode; the sums grow by exactly its weights but for rounding. */
void heatup_rates_spread(const heatup_rates *rates, double rate, double mean, double centre, heatup_weights *weights);
/* Where a rate lies: the first point of its bin, and what each of the bin's points has of it. */
typedef struct {
    size_t first;
    double share[RATES_PER_BIN];
} heatup_place;
void heatup_rates_place(const heatup_rates *rates, double rate, heatup_place *place);
/* A history known at the points, at any rate. */
double heatup_rates_at(const heatup_rates *rates, const double *values, double rate);
/* Two independent directions: the rates add, the weights multiply. `out` must differ from the inputs. */
void heatup_rates_combine(const heatup_rates *rates, const heatup_weights *one, const heatup_weights *other,
                          heatup_weights *out);

#endif
