/* SPDX-License-Identifier: MIT */
/* Floor 6: why does this vessel heat slowly, and what would help? Two views, both from runs of the whole plant in time
 * (fv_heat_run): who has which share in the delay, and what each single change that can be bought or done gains.
 *
 * How long a vessel takes is counted from the moment its steam is open and a boiler gives some
 * (fv_vessel_history.opened) to its core at the target. A core that never arrives, or later than `cap`, counts as
 * `cap`.
 *
 * ATTRIBUTION. A cause is taken away in the whole plant, at every vessel and line at once: what hampers all alike then
 * is no reason why one is slower than another, and no vessel gains by robbing its neighbours. What taking away means:
 *
 *   boiler     four times the output, at most 1 MW, full fire, dry steam, fed all the time; its control pressure stays
 *   header     no wall friction (Darcy factor 1e-4) in every line that is a <header> or leads to more than one vessel
 *   hose       the same in every other line that leads to a vessel
 *   fittings   no losses in barbs, unions, fittings and tees, nor by `k`; valves wide open
 *   sag        no water stands in any line
 *   water      no water stands over any holes, and none gathers
 *   holes      none clogged; hole areas in proportion to the heat that the loads need in their allowed times; all
 *              together as large as now, and at least large enough to pass the boilers' full steam at a quarter of
 * their control pressure coil       a bore of at least twenty times the holes' area, and no entry loss
 *   openings   gaps closed; vents and drains at the coil's level, so that no chimney pulls steam out and air in; where
 *              the pressure in a chamber lifts its lid, a vent that keeps it to FV_LID_PRESSURE
 *   air        vessels as small as their loads allow, so that there is next to no air to sweep out
 *   walls      walls and shells that neither lose nor store heat
 *   line_loss  lines that neither lose heat nor need warming
 *   load       loose stacking; a load that heats through later than the middle one of all, or is heavier than it where
 *              they heat alike, becomes like that one
 *
 * Each cause is first taken away alone, and where that changes little, put back alone into the plant that has none.
 * What changes nothing either way (less than two minutes, or than `matters` of the vessel's delay, for every vessel
 * asked about) is left out; of more than `most` causes those with the smallest effect. For the others every subset is
 * run, 2^k runs, and each gets its Shapley value: the time that it adds, averaged over all orders in which the causes
 * can come in. The shares of a vessel add up to what the causes kept cost it together; what remains of the delay is
 * given as `small`. Shares below zero are causes that favour this vessel.
 *
 * A vessel's first cause is the one with the largest share, the boiler's counted at four fifths: a bigger boiler makes
 * up for nearly any other cause. If more than half of its delay is its own, against the best-fed vessel (the one with
 * the smallest delay), the differences of the shares rank, and the boiler, which all have in common, is no answer:
 * that only where both would heat alike, within a quarter, with all causes taken away. Where the delay is under a tenth
 * of the time taken the answer is: nothing, this is as fast as such a load heats.
 *
 * REMEDIES. One change at a time, made of settings (farvessel/change.h): running it again gives the same figures to the
 * bit. Next sizes come from the plant's stock list, where it names that sort, else from a list of common sizes without
 * price. Their times are on the clock that starts with the fire. They are ranked by what they gain for the vessel asked
 * about; where none is, for whichever vessel is the last to have its core: to make another one the slowest is no cure.
 */
#ifndef FARVESSEL_WHY_H
#define FARVESSEL_WHY_H

#include "farvessel/change.h"
#include "farvessel/heatup.h"

FV_C_BEGIN

typedef enum {
    FV_WHY_BOILER,
    FV_WHY_HEADER,
    FV_WHY_HOSE,
    FV_WHY_FITTINGS,
    FV_WHY_SAG,
    FV_WHY_WATER,
    FV_WHY_HOLES,
    FV_WHY_COIL,
    FV_WHY_OPENINGS,
    FV_WHY_AIR,
    FV_WHY_WALLS,
    FV_WHY_LINE_LOSS,
    FV_WHY_LOAD,
    FV_WHY_CAUSES,
    FV_WHY_NOTHING = FV_WHY_CAUSES /* as fast as such a load heats */
} fv_why_cause;
const char *fv_why_cause_word(fv_why_cause cause); /* "boiler", "header", ..., "line_loss", "load", "nothing" */

