/* SPDX-License-Identifier: MIT */
/* What stands in the tables of the heat answer. A new result field becomes one row here. */
#include "report/heat/report.h"

#include "farvessel/constants.h"
#include "print/fields.h"

#include <math.h>
#include <stdio.h>

static const report_heat *of(const void *answer)
{
    return answer;
}
static const fv_heat_result *result(const void *answer)
{
    return of(answer)->result;
}

/* ---- vessels ---- */

static const fv_vessel_history *history(const void *answer, size_t i)
{
    return &result(answer)->vessels[i];
}
ROWS(vessel_rows, result(answer)->vessel_count)
ROW(vessel_row, history(answer, i))
ROW(vessel_part, result(answer)->plant->vessels[i])
WORD_OF(vessel_verdict, fv_verdict_word(history(answer, i)->verdict))
WORD_OF(vessel_outcome, report_outcome_word(of(answer)->outcomes[i]))
WORD_OF(vessel_arrival, fv_arrival_word(history(answer, i)->arrival))
WORD_OF(vessel_why, of(answer)->why[i])
NUMBER_OF(vessel_took, report_heat_took(answer, i))
NUMBER_OF(vessel_times,
          history(answer, i)->core_ample > 0.0 ? vessel_took(answer, i) / history(answer, i)->core_ample : NAN)
NUMBER_OF(vessel_limit, fv_vessel_limit(result(answer)->plant->vessels[i]))

#define V(member, unit, show) NUMBER(fv_vessel_history, #member, member, unit, IN_DATA, show)
static const print_field vessel_fields[] = {
    PART_TEXT(fv_vessel, "vessel", part.id, IN_DATA),
    WORD("verdict", IN_DATA, vessel_verdict),
    WORD("fate", IN_DATA, vessel_outcome),
    WORD("arrival", IN_DATA, vessel_arrival),
    WORD("why", IN_DATA, vessel_why),
    V(opened, "_s", FV_SHOW_NUMBER),
    V(steam_on, "_s", FV_SHOW_NUMBER),
    V(full, "_s", FV_SHOW_NUMBER),
    V(core, "_s", FV_SHOW_NUMBER),
    V(hold, "_s", FV_SHOW_NUMBER),
    V(cool, "_s", FV_SHOW_NUMBER),
    CELL("took", "_s", IN_DATA, FV_SHOW_NUMBER, vessel_took),
    V(core_ample, "_s", FV_SHOW_NUMBER),
    CELL("times_ample", "", IN_DATA, FV_SHOW_NUMBER, vessel_times),
    PART_VALUE(fv_vessel, "within", within, "_s", IN_DATA, FV_SHOW_NUMBER),
    PART_VALUE(fv_vessel, "target", target, "_k", IN_DATA, FV_SHOW_TEMPERATURE),
    PART_VALUE(fv_vessel, "hold_wanted", hold, "_s", IN_DATA, FV_SHOW_NUMBER),
    V(hold_longest, "_s", FV_SHOW_NUMBER),
    V(hold_sum, "_s", FV_SHOW_NUMBER),
    V(hold_broken, "_s", FV_SHOW_NUMBER),
    V(starved_since, "_s", FV_SHOW_NUMBER),
    V(settles, "_k", FV_SHOW_TEMPERATURE),
    V(core_end, "_k", FV_SHOW_TEMPERATURE),
    V(chamber_end, "_k", FV_SHOW_TEMPERATURE),
    V(lethality, "_s", FV_SHOW_NUMBER),
    PART_VALUE(fv_vessel, "reference_temperature", reference_temperature, "_k", IN_DATA, FV_SHOW_TEMPERATURE),
    PART_VALUE(fv_vessel, "z", z, "_k", IN_DATA, FV_SHOW_TEMPERATURE_DIFFERENCE),
    V(steam, "_kg", FV_SHOW_MASS),
    V(water, "_kg", FV_SHOW_MASS),
    V(condensate, "_kg", FV_SHOW_MASS),
    V(vented, "_kg", FV_SHOW_MASS),
    V(evaporated, "_kg", FV_SHOW_MASS),
    V(air, "_kg", FV_SHOW_MASS),
    V(moisture_gain, "_kg", FV_SHOW_MASS),
    V(sump, "_m", FV_SHOW_BORE),
    V(heat_load, "_j", FV_SHOW_ENERGY),
    V(heat_walls, "_j", FV_SHOW_ENERGY),
    V(heat_linings, "_j", FV_SHOW_ENERGY),
    V(lining_water, "_kg", FV_SHOW_MASS),
    V(heat_shell, "_j", FV_SHOW_ENERGY),
    V(heat_vented, "_j", FV_SHOW_ENERGY),
    V(pressure_most, "_pa_gauge", FV_SHOW_PRESSURE),
    V(hottest, "_k", FV_SHOW_TEMPERATURE),
    CELL("limit", "_k", IN_DATA, FV_SHOW_TEMPERATURE, vessel_limit),
    V(over, "_s", FV_SHOW_NUMBER),
    V(over_share, "", FV_SHOW_SHARE),
    V(bag_over, "_s", FV_SHOW_NUMBER),
    V(steam_least_in_hold, "_kg_s", FV_SHOW_STEAM),
};

