/* SPDX-License-Identifier: MIT */
/* Floor 2: surfaces, pipe and wall losses, conduction series, substrates. One correlation a file, SI, pure. */
#ifndef FARVESSEL_HEAT_H
#define FARVESSEL_HEAT_H

#include "farvessel/base.h"

FV_C_BEGIN

/* Heat transfer coefficients, W/m2/K, from a surface at t_s to air at t_a (K), p Pa. Each FV_DOUBTFUL outside its
 * range. */
fv_status fv_heat_natural_cylinder(double diameter, double t_s, double t_a, double p,
                                   double *h); /* Churchill-Chu, horizontal */
fv_status fv_heat_natural_vertical(double height, double t_s, double t_a, double p,
                                   double *h); /* Churchill-Chu plate */
fv_status fv_heat_natural_horizontal(double length, bool hot_side_up, double t_s, double t_a, double p, double *h);
fv_status fv_heat_forced_cylinder(double diameter, double wind, double t_s, double t_a, double p,
                                  double *h); /* Churchill-Bernstein */
fv_status fv_heat_forced_plate(double length, double wind, double t_s, double t_a, double p, double *h);
double fv_heat_radiation(double emissivity, double t_s, double t_a); /* linearised exactly: q = h (t_s - t_a) */
/* Natural and forced together: h^n = h_n^n + h_f^n, n = 3 or 4, source in the code. */
double fv_heat_mixed(double h_natural, double h_forced);
/* Nusselt film condensation of steam on a vertical plate / horizontal tube, W/m2/K. */
fv_status fv_heat_film_vertical(double height, double t_sat, double t_wall, double *h);
fv_status fv_heat_film_horizontal(double diameter, double t_sat, double t_wall, double *h);

/* Coefficient of a dry gap under a film, W/m2/K: air and radiation. INFINITY: no gap. NaN: no sense. */
double fv_heat_film_gap(double gap, double emissivity, double t);

/* The outside world as a surface sees it. */
typedef struct {
    double t_air;      /* K */
    double p_air;      /* Pa */
    double wind;       /* m/s */
    double emissivity; /* of the outermost surface */
    double h_fixed;    /* > 0: the user's own outside coefficient (radiation included); else computed */
} fv_heat_outside;

/* A round line: steam inside at t_inside (inner face taken at it unless h_inside > 0), wall, then lagging. */
typedef struct {
    double bore;               /* m */
    double wall, k_wall;       /* m, W/m/K */
    double lagging, k_lagging; /* m (0: none), W/m/K */
    double h_inside;           /* > 0: inside film coefficient */
} fv_heat_pipe;
/* Loss per metre (W/m), its derivative by t_inside (W/m/K) and the surface temperature (K), iterated to 1e-12 relative.
 */
fv_status fv_heat_pipe_loss(const fv_heat_pipe *pipe, double t_inside, const fv_heat_outside *outside, double *q,
                            double *dq_dt, double *t_surface);

/* A flat wall of layers, inside out; height for natural convection. Steady loss per m2. */
typedef struct {
    double thickness, k, rho, c;
} fv_heat_layer;
fv_status fv_heat_wall_loss(const fv_heat_layer *layers, size_t count, double height, double h_inside, double t_inside,
                            const fv_heat_outside *outside, double *q, double *dq_dt, double *t_surface);
/* Outside coefficient of a flat wall (natural + forced + radiation) at a known surface temperature. */
fv_status fv_heat_outside_wall(double height, double t_s, const fv_heat_outside *outside, double *h);

/* Conduction from a uniform start into surroundings of constant temperature, exact series. theta = (T - Tinf)/(Ti -
 * Tinf). FV_SLAB: half thickness L; FV_CYLINDER, FV_SPHERE: radius. biot may be INFINITY. position 0 centre .. 1
 * surface. */
typedef enum { FV_SLAB, FV_CYLINDER, FV_SPHERE } fv_shape_1d;
/* Eigenvalue n (from 0), its coefficient for theta at the centre, and for the volume mean. */
fv_status fv_heat_eigen(fv_shape_1d shape, double biot, int n, double *zeta, double *c_centre, double *c_mean);
fv_status fv_heat_theta(fv_shape_1d shape, double biot, double fourier, double position, double *theta);
fv_status fv_heat_theta_mean(fv_shape_1d shape, double biot, double fourier, double *theta);
/* Centre and volume mean at `count` Fourier numbers: the same values, with the eigenvalues found once for all. */
fv_status fv_heat_theta_all(fv_shape_1d shape, double biot, const double *fourier, size_t count, double *centre,
                            double *mean);

/* Media. Moisture is on the wet basis (kg water / kg wet); c in J/kg/K, k in W/m/K, density kg/m3 of the wet piece. */
typedef enum {
    FV_MEDIUM_WOOD,
    FV_MEDIUM_STRAW,
    FV_MEDIUM_GRAIN,
    FV_MEDIUM_PEAT,
    FV_MEDIUM_SOIL,
    FV_MEDIUM_COUNT
} fv_medium;
const char *fv_medium_name(fv_medium medium);
/* Specific heat of the DRY matter at t (K). */
fv_status fv_heat_dry_specific_heat(fv_medium medium, double t, double *c);
/* Wet specific heat; water share as liquid above 0 degC, as ice below. c_dry > 0 overrides the medium's own. */
fv_status fv_heat_specific_heat(fv_medium medium, double moisture, double t, double c_dry, double *c);
/* Conductivity from moisture and wet density. */
fv_status fv_heat_conductivity(fv_medium medium, double moisture, double density, double t, double *k);
/* Typical wet density of a packed piece (bag) and of a loose bed. */
double fv_heat_typical_density(fv_medium medium, double moisture, bool loose);
/* Share of its volume that is pores, from moisture (of the wet mass) and wet density; 0 where there are none. */
double fv_heat_pore_share(fv_medium medium, double moisture, double density);
/* Wood Handbook eq 4-15 and 4-16 to 4-18, exposed for the checks. moisture_dry: % of dry mass. */
fv_status fv_heat_wood_conductivity(double specific_gravity, double moisture_dry_percent, double *k);
fv_status fv_heat_wood_specific_heat(double moisture_dry_percent, double t, double *c);
fv_status fv_heat_siebel(double moisture, double *c);
#define FV_LATENT_ICE 333550.0 /* J/kg, heat of fusion of water at 0 degC (CRC Handbook; from memory) */

FV_C_END

#endif
