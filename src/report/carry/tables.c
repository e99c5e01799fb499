/* SPDX-License-Identifier: MIT */
/* What stands in the tables of the carry answer. */
#include "report/carry/report.h"
#include "print/clock.h"
#include "print/fields.h"

#include <math.h>
#include <stdio.h>

static const fv_carry_answer *carry(const void *answer)
{
    return answer;
}

static const char *hours(double seconds, bool ran, char buffer[PRINT_WORD_SIZE])
{
    snprintf(buffer, PRINT_WORD_SIZE, "%s", !ran ? "unsolved" : isnan(seconds) ? "never" : print_hours(seconds).text);
    return buffer;
}

/* ---- counts: each number of vessels, in each manner ---- */

/* Where row i of the table is: rows of what hands did not better are left out. */
typedef struct {
    size_t row;
    fv_carry_manner manner;
} spot;

static spot spot_of(const fv_carry_answer *a, size_t i)
{
    for (size_t row = 0; row < a->row_count; row++)
        for (fv_carry_manner manner = FV_CARRY_TOGETHER; manner < FV_CARRY_MANNERS; manner++)
            if (report_carry_has(&a->rows[row], manner) && i-- == 0)
                return (spot){row, manner};
    return (spot){0, FV_CARRY_TOGETHER};
}
static size_t spots(const fv_carry_answer *a)
{
    size_t count = 0;
    for (size_t row = 0; row < a->row_count; row++)
        for (fv_carry_manner manner = FV_CARRY_TOGETHER; manner < FV_CARRY_MANNERS; manner++)
            count += report_carry_has(&a->rows[row], manner);
    return count;
}
static fv_carry_manner manner_of(const void *answer, size_t i)
{
    return spot_of(carry(answer), i).manner;
}
static const fv_carry_row *row_of(const void *answer, size_t i)
{
    return &carry(answer)->rows[spot_of(carry(answer), i).row];
}
static const fv_carry_batch *run_of(const void *answer, size_t i)
{
    return fv_carry_batch_of(row_of(answer, i), manner_of(answer, i));
}
static const char *count_shown(size_t count, char *buffer)
{
    snprintf(buffer, PRINT_WORD_SIZE, "%zu", count);
    return buffer;
}
ROWS(count_rows, spots(carry(answer)))
ROW(count_row, run_of(answer, i))
WORD_OF(count_vessels, count_shown(row_of(answer, i)->count, buffer))
NUMBER_OF(count_number, (double)row_of(answer, i)->count)
WORD_OF(count_manner, report_carry_manner_word(manner_of(answer, i)))
WORD_OF(count_key, report_carry_manner_key(manner_of(answer, i)))
WORD_OF(count_last, hours(run_of(answer, i)->slowest, run_of(answer, i)->ran, buffer))
WORD_OF(count_first, hours(run_of(answer, i)->fastest, run_of(answer, i)->ran, buffer))
WORD_OF(count_last_vessel, report_carry_vessel(row_of(answer, i)->plant, run_of(answer, i)->slowest_vessel))
/* What limits is looked for with valves as they are, and last. */
static const char *limit_shown(const void *answer, size_t i, char *buffer)
{
    const fv_carry_batch *run = run_of(answer, i);
    const bool looked_for = manner_of(answer, i) < FV_CARRY_THROTTLED && !carry(answer)->stopped;
    (void)buffer;
    return run->limit == FV_CARRY_LIMIT_UNKNOWN && !looked_for ? "-" : fv_carry_limit_word(run->limit);
}
WORD_OF(count_limit, fv_carry_limit_word(run_of(answer, i)->limit))

