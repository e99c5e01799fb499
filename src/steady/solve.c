/* SPDX-License-Identifier: MIT */
/* Making a network and a solver, and one solve. */
#include "farvessel/flow.h"
#include "steady/compile.h"
#include "steady/newton.h"

#include <limits.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

void fv_network_free(fv_network *network)
{
    if (!network)
        return;
    num_pattern_free(network->pattern);
    fv_arena_free(network->arena);
    free(network);
}

static bool allocate(fv_solver *s)
{
    const fv_network *net = s->net;
    const size_t n = (size_t)net->unknown_count, nodes = net->plant->node_count;
    s->arena = fv_arena_new();
    if (!s->arena)
        return false;
    double **vectors[] = {&s->state.x,
                          &s->work.dx,
                          &s->work.trial,
                          &s->work.residual,
                          &s->work.row_scale,
                          &s->layout.dry_pressure,
                          &s->state.condensate_demand,
                          &s->layout.node_pinned,
                          &s->work.base,
                          &s->work.kept,
                          &s->work.root_slope,
                          &s->work.coil_x,
                          &s->work.coil_rows};
    for (size_t i = 0; i < sizeof vectors / sizeof *vectors; i++)
        if (!(*vectors[i] = fv_arena_alloc(s->arena, n + 1, sizeof(double))))
            return false;
    s->layout.leads = fv_arena_alloc(s->arena, net->boiler_group_count + 1, sizeof(bool));
    s->work.fire = fv_arena_alloc(s->arena, net->plant->boiler_count + 1, sizeof(double));
    s->given.fire = fv_arena_alloc(s->arena, net->plant->boiler_count + 1, sizeof(double));
    s->given.stored = fv_arena_alloc(s->arena, net->plant->boiler_count + 1, sizeof *s->given.stored);
    s->given.line_k = fv_arena_alloc(s->arena, net->line_count + 1, sizeof(double));
    s->given.chambers = fv_arena_alloc(s->arena, net->vessel_count + 1, sizeof *s->given.chambers);
    s->layout.form = fv_arena_alloc(s->arena, net->line_count + 1, sizeof *s->layout.form);
    s->layout.form_before = fv_arena_alloc(s->arena, net->line_count + 1, sizeof *s->layout.form_before);
    s->layout.fed_from = fv_arena_alloc(s->arena, net->line_count + 1, sizeof(bool));
    s->layout.one_way = fv_arena_alloc(s->arena, net->line_count + 1, sizeof(int));
    s->layout.part = fv_arena_alloc(s->arena, nodes + 1, sizeof(int));
    s->layout.supply = fv_arena_alloc(s->arena, nodes + 1, sizeof *s->layout.supply);
    s->state.flow = fv_arena_alloc(s->arena, net->line_count + 1, sizeof *s->state.flow);
    s->state.convected = fv_arena_alloc(s->arena, net->line_count + 1, sizeof *s->state.convected);
    s->state.at = fv_arena_alloc(s->arena, nodes + 1, sizeof *s->state.at);
    s->state.order = fv_arena_alloc(s->arena, nodes + 1, sizeof(int));
    s->work.scratch = fv_arena_alloc(s->arena, 8 * nodes + 1, sizeof(int));
    s->work.coils = fv_arena_alloc(s->arena, net->vessel_count + 1, sizeof *s->work.coils);
    return s->layout.leads && s->work.fire && s->given.fire && s->given.stored && s->given.line_k &&
           s->given.chambers && s->layout.form && s->layout.form_before && s->layout.fed_from && s->layout.one_way &&
           s->layout.part && s->layout.supply && s->state.flow && s->state.convected && s->state.at && s->state.order &&
           s->work.scratch && s->work.coils;
}

void fv_solver_free(fv_solver *solver)
{
    if (!solver)
        return;
    num_sparse_free(solver->work.sparse);
    fv_arena_free(solver->arena);
    free(solver);
}

/* A solver without matrix, which is enough to record the pattern with. */
static fv_solver *bare_solver(const fv_network *net)
{
    fv_solver *s = calloc(1, sizeof *s);
    if (s) {
        s->net = net;
        s->state.recovery = 1;
        s->given.steps_most = INT_MAX;
        if (allocate(s))
            return s;
    }
    fv_solver_free(s);
    return NULL;
}

static double valve_k(const steady_net_valve *valve, double open)
{
    double share;
    fv_flow_valve_opening((fv_valve_curve)valve->curve, open, &share);
    return share > 0 ? valve->k_open / (share * share) : INFINITY;
}

