/* SPDX-License-Identifier: MIT */
/* Samples at regular times. Private to this folder. */
#ifndef FARVESSEL_HEATUP_SERIES_H
#define FARVESSEL_HEATUP_SERIES_H

#include "heatup/state.h"

bool heatup_series_open(heatup_run *run);
bool heatup_series_add(heatup_run *run, double dt); /* samples that fall into the step that chambers have just taken */
/* The step is taken: its means are those that the next one runs on from. */
void heatup_note_means(heatup_run *run, double dt);
bool heatup_series_close(heatup_run *run);

#endif
