/* SPDX-License-Identifier: MIT */
/* The heat report on answers filled in by hand: first sentence, clock, reasons, notes, curves, width, formats. */
#include "heat_bench.h"

#include <jansson.h>

static const double six = 6.0 * BENCH_HOUR;

static void expect_text(const heat_bench *h, double clock, const char *expected, bool there)
{
    char *text = heat_bench_report(h, FV_REPORT_TEXT, FV_METRIC, NULL, clock);
    /* Wrapped lines are joined, so that sentences can be looked for. */
    char *joined = malloc(strlen(text) + 1), *to = joined;
    for (const char *from = text; *from;) {
        bool blank = *from == '\n' || *from == ' ';
        *to++ = blank ? ' ' : *from;
        from += blank ? strspn(from, "\n ") : 1;
    }
    *to = '\0';
    if ((strstr(joined, expected) != NULL) != there)
        printf("%s\n%s: %s\n", text, there ? "missing" : "not expected", expected);
    assert_true((strstr(joined, expected) != NULL) == there);
    free(joined);
    free(text);
}

static void expect_answer(const heat_bench *h, double clock, const char *expected)
{
    char *text = heat_bench_report(h, FV_REPORT_JSON, FV_METRIC, NULL, clock);
    json_t *root = json_loads(text, 0, NULL);
    assert_string_equal(json_string_value(json_object_get(root, "answer")), expected);
    json_decref(root);
    free(text);
}

static void lose(heat_bench *h, size_t i, fv_arrival why, double settles)
{
    fv_vessel_history *v = &h->vessels[i];
    v->core = v->hold = v->cool = (double)NAN;
    v->hold_longest = v->hold_sum = 0.0;
    v->verdict = FV_STARVED;
    v->arrival = why;
    v->settles = settles;
    v->core_end = settles;
}

/* A limit that the file sets belongs to the answer, that of the medium is a note. */
static void says_what_passes_its_limit(void **state)
{
    (void)state;
    heat_bench *h = heat_bench_new(2, "bin%zu");
    h->vessels[1].over = 3.0 * BENCH_HOUR;
    h->vessels[1].over_share = 0.8;
    fv_vessel *v = h->b->plant->vessels[1];
    v->load.medium = fv_given(1); /* straw */
    v->at_most = (fv_value){.v = (double)NAN, .origin = FV_UNSET};
    expect_text(h, six, "bin2: up to 80 % of the load passes 80 degC, some of it for 3 h: straw loses the microbes",
                true);
    v->at_most = fv_given(75.0 + 273.15);
    expect_text(h, six, "80 % of the load of bin2 passes its limit of 75 degC, for 3 h.", true);
    expect_text(h, six, "straw loses", false);
    v->at_most = (fv_value){.v = (double)NAN, .origin = FV_UNSET};
    v->load.medium = fv_given(0);
    heat_bench_free(h);
}

static void says_when_all_are_done(void **state)
{
    (void)state;
    heat_bench *h = heat_bench_new(4, "bin%zu");
    expect_answer(
        h, six,
        "All 4 vessels are done by 16:30: bin4 is last, its core reaches 95 degC after 6 h 30 min (12:30) and "
        "is held for 4 h.");
    expect_answer(h, (double)NAN,
                  "All 4 vessels are done after 10 h 30 min: bin4 is last, its core reaches 95 degC after 6 h 30 min "
                  "and is held for 4 h.");
    expect_answer(
        h, 20.0 * BENCH_HOUR,
        "All 4 vessels are done by 06:30 the next day: bin4 is last, its core reaches 95 degC after 6 h 30 min "
        "(day 2 02:30) and is held for 4 h.");
    h->vessels[1].verdict = FV_LAGGING;
    h->vessels[1].core_ample = 3.0 * BENCH_HOUR;
    expect_answer(h, six,
                  "All 4 vessels are done by 16:30, but bin2 lags: the core of bin2 reaches 95 degC after 6 h (12:10) "
                  "of the 12 h allowed.");
    heat_bench_free(h);
    h = heat_bench_new(1, "bin%zu");
    expect_answer(h, six,
                  "bin1 is done by 16:00: the core of bin1 reaches 95 degC after 6 h (12:00) and is held for 4 h.");
    heat_bench_free(h);
}

