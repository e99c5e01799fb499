/* SPDX-License-Identifier: MIT */
/* Friction against printed tables of steam flow in pipes: reference/flow/README.md names the sources. */
#include "farvessel/flow.h"
#include "flow/check.h"

#define INCH 0.0254
#define FOOT 0.3048
#define PSI 6894.757293
#define POUND 0.45359237
#define STEEL (0.00015 * FOOT)

/* Mass flow at a pressure gradient (Pa/m), incompressible: f Re^2/2 = gradient rho D^3/mu^2, solved for Re by
 * bisection. */
static double pipe_flow(double gradient, double bore, double rho, double mu)
{
    double target = gradient * rho * bore * bore * bore / (mu * mu);
    double low = 1.0;
    double high = 1e8;
    for (int i = 0; i < 200; i++) {
        double re = sqrt(low * high);
        double y, dy;
        assert_int_not_equal(fv_flow_friction_re2(re, STEEL / bore, &y, &dy), FV_FAIL);
        *(y < target ? &low : &high) = re;
    }
    return low * mu * 0.25 * PI * bore;
}

static void ashrae_low_pressure_table(void **state)
{
    (void)state;
    const char *source = "ASHRAE Fundamentals, pipe sizing";
    size_t count;
    table_row *rows = table_rows("ashrae_steam.csv", &count);
    assert_int_equal(count, 112);
    double sum = 0.0;
    double squares = 0.0;
    for (size_t i = 0; i < count; i++) {
        char name[48];
        char what[192];
        double p, rho, mu;
        snprintf(name, sizeof name, "%s psig", rows[i].text[3]);
        saturated_steam(name, &p, &rho, &mu);
        double m =
            pipe_flow(rows[i].value[2] * PSI / (100.0 * FOOT), rows[i].value[1] * INCH, rho, mu) * 3600.0 / POUND;
        double dev = rows[i].value[4] / m - 1.0;
        sum += dev;
        squares += dev * dev;
        snprintf(what, sizeof what, "steam, %s in, %s psi/100 ft, %s, lb/h", rows[i].text[0], rows[i].text[2], name);
        check_dev(what, rows[i].value[4], m, 0.06, source);
    }
    free(rows);
    double mean = sum / (double)count;
    double deviation = sqrt(squares / (double)count - mean * mean);
    check_off("112 entries, mean of printed/computed - 1, %", -1.3, 100.0 * mean, 0.1, source);
    check_off("112 entries, standard deviation, %", 1.6, 100.0 * deviation, 0.1, source);
}

/* dp = 0.000131 (1 + 3.6/d) w^2 L/(D d^5) is Darcy-Weisbach with f = 0.0108 (1 + 3.6/d). */
static void unwin_babcock_identity(void **state)
{
    (void)state;
    double bore = 3.0 * INCH;
    double length = 100.0 * FOOT;
    double rho = POUND / (FOOT * FOOT * FOOT);
    double velocity = POUND / 60.0 / (rho * 0.25 * PI * bore * bore);
    double darcy = 0.0108 * (1.0 + 3.6 / 3.0) * length / bore * 0.5 * rho * velocity * velocity / PSI;
    double babcock = 0.000131 * (1.0 + 3.6 / 3.0) * 100.0 / 243.0;
    check_dev("Unwin/Babcock eq. 44 as Darcy-Weisbach, psi", babcock, darcy, 0.005,
              "Babcock & Wilcox, Steam, 35th ed. (1919)");
}

static double babcock_flow(double bore_in, double density_lb)
{
    double length_ft = 240.0 * bore_in / 12.0;
    return 87.0 * sqrt(density_lb * pow(bore_in, 5.0) / ((1.0 + 3.6 / bore_in) * length_ft));
}

/* The table against its own formula (size dependence, level), then against Colebrook-White. */
static void babcock_table_66(void **state)
{
    (void)state;
    const char *source = "Babcock & Wilcox, Steam, 35th ed. (1919), Table 66";
    size_t count;
    table_row *rows = table_rows("babcock_table66.csv", &count);
    assert_int_equal(count, 60);
    for (size_t first = 0; first < count; first += 12) {
        char name[48];
        char what[128];
        double p, rho, mu;
        double mean = 0.0;
        snprintf(name, sizeof name, "%s psig", rows[first].text[2]);
        saturated_steam(name, &p, &rho, &mu);
        double density_lb = rho * FOOT * FOOT * FOOT / POUND;
        for (size_t i = first; i < first + 12; i++)
            mean += rows[i].value[3] / babcock_flow(rows[i].value[1], density_lb) / 12.0;
        snprintf(what, sizeof what, "Table 66 over its formula at %s, mean level", name);
        check_dev(what, 1.0, mean, 0.05, source);
        for (size_t i = first; i < first + 12; i++) {
            double bore = rows[i].value[1] * INCH;
            double m = pipe_flow(PSI / (240.0 * bore), bore, rho, mu) * 60.0 / POUND;
            double size = rows[i].value[3] / babcock_flow(rows[i].value[1], density_lb) / mean;
            // 1.5 in is printed with two digits at three pressures
            assert_true(fabs(size - 1.0) < (rows[i].value[1] == 1.610 ? 0.01 : 0.005));
            snprintf(what, sizeof what, "Table 66, %s in, %s, lb/min", rows[i].text[0], name);
            // Unwin's f grows as 1 + 3.6/d, far above any wall's roughness in a small pipe
            check_dev(what, rows[i].value[3], m, rows[i].value[1] < 3.5 ? 0.5 : 0.12,
                      "the same, against Colebrook-White");
        }
    }
    free(rows);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(ashrae_low_pressure_table),
        cmocka_unit_test(unwin_babcock_identity),
        cmocka_unit_test(babcock_table_66),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
