/* SPDX-License-Identifier: MIT */
/* Equations of single parts as they show in a solved plant, against the correlations and IF97 themselves: a declared
 * tee, a boiler that carries water, its fuel, a line that rises, friction, the heat of a vessel, its coil and
 * holes. */
#include "farvessel/flow.h"
#include "farvessel/heat.h"
#include "steady/assembly.h"
#include "steady/plants.h"

/* The static pressures of a tee's three legs differ by what fv_flow_tee says for the flows found. */
static void a_tee_takes_what_its_correlation_says(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    add_boiler(&b, "boiler", "a", 40000.0, 20000.0);
    add_line(&b, FV_LINE_HEADER, "main", "a", "t", 4.0, 0.03)->heat_loss = fv_given(0);
    add_line(&b, FV_LINE_HEADER, "run", "t", "c1", 3.0, 0.03)->heat_loss = fv_given(0);
    add_line(&b, FV_LINE_HOSE, "branch", "t", "c2", 5.0, 0.019)->heat_loss = fv_given(0);
    fv_tee *tee = fv_plant_add_tee(b.plant, HERE);
    tee->at = "t";
    tee->main = "main";
    tee->run = "run";
    tee->branch = "branch";
    add_vessel(&b, "near", "c1", 24, 0.003);
    add_vessel(&b, "far", "c2", 24, 0.003);
    bench_link(&b);
    bench_solve(&b);
    const fv_line_result *l = b.result->lines;
    const double areas[3] = {circle(0.03), circle(0.03), circle(0.019)};
    const double into[3] = {l[0].flow_to, -l[1].flow_from, -l[2].flow_from};
    const double site = fv_network_site_pressure(b.net), rho = fv_sat_rho_g(b.sat, site + l[0].pressure_to, NULL);
    double drop[2], unused[2][3];
    assert_int_equal(fv_flow_tee(areas, PI / 2, into, drop, unused), FV_OK);
    assert_true(fabs(drop[1]) > 1); /* there is something to see */
    check_row("tee, main to run, Pa", drop[0] / rho, l[0].pressure_to - l[1].pressure_from, 1e-6, "fv_flow_tee");
    check_row("tee, main to branch, Pa", drop[1] / rho, l[0].pressure_to - l[2].pressure_from, 1e-6, "fv_flow_tee");
    bench_close(&b);
}

static fv_if97_state water_at(double p, double t)
{
    fv_if97_state s;
    fv_if97_region1(p, t, &s);
    return s;
}

/* Of what leaves the boiler the share `dryness` is vapour; both together take all the heat that is not lost. */
static void a_boiler_that_carries_water(void **state)
{
    (void)state;
    const double dryness = 0.8, output = 20000, loss = 900, efficiency = 0.75, feed_t = 293.15;
    bench b;
    bench_open(&b);
    fv_boiler *boiler = add_boiler(&b, "boiler", "a", output, 50000.0);
    boiler->dryness = fv_given(dryness);
    boiler->loss = fv_given(loss);
    boiler->efficiency = fv_given(efficiency);
    boiler->feed = fv_given(feed_t);
    add_line(&b, FV_LINE_HEADER, "main", "a", "c", 3.0, 0.03);
    add_vessel(&b, "bin", "c", 36, 0.004);
    bench_link(&b);
    bench_solve(&b);
    const fv_boiler_result *r = &b.result->boilers[0];
    assert_int_equal(r->state, FV_BOILER_FULL);
    const double p = fv_network_site_pressure(b.net) + r->pressure;
    double t;
    fv_if97_state vapour;
    fv_if97_saturation_temperature(p, &t);
    fv_if97_region2(p, t, &vapour);
    const double feed = water_at(p, feed_t).h, water = water_at(p, t).h;
    check_row("share of vapour in what leaves the boiler", dryness, r->steam / (r->steam + r->carried_water), 1e-12,
              "definition");
    check_row("heat in vapour and water, W", output - loss,
              r->steam * (vapour.h - feed) + r->carried_water * (water - feed), 1e-4,
              "IAPWS-IF97, balance; the feed is taken on the saturation line, 0.09 kJ/kg off");
    check_row("fuel, W", output / efficiency, r->fuel, 1e-9, "definition of the efficiency");
    const fv_node_result *n = &b.result->nodes[boiler->node];
    check_row("share of vapour at the boiler's joint", dryness, n->quality, 1e-9, "definition");
    bench_close(&b);
}