typedef struct {
    const char *vessel; /* id of the one asked about; NULL: all */
    double cap;         /* s; NaN: twice the longest allowed time, at least 1.5 times the longest that arrives
                           now, and three times what one that does not would take with ample steam */
    size_t most;        /* causes shared out exactly, up to 10; 2^most runs at most; 0: only what could be done is
                           asked, no vessel has a first cause, and the next step is as with causes */
    double matters;     /* of a vessel's delay: a cause that changes less of each is left out */
    size_t threads;     /* 0: as many as there are processors; the answer is the same */
    bool remedies;      /* also try what could be done */
} fv_why_options;
void fv_why_defaults(fv_why_options *options);

/* All times in s. Arrays by cause. */
typedef struct {
    double took;  /* now, cap where it does not arrive by then */
    double ideal; /* with all causes taken away */
    double vent;  /* m, in whole mm: diameter that its vent needs where the pressure in its chamber lifts the lid; NaN:
                     it does not, or it was not worked out: it is like another, or beyond the first 12 */
    double ample; /* the load alone, loosely stacked, in a chamber at the boiling point at once */
    bool arrives; /* within cap */
    bool asked;   /* one of those asked about; what is below is only filled for these */
    double share[FV_WHY_CAUSES]; /* of took - ideal - small; 0 for causes left out */
    double small;                /* what the causes left out cost together, in the end */
    double alone[FV_WHY_CAUSES]; /* time saved by taking it away alone, all else as it is; NaN: is not there */
    double last[FV_WHY_CAUSES]; /* time lost by putting it back alone where the others shared out are taken away (of one
                                   left out: where all are); NaN: not there, or not known */
    bool against_best;          /* ranked against the best-fed vessel */
    fv_why_cause order[FV_WHY_CAUSES]; /* by weight, the largest first; only the first `count` count */
    size_t count;                      /* causes that cost it time; 0: first is FV_WHY_NOTHING */
    fv_why_cause first;
    fv_why_cause next; /* the first once `first` is taken away; FV_WHY_NOTHING: none of weight */
    int part_here;     /* the first cause sits 1: at this vessel or its own line, 0: elsewhere, -1: in both or shared */
    const char **parts; /* ids of what the first cause is about: lines on its way, boilers, or the vessel */
    size_t part_count;
} fv_why_vessel;

/* What it takes to do it: a hand's turn; an hour and some small thing; something from the shop. */
typedef enum { FV_EFFORT_FREE, FV_EFFORT_SMALL, FV_EFFORT_BUY } fv_effort;
const char *fv_effort_word(fv_effort effort); /* "free", "small", "buy" */

typedef enum {
    FV_REMEDY_HOSE_BORE,     /* its own hose, and barbs to match, a size up */
    FV_REMEDY_HOSE_LENGTH,   /* shortened to the shortest among the others */
    FV_REMEDY_HEADER_BORE,   /* all header on its way of the smallest bore, a size up */
    FV_REMEDY_COUPLINGS,     /* barbs and unions as wide as the hose */
    FV_REMEDY_VALVE_OPEN,    /* its own valve wide open */
    FV_REMEDY_VALVES_OTHERS, /* the faster vessels' valves throttled */
    FV_REMEDY_SAG,           /* hoses on its way hung up */
    FV_REMEDY_WATER,         /* water over its holes drained before the start */
    FV_REMEDY_SUMP,          /* a drained floor under it */
    FV_REMEDY_CLEAN,         /* holes cleaned */
    FV_REMEDY_DRILL,         /* its holes drilled out to the next size */
    FV_REMEDY_DRILL_OTHERS,  /* new coils with the next smaller holes at the others */
    FV_REMEDY_DRILL_ALL,     /* new coils with the next smaller holes everywhere */
    FV_REMEDY_BLANK_OTHERS,  /* one hole in four blanked at the faster vessels */
    FV_REMEDY_COIL_BORE,     /* a wider coil */
    FV_REMEDY_LAG_LINES,     /* lagging on its way */
    FV_REMEDY_SHELTER,       /* lines and walls out of the wind */
    FV_REMEDY_LID,           /* gaps closed */
    FV_REMEDY_SEAL,          /* drains under a water seal where a vent stays open */
    FV_REMEDY_VENT,          /* vents reduced to half their area; never closed */
    FV_REMEDY_WIDER_VENT,    /* vents that keep the chambers to FV_LID_PRESSURE where they lift their lids */
    FV_REMEDY_WALLS,         /* a quilt around it */
    FV_REMEDY_FIRE,          /* full fire */
    FV_REMEDY_CONTROL,       /* a higher control pressure, below relief and 0.5 bar */
    FV_REMEDY_BOILER,        /* a bigger boiler in place of the smallest */
    FV_REMEDY_FEED,          /* a boiler fed by hand that runs dry is fed as its water boils away */
    FV_REMEDY_LOOSE,         /* loose stacking */
    FV_REMEDY_LESS_LOAD,     /* a quarter less in it */
    FV_REMEDY_STAGGER,       /* the others start later */
    FV_REMEDY_HANDS,         /* valves or washers and starts of all, as a search finds them (farvessel/plan.h) */
    FV_REMEDIES
} fv_remedy_kind;
const char *fv_remedy_word(fv_remedy_kind kind); /* "hose_bore", ... */