/* ---- the same for people: the clock ---- */

WORD_OF(when_steam_on, SHOWN(print_when(&of(answer)->clock, history(answer, i)->steam_on)))
WORD_OF(when_full, SHOWN(print_when(&of(answer)->clock, history(answer, i)->full)))
WORD_OF(when_core, SHOWN(print_when(&of(answer)->clock, history(answer, i)->core)))
WORD_OF(when_hold, SHOWN(print_when(&of(answer)->clock, history(answer, i)->hold)))
WORD_OF(when_cool, SHOWN(print_when(&of(answer)->clock, history(answer, i)->cool)))
WORD_OF(timeline_verdict, report_outcome_shown(of(answer)->outcomes[i]))

static const print_field timeline_fields[] = {
    PART_TEXT(fv_vessel, "vessel", part.id, IN_TEXT),
    WORD("steam_on", IN_TEXT, when_steam_on),
    WORD("full of_steam", IN_TEXT, when_full),
    WORD("core at_target", IN_TEXT, when_core),
    WORD("hold_ends", IN_TEXT, when_hold),
    WORD("cool, to_inoculate", IN_TEXT, when_cool),
    WORD("verdict", IN_TEXT, timeline_verdict),
};

/* ---- and what it took ---- */

WORD_OF(effort_took, SHOWN(print_hours(vessel_took(answer, i))))
WORD_OF(effort_ample, SHOWN(print_hours(history(answer, i)->core_ample)))
WORD_OF(effort_within, SHOWN(print_hours(result(answer)->plant->vessels[i]->within.v)))
WORD_OF(effort_held, SHOWN(print_hours(history(answer, i)->hold_longest)))
WORD_OF(effort_lethality, SHOWN(print_hours(history(answer, i)->lethality)))

static const print_field effort_fields[] = {
    PART_TEXT(fv_vessel, "vessel", part.id, IN_TEXT),
    WORD("core_took_h:min", IN_TEXT, effort_took),
    WORD("in_plenty_h:min", IN_TEXT, effort_ample),
    CELL("times", "", IN_TEXT, FV_SHOW_NUMBER, vessel_times),
    WORD("allowed_h:min", IN_TEXT, effort_within),
    WORD("held_h:min", IN_TEXT, effort_held),
    WORD("lethality_h:min", IN_TEXT, effort_lethality),
    NUMBER(fv_vessel_history, "steam", steam, "_kg", IN_TEXT, FV_SHOW_MASS),
    NUMBER(fv_vessel_history, "vented", vented, "_kg", IN_TEXT, FV_SHOW_MASS),
    NUMBER(fv_vessel_history, "least_in hold", steam_least_in_hold, "_kg_s", IN_TEXT, FV_SHOW_STEAM),
};

