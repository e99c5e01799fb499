/* SPDX-License-Identifier: MIT */
/* What stands in the tables of the flow answer. A new result field becomes one row here. */
#include "report/flow/tables.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const fv_flow_answer *flow(const void *answer)
{
    return answer;
}

#define NUMBER(row, member, unit, where, show)                                                                         \
    {                                                                                                                  \
#member, unit, where, FIELD_NUMBER, show, offsetof(row, member), NULL, NULL, NULL                              \
    }
#define FLAG(row, member)                                                                                              \
    {                                                                                                                  \
#member, "", IN_DATA, FIELD_FLAG, FV_SHOW_NUMBER, offsetof(row, member), NULL, NULL, NULL                      \
    }
#define WORD(name, where, function)                                                                                    \
    {                                                                                                                  \
        name, "", where, FIELD_WORD, FV_SHOW_NUMBER, 0, NULL, function, NULL                                           \
    }
#define FIELDS(list) list, sizeof list / sizeof *list

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

static size_t vessel_rows(const void *answer)
{
    return flow(answer)->state->vessel_count;
}
static const void *vessel_row(const void *answer, size_t i)
{
    return &flow(answer)->state->vessels[i];
}
static const char *vessel_id(const void *answer, size_t i, char *buffer)
{
    (void)buffer;
    return flow(answer)->plant->vessels[i]->part.id;
}
static const char *vessel_phase(const void *answer, size_t i, char *buffer)
{
    (void)buffer;
    return report_phase_word(report_vessel_phase(answer, i));
}
static const char *vessel_verdict(const void *answer, size_t i, char *buffer)
{
    (void)buffer;
    return fv_verdict_word(flow(answer)->state->vessels[i].verdict);
}
static double vessel_within(const void *answer, size_t i)
{
    return flow(answer)->plant->vessels[i]->within.v;
}

/* Where nothing comes out of the holes there is nothing to compare. */
static double vessel_evenness(const void *answer, size_t i)
{
    const fv_vessel_result *v = &flow(answer)->state->vessels[i];
    return v->steam > 0 || v->evenness < 0 ? v->evenness : NAN;
}

#define V(member, unit, where, show) NUMBER(fv_vessel_result, member, unit, where, show)
static const print_field vessel_fields[] = {
    WORD("vessel", IN_ALL, vessel_id),
    WORD("phase", IN_DATA, vessel_phase),
    V(steam, "_kg_s", IN_ALL, FV_SHOW_STEAM),
    V(water, "_kg_s", IN_DATA, FV_SHOW_STEAM),
    V(share, "", IN_ALL, FV_SHOW_SHARE),
    V(heat, "_w", IN_ALL, FV_SHOW_POWER),
    V(need, "_w", IN_ALL, FV_SHOW_POWER),
    {"within", "_s", IN_DATA, FIELD_NUMBER, FV_SHOW_NUMBER, 0, vessel_within, NULL, NULL},
    WORD("verdict", IN_ALL, vessel_verdict),
    V(coil_pressure, "_pa_gauge", IN_ALL, FV_SHOW_PRESSURE),
    V(chamber_pressure, "_pa_gauge", IN_DATA, FV_SHOW_PRESSURE),
    {"evenness", "", IN_ALL, FIELD_NUMBER, FV_SHOW_NUMBER, 0, vessel_evenness, NULL, NULL},
    V(vented, "_kg_s", IN_ALL, FV_SHOW_STEAM),
    V(air_drawn_in, "_kg_s", IN_DATA, FV_SHOW_STEAM),
    V(coil_velocity, "_m_s", IN_DATA, FV_SHOW_VELOCITY),
    V(area_ratio, "", IN_DATA, FV_SHOW_NUMBER),
    V(hole_drop, "_pa", IN_DATA, FV_SHOW_PRESSURE),
    V(coil_change, "_pa", IN_DATA, FV_SHOW_PRESSURE),
    FLAG(fv_vessel_result, cd_from_correlation),
    FLAG(fv_vessel_result, doubtful),
};

/* ---- lines ---- */

