/* SPDX-License-Identifier: MIT */
/* What hands do with the plant as it is; then all sizes, with valves and starts as they are and with the best hands;
 * then for the best of them a handling found anew, since a wider hose wants other valves. */
#include "study/batch.h"
#include "study/size/parts.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>

static const double SAVES_WORK = 1.3; /* times the last core of hands alone */
enum { OF_HANDS = 2, OF_SIZES = 4, OF_ANEW = 12, SHOWN_MOST = 7, ANEW_MOST = 2 }; /* parts of all plans; rows */

enum { HANDS_ALONE = 1 }; /* in the list, where hands do something */

static bool add_solution(size_question *q, size_t candidate, const int *point, const study_scored *score)
{
    void *list = q->list;
    const bool good = fv_grow(&list, &q->capacity, q->count + 1, sizeof *q->list);
    q->list = list;
    if (good)
        q->list[q->count++] = (size_solution){candidate, point, *score};
    return good;
}

static study_effort effort_of(const size_question *q, const size_candidate *c, const int *point)
{
    study_effort effort = study_handling_effort(&q->adviser.handling, point);
    effort.money = c->cost;
    effort.broken = c->broken;
    for (size_t i = 0; i < size_works_of(q->answer, c->choice); i++) {
        effort.money += study_remedy_money(q->answer->works[i]);
        effort.minutes += q->answer->works[i]->minutes;
        effort.before++;
    }
    return effort;
}

void size_solution_settings(const size_question *q, const size_solution *s, study_settings *settings)
{
    size_settings(q->answer, q->pool.list[s->candidate]->choice, settings);
    study_handling_settings(&q->adviser.handling, s->point, settings);
}

/* At full fineness, to the end of the holds. */
static study_ending score_fully(size_question *q, size_solution *list, size_t count)
{
    study_batch batch;
    const bool good = study_batch_open(&batch, count);
    for (size_t i = 0; i < batch.count; i++)
        size_solution_settings(q, &list[i], &batch.settings[i]);
    const study_ending ending = good ? study_batch_evaluate(q->adviser.evaluator, &batch, true, 1) : STUDY_FAILED;
    for (size_t i = 0; i < count && ending == STUDY_DONE; i++)
        list[i].score = (study_scored){batch.outcomes[i], effort_of(q, q->pool.list[list[i].candidate], list[i].point)};
    study_batch_close(&batch);
    return ending;
}

/* ---- all sizes, with one handling ---- */

typedef struct {
    size_question *q;
    const int *hands;
    int kind;    /* 0: as they are, 1: the best hands */
    int *choice; /* room for one */
} sizes;

/* In a choice 0 is the size that is there; on the grid all stand in order, so that neighbours are alike. */
static int rank_of_now(const fv_size_dimension *d)
{
    int rank = 0;
    for (size_t i = 1; i < d->value_count; i++)
        rank += d->values[i] < d->now;
    return rank;
}

static int rank_of(const fv_size_dimension *d, int value)
{
    const int now = rank_of_now(d);
    return value == 0 ? now : value <= now ? value - 1 : value;
}

static const int *choice_of(const sizes *s, const int *point)
{
    const fv_size_answer *a = s->q->answer;
    for (size_t i = 0; i < a->dimension_count; i++) {
        const int now = rank_of_now(&a->dimensions[i]);
        s->choice[i] = point[i] == now ? 0 : point[i] < now ? point[i] + 1 : point[i];
    }
    return s->choice;
}

static void point_of(const sizes *s, const int *choice, int *point)
{
    for (size_t i = 0; i < s->q->answer->dimension_count; i++)
        point[i] = rank_of(&s->q->answer->dimensions[i], choice[i]);
}

static void settings_of(void *context, const int *point, study_settings *settings)
{
    const sizes *s = context;
    size_settings(s->q->answer, choice_of(s, point), settings);
    study_handling_settings(&s->q->adviser.handling, s->hands, settings);
}

static study_effort effort_at(void *context, const int *point)
{
    const sizes *s = context;
    const size_t i = size_pool_find(&s->q->pool, choice_of(s, point)); /* is known by then */
    return effort_of(s->q, s->q->pool.list[i], s->hands);
}

static study_ending screen(void *context, const int *points, size_t count, bool *out)
{
    const sizes *s = context;
    size_pool *pool = &s->q->pool;
    size_t *which = calloc(count + 1, sizeof *which);
    bool good = which != NULL;
    for (size_t i = 0; i < count && good; i++) {
        which[i] = size_pool_find(pool, choice_of(s, points + i * s->q->answer->dimension_count));
        good = which[i] != SIZE_MAX;
    }
    const study_ending ending = good ? size_pool_judge(pool, which, count) : STUDY_FAILED;
    for (size_t i = 0; i < count && ending == STUDY_DONE; i++) {
        out[i] = size_is_out(pool->list[which[i]]);
        pool->list[which[i]]->seen[s->kind] = !out[i];
    }
    free(which);
    return ending;
}

