/* SPDX-License-Identifier: MIT */
/* Conduction in a brick by finite volumes.
 *
 *     M dT/dt = -K T + g_skin t_skin + g_top t,    faces in series: 1/g = half a cell/k + 1/(what lies behind)
 *
 * A quarter of it is followed, cells finer towards its faces. Time: the two-stage scheme of wall.c (SDIRK of second
 * order, L-stable, gamma = 1 - 1/sqrt(2)); both stages share one banded Cholesky factor, and the heat through the faces
 * is their weighted sum, so that what leaves is what is stored to rounding. A step is linear in the chamber's
 * temperature: it is taken once from the state with the chamber at 0, once from nothing with the chamber at 1.
 *
 * Accuracy: a bed of 0.8 m loses within 1 % of the heat that the series' product says (tests/heatup/test_bed.c).
 * Source:   finite volumes: S. V. Patankar, Numerical Heat Transfer and Fluid Flow (1980), 4.2; scheme: R. Alexander,
 *           SIAM J. Numer. Anal. 14 (1977) 1006; both from memory. */
#include "heatup/brick.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

enum { ACROSS = 6, ALONG = 12, CELLS = ACROSS * ACROSS * ALONG, BAND = ACROSS * ACROSS };
static const double FINER = 1.3; /* ratio of a cell to the next one towards a face */
static const double GAMMA = 0.29289321881345254;

struct heatup_brick {
    heatup_brick_spec spec;
    double dx[ACROSS], dz[ALONG]; /* m, from the middle to the side; from the floor to the top */
    double capacity[CELLS];       /* J/K of four quarters */
    double t[CELLS];
    /* of the coming step */
    double dt, t_skin;
    double skin[CELLS], top[CELLS];        /* W/K */
    double factor[CELLS][BAND + 1];        /* lower band of the Cholesky factor, diagonal first */
    double base[CELLS], per_degree[CELLS]; /* K at its end with the chamber at 0; and for each degree of it */
};

static int index_of(int i, int j, int k)
{
    return (k * ACROSS + j) * ACROSS + i;
}

/* Sizes that add up to `length`, finer towards the end, or towards both. */
static void divide(double *sizes, int count, double length, bool both)
{
    double total = 0;
    for (int i = 0; i < count; i++) {
        const int from_face = both && i < count / 2 ? i : count - 1 - i;
        sizes[i] = pow(FINER, from_face);
        total += sizes[i];
    }
    for (int i = 0; i < count; i++)
        sizes[i] *= length / total;
}

heatup_brick *heatup_brick_new(const heatup_brick_spec *spec)
{
    heatup_brick *b = calloc(1, sizeof *b);
    if (!b)
        return NULL;
    b->spec = *spec;
    divide(b->dx, ACROSS, 0.5 * sqrt(spec->area), false);
    divide(b->dz, ALONG, spec->depth, true);
    for (int k = 0; k < ALONG; k++)
        for (int j = 0; j < ACROSS; j++)
            for (int i = 0; i < ACROSS; i++)
                b->capacity[index_of(i, j, k)] = 4 * b->dx[i] * b->dx[j] * b->dz[k] * spec->heat_capacity;
    return b;
}

void heatup_brick_free(heatup_brick *brick)
{
    free(brick);
}

void heatup_brick_set(heatup_brick *brick, double height, double t_below, double t_above)
{
    double floor = 0;
    for (int k = 0; k < ALONG; k++) {
        const double below = fmax(0, fmin(1, (height - floor) / brick->dz[k]));
        for (int n = 0; n < BAND; n++)
            brick->t[k * BAND + n] = below * t_below + (1 - below) * t_above;
        floor += brick->dz[k];
    }
}

double heatup_brick_skin_area(const heatup_brick *brick)
{
    return brick->spec.area + 4 * sqrt(brick->spec.area) * brick->spec.depth;
}

/* W/K of a face of an area from half a cell in, to what lies behind. */
static double outward(double area, double size, double conductivity, double behind)
{
    return behind > 0 ? area / (0.5 * size / conductivity + 1 / behind) : 0;
}

static void set_faces(heatup_brick *b, double skin, double h_top)
{
    const double k = b->spec.conductivity;
    memset(b->skin, 0, sizeof b->skin);
    memset(b->top, 0, sizeof b->top);
    for (int z = 0; z < ALONG; z++)
        for (int j = 0; j < ACROSS; j++)
            for (int i = 0; i < ACROSS; i++) {
                const int n = index_of(i, j, z);
                const double dx = b->dx[i], dy = b->dx[j], dz = b->dz[z];
                if (i == ACROSS - 1)
                    b->skin[n] += outward(4 * dy * dz, dx, k, skin);
                if (j == ACROSS - 1)
                    b->skin[n] += outward(4 * dx * dz, dy, k, skin);
                if (z == 0)
                    b->skin[n] += outward(4 * dx * dy, dz, k, skin);
                if (z == ALONG - 1)
                    b->top[n] = outward(4 * dx * dy, dz, k, h_top);
            }
}

/* W/K between a cell and the next one in a direction (1: i, 2: j, 3: k); 0: there is none. */
static double between(const heatup_brick *b, int i, int j, int z, int direction)
{
    const double k = b->spec.conductivity;
    if (direction == 1)
        return i + 1 < ACROSS ? 4 * k * b->dx[j] * b->dz[z] / (0.5 * (b->dx[i] + b->dx[i + 1])) : 0;
    if (direction == 2)
        return j + 1 < ACROSS ? 4 * k * b->dx[i] * b->dz[z] / (0.5 * (b->dx[j] + b->dx[j + 1])) : 0;
    return z + 1 < ALONG ? 4 * k * b->dx[i] * b->dx[j] / (0.5 * (b->dz[z] + b->dz[z + 1])) : 0;
}