static size_t line_rows(const void *answer)
{
    return flow(answer)->state->line_count;
}
static const void *line_row(const void *answer, size_t i)
{
    return &flow(answer)->state->lines[i];
}
static const char *line_id(const void *answer, size_t i, char *buffer)
{
    (void)buffer;
    return flow(answer)->plant->lines[i]->part.id;
}
static const char *line_kind(const void *answer, size_t i, char *buffer)
{
    static const char *const words[] = {"header", "pipe", "hose"};
    (void)buffer;
    return words[flow(answer)->plant->lines[i]->kind];
}
static const char *line_from(const void *answer, size_t i, char *buffer)
{
    (void)buffer;
    return flow(answer)->plant->lines[i]->from;
}
static const char *line_to(const void *answer, size_t i, char *buffer)
{
    (void)buffer;
    return flow(answer)->plant->lines[i]->to;
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

#define L(member, unit, where, show) NUMBER(fv_line_result, member, unit, where, show)
static const print_field line_fields[] = {
    WORD("line", IN_ALL, line_id),
    WORD("kind", IN_DATA, line_kind),
    WORD("from", IN_ALL, line_from),
    WORD("to", IN_ALL, line_to),
    L(flow_from, "_kg_s", IN_DATA, FV_SHOW_STEAM),
    L(flow_to, "_kg_s", IN_ALL, FV_SHOW_STEAM),
    L(velocity, "_m_s", IN_ALL, FV_SHOW_VELOCITY),
    L(water, "_kg_s", IN_DATA, FV_SHOW_STEAM),
    L(pressure_from, "_pa_gauge", IN_DATA, FV_SHOW_PRESSURE),
    L(pressure_to, "_pa_gauge", IN_DATA, FV_SHOW_PRESSURE),
    L(drop, "_pa", IN_ALL, FV_SHOW_PRESSURE),
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
    FLAG(fv_line_result, choked),
    FLAG(fv_line_result, blocked),
    FLAG(fv_line_result, condenses_all),
    FLAG(fv_line_result, shut),
    FLAG(fv_line_result, doubtful),
    WORD("notes", IN_TEXT, line_notes),
};

/* ---- boilers ---- */

const char *report_boiler_word(fv_boiler_state state)
{
    static const char *const words[] = {"full", "holding", "blocked", "off"};
    return words[state];
}

static size_t boiler_rows(const void *answer)
{
    return flow(answer)->state->boiler_count;
}
static const void *boiler_row(const void *answer, size_t i)
{
    return &flow(answer)->state->boilers[i];
}
static const char *boiler_id(const void *answer, size_t i, char *buffer)
{
    (void)buffer;
    return flow(answer)->plant->boilers[i]->part.id;
}
static const char *boiler_state(const void *answer, size_t i, char *buffer)
{
    (void)buffer;
    return report_boiler_word(flow(answer)->state->boilers[i].state);
}

#define B(member, unit, where, show) NUMBER(fv_boiler_result, member, unit, where, show)
static const print_field boiler_fields[] = {
    WORD("boiler", IN_ALL, boiler_id),
    WORD("state", IN_ALL, boiler_state),
    B(steam, "_kg_s", IN_ALL, FV_SHOW_STEAM),
    B(most, "_kg_s", IN_ALL, FV_SHOW_STEAM),
    B(carried_water, "_kg_s", IN_DATA, FV_SHOW_STEAM),
    B(water_fed, "_kg_s", IN_ALL, FV_SHOW_STEAM),
    B(pressure, "_pa_gauge", IN_ALL, FV_SHOW_PRESSURE),
    B(enthalpy, "_j_kg", IN_DATA, FV_SHOW_NUMBER),
    B(heat, "_w", IN_ALL, FV_SHOW_POWER),
    B(fuel, "_w", IN_ALL, FV_SHOW_POWER),
    FLAG(fv_boiler_result, shares_by_size),
};

/* ---- nodes ---- */

static size_t node_rows(const void *answer)
{
    return flow(answer)->state->node_count;
}
static const void *node_row(const void *answer, size_t i)
{
    return &flow(answer)->state->nodes[i];
}
static const char *node_id(const void *answer, size_t i, char *buffer)
{
    (void)buffer;
    return flow(answer)->plant->nodes[i];
}

#define N(member, unit, where, show) NUMBER(fv_node_result, member, unit, where, show)
static const print_field node_fields[] = {
    WORD("node", IN_ALL, node_id),
    N(pressure, "_pa_gauge", IN_ALL, FV_SHOW_PRESSURE),
    N(temperature, "_k", IN_ALL, FV_SHOW_TEMPERATURE),
    N(quality, "", IN_ALL, FV_SHOW_NUMBER),
    N(enthalpy, "_j_kg", IN_DATA, FV_SHOW_NUMBER),
    N(imbalance, "_kg_s", IN_DATA, FV_SHOW_STEAM),
};

/* ---- holes ---- */

static size_t hole_rows(const void *answer)
{
    return flow(answer)->state->hole_count;
}
static const void *hole_row(const void *answer, size_t i)
{
    return &flow(answer)->state->holes[i];
}
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
static const char *hole_vessel(const void *answer, size_t i, char *buffer)
{
    return vessel_id(answer, hole_owner(answer, i), buffer);
}

#define H(member, unit, where, show) NUMBER(fv_hole_result, member, unit, where, show)
static const print_field hole_fields[] = {
    WORD("vessel", IN_ALL, hole_vessel),
    H(position, "_m", IN_ALL, FV_SHOW_LENGTH),
    H(diameter, "_m", IN_ALL, FV_SHOW_BORE),
    H(flow, "_kg_s", IN_ALL, FV_SHOW_STEAM),
    H(pressure, "_pa_gauge", IN_ALL, FV_SHOW_PRESSURE),
    H(drop, "_pa", IN_ALL, FV_SHOW_PRESSURE),
    H(cd, "", IN_ALL, FV_SHOW_NUMBER),
    FLAG(fv_hole_result, choked),
};

/* ---- turn-down: a row for each vessel at each setting ---- */

static size_t turndown_rows(const void *answer)
{
    return flow(answer)->turndown_count * flow(answer)->state->vessel_count;
}
static const fv_turndown_row *turndown_setting(const fv_flow_answer *answer, size_t i)
{
    return &answer->turndown[i / answer->state->vessel_count];
}
static const void *turndown_row(const void *answer, size_t i)
{
    const fv_steady_result *state = turndown_setting(answer, i)->state;
    return state ? &state->vessels[i % flow(answer)->state->vessel_count] : NULL;
}
static double turndown_fire(const void *answer, size_t i)
{
    return turndown_setting(answer, i)->fire;
}
static double turndown_output(const void *answer, size_t i)
{
    const fv_steady_result *state = turndown_setting(answer, i)->state;
    return state ? state->audit.heat_total : (double)NAN;
}
static const char *turndown_vessel(const void *answer, size_t i, char *buffer)
{
    return vessel_id(answer, i % flow(answer)->state->vessel_count, buffer);
}
static const char *turndown_verdict(const void *answer, size_t i, char *buffer)
{
    const fv_vessel_result *vessel = turndown_row(answer, i);
    (void)buffer;
    return vessel ? fv_verdict_word(vessel->verdict) : "unsolved";
}

static const print_field turndown_fields[] = {
    {"fire", "", IN_ALL, FIELD_NUMBER, FV_SHOW_SHARE, 0, turndown_fire, NULL, NULL},
    {"output", "_w", IN_ALL, FIELD_NUMBER, FV_SHOW_POWER, 0, turndown_output, NULL, NULL},
    WORD("vessel", IN_ALL, turndown_vessel),
    V(steam, "_kg_s", IN_ALL, FV_SHOW_STEAM),
    V(heat, "_w", IN_ALL, FV_SHOW_POWER),
    WORD("verdict", IN_ALL, turndown_verdict),
};

const print_table report_flow_tables[FLOW_TABLES] = {
    [FLOW_VESSELS] = {"vessels", FIELDS(vessel_fields), vessel_rows, vessel_row},
    [FLOW_LINES] = {"lines", FIELDS(line_fields), line_rows, line_row},
    [FLOW_BOILERS] = {"boilers", FIELDS(boiler_fields), boiler_rows, boiler_row},
    [FLOW_NODES] = {"nodes", FIELDS(node_fields), node_rows, node_row},
    [FLOW_HOLES] = {"holes", FIELDS(hole_fields), hole_rows, hole_row},
    [FLOW_TURNDOWN] = {"turndown", FIELDS(turndown_fields), turndown_rows, turndown_row},
};
