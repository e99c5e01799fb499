/* SPDX-License-Identifier: MIT */
/* What stands in the tables of the heat answer. A new result field becomes one row here. */
#include "report/heat/report.h"

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

#define NUMBER(row, member, unit, where, show)                                                                         \
    {                                                                                                                  \
#member, unit, where, FIELD_NUMBER, show, offsetof(row, member), NULL, NULL, NULL                              \
    }
#define FOUND(name, unit, where, show, function)                                                                       \
    {                                                                                                                  \
        name, unit, where, FIELD_NUMBER, show, 0, function, NULL, NULL                                                 \
    }
#define WORD(name, where, function)                                                                                    \
    {                                                                                                                  \
        name, "", where, FIELD_WORD, FV_SHOW_NUMBER, 0, NULL, function, NULL                                           \
    }
#define FIELDS(list) list, sizeof list / sizeof *list
#define PUT(buffer, shown) (snprintf(buffer, PRINT_WORD_SIZE, "%s", (shown).text), (buffer))

/* ---- vessels ---- */

static size_t vessel_rows(const void *answer)
{
    return result(answer)->vessel_count;
}
static const void *vessel_row(const void *answer, size_t i)
{
    return &result(answer)->vessels[i];
}
static const fv_vessel *vessel(const void *answer, size_t i)
{
    return result(answer)->plant->vessels[i];
}
static const fv_vessel_history *history(const void *answer, size_t i)
{
    return &result(answer)->vessels[i];
}
static const char *vessel_id(const void *answer, size_t i, char *buffer)
{
    (void)buffer;
    return vessel(answer, i)->part.id;
}
static const char *vessel_verdict(const void *answer, size_t i, char *buffer)
{
    (void)buffer;
    return fv_verdict_word(history(answer, i)->verdict);
}
static const char *vessel_fate(const void *answer, size_t i, char *buffer)
{
    (void)buffer;
    return report_fate_word(of(answer)->fates[i]);
}
static const char *vessel_arrival(const void *answer, size_t i, char *buffer)
{
    (void)buffer;
    return fv_arrival_word(history(answer, i)->arrival);
}
static const char *vessel_why(const void *answer, size_t i, char *buffer)
{
    (void)buffer;
    return of(answer)->why[i];
}
static double vessel_took(const void *answer, size_t i)
{
    return report_heat_took(of(answer), i);
}
static double vessel_times(const void *answer, size_t i)
{
    double ample = history(answer, i)->core_ample;
    return ample > 0.0 ? report_heat_took(of(answer), i) / ample : (double)NAN;
}
static double vessel_within(const void *answer, size_t i)
{
    return vessel(answer, i)->within.v;
}
static double vessel_target(const void *answer, size_t i)
{
    return vessel(answer, i)->target.v;
}
static double vessel_hold_wanted(const void *answer, size_t i)
{
    return vessel(answer, i)->hold.v;
}
static double vessel_reference(const void *answer, size_t i)
{
    return vessel(answer, i)->reference_temperature.v;
}
static double vessel_z(const void *answer, size_t i)
{
    return vessel(answer, i)->z.v;
}

