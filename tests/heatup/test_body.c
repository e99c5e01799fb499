/* SPDX-License-Identifier: MIT */
/* Pieces whose properties do not change: series, products, changing surroundings, heat to rounding, states. */
#include "checks.h"

#include "farvessel/heat.h"
#include "heatup/body.h"
#include "heatup/rates.h"

#include <time.h>

#define SERIES "reference/heat/conduction.csv, series in 30 digits; Carslaw & Jaeger (1959) 3.11, 7.7, 9.4"
#define PRODUCTS "reference/heat/products.csv; A. B. Newman, Ind. Eng. Chem. 28 (1936) 545"
#define OWN "identity"

static const double DENSITY = 600, DIFFUSIVITY = 1.4e-7, CONDUCTIVITY = 0.45;

static heatup_body_spec wet_sawdust(void)
{
    return (heatup_body_spec){
        .conductivity = CONDUCTIVITY,
        .density = DENSITY,
        .specific_heat = CONDUCTIVITY / DIFFUSIVITY / DENSITY,
        .h_condensing = 200,
        .h_cooling = 12,
        .t_start = KELVIN + 20,
    };
}

static heatup_body_spec brick(double h)
{
    heatup_body_spec spec = wet_sawdust();
    spec.shape = HEATUP_BODY_BLOCK;
    spec.a = 0.10;
    spec.b = 0.125;
    spec.c = 0.20;
    spec.h_condensing = h;
    return spec;
}

static void advance(heatup_body *body, double dt, double tc0, double tc1, bool condensing)
{
    assert_int_equal(heatup_body_advance(body, dt, tc0, tc1, condensing), FV_OK);
}

/* Decays between the points of a bin. */
static void test_rates(void **state)
{
    (void)state;
    heatup_rates rates;
    heatup_rates_init(&rates, 1.0, exp(4.0));
    assert_int_equal(rates.count, 2 * RATES_PER_BIN);
    double worst = 0, values[RATES_MOST];
    for (double t = 1e-4; t < 100; t *= 1.1) {
        for (size_t i = 0; i < rates.count; i++)
            values[i] = exp(-rates.rate[i] * t);
        for (double r = 1; r < exp(4.0); r *= 1.013)
            worst = fmax(worst, fabs(heatup_rates_at(&rates, values, r) - exp(-r * t)));
    }
    check_worst("decay e^(-r t) from 14 points to a factor e^2 of r", worst, 1.2e-8, "the exponential itself");
    heatup_weights weights = {0};
    heatup_rates_spread(&rates, 3.3, 0.7, -2.0, &weights);
    heatup_rates_spread(&rates, 1e9, 0.3, 0, &weights); // beyond the range: at its end
    double mean = 0, centre = 0;
    for (size_t i = 0; i < rates.count; i++) {
        mean += weights.mean[i];
        centre += weights.centre[i];
    }
    assert_true(fabs(mean - 1) < 1e-14 && fabs(centre + 2) < 1e-13);
}

/* One row of the series: the piece with L = 0.05 m, by one step and by seven. A cylinder is a hundred diameters long;
 * its ends, which the row does not have, enter the mean as a factor. */
static void series_row(const char *shape, double biot, double fourier, const double theta[3], double worst[4])
{
    const double size = 0.05, dt = fourier * size * size / DIFFUSIVITY, hot = KELVIN + 100;
    heatup_body_spec spec = wet_sawdust();
    double ends = 1;
    spec.h_condensing = biot * CONDUCTIVITY / size;
    spec.c = 2 * size;
    spec.area = 0.3;
    spec.diameter = 2 * size;
    spec.height = 200 * size;
    spec.shape = shape[0] == 's' && shape[1] == 'l' ? HEATUP_BODY_SLAB : HEATUP_BODY_SPHERE;
    if (shape[0] == 'c') {
        spec.shape = HEATUP_BODY_CYLINDER;
        assert_int_equal(fv_heat_theta_mean(FV_SLAB, biot * 100, fourier / 1e4, &ends), FV_OK);
    }
    for (int steps = 1; steps <= 7; steps += 6) {
        heatup_body *body = heatup_body_new(&spec);
        assert_non_null(body);
        for (int i = 0; i < steps; i++)
            advance(body, dt * (i + 1) / (steps * (steps + 1) / 2), hot, hot, true);
        double core = (hot - heatup_body_core(body)) / 80, mean = (hot - heatup_body_mean(body)) / 80;
        double surface = (hot - heatup_body_surface_mean(body)) / 80;
        worst[0] = fmax(worst[0], fabs(core - theta[0]));
        int which = spec.shape == HEATUP_BODY_CYLINDER ? 3 : 1;
        worst[which] = fmax(worst[which], fabs(mean - theta[2] * ends));
        if (spec.shape != HEATUP_BODY_CYLINDER)
            worst[2] = fmax(worst[2], fabs(surface - theta[1]));
        heatup_body_free(body);
    }
}

