/* SPDX-License-Identifier: MIT */
/* What has no meaning is refused, by every property: FV_FAIL, whatever the argument that is wrong. */
#include "farvessel/props.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static const double wrong[] = {NAN, INFINITY, -INFINITY, -1, 0};
enum { WRONGS = sizeof wrong / sizeof *wrong };

static void of_regions(void **state)
{
    (void)state;
    fv_if97_state s;
    double value;
    for (size_t i = 0; i < WRONGS; i++) {
        assert_int_equal(fv_if97_region1(wrong[i], 300, &s), FV_FAIL);
        assert_int_equal(fv_if97_region1(1e5, wrong[i], &s), FV_FAIL);
        assert_int_equal(fv_if97_region2(wrong[i], 400, &s), FV_FAIL);
        assert_int_equal(fv_if97_region2(1e5, wrong[i], &s), FV_FAIL);
        assert_int_equal(fv_if97_region2_metastable(wrong[i], 400, &s), FV_FAIL);
        assert_int_equal(fv_if97_region2_metastable(1e5, wrong[i], &s), FV_FAIL);
        assert_int_equal(fv_if97_saturation_pressure(wrong[i], &value), FV_FAIL);
        assert_int_equal(fv_if97_saturation_temperature(wrong[i], &value), FV_FAIL);
        assert_int_equal(fv_iapws_viscosity(400, wrong[i] == 0 ? -1 : wrong[i], &value), FV_FAIL);
        assert_int_equal(fv_iapws_viscosity(wrong[i], 1, &value), FV_FAIL);
        assert_int_equal(fv_iapws_conductivity(400, wrong[i] == 0 ? -1 : wrong[i], &value), FV_FAIL);
        assert_int_equal(fv_iapws_conductivity(wrong[i], 1, &value), FV_FAIL);
    }
}

static void of_air(void **state)
{
    (void)state;
    fv_air_state air;
    double value;
    for (size_t i = 0; i < WRONGS; i++) {
        assert_int_equal(fv_air_at(wrong[i], 300, &air), FV_FAIL);
        assert_int_equal(fv_air_at(1e5, wrong[i], &air), FV_FAIL);
    }
    assert_int_equal(fv_atmosphere_pressure(NAN, &value), FV_FAIL);
    assert_int_equal(fv_atmosphere_pressure(INFINITY, &value), FV_FAIL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(of_regions), cmocka_unit_test(of_air)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
