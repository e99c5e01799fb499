/* SPDX-License-Identifier: MIT */
/* A boiler fed by hand: what it gives, when it is dry, what a refill costs. A vessel taken off the line. A raised
 * drain. */
#include "heatup/run_plants.h"

#include "farvessel/props.h"

static void by_hand(bench *b, double usable)
{
    open_bench(b, 8e3);
    b->boiler->feeding = fv_given(FV_FEED_BY_HAND);
    b->boiler->water = fv_given(0.04);
    b->boiler->usable = fv_given(usable);
    b->boiler->loss = fv_given(0);
    ideal(add_line(b, FV_LINE_HOSE, "hose", "b0", "c0", 3, 0.025));
    add_vessel(b, "bin", "c0");
}

static void water_boils_from_the_boiling_point(void **state)
{
    (void)state;
    bench b;
    by_hand(&b, 0.01);
    go(&b);
    const fv_boiler_result *first = &b.result->at_first_steam->boilers[0];
    fv_sat_point at;
    fv_sat_at(fv_sat_line(), 101418 + first->pressure, &at);
    check_dev("fed by hand: steam, kg/s", 8e3 / (at.h_g - at.h_f), first->steam, 1e-6, "(x Q - loss) / (h_g - h_f)");
    const fv_boiler_history *h = &b.result->boilers[0];
    check_dev("10 kg last, s", 10 * (at.h_g - at.h_f) / 8e3, h->dry - h->steam_up, 3e-3, "the same");
    assert_int_equal(b.result->vessels[0].arrival, FV_NOT_DRY);
    close_bench(&b);
}

static void cold_water_costs_steam(void **state)
{
    (void)state;
    bench b;
    by_hand(&b, 0.03);
    fv_refill *refill = fv_boiler_add_refill(b.plant, b.boiler, HERE);
    refill->at = fv_given(9000);
    refill->volume = fv_given(0.01);
    refill->temperature = fv_given(15 + KELVIN);
    b.options.every = 3;
    b.options.until = 12000;
    go(&b);
    const fv_series *s = &b.result->series;
    double from = NAN, to = NAN;
    for (size_t k = 0; k < s->count; k++)
        if (s->time[k] >= 9000 && s->vessel_steam[k] == 0) {
            from = isnan(from) ? s->time[k] : from;
            to = s->time[k];
        }
    check_off("10 kg of 15 degC into 8 kW, s without steam", 447, to - from, 8, "by hand: 10 kg x 357 kJ/kg / 8 kW");
    assert_non_null(event(b.result, FV_HEAT_EVENT_REFILLED, -1));
    check_dev("poured in, kg", 10, b.result->boilers[0].refilled, 1e-12, "the file");
    close_bench(&b);
}

/* Poured in as the run says: never dry, and never more in it than at the start. */
static void refilled_as_said(void **state)
{
    (void)state;
    enum { TIMES = 5 };
    bench b;
    by_hand(&b, 0.01);
    b.plant->vessels[0]->load.surface = fv_given(200);
    go(&b);
    const fv_boiler_history said = b.result->boilers[0];
    check_off("10 kg usable: kg to pour in", 9, said.refill_mass, 0, "nine tenths, whole litres");
    check_dev("first, of the way to dry", 0.9, (said.refill_first - said.steam_up) / (said.dry - said.steam_up), 1e-9,
              "the same");
    for (int k = 0; k < TIMES; k++) {
        fv_refill *refill = fv_boiler_add_refill(b.plant, b.boiler, HERE);
        refill->at = fv_given(said.refill_first + k * said.refill_every);
        refill->volume = fv_given(said.refill_mass / 1000);
    }
    b.options.until = said.refill_first + (TIMES - 0.01) * said.refill_every;
    b.options.every = 10;
    go(&b);
    assert_true(isnan(b.result->boilers[0].dry));
    assert_true(isnan(b.result->boilers[0].refill_mass)); /* they are in the file now */
    const fv_series *s = &b.result->series;
    double used = 0;
    int poured = 0;
    for (size_t i = 1; i < s->count; i++) {
        used += 0.5 * (s->boiler_steam[i] + s->boiler_steam[i - 1]) * (s->time[i] - s->time[i - 1]);
        poured += poured < TIMES && s->time[i] >= said.refill_first + poured * said.refill_every;
        const double in_it = 10 + said.refill_mass * poured - used; /* kg, usable */
        assert_true(in_it > 0 && in_it < 10 + 0.1);                 /* the series' own steps: 10 s of 3.5 g/s */
    }
    assert_int_equal(poured, TIMES);
    close_bench(&b);
}

static void off_the_line(void **state)
{
    (void)state;
    double cool[3];
    for (int i = 0; i < 3; i++) {
        bench b;
        open_bench(&b, 30e3);
        add_star(&b, 1);
        fv_vessel *v = b.plant->vessels[0];
        add_wall(&b, v, 5, 0.05, 0.15, 600, 1600, 8);
        v->hold = fv_given(3600);
        v->cooling = fv_given(i > 0 ? FV_COOL_DETACHED : FV_COOL_ATTACHED);
        if (i == 2) {
            v->coil_end = fv_given(FV_COIL_OPEN);
            v->lid = fv_given(FV_LID_CRACKED);
        }
        b.options.until = 20 * 86400.0;
        go(&b);
        cool[i] = b.result->vessels[0].cool;
        assert_int_equal(event(b.result, FV_HEAT_EVENT_DETACHED, 0) != NULL, i > 0);
        close_bench(&b);
    }
    check_dev("capped, same air: cool at, s", cool[0], cool[1], 1e-6, "as attached");
    printf("cool at %.0f s capped, %.0f s open\n", cool[1], cool[2]);
    assert_true(cool[2] < cool[0]); /* a draught through it */
}

static void a_place_is_free(void **state)
{
    (void)state;
    bench b;
    open_bench(&b, 30e3);
    add_star(&b, 2);
    b.plant->vessels[0]->cooling = fv_given(FV_COOL_DETACHED);
    b.plant->vessels[1]->start_after = name_of(&b, "bin0 detached");
    go(&b);
    const fv_heat_event *off = event(b.result, FV_HEAT_EVENT_DETACHED, 0);
    assert_non_null(off);
    check_off("the next one's steam is opened, s", off->time, b.result->vessels[1].opened, 1, "the event");
    close_bench(&b);
}

static void water_stands_to_the_lowest_opening(void **state)
{
    (void)state;
    bench b;
    open_bench(&b, 20e3);
    add_line(&b, FV_LINE_HOSE, "hose", "b0", "c0", 3, 0.025);
    fv_vessel *v = add_vessel(&b, "bin", "c0");
    v->openings[0]->height = fv_given(0.30);
    v->sump_area = fv_given(0.05);
    b.options.until = 40000;
    go(&b);
    const fv_vessel_history *h = &b.result->vessels[0];
    const double deep = h->condensate / 960 / 0.05;
    printf("condensate alone would stand %.3f m deep\n", deep);
    check_between("water over the coil, m", deep, 0.3001, h->sump, "condensate / area, up to the drain");
    assert_true(h->sump > 0.1);
    close_bench(&b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(water_boils_from_the_boiling_point),
        cmocka_unit_test(cold_water_costs_steam),
        cmocka_unit_test(refilled_as_said),
        cmocka_unit_test(off_the_line),
        cmocka_unit_test(a_place_is_free),
        cmocka_unit_test(water_stands_to_the_lowest_opening),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
