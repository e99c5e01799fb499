/* SPDX-License-Identifier: MIT */
/* What stands in the tables of the cost answer: what a batch takes, and batches as a whole. */
#include "report/cost/report.h"
#include "print/clock.h"
#include "print/fields.h"

#include <math.h>
#include <stdio.h>

static const report_cost *cost(const void *answer)
{
    return answer;
}

const char *report_cost_money(const report_cost *c, double money, char *buffer, size_t size)
{
    if (isnan(money))
        snprintf(buffer, size, "-");
    else
        snprintf(buffer, size, fabs(money) < 100.0 ? "%.2f%s" : "%.0f%s", money + 0.0, c->currency);
    return buffer;
}

/* ---- items: of the plant as it is, then of the changed one ---- */

static const fv_cost_batch *batch(const void *answer, size_t i)
{
    const fv_cost_answer *a = cost(answer)->answer;
    return i < FV_COST_ITEMS ? &a->now : &a->then;
}
static const fv_cost_row *item(const void *answer, size_t i)
{
    return &batch(answer, i)->rows[i % FV_COST_ITEMS];
}
static const char *amount(const report_cost *c, size_t i, char *buffer)
{
    static const fv_show shows[] = {FV_SHOW_ENERGY, FV_SHOW_WATER, FV_SHOW_NUMBER, FV_SHOW_MASS, FV_SHOW_NUMBER};
    const double value = item(c, i)->amount;
    const fv_cost_item what = (fv_cost_item)(i % FV_COST_ITEMS);
    if (isnan(value))
        snprintf(buffer, PRINT_WORD_SIZE, "-");
    else if (what == FV_COST_HOURS)
        snprintf(buffer, PRINT_WORD_SIZE, "%.1f h", value / 3600.0);
    else
        snprintf(buffer, PRINT_WORD_SIZE, "%s", print_shown_as(c->units, shows[what], value).text);
    return buffer;
}
static const char *each(const report_cost *c, size_t i, bool pieces, char *buffer)
{
    const fv_cost_batch *b = batch(c, i);
    const double of = pieces ? (double)b->pieces : fv_show_value(c->units, FV_SHOW_MASS, b->kg);
    const double money = of > 0.0 ? item(c, i)->money / of : (double)NAN;
    snprintf(buffer, PRINT_WORD_SIZE, isnan(money) ? "-" : "%.4f", money);
    return buffer;
}
ROWS(items, cost(answer)->answer->changed ? 2 * FV_COST_ITEMS : FV_COST_ITEMS)
ROW(item_row, item(answer, i))
WORD_OF(item_plant, i < FV_COST_ITEMS ? "as it is" : "changed")
WORD_OF(item_what, fv_cost_word((fv_cost_item)(i % FV_COST_ITEMS)))
WORD_OF(item_amount, amount(answer, i, buffer))
WORD_OF(item_money, report_cost_money(answer, item(answer, i)->money, buffer, PRINT_WORD_SIZE))
WORD_OF(item_mass, each(answer, i, false, buffer))
WORD_OF(item_piece, each(answer, i, true, buffer))
static const char *unit_of(size_t i)
{
    static const char *const units[] = {"J", "kg", "s", "kg", "pieces"};
    return units[i % FV_COST_ITEMS];
}
WORD_OF(item_unit, unit_of(i))

static const print_field item_fields[] = {
    WORD("plant", IN_ALL, item_plant),
    WORD("what", IN_ALL, item_what),
    NUMBER(fv_cost_row, "amount", amount, "", IN_DATA, FV_SHOW_NUMBER),
    WORD("unit", IN_DATA, item_unit),
    WORD("amount", IN_TEXT, item_amount),
    NUMBER(fv_cost_row, "money", money, "", IN_DATA, FV_SHOW_NUMBER),
    WORD("money", IN_TEXT, item_money),
    WORD("a kg_or lb", IN_TEXT, item_mass),
    WORD("a piece", IN_TEXT, item_piece),
};

/* ---- batches ---- */

static const fv_cost_batch *whole(const void *answer, size_t i)
{
    return i == 0 ? &cost(answer)->answer->now : &cost(answer)->answer->then;
}
ROWS(batches, cost(answer)->answer->changed ? 2 : 1)
ROW(batch_row, whole(answer, i))
WORD_OF(batch_plant, i == 0 ? "as it is" : "changed")
WORD_OF(batch_core, SHOWN(print_hours(whole(answer, i)->last_core)))
WORD_OF(batch_money, report_cost_money(answer, whole(answer, i)->money, buffer, PRINT_WORD_SIZE))
WORD_OF(batch_worth, report_cost_money(answer, whole(answer, i)->worth, buffer, PRINT_WORD_SIZE))
#define B(name, member, unit, where, show) NUMBER(fv_cost_batch, name, member, unit, where, show)
static const print_field batch_fields[] = {
    WORD("plant", IN_ALL, batch_plant),
    WORD("last_core", IN_TEXT, batch_core),
    B("last_core", last_core, "_s", IN_DATA, FV_SHOW_NUMBER),
    B("steam_end", steam_end, "_s", IN_DATA, FV_SHOW_NUMBER),
    COUNT(fv_cost_batch, "starved", starved, IN_ALL),
    B("treated", kg, "_kg", IN_ALL, FV_SHOW_MASS),
    COUNT(fv_cost_batch, "pieces", pieces, IN_ALL),
    B("least_fuel", least_fuel, "_j", IN_ALL, FV_SHOW_ENERGY),
    B("money", money, "", IN_DATA, FV_SHOW_NUMBER),
    WORD("costs", IN_TEXT, batch_money),
    B("worth", worth, "", IN_DATA, FV_SHOW_NUMBER),
    WORD("worth", IN_TEXT, batch_worth),
};

const print_table report_cost_tables[COST_TABLES] = {
    [COST_ITEMS] = {"items", FIELDS(item_fields), items, item_row, NULL},
    [COST_BATCHES] = {"batches", FIELDS(batch_fields), batches, batch_row, NULL},
};
