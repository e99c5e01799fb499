/* SPDX-License-Identifier: MIT */
/* Plants at the edge of what may be said, built on purpose: each is solved, its audit closes and it does what can be
 * worked out beside the solver; or it is refused, and the refusal says why. */
#include "farvessel/flow.h"
#include "steady/plants.h"

#define SOURCE "by hand"

static fv_line *lossless(bench *b, fv_line_kind kind, const char *id, const char *from, const char *to, double length,
                         double bore)
{
    fv_line *line = add_line(b, kind, id, from, to, length, bore);
    line->heat_loss = fv_given(0.0);
    return line;
}

/* The plant is not linked, and one of the faults says why. Closes the bench. */
static void refused(bench *b, const char *why)
{
    bool said = false;
    assert_int_equal(fv_plant_link(b->plant, b->faults), FV_FAIL);
    for (size_t i = 0; i < fv_faults_count(b->faults); i++) {
        const fv_fault *fault = fv_faults_at(b->faults, i);
        said = said || (!fault->caution && strstr(fault->text, why));
    }
    if (!said) {
        say_faults(b);
        fail_msg("no fault says: %s", why);
    }
    bench_close(b);
}

/* ---- bores ---- */

/* A metre wide and a millimetre thin side by side: along the wide one nothing is lost, the thin one is laminar. */
static void huge_and_hair_thin_bore(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    b.plant->site.pressure = fv_given(SEA);
    add_boiler(&b, "boiler", "a", 60000.0, 20000.0);
    lossless(&b, FV_LINE_HEADER, "huge", "a", "t", 20.0, 1.0);
    lossless(&b, FV_LINE_PIPE, "thin", "t", "c1", 2.0, 0.001);
    lossless(&b, FV_LINE_HOSE, "usual", "t", "c2", 2.0, 0.025);
    add_vessel(&b, "drop", "c1", 24, 0.003);
    add_vessel(&b, "bin", "c2", 24, 0.003);
    bench_link(&b);
    bench_solve(&b);
    const fv_line_result *l = b.result->lines;
    check_row("header of 1 m bore, drop, Pa", 0, l[0].drop, 1e-3, "limit");
    const double p = SEA + 0.5 * (l[1].pressure_from + l[1].pressure_to), rho = fv_sat_rho_g(b.sat, p, NULL),
                 mu = fv_sat_mu_g(b.sat, p, NULL), flux = l[1].flow_from / circle(0.001);
    const double rho1 = fv_sat_rho_g(b.sat, SEA + l[1].pressure_from, NULL),
                 rho2 = fv_sat_rho_g(b.sat, SEA + l[1].pressure_to, NULL);
    assert_true(l[1].reynolds > 100 && l[1].reynolds < 2000);
    check_row("pipe of 1 mm bore, drop, Pa",
              128 * mu * 2.0 * l[1].flow_from / (PI * rho * 1e-12) + flux * flux * log(rho1 / rho2) / rho, l[1].drop,
              5e-3, "Hagen and Poiseuille, and the steam's gain of speed");
    assert_true(b.result->vessels[0].steam < 1e-2 * b.result->vessels[1].steam);
    bench_close(&b);
}

static void bores_beyond_the_limits_are_refused(void **state)
{
    (void)state;
    static const double bores[] = {0.0009, 1.001};
    static const char *const why[] = {"header 'main': bore is 0.9 mm; it must be between 1 mm and 1 m",
                                      "header 'main': bore is 1001 mm; it must be between 1 mm and 1 m"};
    for (int i = 0; i < 2; i++) {
        bench b;
        bench_open(&b);
        add_boiler(&b, "boiler", "a", 20000.0, 20000.0);
        add_line(&b, FV_LINE_HEADER, "main", "a", "c", 2.0, bores[i]);
        add_vessel(&b, "bin", "c", 24, 0.003);
        refused(&b, why[i]);
    }
}

/* ---- lengths ---- */

/* A tenth of a millimetre, the shortest that may be said, before and after a line of usual length: as if it were not
 * there but for its own friction. */
