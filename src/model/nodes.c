/* SPDX-License-Identifier: MIT */
/* The table of joints: every name that a line's end, a boiler, a vessel, a tee or a drip leg uses, numbered in the
 * order of their first mention. And the three lines of each tee. */
#include "model/link.h"
#include "model/near.h"

#include <stdlib.h>
#include <string.h>

typedef struct {
    const char *name;
    size_t order;
    int *index; /* where the number goes */
} mention;

typedef struct {
    mention *list;
    size_t count, capacity;
    bool failed;
} mentions;

static void add(mentions *m, const char *name, int *index)
{
    *index = -1;
    if (!name)
        return;
    void *list = m->list;
    if (!fv_grow(&list, &m->capacity, m->count + 1, sizeof(mention))) {
        m->failed = true;
        return;
    }
    m->list = list;
    m->list[m->count] = (mention){name, m->count, index};
    m->count++;
}

static int by_name(const void *a, const void *b)
{
    const mention *x = a, *y = b;
    int order = strcmp(x->name, y->name);
    return order ? order : (x->order > y->order) - (x->order < y->order);
}

static int by_order(const void *a, const void *b)
{
    const mention *x = a, *y = b;
    return (x->order > y->order) - (x->order < y->order);
}

/* Gives all mentions of one name the order of the first, then numbers the firsts. */
static bool number_them(mentions *m, fv_plant *plant)
{
    if (!m->count)
        return true;
    qsort(m->list, m->count, sizeof *m->list, by_name);
    for (size_t i = 1; i < m->count; i++)
        if (strcmp(m->list[i].name, m->list[i - 1].name) == 0)
            m->list[i].order = m->list[i - 1].order;
    qsort(m->list, m->count, sizeof *m->list, by_order);
    size_t nodes = 0;
    for (size_t i = 0; i < m->count; i++)
        nodes += i == 0 || m->list[i].order != m->list[i - 1].order;
    plant->nodes = fv_arena_alloc(plant->arena, nodes, sizeof *plant->nodes);
    if (!plant->nodes)
        return false;
    for (size_t i = 0; i < m->count; i++) {
        if (i == 0 || m->list[i].order != m->list[i - 1].order)
            plant->nodes[plant->node_count++] = m->list[i].name;
        *m->list[i].index = (int)(plant->node_count - 1);
    }
    return true;
}

static int tee_line(const model_link *link, const fv_tee *tee, const char *role, const char *id)
{
    if (!id)
        return -1;
    const model_named *named = model_names_find(&link->names, id);
    if (named && model_is_line(named->element))
        return named->index;
    char hint[MODEL_SAY];
    model_near near = model_near_start(id);
    for (size_t i = 0; i < link->plant->line_count && model_may_hint(link); i++)
        if (link->plant->lines[i]->part.id)
            model_near_try(&near, link->plant->lines[i]->part.id);
    if (named)
        fv_error(link->faults, FV_ERR_INPUT, tee->part.loc, "tee at '%s': %s=\"%s\" names a %s; it must name a line",
                 tee->at ? tee->at : "?", role, id, named->element->name);
    else
        fv_error(link->faults, FV_ERR_INPUT, tee->part.loc, "tee at '%s': %s=\"%s\", but no line has that id%s",
                 tee->at ? tee->at : "?", role, id, model_near_hint(&near, hint, sizeof hint));
    return -1;
}

bool model_make_nodes(model_link *link)
{
    fv_plant *plant = link->plant;
    mentions m = {0};
    plant->nodes = NULL;
    plant->node_count = 0;
    for (size_t i = 0; i < plant->boiler_count; i++)
        add(&m, plant->boilers[i]->at, &plant->boilers[i]->node);
    for (size_t i = 0; i < plant->line_count; i++) {
        add(&m, plant->lines[i]->from, &plant->lines[i]->node_from);
        add(&m, plant->lines[i]->to, &plant->lines[i]->node_to);
    }
    for (size_t i = 0; i < plant->vessel_count; i++)
        add(&m, plant->vessels[i]->at, &plant->vessels[i]->node);
    for (size_t i = 0; i < plant->kind_count; i++)
        plant->kinds[i]->node = -1;
    for (size_t i = 0; i < plant->tee_count; i++)
        add(&m, plant->tees[i]->at, &plant->tees[i]->node);
    for (size_t i = 0; i < plant->drip_count; i++)
        add(&m, plant->drips[i]->at, &plant->drips[i]->node);
    bool good = !m.failed && number_them(&m, plant);
    free(m.list);
    for (size_t i = 0; i < plant->tee_count; i++) {
        fv_tee *tee = plant->tees[i];
        tee->line[0] = tee_line(link, tee, "main", tee->main);
        tee->line[1] = tee_line(link, tee, "run", tee->run);
        tee->line[2] = tee_line(link, tee, "branch", tee->branch);
    }
    return good;
}
