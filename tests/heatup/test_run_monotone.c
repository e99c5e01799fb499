/* SPDX-License-Identifier: MIT */
/* Over random plants: equal vessels do alike; bigger hoses, more steam, better walls and less moisture never make any
 * of them later. And random unlike plants, which must come to an end with their books closed. */
#include "heatup/run_plants.h"

enum { SYMMETRIC = 12, UNLIKE = 10, MORE = 10 };
/* Two runs step differently: what counts as later, of the time to target. Steps half as long move it by less. */
static const double STEPPING = 5e-4;

typedef struct {
    int vessels;
    double output, hose, bore, holes, drill, blocks, moisture, wall, conductivity, vent, altitude, sag;
} symmetric;

static double between(uint64_t *seed, double low, double high)
{
    return low * pow(high / low, next_random(seed));
}

static symmetric random_symmetric(uint64_t *seed)
{
    symmetric s = {.vessels = 1 + (int)(4 * next_random(seed)),
                   .hose = between(seed, 2, 10),
                   .bore = between(seed, 0.016, 0.03),
                   .holes = floor(between(seed, 10, 40)),
                   .drill = between(seed, 0.0025, 0.005),
                   .blocks = floor(between(seed, 20, 200)),
                   .moisture = 0.5 + 0.15 * next_random(seed),
                   .wall = between(seed, 0.01, 0.06),
                   .conductivity = between(seed, 0.1, 0.3),
                   .vent = between(seed, 0.015, 0.04),
                   .altitude = 500 * next_random(seed),
                   .sag = next_random(seed) < 0.3 ? 0.02 : 0};
    s.output = s.vessels * between(seed, 5e3, 15e3);
    return s;
}

static void build(bench *b, const symmetric *s)
{
    open_bench(b, s->output);
    b->plant->site.pressure = (fv_value){.v = NAN};
    b->plant->site.altitude = fv_given(s->altitude);
    add_star(b, s->vessels);
    for (int i = 0; i < s->vessels; i++) {
        fv_line *hose = b->plant->lines[i];
        fv_vessel *v = b->plant->vessels[i];
        hose->length = fv_given(s->hose);
        hose->bore = fv_given(s->bore);
        hose->sag = fv_given(s->sag);
        hose->heat_loss = fv_given(20); /* the same for all bores: a bigger bare hose would lose more */
        hose->heat_capacity = fv_given(500 * s->hose);
        v->coil.holes = fv_given(s->holes);
        v->coil.drill = fv_given(s->drill);
        v->volume = fv_given(0.3 + s->blocks * 0.006);
        v->load.count = fv_given(s->blocks);
        v->load.mass = (fv_value){.v = NAN};
        v->load.density = fv_given(400 / (1 - s->moisture) * 0.7);
        v->load.moisture = fv_given(s->moisture);
        v->load.conductivity = fv_given(0.4);
        add_wall(b, v, 3 + s->blocks * 0.02, s->wall, s->conductivity, 300, 1600, 9);
        add_opening(b, v, FV_OPENING_VENT, s->vent, 0.8);
    }
    b->options.stop_at_core = true;
}

/* Time to target of all, which must be one; INFINITY: never. */
static double one_time(const symmetric *s)
{
    bench b;
    build(&b, s);
    go(&b);
    const fv_vessel_history *h = b.result->vessels;
    const double time = isnan(h[0].core) ? INFINITY : h[0].core - h[0].opened;
    for (int i = 1; i < s->vessels; i++)
        assert_true(isinf(time) ? isnan(h[i].core) : fabs(h[i].core - h[i].opened - time) < 1e-6 * time);
    close_bench(&b);
    return time;
}

