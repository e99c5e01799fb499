/* SPDX-License-Identifier: MIT */
/* The carry answer as JSON, as reference/carry.schema.json describes it. */
#include "report/carry/report.h"
#include "report/slip.h"

static json_t *question(const fv_carry_answer *answer)
{
    const fv_carry_options *o = &answer->options;
    return json_pack("{s:o, s:o, s:I, s:I, s:o, s:b}", "like", print_json_word(o->like), "at", print_json_word(o->at),
                     "more", (json_int_t)o->more, "fewer", (json_int_t)o->fewer, "turnaround_s",
                     print_json_number(o->turnaround), "others", o->others);
}

/* Rows `first` to `first + count` of a table without what stands in the row that they are put into. */
static json_t *vessels(const fv_carry_answer *answer, size_t first, size_t count)
{
    json_t *array = json_array();
    for (size_t i = 0; array && i < count; i++) {
        json_t *object = print_row_json(&report_carry_tables[CARRY_VESSELS], answer, first + i);
        if (object) {
            json_object_del(object, "count");
            json_object_del(object, "started");
        }
        print_json_append(&array, object);
    }
    return array;
}

static json_t *counts(const fv_carry_answer *answer)
{
    json_t *array = json_array();
    size_t first = 0, shown = 0;
    for (size_t i = 0; array && i < answer->row_count; i++) {
        const fv_carry_row *row = &answer->rows[i];
        const size_t n = row->plant->vessel_count;
        json_t *o = json_object();
        print_json_set(&o, "count", json_integer((json_int_t)row->count));
        print_json_set(&o, "added", json_integer(row->added));
        for (size_t manner = 0; manner < FV_CARRY_MANNERS; manner++) {
            const bool has = report_carry_has(row, (fv_carry_manner)manner);
            json_t *run = has ? print_row_json(&report_carry_tables[CARRY_COUNTS], answer, shown++) : json_null();
            if (run && has) {
                json_object_del(run, "count");
                json_object_del(run, "started");
            }
            if (has)
                print_json_set(&run, "vessels", vessels(answer, first + manner * n, n));
            print_json_set(&o, report_carry_manner_key((fv_carry_manner)manner), run);
        }
        first += FV_CARRY_MANNERS * n;
        print_json_set(&o, "best", print_json_word(report_carry_manner_key(row->best)));
        print_json_set(&o, "stagger", report_settings_json(row->plant, &row->stagger));
        print_json_set(&o, "throttle", report_settings_json(row->plant, &row->throttle));
        print_json_set(&o, "throttle_actions", report_actions_json(&row->throttle));
        print_json_set(&o, "work", report_settings_json(row->plant, &row->work));
        print_json_set(&o, "throttle_slip", report_slip_json(row->plant, &row->throttle_slip));
        json_t *holding = print_row_json(&report_carry_tables[CARRY_HOLDING], answer, i);
        if (holding)
            json_object_del(holding, "count");
        print_json_set(&o, "holding", holding);
        print_json_append(&array, o);
    }
    return array;
}

static json_t *ways(const fv_carry_answer *answer)
{
    json_t *array = json_array();
    for (size_t i = 0; array && i < answer->way_count; i++) {
        json_t *o = print_row_json(&report_carry_tables[CARRY_WAYS], answer, i);
        print_json_set(&o, "settings", report_settings_json(answer->ways[i].plant, &answer->ways[i].change));
        print_json_set(&o, "actions", report_actions_json(&answer->ways[i].change));
        print_json_append(&array, o);
    }
    return array;
}

void report_carry_json(const report_frame *frame, json_t **root)
{
    const fv_carry_answer *answer = frame->answer;
    print_json_set(root, "question", question(answer));
    print_json_set(root, "currency", print_json_word(answer->currency));
    print_json_set(root, "own_count", json_integer((json_int_t)answer->own));
    print_json_set(root, "asked_count", json_integer((json_int_t)answer->rows[answer->asked].count));
    print_json_set(root, "wanted_a_day_kg", print_json_number(answer->wanted));
    print_json_set(root, "most_a_day_count",
                   answer->most < 0 ? json_null() : json_integer((json_int_t)answer->rows[answer->most].count));
    print_json_set(root, "asked_does", print_json_word(report_carry_manner_key(answer->does)));
    print_json_set(root, "better_count",
                   answer->better < 0 ? json_null() : json_integer((json_int_t)answer->rows[answer->better].count));
    print_json_set(root, "stopped", json_boolean(answer->stopped));
    print_json_set(root, "plans_looked_at", json_integer((json_int_t)answer->plans));
    print_json_set(root, "counts", counts(answer));
    print_json_set(root, "ways", ways(answer));
}