/* What the search looked at, as far as it was followed to the end. */
static study_ending collect(const sizes *s, study_search *search, int *point)
{
    size_question *q = s->q;
    study_ending ending = STUDY_DONE;
    for (size_t i = 0; i < q->pool.count && ending == STUDY_DONE; i++) {
        study_scored score;
        if (!q->pool.list[i]->seen[s->kind])
            continue;
        point_of(s, q->pool.list[i]->choice, point);
        ending = study_search_known(search, point, &score);
        if (ending == STUDY_DONE && score.outcome && score.outcome->ran && !score.outcome->cut &&
            !add_solution(q, i, s->hands, &score))
            ending = STUDY_FAILED;
    }
    return ending;
}

/* What takes much longer than hands alone is hardly bought, even where it saves their work. */
static double longest_wanted(const size_question *q)
{
    const study_outcome *o = q->hands != q->none ? q->list[HANDS_ALONE].score.outcome : NULL;
    return o && o->ran && o->late == 0 && isfinite(o->last) ? SAVES_WORK * o->last : 0;
}

static study_ending try_sizes(size_question *q, const int *hands, int kind, int *best, bool *all)
{
    const size_t n = q->answer->dimension_count;
    int *places = calloc(n + 1, sizeof *places), *steps = calloc(n + 1, sizeof *steps);
    int *starts = calloc(2 * n + 1, sizeof *starts);
    sizes own = {.q = q, .hands = hands, .kind = kind, .choice = calloc(n + 1, sizeof *own.choice)};
    const double longest = longest_wanted(q);
    study_ending ending = places && steps && starts && own.choice ? STUDY_DONE : STUDY_FAILED;
    for (size_t i = 0; i < n && ending == STUDY_DONE; i++) {
        places[i] = (int)q->answer->dimensions[i].value_count;
        steps[i] = places[i] > 4 ? 2 : 1;
        starts[i] =
            q->answer->dimensions[i].part == FV_SIZE_WORK ? places[i] - 1 : rank_of_now(&q->answer->dimensions[i]);
        starts[n + i] = kind == 0 ? starts[i] : best[i];
    }
    const study_grid grid = {.count = n,
                             .places = places,
                             .steps = steps,
                             .context = &own,
                             .settings = settings_of,
                             .effort = effort_at,
                             .screen = screen};
    study_search s = {.evaluator = q->adviser.evaluator,
                      .grid = &grid,
                      .objective = q->objective,
                      .most = q->answer->options.most / OF_SIZES,
                      .fineness = STUDY_ROUGH,
                      .pairs = true,
                      .give_up = longest,
                      .front = true,
                      .best = best};
    if (ending == STUDY_DONE)
        ending = study_search_run(&s, starts, 2);
    if (ending == STUDY_DONE && s.stopped)
        ending = STUDY_STOPPED;
    if (ending == STUDY_DONE)
        ending = collect(&own, &s, starts);
    *all = s.proven;
    free(own.choice);
    free(places);
    free(steps);
    free(starts);
    return ending;
}

/* ---- hands ---- */

static study_ending advise(size_question *q, const fv_change *given, const int *from, size_t count, size_t most,
                           study_advice *advice)
{
    const study_advice_options options = {
        .objective = q->objective, .valves = true, .starts = true, .turns = true, .most = most};
    *advice = (study_advice){.given = given};
    const study_ending ending = study_advise(&q->adviser, &options, from, count, advice);
    q->answer->stopped = q->answer->stopped || (ending == STUDY_DONE && advice->stopped);
    return ending;
}

static study_ending try_hands(size_question *q)
{
    study_advice advice;
    study_settings works = {.arena = q->answer->arena};
    q->hands = q->none;
    if (!q->answer->options.hands)
        return STUDY_DONE;
    int *choice = fv_arena_alloc(q->answer->arena, q->answer->dimension_count + 1, sizeof *choice);
    if (choice && q->answer->work_count > 0)
        choice[q->answer->dimension_count - 1] = (int)q->answer->work_count;
    const size_t worked = choice ? size_pool_find(&q->pool, choice) : SIZE_MAX;
    study_ending ending = worked == SIZE_MAX ? STUDY_FAILED : size_pool_judge(&q->pool, &worked, 1);
    if (ending != STUDY_DONE)
        return ending;
    const size_candidate *c = q->pool.list[worked];
    size_settings(q->answer, choice, &works);
    if (works.failed)
        return STUDY_FAILED;
    ending = advise(q, &works.change, NULL, 0, q->answer->options.most / OF_HANDS, &advice);
    if (ending != STUDY_DONE || !(study_handling_effort(&q->adviser.handling, advice.point).minutes > 0))
        return ending;
    q->hands = advice.point;
    advice.score.effort = effort_of(q, c, advice.point);
    return add_solution(q, worked, advice.point, &advice.score) ? STUDY_DONE : STUDY_FAILED;
}