#define V(member, unit, show) NUMBER(fv_vessel_history, member, unit, IN_DATA, show)
static const print_field vessel_fields[] = {
    WORD("vessel", IN_DATA, vessel_id),
    WORD("verdict", IN_DATA, vessel_verdict),
    WORD("fate", IN_DATA, vessel_fate),
    WORD("arrival", IN_DATA, vessel_arrival),
    WORD("why", IN_DATA, vessel_why),
    V(opened, "_s", FV_SHOW_NUMBER),
    V(steam_on, "_s", FV_SHOW_NUMBER),
    V(full, "_s", FV_SHOW_NUMBER),
    V(core, "_s", FV_SHOW_NUMBER),
    V(hold, "_s", FV_SHOW_NUMBER),
    V(cool, "_s", FV_SHOW_NUMBER),
    FOUND("took", "_s", IN_DATA, FV_SHOW_NUMBER, vessel_took),
    V(core_ample, "_s", FV_SHOW_NUMBER),
    FOUND("times_ample", "", IN_DATA, FV_SHOW_NUMBER, vessel_times),
    FOUND("within", "_s", IN_DATA, FV_SHOW_NUMBER, vessel_within),
    FOUND("target", "_k", IN_DATA, FV_SHOW_TEMPERATURE, vessel_target),
    FOUND("hold_wanted", "_s", IN_DATA, FV_SHOW_NUMBER, vessel_hold_wanted),
    V(hold_longest, "_s", FV_SHOW_NUMBER),
    V(hold_sum, "_s", FV_SHOW_NUMBER),
    V(hold_broken, "_s", FV_SHOW_NUMBER),
    V(starved_since, "_s", FV_SHOW_NUMBER),
    V(settles, "_k", FV_SHOW_TEMPERATURE),
    V(core_end, "_k", FV_SHOW_TEMPERATURE),
    V(chamber_end, "_k", FV_SHOW_TEMPERATURE),
    V(lethality, "_s", FV_SHOW_NUMBER),
    FOUND("reference_temperature", "_k", IN_DATA, FV_SHOW_TEMPERATURE, vessel_reference),
    FOUND("z", "_k", IN_DATA, FV_SHOW_TEMPERATURE_DIFFERENCE, vessel_z),
    V(steam, "_kg", FV_SHOW_MASS),
    V(water, "_kg", FV_SHOW_MASS),
    V(condensate, "_kg", FV_SHOW_MASS),
    V(vented, "_kg", FV_SHOW_MASS),
    V(air, "_kg", FV_SHOW_MASS),
    V(moisture_gain, "_kg", FV_SHOW_MASS),
    V(sump, "_m", FV_SHOW_BORE),
    V(heat_load, "_j", FV_SHOW_ENERGY),
    V(heat_walls, "_j", FV_SHOW_ENERGY),
    V(heat_shell, "_j", FV_SHOW_ENERGY),
    V(heat_vented, "_j", FV_SHOW_ENERGY),
    V(pressure_most, "_pa_gauge", FV_SHOW_PRESSURE),
    V(steam_least_in_hold, "_kg_s", FV_SHOW_STEAM),
};

/* ---- the same for people: the clock ---- */

#define WHEN(member)                                                                                                   \
    static const char *when_##member(const void *answer, size_t i, char *buffer)                                       \
    {                                                                                                                  \
        return PUT(buffer, report_when(of(answer), history(answer, i)->member));                                       \
    }
WHEN(steam_on)
WHEN(full)
WHEN(core)
WHEN(hold)
WHEN(cool)

static const char *timeline_verdict(const void *answer, size_t i, char *buffer)
{
    (void)buffer;
    return report_fate_shown(of(answer)->fates[i]);
}

static const print_field timeline_fields[] = {
    WORD("vessel", IN_TEXT, vessel_id),         WORD("steam_on", IN_TEXT, when_steam_on),
    WORD("full of_steam", IN_TEXT, when_full),  WORD("core at_target", IN_TEXT, when_core),
    WORD("hold_ends", IN_TEXT, when_hold),      WORD("may be_opened", IN_TEXT, when_cool),
    WORD("verdict", IN_TEXT, timeline_verdict),
};

/* ---- and what it took ---- */

static const char *effort_took(const void *answer, size_t i, char *buffer)
{
    return PUT(buffer, report_hours(vessel_took(answer, i)));
}
static const char *effort_ample(const void *answer, size_t i, char *buffer)
{
    return PUT(buffer, report_hours(history(answer, i)->core_ample));
}
static const char *effort_within(const void *answer, size_t i, char *buffer)
{
    return PUT(buffer, report_hours(vessel_within(answer, i)));
}
static const char *effort_held(const void *answer, size_t i, char *buffer)
{
    return PUT(buffer, report_hours(history(answer, i)->hold_longest));
}
static const char *effort_lethality(const void *answer, size_t i, char *buffer)
{
    return PUT(buffer, report_hours(history(answer, i)->lethality));
}

