/* SPDX-License-Identifier: MIT */
/* One large opening: what passes it both ways at once. */
#include "farvessel/constants.h"
#include "farvessel/flow.h"
#include "flow/check.h"

/* Steam at 100 degC in a chamber, air at 15 degC outside: kg/m3 (IAPWS-IF97; ideal gas). */
static const double RHO_STEAM = 0.5977, RHO_AIR = 1.225;

static double steam_per_hour(double per_root)
{
    return 3600 * RHO_STEAM * per_root * sqrt(2 * (RHO_AIR - RHO_STEAM) / (RHO_AIR + RHO_STEAM));
}

static void level_openings(void **state)
{
    (void)state;
    double at_100, at_400, thick;
    assert_int_equal(fv_flow_exchange_level(0.1, 0.003, &at_100), FV_OK);
    check_off("hole of 100 mm in a lid of 3 mm, kg/h of steam", 1.0, steam_per_hour(at_100), 0.06,
              "Epstein 1988 by hand: F 0.0551, (g D^5)^0.5 9.90e-3 m3/s, density ratio 0.69");
    assert_int_equal(fv_flow_exchange_level(0.4, 0.012, &at_400), FV_OK);
    check_dev("the same shape, four times as wide", 32, at_400 / at_100, 1e-12, "D^2.5");
    assert_int_equal(fv_flow_exchange_level(1e-3, 3e-5, &thick), FV_OK);
    assert_true(thick < 1e-5 * at_100 * 1.01);
    /* a longer throat first helps: the two streams stay apart, at l = 1 by hand 0.055 x 401^(1/6) / (1 + 0.00527 x
     * 401^0.5 x 118^0.75)^(1/3) */
    assert_int_equal(fv_flow_exchange_level(0.1, 0.1, &thick), FV_OK);
    const double by_hand = 0.055 * pow(401, 1.0 / 6) / cbrt(1 + 0.00527 * sqrt(401) * pow(118, 0.75));
    check_dev("F at a thickness of one diameter", by_hand, thick / sqrt(FV_GRAVITY * 1e-5), 1e-12, "Epstein by hand");
    assert_int_equal(fv_flow_exchange_level(0.5, 0.001, &thick), FV_DOUBTFUL);
    assert_int_equal(fv_flow_exchange_level(0, 0.003, &thick), FV_FAIL);
    assert_int_equal(fv_flow_exchange_level(0.1, 0, &thick), FV_FAIL);
    assert_int_equal(fv_flow_exchange_level(0.1, 0.003, NULL), FV_FAIL);
}

static void upright_openings(void **state)
{
    (void)state;
    double q;
    assert_int_equal(fv_flow_exchange_upright(0.02, 0.2, &q), FV_OK);
    check_dev("window of 10 x 20 cm, m3/s at a density ratio of one", 0.2 * 0.02 * sqrt(9.80665 * 0.2), q, 1e-9,
              "Brown & Solvason 1962: Cd/3 A (g H)^0.5, Cd 0.6");
    assert_int_equal(fv_flow_exchange_upright(0, 0.2, &q), FV_FAIL);
    assert_int_equal(fv_flow_exchange_upright(0.02, -1, &q), FV_FAIL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(level_openings),
        cmocka_unit_test(upright_openings),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
