/* SPDX-License-Identifier: MIT */
/* What limits: each limit is taken away by itself, and the whole is solved again. */
#include "study/carry/parts.h"

#include <math.h>

static const double TWICE = 2.0;
static const double WIDER_HOLES = 1.5;
static const double OUTPUT_MOST = 1e6; /* W, the schema's limit */
static const double BORE_MOST = 1.0;   /* m, the same */

static const fv_carry_limit tried[] = {FV_CARRY_LIMIT_BOILER, FV_CARRY_LIMIT_HEADER, FV_CARRY_LIMIT_HOSES,
                                       FV_CARRY_LIMIT_COILS};
enum { TRIED = sizeof tried / sizeof *tried, MANNERS = 2 };

const char *fv_carry_limit_word(fv_carry_limit limit)
{
    static const char *const words[] = {"load", "boiler", "header", "hoses", "coils", "water", "none", "unknown"};
    return words[limit];
}

static fv_value set(fv_value value, double si)
{
    return (fv_value){.v = si, .origin = FV_SETTING, .known = value.known};
}

/* Its water and steel stay, or it would take longer to warm up. */
static void double_boilers(fv_plant *plant)
{
    for (size_t i = 0; i < plant->boiler_count; i++) {
        fv_boiler *b = plant->boilers[i];
        b->water = set(b->water, b->water.v);
        b->usable = set(b->usable, b->usable.v);
        b->steel = set(b->steel, b->steel.v);
        b->output = set(b->output, fmin(OUTPUT_MOST, TWICE * b->output.v));
    }
}

static void widen_coils(fv_plant *plant)
{
    for (size_t i = 0; i < plant->vessel_count; i++) {
        fv_coil *c = &plant->vessels[i]->coil;
        c->bore = set(c->bore, fmin(BORE_MOST, TWICE * c->bore.v));
        if (c->hole_count == 0)
            c->drill = set(c->drill, WIDER_HOLES * c->drill.v);
        for (size_t j = 0; j < c->hole_count; j++)
            c->hole[j]->drill = set(c->hole[j]->drill, WIDER_HOLES * c->hole[j]->drill.v);
    }
}

/* Hoses, or all other lines. */
static void widen_lines(fv_plant *plant, bool hoses, fv_faults *faults)
{
    study_settings settings;
    study_settings_open(&settings);
    double *wish = settings.failed ? NULL : fv_arena_alloc(settings.arena, plant->line_count + 1, sizeof *wish);
    for (size_t i = 0; wish && i < plant->line_count; i++) {
        const fv_line *line = plant->lines[i];
        wish[i] = (line->kind == FV_LINE_HOSE) == hoses ? fmin(BORE_MOST, TWICE * line->bore.v) : NAN;
    }
    if (wish)
        study_wish_bores(&settings, plant, wish);
    if (!settings.failed)
        fv_change_apply(&settings.change, plant, faults);
    study_settings_free(&settings);
}

/* A copy without the limit; NULL: it cannot be, or memory is out. */
static fv_plant *without(const fv_plant *plant, const fv_change *change, fv_carry_limit limit, fv_faults *faults)
{
    fv_plant *copy = fv_change_copy(change, plant, faults);
    if (!copy)
        return NULL;
    switch (limit) {
    case FV_CARRY_LIMIT_BOILER:
        double_boilers(copy);
        break;
    case FV_CARRY_LIMIT_COILS:
        widen_coils(copy);
        break;
    default:
        widen_lines(copy, limit == FV_CARRY_LIMIT_HOSES, faults);
    }
    if (fv_faults_errors(faults) == 0 && fv_plant_link(copy, faults) != FV_FAIL)
        return copy;
    fv_plant_free(copy);
    return NULL;
}

/* ---- in time ---- */

/* The boilers first: what they leave no room to be better than need not be followed to its end. */
struct carry_limits {
    fv_carry_answer *answer;
    study_caches *caches;
    double *slowest; /* by row, manner and limit; INFINITY: never, or not known to be the best */
};

