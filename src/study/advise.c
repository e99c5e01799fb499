/* SPDX-License-Identifier: MIT */
#include "study/advise.h"

#include "study/balance.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double MINUTE = 60;  /* s */
static const double SPARE = 1.3;  /* steam of a vessel that only holds, over what its walls lose */
static const double UNLIKE = 0.8; /* of the slowest vessel's time alone: less is another sort of load */
enum {
    CANDIDATES_LEAST = 5,
    CANDIDATES_MOST = 24,
    PARTS_LEAST = 100,
    PLANS_A_PAIR = 15, /* so many must be looked at for every two vessels to change places */
    WAYS_MOST = 8,     /* valves, starts, turns, what of them is put together, all of it */
    FIRST_OPEN = 8,    /* to less than half: what is wider hardly throttles */
    FIRST_START = 8,
    FIRST_THROTTLE = 3
};

typedef struct {
    study_adviser *adviser;
    const study_advice_options *options;
    const fv_change *given;
    study_effort settled; /* of what is given */
    int *places, *steps;
    int *others; /* what was best on the way, row by row */
    size_t other_count;
} asked;

bool study_adviser_open(study_adviser *a, const fv_plant *plant, const study_work *work)
{
    *a = (study_adviser){.plant = plant, .arena = fv_arena_new()};
    const bool good = a->arena && study_ways_find(plant, a->arena, &a->ways) &&
                      study_handling_open(&a->handling, plant, &a->ways, a->arena) &&
                      (a->evaluator = study_evaluator_new(plant, work)) != NULL;
    if (!good)
        study_adviser_close(a);
    return good;
}

void study_adviser_close(study_adviser *a)
{
    study_evaluator_free(a->evaluator);
    fv_arena_free(a->arena);
    *a = (study_adviser){0};
}

static void settings_of(void *context, const int *point, study_settings *settings)
{
    const asked *q = context;
    if (q->given)
        study_change_add(settings, q->given);
    study_handling_settings(&q->adviser->handling, point, settings);
}

static study_effort effort_of(void *context, const int *point)
{
    const asked *q = context;
    study_effort effort = study_handling_effort(&q->adviser->handling, point);
    study_effort_add(&effort, &q->settled);
    return effort;
}

static bool is_allowed(const study_advice_options *o, study_knob_kind kind)
{
    switch (kind) {
    case STUDY_KNOB_START:
        return o->starts;
    case STUDY_KNOB_OPEN:
    case STUDY_KNOB_WASHER:
        return o->valves;
    default:
        return o->valves && o->turns;
    }
}

static void open_grid(asked *q)
{
    const study_handling *h = &q->adviser->handling;
    for (size_t i = 0; i < h->count; i++) {
        const study_knob_kind kind = h->knobs[i].kind;
        const int first = kind == STUDY_KNOB_START    ? FIRST_START
                          : kind == STUDY_KNOB_WASHER ? h->knobs[i].places / 2
                          : kind == STUDY_KNOB_OPEN   ? FIRST_OPEN
                                                      : FIRST_THROTTLE;
        q->places[i] = h->knobs[i].places;
        q->steps[i] = is_allowed(q->options, kind) ? first : 0;
    }
}

/* ---- what the best outcome looks like ---- */

static double core_or(const study_outcome *o, size_t vessel)
{
    return isnan(o->core[vessel]) ? INFINITY : o->core[vessel];
}

static int clamp(int place, int places)
{
    return place < 0 ? 0 : place >= places ? places - 1 : place;
}

/* Vessels that are early give way: knob by knob `strength` places at most, in proportion to how early they are. */
static bool give_way(const asked *q, study_knob_kind kind, double strength, const study_outcome *o, int *point)
{
    const study_handling *h = &q->adviser->handling;
    const double span = isfinite(o->last) ? o->last - o->first : o->first;
    bool moved = false;
    for (size_t i = 0; i < h->count; i++) {
        const study_knob *knob = &h->knobs[i];
        if (knob->kind != kind || !q->steps[i] || !(span > 0))
            continue;
        const double early =
            isfinite(o->last) ? (o->last - core_or(o, knob->vessel)) / span : isfinite(core_or(o, knob->vessel));
        const int to = clamp(point[i] + (int)lround(strength * (early - 0.15)), knob->places);
        moved = moved || to != point[i];
        point[i] = to;
    }
    return moved;
}

