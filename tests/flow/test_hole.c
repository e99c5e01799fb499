/* SPDX-License-Identifier: MIT */
/* Isentropic hole, critical flow, discharge coefficient, and the rule for perforated pipes. */
#include "farvessel/flow.h"
#include "flow/check.h"

static void expansibility_table(void **state)
{
    (void)state;
    size_t count;
    table_row *rows = table_rows("expansibility.csv", &count);
    double worst = 0.0;
    double worst_slope = 0.0;
    for (size_t i = 0; i < count; i++) {
        double k = rows[i].value[0];
        double x = rows[i].value[1];
        double y2, dy2;
        bool choked;
        assert_int_equal(fv_flow_expansibility2(x, k, &y2, &dy2, &choked), x < -0.05 ? FV_DOUBTFUL : FV_OK);
        assert_int_equal(choked, x > 1.0 - fv_flow_critical_ratio(k));
        worst = fmax(worst, fabs(y2 / rows[i].value[2] - 1.0));
        worst_slope = fmax(worst_slope, fabs(dy2 / rows[i].value[3] - 1.0));
    }
    free(rows);
    const char *source = "50-digit arithmetic, reference/flow/make_tables.py";
    check_dev("expansibility, 69 points, largest relative deviation", 0.0, worst, 5e-15, source);
    check_dev("its slope, 69 points, largest relative deviation", 0.0, worst_slope, 1e-13, source);
}

static void expansibility_smooth(void **state)
{
    (void)state;
    static const double exponents[] = {1.001, FV_EXPONENT_SATURATED, 1.3, 1.4, 5.0 / 3.0};
    double worst = 0.0;
    double y2, dy2, unused;
    bool choked;
    for (size_t i = 0; i < sizeof exponents / sizeof *exponents; i++) {
        double k = exponents[i];
        assert_int_equal(fv_flow_expansibility2(0.0, k, &y2, &dy2, &choked), FV_OK);
        assert_true(y2 == 1.0);
        assert_true(fabs(dy2 + 1.5 / k) < 1e-15);
        for (double x = -0.3; x < 1.0; x += 0.00317) {
            double h = 1e-5;
            double low, high;
            fv_flow_expansibility2(x, k, &y2, &dy2, &choked);
            fv_flow_expansibility2(x - h, k, &low, &unused, &choked);
            fv_flow_expansibility2(x + h, k, &high, &unused, &choked);
            // where the curvature jumps, at the choke point, a difference is only good to h
            double near_choke = fabs(x - 1.0 + fv_flow_critical_ratio(k)) < h ? 1e-3 : 1.0;
            worst = fmax(worst, fabs((high - low) / (2.0 * h) - dy2) * near_choke);
        }
        double choke = 1.0 - fv_flow_critical_ratio(k);
        double before, after, dbefore, dafter;
        fv_flow_expansibility2(choke - 1e-9, k, &before, &dbefore, &choked);
        assert_false(choked);
        fv_flow_expansibility2(choke + 1e-9, k, &after, &dafter, &choked);
        assert_true(choked);
        assert_true(fabs(after - before) < 1e-8 && fabs(dafter - dbefore) < 1e-7);
    }
    printf("derivatives | expansibility | largest deviation from differences %.1e\n", worst);
    assert_true(worst < 1e-8);
    assert_int_equal(fv_flow_expansibility2(1.0, 1.3, &y2, &dy2, &choked), FV_OK);
    assert_true(choked && y2 > 0.0);
    assert_int_equal(fv_flow_expansibility2(1.5, 1.3, &y2, &dy2, &choked), FV_DOUBTFUL);
    assert_true(choked && isfinite(y2) && isfinite(dy2));
    assert_int_equal(fv_flow_expansibility2(0.1, 2.0, &y2, &dy2, &choked), FV_DOUBTFUL);
    assert_int_equal(fv_flow_expansibility2(0.1, 1.0, &y2, &dy2, &choked), FV_FAIL);
    assert_int_equal(fv_flow_expansibility2((double)NAN, 1.3, &y2, &dy2, &choked), FV_FAIL);
}

/* Dry saturated steam's series stands in a table: it is the one of its neighbours among the exponents. */
static void expansibility_table_of_saturated_steam(void **state)
{
    (void)state;
    double worst = 0, worst_slope = 0;
    for (double x = -0.05; x <= 0.05; x += 1e-4) {
        double y2, slope, near, near_slope;
        bool choked;
        fv_flow_expansibility2(x, FV_EXPONENT_SATURATED, &y2, &slope, &choked);
        fv_flow_expansibility2(x, nextafter(FV_EXPONENT_SATURATED, 2), &near, &near_slope, &choked);
        worst = fmax(worst, fabs(y2 - near));
        worst_slope = fmax(worst_slope, fabs(slope - near_slope));
    }
    printf("check | series of dry saturated steam | that of the next exponent | dev %.1e, of the slope %.1e\n", worst,
           worst_slope);
    assert_true(worst < 1e-15 && worst_slope < 1e-14);
}

