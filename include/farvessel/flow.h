/* SPDX-License-Identifier: MIT */
/* Floor 2: friction, fittings, tees, holes, two-phase flow. One correlation a file, SI in and out, pure, with the
 * derivatives that Newton's method needs. */
#ifndef FARVESSEL_FLOW_H
#define FARVESSEL_FLOW_H

#include "farvessel/base.h"

FV_C_BEGIN

/* Darcy friction factor: 64/Re to Re 2000, Colebrook-White from Re 4000 (to machine precision), between them
 * (1 - w) 64/Re + w f_CW(Re), w = t^2 (3 - 2 t), t = (Re - 2000)/2000. Gives f and df/dRe.
 * re >= 0 (at 0: f = infinity is avoided by callers through fv_flow_friction_re2). */
fv_status fv_flow_friction(double re, double relative_roughness, double *f, double *df_dre);
/* Colebrook-White alone, for tests and for those who fix the regime. */
fv_status fv_flow_colebrook(double re, double relative_roughness, double *f, double *df_dre);
/* f Re^2 / 2 and its derivative by Re: finite and smooth at rest (32 Re there). The pressure gradient of a line is this
 * times mu^2 / (rho D^3), so that a line at rest has a finite slope. */
fv_status fv_flow_friction_re2(double re, double relative_roughness, double *half_f_re2, double *derivative);
/* Fully rough friction factor f_T = 1/(2 log10(3.7 / (eps/D)))^2, for K = n f_T. Smoother than 1e-6 counts as that,
 * FV_DOUBTFUL. */
fv_status fv_flow_rough_factor(double relative_roughness, double *f_t);

/* Loss coefficients K on the velocity head of the SMALLER bore; area_ratio = small area / large area, 0..1. */
fv_status fv_flow_contraction(double area_ratio, double *k);
fv_status fv_flow_enlargement(double area_ratio, double *k);
/* A short bore (barb, union, coupling) inside a line: sudden change of bore + friction over its length + sudden change
 * back, as K on the velocity head of the LINE's bore, narrower or wider. friction: Darcy f in the short bore. */
fv_status fv_flow_short_bore(double bore, double length, double line_bore, double friction, double *k);
/* A thin plate with one hole across a line, on the velocity head of the LINE's bore; area_ratio above 0 to 1. */
fv_status fv_flow_diaphragm(double area_ratio, double *k);

/* One large opening, both ways at once at no net flow: m3/s each way over the root of (density difference / mean
 * density). A round hole in a level plate; one in an upright wall. */
fv_status fv_flow_exchange_level(double diameter, double thickness, double *per_root);
fv_status fv_flow_exchange_upright(double area, double height, double *per_root);
/* K of a valve on bore d from its flow coefficient: Kv (m3/h of water at 1 bar), and Cv (US gal/min at 1 psi) as Kv. */
fv_status fv_flow_k_from_kv(double kv, double bore, double *k);
double fv_flow_kv_from_cv(double cv);
/* Share of the full flow coefficient at an opening 0..1 for a valve characteristic. */
typedef enum { FV_VALVE_LINEAR, FV_VALVE_EQUAL_PERCENT, FV_VALVE_QUICK, FV_VALVE_BALL } fv_valve_curve;
fv_status fv_flow_valve_opening(fv_valve_curve curve, double opening, double *share);

/* A tee. Legs 0 and 1 are the straight run, leg 2 the branch at `angle` (rad, from leg 1's outward axis, pi/2 for
 * a square tee). g[i]: mass flow INTO the tee through leg i, kg/s, sum zero. area[i] m2.
 * drop[i-1] = rho (p_0 - p_i), STATIC pressures at the legs, (kg/s/m2)^2, i = 1, 2; jacobian[i-1][j] by g[j].
 * Dividing and combining flow in every direction, homogeneous of degree 2, continuous where a leg's flow passes zero.
 * Loss coefficients depend on the split and the area ratio; source in the code. */
fv_status fv_flow_tee(const double area[3], double angle, const double g[3], double drop[2], double jacobian[2][3]);

/* Isentropic hole. m^2 = (cd A)^2 2 rho_1 dp Y2(x), x = dp/p_1 in 0..1, dp = p_1 - p_2. Y2 (expansibility squared)
 * comes with its derivative by x; x beyond the critical one chokes: Y2 then falls as x_c Y2_c / x, so that m depends on
 * p_1 alone. exponent: 1.135 dry saturated steam (Zeuner), 1.3 superheated, 1.4 air. Full precision as x -> 0. */
#define FV_EXPONENT_SATURATED 1.135
fv_status fv_flow_expansibility2(double x, double exponent, double *y2, double *dy2_dx, bool *choked);
double fv_flow_critical_ratio(double exponent);

/* Discharge coefficient of a hole in a pipe wall. thickness_ratio = wall / hole diameter; crossflow = velocity head
 * in the pipe before the hole / total head across the hole, 0 (still) to 1. Derivative by crossflow. */
fv_status fv_flow_hole_cd(double thickness_ratio, double crossflow, double *cd, double *dcd_dcrossflow);
/* The same in two steps, equal to the bit: without crossflow, which depends on the hole alone; and that with crossflow,
 * cheap enough for every evaluation. The status is the worse of the two. */
fv_status fv_flow_hole_cd_still(double thickness_ratio, double *cd);
fv_status fv_flow_hole_cd_crossed(double still, double crossflow, double *cd, double *dcd_dcrossflow);

/* Friction multiplier on the vapour-alone gradient when water is carried (phi_g^2 >= 1) for quality x in (0,1]. */
fv_status fv_flow_two_phase(double quality, double rho_g, double rho_f, double mu_g, double mu_f, double *phi2);

/* Uniform perforated pipe, first-order maldistribution (Senecal): share of the end-to-end flow difference for
 * pressure change along the pipe / hole drop. 0.1 gives 0.0513, the published 5 % rule. */
fv_status fv_flow_maldistribution(double pressure_change_over_hole_drop, double *share);

/* Critical mass flux of dry saturated steam by Napier: kg/s/m2 from Pa absolute. A check, not used by the solver. */
double fv_flow_napier(double p);

FV_C_END

#endif