/* All valves of a kind at one place. */
static bool set_all(const asked *q, study_knob_kind kind, double value, int *point)
{
    const study_handling *h = &q->adviser->handling;
    bool moved = false;
    for (size_t i = 0; i < h->count; i++) {
        if (h->knobs[i].kind != kind || !q->steps[i])
            continue;
        point[i] = study_knob_place(&h->knobs[i], value);
        moved = true;
    }
    return moved;
}

/* When a vessel is done, as the objective counts it. */
static double done_of(const asked *q, const study_objective *objective, const study_outcome *o, size_t vessel)
{
    return core_or(o, vessel) + (objective->by_end ? q->adviser->plant->vessels[vessel]->hold.v : 0);
}

/* All are in time and what counts is the last of them: what is turned after that, or makes the last one get less or
 * later, cannot win, nor can a start that leaves too little time with ample steam. */
static bool hopeless(void *context, const study_objective *objective, const int *point, const study_outcome *o,
                     size_t knob, int place)
{
    const asked *q = context;
    const study_knob *k = &q->adviser->handling.knobs[knob];
    const bool by_last = objective->goal == FV_PLAN_CHEAPEST || objective->goal == FV_PLAN_EARLIEST;
    double last = 0;
    for (size_t i = 0; i < q->adviser->plant->vessel_count; i++)
        last = o->verdicts[i] == FV_SHUT_OFF ? last : fmax(last, done_of(q, objective, o, i));
    if (!by_last || place == 0 || !o->ran || o->late > 0 || o->unsafe > 0 || !isfinite(last))
        return false;
    const double own = done_of(q, objective, o, k->vessel), after = own - core_or(o, k->vessel);
    const bool is_last = own > last - MINUTE;
    const double now = study_knob_value(k, point[knob]), then = study_knob_value(k, place);
    switch (k->kind) {
    case STUDY_KNOB_START:
        return (is_last && then > now) || then + o->ample[k->vessel] + after > last;
    case STUDY_KNOB_AT_CORE:
        return is_last;
    case STUDY_KNOB_AT_FULL:
        return (is_last && (point[knob] == 0 || then < now)) || o->full[k->vessel] > last - MINUTE;
    default:
        return is_last && then < now;
    }
}

/* All that open by the clock sooner, by the same share: one alone would wait for those after it. */
static bool sooner(const asked *q, double share, int *point)
{
    const study_handling *h = &q->adviser->handling;
    size_t moved = 0;
    for (size_t i = 0; i < h->count; i++) {
        if (h->knobs[i].kind != STUDY_KNOB_START || !q->steps[i])
            continue;
        const int to = (int)(share * point[i]);
        moved += to != point[i];
        point[i] = to;
    }
    return moved > 1;
}

/* Two vessels that open at different times in each other's place: start and throttles. */
static bool exchange(const asked *q, size_t a, size_t b, int *point)
{
    const study_handling *h = &q->adviser->handling;
    bool moved = false;
    for (study_knob_kind kind = STUDY_KNOB_START; kind <= STUDY_KNOB_AT_CORE; kind++) {
        const int i = study_knob_find(h, kind, a), k = study_knob_find(h, kind, b);
        if (i < 0 || k < 0 || !q->steps[i] || !q->steps[k])
            continue;
        const double first = study_knob_value(&h->knobs[i], point[i]),
                     second = study_knob_value(&h->knobs[k], point[k]);
        point[i] = study_knob_place(&h->knobs[i], second);
        point[k] = study_knob_place(&h->knobs[k], first);
        moved = moved || (kind == STUDY_KNOB_START && fabs(first - second) > STUDY_START_STEP);
    }
    return moved;
}

