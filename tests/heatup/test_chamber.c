/* SPDX-License-Identifier: MIT */
/* A chamber alone, without load and walls: how steam sweeps its air out, what dries it and how cold that makes it. */
#include "checks.h"
#include "heatup/run_plants.h"

#include "heatup/chamber.h"

static const double R_AIR = 287.05287, CP_AIR = 1006, SITE = 101418, COLD = 15 + KELVIN;

/* A chamber with one opening at the bottom and, where asked for, one above it. */
typedef struct {
    const fv_sat *sat;
    fv_vessel vessel;
    fv_opening opening;
    steady_net_opening openings[2];
    heatup_chamber chamber;
} bare;

static void open_bare(bare *b, double cd_area, double height)
{
    *b = (bare){.sat = fv_sat_line(), .opening = {.kind = FV_OPENING_VENT}};
    b->vessel.sump_area.v = NAN;
    b->openings[0] = (steady_net_opening){&b->opening, cd_area, 0, .purge = 1};
    b->openings[1] = (steady_net_opening){&b->opening, cd_area, height, .purge = 1};
    fv_sat_at_t_point at;
    fv_sat_at_t(b->sat, COLD, &at);
    b->chamber = (heatup_chamber){.vessel = &b->vessel,
                                  .openings = b->openings,
                                  .opening_count = height > 0 ? 2 : 1,
                                  .sat = b->sat,
                                  .volume = 1,
                                  .t = COLD,
                                  .t_end = COLD,
                                  .t_shell = COLD,
                                  .t_start = COLD,
                                  .humidity = 1,
                                  .film_most = INFINITY,
                                  .air = (SITE - at.p) / (R_AIR * COLD),
                                  .prepared = NAN};
}

static heatup_chamber_trial try_step(bare *b, const heatup_chamber_step *step)
{
    heatup_chamber_trial found = {.t_end = b->chamber.t_end, .pressure = b->chamber.pressure};
    assert_true(heatup_chamber_prepare(&b->chamber, step) != FV_FAIL);
    assert_int_equal(heatup_chamber_balance(&b->chamber, step, &found), FV_OK);
    return found;
}

/* As many volumes as the opening lets out in a step. */
static double volumes(const bare *b, const heatup_chamber_step *step, const heatup_chamber_trial *found)
{
    fv_sat_at_t_point at;
    fv_sat_at_t(b->sat, found->t_end, &at);
    const double rho = found->air / b->chamber.volume + at.rho_g, outside = fv_air_density(SITE, step->t_air);
    double by_p;
    return step->dt * steady_opening_flow(&b->openings[0], SITE, outside, rho, found->pressure, &by_p) / rho /
           b->chamber.volume;
}

/* ---- the exact washout ---- */

/* s per K as the chamber fills. Whatever goes out, da/dt = -Q e a/V: so Q/V = -(da/dT) T'/(e a) with a(T) the air that
 * a saturated chamber of constant pressure holds; the heat of the steam then gives T'. e: air in what leaves over that
 * in the mean, by the ventilation effectiveness; q: the same for the vapour. */
static double time_by_t(const fv_sat *sat, const heatup_chamber_step *step, double shell, double purge, double t)
{
    fv_sat_at_t_point at;
    fv_sat_at_t(sat, t, &at);
    const double air = (SITE - at.p) / (R_AIR * t), by_t = -at.dp_dt / (R_AIR * t) - air / t;
    const double latent = at.h_g - at.h_f, y = air / (air + at.rho_g), turned = 1 - (1 - y) / purge;
    const double there = purge < 1 ? fmax(purge * y, turned) : fmin(purge * y, turned);
    const double e = there / y, q = (1 - there) / (1 - y);
    return (latent * (at.drho_g_dt - q * at.rho_g * by_t / (e * air)) + air * CP_AIR + shell) /
           (step->steam * (step->enthalpy - at.h_f));
}

/* s until the chamber is at t. Simpson's rule in the logarithm of what lacks to the boiling point. */
static double exact_time(const fv_sat *sat, const heatup_chamber_step *step, double shell, double purge, double t)
{
    enum { PARTS = 4000 };
    const double boiling = fv_sat_t(sat, SITE, NULL), from = log(boiling - COLD), to = log(boiling - t);
    double sum = 0;
    for (int i = 0; i <= PARTS; i++) {
        const double lacks = exp(from + (to - from) * i / PARTS), weight = i == 0 || i == PARTS ? 1 : i % 2 ? 4 : 2;
        sum += weight * lacks * time_by_t(sat, step, shell, purge, boiling - lacks);
    }
    return sum * (from - to) / (3 * PARTS);
}

