/* SPDX-License-Identifier: MIT */
/* Limits that any model of a run must come to: ever more steam, ever less, less than the losses; finer steps. */
#include "heatup/run_plants.h"

#include "farvessel/props.h"

/* ---- ever more steam: conduction alone ---- */

typedef struct {
    double h, hours, centre;
} product_row;

/* Rows of the brick 0.10 x 0.125 x 0.20 m in reference/heat/products.csv. */
static size_t read_products(product_row *rows, size_t most)
{
    char line[256];
    size_t count = 0;
    FILE *file = open_table("heat/products.csv");
    while (count < most && fgets(line, sizeof line, file)) {
        product_row *r = &rows[count];
        if (strncmp(line, "brick", 5) == 0 && strchr(line, ',') &&
            sscanf(strchr(line, ','), ",%lf,%lf,%lf", &r->h, &r->hours, &r->centre) == 3 && isfinite(r->h))
            count++;
    }
    fclose(file);
    return count;
}

/* The brick of products.csv in one vessel at 20 degC; alpha 1.4e-7 m2/s, k 0.45 W/m/K. */
static void brick_vessel(bench *b, double output, double h, double target)
{
    open_bench(b, output);
    b->plant->site.air = fv_given(20 + KELVIN);
    b->boiler->holds = fv_given(1e5);
    b->boiler->relief = fv_given(1.1e5);
    ideal(add_line(b, FV_LINE_PIPE, "p", "b0", "c", 1, 0.1));
    fv_vessel *v = add_vessel(b, "bin", "c");
    v->volume = fv_given(0.05);
    v->coil.bore = fv_given(0.1);
    v->coil.holes = fv_given(100);
    v->coil.drill = fv_given(0.008);
    v->openings[0]->diameter = fv_given(0.3);
    v->openings[0]->exchange = fv_given(0); /* the limit is conduction in steam alone */
    v->load.a = fv_given(0.10);
    v->load.b = fv_given(0.125);
    v->load.c = fv_given(0.20);
    v->load.count = fv_given(8);
    v->load.mass = fv_given(8 * 0.0025 * 1000);
    v->load.moisture = fv_given(0);
    v->load.specific_heat = fv_given(0.45 / (1000 * 1.4e-7));
    v->load.conductivity = fv_given(0.45);
    v->load.surface = fv_given(h);
    v->target = fv_given(target + KELVIN);
}

static void more_steam_tends_to_conduction(void **state)
{
    (void)state;
    product_row rows[40];
    const size_t count = read_products(rows, 40);
    assert_true(count >= 12);
    for (size_t i = 0; i < count; i++) {
        if (rows[i].centre < 40 || rows[i].centre > 98)
            continue;
        bench b;
        char what[100];
        brick_vessel(&b, 4e4, rows[i].h, rows[i].centre);
        go(&b);
        snprintf(what, sizeof what, "ample steam: brick, h %g, h to %.2f degC", rows[i].h, rows[i].centre);
        check_dev(what, rows[i].hours, took(b.result, 0), 1e-3, "products of series (Newman 1936), products.csv");
        check_dev("core_ample of the same", rows[i].hours, b.result->vessels[0].core_ample / 3600, 2e-4, "the same");
        close_bench(&b);
    }
}

static void more_steam_is_never_slower(void **state)
{
    (void)state;
    double before = INFINITY;
    int lagging = 0;
    for (double output = 300; output < 4e5; output *= 3) {
        bench b;
        brick_vessel(&b, output, 100, 90);
        b.plant->vessels[0]->within = fv_given(4.5 * 3600);
        go(&b);
        assert_true(took(b.result, 0) < before * (1 + 1e-4));
        before = took(b.result, 0);
        /* a fifth of the allowed time to spare is the border between lagging and fed */
        const double left = b.plant->vessels[0]->within.v - before * 3600, share = left / b.plant->vessels[0]->within.v;
        assert_int_equal(b.result->vessels[0].verdict, left < 0 ? FV_STARVED : share < 0.2 ? FV_LAGGING : FV_FED);
        lagging += left >= 0 && share < 0.2;
        printf("output %.0f W: %.4f h, ample %.4f h\n", output, before, b.result->vessels[0].core_ample / 3600);
        close_bench(&b);
    }
    assert_true(lagging > 0 && lagging < 6);
}

