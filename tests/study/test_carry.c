/* SPDX-License-Identifier: MIT */
/* More vessels and fewer: against plants written by hand, against plain runs, against trying every start; what limits
 * where that is known; and what it says of requests that cannot be. */
#include "yard.h"

#define COUNT(list) (sizeof(list) / sizeof *(list))

static fv_carry_options options_for(size_t more, size_t fewer)
{
    fv_carry_options options;
    fv_carry_defaults(&options);
    options.more = more;
    options.fewer = fewer;
    options.others = false;
    options.threads = 2;
    return options;
}

static fv_carry_answer *ask(const fv_plant *plant, const fv_carry_options *options)
{
    fv_faults *faults = fv_faults_new();
    fv_carry_answer *answer = fv_carry_run(plant, options, NULL, faults);
    fv_text said = {0};
    fv_report_faults(faults, &said);
    if (!answer)
        fail_msg("%s", said.text);
    fv_text_free(&said);
    fv_faults_free(faults);
    return answer;
}

/* A batch is what the plain run says, to the bit. */
static void same_batch(const fv_carry_batch *run, const fv_plant *plant)
{
    fv_heat_result *r = yard_run(plant, 1);
    double fuel = 0, steam = 0, water = 0, pressure = 0, done = 0;
    assert_true(run->ran);
    for (size_t i = 0; i < r->vessel_count; i++) {
        assert_true(yard_equal(run->core[i], r->vessels[i].core));
        assert_true(yard_equal(run->opened[i], r->vessels[i].opened));
        assert_int_equal(run->verdicts[i], r->vessels[i].verdict);
        if (r->vessels[i].verdict != FV_SHUT_OFF)
            done = fmax(done, r->vessels[i].hold);
    }
    for (size_t i = 0; i < r->boiler_count; i++) {
        fuel += r->boilers[i].fuel;
        steam += r->boilers[i].steam;
        water += r->boilers[i].water;
        pressure = fmax(pressure, r->boilers[i].pressure_most);
    }
    assert_true(run->fuel == fuel && run->steam == steam && run->water == water && run->pressure == pressure);
    assert_true(run->done == done);
    fv_heat_free(r);
}

static void own_number_is_the_plain_run(void **state)
{
    fv_plant *plant = yard_read(YARD_PLAIN);
    fv_carry_options options = options_for(1, 0);
    (void)state;
    fv_carry_answer *answer = ask(plant, &options);
    const fv_carry_row *row = &answer->rows[answer->present];
    assert_int_equal(answer->own, 2);
    assert_int_equal(row->count, 2);
    assert_int_equal(row->added, 0);
    same_batch(&row->together, plant);
    /* A start is only given where it is worth the trouble, and then is what the plain run says. */
    fv_plant *late = fv_change_copy(&row->stagger, plant, NULL);
    same_batch(&row->staggered, late);
    assert_true(row->stagger.count == 0 || row->staggered.done <= 0.97 * row->together.done);
    fv_plant_free(late);
    /* Two loads of 70 kg, every batch and two hours. */
    assert_true(fabs(row->together.mass - 140) < 1e-9);
    assert_true(fabs(row->together.mass_per_day - 140 * 86400 / (row->together.done + 7200)) < 1e-9);
    fv_carry_free(answer);
    fv_plant_free(plant);
}

/* A run that ends with the last hold is the whole one up to there. */
static void ends_with_the_hold(void **state)
{
    fv_plant *plant = yard_read(YARD_PLAIN);
    fv_faults *faults = fv_faults_new();
    fv_heat_options options;
    fv_heat_defaults(&options);
    options.stop_at_hold = true;
    (void)state;
    fv_heat_result *whole = yard_run(plant, 1), *part = fv_heat_run(plant, &options, NULL, faults);
    double last = 0;
    assert_non_null(part);
    for (size_t i = 0; i < 2; i++) {
        assert_true(part->vessels[i].core == whole->vessels[i].core && part->vessels[i].hold == whole->vessels[i].hold);
        last = fmax(last, whole->vessels[i].hold);
    }
    assert_true(part->end >= last && part->end < last + 600 && part->end < whole->end);
    fv_heat_free(whole);
    fv_heat_free(part);
    fv_faults_free(faults);
    fv_plant_free(plant);
}

