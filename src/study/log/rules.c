/* SPDX-License-Identifier: MIT */
/* Targets that others have set: time at a temperature, with their source. None of them makes anything sterile, and
 * whether one applies is for local rules to say. */
#include "farvessel/constants.h"
#include "farvessel/log.h"

#include <math.h>

#define DEG_F(t) (((t)-32) / 1.8 + FV_CELSIUS)
#define HALF_HOUR 1800.0
#define BAKER                                                                                                          \
    "Baker (ed.), The U.C. System (Manual 23, 1957), table of 30 min in moist soil, as an extension copy has it"

static const fv_log_rule rules[] = {
    {"class_a", "time-temperature equation for solids, from 50 degC on", 50 + FV_CELSIUS, NAN, false,
     "40 CFR 503.32(a)(3), alternative 1"},
    {"ispm_15", "56 degC for 30 min unbroken, through to the core", 56 + FV_CELSIUS, HALF_HOUR, true,
     "FAO/IPPC ISPM 15, annex 1 (HT)"},
    {"nursery_mix", "60 degC for 30 min, moist", 60 + FV_CELSIUS, HALF_HOUR, true,
     "nursery practice, UC Davis heat treatment pages"},
    {"water_moulds", "120 degF for 30 min", DEG_F(120), HALF_HOUR, true, BAKER},
    {"most_pathogens", "145 degF for 30 min: most pathogenic fungi, bacteria, worms", DEG_F(145), HALF_HOUR, true,
     BAKER},
    {"soil_insects", "160 degF for 30 min: soil insects, pathogenic bacteria", DEG_F(160), HALF_HOUR, true, BAKER},
    {"weed_seeds", "180 degF for 30 min: most weed seeds", DEG_F(180), HALF_HOUR, true, BAKER},
};

const fv_log_rule *fv_log_rules(size_t *count)
{
    if (!count)
        return NULL;
    *count = sizeof rules / sizeof *rules;
    return rules;
}