/* At depths below the surface, on the shortest axis: theta is the product of what each direction has there. */
static void test_depth(void **state)
{
    static const fv_shape_1d forms[][3] = {
        {FV_SLAB, FV_SLAB, FV_SLAB}, {FV_CYLINDER, FV_SLAB}, {FV_CYLINDER, FV_SLAB}, {FV_SPHERE}};
    static const double halves[][3] = {{0.10, 0.06, 0.08}, {0.05, 0.12, 0}, {0.12, 0.05, 0}, {0.06, 0, 0}};
    static const heatup_body_shape shapes[] = {HEATUP_BODY_BLOCK, HEATUP_BODY_CYLINDER, HEATUP_BODY_CYLINDER,
                                               HEATUP_BODY_SPHERE};
    static const int shortest[] = {1, 0, 1, 0};
    const double hot = KELVIN + 100;
    double worst = 0, jump = 0;
    (void)state;
    for (int s = 0; s < 4; s++) {
        const double *half = halves[s], thin = half[shortest[s]];
        heatup_body_spec spec = wet_sawdust();
        spec.shape = shapes[s];
        spec.a = 2 * half[0];
        spec.b = 2 * half[1];
        spec.c = 2 * half[2];
        spec.diameter = 2 * half[0];
        spec.height = 2 * half[1];
        spec.h_condensing = 200;
        for (int k = 0; k < 20; k++) {
            const double fourier = 0.03 * (k / 5 + 1) * (k / 5 + 1), depth = thin * (k % 5) / 4;
            const double dt = fourier * thin * thin / DIFFUSIVITY;
            heatup_body *body = heatup_body_new(&spec);
            double theta = 1, one;
            assert_non_null(body);
            assert_true(fabs(heatup_body_half(&spec) - thin) < 1e-15);
            for (int i = 0; i < 3 && half[i] > 0; i++) {
                assert_int_equal(fv_heat_theta(forms[s][i], 200 * half[i] / CONDUCTIVITY,
                                               DIFFUSIVITY * dt / (half[i] * half[i]),
                                               i == shortest[s] ? 1 - depth / thin : 0, &one),
                                 FV_OK);
                theta *= one;
            }
            advance(body, 0.4 * dt, hot, hot, true);
            advance(body, 0.6 * dt, hot, hot, true);
            worst = fmax(worst, fabs((hot - heatup_body_at(body, depth)) / 80 - theta));
            heatup_body *other = heatup_body_copy(body);
            assert_non_null(other);
            advance(body, 40, hot, hot, true);
            advance(other, 40, hot, hot, false); /* the same field in the modes of another coefficient */
            jump = fmax(jump, k % 5 > 1 ? fabs(heatup_body_at(body, depth) - heatup_body_at(other, depth)) : 0);
            heatup_body_free(other);
            heatup_body_free(body);
        }
    }
    check_worst("at five depths of block, log, disc and ball, Fourier number 0.03 to 0.48, share of the step", worst,
                2e-5, "fv_heat_theta");
    /* a block has 14 modes to a direction, which blur what the skin does over the outer quarter (0.24 K there) */
    check_worst("half way in and deeper, 40 s after steam has stopped, K", jump, 0.03,
                "erfc(25 mm / 2 sqrt(alpha t)) is 0: not felt yet");
}

