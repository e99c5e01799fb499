/* SPDX-License-Identifier: MIT */
/* The log against the plant that was fitted to it: for each probe its readings, the band of what it would read, and
 * where the two part. */
#include "page/cards.h"
#include "page/parts.h"
#include "report/fit/report.h"

#include <math.h>
#include <stdlib.h>

static const fv_fit_answer *of(const page_view *v)
{
    return v->content->fit;
}

static const fv_probe_readings *readings(const page_view *v, size_t probe)
{
    return &of(v)->cleaned[probe].readings;
}

/* What the fit found beside what was known of it, K. */
static double offset(const page_view *v, size_t probe)
{
    const double all = of(v)->probes[probe].offset;
    return isnan(all) ? 0 : all - readings(v, probe)->offset;
}

static double hours(const page_view *v, double time)
{
    return (time - of(v)->lit) / 3600;
}

static void title(const page_view *v, size_t probe, fv_text *out)
{
    const fv_probe_readings *r = readings(v, probe);
    fv_text_add(out, "%s%s%s", r->name, r->vessel >= 0 ? ": " : "",
                r->vessel >= 0 ? v->plant->vessels[r->vessel]->part.id : "");
    if (r->vessel >= 0)
        fv_text_add(out, ", %s",
                    r->at == FV_PROBE_CHAMBER ? "chamber"
                    : r->at == FV_PROBE_DEPTH ? "at its depth"
                                              : "core");
    if (!isnan(of(v)->probes[probe].rms))
        fv_text_add(out, ", off by %s rms",
                    page_view_shown(v, FV_SHOW_TEMPERATURE_DIFFERENCE, of(v)->probes[probe].rms).text);
}

static void about(const page_view *v, size_t probe, fv_text *out)
{
    const report_fit fit = {of(v), v->units};
    fv_text_add(out,
                "Readings of %s, its offset taken off, against what it would read in eight of ten plants that fit. ",
                readings(v, probe)->name);
    for (size_t i = 0; i < of(v)->stretch_count; i++)
        if (of(v)->stretches[i].probe == probe) {
            report_fit_stretch(&fit, &of(v)->stretches[i], out);
            fv_text_add(out, ". ");
        }
}

static page_axis temperatures(const page_view *v, const char *name)
{
    double least = INFINITY, most = -INFINITY;
    for (size_t p = 0; p < of(v)->probe_count; p++)
        for (size_t i = 0; i < FV_FIT_MOMENTS; i++) {
            least = fmin(least, of(v)->probes[p].low[i]);
            most = fmax(most, of(v)->probes[p].high[i]);
        }
    return page_axis_number(page_view_value(v, FV_SHOW_TEMPERATURE, least),
                            page_view_value(v, FV_SHOW_TEMPERATURE, most), 6, name);
}

static void band(const page_view *v, page_markup *m, const page_plot *p, const fv_fit_probe *probe)
{
    fv_text path = {0};
    for (size_t k = 0; k < 2 * FV_FIT_MOMENTS; k++) {
        const size_t i = k < FV_FIT_MOMENTS ? k : 2 * FV_FIT_MOMENTS - 1 - k;
        const double value = k < FV_FIT_MOMENTS ? probe->low[i] : probe->high[i];
        const page_svg_point at =
            page_plot_at(p, hours(v, of(v)->moment[i]), page_view_value(v, FV_SHOW_TEMPERATURE, value));
        fv_text_add(&path, "%c%.1f %.1f", k == 0 ? 'M' : 'L', at.x, at.y);
    }
    fv_text_add(&path, "Z");
    if (path.failed)
        page_markup_fail(m);
    else
        page_svg_path(m, path.text, "area");
    fv_text_free(&path);
}

static void stretches(const page_view *v, page_markup *m, const page_plot *p, size_t probe)
{
    for (size_t i = 0; i < of(v)->stretch_count; i++) {
        const fv_fit_stretch *s = &of(v)->stretches[i];
        const double from = fmax(hours(v, s->from), p->x.from), to = fmin(hours(v, s->to), p->x.to);
        if (s->probe != probe || !(to > from))
            continue;
        const page_svg_point a = page_plot_at(p, from, p->y.to), b = page_plot_at(p, to, p->y.from);
        page_svg_rect(m, a.x, a.y, b.x - a.x, b.y - a.y, "parts");
    }
}

static void curve(page_markup *m, const page_plot *p, const char *name, const char *css_class, const double *x,
                  const double *y, size_t count)
{
    const page_plot_curve c = {.name = name, .css_class = css_class, .x = x, .y = y, .count = count};
    page_plot_draw(m, p, &c);
}