/* ISO 5167 nozzle with no approach velocity is the same function: printed eps is sqrt(Y2). */
static void nozzle_expansibility(void **state)
{
    (void)state;
    static const double rows[][2] = {
        {0.98, .988404}, {0.95, .970791}, {0.90, .940820}, {0.80, .878343}, {0.75, .845691}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double y2, dy2;
        bool choked;
        char what[128];
        fv_flow_expansibility2(1.0 - rows[i][0], 1.3, &y2, &dy2, &choked);
        snprintf(what, sizeof what, "nozzle expansibility, p2/p1 %.2f, k 1.3", rows[i][0]);
        check_dev(what, rows[i][1], sqrt(y2), 1e-6, "ISO 5167:2003 nozzle formula, from memory, beta 0");
    }
}

static void critical_ratios(void **state)
{
    (void)state;
    check_dev("critical ratio, k 1.135", 0.577430, fv_flow_critical_ratio(1.135), 2e-6,
              "(2/(k+1))^(k/(k-1)); Zeuner's 0.577");
    check_dev("critical ratio, k 1.3", 0.545728, fv_flow_critical_ratio(1.3), 2e-6, "the same");
    check_dev("critical ratio, k 1.4", 0.528282, fv_flow_critical_ratio(1.4), 2e-6, "the same; gas tables");
    check_dev("critical ratio of steam", 0.58, fv_flow_critical_ratio(1.135), 0.006, "Babcock & Wilcox, Steam (1919)");
}

static double flux(double p, double rho, double p_out, double k)
{
    double y2, dy2;
    bool choked;
    double x = (p - p_out) / p;
    assert_int_equal(fv_flow_expansibility2(x, k, &y2, &dy2, &choked), FV_OK);
    return sqrt(2.0 * rho * (p - p_out) * y2);
}

static void critical_flux_of_steam(void **state)
{
    (void)state;
    size_t count;
    table_row *rows = table_rows("critical_flux.csv", &count);
    assert_int_equal(count, 6);
    for (size_t i = 0; i < count; i++) {
        char name[48];
        char what[128];
        double p, rho, mu;
        snprintf(name, sizeof name, "%s bar", rows[i].text[0]);
        saturated_steam(name, &p, &rho, &mu);
        snprintf(what, sizeof what, "critical flux of dry steam, %s, k 1.135, kg/s/m2", name);
        check_dev(what, rows[i].value[10], flux(p, rho, 0.4 * p, 1.135), 5e-5,
                  "perfect gas, reference/flow/critical_flux.csv");
        snprintf(what, sizeof what, "critical flux of dry steam, %s, k 1.3, kg/s/m2", name);
        check_dev(what, rows[i].value[9], flux(p, rho, 0.4 * p, 1.3), 5e-5, "the same");
        snprintf(what, sizeof what, "critical flux of dry steam, %s, against equilibrium, kg/s/m2", name);
        check_dev(what, rows[i].value[1], flux(p, rho, 0.4 * p, 1.135), 0.003, "IF97 isentropic equilibrium");
        snprintf(what, sizeof what, "critical flux of dry steam, %s, against Grashof, kg/s/m2", name);
        check_dev(what, rows[i].value[7], flux(p, rho, 0.4 * p, 1.135), 0.02, "Grashof, from memory");
        snprintf(what, sizeof what, "Napier's flux, %s, kg/s/m2", name);
        check_dev(what, rows[i].value[5], fv_flow_napier(p), 4e-5, "reference/flow/critical_flux.csv");
    }
    free(rows);
}

static void napier_within_two_percent(void **state)
{
    (void)state;
    static const char *const names[] = {"50 psia", "75 psia", "100 psia", "125 psia", "150 psia"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        char what[128];
        double p, rho, mu;
        saturated_steam(names[i], &p, &rho, &mu);
        snprintf(what, sizeof what, "hole at Cd 1 against Napier, %s, kg/s/m2", names[i]);
        check_dev(what, fv_flow_napier(p), flux(p, rho, 101325.0, 1.135), 0.02, "Napier (1866), W = A p/70");
    }
    check_dev("Napier at 100 psia, 1 in2, lb/s", 100.0 / 70.0,
              fv_flow_napier(689475.7293) * 0.0254 * 0.0254 / 0.45359237, 1e-12, "its own units");
}

