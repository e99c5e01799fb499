/* SPDX-License-Identifier: MIT */
/* Loads in a run: frozen, a bed with its front, none at all, one that soaks, the sump, and what practice says. */
#include "heatup/run_plants.h"

#include "farvessel/heat.h"
#include "farvessel/props.h"

/* Little steam: all heat is found in the load, ice included. */
static void a_frozen_load_takes_longer(void **state)
{
    (void)state;
    double time[3], heat[3];
    static const double start[] = {15, -5, -20};
    for (int i = 0; i < 3; i++) {
        bench b;
        one_vessel(&b, 3e3);
        b.plant->vessels[0]->load.start_temperature = fv_given(start[i] + KELVIN);
        b.plant->vessels[0]->load.surface = fv_given(200); /* bare: what a bag adds is added to both */
        b.plant->vessels[0]->load.conductivity = fv_given(0.37);
        b.plant->vessels[0]->within = fv_given(86400);
        go(&b);
        time[i] = took(b.result, 0);
        heat[i] = b.result->split_steaming.load;
        printf("from %g degC: %.2f h, %.2f MJ\n", start[i], time[i], heat[i] / 1e6);
        close_bench(&b);
    }
    /* 115 kg with 60 % water: 333.55 kJ/kg of ice; 15 K of 3.1 kJ/kg/K; 5 K of some 1.9 */
    const double melt = 115 * 0.6 * 333.55e3;
    check_off("a load at -5 degC takes more than one at 15 degC, MJ", (melt + 115 * (15 * 3060 + 5 * 1900)) / 1e6,
              (heat[1] - heat[0]) / 1e6, 1.0, "latent and sensible heat by hand");
    check_off("15 K colder ice, MJ", 115 * 15 * 1800 / 1e6, (heat[2] - heat[1]) / 1e6, 0.6, "some 1.8 kJ/kg/K");
    check_between(
        "time against a load at 15 degC", 1.5, 2.2, time[1] / time[0],
        "common practice, no source: a start at -5 degC with 60 % water takes 77 % more to melt, 20 % to warm");
    assert_true(time[2] > time[1]);
}

/* The front is through when steam has brought the bed's heat; walls beside it take theirs first. */
static void a_front_climbs_through_a_bed(void **state)
{
    (void)state;
    const fv_sat *sat = fv_sat_line();
    double before = 0;
    for (int i = 0; i < 2; i++) {
        bench b;
        one_vessel(&b, 10e3);
        make_bed(&b, 250);
        if (i == 1)
            add_wall(&b, b.plant->vessels[0], 5, 0.03, 0.15, 600, 1600, 8);
        b.options.every = 60;
        go(&b);
        const fv_vessel_history *h = &b.result->vessels[0];
        double c;
        fv_heat_specific_heat(FV_MEDIUM_PEAT, b.plant->vessels[0]->load.moisture.v, 0.5 * (288.15 + 95 + KELVIN), 0,
                              &c);
        const fv_boiler_result *first = &b.result->at_first_steam->boilers[0];
        fv_sat_point at;
        fv_sat_at(sat, 101418, &at);
        const double power = first->steam * (first->enthalpy - at.h_f);
        if (i == 0) {
            check_dev("front through, s from steam on", 250 * c * 85 / power, h->core - h->steam_on, 2e-3,
                      "mass x specific heat x 85 K / (steam x (h_v - h_f))");
            check_dev("water soaked up, kg", first->steam * (h->core - h->steam_on), h->moisture_gain, 0.1,
                      "all condensate so far, and a little in the hold");
            before = h->core;
            check_dev("with all steam of the boiler, s", h->core - h->steam_on, h->core_ample, 5e-3,
                      "it has all of it, no walls: heat balance");
        } else {
            assert_true(h->core > before * 1.02);
            assert_true(h->heat_walls > 0 && h->core < before * 1.5);
        }
        /* the core is as cold as before until the front is there; then cools from below the surface */
        const fv_series *s = &b.result->series;
        for (size_t k = 0; k < s->count && s->time[k] < h->core - 60; k++)
            assert_true(fabs(s->core[k] - 288.15) < 1e-9);
        /* and falls without stairs: samples of steps that grow to a quarter of an hour */
        for (size_t k = 1; k < s->count; k++)
            if (i == 1 && s->time[k - 1] > h->hold + 3600 && s->time[k] < h->hold + 36000)
                assert_true(s->core[k] < s->core[k - 1]);
        assert_true(h->hold - h->core >= 1800 - 0.01);
        if (i == 1) /* without walls it would stay hot */
            assert_true(h->core_end < 75 + KELVIN && h->core_end > h->chamber_end);
        close_bench(&b);
    }
}