/* One alone, and no fewer: `carry` with n = 1 is the plain run, too. */
static void one_vessel(void **state)
{
    fv_plant *plant =
        yard_read(YARD(YARD_STOCK, "6 kW",
                       "<header id=\"h1\" from=\"b0\" to=\"t1\" length=\"3 m\" bore=\"27 mm\"/><hose id=\"s1\" "
                       "from=\"t1\" to=\"c1\" length=\"2 m\" bore=\"19 mm\"/>",
                       "6 h", "<vessel id=\"d1\" like=\"drum\" at=\"c1\"/>"));
    fv_carry_options options = options_for(1, 5);
    (void)state;
    fv_carry_answer *answer = ask(plant, &options);
    assert_int_equal(answer->row_count, 2);
    assert_int_equal(answer->rows[0].count, 1);
    same_batch(&answer->rows[0].together, plant);
    assert_int_equal(answer->rows[0].stagger.count, 0);
    fv_carry_free(answer);
    fv_plant_free(plant);
}

/* ---- growing, against plants written by hand ---- */

/* Line by line and vessel by vessel the same values, ends and pieces. */
static void same_plant(const fv_plant *a, const fv_plant *b)
{
    assert_int_equal(a->line_count, b->line_count);
    assert_int_equal(a->vessel_count, b->vessel_count);
    assert_int_equal(a->tee_count, b->tee_count);
    for (size_t i = 0; i < a->line_count; i++) {
        const fv_line *x = a->lines[i], *y = b->lines[i];
        assert_string_equal(x->part.id, y->part.id);
        assert_string_equal(x->from, y->from);
        assert_string_equal(x->to, y->to);
        assert_true(x->length.v == y->length.v && x->bore.v == y->bore.v && x->lagging.v == y->lagging.v);
        assert_int_equal(x->fitting_count, y->fitting_count);
    }
    for (size_t i = 0; i < a->vessel_count; i++) {
        assert_string_equal(a->vessels[i]->part.id, b->vessels[i]->part.id);
        assert_string_equal(a->vessels[i]->at, b->vessels[i]->at);
        assert_true(a->vessels[i]->coil.drill.v == b->vessels[i]->coil.drill.v);
        assert_true(a->vessels[i]->load.mass.v == b->vessels[i]->load.mass.v);
    }
    for (size_t i = 0; i < a->tee_count; i++) {
        assert_string_equal(a->tees[i]->at, b->tees[i]->at);
        assert_string_equal(a->tees[i]->main, b->tees[i]->main);
        assert_string_equal(a->tees[i]->run, b->tees[i]->run);
        assert_string_equal(a->tees[i]->branch, b->tees[i]->branch);
    }
}

static void grows_as(const char *xml, const char *like, const char *at, size_t more, const char *expected)
{
    fv_plant *plant = yard_read(xml), *wanted = yard_read(expected);
    fv_carry_options options = options_for(more, 0);
    options.like = like;
    options.at = at;
    fv_carry_answer *answer = ask(plant, &options);
    const fv_carry_row *row = &answer->rows[answer->row_count - 1];
    same_plant(row->plant, wanted);
    same_batch(&row->together, wanted);
    fv_carry_free(answer);
    fv_plant_free(wanted);
    fv_plant_free(plant);
}

#define MORE_LINES                                                                                                     \
    YARD_LINES "<header id=\"h3\" from=\"t2\" to=\"t3\" length=\"9 m\" bore=\"21 mm\" lagging=\"20 mm\"/>"             \
               "<hose id=\"s3\" like=\"s1\" from=\"t3\" to=\"c3\"/>"                                                   \
               "<header id=\"h4\" from=\"t3\" to=\"t4\" length=\"9 m\" bore=\"21 mm\" lagging=\"20 mm\"/>"             \
               "<hose id=\"s4\" like=\"s1\" from=\"t4\" to=\"c4\"/>"

