/* SPDX-License-Identifier: MIT */
#include "num/sparse.h"

#include <klu.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

struct num_pattern {
    int n;
    size_t entry_count;
    int *starts, *row_index; /* compressed columns */
    int *place;              /* of each entry among the nonzeros */
    klu_symbolic *symbolic;
    klu_common common;
};

struct num_sparse {
    const num_pattern *pattern;
    double *values;
    double *scale;    /* of each row, as it was when the pivot order was sought */
    double condition; /* that was then */
    klu_numeric *numeric;
    klu_common common;
};

/* Below this ratio of smallest to largest pivot the kept pivot order is distrusted and a new one is sought; unless the
 * ratio was about as small when the order was new, so that no better one is to be had. */
static const double REUSE_CONDITION = 1e-13, ABOUT = 10;

/* Counting sort by column, then by row within a column; equal places merge. */
static bool compress(num_pattern *p, const int *rows, const int *cols, size_t count)
{
    int *order = malloc((count + 1) * sizeof(int));
    int *by_row = malloc((count + 1) * sizeof(int));
    int *head = calloc((size_t)p->n + 1, sizeof(int));
    bool good = order && by_row && head;
    if (good) {
        for (size_t i = 0; i < count; i++)
            head[rows[i] + 1]++;
        for (int i = 0; i < p->n; i++)
            head[i + 1] += head[i];
        for (size_t i = 0; i < count; i++)
            by_row[head[rows[i]]++] = (int)i;
        memset(head, 0, ((size_t)p->n + 1) * sizeof(int));
        for (size_t i = 0; i < count; i++)
            head[cols[i] + 1]++;
        for (int i = 0; i < p->n; i++)
            head[i + 1] += head[i];
        for (size_t i = 0; i < count; i++)
            order[head[cols[by_row[i]]]++] = by_row[i];
        int nonzeros = 0, last_row = -1, last_col = -1;
        for (size_t i = 0; i < count; i++) {
            int row = rows[order[i]], col = cols[order[i]];
            if (row != last_row || col != last_col) {
                for (int c = last_col; c < col; c++)
                    p->starts[c + 1] = nonzeros;
                p->row_index[nonzeros++] = row;
                last_row = row;
                last_col = col;
            }
            p->place[order[i]] = nonzeros - 1;
        }
        for (int c = last_col; c < p->n; c++)
            p->starts[c + 1] = nonzeros;
    }
    free(order);
    free(by_row);
    free(head);
    return good;
}

num_pattern *num_pattern_new(int n, const int *rows, const int *cols, size_t count, int *singular_row)
{
    if (singular_row)
        *singular_row = -1;
    num_pattern *p = calloc(1, sizeof *p);
    if (!p)
        return NULL;
    p->n = n;
    p->entry_count = count;
    p->starts = calloc((size_t)n + 2, sizeof(int));
    p->row_index = malloc((count + 1) * sizeof(int));
    p->place = malloc((count + 1) * sizeof(int));
    if (!p->starts || !p->row_index || !p->place || !compress(p, rows, cols, count)) {
        num_pattern_free(p);
        return NULL;
    }
    klu_defaults(&p->common);
    p->common.scale = -1; /* rows are scaled here, which takes a tenth of the time */
    p->symbolic = klu_analyze(n, p->starts, p->row_index, &p->common);
    bool deficient = p->symbolic && p->symbolic->structural_rank >= 0 && p->symbolic->structural_rank < n;
    if (deficient && singular_row)
        *singular_row = p->symbolic->P[p->symbolic->structural_rank];
    if (!p->symbolic || deficient) {
        num_pattern_free(p);
        return NULL;
    }
    return p;
}

void num_pattern_free(num_pattern *pattern)
{
    if (!pattern)
        return;
    if (pattern->symbolic)
        klu_free_symbolic(&pattern->symbolic, &pattern->common);
    free(pattern->starts);
    free(pattern->row_index);
    free(pattern->place);
    free(pattern);
}

size_t num_pattern_nonzeros(const num_pattern *pattern)
{
    return (size_t)pattern->starts[pattern->n];
}

