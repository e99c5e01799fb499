/* SPDX-License-Identifier: MIT */
/* Compressible flow in lines and coils, swept: bores x area ratios x fires, for a coil at the boiler, behind a wider
 * hose and behind one as wide as itself. What must hold whatever the numbers: steam never falls as the fire rises (more
 * heat boils more water, and the plant's resistance does not depend on the fire); no Mach number above 1 (flow from
 * rest in ducts of constant bore: A. H. Shapiro, Compressible Fluid Flow I, 1953, ch. 6; from memory); no boiler below
 * the air's pressure, and no coil's closed end above the total pressure at its inlet (second law). SWEEP=20 in the
 * environment sweeps 20 x 20 x 20 of each. */
#include "steady/assembly.h"
#include "steady/plants.h"

typedef enum { AT_BOILER, WIDER_HOSE, EQUAL_HOSE, FREE_ENTRY, LAYOUTS } layout; /* free: entry said to cost nothing */

static bool stands_at_boiler(layout how)
{
    return how == AT_BOILER || how == FREE_ENTRY;
}

static void lay_out(bench *b, layout how, double bore, double area_ratio, double holds)
{
    const double drill = 0.2 * bore, holes = fmax(2, round(area_ratio * bore * bore / (drill * drill)));
    bench_open(b);
    add_boiler(b, "b", "b0", 200e3, holds);
    if (!stands_at_boiler(how))
        add_line(b, FV_LINE_HOSE, "s", "b0", "c", 2, how == WIDER_HOSE ? 2 * bore : bore);
    fv_vessel *v = add_vessel(b, "v", stands_at_boiler(how) ? "b0" : "c", holes, drill);
    v->coil.bore = fv_given(bore);
    if (how == FREE_ENTRY)
        v->coil.entry = fv_given(0);
    v->coil.length = fv_given(fmax(1.2, 3 * drill * holes));
    bench_link(b);
}

static int steps_of_sweep(int usual)
{
    const char *said = getenv("SWEEP");
    return said ? atoi(said) : usual;
}

/* Fires from 2 % up, each from the last solution, and every other one from a cold start. */
static void raise_fire(bench *b, int fires, bool free_entry, const char *what)
{
    double before = 0;
    for (int i = 0; i < fires; i++) {
        b->fire[0] = 0.02 * pow(50, (double)i / (fires - 1));
        if (i % 2)
            fv_solver_forget(b->solver);
        bench_solve(b);
        const fv_audit *audit = &b->result->audit;
        const double steam = b->result->vessels[0].steam, boiler = b->result->boilers[0].pressure;
        const bool gains = !free_entry && (boiler < -1e-3 || audit->total_pressure_gain > 1e-3);
        if (steam < before * (1 - 1e-9) || audit->mach > 1 + 1e-9 || gains)
            fail_msg("%s, fire %.4f: %.6g kg/s after %.6g, Mach %.4f, boiler %.6g Pa, gain %.6g Pa", what, b->fire[0],
                     steam, before, audit->mach, boiler, audit->total_pressure_gain);
        before = steam;
    }
}

static void steam_never_falls_as_the_fire_rises(void **state)
{
    (void)state;
    const int n = steps_of_sweep(10);
    double fastest = 0;
    for (layout how = AT_BOILER; how < LAYOUTS; how++)
        for (int i = 0; i < n; i++)
            for (int j = 0; j < n; j++) {
                bench b;
                char what[100];
                const double bore = 0.006 * pow(8, (double)i / (n - 1)), ratio = 0.1 * pow(60, (double)j / (n - 1));
                lay_out(&b, how, bore, ratio, 30000);
                snprintf(what, sizeof what, "layout %d, bore %.4f, area ratio %.3f", how, bore, ratio);
                raise_fire(&b, n, how == FREE_ENTRY, what);
                fastest = fmax(fastest, b.result->audit.mach);
                bench_close(&b);
            }
    printf("check | sweep of %d x %d x %d in 4 layouts | all hold | fastest Mach %.3f | second law\n", n, n, n,
           fastest);
    assert_true(fastest > 0.3);
}

/* 60 holes of 3 mm in a coil of 12 mm: nearly four times its area. */
static void a_coil_with_too_many_holes(void **state)
{
    (void)state;
    double before = 0;
    for (double output = 10e3; output < 200e3; output += 10e3) {
        bench b;
        bench_open(&b);
        add_boiler(&b, "b", "b0", output, 30000);
        add_line(&b, FV_LINE_HOSE, "s", "b0", "c", 2, 0.025);
        add_vessel(&b, "v", "c", 60, 0.003)->coil.bore = fv_given(0.012);
        bench_link(&b);
        bench_solve(&b);
        assert_true(b.result->vessels[0].steam >= before * (1 - 1e-9));
        assert_true(b.result->boilers[0].pressure > 0 && b.result->audit.mach <= 1);
        before = b.result->vessels[0].steam;
        bench_close(&b);
    }
    printf("check | most steam through the coil, kg/s | 0 to 0.02 | got %.5f | by the area of its bore\n", before);
}