/* The last section and the last hose go on. */
static void pattern_goes_on(void **state)
{
    (void)state;
    grows_as(YARD_PLAIN, NULL, NULL, 2,
             YARD(YARD_STOCK, "6 kW", MORE_LINES, "6 h",
                  YARD_VESSELS
                  "<vessel id=\"d3\" like=\"drum\" at=\"c3\"/><vessel id=\"d4\" like=\"drum\" at=\"c4\"/>"));
}

/* At a joint in the middle, each on a hose of its own. */
static void at_a_joint(void **state)
{
    (void)state;
    grows_as(
        YARD_PLAIN, "d1", "t1", 2,
        YARD(YARD_STOCK, "6 kW",
             YARD_LINES
             "<hose id=\"s3\" like=\"s1\" from=\"t1\" to=\"c3\"/><hose id=\"s4\" like=\"s1\" from=\"t1\" to=\"c4\"/>",
             "6 h",
             YARD_VESSELS "<vessel id=\"d3\" like=\"drum\" at=\"c3\"/><vessel id=\"d4\" like=\"drum\" at=\"c4\"/>"));
}

/* Where the header does not end, as on a ring, the new hose begins at the joint of the last one. */
static void on_a_ring(void **state)
{
#define RING "<header id=\"h3\" from=\"t2\" to=\"b0\" length=\"9 m\" bore=\"21 mm\" lagging=\"20 mm\"/>"
    (void)state;
    grows_as(YARD(YARD_STOCK, "6 kW", YARD_LINES RING, "6 h", YARD_VESSELS), "drum", NULL, 1,
             YARD(YARD_STOCK, "6 kW", YARD_LINES RING "<hose id=\"s3\" like=\"s1\" from=\"t2\" to=\"c3\"/>", "6 h",
                  YARD_VESSELS "<vessel id=\"d3\" like=\"drum\" at=\"c3\"/>"));
}

/* Declared tees go on, too. */
static void with_tees(void **state)
{
#define TEE(n, main, run, branch) "<tee at=\"" n "\" main=\"" main "\" run=\"" run "\" branch=\"" branch "\"/>"
    (void)state;
    grows_as(YARD(YARD_STOCK, "6 kW", YARD_LINES TEE("t1", "h1", "h2", "s1"), "6 h", YARD_VESSELS), NULL, NULL, 2,
             YARD(YARD_STOCK, "6 kW",
                  MORE_LINES TEE("t1", "h1", "h2", "s1") TEE("t2", "h2", "h3", "s2") TEE("t3", "h3", "h4", "s3"), "6 h",
                  YARD_VESSELS
                  "<vessel id=\"d3\" like=\"drum\" at=\"c3\"/><vessel id=\"d4\" like=\"drum\" at=\"c4\"/>"));
}

/* Where a second hose hangs at the last joint, a tee would have four lines: the next section starts there without. */
static void no_tee_of_four(void **state)
{
#define SECOND "<hose id=\"s9\" like=\"s1\" from=\"t2\" to=\"c9\"/>"
#define THREE                                                                                                          \
    "<vessel id=\"d1\" like=\"drum\" at=\"c1\"/><vessel id=\"d9\" like=\"drum\" at=\"c9\"/><vessel id=\"d2\" "         \
    "like=\"drum\" at=\"c2\"/>"
    (void)state;
    grows_as(YARD(YARD_STOCK, "6 kW", YARD_LINES SECOND TEE("t1", "h1", "h2", "s1"), "6 h", THREE), NULL, NULL, 1,
             YARD(YARD_STOCK, "6 kW",
                  YARD_LINES SECOND
                  "<header id=\"h3\" from=\"t2\" to=\"t3\" length=\"9 m\" bore=\"21 mm\" lagging=\"20 mm\"/>"
                  "<hose id=\"s3\" like=\"s1\" from=\"t3\" to=\"c3\"/>" TEE("t1", "h1", "h2", "s1"),
                  "6 h", THREE "<vessel id=\"d3\" like=\"drum\" at=\"c3\"/>"));
}

