/* SPDX-License-Identifier: MIT */
/* The plant worked on paper, reference/hand-calculation.md: the solver meets each number of its result to 0.1 %. */
#include "farvessel/plantfile.h"
#include "farvessel/steady.h"
#include "flow/check.h"

#define TOLERANCE 1e-3
#define HOUR 3600.0

static const char PAGE[] = "reference/hand-calculation.md";

/* The number in the row "| what | unit | number |" below the heading Result. */
static double on_page(const char *what)
{
    char line[256];
    char start[64];
    double value = NAN;
    bool result = false;
    FILE *page = fopen(PAGE, "r");
    assert_non_null(page);
    snprintf(start, sizeof start, "| %s |", what);
    while (fgets(line, sizeof line, page)) {
        if (strncmp(line, "## ", 3) == 0)
            result = strcmp(line, "## Result\n") == 0;
        const char *unit = line + strlen(start);
        if (result && strncmp(line, start, strlen(start)) == 0 && strchr(unit, '|'))
            value = strtod(strchr(unit, '|') + 1, NULL);
    }
    fclose(page);
    if (isnan(value))
        fail_msg("%s has no row for %s", PAGE, what);
    return value;
}

static void row(const char *what, double got)
{
    char text[80];
    snprintf(text, sizeof text, "two drums by hand, %s", what);
    check_dev(text, on_page(what), got, TOLERANCE, PAGE);
}

static int node_index(const fv_plant *plant, const char *name)
{
    for (size_t i = 0; i < plant->node_count; i++)
        if (strcmp(plant->nodes[i], name) == 0)
            return (int)i;
    fail_msg("no node %s", name);
    return -1;
}

static void two_drums(void **state)
{
    (void)state;
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = fv_plantfile_read("networks/hand.xml", NULL, faults);
    assert_non_null(plant);
    fv_flow_options options;
    fv_flow_defaults(&options);
    options.turndown = false;
    fv_flow_answer *answer = fv_flow_answer_new(plant, &options, NULL, faults);
    assert_non_null(answer);
    const fv_steady_result *r = answer->state;
    assert_true(r->audit.converged);
    assert_int_equal(r->boilers[0].state, FV_BOILER_FULL);
    row("boiler steam", r->boilers[0].steam * HOUR);
    row("near steam", r->vessels[fv_plant_vessel_index(plant, "near")].steam * HOUR);
    row("far steam", r->vessels[fv_plant_vessel_index(plant, "far")].steam * HOUR);
    row("b0 pressure", r->nodes[node_index(plant, "b0")].pressure);
    row("t1 pressure", r->nodes[node_index(plant, "t1")].pressure);
    row("c1 pressure", r->nodes[node_index(plant, "c1")].pressure);
    row("c2 pressure", r->nodes[node_index(plant, "c2")].pressure);
    row("p1 drop", r->lines[fv_plant_line_index(plant, "p1")].drop);
    row("s1 drop", r->lines[fv_plant_line_index(plant, "s1")].drop);
    row("s2 drop", r->lines[fv_plant_line_index(plant, "s2")].drop);
    /* The hole stands at the pressure of the hose's end: nothing is lost in its coil. */
    const fv_vessel_result *near = &r->vessels[fv_plant_vessel_index(plant, "near")];
    assert_true(fabs(r->holes[near->first_hole].drop / on_page("c1 pressure") - 1) < TOLERANCE);
    fv_flow_answer_free(answer);
    fv_plant_free(plant);
    fv_faults_free(faults);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(two_drums)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
