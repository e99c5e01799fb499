/* SPDX-License-Identifier: MIT */
/* The plant on its way through time: what is open, lit, warmed, and the books kept on the way. Private to this folder.
 */
#ifndef FARVESSEL_HEATUP_RUN_H
#define FARVESSEL_HEATUP_RUN_H

#include "farvessel/heatup.h"
#include "heatup/chamber.h"

#define HEATUP_NO_STEAM 1e-9 /* kg/s: less is what a network's solution leaves behind a closed seal */

typedef enum { STEAM_WAITING, STEAM_OPEN, STEAM_SHUT } heatup_steam_state;

typedef struct {
    heatup_chamber chamber;
    heatup_steam_state state;
    double opens_at; /* s; NaN: waits for an event */
    double debt;     /* J that its cold lines still take before steam reaches it */
    bool counted_full, reached, holding;
    bool begun;         /* had steam: before that it stays as it is */
    bool asleep;        /* cooled, or settled for good: no longer followed */
    double hold_since;  /* s; NaN: core below target */
    double falls_since; /* s: since then its steam does not cover its losses; NaN */
    /* the last step: its length, core at its start, chamber over it, how far the gas was from full */
    double dt_before, core_before, t_before, from_full_before;
    double takes_before; /* W that it would have taken at the boiling point */
    double moved;        /* K that the chamber went in it */
    /* the coming step */
    double core, hottest, surface;        /* K, at its start */
    double core_after, after_dt, after_t; /* K at its end; for which length and chamber; NaN: not known */
    double to_lines;                      /* share of its steam that its cold lines take */
    double slope, slope_end;              /* K/s of the core at its start and end; NaN: not at hand */
    double core_end, surface_end;         /* K at its end, once it is taken */
    double crosses;                       /* s into it when the core passes the target; NaN */
    double fills;                         /* s into it when the chamber is full; NaN */
    heatup_chamber_step step;
    heatup_chamber_trial trial;
    /* what is to come of it as things are: K that its chamber tends to, NaN: not foreseen; and why no higher */
    double tends;
    fv_arrival tends_for;
} heatup_vessel_run;

typedef struct {
    double fire; /* setting, 0..1 */
    bool lit, up, dry;
    double warmed, to_warm; /* J into water and steel; J it takes; NaN until known */
    double stock;           /* kg that may still boil away; INFINITY with automatic feed */
    double capacity;        /* J/K of water and steel */
    double t_stored;        /* K, where they are */
    double pays;            /* W that go into them over the step */
} heatup_boiler_run;

typedef struct {
    double due; /* s; NaN: waits for its event */
    bool done;
} heatup_action_run;

/* Scratch of the search for what cold lines lead to. */
typedef struct {
    int *order, *leaving, *queue; /* lines, downstream first; by node */
    double *at_node, *sum;        /* kg/s: by node; by line */
} heatup_trace;

typedef struct {
    const fv_plant *plant;
    const fv_heat_options *options;
    fv_faults *faults;
    fv_heat_result *result;
    fv_heat_kit *kit;
    const fv_sat *sat;
    fv_network *net;
    fv_solver *solver;
    fv_steady_result *state; /* the network now */
    bool state_fresh;        /* state belongs to the conditions below */
    bool switched;           /* something was opened, shut, lit or turned since the last step */
    heatup_vessel_run *vessels;
    heatup_boiler_run *boilers;
    heatup_action_run *actions;
    bool *line_warm;
    heatup_trace trace;
    double *valve_open, *fire, *solved_fire;
    fv_stored *stored, *solved_stored;
    fv_chamber *chambers, *solved_chambers;
    double *more, *foretold; /* Pa, kg/s by vessel: scratch of the question whether the network must be asked again */
    /* By vessel, then by boiler, s: how much of its steam or output was missed since the network was last solved, and
     * will be with the step just tried; of all, how much may be. */
    double *missed, *missing, may_miss;
    double solved_air, solved_wind;
    double t, dt;
    double looked; /* s, when it was last tried to foresee the end, or something was switched */
    int hurried;   /* steps in a row that were as short as they may be */
    double site_pressure, t_boil, h_f_boil;
    double *rows; /* series, one row after another */
    size_t row_count, row_width, row_capacity, happening_capacity;
    double next_sample;
    size_t most_in_hold; /* vessels, in the state kept */
} heatup_run;

/* run_open.c: all but the steps. False: out of memory, or the plant has no answer; said in faults. */
bool heatup_run_open(heatup_run *run);
void heatup_run_close(heatup_run *run);

/* weather.c */
void heatup_weather_at(const fv_plant *plant, double t, double *air, double *wind);

