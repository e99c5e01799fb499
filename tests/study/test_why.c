/* SPDX-License-Identifier: MIT */
/* What holds for every answer of why: sums, symmetry, the same for any number of threads, remedies that run again to
 * the same figures, pressures that add up, questions that cannot be answered. */
#include "study/nursery.h"

#define STOCK                                                                                                          \
    "<stock currency='EUR'><hose bore='25 mm' price='19'/><hose bore='32 mm' price='27'/><header bore='68 mm'/>"       \
    "<drill size='7 mm'/><drill size='8 mm'/><lagging thickness='50 mm' material='mineral-wool' price='31'/>"          \
    "<boiler output='48 kW' price='6800'/></stock>"
static const char with_stock[] = NURSERY_HEAD(STOCK) NURSERY_HEADER NURSERY_HOSES("t2", "t3") NURSERY_REST;
static const char *const sagging[] = {"s3.sag=60 mm", "s3.length=8 m", "boiler.output=16 kW", NULL};

static fv_why_options quick(bool remedies)
{
    fv_why_options options;
    fv_why_defaults(&options);
    options.most = 4;
    options.remedies = remedies;
    return options;
}

static void shares_add_up(void **state)
{
    (void)state;
    fv_plant *plant = nursery_plant(nursery_row, sagging);
    const fv_why_options options = quick(false);
    fv_why_answer *a = nursery_why(plant, &options);
    for (size_t i = 0; i < 3; i++) {
        const fv_why_vessel *v = &a->vessels[i];
        double sum = v->ideal + v->small;
        for (size_t c = 0; c < FV_WHY_CAUSES; c++)
            sum += v->share[c];
        print_message("check | shares of bin%zu add up to its time | %.12g | got %.12g | dev %.1e | sum\n", i + 1,
                      v->took, sum, fabs(sum - v->took) / v->took);
        assert_true(fabs(sum - v->took) <= 1e-9 * v->took);
        assert_true(v->asked && v->arrives && v->took > v->ideal && v->ideal >= 0.99 * v->ample);
        for (size_t k = 1; k < v->count; k++)
            assert_int_not_equal(v->order[k], v->order[k - 1]);
    }
    assert_int_equal(a->vessels[2].first, FV_WHY_SAG);
    assert_true(a->vessels[2].against_best);
    assert_int_equal(a->vessels[2].part_here, 1);
    assert_int_equal(a->vessels[2].part_count, 1);
    assert_string_equal(a->vessels[2].parts[0], "s3");
    assert_int_equal(a->target, 2);
    assert_true(a->remedies == NULL || a->remedy_count == 0);
    fv_why_free(a);
    fv_plant_free(plant);
}

/* Three bins at one joint, alike in every respect: the same answer for each. The runs of a step are equal to 1e-9 only,
 * and times are ends of steps solved to 1e-6 s. */
static void a_symmetric_plant_gives_equal_credit(void **state)
{
    (void)state;
    fv_plant *plant = nursery_plant(nursery_star, (const char *const[]){"boiler.output=12 kW", NULL});
    const fv_why_options options = quick(false);
    fv_why_answer *a = nursery_why(plant, &options);
    const fv_why_vessel *first = &a->vessels[0];
    assert_int_equal(first->first, FV_WHY_BOILER);
    for (size_t i = 1; i < 3; i++)
        for (size_t c = 0; c < FV_WHY_CAUSES; c++) {
            const double dev = fabs(a->vessels[i].share[c] - first->share[c]);
            if (first->share[c] != 0)
                print_message("check | share of %s, bin%zu as bin1 | %.9g s | got %.9g s | dev %.1e s | symmetry\n",
                              fv_why_cause_word((fv_why_cause)c), i + 1, first->share[c], a->vessels[i].share[c], dev);
            assert_true(dev < 1e-3);
        }
    fv_why_free(a);
    fv_plant_free(plant);
}

static void same_vessel(const fv_why_vessel *x, const fv_why_vessel *y)
{
    assert_true(x->took == y->took && x->ideal == y->ideal && x->small == y->small);
    assert_memory_equal(x->share, y->share, sizeof x->share);
    assert_int_equal(x->first, y->first);
    assert_int_equal(x->next, y->next);
}

/* Alike in all but the time allowed: the holes that the need asks for are wider where less time is allowed, so that
 * taking the cause away helps that vessel and takes from the others. */
