/* SPDX-License-Identifier: MIT */
/* Bessel functions of the first kind, orders 0 and 1, and their zeros (GSL stays behind this door). */
#ifndef FARVESSEL_NUM_BESSEL_H
#define FARVESSEL_NUM_BESSEL_H

/* J0(x), J1(x) for any finite x, to a few 1e-16 of their amplitude. */
double num_bessel_j0(double x);
double num_bessel_j1(double x);
/* Positive zero number n = 1, 2, ... of J0 and of J1, to rounding. */
double num_bessel_j0_zero(unsigned n);
double num_bessel_j1_zero(unsigned n);

#endif
