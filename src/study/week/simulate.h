/* SPDX-License-Identifier: MIT */
/* One week's choice of batches, carried out: every task as soon as it can be. */
#ifndef STUDY_WEEK_SIMULATE_H
#define STUDY_WEEK_SIMULATE_H

#include "farvessel/week.h"

enum { WEEK_BATCHES_MOST = 64 };

/* Which batches in which order, by their place in the problem's list, each lit as soon as it can be; those that the
 * week has no time for are not. `order`: to which task hands that are free go first, one of WEEK_ORDERS. */
enum { WEEK_ORDERS = 24 };
typedef struct {
    unsigned char size[WEEK_BATCHES_MOST]; /* which: where there are no kinds, of how many vessels */
    size_t count;
    size_t order;
} week_choice;

typedef struct week_room week_room;
/* NULL: out of memory. */
week_room *week_room_new(const fv_week_problem *problem);
void week_room_free(week_room *room);

typedef struct {
    bool repeats; /* the last two weeks are alike, so that it can go on for ever */
    double kg, fuel, crew_slots;
    size_t batches, steam_slots;
} week_outcome;
/* Starts with all vessels clean and empty and goes through some weeks. */
week_outcome week_simulate(week_room *room, const week_choice *choice);
/* From now on simulations begin where the stand is, after weeks of that choice, and end with that week; they `repeat`
 * always. near: how many of its batches are lit before that one. False: the choice does not repeat. */
bool week_stand(week_room *room, const week_choice *week, size_t near, const fv_week_stand *stand);
/* Vessels of a kind at its beginning: being hung on or hung, on the steam or hot, taken off or being so. */
void week_begins(const week_room *room, size_t kind, size_t *hung, size_t *hot, size_t *off);
/* What was done in the last week of the last simulation, by slot. */
size_t week_entries(const week_room *room, const fv_week_entry **entries);

#endif
