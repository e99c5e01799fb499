/* SPDX-License-Identifier: MIT */
#ifndef STEADY_COMPILE_H
#define STEADY_COMPILE_H

#include "steady/network.h"

/* net->plant and net->sat are set; fills the rest but the pattern. false: out of memory. */
bool steady_compile(fv_network *net);

#endif