static void test_series(void **state)
{
    (void)state;
    char line[512], shape[32], biot[32];
    FILE *file = open_table("heat/conduction.csv");
    double worst[4] = {0};
    int rows = 0;
    while (fgets(line, sizeof line, file)) {
        double fourier, theta0, theta_surface, theta_mean;
        if (sscanf(line, "%31[^,],%31[^,],%*[^,],%*[^,],%lf,%lf,%*[^,],%lf,%lf", shape, biot, &fourier, &theta0,
                   &theta_surface, &theta_mean) != 6)
            continue;
        series_row(shape, strtod(biot, NULL), fourier, (double[]){theta0, theta_surface, theta_mean}, worst);
        rows++;
    }
    fclose(file);
    assert_int_equal(rows, 270);
    check_worst("centre of slab, cylinder, sphere, 270 rows, 1 and 7 steps, share of the step", worst[0], 1e-7, SERIES);
    check_worst("volume mean, slab and sphere", worst[1], 1e-8, SERIES);
    check_worst("volume mean, cylinder a hundred diameters long", worst[3], 1e-8, SERIES);
    check_worst("surface, slab and sphere", worst[2], 1e-6, SERIES);
}

/* Earlier than the series' rows: Fourier number 0.005 and less, where fv_heat_theta goes by its short-time form. */
static void test_early(void **state)
{
    (void)state;
    const double biots[] = {0.5, 5, 50, (double)INFINITY}, hot = KELVIN + 100, size = 0.05;
    double worst_core = 0, worst_mean = 0;
    for (int shape = 0; shape < 2; shape++)
        for (int i = 0; i < 4; i++)
            for (double fourier = 1e-4; fourier < 0.03; fourier *= 1.3) {
                heatup_body_spec spec = wet_sawdust();
                spec.h_condensing = biots[i] * CONDUCTIVITY / size;
                spec.shape = shape == 0 ? HEATUP_BODY_SLAB : HEATUP_BODY_SPHERE;
                spec.c = spec.diameter = 2 * size;
                spec.area = 1;
                heatup_body *body = heatup_body_new(&spec);
                assert_non_null(body);
                advance(body, fourier * size * size / DIFFUSIVITY, hot, hot, true);
                double centre, mean;
                fv_shape_1d form = shape == 0 ? FV_SLAB : FV_SPHERE;
                assert_int_equal(fv_heat_theta(form, biots[i], fourier, 0, &centre), FV_OK);
                assert_int_equal(fv_heat_theta_mean(form, biots[i], fourier, &mean), FV_OK);
                worst_core = fmax(worst_core, fabs((hot - heatup_body_core(body)) / 80 - centre));
                if (fourier >= 0.0005)
                    worst_mean = fmax(worst_mean, fabs((hot - heatup_body_mean(body)) / 80 - mean));
                heatup_body_free(body);
            }
    check_worst("centre, Fourier number 0.0001 to 0.03, share of the step", worst_core, 1e-6, "fv_heat_theta");
    check_worst("mean, Fourier number 0.0005 to 0.03, share of the step", worst_mean, 1e-6, "fv_heat_theta_mean");
}

static void test_products(void **state)
{
    (void)state;
    char line[512], body_name[64], film[32];
    FILE *file = open_table("heat/products.csv");
    int rows = 0;
    while (fgets(line, sizeof line, file)) {
        double hours, expected;
        if (sscanf(line, "%63[^,],%31[^,],%lf,%lf", body_name, film, &hours, &expected) != 4)
            continue;
        heatup_body_spec spec = brick(strtod(film, NULL));
        if (body_name[0] == 'c') {
            spec.shape = HEATUP_BODY_CYLINDER;
            spec.diameter = 0.18;
            spec.height = 0.30;
        }
        heatup_body *body = heatup_body_new(&spec);
        assert_non_null(body);
        for (int i = 0; i < 12; i++)
            advance(body, hours * 300, KELVIN + 100, KELVIN + 100, true);
        char what[160];
        snprintf(what, sizeof what, "%s, h %s, after %g h, degC", body_name, film, hours);
        check_off(what, expected, heatup_body_core(body) - KELVIN, 6e-4, PRODUCTS);
        heatup_body_free(body);
        rows++;
    }
    fclose(file);
    assert_int_equal(rows, 48);
}