/* ---- series: a row for each vessel at each sample ---- */

static const char *clock_of(const void *answer, double time, char *buffer)
{
    return isnan(of(answer)->clock.start) ? "" : SHOWN(print_when(&of(answer)->clock, time));
}
ROW(series_row, &result(answer)->series)
ROWS(series_rows, result(answer)->series.count *result(answer)->vessel_count)
ROW(series_part, vessel_part(answer, i % result(answer)->vessel_count))
NUMBER_OF(series_time, result(answer)->series.time[i / result(answer)->vessel_count])
WORD_OF(series_clock, clock_of(answer, series_time(answer, i), buffer))

static const print_field series_fields[] = {
    CELL("time", "_s", IN_DATA, FV_SHOW_NUMBER, series_time),
    WORD("clock", IN_DATA, series_clock),
    PART_TEXT(fv_vessel, "vessel", part.id, IN_DATA),
    COLUMN(fv_series, "core", core, "_k", IN_DATA, FV_SHOW_TEMPERATURE),
    COLUMN(fv_series, "chamber", chamber, "_k", IN_DATA, FV_SHOW_TEMPERATURE),
    COLUMN(fv_series, "surface", surface, "_k", IN_DATA, FV_SHOW_TEMPERATURE),
    COLUMN(fv_series, "steam", vessel_steam, "_kg_s", IN_DATA, FV_SHOW_STEAM),
    COLUMN(fv_series, "air_share", air_share, "", IN_DATA, FV_SHOW_SHARE),
    COLUMN(fv_series, "pressure", vessel_pressure, "_pa_gauge", IN_DATA, FV_SHOW_PRESSURE),
};

/* ---- firing: a row for each boiler at each sample ---- */

ROWS(firing_rows, result(answer)->series.count *result(answer)->boiler_count)
ROW(firing_part, result(answer)->plant->boilers[i % result(answer)->boiler_count])
NUMBER_OF(firing_time, result(answer)->series.time[i / result(answer)->boiler_count])
NUMBER_OF(firing_demand, result(answer)->series.demand[i / result(answer)->boiler_count])
WORD_OF(firing_clock, clock_of(answer, firing_time(answer, i), buffer))

static const print_field firing_fields[] = {
    CELL("time", "_s", IN_DATA, FV_SHOW_NUMBER, firing_time),
    WORD("clock", IN_DATA, firing_clock),
    PART_TEXT(fv_boiler, "boiler", part.id, IN_DATA),
    COLUMN(fv_series, "steam", boiler_steam, "_kg_s", IN_DATA, FV_SHOW_STEAM),
    COLUMN(fv_series, "pressure", boiler_pressure, "_pa_gauge", IN_DATA, FV_SHOW_PRESSURE),
    COLUMN(fv_series, "fuel", boiler_fuel, "_w", IN_DATA, FV_SHOW_POWER),
    CELL("demand_of_all", "_kg_s", IN_DATA, FV_SHOW_STEAM, firing_demand),
};

/* ---- events ---- */

static const fv_heat_event *event(const void *answer, size_t i)
{
    return &result(answer)->events[i];
}
ROWS(event_rows, result(answer)->event_count)
ROW(event_row, event(answer, i))
WORD_OF(event_clock, clock_of(answer, event(answer, i)->time, buffer))
WORD_OF(event_kind, report_event_word(event(answer, i)->kind))
WORD_OF(event_part, report_event_part(answer, event(answer, i)))
static const char *event_text(const void *answer, size_t i, char *buffer)
{
    fv_text text = {0};
    const fv_heat_event *h = event(answer, i);
    report_event_text(answer, h, report_event_part(answer, h), &text);
    return print_word_take(&text, buffer);
}