/* ---- ever less: the energy balance ---- */

/* s until steam m (kg/s) at enthalpy h_v has brought heat capacity C from t0 to t1; condensate leaves at h_f(t). */
static double balance_time(const fv_sat *sat, double capacity, double m, double h_v, double t0, double t1)
{
    double time = 0;
    const int n = 1000;
    for (int i = 0; i < n; i++) {
        fv_sat_at_t_point at;
        fv_sat_at_t(sat, t0 + (t1 - t0) * (i + 0.5) / n, &at);
        time += capacity * (t1 - t0) / n / (m * (h_v - at.h_f));
    }
    return time;
}

static void less_steam_tends_to_the_energy_balance(void **state)
{
    (void)state;
    const fv_sat *sat = fv_sat_line();
    for (double output = 4000; output > 100; output /= 3) {
        bench b;
        open_bench(&b, output);
        ideal(add_line(&b, FV_LINE_HOSE, "hose", "b0", "c", 3, 0.025));
        fv_vessel *v = add_vessel(&b, "bin", "c");
        v->volume = fv_given(0.3);
        v->shell.mass = fv_given(20);
        v->openings[0]->diameter = fv_given(0.02);
        v->load.moisture = fv_given(0);
        v->load.specific_heat = fv_given(3000);
        v->load.conductivity = fv_given(10);
        v->within = fv_given(1e7);
        b.boiler->feed = fv_given(15 + KELVIN);
        b.options.until = 4e6;
        go(&b);
        const fv_vessel_history *h = &b.result->vessels[0];
        const fv_boiler_history *boiler = &b.result->boilers[0];
        fv_sat_at_t_point feed, end;
        fv_sat_at_t(sat, 15 + KELVIN, &feed);
        fv_sat_at_t(sat, 95 + KELVIN, &end);
        const double capacity = 115 * 3000 + 20 * 480, h_v = b.result->at_first_steam->boilers[0].enthalpy;
        const double m = output / (h_v - feed.h_f);
        const double time = balance_time(sat, capacity, m, h_v, 15 + KELVIN, 95 + KELVIN);
        /* what fills the chamber, and what leaves with the air that it drives out: at most as much again */
        const double gas = (0.3 - 0.115 / 0.6805) * end.rho_g / m;
        const double slow = (h->core - h->steam_on) / time - 1;
        printf("check | %.0f W: later than the load's balance | 0 to %.4f | got %.4f | within the chamber's vapour\n",
               output, 3 * gas / time, slow);
        assert_true(boiler->steam > 0);
        if (output < 200)
            assert_true(slow > -1e-3 && slow < 3 * gas / time);
        close_bench(&b);
    }
}

/* ---- less than the losses ---- */

static void less_than_the_losses_settles(void **state)
{
    (void)state;
    const fv_sat *sat = fv_sat_line();
    for (double output = 300; output < 1400; output += 400) {
        bench b;
        open_bench(&b, output);
        ideal(add_line(&b, FV_LINE_HOSE, "hose", "b0", "c", 3, 0.025));
        fv_vessel *v = add_vessel(&b, "bin", "c");
        v->load.count = fv_given(4);
        v->load.mass = fv_given(4 * 2.3);
        /* 0.02/0.2 + 1/10 = 0.2 m2 K/W over 4 m2: 20 W/K, 1700 W at the boiling point */
        add_wall(&b, v, 4, 0.02, 0.2, 1, 50, 10);
        go(&b);
        const fv_vessel_history *h = &b.result->vessels[0];
        fv_sat_at_t_point feed, at;
        fv_sat_at_t(sat, b.boiler->feed.v, &feed);
        const double h_v = b.result->at_first_steam->boilers[0].enthalpy, m = output / (h_v - feed.h_f);
        double t = 350;
        for (int i = 0; i < 100; i++) {
            fv_sat_at_t(sat, t, &at);
            t = 15 + KELVIN + m * (h_v - at.h_f) / 20;
        }
        char what[80];
        snprintf(what, sizeof what, "%.0f W against 20 W/K: settles at, degC", output);
        check_off(what, t - KELVIN, h->settles - KELVIN, 0.15, "steam x (h_v - h_f) = 20 W/K (T - 15), by hand");
        assert_true(isnan(h->core) && h->arrival == FV_NOT_SUPPLY && h->verdict == FV_STARVED);
        assert_non_null(event(b.result, FV_HEAT_EVENT_SETTLED, 0));
        assert_true(b.result->end < b.options.until && !b.result->stopped);
        close_bench(&b);
    }
}

