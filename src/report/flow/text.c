/* SPDX-License-Identifier: MIT */
/* The flow answer as a screen: the sentence first, then tables, notes, audit, cautions. */
#include "report/flow/report.h"
#include "print/screen.h"
#include "print/show.h"

#include <stdio.h>
#include <math.h>
#include <string.h>

typedef void (*sentence)(const fv_flow_answer *answer, fv_unit_system units, fv_text *out);

static void paragraph(const fv_flow_answer *answer, fv_unit_system units, const char *lead, sentence say, fv_text *out)
{
    fv_text line = {0};
    say(answer, units, &line);
    print_say(out, lead, &line);
}

static void say_setting(const fv_flow_answer *answer, fv_unit_system units, fv_text *out)
{
    const fv_steady_result *state = answer->state;
    const char *title = answer->plant->title;
    size_t by_phase[3] = {0};
    for (size_t i = 0; i < state->vessel_count; i++)
        by_phase[report_vessel_phase(answer, i)]++;
    fv_text_add(out, "%s%s", title ? title : "", title ? ": " : "");
    for (int phase = 0; phase < 3; phase++)
        if (by_phase[phase] > 0)
            fv_text_add(out, "%zu %s %s, ", by_phase[phase], by_phase[phase] == 1 ? "vessel" : "vessels",
                        report_phase_word((fv_phase)phase));
    fv_text_add(out, "fire %s.", print_shown_said(units, FV_SHOW_SHARE, answer->options.fire).text);
    fv_text_add(out, " Water boils at %s here; air %s, wind %s. Pressures are above the air's.",
                print_shown_as(units, FV_SHOW_TEMPERATURE, state->boiling_point).text,
                print_shown_as(units, FV_SHOW_TEMPERATURE, state->t_air).text,
                print_shown_as(units, FV_SHOW_WIND, state->wind).text);
}

static void vessel_words(fv_text *out)
{
    print_sayf(out, "  ",
               "need: heat to its target in the time allowed, or what holding takes. As things are at this moment, "
               "starved: its core misses that time; lagging: less than %g of it is to spare; fed: the rest; unsettled: "
               "one moment does not tell, ask heat. evenness: smallest flow of a hole / largest.",
               FV_SPARE_LEAST);
}

/* What the words in the boilers' table mean, only those that occur. */
static void boiler_words(const fv_steady_result *state, fv_text *out)
{
    static const char *const meanings[] = {
        "full: gives all it can at this fire; the pressure follows from what the plant lets through.",
        "holding: its control holds the pressure and lets it make less than it could.",
        "blocked: the other boilers' pressure keeps its non-return valve shut.",
        "off: no fire.",
    };
    bool occurs[4] = {false};
    for (size_t i = 0; i < state->boiler_count; i++)
        occurs[state->boilers[i].state] = true;
    for (size_t i = 0; i < 4; i++)
        if (occurs[i])
            print_paragraph(out, "  ", meanings[i]);
}

/* Litres, or gallons, of cold water an hour, and how long they last where nobody feeds it. */
static void water_words(const fv_flow_answer *answer, fv_unit_system units, fv_text *out)
{
    for (size_t i = 0; i < answer->state->boiler_count; i++) {
        const fv_boiler_result *b = &answer->state->boilers[i];
        const char *name = answer->plant->boilers[i]->part.id;
        const print_shown hourly = print_shown_as(units, FV_SHOW_VOLUME, (b->steam + b->carried_water) * 3.6);
        if (!isnan(b->dry_in))
            print_sayf(out, "  ", "%s takes %s of water an hour at this fire, and nobody feeds it: it is dry after %s.",
                       name, hourly.text, print_shown_time(b->dry_in).text);
        else if (b->steam > 0)
            print_sayf(out, "  ", "%s takes %s of water an hour at this fire.", name, hourly.text);
    }
}

/* "6.9 fed": heat and verdict of a vessel at one setting; "6.9 ?" where it is unsettled, for five of the word do not
 * fit a row. True where that is so. */
static bool turndown_cell(const fv_turndown_row *row, size_t vessel, fv_unit_system units, print_grid *grid)
{
    char number[32];
    if (!row->state) {
        print_grid_add(grid, "unsolved");
        return false;
    }
    const fv_vessel_result *v = &row->state->vessels[vessel];
    fv_show_number(units, FV_SHOW_POWER, v->heat, number, sizeof number);
    print_grid_addf(grid, "%s %s", number, v->unsettled ? "?" : fv_verdict_word(v->verdict));
    return v->unsettled;
}

