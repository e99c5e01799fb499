/* SPDX-License-Identifier: MIT */
/* Live comparison with an independent implementation: the python package iapws computes a grid, we compute the same. */
#include "farvessel/props.h"
#include "props_check.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

static const char command[] = "/usr/bin/python3 tests/props/iapws_grid.py";

enum { NUMBERS = 9, WORDS = 8 };

typedef struct {
    long seen, announced;
    struct {
        double deviation;
        char line[256];
        long rows;
    } worst[WORDS];
} tally;

static const char *const words[WORDS] = {"region1",   "region2",      "pressure", "temperature",
                                         "viscosity", "conductivity", "line",     "air"};
/* Water, steam: the same equations, only rounding apart; the line: the tables' fit; air: ideal against real gas. */
static const double allowed[WORDS] = {1e-11, 2e-13, 1e-12, 1e-12, 1e-12, 1e-12, 1e-10, 2.5e-3};

/* Our values for the arguments x, as many as the row has beside its arguments; 0 when the word is unknown or
 * our function gives no result. */
static int compute(int word, const double *x, const fv_sat *sat, double *out)
{
    fv_if97_state s;
    fv_sat_point line;
    fv_air_state air;
    switch (word) {
    case 0:
    case 1:
        if ((word == 0 ? fv_if97_region1 : fv_if97_region2)(x[0], x[1], &s) != FV_OK)
            return 0;
        memcpy(out, (const double[]){s.v, s.h, s.u, s.s, s.cp, s.cv, s.w}, 7 * sizeof(double));
        return 7;
    case 2:
        return fv_if97_saturation_pressure(x[0], out) == FV_OK ? 1 : 0;
    case 3:
        return fv_if97_saturation_temperature(x[0], out) == FV_OK ? 1 : 0;
    case 4:
        return fv_iapws_viscosity(x[0], x[1], out) != FV_FAIL ? 1 : 0;
    case 5:
        return fv_iapws_conductivity(x[0], x[1], out) != FV_FAIL ? 1 : 0;
    case 6:
        fv_sat_at(sat, x[0], &line);
        memcpy(out, (const double[]){line.t, line.rho_g, line.h_g, line.h_f, line.rho_f, line.mu_g, line.mu_f},
               7 * sizeof(double));
        return 7;
    case 7:
        if (fv_air_at(x[0], x[1], &air) != FV_OK)
            return 0;
        memcpy(out, (const double[]){air.rho, air.cp, air.mu, air.lambda}, 4 * sizeof(double));
        return 4;
    default:
        return 0;
    }
}

static void compare_line(char *text, const fv_sat *sat, tally *result)
{
    static const int arguments[WORDS] = {2, 2, 1, 1, 2, 2, 1, 2};
    size_t length = strcspn(text, " ");
    if (strncmp(text, "end", length) == 0) {
        result->announced = strtol(text + length, NULL, 10);
        return;
    }
    int word = 0;
    while (word < WORDS && (strlen(words[word]) != length || strncmp(text, words[word], length) != 0))
        word++;
    double x[NUMBERS], ours[NUMBERS];
    int count = 0;
    char *at = text + length;
    for (char *next; count < NUMBERS; at = next, count++) {
        x[count] = strtod(at, &next);
        if (next == at)
            break;
    }
    int values = compute(word, x, sat, ours);
    if (!values || values + arguments[word] != count)
        fail_msg("no comparison possible for: %s", text);
    result->seen++;
    result->worst[word].rows++;
    for (int k = 0; k < values; k++) {
        double deviation = relative(ours[k], x[arguments[word] + k]);
        if (deviation > result->worst[word].deviation) {
            result->worst[word].deviation = deviation;
            snprintf(result->worst[word].line, sizeof result->worst[word].line, "%.250s", text);
        }
    }
}

static void grid(void **state)
{
    (void)state;
    const fv_sat *sat = fv_sat_line();
    tally result = {0};
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    char text[512];
    while (fgets(text, sizeof text, pipe)) {
        text[strcspn(text, "\n")] = '\0';
        compare_line(text, sat, &result);
    }
    int status = pclose(pipe);
    if (status != 0 || result.announced == 0 || result.seen != result.announced)
        fail_msg(
            "`%s` gave %ld of %ld rows, status %d. Is python3-iapws installed (apt-get install python3-iapws), and "
            "does the test run from the project's root?",
            command, result.seen, result.announced, status);
    bool good = true;
    double largest = 0;
    for (int k = 0; k < WORDS; k++) {
        printf("check | grid %s, %ld rows | largest dev %.1e, allowed %.0e | python3-iapws, live | at: %.60s\n",
               words[k], result.worst[k].rows, result.worst[k].deviation, allowed[k], result.worst[k].line);
        good = good && result.worst[k].rows > 0 && result.worst[k].deviation <= allowed[k];
        if (strcmp(words[k], "air") != 0) // an ideal gas against a real one
            largest = fmax(largest, result.worst[k].deviation);
    }
    printf("check | water and steam of %ld rows | largest relative deviation %.2e | python3-iapws, live\n", result.seen,
           largest);
    assert_true(good);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(grid)};
    return cmocka_run_group_tests_name("iapws grid", tests, NULL, NULL);
}
