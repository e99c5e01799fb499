/* SPDX-License-Identifier: MIT */
/* The equations of the parts, each file one sort: residuals, and Jacobian entries where stamps are wanted. They know
 * the solver's state and never change it. */
#ifndef STEADY_EQUATIONS_H
#define STEADY_EQUATIONS_H

#include "farvessel/constants.h"
#include "steady/solver.h"
#include "steady/stamps.h"

/* duct.c: the equation of a bore between two static pressures. */
typedef struct {
    double residual; /* Phi(p1) - Phi(p2) - losses, kg/m3 Pa */
    double by_p1, by_p2, by_m, by_wet;
    /* of a line: by what condenses in it and the water that comes in, which load it; by the head of its seal */
    double by_made, by_water, by_seal;
    double friction, fittings, speed; /* the losses, kg/m3 Pa, signed with the flow */
    double rho1, rho2, rho_mean;
    double reynolds, f;
    double two_phase; /* multiplier on the friction; 1 from steady_duct_evaluate's point of view is dry */
    double mach;      /* at the end that it flows to, at most 1 */
    bool choked, doubtful;
} steady_duct_state;
/* p1, p2 Pa gauge, m kg/s from 1 to 2 (mean), wet: share of the length that steam fills, 0..1. */
void steady_duct_evaluate(const fv_network *net, const steady_duct *duct, double k, double p1, double p2, double m,
                          double wet, double two_phase, steady_duct_state *out);

/* sonic.c; p: a guess below it. */
double steady_sonic_pressure(const fv_network *net, double flux, double p, double *by_flux);

/* line.c */
void steady_line_flow_of(const fv_solver *s, int line, const double *x, steady_line_flow *out);
void steady_line_equation(const fv_solver *s, int line, const double *x, double *residual, steady_stamps *stamps);
void steady_line_state(const fv_solver *s, int line, const double *x, steady_line_flow *flow, steady_duct_state *duct);
/* Vapour out of the end that the line's steam runs to, kg/s; 0 where steam enters at both. */
static inline double steady_line_out(const steady_line_flow *flow)
{
    return fmax(fmax(flow->to, -flow->from), 0);
}

/* coil.c */
void steady_coil_equations(const fv_solver *s, int vessel, const double *x, double *residual, steady_stamps *stamps);
typedef struct {
    double residual, by_p, by_before, by_after, by_beyond;
    double flow, pressure, drop, cd;
    double regain, regain_by_p, regain_by_before, regain_by_after; /* Pa, across the hole */
    double sonic_by_before; /* of the pressure before it, where that is the sonic one */
    double mach;            /* before it, at most 1 */
    bool sonic, choked, doubtful;
} steady_hole_state;
void steady_hole_evaluate(const fv_solver *s, const steady_net_vessel *v, int hole, double p, double before,
                          double after, double p_beyond, steady_hole_state *out);
/* Pressure that the holes of a coil blow against. */
static inline double steady_beyond_holes(const steady_net_vessel *v, const double *x)
{
    return x[v->chamber_unknown] + x[v->head_unknown];
}
double steady_coil_inflow(const steady_net_vessel *v, const double *x);

/* chamber.c: openings and what a chamber does. */
void steady_chamber_equation(const fv_solver *s, int vessel, const double *x, double *residual, steady_stamps *stamps);
/* Share of air, by mass, in what leaves by an opening of that effectiveness where the chamber's gas has `share`. */
double steady_purged_share(double purge, double share);
/* Gas out of opening j (negative: air in) at chamber pressure p, with its derivative. */
double steady_opening_flow(const steady_net_opening *opening, double site_pressure, double rho_ambient,
                           double rho_chamber, double p, double *by_p);

/* m3/s that pass it both ways beside a net flow m out, kg/s; with its slopes by m and by the chamber's density. */
double steady_opening_exchange(const steady_net_opening *opening, double rho_ambient, double rho_chamber, double m,
                               double *by_m, double *by_rho);

/* Chamber pressure at which the openings let `wanted` out, and its slope; start: a guess. */
double steady_venting_pressure(const fv_solver *s, int vessel, double wanted, double start, double *by_wanted);

/* boilers.c */
void steady_boiler_equation(const fv_solver *s, int group, const double *x, double *residual, steady_stamps *stamps);
/* Water that a group carries beside a kg of steam, and its slope. */
double steady_boilers_wetness(const fv_solver *s, int group, double p, double *by_p);
/* Most steam that a group, and one boiler, gives at gauge pressure p and its fire, with the derivative. */
double steady_boilers_most(const fv_solver *s, int group, double p, double *by_p);
double steady_feed_enthalpy(const fv_network *net, const fv_boiler *boiler, const fv_sat_point *at, double *by_p);
double steady_boiler_most(const fv_network *net, const fv_boiler *boiler, double fire, fv_stored stored, double p,
                          double *by_p);

/* tee.c */
void steady_tee_equations(const fv_solver *s, int tee, const double *x, double *residual, steady_stamps *stamps);

/* water.c. What enters a line beside its vapour, with slopes by the line's flows and the water at its ends. */
typedef struct {
    double in, by_from, by_to, by_water[2]; /* kg/s */
} steady_line_water;
void steady_water_into(const fv_solver *s, int line, const steady_line_flow *f, const double *x,
                       steady_line_water *out);
/* Share of a line's water that its steam takes along; the rest runs back and is drained. */
double steady_water_taken(const fv_solver *s, const steady_line_flow *f);
/* What a line adds to the water's balances at its ends. */
void steady_line_water_equations(const fv_solver *s, int line, const steady_line_flow *f, const steady_line_water *in,
                                 const double *x, double *residual, steady_stamps *stamps);
/* Water beside a kg of vapour that leaves a node where so much arrives. */
double steady_water_beside(const fv_solver *s, double water, double vapour);
/* What nodes, coils and boilers add. */
void steady_node_water_equations(const fv_solver *s, const double *x, double *residual, steady_stamps *stamps);

/* dry.c: 0 <= share given <= 1, all above the pressure of rest, none below. */
void steady_dryness_equations(const fv_solver *s, const double *x, double *residual, steady_stamps *stamps);

#endif