typedef struct {
    fv_remedy_kind kind;
    fv_change change;
    const char *part;  /* id of the (first) part that is touched */
    size_t part_count; /* how many are */
    double from, to;   /* SI: the size that is changed (of a quilt: thickness); NaN: there is no such figure */
    bool from_stock;   /* the size stands in the stock list; false also where no size is bought */
    fv_effort effort;
    double cost;      /* in the stock's currency; 0: nothing to buy; NaN: no price known */
    double minutes;   /* of work, common practice */
    bool in_time;     /* every vessel asked about then has its core in its allowed time */
    double *core;     /* s from the start of the run, by vessel; NaN: not within cap */
    double *gain;     /* s by vessel, cap in place of what does not arrive; negative: later */
    double pressure;  /* Pa gauge, the highest at any boiler */
    bool over_relief; /* that is above its relief pressure */
    bool lifts_lid;   /* of a vessel; or, where it lifts already, by over a quarter more */
    double slowest;   /* s: when the last vessel has its core; NaN: one never does */
    double worth;     /* s: what it is ranked by */
} fv_why_remedy;

/* A place on the way of the steam, from boiler to chamber, when steam first flows. The drops of all places add up to
 * the pressure at the boiler less that in the chamber. */
typedef enum {
    FV_PLACE_LINE,  /* friction, fittings, rise and speed of a line */
    FV_PLACE_SAG,   /* of a line */
    FV_PLACE_JOINT, /* a tee with losses of its own */
    FV_PLACE_COIL,  /* from its inlet to the mean hole */
    FV_PLACE_WATER, /* over the holes */
    FV_PLACE_HOLES
} fv_place_kind;
const char *fv_place_word(fv_place_kind kind);
typedef struct {
    int vessel;
    fv_place_kind kind;
    const char *part;           /* id of line, vessel, or the joint */
    double before, after, drop; /* Pa gauge, Pa */
    double friction, fittings;  /* of the drop, Pa; lines only */
    double share;               /* of the whole way's drop */
} fv_why_place;

typedef struct {
    const fv_plant *plant;
    fv_why_options options;
    double cap;                       /* s, as used */
    fv_heat_result *now;              /* the plant as it is, up to the cores */
    fv_why_vessel *vessels;           /* by vessel */
    fv_why_cause kept[FV_WHY_CAUSES]; /* causes shared out */
    size_t kept_count;
    size_t runs;             /* of the whole plant in time, all together */
    size_t runs_failed;      /* of these, for the causes: no solution was found; the causes concerned are left out */
    int best;                /* best-fed vessel; -1: there is only one, or none arrives */
    int target;              /* vessel that the remedies are ranked for; -1: none is open */
    bool in_time;            /* the vessels asked about are, as things are */
    int unheld;              /* one of them whose hold breaks all the same; -1: none */
    fv_why_remedy *remedies; /* by worth, the largest first */
    size_t remedy_count, remedies_failed; /* failed: no solution was found, or the plant would not be sound */
    /* Of those that make the last vessel no later and blow no relief valve; -1: none, or nothing holds the target up.
     */
    int strongest; /* the one with the largest worth */
    int cheapest;  /* the next step to take: of those that bring the vessels asked about in time, and have at least a
                      quarter of its worth, the cheapest in money and work, of equals the one that gains most; where
                      none does, the one that gains most. Nothing in the list beats it at the same effort or less. */
    bool stopped;  /* the user stopped it: what was found so far; no causes */
    fv_slip slip;  /* of the next step: how near it stands to missing a vessel's time */
    fv_why_place *places; /* vessel after vessel, from boiler to chamber */
    size_t place_count;
    fv_arena *arena;         /* holds all but `now` */
    const double *pressures; /* Pa by vessel: the highest in its chamber, to the end of the holds */
} fv_why_answer;

/* NULL: faults say why, or the user asked to stop. The plant must outlive the answer. */
fv_why_answer *fv_why_run(const fv_plant *plant, const fv_why_options *options, const fv_progress *progress,
                          fv_faults *faults);
void fv_why_free(fv_why_answer *answer);

FV_C_END

#endif
