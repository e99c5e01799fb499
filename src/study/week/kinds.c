/* SPDX-License-Identifier: MIT */
#include "study/week/kinds.h"

#include <string.h>

size_t week_kind_count(const fv_week_problem *p)
{
    return p->kind_count > 0 ? p->kind_count : 1;
}

fv_week_kind week_kind(const fv_week_problem *p, size_t kind)
{
    return p->kind_count > 0 ? p->kinds[kind] : (fv_week_kind){p->places, p->vessels};
}

size_t week_batch_of(const fv_week_problem *p, size_t batch, size_t kind)
{
    return p->kind_count > 0 ? p->batch[batch].of[kind] : batch;
}

size_t fv_week_batches(const fv_week_problem *p)
{
    return !p ? 0 : p->kind_count > 0 ? p->batch_count : p->places;
}

size_t fv_week_batch_vessels(const fv_week_problem *p, size_t batch)
{
    size_t vessels = 0;
    for (size_t k = 0; p && k < week_kind_count(p); k++)
        vessels += week_batch_of(p, batch, k);
    return vessels;
}

size_t fv_week_kind_of(const fv_week_problem *p, size_t vessel)
{
    size_t kind = 0;
    for (size_t end = p ? week_kind(p, 0).vessels : 0; p && vessel >= end && kind + 1 < week_kind_count(p);)
        end += week_kind(p, ++kind).vessels;
    return kind;
}

/* ---- alike? ---- */

static bool same(fv_value a, fv_value b)
{
    return fv_is_set(a) == fv_is_set(b) && (!fv_is_set(a) || a.v == b.v);
}

static bool loads_are_alike(const fv_load *a, const fv_load *b)
{
    return fv_word(a->medium) == fv_word(b->medium) && fv_word(a->form) == fv_word(b->form) &&
           fv_word(a->packing) == fv_word(b->packing) && fv_load_mass(a) == fv_load_mass(b) &&
           same(a->moisture, b->moisture) && same(a->count, b->count) && same(a->a, b->a) && same(a->b, b->b) &&
           same(a->c, b->c) && same(a->diameter, b->diameter) && same(a->height, b->height) &&
           same(a->depth, b->depth) && same(a->start_temperature, b->start_temperature);
}

/* By what is the vessel's own; hoses belong to its place. */
static bool are_alike(const fv_vessel *a, const fv_vessel *b)
{
    return same(a->target, b->target) && same(a->hold, b->hold) && same(a->within, b->within) &&
           same(a->volume, b->volume) && fv_word(a->cooling) == fv_word(b->cooling) &&
           loads_are_alike(&a->load, &b->load);
}

size_t fv_week_kinds(const fv_plant *plant, size_t kind_of[FV_WEEK_PLACES_MOST])
{
    size_t count = 0;
    if (!plant || !kind_of || plant->vessel_count > FV_WEEK_PLACES_MOST)
        return 0;
    for (size_t i = 0; i < plant->vessel_count; i++) {
        kind_of[i] = count;
        for (size_t k = 0; k < i; k++)
            if (are_alike(plant->vessels[k], plant->vessels[i])) {
                kind_of[i] = kind_of[k];
                break;
            }
        count += kind_of[i] == count;
    }
    return count;
}

/* ---- together ---- */

/* The next combination, as one counts; false: that was the last. */
static bool next(const fv_week_problem *p, size_t of[FV_WEEK_KINDS_MOST])
{
    for (size_t k = 0; k < week_kind_count(p); k++) {
        if (of[k] < week_kind(p, k).places) {
            of[k]++;
            return true;
        }
        of[k] = 0;
    }
    return false;
}

typedef enum { EVERY_ONE, WHOLE_KINDS, FEW_OR_MOST } which;

static bool is_followed(const fv_week_problem *p, const size_t of[FV_WEEK_KINDS_MOST], which of_these)
{
    const size_t kinds = week_kind_count(p);
    size_t there = 0, whole = 0;
    for (size_t k = 0; k < kinds; k++) {
        there += of[k] > 0;
        whole += of[k] == week_kind(p, k).places;
    }
    return of_these == EVERY_ONE || (there == whole && (of_these == WHOLE_KINDS || there <= 2 || there + 1 >= kinds));
}

static size_t list(const fv_week_problem *p, which of_these, size_t (*of)[FV_WEEK_KINDS_MOST])
{
    size_t count = 0;
    for (size_t vessels = 1; vessels <= p->places; vessels++) {
        size_t at[FV_WEEK_KINDS_MOST] = {0};
        while (next(p, at)) {
            size_t all = 0;
            for (size_t k = 0; k < week_kind_count(p); k++)
                all += at[k];
            if (all != vessels || !is_followed(p, at, of_these))
                continue;
            count++;
            if (of)
                memcpy(of[count], at, sizeof at);
        }
    }
    return count;
}

size_t week_compose(const fv_week_problem *p, size_t (*of)[FV_WEEK_KINDS_MOST], bool *chosen)
{
    which these = EVERY_ONE;
    while (these < FEW_OR_MOST && list(p, these, NULL) > WEEK_BATCHES_FOLLOWED)
        these++;
    *chosen = these != EVERY_ONE;
    return list(p, these, of);
}