/* The limits of a stage. */
static const size_t first_of[CARRY_LIMIT_STAGES] = {0, 1}, count_of[CARRY_LIMIT_STAGES] = {1, TRIED - 1};

/* s: the last core as it is. */
static double as_it_is(const fv_carry_row *row, bool staggered)
{
    const fv_carry_batch *run = staggered ? &row->staggered : &row->together;
    return isnan(run->slowest) ? INFINITY : run->slowest;
}

/* Together, and staggered where there is a stagger. */
size_t carry_limit_jobs(const carry_limits *limits, size_t row, size_t stage)
{
    return count_of[stage] * (limits->answer->rows[row].stagger.count > 0 ? MANNERS : 1);
}

fv_status carry_limit_job(carry_limits *l, const study_task *task)
{
    const size_t first = first_of[task->stage], limit = first + task->index % count_of[task->stage];
    const fv_carry_row *row = &l->answer->rows[task->chain];
    const bool staggered = task->index >= count_of[task->stage];
    const fv_change nothing = {0};
    double *slowest = &l->slowest[(task->chain * MANNERS + staggered) * TRIED], known = as_it_is(row, staggered);
    slowest[limit] = INFINITY;
    for (size_t i = 0; i < first; i++)
        known = fmin(known, slowest[i]);
    carry_how how = {
        .fineness = 1, .until = isfinite(known) ? known : NAN, .cache = study_cache(l->caches, task->worker)};
    fv_faults *faults = fv_faults_new();
    fv_arena *arena = fv_arena_new();
    fv_plant *copy = without(row->plant, staggered ? &row->stagger : &nothing, tried[limit], faults);
    fv_carry_batch run;
    fv_status status = faults && arena && (copy || !fv_faults_blame_system(faults)) ? FV_OK : FV_FAIL;
    if (copy && status == FV_OK)
        status = carry_room(arena, copy, &run)
                     ? carry_batch(copy, NULL, &l->answer->options, &how, task->progress, &run)
                     : FV_FAIL;
    if (copy && status == FV_OK && run.ran && !isnan(run.slowest))
        slowest[limit] = run.slowest;
    fv_plant_free(copy);
    fv_arena_free(arena);
    fv_faults_free(faults);
    return status;
}

static void settle(const carry_limits *l, size_t first, fv_carry_batch *run)
{
    size_t best = 0;
    const double now = isnan(run->slowest) ? INFINITY : run->slowest;
    if (!run->ran || run->limit == FV_CARRY_LIMIT_WATER)
        return;
    for (size_t i = 1; i < TRIED; i++)
        if (l->slowest[first + i] < l->slowest[first + best])
            best = i;
    const double then = l->slowest[first + best];
    const bool none = !isfinite(then) && !isfinite(now); /* whatever is taken away, some core never arrives */
    const bool gains = isfinite(now) ? now - then >= l->answer->options.matters * now : !none;
    run->limit = gains ? tried[best] : none ? FV_CARRY_LIMIT_UNKNOWN : FV_CARRY_LIMIT_LOAD;
    run->without_limit = gains ? then : NAN;
}

carry_limits *carry_limits_new(fv_carry_answer *answer, study_caches *caches)
{
    carry_limits *l = fv_arena_alloc(answer->arena, 1, sizeof *l);
    if (!l)
        return NULL;
    const size_t count = answer->row_count * MANNERS * TRIED;
    *l = (carry_limits){
        .answer = answer, .caches = caches, .slowest = fv_arena_alloc(answer->arena, count + 1, sizeof *l->slowest)};
    return l->slowest ? l : NULL;
}

void carry_limits_settle(carry_limits *limits)
{
    for (size_t i = 0; i < limits->answer->row_count; i++) {
        fv_carry_row *row = &limits->answer->rows[i];
        settle(limits, i * MANNERS * TRIED, &row->together);
        if (row->stagger.count > 0)
            settle(limits, (i * MANNERS + 1) * TRIED, &row->staggered);
        else
            row->staggered = row->together;
        if (row->throttle.count + row->throttle.action_count == 0)
            row->throttled = row->together;
    }
}

