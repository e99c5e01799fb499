/* SPDX-License-Identifier: MIT */
/* What any version must reproduce: equal shares, mirror images, limits of width, units that do not matter; and each
 * choice that the model makes, worked by hand: seals, water over holes, regain, openings, choking, a line that
 * condenses everything, boilers beside each other. */
#include "farvessel/flow.h"
#include "farvessel/plantfile.h"
#include "steady/plants.h"

#define SOURCE "by hand"

static void loses_nothing(bench *b)
{
    for (size_t i = 0; i < b->plant->line_count; i++)
        b->plant->lines[i]->heat_loss = fv_given(0.0);
}

/* ---- shares ---- */

static void identical_branches_share_equally(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    add_boiler(&b, "boiler", "a", 60000.0, 20000.0);
    add_line(&b, FV_LINE_HEADER, "main", "a", "t", 6.0, 0.05);
    enum { BRANCHES = 9 };
    for (int i = 0; i < BRANCHES; i++) {
        char end[16], hose[16], bin[16];
        name_of(end, sizeof end, "c", i);
        name_of(hose, sizeof hose, "s", i);
        name_of(bin, sizeof bin, "bin", i);
        add_line(&b, FV_LINE_HOSE, hose, "t", end, 4.0, 0.02);
        add_vessel(&b, bin, end, 24, 0.003);
    }
    bench_link(&b);
    bench_solve(&b);
    double worst = 0;
    for (int i = 0; i < BRANCHES; i++)
        worst = fmax(worst, fabs(b.result->vessels[i].share * BRANCHES - 1));
    check_row("nine identical branches, largest deviation of a share from 1/9", 0, worst, 1e-9, "symmetry");
    bench_close(&b);
}

static void mirrored_ring_flows_mirrored(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    add_boiler(&b, "boiler", "r0", 50000.0, 20000.0);
    enum { AROUND = 6 };
    static const double lengths[AROUND] = {3, 5, 4, 4, 5, 3};
    for (int i = 0; i < AROUND; i++) {
        char id[16], from[16], to[16];
        name_of(id, sizeof id, "m", i);
        name_of(from, sizeof from, "r", i);
        name_of(to, sizeof to, "r", (i + 1) % AROUND);
        add_line(&b, FV_LINE_HEADER, id, from, to, lengths[i], 0.03);
    }
    static const double hoses[AROUND] = {0, 3, 6, 2, 6, 3};
    for (int i = 1; i < AROUND; i++) {
        char id[16], from[16], to[16], bin[16];
        name_of(id, sizeof id, "s", i);
        name_of(from, sizeof from, "r", i);
        name_of(to, sizeof to, "c", i);
        name_of(bin, sizeof bin, "bin", i);
        add_line(&b, FV_LINE_HOSE, id, from, to, hoses[i], 0.02);
        add_vessel(&b, bin, to, 24, 0.003);
    }
    bench_link(&b);
    bench_solve(&b);
    const double all = b.result->audit.steam_total;
    double worst = 0;
    for (int i = 0; i < AROUND; i++)
        worst = fmax(worst, fabs(b.result->lines[i].flow_from + b.result->lines[AROUND - 1 - i].flow_to) / all);
    check_row("mirrored ring, largest difference of mirrored headers / all steam", 0, worst, 1e-9, "symmetry");
    worst = fmax(fabs(b.result->vessels[0].share - b.result->vessels[4].share),
                 fabs(b.result->vessels[1].share - b.result->vessels[3].share));
    check_row("mirrored ring, largest difference of mirrored shares", 0, worst, 1e-9, "symmetry");
    assert_true(b.result->lines[0].flow_from > 0.1 * all);
    bench_close(&b);
}

static void parallel_pipes_take_half_each(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    add_boiler(&b, "boiler", "a", 30000.0, 20000.0);
    add_line(&b, FV_LINE_PIPE, "one", "a", "t", 8.0, 0.025);
    add_line(&b, FV_LINE_PIPE, "two", "t", "a", 8.0, 0.025); // laid the other way round
    add_line(&b, FV_LINE_HOSE, "s", "t", "c", 3.0, 0.025);
    add_vessel(&b, "bin", "c", 24, 0.004);
    bench_link(&b);
    bench_solve(&b);
    const fv_line_result *line = b.result->lines;
    check_row("two equal pipes side by side, share of the first", 0.5, line[0].flow_from / b.result->boilers[0].steam,
              1e-9, "symmetry");
    check_row("one of them laid the other way round, flow of it / of the other", 1,
              -line[1].flow_to / line[0].flow_from, 1e-9, "symmetry");
    bench_close(&b);
}

