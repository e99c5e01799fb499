/* SPDX-License-Identifier: MIT */
/* From what is said of a load to bodies: counts, densities, packing, media, ice. */
#include "checks.h"

#include "farvessel/heat.h"
#include "heatup/load.h"
#include "steady/piece.h"

typedef struct {
    fv_plant *plant;
    fv_faults *faults;
    fv_load *load;
} fixture;

static int set_up(void **state)
{
    fixture *f = calloc(1, sizeof *f);
    assert_non_null(f);
    f->plant = fv_plant_new("bench.xml");
    f->faults = fv_faults_new();
    fv_vessel *vessel = f->plant ? fv_plant_add_vessel(f->plant, "bin1", false, (fv_loc){"bench.xml", 7}) : NULL;
    assert_true(vessel && f->faults);
    f->load = &vessel->load;
    *state = f;
    return 0;
}

static int tear_down(void **state)
{
    fixture *f = *state;
    fv_plant_free(f->plant);
    fv_faults_free(f->faults);
    free(f);
    return 0;
}

static fv_status resolve(fixture *f, heatup_load_spec *out)
{
    return heatup_load_spec_of(f->load, "vessel 'bin1'", KELVIN + 15, KELVIN + 95, out, f->faults);
}

static void make_blocks(fv_load *load)
{
    load->form = fv_given(FV_FORM_BLOCK);
    load->a = load->b = fv_given(0.13);
    load->c = fv_given(0.20);
    load->moisture = fv_given(0.6);
    load->wrap = fv_given(FV_WRAP_BAG); // as fv_plant_link has them where they are not said
    load->film_gap = fv_given(0.25e-3);
}

static void test_counts(void **state)
{
    fixture *f = *state;
    heatup_load_spec spec;
    assert_int_equal(resolve(f, &spec), FV_OK); // nothing said: no load
    assert_true(spec.mass == 0);
    make_blocks(f->load);
    f->load->count = fv_given(200);
    f->load->density = fv_given(680);
    assert_int_equal(resolve(f, &spec), FV_OK);
    double one = 0.13 * 0.13 * 0.20 * 680;
    assert_true(!spec.bed && spec.piece.shape == HEATUP_BODY_BLOCK && fabs(spec.pieces - 200) < 1e-9);
    check_dev("200 blocks 13 x 13 x 20 cm at 680 kg/m3, kg", 200 * one, spec.mass, 1e-12, "count x volume x density");
    f->load->mass = fv_given(460); // weighed: the pieces' density follows
    assert_int_equal(resolve(f, &spec), FV_OK);
    check_dev("460 kg in 200 of them, kg/m3", 460 / (200 * 0.00338), spec.piece.density, 1e-12,
              "mass / count / volume");
    f->load->count = (fv_value){.v = (double)NAN, .origin = FV_UNSET};
    assert_int_equal(resolve(f, &spec), FV_OK);
    assert_true(fabs(spec.pieces - 460 / one) < 1e-9 && spec.piece.density == 680);
    heatup_body *body = heatup_body_new(&spec.piece);
    assert_non_null(body);
    check_dev("pieces x mass of one, kg", 460, spec.pieces * heatup_body_mass(body), 1e-12, "identity");
    heatup_body_free(body);
}

