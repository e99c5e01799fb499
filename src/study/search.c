/* SPDX-License-Identifier: MIT */
#include "study/search.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double SIEVE_ERRS = 0.005; /* of times: by how much rough runs differ from fine ones */
enum { ENUMERATED = 5000, PROPOSED = 64, CHUNK = 64, TOGETHER = 8 };

/* Points of a batch and what came of them. */
typedef struct {
    int *points;
    study_scored *scores;
    size_t count, capacity;
} batch;

typedef struct {
    study_search *s;
    batch b;
    int *steps; /* by knob, as they are now */
    bool far;   /* polishes by more than single steps */
    int *at;    /* a point that is being made up */
    size_t *order;
} walk;

static size_t knobs(const walk *w)
{
    return w->s->grid->count;
}

static const int *row(const walk *w, size_t i)
{
    return w->b.points + i * knobs(w);
}

static bool add(walk *w, const int *point)
{
    const size_t n = knobs(w);
    if (w->b.count == w->b.capacity) {
        const size_t capacity = w->b.capacity ? 2 * w->b.capacity : CHUNK;
        int *points = realloc(w->b.points, (capacity * n + 1) * sizeof *points);
        w->b.points = points ? points : w->b.points;
        study_scored *scores = points ? realloc(w->b.scores, capacity * sizeof *scores) : NULL;
        if (!scores)
            return false;
        w->b.scores = scores;
        w->b.capacity = capacity;
    }
    memcpy(w->b.points + w->b.count++ * n, point, n * sizeof *point);
    return true;
}

/* What is asked of points; skip[i]: out of the question. */
typedef struct {
    study_settings *settings;
    study_ask *asks;
    const study_outcome **outcomes;
    bool *skip;
} asking;

static bool open_asking(asking *a, size_t count)
{
    *a = (asking){.settings = calloc(count + 1, sizeof *a->settings),
                  .asks = calloc(count + 1, sizeof *a->asks),
                  .outcomes = calloc(count + 1, sizeof *a->outcomes),
                  .skip = calloc(count + 1, sizeof *a->skip)};
    return a->settings && a->asks && a->outcomes && a->skip;
}

static void close_asking(asking *a, size_t count)
{
    for (size_t i = 0; i < count && a->settings; i++)
        if (a->settings[i].arena)
            study_settings_free(&a->settings[i]);
    free(a->settings);
    free(a->asks);
    free(a->outcomes);
    free(a->skip);
}

/* How points are followed. */
typedef struct {
    double fineness;
    bool follow;                 /* to the end of the holds */
    bool known;                  /* as far as they were followed before */
    const bool *skip;            /* which are not; NULL: all are */
    double slack;                /* of times: how much later than the best it may look and still be better */
    const study_scored *against; /* the best so far: what cannot be better is given up; NULL: as long as it takes */
} manner;

/* Something to be beaten is known: what is given up then is not ranked among others that are, by how early it was. */
static bool is_followed(const study_scored *best)
{
    return best && best->outcome && best->outcome->ran && !best->outcome->cut;
}

/* How far to follow what takes this effort. */
static study_limits limits_of(const study_search *s, const manner *m, const study_effort *effort)
{
    const study_scored *against = m->against;
    const bool earliest = s->objective.goal == FV_PLAN_EARLIEST;
    study_limits limits = {.until = m->known ? 0 : INFINITY};
    if (against && against->outcome && (!s->front || earliest))
        limits = study_limits_to_win(&s->objective, against, effort);
    if (against && s->front)
        limits.late_ends = 0;
    if (study_goal_follows(s->objective.goal))
        limits.until = INFINITY;
    else if (against && s->give_up > 0)
        limits.until = fmin(limits.until, s->give_up);
    limits.until *= 1 + m->slack;
    return limits;
}

static study_ending score_some(study_search *s, const int *points, size_t count, const manner *m, study_scored *scores)
{
    const size_t n = s->grid->count;
    size_t asked = 0;
    asking a;
    bool good = open_asking(&a, count);
    study_ending ending = !good             ? STUDY_FAILED
                          : s->grid->screen ? s->grid->screen(s->grid->context, points, count, a.skip)
                                            : STUDY_DONE;
    for (size_t i = 0; i < count && good && ending == STUDY_DONE; i++) {
        scores[i] = (study_scored){.effort = s->grid->effort(s->grid->context, points + i * n)};
        const study_limits limits = limits_of(s, m, &scores[i].effort);
        a.skip[i] = a.skip[i] || (m->skip && m->skip[i]) || (m->against && !(limits.until > 0));
        if (a.skip[i])
            continue;
        study_settings_open(&a.settings[i]);
        s->grid->settings(s->grid->context, points + i * n, &a.settings[i]);
        good = !a.settings[i].failed || a.settings[i].unsayable;
        a.skip[i] = a.settings[i].unsayable;
        if (!a.skip[i])
            a.asks[asked++] = (study_ask){.change = &a.settings[i].change,
                                          .follow = m->follow,
                                          .fineness = m->fineness,
                                          .until = limits.until,
                                          .give_up = is_followed(m->against),
                                          .late_ends = limits.late_ends};
    }
    if (good && ending == STUDY_DONE)
        ending = study_evaluate(s->evaluator, a.asks, asked, a.outcomes);
    asked = 0;
    for (size_t i = 0; i < count && good && ending == STUDY_DONE; i++)
        scores[i].outcome = a.skip[i] ? NULL : a.outcomes[asked++];
    close_asking(&a, count);
    return good ? ending : STUDY_FAILED;
}

