/* SPDX-License-Identifier: MIT */
/* The answer of `flow`: the plant at one moment, the same at lower fires, and where the first vessel drops out. */
#include "farvessel/constants.h"
#include "steady/workspace.h"
#include "steady/predict.h"
#include "steady/line_heat.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double TURNDOWN[] = {1.0, 0.75, 0.5, 0.35, 0.25};
enum { TURNDOWN_COUNT = sizeof TURNDOWN / sizeof *TURNDOWN, DROPOUT_MOST = 120 };
static const double DROPOUT_LEAST = 0.05; /* share of the fire below which nobody turns a boiler down */
static const double DROPOUT_WIDTH = 1e-4; /* share of the fire to which it is enclosed; between, a straight line */
static const double BENT = 1e-7;          /* the same of a curve between two fires, at most */
static const double NEAR = 0.04, STEP_LEAST = 0.01, STEP_MOST = 0.25; /* shares of the fire, on the way down to it */

static const double TURNDOWN_WORK = 2e6; /* Newton's steps times unknowns that one search, or the table, may take */

static const double NEXT_TO_NONE = 0.02; /* of the need: what others leave decides */
/* Of a predicted time, either way. */
static const double UNSURE = 0.025, UNSURE_BED = 0.15, UNSURE_FROZEN = 0.25;

static const fv_least_fire NO_FIRE = {.fire = NAN, .output = NAN, .vessel = -1};

void fv_flow_defaults(fv_flow_options *options)
{
    if (!options)
        return;
    *options = (fv_flow_options){.fire = 1, .phase = -1, .turndown = true, .predict = true};
}

static void see_fed(const steady_workspace *d, const fv_steady_result *r, size_t i, double warming, steady_fed *fed)
{
    const fv_vessel_result *v = &r->vessels[i];
    const double h_v = r->nodes[d->net->plant_node[d->net->vessels[i].node]].enthalpy;
    const steady_holding hold = steady_workspace_holding(d, i);
    steady_held held = {.t = r->boiling_point};
    *fed = (steady_fed){.takes = d->chambers[i].kind != FV_CHAMBER_SHUT,
                        .heats = d->chambers[i].kind != FV_CHAMBER_SHUT && !d->holds[i].vessel,
                        .steam = fmax(v->steam, 0),
                        .heat = fmax(v->heat, 0),
                        .warming = warming};
    if (fed->heats && steady_hold_with(&hold, fed->steam, h_v, &held) == FV_FAIL)
        held.t = r->boiling_point;
    fed->t_most = held.t;
}

/* s that the steam of all takes to warm all lines from the air. */
static double warming_of(const fv_plant *plant, const fv_steady_result *r)
{
    double heat = 0, comes = 0;
    for (size_t i = 0; i < plant->line_count; i++)
        if (!r->lines[i].shut)
            heat += steady_line_heat(plant, i, &r->lines[i], r->boiling_point);
    for (size_t i = 0; i < r->vessel_count; i++)
        comes += fmax(r->vessels[i].heat, 0);
    return comes > 0 ? heat / comes : 0;
}

/* s until no boiler gives steam any more: those fed by hand are dry, and others are none. */
static double dry_after(const fv_steady_result *r)
{
    double longest = 0;
    for (size_t k = 0; k < r->boiler_count; k++) {
        const fv_boiler_result *b = &r->boilers[k];
        longest = fmax(longest, !(b->steam > 0) ? 0 : isnan(b->dry_in) ? INFINITY : b->dry_in);
    }
    return longest;
}

/* A boiler gives all that it can. */
static bool is_scarce(const fv_steady_result *r)
{
    bool any = false;
    for (size_t k = 0; k < r->boiler_count; k++)
        any = any || r->boilers[k].state == FV_BOILER_FULL;
    return any;
}

