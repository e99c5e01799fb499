/* SPDX-License-Identifier: MIT */
/* One choice at one moment, all vessels heating, against the limits that show there. */
#include "study/size/parts.h"

#include <math.h>

static const double UNIFORM = 0.5;        /* hole area / bore area, spargers */
static const double SPREADER_LEAST = 1.5; /* the same, retort spreaders (FDA guide to low-acid canned foods) */
static const double SPREADER_MOST = 2.0;
/* Of a boiler's pressure: a coil that gets less of a held pressure is fed through a throttle. */
static const double THROTTLED = 0.25;

/* Keeps the worst of what it is shown: `value` may be at most `limit`. */
static void at_most(fv_size_check *check, double value, double limit, int at)
{
    const double excess = limit > 0 ? value / limit - 1 : value;
    if (check->at >= 0 && !(excess > check->excess))
        return;
    *check = (fv_size_check){.value = value, .limit = limit, .excess = excess, .at = at, .kept = excess <= 0};
}

static void at_least(fv_size_check *check, double value, double limit, int at)
{
    const double excess = limit > 0 ? 1 - value / limit : -value;
    if (check->at >= 0 && !(excess > check->excess))
        return;
    *check = (fv_size_check){.value = value, .limit = limit, .excess = excess, .at = at, .kept = excess <= 0};
}

static void open_checks(fv_size_check *checks)
{
    for (int i = 0; i < FV_LIMITS; i++)
        checks[i] = (fv_size_check){.value = NAN, .limit = NAN, .excess = 0, .at = -1, .kept = true};
}

static double highest_boiler(const fv_steady_result *state, bool *held)
{
    double most = 0;
    for (size_t i = 0; i < state->boiler_count; i++) {
        most = fmax(most, state->boilers[i].pressure);
        *held = *held || state->boilers[i].state == FV_BOILER_HOLDING;
    }
    return most;
}

static fv_size_area area_of(const fv_steady_result *state, size_t vessel)
{
    const fv_vessel_result *v = &state->vessels[vessel];
    bool held = false;
    const double p = highest_boiler(state, &held);
    return (fv_size_area){.ratio = v->area_ratio,
                          .uniform_kept = v->area_ratio <= UNIFORM,
                          .spreader_kept = v->area_ratio >= SPREADER_LEAST && v->area_ratio <= SPREADER_MOST,
                          .spreader_applies = held && v->coil_pressure < THROTTLED * p,
                          .evenness = v->evenness,
                          .coil_pressure = v->coil_pressure,
                          .boiler_pressure = p};
}

static void check_vessels(const size_basis *basis, const fv_steady_result *state, size_candidate *c,
                          fv_size_area *areas)
{
    const fv_size_limits *limits = basis->limits;
    for (size_t i = 0; i < state->vessel_count; i++) {
        const fv_vessel_result *v = &state->vessels[i];
        const fv_size_area area = area_of(state, i);
        if (areas)
            areas[i] = area;
        if (v->verdict == FV_SHUT_OFF)
            continue;
        const double rule = area.spreader_applies ? SPREADER_MOST : UNIFORM;
        at_least(&c->checks[FV_LIMIT_EVENNESS], v->evenness, limits->evenness_least, (int)i);
        at_most(&c->checks[FV_LIMIT_AREA], area.ratio, isnan(limits->area_most) ? rule : limits->area_most, (int)i);
        at_most(&c->checks[FV_LIMIT_COIL_VELOCITY], v->coil_velocity, limits->coil_velocity_most, (int)i);
    }
}

static void check_lines(const size_basis *basis, const fv_steady_result *state, size_candidate *c)
{
    const fv_size_limits *limits = basis->limits;
    for (size_t i = 0; i < state->line_count; i++) {
        const double u = state->lines[i].velocity;
        at_most(&c->checks[FV_LIMIT_VELOCITY], u, limits->velocity_most, (int)i);
        if (fv_word(basis->plant->lines[i]->condensate) == FV_CONDENSATE_BACK)
            at_most(&c->checks[FV_LIMIT_BACKWARD], u, limits->backward_most, (int)i);
    }
}

static void check_boilers(const size_basis *basis, const fv_steady_result *state, size_candidate *c)
{
    for (size_t i = 0; i < state->boiler_count; i++) {
        const double holds = basis->plant->boilers[i]->holds.v;
        if (state->boilers[i].state != FV_BOILER_OFF && holds > 0)
            at_most(&c->checks[FV_LIMIT_PRESSURE], state->boilers[i].pressure,
                    basis->limits->pressure_share_most * holds, (int)i);
    }
}

static void check_choking(const fv_steady_result *state, size_candidate *c)
{
    double count = 0;
    int at = -1;
    for (size_t i = 0; i < state->line_count; i++)
        if (state->lines[i].choked) {
            count++;
            at = (int)i;
        }
    for (size_t i = 0; i < state->hole_count; i++)
        count += state->holes[i].choked;
    c->checks[FV_LIMIT_CHOKING] =
        (fv_size_check){.value = count, .limit = 0, .excess = count, .at = at, .kept = count == 0};
}

