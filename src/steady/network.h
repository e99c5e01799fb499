/* SPDX-License-Identifier: MIT */
/* The plant compiled for solving, and the workspace of one thread. Private to this folder.
 *
 * Unknowns: gauge pressures at nodes, at the holes of coils and in chambers; flows of lines, coil segments, tee legs
 * and boilers, flows beside pressures so that a wide header with a drop of 1e-4 Pa keeps its digits; and the share of
 * its lines' condensate that a node gives. Equations, one for each unknown: vapour balance at a node, flow out of a
 * hole, gas balance of a chamber, pressure change along a line, segment or tee leg, what a boiler may give, and that a
 * node gives all or has the pressure of rest. */
#ifndef STEADY_NETWORK_H
#define STEADY_NETWORK_H

#include "farvessel/constants.h"
#include "farvessel/heat.h"
#include "farvessel/steady.h"
#include "num/sparse.h"

#include <math.h>

/* K. Over so much a cubic of the heat loss is right to 1e-10: it goes about as the 1.25th power of 80 K. */
#define STEADY_LOSS_SPAN 1.0

/* What an unknown is. */
typedef enum { STEADY_A_PRESSURE, STEADY_A_FLOW, STEADY_A_SHARE, STEADY_A_RATIO } steady_measure;

/* A round bore that steam flows through. */
typedef struct {
    double area, bore, length, relative_roughness;
    double friction; /* NaN: from the correlation */
} steady_duct;

typedef struct {
    const fv_line *line;
    steady_duct duct;
    int node_from, node_to; /* unknowns; a tee's port stands in for the plant node */
    int unknown;            /* its flow parameter, and the row of its equation */
    int head_unknown;       /* head that a sag's water takes; -1: no sag */
    double k;               /* fittings without valves */
    double rise, sag;
    fv_heat_pipe pipe;
    double wind, air; /* NaN: the site's */
    double emissivity, h_outside;
    double heat_loss;  /* W/m fixed by the user; NaN: computed */
    double k_friction; /* of the loss in short bores, kept apart for the report */
    bool doubtful;
} steady_net_line;

typedef struct {
    int line;
    const fv_fitting *fitting;
    double k_open; /* fully open */
    int curve;
} steady_net_valve;

typedef struct {
    const fv_tee *tee;
    int node, port[2];
    int unknown[2]; /* flows from the node into legs 1 and 2 */
    double area[3], angle;
} steady_net_tee;

typedef struct {
    double area;     /* of all holes at this place, m2 */
    double diameter; /* of one */
    double position;
    double cd;     /* without crossflow */
    double creeps; /* kg/s: so little flow goes as the drop and not as its root */
    bool fixed;    /* by the user: crossflow does not change it */
    bool doubtful;
} steady_net_hole;

/* A vessel with its coil. Segment k leads to hole k; a ring has one segment more, from the last hole back to the inlet.
 */
typedef struct {
    const fv_vessel *vessel;
    int node; /* unknown of the inlet's pressure */
    int first_hole, hole_count, segment_count;
    int flow_unknown; /* of segment 0; segment k at flow_unknown + 2 k, pressure at hole k at flow_unknown + 2 k + 1 */
    int chamber_unknown, head_unknown; /* pressure of the chamber, head that water over the holes takes */
    double bore_area, bore, relative_roughness, friction, entry, regain;
    int first_opening, opening_count;
    int only_line; /* at its node; -1: several */
} steady_net_vessel;

typedef struct {
    const fv_opening *opening;
    double cd_area, height;
} steady_net_opening;

/* Boilers at one node with one control pressure share an unknown. */
typedef struct {
    int node, unknown;
    double holds;
    int first, count; /* into boiler_order */
} steady_net_boilers;

struct fv_network {
    fv_arena *arena; /* holds all arrays below */
    const fv_plant *plant;
    const fv_sat *sat;
    double site_pressure;
    steady_net_line *lines;
    steady_net_tee *tees;
    steady_net_vessel *vessels;
    steady_net_hole *holes;
    double *segment_length; /* by vessel: first_hole + vessel index + k */
    steady_net_opening *openings;
    steady_net_valve *valves;
    steady_net_boilers *boilers;
    int *boiler_order;
    bool *drip; /* by plant node */
    size_t line_count, tee_count, vessel_count, hole_count, opening_count, valve_count, boiler_group_count;
    int *tee_at;    /* by plant node: the tee there, or -1 */
    double *height; /* m, by plant node, above the first of its part */
    double height_range;
    int node_count;          /* plant nodes and tee ports: the first unknowns */
    int *plant_node;         /* of each such node */
    int gives_first;         /* unknown of the first node's share of condensate that it gives */
    int water_first;         /* unknown of the first plant node's water, kg beside a kg of vapour; the last unknowns */
    steady_measure *measure; /* by unknown */
    int unknown_count;
    /* lines at each plant node */
    int *touch_start, *touch_line;
    num_pattern *pattern;
    size_t entry_count;
};