/* A thin line ahead of a chamber whose vent is far too small: neither faster than sound nor above its boiler. */
static void a_thin_line_and_a_small_vent(void **state)
{
    (void)state;
    double fastest = 0;
    for (double vent = 0.002; vent < 0.03; vent *= 1.5)
        for (double bore = 0.002; bore < 0.02; bore *= 1.4)
            for (double length = 0.02; length < 3; length *= 4) {
                bench b;
                bench_open(&b);
                add_boiler(&b, "b", "b0", 60e3, 100000);
                add_line(&b, FV_LINE_HOSE, "s", "b0", "c", length, bore);
                fv_vessel *v = add_vessel(&b, "v", "c", 20, 0.003);
                v->openings[0]->diameter = fv_given(vent);
                bench_link(&b);
                b.chambers[0] = (fv_chamber){.kind = FV_CHAMBER_VENTED, .gain = 1, .density = 0.59, .condenses = 1e-4};
                bench_solve(&b);
                const fv_steady_result *r = b.result;
                assert_true(r->vessels[0].chamber_pressure < r->boilers[0].pressure + 1);
                assert_true(r->boilers[0].pressure >= 0 && r->audit.mach <= 1 + 1e-9);
                fastest = fmax(fastest, r->lines[0].mach);
                bench_close(&b);
            }
    printf("check | fastest in a thin line, Mach | at most 1 | got %.6f | Shapiro 1953, ch. 6\n", fastest);
    assert_true(fastest > 0.99);
}

/* Of the boiler, Pa; entry below 0: left to its default. */
static double boiler_pressure_with(layout how, double line, double coil, bool ring, double entry)
{
    bench b;
    bench_open(&b);
    add_boiler(&b, "b", "b0", 30e3, 30000);
    if (how != AT_BOILER)
        add_line(&b, FV_LINE_HOSE, "s", "b0", "c", 2, line);
    fv_vessel *v = add_vessel(&b, "v", how == AT_BOILER ? "b0" : "c", 20, 0.004);
    v->coil.bore = fv_given(coil);
    v->coil.shape = fv_given(ring ? FV_COIL_RING : FV_COIL_DEAD_END);
    if (entry >= 0)
        v->coil.entry = fv_given(entry);
    bench_link(&b);
    bench_solve(&b);
    const double pressure = b.result->boilers[0].pressure;
    bench_close(&b);
    return pressure;
}

static void entry_by_what_feeds_the_coil(void **state)
{
    (void)state;
    static const struct {
        layout how;
        double line, coil;
        bool ring;
        double entry;
        const char *what;
    } rows[] = {
        {AT_BOILER, 0, 0.02, false, 1.5, "at a boiler, from rest"},
        {WIDER_HOSE, 0.02 * 1.41421356237309505, 0.02, false, 1.0, "half the line's area: 0.5 x 0.5 + 1 - 0.25"},
        {WIDER_HOSE, 0.02, 0.02, false, 0.0, "as wide as its line"},
        {WIDER_HOSE, 0.015, 0.02, false, 0.5, "wider than its line"},
        {WIDER_HOSE, 0.02, 0.02, true, 2.0, "each leg of a ring"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const double said = boiler_pressure_with(rows[i].how, rows[i].line, rows[i].coil, rows[i].ring, rows[i].entry);
        const double own = boiler_pressure_with(rows[i].how, rows[i].line, rows[i].coil, rows[i].ring, -1);
        check_row(rows[i].what, said, own, 1e-6, "Bernoulli, and Crane TP-410 for the flush contraction (from memory)");
    }
}

/* Below the sonic pressure where a bore begins, its equation falls on with the slope rho*, so that it has no root
 * there; the regain across a hole is that of the sonic density. */
static void equations_below_the_sonic_pressure(void **state)
{
    (void)state;
    bench b;
    lay_out(&b, AT_BOILER, 0.02, 0.5, 30000);
    bench_solve(&b);
    const double m = 0.12, flux = m / circle(0.02);
    double by_flux, slope;
    const double sonic = steady_sonic_pressure(b.net, flux, 0, &by_flux);
    const double rho = fv_sat_rho_g(b.sat, SEA + sonic, &slope);
    check_row("Mach number at the sonic pressure", 1, flux * sqrt(slope) / rho, 1e-9, "G^2 d rho/dp = rho^2");
    const steady_duct duct = {circle(0.02), 0.02, 1, 1e-3, 0.02};
    steady_duct_state at, below;
    steady_duct_evaluate(b.net, &duct, 0, sonic, sonic - 20000, m, 1, 1, &at);
    steady_duct_evaluate(b.net, &duct, 0, sonic - 1000, sonic - 20000, m, 1, 1, &below);
    check_row("1000 Pa below it, kg/m3 Pa", -1000 * rho, below.residual - at.residual, 1e-6, "by definition");
    assert_true(at.choked && below.choked && at.residual < 0);
    steady_hole_state hole;
    steady_hole_evaluate(b.solver, &b.net->vessels[0], 0, sonic - 5000, m, 0.1 * m, 0, &hole);
    check_row("regain, Pa", 0.5 * 0.99 * flux * flux / rho, hole.regain, 1e-9, "r (G1^2 - G2^2)/rho");
    assert_true(hole.sonic && fabs(hole.mach - 1) < 1e-9);
    bench_close(&b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(steam_never_falls_as_the_fire_rises), cmocka_unit_test(a_coil_with_too_many_holes),
        cmocka_unit_test(a_thin_line_and_a_small_vent), cmocka_unit_test(entry_by_what_feeds_the_coil),
        cmocka_unit_test(equations_below_the_sonic_pressure)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