/* Every two in each other's place, then all of these with starts sooner by a tenth; nothing where few plans are looked
 * at, which steps of single knobs use better. */
static size_t exchange_all(const asked *q, const int *point, int *points, size_t most)
{
    const size_t n = q->adviser->handling.count, vessels = q->adviser->plant->vessel_count;
    const size_t pairs = vessels * (vessels - 1) / 2;
    size_t count = 0;
    for (size_t tenth = 0; tenth < 2 && pairs * PLANS_A_PAIR < q->options->most; tenth++)
        for (size_t a = 0; a < vessels; a++)
            for (size_t b = 0; b < a && count < most; b++) {
                memcpy(points + count * n, point, n * sizeof *points);
                count += exchange(q, a, b, points + count * n) && (!tenth || sooner(q, 0.9, points + count * n));
            }
    return count;
}

static size_t propose(void *context, const int *point, const study_outcome *o, int *points, size_t most)
{
    const asked *q = context;
    const size_t n = q->adviser->handling.count;
    static const double strengths[] = {1, 2, 3}, throttles[] = {0.4, 0.3, 0.2, 0.15};
    static const double shares[] = {0.9, 0.75, 0.5};
    size_t count = 0;
    for (size_t k = 0; k < 3 && o && o->late == 0 && count < most; k++) {
        memcpy(points + count * n, point, n * sizeof *points);
        count += sooner(q, shares[k], points + count * n);
    }
    for (size_t k = 0; k < 3 && o && count < most; k++)
        for (study_knob_kind kind = STUDY_KNOB_OPEN; kind <= STUDY_KNOB_START && count < most; kind++) {
            memcpy(points + count * n, point, n * sizeof *points);
            count += give_way(q, kind, strengths[k] * (kind == STUDY_KNOB_START ? 2 : 1), o, points + count * n);
        }
    for (size_t k = 0; k < 4; k++)
        for (study_knob_kind kind = STUDY_KNOB_AT_FULL; kind <= STUDY_KNOB_AT_CORE && count < most; kind++) {
            memcpy(points + count * n, point, n * sizeof *points);
            count += set_all(q, kind, throttles[k], points + count * n);
        }
    return count + exchange_all(q, point, points + count * n, most - count);
}

/* ---- where the search begins ---- */

typedef struct {
    int *points;
    size_t count, most;
} starts;

static int *next_start(const asked *q, starts *s)
{
    const size_t n = q->adviser->handling.count;
    return s->count < s->most ? memset(s->points + s->count++ * n, 0, n * sizeof *s->points) : NULL;
}

static bool moves(const asked *q, study_knob_kind kind)
{
    for (size_t i = 0; i < q->adviser->handling.count; i++)
        if (q->adviser->handling.knobs[i].kind == kind && q->steps[i])
            return true;
    return false;
}

static void add_throttled(const asked *q, starts *s)
{
    static const double values[] = {0.4, 0.25, 0.15};
    for (size_t k = 0; k < 3; k++)
        for (study_knob_kind kind = STUDY_KNOB_AT_FULL; kind <= STUDY_KNOB_AT_CORE; kind++) {
            int *point = next_start(q, s);
            if (point && !set_all(q, kind, values[k], point))
                s->count--;
        }
}

/* Steam shared out by what all vessels have to take up, by what they need in their times, and with all but the slowest
 * only holding: the last one's openings are those of a vessel whose core is there. */
