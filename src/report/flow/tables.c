/* SPDX-License-Identifier: MIT */
/* What stands in the tables of the flow answer. A new result field becomes one row here. */
#include "report/flow/report.h"
#include "print/fields.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const fv_flow_answer *flow(const void *answer)
{
    return answer;
}

/* ---- vessels ---- */

fv_phase report_vessel_phase(const fv_flow_answer *answer, size_t vessel)
{
    const fv_phase own = (fv_phase)fv_word(answer->plant->vessels[vessel]->phase);
    return answer->options.phase < 0 || own == FV_PHASE_SHUT ? own : (fv_phase)answer->options.phase;
}

const char *report_phase_word(fv_phase phase)
{
    static const char *const words[] = {"heating", "holding", "shut"};
    return words[phase];
}

const char *report_predicted_word(const fv_vessel_result *vessel)
{
    return vessel->unsettled ? "unsettled" : fv_verdict_word(vessel->verdict);
}

static const fv_vessel_result *vessel(const void *answer, size_t i)
{
    return &flow(answer)->state->vessels[i];
}
ROWS(vessel_rows, flow(answer)->state->vessel_count)
ROW(vessel_row, vessel(answer, i))
ROW(vessel_part, flow(answer)->plant->vessels[i])
WORD_OF(vessel_phase, report_phase_word(report_vessel_phase(answer, i)))
WORD_OF(vessel_verdict, report_predicted_word(vessel(answer, i)))
/* Where nothing comes out of the holes there is nothing to compare. */
NUMBER_OF(vessel_evenness,
          vessel(answer, i)->steam > 0 || vessel(answer, i)->evenness < 0 ? vessel(answer, i)->evenness : NAN)

#define V(member, unit, where, show) NUMBER(fv_vessel_result, #member, member, unit, where, show)
static const print_field vessel_fields[] = {
    PART_TEXT(fv_vessel, "vessel", part.id, IN_ALL),
    WORD("phase", IN_DATA, vessel_phase),
    V(steam, "_kg_s", IN_ALL, FV_SHOW_STEAM),
    V(water, "_kg_s", IN_DATA, FV_SHOW_STEAM),
    V(share, "", IN_ALL, FV_SHOW_SHARE),
    V(heat, "_w", IN_ALL, FV_SHOW_POWER),
    V(need, "_w", IN_ALL, FV_SHOW_POWER),
    PART_VALUE(fv_vessel, "within", within, "_s", IN_DATA, FV_SHOW_NUMBER),
    WORD("verdict", IN_ALL, vessel_verdict),
    V(core_in, "_s", IN_DATA, FV_SHOW_NUMBER),
    V(coil_pressure, "_pa_gauge", IN_ALL, FV_SHOW_DROP),
    V(chamber_pressure, "_pa_gauge", IN_DATA, FV_SHOW_PRESSURE),
    V(chamber_temperature, "_k", IN_DATA, FV_SHOW_TEMPERATURE),
    CELL("evenness", "", IN_ALL, FV_SHOW_NUMBER, vessel_evenness),
    V(vented, "_kg_s", IN_ALL, FV_SHOW_STEAM),
    V(gas_out, "_kg_s", IN_DATA, FV_SHOW_STEAM),
    V(air_drawn_in, "_kg_s", IN_DATA, FV_SHOW_STEAM),
    V(coil_velocity, "_m_s", IN_DATA, FV_SHOW_VELOCITY),
    V(coil_mach, "", IN_DATA, FV_SHOW_NUMBER),
    V(area_ratio, "", IN_DATA, FV_SHOW_NUMBER),
    V(hole_drop, "_pa", IN_DATA, FV_SHOW_PRESSURE),
    V(coil_change, "_pa", IN_DATA, FV_SHOW_PRESSURE),
    FLAG(fv_vessel_result, "cd_from_correlation", cd_from_correlation, IN_DATA),
    FLAG(fv_vessel_result, "doubtful", doubtful, IN_DATA),
};

/* ---- lines ---- */

