/* SPDX-License-Identifier: MIT */
/* Vapour that gets through the inner layers of a wall: what it brings, where, until when; and runs with it. */
#include "farvessel/plantfile.h"
#include "heatup/run_plants.h"

#include "farvessel/steady.h"
#include "heatup/wall.h"

#define ISO "ISO 13788: delta = 2e-10 (T/293)^0.81 kg/m/s/Pa, from memory; by hand"

static const double HOT = KELVIN + 99, OUTSIDE = 10, PLYWOOD = 1.2, WOOL = 0.05;

static double saturated(double t)
{
    double p;
    assert_int_equal(fv_if97_saturation_pressure(t, &p), FV_OK);
    return p;
}

static void flux(void **state)
{
    (void)state;
    const double g = steady_vapour_flux(2.4, KELVIN + 70, 1e5);
    check_off("through 2.4 m at 70 degC under 100 kPa, g/m2/h", 34, 3.6e6 * g, 0.5, ISO);
    check_off("the same as heat, W/m2", 21, 2257e3 * g, 0.5, "2257 kJ/kg at 100 degC; " ISO);
}

/* Three layers, with a coefficient of 10 W/m2/K outside. */
static heatup_wall_heat *wall_of(const fv_heat_layer layers[3], const steady_lining *linings)
{
    const heatup_wall_heat_spec spec = {.layers = layers,
                                        .count = 3,
                                        .linings = linings,
                                        .area = 4,
                                        .height = 1,
                                        .outside = {.t_air = KELVIN + 15, .p_air = 101325, .h_fixed = OUTSIDE},
                                        .t_start = KELVIN + 15};
    heatup_wall_heat *wall = heatup_wall_heat_new(&spec);
    assert_non_null(wall);
    return wall;
}

/* Plywood, an insulation, plywood. */
static heatup_wall_heat *new_wall(double k, const steady_lining *linings)
{
    const fv_heat_layer layers[] = {{0.012, 0.13, 500, 1600}, {WOOL, k, 80, 900}, {0.006, 0.13, 500, 1600}};
    return wall_of(layers, linings);
}

/* The loss of 1 m2 of it after `hours` beside saturated steam at 99 degC. */
static double soaked(heatup_wall_heat *wall, double hours)
{
    for (int i = 0; i < 60 * hours; i++) {
        double a, b;
        heatup_wall_heat_let_vapour(wall, HOT, 1);
        assert_int_equal(heatup_wall_heat_probe_held(wall, 60, &a, &b), FV_OK);
        const double before = heatup_wall_heat_taken(wall);
        assert_int_not_equal(heatup_wall_heat_advance(wall, 60, HOT, HOT), FV_FAIL);
        assert_true(fabs(heatup_wall_heat_taken(wall) - before - a - b * HOT) < 1e-6 * (fabs(a) + 1));
    }
    const double kept = heatup_wall_heat_stored(wall) + heatup_wall_heat_lost(wall);
    check_dev("taken, over stored and lost", kept, heatup_wall_heat_taken(wall), 1e-10, "own identity");
    return heatup_wall_heat_loss(wall) / 4;
}

/* Heat that meets behind the wool: conducted, and brought by vapour through plywood and wool; part of the vapour goes
 * on through the outer plywood to its cold face. vapour: W/m2 of all that comes. */
static double by_hand(double k, double *vapour)
{
    const double in = 1 / (0.012 / 0.13 + WOOL / k), out = 0.13 / 0.006, air = KELVIN + 15;
    double behind = air, outer = air;
    fv_sat_at_t_point at;
    fv_sat_at_t(fv_sat_line(), HOT, &at);
    const double latent = at.h_g - at.h_f;
    for (int i = 0; i < 1000; i++) {
        const double delta = 2e-10 * pow(0.5 * (behind + HOT) / 293, 0.81),
                     further = 2e-10 * pow(0.5 * (behind + outer) / 293, 0.81);
        *vapour = delta * (saturated(HOT) - saturated(behind)) / (PLYWOOD + WOOL) * latent;
        const double on = further * (saturated(behind) - saturated(outer)) / 0.6 * latent;
        behind = (in * HOT + *vapour - on + out * outer) / (in + out);
        outer = (out * behind + on + OUTSIDE * air) / (out + OUTSIDE);
    }
    return OUTSIDE * (outer - air);
}

static const steady_lining OPEN[] = {
    {PLYWOOD, 0.13, 0.195, 1e9, 0}, {WOOL, 0.045, 0.135, 1e9, 0}, {0.6, 0.13, 0.195, 1e9, 0}};

