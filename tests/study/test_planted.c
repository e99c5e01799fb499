/* SPDX-License-Identifier: MIT */
/* Causes that are known because they were planted: why names each first. */
#include "study/nursery.h"

typedef struct {
    const char *what;
    const char *vessel; /* that suffers; NULL: all do, the last one is asked about */
    fv_why_cause cause;
    const char *settings[NURSERY_SETTINGS];
} planted;

static const planted causes[] = {
    {"a hose that sags", "bin3", FV_WHY_SAG, {"s3.sag=80 mm"}},
    {"a header gone thin", "bin3", FV_WHY_HEADER, {"h2.bore=15 mm", "h3.bore=15 mm"}},
    {"a long thin hose", "bin3", FV_WHY_HOSE, {"s3.length=12 m", "s3.bore=15 mm"}},
    {"a tight barb", "bin3", FV_WHY_FITTINGS, {"s3.barb1.bore=8 mm"}},
    {"a valve nearly shut", "bin2", FV_WHY_FITTINGS, {"s2.valve1.open=20 %"}},
    {"clogged holes", "bin3", FV_WHY_HOLES, {"bin3.coil.clogged=85 %"}},
    {"water over the holes", "bin2", FV_WHY_WATER, {"bin2.water=60 mm"}},
    {"a gap in the lid", "bin3", FV_WHY_OPENINGS, {"bin3.gap1.area=80 cm2"}},
    {"a vent as wide as a door", "bin1", FV_WHY_OPENINGS, {"bin1.vent1.diameter=200 mm"}},
    {"too small a boiler", NULL, FV_WHY_BOILER, {"boiler.output=8 kW"}},
    {"half a fire", NULL, FV_WHY_BOILER, {"boiler.fire=30 %"}},
    {"bare sheet for a wall, in the wind",
     "bin3",
     FV_WHY_WALLS,
     {"bin3.wall1.layer1.thickness=2 mm", "bin3.wall1.layer2.thickness=0.1 mm", "bin3.wall1.outside=60 W/m2/K",
      "bin3.wall1.area=8 m2"}},
    {"a brick lining",
     "bin3",
     FV_WHY_WALLS,
     {"bin3.wall1.layer1.thickness=120 mm", "bin3.wall1.layer1.conductivity=0.7 W/m/K",
      "bin3.wall1.layer1.density=1800 kg/m3", "bin3.wall1.area=12 m2"}},
    {"a long bare header in the wind",
     NULL,
     FV_WHY_LINE_LOSS,
     {"h1.length=28 m", "h1.lagging=0 mm", "h1.wind=8 m/s", "boiler.output=36 kW"}},
    {"blocks packed to one stack", "bin3", FV_WHY_LOAD, {"bin3.load.packing=packed"}},
    {"three times the load", "bin2", FV_WHY_LOAD, {"bin2.load.count=240", "bin2.load.mass=552 kg"}},
    {"a coil of thin pipe", "bin3", FV_WHY_COIL, {"bin3.coil.bore=8 mm"}},
    {"pinholes everywhere", NULL, FV_WHY_HOLES, {"bin.coil.drill=1.2 mm"}},
    {"vast holes at the neighbours",
     "bin3",
     FV_WHY_HOLES,
     {"bin1.coil.drill=14 mm", "bin2.coil.drill=14 mm", "bin3.coil.drill=5 mm", "boiler.output=25 kW"}},
    {"a boiler that runs dry",
     NULL,
     FV_WHY_BOILER,
     {"boiler.feeding=by-hand", "boiler.water=30 L", "boiler.usable=5 L"}},
};

/* Two more plants that the same is planted in: wider hoses and smaller holes; a long header and a bigger boiler. */
static const char *const others[][NURSERY_SETTINGS] = {
    {"s1.bore=32 mm", "s1.barb1.bore=28 mm", "h1.length=4 m", "bin.coil.drill=6 mm"},
    {"boiler.output=36 kW", "h1.length=6 m", "h2.length=4 m", "h3.length=4 m", "s1.length=4 m"}};

