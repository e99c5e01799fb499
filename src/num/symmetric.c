/* SPDX-License-Identifier: MIT */
/* By GSL: reduction to a tridiagonal matrix and symmetric QR (G. H. Golub and C. F. Van Loan, Matrix
 * Computations, 8.3).
 */
#include "num/symmetric.h"

#include <gsl/gsl_eigen.h>
#include <stdlib.h>

struct num_symmetric {
    size_t n;
    gsl_eigen_symmv_workspace *work;
};

num_symmetric *num_symmetric_new(int n)
{
    num_symmetric *room = calloc(1, sizeof *room);
    if (!room)
        return NULL;
    room->n = (size_t)n;
    room->work = gsl_eigen_symmv_alloc(room->n);
    if (room->work)
        return room;
    free(room);
    return NULL;
}

void num_symmetric_free(num_symmetric *room)
{
    if (!room)
        return;
    gsl_eigen_symmv_free(room->work);
    free(room);
}

void num_symmetric_eigen(num_symmetric *room, double *matrix, double *values, double *vectors)
{
    gsl_matrix_view a = gsl_matrix_view_array(matrix, room->n, room->n);
    gsl_matrix_view v = gsl_matrix_view_array(vectors, room->n, room->n);
    gsl_vector_view d = gsl_vector_view_array(values, room->n);
    gsl_eigen_symmv(&a.matrix, &d.vector, &v.matrix, room->work);
}
