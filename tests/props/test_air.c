/* SPDX-License-Identifier: MIT */
/* Site pressure from altitude, and dry air. */
#include "farvessel/props.h"
#include "props_check.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

/* U.S. Standard Atmosphere 1976, pressure in Pa against geopotential altitude (from memory). ISO 2533 is the same
 * atmosphere with a gas constant smaller by 7e-7, which makes up to 1.1e-6 at 11 km; the rest is their rounding. */
static void standard_atmosphere(void **state)
{
    (void)state;
    static const struct {
        double altitude, p;
    } rows[] = {{0, 101325},     {1000, 89874.6}, {2000, 79495.2},  {3000, 70108.5},
                {5000, 54019.9}, {8000, 35599.8}, {10000, 26436.3}, {11000, 22632.1}};
    bool good = true;
    char label[64];
    for (size_t k = 0; k < sizeof rows / sizeof rows[0]; k++) {
        double p;
        assert_int_equal(fv_atmosphere_pressure(rows[k].altitude, &p), FV_OK);
        snprintf(label, sizeof label, "atmosphere, Pa at %g m", rows[k].altitude);
        good = agrees_within(label, rows[k].p, p, 5e-6, "U.S. Standard Atmosphere 1976 (from memory)") && good;
    }
    assert_true(good);
}

/* Boiling points at altitude as cookery and laboratory tables give them, degC (from memory). */
static void boiling_point(void **state)
{
    (void)state;
    static const struct {
        double altitude, boiling, allowed;
    } rows[] = {{0, 100.0, 0.05}, {1500, 95, 0.3}, {3000, 90, 0.3}};
    for (size_t k = 0; k < sizeof rows / sizeof rows[0]; k++) {
        double p, t;
        assert_int_equal(fv_atmosphere_pressure(rows[k].altitude, &p), FV_OK);
        assert_int_equal(fv_if97_saturation_temperature(p, &t), FV_OK);
        double dev = t - 273.15 - rows[k].boiling;
        printf("check | boiling point at %g m | %g degC | got %.2f | dev %.2f K, allowed %.2f K | from memory\n",
               rows[k].altitude, rows[k].boiling, t - 273.15, dev, rows[k].allowed);
        assert_true(fabs(dev) <= rows[k].allowed);
    }
}

static void atmosphere_range(void **state)
{
    (void)state;
    double p;
    assert_int_equal(fv_atmosphere_pressure(NAN, &p), FV_FAIL);
    assert_int_equal(fv_atmosphere_pressure(50000, &p), FV_FAIL);
    assert_int_equal(fv_atmosphere_pressure(12000, &p), FV_DOUBTFUL);
    assert_int_equal(fv_atmosphere_pressure(-2500, &p), FV_DOUBTFUL);
    assert_int_equal(fv_atmosphere_pressure(-400, &p), FV_OK);
    assert_true(p > 101325);
}

/* Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, Table A.4, air at atmospheric pressure (from memory).
 * The transport equations claim 1 % for mu and 2 % for lambda; the table prints lambda and cp to 0.3 and 0.1 % and
 * is older. Its densities are p/(R T) at 1 bar, not at 1 atm: 1.1614 x 287.05 x 300 = 100 014 Pa. */
