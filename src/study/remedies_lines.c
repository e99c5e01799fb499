/* SPDX-License-Identifier: MIT */
/* What can be done about hoses, header, fittings, sags and lagging on a vessel's way. */
#include "farvessel/constants.h"
#include "study/remedies.h"

#include <math.h>

enum { STEPS = 2 };
static const double SHORTER = 0.95;           /* of the length: shortened by less is not worth it */
static const double THROTTLES[] = {0.5, 0.3}; /* how far the others' valves stay open */
static const double NARROWER = 0.98;          /* of the bore: what counts as a narrow place */

static bool is_on(const study_remedies *r, size_t line)
{
    return study_on_way(r->ways, r->target, line);
}

static bool is_own(const study_remedies *r, size_t line)
{
    return is_on(r, line) && r->ways->kind[line] == WAY_OWN;
}

static fv_stock_kind stock_of(const fv_line *line)
{
    return line->kind == FV_LINE_HOSE ? FV_STOCK_HOSE : FV_STOCK_HEADER;
}

static double tenths_of_mm(double x)
{
    return round(1e4 * x) / 1e4;
}

static bool is_narrow(const fv_fitting *f)
{
    return f->kind == FV_FITTING_BARB || f->kind == FV_FITTING_UNION;
}

/* A line of another bore, with barbs and unions in the same proportion. */
static void set_bore(study_remedies *r, const fv_line *line, const study_size *size)
{
    const char *id = line->part.id;
    study_remedy_set(r, id, line->bore.v, size->size, "bore", "%s", id);
    for (size_t j = 0; j < line->fitting_count; j++) {
        const fv_fitting *f = line->fittings[j];
        if (is_narrow(f))
            study_remedy_set(r, id, f->bore.v, tenths_of_mm(size->size * f->bore.v / line->bore.v), "bore",
                             "%s.fitting%zu", id, j + 1);
    }
    study_remedy_size(r, size);
    study_remedy_cost(r, size->price * line->length.v);
}

static void wider_hose(study_remedies *r, int step)
{
    study_remedy_begin(r, FV_REMEDY_HOSE_BORE, FV_EFFORT_BUY);
    for (size_t i = 0; i < r->plant->line_count; i++) {
        const fv_line *line = r->plant->lines[i];
        study_size size;
        if (is_own(r, i) && study_size_next(r->plant, stock_of(line), line->bore.v, step, &size))
            set_bore(r, line, &size);
    }
    study_remedy_end(r);
}

/* All that is narrower than the size above the narrowest header gets that size. */
static void wider_header(study_remedies *r, int step)
{
    const fv_plant *plant = r->plant;
    double least = INFINITY;
    for (size_t i = 0; i < plant->line_count; i++)
        if (is_on(r, i) && !is_own(r, i))
            least = fmin(least, plant->lines[i]->bore.v);
    study_size size;
    if (isinf(least) || !study_size_next(plant, FV_STOCK_HEADER, least, step, &size))
        return;
    study_remedy_begin(r, FV_REMEDY_HEADER_BORE, FV_EFFORT_BUY);
    for (size_t i = 0; i < plant->line_count; i++)
        if (is_on(r, i) && !is_own(r, i) && plant->lines[i]->bore.v < size.size)
            set_bore(r, plant->lines[i], &size);
    study_remedy_end(r);
}

/* Length of the hoses of the vessel that has the shortest. */
static double shortest_hose(const study_remedies *r)
{
    double shortest = INFINITY;
    for (size_t v = 0; v < r->plant->vessel_count; v++) {
        double sum = 0;
        for (size_t i = 0; i < r->plant->line_count; i++)
            if (study_on_way(r->ways, v, i) && r->ways->kind[i] == WAY_OWN)
                sum += r->plant->lines[i]->length.v;
        if (v != r->target && sum > 0)
            shortest = fmin(shortest, sum);
    }
    return shortest;
}

static void shorter_hose(study_remedies *r)
{
    const double to = shortest_hose(r);
    study_remedy_begin(r, FV_REMEDY_HOSE_LENGTH, FV_EFFORT_SMALL);
    for (size_t i = 0; i < r->plant->line_count; i++) {
        const fv_line *line = r->plant->lines[i];
        /* A sag must still fit, and a rise be reached. */
        const bool reaches = to > fabs(line->rise.v) && to > 2 * line->sag.v;
        if (is_own(r, i) && line->kind == FV_LINE_HOSE && to < SHORTER * line->length.v && reaches)
            study_remedy_set(r, line->part.id, line->length.v, to, "length", "%s", line->part.id);
    }
    study_remedy_end(r);
}

