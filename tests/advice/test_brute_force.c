/* SPDX-License-Identifier: MIT */
/* Advice against brute force: for each of thirty seeded plants a grid of valves (or washers) by starts by throttling at
 * the core was gone through once, and the best handling kept in reference/advice/brute-force.csv. The kept handling is
 * followed anew, so that a changed coefficient changes both sides; the advice must be within 1 % of it. A guard, for
 * both are this program's runs. ADVICE_BRUTE=30 does all thirty; ADVICE_MAKE=1 makes the lines of that file anew. */
#include "seeded.h"

enum { PLANTS = 4, KEPT = 30, GRID_MOST = 900, PLACES = 3 };
static const double NEAR = 0.01;
static const char FILE_NAME[] = "reference/advice/brute-force.csv";

/* ---- the grid, and how it is gone through ---- */

/* Of each knob: as it is, and two places; a knob that waits for the vessel to be full stays as it is. */
static int place_of(const study_knob *k, int which)
{
    static const double shares[] = {0, 0.5, 0.3}, starts[] = {0, 3600, 7200}, washers[] = {0, 0.7, 0.5};
    if (which == 0 || k->kind == STUDY_KNOB_AT_FULL)
        return 0;
    return study_knob_place(k, k->kind == STUDY_KNOB_START    ? starts[which]
                               : k->kind == STUDY_KNOB_WASHER ? washers[which] * k->bore
                                                              : shares[which]);
}

static bool is_better(const study_outcome *a, const study_outcome *b)
{
    if (!a->ran || a->unsafe > 0)
        return false;
    return !b || a->late < b->late || (a->late == b->late && a->last < b->last);
}

/* Point number `index` of the grid where it is small; else points drawn from it. */
static void draw_point(const study_handling *h, seeded_dice *d, size_t index, bool all, int *which)
{
    for (size_t i = 0; i < h->count; i++) {
        const bool moves = h->knobs[i].kind != STUDY_KNOB_AT_FULL;
        which[i] = !moves ? 0 : all ? (int)(index % PLACES) : (int)(seeded_throw(d) * PLACES);
        index = moves ? index / PLACES : index;
    }
}

static const study_outcome *follow(study_adviser *a, const int *which, study_settings *settings)
{
    int point[64];
    const study_outcome *outcome;
    for (size_t i = 0; i < a->handling.count; i++)
        point[i] = place_of(&a->handling.knobs[i], which[i]);
    study_settings_open(settings);
    study_handling_settings(&a->handling, point, settings);
    const study_ask ask = {.change = &settings->change, .follow = true, .fineness = 1, .until = INFINITY};
    assert_int_equal(study_evaluate(a->evaluator, &ask, 1, &outcome), STUDY_DONE);
    return outcome;
}

/* One knob after the other through its places, as long as anything gets better. */
static void polish(study_adviser *a, int *best, const study_outcome **found)
{
    for (bool better = true; better;) {
        better = false;
        for (size_t i = 0; i < a->handling.count; i++)
            for (int k = 0; k < PLACES; k++) {
                const int kept = best[i];
                study_settings settings;
                best[i] = k;
                const study_outcome *o = follow(a, best, &settings);
                study_settings_free(&settings);
                if (is_better(o, *found)) {
                    *found = o;
                    better = true;
                } else {
                    best[i] = kept;
                }
            }
    }
}

static void make_line(uint64_t seed)
{
    fv_plant *plant = seeded_plant(seed);
    const study_work work = {.threads = 1};
    study_adviser a;
    seeded_dice d = {.state = seed + 77};
    int which[64], best[64] = {0};
    const study_outcome *found = NULL;
    size_t grid = 1, moving = 0;
    assert_true(study_adviser_open(&a, plant, &work));
    for (size_t i = 0; i < a.handling.count; i++)
        moving += a.handling.knobs[i].kind != STUDY_KNOB_AT_FULL;
    for (size_t i = 0; i < moving && grid <= GRID_MOST; i++)
        grid *= PLACES;
    const bool all = grid <= GRID_MOST;
    for (size_t i = 0; i < (all ? grid : GRID_MOST / 3); i++) {
        study_settings settings;
        draw_point(&a.handling, &d, i, all, which);
        const study_outcome *o = follow(&a, which, &settings);
        study_settings_free(&settings);
        if (!is_better(o, found))
            continue;
        found = o;
        memcpy(best, which, sizeof best);
    }
    polish(&a, best, &found);
    study_settings settings;
    follow(&a, best, &settings);
    printf("%d,%s,%zu,%zu,%.1f,", (int)seed, all ? "all" : "drawn", study_evaluator_runs(a.evaluator), found->late,
           found->last / 60);
    for (size_t i = 0; i < settings.change.count; i++)
        printf("%s%s.%s=%.9g", i ? " " : "", settings.change.settings[i].path, settings.change.settings[i].attribute,
               settings.change.settings[i].si);
    for (size_t i = 0; i < settings.change.action_count; i++)
        printf(" %s:%s=%.9g", settings.change.actions[i].after, settings.change.actions[i].valve,
               settings.change.actions[i].value);
    printf("\n");
    fflush(stdout);
    study_settings_free(&settings);
    study_adviser_close(&a);
    fv_plant_free(plant);
}

