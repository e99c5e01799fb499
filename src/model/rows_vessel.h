/* SPDX-License-Identifier: MIT */
/* Vessels, the kinds they are like, and their walls, shell and openings. */
#include "model/rows.h"

/* What a kind may say for all its vessels. */
/* clang-format off */
#define VESSEL_REST \
    {"volume", FV_DIM_VOLUME, offsetof(fv_vessel, volume), false, 1.0, 1e-4, 1e4, 0.05, 40.0, NULL, \
     "inside; default 1 m3 (a tote), common practice"}, \
    {"water", FV_DIM_LENGTH, offsetof(fv_vessel, water), false, 0.0, 0.0, 5.0, NONE, 0.1, NULL, \
     "depth of water that stands over the coil's holes; default none"}, \
    {"sump-area", FV_DIM_AREA, offsetof(fv_vessel, sump_area), false, NONE, 1e-4, 1e4, NO_OPINION, NULL, \
     "floor on which condensate gathers over the holes; not said: it drains away"}, \
    {"target", FV_DIM_TEMPERATURE, offsetof(fv_vessel, target), false, CELSIUS(95.0), CELSIUS(0.0), CELSIUS(120.0), CELSIUS(50.0), NONE, NULL, \
     "core temperature to reach; default 95 degC, common practice for sawdust blocks in free steam"}, \
    {"hold", FV_DIM_TIME, offsetof(fv_vessel, hold), false, 14400.0, 0.0, YEAR, NONE, 172800.0, NULL, \
     "time with the core at or above the target; default 4 h, common practice"}, \
    {"within", FV_DIM_TIME, offsetof(fv_vessel, within), false, 43200.0, 60.0, YEAR, NO_OPINION, NULL, \
     "time allowed from steam-on until the core reaches the target; beyond it the vessel counts as starved; " \
     "default 12 h, common practice"}, \
    {"cool", FV_DIM_TEMPERATURE, offsetof(fv_vessel, cool), false, CELSIUS(30.0), CELSIUS(-50.0), CELSIUS(100.0), NO_OPINION, NULL, \
     "core temperature at which it counts as cooled; default 30 degC, common practice"}, \
    {"cooling", FV_DIM_WORD, offsetof(fv_vessel, cooling), false, 0.0, NO_LIMIT, "attached|detached|shelves", \
     "cools on its hose with the valve shut, or taken off the line; shelves: its load is unloaded after the hold, rows " \
     "and stacks are taken apart, and cools in the open; default attached"}, \
    {"shelf-air", FV_DIM_TEMPERATURE, offsetof(fv_vessel, shelf_air), false, NONE, CELSIUS(-50.0), CELSIUS(60.0), NO_OPINION, NULL, \
     "air around the load on its shelves, or under a lid that is off; not said: `air`, else the site's"}, \
    {"shelf-surface", FV_DIM_HEAT_COEFFICIENT, offsetof(fv_vessel, shelf_surface), false, NONE, 0.1, 1e5, 4.0, 40.0, NULL, \
     "coefficient of a piece there, whole or outside of its wrap as `cooling-surface` is, 8 to 20 W/m2/K: natural " \
     "convection (Churchill & Chu 1975) and radiation to a half; not said: of air and radiation", .is = FV_COEFFICIENT}, \
    {"evaporates", FV_DIM_WORD, offsetof(fv_vessel, evaporates), false, 0.0, NO_LIMIT, "no|yes", \
     "whether bare wet pieces give up water there, into air that is saturated itself; default no"}, \
    {"changeover", FV_DIM_TIME, offsetof(fv_vessel, changeover), false, 0.0, 0.0, YEAR, NO_OPINION, NULL, \
     "from when it is off the line until its place is free for what waits for that; default at once"}, \
    {"stands", FV_DIM_WORD, offsetof(fv_vessel, stands), false, NONE, NO_LIMIT, "outdoors|indoors", \
     "whether wind reaches its walls: indoors none; outdoors the site's, or 1.5 m/s where the site is indoors; not said: as the site"}, \
    {"air", FV_DIM_TEMPERATURE, offsetof(fv_vessel, air), false, NONE, CELSIUS(-50.0), CELSIUS(60.0), NO_OPINION, NULL, \
     "air around it once it is off the line; not said: the site's"}, \
    {"wind", FV_DIM_VELOCITY, offsetof(fv_vessel, wind), false, NONE, 0.0, 60.0, 0.0, 20.0, NULL, \
     "air movement around it once it is off the line; not said: the site's"}, \
    {"coil-end", FV_DIM_WORD, offsetof(fv_vessel, coil_end), false, 0.0, NO_LIMIT, "capped|open", \
     "the coil's end once it is off the line: open, it draws in air through its holes; default capped"}, \
    {"lid", FV_DIM_WORD, offsetof(fv_vessel, lid), false, 0.0, NO_LIMIT, "on|cracked|off", \
     "the lid once it is off the line; cracked: lid-gap is open at lid-height; off: its load cools in the open, as on " \
     "shelves; default on"}, \
    {"lid-gap", FV_DIM_AREA, offsetof(fv_vessel, lid_gap), false, 0.01, 1e-6, 100.0, NO_OPINION, NULL, \
     "opening under a cracked lid; default 100 cm2, common practice"}, \
    {"lid-height", FV_DIM_LENGTH, offsetof(fv_vessel, lid_height), false, 1.0, 0.0, 50.0, NO_OPINION, NULL, \
     "of a cracked lid above the coil; default 1 m, common practice"}, \
    {"phase", FV_DIM_WORD, offsetof(fv_vessel, phase), false, 0.0, NO_LIMIT, "heating|holding|shut", \
     "for `flow`: heating takes all the steam it gets, holding takes `uptake`, shut takes none; default heating"}, \
    {"uptake", FV_DIM_POWER, offsetof(fv_vessel, uptake), false, NONE, 0.0, 1e6, NO_OPINION, NULL, \
     "heat that a holding vessel takes; required with phase=\"holding\""}, \
    {"at-most", FV_DIM_TEMPERATURE, offsetof(fv_vessel, at_most), false, NONE, CELSIUS(20.0), CELSIUS(150.0), NO_OPINION, NULL, \
     "that no part of its load should pass: straw 80, soil and peat 82 degC (salts, ammonium, manganese), common " \
     "practice; not said: not looked at"}, \
    {"reference-temperature", FV_DIM_TEMPERATURE, offsetof(fv_vessel, reference_temperature), false, NONE, CELSIUS(20.0), CELSIUS(150.0), NO_OPINION, NULL, \
     "of the lethality integral: minutes there would do the same; not said: the target (121.1 degC gives the usual F0)"}, \
    {"z", FV_DIM_TEMPERATURE_DIFFERENCE, offsetof(fv_vessel, z), false, 10.0, 1.0, 100.0, 4.0, 20.0, NULL, \
     "of the lethality integral: K for ten times the effect; default 10 K (ISO 17665)"}
