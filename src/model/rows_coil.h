/* SPDX-License-Identifier: MIT */
/* Coils and their holes. */
#include "model/rows.h"

static const fv_attr coil_rows[] = {
    {"shape", FV_DIM_WORD, offsetof(fv_coil, shape), false, 0.0, NO_LIMIT, "dead-end|ring",
     "a pipe closed at its end, or a ring fed at one point; default dead-end"},
    {"bore", FV_DIM_LENGTH, offsetof(fv_coil, bore), true, NONE, BORE_LEAST, BORE_MOST, 0.012, 0.08, NULL,
     "inside diameter of the perforated pipe"},
    {"wall", FV_DIM_LENGTH, offsetof(fv_coil, wall), false, 0.003, 0.0, 0.2, NO_OPINION, NULL,
     "thickness of its wall, which the holes go through; default 3 mm, common practice"},
    {"length", FV_DIM_LENGTH, offsetof(fv_coil, length), true, NONE, 0.001, 1000.0, NONE, 30.0, NULL,
     "from the inlet to the closed end; of a ring: once around"},
    {"holes", FV_DIM_COUNT, offsetof(fv_coil, holes), false, NONE, 1.0, 100000.0, NONE, 500.0, NULL,
     "how many holes, all alike; or give each <hole>"},
    {"drill", FV_DIM_LENGTH, offsetof(fv_coil, drill), false, NONE, 1e-6, 0.5, 0.0015, 0.008, NULL,
     "diameter of the holes; under 1.5 mm they clog, over 8 mm they share badly, common practice"},
    {"spacing", FV_DIM_LENGTH, offsetof(fv_coil, spacing), false, NONE, 1e-6, 1000.0, NONE, 0.2, NULL,
     "from hole to hole along the pipe, the first half a spacing from the inlet unless `first` says otherwise; not "
     "said: the length divided by the number of holes"},
    {"first", FV_DIM_LENGTH, offsetof(fv_coil, first), false, NONE, 0.0, 1000.0, NO_OPINION, NULL,
     "from the inlet to the first hole; not said: half a spacing"},
    {"roughness", FV_DIM_LENGTH, offsetof(fv_coil, roughness), false, 4.6e-5, 0.0, 0.05, NONE, 0.003, NULL,
     "of the inner face; default 0.046 mm (Moody 1944, commercial steel)", .is = FV_COEFFICIENT},
    {"friction", FV_DIM_NUMBER, offsetof(fv_coil, friction), false, NONE, 0.0, 10.0, NO_OPINION, NULL,
     "Darcy friction factor, fixed; not said: laminar or Colebrook-White", .is = FV_COEFFICIENT},
    {"entry", FV_DIM_NUMBER, offsetof(fv_coil, entry), false, NONE, 0.0, 1e6, NO_OPINION, NULL,
     "static pressure lost into the coil, in velocity heads of its bore: 0.5 (1 - s) (flush contraction, Crane TP-410) "
     "+ 1 - s^2 (head turned into speed, Bernoulli), s the coil's area over its line's; 1.5 at a boiler; a coil wider "
     "than its line 0.5; each leg of a ring 2; not said: from its bore and its line's",
     .is = FV_COEFFICIENT},
    {"regain", FV_DIM_NUMBER, offsetof(fv_coil, regain), false, 0.5, 0.0, 1.0, NO_OPINION, NULL,
     "pressure regained across a hole in units of the change of G^2/rho; default 0.5, the whole velocity head; full "
     "momentum would be 1",
     .is = FV_COEFFICIENT},
    {"cd", FV_DIM_NUMBER, offsetof(fv_coil, cd), false, NONE, 0.01, 1.0, 0.3, 0.98, NULL,
     "discharge coefficient of the holes; not said: from wall, diameter and crossflow", .is = FV_COEFFICIENT},
    {"clogged", FV_DIM_FRACTION, offsetof(fv_coil, clogged), false, 0.0, 0.0, 0.99, NONE, 0.5, NULL,
     "share of every hole's area that is clogged; default none"},
};

static const fv_attr hole_rows[] = {
    {"at", FV_DIM_LENGTH, offsetof(fv_hole, at), true, NONE, 0.0, 1000.0, NO_OPINION, NULL,
     "position along the coil from its inlet"},
    {"drill", FV_DIM_LENGTH, offsetof(fv_hole, drill), true, NONE, 1e-6, 0.5, 0.0015, 0.008, NULL,
     "diameter of the hole"},
    {"count", FV_DIM_COUNT, offsetof(fv_hole, count), false, 1.0, 1.0, 1000.0, NO_OPINION, NULL,
     "holes at this position around the pipe; default 1"},
};
