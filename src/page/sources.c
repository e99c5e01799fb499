/* SPDX-License-Identifier: MIT */
/* What the figures rest on: notes, assumptions, limits of the model, cautions, and where all comes from. */
#include "report/flow/report.h"
#include "print/cautions.h"
#include "print/notes.h"
#include "page/parts.h"
#include "print/said.h"

#include <math.h>
#include <string.h>

enum { NAMES_SHOWN = 8 };

/* ---- worth a second look ---- */

void page_notes(page_doc *d)
{
    print_notes notes = {0};
    const fv_faults *remarks = d->v->content->remarks;
    const report_frame frame = {.answer = d->v->heat ? (const void *)&d->v->words : d->v->flow, .units = d->v->units};
    (d->v->heat ? report_heat_notes : report_flow_notes)(&frame, &notes);
    page_doc_section(d, "notes", "Worth a second look");
    page_doc_notes(d, &notes);
    page_doc_list(d);
    for (size_t i = 0; remarks && i < fv_faults_count(remarks); i++) {
        fv_text place = {0}, text = {0}, head = {0};
        if (print_remark(remarks, i, d->v->units, &place, &text)) {
            if (place.length > 0)
                fv_text_add(&head, "In the file, %s:", place.text);
            page_doc_item(d, place.length > 0 ? page_doc_words(d, &head) : NULL, "%s", page_doc_words(d, &text));
        }
        fv_text_free(&head);
        fv_text_free(&place);
        fv_text_free(&text);
    }
    page_doc_end(d);
    page_doc_end(d);
    print_notes_free(&notes);
}

/* ---- assumptions ---- */

/* Names and all, said of the same parts. */
static bool are_alike(const print_said_row *a, const print_said_row *b)
{
    bool alike = a->said == b->said && strcmp(a->element, b->element) == 0 && a->owners.count == b->owners.count;
    for (size_t i = 0; alike && i < a->owners.count; i++)
        alike = strcmp(a->owners.list[i], b->owners.list[i]) == 0;
    return alike;
}

static void add_value(const page_view *v, const print_said_row *row, fv_text *out)
{
    const char *words = isnan(row->si) ? row->reason : print_shown_value(v->units, row->attr, row->si).text;
    fv_text_add(out, "%s%s%s %s", out->length > 0 ? "; " : "", row->attr->name, isnan(row->si) ? ":" : "", words);
}

/* One row of the page for what is said of the same parts. */
static void values(page_doc *d, const print_said_list *said, print_said kind, const char *caption)
{
    static const page_doc_column columns[] = {
        {"element", "", DOC_WORD}, {"value", "", DOC_PROSE}, {"in", "", DOC_PROSE}};
    if (said->values[kind] == 0)
        return;
    page_doc_table(d, caption, columns, sizeof columns / sizeof *columns);
    for (size_t i = 0; i < said->row_count;) {
        const print_said_row *row = &said->rows[i];
        fv_text names = {0}, words = {0};
        for (; i < said->row_count && are_alike(row, &said->rows[i]); i++)
            if (row->said == kind)
                add_value(d->v, &said->rows[i], &words);
        if (row->said != kind)
            continue;
        print_names_say(&row->owners, NAMES_SHOWN, &names);
        page_doc_cell(d, "%s", row->element);
        page_doc_cell(d, "%s", page_doc_words(d, &words));
        page_doc_cell(d, "%s", page_doc_words(d, &names));
        fv_text_free(&names);
        fv_text_free(&words);
    }
    page_doc_table_end(d);
}

void page_sources(page_doc *d)
{
    print_said_list said;
    bool good = print_said_collect(d->v->plant, &said);
    page_doc_section(d, "assumptions", "What is assumed");
    if (good) {
        page_doc_paragraph(
            d, NULL,
            "Everything that is not a measured value of the file. Each can be said in the file, and then moves "
            "from a default or a correlation to a figure of yours.");
        page_doc_fold(d, "Show what is assumed");
        values(d, &said, SAID_GUESS, "Marked as a guess: what follows from these is a guess, too");
        values(d, &said, SAID_SETTING, "Changed on top of the file");
        values(d, &said, SAID_FIXED, "Coefficients that the file fixes");
        values(d, &said, SAID_LEFT, "Coefficients left to correlations");
        values(d, &said, SAID_DEFAULT, "Not said, so the documented default is used");
        page_doc_end(d);
    } else {
        page_doc_fail(d);
    }
    page_doc_end(d);
    print_said_free(&said);
}

/* ---- limits ---- */

