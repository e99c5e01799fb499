/* SPDX-License-Identifier: MIT */
/* The report of why on answers filled in by hand: what is said of each cause, widths, formats. */
#include "report/bench.h"

enum { VESSELS_MOST = 4 };

typedef struct {
    bench *b;
    fv_why_answer answer;
    fv_heat_result now;
    fv_vessel_history histories[VESSELS_MOST];
    fv_why_vessel vessels[VESSELS_MOST];
    fv_setting settings[2];
    fv_why_remedy remedies[2];
    double core[VESSELS_MOST], gain[VESSELS_MOST];
    fv_why_place places[2];
    const char *parts[2];
} why_bench;

/* Every vessel takes 10 h where 4 h would do; the header costs 4 h, the boiler 1 h 30 min. */
static why_bench *bench_why(size_t n, const char *pattern)
{
    why_bench *w = calloc(1, sizeof *w);
    w->b = bench_new(n, pattern);
    const fv_plant *plant = w->b->plant;
    w->parts[0] = "h1";
    w->parts[1] = "h2";
    for (size_t i = 0; i < n; i++) {
        w->histories[i] = (fv_vessel_history){.opened = 1200, .core = 37200};
        fv_why_vessel *v = &w->vessels[i];
        *v = (fv_why_vessel){.took = 36000, .ideal = 14400, .ample = 14000, .arrives = true, .asked = true};
        for (size_t c = 0; c < FV_WHY_CAUSES; c++)
            v->alone[c] = v->last[c] = (double)NAN;
        v->share[FV_WHY_HEADER] = v->alone[FV_WHY_HEADER] = 14400;
        v->share[FV_WHY_BOILER] = v->alone[FV_WHY_BOILER] = 5400;
        v->small = 1800;
        v->order[0] = v->first = FV_WHY_HEADER;
        v->order[1] = v->next = FV_WHY_BOILER;
        v->count = 2;
        v->parts = w->parts;
        v->part_count = n > 1 ? 2 : 1;
        v->part_here = -1;
        w->core[i] = 20000;
        w->gain[i] = 17200;
    }
    w->settings[0] = (fv_setting){"h1", "bore", 0.041};
    w->settings[1] = (fv_setting){"s1", "lagging", 0.025};
    w->remedies[0] = (fv_why_remedy){.kind = FV_REMEDY_HEADER_BORE,
                                     .change = {.settings = w->settings, .count = 1},
                                     .part = "h1",
                                     .part_count = 1,
                                     .from = 0.025,
                                     .to = 0.041,
                                     .from_stock = true,
                                     .effort = FV_EFFORT_BUY,
                                     .cost = 36,
                                     .core = w->core,
                                     .gain = w->gain,
                                     .pressure = 2000,
                                     .slowest = 20000,
                                     .worth = 17200};
    w->remedies[1] = w->remedies[0];
    w->remedies[1].kind = FV_REMEDY_LAG_LINES;
    w->remedies[1].change.settings = &w->settings[1];
    w->remedies[1].cost = (double)NAN;
    w->places[0] = (fv_why_place){.kind = FV_PLACE_LINE,
                                  .part = "h1",
                                  .before = 2000,
                                  .after = 500,
                                  .drop = 1500,
                                  .friction = 1400,
                                  .fittings = 100,
                                  .share = 0.75};
    w->places[1] = (fv_why_place){
        .kind = FV_PLACE_HOLES, .part = plant->vessels[0]->part.id, .before = 500, .drop = 500, .share = 0.25};
    w->now = (fv_heat_result){.plant = plant, .vessels = w->histories, .vessel_count = n, .boiling_point = 372.7};
    w->answer = (fv_why_answer){.plant = plant,
                                .cap = 86400,
                                .now = &w->now,
                                .vessels = w->vessels,
                                .kept = {FV_WHY_BOILER, FV_WHY_HEADER},
                                .kept_count = 2,
                                .runs = 40,
                                .best = -1,
                                .unheld = -1,
                                .remedies = w->remedies,
                                .remedy_count = 2,
                                .places = w->places,
                                .place_count = 2};
    fv_why_defaults(&w->answer.options);
    return w;
}

