/* SPDX-License-Identifier: MIT */
/* Floor 5: the plant in time, from cold to core, through the hold, to cool. Times are seconds from the start of the
 * run; NaN: it did not happen. Definitions of the events, in one place:
 *
 * - steam up: a boiler has warmed its water and steel and gives steam;
 * - steam on: steam enters the vessel; its line is open and warmed, a boiler gives steam;
 * - full: the chamber is within FV_FULL_WITHIN of the boiling point at its own pressure;
 * - core: the coldest point of the load is at the target;
 * - hold: the core has been at or above the target for the hold time without a break, under steam or not;
 * - cool: after the hold, the hottest point of the load is down to the temperature at which it may be inoculated.
 *   Whether a vessel is safe to open is not told by a time: steam shut, no pressure, gas below 60 degC at the lid.
 *
 * Before its first steam a vessel stays as it is. A hold that is done shuts the vessel's steam; when no vessel wants
 * steam any more the fires are put out. */
#ifndef FARVESSEL_HEATUP_H
#define FARVESSEL_HEATUP_H

#include "farvessel/steady.h"

FV_C_BEGIN

#define FV_FULL_WITHIN 0.5 /* K: about 1.7 % of air by volume at sea level */

/* What many runs of like plants can share, so that it is made once: how each sort of piece conducts. Runs give the same
 * to the bit with one or without. It serves one thread at a time. NULL: out of memory. */
typedef struct fv_heat_cache fv_heat_cache;
fv_heat_cache *fv_heat_cache_new(void);
void fv_heat_cache_free(fv_heat_cache *cache);

typedef struct {
    double until;      /* s; the run ends here at the latest; default 7 days */
    double every;      /* s between samples of the series; default 300 */
    double fire;       /* multiplies every fire setting; 1 as the plant says */
    double fineness;   /* 1: default steps; 2: steps half as long, and so on, for the evidence */
    bool stop_at_core; /* end once every core has arrived or can no longer: what comes before is the same to the bit */
    bool stop_at_hold; /* the same once every hold has ended */
    size_t late_ends;  /* give up once so many cores cannot come within their allowed time; 0: never */
    bool all_by_until; /* give up once some core cannot come by `until` */
    fv_heat_cache
        *cache; /* shared with other runs; NULL: the run makes its own. NULL in the result's copy of the options */
} fv_heat_options;
void fv_heat_defaults(fv_heat_options *options);

/* Why a core did not arrive. */
typedef enum {
    FV_ARRIVED,
    FV_NOT_BOILING_POINT, /* the target is at or above the boiling point here */
    FV_NOT_SUPPLY,        /* losses eat the steam: the chamber settles below the target */
    FV_NOT_AIR,           /* air drawn in keeps the chamber below the target */
    FV_NOT_STEAM,         /* no steam passes to it: a seal, a shut valve, a line that condenses all */
    FV_NOT_DRY,           /* a boiler ran out of water first */
    FV_NOT_TIME,          /* still rising when the run ended */
    FV_NOT_THERMOSTAT     /* one keeps its chamber below the target; `settles` is its upper limit */
} fv_arrival;
const char *fv_arrival_word(fv_arrival arrival);

/* Where the heat went, J, since the start. */
typedef struct {
    double load, walls, shell, lines_warmed,
        line_losses;                       /* stored in, or lost by; walls: what entered their inner face */
    double wall_losses;                    /* of that, what left their outer face */
    double vented, air_warmed, gas_stored; /* steam out of openings, air drawn in, gas in the chambers */
    double drained;                        /* water that leaves hot: by how much it is above its feed */
    double boiler_startup, boiler_losses, boiler_stored,
        flue; /* water and steel warmed; standing; pressure changes; fuel not in the water */
} fv_heat_split;

typedef struct {
    double opened; /* s: its steam is open and a boiler gives some; the allowed time runs from here */
    double steam_on, full, core, hold, cool; /* s */
    double core_ample;    /* s from steam on to core with the chamber at the boiling point at once; of a bed: with the
                             steam of all boilers at full fire in it alone */
    double starved_since; /* s: once full; from then on its steam does not cover its losses and it cools down; NaN */
    fv_verdict verdict;
    fv_arrival arrival;
    double settles;               /* K: chamber temperature it tends to where the core never arrives; else NaN */
    double core_end, chamber_end; /* K at the end of the run */
    double hold_longest, hold_sum, hold_broken; /* s: longest unbroken, summed; when first broken, NaN */
    double lethality;                           /* s at the reference temperature; NaN without one */
    double steam, water, air;                   /* kg: into it; carried with it; drawn in */
    double air_to_core;                         /* kg of air drawn in until its core arrived, or at all */
    double condensate;                          /* kg of its steam that became water and stayed so, less what dried */
    double vented, evaporated; /* kg out of openings: of its steam; of the water that its load and walls gave up */
    double moisture_gain;      /* kg soaked up by the load */
    double sump;               /* m of water over the holes, highest */
    double heat_load, heat_walls, heat_shell, heat_vented; /* J */
    double heat_linings, lining_water; /* of the walls': J, kg of vapour that got into their layers */
    double pressure_most;              /* Pa gauge, chamber */
    double hottest;                    /* K, of its load; NaN: no load, or no steam */
    double over, over_share; /* s that some of its load was above its limit (fv_vessel_limit), the most of it at once */
    double bag_over;         /* s that its bags were above where their film softens */
    double steam_least_in_hold; /* kg/s, NaN */
} fv_vessel_history;

