/* SPDX-License-Identifier: MIT */
/* What a vessel needs, worked by hand: the mass of each form of load, ice that thaws, a shell, a wall that keeps heat
 * and loses it. */
#include "farvessel/heat.h"
#include "steady/plants.h"

#define SOURCE "by hand"
#define AIR 278.15       /* K, of the bench */
#define BOILING 373.1243 /* K at 1.01325 bar (IAPWS R7-97, region 4) */

static fv_vessel *only_vessel(bench *b)
{
    bench_open(b);
    b->plant->site.pressure = fv_given(101325.0);
    add_boiler(b, "boiler", "a", 20000.0, 20000.0);
    fv_vessel *v = add_vessel(b, "bin", "a", 24, 0.003);
    v->within = fv_given(7200.0);
    v->target = fv_given(363.15);
    v->load.medium = fv_given(FV_MEDIUM_WOOD);
    v->load.moisture = fv_given(0.5);
    v->load.density = fv_given(800.0);
    return v;
}

static fv_vessel_need need_of(bench *b, const fv_vessel *v)
{
    fv_vessel_need need;
    bench_link(b);
    assert_int_not_equal(fv_vessel_need_of(b->plant, v, b->sat, &need, b->faults), FV_FAIL);
    return need;
}

static void each_form_has_its_mass(void **state)
{
    (void)state;
    static const struct {
        const char *name;
        fv_form form;
        double volume, count;
    } forms[] = {{"block 10 x 20 x 30 cm", FV_FORM_BLOCK, 0.006, 10},
                 {"slab of 0.5 m2, 30 cm", FV_FORM_SLAB, 0.15, 10},
                 {"cylinder 20 cm across, 40 cm high", FV_FORM_CYLINDER, PI * 0.01 * 0.4, 10},
                 {"ball 20 cm across", FV_FORM_SPHERE, 4 * PI / 3 * 0.001, 10},
                 {"bed of 0.5 m2, 60 cm", FV_FORM_BED, 0.3, 1}};
    for (size_t i = 0; i < sizeof forms / sizeof forms[0]; i++) {
        bench b;
        fv_vessel *v = only_vessel(&b);
        v->load.form = fv_given(forms[i].form);
        v->load.a = fv_given(0.1);
        v->load.b = fv_given(0.2);
        v->load.c = fv_given(0.3);
        v->load.diameter = fv_given(0.2);
        v->load.height = fv_given(0.4);
        v->load.depth = fv_given(0.6);
        if (forms[i].form != FV_FORM_BLOCK)
            v->load.area = fv_given(0.5);
        v->load.count = fv_given(forms[i].count);
        check_row(forms[i].name, forms[i].volume, fv_load_piece_volume(&v->load), 1e-12, SOURCE);
        check_row("the same, mass, kg", 800.0 * forms[i].volume * forms[i].count, fv_load_mass(&v->load), 1e-12,
                  SOURCE);
        bench_close(&b);
    }
}

/* From -20 degC: the dry part and the ice are warmed, the ice melts, and the rest is as from 0 degC. */
static void ice_thaws(void **state)
{
    (void)state;
    double load[2], mass = 0;
    for (int frozen = 0; frozen < 2; frozen++) {
        bench b;
        fv_vessel *v = only_vessel(&b);
        v->load.start_temperature = fv_given(frozen ? 253.15 : 273.15);
        const fv_vessel_need need = need_of(&b, v);
        load[frozen] = need.load;
        mass = need.load_mass;
        check_row("need, W", (need.load + need.shell + need.walls) / 7200.0 + need.wall_loss, need.need, 1e-12,
                  "definition");
        bench_close(&b);
    }
    double c;
    fv_heat_specific_heat(FV_MEDIUM_WOOD, 0.5, 263.15, 0, &c);
    check_row("load from -20 degC, more heat than from 0 degC, J/kg", 20 * c + 0.5 * 333550.0,
              (load[1] - load[0]) / mass, 1e-9, "heat of fusion 333.55 kJ/kg (CRC Handbook; from memory)");
}

static void shell_and_wall(void **state)
{
    (void)state;
    bench b;
    fv_vessel *v = only_vessel(&b);
    v->shell.mass = fv_given(40.0);
    v->shell.specific_heat = fv_given(500.0);
    fv_wall *wall = fv_vessel_add_wall(b.plant, v, HERE);
    wall->area = fv_given(3.0);
    wall->inside = fv_given(100.0);
    wall->outside = fv_given(10.0);
    fv_wall_layer *layer = fv_wall_add_layer(b.plant, wall, HERE);
    layer->thickness = fv_given(0.04);
    layer->conductivity = fv_given(0.1);
    layer->density = fv_given(500.0);
    layer->specific_heat = fv_given(1500.0);
    const fv_vessel_need need = need_of(&b, v);
    const double rise = BOILING - AIR, flux = rise / (1 / 100.0 + 0.04 / 0.1 + 1 / 10.0);
    const double inner = rise - flux / 100.0, outer = flux / 10.0;
    check_row("shell of 40 kg, J", 40 * 500 * rise, need.shell, 1e-6, SOURCE);
    check_row("wall of 3 m2, loss, W", 3 * flux, need.wall_loss, 1e-6, "resistances in series");
    check_row("the same, heat that it keeps, J", 3 * 0.04 * 500 * 1500 * 0.5 * (inner + outer), need.walls, 1e-6,
              "straight fall from face to face");
    check_row("need, W", (need.load + need.shell + need.walls) / 7200.0 + 3 * flux, need.need, 1e-6, "definition");
    bench_close(&b);
}

/* A bed needs the steam that comes until its front is through: it leaves what it has passed at the boiling point. */
static void a_front_wants_more(void **state)
{
    (void)state;
    for (int even = 0; even < 2; even++) {
        bench b;
        fv_vessel *v = only_vessel(&b);
        v->load.form = fv_given(FV_FORM_BED);
        v->load.a = v->load.b = v->load.c = (fv_value){.v = NAN};
        v->load.depth = fv_given(0.6);
        v->load.area = fv_given(0.5);
        v->load.count = (fv_value){.v = NAN};
        v->load.front_factor = fv_given(even ? 1 : 1.5);
        const fv_vessel_need need = need_of(&b, v);
        double c;
        fv_heat_specific_heat(FV_MEDIUM_WOOD, 0.5, 0.5 * (AIR + BOILING), 0, &c);
        check_row(even ? "bed of 240 kg, need with an even front, W" : "bed of 240 kg, need, front factor 1.5, W",
                  (even ? 1 : 1.5) * 240 * c * (BOILING - AIR) / 7200, need.need, 1e-6, SOURCE);
        bench_close(&b);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(each_form_has_its_mass), cmocka_unit_test(ice_thaws),
                                       cmocka_unit_test(shell_and_wall), cmocka_unit_test(a_front_wants_more)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