static void without_losses_all_steam_arrives(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    add_boiler(&b, "boiler", "a", 40000.0, 20000.0);
    add_boiler(&b, "other", "t2", 15000.0, 20000.0);
    add_line(&b, FV_LINE_HEADER, "m1", "a", "t1", 8.0, 0.04);
    add_line(&b, FV_LINE_HEADER, "m2", "t1", "t2", 8.0, 0.03);
    add_line(&b, FV_LINE_HOSE, "s1", "t1", "c1", 8.0, 0.02);
    add_line(&b, FV_LINE_HOSE, "s2", "t2", "c2", 2.0, 0.02);
    loses_nothing(&b);
    add_vessel(&b, "near", "c1", 24, 0.003);
    add_vessel(&b, "far", "c2", 10, 0.004);
    bench_link(&b);
    bench_solve(&b);
    const double made = b.result->boilers[0].steam + b.result->boilers[1].steam,
                 arrives = b.result->vessels[0].steam + b.result->vessels[1].steam;
    check_row("no heat lost, steam that arrives / steam made", 1, arrives / made, 1e-12, "conservation");
    bench_close(&b);
}

/* Share of the far one of two equal vessels on a header. */
static double far_share(double header_bore, double holes)
{
    bench b;
    bench_open(&b);
    add_boiler(&b, "boiler", "a", 40000.0, 30000.0);
    add_line(&b, FV_LINE_HEADER, "m1", "a", "t1", 2.0, header_bore);
    add_line(&b, FV_LINE_HEADER, "m2", "t1", "t2", 15.0, header_bore);
    add_line(&b, FV_LINE_HOSE, "s1", "t1", "c1", 3.0, 0.025);
    add_line(&b, FV_LINE_HOSE, "s2", "t2", "c2", 3.0, 0.025);
    loses_nothing(&b);
    add_vessel(&b, "near", "c1", holes, 0.003);
    add_vessel(&b, "far", "c2", holes, 0.003);
    bench_link(&b);
    bench_solve(&b);
    const double share = b.result->vessels[1].share;
    bench_close(&b);
    return share;
}

static void wide_header_shares_equally(void **state)
{
    (void)state;
    static const double bores[] = {0.02, 0.03, 0.05, 0.1, 0.3, 1.0};
    double before = 0;
    for (size_t i = 0; i < sizeof bores / sizeof bores[0]; i++) {
        const double share = far_share(bores[i], 24);
        assert_true(share > before && share < 0.5);
        before = share;
    }
    check_row("header of 1 m bore, share of the far one of two", 0.5, before, 1e-6, "limit");
}

static void large_holes_on_thin_header_starve_the_far(void **state)
{
    (void)state;
    double before = 0.5;
    for (double holes = 4; holes <= 128; holes *= 2) {
        const double share = far_share(0.025, holes);
        assert_true(share < before);
        before = share;
    }
    assert_true(before < 0.4);
}

/* ---- units and direction ---- */

/* The same plant, lengths and pressures in SI or in inches and psi. */
static void plant_text(fv_text *text, bool imperial)
{
    const double inch = imperial ? 0.0254 : 1, psi = imperial ? 6894.757293168361 : 1;
    const char *m = imperial ? "in" : "m", *pa = imperial ? "psi" : "Pa";
    fv_text_add(text, "<network xmlns=\"urn:farvessel:network:1\"><site pressure=\"%.17g %s\" air=\"8 degC\"/>",
                96000 / psi, pa);
    fv_text_add(text,
                "<boiler id=\"boiler\" at=\"a\" output=\"24 kW\" holds=\"%.17g %s\" relief=\"%.17g %s\" loss=\"0 W\" "
                "dryness=\"100 %%\"/>",
                20000 / psi, pa, 50000 / psi, pa);
    fv_text_add(text,
                "<header id=\"m1\" from=\"a\" to=\"t\" length=\"%.17g %s\" bore=\"%.17g %s\" lagging=\"%.17g %s\"/>",
                6 / inch, m, 0.041 / inch, m, 0.025 / inch, m);
    for (int i = 1; i <= 2; i++) {
        fv_text_add(text, "<hose id=\"s%d\" from=\"t\" to=\"c%d\" length=\"%.17g %s\" bore=\"%.17g %s\" ", i, i,
                    4.0 * i / inch, m, 0.02 / inch, m);
        fv_text_add(text, "wall=\"%.17g %s\" roughness=\"%.17g %s\" rise=\"%.17g %s\" sag=\"%.17g %s\">", 0.005 / inch,
                    m, 2e-5 / inch, m, 0.7 / inch, m, 0.04 * i / inch, m);
        fv_text_add(text, "<barb bore=\"%.17g %s\" length=\"%.17g %s\"/></hose>", 0.016 / inch, m, 0.03 / inch, m);
    }
    for (int i = 1; i <= 2; i++) {
        fv_text_add(text, "<vessel id=\"bin%d\" at=\"c%d\" volume=\"1 m3\" water=\"%.17g %s\">", i, i, 0.02 / inch, m);
        fv_text_add(text,
                    "<coil bore=\"%.17g %s\" wall=\"%.17g %s\" length=\"%.17g %s\" holes=\"24\" drill=\"%.17g %s\"/>",
                    0.022 / inch, m, 0.002 / inch, m, 1.5 / inch, m, 0.003 / inch, m);
        fv_text_add(text, "<load form=\"block\" a=\"0.1 m\" b=\"0.1 m\" c=\"0.2 m\" count=\"40\" mass=\"60 kg\"/>");
        fv_text_add(text, "<drain diameter=\"%.17g %s\"/></vessel>", 0.04 / inch, m);
    }
    fv_text_add(text, "</network>");
}

