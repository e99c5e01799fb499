/* SPDX-License-Identifier: MIT */
/* The solver against what others printed: perforated pipes, steam tables for mains, choked discharge, holes, heat lost
 * on the way, boilers. Where a printed case lies above the 15 psi that a plant may have, the equation of the part is
 * solved by itself. */
#include "farvessel/flow.h"
#include "steady/assembly.h"
#include "steady/plants.h"

#define INCH 0.0254
#define FOOT 0.3048
#define PSI 6894.757293
#define POUND 0.45359237
#define BTU 1055.05585262
#define HOUR 3600.0
#define FAHRENHEIT(t) (((t) + 459.67) / 1.8)

enum { COLUMNS = 8 };
typedef struct {
    char text[COLUMNS][16];
    double value[COLUMNS];
} table_row;

/* Reads the next row of numbers; false at the end. */
static bool next_row(FILE *file, table_row *row)
{
    char line[256];
    while (fgets(line, sizeof line, file)) {
        size_t count = 0;
        double last = NAN;
        for (char *word = strtok(line, ",\n"); word && count < COLUMNS; word = strtok(NULL, ",\n")) {
            char *end;
            snprintf(row->text[count], sizeof row->text[count], "%s", word);
            last = row->value[count++] = strtod(word, &end);
            if (*end != '\0')
                last = NAN;
        }
        if (!isnan(last) && row->text[0][0] != '#')
            return true;
    }
    return false;
}

static FILE *open_table(const char *path)
{
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    return file;
}

/* ---- perforated pipes ---- */

static const double CD = 0.62, PIPE_BORE = 0.05, PIPE_LENGTH = 10.0;

typedef struct {
    double first_over_last, first_over_mean, change_over_head, head_over_drop;
} perforated;

/* A coil of `holes` at about `pressure`, no entry loss; area_ratio is Cd x all holes / bore, friction is f L/D. */
static perforated solve_perforated(double holes, double regain, double friction, double area_ratio, double pressure)
{
    bench b;
    bench_open(&b);
    add_boiler(&b, "boiler", "a", 30000.0, pressure);
    fv_coil *coil = &add_vessel(&b, "bin", "a", holes, PIPE_BORE * sqrt(area_ratio / (holes * CD)))->coil;
    coil->bore = fv_given(PIPE_BORE);
    coil->length = fv_given(PIPE_LENGTH);
    coil->friction = fv_given(friction * PIPE_BORE / PIPE_LENGTH);
    coil->entry = fv_given(0.0);
    coil->regain = fv_given(regain);
    coil->cd = fv_given(CD);
    bench_link(&b);
    bench_solve(&b);
    const fv_vessel_result *v = &b.result->vessels[0];
    const fv_hole_result *hole = b.result->holes;
    const size_t last = v->hole_count - 1;
    const double head = 0.5 * v->coil_velocity * v->steam / circle(PIPE_BORE);
    const perforated out = {.first_over_last = hole[0].flow / hole[last].flow,
                            .first_over_mean = hole[0].flow * holes / v->steam,
                            .change_over_head = (v->coil_pressure - hole[last].pressure) / head,
                            .head_over_drop = head / hole[last].drop};
    bench_close(&b);
    return out;
}

static const double HOLES = 100, SMALL = 2.0; /* Pa: incompressible, and no creeping flow */

/* Holes one by one tend to the continuous pipe as 1/N (or 1/N^2 where half a spacing at the inlet does not count): with
 * that order each doubling divides the step by 2^order, and the limit is left with the next order. */
static void row_in_the_limit(const char *what, double exact, int order, const double got[3], double tolerance,
                             const char *source)
{
    const double factor = 1 << order, step = got[1] - got[2], ratio = (got[0] - got[1]) / step;
    printf("check | %s: step at each doubling of N divided by | %.0f | got %.4g | dev %+.2e | order %d\n", what, factor,
           ratio, ratio / factor - 1, order);
    /* Where the first order nearly cancels the second one shows. */
    if (fabs(got[0] - got[1]) > 1e-3 * fabs(exact) || order > 1)
        assert_true(fabs(ratio / factor - 1) < 0.1);
    check_row(what, exact, got[2] - step / (factor - 1), tolerance, source);
}

/* What is left after the first order: most where the first hole gives a sixth of the last. */
static const double EXTRAPOLATED = 2e-3;