/* Two boilers side by side carry different amounts of water: beside the steam that they give together stands what they
 * carry together. */
static void water_of_two_boilers_is_mixed(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    add_boiler(&b, "small", "a", 10000.0, 50000.0)->dryness = fv_given(0.98);
    add_boiler(&b, "large", "a", 30000.0, 50000.0)->dryness = fv_given(0.92);
    add_line(&b, FV_LINE_PIPE, "pipe", "a", "c", 3.0, 0.03)->heat_loss = fv_given(0);
    add_vessel(&b, "bin", "c", 36, 0.004);
    bench_link(&b);
    bench_solve(&b);
    const fv_boiler_result *r = b.result->boilers;
    assert_true(r[0].state == FV_BOILER_FULL && r[1].state == FV_BOILER_FULL);
    const double steam = r[0].steam + r[1].steam, water = r[0].steam * 0.02 / 0.98 + r[1].steam * 0.08 / 0.92;
    check_row("two boilers, share of vapour at their joint", steam / (steam + water),
              b.result->nodes[b.plant->boilers[0]->node].quality, 1e-8, "balance");
    check_row("the same, water that reaches the vessel, kg/s", water, b.result->vessels[0].water, 1e-8, "balance");
    bench_close(&b);
}

/* What water and steel of the boiler take until they are as hot as its steam is not there to boil water. */
static void a_cold_boiler_keeps_heat_back(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    fv_boiler *boiler = add_boiler(&b, "boiler", "a", 30000.0, 50000.0);
    add_line(&b, FV_LINE_PIPE, "pipe", "a", "c", 3.0, 0.03);
    add_vessel(&b, "bin", "c", 36, 0.004);
    bench_link(&b);
    const fv_stored stored = {.rate = 400.0, .t = 363.15};
    const fv_conditions conditions = {.t_air = b.plant->site.air.v,
                                      .wind = b.plant->site.wind.v,
                                      .fire = b.fire,
                                      .chambers = b.chambers,
                                      .stored = &stored};
    assert_int_not_equal(fv_solve(b.solver, &conditions, b.result, b.faults), FV_FAIL);
    const double p = fv_network_site_pressure(b.net) + b.result->boilers[0].pressure;
    double t;
    fv_if97_state vapour;
    fv_if97_saturation_temperature(p, &t);
    fv_if97_region2(p, t, &vapour);
    check_row("boiler that warms itself, steam, kg/s",
              (30000.0 - 400.0 * (t - 363.15)) / (vapour.h - water_at(p, boiler->feed.v).h), b.result->boilers[0].steam,
              1e-4, "IAPWS-IF97, balance; the feed is taken on the saturation line, 0.09 kJ/kg off");
    bench_close(&b);
}

/* What comes in beside the steam adds friction all along a line, what condenses on the way half of that
 * in the mean. */
static void water_loads_a_line(void **state)
{
    (void)state;
    for (int wet = 0; wet < 2; wet++) {
        bench b;
        bench_open(&b);
        add_boiler(&b, "boiler", "a", 30000.0, 50000.0)->dryness = fv_given(wet ? 0.97 : 1.0);
        add_line(&b, FV_LINE_PIPE, "pipe", "a", "c", 10.0, 0.03)->heat_loss = fv_given(200.0);
        add_vessel(&b, "bin", "c", 36, 0.004);
        bench_link(&b);
        bench_solve(&b);
        const fv_line_result *l = &b.result->lines[0];
        const double water = b.result->boilers[0].carried_water + 0.5 * l->condensate,
                     vapour = 0.5 * (l->flow_from + l->flow_to);
        fv_sat_point at;
        fv_sat_at(b.sat, fv_network_site_pressure(b.net) + 0.5 * (l->pressure_from + l->pressure_to), &at);
        double phi2;
        fv_flow_two_phase(vapour / (vapour + water), at.rho_g, at.rho_f, at.mu_g, at.mu_f, &phi2);
        assert_true(phi2 > 1.01);
        check_row(wet ? "multiplier of a line that wet steam enters" : "multiplier of a line that condenses on the way",
                  phi2, l->two_phase, 1e-9, "fv_flow_two_phase at the mean");
        check_row("the same, water that leaves with the steam, kg/s",
                  b.result->boilers[0].carried_water + l->condensate, l->water, 1e-4,
                  "balance; next to all is carried");
        check_row("the same, share of vapour in it", l->flow_to / (l->flow_to + l->water), l->quality, 1e-12,
                  "definition");
        bench_close(&b);
    }
}

