/* SPDX-License-Identifier: MIT */
/* Defaults that follow from other values: of a material, a fuel, a medium, a boiler's size. They stay FV_ASSUMED (so
 * that linking again follows a change) and never touch what was said. Figures: common practice, no source, unless the
 * schema's rows or the list of materials name one. */
#include "farvessel/constants.h"
#include "model/link.h"

#define ELECTRIC_EFFICIENCY 0.98
#define WOOD_EFFICIENCY 0.6      /* hand-fired, moist logs: 0.5 to 0.7 */
#define LOSS_SHARE 0.03          /* of the rating */
#define WATER_PER_WATT 2.5e-6    /* m3/W: 2.5 L per kW */
#define USABLE_SHARE (1.0 / 3.0) /* of the water, down to the low-water cut-off */
#define STEEL_PER_WATER 1500.0   /* kg/m3: 1.5 kg per litre */

#define LID_THICKNESS 3e-3 /* m */
#define EXCHANGE_ENDS 4.0  /* 2 to 6, from memory */
#define FILM_GAP 0.25e-3   /* m, under the film of a closed bag */

#define THERMOSTAT_BAND 2.0 /* K */

#define WET_INSULATION 3.0     /* times as conductive with its pores full: 1 to 5 */
#define WET_BOARD 1.5          /* 1 to 5 */
#define PORES 0.3              /* of the volume */
#define CLOSED_TO_VAPOUR 100.0 /* m */

/* By medium, in its order; wet basis: the middles of what growers mix. */
static const double usual_moisture[] = {0.6, 0.72, 0.45, 0.55, 0.2};

static void assume(fv_value *value, double si)
{
    if (value->origin <= FV_ASSUMED)
        *value = model_fallback(si);
}

static void derive_boiler(fv_boiler *boiler)
{
    const int fuel = fv_is_set(boiler->fuel) ? fv_word(boiler->fuel) : -1;
    const fv_attr *efficiency = fv_attr_find(model_element(EL_BOILER), "efficiency");
    assume(&boiler->efficiency, fuel == FV_FUEL_ELECTRICITY ? ELECTRIC_EFFICIENCY
                                : fuel == FV_FUEL_WOOD      ? WOOD_EFFICIENCY
                                                            : efficiency->fallback);
    if (fv_is_set(boiler->output)) {
        assume(&boiler->water, boiler->output.v * WATER_PER_WATT);
        assume(&boiler->loss, boiler->output.v * LOSS_SHARE);
    }
    if (fv_is_set(boiler->water)) {
        assume(&boiler->usable, boiler->water.v * USABLE_SHARE);
        assume(&boiler->steel, boiler->water.v * STEEL_PER_WATER);
    }
}

static void derive_site(fv_site *site)
{
    assume(&site->wind, fv_word(site->stands) == FV_INDOORS ? 0 : FV_WIND_OUTDOORS);
    for (size_t i = 0; i < site->weather_count; i++)
        assume(&site->weather[i]->wind, site->wind.v);
}

double fv_vessel_wind(const fv_site *site, const fv_vessel *vessel, double wind)
{
    if (!site || !vessel || !fv_is_set(vessel->stands))
        return wind;
    if (fv_word(vessel->stands) == FV_INDOORS)
        return 0;
    return fv_word(site->stands) == FV_INDOORS ? FV_WIND_OUTDOORS : wind;
}

static void derive_line(fv_line *line)
{
    const fv_material *wall = line->material ? fv_material_find(line->material) : NULL;
    if (wall) {
        assume(&line->wall_conductivity, wall->conductivity);
        if (!isnan(wall->roughness))
            assume(&line->roughness, wall->roughness);
    }
    const fv_material *lagging = line->lagging_material ? fv_material_find(line->lagging_material) : NULL;
    if (lagging)
        assume(&line->lagging_conductivity, lagging->conductivity);
}

/* Of count, mass and mass of each, two give the third; one alone with sizes gives the density. */
static void derive_amount(fv_load *load)
{
    const double each = fv_or(load->mass_each, (double)NAN);
    const bool count = load->count.origin > FV_ASSUMED, mass = load->mass.origin > FV_ASSUMED;
    assume(&load->mass, count ? load->count.v * each : (double)NAN);
    assume(&load->count, mass && each > 0 ? fmax(1, round(load->mass.v / each)) : (double)NAN);
}

