/* SPDX-License-Identifier: MIT */
/* Words and numbers of the size answer. */
#include "report/remedy.h"
#include "report/size/report.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { NAMES_SHOWN = 3 };

const char *report_size_goal_word(fv_size_goal goal)
{
    static const char *const words[] = {"time", "spread", "cost", "fuel"};
    return words[goal];
}

/* One row for each limit: word for programs, end of its key, how people read it. */
static const struct {
    const char *word, *unit;
    fv_show show;
    char of; /* what `at` counts: v essels, l ines, b oilers */
} limits[] = {
    [FV_LIMIT_FED] = {"starved", "", FV_SHOW_NUMBER, 'v'},
    [FV_LIMIT_SPREAD] = {"spread", "", FV_SHOW_NUMBER, 'v'},
    [FV_LIMIT_EVENNESS] = {"evenness", "", FV_SHOW_NUMBER, 'v'},
    [FV_LIMIT_AREA] = {"hole_area", "", FV_SHOW_NUMBER, 'v'},
    [FV_LIMIT_PRESSURE] = {"boiler_pressure", "_pa_gauge", FV_SHOW_PRESSURE, 'b'},
    [FV_LIMIT_VELOCITY] = {"velocity", "_m_s", FV_SHOW_VELOCITY, 'l'},
    [FV_LIMIT_BACKWARD] = {"velocity_against_condensate", "_m_s", FV_SHOW_VELOCITY, 'l'},
    [FV_LIMIT_COIL_VELOCITY] = {"coil_velocity", "_m_s", FV_SHOW_VELOCITY, 'v'},
    [FV_LIMIT_CHOKING] = {"choking", "", FV_SHOW_NUMBER, 'l'},
    [FV_LIMIT_VENT] = {"vent_pressure", "_pa_gauge", FV_SHOW_PRESSURE, 'v'},
};

const char *report_size_limit_word(fv_size_limit limit)
{
    return limits[limit].word;
}

const char *report_size_limit_unit(fv_size_limit limit)
{
    return limits[limit].unit;
}

print_shown report_size_limit_shown(fv_unit_system units, fv_size_limit limit, double value)
{
    print_shown shown = {"-"};
    if (limit == FV_LIMIT_FED || limit == FV_LIMIT_CHOKING)
        snprintf(shown.text, sizeof shown.text, "%.0f", value);
    else if (!isnan(value))
        return isinf(value) ? (print_shown){"never"} : print_shown_as(units, limits[limit].show, value);
    return isnan(value) ? (print_shown){"-"} : shown;
}

const char *report_size_where(const fv_size_answer *answer, fv_size_limit limit, int at)
{
    const fv_plant *plant = answer->plant;
    if (at < 0)
        return "";
    const char *id = limits[limit].of == 'v'   ? plant->vessels[at]->part.id
                     : limits[limit].of == 'l' ? plant->lines[at]->part.id
                                               : plant->boilers[at]->part.id;
    return id ? id : "";
}

print_shown report_size_choice(size_t row)
{
    print_shown shown = {"now"};
    if (row > 0)
        snprintf(shown.text, sizeof shown.text, "%zu", row);
    return shown;
}

void report_size_marks(unsigned marks, bool words_for_people, const char *gap, fv_text *out)
{
    static const struct {
        fv_size_mark mark;
        const char *program, *people;
    } words[] = {
        {FV_SIZE_IS_NOW, "now", ""},
        {FV_SIZE_IS_ANSWER, "answer", "this one"},
        {FV_SIZE_IS_FASTEST, "fastest", "fastest"},
        {FV_SIZE_IS_MOST_EVEN, "most_even", "most even"},
        {FV_SIZE_IS_CHEAPEST, "cheapest", "cheapest"},
        {FV_SIZE_IS_LEAST_FUEL, "least_fuel", "least fuel"},
        {FV_SIZE_IS_BETWEEN, "between", "between"},
    };
    const char *before = "";
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        const char *word = words_for_people ? words[i].people : words[i].program;
        if (!(marks & (unsigned)words[i].mark) || !word[0])
            continue;
        fv_text_add(out, "%s%s", before, word);
        before = gap;
    }
}

