/* SPDX-License-Identifier: MIT */
/* Whether a load weighs what its medium can weigh: mass over the volume of its pieces, kg/m3, against the medium's
 * usual density (fv_heat_typical_density; common practice, no source) and against the density without any pores, which
 * nothing exceeds. Far off, the likely slip is named. */
#include "steady/load_check.h"
#include "farvessel/heat.h"

#include <math.h>
#include <stdio.h>

static const double LIGHT = 0.4, HEAVY = 2.0; /* of the usual density: what is beyond is rather a slip */
static const double NO_PORES = 0.001;         /* a density just above that of no pores has none left */
static const double MEASURED = 1.05;          /* sizes and masses are known so well */

typedef struct {
    const fv_vessel *vessel;
    fv_medium medium;
    double pieces, volume, density, usual; /* volume: of a piece, m3 */
} weighing;

/* False: it is not known how much its volume is. */
static bool weigh(const fv_vessel *vessel, weighing *w)
{
    const fv_load *load = &vessel->load;
    const bool bed = fv_word(load->form) == FV_FORM_BED;
    *w = (weighing){.vessel = vessel, .medium = (fv_medium)fv_word(load->medium)};
    w->volume = fv_load_piece_volume(load);
    w->pieces = bed ? 1 : load->count.v;
    w->density = fv_is_set(load->mass) ? load->mass.v / (w->pieces * w->volume) : load->density.v;
    w->usual = fv_heat_typical_density(w->medium, load->moisture.v, bed);
    return isfinite(w->density) && w->usual > 0;
}

static bool is_usual(const weighing *w, double density)
{
    return density >= LIGHT * w->usual && density <= HEAVY * w->usual;
}

/* No pore is left, even with the sizes a little larger than measured. */
static bool is_impossible(const weighing *w)
{
    const double density = w->density / MEASURED;
    return density > w->usual && fv_heat_pore_share(w->medium, w->vessel->load.moisture.v, density) < NO_PORES;
}

/* What was probably meant, as something that can be written; "" where nothing comes to mind. */
static const char *slip(const weighing *w, char *text, size_t size)
{
    const fv_load *load = &w->vessel->load;
    text[0] = '\0';
    if (!fv_is_set(load->mass))
        return text;
    if (is_usual(w, w->density * w->pieces) && w->pieces > 1)
        snprintf(text, size, "; is %.4g kg the mass of one piece? then write mass-each=\"%.4g kg\" instead of mass",
                 load->mass.v, load->mass.v);
    else if (is_usual(w, w->density / 2.20462))
        snprintf(text, size, "; are %.4g lb meant? then write mass=\"%.4g lb\"", load->mass.v, load->mass.v);
    else if (is_usual(w, w->density * 2.20462))
        snprintf(text, size, "; was the mass %.4g kg, noted as pounds?", load->mass.v * 2.20462);
    return text;
}

static void say(const weighing *w, fv_faults *faults)
{
    char meant[160];
    const fv_load *load = &w->vessel->load;
    const bool impossible = is_impossible(w);
    (impossible ? fv_error : fv_caution)(
        faults, FV_ERR_INPUT, load->part.loc,
        "vessel '%s': its load comes to %.0f kg/m3 of its pieces; %s at %.0f %% moisture is usually near %.0f "
        "kg/m3%s%s",
        w->vessel->part.id, w->density, fv_medium_name(w->medium), 100 * load->moisture.v, w->usual,
        impossible ? ", and so much does not go into that volume without pores: check mass, count and sizes" : "",
        slip(w, meant, sizeof meant));
}

/* Vessels of one kind are told once. */
static bool was_told(const fv_plant *plant, size_t vessel, const weighing *w)
{
    weighing other;
    for (size_t i = 0; i < vessel; i++)
        if (plant->vessels[i]->load.part.loc.line == w->vessel->load.part.loc.line ||
            (plant->vessels[i]->part.like && w->vessel->part.like && weigh(plant->vessels[i], &other) &&
             other.density == w->density))
            return true;
    return false;
}

void steady_check_loads(const fv_plant *plant, fv_faults *faults)
{
    weighing w;
    for (size_t i = 0; i < plant->vessel_count; i++)
        if (weigh(plant->vessels[i], &w) && !is_usual(&w, w.density) && !was_told(plant, i, &w))
            say(&w, faults);
}
