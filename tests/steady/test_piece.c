/* SPDX-License-Identifier: MIT */
/* What a load is wrapped in and how it is packed: coefficients of bags, bricks of rows against contacts one by one, and
 * the refusal of a silent packing. */
#include "checks.h"
#include "farvessel/heat.h"
#include "steady/packing_check.h"
#include "steady/piece.h"

typedef struct {
    fv_plant *plant;
    fv_faults *faults;
    fv_vessel *vessel;
} bench;

/* Bags of 2.3 kg, 13 x 13 x 20 cm, in 1 m3: density 680 kg/m3. */
static bench open_bench(double count)
{
    const fv_loc here = {"plant.xml", 3};
    bench b = {.plant = fv_plant_new("plant.xml"), .faults = fv_faults_new()};
    assert_true(b.plant && b.faults);
    b.plant->site.pressure = fv_given(101325);
    b.plant->site.air = fv_given(KELVIN + 20);
    fv_boiler *boiler = fv_plant_add_boiler(b.plant, "boiler", here);
    boiler->at = "b0";
    boiler->output = fv_given(12000);
    boiler->relief = fv_given(50000);
    fv_line *hose = fv_plant_add_line(b.plant, FV_LINE_HOSE, "hose", here);
    hose->from = "b0";
    hose->to = "c1";
    hose->length = fv_given(2);
    hose->bore = fv_given(0.02);
    b.vessel = fv_plant_add_vessel(b.plant, "bin1", false, here);
    b.vessel->at = "c1";
    b.vessel->volume = fv_given(1);
    b.vessel->coil.bore = fv_given(0.027);
    b.vessel->coil.length = fv_given(1.5);
    b.vessel->coil.holes = fv_given(24);
    b.vessel->coil.drill = fv_given(0.004);
    b.vessel->load.a = b.vessel->load.b = fv_given(0.13);
    b.vessel->load.c = fv_given(0.20);
    b.vessel->load.count = fv_given(count);
    b.vessel->load.mass = fv_given(count * 2.3);
    fv_vessel_add_opening(b.plant, b.vessel, FV_OPENING_DRAIN, here)->diameter = fv_given(0.03);
    return b;
}

static void close_bench(bench *b)
{
    fv_plant_free(b->plant);
    fv_faults_free(b->faults);
}

static steady_piece piece_of(bench *b)
{
    steady_piece piece;
    if (fv_plant_link(b->plant, b->faults) == FV_FAIL)
        fail_msg("%s", fv_faults_at(b->faults, 0)->text);
    assert_int_not_equal(
        steady_piece_of(&b->vessel->load, fv_load_mass(&b->vessel->load), KELVIN + 20, KELVIN + 95, &piece), FV_FAIL);
    return piece;
}

static const char *const GAP = "US Standard Atmosphere 1976 and grey faces, by hand";

/* At 55 degC: air 0.028386 W/m/K; radiation 4 sigma T^3/(2/0.9 - 1) = 6.558. */
static void gaps_by_hand(void **state)
{
    (void)state;
    const double t = KELVIN + 55;
    check_dev("air at 300 K, W/m/K", 0.02624, 0.001 * (fv_heat_film_gap(0.001, 1, 300) - 4 * 5.670374e-8 * 27e6), 3e-3,
              "Incropera & DeWitt, Table A.4: 0.0263, US Standard Atmosphere 1976 in between");
    check_dev("gap of 0.25 mm, W/m2/K", 120.1, fv_heat_film_gap(0.25e-3, 0.9, t), 1e-3, GAP);
    check_dev("a wide gap only radiates", 6.558, fv_heat_film_gap(1e9, 0.9, t), 1e-3, GAP);
    assert_true(isinf(fv_heat_film_gap(0, 0.9, t)) && isnan(fv_heat_film_gap(-1, 0.9, t)));
    assert_true(isnan(fv_heat_film_gap(0.001, 0, t)) && isnan(fv_heat_film_gap(0.001, 0.9, NAN)));
}

