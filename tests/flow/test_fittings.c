/* SPDX-License-Identifier: MIT */
#include "farvessel/flow.h"
#include "flow/check.h"

#define INCH 0.0254

static void change_of_bore(void **state)
{
    (void)state;
    double k;
    assert_int_equal(fv_flow_contraction(0.0, &k), FV_OK);
    check_dev("flush sharp entrance", 0.5, k, 1e-15, "Crane TP-410, from memory");
    check_dev("sharp entrance", 0.505, k, 0.011, "Unwin, Encyclopaedia Britannica (1911)");
    fv_flow_enlargement(0.0, &k);
    check_dev("exit", 1.0, k, 1e-15, "Crane TP-410");
    fv_flow_contraction(1.0, &k);
    assert_true(k == 0.0);
    fv_flow_enlargement(1.0, &k);
    assert_true(k == 0.0);
    assert_int_equal(fv_flow_contraction(1.01, &k), FV_FAIL);
    assert_int_equal(fv_flow_enlargement(-0.01, &k), FV_FAIL);
    assert_int_equal(fv_flow_contraction((double)NAN, &k), FV_FAIL);
}

/* A diaphragm is the enlargement from its contracted jet to the tube: zeta = K(cc m)/(cc m)^2. */
static void weisbach_diaphragm(void **state)
{
    (void)state;
    const char *source = "Weisbach's table in Unwin, Encyclopaedia Britannica (1911)";
    // 0.5 is printed with .617, which does not give its own zeta: .607 does. The last row is 4 % off its own rule.
    static const double rows[][4] = {{0.1, .616, 231.7, 0.006}, {0.2, .614, 50.99, 0.006}, {0.3, .612, 19.78, 0.006},
                                     {0.4, .610, 9.612, 0.006}, {0.5, .607, 5.256, 0.006}, {0.6, .605, 3.077, 0.006},
                                     {0.7, .603, 1.876, 0.006}, {0.8, .601, 1.169, 0.006}, {0.9, .598, 0.734, 0.006},
                                     {1.0, .596, 0.480, 0.05}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char what[64];
        double k;
        double jet = rows[i][0] * rows[i][1];
        assert_int_equal(fv_flow_enlargement(jet, &k), FV_OK);
        snprintf(what, sizeof what, "diaphragm of area ratio %.1f, zeta", rows[i][0]);
        check_dev(what, rows[i][2], k / (jet * jet), rows[i][3], source);
        assert_int_equal(fv_flow_diaphragm(rows[i][0], &k), FV_OK);
        if (i < 9)
            check_dev(what, rows[i][2], k, 0.015, source);
    }
    double k;
    assert_int_equal(fv_flow_diaphragm(0, &k), FV_FAIL);
    assert_int_equal(fv_flow_diaphragm(1.01, &k), FV_FAIL);
}

static void short_bore(void **state)
{
    (void)state;
    double k;
    // area ratio 1/4: (0.5 3/4 + 0.03 2 + 9/16) 16, by hand
    assert_int_equal(fv_flow_short_bore(0.01, 0.02, 0.02, 0.03, &k), FV_OK);
    check_dev("short bore of half the diameter, two diameters long", 15.96, k, 1e-14, "by hand");
    // at the line's own bore only friction is left
    assert_int_equal(fv_flow_short_bore(0.02, 0.04, 0.02, 0.03, &k), FV_OK);
    assert_true(fabs(k - 0.06) < 1e-15);
    assert_int_equal(fv_flow_short_bore(0.01, 0.005, 0.02, 0.03, &k), FV_DOUBTFUL);
    // wider than the line, area ratio 1/4: 9/16 + 0.03 (0.08/0.04)/16 + 0.5 3/4, by hand
    assert_int_equal(fv_flow_short_bore(0.04, 0.08, 0.02, 0.03, &k), FV_OK);
    check_dev("short bore of twice the diameter, two diameters long", 0.94125, k, 1e-14, "by hand");
    double narrower, wider; // nothing jumps where the line's own bore is passed
    fv_flow_short_bore(0.02 * (1 - 1e-9), 0.04, 0.02, 0.03, &narrower);
    fv_flow_short_bore(0.02 * (1 + 1e-9), 0.04, 0.02, 0.03, &wider);
    assert_true(fabs(narrower - 0.06) < 1e-8 && fabs(wider - 0.06) < 1e-8);
    assert_int_equal(fv_flow_short_bore(0.0, 0.02, 0.02, 0.03, &k), FV_FAIL);
    assert_int_equal(fv_flow_short_bore(0.01, -0.02, 0.02, 0.03, &k), FV_FAIL);
    assert_int_equal(fv_flow_short_bore(0.01, 0.02, 0.02, -0.03, &k), FV_FAIL);
    assert_int_equal(fv_flow_short_bore(0.01, 0.02, (double)INFINITY, 0.03, &k), FV_FAIL);
}