void page_limits(page_doc *d)
{
    static const char *const limits[][2] = {
        {"Lines.",
         "Steady flow along the line, saturated steam that keeps the enthalpy it left the boiler with. Steam that "
         "expands behind a choked end is a few percent lighter than assumed."},
        {"Water in sags.",
         "The head of the water is lost while steam bubbles through; that a sag fills and blows out in "
         "turns is not followed."},
        {"Holes.",
         "One discharge coefficient for each hole, from a correlation or from the file. Ten percent there moves the "
         "split between vessels by one to twenty percent."},
        {"Chamber.",
         "Steam and air are well mixed. Steam that runs from the coil straight to the vent, and a cold corner where "
         "air lies, are not seen: the coldest piece may be colder than the figure."},
        {"Load.",
         "Heat goes into each piece by conduction, with one conductivity and one heat capacity for the moisture "
         "given; pieces in a bag are taken as filled and in touch with the steam on all sides, unless they are "
         "said to be packed."},
        {"Openings.", "A leak twice as large as given can turn a time into never. Measure the gaps."},
        {"Weather.", "Air and wind are as the file gives them; sun and rain are left out."},
        {"Not decided here.",
         "Relief valves, strength, electrical and gas work, and whether a treatment is sufficient."},
    };
    page_doc_section(d, "limits", "What the model leaves out");
    page_doc_fold(d, "Show what the model leaves out");
    page_doc_list(d);
    for (size_t i = 0; i < sizeof limits / sizeof *limits; i++)
        page_doc_item(d, limits[i][0], "%s", limits[i][1]);
    page_doc_end(d);
    page_doc_end(d);
    page_doc_end(d);
}

/* ---- cautions ---- */

static void caution(void *context, const char *when, const char *text)
{
    fv_text lead = {0};
    fv_text_add(&lead, "%c%s:", when[0] - 'a' + 'A', when + 1);
    page_doc_item(context, page_doc_words(context, &lead), "%s", text);
    fv_text_free(&lead);
}

void page_cautions_list(page_doc *d)
{
    page_doc_list(d);
    print_cautions_each(d->v->plant, caution, d);
    page_doc_end(d);
}

void page_cautions(page_doc *d)
{
    page_doc_section(d, "cautions", "Cautions");
    page_cautions_list(d);
    page_doc_end(d);
}

/* ---- imprint ---- */

/* Below what a solve is asked for, digits are those of rounding, which no two mathematics libraries share. */
static print_shown within(double left)
{
    static const double ASKED = 1e-9;
    print_shown shown = {"1e-9"};
    if (!(left < ASKED))
        snprintf(shown.text, sizeof shown.text, "%.1e", left);
    return shown;
}

static void audit(page_doc *d)
{
    const fv_audit *audit = &d->v->flow->state->audit;
    page_doc_item(d, "Audit of the steady state:",
                  "steam in and out agree to %s of all steam at every joint, energy to %s of the boilers' heat, "
                  "pressures to %s bar, after %d steps",
                  within(audit->mass_relative).text, within(audit->energy_relative).text,
                  within(audit->pressure_residual / 1e5).text, audit->iterations);
    if (audit->rounded_off > 0)
        page_doc_item(
            d, "Smoothed switches:",
            "the switches of the model (a seal, a control, a line that runs dry) are smoothed over a share of %.0e",
            audit->rounded_off);
    if (!d->v->heat)
        return;
    const fv_heat_audit *heat = &d->v->heat->audit;
    page_doc_item(d, "Audit of the run:",
                  "of the heat supplied, all but %s is accounted for; the worst network solve closed to %s in mass and "
                  "%s in energy, over %zu steps and %zu solves",
                  within(heat->relative).text, within(heat->worst_mass).text, within(heat->worst_energy).text,
                  heat->steps, heat->solves);
}

void page_imprint(page_doc *d)
{
    const page_view *v = d->v;
    page_doc_section(d, "imprint", "Where this comes from");
    page_doc_fold(d, "Show file, program and audit");
    page_doc_list(d);
    page_doc_item(d, "Plant file:", "%s", v->plant->file ? v->plant->file : "built by a program");
    if (v->content->sha256)
        page_doc_item(d, "SHA-256 of it:", "%s", v->content->sha256);
    page_doc_item(d, "Program:", "farvessel %s", FV_VERSION);
    if (v->options->date)
        page_doc_item(d, "Date:", "%s", v->options->date);
    audit(d);
    page_doc_end(d);
    page_doc_end(d);
    page_doc_end(d);
}
