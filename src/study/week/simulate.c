/* SPDX-License-Identifier: MIT */
/* Slot by slot: vessels go round from clean through filled, hung on, steaming, hot, taken off, cool to clean again. In
 * each slot hands go first to lighting, then to what frees a place, then to what fills one, to emptying, to filling. */
#include "study/week/simulate.h"

#include <stdlib.h>
#include <string.h>

enum { WEEKS_MOST = 8 };

typedef enum { CLEAN, FILLING, FILLED, HANGING, HUNG, STEAMING, HOT, LEAVING, OFF, EMPTYING, STAGES } stage;

typedef struct {
    stage stage;
    size_t until; /* slot at which the task or the steam under way ends */
    size_t cool;  /* slot from which it may be emptied */
} vessel;

struct week_room {
    const fv_week_problem *problem;
    size_t week; /* slots in it */
    vessel *vessels;
    size_t count[STAGES];            /* vessels at each stage */
    size_t begins[STAGES];           /* the same when the week began */
    size_t *busy;                    /* people at work, by slot of all weeks */
    fv_week_entry *entries, *before; /* of this week and of the one before */
    size_t entry_count, before_count, entries_most;
    /* of the run under way */
    fv_week_what order[4];
    size_t now, boiler_free, next; /* next: of the week's batches */
    week_outcome outcome;          /* of this week */
};

static size_t entries_most(const fv_week_problem *p)
{
    /* A vessel can begin each task at most once a slot, and no slot sees more tasks than vessels and one lighting. */
    return FV_WEEK_DAYS * p->slots_a_day * (p->vessels + 1) + 1;
}

week_room *week_room_new(const fv_week_problem *problem)
{
    week_room *room = calloc(1, sizeof *room);
    if (!room)
        return NULL;
    room->problem = problem;
    room->week = FV_WEEK_DAYS * problem->slots_a_day;
    room->entries_most = entries_most(problem);
    room->vessels = calloc(problem->vessels + 1, sizeof *room->vessels);
    room->busy = calloc((WEEKS_MOST + 1) * room->week, sizeof *room->busy);
    room->entries = calloc(room->entries_most, sizeof *room->entries);
    room->before = calloc(room->entries_most, sizeof *room->before);
    if (room->vessels && room->busy && room->entries && room->before)
        return room;
    week_room_free(room);
    return NULL;
}

void week_room_free(week_room *room)
{
    if (!room)
        return;
    free(room->vessels);
    free(room->busy);
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
    for (size_t s = room->now; s < room->now + task.slots; s++)
        if (people_at(room, s) < room->busy[s] + task.people)
            return false;
    return people_at(room, room->now) >= task.people;
}

static void note(week_room *room, fv_week_what what, size_t which)
{
    const fv_week_task task = room->problem->task[what];
    for (size_t s = room->now; s < room->now + task.slots; s++)
        room->busy[s] += task.people;
    room->outcome.crew_slots += (double)(task.slots * task.people);
    if (room->entry_count < room->entries_most)
        room->entries[room->entry_count++] = (fv_week_entry){room->now % room->week, what, which};
}

static size_t count_of(const week_room *room, stage from, stage to)
{
    size_t n = 0;
    for (stage s = from; s <= to; s++)
        n += room->count[s];
    return n;
}

static void move_on(week_room *room, vessel *v, stage to)
{
    room->count[v->stage]--;
    room->count[to]++;
    v->stage = to;
}

/* ---- what can be done now; true: something was ---- */

static bool somebody_stays(const week_room *room, size_t slots)
{
    for (size_t s = room->now; s < room->now + slots; s++)
        if (people_at(room, s) == 0)
            return false;
    return true;
}

static bool light(week_room *room, const week_choice *choice)
{
    const fv_week_problem *p = room->problem;
    const size_t size = room->next < choice->count ? choice->size[room->next] : 0;
    if (size == 0 || room->now < room->boiler_free || count_of(room, HUNG, HUNG) < size ||
        !hands_for(room, p->task[FV_TASK_LIGHT]) || !somebody_stays(room, p->batch[size].attended))
        return false;
    const fv_week_batch *batch = &p->batch[size];
    note(room, FV_TASK_LIGHT, size);
    room->next++;
    room->boiler_free = room->now + batch->steam;
    room->outcome.kg += batch->kg;
    room->outcome.fuel += batch->fuel;
    room->outcome.steam_slots += batch->steam;
    room->outcome.batches++;
    for (size_t i = 0, lit = 0; i < p->vessels && lit < size; i++)
        if (room->vessels[i].stage == HUNG) {
            move_on(room, &room->vessels[i], STEAMING);
            room->vessels[i].until = room->boiler_free;
            room->vessels[i].cool = room->boiler_free + batch->cool;
            lit++;
        }
    return true;
}