print_shown report_size_number(fv_unit_system units, fv_size_part part, double value)
{
    print_shown shown = {"-"};
    if (isnan(value))
        return shown;
    if (part == FV_SIZE_HOLES || part == FV_SIZE_WORK) {
        snprintf(shown.text, sizeof shown.text, "%.0f", value);
        return shown;
    }
    fv_show_number(units, FV_SHOW_BORE, value, shown.text, sizeof shown.text);
    size_t length = strlen(shown.text);
    while (strchr(shown.text, '.') && (shown.text[length - 1] == '0' || shown.text[length - 1] == '.'))
        shown.text[--length] = '\0';
    return shown;
}

static print_shown size_with_unit(fv_unit_system units, fv_size_part part, double value)
{
    return part == FV_SIZE_HOLES || isnan(value) ? report_size_number(units, part, value)
                                                 : print_shown_brief(units, FV_SHOW_BORE, value);
}

/* "2 mm holes", "36 holes a coil", "25 mm hose"; of work what is done */
static void add_part(const fv_size_answer *answer, fv_size_part part, double value, fv_unit_system units, fv_text *out)
{
    static const char *const formats[] = {
        [FV_SIZE_DRILL] = "%s holes", [FV_SIZE_HOLES] = "%s holes a coil", [FV_SIZE_SPACING] = "holes every %s",
        [FV_SIZE_COIL] = "%s coils",  [FV_SIZE_HOSE] = "%s hose",          [FV_SIZE_HEADER] = "%s header"};
    for (size_t i = 0; part == FV_SIZE_WORK && (double)i < value; i++) {
        fv_text_add(out, "%s", i > 0 ? "; " : "small work (");
        report_remedy(units, answer->works[i], out);
    }
    if (part == FV_SIZE_WORK) {
        fv_text_add(out, ")");
        return;
    }
    const char *format = formats[part], *hole = strstr(format, "%s");
    fv_text_add(out, "%.*s%s%s", (int)(hole - format), format, size_with_unit(units, part, value).text, hole + 2);
}

static double value_of(const fv_size_answer *answer, const fv_size_row *row, size_t dimension)
{
    return answer->dimensions[dimension].values[row->choice[dimension]];
}

static const char *member(const fv_size_answer *answer, const fv_size_dimension *d)
{
    const bool line = d->part == FV_SIZE_HOSE || d->part == FV_SIZE_HEADER;
    return line ? answer->plant->lines[d->which]->part.id : answer->plant->vessels[d->which]->part.id;
}

/* The names of all that get the same size of the same part as dimension d. */
static void add_members(const fv_size_answer *answer, const fv_size_row *row, size_t d, fv_text *out)
{
    print_names names = {0};
    fv_arena *arena = fv_arena_new();
    for (size_t i = d; arena && i < answer->dimension_count; i++)
        if (answer->dimensions[i].part == answer->dimensions[d].part &&
            value_of(answer, row, i) == value_of(answer, row, d) && answer->dimensions[i].which >= 0)
            out->failed = !print_names_push(&names, arena, member(answer, &answer->dimensions[i])) || out->failed;
    const bool line = answer->dimensions[d].part == FV_SIZE_HOSE || answer->dimensions[d].part == FV_SIZE_HEADER;
    if (names.count > 0)
        fv_text_add(out, line ? " as " : " in ");
    print_names_say(&names, NAMES_SHOWN, out);
    fv_arena_free(arena);
}

/* An earlier dimension has said this one, too. */
static bool is_said(const fv_size_answer *answer, const fv_size_row *row, size_t d)
{
    for (size_t i = 0; i < d; i++)
        if (answer->dimensions[i].part == answer->dimensions[d].part &&
            value_of(answer, row, i) == value_of(answer, row, d))
            return true;
    return false;
}

