/* SPDX-License-Identifier: MIT */
/* Checks of a plant that need steam: what its site and its pressures allow. */
#include "farvessel/constants.h"
#include "farvessel/steady.h"
#include "steady/load_check.h"
#include "steady/need.h"
#include "steady/packing_check.h"

#include <math.h>

static const double NEAR_BOILING = 2.0; /* K: a target this near makes the time ill-conditioned */
static const double CHOKES_NEAR =
    0.5e5; /* Pa gauge: above it steam after a choked hole is lighter than assumed by some percent */
static const double SWINGS = 0.01;    /* of a wall's loss: vapour that goes to and fro */
static const double BOILING = 373.15; /* K: what stands less was said without knowing the site */

static void check_target(const fv_vessel *v, double t_boil, fv_faults *faults)
{
    if (v->target.v >= t_boil)
        fv_caution(faults, FV_ERR_PHYSICS, v->part.loc,
                   "vessel '%s': its target is %.1f degC, but water boils at %.1f degC on this site and a vented "
                   "vessel gets no hotter; take a lower target and a longer hold",
                   v->part.id, v->target.v - FV_CELSIUS, t_boil - FV_CELSIUS);
    else if (v->target.v > t_boil - NEAR_BOILING)
        fv_caution(faults, FV_ERR_PHYSICS, v->part.loc,
                   "vessel '%s': its target of %.1f degC is within %.0f K of the boiling point here, %.1f degC: the "
                   "time to it is "
                   "ill-conditioned",
                   v->part.id, v->target.v - FV_CELSIUS, NEAR_BOILING, t_boil - FV_CELSIUS);
}

/* K above which a thermostat lets no steam into its chamber, all the time; INFINITY: none does. */
static double kept_at(const fv_plant *plant, int vessel)
{
    double least = INFINITY;
    for (size_t k = 0; k < plant->thermostat_count; k++) {
        const fv_thermostat *t = plant->thermostats[k];
        if (t->vessel_index == vessel && !t->of_core && !(t->from.v > 0) && !fv_is_set(t->until))
            least = fmin(least, t->above.v);
    }
    return least;
}

/* Free steam is at the boiling point, and what lies outermost is soon as hot: only air mixed in keeps a load cooler. */
static void check_overheating(const fv_vessel *v, double t_boil, double kept, fv_faults *faults)
{
    static const char *const films[] = {"LDPE", "HDPE", "PP"};
    const double softens = fv_bag_limit(&v->load), meets = fmin(t_boil, kept);
    if (softens < meets)
        fv_caution(
            faults, FV_ERR_PHYSICS, v->load.part.loc,
            "vessel '%s': bags of %s soften from %.0f degC and meet %.1f degC as soon as the steam has driven the "
            "air out; they stick, open and leak",
            v->part.id, films[fv_word(v->load.bag)], softens - FV_CELSIUS, meets - FV_CELSIUS);
    if (fv_is_set(v->at_most) && v->at_most.v < meets)
        fv_caution(faults, FV_ERR_PHYSICS, v->part.loc,
                   "vessel '%s': no part of its load should pass %.0f degC, but what lies outermost comes to %.1f degC "
                   "with the steam and stays there until it is shut; only steam mixed with air keeps below",
                   v->part.id, v->at_most.v - FV_CELSIUS, meets - FV_CELSIUS);
}

static void check_material(const char *name, double t, const char *what, const fv_part *part, fv_faults *faults)
{
    const fv_material *m = name ? fv_material_find(name) : NULL;
    if (m && m->most < t && m->most >= BOILING)
        fv_caution(faults, FV_ERR_PHYSICS, part->loc, "%s '%s': %s is not rated above %.0f degC and may meet %.0f degC",
                   what, part->id ? part->id : "?", name, m->most - FV_CELSIUS, t - FV_CELSIUS);
}

static void check_lines(const fv_plant *plant, double t_most, fv_faults *faults)
{
    for (size_t i = 0; i < plant->line_count; i++) {
        const fv_line *line = plant->lines[i];
        const char *what = line->kind == FV_LINE_HOSE ? "hose" : line->kind == FV_LINE_PIPE ? "pipe" : "header";
        check_material(line->material, t_most, what, &line->part, faults);
        if (line->lagging.v > 0)
            check_material(line->lagging_material, t_most, what, &line->part, faults);
    }
}

static void check_vapour(const fv_plant *plant, const fv_vessel *v, size_t wall, double t_boil, fv_faults *faults)
{
    if (fv_is_set(v->uptake)) /* said: what the walls take is not asked */
        return;
    const double swing = steady_wall_swing(plant, v, wall, t_boil);
    if (swing > SWINGS)
        fv_caution(
            faults, FV_ERR_NUMERICS, v->walls[wall]->part.loc,
            "vessel '%s': vapour in this wall settles behind none of its layers, and %.0f %% of the loss goes with "
            "it: look at vapour-resistance and conductivity, or say what the vessel takes (uptake)",
            v->part.id, 100 * swing);
}

void fv_steady_check(const fv_plant *plant, const fv_sat *sat, fv_faults *faults)
{
    if (!plant || !sat) {
        fv_error_null(faults, __func__);
        return;
    }
    const double site = fv_site_pressure(&plant->site), t_boil = fv_sat_t(sat, site, NULL);
    double highest = 0;
    for (size_t i = 0; i < plant->boiler_count; i++) {
        const fv_boiler *b = plant->boilers[i];
        highest = fmax(highest, b->holds.v);
        if (b->feed.v >= t_boil)
            fv_error(faults, FV_ERR_PHYSICS, b->part.loc,
                     "boiler '%s': its feed water is at %.1f degC, at or above the boiling point here, %.1f degC",
                     b->part.id, b->feed.v - FV_CELSIUS, t_boil - FV_CELSIUS);
        if (b->holds.v > CHOKES_NEAR)
            fv_caution(faults, FV_ERR_PHYSICS, b->part.loc,
                       "boiler '%s': it holds more than 0.5 bar; where steam chokes it is then some percent lighter "
                       "than this model has it",
                       b->part.id);
    }
    check_lines(plant, fv_sat_t(sat, site + highest, NULL), faults);
    fv_packing_check(plant, sat, faults);
    steady_check_loads(plant, faults);
    steady_check_rows(plant, faults);
    for (size_t i = 0; i < plant->vessel_count; i++) {
        const fv_vessel *v = plant->vessels[i];
        check_target(v, t_boil, faults);
        check_overheating(v, t_boil, kept_at(plant, (int)i), faults);
        for (size_t k = 0; k < v->wall_count; k++) {
            check_vapour(plant, v, k, t_boil, faults);
            for (size_t j = 0; j < v->walls[k]->layer_count; j++)
                check_material(v->walls[k]->layers[j]->material, t_boil, "vessel", &v->part, faults);
        }
    }
}

fv_status fv_steady_remarks(const fv_plant *plant, const fv_sat *sat, fv_faults *faults)
{
    if (!plant)
        return fv_error_null(faults, __func__);
    fv_faults *found = fv_faults_new();
    bool good = found;
    if (good)
        fv_steady_check(plant, sat ? sat : fv_sat_line(), found);
    else
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
    for (size_t i = 0; i < fv_faults_count(found); i++) {
        const fv_fault *f = fv_faults_at(found, i);
        const bool refused = !f->caution && f->blame == FV_ERR_INPUT;
        good = good && !refused;
        (refused ? fv_error : fv_caution)(faults, f->blame, (fv_loc){f->file, f->line}, "%s", f->text);
    }
    fv_faults_free(found);
    return good ? FV_OK : FV_FAIL;
}
