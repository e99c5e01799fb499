/* SPDX-License-Identifier: MIT */
/* What the carry answer is to be compared with. Numbers of vessels in each manner. */
#include "report/carry/report.h"
#include "report/listed.h"

/* A number of vessels in each manner that hands have found; the best of them is the pick. */
static bool add_batches(const fv_carry_row *row, fv_choice_list *out)
{
    const size_t first = out->count;
    size_t pick = first;
    for (fv_carry_manner m = FV_CARRY_TOGETHER; m < FV_CARRY_MANNERS; m++) {
        fv_text name = {0};
        if (!report_carry_has(row, m) || !fv_carry_batch_of(row, m)->ran)
            continue;
        pick = m == row->best ? out->count : pick;
        fv_text_add(&name, "%zu vessel%s, %s", row->count, row->count == 1 ? "" : "s", report_carry_manner_word(m));
        const fv_choice choice = {.plant = row->plant, .change = fv_carry_change_of(row, m), .base = first};
        if (!report_list_add(out, &name, choice))
            return false;
    }
    for (size_t i = first; i < out->count; i++)
        out->list[i].pick = pick;
    return true;
}

bool fv_report_carry_choices(const fv_carry_answer *a, fv_choice_list *out)
{
    if (!a || !out || !report_list_begin(FV_CARRY_MANNERS * a->row_count, out))
        return false;
    for (size_t i = 0; i < a->row_count; i++)
        if (((int)i == a->present || (int)i == a->asked || (int)i == a->most) && !add_batches(&a->rows[i], out))
            return false;
    return true;
}