/* ---- the kept handling, followed anew ---- */

/* "v1.open=0.5 n2.start=3600 n1 core:v1=0.3" */
static void read_change(char *text, fv_arena *arena, study_settings *settings)
{
    *settings = (study_settings){.arena = arena};
    for (char *at = text; at && *at;) {
        char *equals = strchr(at, '='), *end = NULL;
        assert_non_null(equals);
        *equals = '\0';
        const double value = strtod(equals + 1, &end);
        char *colon = strchr(at, ':'), *dot = strrchr(at, '.');
        if (colon) {
            *colon = '\0';
            study_action_add(settings, &(fv_change_action){.after = at, .valve = colon + 1, .value = value});
        } else {
            *dot = '\0';
            const char *attributes[] = {"open", "start", "k", "washer"};
            for (size_t i = 0; i < 4; i++)
                if (strcmp(dot + 1, attributes[i]) == 0)
                    study_setting_add(settings, at, attributes[i], value);
        }
        at = *end == ' ' ? end + 1 : NULL;
    }
    assert_false(settings->failed);
}

static void against(uint64_t seed, char *text, size_t *worse)
{
    fv_plant *plant = seeded_plant(seed);
    fv_arena *arena = fv_arena_new();
    fv_faults *faults = fv_faults_new();
    study_settings settings;
    read_change(text, arena, &settings);
    fv_plant *kept = fv_change_copy(&settings.change, plant, faults);
    fv_heat_result *brute = kept ? seeded_run(kept) : NULL;
    assert_non_null(brute);
    double last = 0;
    size_t late = 0;
    for (size_t i = 0; i < brute->vessel_count; i++) {
        last = fmax(last, isnan(brute->vessels[i].core) ? (double)INFINITY : brute->vessels[i].core);
        late += brute->vessels[i].verdict == FV_STARVED;
    }
    fv_plan_options options;
    fv_plan_defaults(&options);
    options.goal = FV_PLAN_EARLIEST;
    options.buy = false;
    options.threads = 2;
    fv_plan_answer *plan = fv_plan_run(plant, &options, NULL, faults);
    assert_non_null(plan);
    const fv_plan_row *row = &plan->rows[0];
    const bool is_worse = row->late > late || (row->late == late && row->last > (1 + NEAR) * last);
    print_message(
        "check | seed %d, last core | brute force %.1f min, late %zu | advice %.1f min, late %zu | %+.1f %%%s\n",
        (int)seed, last / 60, late, row->last / 60, row->late, 100 * (row->last / last - 1), is_worse ? " WORSE" : "");
    *worse += is_worse;
    fv_plan_free(plan);
    fv_heat_free(brute);
    fv_plant_free(kept);
    fv_faults_free(faults);
    fv_arena_free(arena);
    fv_plant_free(plant);
}

static void as_good_as_brute_force(void **state)
{
    char line[4096];
    size_t done = 0, worse = 0;
    const size_t most = seeded_count("ADVICE_BRUTE", PLANTS);
    FILE *file = fopen(FILE_NAME, "r");
    (void)state;
    assert_non_null(file);
    while (done < most && fgets(line, sizeof line, file)) {
        line[strcspn(line, "\r\n")] = '\0';
        if (line[0] < '0' || line[0] > '9')
            continue;
        char *text = line;
        for (int comma = 0; comma < 5; comma++)
            text = strchr(text, ',') + 1;
        against(strtoull(line, NULL, 10), text, &worse);
        done++;
    }
    fclose(file);
    assert_int_equal(done, most);
    assert_int_equal(worse, 0);
}

int main(void)
{
    for (uint64_t seed = 1001; getenv("ADVICE_MAKE") && seed <= 1000 + KEPT; seed++)
        make_line(seed);
    const struct CMUnitTest tests[] = {cmocka_unit_test(as_good_as_brute_force)};
    return getenv("ADVICE_MAKE") ? 0 : cmocka_run_group_tests(tests, NULL, NULL);
}
