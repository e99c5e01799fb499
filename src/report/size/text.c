/* SPDX-License-Identifier: MIT */
/* The size answer as a screen: the sentence, the choices, how they stand up, limits, holes against bore, how to try. */
#include "print/clock.h"
#include "print/screen.h"
#include "report/remedy.h"
#include "report/size/report.h"
#include "report/step.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { COLUMNS_MOST = 16 };

static void say_setting(const fv_size_answer *answer, fv_text *out)
{
    static const char *const goals[] = {"the earliest last core", "the most even split", "the lowest price",
                                        "the least fuel"};
    fv_text line = {0};
    if (answer->plant->title)
        fv_text_add(&line, "%s: ", answer->plant->title);
    fv_text_add(&line, "chosen for %s. ", goals[answer->options.goal]);
    report_size_search(answer, &line);
    print_say(out, "", &line);
}

/* ---- choices ---- */

/* The sizes of a part in a choice: "2", or "2-3" where they differ. */
static void part_cell(const fv_size_answer *answer, const fv_size_row *row, fv_size_part part, fv_unit_system units,
                      print_grid *grid)
{
    double least = INFINITY, most = -INFINITY;
    char a[32], b[32], cell[80];
    for (size_t i = 0; i < answer->dimension_count; i++) {
        const double value = row->sizes[i];
        if (answer->dimensions[i].part != part || isnan(value))
            continue;
        least = fmin(least, value);
        most = fmax(most, value);
    }
    snprintf(a, sizeof a, "%.30s", report_size_number(units, part, least).text);
    snprintf(b, sizeof b, "%.30s", report_size_number(units, part, most).text);
    snprintf(cell, sizeof cell, "%s%s%s", a, strcmp(a, b) ? "-" : "", strcmp(a, b) ? b : "");
    print_grid_add(grid, isfinite(least) ? cell : part == FV_SIZE_WORK ? "-" : "mixed");
}

static void figure_cells(const fv_size_figures *run, print_grid *grid)
{
    char cell[32];
    print_grid_add(grid, !run->ran ? "unsolved" : isnan(run->slowest) ? "never" : print_hours(run->slowest).text);
    snprintf(cell, sizeof cell, "%.2f", run->spread);
    print_grid_add(grid, run->ran && isfinite(run->spread) ? cell : "-");
    snprintf(cell, sizeof cell, "%zu", run->starved);
    print_grid_add(grid, run->ran ? cell : "-");
}

/* "fastest: 1; most even: 2, 3" */
static void legend(const fv_size_answer *answer, fv_text *out)
{
    static const unsigned marks[] = {FV_SIZE_IS_FASTEST, FV_SIZE_IS_MOST_EVEN, FV_SIZE_IS_CHEAPEST,
                                     FV_SIZE_IS_LEAST_FUEL, FV_SIZE_IS_BETWEEN};
    fv_text line = {0};
    for (size_t m = 0; m < sizeof marks / sizeof *marks; m++) {
        const char *gap = NULL;
        for (size_t i = 0; i < answer->row_count; i++) {
            if (!(answer->rows[i].marks & marks[m]))
                continue;
            if (!gap) {
                fv_text_add(&line, "%s", line.length ? "; " : "");
                report_size_marks(marks[m], true, "", &line);
            }
            fv_text_add(&line, "%s%s", gap ? gap : ": ", report_size_choice(i).text);
            gap = ", ";
        }
    }
    if (line.length > 0)
        fv_text_add(&line, ".");
    print_say(out, "  ", &line);
}

static bool is_varied(const fv_size_answer *answer, fv_size_part part)
{
    for (size_t i = 0; i < answer->dimension_count; i++)
        if (answer->dimensions[i].part == part)
            return true;
    return false;
}

