/* SPDX-License-Identifier: MIT */
/* What the why answer is to be compared with. The next step, and the remedies that gain most. */
#include "report/listed.h"
#include "report/remedy.h"

bool fv_report_why_choices(const fv_why_answer *a, fv_unit_system units, fv_choice_list *out)
{
    if (!a || !out || !report_list_begin(LISTED_MOST, out) || !report_list_as_it_is(out, a->plant))
        return false;
    for (size_t k = 0; k <= a->remedy_count && out->count <= LISTED_MOST; k++) {
        const int i = k == 0 ? a->cheapest : (int)k - 1;
        fv_text name = {0};
        if (i < 0 || (k > 0 && i == a->cheapest) || a->remedies[i].over_relief || a->remedies[i].lifts_lid)
            continue;
        report_remedy(units, &a->remedies[i], &name);
        if (!report_list_add(out, &name, (fv_choice){.plant = a->plant, .change = &a->remedies[i].change}))
            return false;
    }
    if (a->cheapest >= 0)
        report_list_pick_second(out);
    return true;
}
