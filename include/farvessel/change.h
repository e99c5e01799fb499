/* SPDX-License-Identifier: MIT */
/* Floor 6: a change of a plant as a list of settings and of things to be done in the course of the run, so that
 * whatever a study recommends can be run again, exactly, by anyone: `--set "s6.bore=25 mm" --do "bin1 core: v1 25 %"`.
 */
#ifndef FARVESSEL_CHANGE_H
#define FARVESSEL_CHANGE_H

#include "farvessel/model.h"

FV_C_BEGIN

typedef struct {
    const char *path;      /* as in fv_plant_find: "s6", "bin1.coil", "bin1.wall2" */
    const char *attribute; /* "bore" */
    double si;             /* words: their index */
} fv_setting;

/* An <action> that is added: after an event or by the clock, one thing is touched. */
typedef struct {
    const char *after;                   /* "bin1 core"; NULL: by the clock */
    double at;                           /* s after the event, or after the start of the run */
    const char *boiler, *valve, *vessel; /* one of them; the others NULL */
    double value;                        /* fire or opening, 0 to 1; of a vessel an fv_vessel_act */
} fv_change_action;

typedef struct {
    fv_setting *settings;
    size_t count;
    fv_change_action *actions;
    size_t action_count;
} fv_change;

/* How near a plan stands to missing a vessel's time: what does most harm of what hands may miss, one at a time. A valve
 * that is neither wide open nor shut, 5 points or a tenth of its opening off; a start or a turn 10 min late. */
typedef enum { FV_SLIP_NONE, FV_SLIP_NARROWER, FV_SLIP_WIDER, FV_SLIP_LATER } fv_slip_kind;
typedef struct {
    fv_slip_kind kind;         /* none: nothing can be missed, or that is not known */
    const char *part, *vessel; /* the valve; of what is late the vessel; ids */
    const char *after;         /* event that it waits for; NULL: before lighting, or by the clock */
    double from, to;           /* opening as planned and missed; of what is late s */
    size_t valves, others;     /* how many slips of valves were followed, and of what is done by the clock */
    size_t late;               /* vessels out of their time, or with a broken hold, that would not be; 0: none may */
    bool lifts;                /* a lid or a relief valve lifts, or a boiler runs dry, that would not */
    int last;                  /* the vessel that is late or loses its hold, else the last */
    double core;               /* s, its core; INFINITY: never */
    bool breaks;               /* its core is in time, its hold is not kept */
    double walls;              /* of the heat that it gets, what its walls take; NaN: not known */
    bool others_full;          /* all others are full of steam long before it, and vent from then on what it lacks */
} fv_slip;
const char *fv_slip_word(fv_slip_kind kind); /* "none", "narrower", "wider", "later" */

/* Makes all settings and adds all actions, then links the plant once. FV_FAIL: said in faults; the plant is then not to
 * be used further. */
fv_status fv_change_apply(const fv_change *change, fv_plant *plant, fv_faults *faults);
/* A changed copy, linked; the plant itself is untouched. NULL: said in faults. */
fv_plant *fv_change_copy(const fv_change *change, const fv_plant *plant, fv_faults *faults);
/* Adds one setting as `--set` takes it, "s6.bore=25 mm"; reading it gives the same value bit for bit. False: no such
 * part or attribute in the plant, no such number, or no memory. */
bool fv_setting_write(const fv_setting *setting, const fv_plant *plant, fv_text *out);
/* Adds one action as `--do` takes it, "bin1 core: v1 25 %"; reading it gives the same value bit for bit. False: no
 * such number, or no memory. */
bool fv_change_action_write(const fv_change_action *action, fv_text *out);

FV_C_END

#endif
