/* SPDX-License-Identifier: MIT */
/* From the unknowns to the result, and the audit that every result carries: imbalance of mass at each node, kg/s, and
 * of energy over all, W. */
#include "steady/assembly.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

fv_steady_result *fv_steady_result_new(const fv_network *network)
{
    if (!network)
        return NULL;
    fv_steady_result *r = calloc(1, sizeof *r);
    if (!r)
        return NULL;
    const fv_plant *plant = network->plant;
    r->boiler_count = plant->boiler_count;
    r->node_count = plant->node_count;
    r->line_count = network->line_count;
    r->vessel_count = network->vessel_count;
    r->hole_count = network->hole_count;
    r->boilers = calloc(r->boiler_count + 1, sizeof *r->boilers);
    r->nodes = calloc(r->node_count + 1, sizeof *r->nodes);
    r->lines = calloc(r->line_count + 1, sizeof *r->lines);
    r->vessels = calloc(r->vessel_count + 1, sizeof *r->vessels);
    r->holes = calloc(r->hole_count + 1, sizeof *r->holes);
    if (r->boilers && r->nodes && r->lines && r->vessels && r->holes)
        return r;
    fv_steady_result_free(r);
    return NULL;
}

void fv_steady_result_free(fv_steady_result *result)
{
    if (!result)
        return;
    free(result->boilers);
    free(result->nodes);
    free(result->lines);
    free(result->vessels);
    free(result->holes);
    free(result);
}

void steady_imbalances(const fv_solver *s, const double *x, double *out)
{
    const fv_network *net = s->net;
    memset(out, 0, (size_t)net->node_count * sizeof(double));
    for (size_t i = 0; i < net->line_count; i++) {
        if (s->layout.form[i] == FORM_SHUT)
            continue;
        out[net->lines[i].node_from] -= s->state.flow[i].from;
        out[net->lines[i].node_to] += s->state.flow[i].to;
    }
    for (size_t i = 0; i < net->tee_count; i++)
        for (int leg = 0; leg < 2; leg++) {
            out[net->tees[i].node] -= x[net->tees[i].unknown[leg]];
            out[net->tees[i].port[leg]] += x[net->tees[i].unknown[leg]];
        }
    for (size_t i = 0; i < net->vessel_count; i++)
        out[net->vessels[i].node] -= steady_coil_inflow(&net->vessels[i], x);
    for (size_t i = 0; i < net->boiler_group_count; i++)
        out[net->boilers[i].node] += x[net->boilers[i].unknown];
}

static void fill_boilers(const fv_solver *s, fv_steady_result *r)
{
    const fv_network *net = s->net;
    for (size_t g = 0; g < net->boiler_group_count; g++) {
        const steady_net_boilers *b = &net->boilers[g];
        const double p = s->state.x[b->node], m = s->state.x[b->unknown];
        double most = 0, slope;
        fv_sat_point at;
        fv_sat_at(net->sat, net->site_pressure + p, &at);
        for (int i = 0; i < b->count; i++) {
            const int k = net->boiler_order[b->first + i];
            r->boilers[k].most =
                steady_boiler_most(net, net->plant->boilers[k], s->given.fire[k], s->given.stored[k], p, &slope);
            most += r->boilers[k].most;
        }
        for (int i = 0; i < b->count; i++) {
            const int k = net->boiler_order[b->first + i];
            const fv_boiler *boiler = net->plant->boilers[k];
            fv_boiler_result *out = &r->boilers[k];
            double by_p;
            const double feed = steady_feed_enthalpy(net, boiler, &at, &by_p);
            out->pressure = p;
            out->enthalpy = at.h_g;
            out->steam = most > 0 ? m * out->most / most : 0;
            out->carried_water = out->steam * (1 - boiler->dryness.v) / boiler->dryness.v;
            out->water_fed = out->steam + out->carried_water;
            out->heat = out->steam * (at.h_g - feed) + out->carried_water * (at.h_f - feed);
            out->fuel = s->given.fire[k] > 0 ? (out->heat + boiler->loss.v) / boiler->efficiency.v : 0;
            out->state = s->given.fire[k] <= 0                  ? FV_BOILER_OFF
                         : out->steam >= out->most * (1 - 1e-9) ? FV_BOILER_FULL
                         : out->steam <= 1e-9 * out->most       ? FV_BOILER_BLOCKED
                                                                : FV_BOILER_HOLDING;
            out->shares_by_size = b->count > 1 && out->state == FV_BOILER_HOLDING;
        }
    }
}

