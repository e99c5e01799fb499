/* SPDX-License-Identifier: MIT */
/* What could be bought instead of waiting: for the asked number of vessels, all started together. */
#include "farvessel/constants.h"
#include "study/carry/parts.h"
#include "study/evaluate.h"
#include "study/sizes.h"

#include <math.h>

static const double SAME = 1e-9;
static const double WIDER = 1.05;         /* a header less than that much wider is the same one */
static const double OUTSIDE = 10.0;       /* W/m2/K, a wall's outside where a quilt is put on; common practice */
static const double SEALED = 100;         /* m, of a lining that keeps vapour out */
static const double WOOL = 0.045;         /* W/m/K, mineral wool at steam temperature, common practice */
enum { SIZES_MOST = 6, COMMON_MOST = 2 }; /* of the stock list; of common sizes, which go on for ever */

const char *fv_carry_other_word(fv_carry_other other)
{
    static const char *const words[] = {"stagger",      "small_work", "bigger_boiler", "second_boiler",
                                        "wider_header", "insulation", "lining"};
    return words[other];
}

typedef struct {
    fv_carry_answer *answer;
    fv_carry_way *tries; /* all sizes of all ways, way by way, the smallest first */
    size_t count;
    study_caches *caches;
    size_t first[FV_CARRY_OTHERS + 1]; /* of `tries`, by way; the last: their number */
} market;

static void open_way(fv_carry_way *way, fv_carry_other other, const study_size *size)
{
    *way = (fv_carry_way){.other = other,
                          .size = size ? size->size : NAN,
                          .from_stock = size && size->from_stock,
                          .cost = 0,
                          .fuel_per_mass = NAN};
}

/* ---- each way as settings on the plant, and what it costs ---- */

static void bigger_boiler(const fv_plant *plant, const study_size *size, study_settings *s, fv_carry_way *way)
{
    study_setting_add(s, plant->boilers[0]->part.id, "output", size->size);
    way->cost = size->price;
}

/* Beside the first, with its own output; water and steel follow from that. */
static bool second_boiler(fv_plant *plant, const study_size *size, fv_carry_way *way)
{
    const fv_boiler *first = plant->boilers[0];
    const fv_element *element;
    const char *id = NULL;
    for (int i = 2; i < 1000 && (!id || fv_plant_find(plant, id, &element)); i++)
        id = fv_arena_printf(plant->arena, "%s-%d", first->part.id, i);
    fv_boiler *boiler = id ? fv_plant_add_boiler(plant, id, first->part.loc) : NULL;
    if (!boiler)
        return false;
    const fv_boiler *model = plant->boilers[0];
    boiler->at = model->at;
    boiler->output = (fv_value){.v = size->size, .origin = FV_SETTING};
    const fv_value *theirs[] = {&model->holds,      &model->relief,  &model->feed,
                                &model->efficiency, &model->fuel,    &model->heating_value,
                                &model->fire,       &model->dryness, &model->start_temperature};
    fv_value *mine[] = {&boiler->holds,      &boiler->relief,  &boiler->feed,
                        &boiler->efficiency, &boiler->fuel,    &boiler->heating_value,
                        &boiler->fire,       &boiler->dryness, &boiler->start_temperature};
    for (size_t i = 0; i < sizeof mine / sizeof *mine; i++)
        if (theirs[i]->origin >= FV_KIND)
            *mine[i] = (fv_value){.v = theirs[i]->v, .origin = FV_SETTING, .known = theirs[i]->known};
    way->cost = size->price;
    return true;
}

static void wider_header(const fv_plant *plant, const study_size *size, study_settings *s, fv_carry_way *way)
{
    double *wish = s->failed ? NULL : fv_arena_alloc(s->arena, plant->line_count + 1, sizeof *wish);
    s->failed = !wish;
    for (size_t i = 0; wish && i < plant->line_count; i++) {
        const fv_line *line = plant->lines[i];
        const bool wider = line->kind == FV_LINE_HEADER && line->bore.v < size->size * (1 - SAME);
        wish[i] = wider ? size->size : NAN;
        way->cost += wider ? size->price * line->length.v : 0;
    }
    if (wish)
        study_wish_bores(s, plant, wish);
}