static const print_field event_fields[] = {
    NUMBER(fv_heat_event, "time", time, "_s", IN_DATA, FV_SHOW_NUMBER),
    WORD("clock", IN_DATA, event_clock),
    WORD("happening", IN_DATA, event_kind),
    WORD("part", IN_DATA, event_part),
    WORD("text", IN_DATA, event_text),
};

/* ---- split ---- */

ROWS(split_rows, HEAT_SHARES)
ROW(split_row, &of(answer)->shares[i])

static const print_field split_fields[] = {
    TEXT(report_heat_share, "item", item, IN_DATA),
    NUMBER(report_heat_share, "heat", heat, "_j", IN_DATA, FV_SHOW_ENERGY),
    NUMBER(report_heat_share, "share", share, "", IN_DATA, FV_SHOW_SHARE),
    NUMBER(report_heat_share, "heat_at_end", heat_at_end, "_j", IN_DATA, FV_SHOW_ENERGY),
};

/* ---- boilers ---- */

ROWS(boiler_rows, result(answer)->boiler_count)
ROW(boiler_row, &result(answer)->boilers[i])
ROW(boiler_part, result(answer)->plant->boilers[i])
NUMBER_OF(boiler_fuel_mass, of(answer)->fuels[i].fuel_mass)
NUMBER_OF(boiler_fuel_volume, of(answer)->fuels[i].fuel_volume)
WORD_OF(boiler_up, SHOWN(print_when(&of(answer)->clock, result(answer)->boilers[i].steam_up)))
/* The amount as it is bought. */
static const char *boiler_bought(const void *answer, size_t i, char *buffer)
{
    const report_heat *heat = of(answer);
    const fv_fuel_entry *fuel = fv_fuel_of(result(answer)->plant->boilers[i]);
    report_fuel amount = heat->fuels[i];
    if (!fuel || isnan(amount.fuel_mass))
        return fuel ? fuel->name : "-";
    print_shown shown = print_shown_as(heat->units, FV_SHOW_MASS, amount.fuel_mass);
    if (fuel->state == FV_FUEL_LIQUID)
        shown = print_shown_as(heat->units, FV_SHOW_VOLUME, amount.fuel_volume);
    if (fuel->state == FV_FUEL_GASEOUS) {
        char number[16];
        const bool feet = heat->units == FV_US;
        fv_show_number(heat->units, FV_SHOW_NUMBER,
                       feet ? amount.fuel_volume / (FV_FOOT * FV_FOOT * FV_FOOT) : amount.fuel_volume, number,
                       sizeof number);
        snprintf(shown.text, sizeof shown.text, "%s %s", number, feet ? "ft3" : "m3");
    }
    snprintf(buffer, PRINT_WORD_SIZE, "%s %s", shown.text, fuel->name);
    return buffer;
}

#define B(member, unit, where, show) NUMBER(fv_boiler_history, #member, member, unit, where, show)
static const print_field boiler_fields[] = {
    PART_TEXT(fv_boiler, "boiler", part.id, IN_ALL),
    B(steam_up, "_s", IN_DATA, FV_SHOW_NUMBER),
    B(dry, "_s", IN_DATA, FV_SHOW_NUMBER),
    WORD("gives_steam", IN_TEXT, boiler_up),
    B(steam, "_kg", IN_ALL, FV_SHOW_MASS),
    B(steam_most, "_kg_s", IN_ALL, FV_SHOW_STEAM),
    B(pressure_most, "_pa_gauge", IN_ALL, FV_SHOW_PRESSURE),
    B(water, "_kg", IN_ALL, FV_SHOW_WATER),
    B(water_most, "_kg_s", IN_DATA, FV_SHOW_STEAM),
    B(refilled, "_kg", IN_DATA, FV_SHOW_MASS),
    B(refill_mass, "_kg", IN_DATA, FV_SHOW_MASS),
    B(refill_first, "_s", IN_DATA, FV_SHOW_NUMBER),
    B(refill_every, "_s", IN_DATA, FV_SHOW_NUMBER),
    B(heat, "_j", IN_DATA, FV_SHOW_ENERGY),
    B(fuel, "_j", IN_ALL, FV_SHOW_ENERGY),
    CELL("fuel", "_kg", IN_DATA, FV_SHOW_MASS, boiler_fuel_mass),
    CELL("fuel", "_m3", IN_DATA, FV_SHOW_VOLUME, boiler_fuel_volume),
    WORD("that_is", IN_TEXT, boiler_bought),
};