/* Duhamel's integral over a chamber that climbs as 100 - 80 e^(-t/tau), by Simpson's rule on the products. */
static double duhamel(const heatup_body_spec *spec, double t, double tau, bool mean)
{
    const double sizes[] = {spec->a / 2, spec->b / 2, spec->c / 2};
    const int n = 4000;
    double sum = 0;
    for (int i = 0; i <= n; i++) {
        double s = t * i / n, theta = 1;
        for (int d = 0; d < 3 && i > 0; d++) {
            double one, biot = spec->h_condensing * sizes[d] / CONDUCTIVITY,
                        fo = DIFFUSIVITY * s / (sizes[d] * sizes[d]);
            assert_int_equal(
                mean ? fv_heat_theta_mean(FV_SLAB, biot, fo, &one) : fv_heat_theta(FV_SLAB, biot, fo, 0, &one), FV_OK);
            theta *= one;
        }
        double rise = 80 / tau * exp(-(t - s) / tau);
        sum += (i == 0 || i == n ? 1 : i % 2 ? 4 : 2) * rise * (1 - theta);
    }
    return spec->t_start + sum * t / n / 3;
}

/* The chamber's own curve, stepped linearly through its points: the error left is that of the straight pieces. */
static void test_climbing_chamber(void **state)
{
    (void)state;
    const double tau = 2700;
    heatup_body_spec spec = brick(200);
    double worst_core = 0, worst_mean = 0;
    heatup_body *body = heatup_body_new(&spec);
    assert_non_null(body);
    for (int i = 1; i <= 4 * 720; i++) {
        double tc0 = KELVIN + 100 - 80 * exp(-5.0 * (i - 1) / tau), tc1 = KELVIN + 100 - 80 * exp(-5.0 * i / tau);
        advance(body, 5, tc0, tc1, true);
        if (i % 720 == 0) {
            worst_core = fmax(worst_core, fabs(heatup_body_core(body) - duhamel(&spec, 5.0 * i, tau, false)));
            worst_mean = fmax(worst_mean, fabs(heatup_body_mean(body) - duhamel(&spec, 5.0 * i, tau, true)));
        }
    }
    heatup_body_free(body);
    check_worst("block in a chamber climbing with 45 min: centre against Duhamel's integral, K", worst_core, 5e-5,
                "Carslaw & Jaeger (1959) 1.14; Simpson's rule on products");
    check_worst("the same, mean, K", worst_mean, 5e-5, "Carslaw & Jaeger (1959) 1.14; Simpson's rule on products");
}

/* A linear ramp in one step, in a thousand, and in odd ones. */
static void test_step_size(void **state)
{
    (void)state;
    heatup_body_spec spec = brick(200);
    const double end = 7200, slope = 80 / end, start = KELVIN + 20;
    double core[3], heat[3];
    for (int way = 0; way < 3; way++) {
        heatup_body *body = heatup_body_new(&spec);
        assert_non_null(body);
        uint64_t random = 7;
        for (double t = 0; t < end;) {
            double dt = way == 0 ? end : way == 1 ? end / 1000 : 1 + 600 * next_random(&random);
            dt = fmin(dt, end - t) < dt * (1 - 1e-9) ? end - t : dt;
            advance(body, dt, start + slope * t, start + slope * (t + dt), true);
            t += dt;
            if (end - t < 1e-6)
                break;
        }
        core[way] = heatup_body_core(body);
        heat[way] = heatup_body_heat(body);
        heatup_body_free(body);
    }
    for (int way = 1; way < 3; way++) {
        assert_true(fabs(core[way] - core[0]) < 1e-9);
        assert_true(fabs(heat[way] / heat[0] - 1) < 1e-11);
    }
    check_worst("linear ramp in 1, 1000 and odd steps: centre, K", fabs(core[1] - core[0]), 1e-9, OWN);
}

