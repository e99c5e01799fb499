/* SPDX-License-Identifier: MIT */
/* The plant on its way through time: what is open, lit, warmed, and the books kept on the way. Private to this folder.
 */
#ifndef FARVESSEL_HEATUP_RUN_H
#define FARVESSEL_HEATUP_RUN_H

#include "farvessel/heatup.h"
#include "heatup/room.h"

#define FV_NO_STEAM 1e-9 /* kg/s: less is what a network's solution leaves behind a closed seal */

typedef enum { STEAM_WAITING, STEAM_OPEN, STEAM_SHUT } fv_steam_state;

typedef struct {
    fv_room room;
    fv_steam_state state;
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
    fv_room_step step;
    fv_room_trial trial;
    /* what is to come of it as things are: K that its chamber tends to, NaN: not foreseen; and why no higher */
    double tends;
    fv_arrival tends_for;
} fv_vessel_run;

typedef struct {
    double fire; /* setting, 0..1 */
    bool lit, up, dry;
    double warmed, to_warm; /* J into water and steel; J it takes; NaN until known */
    double stock;           /* kg that may still boil away; INFINITY with automatic feed */
    double capacity;        /* J/K of water and steel */
    double t_stored;        /* K, where they are */
    double pays;            /* W that go into them over the step */
} fv_boiler_run;

typedef struct {
    double due; /* s; NaN: waits for its event */
    bool done;
} fv_action_run;

/* Scratch of the search for what cold lines lead to. */
typedef struct {
    int *order, *leaving, *queue; /* lines, downstream first; by node */
    double *at_node, *sum;        /* kg/s: by node; by line */
} fv_trace;

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
    fv_vessel_run *vessels;
    fv_boiler_run *boilers;
    fv_action_run *actions;
    bool *line_warm;
    fv_trace trace;
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
} fv_run;

/* run_open.c: all but the steps. False: out of memory, or the plant has no answer; said in faults. */
bool fv_run_open(fv_run *run);
void fv_run_close(fv_run *run);

/* weather.c */
void fv_weather_at(const fv_plant *plant, double t, double *air, double *wind);

/* boilerhouse.c: lighting, warming, stock, pressure changes. */
void fv_boilers_open(fv_run *run);
bool fv_boilers_light(fv_run *run);                   /* those that are due; false: out of memory or no solution */
double fv_boilers_next(const fv_run *run, double dt); /* part of dt after which one steams or runs dry */
void fv_boilers_set(fv_run *run, double dt);          /* fire and stored heat as the network is to see them */
void fv_boilers_still(fv_run *run, double dt);        /* their state with nothing open */
void fv_boilers_advance(fv_run *run, double dt);      /* books; events steam up and dry */
void fv_boilers_pay(fv_run *run, double dt);          /* what changes of pressure take over the accepted step */
double fv_boiler_fuel(const fv_run *run, size_t i);   /* W burnt over it */
bool fv_boilers_steaming(const fv_run *run);
bool fv_boilers_warming(const fv_run *run); /* one will steam in time */

/* lines_warm.c: heat that cold lines take, charged to the vessels they lead to. True: something was charged. */
bool fv_charge_cold_lines(fv_run *run);

/* moment.c: network and rooms agree over a step dt. FV_DOUBTFUL: not as well as wanted. */
fv_status fv_moment(fv_run *run, double dt);
/* stale.c: whether the network must be solved again for a step dt. */
void fv_stale_open(fv_run *run);
bool fv_network_stale(fv_run *run, double dt, double air, double wind);
void fv_stale_solved(fv_run *run, double air, double wind);  /* it was, for these conditions */
void fv_stale_taken(fv_run *run);                            /* the step just tried is taken */
double fv_hole_drop(const fv_run *run, size_t vessel);       /* Pa, not quite 0 */
double fv_vessel_steam(const fv_run *run, size_t vessel);    /* kg/s into the coil, 0 unless open */
double fv_vessel_enthalpy(const fv_run *run, size_t vessel); /* of it, J/kg */
static inline bool fv_followed(const fv_vessel_run *v)
{
    return v->state != STEAM_WAITING && !v->asleep && (v->begun || v->step.steam > 0);
}

/* events.c */
double fv_events_next(fv_run *run, double dt); /* part of dt after which the first event with a consequence happens */
void fv_events_find(fv_run *run, double dt);   /* when the accepted step's events happen */
void fv_events_after(fv_run *run, double dt);  /* notes them once the step is taken */
void fv_happen(fv_run *run, double time, fv_happening_kind kind, int boiler, int vessel, int action);

/* actions.c */
void fv_actions_open(fv_run *run);
double fv_actions_next(const fv_run *run); /* time of the next thing due, INFINITY: none */
void fv_actions_do(fv_run *run);           /* everything due now */
/* Starts what waits for it. */
void fv_actions_hear(fv_run *run, fv_event_kind kind, int boiler, int vessel, double time);
bool fv_actions_listen(const fv_run *run, fv_event_kind kind, int vessel); /* something waits for it */
bool fv_actions_may_open(const fv_run *run, int vessel);                   /* an action may still open it; -1: any */
bool fv_actions_want_steam(const fv_run *run); /* something is open or may still be; else the fires are out */
void fv_steam_shut(fv_run *run, size_t vessel);

/* books.c */
void fv_books_add(fv_run *run, double dt);
void fv_books_mark(fv_run *run); /* keeps the split as long as any vessel is on the steam */
void fv_books_close(fv_run *run);

/* series.c */
void fv_series_open(fv_run *run);
bool fv_series_add(fv_run *run, double dt); /* samples that fall into the step that rooms have just taken */
bool fv_series_close(fv_run *run);
/* W that a vessel's walls, shell and load would take over the step just tried with its chamber at the boiling point. */
double fv_vessel_takes(const fv_run *run, size_t vessel);
/* Core at the end of a step with the chamber as tried; NaN: no piece. */
double fv_core_after(fv_vessel_run *v, double dt);
/* Where the load is at the end of the step that the room has just taken. */
void fv_note_end(fv_vessel_run *v);
/* Core a part into that step, K. */
double fv_core_within(const fv_vessel_run *v, double part, double dt);
fv_steady_result *fv_state_copy(const fv_run *run);

/* foresee.c */
bool fv_foresee(fv_run *run);                          /* where chambers on the steam tend to; false: not to be said */
bool fv_tends_below(const fv_run *run, size_t vessel); /* as foreseen, it will not reach its target */
bool fv_time_to_look(fv_run *run);                     /* a good while since the last look or switching */

/* verdicts.c */
void fv_verdicts(fv_run *run);
fv_arrival fv_why_not(const fv_run *run, size_t vessel); /* what keeps it from its target */
bool fv_all_settled(fv_run *run, double dt); /* nothing more will come: says so and puts those vessels to sleep */

#endif