static void names_the_starved(void **state)
{
    (void)state;
    heat_bench *h = heat_bench_new(6, "bin%zu");
    h->vessels[5].core = 14.0 * BENCH_HOUR;
    h->vessels[5].verdict = FV_STARVED;
    expect_answer(h, six,
                  "bin6 is starved: the core of bin6 reaches 95 degC only after 13 h 50 min (20:00), 12 h are allowed; "
                  "that of bin1 does after 5 h 50 min (12:00).");
    lose(h, 4, FV_NOT_SUPPLY, BENCH_CELSIUS(71.0));
    expect_answer(h, six,
                  "2 of 6 vessels are starved: the core of bin5 never reaches 95 degC, its chamber settles at 71.0 "
                  "degC; that of bin1 does after 5 h 50 min (12:00).");
    expect_text(h, six, "bin5: what steam it gets is all taken by its losses: its chamber settles at 71.0 degC", true);
    heat_bench_free(h);
}

static void says_why_a_core_never_arrives(void **state)
{
    (void)state;
    heat_bench *h = heat_bench_new(3, "bin%zu");
    h->b->plant->site.altitude = fv_given(1500.0);
    h->result.boiling_point = BENCH_CELSIUS(94.9);
    lose(h, 0, FV_NOT_BOILING_POINT, BENCH_CELSIUS(94.9));
    h->b->plant->vessels[1]->target.v = h->b->plant->vessels[2]->target.v = BENCH_CELSIUS(90.0);
    /* 95.0 - 2 K, to the half degree below: 4 h 10^0.25 = 7.11 h. */
    expect_answer(h, six,
                  "No steam brings bin1 to 95 degC: water boils at 95.0 degC here, and a vented vessel gets no hotter. "
                  "What would do as much as 4 h at 95 degC: target=\"92.5 degC\" hold=\"7.2 h\" (z 10 K). "
                  "bin1 is starved: the core of bin1 never reaches 95 degC, since water boils at 94.9 degC here; that "
                  "of bin2 reaches its 90 degC after 6 h (12:10).");
    expect_text(h, six, "bin1: vented steam here gets no hotter than 94.9 degC (1500 m above the sea)", true);
    lose(h, 0, FV_NOT_AIR, BENCH_CELSIUS(88.0));
    for (size_t k = 0; k < HEAT_SAMPLES; k++)
        h->air[3 * k] = 0.34;
    expect_text(h, six, "keeps its chamber at 88.0 degC (34.0 % of the gas in it is air)", true);
    lose(h, 0, FV_NOT_DRY, BENCH_CELSIUS(60.0));
    h->boilers[0].dry = 7.0 * BENCH_HOUR;
    expect_text(h, six, "bin1: boiler ran dry at 13:00, before its core was through.", true);
    expect_text(h, six, "boiler: runs dry at 13:00", true);
    heat_bench_free(h);
}

/* Steam that a line stops: the line is named, though it is not the vessel's own hose. */
static void names_the_line_that_stops_the_steam(void **state)
{
    (void)state;
    heat_bench *h = heat_bench_new(3, "bin%zu");
    size_t header = 4, hose = 5; /* of bin3 */
    lose(h, 2, FV_NOT_STEAM, BENCH_CELSIUS(10.0));
    h->b->lines[header] = h->b->lines[hose] = (fv_line_result){0};
    h->b->lines[header].condenses_all = true;
    expect_text(h, six, "bin3: all steam on its way condenses in h3.", true);
    h->b->lines[header].condenses_all = false;
    h->b->lines[hose].blocked = true;
    h->b->plant->lines[hose]->sag = fv_given(0.08);
    expect_text(h, six, "the 80.0 mm of water in the sag of s3 hold back all steam", true);
    h->b->lines[hose].blocked = false;
    h->b->lines[hose].shut = true;
    expect_text(h, six, "bin3: a valve in s3 is shut.", true);
    heat_bench_free(h);
}

static void ends_too_early(void **state)
{
    (void)state;
    heat_bench *h = heat_bench_new(2, "bin%zu");
    h->result.options.until = h->result.end = 5.0 * BENCH_HOUR;
    lose(h, 0, FV_NOT_TIME, (double)NAN);
    lose(h, 1, FV_NOT_TIME, (double)NAN);
    h->vessels[0].core_end = BENCH_CELSIUS(80.0);
    h->vessels[1].core_end = BENCH_CELSIUS(70.0);
    expect_answer(
        h, six,
        "The run ends at 11:00, too early: none of 2 vessels is through; the core of bin2 is at 70.0 degC of 95 "
        "degC.");
    heat_bench_free(h);
}