/* Any history, any steps, coefficient changing on the way: what probes promise is what is booked. */
static void test_heat(void **state)
{
    (void)state;
    const heatup_body_shape shapes[] = {HEATUP_BODY_BLOCK, HEATUP_BODY_SLAB, HEATUP_BODY_CYLINDER, HEATUP_BODY_SPHERE};
    for (int i = 0; i < 4; i++) {
        heatup_body_spec spec = brick(200);
        spec.shape = shapes[i];
        spec.area = 0.5;
        spec.diameter = 0.15;
        spec.height = 0.25;
        heatup_body *body = heatup_body_new(&spec);
        assert_non_null(body);
        assert_true(heatup_body_is_linear(body));
        double promised = 0, gross = 0, worst_after = 0;
        uint64_t random = 11;
        for (int step = 0; step < 400; step++) {
            double dt = pow(10, -1 + 4.5 * next_random(&random)), t = KELVIN + 110 * next_random(&random), a, b;
            bool condensing = next_random(&random) < 0.8;
            assert_int_equal(heatup_body_probe_held(body, dt, t, condensing, &a, &b), FV_OK);
            double core = heatup_body_core_after(body, dt, t, 0, condensing);
            advance(body, dt, t, t, condensing);
            worst_after = fmax(worst_after, fabs(core - heatup_body_core(body)));
            promised += a + b * t;
            gross += fabs(a + b * t);
        }
        assert_true(worst_after < 1e-9);
        check_worst("heat promised less heat booked, 400 odd steps, share of the gross",
                    fabs(promised - heatup_body_heat(body)) / gross, 1e-12, OWN);
        for (int step = 0; step < 100; step++)
            advance(body, 1e5, KELVIN + 90, KELVIN + 90, true);
        double full = heatup_body_mass(body) * spec.specific_heat * 70;
        check_dev("heat after a very long time, m c dT, J", full, heatup_body_heat(body), 1e-12, OWN);
        assert_true(fabs(heatup_body_core(body) - KELVIN - 90) < 1e-9 &&
                    fabs(heatup_body_surface_mean(body) - KELVIN - 90) < 1e-6);
        heatup_body_free(body);
    }
}

/* A slab on 2000 cells, implicit midpoint rule in steps of a tenth of a second: another method altogether. */
enum { SLAB_CELLS = 2000 };
typedef struct {
    double t[SLAB_CELLS];
    double size;
} fine_slab;

static void fine_step(fine_slab *slab, double dt, double tc, double h)
{
    static double upper[SLAB_CELLS];
    double width = slab->size / SLAB_CELLS, c = CONDUCTIVITY / DIFFUSIVITY * width, g = CONDUCTIVITY / width;
    double film = 1 / (1 / h + width / (2 * CONDUCTIVITY)), half = dt / 2;
    double before = 0, solved = 0;
    double *t = slab->t, x[SLAB_CELLS];
    for (int i = 0; i < SLAB_CELLS; i++) { // (c + half K) x = c t + half b, then t = 2 x - t
        double left = i > 0 ? g : 0, right = i + 1 < SLAB_CELLS ? g : film;
        double pivot = c + half * (left + right) - half * left * before;
        double rhs = c * t[i] + (i + 1 < SLAB_CELLS ? 0 : half * film * tc) + half * left * solved;
        before = upper[i] = half * right / pivot;
        solved = x[i] = rhs / pivot;
    }
    for (int i = SLAB_CELLS - 2; i >= 0; i--)
        x[i] += upper[i] * x[i + 1];
    for (int i = 0; i < SLAB_CELLS; i++)
        t[i] = 2 * x[i] - t[i];
}

/* Steam on, off, on, off: the coefficient jumps from 200 to 12 and back while the slab is far from even. */
static void test_change_of_coefficient(void **state)
{
    (void)state;
    static fine_slab fine;
    heatup_body_spec spec = wet_sawdust();
    spec.shape = HEATUP_BODY_SLAB;
    spec.c = 0.1;
    spec.area = 1;
    heatup_body *body = heatup_body_new(&spec);
    assert_non_null(body);
    fine.size = 0.05;
    for (int i = 0; i < SLAB_CELLS; i++)
        fine.t[i] = spec.t_start;
    double tc = spec.t_start, worst_core = 0, worst_mean = 0;
    for (int minute = 0; minute < 240; minute++) {
        bool condensing = minute < 30 || (minute >= 60 && minute < 120);
        double next = tc + ((condensing ? 100 : 40) + KELVIN - tc) * 0.2;
        advance(body, 60, tc, next, condensing);
        for (int i = 0; i < 300; i++)
            fine_step(&fine, 0.2, tc + (next - tc) * (i + 0.5) / 300, condensing ? 200 : 12);
        tc = next;
        double mean = 0, centre = 1.125 * fine.t[0] - 0.125 * fine.t[1];
        for (int i = 0; i < SLAB_CELLS; i++)
            mean += fine.t[i] / SLAB_CELLS;
        worst_core = fmax(worst_core, fabs(centre - heatup_body_core(body)));
        worst_mean = fmax(worst_mean, fabs(mean - heatup_body_mean(body)));
    }
    heatup_body_free(body);
    check_worst("slab, coefficient 200 and 12 in turns, 4 h: centre, K", worst_core, 5e-5, "2000 cells, 0.2 s");
    check_worst("the same, mean, K", worst_mean, 5e-5, "2000 cells, 0.2 s");
}

