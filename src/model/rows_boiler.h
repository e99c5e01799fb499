/* SPDX-License-Identifier: MIT */
/* Boilers. */
#include "model/rows.h"

static const fv_attr boiler_rows[] = {
    ID_ROW(fv_boiler, true, "name of the boiler"),
    LIKE_ROW(fv_boiler, "another boiler that this one is like"),
    {"at", FV_DIM_ID, offsetof(fv_boiler, at), true, NONE, NO_LIMIT, NULL, "joint where its steam enters the plant"},
    {"output", FV_DIM_POWER, offsetof(fv_boiler, output), true, NONE, 1.0, 1e6, 3e3, 3e5, NULL,
     "heat that goes into the water at full fire (nameplate output, not fuel input)"},
    {"holds", FV_DIM_GAUGE_PRESSURE, offsetof(fv_boiler, holds), false, 1e4, 0.0, FV_LOW_PRESSURE, NONE,
     FV_PRESSURE_EQUIPMENT, NULL,
     "pressure above the site's air that its control holds at most; default 0.1 bar, common practice; over 15 psi it "
     "is no low-pressure boiler (ASME BPVC Section IV), over 0.5 bar directive 2014/68/EU applies"},
    {"relief", FV_DIM_GAUGE_PRESSURE, offsetof(fv_boiler, relief), false, NONE, 100.0, 1e6, NONE, FV_LOW_PRESSURE, NULL,
     "pressure at which the relief valve opens; not said: a caution; 0.5 bar and 15 psi are the usual ones"},
    {"feed", FV_DIM_TEMPERATURE, offsetof(fv_boiler, feed), false, CELSIUS(15.0), CELSIUS(0.0), CELSIUS(100.0),
     CELSIUS(1.0), CELSIUS(95.0), NULL, "feed water temperature; default 15 degC, mains water, common practice"},
    {"water", FV_DIM_VOLUME, offsetof(fv_boiler, water), false, NONE, 1e-6, 100.0, NO_OPINION, NULL,
     "water in the boiler at working level; not said: 2.5 L per kW of output, common practice"},
    {"usable", FV_DIM_VOLUME, offsetof(fv_boiler, usable), false, NONE, 0.0, 100.0, NO_OPINION, NULL,
     "water that may boil away before the low-water cut-off; not said: a third of the water, common practice"},
    {"steel", FV_DIM_MASS, offsetof(fv_boiler, steel), false, NONE, 0.0, 1e5, NO_OPINION, NULL,
     "metal that heats up with the water; not said: 1.5 kg per litre of water, common practice"},
    {"loss", FV_DIM_POWER, offsetof(fv_boiler, loss), false, NONE, 0.0, 1e6, NO_OPINION, NULL,
     "heat the boiler's shell loses, taken from the output; not said: 3 % of the output, 0.3 % (packaged and lagged) "
     "to "
     "6 % (bare tank over a fire), common practice"},
    {"efficiency", FV_DIM_FRACTION, offsetof(fv_boiler, efficiency), false, 0.8, 0.01, 1.0, 0.3, 0.99, NULL,
     "output / fuel input on the gross heating value; default 0.8, wood 0.6, electricity 0.98, common practice"},
    {"fuel", FV_DIM_WORD, offsetof(fv_boiler, fuel), false, NONE, NO_LIMIT, "propane|gas|oil|wood|pellets|electricity",
     "what it burns; not said: no fuel is counted"},
    {"heating-value", FV_DIM_ENERGY_PER_MASS, offsetof(fv_boiler, heating_value), false, NONE, 1e6, 1.5e8, NO_OPINION,
     NULL, "gross heating value of the fuel; not said: that of the fuel named"},
    {"fire", FV_DIM_FRACTION, offsetof(fv_boiler, fire), false, 1.0, 0.0, 1.0, NO_OPINION, NULL,
     "share of full fire; default full"},
    {"dryness", FV_DIM_FRACTION, offsetof(fv_boiler, dryness), false, 0.97, 0.5, 1.0, 0.9, 1.0, NULL,
     "share of the steam that is vapour, the rest is carried water; default 0.97; 0.95 to 0.99 at low pressure, aim at "
     "0.98, common practice"},
    {"feeding", FV_DIM_WORD, offsetof(fv_boiler, feeding), false, 0.0, NO_LIMIT, "automatic|by-hand",
     "automatic: what boils away is fed at once; by-hand: only by <refill>; default automatic"},
    {"start", FV_DIM_TIME, offsetof(fv_boiler, start), false, 0.0, 0.0, YEAR, NO_OPINION, NULL,
     "when it is lit; default at once"},
    {"start-temperature", FV_DIM_TEMPERATURE, offsetof(fv_boiler, start_temperature), false, NONE, CELSIUS(-50.0),
     CELSIUS(150.0), NO_OPINION, NULL,
     "temperature of water and metal when it is lit; not said: the site's air, but not below 0 degC"},
};

static const fv_attr refill_rows[] = {
    {"at", FV_DIM_TIME, offsetof(fv_refill, at), true, NONE, 0.0, YEAR, NO_OPINION, NULL, "time from the start"},
    {"volume", FV_DIM_VOLUME, offsetof(fv_refill, volume), true, NONE, 1e-5, 10.0, NO_OPINION, NULL,
     "water that is poured in at once"},
    {"temperature", FV_DIM_TEMPERATURE, offsetof(fv_refill, temperature), false, NONE, CELSIUS(0.0), CELSIUS(100.0),
     NO_OPINION, NULL, "of that water; not said: the boiler's feed"},
};