static bool add_balanced(const asked *q, const study_outcome *now, starts *s)
{
    const study_handling *h = &q->adviser->handling;
    const fv_plant *plant = h->plant;
    double *wishes = calloc(plant->vessel_count + 1, sizeof *wishes), *values = calloc(h->count + 1, sizeof *values);
    fv_faults *faults = fv_faults_new();
    bool good = wishes && values && faults;
    enum { BY_HEAT, BY_NEED, HOLDING, WAYS };
    for (int way = 0; way < WAYS && good; way++) {
        bool known = moves(q, STUDY_KNOB_OPEN) || moves(q, STUDY_KNOB_WASHER);
        for (size_t i = 0; i < plant->vessel_count && known; i++) {
            fv_vessel_need need;
            known = fv_vessel_need_of(plant, plant->vessels[i], fv_sat_line(), &need, faults) != FV_FAIL;
            const bool holds = way == HOLDING && now->ran && isfinite(now->last) && now->core[i] < now->last;
            wishes[i] = !known ? 0 : way == BY_HEAT ? need.load + need.shell : need.need;
            wishes[i] = holds ? SPARE * need.wall_loss : wishes[i];
        }
        bool no_memory = false;
        const bool balanced = known && study_balance(h, wishes, values, &no_memory) != FV_FAIL;
        int *point = balanced && !no_memory ? next_start(q, s) : NULL;
        good = !no_memory;
        if (point)
            study_balance_round(h, values, point);
        for (size_t i = 0; i < h->count && point && way == HOLDING; i++) {
            const int core =
                h->knobs[i].kind == STUDY_KNOB_OPEN ? study_knob_find(h, STUDY_KNOB_AT_CORE, h->knobs[i].vessel) : -1;
            if (core >= 0 && q->steps[core] && point[i] > 0)
                point[core] = study_knob_place(&h->knobs[core], values[i]);
            point[i] = 0;
        }
    }
    fv_faults_free(faults);
    free(wishes);
    free(values);
    return good;
}

/* A vessel that can wait, and how long it takes alone with all the steam that there is. */
typedef struct {
    size_t vessel;
    double time;
} turn;

/* s: of pieces what conduction takes; of a bed what the boilers need to give it its heat. */
static double time_alone(const fv_plant *plant, const study_outcome *now, size_t vessel)
{
    double output = 0;
    fv_vessel_need need;
    for (size_t i = 0; i < plant->boiler_count; i++)
        output += plant->boilers[i]->output.v;
    if (now->ample[vessel] > 0 ||
        fv_vessel_need_of(plant, plant->vessels[vessel], fv_sat_line(), &need, NULL) == FV_FAIL)
        return now->ample[vessel];
    return (need.comes + need.shell + need.walls) / output;
}

/* The slowest first. */
static size_t find_turns(const asked *q, const study_outcome *now, turn *turns, size_t most)
{
    const study_handling *h = &q->adviser->handling;
    size_t count = 0;
    for (size_t i = 0; i < h->count && moves(q, STUDY_KNOB_START) && count < most; i++) {
        if (h->knobs[i].kind != STUDY_KNOB_START)
            continue;
        const turn own = {h->knobs[i].vessel, time_alone(h->plant, now, h->knobs[i].vessel)};
        size_t j = count++;
        for (; j > 0 && turns[j - 1].time < own.time; j--)
            turns[j] = turns[j - 1];
        turns[j] = own;
    }
    return count;
}

/* One vessel waits. */
static void wait(const asked *q, size_t vessel, double until, int *point)
{
    const study_handling *h = &q->adviser->handling;
    const int knob = study_knob_find(h, STUDY_KNOB_START, vessel);
    if (knob >= 0)
        point[knob] = study_knob_place(&h->knobs[knob], until);
}

/* Starts of the vessels in this order, each `delay` after the one before; the first `together` of them at once. */
static void add_starts(const asked *q, const turn *turns, size_t count, size_t together, double delay, starts *s)
{
    int *point = next_start(q, s);
    for (size_t k = together; k < count && point; k++)
        wait(q, turns[k].vessel, delay * (double)(k - together + 1), point);
}

static void add_shift(const asked *q, const turn *turns, size_t count, double delay, starts *s)
{
    int *point = next_start(q, s);
    for (size_t k = (count + 1) / 2; k < count && point; k++)
        wait(q, turns[k].vessel, delay, point);
}

/* The quickest first, each when all before it would be done, were they `slower` than alone: what is late whatever is
 * done takes no steam from those that need not be. */
