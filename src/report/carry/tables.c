/* SPDX-License-Identifier: MIT */
/* What stands in the tables of the carry answer. */
#include "report/carry/report.h"
#include "report/heat/report.h"

#include <math.h>
#include <stdio.h>

static const fv_carry_answer *carry(const void *answer)
{
    return answer;
}

#define NUMBER(row, name, member, unit, where, show)                                                                   \
    {                                                                                                                  \
        name, unit, where, FIELD_NUMBER, show, offsetof(row, member), NULL, NULL, NULL                                 \
    }
#define COUNT(row, name, member, where)                                                                                \
    {                                                                                                                  \
        name, "", where, FIELD_COUNT, FV_SHOW_NUMBER, offsetof(row, member), NULL, NULL, NULL                          \
    }
#define FLAG(row, name, member)                                                                                        \
    {                                                                                                                  \
        name, "", IN_DATA, FIELD_FLAG, FV_SHOW_NUMBER, offsetof(row, member), NULL, NULL, NULL                         \
    }
#define WORD(name, where, function)                                                                                    \
    {                                                                                                                  \
        name, "", where, FIELD_WORD, FV_SHOW_NUMBER, 0, NULL, function, NULL                                           \
    }
#define CELL(name, unit, where, show, function)                                                                        \
    {                                                                                                                  \
        name, unit, where, FIELD_NUMBER, show, 0, function, NULL, NULL                                                 \
    }
#define FIELDS(list) list, sizeof list / sizeof *list

static const char *hours(double seconds, bool ran, char buffer[PRINT_WORD_SIZE])
{
    snprintf(buffer, PRINT_WORD_SIZE, "%s", !ran ? "unsolved" : isnan(seconds) ? "never" : report_hours(seconds).text);
    return buffer;
}

/* ---- counts: each number of vessels, together and staggered ---- */

static size_t count_rows(const void *answer)
{
    return carry(answer)->row_count * CARRY_MANNERS;
}
static const fv_carry_row *row_of(const void *answer, size_t i)
{
    return &carry(answer)->rows[i / CARRY_MANNERS];
}
static const void *count_row(const void *answer, size_t i)
{
    return report_carry_run(row_of(answer, i), (report_carry_manner)(i % CARRY_MANNERS));
}
static const char *count_vessels(const void *answer, size_t i, char *buffer)
{
    snprintf(buffer, PRINT_WORD_SIZE, "%zu", row_of(answer, i)->count);
    return buffer;
}
static double count_number(const void *answer, size_t i)
{
    return (double)row_of(answer, i)->count;
}
static const char *count_manner(const void *answer, size_t i, char *buffer)
{
    (void)answer;
    (void)buffer;
    return report_carry_manner_word((report_carry_manner)(i % CARRY_MANNERS));
}
static const char *count_last(const void *answer, size_t i, char *buffer)
{
    const fv_carry_batch *run = count_row(answer, i);
    return hours(run->slowest, run->ran, buffer);
}
static const char *count_first(const void *answer, size_t i, char *buffer)
{
    const fv_carry_batch *run = count_row(answer, i);
    return hours(run->fastest, run->ran, buffer);
}
static const char *count_last_vessel(const void *answer, size_t i, char *buffer)
{
    const fv_carry_batch *run = count_row(answer, i);
    (void)buffer;
    return report_carry_vessel(row_of(answer, i)->plant, run->slowest_vessel);
}
static const char *count_limit(const void *answer, size_t i, char *buffer)
{
    const fv_carry_batch *run = count_row(answer, i);
    (void)buffer;
    return fv_carry_limit_word(run->limit);
}
static double count_delay(const void *answer, size_t i)
{
    return i % CARRY_MANNERS == CARRY_STAGGERED ? row_of(answer, i)->delay : 0.0;
}

