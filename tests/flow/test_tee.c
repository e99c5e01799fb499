/* SPDX-License-Identifier: MIT */
#include "farvessel/flow.h"
#include "flow/check.h"

static const double equal[3] = {1.0, 1.0, 1.0};

/* Loss coefficient of total pressure from leg `from` to leg `to`, in heads of leg `common`. */
static double loss(const double area[3], double angle, const double g[3], int from, int to, int common)
{
    double drop[2], jacobian[2][3];
    assert_int_not_equal(fv_flow_tee(area, angle, g, drop, jacobian), FV_FAIL);
    double p[3] = {0.0, -drop[0], -drop[1]};
    double head[3];
    for (int i = 0; i < 3; i++)
        head[i] = 0.5 * g[i] * g[i] / (area[i] * area[i]);
    return (p[from] + head[from] - p[to] - head[to]) / head[common];
}

/* A. Gardel, Bull. Tech. Suisse Romande 83 (1957), square tee, sharp edges, from memory; a = branch area / run area.
 */
static void gardel_comparison(void **state)
{
    (void)state;
    const char *source = "Gardel (1957), from memory";
    for (int i = 0; i <= 4; i++) {
        char what[80];
        double q = i / 4.0;
        double s = 1.0 - q;
        const double divide[3] = {1.0, -s, -q};
        const double combine[3] = {s, -1.0, q};
        snprintf(what, sizeof what, "dividing square tee, q %.2f, branch K", q);
        check_off(what, 0.95 * s * s + 1.3 * q * q + 0.8 * q * s, loss(equal, 0.5 * PI, divide, 0, 2, 0), 0.12, source);
        snprintf(what, sizeof what, "dividing square tee, q %.2f, run K", q);
        check_off(what, 0.03 * s * s + 0.35 * q * q - 0.2 * q * s, loss(equal, 0.5 * PI, divide, 0, 1, 0), 0.16,
                  source);
        snprintf(what, sizeof what, "combining square tee, q %.2f, branch K", q);
        check_off(what, -0.92 * s * s + 1.2 * q * q + q * s, loss(equal, 0.5 * PI, combine, 2, 1, 1), 0.27, source);
        snprintf(what, sizeof what, "combining square tee, q %.2f, run K", q);
        check_off(what, 0.03 * s * s + 0.62 * q * q + q * s, loss(equal, 0.5 * PI, combine, 0, 1, 1), 0.40, source);
    }
    for (int i = 1; i <= 4; i++) {
        // branch of half the bore, a = 1/4, in heads of the branch
        double q = i / 4.0;
        double s = 1.0 - q;
        char what[80];
        const double area[3] = {1.0, 1.0, 0.25};
        const double divide[3] = {1.0, -s, -q};
        double gardel = 0.95 * s * s + q * q * (1.0 + 0.375 / 0.0625) + 0.4 * q * s * 5.0;
        snprintf(what, sizeof what, "dividing, branch of half the bore, q %.2f, K on its head", q);
        check_off(what, gardel / (16.0 * q * q), loss(area, 0.5 * PI, divide, 0, 2, 2), 0.14, source);
    }
}

static void published_constants(void **state)
{
    (void)state;
    const double branch_only[3] = {1.0, 0.0, -1.0};
    const double half[3] = {1.0, -0.5, -0.5};
    const double join[3] = {0.5, -1.0, 0.5};
    double elbow = loss(equal, 0.5 * PI, branch_only, 0, 2, 0);
    check_off("2 in tee, all through the branch, K", 1.14, elbow, 0.5, "Crane TP-410, 60 f_T, from memory");
    check_off("2 in tee, screwed, branch, K", 1.40, elbow, 0.5, "Rishel, HVAC Pump Handbook 2nd ed., Table 3.10");
    check_off("2 in tee, flanged, branch, K", 0.83, elbow, 0.5, "Rishel, Table 3.11");
    double run = loss(equal, 0.5 * PI, half, 0, 1, 0);
    check_off("2 in tee, half through, run, K", 0.20, run, 0.25, "Rishel, Table 3.11, flanged; split not stated");
    check_off("2 in tee, half joining, run, K", 0.38, loss(equal, 0.5 * PI, join, 0, 1, 1), 0.25,
              "Crane 20 f_T, from memory");
    check_off("combining square tee, half and half, run, K", 1.55 * 0.5 - 0.25, loss(equal, 0.5 * PI, join, 0, 1, 1),
              0.05, "Levin, in Idelchik's handbook, from memory");
    check_dev("Hager's bend, 1 + 1 - 2 cos 67.5", 2.0 - 2.0 * cos(67.5 * PI / 180.0), elbow, 1e-14,
              "Hager (1984), from memory");
}

