/* SPDX-License-Identifier: MIT */
/* A bed that cools: conduction in a brick, through its skin (sides and floor) to the walls and through its top to the
 * chamber. SI: K, s, J, W, m. */
#ifndef FARVESSEL_HEATUP_BRICK_H
#define FARVESSEL_HEATUP_BRICK_H

typedef struct {
    double area, depth;   /* m2 of the square top, m */
    double conductivity;  /* W/m/K */
    double heat_capacity; /* J/m3/K */
} heatup_brick_spec;

/* What a step meets: behind the skin a conductance for each of its square metres to a temperature, at the top a
 * coefficient. Both may be 0. */
typedef struct {
    double dt, skin, t_skin, h_top;
} heatup_brick_step;

/* Heat over a step with the chamber at t: a + b t. */
typedef struct {
    double a, b;
} heatup_line;

typedef struct heatup_brick heatup_brick;

heatup_brick *heatup_brick_new(const heatup_brick_spec *spec); /* NULL: out of memory */
void heatup_brick_free(heatup_brick *brick);
/* Below a height at one temperature, above at another. */
void heatup_brick_set(heatup_brick *brick, double height, double t_below, double t_above);
double heatup_brick_skin_area(const heatup_brick *brick); /* m2 of sides and floor */
/* The coming step: J in through the top, J out through the skin. */
void heatup_brick_prepare(heatup_brick *brick, const heatup_brick_step *step, heatup_line *top, heatup_line *skin);
/* Goes on by the step prepared, with the chamber at t. */
void heatup_brick_advance(heatup_brick *brick, double t);

double heatup_brick_mean(const heatup_brick *brick);
double heatup_brick_coldest(const heatup_brick *brick);
double heatup_brick_hottest(const heatup_brick *brick);
double heatup_brick_above(const heatup_brick *brick, double limit); /* share that is hotter */
double heatup_brick_top(const heatup_brick *brick);                 /* mean of the top face's cells */

#endif
