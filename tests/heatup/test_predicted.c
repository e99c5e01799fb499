/* SPDX-License-Identifier: MIT */
/* `flow` predicts from one moment what `heat` finds by following the plant: how often both say the same, of the
 * bundled plants and of plants drawn from seeds, all vessels opened at once. RANDOM_PLANTS=500 RANDOM_FROM=1 judges as
 * many as there is time for; RANDOM_SAY prints each vessel that they judge differently. */
#include "heatup/random_run.h"

#include "farvessel/plantfile.h"

#include <glob.h>

static const double AGREED_LEAST = 0.95; /* of plants: no vessel is told wrongly; the aim that was set */
static const double UNDRAWN_MOST = 0.1;  /* of plants: make no sense, or have no solution */
static const double UNTOLD_MOST = 0.2;   /* of vessels that heat: asked of `heat` instead */

typedef struct {
    int plants, agreed, vessels, same, untold, undrawn;
} tally;

static unsigned long long setting(const char *name, unsigned long long otherwise)
{
    const char *text = getenv(name);
    return text ? strtoull(text, NULL, 10) : otherwise;
}

static void say(const char *name, const fv_vessel_result *f, const fv_vessel_history *h, double within)
{
    if (getenv("RANDOM_SAY"))
        printf("%s: predicted %s, core in %.0f s; followed %s, core in %.0f s of %.0f\n", name,
               fv_verdict_word(f->verdict), f->core_in, fv_verdict_word(h->verdict), h->core - h->opened, within);
}

/* All shut vessels are left out. */
static void compare(const fv_flow_answer *a, const fv_heat_result *r, const char *name, tally *t)
{
    bool all = true;
    for (size_t i = 0; i < r->vessel_count; i++) {
        const fv_vessel_result *f = &a->state->vessels[i];
        const fv_vessel_history *h = &r->vessels[i];
        if (h->verdict == FV_SHUT_OFF && f->verdict == FV_SHUT_OFF)
            continue;
        t->vessels++;
        t->untold += f->unsettled;
        t->same += !f->unsettled && f->verdict == h->verdict;
        if (f->unsettled || f->verdict == h->verdict)
            continue;
        all = false;
        say(name, f, h, a->plant->vessels[i]->within.v);
    }
    t->plants++;
    t->agreed += all;
}

static void judge_plant(const fv_plant *plant, const char *name, tally *t)
{
    fv_flow_options flow;
    fv_heat_options heat;
    fv_faults *faults = fv_faults_new();
    fv_flow_defaults(&flow);
    fv_heat_defaults(&heat);
    flow.turndown = false;
    heat.stop_at_hold = true;
    heat.until = 2 * 86400.0;
    fv_flow_answer *a = fv_flow_answer_new(plant, &flow, NULL, faults);
    fv_heat_result *r = a ? fv_heat_run(plant, &heat, NULL, faults) : NULL;
    if (r)
        compare(a, r, name, t);
    else
        t->undrawn++;
    fv_heat_free(r);
    fv_flow_answer_free(a);
    fv_faults_free(faults);
}

static void bundled_plants(void **state)
{
    (void)state;
    tally t = {0};
    glob_t found;
    assert_int_equal(glob("networks/*.xml", 0, NULL, &found), 0);
    for (size_t i = 0; i < found.gl_pathc; i++) {
        fv_faults *faults = fv_faults_new();
        fv_plant *plant = fv_plantfile_read(found.gl_pathv[i], NULL, faults);
        assert_non_null(plant);
        judge_plant(plant, found.gl_pathv[i], &t);
        fv_plant_free(plant);
        fv_faults_free(faults);
    }
    globfree(&found);
    printf(
        "check | bundled plants, all told verdicts as followed | all | %d of %d, %d of %d vessels untold | | the run\n",
        t.agreed, t.plants, t.untold, t.vessels);
    assert_int_equal(t.undrawn, 0);
    assert_int_equal(t.agreed, t.plants);
    assert_true(t.untold < UNTOLD_MOST * t.vessels);
}

static void random_plants(void **state)
{
    (void)state;
    tally t = {0};
    const unsigned long long from = setting("RANDOM_FROM", 251), count = setting("RANDOM_PLANTS", 50);
    for (unsigned long long seed = from; seed < from + count; seed++) {
        bench b;
        draw_run(&b, seed);
        at_once(b.plant);
        if (fv_plant_link(b.plant, b.faults) == FV_FAIL)
            t.undrawn++;
        else
            judge_plant(b.plant, numbered(&b, "seed ", (int)seed), &t);
        close_bench(&b);
    }
    printf(
        "check | random plants, seeds %llu to %llu, all told verdicts as followed | 95 %% | %d of %d (%.1f %%), %d of "
        "%d vessels untold (%.1f %%), %d without an answer | | the run\n",
        from, from + count - 1, t.agreed, t.plants, 100.0 * t.agreed / t.plants, t.untold, t.vessels,
        100.0 * t.untold / t.vessels, t.undrawn);
    assert_true(t.undrawn <= UNDRAWN_MOST * (double)count);
    assert_true(t.agreed >= AGREED_LEAST * t.plants);
    assert_true(t.untold <= UNTOLD_MOST * t.vessels);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(bundled_plants), cmocka_unit_test(random_plants)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