static void tells_a_dark_boiler_from_a_shut_vessel(void **state)
{
    (void)state;
    heat_bench *h = heat_bench_new(2, "bin%zu");
    for (size_t i = 0; i < 2; i++) {
        lose(h, i, FV_NOT_STEAM, (double)NAN);
        h->vessels[i].opened = h->vessels[i].steam_on = h->vessels[i].full = (double)NAN;
    }
    expect_answer(h, six, "No vessel is ever open to the steam.");
    h->boilers[0].steam_up = (double)NAN;
    expect_answer(h, six, "No boiler gives steam up to day 2 06:00: no vessel is heated.");
    heat_bench_free(h);
}

/* The turn-down trap: the fire goes down, the hose with the sag passes nothing, the hold breaks. */
static void names_the_turndown_trap(void **state)
{
    (void)state;
    heat_bench *h = heat_bench_new(3, "bin%zu");
    fv_action *action = fv_plant_add_action(h->b->plant, (fv_loc){"bench.xml", 9});
    action->boiler = "boiler";
    action->fire = fv_given(0.35);
    h->b->plant->lines[5]->sag = fv_given(0.06);
    h->b->lines[5].drop_sag = 564.0;
    heat_bench_event(h, 7.0, FV_HEAT_EVENT_ACTION, -1, -1, 0);
    heat_bench_event(h, 7.1, FV_HEAT_EVENT_STARVED, -1, 2, -1);
    heat_bench_event(h, 8.0, FV_HEAT_EVENT_BROKEN, -1, 2, -1);
    h->vessels[2].hold_broken = 8.0 * BENCH_HOUR;
    h->vessels[2].hold = (double)NAN;
    h->vessels[2].hold_longest = 8.0 * BENCH_HOUR - h->vessels[2].core;
    expect_answer(
        h, six,
        "bin3 is fed while heating but starved in the hold: its core reaches 95 degC after 6 h 20 min (12:20) "
        "but falls below it at 14:00, 1 h 40 min into the hold of 4 h.");
    expect_text(h, six,
                "bin3: turn-down trap: fed while heating (7.20 kg/h), starved when the fire of boiler is set to "
                "35.0 % at 13:00. The pressure that is left does not lift the 60.0 mm of water in the sag of s3 "
                "(5.64 mbar)",
                true);
    expect_text(h, six, "too little to lift the 60.0 mm of water in the sag of s3", true);
    action->fire = fv_given(1.0); /* no turn-down: something else is to blame */
    expect_text(h, six, "turn-down trap", false);
    expect_text(h, six, "fed at first, starved later", true);
    heat_bench_free(h);
}

static void notes_what_deserves_a_look(void **state)
{
    static const char *const notes[] = {"a lid lifts",
                                        "drawn in at the bottom",
                                        "over the holes",
                                        "within 2 K of the boiling point",
                                        "soaks up",
                                        "not cool enough to inoculate",
                                        "goes out of their openings unused",
                                        "could condense more than comes",
                                        "of its usable",
                                        "the relief valve opens at"};
    (void)state;
    heat_bench *h = heat_bench_new(3, "bin%zu");
    for (size_t i = 0; i < sizeof notes / sizeof *notes; i++)
        expect_text(h, six, notes[i], false);
    h->vessels[1].pressure_most = 400.0;
    h->vessels[1].sump = 0.02;
    h->vessels[1].moisture_gain = 12.0;
    h->vessels[1].cool = (double)NAN;
    h->vessels[1].vented = 200.0;
    h->b->plant->vessels[1]->target = fv_given(BENCH_CELSIUS(98.5));
    fv_boiler *boiler = h->b->plant->boilers[0];
    boiler->feeding = (fv_value){.v = FV_FEED_BY_HAND, .origin = FV_GIVEN};
    boiler->usable = fv_given(0.03);
    boiler->relief = fv_given(5e4);
    h->boilers[0].water = 29.0;
    h->boilers[0].pressure_most = 4.9e4;
    h->air[3 * 8 + 1] = 0.02;
    h->pressure[3 * 8 + 1] = -2.0;
    fv_vessel_add_opening(h->b->plant, h->b->plant->vessels[1], FV_OPENING_DRAIN, (fv_loc){"bench.xml", 9});
    for (size_t k = 1; k < 4; k++)
        h->demand[k] = 0.1;
    for (size_t i = 0; i < sizeof notes / sizeof *notes; i++)
        expect_text(h, six, notes[i], true);
    expect_text(h, six, "boiler: uses 29.0 kg of its usable 30.0 kg of water", true);
    expect_text(h, six, "boiler: its pressure reaches 490 mbar; the relief valve opens at 500 mbar", true);
    expect_text(h, six, "bin2: pressure in the chamber reaches 4.00 mbar, 40.8 kg on each square metre", true);
    expect_text(h, six, "Until 09:00 the chambers could condense more than comes, with the boilers giving all", true);
    for (size_t k = 0; k < HEAT_SAMPLES; k++)
        h->boiler_pressure[k] = 10000.0;
    expect_text(h, six, "the lines and holes pass no more than 10.8 kg/h", true);
    heat_bench_free(h);
}