static void add_by_own_times(const asked *q, const turn *turns, size_t count, double slower, starts *s)
{
    double time = 0;
    int *point = next_start(q, s);
    for (size_t k = count; k-- > 0 && point; time += slower * turns[k].time)
        wait(q, turns[k].vessel, time, point);
}

/* One after the other, the slowest load first, each when the one before would have a part of its way behind it with all
 * the steam; in two shifts, the latter half or the last one later; and unlike vessels the other way round. */
static void add_in_turns(const asked *q, const study_outcome *now, starts *s)
{
    static const double overlaps[] = {0.6, 1, 0.3}, shifts[] = {1, 0.5, 1.5}, slower[] = {1.3, 2.2};
    turn turns[64];
    const size_t count = find_turns(q, now, turns, sizeof turns / sizeof *turns);
    double hold = 0, steam = INFINITY; /* s: before that an opened vessel gets nothing */
    if (count < 2)
        return;
    const double longest = turns[0].time;
    for (size_t k = 0; k < count; k++) {
        hold = fmax(hold, q->adviser->plant->vessels[turns[k].vessel]->hold.v);
        steam = fmin(steam, isnan(now->opened[turns[k].vessel]) ? 0 : now->opened[turns[k].vessel]);
    }
    add_shift(q, turns, count, steam + STUDY_START_STEP,
              s); /* the least there is: it may keep a hold that would break */
    for (size_t k = 0; k < 2 && turns[count - 1].time < UNLIKE * longest; k++)
        add_by_own_times(q, turns, count, slower[k], s);
    /* The slowest there is: each alone, with all the steam, to the end of its hold; and where it leaks, too. */
    for (size_t k = 0; k < 2 && now->late > 0; k++)
        add_starts(q, turns, count, 1, slower[k] * longest + hold, s);
    for (size_t k = 0; k < 3 && longest > 0; k++) {
        add_starts(q, turns, count, 1, overlaps[k] * longest, s);
        add_starts(q, turns, count, count - 1, shifts[k] * longest, s);
        if (count > 2) /* a shift: the latter half at the same time */
            add_shift(q, turns, count, steam + shifts[k] * longest, s);
    }
}

/* What promises most first: with few plans to look at, the others are left out. */
static bool add_candidates(const asked *q, const study_scored *now, starts *s)
{
    const study_outcome *o = now->outcome;
    next_start(q, s);
    if (!o || !o->ran)
        return true;
    if (!add_balanced(q, o, s))
        return false;
    add_in_turns(q, o, s);
    for (int strength = 4; strength <= 8; strength += 2)
        for (study_knob_kind kind = STUDY_KNOB_OPEN; kind <= STUDY_KNOB_START; kind++) {
            int *point = next_start(q, s);
            if (point && !give_way(q, kind, strength, o, point))
                s->count--;
        }
    add_throttled(q, s);
    return true;
}

/* ---- all of it ---- */

/* Rough steps may take a plant another way: a vessel fills earlier, its valve is turned then, and all others get their
 * steam at other times. Where fine steps see another number late in what was found, they lead from then on. */
static study_ending check_rough(study_search *s)
{
    const study_outcome *rough = s->score.outcome;
    const bool follow = study_goal_follows(s->objective.goal);
    study_scored fine = {0};
    if (s->fineness >= 1 || !rough || !rough->ran)
        return STUDY_DONE;
    const study_ending ending = study_search_score(s, s->best, 1, 1, follow, &fine);
    if (ending == STUDY_DONE && fine.outcome && fine.outcome->ran && fine.outcome->late != rough->late)
        s->fineness = 1;
    return ending;
}

