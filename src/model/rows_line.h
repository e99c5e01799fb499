/* SPDX-License-Identifier: MIT */
/* Lines: header, pipe and hose; and what sits on a joint: tees and drip legs. */
#include "model/rows.h"

/* clang-format off */
#define LINE_ENDS \
    ID_ROW(fv_line, true, "name of the line"), \
    LIKE_ROW(fv_line, "another line that this one is like"), \
    {"from", FV_DIM_ID, offsetof(fv_line, from), true, NONE, NO_LIMIT, NULL, \
     "joint where it begins"}, \
    {"to", FV_DIM_ID, offsetof(fv_line, to), true, NONE, NO_LIMIT, NULL, \
     "joint where it ends; steam may run either way"}
/* clang-format on */

/* What header, pipe and hose have in common, word by word. */
/* clang-format off */
#define LINE_REST \
    {"lagging", FV_DIM_LENGTH, offsetof(fv_line, lagging), false, 0.0, 0.0, 0.5, NO_OPINION, NULL, \
     "thickness of lagging; default bare"}, \
    {"lagging-material", FV_DIM_TEXT, offsetof(fv_line, lagging_material), false, NONE, NO_LIMIT, NULL, \
     "name in the list of materials; not said: mineral-wool", .is = FV_NAMED}, \
    {"lagging-conductivity", FV_DIM_CONDUCTIVITY, offsetof(fv_line, lagging_conductivity), false, 0.045, 0.005, 5.0, 0.02, 0.2, NULL, \
     "default that of the lagging material; mineral wool at steam temperature 0.045 W/m/K, common practice", .is = FV_COEFFICIENT}, \
    {"emissivity", FV_DIM_FRACTION, offsetof(fv_line, emissivity), false, 0.9, 0.0, 1.0, NO_OPINION, NULL, \
     "of the outermost surface for heat radiation; default 0.9 (rubber, paint, oxidised steel), common practice", .is = FV_COEFFICIENT}, \
    {"outside", FV_DIM_HEAT_COEFFICIENT, offsetof(fv_line, outside), false, NONE, 0.01, 1000.0, 2.0, 100.0, NULL, \
     "outside coefficient, radiation included; not said: from correlations", .is = FV_COEFFICIENT}, \
    {"heat-loss", FV_DIM_HEAT_PER_LENGTH, offsetof(fv_line, heat_loss), false, NONE, 0.0, 1e4, NO_OPINION, NULL, \
     "heat lost per metre, as it is; not said: from wall, lagging, air and wind", .is = FV_COEFFICIENT}, \
    {"air", FV_DIM_TEMPERATURE, offsetof(fv_line, air), false, NONE, CELSIUS(-50.0), CELSIUS(100.0), NO_OPINION, NULL, \
     "air around this line; not said: the site's"}, \
    {"wind", FV_DIM_VELOCITY, offsetof(fv_line, wind), false, NONE, 0.0, 60.0, 0.0, 20.0, NULL, \
     "air movement around this line (indoors 0); not said: the site's"}, \
    {"rise", FV_DIM_LENGTH, offsetof(fv_line, rise), false, 0.0, -100.0, 100.0, NO_OPINION, NULL, \
     "how much higher `to` lies than `from`; negative: lower; default level"}, \
    {"sag", FV_DIM_LENGTH, offsetof(fv_line, sag), false, 0.0, 0.0, 10.0, 0.0, 0.05, NULL, \
     "depth of a belly in which water stands: no steam passes until it pushes this head; default none; over 50 mm " \
     "a caution, common practice"}, \
    {"friction", FV_DIM_NUMBER, offsetof(fv_line, friction), false, NONE, 0.0, 10.0, NO_OPINION, NULL, \
     "Darcy friction factor, fixed; not said: laminar or Colebrook-White", .is = FV_COEFFICIENT}, \
    {"k", FV_DIM_NUMBER, offsetof(fv_line, k), false, 0.0, 0.0, 1e6, NO_OPINION, NULL, \
     "further loss coefficient on this bore, on top of the fittings inside; default 0", .is = FV_COEFFICIENT}, \
    {"washer", FV_DIM_LENGTH, offsetof(fv_line, washer), false, NONE, 1e-3, BORE_MOST, NO_OPINION, NULL, \
     "hole of a flat disc across the line's end, such as a drilled washer in a hose's union: it shares steam out; not " \
     "said: none"}, \
    {"condensate", FV_DIM_WORD, offsetof(fv_line, condensate), false, 0.0, NO_LIMIT, "with|back|drip", \
     "what becomes of the water: runs on with the steam, runs back, or leaves by a drip leg; default with"}, \
    {"heat-capacity", FV_DIM_HEAT_CAPACITY, offsetof(fv_line, heat_capacity), false, NONE, 0.0, 1e9, NO_OPINION, NULL, \
     "of the whole line, for warming up; not said: from wall and material", .is = FV_COEFFICIENT}