/* Steps as the run would take them: 2 K at most, half of what lacks to be full, 0.4 K at least. */
static heatup_chamber_trial fitting_step(bare *b, heatup_chamber_step *step, double boiling)
{
    for (;; step->dt *= 0.8) {
        const heatup_chamber_trial found = try_step(b, step);
        const double lacks = boiling - FV_FULL_WITHIN - b->chamber.t_end;
        if (found.t_end - b->chamber.t_end <= fmax(0.4, fmin(2, 0.5 * lacks)))
            return found;
    }
}

static void washout(const char *what, double shell, double steam, double purge, double tolerance)
{
    bare b;
    open_bare(&b, 0.05, 0);
    b.openings[0].purge = purge;
    b.chamber.shell = shell;
    const double boiling = fv_sat_t(b.sat, SITE, NULL), air = b.chamber.air;
    heatup_chamber_step step = {.dt = 1, .steam = steam, .enthalpy = 2680e3, .t_air = COLD, .site_pressure = SITE};
    double time = 0, swept = 0, worst = 0, brought = 0, took = 0, condensate = 0, vented = 0;
    int steps = 0;
    while (boiling - b.chamber.t_end > 0.1) {
        const heatup_chamber_trial found = fitting_step(&b, &step, boiling);
        swept += volumes(&b, &step, &found);
        time += step.dt;
        steps++;
        brought += step.dt * steam * step.enthalpy;
        took += found.heat_shell + found.heat_vented + found.heat_gas + found.condensate * found.h_f +
                (found.vented * step.dt + steam * step.dt - found.condensate - found.vented * step.dt) * found.h_f;
        condensate += found.condensate;
        vented += found.vented * step.dt;
        assert_int_equal(heatup_chamber_advance(&b.chamber, &step, &found), FV_OK);
        worst = fmax(worst, fabs(time / exact_time(b.sat, &step, shell, purge, b.chamber.t_end) - 1));
        step.dt *= 1.5;
    }
    fv_sat_at_t_point cold, hot;
    fv_sat_at_t(b.sat, COLD, &cold);
    fv_sat_at_t(b.sat, b.chamber.t_end, &hot);
    char row[160];
    snprintf(row, sizeof row, "well-mixed chamber, exponential dilution, %s: time to any air share, %d steps", what,
             steps);
    check_worst(row, worst, tolerance, "exact washout of a well-mixed chamber, by quadrature");
    snprintf(row, sizeof row, "the same: share of the air left after %.3f volumes", swept);
    if (purge == 1)
        check_dev(row, exp(-swept), b.chamber.air / air, 1e-6, "e^-n; the digits of a pressure of 1 mPa");
    check_worst("the same: heat brought less taken, share", fabs(took / brought - 1), 1e-12, "identity");
    check_worst("the same: water brought less condensed, vented and stored, share",
                fabs((condensate + vented + hot.rho_g - cold.rho_g) / (steam * time) - 1), 1e-12, "identity");
}

static void well_mixed_chamber(void **state)
{
    (void)state;
    washout("air alone, 2 g/s", 0, 2e-3, 1, 3e-4);
    washout("air alone, 20 g/s", 0, 2e-2, 1, 3e-4);
    washout("in 15 kg of steel, 2 g/s", 7200, 2e-3, 1, 3e-4);
}

/* Shares are those that a step begins with: right to the first order in it, 2 K at most. */
static void purged_chamber(void **state)
{
    (void)state;
    washout("purge 2, 2 g/s", 0, 2e-3, 2, 0.025);
    washout("purge 0.5, 2 g/s", 0, 2e-3, 0.5, 0.025);
    washout("purge 2 in 15 kg of steel", 7200, 2e-3, 2, 0.025);
}

