/* SPDX-License-Identifier: MIT */
/* The fit answer in sentences. */
#include "report/fit/report.h"
#include "report/log_clock.h"

#include <math.h>

print_shown report_fit_time(const report_fit *fit, double since_lit)
{
    return report_log_clock(fit->answer->log, fit->answer->lit + since_lit);
}

void report_fit_mode(const report_fit *fit, const fv_fit_mode *mode, fv_text *out)
{
    const fv_plant *plant = fit->answer->plant;
    switch (mode->kind) {
    case FV_DEFECT_CLOGGED:
        fv_text_add(out, "the coil of %s is clogged by %.0f %%", plant->vessels[mode->vessel]->part.id,
                    100 * mode->size);
        break;
    case FV_DEFECT_NARROW:
        fv_text_add(out, "hose %s of %s is narrower than said by %.0f %%", plant->lines[mode->line]->part.id,
                    plant->vessels[mode->vessel]->part.id, 100 * mode->size);
        break;
    case FV_DEFECT_SAG:
        fv_text_add(out, "water stands %.0f mm deep in a sag of hose %s of %s", 1000 * mode->size,
                    plant->lines[mode->line]->part.id, plant->vessels[mode->vessel]->part.id);
        break;
    default:
        fv_text_add(out, "nothing is wrong that the file does not say");
    }
}

static size_t count_learnt(const fv_fit_answer *a, fv_learnt learnt)
{
    size_t count = 0;
    for (size_t i = 0; i < a->unknown_count; i++)
        count += a->unknowns[i].learnt == learnt;
    return count;
}

void report_fit_sentence(const report_frame *frame, fv_text *out)
{
    const report_fit *fit = frame->answer;
    const fv_fit_answer *a = fit->answer;
    double rms = 0, used = 0;
    for (size_t i = 0; i < a->probe_count; i++)
        if (a->probes[i].used > 0) {
            rms += a->probes[i].rms * a->probes[i].rms * (double)a->probes[i].used;
            used += (double)a->probes[i].used;
        }
    if (a->stopped)
        fv_text_add(out, "Stopped early, with %zu of %zu draws. ", a->draws, a->options.draws);
    fv_text_add(out, "The plant follows the log to %.1f K rms", sqrt(rms / fmax(1, used)));
    if (a->modes[0].kind != FV_DEFECT_NONE) {
        fv_text_add(out, " if ");
        report_fit_mode(fit, &a->modes[0], out);
        fv_text_add(out, " (chance %.0f %%)", 100 * a->modes[0].probability);
    }
    fv_text_add(out, ". %zu of its %zu unknowns were learnt, %zu a little. The last hold is done at %s",
                count_learnt(a, FV_LEARNT), a->unknown_count, count_learnt(a, FV_LEARNT_LITTLE),
                report_fit_time(fit, a->last_middle).text);
    fv_text_add(out, ", eight times in ten between %s and %s.", report_fit_time(fit, a->last_low).text,
                report_fit_time(fit, a->last_high).text);
}

/* What such a departure most likely was. Common practice, no source. */
static const char *likely(const fv_fit_answer *a, const fv_fit_stretch *s)
{
    const fv_probe_readings *r = &a->cleaned[s->probe].readings;
    if (r->at == FV_PROBE_CHAMBER)
        return s->departs < 0 ? "a lid that was opened, air drawn in, or steam that stayed away"
                              : "steam that came earlier than said, or a probe in a jet";
    if (s->departs < -20)
        return "a probe that was pulled out";
    return s->departs < 0 ? "a lid that was opened, steam that stayed away, or a probe that slipped deeper"
                          : "a probe that slipped out, or a load that heats itself";
}

void report_fit_stretch(const report_fit *fit, const fv_fit_stretch *stretch, fv_text *out)
{
    const fv_fit_answer *a = fit->answer;
    fv_text_add(out, "%s from %s to ", a->cleaned[stretch->probe].readings.name,
                report_fit_time(fit, stretch->from - a->lit).text);
    fv_text_add(out, "%s reads %s too %s: %s", report_fit_time(fit, stretch->to - a->lit).text,
                print_shown_as(fit->units, FV_SHOW_TEMPERATURE_DIFFERENCE, fabs(stretch->departs)).text,
                stretch->departs < 0 ? "low" : "high", likely(a, stretch));
}

void report_fit_counts(const report_frame *frame, fv_text *out)
{
    const report_fit *fit = frame->answer;
    const fv_fit_answer *a = fit->answer;
    fv_text_add(out,
                "The bands count the %zu unknowns that `farvessel odds --format csv --table inputs` lists, the probes' "
                "offsets, the time of lighting, and one thing wrong at a time (a clogged coil, a narrow hose, water in "
                "a sag), from %zu draws with an effective number of %.0f%s. Readings have a slow error of %.2g K at "
                "cores and %.2g K in chambers over %.0f min beside their noise. They leave out lids that are opened, "
                "gaps moved by hand, and faults of the model.",
                a->unknown_count, a->draws, a->effective,
                a->sampled ? " (moved by randomize-then-optimize, for weights alone left too few)" : "", a->slow[0],
                a->slow[1], a->slow_time / 60);
}
