/* SPDX-License-Identifier: MIT */
/* Floor 6: which holes, which hose, which header? A search through what the plant's stock list has, with what hands can
 * do for nothing beside it, each choice followed in time.
 *
 * What is varied: drill, hose, header and coil bores come from the stock list; numbers and spacings of holes from a
 * ladder of usual ones (8 to 120 holes, 25 to 150 mm). Barbs and unions are exchanged with their hose and keep their
 * share of its bore. Every choice is first solved at one moment, all vessels heating and valves as they are, and held
 * against the limits that show there. A limit that the plant breaks already rules out only what breaks it more.
 *
 * First small work (a drain under water, closed gaps, cleared holes) where that gains 3 % by itself, then what hands do
 * beside it with valves and starts, as in farvessel/plan.h. Then the sizes, with valves and starts as they
 * are and with those of the best hands: all choices where they are few enough, else by the search of plan.h. Then for
 * the best of them a handling found anew. Shown is what gains by 3 % over all that costs less, money and work together.
 * The same input gives the same answer, whatever the number of threads. */
#ifndef FARVESSEL_SIZE_H
#define FARVESSEL_SIZE_H

#include "farvessel/change.h"
#include "farvessel/heatup.h"
#include "farvessel/plan.h"

FV_C_BEGIN

typedef enum {
    FV_SIZE_DRILL,
    FV_SIZE_HOLES,
    FV_SIZE_SPACING,
    FV_SIZE_COIL,
    FV_SIZE_HOSE,
    FV_SIZE_HEADER,
    FV_SIZE_WORK, /* small work that needs no shop; tried wherever hands are */
    FV_SIZE_PARTS
} fv_size_part;
#define FV_SIZE_WORDS "drill|holes|spacing|coil|hose|header"
typedef enum { FV_SIZE_FOR_TIME, FV_SIZE_FOR_SPREAD, FV_SIZE_FOR_COST, FV_SIZE_FOR_FUEL, FV_SIZE_GOALS } fv_size_goal;
#define FV_SIZE_GOAL_WORDS "time|spread|cost|fuel"

/* What a choice must keep. */
typedef enum {
    FV_LIMIT_FED,           /* vessels that are starved: none */
    FV_LIMIT_SPREAD,        /* slowest / fastest vessel, each from its opening to its core */
    FV_LIMIT_EVENNESS,      /* smallest flow of a hole / largest, in the worst coil, all vessels heating */
    FV_LIMIT_AREA,          /* hole area / coil bore, against the published rule that applies */
    FV_LIMIT_PRESSURE,      /* of a boiler, all vessels heating: below its setting, so that it can give all it has */
    FV_LIMIT_VELOCITY,      /* in any line */
    FV_LIMIT_BACKWARD,      /* in lines whose condensate runs against the steam */
    FV_LIMIT_COIL_VELOCITY, /* at the inlet of any coil */
    FV_LIMIT_CHOKING,       /* lines and holes that choke: none */
    FV_LIMIT_VENT,          /* pressure in a vessel that all steam is sent to */
    FV_LIMITS
} fv_size_limit;

typedef struct {
    double spread_most;         /* default 1.5, common practice, no source */
    double evenness_least;      /* default 0.8, common practice, no source */
    double area_most;           /* NaN: the published rule that applies, 0.5 or 2 */
    double pressure_share_most; /* of the boiler's setting; default 0.95 */
    double velocity_most;       /* m/s; default 60, upper end of process steam lines (12 000 ft/min) */
    double backward_most;       /* m/s; default 8, steam against condensate */
    double coil_velocity_most;  /* m/s; default 20, common practice for coils at some mbar */
    double vent_pressure_most;  /* Pa; default 200, what a lid held by its weight bears */
} fv_size_limits;

typedef struct {
    unsigned vary; /* bit by fv_size_part; 0: drill, hose and header, as far as plant and stock have them */
    bool each;     /* every vessel, hose and header section for itself */
    fv_size_goal goal;
    fv_size_limits limits;
    bool hands;     /* also what hands do, and small work; default true */
    double wage;    /* money for an hour of a grower's work; default 20, common practice */
    size_t most;    /* plans followed in time, about; default 400 */
    size_t threads; /* 0: as many as there are processors */
} fv_size_options;
void fv_size_defaults(fv_size_options *options);

/* One thing that is varied. values[0] is NaN: as it is. Of work: how many of `works` are done. */
typedef struct {
    fv_size_part part;
    int which; /* vessel or line; -1: all alike */
    double now;
    double *values;
    size_t value_count;
} fv_size_dimension;

