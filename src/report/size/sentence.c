/* SPDX-License-Identifier: MIT */
/* The size answer in plain words. */
#include "report/size/report.h"

#include <math.h>

static const char *last_vessel(const fv_size_answer *answer, const fv_size_row *row)
{
    return row->run.slowest_vessel >= 0 ? answer->plant->vessels[row->run.slowest_vessel]->part.id : "";
}

/* "the last core (bench6) is done after 8 h 51 min instead of 13 h 23 min" */
static void add_time(const fv_size_answer *answer, const fv_size_row *row, fv_text *out)
{
    const fv_size_row *now = &answer->rows[0];
    if (isnan(row->run.slowest)) {
        fv_text_add(out, "not all cores get there");
        return;
    }
    fv_text_add(out, "the last core (%s) is done after %s", last_vessel(answer, row),
                print_shown_time(row->run.slowest).text);
    if (row != now && now->run.ran && isnan(now->run.slowest))
        fv_text_add(out, ", now never");
    else if (row != now && now->run.ran)
        fv_text_add(out, " instead of %s", print_shown_time(now->run.slowest).text);
}

static void add_spread(const fv_size_answer *answer, const fv_size_row *row, fv_text *out)
{
    const fv_size_row *now = &answer->rows[0];
    if (row->run.spread < 1.005)
        fv_text_add(out, "all vessels take equally long");
    else
        fv_text_add(out, "the slowest vessel takes %.2f times as long as the fastest", row->run.spread);
    if (now->run.ran && isfinite(now->run.spread))
        fv_text_add(out, " instead of %.2f times", now->run.spread);
}

static const fv_size_row *answer_of(const fv_size_answer *answer)
{
    return &answer->rows[answer->best];
}

/* Another size than now; small work is none. */
static bool is_changed(const fv_size_answer *answer, const fv_size_row *row)
{
    for (size_t i = 0; i < answer->dimension_count; i++)
        if (row->choice[i] > 0 && answer->dimensions[i].part != FV_SIZE_WORK)
            return true;
    return false;
}

static bool does_works(const fv_size_answer *answer, const fv_size_row *row)
{
    for (size_t i = 0; i < answer->dimension_count; i++)
        if (row->choice[i] > 0 && answer->dimensions[i].part == FV_SIZE_WORK)
            return true;
    return false;
}

/* "5 valves, washers or starts" */
static void add_hands(const fv_size_row *row, fv_text *out)
{
    fv_text_add(out, "%zu valve%s, washer%s or start%s", row->step_count, row->step_count == 1 ? "" : "s",
                row->step_count == 1 ? "" : "s", row->step_count == 1 ? "" : "s");
}

static void add_figures(const fv_size_answer *answer, const fv_size_row *row, fv_unit_system units, fv_text *out)
{
    const fv_size_row *now = &answer->rows[0];
    if (answer->options.goal == FV_SIZE_FOR_SPREAD) {
        if (isfinite(row->run.spread)) {
            add_spread(answer, row, out);
            fv_text_add(out, "; ");
        }
    } else if (answer->options.goal == FV_SIZE_FOR_FUEL) {
        fv_text_add(out, "a batch takes %s of fuel", print_shown_as(units, FV_SHOW_ENERGY, row->run.fuel).text);
        if (now->run.ran)
            fv_text_add(out, " instead of %s", print_shown_as(units, FV_SHOW_ENERGY, now->run.fuel).text);
        fv_text_add(out, "; ");
    }
    add_time(answer, row, out);
}

/* What is still wrong with it. */
static void add_broken(const fv_size_answer *answer, const fv_size_row *row, fv_unit_system units, fv_text *out)
{
    const fv_size_limit broken = report_size_first_broken(row);
    if (broken == FV_LIMITS)
        return;
    fv_text_add(out, " Still ");
    report_size_broken(answer, row, broken, units, out);
    fv_text_add(out, ".");
}

