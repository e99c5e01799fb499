/* SPDX-License-Identifier: MIT */
/* Amounts into the units that prices are by. 1 lb = 0.45359237 kg and 1 US gallon = 3.785411784 L, both exact. Fuel by
 * its gross heating value, as its price is quoted (propane, gas, oil: model/fuels.c). */
#include "study/cost/money.h"

#include <math.h>

#define LB 0.45359237         /* kg */
#define GALLON 3.785411784e-3 /* m3 */
#define LITRE 1e-3            /* m3 */
#define KWH 3.6e6             /* J */
#define WATER 1000.0          /* kg/m3, cold */

const fv_price *cost_price(const fv_plant *plant, fv_price_kind what)
{
    for (size_t i = 0; i < plant->work.price_count; i++)
        if (fv_word(plant->work.prices[i]->what) == (int)what)
            return plant->work.prices[i];
    return NULL;
}

/* Of a mass with that density. */
static double units_of_mass(fv_per per, double kg, double density)
{
    switch (per) {
    case FV_PER_KG:
        return kg;
    case FV_PER_LB:
        return kg / LB;
    case FV_PER_L:
        return kg / density / LITRE;
    case FV_PER_GAL:
        return kg / density / GALLON;
    case FV_PER_M3:
        return kg / density;
    default:
        return NAN;
    }
}

double fv_cost_fuel_units(const fv_plant *plant, fv_per per, double fuel)
{
    if (!plant)
        return (double)NAN;
    const fv_boiler *boiler = plant->boiler_count > 0 ? plant->boilers[0] : NULL;
    const fv_fuel_entry *entry = boiler ? fv_fuel_of(boiler) : NULL;
    if (per == FV_PER_KWH)
        return fuel / KWH;
    return boiler ? units_of_mass(per, fv_fuel_mass(boiler, fuel), entry ? entry->density : (double)NAN) : (double)NAN;
}

double cost_wage(const fv_plant *plant)
{
    double money = 0.0, hours = 0.0;
    for (size_t i = 0; i < plant->work.crew_count; i++) {
        const fv_crew *crew = plant->work.crews[i];
        double days = 0.0;
        for (int d = 0; d < 7; d++)
            days += crew->day_bits >> d & 1u ? 1.0 : 0.0;
        const double there = days * (crew->ends - crew->begins) * crew->people.v;
        money += there * fv_or(crew->wage, NAN);
        hours += there;
    }
    return hours > 0.0 ? money / hours : (double)NAN;
}

double cost_money(const fv_plant *plant, fv_cost_item item, double amount)
{
    static const fv_price_kind kinds[FV_COST_ITEMS] = {[FV_COST_FUEL] = FV_PRICE_FUEL,
                                                       [FV_COST_WATER] = FV_PRICE_WATER,
                                                       [FV_COST_HOURS] = FV_PRICE_KINDS,
                                                       [FV_COST_MEDIUM] = FV_PRICE_MEDIUM,
                                                       [FV_COST_BAGS] = FV_PRICE_BAG};
    if (item == FV_COST_HOURS)
        return cost_wage(plant) * amount / 3600.0;
    const fv_price *price = cost_price(plant, kinds[item]);
    if (!price)
        return NAN;
    const fv_per per = (fv_per)fv_word(price->per);
    switch (item) {
    case FV_COST_FUEL:
        return price->is.v * fv_cost_fuel_units(plant, per, amount);
    case FV_COST_BAGS:
        return price->is.v * amount;
    default:
        return price->is.v * units_of_mass(per, amount, item == FV_COST_WATER ? WATER : (double)NAN);
    }
}

double cost_worth(const fv_plant *plant, double kg, size_t pieces)
{
    const fv_price *price = cost_price(plant, FV_PRICE_TREATED);
    if (!price)
        return NAN;
    const fv_per per = (fv_per)fv_word(price->per);
    return price->is.v * (per == FV_PER_EACH ? (double)pieces : units_of_mass(per, kg, NAN));
}