static const int STRIDE[] = {0, 1, ACROSS, BAND};

/* M + gamma dt K, factorised in its band. */
static void factorise(heatup_brick *b)
{
    const double share = GAMMA * b->dt;
    memset(b->factor, 0, sizeof b->factor);
    for (int n = 0; n < CELLS; n++)
        b->factor[n][0] += b->capacity[n] + share * (b->skin[n] + b->top[n]);
    for (int z = 0; z < ALONG; z++)
        for (int j = 0; j < ACROSS; j++)
            for (int i = 0; i < ACROSS; i++)
                for (int d = 1; d <= 3; d++) {
                    const int n = index_of(i, j, z);
                    const double g = share * between(b, i, j, z, d);
                    if (!(g > 0))
                        continue;
                    b->factor[n][0] += g;
                    b->factor[n + STRIDE[d]][0] += g;
                    b->factor[n + STRIDE[d]][STRIDE[d]] -= g; /* [row][row - column] */
                }
    for (int n = 0; n < CELLS; n++) {
        const int first = n > BAND ? n - BAND : 0;
        for (int m = first; m <= n; m++) {
            double sum = b->factor[n][n - m];
            const int from = m > BAND ? m - BAND : 0;
            for (int p = first > from ? first : from; p < m; p++)
                sum -= b->factor[n][n - p] * b->factor[m][m - p];
            b->factor[n][n - m] = m < n ? sum / b->factor[m][0] : sqrt(sum);
        }
    }
}

static void solve(const heatup_brick *b, double *x)
{
    for (int n = 0; n < CELLS; n++) {
        for (int m = n > BAND ? n - BAND : 0; m < n; m++)
            x[n] -= b->factor[n][n - m] * x[m];
        x[n] /= b->factor[n][0];
    }
    for (int n = CELLS - 1; n >= 0; n--) {
        for (int m = n + 1; m < CELLS && m <= n + BAND; m++)
            x[n] -= b->factor[m][m - n] * x[m];
        x[n] /= b->factor[n][0];
    }
}

/* rate[n]: W into each cell at temperatures x. */
static void rates(const heatup_brick *b, const double *x, double t_skin, double t, double *rate)
{
    for (int n = 0; n < CELLS; n++)
        rate[n] = b->skin[n] * (t_skin - x[n]) + b->top[n] * (t - x[n]);
    for (int z = 0; z < ALONG; z++)
        for (int j = 0; j < ACROSS; j++)
            for (int i = 0; i < ACROSS; i++)
                for (int d = 1; d <= 3; d++) {
                    const int n = index_of(i, j, z);
                    const double g = between(b, i, j, z, d);
                    if (!(g > 0))
                        continue;
                    const double flow = g * (x[n + STRIDE[d]] - x[n]);
                    rate[n] += flow;
                    rate[n + STRIDE[d]] -= flow;
                }
}

/* Both stages; x from the start to the end of the step. Adds up what goes in by the top and out by the skin. */
static void two_stages(const heatup_brick *b, double t_skin, double t, double *x, double *top, double *skin)
{
    const double first = (1 - GAMMA) * b->dt, second = GAMMA * b->dt;
    double stage[CELLS], rate[CELLS];
    for (int n = 0; n < CELLS; n++)
        stage[n] = b->capacity[n] * x[n] + second * (b->skin[n] * t_skin + b->top[n] * t);
    solve(b, stage);
    rates(b, stage, t_skin, t, rate);
    for (int n = 0; n < CELLS; n++)
        x[n] = b->capacity[n] * x[n] + first * rate[n] + second * (b->skin[n] * t_skin + b->top[n] * t);
    solve(b, x);
    *top = *skin = 0;
    for (int n = 0; n < CELLS; n++) {
        *top += b->top[n] * (first * (t - stage[n]) + second * (t - x[n]));
        *skin += b->skin[n] * (first * (stage[n] - t_skin) + second * (x[n] - t_skin));
    }
}

void heatup_brick_prepare(heatup_brick *brick, const heatup_brick_step *step, heatup_line *top, heatup_line *skin)
{
    brick->dt = step->dt;
    brick->t_skin = step->t_skin;
    set_faces(brick, step->skin, step->h_top);
    factorise(brick);
    memcpy(brick->base, brick->t, sizeof brick->base);
    memset(brick->per_degree, 0, sizeof brick->per_degree);
    two_stages(brick, step->t_skin, 0, brick->base, &top->a, &skin->a);
    two_stages(brick, 0, 1, brick->per_degree, &top->b, &skin->b);
}

void heatup_brick_advance(heatup_brick *brick, double t)
{
    for (int n = 0; n < CELLS; n++)
        brick->t[n] = brick->base[n] + t * brick->per_degree[n];
}

double heatup_brick_mean(const heatup_brick *brick)
{
    double heat = 0, capacity = 0;
    for (int n = 0; n < CELLS; n++) {
        heat += brick->capacity[n] * brick->t[n];
        capacity += brick->capacity[n];
    }
    return heat / capacity;
}

double heatup_brick_coldest(const heatup_brick *brick)
{
    double t = INFINITY;
    for (int n = 0; n < CELLS; n++)
        t = fmin(t, brick->t[n]);
    return t;
}

double heatup_brick_hottest(const heatup_brick *brick)
{
    double t = 0;
    for (int n = 0; n < CELLS; n++)
        t = fmax(t, brick->t[n]);
    return t;
}

double heatup_brick_top(const heatup_brick *brick)
{
    double sum = 0, area = 0;
    for (int n = CELLS - BAND; n < CELLS; n++) {
        sum += brick->capacity[n] * brick->t[n];
        area += brick->capacity[n];
    }
    return sum / area;
}
