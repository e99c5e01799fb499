/* SPDX-License-Identifier: MIT */
/* Floor 6: what a vessel's openings must pass at the worst: as the last one open it gets all the steam there is, and
 * what it takes up vanishes at once when its steam is shut while the load still takes it. Of more than twelve vessels
 * only the first that is like a kind is worked out, and of these the twelve with the smallest openings. */
#ifndef FARVESSEL_LID_H
#define FARVESSEL_LID_H

#include "farvessel/steady.h"

FV_C_BEGIN

#define FV_LID_PRESSURE 200.0 /* Pa: vents are sized for 1 to 2 mbar with all steam in one vessel; common practice */
#define FV_LID_VACUUM 1000.0  /* Pa: what thin sheet and lids bear; common practice, no source */

/* Whether there was anything to work out. */
typedef enum {
    FV_LID_SHUT,       /* its steam is shut: nothing is known */
    FV_LID_LIKE,       /* the first of its kind, or twelve with smaller openings, were worked out instead */
    FV_LID_WIDE,       /* its openings pass all that the boilers could ever give */
    FV_LID_NO_BALANCE, /* no solution was found with all the steam on it */
    FV_LID_SOLVED
} fv_lid_found;

typedef struct {
    double steam;    /* kg/s that reach it with all others shut, its walls soaked through and its load full */
    double pressure; /* Pa gauge in its chamber then */
    double lifts;    /* kg that this lifts, on each square metre of lid */
    double vent; /* m: diameter that its vent needs for FV_LID_PRESSURE; NaN: enough as it is, or none up to 1 m does */
    double vanishes;     /* m3/s of steam that the load condenses when it is shut while it still takes all that came */
    double let_in;       /* m3/s of air that its openings let in at FV_LID_VACUUM */
    double vacuum;       /* Pa below the air that draws in as much as vanishes; INFINITY: no opening */
    double breaker;      /* m: diameter of a further opening that keeps it to FV_LID_VACUUM; NaN: enough as it is */
    fv_lid_found found;  /* all numbers are NaN but where it is FV_LID_SOLVED */
    bool vent_too_small; /* the pressure is over FV_LID_PRESSURE by more than a tenth of that common practice */
    bool air_too_little; /* the vacuum is over FV_LID_VACUUM */
} fv_lid_row;

typedef struct fv_lid_answer {
    const fv_plant *plant;
    fv_lid_row *vessels; /* one for each vessel of the plant */
} fv_lid_answer;

/* NULL: out of memory, said in faults. A plant without a solution is no failure: `found` says so. */
fv_lid_answer *fv_lid_run(const fv_plant *plant, fv_faults *faults);
void fv_lid_free(fv_lid_answer *answer);
/* The same as cautions at the vessels' lines, for those whose openings are too small. */
void fv_lid_remarks(const fv_lid_answer *answer, fv_faults *faults);

FV_C_END

#endif
