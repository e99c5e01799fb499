/* SPDX-License-Identifier: MIT */
#include "report/assumptions.h"

#include <math.h>
#include <stdio.h>

enum { SAID = 3 };

print_shown report_assumed_value(fv_unit_system units, const fv_assumed_row *row, double si)
{
    return print_shown_value(units, row->attr, si);
}

print_shown report_assumed_shift(const fv_assumed_row *row)
{
    print_shown shown;
    if (!isfinite(row->shift))
        snprintf(shown.text, sizeof shown.text, "over %.0f times", FV_ASSUMED_LONGEST);
    else
        snprintf(shown.text, sizeof shown.text, "%.40s %s", print_shown_time(fabs(row->shift)).text,
                 row->shift < 0.0 ? "earlier" : "later");
    return shown;
}

/* Another word for what is said already says nothing of what else matters. */
static bool is_said(const fv_assumed_answer *answer, size_t row)
{
    bool said = false;
    for (size_t i = 0; i < row; i++)
        said = said ||
               (answer->rows[i].attr == answer->rows[row].attr && answer->rows[i].element == answer->rows[row].element);
    return said;
}

void report_assumed_say(const fv_assumed_answer *answer, fv_unit_system units, fv_text *out)
{
    fv_text_add(out, "What matters most of what the file leaves open or guesses: ");
    for (size_t i = 0, said = 0; i < answer->row_count && said < SAID; i++) {
        const fv_assumed_row *row = &answer->rows[i];
        if (is_said(answer, i))
            continue;
        fv_text_add(out, "%s%s of %s is taken as %s (%s", said++ ? "; " : "", row->attr->name, row->element->name,
                    report_assumed_value(units, row, row->from).text, row->part);
        if (row->parts > 1)
            fv_text_add(out, " and %zu more", row->parts - 1);
        fv_text_add(out,
                    isfinite(row->shift) ? "), with %s the last core is there %s"
                                         : "), with %s the last core takes %s as long",
                    report_assumed_value(units, row, row->to).text, report_assumed_shift(row).text);
    }
    fv_text_add(out, ".");
}
