/* SPDX-License-Identifier: MIT */
/* The heat answer as JSON, as reference/heat.schema.json describes it. */
#include "print/cautions.h"
#include "report/heat/report.h"
#include "print/json.h"

#include <math.h>

static json_t *question(const report_heat *heat)
{
    const fv_heat_options *o = &heat->result->options;
    return json_pack("{s:o, s:o, s:o, s:o}", "start_s_after_midnight", report_json_number(heat->clock), "until_s",
                     report_json_number(o->until), "every_s", report_json_number(o->every), "fire",
                     report_json_number(o->fire));
}

static json_t *column(const double *matrix, size_t count, size_t width, size_t at)
{
    json_t *array = json_array();
    for (size_t i = 0; array && i < count; i++)
        report_json_append(&array, report_json_number(matrix[i * width + at]));
    return array;
}

static json_t *vessel_series(const fv_heat_result *r, size_t i)
{
    const fv_series *s = &r->series;
    size_t n = r->vessel_count;
    json_t *o = json_object();
    report_json_set(&o, "vessel", report_json_word(r->plant->vessels[i]->part.id));
    report_json_set(&o, "core_k", column(s->core, s->count, n, i));
    report_json_set(&o, "chamber_k", column(s->chamber, s->count, n, i));
    report_json_set(&o, "surface_k", column(s->surface, s->count, n, i));
    report_json_set(&o, "steam_kg_s", column(s->vessel_steam, s->count, n, i));
    report_json_set(&o, "air_share", column(s->air_share, s->count, n, i));
    report_json_set(&o, "pressure_pa_gauge", column(s->vessel_pressure, s->count, n, i));
    return o;
}

static json_t *boiler_series(const fv_heat_result *r, size_t i)
{
    const fv_series *s = &r->series;
    size_t n = r->boiler_count;
    json_t *o = json_object();
    report_json_set(&o, "boiler", report_json_word(r->plant->boilers[i]->part.id));
    report_json_set(&o, "steam_kg_s", column(s->boiler_steam, s->count, n, i));
    report_json_set(&o, "pressure_pa_gauge", column(s->boiler_pressure, s->count, n, i));
    report_json_set(&o, "fuel_w", column(s->boiler_fuel, s->count, n, i));
    return o;
}

static json_t *series(const fv_heat_result *r)
{
    json_t *root = json_object(), *vessels = json_array(), *boilers = json_array();
    for (size_t i = 0; vessels && i < r->vessel_count; i++)
        report_json_append(&vessels, vessel_series(r, i));
    for (size_t i = 0; boilers && i < r->boiler_count; i++)
        report_json_append(&boilers, boiler_series(r, i));
    report_json_set(&root, "time_s", column(r->series.time, r->series.count, 1, 0));
    report_json_set(&root, "demand_kg_s", column(r->series.demand, r->series.count, 1, 0));
    report_json_set(&root, "vessels", vessels);
    report_json_set(&root, "boilers", boilers);
    return root;
}

static json_t *audit(const fv_heat_audit *a)
{
    return json_pack("{s:o, s:o, s:o, s:o, s:o, s:I, s:I, s:I, s:I}", "supplied_j", report_json_number(a->supplied),
                     "accounted_j", report_json_number(a->accounted), "relative", report_json_number(a->relative),
                     "worst_mass_relative", report_json_number(a->worst_mass), "worst_energy_relative",
                     report_json_number(a->worst_energy), "steps", (json_int_t)a->steps, "repeated",
                     (json_int_t)a->repeated, "solves", (json_int_t)a->solves, "loose", (json_int_t)a->loose);
}

static json_t *notes(const report_heat *heat)
{
    report_notes list = {0};
    report_heat_notes(heat, &list);
    json_t *array = report_notes_json(&list);
    report_notes_free(&list);
    return array;
}

fv_status report_heat_json(const report_heat *heat, const fv_faults *remarks, fv_text *out)
{
    static const int tables[] = {HEAT_VESSELS, HEAT_BOILERS, HEAT_LINES, HEAT_HAPPENINGS, HEAT_SPLIT};
    const fv_heat_result *r = heat->result;
    fv_text sentence = {0};
    json_t *root = report_json_head("heat", r->plant);
    report_heat_sentence(heat, &sentence);
    report_json_set(&root, "answer", sentence.failed ? NULL : report_json_word(sentence.text));
    report_json_set(&root, "question", question(heat));
    report_json_set(&root, "boiling_point_k", report_json_number(r->boiling_point));
    report_json_set(&root, "end_s", report_json_number(r->end));
    report_json_set(&root, "steam_end_s", report_json_number(r->steam_end));
    report_json_set(&root, "wall_losses_j", report_json_number(r->split.wall_losses));
    for (size_t i = 0; i < sizeof tables / sizeof *tables; i++)
        report_json_set(&root, report_heat_tables[tables[i]].name,
                        report_table_json(&report_heat_tables[tables[i]], heat));
    report_json_set(&root, "series", series(r));
    report_json_set(&root, "notes", notes(heat));
    report_json_set(&root, "remarks", report_remarks_json(remarks));
    report_json_set(&root, "audit", audit(&r->audit));
    report_json_set(&root, "cautions", report_cautions_json(r->plant));
    fv_text_free(&sentence);
    return report_json_finish(root, out);
}