typedef struct {
    double steam_up;           /* s */
    double dry;                /* s: usable water gone; NaN */
    double steam, water, fuel; /* kg, kg taken from the feed or the stock, J */
    double heat;               /* J into the water that left as steam */
    double refilled;           /* kg poured in by hand */
    /* Of one fed by hand that ran dry without a refill: kg to pour in, s of the first time and s from one to the next,
     * so that a tenth of its usable water is still there and no more than that goes in; NaN: not so */
    double refill_mass, refill_first, refill_every;
    double pressure_most, steam_most;
    double water_most; /* kg/s: what its feed must deliver at the most */
} fv_boiler_history;

/* What a thermostat did while it was in force. A cycle goes from one switching off to the next. */
typedef struct {
    double in_force, on;                  /* s */
    double first_off, last_off;           /* s since the start: when it first and last switched off; NaN */
    double on_until_first, on_until_last; /* s that it had been on until then */
    double least, most; /* K of what it feels, from its first switching off on, while the vessel's steam is open; NaN */
    size_t cycles;
} fv_thermostat_history;
/* Share of time on over its whole cycles, 0..1; NaN: there was none. */
double fv_thermostat_duty(const fv_thermostat_history *history);

typedef enum {
    FV_HEAT_EVENT_STEAM_UP,
    FV_HEAT_EVENT_STEAM_ON,
    FV_HEAT_EVENT_FULL,
    FV_HEAT_EVENT_CORE,
    FV_HEAT_EVENT_HOLD,
    FV_HEAT_EVENT_BROKEN,
    FV_HEAT_EVENT_COOL,
    FV_HEAT_EVENT_DRY,
    FV_HEAT_EVENT_STARVED,
    FV_HEAT_EVENT_ACTION,
    FV_HEAT_EVENT_SHUT,
    FV_HEAT_EVENT_SETTLED,
    FV_HEAT_EVENT_REFILLED,
    FV_HEAT_EVENT_DETACHED,
    FV_HEAT_EVENT_SWITCHED_ON, /* a thermostat */
    FV_HEAT_EVENT_SWITCHED_OFF
} fv_heat_event_kind;
typedef struct {
    double time;
    fv_heat_event_kind kind;
    int boiler, vessel, action; /* which; -1: not about one; action: of a thermostat's switching, which thermostat */
} fv_heat_event;

/* Samples at regular times; row i of a matrix starts at i * count of parts. */
typedef struct {
    size_t count;
    double *time;
    double *core, *chamber, *surface; /* K, vessel matrix: coldest point, gas, mean of the pieces' surface */
    double *vessel_steam;             /* kg/s */
    double *air_share;                /* by volume */
    double *vessel_pressure;          /* Pa gauge, chamber */
    double *boiler_steam, *boiler_pressure, *boiler_fuel; /* kg/s, Pa gauge, W; boiler matrix */
    double *depth;  /* K, at each of the plant's probes that has a depth; probe matrix, empty where none has */
    double *demand; /* kg/s that all chambers could condense at the boiling point */
} fv_series;

typedef struct {
    double supplied;                 /* J: fuel heat to boilers */
    double accounted;                /* J: the sum of the split */
    double relative;                 /* |supplied - accounted| / supplied */
    double worst_mass, worst_energy; /* largest relative audit of any network solve */
    size_t steps, repeated, solves;
    size_t loose; /* steps over which network and chambers agree less well than wanted */
} fv_heat_audit;

typedef struct {
    const fv_plant *plant;
    fv_heat_options options;
    double end;    /* s */
    bool stopped;  /* by the progress callback */
    bool given_up; /* as `late_ends` and `all_by_until` ask: nothing is predicted of what comes after */
    fv_vessel_history *vessels;
    fv_boiler_history *boilers;
    fv_thermostat_history *thermostats;
    double *line_loss, *line_condensate; /* J, kg by line */
    fv_heat_event *events;
    size_t event_count;
    fv_heat_split split;
    double steam_end;             /* s: the last vessel's steam was shut; end where it never was */
    fv_heat_split split_steaming; /* the split up to then: later the load gives its heat back */
    fv_series series;
    fv_heat_audit audit;
    double boiling_point; /* K */
    size_t vessel_count, boiler_count, line_count, thermostat_count;
    fv_steady_result *at_first_steam; /* the network when steam first flows, and */
    fv_steady_result *in_hold;        /* when most vessels hold at once; NULL where there was no such moment */
} fv_heat_result;

/* Follows the plant. NULL: faults say why. The plant must outlive the result. */
fv_heat_result *fv_heat_run(const fv_plant *plant, const fv_heat_options *options, const fv_progress *progress,
                            fv_faults *faults);
void fv_heat_free(fv_heat_result *result);

FV_C_END

#endif
