/* SPDX-License-Identifier: MIT */
/* What the size answer is to be compared with. The sizes chosen, and those on the trade-off. */
#include "report/listed.h"
#include "report/size/report.h"

bool fv_report_size_choices(const fv_size_answer *a, fv_unit_system units, fv_choice_list *out)
{
    if (!a || !out || !report_list_begin(LISTED_MOST, out) || !report_list_as_it_is(out, a->plant))
        return false;
    const size_t best = (size_t)a->best;
    for (size_t k = 0; k < a->row_count && out->count <= LISTED_MOST; k++) {
        const size_t i = k == 0 ? best : k;
        fv_text name = {0};
        if (i == 0 || (k > 0 && i == best) || !a->rows[i].run.ran)
            continue;
        fv_text_add(&name, "%s: ", report_size_choice(i).text);
        report_size_what(a, &a->rows[i], units, &name);
        if (a->rows[i].step_count > 0)
            fv_text_add(&name, "%s", name.length > 3 ? " and hands" : "hands");
        if (!report_list_add(out, &name, (fv_choice){.plant = a->plant, .change = &a->rows[i].change}))
            return false;
    }
    if (best > 0)
        report_list_pick_second(out);
    return true;
}