study_ending study_search_score(study_search *s, const int *points, size_t count, double fineness, bool follow,
                                study_scored *scores)
{
    return score_some(s, points, count, &(manner){.fineness = fineness, .follow = follow}, scores);
}

/* Whether the goal's runs go to the end of the holds anyway. */
static bool follows(const study_search *s)
{
    return study_goal_follows(s->objective.goal);
}

/* By rough runs: which points of the batch cannot be better than the best, though these runs err. */
static study_ending sift(walk *w, bool *skip)
{
    study_search *s = w->s;
    study_scored best = {0};
    manner m = {.fineness = s->sieve, .against = &best, .slack = SIEVE_ERRS};
    study_ending ending = study_search_score(s, s->best, 1, s->sieve, false, &best);
    if (ending == STUDY_DONE)
        ending = score_some(s, w->b.points, w->b.count, &m, w->b.scores);
    for (size_t i = 0; i < w->b.count && ending == STUDY_DONE; i++) {
        study_outcome hopeful;
        study_scored as_hoped = w->b.scores[i];
        if (as_hoped.outcome) {
            hopeful = study_outcome_hopeful(as_hoped.outcome, SIEVE_ERRS);
            as_hoped.outcome = &hopeful;
        }
        skip[i] = study_compare(&s->objective, &as_hoped, &best) >= 0;
    }
    return ending;
}

static study_ending score_batch(walk *w)
{
    study_search *s = w->s;
    const size_t before = study_evaluator_plans(s->evaluator);
    bool *skip = calloc(w->b.count + 1, sizeof *skip);
    const manner m = {.fineness = s->fineness, .follow = follows(s), .against = &s->score, .skip = skip};
    study_ending ending = skip ? STUDY_DONE : STUDY_FAILED;
    if (ending == STUDY_DONE && s->sieve > 0 && s->score.outcome && !follows(s))
        ending = sift(w, skip);
    if (ending == STUDY_DONE)
        ending = score_some(s, w->b.points, w->b.count, &m, w->b.scores);
    free(skip);
    s->looked_at += study_evaluator_plans(s->evaluator) - before;
    return ending;
}

study_ending study_search_known(study_search *s, const int *point, study_scored *score)
{
    return score_some(s, point, 1, &(manner){.fineness = s->fineness, .follow = follows(s), .known = true}, score);
}

/* A hold may break after the cores are there, which a run to the cores does not see. */
static study_ending keeps_holds(study_search *s, const int *point, bool *keeps)
{
    study_scored whole;
    *keeps = true;
    if (follows(s))
        return STUDY_DONE;
    const study_ending ending = study_search_score(s, point, 1, s->fineness, true, &whole);
    const study_outcome *o = ending == STUDY_DONE ? whole.outcome : NULL;
    *keeps = o && o->ran && o->unsafe <= s->score.outcome->unsafe && o->late <= s->score.outcome->late &&
             study_holds_unbroken(o);
    return ending;
}

/* The batch by score, the best first; stable, so that equals keep the order in which they were made up. */
static bool sort_batch(walk *w)
{
    size_t *order = realloc(w->order, (w->b.count + 1) * sizeof *order);
    if (!order)
        return false;
    w->order = order;
    for (size_t i = 0; i < w->b.count; i++) {
        size_t j = i;
        for (; j > 0 && study_compare(&w->s->objective, &w->b.scores[i], &w->b.scores[order[j - 1]]) < 0; j--)
            order[j] = order[j - 1];
        order[j] = i;
    }
    return true;
}

static void take(walk *w, size_t i)
{
    memcpy(w->s->best, row(w, i), knobs(w) * sizeof *w->s->best);
    w->s->score = w->b.scores[i];
}