/* boilerhouse.c: lighting, warming, stock, pressure changes. */
void heatup_boilers_open(heatup_run *run);
bool heatup_boilers_light(heatup_run *run); /* those that are due; false: out of memory or no solution */
double heatup_boilers_next(const heatup_run *run, double dt); /* part of dt after which one steams or runs dry */
void heatup_boilers_set(heatup_run *run, double dt);          /* fire and stored heat as the network is to see them */
void heatup_boilers_still(heatup_run *run, double dt);        /* their state with nothing open */
void heatup_boilers_advance(heatup_run *run, double dt);      /* books; events steam up and dry */
void heatup_boilers_pay(heatup_run *run, double dt);          /* what changes of pressure take over the accepted step */
double heatup_boiler_fuel(const heatup_run *run, size_t i);   /* W burnt over it */
bool heatup_boilers_steaming(const heatup_run *run);
bool heatup_boilers_warming(const heatup_run *run); /* one will steam in time */

/* lines_warm.c: heat that cold lines take, charged to the vessels they lead to. True: something was charged. */
bool heatup_charge_cold_lines(heatup_run *run);

/* moment.c: network and chambers agree over a step dt. FV_DOUBTFUL: not as well as wanted. */
fv_status heatup_moment(heatup_run *run, double dt);
/* stale.c: whether the network must be solved again for a step dt. */
void heatup_stale_open(heatup_run *run);
bool heatup_network_stale(heatup_run *run, double dt, double air, double wind);
void heatup_stale_solved(heatup_run *run, double air, double wind);  /* it was, for these conditions */
void heatup_stale_taken(heatup_run *run);                            /* the step just tried is taken */
double heatup_hole_drop(const heatup_run *run, size_t vessel);       /* Pa, not quite 0 */
double heatup_vessel_steam(const heatup_run *run, size_t vessel);    /* kg/s into the coil, 0 unless open */
double heatup_vessel_enthalpy(const heatup_run *run, size_t vessel); /* of it, J/kg */
static inline bool heatup_followed(const heatup_vessel_run *v)
{
    return v->state != STEAM_WAITING && !v->asleep && (v->begun || v->step.steam > 0);
}

/* events.c */
double heatup_events_next(heatup_run *run,
                          double dt); /* part of dt after which the first event with a consequence happens */
void heatup_events_find(heatup_run *run, double dt);  /* when the accepted step's events happen */
void heatup_events_after(heatup_run *run, double dt); /* notes them once the step is taken */
void heatup_happen(heatup_run *run, double time, fv_happening_kind kind, int boiler, int vessel, int action);

/* actions.c */
void heatup_actions_open(heatup_run *run);
double heatup_actions_next(const heatup_run *run); /* time of the next thing due, INFINITY: none */
void heatup_actions_do(heatup_run *run);           /* everything due now */
/* Starts what waits for it. */
void heatup_actions_hear(heatup_run *run, fv_event_kind kind, int boiler, int vessel, double time);
bool heatup_actions_listen(const heatup_run *run, fv_event_kind kind, int vessel); /* something waits for it */
bool heatup_actions_may_open(const heatup_run *run, int vessel); /* an action may still open it; -1: any */
bool heatup_actions_want_steam(const heatup_run *run); /* something is open or may still be; else the fires are out */
void heatup_steam_shut(heatup_run *run, size_t vessel);

/* books.c */
void heatup_books_add(heatup_run *run, double dt);
void heatup_books_mark(heatup_run *run); /* keeps the split as long as any vessel is on the steam */
void heatup_books_close(heatup_run *run);

/* series.c */
void heatup_series_open(heatup_run *run);
bool heatup_series_add(heatup_run *run, double dt); /* samples that fall into the step that chambers have just taken */
bool heatup_series_close(heatup_run *run);
/* W that a vessel's walls, shell and load would take over the step just tried with its chamber at the boiling point. */
double heatup_vessel_takes(const heatup_run *run, size_t vessel);
/* Core at the end of a step with the chamber as tried; NaN: no piece. */
double heatup_core_after(heatup_vessel_run *v, double dt);
/* Where the load is at the end of the step that the chamber has just taken. */
void heatup_note_end(heatup_vessel_run *v);
/* Core a part into that step, K. */
double heatup_core_within(const heatup_vessel_run *v, double part, double dt);
fv_steady_result *heatup_state_copy(const heatup_run *run);

/* foresee.c */
bool heatup_foresee(heatup_run *run); /* where chambers on the steam tend to; false: not to be said */
bool heatup_tends_below(const heatup_run *run, size_t vessel); /* as foreseen, it will not reach its target */
bool heatup_time_to_look(heatup_run *run);                     /* a good while since the last look or switching */

/* verdicts.c */
void heatup_verdicts(heatup_run *run);
fv_arrival heatup_why_not(const heatup_run *run, size_t vessel); /* what keeps it from its target */
bool heatup_all_settled(heatup_run *run,
                        double dt); /* nothing more will come: says so and puts those vessels to sleep */

#endif