static void choices(const fv_size_answer *answer, fv_unit_system units, fv_text *out)
{
    print_grid_column columns[COLUMNS_MOST] = {{"", "", true}};
    size_t count = 1;
    char number[64];
    for (fv_size_part part = 0; part < FV_SIZE_PARTS; part++)
        if (is_varied(answer, part))
            columns[count++] = (print_grid_column){
                fv_size_part_word(part),
                part == FV_SIZE_HOLES || part == FV_SIZE_WORK ? "" : fv_show_unit(units, FV_SHOW_BORE), false};
    columns[count++] = (print_grid_column){"last_core", "h:min", false};
    columns[count++] = (print_grid_column){"spread", "", false};
    columns[count++] = (print_grid_column){"starved", "", false};
    columns[count++] = (print_grid_column){"even", "", false};
    columns[count++] = (print_grid_column){"fuel", fv_show_unit(units, FV_SHOW_ENERGY), false};
    if (answer->priced)
        columns[count++] = (print_grid_column){"cost", answer->currency ? answer->currency : "", false};
    columns[count++] = (print_grid_column){"hands", "", false};
    columns[count++] = (print_grid_column){"limits", "", true};
    print_grid *grid = print_grid_new(columns, count);
    for (size_t i = 0; i < answer->row_count; i++) {
        const fv_size_row *row = &answer->rows[i];
        print_grid_add(grid, report_size_choice(i).text);
        for (fv_size_part part = 0; part < FV_SIZE_PARTS; part++)
            if (is_varied(answer, part))
                part_cell(answer, row, part, units, grid);
        figure_cells(&row->run, grid);
        print_grid_show(grid, units, FV_SHOW_NUMBER, row->checks[FV_LIMIT_EVENNESS].value);
        print_grid_show(grid, units, FV_SHOW_ENERGY, row->run.fuel);
        snprintf(number, sizeof number, "%s%.0f", row->unpriced ? ">" : "", row->cost);
        if (answer->priced)
            print_grid_add(grid, isnan(row->cost) ? "?" : number);
        print_grid_addf(grid, "%zu", row->step_count);
        print_grid_add(grid, report_size_first_broken(row) == FV_LIMITS ? "kept" : "broken");
    }
    print_grid_section(grid, "Choices, each followed from cold to the end of the hold", out);
    legend(answer, out);
    print_sayf(out, "  ",
               "last core: from lighting the fire; spread: slowest vessel / fastest; even: smallest flow of a "
               "hole / largest, in the worst coil%s; hands: things that they set or do; limits: broken no more than "
               "now, or kept. Each gains by 3 %% over all that costs less.",
               answer->priced
                   ? "; cost: what has to be bought, > where some of it has no price, lines by the metre, or the "
                     "foot where the stock list says per=\"ft\""
                   : "");
}

/* Who gets which size, where that differs from part to part. */
static void details(const fv_size_answer *answer, fv_unit_system units, fv_text *out)
{
    if (!answer->options.each)
        return;
    print_section(out, "Sizes, where they differ from now");
    for (size_t i = 1; i < answer->row_count; i++) {
        fv_text line = {0};
        char lead[32];
        snprintf(lead, sizeof lead, "  %-4.10s ", report_size_choice(i).text);
        report_size_what(answer, &answer->rows[i], units, &line);
        if (line.length == 0)
            fv_text_add(&line, "as now");
        print_say(out, lead, &line);
    }
}

static void margins(const fv_size_answer *answer, fv_text *out)
{
    static const print_grid_column columns[] = {
        {"", "", true},         {"as_designed", "h:min", false}, {"spread", "", false},
        {"starved", "", false}, {"clogged", "h:min", false},     {"spread", "", false},
        {"starved", "", false}, {"half_fire", "h:min", false},   {"spread", "", false},
        {"starved", "", false}};
    print_grid *grid = print_grid_new(columns, sizeof columns / sizeof *columns);
    for (size_t i = 0; i < answer->row_count; i++) {
        print_grid_add(grid, report_size_choice(i).text);
        figure_cells(&answer->rows[i].run, grid);
        figure_cells(&answer->rows[i].clogged, grid);
        figure_cells(&answer->rows[i].half_fire, grid);
    }
    print_grid_section(grid, "Last core if one hole in five clogs, and with the fire at half", out);
}

/* ---- limits ---- */

static const fv_size_row *row_in_question(const fv_size_answer *answer, size_t *index)
{
    *index = (size_t)answer->best;
    return &answer->rows[*index];
}

/* What to type for another limit, and why it is what it is where nothing else is said. */
static const struct {
    const char *name, *option, *reason;
} limit_words[FV_LIMITS] = {
    [FV_LIMIT_FED] = {"starved vessels", "", "each vessel has its own time, within="},
    [FV_LIMIT_SPREAD] = {"slowest / fastest vessel", "--spread", "common practice, no source"},
    [FV_LIMIT_EVENNESS] = {"evenness along the coil", "--evenness", "common practice, no source"},
    [FV_LIMIT_AREA] = {"hole area / bore", "--hole-area", "the published rule that applies, below"},
    [FV_LIMIT_PRESSURE] = {"boiler pressure", "--boiler-share",
                           "above it the control turns the fire down; common practice, no source"},
    [FV_LIMIT_VELOCITY] = {"velocity in lines", "--velocity", "the upper end for process steam; noise and wear"},
    [FV_LIMIT_BACKWARD] = {"against condensate", "--against-condensate",
                           "faster steam holds the water up; common practice, no source"},
    [FV_LIMIT_COIL_VELOCITY] = {"velocity in coils", "--coil-velocity",
                                "faster steam shares itself out unevenly; common practice, no source"},
    [FV_LIMIT_CHOKING] = {"choking lines and holes", "", "more pressure brings no more there"},
    [FV_LIMIT_VENT] = {"vessel, all steam in", "--lid-pressure",
                       "what a lid bears by its weight; common practice, no source"},
};