/* An empty vessel to be scalded: its chamber is the core. */
static void no_load_at_all(void **state)
{
    (void)state;
    bench b;
    one_vessel(&b, 8e3);
    fv_vessel *v = b.plant->vessels[0];
    v->load.count = v->load.mass = (fv_value){.v = NAN};
    v->load.a = v->load.b = v->load.c = (fv_value){.v = NAN};
    v->shell.mass = fv_given(60);
    v->target = fv_given(90 + KELVIN);
    v->hold = fv_given(1200);
    v->cool = fv_given(40 + KELVIN);
    add_wall(&b, v, 5, 0.001, 50, 7800, 480, 10);
    go(&b);
    const fv_vessel_history *h = &b.result->vessels[0];
    assert_true(h->core > h->steam_on && h->core < h->steam_on + 3600);
    check_off("hold, s", 1200, h->hold - h->core, 2e-3, "as said");
    assert_true(h->cool > h->hold && h->heat_load == 0 && h->core_ample == 0);
    assert_int_equal(h->verdict, FV_FED);
    assert_true(isnan(h->full) || h->full > h->core);
    /* heat to 90 degC: shell and skin; the walls lose 10 W/m2/K meanwhile; gas */
    const double lump = (60 * 480 + 5 * 0.001 * 7800 * 480) * 75;
    check_between(
        "time to 90 degC, s", lump / 6.9e3, (lump + 2e6) / (6.9e3 - 2.1e3), h->core - h->steam_on,
        "6.9 kW that condense; steel alone, to steel, 2 kW of losses, 0.9 kg of vapour to fill and drive out air");
    close_bench(&b);
}

static void water_gathers_in_a_sump(void **state)
{
    (void)state;
    bench b;
    one_vessel(&b, 8e3);
    fv_vessel *v = b.plant->vessels[0];
    v->sump_area = fv_given(0.8);
    v->openings[0]->kind = FV_OPENING_VENT; /* nothing drains the water */
    v->openings[0]->height = fv_given(0.5);
    go(&b);
    const fv_vessel_history *h = &b.result->vessels[0];
    check_dev("depth over the holes, m", h->condensate / 960 / 0.8, h->sump, 1e-3, "condensate / 960 kg/m3 / 0.8 m2");
    assert_true(h->sump > 0.015);
    const double undrained = h->core;
    /* Half of what condenses stays in the load. */
    v->load.takes_condensate = fv_given(0.5);
    go(&b);
    h = &b.result->vessels[0];
    check_dev("depth where the load soaks up half, m", 0.5 * h->condensate / 960 / 0.8, h->sump, 1e-3,
              "half of the condensate / 960 kg/m3 / 0.8 m2");
    v->load.takes_condensate = fv_given(0);
    v->openings[0]->kind = FV_OPENING_DRAIN;
    v->openings[0]->height = fv_given(0);
    go(&b);
    check_between("depth with a 30 mm drain, m", 0, 5e-4, b.result->vessels[0].sump, "it runs off under its own head");
    assert_true(b.result->vessels[0].core <= undrained * 1.001);
    close_bench(&b);
}

/* Water over the holes pushes back: 30 mm of it, and what gathers. */
static void water_over_the_holes_pushes_back(void **state)
{
    (void)state;
    bench b;
    open_bench(&b, 12e3);
    add_star(&b, 3);
    for (int i = 0; i < 3; i++)
        ideal(b.plant->lines[i]);
    b.plant->vessels[1]->water = fv_given(0.03);
    fv_vessel *v = b.plant->vessels[2];
    v->sump_area = fv_given(0.3);
    v->openings[0]->kind = FV_OPENING_VENT;
    v->openings[0]->height = fv_given(0.3);
    b.options.stop_at_core = true;
    go(&b);
    const fv_heat_result *r = b.result;
    assert_true(r->at_first_steam->vessels[1].steam < 1e-9 && r->vessels[1].core > 1.2 * r->vessels[0].core);
    assert_true(r->vessels[2].core > 1.5 * r->vessels[0].core);
    check_dev("share with nothing over the holes yet", 1,
              r->at_first_steam->vessels[2].steam / r->at_first_steam->vessels[0].steam, 0.02, "equal vessels");
    const size_t late = 3 * (size_t)(r->vessels[0].core / r->options.every);
    assert_true(r->vessels[2].sump > 0.01);
    assert_true(r->series.vessel_steam[late + 2] < 0.9 * r->series.vessel_steam[late]);
    close_bench(&b);
}

/* ---- what practice says ---- */

static void twelve_kilograms_per_hundred(void **state)
{
    (void)state;
    bench b;
    one_vessel(&b, 6e3);
    fv_vessel *v = b.plant->vessels[0];
    v->load.moisture = fv_given(0.6);
    v->target = fv_given(99 + KELVIN);
    v->hold = fv_given(0);
    go(&b);
    const fv_vessel_history *h = &b.result->vessels[0];
    const fv_sat *sat = fv_sat_line();
    fv_sat_point at;
    fv_sat_at(sat, 101418, &at);
    check_off("condensate for each 100 kg of wet sawdust, kg", 12,
              100 * b.result->split_steaming.load / (at.h_g - at.h_f) / 115, 0.6, "common practice, no source");
    assert_true(h->condensate > 0.11 * 115);
    close_bench(&b);
}

