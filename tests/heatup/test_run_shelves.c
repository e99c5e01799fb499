/* SPDX-License-Identifier: MIT */
/* Loads that cool in the open: on shelves after the hold, or under a lid that is off; and when a place is free. */
#include "heatup/run_plants.h"

#include "farvessel/heat.h"
#include "heatup/load.h"

static void open_stack(bench *b, fv_cooling cooling)
{
    open_bench(b, 30e3);
    add_star(b, 1);
    fv_vessel *v = b->plant->vessels[0];
    add_wall(b, v, 5, 0.05, 0.15, 600, 1600, 8);
    v->hold = fv_given(4 * 3600);
    v->cooling = fv_given(cooling);
    v->load.wrap = fv_given(FV_WRAP_BARE);
    b->plant->site.air = fv_given(20 + KELVIN);
    b->options.until = 20 * 86400.0;
}

/* A bare block of 13 x 13 x 20 cm and 2.3 kg of sawdust at 60 % of water, even at 95 degC. */
static heatup_body_spec block(double h)
{
    bench b;
    heatup_body_spec spec;
    open_stack(&b, FV_COOL_SHELVES);
    b.plant->vessels[0]->shelf_surface = fv_given(h);
    assert_int_equal(fv_plant_link(b.plant, b.faults), FV_OK);
    double water;
    assert_int_equal(heatup_load_in_open(b.plant->vessels[0], 20 + KELVIN, 101418, 20 + KELVIN, true, &spec, &water),
                     FV_OK);
    assert_true(water == 0);
    close_bench(&b);
    spec.t_start = 95 + KELVIN;
    return spec;
}

static double time_to(const heatup_body_spec *spec, double t)
{
    heatup_body *body = heatup_body_new(spec);
    assert_non_null(body);
    double low = 60, high = 1e6;
    for (int i = 0; i < 60; i++) {
        const double middle = 0.5 * (low + high);
        *(heatup_body_core_after(body, middle, 20 + KELVIN, 0, false) > t ? &low : &high) = middle;
    }
    heatup_body_free(body);
    return low;
}

static void a_block_in_the_open(void **state)
{
    (void)state;
    const heatup_body_spec said = block(12), held = block(1e5);
    heatup_body_spec fixed = held;
    fixed.h_cooling = fixed.h_condensing = INFINITY;
    check_dev("2.3 kg, even 95 to 30 degC in 20 degC at 12 W/m2/K, h", 6.2, time_to(&said, 30 + KELVIN) / 3600, 0.03,
              "an independent calculation by conduction and h, two digits");
    check_dev("h without end: conduction alone, s", time_to(&fixed, 30 + KELVIN), time_to(&held, 30 + KELVIN), 1e-3,
              "surface held at the air");
    /* unloaded half way it goes on as it was: the same piece under the same coefficient */
    heatup_body *one = heatup_body_new(&said), *other = heatup_body_new(&said);
    heatup_body_advance(one, 7200, 20 + KELVIN, 20 + KELVIN, false);
    heatup_body_advance(other, 7200, 20 + KELVIN, 20 + KELVIN, false);
    heatup_body *open = heatup_body_unloaded(other, &said);
    assert_non_null(open);
    check_off("heat taken so far, J", heatup_body_heat(one), heatup_body_heat(open), 1e-6 * fabs(heatup_body_heat(one)),
              "conserved");
    heatup_body_advance(one, 7200, 20 + KELVIN, 20 + KELVIN, false);
    heatup_body_advance(open, 7200, 20 + KELVIN, 20 + KELVIN, false);
    check_off("its middle two hours later, K", heatup_body_core(one), heatup_body_core(open), 1e-3,
              "as if never moved");
    heatup_body_free(one);
    heatup_body_free(other);
    heatup_body_free(open);
}

static double cool_after_hold(fv_cooling cooling, double surface, bool lid_off)
{
    bench b;
    open_stack(&b, cooling);
    if (surface > 0)
        b.plant->vessels[0]->shelf_surface = fv_given(surface);
    if (lid_off)
        b.plant->vessels[0]->lid = fv_given(FV_LID_OFF);
    go(&b);
    const fv_vessel_history *h = &b.result->vessels[0];
    const double took = h->cool - h->hold;
    assert_true(h->lethality > 0 && !isnan(h->hold));
    close_bench(&b);
    return took / 3600;
}

static void sooner_than_in_the_vessel(void **state)
{
    (void)state;
    const double closed = cool_after_hold(FV_COOL_ATTACHED, 0, false),
                 shelf = cool_after_hold(FV_COOL_SHELVES, 0, false);
    const double said = cool_after_hold(FV_COOL_SHELVES, 12, false), off = cool_after_hold(FV_COOL_DETACHED, 12, true);
    printf("cool after %.1f h closed, %.1f h on shelves, %.1f h at 12 W/m2/K\n", closed, shelf, said);
    check_between("on shelves, h", 5, 9, shelf, "bags and blocks on spaced shelves: common practice, no source");
    assert_true(closed > 2 * shelf);
    check_dev("under a lid that is off, as on shelves, h", said, off, 1e-9, "the same pieces in the same air");
    check_between("from 95 to 99 degC to 30 at 12 W/m2/K, h", 6.2, 6.9, said, "even 95 to 30: 6.2 h");
}

