/* SPDX-License-Identifier: MIT */
/* Which element stands in which, how often, and how the model makes it. To add an element: a row here, its rows in the
 * schema, its struct in the model. */
#include "plantfile/grammar.h"

#include <string.h>

static void *make_site(building *b, fv_loc loc)
{
    b->plant->site.part.loc = loc;
    return &b->plant->site;
}
static void *make_weather(building *b, fv_loc loc)
{
    return fv_plant_add_weather(b->plant, loc);
}
static void *make_stock(building *b, fv_loc loc)
{
    (void)loc;
    return b->plant;
}
static void *make_stock_hose(building *b, fv_loc loc)
{
    return fv_plant_add_stock(b->plant, FV_STOCK_HOSE, loc);
}
static void *make_stock_header(building *b, fv_loc loc)
{
    return fv_plant_add_stock(b->plant, FV_STOCK_HEADER, loc);
}
static void *make_stock_coil(building *b, fv_loc loc)
{
    return fv_plant_add_stock(b->plant, FV_STOCK_COIL, loc);
}
static void *make_stock_drill(building *b, fv_loc loc)
{
    return fv_plant_add_stock(b->plant, FV_STOCK_DRILL, loc);
}
static void *make_stock_lagging(building *b, fv_loc loc)
{
    return fv_plant_add_stock(b->plant, FV_STOCK_LAGGING, loc);
}
static void *make_stock_boiler(building *b, fv_loc loc)
{
    return fv_plant_add_stock(b->plant, FV_STOCK_BOILER, loc);
}
static void *make_boiler(building *b, fv_loc loc)
{
    return fv_plant_add_boiler(b->plant, NULL, loc);
}
static void *make_header(building *b, fv_loc loc)
{
    return b->line = fv_plant_add_line(b->plant, FV_LINE_HEADER, NULL, loc);
}
static void *make_pipe(building *b, fv_loc loc)
{
    return b->line = fv_plant_add_line(b->plant, FV_LINE_PIPE, NULL, loc);
}
static void *make_hose(building *b, fv_loc loc)
{
    return b->line = fv_plant_add_line(b->plant, FV_LINE_HOSE, NULL, loc);
}
static void *make_fitting(building *b, fv_loc loc)
{
    return fv_line_add_fitting(b->plant, b->line, FV_FITTING_TYPE, loc);
}
static void *make_barb(building *b, fv_loc loc)
{
    return fv_line_add_fitting(b->plant, b->line, FV_FITTING_BARB, loc);
}
static void *make_union(building *b, fv_loc loc)
{
    return fv_line_add_fitting(b->plant, b->line, FV_FITTING_UNION, loc);
}
static void *make_valve(building *b, fv_loc loc)
{
    return fv_line_add_fitting(b->plant, b->line, FV_FITTING_VALVE, loc);
}
static void *make_loss(building *b, fv_loc loc)
{
    return fv_line_add_fitting(b->plant, b->line, FV_FITTING_LOSS, loc);
}
static void *make_tee(building *b, fv_loc loc)
{
    return fv_plant_add_tee(b->plant, loc);
}
static void *make_drip(building *b, fv_loc loc)
{
    return fv_plant_add_drip(b->plant, loc);
}
static void *make_kind(building *b, fv_loc loc)
{
    return b->vessel = fv_plant_add_vessel(b->plant, NULL, true, loc);
}
static void *make_vessel(building *b, fv_loc loc)
{
    return b->vessel = fv_plant_add_vessel(b->plant, NULL, false, loc);
}
static void *make_coil(building *b, fv_loc loc)
{
    b->vessel->coil.part.loc = loc;
    return &b->vessel->coil;
}
static void *make_hole(building *b, fv_loc loc)
{
    return fv_vessel_add_hole(b->plant, b->vessel, loc);
}
static void *make_load(building *b, fv_loc loc)
{
    b->vessel->load.part.loc = loc;
    return &b->vessel->load;
}
static void *make_shell(building *b, fv_loc loc)
{
    b->vessel->shell.part.loc = loc;
    return &b->vessel->shell;
}
static void *make_wall(building *b, fv_loc loc)
{
    return b->wall = fv_vessel_add_wall(b->plant, b->vessel, loc);
}
static void *make_layer(building *b, fv_loc loc)
{
    return fv_wall_add_layer(b->plant, b->wall, loc);
}
static void *make_vent(building *b, fv_loc loc)
{
    return fv_vessel_add_opening(b->plant, b->vessel, FV_OPENING_VENT, loc);
}
static void *make_drain(building *b, fv_loc loc)
{
    return fv_vessel_add_opening(b->plant, b->vessel, FV_OPENING_DRAIN, loc);
}
static void *make_gap(building *b, fv_loc loc)
{
    return fv_vessel_add_opening(b->plant, b->vessel, FV_OPENING_GAP, loc);
}
static void *make_action(building *b, fv_loc loc)
{
    return fv_plant_add_action(b->plant, loc);
}

