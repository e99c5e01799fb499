/* SPDX-License-Identifier: MIT */
/* The carry answer in plain words: "Yes, if the fifth starts 90 min after the others; ..." */
#include "report/carry/report.h"

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

static void add_delay(const fv_carry_row *row, fv_text *out)
{
    fv_text late = {0};
    report_carry_late(row, &late);
    const char *who = late.text && !late.failed ? late.text : "";
    const size_t after = row->count - row->late;
    if (row->one_by_one && row->late + 1 == row->count && row->late > 1)
        fv_text_add(out, "each starts %s after the one before", print_shown_time(row->delay).text);
    else
        fv_text_add(out, "%s start%s %s after the other%s", who, row->late == 1 ? "s" : "",
                    print_shown_time(row->delay).text, after == 1 ? "" : "s");
    fv_text_free(&late);
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
    fv_text_add(out, " all start together and the last takes %s.", print_shown_time(way->run.took).text);
}

static void say_staggered(const fv_carry_answer *answer, fv_text *out)
{
    const fv_carry_row *row = asked_row(answer);
    fv_text_add(out, "Yes, ");
    add_subject(answer, out);
    fv_text_add(out, " carried if ");
    add_delay(row, out);
    fv_text_add(out, "; ");
    add_together(row, out);
    fv_text_add(out, ".");
}

static void say_no(const fv_carry_answer *answer, fv_text *out)
{
    const fv_carry_row *row = asked_row(answer);
    const fv_carry_batch *run = &row->staggered;
    fv_text_add(out, "No, ");
    add_subject(answer, out);
    fv_text_add(out, " not carried: ");
    add_together(row, out);
    if (row->stagger.count > 0 && run->ran && isnan(run->took))
        fv_text_add(out, ", staggered %s never arrives", report_carry_vessel(row->plant, run->latest_vessel));
    else if (row->stagger.count > 0 && run->ran)
        fv_text_add(out, ", staggered %s still takes %s", report_carry_vessel(row->plant, run->latest_vessel),
                    print_shown_time(run->took).text);
    else
        fv_text_add(out, ", and no stagger helps");
    fv_text_add(out, "; what limits is %s.", report_carry_limit_shown(row->together.limit));
}

void report_carry_sentence(const fv_carry_answer *answer, fv_unit_system units, fv_text *out)
{
    const fv_carry_row *row = asked_row(answer);
    if (row->together.carries) {
        say_all_carried(answer, out);
        fv_text_add(out, ".");
        return;
    }
    if (row->staggered.carries)
        say_staggered(answer, out);
    else
        say_no(answer, out);
    add_way(answer, units, out);
}

void report_carry_stagger(const fv_carry_row *row, fv_text *out)
{
    const double *start = row->staggered.start;
    const char *gap = "";
    for (size_t i = 0; i < row->plant->vessel_count; i++) {
        if (!(start[i] > row->together.start[i]))
            continue;
        fv_text_add(out, "%s%s", gap, row->plant->vessels[i]->part.id);
        gap = ", ";
        if (i + 1 == row->plant->vessel_count || start[i + 1] != start[i])
            fv_text_add(out, " after %s", print_shown_time(start[i]).text);
    }
}
