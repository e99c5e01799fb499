/* SPDX-License-Identifier: MIT */
/* The cost answer as a screen and as JSON. */
#include "report/cost/report.h"
#include "print/screen.h"
#include "print/show.h"

#include <math.h>

enum { MONEY_SIZE = 48 };

static const report_cost *of(const report_frame *frame)
{
    return frame->answer;
}

static void say_batch(const report_cost *c, fv_text *out)
{
    const fv_cost_batch *b = &c->answer->now;
    char money[MONEY_SIZE], each[MONEY_SIZE];
    const bool us = c->units == FV_US;
    if (isnan(b->last_core)) {
        fv_text_add(out, "The batch does not get there: some core never arrives. It takes %s of fuel all the same.",
                    print_shown_as(c->units, FV_SHOW_ENERGY, b->rows[FV_COST_FUEL].amount).text);
        return;
    }
    if (isnan(b->money)) {
        fv_text_add(out, "A batch of %s takes %s of fuel; what it costs is not known, for no price is said.",
                    print_shown_as(c->units, FV_SHOW_MASS, b->kg).text,
                    print_shown_as(c->units, FV_SHOW_ENERGY, b->rows[FV_COST_FUEL].amount).text);
        return;
    }
    fv_text_add(out, "A batch of %s costs %s", print_shown_as(c->units, FV_SHOW_MASS, b->kg).text,
                report_cost_money(c, b->money, money, sizeof money));
    if (b->kg > 0.0)
        fv_text_add(out, ", %s a %s",
                    report_cost_money(c, b->money / fv_show_value(c->units, FV_SHOW_MASS, b->kg), each, sizeof each),
                    us ? "lb" : "kg");
    if (b->pieces > 0)
        fv_text_add(out, ", %s a piece", report_cost_money(c, b->money / (double)b->pieces, each, sizeof each));
    fv_text_add(out, ".");
}

static void say_change(const report_cost *c, fv_text *out)
{
    const fv_cost_answer *a = c->answer;
    char one[MONEY_SIZE], two[MONEY_SIZE];
    if (isnan(a->then.last_core) || isnan(a->now.last_core) || isnan(a->saved)) {
        fv_text_add(out, " With the change %sit takes %s of fuel.",
                    isnan(a->then.last_core)  ? "some core never arrives; "
                    : isnan(a->now.last_core) ? "all cores arrive; "
                                              : "",
                    print_shown_as(c->units, FV_SHOW_ENERGY, a->then.rows[FV_COST_FUEL].amount).text);
        return;
    }
    fv_text_add(out, " The change %s %s a batch", a->saved >= 0.0 ? "saves" : "costs",
                report_cost_money(c, fabs(a->saved), one, sizeof one));
    if (!isnan(a->payback))
        fv_text_add(out, " and is paid back in %.1f years", a->payback);
    if (!isnan(a->present_value))
        fv_text_add(out, "; over %.0f years it is worth %s today", a->options.years,
                    report_cost_money(c, a->present_value, two, sizeof two));
    fv_text_add(out, ".");
}

void report_cost_sentence(const report_frame *frame, fv_text *out)
{
    say_batch(of(frame), out);
    if (of(frame)->answer->changed)
        say_change(of(frame), out);
}

static void say_pay(const report_cost *c, fv_text *out)
{
    const fv_cost_answer *a = c->answer;
    char money[MONEY_SIZE];
    if (!a->changed)
        return;
    print_section(out, "Does it pay?");
    if (isnan(a->options.spend))
        print_sayf(out, "  ", "What the change costs is not said: --spend 120.");
    if (isnan(a->options.batches_a_year))
        print_sayf(out, "  ", "How many batches a year is not said: --batches 150.");
    if (!isnan(a->saved_a_year))
        print_sayf(out, "  ", "Saved a year, in %.0f batches: %s.", a->options.batches_a_year,
                   report_cost_money(c, a->saved_a_year, money, sizeof money));
    if (!isnan(a->break_even))
        print_sayf(out, "  ", "It pays for itself in %.0f years if fuel costs %.3f%s a unit or more.", a->options.years,
                   a->break_even, c->currency);
}

void report_cost_table(const report_frame *frame, fv_text *out)
{
    report_frame_table(frame, COST_ITEMS, "What a batch takes", out);
}

void report_cost_details(const report_frame *frame, fv_text *out)
{
    report_frame_table(frame, COST_BATCHES, "A batch", out);
    print_sayf(out, "  ",
               "least fuel: what brings the loads to their targets, were nothing lost. costs: of what has a price.");
    say_pay(of(frame), out);
}

void report_cost_notes(const report_frame *frame, print_notes *notes)
{
    const fv_cost_answer *a = of(frame)->answer;
    fv_text unsaid = {0};
    for (int i = 0; i < FV_COST_ITEMS; i++)
        if (isnan(a->now.rows[i].money) && !(a->now.rows[i].amount <= 0.0))
            fv_text_add(&unsaid, "%s%s", unsaid.length ? ", " : "", fv_cost_word((fv_cost_item)i));
    notes->failed = notes->failed || unsaid.failed;
    if (unsaid.length > 0)
        print_note_add(notes, "prices_unsaid",
                       "No price is said for: %s. They are counted, not paid, so the sum is too small. Prices stand in "
                       "<work><price what=\"fuel\" per=\"kg\" is=\"2.10\"/></work>, a wage in <crew>, times in <task>.",
                       unsaid.text);
    fv_text_free(&unsaid);
    if (a->now.starved > 0)
        print_note_add(notes, "starved", "%zu of the vessels %s: `farvessel why` says what helps.", a->now.starved,
                       a->now.starved > 1 ? "miss their allowed time" : "misses its allowed time");
    print_note_add(notes, "left_out",
                   "Left out: electricity of pumps and fans, wear, interest on what stands there already.");
}

void report_cost_json(const report_frame *frame, json_t **root)
{
    const fv_cost_answer *a = of(frame)->answer;
    print_json_set(root, "currency", print_json_word(a->plant->currency));
    print_json_set(root, "spend", print_json_number(a->options.spend));
    print_json_set(root, "batches_a_year", print_json_number(a->options.batches_a_year));
    print_json_set(root, "years", print_json_number(a->options.years));
    print_json_set(root, "saved_a_batch", print_json_number(a->saved));
    print_json_set(root, "saved_a_year", print_json_number(a->saved_a_year));
    print_json_set(root, "payback_years", print_json_number(a->payback));
    print_json_set(root, "present_value", print_json_number(a->present_value));
    print_json_set(root, "break_even_fuel_price", print_json_number(a->break_even));
    for (size_t i = 0; i < COST_TABLES; i++)
        report_frame_table_json(frame, i, root);
}