static void perforated_without_friction(void **state)
{
    (void)state;
    const char *source = "continuous pipe, cos(sqrt(2k) AR): reference/flow/README.md";
    FILE *file = open_table("reference/flow/perforated_frictionless.csv");
    table_row row;
    int count = 0;
    for (; next_row(file, &row); count++) {
        char what[128];
        perforated p[3];
        for (int i = 0; i < 3; i++)
            p[i] = solve_perforated(HOLES * (1 << i), row.value[0], 0, row.value[1], SMALL);
        snprintf(what, sizeof what, "coil, no friction, r %s, AR %s, first/last hole", row.text[0], row.text[1]);
        row_in_the_limit(what, row.value[2], 1,
                         (double[]){p[0].first_over_last, p[1].first_over_last, p[2].first_over_last}, EXTRAPOLATED,
                         source);
        snprintf(what, sizeof what, "coil, no friction, r %s, AR %s, first/mean hole", row.text[0], row.text[1]);
        row_in_the_limit(what, row.value[3], 1,
                         (double[]){p[0].first_over_mean, p[1].first_over_mean, p[2].first_over_mean}, EXTRAPOLATED,
                         source);
    }
    fclose(file);
    assert_int_equal(count, 7);
}

static void perforated_with_friction(void **state)
{
    (void)state;
    const char *source = "continuous pipe, Runge-Kutta: reference/flow/README.md";
    FILE *file = open_table("reference/flow/perforated_friction.csv");
    table_row row;
    int count = 0;
    for (; next_row(file, &row); count++) {
        char what[128];
        perforated p[3];
        for (int i = 0; i < 3; i++)
            p[i] = solve_perforated(HOLES * (1 << i), row.value[0], row.value[1], row.value[2], SMALL);
        snprintf(what, sizeof what, "coil, r %s, f L/D %s, AR %s, first/last hole", row.text[0], row.text[1],
                 row.text[2]);
        row_in_the_limit(what, row.value[3], 1,
                         (double[]){p[0].first_over_last, p[1].first_over_last, p[2].first_over_last}, 1e-3, source);
        snprintf(what, sizeof what, "coil, r %s, f L/D %s, AR %s, change/head", row.text[0], row.text[1], row.text[2]);
        row_in_the_limit(what, row.value[4], 2,
                         (double[]){p[0].change_over_head, p[1].change_over_head, p[2].change_over_head}, 2e-3, source);
    }
    fclose(file);
    assert_int_equal(count, 8);
}

/* Hole drop ten times the velocity head, or ten times the friction less the regain: 5 % between the ends. */
static void five_percent_rule(void **state)
{
    (void)state;
    const char *source = "Senecal 1957 in Perry, perforated-pipe distributors; from memory";
    const double exact = 1 - sqrt(0.9);
    const perforated regain = solve_perforated(400, 0.5, 0, acos(sqrt(0.9)), 2000.0);
    check_row("coil, velocity head / drop of the last hole", 0.1, regain.head_over_drop, 0.01, "chosen");
    check_row("coil, hole drop 10 x velocity head, flow differs by", exact, 1 - regain.first_over_last, 0.02, source);
    /* f L/D = 6: the friction of two heads less the one regained, and holes until that is a tenth. */
    perforated friction = {0};
    double change = NAN, area_ratio = 0.3, share;
    for (int i = 0; i < 8; i++) {
        friction = solve_perforated(400, 0.5, 6, area_ratio, 2000.0);
        change = friction.change_over_head * friction.head_over_drop;
        change /= 1 + change;
        area_ratio *= sqrt(0.1 / change);
    }
    check_row("coil, f L/D 6, pressure change / drop of the first hole", 0.1, change, 1e-3, "chosen");
    assert_int_equal(fv_flow_maldistribution(0.1, &share), FV_OK);
    check_row("coil, f L/D 6, flow differs by", share, 1 - 1 / friction.first_over_last, 0.02, source);
}

/* ---- mains ---- */

/* Flow of 100 ft of pipe that loses no heat between a boiler and a vessel with huge holes, at the stated pressure in
 * the middle and the stated drop; kg/s. */