/* h by hand: 0.2 m plate, a quarter of 75 K over the air. */
static void natural_and_radiation(void **state)
{
    (void)state;
    double natural;
    const double air = 20 + KELVIN, t = air + 0.25 * 75;
    assert_int_equal(fv_heat_natural_vertical(0.2, t, air, 101418, &natural), FV_OK);
    const double h = natural + 0.5 * 0.9 * 5.670374e-8 * (t * t + air * air) * (t + air);
    check_between("outside of a piece, W/m2/K", 6, 9, h, "natural convection 4 to 6 and half of radiation");
    const double computed = cool_after_hold(FV_COOL_SHELVES, 0, false),
                 given = cool_after_hold(FV_COOL_SHELVES, h, false);
    check_dev("the coefficient not said, as said", given, computed, 1e-5, "Churchill & Chu 1975 and F eps sigma");
}

/* A bare wet piece gives up water: h by hand (Lewis number 1), sooner cool by it, and the books of water and heat. */
static void wet_pieces_evaporate(void **state)
{
    (void)state;
    const double air = 20 + KELVIN, t = air + 0.25 * 75;
    double natural, p[2], evaporated[2], cooled[2], out[2];
    assert_int_equal(fv_heat_natural_vertical(0.2, t, air, 101418, &natural), FV_OK);
    assert_int_equal(fv_if97_saturation_pressure(t, &p[0]), FV_OK);
    assert_int_equal(fv_if97_saturation_pressure(air, &p[1]), FV_OK);
    const double dry_h = natural + 0.5 * 0.9 * 5.670374e-8 * (t * t + air * air) * (t + air);
    const double rho_cp = 101418 / (287.05 * 0.5 * (t + air)) * 1006, h_fg = 2431e3; /* at 29 degC */
    const double wet_h = natural / rho_cp * (p[0] / (461.5 * t) - p[1] / (461.5 * air)) * h_fg / (t - air);
    for (int wet = 0; wet < 2; wet++) {
        bench b;
        open_stack(&b, FV_COOL_SHELVES);
        b.plant->vessels[0]->evaporates = fv_given(wet);
        go(&b);
        const fv_vessel_history *h = &b.result->vessels[0];
        evaporated[wet] = h->evaporated;
        cooled[wet] = h->cool - h->hold;
        out[wet] = b.result->split.vented;
        check_off(
            "steam that is neither condensate nor out, kg", (1 - 50 * 0.00338) * (0.5977 - 0.0173),
            h->steam - h->condensate - h->vented - h->evaporated, 0.005,
            "the vapour in the vessel when it is opened, at 100 degC, less that of the start, at 20 degC: IAPWS-IF97");
        close_bench(&b);
    }
    const double more = evaporated[1] - evaporated[0];
    check_between("cool sooner, over the dry", 1 / (1 + wet_h / dry_h) - 0.05, 0.9, cooled[1] / cooled[0],
                  "by the coefficients alone, conduction inside unchanged");
    check_dev("heat that leaves with that water, over all of a load from 98 to 20 degC", wet_h / (wet_h + dry_h),
              more * 2454e3 / (50 * 2.3 * 3060 * 78.0), 0.03,
              "by the coefficients; 3.06 kJ/kg/K; 2454 kJ/kg at 20 degC");
    check_off("the same in the split, J", more * 2454e3, out[1] - out[0], 0.01 * more * 2454e3, "h_fg at 20 degC");
}

static void rows_are_unpacked(void **state)
{
    (void)state;
    double took[2];
    for (int rows = 0; rows < 2; rows++) {
        bench b;
        open_stack(&b, FV_COOL_SHELVES);
        fv_load *load = &b.plant->vessels[0]->load;
        load->packing = fv_given(rows ? FV_PACKING_ROWS : FV_PACKING_LOOSE);
        load->count = fv_given(40);
        load->mass = fv_given(40 * 2.3);
        if (rows)
            load->of = name_of(&b, "2 x 2 x 5");
        b.plant->vessels[0]->within = fv_given(40 * 3600);
        go(&b);
        took[rows] = (b.result->vessels[0].cool - b.result->vessels[0].hold) / 3600;
        close_bench(&b);
    }
    check_dev("cool after the hold, out of rows, h", took[0], took[1], 0.05,
              "single pieces, but for 1 to 3 K at the start");
}

static void changeover_holds_the_place(void **state)
{
    (void)state;
    bench b;
    open_bench(&b, 30e3);
    add_star(&b, 2);
    b.plant->vessels[0]->cooling = fv_given(FV_COOL_DETACHED);
    b.plant->vessels[0]->changeover = fv_given(1200);
    b.plant->vessels[1]->start_after = name_of(&b, "bin0 detached");
    go(&b);
    const fv_heat_event *off = event(b.result, FV_HEAT_EVENT_DETACHED, 0);
    assert_non_null(off);
    check_off("the next one's steam is opened, s", off->time + 1200, b.result->vessels[1].opened, 1, "changeover");
    close_bench(&b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_block_in_the_open),        cmocka_unit_test(sooner_than_in_the_vessel),
        cmocka_unit_test(natural_and_radiation),      cmocka_unit_test(rows_are_unpacked),
        cmocka_unit_test(changeover_holds_the_place), cmocka_unit_test(wet_pieces_evaporate),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
