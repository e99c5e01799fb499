/* SPDX-License-Identifier: MIT */
/* The fire turned down when the last core is there, whichever it turns out to be: from then on steam only has to hold.
 * Shares by twentieths, each followed in full; a twentieth more than the least that breaks no hold is advised, for the
 * wind. */
#include "study/batch.h"
#include "study/plan/parts.h"

#include <math.h>
#include <string.h>

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

/* In place of what the plant itself turns down at a core: this part of each fire as it is lit. */
static void add_instead(const fv_plant *plant, double part, study_settings *s)
{
    static const char at_core[] = " core";
    for (size_t i = 0; i < plant->action_count; i++) {
        const fv_action *a = plant->actions[i];
        const char *end = a->after ? strrchr(a->after, ' ') : NULL;
        const int boiler = a->boiler ? fv_plant_boiler_index(plant, a->boiler) : -1;
        const double fire = boiler >= 0 ? round(100 * part * plant->boilers[boiler]->fire.v) / 100 : 0;
        if (end && strcmp(end, at_core) == 0 && a->fire.v > 0 && fire > a->fire.v)
            study_action_add(s, &(fv_change_action){
                                    .after = a->after, .at = fv_or(a->delay, 0), .boiler = a->boiler, .value = fire});
    }
}

static void add_fires(const fv_plant *plant, bool left, int twentieths, study_settings *s)
{
    if (left)
        add_instead(plant, STEP * twentieths, s);
    else
        add_actions(plant, twentieths, s);
}

study_ending plan_leave_fire(plan_question *q)
{
    const study_outcome *now = q->list[0].score.outcome;
    study_settings settings = {.arena = q->answer->arena};
    if (now->ran && isfinite(now->last) && !study_holds_unbroken(now))
        add_instead(q->answer->plant, 1, &settings);
    q->left = settings.change;
    return settings.failed ? STUDY_FAILED : STUDY_DONE;
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
    const bool left = c->leaves;
    plan_candidate turned = *c;
    if (!now || !now->ran || now->late > 0 || isnan(now->done) || now->done <= now->last ||
        (has_own_fire(plant) && !left))
        return STUDY_DONE;
    study_batch batch;
    const bool good = study_batch_open(&batch, LAST + 1 - FIRST) && plan_give(q, &turned, false);
    for (size_t i = 0; i < batch.count; i++) {
        study_change_add(&batch.settings[i], &turned.given);
        study_handling_settings(&q->adviser.handling, c->point, &batch.settings[i]);
        add_fires(plant, left, FIRST + (int)i, &batch.settings[i]);
    }
    study_ending ending = good ? study_batch_evaluate(q->adviser.evaluator, &batch, true, 1) : STUDY_FAILED;
    const int advised = ending == STUDY_DONE ? least_fire(&batch, now) + 1 : LAST + 1;
    const study_outcome *o = advised <= LAST ? batch.outcomes[advised - FIRST] : NULL;
    if (o && o->steam < SAVES * now->steam) {
        study_settings settings = {.arena = q->answer->arena};
        add_fires(plant, left, advised, &settings);
        c->given = turned.given;
        c->fire = settings.change;
        c->fuel_full = now->fuel;
        c->score.outcome = o;
        plan_add_effort(q, c);
        ending = settings.failed ? STUDY_FAILED : ending;
    }
    study_batch_close(&batch);
    return ending;
}
