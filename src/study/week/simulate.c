/* SPDX-License-Identifier: MIT */
/* Slot by slot: vessels go round from clean through filled, hung on, steaming, hot, taken off, cool to clean again. In
 * each slot hands go first to lighting, then to what frees a place, then to what fills one, to emptying, to filling. */
#include "study/week/simulate.h"
#include "study/week/kinds.h"

#include <stdlib.h>
#include <string.h>

enum { WEEKS_MOST = 8 };

typedef enum { CLEAN, FILLING, FILLED, HANGING, HUNG, STEAMING, HOT, LEAVING, OFF, EMPTYING, STAGES } stage;

typedef struct {
    size_t kind;
    stage stage;
    size_t until; /* slot at which the task or the steam under way ends */
    size_t cool;  /* slot from which it may be emptied */
} vessel;

/* Where things stand. */
typedef struct {
    vessel *vessels;
    size_t count[FV_WEEK_KINDS_MOST][STAGES]; /* vessels at each stage */
    size_t *busy;                             /* people at work, by slot of all weeks */
    size_t now, boiler_free;
} state;

struct week_room {
    const fv_week_problem *problem;
    size_t week;     /* slots in it */
    state is, stand; /* stand: from where simulations go on, to `end`; 0: from clean vessels */
    size_t end;
    size_t begins[FV_WEEK_KINDS_MOST][STAGES]; /* vessels at each stage when the week began */
    fv_week_entry *entries, *before;           /* of this week and of the one before */
    size_t entry_count, before_count, entries_most;
    /* of the run under way */
    fv_week_what order[4];
    size_t wanted;        /* the batch that is next; 0: none */
    size_t next;          /* of the week's batches */
    week_outcome outcome; /* of this week */
};

static size_t entries_most(const fv_week_problem *p)
{
    /* A vessel can begin each task at most once a slot, and no slot sees more tasks than vessels and one lighting. */
    return FV_WEEK_DAYS * p->slots_a_day * (p->vessels + 1) + 1;
}

/* Two weeks more than are gone through: a rest may reach into the second, and its tasks beyond. */
static size_t busy_slots(const week_room *room)
{
    return (WEEKS_MOST + 3) * room->week;
}

static bool state_new(const week_room *room, state *s)
{
    s->vessels = calloc(room->problem->vessels + 1, sizeof *s->vessels);
    s->busy = calloc(busy_slots(room), sizeof *s->busy);
    return s->vessels && s->busy;
}

static void state_copy(const week_room *room, const state *from, state *to)
{
    memcpy(to->vessels, from->vessels, (room->problem->vessels + 1) * sizeof *to->vessels);
    memcpy(to->busy, from->busy, busy_slots(room) * sizeof *to->busy);
    memcpy(to->count, from->count, sizeof to->count);
    to->now = from->now;
    to->boiler_free = from->boiler_free;
}

week_room *week_room_new(const fv_week_problem *problem)
{
    week_room *room = calloc(1, sizeof *room);
    if (!room)
        return NULL;
    room->problem = problem;
    room->week = FV_WEEK_DAYS * problem->slots_a_day;
    room->entries_most = entries_most(problem);
    const bool good = state_new(room, &room->is) && state_new(room, &room->stand);
    room->entries = calloc(room->entries_most, sizeof *room->entries);
    room->before = calloc(room->entries_most, sizeof *room->before);
    if (good && room->entries && room->before)
        return room;
    week_room_free(room);
    return NULL;
}

void week_room_free(week_room *room)
{
    if (!room)
        return;
    free(room->is.vessels);
    free(room->is.busy);
    free(room->stand.vessels);
    free(room->stand.busy);
    free(room->entries);
    free(room->before);
    free(room);
}

static size_t people_at(const week_room *room, size_t slot)
{
    return room->problem->people[slot % room->week];
}

static bool hands_for(const week_room *room, fv_week_task task)
{
    for (size_t s = room->is.now; s < room->is.now + task.slots; s++)
        if (people_at(room, s) < room->is.busy[s] + task.people)
            return false;
    return people_at(room, room->is.now) >= task.people;
}

static void note(week_room *room, fv_week_what what, size_t which)
{
    const fv_week_task task = room->problem->task[what];
    for (size_t s = room->is.now; s < room->is.now + task.slots; s++)
        room->is.busy[s] += task.people;
    room->outcome.crew_slots += (double)(task.slots * task.people);
    if (room->entry_count < room->entries_most)
        room->entries[room->entry_count++] = (fv_week_entry){room->is.now % room->week, what, which};
}

static size_t count_of(const week_room *room, size_t kind, stage from, stage to)
{
    size_t n = 0;
    for (stage s = from; s <= to; s++)
        n += room->is.count[kind][s];
    return n;
}

static void move_on(week_room *room, vessel *v, stage to)
{
    room->is.count[v->kind][v->stage]--;
    room->is.count[v->kind][to]++;
    v->stage = to;
}

/* ---- what can be done now; true: something was ---- */

