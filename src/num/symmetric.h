/* SPDX-License-Identifier: MIT */
/* Eigenvalues and eigenvectors of small symmetric matrices. */
#ifndef FARVESSEL_NUM_SYMMETRIC_H
#define FARVESSEL_NUM_SYMMETRIC_H

/* Room for matrices of n rows. */
typedef struct num_symmetric num_symmetric;

num_symmetric *num_symmetric_new(int n); /* NULL: out of memory */
void num_symmetric_free(num_symmetric *room);
/* matrix (n by n, only its lower triangle is read, all is overwritten) = V diag(values) V^T; `vectors` is V by rows.
 * The eigenvalues are in no order. */
void num_symmetric_eigen(num_symmetric *room, double *matrix, double *values, double *vectors);

#endif
