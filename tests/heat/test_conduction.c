/* SPDX-License-Identifier: MIT */
/* Conduction series: a computed table, one-term coefficients, products, textbook examples, limits. */
#include "farvessel/heat.h"
#include "heat/conduction.h"
#include "check.h"

static fv_shape_1d shape_named(const char *name)
{
    return strcmp(name, "slab") == 0 ? FV_SLAB : strcmp(name, "cylinder") == 0 ? FV_CYLINDER : FV_SPHERE;
}

static double theta(fv_shape_1d shape, double biot, double fourier, double position)
{
    double value;
    assert_int_equal(fv_heat_theta(shape, biot, fourier, position, &value), FV_OK);
    return value;
}

/* Largest deviation by shape and column; every value must agree to 1e-7 (its printed digits). */
static void table_of_270_rows(void **state)
{
    (void)state;
    static const char *const column[] = {"zeta1", "C1", "theta centre", "theta surface", "theta mean"};
    static const char *const shapes[] = {"slab", "cylinder", "sphere"};
    double worst[3][5] = {{0}};
    int rows = 0;
    FILE *file = open_table("heat/conduction.csv");
    table_row row;
    while (next_row(file, &row)) {
        fv_shape_1d shape = shape_named(row.text[0]);
        double bi = row.value[1], fo = row.value[4], got[5], c_mean;
        const double expected[5] = {row.value[2], row.value[3], row.value[5], row.value[7], row.value[8]};
        assert_int_equal(fv_heat_eigen(shape, bi, 0, &got[0], &got[1], &c_mean), FV_OK);
        got[2] = theta(shape, bi, fo, 0);
        got[3] = theta(shape, bi, fo, 1);
        assert_int_equal(fv_heat_theta_mean(shape, bi, fo, &got[4]), FV_OK);
        for (int i = 0; i < 5; i++) {
            double dev = expected[i] != 0 ? fabs(got[i] / expected[i] - 1) : fabs(got[i]);
            worst[shape][i] = fmax(worst[shape][i], dev);
            if (!(dev <= 1e-7))
                fail_msg("%s Bi %g Fo %g %s: expected %.9g, got %.9g", row.text[0], bi, fo, column[i], expected[i],
                         got[i]);
        }
        rows++;
    }
    fclose(file);
    assert_int_equal(rows, 270);
    for (int s = 0; s < 3; s++)
        for (int i = 0; i < 5; i++)
            printf("check | %s, %s, 90 rows | table | worst dev %.1e, allowed 1e-7 | conduction.csv, 30 digits, 60 "
                   "terms\n",
                   shapes[s], column[i], worst[s][i]);
}

/* Incropera & DeWitt Table 5.1, four decimals, from memory. */
static void one_term_coefficients(void **state)
{
    (void)state;
    static const double printed[5][7] = {
        {0.1, 0.3111, 1.0161, 0.4417, 1.0246, 0.5423, 1.0298},
        {1, 0.8603, 1.1191, 1.2558, 1.2071, 1.5708, 1.2732},
        {10, 1.4289, 1.2620, 2.1795, 1.5677, 2.8363, 1.9249},
        {100, 1.5552, 1.2731, 2.3809, 1.6015, 3.1102, 1.9990},
        {(double)INFINITY, 1.5708, 1.2732, 2.4048, 1.6020, 3.1416, 2.0000},
    };
    for (int i = 0; i < 5; i++) {
        for (int s = 0; s < 3; s++) {
            double z, c, c_mean;
            assert_int_equal(fv_heat_eigen((fv_shape_1d)s, printed[i][0], 0, &z, &c, &c_mean), FV_OK);
            printf(
                "check | one term, shape %d, Bi %g | %.4f %.4f | got %.6f %.6f | dev %+.1e %+.1e | Incropera & DeWitt "
                "Table 5.1, from memory\n",
                s, printed[i][0], printed[i][1 + 2 * s], printed[i][2 + 2 * s], z, c, z - printed[i][1 + 2 * s],
                c - printed[i][2 + 2 * s]);
            assert_true(fabs(z - printed[i][1 + 2 * s]) <= 0.51e-4);
            assert_true(fabs(c - printed[i][2 + 2 * s]) <= 0.51e-4);
        }
    }
}