static void counts_fuel_as_it_is_bought(void **state)
{
    (void)state;
    heat_bench *h = heat_bench_new(2, "bin%zu");
    fv_boiler *boiler = h->b->plant->boilers[0];
    boiler->fuel = fv_given(FV_FUEL_OIL);
    boiler->heating_value = fv_given(45e6); /* 3.6e8 J / 45e6 J/kg = 8 kg, at 845 kg/m3 9.47 L */
    expect_text(h, six, "9.5 L oil", true);
    boiler->fuel = fv_given(FV_FUEL_WOOD);
    boiler->heating_value = fv_given(15e6);
    expect_text(h, six, "24.0 kg wood", true);
    boiler->heating_value = (fv_value){.v = (double)NAN, .origin = FV_UNSET};
    expect_text(h, six, "22.5 kg wood", true); /* 3.6e8 / 16e6 */
    boiler->fuel = fv_given(FV_FUEL_ELECTRICITY);
    expect_text(h, six, "100 electricity", true); /* kWh stand beside it */
    heat_bench_free(h);
}

static void keeps_to_80_columns(void **state)
{
    static const char *const patterns[] = {"b%zu", "bin%zu", "north-house-bin-number-%zu-of-the-long-row"};
    (void)state;
    for (size_t p = 0; p < 3; p++)
        for (int units = FV_METRIC; units <= FV_US; units++)
            for (int many = 0; many < 3; many++) {
                const size_t counts[] = {1, 7, BENCH_MOST};
                heat_bench *h = heat_bench_new(counts[many], patterns[p]);
                for (size_t i = 0; i < counts[many]; i++) {
                    h->vessels[i].cool = 200.0 * BENCH_HOUR;
                    h->vessels[i].steam = 123456.0;
                    h->vessels[i].verdict = FV_LAGGING;
                    h->vessels[i].pressure_most = 500.0;
                }
                h->vessels[0].core = 100.0 * BENCH_HOUR;
                h->vessels[counts[many] - 1].hold_broken = 7.0 * BENCH_HOUR;
                fv_report_options options = {
                    .units = (fv_unit_system)units, .clock = 22.0 * BENCH_HOUR, .twelve_hours = units == FV_US};
                fv_text out = {0};
                assert_int_equal(fv_report_heat(&h->result, NULL, &options, &out), FV_OK);
                assert_in_range(widest(out.text), 60, FV_REPORT_WIDTH);
                fv_text_free(&out);
                heat_bench_free(h);
            }
}

static size_t count_of(const char *text, const char *word)
{
    size_t count = 0;
    for (; (text = strstr(text, word)); text++)
        count++;
    return count;
}

/* Sixty vessels: one row each in two tables, at most eight curves, the worst and the best, and no endless list. */
static void stays_readable_with_sixty(void **state)
{
    (void)state;
    heat_bench *h = heat_bench_new(BENCH_MOST, "bin%zu");
    char *text = heat_bench_report(h, FV_REPORT_TEXT, FV_METRIC, NULL, six);
    assert_int_equal(count_of(text, ": fed"), 8);
    assert_non_null(strstr(text, "bin1: fed"));
    assert_non_null(strstr(text, "bin37: fed"));      /* the slowest are equal: the first of them */
    assert_int_equal(count_of(text, "\n   20 |"), 4); /* two curves beside each other */
    assert_null(strstr(text, "steam arrives"));
    assert_non_null(strstr(text, "What happens besides"));
    assert_true(count_of(text, "\n") < 260);
    free(text);
    expect_text(h, six, "Only the worst vessels and the best.", true);
    heat_bench_free(h);
}

static char *repeat(char *to, char c, size_t count)
{
    memset(to, c, count);
    return to + count;
}

/* 70 columns for 10 h. The core goes from 10 degC by 16 K each hour, so it is in the row of 20 degC until 1.25 h
 * (column 9) and in that of 100 degC from 90 degC on, after 5 h (column 35); the chamber is there after 1 h + 20 / 29.5
 * h (column 12). Steam from 0.25 h (column 2), held from 6 h (column 42). */
