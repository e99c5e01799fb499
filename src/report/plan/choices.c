/* SPDX-License-Identifier: MIT */
/* What the plan answer is to be compared with. The plans of the answer. */
#include "report/listed.h"
#include "report/plan/report.h"

bool fv_report_plan_choices(const fv_plan_answer *a, const fv_report_options *options, fv_choice_list *out)
{
    report_plan plan;
    if (!a || !options || !out || !report_plan_make(a, options, &plan))
        return false;
    bool good = report_list_begin(LISTED_MOST, out) && report_list_as_it_is(out, a->plant);
    for (size_t i = 0; i < a->row_count && out->count <= LISTED_MOST && good; i++) {
        fv_text name = {0};
        if (!a->rows[i].ran || (a->rows[i].move_count == 0 && a->rows[i].step_count == 0))
            continue;
        report_plan_name(&plan, &a->rows[i], &name);
        good = report_list_add(out, &name, (fv_choice){.plant = a->plant, .change = &a->rows[i].change});
    }
    report_plan_free(&plan);
    if (good && a->gains)
        report_list_pick_second(out);
    return good;
}
