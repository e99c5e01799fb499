/* SPDX-License-Identifier: MIT */
/* The flow report on answers filled in by hand: first sentence, notes, tables, width, formats. */
#include "bench.h"

#include <jansson.h>

/* The first line of the text up to the first full stop. */
static void expect_answer(const bench *b, const char *expected)
{
    char *text = bench_report(b, FV_REPORT_JSON, FV_METRIC, NULL);
    json_t *root = json_loads(text, 0, NULL);
    assert_string_equal(json_string_value(json_object_get(root, "answer")), expected);
    json_decref(root);
    free(text);
}

static void set_vessel(bench *b, size_t i, double heat, fv_verdict verdict)
{
    b->vessels[i].heat = heat;
    b->vessels[i].verdict = verdict;
}

static void names_the_starved(void **state)
{
    (void)state;
    bench *b = bench_new(6, "bin%zu");
    set_vessel(b, 5, 2100.0, FV_STARVED);
    set_vessel(b, 0, 6900.0, FV_FED);
    expect_answer(b,
                  "bin6 is starved at this moment: it gets 2.10 kW of the 4.00 kW that 12 h needs; bin1 gets 6.90 kW.");
    set_vessel(b, 4, 2500.0, FV_STARVED);
    expect_answer(b, "2 of 6 vessels are starved at this moment: bin6 gets 2.10 kW of the 4.00 kW that 12 h needs; "
                     "bin1 gets 6.90 kW.");
    for (size_t i = 0; i < 6; i++)
        set_vessel(b, i, 1000.0 + 100.0 * (double)i, FV_STARVED);
    expect_answer(b, "All 6 vessels are starved at this moment: bin1 gets 1.00 kW of the 4.00 kW that 12 h needs; bin6 "
                     "gets 1.50 kW.");
    bench_free(b);
}

/* Heat enough, and a load that conducts too slowly; and one of which one moment does not tell. */
static void tells_what_one_moment_settles(void **state)
{
    (void)state;
    bench *b = bench_new(3, "bin%zu");
    for (size_t i = 0; i < 3; i++) {
        set_vessel(b, i, 6000.0, FV_FED);
        b->vessels[i].core_in = 7200;
    }
    b->vessels[1].unsettled = true;
    expect_answer(b, "2 of 3 vessels are fed at this moment: the one with the least to spare, bin1, gets 6.00 kW where "
                     "12 h needs 4.00 kW; bin2 cannot be told from one moment: ask heat.");
    set_vessel(b, 2, 6000.0, FV_STARVED);
    b->vessels[2].core_in = 50400;
    b->vessels[1].unsettled = false;
    expect_answer(b,
                  "bin3 is starved at this moment: it gets 6.00 kW where 12 h needs 4.00 kW, and its core takes 14 h; "
                  "bin1 gets 6.00 kW.");
    for (size_t i = 0; i < 3; i++)
        b->vessels[i].unsettled = true;
    expect_answer(b, "3 of 3 vessels cannot be told from one moment: ask heat.");
    bench_free(b);
}

static void names_the_lagging_and_the_fed(void **state)
{
    (void)state;
    bench *b = bench_new(4, "bin%zu");
    set_vessel(b, 2, 5900.0, FV_FED);
    expect_answer(b, "All 4 vessels are fed at this moment: the one with the least to spare, bin3, gets 5.90 kW where "
                     "12 h needs 4.00 "
                     "kW.");
    set_vessel(b, 3, 4500.0, FV_LAGGING);
    expect_answer(
        b,
        "No vessel is starved at this moment, but bin4 lags: it gets 4.50 kW where 12 h needs 4.00 kW; bin1 gets 6.00 "
        "kW.");
    b->answer.options.phase = FV_PHASE_HOLDING;
    expect_answer(b, "No vessel is starved at this moment, but bin4 lags: it gets 4.50 kW where holding takes 4.00 kW; "
                     "bin1 gets 6.00 "
                     "kW.");
    bench_free(b);
}

static void answers_without_a_need(void **state)
{
    (void)state;
    bench *b = bench_new(2, "bin%zu");
    b->vessels[0].need = b->vessels[1].need = 0.0;
    b->vessels[1].steam = 0.001;
    expect_answer(b, "bin1 gets the most steam, 9.72 kg/h, and bin2 the least, 3.60 kg/h.");
    b->vessels[0].verdict = FV_SHUT_OFF;
    expect_answer(b, "bin2 gets 3.60 kg/h of steam.");
    b->vessels[1].verdict = FV_SHUT_OFF;
    expect_answer(b, "No vessel is open to the steam.");
    bench_free(b);
}