static double main_flow(double bore, double gauge, double drop)
{
    bench b;
    bench_open(&b);
    add_boiler(&b, "boiler", "a", 1e6, gauge + 0.5 * drop);
    fv_line *line = add_line(&b, FV_LINE_PIPE, "main", "a", "b", 100 * FOOT, bore);
    line->roughness = fv_given(0.00015 * FOOT);
    line->heat_loss = fv_given(0.0);
    fv_vessel *v = add_vessel(&b, "bin", "b", 1, 0.01);
    v->coil.holes = v->coil.drill = (fv_value){.v = NAN};
    v->coil.bore = fv_given(1.0);
    v->coil.entry = v->coil.friction = fv_given(0.0);
    fv_hole *hole = fv_vessel_add_hole(b.plant, v, HERE);
    hole->at = fv_given(0.6);
    hole->drill = fv_given(0.4);
    hole->count = fv_given(10.0);
    bench_link(&b);
    b.chambers[0].pressure = gauge - 0.5 * drop;
    bench_solve(&b);
    assert_int_equal(b.result->boilers[0].state, FV_BOILER_HOLDING);
    assert_true(fabs(b.result->lines[0].drop / drop - 1) < 1e-3);
    const double flow = b.result->vessels[0].steam;
    bench_close(&b);
    return flow;
}

static void low_pressure_steam_table(void **state)
{
    (void)state;
    const char *source = "ASHRAE Fundamentals, pipe sizing";
    FILE *file = open_table("reference/flow/ashrae_steam.csv");
    table_row row;
    double sum = 0, squares = 0;
    int count = 0;
    while (next_row(file, &row)) {
        char what[128];
        if (row.value[1] > 5) // above, one boiler of 1 MW does not do
            continue;
        const double flow = main_flow(row.value[1] * INCH, row.value[3] * PSI, row.value[2] * PSI) * HOUR / POUND;
        const double dev = row.value[4] / flow - 1;
        snprintf(what, sizeof what, "steam main of 100 ft, %s in, %s psi, %s psig, lb/h", row.text[0], row.text[2],
                 row.text[3]);
        check_row(what, row.value[4], flow, 0.06, source);
        sum += dev;
        squares += dev * dev;
        count++;
    }
    fclose(file);
    const double mean = sum / count, deviation = sqrt(squares / count - mean * mean);
    printf("check | steam mains, %d entries, mean of printed/computed - 1 | -0.013 | got %.4f | deviation %.4f | %s\n",
           count, mean, deviation, source);
    assert_int_equal(count, 72);
    assert_true(fabs(mean) < 0.02 && deviation < 0.02);
}

/* ---- choked discharge ---- */

static fv_network *some_network(bench *b)
{
    bench_open(b);
    b->plant->site.pressure = fv_given(SEA);
    add_boiler(b, "boiler", "a", 30000.0, 0.0);
    fv_coil *coil = &add_vessel(b, "bin", "a", 1, 0.008)->coil;
    coil->cd = fv_given(1.0);
    coil->regain = fv_given(0.0);
    bench_link(b);
    bench_solve(b);
    return b->net;
}

/* Flow of a bore to the air, and the pressure at its end, Pa absolute. */
static double discharge(const fv_network *net, const steady_duct *duct, double k, double p, double *p_end)
{
    double low = 0, high = 100;
    steady_duct_state d;
    for (int i = 0; i < 100; i++) {
        const double m = 0.5 * (low + high);
        steady_duct_evaluate(net, duct, k, p - SEA, 0, m, 1, 1, &d);
        *(d.residual > 0 ? &low : &high) = m;
    }
    assert_true(d.choked);
    double from = 0.1 * SEA, to = p;
    for (int i = 0; i < 100; i++) {
        *p_end = 0.5 * (from + to);
        *(fv_sat_rho_g(net->sat, *p_end, NULL) < d.rho2 ? &from : &to) = *p_end;
    }
    return low;
}

/* 170 psia, 30 ft of 2 in pipe, elbow, globe valve, to the air. What the entrance takes to bring the steam up to speed,
 * one velocity head, counts beside its loss: the header's pressure is that of steam at rest. */
static void digester(void **state)
{
    (void)state;
    bench b;
    const fv_network *net = some_network(&b);
    const double bore = 2.067 * INCH;
    const steady_duct duct = {.area = circle(bore), .bore = bore, .length = 30 * FOOT, .friction = 0.019};
    double p_end;
    const double k = 6.46 + 0.57 + 0.5 + 1.0, flow = discharge(net, &duct, k, 170 * PSI, &p_end) * HOUR / POUND;
    check_row("170 psia through 30 ft of 2 in pipe to the air, choked, lb/h", 11700.0, flow, 100.0 / 11700,
              "11.6 to 11.8 thousand: Crane TP-410, example 4-20, from memory, and Fanno flow, k 1.3 and 1.135");
    /* Steam on the saturation line is heavier than the superheated steam that in truth leaves, by some percent. */
    check_row("the same, pressure at the pipe's end, psia", 39.55, p_end / PSI, 0.05,
              "36 to 40: the same; Crane 36.5, Fanno flow 35.93 with k 1.3, 39.55 with 1.135");
    bench_close(&b);
}

