/* SPDX-License-Identifier: MIT */
/* Plants for the tests of the run: a boiler, a header, equal branches, built in a few calls; and the run itself. */
#ifndef TESTS_HEATUP_RUN_PLANTS_H
#define TESTS_HEATUP_RUN_PLANTS_H

#include "checks.h"

#include "farvessel/heat.h"
#include "farvessel/heatup.h"

static const fv_loc HERE = {"plant.xml", 1};

/* A plant on its way: `open` it, change what the test is about, `go`, look, `close`. */
typedef struct {
    fv_plant *plant;
    fv_faults *faults;
    fv_boiler *boiler;
    fv_heat_options options;
    fv_heat_result *result;
} bench;

static inline const char *name_of(bench *b, const char *text)
{
    return fv_arena_copy(b->plant->arena, text);
}

static inline const char *numbered(bench *b, const char *text, int i)
{
    return fv_arena_printf(b->plant->arena, "%s%d", text, i);
}

static inline fv_boiler *add_boiler(bench *b, const char *id, const char *at, double output)
{
    fv_boiler *boiler = fv_plant_add_boiler(b->plant, name_of(b, id), HERE);
    boiler->at = name_of(b, at);
    boiler->output = fv_given(output);
    boiler->holds = fv_given(20000);
    boiler->relief = fv_given(50000);
    boiler->water = fv_given(0.02);
    boiler->steel = fv_given(30);
    boiler->loss = fv_given(0);
    boiler->dryness = fv_given(1);
    return boiler;
}

/* A boiler `boiler` at b0; the site's air at 15 degC, no wind, water boils at 100.00 degC. */
static inline void open_bench(bench *b, double output)
{
    *b = (bench){.plant = fv_plant_new("plant.xml"), .faults = fv_faults_new()};
    assert_non_null(b->plant);
    assert_non_null(b->faults);
    b->plant->site.pressure = fv_given(101418);
    b->plant->site.air = fv_given(15 + KELVIN);
    b->plant->site.wind = fv_given(0);
    b->plant->site.tees = fv_given(FV_TEES_NONE);
    b->boiler = add_boiler(b, "boiler", "b0", output);
    fv_heat_defaults(&b->options);
}

static inline fv_line *add_line(bench *b, fv_line_kind kind, const char *id, const char *from, const char *to,
                                double length, double bore)
{
    fv_line *line = fv_plant_add_line(b->plant, kind, name_of(b, id), HERE);
    line->from = name_of(b, from);
    line->to = name_of(b, to);
    line->length = fv_given(length);
    line->bore = fv_given(bore);
    return line;
}

/* It loses nothing and takes no heat to warm. */
static inline fv_line *ideal(fv_line *line)
{
    line->heat_loss = fv_given(0);
    line->heat_capacity = fv_given(0);
    return line;
}

static inline fv_opening *add_opening(bench *b, fv_vessel *v, fv_opening_kind kind, double diameter, double height)
{
    fv_opening *o = fv_vessel_add_opening(b->plant, v, kind, HERE);
    o->diameter = fv_given(diameter);
    o->height = fv_given(height);
    return o;
}

/* 1 m3 with a coil, 50 blocks of 2.3 kg, a drain; no walls, no shell. */
static inline fv_vessel *add_vessel(bench *b, const char *id, const char *at)
{
    fv_vessel *v = fv_plant_add_vessel(b->plant, name_of(b, id), false, HERE);
    v->at = name_of(b, at);
    v->coil.bore = fv_given(0.027);
    v->coil.length = fv_given(1.5);
    v->coil.holes = fv_given(24);
    v->coil.drill = fv_given(0.004);
    v->load.a = v->load.b = fv_given(0.13);
    v->load.c = fv_given(0.2);
    v->load.count = fv_given(50);
    v->load.mass = fv_given(50 * 2.3);
    v->load.packing = fv_given(FV_PACKING_LOOSE);
    add_opening(b, v, FV_OPENING_DRAIN, 0.03, 0);
    return v;
}