static void fewer_are_shut(void **state)
{
    static const char *const settings[] = {"d2.phase=shut"};
    fv_plant *plant = yard_read(YARD_PLAIN), *shut = yard_set(YARD_PLAIN, settings, 1);
    fv_carry_options options = options_for(0, 1);
    (void)state;
    fv_carry_answer *answer = ask(plant, &options);
    assert_int_equal(answer->row_count, 2);
    assert_int_equal(answer->rows[0].count, 1);
    same_batch(&answer->rows[0].together, shut);
    fv_carry_free(answer);
    fv_plant_free(shut);
    fv_plant_free(plant);
}

/* Starts in the file are left out. */
static void starts_are_left_out(void **state)
{
    static const char *const settings[] = {"d1.start=20 min", "d2.start-after=d1 core"};
    fv_plant *plant = yard_set(YARD_PLAIN, settings, 2), *plain = yard_read(YARD_PLAIN);
    fv_carry_options options = options_for(1, 0);
    (void)state;
    fv_carry_answer *answer = ask(plant, &options);
    same_batch(&answer->rows[answer->present].together, plain);
    fv_carry_free(answer);
    fv_plant_free(plain);
    fv_plant_free(plant);
}

/* ---- the stagger ---- */

#define TIGHT YARD(YARD_STOCK, "5 kW", YARD_LINES, "4 h", YARD_VESSELS)

/* The grown plant with its stagger, saved as a file and read again, runs the same. */
static void recommended_equals_run(void **state)
{
    fv_plant *plant = yard_read(TIGHT);
    fv_carry_options options = options_for(2, 1);
    size_t staggers = 0;
    (void)state;
    fv_carry_answer *answer = ask(plant, &options);
    for (size_t i = 0; i < answer->row_count; i++) {
        const fv_carry_row *row = &answer->rows[i];
        fv_faults *faults = fv_faults_new();
        fv_plant *changed = fv_change_copy(&row->stagger, row->plant, faults);
        assert_non_null(changed);
        fv_plant *saved = yard_saved(changed);
        same_batch(&row->staggered, saved);
        staggers += row->stagger.count > 0;
        fv_plant_free(saved);
        fv_plant_free(changed);
        fv_faults_free(faults);
    }
    assert_true(staggers > 0);
    /* Asked about: the smallest number from its own on that is not carried together. */
    for (int i = answer->present; i < answer->asked; i++)
        assert_true(answer->rows[i].together.carries);
    assert_false(answer->rows[answer->asked].together.carries);
    fv_carry_free(answer);
    fv_plant_free(plant);
}

/* A stagger has to be worth the trouble: where it would have to halve the time, none is. */
static void small_gains_are_left(void **state)
{
    fv_plant *plant = yard_read(YARD_PLAIN);
    fv_carry_options options = options_for(1, 0);
    (void)state;
    options.matters = 0.5;
    fv_carry_answer *answer = ask(plant, &options);
    for (size_t i = 0; i < answer->row_count; i++) {
        const fv_carry_row *row = &answer->rows[i];
        assert_true(row->stagger.count == 0 || row->staggered.starved < row->together.starved ||
                    row->staggered.done < 0.5 * row->together.done);
    }
    fv_carry_free(answer);
    fv_plant_free(plant);
}

/* Two drums, the second at every quarter of an hour: none has fewer starved, nor, with as few, an end that is
 * earlier by 3 %. */
