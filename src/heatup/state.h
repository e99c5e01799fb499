/* SPDX-License-Identifier: MIT */
/* A run, in four parts: the context, which does not change once it is open; the state, which steps change and which is
 * copied as one; scratch that belongs to the thread; and what the run writes down. Private to this folder. */
#ifndef FARVESSEL_HEATUP_STATE_H
#define FARVESSEL_HEATUP_STATE_H

#include "farvessel/heatup.h"
#include "heatup/chamber.h"

#define HEATUP_NO_STEAM 1e-9 /* kg/s: less is what a network's solution leaves behind a closed seal */

typedef enum { STEAM_WAITING, STEAM_OPEN, STEAM_SHUT } heatup_steam_state;

/* A quantity that is known as one value a step: the last step's value and the moment that it belongs to; NaN: something
 * was switched since. */
typedef struct {
    double at, value;
} heatup_mean;

/* A vessel on its way. */
typedef struct {
    heatup_chamber chamber;
    heatup_steam_state state;
    double opens_at;  /* s; NaN: waits for an event */
    double line_heat; /* J that its cold lines still take before steam reaches it */
    bool counted_full, reached, holding;
    bool begun;         /* steam has stood at its holes, let in or not: before that it stays as it is */
    bool detached;      /* off the line */
    bool stuck;         /* its core hardly moves while thermostats switch to and fro */
    double core_looked; /* K, when that was last looked at */
    bool inactive;      /* cooled, or settled for good: no longer followed */
    double hold_since;  /* s; NaN: core below target */
    double falls_since; /* s: since then its steam does not cover its losses; NaN */
    /* the last step: its length, core at its start, chamber over it, how far the gas was from full */
    double dt_before, core_before, t_before, from_full_before;
    double takes_before; /* W that it would have taken at the boiling point */
    heatup_mean steam_mean, pressure_mean;
    double moved;      /* K that the chamber went in it */
    double walls_full; /* W that its walls took when its chamber last did not fall */
    /* the coming step */
    double core, hottest, surface;        /* K, at its start */
    double core_after, after_dt, after_t; /* K at its end; for which length and chamber; NaN: not known */
    double to_lines;                      /* share of its steam that its cold lines take */
    double slope, slope_end;              /* K/s of the core at its start and end; NaN: not at hand */
    double core_end, surface_end;         /* K at its end, once it is taken */
    double outermost;                     /* K of the hottest of its load, at its start */
    double crosses;                       /* s into it when the core passes the target; NaN */
    double fills;                         /* s into it when the chamber is full; NaN */
    heatup_chamber_step step;
    heatup_chamber_trial trial;
    /* what is to come of it as things are: K that its chamber tends to, NaN: not predicted; and why no higher */
    double tends;
    fv_arrival tends_for;
} heatup_vessel;

typedef struct {
    double fire, set_fire; /* 0..1: as it burns; as file and actions set it, which a thermostat may overrule */
    bool lit, up, dry;
    double warmed, to_warm; /* J into water and steel; J it takes; NaN until known */
    double stock;           /* kg that may still boil away; INFINITY with automatic feed */
    double water;           /* kg in it */
    double refilled;        /* s: refills up to then are in it */
    double capacity;        /* J/K of water and steel */
    double t_stored;        /* K, where they are */
    double pays;            /* W that go into them over the step */
    heatup_mean steam_mean, pressure_mean, fuel_mean;
} heatup_boiler;

typedef struct {
    double due; /* s; NaN: waits for its event */
    bool done;
} heatup_action;

typedef struct {
    bool in_force, on;
    int valve;           /* -1: none */
    double since;        /* s, when it took over or switched */
    double sensed, rate; /* K at the end of the last step, K/s over it */
} heatup_thermostat;

/* How many of each a plant has. */
typedef struct {
    size_t vessels, boilers, actions, thermostats, lines, nodes, valves;
} heatup_sizes;

/* Fixed from the first step on. */
typedef struct {
    const fv_plant *plant;
    const fv_heat_options *options;
    fv_heat_cache *cache;
    const fv_sat *sat;
    fv_network *net;
    heatup_sizes sizes;
    double site_pressure, t_boil, h_f_boil; /* Pa absolute, K, J/kg: of the site */
    double may_miss; /* s of its steam that a vessel may miss before the network is solved anew */
} heatup_context;

/* All that steps change. Arrays lie in one block (state.c); what chambers hold of load and walls belongs to the run
 * that opened them, and copies may look at it but not go on with it. */
typedef struct {
    double t, dt;        /* s: now; the next step, as long as the last ones suggest */
    double looked;       /* s, when it was last tried to predict the end, or something was switched */
    double kept_looked;  /* s, when it was last seen what cores do on thermostats */
    bool switched;       /* something was opened, shut, lit or turned since the last step */
    int short_steps;     /* in a row, as short as they may be */
    size_t most_in_hold; /* vessels, in the network kept for reports */
    fv_steady_result *network;
    bool network_fresh; /* it belongs to the conditions below */
    heatup_vessel *vessels;
    heatup_boiler *boilers;
    heatup_action *actions;
    heatup_thermostat *thermostats;
    bool *line_warm;
    double *valve_open, *valve_set; /* as it stands; as file and actions set it */
    /* what the network sees: fires, stored heat of boilers, back pressures of chambers; and what it saw when last
     * solved */
    double *fire, *solved_fire;
    fv_stored *stored, *solved_stored;
    fv_chamber *back, *solved_back;
    double solved_air, solved_wind;
    double *missed; /* s, by vessel, then by boiler: of its steam or output since the network was last solved */
    void *block;
    size_t block_size;
} heatup_state;

/* Room to work in; holds nothing from step to step but the solver's factors and the step just tried. */
typedef struct {
    fv_solver *solver;
    int *order, *leaving, *queue; /* lines, downstream first; by node: the search for what cold lines lead to */
    double *at_node, *sum;        /* kg/s: by node; by line */
    double *more, *predicted;     /* Pa, kg/s by vessel: whether the network must be solved anew */
    double *missing;              /* s, as missed: with the step just tried */
    bool again;                   /* it found no balance, and is tried again, shorter */
    void *block;
} heatup_scratch;

/* Events that the run has not read yet. */
typedef struct {
    fv_heat_event *items;
    size_t count, capacity;
} heatup_queue;

typedef struct {
    double *rows; /* one row of samples after another */
    size_t row_count, row_width, row_capacity;
    double next_sample; /* s */
    size_t depths;      /* the plant's probes; 0: none of them at a depth */
    double *deep;       /* K at them: before the step, after it */
} heatup_rows;

typedef struct {
    heatup_context context;
    heatup_state state;
    heatup_scratch scratch;
    heatup_queue events;
    heatup_rows series;
    fv_heat_result *result;
    size_t event_capacity; /* of the result's list */
    fv_faults *faults;
} heatup_run;

/* False: out of memory; what was given is freed by the free function all the same. */
bool heatup_state_init(heatup_state *state, const heatup_sizes *sizes, const fv_network *net);
bool heatup_state_copy(const heatup_state *from, const heatup_sizes *sizes, const fv_network *net, heatup_state *to);
void heatup_state_free(heatup_state *state);
bool heatup_scratch_init(heatup_scratch *scratch, const heatup_sizes *sizes, fv_network *net);
void heatup_scratch_free(heatup_scratch *scratch);
/* NULL: out of memory. */
fv_steady_result *heatup_network_copy(const fv_steady_result *from, const fv_network *net);

static inline bool heatup_followed(const heatup_vessel *v)
{
    return v->state != STEAM_WAITING && !v->inactive && v->begun;
}

#endif
