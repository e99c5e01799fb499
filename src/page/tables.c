/* SPDX-License-Identifier: MIT */
/* The tables of the page. Those of one moment come from the same rows as text, JSON and CSV. */
#include "print/cells.h"
#include "report/flow/report.h"
#include "page/parts.h"

#include <math.h>
#include <string.h>

enum { MOST_FIELDS = 40, MOST_SETTINGS = 8 };

/* ---- a table that text, JSON and CSV have, too ---- */

static void cell(page_doc *d, const print_table *table, const void *answer, const print_field *field, size_t row)
{
    char buffer[PRINT_WORD_SIZE];
    const char *text = print_cell_text(table, field, answer, row, d->v->units, buffer);
    for (int verdict = FV_FED; verdict <= FV_SHUT_OFF; verdict++)
        if (strcmp(field->name, "verdict") == 0 && strcmp(text, fv_verdict_word((fv_verdict)verdict)) == 0) {
            page_doc_cell_verdict(d, (fv_verdict)verdict, text);
            return;
        }
    page_doc_cell(d, "%s", text);
    if (text == print_no_memory)
        page_doc_fail(d);
}

/* Columns that stand behind the first one: what was measured. */
typedef struct {
    const page_doc_column *columns;
    size_t count;
    void (*cells)(page_doc *d, size_t row);
} measured;

static void shared_table(page_doc *d, const print_table *table, const void *answer, const char *caption,
                         const measured *more)
{
    page_doc_column columns[MOST_FIELDS];
    const print_field *fields[MOST_FIELDS] = {NULL};
    size_t count = 0;
    for (size_t i = 0; i < table->field_count && count < MOST_FIELDS; i++) {
        const print_field *field = &table->fields[i];
        if (!print_cell_is_shown(table, field, answer))
            continue;
        bool number = print_field_is_number(field);
        columns[count] = (page_doc_column){field->name, number ? page_view_unit(d->v, field->show) : "",
                                           number ? DOC_NUMBER : DOC_WORD};
        fields[count++] = field;
        for (size_t k = 0; more && i == 0 && k < more->count && count < MOST_FIELDS; k++) {
            columns[count] = more->columns[k];
            fields[count++] = NULL;
        }
    }
    if (table->rows(answer) == 0)
        return;
    page_doc_table(d, caption, columns, count);
    for (size_t row = 0; row < table->rows(answer); row++)
        for (size_t i = 0; i < count; i++)
            if (fields[i])
                cell(d, table, answer, fields[i], row);
            else if (more && i > 0 && fields[i - 1])
                more->cells(d, row);
    page_doc_table_end(d);
}

void page_table(page_doc *d, const print_table *table, const void *answer, const char *caption)
{
    shared_table(d, table, answer, caption, NULL);
}

static void steady_table(page_doc *d, int which, const char *caption, const measured *more)
{
    shared_table(d, &report_flow_tables[which], d->v->flow, caption, more);
}

/* The number alone, as the column names the unit. */
static void number(page_doc *d, fv_show show, double si)
{
    char buffer[32];
    page_doc_cell(d, "%s", fv_show_number(d->v->units, show, si, buffer, sizeof buffer));
}

/* ---- vessels ---- */

static void run_of_vessels(page_doc *d)
{
    const page_view *v = d->v;
    const char *kelvin = page_view_unit(v, FV_SHOW_TEMPERATURE), *mass = page_view_unit(v, FV_SHOW_MASS);
    const page_doc_column columns[] = {
        {"vessel", "", DOC_WORD},
        {"verdict", "", DOC_WORD},
        {"target", kelvin, DOC_NUMBER},
        {"core at target after", "", DOC_NUMBER},
        {"allowed", "", DOC_NUMBER},
        {"with ample steam", "", DOC_NUMBER},
        {"core at end", kelvin, DOC_NUMBER},
        {"longest hold", "", DOC_NUMBER},
        {"cool at", "", DOC_NUMBER},
        {"steam taken", mass, DOC_NUMBER},
        {"vented", mass, DOC_NUMBER},
        {"lethality", "min", DOC_NUMBER},
    };
    page_doc_table(d, "Vessels over the run", columns, sizeof columns / sizeof *columns);
    for (size_t i = 0; i < v->heat->vessel_count; i++) {
        const fv_vessel_history *h = &v->heat->vessels[i];
        const fv_vessel *vessel = v->plant->vessels[i];
        page_doc_cell(d, "%s", page_view_vessel(v, i));
        page_doc_cell_verdict(d, page_view_verdict(v, i), page_view_outcome(v, i));
        number(d, FV_SHOW_TEMPERATURE, fv_or(vessel->target, NAN));
        page_doc_cell(d, "%s", page_view_verdict(v, i) == FV_SHUT_OFF ? "-" : page_view_arrival(v, i).text);
        page_doc_cell(d, "%s", page_view_duration(fv_or(vessel->within, NAN)).text);
        page_doc_cell(d, "%s", page_view_duration(h->core_ample).text);
        number(d, FV_SHOW_TEMPERATURE, h->core_end);
        page_doc_cell(d, "%s", page_view_duration(h->hold_longest).text);
        page_doc_cell(d, "%s", page_view_time(v, h->cool).text);
        number(d, FV_SHOW_MASS, h->steam);
        number(d, FV_SHOW_MASS, h->vented);
        number(d, FV_SHOW_NUMBER, h->lethality / 60.0);
    }
    page_doc_table_end(d);
    page_doc_paragraph(
        d, "hint",
        "Starved: the core does not reach its target in the time allowed. Lagging: it does, with less than "
        "%g %% of it to spare. Fed: the rest. Lethality counts minutes at the "
        "reference temperature that the file gives.",
        100 * FV_SPARE_LEAST);
}

