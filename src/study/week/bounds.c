/* SPDX-License-Identifier: MIT */
/* Four bounds, each of which forgets all but one thing that is scarce.
 *
 * boiler: batches follow one another, each is lit when somebody is there and stays long enough; the most that can be
 * lit one after another round the week, by dynamic programming over slots. places: each vessel holds a place at least
 * while it is hung on, steams, and is taken off (or cools and is emptied). vessels: each goes round all its tasks, its
 * steam and its cooling. crew: each vessel takes its tasks, each batch its lighting, out of all people's hours. */
#include "study/week/bounds.h"
#include "study/week/kinds.h"

#include <math.h>
#include <stdlib.h>

static double crew_slots(const fv_week_problem *p)
{
    double all = 0.0;
    for (size_t s = 0; s < FV_WEEK_DAYS * p->slots_a_day; s++)
        all += (double)p->people[s];
    return all;
}

static double work_of(fv_week_task task)
{
    return (double)(task.slots * task.people);
}

/* Somebody is there through `slots` from `slot` on. */
static bool attended(const fv_week_problem *p, size_t slot, size_t slots)
{
    const size_t week = FV_WEEK_DAYS * p->slots_a_day;
    for (size_t s = 0; s < slots || s == 0; s++)
        if (p->people[(slot + s) % week] == 0)
            return false;
    return true;
}

/* The most kg from slot `from` to `from` + week, with batches that end within: what crosses the end is counted by
 * adding one more of the largest batches, so that this stays a bound for weeks that follow each other. */
static double by_boiler(const fv_week_problem *p)
{
    const size_t week = FV_WEEK_DAYS * p->slots_a_day;
    double *most = calloc(week + 1, sizeof *most);
    double across = 0.0;
    if (!most)
        return INFINITY;
    for (size_t s = week; s-- > 0;) {
        most[s] = most[s + 1];
        for (size_t k = 1; k <= fv_week_batches(p); k++) {
            if (p->batch[k].steam == 0 || !attended(p, s, p->batch[k].attended))
                continue;
            if (s + p->batch[k].steam <= week)
                most[s] = fmax(most[s], p->batch[k].kg + most[s + p->batch[k].steam]);
            else
                across = fmax(across, p->batch[k].kg);
        }
    }
    const double bound = most[0] + across;
    free(most);
    return bound;
}

/* Least of what a size asks of something scarce for each kg it treats. */
static double least_a_kg(const fv_week_problem *p, double each, double each_batch, bool steam, bool cool)
{
    double least = INFINITY;
    for (size_t k = 1; k <= fv_week_batches(p); k++) {
        const fv_week_batch *b = &p->batch[k];
        const double one = each + (steam ? (double)b->steam : 0.0) + (cool ? (double)b->cool : 0.0);
        if (b->kg > 0.0)
            least = fmin(least, ((double)fv_week_batch_vessels(p, k) * one + each_batch) / b->kg);
    }
    return least;
}

static double length_of(const fv_week_problem *p, fv_week_what what)
{
    return (double)p->task[what].slots;
}

void week_bounds(const fv_week_problem *p, double bound[4])
{
    const double week = (double)(FV_WEEK_DAYS * p->slots_a_day);
    const double on = length_of(p, FV_TASK_HANG_ON), off = p->taken_off ? length_of(p, FV_TASK_TAKE_OFF) : 0.0;
    const double fill = length_of(p, FV_TASK_FILL), empty = length_of(p, FV_TASK_EMPTY);
    const double held = on + (p->taken_off ? off : empty);
    /* Taking off goes on while it cools. */
    const double round = fill + on + empty;
    double work = work_of(p->task[FV_TASK_FILL]) + work_of(p->task[FV_TASK_HANG_ON]) + work_of(p->task[FV_TASK_EMPTY]);
    if (p->taken_off)
        work += work_of(p->task[FV_TASK_TAKE_OFF]);
    bound[FV_WEEK_BY_BOILER] = by_boiler(p);
    bound[FV_WEEK_BY_PLACES] = (double)p->places * week / least_a_kg(p, held, 0.0, true, !p->taken_off);
    bound[FV_WEEK_BY_VESSELS] = (double)p->vessels * week / least_a_kg(p, round, 0.0, true, true);
    bound[FV_WEEK_BY_CREW] = crew_slots(p) / least_a_kg(p, work, work_of(p->task[FV_TASK_LIGHT]), false, false);
}