/* ---- holes ---- */

/* kg/s through the hole of some_network, pressures absolute. */
static double through_hole(const bench *b, double p)
{
    double low = 0, high = 10;
    steady_hole_state h;
    for (int i = 0; i < 100; i++) {
        const double m = 0.5 * (low + high);
        steady_hole_evaluate(b->solver, &b->net->vessels[0], 0, p - SEA, m, 0, 0, &h);
        *(h.residual < 0 ? &low : &high) = m;
    }
    return low;
}

static void napier(void **state)
{
    (void)state;
    bench b;
    some_network(&b);
    for (double psia = 50; psia <= 150; psia += 25) {
        char what[64];
        snprintf(what, sizeof what, "hole of 8 mm, Cd 1, %.0f psia, kg/s", psia);
        check_row(what, psia * circle(0.008) / (INCH * INCH) / 70 * POUND, through_hole(&b, psia * PSI), 0.02,
                  "Napier, W = A p/70: Babcock & Wilcox, Steam, eq. 49");
    }
    bench_close(&b);
}

static void babcock_table_68(void **state)
{
    (void)state;
    static const double rows[][2] = {{25.37, 22.81}, {30, 26.84},   {40, 35.18},   {50, 44.06},  {60, 52.59},
                                     {70, 61.07},    {75, 65.30},   {90, 77.94},   {100, 86.34}, {115, 98.76},
                                     {135, 115.61},  {155, 132.21}, {165, 140.46}, {215, 181.58}};
    bench b;
    some_network(&b);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char what[64];
        snprintf(what, sizeof what, "choked hole, %.4g psia, lb/min/in2", rows[i][0]);
        const double flow = through_hole(&b, rows[i][0] * PSI) / circle(0.008);
        check_row(what, rows[i][1], flow * 60 * INCH * INCH / POUND, 0.02, "Babcock & Wilcox, Steam, Table 68");
    }
    bench_close(&b);
}

/* The row of 30 psia through a whole plant, on a day of 1040 hPa. */
static void choked_hole_of_a_plant(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    b.plant->site.pressure = fv_given(104000.0);
    add_boiler(&b, "boiler", "a", 100000.0, 30 * PSI - 104000.0);
    fv_coil *coil = &add_vessel(&b, "bin", "a", 4, 0.003)->coil;
    coil->bore = fv_given(0.08);
    coil->cd = fv_given(1.0);
    bench_link(&b);
    bench_solve(&b);
    assert_true(b.result->holes[0].choked);
    const double flow = b.result->vessels[0].steam / (4 * circle(0.003));
    check_row("four choked holes of a plant, 30 psia, lb/min/in2", 26.84, flow * 60 * INCH * INCH / POUND, 0.02,
              "Babcock & Wilcox, Steam, Table 68");
    bench_close(&b);
}

/* ---- heat lost on the way ---- */

/* A lagged pipe at `gauge` between a boiler and a vessel. */
static void lagged_plant(bench *b, double gauge, double od, double lagging, double conductivity, double outside)
{
    bench_open(b);
    b->plant->site.pressure = fv_given(SEA);
    add_boiler(b, "boiler", "a", 50000.0, 50000.0);
    fv_line *line = add_line(b, FV_LINE_PIPE, "main", "a", "b", 10.0, od - 2 * 0.004);
    line->wall = fv_given(0.004);
    line->lagging = fv_given(lagging);
    line->lagging_conductivity = fv_given(conductivity);
    line->outside = fv_given(outside);
    fv_coil *coil = &add_vessel(b, "bin", "b", 30, 0.03)->coil;
    coil->bore = fv_given(0.3);
    bench_link(b);
    b->chambers[0].pressure = gauge;
}

/* Series resistances by hand: 91.35 K/(ln(55.15/30.15)/(2 pi 0.040) + 1/(2 pi 0.05515 10)). */
static void lagged_pipe(void **state)
{
    (void)state;
    bench b;
    lagged_plant(&b, 150000.0 - SEA, 0.0603, 0.025, 0.040, 10.0);
    b.plant->site.air = fv_given(293.15);
    bench_solve(&b);
    const fv_line_result *r = &b.result->lines[0];
    check_row("2 in pipe, 25 mm lagging, 1.5 bar, room 20 degC, W/m", 33.94, r->heat_loss / 10, 2e-3,
              "series resistances by hand");
    check_row("its condensate over 10 m, kg/h", 339.4 / 2.2260e6 * HOUR, r->condensate * HOUR, 2e-3,
              "q/h_fg, 2226.0 kJ/kg at 1.5 bar: IAPWS R7-97(2012)");
    assert_true(fabs(r->flow_from - r->flow_to - r->condensate) < 1e-12);
    bench_close(&b);
}