#define R(name, member, unit, where, show) NUMBER(fv_carry_batch, name, member, unit, where, show)
static const print_field count_fields[] = {
    CELL("count", "", IN_DATA, FV_SHOW_NUMBER, count_number),
    WORD("ves-_sels", IN_TEXT, count_vessels),
    WORD("started", IN_TEXT, count_manner),
    WORD("started", IN_DATA, count_key),
    FLAG(fv_carry_batch, "solved", ran, IN_DATA),
    FLAG(fv_carry_batch, "carried", carries, IN_DATA),
    WORD("last_core", IN_TEXT, count_last),
    R("last_core", slowest, "_s", IN_DATA, FV_SHOW_NUMBER),
    WORD("last_vessel", IN_DATA, count_last_vessel),
    WORD("first_core", IN_TEXT, count_first),
    R("first_core", fastest, "_s", IN_DATA, FV_SHOW_NUMBER),
    COUNT(fv_carry_batch, "starved", starved, IN_ALL),
    COUNT(fv_carry_batch, "lagging", lagging, IN_DATA),
    R("boiler", pressure, "_pa_gauge", IN_ALL, FV_SHOW_PRESSURE),
    R("steam", steam, "_kg", IN_ALL, FV_SHOW_MASS),
    R("water", water, "_kg", IN_ALL, FV_SHOW_WATER),
    R("fuel", fuel, "_j", IN_ALL, FV_SHOW_ENERGY),
    R("treated", mass, "_kg", IN_DATA, FV_SHOW_MASS),
    R("treated_a day", mass_per_day, "_kg", IN_TEXT, FV_SHOW_MASS),
    R("treated_a_day", mass_per_day, "_kg", IN_DATA, FV_SHOW_MASS),
    R("batch_end", done, "_s", IN_DATA, FV_SHOW_NUMBER),
    WORD("limit", IN_TEXT, limit_shown),
    WORD("limit", IN_DATA, count_limit),
    R("last_core_without_limit", without_limit, "_s", IN_DATA, FV_SHOW_NUMBER),
};

/* ---- vessels of each count and manner ---- */

typedef struct {
    const fv_carry_row *row;
    fv_carry_manner manner;
    size_t vessel;
} place;

static size_t vessel_rows(const void *answer)
{
    size_t count = 0;
    for (size_t i = 0; i < carry(answer)->row_count; i++)
        count += FV_CARRY_MANNERS * carry(answer)->rows[i].plant->vessel_count;
    return count;
}
static place place_of(const void *answer, size_t i)
{
    const fv_carry_row *row = carry(answer)->rows;
    while (i >= FV_CARRY_MANNERS * row->plant->vessel_count)
        i -= FV_CARRY_MANNERS * row++->plant->vessel_count;
    return (place){row, (fv_carry_manner)(i / row->plant->vessel_count), i % row->plant->vessel_count};
}
static const fv_carry_batch *run_at(place p)
{
    return fv_carry_batch_of(p.row, p.manner);
}
ROW(vessel_row, place_of(answer, i).row)
ROW(vessel_part, place_of(answer, i).row->plant->vessels[place_of(answer, i).vessel])
WORD_OF(vessel_manner, report_carry_manner_key(place_of(answer, i).manner))
NUMBER_OF(vessel_start, run_at(place_of(answer, i))->start[place_of(answer, i).vessel])
NUMBER_OF(vessel_opened, run_at(place_of(answer, i))->opened[place_of(answer, i).vessel])
NUMBER_OF(vessel_core, run_at(place_of(answer, i))->core[place_of(answer, i).vessel])
WORD_OF(vessel_verdict, fv_verdict_word(run_at(place_of(answer, i))->verdicts[place_of(answer, i).vessel]))

static const print_field vessel_fields[] = {
    COUNT(fv_carry_row, "count", count, IN_DATA),
    WORD("started", IN_DATA, vessel_manner),
    PART_TEXT(fv_vessel, "vessel", part.id, IN_DATA),
    CELL("start", "_s", IN_DATA, FV_SHOW_NUMBER, vessel_start),
    CELL("opened", "_s", IN_DATA, FV_SHOW_NUMBER, vessel_opened),
    CELL("core", "_s", IN_DATA, FV_SHOW_NUMBER, vessel_core),
    WORD("verdict", IN_DATA, vessel_verdict),
};

/* ---- holding ---- */

static const fv_carry_row *holding(const void *answer, size_t i)
{
    return &carry(answer)->rows[i];
}
ROWS(holding_rows, carry(answer)->row_count)
ROW(holding_row, &holding(answer, i)->holding)
WORD_OF(holding_vessels, count_shown(holding(answer, i)->count, buffer))
NUMBER_OF(holding_count, (double)holding(answer, i)->count)
WORD_OF(holding_worst, report_carry_vessel(holding(answer, i)->plant, holding(answer, i)->holding.worst_vessel))
WORD_OF(holding_limit, fv_carry_limit_word(holding(answer, i)->holding.limit))

