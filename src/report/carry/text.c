/* SPDX-License-Identifier: MIT */
/* The carry answer as a screen: the sentence, batches by number of vessels, staggers, holding, what could be bought. */
#include "report/carry/report.h"
#include "report/remedy.h"
#include "report/slip.h"
#include "report/step.h"
#include "print/clock.h"
#include "print/screen.h"

#include <math.h>
#include <stdio.h>

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
               "waited for. limit: what, taken away, helps the last core most; -: that was not looked for.",
               print_shown_time(answer->options.turnaround).text);
    if (answer->work) {
        fv_text line = {0};
        fv_text_add(&line, "with work: started together, with ");
        report_remedy(units, answer->work, &line);
        if (answer->does == FV_CARRY_WORKED)
            fv_text_add(&line, "; --save writes the plant with that done");
        fv_text_add(&line, ".");
        print_say(out, "  ", &line);
    }
}

static void hands_of(const fv_carry_row *row, fv_carry_manner manner, fv_unit_system units, fv_text *out)
{
    const bool staggered = manner == FV_CARRY_STAGGERED;
    const fv_plan_step *steps = staggered ? row->stagger_steps : row->throttle_steps;
    const size_t count = staggered ? row->stagger_step_count : row->throttle_step_count;
    const print_clock clock = {.start = NAN};
    const fv_carry_batch *batch = fv_carry_batch_of(row, manner);
    if (count == 0)
        return;
    print_sayf(out, "  ", "%zu vessels, %s%s:", row->count, report_carry_manner_word(manner),
               batch->carries ? "" : ", which is not enough");
    report_steps(row->plant, units, &clock, steps, count, true, out);
    report_steps(row->plant, units, &clock, steps, count, false, out);
    if (!staggered && batch->starved < row->count) { /* else there is nobody whom a slip could make late */
        fv_text slip = {0};
        report_slip(row->plant, &clock, &row->throttle_slip, NAN, &slip);
        print_say(out, "   ", &slip);
    }
}

/* For the numbers that the question is about: the present one, the one asked about, and what treats most a day. */
static void hands(const fv_carry_answer *answer, fv_unit_system units, fv_text *out)
{
    fv_text said = {0};
    for (size_t i = 0; i < answer->row_count; i++)
        if ((int)i == answer->present || (int)i == answer->asked || (int)i == answer->most)
            for (fv_carry_manner manner = FV_CARRY_STAGGERED; manner <= FV_CARRY_THROTTLED; manner++)
                hands_of(&answer->rows[i], manner, units, &said);
    if (said.length > 0) {
        print_section(out, "What hands do (hours:minutes from lighting the fire)");
        fv_text_add(out, "%s", said.failed ? "" : said.text);
        print_sayf(out, "  ", "The best of %zu handlings followed%s.", answer->plans,
                   answer->does == FV_CARRY_WORKED ? "" : "; --save keeps the one that the answer is about");
    }
    out->failed = out->failed || said.failed;
    fv_text_free(&said);
}

static void holding(const fv_carry_answer *answer, fv_unit_system units, fv_text *out)
{
    print_section(out, answer->work ? "Only held at temperature, fire full, that work not done"
                                    : "Only held at temperature, fire full");
    print_table_text(&report_carry_tables[CARRY_HOLDING], answer, units, out);
    print_sayf(out, "  ",
               "need: what all vessels lose; arrives: what reaches them. heat to need: of the least fed. least fire: "
               "below it the chamber of one falls under its target, walls soaked through; - where some are starved at "
               "full fire already, or none is down to 5 %%.");
}

static void way_cells(const fv_carry_answer *answer, const fv_carry_way *way, fv_unit_system units, print_grid *grid)
{
    char number[48], buffer[PRINT_WORD_SIZE];
    fv_text what = {0};
    report_carry_way(way, units, &what);
    print_grid_add(grid, print_word_take(&what, buffer));
    print_grid_add(grid, isnan(way->run.slowest) ? "never" : print_hours(way->run.slowest).text);
    print_grid_addf(grid, "%zu", way->run.starved);
    print_grid_show(grid, units, FV_SHOW_MASS, way->run.mass_per_day);
    print_grid_show(grid, units, FV_SHOW_ENERGY, way->run.fuel);
    print_grid_show(grid, units, FV_SHOW_PRESSURE, way->run.pressure);
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
    bool common = false, over = false;
    if (answer->way_count == 0)
        return;
    print_grid *grid = print_grid_new(columns, sizeof columns / sizeof *columns);
    for (size_t i = 0; i < answer->way_count; i++) {
        way_cells(answer, &answer->ways[i], units, grid);
        over = over || answer->ways[i].over_equipment;
        common = common || (!isnan(answer->ways[i].size) && !answer->ways[i].from_stock);
    }
    if (isnan(answer->wanted))
        snprintf(title, sizeof title, "Ways to carry %zu vessels", answer->rows[answer->asked].count);
    else
        snprintf(title, sizeof title, "Ways to treat %.30s a day in %zu vessels",
                 print_shown_as(units, FV_SHOW_MASS, answer->wanted).text, answer->rows[answer->asked].count);
    print_grid_section(grid, title, out);
    print_sayf(
        out, "  ",
        "each way but hands with all started together and no valve touched: the best work that needs no shop; of "
        "what is bought the smallest size that does it, or the one that comes nearest. Lagging: on lines that "
        "have less, and around all walls.%s",
        common ? " Where the stock list names no such thing, common sizes are tried, without a price." : "");
    if (over)
        print_sayf(out, "  ",
                   "over 0.5 bar: this way would put the boiler above it, whatever `holds` allows, and directive "
                   "2014/68/EU on pressure equipment applies there; above 15 psi (ASME BPVC Section IV) it would be no "
                   "low-pressure boiler any more, which is why no more is taken as `holds`. Vessels that are open to "
                   "the air need neither.");
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
    hands(answer, frame->units, out);
    holding(answer, frame->units, out);
    ways(answer, frame->units, out);
}