/* Printed for steam of 160 psig, 310.64 degF above the room; the outside coefficient and the conductivity that its
 * covered entries follow are constant, so the loss for each degree holds at any pressure. */
static void babcock_table_64(void **state)
{
    (void)state;
    static const double rows[][2] = {{2.375, 99}, {4.5, 160}, {6.625, 221}, {8.625, 276}, {10.75, 337}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        bench b;
        char what[80];
        lagged_plant(&b, 48000.0, rows[i][0] * INCH, INCH, 0.435 * BTU / HOUR * INCH / (FOOT * FOOT) * 1.8,
                     1.8 * BTU / HOUR / (FOOT * FOOT) * 1.8);
        b.plant->site.air = fv_given(FAHRENHEIT(60));
        bench_solve(&b);
        const double mean = fv_sat_t(b.sat, SEA + b.result->lines[0].pressure_from, NULL),
                     span = 1.8 * (mean - FAHRENHEIT(60));
        snprintf(what, sizeof what, "pipe of %.4g in outside, 1 in of magnesia, Btu/h/ft/degF", rows[i][0]);
        check_row(what, rows[i][1] / 310.64, b.result->lines[0].heat_loss / 10 * FOOT * HOUR / BTU / span, 0.03,
                  "Babcock & Wilcox, Steam, Table 64");
        bench_close(&b);
    }
}

/* ---- boilers ---- */

static void factor_of_evaporation(void **state)
{
    (void)state;
    static const double rows[][3] = {
        {60, 50, 1.1854}, {50, 50, 1.1957}, {100, 70, 1.1493}, {210, 50, 1.0309}, {60, 160.3, 1.2034}};
    bench b;
    const fv_network *net = some_network(&b);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        fv_boiler *boiler = b.plant->boilers[0];
        char what[80];
        double slope;
        boiler->feed = fv_given(FAHRENHEIT(rows[i][0]));
        const double steam = steady_boiler_most(net, boiler, 1, (fv_stored){0}, rows[i][1] * PSI, &slope);
        snprintf(what, sizeof what, "factor of evaporation, feed %.0f degF, %.4g psig", rows[i][0], rows[i][1]);
        check_row(what, rows[i][2], boiler->output.v / (steam * 970.4 * BTU / POUND), 2e-3,
                  "Babcock & Wilcox, Steam, Table 19, from the tables of 1909");
    }
    bench_close(&b);
}

/* Through a whole plant at next to no pressure. */
static double from_and_at(double output)
{
    bench b;
    bench_open(&b);
    b.plant->site.pressure = fv_given(SEA);
    add_boiler(&b, "boiler", "a", output, 10000.0)->feed = fv_given(FAHRENHEIT(212));
    add_vessel(&b, "bin", "a", 24, 0.008);
    bench_link(&b);
    bench_solve(&b);
    const double steam = b.result->boilers[0].steam;
    bench_close(&b);
    return steam;
}

static void boiler_horsepower(void **state)
{
    (void)state;
    check_row("a boiler horsepower from and at 212 degF, lb/h", 34.5, from_and_at(33475 * BTU / HOUR) * HOUR / POUND,
              1e-3, "Babcock & Wilcox, Steam: 33 475 Btu/h");
    check_row("1 kW from and at 100 degC, kg/h", 1.595, from_and_at(1000.0) * HOUR, 1e-3,
              "3600/2256.5: IAPWS R7-97(2012); 1.59 in practice");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(perforated_without_friction),
        cmocka_unit_test(perforated_with_friction),
        cmocka_unit_test(five_percent_rule),
        cmocka_unit_test(low_pressure_steam_table),
        cmocka_unit_test(digester),
        cmocka_unit_test(napier),
        cmocka_unit_test(babcock_table_68),
        cmocka_unit_test(choked_hole_of_a_plant),
        cmocka_unit_test(lagged_pipe),
        cmocka_unit_test(babcock_table_64),
        cmocka_unit_test(factor_of_evaporation),
        cmocka_unit_test(boiler_horsepower),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