static void holes_follow_the_need(void **state)
{
    (void)state;
    fv_plant *plant = nursery_plant(nursery_star, (const char *const[]){"boiler.output=9 kW", "bin1.within=4 h", NULL});
    const fv_why_options options = quick(false);
    fv_why_answer *a = nursery_why(plant, &options);
    print_message("holes by need: bin1 gains %.0f s, bin2 %.0f s\n", a->vessels[0].alone[FV_WHY_HOLES],
                  a->vessels[1].alone[FV_WHY_HOLES]);
    assert_true(a->vessels[0].alone[FV_WHY_HOLES] > 600);
    assert_true(a->vessels[1].alone[FV_WHY_HOLES] < -600);
    fv_why_free(a);
    fv_plant_free(plant);
}

static void the_same_for_any_number_of_threads(void **state)
{
    (void)state;
    fv_plant *plant = nursery_plant(with_stock, sagging);
    fv_why_options options = quick(true);
    options.most = 2;
    options.threads = 1;
    fv_why_answer *one = nursery_why(plant, &options);
    options.threads = 3;
    fv_why_answer *three = nursery_why(plant, &options);
    for (size_t i = 0; i < 3; i++)
        same_vessel(&one->vessels[i], &three->vessels[i]);
    assert_int_equal(one->remedy_count, three->remedy_count);
    for (size_t i = 0; i < one->remedy_count; i++) {
        assert_int_equal(one->remedies[i].kind, three->remedies[i].kind);
        assert_memory_equal(one->remedies[i].core, three->remedies[i].core, 3 * sizeof(double));
    }
    fv_why_free(one);
    fv_why_free(three);
    fv_plant_free(plant);
}

/* The first remedies, the cheapest and one of each effort: `heat` on the changed file gives the same to the bit. */
static void runs_again(const fv_why_answer *a, const fv_why_remedy *r, const char *xml, const char *const *base)
{
    const char *settings[64] = {NULL};
    fv_text texts[48];
    size_t count = 0;
    assert_true(r->change.count < 48);
    for (; base[count]; count++)
        settings[count] = base[count];
    for (size_t i = 0; i < r->change.count; i++) {
        texts[i] = (fv_text){0};
        assert_true(fv_setting_write(&r->change.settings[i], a->plant, &texts[i]));
        settings[count++] = texts[i].text;
    }
    fv_plant *plant = nursery_plant(xml, settings);
    fv_text saved = {0};
    assert_true(fv_plantfile_write(plant, &saved));
    fv_plant *read = nursery_plant(saved.text, NULL);
    fv_faults *faults = fv_faults_new();
    fv_heat_options options;
    fv_heat_defaults(&options);
    fv_heat_result *result = fv_heat_run(read, &options, NULL, faults);
    assert_non_null(result);
    for (size_t v = 0; v < 3; v++)
        assert_true(r->core[v] == result->vessels[v].core);
    print_message("check | %s run again, core of bin3 | %.17g s | got %.17g s | dev 0 | --set, saved, heat\n",
                  fv_remedy_word(r->kind), r->core[2], result->vessels[2].core);
    for (size_t i = 0; i < r->change.count; i++)
        fv_text_free(&texts[i]);
    fv_text_free(&saved);
    fv_heat_free(result);
    fv_faults_free(faults);
    fv_plant_free(read);
    fv_plant_free(plant);
}

/* Remedies and the next step are those of the whole question, in fewer runs. */
static void the_next_step_needs_no_shares(void **state)
{
    (void)state;
    fv_plant *plant = nursery_plant(with_stock, sagging);
    fv_why_options options = quick(true);
    fv_why_answer *all = nursery_why(plant, &options);
    options.most = 0;
    fv_why_answer *a = nursery_why(plant, &options);
    assert_int_equal(a->kept_count, 0);
    assert_true(a->runs < all->runs);
    assert_int_equal(a->remedy_count, all->remedy_count);
    assert_int_equal(a->cheapest, all->cheapest);
    assert_int_equal(a->strongest, all->strongest);
    for (size_t i = 0; i < a->remedy_count; i++) {
        assert_int_equal(a->remedies[i].kind, all->remedies[i].kind);
        assert_true(a->remedies[i].worth == all->remedies[i].worth);
    }
    for (size_t v = 0; v < 3; v++)
        assert_int_equal(a->vessels[v].first, FV_WHY_NOTHING);
    fv_why_free(a);
    fv_why_free(all);
    fv_plant_free(plant);
}