static void settled(void **state)
{
    (void)state;
    double vapour;
    const double loss = by_hand(0.045, &vapour);
    heatup_wall_heat *wall = new_wall(0.045, OPEN);
    const double got = soaked(wall, 60), heat = heatup_wall_heat_by_vapour(wall);
    check_dev("plywood on wool, W/m2", loss, got, 2e-3, "balances at the wool's back and the outer face; " ISO);
    soaked(wall, 1);
    check_dev("of those by vapour", vapour, (heatup_wall_heat_by_vapour(wall) - heat) / 4 / 3600, 5e-3, "the same");
    heatup_wall_heat_free(wall);
}

/* What keeps vapour out: nothing is left of it; closed foam hardly knows of wet plywood. */
static void kept_out(void **state)
{
    (void)state;
    heatup_wall_heat *dry = new_wall(0.045, NULL), *foam = new_wall(0.03, NULL);
    const double loss = soaked(dry, 60), foam_loss = soaked(foam, 60);
    const steady_lining sealed[] = {{1e8, 0.13, 0.195, 1e9, 0}, OPEN[1], OPEN[2]},
                        closed[] = {OPEN[0], {100, 0.03, 0.09, 1e9, 0}, OPEN[2]};
    heatup_wall_heat *lined = new_wall(0.045, sealed), *on_foam = new_wall(0.03, closed);
    check_dev("a sealed lining on wool, W/m2", loss, soaked(lined, 60), 1e-6, "the dry wall");
    check_between("wet plywood on closed foam, over dry", 1, 1.027, soaked(on_foam, 60) / foam_loss,
                  "by hand: 0.46 of 44 W/m2 through 101 m, and plywood that conducts as wet: 0.031 of 1.905 m2 K/W");
    heatup_wall_heat_free(dry);
    heatup_wall_heat_free(foam);
    heatup_wall_heat_free(lined);
    heatup_wall_heat_free(on_foam);
}

/* J that a wall takes from a chamber at t in the first `hours`, and then W that it loses. */
static double warmed(heatup_wall_heat *wall, double t, double hours, double dt)
{
    for (int k = 0; k < 3600 * hours / dt; k++) {
        heatup_wall_heat_let_vapour(wall, t, 1);
        assert_int_not_equal(heatup_wall_heat_advance(wall, dt, t, t), FV_FAIL);
    }
    return heatup_wall_heat_taken(wall);
}

/* A vessel with a wall of three open layers. */
static fv_plant *plant_of(const double *thick, const double *k, const double *s_d, double outside, fv_faults *faults)
{
    fv_text text = {0};
    fv_text_add(&text,
                "<network xmlns='" FV_PLANTFILE_NAMESPACE "' title='x'><site pressure='101325 Pa' air='15 degC'/>"
                "<boiler id='b' at='b0' output='30 kW' holds='0.05 bar' relief='0.5 bar'/>"
                "<hose id='s' from='b0' to='c' length='4 m' bore='19 mm'/>"
                "<vessel id='d' at='c' volume='2 m3'><coil bore='20 mm' length='0.9 m' holes='20' drill='3 mm'/>"
                "<drain diameter='30 mm'/><wall area='4 m2' outside='%g W/m2/K'>",
                outside);
    for (int i = 0; i < 3; i++)
        fv_text_add(&text,
                    "<layer thickness='%g m' conductivity='%g W/m/K' density='300 kg/m3' specific-heat='1500 J/kg/K' "
                    "vapour-resistance='%g m'/>",
                    thick[i], k[i], s_d[i]);
    fv_text_add(&text, "</wall></vessel></network>");
    fv_plant *plant = fv_plantfile_read_memory(text.text, text.length, "two.xml", NULL, faults);
    assert_non_null(plant);
    fv_text_free(&text);
    return plant;
}

static bool is_said(const fv_faults *faults, const char *words)
{
    bool said = false;
    for (size_t i = 0; i < fv_faults_count(faults); i++)
        said = said || strstr(fv_faults_at(faults, i)->text, words);
    return said;
}

/* Where vapour goes to and fro between faces until its balance is left, that is said. */
static void no_face_is_said(void **state)
{
    (void)state;
    static const double THICK[] = {0.1559, 0.04714, 0.05473}, K[] = {0.02713, 0.208, 2.891},
                        S_D[] = {0.04551, 0.005316, 0.03987};
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = plant_of(THICK, K, S_D, 0.0736, faults);
    assert_int_equal(fv_steady_remarks(plant, NULL, faults), FV_OK);
    assert_true(is_said(faults, "settles behind none of its layers"));
    fv_plant_free(plant);
    fv_faults_free(faults);
}

