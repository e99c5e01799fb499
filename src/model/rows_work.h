/* SPDX-License-Identifier: MIT */
/* The working week: who is there, what is to be done, what may run by itself, what things cost. */
#include "model/rows.h"

static const fv_attr work_rows[] = {
    {"unattended", FV_DIM_WORD, offsetof(fv_work, unattended), false, 0.0, NO_LIMIT, "nothing|hold|all",
     "what of a batch may go on with nobody there: nothing, the hold once the last core is there, or all but the "
     "lighting; a fire only where fire=\"unattended\" stands beside it; default nothing"},
    {"fire", FV_DIM_WORD, offsetof(fv_work, fire), false, 0.0, NO_LIMIT, "attended|unattended",
     "whether a boiler that burns may be left alone; default attended, whatever else is said"},
    {"wish", FV_DIM_MASS, offsetof(fv_work, wish), false, NONE, 0.0, 1e7, NO_OPINION, NULL,
     "to be treated in a week; not said: as much as can be"},
    {"interest", FV_DIM_FRACTION, offsetof(fv_work, interest), false, 0.05, 0.0, 1.0, NO_OPINION, NULL,
     "a year, for the present value of what a change saves; default 5 %, common practice"},
};

static const fv_attr crew_rows[] = {
    {"days", FV_DIM_TEXT, offsetof(fv_crew, days), true, NONE, NO_LIMIT, NULL,
     "days of the week: mon tue wed thu fri sat sun, alone, \"mon-sat\" or \"mon,wed,fri\""},
    {"from", FV_DIM_TEXT, offsetof(fv_crew, from), true, NONE, NO_LIMIT, NULL,
     "time of day at which they come, \"07:00\""},
    {"to", FV_DIM_TEXT, offsetof(fv_crew, to), true, NONE, NO_LIMIT, NULL,
     "time of day at which they go, \"18:00\"; before `from`: on the next day"},
    {"people", FV_DIM_COUNT, offsetof(fv_crew, people), false, 1.0, 1.0, 1000.0, NO_OPINION, NULL,
     "who are there then; rows add up; default 1"},
    {"wage", FV_DIM_PRICE, offsetof(fv_crew, wage), false, NONE, 0.0, 1e6, NO_OPINION, NULL,
     "of one for an hour, all costs included; not said: hours are counted, not paid"},
};

static const fv_attr task_rows[] = {
    {"what", FV_DIM_WORD, offsetof(fv_task, what), true, NONE, NO_LIMIT, "fill|hang-on|light|take-off|empty|look",
     "for each vessel fill, hang-on, take-off, empty (and clean); for each batch light, and look while it burns"},
    {"takes", FV_DIM_TIME, offsetof(fv_task, takes), true, NONE, 0.0, 86400.0, NO_OPINION, NULL, "time for one"},
    {"people", FV_DIM_COUNT, offsetof(fv_task, people), false, 1.0, 1.0, 1000.0, NO_OPINION, NULL,
     "whom it takes at once; default 1"},
    {"every", FV_DIM_TIME, offsetof(fv_task, every), false, NONE, 300.0, 86400.0, NO_OPINION, NULL,
     "with look: how often; not said: every 2 h"},
};

static const fv_attr more_rows[] = {
    {"like", FV_DIM_ID, offsetof(fv_more, part.like), true, NONE, NO_LIMIT, NULL, "kind of the vessels on the header"},
    {"count", FV_DIM_COUNT, offsetof(fv_more, count), true, NONE, 0.0, 200.0, NO_OPINION, NULL,
     "vessels beyond the places on the header, which fill and cool while others are on the steam"},
};

static const fv_attr price_rows[] = {
    {"what", FV_DIM_WORD, offsetof(fv_price, what), true, NONE, NO_LIMIT, "fuel|water|electricity|medium|bag|treated",
     "what it is the price of; treated: what the treated medium is worth"},
    {"per", FV_DIM_WORD, offsetof(fv_price, per), true, NONE, NO_LIMIT, "kg|lb|L|gal|m3|kWh|each",
     "unit it is paid by"},
    {"is", FV_DIM_PRICE, offsetof(fv_price, is), true, NONE, 0.0, 1e9, NO_OPINION, NULL,
     "price of one unit, in the stock's currency"},
};
