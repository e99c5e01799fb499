/* SPDX-License-Identifier: MIT */
/* GSL's default error handler ends the process; here errors are values. Called before anything of GSL that may fail:
 * the first call in a process switches the handler off. */
#ifndef NUM_QUIET_H
#define NUM_QUIET_H

void num_quiet(void);

#endif
