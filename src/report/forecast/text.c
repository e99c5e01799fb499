/* SPDX-License-Identifier: MIT */
/* The forecast as a screen, and as JSON, which reference/forecast.schema.json describes. */
#include "print/screen.h"
#include "report/forecast/report.h"

#include <math.h>

static void vessels(const report_forecast *f, fv_text *out)
{
    static const print_grid_column columns[] = {{"vessel", "", true},          {"core_now", "", false},
                                                {"at target_10 %", "", false}, {"at_target", "", false},
                                                {"at target_90 %", "", false}, {"done_10 %", "", false},
                                                {"done", "", false},           {"done_90 %", "", false}};
    const fv_forecast_answer *a = f->answer;
    print_grid *grid = print_grid_new(columns, sizeof columns / sizeof *columns);
    for (size_t i = 0; i < a->plant->vessel_count; i++) {
        const fv_forecast_vessel *v = &a->vessels[i];
        const double times[] = {v->core.low, v->core.middle, v->core.high, v->hold.low, v->hold.middle, v->hold.high};
        print_grid_add(grid, a->plant->vessels[i]->part.id);
        print_grid_add(grid, print_shown_as(f->units, FV_SHOW_TEMPERATURE, v->core_now).text);
        for (size_t k = 0; k < 6; k++)
            print_grid_add(grid, report_forecast_time(f, times[k]).text);
    }
    print_grid_section(grid, "When each vessel is done", out);
}

static void then(const report_forecast *f, fv_text *out)
{
    const fv_forecast_answer *a = f->answer;
    if (a->options.then_count == 0)
        return;
    print_section(out, "What it would change");
    for (size_t i = 0; i < a->options.then_count; i++)
        print_sayf(out, "  ", "then %s", a->options.then[i]);
    for (size_t i = 0; i < a->plant->vessel_count; i++) {
        const fv_band *b = &a->vessels[i].then_hold;
        if (isnan(b->middle)) {
            print_sayf(out, "  - ", "%s is never done then, or is not without", a->plant->vessels[i]->part.id);
            continue;
        }
        const bool tie = b->low < 0 && b->high > 0;
        print_sayf(out, "  - ", "%s is done %.0f min %s, eight times in ten between %+.0f and %+.0f min%s",
                   a->plant->vessels[i]->part.id, fabs(b->middle) / 60, b->middle < 0 ? "earlier" : "later",
                   b->low / 60, b->high / 60, tie ? ": a tie" : "");
    }
}

static void modes(const report_forecast *f, fv_text *out)
{
    const fv_forecast_answer *a = f->answer;
    for (size_t k = 0; k < a->mode_count; k++) {
        const fv_fit_mode *m = &a->modes[k];
        if (m->kind == FV_DEFECT_NONE)
            continue;
        print_sayf(out, "  - ", "chance %.0f %% that something is wrong at %s (%s%s%s); `farvessel fit` says more",
                   100 * m->probability, a->plant->vessels[m->vessel]->part.id,
                   m->kind == FV_DEFECT_CLOGGED  ? "its coil clogged"
                   : m->kind == FV_DEFECT_NARROW ? "a narrow hose, "
                                                 : "water in a sag of ",
                   m->line >= 0 ? a->plant->lines[m->line]->part.id : "", "");
    }
}

void report_forecast_lead(const report_frame *frame, fv_text *out)
{
    const report_forecast *f = frame->answer;
    print_sayf(out, "", "%s: times are those of %s.", frame->plant->title ? frame->plant->title : "The plant",
               f->answer->log->file);
}

void report_forecast_table(const report_frame *frame, fv_text *out)
{
    vessels(frame->answer, out);
    modes(frame->answer, out);
    then(frame->answer, out);
}

static json_t *method(const fv_forecast_answer *a)
{
    char stamp[32];
    json_t *m = json_object();
    print_json_set(&m, "log", print_json_word(a->log->file));
    print_json_set(&m, "lit", print_json_word(fv_logfile_stamp(a->log, a->lit, stamp, sizeof stamp)));
    print_json_set(&m, "now", print_json_word(fv_logfile_stamp(a->log, a->now, stamp, sizeof stamp)));
    print_json_set(&m, "readings", json_integer((json_int_t)a->used));
    print_json_set(&m, "runs", json_integer((json_int_t)a->runs));
    print_json_set(&m, "draws", json_integer((json_int_t)a->draws));
    print_json_set(&m, "effective_draws", print_json_number(a->effective));
    print_json_set(&m, "stopped", json_boolean(a->stopped));
    print_json_set(&m, "moved", json_boolean(a->sampled));
    return m;
}

void report_forecast_json(const report_frame *frame, json_t **root)
{
    const fv_forecast_answer *a = ((const report_forecast *)frame->answer)->answer;
    json_t *steps = json_array();
    for (size_t i = 0; steps && i < a->options.then_count; i++)
        print_json_append(&steps, print_json_text(a->options.then[i]));
    print_json_set(root, "counts", report_frame_said_json(frame, frame->counts));
    print_json_set(root, "method", method(a));
    print_json_set(root, "last_vessel", print_json_word(a->plant->vessels[a->last]->part.id));
    print_json_set(root, "last_done_10_s", print_json_number(a->last_low));
    print_json_set(root, "last_done_50_s", print_json_number(a->last_middle));
    print_json_set(root, "last_done_90_s", print_json_number(a->last_high));
    print_json_set(root, "then", steps);
    report_frame_table_json(frame, FORECAST_VESSELS, root);
}
