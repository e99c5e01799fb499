/* SPDX-License-Identifier: MIT */
/* The temperatures of a piece, known in the modes of one surface coefficient, written in those of another.
 *
 * T less the last surroundings Tc is expanded, because it keeps the surface condition: its terms fall off fast. In one
 * direction
 *
 *     psi_l-part of phi_i = <phi_i, psi_l> / <psi_l, psi_l>,   <psi_l, psi_l> = mean(psi_l)/s,
 *     (z_i^2 - z_l^2) <phi_i, psi_l> = slope_i psi_l(1) - phi_i(1) slope_l            (Green's second identity)
 *                                    = slope_i slope_l (b_l - b_i),   b = 1/Biot
 *
 * for slab, cylinder and sphere alike (s = 1, 2, 3; slope = -d/dx at the surface), so a block takes three small matrix
 * products. What the cut-off modes held of mean and centre is put at the fastest rate: heat is kept to rounding, the
 * centre does not jump.
 *
 * Accuracy: with 14 modes to a direction of a block, 20 of a cylinder, 48 of a slab or sphere: see tests.
 * Source:   Sturm-Liouville theory; Carslaw & Jaeger (1959), chapter XIV, from memory. */
#include "heat/conduction.h"
#include "heatup/modal.h"

#include <math.h>
#include <string.h>

static const double NEARLY_EQUAL = 1e-5; /* of z^2 */

typedef struct {
    const heatup_modes *from[3], *to[3];
    int count[3];
} directions;

static directions directions_of(const heatup_geometry *geometry, const heatup_spectrum *from, const heatup_spectrum *to)
{
    directions d = {.count = {1, 1, 1}};
    for (int axis = 0; axis < geometry->axes; axis++) {
        d.from[axis] = &from->modes[axis];
        d.to[axis] = &to->modes[axis];
        d.count[axis] = from->modes[axis].count;
    }
    return d;
}

static double along(const double *values, int index, double otherwise)
{
    return values ? values[index] : otherwise;
}

/* T - tc in the modes of `from`. */
static void write_field(const directions *d, const heatup_spectrum *from, const heatup_modal_state *now, double tc,
                        double *out)
{
    double left[3][FIELD_MODES_MOST];
    for (int axis = 0; axis < 3; axis++)
        for (int i = 0; i < d->count[axis]; i++)
            left[axis][i] = exp(-along(d->from[axis] ? d->from[axis]->rate : NULL, i, 0) * now->age);
    for (size_t n = 0; n < (size_t)from->field_size; n++) {
        const heatup_place *place = &from->places[n];
        double answer = 0;
        for (size_t q = 0; q < RATES_PER_BIN; q++)
            answer += place->share[q] * now->history[place->first + q];
        out[n] = answer + now->t_ref - tc;
    }
    size_t n = 0;
    for (int i = 0; i < d->count[0] && now->has_field; i++)
        for (int j = 0; j < d->count[1]; j++)
            for (int k = 0; k < d->count[2]; k++, n++)
                out[n] += now->field[n] * left[0][i] * left[1][j] * left[2][k];
}

double heatup_modal_field_at(const heatup_geometry *geometry, heatup_spectrum *spectrum, const heatup_modal_state *now,
                             int axis, double position, double *scratch)
{
    const directions d = directions_of(geometry, spectrum, spectrum);
    double phi[3][FIELD_MODES_MOST], t = now->t_now;
    size_t n = 0;
    heatup_spectrum_place(spectrum);
    write_field(&d, spectrum, now, t, scratch);
    for (int a = 0; a < 3; a++)
        for (int i = 0; i < d.count[a]; i++)
            phi[a][i] = along(d.from[a] ? d.from[a]->centre : NULL, i, 1);
    for (int i = 0; i < d.count[axis]; i++)
        phi[axis][i] *= heat_shape_function(geometry->axis[axis].shape, sqrt(d.from[axis]->zeta2[i]) * position);
    for (int i = 0; i < d.count[0]; i++)
        for (int j = 0; j < d.count[1]; j++)
            for (int k = 0; k < d.count[2]; k++, n++)
                t += scratch[n] * phi[0][i] * phi[1][j] * phi[2][k];
    return t;
}

/* (b_l - b_i) / (z_i^2 - z_l^2), b = 1/Biot. With like modes of nearly equal Biot numbers both differences lose their
 * digits, and with equal ones it is 0/0: there it is the reciprocal of -d(z^2)/db at the mean of both, right to second
 * order in what they differ by. */
static double biot_quotient(const heatup_modes *from, int i, const heatup_modes *to, int l)
{
    const double difference = from->zeta2[i] - to->zeta2[l];
    if (i != l || fabs(difference) > NEARLY_EQUAL * to->zeta2[l])
        return (to->inverse_biot - from->inverse_biot) / difference;
    const double b = 0.5 * (from->inverse_biot + to->inverse_biot), z2 = 0.5 * (from->zeta2[i] + to->zeta2[l]);
    return (z2 * b * b + 1 + (2 - to->dimensions) * b) / (2 * z2);
}

