/* SPDX-License-Identifier: MIT */
/* Floor 6: a change of a plant as a list of settings, so that whatever a study recommends can be run again, exactly,
 * by anyone: `--set "s6.bore=25 mm"`. */
#ifndef FARVESSEL_CHANGE_H
#define FARVESSEL_CHANGE_H

#include "farvessel/model.h"

typedef struct {
    const char *path;      /* as in fv_plant_find: "s6", "bin1.coil", "bin1.wall2" */
    const char *attribute; /* "bore" */
    double si;             /* words: their index */
} fv_setting;

typedef struct {
    fv_setting *settings;
    size_t count;
} fv_change;

/* Makes all settings, then links the plant once. FV_FAIL: said in faults; the plant is then not to be used further. */
fv_status fv_change_apply(const fv_change *change, fv_plant *plant, fv_faults *faults);
/* A changed copy, linked; the plant itself is untouched. NULL: said in faults. */
fv_plant *fv_change_copy(const fv_change *change, const fv_plant *plant, fv_faults *faults);
/* Adds one setting as `--set` takes it, "s6.bore=25 mm"; reading it gives the same value bit for bit. False: no such
 * part or attribute in the plant, no such number, or no memory. */
bool fv_setting_write(const fv_setting *setting, const fv_plant *plant, fv_text *out);

#endif