static void says_who_drops_out(void **state)
{
    (void)state;
    bench *b = bench_new(3, "bin%zu");
    char *text = bench_report(b, FV_REPORT_TEXT, FV_METRIC, NULL);
    assert_non_null(strstr(text, "No vessel that is fed or lagging now drops out, down to 5 % fire."));
    free(text);
    b->answer.dropout_vessel = 1;
    b->answer.dropout_fire = 0.4;
    b->answer.dropout_output = 9600.0;
    text = bench_report(b, FV_REPORT_TEXT, FV_METRIC, NULL);
    assert_non_null(strstr(text, "bin2 drops out first: from 40.0 % fire down (9.60 kW of boiler output)"));
    free(text);
    bench_free(b);
}

/* No row is longer than the terminal, whatever the names, the number of vessels and the units. */
static void keeps_to_80_columns(void **state)
{
    static const char *const patterns[] = {"b%zu", "bin%zu", "north-house-bin-number-%zu-of-the-long-row"};
    (void)state;
    for (size_t p = 0; p < 3; p++) {
        for (int units = FV_METRIC; units <= FV_US; units++) {
            bench *b = bench_new(BENCH_MOST, patterns[p]);
            for (size_t i = 0; i < BENCH_MOST; i++)
                b->lines[i].choked = b->lines[i].doubtful = b->lines[i].condenses_all = true;
            for (size_t i = 0; i < BENCH_MOST; i++)
                b->vessels[i].heat = 1234567.0, b->vessels[i].verdict = b->low_vessels[0][i].verdict = FV_LAGGING;
            char *text = bench_report(b, FV_REPORT_TEXT, (fv_unit_system)units, NULL);
            assert_in_range(widest(text), 60, FV_REPORT_WIDTH);
            free(text);
            bench_free(b);
        }
    }
}

static void cuts_long_names_but_tells_them_apart(void **state)
{
    (void)state;
    bench *b = bench_new(2, "north-house-bin-number-%zu-of-the-long-row");
    char *text = bench_report(b, FV_REPORT_TEXT, FV_METRIC, NULL);
    assert_non_null(strstr(text, "  north"));
    assert_non_null(strstr(text, "-1-of-"));
    assert_non_null(strstr(text, "-2-of-"));
    free(text);
    bench_free(b);
}

static bool has_note(const bench *b, const char *id, const char *part)
{
    char *text = bench_report(b, FV_REPORT_JSON, FV_METRIC, NULL);
    json_t *root = json_loads(text, 0, NULL), *note, *name;
    size_t i, j;
    bool found = false;
    json_array_foreach(json_object_get(root, "notes"), i, note)
    {
        if (strcmp(json_string_value(json_object_get(note, "id")), id) != 0)
            continue;
        json_array_foreach(json_object_get(note, "parts"), j, name) found =
            found || strcmp(json_string_value(name), part) == 0;
    }
    json_decref(root);
    free(text);
    return found;
}