static void lines_of_next_to_no_length(void **state)
{
    (void)state;
    double steam[2];
    for (int with = 0; with < 2; with++) {
        bench b;
        bench_open(&b);
        add_boiler(&b, "boiler", "a", 30000.0, 20000.0);
        add_line(&b, FV_LINE_HOSE, "hose", with ? "t1" : "a", with ? "t2" : "c", 3.0, 0.02);
        if (with) {
            add_line(&b, FV_LINE_PIPE, "before", "a", "t1", 1e-4, 0.02);
            add_line(&b, FV_LINE_PIPE, "after", "t2", "c", 1e-4, 0.02);
        }
        add_vessel(&b, "bin", "c", 24, 0.004);
        bench_link(&b);
        bench_solve(&b);
        steam[with] = b.result->vessels[0].steam;
        for (size_t i = 1; i < b.result->line_count; i++) {
            const fv_line_result *l = &b.result->lines[i];
            const double p = b.result->site_pressure + 0.5 * (l->pressure_from + l->pressure_to),
                         rho = fv_sat_rho_g(b.sat, p, NULL), speed = l->flow_from / (rho * circle(0.02));
            check_row("line of 0.1 mm, friction, Pa",
                      l->two_phase * l->friction * (1e-4 / 0.02) * 0.5 * rho * speed * speed, l->drop_friction, 1e-4,
                      "Darcy and Weisbach");
        }
        bench_close(&b);
    }
    check_row("two lines of 0.1 mm more, steam with / without them", 1, steam[1] / steam[0], 1e-4, "limit");
}

static void lines_of_no_length_are_refused(void **state)
{
    (void)state;
    static const double lengths[] = {0, 5e-5, -1, 1001};
    static const char *const why[] = {"hose 'hose': length is 0 mm; it must be between 0.1 mm and 1000 m",
                                      "hose 'hose': length is 0.05 mm; it must be between 0.1 mm and 1000 m",
                                      "hose 'hose': length is -1 m; it must be between 0.1 mm and 1000 m",
                                      "hose 'hose': length is 1001 m; it must be between 0.1 mm and 1000 m"};
    for (size_t i = 0; i < sizeof lengths / sizeof lengths[0]; i++) {
        bench b;
        bench_open(&b);
        add_boiler(&b, "boiler", "a", 20000.0, 20000.0);
        add_line(&b, FV_LINE_HOSE, "hose", "a", "c", lengths[i], 0.02);
        add_vessel(&b, "bin", "c", 24, 0.003);
        refused(&b, why[i]);
    }
}

/* ---- holes ---- */

/* One hole of a micrometre, the finest that may be said, beside a vessel with usual ones. */
static void holes_of_a_micrometre(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    b.plant->site.pressure = fv_given(SEA);
    add_boiler(&b, "boiler", "a", 60000.0, 20000.0);
    lossless(&b, FV_LINE_HOSE, "s1", "a", "c1", 2.0, 0.02);
    lossless(&b, FV_LINE_HOSE, "s2", "a", "c2", 2.0, 0.02);
    add_vessel(&b, "fine", "c1", 12, 1e-6)->coil.cd = fv_given(0.8);
    add_vessel(&b, "bin", "c2", 12, 0.003);
    bench_link(&b);
    bench_solve(&b);
    assert_int_equal(b.result->boilers[0].state, FV_BOILER_HOLDING);
    double y2, slope;
    bool choked;
    fv_flow_expansibility2(20000.0 / (SEA + 20000.0), FV_EXPONENT_SATURATED, &y2, &slope, &choked);
    const double rho = fv_sat_rho_g(b.sat, SEA + 20000.0, NULL);
    double all = 0;
    for (int k = 0; k < 12; k++)
        all += b.result->holes[k].flow;
    /* rho dp Y^2 = 3 mu m/r^3 + m^2/(2 (Cd A)^2) */
    const double creeping = 3 * fv_sat_mu_g(b.sat, SEA, &slope) / (5e-7 * 5e-7 * 5e-7);
    const double inertial = 0.5 / pow(0.8 * circle(1e-6), 2), drives = rho * 20000.0 * y2;
    /* All twelve are 1e-8 of the boiler's steam, and a solve settles to 1e-10 of it. */
    const double each = (sqrt(creeping * creeping + 4 * inertial * drives) - creeping) / (2 * inertial);
    check_row("twelve holes of 1 um at 0.2 bar, kg/s", 12 * each, all, 2e-2,
              "creeping flow (Sampson 1891; from memory) and an isentropic hole, Cd 0.8");
    bench_close(&b);
}