/* A surface coefficient alone is the whole one; open medium has no bag around it. */
static void derive_wrap(fv_load *load)
{
    const bool bare = load->surface.origin > FV_ASSUMED || load->takes_condensate.v > 0;
    const bool bag = load->film_gap.origin > FV_ASSUMED || load->bag.origin > FV_ASSUMED || !bare;
    assume(&load->wrap, bag ? FV_WRAP_BAG : FV_WRAP_BARE);
    assume(&load->film_gap,
           fv_word(load->wrap) == FV_WRAP_BAG && fv_word(load->form) != FV_FORM_BED ? FILM_GAP : (double)NAN);
}

/* What is told of both ways through an opening, where it applies. */
static void derive_openings(const fv_vessel *vessel)
{
    for (size_t j = 0; j < vessel->opening_count; j++) {
        fv_opening *o = vessel->openings[j];
        if (!fv_opening_exchanges(vessel, o))
            continue;
        assume(&o->faces, FV_FACES_UP);
        assume(&o->thickness, LID_THICKNESS);
        assume(&o->exchange, EXCHANGE_ENDS);
    }
}

/* One layer that is said to let vapour through makes the others matter. */
static void derive_linings(const fv_wall *wall)
{
    bool wet = false;
    for (size_t j = 0; j < wall->layer_count; j++)
        wet = wet || wall->layers[j]->vapour_resistance.origin > FV_ASSUMED;
    for (size_t j = 0; j < wall->layer_count; j++) {
        fv_wall_layer *layer = wall->layers[j];
        const double factor = model_vapour_factor(layer->material), k = layer->conductivity.v;
        assume(&layer->vapour_resistance, !wet         ? (double)NAN
                                          : factor > 0 ? factor * layer->thickness.v
                                                       : CLOSED_TO_VAPOUR);
        assume(&layer->wet_conductivity, wet ? k * (k < FV_INSULATES ? WET_INSULATION : WET_BOARD) : (double)NAN);
        assume(&layer->pores, wet ? PORES : (double)NAN);
        assume(&layer->soaked, wet ? 0 : (double)NAN);
    }
}

static void derive_vessel(fv_vessel *vessel)
{
    derive_openings(vessel);
    derive_wrap(&vessel->load);
    derive_amount(&vessel->load);
    assume(&vessel->reference_temperature, vessel->target.v);
    int medium = fv_word(vessel->load.medium);
    if (fv_is_set(vessel->load.medium) && medium >= 0 &&
        (size_t)medium < sizeof usual_moisture / sizeof *usual_moisture)
        assume(&vessel->load.moisture, usual_moisture[medium]);
    for (size_t i = 0; i < vessel->wall_count; i++) {
        for (size_t j = 0; j < vessel->walls[i]->layer_count; j++) {
            fv_wall_layer *layer = vessel->walls[i]->layers[j];
            const fv_material *material = layer->material ? fv_material_find(layer->material) : NULL;
            if (!material)
                continue;
            assume(&layer->conductivity, material->conductivity);
            assume(&layer->density, material->density);
            assume(&layer->specific_heat, material->specific_heat);
        }
        derive_linings(vessel->walls[i]);
    }
}

static void derive_thermostat(fv_thermostat *t)
{
    assume(&t->below, t->above.origin > FV_ASSUMED ? t->above.v - THERMOSTAT_BAND : (double)NAN);
    assume(&t->above, t->below.origin > FV_ASSUMED ? t->below.v + THERMOSTAT_BAND : (double)NAN);
}

bool model_derive(model_link *link)
{
    fv_plant *plant = link->plant;
    derive_site(&plant->site);
    for (size_t i = 0; i < plant->boiler_count; i++)
        derive_boiler(plant->boilers[i]);
    for (size_t i = 0; i < plant->line_count; i++)
        derive_line(plant->lines[i]);
    for (size_t i = 0; i < plant->vessel_count; i++)
        derive_vessel(plant->vessels[i]);
    for (size_t i = 0; i < plant->kind_count; i++)
        derive_vessel(plant->kinds[i]);
    for (size_t i = 0; i < plant->thermostat_count; i++)
        derive_thermostat(plant->thermostats[i]);
    return true;
}
