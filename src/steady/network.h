/* SPDX-License-Identifier: MIT */
/* The plant compiled for solving: numbers resolved, unknowns numbered, pattern analysed. It does not change, and all
 * solvers of it share it.
 *
 * Unknowns: gauge pressures at nodes, at the holes of coils and in chambers; flows of lines, coil segments, tee legs
 * and boilers, flows beside pressures so that a wide header with a drop of 1e-4 Pa keeps its digits; and the share of
 * its lines' condensate that a node gives. Equations, one for each unknown: vapour balance at a node, flow out of a
 * hole, gas balance of a chamber, pressure change along a line, segment or tee leg, what a boiler may give, and that a
 * node gives all or has the pressure of rest. */
#ifndef STEADY_NETWORK_H
#define STEADY_NETWORK_H

#include "farvessel/heat.h"
#include "farvessel/steady.h"
#include "num/sparse.h"

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
    double narrowing[2];    /* K lost into it from wider lines, on its own bore, as it flows to `to` and to `from` */
    double widening[2];     /* K regained out of it into wider lines, likewise */
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
    int leg[3]; /* lines: main, run and branch */
    int node, port[2];
    int unknown[2]; /* flows from the node into legs 1 and 2 */
    double area[3], angle;
} steady_net_tee;

typedef struct {
    double area;     /* of all holes at this place, m2 */
    double diameter; /* of one */
    double position;
    double cd;         /* without crossflow */
    double creep_flow; /* kg/s: below it flow is proportional to the drop */
    bool fixed;        /* by the user: crossflow does not change it */
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
    double purge;          /* ventilation effectiveness */
    double seal;           /* Pa, head of its water seal */
    double exchange, ends; /* m3/s both ways at rest, over the root of density difference / mean; net outflow over it
                              that ends it; 0: none */
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
    steady_net_tee *tees; /* declared ones, then those that were found */
    fv_joint *joints;     /* by plant node */
    steady_net_vessel *vessels;
    steady_net_hole *holes;
    double *segment_length; /* by vessel: first_hole + vessel index + k */
    steady_net_opening *openings;
    steady_net_valve *valves;
    steady_net_boilers *boilers;
    int *boiler_order;
    bool *drip; /* by plant node */
    size_t line_count, tee_count, vessel_count, hole_count, opening_count, valve_count, boiler_group_count;
    double *height; /* m, by plant node, above the first of its part */
    double height_range;
    int node_count;          /* plant nodes and tee ports: the first unknowns */
    int *plant_node;         /* of each such node */
    int share_first;         /* unknown of the first node's share of condensate that it gives */
    int water_first;         /* unknown of the first plant node's water, kg beside a kg of vapour; the last unknowns */
    steady_measure *measure; /* by unknown */
    int unknown_count;
    /* lines at each plant node */
    int *touch_start, *touch_line;
    num_pattern *pattern;
    size_t entry_count;
};

/* Coils start at segment_length[first_hole + index]. */
static inline const double *steady_segment_lengths(const fv_network *net, int vessel)
{
    return net->segment_length + net->vessels[vessel].first_hole + vessel;
}

#endif