/* Where little steam is left it takes only a share of the water along: r^2/(1 + r^4)^(1/2), r = steam that leaves over
 * a tenth of what condenses. */
static void a_breath_of_steam_carries_little(void **state)
{
    (void)state;
    double before = 0;
    for (int i = 0; i < 3; i++) {
        bench b;
        bench_open(&b);
        add_boiler(&b, "boiler", "a", 1200.0 + 50.0 * i, 50000.0);
        add_line(&b, FV_LINE_PIPE, "pipe", "a", "c", 10.0, 0.03)->heat_loss = fv_given(100.0);
        add_vessel(&b, "bin", "c", 36, 0.004);
        bench_link(&b);
        bench_solve(&b);
        const fv_line_result *l = &b.result->lines[0];
        const double r = l->flow_to / (0.1 * l->condensate), share = r * r / sqrt(1 + pow(r, 4));
        assert_true(share > before + 0.02 && share < 0.95);
        check_row("little steam, water it takes along / what condensed", share, l->water / l->condensate, 1e-5,
                  "the model's own rule (common practice, no source)");
        before = share;
        bench_close(&b);
    }
}

/* A line that rises loses the weight of its steam and is helped by that of the air outside, which gauge pressures are
 * counted from. */
static void a_rise_weighs_steam_against_air(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    add_boiler(&b, "boiler", "a", 20000.0, 20000.0);
    fv_line *line = add_line(&b, FV_LINE_PIPE, "up", "a", "c", 6.0, 0.05);
    line->rise = fv_given(5.0);
    line->heat_loss = fv_given(0);
    add_vessel(&b, "bin", "c", 24, 0.003);
    bench_link(&b);
    bench_solve(&b);
    const fv_line_result *l = &b.result->lines[0];
    const double site = fv_network_site_pressure(b.net);
    const double steam = fv_sat_rho_g(b.sat, site + 0.5 * (l->pressure_from + l->pressure_to), NULL);
    /* dry air, 287.05 J/kg/K (ISO 2533) */
    check_row("column of a rise of 5 m, Pa", (steam - site / (287.05 * 278.15)) * GRAVITY * 5.0, l->drop_rise, 2e-3,
              "hydrostatics");
    check_row("what the parts of the drop add up to, Pa", l->drop,
              l->drop_friction + l->drop_fittings + l->drop_rise + l->drop_sag + l->drop_speed, 1e-9, "sum");
    bench_close(&b);
}

/* Throttled without loss, then condensed and left at the boiling point of the site. */
static void a_vessel_gets_the_heat_of_its_steam(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    add_boiler(&b, "boiler", "a", 20000.0, 20000.0);
    add_line(&b, FV_LINE_PIPE, "pipe", "a", "c", 3.0, 0.02)->heat_loss = fv_given(0);
    add_vessel(&b, "bin", "c", 24, 0.003);
    bench_link(&b);
    bench_solve(&b);
    const double site = fv_network_site_pressure(b.net), p = site + b.result->boilers[0].pressure;
    double t, t_boil;
    fv_if97_state vapour;
    fv_if97_saturation_temperature(p, &t);
    fv_if97_region2(p, t, &vapour);
    fv_if97_saturation_temperature(site, &t_boil);
    const fv_vessel_result *v = &b.result->vessels[0];
    check_row("heat of a vessel, W", v->steam * (vapour.h - water_at(site, t_boil).h), v->heat, 1e-8, "IAPWS-IF97");
    check_row("steam of the only vessel, kg/s", b.result->boilers[0].steam, v->steam, 1e-12, "balance");
    bench_close(&b);
}