/* ---- lines ---- */

ROWS(line_rows, result(answer)->line_count)
ROW(line_row, result(answer))
ROW(line_part, result(answer)->plant->lines[i])

static const print_field line_fields[] = {
    PART_TEXT(fv_line, "line", part.id, IN_DATA),
    COLUMN(fv_heat_result, "loss", line_loss, "_j", IN_DATA, FV_SHOW_ENERGY),
    COLUMN(fv_heat_result, "condensate", line_condensate, "_kg", IN_DATA, FV_SHOW_MASS),
};

/* ---- the plant: one row ---- */

static double last_of(const void *answer, double (*time)(const fv_vessel_history *history))
{
    double last = NAN; /* fmax leaves NaN aside */
    for (size_t i = 0; i < result(answer)->vessel_count; i++) {
        const double t = time(history(answer, i));
        if (isnan(t) && of(answer)->outcomes[i] != OUTCOME_SHUT)
            return NAN; /* one never comes so far */
        last = fmax(last, t);
    }
    return last;
}
static double core_time(const fv_vessel_history *history)
{
    return history->core;
}
static double hold_time(const fv_vessel_history *history)
{
    return history->hold;
}
static double outcomes(const void *answer, report_outcome first, report_outcome last)
{
    size_t count = 0;
    for (size_t i = 0; i < result(answer)->vessel_count; i++)
        count += of(answer)->outcomes[i] >= first && of(answer)->outcomes[i] <= last;
    return (double)count;
}
static double sum_of(const void *answer, size_t offset)
{
    double sum = 0.0;
    for (size_t i = 0; i < result(answer)->boiler_count; i++)
        sum += *(const double *)(const void *)((const char *)&result(answer)->boilers[i] + offset);
    return sum;
}
ROWS(plant_rows, 1)
ROW(plant_row, result(answer))
NUMBER_OF(plant_last_core, last_of(answer, core_time))
NUMBER_OF(plant_last_hold, last_of(answer, hold_time))
NUMBER_OF(plant_starved, outcomes(answer, OUTCOME_NEVER, OUTCOME_LATE))
NUMBER_OF(plant_unheld, outcomes(answer, OUTCOME_UNHELD, OUTCOME_UNHELD))
NUMBER_OF(plant_lagging, outcomes(answer, OUTCOME_LAGGING, OUTCOME_LAGGING))
NUMBER_OF(plant_fed, outcomes(answer, OUTCOME_FED, OUTCOME_FED))
NUMBER_OF(plant_steam, sum_of(answer, offsetof(fv_boiler_history, steam)))
NUMBER_OF(plant_water, sum_of(answer, offsetof(fv_boiler_history, water)))
NUMBER_OF(plant_fuel, sum_of(answer, offsetof(fv_boiler_history, fuel)))

static const print_field plant_fields[] = {
    CELL("starved", "", IN_DATA, FV_SHOW_NUMBER, plant_starved),
    CELL("hold_broken", "", IN_DATA, FV_SHOW_NUMBER, plant_unheld),
    CELL("lagging", "", IN_DATA, FV_SHOW_NUMBER, plant_lagging),
    CELL("fed", "", IN_DATA, FV_SHOW_NUMBER, plant_fed),
    CELL("last_core", "_s", IN_DATA, FV_SHOW_NUMBER, plant_last_core),
    CELL("last_hold", "_s", IN_DATA, FV_SHOW_NUMBER, plant_last_hold),
    NUMBER(fv_heat_result, "end", end, "_s", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_heat_result, "steam_end", steam_end, "_s", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_heat_result, "boiling_point", boiling_point, "_k", IN_DATA, FV_SHOW_TEMPERATURE),
    CELL("steam", "_kg", IN_DATA, FV_SHOW_MASS, plant_steam),
    CELL("water", "_kg", IN_DATA, FV_SHOW_MASS, plant_water),
    CELL("fuel", "_j", IN_DATA, FV_SHOW_ENERGY, plant_fuel),
};

