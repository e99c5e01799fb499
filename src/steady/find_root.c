/* SPDX-License-Identifier: MIT */
/* The ways to a root: quickly; where that stalls, by way of rounded corners (smooth.h), ever less so; and where that
 * stalls, too, along the curve of roots (continuation.c). */
#include "steady/newton.h"

#include <math.h>
#include <string.h>

/* Softness from which the thing itself is solved. */
static const double SOFTNESS_LEAST = 1e-6;
/* What is tried then: what differs from it by no digit that counts, and the thing itself. */
enum { SOFTNESSES = 4 };
static const double SOFTNESS_LAST[SOFTNESSES] = {0, 1e-8, 1e-7, 1e-6};
/* Softness of a step over that of the last: at first, one stride after the other where the way fails; and where it is
 * given up. After one that took so few of Newton's steps the next may be twice as long. */
static const double RATIOS_FIRST[] = {0.2, 0.5}, RATIO_MOST = 0.98;
enum { EASY = 6 };
/* Along the curve of roots: what the softness is while velocity heads come to be recovered, and the tolerance. */
static const struct {
    double softness, tolerance;
} WAYS[] = {{1, 1e-7}, {1e-4, 1e-7}, {1, 1e-8}, {1e-2, 1e-8}, {1, 1e-9}};
/* Softness that a curve starts from; the next, where no root is found there; and from where it may be left. */
static const double SOFTEST = 1, SOFTER = 5, SOFTNESS_MOST = 1e4, NEARLY = 1e-3;

/* How the lines stand against the last solve, from whose solution this one could start. */
typedef enum { AS_BEFORE, LESS_OPEN, OTHERWISE } change;

static change choose_forms(fv_solver *s)
{
    const size_t n = s->net->line_count;
    memcpy(s->form_before, s->form, n * sizeof *s->form);
    steady_choose_forms(s);
    change found = AS_BEFORE;
    for (size_t i = 0; i < n && found != OTHERWISE; i++)
        if (s->form[i] != s->form_before[i])
            found = s->form[i] == FORM_SHUT || s->form[i] == FORM_DEAD_LEG ? LESS_OPEN : OTHERWISE;
    return found;
}

static void keep(fv_solver *s)
{
    memcpy(s->kept, s->x, (size_t)s->net->unknown_count * sizeof(double));
}

static void go_back(fv_solver *s)
{
    memcpy(s->x, s->kept, (size_t)s->net->unknown_count * sizeof(double));
}

/* From the least softness to the thing itself, or as near to it as Newton's method gets without wild steps, but for a
 * last try. */
static fv_status sharpen(fv_solver *s, steady_newton_log *log)
{
    double reached = INFINITY;
    for (int i = SOFTNESSES - 1; i >= 0 && !num_sparse_out_of_memory(s->sparse); i--) {
        s->softness = SOFTNESS_LAST[i];
        if (steady_newton(s, STEADY_NEWTON_FINE, log) == FV_OK) {
            reached = s->softness;
            keep(s);
        } else {
            go_back(s);
        }
    }
    if (isinf(reached) || reached == s->softness)
        return isinf(reached) ? FV_FAIL : FV_OK;
    if (steady_newton(s, STEADY_NEWTON_QUICK, log) == FV_OK)
        return FV_OK;
    go_back(s);
    s->softness = reached;
    return steady_newton(s, STEADY_NEWTON_FINE, log);
}

/* The same at once, with any step: across a corner it may need to. */
static fv_status leap(fv_solver *s, steady_newton_log *log)
{
    for (int i = 0; i < SOFTNESSES && !num_sparse_out_of_memory(s->sparse); i++) {
        go_back(s);
        s->softness = SOFTNESS_LAST[i];
        if (steady_newton(s, STEADY_NEWTON_PATIENT, log) == FV_OK)
            return FV_OK;
    }
    return FV_FAIL;
}

/* From the last root that was kept. */
static fv_status arrive(fv_solver *s, steady_newton_log *log)
{
    return sharpen(s, log) == FV_OK ? FV_OK : leap(s, log);
}

/* From the first guess with all corners rounded off, ever less so. Each step starts from the last; one that does not
 * settle is taken again from there, shorter. */
