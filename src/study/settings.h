/* SPDX-License-Identifier: MIT */
/* Lists of settings that grow, and the fewest settings that give parts the values wished for them. */
#ifndef STUDY_SETTINGS_H
#define STUDY_SETTINGS_H

#include "farvessel/change.h"

typedef struct {
    fv_change change; /* what has been gathered; in the arena */
    fv_arena *arena;  /* of paths and list */
    size_t capacity, action_capacity;
    bool unsayable; /* a wish that no setting can express */
    bool failed;    /* that, or out of memory */
} study_settings;

/* Shuts all vessels of a plant of one's own but its first so many, and links it. FV_FAIL: said; it has fewer. */
fv_status study_keep_vessels(fv_plant *plant, size_t count, fv_faults *faults);

/* A linked plant that was taken as it was has its packing: what a smaller vessel or larger pieces leave of the room is
 * no reason to ask for it. */
void study_keep_packing(fv_plant *plant);

void study_settings_open(study_settings *settings); /* failed where memory is out */
void study_settings_free(study_settings *settings);
void study_setting_add(study_settings *settings, const char *path, const char *attribute, double si);
/* Texts are copied. */
void study_action_add(study_settings *settings, const fv_change_action *action);
/* Whether two changes set the same attribute of the same part. */
bool study_changes_meet(const fv_change *a, const fv_change *b);
/* All of a change. */
void study_change_add(study_settings *settings, const fv_change *change);

/* One value of the coils of all vessels: wish[i] for vessel i, NaN: as it is. A kind gets the setting where all that
 * take after it wish the same; who takes after a changed part and wishes to stay is given its present value. */
void study_wish_coils(study_settings *settings, const fv_plant *plant, const char *attribute, const double *wish);
/* The holes that a vessel names one by one, all with this drill. */
void study_wish_listed_holes(study_settings *settings, const fv_plant *plant, size_t vessel, double drill);
/* Bores of all lines, NaN: as it is. Barbs and unions that are narrower than their line are exchanged with it and keep
 * their share of its bore, to the next half millimetre. */
void study_wish_bores(study_settings *settings, const fv_plant *plant, const double *wish);

#endif
