/* SPDX-License-Identifier: MIT */
/* Readings that cannot be used (jumps, probes that are stuck, values above boiling): left out, each with a note in the
 * answer. The limits below are common practice, no source. */
#include "study/readings.h"

#include <math.h>

static const double JUMP = 6.0;           /* K that a core never moves from one reading to the next, and */
static const double JUMP_RATE = 3.0 / 60; /* K/s that it never moves at */
static const double BACK = 45 * 60;       /* s after which a core that jumped counts as where it is */
static const double FROZEN = 3600;        /* s */
static const double OTHERS_MOVED = 5.0;   /* K meanwhile */
static const double NOISE = 1.0;          /* K beyond its error that a reading may be above boiling */

static void mark(fv_probe_readings *r, size_t from, size_t to, fv_reading_flaw flaw)
{
    for (size_t i = from; i < to; i++)
        if (r->flaw[i] == FV_READING_GOOD)
            r->flaw[i] = (unsigned char)flaw;
}

static bool jumps(const fv_probe_readings *r, size_t a, size_t b)
{
    const double moved = fabs(r->value[b] - r->value[a]), dt = r->time[b] - r->time[a];
    return moved > JUMP && moved > JUMP_RATE * dt;
}

/* A core that falls or leaps at once was pulled out, or put in; it counts again when it is back where it was. */
static void find_pulled(fv_probe_readings *r)
{
    size_t last = r->count; /* last good reading */
    for (size_t i = 0; i < r->count; i++) {
        if (r->flaw[i] != FV_READING_GOOD)
            continue;
        if (last == r->count || !jumps(r, last, i)) {
            last = i;
            continue;
        }
        size_t end = i;
        while (end < r->count && r->time[end] - r->time[last] <= BACK &&
               (r->flaw[end] != FV_READING_GOOD || fabs(r->value[end] - r->value[last]) > JUMP))
            end++;
        /* what settles in again is not yet the core's */
        mark(r, i, end, FV_READING_PULLED);
        last = end < r->count ? end : last;
        i = end > i ? end - 1 : i;
        if (end < r->count && r->flaw[end] == FV_READING_GOOD)
            i = end;
    }
}

static double range_of(const fv_probe_readings *r, double from, double to)
{
    double least = INFINITY, most = -INFINITY;
    for (size_t i = 0; i < r->count; i++)
        if (r->time[i] >= from && r->time[i] <= to && r->flaw[i] == FV_READING_GOOD) {
            least = fmin(least, r->value[i]);
            most = fmax(most, r->value[i]);
        }
    return most > least ? most - least : 0;
}

static bool others_moved(const study_readings *all, const fv_probe_readings *r, double from, double to)
{
    for (size_t i = 0; i < all->count; i++)
        if (&all->list[i] != r && all->list[i].at == r->at && range_of(&all->list[i], from, to) > OTHERS_MOVED)
            return true;
    return false;
}

static void find_frozen(const study_readings *all, fv_probe_readings *r)
{
    size_t begin = 0;
    for (size_t i = 1; i <= r->count; i++) {
        if (i < r->count && r->value[i] == r->value[begin])
            continue;
        if (r->time[i - 1] - r->time[begin] >= FROZEN && i - begin > 6 &&
            others_moved(all, r, r->time[begin], r->time[i - 1]))
            mark(r, begin, i, FV_READING_FROZEN);
        begin = i;
    }
}

void study_readings_clean(study_readings *readings, double boiling)
{
    for (size_t k = 0; k < readings->count; k++) {
        fv_probe_readings *r = &readings->list[k];
        for (size_t i = 0; i < r->count; i++)
            if (isnan(r->value[i]))
                r->flaw[i] = FV_READING_OPEN;
            else if (r->at != FV_PROBE_AIR && r->value[i] > boiling + 2 * r->error + NOISE)
                r->flaw[i] = FV_READING_BOILING;
        if (r->at == FV_PROBE_CORE && r->vessel >= 0)
            find_pulled(r);
    }
    for (size_t k = 0; k < readings->count; k++)
        find_frozen(readings, &readings->list[k]);
    for (size_t k = 0; k < readings->count; k++)
        for (size_t i = 0; i < readings->list[k].count; i++)
            readings->list[k].left_out[readings->list[k].flaw[i]]++;
}
