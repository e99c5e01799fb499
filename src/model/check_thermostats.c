/* SPDX-License-Identifier: MIT */
/* Thermostats: what they feel and what they turn must be there, and they must not chatter. */
#include "model/check.h"

#include <string.h>

static const double BAND_LEAST = 0.5;  /* K, of one that may switch at once */
static const double LEAST_STEADY = 60; /* s on and off that keep one with a narrower band from chattering */

static void find_felt(const model_link *link, fv_thermostat *t, const char *who)
{
    char id[MODEL_ID];
    const int what = model_split(t->on, "chamber|core", id);
    t->vessel_index = -1;
    t->of_core = what == 1;
    if (!t->on)
        return;
    if (what < 0) {
        fv_error(link->faults, FV_ERR_INPUT, t->part.loc,
                 "%s: on=\"%s\" is nothing to feel; write a vessel's id and chamber or core, such as \"bin1 chamber\"",
                 who, t->on);
        return;
    }
    model_check_named(link, t->part.loc, who, EL_VESSEL, id, &t->vessel_index);
}

static void check_turned(const model_link *link, fv_thermostat *t, const char *who)
{
    int valve;
    t->boiler_index = -1;
    if (!t->boiler == !t->valve)
        fv_error(link->faults, FV_ERR_INPUT, t->part.loc,
                 "%s: %s; name a boiler, whose fire it sets, or a valve, which it turns", who,
                 t->boiler ? "both a boiler and a valve are named" : "neither a boiler nor a valve is named");
    if (t->boiler)
        model_check_named(link, t->part.loc, who, EL_BOILER, t->boiler, &t->boiler_index);
    if (t->valve)
        model_check_named(link, t->part.loc, who, EL_VALVE, t->valve, &valve);
    const fv_value on = t->boiler ? t->fire : t->open, off = t->boiler ? t->else_fire : t->else_open;
    if (fv_is_set(on) && on.v <= off.v)
        fv_error(link->faults, FV_ERR_INPUT, t->part.loc, "%s: it gives no more steam on than off; %s must be above %s",
                 who, t->boiler ? "fire" : "open", t->boiler ? "else-fire" : "else-open");
}

static void check_band(const model_link *link, const fv_thermostat *t, const char *who)
{
    char below[MODEL_SAY], above[MODEL_SAY], band[MODEL_SAY];
    if (!fv_is_set(t->below) || !fv_is_set(t->above)) {
        fv_error(link->faults, FV_ERR_INPUT, t->part.loc,
                 "%s: below and above are missing: between which temperatures? For example below=\"70 degC\" "
                 "above=\"72 degC\"",
                 who);
        return;
    }
    model_quantity(FV_DIM_TEMPERATURE, t->below.v, below, sizeof below);
    model_quantity(FV_DIM_TEMPERATURE, t->above.v, above, sizeof above);
    if (!(t->below.v < t->above.v)) {
        fv_error(link->faults, FV_ERR_INPUT, t->part.loc,
                 "%s: it would switch on below %s and off above %s; below must be the lower one", who, below, above);
    } else if (t->above.v - t->below.v < BAND_LEAST - 1e-9 && fmin(t->least_on.v, t->least_off.v) < LEAST_STEADY) {
        model_quantity(FV_DIM_TEMPERATURE_DIFFERENCE, t->above.v - t->below.v, band, sizeof band);
        fv_error(link->faults, FV_ERR_INPUT, t->part.loc,
                 "%s: a band of %s makes it chatter; at least 0.5 K, or least-on and least-off of at least 60 s", who,
                 band);
    }
    if (fv_is_set(t->until) && t->until.v <= t->from.v)
        fv_error(link->faults, FV_ERR_INPUT, t->part.loc,
                 "%s: it lets go before it takes over; until must be after from", who);
}

/* Kept below its target for good, it never arrives. */
static void check_target(const model_link *link, const fv_thermostat *t, const char *who)
{
    const fv_vessel *vessel = t->vessel_index < 0 ? NULL : link->plant->vessels[t->vessel_index];
    char above[MODEL_SAY], target[MODEL_SAY];
    if (!vessel || t->of_core || fv_is_set(t->until) || !(t->above.v <= vessel->target.v))
        return;
    model_quantity(FV_DIM_TEMPERATURE, t->above.v, above, sizeof above);
    model_quantity(FV_DIM_TEMPERATURE, vessel->target.v, target, sizeof target);
    fv_caution(link->faults, FV_ERR_INPUT, t->part.loc,
               "%s: it keeps the chamber of %s at %s at the most, but the target of its core is %s: it may never "
               "arrive",
               who, vessel->part.id ? vessel->part.id : "?", above, target);
}

static bool is_same_part(const fv_thermostat *a, const fv_thermostat *b)
{
    return (a->boiler && b->boiler && strcmp(a->boiler, b->boiler) == 0) ||
           (a->valve && b->valve && strcmp(a->valve, b->valve) == 0);
}

/* Two hands on one valve. */
static void check_alone(const model_link *link, size_t i, const char *who)
{
    const fv_thermostat *t = link->plant->thermostats[i];
    for (size_t k = 0; k < i; k++) {
        const fv_thermostat *other = link->plant->thermostats[k];
        const bool apart = t->from.v >= fv_or(other->until, INFINITY) || other->from.v >= fv_or(t->until, INFINITY);
        if (!is_same_part(t, other) || apart)
            continue;
        fv_error(link->faults, FV_ERR_INPUT, t->part.loc,
                 "%s: %s is turned by the thermostat in line %d at the same time; give them times apart with from and "
                 "until",
                 who, t->boiler ? t->boiler : t->valve, other->part.loc.line);
        return;
    }
}

bool model_check_thermostats(model_link *link)
{
    char who[MODEL_SAY];
    for (size_t i = 0; i < link->plant->thermostat_count && !model_is_enough(link); i++) {
        fv_thermostat *t = link->plant->thermostats[i];
        model_name_of(model_element(EL_THERMOSTAT), t, who, sizeof who);
        find_felt(link, t, who);
        check_turned(link, t, who);
        check_band(link, t, who);
        check_target(link, t, who);
        check_alone(link, i, who);
    }
    return true;
}
