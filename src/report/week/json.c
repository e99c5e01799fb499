/* SPDX-License-Identifier: MIT */
/* The week answer as JSON, as reference/week.schema.json describes it; and its timetable for a phone's calendar. */
#include "report/week/report.h"

#include "farvessel/calendar.h"

#include <stdlib.h>

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
    for (size_t i = 0; i < WEEK_TABLES; i++)
        report_frame_table_json(frame, i, root);
}

/* "Fill 2 vessels" */
static void summary_of(const report_week_line *line, fv_text *out)
{
    fv_text_add(out, "%c%s %zu vessel%s", line->task[0] - 'a' + 'A', line->task + 1, line->vessels,
                line->vessels == 1 ? "" : "s");
}

fv_status fv_report_week_calendar(const fv_week_answer *answer, const char *monday, const fv_report_options *options,
                                  fv_text *out)
{
    if (!answer || !monday || !options || !out)
        return FV_FAIL;
    report_week week;
    bool good = report_week_make(answer, options, &week);
    fv_calendar_event *events = good ? calloc(week.line_count + 1, sizeof *events) : NULL;
    fv_text *texts = good ? calloc(2 * week.line_count + 1, sizeof *texts) : NULL;
    good = events && texts;
    for (size_t i = 0; good && i < week.line_count; i++) {
        const report_week_line *line = &week.lines[i];
        summary_of(line, &texts[2 * i]);
        fv_text_add(&texts[2 * i + 1], "%zu %s. Steam and hot surfaces burn; local codes come first.", line->people,
                    line->people == 1 ? "person" : "people");
        good = !texts[2 * i].failed && !texts[2 * i + 1].failed;
        events[i] =
            (fv_calendar_event){texts[2 * i].text, texts[2 * i + 1].text, line->day_number, line->begins, line->takes};
    }
    fv_status status = FV_FAIL;
    if (good)
        status = fv_calendar_write(answer->plant->title, monday, events, week.line_count, out);
    else
        out->failed = true;
    for (size_t i = 0; texts && i < 2 * week.line_count; i++)
        fv_text_free(&texts[i]);
    free(events);
    free(texts);
    report_week_free(&week);
    return status;
}