/* How a line is written down at this moment. */
typedef enum {
    FORM_SHUT,     /* by a valve, or with no fire on its part of the plant */
    FORM_THROUGH,  /* may be fed from both ends */
    FORM_ONE_WAY,  /* fed from one end alone: where steam is short, all of it may condense on the way */
    FORM_DEAD_LEG, /* fed from one end alone, with no open vessel beyond: written as through */
} steady_line_form;

/* Heat loss per metre of a line with steam at a temperature, K, W/m, with its slope. */
typedef struct {
    double t, q, q_t, t_surface;
} steady_loss;

/* What travels with the steam and changes slowly: brought up to date before each residual. */
typedef struct {
    double enthalpy; /* of the vapour that enters, J/kg */
    steady_loss below,
        above;    /* the line's mean temperature, STEADY_LOSS_SPAN apart: between them loss is a cubic (Hermite) */
    double rides; /* share of the condensate that runs on with the steam */
    double water_out, water_enthalpy; /* kg/s, J/kg: leaves with the steam */
    bool passed;                      /* on to the node that it runs to, in this round */
    double quality;
    bool doubtful;
} steady_carried;

/* What comes together at a plant node. */
typedef struct {
    double in, heat_in;              /* vapour kg/s, its enthalpy W */
    double water_in, water_heat_in;  /* kg/s, W */
    double out;                      /* vapour that leaves, kg/s */
    double enthalpy, water_enthalpy; /* of the mixed vapour and water, J/kg */
    bool settled;                    /* in this round */
} steady_at_node;

/* line.c: from the flow parameter to what enters and leaves. */
typedef struct {
    double from, to;         /* kg/s of vapour */
    double mean, rubs, seal; /* rubs: share of the length that counts for friction; seal: Pa of head taken by a sag,
                                signed by the flow */
    double from_t, to_t, mean_t, rubs_t, made_t; /* by the flow parameter */
    double from_c, to_c, mean_c, rubs_c, made_c; /* by the condensate */
    double from_y, to_y;                         /* by the share that the node at that end gives */
    double condensate, condensate_p;             /* kg/s of the filled line, and by either end's pressure */
    double wet, made;                            /* share of the length that steam fills, kg/s that condenses in fact */
    double t, h_f, latent; /* K, J/kg: water at the mean pressure, and from the vapour that enters to it */
} steady_line_flow;

/* What a connected part of the plant has to share, for the first guess. */
typedef struct {
    double could, holds; /* kg/s of its boilers, Pa that the highest holds */
    double condenses;    /* kg/s in its lines, filled */
    double open;         /* vessels */
    double highest;      /* Pa that even sharing would need */
    double shrink;       /* of all flows, so that it does not */
} steady_supply;

struct fv_solver {
    fv_arena *arena; /* holds all arrays below */
    const fv_network *net;
    double *x, *dx, *trial, *base, *kept, *turn;
    double *residual, *row_scale;
    double *values; /* Jacobian entries in stamping order */
    num_sparse *sparse;
    /* conditions of this solve */
    double t_air, wind;
    double *fire;
    fv_stored *stored;
    double *line_k; /* with valves */
    fv_chamber *chambers;
    steady_line_form *form, *form_before;
    bool *fed_from;              /* by line, one way: fed from its `from` end */
    int *one_way, one_way_count; /* these lines, upstream first */
    int *part;                   /* by plant node: which connected part it is in */
    steady_supply *supply;       /* by part */
    double steam_scale;          /* kg/s that the boilers could give */
    double steam_made;           /* kg/s that they give, as carried; not less than a millionth of what they could */
    double enthalpy_made;        /* J/kg of it in the mean: where nothing enters it does not matter, and jumps least */
    double low, high;            /* Pa gauge that no pressure lies beyond */
    steady_carried *carried;     /* by line */
    steady_line_flow *flow;      /* by line: as steady_carry found it */
    steady_at_node *at;          /* by plant node */
    double *node_pinned;         /* by node: 1 where nothing holds its pressure and it is taken as the air's, else 0 */
    double drained, drained_enthalpy; /* kg/s, W taken out by drip legs and running back */
    int *order;                       /* plant nodes, upstream first */
    int *scratch;                     /* 8 ints per plant node, for orders and searches */
    bool circles;                     /* whether steam runs in one, as carried */
    bool warm;
    bool assembled;     /* the Jacobian and the residual are those at x */
    bool follows_water; /* whether the Jacobian knows how the water in a line changes with the flows */
    double softness;    /* of all that is either-or (soft.h): 0 for the thing itself, up to 1 */
    double recovers; /* share of velocity heads that tees and coils turn into pressure: 1, or less on the way there */
    double *dry_pressure; /* by node, Pa gauge: where it rests when nothing comes (dry.c) */
    double *draws;        /* by node, kg/s: condensate that lines fed from both ends draw from it; as carried */
};

