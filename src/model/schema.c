/* SPDX-License-Identifier: MIT */
/* The schema: every element and attribute in one table. The rows stand in rows_*.h, by subject. */
#include "model/schema.h"

#include <string.h>

/* Rows end where they have nothing more to say. */
#pragma GCC diagnostic ignored "-Wmissing-field-initializers"

#include "model/rows_place.h"
#include "model/rows_boiler.h"
#include "model/rows_line.h"
#include "model/rows_fitting.h"
#include "model/rows_coil.h"
#include "model/rows_load.h"
#include "model/rows_vessel.h"
#include "model/rows_action.h"
#include "model/rows_probe.h"
#include "model/rows_work.h"

static const fv_attr provenance[FV_SAYS] = {
    [FV_SAYS_KNOWN] = {"known", FV_DIM_TEXT, 0, false, NONE, NO_LIMIT, "tape|nameplate|probe|guess",
                       "how the values of this element are known: tape, nameplate, probe or guess; for one attribute "
                       "name:word, such as \"tape bore:guess\""},
    [FV_SAYS_SPREAD] =
        {"spread", FV_DIM_TEXT, 0, false, NONE, NO_LIMIT, NULL,
         "how uncertain the values of this element are: one standard deviation as a share (\"7 %\"), of "
         "a temperature in K, or \"factor 2\" for half to double; for one attribute name:spread, such as "
         "\"cd:7 % area:factor 2\"; not said: by how it is known"},
};

#define ROWS(rows) rows, sizeof rows / sizeof *rows

