/* SPDX-License-Identifier: MIT */
/* The root of all equations F(x) = 0, by methods of growing cost, each tried where the one before fails: damped Newton
 * from the last solution and from a first guess; the same with smoothed complementarity conditions, the smoothing
 * reduced step by step (smooth.h); fires raised from rest; pseudo-arclength continuation (continuation.c). */
#include "steady/newton.h"

#include <math.h>
#include <string.h>

/* Smoothing from which it is removed. */
static const double SMOOTHING_LEAST = 1e-6;
/* What is tried then: none, or so little that no digit that counts differs. */
enum { SMOOTHINGS = 4 };
static const double SMOOTHING_LAST[SMOOTHINGS] = {0, 1e-8, 1e-7, 1e-6};
/* Smoothing of a step over that of the last: at first, in two attempts; and where the attempt ends. After one that took
 * so few of Newton's steps the next may be twice as long. */
static const double RATIOS_FIRST[] = {0.2, 0.5}, RATIO_MOST = 0.98;
enum { FEW_STEPS = 6 };
/* Steps of the fires, of all that is given, along the branch from rest. */
static const double FIRE_STEP_FIRST = 0.1, FIRE_STEP_LEAST = 1e-3;
/* Along the curve of roots: what the smoothing is while velocity heads come to be recovered, and the tolerance. */
static const struct {
    double smoothing, tolerance;
} WAYS[] = {{1, 1e-7}, {1e-4, 1e-7}, {1, 1e-8}, {1e-2, 1e-8}, {1, 1e-9}};
/* Steps times unknowns that all curves may take: some 4 s of a processor. */
static const double CURVES_WORK = 1.5e7;
/* Smoothing that a curve starts from; the factor to the next, where no root is found there; the largest; and what may
 * be left at the end. */
static const double SMOOTHING_FIRST = 1, SMOOTHING_FACTOR = 5, SMOOTHING_MOST = 1e4, NEARLY = 1e-3;

/* How the lines stand against the last solve, from whose solution this one could start. */
typedef enum { AS_BEFORE, LESS_OPEN, OTHERWISE } change;

static change choose_forms(fv_solver *s)
{
    const size_t n = s->net->line_count;
    memcpy(s->layout.form_before, s->layout.form, n * sizeof *s->layout.form);
    steady_choose_forms(s);
    change found = AS_BEFORE;
    for (size_t i = 0; i < n && found != OTHERWISE; i++)
        if (s->layout.form[i] != s->layout.form_before[i])
            found = s->layout.form[i] == FORM_SHUT || s->layout.form[i] == FORM_DEAD_LEG ? LESS_OPEN : OTHERWISE;
    return found;
}

static void save_iterate(fv_solver *s)
{
    memcpy(s->work.kept, s->state.x, (size_t)s->net->unknown_count * sizeof(double));
}

static void restore_iterate(fv_solver *s)
{
    memcpy(s->state.x, s->work.kept, (size_t)s->net->unknown_count * sizeof(double));
}

/* From the least smoothing to none, or to as little as damped steps reach; full steps are a last attempt. */
static fv_status remove_smoothing(fv_solver *s, steady_newton_log *log)
{
    double reached = INFINITY;
    for (int i = SMOOTHINGS - 1; i >= 0 && !steady_gives_up(s, log); i--) {
        s->state.smoothing = SMOOTHING_LAST[i];
        if (steady_newton(s, STEADY_NEWTON_FINE, log) == FV_OK) {
            reached = s->state.smoothing;
            save_iterate(s);
        } else {
            restore_iterate(s);
        }
    }
    if (isinf(reached) || reached == s->state.smoothing)
        return isinf(reached) ? FV_FAIL : FV_OK;
    if (steady_newton(s, STEADY_NEWTON_QUICK, log) == FV_OK)
        return FV_OK;
    restore_iterate(s);
    s->state.smoothing = reached;
    return steady_newton(s, STEADY_NEWTON_FINE, log);
}

/* The same at once, full steps allowed: across a kink they may be needed. */
static fv_status remove_smoothing_at_once(fv_solver *s, steady_newton_log *log)
{
    for (int i = 0; i < SMOOTHINGS && !steady_gives_up(s, log); i++) {
        restore_iterate(s);
        s->state.smoothing = SMOOTHING_LAST[i];
        if (steady_newton(s, STEADY_NEWTON_PATIENT, log) == FV_OK)
            return FV_OK;
    }
    return FV_FAIL;
}

/* From the last root that was kept. */
static fv_status finish(fv_solver *s, steady_newton_log *log)
{
    return remove_smoothing(s, log) == FV_OK ? FV_OK : remove_smoothing_at_once(s, log);
}

/* From the first guess with all complementarity conditions smoothed, ever less so. Each step starts from the last; one
 * that does not converge is repeated from there, shorter. */
static fv_status reduce_smoothing(fv_solver *s, double first, steady_newton_log *log)
{
    double ratio = first;
    steady_start_guess(s);
    save_iterate(s);
    for (double reached = 1 / ratio; reached > SMOOTHING_LEAST && ratio < RATIO_MOST && !steady_gives_up(s, log);) {
        s->state.smoothing = reached * ratio;
        const int before = log->iterations;
        if (steady_newton(s, STEADY_NEWTON_ROUGH, log) == FV_OK) {
            reached = s->state.smoothing;
            save_iterate(s);
            ratio = fmax(ratio * ratio, log->iterations - before <= FEW_STEPS ? first * first : first);
        } else {
            restore_iterate(s);
            ratio = sqrt(ratio);
        }
    }
    return finish(s, log);
}