/* clang-format on */

static const fv_attr kind_rows[] = {
    ID_ROW(fv_vessel, true, "name of the kind, for like=\"...\" of its vessels"),
    LIKE_ROW(fv_vessel, "another kind that this one is like"),
    VESSEL_REST,
};

static const fv_attr vessel_rows[] = {
    ID_ROW(fv_vessel, true, "name of the vessel"),
    LIKE_ROW(fv_vessel, "kind, or another vessel, that it is like"),
    {"at", FV_DIM_ID, offsetof(fv_vessel, at), true, NONE, NO_LIMIT, NULL, "joint where its coil is fed"},
    {"start", FV_DIM_TIME, offsetof(fv_vessel, start), false, 0.0, 0.0, YEAR, NO_OPINION, NULL,
     "when its steam is opened; with start-after: so long after that; default at once"},
    {"start-after", FV_DIM_TEXT, offsetof(fv_vessel, start_after), false, NONE, NO_LIMIT, NULL,
     "event that it waits for: an id and steam, full, core, hold, cool or detached, such as \"bin1 core\"; not said: "
     "none"},
    VESSEL_REST,
};

static const fv_attr shell_rows[] = {
    {"mass", FV_DIM_MASS, offsetof(fv_shell, mass), true, NONE, 0.0, 1e6, NO_OPINION, NULL,
     "metal inside the insulation that follows the chamber's temperature"},
    {"specific-heat", FV_DIM_SPECIFIC_HEAT, offsetof(fv_shell, specific_heat), false, 480.0, 50.0, 5000.0, NO_OPINION,
     NULL, "default 480 J/kg/K, steel (CIBSE Guide A, table 3.36)", .is = FV_COEFFICIENT},
};