static void remedies_hold_what_they_promise(void **state)
{
    (void)state;
    fv_plant *plant = nursery_plant(with_stock, sagging);
    fv_why_options options = quick(true);
    options.most = 2;
    fv_why_answer *a = nursery_why(plant, &options);
    assert_true(a->remedy_count > 15);
    assert_int_equal(a->remedies_failed, 0);
    assert_true(a->cheapest >= 0 && a->strongest >= 0);
    assert_int_equal(a->remedies[a->cheapest].kind, FV_REMEDY_SAG);
    assert_true(a->remedies[a->cheapest].cost == 0);
    bool boiler = false, hose = false;
    for (size_t i = 0; i < a->remedy_count; i++) {
        const fv_why_remedy *r = &a->remedies[i];
        assert_true(i == 0 || r->worth <= a->remedies[i - 1].worth);
        assert_true(r->change.count > 0 && r->part && r->part_count > 0);
        for (size_t v = 0; v < 3; v++)
            assert_true(fabs(r->gain[v] - (a->now->vessels[v].core - r->core[v])) < 1e-6);
        if (r->kind == FV_REMEDY_BOILER) {
            boiler = true;
            assert_true(r->from_stock && r->cost == 6800 && r->from == 16e3 && r->to == 48e3);
        }
        if (r->kind == FV_REMEDY_HOSE_BORE) {
            hose = true;
            assert_true(r->from_stock && r->to == 0.032 && fabs(r->cost - 8 * 27) < 1e-9);
            assert_string_equal(r->part, "s3");
        }
    }
    assert_true(boiler && hose);
    for (size_t i = 0; i < a->remedy_count; i += 4)
        runs_again(a, &a->remedies[i], with_stock, sagging);
    runs_again(a, &a->remedies[a->cheapest], with_stock, sagging);
    fv_why_free(a);
    fv_plant_free(plant);
}

/* Three boxes of pots on a boiler that brings two of them in time at once; the third hangs on a thin hose. */
static const char pot_house[] =
    "<network xmlns='urn:farvessel:network:1'><site altitude='250 m' air='8 degC'/>"
    "<boiler id='kettle' at='b0' output='18 kW' holds='0.2 bar' relief='0.5 bar' fuel='oil'/>"
    "<header id='m1' from='b0' to='j1' length='3 m' bore='27 mm'/>"
    "<header id='m2' from='j1' to='j2' length='3 m' bore='27 mm'/>"
    "<header id='m3' from='j2' to='j3' length='3 m' bore='27 mm'/>"
    "<hose id='a' from='j1' to='ca' length='2 m' bore='19 mm'><barb bore='14 mm' count='2'/></hose>"
    "<hose id='b' from='j2' to='cb' length='2 m' bore='19 mm'><barb bore='14 mm' count='2'/></hose>"
    "<hose id='c' from='j3' to='cc' length='4 m' bore='13 mm'><barb bore='10 mm' count='2'/></hose>"
    "<kind id='box' volume='0.8 m3' target='70 degC' hold='30 min' within='4 h'>"
    "<coil bore='20 mm' length='1.8 m' holes='16' drill='3 mm'/>"
    "<load medium='peat' form='cylinder' diameter='12 cm' height='11 cm' count='200' mass='160 kg' wrap='pot' "
    "packing='loose'/><wall area='5 m2'><layer material='plywood' thickness='15 mm'/></wall>"
    "<vent diameter='30 mm'/><drain diameter='20 mm'/></kind>"
    "<vessel id='va' like='box' at='ca'/><vessel id='vb' like='box' at='cb'/><vessel id='vc' like='box' at='cc'/>"
    "</network>";

/* A bigger boiler gains most, but starts by the clock have all three in time for nothing: that is the next step. */
static void what_cures_for_nothing_comes_first(void **state)
{
    (void)state;
    fv_plant *plant = nursery_plant(pot_house, (const char *const[]){NULL});
    const fv_why_options options = quick(true);
    fv_why_answer *a = nursery_why(plant, &options);
    assert_true(a->now->vessels[2].core - a->now->vessels[2].opened > plant->vessels[2]->within.v);
    assert_true(a->cheapest >= 0 && a->strongest >= 0);
    const fv_why_remedy *next = &a->remedies[a->cheapest], *most = &a->remedies[a->strongest];
    assert_true(next->in_time && next->cost == 0);
    assert_int_equal(most->kind, FV_REMEDY_BOILER);
    assert_true(next->worth < 0.5 * most->worth);
    bool hands = false;
    for (size_t i = 0; i < a->remedy_count; i++)
        hands = hands || (a->remedies[i].kind == FV_REMEDY_HANDS && a->remedies[i].in_time);
    assert_true(hands); /* hands that may move starts find it too */
    runs_again(a, next, pot_house, (const char *const[]){NULL});
    fv_why_free(a);
    fv_plant_free(plant);
}