void page_vessels_over_run(page_doc *d)
{
    if (d->v->heat)
        run_of_vessels(d);
}

void page_vessels(page_doc *d)
{
    steady_table(d, FLOW_VESSELS, d->v->heat ? "Vessels at one moment, as the file sets them" : "Vessels", NULL);
    page_doc_paragraph(
        d, "hint",
        "In this table need is what brings a vessel to its target in the time allowed, or what holding takes; "
        "starved gets less, lagging less than %g times it. Evenness is the smallest flow of a hole over the "
        "largest. Pressures are above the air's.",
        1 / (1 - FV_SPARE_LEAST));
}

/* ---- timeline ---- */

static void add_event(page_doc *d, const fv_heat_event *h)
{
    const char *part = report_event_part(&d->v->words, h);
    fv_text words = {0};
    report_event_text(&d->v->words, h, part, &words);
    page_doc_cell(d, "%s", page_view_time(d->v, h->time).text);
    page_doc_cell(d, "%s", page_doc_words(d, &words));
    fv_text_free(&words);
}

/* What each vessel goes through has a table of its own where there are many. */
static bool is_stage(fv_heat_event_kind kind)
{
    return kind == FV_HEAT_EVENT_STEAM_ON || kind == FV_HEAT_EVENT_FULL || kind == FV_HEAT_EVENT_CORE ||
           kind == FV_HEAT_EVENT_HOLD || kind == FV_HEAT_EVENT_COOL || kind == FV_HEAT_EVENT_SHUT;
}

static void stages(page_doc *d)
{
    static const page_doc_column columns[] = {
        {"vessel", "", DOC_WORD},           {"steam enters", "", DOC_NUMBER}, {"chamber full", "", DOC_NUMBER},
        {"core at target", "", DOC_NUMBER}, {"hold over", "", DOC_NUMBER},    {"cool, to inoculate", "", DOC_NUMBER},
    };
    page_doc_table(d, "When each vessel gets where", columns, sizeof columns / sizeof *columns);
    for (size_t i = 0; i < d->v->heat->vessel_count; i++) {
        const fv_vessel_history *h = &d->v->heat->vessels[i];
        const double times[] = {h->steam_on, h->full, h->core, h->hold, h->cool};
        page_doc_cell(d, "%s", page_view_vessel(d->v, i));
        for (size_t k = 0; k < sizeof times / sizeof *times; k++)
            page_doc_cell(d, "%s", page_view_time(d->v, times[k]).text);
    }
    page_doc_table_end(d);
}

void page_timeline(page_doc *d)
{
    static const page_doc_column columns[] = {{"time", "", DOC_WORD}, {"what happens", "", DOC_PROSE}};
    const fv_heat_result *heat = d->v->heat;
    bool begun = false;
    if (!heat)
        return;
    if (d->v->many)
        stages(d);
    for (size_t i = 0; i < heat->event_count; i++) {
        if ((d->v->many && is_stage(heat->events[i].kind)) || report_event_is_said(heat, i))
            continue;
        if (!begun)
            page_doc_table(d, d->v->many ? "What else happens" : "What happens when", columns, 2);
        begun = true;
        add_event(d, &heat->events[i]);
    }
    if (begun)
        page_doc_table_end(d);
}

/* ---- coils ---- */

static void said(page_doc *d, fv_show show, fv_value value)
{
    page_doc_cell(d, "%s", fv_is_set(value) ? print_shown_said(d->v->units, show, value.v).text : "-");
}

void page_coils(page_doc *d)
{
    static const page_doc_column columns[] = {
        {"vessel", "", DOC_WORD},  {"coil bore", "", DOC_NUMBER}, {"coil length", "", DOC_NUMBER},
        {"holes", "", DOC_NUMBER}, {"drill", "", DOC_NUMBER},     {"spacing", "", DOC_NUMBER},
    };
    const fv_plant *plant = d->v->plant;
    page_doc_table(d, "Coils and holes as measured", columns, sizeof columns / sizeof *columns);
    for (size_t i = 0; i < plant->vessel_count; i++) {
        const fv_coil *coil = &plant->vessels[i]->coil;
        page_doc_cell(d, "%s", page_view_vessel(d->v, i));
        said(d, FV_SHOW_BORE, coil->bore);
        said(d, FV_SHOW_LENGTH, coil->length);
        page_doc_cell(d, "%zu", d->v->flow->state->vessels[i].hole_count);
        said(d, FV_SHOW_BORE, coil->drill);
        said(d, FV_SHOW_BORE, coil->spacing);
    }
    page_doc_table_end(d);
}