/* The thickest layer that insulates grows; where there is none, the outside coefficient takes the quilt in. */
static void lag_wall(const fv_plant *plant, size_t vessel, size_t n, const study_size *size, study_settings *s)
{
    const fv_vessel *v = plant->vessels[vessel];
    const fv_wall *wall = v->walls[n];
    int best = -1;
    for (size_t i = 0; i < wall->layer_count; i++)
        if (wall->layers[i]->conductivity.v < FV_INSULATES &&
            (best < 0 || wall->layers[i]->thickness.v > wall->layers[best]->thickness.v))
            best = (int)i;
    const char *path = s->failed   ? NULL
                       : best >= 0 ? fv_arena_printf(s->arena, "%s.wall%zu.layer%d", v->part.id, n + 1, best + 1)
                                   : fv_arena_printf(s->arena, "%s.wall%zu", v->part.id, n + 1);
    if (!path) {
        s->failed = true;
        return;
    }
    const double k = isnan(size->conductivity) ? WOOL : size->conductivity;
    if (best >= 0)
        study_setting_add(s, path, "thickness", wall->layers[best]->thickness.v + size->size);
    else
        study_setting_add(s, path, "outside", 1 / (1 / fv_or(wall->outside, OUTSIDE) + size->size / k));
}

static void insulate(const fv_plant *plant, const study_size *size, study_settings *s, fv_carry_way *way)
{
    double area = 0;
    for (size_t i = 0; i < plant->line_count; i++) {
        const fv_line *line = plant->lines[i];
        if (fv_is_set(line->heat_loss) || !(line->lagging.v < size->size * (1 - SAME)))
            continue;
        area += FV_PI * (line->bore.v + 2 * fv_or(line->wall, 0) + size->size) * line->length.v;
        study_setting_add(s, line->part.id, "lagging", size->size);
        if (!isnan(size->conductivity))
            study_setting_add(s, line->part.id, "lagging-conductivity", size->conductivity);
    }
    for (size_t i = 0; i < plant->vessel_count; i++)
        for (size_t j = 0; j < plant->vessels[i]->wall_count; j++) {
            area += plant->vessels[i]->walls[j]->area.v;
            lag_wall(plant, i, j, size, s);
        }
    way->cost = area > 0 ? area * size->price : NAN;
}

static bool lets_vapour(const fv_wall *wall)
{
    return wall->layer_count > 0 && wall->layers[0]->vapour_resistance.v < SEALED * (1 - SAME);
}

static void seal_linings(const fv_plant *plant, study_settings *s)
{
    for (size_t i = 0; i < plant->vessel_count; i++)
        for (size_t j = 0; j < plant->vessels[i]->wall_count; j++)
            if (lets_vapour(plant->vessels[i]->walls[j]))
                study_setting_add(s, fv_arena_printf(s->arena, "%s.wall%zu.layer1", plant->vessels[i]->part.id, j + 1),
                                  "vapour-resistance", SEALED);
}

/* ---- all of them ---- */

static bool make(market *m, const fv_plant *base, fv_carry_way *way, const study_size *size, fv_faults *faults)
{
    study_settings settings = {.arena = m->answer->arena};
    way->plant = fv_plant_copy(base);
    bool good = way->plant != NULL;
    if (good && way->other == FV_CARRY_BIGGER_BOILER)
        bigger_boiler(base, size, &settings, way);
    else if (good && way->other == FV_CARRY_SECOND_BOILER)
        good = second_boiler(way->plant, size, way);
    else if (good && way->other == FV_CARRY_WIDER_HEADER)
        wider_header(base, size, &settings, way);
    else if (good && way->other == FV_CARRY_INSULATION)
        insulate(base, size, &settings, way);
    else if (good && way->other == FV_CARRY_LINING)
        seal_linings(base, &settings);
    good = good && !settings.failed && carry_room(m->answer->arena, way->plant, &way->run);
    way->change = way->work ? way->work->change : settings.change;
    if (!good)
        fv_error(faults, FV_ERR_SYSTEM, base->loc, "out of memory");
    return good && (way->other != FV_CARRY_SECOND_BOILER || carry_link(way->plant, faults) != FV_FAIL);
}