static const fv_element table[EL_COUNT] = {
    [EL_NETWORK] = {"network", sizeof(fv_plant), ROWS(network_rows),
                    "a plant: what stands on one site and hangs on its boilers"},
    [EL_SITE] = {"site", sizeof(fv_site), ROWS(site_rows), "where the plant stands and what the air is like"},
    [EL_WEATHER] = {"weather", sizeof(fv_weather), ROWS(weather_rows),
                    "air and wind at a time of the run, inside <site>", .is_aside = true},
    [EL_STOCK] = {"stock", sizeof(fv_plant), ROWS(stock_rows), "what can be bought", .is_aside = true},
    [EL_STOCK_HOSE] = {"stock/hose", sizeof(fv_stock_item), ROWS(stock_bore_rows), "a hose that can be bought",
                       .is_aside = true},
    [EL_STOCK_HEADER] = {"stock/header", sizeof(fv_stock_item), ROWS(stock_bore_rows),
                         "a header pipe that can be bought", .is_aside = true},
    [EL_STOCK_COIL] = {"stock/coil", sizeof(fv_stock_item), ROWS(stock_bore_rows),
                       "a pipe for coils that can be bought", .is_aside = true},
    [EL_STOCK_DRILL] = {"stock/drill", sizeof(fv_stock_item), ROWS(stock_drill_rows), "a drill size at hand",
                        .is_aside = true},
    [EL_STOCK_LAGGING] = {"stock/lagging", sizeof(fv_stock_item), ROWS(stock_lagging_rows),
                          "lagging that can be bought", .is_aside = true},
    [EL_STOCK_BOILER] = {"stock/boiler", sizeof(fv_stock_item), ROWS(stock_boiler_rows), "a boiler that can be bought",
                         .is_aside = true},
    [EL_BOILER] = {"boiler", sizeof(fv_boiler), ROWS(boiler_rows), "a boiler with a non-return valve on its outlet"},
    [EL_REFILL] = {"refill", sizeof(fv_refill), ROWS(refill_rows),
                   "water poured by hand into a boiler, inside <boiler>"},
    [EL_HEADER] = {"header", sizeof(fv_line), ROWS(pipe_rows), "a stretch of the pipe that feeds the branches"},
    [EL_PIPE] = {"pipe", sizeof(fv_line), ROWS(pipe_rows), "any other stiff pipe"},
    [EL_HOSE] = {"hose", sizeof(fv_line), ROWS(hose_rows), "a steam hose"},
    [EL_FITTING] = {"fitting", sizeof(fv_fitting), ROWS(fitting_rows), "a fitting from the list, inside a line"},
    [EL_BARB] = {"barb", sizeof(fv_fitting), ROWS(barb_rows), "a hose barb, narrower than the hose, inside a line"},
    [EL_UNION] = {"union", sizeof(fv_fitting), ROWS(union_rows),
                  "a union or coupling, narrower than the line, inside a line"},
    [EL_VALVE] = {"valve", sizeof(fv_fitting), ROWS(valve_rows), "a valve, inside a line"},
    [EL_LOSS] = {"loss", sizeof(fv_fitting), ROWS(loss_rows),
                 "anything else with a known loss coefficient, inside a line"},
    [EL_TEE] = {"tee", sizeof(fv_tee), ROWS(tee_rows),
                "a joint of three lines that costs pressure; a joint without one costs none"},
    [EL_DRIP] = {"drip", sizeof(fv_drip), ROWS(drip_rows), "a drip leg that takes the condensate out at a joint"},
    [EL_KIND] = {"kind", sizeof(fv_vessel), ROWS(kind_rows), "everything that identical vessels share",
                 .is_aside = true},
    [EL_VESSEL] = {"vessel", sizeof(fv_vessel), ROWS(vessel_rows), "a vented vessel; never a pressure vessel"},
    [EL_COIL] = {"coil", sizeof(fv_coil), ROWS(coil_rows), "the perforated pipe in a vessel"},
    [EL_HOLE] = {"hole", sizeof(fv_hole), ROWS(hole_rows), "a hole at its own place, inside <coil>"},
    [EL_LOAD] = {"load", sizeof(fv_load), ROWS(load_rows), "what is treated"},
    [EL_SHELL] = {"shell", sizeof(fv_shell), ROWS(shell_rows), "metal that heats up with the chamber"},
    [EL_WALL] = {"wall", sizeof(fv_wall), ROWS(wall_rows), "a part of the vessel's skin"},
    [EL_LAYER] = {"layer", sizeof(fv_wall_layer), ROWS(layer_rows), "a layer of a wall, from the inside out"},
    [EL_VENT] = {"vent", sizeof(fv_opening), ROWS(high_opening_rows), "an opening that lets air and spare steam out"},
    [EL_DRAIN] = {"drain", sizeof(fv_opening), ROWS(drain_rows), "an open drain"},
    [EL_GAP] = {"gap", sizeof(fv_opening), ROWS(high_opening_rows),
                "a leak, at the lid for example; it does not count as a vent"},
    [EL_ACTION] = {"action", sizeof(fv_action), ROWS(action_rows), "something the grower does during a run",
                   .is_aside = true},
    [EL_THERMOSTAT] = {"thermostat", sizeof(fv_thermostat), ROWS(thermostat_rows),
                       "keeps a chamber or a core between two temperatures by a boiler's fire or a valve",
                       .is_aside = true},
    [EL_PROBE] = {"probe", sizeof(fv_probe), ROWS(probe_rows), "a thermometer that a logger writes down",
                  .is_aside = true},
    [EL_GAUGE] = {"gauge", sizeof(fv_gauge), ROWS(gauge_rows), "a pressure gauge that a logger writes down",
                  .is_aside = true},
    [EL_WORK] = {"work", sizeof(fv_work), ROWS(work_rows), "the working week", .is_aside = true},
    [EL_CREW] = {"crew", sizeof(fv_crew), ROWS(crew_rows), "who is there when, inside <work>", .is_aside = true},
    [EL_TASK] = {"task", sizeof(fv_task), ROWS(task_rows), "what is to be done, inside <work>", .is_aside = true},
    [EL_MORE] = {"more", sizeof(fv_more), ROWS(more_rows), "vessels beyond the places on the header, inside <work>",
                 .is_aside = true},
    [EL_PRICE] = {"price", sizeof(fv_price), ROWS(price_rows), "what something costs, inside <work>", .is_aside = true},
    [EL_METER] = {"meter", sizeof(fv_meter), ROWS(meter_rows), "what a bucket, a bill or a scale told of a whole run",
                  .is_aside = true},
};

const fv_element *model_element(model_place place)
{
    return &table[place];
}

const fv_element *fv_schema(size_t *count)
{
    if (!count)
        return NULL;
    *count = EL_COUNT;
    return table;
}

const fv_element *fv_element_find(const char *name)
{
    if (!name)
        return NULL;
    for (int i = 0; i < EL_COUNT; i++)
        if (strcmp(table[i].name, name) == 0)
            return &table[i];
    return NULL;
}

const fv_attr *fv_provenance_attr(fv_provenance which)
{
    return which >= FV_SAYS_KNOWN && which < FV_SAYS ? &provenance[which] : NULL;
}

bool fv_attr_takes(const fv_attr *attr, fv_provenance which)
{
    return attr && !model_is_text(attr) &&
           (which == FV_SAYS_KNOWN || (attr->dim != FV_DIM_WORD && attr->dim != FV_DIM_COUNT));
}

const fv_attr *fv_attr_find(const fv_element *element, const char *name)
{
    if (!element || !name)
        return NULL;
    for (size_t i = 0; i < element->attr_count; i++)
        if (strcmp(element->attrs[i].name, name) == 0)
            return &element->attrs[i];
    return NULL;
}