static void take_conditions(fv_solver *s, const fv_conditions *c)
{
    const fv_network *net = s->net;
    if (c->t_air != s->given.t_air || c->wind != s->given.wind)
        for (size_t i = 0; i < net->line_count; i++)
            s->state.convected[i].below = s->state.convected[i].above = (steady_loss){0}; /* anew */
    s->given.t_air = c->t_air;
    s->given.wind = c->wind;
    memcpy(s->given.fire, c->fire, net->plant->boiler_count * sizeof(double));
    memcpy(s->given.chambers, c->chambers, net->vessel_count * sizeof *s->given.chambers);
    for (size_t i = 0; i < net->line_count; i++)
        s->given.line_k[i] = net->lines[i].k;
    for (size_t i = 0; i < net->valve_count; i++) {
        const steady_net_valve *valve = &net->valves[i];
        s->given.line_k[valve->line] += valve_k(valve, c->valve_open ? c->valve_open[i] : valve->fitting->open.v);
    }
    const fv_stored nothing = {0, 0};
    double could = 0, at_most = 0, slope;
    for (size_t i = 0; i < net->plant->boiler_count; i++) {
        s->given.stored[i] = c->stored ? c->stored[i] : nothing;
        could += steady_boiler_most(net, net->plant->boilers[i], s->given.fire[i], nothing, 0, &slope);
        at_most += steady_boiler_most(net, net->plant->boilers[i], 1, nothing, 0, &slope);
    }
    /* a fire that leaves nothing may yet flash steam off, and that is not of the order of a kilogram a second */
    s->given.steam_scale = could > 0 ? could : at_most > 0 ? at_most : 1;
    for (size_t i = 0; i < net->line_count; i++)
        s->state.convected[i].entrained = fv_word(net->lines[i].line->condensate) == FV_CONDENSATE_WITH ? 1 : 0;
}

static bool record_pattern(fv_network *net, fv_faults *faults)
{
    fv_solver *s = bare_solver(net);
    if (!s)
        return false;
    const double none = 0;
    double *fire = calloc(net->plant->boiler_count + 1, sizeof *fire);
    fv_chamber *chambers = calloc(net->vessel_count + 1, sizeof *chambers);
    steady_stamps stamps = {.record = true};
    int singular = -1;
    if (fire && chambers) {
        const fv_conditions conditions = {
            .t_air = net->plant->site.air.v, .wind = none, .fire = fire, .chambers = chambers};
        take_conditions(s, &conditions);
        steady_choose_forms(s);
        steady_assemble(s, s->state.x, s->work.residual, &stamps);
        net->entry_count = stamps.count;
        if (!stamps.failed)
            net->pattern = num_pattern_new(net->unknown_count, stamps.rows, stamps.cols, stamps.count, &singular);
        if (singular >= 0) {
            fv_loc loc;
            const char *id = steady_part_of(net, singular, &loc);
            fv_error(faults, FV_ERR_NUMERICS, loc, "nothing in this plant determines the flow or pressure of '%s'", id);
        }
    }
    free(stamps.values);
    free(stamps.rows);
    free(stamps.cols);
    free(fire);
    free(chambers);
    fv_solver_free(s);
    return net->pattern != NULL;
}

fv_network *fv_network_new(const fv_plant *plant, const fv_sat *sat, fv_faults *faults)
{
    if (!plant || !sat) {
        fv_error_null(faults, __func__);
        return NULL;
    }
    if (fv_packing_check(plant, sat, faults) == FV_FAIL)
        return NULL;
    const size_t errors = fv_faults_errors(faults);
    fv_network *net = calloc(1, sizeof *net);
    if (net) {
        net->plant = plant;
        net->sat = sat;
        if (steady_compile(net) && record_pattern(net, faults))
            return net;
    }
    if (fv_faults_errors(faults) == errors)
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
    fv_network_free(net);
    return NULL;
}

fv_solver *fv_solver_new(const fv_network *network)
{
    if (!network)
        return NULL;
    fv_solver *s = bare_solver(network);
    if (!s)
        return NULL;
    s->work.values = fv_arena_alloc(s->arena, network->entry_count + 1, sizeof(double));
    s->work.sparse = num_sparse_new(network->pattern);
    if (s->work.values && s->work.sparse)
        return s;
    fv_solver_free(s);
    return NULL;
}

void fv_solver_forget(fv_solver *solver)
{
    if (!solver)
        return;
    solver->state.warm = false;
}

fv_status fv_solve(fv_solver *solver, const fv_conditions *conditions, fv_steady_result *result, fv_faults *faults)
{
    if (!solver || !conditions || !result)
        return fv_error_null(faults, __func__);
    steady_newton_log log = {.singular = -1};
    take_conditions(solver, conditions);
    const fv_status status = steady_find_root(solver, &log);
    solver->state.warm = status == FV_OK;
    steady_fill_result(solver, result);
    result->audit.iterations = log.iterations;
    result->audit.converged = status == FV_OK;
    result->audit.rounded_off = solver->state.smoothing;
    if (status != FV_OK) {
        steady_diagnose(solver, &log, faults);
        return FV_FAIL;
    }
    for (size_t i = 0; i < result->line_count; i++)
        if (result->lines[i].doubtful)
            return FV_DOUBTFUL;
    for (size_t i = 0; i < result->vessel_count; i++)
        if (result->vessels[i].doubtful)
            return FV_DOUBTFUL;
    return FV_OK;
}

size_t fv_network_valve_count(const fv_network *network)
{
    if (!network)
        return 0;
    return network->valve_count;
}

int fv_network_valve(const fv_network *network, const char *path)
{
    if (!network || !path)
        return -1;
    const fv_element *element;
    const void *fitting = fv_plant_find(network->plant, path, &element);
    for (size_t i = 0; i < network->valve_count && fitting; i++)
        if (network->valves[i].fitting == fitting)
            return (int)i;
    return -1;
}

double fv_network_site_pressure(const fv_network *network)
{
    if (!network)
        return (double)NAN;
    return network->site_pressure;
}

void fv_network_size(const fv_network *network, size_t *unknowns, size_t *nonzeros)
{
    if (!network || !unknowns || !nonzeros)
        return;
    *unknowns = (size_t)network->unknown_count;
    *nonzeros = num_pattern_nonzeros(network->pattern);
}
