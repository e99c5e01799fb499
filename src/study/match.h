/* SPDX-License-Identifier: MIT */
/* A plant against a log: parameters, runs, residuals; the most probable parameters and draws from their posterior.
 *
 * Parameters, all standard normal beforehand, in this order: the plant's unknowns; offsets of the probes, in units of
 * their error; the time of lighting, in units of its error; where a defect is supposed, its size. */
#ifndef STUDY_MATCH_H
#define STUDY_MATCH_H

#include "farvessel/fit.h"
#include "num/whiten.h"
#include "study/ensemble.h"
#include "study/readings.h"

#include <stdatomic.h>

typedef struct {
    fv_defect_kind kind;
    int vessel, line;
} study_defect;

/* Readings of a probe that are used, thinned. */
typedef struct {
    size_t probe, count, first; /* in readings; how many; where they begin among all residuals */
    size_t read;                /* how many there are, with those after a hold */
    double *time, *value;       /* s since the lighting as supposed; in the probe's unit */
    double *noise;              /* variance by reading */
    double noise_deviation;
    num_whitener white;
    double log_norm; /* sum of ln(2 pi F) */
} match_series;

typedef struct {
    const fv_plant *plant;  /* with what was done */
    fv_plant *with_actions; /* the same, to be freed; NULL: nothing was done */
    const fv_logfile *log;
    const fv_progress *progress;
    double shown; /* share that it has come to: single runs do not move it */
    fv_faults *faults;
    fv_arena *arena;
    study_caches caches;
    size_t threads;
    study_unknowns unknowns;
    study_readings readings;
    double lit, lit_error; /* s of the log; s */
    double now;            /* s since the lighting */
    bool whole;            /* and to the log's end */
    bool stopped;          /* by the user, after there was a mode: few draws are made, and progress is asked no more */
    double horizon;        /* s since the lighting: up to then draws keep their curves */
    double every;          /* s, grid of curves */
    match_series *series;
    size_t series_count, residuals; /* of readings */
    double slow[2], slow_time;      /* by place: core and outside, chamber */
    size_t runs;
    atomic_bool *no_memory, *halted; /* set by a run, on any thread: it failed for want of it; the user stopped it */
} study_match;

/* FV_FAIL: said in faults. Close it in any case. */
fv_status study_match_open(study_match *match, const fv_plant *plant, const fv_logfile *log,
                           const fv_fit_options *options, fv_arena *arena, const fv_progress *progress,
                           fv_faults *faults);
/* STUDY_STOPPED where the user stopped a run. Else says that no plant fits, unless memory was out, and returns
 * STUDY_FAILED, which elsewhere means that memory is out. */
study_ending study_match_refuse(study_match *match);
/* False, said: some run failed for want of memory, and what was found lacks it. */
bool study_match_had_memory(const study_match *match);
void study_match_close(study_match *match);
/* Sets the whitening by `slow` and `slow_time`. */
void study_match_whiten(study_match *match);
void study_match_usual_errors(study_match *match); /* and whitens by them */
/* Uses all readings up to `until[vessel]`, s since the lighting; NAN: all of that vessel. until may be NULL. */
void study_match_use_readings(study_match *match, const double *until);

/* ---- match_model.c ---- */
size_t study_match_dim(const study_match *match, const study_defect *defect);
/* What the probes would read, at regular times from the lighting. */
typedef struct {
    size_t count;
    double step;
    double *value; /* probe * count + i, K */
} match_curves;
/* The plant with parameters x. NULL: said in faults. */
fv_plant *study_match_plant(const study_match *match, const study_defect *defect, const double *x, fv_faults *faults);
double study_defect_size(const study_defect *defect, double z);
/* Runs it, to `until`; curves may be NULL. NULL: no solution. The result's plant is to be freed after it. */
fv_heat_result *study_match_run(const study_match *match, const study_defect *defect, const double *x, double until,
                                bool to_the_end, fv_heat_cache *cache, const fv_progress *progress,
                                match_curves *curves, fv_plant **plant);
void study_match_curves_free(match_curves *curves);
/* Whitened residuals of the readings, as Huber has them; and then, where x is asked for, the parameters themselves. */
void study_match_residuals(const study_match *match, const match_curves *curves, const double *x, double *f);
/* The same before whitening: reading - model - offset. */
void study_match_departures(const study_match *match, const match_curves *curves, const double *x, double *f);
/* Squares of these are Huber's loss: v^2 up to a bound, then 2 c |v| - c^2 (Ann. Math. Stat. 35 (1964) 73). */
double study_huber(double v);
/* Moments from the lighting to the horizon at which draws keep their curves, s since the lighting. */
double study_match_moment(const study_match *match, size_t i);
/* One probe's curve at a time since the lighting. */
double study_match_at(const match_curves *curves, size_t probe, double time);

