/* SPDX-License-Identifier: MIT */
/* The timetable for a phone's calendar. */
#include "report/week/report.h"

#include "farvessel/calendar.h"

#include <stdlib.h>

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
