/* SPDX-License-Identifier: MIT */
/* All remedies: those of the boilers, and those of lines and vessels. */
#include "farvessel/constants.h"
#include "study/remedies.h"

#include <math.h>

enum { STEPS = 2 };
static const double CONTROL_GROWTH = 2; /* times the control pressure */
static const double BELOW_RELIEF = 0.9;
static const double WORTH = 1.05; /* a control pressure raised by less is not worth trying */

static void more_fire(study_remedies *r)
{
    study_remedy_begin(r, FV_REMEDY_FIRE, FV_EFFORT_FREE);
    for (size_t i = 0; i < r->plant->boiler_count; i++) {
        const fv_boiler *b = r->plant->boilers[i];
        if (b->fire.v < 1)
            study_remedy_set(r, b->part.id, b->fire.v, 1, "fire", "%s", b->part.id);
    }
    study_remedy_end(r);
}

static void more_pressure(study_remedies *r)
{
    study_remedy_begin(r, FV_REMEDY_CONTROL, FV_EFFORT_FREE);
    for (size_t i = 0; i < r->plant->boiler_count; i++) {
        const fv_boiler *b = r->plant->boilers[i];
        const double most = fmin(FV_PRESSURE_EQUIPMENT, BELOW_RELIEF * fv_or(b->relief, INFINITY));
        const double to = 100 * floor(fmin(CONTROL_GROWTH * b->holds.v, most) / 100); /* whole millibars */
        if (to > WORTH * b->holds.v)
            study_remedy_set(r, b->part.id, b->holds.v, to, "holds", "%s", b->part.id);
    }
    study_remedy_end(r);
}

/* As its water boils away, by a float valve or somebody at hand. */
static void feed(study_remedies *r)
{
    study_remedy_begin(r, FV_REMEDY_FEED, FV_EFFORT_SMALL);
    study_remedy_cost(r, NAN);
    for (size_t i = 0; i < r->plant->boiler_count; i++) {
        const fv_boiler *b = r->plant->boilers[i];
        if (fv_word(b->feeding) == FV_FEED_BY_HAND)
            study_remedy_set(r, b->part.id, FV_FEED_BY_HAND, FV_FEED_AUTOMATIC, "feeding", "%s", b->part.id);
    }
    study_remedy_end(r);
}

static void bigger_boiler(study_remedies *r, int step)
{
    const fv_plant *plant = r->plant;
    size_t smallest = 0;
    study_size size;
    for (size_t i = 1; i < plant->boiler_count; i++)
        if (plant->boilers[i]->output.v < plant->boilers[smallest]->output.v)
            smallest = i;
    const fv_boiler *b = plant->boilers[smallest];
    if (!study_size_next(plant, FV_STOCK_BOILER, b->output.v, step, &size))
        return;
    study_remedy_begin(r, FV_REMEDY_BOILER, FV_EFFORT_BUY);
    study_remedy_set(r, b->part.id, b->output.v, size.size, "output", "%s", b->part.id);
    study_remedy_size(r, &size);
    study_remedy_cost(r, size.price);
    study_remedy_end(r);
}

bool study_remedies_list(study_remedies *r)
{
    study_remedies_of_lines(r);
    study_remedies_of_vessels(r);
    more_fire(r);
    more_pressure(r);
    feed(r);
    for (int step = 1; step <= STEPS; step++)
        bigger_boiler(r, step);
    return !r->failed;
}

bool study_works_list(fv_arena *arena, const fv_plant *plant, int latest, study_remedies *works)
{
    study_ways ways;
    bool *faster = fv_arena_alloc(arena, plant->vessel_count + 1, sizeof *faster);
    *works = (study_remedies){
        .plant = plant, .ways = &ways, .target = (size_t)(latest < 0 ? 0 : latest), .faster = faster, .arena = arena};
    if (!faster || !study_ways_find(plant, arena, &ways) || !study_remedies_list(works))
        return false;
    size_t kept = 0;
    for (size_t i = 0; i < works->count; i++)
        if (works->list[i].effort != FV_EFFORT_BUY && works->list[i].kind != FV_REMEDY_HOSE_LENGTH &&
            study_remedy_is_move(works->list[i].kind))
            works->list[kept++] = works->list[i];
    works->count = kept;
    works->ways = NULL; /* of this function */
    return true;
}