static void why_free(why_bench *w)
{
    bench_free(w->b);
    free(w);
}

static char *report(const why_bench *w, fv_report_format format, fv_unit_system units, const char *table)
{
    const fv_report_options options = {.format = format, .units = units, .table = table, .clock = (double)NAN};
    fv_text out = {0};
    assert_int_equal(fv_report_why(&w->answer, NULL, &options, &out), FV_OK);
    return out.text;
}

/* The text with all white space made one blank, so that line breaks do not matter. */
static void assert_says(const why_bench *w, const char *wanted)
{
    char *text = report(w, FV_REPORT_TEXT, FV_METRIC, NULL), *to = text;
    for (const char *from = text; *from; from++)
        if (*from != ' ' && *from != '\n')
            *to++ = *from;
        else if (to > text && to[-1] != ' ')
            *to++ = ' ';
    *to = '\0';
    if (!strstr(text, wanted))
        print_error("%s\n", text);
    assert_non_null(strstr(text, wanted));
    free(text);
}

static void sentence_and_step(void **state)
{
    (void)state;
    why_bench *w = bench_why(2, "bin%zu");
    assert_says(w,
                "bin1 takes 10 h where 4 h would do: the header is narrow (h1, h2, 6 m of 25 mm); once that is cured, "
                "the boiler would be next.");
    assert_says(w, "Next step: h1: 41 mm bore instead of 25 mm; the last core gets there 5 h 33 min after the start "
                   "instead of 10 h 20 min (36).");
    assert_says(w, "that adds 4 h to bin1");
    assert_says(w, "bin1 10:00 4:00 90 240 30");
    assert_says(w, "--set \"h1.bore=41 mm\"");
    assert_says(w, "Found by 40 runs of the whole plant.");
    w->b->plant->currency = "EUR";
    assert_says(w, "(EUR 36)");
    w->answer.options.vessel = "bin1";
    assert_says(w, "the core of bin1 gets there 5 h 33 min after the start");
    w->answer.cheapest = 1;
    assert_says(w, "(price not known). Most would help: h1: 41 mm bore");
    w->answer.cheapest = w->answer.strongest = -1;
    char *text = report(w, FV_REPORT_TEXT, FV_METRIC, NULL);
    assert_null(strstr(text, "Next step"));
    free(text);
    why_free(w);
}

static void against_the_best(void **state)
{
    (void)state;
    why_bench *w = bench_why(2, "bin%zu");
    w->vessels[1].took = 18000;
    w->vessels[1].share[FV_WHY_HEADER] = 3600;
    w->vessels[1].first = FV_WHY_NOTHING;
    w->vessels[0].against_best = true;
    w->answer.best = 1;
    assert_says(w, "that adds 3 h more to bin1 than to bin2");
    assert_says(w, "bin2: nothing holds it up: this is about as fast as such a load can heat.");
    why_free(w);
}

static void never(void **state)
{
    (void)state;
    why_bench *w = bench_why(1, "bin%zu");
    w->vessels[0].arrives = false;
    w->vessels[0].took = 86400;
    w->histories[0].core = (double)NAN;
    assert_says(w, "bin1 does not get there within 24 h where 4 h would do");
    assert_says(w, "bin1 >24:00 4:00");
    assert_says(w, "instead of never");
    why_free(w);
}

static void nothing(void **state)
{
    (void)state;
    why_bench *w = bench_why(2, "bin%zu");
    for (size_t i = 0; i < 2; i++)
        w->vessels[i].first = w->vessels[i].next = FV_WHY_NOTHING;
    assert_says(w, "Nothing holds the vessels up: bin1, the last one, takes 10 h, and such a load needs 4 h.");
    w->answer.options.vessel = "bin1";
    assert_says(w, "Nothing holds bin1 up: it takes 10 h");
    why_free(w);
}