static void wider_couplings(study_remedies *r)
{
    study_remedy_begin(r, FV_REMEDY_COUPLINGS, FV_EFFORT_SMALL);
    for (size_t i = 0; i < r->plant->line_count; i++) {
        const fv_line *line = r->plant->lines[i];
        for (size_t j = 0; j < line->fitting_count && is_on(r, i); j++) {
            const fv_fitting *f = line->fittings[j];
            if (is_narrow(f) && f->bore.v < NARROWER * line->bore.v)
                study_remedy_set(r, line->part.id, f->bore.v, line->bore.v, "bore", "%s.fitting%zu", line->part.id,
                                 j + 1);
        }
    }
    study_remedy_cost(r, NAN);
    study_remedy_end(r);
}

static void open_valves(study_remedies *r)
{
    study_remedy_begin(r, FV_REMEDY_VALVE_OPEN, FV_EFFORT_FREE);
    for (size_t i = 0; i < r->plant->line_count; i++) {
        const fv_line *line = r->plant->lines[i];
        for (size_t j = 0; j < line->fitting_count && is_on(r, i); j++)
            if (line->fittings[j]->kind == FV_FITTING_VALVE && line->fittings[j]->open.v < 1)
                study_remedy_set(r, line->part.id, line->fittings[j]->open.v, 1, "open", "%s.fitting%zu", line->part.id,
                                 j + 1);
    }
    study_remedy_end(r);
}

static bool leads_to_faster(const study_remedies *r, size_t line)
{
    for (size_t v = 0; v < r->plant->vessel_count && r->ways->kind[line] == WAY_OWN; v++)
        if (r->faster[v] && study_on_way(r->ways, v, line))
            return true;
    return false;
}

static void throttle_others(study_remedies *r, double open)
{
    study_remedy_begin(r, FV_REMEDY_VALVES_OTHERS, FV_EFFORT_FREE);
    for (size_t i = 0; i < r->plant->line_count; i++) {
        const fv_line *line = r->plant->lines[i];
        for (size_t j = 0; j < line->fitting_count && leads_to_faster(r, i); j++)
            if (line->fittings[j]->kind == FV_FITTING_VALVE && line->fittings[j]->open.v > open)
                study_remedy_set(r, line->part.id, line->fittings[j]->open.v, open, "open", "%s.fitting%zu",
                                 line->part.id, j + 1);
    }
    study_remedy_end(r);
}

static void hang_up(study_remedies *r)
{
    study_remedy_begin(r, FV_REMEDY_SAG, FV_EFFORT_FREE);
    for (size_t i = 0; i < r->plant->line_count; i++) {
        const fv_line *line = r->plant->lines[i];
        if (is_on(r, i) && line->sag.v > 0)
            study_remedy_set(r, line->part.id, line->sag.v, 0, "sag", "%s", line->part.id);
    }
    study_remedy_end(r);
}

static void lag(study_remedies *r, int step)
{
    study_size size;
    if (!study_size_next(r->plant, FV_STOCK_LAGGING, 0, step, &size))
        return;
    study_remedy_begin(r, FV_REMEDY_LAG_LINES, FV_EFFORT_BUY);
    for (size_t i = 0; i < r->plant->line_count; i++) {
        const fv_line *line = r->plant->lines[i];
        if (!is_on(r, i) || line->lagging.v >= size.size || fv_is_set(line->heat_loss))
            continue;
        study_remedy_set(r, line->part.id, line->lagging.v, size.size, "lagging", "%s", line->part.id);
        if (!isnan(size.conductivity) && size.conductivity != line->lagging_conductivity.v)
            study_remedy_set(r, line->part.id, NAN, size.conductivity, "lagging-conductivity", "%s", line->part.id);
        const double outside = line->bore.v + 2 * line->wall.v + 2 * size.size;
        study_remedy_cost(r, size.price * FV_PI * outside * line->length.v);
    }
    study_remedy_size(r, &size);
    study_remedy_end(r);
}

void study_remedies_of_lines(study_remedies *r)
{
    for (int step = 1; step <= STEPS; step++) {
        wider_hose(r, step);
        wider_header(r, step);
        lag(r, step);
    }
    shorter_hose(r);
    wider_couplings(r);
    open_valves(r);
    for (size_t i = 0; i < sizeof THROTTLES / sizeof *THROTTLES; i++)
        throttle_others(r, THROTTLES[i]);
    hang_up(r);
}
