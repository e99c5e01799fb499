/* SPDX-License-Identifier: MIT */
/* Floor 4: one moment of the plant. Equations, Newton, results as plain data, audit.
 *
 * fv_network is the plant compiled for solving: numbers resolved, graph ordered, sparsity analysed; read-only once
 * made, so any number of threads may share it. fv_solver is the workspace that one thread owns; it remembers its last
 * solution and starts the next solve from it. The plant must outlive both. */
#ifndef FARVESSEL_STEADY_H
#define FARVESSEL_STEADY_H

#include "farvessel/model.h"
#include "farvessel/props.h"

FV_C_BEGIN

/* One definition for every verb, by the time from when a vessel's steam is open until its core is at the target, and
 * the time allowed for it: starved = the core misses its allowed time, or never arrives; lagging = in time, with less
 * than FV_SPARE_LEAST of it to spare; fed = the rest. `flow`, which follows no time, predicts it. */
typedef enum { FV_FED, FV_LAGGING, FV_STARVED, FV_SHUT_OFF } fv_verdict;
#define FV_SPARE_LEAST 0.2
fv_verdict fv_verdict_of(double took, double within); /* s; took NaN: never */
const char *fv_verdict_word(fv_verdict verdict);      /* "fed", "lagging", "starved", "shut" */

typedef struct fv_network fv_network;
typedef struct fv_solver fv_solver;

/* FV_FAIL leaves reasons in faults. `sat` is shared and must outlive the network. */
fv_network *fv_network_new(const fv_plant *plant, const fv_sat *sat, fv_faults *faults);
void fv_network_free(fv_network *network);
fv_solver *fv_solver_new(const fv_network *network);
void fv_solver_free(fv_solver *solver);
void fv_solver_forget(fv_solver *solver); /* the next solve starts cold */
/* The next solve is of all fires times `ratio`: it starts from the last solution, made like that. */
void fv_solver_scale_fires(fv_solver *solver, double ratio);

/* What a chamber does to the network. */
typedef enum {
    FV_CHAMBER_COLD,   /* takes all steam at `pressure` (gauge) */
    FV_CHAMBER_VENTED, /* condenses up to `condenses`, the openings pass the rest; pressure is found */
    FV_CHAMBER_SHUT    /* its steam is shut off */
} fv_chamber_kind;
typedef struct {
    fv_chamber_kind kind;
    double pressure;  /* Pa gauge at the coil's level, FV_CHAMBER_COLD */
    double condenses; /* kg/s, FV_CHAMBER_VENTED */
    double gain;      /* FV_CHAMBER_VENTED: gas out = max(0, gain m_in - condenses); 1 for pure steam */
    double density;   /* gas in the chamber, kg/m3, FV_CHAMBER_VENTED */
    double water;     /* depth over the holes, m */
} fv_chamber;

/* What a boiler's water and steel take, or give, until they are at the saturation temperature of its new pressure: rate
 * (T - t), W. A moment that stands for a step dt has rate = heat capacity / dt; one that stands by itself has 0. */
typedef struct {
    double rate; /* W/K */
    double t;    /* K, where they are */
} fv_stored;

/* One moment. Arrays are by index of the plant's parts. */
typedef struct {
    double t_air;               /* K */
    double wind;                /* m/s */
    const double *fire;         /* per boiler, 0..1 (0: off) */
    const double *valve_open;   /* per network valve (fv_network_valve), 0..1; NULL: as the plant says */
    const fv_chamber *chambers; /* per vessel */
    const fv_stored *stored;    /* per boiler; NULL: nothing is stored */
} fv_conditions;