static void test_properties(void **state)
{
    fixture *f = *state;
    heatup_load_spec spec;
    make_blocks(f->load);
    f->load->mass = fv_given(460);
    assert_int_equal(resolve(f, &spec), FV_OK);
    double c, k, density = fv_heat_typical_density(FV_MEDIUM_WOOD, 0.6, false);
    assert_int_equal(fv_heat_specific_heat(FV_MEDIUM_WOOD, 0.6, KELVIN + 55, 0, &c), FV_OK);
    assert_int_equal(fv_heat_conductivity(FV_MEDIUM_WOOD, 0.6, density, KELVIN + 55, &k), FV_OK);
    assert_true(spec.piece.density == density && spec.piece.specific_heat == c && spec.piece.conductivity == k);
    /* air at 55 degC 0.02838 W/m/K over 0.25 mm 113.5, radiation 6.5; film 0.05 mm of 0.3 W/m/K; 200 and 12 outside */
    check_dev("bag over 0.25 mm of air, W/m2/K", 74.1, spec.piece.h_condensing, 2e-3, "by hand");
    check_dev("the same while it cools", 10.89, spec.piece.h_cooling, 2e-3, "by hand");
    assert_true(spec.piece.t_start == KELVIN + 15 && fv_heat_typical_density(FV_MEDIUM_WOOD, 0.6, true) < density);
    check_dev("specific heat of sawdust with 60 % water, J/kg/K", 3070, c, 0.02,
              "mixture rule, Wood Handbook (2010) at 340 K");
    f->load->conductivity = fv_given(0.5);
    f->load->wrap = fv_given(FV_WRAP_BARE);
    f->load->surface = fv_given(77);
    f->load->cooling_surface = fv_given(8);
    f->load->specific_heat = fv_given(1400);
    f->load->start_temperature = fv_given(KELVIN + 30);
    assert_int_equal(resolve(f, &spec), FV_OK);
    assert_true(spec.piece.conductivity == 0.5 && fabs(spec.piece.h_condensing - 77) < 1e-9 &&
                fabs(spec.piece.h_cooling - 8) < 1e-9);
    assert_true(fabs(spec.piece.specific_heat - (0.4 * 1400 + 0.6 * 4190)) < 1 && spec.piece.t_start == KELVIN + 30);
    f->load->surface = (fv_value){.v = (double)NAN, .origin = FV_UNSET};
    f->load->takes_condensate = fv_given(0.8);
    assert_int_equal(resolve(f, &spec), FV_OK);
    assert_true(fabs(spec.piece.h_condensing - 1000) < 1e-9 && spec.takes_condensate == 0.8);
}

static void test_forms(void **state)
{
    fixture *f = *state;
    fv_load *load = f->load;
    heatup_load_spec spec;
    load->mass = fv_given(300);
    load->form = fv_given(FV_FORM_CYLINDER);
    load->diameter = fv_given(0.2);
    load->height = fv_given(0.4);
    assert_int_equal(resolve(f, &spec), FV_OK);
    assert_true(spec.piece.shape == HEATUP_BODY_CYLINDER && spec.piece.height == 0.4);
    load->form = fv_given(FV_FORM_SPHERE);
    assert_int_equal(resolve(f, &spec), FV_OK);
    assert_true(spec.piece.shape == HEATUP_BODY_SPHERE && spec.piece.diameter == 0.2);
    load->form = fv_given(FV_FORM_SLAB);
    load->c = fv_given(0.05);
    load->a = load->b = fv_given(0.6);
    assert_int_equal(resolve(f, &spec), FV_OK);
    assert_true(spec.piece.shape == HEATUP_BODY_SLAB && fabs(spec.piece.area - 0.36) < 1e-12);
    load->area = fv_given(0.5);
    assert_int_equal(resolve(f, &spec), FV_OK);
    assert_true(fabs(spec.piece.area - 0.5) < 1e-12);
    load->form = fv_given(FV_FORM_BED);
    load->depth = fv_given(0.8);
    load->area = fv_given(1.25);
    assert_int_equal(resolve(f, &spec), FV_OK);
    heatup_bed *bed = heatup_bed_new(&spec.loose);
    assert_true(spec.bed && bed && spec.pieces == 1 && spec.loose.mass == 300);
    heatup_bed_free(bed);
}