static double characteristic(fv_shape_1d shape, double bi, double z)
{
    return shape == FV_SLAB ? z * sin(z) - bi * cos(z) : (1 - bi) * sin(z) - z * cos(z);
}

static void eigenvalues_in_order(void **state)
{
    (void)state;
    for (int s = 0; s < 3; s++) {
        for (double bi = 1e-12; bi < 1e13; bi *= 7) {
            double before = 0, z, c, c_mean, sum = 0;
            for (int n = 0; n < 200; n++) {
                assert_int_equal(fv_heat_eigen((fv_shape_1d)s, bi, n, &z, &c, &c_mean), FV_OK);
                assert_true(z > before);
                assert_true(isfinite(c) && c_mean > 0 && z < (n + 1.01) * PI);
                if (s != FV_CYLINDER)
                    assert_true(fabs(characteristic((fv_shape_1d)s, bi, z)) <= 1e-14 * (1 + bi + z) * (1 + z));
                before = z;
                sum += c_mean;
            }
            // At the start the mean is 1: the coefficients are all positive and add up to it.
            assert_true(sum > 0.99 && sum < 1 + 1e-12);
        }
        // A body small against its film cools as a lump: zeta^2 = d Bi (1 - Bi / (d + 2) ...).
        double z, c, c_mean, d = s + 1;
        fv_heat_eigen((fv_shape_1d)s, 1e-9, 0, &z, &c, &c_mean);
        assert_true(fabs(z * z / (d * 1e-9) - 1) < 1e-9 && fabs(c - 1) < 1e-8 && fabs(c_mean - 1) < 1e-12);
    }
}

static void identities(void **state)
{
    (void)state;
    for (double fo = 1e-3; fo < 3; fo *= 1.7) {
        // Centre of a sphere with Bi = 1 as centre of a slab with Bi infinite; exact.
        double a = theta(FV_SPHERE, 1, fo, 0), b = theta(FV_SLAB, INFINITY, fo, 0);
        assert_true(fabs(a - b) < 1e-12);
    }
    check_dev("slab centre, Bi inf, Fo 0.02, 1 - 2 erfc(1/(2 sqrt Fo))", 1 - 2 * erfc(0.5 / sqrt(0.02)),
              theta(FV_SLAB, INFINITY, 0.02, 0), 1e-12, "Carslaw & Jaeger 1959, 3.3(8)");
    double mean;
    assert_int_equal(fv_heat_theta_mean(FV_SPHERE, INFINITY, 0.001, &mean), FV_OK);
    check_dev("sphere mean, Bi inf, Fo 0.001", 1 - 6 * sqrt(0.001 / PI) + 3 * 0.001, mean, 1e-12,
              "Carslaw & Jaeger 1959, 9.3(9), from memory");
}

/* The plain series, summed here with many terms, against the short-time forms. */
static double long_series(fv_shape_1d shape, double bi, double fo, double position, bool mean)
{
    double sum = 0, z, c, c_mean;
    for (int n = 0; n < 4000; n++) {
        fv_heat_eigen(shape, bi, n, &z, &c, &c_mean);
        if (z * z * fo > 45)
            return sum;
        double f = shape == FV_SLAB ? cos(z * position) : position > 0 ? sin(z * position) / (z * position) : 1;
        sum += exp(-z * z * fo) * (mean ? c_mean : c * f);
    }
    fail_msg("too many terms");
    return sum;
}

static void short_times(void **state)
{
    (void)state;
    const double biots[] = {1e-6, 0.01, 0.5, 1 - 1e-7, 1, 1 + 1e-4, 1.001, 1.01, 2, 30, 1e3, 1e6, 1e12, INFINITY};
    const double positions[] = {0, 1e-8, 1e-5, 0.3, 0.8, 0.97, 1};
    double worst = 0, worst_mean = 0;
    for (size_t b = 0; b < sizeof biots / sizeof *biots; b++) {
        for (int s = 0; s < 3; s += 2) {
            fv_shape_1d shape = (fv_shape_1d)s;
            for (double fo = 1e-4; fo <= 0.0101; fo *= 10) {
                for (size_t p = 0; p < sizeof positions / sizeof *positions; p++)
                    worst = fmax(worst, fabs(1 - heat_short_time(shape, biots[b], fo, positions[p]) -
                                             long_series(shape, biots[b], fo, positions[p], false)));
                worst_mean = fmax(worst_mean, fabs(1 - heat_short_time_mean(shape, biots[b], fo) -
                                                   long_series(shape, biots[b], fo, 0, true)));
            }
        }
    }
    printf("check | short-time forms against the series, slab and sphere | 0 | got %.1e, mean %.1e | own identity\n",
           worst, worst_mean);
    assert_true(worst < 1e-11 && worst_mean < 1e-11);
}

