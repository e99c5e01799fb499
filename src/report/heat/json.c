/* SPDX-License-Identifier: MIT */
/* The heat answer as JSON, as reference/heat.schema.json describes it. */
#include "report/heat/report.h"

static json_t *question(const report_heat *heat)
{
    const fv_heat_options *o = &heat->result->options;
    return json_pack("{s:o, s:o, s:o, s:o}", "start_s_after_midnight", print_json_number(heat->clock.start), "until_s",
                     print_json_number(o->until), "every_s", print_json_number(o->every), "fire",
                     print_json_number(o->fire));
}

static json_t *column(const double *matrix, size_t count, size_t width, size_t at)
{
    json_t *array = json_array();
    for (size_t i = 0; array && i < count; i++)
        print_json_append(&array, print_json_number(matrix[i * width + at]));
    return array;
}

static json_t *vessel_series(const fv_heat_result *r, size_t i)
{
    const fv_series *s = &r->series;
    size_t n = r->vessel_count;
    json_t *o = json_object();
    print_json_set(&o, "vessel", print_json_word(r->plant->vessels[i]->part.id));
    print_json_set(&o, "core_k", column(s->core, s->count, n, i));
    print_json_set(&o, "chamber_k", column(s->chamber, s->count, n, i));
    print_json_set(&o, "surface_k", column(s->surface, s->count, n, i));
    print_json_set(&o, "steam_kg_s", column(s->vessel_steam, s->count, n, i));
    print_json_set(&o, "air_share", column(s->air_share, s->count, n, i));
    print_json_set(&o, "pressure_pa_gauge", column(s->vessel_pressure, s->count, n, i));
    return o;
}

static json_t *boiler_series(const fv_heat_result *r, size_t i)
{
    const fv_series *s = &r->series;
    size_t n = r->boiler_count;
    json_t *o = json_object();
    print_json_set(&o, "boiler", print_json_word(r->plant->boilers[i]->part.id));
    print_json_set(&o, "steam_kg_s", column(s->boiler_steam, s->count, n, i));
    print_json_set(&o, "pressure_pa_gauge", column(s->boiler_pressure, s->count, n, i));
    print_json_set(&o, "fuel_w", column(s->boiler_fuel, s->count, n, i));
    return o;
}

static json_t *series(const fv_heat_result *r)
{
    json_t *root = json_object(), *vessels = json_array(), *boilers = json_array();
    for (size_t i = 0; vessels && i < r->vessel_count; i++)
        print_json_append(&vessels, vessel_series(r, i));
    for (size_t i = 0; boilers && i < r->boiler_count; i++)
        print_json_append(&boilers, boiler_series(r, i));
    print_json_set(&root, "time_s", column(r->series.time, r->series.count, 1, 0));
    print_json_set(&root, "demand_kg_s", column(r->series.demand, r->series.count, 1, 0));
    print_json_set(&root, "vessels", vessels);
    print_json_set(&root, "boilers", boilers);
    return root;
}

json_t *report_heat_audit(const report_frame *frame)
{
    const fv_heat_audit *a = &((const report_heat *)frame->answer)->result->audit;
    return json_pack("{s:o, s:o, s:o, s:o, s:o, s:I, s:I, s:I, s:I}", "supplied_j", print_json_number(a->supplied),
                     "accounted_j", print_json_number(a->accounted), "relative", print_json_number(a->relative),
                     "worst_mass_relative", print_json_number(a->worst_mass), "worst_energy_relative",
                     print_json_number(a->worst_energy), "steps", (json_int_t)a->steps, "repeated",
                     (json_int_t)a->repeated, "solves", (json_int_t)a->solves, "loose", (json_int_t)a->loose);
}

void report_heat_json(const report_frame *frame, json_t **root)
{
    static const size_t tables[] = {HEAT_VESSELS, HEAT_BOILERS, HEAT_LINES, HEAT_THERMOSTATS, HEAT_EVENTS, HEAT_SPLIT};
    const report_heat *heat = frame->answer;
    const fv_heat_result *r = heat->result;
    print_json_set(root, "question", question(heat));
    print_json_set(root, "boiling_point_k", print_json_number(r->boiling_point));
    print_json_set(root, "end_s", print_json_number(r->end));
    print_json_set(root, "steam_end_s", print_json_number(r->steam_end));
    print_json_set(root, "wall_losses_j", print_json_number(r->split.wall_losses));
    for (size_t i = 0; i < sizeof tables / sizeof *tables; i++)
        report_frame_table_json(frame, tables[i], root);
    if (heat->with_series)
        print_json_set(root, "series", series(r));
}