ROWS(line_rows, flow(answer)->state->line_count)
ROW(line_row, &flow(answer)->state->lines[i])
ROW(line_part, flow(answer)->plant->lines[i])
static const char *line_kind(const void *answer, size_t i, char *buffer)
{
    static const char *const words[] = {"header", "pipe", "hose"};
    (void)buffer;
    return words[flow(answer)->plant->lines[i]->kind];
}
static const char *line_notes(const void *answer, size_t i, char *buffer)
{
    const fv_line_result *line = &flow(answer)->state->lines[i];
    const struct {
        bool is;
        const char *word;
    } notes[] = {
        {line->shut, "shut"},         {line->blocked, "sag blocks"},
        {line->choked, "choked"},     {line->condenses_all, "condenses all"},
        {line->doubtful, "doubtful"},
    };
    buffer[0] = '\0';
    for (size_t n = 0; n < sizeof notes / sizeof *notes; n++) {
        size_t used = strlen(buffer);
        if (notes[n].is)
            snprintf(buffer + used, PRINT_WORD_SIZE - used, "%s%s", used ? ", " : "", notes[n].word);
    }
    return buffer;
}

#define L(member, unit, where, show) NUMBER(fv_line_result, #member, member, unit, where, show)
static const print_field line_fields[] = {
    PART_TEXT(fv_line, "line", part.id, IN_ALL),
    WORD("kind", IN_DATA, line_kind),
    PART_TEXT(fv_line, "from", from, IN_ALL),
    PART_TEXT(fv_line, "to", to, IN_ALL),
    L(flow_from, "_kg_s", IN_DATA, FV_SHOW_STEAM),
    L(flow_to, "_kg_s", IN_ALL, FV_SHOW_STEAM),
    L(velocity, "_m_s", IN_ALL, FV_SHOW_VELOCITY),
    L(mach, "", IN_DATA, FV_SHOW_NUMBER),
    L(water, "_kg_s", IN_DATA, FV_SHOW_STEAM),
    L(pressure_from, "_pa_gauge", IN_DATA, FV_SHOW_PRESSURE),
    L(pressure_to, "_pa_gauge", IN_DATA, FV_SHOW_PRESSURE),
    L(drop, "_pa", IN_ALL, FV_SHOW_DROP),
    L(drop_friction, "_pa", IN_DATA, FV_SHOW_PRESSURE),
    L(drop_fittings, "_pa", IN_DATA, FV_SHOW_PRESSURE),
    L(drop_sag, "_pa", IN_DATA, FV_SHOW_PRESSURE),
    L(drop_rise, "_pa", IN_DATA, FV_SHOW_PRESSURE),
    L(drop_speed, "_pa", IN_DATA, FV_SHOW_PRESSURE),
    L(condensate, "_kg_s", IN_ALL, FV_SHOW_STEAM),
    L(heat_loss, "_w", IN_DATA, FV_SHOW_POWER),
    L(surface_temperature, "_k", IN_DATA, FV_SHOW_TEMPERATURE),
    L(reynolds, "", IN_DATA, FV_SHOW_NUMBER),
    L(friction, "", IN_DATA, FV_SHOW_NUMBER),
    L(two_phase, "", IN_DATA, FV_SHOW_NUMBER),
    L(wet_length, "_m", IN_DATA, FV_SHOW_LENGTH),
    L(quality, "", IN_DATA, FV_SHOW_NUMBER),
    FLAG(fv_line_result, "choked", choked, IN_DATA),
    FLAG(fv_line_result, "blocked", blocked, IN_DATA),
    FLAG(fv_line_result, "condenses_all", condenses_all, IN_DATA),
    FLAG(fv_line_result, "shut", shut, IN_DATA),
    FLAG(fv_line_result, "doubtful", doubtful, IN_DATA),
    WORD("notes", IN_TEXT, line_notes),
};

/* ---- boilers ---- */

const char *report_boiler_word(fv_boiler_state state)
{
    static const char *const words[] = {"full", "holding", "blocked", "off"};
    return words[state];
}

ROWS(boiler_rows, flow(answer)->state->boiler_count)
ROW(boiler_row, &flow(answer)->state->boilers[i])
ROW(boiler_part, flow(answer)->plant->boilers[i])
WORD_OF(boiler_state, report_boiler_word(flow(answer)->state->boilers[i].state))

