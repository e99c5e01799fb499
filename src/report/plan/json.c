/* SPDX-License-Identifier: MIT */
/* The plan answer as JSON, as reference/plan.schema.json describes it. */
#include "report/plan/report.h"
#include "report/remedy.h"
#include "report/slip.h"

static json_t *question(const fv_plan_answer *a)
{
    static const char *const goals[] = {"cheapest", "earliest", "even", "fuel", "output"};
    const fv_plan_options *o = &a->options;
    return json_pack("{s:s, s:b, s:o, s:f, s:f}", "for", goals[o->goal], "buy", o->buy, "span_s",
                     print_json_number(o->span), "wage", o->wage, "turnaround_s", o->turnaround);
}

static json_t *moves(const report_plan *plan, const fv_plan_row *row)
{
    json_t *array = json_array();
    for (size_t i = 0; array && i < row->move_count; i++) {
        fv_text what = {0};
        report_remedy(plan->units, row->moves[i], &what);
        print_json_append(&array, json_pack("{s:s, s:o}", "kind", fv_remedy_word(row->moves[i]->kind), "what",
                                            print_json_word(what.failed ? NULL : what.text)));
        fv_text_free(&what);
    }
    return array;
}

static json_t *plans(const report_plan *plan)
{
    json_t *array = json_array();
    for (size_t i = 0; array && i <= plan->answer->row_count; i++) {
        const fv_plan_row *row = i ? &plan->answer->rows[i - 1] : &plan->answer->now;
        json_t *o = print_row_json(&report_plan_tables[PLAN_PLANS], plan, i);
        print_json_set(&o, "moves", moves(plan, row));
        print_json_set(&o, "settings", report_settings_json(plan->answer->plant, &row->change));
        print_json_set(&o, "actions", report_actions_json(&row->change));
        print_json_append(&array, o);
    }
    return array;
}

void report_plan_json(const report_frame *frame, json_t **root)
{
    const report_plan *plan = frame->answer;
    const fv_plan_answer *a = plan->answer;
    print_json_set(root, "question", question(a));
    print_json_set(root, "currency", print_json_word(a->currency));
    print_json_set(root, "gains", json_boolean(a->gains));
    print_json_set(root, "stopped", json_boolean(a->stopped));
    print_json_set(root, "lighting_s", print_json_number(plan->clock.start));
    print_json_set(root, "earliest_by_conduction_s", print_json_number(a->conduction));
    print_json_set(root, "earliest_by_energy_s", print_json_number(a->energy));
    print_json_set(root, "perfect_sharing_s", print_json_number(a->sharing));
    print_json_set(root, "slip", report_slip_json(a->plant, &a->slip));
    print_json_set(root, "quickest_passed_over_s", print_json_number(a->quickest));
    print_json_set(root, "plans_looked_at", json_integer((json_int_t)a->looked_at));
    print_json_set(root, "runs", json_integer((json_int_t)a->runs));
    print_json_set(root, "plans", plans(plan));
    report_frame_table_json(frame, PLAN_STEPS, root);
    report_frame_table_json(frame, PLAN_VESSELS, root);
}