/* For the best sizes, for the goal and for the earliest last core, a handling of their own. */
static study_ending handle_anew(size_question *q)
{
    study_ending ending = STUDY_DONE;
    const size_t last = q->count;
    const fv_plan_goal goals[ANEW_MOST] = {q->objective.goal, FV_PLAN_EARLIEST};
    size_t before = 0;
    for (size_t k = 0; k < ANEW_MOST && ending == STUDY_DONE && q->answer->options.hands; k++) {
        study_objective objective = q->objective;
        size_t best = 0;
        objective.goal = goals[k];
        for (size_t i = 1; i < last; i++)
            if (size_is_changed(q->answer, q->pool.list[q->list[i].candidate]->choice) &&
                (best == 0 || study_compare(&objective, &q->list[i].score, &q->list[best].score) < 0))
                best = i;
        if (best == 0 || best == before)
            break;
        before = best;
        const size_solution from = q->list[best];
        study_settings settings = {.arena = q->answer->arena};
        study_advice advice;
        size_settings(q->answer, q->pool.list[from.candidate]->choice, &settings);
        ending = settings.failed
                     ? STUDY_FAILED
                     : advise(q, &settings.change, from.point, 1, q->answer->options.most / OF_ANEW, &advice);
        advice.score.effort =
            advice.point ? effort_of(q, q->pool.list[from.candidate], advice.point) : from.score.effort;
        ending = ending == STUDY_DONE && q->answer->stopped ? STUDY_STOPPED : ending;
        if (ending == STUDY_DONE && !add_solution(q, from.candidate, advice.point, &advice.score))
            ending = STUDY_FAILED;
    }
    return ending;
}

/* ---- all of it ---- */

static study_ending score_now(size_question *q)
{
    int *choice = fv_arena_alloc(q->answer->arena, q->answer->dimension_count + 1, sizeof *choice);
    size_t first = choice ? size_pool_find(&q->pool, choice) : SIZE_MAX;
    const study_scored unknown = {0};
    if (first == SIZE_MAX || !add_solution(q, 0, q->none, &unknown))
        return STUDY_FAILED;
    const study_ending ending = size_pool_judge(&q->pool, &first, 1);
    q->pool.list[0]->cost = 0;
    return ending == STUDY_DONE ? score_fully(q, q->list, 1) : ending;
}

/* Of what was only roughly followed, what promises to be shown, followed in full. */
static study_ending settle(size_question *q)
{
    size_front(q, SHOWN_MOST);
    const study_ending ending = score_fully(q, q->list + 1, q->count - 1);
    if (ending == STUDY_DONE)
        size_front(q, SHOWN_MOST);
    return ending;
}

study_ending size_search(size_question *q)
{
    fv_size_answer *a = q->answer;
    bool all = false, with_hands = true;
    study_evaluator_progress(q->adviser.evaluator, 0, 0.4, "trying what hands can do");
    study_ending ending = a->options.hands ? size_find_works(q) : STUDY_DONE;
    int *best = fv_arena_alloc(a->arena, a->dimension_count + 1, sizeof *best);
    if (ending == STUDY_DONE)
        ending = best ? score_now(q) : STUDY_FAILED;
    const bool known = ending == STUDY_DONE; /* the plant as it is */
    if (ending == STUDY_DONE)
        ending = try_hands(q);
    ending = ending == STUDY_DONE && a->stopped ? STUDY_STOPPED : ending;
    study_evaluator_progress(q->adviser.evaluator, 0.4, 0.8, "trying sizes");
    if (ending == STUDY_DONE)
        ending = try_sizes(q, q->none, 0, best, &all);
    if (ending == STUDY_DONE && q->hands != q->none)
        ending = try_sizes(q, q->hands, 1, best, &with_hands);
    study_evaluator_progress(q->adviser.evaluator, 0.8, 0.9, "trying hands with the best sizes");
    if (ending == STUDY_DONE)
        ending = handle_anew(q);
    a->stopped = a->stopped || ending == STUDY_STOPPED;
    a->exhaustive = all && with_hands && !a->stopped;
    if (a->stopped && known) { /* what is there is worked out, and not asked again */
        study_evaluator_close_up(q->adviser.evaluator);
        q->work.progress = NULL;
    }
    return ending == STUDY_DONE || (ending == STUDY_STOPPED && known) ? settle(q) : ending;
}
