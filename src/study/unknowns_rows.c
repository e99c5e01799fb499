/* SPDX-License-Identifier: MIT */
/* The table of unknowns: what is uncertain in a plant, and by how much, one standard deviation unless it says factor.
 * A new one is a row here.
 *
 * Known by a tape: 2 %, of bores 1 % (the drill's and the hose's tolerance); by a nameplate 10 %; by a probe 1 %, of
 * temperatures 1.5 K (class 2, 2.5 K / sqrt(3), IEC 60584); guessed 30 %, or, where it stands for a correlation, what
 * that scatters by. */
#include "study/unknowns.h"

#define PRACTICE "common practice, no source"
#define TAPE_TOOL                                                                                                      \
    {                                                                                                                  \
        "tape", 1                                                                                                      \
    }
#define SCALE_TOOL                                                                                                     \
    {                                                                                                                  \
        "scale", 2                                                                                                     \
    }

/* clang-format off */
static const study_unknown_row rows[] = {
    /* element, attributes, noun, shape, unsaid, tape, nameplate, probe, guess, assumed, computed, scope, of_day, measurement, source */
    {"site", "air", "air", FV_SPREAD_NORMAL, 2, 1, 2, 1, 3, true, false, UNKNOWN_EACH, true, {"thermometer", 0.5}, PRACTICE},
    {"site", "wind", "wind", FV_SPREAD_LOG_NORMAL, 0.50, 0.10, 0.50, 0.20, 0.50, true, false, UNKNOWN_EACH, true, {"anemometer", 0.5}, "a third to three times, between buildings: " PRACTICE},
    {"boiler", "output", "output", FV_SPREAD_LOG_NORMAL, 0.10, 0.02, 0.10, 0.02, 0.30, false, false, UNKNOWN_EACH, false, {"bucket and clock: water boiled away in an hour", 3}, PRACTICE},
    {"boiler", "loss", "standing loss", FV_SPREAD_LOG_NORMAL, 0.70, 0.30, 0.30, 0.10, 0.70, true, false, UNKNOWN_EACH, false, {"bucket and clock, outlet shut", 3}, "0.3 to 6 % of the rating: " PRACTICE},
    {"boiler", "dryness", "dryness", FV_SPREAD_LOGIT_NORMAL, 0.01, 0.01, 0.01, 0.005, 0.02, true, false, UNKNOWN_EACH, false, {"barrel test: steam into weighed cold water", 4}, PRACTICE},
    {"boiler", "water", "water content", FV_SPREAD_LOG_NORMAL, 0.10, 0.03, 0.05, 0.02, 0.20, true, false, UNKNOWN_EACH, false, {"bucket", 2}, PRACTICE},
    {"boiler", "feed", "feed water", FV_SPREAD_NORMAL, 3, 3, 3, 1, 5, false, false, UNKNOWN_EACH, true, {"thermometer", 0.5}, PRACTICE},
    {"header", "length", "length", FV_SPREAD_LOG_NORMAL, 0.05, 0.02, 0.05, 0.01, 0.30, false, false, UNKNOWN_EACH, false, TAPE_TOOL, PRACTICE},
    {"pipe", "length", "length", FV_SPREAD_LOG_NORMAL, 0.05, 0.02, 0.05, 0.01, 0.30, false, false, UNKNOWN_EACH, false, TAPE_TOOL, PRACTICE},
    {"hose", "length", "length", FV_SPREAD_LOG_NORMAL, 0.05, 0.02, 0.05, 0.01, 0.30, false, false, UNKNOWN_EACH, false, TAPE_TOOL, PRACTICE},
    {"header", "bore", "bore", FV_SPREAD_LOG_NORMAL, 0.02, 0.01, 0.02, 0.01, 0.10, false, false, UNKNOWN_EACH, false, {"calliper", 2}, PRACTICE},
    {"pipe", "bore", "bore", FV_SPREAD_LOG_NORMAL, 0.02, 0.01, 0.02, 0.01, 0.10, false, false, UNKNOWN_EACH, false, {"calliper", 2}, PRACTICE},
    {"hose", "bore", "bore", FV_SPREAD_LOG_NORMAL, 0.02, 0.01, 0.02, 0.01, 0.10, false, false, UNKNOWN_EACH, false, {"calliper", 1}, PRACTICE},
    {"barb", "bore", "bore", FV_SPREAD_LOG_NORMAL, 0.02, 0.01, 0.02, 0.01, 0.10, false, false, UNKNOWN_EACH, false, {"calliper", 1}, PRACTICE},
    {"union", "bore", "bore", FV_SPREAD_LOG_NORMAL, 0.02, 0.01, 0.02, 0.01, 0.10, false, false, UNKNOWN_EACH, false, {"calliper", 1}, PRACTICE},
    {"hose", "k", "loss of its bends and ends", FV_SPREAD_LOG_NORMAL, 0.20, 0.10, 0.10, 0.05, 0.30, false, false, UNKNOWN_EACH, false, {"gauges at both ends", 4}, "Crane TP-410 states no scatter; " PRACTICE},
    {"hose", "sag", "sag", FV_SPREAD_LOG_NORMAL, 0.20, 0.10, 0.20, 0.10, 0.50, false, false, UNKNOWN_EACH, false, TAPE_TOOL, PRACTICE},
    {"header", "outside", "outside coefficient of all headers", FV_SPREAD_LOG_NORMAL, 0.25, 0.25, 0.25, 0.10, 0.25, false, true, UNKNOWN_ALL, false, {"surface thermometer", 3}, "film coefficients outdoors, 25 %: VDI Heat Atlas (from memory)"},
    {"pipe", "outside", "outside coefficient of all pipes", FV_SPREAD_LOG_NORMAL, 0.25, 0.25, 0.25, 0.10, 0.25, false, true, UNKNOWN_ALL, false, {"surface thermometer", 3}, "film coefficients outdoors, 25 %: VDI Heat Atlas (from memory)"},
    {"hose", "outside", "outside coefficient of all hoses", FV_SPREAD_LOG_NORMAL, 0.25, 0.25, 0.25, 0.10, 0.25, false, true, UNKNOWN_ALL, false, {"surface thermometer", 3}, "film coefficients outdoors, 25 %: VDI Heat Atlas (from memory)"},
    {"coil", "bore", "bore of the coil", FV_SPREAD_LOG_NORMAL, 0.02, 0.01, 0.02, 0.01, 0.10, false, false, UNKNOWN_EACH, false, {"calliper", 2}, PRACTICE},
    {"coil", "drill", "holes' diameter", FV_SPREAD_LOG_NORMAL, 0.02, 0.01, 0.02, 0.01, 0.05, false, false, UNKNOWN_EACH, false, {"drill shanks as gauges", 1}, PRACTICE},
    {"coil", "cd", "holes' discharge coefficient", FV_SPREAD_LOG_NORMAL, 0.07, 0.07, 0.07, 0.03, 0.07, false, true, UNKNOWN_EACH, false, {"bucket test: steam of one coil into weighed cold water", 4}, "scatter of published hole coefficients, 5 to 10 %: see the hole correlation"},
    {"coil", "clogged", "clogged share", FV_SPREAD_LOGIT_NORMAL, 0.05, 0.05, 0.05, 0.05, 0.10, false, false, UNKNOWN_EACH, false, {"look at the holes", 1}, PRACTICE},
    {"load", "mass", "mass of the load", FV_SPREAD_LOG_NORMAL, 0.05, 0.02, 0.05, 0.02, 0.15, false, false, UNKNOWN_EACH, true, SCALE_TOOL, PRACTICE},
    {"load", "a b c diameter height stack-a stack-b stack-c", "size of a piece", FV_SPREAD_LOG_NORMAL, 0.02, 0.01, 0.03, 0.01, 0.10, false, false, UNKNOWN_EACH, false, TAPE_TOOL, PRACTICE},
    {"load", "moisture", "moisture of the load", FV_SPREAD_LOGIT_NORMAL, 0.05, 0.05, 0.05, 0.02, 0.05, true, false, UNKNOWN_EACH, true, {"oven and scale", 2}, "5 points between batches: " PRACTICE},
    {"load", "conductivity", "conductivity of the load", FV_SPREAD_LOG_NORMAL, 0.20, 0.20, 0.20, 0.10, 0.20, false, true, UNKNOWN_EACH, false, {"one piece with a probe in boiling water", 4}, "scatter of the media correlations, 20 %"},
    {"load", "specific-heat", "dry specific heat", FV_SPREAD_LOG_NORMAL, 0.05, 0.05, 0.05, 0.03, 0.05, false, false, UNKNOWN_EACH, false, {"laboratory", 8}, "Siebel's rule and handbook values, 5 %"},
    {"load", "surface", "coefficient at the pieces' surface", FV_SPREAD_LOG_NORMAL, 0.50, 0.10, 0.10, 0.10, 0.30, false, false, UNKNOWN_EACH, false, {"one piece with two probes", 4}, PRACTICE},
    {"load", "film-gap", "gap under the film", FV_SPREAD_LOG_NORMAL, 0.70, 0.30, 0.70, 0.30, 0.70, true, false, UNKNOWN_EACH, false, {"one piece with two probes", 4}, "a quarter to four times as wide: " PRACTICE},
    {"load", "front-factor", "front factor of the bed", FV_SPREAD_LOG_NORMAL, 0.15, 0.10, 0.15, 0.05, 0.20, true, false, UNKNOWN_EACH, false, {"probe in the last corner of the bed, steam by the meter", 2}, "1.3 to 2 where it is taken as 1.5; 60 to 75 % of sheet steaming: " PRACTICE},
    {"load", "start-temperature", "start temperature of the load", FV_SPREAD_NORMAL, 2, 1.5, 2, 1.5, 3, false, true, UNKNOWN_EACH, true, {"thermometer", 0.5}, "class 2 thermocouple, 2.5 K / sqrt(3): IEC 60584"},
    {"layer", "conductivity", "conductivity of the walls", FV_SPREAD_LOG_NORMAL, 0.15, 0.15, 0.15, 0.10, 0.15, true, false, UNKNOWN_OWNER, false, {"heat flow by surface thermometers", 4}, "handbook values of damp insulation, 15 %: " PRACTICE},
    {"layer", "vapour-resistance", "vapour resistance of the walls' layers", FV_SPREAD_LOG_NORMAL, 0.60, 0.30, 0.60, 0.20, 0.60, true, false, UNKNOWN_OWNER, false, {"a piece of it over a cup of water, weighed", 24}, "plywood 0.6 to 2.4 m where it is taken as 1.2: ISO 10456, from memory"},
    {"layer", "wet-conductivity", "conductivity of the walls' wet layers", FV_SPREAD_LOG_NORMAL, 0.50, 0.50, 0.50, 0.20, 0.50, true, false, UNKNOWN_OWNER, false, {"heat flow by surface thermometers", 4}, "1 to 5 times as dry: " PRACTICE},
    {"wall", "outside", "outside coefficient of the walls", FV_SPREAD_LOG_NORMAL, 0.25, 0.25, 0.25, 0.10, 0.25, false, true, UNKNOWN_OWNER, false, {"surface thermometer", 3}, "film coefficients outdoors, 25 %: VDI Heat Atlas (from memory)"},
    {"gap", "area", "gap area", FV_SPREAD_EVEN_FACTOR, 2, 1.5, 2, 1.5, 2, false, false, UNKNOWN_EACH, true, {"feeler gauge along the lid", 2}, "leaks are known to a factor of 2: " PRACTICE},
    {"drain", "purge", "purge at the drain", FV_SPREAD_EVEN_FACTOR, 2, 2, 2, 1.3, 2, true, false, UNKNOWN_EACH, false, {"two probes in the chamber, high and low", 1}, "ventilation effectiveness 0.5 to 2, from memory"},
    {"vent", "purge", "purge at the vent", FV_SPREAD_EVEN_FACTOR, 2, 2, 2, 1.3, 2, true, false, UNKNOWN_EACH, false, {"two probes in the chamber, high and low", 1}, "ventilation effectiveness 0.5 to 2, from memory"},
    {"vent", "exchange", "what ends the exchange at the vent", FV_SPREAD_EVEN_FACTOR, 1.6, 1.6, 1.6, 1.3, 1.6, true, false, UNKNOWN_EACH, false, {"probe in the chamber at low fire", 1}, "2 to 6 where it is taken as 4, from memory"},
    {"vent", "area diameter", "vent", FV_SPREAD_LOG_NORMAL, 0.05, 0.02, 0.05, 0.02, 0.30, false, false, UNKNOWN_EACH, false, TAPE_TOOL, PRACTICE},
};
/* clang-format on */

const study_unknown_row *study_unknown_rows(size_t *count)
{
    *count = sizeof rows / sizeof *rows;
    return rows;
}

double study_unknown_spread(const study_unknown_row *row, fv_known known)
{
    switch (known) {
    case FV_KNOWN_TAPE:
        return row->tape;
    case FV_KNOWN_NAMEPLATE:
        return row->nameplate;
    case FV_KNOWN_PROBE:
        return row->probe;
    case FV_KNOWN_GUESS:
        return row->guess;
    default:
        return row->unsaid;
    }
}