/* Open layers, where two faces draw vapour: what they settle to does not depend on the step, and is what `need` and
 * `flow` hold the vessel with; on the way there the error goes with the step. */
static void two_faces(void **state)
{
    (void)state;
    static const double THICK[] = {0.0733, 0.0305, 0.0107}, S_D[] = {0.0298, 0.0936, 0.0859}, K[] = {0.13, 0.04, 0.12};
    fv_heat_layer layers[3];
    steady_lining linings[3];
    for (int i = 0; i < 3; i++) {
        layers[i] = (fv_heat_layer){THICK[i], K[i], 300, 1500};
        linings[i] = (steady_lining){S_D[i], K[i], K[i], 1e9, 0};
    }
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = plant_of(THICK, K, S_D, 10, faults);
    assert_int_equal(fv_steady_remarks(plant, NULL, faults), FV_OK);
    assert_false(is_said(faults, "settles behind none"));
    fv_vessel_need need;
    assert_int_equal(fv_vessel_need_of(plant, plant->vessels[0], fv_sat_line(), &need, NULL), FV_OK);
    const double t = fv_sat_t(fv_sat_line(), 101325, NULL);
    double heat[5], loss[5];
    for (int i = 0; i < 5; i++) {
        heatup_wall_heat *wall = wall_of(layers, linings);
        const double dt = i < 4 ? 120 >> i : 1;
        heat[i] = warmed(wall, t, 2, dt);
        warmed(wall, t, 120, dt < 15 ? 15 : dt);
        loss[i] = heatup_wall_heat_loss(wall);
        heatup_wall_heat_free(wall);
    }
    check_dev("loss of a wall with two faces, W", need.wall_loss, loss[1], 0.01,
              "fv_vessel_need_of; cells behind faces");
    for (int i = 0; i < 4; i++) {
        check_dev("the same whatever the step", loss[4], loss[i], 1e-5, "steps of 1 s, then of 15 s");
        check_dev("heat of its first 2 hours, J", heat[4], heat[i], 0.01, "steps of 1 s");
    }
    for (int i = 0; i < 3; i++)
        check_between("order in the step", 0.8, 2.2, log2((heat[i] - heat[4]) / (heat[i + 1] - heat[4])), "method");
    fv_plant_free(plant);
    fv_faults_free(faults);
}

/* Full pores take no more, and conduct as wet. */
static void filled(void **state)
{
    (void)state;
    const steady_lining small[] = {
        {PLYWOOD, 0.13, 0.195, 0, 0}, {WOOL, 0.045, 0.135, 0.5, 0}, {0.6, 0.13, 0.195, 0, 0}};
    heatup_wall_heat *wall = new_wall(0.045, small);
    const double loss = soaked(wall, 60);
    check_dev("wool full of water, W/m2", (HOT - KELVIN - 15) / (0.018 / 0.13 + WOOL / 0.135 + 1 / OUTSIDE), loss, 1e-3,
              "series resistances by hand");
    check_between("water in it, kg for 4 m2", 2, 2.01, heatup_wall_heat_water(wall), "full at 0.5 kg/m2, and one step");
    heatup_wall_heat_free(wall);
}

static void add_layer(bench *b, fv_wall *wall, const char *material, double thickness)
{
    fv_wall_layer *layer = fv_wall_add_layer(b->plant, wall, HERE);
    layer->material = name_of(b, material);
    layer->thickness = fv_given(thickness);
}

/* 10 m2 of plywood, `insulation` and plywood. s_d: NaN: not said. */
static const fv_heat_result *run_with(bench *b, const char *insulation, double s_d, double sump_area)
{
    open_bench(b, 2.5e3);
    ideal(add_line(b, FV_LINE_HOSE, "hose", "b0", "c", 3, 0.025));
    fv_vessel *vessel = add_vessel(b, "bin", "c");
    fv_wall *wall = fv_vessel_add_wall(b->plant, vessel, HERE);
    if (sump_area > 0) { /* nothing drains the water */
        vessel->sump_area = fv_given(sump_area);
        vessel->openings[0]->kind = FV_OPENING_VENT;
        vessel->openings[0]->height = fv_given(0.5);
    }
    wall->area = fv_given(10);
    wall->outside = fv_given(OUTSIDE);
    add_layer(b, wall, "plywood", 0.012);
    add_layer(b, wall, insulation, WOOL);
    add_layer(b, wall, "plywood", 0.006);
    b->options.stop_at_core = sump_area > 0; /* later what stands there dries */
    if (!isnan(s_d))
        wall->layers[0]->vapour_resistance = fv_given(s_d);
    return go(b);
}