typedef struct {
    double value, limit; /* in the limit's own unit; NaN: not known */
    double excess;       /* how far beyond, as a share of the limit; 0 or below: kept */
    int at;              /* vessel, line or boiler where it is worst; -1: none */
    bool kept;           /* or, with an excess above 0, broken as much by the plant as it is */
} fv_size_check;

/* What a run in time gives. */
typedef struct {
    bool ran;                /* false: it could not be followed, all below is NaN or 0 */
    double slowest, fastest; /* s from the start to the last and the first core; slowest NaN: some core never arrives */
    int slowest_vessel, fastest_vessel;
    double spread; /* slowest / fastest from opening to core; INFINITY: some core never arrives */
    size_t starved, lagging;
    double fuel, steam, water; /* J, kg, kg, all boilers, until the last vessel is shut; fuel NaN: no fuel named */
} fv_size_figures;

typedef enum {
    FV_SIZE_IS_NOW = 1,
    FV_SIZE_IS_FASTEST = 2,
    FV_SIZE_IS_MOST_EVEN = 4,
    FV_SIZE_IS_CHEAPEST = 8,
    FV_SIZE_IS_LEAST_FUEL = 16,
    FV_SIZE_IS_ANSWER = 32, /* the best for the goal */
    FV_SIZE_IS_BETWEEN = 64 /* on the trade-off, best at nothing */
} fv_size_mark;

/* Both published rules for one vessel's coil. */
typedef struct {
    double ratio;          /* hole area / bore area */
    bool uniform_kept;     /* at most 0.5: spargers, even flow */
    bool spreader_kept;    /* 1.5 to 2: retort spreaders (FDA guide to low-acid canned foods) */
    bool spreader_applies; /* a held pressure is throttled before the coil; else the rule for even flow applies */
    double evenness;
    double coil_pressure, boiler_pressure; /* Pa gauge, all heating */
} fv_size_area;

typedef struct {
    unsigned marks; /* fv_size_mark */
    int *choice;    /* by dimension: index of its values; all 0: nothing but what hands do */
    double *sizes;  /* by dimension: what stands there then; NaN where parts differ */
    fv_change change;
    fv_plan_step *steps; /* of hands, in the order of time */
    size_t step_count;
    double minutes;  /* of hands' work */
    double cost;     /* NaN: the stock list has no price for any of it */
    size_t unpriced; /* things to buy that have no price */
    bool keeps;      /* all limits, or breaks them no more than the plant as it is */
    fv_size_check checks[FV_LIMITS];
    fv_size_area *areas;       /* by vessel */
    fv_size_figures run;       /* as designed */
    fv_size_figures clogged;   /* a fifth of every coil's hole area clogged */
    fv_size_figures half_fire; /* every fire at half */
} fv_size_row;

typedef struct {
    const fv_plant *plant;
    fv_size_options options; /* `vary` as it was used */
    fv_size_dimension *dimensions;
    size_t dimension_count;
    const fv_why_remedy
        *works[3]; /* small work that is worth its trouble, the one that gains most first; couplings last */
    size_t work_count;
    fv_size_row *rows; /* the plant as it is, then by time, the slowest last */
    size_t row_count;
    int best;                               /* row of the answer; 0: nothing gains */
    int hands;                              /* row of what hands do alone; -1: there is none */
    double choices;                         /* of sizes, how many there are */
    size_t screened, unfit, unsolved, kept; /* tried; holes that do not fit and the like; without a solution; no
                                               worse than now by the limits of one moment */
    size_t plans;                           /* different plans followed in time, hands' among them */
    bool exhaustive;                        /* all choices were tried */
    bool stopped;                           /* the user stopped it: the best so far */
    size_t broken[FV_LIMITS];               /* choices ruled out by it */
    unsigned common;                        /* parts in common sizes, for the stock lists none of them */
    unsigned could_vary;                    /* further parts that plant and stock would let vary */
    bool priced;                            /* the stock list has prices for what is varied */
    const char *currency;                   /* NULL: not said */
    fv_arena *arena;                        /* of all lists */
} fv_size_answer;

/* NULL: faults say why (a plant that cannot be followed with any choice, too), or the user stopped it before anything
 * was found. The plant must outlive the answer. */
fv_size_answer *fv_size_run(const fv_plant *plant, const fv_size_options *options, const fv_progress *progress,
                            fv_faults *faults);
void fv_size_free(fv_size_answer *answer);

/* "drill", "hose": index into FV_SIZE_WORDS. */
const char *fv_size_part_word(fv_size_part part);

FV_C_END

#endif