static void curves(const page_view *v, page_markup *m, const page_plot *p, size_t which)
{
    const fv_fit_probe *probe = &of(v)->probes[which];
    const fv_probe_readings *r = readings(v, which);
    const size_t most = r->count > FV_FIT_MOMENTS ? r->count : FV_FIT_MOMENTS;
    double *x = malloc(2 * (most + 1) * sizeof *x), *y = x ? x + most + 1 : NULL;
    if (!x) {
        page_markup_fail(m);
        return;
    }
    for (size_t i = 0; i < FV_FIT_MOMENTS; i++) {
        x[i] = hours(v, of(v)->moment[i]);
        y[i] = page_view_value(v, FV_SHOW_TEMPERATURE, probe->middle[i]);
    }
    curve(m, p, "fitted", "c core", x, y, FV_FIT_MOMENTS);
    size_t count = 0;
    for (size_t i = 0; i < r->count; i++) {
        const double at = hours(v, r->time[i]);
        if (at < p->x.from || at > p->x.to)
            continue;
        x[count] = at;
        y[count++] = r->flaw[i] == FV_READING_GOOD
                         ? page_view_value(v, FV_SHOW_TEMPERATURE, r->value[i] - offset(v, which))
                         : (double)NAN;
    }
    curve(m, p, "read", "c reading", x, y, count);
    free(x);
}

static void draw(const page_view *v, page_markup *m, const page_card *set, size_t which)
{
    static const page_plot_key keys[] = {{"c reading", "read"},
                                         {"c core", "fitted"},
                                         {"kband", "eight in ten"},
                                         {"aim", "last reading used"},
                                         {"kparts", "they part"}};
    enum { KEYS = sizeof keys / sizeof *keys };
    const print_shown name = page_view_axis_name(v, "temperature", FV_SHOW_TEMPERATURE);
    const size_t shown = KEYS - (of(v)->stretch_count == 0);
    const double width = set->width - 16.0;
    fv_text words = {0};
    title(v, which, &words);
    const double head = page_card_title(v, m, set, -1, page_markup_words(m, &words));
    page_plot p = page_card_plot(set, head, page_plot_keys(NULL, 0, 0, width, keys, shown) + 4.0);
    const double lit = of(v)->log->clock ? fmod(of(v)->lit, 86400) / 3600 : NAN;
    p.x = page_axis_time(0, hours(v, of(v)->moment[FV_FIT_MOMENTS - 1]), 5, lit, v->options->twelve_hours,
                         isnan(lit) ? "hours from the lighting" : "time of day, by the logger's clock");
    p.y = temperatures(v, name.text);
    page_plot_begin(m, &p, "plot");
    page_plot_moment(m, &p, hours(v, of(v)->now), "target");
    stretches(v, m, &p, which);
    band(v, m, &p, &of(v)->probes[which]);
    curves(v, m, &p, which);
    page_plot_end(m);
    page_plot_keys(m, 8.0, p.top + p.height + 38.0, width, keys, shown);
    fv_text_free(&words);
}

void page_fit(page_doc *d)
{
    const report_fit fit = {of(d->v), d->v->units};
    const page_card set = {.width = SVG_CARD,
                           .height = SVG_CARD_HEIGHT,
                           .count = fit.answer ? fit.answer->probe_count : 0,
                           .draw = draw,
                           .title = title,
                           .about = about};
    const report_frame frame = {.answer = &fit};
    fv_text sentence = {0}, counts = {0};
    if (!fit.answer)
        return;
    page_doc_section(d, "log", "The log");
    report_fit_sentence(&frame, &sentence);
    page_doc_paragraph(d, "more", "%s", page_doc_words(d, &sentence));
    if (fit.answer->stretch_count > 0) {
        page_doc_paragraph(d, "hint", "Where readings and plant part:");
        page_doc_list(d);
        for (size_t i = 0; i < fit.answer->stretch_count; i++) {
            fv_text line = {0};
            report_fit_stretch(&fit, &fit.answer->stretches[i], &line);
            page_doc_item(d, NULL, "%s", page_doc_words(d, &line));
            fv_text_free(&line);
        }
        page_doc_end(d);
    }
    if (d->m)
        page_cards_draw(d->v, d->m, &set, 1, "The log");
    report_fit_counts(&frame, &counts);
    page_doc_paragraph(d, "hint", "%s", page_doc_words(d, &counts));
    page_doc_end(d);
    fv_text_free(&sentence);
    fv_text_free(&counts);
}