#define R(name, member, unit, where, show) NUMBER(fv_carry_batch, name, member, unit, where, show)
static const print_field count_fields[] = {
    CELL("count", "", IN_DATA, FV_SHOW_NUMBER, count_number),
    WORD("ves-_sels", IN_TEXT, count_vessels),
    WORD("started", IN_ALL, count_manner),
    FLAG(fv_carry_batch, "solved", ran),
    FLAG(fv_carry_batch, "carried", carries),
    WORD("last_core", IN_TEXT, count_last),
    R("last_core", slowest, "_s", IN_DATA, FV_SHOW_NUMBER),
    WORD("last_vessel", IN_DATA, count_last_vessel),
    WORD("first_core", IN_TEXT, count_first),
    R("first_core", fastest, "_s", IN_DATA, FV_SHOW_NUMBER),
    COUNT(fv_carry_batch, "starved", starved, IN_ALL),
    COUNT(fv_carry_batch, "lagging", lagging, IN_DATA),
    R("boiler", pressure, "_pa_gauge", IN_ALL, FV_SHOW_PRESSURE),
    R("steam", steam, "_kg", IN_ALL, FV_SHOW_MASS),
    R("water", water, "_kg", IN_ALL, FV_SHOW_MASS),
    R("fuel", fuel, "_j", IN_ALL, FV_SHOW_ENERGY),
    R("treated", mass, "_kg", IN_DATA, FV_SHOW_MASS),
    R("treated_a day", mass_per_day, "_kg", IN_TEXT, FV_SHOW_MASS),
    R("treated_a_day", mass_per_day, "_kg", IN_DATA, FV_SHOW_MASS),
    R("batch_end", done, "_s", IN_DATA, FV_SHOW_NUMBER),
    CELL("delay", "_s", IN_DATA, FV_SHOW_NUMBER, count_delay),
    WORD("limit", IN_ALL, count_limit),
    R("last_core_without_limit", without_limit, "_s", IN_DATA, FV_SHOW_NUMBER),
};

/* ---- vessels of each count and manner ---- */

typedef struct {
    const fv_carry_row *row;
    report_carry_manner manner;
    size_t vessel;
} place;

static size_t vessel_rows(const void *answer)
{
    size_t count = 0;
    for (size_t i = 0; i < carry(answer)->row_count; i++)
        count += CARRY_MANNERS * carry(answer)->rows[i].plant->vessel_count;
    return count;
}
static place place_of(const void *answer, size_t i)
{
    const fv_carry_row *row = carry(answer)->rows;
    while (i >= CARRY_MANNERS * row->plant->vessel_count)
        i -= CARRY_MANNERS * row++->plant->vessel_count;
    return (place){row, (report_carry_manner)(i / row->plant->vessel_count), i % row->plant->vessel_count};
}
static const void *vessel_row(const void *answer, size_t i)
{
    return place_of(answer, i).row;
}
static const char *vessel_manner(const void *answer, size_t i, char *buffer)
{
    (void)buffer;
    return report_carry_manner_word(place_of(answer, i).manner);
}
static const char *vessel_id(const void *answer, size_t i, char *buffer)
{
    const place p = place_of(answer, i);
    (void)buffer;
    return p.row->plant->vessels[p.vessel]->part.id;
}
static double vessel_start(const void *answer, size_t i)
{
    const place p = place_of(answer, i);
    return report_carry_run(p.row, p.manner)->start[p.vessel];
}
static double vessel_opened(const void *answer, size_t i)
{
    const place p = place_of(answer, i);
    return report_carry_run(p.row, p.manner)->opened[p.vessel];
}
static double vessel_core(const void *answer, size_t i)
{
    const place p = place_of(answer, i);
    return report_carry_run(p.row, p.manner)->core[p.vessel];
}
static const char *vessel_verdict(const void *answer, size_t i, char *buffer)
{
    const place p = place_of(answer, i);
    (void)buffer;
    return fv_verdict_word(report_carry_run(p.row, p.manner)->verdicts[p.vessel]);
}