static fv_flow_answer *flow_of_text(bool imperial, fv_plant **plant)
{
    fv_text text = {0};
    plant_text(&text, imperial);
    fv_faults *faults = fv_faults_new();
    *plant = fv_plantfile_read_memory(text.text, text.length, "plant.xml", NULL, faults);
    fv_flow_options options;
    fv_flow_defaults(&options);
    options.turndown = false;
    fv_flow_answer *answer = *plant ? fv_flow_answer_new(*plant, &options, NULL, faults) : NULL;
    for (size_t i = 0; !answer && i < fv_faults_count(faults); i++)
        printf("fault: %s\n", fv_faults_at(faults, i)->text);
    assert_non_null(answer);
    fv_text_free(&text);
    fv_faults_free(faults);
    return answer;
}

static void inches_and_psi_give_the_same(void **state)
{
    (void)state;
    fv_plant *plants[2];
    fv_flow_answer *si = flow_of_text(false, &plants[0]), *imperial = flow_of_text(true, &plants[1]);
    double worst = fabs(imperial->state->boilers[0].pressure / si->state->boilers[0].pressure - 1);
    for (int i = 0; i < 2; i++)
        worst = fmax(worst, fabs(imperial->state->vessels[i].steam / si->state->vessels[i].steam - 1));
    for (size_t i = 0; i < si->state->line_count; i++)
        worst = fmax(worst, fabs(imperial->state->lines[i].drop / si->state->lines[i].drop - 1));
    check_row("inches and psi for metres and Pa, largest relative change", 0, worst, 1e-9, "scale");
    assert_true(si->state->vessels[1].steam > 0);
    fv_flow_answer_free(si);
    fv_flow_answer_free(imperial);
    fv_plant_free(plants[0]);
    fv_plant_free(plants[1]);
}

/* A plant at 2 bar with its line end for end or not; what comes in and out. */
static void flows_at_two_bar(bool turned, double sag, double *enters, double *leaves)
{
    bench b;
    bench_open(&b);
    b.plant->site.pressure = fv_given(SEA);
    add_boiler(&b, "boiler", "a", 60000.0, 200000.0 - SEA);
    fv_line *line = add_line(&b, FV_LINE_PIPE, "main", turned ? "c" : "a", turned ? "a" : "c", 20.0, 0.02);
    line->rise = fv_given(turned ? -1.5 : 1.5);
    line->k = fv_given(3.0);
    line->sag = fv_given(sag);
    add_vessel(&b, "bin", "c", 24, 0.003);
    bench_link(&b);
    b.chambers[0].pressure = 90000.0;
    bench_solve(&b);
    const fv_line_result *r = &b.result->lines[0];
    assert_int_equal(b.result->boilers[0].state, FV_BOILER_HOLDING);
    *enters = turned ? -r->flow_to : r->flow_from;
    *leaves = turned ? -r->flow_from : r->flow_to;
    bench_close(&b);
}

static void line_end_for_end_gives_the_same(void **state)
{
    (void)state;
    for (int i = 0; i < 2; i++) {
        double enters, leaves, turned_enters, turned_leaves;
        flows_at_two_bar(false, 0.1 * i, &enters, &leaves);
        flows_at_two_bar(true, 0.1 * i, &turned_enters, &turned_leaves);
        assert_true(leaves > 1e-3 && enters > leaves);
        check_row(i ? "line with a sag end for end at 2 bar, flow into it" : "line end for end at 2 bar, flow into it",
                  enters, turned_enters, 1e-12, "symmetry");
        check_row(i ? "line with a sag end for end at 2 bar, flow out of it"
                    : "line end for end at 2 bar, flow out of it",
                  leaves, turned_leaves, 1e-12, "symmetry");
    }
}

/* ---- seals and water ---- */