static void set_fires(fv_solver *s, double share)
{
    for (size_t i = 0; i < s->net->plant->boiler_count; i++)
        s->given.fire[i] = share * s->work.fire[i];
}

/* Along the branch of roots that begins at rest: small fires first, each step from the last root. One that does not
 * converge is repeated from there, shorter. */
static fv_status raise_fires(fv_solver *s, steady_newton_log *log)
{
    double reached = 0, step = FIRE_STEP_FIRST;
    memcpy(s->work.fire, s->given.fire, s->net->plant->boiler_count * sizeof(double));
    s->state.smoothing = 0;
    while (reached < 1 && step > FIRE_STEP_LEAST && !steady_gives_up(s, log)) {
        const double fire = fmin(reached + step, 1);
        set_fires(s, fire);
        if (reached <= 0)
            steady_start_guess(s);
        if (steady_newton(s, STEADY_NEWTON_PATIENT, log) == FV_OK) {
            reached = fire;
            step *= 2;
            save_iterate(s);
        } else {
            restore_iterate(s);
            step *= 0.25;
        }
    }
    set_fires(s, 1);
    return reached < 1 ? FV_FAIL : FV_OK;
}

/* From the first guess to a root with nothing recovered, with as much smoothing as it takes. */
static fv_status find_first_root(fv_solver *s, steady_newton_log *log)
{
    static const steady_newton_policy POLICIES[] = {STEADY_NEWTON_ROUGH, STEADY_NEWTON_ANY};
    s->state.recovery = 0;
    for (s->state.smoothing = SMOOTHING_FIRST; s->state.smoothing < SMOOTHING_MOST;
         s->state.smoothing *= SMOOTHING_FACTOR)
        for (int i = 0; i < 2 && !steady_gives_up(s, log); i++) {
            steady_start_guess(s);
            if (steady_newton(s, POLICIES[i], log) == FV_OK)
                return FV_OK;
        }
    return FV_FAIL;
}

/* To the least smoothing or nearly there. */
static fv_status continue_to_end(fv_solver *s, double smoothing, double tolerance, steady_newton_log *log)
{
    if (find_first_root(s, log) != FV_OK)
        return FV_FAIL;
    if (smoothing < SMOOTHING_FIRST && steady_continue(s, STEADY_SMOOTHING, smoothing, tolerance, log) != FV_OK)
        return FV_FAIL;
    if (steady_continue(s, STEADY_RECOVERY, 1, tolerance, log) != FV_OK)
        return FV_FAIL;
    return steady_continue(s, STEADY_SMOOTHING, SMOOTHING_LEAST, tolerance, log) == FV_OK || s->state.smoothing < NEARLY
               ? FV_OK
               : FV_FAIL;
}

static fv_status try_continuation(fv_solver *s, double smoothing, double tolerance, steady_newton_log *log)
{
    const fv_status followed = continue_to_end(s, smoothing, tolerance, log);
    s->state.recovery = 1;
    if (followed != FV_OK)
        return FV_FAIL;
    save_iterate(s);
    return finish(s, log);
}

static fv_status follow_curves(fv_solver *s, steady_newton_log *log)
{
    const int most = s->given.steps_most, may = log->iterations + (int)(CURVES_WORK / s->net->unknown_count);
    fv_status status = FV_FAIL;
    s->given.steps_most = may < most ? may : most;
    for (size_t i = 0; i < sizeof WAYS / sizeof *WAYS && status != FV_OK && !steady_gives_up(s, log); i++)
        status = try_continuation(s, WAYS[i].smoothing, WAYS[i].tolerance, log);
    s->given.steps_most = most;
    return status;
}

/* From the last solution, where it is one for a plant much like this. */
static fv_status start_from_last(fv_solver *s, change since, steady_newton_log *log)
{
    if (!s->state.warm || since == OTHERWISE)
        return FV_FAIL;
    if (since == LESS_OPEN) {
        s->state.warm = false; /* in the matrix there is little left of it */
        steady_guess_what_was_shut(s);
    }
    return steady_newton(s, STEADY_NEWTON_QUICK, log);
}

fv_status steady_find_root(fv_solver *s, steady_newton_log *log)
{
    const change since = choose_forms(s);
    steady_find_dry_pressures(s);
    s->state.smoothing = 0;
    if (start_from_last(s, since, log) == FV_OK)
        return FV_OK;
    s->state.warm = false;
    steady_start_guess(s);
    if (!steady_gives_up(s, log) && steady_newton(s, STEADY_NEWTON_QUICK, log) == FV_OK)
        return FV_OK;
    for (size_t i = 0; i < sizeof RATIOS_FIRST / sizeof *RATIOS_FIRST && !steady_gives_up(s, log); i++)
        if (reduce_smoothing(s, RATIOS_FIRST[i], log) == FV_OK)
            return FV_OK;
    if (raise_fires(s, log) == FV_OK)
        return FV_OK;
    if (follow_curves(s, log) == FV_OK)
        return FV_OK;
    /* so that messages are about the equations without smoothing */
    s->state.smoothing = 0;
    steady_convect(s, s->state.x);
    steady_assemble(s, s->state.x, s->work.residual, NULL);
    return FV_FAIL;
}