bool size_keeps(const fv_size_check *checks)
{
    for (int i = 0; i < FV_LIMITS; i++)
        if (!checks[i].kept)
            return false;
    return true;
}

/* What the plant breaks already is no reason to refuse what breaks it no more. */
void size_allow(const fv_size_check *now, fv_size_check *check)
{
    const double slack = 1e-6;
    if (check->excess > 0)
        check->kept = check->excess <= now->excess * (1 + slack);
}

static void allow_all(const size_basis *basis, size_candidate *c)
{
    c->broken = 0;
    for (int i = 0; i < FV_LIMITS; i++) {
        if (basis->now)
            size_allow(&basis->now[i], &c->checks[i]);
        c->broken += c->checks[i].excess > 0;
    }
}

static fv_status judge_changed(const size_basis *basis, const fv_plant *changed, size_candidate *c, fv_size_area *areas,
                               fv_faults *faults)
{
    fv_flow_options options;
    fv_flow_defaults(&options);
    options.phase = FV_PHASE_HEATING;
    options.turndown = false;
    fv_flow_answer *flow = fv_flow_answer_new(changed, &options, NULL, faults);
    c->cost = size_cost(basis->plant, changed, &c->unpriced);
    c->state = flow ? SIZE_JUDGED : SIZE_UNSOLVED;
    if (flow) {
        check_vessels(basis, flow->state, c, areas);
        check_lines(basis, flow->state, c);
        check_boilers(basis, flow->state, c);
        check_choking(flow->state, c);
        allow_all(basis, c);
    }
    const bool memory = !flow && fv_faults_blame_system(faults);
    fv_flow_answer_free(flow);
    return memory ? FV_FAIL : FV_OK;
}

fv_status size_judge(const size_basis *basis, const fv_change *change, size_candidate *candidate, fv_size_area *areas)
{
    fv_faults *faults = fv_faults_new();
    fv_plant *copy = faults ? fv_plant_copy(basis->plant) : NULL;
    fv_status status = copy ? FV_OK : FV_FAIL;
    open_checks(candidate->checks);
    candidate->cost = NAN;
    candidate->state = SIZE_UNFIT;
    if (copy && fv_change_apply(change, copy, faults) != FV_FAIL)
        status = judge_changed(basis, copy, candidate, areas, faults);
    else if (fv_faults_blame_system(faults))
        status = FV_FAIL;
    fv_plant_free(copy);
    fv_faults_free(faults);
    return status;
}

/* Vessel i alone on the steam, and taking up none of it; NaN: no solution. */
static fv_status vent_pressure_of(const fv_plant *plant, size_t vessel, double *pressure)
{
    fv_faults *faults = fv_faults_new();
    fv_plant *copy = faults ? fv_plant_copy(plant) : NULL;
    *pressure = NAN;
    for (size_t i = 0; copy && i < copy->vessel_count; i++) {
        fv_vessel *v = copy->vessels[i];
        v->phase = (fv_value){.v = i == vessel ? FV_PHASE_HOLDING : FV_PHASE_SHUT, .origin = FV_SETTING};
        v->uptake = (fv_value){.v = 0, .origin = FV_SETTING};
    }
    fv_flow_options options;
    fv_flow_defaults(&options);
    options.turndown = false;
    fv_flow_answer *flow =
        copy && fv_plant_link(copy, faults) != FV_FAIL ? fv_flow_answer_new(copy, &options, NULL, faults) : NULL;
    const bool memory = !flow && fv_faults_blame_system(faults);
    if (flow)
        *pressure = flow->state->vessels[vessel].chamber_pressure;
    fv_flow_answer_free(flow);
    fv_plant_free(copy);
    fv_faults_free(faults);
    return memory ? FV_FAIL : FV_OK;
}

fv_status size_vent_pressure(const fv_plant *plant, double *most, int *vessel)
{
    *most = NAN;
    *vessel = -1;
    for (size_t i = 0; i < plant->vessel_count; i++) {
        if (fv_word(plant->vessels[i]->phase) == FV_PHASE_SHUT)
            continue;
        double pressure;
        if (vent_pressure_of(plant, i, &pressure) == FV_FAIL)
            return FV_FAIL;
        if (*vessel >= 0 && !(pressure > *most))
            continue;
        *most = pressure;
        *vessel = (int)i;
    }
    return FV_OK;
}

void size_check_vent(const fv_size_limits *limits, double pressure, int vessel, fv_size_check *check)
{
    const double excess = pressure / limits->vent_pressure_most - 1;
    *check = (fv_size_check){.value = pressure,
                             .limit = limits->vent_pressure_most,
                             .excess = isnan(pressure) ? 0 : excess,
                             .at = vessel,
                             .kept = !(excess > 0)};
}