static void better_is_never_later(void **state)
{
    (void)state;
    uint64_t seed = 20240611;
    int never = 0;
    double worst = 0, gained[4] = {0};
    for (int i = 0; i < SYMMETRIC; i++) {
        const symmetric base = random_symmetric(&seed);
        symmetric better[4] = {base, base, base, base};
        better[0].bore *= 1.2;
        better[1].output *= 1.2;
        better[2].conductivity *= 0.5;
        better[3].moisture -= 0.05;
        const double time = one_time(&base);
        never += isinf(time);
        for (int k = 0; k < 4; k++) {
            const double now = one_time(&better[k]);
            if (isinf(time))
                continue;
            worst = fmax(worst, now / time - 1);
            gained[k] += (1 - now / time) / SYMMETRIC;
        }
    }
    printf(
        "gained on the mean: bigger hoses %.2f %%, more steam %.2f %%, better walls %.2f %%, drier %.2f %%; %d of %d "
        "never arrive\n",
        100 * gained[0], 100 * gained[1], 100 * gained[2], 100 * gained[3], never, SYMMETRIC);
    assert_true(never < SYMMETRIC / 2);
    check_worst("bigger hoses, more steam, better walls, drier: later by, share", worst, STEPPING,
                "symmetric plants, all vessels the same");
}

/* A tree of headers with anything on it. */
static void build_unlike(bench *b, uint64_t *seed)
{
    const int n = 2 + (int)(6 * next_random(seed));
    open_bench(b, n * between(seed, 3e3, 12e3));
    b->boiler->holds = fv_given(between(seed, 3e3, 4e4));
    b->boiler->dryness = fv_given(0.92 + 0.08 * next_random(seed));
    for (int i = 0; i < n; i++) {
        const char *from = i == 0 ? "b0" : numbered(b, "t", i - 1);
        fv_line *header = add_line(b, FV_LINE_HEADER, numbered(b, "head", i), from, numbered(b, "t", i),
                                   between(seed, 1, 4), between(seed, 0.03, 0.06));
        if (next_random(seed) < 0.5)
            header->lagging = fv_given(0.025);
        fv_line *hose = add_line(b, FV_LINE_HOSE, numbered(b, "hose", i), header->to, numbered(b, "c", i),
                                 between(seed, 1, 9), between(seed, 0.015, 0.03));
        if (next_random(seed) < 0.3)
            hose->sag = fv_given(between(seed, 0.01, 0.1));
        fv_vessel *v = add_vessel(b, numbered(b, "bin", i), numbered(b, "c", i));
        v->load.count = fv_given(floor(between(seed, 10, 200)));
        v->load.mass = fv_given(2.3 * v->load.count.v);
        v->load.start_temperature = fv_given(KELVIN + (next_random(seed) < 0.2 ? -5 : 15));
        v->volume = fv_given(0.2 + v->load.count.v * 0.006);
        v->hold = fv_given(between(seed, 600, 30000));
        v->start = fv_given(next_random(seed) < 0.3 ? between(seed, 600, 20000) : 0);
        v->target = fv_given(KELVIN + between(seed, 60, 98));
        v->shell.mass = fv_given(between(seed, 1, 60));
        if (next_random(seed) < 0.8)
            add_wall(b, v, between(seed, 1, 8), between(seed, 0.005, 0.1), between(seed, 0.03, 1),
                     between(seed, 30, 2000), 1200, between(seed, 4, 20));
        if (next_random(seed) < 0.7)
            add_opening(b, v, FV_OPENING_VENT, between(seed, 0.01, 0.06), between(seed, 0.3, 2));
        if (next_random(seed) < 0.3)
            v->sump_area = fv_given(between(seed, 0.2, 2));
        if (next_random(seed) < 0.2)
            v->load.packing = fv_given(FV_PACKING_PACKED);
        v->load.stack_a = v->load.stack_b = v->load.stack_c = fv_given(0.3);
    }
    if (next_random(seed) < 0.5) {
        fv_action *down = add_action(b, 0, "bin0 core");
        down->boiler = "boiler";
        down->fire = fv_given(between(seed, 0.1, 0.9));
    }
}