/* Block and cylinder through the same changes, against cells without latent heat: modes and cells share nothing. */
static void test_change_in_space(void **state)
{
    (void)state;
    double worst[2][2] = {{0}};
    for (int fine = 0; fine < 2; fine++)
        for (int shape = 0; shape < 2; shape++) {
            heatup_body_spec spec = brick(200);
            spec.shape = shape ? HEATUP_BODY_CYLINDER : HEATUP_BODY_BLOCK;
            spec.diameter = 0.12;
            spec.height = 0.15;
            spec.t_start = KELVIN - 1e-9;
            heatup_body *modes = heatup_body_new(&spec);
            spec.moisture = 1e-12;
            spec.cells = fine ? 16 : 8;
            heatup_body *cells = heatup_body_new(&spec);
            assert_true(modes && cells && heatup_body_is_linear(modes) && !heatup_body_is_linear(cells));
            double tc = spec.t_start;
            for (int minute = 0; minute < 180; minute++) {
                bool condensing = minute < 20 || (minute >= 60 && minute < 100);
                double next = tc + ((condensing ? 100 : 40) + KELVIN - tc) * 0.2;
                advance(modes, 60, tc, next, condensing);
                advance(cells, 60, tc, next, condensing);
                tc = next;
                worst[fine][shape] = fmax(worst[fine][shape], fabs(heatup_body_core(modes) - heatup_body_core(cells)));
            }
            heatup_body_free(modes);
            heatup_body_free(cells);
        }
    check_worst("block, coefficient changing: centre by modes less by 16 cells to the half side, K", worst[1][0], 0.2,
                "finite volumes");
    check_worst("cylinder, the same, K", worst[1][1], 0.25, "finite volumes");
    check_between("ratio of these differences at 8 and 16 cells, block (4: second order)", 3, 5.5,
                  worst[0][0] / worst[1][0], "finite volumes");
    check_between("the same, cylinder", 3, 5.5, worst[0][1] / worst[1][1], "finite volumes");
}

/* A change of coefficient moves neither centre nor heat by itself, however uneven the piece is. */
static void test_no_jump(void **state)
{
    (void)state;
    heatup_body_spec spec = brick(200);
    for (double minutes = 1; minutes < 300; minutes *= 3) {
        heatup_body *body = heatup_body_new(&spec);
        assert_non_null(body);
        advance(body, minutes * 60, KELVIN + 20, KELVIN + 100, true);
        double core = heatup_body_core(body), mean = heatup_body_mean(body);
        assert_true(fabs(heatup_body_core_after(body, 0, KELVIN + 100, 0, false) - core) < 1e-10);
        advance(body, 0, KELVIN + 100, KELVIN + 100, false);
        assert_true(fabs(heatup_body_core(body) - core) < 1e-10 && fabs(heatup_body_mean(body) - mean) < 1e-10);
        heatup_body_free(body);
    }
}

static void test_sizes(void **state)
{
    (void)state;
    heatup_body_spec spec = wet_sawdust();
    spec.a = 0.1;
    spec.b = 0.2;
    spec.c = 0.3;
    spec.area = 0.5;
    spec.diameter = 0.2;
    spec.height = 0.4;
    const double areas[] = {0.22, 1.0, 0.1 * PI, 0.04 * PI}, volumes[] = {0.006, 0.15, 0.004 * PI, 0.004 / 3 * PI};
    for (int i = 0; i < 4; i++) {
        spec.shape = (heatup_body_shape)i;
        heatup_body *body = heatup_body_new(&spec);
        assert_non_null(body);
        assert_true(fabs(heatup_body_area(body) / areas[i] - 1) < 1e-14);
        assert_true(fabs(heatup_body_mass(body) / (volumes[i] * DENSITY) - 1) < 1e-14);
        heatup_body_free(body);
    }
}