static void subcritical_flux_of_steam(void **state)
{
    (void)state;
    size_t count;
    table_row *rows = table_rows("subcritical_flux.csv", &count);
    assert_int_equal(count, 6);
    for (size_t i = 0; i < count; i++) {
        char name[48];
        char what[128];
        double p, rho, mu;
        snprintf(name, sizeof name, "%s bar", rows[i].text[0]);
        saturated_steam(name, &p, &rho, &mu);
        double got = flux(p, rho, 101325.0, 1.135);
        snprintf(what, sizeof what, "dry steam from %s to 1.01325 bar, kg/s/m2", name);
        check_dev(what, rows[i].value[5], got, 2e-5, "perfect gas, k 1.135, reference/flow/subcritical_flux.csv");
        check_dev(what, rows[i].value[1], got, 1e-3, "IF97 isentropic equilibrium");
    }
    free(rows);
}

static void discharge_coefficient(void **state)
{
    (void)state;
    double cd, slope;
    static const double crossflow[][2] = {{0.0, 0.63}, {0.1, 0.572}, {0.5, 0.34}};
    for (size_t i = 0; i < 3; i++) {
        char what[128];
        assert_int_equal(fv_flow_hole_cd(0.0, crossflow[i][0], &cd, &slope), FV_OK);
        snprintf(what, sizeof what, "thin hole in a pipe wall, crossflow %.1f, Cd", crossflow[i][0]);
        check_dev(what, crossflow[i][1], cd, 1e-12, "Koh & Brooks (1975)");
    }
    fv_flow_hole_cd(0.0, 0.0, &cd, &slope);
    check_dev("sharp orifice, 0.5 in, water, 4 ft", 0.608, cd, 0.04, "Bovey, in Unwin (1911)");
    check_dev("thin plate, steam", 0.63, cd, 1e-12, "Babcock & Wilcox, Steam (1919)");
    fv_flow_hole_cd(1.0, 0.0, &cd, &slope);
    check_dev("wall of one diameter, Cd", 0.78, cd, 0.02, "Lichtarowicz et al. (1965), from memory");
    fv_flow_hole_cd(2.0, 0.0, &cd, &slope);
    check_dev("wall of two diameters, Cd", 0.81, cd, 1e-12, "Lichtarowicz et al. (1965), from memory");
    fv_flow_hole_cd(2.75, 0.0, &cd, &slope);
    check_dev("cylindrical mouthpiece, Cd", 0.82, cd, 0.03, "Unwin (1911)");
    fv_flow_hole_cd(10.0, 0.0, &cd, &slope);
    check_dev("wall of ten diameters, Cd", 0.742, cd, 1e-12, "Lichtarowicz et al. (1965), from memory");
    assert_int_equal(fv_flow_hole_cd(11.0, 0.0, &cd, &slope), FV_DOUBTFUL);
    assert_int_equal(fv_flow_hole_cd(0.5, 0.7, &cd, &slope), FV_DOUBTFUL);
    assert_int_equal(fv_flow_hole_cd(-0.1, 0.0, &cd, &slope), FV_FAIL);
    assert_int_equal(fv_flow_hole_cd(0.5, -0.1, &cd, &slope), FV_FAIL);
    assert_int_equal(fv_flow_hole_cd((double)NAN, 0.0, &cd, &slope), FV_FAIL);
}

/* Cd = 1 - (1 + 1.3 exp(-1.606 t^2)) (0.435 + 0.021 t) (1 - 0.5885), the published coefficient at high Reynolds number,
 * gives how much of the rise from the thin plate to two diameters is done at t. */
static void discharge_coefficient_rises_with_the_wall(void **state)
{
    (void)state;
    static const double done[][2] = {{0.25, 0.08150}, {0.5, 0.32032},  {0.75, 0.59774},
                                     {1, 0.81442},    {1.25, 0.93875}, {1.5, 0.99073}};
    double thin, two, cd, slope;
    fv_flow_hole_cd(0.0, 0.0, &thin, &slope);
    fv_flow_hole_cd(2.0, 0.0, &two, &slope);
    for (size_t i = 0; i < sizeof done / sizeof *done; i++) {
        char what[128];
        fv_flow_hole_cd(done[i][0], 0.0, &cd, &slope);
        snprintf(what, sizeof what, "wall of %g diameters, part of the rise to two", done[i][0]);
        check_dev(what, done[i][1], (cd - thin) / (two - thin), 1e-4, "McGreehan & Schotsch (1988), from memory");
    }
}