static const print_field effort_fields[] = {
    WORD("vessel", IN_TEXT, vessel_id),
    WORD("core_took_h:min", IN_TEXT, effort_took),
    WORD("in_plenty_h:min", IN_TEXT, effort_ample),
    FOUND("times", "", IN_TEXT, FV_SHOW_NUMBER, vessel_times),
    WORD("allowed_h:min", IN_TEXT, effort_within),
    WORD("held_h:min", IN_TEXT, effort_held),
    WORD("lethality_h:min", IN_TEXT, effort_lethality),
    NUMBER(fv_vessel_history, steam, "_kg", IN_TEXT, FV_SHOW_MASS),
    NUMBER(fv_vessel_history, vented, "_kg", IN_TEXT, FV_SHOW_MASS),
    {"least_in hold", "_kg_s", IN_TEXT, FIELD_NUMBER, FV_SHOW_STEAM, offsetof(fv_vessel_history, steam_least_in_hold),
     NULL, NULL, NULL},
};

/* ---- series: a row for each vessel at each sample ---- */

static const fv_series *series(const void *answer)
{
    return &result(answer)->series;
}
static size_t series_rows(const void *answer)
{
    return series(answer)->count * result(answer)->vessel_count;
}
static double series_time(const void *answer, size_t row)
{
    return series(answer)->time[row / result(answer)->vessel_count];
}
static const char *clock_of(const void *answer, double time, char *buffer)
{
    return isnan(of(answer)->clock) ? "" : PUT(buffer, report_when(of(answer), time));
}
static const char *series_clock(const void *answer, size_t row, char *buffer)
{
    return clock_of(answer, series_time(answer, row), buffer);
}
static const char *series_vessel(const void *answer, size_t row, char *buffer)
{
    return vessel_id(answer, row % result(answer)->vessel_count, buffer);
}
#define SAMPLE(matrix)                                                                                                 \
    static double sample_##matrix(const void *answer, size_t row)                                                      \
    {                                                                                                                  \
        return series(answer)->matrix[row];                                                                            \
    }
SAMPLE(core)
SAMPLE(chamber)
SAMPLE(surface)
SAMPLE(vessel_steam)
SAMPLE(air_share)
SAMPLE(vessel_pressure)

static const print_field series_fields[] = {
    FOUND("time", "_s", IN_DATA, FV_SHOW_NUMBER, series_time),
    WORD("clock", IN_DATA, series_clock),
    WORD("vessel", IN_DATA, series_vessel),
    FOUND("core", "_k", IN_DATA, FV_SHOW_TEMPERATURE, sample_core),
    FOUND("chamber", "_k", IN_DATA, FV_SHOW_TEMPERATURE, sample_chamber),
    FOUND("surface", "_k", IN_DATA, FV_SHOW_TEMPERATURE, sample_surface),
    FOUND("steam", "_kg_s", IN_DATA, FV_SHOW_STEAM, sample_vessel_steam),
    FOUND("air_share", "", IN_DATA, FV_SHOW_SHARE, sample_air_share),
    FOUND("pressure", "_pa_gauge", IN_DATA, FV_SHOW_PRESSURE, sample_vessel_pressure),
};

/* ---- firing: a row for each boiler at each sample ---- */

