/* SPDX-License-Identifier: MIT */
/* The carry answer in plain words: "Yes, a fifth vessel is carried if valves are set as below; ..." */
#include "report/carry/report.h"
#include "report/remedy.h"
#include "report/slow_load.h"

#include <math.h>

static const fv_carry_row *asked_row(const fv_carry_answer *answer)
{
    return &answer->rows[answer->asked];
}

static double within(const fv_plant *plant, int vessel)
{
    return vessel >= 0 ? plant->vessels[vessel]->within.v : (double)NAN;
}

/* "all together bin5 takes 13 h 20 min (12 h allowed)" */
static void add_together(const fv_carry_row *row, fv_text *out)
{
    const fv_carry_batch *run = &row->together;
    const char *who = report_carry_vessel(row->plant, run->latest_vessel);
    if (!run->ran)
        fv_text_add(out, "all together has no solution");
    else if (isnan(run->took))
        fv_text_add(out, "all together %s never arrives", who);
    else
        fv_text_add(out, "all together %s takes %s (%s allowed)", who, print_shown_time(run->took).text,
                    print_shown_time(within(row->plant, run->latest_vessel)).text);
}

static const fv_carry_batch *best_of(const fv_carry_row *row)
{
    return fv_carry_batch_of(row, row->best);
}

static bool opens_any(const fv_carry_row *row)
{
    for (size_t i = 0; i < row->throttle_step_count; i++)
        if (row->throttle_steps[i].action == FV_PLAN_OPEN)
            return true;
    return false;
}

/* "if bench6 opens 90 min after lighting", "if 4 valves are set as below" */
static void add_hands(const fv_carry_row *row, fv_text *out)
{
    const bool staggered = row->best == FV_CARRY_STAGGERED;
    if (staggered && row->stagger_step_count == 1)
        fv_text_add(out, "if %s is opened %s after lighting",
                    report_carry_vessel(row->plant, row->stagger_steps[0].vessel),
                    print_shown_time(row->stagger_steps[0].value).text);
    else if (staggered)
        fv_text_add(out, "if %zu of them are opened later, as below", row->stagger_step_count);
    else
        fv_text_add(out, "if %s set as below",
                    row->throttle_step_count == 1 ? "one valve is"
                    : opens_any(row)              ? "valves and starts are"
                                                  : "valves are");
    fv_text_add(out, ": last core %s after lighting", print_shown_time(best_of(row)->slowest).text);
}

static void say_all_carried(const fv_carry_answer *answer, fv_text *out)
{
    const fv_carry_row *row = asked_row(answer);
    const fv_carry_batch *run = &row->together;
    if (answer->asked == answer->present)
        fv_text_add(out, "Yes, the %zu vessel%s there %s carried", row->count, row->count == 1 ? "" : "s",
                    row->count == 1 ? "is" : "are");
    else
        fv_text_add(out, "Yes, even %s vessel is carried", report_carry_one_more(row->count).text);
    fv_text_add(out, ": started together, %s takes longest, %s (%s allowed)",
                report_carry_vessel(row->plant, run->latest_vessel), print_shown_time(run->took).text,
                print_shown_time(within(row->plant, run->latest_vessel)).text);
    fv_text_add(out, ".");
}

/* "a fifth vessel", "the 6 vessels there are" */
static void add_subject(const fv_carry_answer *answer, fv_text *out)
{
    const size_t count = asked_row(answer)->count;
    if (answer->asked > answer->present)
        fv_text_add(out, "%s vessel is", report_carry_one_more(count).text);
    else if (count == 1)
        fv_text_add(out, "the vessel there is");
    else
        fv_text_add(out, "the %zu vessels there are", count);
}

static const fv_carry_way *cheapest_way(const fv_carry_answer *answer)
{
    const fv_carry_way *best = NULL;
    for (size_t i = 0; i < answer->way_count; i++) {
        const fv_carry_way *way = &answer->ways[i];
        if (way->other == FV_CARRY_STAGGER || !way->meets || way->over_relief)
            continue;
        if (!best || way->cost < best->cost || (isnan(best->cost) && !isnan(way->cost)))
            best = way;
    }
    return best;
}

static void add_way(const fv_carry_answer *answer, fv_unit_system units, fv_text *out)
{
    const fv_carry_way *way = cheapest_way(answer);
    if (!way)
        return;
    fv_text_add(out, " With ");
    report_carry_way(way, units, out);
    if (way->cost > 0)
        fv_text_add(out, " (%.0f%s%s)", way->cost, answer->currency ? " " : "",
                    answer->currency ? answer->currency : "");
    fv_text_add(out, " all start together, last core %s after lighting.", print_shown_time(way->run.slowest).text);
}

/* The largest number in a row from the asked one on that is in time with the work, each treating more than the one
 * before. */
static size_t most_with_work(const fv_carry_answer *answer)
{
    size_t i = (size_t)answer->asked;
    while (i + 1 < answer->row_count && report_carry_has(&answer->rows[i + 1], FV_CARRY_WORKED) &&
           answer->rows[i + 1].worked.carries &&
           answer->rows[i + 1].worked.mass_per_day > answer->rows[i].worked.mass_per_day)
        i++;
    return answer->rows[i].count;
}