static void each_cause_in_words(void **state)
{
    (void)state;
    static const struct {
        fv_why_cause cause;
        int here;
        const char *said;
    } rows[] = {
        {FV_WHY_BOILER, -1, "the boiler is too small for all that (24.0 kW)"},
        {FV_WHY_HOSE, 1, "its hose is long or narrow (h1, "},
        {FV_WHY_FITTINGS, 1, "barbs, unions or valves on its way are tight (h1"},
        {FV_WHY_SAG, 1, "water stands in a sag on its way (h1"},
        {FV_WHY_WATER, 1, "water stands over its holes"},
        {FV_WHY_WATER, 0, "water stands over others' holes"},
        {FV_WHY_HOLES, 1, "its holes let too little steam in (2 of 4 mm, 50 % clogged)"},
        {FV_WHY_HOLES, 0, "the holes of the other vessels let too much of the steam out"},
        {FV_WHY_COIL, 1, "its coil pipe is narrow (25 mm)"},
        {FV_WHY_OPENINGS, 1, "its lid and vents let steam out and cold air in"},
        {FV_WHY_AIR, 1, "there is much air in it to sweep out"},
        {FV_WHY_WALLS, 1, "its walls take up and lose too much heat"},
        {FV_WHY_LINE_LOSS, -1, "heat is lost on the way (h1"},
        {FV_WHY_LOAD, 1, "there is more in it, or in bigger pieces, than in the others"},
    };
    why_bench *w = bench_why(2, "bin%zu");
    w->histories[0].air = 3;
    w->b->plant->vessels[0]->coil.clogged = fv_given(0.5);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        w->vessels[0].first = rows[i].cause;
        w->vessels[0].part_here = rows[i].here;
        assert_says(w, rows[i].said);
    }
    why_free(w);
}

static void keeps_to_the_screen(void **state)
{
    (void)state;
    why_bench *w = bench_why(3, "the-far-bin-behind-the-old-potting-shed-number-%zu");
    for (int units = FV_METRIC; units <= FV_US; units++) {
        char *text = report(w, FV_REPORT_TEXT, (fv_unit_system)units, NULL);
        assert_true(widest(text) <= FV_REPORT_WIDTH);
        free(text);
    }
    why_free(w);
}

static void for_programs(void **state)
{
    (void)state;
    why_bench *w = bench_why(2, "bin%zu");
    char *json = report(w, FV_REPORT_JSON, FV_METRIC, NULL);
    static const char *const wanted[] = {"\"kind\": \"why\"",   "\"cause\": \"header\"",
                                         "\"took_s\": 36000.0", "\"share_s\": 14400.0",
                                         "\"last_s\": null",    "\"settings\": [\n        \"h1.bore=41 mm\"",
                                         "\"cost\": null",      "\"next_step\": \"yes\"",
                                         "\"drop_pa\": 1500.0", "\"cap_s\": 86400.0"};
    for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++) {
        if (!strstr(json, wanted[i]))
            print_error("no %s\n", wanted[i]);
        assert_non_null(strstr(json, wanted[i]));
    }
    free(json);
    w->answer.unheld = 1;
    json = report(w, FV_REPORT_JSON, FV_METRIC, NULL);
    assert_non_null(strstr(json, "\"unheld\": \"bin2\""));
    assert_non_null(strstr(json, "\"safety\": \"In time as it is, but the hold of bin2 breaks then"));
    assert_null(strstr(json, " \",\n"));
    free(json);
    char *csv = report(w, FV_REPORT_CSV, FV_METRIC, "shares");
    assert_string_equal(csv, "vessel,cause,share_s,alone_s,last_s\nbin1,boiler,5400,5400,\nbin1,header,14400,14400,\n"
                             "bin2,boiler,5400,5400,\nbin2,header,14400,14400,\n");
    free(csv);
    fv_text out = {0};
    const fv_report_options options = {.format = FV_REPORT_CSV, .table = "nonsense"};
    assert_int_equal(fv_report_why(&w->answer, NULL, &options, &out), FV_FAIL);
    fv_text_free(&out);
    why_free(w);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sentence_and_step),
        cmocka_unit_test(against_the_best),
        cmocka_unit_test(never),
        cmocka_unit_test(nothing),
        cmocka_unit_test(each_cause_in_words),
        cmocka_unit_test(keeps_to_the_screen),
        cmocka_unit_test(for_programs),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