/* One search over the knobs that may move, from the candidates and from `count` points beside them. */
static study_ending search(asked *q, study_search *s, const int *from, size_t count)
{
    const size_t n = q->adviser->handling.count;
    const size_t third = s->most / 3;
    starts begin = {.points = calloc((CANDIDATES_MOST + count) * n + 1, sizeof(int)),
                    .most = third < CANDIDATES_LEAST  ? CANDIDATES_LEAST
                            : third < CANDIDATES_MOST ? third
                                                      : CANDIDATES_MOST};
    study_scored now = {0};
    study_ending ending =
        begin.points ? study_search_score(s, begin.points, 1, s->fineness, false, &now) : STUDY_FAILED;
    if (ending == STUDY_DONE && !add_candidates(q, &now, &begin))
        ending = STUDY_FAILED;
    if (ending == STUDY_DONE) {
        if (count > 0)
            memcpy(begin.points + begin.count * n, from, count * n * sizeof *from);
        ending = study_search_run(s, begin.points, begin.count + count);
    }
    if (ending == STUDY_DONE && !s->stopped)
        ending = check_rough(s);
    free(begin.points);
    s->stopped = s->stopped || ending == STUDY_STOPPED;
    return ending == STUDY_STOPPED ? STUDY_DONE : ending;
}

typedef enum { VALVES = 1, STARTS = 2, TURNS = 4, ALL = 7 } hands;

static hands kind_of(const study_knob *knob)
{
    return knob->kind == STUDY_KNOB_START ? STARTS : knob->kind <= STUDY_KNOB_WASHER ? VALVES : TURNS;
}

static void choose_knobs(asked *q, hands which)
{
    const study_handling *h = &q->adviser->handling;
    open_grid(q);
    for (size_t i = 0; i < h->count; i++) {
        if (!(which & kind_of(&h->knobs[i])))
            q->steps[i] = 0;
    }
}

/* Stopped in the midst: the best of what the parts before found, in `count` rows, and of where the search stood. */
static study_ending best_so_far(asked *q, study_search *s, const int *points, size_t count)
{
    const size_t n = q->adviser->handling.count;
    study_evaluator_close_up(q->adviser->evaluator);
    study_ending ending = study_search_score(s, s->best, 1, s->fineness, true, &s->score);
    for (size_t i = 0; i < count && ending == STUDY_DONE; i++) {
        study_scored score;
        ending = study_search_score(s, points + i * n, 1, s->fineness, true, &score);
        if (ending == STUDY_DONE && study_compare(&s->objective, &score, &s->score) < 0) {
            memcpy(s->best, points + i * n, n * sizeof *s->best);
            s->score = score;
        }
    }
    return ending;
}

/* Valves alone, starts alone, what is turned in the course of the run alone; then all of it from the best of each. With
 * few plans to look at, all of it at once. */
static study_ending search_by_parts(asked *q, study_search *s, const int *from, size_t count)
{
    static const hands parts[] = {VALVES, STARTS, TURNS};
    enum { PARTS = sizeof parts / sizeof *parts };
    const size_t n = q->adviser->handling.count, most = s->most;
    const bool one = !q->options->starts || !q->options->valves;
    int *points = calloc((WAYS_MOST + PARTS + count) * n + 1, sizeof *points);
    study_ending ending = points ? STUDY_DONE : STUDY_FAILED;
    size_t looked_at = 0, found = 0;
    for (size_t k = 0; k < PARTS && most >= PARTS_LEAST && !one && ending == STUDY_DONE && !s->stopped; k++) {
        choose_knobs(q, parts[k]);
        s->most = most / 6;
        ending = search(q, s, NULL, 0);
        memcpy(points + found++ * n, s->best, n * sizeof *points);
        looked_at += s->looked_at;
    }
    const size_t single = found;
    for (int which = 3; which <= ALL && single == PARTS; which++) { /* two of them together, and all three */
        for (size_t i = 0; i < n && which != TURNS; i++) {
            const size_t k = kind_of(&q->adviser->handling.knobs[i]) / 2;
            points[found * n + i] = which & 1 << k ? points[k * n + i] : 0;
        }
        found += which != TURNS;
    }
    if (ending == STUDY_DONE && !s->stopped) {
        if (count > 0)
            memcpy(points + found * n, from, count * n * sizeof *points);
        choose_knobs(q, ALL);
        s->most = most > looked_at ? most - looked_at : 0;
        s->pairs = most >= PARTS_LEAST;
        ending = search(q, s, points, found + count);
        s->looked_at += looked_at;
    }
    if (ending == STUDY_DONE && s->stopped)
        ending = best_so_far(q, s, points, found);
    if (ending == STUDY_DONE) {
        q->other_count = found + 1;
        memcpy(q->others, points, found * n * sizeof *points);
        memcpy(q->others + found * n, s->best, n * sizeof *points);
    }
    free(points);
    return ending;
}