static void add_limit(const fv_size_answer *answer, const fv_size_check *c, fv_size_limit i, fv_unit_system units,
                      print_grid *grid)
{
    char margin[32], allowed[PRINT_SHOW_SIZE + 16];
    const bool whole = i == FV_LIMIT_FED || i == FV_LIMIT_CHOKING;
    snprintf(margin, sizeof margin, "%.0f", -100.0 * c->excess);
    snprintf(allowed, sizeof allowed, "%s %s",
             i == FV_LIMIT_EVENNESS ? ">=" : "<=", report_size_limit_shown(units, i, c->limit).text);
    print_grid_add(grid, limit_words[i].name);
    print_grid_add(grid, report_size_limit_shown(units, i, c->value).text);
    print_grid_add(grid, whole ? "none" : allowed);
    print_grid_add(grid, whole || !isfinite(c->excess) ? "" : margin);
    print_grid_add(grid, whole && !(c->excess > 0) ? "" : report_size_where(answer, i, c->at));
    print_grid_add(grid, limit_words[i].option);
}

static void limits(const fv_size_answer *answer, fv_unit_system units, fv_text *out)
{
    static const print_grid_column columns[] = {{"limit", "", true},    {"value", "", false}, {"allowed", "", false},
                                                {"margin", "%", false}, {"at", "", true},     {"option", "", true}};
    size_t index;
    const fv_size_row *row = row_in_question(answer, &index);
    print_grid *grid = print_grid_new(columns, sizeof columns / sizeof *columns);
    for (fv_size_limit i = 0; i < FV_LIMITS; i++)
        if (!isnan(row->checks[i].value))
            add_limit(answer, &row->checks[i], i, units, grid);
    char title[PRINT_SHOW_SIZE + 64];
    snprintf(title, sizeof title, "Limits of %s%s, all vessels heating", index ? "choice " : "the plant as it is",
             index ? report_size_choice(index).text : "");
    print_grid_section(grid, title, out);
    for (fv_size_limit i = 0; i < FV_LIMITS; i++)
        if (row->checks[i].excess > 0)
            print_sayf(out, "  ", "%s: broken%s. Why the limit: %s.", limit_words[i].name,
                       index ? ", but no more than now" : "", limit_words[i].reason);
}

static void coils(const fv_size_answer *answer, fv_text *out)
{
    static const print_grid_column columns[] = {{"vessel", "", true},           {"hole area_/ bore", "", false},
                                                {"even flow_<= 0.5", "", true}, {"spreader_1.5 to 2", "", true},
                                                {"applies", "", true},          {"evenness", "", false}};
    size_t index;
    const fv_size_row *row = row_in_question(answer, &index);
    print_grid *grid = print_grid_new(columns, sizeof columns / sizeof *columns);
    bool spreader = false, uniform = false;
    for (size_t i = 0; i < answer->plant->vessel_count; i++) {
        const fv_size_area *a = &row->areas[i];
        print_grid_add(grid, answer->plant->vessels[i]->part.id);
        print_grid_addf(grid, "%.2f", a->ratio);
        print_grid_add(grid, a->uniform_kept ? "kept" : "broken");
        print_grid_add(grid, a->spreader_kept ? "kept" : a->ratio < 1.5 ? "below" : "above");
        print_grid_add(grid, a->spreader_applies ? "spreader" : "even flow");
        print_grid_addf(grid, "%.2f", a->evenness);
        spreader = spreader || a->spreader_applies;
        uniform = uniform || !a->spreader_applies;
    }
    print_grid_section(grid, "Holes against the coil's bore: two published rules that contradict", out);
    if (uniform)
        print_sayf(out, "  ",
                   "even flow (spargers, holes at most half the bore) applies: here the holes themselves share the "
                   "steam out.%s",
                   spreader ? ""
                            : " The retort spreader's 1.5 to 2 is right only where a held pressure is throttled "
                              "before the coil.");
    if (spreader)
        print_sayf(out, "  ",
                   "spreader (FDA guide to low-acid canned foods) applies where the boiler holds its pressure and "
                   "most of it is lost before the coil.");
}

