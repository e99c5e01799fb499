/* SPDX-License-Identifier: MIT */
/* The answer of `flow`: the plant at one moment, the same at lower fires, and where the first vessel drops out. */
#include "steady/holding.h"
#include "steady/need.h"

#include <math.h>
#include <stdlib.h>

static const double TURNDOWN[] = {1.0, 0.75, 0.5, 0.35, 0.25};
enum { TURNDOWN_COUNT = sizeof TURNDOWN / sizeof *TURNDOWN, DROPOUT_MOST = 120 };
static const double DROPOUT_LEAST = 0.05; /* share of the fire below which nobody turns a boiler down */
static const double DROPOUT_WIDTH = 1e-4; /* share of the fire to which it is enclosed; between, a straight line */
static const double BENT = 1e-7;          /* the same of a curve between two fires, at most */
static const double NEAR = 0.04, STEP_LEAST = 0.01, STEP_MOST = 0.25; /* shares of the fire, on the way down to it */

enum { HELD_ROUNDS = 12 };
static const double HELD_TOLERANCE = 1e-3;   /* Pa: of a holding chamber between its balance and the network */
static const double TARGET_TOLERANCE = 1e-6; /* K */

static const fv_least_fire NO_FIRE = {.fire = NAN, .output = NAN, .vessel = -1};

void fv_flow_defaults(fv_flow_options *options)
{
    if (!options)
        return;
    *options = (fv_flow_options){.fire = 1, .phase = -1, .turndown = true};
}

/* What one solve needs, made once for all settings of the fire. */
typedef struct {
    const fv_plant *plant;
    fv_network *net;
    fv_solver *solver;
    double *fire;
    double last; /* share of the fires that was solved last; 0: none yet */
    fv_chamber *chambers;
    fv_vessel_need *needs;
    steady_holding *holds; /* by vessel; vessel NULL: it does not hold */
    steady_held *held;     /* by vessel, as the last solve left it */
    double t_boil;
    bool out_of_memory; /* while solving; not the plant's fault */
} desk;

static fv_phase phase_of(const fv_vessel *vessel, int phase)
{
    const fv_phase own = (fv_phase)fv_word(vessel->phase);
    return phase < 0 || own == FV_PHASE_SHUT ? own : (fv_phase)phase;
}

static void set_chambers(desk *d, const fv_sat *sat, int phase)
{
    fv_sat_point at;
    fv_sat_at(sat, fv_network_site_pressure(d->net), &at);
    for (size_t i = 0; i < d->plant->vessel_count; i++) {
        const fv_vessel *v = d->plant->vessels[i];
        d->chambers[i] = (fv_chamber){.gain = 1, .density = at.rho_g, .water = fv_or(v->water, 0)};
        switch (phase_of(v, phase)) {
        case FV_PHASE_HEATING:
            d->chambers[i].kind = FV_CHAMBER_COLD;
            break;
        case FV_PHASE_HOLDING:
            d->chambers[i].kind = FV_CHAMBER_VENTED;
            d->chambers[i].condenses = steady_uptake(d->plant, v, at.t) / (at.h_g - at.h_f);
            d->holds[i] = (steady_holding){.plant = d->plant,
                                           .vessel = v,
                                           .sat = sat,
                                           .openings = d->net->openings + d->net->vessels[i].first_opening,
                                           .opening_count = d->net->vessels[i].opening_count,
                                           .site_pressure = d->net->site_pressure,
                                           .t_air = d->plant->site.air.v};
            break;
        case FV_PHASE_SHUT:
            d->chambers[i].kind = FV_CHAMBER_SHUT;
            break;
        }
    }
}

static bool open_desk(desk *d, const fv_plant *plant, const fv_sat *sat, int phase, fv_faults *faults)
{
    *d = (desk){.plant = plant};
    d->net = fv_network_new(plant, sat, faults);
    if (!d->net)
        return false;
    d->solver = fv_solver_new(d->net);
    d->fire = calloc(plant->boiler_count + 1, sizeof *d->fire);
    d->chambers = calloc(plant->vessel_count + 1, sizeof *d->chambers);
    d->needs = calloc(plant->vessel_count + 1, sizeof *d->needs);
    d->holds = calloc(plant->vessel_count + 1, sizeof *d->holds);
    d->held = calloc(plant->vessel_count + 1, sizeof *d->held);
    if (!d->solver || !d->fire || !d->chambers || !d->needs || !d->holds || !d->held) {
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
        return false;
    }
    for (size_t i = 0; i < plant->vessel_count; i++)
        if (fv_vessel_need_of(plant, plant->vessels[i], sat, &d->needs[i], faults) == FV_FAIL)
            return false;
    set_chambers(d, sat, phase);
    return true;
}

