/* SPDX-License-Identifier: MIT */
/* The solver of one thread: what it is asked, what follows for the graph, its iterate, its workspace. */
#ifndef STEADY_SOLVER_H
#define STEADY_SOLVER_H

#include "steady/network.h"

#include <math.h>

/* K. Over so much a cubic of the heat loss is right to 1e-10: it goes about as the 1.25th power of 80 K. */
#define STEADY_LOSS_SPAN 1.0

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
        above;        /* the line's mean temperature, STEADY_LOSS_SPAN apart: between them loss is a cubic (Hermite) */
    double entrained; /* share of the condensate that runs on with the steam */
    double water_out, water_enthalpy; /* kg/s, J/kg: leaves with the steam */
    bool passed;                      /* on to the node that it runs to, in this round */
    double quality;
    bool doubtful;
} steady_convected;

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
    double from, to;                   /* kg/s of vapour */
    double mean, friction_share, seal; /* friction_share: share of the length that counts for friction; seal: Pa of head
                                taken by a sag, signed by the flow */
    double from_t, to_t, mean_t, friction_share_t, made_t; /* by the flow parameter */
    double from_c, to_c, mean_c, friction_share_c, made_c; /* by the condensate */
    double from_y, to_y;                                   /* by the share that the node at that end gives */
    double condensate, condensate_p;                       /* kg/s of the filled line, and by either end's pressure */
    double wet, made;      /* share of the length that steam fills, kg/s that condenses in fact */
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

/* What a solve is asked: constant while it lasts. */
typedef struct {
    double t_air, wind;
    double *fire;      /* by boiler */
    fv_stored *stored; /* by boiler */
    double *line_k;    /* by line, with valves; infinite: shut */
    fv_chamber *chambers;
    double steam_scale; /* kg/s that the boilers could give */
    int steps_most;     /* of Newton's, that one solve may take */
} steady_given;

/* What follows from it for the graph, found before Newton's method begins. */
typedef struct {
    steady_line_form *form, *form_before; /* by line; before: of the last solve */
    bool *fed_from;                       /* by line, one way: fed from its `from` end */
    int *one_way, one_way_count;          /* these lines, upstream first */
    int *part;                            /* by plant node: which connected part it is in */
    steady_supply *supply;                /* by part */
    double *node_pinned;  /* by node: 1 where nothing holds its pressure and it is taken as the air's, else 0 */
    double *dry_pressure; /* by node, Pa gauge: where it rests when nothing comes (dry.c) */
    bool *leads;          /* by group of boilers: lit, with the highest control pressure of its part */
    double low, high;     /* Pa gauge that no pressure lies beyond */
} steady_layout;

/* The iterate, and what is convected at it; the next solve starts from it. */
typedef struct {
    double *x;                   /* unknowns */
    steady_convected *convected; /* by line */
    steady_line_flow *flow;      /* by line: as steady_convect found it */
    steady_at_node *at;          /* by plant node */
    double *condensate_demand;   /* by node, kg/s: what lines fed from both ends condense of its steam */
    double steam_made;           /* kg/s that boilers give; not less than a millionth of what they could */
    double enthalpy_made;        /* J/kg of it in the mean: where nothing enters it does not matter, and jumps least */
    double drained, drained_enthalpy; /* kg/s, W taken out by drip legs and running back */
    int *order;                       /* plant nodes, upstream first */
    bool circles;                     /* whether steam runs in one */
    bool warm;                        /* a solution, and the factors belong to it */
    double smoothing; /* of all complementarity conditions (smooth.h): 0 for the thing itself, up to 1 */
    double recovery;  /* share of velocity heads that tees and coils turn into pressure: 1, or less on the way there */
} steady_state;

/* What the equations of a coil's segments and holes were last worked out from, beside the unknowns along it. */
typedef struct {
    double node, beyond, recovery; /* Pa at the inlet, beyond the holes; as in the state */
    bool shut, water, known;       /* known: false before the first time */
    size_t stamps;                 /* so many entries of `values` are theirs; 0: not worked out */
} steady_coil_memo;

/* Of one step: means nothing after it, but for the coils: from where one solve ends the next begins. */
typedef struct {
    double *dx, *trial, *base, *kept;
    double *fire;       /* by boiler: what is asked, while fires are raised to it */
    double *root_slope; /* of the root by the parameter of continuation */
    double *residual, *row_scale;
    double *values;             /* Jacobian entries in stamping order */
    steady_coil_memo *coils;    /* by vessel, with */
    double *coil_x, *coil_rows; /* the unknowns and the residuals, those of coils alone */
    num_sparse *sparse;
    int *scratch;           /* 8 ints per plant node, for orders and searches */
    bool assembled;         /* the Jacobian and the residual are those at x */
    bool water_in_jacobian; /* whether the Jacobian knows how the water in a line changes with the flows */
} steady_work;

/* The solver of one thread. */
struct fv_solver {
    fv_arena *arena; /* holds all arrays */
    const fv_network *net;
    steady_given given;
    steady_layout layout;
    steady_state state;
    steady_work work;
};

#endif
