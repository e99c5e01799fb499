/* SPDX-License-Identifier: MIT */
/* GSL's default error handler ends the process; here errors are values. Called before anything of GSL that may fail. */
#ifndef NUM_QUIET_H
#define NUM_QUIET_H

#include <gsl/gsl_errno.h>

static inline void num_quiet(void)
{
    gsl_set_error_handler_off();
}

#endif