static bool look_ahead(steady_workspace *d)
{
    steady_holding *holds = calloc(d->plant->vessel_count + 1, sizeof *holds);
    for (size_t i = 0; holds && i < d->plant->vessel_count; i++)
        holds[i] = steady_workspace_holding(d, i);
    d->predictor = holds ? steady_predictor_new(d->plant, d->needs, holds, d->sat) : NULL;
    free(holds);
    return d->predictor != NULL;
}

/* What a predicted time may be off by: that of a load which thaws, towards earlier, for its ice is not all there is to
 * melt at once; that of a bed, for what its walls take. */
static double unsure_of(const fv_plant *plant, const fv_vessel *vessel, bool later)
{
    if (!later && fv_or(vessel->load.start_temperature, plant->site.air.v) < FV_CELSIUS)
        return UNSURE_FROZEN;
    return fv_word(vessel->load.form) == FV_FORM_BED ? UNSURE_BED : UNSURE;
}

/* The verdict if its core takes so long and steam ends then, s: a hold must be through by then. */
static fv_verdict told(const fv_vessel *vessel, double took, double dry)
{
    return took + vessel->hold.v > dry ? FV_STARVED : fv_verdict_of(took, vessel->within.v);
}

/* A vessel has done in that time, s, and leaves its steam to others. */
static bool some_leave(const fv_plant *plant, const double *took, double within)
{
    bool any = false;
    for (size_t i = 0; i < plant->vessel_count; i++)
        any = any || took[i] + plant->vessels[i]->hold.v < within;
    return any;
}

/* What it gets is turned as its chamber or core goes, which no one moment knows. */
static bool is_on_thermostat(const fv_plant *plant, size_t vessel)
{
    for (size_t k = 0; k < plant->thermostat_count; k++)
        if (plant->thermostats[k]->boiler_index >= 0 || plant->thermostats[k]->vessel_index == (int)vessel)
            return true;
    return false;
}

/* What each vessel that heats will be called when its core has, or has not, arrived: the same as by `heat` if things
 * stay as they are, unsettled where the time is too near a limit for what is left out. */
static bool predict(steady_workspace *d, fv_steady_result *r)
{
    const size_t n = r->vessel_count;
    if (!d->predictor && !look_ahead(d))
        return false;
    steady_fed *fed = calloc(n + 1, sizeof *fed);
    double *took = calloc(n + 1, sizeof *took), *sooner = calloc(n + 1, sizeof *sooner);
    const bool good = d->predictor && fed && took && sooner, scarce = is_scarce(r);
    const double dry = dry_after(r), warming = warming_of(d->plant, r);
    for (size_t i = 0; good && i < n; i++)
        see_fed(d, r, i, warming, &fed[i]);
    if (good) {
        const bool some_done = steady_predict(d->predictor, fed, dry * (1 - UNSURE), false, took);
        if (isfinite(dry) || (scarce && some_done))
            steady_predict(d->predictor, fed, dry * (1 + UNSURE), scarce, sooner);
        else
            memcpy(sooner, took, n * sizeof *sooner);
    }
    for (size_t i = 0; good && i < n; i++) {
        if (!fed[i].heats)
            continue;
        const fv_vessel *vessel = d->plant->vessels[i];
        const fv_verdict early = told(vessel, sooner[i] * (1 - unsure_of(d->plant, vessel, false)), dry * (1 + UNSURE));
        const fv_verdict late = told(vessel, took[i] * (1 + unsure_of(d->plant, vessel, true)), dry * (1 - UNSURE));
        const bool left_to = scarce && isinf(sooner[i]) && r->vessels[i].heat < NEXT_TO_NONE * r->vessels[i].need &&
                             some_leave(d->plant, sooner, 0.5 * vessel->within.v);
        const bool boils = vessel->target.v < r->boiling_point;
        r->vessels[i].verdict = boils ? told(vessel, sooner[i], dry) : FV_STARVED;
        r->vessels[i].unsettled = boils && (left_to || early != late || is_on_thermostat(d->plant, i));
        r->vessels[i].core_in = sooner[i];
    }
    free(fed);
    free(took);
    free(sooner);
    return good;
}