/* Of one vessel alone; there may be one for all beside it. */
static const fv_why_remedy *remedy_of(const fv_why_answer *a, fv_remedy_kind kind)
{
    for (size_t i = 0; i < a->remedy_count; i++)
        if (a->remedies[i].kind == kind && a->remedies[i].part_count == 1)
            return &a->remedies[i];
    return NULL;
}

/* What is wrong in the vessel itself, and its remedy: from what is there to none of it, each free or small. */
static void remedies_in_the_vessel(void **state)
{
    (void)state;
    static const struct {
        const char *setting;
        fv_remedy_kind kind;
        double from, to;
    } rows[] = {{"bin3.coil.clogged=50 %", FV_REMEDY_CLEAN, 0.5, 0},
                {"bin3.water=20 mm", FV_REMEDY_WATER, 0.02, 0},
                {"bin3.opening3.area=30 cm2", FV_REMEDY_LID, 0.003, 0},
                {"bin3.load.packing=packed", FV_REMEDY_LOOSE, FV_PACKING_PACKED, FV_PACKING_LOOSE}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const char *const settings[] = {rows[i].setting, "boiler.output=16 kW", NULL};
        fv_plant *plant = nursery_plant(nursery_row, settings);
        fv_why_options options = quick(true);
        options.most = 1;
        options.vessel = "bin3";
        fv_why_answer *a = nursery_why(plant, &options);
        const fv_why_remedy *r = remedy_of(a, rows[i].kind);
        assert_non_null(r);
        print_message("%s: %s gains %.0f s\n", rows[i].setting, fv_remedy_word(rows[i].kind), r->gain[2]);
        assert_string_equal(r->part, "bin3");
        assert_true(r->part_count == 1 && r->effort != FV_EFFORT_BUY);
        assert_true(r->gain[2] > 0);
        assert_true(fabs(r->from - rows[i].from) < 1e-9 && fabs(r->to - rows[i].to) < 1e-9);
        fv_why_free(a);
        fv_plant_free(plant);
    }
}

/* What holds up all alike is cured in all, not in the last one alone. */
static void a_fault_of_all_is_cured_in_all(void **state)
{
    (void)state;
    const char *const settings[] = {"bin1.load.packing=packed", "bin2.load.packing=packed", "bin3.load.packing=packed",
                                    NULL};
    fv_plant *plant = nursery_plant(nursery_star, settings);
    const fv_why_options options = quick(true);
    fv_why_answer *a = nursery_why(plant, &options);
    assert_true(a->cheapest >= 0);
    const fv_why_remedy *next = &a->remedies[a->cheapest];
    assert_int_equal(next->kind, FV_REMEDY_LOOSE);
    assert_int_equal(next->part_count, 3);
    for (size_t v = 0; v < 3; v++)
        assert_true(next->gain[v] > 0);
    fv_why_free(a);
    fv_plant_free(plant);
}

static void pressures_add_up(void **state)
{
    (void)state;
    fv_plant *plant = nursery_plant(nursery_row, (const char *const[]){"s3.sag=40 mm", "bin3.water=10 mm", NULL});
    const fv_why_options options = quick(false);
    fv_why_answer *a = nursery_why(plant, &options);
    const fv_steady_result *first = a->now->at_first_steam;
    bool sag = false, water = false;
    double sum = 0, share = 0;
    assert_non_null(first);
    for (size_t i = 0; i < a->place_count; i++) {
        const fv_why_place *p = &a->places[i];
        const bool begins = i == 0 || p->vessel != a->places[i - 1].vessel;
        const bool ends = i + 1 == a->place_count || a->places[i + 1].vessel != p->vessel;
        if (begins) {
            sum = share = 0;
            assert_true(fabs(p->before - first->boilers[0].pressure) < 1e-6);
        } else {
            assert_true(fabs(p->before - a->places[i - 1].after) < 1e-6);
        }
        assert_true(fabs(p->before - p->after - p->drop) < 1e-9);
        sum += p->drop;
        share += p->share;
        if (p->vessel == 2 && p->kind == FV_PLACE_SAG)
            sag = fabs(p->drop - 0.040 * 9.80665 * 958) < 4; /* rho_f near 958 kg/m3 at the local pressure */
        if (p->vessel == 2 && p->kind == FV_PLACE_WATER)
            water = fabs(p->drop - 0.010 * 9.80665 * 958) < 1;
        if (ends) {
            const double whole = first->boilers[0].pressure - first->vessels[p->vessel].chamber_pressure;
            print_message(
                "check | pressures on the way to bin%d | %.9g Pa | got %.9g Pa | dev %.1e | boiler less chamber\n",
                p->vessel + 1, whole, sum, fabs(sum - whole) / whole);
            assert_true(fabs(sum - whole) < 1e-6 && fabs(share - 1) < 1e-12);
        }
    }
    assert_true(sag && water);
    fv_why_free(a);
    fv_plant_free(plant);
}