static void finer_holes_are_refused(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    add_boiler(&b, "boiler", "a", 20000.0, 20000.0);
    add_vessel(&b, "bin", "a", 24, 5e-7);
    refused(&b, "drill is 5e-07 m; it must be between 0.001 mm and 500 mm");
}

/* ---- vessels and vents ---- */

static void one_vessel_open_of_twenty(void **state)
{
    (void)state;
    enum { VESSELS = 20, OPEN = 13 };
    bench b;
    bench_open(&b);
    add_boiler(&b, "boiler", "h0", 20000.0, 20000.0);
    for (int i = 0; i < VESSELS; i++) {
        char id[16], from[16], to[16], hose[16], end[16], bin[16];
        name_of(id, sizeof id, "m", i);
        name_of(from, sizeof from, "h", i);
        name_of(to, sizeof to, "h", i + 1);
        name_of(hose, sizeof hose, "s", i);
        name_of(end, sizeof end, "c", i);
        name_of(bin, sizeof bin, "bin", i);
        add_line(&b, FV_LINE_HEADER, id, from, to, 1.0, 0.04)->lagging = fv_given(0.03);
        add_line(&b, FV_LINE_HOSE, hose, to, end, 2.0, 0.02);
        add_vessel(&b, bin, end, 12, 0.003);
    }
    bench_link(&b);
    for (int i = 0; i < VESSELS; i++)
        if (i != OPEN)
            b.chambers[i].kind = FV_CHAMBER_SHUT;
    bench_solve(&b);
    double condensed = 0;
    for (size_t i = 0; i < b.result->line_count; i++)
        condensed += b.result->lines[i].condensate;
    double most = 0;
    for (int i = 0; i < VESSELS; i++)
        if (i != OPEN)
            most = fmax(most, fabs(b.result->vessels[i].steam));
    check_row("nineteen shut vessels, most steam that one gets, kg/s", 0, most, 1e-15, SOURCE);
    check_row("one of twenty vessels open, its steam and all condensate / steam made", 1,
              (b.result->vessels[OPEN].steam + condensed) / b.result->boilers[0].steam, 1e-9, "conservation");
    assert_true(b.result->vessels[OPEN].share == 1);
    bench_close(&b);
}

/* Three vents, two of them shut: what does not condense must leave by the third, of 6 mm. */
static void all_vents_shut_but_one(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    b.plant->site.pressure = fv_given(SEA);
    add_boiler(&b, "boiler", "a", 20000.0, 20000.0);
    fv_vessel *v = add_vessel(&b, "bin", "a", 24, 0.003);
    v->openings[0]->diameter = fv_given(0.0);
    fv_vessel_add_opening(b.plant, v, FV_OPENING_VENT, HERE)->diameter = fv_given(0.0);
    fv_opening *open = fv_vessel_add_opening(b.plant, v, FV_OPENING_VENT, HERE);
    open->diameter = fv_given(0.006);
    open->height = fv_given(0.0);
    bench_link(&b);
    const double rho = 0.598, condenses = 1e-4;
    b.chambers[0] = (fv_chamber){.kind = FV_CHAMBER_VENTED, .condenses = condenses, .gain = 1, .density = rho};
    bench_solve(&b);
    const fv_vessel_result *r = &b.result->vessels[0];
    double y2, slope;
    bool choked;
    fv_flow_expansibility2(r->chamber_pressure / (SEA + r->chamber_pressure), FV_EXPONENT_SATURATED, &y2, &slope,
                           &choked);
    check_row("one vent of 6 mm left open, out of it, kg/s",
              0.62 * circle(0.006) * sqrt(2 * rho * r->chamber_pressure * y2), r->vented, 1e-9,
              "isentropic hole, Cd 0.62");
    check_row("the same and what condenses / steam that comes", 1, (r->vented + condenses) / r->steam, 1e-9,
              "conservation");
    assert_true(r->chamber_pressure > 1000 && r->chamber_pressure < r->coil_pressure);
    bench_close(&b);
}

