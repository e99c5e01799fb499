/* SPDX-License-Identifier: MIT */
/* Books of heat, steam and water over whole days, in plants with all that stores, leaks, drips and runs dry. */
#include "heatup/run_plants.h"

#include "farvessel/heat.h"
#include "farvessel/props.h"

static double sum_of_split(const fv_heat_split *s)
{
    return s->load + s->walls + s->shell + s->lines_warmed + s->line_losses + s->vented + s->air_warmed +
           s->gas_stored + s->drained + s->boiler_startup + s->boiler_losses + s->boiler_stored + s->flue;
}

static void check_books(const char *what, const fv_heat_result *r)
{
    check_off(what, 0, (r->audit.supplied - sum_of_split(&r->split)) / r->audit.supplied, 1e-6,
              "books of heat, relative to the heat supplied");
    for (size_t i = 0; i < r->vessel_count; i++) {
        const fv_vessel_history *h = &r->vessels[i];
        /* steam becomes water, leaves as vapour, or is still in the chamber: under 1 kg/m3 */
        assert_true(fabs(h->steam - h->condensate - h->vented - h->evaporated) < 1.0);
    }
}

static void give_all(bench *b)
{
    b->plant->site.air = fv_given(4 + KELVIN);
    b->boiler->loss = fv_given(700);
    b->boiler->dryness = fv_given(0.95);
    b->boiler->efficiency = fv_given(0.78);
    add_line(b, FV_LINE_HEADER, "h1", "b0", "t1", 3, 0.04);
    add_line(b, FV_LINE_HEADER, "h2", "t1", "t2", 3, 0.04)->lagging = fv_given(0.02);
    add_line(b, FV_LINE_HOSE, "s1", "t1", "c1", 4, 0.02)->condensate = fv_given(FV_CONDENSATE_DRIP);
    add_line(b, FV_LINE_HOSE, "s2", "t2", "c2", 5, 0.02)->sag = fv_given(0.02);
    for (int i = 1; i <= 2; i++) {
        fv_vessel *v = add_vessel(b, numbered(b, "bin", i), numbered(b, "c", i));
        add_opening(b, v, FV_OPENING_VENT, 0.02, 0.9);
        add_opening(b, v, FV_OPENING_GAP, 0.01, 0.8);
        add_wall(b, v, 5, 0.05, 0.15, 600, 1600, 8);
        v->shell.mass = fv_given(40);
        v->sump_area = fv_given(0.8);
        v->load.takes_condensate = fv_given(0.5);
    }
}

static void a_whole_day_is_booked(void **state)
{
    (void)state;
    bench b;
    open_bench(&b, 16e3);
    give_all(&b);
    go(&b);
    check_books("two vessels with everything, to cool", b.result);
    assert_true(b.result->end > 86400);
    for (size_t i = 0; i < 2; i++)
        assert_true(b.result->vessels[i].cool > 0 && b.result->vessels[i].moisture_gain > 0);
    close_bench(&b);
    open_bench(&b, 16e3);
    give_all(&b);
    b.options.until = 86400;
    b.plant->vessels[1]->load.start_temperature = fv_given(-8 + KELVIN);
    go(&b);
    check_books("the same, one load frozen, exactly a day", b.result);
    check_off("until: s", 86400, b.result->end, 1e-5, "as asked");
    close_bench(&b);
}

/* A bed beside walls of a material of that density, kg/m3. */
static const fv_heat_result *run_bed(bench *b, double density)
{
    add_line(b, FV_LINE_HOSE, "s", "b0", "c", 3, 0.025);
    fv_vessel *v = add_vessel(b, "bed", "c");
    v->load.form = fv_given(FV_FORM_BED);
    v->load.a = v->load.b = v->load.c = (fv_value){.v = NAN};
    v->load.medium = fv_given(FV_MEDIUM_STRAW);
    v->load.depth = fv_given(0.6);
    v->load.area = fv_given(1);
    v->load.mass = fv_given(180);
    v->load.count = (fv_value){.v = NAN};
    add_wall(b, v, 4, 0.03, 0.15, density, 1600, 8);
    return go(b);
}

/* Fed by hand until the boiler is dry; and where walls hardly store, what goes in comes out, beside the bed, too. */
static void a_bed_is_booked(void **state)
{
    (void)state;
    bench b;
    open_bench(&b, 12e3);
    b.boiler->feeding = fv_given(FV_FEED_BY_HAND);
    b.boiler->water = fv_given(0.05);
    b.boiler->usable = fv_given(0.045);
    run_bed(&b, 600);
    check_books("a bed until the boiler is dry", b.result);
    assert_true(b.result->boilers[0].dry > 0);
    check_dev("water used until dry, kg", 45, b.result->boilers[0].water, 1e-9, "what stood above the low-water mark");
    close_bench(&b);
    open_bench(&b, 12e3);
    const fv_heat_split *split = &run_bed(&b, 1)->split;
    check_between("left in walls that hardly store, J", 0, 4 * 0.03 * 1600 * 85, split->walls - split->wall_losses,
                  "4 m2 of 3 cm, 1 kg/m3, 1600 J/kg/K, 15 to 100 degC");
    close_bench(&b);
}