typedef enum { FV_BOILER_FULL, FV_BOILER_HOLDING, FV_BOILER_BLOCKED, FV_BOILER_OFF } fv_boiler_state;
typedef struct {
    fv_boiler_state state; /* all it can make; held by its control; pressed shut by the others; fire out */
    double steam;          /* kg/s */
    double carried_water;  /* kg/s that leaves with the steam (dryness) */
    double water_fed;      /* kg/s of feed water that replaces both */
    double most;           /* kg/s it could make at this pressure */
    double pressure;       /* Pa gauge */
    double enthalpy;       /* of the steam, J/kg */
    double heat;           /* W given to the water that leaves as steam */
    double dry_in;         /* s its usable water lasts at this rate, fed by hand and no refill; NaN: not so (flow) */
    double fuel;           /* W burnt, standing loss and efficiency included */
    bool shares_by_size;   /* the share among holding boilers at one point was open: by size */
} fv_boiler_result;

typedef struct {
    double pressure;    /* Pa gauge */
    double temperature; /* K, saturation */
    double quality;     /* kg vapour / kg of both passing through; 1 where nothing passes */
    double enthalpy;    /* of the vapour, J/kg */
    double imbalance;   /* kg/s */
} fv_node_result;

typedef struct {
    double flow_from, flow_to;  /* vapour, kg/s: into the line at `from`, out of it at `to`; negative: the other way */
    double water;               /* kg/s of water leaving with the steam at the downstream end */
    double condensate;          /* kg/s made in the line */
    double heat_loss;           /* W */
    double surface_temperature; /* K */
    double pressure_from, pressure_to;                                    /* Pa gauge at the ends */
    double drop;                                                          /* Pa, from minus to */
    double drop_friction, drop_fittings, drop_sag, drop_rise, drop_speed; /* Pa, signed as drop; they add up to it */
    double velocity;                                                      /* m/s, the largest, at the thinner end */
    double mach;                                                          /* at the end that it flows to; 1: choked */
    double reynolds, friction;                                            /* at the mean */
    double two_phase;                                                     /* multiplier used, >= 1 */
    double wet_length;                         /* m; below the length where all steam condenses */
    double quality;                            /* at the downstream end */
    bool choked, blocked, condenses_all, shut; /* blocked: a sag full of water passes nothing */
    bool doubtful;                             /* a correlation was used outside its range */
} fv_line_result;

typedef struct {
    double position; /* m from the coil's inlet */
    double diameter; /* m */
    double flow;     /* kg/s of all holes at this place; negative: chamber gas is drawn in */
    double pressure; /* Pa gauge in the coil at the hole */
    double drop;     /* Pa across the hole */
    double cd;
    bool choked;
} fv_hole_result;

typedef struct {
    double steam;       /* kg/s into the coil */
    double water;       /* kg/s carried into it */
    double share;       /* of all steam that reaches vessels */
    double heat;        /* W: steam x (h_v - h_f at the chamber's boiling point) */
    double need;        /* W for its allowed time (heating) or its uptake (holding) */
    fv_verdict verdict; /* as predicted from this moment */
    bool unsettled;     /* the moment does not settle it: `verdict` is the likeliest */
    double core_in; /* s from now until its core is there, as predicted; INFINITY: too late to tell; NaN: not told */
    double coil_pressure;          /* Pa gauge at the coil's inlet */
    double chamber_pressure;       /* Pa gauge at the coil's level */
    double chamber_temperature;    /* K where it holds, by heat and air; NaN: not told, it heats or is shut */
    double vented;                 /* kg/s of its steam out of the openings */
    double gas_out;                /* kg/s of all gas: air, and what load and walls give up, too */
    double air_drawn_in;           /* kg/s, sum over openings that draw */
    double evenness;               /* smallest hole flow / largest; below 0 where a hole draws in */
    double coil_velocity;          /* m/s at the inlet */
    double coil_mach;              /* the largest in the coil; 1: sonic */
    double area_ratio;             /* total hole area / coil bore area */
    double hole_drop, coil_change; /* Pa: mean drop across the holes; largest less smallest pressure in the coil */
    double feed_drop;              /* Pa from where the line that alone feeds it begins, or the coil, to the chamber */
    size_t first_hole, hole_count; /* into holes[] */
    bool cd_from_correlation, doubtful;
} fv_vessel_result;

