/* SPDX-License-Identifier: MIT */
/* Modes of a piece and their weights.
 *
 * In one direction T - T0 = sum_n b_n phi_n with db_n/dt = r_n (Tc - T0 - b_n), r_n = alpha z_n^2/L^2, when the
 * eigenfunctions are scaled so that 1 = sum phi_n. In a block phi is the product of three such functions and r the sum
 * of their rates. Mean and centre then are lags of the surroundings, with weights mean(phi) and phi(0).
 *
 * Given:    geometry, surface coefficient (may be infinite).
 * Returned: weights of mean and centre over a list of rates; the first modes of each direction.
 * Mean:     modes up to Fourier number 1/FOURIER_RATE of the thinnest direction (at most MEAN_MODES: all where no
 *           direction is over ten times another); what is left gets the one rate that makes the first instant's heat
 *           flow h A dT, so that no heat capacity is lost.
 * Centre:   the series alternates and converges slowly at first. Its terms are multiplied by exp(-36 x^7), x = n/32:
 *           the temperature is smoothed over a small neighbourhood with many vanishing moments. The terms above the
 *           32nd are then not needed at any time.
 * Accuracy: 2e-8 of a step in slab, cylinder and sphere at Fourier numbers from 0.02, centre and mean; 3e-8 for the
 *           centre at any time (tests).
 * Source:   eigenvalues and products: Carslaw & Jaeger (1959), 3.11, 5.6, 7.7, 8.4, 9.4, by fv_heat_eigen. Smoothing:
 *           H. Vandeven, J. Sci. Comput. 6 (1991) 159 (why a flat filter keeps full accuracy away from a jump), the
 *           exponential form from memory.
 */
#include "heatup/spectrum.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define FOURIER_RATE 4e4
enum { MEAN_MODES = 640, CENTRE_MODES = 32 };

static double dimensions(fv_shape_1d shape)
{
    return shape == FV_SLAB ? 1.0 : shape == FV_CYLINDER ? 2.0 : 3.0;
}

static double smoothed(int n, int count)
{
    return exp(-36.0 * pow((n + 0.5) / count, 7.0));
}

/* Weights of one direction. */
static fv_status axis_weights(const heatup_rates *rates, const heatup_axis *axis, double biot, double unit,
                              heatup_weights *out)
{
    memset(out, 0, sizeof *out);
    double rest = 1, rest_flow = dimensions(axis->shape) * biot * unit, centre_rest = 1, rate = unit;
    for (int n = 0; n < MEAN_MODES; n++) {
        double zeta, centre, mean;
        if (fv_heat_eigen(axis->shape, biot, n, &zeta, &centre, &mean) == FV_FAIL)
            return FV_FAIL;
        rate = unit * zeta * zeta;
        if (rate > rates->high && n >= CENTRE_MODES)
            break;
        if (rate <= rates->high) {
            heatup_rates_spread(rates, rate, mean, 0, out);
            rest -= mean;
            rest_flow -= mean * rate;
        }
        if (n < CENTRE_MODES) {
            double weight = centre * smoothed(n, CENTRE_MODES);
            heatup_rates_spread(rates, rate, 0, weight, out);
            centre_rest -= weight;
        }
    }
    double rest_rate = rest > 0 && rest_flow / rest < rates->high ? fmax(rest_flow / rest, rate) : rates->high;
    heatup_rates_spread(rates, rest_rate, rest, 0, out);
    // some 1e-8: the centre, too, ends at the surroundings
    heatup_rates_spread(rates, rates->high, 0, centre_rest, out);
    return FV_OK;
}

static fv_status field_modes(heatup_modes *modes, const heatup_axis *axis, double biot, double unit, int count)
{
    modes->count = count;
    modes->dimensions = dimensions(axis->shape);
    modes->inverse_biot = 1 / biot;
    for (int n = 0; n < count; n++) {
        double zeta;
        if (fv_heat_eigen(axis->shape, biot, n, &zeta, &modes->centre[n], &modes->mean[n]) == FV_FAIL)
            return FV_FAIL;
        modes->zeta2[n] = zeta * zeta;
        modes->rate[n] = unit * zeta * zeta;
        modes->centre[n] *= smoothed(n, count);
        // the mean of phi'' + ... = -zeta^2 phi over the volume is the flow through the surface
        modes->slope[n] = modes->mean[n] * modes->zeta2[n] / modes->dimensions;
        modes->surface[n] = isinf(biot) ? 0.0 : modes->slope[n] / biot;
    }
    return FV_OK;
}