#define B(member, unit, where, show) NUMBER(fv_boiler_result, #member, member, unit, where, show)
static const print_field boiler_fields[] = {
    PART_TEXT(fv_boiler, "boiler", part.id, IN_ALL),
    WORD("state", IN_ALL, boiler_state),
    B(steam, "_kg_s", IN_ALL, FV_SHOW_STEAM),
    B(most, "_kg_s", IN_ALL, FV_SHOW_STEAM),
    B(carried_water, "_kg_s", IN_DATA, FV_SHOW_STEAM),
    B(water_fed, "_kg_s", IN_ALL, FV_SHOW_STEAM),
    B(dry_in, "_s", IN_DATA, FV_SHOW_NUMBER),
    B(pressure, "_pa_gauge", IN_ALL, FV_SHOW_PRESSURE),
    B(enthalpy, "_j_kg", IN_DATA, FV_SHOW_NUMBER),
    B(heat, "_w", IN_ALL, FV_SHOW_POWER),
    B(fuel, "_w", IN_ALL, FV_SHOW_POWER),
    FLAG(fv_boiler_result, "shares_by_size", shares_by_size, IN_DATA),
};

/* ---- joints ---- */

ROWS(joint_rows, flow(answer)->state->node_count)
ROW(joint_row, &flow(answer)->state->nodes[i])
WORD_OF(joint_id, flow(answer)->plant->nodes[i])

#define N(member, unit, where, show) NUMBER(fv_node_result, #member, member, unit, where, show)
static const print_field joint_fields[] = {
    WORD("joint", IN_ALL, joint_id),
    N(pressure, "_pa_gauge", IN_ALL, FV_SHOW_PRESSURE),
    N(temperature, "_k", IN_ALL, FV_SHOW_TEMPERATURE),
    N(quality, "", IN_ALL, FV_SHOW_NUMBER),
    N(enthalpy, "_j_kg", IN_DATA, FV_SHOW_NUMBER),
    N(imbalance, "_kg_s", IN_DATA, FV_SHOW_STEAM),
};

/* ---- holes ---- */

/* The vessel whose holes include number i; holes stand in the order of the vessels. */
static size_t hole_owner(const fv_flow_answer *answer, size_t i)
{
    size_t low = 0, high = answer->state->vessel_count;
    while (high - low > 1) {
        size_t middle = low + (high - low) / 2;
        if (answer->state->vessels[middle].first_hole <= i)
            low = middle;
        else
            high = middle;
    }
    return low;
}
ROWS(hole_rows, flow(answer)->state->hole_count)
ROW(hole_row, &flow(answer)->state->holes[i])
ROW(hole_part, vessel_part(answer, hole_owner(answer, i)))

#define H(member, unit, where, show) NUMBER(fv_hole_result, #member, member, unit, where, show)
static const print_field hole_fields[] = {
    PART_TEXT(fv_vessel, "vessel", part.id, IN_ALL),
    H(position, "_m", IN_ALL, FV_SHOW_LENGTH),
    H(diameter, "_m", IN_ALL, FV_SHOW_BORE),
    H(flow, "_kg_s", IN_ALL, FV_SHOW_STEAM),
    H(pressure, "_pa_gauge", IN_ALL, FV_SHOW_PRESSURE),
    H(drop, "_pa", IN_ALL, FV_SHOW_DROP),
    H(cd, "", IN_ALL, FV_SHOW_NUMBER),
    FLAG(fv_hole_result, "choked", choked, IN_DATA),
};

/* ---- turn-down: a row for each vessel at each setting ---- */

static const fv_turndown_row *setting(const void *answer, size_t i)
{
    return &flow(answer)->turndown[i / flow(answer)->state->vessel_count];
}
static const fv_vessel_result *turndown_vessel(const void *answer, size_t i)
{
    const fv_steady_result *state = setting(answer, i)->state;
    return state ? &state->vessels[i % flow(answer)->state->vessel_count] : NULL;
}
ROWS(turndown_rows, flow(answer)->turndown_count *flow(answer)->state->vessel_count)
ROW(turndown_row, turndown_vessel(answer, i))
ROW(turndown_part, vessel_part(answer, i % flow(answer)->state->vessel_count))
NUMBER_OF(turndown_fire, setting(answer, i)->fire)
NUMBER_OF(turndown_output, setting(answer, i)->state ? setting(answer, i)->state->audit.heat_total : NAN)
WORD_OF(turndown_verdict, turndown_vessel(answer, i) ? report_predicted_word(turndown_vessel(answer, i)) : "unsolved")

