/* SPDX-License-Identifier: MIT */
/* What the grower does during a run. */
#include "model/rows.h"

static const fv_attr action_rows[] = {
    ID_ROW(fv_action, false, "name of the action"),
    {"at", FV_DIM_TIME, offsetof(fv_action, at), false, NONE, 0.0, YEAR, NO_OPINION, NULL,
     "time from the start; or say `after` what"},
    {"after", FV_DIM_TEXT, offsetof(fv_action, after), false, NONE, NO_LIMIT, NULL,
     "event: an id and steam (boilers), full, core, hold, cool or detached (vessels), such as \"bin1 core\"; or say "
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