static void flow_coefficient(void **state)
{
    (void)state;
    double k;
    assert_int_equal(fv_flow_k_from_kv(40.0, 0.05, &k), FV_OK);
    // the definition, backwards: 1 bar of water through this K must be 40 m3/h
    double q = 0.25 * PI * 0.05 * 0.05 * sqrt(2.0 * 1e5 / (1000.0 * k)) * 3600.0;
    check_dev("Kv 40 on 50 mm, flow at 1 bar, m3/h", 40.0, q, 1e-14, "definition of Kv");
    check_dev("Kv 40 on 50 mm, K", 0.0016 * pow(50.0, 4.0) / 1600.0, k, 1e-3, "IEC 60534 constant 0.0016, from memory");
    check_dev("Kv of Cv 1", 0.865, fv_flow_kv_from_cv(1.0), 1e-4, "IEC 60534-1, from memory");
    // Cv = 29.84 d^2/sqrt(K), d in inches
    fv_flow_k_from_kv(fv_flow_kv_from_cv(29.84 * 4.0 / sqrt(6.46)), 2.0 * INCH, &k);
    check_dev("K 6.46 on 2 in through Cv", 6.46, k, 0.005, "Crane TP-410, Cv = 29.84 d^2/sqrt K, from memory");
    assert_int_equal(fv_flow_k_from_kv(0.0, 0.05, &k), FV_FAIL);
    assert_int_equal(fv_flow_k_from_kv(1.0, 0.0, &k), FV_FAIL);
    assert_int_equal(fv_flow_k_from_kv((double)NAN, 0.05, &k), FV_FAIL);
}

static void valve_curves(void **state)
{
    (void)state;
    static const fv_valve_curve curves[] = {FV_VALVE_LINEAR, FV_VALVE_EQUAL_PERCENT, FV_VALVE_QUICK, FV_VALVE_BALL};
    double share;
    for (size_t i = 0; i < sizeof curves / sizeof *curves; i++) {
        double before = 0.0;
        assert_int_equal(fv_flow_valve_opening(curves[i], 0.0, &share), FV_OK);
        assert_true(share == 0.0);
        for (int step = 1; step <= 1000; step++) {
            assert_int_equal(fv_flow_valve_opening(curves[i], step / 1000.0, &share), FV_OK);
            assert_true(share > before);
            // no jump: sqrt, the steepest, makes 0.0317 in its first step
            assert_true(share - before < 0.032);
            before = share;
        }
        assert_true(share == 1.0);
        assert_int_equal(fv_flow_valve_opening(curves[i], 1.001, &share), FV_FAIL);
        assert_int_equal(fv_flow_valve_opening(curves[i], -0.001, &share), FV_FAIL);
        assert_int_equal(fv_flow_valve_opening(curves[i], (double)NAN, &share), FV_FAIL);
    }
    assert_int_equal(fv_flow_valve_opening((fv_valve_curve)17, 0.5, &share), FV_FAIL);
    fv_flow_valve_opening(FV_VALVE_LINEAR, 0.25, &share);
    assert_true(share == 0.25);
    fv_flow_valve_opening(FV_VALVE_QUICK, 0.25, &share);
    assert_true(share == 0.5);
    fv_flow_valve_opening(FV_VALVE_BALL, 0.25, &share);
    assert_true(share == 0.03125);
    fv_flow_valve_opening(FV_VALVE_EQUAL_PERCENT, 0.5, &share);
    check_dev("equal percent, half open", 1.0 / sqrt(50.0), share, 1e-14, "R^(y - 1), R = 50");
}

static void carried_water(void **state)
{
    (void)state;
    double phi2;
    assert_int_equal(fv_flow_two_phase(1.0, 0.6, 958.0, 12e-6, 280e-6, &phi2), FV_OK);
    assert_true(phi2 == 1.0);
    // X = 1 makes phi^2 = 22, with equal phases at quality 1/2
    assert_int_equal(fv_flow_two_phase(0.5, 1.0, 1.0, 1e-5, 1e-5, &phi2), FV_OK);
    check_dev("phi_g^2 at X = 1", 22.0, phi2, 1e-15, "Chisholm (1967), C = 20, from memory");
    // powers of two: X = (1/1024)^0.9 (1/4)^0.5 1024^0.1 = 1/512
    assert_int_equal(fv_flow_two_phase(1024.0 / 1025.0, 1.0, 4.0, 1e-5, 1024e-5, &phi2), FV_OK);
    check_dev("phi_g^2 at X = 1/512", 1.0 + 20.0 / 512.0 + 1.0 / 262144.0, phi2, 1e-13, "by hand");
    double before = 1.0;
    for (int i = 99; i > 10; i--) {
        assert_int_equal(fv_flow_two_phase(i / 100.0, 0.6, 958.0, 12e-6, 280e-6, &phi2), FV_OK);
        assert_true(phi2 > before);
        before = phi2;
    }
    assert_int_equal(fv_flow_two_phase(0.05, 0.6, 958.0, 12e-6, 280e-6, &phi2), FV_DOUBTFUL);
    assert_int_equal(fv_flow_two_phase(0.0, 0.6, 958.0, 12e-6, 280e-6, &phi2), FV_FAIL);
    assert_int_equal(fv_flow_two_phase(1.01, 0.6, 958.0, 12e-6, 280e-6, &phi2), FV_FAIL);
    assert_int_equal(fv_flow_two_phase(0.9, 0.0, 958.0, 12e-6, 280e-6, &phi2), FV_FAIL);
    assert_int_equal(fv_flow_two_phase(0.9, 0.6, 958.0, 12e-6, (double)NAN, &phi2), FV_FAIL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(change_of_bore),   cmocka_unit_test(weisbach_diaphragm), cmocka_unit_test(short_bore),
        cmocka_unit_test(flow_coefficient), cmocka_unit_test(valve_curves),       cmocka_unit_test(carried_water),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