static void no_vent_at_all_is_refused(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    add_boiler(&b, "boiler", "a", 20000.0, 20000.0);
    add_vessel(&b, "bin", "a", 24, 0.003)->openings[0]->diameter = fv_given(0.0);
    refused(&b, "vessel 'bin': has no open vent or drain; it would be a pressure vessel, which is refused");
}

/* ---- sites ---- */

static double held_flow(double site_pressure)
{
    bench b;
    bench_open(&b);
    b.plant->site.pressure = fv_given(site_pressure);
    add_boiler(&b, "boiler", "a", 900000.0, 2000.0);
    fv_vessel *v = add_vessel(&b, "bin", "a", 1, 0.002);
    v->coil.cd = fv_given(0.8);
    bench_link(&b);
    bench_solve(&b);
    const double steam = b.result->vessels[0].steam;
    bench_close(&b);
    return steam;
}

/* The same 20 mbar drive less steam where it is thinner. */
static void thinnest_air(void **state)
{
    (void)state;
    /* Volumes of saturated steam 3.2400 m3/kg at 0.5 bar and 1.6719 at 1.01325 bar (steam tables, from memory); up to
     * the boiler's pressure density goes as p^0.94, and Y^2 as 1 - 1.3 x. */
    const double density = 1.6719 / 3.2400 * pow(52.0 / 50.0 / (103.325 / 101.325), 0.94);
    const double expands = (1 - 1.3 * 2.0 / 52.0) / (1 - 1.3 * 2.0 / 103.325);
    check_row("one hole at 20 mbar, steam at a site of 0.5 bar / at sea level", sqrt(density * expands),
              held_flow(50000.0) / held_flow(SEA), 5e-3, "isentropic hole, first order");
    bench b;
    bench_open(&b);
    b.plant->site.pressure = fv_given(30000.0);
    add_boiler(&b, "boiler", "a", 20000.0, 20000.0);
    add_vessel(&b, "bin", "a", 24, 0.003);
    refused(&b, "site: pressure is 300 hPa; it must be between 500 hPa and 1100 hPa");
}

/* ---- boilers ---- */

/* 1 W on a line that loses 10 W/m: it reaches as far as its heat of condensing lasts. */
static void boiler_of_a_watt(void **state)
{
    (void)state;
    for (int loses = 0; loses < 2; loses++) {
        bench b;
        bench_open(&b);
        b.plant->site.pressure = fv_given(SEA);
        add_boiler(&b, "boiler", "a", 1.0, 20000.0);
        lossless(&b, FV_LINE_HOSE, "hose", "a", "c", 3.0, 0.02)->heat_loss = fv_given(loses ? 10.0 : 0.0);
        add_vessel(&b, "bin", "c", 24, 0.003);
        bench_link(&b);
        bench_solve(&b);
        /* Steam tables at 1.01325 bar, from memory: h_g 2675.6, h_f 419.1; at 15 degC 63.0 kJ/kg. */
        const double made = 1.0 / (2675.6e3 - 63.0e3);
        check_row("boiler of 1 W, steam, kg/s", made, b.result->boilers[0].steam, 1e-4, SOURCE);
        if (loses) {
            check_row("the same, steam that arrives past a line of 10 W/m", 0, b.result->vessels[0].steam, 1e-15,
                      SOURCE);
            check_row("the same, length that it reaches, m", made * (2675.6e3 - 419.1e3) / 10.0,
                      b.result->lines[0].wet_length, 1e-3, SOURCE);
        } else {
            check_row("the same, steam that arrives past a line that loses nothing / made", 1,
                      b.result->vessels[0].steam / b.result->boilers[0].steam, 1e-9, "conservation");
        }
        bench_close(&b);
    }
}

