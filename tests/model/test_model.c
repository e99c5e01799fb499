/* SPDX-License-Identifier: MIT */
/* Building, linking, copying, finding and setting; kinds; the checks of meaning. */
#include "farvessel/change.h"
#include "farvessel/flow.h"
#include "farvessel/model.h"

#include <math.h>
#include <setjmp.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

static fv_loc at(int line)
{
    return (fv_loc){"plant.xml", line};
}

/* One boiler, a header, two hoses, two vessels like one kind. */
static fv_plant *small_plant(void)
{
    fv_plant *p = fv_plant_new("plant.xml");
    assert_non_null(p);
    fv_boiler *b = fv_plant_add_boiler(p, "b1", at(2));
    b->at = "b0";
    b->output = fv_given(24e3);
    b->relief = fv_given(5e4);
    fv_line *h = fv_plant_add_line(p, FV_LINE_HEADER, "h1", at(3));
    h->from = "b0";
    h->to = "t1";
    h->length = fv_given(2.5);
    h->bore = fv_given(0.04);
    for (int i = 0; i < 2; i++) {
        fv_line *s = fv_plant_add_line(p, FV_LINE_HOSE, i ? "s2" : "s1", at(4 + i));
        s->from = "t1";
        s->to = i ? "c2" : "c1";
        s->length = fv_given(3.0);
        s->bore = fv_given(0.025);
    }
    fv_vessel *k = fv_plant_add_vessel(p, "bin", true, at(6));
    k->volume = fv_given(1.5);
    k->coil.bore = fv_given(0.027);
    k->coil.length = fv_given(3.0);
    k->coil.holes = fv_given(30.0);
    k->coil.drill = fv_given(0.0025);
    k->load.a = k->load.b = fv_given(0.13);
    k->load.c = fv_given(0.2);
    k->load.count = fv_given(200.0);
    fv_vessel_add_opening(p, k, FV_OPENING_DRAIN, at(7))->diameter = fv_given(0.025);
    fv_wall *w = fv_vessel_add_wall(p, k, at(8));
    w->area = fv_given(6.0);
    fv_wall_layer *l = fv_wall_add_layer(p, w, at(9));
    l->material = "plywood";
    l->thickness = fv_given(0.018);
    for (int i = 0; i < 2; i++) {
        fv_vessel *v = fv_plant_add_vessel(p, i ? "bin2" : "bin1", false, at(10 + i));
        v->part.like = "bin";
        v->at = i ? "c2" : "c1";
    }
    return p;
}

static bool said(const fv_faults *faults, int line, const char *text)
{
    for (size_t i = 0; i < fv_faults_count(faults); i++) {
        const fv_fault *f = fv_faults_at(faults, i);
        if (f->line == line && strstr(f->text, text))
            return true;
    }
    for (size_t i = 0; i < fv_faults_count(faults); i++)
        printf("have: %d: %s\n", fv_faults_at(faults, i)->line, fv_faults_at(faults, i)->text);
    return false;
}

/* Links, expects failure with this message at this line and exactly one error, and frees. */
static void refused(fv_plant *p, int line, const char *text)
{
    fv_faults *faults = fv_faults_new();
    assert_int_equal(fv_plant_link(p, faults), FV_FAIL);
    assert_true(said(faults, line, text));
    if (fv_faults_errors(faults) != 1)
        (void)said(faults, -1, "");
    assert_int_equal(fv_faults_errors(faults), 1);
    fv_faults_free(faults);
    fv_plant_free(p);
}

static void linked(fv_plant *p)
{
    fv_faults *faults = fv_faults_new();
    if (fv_plant_link(p, faults) != FV_OK)
        (void)said(faults, -1, "");
    assert_int_equal(fv_faults_errors(faults), 0);
    fv_faults_free(faults);
}

static fv_status set(fv_plant *plant, const char *path, const char *attribute, double si, fv_faults *faults)
{
    fv_setting setting = {.path = path, .attribute = attribute, .si = si};
    return fv_change_apply(&(fv_change){.settings = &setting, .count = 1}, plant, faults);
}