/* ---- how to try it, and what else ---- */

static void to_do(const fv_size_answer *answer, fv_unit_system units, fv_text *out)
{
    size_t index;
    const fv_size_row *row = row_in_question(answer, &index);
    const print_clock clock = {.start = NAN};
    if (row->step_count == 0)
        return;
    char title[PRINT_SHOW_SIZE + 96];
    snprintf(title, sizeof title, "What hands do for choice %s (hours:minutes from lighting the fire)",
             report_size_choice(index).text);
    print_section(out, title);
    report_steps(answer->plant, units, &clock, row->steps, row->step_count, true, out);
    report_steps(answer->plant, units, &clock, row->steps, row->step_count, false, out);
}

/* As a shell takes it. */
static void try_it(const fv_size_answer *answer, fv_text *out)
{
    size_t index;
    const fv_size_row *row = row_in_question(answer, &index);
    char title[PRINT_SHOW_SIZE + 64];
    if (row->change.count + row->change.action_count == 0)
        return;
    snprintf(title, sizeof title, "To try choice %s", report_size_choice(index).text);
    print_section(out, title);
    fv_text_add(out, "  ");
    report_command(answer->plant, "heat", &row->change, " \\\n    ", out);
    fv_text_add(out, "\n");
    print_sayf(out, "  ", "To keep it as a plant file: --save FILE.");
}

static void note_vent(const fv_size_answer *answer, const fv_size_row *row, fv_unit_system units, print_notes *notes)
{
    fv_text line = {0};
    report_size_broken(answer, row, FV_LIMIT_VENT, units, &line);
    print_note_add(notes, "vent_small", "%s; no size of what is varied mends that: give it a larger vent.",
                   line.text ? line.text : "");
    notes->failed = notes->failed || line.failed;
    fv_text_free(&line);
}

static void list_parts(unsigned parts, const char *between, fv_text *words)
{
    for (fv_size_part part = 0; part < FV_SIZE_WORK; part++)
        if (parts >> part & 1u)
            fv_text_add(words, "%s%s", words->length ? between : "", fv_size_part_word(part));
}

static void note_common(const fv_size_answer *answer, print_notes *notes)
{
    fv_text words = {0};
    list_parts(answer->common, ", ", &words);
    print_note_add(notes, "common_sizes",
                   "<stock> lists no sizes of these, so common ones were tried: %s. Whether they can be had, and what "
                   "they cost, the plant file does not say.",
                   words.text ? words.text : "");
    notes->failed = notes->failed || words.failed;
    fv_text_free(&words);
}

static void note_further(const fv_size_answer *answer, print_notes *notes)
{
    fv_text words = {0};
    list_parts(answer->could_vary, ",", &words);
    print_note_add(notes, "could_vary", "Not varied, but possible: --vary %s%s", words.text ? words.text : "",
                   answer->options.each ? "." : "; --each sizes every vessel and line for itself.");
    notes->failed = notes->failed || words.failed;
    fv_text_free(&words);
}

void report_size_notes(const report_frame *frame, print_notes *notes)
{
    const fv_size_answer *answer = frame->answer;
    size_t index;
    const fv_size_row *row = row_in_question(answer, &index);
    if (row->checks[FV_LIMIT_VENT].excess > 0)
        note_vent(answer, row, frame->units, notes);
    if (answer->could_vary)
        note_further(answer, notes);
    if (answer->common)
        note_common(answer, notes);
    if (is_varied(answer, FV_SIZE_HOSE) || is_varied(answer, FV_SIZE_HEADER))
        print_note_add(notes, "barbs",
                       "Barbs and unions are exchanged with their line and keep their share of its bore; their price "
                       "is not counted.");
    if (answer->priced)
        print_note_add(notes, "prices",
                       "Prices: lines by their length; a new coil pipe where its bore changes or holes would have to "
                       "close or move; a drill for each size that no coil has now.");
}

void report_size_lead(const report_frame *frame, fv_text *out)
{
    say_setting(frame->answer, out);
}

void report_size_table(const report_frame *frame, fv_text *out)
{
    choices(frame->answer, frame->units, out);
    to_do(frame->answer, frame->units, out);
}

void report_size_details(const report_frame *frame, fv_text *out)
{
    const fv_size_answer *answer = frame->answer;
    details(answer, frame->units, out);
    margins(answer, out);
    limits(answer, frame->units, out);
    coils(answer, out);
    try_it(answer, out);
}
