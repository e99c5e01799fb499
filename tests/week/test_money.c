/* SPDX-License-Identifier: MIT */
/* Amounts in the units that prices are by, worked by hand. The pound and the US gallon: NIST Special Publication 811,
 * appendix B (0.45359237 kg; 231 cubic inches, 3.785412 L), from memory. */
#include "study/cost/money.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <math.h>
#include <cmocka.h>

static const double MJ = 1e6, HOUR = 3600;

static fv_value given(double v)
{
    return (fv_value){.v = v, .origin = FV_GIVEN};
}

/* 100 MJ of a fuel with 50 MJ/kg are 2 kg; of propane, 500 kg/m3, 4 L. */
static void fuel(void **state)
{
    (void)state;
    fv_boiler boiler = {.fuel = given(FV_FUEL_PROPANE), .heating_value = given(50 * MJ)}, *boilers[] = {&boiler};
    const fv_plant plant = {.boilers = boilers, .boiler_count = 1};
    static const struct {
        fv_per per;
        double units;
    } rows[] = {{FV_PER_KG, 2},     {FV_PER_LB, 2 / 0.45359237}, {FV_PER_L, 4}, {FV_PER_GAL, 4 / 3.785412},
                {FV_PER_M3, 0.004}, {FV_PER_KWH, 100 / 3.6}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        assert_true(fabs(fv_cost_fuel_units(&plant, rows[i].per, 100 * MJ) / rows[i].units - 1) < 1e-6);
    assert_true(isnan(fv_cost_fuel_units(NULL, FV_PER_KG, MJ)));
}

/* Two people for 20 an hour, eight hours on five days; one for 30 on Saturday: 1840 for 88 hours. */
static void wage(void **state)
{
    (void)state;
    fv_crew week = {.people = given(2), .wage = given(20), .day_bits = 0x1f, .begins = 7 * HOUR, .ends = 15 * HOUR};
    fv_crew end = {.people = given(1), .wage = given(30), .day_bits = 0x20, .begins = 8 * HOUR, .ends = 16 * HOUR};
    fv_crew *crews[] = {&week, &end};
    const fv_plant plant = {.work = {.crews = crews, .crew_count = 2}};
    assert_true(fabs(cost_wage(&plant) - 1840.0 / 88) < 1e-9);
    assert_true(fabs(cost_money(&plant, FV_COST_HOURS, 3 * HOUR) - 3 * 1840.0 / 88) < 1e-9);
    assert_true(isnan(cost_wage(&(fv_plant){.file = NULL})));
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(fuel), cmocka_unit_test(wage)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
