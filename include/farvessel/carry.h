/* SPDX-License-Identifier: MIT */
/* Floor 6: does one boiler carry a fourth vessel? For every number of vessels four answers, each from runs of the
 * whole plant: all started together, staggered, throttled, and only held at temperature once they are hot.
 *
 * More vessels are copies: without `at` the pattern goes on, a header section and a hose like the last vessel's at the
 * end of the line (at the same joint where the line does not end there); with `at` a hose from that joint. Fewer: the
 * steam of the last vessels in the file is shut off, their lines stay. What the file says of starts is left out.
 *
 * A vessel is carried when its core arrives within its own allowed time, counted from the opening of its steam. Treated
 * per day: what reaches the end of its hold, every time that the last hold has ended and `turnaround` has passed;
 * cooling is not waited for.
 *
 * Staggered: starts by the clock, by quarters of an hour, in turns among them. Throttled: valves, or washers where a
 * hose has none, set before the fire is lit and turned once a vessel is full or its core is there, with starts by the
 * clock where they help. Both are found by
 * the search of farvessel/plan.h; fewest starved first, then the earliest end of the last hold. Where as many are
 * starved as together, the end must be earlier by at least `matters`.
 *
 * What limits is found by taking limits away, one at a time: boilers of twice the output, headers of twice the bore,
 * hoses of twice the bore, coils of twice the bore with holes half as wide again. The limit is the one whose absence
 * lets the slowest vessel arrive earliest, if that is at least `matters` of its time; else it is the load itself. */
#ifndef FARVESSEL_CARRY_H
#define FARVESSEL_CARRY_H

#include "farvessel/change.h"
#include "farvessel/heatup.h"
#include "farvessel/plan.h"
#include "farvessel/why.h"

FV_C_BEGIN

typedef struct {
    const char *like;  /* vessel or kind that is copied; NULL: the last vessel */
    const char *at;    /* joint where the hoses of the copies begin; NULL: the pattern goes on */
    size_t more;       /* copies tried: 1, 2, ... up to this many; default 3 */
    size_t fewer;      /* vessels left out: 1, 2, ... up to this many; default 1; at least one vessel stays */
    double turnaround; /* s from the end of one batch's last hold to the next fire; default 2 h, common practice */
    bool others;       /* also what could be bought instead, where a number is not carried together; default true */
    double matters;    /* default 0.03 */
    size_t threads;    /* 0: as many as there are processors; the answer is the same */
} fv_carry_options;
void fv_carry_defaults(fv_carry_options *options);

typedef enum {
    FV_CARRY_LIMIT_LOAD, /* the load takes up heat no faster */
    FV_CARRY_LIMIT_BOILER,
    FV_CARRY_LIMIT_HEADER,
    FV_CARRY_LIMIT_HOSES,
    FV_CARRY_LIMIT_COILS,
    FV_CARRY_LIMIT_WATER, /* a boiler fed by hand runs out of water */
    FV_CARRY_LIMIT_NONE,  /* holding: there is enough for all */
    FV_CARRY_LIMIT_UNKNOWN
} fv_carry_limit;
const char *fv_carry_limit_word(fv_carry_limit limit); /* "load", "boiler", ... */

/* A batch. Arrays by vessel of the row's plant. */
typedef struct {
    bool ran;                /* false: it could not be followed */
    bool carries;            /* nobody is starved */
    double slowest, fastest; /* s from the fire to the last and the first core; slowest NaN: some core never arrives */
    int slowest_vessel, fastest_vessel;
    size_t starved, lagging;
    double took;                   /* s from its opening, of the vessel that is latest against its allowed time */
    int latest_vessel;             /* that vessel; -1: none */
    double done;                   /* s: end of the last hold; NaN: some hold never ends */
    double pressure;               /* Pa gauge, the highest at any boiler */
    double chamber;                /* Pa gauge, the highest in any chamber */
    double steam, water, fuel;     /* kg, kg, J; fuel NaN: no fuel named */
    double mass, mass_per_day;     /* kg that reach the end of their hold; kg/day */
    double *core, *opened, *start; /* s; start: the setting */
    double *ample;                 /* s: what a core takes with ample steam */
    fv_verdict *verdicts;
    fv_carry_limit limit;
    double without_limit; /* s: the slowest core if that limit were away; NaN */
} fv_carry_batch;

typedef struct {
    bool solved, carries;
    size_t starved;
    double need, heat;   /* W: that all vessels take together; that reaches them at full fire */
    int worst_vessel;    /* with the least heat against its need */
    double coverage;     /* heat / need of that vessel */
    double pressure;     /* Pa gauge, at full fire */
    double least_fire;   /* as fv_least_fire; NaN: not even full fire holds all, or 5 % still does */
    double least_output; /* W there */
    double steam, water; /* kg/s at full fire */
    double fuel;         /* W at full fire */
    fv_carry_limit limit;
} fv_carry_holding;