/* Each rule: silent on the plain bench, speaking once its fact is there, and only about the part that has it. */
static void notes_speak_when_due(void **state)
{
    enum { LINE, VESSEL, BOILER };
    (void)state;
    const struct {
        const char *id, *part;
        int where;
        fv_line_result line;
        fv_vessel_result vessel;
        fv_boiler_result boiler;
    } cases[] = {
        {"sag_blocks", "s2", LINE, .line = {.blocked = true}},
        {"sag_bubbles", "s2", LINE, .line = {.drop_sag = 300.0}},
        {"condenses_all", "s2", LINE, .line = {.condenses_all = true}},
        {"choked", "s2", LINE, .line = {.choked = true}},
        {"choked_superheat", "s2", LINE, .line = {.choked = true, .pressure_from = 6e4}},
        {"velocity_heating", "s2", LINE, .line = {.velocity = 30.0}},
        {"velocity_process", "s2", LINE, .line = {.velocity = 70.0}},
        {"doubtful_line", "s2", LINE, .line = {.doubtful = true}},
        {"gives_up", "bin2", VESSEL, .vessel = {.gas_out = 1e-4}},
        {"draws_air", "bin2", VESSEL, .vessel = {.air_drawn_in = 1e-4}},
        {"hole_draws_in", "bin2", VESSEL, .vessel = {.evenness = -0.1}},
        {"area_circulation", "bin2", VESSEL, .vessel = {.area_ratio = 1.2}},
        {"uneven_holes", "bin2", VESSEL, .vessel = {.steam = 0.001, .hole_drop = 90.0, .coil_change = 10.0}},
        {"doubtful_vessel", "bin2", VESSEL, .vessel = {.doubtful = true}},
        {"hole_coefficient", "bin2", VESSEL, .vessel = {.cd_from_correlation = true}},
        {"relief_opens", "boiler", BOILER, .boiler = {.pressure = 5.1e4}},
        {"relief_near", "boiler", BOILER, .boiler = {.pressure = 4.6e4}},
        {"pressure_equipment", "boiler", BOILER, .boiler = {.pressure = 6e4}},
        {"pressure_high", "boiler", BOILER, .boiler = {.pressure = 1.1e5}},
        {"pressed_shut", "boiler", BOILER, .boiler = {.state = FV_BOILER_BLOCKED}},
        {"shares_by_size", "boiler", BOILER, .boiler = {.shares_by_size = true}},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bench *b = bench_new(2, "bin%zu");
        assert_false(has_note(b, cases[i].id, cases[i].part));
        if (cases[i].where == LINE)
            b->lines[3] = cases[i].line;
        else if (cases[i].where == VESSEL)
            b->vessels[1] = cases[i].vessel;
        else
            b->boilers[0] = cases[i].boiler;
        if (!has_note(b, cases[i].id, cases[i].part))
            fail_msg("no note %s about %s", cases[i].id, cases[i].part);
        assert_false(has_note(b, cases[i].id, "s1") || has_note(b, cases[i].id, "bin1"));
        bench_free(b);
    }
}

static void notes_on_what_the_file_says(void **state)
{
    (void)state;
    bench *b = bench_new(2, "bin%zu");
    assert_false(has_note(b, "velocity_backward", "s1"));
    assert_false(has_note(b, "holes_choked", "bin2"));
    b->holes[3].choked = true;
    assert_true(has_note(b, "holes_choked", "bin2"));
    assert_false(has_note(b, "holes_choked", "bin1"));
    b->plant->lines[1]->condensate.v = FV_CONDENSATE_BACK;
    assert_true(has_note(b, "velocity_backward", "s1"));
    assert_false(has_note(b, "near_boiling", "bin1"));
    b->plant->vessels[0]->target.v = 371.0;
    assert_true(has_note(b, "near_boiling", "bin1"));
    bench_free(b);
}

/* Each number of a text table stands under the same name, with its SI unit, in JSON and CSV. */
static void one_name_everywhere(void **state)
{
    (void)state;
    bench *b = bench_new(1, "bin%zu");
    char *csv = bench_report(b, FV_REPORT_CSV, FV_METRIC, "vessels");
    assert_non_null(strstr(csv, "vessel,phase,steam_kg_s,"));
    assert_non_null(strstr(csv, ",coil_pressure_pa_gauge,"));
    assert_non_null(strstr(csv, "\nbin1,heating,0.0027,0,1,6000,4000,43200,fed,0,1234,0,0,0.95,"));
    char *text = bench_report(b, FV_REPORT_TEXT, FV_METRIC, NULL);
    assert_non_null(strstr(text, "  vessel  steam  share  heat  need  verdict  pressure  evenness  vented\n"));
    assert_non_null(strstr(text, "  bin1     9.72    100  6.00  4.00  fed          12.3     0.950       0\n"));
    free(csv);
    free(text);
    bench_free(b);
}

static void no_value_is_null_and_empty(void **state)
{
    (void)state;
    bench *b = bench_new(1, "bin%zu");
    char *json = bench_report(b, FV_REPORT_JSON, FV_METRIC, NULL);
    char *csv = bench_report(b, FV_REPORT_CSV, FV_METRIC, "boilers");
    char *text = bench_report(b, FV_REPORT_TEXT, FV_METRIC, NULL);
    assert_non_null(strstr(json, "\"fuel_w\": null"));
    assert_non_null(strstr(csv, ",24000,,false\n"));
    assert_non_null(strstr(text, "24.0     -\n"));
    free(json);
    free(csv);
    free(text);
    bench_free(b);
}