static void short_times_of_a_cylinder(void **state)
{
    (void)state;
    const double biots[] = {1e-3, 0.5, 3, 100, 1e4, INFINITY}, positions[] = {0, 0.5, 0.99, 0.998, 0.9995, 1};
    double worst = 0, worst_mean = 0, limit = heat_short_time_limit(FV_CYLINDER), mean;
    for (size_t b = 0; b < sizeof biots / sizeof *biots; b++) {
        double fo = limit * (1 + 1e-12);
        for (size_t p = 0; p < sizeof positions / sizeof *positions; p++)
            worst = fmax(worst, fabs(1 - heat_short_time(FV_CYLINDER, biots[b], fo, positions[p]) -
                                     theta(FV_CYLINDER, biots[b], fo, positions[p])));
        assert_int_equal(fv_heat_theta_mean(FV_CYLINDER, biots[b], fo, &mean), FV_OK);
        worst_mean = fmax(worst_mean, fabs(1 - heat_short_time_mean(FV_CYLINDER, biots[b], fo) - mean));
    }
    printf("check | short-time form against the series, cylinder at Fo 1e-6 | 0 | got %.1e, mean %.1e | own identity\n",
           worst, worst_mean);
    assert_true(worst < 1e-7 && worst_mean < 1e-9);
}

static void products(void **state)
{
    (void)state;
    FILE *file = open_table("heat/products.csv");
    table_row row;
    int rows = 0;
    while (next_row(file, &row)) {
        double h = row.value[1], fo = 1.4e-7 * 3600 * row.value[2], k = 0.45, product = 1;
        bool brick = row.text[0][0] == 'b';
        const double half[3] = {brick ? 0.05 : 0.09, brick ? 0.0625 : 0.15, 0.1};
        for (int i = 0; i < (brick ? 3 : 2); i++) {
            double l = half[i];
            product *= theta(!brick && i == 0 ? FV_CYLINDER : FV_SLAB, h * l / k, fo / (l * l), 0);
        }
        double centre = 100 - 80 * product;
        printf("check | centre of %s, h %s, %g h, degC | %.3f | got %.4f | dev %+.1e | products.csv, 30 digits\n",
               row.text[0], row.text[1], row.value[2], row.value[3], centre, centre - row.value[3]);
        assert_true(fabs(centre - row.value[3]) <= 0.00051);
        rows++;
    }
    fclose(file);
    assert_int_equal(rows, 48);
}

/* A 40 mm steel wall between insulation and oil (Incropera & DeWitt). */
static void steel_wall(void **state)
{
    (void)state;
    double l = 0.04, k = 63.9, rho = 7832, c = 434, h = 500, alpha = 18.8e-6, mean;
    double bi = h * l / k, fo = alpha * 480 / (l * l), face = 60 - 80 * theta(FV_SLAB, bi, fo, 1);
    check_example("steel_wall_centre", 60 - 80 * theta(FV_SLAB, bi, fo, 0), 5e-5);
    check_example("steel_wall_surface", face, 5e-5);
    check_example("steel_wall_flux", h * (face - 60), 2e-4);
    assert_int_equal(fv_heat_theta_mean(FV_SLAB, bi, fo, &mean), FV_OK);
    check_example("steel_wall_heat", PI * 1.0 * l * rho * c * 80 * (1 - mean), 5e-4);
}

/* Fourier number at which theta falls to `target`, by halving. */
static double fourier_for(fv_shape_1d shape, double bi, double position, double target)
{
    double low = 0, high = 1e4;
    for (int i = 0; i < 200; i++) {
        double middle = 0.5 * (low + high);
        if (theta(shape, bi, middle, position) > target)
            low = middle;
        else
            high = middle;
    }
    return 0.5 * (low + high);
}

