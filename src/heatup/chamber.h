/* SPDX-License-Identifier: MIT */
/* One vessel in time: load, walls, shell, gas and openings, and the balance that gives the chamber's temperature.
 *
 * Over a step pieces and walls meet one temperature, the mean, and answer to it exactly; gas and shell go from what
 * they were to what they are. What lies between the mean and the end depends on who holds the temperature. Load and
 * walls: they fix the mean, nothing can be said of the end, and the gas found is that of the middle of the step, so
 * that there is no ringing when a step is long. The gas: the mean is half way. In between, in proportion. So heat is
 * conserved to rounding, and what a piece sees over many steps has the right mean (second order in the step). */
#ifndef FARVESSEL_HEATUP_CHAMBER_H
#define FARVESSEL_HEATUP_CHAMBER_H

#include "farvessel/heatup.h"
#include "heatup/bed.h"
#include "heatup/body.h"
#include "heatup/wall.h"
#include "steady/equations.h"

/* What the chamber meets over a step. */
typedef struct {
    double dt;          /* s */
    double steam;       /* kg/s into the chamber */
    double enthalpy;    /* of it, J/kg */
    double water;       /* kg/s carried in */
    double t_air, wind; /* outside */
    double site_pressure;
} heatup_chamber_step;

/* What a step would do. */
typedef struct {
    double t, t_end;                          /* K: mean over the step, at its end */
    double pressure;                          /* Pa gauge */
    double air, vapour;                       /* kg in the chamber at the end */
    double drawn, swept;                      /* kg/s of air in; volumes of the chamber out over the step */
    double vented;                            /* kg/s of vapour out */
    double heat_load, heat_walls, heat_shell; /* J over the step */
    double heat_vented, heat_air, heat_gas;   /* J: vapour out, air in warmed, gas stored */
    double condensate;                        /* kg over the step */
    double quench;                            /* kg that the steam's superheat may take up */
    double in_bed;                            /* kg of it below the front of a climbing bed */
    double h_f;                               /* J/kg at which condensate leaves, the mean */
    double gas_by_t;                          /* J/K of gas, shell and openings at t_end */
    double humidity;                          /* at the end of the step */
    double supplied, to_skin;                 /* J to the front of a bed; from a bed into the walls beside it */
    double through;                           /* s into the step when a bed's front came out at the top; NaN */
} heatup_chamber_trial;

typedef struct {
    const fv_vessel *vessel;
    const steady_net_opening *openings;
    int opening_count;
    steady_net_opening *apart;    /* the same and room for what opens when it is off the line */
    steady_net_opening *coil_end; /* of those: its coil's open end, under the water over its holes; NULL: none */
    const fv_sat *sat;
    heatup_body *body; /* NULL: a bed, or no load */
    heatup_bed *bed;
    double pieces;
    heatup_wall_heat **walls, **bed_walls; /* beside the chamber; beside a bed, NULL where there is none */
    double beside;                         /* share of the walls that stands beside a bed */
    size_t wall_count;
    double shell;            /* J/K */
    double volume;           /* m3 of gas */
    double load_mass, solid; /* kg; m3 of the load that no gas takes */
    double soaks;            /* share of its condensate that the load takes up */
    double film_most; /* kg of water that clings to pieces and walls; INFINITY: the load itself is open and wet */
    /* state */
    double t, t_end;           /* K, mean over the last step and at its end */
    double pressure, air;      /* Pa gauge, kg */
    double trend;              /* K/s that it went over the last step */
    double t_shell;            /* K */
    double t_start, gave;      /* K; J to load and walls since the start, as far as they feel the chamber */
    double gas_by_t;           /* J/K of gas, shell and openings in the last step */
    double behind;             /* s by which the gas is that of an earlier moment than the last step's end */
    double dt, dt_before;      /* s, the last step and the one before it; 0: none */
    double rate, rate_before;  /* 1/s of the chamber's volume out, over them */
    double draws, drew_before; /* kg/s of air in, over them */
    double sump;               /* kg of condensate over the holes */
    double film;               /* kg of water that clings, which may evaporate again */
    double in_bed;             /* kg of water below a bed's front: the cold bed above keeps it from the chamber */
    double humidity;           /* vapour pressure / that of saturation; below 1 when nothing is left to evaporate */
    double depth;              /* m of water over the holes */
    bool steaming;             /* pieces see the condensing coefficient */
    bool in_open;              /* its load cools in the open: nothing else of it is followed */
    double gives_water;        /* kg that evaporate from it there for each J */
    /* of the coming step */
    double held;                /* share of load and walls in what sets the chamber's temperature, 0..1 */
    double late;                /* weight of the end in the means over it, 1/2..1 */
    double stretch, stretch_in; /* of it, to what the gas is followed over: of what goes out, of what comes in */
    /* answers to a constant t over the coming step: heat = a + b t */
    double prepared; /* s, the step they are for; NaN: none */
    double load_a, load_b, walls_a, walls_b;
    heatup_line skin;    /* the walls beside a bed, by the temperature there */
    heatup_line to_skin; /* what a bed gives them, by the chamber's */
    double t_beside;     /* K that they stood at over the step taken */
    double without;      /* s since a bed got steam */
} heatup_chamber;