/* A boiler that holds its pressure gives what is asked for, however large it is. */
static void boiler_of_a_megawatt(void **state)
{
    (void)state;
    double steam[2];
    for (int i = 0; i < 2; i++) {
        bench b;
        bench_open(&b);
        add_boiler(&b, "boiler", "a", i ? 1e6 : 1e5, 20000.0);
        add_line(&b, FV_LINE_HOSE, "hose", "a", "c", 3.0, 0.02);
        add_vessel(&b, "bin", "c", 24, 0.003);
        bench_link(&b);
        bench_solve(&b);
        assert_int_equal(b.result->boilers[0].state, FV_BOILER_HOLDING);
        steam[i] = b.result->vessels[0].steam;
        bench_close(&b);
    }
    check_row("holding boilers of 1 MW and 100 kW, steam of the one / the other", 1, steam[1] / steam[0], 1e-9, SOURCE);
    static const double outputs[] = {1e7, 0.9, 0};
    static const char *const why[] = {"boiler 'boiler': output is 10000 kW; it must be between 1 W and 1000 kW",
                                      "boiler 'boiler': output is 0.9 W; it must be between 1 W and 1000 kW",
                                      "boiler 'boiler': output is 0 kW; it must be between 1 W and 1000 kW"};
    for (size_t i = 0; i < sizeof outputs / sizeof outputs[0]; i++) {
        bench b;
        bench_open(&b);
        add_boiler(&b, "boiler", "a", outputs[i], 20000.0);
        add_vessel(&b, "bin", "a", 24, 0.003);
        refused(&b, why[i]);
    }
}

/* Equal lines and vessels round a ring, a boiler at each joint, each with a pressure of its own. Turning all boilers on
 * by one joint turns the answer with them; and each is full below its pressure, holding at it, or shut above it. */
static void four_boilers_round_a_ring(void **state)
{
    (void)state;
    enum { JOINTS = 4 };
    static const double output[JOINTS] = {95600, 20000, 5000, 40000}, holds[JOINTS] = {8800, 6000, 4000, 2000};
    int seen[3] = {0};
    double before = 0;
    for (int holes = 2; holes <= 96; holes *= 2) {
        double first[2 * JOINTS] = {0}, worst = 0, all = 0;
        for (int turn = 0; turn < JOINTS; turn++) {
            bench b;
            bench_open(&b);
            for (int i = 0; i < JOINTS; i++) {
                char id[16], at[16], to[16], hose[16], end[16], bin[16], line[16];
                name_of(id, sizeof id, "b", i);
                name_of(at, sizeof at, "r", i);
                name_of(to, sizeof to, "r", (i + 1) % JOINTS);
                name_of(hose, sizeof hose, "s", i);
                name_of(end, sizeof end, "c", i);
                name_of(bin, sizeof bin, "bin", i);
                name_of(line, sizeof line, "m", i);
                const int boiler = (i + turn) % JOINTS;
                add_boiler(&b, id, at, output[boiler], holds[boiler]);
                add_line(&b, FV_LINE_HEADER, line, at, to, 5.0, 0.03);
                add_line(&b, FV_LINE_HOSE, hose, at, end, 3.0, 0.025);
                add_vessel(&b, bin, end, holes, 0.003);
            }
            bench_link(&b);
            bench_solve(&b);
            double made = 0, used = 0;
            for (int i = 0; i < JOINTS; i++) {
                const int k = (i + turn) % JOINTS;
                const fv_boiler_result *r = &b.result->boilers[i];
                const double values[2] = {r->steam, b.result->vessels[i].steam};
                if (r->state == FV_BOILER_FULL)
                    assert_true(r->pressure <= holds[k] + 1e-6);
                else if (r->state == FV_BOILER_BLOCKED)
                    assert_true(r->pressure >= holds[k] - 1e-6 && r->steam < 1e-12);
                else
                    assert_true(fabs(r->pressure - holds[k]) < 1e-6 && r->steam < r->most);
                seen[r->state]++;
                for (int j = 0; j < 2; j++) {
                    if (turn == 0)
                        first[2 * k + j] = values[j];
                    worst = fmax(worst, fabs(values[j] - first[2 * k + j]));
                }
                made += r->steam;
                used += b.result->vessels[i].steam;
            }
            for (size_t i = 0; i < b.result->line_count; i++)
                used += b.result->lines[i].condensate;
            assert_true(fabs(used / made - 1) < 1e-9);
            all = made;
            bench_close(&b);
        }
        char what[80];
        snprintf(what, sizeof what, "four boilers round a ring, %d holes, largest change when turned, kg/s", holes);
        check_row(what, 0, worst / all, 1e-8, "symmetry");
        assert_true(all >= before); /* more holes never take less */
        before = all;
    }
    for (int i = 0; i < 3; i++)
        assert_true(seen[i] > 0); /* full, holding and pressed shut have all been met */
}