#define H(name, member, unit, where, show) NUMBER(fv_carry_holding, name, member, unit, where, show)
static const print_field holding_fields[] = {
    CELL("count", "", IN_DATA, FV_SHOW_NUMBER, holding_count),
    WORD("ves-_sels", IN_TEXT, holding_vessels),
    FLAG(fv_carry_holding, "solved", solved, IN_DATA),
    FLAG(fv_carry_holding, "carried", carries, IN_DATA),
    H("need", need, "_w", IN_ALL, FV_SHOW_POWER),
    H("arrives", heat, "_w", IN_ALL, FV_SHOW_POWER),
    COUNT(fv_carry_holding, "starved", starved, IN_ALL),
    WORD("least_fed", IN_ALL, holding_worst),
    H("heat_to_need", coverage, "", IN_ALL, FV_SHOW_NUMBER),
    H("boiler", pressure, "_pa_gauge", IN_ALL, FV_SHOW_PRESSURE),
    H("steam", steam, "_kg_s", IN_ALL, FV_SHOW_STEAM),
    H("water", water, "_kg_s", IN_DATA, FV_SHOW_STEAM),
    H("fuel", fuel, "_w", IN_ALL, FV_SHOW_POWER),
    H("least_fire", least_fire, "", IN_ALL, FV_SHOW_SHARE),
    H("least_output", least_output, "_w", IN_DATA, FV_SHOW_POWER),
    WORD("limit", IN_ALL, holding_limit),
};

/* ---- ways ---- */

static const fv_carry_way *way(const void *answer, size_t i)
{
    return &carry(answer)->ways[i];
}
static bool is_boiler(const fv_carry_way *way)
{
    return way->other == FV_CARRY_BIGGER_BOILER || way->other == FV_CARRY_SECOND_BOILER;
}
ROWS(way_rows, carry(answer)->way_count)
ROW(way_row, way(answer, i))
WORD_OF(way_word, fv_carry_other_word(way(answer, i)->other))
WORD_OF(way_work, way(answer, i)->work ? fv_remedy_word(way(answer, i)->work->kind) : "")
NUMBER_OF(way_output, is_boiler(way(answer, i)) ? way(answer, i)->size : NAN)
NUMBER_OF(way_size, is_boiler(way(answer, i)) ? NAN : way(answer, i)->size)
WORD_OF(way_last_vessel, report_carry_vessel(way(answer, i)->plant, way(answer, i)->run.slowest_vessel))

#define Y(name, member, unit, show) NUMBER(fv_carry_way, name, member, unit, IN_DATA, show)
static const print_field way_fields[] = {
    WORD("way", IN_DATA, way_word),
    WORD("work", IN_DATA, way_work),
    CELL("output", "_w", IN_DATA, FV_SHOW_POWER, way_output),
    CELL("size", "_m", IN_DATA, FV_SHOW_BORE, way_size),
    FLAG(fv_carry_way, "from_stock", from_stock, IN_DATA),
    FLAG(fv_carry_way, "meets", meets, IN_DATA),
    FLAG(fv_carry_way, "carried", run.carries, IN_DATA),
    Y("cost", cost, "", FV_SHOW_NUMBER),
    Y("last_core", run.slowest, "_s", FV_SHOW_NUMBER),
    WORD("last_vessel", IN_DATA, way_last_vessel),
    Y("first_core", run.fastest, "_s", FV_SHOW_NUMBER),
    COUNT(fv_carry_way, "starved", run.starved, IN_DATA),
    COUNT(fv_carry_way, "lagging", run.lagging, IN_DATA),
    Y("treated_a_day", run.mass_per_day, "_kg", FV_SHOW_MASS),
    Y("fuel", run.fuel, "_j", FV_SHOW_ENERGY),
    Y("fuel_per_treated", fuel_per_mass, "_j_kg", FV_SHOW_NUMBER),
    Y("water", run.water, "_kg", FV_SHOW_MASS),
    Y("boiler", run.pressure, "_pa_gauge", FV_SHOW_PRESSURE),
    FLAG(fv_carry_way, "over_relief", over_relief, IN_DATA),
    FLAG(fv_carry_way, "over_half_bar", over_equipment, IN_DATA),
};

const print_table report_carry_tables[CARRY_TABLES] = {
    [CARRY_COUNTS] = {"counts", FIELDS(count_fields), count_rows, count_row, NULL},
    [CARRY_VESSELS] = {"vessels", FIELDS(vessel_fields), vessel_rows, vessel_row, vessel_part},
    [CARRY_HOLDING] = {"holding", FIELDS(holding_fields), holding_rows, holding_row, NULL},
    [CARRY_WAYS] = {"ways", FIELDS(way_fields), way_rows, way_row, NULL},
};