static void close_desk(desk *d)
{
    fv_solver_free(d->solver);
    fv_network_free(d->net);
    free(d->fire);
    free(d->chambers);
    free(d->needs);
    free(d->holds);
    free(d->held);
}

/* Chambers that hold as the steam that came makes them. True: the network must be asked again. */
static bool settle_chambers(desk *d, const fv_steady_result *r)
{
    bool moved = false;
    for (size_t i = 0; i < r->vessel_count; i++) {
        const fv_vessel_result *v = &r->vessels[i];
        fv_chamber *c = &d->chambers[i];
        steady_held *held = &d->held[i];
        const double h_v = r->nodes[d->net->plant_node[d->net->vessels[i].node]].enthalpy;
        if (!d->holds[i].vessel || steady_hold_with(&d->holds[i], fmax(v->steam, 0), h_v, held) != FV_OK)
            continue;
        fv_chamber next = {.kind = FV_CHAMBER_COLD,
                           .gain = 1,
                           .pressure = held->pressure,
                           .density = held->density,
                           .water = c->water};
        if (held->pure) {
            next.kind = FV_CHAMBER_VENTED;
            next.gain = (h_v - held->h_f) / held->h_fg;
            next.condenses = held->loss / held->h_fg;
        }
        moved = moved || next.kind != c->kind || fabs(held->pressure - v->chamber_pressure) > HELD_TOLERANCE;
        *c = next;
    }
    return moved;
}

static void judge_hold(const desk *d, size_t i, fv_steady_result *r)
{
    fv_vessel_result *v = &r->vessels[i];
    const steady_held *held = &d->held[i];
    const double target = d->plant->vessels[i]->target.v;
    const double h_v = r->nodes[d->net->plant_node[d->net->vessels[i].node]].enthalpy;
    fv_sat_point site;
    double steam;
    fv_sat_at(d->holds[i].sat, d->net->site_pressure, &site);
    v->need = steady_hold_need(&d->holds[i], target, h_v, &steam) == FV_OK ? steam * (h_v - site.h_f) : 0;
    v->chamber_temperature = held->t;
    v->vented = held->vented;
    v->air_drawn_in = held->air;
    v->verdict = held->t < target - TARGET_TOLERANCE ? FV_STARVED : FV_FED;
}

static void judge(const desk *d, fv_steady_result *r)
{
    for (size_t i = 0; i < r->vessel_count; i++) {
        fv_vessel_result *v = &r->vessels[i];
        v->need = 0;
        v->chamber_temperature = NAN;
        v->verdict = FV_SHUT_OFF;
        if (d->holds[i].vessel) {
            judge_hold(d, i, r);
        } else if (d->chambers[i].kind == FV_CHAMBER_COLD) {
            const fv_vessel *vessel = d->plant->vessels[i];
            v->need = d->needs[i].need;
            v->verdict = vessel->target.v >= r->boiling_point || !(v->heat > 0)
                             ? FV_STARVED
                             : fv_verdict_of(vessel->within.v * v->need * (1 - 1e-9) / v->heat, vessel->within.v);
        }
    }
}

static fv_steady_result *solve_at(desk *d, double fire, fv_faults *faults)
{
    fv_steady_result *r = fv_steady_result_new(d->net);
    if (!r) {
        d->out_of_memory = true;
        fv_error(faults, FV_ERR_SYSTEM, d->plant->loc, "out of memory");
        return NULL;
    }
    for (size_t i = 0; i < d->plant->boiler_count; i++)
        d->fire[i] = fire * d->plant->boilers[i]->fire.v;
    const fv_conditions conditions = {
        .t_air = d->plant->site.air.v, .wind = d->plant->site.wind.v, .fire = d->fire, .chambers = d->chambers};
    fv_solver_scale_fires(d->solver, d->last > 0 ? fire / d->last : 1);
    d->last = fire;
    bool again = true;
    for (int i = 0; again && i < HELD_ROUNDS; i++) {
        if (fv_solve(d->solver, &conditions, r, faults) == FV_FAIL) {
            d->out_of_memory = faults && fv_faults_blame_system(faults);
            fv_steady_result_free(r);
            return NULL;
        }
        again = settle_chambers(d, r);
    }
    judge(d, r);
    return r;
}