/* Entries of the Jacobian in a fixed order. With rows and cols it records the pattern, too. */
typedef struct {
    double *values;
    int *rows, *cols; /* NULL: numbers only */
    size_t count, capacity;
    bool record;
    bool failed;
} steady_stamps;
void steady_stamp_grow(steady_stamps *stamps);
static inline void steady_stamp(steady_stamps *s, int row, int col, double value)
{
    if (s->record && s->count >= s->capacity)
        steady_stamp_grow(s);
    if (s->failed)
        return;
    if (s->record) {
        s->rows[s->count] = row;
        s->cols[s->count] = col;
    }
    s->values[s->count++] = value;
}

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
    bool choked, doubtful;
} steady_duct_state;
/* p1, p2 Pa gauge, m kg/s from 1 to 2 (mean), wet: share of the length that steam fills, 0..1. */
void steady_duct_evaluate(const fv_network *net, const steady_duct *duct, double k, double p1, double p2, double m,
                          double wet, double two_phase, steady_duct_state *out);

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
    double rho, rho_p; /* vapour before the hole, and its slope */
    bool choked, doubtful;
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
/* Gas out of opening j (negative: air in) at chamber pressure p, with its derivative. */
double steady_opening_flow(const steady_net_opening *opening, double site_pressure, double rho_ambient,
                           double rho_chamber, double p, double *by_p);

/* Chamber pressure at which the openings let `wanted` out, and its slope; start: a guess. */
double steady_venting_pressure(const fv_solver *s, int vessel, double wanted, double start, double *by_wanted);

/* boilers.c */
void steady_boiler_equation(const fv_solver *s, int group, const double *x, double *residual, steady_stamps *stamps);
/* Water that a group carries beside a kg of steam, and its slope. */
double steady_boilers_wetness(const fv_solver *s, int group, double p, double *by_p);
/* Most steam that a group, and one boiler, gives at gauge pressure p and its fire, with the derivative. */
double steady_boilers_most(const fv_solver *s, int group, double p, double *by_p);
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

/* carry.c: enthalpy, heat loss and the heat of water along the flow. Returns the largest change, relative to
 * all steam.
 */
double steady_carry(fv_solver *s, double *x);
/* Flows of all lines that are not shut, their losses brought up to date. */
void steady_find_flows(fv_solver *s, const double *x);

/* form.c: which lines are shut; must be called when valves, fires or chambers changed. */
void steady_choose_forms(fv_solver *s);
int steady_other_end(const fv_network *net, int line, int node); /* plant nodes */

/* dry.c: where the boilers make less than the lines could condense. */
void steady_find_dry_pressures(fv_solver *s);
/* 0 <= share given <= 1, all above the pressure of rest, none below. */
void steady_dryness_equations(const fv_solver *s, const double *x, double *residual, steady_stamps *stamps);

/* assemble.c: all residuals, and the Jacobian where stamps are wanted. */
void steady_assemble(const fv_solver *s, const double *x, double *residual, steady_stamps *stamps);

/* start.c: a first guess from a tree of flows. */
void steady_start_guess(fv_solver *s);
/* Nothing flows in the coils of shut vessels, and to them what condenses on the way; all else stays. */
void steady_guess_what_was_shut(fv_solver *s);

/* result.c. What enters each node less what leaves it, kg/s, flows as steady_carry found them; out: by node. */
void steady_imbalances(const fv_solver *s, const double *x, double *out);
void steady_fill_result(fv_solver *s, fv_steady_result *result);

/* Coils start at segment_length[first_hole + index]. */
static inline const double *steady_segment_lengths(const fv_network *net, int vessel)
{
    return net->segment_length + net->vessels[vessel].first_hole + vessel;
}

#endif