static void test_refuses(void **state)
{
    (void)state;
    heatup_body_spec good = brick(200), spec;
    double *figures[] = {&spec.a,
                         &spec.b,
                         &spec.c,
                         &spec.conductivity,
                         &spec.density,
                         &spec.specific_heat,
                         &spec.h_condensing,
                         &spec.h_cooling,
                         &spec.t_start};
    for (size_t i = 0; i < sizeof figures / sizeof *figures; i++)
        for (int bad = 0; bad < 3; bad++) {
            spec = good;
            *figures[i] = bad == 0 ? 0 : bad == 1 ? -1 : (double)NAN;
            assert_null(heatup_body_new(&spec));
        }
    heatup_body *body = heatup_body_new(&good);
    assert_non_null(body);
    double a, b;
    assert_int_equal(heatup_body_probe_held(body, -1, 300, true, &a, &b), FV_FAIL);
    assert_int_equal(heatup_body_advance(body, 1, (double)NAN, 300, true), FV_FAIL);
    assert_true(isnan(heatup_body_core_after(body, 1, 300, (double)INFINITY, true)));
    assert_true(heatup_body_core(body) == good.t_start);
    heatup_body_free(body);
    heatup_body_free(NULL);
}

/* Hours from 20 degC to `target` degC with steam at 100 degC. */
static double hours_to(const heatup_body_spec *spec, double target)
{
    heatup_body *body = heatup_body_new(spec);
    assert_non_null(body);
    double hot = KELVIN + 100, t = 0, dt = 600;
    while (heatup_body_core_after(body, dt, hot, 0, true) < KELVIN + target) {
        advance(body, dt, hot, hot, true);
        t += dt;
    }
    double low = 0, high = dt;
    while (high - low > 1e-3) {
        double middle = 0.5 * (low + high);
        if (heatup_body_core_after(body, middle, hot, 0, true) < KELVIN + target)
            low = middle;
        else
            high = middle;
    }
    heatup_body_free(body);
    return (t + high) / 3600;
}

static void test_core_times(void **state)
{
    (void)state;
    char line[512], name[64];
    FILE *file = open_table("heatup/core_times.csv");
    while (fgets(line, sizeof line, file)) {
        double a, b, c, hours[6];
        assert_int_equal(sscanf(line, "%63[^,],%lf,%lf,%lf,%lf,%lf,%lf,%lf,%lf,%lf", name, &a, &b, &c, &hours[0],
                                &hours[1], &hours[2], &hours[3], &hours[4], &hours[5]),
                         10);
        for (int i = 0; i < 6; i++) {
            const double targets[] = {90, 95, 98};
            heatup_body_spec spec = brick((double)INFINITY);
            spec.a = a;
            spec.b = b;
            spec.c = c;
            spec.specific_heat = CONDUCTIVITY / (i % 2 ? 2.0e-7 : 1.5e-7) / DENSITY;
            char what[128];
            snprintf(what, sizeof what, "%s to %g degC, alpha %s, h", name, targets[i / 2],
                     i % 2 ? "2.0e-7" : "1.5e-7");
            check_dev(what, hours[i], hours_to(&spec, targets[i / 2]), 0.03,
                      "reference/heatup/core_times.csv, series, two digits");
        }
    }
    fclose(file);
}

static void test_common_practice(void **state)
{
    (void)state;
    heatup_body_spec block = brick(200);
    block.a = block.b = 0.13;
    block.c = 0.20;
    check_between("2.3 kg block, h 200 W/m2/K, steam at once: hours to 95 degC", 3, 5.5, hours_to(&block, 95),
                  "common practice, no source");
    double alone = hours_to(&block, 95);
    block.a = block.b = block.c = 0.40;
    double packed = hours_to(&block, 95);
    check_between("the same blocks in a tight 40 cm stack: hours to 95 degC", 24, 60, packed,
                  "common practice, no source");
    check_between("tight stack over single block", 2, 10, packed / alone,
                  "Simpson, Wang & Verrill, FPL-RP-607 (2003): solid piles 2 to 10 times slower");
}

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