/* Scarce air goes as e^-En: what the limits of the design say, and the mirror between air and vapour. */
static void air_that_leaves_first(void **state)
{
    (void)state;
    check_dev("purge 2, a tenth of air: share in what leaves", 0.2, steady_purged_share(2, 0.1), 1e-12, "E y");
    check_dev("purge 2, nine tenths", 0.95, steady_purged_share(2, 0.9), 1e-12, "1 - (1 - y)/E");
    check_dev("purge 0.5, a tenth", 0.05, steady_purged_share(0.5, 0.1), 1e-12, "E y");
    check_dev("purge 0.5, nine tenths", 0.8, steady_purged_share(0.5, 0.9), 1e-12, "1 - (1 - y)/E");
    for (double purge = 0.25; purge < 5; purge *= 2)
        for (double y = 0; y <= 1; y += 0.125) {
            const double there = steady_purged_share(purge, y);
            assert_true(there >= 0 && there <= 1);
            check_worst("swapping air and vapour swaps E and 1/E",
                        fabs(1 - there - steady_purged_share(1 / purge, 1 - y)), 1e-12, "identity");
        }
    bare b;
    open_bare(&b, 0.05, 0);
    b.openings[0].purge = 2;
    b.chamber.t = b.chamber.t_end = b.chamber.t_shell = 372.5;
    fv_sat_at_t_point at;
    fv_sat_at_t(b.sat, 372.5, &at);
    b.chamber.air = (SITE - at.p) / (R_AIR * 372.5);
    const heatup_chamber_step step = {.dt = 5, .steam = 0.02, .enthalpy = 2680e3, .t_air = COLD, .site_pressure = SITE};
    const double air = b.chamber.air;
    const heatup_chamber_trial found = try_step(&b, &step);
    check_dev("purge 2, little air: share left", exp(-2 * volumes(&b, &step, &found)), found.air / air, 2e-3, "e^-En");
}

/* A seal of 50 mm: nothing passes below its head, either way; beyond it what the rest of the pressure drives. */
static void sealed_opening(void **state)
{
    (void)state;
    const double head = 958.4 * 9.80665 * 0.05, area = 1e-3, rho = 0.598, air = 1.2;
    const steady_net_opening o = {.cd_area = area, .purge = 1, .seal = head};
    double by_p;
    for (double p = -0.99; p < 1; p += 0.33)
        assert_true(steady_opening_flow(&o, SITE, air, rho, p * head, &by_p) == 0 && by_p == 0);
    check_dev("out at 470 Pa and 100: kg/s", area * sqrt(2 * rho * 100),
              steady_opening_flow(&o, SITE, air, rho, head + 100, &by_p), 2e-3,
              "Cd A sqrt(2 rho (dp - H)), but for its expansion");
    check_dev("in at -470 Pa and -100: kg/s", -area * sqrt(2 * air * 100),
              steady_opening_flow(&o, SITE, air, rho, -head - 100, &by_p), 1e-6, "Cd A sqrt(2 rho (-dp - H))");
    bare b;
    open_bare(&b, area, 0);
    b.openings[0].seal = head;
    heatup_chamber_step step = {.dt = 20, .steam = 1e-3, .enthalpy = 2680e3, .t_air = COLD, .site_pressure = SITE};
    b.chamber.shell = 5000;
    for (int i = 0; i < 400; i++) {
        const heatup_chamber_trial found = try_step(&b, &step);
        assert_int_equal(heatup_chamber_advance(&b.chamber, &step, &found), FV_OK);
    }
    const double flux = step.steam / area;
    check_dev("a sealed chamber full of steam stands at, Pa", head + 0.5 * flux * flux / rho, b.chamber.pressure, 2e-2,
              "head of the seal and what drives the flow");
}

/* One step, however long, never sweeps more out than there is. */
static void one_step(void **state)
{
    (void)state;
    for (double dt = 1; dt < 1e11; dt *= 100) {
        bare b;
        open_bare(&b, 0.05, 0);
        const heatup_chamber_step step = {
            .dt = dt, .steam = 2e-3, .enthalpy = 2680e3, .t_air = COLD, .site_pressure = SITE};
        const heatup_chamber_trial found = try_step(&b, &step);
        printf("a step of %g s: %.2f degC, %g kg of air\n", dt, found.t_end - KELVIN, found.air);
        assert_true(found.air >= 0 && found.air < b.chamber.air && found.vented >= 0);
        assert_true(found.t_end > COLD && found.t_end < fv_sat_t(b.sat, SITE + found.pressure, NULL) + 1e-6);
    }
}