static void draws_curves(void **state)
{
    (void)state;
    char top[100] = {0}, bottom[100] = {0}, ground[100] = {0};
    repeat(repeat(repeat(top, ' ', 12), ':', 23), '#', 35);
    repeat(bottom, '#', 9);
    repeat(repeat(repeat(ground, '.', 2), '-', 40), '=', 28);
    heat_bench *h = heat_bench_new(1, "bin%zu");
    h->result.end = 10.0 * BENCH_HOUR;
    char *text = heat_bench_report(h, FV_REPORT_TEXT, FV_METRIC, NULL, six), expected[400];
    snprintf(expected, sizeof expected, "\n  100 |%s\n", top);
    assert_non_null(strstr(text, expected));
    snprintf(expected, sizeof expected, "\n   20 |%s\n      +%s\n       06:00%*s%*s\n", bottom, ground, 33, "11:00", 32,
             "16:00");
    assert_non_null(strstr(text, expected));
    free(text);
    heat_bench_free(h);
}

static void gives_csv(void **state)
{
    static const char *const firsts[] = {
        "time_s,clock,vessel,core_k,chamber_k,surface_k,steam_kg_s,air_share,pressure_pa_gauge\n0,06:00,bin1,283.15,",
        "vessel,verdict,fate,arrival,why,opened_s,",
        "time_s,clock,happening,part,text\n600,06:10,steam_up,boiler,boiler: gives steam\n900,06:15,steam_on,bin1,",
        "item,heat_j,share,heat_at_end_j\nload,200000000,0.5,100000000\n",
        "boiler,steam_up_s,dry_s,steam_kg,",
        "line,loss_j,condensate_kg\nh1,",
        "time_s,clock,boiler,steam_kg_s,pressure_pa_gauge,fuel_w,demand_of_all_kg_s\n0,06:00,boiler,0.003,2000,30000,",
    };
    static const char *const tables[] = {"series", "vessels", "happenings", "split", "boilers", "lines", "firing"};
    (void)state;
    heat_bench *h = heat_bench_new(2, "bin%zu");
    for (size_t i = 0; i < sizeof tables / sizeof *tables; i++) {
        char *text = heat_bench_report(h, FV_REPORT_CSV, FV_METRIC, tables[i], six);
        if (strncmp(text, firsts[i], strlen(firsts[i])) != 0)
            printf("%.300s\n", text);
        assert_memory_equal(text, firsts[i], strlen(firsts[i]));
        free(text);
    }
    char *text = heat_bench_report(h, FV_REPORT_CSV, FV_METRIC, "series", (double)NAN);
    assert_non_null(strstr(text, "\n3600,,bin2,"));
    assert_int_equal(count_of(text, "\n"), 1 + 2 * HEAT_SAMPLES);
    free(text);
    fv_report_options options = {.format = FV_REPORT_CSV, .table = "holes"};
    fv_text out = {0};
    assert_int_equal(fv_report_heat(&h->result, NULL, &options, &out), FV_FAIL);
    fv_text_free(&out);
    heat_bench_free(h);
}

static void shows_twelve_hours(void **state)
{
    (void)state;
    heat_bench *h = heat_bench_new(2, "bin%zu");
    fv_report_options options = {.units = FV_US, .clock = six, .twelve_hours = true};
    fv_text out = {0};
    fv_report_heat(&h->result, NULL, &options, &out);
    assert_non_null(strstr(out.text, "Both vessels are done by 4:10 pm: bin2 is last"));
    assert_non_null(strstr(out.text, "12:00 pm"));
    assert_non_null(strstr(out.text, "203 degF"));
    fv_text_free(&out);
    heat_bench_free(h);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(says_when_all_are_done),
        cmocka_unit_test(says_what_passes_its_limit),
        cmocka_unit_test(names_the_starved),
        cmocka_unit_test(says_why_a_core_never_arrives),
        cmocka_unit_test(names_the_line_that_stops_the_steam),
        cmocka_unit_test(ends_too_early),
        cmocka_unit_test(tells_a_dark_boiler_from_a_shut_vessel),
        cmocka_unit_test(names_the_turndown_trap),
        cmocka_unit_test(notes_what_deserves_a_look),
        cmocka_unit_test(counts_fuel_as_it_is_bought),
        cmocka_unit_test(keeps_to_80_columns),
        cmocka_unit_test(stays_readable_with_sixty),
        cmocka_unit_test(draws_curves),
        cmocka_unit_test(gives_csv),
        cmocka_unit_test(shows_twelve_hours),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