static const fv_attr wall_rows[] = {
    ID_ROW(fv_wall, false, "name of the wall"),
    {"area", FV_DIM_AREA, offsetof(fv_wall, area), true, NONE, 1e-4, 1e5, NONE, 200.0, NULL, "inner face"},
    {"height", FV_DIM_LENGTH, offsetof(fv_wall, height), false, 1.0, 0.01, 50.0, NO_OPINION, NULL,
     "for the air that rises along it; default 1 m, common practice"},
    {"inside", FV_DIM_HEAT_COEFFICIENT, offsetof(fv_wall, inside), false, NONE, 0.1, 1e6, NO_OPINION, NULL,
     "inside coefficient; not said: inner face as hot as the chamber", .is = FV_COEFFICIENT},
    {"outside", FV_DIM_HEAT_COEFFICIENT, offsetof(fv_wall, outside), false, NONE, 0.01, 1000.0, 2.0, 100.0, NULL,
     "outside coefficient, radiation included; not said: from correlations", .is = FV_COEFFICIENT},
    {"emissivity", FV_DIM_FRACTION, offsetof(fv_wall, emissivity), false, 0.9, 0.0, 1.0, NO_OPINION, NULL,
     "of the outer face for heat radiation; default 0.9 (boards, paint), common practice", .is = FV_COEFFICIENT},
    {"air", FV_DIM_TEMPERATURE, offsetof(fv_wall, air), false, NONE, CELSIUS(-50.0), CELSIUS(100.0), NO_OPINION, NULL,
     "air on the outer face; not said: the site's"},
    {"wind", FV_DIM_VELOCITY, offsetof(fv_wall, wind), false, NONE, 0.0, 60.0, 0.0, 20.0, NULL,
     "air movement on the outer face; not said: the site's"},
};

static const fv_attr layer_rows[] = {
    {"material", FV_DIM_TEXT, offsetof(fv_wall_layer, material), false, NONE, NO_LIMIT, NULL,
     "name in the list of materials; not said: conductivity, density and specific heat are to be given"},
    {"thickness", FV_DIM_LENGTH, offsetof(fv_wall_layer, thickness), true, NONE, 1e-5, 2.0, NONE, 0.5, NULL,
     "of the layer"},
    {"conductivity", FV_DIM_CONDUCTIVITY, offsetof(fv_wall_layer, conductivity), false, NONE, 0.005, 500.0, NO_OPINION,
     NULL, "not said: that of the material", .is = FV_COEFFICIENT},
    {"density", FV_DIM_DENSITY, offsetof(fv_wall_layer, density), false, NONE, 1.0, 20000.0, NO_OPINION, NULL,
     "not said: that of the material", .is = FV_COEFFICIENT},
    {"specific-heat", FV_DIM_SPECIFIC_HEAT, offsetof(fv_wall_layer, specific_heat), false, NONE, 50.0, 5000.0,
     NO_OPINION, NULL, "not said: that of the material", .is = FV_COEFFICIENT},
    {"vapour-resistance", FV_DIM_LENGTH, offsetof(fv_wall_layer, vapour_resistance), false, NONE, 1e-3, 1e6, NO_OPINION,
     NULL,
     "still air that would let as little vapour through (s_d): wet plywood of 12 mm 0.6 to 2.4 m, a sealed lining, "
     "metal "
     "or foam of closed cells 100 m; not said in a wall where another layer says it: that of its material when wet "
     "(ISO "
     "10456, from memory), else 100 m; said for none: the wall stays dry"},
    {"wet-conductivity", FV_DIM_CONDUCTIVITY, offsetof(fv_wall_layer, wet_conductivity), false, NONE, 0.005, 500.0,
     NO_OPINION, NULL,
     "with its pores full of water; not said: three times that of insulation, one and a half that of boards (1 to 5 "
     "times), common practice"},
    {"pores", FV_DIM_FRACTION, offsetof(fv_wall_layer, pores), false, NONE, 0.0, 1.0, NO_OPINION, NULL,
     "share of its volume that water can fill; not said: 30 %, common practice"},
    {"soaked", FV_DIM_FRACTION, offsetof(fv_wall_layer, soaked), false, NONE, 0.0, 1.0, NO_OPINION, NULL,
     "share of its pores that is full at the start, from earlier batches; not said: none"},
};

