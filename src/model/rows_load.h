/* SPDX-License-Identifier: MIT */
/* Loads. */
#include "model/rows.h"

#define SIZE_ROW(name, member, doc)                                                                                    \
    {                                                                                                                  \
        name, FV_DIM_LENGTH, offsetof(fv_load, member), false, NONE, 0.001, 100.0, NO_OPINION, NULL, doc               \
    }

static const fv_attr load_rows[] = {
    {"form", FV_DIM_WORD, offsetof(fv_load, form), false, 0.0, NO_LIMIT, "block|slab|cylinder|sphere|bed",
     "shape of one piece, or a loose bed that steam percolates; default block"},
    {"medium", FV_DIM_WORD, offsetof(fv_load, medium), false, 0.0, NO_LIMIT, "wood|straw|grain|peat|soil",
     "wood: sawdust, chips; straw: hay too; peat: potting mix; soil: compost too. Gives density, specific heat and "
     "conductivity where they are not said; default wood"},
    SIZE_ROW("a", a, "first side of a block"),
    SIZE_ROW("b", b, "second side of a block"),
    SIZE_ROW("c", c, "third side of a block, or the thickness of a slab"),
    SIZE_ROW("diameter", diameter, "of a cylinder or sphere"),
    SIZE_ROW("height", height, "of a cylinder"),
    {"count", FV_DIM_COUNT, offsetof(fv_load, count), false, NONE, 1.0, 1e7, NO_OPINION, NULL,
     "number of pieces; not said: from mass and mass-each, or mass, size and density"},
    {"mass", FV_DIM_MASS, offsetof(fv_load, mass), false, NONE, 0.001, 1e6, NONE, 6000.0, NULL,
     "wet mass of the whole load; not said: from count and mass-each, or count, size and density"},
    {"mass-each", FV_DIM_MASS, offsetof(fv_load, mass_each), false, NONE, 0.001, 1e5, NO_OPINION, NULL,
     "wet mass of one piece, instead of mass or count; not said: mass / count"},
    {"moisture", FV_DIM_FRACTION, offsetof(fv_load, moisture), false, 0.6, 0.0, 0.95, NO_OPINION, NULL,
     "water / wet mass; default by medium: wood 0.6, straw 0.72, grain 0.45, peat 0.55, soil 0.2, common practice"},
    {"density", FV_DIM_DENSITY, offsetof(fv_load, density), false, NONE, 10.0, 3000.0, NONE, 1700.0, NULL,
     "of the wet piece or bed; not said: from mass and size, else the medium's", .is = FV_COEFFICIENT},
    {"specific-heat", FV_DIM_SPECIFIC_HEAT, offsetof(fv_load, specific_heat), false, NONE, 400.0, 4200.0, NO_OPINION,
     NULL, "of the DRY matter; not said: the medium's", .is = FV_COEFFICIENT},
    {"conductivity", FV_DIM_CONDUCTIVITY, offsetof(fv_load, conductivity), false, NONE, 0.01, 10.0, 0.1, 2.5, NULL,
     "of the wet piece; not said: from medium, moisture and density", .is = FV_COEFFICIENT},
    {"surface", FV_DIM_HEAT_COEFFICIENT, offsetof(fv_load, surface), false, NONE, 0.1, 1e5, NO_OPINION, NULL,
     "coefficient while steam condenses, of the whole surface, or with `wrap` outside of what it is wrapped in, where "
     "it is 200 W/m2/K, on open medium that soaks up condensate 1000, common practice; not said: of condensing steam, "
     "through its wrap",
     .is = FV_COEFFICIENT},
    {"cooling-surface", FV_DIM_HEAT_COEFFICIENT, offsetof(fv_load, cooling_surface), false, 12.0, 0.1, 1e4, NO_OPINION,
     NULL,
     "coefficient while cooling, whole or outside of its wrap as `surface` is; default 12 W/m2/K, common practice",
     .is = FV_COEFFICIENT},
    {"wrap", FV_DIM_WORD, offsetof(fv_load, wrap), false, NONE, NO_LIMIT, "bag|pot|tray|bare",
     "what a piece is in: bag (film of 0.05 mm over a gap), pot (wall 1 mm), tray (0.5 mm) or bare; not said: bag, or "
     "bare where it takes condensate or only `surface` is said; walls from memory, 0.2 and film 0.3 W/m/K"},
    {"bag", FV_DIM_WORD, offsetof(fv_load, bag), false, NONE, NO_LIMIT, "ldpe|hdpe|pp",
     "film that the bags are of, which softens: LDPE from 80, HDPE from 120, PP from 135 degC, common practice; not "
     "said: not looked at"},
    {"film-gap", FV_DIM_LENGTH, offsetof(fv_load, film_gap), false, NONE, 0.0, 0.02, NONE, 0.0012, NULL,
     "dry air between film and medium; in a bag 0.25 mm (0 to 1.2 mm: 194 to 26 W/m2/K in all), common practice; not "
     "said: that of a closed bag, else none",
     .is = FV_COEFFICIENT},
    {"packing", FV_DIM_WORD, offsetof(fv_load, packing), false, 0.0, NO_LIMIT, "loose|packed|rows",
     "loose: steam gets to every piece; rows: blocks touch in bricks of `of`; packed: the stack heats as one body; "
     "default loose up to 0.4 of the volume, above it must be said"},
    {"of", FV_DIM_TEXT, offsetof(fv_load, of), false, NONE, NO_LIMIT, NULL,
     "pieces to a brick of rows, along a, b and c, such as 2 x 2 x 5; not said: none"},
    {"contact", FV_DIM_HEAT_COEFFICIENT, offsetof(fv_load, contact), false, NONE, 1.0, 1e6, 20.0, NONE, NULL,
     "of two faces that touch in rows; with film gaps of 0.25 mm 60 W/m2/K (20 and more), bare ones resist nothing; "
     "not said: what both wraps let through",
     .is = FV_COEFFICIENT},
    SIZE_ROW("stack-a", stack_a, "first side of the packed stack"),
    SIZE_ROW("stack-b", stack_b, "second side of the packed stack"),
    SIZE_ROW("stack-c", stack_c, "third side of the packed stack"),
    {"start-temperature", FV_DIM_TEMPERATURE, offsetof(fv_load, start_temperature), false, NONE, CELSIUS(-50.0),
     CELSIUS(100.0), CELSIUS(-10.0), CELSIUS(60.0), NULL, "of the load before steaming; not said: the site's air"},
    SIZE_ROW("depth", depth, "of a bed, in the direction the steam takes"),
    {"area", FV_DIM_AREA, offsetof(fv_load, area), false, NONE, 1e-4, 1e4, NO_OPINION, NULL,
     "of a bed across the steam; of slabs: one face of one slab"},
    {"front-factor", FV_DIM_NUMBER, offsetof(fv_load, front_factor), false, 1.5, 1.0, 2.0, 1.3, 2.0, NULL,
     "of a bed: steam supplied over steam wanted when the last of it is hot, for fronts break through at edges and "
     "channels first; 1: an even front; default 1.5 (1.3 to 2; cause: Baker & Fuller 1976)"},
    {"takes-condensate", FV_DIM_FRACTION, offsetof(fv_load, takes_condensate), false, 0.0, 0.0, 1.0, NO_OPINION, NULL,
     "share of its condensate that the load soaks up; default none (closed bags)"},
};
