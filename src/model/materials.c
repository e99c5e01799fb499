/* SPDX-License-Identifier: MIT */
/* What pipes, hoses, lagging and walls are made of. Conductivities of lagging are at steam temperature, not at the
 * 10 degC of their label.
 * Sources: A = CIBSE Guide A, tables 3.36 and 3.37; E = EN ISO 10456:2007 with EN ISO 10077-2; "from memory" = the
 * middle of the range that engineering tables give, not looked up again; roughness: Moody 1944 for steel, the rest from
 * memory. Limits are service temperatures from memory unless named. */
#include "farvessel/constants.h"
#include "model/schema.h"

#include <math.h>
#include <string.h>

#define NO_PIPE NAN
#define NO_TOP NAN
#define CELSIUS(t) ((t) + FV_CELSIUS)

static const fv_material table[] = {
    /* pipes */
    {"steel", 45.0, 7800.0, 480.0, 4.6e-5, NO_TOP, "CIBSE Guide A; roughness Moody 1944, commercial steel"},
    {"galvanised-steel", 45.0, 7800.0, 480.0, 1.5e-4, NO_TOP, "steel as in CIBSE Guide A; roughness Moody 1944"},
    {"stainless-steel", 16.0, 8000.0, 480.0, 1.5e-5, NO_TOP, "CIBSE Guide A; roughness from memory"},
    {"copper", 384.0, 8600.0, 390.0, 1.5e-6, NO_TOP, "CIBSE Guide A; roughness Moody 1944, drawn tubing"},
    {"brass", 110.0, 8500.0, 390.0, 1.5e-6, NO_TOP, "CIBSE Guide A; roughness Moody 1944, drawn tubing"},
    {"aluminium", 160.0, 2800.0, 880.0, 1.5e-6, NO_TOP, "EN ISO 10456, from memory; roughness Moody 1944"},
    /* hoses and plastics */
    {"epdm", 0.25, 1150.0, 1900.0, 3e-5, CELSIUS(150.0), "EN ISO 10456; specific heat, roughness, limit from memory"},
    {"rubber", 0.17, 1500.0, 1470.0, 3e-5, CELSIUS(120.0), "CIBSE Guide A; roughness and limit from memory"},
    {"silicone", 0.35, 1200.0, 1300.0, 2e-5, CELSIUS(180.0),
     "EN ISO 10456; specific heat, roughness, limit from memory"},
    {"ptfe", 0.25, 2200.0, 1000.0, 2e-6, CELSIUS(230.0), "EN ISO 10456, from memory"},
    {"polypropylene", 0.22, 910.0, 1800.0, 2e-6, CELSIUS(90.0), "EN ISO 10456; limit as a pipe from memory"},
    {"hdpe", 0.50, 980.0, 1800.0, 2e-6, CELSIUS(80.0), "EN ISO 10456; limit as a pipe from memory"},
    {"pvc", 0.16, 1380.0, 1000.0, 2e-6, CELSIUS(60.0), "CIBSE Guide A; limit from memory"},
    /* lagging */
    {"mineral-wool", 0.045, 80.0, 900.0, NO_PIPE, CELSIUS(600.0), "0.045 to 0.055 at 100 degC mean, from memory"},
    {"glass-wool", 0.05, 40.0, 900.0, NO_PIPE, CELSIUS(230.0), "0.045 to 0.055 at 100 degC mean, from memory"},
    {"elastomeric-foam", 0.05, 70.0, 1500.0, NO_PIPE, CELSIUS(105.0), "EN ISO 10456; specific heat, limit from memory"},
    {"phenolic-foam", 0.04, 30.0, 1400.0, NO_PIPE, CELSIUS(120.0), "CIBSE Guide A; limit from memory"},
    {"pir", 0.03, 45.0, 1470.0, NO_PIPE, CELSIUS(120.0), "CIBSE Guide A; limit 110 to 120 degC from memory"},
    {"pur", 0.028, 30.0, 1470.0, NO_PIPE, CELSIUS(110.0), "CIBSE Guide A; limit from memory"},
    {"eps", 0.036, 20.0, 1450.0, NO_PIPE, CELSIUS(80.0), "from memory; softens near 80 to 100 degC"},
    {"xps", 0.032, 35.0, 1450.0, NO_PIPE, CELSIUS(75.0), "from memory"},
    /* walls */
    {"plywood", 0.13, 500.0, 1600.0, NO_PIPE, NO_TOP, "EN ISO 10456: 0.09 to 0.17 for 300 to 700 kg/m3, from memory"},
    {"osb", 0.13, 650.0, 1700.0, NO_PIPE, NO_TOP, "EN ISO 10456, from memory"},
    {"softwood", 0.13, 500.0, 1600.0, NO_PIPE, NO_TOP, "EN ISO 10456"},
    {"hardwood", 0.18, 700.0, 1600.0, NO_PIPE, NO_TOP, "EN ISO 10456"},
    {"fibre-cement", 0.3, 1400.0, 950.0, NO_PIPE, NO_TOP, "middle of 0.2 to 0.4, 1100 to 1800, from memory"},
    {"cement-bonded-board", 0.23, 1200.0, 1500.0, NO_PIPE, NO_TOP, "EN ISO 10456, from memory"},
    {"brick", 0.75, 1700.0, 840.0, NO_PIPE, NO_TOP, "CIBSE Guide A, from memory"},
    {"concrete", 1.65, 2200.0, 1000.0, NO_PIPE, NO_TOP, "EN ISO 10456, medium density, from memory"},
    {"aerated-concrete", 0.16, 500.0, 1000.0, NO_PIPE, NO_TOP, "EN ISO 10456, from memory"},
    {"glass", 1.0, 2500.0, 750.0, NO_PIPE, NO_TOP, "EN ISO 10456"},
};

const fv_material *fv_materials(size_t *count)
{
    if (!count)
        return NULL;
    *count = sizeof table / sizeof *table;
    return table;
}

const fv_material *fv_material_find(const char *name)
{
    if (!name)
        return NULL;
    for (size_t i = 0; i < sizeof table / sizeof *table; i++)
        if (strcmp(table[i].name, name) == 0)
            return &table[i];
    return NULL;
}

const fv_material *fv_line_material(const fv_line *line)
{
    if (!line)
        return NULL;
    return fv_material_find(line->material ? line->material : line->kind == FV_LINE_HOSE ? "epdm" : "steel");
}

/* Times the resistance of still air against vapour, wet: ISO 10456, from memory. 0: it lets none through. */
double model_vapour_factor(const char *material)
{
    static const struct {
        const char *name;
        double factor;
    } open[] = {{"mineral-wool", 1}, {"glass-wool", 1}, {"plywood", 70},        {"osb", 30},
                {"softwood", 20},    {"hardwood", 50},  {"fibre-cement", 30},   {"cement-bonded-board", 30},
                {"brick", 10},       {"concrete", 60},  {"aerated-concrete", 6}};
    for (size_t i = 0; material && i < sizeof open / sizeof *open; i++)
        if (strcmp(open[i].name, material) == 0)
            return open[i].factor;
    return 0;
}