/* "Yes, a third vessel is carried with bin1 and 2 more: drains under 50 mm of water: ..." */
static void say_with_work(const fv_carry_answer *answer, fv_unit_system units, fv_text *out)
{
    const fv_carry_row *row = asked_row(answer);
    const size_t most = most_with_work(answer);
    fv_text_add(out, "Yes, ");
    add_subject(answer, out);
    fv_text_add(out, " carried with ");
    report_remedy(units, answer->work, out);
    fv_text_add(out, ": %slast core %s after lighting", row->count > 1 ? "started together, " : "",
                print_shown_time(row->worked.slowest).text);
    if (most > row->count)
        fv_text_add(out, "; with that even %zu are carried", most);
    fv_text_add(out, "; as it is, ");
    add_together(row, out);
    fv_text_add(out, ".");
}

static void say_with_hands(const fv_carry_answer *answer, fv_text *out)
{
    const fv_carry_row *row = asked_row(answer);
    fv_text_add(out, "Yes, ");
    add_subject(answer, out);
    fv_text_add(out, " carried ");
    add_hands(row, out);
    fv_text_add(out, "; ");
    add_together(row, out);
    fv_text_add(out, ".");
}

static void add_a_day(const fv_carry_row *row, fv_carry_manner manner, fv_unit_system units, fv_text *out)
{
    fv_text_add(out, "%s", print_shown_as(units, FV_SHOW_MASS, fv_carry_batch_of(row, manner)->mass_per_day).text);
}

/* " (with bin1: drain under 50 mm of water)", where a figure is of that work */
static void add_work_of(const fv_carry_answer *answer, fv_carry_manner manner, bool said, fv_unit_system units,
                        fv_text *out)
{
    if (manner != FV_CARRY_WORKED || !said)
        return;
    fv_text_add(out, " (with ");
    report_remedy(units, answer->work, out);
    fv_text_add(out, ")");
}

/* Fewer treat more a day. */
static void say_less_a_day(const fv_carry_answer *answer, fv_unit_system units, fv_text *out)
{
    const fv_carry_row *row = asked_row(answer), *fewer = &answer->rows[answer->better];
    const bool both = answer->does == FV_CARRY_WORKED && answer->better_manner == FV_CARRY_WORKED;
    fv_text_add(out, "No, %s vessel lowers the day's output: ", report_carry_one_more(row->count).text);
    add_a_day(row, answer->does, units, out);
    fv_text_add(out, " with it");
    add_work_of(answer, answer->does, !both, units, out);
    fv_text_add(out, ", ");
    add_a_day(fewer, answer->better_manner, units, out);
    fv_text_add(out, " with %zu", fewer->count);
    add_work_of(answer, answer->better_manner, !both, units, out);
    if (both) {
        fv_text_add(out, ", both with ");
        report_remedy(units, answer->work, out);
    } else if (answer->does != FV_CARRY_WORKED && fv_carry_batch_of(row, answer->does)->carries) {
        fv_text_add(out, ", though all are in time ");
        if (answer->does == FV_CARRY_TOGETHER)
            fv_text_add(out, "started together");
        else
            add_hands(row, out);
    }
    fv_text_add(out, ".");
}

static void say_no(const fv_carry_answer *answer, fv_text *out)
{
    const fv_carry_row *row = asked_row(answer);
    const fv_carry_batch *run = best_of(row);
    if (answer->asked > answer->present + 1) /* those before it are carried all together */
        fv_text_add(out, "Yes, %s vessel is carried; but ", report_carry_one_more(row->count - 1).text);
    else
        fv_text_add(out, "No, ");
    add_subject(answer, out);
    fv_text_add(out, " not carried: ");
    add_together(row, out);
    if (row->best == FV_CARRY_TOGETHER && row->searched && !answer->stopped)
        fv_text_add(out, ", and hands alone do not help");
    else if (row->best == FV_CARRY_TOGETHER)
        fv_text_add(out, ", and what hands can do was not %s", row->searched ? "searched to the end" : "looked at");
    else if (isnan(run->took))
        fv_text_add(out, ", %s %s never arrives", report_carry_manner_word(row->best),
                    report_carry_vessel(row->plant, run->latest_vessel));
    else
        fv_text_add(out, ", %s %s still takes %s", report_carry_manner_word(row->best),
                    report_carry_vessel(row->plant, run->latest_vessel), print_shown_time(run->took).text);
    const int latest = row->together.latest_vessel;
    if (latest >= 0 && report_is_slow_load(row->plant->vessels[latest], row->together.ample[latest])) {
        fv_text_add(out, "; even with steam in plenty its load takes %s, ",
                    print_shown_time(row->together.ample[latest]).text);
        report_slow_load(row->plant->vessels[latest], out);
    } else if (!answer->stopped) { /* else what limits is not known */
        fv_text_add(out, "; what limits is %s", report_carry_limit_shown(row->together.limit));
        if (answer->asked == answer->present)
            fv_text_add(out, ". What small work and hands do together, farvessel plan tells");
    }
    fv_text_add(out, ".");
}

void report_carry_sentence(const report_frame *frame, fv_text *out)
{
    const fv_carry_answer *answer = frame->answer;
    if (answer->stopped)
        fv_text_add(out, "Stopped early, the best so far: ");
    if (answer->better >= 0)
        say_less_a_day(answer, frame->units, out);
    else if (answer->does == FV_CARRY_TOGETHER && asked_row(answer)->together.carries)
        say_all_carried(answer, out);
    else if (answer->does == FV_CARRY_WORKED)
        say_with_work(answer, frame->units, out);
    else if (best_of(asked_row(answer))->carries)
        say_with_hands(answer, out);
    else
        say_no(answer, out);
    if (!asked_row(answer)->together.carries && answer->does != FV_CARRY_WORKED)
        add_way(answer, frame->units, out);
}
