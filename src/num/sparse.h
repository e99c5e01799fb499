/* SPDX-License-Identifier: MIT */
/* Floor 1: sparse linear systems. SuiteSparse KLU stays behind this header.
 *
 * A pattern is collected once by naming entries (row, column) in the order in which they will later be filled; entries
 * that meet in one place are added. The pattern and its symbolic factorisation are read-only afterwards and may be
 * shared by threads; each thread owns an fv_sparse with the numbers. */
#ifndef FV_NUM_SPARSE_H
#define FV_NUM_SPARSE_H

#include "farvessel/base.h"

typedef struct fv_pattern fv_pattern;
typedef struct fv_sparse fv_sparse;

/* entries: rows[i], cols[i] for i < count, 0 <= both < n. NULL: out of memory, or the pattern is structurally singular,
 * and then *singular_row (may be NULL) is a row that cannot be matched, else -1. */
fv_pattern *fv_pattern_new(int n, const int *rows, const int *cols, size_t count, int *singular_row);
void fv_pattern_free(fv_pattern *pattern);
size_t fv_pattern_nonzeros(const fv_pattern *pattern);

fv_sparse *fv_sparse_new(const fv_pattern *pattern);
void fv_sparse_free(fv_sparse *sparse);
/* Takes the entries' values in the order of the pattern and factorises: reuses the last pivot order while it stays well
 * conditioned, else pivots anew. FV_FAIL: singular; *singular_column is then a column without a pivot. */
fv_status fv_sparse_factor(fv_sparse *sparse, const double *values, int *singular_column);
/* Whether the last factorisation failed for want of memory. */
bool fv_sparse_out_of_memory(const fv_sparse *sparse);
/* Solves in place with the last factors. */
void fv_sparse_solve(fv_sparse *sparse, double *right_side);

#endif
