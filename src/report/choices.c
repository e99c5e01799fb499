/* SPDX-License-Identifier: MIT */
#include "report/choices.h"

#include "print/fields.h"
#include "print/json.h"
#include "print/screen.h"

#include <math.h>
#include <stdio.h>

static const report_choices *of(const void *answer)
{
    return answer;
}

static const fv_choice_odds *row_of(const void *answer, size_t i)
{
    return &of(answer)->answer->rows[i];
}

static bool is_pick(const fv_choices_answer *a, size_t i)
{
    return a->rows[i].choice->pick == i;
}

static print_shown when(const print_clock *clock, double time)
{
    const print_shown never = {"never"};
    return isinf(time) || isnan(time) ? never : print_when(clock, time);
}

static print_shown percent(double chance)
{
    print_shown shown;
    snprintf(shown.text, sizeof shown.text, "%.0f", 100 * chance);
    return shown;
}

static print_shown minutes(double seconds)
{
    print_shown shown = {"-"};
    if (isfinite(seconds))
        snprintf(shown.text, sizeof shown.text, "%ld", lround(seconds / 60));
    return shown;
}

/* ---- choices ---- */

ROWS(choice_rows, of(answer)->answer->count)
ROW(choice_row, row_of(answer, i))
ROW(choice, row_of(answer, i)->choice)

/* Against the pick. */
static const char *standing(const fv_choice_odds *row)
{
    return isnan(row->behind.middle) ? "" : row->tie ? "tie" : row->behind.middle > 0 ? "later" : "earlier";
}
WORD_OF(choice_standing, standing(row_of(answer, i)))

#define C(name, unit, member) NUMBER(fv_choice_odds, name, member, unit, IN_DATA, FV_SHOW_NUMBER)
static const print_field choice_fields[] = {
    PART_TEXT(fv_choice, "choice", name, IN_DATA),
    WORD("against_pick", IN_DATA, choice_standing),
    C("last_core_now", "_s", now),
    BAND(fv_choice_odds, "last_core", last, "_s"),
    BAND(fv_choice_odds, "gain", gain, "_s"),
    BAND(fv_choice_odds, "behind", behind, "_s"),
    FLAG(fv_choice_odds, "tie", tie, IN_DATA),
    C("chance_all_within", "", all_within),
    C("chance_all_within_error", "", all_within_error),
    COUNT(fv_choice_odds, "runs_failed", failed, IN_DATA),
};
const print_table report_choices_table = {"odds", FIELDS(choice_fields), choice_rows, choice_row, choice};

/* ---- vessels of each choice ---- */

static const fv_choice_vessel *vessel_of(const void *answer, size_t i, const fv_choice_odds **row)
{
    for (*row = of(answer)->answer->rows; i >= (*row)->vessel_count; (*row)++)
        i -= (*row)->vessel_count;
    return &(*row)->vessels[i];
}

static size_t vessel_rows(const void *answer)
{
    size_t count = 0;
    for (size_t i = 0; i < of(answer)->answer->count; i++)
        count += row_of(answer, i)->vessel_count;
    return count;
}

static const void *vessel_row(const void *answer, size_t i)
{
    return vessel_of(answer, i, &(const fv_choice_odds *){NULL});
}

static const void *vessel_choice(const void *answer, size_t i)
{
    const fv_choice_odds *row;
    vessel_of(answer, i, &row);
    return row->choice;
}

static const print_field vessel_fields[] = {
    PART_TEXT(fv_choice, "choice", name, IN_DATA),
    TEXT(fv_choice_vessel, "vessel", id, IN_DATA),
    NUMBER(fv_choice_vessel, "core_now", now, "_s", IN_DATA, FV_SHOW_NUMBER),
    BAND(fv_choice_vessel, "core", core, "_s"),
    NUMBER(fv_choice_vessel, "chance_within", within, "", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_choice_vessel, "chance_within_error", within_error, "", IN_DATA, FV_SHOW_NUMBER),
};
const print_table report_choices_vessels_table = {"odds_vessels", FIELDS(vessel_fields), vessel_rows, vessel_row,
                                                  vessel_choice};

/* ---- in words ---- */

static void say_gain(const fv_choice_odds *row, const fv_choice_odds *base, fv_text *out)
{
    const fv_band *g = &row->gain;
    if (g->low <= 0 && g->high >= 0)
        fv_text_add(
            out,
            "\"%s\" is a tie with \"%s\": it gains %s min in the middle, but eight times in ten between %s and %s.",
            row->choice->name, base->choice->name, minutes(g->middle).text, minutes(g->low).text,
            minutes(g->high).text);
    else
        fv_text_add(out, "\"%s\" gains %s min over \"%s\", eight times in ten between %s and %s.", row->choice->name,
                    minutes(g->middle).text, base->choice->name, minutes(g->low).text, minutes(g->high).text);
    fv_text_add(out, " All its vessels are in their time: chance %s %%.", percent(row->all_within).text);
}

static void say_ties(const fv_choices_answer *a, size_t pick, fv_text *out)
{
    const char *before = " Tied with it: ";
    for (size_t i = 0; i < a->count; i++) {
        if (a->rows[i].choice->pick != pick || i == pick || i == a->rows[pick].choice->base || !a->rows[i].tie)
            continue;
        fv_text_add(out, "%s\"%s\"", before, a->rows[i].choice->name);
        before = ", ";
    }
    if (before[0] == ',')
        fv_text_add(out, ".");
}

