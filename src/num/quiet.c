/* SPDX-License-Identifier: MIT */
#include "num/quiet.h"

#include <gsl/gsl_errno.h>
#include <pthread.h>

static void switch_off(void)
{
    gsl_set_error_handler_off();
}

/* The handler belongs to the whole process, so it is written once and not by every thread. */
void num_quiet(void)
{
    static pthread_once_t once = PTHREAD_ONCE_INIT;
    pthread_once(&once, switch_off);
}
