/* SPDX-License-Identifier: MIT */
/* What the grower does during a run, and what a thermostat does for him. */
#include "model/rows.h"

static const fv_attr action_rows[] = {
    ID_ROW(fv_action, false, "name of the action"),
    {"at", FV_DIM_TIME, offsetof(fv_action, at), false, NONE, 0.0, YEAR, NO_OPINION, NULL,
     "time from the start; or say `after` what"},
    {"after", FV_DIM_TEXT, offsetof(fv_action, after), false, NONE, NO_LIMIT, NULL,
     "event: an id and steam (boilers), full, core, hold, cool or detached (vessels), such as \"bin1 core\"; "
     "\"last core\" and the like: once every vessel has had it, or is off the steam for good and too cold to; or say "
     "`at`"},
    {"delay", FV_DIM_TIME, offsetof(fv_action, delay), false, 0.0, 0.0, YEAR, NO_OPINION, NULL,
     "so long after the event; default at once"},
    {"boiler", FV_DIM_ID, offsetof(fv_action, boiler), false, NONE, NO_LIMIT, NULL, "boiler whose fire is set"},
    {"fire", FV_DIM_FRACTION, offsetof(fv_action, fire), false, NONE, 0.0, 1.0, NO_OPINION, NULL,
     "share of full fire, with `boiler`"},
    {"valve", FV_DIM_ID, offsetof(fv_action, valve), false, NONE, NO_LIMIT, NULL,
     "valve that is turned, by its id, or by its place in a line, such as s2.fitting1"},
    {"open", FV_DIM_FRACTION, offsetof(fv_action, open), false, NONE, 0.0, 1.0, NO_OPINION, NULL,
     "how far it is opened, with `valve`"},
    {"vessel", FV_DIM_ID, offsetof(fv_action, vessel), false, NONE, NO_LIMIT, NULL, "vessel that is dealt with"},
    {"act", FV_DIM_WORD, offsetof(fv_action, act), false, NONE, NO_LIMIT, "shut|open|detach",
     "with `vessel`: its steam is shut or opened, or it is taken off the line"},
};

static const fv_attr thermostat_rows[] = {
    ID_ROW(fv_thermostat, false, "name of the thermostat"),
    {"on", FV_DIM_TEXT, offsetof(fv_thermostat, on), true, NONE, NO_LIMIT, NULL,
     "what it feels: a vessel's id and chamber or core, such as \"bin1 chamber\""},
    {"below", FV_DIM_TEMPERATURE, offsetof(fv_thermostat, below), false, NONE, CELSIUS(0.0), CELSIUS(120.0), NO_OPINION,
     NULL, "it switches on again down there; not said: 2 K below `above`"},
    {"above", FV_DIM_TEMPERATURE, offsetof(fv_thermostat, above), false, NONE, CELSIUS(0.0), CELSIUS(120.0), NO_OPINION,
     NULL, "it switches off up there; it begins switched on; not said: 2 K above `below`"},
    {"boiler", FV_DIM_ID, offsetof(fv_thermostat, boiler), false, NONE, NO_LIMIT, NULL,
     "boiler whose fire it sets; or name a valve"},
    {"fire", FV_DIM_FRACTION, offsetof(fv_thermostat, fire), false, NONE, 0.0, 1.0, NO_OPINION, NULL,
     "share of full fire while on, with `boiler`; not said: the boiler's own"},
    {"else-fire", FV_DIM_FRACTION, offsetof(fv_thermostat, else_fire), false, 0.0, 0.0, 1.0, NO_OPINION, NULL,
     "the same while off; default none"},
    {"valve", FV_DIM_ID, offsetof(fv_thermostat, valve), false, NONE, NO_LIMIT, NULL,
     "valve that it turns, by its id, or by its place in a line, such as s2.fitting1"},
    {"open", FV_DIM_FRACTION, offsetof(fv_thermostat, open), false, NONE, 0.0, 1.0, NO_OPINION, NULL,
     "how far it opens the valve while on; not said: as the valve itself says"},
    {"else-open", FV_DIM_FRACTION, offsetof(fv_thermostat, else_open), false, 0.0, 0.0, 1.0, NO_OPINION, NULL,
     "the same while off; default shut"},
    {"least-on", FV_DIM_TIME, offsetof(fv_thermostat, least_on), false, 60.0, 0.0, 86400.0, NO_OPINION, NULL,
     "it stays on at least so long; default 60 s, common practice"},
    {"least-off", FV_DIM_TIME, offsetof(fv_thermostat, least_off), false, 60.0, 0.0, 86400.0, NO_OPINION, NULL,
     "it stays off at least so long; default 60 s, common practice"},
    {"from", FV_DIM_TIME, offsetof(fv_thermostat, from), false, 0.0, 0.0, YEAR, NO_OPINION, NULL,
     "time from the start when it takes over; default from the start"},
    {"until", FV_DIM_TIME, offsetof(fv_thermostat, until), false, NONE, 0.0, YEAR, NO_OPINION, NULL,
     "time from the start when it lets go; not said: to the end"},
};