/* ---- holding ---- */

static fv_flow_answer *hold(const fv_plant *plant, bool turndown, fv_faults *faults)
{
    fv_flow_options options;
    fv_flow_defaults(&options);
    options.phase = FV_PHASE_HOLDING;
    options.turndown = turndown;
    return fv_flow_answer_new(plant, &options, NULL, faults);
}

/* Heat over need of the least fed; a need below NO_NEED of the heat is what rounding leaves of none. */
static const double NO_NEED = 1e-9;
static double worst_coverage(const fv_steady_result *state, int *vessel)
{
    double worst = INFINITY;
    *vessel = -1;
    for (size_t i = 0; i < state->vessel_count; i++) {
        const fv_vessel_result *v = &state->vessels[i];
        if (v->verdict == FV_SHUT_OFF)
            continue;
        const double coverage = v->need > NO_NEED * v->heat ? v->heat / v->need : INFINITY;
        if (*vessel >= 0 && !(coverage < worst))
            continue;
        worst = coverage;
        *vessel = (int)i;
    }
    return worst;
}

static void read_holding(const fv_flow_answer *flow, fv_carry_holding *h)
{
    const fv_steady_result *state = flow->state;
    h->solved = true;
    h->pressure = h->steam = h->water = h->fuel = 0;
    for (size_t i = 0; i < state->vessel_count; i++) {
        h->starved += state->vessels[i].verdict == FV_STARVED;
        h->need += state->vessels[i].need;
        h->heat += state->vessels[i].heat;
    }
    bool named = false;
    for (size_t i = 0; i < state->boiler_count; i++) {
        const fv_boiler_result *b = &state->boilers[i];
        named = named || fv_is_set(flow->plant->boilers[i]->fuel);
        h->pressure = fmax(h->pressure, b->pressure);
        h->steam += b->steam;
        h->water += b->water_fed;
        h->fuel += b->fuel;
    }
    if (!named)
        h->fuel = NAN;
    h->coverage = worst_coverage(state, &h->worst_vessel);
    if (!isfinite(h->coverage)) /* nothing is lost, so nothing is needed */
        h->coverage = NAN;
    h->carries = h->starved == 0;
    h->least_fire = flow->hold.fire;
    h->least_output = flow->hold.output;
}

static fv_status holding_limit(const fv_plant *plant, double coverage, fv_carry_limit *limit)
{
    const fv_change nothing = {0};
    bool memory = false;
    for (size_t i = 0; i < TRIED && !memory; i++) {
        fv_faults *faults = fv_faults_new();
        fv_plant *copy = without(plant, &nothing, tried[i], faults);
        fv_flow_answer *flow = copy ? hold(copy, false, faults) : NULL;
        int vessel;
        const double then = flow ? worst_coverage(flow->state, &vessel) : -INFINITY;
        memory = !flow && fv_faults_blame_system(faults);
        if (then > coverage) {
            coverage = then;
            *limit = tried[i];
        }
        fv_flow_answer_free(flow);
        fv_plant_free(copy);
        fv_faults_free(faults);
    }
    return memory ? FV_FAIL : FV_OK;
}

fv_status carry_hold(const fv_plant *plant, fv_carry_holding *holding)
{
    fv_faults *faults = fv_faults_new();
    *holding = (fv_carry_holding){
        .worst_vessel = -1, .coverage = NAN, .least_fire = NAN, .least_output = NAN, .limit = FV_CARRY_LIMIT_UNKNOWN};
    fv_flow_answer *flow = hold(plant, true, faults);
    fv_status status = !flow && fv_faults_blame_system(faults) ? FV_FAIL : FV_OK;
    if (flow) {
        read_holding(flow, holding);
        if (holding->carries)
            holding->limit = FV_CARRY_LIMIT_NONE;
        else
            status = holding_limit(plant, holding->coverage, &holding->limit);
    }
    fv_flow_answer_free(flow);
    fv_faults_free(faults);
    return status;
}