/* ---- drying ---- */

/* K at which dry air at t_air leaves that has taken up all the water it can: adiabatic saturation. */
static double adiabatic_saturation(double t_air)
{
    double low = t_air - 40, high = t_air;
    while (high - low > 1e-9) {
        const double t = 0.5 * (low + high), c = t - KELVIN, p = 611.2 * exp(17.62 * c / (243.12 + c));
        const double taken = 0.62198 * p / (SITE - p) * (2501e3 - 2361 * c);
        if (CP_AIR * (t_air - t) > taken)
            low = t;
        else
            high = t;
    }
    return low;
}

/* A chamber with water in it through which dry air draws is colder than that air; when all has dried, as warm as it. */
static void dries_out(void **state)
{
    (void)state;
    bare b;
    open_bare(&b, 2e-3, 1);
    b.chamber.film = 0.5;
    heatup_chamber_step step = {.dt = 300, .enthalpy = 419e3, .t_air = COLD, .site_pressure = SITE};
    double least = COLD, film_least = 0;
    int steps = 0;
    for (; b.chamber.humidity == 1 && steps < 1000; steps++) {
        const heatup_chamber_trial found = try_step(&b, &step);
        assert_int_equal(heatup_chamber_advance(&b.chamber, &step, &found), FV_OK);
        least = fmin(least, b.chamber.t_end);
        film_least = fmin(film_least, b.chamber.film);
    }
    check_off("wet chamber in dry air of 15 degC: coldest, degC", adiabatic_saturation(COLD) - KELVIN, least - KELVIN,
              0.05, "adiabatic saturation; vapour pressure by Magnus, Sonntag (1990), from memory");
    assert_true(steps > 10 && film_least == 0);
    for (int i = 0; i < 200; i++) {
        const heatup_chamber_trial found = try_step(&b, &step);
        assert_int_equal(heatup_chamber_advance(&b.chamber, &step, &found), FV_OK);
    }
    check_off("dried out, an hour later, degC", COLD - KELVIN, b.chamber.t_end - KELVIN, 0.05, "as warm as the air");
}

/* A breath of steam in a draught does not wet it with water that is not there. */
static void little_steam_in_a_draught(void **state)
{
    (void)state;
    bare b;
    open_bare(&b, 2e-2, 1);
    fv_sat_at_t_point at;
    fv_sat_at_t(b.sat, COLD, &at);
    heatup_chamber_step step = {.dt = 600, .steam = 1e-6, .enthalpy = 2680e3, .t_air = COLD - 8, .site_pressure = SITE};
    double vented = 0, brought = 0, least = COLD;
    for (int i = 0; i < 50; i++) {
        const heatup_chamber_trial found = try_step(&b, &step);
        vented += found.vented * step.dt;
        brought += step.steam * step.dt;
        assert_int_equal(heatup_chamber_advance(&b.chamber, &step, &found), FV_OK);
        least = fmin(least, b.chamber.t_end);
    }
    /* superheated steam may take up what trickles by: no more than a fifth of itself */
    check_between("1 mg/s of steam in a draught: vapour that left, kg", 0, 1.2 * brought + at.rho_g, vented,
                  "what came and what was there");
    check_between("the same: coldest, degC", COLD - 8 - 0.05 - KELVIN, COLD - KELVIN, least - KELVIN,
                  "the air's 7 degC");
}

/* Steam alone in a chamber that loses nothing stays as it is: what lacks by rounding is no thirst. */
static void full_and_shut(void **state)
{
    (void)state;
    bare b;
    open_bare(&b, 1e-4, 0);
    heatup_chamber_step step = {.dt = 2000, .steam = 2e-3, .enthalpy = 2680e3, .t_air = COLD, .site_pressure = SITE};
    double most = 0, least = INFINITY;
    for (int i = 0; i < 400; i++) {
        if (i == 5)
            step = (heatup_chamber_step){.dt = 1, .enthalpy = 419e3, .t_air = COLD, .site_pressure = SITE};
        step.dt *= i > 5 ? 1.05 : 1;
        const heatup_chamber_trial found = try_step(&b, &step);
        assert_int_equal(heatup_chamber_advance(&b.chamber, &step, &found), FV_OK);
        most = fmax(most, b.chamber.t_end);
        least = i < 5 ? b.chamber.t_end : fmin(least, b.chamber.t_end);
    }
    check_between("full of steam, shut, loses nothing: degC", 99.9, 100.1, least - KELVIN, "nothing happens");
    check_between("the same, warmest: degC", 99.9, 100.2, most - KELVIN, "nothing happens");
    assert_true(b.chamber.humidity == 1);
}

