/* SPDX-License-Identifier: MIT */
/* Floor 2: water, steam and air. SI in and out: Pa absolute, K, kg/m3, J/kg, Pa s, W/m/K. Pure functions. */
#ifndef FARVESSEL_PROPS_H
#define FARVESSEL_PROPS_H

#include "farvessel/base.h"

FV_C_BEGIN

/* One state of water or steam. */
typedef struct {
    double v;  /* m3/kg */
    double h;  /* J/kg */
    double u;  /* J/kg */
    double s;  /* J/kg/K */
    double cp; /* J/kg/K */
    double cv; /* J/kg/K */
    double w;  /* speed of sound, m/s */
} fv_if97_state;

/* IAPWS R7-97(2012). p in Pa, t in K. FV_DOUBTFUL outside the region's published range, FV_FAIL for arguments
 * that are not finite and positive. */
fv_status fv_if97_region1(double p, double t, fv_if97_state *out);
fv_status fv_if97_region2(double p, double t, fv_if97_state *out);
fv_status fv_if97_region2_metastable(double p, double t, fv_if97_state *out);
fv_status fv_if97_saturation_pressure(double t, double *p);
fv_status fv_if97_saturation_temperature(double p, double *t);

/* IAPWS R12-08 (viscosity) and R15-11 (conductivity), without the critical enhancement. */
fv_status fv_iapws_viscosity(double t, double rho, double *mu);
fv_status fv_iapws_conductivity(double t, double rho, double *lambda);

/* The saturated line as piecewise polynomials, made from the functions above when the library is built.
 * Agrees with IF97 to 1e-10 relative from 0.05 to 20 bar, C1 everywhere; the derivatives returned are the exact ones
 * of the fit. Beyond, it goes on along the end tangents, so that an iteration that strays stays finite and comes
 * back; a density, viscosity, pressure or temperature that has fallen to half its end value goes on as a hyperbola
 * and never reaches zero, at any finite argument. NaN gives NaN. */
typedef struct fv_sat fv_sat;
const fv_sat *fv_sat_line(void);

typedef struct {
    double t, dt_dp;         /* saturation temperature, K, K/Pa */
    double rho_g, drho_g_dp; /* vapour density */
    double h_g, dh_g_dp;     /* vapour enthalpy */
    double h_f, dh_f_dp;     /* water enthalpy */
    double rho_f;            /* water density */
    double mu_g, dmu_g_dp;   /* vapour viscosity */
    double mu_f;             /* water viscosity */
} fv_sat_point;
void fv_sat_at(const fv_sat *sat, double p, fv_sat_point *out);

/* Only what the innermost loops need, cheaper. The derivative may be NULL. */
double fv_sat_rho_g(const fv_sat *sat, double p, double *drho_dp);
double fv_sat_t(const fv_sat *sat, double p, double *dt_dp);
double fv_sat_mu_g(const fv_sat *sat, double p, double *dmu_dp);

/* Phi(p + dp) - Phi(p), Phi the integral of rho_g over pressure, kg/m3 Pa. Keeps full relative precision for dp as
 * small as 1e-9 Pa: it is never formed as the difference of two large numbers. Antisymmetric in the two ends. */
double fv_sat_phi_step(const fv_sat *sat, double p, double dp);

/* The same line against temperature, for chambers: p_sat, rho_g, h_g, h_f at t (K); direct IF97 or a fit of the
 * same quality, 273.16 to 480 K, C1. */
typedef struct {
    double p, dp_dt;
    double rho_g, drho_g_dt;
    double h_g, dh_g_dt;
    double h_f, dh_f_dt;
} fv_sat_at_t_point;
void fv_sat_at_t(const fv_sat *sat, double t, fv_sat_at_t_point *out);

/* ISO 2533 standard atmosphere below 11 km: pressure (Pa) at geopotential altitude (m). */
fv_status fv_atmosphere_pressure(double altitude, double *p);

/* Dry air, ideal gas. */
double fv_air_density(double p, double t);
typedef struct {
    double rho, cp, mu, lambda, nu, alpha, pr, beta;
} fv_air_state;
/* Transport by published formulas (source in the code), -40 to 400 degC. FV_DOUBTFUL outside, FV_FAIL as above. */
fv_status fv_air_at(double p, double t, fv_air_state *out);

FV_C_END

#endif