/* The result checks itself; all relative figures against the steam, or heat, that the boilers give, or against a
 * millionth of what they could where they give less. */
typedef struct {
    double mass_imbalance, mass_relative;     /* kg/s, largest at any node */
    double energy_imbalance, energy_relative; /* W */
    double steam_total;                       /* kg/s */
    double heat_total;                        /* W */
    double pressure_residual;                 /* Pa, largest of any line or hole equation */
    double mach;                              /* largest of any line or coil; no root has more than 1 */
    double total_pressure_gain; /* Pa, largest: closed end of a coil above the total pressure at its inlet; only a given
                                   entry below the default makes it positive */
    /* Smoothing left in complementarity conditions (a seal, a boiler's control, a line that runs dry): 0, or up to 1e-6
     * where no root was found without. */
    double rounded_off;
    int iterations;
    bool converged;
} fv_audit;

typedef struct {
    fv_boiler_result *boilers;
    fv_node_result *nodes;
    fv_line_result *lines;
    fv_vessel_result *vessels;
    fv_hole_result *holes;
    size_t boiler_count, node_count, line_count, vessel_count, hole_count;
    double site_pressure; /* Pa absolute */
    double boiling_point; /* K at the site */
    double t_air, wind;
    fv_audit audit;
} fv_steady_result;

/* One solve. Faults carry part and line: `plant.xml:214: hose 's6': ...`. FV_DOUBTFUL: solved, some correlation outside
 * its range (flags say where). The result is filled even then; on FV_FAIL it holds the last iterate and the audit says
 * how far off. */
fv_status fv_solve(fv_solver *solver, const fv_conditions *conditions, fv_steady_result *result, fv_faults *faults);
/* After a solve: by how much each vessel's steam would change, kg/s, if its cold chamber's back pressure (or the head
 * of water over its holes) rose by `more` Pa; to first order, by vessel. False: the last solve failed, or there was
 * none. */
bool fv_solver_sensitivity(fv_solver *solver, const double *more, double *change);
fv_steady_result *fv_steady_result_new(const fv_network *network);
void fv_steady_result_free(fv_steady_result *result);
size_t fv_network_valve_count(const fv_network *network);
int fv_network_valve(const fv_network *network, const char *path); /* "v1", "s2.fitting1"; -1: none */
double fv_network_site_pressure(const fv_network *network);        /* Pa absolute */
/* How large the equation system is: unknowns and nonzeros. */
void fv_network_size(const fv_network *network, size_t *unknowns, size_t *nonzeros);

/* ---- the answer of the flow verb ---- */
typedef struct {
    double fire;   /* multiplies every boiler's own fire setting; 1 as the plant says */
    int phase;     /* -1: as each vessel says; else fv_phase for all */
    bool turndown; /* also solve the turn-down table */
    bool predict;  /* the vessels' verdicts, too; false: they stay FV_FED */
} fv_flow_options;
void fv_flow_defaults(fv_flow_options *options);

/* The least fire for the hold: the smallest setting at which, and above which, the chamber of every vessel that is not
 * shut stays at its target or above, walls soaked through, by the steady balances of heat and air (holding.c). It is
 * for ever: a short hold lives on stored heat, and walls that are not soaked yet may ask for more. The one definition
 * for all verbs. */
typedef struct {
    double fire;   /* multiplies every boiler's own fire setting; NaN: none in question */
    double output; /* W of all boilers there */
    int vessel;    /* who falls below its target first; with `fire` NaN: who is below at full fire; -1: none to 5 % */
    bool unsolved; /* a setting on the way down has no solution, or none that was found in the steps it is given */
} fv_least_fire;
/* From `fire` down. FV_FAIL: faults say why, or progress asked to stop. */
fv_status fv_least_fire_of(const fv_plant *plant, double fire, const fv_progress *progress, fv_least_fire *found,
                           fv_faults *faults);

typedef struct {
    double fire;
    fv_steady_result *state; /* NULL: no solution was found */
    bool given_up;           /* after as many steps as a plant of its size is given, so that no answer is waited for */
} fv_turndown_row;