/* What condenses below the front of a bed is kept from the chamber above by the cold bed between them. */
static void chamber_above_a_climbing_bed(void **state)
{
    (void)state;
    bench b;
    open_bench(&b, 6e3);
    b.plant->site.air = fv_given(3 + KELVIN);
    ideal(add_line(&b, FV_LINE_HOSE, "hose", "b0", "c", 3, 0.025));
    fv_vessel *v = add_vessel(&b, "bed", "c");
    v->load.form = fv_given(FV_FORM_BED);
    v->load.a = v->load.b = v->load.c = (fv_value){.v = NAN};
    v->load.medium = fv_given(FV_MEDIUM_PEAT);
    v->load.depth = fv_given(0.4);
    v->load.area = fv_given(2);
    v->load.count = (fv_value){.v = NAN};
    v->load.mass = fv_given(320);
    v->load.moisture = fv_given(0.55);
    v->load.start_temperature = fv_given(12 + KELVIN);
    v->volume = fv_given(2);
    add_opening(&b, v, FV_OPENING_VENT, 0.05, 0.9);
    b.options.every = 60;
    b.options.stop_at_core = true;
    go(&b);
    const fv_series *s = &b.result->series;
    double least = INFINITY;
    for (size_t k = 0; k < s->count; k++)
        least = fmin(least, s->chamber[k]);
    assert_true(b.result->vessels[0].core > 3600);
    check_between("chamber above a cold bed, air of 3 degC: coldest, degC", 3 - 0.01, 12, least - KELVIN,
                  "nothing evaporates there");
    close_bench(&b);
}

/* Off the line with an open coil under 50 mm of water: nothing comes in by it before the water is lifted. */
static void water_over_an_open_coil(void **state)
{
    (void)state;
    bare b;
    open_bare(&b, 1e-3, 0);
    steady_net_opening apart[3];
    b.chamber.apart = apart;
    b.chamber.depth = 0.05;
    b.vessel.coil_end = fv_given(FV_COIL_OPEN);
    b.vessel.lid = fv_given(FV_LID_ON);
    b.vessel.coil.holes = fv_given(20);
    b.vessel.coil.drill = fv_given(0.003);
    b.vessel.coil.bore = fv_given(0.025);
    b.vessel.coil.cd = fv_given(0.62);
    heatup_chamber_detach(&b.chamber);
    assert_int_equal(b.chamber.opening_count, 2);
    const double head = 960 * 9.80665 * 0.05;
    double by_p;
    check_dev("water over the holes seals the coil, Pa", head, apart[1].seal, 1e-9, "rho g h");
    assert_true(steady_opening_flow(&apart[1], SITE, 1.2, 0.6, 0.01 - head, &by_p) == 0);
    assert_true(steady_opening_flow(&apart[1], SITE, 1.2, 0.6, -head - 1, &by_p) < 0);
    const double holes = 0.62 * 20 * 3.14159265 / 4 * 9e-6, bore = 0.62 * 3.14159265 / 4 * 6.25e-4;
    check_dev("Cd A of holes and bore in series, m2", 1 / sqrt(1 / (holes * holes) + 1 / (bore * bore)),
              apart[1].cd_area, 1e-6, "by hand");
    b.chamber.depth = 0.02;
    heatup_chamber_cover_coil(&b.chamber);
    check_dev("the same when the water has sunk to 20 mm, Pa", 0.4 * head, apart[1].seal, 1e-9, "rho g h");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(well_mixed_chamber), cmocka_unit_test(one_step),
        cmocka_unit_test(purged_chamber),     cmocka_unit_test(air_that_leaves_first),
        cmocka_unit_test(sealed_opening),     cmocka_unit_test(water_over_an_open_coil),
        cmocka_unit_test(dries_out),          cmocka_unit_test(little_steam_in_a_draught),
        cmocka_unit_test(full_and_shut),      cmocka_unit_test(chamber_above_a_climbing_bed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
