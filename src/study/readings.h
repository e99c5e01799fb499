/* SPDX-License-Identifier: MIT */
/* A log's channels as readings of the plant's probes: corrected for offsets that are known, and cleaned. */
#ifndef STUDY_READINGS_H
#define STUDY_READINGS_H

#include "farvessel/log.h"

typedef struct {
    fv_probe_readings *list;
    size_t count;
} study_readings;

/* With a plant the probes that it names, without one every channel of temperatures. boiling: K; NaN: not known. In
 * arena. FV_FAIL: said in faults. */
fv_status study_readings_find(const fv_plant *plant, const fv_logfile *log, double boiling, fv_arena *arena,
                              study_readings *out, fv_faults *faults);

/* Adds the plant's gauges, and, where `ended` is the last reading of the whole run and not NaN, its meters. FV_FAIL:
 * said in faults. */
fv_status study_readings_instruments(const fv_plant *plant, const fv_logfile *log, double ended, fv_arena *arena,
                                     study_readings *out, fv_faults *faults);

/* ---- clean.c ---- */
void study_readings_clean(study_readings *readings, double boiling);

/* ---- probe_error.c: tolerance of a class, K at a temperature K; IEC 60584-1:2013 (types K, T), IEC 60751:2008 ---- */
double study_probe_tolerance(fv_probe_type type, fv_probe_class class, double temperature);
/* Fills offset, error and reach of a probe. */
void study_probe_error(const fv_probe *probe, fv_probe_readings *out);

#endif