static const print_field turndown_fields[] = {
    CELL("fire", "", IN_ALL, FV_SHOW_SHARE, turndown_fire),
    CELL("output", "_w", IN_ALL, FV_SHOW_POWER, turndown_output),
    PART_TEXT(fv_vessel, "vessel", part.id, IN_ALL),
    V(steam, "_kg_s", IN_ALL, FV_SHOW_STEAM),
    V(heat, "_w", IN_ALL, FV_SHOW_POWER),
    WORD("verdict", IN_ALL, turndown_verdict),
};

/* ---- the plant: one row ---- */

static size_t verdicts(const void *answer, fv_verdict verdict)
{
    size_t count = 0;
    for (size_t i = 0; i < vessel_rows(answer); i++)
        count += vessel(answer, i)->verdict == verdict && !vessel(answer, i)->unsettled;
    return count;
}
static size_t open_to_heat(const void *answer)
{
    size_t count = 0;
    for (size_t i = 0; i < vessel_rows(answer); i++)
        count += vessel(answer, i)->unsettled;
    return count;
}
ROWS(plant_rows, 1)
ROW(plant_row, flow(answer)->state)
NUMBER_OF(plant_fed, (double)verdicts(answer, FV_FED))
NUMBER_OF(plant_lagging, (double)verdicts(answer, FV_LAGGING))
NUMBER_OF(plant_starved, (double)verdicts(answer, FV_STARVED))
NUMBER_OF(plant_unsettled, (double)open_to_heat(answer))
NUMBER_OF(plant_fire, flow(answer)->options.fire)
NUMBER_OF(plant_dropout, flow(answer)->dropout_fire)
WORD_OF(plant_first_out,
        flow(answer)->dropout_vessel >= 0 ? flow(answer)->plant->vessels[flow(answer)->dropout_vessel]->part.id : NULL)

#define S(label, member, unit, show) NUMBER(fv_steady_result, label, member, unit, IN_DATA, show)
static const print_field plant_fields[] = {
    CELL("fire", "", IN_DATA, FV_SHOW_SHARE, plant_fire),
    CELL("starved", "", IN_DATA, FV_SHOW_NUMBER, plant_starved),
    CELL("lagging", "", IN_DATA, FV_SHOW_NUMBER, plant_lagging),
    CELL("fed", "", IN_DATA, FV_SHOW_NUMBER, plant_fed),
    CELL("unsettled", "", IN_DATA, FV_SHOW_NUMBER, plant_unsettled),
    S("steam", audit.steam_total, "_kg_s", FV_SHOW_STEAM),
    S("heat", audit.heat_total, "_w", FV_SHOW_POWER),
    S("site_pressure", site_pressure, "_pa_absolute", FV_SHOW_PRESSURE),
    S("boiling_point", boiling_point, "_k", FV_SHOW_TEMPERATURE),
    S("air", t_air, "_k", FV_SHOW_TEMPERATURE),
    S("wind", wind, "_m_s", FV_SHOW_WIND),
    CELL("dropout_fire", "", IN_DATA, FV_SHOW_SHARE, plant_dropout),
    WORD("dropout_vessel", IN_DATA, plant_first_out),
};

const print_table report_flow_tables[FLOW_TABLES] = {
    [FLOW_VESSELS] = {"vessels", FIELDS(vessel_fields), vessel_rows, vessel_row, vessel_part},
    [FLOW_LINES] = {"lines", FIELDS(line_fields), line_rows, line_row, line_part},
    [FLOW_BOILERS] = {"boilers", FIELDS(boiler_fields), boiler_rows, boiler_row, boiler_part},
    [FLOW_JOINTS] = {"joints", FIELDS(joint_fields), joint_rows, joint_row, NULL},
    [FLOW_HOLES] = {"holes", FIELDS(hole_fields), hole_rows, hole_row, hole_part},
    [FLOW_TURNDOWN] = {"turndown", FIELDS(turndown_fields), turndown_rows, turndown_row, turndown_part},
    [FLOW_PLANT] = {"plant", FIELDS(plant_fields), plant_rows, plant_row, NULL},
};
