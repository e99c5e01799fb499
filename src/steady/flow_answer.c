/* SPDX-License-Identifier: MIT */
/* The answer of `flow`: the plant at one moment, the same at lower fires, and where the first vessel drops out. */
#include "farvessel/steady.h"

#include <math.h>
#include <stdlib.h>

static const double TURNDOWN[] = {1.0, 0.75, 0.5, 0.35, 0.25};
enum { TURNDOWN_COUNT = sizeof TURNDOWN / sizeof *TURNDOWN, DROPOUT_STEPS = 24, DROPOUT_BISECTIONS = 20 };
static const double DROPOUT_LEAST = 0.05; /* share of the fire below which nobody turns a boiler down */

const char *fv_verdict_word(fv_verdict verdict)
{
    static const char *const words[] = {"fed", "lagging", "starved", "shut"};
    return words[verdict];
}

void fv_flow_defaults(fv_flow_options *options)
{
    *options = (fv_flow_options){.fire = 1, .phase = -1, .turndown = true};
}

/* What one solve needs, made once for all settings of the fire. */
typedef struct {
    const fv_plant *plant;
    fv_network *net;
    fv_solver *solver;
    double *fire;
    fv_chamber *chambers;
    fv_vessel_need *needs;
    double *uptake; /* W, holding */
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
        d->uptake[i] = fv_or(v->uptake, d->needs[i].wall_loss);
        d->chambers[i] = (fv_chamber){.gain = 1, .density = at.rho_g, .water = fv_or(v->water, 0)};
        switch (phase_of(v, phase)) {
        case FV_PHASE_HEATING:
            d->chambers[i].kind = FV_CHAMBER_COLD;
            break;
        case FV_PHASE_HOLDING:
            d->chambers[i].kind = FV_CHAMBER_VENTED;
            d->chambers[i].condenses = d->uptake[i] / (at.h_g - at.h_f);
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
    d->uptake = calloc(plant->vessel_count + 1, sizeof *d->uptake);
    if (!d->solver || !d->fire || !d->chambers || !d->needs || !d->uptake) {
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
    free(d->uptake);
}

static void judge(const desk *d, fv_steady_result *r)
{
    for (size_t i = 0; i < r->vessel_count; i++) {
        fv_vessel_result *v = &r->vessels[i];
        const fv_chamber_kind kind = d->chambers[i].kind;
        v->need = kind == FV_CHAMBER_COLD ? d->needs[i].need : kind == FV_CHAMBER_VENTED ? d->uptake[i] : 0;
        if (kind == FV_CHAMBER_SHUT)
            v->verdict = FV_SHUT_OFF;
        else if (v->heat < v->need * (1 - 1e-9))
            v->verdict = FV_STARVED;
        else if (kind == FV_CHAMBER_COLD && v->heat < FV_LAGGING_FACTOR * v->need)
            v->verdict = FV_LAGGING;
        else
            v->verdict = FV_FED;
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
    if (fv_solve(d->solver, &conditions, r, faults) == FV_FAIL) {
        fv_steady_result_free(r);
        return NULL;
    }
    judge(d, r);
    return r;
}

/* The first vessel that had enough at full fire and has not in r; -1: none. The one that is worst off comes first. */
static int dropped_out(const fv_steady_result *full, const fv_steady_result *r)
{
    int worst = -1;
    double least = 1;
    for (size_t i = 0; i < r->vessel_count; i++) {
        const fv_vessel_result *v = &r->vessels[i];
        if (full->vessels[i].verdict != FV_FED && full->vessels[i].verdict != FV_LAGGING)
            continue;
        const double part = v->need > 0 ? v->heat / v->need : 1;
        if (part < least * (1 - 1e-9)) {
            least = part;
            worst = (int)i;
        }
    }
    return worst;
}

/* Lowers the fire in steps until a vessel drops out, then bisects between the last two. Where a setting has no solution
 * the search ends without a finding, and says so. False: stopped by the user, or out of memory. */
static bool find_dropout(desk *d, const fv_flow_options *options, const fv_progress *progress, fv_flow_answer *a,
                         fv_faults *faults)
{
    a->dropout_fire = NAN;
    a->dropout_vessel = -1;
    double high = options->fire, low = NAN, output = 0;
    int vessel = -1;
    for (int i = 1; i <= DROPOUT_STEPS + DROPOUT_BISECTIONS; i++) {
        const double share = (double)(TURNDOWN_COUNT + i) / (TURNDOWN_COUNT + DROPOUT_STEPS + DROPOUT_BISECTIONS);
        if (!fv_progress_tick(progress, share, "looking for the first to drop out"))
            return false;
        if (isnan(low) && i > DROPOUT_STEPS)
            return true;
        const double fire =
            isnan(low) ? options->fire * (1 - (1 - DROPOUT_LEAST) * i / DROPOUT_STEPS) : 0.5 * (low + high);
        fv_steady_result *r = solve_at(d, fire, faults);
        a->dropout_unsolved = !r;
        if (!r)
            return !d->out_of_memory;
        const int dropped = dropped_out(a->state, r);
        if (dropped >= 0) {
            low = fire;
            vessel = dropped;
            output = r->audit.heat_total;
        } else {
            high = fire;
        }
        fv_steady_result_free(r);
    }
    a->dropout_fire = low;
    a->dropout_vessel = vessel;
    a->dropout_output = output;
    return true;
}

static bool fill_turndown(desk *d, const fv_flow_options *options, const fv_progress *progress, fv_flow_answer *a,
                          fv_faults *faults)
{
    a->turndown = calloc(TURNDOWN_COUNT, sizeof *a->turndown);
    if (!a->turndown) {
        fv_error(faults, FV_ERR_SYSTEM, d->plant->loc, "out of memory");
        return false;
    }
    a->turndown_count = TURNDOWN_COUNT;
    for (size_t i = 0; i < TURNDOWN_COUNT; i++) {
        if (!fv_progress_tick(progress, (double)i / (TURNDOWN_COUNT + DROPOUT_STEPS + DROPOUT_BISECTIONS),
                              "turning down the fire"))
            return false;
        a->turndown[i].fire = options->fire * TURNDOWN[i];
        a->turndown[i].state = solve_at(d, a->turndown[i].fire, faults); /* NULL: no solution there, and said so */
        if (d->out_of_memory)
            return false;
    }
    return find_dropout(d, options, progress, a, faults);
}

fv_flow_answer *fv_flow_answer_new(const fv_plant *plant, const fv_flow_options *options, const fv_progress *progress,
                                   fv_faults *faults)
{
    fv_flow_answer *a = calloc(1, sizeof *a);
    fv_sat *sat = fv_sat_new();
    desk d = {0};
    bool good = a && sat && open_desk(&d, plant, sat, options->phase, faults);
    if (!a || !sat)
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
    if (good) {
        a->plant = plant;
        a->options = *options;
        a->dropout_fire = NAN;
        a->dropout_vessel = -1;
        a->state = solve_at(&d, options->fire, faults);
        good = a->state && (!options->turndown || fill_turndown(&d, options, progress, a, faults));
    }
    close_desk(&d);
    fv_sat_free(sat);
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
    for (size_t i = 0; i < answer->turndown_count; i++)
        fv_steady_result_free(answer->turndown[i].state);
    free(answer->turndown);
    free(answer);
}