/* A boiler, a bin beside it and a bin behind a hose with a sag: little fire blocks the sag, more lets it bubble. */
static void sag_blocks_then_bubbles(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    const double depth = 0.3;
    add_boiler(&b, "boiler", "a", 60000.0, 30000.0);
    add_line(&b, FV_LINE_HOSE, "low", "a", "c1", 6.0, 0.02)->sag = fv_given(depth);
    add_line(&b, FV_LINE_HOSE, "level", "a", "c2", 6.0, 0.02);
    add_vessel(&b, "behind", "c1", 24, 0.003);
    add_vessel(&b, "beside", "c2", 24, 0.003);
    bench_link(&b);
    const fv_line_result *line = &b.result->lines[0];
    int blocked = 0, open = 0;
    for (int i = 4; i <= 40; i++) {
        b.fire[0] = 0.025 * i;
        bench_solve(&b);
        fv_sat_point mean;
        fv_sat_at(b.sat, b.result->site_pressure + 0.5 * (line->pressure_from + line->pressure_to), &mean);
        const double head = mean.rho_f * GRAVITY * depth, all = b.result->boilers[0].steam;
        assert_true(line->flow_to > -1e-9 * all && line->drop_sag > 0 && line->drop_sag < head * (1 + 1e-9));
        const double passes = line->flow_to / all, missing = 1 - line->drop_sag / head;
        assert_true(fmin(passes, missing) < 1e-9);
        assert_true(line->blocked == (passes < 1e-9));
        blocked += line->blocked;
        open += passes > 1e-3;
        if (line->blocked) {
            assert_true(line->flow_from > 0 && fabs(line->flow_from / line->condensate - 1) < 1e-6);
            assert_true(fabs(b.result->vessels[0].share) < 1e-9);
        } else {
            const double rest = line->drop - head;
            assert_true(fabs(line->drop_friction + line->drop_fittings + line->drop_speed - rest) < 1e-6 * head);
        }
    }
    printf("check | sag of 0.3 m while the fire grows: blocked | 0 < m perpendicular to missing head | %d blocked, %d "
           "open | | " SOURCE "\n",
           blocked, open);
    assert_true(blocked > 3 && open > 3);
    bench_close(&b);
}

/* With one way out the steam must bubble through: the whole head is lost beside friction. */
static void sag_before_the_only_vessel_bubbles(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    b.plant->site.pressure = fv_given(SEA);
    add_boiler(&b, "boiler", "a", 2000.0, 30000.0);
    fv_line *hose = add_line(&b, FV_LINE_HOSE, "low", "a", "c", 1.0, 0.05);
    hose->sag = fv_given(0.3);
    hose->heat_loss = fv_given(0.0);
    add_vessel(&b, "behind", "c", 60, 0.004);
    bench_link(&b);
    bench_solve(&b);
    check_row("sag of 0.3 m before the only vessel, pressure lost, Pa", 958.0 * GRAVITY * 0.3, b.result->lines[0].drop,
              1e-3, "rho_f g h, 958.0 kg/m3 at 1.03 bar: IAPWS R7-97(2012)");
    check_row("the same, steam that comes / made", 1, b.result->vessels[0].steam / b.result->boilers[0].steam, 1e-9,
              "conservation");
    bench_close(&b);
}

/* Water over holes: its head is lost; where the pressure does not reach it nothing comes back. */
static void water_over_holes(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    b.plant->site.pressure = fv_given(SEA);
    add_boiler(&b, "boiler", "a", 20000.0, 30000.0);
    fv_vessel *wet = add_vessel(&b, "wet", "a", 24, 0.003);
    wet->water = fv_given(0.2);
    add_vessel(&b, "dry", "a", 24, 0.003);
    bench_link(&b);
    bench_solve(&b);
    const fv_hole_result *hole = b.result->holes;
    check_row("0.2 m of water over a hole, pressure it takes, Pa", 958.37 * GRAVITY * 0.2, hole->pressure - hole->drop,
              1e-5, "rho_f g h, 958.37 kg/m3 at 1.01325 bar: IAPWS R7-97(2012)");
    assert_true(hole->flow > 0);
    b.fire[0] = 0.1;
    bench_solve(&b);
    assert_true(b.result->vessels[0].coil_pressure < 958.37 * GRAVITY * 0.2);
    check_row("pressure below the water's head, share of the wet vessel", 0, b.result->vessels[0].share, 1e-9, SOURCE);
    bench_close(&b);
}

/* ---- coils and holes ---- */

/* No friction and r = 0.5: behind the last hole the pressure is the inlet's and its whole velocity head. */
static void regain_recovers_the_velocity_head(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    add_boiler(&b, "boiler", "a", 30000.0, 20.0);
    fv_coil *coil = &add_vessel(&b, "bin", "a", 5, 0.008)->coil;
    coil->friction = coil->entry = fv_given(0.0);
    coil->regain = fv_given(0.5);
    coil->cd = fv_given(0.62);
    bench_link(&b);
    bench_solve(&b);
    const fv_vessel_result *v = &b.result->vessels[0];
    const fv_hole_result *last = &b.result->holes[4];
    const double area = circle(0.022), rho = fv_sat_rho_g(b.sat, b.result->site_pressure + 20, NULL);
    const double head = 0.5 * pow(v->steam / area, 2) / rho, before_last = 0.5 * pow(last->flow / area, 2) / rho;
    check_row("coil without friction, pressure behind the last hole less the inlet's, velocity heads", 1,
              (last->pressure + 0.5 * before_last - v->coil_pressure) / head, 1e-4, "Bernoulli");
    bench_close(&b);
}

/* Behind a narrow entry the steam is fast and its pressure below the chamber's; towards the end it is recovered. The
 * first hole then draws steam in from the chamber, with the same Cd. */