/* One layer, U x area W/K in all, that stores next to nothing or as given. */
static inline fv_wall *add_wall(bench *b, fv_vessel *v, double area, double thickness, double conductivity,
                                double density, double specific_heat, double outside)
{
    fv_wall *w = fv_vessel_add_wall(b->plant, v, HERE);
    fv_wall_layer *layer = fv_wall_add_layer(b->plant, w, HERE);
    w->area = fv_given(area);
    w->outside = fv_given(outside);
    layer->thickness = fv_given(thickness);
    layer->conductivity = fv_given(conductivity);
    layer->density = fv_given(density);
    layer->specific_heat = fv_given(specific_heat);
    return w;
}

/* n equal vessels bin0, bin1 .. on hoses hose0 .. from the boiler's own joint. */
static inline void add_star(bench *b, int n)
{
    for (int i = 0; i < n; i++) {
        add_line(b, FV_LINE_HOSE, numbered(b, "hose", i), "b0", numbered(b, "c", i), 3, 0.025);
        add_vessel(b, numbered(b, "bin", i), numbered(b, "c", i));
    }
}

static inline fv_action *add_action(bench *b, double at, const char *after)
{
    fv_action *a = fv_plant_add_action(b->plant, HERE);
    if (after)
        a->after = name_of(b, after);
    else
        a->at = fv_given(at);
    return a;
}

static inline void act_on(bench *b, fv_action *a, const char *vessel, fv_vessel_act act)
{
    a->vessel = name_of(b, vessel);
    a->act = fv_given(act);
}

static inline void say_faults(const bench *b)
{
    for (size_t i = 0; i < fv_faults_count(b->faults); i++)
        printf("%s: %s\n", fv_faults_at(b->faults, i)->caution ? "caution" : "error", fv_faults_at(b->faults, i)->text);
}

static inline const fv_heat_result *go(bench *b)
{
    if (fv_plant_link(b->plant, b->faults) == FV_FAIL)
        say_faults(b);
    assert_int_equal(fv_faults_errors(b->faults), 0);
    fv_heat_free(b->result);
    b->result = fv_heat_run(b->plant, &b->options, NULL, b->faults);
    if (!b->result)
        say_faults(b);
    assert_non_null(b->result);
    printf("books closed to %.1e, network to %.1e kg/kg, %.1e J/J; %zu loose\n", b->result->audit.relative,
           b->result->audit.worst_mass, b->result->audit.worst_energy, b->result->audit.loose);
    assert_true(b->result->audit.worst_mass < 1e-9 && b->result->audit.worst_energy < 1e-9);
    assert_true(b->result->audit.relative < 1e-6);
    return b->result;
}

static inline void close_bench(bench *b)
{
    fv_heat_free(b->result);
    fv_plant_free(b->plant);
    fv_faults_free(b->faults);
}

/* h from steam on to core. */
static inline double took(const fv_heat_result *r, size_t vessel)
{
    return (r->vessels[vessel].core - r->vessels[vessel].steam_on) / 3600;
}

/* The first event of a kind about a vessel (or boiler, where vessel is -1); NULL: none. */
static inline const fv_heat_event *event(const fv_heat_result *r, fv_heat_event_kind kind, int vessel)
{
    for (size_t i = 0; i < r->event_count; i++)
        if (r->events[i].kind == kind && r->events[i].vessel == vessel)
            return &r->events[i];
    return NULL;
}

static inline void one_vessel(bench *b, double output)
{
    open_bench(b, output);
    ideal(add_line(b, FV_LINE_HOSE, "hose", "b0", "c", 3, 0.025));
    add_vessel(b, "bin", "c");
}

static inline void make_bed(bench *b, double mass)
{
    fv_vessel *v = b->plant->vessels[0];
    v->load.form = fv_given(FV_FORM_BED);
    v->load.a = v->load.b = v->load.c = (fv_value){.v = NAN};
    v->load.medium = fv_given(FV_MEDIUM_PEAT);
    v->load.depth = fv_given(0.5);
    v->load.area = fv_given(1);
    v->load.count = (fv_value){.v = NAN};
    v->load.mass = fv_given(mass);
    v->load.takes_condensate = fv_given(1);
    v->load.front_factor = fv_given(1);
    v->hold = fv_given(1800);
}

#endif
