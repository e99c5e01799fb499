/* SPDX-License-Identifier: MIT */
/* The carry answer as a screen: the sentence, batches by number of vessels, staggers, holding, what could be bought. */
#include "report/carry/report.h"
#include "print/clock.h"
#include "print/screen.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static void say_setting(const fv_carry_answer *answer, fv_text *out)
{
    const fv_carry_row *most = &answer->rows[answer->row_count - 1];
    fv_text line = {0};
    if (answer->plant->title)
        fv_text_add(&line, "%s: ", answer->plant->title);
    fv_text_add(&line, "%zu vessel%s on the steam", answer->own, answer->own == 1 ? "" : "s");
    if (most->added > 0) {
        fv_text_add(&line, "; further ones are like %s, ",
                    answer->options.like ? answer->options.like
                                         : answer->plant->vessels[answer->plant->vessel_count - 1]->part.id);
        if (answer->options.at)
            fv_text_add(&line, "each on a hose from %s", answer->options.at);
        else
            fv_text_add(&line, "each further along like the last one");
    }
    fv_text_add(&line, "; fewer: the last ones shut off.");
    print_say(out, "", &line);
}

static void batches(const fv_carry_answer *answer, fv_unit_system units, fv_text *out)
{
    print_section(out, "A batch, by number of vessels");
    print_table_text(&report_carry_tables[CARRY_COUNTS], answer, units, out);
    print_sayf(out, "  ",
               "cores: hours:minutes from lighting the fire. starved: not within its allowed time, counted from the "
               "opening of its steam. treated a day: if the next fire is lit %s after the last hold; cooling is not "
               "waited for. limit: what, taken away, helps the last core most.",
               print_shown_time(answer->options.turnaround).text);
}

static void staggers(const fv_carry_answer *answer, fv_text *out)
{
    print_section(out, "The best stagger found (steam opened so long after the fire is lit)");
    for (size_t i = 0; i < answer->row_count; i++) {
        const fv_carry_row *row = &answer->rows[i];
        char lead[32];
        fv_text line = {0};
        snprintf(lead, sizeof lead, "  %zu  ", row->count);
        if (row->count < 2)
            fv_text_add(&line, "one alone needs none.");
        else if (row->stagger.count == 0)
            fv_text_add(&line, "nothing is better than all together.");
        else {
            report_carry_stagger(row, &line);
            fv_text_add(&line, row->staggered.carries ? "; the others at once." : "; the others at once. Not enough: ");
            if (!row->staggered.carries)
                fv_text_add(&line, "%zu starved.", row->staggered.starved);
        }
        print_say(out, lead, &line);
    }
}

static void holding(const fv_carry_answer *answer, fv_unit_system units, fv_text *out)
{
    print_section(out, "Only held at temperature, fire full");
    print_table_text(&report_carry_tables[CARRY_HOLDING], answer, units, out);
    print_sayf(out, "  ",
               "need: what all vessels lose; arrives: what reaches them. heat to need: of the least fed. least fire: "
               "turned down below it, the first vessel gets less than it loses; - for none down to 5 %%.");
}

static void way_cells(const fv_carry_answer *answer, const fv_carry_way *way, fv_unit_system units, print_grid *grid)
{
    char number[48];
    fv_text what = {0};
    report_carry_way(way, units, &what);
    print_grid_add(grid, what.text && !what.failed ? what.text : "");
    fv_text_free(&what);
    print_grid_add(grid, isnan(way->run.slowest) ? "never" : print_hours(way->run.slowest).text);
    snprintf(number, sizeof number, "%zu", way->run.starved);
    print_grid_add(grid, number);
    print_grid_add(grid, fv_show_number(units, FV_SHOW_MASS, way->run.mass_per_day, number, sizeof number));
    print_grid_add(grid, fv_show_number(units, FV_SHOW_ENERGY, way->run.fuel, number, sizeof number));
    print_grid_add(grid, fv_show_number(units, FV_SHOW_PRESSURE, way->run.pressure, number, sizeof number));
    snprintf(number, sizeof number, "%.0f", way->cost);
    print_grid_add(grid, isnan(way->cost) ? "?" : number);
    print_grid_add(grid, way->over_relief      ? "over relief"
                         : way->over_equipment ? "over 0.5 bar"
                         : way->meets          ? "does it"
                         : way->run.carries    ? "less a day"
                                               : "not enough");
    (void)answer;
}

static void ways(const fv_carry_answer *answer, fv_unit_system units, fv_text *out)
{
    const print_grid_column columns[] = {{"", "", true},
                                         {"last_core", "h:min", false},
                                         {"starved", "", false},
                                         {"treated_a day", fv_show_unit(units, FV_SHOW_MASS), false},
                                         {"fuel", fv_show_unit(units, FV_SHOW_ENERGY), false},
                                         {"boiler", fv_show_unit(units, FV_SHOW_PRESSURE), false},
                                         {"cost", answer->currency ? answer->currency : "", false},
                                         {"", "", true}};
    char title[128];
    bool common = false;
    if (answer->way_count == 0)
        return;
    print_grid *grid = print_grid_new(columns, sizeof columns / sizeof *columns);
    for (size_t i = 0; i < answer->way_count; i++) {
        way_cells(answer, &answer->ways[i], units, grid);
        common = common || (answer->ways[i].other != FV_CARRY_STAGGER && !answer->ways[i].from_stock);
    }
    snprintf(title, sizeof title, "Ways to treat %.30s a day in %zu vessels",
             print_shown_as(units, FV_SHOW_MASS, answer->wanted).text, answer->rows[answer->asked].count);
    print_section(out, title);
    print_grid_print(grid, out);
    print_grid_free(grid);
    print_sayf(out, "  ",
               "each bought way with all started together, the smallest size that does it, or the one that comes "
               "nearest. Lagging: on lines that have less, and around all walls.%s",
               common ? " Where the stock list names no such thing, common sizes are tried, without a price." : "");
}

void report_carry_notes(const report_frame *frame, print_notes *notes)
{
    const fv_carry_answer *answer = frame->answer;
    const fv_carry_row *row = &answer->rows[answer->asked];
    if (!isnan(row->together.without_limit))
        print_note_add(notes, "without_limit",
                       "%zu vessels together: with %s out of the way (twice as much of it) the last core would be done "
                       "after %s instead of %s.",
                       row->count, report_carry_limit_shown(row->together.limit),
                       print_shown_time(row->together.without_limit).text,
                       isnan(row->together.slowest) ? "never" : print_shown_time(row->together.slowest).text);
    if (answer->plant->boiler_count > 1)
        print_note_add(notes, "which_boiler", "A bigger boiler stands in place of %s.",
                       answer->plant->boilers[0]->part.id);
    print_note_add(notes, "starts", "What the file says of starts is left out; its other actions are kept.");
}

void report_carry_lead(const report_frame *frame, fv_text *out)
{
    say_setting(frame->answer, out);
}

void report_carry_table(const report_frame *frame, fv_text *out)
{
    batches(frame->answer, frame->units, out);
}

void report_carry_details(const report_frame *frame, fv_text *out)
{
    const fv_carry_answer *answer = frame->answer;
    staggers(answer, out);
    holding(answer, frame->units, out);
    ways(answer, frame->units, out);
}