static void discharge_coefficient_smooth(void **state)
{
    (void)state;
    double worst = 0.0;
    double before = 0.63;
    double cd, slope, low, high, unused;
    for (double t = 0.0; t < 12.0; t += 0.01) {
        fv_flow_hole_cd(t, 0.0, &cd, &slope);
        assert_true(fabs(cd - before) < 0.003);
        before = cd;
        for (double c = 0.01; c < 1.5; c += 0.01) {
            double h = 1e-6;
            fv_flow_hole_cd(t, c, &cd, &slope);
            fv_flow_hole_cd(t, c - h, &low, &unused);
            fv_flow_hole_cd(t, c + h, &high, &unused);
            assert_true(cd > 0.04 && slope <= 0.0);
            worst = fmax(worst, fabs((high - low) / (2.0 * h) - slope));
        }
    }
    printf("derivatives | hole Cd | largest deviation from differences %.1e\n", worst);
    assert_true(worst < 3e-6); // the curvature is 4.6 where the line bends, the step 1e-6
}

/* Geometry first and crossflow after is the same Cd and the same status, to the bit. */
static void discharge_coefficient_in_two_steps(void **state)
{
    (void)state;
    for (double t = 0; t < 12; t += 0.13)
        for (double c = 0; c < 1.5; c += 0.07) {
            double cd, slope, still, crossed, crossed_slope;
            const fv_status once = fv_flow_hole_cd(t, c, &cd, &slope);
            const fv_status wall = fv_flow_hole_cd_still(t, &still);
            const fv_status cross = fv_flow_hole_cd_crossed(still, c, &crossed, &crossed_slope);
            assert_true(cd == crossed && slope == crossed_slope);
            assert_int_equal(wall, t > 10 ? FV_DOUBTFUL : FV_OK);
            assert_int_equal(cross, c > 0.6 ? FV_DOUBTFUL : FV_OK);
            assert_int_equal(once, t > 10 || c > 0.6 ? FV_DOUBTFUL : FV_OK);
        }
    double still, cd, slope;
    assert_int_equal(fv_flow_hole_cd_still(-0.1, &still), FV_FAIL);
    assert_int_equal(fv_flow_hole_cd_still((double)NAN, &still), FV_FAIL);
    assert_int_equal(fv_flow_hole_cd_crossed(0.7, -0.1, &cd, &slope), FV_FAIL);
    assert_int_equal(fv_flow_hole_cd_crossed(0.7, (double)NAN, &cd, &slope), FV_FAIL);
    assert_int_equal(fv_flow_hole_cd_crossed(0, 0.1, &cd, &slope), FV_FAIL);
    assert_int_equal(fv_flow_hole_cd_crossed((double)NAN, 0.1, &cd, &slope), FV_FAIL);
}

static void maldistribution_rule(void **state)
{
    (void)state;
    double share;
    assert_int_equal(fv_flow_maldistribution(0.1, &share), FV_OK);
    check_dev("uneven flow at one tenth, %", 5.132, 100.0 * share, 1e-4, "Senecal (1957), in Perry, from memory");
    fv_flow_maldistribution(-0.01, &share);
    check_dev("uneven flow at one hundredth, %", 0.501, 100.0 * share, 1e-3, "the same");
    fv_flow_maldistribution(1e-14, &share);
    assert_true(fabs(share / 5e-15 - 1.0) < 1e-12);
    assert_int_equal(fv_flow_maldistribution(1.0, &share), FV_DOUBTFUL);
    assert_true(share == 1.0);
    assert_int_equal(fv_flow_maldistribution(1.01, &share), FV_FAIL);
    assert_int_equal(fv_flow_maldistribution((double)NAN, &share), FV_FAIL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(expansibility_table),
        cmocka_unit_test(expansibility_smooth),
        cmocka_unit_test(expansibility_table_of_saturated_steam),
        cmocka_unit_test(nozzle_expansibility),
        cmocka_unit_test(critical_ratios),
        cmocka_unit_test(critical_flux_of_steam),
        cmocka_unit_test(napier_within_two_percent),
        cmocka_unit_test(subcritical_flux_of_steam),
        cmocka_unit_test(discharge_coefficient),
        cmocka_unit_test(discharge_coefficient_rises_with_the_wall),
        cmocka_unit_test(discharge_coefficient_smooth),
        cmocka_unit_test(discharge_coefficient_in_two_steps),
        cmocka_unit_test(maldistribution_rule),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