/* Packed: the stack is the body, and it takes several times as long. */
static void test_packed(void **state)
{
    fixture *f = *state;
    heatup_load_spec spec;
    make_blocks(f->load);
    f->load->mass = fv_given(460);
    f->load->density = fv_given(680);
    double hours[2];
    for (int packed = 0; packed < 2; packed++) {
        f->load->packing = fv_given(packed ? FV_PACKING_PACKED : FV_PACKING_LOOSE);
        f->load->stack_a = f->load->stack_b = f->load->stack_c = fv_given(0.40);
        assert_int_equal(resolve(f, &spec), FV_OK);
        heatup_body *body = heatup_body_new(&spec.piece);
        assert_non_null(body);
        check_dev(packed ? "stacks x mass of one, kg" : "pieces x mass of one, kg", 460,
                  spec.pieces * heatup_body_mass(body), 1e-12, "identity");
        double t = 0;
        while (heatup_body_core(body) < KELVIN + 95) {
            assert_int_equal(heatup_body_advance(body, 60, KELVIN + 100, KELVIN + 100, true), FV_OK);
            t += 60;
        }
        hours[packed] = t / 3600;
        heatup_body_free(body);
    }
    assert_true(fabs(spec.piece.a - 0.40) < 1e-15);
    check_between("2.3 kg bag of sawdust, all by default, steam at once: hours to 95 degC", 4, 8, hours[0],
                  "common practice, no source: loose bags 4 to 8 h");
    check_between("40 cm tight stack of them: hours to 95 degC", 24, 60, hours[1],
                  "common practice, no source: over 24 h");
    check_between("stack over block", 2, 10, hours[1] / hours[0],
                  "Simpson, Wang & Verrill, FPL-RP-607 (2003): 2 to 10 times");
}

/* s until the middle is at `to`, in steam at 100 degC. */
static double heats(const heatup_body_spec *spec, double to)
{
    double t = 0;
    heatup_body *body = heatup_body_new(spec);
    assert_non_null(body);
    for (; heatup_body_core(body) < to; t += 30)
        assert_int_equal(heatup_body_advance(body, 30, KELVIN + 100, KELVIN + 100, true), FV_OK);
    heatup_body_free(body);
    return t;
}

/* A brick that conducts less along one side: against the products of series, and, with a fixed surface, against a brick
 * that is longer there by the root of it, frozen or not. */
static void test_rows(void **state)
{
    fixture *f = *state;
    heatup_load_spec spec;
    steady_piece piece;
    make_blocks(f->load);
    f->load->mass = fv_given(460);
    f->load->density = fv_given(680);
    f->load->packing = fv_given(FV_PACKING_ROWS);
    f->load->of = "5 x 2 x 3";
    f->load->contact = fv_given(15);
    assert_int_equal(resolve(f, &spec), FV_OK);
    assert_true(spec.piece.along[0] < 0.9 && spec.piece.along[1] == 1 && spec.piece.along[2] < 1);
    assert_int_equal(steady_piece_of(f->load, 460, KELVIN + 15, KELVIN + 95, &piece), FV_OK);
    check_dev("brick of rows to 95 degC, s", steady_piece_time(f->load, &piece, KELVIN + 15, KELVIN + 100, KELVIN + 95),
              heats(&spec.piece, KELVIN + 95), 1e-3, "products of series (Newman 1936)");
    for (int frozen = 0; frozen < 2; frozen++) {
        heatup_body_spec one = spec.piece;
        one.a = one.b = one.c = 0.2;
        one.along[0] = one.along[1] = 1;
        one.along[2] = 0.5;
        one.h_condensing = (double)INFINITY;
        one.t_start = KELVIN + (frozen ? -10 : 10);
        heatup_body_spec longer = one;
        longer.along[2] = 1;
        longer.c = 0.2 * sqrt(2);
        check_dev(frozen ? "frozen brick, half the conductivity along one side, s" : "the same from 10 degC, s",
                  heats(&longer, KELVIN + 95), heats(&one, KELVIN + 95), 6e-3, "similarity: x / sqrt(k)");
    }
}