static void fill_nodes(const fv_solver *s, fv_steady_result *r)
{
    for (size_t i = 0; i < r->node_count; i++) {
        fv_node_result *n = &r->nodes[i];
        n->pressure = s->state.x[i];
        n->temperature = fv_sat_t(s->net->sat, s->net->site_pressure + s->state.x[i], NULL);
        n->quality = 1 / (1 + s->state.x[s->net->water_first + (int)i]);
        n->enthalpy = s->state.at[i].enthalpy;
        n->imbalance = s->work.residual[i] + s->layout.node_pinned[i] * s->state.x[i];
    }
}

/* Losses come in density-weighted pressure; the parts are turned into Pa so that they add up to the drop. */
static void fill_drops(const fv_solver *s, const steady_net_line *l, const steady_line_flow *f,
                       const steady_duct_state *d, fv_line_result *out)
{
    const double drop = out->drop - f->seal;
    const double phi = fv_sat_phi_step(s->net->sat, s->net->site_pressure + out->pressure_to, drop);
    const double rho = fabs(drop) > 1e-9 ? phi / drop : d->rho_mean;
    out->drop_friction = d->friction / rho;
    out->drop_fittings = d->fittings / rho;
    out->drop_rise = (d->rho_mean - fv_air_density(s->net->site_pressure, s->given.t_air)) * FV_GRAVITY * l->rise *
                     d->rho_mean / rho;
    out->drop_sag = f->seal;
    out->drop_speed = out->drop - out->drop_friction - out->drop_fittings - out->drop_rise - out->drop_sag;
}

/* Flows below this share of what the boilers could give are leakage through a seal. */
static const double LEAKS = 1e-9;

static bool passes_nothing(const fv_solver *s, const steady_line_flow *f)
{
    return steady_line_out(f) <= LEAKS * s->given.steam_scale;
}

static void fill_line(const fv_solver *s, int i, fv_line_result *out)
{
    const fv_network *net = s->net;
    const steady_net_line *l = &net->lines[i];
    const steady_convected *c = &s->state.convected[i];
    *out = (fv_line_result){
        .pressure_from = s->state.x[l->node_from], .pressure_to = s->state.x[l->node_to], .two_phase = 1, .quality = 1};
    out->drop = out->pressure_from - out->pressure_to;
    out->surface_temperature = NAN;
    if (s->layout.form[i] == FORM_SHUT) {
        out->shut = true;
        out->drop_fittings = out->drop;
        return;
    }
    steady_line_flow f;
    steady_duct_state d;
    steady_line_state(s, i, s->state.x, &f, &d);
    out->flow_from = f.from;
    out->flow_to = f.to;
    out->water = c->water_out;
    out->condensate = f.made;
    out->heat_loss = f.made * f.latent;
    out->surface_temperature =
        c->below.t_surface + (f.t - c->below.t) / STEADY_LOSS_SPAN * (c->above.t_surface - c->below.t_surface);
    fill_drops(s, l, &f, &d, out);
    out->velocity = fmax(fabs(f.from) / d.rho1, fabs(f.to) / d.rho2) / l->duct.area;
    out->reynolds = d.reynolds;
    out->friction = d.f;
    out->two_phase = d.two_phase;
    out->wet_length = f.wet * l->duct.length;
    out->quality = c->quality;
    out->choked = d.choked;
    out->mach = d.mach;
    out->condenses_all = passes_nothing(s, &f) && f.wet < 1 - 1e-9;
    out->blocked = f.seal != 0 && passes_nothing(s, &f);
    out->doubtful = d.doubtful || c->doubtful || l->doubtful;
}

/* Where what is this vessel's own begins. */
static int feed_node(const fv_solver *s, const steady_net_vessel *v)
{
    if (v->only_line < 0)
        return v->node;
    const steady_net_line *l = &s->net->lines[v->only_line];
    return l->node_to == v->node ? l->node_from : l->node_to;
}