static void no_better_start(void **state)
{
    fv_plant *plant = yard_read(TIGHT);
    fv_carry_options options = options_for(1, 0);
    (void)state;
    fv_carry_answer *answer = ask(plant, &options);
    const fv_carry_row *row = &answer->rows[answer->present];
    const fv_carry_batch *best = row->best == FV_CARRY_TOGETHER    ? &row->together
                                 : row->best == FV_CARRY_STAGGERED ? &row->staggered
                                                                   : &row->throttled;
    const double opened = row->together.opened[0];
    for (double delay = 0; delay <= row->together.done; delay += 900) {
        char start[64];
        snprintf(start, sizeof start, "d2.start=%.0f s", 300 * round((opened + delay) / 300));
        const char *settings[] = {start};
        fv_plant *late = yard_set(TIGHT, settings, 1);
        fv_heat_result *r = yard_run(late, 1);
        size_t starved = 0;
        double done = 0;
        for (size_t i = 0; i < 2; i++) {
            starved += r->vessels[i].verdict == FV_STARVED;
            done = fmax(done, r->vessels[i].hold);
        }
        assert_true(starved > best->starved || (starved == best->starved && done >= 0.97 * best->done));
        fv_heat_free(r);
        fv_plant_free(late);
    }
    fv_carry_free(answer);
    fv_plant_free(plant);
}

/* The last `late` vessels later than the others, by a quarter of an hour and in steps from there: whether one of these
 * is better than what was found, as `no_better_start` has it. */
static size_t better_staggers(const fv_carry_row *row, size_t late, bool one_by_one, double step, size_t *tried)
{
    const fv_carry_batch *best = row->best == FV_CARRY_TOGETHER    ? &row->together
                                 : row->best == FV_CARRY_STAGGERED ? &row->staggered
                                                                   : &row->throttled;
    const double opened = row->together.opened[0];
    size_t better = 0;
    for (double delay = 900; delay <= row->together.done; delay += step) {
        fv_plant *plant = fv_plant_copy(row->plant);
        fv_faults *faults = fv_faults_new();
        for (size_t i = row->count - late, rank = 1; i < row->count; i++, rank++) {
            const double after = one_by_one ? delay * (double)rank : delay;
            plant->vessels[i]->start = fv_given(300 * round((opened + after) / 300));
        }
        assert_int_not_equal(fv_plant_link(plant, faults), FV_FAIL);
        fv_heat_options options;
        fv_heat_defaults(&options);
        options.stop_at_hold = true;
        fv_heat_result *r = fv_heat_run(plant, &options, NULL, faults);
        size_t starved = 0;
        double done = 0;
        for (size_t i = 0; r && i < r->vessel_count; i++) {
            const double hold = r->vessels[i].hold;
            starved += r->vessels[i].verdict == FV_STARVED;
            done = fmax(done, isnan(hold) ? INFINITY : hold);
        }
        *tried += r != NULL;
        if (r && (starved < best->starved || (starved == best->starved && done < 0.97 * best->done))) {
            print_message(
                "%zu vessels, %zu later by %.2f h%s: %zu starved, done after %.2f h, instead of %zu and %.2f\n",
                row->count, late, delay / 900, one_by_one ? " each" : "", starved, done / 3600, best->starved,
                best->done / 900);
            better++;
        }
        fv_heat_free(r);
        fv_plant_free(plant);
        fv_faults_free(faults);
    }
    return better;
}

/* Five bins, of which together three starve, and five chests with water lying in a hose. */
static void no_better_stagger(void **state)
{
    static const struct {
        const char *file;
        double step; /* s */
    } plants[] = {{"networks/four-bins.xml", 4500}, {"networks/turndown-trap.xml", 3600}};
    size_t better = 0, tried = 0;
    (void)state;
    for (size_t i = 0; i < COUNT(plants); i++) {
        fv_faults *faults = fv_faults_new();
        fv_plant *plant = fv_plantfile_read(plants[i].file, NULL, faults);
        assert_non_null(plant);
        fv_load *load = &plant->kinds[0]->load; // the same problem for the search, whatever the defaults
        load->surface = fv_given(200);
        load->conductivity = fv_given(0.384);
        assert_int_equal(fv_plant_link(plant, faults), FV_OK);
        fv_carry_options options = options_for(1, 0);
        fv_carry_answer *answer = ask(plant, &options);
        for (size_t k = 0; k < answer->row_count; k++) {
            const fv_carry_row *row = &answer->rows[k];
            better += better_staggers(row, 1, false, plants[i].step, &tried) +
                      better_staggers(row, row->count / 2, false, plants[i].step, &tried) +
                      better_staggers(row, row->count - 1, true, plants[i].step, &tried);
        }
        fv_carry_free(answer);
        fv_plant_free(plant);
        fv_faults_free(faults);
    }
    print_message("%zu staggers tried one by one\n", tried);
    assert_int_equal(better, 0);
}