static void test_ice(void **state)
{
    fixture *f = *state;
    heatup_load_spec spec;
    make_blocks(f->load);
    f->load->mass = fv_given(460);
    f->load->start_temperature = fv_given(KELVIN - 10);
    assert_int_equal(resolve(f, &spec), FV_OK);
    assert_true(spec.piece.specific_heat_frozen < spec.piece.specific_heat);
    assert_true(spec.piece.conductivity_frozen > spec.piece.conductivity);
    heatup_body *body = heatup_body_new(&spec.piece);
    assert_true(body && !heatup_body_is_linear(body));
    for (int i = 0; i < 200; i++)
        assert_int_equal(heatup_body_advance(body, 1200, KELVIN + 95, KELVIN + 95, true), FV_OK);
    fv_vessel vessel = *f->plant->vessels[0];
    vessel.load = *f->load;
    vessel.target = fv_given(KELVIN + 95);
    vessel.within = fv_given(3600);
    f->plant->site.air = fv_given(KELVIN + 15);
    const fv_sat *sat = fv_sat_line();
    fv_vessel_need need;
    assert_int_not_equal(fv_vessel_need_of(f->plant, &vessel, sat, &need, f->faults), FV_FAIL);
    check_dev("frozen load to the target: heat by cells against what a vessel needs, J", need.load,
              spec.pieces * heatup_body_heat(body), 1e-9, "fv_vessel_need_of");
    heatup_body_free(body);
}

static void test_refuses(void **state)
{
    fixture *f = *state;
    heatup_load_spec spec;
    f->load->mass = fv_given(460); // a block without sides
    assert_int_equal(resolve(f, &spec), FV_FAIL);
    assert_int_equal(fv_faults_errors(f->faults), 1);
    assert_non_null(strstr(fv_faults_at(f->faults, 0)->text, "bin1"));
    make_blocks(f->load);
    f->load->moisture = fv_given(0.94); // more water than fits
    f->load->density = fv_given(1500);
    assert_int_equal(resolve(f, &spec), FV_DOUBTFUL);
    assert_int_equal(fv_faults_count(f->faults), 2);
    f->load->moisture = fv_given(1.5);
    assert_int_equal(resolve(f, &spec), FV_FAIL);
    assert_int_equal(fv_faults_errors(f->faults), 2);
}

/* What is left for the gas: packed or loose, closed pieces take what they measure; a bed is open to its pores. */
static void test_solid(void **state)
{
    fixture *f = *state;
    heatup_load_spec spec;
    make_blocks(f->load);
    f->load->count = fv_given(200);
    f->load->density = fv_given(680);
    for (int packed = 0; packed < 2; packed++) {
        f->load->packing = fv_given(packed ? FV_PACKING_PACKED : FV_PACKING_LOOSE);
        f->load->stack_a = f->load->stack_b = f->load->stack_c = fv_given(0.5);
        assert_int_equal(resolve(f, &spec), FV_OK);
        check_dev("200 blocks of 13 x 13 x 20 cm, m3 without gas", 200 * 0.13 * 0.13 * 0.20, spec.solid, 1e-12, "size");
    }
    f->load->form = fv_given(FV_FORM_BED);
    f->load->count = (fv_value){.v = NAN};
    f->load->area = fv_given(2);
    f->load->depth = fv_given(0.5);
    f->load->medium = fv_given(FV_MEDIUM_SOIL);
    f->load->moisture = fv_given(0.2);
    f->load->density = fv_given(1250);
    assert_int_not_equal(resolve(f, &spec), FV_FAIL);
    /* 1000 kg of minerals at 2650 kg/m3, 250 kg of water at 998 */
    check_dev("1 m3 of soil at 1250 kg/m3 and 20 %, m3 without gas", 1000 / 2650.0 + 250 / 998.0, spec.solid, 1e-9,
              "densities of minerals and water");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_counts, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_properties, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_forms, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_packed, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_rows, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_solid, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_ice, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_refuses, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