/* Printed, not judged: machines differ. */
static void test_cost(void **state)
{
    (void)state;
    heatup_body_spec spec = brick(200);
    heatup_body *body = heatup_body_new(&spec);
    assert_non_null(body);
    const double hot = KELVIN + 100;
    for (int changing = 0; changing < 2; changing++) {
        double start = seconds(), a, b;
        const int n = 2000;
        for (int i = 0; i < n; i++) {
            double dt = changing ? 60 + i % 7 : 60;
            assert_int_equal(heatup_body_probe_held(body, dt, hot, true, &a, &b), FV_OK);
            advance(body, dt, hot, hot, true);
        }
        printf("cost | block, probe and step, dt %s | %.2f us\n", changing ? "changed" : "as before",
               (seconds() - start) / n * 1e6);
    }
    heatup_body_free(body);
}

/* Coefficients that are equal, or nearly so: the change from one to the other is smooth and, at last, none. */
static void test_equal_coefficients(void **state)
{
    (void)state;
    const double beside[] = {0, 1e-15, 1e-13, 1e-11, 1e-9, 1e-7, 1e-6, 1e-5, 3e-5, 1e-4, 1e-3};
    double worst = 0, unlike = 0;
    for (int shape = 0; shape < 4; shape++)
        for (int sign = -1; sign <= 1; sign += 2) {
            double core = 0, mean = 0;
            for (size_t i = 0; i < sizeof beside / sizeof *beside; i++) {
                heatup_body_spec spec = brick(12 * (1 + sign * beside[i]));
                spec.shape = (heatup_body_shape)shape;
                spec.area = 0.02;
                spec.diameter = 0.12;
                spec.height = 0.2;
                heatup_body *body = heatup_body_new(&spec);
                assert_non_null(body);
                advance(body, 4000, KELVIN + 100, KELVIN + 100, true);
                advance(body, 900, KELVIN + 30, KELVIN + 30, false);
                advance(body, 900, KELVIN + 90, KELVIN + 90, true);
                if (i == 0) {
                    core = heatup_body_core(body);
                    mean = heatup_body_mean(body);
                    /* the one coefficient all the way */
                    spec.h_cooling = spec.h_condensing = 12;
                    heatup_body *plain = heatup_body_new(&spec);
                    assert_non_null(plain);
                    advance(plain, 4000, KELVIN + 100, KELVIN + 100, false);
                    advance(plain, 900, KELVIN + 30, KELVIN + 30, false);
                    advance(plain, 900, KELVIN + 90, KELVIN + 90, false);
                    unlike =
                        fmax(unlike, fmax(fabs(heatup_body_core(plain) - core), fabs(heatup_body_mean(plain) - mean)));
                    heatup_body_free(plain);
                }
                const double off = fmax(fabs(heatup_body_core(body) - core), fabs(heatup_body_mean(body) - mean));
                /* 50 K and more to go: not over 100 K for a change of the coefficient by itself */
                assert_true(isfinite(heatup_body_core(body)) && isfinite(heatup_body_mean(body)));
                worst = fmax(worst, off / (1e-7 + 100 * beside[i]));
                heatup_body_free(body);
            }
        }
    check_worst("equal coefficients: two spectra against one, K", unlike, 5e-5, "identity; cut-off modes");
    check_worst("nearly equal coefficients, part of what is allowed", worst, 1, "continuity");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_rates),
        cmocka_unit_test(test_series),
        cmocka_unit_test(test_depth),
        cmocka_unit_test(test_early),
        cmocka_unit_test(test_products),
        cmocka_unit_test(test_climbing_chamber),
        cmocka_unit_test(test_step_size),
        cmocka_unit_test(test_heat),
        cmocka_unit_test(test_change_of_coefficient),
        cmocka_unit_test(test_change_in_space),
        cmocka_unit_test(test_no_jump),
        cmocka_unit_test(test_sizes),
        cmocka_unit_test(test_refuses),
        cmocka_unit_test(test_core_times),
        cmocka_unit_test(test_common_practice),
        cmocka_unit_test(test_equal_coefficients),
        cmocka_unit_test(test_cost),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