static void wraps(void **state)
{
    (void)state;
    static const double gaps[] = {0, 0.25e-3, 0.5e-3, 1e-3, 1.2e-3};
    static const double whole[] = {194, 75, 48, 30, 26};
    for (size_t i = 0; i < 5; i++) {
        bench b = open_bench(50);
        char what[60];
        b.vessel->load.film_gap = fv_given(gaps[i]);
        snprintf(what, sizeof what, "bag over %.2f mm of air, W/m2/K", 1000 * gaps[i]);
        check_dev(what, whole[i], piece_of(&b).h_condensing, 0.02, "an independent model, to two digits");
        close_bench(&b);
    }
    bench b = open_bench(50);
    assert_true(fv_word(b.vessel->load.wrap) == -1);
    check_dev("not said: a bag, W/m2/K", 74.4, piece_of(&b).h_condensing, 5e-3, GAP);
    assert_int_equal(b.vessel->load.wrap.origin, FV_ASSUMED);
    b.vessel->load.surface = fv_given(300); // alone, it is the whole
    steady_piece piece = piece_of(&b);
    assert_true(fabs(piece.h_condensing - 300) < 1e-9 && fabs(piece.h_cooling - 12) < 1e-9);
    assert_false(fv_is_set(b.vessel->load.film_gap));
    b.vessel->load.wrap = fv_given(FV_WRAP_BAG); // with a bag, outside of it
    check_dev("300 outside of a bag, W/m2/K", 1 / (1 / 300.0 + 1 / 6000.0 + 1 / 121.16), piece_of(&b).h_condensing,
              1e-3, GAP);
    b.vessel->load.wrap = fv_given(FV_WRAP_POT);
    b.vessel->load.surface = (fv_value){.v = (double)NAN};
    check_dev("pot of 1 mm, W/m2/K", 1 / (1 / 200.0 + 0.001 / 0.2), piece_of(&b).h_condensing, 1e-9, "by hand");
    b.vessel->load.wrap = fv_given(FV_WRAP_TRAY);
    check_dev("tray of 0.5 mm, W/m2/K", 1 / (1 / 200.0 + 0.0005 / 0.2), piece_of(&b).h_condensing, 1e-9, "by hand");
    b.vessel->load.wrap = fv_given(FV_WRAP_BARE);
    check_dev("bare, W/m2/K", 200, piece_of(&b).h_condensing, 1e-9, "common practice, no source");
    b.vessel->load.cooling_surface = fv_given(9);
    b.vessel->load.wrap = (fv_value){.v = (double)NAN}; // said alone, it is the whole, too
    piece = piece_of(&b);
    assert_true(piece.h_condensing < 80 && fabs(piece.h_cooling - 9) < 1e-9);
    close_bench(&b);
}

/* n slabs of thickness s that touch with a resistance, faces under h at 0, from 1: s until the middle is at `to`. */
static double middle_of_touching(int n, double s, double k, double rho_c, double h, double resistance, double to)
{
    enum { CELLS = 40, MOST = 400 };
    const int count = n * CELLS;
    const double dx = s / CELLS, dt = 0.2 * dx * dx * rho_c / k;
    double t[MOST], flow[MOST + 1];
    assert_true(count <= MOST);
    for (int i = 0; i < count; i++)
        t[i] = 1;
    for (double time = 0;; time += dt) {
        if (0.5 * (t[count / 2] + t[(count - 1) / 2]) <= to)
            return time;
        flow[0] = -t[0] / (1 / h + 0.5 * dx / k);
        flow[count] = t[count - 1] / (1 / h + 0.5 * dx / k);
        for (int i = 1; i < count; i++)
            flow[i] = (t[i - 1] - t[i]) / (dx / k + (i % CELLS == 0 ? resistance : 0));
        for (int i = 0; i < count; i++)
            t[i] += dt * (flow[i] - flow[i + 1]) / (rho_c * dx);
    }
}

/* A brick so long and wide that only its thickness counts. Contacts that heat crosses lie even over it where they are
 * even in number; of odd ones the innermost counts for a whole and hinders less: there the brick is late, at worst. */