num_sparse *num_sparse_new(const num_pattern *pattern)
{
    num_sparse *s = calloc(1, sizeof *s);
    if (!s)
        return NULL;
    s->pattern = pattern;
    s->common = pattern->common;
    s->values = malloc((num_pattern_nonzeros(pattern) + 1) * sizeof(double));
    s->scale = malloc(((size_t)pattern->n + 1) * sizeof(double));
    if (s->values && s->scale)
        return s;
    num_sparse_free(s);
    return NULL;
}

void num_sparse_free(num_sparse *sparse)
{
    if (!sparse)
        return;
    if (sparse->numeric)
        klu_free_numeric(&sparse->numeric, &sparse->common);
    free(sparse->values);
    free(sparse->scale);
    free(sparse);
}

static void gather(num_sparse *s, const double *values)
{
    const num_pattern *p = s->pattern;
    memset(s->values, 0, num_pattern_nonzeros(p) * sizeof(double));
    for (size_t i = 0; i < p->entry_count; i++)
        s->values[p->place[i]] += values[i];
}

/* Brings the largest of each row to between 1/2 and 1. Powers of two, so that nothing is rounded. */
static void choose_scale(num_sparse *s)
{
    const num_pattern *p = s->pattern;
    const size_t nonzeros = num_pattern_nonzeros(p);
    memset(s->scale, 0, (size_t)p->n * sizeof(double));
    for (size_t k = 0; k < nonzeros; k++) {
        const double size = fabs(s->values[k]);
        if (size > s->scale[p->row_index[k]])
            s->scale[p->row_index[k]] = size;
    }
    for (int i = 0; i < p->n; i++) {
        int exponent = 0;
        if (isfinite(s->scale[i]))
            frexp(s->scale[i], &exponent);
        s->scale[i] = ldexp(1, -exponent);
    }
}

static void scale_rows(num_sparse *s)
{
    const num_pattern *p = s->pattern;
    const size_t nonzeros = num_pattern_nonzeros(p);
    for (size_t k = 0; k < nonzeros; k++)
        s->values[k] *= s->scale[p->row_index[k]];
}

/* True when the kept pivot order still serves. */
static bool refactor(num_sparse *s)
{
    const num_pattern *p = s->pattern;
    scale_rows(s);
    if (!klu_refactor(p->starts, p->row_index, s->values, p->symbolic, s->numeric, &s->common) ||
        s->common.status != KLU_OK || !klu_rcond(p->symbolic, s->numeric, &s->common))
        return false;
    const double now = s->common.rcond, then = s->condition;
    return now > REUSE_CONDITION || (now > then / ABOUT && now < then * ABOUT);
}

static bool factor_anew(num_sparse *s)
{
    const num_pattern *p = s->pattern;
    choose_scale(s);
    scale_rows(s);
    s->numeric = klu_factor(p->starts, p->row_index, s->values, p->symbolic, &s->common);
    if (!s->numeric || s->common.status != KLU_OK)
        return false;
    klu_rcond(p->symbolic, s->numeric, &s->common);
    s->condition = s->common.rcond;
    return true;
}

fv_status num_sparse_factor(num_sparse *sparse, const double *values, int *singular_column)
{
    gather(sparse, values);
    if (sparse->numeric) {
        if (refactor(sparse))
            return FV_OK;
        if (num_sparse_out_of_memory(sparse))
            return FV_FAIL;
        klu_free_numeric(&sparse->numeric, &sparse->common);
        gather(sparse, values);
    }
    if (factor_anew(sparse))
        return FV_OK;
    if (singular_column)
        *singular_column = sparse->common.singular_col;
    if (sparse->numeric)
        klu_free_numeric(&sparse->numeric, &sparse->common);
    return FV_FAIL;
}

bool num_sparse_out_of_memory(const num_sparse *sparse)
{
    return sparse->common.status == KLU_OUT_OF_MEMORY;
}

void num_sparse_solve(num_sparse *sparse, double *right_side)
{
    const num_pattern *p = sparse->pattern;
    for (int i = 0; i < p->n; i++)
        right_side[i] *= sparse->scale[i];
    klu_solve(p->symbolic, sparse->numeric, p->n, 1, right_side, &sparse->common);
}