static void air_table(void **state)
{
    (void)state;
    static const struct {
        double t, rho, cp, mu, nu, lambda, alpha, pr; /* K, kg/m3, kJ/kg/K, 1e-7 Pa s, 1e-6 m2/s, mW/m/K, 1e-6 m2/s */
    } rows[] = {
        {250, 1.3947, 1.006, 159.6, 11.44, 22.3, 15.9, 0.720}, {300, 1.1614, 1.007, 184.6, 15.89, 26.3, 22.5, 0.707},
        {350, 0.9950, 1.009, 208.2, 20.92, 30.0, 29.9, 0.700}, {400, 0.8711, 1.014, 230.1, 26.41, 33.8, 38.3, 0.690},
        {450, 0.7740, 1.021, 250.7, 32.39, 37.3, 47.2, 0.686}, {500, 0.6964, 1.030, 270.1, 38.79, 40.7, 56.7, 0.684},
        {550, 0.6329, 1.040, 288.4, 45.57, 43.9, 66.7, 0.683}, {600, 0.5804, 1.051, 305.8, 52.69, 46.9, 76.9, 0.685},
        {650, 0.5356, 1.063, 322.5, 60.21, 49.7, 87.3, 0.690},
    };
    static const char *const names[] = {"rho", "cp", "mu", "nu", "lambda", "alpha", "pr"};
    static const double allowed[] = {0.001, 0.0025, 0.01, 0.011, 0.025, 0.028, 0.03};
    bool good = true;
    for (size_t k = 0; k < sizeof rows / sizeof rows[0]; k++) {
        fv_air_state a;
        assert_int_equal(fv_air_at(1e5, rows[k].t, &a), FV_OK);
        const double printed[] = {rows[k].rho,    rows[k].cp,    rows[k].mu, rows[k].nu,
                                  rows[k].lambda, rows[k].alpha, rows[k].pr};
        const double got[] = {a.rho, a.cp / 1e3, a.mu * 1e7, a.nu * 1e6, a.lambda * 1e3, a.alpha * 1e6, a.pr};
        for (size_t q = 0; q < 7; q++) {
            char label[64];
            snprintf(label, sizeof label, "air %s(%g K, 1 bar)", names[q], rows[k].t);
            good = agrees_within(label, printed[q], got[q], allowed[q], "Incropera & DeWitt Table A.4 (from memory)") &&
                   good;
        }
        assert_true(relative(a.beta, 1 / rows[k].t) < 1e-15);
    }
    assert_true(good);
}

/* Density at sea level: ISO 2533:1975, 1.225 kg/m3. Dilute transport: Lemmon & Jacobsen (2004), check values of the
 * paper at zero density (both from memory). */
static void air_check_values(void **state)
{
    (void)state;
    fv_air_state a, cold;
    assert_true(agrees_as_printed("air rho(15 degC, 1 atm)", "1.2250", fv_air_density(101325, 288.15),
                                  "ISO 2533:1975 (from memory)"));
    static const char source[] = "Lemmon & Jacobsen 2004, zero density (from memory)";
    assert_int_equal(fv_air_at(1e5, 300, &a), FV_OK);
    assert_true(agrees_as_printed("air mu(300 K), uPa s", "18.5230", a.mu * 1e6, source));
    assert_true(agrees_as_printed("air lambda(300 K), mW/m/K", "26.3529", a.lambda * 1e3, source));
    assert_int_equal(fv_air_at(1e5, 100, &cold), FV_DOUBTFUL);
    assert_true(agrees_as_printed("air mu(100 K), uPa s", "7.09559", cold.mu * 1e6, source));
    assert_true(agrees_as_printed("air lambda(100 K), mW/m/K", "9.35902", cold.lambda * 1e3, source));
}

static void air_range(void **state)
{
    (void)state;
    fv_air_state a;
    assert_int_equal(fv_air_at(1e5, NAN, &a), FV_FAIL);
    assert_int_equal(fv_air_at(-1, 300, &a), FV_FAIL);
    assert_int_equal(fv_air_at(1e5, 0, &a), FV_FAIL);
    assert_int_equal(fv_air_at(1e5, 200, &a), FV_DOUBTFUL);
    assert_int_equal(fv_air_at(1e5, 700, &a), FV_DOUBTFUL);
    assert_int_equal(fv_air_at(5e6, 300, &a), FV_DOUBTFUL);
    assert_int_equal(fv_air_at(1e5, 233.15, &a), FV_OK);
    assert_int_equal(fv_air_at(1e5, 673.15, &a), FV_OK);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(standard_atmosphere), cmocka_unit_test(boiling_point),    cmocka_unit_test(atmosphere_range),
        cmocka_unit_test(air_table),           cmocka_unit_test(air_check_values), cmocka_unit_test(air_range),
    };
    return cmocka_run_group_tests_name("air", tests, NULL, NULL);
}