/* The solver works a line's loss out at whole kelvins only; between them it is as if it did at the line's own mean. */
static void a_line_loses_what_its_mean_temperature_says(void **state)
{
    (void)state;
    static const double outputs[] = {3e3, 9e3, 20e3, 45e3, 90e3}, winds[] = {0, 0, 4, 0.5, 0};
    for (size_t i = 0; i < sizeof outputs / sizeof *outputs; i++) {
        bench b;
        bench_open(&b);
        b.plant->site.wind = fv_given(winds[i]);
        add_boiler(&b, "boiler", "a", outputs[i], 90000.0);
        fv_line *line = add_line(&b, i % 2 ? FV_LINE_HEADER : FV_LINE_HOSE, "line", "a", "c", 6.0, 0.025);
        line->lagging = fv_given(i % 2 ? 0.02 : 0);
        add_vessel(&b, "bin", "c", 24, 0.003);
        bench_link(&b);
        bench_solve(&b);
        const steady_net_line *l = &b.net->lines[0];
        const steady_line_flow *f = &b.solver->state.flow[0];
        const fv_heat_outside outside = {.t_air = b.plant->site.air.v,
                                         .p_air = fv_network_site_pressure(b.net),
                                         .wind = winds[i],
                                         .emissivity = l->emissivity};
        double q, slope, surface;
        assert_int_equal(fv_heat_pipe_loss(&l->pipe, f->t, &outside, &q, &slope, &surface), FV_OK);
        const fv_line_result *r = &b.result->lines[0];
        check_row("heat of a line that steam fills, W", 6 * q, r->heat_loss, 1e-9, "fv_heat_pipe_loss at its mean");
        check_row("its surface, K", surface, r->surface_temperature, 1e-6, "the same");
        double *x = b.solver->state.x, condensate[2];
        for (int k = 0; k < 2; k++) {
            steady_line_flow moved;
            x[l->node_from] += k == 0 ? -1 : 2;
            steady_line_flow_of(b.solver, 0, x, &moved);
            condensate[k] = moved.condensate;
        }
        check_row("what condenses by a pressure, kg/s/Pa", 0.5 * (condensate[1] - condensate[0]), f->condensate_p, 1e-4,
                  "central difference");
        bench_close(&b);
    }
}

static void a_coil_has_the_speed_of_its_flow(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    add_boiler(&b, "boiler", "a", 20000.0, 20000.0);
    add_line(&b, FV_LINE_PIPE, "pipe", "a", "c", 3.0, 0.03);
    add_vessel(&b, "bin", "c", 24, 0.003);
    bench_link(&b);
    bench_solve(&b);
    const fv_vessel_result *v = &b.result->vessels[0];
    const double rho = fv_sat_rho_g(b.sat, fv_network_site_pressure(b.net) + v->coil_pressure, NULL);
    check_row("speed at the coil's inlet, m/s", v->steam / (rho * circle(0.022)), v->coil_velocity, 1e-9, "continuity");
    double least = INFINITY, most = 0;
    for (size_t i = 0; i < v->hole_count; i++) {
        least = fmin(least, b.result->holes[v->first_hole + i].flow);
        most = fmax(most, b.result->holes[v->first_hole + i].flow);
    }
    check_row("evenness", least / most, v->evenness, 1e-12, "definition");
    bench_close(&b);
}

/* Each hole of a narrow coil, where the steam that passes has as much head as the drop: Cd of the correlation counts on
 * the total head, the flow on the static drop. */