/* Scores the batch and takes its best if that is better than what there is. */
static study_ending take_best(walk *w, bool *better)
{
    *better = false;
    study_ending ending = score_batch(w);
    if (ending == STUDY_DONE && !sort_batch(w))
        ending = STUDY_FAILED;
    for (size_t k = 0; k < w->b.count && ending == STUDY_DONE && !*better; k++) {
        const size_t i = w->order[k];
        if (!w->b.scores[i].outcome || !w->b.scores[i].outcome->ran ||
            (w->s->score.outcome && study_compare(&w->s->objective, &w->b.scores[i], &w->s->score) >= 0))
            break;
        const study_scored before = w->s->score;
        w->s->score = w->b.scores[i];
        ending = keeps_holds(w->s, row(w, i), better);
        w->s->score = before;
        if (*better)
            take(w, i);
    }
    if (ending == STUDY_DONE && !w->s->score.outcome && w->b.count > 0) {
        take(w, w->order[0]); /* nothing keeps its holds: the best there is, until something does */
        ending = study_search_score(w->s, w->s->best, 1, w->s->fineness, true, &w->s->score);
    }
    return ending;
}

static int within(const walk *w, size_t knob, int place)
{
    const int most = w->s->grid->places[knob] - 1;
    return place < 0 ? 0 : place > most ? most : place;
}

/* Whether the batch may still grow. */
static bool has_room(const walk *w)
{
    return w->s->looked_at + w->b.count < w->s->most;
}

static bool add_proposals(walk *w)
{
    const study_grid *grid = w->s->grid;
    int *points = calloc(PROPOSED * grid->count + 1, sizeof *points);
    bool good = points != NULL;
    const size_t count =
        good && grid->propose ? grid->propose(grid->context, w->s->best, w->s->score.outcome, points, PROPOSED) : 0;
    for (size_t i = 0; i < count && good && has_room(w); i++)
        good = add(w, points + i * grid->count);
    free(points);
    return good;
}

/* Whether moving this knob there from the best cannot win. */
static bool is_hopeless(const walk *w, size_t knob, int place)
{
    const study_grid *grid = w->s->grid;
    return grid->hopeless && w->s->score.outcome &&
           grid->hopeless(grid->context, &w->s->objective, w->s->best, w->s->score.outcome, knob, place);
}

/* Adds the best with one knob moved, where that may win. */
static bool add_step(walk *w, size_t knob, int to)
{
    if (to == w->s->best[knob] || is_hopeless(w, knob, to))
        return true;
    memcpy(w->at, w->s->best, knobs(w) * sizeof *w->at);
    w->at[knob] = to;
    return add(w, w->at);
}

/* The places that a knob is tried at by itself: a step up and down; when polished, as it is; where that is not enough,
 * a ladder of steps. */
static bool add_places(walk *w, size_t knob)
{
    static const int ladder[] = {1, 2, 3, 5, 8};
    const int from = w->s->best[knob], step = w->steps[knob];
    bool good = true;
    if (step == 0)
        return true;
    for (size_t k = 0; k < (w->far ? sizeof ladder / sizeof *ladder : 1) && good; k++)
        for (int sign = -1; sign <= 1 && good; sign += 2) {
            const int to = within(w, knob, from + sign * step * ladder[k]);
            good = add_step(w, knob, to);
        }
    return good && (!w->s->polish || add_step(w, knob, 0));
}

/* The way from `before` to the best once more: what gained together may gain further. */
static study_ending go_on(walk *w, const int *before, bool *better)
{
    const size_t n = knobs(w);
    w->b.count = 0;
    for (size_t d = 0; d < n; d++)
        w->at[d] = w->s->grid->steps[d] ? within(w, d, 2 * w->s->best[d] - before[d]) : w->s->best[d];
    if (memcmp(w->at, w->s->best, n * sizeof *w->at) == 0)
        return STUDY_DONE;
    return add(w, w->at) ? take_best(w, better) : STUDY_FAILED;
}

/* What the owner proposes, as long as that gains. */
static study_ending follow_proposals(walk *w, bool *better)
{
    study_ending ending = STUDY_DONE;
    for (bool gained = true; gained && ending == STUDY_DONE && has_room(w) && !w->s->polish;) {
        gained = false;
        w->b.count = 0;
        ending = add_proposals(w) ? take_best(w, &gained) : STUDY_FAILED;
        *better = *better || gained;
    }
    return ending;
}

/* One round: what the owner proposes; then knob after knob, some at a time, the best of each batch taken at once; then
 * the way of the whole round once more. */