static void rows_against_contacts(void **state)
{
    (void)state;
    static const int counts[] = {1, 2, 3, 5, 8};
    for (size_t i = 0; i < 5; i++)
        for (int bad = 0; bad < 2; bad++) {
            bench b = open_bench(50);
            char what[100], of[20];
            fv_load *load = &b.vessel->load;
            const double resistance = bad ? 0.046 : 0.0167; /* R k/s 0.11 and 0.04 */
            snprintf(of, sizeof of, "1 x 1 x %d", counts[i]);
            load->a = load->b = fv_given(30);
            b.vessel->volume = fv_given(1e4);
            load->count = fv_given(counts[i]);
            load->mass = fv_given(counts[i] * 30 * 30 * 0.13 * 680);
            load->c = fv_given(0.13);
            load->conductivity = fv_given(0.313);
            load->surface = fv_given(75);
            load->packing = fv_given(FV_PACKING_ROWS);
            load->of = of;
            load->contact = fv_given(1 / resistance);
            const steady_piece piece = piece_of(&b);
            const double rho_c = piece.density * piece.specific_heat, to = 5.0 / 80;
            const double one = middle_of_touching(counts[i], 0.13, 0.313, rho_c, 75, resistance, to);
            snprintf(what, sizeof what, "%d in a row, contacts %.2g m2 K/W, middle at 95 degC, s", counts[i],
                     resistance);
            const double brick = steady_piece_time(load, &piece, KELVIN + 20, KELVIN + 100, KELVIN + 95);
            check_dev(what, one, brick, counts[i] % 2 == 0 || counts[i] == 1 ? 0.003 : 0.03,
                      "contacts one by one, finite volumes");
            assert_true(brick > 0.999 * one);
            close_bench(&b);
        }
}

static void bricks(void **state)
{
    (void)state;
    for (int rows = 0; rows < 2; rows++) {
        bench b = open_bench(100);
        fv_load *load = &b.vessel->load;
        load->packing = fv_given(rows ? FV_PACKING_ROWS : FV_PACKING_LOOSE);
        load->of = rows ? "2 x 2 x 5" : NULL;
        load->conductivity = fv_given(0.313);
        const steady_piece piece = piece_of(&b);
        const double time = steady_piece_time(load, &piece, KELVIN + 20, KELVIN + 100, KELVIN + 95);
        check_dev(rows ? "2.3 kg bags in bricks of 2 x 2 x 5, h" : "2.3 kg bags, loose, h", rows ? 21.9 : 5.2,
                  time / 3600, 0.02, "an independent model");
        if (rows) {
            check_dev("brick, m3", 0.26 * 0.26 * 1.0, piece.volume, 1e-12, "by hand");
            assert_true(piece.along[0] == 1 && piece.along[1] == 1); // two to a side: heat crosses no contact
            check_dev("conductivity along five, over the medium's", 1 / (1 + 2 * 2 * (2 / 120.8) * 0.313 / 1.0),
                      piece.along[2], 1e-4, "by hand");
            load->wrap = fv_given(FV_WRAP_BARE);
            assert_true(piece_of(&b).along[2] == 1); // bare ones that touch are one mass
        }
        close_bench(&b);
    }
    bench b = open_bench(100);
    b.vessel->load.packing = fv_given(FV_PACKING_ROWS);
    b.vessel->load.of = "1 x 1 x 1";
    const steady_piece one = piece_of(&b);
    b.vessel->load.packing = fv_given(FV_PACKING_LOOSE);
    b.vessel->load.of = NULL;
    const steady_piece loose = piece_of(&b);
    assert_memory_equal(&one, &loose, sizeof one);
    close_bench(&b);
}

static void time_is_the_series(void **state)
{
    (void)state;
    bench b = open_bench(50);
    fv_load *load = &b.vessel->load;
    load->form = fv_given(FV_FORM_SPHERE);
    load->a = load->b = load->c = (fv_value){.v = (double)NAN};
    load->diameter = fv_given(0.15);
    load->surface = fv_given(1e5);
    steady_piece piece = piece_of(&b);
    const double alpha = piece.conductivity / (piece.density * piece.specific_heat), r = 0.075;
    /* one term: theta = 2 exp(-pi^2 Fo) at the centre of a sphere with a fixed surface */
    check_dev("sphere to 95 degC, s", log(2 * 80 / 5.0) / (PI * PI) * r * r / alpha,
              steady_piece_time(load, &piece, KELVIN + 20, KELVIN + 100, KELVIN + 95), 1e-3,
              "Carslaw & Jaeger (1959) 9.3, first term");
    assert_true(isinf(steady_piece_time(load, &piece, KELVIN + 20, KELVIN + 94, KELVIN + 95)));
    assert_true(steady_piece_time(load, &piece, KELVIN + 20, KELVIN + 100, KELVIN + 20) == 0);
    close_bench(&b);
}