static void *make_probe(building *b, fv_loc loc)
{
    return fv_plant_add_probe(b->plant, NULL, loc);
}
static void *make_gauge(building *b, fv_loc loc)
{
    return fv_plant_add_gauge(b->plant, NULL, loc);
}
static void *make_meter(building *b, fv_loc loc)
{
    return fv_plant_add_meter(b->plant, loc);
}

#define LINE_CHILDREN(line)                                                                                            \
    {line, "fitting", "fitting", false, make_fitting}, {line, "barb", "barb", false, make_barb},                       \
        {line, "union", "union", false, make_union}, {line, "valve", "valve", false, make_valve},                      \
    {                                                                                                                  \
        line, "loss", "loss", false, make_loss                                                                         \
    }
#define VESSEL_CHILDREN(vessel)                                                                                        \
    {vessel, "coil", "coil", true, make_coil}, {vessel, "load", "load", true, make_load},                              \
        {vessel, "shell", "shell", true, make_shell}, {vessel, "wall", "wall", false, make_wall},                      \
        {vessel, "vent", "vent", false, make_vent}, {vessel, "drain", "drain", false, make_drain},                     \
    {                                                                                                                  \
        vessel, "gap", "gap", false, make_gap                                                                          \
    }

/* In the order in which a plant is written. */
static const grammar_rule rules[] = {
    {"network", "site", "site", true, make_site},
    {"network", "stock", "stock", true, make_stock},
    {"network", "boiler", "boiler", false, make_boiler},
    {"network", "header", "header", false, make_header},
    {"network", "pipe", "pipe", false, make_pipe},
    {"network", "hose", "hose", false, make_hose},
    {"network", "tee", "tee", false, make_tee},
    {"network", "drip", "drip", false, make_drip},
    {"network", "kind", "kind", false, make_kind},
    {"network", "vessel", "vessel", false, make_vessel},
    {"network", "action", "action", false, make_action},
    {"network", "probe", "probe", false, make_probe},
    {"network", "gauge", "gauge", false, make_gauge},
    {"network", "meter", "meter", false, make_meter},
    {"site", "weather", "weather", false, make_weather},
    {"stock", "hose", "stock/hose", false, make_stock_hose},
    {"stock", "header", "stock/header", false, make_stock_header},
    {"stock", "coil", "stock/coil", false, make_stock_coil},
    {"stock", "drill", "stock/drill", false, make_stock_drill},
    {"stock", "lagging", "stock/lagging", false, make_stock_lagging},
    {"stock", "boiler", "stock/boiler", false, make_stock_boiler},
    LINE_CHILDREN("header"),
    LINE_CHILDREN("pipe"),
    LINE_CHILDREN("hose"),
    VESSEL_CHILDREN("kind"),
    VESSEL_CHILDREN("vessel"),
    {"coil", "hole", "hole", false, make_hole},
    {"wall", "layer", "layer", false, make_layer},
};

const grammar_rule *plantfile_grammar_rules(size_t *count)
{
    *count = sizeof rules / sizeof *rules;
    return rules;
}

const grammar_rule *plantfile_grammar_find(const char *parent, const char *name)
{
    for (size_t i = 0; i < sizeof rules / sizeof *rules; i++)
        if (strcmp(rules[i].parent, parent) == 0 && strcmp(rules[i].name, name) == 0)
            return &rules[i];
    return NULL;
}
