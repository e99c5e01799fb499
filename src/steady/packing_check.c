/* SPDX-License-Identifier: MIT */
/* How a load is packed decides more than anything else when its core is hot. Where it fills much of its vessel, that
 * must be said: the choices are told with the time that conduction alone takes in each, steam around at once. */
#include "steady/packing_check.h"
#include "steady/piece.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const double LOOSE_FILL = 0.4;    /* of the volume; pieces thrown in lie closer: common practice, no source */
static const double CONTACT_MOST = 0.12; /* R k/s of rows: up to there their middle's time is right to 3 % */

/* Of its volume, what its pieces take; NaN: not known. */
static double fill_of(const fv_vessel *v)
{
    return v->load.count.v * fv_load_piece_volume(&v->load) / v->volume.v;
}

bool fv_packing_is_silent(const fv_vessel *v)
{
    if (!v)
        return false;
    return fv_word(v->load.form) != FV_FORM_BED && v->load.packing.origin <= FV_ASSUMED && fill_of(v) > LOOSE_FILL;
}

/* One choice, with its time. */
static void add_choice(const fv_plant *plant, const fv_vessel *v, const fv_load *as, double t_steam, const char *said,
                       fv_text *out)
{
    const double just_below = 1.0; /* K: targets above are cut off there, as times go to infinity */
    const double t_start = fv_or(v->load.start_temperature, plant->site.air.v);
    steady_piece piece;
    if (steady_piece_of(as, fv_load_mass(as), t_start, v->target.v, &piece) == FV_FAIL)
        return;
    const double target = fmin(v->target.v, t_steam - just_below);
    const double time = steady_piece_time(as, &piece, t_start, t_steam, target);
    fv_text_add(out, "%s%s %.1f h", out->length ? ", " : "", said, time / 3600);
}

static void add_rows(const fv_plant *plant, const fv_vessel *v, double t_steam, const char *of, fv_text *out)
{
    char said[64];
    fv_load as = v->load;
    as.packing.v = FV_PACKING_ROWS;
    as.of = of;
    snprintf(said, sizeof said, "packing=\"rows\" of=\"%s\"", of);
    add_choice(plant, v, &as, t_steam, said, out);
}

static void say_choices(const fv_plant *plant, const fv_vessel *v, double t_steam, fv_faults *faults)
{
    fv_text choices = {0};
    fv_load as = v->load;
    as.packing.v = FV_PACKING_LOOSE;
    add_choice(plant, v, &as, t_steam, "packing=\"loose\" (steam gets between all)", &choices);
    if (fv_word(v->load.form) == FV_FORM_BLOCK) {
        add_rows(plant, v, t_steam, "1 x 1 x 2", &choices);
        add_rows(plant, v, t_steam, "2 x 2 x 5", &choices);
    }
    const double side = cbrt(v->load.count.v * fv_load_piece_volume(&v->load));
    as.packing.v = FV_PACKING_PACKED;
    as.stack_a.v = as.stack_b.v = as.stack_c.v = side;
    add_choice(plant, v, &as, t_steam, "packing=\"packed\" (one mass, with stack-a, stack-b, stack-c)", &choices);
    fv_error(faults, FV_ERR_INPUT, v->load.part.loc,
             "vessel '%s': its load takes %.0f %% of its volume and does not say how it is packed, which decides most "
             "when its core is at the target; by conduction alone: %s; say which",
             v->part.id, 100 * fill_of(v), choices.text ? choices.text : "");
    fv_text_free(&choices);
}

/* Vessels of one kind are told once. */
static bool was_told(const fv_plant *plant, size_t vessel)
{
    const fv_vessel *v = plant->vessels[vessel];
    for (size_t i = 0; i < vessel; i++)
        if (fv_packing_is_silent(plant->vessels[i]) && plant->vessels[i]->part.like && v->part.like &&
            strcmp(plant->vessels[i]->part.like, v->part.like) == 0)
            return true;
    return false;
}

fv_status fv_packing_check(const fv_plant *plant, const fv_sat *sat, fv_faults *faults)
{
    if (!plant)
        return fv_error_null(faults, __func__);
    const double t_steam = fv_sat_t(sat ? sat : fv_sat_line(), fv_site_pressure(&plant->site), NULL);
    bool good = true;
    for (size_t i = 0; i < plant->vessel_count; i++) {
        if (!fv_packing_is_silent(plant->vessels[i]))
            continue;
        good = false;
        if (!was_told(plant, i))
            say_choices(plant, plant->vessels[i], t_steam, faults);
    }
    return good ? FV_OK : FV_FAIL;
}

void steady_check_rows(const fv_plant *plant, fv_faults *faults)
{
    for (size_t i = 0; i < plant->vessel_count; i++) {
        const fv_vessel *v = plant->vessels[i];
        const double t_start = fv_or(v->load.start_temperature, plant->site.air.v);
        steady_piece piece;
        int n[3];
        if (fv_word(v->load.packing) != FV_PACKING_ROWS || !fv_load_rows(&v->load, n) ||
            steady_piece_of(&v->load, fv_load_mass(&v->load), t_start, v->target.v, &piece) == FV_FAIL)
            continue;
        double worst = 0;
        for (int k = 0; k < 3; k++) /* along = 1/(1 + 2 c R k/(n s)) */
            if (n[k] > 2)
                worst = fmax(worst, (1 / piece.along[k] - 1) * n[k] / (2 * ((n[k] - 1) / 2)));
        if (worst > CONTACT_MOST)
            fv_caution(faults, FV_ERR_PHYSICS, v->load.part.loc,
                       "vessel '%s': its rows touch so badly (%.2f of a piece's own resistance) that the time of their "
                       "middle is more than 3 %% uncertain",
                       v->part.id, worst);
    }
}