static void say_sizes(const fv_size_answer *answer, fv_unit_system units, fv_text *out)
{
    const fv_size_row *row = answer_of(answer);
    const bool cheapest = answer->options.goal == FV_SIZE_FOR_COST;
    fv_text_add(out, cheapest ? "The cheapest that does it is " : "Take ");
    report_size_what(answer, row, units, out);
    if (row->step_count > 0) {
        fv_text_add(out, " and set ");
        add_hands(row, out);
        fv_text_add(out, " as below");
    }
    if (cheapest)
        fv_text_add(out, ", %s", report_size_cost(answer, row).text);
    fv_text_add(out, ": ");
    add_figures(answer, row, units, out);
    if (!cheapest && (row->cost > 0 || isnan(row->cost)))
        fv_text_add(out, isnan(row->cost) ? " (%s)" : ", for %s", report_size_cost(answer, row).text);
    fv_text_add(out, ".");
    if (answer->hands > 0) {
        const fv_size_row *hands = &answer->rows[answer->hands];
        const bool works = does_works(answer, hands);
        fv_text_add(out, " %s %s%s.",
                    hands->step_count == 0 ? "Small work alone brings"
                    : works                ? "Hands and small work alone bring"
                                           : "Hands alone bring",
                    isnan(hands->run.slowest) ? "not all of them there" : print_shown_time(hands->run.slowest).text,
                    hands->cost > 0 || isnan(hands->cost) ? "" : ", for nothing");
    }
}

static void say_hands(const fv_size_answer *answer, fv_unit_system units, fv_text *out)
{
    const fv_size_row *row = answer_of(answer);
    fv_text_add(out, "Buy nothing: with ");
    const size_t before = out->length;
    report_size_what(answer, row, units, out);
    if (row->step_count > 0) {
        fv_text_add(out, "%s", out->length > before ? ", and " : "");
        add_hands(row, out);
        fv_text_add(out, " as below");
    }
    fv_text_add(out, ", ");
    add_figures(answer, row, units, out);
    fv_text_add(out, answer->stopped ? "." : "; no size gains over that.");
}

static void say_leave(const fv_size_answer *answer, fv_text *out)
{
    static const char *const better[] = {"faster", "more even", "cheaper", "leaner in fuel"};
    fv_text_add(out, "Leave it as it is: no size%s is %s within the limits; ",
                answer->options.hands ? " and nothing that hands do" : "", better[answer->options.goal]);
    add_time(answer, &answer->rows[0], out);
    fv_text_add(out, ".%s", answer->rows[0].run.starved ? " `farvessel why` says what holds it up." : "");
}

void report_size_sentence(const report_frame *frame, fv_text *out)
{
    const fv_size_answer *answer = frame->answer;
    const fv_size_row *row = answer_of(answer);
    if (answer->stopped)
        fv_text_add(out, "Stopped early, the best so far: ");
    if (answer->best == 0)
        say_leave(answer, out);
    else if (is_changed(answer, row))
        say_sizes(answer, frame->units, out);
    else
        say_hands(answer, frame->units, out);
    add_broken(answer, row, frame->units, out);
}

/* "60", "4.1 million" */
static void add_count(double count, fv_text *out)
{
    const double thousand = 1e3, million = 1e6;
    if (count < 10 * thousand)
        fv_text_add(out, "%.0f", count);
    else if (count < million)
        fv_text_add(out, "%.0f thousand", count / thousand);
    else if (count < thousand * million)
        fv_text_add(out, "%.1f million", count / million);
    else
        fv_text_add(out, "more than a thousand million");
}

void report_size_search(const fv_size_answer *answer, fv_text *out)
{
    if (answer->exhaustive)
        fv_text_add(out, "All %.0f choices of sizes were tried", answer->choices);
    else {
        fv_text_add(out, "Of ");
        add_count(answer->choices, out);
        fv_text_add(out, " choices of sizes %zu were tried", answer->screened);
    }
    if (answer->unfit)
        fv_text_add(out, "; %zu do not fit (holes beyond the coil's end, or couplings for another bore, say)",
                    answer->unfit);
    if (answer->unsolved)
        fv_text_add(out, "; %zu have no solution", answer->unsolved);
    fv_text_add(out,
                "; %zu break no limit more than the plant as it is; %zu plans, hands' among them, were followed "
                "from cold to core.",
                answer->kept, answer->plans);
    if (!answer->exhaustive)
        fv_text_add(out, " There may be better sizes among those not tried.");
}
