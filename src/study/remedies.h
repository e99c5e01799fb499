/* SPDX-License-Identifier: MIT */
/* What could be done for one vessel: the list, before any of it is tried. */
#ifndef STUDY_REMEDIES_H
#define STUDY_REMEDIES_H

#include "farvessel/why.h"
#include "study/sizes.h"
#include "study/ways.h"

typedef struct {
    const fv_plant *plant;
    const study_ways *ways;
    size_t target;
    const bool *faster; /* by vessel: has its core clearly before the target */
    const double *vent; /* by vessel, m: what its vent should be; NaN: wide enough; NULL: of all */
    fv_arena *arena;
    fv_why_remedy *list; /* in the arena */
    size_t count, capacity, settings_capacity;
    bool open;   /* the last remedy is being put together */
    bool failed; /* out of memory */
} study_remedies;

/* Starts a remedy; settings follow. Its cost is cost[kind of effort]: 0 where nothing is bought. */
void study_remedy_begin(study_remedies *r, fv_remedy_kind kind, fv_effort effort);
/* Adds a setting of the part `path` printed from the format; `from`: the value now, NaN: none. Only the first setting's
 * values become the remedy's from and to. `part`: the id that people know it by. */
void study_remedy_set(study_remedies *r, const char *part, double from, double to, const char *attribute,
                      const char *format, ...) FV_PRINTF(6, 7);
/* All of a change found elsewhere, which lives as long as the list's arena, with the work that it takes. */
void study_remedy_take(study_remedies *r, const fv_change *change, double minutes);
/* Adds to what it costs; NaN: not known. */
void study_remedy_cost(study_remedies *r, double cost);
void study_remedy_size(study_remedies *r, const study_size *size);
/* Keeps the remedy, or drops it where it has no settings. */
void study_remedy_end(study_remedies *r);

/* What hands do is searched for itself; less load is no way to treat what is there. */
bool study_remedy_is_move(fv_remedy_kind kind);
/* What it costs; glue, tape and a few fittings count as nothing where their price is not known, what has to be bought
 * is NaN then. */
double study_remedy_money(const fv_why_remedy *remedy);

/* By vessel, m, in whole millimetres: vents for chambers whose highest pressure, Pa, lifts the lid; of those that are
 * like others the widest of these; NaN: wide enough. NULL: out of memory. */
const double *study_vents_wanted(const fv_plant *plant, const double *pressures, fv_arena *arena);

/* remedies_lines.c, remedies_vessels.c */
void study_remedies_of_lines(study_remedies *r);
void study_remedies_of_vessels(study_remedies *r);

/* remedies_list.c: all of them; false: out of memory. */
bool study_remedies_list(study_remedies *r);
/* What can be done once and without a shop, no vessel moved, for the vessel that is latest (-1: the first) and for all
 * that have the same fault. */
bool study_works_list(fv_arena *arena, const fv_plant *plant, int latest, study_remedies *works);

#endif