/* How far the worst off of the vessels that had enough at full fire is from too little, as a share of its need; below
 * 0: it has dropped out. `which` -1: there is no such vessel. */
static double margin_of(const fv_steady_result *full, const fv_steady_result *r, int *which)
{
    double least = INFINITY;
    *which = -1;
    for (size_t i = 0; i < r->vessel_count; i++) {
        const fv_vessel_result *v = &r->vessels[i];
        const fv_vessel_result *w = &full->vessels[i];
        const double enough = 1 - 1e-9;
        if (w->verdict == FV_STARVED || w->verdict == FV_SHUT_OFF || v->need <= 0 || w->heat < enough * w->need)
            continue;
        const double part = v->heat / v->need - enough;
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
static bool find_dropout(steady_workspace *d, const fv_progress *progress, const fv_steady_result *full, double from,
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
        fv_steady_result *r = steady_workspace_solve(d, fire, faults);
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

/* What comes of a large plant whose fires are turned down is not waited for. */
static void limit_steps(steady_workspace *d)
{
    d->steps_left = 1 + (int)(TURNDOWN_WORK / d->net->unknown_count);
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
    if (!plant || !found)
        return fv_error_null(faults, __func__);
    steady_workspace d = {0};
    *found = NO_FIRE;
    bool good = steady_workspace_open(&d, plant, fv_sat_line(), FV_PHASE_HOLDING, faults);
    if (good)
        limit_steps(&d);
    fv_steady_result *full = good ? steady_workspace_solve(&d, fire, faults) : NULL;
    if (full) {
        found->vessel = first_starved(full);
        good = found->vessel >= 0 || find_dropout(&d, progress, full, fire, found, faults);
    } else {
        good = good && !d.out_of_memory;
        found->unsolved = true;
    }
    fv_steady_result_free(full);
    steady_workspace_close(&d);
    return good ? FV_OK : FV_FAIL;
}

static bool turn_down(steady_workspace *d, size_t row, const fv_progress *progress, fv_flow_answer *a,
                      fv_faults *faults)
{
    if (!fv_progress_tick(progress, (double)(DROPOUT_MOST + row) / (DROPOUT_MOST + TURNDOWN_COUNT),
                          "turning down the fire"))
        return false;
    a->turndown[row].fire = a->options.fire * TURNDOWN[row];
    a->turndown[row].state = steady_workspace_solve(d, a->turndown[row].fire, faults);
    a->turndown[row].given_up = !a->turndown[row].state && d->steps_left <= 0;
    return !d->out_of_memory && (!a->turndown[row].state || !a->options.predict || predict(d, a->turndown[row].state));
}

/* From full fire, which is solved already, down, so that each solve starts from a near one. */
static bool fill_turndown(steady_workspace *d, const fv_progress *progress, fv_flow_answer *a, fv_faults *faults)
{
    a->turndown = calloc(TURNDOWN_COUNT, sizeof *a->turndown);
    if (!a->turndown) {
        fv_error(faults, FV_ERR_SYSTEM, d->plant->loc, "out of memory");
        return false;
    }
    a->turndown_count = TURNDOWN_COUNT;
    a->turndown[0] = (fv_turndown_row){.fire = a->options.fire, .state = a->state};
    limit_steps(d);
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
    limit_steps(d);
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
    steady_workspace d = {0};
    bool good = a && steady_workspace_open(&d, plant, sat, options->phase, faults);
    if (!a)
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
    if (good) {
        a->plant = plant;
        a->options = *options;
        a->dropout_fire = NAN;
        a->dropout_vessel = -1;
        a->hold = NO_FIRE;
        good = fv_steady_remarks(plant, sat, faults) != FV_FAIL;
        a->state = good ? steady_workspace_solve(&d, options->fire, faults) : NULL;
        good = a->state && (!options->predict || predict(&d, a->state)) &&
               (!options->turndown || options->fire <= 0 || fill_turndown(&d, progress, a, faults));
    }
    steady_workspace_close(&d);
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