static size_t firing_rows(const void *answer)
{
    return series(answer)->count * result(answer)->boiler_count;
}
static double firing_time(const void *answer, size_t row)
{
    return series(answer)->time[row / result(answer)->boiler_count];
}
static const char *firing_clock(const void *answer, size_t row, char *buffer)
{
    return clock_of(answer, firing_time(answer, row), buffer);
}
static const char *boiler_id(const void *answer, size_t i, char *buffer)
{
    (void)buffer;
    return result(answer)->plant->boilers[i]->part.id;
}
static const char *firing_boiler(const void *answer, size_t row, char *buffer)
{
    return boiler_id(answer, row % result(answer)->boiler_count, buffer);
}
SAMPLE(boiler_steam)
SAMPLE(boiler_pressure)
SAMPLE(boiler_fuel)
static double firing_demand(const void *answer, size_t row)
{
    return series(answer)->demand[row / result(answer)->boiler_count];
}

static const print_field firing_fields[] = {
    FOUND("time", "_s", IN_DATA, FV_SHOW_NUMBER, firing_time),
    WORD("clock", IN_DATA, firing_clock),
    WORD("boiler", IN_DATA, firing_boiler),
    FOUND("steam", "_kg_s", IN_DATA, FV_SHOW_STEAM, sample_boiler_steam),
    FOUND("pressure", "_pa_gauge", IN_DATA, FV_SHOW_PRESSURE, sample_boiler_pressure),
    FOUND("fuel", "_w", IN_DATA, FV_SHOW_POWER, sample_boiler_fuel),
    FOUND("demand_of_all", "_kg_s", IN_DATA, FV_SHOW_STEAM, firing_demand),
};

/* ---- happenings ---- */

static size_t happening_rows(const void *answer)
{
    return result(answer)->happening_count;
}
static const void *happening_row(const void *answer, size_t i)
{
    return &result(answer)->happenings[i];
}
static const char *happening_clock(const void *answer, size_t i, char *buffer)
{
    return clock_of(answer, result(answer)->happenings[i].time, buffer);
}
static const char *happening_kind(const void *answer, size_t i, char *buffer)
{
    (void)buffer;
    return report_happening_word(result(answer)->happenings[i].kind);
}
static const char *happening_part(const void *answer, size_t i, char *buffer)
{
    (void)buffer;
    return report_happening_part(of(answer), &result(answer)->happenings[i]);
}
static const char *happening_text(const void *answer, size_t i, char *buffer)
{
    fv_text text = {0};
    const fv_happening *h = &result(answer)->happenings[i];
    report_happening_text(of(answer), h, report_happening_part(of(answer), h), &text);
    snprintf(buffer, PRINT_WORD_SIZE, "%s", text.text && !text.failed ? text.text : "");
    fv_text_free(&text);
    return buffer;
}

static const print_field happening_fields[] = {
    NUMBER(fv_happening, time, "_s", IN_DATA, FV_SHOW_NUMBER),
    WORD("clock", IN_DATA, happening_clock),
    WORD("happening", IN_DATA, happening_kind),
    WORD("part", IN_DATA, happening_part),
    WORD("text", IN_DATA, happening_text),
};

/* ---- split ---- */

static size_t split_rows(const void *answer)
{
    (void)answer;
    return HEAT_SHARES;
}
static const void *split_row(const void *answer, size_t i)
{
    return &of(answer)->shares[i];
}
static const char *split_item(const void *answer, size_t i, char *buffer)
{
    (void)buffer;
    return of(answer)->shares[i].item;
}

static const print_field split_fields[] = {
    WORD("item", IN_DATA, split_item),
    NUMBER(report_heat_share, heat, "_j", IN_DATA, FV_SHOW_ENERGY),
    NUMBER(report_heat_share, share, "", IN_DATA, FV_SHOW_SHARE),
    NUMBER(report_heat_share, heat_at_end, "_j", IN_DATA, FV_SHOW_ENERGY),
};

/* ---- boilers ---- */

