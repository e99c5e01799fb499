/* SPDX-License-Identifier: MIT */
/* What hands may miss, against heat on the plan with that one value missed: bare steel drums, whose walls take most of
 * their heat, on a boiler that just feeds them. How far a hand misses: common practice, no source. */
#include "yard.h"

#include "report/slip.h"

#define DRUMS(within)                                                                                                  \
    "<network xmlns=\"urn:farvessel:network:1\" title=\"Bare drums\"><site altitude=\"120 m\" air=\"10 degC\"/>"       \
    "<boiler id=\"boiler\" at=\"b0\" output=\"18.5 kW\" holds=\"0.2 bar\" relief=\"0.5 bar\"/>" LINES("1", "b0")       \
        LINES("2", "t1") LINES("3", "t2") LINES(                                                                       \
            "4",                                                                                                       \
            "t3") "<kind id=\"drum\" volume=\"210 L\" target=\"95 degC\" hold=\"4 h\" within=\"" within "\">"          \
                  "<coil bore=\"27 mm\" length=\"1.8 m\" holes=\"24\" drill=\"3 mm\"/>"                                \
                  "<load medium=\"wood\" form=\"block\" a=\"13 cm\" b=\"13 cm\" c=\"20 cm\" count=\"56\" mass=\"145 "  \
                  "kg\" "                                                                                              \
                  "packing=\"loose\"/><wall area=\"2.1 m2\"><layer material=\"steel\" thickness=\"1.2 mm\"/></wall>"   \
                  "<vent diameter=\"38 mm\"/><drain diameter=\"25 mm\" seal=\"50 mm\"/></kind>" VESSEL("1")            \
                      VESSEL("2") VESSEL("3") VESSEL("4") "</network>"
#define LINES(n, from)                                                                                                 \
    "<header id=\"h" n "\" from=\"" from "\" to=\"t" n "\" length=\"1.4 m\" bore=\"27 mm\"/>"                          \
    "<hose id=\"s" n "\" from=\"t" n "\" to=\"c" n "\" length=\"2 m\" bore=\"19 mm\"><valve id=\"v" n "\"/>"           \
    "<barb bore=\"16 mm\" count=\"2\"/></hose>"
#define VESSEL(n) "<vessel id=\"d" n "\" like=\"drum\" at=\"c" n "\"/>"

/* heat with setting i of the plan at another value: vessels that are not in time, and a core. */
static size_t late_with(const fv_plan_answer *a, size_t i, double si, int vessel, double *core)
{
    fv_change change = a->rows[0].change;
    fv_setting settings[16];
    assert_in_range(change.count, 1, 16);
    memcpy(settings, change.settings, change.count * sizeof *settings);
    settings[i].si = si;
    change.settings = settings;
    fv_plant *plant = fv_change_copy(&change, a->plant, NULL);
    fv_heat_options options;
    fv_heat_defaults(&options);
    options.stop_at_hold = true;
    fv_heat_result *r = fv_heat_run(plant, &options, NULL, NULL);
    size_t late = 0;
    for (size_t v = 0; v < r->vessel_count; v++)
        late += r->vessels[v].verdict == FV_STARVED;
    *core = r->vessels[vessel].core;
    fv_heat_free(r);
    fv_plant_free(plant);
    return late;
}

static fv_plan_answer *plan(const fv_plant *plant)
{
    fv_plan_options options;
    fv_plan_defaults(&options);
    options.buy = false;
    options.most = 100;
    options.threads = 1;
    fv_plan_answer *a = fv_plan_run(plant, &options, NULL, NULL);
    assert_non_null(a);
    assert_int_equal(a->rows[0].late, 0);
    return a;
}

/* Each valve of the plan by hand, 5 points or a tenth narrower and wider. */
static size_t most_late(const fv_plan_answer *a, double *latest)
{
    size_t most = 0;
    *latest = 0;
    for (size_t i = 0; i < a->rows[0].change.count; i++) {
        const fv_setting *s = &a->rows[0].change.settings[i];
        for (int sign = -1; sign <= 1 && strcmp(s->attribute, "open") == 0 && s->si < 1; sign += 2)
            for (int v = 0; v < 4; v++) {
                double core;
                const size_t late = late_with(a, i, s->si + sign * fmax(0.05, round(10 * s->si) / 100), v, &core);
                most = late > most ? late : most;
                *latest = fmax(*latest, core);
            }
    }
    return most;
}

static void bears_a_slip_where_that_costs_little(void **state)
{
    (void)state;
    fv_plant *plant = yard_read(DRUMS("9.5 h"));
    fv_plan_answer *a = plan(plant);
    double latest;
    assert_int_equal(a->slip.late, 0);
    assert_int_equal(most_late(a, &latest), 0);
    assert_true(fabs(latest - a->slip.core) < 60);
    assert_true(a->quickest < a->rows[0].last); /* one that would not was passed over, */
    assert_true(a->rows[0].last <= 1.03 * a->quickest);
    fv_plan_free(a);
    fv_plant_free(plant);
}

static void says_which_slip_makes_a_vessel_late(void **state)
{
    (void)state;
    fv_plant *plant = yard_read(DRUMS("8.85 h"));
    fv_plan_answer *a = plan(plant);
    double latest, core;
    size_t found = 0;
    const fv_slip *s = &a->slip;
    assert_true(s->late > 0 && s->last >= 0 && most_late(a, &latest) > 0);
    for (size_t i = 0; i < a->rows[0].change.count; i++)
        if (strcmp(a->rows[0].change.settings[i].path, s->part) == 0) {
            assert_int_equal(late_with(a, i, s->to, s->last, &core), s->late);
            assert_true(fabs(core - s->core) < 1);
            found++;
        }
    assert_int_equal(found, 1);
    assert_true(s->walls > 0.6 && s->walls < 1); /* the reason that is told */
    fv_plan_free(a);
    fv_plant_free(plant);
}

static void a_lid_that_lifts_is_no_late_vessel(void **state)
{
    (void)state;
    fv_plant *plant = yard_read(DRUMS("9.5 h"));
    const fv_slip slip = {
        .kind = FV_SLIP_NARROWER, .part = "v1", .from = 0.35, .to = 0.3, .valves = 2, .lifts = true, .core = 3600};
    fv_text said = {0};
    report_slip(plant, &(print_clock){.start = NAN}, &slip, NAN, &said);
    assert_non_null(strstr(said.text, "a lid or a relief valve lifts"));
    assert_null(strstr(said.text, "late")); /* nor that nobody is */
    fv_text_free(&said);
    fv_plant_free(plant);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bears_a_slip_where_that_costs_little),
        cmocka_unit_test(says_which_slip_makes_a_vessel_late),
        cmocka_unit_test(a_lid_that_lifts_is_no_late_vessel),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
