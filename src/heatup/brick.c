/* SPDX-License-Identifier: MIT */
/* Conduction in a brick by finite volumes.
 *
 *     M dT/dt = -K T + g_skin t_skin + g_top t,    faces in series: 1/g = half a cell/k + 1/(what lies behind)
 *
 * A quarter of it is followed, cells finer towards its faces. Time: the two-stage scheme of wall.c (SDIRK of second
 * order, L-stable, gamma = 1 - 1/sqrt(2)); the heat through the faces is the stages' weighted sum, so that what leaves
 * is what is stored to rounding. A step is linear in the chamber's temperature: it is taken once from the state with
 * the chamber at 0, once from nothing with the chamber at 1.
 *
 * All sides and the floor meet the same skin, so K is a sum of one operator along each edge, and M + gamma dt K falls
 * apart in their eigenvectors: a solve is three small transforms there and back, exact to rounding. A banded Cholesky
 * factor took fifty times the work.
 *
 * Accuracy: a bed of 0.8 m loses within 1 % of the heat that the series' product says (tests/heatup/test_bed.c).
 * Source:   finite volumes: S. V. Patankar, Numerical Heat Transfer and Fluid Flow (1980), 4.2; scheme: R. Alexander,
 *           SIAM J. Numer. Anal. 14 (1977) 1006; solve: R. E. Lynch, J. R. Rice and D. H. Thomas, Numer. Math. 6 (1964)
 *           185; all from memory. */
#include "heatup/brick.h"

#include "num/symmetric.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

enum { ACROSS = 6, ALONG = 2 * ACROSS, CELLS = ACROSS * ACROSS * ALONG, BAND = ACROSS * ACROSS };
static const double FINER = 1.3; /* ratio of a cell to the next one towards a face */
static const double GAMMA = 0.29289321881345254;

/* Along an edge, for its faces as they are: from cells to eigenvectors, by rows, and back; eigenvalues, 1/s. */
typedef struct {
    num_symmetric *room;
    double there[ALONG * ALONG], back[ALONG * ALONG], values[ALONG];
} axis;

struct heatup_brick {
    heatup_brick_spec spec;
    double dx[ACROSS], dz[ALONG]; /* m, from the middle to the side; from the floor to the top */
    double capacity[CELLS];       /* J/K of four quarters */
    double t[CELLS];
    /* of the coming step */
    double dt, t_skin, behind, h_top; /* the last two: NaN before the first */
    double skin[CELLS], top[CELLS];   /* W/K */
    axis across, along;
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
    b->behind = b->h_top = NAN;
    b->across.room = num_symmetric_new(ACROSS);
    b->along.room = num_symmetric_new(ALONG);
    if (!b->across.room || !b->along.room) {
        heatup_brick_free(b);
        return NULL;
    }
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
    if (!brick)
        return;
    num_symmetric_free(brick->across.room);
    num_symmetric_free(brick->along.room);
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

/* The operator along one edge, with W/m2/K from half a cell to what lies behind its first and its last face. */
static void diagonalise(axis *a, const double *sizes, int n, const heatup_brick_spec *spec, double first, double last)
{
    double matrix[ALONG * ALONG] = {0}, vectors[ALONG * ALONG];
    for (int i = 0; i < n; i++) {
        matrix[i * n + i] += ((i == 0 ? first : 0) + (i == n - 1 ? last : 0)) / (spec->heat_capacity * sizes[i]);
        if (i + 1 == n)
            continue;
        const double g = spec->conductivity / (0.5 * (sizes[i] + sizes[i + 1])) / spec->heat_capacity;
        matrix[i * n + i] += g / sizes[i];
        matrix[(i + 1) * n + i + 1] += g / sizes[i + 1];
        matrix[(i + 1) * n + i] = -g / sqrt(sizes[i] * sizes[i + 1]);
    }
    num_symmetric_eigen(a->room, matrix, a->values, vectors);
    for (int i = 0; i < n; i++)
        for (int m = 0; m < n; m++)
            a->there[i * n + m] = a->back[m * n + i] = vectors[i * n + m] / sqrt(sizes[i]);
}

/* What lies behind the faces changes seldom. */
static void set_faces(heatup_brick *b, double skin, double h_top)
{
    const double k = b->spec.conductivity;
    if (skin == b->behind && h_top == b->h_top)
        return;
    b->behind = skin;
    b->h_top = h_top;
    diagonalise(&b->across, b->dx, ACROSS, &b->spec, 0, outward(1, b->dx[ACROSS - 1], k, skin));
    diagonalise(&b->along, b->dz, ALONG, &b->spec, outward(1, b->dz[0], k, skin),
                outward(1, b->dz[ALONG - 1], k, h_top));
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

/* Applies a matrix of n by n along the slowest of the three edges, which becomes the fastest. */
static void transform(const double *matrix, int n, const double *from, double *to)
{
    const int others = CELLS / n;
    for (int o = 0; o < others; o++)
        for (int block = 0; block < n; block += ACROSS) {
            double sum[ACROSS] = {0};
            for (int c = 0; c < n; c++)
                for (int r = 0; r < ACROSS; r++)
                    sum[r] += matrix[c * n + block + r] * from[c * others + o];
            memcpy(to + o * n + block, sum, sizeof sum);
        }
}

/* (M + gamma dt K) x = what x is at the start. */
static void solve(const heatup_brick *b, double *x)
{
    const double mass = 4 * b->spec.heat_capacity, share = GAMMA * b->dt;
    double a[CELLS], c[CELLS];
    transform(b->along.there, ALONG, x, a);
    transform(b->across.there, ACROSS, a, c);
    transform(b->across.there, ACROSS, c, a);
    for (int z = 0; z < ALONG; z++)
        for (int j = 0; j < ACROSS; j++)
            for (int i = 0; i < ACROSS; i++)
                a[index_of(i, j, z)] /=
                    mass * (1 + share * (b->across.values[i] + b->across.values[j] + b->along.values[z]));
    transform(b->along.back, ALONG, a, c);
    transform(b->across.back, ACROSS, c, a);
    transform(b->across.back, ACROSS, a, x);
}

/* Both stages; x from the start to the end of the step. Adds up what goes in by the top and out by the skin. */
static void two_stages(const heatup_brick *b, double t_skin, double t, double *x, double *top, double *skin)
{
    const double first = (1 - GAMMA) * b->dt, second = GAMMA * b->dt;
    double stage[CELLS];
    for (int n = 0; n < CELLS; n++)
        stage[n] = b->capacity[n] * x[n] + second * (b->skin[n] * t_skin + b->top[n] * t);
    solve(b, stage);
    for (int n = 0; n < CELLS; n++) { /* what flows at the stage is what brought it there */
        const double stored = b->capacity[n] * (stage[n] - x[n]) * (first / second);
        x[n] = b->capacity[n] * x[n] + stored + second * (b->skin[n] * t_skin + b->top[n] * t);
    }
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

double heatup_brick_above(const heatup_brick *brick, double limit)
{
    double above = 0, all = 0;
    for (int n = 0; n < CELLS; n++) {
        above += brick->t[n] > limit ? brick->capacity[n] : 0;
        all += brick->capacity[n];
    }
    return above / all;
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