static const print_field vessel_fields[] = {
    COUNT(fv_carry_row, "count", count, IN_DATA),
    WORD("started", IN_DATA, vessel_manner),
    WORD("vessel", IN_DATA, vessel_id),
    CELL("start", "_s", IN_DATA, FV_SHOW_NUMBER, vessel_start),
    CELL("opened", "_s", IN_DATA, FV_SHOW_NUMBER, vessel_opened),
    CELL("core", "_s", IN_DATA, FV_SHOW_NUMBER, vessel_core),
    WORD("verdict", IN_DATA, vessel_verdict),
};

/* ---- holding ---- */

static size_t holding_rows(const void *answer)
{
    return carry(answer)->row_count;
}
static const void *holding_row(const void *answer, size_t i)
{
    return &carry(answer)->rows[i].holding;
}
static const char *holding_vessels(const void *answer, size_t i, char *buffer)
{
    snprintf(buffer, PRINT_WORD_SIZE, "%zu", carry(answer)->rows[i].count);
    return buffer;
}
static double holding_count(const void *answer, size_t i)
{
    return (double)carry(answer)->rows[i].count;
}
static const char *holding_worst(const void *answer, size_t i, char *buffer)
{
    const fv_carry_row *row = &carry(answer)->rows[i];
    (void)buffer;
    return report_carry_vessel(row->plant, row->holding.worst_vessel);
}
static const char *holding_limit(const void *answer, size_t i, char *buffer)
{
    (void)buffer;
    return fv_carry_limit_word(carry(answer)->rows[i].holding.limit);
}

#define H(name, member, unit, where, show) NUMBER(fv_carry_holding, name, member, unit, where, show)
static const print_field holding_fields[] = {
    CELL("count", "", IN_DATA, FV_SHOW_NUMBER, holding_count),
    WORD("ves-_sels", IN_TEXT, holding_vessels),
    FLAG(fv_carry_holding, "solved", solved),
    FLAG(fv_carry_holding, "carried", carries),
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

static size_t way_rows(const void *answer)
{
    return carry(answer)->way_count;
}
static const void *way_row(const void *answer, size_t i)
{
    return &carry(answer)->ways[i];
}
static const char *way_word(const void *answer, size_t i, char *buffer)
{
    (void)buffer;
    return fv_carry_other_word(carry(answer)->ways[i].other);
}
static bool is_boiler(const fv_carry_way *way)
{
    return way->other == FV_CARRY_BIGGER_BOILER || way->other == FV_CARRY_SECOND_BOILER;
}
static double way_output(const void *answer, size_t i)
{
    const fv_carry_way *way = way_row(answer, i);
    return is_boiler(way) ? way->size : (double)NAN;
}
static double way_size(const void *answer, size_t i)
{
    const fv_carry_way *way = way_row(answer, i);
    return is_boiler(way) ? (double)NAN : way->size;
}
static const char *way_last_vessel(const void *answer, size_t i, char *buffer)
{
    const fv_carry_way *way = way_row(answer, i);
    (void)buffer;
    return report_carry_vessel(way->plant, way->run.slowest_vessel);
}

#define Y(name, member, unit, show) NUMBER(fv_carry_way, name, member, unit, IN_DATA, show)
static const print_field way_fields[] = {
    WORD("way", IN_DATA, way_word),
    CELL("output", "_w", IN_DATA, FV_SHOW_POWER, way_output),
    CELL("size", "_m", IN_DATA, FV_SHOW_BORE, way_size),
    FLAG(fv_carry_way, "from_stock", from_stock),
    FLAG(fv_carry_way, "meets", meets),
    FLAG(fv_carry_way, "carried", run.carries),
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
    FLAG(fv_carry_way, "over_relief", over_relief),
    FLAG(fv_carry_way, "over_half_bar", over_equipment),
};

const print_table report_carry_tables[CARRY_TABLES] = {
    [CARRY_COUNTS] = {"counts", FIELDS(count_fields), count_rows, count_row},
    [CARRY_VESSELS] = {"vessels", FIELDS(vessel_fields), vessel_rows, vessel_row},
    [CARRY_HOLDING] = {"holding", FIELDS(holding_fields), holding_rows, holding_row},
    [CARRY_WAYS] = {"ways", FIELDS(way_fields), way_rows, way_row},
};