static study_ending round_of_steps(walk *w, bool *better)
{
    const size_t n = knobs(w);
    int *before = malloc((n + 1) * sizeof *before);
    study_ending ending = before ? follow_proposals(w, better) : STUDY_FAILED;
    bool good = true, gained = false, any = false;
    if (before)
        memcpy(before, w->s->best, n * sizeof *before);
    for (size_t d = 0; d < n && ending == STUDY_DONE && has_room(w);) {
        w->b.count = 0;
        for (; d < n && w->b.count < TOGETHER && good; d++)
            good = add_places(w, d);
        ending = good ? take_best(w, &gained) : STUDY_FAILED;
        any = any || gained;
    }
    *better = *better || any;
    if (ending == STUDY_DONE && any && has_room(w))
        ending = go_on(w, before, &gained);
    free(before);
    return ending;
}

/* Two knobs at a time, each a step up or down. */
static study_ending round_of_pairs(walk *w, bool *better)
{
    const size_t n = knobs(w);
    study_ending ending = STUDY_DONE;
    *better = false;
    for (size_t d = 0; d < n && !*better && ending == STUDY_DONE; d++) {
        bool good = true;
        w->b.count = 0;
        for (size_t e = d + 1; e < n && good && has_room(w); e++)
            for (int way = 0; way < 4 && good; way++) {
                const int a = within(w, d, w->s->best[d] + (way % 2 ? 1 : -1));
                const int b = within(w, e, w->s->best[e] + (way / 2 ? 1 : -1));
                if (w->s->grid->steps[d] == 0 || w->s->grid->steps[e] == 0 || a == w->s->best[d] || b == w->s->best[e])
                    continue;
                memcpy(w->at, w->s->best, n * sizeof *w->at);
                w->at[d] = a;
                w->at[e] = b;
                good = add(w, w->at);
            }
        ending = !good ? STUDY_FAILED : w->b.count ? take_best(w, better) : STUDY_DONE;
        if (w->s->looked_at >= w->s->most)
            break;
    }
    return ending;
}

/* False: all steps were the smallest already. */
static bool halve(walk *w)
{
    bool any = false;
    for (size_t d = 0; d < knobs(w); d++)
        if (w->steps[d] > 1) {
            w->steps[d] /= 2;
            any = true;
        }
    return any;
}

static study_ending improve(walk *w)
{
    study_ending ending = STUDY_DONE;
    for (bool on = true; on && ending == STUDY_DONE && w->s->looked_at < w->s->most;) {
        bool better = false;
        ending = round_of_steps(w, &better);
        on = better || halve(w) || (w->s->polish && !w->far);
        w->far = w->s->polish && !better;
        if (!on && w->s->pairs && ending == STUDY_DONE && w->s->looked_at < w->s->most)
            ending = round_of_pairs(w, &on);
    }
    return ending;
}

/* ---- all of it ---- */

static double points_of(const study_grid *grid)
{
    double count = 1;
    for (size_t d = 0; d < grid->count; d++)
        count *= grid->steps[d] ? grid->places[d] : 1;
    return count;
}

static study_ending enumerate(walk *w)
{
    const study_grid *grid = w->s->grid;
    study_ending ending = STUDY_DONE;
    memset(w->at, 0, grid->count * sizeof *w->at);
    for (bool more = true; more && ending == STUDY_DONE;) {
        bool good = true, better;
        w->b.count = 0;
        while (more && w->b.count < CHUNK && good) {
            good = add(w, w->at);
            more = false;
            for (size_t d = 0; d < grid->count && !more; d++) {
                if (!grid->steps[d])
                    continue;
                more = ++w->at[d] < grid->places[d];
                w->at[d] = more ? w->at[d] : 0;
            }
        }
        ending = good ? take_best(w, &better) : STUDY_FAILED;
    }
    w->s->proven = ending == STUDY_DONE;
    return ending;
}

study_ending study_search_run(study_search *s, const int *starts, size_t count)
{
    const size_t n = s->grid->count;
    walk w = {.s = s, .steps = malloc((n + 1) * sizeof(int)), .at = malloc((n + 1) * sizeof(int))};
    bool good = w.steps && w.at, better;
    s->score = (study_scored){0};
    s->looked_at = 0;
    s->proven = s->stopped = false;
    if (good)
        memcpy(w.steps, s->grid->steps, n * sizeof *w.steps);
    for (size_t i = 0; i < count && good; i++)
        good = add(&w, starts + i * n);
    study_ending ending = good ? take_best(&w, &better) : STUDY_FAILED;
    const double all = points_of(s->grid);
    if (ending == STUDY_DONE)
        ending = !s->polish && all <= ENUMERATED && all <= (double)s->most ? enumerate(&w) : improve(&w);
    s->stopped = ending == STUDY_STOPPED && s->score.outcome;
    free(w.steps);
    free(w.at);
    free(w.order);
    free(w.b.points);
    free(w.b.scores);
    return s->stopped ? STUDY_DONE : ending;
}
