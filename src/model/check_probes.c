/* SPDX-License-Identifier: MIT */
/* Probes, gauges and meters: what they name must be there, and a column is one instrument's. */
#include "model/check.h"

#include <string.h>

static void check_class(const model_link *link, const char *who, const fv_probe *probe)
{
    const bool platinum = fv_word(probe->type) == FV_PROBE_PT100;
    if (fv_is_set(probe->grade) && (fv_word(probe->grade) >= FV_PROBE_CLASS_AA) != platinum)
        fv_error(link->faults, FV_ERR_INPUT, probe->part.loc, "%s: %s", who,
                 platinum ? "a Pt100 is of class AA, A, B or C (IEC 60751)"
                          : "a thermocouple is of class 1 or 2 (IEC 60584)");
}

static void check_probe(const model_link *link, fv_probe *probe)
{
    char who[MODEL_SAY];
    model_name_of(model_element(EL_PROBE), probe, who, sizeof who);
    probe->vessel_index = -1;
    if (probe->vessel)
        model_check_named(link, probe->part.loc, who, EL_VESSEL, probe->vessel, &probe->vessel_index);
    const bool outside = fv_word(probe->at) == FV_PROBE_AIR;
    if (!probe->vessel && !outside)
        fv_error(link->faults, FV_ERR_INPUT, probe->part.loc,
                 "%s: vessel is missing: which vessel is it in? A probe outside has at=\"air\"", who);
    if (probe->vessel && outside)
        fv_error(link->faults, FV_ERR_INPUT, probe->part.loc, "%s: at=\"air\" is outside, yet vessel='%s' is named",
                 who, probe->vessel);
    if (fv_is_set(probe->depth) && (outside || model_is_own(probe->at)))
        fv_error(link->faults, FV_ERR_INPUT, probe->part.loc, "%s: it is at one place: say at or depth, not both", who);
    check_class(link, who, probe);
}

fv_probe_at fv_probe_place(const fv_probe *probe)
{
    if (!probe)
        return FV_PROBE_CORE;
    return fv_is_set(probe->depth) ? FV_PROBE_DEPTH : (fv_probe_at)fv_word(probe->at);
}

static void check_gauge(const model_link *link, fv_gauge *gauge)
{
    char who[MODEL_SAY];
    const fv_plant *plant = link->plant;
    model_name_of(model_element(EL_GAUGE), gauge, who, sizeof who);
    gauge->boiler = -1;
    for (size_t i = 0; i < plant->boiler_count && gauge->at; i++)
        if (plant->boilers[i]->at && strcmp(plant->boilers[i]->at, gauge->at) == 0)
            gauge->boiler = (int)i;
    if (gauge->boiler < 0 && gauge->at)
        fv_error(link->faults, FV_ERR_INPUT, gauge->part.loc,
                 "%s: no boiler is at joint '%s'; the pressure is followed at boilers' joints", who, gauge->at);
}

static void check_meter(const model_link *link, fv_meter *meter)
{
    meter->boiler_index = -1;
    if (meter->boiler)
        model_check_named(link, meter->part.loc, "meter", EL_BOILER, meter->boiler, &meter->boiler_index);
}

/* Columns in the order in which instruments stand. */
static const char *column_of(const fv_plant *plant, size_t i, const fv_part **part)
{
    const bool probe = i < plant->probe_count;
    *part = probe ? &plant->probes[i]->part : &plant->gauges[i - plant->probe_count]->part;
    return probe ? plant->probes[i]->column : plant->gauges[i - plant->probe_count]->column;
}

static void check_columns(const model_link *link)
{
    const fv_plant *plant = link->plant;
    const fv_part *part, *other;
    for (size_t i = 1; i < plant->probe_count + plant->gauge_count && model_may_hint(link); i++) {
        const char *column = column_of(plant, i, &part);
        for (size_t k = 0; k < i && column; k++) {
            const char *theirs = column_of(plant, k, &other);
            if (theirs && strcmp(theirs, column) == 0) {
                fv_error(link->faults, FV_ERR_INPUT, part->loc,
                         "'%s': column \"%s\" is that of '%s' in line %d already", part->id ? part->id : "", column,
                         other->id ? other->id : "", other->loc.line);
                break;
            }
        }
    }
}

bool model_check_probes(model_link *link)
{
    const fv_plant *plant = link->plant;
    for (size_t i = 0; i < plant->probe_count && !model_is_enough(link); i++)
        check_probe(link, plant->probes[i]);
    for (size_t i = 0; i < plant->gauge_count && !model_is_enough(link); i++)
        check_gauge(link, plant->gauges[i]);
    for (size_t i = 0; i < plant->meter_count && !model_is_enough(link); i++)
        check_meter(link, plant->meters[i]);
    check_columns(link);
    return true;
}