static void formulas_by_hand(void **state)
{
    (void)state;
    const double g[3] = {1.0, -0.7, -0.3};
    check_dev("dividing run, q 0.7: q^2 - 3q/2 + 1/2", 0.49 - 1.05 + 0.5, loss(equal, 0.5 * PI, g, 0, 1, 0), 1e-13,
              "Bassett et al. (2001), from memory");
    check_dev("dividing branch, q 0.3, 45 degrees", 1.0 + 0.09 - 0.6 * cos(PI * 3.0 / 16.0),
              loss(equal, 0.25 * PI, g, 0, 2, 0), 1e-13, "Hager (1984), from memory");
    const double wide[3] = {1.0, 2.0, 0.5};
    const double straight[3] = {1.0, -1.0, 0.0};
    check_dev("enlarging run, no branch flow, on the small bore", 0.25, loss(wide, 0.5 * PI, straight, 0, 1, 0), 1e-13,
              "Borda-Carnot");
    const double back[3] = {-1.0, 1.0, 0.0};
    check_dev("narrowing run, no branch flow, on the small bore", 0.25, loss(wide, 0.5 * PI, back, 1, 0, 0), 1e-13,
              "0.5 (1 - 1/2)");
    const double narrow[3] = {1.0, 1.0, 1e-4};
    const double bleed[3] = {1.0, -0.9, -0.1};
    double entrance = 1.0 - 0.5 * (1.0 - pow(cos(67.5 * PI / 180.0), 2.0));
    check_dev("very narrow square branch, on its head", entrance, loss(narrow, 0.5 * PI, bleed, 0, 2, 2), 0.002,
              "this program's choice");
}

typedef struct {
    double area[3];
    double angle;
} some_tee;

static some_tee random_tee(uint64_t *seed)
{
    some_tee tee;
    double run = 1e-5 * pow(100.0, next_random(seed));
    tee.area[0] = run;
    tee.area[1] = next_random(seed) < 0.3 ? run : run * (0.3 + 2.0 * next_random(seed));
    tee.area[2] = next_random(seed) < 0.3 ? run : run * (0.05 + 1.2 * next_random(seed));
    tee.angle = PI * (0.17 + 0.66 * next_random(seed));
    return tee;
}

/* Flows on the circle of all splits, scaled to 1. */
static void split(double phase, double g[3])
{
    for (int i = 0; i < 3; i++)
        g[i] = sin(phase + i * 2.0 * PI / 3.0);
    g[2] = -(g[0] + g[1]);
}

static void derivatives(void **state)
{
    (void)state;
    uint64_t seed = 7;
    double worst = 0.0;
    for (int trial = 0; trial < 20000; trial++) {
        some_tee tee = random_tee(&seed);
        double g[3], drop[2], low[2], high[2], jacobian[2][3], unused[2][3];
        // every third split within the blend of one of the legs
        double phase =
            trial % 3 ? 2.0 * PI * next_random(&seed) : (trial % 6) * PI / 3.0 + 0.03 * (next_random(&seed) - 0.5);
        split(phase, g);
        assert_int_not_equal(fv_flow_tee(tee.area, tee.angle, g, drop, jacobian), FV_FAIL);
        double least = fmin(tee.area[0], fmin(tee.area[1], tee.area[2]));
        for (int j = 0; j < 3; j++) {
            double h = 1e-7;
            double up[3] = {g[0], g[1], g[2]};
            double down[3] = {g[0], g[1], g[2]};
            up[j] += h;
            down[j] -= h;
            fv_flow_tee(tee.area, tee.angle, up, high, unused);
            fv_flow_tee(tee.area, tee.angle, down, low, unused);
            for (int i = 0; i < 2; i++)
                worst = fmax(worst, fabs((high[i] - low[i]) / (2.0 * h) - jacobian[i][j]) * least * least);
        }
        // degree 2: g . gradient = 2 drop
        for (int i = 0; i < 2; i++) {
            double sum = jacobian[i][0] * g[0] + jacobian[i][1] * g[1] + jacobian[i][2] * g[2];
            assert_true(fabs(sum - 2.0 * drop[i]) * least * least < 1e-13);
        }
    }
    printf("derivatives | tee | 20000 splits | largest deviation from differences %.1e heads\n", worst);
    assert_true(worst < 1e-5); // second derivatives in the blend reach 1/0.01
}

/* Round all splits in small steps: neither the drops nor their slopes may jump. */
static void smooth_in_all_directions(void **state)
{
    (void)state;
    uint64_t seed = 11;
    double largest = 0.0;
    double largest_slope = 0.0;
    for (int trial = 0; trial < 40; trial++) {
        some_tee tee = random_tee(&seed);
        double least = fmin(tee.area[0], fmin(tee.area[1], tee.area[2]));
        double before[2], jacobian_before[2][3];
        for (int step = 0; step <= 60000; step++) {
            double g[3], drop[2], jacobian[2][3];
            split(2.0 * PI * step / 60000.0, g);
            fv_flow_tee(tee.area, tee.angle, g, drop, jacobian);
            for (int i = 0; step > 0 && i < 2; i++) {
                largest = fmax(largest, fabs(drop[i] - before[i]) * least * least);
                for (int j = 0; j < 3; j++)
                    largest_slope = fmax(largest_slope, fabs(jacobian[i][j] - jacobian_before[i][j]) * least * least);
            }
            memcpy(before, drop, sizeof before);
            memcpy(jacobian_before, jacobian, sizeof jacobian_before);
        }
    }
    printf("continuity | tee | steps of 1e-4 of the flow | drop %.1e, slope %.1e heads\n", largest, largest_slope);
    assert_true(largest < 1e-3);
    assert_true(largest_slope < 0.05);
}