static bool somebody_stays(const week_room *room, size_t slots)
{
    for (size_t s = room->is.now; s < room->is.now + slots; s++)
        if (people_at(room, s) == 0)
            return false;
    return true;
}

static bool is_hung(const week_room *room, size_t batch)
{
    for (size_t k = 0; k < week_kind_count(room->problem); k++)
        if (count_of(room, k, HUNG, HUNG) < week_batch_of(room->problem, batch, k))
            return false;
    return true;
}

/* Up to so many vessels of a kind that are at that stage; how many. */
static size_t put_on_steam(week_room *room, size_t kind, stage from, size_t most, size_t cool)
{
    size_t lit = 0;
    for (size_t i = 0; i < room->problem->vessels && lit < most; i++) {
        vessel *v = &room->is.vessels[i];
        if (v->stage != from || v->kind != kind)
            continue;
        move_on(room, v, STEAMING);
        v->until = room->is.boiler_free;
        v->cool = room->is.boiler_free + cool;
        lit++;
    }
    return lit;
}

static bool light(week_room *room, const week_choice *choice)
{
    const fv_week_problem *p = room->problem;
    const size_t next = room->next < choice->count ? choice->size[room->next] : 0;
    room->wanted = next;
    if (next == 0 || room->is.now < room->is.boiler_free || !is_hung(room, next) ||
        !hands_for(room, p->task[FV_TASK_LIGHT]) || !somebody_stays(room, p->batch[next].attended))
        return false;
    const fv_week_batch *batch = &p->batch[next];
    note(room, FV_TASK_LIGHT, next);
    room->next++;
    room->outcome.kg += batch->kg;
    room->outcome.fuel += batch->fuel;
    room->outcome.steam_slots += batch->steam;
    room->outcome.batches++;
    room->is.boiler_free = room->is.now + batch->steam;
    for (size_t k = 0; k < week_kind_count(p); k++)
        put_on_steam(room, k, HUNG, week_batch_of(p, next, k), batch->cool);
    return true;
}

/* What is filled should not stand for days: no more than one batch ahead. */
static bool may_be_filled(const week_room *room, size_t kind)
{
    return count_of(room, kind, FILLING, HUNG) < week_kind(room->problem, kind).places;
}

/* A vessel that stays where it is holds its place until it is empty. */
static bool place_is_free(const week_room *room, size_t kind)
{
    return count_of(room, kind, HANGING, room->problem->taken_off ? LEAVING : EMPTYING) <
           week_kind(room->problem, kind).places;
}

/* The first vessel that is ready for a task; of unlike ones, one of a kind that the next batch takes. NULL: none. */
static vessel *first_ready(week_room *room, fv_week_what what, stage ready)
{
    vessel *first = NULL;
    for (size_t i = 0; i < room->problem->vessels; i++) {
        vessel *v = &room->is.vessels[i];
        if (v->stage != ready || (what == FV_TASK_EMPTY && v->cool > room->is.now) ||
            (what == FV_TASK_FILL && !may_be_filled(room, v->kind)) ||
            (what == FV_TASK_HANG_ON && !place_is_free(room, v->kind)))
            continue;
        if (room->wanted == 0 || week_batch_of(room->problem, room->wanted, v->kind) > 0)
            return v;
        first = first ? first : v;
    }
    return first;
}

static bool begin(week_room *room, fv_week_what what, stage ready, stage under_way)
{
    vessel *v = hands_for(room, room->problem->task[what]) ? first_ready(room, what, ready) : NULL;
    if (!v)
        return false;
    note(room, what, (size_t)(v - room->is.vessels));
    move_on(room, v, under_way);
    v->until = room->is.now + room->problem->task[what].slots;
    return true;
}

static bool do_task(week_room *room, fv_week_what what)
{
    const bool taken_off = room->problem->taken_off;
    switch (what) {
    case FV_TASK_TAKE_OFF:
        return taken_off && begin(room, what, HOT, LEAVING);
    case FV_TASK_HANG_ON:
        return begin(room, what, FILLED, HANGING);
    case FV_TASK_EMPTY:
        return begin(room, what, taken_off ? OFF : HOT, EMPTYING);
    case FV_TASK_FILL:
        return begin(room, what, CLEAN, FILLING);
    default:
        return false;
    }
}

/* The order's place-th task: orders are counted in the factorial number system. */
static fv_week_what task_at(size_t order, size_t place)
{
    fv_week_what left[] = {FV_TASK_TAKE_OFF, FV_TASK_HANG_ON, FV_TASK_EMPTY, FV_TASK_FILL};
    size_t count = 4, radix = WEEK_ORDERS;
    for (size_t i = 0;; i++) {
        radix /= count;
        const size_t pick = order / radix;
        const fv_week_what what = left[pick];
        if (i == place)
            return what;
        order %= radix;
        count--;
        memmove(left + pick, left + pick + 1, (count - pick) * sizeof *left);
    }
}

