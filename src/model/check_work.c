/* SPDX-License-Identifier: MIT */
/* The working week: days and times of day become numbers; what is said twice or makes no sense is refused. */
#include "model/check.h"

#include <stdio.h>
#include <string.h>

#define DAY 86400.0

static const char *const day_names[] = {"mon", "tue", "wed", "thu", "fri", "sat", "sun"};

/* "tue" -> 1; -1: no day. Goes on behind it. */
static int read_day(const char **at)
{
    for (int d = 0; d < 7; d++)
        if (strncmp(*at, day_names[d], 3) == 0) {
            *at += 3;
            return d;
        }
    return -1;
}

/* "mon-sat", "mon,wed fri", "sat-mon". */
static bool read_days(const char *text, unsigned *bits)
{
    *bits = 0;
    for (const char *at = text; *at;) {
        const int first = read_day(&at);
        int last = first;
        if (first >= 0 && *at == '-') {
            at++;
            last = read_day(&at);
        }
        if (first < 0 || last < 0)
            return false;
        for (int d = first;; d = (d + 1) % 7) {
            *bits |= 1u << d;
            if (d == last)
                break;
        }
        at += strspn(at, ", ");
    }
    return *bits != 0;
}

/* "07:00", "24:00". */
static bool read_clock(const char *text, double *seconds)
{
    unsigned hour, minute;
    int used = 0;
    if (sscanf(text, "%2u:%2u%n", &hour, &minute, &used) != 2 || text[used] || text[used - 3] != ':' || hour > 24 ||
        minute > 59 || (hour == 24 && minute > 0))
        return false;
    *seconds = 3600.0 * hour + 60.0 * minute;
    return true;
}

static void check_crew(const model_link *link, fv_crew *crew)
{
    if (crew->days && !read_days(crew->days, &crew->day_bits))
        fv_error(link->faults, FV_ERR_INPUT, crew->part.loc, "crew: days=\"%.40s\"; write mon, mon-sat or mon,wed,fri",
                 crew->days);
    if (!crew->from || !crew->to)
        return;
    if (!read_clock(crew->from, &crew->begins) || !read_clock(crew->to, &crew->ends)) {
        fv_error(link->faults, FV_ERR_INPUT, crew->part.loc,
                 "crew: from=\"%.20s\" to=\"%.20s\"; times of day are written 07:00 and 18:30", crew->from, crew->to);
        return;
    }
    if (crew->ends <= crew->begins)
        crew->ends += DAY;
}

static void check_task(const model_link *link, const fv_work *work, size_t i)
{
    const fv_task *task = work->tasks[i];
    if (fv_word(task->what) < 0)
        return;
    const bool look = fv_word(task->what) == FV_WORK_LOOK;
    if (fv_is_set(task->every) && !look)
        fv_error(link->faults, FV_ERR_INPUT, task->part.loc, "task: every= goes with what=\"look\" alone");
    for (size_t k = 0; k < i; k++)
        if (fv_is_set(work->tasks[k]->what) && fv_word(work->tasks[k]->what) == fv_word(task->what))
            fv_error(link->faults, FV_ERR_INPUT, task->part.loc, "task: the same is said in line %d already",
                     work->tasks[k]->part.loc.line);
}

static void check_more(const model_link *link, const fv_more *more)
{
    int index;
    if (more->part.like)
        model_check_named(link, more->part.loc, "more", EL_KIND, more->part.like, &index);
}

/* What a price can be paid by. */
static void check_price(const model_link *link, const fv_work *work, size_t i)
{
    const fv_price *price = work->prices[i];
    static const unsigned fits[FV_PRICE_KINDS] = {
        [FV_PRICE_FUEL] =
            1u << FV_PER_KG | 1u << FV_PER_LB | 1u << FV_PER_L | 1u << FV_PER_GAL | 1u << FV_PER_M3 | 1u << FV_PER_KWH,
        [FV_PRICE_WATER] = 1u << FV_PER_L | 1u << FV_PER_GAL | 1u << FV_PER_M3 | 1u << FV_PER_KG,
        [FV_PRICE_ELECTRICITY] = 1u << FV_PER_KWH,
        [FV_PRICE_MEDIUM] = 1u << FV_PER_KG | 1u << FV_PER_LB,
        [FV_PRICE_BAG] = 1u << FV_PER_EACH,
        [FV_PRICE_TREATED] = 1u << FV_PER_KG | 1u << FV_PER_LB | 1u << FV_PER_EACH};
    char word[16];
    if (fv_word(price->what) < 0 || fv_word(price->per) < 0) /* said already */
        return;
    if (!(fits[fv_word(price->what)] >> fv_word(price->per) & 1u))
        fv_error(link->faults, FV_ERR_INPUT, price->part.loc, "price: %s is not paid by the %s",
                 fv_word_at("fuel|water|electricity|medium|bag|treated", fv_word(price->what), word, sizeof word),
                 fv_word(price->per) == FV_PER_EACH ? "piece" : "unit that per= names");
    for (size_t k = 0; k < i; k++)
        if (fv_is_set(work->prices[k]->what) && fv_word(work->prices[k]->what) == fv_word(price->what))
            fv_error(link->faults, FV_ERR_INPUT, price->part.loc, "price: the same is said in line %d already",
                     work->prices[k]->part.loc.line);
}

bool model_check_work(model_link *link)
{
    fv_work *work = &link->plant->work;
    for (size_t i = 0; i < work->crew_count; i++)
        check_crew(link, work->crews[i]);
    for (size_t i = 0; i < work->task_count; i++)
        check_task(link, work, i);
    for (size_t i = 0; i < work->more_count; i++)
        check_more(link, work->more[i]);
    for (size_t i = 0; i < work->price_count; i++)
        check_price(link, work, i);
    return true;
}