static void links_and_takes_kinds(void **state)
{
    (void)state;
    fv_plant *p = small_plant();
    linked(p);
    fv_vessel *v = p->vessels[1];
    assert_true(v->coil.drill.v == 0.0025 && v->coil.drill.origin == FV_KIND);
    assert_true(v->target.v == 368.15 && v->target.origin == FV_ASSUMED);
    assert_int_equal(v->opening_count, 1);
    assert_true(v->openings[0] != p->kinds[0]->openings[0]);
    assert_string_equal(v->walls[0]->layers[0]->material, "plywood");
    assert_true(v->walls[0]->layers[0]->conductivity.v == 0.13);
    assert_int_equal(p->node_count, 4);
    assert_string_equal(p->nodes[0], "b0");
    assert_int_equal(v->node, p->lines[2]->node_to);
    assert_true(fabs(p->boilers[0]->water.v - 0.06) < 1e-12 && p->boilers[0]->water.origin == FV_ASSUMED);
    linked(p); /* again: nothing may pile up */
    assert_int_equal(v->opening_count, 1);
    assert_int_equal(v->wall_count, 1);
    fv_plant_free(p);
}

static void settings_reach_through_kinds(void **state)
{
    (void)state;
    fv_plant *p = small_plant();
    linked(p);
    fv_faults *faults = fv_faults_new();
    assert_int_equal(set(p, "bin.coil", "drill", 0.002, faults), FV_OK);
    assert_true(p->vessels[0]->coil.drill.v == 0.002 && p->vessels[0]->coil.drill.origin == FV_KIND);
    assert_int_equal(set(p, "bin2.coil", "drill", 0.0015, faults), FV_OK);
    assert_true(p->vessels[0]->coil.drill.v == 0.002);
    assert_true(p->vessels[1]->coil.drill.v == 0.0015 && p->vessels[1]->coil.drill.origin == FV_SETTING);
    assert_int_equal(set(p, "bin.wall1.layer1", "thickness", 0.03, faults), FV_OK);
    assert_true(p->vessels[1]->walls[0]->layers[0]->thickness.v == 0.03);
    assert_int_equal(set(p, "bin1.drain", "diameter", 0.04, faults), FV_OK);
    assert_true(p->vessels[0]->openings[0]->diameter.v == 0.04);
    assert_true(p->vessels[1]->openings[0]->diameter.v == 0.025);
    assert_int_equal(set(p, "bin1.load", "mass", 300.0, faults), FV_OK);
    assert_false(fv_is_set(p->vessels[0]->load.count)); /* the kind's count gives way */
    assert_int_equal(set(p, "bin1.lod", "mass", 300.0, faults), FV_FAIL);
    assert_int_equal(set(p, "bin1", "mas", 300.0, faults), FV_FAIL);
    assert_int_equal(set(p, "s1", "bore", 3.0, faults), FV_FAIL);
    assert_true(said(faults, 0, "hose 's1': bore is 3 m; it must be between 1 mm and 1 m"));
    fv_faults_free(faults);
    fv_plant_free(p);
}

static void copies_are_apart(void **state)
{
    (void)state;
    fv_plant *p = small_plant();
    linked(p);
    fv_plant *q = fv_plant_copy(p);
    assert_non_null(q);
    linked(q);
    fv_faults *faults = fv_faults_new();
    assert_int_equal(set(q, "bin", "volume", 2.0, faults), FV_OK);
    assert_true(p->vessels[0]->volume.v == 1.5 && q->vessels[0]->volume.v == 2.0);
    fv_plant_free(p);
    assert_string_equal(q->vessels[1]->part.id, "bin2"); /* outlives what it was copied from */
    assert_string_equal(q->nodes[1], "t1");
    assert_int_equal(set(q, "bin2.wall", "area", 7.0, faults), FV_OK);
    fv_plant *r = fv_plant_copy(q);
    fv_plant_free(q);
    assert_true(r->vessels[1]->walls[0]->area.v == 7.0);
    assert_non_null(fv_vessel_add_wall(r, r->vessels[1], at(99))); /* lists of a copy can grow */
    fv_plant_free(r);
    fv_faults_free(faults);
}

