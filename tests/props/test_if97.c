/* SPDX-License-Identifier: MIT */
/* The verification tables of IAPWS R7-97(2012), and what happens outside the ranges. */
#include "farvessel/props.h"
#include "props/line.h"
#include "props_check.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

typedef fv_status equation(double p, double t, fv_if97_state *out);

typedef struct {
    double t, p;                        /* K, Pa */
    const char *v, *h, *u, *s, *cp, *w; /* m3/kg, kJ/kg, kJ/kg, kJ/kg/K, kJ/kg/K, m/s, as printed */
} row;

static void check_table(const char *name, equation *region, const row *rows, size_t count)
{
    bool good = true;
    char source[64], label[96];
    snprintf(source, sizeof source, "IAPWS R7-97(2012) %s", name);
    for (size_t k = 0; k < count; k++) {
        fv_if97_state s;
        assert_int_equal(region(rows[k].p, rows[k].t, &s), FV_OK);
        const struct {
            const char *what, *printed;
            double got;
        } values[] = {{"v", rows[k].v, s.v},       {"h", rows[k].h, s.h / 1e3},    {"u", rows[k].u, s.u / 1e3},
                      {"s", rows[k].s, s.s / 1e3}, {"cp", rows[k].cp, s.cp / 1e3}, {"w", rows[k].w, s.w}};
        for (size_t q = 0; q < sizeof values / sizeof values[0]; q++) {
            snprintf(label, sizeof label, "%s %s(%g K, %g MPa)", name, values[q].what, rows[k].t, rows[k].p / 1e6);
            good = agrees_as_printed(label, values[q].printed, values[q].got, source) && good;
        }
    }
    assert_true(good);
}

static void table_5(void **state)
{
    (void)state;
    static const row rows[] = {
        {300, 3e6, "0.100215168e-2", "0.115331273e3", "0.112324818e3", "0.392294792", "0.417301218e1", "0.150773921e4"},
        {300, 80e6, "0.971180894e-3", "0.184142828e3", "0.106448356e3", "0.368563852", "0.401008987e1",
         "0.163469054e4"},
        {500, 3e6, "0.120241800e-2", "0.975542239e3", "0.971934985e3", "0.258041912e1", "0.465580682e1",
         "0.124071337e4"},
    };
    check_table("Table 5", fv_if97_region1, rows, 3);
}

static void table_15(void **state)
{
    (void)state;
    static const row rows[] = {
        {300, 3500, "0.394913866e2", "0.254991145e4", "0.241169160e4", "0.852238967e1", "0.191300162e1",
         "0.427920172e3"},
        {700, 3500, "0.923015898e2", "0.333568375e4", "0.301262819e4", "0.101749996e2", "0.208141274e1",
         "0.644289068e3"},
        {700, 30e6, "0.542946619e-2", "0.263149474e4", "0.246861076e4", "0.517540298e1", "0.103505092e2",
         "0.480386523e3"},
    };
    check_table("Table 15", fv_if97_region2, rows, 3);
}

static void table_18(void **state)
{
    (void)state;
    static const row rows[] = {
        {450, 1e6, "0.192516540", "0.276881115e4", "0.257629461e4", "0.656660377e1", "0.276349265e1", "0.498408101e3"},
        {440, 1e6, "0.186212297", "0.274015123e4", "0.255393894e4", "0.650218759e1", "0.298166443e1", "0.489363295e3"},
        {450, 1.5e6, "0.121685206", "0.272134539e4", "0.253881758e4", "0.629170440e1", "0.362795578e1",
         "0.481941819e3"},
    };
    check_table("Table 18", fv_if97_region2_metastable, rows, 3);
}

static void tables_35_and_36(void **state)
{
    (void)state;
    static const struct {
        double t;
        const char *p;
    } forward[] = {{300, "0.353658941e-2"}, {500, "0.263889776e1"}, {600, "0.123443146e2"}};
    static const struct {
        double p;
        const char *t;
    } backward[] = {{0.1e6, "0.372755919e3"}, {1e6, "0.453035632e3"}, {10e6, "0.584149488e3"}};
    bool good = true;
    char label[64];
    for (size_t k = 0; k < 3; k++) {
        double p, t;
        assert_int_equal(fv_if97_saturation_pressure(forward[k].t, &p), FV_OK);
        snprintf(label, sizeof label, "Table 35 ps(%g K)", forward[k].t);
        good = agrees_as_printed(label, forward[k].p, p / 1e6, "IAPWS R7-97(2012) Table 35") && good;
        assert_int_equal(fv_if97_saturation_temperature(backward[k].p, &t), FV_OK);
        snprintf(label, sizeof label, "Table 36 Ts(%g MPa)", backward[k].p / 1e6);
        good = agrees_as_printed(label, backward[k].t, t, "IAPWS R7-97(2012) Table 36") && good;
    }
    assert_true(good);
}