/* ---- match_solve.c ---- */
typedef struct {
    study_defect defect;
    size_t dim;
    double *x, *covariance, *factor; /* mode; dim x dim; its Cholesky factor */
    double *j;                       /* Jacobian of the readings' residuals, at or near x */
    double *f;                       /* those residuals at x, once it is settled */
    bool sloped;                     /* j is at x itself */
    double sum;                      /* of squares, priors included */
    double supposed;                 /* logarithm of the defect's own probability beforehand */
    double evidence;                 /* logarithm, up to what all share */
    bool good;
} match_mode;
/* Room for a mode; false: out of memory. */
bool study_match_mode_new(study_match *match, const study_defect *defect, match_mode *mode);
/* ln supposed - 1/2 sum of squares - 1/2 sum of ln(2 pi F) + 1/2 ln det covariance: Laplace's approximation, each
 * parameter's prior being standard normal. In match_model.c. */
double study_match_evidence(const study_match *match, const match_mode *mode);
/* From x (dim values, NULL: the prior's middle) to the mode. */
study_ending study_match_solve(study_match *match, const study_defect *defect, const double *start, size_t iterations,
                               double from, double to, match_mode *mode);
/* Jacobian of readings' residuals at x, by runs side by side: residuals x dim. */
study_ending study_match_jacobian(study_match *match, const study_defect *defect, const double *x, const double *f,
                                  const match_curves *base, double *j, double from, double to);
/* Sizes of the slow errors, by their likelihood at the mode. */
fv_status study_match_errors(study_match *match, const match_mode *mode);

/* ---- match_settle.c ---- */
/* Fills the mode's Jacobian, makes its covariance anew from it, and goes on to where the slope is nought. */
study_ending study_match_settle(study_match *match, match_mode *mode, double from, double to);
/* The last of that alone, by the Jacobian that the mode has, for one job; good: whether a plant is there. */
fv_status study_match_walk(const study_match *match, match_mode *mode, fv_heat_cache *cache,
                           const fv_progress *progress);
enum { MATCH_STEPS = 8 }; /* runs that it takes, at most */
/* g = J'f + x, the slope of half the sum of squares with the mode's Jacobian. */
void study_match_slope(const match_mode *mode, size_t residuals, const double *f, const double *x, double *g);
/* step = C g; returns g'C g. */
double study_match_step(const match_mode *mode, const double *g, double *step);

/* ---- match_defects.c: plants with one thing wrong, as one run each predicts ---- */
enum { MATCH_MODES_MOST = 24 };
/* The most probable first. The match is `stopped`: only the plain one, for the user stopped the others. */
study_ending study_match_modes(study_match *match, bool defects, match_mode *modes, size_t *count);

/* ---- match_misfit.c: a log that is another plant's, or read wrongly; false: said in faults ---- */
/* Before it is fitted. */
bool study_match_is_read_rightly(study_match *match);
/* Whether a plant fits, and one that could be believed: nothing is said. off: K rms of the cores, may be NULL. */
typedef enum { MATCH_BELIEVED, MATCH_STRAINED, MATCH_HOPELESS } match_trust;
match_trust study_match_trust(study_match *match, const match_mode *mode, double *off);
bool study_match_is_ours(study_match *match, const match_mode *mode);

/* ---- match_draw.c ---- */
typedef struct {
    size_t mode;         /* which */
    bool done;           /* moved and run */
    double *x;           /* its dim */
    double weight;       /* sum 1 */
    double *core, *hold; /* by vessel, s; infinite: never */
    double *curve;       /* probe * FV_FIT_MOMENTS + i: what it would read, offset apart, at study_match_moment(i), K */
} match_draw;
typedef struct {
    match_draw *list;
    size_t count;
    double effective;
    bool sampled; /* weights alone left too few: the draws were moved */
} match_draws;
/* Draws from the modes; the modes' probabilities are put right on the way. Stopped, those that are done, at least 32.
 * Each draw runs to the end of all holds, `until` at the latest. */
study_ending study_match_draw(study_match *match, const match_mode *modes, size_t mode_count, double *probability,
                              size_t count, unsigned long seed, double until, match_draws *out);

/* ---- match_bands.c ---- */
/* Bands of the draws' times by vessel, and of the last hold. work: 4 x draws doubles. */
void study_match_bands(const study_match *match, const match_draws *draws, fv_fit_vessel *vessels, double last[3],
                       double *work);
/* From a log to draws: opens, fits, looks whether it is ours, draws. until: s. */
typedef struct {
    study_match match;
    match_mode modes[MATCH_MODES_MOST];
    size_t mode_count;
    double probability[MATCH_MODES_MOST];
    match_draws draws;
    double until;
} match_found;
/* NULL: said, or stopped. Its lists are in the arena. */
match_found *study_match_find(const fv_plant *plant, const fv_logfile *log, const fv_fit_options *options,
                              fv_arena *arena, const fv_progress *progress, fv_faults *faults);
void study_match_found_free(match_found *found);
/* The modes that are worth telling, the most probable first, in room for all; how many. */
size_t study_match_told(const match_found *found, fv_fit_mode *told);

/* ---- logged_actions.c: what was or will be done, as actions ---- */
fv_status study_logged_action_add(fv_plant *plant, const fv_logfile *log, double lit, double near, const char *text,
                                  const char *option, fv_faults *faults);

#endif