static void blocks_and_stacks(void **state)
{
    (void)state;
    bench b;
    one_vessel(&b, 15e3);
    go(&b);
    check_between("separated 2.3 kg bags: core at 95 degC, h of full steam", 4, 8, took(b.result, 0),
                  "common practice, no source: loose bags 4 to 8 h");
    fv_vessel *v = b.plant->vessels[0];
    v->load.packing = fv_given(FV_PACKING_PACKED);
    v->load.stack_a = v->load.stack_b = v->load.stack_c = fv_given(0.4);
    v->within = fv_given(60 * 3600);
    go(&b);
    check_between("the same in tight 40 cm stacks, h", 24, 48, took(b.result, 0),
                  "common practice, no source: more than a day");
    close_bench(&b);
}

/* "One vessel of 200 blocks with steam always there: 48 kW at 6 min, 25 at 15 min, 15 at 30 min, 7 at 1 h, 2.7 at 2 h,
 * 1.0 at 3 h": the demand falls off steeply. */
static void demand_falls_off(void **state)
{
    (void)state;
    bench b;
    one_vessel(&b, 250e3);
    b.plant->lines[0]->bore = fv_given(0.08);
    b.boiler->holds = fv_given(40000);
    fv_vessel *v = b.plant->vessels[0];
    v->volume = fv_given(1.5);
    v->load.count = fv_given(200);
    v->load.mass = fv_given(460);
    v->load.conductivity = fv_given(0.37); /* diffusivity 1.8e-7 m2/s */
    v->load.surface = fv_given(5000);
    v->coil.bore = fv_given(0.06);
    v->coil.holes = fv_given(60);
    v->coil.drill = fv_given(0.008);
    v->openings[0]->diameter = fv_given(0.25);
    b.options.every = 60;
    go(&b);
    const fv_series *s = &b.result->series;
    static const double rows[][2] = {{6, 48}, {15, 25}, {30, 15}, {60, 7}, {120, 2.7}, {180, 1.0}};
    const fv_sat *sat = fv_sat_line();
    fv_sat_point at;
    fv_sat_at(sat, 101418, &at);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char what[60];
        const size_t k = (size_t)((b.result->vessels[0].steam_on + 60 * rows[i][0]) / 60);
        snprintf(what, sizeof what, "demand %.0f min after steam on, kW", rows[i][0]);
        check_between(what, rows[i][1] * 0.7, rows[i][1] * 1.4, s->demand[k] * (at.h_g - at.h_f) / 1e3,
                      "common practice, no source: within 30 to 40 %");
    }
    close_bench(&b);
}

/* 120 blocks fill 41 % of 1 m3: how they are packed decides, and is no default for programs either. */
static void packing_must_be_said(void **state)
{
    (void)state;
    for (int said = 0; said < 2; said++) {
        bench b;
        one_vessel(&b, 15e3);
        b.plant->vessels[0]->load.count = fv_given(120);
        b.plant->vessels[0]->load.mass = fv_given(120 * 2.3);
        if (!said)
            b.plant->vessels[0]->load.packing = (fv_value){.v = FV_PACKING_LOOSE, .origin = FV_ASSUMED};
        b.options.until = 600;
        assert_int_equal(fv_plant_link(b.plant, b.faults), FV_OK);
        b.result = fv_heat_run(b.plant, &b.options, NULL, b.faults);
        const fv_flow_options moment = {.fire = 1};
        fv_flow_answer *flow = fv_flow_answer_new(b.plant, &moment, NULL, b.faults);
        assert_int_equal(b.result != NULL, said);
        assert_int_equal(flow != NULL, said);
        assert_int_equal(fv_faults_errors(b.faults), said ? 0 : 2);
        for (size_t i = 0; i < fv_faults_count(b.faults); i++)
            if (!fv_faults_at(b.faults, i)->caution)
                assert_non_null(strstr(fv_faults_at(b.faults, i)->text, "packing=\"loose\""));
        fv_flow_answer_free(flow);
        close_bench(&b);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_frozen_load_takes_longer),
        cmocka_unit_test(a_front_climbs_through_a_bed),
        cmocka_unit_test(no_load_at_all),
        cmocka_unit_test(water_gathers_in_a_sump),
        cmocka_unit_test(water_over_the_holes_pushes_back),
        cmocka_unit_test(twelve_kilograms_per_hundred),
        cmocka_unit_test(blocks_and_stacks),
        cmocka_unit_test(demand_falls_off),
        cmocka_unit_test(packing_must_be_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