static void is_named_first(void **state)
{
    const planted *p = *state;
    fv_plant *plant = nursery_plant(nursery_row, p->settings);
    fv_why_options options;
    fv_why_defaults(&options);
    options.remedies = false;
    options.most = 4;
    options.matters = 0.05;
    options.vessel = p->vessel;
    fv_why_answer *a = nursery_why(plant, &options);
    const fv_why_vessel *v = &a->vessels[a->target];
    print_message("planted | %s | %s takes %.2f h, could %.2f h | named: %s, then %s | %zu runs\n", p->what,
                  plant->vessels[a->target]->part.id, v->took / 3600, v->ideal / 3600, fv_why_cause_word(v->first),
                  v->count > 1 ? fv_why_cause_word(v->order[1]) : "none", a->runs);
    assert_string_equal(fv_why_cause_word(v->first), fv_why_cause_word(p->cause));
    assert_int_equal(a->runs_failed, 0);
    fv_why_free(a);
    fv_plant_free(plant);
}

/* In the other plants it is named first wherever it has more than half of the delay. */
static void is_named_elsewhere(void **state)
{
    const planted *p = *state;
    for (size_t k = 0; k < sizeof others / sizeof *others; k++) {
        const char *settings[2 * NURSERY_SETTINGS + 1] = {NULL};
        size_t count = 0;
        for (size_t i = 0; others[k][i]; i++)
            settings[count++] = others[k][i];
        for (size_t i = 0; p->settings[i]; i++)
            settings[count++] = p->settings[i];
        fv_plant *plant = nursery_plant(nursery_row, settings);
        fv_why_options options;
        fv_why_defaults(&options);
        options.remedies = false;
        options.most = 3;
        options.matters = 0.05;
        options.vessel = p->vessel;
        fv_why_answer *a = nursery_why(plant, &options);
        const fv_why_vessel *v = &a->vessels[a->target];
        const double share = v->share[p->cause] / (v->took - v->ideal);
        print_message("planted | %s, plant %zu | named: %s; %.0f %% of the delay of %.0f min\n", p->what, k + 2,
                      fv_why_cause_word(v->first), 100 * share, (v->took - v->ideal) / 60);
        if (share > 0.5)
            assert_string_equal(fv_why_cause_word(v->first), fv_why_cause_word(p->cause));
        fv_why_free(a);
        fv_plant_free(plant);
    }
}

/* Nothing planted: as fast as such a load heats. */
static void a_sound_plant_is_left_alone(void **state)
{
    (void)state;
    fv_plant *plant = nursery_plant(nursery_row, (const char *const[]){"boiler.output=60 kW", NULL});
    fv_why_options options;
    fv_why_defaults(&options);
    options.remedies = false;
    fv_why_answer *a = nursery_why(plant, &options);
    for (size_t i = 0; i < 3; i++)
        assert_string_equal(fv_why_cause_word(a->vessels[i].first), "nothing");
    fv_why_free(a);
    fv_plant_free(plant);
}

int main(void)
{
    enum { COUNT = sizeof causes / sizeof *causes };
    struct CMUnitTest tests[2 * COUNT + 1];
    for (size_t i = 0; i < COUNT; i++)
        tests[i] = (struct CMUnitTest){causes[i].what, is_named_first, NULL, NULL, (void *)(uintptr_t)&causes[i]};
    for (size_t i = 0; i < COUNT; i++)
        tests[COUNT + i] =
            (struct CMUnitTest){causes[i].what, is_named_elsewhere, NULL, NULL, (void *)(uintptr_t)&causes[i]};
    tests[2 * COUNT] = (struct CMUnitTest)cmocka_unit_test(a_sound_plant_is_left_alone);
    return cmocka_run_group_tests(tests, NULL, NULL);
}