/* matrix[i * count + l]: the share of psi_l in phi_i. */
static void fill_matrix(const heatup_modes *from, const heatup_modes *to, double *matrix)
{
    for (int i = 0; i < from->count; i++)
        for (int l = 0; l < to->count; l++)
            matrix[i * from->count + l] =
                from->slope[i] * to->slope[l] * biot_quotient(from, i, to, l) * to->dimensions / to->mean[l];
}

/* One direction of a field of `outer` x count x inner numbers; sums side by side, so that none waits for its last
 * addition. */
static void apply(const double *matrix, int count, int outer, int inner, const double *in, double *out)
{
    for (int o = 0; o < outer; o++)
        for (int k = 0; k < inner; k++) {
            double total[FIELD_MODES_MOST] = {0};
            const double *x = &in[o * count * inner + k], *row = matrix;
            for (int i = 0; i < count; i++, x += inner, row += count)
                for (int l = 0; l < count; l++)
                    total[l] += row[l] * *x;
            for (int l = 0; l < count; l++)
                out[(o * count + l) * inner + k] = total[l];
        }
}

/* The fading answers of mean and centre to the field. */
static void spread_field(const directions *d, const heatup_spectrum *to, const double *field, heatup_weights *out)
{
    const double *m[3], *c[3];
    for (int axis = 0; axis < 3; axis++) {
        const heatup_modes *modes = d->to[axis];
        m[axis] = modes ? modes->mean : NULL;
        c[axis] = modes ? modes->centre : NULL;
    }
    memset(out, 0, sizeof *out);
    size_t n = 0;
    for (int i = 0; i < d->count[0]; i++)
        for (int j = 0; j < d->count[1]; j++)
            for (int k = 0; k < d->count[2]; k++, n++) {
                const heatup_place *place = &to->places[n];
                double mean = field[n] * along(m[0], i, 1) * along(m[1], j, 1) * along(m[2], k, 1);
                double centre = field[n] * along(c[0], i, 1) * along(c[1], j, 1) * along(c[2], k, 1);
                for (size_t q = 0; q < RATES_PER_BIN; q++) {
                    out->mean[place->first + q] += mean * place->share[q];
                    out->centre[place->first + q] += centre * place->share[q];
                }
            }
}

void heatup_modal_write(const heatup_geometry *geometry, heatup_spectrum *to, const double *field, double tc,
                        double mean, double centre, heatup_modal_state *out)
{
    directions d = directions_of(geometry, to, to);
    heatup_weights answer;
    heatup_spectrum_place(to);
    spread_field(&d, to, field, &answer);
    size_t count = to->rates.count;
    mean -= tc;
    centre -= tc;
    for (size_t i = 0; i < count; i++) {
        mean -= answer.mean[i];
        centre -= answer.centre[i];
    }
    answer.mean[count - 1] += mean;
    answer.centre[count - 1] += centre;
    out->mean_sum = out->centre_sum = 0;
    for (size_t i = 0; i < count; i++) {
        out->mean_sum += answer.mean[i];
        out->centre_sum += answer.centre[i];
    }
    memcpy(out->mean, answer.mean, count * sizeof(double));
    memcpy(out->centre, answer.centre, count * sizeof(double));
    memset(out->history, 0, count * sizeof(double));
    memcpy(out->field, field, (size_t)to->field_size * sizeof(double));
    out->fresh = false;
    out->has_field = true;
    out->t_ref = out->t_now = tc;
    out->age = 0;
}

void heatup_modal_reproject(const heatup_geometry *geometry, heatup_spectrum *from, const heatup_modal_state *now,
                            heatup_spectrum *to, heatup_modal_state *out, double *scratch)
{
    double tc = now->t_now;
    directions d = directions_of(geometry, from, to);
    size_t size = (size_t)from->field_size;
    double *field = scratch, *next = scratch + size;
    heatup_spectrum_place(from);
    write_field(&d, from, now, tc, field);
    int outer = 1, inner = from->field_size;
    for (int axis = 0; axis < geometry->axes; axis++) {
        double matrix[FIELD_MODES_MOST * FIELD_MODES_MOST];
        inner /= d.count[axis];
        fill_matrix(d.from[axis], d.to[axis], matrix);
        apply(matrix, d.count[axis], outer, inner, field, next);
        outer *= d.count[axis];
        double *swap = field;
        field = next;
        next = swap;
    }
    heatup_modal_write(geometry, to, field, tc, now->t_ref + now->mean_sum, now->t_ref + now->centre_sum, out);
}