/* How far the worst off of the vessels that had enough at full fire is from too little, as a share of its need; below
 * 0: it has dropped out. `which` -1: there is no such vessel. */
static double margin_of(const fv_steady_result *full, const fv_steady_result *r, int *which)
{
    double least = INFINITY;
    *which = -1;
    for (size_t i = 0; i < r->vessel_count; i++) {
        const fv_vessel_result *v = &r->vessels[i];
        if ((full->vessels[i].verdict != FV_FED && full->vessels[i].verdict != FV_LAGGING) || v->need <= 0)
            continue;
        const double part = v->heat / v->need - (1 - 1e-9);
        if (part < least) {
            least = part;
            *which = (int)i;
        }
    }
    return least;
}

/* A fire that was tried, and what came of it. */
typedef struct {
    double fire; /* NAN: none yet */
    double margin, output;
    double weight; /* of the margin, less the longer this stays an end of the bracket */
} tried;

typedef struct {
    tried low, high; /* at `high` all have enough, at `low` one has not */
    bool moved_low;  /* by the last narrowing */
} bracket;

/* Down until a vessel drops out. If its heat falls as the fire does, the worst off drops out after `way`: half of that,
 * so that none drops out and is back before the next look; the last bit at once, and a little further. */
static double step_down(const tried *high, double from)
{
    const double way = high->fire * (1 - 1 / (1 + high->margin));
    const double step = way < NEAR * from ? 1.25 * way : 0.5 * way;
    return fmax(high->fire - fmin(fmax(step, STEP_LEAST * from), STEP_MOST * from), DROPOUT_LEAST * from);
}

/* Where the straight line between the margins is 0, as a share of the way from low to high. */
static double crossing(double margin_low, double margin_high)
{
    return margin_low / (margin_low - margin_high);
}

static double next_fire(const bracket *b, double from)
{
    if (isnan(b->low.fire))
        return step_down(&b->high, from);
    const double width = b->high.fire - b->low.fire, least = 0.5 * DROPOUT_WIDTH * from;
    const double fire = b->low.fire + width * crossing(b->low.weight * b->low.margin, b->high.weight * b->high.margin);
    return fmin(fmax(fire, b->low.fire + least), b->high.fire - least);
}

/* By the rule of the Illinois algorithm: an end that stays twice loses half its weight, so that it moves next. */
static void narrow(bracket *b, double fire, double margin, double output)
{
    const bool below = margin < 0;
    if (!isnan(b->low.fire) && below == b->moved_low)
        *(below ? &b->high.weight : &b->low.weight) *= 0.5;
    *(below ? &b->low : &b->high) = (tried){.fire = fire, .margin = margin, .output = output, .weight = 1};
    b->moved_low = below;
}

/* Enclosed narrowly; or one end so near that a straight line to the other is off by less. */
static bool is_closed(const bracket *b, double from)
{
    if (isnan(b->low.fire))
        return b->high.fire <= DROPOUT_LEAST * from;
    const double width = b->high.fire - b->low.fire, nearest = fmin(-b->low.margin, b->high.margin);
    return width <= DROPOUT_WIDTH * from || nearest * width <= BENT * from;
}

/* Finds where the first vessel drops out. Where a setting has no solution the search ends without a finding, and says
 * so. False: stopped by the user, or out of memory. */
static bool find_dropout(desk *d, const fv_progress *progress, const fv_steady_result *full, double from,
                         fv_least_fire *found, fv_faults *faults)
{
    int which, dropped = -1;
    const double margin = margin_of(full, full, &which);
    bracket b = {.low.fire = NAN};
    narrow(&b, from, margin, full->audit.heat_total);
    for (int i = 1; which >= 0 && i <= DROPOUT_MOST && !is_closed(&b, from); i++) {
        if (!fv_progress_tick(progress, (double)i / (DROPOUT_MOST + TURNDOWN_COUNT),
                              "looking for the first to drop out"))
            return false;
        const double fire = next_fire(&b, from);
        fv_steady_result *r = solve_at(d, fire, faults);
        found->unsolved = !r;
        if (!r)
            return !d->out_of_memory;
        narrow(&b, fire, margin_of(full, r, &which), r->audit.heat_total);
        if (b.moved_low)
            dropped = which;
        fv_steady_result_free(r);
    }
    if (dropped < 0)
        return true;
    const double share = crossing(b.low.margin, b.high.margin);
    found->fire = b.low.fire + share * (b.high.fire - b.low.fire);
    found->output = b.low.output + share * (b.high.output - b.low.output);
    found->vessel = dropped;
    return true;
}