static void threads_change_nothing(void **state)
{
    fv_plant *plant = yard_read(TIGHT);
    char *first = NULL;
    (void)state;
    static const size_t counts[] = {1, 2, 5};
    for (size_t i = 0; i < COUNT(counts); i++) {
        fv_carry_options options = options_for(1, 1);
        options.threads = counts[i];
        options.others = true;
        fv_carry_answer *answer = ask(plant, &options);
        fv_report_options format = {.format = FV_REPORT_JSON};
        fv_text out = {0};
        assert_int_equal(fv_report_carry(answer, NULL, &format, &out), FV_OK);
        if (first)
            assert_string_equal(first, out.text);
        else
            first = strdup(out.text);
        fv_text_free(&out);
        fv_carry_free(answer);
    }
    free(first);
    fv_plant_free(plant);
}

/* ---- limits and holding ---- */

static fv_carry_limit limit_of(const char *const *settings, size_t count, const char *xml)
{
    fv_plant *plant = yard_set(xml, settings, count);
    fv_carry_options options = options_for(0, 1);
    fv_carry_answer *answer = ask(plant, &options);
    const fv_carry_limit limit = answer->rows[answer->present].together.limit;
    fv_carry_free(answer);
    fv_plant_free(plant);
    return limit;
}

static void known_limits(void **state)
{
    static const char *const small[] = {"h1.bore=68 mm", "h2.bore=68 mm", "s1.bore=38 mm", "s1.barb1.bore=36 mm"};
    static const char *const thin[] = {"boiler.output=20 kW", "boiler.water=15 L", "h1.bore=9 mm", "h2.bore=9 mm"};
    static const char *const narrow[] = {"boiler.output=20 kW", "boiler.water=15 L",  "h1.bore=41 mm",
                                         "h2.bore=41 mm",       "s1.barb1.bore=6 mm", "s1.bore=7 mm"};
    static const char *const few[] = {"boiler.output=20 kW", "boiler.water=15 L",   "h1.bore=41 mm",
                                      "h2.bore=41 mm",       "s1.bore=32 mm",       "s1.barb1.bore=30 mm",
                                      "drum.coil.holes=2",   "drum.coil.drill=2 mm"};
    static const char *const ample[] = {"boiler.output=60 kW", "boiler.water=15 L",   "h1.bore=68 mm",
                                        "h2.bore=68 mm",       "s1.bore=38 mm",       "s1.barb1.bore=36 mm",
                                        "drum.coil.holes=30",  "drum.coil.drill=4 mm"};
    static const char *const by_hand[] = {"boiler.feeding=by-hand", "boiler.usable=6 L"};
    (void)state;
    assert_int_equal(limit_of(small, COUNT(small), YARD_PLAIN), FV_CARRY_LIMIT_BOILER);
    assert_int_equal(limit_of(thin, COUNT(thin), YARD_PLAIN), FV_CARRY_LIMIT_HEADER);
    assert_int_equal(limit_of(narrow, COUNT(narrow), YARD_PLAIN), FV_CARRY_LIMIT_HOSES);
    assert_int_equal(limit_of(few, COUNT(few), YARD_PLAIN), FV_CARRY_LIMIT_COILS);
    assert_int_equal(limit_of(ample, COUNT(ample), YARD_PLAIN), FV_CARRY_LIMIT_LOAD);
    assert_int_equal(limit_of(by_hand, COUNT(by_hand), YARD_PLAIN), FV_CARRY_LIMIT_WATER);
}

