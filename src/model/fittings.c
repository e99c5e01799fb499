/* SPDX-License-Identifier: MIT */
/* Fittings and valves by name. K = n f_T with f_T the friction factor of the fully rough line of that bore (Crane
 * TP-410, pages; gate valve and swing check seen in print, the rest from memory), or K as it is. The
 * valve's curve numbers are those of fv_valve_curve in flow.h, which this floor does not include; a test compares. */
#include "model/schema.h"

#include <math.h>
#include <string.h>

enum { LINEAR, EQUAL_PERCENT, QUICK, BALL };

#define TP410 "Crane TP-410, from memory"
#define NOT NAN

static const fv_fitting_entry table[] = {
    {"elbow", 30.0, NOT, false, 0, TP410 ", standard threaded elbow 90 deg"},
    {"elbow-45", 16.0, NOT, false, 0, TP410 ", standard threaded elbow 45 deg"},
    {"return-bend", 50.0, NOT, false, 0, TP410 ", close return bend"},
    {"bend-1d", 20.0, NOT, false, 0, TP410 ", bend 90 deg, radius 1 diameter"},
    {"bend-1.5d", 14.0, NOT, false, 0, TP410 ", bend 90 deg, radius 1.5 diameters"},
    {"bend-2d", 12.0, NOT, false, 0, TP410 ", bend 90 deg, radius 2 diameters"},
    {"bend-3d", 12.0, NOT, false, 0, TP410 ", bend 90 deg, radius 3 diameters"},
    {"bend-4d", 14.0, NOT, false, 0, TP410 ", bend 90 deg, radius 4 diameters"},
    {"bend-6d", 17.0, NOT, false, 0, TP410 ", bend 90 deg, radius 6 diameters"},
    {"bend-8d", 24.0, NOT, false, 0, TP410 ", bend 90 deg, radius 8 diameters"},
    {"bend-10d", 30.0, NOT, false, 0, TP410 ", bend 90 deg, radius 10 diameters"},
    {"tee-run", 20.0, NOT, false, 0, TP410 ", tee, straight through; constant, where no <tee> is declared"},
    {"tee-branch", 60.0, NOT, false, 0, TP410 ", tee, through the branch; constant, where no <tee> is declared"},
    {"check-valve", 100.0, NOT, false, 0, "Crane TP-410, swing check"},
    {"check-valve-straight", 50.0, NOT, false, 0, TP410 ", swing check, straight pattern"},
    {"entry", NOT, 0.5, false, 0, "flush sharp entry, Crane TP-410; Unwin 1911: 0.505"},
    {"entry-projecting", NOT, 0.78, false, 0, TP410 ", inward projecting entry"},
    {"entry-rounded", NOT, 0.04, false, 0, TP410 ", entry rounded by 0.15 diameter or more"},
    {"exit", NOT, 1.0, false, 0, "the whole velocity head, Borda-Carnot"},
    {"gate-valve", 8.0, NOT, true, QUICK, "Crane TP-410; the curve: common practice"},
    {"globe-valve", 340.0, NOT, true, LINEAR, TP410 "; the curve: common practice"},
    {"angle-valve", 150.0, NOT, true, LINEAR, TP410 "; the curve: common practice"},
    {"ball-valve", 3.0, NOT, true, BALL, TP410 "; the curve: common practice"},
    {"plug-valve", 18.0, NOT, true, BALL, TP410 "; the curve: common practice"},
    {"butterfly-valve", 45.0, NOT, true, EQUAL_PERCENT, TP410 ", 2 to 8 in; the curve: common practice"},
};

const fv_fitting_entry *fv_fittings(size_t *count)
{
    if (!count)
        return NULL;
    *count = sizeof table / sizeof *table;
    return table;
}

const fv_fitting_entry *fv_fitting_find(const char *name)
{
    if (!name)
        return NULL;
    for (size_t i = 0; i < sizeof table / sizeof *table; i++)
        if (strcmp(table[i].name, name) == 0)
            return &table[i];
    return NULL;
}

const fv_fitting_entry *fv_fitting_entry_of(const fv_fitting *fitting)
{
    if (!fitting)
        return NULL;
    if (fitting->kind == FV_FITTING_VALVE)
        return fv_fitting_find(fitting->type ? fitting->type : "ball-valve");
    return fitting->kind == FV_FITTING_TYPE && fitting->type ? fv_fitting_find(fitting->type) : NULL;
}