static void fill_holes(const fv_solver *s, const steady_net_vessel *v, fv_steady_result *r, fv_vessel_result *out)
{
    double least = INFINITY, largest = 0, drops = 0, low = INFINITY, high = -INFINITY, area = 0;
    for (int k = 0; k < v->hole_count; k++) {
        const int flow = v->flow_unknown + 2 * k;
        const double after = k + 1 < v->segment_count ? s->state.x[flow + 2] : 0;
        const steady_net_hole *h = &s->net->holes[v->first_hole + k];
        steady_hole_state state;
        steady_hole_evaluate(s, v, k, s->state.x[flow + 1], s->state.x[flow], after, steady_beyond_holes(v, s->state.x),
                             &state);
        r->holes[v->first_hole + k] = (fv_hole_result){.position = h->position,
                                                       .diameter = h->diameter,
                                                       .flow = state.flow,
                                                       .pressure = state.pressure,
                                                       .drop = state.drop,
                                                       .cd = state.cd,
                                                       .choked = state.choked};
        least = fmin(least, state.flow);
        largest = fmax(largest, state.flow);
        drops += state.drop / v->hole_count;
        low = fmin(low, state.pressure);
        high = fmax(high, state.pressure);
        area += h->area;
        out->coil_mach = fmax(out->coil_mach, state.mach);
        out->doubtful = out->doubtful || (state.doubtful && state.flow > 0);
    }
    out->evenness = largest > LEAKS * s->given.steam_scale ? least / largest : 1;
    out->hole_drop = drops;
    out->feed_drop = s->state.x[feed_node(s, v)] - steady_beyond_holes(v, s->state.x);
    out->coil_change = high - low;
    out->area_ratio = area / v->bore_area;
    out->cd_from_correlation = !s->net->holes[v->first_hole].fixed;
}

static void fill_openings(const fv_solver *s, const steady_net_vessel *v, const fv_chamber *c, fv_vessel_result *out)
{
    if (c->kind != FV_CHAMBER_VENTED)
        return;
    const double rho_air = fv_air_density(s->net->site_pressure, s->given.t_air);
    for (int j = 0; j < v->opening_count; j++) {
        double slope;
        const double m = steady_opening_flow(&s->net->openings[v->first_opening + j], s->net->site_pressure, rho_air,
                                             c->density, s->state.x[v->chamber_unknown], &slope);
        out->gas_out += m > 0 ? m : 0;
        out->air_drawn_in += m < 0 ? -m : 0;
    }
    out->vented = fmin(out->gas_out, fmax(0, out->steam));
}

static void fill_vessels(const fv_solver *s, fv_steady_result *r)
{
    fv_sat_point site;
    fv_sat_at(s->net->sat, s->net->site_pressure, &site);
    double sum = 0;
    for (size_t i = 0; i < r->vessel_count; i++) {
        const steady_net_vessel *v = &s->net->vessels[i];
        const int node = s->net->plant_node[v->node];
        fv_vessel_result *out = &r->vessels[i];
        *out =
            (fv_vessel_result){.need = NAN, .first_hole = (size_t)v->first_hole, .hole_count = (size_t)v->hole_count};
        const double inflow = steady_coil_inflow(v, s->state.x);
        out->steam = fabs(inflow) > LEAKS * s->given.steam_scale ? inflow : 0;
        out->water = out->steam * s->state.x[s->net->water_first + node];
        out->heat = out->steam * (s->state.at[node].enthalpy - site.h_f);
        out->coil_pressure = s->state.x[v->node];
        out->chamber_pressure = s->state.x[v->chamber_unknown];
        double slope;
        const double rho = fv_sat_rho_g(s->net->sat, s->net->site_pressure + out->coil_pressure, &slope);
        const double leg = fmax(fabs(s->state.x[v->flow_unknown]), fabs(out->steam - s->state.x[v->flow_unknown]));
        out->coil_velocity = leg / (rho * v->bore_area);
        fill_holes(s, v, r, out);
        fill_openings(s, v, &s->given.chambers[i], out);
        out->verdict = s->given.chambers[i].kind == FV_CHAMBER_SHUT ? FV_SHUT_OFF : FV_FED;
        sum += fmax(out->steam, 0);
    }
    for (size_t i = 0; i < r->vessel_count; i++)
        r->vessels[i].share = sum > 0 ? r->vessels[i].steam / sum : 0;
}