static double smallest_header(const fv_plant *plant)
{
    double least = INFINITY;
    for (size_t i = 0; i < plant->line_count; i++)
        if (plant->lines[i]->kind == FV_LINE_HEADER)
            least = fmin(least, plant->lines[i]->bore.v);
    return least;
}

static bool add_sizes(market *m, const fv_plant *base, fv_carry_other other, fv_stock_kind kind, double than,
                      fv_faults *faults)
{
    study_size size;
    m->first[other] = m->count;
    for (int step = 1; step <= SIZES_MOST && isfinite(than) && study_size_next(base, kind, than, step, &size); step++) {
        if (!size.from_stock && step > COMMON_MOST)
            break;
        fv_carry_way *way = &m->tries[m->count++];
        open_way(way, other, &size);
        if (!make(m, base, way, &size, faults))
            return false;
    }
    return true;
}

/* A boiler below the first's size is worth a try as a second one. Where none is in stock, its twin comes first. */
static double smallest_second(const fv_plant *plant)
{
    study_size size;
    const double own = plant->boilers[0]->output.v;
    double than = own;
    if (study_size_next(plant, FV_STOCK_BOILER, own, 1, &size) && !size.from_stock)
        return own * (own / size.size);
    while (study_size_next(plant, FV_STOCK_BOILER, than, -1, &size) && size.from_stock)
        than = size.size;
    return than < own ? than * (1 - 1e-3) : own * (1 - 1e-3);
}

/* Where it seals anything. Its price is not known. */
static bool add_lining(market *m, const fv_plant *base, fv_faults *faults)
{
    bool any = false;
    m->first[FV_CARRY_LINING] = m->count;
    for (size_t i = 0; i < base->vessel_count; i++)
        for (size_t j = 0; j < base->vessels[i]->wall_count; j++)
            any = any || lets_vapour(base->vessels[i]->walls[j]);
    if (!any)
        return true;
    fv_carry_way *way = &m->tries[m->count++];
    open_way(way, FV_CARRY_LINING, NULL);
    way->cost = NAN;
    return make(m, base, way, NULL, faults);
}

static bool fill_market(market *m, const fv_carry_row *row, fv_faults *faults)
{
    const fv_plant *base = row->plant;
    study_remedies works;
    const bool listed = study_works_list(m->answer->arena, row->plant, row->together.latest_vessel, &works);
    m->tries = fv_arena_alloc(m->answer->arena, 1 + works.count + SIZES_MOST * FV_CARRY_OTHERS, sizeof *m->tries);
    if (!listed || !m->tries) {
        fv_error(faults, FV_ERR_SYSTEM, base->loc, "out of memory");
        return false;
    }
    m->first[FV_CARRY_STAGGER] = m->count;
    fv_carry_way *stagger = &m->tries[m->count++];
    open_way(stagger, FV_CARRY_STAGGER, NULL);
    if (!make(m, base, stagger, NULL, faults))
        return false;
    stagger->change = *fv_carry_change_of(row, row->best);
    m->first[FV_CARRY_SMALL_WORK] = m->count;
    for (size_t i = 0; i < works.count; i++) {
        fv_carry_way *way = &m->tries[m->count++];
        open_way(way, FV_CARRY_SMALL_WORK, NULL);
        way->work = &works.list[i];
        if (!make(m, base, way, NULL, faults))
            return false;
    }
    const double output = base->boilers[0]->output.v;
    const bool good =
        add_sizes(m, base, FV_CARRY_BIGGER_BOILER, FV_STOCK_BOILER, output, faults) &&
        add_sizes(m, base, FV_CARRY_SECOND_BOILER, FV_STOCK_BOILER, smallest_second(base), faults) &&
        add_sizes(m, base, FV_CARRY_WIDER_HEADER, FV_STOCK_HEADER, WIDER * smallest_header(base), faults) &&
        add_sizes(m, base, FV_CARRY_INSULATION, FV_STOCK_LAGGING, 0, faults) && add_lining(m, base, faults);
    m->first[FV_CARRY_OTHERS] = m->count;
    return good;
}