/* clang-format on */

/* clang-format off */
#define MATERIAL_ROW(doc) \
    {"material", FV_DIM_TEXT, offsetof(fv_line, material), false, NONE, NO_LIMIT, NULL, doc, .is = FV_NAMED}
/* clang-format on */

static const fv_attr pipe_rows[] = {
    LINE_ENDS,
    {"length", FV_DIM_LENGTH, offsetof(fv_line, length), true, NONE, 1e-4, 1000.0, NO_OPINION, NULL,
     "along the pipe; over 1 km is refused"},
    {"bore", FV_DIM_LENGTH, offsetof(fv_line, bore), true, NONE, BORE_LEAST, BORE_MOST, 0.015, 0.15, NULL,
     "inside diameter; outside 1 mm to 1 m it is refused"},
    {"wall", FV_DIM_LENGTH, offsetof(fv_line, wall), false, 0.003, 0.0, 0.2, NO_OPINION, NULL,
     "thickness; default 3 mm, about that of 1 in steel pipe (ASME B36.10 schedule 40: 3.4 mm)"},
    MATERIAL_ROW("name in the list of materials; not said: steel"),
    {"roughness", FV_DIM_LENGTH, offsetof(fv_line, roughness), false, 4.6e-5, 0.0, 0.05, NONE, 0.003, NULL,
     "of the inner face; default that of the material; steel 0.046 mm (Moody 1944, commercial steel)",
     .is = FV_COEFFICIENT},
    {"wall-conductivity", FV_DIM_CONDUCTIVITY, offsetof(fv_line, wall_conductivity), false, 45.0, 0.005, 500.0,
     NO_OPINION, NULL, "default that of the material; steel 45 W/m/K (CIBSE Guide A, table 3.36)",
     .is = FV_COEFFICIENT},
    LINE_REST,
};

static const fv_attr hose_rows[] = {
    LINE_ENDS,
    {"length", FV_DIM_LENGTH, offsetof(fv_line, length), true, NONE, 1e-4, 1000.0, NONE, 25.0, NULL,
     "along the hose; over 25 m a caution, over 1 km it is refused"},
    {"bore", FV_DIM_LENGTH, offsetof(fv_line, bore), true, NONE, BORE_LEAST, BORE_MOST, 0.0125, 0.065, NULL,
     "inside diameter; outside 1 mm to 1 m it is refused; steam hoses are 13 to 65 mm, common practice"},
    {"wall", FV_DIM_LENGTH, offsetof(fv_line, wall), false, 0.006, 0.0, 0.2, NO_OPINION, NULL,
     "thickness; default 6 mm, common practice for rubber steam hose"},
    MATERIAL_ROW("name in the list of materials; not said: epdm"),
    {"roughness", FV_DIM_LENGTH, offsetof(fv_line, roughness), false, 3e-5, 0.0, 0.05, NONE, 0.003, NULL,
     "of the inner face; default that of the material; rubber 0.03 mm, the middle of the 0.006 to 0.07 mm that "
     "engineering tables give for smooth rubber, from memory",
     .is = FV_COEFFICIENT},
    {"wall-conductivity", FV_DIM_CONDUCTIVITY, offsetof(fv_line, wall_conductivity), false, 0.25, 0.005, 500.0,
     NO_OPINION, NULL, "default that of the material; EPDM rubber 0.25 W/m/K (EN ISO 10456)", .is = FV_COEFFICIENT},
    LINE_REST,
};

static const fv_attr tee_rows[] = {
    ID_ROW(fv_tee, false, "name of the tee"),
    {"at", FV_DIM_ID, offsetof(fv_tee, at), true, NONE, NO_LIMIT, NULL, "joint that is a tee with losses of its own"},
    {"main", FV_DIM_ID, offsetof(fv_tee, main), true, NONE, NO_LIMIT, NULL, "line on one end of the straight run"},
    {"run", FV_DIM_ID, offsetof(fv_tee, run), true, NONE, NO_LIMIT, NULL, "line on the other end of the straight run"},
    {"branch", FV_DIM_ID, offsetof(fv_tee, branch), true, NONE, NO_LIMIT, NULL, "line on the branch"},
    {"angle", FV_DIM_ANGLE, offsetof(fv_tee, angle), false, 1.57079632679489662, 0.35, 2.8, NO_OPINION, NULL,
     "between the run's line and the branch; default 90 deg"},
};

static const fv_attr drip_rows[] = {
    ID_ROW(fv_drip, false, "name of the drip leg"),
    {"at", FV_DIM_ID, offsetof(fv_drip, at), true, NONE, NO_LIMIT, NULL, "joint where condensate leaves the plant"},
};
