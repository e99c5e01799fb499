/* SPDX-License-Identifier: MIT */
/* Sobol' indices: the share of an output's variance that comes from each input, alone (first) and with all that it
 * brings about together with others (total). */
#ifndef NUM_SENSITIVITY_H
#define NUM_SENSITIVITY_H

#include "farvessel/base.h"

/* From runs at two independent samples A and B of n points and at A with column i taken from B, for each input i:
 * y_a[n], y_b[n], y_ab[i * n + k]. First: sum y_b (y_ab - y_a) / n / V (Saltelli et al., Comput. Phys. Commun. 181
 * (2010) 259, table 2 b), total: sum (y_a - y_ab)^2 / (2 n) / V (Jansen, Comput. Phys. Commun. 117 (1999) 35). All
 * zero where the output does not vary. */
void num_sensitivity_exact(const double *y_a, const double *y_b, const double *y_ab, size_t n, size_t inputs,
                           double *first, double *total);

/* Families of orthonormal polynomials, for inputs that are standard normal or even between 0 and 1. */
typedef enum { NUM_HERMITE, NUM_LEGENDRE } num_polynomials;

typedef struct {
    num_polynomials family;
    size_t degree;     /* highest power of each input alone */
    size_t pairs_of;   /* products of two inputs among so many that matter most */
    double least_gain; /* terms that explain less of the variance are left out again */
} num_regression;

/* From any one sample x (n x inputs) with outputs y: least squares on orthonormal polynomials of each input and
 * products of the first-order ones of the strongest (Sudret, Reliab. Eng. Syst. Saf. 93 (2008) 964: with orthonormal
 * terms the squares of the coefficients are the variances). explained: share of the variance that the polynomials
 * reproduce when each point is predicted from the others (leave one out; negative: nothing). The indices are shares of
 * the variance of y. FV_FAIL: out of memory, or fewer points than terms. */
fv_status num_sensitivity_regress(const num_regression *how, const double *x, const double *y, size_t n, size_t inputs,
                                  double *first, double *total, double *explained);

#endif