typedef enum {
    FV_CARRY_TOGETHER,
    FV_CARRY_STAGGERED,
    FV_CARRY_THROTTLED,
    FV_CARRY_WORKED, /* together, once the small work of the ways is done */
    FV_CARRY_MANNERS
} fv_carry_manner;

typedef struct {
    size_t count;    /* vessels on the steam */
    int added;       /* beyond the plant's own; negative: left out */
    fv_plant *plant; /* belongs to the row */
    bool searched;   /* of the present number and of one more: what hands can do; else all three are `together` */
    fv_carry_batch together, staggered, throttled, worked;
    fv_change stagger, throttle; /* on top of `plant`; both counts 0: nothing is better than together */
    fv_plan_step *stagger_steps, *throttle_steps; /* the same, as things to do */
    size_t stagger_step_count, throttle_step_count;
    fv_change work; /* on top of `plant`, for `worked`; count 0: there is none that does it for the asked number */
    fv_slip throttle_slip; /* how near that stands to missing a vessel's time */
    fv_carry_manner best;  /* of what hands do, of those that starve the fewest: the one with the earliest end of the
                              last hold, `together` where the others gain less than `matters` */
    fv_carry_holding holding;
} fv_carry_row;

typedef enum {
    FV_CARRY_STAGGER,       /* nothing is bought */
    FV_CARRY_SMALL_WORK,    /* the best that is done once without a shop, such as drains under a water seal */
    FV_CARRY_BIGGER_BOILER, /* in place of the first */
    FV_CARRY_SECOND_BOILER, /* beside the first, like it but for its output */
    FV_CARRY_WIDER_HEADER,  /* all header */
    FV_CARRY_INSULATION,    /* lagging on all lines, and as much more around all walls */
    FV_CARRY_LINING,        /* walls that let vapour into their layers get a sealed lining; none where none does */
    FV_CARRY_OTHERS
} fv_carry_other;
const char *fv_carry_other_word(fv_carry_other other); /* "stagger", "bigger_boiler", ... */

/* One way to treat what the asked number of vessels can treat, all started together. The smallest size that does, or
 * the best where none does. */
typedef struct {
    fv_carry_other other;
    double size;                      /* W or m; NaN for the stagger and small work */
    const fv_why_remedy *work;        /* the small work; else NULL */
    bool from_stock;                  /* else a common size */
    bool meets;                       /* nobody starved, and at least the wanted kilograms per day */
    double cost;                      /* NaN: no price known */
    double fuel_per_mass;             /* J/kg treated; NaN: no fuel named */
    bool over_relief, over_equipment; /* above its relief pressure; above 0.5 bar, directive 2014/68/EU */
    fv_plant *plant;                  /* changed; belongs to the way */
    fv_change change;                 /* on top of `plant` */
    fv_carry_batch run;
} fv_carry_way;

typedef struct {
    const fv_plant *plant;
    fv_carry_options options;
    size_t own;         /* vessels on the steam in the plant */
    fv_carry_row *rows; /* by count, ascending */
    size_t row_count;
    int present;  /* row of the plant's own number */
    int most;     /* row whose best batch treats most kg a day without anybody starved; -1: none */
    size_t plans; /* different handlings followed */
    int asked;    /* the smallest number, from its own on, that is not carried together; the largest where all are */
    const fv_why_remedy *work; /* the small work that does it for the asked number; NULL: none */
    fv_carry_manner does; /* how the asked number is best treated without buying: together where that carries it, else
                             by small work where hands do not do it earlier, else `best` of its row */
    int better; /* row with fewer vessels that treats more a day, in `better_manner`; -1: none, or none is added */
    fv_carry_manner better_manner;
    double wanted; /* kg/day that the ways are held against: the best of the asked row without buying; NaN: starved */
    fv_carry_way *ways;
    size_t way_count;
    const char *currency;
    bool stopped; /* the user stopped it: the best so far; limits and ways that were not looked at are not there */
    fv_arena *arena;
} fv_carry_answer;

/* NULL: faults say why, or the user stopped it before anything was found. The plant must outlive the answer. */
fv_carry_answer *fv_carry_run(const fv_plant *plant, const fv_carry_options *options, const fv_progress *progress,
                              fv_faults *faults);
/* The batch of a row in a manner, which stays the row's. */
const fv_carry_batch *fv_carry_batch_of(const fv_carry_row *row, fv_carry_manner manner);
/* What is changed for it, on top of the row's plant; nothing for together. */
const fv_change *fv_carry_change_of(const fv_carry_row *row, fv_carry_manner manner);
void fv_carry_free(fv_carry_answer *answer);

FV_C_END

#endif