static void names_are_checked(void **state)
{
    (void)state;
    fv_plant *p = small_plant();
    p->vessels[1]->part.like = "bun";
    p->vessels[1]->coil = p->kinds[0]->coil;
    fv_vessel_add_opening(p, p->vessels[1], FV_OPENING_VENT, at(11))->area = fv_given(1e-3);
    refused(p, 11, "vessel 'bin2' is like 'bun', but nothing has that id; did you mean 'bin'?");
    p = small_plant();
    p->vessels[1]->part.id = "bin1";
    refused(p, 11, "vessel 'bin1': the id is taken already, by the vessel in line 10");
    p = small_plant();
    p->kinds[0]->part.like = "bin1";
    fv_faults *faults = fv_faults_new();
    assert_int_equal(fv_plant_link(p, faults), FV_FAIL);
    assert_true(said(faults, 6, "a circle") || said(faults, 10, "a circle"));
    fv_faults_free(faults);
    fv_plant_free(p);
}

static void the_graph_is_checked(void **state)
{
    (void)state;
    fv_plant *p = small_plant();
    p->vessels[1]->at = "c3";
    fv_faults *faults = fv_faults_new();
    assert_int_equal(fv_plant_link(p, faults), FV_FAIL);
    assert_true(said(faults, 11, "vessel 'bin2': no line ends at its joint 'c3'; did you mean 'c1'?"));
    assert_true(said(faults, 5, "hose 's2' leads nowhere"));
    assert_int_equal(fv_faults_errors(faults), 2);
    fv_faults_free(faults);
    fv_plant_free(p);

    p = small_plant();
    fv_line *ring = fv_plant_add_line(p, FV_LINE_HEADER, "h2", at(12));
    ring->from = "t1";
    ring->to = "b0";
    ring->length = fv_given(3.0);
    ring->bore = fv_given(0.04);
    ring->rise = fv_given(-0.3);
    p->lines[0]->rise = fv_given(0.3);
    linked(p);
    p->lines[0]->rise = fv_given(0.5);
    refused(p, 12, "header 'h2' closes a loop, but the rises around it leave 200 mm over");

    p = small_plant();
    fv_tee *tee = fv_plant_add_tee(p, at(13));
    tee->at = "t1";
    tee->main = "h1";
    tee->run = "s1";
    tee->branch = "s2";
    linked(p);
    tee->branch = "s1";
    refused(p, 13, "names a line twice");
}

static void vessels_are_checked(void **state)
{
    (void)state;
    fv_plant *p = small_plant();
    p->kinds[0]->openings[0]->kind = FV_OPENING_GAP;
    refused(p, 6, "kind 'bin', which vessel 'bin1' is like: has no open vent or drain");
    p = small_plant();
    p->kinds[0]->coil.spacing = fv_given(0.11);
    refused(p, 6, "the last of 30 holes would be at 3245 mm, beyond the coil's 3 m");
    p = small_plant();
    p->kinds[0]->load.count = fv_given(2000.0);
    refused(p, 6, "kind 'bin', which vessel 'bin1' is like: its load takes 6760 L, but the volume is 1.5 m3");
    p = small_plant();
    p->kinds[0]->load.count = fv_given(2000.0);
    p->vessels[0]->load.mass = fv_given(20.0);
    p->vessels[1]->load.mass = fv_given(20.0);
    linked(p); /* a mass of its own takes the place of the kind's count */
    p->vessels[1]->load.mass = fv_given(5000.0);
    p->vessels[1]->load.density = fv_given(700.0);
    refused(p, 11, "vessel 'bin2': its load takes 7142.86 L, but the volume is 1.5 m3");
}

