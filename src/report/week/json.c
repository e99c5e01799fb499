/* SPDX-License-Identifier: MIT */
/* The week answer as JSON, as reference/week.schema.json describes it. */
#include "report/week/report.h"

#include <math.h>
#include <stdio.h>

void report_week_json(const report_frame *frame, json_t **root)
{
    const fv_week_answer *a = ((const report_week *)frame->answer)->answer;
    print_json_set(root, "treated_kg", print_json_number(a->plan.kg));
    print_json_set(root, "fuel_j", print_json_number(a->plan.fuel));
    print_json_set(root, "batches_a_week", json_integer((json_int_t)a->plan.batches));
    print_json_set(root, "burning_s", print_json_number((double)a->plan.steam_slots * a->options.slot));
    print_json_set(root, "work_s", print_json_number(3600.0 * a->work_hours));
    print_json_set(root, "there_s", print_json_number(3600.0 * a->there_hours));
    print_json_set(root, "limit", print_json_word(fv_week_limit_word(a->plan.limit)));
    print_json_set(root, "slot_s", print_json_number(a->options.slot));
    print_json_set(root, "tried", json_integer((json_int_t)a->plan.tried));
    print_json_set(root, "every", json_boolean(a->plan.every));
    const fv_week_now *now = &a->options.now;
    const bool rest = a->now > 0;
    print_json_set(root, "from_s", print_json_number(rest ? now->at : (double)NAN));
    print_json_set(root, "usual_kg", print_json_number(rest ? a->usual : (double)NAN));
    print_json_set(root, "on_steam_vessels",
                   json_integer((json_int_t)(rest ? fv_week_batch_vessels(&a->problem, a->now) : 0)));
    print_json_set(root, "on_steam_until_s",
                   print_json_number(rest ? now->at - now->burning + now->steam[1] : (double)NAN));
    print_json_set(root, "left_alone_s", print_json_number(a->left_alone));
    const bool odds = a->odds.weeks > 0;
    print_json_set(root, "holds", print_json_number(odds ? a->odds.holds : (double)NAN));
    print_json_set(root, "holds_error", print_json_number(odds ? a->odds.error : (double)NAN));
    print_json_set(root, "weeks", json_integer((json_int_t)a->odds.weeks));
    for (size_t k = 0; k < FV_WEEK_SLIPS; k++) {
        char key[24];
        snprintf(key, sizeof key, "slips_%s", fv_week_slip_word((fv_week_slip)k));
        print_json_set(root, key, print_json_number(odds ? a->odds.slips[k] : (double)NAN));
    }
    for (size_t i = 0; i < WEEK_TABLES; i++)
        report_frame_table_json(frame, i, root);
}
