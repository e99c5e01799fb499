/* SPDX-License-Identifier: MIT */
/* What the fuels of a boiler hold, as bought. Gross heating values, since a boiler's efficiency is on them. */
#include "model/schema.h"

#include <math.h>

/* In the order of fv_fuel. */
static const fv_fuel_entry table[] = {
    {"propane", 50.3e6, 500.0, FV_FUEL_LIQUID,
     "2219 kJ/mol gross over 44.1 g/mol; liquid near 20 degC; both from memory"},
    {"gas", 53e6, 0.78, FV_FUEL_GASEOUS, "natural gas, mostly methane (55.5 MJ/kg gross); at 15 degC; from memory"},
    {"oil", 45.4e6, 845.0, FV_FUEL_LIQUID, "light heating oil, 10.6 kWh/L gross; from memory"},
    {"wood", 16e6, NAN, FV_FUEL_SOLID,
     "air-dry, 20 % water: 0.8 of 20 MJ/kg dry wood gross (Wood Handbook); from memory"},
    {"pellets", 18.6e6, NAN, FV_FUEL_SOLID, "8 % water, gross; from memory"},
    {"electricity", NAN, NAN, FV_FUEL_CURRENT, "none"},
};

const fv_fuel_entry *fv_fuel_of(const fv_boiler *boiler)
{
    if (!boiler)
        return NULL;
    return fv_is_set(boiler->fuel) ? &table[fv_word(boiler->fuel)] : NULL;
}

double fv_fuel_mass(const fv_boiler *boiler, double heat)
{
    if (!boiler)
        return (double)NAN;
    const fv_fuel_entry *fuel = fv_fuel_of(boiler);
    return heat / fv_or(boiler->heating_value, fuel ? fuel->heating_value : (double)NAN);
}