/* unit: 1/s, the rate of an eigenvalue of 1. */
static double biot_of(const heatup_geometry *geometry, const heatup_axis *axis, double h, double *unit)
{
    const double along = heatup_axis_along(axis);
    *unit = along * geometry->diffusivity / (axis->size * axis->size);
    return h * axis->size / (along * geometry->conductivity);
}

static fv_status range_of(const heatup_geometry *geometry, double h, double *low, double *high)
{
    *low = INFINITY;
    *high = 0;
    for (int d = 0; d < geometry->axes; d++) {
        const heatup_axis *axis = &geometry->axis[d];
        double zeta, centre, mean, unit, biot = biot_of(geometry, axis, h, &unit);
        if (!(axis->size > 0) || !isfinite(unit) ||
            fv_heat_eigen(axis->shape, biot, 0, &zeta, &centre, &mean) == FV_FAIL)
            return FV_FAIL;
        *low = fmin(*low, unit * zeta * zeta);
        *high = fmax(*high, unit * FOURIER_RATE);
    }
    return *low > 0 ? FV_OK : FV_FAIL;
}

fv_status heatup_spectrum_init(heatup_spectrum *spectrum, const heatup_geometry *geometry, double h)
{
    static const int field_counts[] = {FIELD_MODES_MOST, 20, 14};
    double low, high;
    if (!(h > 0) || !(geometry->conductivity > 0) || !(geometry->diffusivity > 0) ||
        range_of(geometry, h, &low, &high) == FV_FAIL)
        return FV_FAIL;
    memset(spectrum, 0, sizeof *spectrum);
    spectrum->h = h;
    spectrum->field_size = 1;
    heatup_rates_init(&spectrum->rates, low, high);
    for (int d = 0; d < geometry->axes; d++) {
        const heatup_axis *axis = &geometry->axis[d];
        double unit, biot = biot_of(geometry, axis, h, &unit);
        heatup_weights own, before = spectrum->weights;
        if (axis_weights(&spectrum->rates, axis, biot, unit, &own) == FV_FAIL ||
            field_modes(&spectrum->modes[d], axis, biot, unit, field_counts[geometry->axes - 1]) == FV_FAIL)
            return FV_FAIL;
        if (d == 0)
            spectrum->weights = own;
        else
            heatup_rates_combine(&spectrum->rates, &before, &own, &spectrum->weights);
        spectrum->field_size *= spectrum->modes[d].count;
    }
    spectrum->places = calloc((size_t)spectrum->field_size, sizeof *spectrum->places);
    return spectrum->places ? FV_OK : FV_FAIL;
}

void heatup_spectrum_clear(heatup_spectrum *spectrum)
{
    free(spectrum->places);
    spectrum->places = NULL;
}

/* Rate of a mode in one direction; a direction that is missing has the one mode that stays. */
static double rate_of(const heatup_spectrum *spectrum, int axis, int n)
{
    return spectrum->modes[axis].count > 0 ? spectrum->modes[axis].rate[n] : 0;
}

static int count_of(const heatup_spectrum *spectrum, int axis)
{
    return spectrum->modes[axis].count > 0 ? spectrum->modes[axis].count : 1;
}

void heatup_spectrum_place(heatup_spectrum *spectrum)
{
    size_t n = 0;
    if (spectrum->placed)
        return;
    for (int i = 0; i < count_of(spectrum, 0); i++)
        for (int j = 0; j < count_of(spectrum, 1); j++)
            for (int k = 0; k < count_of(spectrum, 2); k++, n++)
                heatup_rates_place(&spectrum->rates,
                                   rate_of(spectrum, 0, i) + rate_of(spectrum, 1, j) + rate_of(spectrum, 2, k),
                                   &spectrum->places[n]);
    spectrum->placed = true;
}