static void packing_must_be_said(void **state)
{
    (void)state;
    for (int i = 0; i < 4; i++) {
        bench b = open_bench(i == 0 ? 118 : 120); /* 0.399 and 0.406 of 1 m3 */
        if (i == 2)
            b.vessel->load.packing = fv_given(FV_PACKING_LOOSE);
        if (i == 3)
            b.vessel->load.of = "2 x 2 x 5";
        if (i == 3)
            b.vessel->load.packing = fv_given(FV_PACKING_ROWS);
        piece_of(&b);
        const fv_status status = fv_packing_check(b.plant, NULL, b.faults);
        assert_int_equal(status, i == 1 ? FV_FAIL : FV_OK);
        assert_int_equal(fv_steady_remarks(b.plant, NULL, NULL), status); /* programs are refused, too */
        assert_int_equal(fv_faults_errors(b.faults), i == 1);
        if (i == 1) {
            const char *text = fv_faults_at(b.faults, fv_faults_count(b.faults) - 1)->text;
            assert_non_null(strstr(text, "41 %"));
            assert_non_null(strstr(text, "packing=\"loose\""));
            assert_non_null(strstr(text, "of=\"1 x 1 x 2\""));
            assert_non_null(strstr(text, "of=\"2 x 2 x 5\" 2"));
            assert_non_null(strstr(text, "packing=\"packed\""));
        }
        close_bench(&b);
    }
}

static void bad_contacts_are_told(void **state)
{
    (void)state;
    for (int bad = 0; bad < 2; bad++) {
        bench b = open_bench(100);
        b.vessel->load.packing = fv_given(FV_PACKING_ROWS);
        b.vessel->load.of = "1 x 1 x 5";
        b.vessel->load.conductivity = fv_given(0.3);
        b.vessel->load.contact = fv_given(1 / (bad ? 0.09 : 0.07)); /* R k/s 0.135 and 0.105 */
        piece_of(&b);
        const size_t before = fv_faults_count(b.faults);
        steady_check_rows(b.plant, b.faults);
        assert_int_equal(fv_faults_count(b.faults) - before, (size_t)bad);
        close_bench(&b);
    }
}

/* Water boils at 99.97 degC here (IAPWS-IF97): over what LDPE bears, under what HDPE does. */
static void overheating_is_told(void **state)
{
    (void)state;
    static const double films[] = {FV_FILM_LDPE, FV_FILM_HDPE, FV_FILM_PP}, limits[] = {82, 99, 101};
    for (int i = 0; i < 3; i++) {
        bench b = open_bench(100);
        b.vessel->load.bag = fv_given(films[i]);
        b.vessel->at_most = fv_given(KELVIN + limits[i]);
        piece_of(&b);
        size_t bags = 0, most = 0;
        fv_steady_check(b.plant, fv_sat_line(), b.faults);
        for (size_t k = 0; k < fv_faults_count(b.faults); k++) {
            bags += strstr(fv_faults_at(b.faults, k)->text, "bags of LDPE soften from 80 degC") != NULL;
            most += strstr(fv_faults_at(b.faults, k)->text, "no part of its load should pass") != NULL;
        }
        assert_int_equal(bags, i == 0);
        assert_int_equal(most, i < 2);
        close_bench(&b);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(gaps_by_hand),          cmocka_unit_test(wraps),
        cmocka_unit_test(rows_against_contacts), cmocka_unit_test(bricks),
        cmocka_unit_test(time_is_the_series),    cmocka_unit_test(packing_must_be_said),
        cmocka_unit_test(overheating_is_told),   cmocka_unit_test(bad_contacts_are_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