static void a_hole_gives_what_its_correlation_says(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    add_boiler(&b, "boiler", "a", 40000.0, 20000.0);
    add_line(&b, FV_LINE_PIPE, "pipe", "a", "c", 2.0, 0.03);
    add_vessel(&b, "bin", "c", 12, 0.005)->coil.bore = fv_given(0.016);
    bench_link(&b);
    bench_solve(&b);
    const double site = fv_network_site_pressure(b.net), bore = circle(0.016);
    double before = b.result->vessels[0].steam, most = 0, worst_cd = 0, worst_flow = 0;
    for (int k = 0; k < 12; k++) {
        const fv_hole_result *h = &b.result->holes[k];
        const double p = site + h->pressure, rho = fv_sat_rho_g(b.sat, p, NULL);
        const double head = 0.5 * before * before / (bore * bore * rho), crossflow = head / (head + h->drop);
        double cd, y2, slope;
        bool choked;
        fv_flow_hole_cd(0.003 / 0.005, crossflow, &cd, &slope);
        cd /= sqrt(1 - crossflow);
        fv_flow_expansibility2(h->drop / p, FV_EXPONENT_SATURATED, &y2, &slope, &choked);
        worst_cd = fmax(worst_cd, fabs(h->cd / cd - 1));
        worst_flow = fmax(worst_flow, fabs(h->flow / (cd * circle(0.005) * sqrt(2 * rho * h->drop * y2)) - 1));
        most = fmax(most, crossflow);
        before -= h->flow;
    }
    assert_true(most > 0.3 && most < 0.8);
    check_row("holes of a narrow coil, largest deviation of Cd", 0, worst_cd, 1e-9,
              "fv_flow_hole_cd on the total head");
    check_row("the same, of the flow", 0, worst_flow, 1e-9, "isentropic hole");
    bench_close(&b);
}

/* A ring is fed from both ends alike; to the last digit without regain, whose density is that on one side of a hole. */
static void a_ring_is_its_own_mirror_image(void **state)
{
    (void)state;
    for (int regains = 0; regains < 2; regains++) {
        bench b;
        bench_open(&b);
        add_boiler(&b, "boiler", "a", 40000.0, 20000.0);
        add_line(&b, FV_LINE_PIPE, "pipe", "a", "c", 2.0, 0.03);
        fv_vessel *vessel = add_vessel(&b, "bin", "c", 12, 0.005);
        vessel->coil.shape = fv_given(FV_COIL_RING);
        vessel->coil.regain = fv_given(regains ? 0.5 : 0.0);
        bench_link(&b);
        bench_solve(&b);
        double worst = 0;
        for (int k = 0; k < 6; k++)
            worst = fmax(worst, fabs(b.result->holes[k].flow / b.result->holes[11 - k].flow - 1));
        check_row(regains ? "ring of twelve holes with regain, largest difference of two that lie alike"
                          : "ring of twelve holes, largest difference of two that lie alike",
                  0, worst, regains ? 1e-4 : 1e-9, "symmetry");
        const fv_vessel_result *v = &b.result->vessels[0];
        const double rho = fv_sat_rho_g(b.sat, fv_network_site_pressure(b.net) + v->coil_pressure, NULL);
        check_row("the same, speed at its inlet, m/s", 0.5 * v->steam / (rho * circle(0.022)), v->coil_velocity,
                  regains ? 1e-3 : 1e-9, "half of the steam each way");
        bench_close(&b);
    }
}

/* Colebrook and White (1937), by bisection. */
static double colebrook_by_bisection(double re, double relative_roughness)
{
    double low = 1e-3, high = 1.0;
    for (int i = 0; i < 100; i++) {
        const double f = 0.5 * (low + high);
        const double gap = 1 / sqrt(f) + 2 * log10(relative_roughness / 3.7 + 2.51 / (re * sqrt(f)));
        *(gap > 0 ? &low : &high) = f;
    }
    return low;
}

/* Each line tells the friction factor and the Reynolds number of its mean flow: turbulent, laminar, or as it was given.
 */