static fv_status harden(fv_solver *s, double first, steady_newton_log *log)
{
    double ratio = first;
    steady_start_guess(s);
    keep(s);
    for (double reached = 1 / ratio;
         reached > SOFTNESS_LEAST && ratio < RATIO_MOST && !num_sparse_out_of_memory(s->sparse);) {
        s->softness = reached * ratio;
        const int before = log->iterations;
        if (steady_newton(s, STEADY_NEWTON_ROUGH, log) == FV_OK) {
            reached = s->softness;
            keep(s);
            ratio = fmax(ratio * ratio, log->iterations - before <= EASY ? first * first : first);
        } else {
            go_back(s);
            ratio = sqrt(ratio);
        }
    }
    return arrive(s, log);
}

/* From the first guess to a root with nothing recovered, as soft as it takes. */
static fv_status begin_curve(fv_solver *s, steady_newton_log *log)
{
    static const steady_newton_how HOWS[] = {STEADY_NEWTON_ROUGH, STEADY_NEWTON_ANY};
    s->recovers = 0;
    for (s->softness = SOFTEST; s->softness < SOFTNESS_MOST; s->softness *= SOFTER)
        for (int i = 0; i < 2 && !num_sparse_out_of_memory(s->sparse); i++) {
            steady_start_guess(s);
            if (steady_newton(s, HOWS[i], log) == FV_OK)
                return FV_OK;
        }
    return FV_FAIL;
}

/* To the least softness or nearly there. */
static fv_status follow(fv_solver *s, double softness, double tolerance, steady_newton_log *log)
{
    if (begin_curve(s, log) != FV_OK)
        return FV_FAIL;
    if (softness < SOFTEST && steady_follow(s, STEADY_SOFTNESS, softness, tolerance, log) != FV_OK)
        return FV_FAIL;
    if (steady_follow(s, STEADY_RECOVERY, 1, tolerance, log) != FV_OK)
        return FV_FAIL;
    return steady_follow(s, STEADY_SOFTNESS, SOFTNESS_LEAST, tolerance, log) == FV_OK || s->softness < NEARLY ? FV_OK
                                                                                                              : FV_FAIL;
}

static fv_status follow_and_sharpen(fv_solver *s, double softness, double tolerance, steady_newton_log *log)
{
    const fv_status followed = follow(s, softness, tolerance, log);
    s->recovers = 1;
    if (followed != FV_OK)
        return FV_FAIL;
    keep(s);
    return arrive(s, log);
}

/* From the last solution, where it is one for a plant much like this. */
static fv_status start_from_last(fv_solver *s, change since, steady_newton_log *log)
{
    if (!s->warm || since == OTHERWISE)
        return FV_FAIL;
    if (since == LESS_OPEN) {
        s->warm = false; /* in the matrix there is little left of it */
        steady_guess_what_was_shut(s);
    }
    return steady_newton(s, STEADY_NEWTON_QUICK, log);
}

/* Quickly, from the last solution and then cold; by way of rounded corners; or along the curve. */
fv_status steady_find_root(fv_solver *s, steady_newton_log *log)
{
    const change since = choose_forms(s);
    steady_find_dry_pressures(s);
    s->softness = 0;
    if (start_from_last(s, since, log) == FV_OK)
        return FV_OK;
    s->warm = false;
    steady_start_guess(s);
    if (!num_sparse_out_of_memory(s->sparse) && steady_newton(s, STEADY_NEWTON_QUICK, log) == FV_OK)
        return FV_OK;
    for (size_t i = 0; i < sizeof RATIOS_FIRST / sizeof *RATIOS_FIRST && !num_sparse_out_of_memory(s->sparse); i++)
        if (harden(s, RATIOS_FIRST[i], log) == FV_OK)
            return FV_OK;
    for (size_t i = 0; i < sizeof WAYS / sizeof *WAYS && !num_sparse_out_of_memory(s->sparse); i++)
        if (follow_and_sharpen(s, WAYS[i].softness, WAYS[i].tolerance, log) == FV_OK)
            return FV_OK;
    /* so that what is said of it is said of the thing itself */
    s->softness = 0;
    steady_carry(s, s->x);
    steady_assemble(s, s->x, s->residual, NULL);
    return FV_FAIL;
}