/* 10 balls of 20 cm at 1000 kg/m3 are 41.9 kg (pi/6 d^3); cylinders as wide and high 62.8 kg (pi/4). */
static void volumes_of_pieces(void **state)
{
    (void)state;
    static const struct {
        fv_form form;
        double mass;
        bool fits;
    } rows[] = {{FV_FORM_SPHERE, 41.888, true},   {FV_FORM_SPHERE, 83.8, false},   {FV_FORM_SPHERE, 62.8, false},
                {FV_FORM_CYLINDER, 62.832, true}, {FV_FORM_CYLINDER, 41.9, false}, {FV_FORM_CYLINDER, 125.7, false}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        fv_plant *p = small_plant();
        fv_load *load = &p->kinds[0]->load;
        load->form = fv_given(rows[i].form);
        load->diameter = fv_given(0.2);
        if (rows[i].form == FV_FORM_CYLINDER)
            load->height = fv_given(0.2);
        load->a = load->b = load->c = (fv_value){.v = NAN};
        load->count = fv_given(10);
        load->density = fv_given(1000);
        load->mass = fv_given(rows[i].mass);
        fv_faults *faults = fv_faults_new();
        assert_int_equal(fv_plant_link(p, faults) != FV_FAIL, rows[i].fits);
        assert_true(rows[i].fits || said(faults, 6, "leave one of them out"));
        fv_faults_free(faults);
        fv_plant_free(p);
    }
}

/* 30 holes of 4.5 mm in 27 mm: 30 x 20.25 / 729 = 0.83 of the bore's area; clogged by half 0.42, as good as even. */
static void clogged_holes_do_not_count(void **state)
{
    (void)state;
    for (int clogged = 0; clogged < 2; clogged++) {
        fv_plant *p = small_plant();
        p->kinds[0]->coil.drill = fv_given(0.0045);
        p->kinds[0]->coil.clogged = fv_given(0.5 * clogged);
        fv_faults *faults = fv_faults_new();
        assert_int_not_equal(fv_plant_link(p, faults), FV_FAIL);
        assert_true(clogged ? fv_faults_count(faults) == 0 : said(faults, 6, "add up to 0.83 times the bore's area"));
        fv_faults_free(faults);
        fv_plant_free(p);
    }
}

static void tables_agree(void **state)
{
    (void)state;
    size_t count;
    const fv_element *all = fv_schema(&count);
    for (size_t i = 0; i < count; i++) {
        assert_true(all[i].attr_count <= 31); /* bits of texts_from_kind */
        assert_ptr_equal(fv_element_find(all[i].name), &all[i]);
        for (size_t j = 0; j < all[i].attr_count; j++) {
            const fv_attr *a = &all[i].attrs[j];
            assert_ptr_equal(fv_attr_find(&all[i], a->name), a);
            assert_true(strlen(a->doc) > 4);
            assert_true((a->words != NULL) == (a->dim == FV_DIM_WORD));
            assert_false(a->fallback < a->least || a->fallback > a->most);
            assert_false(a->low < a->least || a->high > a->most);
            assert_true(a->offset + sizeof(char *) <= all[i].size);
        }
    }
    /* The curve numbers of this floor's list are those of the floor that uses them. */
    assert_int_equal(fv_fitting_find("globe-valve")->curve, FV_VALVE_LINEAR);
    assert_int_equal(fv_fitting_find("butterfly-valve")->curve, FV_VALVE_EQUAL_PERCENT);
    assert_int_equal(fv_fitting_find("gate-valve")->curve, FV_VALVE_QUICK);
    assert_int_equal(fv_fitting_find("ball-valve")->curve, FV_VALVE_BALL);
    /* What the rows say of the default materials is what the list says. */
    fv_plant *p = small_plant();
    for (size_t i = 0; i < 2; i++) {
        const fv_line *line = p->lines[i];
        assert_true(line->wall_conductivity.v == fv_line_material(line)->conductivity);
        assert_true(line->roughness.v == fv_line_material(line)->roughness);
        assert_true(line->lagging_conductivity.v == fv_material_find("mineral-wool")->conductivity);
    }
    fv_plant_free(p);
}