/* Where chambers stand. */
typedef struct {
    const fv_plant *plant;
    fv_heat_cache *cache;
    double site_pressure;
    fv_faults *faults;
} heatup_chamber_house;
/* false: out of memory or a load that makes no sense, said in faults. */
bool heatup_chamber_open(heatup_chamber *chamber, const fv_vessel *vessel, const steady_net_opening *openings,
                         heatup_chamber_house *house);
void heatup_chamber_close(heatup_chamber *chamber);
/* What a wall meets outside: its own air and wind, or the site's. */
fv_heat_outside heatup_chamber_outside(const fv_wall *wall, double t_air, double wind, double site_pressure);

/* Asks load and walls how they will answer; before heatup_chamber_balance for each dt. */
fv_status heatup_chamber_prepare(heatup_chamber *chamber, const heatup_chamber_step *step);
/* chamber_walls.c */
fv_status heatup_walls_prepare(heatup_chamber *chamber, const heatup_chamber_step *step);
fv_status heatup_walls_advance(heatup_chamber *chamber, const heatup_chamber_step *step,
                               const heatup_chamber_trial *found);
/* chamber_bed.c: what a bed and the walls beside it will answer; the balance while its front climbs; what they took
 * besides; and the step taken. */
void heatup_bed_meet(heatup_chamber *chamber, const heatup_chamber_step *step, heatup_line skin);
fv_status heatup_bed_balance(heatup_chamber *chamber, const heatup_chamber_step *step, heatup_chamber_trial *found);
void heatup_bed_book_walls(const heatup_chamber *chamber, heatup_chamber_trial *found);
void heatup_bed_take_step(heatup_chamber *chamber, const heatup_chamber_step *step, const heatup_chamber_trial *found);
/* Whether a front has begun to climb and got no steam for so long that the bed cools as a whole. One that began frozen
 * stays a front: broken off, it would be as warm all over at once. */
bool heatup_bed_is_left(const heatup_chamber *chamber);
/* J still to be supplied before a bed is hot throughout; 0 where it is through, or there is none. */
double heatup_chamber_bed_wants(const heatup_chamber *chamber, double site_pressure);
/* s by which the gas found for the end of the coming step is that of an earlier moment. */
static inline double heatup_chamber_behind(const heatup_chamber *chamber, double dt)
{
    return 0.5 * chamber->held * dt;
}
/* chamber_balance.c: weight of the end in the mean of what goes exponentially as n volumes go out. */
double heatup_chamber_late(double n);
/* chamber_balance.c: temperature and pressure at which all balances, near a guess. */
fv_status heatup_chamber_solve(const heatup_chamber *chamber, const heatup_chamber_step *step,
                               const heatup_chamber_trial *guess, heatup_chamber_trial *found);
/* The same, a climbing bed and a melting load included. `found` holds the guess. */
fv_status heatup_chamber_balance(heatup_chamber *chamber, const heatup_chamber_step *step, heatup_chamber_trial *found);
/* It is taken off the line: its coil's end and its lid stand as the vessel says. */
void heatup_chamber_detach(heatup_chamber *chamber);
/* Its load cools in the open from now on: on shelves, taken apart, or under a lid that is off. Not for beds, nor what
 * is still frozen. FV_FAIL: out of memory. */
fv_status heatup_chamber_unload(heatup_chamber *chamber, double t_air, double site_pressure, double t_site, bool apart);
/* What a step does to it there. */
void heatup_chamber_in_open(const heatup_chamber *chamber, const heatup_chamber_step *step,
                            heatup_chamber_trial *found);
/* The water over the holes has changed: it seals an open coil. */
void heatup_chamber_cover_coil(heatup_chamber *chamber);
/* Its steam is shut off for now: a bed begins to cool. */
void heatup_chamber_shut(heatup_chamber *chamber);
/* s that a load still even at its start takes to the target in a chamber that stands at t; NaN: never. A bed, through
 * which steam passes as fast as it comes, takes no time. */
double heatup_chamber_ample_time(const heatup_chamber *chamber, double t, double target);
/* Goes on by the step as found. */
fv_status heatup_chamber_advance(heatup_chamber *chamber, const heatup_chamber_step *step,
                                 const heatup_chamber_trial *found);

double
heatup_chamber_core(const heatup_chamber *chamber); /* K, coldest point of the load; chamber where there is none */
double heatup_chamber_hottest(
    const heatup_chamber *chamber); /* K, warmest of centre and mean: what must be cool before opening */
double heatup_chamber_mean(const heatup_chamber *chamber);
double heatup_chamber_surface(const heatup_chamber *chamber);
double heatup_chamber_depth(const heatup_chamber *chamber, double depth); /* below a piece's surface; NaN: no pieces */
double heatup_chamber_core_slope(const heatup_chamber *chamber,
                                 double t); /* K/s with the chamber at t; NaN: not at hand */
/* Core after a part of the step with the chamber at t. */
double heatup_chamber_core_after(const heatup_chamber *chamber, double part, double t);
/* Share of air by volume in a chamber at t and a pressure (gauge). */
double heatup_chamber_air_share(const heatup_chamber *chamber, double t, double pressure, double site_pressure);
double heatup_chamber_boiling(const heatup_chamber *chamber,
                              double site_pressure); /* K at the chamber's own pressure */
/* A sum over all its walls, such as heatup_wall_heat_lost. */
double heatup_chamber_of_walls(const heatup_chamber *chamber, double (*what)(const heatup_wall_heat *wall));

#endif