static void all_come_to_an_end(void **state)
{
    (void)state;
    uint64_t seed = 77;
    size_t most = 0, loose = 0, steps = 0;
    int arrived = 0, vessels = 0;
    for (int i = 0; i < UNLIKE; i++) {
        bench b;
        build_unlike(&b, &seed);
        go(&b);
        most = b.result->audit.steps > most ? b.result->audit.steps : most;
        steps += b.result->audit.steps;
        loose += b.result->audit.loose;
        for (size_t v = 0; v < b.result->vessel_count; v++) {
            const fv_vessel_history *h = &b.result->vessels[v];
            arrived += h->core > 0;
            vessels++;
            /* in order of time */
            assert_true(isnan(h->core) || h->core >= h->opened);
            assert_true(isnan(h->hold) || h->hold - h->core >= b.plant->vessels[v]->hold.v - 0.01);
            assert_true(isnan(h->cool) || h->cool > h->hold);
        }
        /* loads that start at -5 degC, too, are never anywhere but between their start and the steam */
        const fv_series *series = &b.result->series;
        for (size_t k = 0; k < series->count * b.result->vessel_count; k++)
            assert_true(series->core[k] > KELVIN - 5.1 && series->core[k] < KELVIN + 102);
        for (size_t k = 1; k < b.result->event_count; k++)
            assert_true(b.result->events[k].time >= b.result->events[k - 1].time);
        close_bench(&b);
    }
    printf("%d of %d vessels arrive; at most %zu steps, %zu of %zu loose\n", arrived, vessels, most, loose, steps);
    assert_true(most < 5000 && loose * 50 < steps);
}

/* Cores of an unlike plant with so much more steam, and one vessel so much fuller; s, INFINITY: never. */
static size_t cores_of(uint64_t seed, double more, int fuller, double core[])
{
    bench b;
    build_unlike(&b, &seed);
    const size_t n = b.plant->vessel_count;
    b.plant->action_count = 0; /* a fire turned down sooner is no more steam */
    b.boiler->output = fv_given(more * fmax(b.boiler->output.v, 8e3 * (double)n));
    for (size_t i = 0; i < b.plant->line_count; i++)
        b.plant->lines[i]->sag = fv_given(0);
    if (fuller >= 0) {
        fv_load *load = &b.plant->vessels[fuller]->load;
        load->count = fv_given(ceil(1.2 * load->count.v));
        load->mass = fv_given(2.3 * load->count.v);
    }
    b.options.stop_at_core = true;
    go(&b);
    for (size_t i = 0; i < n; i++)
        core[i] = isnan(b.result->vessels[i].core) ? INFINITY : b.result->vessels[i].core;
    close_bench(&b);
    return n;
}

static void unlike_plants_too(void **state)
{
    (void)state;
    double earlier = 0, later = 0, gained = 0;
    int compared = 0;
    for (uint64_t seed = 1; seed <= MORE; seed++) {
        double base[16], now[16];
        const size_t n = cores_of(7919 * seed, 1, -1, base);
        cores_of(7919 * seed, 1.15, -1, now);
        for (size_t i = 0; i < n; i++, compared++) {
            if (isinf(base[i]))
                continue;
            later = fmax(later, now[i] / base[i] - 1);
            gained += 1 - now[i] / base[i];
        }
        const int fuller = (int)(seed % n);
        cores_of(7919 * seed, 1, fuller, now);
        if (isfinite(now[fuller]))
            earlier = fmax(earlier, base[fuller] / now[fuller] - 1);
    }
    printf("15 %% more steam gains %.2f %% on the mean of %d vessels\n", 100 * gained / compared, compared);
    assert_true(compared > 3 * MORE && gained > 0);
    check_worst("15 % more steam: later by, share", later, STEPPING, "unlike plants with steam for all");
    check_worst("a load a fifth bigger: earlier by, share", earlier, STEPPING, "the same");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(better_is_never_later),
        cmocka_unit_test(unlike_plants_too),
        cmocka_unit_test(all_come_to_an_end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
