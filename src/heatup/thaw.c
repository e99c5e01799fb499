/* SPDX-License-Identifier: MIT */
/* The temperatures of cells written in modes.
 *
 * With the modes phi_n of a direction scaled so that 1 = sum phi_n, the share of phi_n in a field f is the mean of f
 * over the piece with phi_n itself as the weight, integral(f phi_n) / integral(phi_n). A cell's f is even, so its
 * weight is an integral of the eigenfunction over the cell, in closed form: sin, x J1 and sin - x cos. A block is done
 * one direction after another.
 *
 * Accuracy: what modes beyond the last would hold is put at the fastest rate (heatup_modal_take); see tests.
 * Source:   Carslaw & Jaeger (1959), 3.11, 7.7, 9.4. */
#include "heatup/thaw.h"
#include "heatup/frozen_grid.h"
#include "num/bessel.h"

#include <math.h>
#include <stdlib.h>

enum { WEIGHTS_MOST = FIELD_MODES_MOST * FROZEN_CELLS_MOST };

/* Integral of the eigenfunction from the centre to x, the half size being 1; x dx along a cylinder, x^2 dx in a sphere.
 */
static double integral(fv_shape_1d shape, double zeta, double x)
{
    const double z = zeta * x;
    switch (shape) {
    case FV_SLAB:
        return sin(z) / zeta;
    case FV_CYLINDER:
        return x * num_bessel_j1(z) / zeta;
    default:
        return (sin(z) - z * cos(z)) / (zeta * zeta * zeta);
    }
}

/* weight[n * cells + i]: of cell i in mode n. */
static void fill_weights(fv_shape_1d shape, const heatup_modes *modes, int cells, double *weight)
{
    for (int n = 0; n < modes->count; n++) {
        const double zeta = sqrt(modes->zeta2[n]), whole = integral(shape, zeta, 1);
        double before = 0;
        for (int i = 0; i < cells; i++) {
            const double here = integral(shape, zeta, (i + 1.0) / cells);
            weight[n * cells + i] = (here - before) / whole;
            before = here;
        }
    }
}

/* One direction of a field of outer x cells x inner numbers; it then has outer x modes x inner. */
static void contract(const double *weight, int modes, int cells, int outer, int inner, const double *in, double *out)
{
    for (int o = 0; o < outer; o++)
        for (int n = 0; n < modes; n++)
            for (int k = 0; k < inner; k++) {
                double total = 0;
                for (int i = 0; i < cells; i++)
                    total += weight[n * cells + i] * in[(o * cells + i) * inner + k];
                out[(o * modes + n) * inner + k] = total;
            }
}

fv_status heatup_thaw(const heatup_frozen *frozen, heatup_modal *modal)
{
    bool condensing;
    const double tc = heatup_frozen_surroundings(frozen, &condensing);
    const heatup_frozen_grid *grid = heatup_frozen_cells(frozen);
    const heatup_geometry *geometry = heatup_modal_geometry(modal);
    const heatup_spectrum *spectrum = heatup_modal_spectrum(modal, condensing);
    size_t size = grid->cells > (size_t)spectrum->field_size ? grid->cells : (size_t)spectrum->field_size;
    size *= FIELD_MODES_MOST; /* more than any state in between */
    double *one = calloc(2 * size + WEIGHTS_MOST, sizeof *one);
    if (!one)
        return FV_FAIL;
    double *other = one + size, *weight = other + size;
    for (size_t i = 0; i < grid->cells; i++)
        one[i] = heatup_frozen_cell(frozen, i) - tc;
    int outer = 1, inner = (int)grid->cells;
    double *field = one, *next = other;
    for (int d = 0; d < geometry->axes; d++) {
        const heatup_modes *modes = &spectrum->modes[d];
        const int cells = grid->axis[d].count;
        inner /= cells;
        fill_weights(geometry->axis[d].shape, modes, cells, weight);
        contract(weight, modes->count, cells, outer, inner, field, next);
        outer *= modes->count;
        double *swap = field;
        field = next;
        next = swap;
    }
    heatup_modal_take(modal, field, tc, heatup_frozen_mean(frozen), heatup_frozen_core(frozen), condensing);
    free(one);
    return FV_OK;
}