/* ---- many vessels ---- */

static void five_hundred_on_one_header(void **state)
{
    (void)state;
    enum { VESSELS = 500 };
    bench b;
    bench_open(&b);
    add_boiler(&b, "boiler", "h0", 900000.0, 50000.0);
    for (int i = 0; i < VESSELS; i++) {
        char id[16], from[16], to[16], bin[16];
        name_of(id, sizeof id, "m", i);
        name_of(from, sizeof from, "h", i);
        name_of(to, sizeof to, "h", i + 1);
        name_of(bin, sizeof bin, "bin", i);
        add_line(&b, FV_LINE_HEADER, id, from, to, 1.0, 0.15)->lagging = fv_given(0.05);
        add_vessel(&b, bin, to, 6, 0.003);
    }
    bench_link(&b);
    bench_solve(&b);
    double used = 0;
    for (int i = 0; i < VESSELS; i++) {
        const fv_line_result *l = &b.result->lines[i];
        used += b.result->vessels[i].steam + l->condensate;
        assert_true(l->pressure_to < l->pressure_from && l->flow_to > 0);
        if (i > 0)
            assert_true(b.result->vessels[i].steam < b.result->vessels[i - 1].steam);
    }
    check_row("500 vessels on one header, all steam and condensate / steam made", 1, used / b.result->boilers[0].steam,
              1e-9, "conservation");
    bench_close(&b);
}

/* ---- loops ---- */

/* Four equal pipes side by side, thrice in a row, every other one laid the other way round. */
static void bundles_of_equal_lines(void **state)
{
    (void)state;
    enum { ROW = 3, SIDE = 4 };
    bench b;
    bench_open(&b);
    add_boiler(&b, "boiler", "n0", 30000.0, 20000.0);
    for (int i = 0; i < ROW * SIDE; i++) {
        char id[16], from[16], to[16];
        name_of(id, sizeof id, "p", i);
        name_of(from, sizeof from, "n", i / SIDE + i % 2);
        name_of(to, sizeof to, "n", i / SIDE + 1 - i % 2);
        add_line(&b, FV_LINE_PIPE, id, from, to, 4.0, 0.015);
    }
    add_vessel(&b, "bin", "n3", 24, 0.004);
    bench_link(&b);
    bench_solve(&b);
    double worst = 0;
    for (int i = 0; i < ROW * SIDE; i++) {
        const fv_line_result *l = &b.result->lines[i], *first = &b.result->lines[i / SIDE * SIDE];
        const double in = i % 2 ? -l->flow_to : l->flow_from, out = i % 2 ? -l->flow_from : l->flow_to;
        worst = fmax(worst, fmax(fabs(in / first->flow_from - 1), fabs(out / first->flow_to - 1)));
    }
    check_row("bundles of four equal pipes, largest difference within a bundle", 0, worst, 1e-9, "symmetry");
    check_row("the same, four times what enters one / steam made", 1,
              SIDE * b.result->lines[0].flow_from / b.result->boilers[0].steam, 1e-9, "symmetry");
    bench_close(&b);
}

/* A line across between two points of equal pressure: nothing crosses, and what condenses in it comes from both ends
 * alike. */