static bool do_one(week_room *room, const week_choice *choice)
{
    if (light(room, choice))
        return true;
    for (size_t i = 0; i < 4; i++)
        if (do_task(room, room->order[i]))
            return true;
    return false;
}

static void end_tasks(week_room *room)
{
    static const stage after[] = {
        [FILLING] = FILLED, [HANGING] = HUNG, [STEAMING] = HOT, [LEAVING] = OFF, [EMPTYING] = CLEAN};
    for (size_t i = 0; i < room->problem->vessels; i++) {
        vessel *v = &room->is.vessels[i];
        const bool under_way = v->stage == FILLING || v->stage == HANGING || v->stage == STEAMING ||
                               v->stage == LEAVING || v->stage == EMPTYING;
        if (under_way && v->until <= room->is.now) {
            move_on(room, v, after[v->stage]);
        }
    }
}

static void go_on(week_room *room, const week_choice *choice, size_t end)
{
    for (; room->is.now < end; room->is.now++) {
        /* Tasks that take no time end in the slot in which they begin. */
        end_tasks(room);
        while (people_at(room, room->is.now) > 0 && do_one(room, choice))
            end_tasks(room);
    }
}

static void go_through(week_room *room, const week_choice *choice, size_t end)
{
    for (size_t i = 0; i < 4; i++)
        room->order[i] = task_at(choice->order, i);
    room->outcome = (week_outcome){.repeats = true};
    room->entry_count = 0;
    room->next = 0;
    memcpy(room->begins, room->is.count, sizeof room->begins);
    go_on(room, choice, end);
}

static bool is_like_before(const week_room *room)
{
    if (room->entry_count != room->before_count)
        return false;
    for (size_t i = 0; i < room->entry_count; i++)
        if (room->entries[i].slot != room->before[i].slot || room->entries[i].what != room->before[i].what)
            return false;
    return true;
}

week_outcome week_simulate(week_room *room, const week_choice *choice)
{
    if (room->end > 0) {
        state_copy(room, &room->stand, &room->is);
        go_through(room, choice, room->end);
        return room->outcome;
    }
    for (size_t i = 0; i < room->problem->vessels; i++)
        room->is.vessels[i] = (vessel){.kind = fv_week_kind_of(room->problem, i)};
    memset(room->is.busy, 0, busy_slots(room) * sizeof *room->is.busy);
    memset(room->is.count, 0, sizeof room->is.count);
    for (size_t k = 0; k < week_kind_count(room->problem); k++)
        room->is.count[k][CLEAN] = week_kind(room->problem, k).vessels;
    room->is.now = room->is.boiler_free = 0;
    for (size_t week = 0; week < WEEKS_MOST; week++) {
        fv_week_entry *last = room->entries;
        room->entries = room->before;
        room->before = last;
        room->before_count = room->entry_count;
        go_through(room, choice, room->is.now + room->week);
        room->outcome.repeats = week > 0 && is_like_before(room);
        if (room->outcome.repeats)
            break;
    }
    return room->outcome;
}

/* The fire was lit under that batch, whatever was to be done to its vessels: under those that were nearest to it. */
static void light_anyhow(week_room *room, const fv_week_stand *stand)
{
    static const stage nearest[] = {HUNG, HANGING, FILLED, FILLING, CLEAN, EMPTYING, OFF, LEAVING, HOT};
    for (size_t i = 0; i < room->problem->vessels; i++)
        if (room->is.vessels[i].stage == STEAMING) /* the batch before is done */
            move_on(room, &room->is.vessels[i], HOT);
    room->is.boiler_free = room->is.now + stand->steam;
    for (size_t k = 0; k < week_kind_count(room->problem); k++) {
        size_t left = week_batch_of(room->problem, stand->batch, k);
        for (size_t s = 0; s < sizeof nearest / sizeof *nearest; s++)
            left -= put_on_steam(room, k, nearest[s], left, stand->cool);
    }
}

bool week_stand(week_room *room, const week_choice *week, size_t near, const fv_week_stand *stand)
{
    week_choice before = *week;
    if (!week_simulate(room, week).repeats)
        return false;
    const size_t begins = room->is.now, later = stand->at < stand->lit ? room->week : 0;
    before.count = near < before.count ? near : before.count;
    go_through(room, &before, begins + stand->lit);
    light_anyhow(room, stand);
    before.count = 0;
    go_on(room, &before, begins + later + stand->at);
    state_copy(room, &room->is, &room->stand);
    room->end = begins + later + room->week;
    return true;
}

void week_begins(const week_room *room, size_t kind, size_t *hung, size_t *hot, size_t *off)
{
    *hung = room->begins[kind][HANGING] + room->begins[kind][HUNG];
    *hot = room->begins[kind][STEAMING] + room->begins[kind][HOT];
    *off = room->begins[kind][LEAVING] + room->begins[kind][OFF];
}

size_t week_entries(const week_room *room, const fv_week_entry **entries)
{
    *entries = room->entries;
    return room->entry_count;
}
