/* SPDX-License-Identifier: MIT */
/* Probes, gauges and meters: what was measured during a run. */
#include "model/rows.h"

static const fv_attr probe_rows[] = {
    ID_ROW(fv_probe, true, "name of the probe"),
    {"vessel", FV_DIM_ID, offsetof(fv_probe, vessel), false, NONE, NO_LIMIT, NULL, "vessel that it is in"},
    {"at", FV_DIM_WORD, offsetof(fv_probe, at), false, 0.0, NO_LIMIT, "core|chamber|air",
     "core: the coldest point of the load, while it is heated; chamber: the gas in it; air: outside; default core"},
    {"depth", FV_DIM_LENGTH, offsetof(fv_probe, depth), false, NONE, 0.0, 10.0, NO_OPINION, NULL,
     "instead of at: so far below the surface of what heats as one piece, on its shortest axis through the middle; of "
     "unequal pieces those of which the core is the last"},
    {"column", FV_DIM_TEXT, offsetof(fv_probe, column), true, NONE, NO_LIMIT, NULL,
     "heading of its column in the logger's file, without the unit"},
    {"type", FV_DIM_WORD, offsetof(fv_probe, type), false, 0.0, NO_LIMIT, "K|T|Pt100",
     "thermocouple K or T (IEC 60584), or resistance thermometer (IEC 60751); default K"},
    {"class", FV_DIM_WORD, offsetof(fv_probe, grade), false, NONE, NO_LIMIT, "1|2|AA|A|B|C",
     "of tolerance: 1 or 2 of a thermocouple, AA to C of a Pt100; not said: 2, B"},
    {"offset", FV_DIM_TEMPERATURE_DIFFERENCE, offsetof(fv_probe, offset), false, NONE, -30.0, 30.0, -5.0, 5.0, NULL,
     "that it reads too high by, as a check in free steam that day has shown; not said: 0 K, not checked"},
    {"error", FV_DIM_TEMPERATURE_DIFFERENCE, offsetof(fv_probe, error), false, NONE, 0.0, 30.0, NO_OPINION, NULL,
     "standard uncertainty of that; not said: 0.4 K with an offset, else the tolerance of its class / sqrt(3)"},
    {"lag", FV_DIM_TIME, offsetof(fv_probe, lag), false, 30.0, 0.0, 3600.0, NONE, 600.0, NULL,
     "time constant where it sits; default 30 s, common practice for 3 to 6 mm stems in moist media"},
};

static const fv_attr gauge_rows[] = {
    ID_ROW(fv_gauge, true, "name of the gauge"),
    {"at", FV_DIM_ID, offsetof(fv_gauge, at), true, NONE, NO_LIMIT, NULL, "joint of a boiler"},
    {"column", FV_DIM_TEXT, offsetof(fv_gauge, column), true, NONE, NO_LIMIT, NULL,
     "heading of its column in the logger's file, without the unit"},
    {"error", FV_DIM_GAUGE_PRESSURE, offsetof(fv_gauge, error), false, 200.0, 1.0, 1e5, NO_OPINION, NULL,
     "standard uncertainty; default 2 mbar, common practice for a water column or a capsule gauge"},
};

static const fv_attr meter_rows[] = {
    ID_ROW(fv_meter, false, "name of the meter"),
    {"what", FV_DIM_WORD, offsetof(fv_meter, what), false, 0.0, NO_LIMIT, "water",
     "what was counted: water fed or boiled away over the whole run; default water"},
    {"boiler", FV_DIM_ID, offsetof(fv_meter, boiler), true, NONE, NO_LIMIT, NULL, "boiler that took it"},
    {"value", FV_DIM_VOLUME, offsetof(fv_meter, value), true, NONE, 1e-5, 1e4, NO_OPINION, NULL, "how much"},
    {"error", FV_DIM_VOLUME, offsetof(fv_meter, error), false, NONE, 1e-6, 1e3, NO_OPINION, NULL,
     "standard uncertainty; not said: 3 % of the value, common practice"},
};