static void loop_of_no_net_drop(void **state)
{
    (void)state;
    for (int loses = 0; loses < 2; loses++) {
        bench b;
        bench_open(&b);
        add_boiler(&b, "boiler", "a", 30000.0, 20000.0);
        add_line(&b, FV_LINE_PIPE, "left", "a", "l", 5.0, 0.02);
        add_line(&b, FV_LINE_PIPE, "right", "a", "r", 5.0, 0.02);
        add_line(&b, FV_LINE_PIPE, "across", "l", "r", 3.0, 0.02)->heat_loss = fv_given(loses ? 60.0 : 0.0);
        add_line(&b, FV_LINE_HOSE, "s1", "l", "c1", 3.0, 0.02);
        add_line(&b, FV_LINE_HOSE, "s2", "r", "c2", 3.0, 0.02);
        add_vessel(&b, "one", "c1", 24, 0.003);
        add_vessel(&b, "two", "c2", 24, 0.003);
        bench_link(&b);
        bench_solve(&b);
        const fv_line_result *l = &b.result->lines[2];
        const double made = b.result->boilers[0].steam;
        check_row("line between equal pressures, drop, Pa", 0, l->drop, 1e-6, "symmetry");
        check_row("the same, flow across / steam made", 0, 0.5 * (l->flow_from + l->flow_to) / made, 1e-9, "symmetry");
        check_row("the same, what each end draws less half of what condenses / steam made", 0,
                  (l->flow_from - 0.5 * l->condensate) / made, 1e-9, "symmetry");
        assert_true(loses ? l->condensate > 1e-5 : l->condensate == 0);
        check_row("the same, share of one of the two vessels", 0.5, b.result->vessels[0].share, 1e-9, "symmetry");
        bench_close(&b);
    }
}

/* A ring that hangs on by one joint has no drop round it: and what condenses is all that moves. */
static void ring_at_a_dead_end(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    add_boiler(&b, "boiler", "a", 30000.0, 20000.0);
    add_line(&b, FV_LINE_PIPE, "main", "a", "c", 3.0, 0.025);
    add_vessel(&b, "bin", "c", 24, 0.003);
    add_line(&b, FV_LINE_PIPE, "out", "c", "n1", 2.0, 0.025);
    add_line(&b, FV_LINE_PIPE, "end", "n1", "n2", 2.0, 0.025);
    add_line(&b, FV_LINE_PIPE, "home", "n2", "c", 2.0, 0.025);
    bench_link(&b);
    bench_solve(&b);
    const fv_line_result *main = &b.result->lines[0], *out = &b.result->lines[1], *end = &b.result->lines[2],
                         *home = &b.result->lines[3];
    const double made = b.result->boilers[0].steam;
    check_row("ring at a dead end, what enters it one way less the other way / steam made", 0,
              (out->flow_from + home->flow_to) / made, 1e-9, "symmetry");
    check_row("the same, mean flow along the middle / steam made", 0, 0.5 * (end->flow_from + end->flow_to) / made,
              1e-9, "symmetry");
    check_row("the same, what enters it / what condenses in it", 1,
              (out->flow_from - home->flow_to) / (out->condensate + end->condensate + home->condensate), 1e-9,
              "conservation");
    check_row("the same, vessel, ring and main / steam made", 1,
              (b.result->vessels[0].steam + out->flow_from - home->flow_to + main->condensate) / made, 1e-9,
              "conservation");
    bench_close(&b);
}

static void line_to_itself_is_refused(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    add_boiler(&b, "boiler", "a", 20000.0, 20000.0);
    add_line(&b, FV_LINE_HOSE, "hose", "a", "c", 3.0, 0.02);
    add_line(&b, FV_LINE_HOSE, "round", "c", "c", 3.0, 0.02);
    add_vessel(&b, "bin", "c", 24, 0.003);
    refused(&b, "hose 'round': goes from 'c' to 'c'; its ends must be two joints");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(huge_and_hair_thin_bore),    cmocka_unit_test(bores_beyond_the_limits_are_refused),
        cmocka_unit_test(lines_of_next_to_no_length), cmocka_unit_test(lines_of_no_length_are_refused),
        cmocka_unit_test(holes_of_a_micrometre),      cmocka_unit_test(finer_holes_are_refused),
        cmocka_unit_test(one_vessel_open_of_twenty),  cmocka_unit_test(all_vents_shut_but_one),
        cmocka_unit_test(no_vent_at_all_is_refused),  cmocka_unit_test(thinnest_air),
        cmocka_unit_test(boiler_of_a_watt),           cmocka_unit_test(boiler_of_a_megawatt),
        cmocka_unit_test(four_boilers_round_a_ring),  cmocka_unit_test(five_hundred_on_one_header),
        cmocka_unit_test(bundles_of_equal_lines),     cmocka_unit_test(loop_of_no_net_drop),
        cmocka_unit_test(ring_at_a_dead_end),         cmocka_unit_test(line_to_itself_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