void report_size_what(const fv_size_answer *answer, const fv_size_row *row, fv_unit_system units, fv_text *out)
{
    size_t left = 0;
    const bool each = answer->options.each;
    for (size_t d = 0; d < answer->dimension_count; d++)
        left += !isnan(value_of(answer, row, d)) && !is_said(answer, row, d);
    const size_t count = left;
    for (size_t d = 0; d < answer->dimension_count; d++) {
        if (isnan(value_of(answer, row, d)) || is_said(answer, row, d))
            continue;
        if (left < count)
            fv_text_add(out, "%s", left > 1 || each ? ", " : " and ");
        add_part(answer, answer->dimensions[d].part, value_of(answer, row, d), units, out);
        add_members(answer, row, d, out);
        left--;
    }
}

fv_size_limit report_size_first_broken(const fv_size_row *row)
{
    for (fv_size_limit i = 0; i < FV_LIMITS; i++)
        if (row->checks[i].excess > 0)
            return i;
    return FV_LIMITS;
}

static void add_starved(const fv_size_answer *answer, const fv_size_row *row, fv_text *out)
{
    const fv_size_check *check = &row->checks[FV_LIMIT_FED];
    const char *who = report_size_where(answer, FV_LIMIT_FED, check->at);
    if (!row->run.ran)
        fv_text_add(out, "the plant cannot be followed so");
    else if (row->run.starved > 1)
        fv_text_add(out, "%zu vessels are starved", row->run.starved);
    else
        fv_text_add(out, "%s is starved", who);
    if (row->run.ran && isnan(row->run.slowest))
        fv_text_add(out, ": the core of %s never arrives", who);
    else if (row->run.ran)
        fv_text_add(out, ": %s is done after %s, %s allowed", who, print_shown_time(row->run.slowest).text,
                    print_shown_time(answer->plant->vessels[check->at]->within.v).text);
}

void report_size_broken(const fv_size_answer *answer, const fv_size_row *row, fv_size_limit limit, fv_unit_system units,
                        fv_text *out)
{
    const fv_size_check *c = &row->checks[limit];
    const print_shown value = report_size_limit_shown(units, limit, c->value);
    const print_shown wanted = report_size_limit_shown(units, limit, c->limit);
    const char *where = report_size_where(answer, limit, c->at);
    switch (limit) {
    case FV_LIMIT_FED:
        add_starved(answer, row, out);
        break;
    case FV_LIMIT_SPREAD:
        fv_text_add(out, "the slowest vessel takes %s times as long as the fastest, at most %s is wanted", value.text,
                    wanted.text);
        break;
    case FV_LIMIT_EVENNESS:
        fv_text_add(out, "in %s the weakest hole passes %s of the strongest, at least %s is wanted", where, value.text,
                    wanted.text);
        break;
    case FV_LIMIT_AREA:
        fv_text_add(out, "the holes of %s add up to %s of the bore, at most %s is right here", where, value.text,
                    wanted.text);
        break;
    case FV_LIMIT_PRESSURE:
        fv_text_add(out, "%s stands at %s, too near its setting to give all it has (at most %s)", where, value.text,
                    wanted.text);
        break;
    case FV_LIMIT_VELOCITY:
    case FV_LIMIT_BACKWARD:
    case FV_LIMIT_COIL_VELOCITY:
        fv_text_add(out, "steam runs at %s in %s, at most %s is wanted", value.text, where, wanted.text);
        break;
    case FV_LIMIT_CHOKING:
        fv_text_add(out, "%s lines or holes choke", value.text);
        break;
    default:
        fv_text_add(out, "all steam sent to %s alone raises it to %s, at most %s is wanted", where, value.text,
                    wanted.text);
    }
}

print_shown report_size_cost(const fv_size_answer *answer, const fv_size_row *row)
{
    print_shown shown;
    const char *currency = answer->currency ? answer->currency : "";
    if (isnan(row->cost))
        return (print_shown){"no price known"};
    snprintf(shown.text, sizeof shown.text, "%s%.2f%s%.20s", row->unpriced ? "at least " : "", row->cost,
             currency[0] ? " " : "", currency);
    return shown;
}
