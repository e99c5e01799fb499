/* SPDX-License-Identifier: MIT */
/* Which input matters, and what to measure first. */
#include "num/sample.h"
#include "num/sensitivity.h"
#include "study/odds/parts.h"

#include <stdlib.h>
#include <string.h>

/* Regression: powers of each input up to the square, products among the six strongest; terms below a thousandth of the
 * variance go. */
static const num_regression usual = {.family = NUM_HERMITE, .degree = 2, .pairs_of = 6, .least_gain = 1e-3};

static bool fail(const odds_question *q, bool memory)
{
    if (memory)
        fv_error(q->faults, FV_ERR_SYSTEM, q->answer->plant->loc, "out of memory");
    return false;
}

/* The good runs alone, inputs and one output. */
static size_t gather(const odds_question *q, const double *values, size_t stride, double *x, double *y)
{
    const fv_odds_answer *a = q->answer;
    const size_t d = q->unknowns.count;
    size_t n = 0;
    for (size_t i = 0; i < a->runs; i++) {
        if (!q->good[i])
            continue;
        memcpy(x + n * d, q->z + i * d, d * sizeof *x);
        y[n++] = fmin(values[i * stride], a->until);
    }
    return n;
}

/* Fewer terms where the sample is small. */
static fv_status regress(const double *x, const double *y, size_t n, size_t d, double *first, double *total,
                         double *explained)
{
    num_regression how = usual;
    if (num_sensitivity_regress(&how, x, y, n, d, first, total, explained) == FV_OK)
        return FV_OK;
    how.degree = 1;
    how.pairs_of = 0;
    return num_sensitivity_regress(&how, x, y, n, d, first, total, explained);
}

/* ---- the exact scheme ---- */

/* A, B, and A with each column from B, one after another. */
static void fill_scheme(const double *both, size_t n, size_t d, double *z)
{
    for (size_t k = 0; k < n; k++) {
        const double *a = both + 2 * d * k, *b = a + d;
        memcpy(z + k * d, a, d * sizeof *z);
        memcpy(z + (n + k) * d, b, d * sizeof *z);
        for (size_t i = 0; i < d; i++) {
            double *row = z + ((2 + i) * n + k) * d;
            memcpy(row, a, d * sizeof *z);
            row[i] = b[i];
        }
    }
}

/* A failed run counts as the mean of its block, so that it neither adds nor takes. */
static void mend(double *y, size_t n)
{
    double sum = 0;
    size_t good = 0;
    for (size_t k = 0; k < n; k++)
        if (!isnan(y[k])) {
            sum += y[k];
            good++;
        }
    for (size_t k = 0; k < n; k++)
        if (isnan(y[k]))
            y[k] = good ? sum / (double)good : 0;
}

/* What was stopped is left out. */
static bool run_exact(odds_question *q, double *first, double *total)
{
    fv_odds_answer *a = q->answer;
    const size_t d = q->unknowns.count, n = a->options.runs / FV_ODDS_SETS, all = (d + 2) * n;
    double *both = malloc(2 * d * n * sizeof *both), *z = malloc(all * d * sizeof *z), *y = malloc(all * sizeof *y);
    const study_work plan = {.threads = a->options.threads,
                             .progress = q->progress,
                             .from = 0.1,
                             .to = 0.98,
                             .what = "runs for exact sensitivities",
                             .caches = &q->caches};
    bool memory = !both || !z || !y || num_sample_normal(n, 2 * d, 1, a->options.seed + 1, both) == FV_FAIL;
    bool good = !memory;
    if (good) {
        fill_scheme(both, n, d, z);
        const study_ending outcome = odds_run_last(q, z, all, &plan, y);
        good = outcome == STUDY_DONE;
        a->stopped = outcome == STUDY_STOPPED;
        memory = outcome == STUDY_FAILED;
    }
    if (good) {
        for (size_t i = 0; i < d + 2; i++)
            mend(y + i * n, n);
        num_sensitivity_exact(y, y + n, y + 2 * n, n, d, first, total);
    }
    free(both);
    free(z);
    free(y);
    return good || a->stopped || fail(q, memory);
}

/* ---- in order ---- */

static int by_total(const void *a, const void *b)
{
    const fv_odds_input *x = a, *y = b;
    return x->total != y->total ? (x->total < y->total) - (x->total > y->total)
                                : (x->unknown > y->unknown) - (x->unknown < y->unknown);
}

static void sort_inputs(fv_odds_answer *a)
{
    qsort(a->inputs, a->unknown_count, sizeof *a->inputs, by_total);
    for (size_t i = 0; i < a->unknown_count; i++)
        a->first_measure[i] = i;
    for (size_t i = 1; i < a->unknown_count; i++) {
        const size_t moved = a->first_measure[i];
        size_t k = i;
        for (; k > 0 && a->inputs[a->first_measure[k - 1]].worth < a->inputs[moved].worth; k--)
            a->first_measure[k] = a->first_measure[k - 1];
        a->first_measure[k] = moved;
    }
}

static void fill_inputs(fv_odds_answer *a, const double *first, const double *total, const double *exact_first,
                        const double *exact_total)
{
    const double width = isfinite(a->last.high) ? a->last.high - a->last.low : a->until - a->last.low;
    for (size_t i = 0; i < a->unknown_count; i++) {
        const double known = exact_first ? fmax(0, exact_first[i]) : first[i];
        fv_odds_input *in = &a->inputs[i];
        *in = (fv_odds_input){.unknown = i, .first = first[i], .total = total[i]};
        in->exact_first = exact_first ? exact_first[i] : NAN;
        in->exact_total = exact_total ? exact_total[i] : NAN;
        in->narrows = width * (1 - sqrt(fmax(0, 1 - known)));
        in->worth = in->narrows / a->unknowns[i].measurement.effort;
    }
    sort_inputs(a);
}

bool odds_weigh_inputs(odds_question *q)
{
    fv_odds_answer *a = q->answer;
    const size_t d = q->unknowns.count;
    double *x = malloc(a->runs * d * sizeof *x), *y = malloc(a->runs * sizeof *y),
           *share = malloc(4 * d * sizeof *share);
    a->inputs = fv_arena_alloc(a->arena, d, sizeof *a->inputs);
    a->first_measure = fv_arena_alloc(a->arena, d, sizeof *a->first_measure);
    bool memory = !x || !y || !share || !a->inputs || !a->first_measure, good = !memory;
    double explained;
    for (size_t i = 0; i < q->vessels && good; i++) {
        const size_t n = gather(q, a->core + i, q->vessels, x, y);
        good = regress(x, y, n, d, a->vessels[i].share, share, &explained) == FV_OK;
    }
    if (good) {
        const size_t n = gather(q, q->last, 1, x, y);
        good = regress(x, y, n, d, share, share + d, &a->explained) == FV_OK;
        memory = !good;
    }
    if (good && a->options.exact && !a->stopped)
        good = run_exact(q, share + 2 * d, share + 3 * d);
    const bool exact = a->options.exact && !a->stopped;
    if (good)
        fill_inputs(a, share, share + d, exact ? share + 2 * d : NULL, exact ? share + 3 * d : NULL);
    free(x);
    free(y);
    free(share);
    return good || fail(q, memory);
}
