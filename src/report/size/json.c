/* SPDX-License-Identifier: MIT */
/* The size answer as JSON, as reference/size.schema.json describes it. */
#include "report/size/report.h"

static json_t *parts(unsigned bits)
{
    json_t *array = json_array();
    for (fv_size_part part = 0; array && part < FV_SIZE_WORK; part++)
        if (bits >> part & 1u)
            print_json_append(&array, print_json_word(fv_size_part_word(part)));
    return array;
}

static json_t *limits(const fv_size_limits *l)
{
    return json_pack("{s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o}", "spread_most", print_json_number(l->spread_most),
                     "evenness_least", print_json_number(l->evenness_least), "hole_area_most",
                     print_json_number(l->area_most), "pressure_share_most", print_json_number(l->pressure_share_most),
                     "velocity_most_m_s", print_json_number(l->velocity_most), "velocity_against_condensate_most_m_s",
                     print_json_number(l->backward_most), "coil_velocity_most_m_s",
                     print_json_number(l->coil_velocity_most), "vent_pressure_most_pa_gauge",
                     print_json_number(l->vent_pressure_most));
}

static json_t *question(const fv_size_answer *answer)
{
    return json_pack("{s:o, s:b, s:s, s:b, s:o, s:o}", "vary", parts(answer->options.vary), "each",
                     answer->options.each, "for", report_size_goal_word(answer->options.goal), "hands",
                     answer->options.hands, "wage", print_json_number(answer->options.wage), "limits",
                     limits(&answer->options.limits));
}

static json_t *broken(const fv_size_answer *answer)
{
    json_t *o = json_object();
    for (fv_size_limit i = 0; i < FV_LIMITS; i++)
        print_json_set(&o, report_size_limit_word(i), json_integer((json_int_t)answer->broken[i]));
    return o;
}

static json_t *search(const fv_size_answer *answer)
{
    return json_pack("{s:o, s:b, s:b, s:I, s:I, s:I, s:I, s:I, s:o}", "choices", print_json_number(answer->choices),
                     "exhaustive", answer->exhaustive, "stopped", answer->stopped, "tried",
                     (json_int_t)answer->screened, "unfit", (json_int_t)answer->unfit, "unsolved",
                     (json_int_t)answer->unsolved, "kept", (json_int_t)answer->kept, "plans", (json_int_t)answer->plans,
                     "broken", broken(answer));
}

/* Rows `first` to `first + count` of a table, without the choice that they stand in. */
static json_t *part_of_table(const fv_size_answer *answer, int which, size_t first, size_t count)
{
    json_t *array = json_array();
    for (size_t i = 0; array && i < count; i++) {
        json_t *object = print_row_json(&report_size_tables[which], answer, first + i);
        if (object)
            json_object_del(object, "choice");
        print_json_append(&array, object);
    }
    return array;
}

static json_t *marks(const fv_size_row *row)
{
    json_t *array = json_array();
    for (unsigned bit = 1; array && bit <= FV_SIZE_IS_BETWEEN; bit <<= 1) {
        fv_text word = {0};
        report_size_marks(row->marks & bit, false, "", &word);
        if (word.length > 0)
            print_json_append(&array, print_json_word(word.text));
        fv_text_free(&word);
    }
    return array;
}

static json_t *choices(const fv_size_answer *answer)
{
    json_t *array = json_array();
    for (size_t i = 0; array && i < answer->row_count; i++) {
        const fv_size_row *row = &answer->rows[i];
        const size_t vessels = answer->plant->vessel_count;
        json_t *o = print_row_json(&report_size_tables[SIZE_CHOICES], answer, i);
        print_json_set(&o, "marks", marks(row));
        print_json_set(&o, "settings", report_settings_json(answer->plant, &row->change));
        print_json_set(&o, "actions", report_actions_json(&row->change));
        print_json_set(&o, "sizes",
                       part_of_table(answer, SIZE_SIZES, i * answer->dimension_count, answer->dimension_count));
        print_json_set(&o, "limits", part_of_table(answer, SIZE_LIMITS, i * FV_LIMITS, FV_LIMITS));
        print_json_set(&o, "coils", part_of_table(answer, SIZE_COILS, i * vessels, vessels));
        print_json_append(&array, o);
    }
    return array;
}

static json_t *name_of(int row)
{
    return row < 0 ? json_null() : print_json_word(report_size_choice((size_t)row).text);
}

void report_size_json(const report_frame *frame, json_t **root)
{
    const fv_size_answer *answer = frame->answer;
    print_json_set(root, "question", question(answer));
    print_json_set(root, "search", search(answer));
    print_json_set(root, "currency", print_json_word(answer->currency));
    print_json_set(root, "best", name_of(answer->best));
    print_json_set(root, "hands", name_of(answer->hands));
    print_json_set(root, "choices", choices(answer));
    print_json_set(root, "could_vary", parts(answer->could_vary));
}