/* Begins a task on the first vessel that is ready for it. */
static bool begin(week_room *room, fv_week_what what, stage ready, stage under_way, bool cool)
{
    if (room->count[ready] == 0 || !hands_for(room, room->problem->task[what]))
        return false;
    for (size_t i = 0; i < room->problem->vessels; i++) {
        vessel *v = &room->vessels[i];
        if (v->stage != ready || (cool && v->cool > room->now))
            continue;
        note(room, what, i);
        move_on(room, v, under_way);
        v->until = room->now + room->problem->task[what].slots;
        return true;
    }
    return false;
}

/* What is filled should not stand for days: no more than one batch ahead. */
static bool fill(week_room *room)
{
    return count_of(room, FILLING, HUNG) < room->problem->places && begin(room, FV_TASK_FILL, CLEAN, FILLING, false);
}

/* A vessel that stays where it is holds its place until it is empty. */
static bool place_is_free(const week_room *room)
{
    return count_of(room, HANGING, room->problem->taken_off ? LEAVING : EMPTYING) < room->problem->places;
}

static bool do_task(week_room *room, fv_week_what what)
{
    const bool taken_off = room->problem->taken_off;
    switch (what) {
    case FV_TASK_TAKE_OFF:
        return taken_off && begin(room, what, HOT, LEAVING, false);
    case FV_TASK_HANG_ON:
        return place_is_free(room) && begin(room, what, FILLED, HANGING, false);
    case FV_TASK_EMPTY:
        return begin(room, what, taken_off ? OFF : HOT, EMPTYING, true);
    case FV_TASK_FILL:
        return fill(room);
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
        vessel *v = &room->vessels[i];
        const bool under_way = v->stage == FILLING || v->stage == HANGING || v->stage == STEAMING ||
                               v->stage == LEAVING || v->stage == EMPTYING;
        if (under_way && v->until <= room->now) {
            move_on(room, v, after[v->stage]);
        }
    }
}

static void go_through_week(week_room *room, const week_choice *choice)
{
    const size_t end = room->now + room->week;
    room->outcome = (week_outcome){0};
    room->entry_count = 0;
    room->next = 0;
    memcpy(room->begins, room->count, sizeof room->begins);
    for (; room->now < end; room->now++) {
        /* Tasks that take no time end in the slot in which they begin. */
        end_tasks(room);
        while (people_at(room, room->now) > 0 && do_one(room, choice))
            end_tasks(room);
    }
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
    memset(room->vessels, 0, (room->problem->vessels + 1) * sizeof *room->vessels);
    memset(room->busy, 0, (WEEKS_MOST + 1) * room->week * sizeof *room->busy);
    memset(room->count, 0, sizeof room->count);
    room->count[CLEAN] = room->problem->vessels;
    room->now = room->boiler_free = 0;
    for (size_t i = 0; i < 4; i++)
        room->order[i] = task_at(choice->order, i);
    for (size_t week = 0; week < WEEKS_MOST; week++) {
        fv_week_entry *last = room->entries;
        room->entries = room->before;
        room->before = last;
        room->before_count = room->entry_count;
        go_through_week(room, choice);
        room->outcome.repeats = week > 0 && is_like_before(room);
        if (room->outcome.repeats)
            break;
    }
    return room->outcome;
}

void week_begins(const week_room *room, size_t *hung, size_t *hot, size_t *off)
{
    *hung = room->begins[HANGING] + room->begins[HUNG];
    *hot = room->begins[STEAMING] + room->begins[HOT];
    *off = room->begins[LEAVING] + room->begins[OFF];
}

size_t week_entries(const week_room *room, const fv_week_entry **entries)
{
    *entries = room->entries;
    return room->entry_count;
}