/* What went into each thing against what is in it. */
static void heat_is_where_it_is(void **state)
{
    (void)state;
    bench b;
    open_bench(&b, 16e3);
    ideal(add_line(&b, FV_LINE_HOSE, "s", "b0", "c", 3, 0.025));
    fv_vessel *v = add_vessel(&b, "bin", "c");
    v->load.moisture = fv_given(0);
    v->load.specific_heat = fv_given(3000);
    v->shell.mass = fv_given(30);
    add_wall(&b, v, 5, 0.02, 0.15, 500, 1600, 8);
    v->hold = fv_given(30 * 3600);
    v->within = fv_given(40 * 3600);
    b.options.until = 30 * 3600;
    go(&b);
    const fv_heat_split *s = &b.result->split;
    const fv_vessel_history *h = &b.result->vessels[0];
    const double rise = h->chamber_end - 288.15, load = 50 * 2.3 * 3000;
    check_books("one vessel, held for long", b.result);
    check_dev("heat in the load, J", load * (h->core_end - 288.15), s->load, 1e-4, "mass x specific heat x rise");
    check_dev("heat in the shell, J", 30 * 480 * rise, s->shell, 1e-9, "the same");
    /* the wall has long been steady: its outer side stands where conduction and convection meet */
    const double inner = 0.02 / 0.15, outer = 1.0 / 8, outside = rise * outer / (inner + outer);
    check_dev("heat in the wall, J", 5 * 0.02 * 500 * 1600 * 0.5 * (rise + outside), s->walls - s->wall_losses, 1e-3,
              "layer's heat capacity x mean rise, steady");
    const double since_full = b.result->end - h->full;
    check_between("wall losses, J", 5 * 85 / (inner + outer) * (since_full - 7200),
                  5 * 85 / (inner + outer) * (since_full + 7200), s->wall_losses,
                  "85 K x 5 m2 / (0.02/0.15 + 1/8) m2 K/W for the time since full, within two hours");
    /* lines lose nothing: what drains is what the boiler's feed water gained, less its latent heat, kept to the end */
    const fv_sat *sat = fv_sat_line();
    fv_sat_at_t_point feed, end;
    fv_sat_at_t(sat, b.boiler->feed.v, &feed);
    fv_sat_at_t(sat, h->chamber_end, &end);
    const double most = b.result->boilers[0].steam * (end.h_f - feed.h_f);
    check_between("drained, J", 0.9 * most, most, s->drained,
                  "steam x (h_f(chamber) - h_f(feed)), chamber cooler at first");
    check_dev("steam made into vessels, kg", b.result->boilers[0].steam, h->steam, 1e-9, "lines that lose nothing");
    close_bench(&b);
}

/* Numbers that appear twice are the same. */
static void totals_agree(void **state)
{
    (void)state;
    bench b;
    open_bench(&b, 16e3);
    give_all(&b);
    go(&b);
    const fv_heat_result *r = b.result;
    double load = 0, walls = 0, shell = 0, vented = 0, line = 0;
    for (size_t i = 0; i < r->vessel_count; i++) {
        load += r->vessels[i].heat_load;
        walls += r->vessels[i].heat_walls;
        shell += r->vessels[i].heat_shell;
        vented += r->vessels[i].heat_vented;
    }
    for (size_t i = 0; i < r->line_count; i++)
        line += r->line_loss[i];
    check_dev("load, J, by vessel", r->split.load, load, 1e-12, "two sums of one thing");
    check_dev("walls", r->split.walls, walls, 1e-12, "the same");
    check_dev("shell", r->split.shell, shell, 1e-9, "the same");
    check_dev("vented", r->split.vented, vented, 1e-12, "the same");
    check_dev("lines", r->split.line_losses, line, 1e-12, "the same");
    check_dev("fuel", r->audit.supplied, r->boilers[0].fuel, 1e-12, "one boiler");
    assert_true(r->steam_end > 0 && r->steam_end <= r->end);
    assert_true(r->split_steaming.load > r->split.load);
    /* the series, summed up, is the steam that came */
    double steam = 0;
    for (size_t k = 0; k < r->series.count; k++)
        steam += r->series.vessel_steam[k * r->vessel_count] * r->options.every;
    check_dev("steam of the first vessel from its series, kg", r->vessels[0].steam, steam, 0.02, "sum of samples");
    close_bench(&b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_whole_day_is_booked),
        cmocka_unit_test(a_bed_is_booked),
        cmocka_unit_test(heat_is_where_it_is),
        cmocka_unit_test(totals_agree),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
