/* SPDX-License-Identifier: MIT */
/* The forecast in sentences. */
#include "report/forecast/report.h"
#include "report/log_clock.h"

#include <math.h>

print_shown report_forecast_time(const report_forecast *forecast, double since_lit)
{
    return report_log_clock(forecast->answer->log, forecast->answer->lit + since_lit);
}

void report_forecast_sentence(const report_frame *frame, fv_text *out)
{
    const report_forecast *forecast = frame->answer;
    const fv_forecast_answer *a = forecast->answer;
    const fv_forecast_vessel *v = &a->vessels[a->last];
    const char *id = a->plant->vessels[a->last]->part.id;
    if (a->stopped)
        fv_text_add(out, "Stopped early, with %zu of %zu draws. ", a->draws, a->options.fit.draws);
    if (v->done) {
        fv_text_add(out, "All holds are done, the last in %s at %s.", id,
                    report_forecast_time(forecast, a->last_middle).text);
        return;
    }
    if (!isfinite(a->last_middle)) {
        fv_text_add(out, "%s is not done at all as things are (chance that it ever is: %.0f %%).", id, 100 * v->chance);
        return;
    }
    fv_text_add(out, "%s, the last, is done at %s", id, report_forecast_time(forecast, a->last_middle).text);
    fv_text_add(out, ", eight times in ten between %s and %s; its core is at %s now",
                report_forecast_time(forecast, a->last_low).text, report_forecast_time(forecast, a->last_high).text,
                print_shown_as(forecast->units, FV_SHOW_TEMPERATURE, v->core_now).text);
    fv_text_add(out, " (%s).", report_forecast_time(forecast, a->now - a->lit).text);
}

void report_forecast_counts(const report_frame *frame, fv_text *out)
{
    const report_forecast *forecast = frame->answer;
    const fv_forecast_answer *a = forecast->answer;
    fv_text_add(out,
                "The bands count what `farvessel fit` counts, from %zu readings up to now and %zu draws with an "
                "effective number of %.0f, each run on to its end. They leave out lids that are opened from now on, "
                "valves turned that --then does not name, gaps moved by hand, and faults of the model.",
                a->used, a->draws, a->effective);
}
