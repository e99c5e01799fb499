/* SPDX-License-Identifier: MIT */
/* The plant on its way through time: what is open, lit, warmed, and the books kept on the way. Private to this folder. */
#ifndef FARVESSEL_HEATUP_RUN_H
#define FARVESSEL_HEATUP_RUN_H

#include "farvessel/heatup.h"
#include "heatup/room.h"

typedef enum { STEAM_WAITING, STEAM_OPEN, STEAM_SHUT } fv_steam_state;

typedef struct {
    fv_room room;
    fv_steam_state state;
    double opens_at;  /* s; NaN: waits for an event */
    double debt;      /* J that its cold lines still take before steam reaches it */
    bool counted_full, reached, holding, asleep; /* asleep: cooled, or settled for good: no longer followed */
    double hold_since; /* s; NaN: core below target */
    double target_seen, t_before; /* core at the end of the last step, chamber before it, K */
    fv_room_step step;
    fv_room_trial trial;
} fv_vessel_run;

typedef struct {
    double fire;       /* setting, 0..1 */
    bool lit, up, dry;
    double warmed, to_warm; /* J into water and steel; J it takes; NaN until known */
    double stock;      /* kg that may still boil away; INFINITY with automatic feed */
    double t_stored;   /* K up to which the pressure's rise has been paid */
    double pays;       /* W of its output that goes into that rise over this step */
    double effective;  /* share of full output left for steam */
} fv_boiler_run;

typedef struct {
    double due; /* s; NaN: waits for its event */
    bool done;
} fv_action_run;

typedef struct {
    const fv_plant *plant;
    const fv_heat_options *options;
    fv_faults *faults;
    fv_heat_result *result;
    fv_sat *sat;
    fv_network *net;
    fv_solver *solver;
    fv_steady_result *state; /* the network now */
    bool state_fresh;        /* state belongs to the conditions below */
    bool switched;           /* something was opened, shut, lit or turned since the last step */
    fv_vessel_run *vessels;
    fv_boiler_run *boilers;
    fv_action_run *actions;
    bool *line_warm;
    double *line_sums; /* scratch, by line */
    double *valve_open, *fire, *solved_fire;
    fv_chamber *chambers, *solved_chambers;
    double solved_air, solved_wind;
    double t, dt;
    double site_pressure, t_boil, h_f_boil;
    double *rows; /* series, one row after another */
    size_t row_count, row_width, row_capacity, happening_capacity;
    double next_sample;
} fv_run;

/* weather.c */
void fv_weather_at(const fv_plant *plant, double t, double *air, double *wind);

/* boilerhouse.c: lighting, warming, stock, pressure changes. */
void fv_boilers_open(fv_run *run);
bool fv_boilers_light(fv_run *run);               /* those that are due; false: out of memory or no solution */
double fv_boilers_next(const fv_run *run, double dt); /* part of dt after which one steams or runs dry */
void fv_boilers_pay(fv_run *run, double dt);      /* settles what pressure changes take over this step */
void fv_boilers_advance(fv_run *run, double dt);  /* books; events steam up and dry */
bool fv_boilers_steaming(const fv_run *run);
bool fv_boilers_warming(const fv_run *run); /* lit, with fire enough, and not yet up */

/* lines_warm.c: heat that cold lines take, charged to the vessels they lead to. */
void fv_charge_cold_lines(fv_run *run);
bool fv_warms_lines(const fv_run *run, size_t vessel); /* its steam of this step went into cold lines */

/* moment.c: network and rooms agree over a step dt. */
fv_status fv_moment(fv_run *run, double dt);
double fv_vessel_steam(const fv_run *run, size_t vessel);    /* kg/s into the coil, 0 unless open */
double fv_vessel_enthalpy(const fv_run *run, size_t vessel); /* of it, J/kg */

/* events.c */
double fv_events_next(fv_run *run, double dt); /* part of dt after which the first event with a consequence happens */
void fv_events_after(fv_run *run, double dt);  /* notes what the accepted step brought */
void fv_happen(fv_run *run, double time, fv_happening_kind kind, int boiler, int vessel, int action);

/* actions.c */
bool fv_actions_open(fv_run *run);
double fv_actions_next(const fv_run *run);       /* time of the next thing due, INFINITY: none */
void fv_actions_do(fv_run *run);                 /* everything due now */
void fv_actions_hear(fv_run *run, fv_event_kind kind, int boiler, int vessel, double time); /* starts what waits for it */
void fv_steam_shut(fv_run *run, size_t vessel);
bool fv_actions_waiting(const fv_run *run);

/* books.c */
void fv_books_add(fv_run *run, double dt);
void fv_books_mark(fv_run *run); /* keeps the split as long as any vessel is on the steam */
void fv_books_close(fv_run *run);

/* series.c */
bool fv_series_open(fv_run *run);
bool fv_series_add(fv_run *run, double dt); /* samples that fall into the step that is about to be taken */
bool fv_series_close(fv_run *run);
fv_steady_result *fv_state_copy(const fv_run *run);

/* verdicts.c */
void fv_verdicts(fv_run *run);
double fv_ample_time(const fv_run *run, size_t vessel); /* s from steam on to core with the chamber at the boiling point; NaN: never */
bool fv_all_settled(fv_run *run, double dt);            /* nothing more will come: says so and puts those vessels to sleep */

#endif