/* ---- lines, boilers ---- */

static void line_sizes(page_doc *d, size_t row)
{
    said(d, FV_SHOW_BORE, d->v->plant->lines[row]->bore);
    said(d, FV_SHOW_LENGTH, d->v->plant->lines[row]->length);
}

void page_lines(page_doc *d)
{
    const page_doc_column columns[] = {{"bore", "", DOC_NUMBER}, {"length", "", DOC_NUMBER}};
    const measured more = {columns, 2, line_sizes};
    steady_table(d, FLOW_LINES, "Lines at one moment: steam that arrives, largest velocity, drop, condensate", &more);
}

static void fuel_and_water(page_doc *d)
{
    const page_view *v = d->v;
    const char *mass = page_view_unit(v, FV_SHOW_MASS), *energy = page_view_unit(v, FV_SHOW_ENERGY);
    const page_doc_column columns[] = {
        {"boiler", "", DOC_WORD},
        {"gives steam from", "", DOC_NUMBER},
        {"steam", mass, DOC_NUMBER},
        {"water", page_view_unit(v, FV_SHOW_WATER), DOC_NUMBER},
        {"fuel", energy, DOC_NUMBER},
        {"fuel", mass, DOC_NUMBER},
        {"most steam", page_view_unit(v, FV_SHOW_STEAM), DOC_NUMBER},
        {"highest pressure", page_view_unit(v, FV_SHOW_PRESSURE), DOC_NUMBER},
        {"out of water", "", DOC_NUMBER},
    };
    page_doc_table(d, "Fuel and water over the run", columns, sizeof columns / sizeof *columns);
    for (size_t i = 0; i < v->heat->boiler_count; i++) {
        const fv_boiler_history *h = &v->heat->boilers[i];
        page_doc_cell(d, "%s", v->plant->boilers[i]->part.id);
        page_doc_cell(d, "%s", page_view_time(v, h->steam_up).text);
        number(d, FV_SHOW_MASS, h->steam);
        number(d, FV_SHOW_WATER, h->water);
        number(d, FV_SHOW_ENERGY, h->fuel);
        number(d, FV_SHOW_MASS, v->words.fuels[i].fuel_mass);
        number(d, FV_SHOW_STEAM, h->steam_most);
        number(d, FV_SHOW_PRESSURE, h->pressure_most);
        page_doc_cell(d, "%s", page_view_time(v, h->dry).text);
    }
    page_doc_table_end(d);
}

void page_boilers(page_doc *d)
{
    if (d->v->heat)
        fuel_and_water(d);
    steady_table(d, FLOW_BOILERS, "Boilers at one moment", NULL);
}

/* ---- turn-down ---- */

void page_turndown(page_doc *d)
{
    const fv_flow_answer *flow = d->v->flow;
    page_doc_column columns[1 + MOST_SETTINGS] = {{"fire", "", DOC_WORD}};
    print_shown fires[MOST_SETTINGS];
    size_t count = flow->turndown_count < MOST_SETTINGS ? flow->turndown_count : MOST_SETTINGS;
    fv_text dropout = {0};
    char buffer[32];
    if (count == 0)
        return;
    for (size_t i = 0; i < count; i++) {
        fires[i] = print_shown_said(d->v->units, FV_SHOW_SHARE, flow->turndown[i].fire);
        columns[1 + i] = (page_doc_column){fires[i].text, page_view_unit(d->v, FV_SHOW_POWER), DOC_NUMBER};
    }
    page_doc_table(d, "Heat to each vessel if the fire is turned down", columns, 1 + count);
    for (size_t v = 0; v < flow->state->vessel_count; v++) {
        page_doc_cell(d, "%s", page_view_vessel(d->v, v));
        for (size_t i = 0; i < count; i++) {
            const fv_steady_result *state = flow->turndown[i].state;
            if (!state)
                page_doc_cell(d, "unsolved");
            else
                page_doc_cell(d, "%s %s",
                              fv_show_number(d->v->units, FV_SHOW_POWER, state->vessels[v].heat, buffer, sizeof buffer),
                              report_predicted_word(&state->vessels[v]));
        }
    }
    page_doc_table_end(d);
    report_dropout_sentence(flow, d->v->units, &dropout);
    page_doc_paragraph(d, "hint", "%s", page_doc_words(d, &dropout));
    fv_text_free(&dropout);
}