static void words_are_found(void **state)
{
    (void)state;
    char buffer[32];
    assert_int_equal(fv_word_find("with|back|drip", "with"), 0);
    assert_int_equal(fv_word_find("with|back|drip", "drip"), 2);
    assert_int_equal(fv_word_find("with|back|drip", "dri"), -1);
    assert_string_equal(fv_word_at("with|back|drip", 1, buffer, sizeof buffer), "back");
}

static void events_are_found(void **state)
{
    (void)state;
    fv_plant *p = small_plant();
    int index;
    assert_int_equal(fv_plant_event(p, "bin2 core", &index), FV_EVENT_CORE);
    assert_int_equal(index, 1);
    assert_int_equal(fv_plant_event(p, "b1 steam", &index), FV_EVENT_STEAM);
    assert_int_equal(index, 0);
    assert_int_equal(fv_plant_event(p, "b1 core", &index), FV_EVENT_NONE);
    assert_int_equal(fv_plant_event(p, "core", &index), FV_EVENT_NONE);
    assert_int_equal(fv_plant_event(p, "last core", &index), FV_EVENT_CORE);
    assert_int_equal(index, -1);
    assert_int_equal(fv_plant_event(p, "last steam", &index), FV_EVENT_NONE);
    p->vessels[0]->start_after = "bin2 core";
    p->vessels[1]->start_after = "bin1 hold";
    refused(p, 10, "comes round to the vessel itself");
}

/* What follows from where the plant stands, what a boiler burns and how large it is; and that it goes on following. */
static void defaults_follow(void **state)
{
    (void)state;
    fv_plant *p = small_plant();
    fv_weather *row = fv_plant_add_weather(p, at(20));
    row->at = fv_given(0);
    row->air = fv_given(280);
    fv_faults *faults = fv_faults_new();
    assert_int_equal(fv_plant_link(p, faults), FV_OK);
    const fv_vessel *v = p->vessels[0];
    assert_true(p->site.wind.v == 1.5 && row->wind.v == 1.5);
    assert_true(p->boilers[0]->loss.v == 0.03 * 24e3 && p->boilers[0]->dryness.v == 0.97);
    assert_true(p->boilers[0]->efficiency.v == 0.8 && fv_vessel_wind(&p->site, v, 4) == 4);
    p->boilers[0]->fuel = fv_given(FV_FUEL_WOOD);
    p->boilers[0]->output = fv_given(10e3);
    p->site.stands = fv_given(FV_INDOORS);
    p->kinds[0]->stands = fv_given(FV_OUTDOORS);
    assert_int_equal(fv_plant_link(p, faults), FV_OK);
    assert_true(p->site.wind.v == 0 && row->wind.v == 0);
    assert_true(p->boilers[0]->loss.v == 300 && p->boilers[0]->efficiency.v == 0.6);
    assert_true(fv_vessel_wind(&p->site, v, 0) == 1.5);
    p->site.stands = fv_given(FV_OUTDOORS);
    p->site.wind = fv_given(3);
    assert_int_equal(fv_plant_link(p, faults), FV_OK);
    assert_true(row->wind.v == 3 && fv_vessel_wind(&p->site, v, 3) == 3);
    p->kinds[0]->stands = fv_given(FV_INDOORS);
    assert_int_equal(fv_plant_link(p, faults), FV_OK);
    assert_true(fv_vessel_wind(&p->site, v, 3) == 0);
    fv_plant_free(p);
    fv_faults_free(faults);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(defaults_follow),
        cmocka_unit_test(links_and_takes_kinds),
        cmocka_unit_test(settings_reach_through_kinds),
        cmocka_unit_test(copies_are_apart),
        cmocka_unit_test(names_are_checked),
        cmocka_unit_test(the_graph_is_checked),
        cmocka_unit_test(vessels_are_checked),
        cmocka_unit_test(volumes_of_pieces),
        cmocka_unit_test(clogged_holes_do_not_count),
        cmocka_unit_test(tables_agree),
        cmocka_unit_test(words_are_found),
        cmocka_unit_test(events_are_found),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