/* Holding is the flow verb's answer with all vessels holding. */
static void holding_is_flow(void **state)
{
    fv_plant *plant = yard_read(YARD_PLAIN);
    fv_carry_options options = options_for(1, 0);
    fv_faults *faults = fv_faults_new();
    (void)state;
    fv_carry_answer *answer = ask(plant, &options);
    for (size_t i = 0; i < answer->row_count; i++) {
        const fv_carry_holding *h = &answer->rows[i].holding;
        fv_flow_options flow;
        fv_flow_defaults(&flow);
        flow.phase = FV_PHASE_HOLDING;
        fv_flow_answer *state_of = fv_flow_answer_new(answer->rows[i].plant, &flow, NULL, faults);
        assert_non_null(state_of);
        double need = 0, heat = 0, worst = INFINITY;
        for (size_t k = 0; k < state_of->state->vessel_count; k++) {
            const fv_vessel_result *v = &state_of->state->vessels[k];
            need += v->need;
            heat += v->heat;
            if (v->verdict != FV_SHUT_OFF)
                worst = fmin(worst, v->heat / v->need);
        }
        assert_true(h->solved && h->need == need && h->heat == heat);
        assert_true(h->coverage == worst);
        const fv_vessel_result *least = &state_of->state->vessels[h->worst_vessel];
        assert_true(least->heat / least->need == worst);
        assert_true(h->pressure == state_of->state->boilers[0].pressure);
        assert_true(yard_equal(h->least_fire, state_of->hold.fire));
        assert_true(yard_equal(h->least_output, state_of->hold.output));
        assert_true(isnan(h->least_fire) || h->starved == 0);
        fv_flow_answer_free(state_of);
    }
    fv_faults_free(faults);
    fv_carry_free(answer);
    fv_plant_free(plant);
}

/* ---- what could be bought ---- */

static const fv_carry_way *way_of(const fv_carry_answer *answer, fv_carry_other other)
{
    for (size_t i = 0; i < answer->way_count; i++)
        if (answer->ways[i].other == other)
            return &answer->ways[i];
    return NULL;
}

/* Where vapour gets into walls, a sealed lining is one of the ways; it is worth more than nothing. */
static void lining_is_a_way(void **state)
{
    (void)state;
    fv_plant *plant = yard_read(TIGHT);
    fv_carry_options options = options_for(1, 0);
    options.others = true;
    for (size_t i = 0; i < plant->vessel_count; i++)
        plant->vessels[i]->walls[0]->layers[0]->vapour_resistance = fv_given(0.5);
    assert_int_equal(fv_plant_link(plant, NULL), FV_OK);
    fv_carry_answer *answer = ask(plant, &options);
    const fv_carry_way *lining = way_of(answer, FV_CARRY_LINING);
    assert_non_null(lining);
    assert_true(isnan(lining->cost) && isnan(lining->size));
    assert_int_equal(lining->change.count, plant->vessel_count + (size_t)(answer->asked - answer->present));
    for (size_t i = 0; i < lining->change.count; i++)
        assert_string_equal(lining->change.settings[i].attribute, "vapour-resistance");
    assert_true(lining->run.fuel < answer->rows[answer->asked].together.fuel);
    fv_carry_free(answer);
    fv_plant_free(plant);
}

static void ways_equal_runs(void **state)
{
    fv_plant *plant = yard_read(TIGHT);
    fv_carry_options options = options_for(1, 0);
    options.others = true;
    (void)state;
    fv_carry_answer *answer = ask(plant, &options);
    assert_int_equal(answer->way_count, FV_CARRY_OTHERS - 1); /* no wall lets vapour in */
    for (size_t i = 0; i < answer->way_count; i++) {
        const fv_carry_way *way = &answer->ways[i];
        fv_faults *faults = fv_faults_new();
        fv_plant *changed = fv_change_copy(&way->change, way->plant, faults);
        assert_non_null(changed);
        fv_plant *saved = yard_saved(changed);
        same_batch(&way->run, saved);
        assert_true(!way->meets || (way->run.carries && way->run.mass_per_day >= answer->wanted * (1 - 1e-9)));
        fv_plant_free(saved);
        fv_plant_free(changed);
        fv_faults_free(faults);
    }
    const fv_carry_way *bigger = way_of(answer, FV_CARRY_BIGGER_BOILER),
                       *second = way_of(answer, FV_CARRY_SECOND_BOILER);
    assert_true(bigger->from_stock && bigger->size > 5e3);
    assert_true(bigger->cost == (bigger->size == 9e3 ? 1500 : 2600));
    assert_int_equal(second->plant->boiler_count, 2);
    /* Header of 3 m and 9 m at 8 or 12 a metre. */
    const fv_carry_way *header = way_of(answer, FV_CARRY_WIDER_HEADER);
    const double length = answer->asked > answer->present ? 21 : 12;
    assert_true(fabs(header->cost - length * (header->size == 0.027 ? 8 : 12)) < 1e-9);
    fv_carry_free(answer);
    fv_plant_free(plant);
}