static void turndown(const fv_flow_answer *answer, fv_unit_system units, fv_text *out)
{
    enum { MOST = 6 };
    size_t count = answer->turndown_count < MOST ? answer->turndown_count : MOST;
    print_grid_column columns[1 + MOST] = {{"fire", "", true}};
    print_shown fires[MOST];
    bool unsettled = false;
    for (size_t i = 0; i < count; i++) {
        fires[i] = print_shown_said(units, FV_SHOW_SHARE, answer->turndown[i].fire);
        columns[1 + i] = (print_grid_column){fires[i].text, "", false};
    }
    print_grid *grid = print_grid_new(columns, 1 + count);
    print_grid_add(grid, "output");
    for (size_t i = 0; i < count; i++)
        print_grid_add(grid,
                       answer->turndown[i].state
                           ? print_shown_as(units, FV_SHOW_POWER, answer->turndown[i].state->audit.heat_total).text
                           : "-");
    for (size_t v = 0; v < answer->state->vessel_count; v++) {
        print_grid_add(grid, answer->plant->vessels[v]->part.id);
        for (size_t i = 0; i < count; i++)
            unsettled |= turndown_cell(&answer->turndown[i], v, units, grid);
    }
    fv_text_add(out, "\nIf the fire is turned down: heat to each vessel, %s\n", fv_show_unit(units, FV_SHOW_POWER));
    print_grid_print(grid, out);
    if (unsettled)
        print_paragraph(out, "  ", "?: unsettled.");
    paragraph(answer, units, "  ", report_dropout_sentence, out);
}

/* Only a ring or a second boiler can send steam against the way that the file names. */
static void line_words(const fv_steady_result *state, fv_text *out)
{
    bool backwards = false;
    for (size_t i = 0; i < state->line_count; i++)
        backwards = backwards || state->lines[i].flow_to < 0;
    if (backwards)
        print_sayf(out, "  ", "below 0: the other way, from `to` to `from`; flow to is then what leaves `to`.");
}

/* In the unit of the kind, but for its zero. */
static print_shown off_by(fv_unit_system units, fv_show show, double si)
{
    const double value = fv_show_value(units, show, si);
    print_shown shown = print_tiny(value);
    const size_t length = strlen(shown.text);
    snprintf(shown.text + length, sizeof shown.text - length, " %s", fv_show_unit(units, show));
    return shown;
}

void report_flow_method(const report_frame *frame, fv_text *out)
{
    const fv_audit *audit = &((const fv_flow_answer *)frame->answer)->state->audit;
    const fv_unit_system units = frame->units;
    fv_text_add(out, "Audit: steam in and out agree to %s at every joint (%s of all steam), energy to %s (%s of the ",
                off_by(units, FV_SHOW_STEAM, audit->mass_imbalance).text, print_tiny(audit->mass_relative).text,
                off_by(units, FV_SHOW_POWER, audit->energy_imbalance).text, print_tiny(audit->energy_relative).text);
    fv_text_add(out, "boilers' heat), pressures to %s, after %d steps.",
                off_by(units, FV_SHOW_PRESSURE, audit->pressure_residual).text, audit->iterations);
    if (audit->rounded_off > 0)
        fv_text_add(out,
                    " Switches of the model (a seal, a control, a line that runs dry) are smoothed over a share of %s.",
                    print_tiny(audit->rounded_off).text);
}

void report_flow_lead(const report_frame *frame, fv_text *out)
{
    paragraph(frame->answer, frame->units, "", say_setting, out);
}

void report_flow_table(const report_frame *frame, fv_text *out)
{
    report_frame_table(frame, FLOW_VESSELS, "Vessels", out);
    if (!frame->brief)
        vessel_words(out);
}

void report_flow_reasons(const report_frame *frame, fv_text *out)
{
    const fv_flow_answer *answer = frame->answer;
    if (answer->turndown_count > 0)
        turndown(answer, frame->units, out);
}

void report_flow_details(const report_frame *frame, fv_text *out)
{
    const fv_flow_answer *answer = frame->answer;
    report_frame_table(frame, FLOW_BOILERS, "Boilers", out);
    boiler_words(answer->state, out);
    water_words(answer, frame->units, out);
    report_frame_table(frame, FLOW_LINES, "Lines (flow to: steam that arrives; velocity: the largest)", out);
    line_words(answer->state, out);
}
