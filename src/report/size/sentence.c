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

/* Hardly worth the work: the plant as it is is nearly as good. */
static bool is_little(const fv_size_answer *answer)
{
    const double little = 0.03;
    const fv_size_row *row = &answer->rows[answer->best], *now = &answer->rows[0];
    return answer->options.goal == FV_SIZE_FOR_TIME && now->keeps && row->run.slowest > (1 - little) * now->run.slowest;
}

static void say_best(const fv_size_answer *answer, fv_unit_system units, fv_text *out)
{
    const fv_size_row *row = &answer->rows[answer->best], *now = &answer->rows[0];
    const bool cheapest = answer->options.goal == FV_SIZE_FOR_COST;
    fv_text_add(out, cheapest            ? "The cheapest that keeps all limits is "
                     : is_little(answer) ? "There is little to gain, most with "
                                         : "Take ");
    report_size_what(answer, row, units, out);
    if (cheapest)
        fv_text_add(out, ", %s", report_size_cost(answer, row).text);
    fv_text_add(out, ": ");
    if (answer->options.goal == FV_SIZE_FOR_SPREAD) {
        add_spread(answer, row, out);
        fv_text_add(out, "; ");
    } else if (answer->options.goal == FV_SIZE_FOR_FUEL) {
        fv_text_add(out, "a batch takes %s of fuel", print_shown_as(units, FV_SHOW_ENERGY, row->run.fuel).text);
        if (now->run.ran)
            fv_text_add(out, " instead of %s", print_shown_as(units, FV_SHOW_ENERGY, now->run.fuel).text);
        fv_text_add(out, "; ");
    }
    add_time(answer, row, out);
    if (!cheapest && row->cost > 0)
        fv_text_add(out, ", for %s", report_size_cost(answer, row).text);
    fv_text_add(out, ".");
}

static void say_leave(const fv_size_answer *answer, fv_text *out)
{
    static const char *const better[] = {"faster", "more even", "cheaper", "leaner in fuel"};
    fv_text_add(out, "Leave it as it is: nothing else in stock is %s within the limits; ",
                better[answer->options.goal]);
    add_time(answer, &answer->rows[0], out);
    fv_text_add(out, ".");
}

/* What else the stock list would let change. */
static void add_further(const fv_size_answer *answer, fv_text *out)
{
    static const fv_size_part bought[] = {FV_SIZE_DRILL, FV_SIZE_COIL, FV_SIZE_HOSE, FV_SIZE_HEADER};
    size_t left = 0;
    for (size_t i = 0; i < sizeof bought / sizeof *bought; i++)
        left += answer->could_vary >> bought[i] & 1u;
    if (left == 0)
        return;
    fv_text_add(out, " Let ");
    for (size_t i = 0; i < sizeof bought / sizeof *bought; i++)
        if (answer->could_vary >> bought[i] & 1u)
            fv_text_add(out, "%s%s", fv_size_part_word(bought[i]), --left > 1 ? ", " : left == 1 ? " and " : "");
    fv_text_add(out, " vary, too (--vary).");
}

static void say_none(const fv_size_answer *answer, fv_unit_system units, fv_text *out)
{
    const fv_size_row *row = &answer->rows[answer->nearest];
    const fv_size_limit broken = report_size_first_broken(row);
    fv_text what = {0};
    report_size_what(answer, row, units, &what);
    fv_text_add(out, "%s: even with %s, which comes nearest, ",
                answer->exhaustive ? "No size in stock does it" : "Nothing that was tried does it",
                what.text && !what.failed && what.length ? what.text : "what is there now");
    fv_text_free(&what);
    if (broken < FV_LIMITS)
        report_size_broken(answer, row, broken, units, out);
    fv_text_add(out, ".");
    add_further(answer, out);
}

void report_size_sentence(const fv_size_answer *answer, fv_unit_system units, fv_text *out)
{
    if (answer->best > 0)
        say_best(answer, units, out);
    else if (answer->best == 0)
        say_leave(answer, out);
    else
        say_none(answer, units, out);
}

void report_size_search(const fv_size_answer *answer, fv_text *out)
{
    if (answer->exhaustive)
        fv_text_add(out, "All %.0f choices were tried at the moment when all vessels heat", answer->choices);
    else
        fv_text_add(out, "Of %.4g choices the search tried %zu at the moment when all vessels heat", answer->choices,
                    answer->screened);
    if (answer->unfit)
        fv_text_add(out, "; %zu do not fit (holes beyond the coil's end, say)", answer->unfit);
    if (answer->unsolved)
        fv_text_add(out, "; %zu have no solution", answer->unsolved);
    fv_text_add(out, "; %zu keep%s the limits that show then; %zu %s followed from cold to core.", answer->kept,
                answer->kept == 1 ? "s" : "", answer->ran, answer->ran == 1 ? "was" : "were");
    if (!answer->exhaustive)
        fv_text_add(out, " There may be better ones among those not tried.");
}
