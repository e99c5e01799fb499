/* SPDX-License-Identifier: MIT */
/* A run that is followed only while it can still bring what is asked of it. Private to this folder. */
#ifndef FARVESSEL_HEATUP_GIVE_UP_H
#define FARVESSEL_HEATUP_GIVE_UP_H

#include "heatup/state.h"

/* Whether too many cores cannot be there in time, whatever steam they get from here on. */
bool heatup_gives_up(heatup_run *run);

#endif