/* One atmosphere, from the reference file's spot value: 99.97430 degC, h_fg 2256.5407 kJ/kg (computed with the
 * python package iapws). */
static void one_atmosphere(void **state)
{
    (void)state;
    double t;
    fv_if97_state water, steam;
    assert_int_equal(fv_if97_saturation_temperature(101325, &t), FV_OK);
    assert_int_equal(fv_if97_region1(101325, t, &water), FV_OK);
    assert_int_equal(fv_if97_region2(101325, t, &steam), FV_OK);
    assert_true(agrees_as_printed("Ts(1 atm), degC", "99.97430", t - 273.15, "python3-iapws"));
    assert_true(agrees_as_printed("h_fg(1 atm)", "2256.5407", (steam.h - water.h) / 1e3, "python3-iapws"));
}

static void both_directions_undo_each_other(void **state)
{
    (void)state;
    double worst = 0, worst_slope = 0;
    for (double t = 273.16; t < 640; t += 0.37) {
        double p, back, low, high;
        assert_int_equal(fv_if97_saturation_pressure(t, &p), FV_OK);
        assert_int_equal(fv_if97_saturation_temperature(p, &back), FV_OK);
        worst = fmax(worst, relative(back, t));
        double step = 1e-4 * p;
        assert_int_equal(fv_if97_saturation_temperature(p - step, &low), FV_OK);
        assert_int_equal(fv_if97_saturation_temperature(p + step, &high), FV_OK);
        worst_slope = fmax(worst_slope, relative(props_line_slope(p, t), (high - low) / (2 * step)));
    }
    printf("check | Ts(ps(T)) against T | largest dev %.1e | the two directions solve one equation\n", worst);
    printf("check | slope of the line against a difference | largest dev %.1e | own derivation\n", worst_slope);
    assert_true(worst < 1e-13);
    assert_true(worst_slope < 1e-7);
}

static void outside_the_range(void **state)
{
    (void)state;
    fv_if97_state s;
    double x;
    equation *const all[] = {fv_if97_region1, fv_if97_region2, fv_if97_region2_metastable};
    for (int k = 0; k < 3; k++) {
        assert_int_equal(all[k](NAN, 400, &s), FV_FAIL);
        assert_int_equal(all[k](1e5, INFINITY, &s), FV_FAIL);
        assert_int_equal(all[k](-1e5, 400, &s), FV_FAIL);
        assert_int_equal(all[k](0, 400, &s), FV_FAIL);
        assert_int_equal(all[k](1e5, 0, &s), FV_FAIL);
    }
    assert_int_equal(fv_if97_region1(1e5, 380, &s), FV_DOUBTFUL); // superheated water
    assert_int_equal(fv_if97_region1(1e5, 272, &s), FV_DOUBTFUL);
    assert_int_equal(fv_if97_region1(110e6, 400, &s), FV_DOUBTFUL);
    assert_int_equal(fv_if97_region1(30e6, 640, &s), FV_DOUBTFUL);
    assert_int_equal(fv_if97_region2(2e5, 380, &s), FV_DOUBTFUL);  // supercooled steam
    assert_int_equal(fv_if97_region2(20e6, 645, &s), FV_DOUBTFUL); // region 3
    assert_int_equal(fv_if97_region2(30.4e6, 700, &s), FV_OK);     // its boundary is at 30.48 MPa
    assert_int_equal(fv_if97_region2(30.6e6, 700, &s), FV_DOUBTFUL);
    assert_int_equal(fv_if97_region2(1e6, 1100, &s), FV_DOUBTFUL);
    assert_int_equal(fv_if97_region2(1e6, 900, &s), FV_OK);
    assert_int_equal(fv_if97_region2_metastable(1e6, 460, &s), FV_DOUBTFUL); // superheated
    assert_int_equal(fv_if97_region2_metastable(1e6, 400, &s), FV_DOUBTFUL); // wetter than 5 %
    assert_int_equal(fv_if97_region2_metastable(12e6, 590, &s), FV_DOUBTFUL);
    assert_int_equal(fv_if97_saturation_pressure(270, &x), FV_DOUBTFUL);
    assert_int_equal(fv_if97_saturation_pressure(NAN, &x), FV_FAIL);
    assert_int_equal(fv_if97_saturation_pressure(-3, &x), FV_FAIL);
    assert_int_equal(fv_if97_saturation_temperature(500, &x), FV_DOUBTFUL);
    assert_int_equal(fv_if97_saturation_temperature(0, &x), FV_FAIL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(table_5),           cmocka_unit_test(table_15),
        cmocka_unit_test(table_18),          cmocka_unit_test(tables_35_and_36),
        cmocka_unit_test(one_atmosphere),    cmocka_unit_test(both_directions_undo_each_other),
        cmocka_unit_test(outside_the_range),
    };
    return cmocka_run_group_tests_name("if97", tests, NULL, NULL);
}
