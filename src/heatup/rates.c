/* SPDX-License-Identifier: MIT */
/* Interpolation of decays between a few rates.
 *
 * Given:    a range of rates; modes of any rate in it with their weights.
 * Returned: weights at the points that give the same sum of decays, and values at rates between the points.
 * Accuracy: exp(-r t) over a bin of width 2 in ln r from 14 Chebyshev points: within 1.1e-8 for every t >= 0 (evaluated
 *           for all t; the test repeats it). A lag's answer to surroundings u(t) is off by at most that times the sum
 *           of |du|.
 * Source:   barycentric Lagrange interpolation at Chebyshev points of the first kind: J.-P. Berrut & L. N. Trefethen,
 *           SIAM Review 46 (2004) 501, eq. (4.2) and (5.3), from memory.
 */
#include "farvessel/constants.h"
#include "heatup/rates.h"

#include <math.h>
#include <string.h>

#define BIN_WIDTH_MOST 2.0

void heatup_rates_init(heatup_rates *rates, double low, double high)
{
    double span = log(high / low);
    double bins = ceil(span / BIN_WIDTH_MOST);
    rates->bins = bins < 1 ? 1 : bins > RATES_BINS_MOST ? RATES_BINS_MOST : (size_t)bins;
    rates->bin = fmin(span / (double)rates->bins, BIN_WIDTH_MOST);
    rates->low = low;
    rates->high = low * exp(rates->bin * (double)rates->bins);
    rates->count = rates->bins * RATES_PER_BIN;
    for (int j = 0; j < RATES_PER_BIN; j++) {
        double angle = (2 * j + 1) * FV_PI / (2 * RATES_PER_BIN);
        rates->point[j] = -cos(angle);
        rates->share[j] = j % 2 ? -sin(angle) : sin(angle);
    }
    for (size_t i = 0; i < rates->count; i++) {
        double bin = (double)(i / RATES_PER_BIN);
        rates->rate[i] = low * exp(rates->bin * (bin + 0.5 * (1 + rates->point[i % RATES_PER_BIN])));
    }
}

void heatup_rates_place(const heatup_rates *rates, double rate, heatup_place *out)
{
    double place = rate > rates->low ? log(rate / rates->low) / rates->bin : 0.0;
    size_t bin = place >= (double)rates->bins ? rates->bins - 1 : (size_t)place;
    double x = fmin(2 * (place - (double)bin) - 1, 1.0);
    double sum = 0;
    out->first = bin * RATES_PER_BIN;
    for (int j = 0; j < RATES_PER_BIN; j++) {
        double distance = x - rates->point[j];
        if (distance == 0) { // exactly on a point
            memset(out->share, 0, sizeof out->share);
            out->share[j] = 1;
            return;
        }
        out->share[j] = rates->share[j] / distance;
        sum += out->share[j];
    }
    for (int j = 0; j < RATES_PER_BIN; j++)
        out->share[j] /= sum;
}

/* Among the points of the place's bin, or of one `shift` points higher. */
static void share_out(const heatup_place *place, size_t shift, double mean, double centre, heatup_weights *weights)
{
    for (size_t j = 0; j < RATES_PER_BIN; j++) {
        weights->mean[place->first + shift + j] += mean * place->share[j];
        weights->centre[place->first + shift + j] += centre * place->share[j];
    }
}

void heatup_rates_spread(const heatup_rates *rates, double rate, double mean, double centre, heatup_weights *weights)
{
    heatup_place place;
    heatup_rates_place(rates, rate, &place);
    share_out(&place, 0, mean, centre, weights);
}

double heatup_rates_at(const heatup_rates *rates, const double *values, double rate)
{
    heatup_place place;
    double sum = 0;
    heatup_rates_place(rates, rate, &place);
    for (size_t j = 0; j < RATES_PER_BIN; j++)
        sum += place.share[j] * values[place.first + j];
    return sum;
}

/* Points lie alike in every bin: what the sum of two rates shares among its bin's points depends on their places in
 * their bins and on how many bins apart they are. A sum beyond the highest rate counts as that. */
void heatup_rates_combine(const heatup_rates *rates, const heatup_weights *one, const heatup_weights *other,
                          heatup_weights *out)
{
    memset(out, 0, sizeof *out);
    for (size_t low = 0; low < RATES_PER_BIN; low++) {
        for (size_t k = low; k < rates->count; k++) { // both orders of a pair add up to one rate
            heatup_place place;
            heatup_rates_place(rates, rates->rate[low] + rates->rate[k], &place);
            for (size_t shift = 0; k + shift < rates->count; shift += RATES_PER_BIN) {
                const size_t i = low + shift, j = k + shift;
                const double twice = i == j ? 0.5 : 1.0;
                const double mean = twice * (one->mean[i] * other->mean[j] + one->mean[j] * other->mean[i]);
                const double centre = twice * (one->centre[i] * other->centre[j] + one->centre[j] * other->centre[i]);
                if (place.first + shift + RATES_PER_BIN > rates->count)
                    heatup_rates_spread(rates, rates->high, mean, centre, out);
                else
                    share_out(&place, shift, mean, centre, out);
            }
        }
    }
}
