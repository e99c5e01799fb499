/* SPDX-License-Identifier: MIT */
/* What a grower's hands can do: valves set before the fire is lit and turned once a vessel is full or its core is
 * there, washers where a hose has no valve, starts by the clock. Each is a knob with places that a hand can find again;
 * place 0 leaves it as the plant has it. One place for every knob is a handling. */
#ifndef STUDY_HANDLING_H
#define STUDY_HANDLING_H

#include "study/settings.h"
#include "study/ways.h"

#define STUDY_START_STEP 900.0 /* s between two places of a start */
#define STUDY_WALK 3.0         /* minutes for what is done in the course of the run; common practice, no source */

typedef enum {
    STUDY_KNOB_OPEN,    /* valve, before lighting */
    STUDY_KNOB_WASHER,  /* drilled washer at the end of a hose without a valve */
    STUDY_KNOB_START,   /* the vessel's steam is opened by the clock */
    STUDY_KNOB_AT_FULL, /* its valve once it is full of steam */
    STUDY_KNOB_AT_CORE  /* its valve once its core is there */
} study_knob_kind;

typedef struct {
    study_knob_kind kind;
    size_t vessel;
    const char *path, *attribute; /* of the setting; NULL for what is done in the course of the run */
    const char *part;             /* id of valve, hose or vessel */
    double now;                   /* opening, hole in m, or start in s, as the plant has it */
    double bore;                  /* of the line, m */
    int places;                   /* 0 to places - 1 */
} study_knob;

typedef struct {
    const fv_plant *plant;
    study_knob *knobs;
    size_t count;
} study_handling;

/* What it takes to do something. */
typedef struct {
    double money;   /* NaN: no price known */
    double minutes; /* of work, before and during the run */
    size_t before;  /* things set before the fire is lit */
    size_t during;  /* things done in the course of the run */
    size_t broken;  /* limits that the owner of a search has set for itself */
} study_effort;

/* Knobs of all vessels that are not shut. In `arena`; false: out of memory. The plant must outlive it. */
bool study_handling_open(study_handling *handling, const fv_plant *plant, const study_ways *ways, fv_arena *arena);
/* The opening (share), hole (m) or start (s) that a place means; place 0: as it is, of a washer the line's bore. */
double study_knob_value(const study_knob *knob, int place);
/* Adds what makes this handling; what is so already is left out. */
void study_handling_settings(const study_handling *handling, const int *point, study_settings *settings);
/* Whether this knob changes anything at all in this handling. */
bool study_handling_turns(const study_handling *handling, const int *point, size_t knob);
study_effort study_handling_effort(const study_handling *handling, const int *point);
void study_effort_add(study_effort *effort, const study_effort *more);
/* The vessel's knob of a kind; -1: it has none. */
int study_knob_find(const study_handling *handling, study_knob_kind kind, size_t vessel);
/* The place whose value is nearest. */
int study_knob_place(const study_knob *knob, double value);

#endif