/* clang-format off */
#define OPENING_ROWS(height_default, height_doc) \
    ID_ROW(fv_opening, false, "name of the opening"), \
    {"area", FV_DIM_AREA, offsetof(fv_opening, area), false, NONE, 0.0, 10.0, NONE, 1.0, NULL, \
     "free area; or give the diameter"}, \
    {"diameter", FV_DIM_LENGTH, offsetof(fv_opening, diameter), false, NONE, 0.0, 3.0, NONE, 1.0, NULL, \
     "of a round opening; or give the area"}, \
    {"cd", FV_DIM_NUMBER, offsetof(fv_opening, cd), false, 0.62, 0.01, 1.0, 0.3, 0.98, NULL, \
     "discharge coefficient; default 0.62, sharp-edged hole (Unwin 1911: .603 to .620)", .is = FV_COEFFICIENT}, \
    {"height", FV_DIM_LENGTH, offsetof(fv_opening, height), false, height_default, -20.0, 50.0, NO_OPINION, NULL, height_doc}, \
    {"purge", FV_DIM_NUMBER, offsetof(fv_opening, purge), false, 1.0, 0.05, 20.0, 0.5, 2.0, NULL, \
     "ventilation effectiveness: air in what leaves here over that in the whole chamber, while there is little; over 1 " \
     "for a low drain, which lets the air out first, under 1 for a vent beside the coil, which lets out steam; default " \
     "1, well mixed, 0.5 to 2 (from memory)", .is = FV_COEFFICIENT}, \
    {"faces", FV_DIM_WORD, offsetof(fv_opening, faces), false, NONE, NO_LIMIT, "up|sideways", \
     "of one over 100 mm, alone at its height, through which air and steam pass both ways at once: in a lid or in a " \
     "wall; not said: up"}, \
    {"thickness", FV_DIM_LENGTH, offsetof(fv_opening, thickness), false, NONE, 1e-4, 2.0, NO_OPINION, NULL, \
     "of the lid that one over 100 mm is cut in; not said: 3 mm, common practice"}, \
    {"exchange", FV_DIM_NUMBER, offsetof(fv_opening, exchange), false, NONE, 0.0, 20.0, 2.0, 6.0, NULL, \
     "of one over 100 mm, alone at its height: net outflow, over what passes both ways at rest (Epstein 1988; in a wall " \
     "Brown & Solvason 1962), that ends this; 0: none passes both ways; not said: 4 (2 to 6), from memory"}
/* clang-format on */

static const fv_attr high_opening_rows[] = {
    OPENING_ROWS(1.0, "above the coil; default 1 m, common practice"),
};
static const fv_attr drain_rows[] = {
    OPENING_ROWS(0.0, "above the coil; default at the coil's level"),
    {"seal", FV_DIM_LENGTH, offsetof(fv_opening, seal), false, NONE, 0.0, 0.1, NO_OPINION, NULL,
     "depth of a water seal (a trap, a hose that ends under water): water passes, gas only against its head, both "
     "ways; "
     "over 100 mm it is refused, for then it is no vent; not said: an open drain"},
};
