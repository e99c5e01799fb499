/* SPDX-License-Identifier: MIT */
/* The fire turned down when the last core is there, whichever it turns out to be: from then on steam only has to hold.
 * Shares by twentieths, each followed in full; a twentieth more than the least that breaks no hold is advised, for the
 * wind. */
#include "study/batch.h"
#include "study/plan/parts.h"

#include <math.h>

static const double STEP = 0.05;
static const double SAVES = 0.97; /* of the steam: what saves less is not worth a walk */
static const double LATER = 60;   /* s: the last hold may end so much later */
enum { FIRST = 2, LAST = 19 };    /* twentieths */

static bool has_own_fire(const fv_plant *plant)
{
    for (size_t i = 0; i < plant->action_count; i++)
        if (plant->actions[i]->boiler)
            return true;
    return false;
}

static size_t last_vessel(const fv_plant *plant, const study_outcome *o)
{
    size_t last = 0;
    for (size_t i = 1; i < plant->vessel_count; i++)
        last = o->core[i] > o->core[last] || isnan(o->core[last]) ? i : last;
    return last;
}

/* All fires at this part of what they are. */
static void add_actions(const fv_plant *plant, int twentieths, study_settings *s)
{
    for (size_t i = 0; i < plant->boiler_count && !s->failed; i++) {
        const fv_boiler *b = plant->boilers[i];
        study_action_add(s, &(fv_change_action){.after = "last core",
                                                .boiler = b->part.id,
                                                .value = round(100 * STEP * twentieths * b->fire.v) / 100});
    }
}

static bool keeps_all(const study_outcome *o, const study_outcome *now)
{
    return o->ran && o->unsafe <= now->unsafe && o->late <= now->late && study_holds_unbroken(o) &&
           o->done <= now->done + LATER;
}

/* The least that breaks nothing, counted down from the full fire; LAST + 1: none. */
static int least_fire(const study_batch *batch, const study_outcome *now)
{
    int least = LAST + 1;
    while (least > FIRST && keeps_all(batch->outcomes[least - 1 - FIRST], now))
        least--;
    return least;
}

study_ending plan_turn_down(plan_question *q, plan_candidate *c)
{
    const fv_plant *plant = q->answer->plant;
    const study_outcome *now = c->score.outcome;
    if (!now || !now->ran || now->late > 0 || isnan(now->done) || now->done <= now->last || has_own_fire(plant))
        return STUDY_DONE;
    study_batch batch;
    const bool good = study_batch_open(&batch, LAST + 1 - FIRST);
    for (size_t i = 0; i < batch.count; i++) {
        study_change_add(&batch.settings[i], &c->given);
        study_handling_settings(&q->adviser.handling, c->point, &batch.settings[i]);
        add_actions(plant, FIRST + (int)i, &batch.settings[i]);
    }
    study_ending ending = good ? study_batch_evaluate(q->adviser.evaluator, &batch, true, 1) : STUDY_FAILED;
    const int advised = ending == STUDY_DONE ? least_fire(&batch, now) + 1 : LAST + 1;
    const study_outcome *o = advised <= LAST ? batch.outcomes[advised - FIRST] : NULL;
    if (o && o->steam < SAVES * now->steam) {
        study_settings settings = {.arena = q->answer->arena};
        add_actions(plant, advised, &settings);
        c->fire = settings.change;
        c->fire_vessel = last_vessel(plant, now);
        c->fuel_full = now->fuel;
        c->score.outcome = o;
        c->score.effort.minutes += STUDY_WALK;
        c->score.effort.during++;
        ending = settings.failed ? STUDY_FAILED : ending;
    }
    study_batch_close(&batch);
    return ending;
}
