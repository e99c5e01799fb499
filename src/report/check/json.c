/* SPDX-License-Identifier: MIT */
/* The check answer as JSON, as reference/check.schema.json describes it. */
#include "report/check/report.h"

static json_t *totals(const fv_check_answer *a)
{
    const fv_plant *plant = a->plant;
    json_t *counts = json_pack("{s:I, s:I, s:I, s:I}", "boilers", (json_int_t)plant->boiler_count, "vessels",
                               (json_int_t)plant->vessel_count, "lines", (json_int_t)plant->line_count, "joints",
                               (json_int_t)plant->node_count);
    print_json_set(&counts, "boiler_output_w", print_json_number(a->boiler_output));
    print_json_set(&counts, "line_length_m", print_json_number(a->line_length));
    print_json_set(&counts, "hole_area_m2", print_json_number(a->hole_area));
    print_json_set(&counts, "load_mass_kg", print_json_number(a->load_mass));
    print_json_set(&counts, "need_w", print_json_number(a->need));
    return counts;
}

void report_check_json(const report_frame *frame, json_t **root)
{
    const report_check *check = frame->answer;
    const fv_check_answer *a = check->answer;
    print_json_set(root, "totals", totals(a));
    print_json_set(root, "site",
                   json_pack("{s:o, s:o}", "pressure_pa_absolute", print_json_number(a->site_pressure),
                             "boiling_point_k", print_json_number(a->boiling_point)));
    for (size_t i = 0; i < CHECK_TABLES; i++)
        report_frame_table_json(frame, i, root);
}