/* At full fineness, from what was best on the way: the rough runs may have missed somebody late, or some minutes. Each
 * knob by itself, until none of its places is better; things that gain too little are left out. */
static study_ending polish(asked *q, study_search *s, study_advice *advice)
{
    for (size_t i = 0; i < s->grid->count; i++)
        q->steps[i] = q->steps[i] > 0;
    study_search fine = *s;
    fine.fineness = 1;
    fine.polish = true;
    fine.sieve = s->fineness < 1 ? STUDY_ROUGH : 0;
    fine.objective.each = STUDY_EACH;
    study_ending ending = s->stopped ? STUDY_DONE : study_search_run(&fine, q->others, q->other_count);
    s->looked_at += fine.looked_at;
    s->stopped = s->stopped || fine.stopped || ending == STUDY_STOPPED;
    if (s->stopped)
        study_evaluator_close_up(q->adviser->evaluator);
    if (ending != STUDY_FAILED)
        ending = study_search_score(s, advice->point, 1, 1, true, &advice->score);
    return ending;
}

study_ending study_advise(study_adviser *adviser, const study_advice_options *options, const int *from, size_t count,
                          study_advice *advice)
{
    const size_t n = adviser->handling.count;
    /* with few plans to look at nearly all of them are for the search: a polish of what it has not found yet is none */
    const size_t polished = options->most < PARTS_LEAST ? options->most / 12 : options->most / 3;
    asked q = {.adviser = adviser, .options = options, .given = advice->given, .settled = advice->settled};
    q.places = fv_arena_alloc(adviser->arena, n + 1, sizeof *q.places);
    q.steps = fv_arena_alloc(adviser->arena, n + 1, sizeof *q.steps);
    advice->point = fv_arena_alloc(adviser->arena, n + 1, sizeof *advice->point);
    q.others = fv_arena_alloc(adviser->arena, WAYS_MOST * n + 1, sizeof *q.others);
    if (!q.places || !q.steps || !advice->point || !q.others)
        return STUDY_FAILED;
    const study_grid grid = {.count = n,
                             .places = q.places,
                             .steps = q.steps,
                             .context = &q,
                             .settings = settings_of,
                             .effort = effort_of,
                             .hopeless = hopeless,
                             .propose = propose};
    study_search s = {.evaluator = adviser->evaluator,
                      .grid = &grid,
                      .objective = options->objective,
                      .most = options->most - polished,
                      .fineness = STUDY_ROUGH,
                      .best = advice->point};
    study_ending ending = search_by_parts(&q, &s, from, count);
    s.most = polished;
    if (ending == STUDY_DONE)
        ending = polish(&q, &s, advice);
    advice->looked_at = s.looked_at;
    advice->stopped = s.stopped;
    return ending;
}

study_ending study_advise_again(study_adviser *adviser, const study_advice_options *options, study_advice *advice)
{
    study_advice second = *advice;
    const study_ending ending = study_advise(adviser, options, advice->point, 1, &second);
    if (ending == STUDY_DONE && study_compare(&options->objective, &second.score, &advice->score) < 0)
        *advice = second;
    advice->stopped = second.stopped;
    return ending;
}

void study_advice_settings(const study_adviser *adviser, const study_advice *advice, study_settings *settings)
{
    if (advice->given)
        study_change_add(settings, advice->given);
    study_handling_settings(&adviser->handling, advice->point, settings);
}