void report_choices_say(const report_choices *choices, fv_text *out)
{
    const fv_choices_answer *a = choices->answer;
    if (a->stopped)
        fv_text_add(out, "Stopped early: only what is listed was compared. ");
    for (size_t i = 0; i < a->count; i++) {
        const size_t base = a->rows[i].choice->base;
        if (!is_pick(a, i) || base == i || base >= a->count)
            continue;
        fv_text_add(out, "%s", out->length > 0 && out->text[out->length - 1] != ' ' ? " " : "");
        say_gain(&a->rows[i], &a->rows[base], out);
        say_ties(a, i, out);
    }
    if (a->count == 1)
        fv_text_add(out,
                    "The last core is at its target at %s in the middle, eight times in ten between %s and %s. All in "
                    "their time: chance %s %%.",
                    when(&choices->clock, a->rows[0].last.middle).text, when(&choices->clock, a->rows[0].last.low).text,
                    when(&choices->clock, a->rows[0].last.high).text, percent(a->rows[0].all_within).text);
}

void report_choices_counts(const report_choices *choices, fv_text *out)
{
    const fv_choices_answer *a = choices->answer;
    fv_text_add(out,
                "%zu runs%s with %zu unknowns drawn at random (`farvessel odds` lists them)%s. Not counted: lids that "
                "are opened, gaps moved by hand, coils that clog, other loads than the file says, and faults of the "
                "model.",
                a->options.runs, a->count > 1 ? " of each" : "", a->unknown_count,
                a->count > 1 ? ", the same draws for all; tie: the band of the difference from the one marked > takes "
                               "in nought, so that either may be the earlier"
                             : "");
}

static void vessels(const report_choices *choices, const fv_choice_odds *row, fv_text *out)
{
    static const print_grid_column columns[] = {{"vessel", "", true}, {"file_says", "", false},
                                                {"10 %", "", false},  {"core at_target", "", false},
                                                {"90 %", "", false},  {"in its_time", "%", false}};
    print_grid *grid = print_grid_new(columns, sizeof columns / sizeof *columns);
    for (size_t i = 0; i < row->vessel_count; i++) {
        const fv_choice_vessel *v = &row->vessels[i];
        const double times[] = {v->now, v->core.low, v->core.middle, v->core.high};
        print_grid_add(grid, v->id);
        for (size_t k = 0; k < sizeof times / sizeof *times; k++)
            print_grid_add(grid, when(&choices->clock, times[k]).text);
        print_grid_add(grid, percent(v->within).text);
    }
    print_grid_print(grid, out);
}

static void rows(const report_choices *choices, fv_text *out)
{
    static const print_grid_column columns[] = {
        {"choice", "", true},   {"10 %", "", false},         {"last_core", "", false},
        {"90 %", "", false},    {"gains", "min", false},     {"10 %", "min", false},
        {"90 %", "min", false}, {"all in_time", "%", false}, {"", "", true}};
    const fv_choices_answer *a = choices->answer;
    print_grid *grid = print_grid_new(columns, sizeof columns / sizeof *columns);
    for (size_t i = 0; i < a->count; i++) {
        const fv_choice_odds *row = &a->rows[i];
        const double times[] = {row->last.low, row->last.middle, row->last.high};
        const double gains[] = {row->gain.middle, row->gain.low, row->gain.high};
        print_grid_addf(grid, "%s%.250s", is_pick(a, i) ? "> " : "", row->choice->name);
        for (size_t k = 0; k < 3; k++)
            print_grid_add(grid, when(&choices->clock, times[k]).text);
        for (size_t k = 0; k < 3; k++)
            print_grid_add(grid, minutes(gains[k]).text);
        print_grid_add(grid, percent(row->all_within).text);
        print_grid_add(grid, standing(row));
    }
    print_grid_print(grid, out);
}

void report_choices_text(const report_choices *choices, fv_text *out)
{
    fv_text line = {0};
    print_section(out, "How sure that is");
    if (choices->answer->count == 1)
        vessels(choices, &choices->answer->rows[0], out);
    else
        rows(choices, out);
    report_choices_say(choices, &line);
    if (line.text || line.failed)
        print_say(out, "  ", &line);
    report_choices_counts(choices, &line);
    print_say(out, "  ", &line);
}

json_t *report_choices_json(const report_choices *choices)
{
    fv_text counts = {0};
    json_t *root = json_object();
    report_choices_counts(choices, &counts);
    print_json_set(&root, "counts", print_json_word(counts.failed ? NULL : counts.text));
    print_json_set(&root, "runs", json_integer((json_int_t)choices->answer->options.runs));
    print_json_set(&root, "seed", json_integer((json_int_t)choices->answer->options.seed));
    print_json_set(&root, "stopped", json_boolean(choices->answer->stopped));
    print_json_set(&root, "choices", print_table_json(&report_choices_table, choices));
    print_json_set(&root, "vessels", print_table_json(&report_choices_vessels_table, choices));
    fv_text_free(&counts);
    return root;
}
