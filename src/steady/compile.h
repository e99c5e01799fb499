/* SPDX-License-Identifier: MIT */
#ifndef FV_STEADY_COMPILE_H
#define FV_STEADY_COMPILE_H

#include "steady/network.h"

/* net->plant and net->sat are set; fills the rest but the pattern. false: out of memory. */
bool fv_compile(fv_network *net);

#endif