/* ---- thermostats ---- */

ROWS(thermostat_rows, result(answer)->thermostat_count)
ROW(thermostat_row, &result(answer)->thermostats[i])
ROW(thermostat_part, result(answer)->plant->thermostats[i])
NUMBER_OF(thermostat_duty, fv_thermostat_duty(&result(answer)->thermostats[i]))
WORD_OF(thermostat_turns, report_turned_by(result(answer)->plant->thermostats[i]))
static double thermostat_cycle(const void *answer, size_t i)
{
    const fv_thermostat_history *h = &result(answer)->thermostats[i];
    return h->cycles > 0 ? (h->last_off - h->first_off) / (double)h->cycles : NAN;
}
WORD_OF(thermostat_each, SHOWN(print_shown_time(thermostat_cycle(answer, i))))

#define T(name, member, unit, where, show) NUMBER(fv_thermostat_history, name, member, unit, where, show)
static const print_field thermostat_fields[] = {
    WORD("turns", IN_ALL, thermostat_turns),
    PART_TEXT(fv_thermostat, "feels", on, IN_ALL),
    PART_VALUE(fv_thermostat, "below", below, "_k", IN_ALL, FV_SHOW_TEMPERATURE),
    PART_VALUE(fv_thermostat, "above", above, "_k", IN_ALL, FV_SHOW_TEMPERATURE),
    T("least", least, "_k", IN_ALL, FV_SHOW_TEMPERATURE),
    T("most", most, "_k", IN_ALL, FV_SHOW_TEMPERATURE),
    COUNT(fv_thermostat_history, "cycles", cycles, IN_ALL),
    WORD("of", IN_TEXT, thermostat_each),
    CELL("on", "", IN_ALL, FV_SHOW_SHARE, thermostat_duty),
    T("first_off", first_off, "_s", IN_DATA, FV_SHOW_NUMBER),
    T("last_off", last_off, "_s", IN_DATA, FV_SHOW_NUMBER),
    T("in_force", in_force, "_s", IN_DATA, FV_SHOW_NUMBER),
    T("time_on", on, "_s", IN_DATA, FV_SHOW_NUMBER),
};

const print_table report_heat_tables[HEAT_ALL_TABLES] = {
    [HEAT_SERIES] = {"series", FIELDS(series_fields), series_rows, series_row, series_part},
    [HEAT_VESSELS] = {"vessels", FIELDS(vessel_fields), vessel_rows, vessel_row, vessel_part},
    [HEAT_EVENTS] = {"happenings", FIELDS(event_fields), event_rows, event_row, NULL},
    [HEAT_SPLIT] = {"split", FIELDS(split_fields), split_rows, split_row, NULL},
    [HEAT_BOILERS] = {"boilers", FIELDS(boiler_fields), boiler_rows, boiler_row, boiler_part},
    [HEAT_LINES] = {"lines", FIELDS(line_fields), line_rows, line_row, line_part},
    [HEAT_FIRING] = {"firing", FIELDS(firing_fields), firing_rows, series_row, firing_part},
    [HEAT_PLANT] = {"plant", FIELDS(plant_fields), plant_rows, plant_row, NULL},
    [HEAT_THERMOSTATS] = {"thermostats", FIELDS(thermostat_fields), thermostat_rows, thermostat_row, thermostat_part},
    [HEAT_TIMELINE] = {"timeline", FIELDS(timeline_fields), vessel_rows, vessel_row, vessel_part},
    [HEAT_EFFORT] = {"effort", FIELDS(effort_fields), vessel_rows, vessel_row, vessel_part},
};