static void unsolved_settings_are_said(void **state)
{
    (void)state;
    bench *b = bench_new(1, "bin%zu");
    b->turndown[4].state = b->turndown[3].state = NULL;
    b->turndown[3].given_up = true;
    char *json = bench_report(b, FV_REPORT_JSON, FV_METRIC, NULL);
    char *csv = bench_report(b, FV_REPORT_CSV, FV_METRIC, "turndown");
    char *text = bench_report(b, FV_REPORT_TEXT, FV_METRIC, NULL);
    assert_non_null(strstr(json, "\"solved\": false"));
    assert_non_null(strstr(csv, "\n0.25,,bin1,,,unsolved\n"));
    assert_non_null(strstr(text, "unsolved"));
    assert_non_null(strstr(text, "No solution was found at 25 % fire."));
    assert_non_null(strstr(text, "35 % fire is left out"));
    free(json);
    free(csv);
    free(text);
    bench_free(b);
}

static void cautions_apply_where_they_should(void **state)
{
    (void)state;
    bench *b = bench_new(1, "bin%zu");
    char *text = bench_report(b, FV_REPORT_TEXT, FV_METRIC, NULL);
    assert_non_null(strstr(text, "CO alarm where fuel burns."));
    assert_non_null(strstr(text, "! Only hose and couplings rated for steam"));
    assert_non_null(strstr(text, "! Local codes and licensed practice come first;"));
    assert_null(strstr(text, "! Always: "));
    free(text);
    fv_report_options options = {.units = FV_METRIC, .clock = (double)NAN, .cautions = true};
    fv_text full = {0};
    assert_int_equal(fv_report_flow(&b->answer, NULL, &options, &full), FV_OK);
    assert_non_null(strstr(full.text, "! Where fuel burns:"));
    assert_non_null(strstr(full.text, "! On every hose:"));
    assert_non_null(strstr(full.text, "! Always: local codes and licensed practice come first."));
    fv_text_free(&full);
    b->plant->boilers[0]->fuel = fv_given(FV_FUEL_ELECTRICITY);
    b->plant->lines[1]->kind = FV_LINE_PIPE;
    text = bench_report(b, FV_REPORT_TEXT, FV_METRIC, NULL);
    assert_null(strstr(text, "CO alarm"));
    assert_null(strstr(text, "! Only hose"));
    free(text);
    bench_free(b);
}

static void says_us_units(void **state)
{
    (void)state;
    bench *b = bench_new(1, "bin%zu");
    char *text = bench_report(b, FV_REPORT_TEXT, FV_US, NULL);
    /* By hand: 6000 W = 20.473 kBtu/h; 4000 W = 13.649; 9.72 kg/h = 21.429 lb/h; 372.7 K = 211.19 degF. */
    assert_non_null(strstr(text, "bin1 is fed at this moment: it gets 20.5 kBtu/h where 12 h needs 13.6 kBtu/h."));
    assert_non_null(strstr(text, "21.4"));
    assert_non_null(strstr(text, "211 degF"));
    assert_null(strstr(text, "kW"));
    assert_null(strstr(text, "mbar"));
    free(text);
    bench_free(b);
}

static void refuses_an_unknown_table(void **state)
{
    (void)state;
    bench *b = bench_new(1, "bin%zu");
    fv_report_options options = {.format = FV_REPORT_CSV, .units = FV_METRIC, .table = "vesels"};
    fv_text out = {0};
    assert_int_equal(fv_report_flow(&b->answer, NULL, &options, &out), FV_FAIL);
    assert_null(out.text);
    bench_free(b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(names_the_starved),
        cmocka_unit_test(tells_what_one_moment_settles),
        cmocka_unit_test(names_the_lagging_and_the_fed),
        cmocka_unit_test(answers_without_a_need),
        cmocka_unit_test(says_who_drops_out),
        cmocka_unit_test(keeps_to_80_columns),
        cmocka_unit_test(cuts_long_names_but_tells_them_apart),
        cmocka_unit_test(notes_speak_when_due),
        cmocka_unit_test(notes_on_what_the_file_says),
        cmocka_unit_test(one_name_everywhere),
        cmocka_unit_test(no_value_is_null_and_empty),
        cmocka_unit_test(unsolved_settings_are_said),
        cmocka_unit_test(cautions_apply_where_they_should),
        cmocka_unit_test(says_us_units),
        cmocka_unit_test(refuses_an_unknown_table),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