/* ---- words ---- */

static void first_line(void **state)
{
    fv_plant *plant = yard_read(TIGHT);
    fv_carry_options options = options_for(1, 0);
    fv_report_options format;
    fv_text out = {0};
    (void)state;
    fv_report_defaults(&format);
    fv_carry_answer *answer = ask(plant, &options);
    assert_int_equal(fv_report_carry(answer, NULL, &format, &out), FV_OK);
    const fv_carry_row *row = &answer->rows[answer->asked];
    const char *start = row->together.carries || row->staggered.carries ? "Yes, " : "No, ";
    assert_memory_equal(out.text, start, strlen(start));
    for (const char *line = out.text; *line; line += strcspn(line, "\n"), line += *line == '\n')
        assert_true(strcspn(line, "\n") <= 80);
    fv_text_free(&out);
    fv_carry_free(answer);
    fv_plant_free(plant);
}

static void refusals(void **state)
{
    static const struct {
        const char *like, *at;
        size_t more, fewer;
        const char *says[2];
    } cases[] = {{"d9", NULL, 1, 0, {"no vessel or kind that copies could be like is called 'd9'", "drum, d1, d2"}},
                 {NULL, "t9", 1, 0, {"no joint is called 't9'", "t1"}},
                 {NULL, "t1", 1, 0, {"a tee joins its three lines at 't1'", "pattern"}},
                 {NULL, NULL, 0, 0, {"nothing to change", "one vessel more"}}};
    fv_plant *plant = yard_read(YARD(YARD_STOCK, "6 kW", YARD_LINES TEE("t1", "h1", "h2", "s1"), "6 h", YARD_VESSELS));
    (void)state;
    for (size_t i = 0; i < COUNT(cases); i++) {
        fv_carry_options options = options_for(cases[i].more, cases[i].fewer);
        fv_faults *faults = fv_faults_new();
        fv_text said = {0};
        options.like = cases[i].like;
        options.at = cases[i].at;
        assert_null(fv_carry_run(plant, &options, NULL, faults));
        fv_report_faults(faults, &said);
        for (size_t k = 0; k < 2; k++)
            if (!said.text || !strstr(said.text, cases[i].says[k]))
                fail_msg("case %zu: \"%s\" does not say \"%s\"", i, said.text, cases[i].says[k]);
        fv_text_free(&said);
        fv_faults_free(faults);
    }
    fv_plant_free(plant);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(own_number_is_the_plain_run),
        cmocka_unit_test(ends_with_the_hold),
        cmocka_unit_test(one_vessel),
        cmocka_unit_test(pattern_goes_on),
        cmocka_unit_test(at_a_joint),
        cmocka_unit_test(on_a_ring),
        cmocka_unit_test(with_tees),
        cmocka_unit_test(no_tee_of_four),
        cmocka_unit_test(fewer_are_shut),
        cmocka_unit_test(starts_are_left_out),
        cmocka_unit_test(recommended_equals_run),
        cmocka_unit_test(small_gains_are_left),
        cmocka_unit_test(no_better_start),
        cmocka_unit_test(no_better_stagger),
        cmocka_unit_test(threads_change_nothing),
        cmocka_unit_test(known_limits),
        cmocka_unit_test(holding_is_flow),
        cmocka_unit_test(lining_is_a_way),
        cmocka_unit_test(ways_equal_runs),
        cmocka_unit_test(first_line),
        cmocka_unit_test(refusals),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
