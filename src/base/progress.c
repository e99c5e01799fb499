/* SPDX-License-Identifier: MIT */
#include "farvessel/base.h"

bool fv_progress_tick(const fv_progress *progress, double share, const char *what)
{
    return !progress || !progress->tick || progress->tick(progress->context, share, what);
}