static void judge(const fv_carry_answer *answer, fv_carry_way *way)
{
    const fv_carry_batch *now = &answer->rows[answer->asked].together;
    const bool lifts_lid = study_lifts_lid(way->run.chamber, study_lid_bears(now->chamber));
    way->meets = way->run.carries && !(way->work && lifts_lid) &&
                 (isnan(answer->wanted) || way->run.mass_per_day >= answer->wanted * (1 - SAME));
    way->fuel_per_mass = way->run.mass > 0 ? way->run.fuel / way->run.mass : NAN;
    way->over_equipment = way->run.pressure > FV_PRESSURE_EQUIPMENT;
    for (size_t i = 0; i < way->plant->boiler_count; i++) {
        const fv_value relief = way->plant->boilers[i]->relief;
        way->over_relief = way->over_relief || (fv_is_set(relief) && way->run.pressure > relief.v);
    }
}

/* The smallest that meets what is wanted, else what comes nearest. */
static void choose(market *m, fv_carry_other other)
{
    fv_carry_way *best = NULL;
    for (size_t i = m->first[other]; i < m->first[other + 1]; i++) {
        fv_carry_way *way = &m->tries[i];
        if (!way->run.ran)
            continue;
        const bool by_run = !best || !best->meets || other == FV_CARRY_SMALL_WORK; /* of sizes the smallest will do */
        const bool better = !best || (way->meets && !best->meets) ||
                            (way->meets == best->meets && by_run && carry_is_better(&way->run, &best->run));
        best = better ? way : best;
    }
    if (best) {
        m->answer->ways[m->answer->way_count++] = *best;
        best->plant = NULL; /* handed over */
    }
}

/* Each way is a chain, each of its sizes a stage, until one meets what is wanted; all small works are one stage. */
static fv_status prepare(void *context, size_t other, size_t stage, size_t *jobs)
{
    const market *m = context;
    if (other == FV_CARRY_SMALL_WORK) {
        *jobs = stage == 0 ? m->first[other + 1] - m->first[other] : 0;
        return FV_OK;
    }
    const size_t next = m->first[other] + stage;
    bool met = false;
    for (size_t i = m->first[other]; i < next && i < m->first[other + 1]; i++)
        met = met || m->tries[i].meets;
    *jobs = !met && next < m->first[other + 1];
    return FV_OK;
}

static fv_status follow(void *context, const study_task *task)
{
    const market *m = context;
    fv_carry_way *way = &m->tries[m->first[task->chain] + task->stage + task->index];
    const carry_how how = {
        .follow = CARRY_TO_END, .fineness = 1, .until = NAN, .cache = study_cache(m->caches, task->worker)};
    const fv_status status =
        carry_batch(way->plant, &way->change, &m->answer->options, &how, task->progress, &way->run);
    if (status != FV_FAIL)
        judge(m->answer, way);
    return status;
}

study_ending carry_ways(fv_carry_answer *answer, const study_work *plan, fv_faults *faults)
{
    const study_chains ways = {.chains = FV_CARRY_OTHERS, .stages = SIZES_MOST, .prepare = prepare, .job = follow};
    market m = {.answer = answer, .caches = plan->caches};
    answer->ways = fv_arena_alloc(answer->arena, FV_CARRY_OTHERS, sizeof *answer->ways);
    const bool good = answer->ways && fill_market(&m, &answer->rows[answer->asked], faults);
    const study_ending outcome = good ? study_run_chains(plan, &ways, &m) : STUDY_FAILED;
    for (fv_carry_other other = 0; other < FV_CARRY_OTHERS && outcome == STUDY_DONE; other++)
        choose(&m, other);
    for (size_t i = 0; i < m.count; i++)
        fv_plant_free(m.tries[i].plant);
    return outcome;
}