static int first_starved(const fv_steady_result *r)
{
    for (size_t i = 0; i < r->vessel_count; i++)
        if (r->vessels[i].verdict == FV_STARVED)
            return (int)i;
    return -1;
}

fv_status fv_least_fire_of(const fv_plant *plant, double fire, const fv_progress *progress, fv_least_fire *found,
                           fv_faults *faults)
{
    if (!plant || !found) {
        fv_error_null(faults, __func__);
        return FV_FAIL;
    }
    desk d = {0};
    *found = NO_FIRE;
    bool good = open_desk(&d, plant, fv_sat_line(), FV_PHASE_HOLDING, faults);
    fv_steady_result *full = good ? solve_at(&d, fire, faults) : NULL;
    if (full) {
        found->vessel = first_starved(full);
        good = found->vessel >= 0 || find_dropout(&d, progress, full, fire, found, faults);
    } else {
        good = good && !d.out_of_memory;
        found->unsolved = true;
    }
    fv_steady_result_free(full);
    close_desk(&d);
    return good ? FV_OK : FV_FAIL;
}

static bool turn_down(desk *d, size_t row, const fv_progress *progress, fv_flow_answer *a, fv_faults *faults)
{
    if (!fv_progress_tick(progress, (double)(DROPOUT_MOST + row) / (DROPOUT_MOST + TURNDOWN_COUNT),
                          "turning down the fire"))
        return false;
    a->turndown[row].fire = a->options.fire * TURNDOWN[row];
    a->turndown[row].state = solve_at(d, a->turndown[row].fire, faults); /* NULL: no solution there, and said so */
    return !d->out_of_memory;
}

/* From full fire, which is solved already, down, so that each solve starts from a near one. */
static bool fill_turndown(desk *d, const fv_progress *progress, fv_flow_answer *a, fv_faults *faults)
{
    a->turndown = calloc(TURNDOWN_COUNT, sizeof *a->turndown);
    if (!a->turndown) {
        fv_error(faults, FV_ERR_SYSTEM, d->plant->loc, "out of memory");
        return false;
    }
    a->turndown_count = TURNDOWN_COUNT;
    a->turndown[0] = (fv_turndown_row){.fire = a->options.fire, .state = a->state};
    fv_least_fire dropout = NO_FIRE;
    bool good = find_dropout(d, progress, a->state, a->options.fire, &dropout, faults);
    a->dropout_fire = dropout.fire;
    a->dropout_output = dropout.output;
    a->dropout_vessel = dropout.vessel;
    a->dropout_unsolved = dropout.unsolved;
    a->hold = dropout;
    if (good && a->options.phase != FV_PHASE_HOLDING)
        good = fv_least_fire_of(d->plant, a->options.fire, progress, &a->hold, faults) != FV_FAIL;
    else if (first_starved(a->state) >= 0)
        a->hold = (fv_least_fire){.fire = NAN, .output = NAN, .vessel = first_starved(a->state)};
    for (size_t i = 1; good && i < TURNDOWN_COUNT; i++)
        good = turn_down(d, i, progress, a, faults);
    return good;
}

fv_flow_answer *fv_flow_answer_new(const fv_plant *plant, const fv_flow_options *options, const fv_progress *progress,
                                   fv_faults *faults)
{
    if (!plant || !options) {
        fv_error_null(faults, __func__);
        return NULL;
    }
    fv_flow_answer *a = calloc(1, sizeof *a);
    const fv_sat *sat = fv_sat_line();
    desk d = {0};
    bool good = a && open_desk(&d, plant, sat, options->phase, faults);
    if (!a)
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
    if (good) {
        a->plant = plant;
        a->options = *options;
        a->dropout_fire = NAN;
        a->dropout_vessel = -1;
        a->hold = NO_FIRE;
        good = fv_steady_remarks(plant, sat, faults) != FV_FAIL;
        a->state = good ? solve_at(&d, options->fire, faults) : NULL;
        good = a->state && (!options->turndown || options->fire <= 0 || fill_turndown(&d, progress, a, faults));
    }
    close_desk(&d);
    if (good)
        return a;
    fv_flow_answer_free(a);
    return NULL;
}

void fv_flow_answer_free(fv_flow_answer *answer)
{
    if (!answer)
        return;
    fv_steady_result_free(answer->state);
    for (size_t i = 1; i < answer->turndown_count; i++) /* the first is the state itself */
        fv_steady_result_free(answer->turndown[i].state);
    free(answer->turndown);
    free(answer);
}