static void hole_draws_in(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    add_boiler(&b, "boiler", "a", 5000.0, 30000.0);
    fv_vessel *v = add_vessel(&b, "bin", "a", 6, 0.003);
    v->coil.holes = v->coil.drill = (fv_value){0};
    v->coil.cd = fv_given(0.62);
    v->coil.bore = fv_given(0.02);
    v->coil.entry = fv_given(1.0);
    v->coil.friction = fv_given(0.0);
    v->coil.regain = fv_given(0.5);
    for (int i = 0; i < 6; i++) {
        fv_hole *hole = fv_vessel_add_hole(b.plant, v, HERE);
        hole->at = fv_given(i ? 1.0 + 0.02 * i : 0.1);
        hole->drill = fv_given(i ? 0.014 : 0.003);
    }
    bench_link(&b);
    bench_solve(&b);
    const fv_hole_result *first = &b.result->holes[0];
    assert_true(first->pressure < -0.1 && first->flow < 0 && b.result->vessels[0].steam > 0);
    double y2, slope;
    bool choked;
    const double site = b.result->site_pressure, x = -first->pressure / site;
    assert_int_equal(fv_flow_expansibility2(x, FV_EXPONENT_SATURATED, &y2, &slope, &choked), FV_OK);
    const double flow = -0.62 * circle(0.003) * sqrt(2 * fv_sat_rho_g(b.sat, site, NULL) * site * x * y2);
    /* So small a flow feels a little that smaller ones creep. */
    check_row("coil below its chamber's pressure, flow through the hole there, kg/s", flow, first->flow, 1e-4, SOURCE);
    assert_true(b.result->vessels[0].evenness < 0);
    bench_close(&b);
}

/* Of two vessels at one point the upper chamber, cold, has the higher pressure: its coil gives nothing back. */
static void cold_chamber_gives_nothing_back(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    add_boiler(&b, "boiler", "a", 5000.0, 30000.0);
    add_vessel(&b, "high", "a", 24, 0.003);
    add_vessel(&b, "low", "a", 24, 0.003);
    bench_link(&b);
    b.chambers[0].pressure = 3000.0;
    bench_solve(&b);
    check_row("cold chamber above the coil's pressure, what it gives, kg/s", 0, b.result->vessels[0].steam, 1e-12,
              SOURCE);
    bench_close(&b);
}

/* A wide coil at `gauge`, sea level. */
static bool hole_chokes(double gauge)
{
    bench b;
    bench_open(&b);
    b.plant->site.pressure = fv_given(SEA);
    add_boiler(&b, "boiler", "a", 100000.0, gauge);
    fv_coil *coil = &add_vessel(&b, "bin", "a", 1, 0.003)->coil;
    coil->bore = fv_given(0.1);
    coil->entry = coil->regain = fv_given(0.0);
    bench_link(&b);
    bench_solve(&b);
    const bool choked = b.result->holes[0].choked;
    bench_close(&b);
    return choked;
}

static void hole_chokes_at_0_742_bar(void **state)
{
    (void)state;
    double low = 60000, high = 90000;
    for (int i = 0; i < 12; i++) {
        const double mean = 0.5 * (low + high);
        *(hole_chokes(mean) ? &high : &low) = mean;
    }
    check_row("gauge pressure at which a hole chokes at sea level, bar", 0.742, 0.5 * (low + high) / 1e5, 1e-3,
              "critical ratio of exponent 1.135");
}

/* Flow of a short pipe from 1 bar gauge into a vessel whose holes hold little back. */
static double short_pipe_flow(double drill, bool *choked)
{
    bench b;
    bench_open(&b);
    b.plant->site.pressure = fv_given(SEA);
    add_boiler(&b, "boiler", "a", 1e6, 1e5);
    fv_line *line = add_line(&b, FV_LINE_PIPE, "main", "a", "c", 0.5, 0.03);
    line->friction = fv_given(0.02);
    line->heat_loss = fv_given(0.0);
    fv_coil *coil = &add_vessel(&b, "bin", "c", 8, drill)->coil;
    coil->bore = fv_given(0.3);
    bench_link(&b);
    bench_solve(&b);
    *choked = b.result->lines[0].choked;
    const double flow = b.result->vessels[0].steam;
    bench_close(&b);
    return flow;
}

/* Choked flow by hand: the end's pressure at which G^2 = rho^2/(d rho/dp) and the line's equation agree. */
static void line_chokes(void **state)
{
    (void)state;
    const fv_sat *sat = fv_sat_line();
    const double p = SEA + 1e5, rho = fv_sat_rho_g(sat, p, NULL), n = 0.02 * 0.5 / (2 * 0.03);
    double low = 0.2 * p, high = p, flux = NAN;
    for (int i = 0; i < 80; i++) {
        const double end = 0.5 * (low + high);
        double slope;
        const double rho_end = fv_sat_rho_g(sat, end, &slope);
        flux = rho_end / sqrt(slope);
        const double over = flux * flux * (n + log(rho / rho_end)) - fv_sat_phi_step(sat, end, p - end);
        *(over > 0 ? &high : &low) = end;
    }
    bool choked, wider_choked;
    const double flow = short_pipe_flow(0.05, &choked), wider = short_pipe_flow(0.1, &wider_choked);
    assert_true(choked && wider_choked);
    check_row("choked pipe from 1 bar gauge, kg/s", flux * circle(0.03), flow, 1e-9, SOURCE);
    check_row("the same with larger holes beyond it, flow / before", 1, wider / flow, 1e-9, "choked");
}

