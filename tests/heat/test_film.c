/* SPDX-License-Identifier: MIT */
/* Film condensation and the water properties behind it. */
#include "farvessel/heat.h"
#include "heat/water_film.h"
#include "check.h"

#define T_SAT (99.9743 + KELVIN) /* 1 atm, IF97 */

static void nusselt_values(void **state)
{
    (void)state;
    double h;
    assert_int_equal(fv_heat_film_horizontal(0.0254, T_SAT, 90 + KELVIN, &h), FV_OK);
    check_example("film_h_25_90", h, 0.001);
    assert_int_equal(fv_heat_film_horizontal(0.05, T_SAT, 90 + KELVIN, &h), FV_OK);
    check_example("film_h_50_90", h, 0.001);
    assert_int_equal(fv_heat_film_horizontal(0.1, T_SAT, 80 + KELVIN, &h), FV_OK);
    check_example("film_h_100_80", h, 0.001);
    assert_int_equal(fv_heat_film_vertical(1.0, T_SAT, 90 + KELVIN, &h), FV_OK);
    check_example("film_v_1000_90", h, 0.001);
    assert_int_equal(fv_heat_film_vertical(0.5, T_SAT, 90 + KELVIN, &h), FV_OK);
    check_example("film_v_500_90", h, 0.001);
}

/* Saturated water at 1, 2 and 4 bar. IF97, R12-08, R15-11 as computed with an independent implementation. */
static void water_of_the_film(void **state)
{
    (void)state;
    static const double rows[3][7] = {
        {99.605919, 958.63689, 0.59031092, 2257513.2, 282.75368e-6, 0.67706715, 4216},
        {120.211546, 942.93507, 1.1290058, 2201557.5, 231.59607e-6, 0.6822678, 4245},
        {143.612533, 922.88473, 2.1626682, 2133333.1, 191.33557e-6, 0.68210075, 4296},
    };
    const char *source = "IF97, R12-08, R15-11 (cp: steam tables, from memory)";
    for (int i = 0; i < 3; i++) {
        heat_film_water w;
        double t = rows[i][0] + KELVIN;
        assert_int_equal(heat_water_film(t, t, &w), FV_OK);
        check_dev("film water density", rows[i][1], w.rho, 1e-4, source);
        check_dev("film vapour density", rows[i][2], w.rho_v, 1e-4, source);
        check_dev("film heat of evaporation", rows[i][3], w.h_fg, 1e-4, source);
        check_dev("film viscosity", rows[i][4], w.mu, 2e-3, source);
        check_dev("film conductivity", rows[i][5], w.k, 2.5e-3, source);
        check_dev("film specific heat", rows[i][6], w.cp, 6e-3, source);
    }
}

/* A wall 80 K colder: subcooling counts. And Nusselt's equation written out at 4 bar, where the vapour has weight. */
static void cold_walls_and_heavy_vapour(void **state)
{
    (void)state;
    const char *source = "Nusselt, Rohsenow; IF97, R12-08, R15-11";
    double h;
    assert_int_equal(fv_heat_film_vertical(0.3, T_SAT, T_SAT - 80, &h), FV_OK);
    check_dev("film on a wall 80 K colder, 0.3 m", 4628.33, h, 2e-4, source);
    assert_int_equal(fv_heat_film_horizontal(0.02, T_SAT, T_SAT - 80, &h), FV_OK);
    check_dev("film on a tube 80 K colder, 20 mm", 7041.47, h, 2e-4, source);
    heat_film_water w;
    const double t_sat = 143.6125 + KELVIN, dt = 10, height = 0.3;
    assert_int_equal(heat_water_film(t_sat, t_sat - 0.5 * dt, &w), FV_OK);
    const double group = 9.80665 * w.rho * (w.rho - w.rho_v) * pow(w.k, 3) * (w.h_fg + 0.68 * w.cp * dt);
    assert_int_equal(fv_heat_film_vertical(height, t_sat, t_sat - dt, &h), FV_OK);
    check_dev("film at 4 bar, written out", 0.943 * pow(group / (w.mu * dt * height), 0.25), h, 1e-12, source);
}

static void film_ranges(void **state)
{
    (void)state;
    double h;
    assert_int_equal(fv_heat_film_vertical(1, T_SAT, T_SAT, &h), FV_FAIL);
    assert_int_equal(fv_heat_film_vertical(0, T_SAT, 300, &h), FV_FAIL);
    assert_int_equal(fv_heat_film_vertical(1, T_SAT, NAN, &h), FV_FAIL);
    assert_int_equal(fv_heat_film_vertical(1, 700, 600, &h), FV_FAIL);
    assert_int_equal(fv_heat_film_vertical(1, 500, 490, &h), FV_DOUBTFUL);
    // A tall cold wall: the film is long since turbulent.
    assert_int_equal(fv_heat_film_vertical(10, T_SAT, 300, &h), FV_DOUBTFUL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nusselt_values),
        cmocka_unit_test(water_of_the_film),
        cmocka_unit_test(cold_walls_and_heavy_vapour),
        cmocka_unit_test(film_ranges),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
