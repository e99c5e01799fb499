/* SPDX-License-Identifier: MIT */
/* Floor 9: a plant that is made by answering questions, and one that is changed value by value while the answers
 * follow. No file is read or written here. */
#ifndef FARVESSEL_DESK_H
#define FARVESSEL_DESK_H

#include "farvessel/base.h"
#include "farvessel/plantfile.h"
#include "farvessel/units.h"

FV_C_BEGIN

/* The questions, in the order in which they are asked. */
typedef enum {
    FV_NEW_UNITS,
    FV_NEW_BOILER,
    FV_NEW_HEADER,
    FV_NEW_VESSELS,
    FV_NEW_HOSE,
    FV_NEW_COIL,
    FV_NEW_LOAD,
    FV_NEW_WALLS,
    FV_NEW_QUESTIONS
} fv_new_question;

typedef struct {
    const char *name;     /* "boiler", as the option --boiler */
    const char *question; /* in a grower's words */
    const char *parts;    /* what an answer holds, in its order */
    const char *example;  /* in the units asked for; also what is taken where nobody knows */
} fv_new_words;
fv_new_words fv_new_words_of(fv_new_question question, fv_unit_system units);

typedef struct fv_new fv_new;
/* Nothing is known yet; `title` may be NULL. NULL: out of memory. */
fv_new *fv_new_begin(const char *title);
void fv_new_free(fv_new *plant);
/* Takes an answer: parts joined by commas ("19 mm, 3 m, 9 m"), or numbers alone joined by blanks, in the units that the
 * question names ("19 3 9"). Empty: nobody knows; the example is taken and marked as a guess. FV_FAIL: nothing changes,
 * and what is wrong is in faults, one line. */
fv_status fv_new_answer(fv_new *plant, fv_new_question question, const char *text, fv_faults *faults);
fv_unit_system fv_new_units(const fv_new *plant);
/* Adds the plant file: commented, as a person would write it. Questions without an answer count as not known. */
void fv_new_write(const fv_new *plant, fv_text *out);

/* ---- a session: the file as it was found, a list of changes on top of it, and the answers ---- */
typedef struct fv_desk fv_desk;
typedef struct {
    fv_unit_system units;
    bool units_of_plant; /* where the plant says in which; else trade sizes follow `units`, too */
    double clock;        /* s after midnight at which the run starts; NaN: times count from the start */
    bool twelve_hours;
    const char *date; /* as on a report; NULL: none */
    /* Keeps the plant file where Save puts it. NULL: it cannot be saved here. */
    fv_status (*keep)(void *context, const char *bytes, size_t length, fv_faults *faults);
    void *context;
    const fv_progress *progress; /* of what is asked for by do=ask; NULL: none */
    bool unanswered;             /* each state is read and checked, but nothing is solved, and there is no page */
} fv_desk_options;

/* `bytes`: the plant file as it stands; NULL: there is none yet, the page asks the eight questions, and what they make
 * is not saved. NULL: said in `faults`. The options' date must outlive it. */
fv_desk *fv_desk_new(const char *bytes, size_t length, const char *name, const fv_desk_options *options,
                     fv_faults *faults);
void fv_desk_free(fv_desk *desk);

/* Changes one attribute; NULL or blanks alone take it out. FV_FAIL: said in `faults`, nothing changed: what the reader
 * refuses, and a plant that has no solution. Back to what stands there without it is a change taken back. */
fv_status fv_desk_set(fv_desk *desk, const char *part, const char *attribute, const char *value, fv_faults *faults);
/* Takes back one change, the newest command, or all; does again what was undone. FV_FAIL: there is no such thing. */
fv_status fv_desk_take_back(fv_desk *desk, size_t change, fv_faults *faults);
fv_status fv_desk_undo(fv_desk *desk, fv_faults *faults);
fv_status fv_desk_redo(fv_desk *desk, fv_faults *faults);
size_t fv_desk_change_count(const fv_desk *desk);
const fv_edit *fv_desk_change(const fv_desk *desk, size_t i); /* its first edit; belongs to the desk; NULL: none */

/* Parts that come and go, each one change. Names are those of the plant; the new parts' follow on them. What cannot be
 * is refused as above. */
/* A vessel like another, on a hose like a line (NULL or "": the one that the vessel hangs on), `far` further along a
 * header like the one that ends there (NULL or "": at the same joint). */
fv_status fv_desk_add_vessel(fv_desk *desk, const char *like, const char *hose, const char *far, fv_faults *faults);
/* A valve of a type into a line. */
fv_status fv_desk_put_valve(fv_desk *desk, const char *type, const char *line, fv_faults *faults);
/* A header, pipe or hose between two joints; one that is not there yet is a new end. */
fv_status fv_desk_join(fv_desk *desk, const char *sort, const char *from, const char *to, const char *bore,
                       const char *length, fv_faults *faults);
/* A vessel goes with the lines that would then lead nowhere, and any part with the probes and meters on it. What
 * another part is like stays. */
fv_status fv_desk_take_away(fv_desk *desk, const char *part, fv_faults *faults);

/* The plant file as it now is: what was found, with the changes at their places. Belongs to the desk. */
const char *fv_desk_text(const fv_desk *desk, size_t *length);
bool fv_desk_unsaved(const fv_desk *desk); /* it differs from what was last kept */
fv_status fv_desk_save(fv_desk *desk, fv_faults *faults);

/* Adds the whole page: the report with a place to write in, or (`plain`) the report alone. */
fv_status fv_desk_page(fv_desk *desk, bool plain, fv_text *out);
/* The same page with the desk itself in it, which needs no server: `engine` is the script that `make web` makes. */
fv_status fv_desk_live(fv_desk *desk, const char *engine, fv_text *out);
/* Does what a form asks for, as browsers send it: do=set&part=s1&attribute=bore&value=25+mm, do=back&change=0, do=undo,
 * do=redo, do=save, do=add&like=bench6&hose=s6&far=2+m, do=put&what=ball-valve&into=s2,
 * do=join&line=header&from=t6&to=t1&bore=35+mm&length=8+m, do=away&part=bench3, do=ask&what=why (size, carry,
 * plan, odds, week), do=try&proposal=0 of what that proposed, do=effects (what each change does
 * alone; &all=yes, or one that is not known yet), and where there is no plant yet do=new&boiler=24+kW with the
 * questions' names; seen=VERSION tells which state the asker looked at, and one that is not the latest is refused. Adds
 * JSON:
 * {"version":2,"refused":"why, or empty","unsaved":true,"fragments":[{"id":"answer","html":"<section ..."}]}, the
 * sections of the page that differ from those of the page last given out. FV_FAIL: out of memory. */
fv_status fv_desk_do(fv_desk *desk, const char *form, size_t length, fv_text *out);
/* The same JSON without doing anything. */
fv_status fv_desk_answer(fv_desk *desk, fv_text *out);
/* Adds what the page has under a name: "" itself, "report.html", "plant.xml", and "do", what a form asks for. FV_FAIL:
 * out of memory, or nothing is called so. */
fv_status fv_desk_give(fv_desk *desk, const char *name, const char *form, size_t length, fv_text *out);

FV_C_END

#endif