/* ---- lines ---- */

/* 2 kW into 50 m that could lose 100 W from each: steam comes 2 kW's worth far. */
static void line_that_condenses_everything(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    b.plant->site.pressure = fv_given(SEA);
    add_boiler(&b, "boiler", "a", 2000.0, 30000.0)->feed = fv_given(373.15);
    fv_line *line = add_line(&b, FV_LINE_HOSE, "long", "a", "c", 50.0, 0.02);
    line->heat_loss = fv_given(100.0);
    line->friction = fv_given(0.02);
    line->condensate = fv_given(FV_CONDENSATE_DRIP); // entrained water would load it
    add_vessel(&b, "bin", "c", 24, 0.003);
    bench_link(&b);
    bench_solve(&b);
    const fv_line_result *r = &b.result->lines[0];
    const double made = b.result->boilers[0].steam, rho = fv_sat_rho_g(b.sat, SEA + 0.5 * r->pressure_from, NULL);
    assert_true(r->condenses_all && !r->blocked);
    check_row("line that condenses all, steam out of it / into it", 0, r->flow_to / made, 1e-9, SOURCE);
    check_row("line that condenses all, condensate / steam made", 1, r->condensate / made, 1e-9, SOURCE);
    check_row("line that condenses all, length that steam reaches, m", 20.0, r->wet_length, 1e-3,
              "2 kW / 100 W/m, fed at 100 degC");
    check_row("line that condenses all, pressure drop, Pa",
              0.02 * r->wet_length / (2 * 0.02) * pow(0.5 * made / circle(0.02), 2) / rho, r->drop, 1e-2,
              "friction of the mean flow over that length");
    check_row("line that condenses all, pressure at its end, Pa", 0, r->pressure_to, 1e-6, "the node beyond");
    bench_close(&b);
}

/* Steam is lighter than air: up 10 m its gauge pressure grows. */
static void column_of_steam(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    b.plant->site.pressure = fv_given(SEA);
    add_boiler(&b, "boiler", "a", 1000.0, 30000.0);
    fv_line *line = add_line(&b, FV_LINE_PIPE, "riser", "a", "c", 10.0, 0.2);
    line->rise = fv_given(10.0);
    line->heat_loss = fv_given(0.0);
    add_vessel(&b, "bin", "c", 24, 0.004);
    bench_link(&b);
    bench_solve(&b);
    check_row("riser of 10 m, drop, Pa", (0.5976 - SEA / (287.05 * 278.15)) * GRAVITY * 10, b.result->lines[0].drop,
              1e-3, "columns of steam, 0.5976 kg/m3, and of dry air, R 287.05 J/kg/K, at 5 degC");
    bench_close(&b);
}

/* A ring that could condense three times what the boiler makes runs dry; its far joints then stand at the pressure of
 * the vessel's chamber less the columns between, of air outside and of steam inside. */
static void dry_ring_rests_below_its_vessel(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    b.plant->site.pressure = fv_given(SEA);
    add_boiler(&b, "boiler", "a", 600.0, 30000.0);
    static const struct {
        const char *id, *from, *to;
        double rise;
    } ring[] = {{"m1", "a", "n1", 2.0}, {"m2", "n1", "n2", 1.5}, {"m3", "n2", "a", -3.5}};
    for (int i = 0; i < 3; i++) {
        fv_line *line = add_line(&b, FV_LINE_HEADER, ring[i].id, ring[i].from, ring[i].to, 10.0, 0.03);
        line->rise = fv_given(ring[i].rise);
        line->heat_loss = fv_given(60.0);
    }
    fv_line *up = add_line(&b, FV_LINE_HOSE, "up", "n2", "c", 6.0, 0.02);
    up->rise = fv_given(5.0);
    up->heat_loss = fv_given(60.0);
    add_vessel(&b, "bin", "c", 24, 0.004);
    bench_link(&b);
    bench_solve(&b);
    double condensed = 0;
    for (size_t i = 0; i < b.result->line_count; i++)
        condensed += b.result->lines[i].condensate;
    check_row("ring that runs dry, condensate / steam made", 1, condensed / b.result->boilers[0].steam, 1e-9, SOURCE);
    check_row("the same, steam of its vessel", 0, b.result->vessels[0].steam, 1e-12, SOURCE);
    const double column = (SEA / (287.05 * 278.15) - 0.5976) * GRAVITY;
    static const char *const names[] = {"n1", "n2"};
    static const double below[] = {6.5, 5.0};
    for (int i = 0; i < 2; i++) {
        size_t node = 0;
        while (strcmp(b.plant->nodes[node], names[i]) != 0)
            node++;
        check_row(i ? "joint of it 5 m below the chamber, Pa" : "joint of it 6.5 m below the chamber, Pa",
                  -column * below[i], b.result->nodes[node].pressure, 2e-3,
                  "columns of steam, 0.5976 kg/m3, and of dry air, R 287.05 J/kg/K, at 5 degC");
    }
    bench_close(&b);
}