static void sphere_in_two_steps(void **state)
{
    (void)state;
    double r = 0.005, k = 20, rho = 3000, c = 1000, z, c0, c_mean;
    // In air Bi is 0.0025: the book lumps it, and the exact centre time differs by less than 1 %.
    double fo = fourier_for(FV_SPHERE, 10 * r / k, 0, (335.0 - 20) / (400 - 20));
    check_example("sphere_air_time", fo * r * r * rho * c / k, 0.01);
    assert_int_equal(fv_heat_eigen(FV_SPHERE, 1.5, 0, &z, &c0, &c_mean), FV_OK);
    check_example("sphere_zeta", z, 5e-7);
    check_example("sphere_c", c0, 5e-7);
    fo = fourier_for(FV_SPHERE, 1.5, 0, (50.0 - 20) / (335 - 20));
    check_example("sphere_time", fo * r * r * rho * c / k, 2e-4);
    check_example("sphere_surface", 20 + 315 * theta(FV_SPHERE, 1.5, fo, 1), 2e-4);
}

static void short_cylinders(void **state)
{
    (void)state;
    double alpha = 33.9e-6, t = 900, h = 60, k = 110;
    double round = theta(FV_CYLINDER, h * 0.05 / k, alpha * t / (0.05 * 0.05), 0);
    double bi = h * 0.06 / k, fo = alpha * t / (0.06 * 0.06);
    check_example("brass_centre", 25 + 95 * round * theta(FV_SLAB, bi, fo, 0), 1e-4);
    check_example("brass_end", 25 + 95 * round * theta(FV_SLAB, bi, fo, 1), 1e-4);
    alpha = 0.34 / (900.0 * 3500.0);
    t = 1800;
    double slab = theta(FV_SLAB, 2000 * 0.055 / 0.34, alpha * t / (0.055 * 0.055), 0);
    round = theta(FV_CYLINDER, 2000 * 0.0405 / 0.34, alpha * t / (0.0405 * 0.0405), 0);
    check_example("can_slab", slab, 1e-5);
    check_example("can_cylinder", round, 1e-5);
    check_example("can_centre", 100 - 65 * slab * round, 1e-4);
}

static void ends_and_nonsense(void **state)
{
    (void)state;
    double v;
    for (int s = 0; s < 3; s++) {
        fv_shape_1d shape = (fv_shape_1d)s;
        assert_true(theta(shape, 5, 0, 1) == 1);
        assert_true(theta(shape, INFINITY, 0, 1) == 0);
        assert_true(theta(shape, 5, 1e9, 0) == 0);
        assert_true(theta(shape, 5, INFINITY, 0.5) == 0);
        assert_int_equal(fv_heat_theta_mean(shape, 5, 0, &v), FV_OK);
        assert_true(v == 1);
        double before = 1;
        for (double fo = 1e-8; fo < 10; fo *= 1.1) { // falls all along, over both forms
            assert_int_equal(fv_heat_theta_mean(shape, 5, fo, &v), FV_OK);
            assert_true(v < before);
            before = v;
        }
        assert_int_equal(fv_heat_theta(shape, 0, 1, 0, &v), FV_FAIL);
        assert_int_equal(fv_heat_theta(shape, 1, -1, 0, &v), FV_FAIL);
        assert_int_equal(fv_heat_theta(shape, 1, 1, 1.01, &v), FV_FAIL);
        assert_int_equal(fv_heat_theta(shape, NAN, 1, 0, &v), FV_FAIL);
        assert_int_equal(fv_heat_theta_mean(shape, 1, NAN, &v), FV_FAIL);
        assert_int_equal(fv_heat_eigen(shape, 1, -1, &v, &v, &v), FV_FAIL);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(table_of_270_rows),
        cmocka_unit_test(one_term_coefficients),
        cmocka_unit_test(eigenvalues_in_order),
        cmocka_unit_test(identities),
        cmocka_unit_test(short_times),
        cmocka_unit_test(short_times_of_a_cylinder),
        cmocka_unit_test(products),
        cmocka_unit_test(steel_wall),
        cmocka_unit_test(sphere_in_two_steps),
        cmocka_unit_test(short_cylinders),
        cmocka_unit_test(ends_and_nonsense),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