/* A core that never arrives counts as the cap. */
static void never_counts_as_the_cap(void **state)
{
    (void)state;
    fv_plant *plant =
        nursery_plant(nursery_row, (const char *const[]){"bin2.gap1.area=3000 cm2", "boiler.output=10 kW", NULL});
    fv_why_options options = quick(false);
    options.vessel = "bin2";
    options.cap = 12 * 3600;
    fv_why_answer *a = nursery_why(plant, &options);
    const fv_why_vessel *v = &a->vessels[1];
    assert_true(a->cap == 43200 && v->took == 43200 && !v->arrives);
    assert_int_equal(v->first, FV_WHY_OPENINGS);
    assert_true(v->asked && !a->vessels[0].asked && !a->vessels[2].asked);
    assert_int_equal(a->target, 1);
    fv_why_free(a);
    fv_plant_free(plant);
}

static void refused(const char *const *settings, const fv_why_options *options, const char *said)
{
    fv_plant *plant = nursery_plant(nursery_row, settings);
    fv_faults *faults = fv_faults_new();
    assert_null(fv_why_run(plant, options, NULL, faults));
    bool found = false;
    for (size_t i = 0; i < fv_faults_count(faults); i++)
        found = found || (!fv_faults_at(faults, i)->caution && strstr(fv_faults_at(faults, i)->text, said));
    if (!found)
        nursery_say(faults);
    assert_true(found);
    fv_faults_free(faults);
    fv_plant_free(plant);
}

static void bad_questions(void **state)
{
    (void)state;
    fv_why_options options = quick(true);
    options.vessel = "bin4";
    refused(NULL, &options, "no vessel is called 'bin4'; did you mean 'bin1'? The vessels are: bin1, bin2, bin3");
    options.vessel = "bin2";
    refused((const char *const[]){"bin2.phase=shut", NULL}, &options, "vessel 'bin2' gets no steam during the run");
    options.vessel = NULL;
    refused((const char *const[]){"bin.phase=shut", NULL}, &options, "no vessel gets steam during the run");
    options.most = 11;
    refused(NULL, &options, "most must be 0 to 10");
    options = quick(true);
    options.cap = -1;
    refused(NULL, &options, "cap above 0");
}

static bool stop(void *context, double share, const char *what)
{
    (void)share;
    (void)what;
    return ++*(int *)context < 60;
}

static void stops_when_asked(void **state)
{
    (void)state;
    fv_plant *plant = nursery_plant(nursery_row, sagging);
    fv_faults *faults = fv_faults_new();
    int asked = 0;
    const fv_progress progress = {stop, &asked};
    const fv_why_options options = quick(true);
    assert_null(fv_why_run(plant, &options, &progress, faults));
    assert_int_equal(fv_faults_errors(faults), 0);
    assert_int_equal(asked, 60);
    fv_faults_free(faults);
    fv_plant_free(plant);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(shares_add_up),
        cmocka_unit_test(a_symmetric_plant_gives_equal_credit),
        cmocka_unit_test(holes_follow_the_need),
        cmocka_unit_test(the_same_for_any_number_of_threads),
        cmocka_unit_test(the_next_step_needs_no_shares),
        cmocka_unit_test(remedies_hold_what_they_promise),
        cmocka_unit_test(what_cures_for_nothing_comes_first),
        cmocka_unit_test(remedies_in_the_vessel),
        cmocka_unit_test(a_fault_of_all_is_cured_in_all),
        cmocka_unit_test(pressures_add_up),
        cmocka_unit_test(never_counts_as_the_cap),
        cmocka_unit_test(bad_questions),
        cmocka_unit_test(stops_when_asked),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