/* A ring whose one way round has a belly deeper than the other way's drop: all that condenses in it comes from the side
 * of the higher pressure, nothing leaves, and the water takes what friction does not; laid either way round. Its water
 * gives way where the other way's drop is larger. */
static void seal_in_a_ring_laid_either_way(void **state)
{
    (void)state;
    double taken[2], passed[2];
    for (int turned = 0; turned < 2; turned++)
        for (int deep = 0; deep < 2; deep++) {
            bench b;
            bench_open(&b);
            add_boiler(&b, "boiler", "a", 30000.0, 20000.0);
            add_line(&b, FV_LINE_PIPE, "open", "a", "b", 6.0, 0.025);
            fv_line *line = add_line(&b, FV_LINE_HOSE, "belly", turned ? "b" : "a", turned ? "a" : "b", 6.0, 0.02);
            line->heat_loss = fv_given(80.0);
            line->sag = fv_given(deep ? 0.5 : 0.02);
            add_line(&b, FV_LINE_HOSE, "s", "b", "c", 2.0, 0.03);
            add_vessel(&b, "bin", "c", 24, 0.004);
            bench_link(&b);
            bench_solve(&b);
            const fv_line_result *r = &b.result->lines[1];
            const double in = turned ? -r->flow_to : r->flow_from, out = turned ? -r->flow_from : r->flow_to;
            const double made = b.result->boilers[0].steam, sign = turned ? -1 : 1;
            assert_true(r->condensate > 0 && sign * r->drop > 0);
            check_row("belly in a ring, what enters less what leaves and condenses / steam made", 0,
                      (in - out - r->condensate) / made, 1e-9, "conservation");
            if (deep) {
                check_row("deep belly in a ring, what leaves it / steam made", 0, out / made, 1e-9, SOURCE);
                assert_true(r->blocked && sign * r->drop_sag < 958.3 * GRAVITY * 0.5);
                taken[turned] = sign * r->drop_sag;
            } else {
                /* water at 100 degC 958.3 kg/m3 (steam tables, from memory) */
                check_row("shallow belly in a ring, head of its water, Pa", 958.3 * GRAVITY * 0.02, sign * r->drop_sag,
                          5e-3, SOURCE);
                assert_true(out > 0 && !r->blocked);
                passed[turned] = out / made;
            }
            bench_close(&b);
        }
    check_row("deep belly in a ring turned round, head of its water / as before", 1, taken[1] / taken[0], 1e-9,
              "symmetry");
    check_row("shallow belly in a ring turned round, what leaves / as before", 1, passed[1] / passed[0], 1e-9,
              "symmetry");
}

/* ---- openings ---- */

/* Outward: the isentropic hole with the chamber's density. Inward: air. */
static double opening_by_hand(double diameter, double z, double p, double rho_air, double rho)
{
    const double dp = p + (rho_air - rho) * GRAVITY * z;
    double y2 = 1, slope;
    bool choked;
    if (dp <= 0)
        return -0.62 * circle(diameter) * sqrt(-2 * rho_air * dp);
    fv_flow_expansibility2(dp / (SEA + dp), FV_EXPONENT_SATURATED, &y2, &slope, &choked);
    return 0.62 * circle(diameter) * sqrt(2 * rho * dp * y2);
}

static void openings(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    b.plant->site.pressure = fv_given(SEA);
    add_boiler(&b, "boiler", "a", 20000.0, 30000.0);
    fv_vessel *v = add_vessel(&b, "bin", "a", 24, 0.004);
    v->openings[0]->height = fv_given(1.2); // the vent of 50 mm
    fv_opening *drain = fv_vessel_add_opening(b.plant, v, FV_OPENING_DRAIN, HERE);
    drain->diameter = fv_given(0.03);
    drain->height = fv_given(-0.2);
    bench_link(&b);
    const double rho = 0.7, rho_air = SEA / (287.05287 * 278.15);
    for (int takes_all = 0; takes_all < 2; takes_all++) {
        b.chambers[0] =
            (fv_chamber){.kind = FV_CHAMBER_VENTED, .condenses = takes_all ? 0.1 : 0.002, .gain = 1, .density = rho};
        bench_solve(&b);
        const fv_vessel_result *r = &b.result->vessels[0];
        const double wanted = takes_all ? 0 : r->steam - 0.002;
        double low = -1000, high = 1000, vent = NAN, out = NAN;
        for (int i = 0; i < 100; i++) {
            const double p = 0.5 * (low + high);
            vent = opening_by_hand(0.05, 1.2, p, rho_air, rho);
            out = opening_by_hand(0.03, -0.2, p, rho_air, rho);
            *(vent + out > wanted ? &high : &low) = p;
        }
        check_row(takes_all ? "chamber that takes all, its pressure at the coil, Pa"
                            : "chamber that vents the excess, its pressure at the coil, Pa",
                  low, r->chamber_pressure, 1e-5, SOURCE);
        check_row(takes_all ? "the same, out of the vent by buoyancy, kg/s" : "the same, out of the openings, kg/s",
                  vent + fmax(out, 0), r->vented, 1e-5, SOURCE);
        check_row("the same, air into the drain, kg/s", fmax(-out, 0), r->air_drawn_in, 1e-5, SOURCE);
        assert_true((out < 0) == (takes_all == 1));
    }
    bench_close(&b);
}

