/* SPDX-License-Identifier: MIT */
/* The flow answer as JSON, as reference/flow.schema.json describes it. */
#include "report/flow/report.h"

#include <math.h>

static json_t *site(const fv_steady_result *state)
{
    return json_pack("{s:o, s:o, s:o, s:o}", "pressure_pa_absolute", print_json_number(state->site_pressure),
                     "boiling_point_k", print_json_number(state->boiling_point), "air_k",
                     print_json_number(state->t_air), "wind_m_s", print_json_number(state->wind));
}

static json_t *question(const fv_flow_answer *answer)
{
    const char *phase = answer->options.phase < 0 ? "as_given" : report_phase_word((fv_phase)answer->options.phase);
    return json_pack("{s:o, s:s, s:b}", "fire", print_json_number(answer->options.fire), "phase", phase, "turndown",
                     answer->options.turndown);
}

json_t *report_flow_audit(const report_frame *frame)
{
    const fv_audit *a = &((const fv_flow_answer *)frame->answer)->state->audit;
    return json_pack("{s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:i, s:b}", "mass_imbalance_kg_s",
                     print_json_number(a->mass_imbalance), "mass_relative", print_json_number(a->mass_relative),
                     "energy_imbalance_w", print_json_number(a->energy_imbalance), "energy_relative",
                     print_json_number(a->energy_relative), "steam_total_kg_s", print_json_number(a->steam_total),
                     "heat_total_w", print_json_number(a->heat_total), "pressure_residual_pa",
                     print_json_number(a->pressure_residual), "rounded_off", print_json_number(a->rounded_off), "mach",
                     print_json_number(a->mach), "iterations", a->iterations, "converged", a->converged);
}

static json_t *turndown_setting(const fv_flow_answer *answer, size_t setting)
{
    const fv_turndown_row *row = &answer->turndown[setting];
    const print_table *table = &report_flow_tables[FLOW_TURNDOWN];
    size_t vessels = answer->state->vessel_count;
    json_t *list = json_array();
    for (size_t v = 0; list && row->state && v < vessels; v++) {
        json_t *object = print_row_json(table, answer, setting * vessels + v);
        if (object) { /* these two stand once, for the setting */
            json_object_del(object, "fire");
            json_object_del(object, "output_w");
        }
        print_json_append(&list, object);
    }
    return json_pack("{s:o, s:b, s:o, s:o}", "fire", print_json_number(row->fire), "solved", row->state != NULL,
                     "output_w", print_json_number(row->state ? row->state->audit.heat_total : (double)NAN), "vessels",
                     list);
}

static json_t *turndown(const fv_flow_answer *answer)
{
    json_t *array = json_array();
    for (size_t i = 0; array && i < answer->turndown_count; i++) {
        print_json_append(&array, turndown_setting(answer, i));
    }
    return array;
}

static json_t *dropout(const fv_flow_answer *answer)
{
    if (answer->dropout_vessel < 0 || isnan(answer->dropout_fire))
        return json_null();
    return json_pack("{s:o, s:o, s:o}", "fire", print_json_number(answer->dropout_fire), "output_w",
                     print_json_number(answer->dropout_output), "vessel",
                     print_json_word(answer->plant->vessels[answer->dropout_vessel]->part.id));
}

static json_t *least_fire(const fv_flow_answer *answer)
{
    const fv_least_fire *hold = &answer->hold;
    const char *vessel = hold->vessel >= 0 ? answer->plant->vessels[hold->vessel]->part.id : NULL;
    return json_pack("{s:o, s:o, s:o}", "fire", print_json_number(hold->fire), "output_w",
                     print_json_number(hold->output), "vessel", vessel ? print_json_word(vessel) : json_null());
}

void report_flow_json(const report_frame *frame, json_t **root)
{
    const fv_flow_answer *answer = frame->answer;
    print_json_set(root, "question", question(answer));
    print_json_set(root, "site", site(answer->state));
    for (size_t i = 0; i < FLOW_TURNDOWN; i++)
        report_frame_table_json(frame, i, root);
    print_json_set(root, "turndown", turndown(answer));
    print_json_set(root, "dropout", dropout(answer));
    print_json_set(root, "least_fire", least_fire(answer));
}