/* ---- finer steps ---- */

/* Unlike vessels with all that stores heat, on cold lines, one with a sag, one that starts later. */
static void unlike_vessels(bench *b)
{
    open_bench(b, 20e3);
    add_line(b, FV_LINE_HEADER, "h1", "b0", "t1", 2, 0.04);
    add_line(b, FV_LINE_HEADER, "h2", "t1", "t2", 2, 0.04);
    const char *from[] = {"t1", "t2", "t2"};
    for (int i = 0; i < 3; i++) {
        fv_line *hose =
            add_line(b, FV_LINE_HOSE, numbered(b, "hose", i), from[i], numbered(b, "c", i), 3 + 3 * i, 0.02);
        fv_vessel *v = add_vessel(b, numbered(b, "bin", i), numbered(b, "c", i));
        v->load.count = fv_given(60 + 30 * i);
        v->load.mass = fv_given(2.3 * (60 + 30 * i));
        v->shell.mass = fv_given(25);
        add_wall(b, v, 5, 0.03, 0.15, 600, 1600, 8);
        add_opening(b, v, FV_OPENING_VENT, 0.02, 0.9);
        if (i == 1)
            hose->sag = fv_given(0.03);
        if (i == 2)
            v->start = fv_given(3600);
    }
}

static void finer_steps_change_little(void **state)
{
    (void)state;
    double coarse[3], full[3], cool[3], lethal[3];
    for (int k = 0; k < 3; k++) {
        bench b;
        unlike_vessels(&b);
        b.options.fineness = k == 0 ? 1 : k == 1 ? 2 : 8;
        go(&b);
        printf("fineness %g: %zu steps, %zu networks\n", b.options.fineness, b.result->audit.steps,
               b.result->audit.solves);
        for (size_t i = 0; i < 3; i++) {
            const fv_vessel_history *h = &b.result->vessels[i];
            char what[80];
            if (k == 0) {
                coarse[i] = h->core;
                full[i] = h->full;
                cool[i] = h->cool;
                lethal[i] = h->lethality;
                continue;
            }
            snprintf(what, sizeof what, "bin%zu: time to target, steps 1/%g as long", i, b.options.fineness);
            check_dev(what, coarse[i], h->core, 1e-3, "half the step: < 0.1 %");
            snprintf(what, sizeof what, "bin%zu: cool, steps 1/%g as long", i, b.options.fineness);
            check_dev(what, cool[i], h->cool, 1e-3, "the same");
            snprintf(what, sizeof what, "bin%zu: full, steps 1/%g as long", i, b.options.fineness);
            check_dev(what, full[i], h->full, 7e-3, "a chamber, known as means over steps: 0.7 %");
            snprintf(what, sizeof what, "bin%zu: lethality, steps 1/%g as long", i, b.options.fineness);
            check_dev(what, lethal[i], h->lethality, 1e-2, "1 %");
        }
        close_bench(&b);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(more_steam_tends_to_conduction),
        cmocka_unit_test(more_steam_is_never_slower),
        cmocka_unit_test(less_steam_tends_to_the_energy_balance),
        cmocka_unit_test(less_than_the_losses_settles),
        cmocka_unit_test(finer_steps_change_little),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