/* Closed end of a coil over the total pressure at its inlet, Pa. */
static double total_pressure_gain(const fv_solver *s, int vessel, const fv_steady_result *r)
{
    const fv_network *net = s->net;
    const steady_net_vessel *v = &net->vessels[vessel];
    const int node = net->plant_node[v->node], last = v->flow_unknown + 2 * (v->hole_count - 1);
    if (v->segment_count > v->hole_count || s->given.chambers[vessel].kind == FV_CHAMBER_SHUT)
        return -INFINITY;
    double head = 0;
    for (int j = net->touch_start[node]; j < net->touch_start[node + 1]; j++) {
        const int line = net->touch_line[j];
        const steady_net_line *l = &net->lines[line];
        const double flux = (l->node_to == v->node ? r->lines[line].flow_to : -r->lines[line].flow_from) / l->duct.area;
        const double rho = fv_sat_rho_g(net->sat, net->site_pressure + s->state.x[v->node], NULL);
        head = fmax(head, flux > 0 ? 0.5 * flux * flux / rho : 0);
    }
    steady_hole_state hole;
    steady_hole_evaluate(s, v, v->hole_count - 1, s->state.x[last + 1], s->state.x[last], 0,
                         steady_beyond_holes(v, s->state.x), &hole);
    return s->state.x[last + 1] + hole.regain - s->state.x[v->node] - head;
}

static void audit(const fv_solver *s, fv_steady_result *r)
{
    fv_audit *a = &r->audit;
    const fv_network *net = s->net;
    *a = (fv_audit){0};
    double energy = 0, turned = 0;
    /* Rows of lines and segments stand in density times pressure. */
    const double rho = fv_sat_rho_g(net->sat, net->site_pressure, NULL);
    for (size_t g = 0; g < net->boiler_group_count; g++) {
        const steady_net_boilers *b = &net->boilers[g];
        fv_sat_point at;
        fv_sat_at(net->sat, net->site_pressure + s->state.x[b->node], &at);
        for (int i = 0; i < b->count; i++) {
            const int k = net->boiler_order[b->first + i];
            const fv_boiler_result *boiler = &r->boilers[k];
            const fv_stored stored = s->given.stored[k];
            a->steam_total += boiler->steam;
            a->heat_total += boiler->heat;
            turned += boiler->heat + fabs(stored.rate * (at.t - stored.t));
            energy += boiler->steam > 0 ? boiler->steam * at.h_g + boiler->carried_water * at.h_f
                                        : boiler->steam * s->state.at[net->plant_node[b->node]].enthalpy;
        }
    }
    for (size_t i = 0; i < r->line_count; i++)
        energy -= r->lines[i].heat_loss;
    for (size_t i = 0; i < r->vessel_count; i++) {
        const int node = net->plant_node[net->vessels[i].node];
        const double steam = steady_coil_inflow(&net->vessels[i], s->state.x); /* what leakage included */
        energy -= steam * s->state.at[node].enthalpy;
        energy -= fmax(steam, 0) * s->state.x[net->water_first + node] * s->state.at[node].water_enthalpy;
    }
    a->energy_imbalance = fabs(energy - s->state.drained_enthalpy);
    for (int i = 0; i < net->node_count; i++)
        a->mass_imbalance =
            fmax(a->mass_imbalance, fabs(s->work.residual[i] + s->layout.node_pinned[i] * s->state.x[i]));
    for (int i = net->node_count; i < net->share_first; i++)
        if (net->measure[i] == STEADY_A_FLOW)
            a->pressure_residual = fmax(a->pressure_residual, fabs(s->work.residual[i]) / rho);
    a->total_pressure_gain = -INFINITY;
    for (size_t i = 0; i < r->vessel_count; i++) {
        a->mach = fmax(a->mach, r->vessels[i].coil_mach);
        a->total_pressure_gain = fmax(a->total_pressure_gain, total_pressure_gain(s, (int)i, r));
    }
    for (size_t i = 0; i < r->line_count; i++)
        a->mach = fmax(a->mach, r->lines[i].mach);
    /* Where all valves are shut, or a boiler's own water takes what its fire gives, rounding is not counted against
     * rounding. */
    fv_sat_point site;
    fv_sat_at(net->sat, net->site_pressure, &site);
    a->mass_relative = a->mass_imbalance / s->state.steam_made;
    a->energy_relative = a->energy_imbalance / fmax(turned, s->state.steam_made * (site.h_g - site.h_f));
}

void steady_fill_result(fv_solver *s, fv_steady_result *result)
{
    result->site_pressure = s->net->site_pressure;
    result->boiling_point = fv_sat_t(s->net->sat, s->net->site_pressure, NULL);
    result->t_air = s->given.t_air;
    result->wind = s->given.wind;
    fill_boilers(s, result);
    fill_nodes(s, result);
    for (size_t i = 0; i < result->line_count; i++)
        fill_line(s, (int)i, &result->lines[i]);
    fill_vessels(s, result);
    audit(s, result);
}