static size_t boiler_rows(const void *answer)
{
    return result(answer)->boiler_count;
}
static const void *boiler_row(const void *answer, size_t i)
{
    return &result(answer)->boilers[i];
}
static double boiler_fuel_mass(const void *answer, size_t i)
{
    return of(answer)->fuels[i].fuel_mass;
}
static double boiler_fuel_volume(const void *answer, size_t i)
{
    return of(answer)->fuels[i].fuel_volume;
}
static const char *boiler_up(const void *answer, size_t i, char *buffer)
{
    return PUT(buffer, report_when(of(answer), result(answer)->boilers[i].steam_up));
}
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
                       feet ? amount.fuel_volume / (0.3048 * 0.3048 * 0.3048) : amount.fuel_volume, number,
                       sizeof number);
        snprintf(shown.text, sizeof shown.text, "%s %s", number, feet ? "ft3" : "m3");
    }
    snprintf(buffer, PRINT_WORD_SIZE, "%s %s", shown.text, fuel->name);
    return buffer;
}

#define B(member, unit, where, show) NUMBER(fv_boiler_history, member, unit, where, show)
static const print_field boiler_fields[] = {
    WORD("boiler", IN_ALL, boiler_id),
    B(steam_up, "_s", IN_DATA, FV_SHOW_NUMBER),
    B(dry, "_s", IN_DATA, FV_SHOW_NUMBER),
    WORD("gives_steam", IN_TEXT, boiler_up),
    B(steam, "_kg", IN_ALL, FV_SHOW_MASS),
    B(steam_most, "_kg_s", IN_ALL, FV_SHOW_STEAM),
    B(pressure_most, "_pa_gauge", IN_ALL, FV_SHOW_PRESSURE),
    B(water, "_kg", IN_ALL, FV_SHOW_MASS),
    B(heat, "_j", IN_DATA, FV_SHOW_ENERGY),
    B(fuel, "_j", IN_ALL, FV_SHOW_ENERGY),
    FOUND("fuel", "_kg", IN_DATA, FV_SHOW_MASS, boiler_fuel_mass),
    FOUND("fuel", "_m3", IN_DATA, FV_SHOW_VOLUME, boiler_fuel_volume),
    WORD("that_is", IN_TEXT, boiler_bought),
};

/* ---- lines ---- */

static size_t line_rows(const void *answer)
{
    return result(answer)->line_count;
}
static const char *line_id(const void *answer, size_t i, char *buffer)
{
    (void)buffer;
    return result(answer)->plant->lines[i]->part.id;
}
static double line_loss(const void *answer, size_t i)
{
    return result(answer)->line_loss[i];
}
static double line_condensate(const void *answer, size_t i)
{
    return result(answer)->line_condensate[i];
}

static const print_field line_fields[] = {
    WORD("line", IN_DATA, line_id),
    FOUND("loss", "_j", IN_DATA, FV_SHOW_ENERGY, line_loss),
    FOUND("condensate", "_kg", IN_DATA, FV_SHOW_MASS, line_condensate),
};

const print_table report_heat_tables[HEAT_ALL_TABLES] = {
    [HEAT_SERIES] = {"series", FIELDS(series_fields), series_rows, NULL},
    [HEAT_VESSELS] = {"vessels", FIELDS(vessel_fields), vessel_rows, vessel_row},
    [HEAT_HAPPENINGS] = {"happenings", FIELDS(happening_fields), happening_rows, happening_row},
    [HEAT_SPLIT] = {"split", FIELDS(split_fields), split_rows, split_row},
    [HEAT_BOILERS] = {"boilers", FIELDS(boiler_fields), boiler_rows, boiler_row},
    [HEAT_LINES] = {"lines", FIELDS(line_fields), line_rows, NULL},
    [HEAT_FIRING] = {"firing", FIELDS(firing_fields), firing_rows, NULL},
    [HEAT_TIMELINE] = {"timeline", FIELDS(timeline_fields), vessel_rows, vessel_row},
    [HEAT_EFFORT] = {"effort", FIELDS(effort_fields), vessel_rows, vessel_row},
};