typedef struct {
    const fv_plant *plant;
    fv_flow_options options;
    fv_steady_result *state;
    fv_turndown_row *turndown; /* 100, 75, 50, 35, 25 % of that fire; the first is `state` itself */
    size_t turndown_count;
    double dropout_fire; /* largest setting at or below `fire` at which some vessel that is fed or lagging at full fire
                            gets less than its need, or nothing passes its seal; NaN: none down to 5 % */
    double dropout_output; /* W of all boilers there */
    int dropout_vessel;    /* -1: none */
    fv_least_fire hold;    /* of the same plant, all vessels holding; sought with the turn-down table */
    bool dropout_unsolved; /* as in fv_least_fire: it is not known who drops out first */
} fv_flow_answer;
fv_flow_answer *fv_flow_answer_new(const fv_plant *plant, const fv_flow_options *options, const fv_progress *progress,
                                   fv_faults *faults);
void fv_flow_answer_free(fv_flow_answer *answer);

/* Heat that a vessel takes up: what must go into load, shell and walls to bring all to the target from the start, J,
 * and the steady loss of its walls at the boiling point, W. need = heat / within + loss; of a bed with the heat of
 * the steam that comes until its front is through. FV_DOUBTFUL where a property
 * is outside its range. */
typedef struct {
    double load, shell, walls; /* J */
    double comes;              /* J that must come until the load is there: load, of a bed until its front is through */
    double wall_loss;          /* W at the boiling point */
    double wall_delay;         /* s: heat capacity x resistance to it from inside, summed over layers; mean of walls */
    double need;               /* W */
    double load_mass;          /* kg */
    double load_specific_heat; /* J/kg/K */
} fv_vessel_need;
fv_status fv_vessel_need_of(const fv_plant *plant, const fv_vessel *vessel, const fv_sat *sat, fv_vessel_need *need,
                            fv_faults *faults);

/* ---- the answer of the check verb: what was understood, before any flow is solved ---- */
typedef struct {
    const fv_plant *plant;
    double site_pressure;    /* Pa absolute */
    double boiling_point;    /* K at the site */
    double boiler_output;    /* W, all boilers together */
    double line_length;      /* m, all lines together */
    double hole_area;        /* m2, all vessels together */
    double load_mass;        /* kg, all vessels together */
    double need;             /* W, all vessels together, each for its own allowed time */
    fv_vessel_need *vessels; /* one for each vessel of the plant */
} fv_check_answer;
/* Runs fv_steady_check, too. NULL: faults say why. */
fv_check_answer *fv_check_answer_new(const fv_plant *plant, fv_faults *faults);
void fv_check_answer_free(fv_check_answer *answer);

/* Wet mass, kg: as said, else count x volume x density. Volume of one piece or of the bed, m3; NaN where sizes are
 * missing. */
double fv_load_mass(const fv_load *load);
double fv_load_piece_volume(const fv_load *load);
/* Whether its load takes more than 0.4 of it without saying how it is packed; false for NULL. */
bool fv_packing_is_silent(const fv_vessel *vessel);
/* Refuses loads that take more than 0.4 of their vessel without saying how they are packed, and says what each choice
 * would give. sat NULL: the built-in line. FV_FAIL: said in faults. */
fv_status fv_packing_check(const fv_plant *plant, const fv_sat *sat, fv_faults *faults);
/* Pa absolute, from the barometer or the altitude. */
double fv_site_pressure(const fv_site *site);
double fv_site_boiling_point(const fv_site *site); /* K */
/* Checks that need steam: a target at or near the boiling point and the like. Adds to faults. */
void fv_steady_check(const fv_plant *plant, const fv_sat *sat, fv_faults *faults);
/* The same, all as cautions, for answers that are possible nevertheless. `sat` NULL: it makes its own. FV_FAIL: out of
 * memory, said in faults. */
fv_status fv_steady_remarks(const fv_plant *plant, const fv_sat *sat, fv_faults *faults);

FV_C_END

#endif
