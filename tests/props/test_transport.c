/* SPDX-License-Identifier: MIT */
/* Viscosity and conductivity against the tables of their releases. */
#include "farvessel/props.h"
#include "props/line.h"
#include "props_check.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

typedef struct {
    double t, rho; /* K, kg/m3 */
    const char *printed;
} row;

typedef fv_status property(double t, double rho, double *out);

static void check_rows(property *function, const char *what, double unit, const char *source, const row *rows,
                       size_t count)
{
    bool good = true;
    char label[64];
    for (size_t k = 0; k < count; k++) {
        double got;
        assert_int_not_equal(function(rows[k].t, rows[k].rho, &got), FV_FAIL);
        snprintf(label, sizeof label, "%s(%g K, %g kg/m3)", what, rows[k].t, rows[k].rho);
        good = agrees_as_printed(label, rows[k].printed, got / unit, source) && good;
    }
    assert_true(good);
}

/* IAPWS R12-08 Table 4, uPa s (from memory, each recomputed with the python package iapws). */
static void viscosity_table_4(void **state)
{
    (void)state;
    static const row rows[] = {
        {298.15, 998, "889.735100"}, {298.15, 1200, "1437.649467"}, {373.15, 1000, "307.883622"},
        {433.15, 1, "14.538324"},    {433.15, 1000, "217.685358"},  {873.15, 1, "32.619287"},
        {873.15, 100, "35.802262"},  {873.15, 600, "77.430195"},    {1173.15, 1, "44.217245"},
        {1173.15, 100, "47.640433"}, {1173.15, 400, "64.154608"},
    };
    check_rows(fv_iapws_viscosity, "mu", 1e-6, "IAPWS R12-08 Table 4", rows, sizeof rows / sizeof rows[0]);
}

/* IAPWS R15-11 Table 4, mW/m/K (from memory, each recomputed with the python package iapws). */
static void conductivity_table_4(void **state)
{
    (void)state;
    static const row rows[] = {
        {298.15, 0, "18.4341883"},
        {298.15, 998, "607.712868"},
        {298.15, 1200, "799.038144"},
        {873.15, 0, "79.1034659"},
    };
    check_rows(fv_iapws_conductivity, "lambda", 1e-3, "IAPWS R15-11 Table 4", rows, sizeof rows / sizeof rows[0]);
}

static void viscosity_slopes(void **state)
{
    (void)state;
    double worst = 0;
    for (double t = 300; t < 500; t += 23)
        for (double rho = 0.05; rho < 1100; rho *= 2.7) {
            double dt = 1e-3, dr = 1e-5 * rho;
            props_viscosity_slopes s = props_iapws_viscosity_slopes(t, rho);
            double by_t =
                (props_iapws_viscosity_slopes(t + dt, rho).mu - props_iapws_viscosity_slopes(t - dt, rho).mu) /
                (2 * dt);
            double by_rho =
                (props_iapws_viscosity_slopes(t, rho + dr).mu - props_iapws_viscosity_slopes(t, rho - dr).mu) /
                (2 * dr);
            worst = fmax(worst, fabs(s.mu_t - by_t) * t / s.mu);
            worst = fmax(worst, fabs(s.mu_rho - by_rho) * rho / s.mu);
        }
    printf("check | slopes of the viscosity against differences | largest dev %.1e of mu | own derivation\n", worst);
    assert_true(worst < 1e-7);
}

static void outside_the_range(void **state)
{
    (void)state;
    double x;
    property *const both[] = {fv_iapws_viscosity, fv_iapws_conductivity};
    for (int k = 0; k < 2; k++) {
        assert_int_equal(both[k](NAN, 1, &x), FV_FAIL);
        assert_int_equal(both[k](400, -1, &x), FV_FAIL);
        assert_int_equal(both[k](0, 1, &x), FV_FAIL);
        assert_int_equal(both[k](400, INFINITY, &x), FV_FAIL);
        assert_int_equal(both[k](250, 1, &x), FV_DOUBTFUL);
        assert_int_equal(both[k](1200, 1, &x), FV_DOUBTFUL);
        assert_int_equal(both[k](300, 1300, &x), FV_DOUBTFUL);
        assert_int_equal(both[k](647, 322, &x), FV_DOUBTFUL); // critical enhancement left out
        assert_int_equal(both[k](373, 0.6, &x), FV_OK);
        assert_int_equal(both[k](373, 958, &x), FV_OK);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(viscosity_table_4),
        cmocka_unit_test(conductivity_table_4),
        cmocka_unit_test(viscosity_slopes),
        cmocka_unit_test(outside_the_range),
    };
    return cmocka_run_group_tests_name("transport", tests, NULL, NULL);
}