/* Seen from the other end of the run the tee is the same. */
static void mirror(void **state)
{
    (void)state;
    uint64_t seed = 3;
    for (int trial = 0; trial < 2000; trial++) {
        some_tee tee = random_tee(&seed);
        double g[3], drop[2], other[2], jacobian[2][3];
        split(2.0 * PI * next_random(&seed), g);
        double scale = pow(fmin(tee.area[0], fmin(tee.area[1], tee.area[2])), 2.0);
        const double area_back[3] = {tee.area[1], tee.area[0], tee.area[2]};
        const double g_back[3] = {g[1], g[0], g[2]};
        fv_flow_tee(tee.area, tee.angle, g, drop, jacobian);
        fv_flow_tee(area_back, PI - tee.angle, g_back, other, jacobian);
        assert_true(fabs(other[0] + drop[0]) * scale < 1e-13);
        assert_true(fabs(other[1] - drop[1] + drop[0]) * scale < 1e-13);
    }
}

/* A tee without a pump in it cannot give power to the flow. Only common tees: bores up to 1:3, 45 to 135 degrees. */
static void dissipates(void **state)
{
    (void)state;
    uint64_t seed = 5;
    double least = 1.0;
    for (int trial = 0; trial < 50000; trial++) {
        double g[3], drop[2], jacobian[2][3];
        const double area[3] = {1.0, 1.0, 1.0 / 9.0 + 8.0 / 9.0 * next_random(&seed)};
        split(2.0 * PI * next_random(&seed), g);
        fv_flow_tee(area, PI * (0.25 + 0.5 * next_random(&seed)), g, drop, jacobian);
        double power = -g[1] * drop[0] - g[2] * drop[1];
        double heads = 0.0;
        for (int i = 0; i < 3; i++) {
            power += 0.5 * g[i] * g[i] * g[i] / (area[i] * area[i]);
            heads += 0.5 * fabs(g[i] * g[i] * g[i]) / (area[i] * area[i]);
        }
        least = fmin(least, power / heads);
    }
    printf("dissipation | tee | 50000 splits | least power lost %.4f of the legs' kinetic energy\n", least);
    // within the blend both formulas are lines through zero, and one of them goes below it there
    assert_true(least > -1e-4);
}

static void limits(void **state)
{
    (void)state;
    double drop[2], jacobian[2][3];
    const double rest[3] = {0.0, 0.0, 0.0};
    assert_int_equal(fv_flow_tee(equal, 0.5 * PI, rest, drop, jacobian), FV_OK);
    assert_true(drop[0] == 0.0 && drop[1] == 0.0);
    for (int j = 0; j < 3; j++)
        assert_true(jacobian[0][j] == 0.0 && jacobian[1][j] == 0.0);
    const double straight[3] = {0.3, -0.3, 0.0};
    fv_flow_tee(equal, 0.5 * PI, straight, drop, jacobian);
    assert_true(drop[0] == 0.0);
    const double tiny[3] = {1e-160, -1e-160, 0.0};
    assert_int_equal(fv_flow_tee(equal, 0.5 * PI, tiny, drop, jacobian), FV_OK);
    assert_true(drop[0] == 0.0 && isfinite(jacobian[1][2]));
    const double unbalanced[3] = {1.0, 1.0, 1.0};
    assert_int_equal(fv_flow_tee(equal, 0.5 * PI, unbalanced, drop, jacobian), FV_OK);
    assert_true(drop[0] == 0.0 && drop[1] == 0.0);
    const double thin[3] = {1.0, 1.0, 0.02};
    assert_int_equal(fv_flow_tee(thin, 0.5 * PI, straight, drop, jacobian), FV_DOUBTFUL);
    assert_int_equal(fv_flow_tee(equal, 0.1, straight, drop, jacobian), FV_DOUBTFUL);
    assert_int_equal(fv_flow_tee(equal, PI / 6.0, straight, drop, jacobian), FV_OK);
    assert_int_equal(fv_flow_tee(equal, 0.0, straight, drop, jacobian), FV_FAIL);
    assert_int_equal(fv_flow_tee(equal, (double)NAN, straight, drop, jacobian), FV_FAIL);
    const double bad_area[3] = {1.0, 0.0, 1.0};
    assert_int_equal(fv_flow_tee(bad_area, 0.5 * PI, straight, drop, jacobian), FV_FAIL);
    const double bad[3] = {(double)NAN, 0.0, 0.0};
    assert_int_equal(fv_flow_tee(equal, 0.5 * PI, bad, drop, jacobian), FV_FAIL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(gardel_comparison),
        cmocka_unit_test(published_constants),
        cmocka_unit_test(formulas_by_hand),
        cmocka_unit_test(derivatives),
        cmocka_unit_test(smooth_in_all_directions),
        cmocka_unit_test(mirror),
        cmocka_unit_test(dissipates),
        cmocka_unit_test(limits),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