static void a_line_tells_its_friction(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    add_boiler(&b, "boiler", "a", 10000.0, 20000.0);
    add_line(&b, FV_LINE_PIPE, "turbulent", "a", "t1", 3.0, 0.02)->roughness = fv_given(2e-4);
    add_line(&b, FV_LINE_HEADER, "laminar", "t1", "t2", 3.0, 0.3);
    add_line(&b, FV_LINE_PIPE, "given", "t2", "c", 3.0, 0.02)->friction = fv_given(0.031);
    add_vessel(&b, "bin", "c", 24, 0.003);
    bench_link(&b);
    bench_solve(&b);
    static const double bores[] = {0.02, 0.3, 0.02};
    const fv_line_result *l = b.result->lines;
    for (int i = 0; i < 3; i++) {
        const double p = fv_network_site_pressure(b.net) + 0.5 * (l[i].pressure_from + l[i].pressure_to);
        check_row("Reynolds number of the mean flow",
                  0.5 * (l[i].flow_from + l[i].flow_to) * bores[i] / (circle(bores[i]) * fv_sat_mu_g(b.sat, p, NULL)),
                  l[i].reynolds, 1e-9, "definition");
    }
    assert_true(l[0].reynolds > 4000 && l[1].reynolds < 2000 && l[1].reynolds > 100);
    double f, slope;
    fv_flow_colebrook(l[0].reynolds, 0.01, &f, &slope);
    check_row("friction factor told of a turbulent line", f, l[0].friction, 1e-12, "fv_flow_colebrook");
    check_row("the same", colebrook_by_bisection(l[0].reynolds, 0.01), l[0].friction, 1e-9, "Colebrook and White 1937");
    check_row("friction factor told of a laminar line", 64 / l[1].reynolds, l[1].friction, 1e-9,
              "Hagen and Poiseuille");
    check_row("friction factor told where it is given", 0.031, l[2].friction, 1e-6, "as given");
    bench_close(&b);
}

/* Steps of Newton's to half the fire, and the steam of the far vessel then; the guess turned with the fire or not. */
static int steps_to_half(bool turned, double ratio, double *steam)
{
    bench b;
    bench_open(&b);
    add_boiler(&b, "boiler", "a", 20000.0, 20000.0);
    add_line(&b, FV_LINE_HEADER, "h1", "a", "t", 3.0, 0.03);
    add_line(&b, FV_LINE_HOSE, "s1", "t", "c1", 2.0, 0.02);
    add_line(&b, FV_LINE_HOSE, "s2", "t", "c2", 6.0, 0.02);
    add_vessel(&b, "bin1", "c1", 12, 0.003);
    add_vessel(&b, "bin2", "c2", 12, 0.003);
    bench_link(&b);
    bench_solve(&b);
    b.fire[0] *= 0.5;
    if (turned)
        fv_solver_scale_fires(b.solver, ratio);
    bench_solve(&b);
    *steam = b.result->vessels[1].steam;
    const int steps = b.result->audit.iterations;
    bench_close(&b);
    return steps;
}

static void a_turned_fire_starts_nearer(void **state)
{
    (void)state;
    double plain, turned, far, senseless;
    const int steps = steps_to_half(false, 1, &plain), fewer = steps_to_half(true, 0.5, &turned);
    printf("check | steps to half the fire | fewer than the %d without a guess | got %d\n", steps, fewer);
    assert_true(fewer < steps);
    check_row("steam with the guess, kg/s", plain, turned, 1e-9, "the same without");
    assert_int_equal(steps_to_half(true, 0.01, &far), steps); /* too far away: left out */
    assert_int_equal(steps_to_half(true, (double)NAN, &senseless), steps);
    assert_true(far == plain && senseless == plain);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(a_tee_takes_what_its_correlation_says),
                                       cmocka_unit_test(a_boiler_that_carries_water),
                                       cmocka_unit_test(a_vessel_gets_the_heat_of_its_steam),
                                       cmocka_unit_test(a_line_loses_what_its_mean_temperature_says),
                                       cmocka_unit_test(a_rise_weighs_steam_against_air),
                                       cmocka_unit_test(a_coil_has_the_speed_of_its_flow),
                                       cmocka_unit_test(a_line_tells_its_friction),
                                       cmocka_unit_test(a_hole_gives_what_its_correlation_says),
                                       cmocka_unit_test(water_of_two_boilers_is_mixed),
                                       cmocka_unit_test(a_cold_boiler_keeps_heat_back),
                                       cmocka_unit_test(water_loads_a_line),
                                       cmocka_unit_test(a_ring_is_its_own_mirror_image),
                                       cmocka_unit_test(a_breath_of_steam_carries_little),
                                       cmocka_unit_test(a_turned_fire_starts_nearer)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