/* A batch is later for it; its books are those of any run. Nothing said is a dry wall, and so, but for a hair, is a
 * lining of 100 m. The vessel's need and what `flow` holds it with know the same loss. */
static void batches(void **state)
{
    (void)state;
    bench dry, wet, lined, foam, on_foam;
    const fv_heat_result *r = run_with(&wet, "mineral-wool", PLYWOOD, 0);
    const double base = took(run_with(&dry, "mineral-wool", NAN, 0), 0), later = took(r, 0) - base,
                 foamed = took(run_with(&foam, "pir", NAN, 0), 0);
    check_between("vapour in the wool, later by h", 0.15, 2, later, "guard: 0.34 h");
    check_between("closed foam behind the same plywood, later by h", 0, 0.06 * later,
                  took(run_with(&on_foam, "pir", PLYWOOD, 0), 0) - foamed, "point: it must not care");
    check_between("wool behind a sealed lining, later by h", 0, 0.03 * later,
                  took(run_with(&lined, "mineral-wool", 100, 0), 0) - base, "1.25 m of 100");
    const fv_vessel_history *h = &r->vessels[0];
    assert_true(dry.result->vessels[0].heat_linings == 0 && dry.result->vessels[0].lining_water == 0);
    check_dev("heat by vapour, over what condensed", 2260e3, h->heat_linings / h->lining_water, 0.02,
              "2257 kJ/kg at 100 degC, more while it warms up");
    fv_vessel_need need[2];
    fv_vessel_need_of(wet.plant, wet.plant->vessels[0], fv_sat_line(), &need[0], wet.faults);
    fv_vessel_need_of(dry.plant, dry.plant->vessels[0], fv_sat_line(), &need[1], dry.faults);
    heatup_wall_heat *wall[2];
    for (int i = 0; i < 2; i++) {
        const fv_heat_layer layers[] = {{0.012, 0.13, 500, 1600}, {WOOL, 0.045, 80, 900}, {0.006, 0.13, 500, 1600}};
        const heatup_wall_heat_spec spec = {.layers = layers,
                                            .count = 3,
                                            .linings = i == 0 ? OPEN : NULL,
                                            .area = 10,
                                            .height = 1,
                                            .outside = {.t_air = KELVIN + 15, .p_air = 101325, .h_fixed = OUTSIDE},
                                            .t_start = KELVIN + 15};
        wall[i] = heatup_wall_heat_new(&spec);
        const double t = fv_sat_t(fv_sat_line(), 101325, NULL);
        for (int k = 0; k < 3000; k++) {
            heatup_wall_heat_let_vapour(wall[i], t, 1);
            heatup_wall_heat_advance(wall[i], 60, t, t);
        }
        check_dev(i == 0 ? "loss that a wet wall settles to, W" : "the same of a dry one", need[i].wall_loss,
                  heatup_wall_heat_loss(wall[i]), 2e-3, "fv_vessel_need_of");
        heatup_wall_heat_free(wall[i]);
    }
    close_bench(&dry);
    close_bench(&wet);
    close_bench(&lined);
    close_bench(&foam);
    close_bench(&on_foam);
}

/* What condensed in the walls does not gather on the floor as well. */
static void its_water_is_not_in_the_sump(void **state)
{
    bench wet;
    (void)state;
    const fv_vessel_history *h = &run_with(&wet, "mineral-wool", PLYWOOD, 0.8)->vessels[0];
    assert_true(h->lining_water > 0.02 * h->condensate);
    check_dev("depth over the holes, m", (h->condensate - h->lining_water) / 960 / 0.8, h->sump, 2e-3,
              "condensate outside the walls / 960 kg/m3 / 0.8 m2");
    close_bench(&wet);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(flux),      cmocka_unit_test(settled),
                                       cmocka_unit_test(kept_out),  cmocka_unit_test(no_face_is_said),
                                       cmocka_unit_test(two_faces), cmocka_unit_test(filled),
                                       cmocka_unit_test(batches),   cmocka_unit_test(its_water_is_not_in_the_sump)};
    return cmocka_run_group_tests_name("linings", tests, NULL, NULL);
}
