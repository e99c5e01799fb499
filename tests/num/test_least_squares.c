/* SPDX-License-Identifier: MIT */
/* Nonlinear least squares against the certified values of NIST's Statistical Reference Datasets, from both starts of
 * each, with differences for slopes: parameters to 6 digits, standard deviations to 4. */
#include "num/least_squares.h"
#include "checks.h"

enum { PARAMETERS_MOST = 7, POINTS_MOST = 300 };

typedef double model(const double *b, double x);

static double misra1a(const double *b, double x)
{
    return b[0] * (1 - exp(-b[1] * x));
}
static double danwood(const double *b, double x)
{
    return b[0] * pow(x, b[1]);
}
static double mgh17(const double *b, double x)
{
    return b[0] + b[1] * exp(-x * b[3]) + b[2] * exp(-x * b[4]);
}
static double cubic_ratio(const double *b, double x)
{
    return (b[0] + x * (b[1] + x * (b[2] + x * b[3]))) / (1 + x * (b[4] + x * (b[5] + x * b[6])));
}
static double kirby2(const double *b, double x)
{
    return (b[0] + x * (b[1] + x * b[2])) / (1 + x * (b[3] + x * b[4]));
}
static double mgh09(const double *b, double x)
{
    return b[0] * (x * x + x * b[1]) / (x * x + x * b[2] + b[3]);
}
static double rat43(const double *b, double x)
{
    return b[0] / pow(1 + exp(b[1] - b[2] * x), 1 / b[3]);
}
static double eckerle4(const double *b, double x)
{
    return b[0] / b[1] * exp(-0.5 * pow((x - b[2]) / b[1], 2));
}

/* first: whether the first, far start is asked for, too. Undamped methods fail from some of those. */
static const struct {
    const char *name;
    model *f;
    bool first;
} sets[] = {
    {"Misra1a", misra1a, true},    {"DanWood", danwood, true}, {"MGH17", mgh17, false},
    {"Hahn1", cubic_ratio, true},  {"Kirby2", kirby2, true},   {"MGH09", mgh09, false},
    {"BoxBOD", misra1a, false},    {"Rat43", rat43, true},     {"Thurber", cubic_ratio, true},
    {"Eckerle4", eckerle4, false},
};

typedef struct {
    model *f;
    size_t points, parameters;
    double x[POINTS_MOST], y[POINTS_MOST];
    double start[2][PARAMETERS_MOST], certified[PARAMETERS_MOST], deviation[PARAMETERS_MOST];
} set;

static void read_points(const char *name, set *s)
{
    char line[512], of[32];
    double y, x;
    FILE *file = open_reference("num/nist_data.csv");
    while (fgets(line, sizeof line, file))
        if (sscanf(line, "%31[^,],%*d,%lf,%lf", of, &y, &x) == 3 && strcmp(of, name) == 0) {
            s->x[s->points] = x;
            s->y[s->points++] = y;
        }
    fclose(file);
}

static void read_certified(const char *name, set *s)
{
    char line[512], of[32];
    FILE *file = open_reference("num/nist_certified.csv");
    while (fgets(line, sizeof line, file)) {
        const size_t j = s->parameters;
        if (sscanf(line, "%31[^,],", of) != 1 || strcmp(of, name) != 0)
            continue;
        const char *rest = strrchr(line, '"'); /* after the formula */
        assert_int_equal(sscanf(rest, "\",%*d,%*d,%*[^,],%*[^,],b%*d,%lf,%lf,%lf,%lf", &s->start[0][j], &s->start[1][j],
                                &s->certified[j], &s->deviation[j]),
                         4);
        s->parameters++;
    }
    fclose(file);
}

static fv_status residual(void *context, const double *x, double *f)
{
    const set *s = context;
    for (size_t i = 0; i < s->points; i++) {
        f[i] = s->f(x, s->x[i]) - s->y[i];
        if (!isfinite(f[i]))
            return FV_FAIL;
    }
    return FV_OK;
}

static void solve_from(const char *name, set *s, int start)
{
    double x[PARAMETERS_MOST], covariance[PARAMETERS_MOST * PARAMETERS_MOST];
    num_least_squares problem = {
        .residuals = s->points, .parameters = s->parameters, .residual = residual, .context = s, .iterations = 1000};
    num_least_squares_outcome outcome;
    memcpy(x, s->start[start], sizeof x);
    assert_int_equal(num_least_squares_solve(&problem, x, covariance, &outcome), FV_OK);
    const double variance = outcome.sum / (double)(s->points - s->parameters);
    for (size_t j = 0; j < s->parameters; j++) {
        char what[64];
        snprintf(what, sizeof what, "%s, start %d, b%zu", name, start + 1, j + 1);
        check_dev(what, s->certified[j], x[j], 1e-6, "NIST StRD");
        snprintf(what, sizeof what, "%s, start %d, deviation of b%zu", name, start + 1, j + 1);
        check_dev(what, s->deviation[j], sqrt(variance * covariance[j * s->parameters + j]), 1e-4, "NIST StRD");
    }
}

static void certified_values(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof sets / sizeof *sets; i++) {
        set *s = calloc(1, sizeof *s);
        assert_non_null(s);
        s->f = sets[i].f;
        read_points(sets[i].name, s);
        read_certified(sets[i].name, s);
        assert_true(s->points > s->parameters && s->parameters > 0);
        if (sets[i].first)
            solve_from(sets[i].name, s, 0);
        solve_from(sets[i].name, s, 1);
        free(s);
    }
}

/* Three readings of one quantity and a prior: (20/100 + 66/4) / (1/100 + 3/4), closed form. */
static fv_status with_prior(void *context, const double *x, double *f)
{
    static const double reading[3] = {22, 21, 23};
    (void)context;
    for (int i = 0; i < 3; i++)
        f[i] = (x[0] - reading[i]) / 2;
    f[3] = (x[0] - 20) / 10;
    return FV_OK;
}

static void prior_as_a_row(void **state)
{
    (void)state;
    double x = 50, variance;
    num_least_squares problem = {.residuals = 4, .parameters = 1, .residual = with_prior};
    num_least_squares_outcome outcome;
    assert_int_equal(num_least_squares_solve(&problem, &x, &variance, &outcome), FV_OK);
    check_off("prior and three readings, mean", 16.7 / 0.76, x, 1e-8, "closed form");
    check_off("prior and three readings, variance", 1 / 0.76, variance, 1e-7, "closed form");
}

static fv_status nowhere(void *context, const double *x, double *f)
{
    (void)context;
    (void)x;
    (void)f;
    return FV_FAIL;
}

static void no_residuals_is_a_failure(void **state)
{
    (void)state;
    double x = 1;
    num_least_squares problem = {.residuals = 2, .parameters = 1, .residual = nowhere};
    num_least_squares_outcome outcome;
    assert_int_equal(num_least_squares_solve(&problem, &x, NULL, &outcome), FV_FAIL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(certified_values), cmocka_unit_test(prior_as_a_row),
                                       cmocka_unit_test(no_residuals_is_a_failure)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
