/* SPDX-License-Identifier: MIT */
/* Rows of a sweep as CSV: inputs, whether it was answered, what the plant did, what each vessel did. SI, the unit in
 * the name; an empty cell for what did not happen. */
#include "farvessel/report.h"
#include "print/cells.h"

#include <math.h>

static void number(double value, fv_text *out)
{
    fv_text_add(out, ",");
    if (!isnan(value))
        fv_text_add(out, "%.15g", value + 0.0);
}

void fv_report_sweep_heading(const fv_plant *plant, const fv_sweep_axis *axes, size_t axis_count, fv_sweep_ask ask,
                             fv_text *out)
{
    if (!plant || !out)
        return;
    fv_text_add(out, "row");
    for (size_t i = 0; i < axis_count; i++) {
        const fv_element *element;
        if (!axes[i].path) {
            fv_text_add(out, ",vessels");
            continue;
        }
        const fv_part *part = fv_plant_find(plant, axes[i].path, &element);
        const fv_attr *attr = part ? fv_attr_find(element, axes[i].attribute) : NULL;
        fv_text_add(out, ",%s.%s%s", axes[i].path, axes[i].attribute, attr ? fv_dim_json_suffix(attr->dim) : "");
    }
    fv_text_add(out, ",answered,reason,%s",
                ask == FV_SWEEP_FLOW ? "steam_kg_s,fuel_w" : "last_core_s,steam_kg,fuel_j,water_kg");
    for (size_t i = 0; i < plant->vessel_count; i++) {
        const char *id = plant->vessels[i]->part.id;
        if (ask == FV_SWEEP_FLOW)
            fv_text_add(out, ",%s.steam_kg_s,%s.heat_w,%s.verdict", id, id, id);
        else
            fv_text_add(out, ",%s.core_s,%s.took_s,%s.hold_s,%s.verdict", id, id, id, id);
    }
    fv_text_add(out, "\n");
}

static void input(const fv_plant *plant, const fv_sweep_axis *axis, double value, fv_text *out)
{
    char word[64];
    const fv_element *element;
    const fv_part *part = axis->path ? fv_plant_find(plant, axis->path, &element) : NULL;
    const fv_attr *attr = part ? fv_attr_find(element, axis->attribute) : NULL;
    if (!attr || attr->dim != FV_DIM_WORD) {
        number(value, out);
        return;
    }
    const char *text = fv_word_at(attr->words, (int)value, word, sizeof word);
    fv_text_add(out, ",%s", text ? text : "");
}

void fv_report_sweep_row(const fv_plant *plant, const fv_sweep_axis *axes, size_t axis_count, fv_sweep_ask ask,
                         const fv_sweep_row *row, fv_text *out)
{
    if (!plant || !axes || !row || !out)
        return;
    fv_text_add(out, "%zu", row->index + 1);
    for (size_t i = 0; i < axis_count; i++)
        input(plant, &axes[i], row->inputs[i], out);
    fv_text_add(out, ",%s,", row->answered ? "true" : "false");
    if (!row->answered)
        print_csv_word(out, row->reason);
    const double flow[] = {row->steam, row->fuel}, heat[] = {row->last_core, row->steam, row->fuel, row->water};
    const bool is_flow = ask == FV_SWEEP_FLOW;
    for (size_t i = 0; i < (is_flow ? 2u : 4u); i++)
        number(!row->answered ? NAN : is_flow ? flow[i] : heat[i], out);
    for (size_t i = 0; i < plant->vessel_count; i++) {
        const fv_sweep_vessel *v = &row->vessels[i];
        const double steady[] = {v->steam, v->heat}, timed[] = {v->core, v->took, v->hold};
        for (size_t k = 0; k < (is_flow ? 2u : 3u); k++)
            number(!row->answered ? NAN : is_flow ? steady[k] : timed[k], out);
        fv_text_add(out, ",%s", row->answered ? fv_verdict_word(v->verdict) : "");
    }
    fv_text_add(out, "\n");
}