/* ---- boilers ---- */

static void boiler_pressed_shut_by_another(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    add_boiler(&b, "holds", "a", 90000.0, 8000.0);
    add_boiler(&b, "pressed", "a", 30000.0, 5000.0);
    add_line(&b, FV_LINE_HEADER, "main", "a", "t", 5.0, 0.05);
    add_vessel(&b, "bin", "t", 24, 0.003);
    bench_link(&b);
    bench_solve(&b);
    const fv_boiler_result *r = b.result->boilers;
    assert_int_equal(r[0].state, FV_BOILER_HOLDING);
    assert_int_equal(r[1].state, FV_BOILER_BLOCKED);
    assert_false(r[0].shares_by_size);
    check_row("holding boiler, pressure, Pa", 8000, r[0].pressure, 1e-9, SOURCE);
    check_row("boiler pressed shut by it, kg/s", 0, r[1].steam, 1e-12, SOURCE);
    bench_close(&b);
}

static void boilers_full_holding_and_off(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    add_boiler(&b, "holds", "a", 90000.0, 8000.0);
    add_boiler(&b, "gives", "t", 4000.0, 12000.0);
    add_boiler(&b, "cold", "t", 30000.0, 12000.0)->fire = fv_given(0.0);
    add_line(&b, FV_LINE_HEADER, "main", "a", "t", 5.0, 0.05);
    add_vessel(&b, "bin", "t", 24, 0.003);
    bench_link(&b);
    bench_solve(&b);
    const fv_boiler_result *r = b.result->boilers;
    assert_int_equal(r[0].state, FV_BOILER_HOLDING);
    assert_int_equal(r[1].state, FV_BOILER_FULL);
    assert_int_equal(r[2].state, FV_BOILER_OFF);
    assert_true(r[0].steam > 0 && r[0].steam < r[0].most && r[1].pressure < 12000.0);
    check_row("full boiler, steam / the most it can make", 1, r[1].steam / r[1].most, 1e-12, SOURCE);
    check_row("boiler without fire, kg/s", 0, r[2].steam, 1e-12, SOURCE);
    bench_close(&b);
}

static void holding_boilers_share_by_size(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    add_boiler(&b, "small", "a", 20000.0, 5000.0);
    add_boiler(&b, "large", "a", 60000.0, 5000.0);
    add_vessel(&b, "bin", "a", 12, 0.003);
    bench_link(&b);
    bench_solve(&b);
    const fv_boiler_result *r = b.result->boilers;
    assert_true(r[0].shares_by_size && r[1].shares_by_size);
    assert_int_equal(r[0].state, FV_BOILER_HOLDING);
    check_row("two holding boilers of 20 and 60 kW, steam of the large / of the small", 3, r[1].steam / r[0].steam,
              1e-9, "by size");
    check_row("the same, both / what the vessel gets", 1, (r[0].steam + r[1].steam) / b.result->vessels[0].steam, 1e-9,
              "conservation");
    bench_close(&b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(identical_branches_share_equally),
        cmocka_unit_test(mirrored_ring_flows_mirrored),
        cmocka_unit_test(parallel_pipes_take_half_each),
        cmocka_unit_test(without_losses_all_steam_arrives),
        cmocka_unit_test(wide_header_shares_equally),
        cmocka_unit_test(large_holes_on_thin_header_starve_the_far),
        cmocka_unit_test(inches_and_psi_give_the_same),
        cmocka_unit_test(line_end_for_end_gives_the_same),
        cmocka_unit_test(sag_blocks_then_bubbles),
        cmocka_unit_test(sag_before_the_only_vessel_bubbles),
        cmocka_unit_test(water_over_holes),
        cmocka_unit_test(regain_recovers_the_velocity_head),
        cmocka_unit_test(hole_draws_in),
        cmocka_unit_test(cold_chamber_gives_nothing_back),
        cmocka_unit_test(hole_chokes_at_0_742_bar),
        cmocka_unit_test(line_chokes),
        cmocka_unit_test(line_that_condenses_everything),
        cmocka_unit_test(column_of_steam),
        cmocka_unit_test(dry_ring_rests_below_its_vessel),
        cmocka_unit_test(seal_in_a_ring_laid_either_way),
        cmocka_unit_test(openings),
        cmocka_unit_test(boiler_pressed_shut_by_another),
        cmocka_unit_test(boilers_full_holding_and_off),
        cmocka_unit_test(holding_boilers_share_by_size),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
