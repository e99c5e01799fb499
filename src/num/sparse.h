/* SPDX-License-Identifier: MIT */
/* Floor 1: sparse linear systems. SuiteSparse KLU stays behind this header.
 *
 * A pattern is collected once by naming entries (row, column) in the order in which they will later be filled; entries
 * that meet in one place are added. The pattern and its symbolic factorisation are read-only afterwards and may be
 * shared by threads; each thread owns an num_sparse with the numbers. */
#ifndef NUM_SPARSE_H
#define NUM_SPARSE_H

#include "farvessel/base.h"

typedef struct num_pattern num_pattern;
typedef struct num_sparse num_sparse;

/* entries: rows[i], cols[i] for i < count, 0 <= both < n. NULL: out of memory, or the pattern is structurally singular,
 * and then *singular_row (may be NULL) is a row that cannot be matched, else -1. */
num_pattern *num_pattern_new(int n, const int *rows, const int *cols, size_t count, int *singular_row);
void num_pattern_free(num_pattern *pattern);
size_t num_pattern_nonzeros(const num_pattern *pattern);

num_sparse *num_sparse_new(const num_pattern *pattern);
void num_sparse_free(num_sparse *sparse);
/* Takes the entries' values in the order of the pattern and factorises: reuses the last pivot order while it stays well
 * conditioned, else pivots anew. FV_FAIL: singular; *singular_column is then a column without a pivot. */
fv_status num_sparse_factor(num_sparse *sparse, const double *values, int *singular_column);
/* Whether the last factorisation failed for want of memory. */
bool num_sparse_out_of_memory(const num_sparse *sparse);
/* Solves in place with the last factors. */
void num_sparse_solve(num_sparse *sparse, double *right_side);

#endif
