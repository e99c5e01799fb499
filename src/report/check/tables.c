/* SPDX-License-Identifier: MIT */
/* What stands in the tables of the check answer. */
#include "report/check/tables.h"
#include "print/show.h"

#include <stdio.h>

static const report_check *check_of(const void *context)
{
    return context;
}

static bool meet(report_check *check, int node, const char *part)
{
    return node < 0 || print_names_push(&check->joints[node], check->said.arena, part);
}

static bool find_joints(report_check *check)
{
    const fv_plant *plant = check->answer->plant;
    check->joints = fv_arena_alloc(check->said.arena, plant->node_count, sizeof(print_names));
    bool good = check->joints != NULL;
    for (size_t i = 0; good && i < plant->boiler_count; i++)
        good = meet(check, plant->boilers[i]->node, plant->boilers[i]->part.id);
    for (size_t i = 0; good && i < plant->line_count; i++) {
        const fv_line *line = plant->lines[i];
        good = meet(check, line->node_from, line->part.id) && meet(check, line->node_to, line->part.id);
    }
    for (size_t i = 0; good && i < plant->tee_count; i++)
        good = meet(check, plant->tees[i]->node, plant->tees[i]->part.id ? plant->tees[i]->part.id : "(tee)");
    for (size_t i = 0; good && i < plant->drip_count; i++)
        good = meet(check, plant->drips[i]->node, plant->drips[i]->part.id ? plant->drips[i]->part.id : "(drip)");
    for (size_t i = 0; good && i < plant->vessel_count; i++)
        good = meet(check, plant->vessels[i]->node, plant->vessels[i]->part.id);
    return good;
}

bool report_check_make(const fv_check_answer *answer, fv_unit_system units, report_check *check)
{
    *check = (report_check){.answer = answer, .units = units};
    return print_said_collect(answer->plant, &check->said) && find_joints(check);
}

void report_check_free(report_check *check)
{
    print_said_free(&check->said);
}

/* ---- values that are not the user's own ---- */

static const print_said_row *said(const void *context, size_t i)
{
    return &check_of(context)->said.rows[i];
}
static size_t said_rows(const void *context)
{
    return check_of(context)->said.row_count;
}
static const void *said_row(const void *context, size_t i)
{
    return said(context, i);
}
static const char *said_word(const void *context, size_t i, char *buffer)
{
    (void)buffer;
    return print_said_word(said(context, i)->said);
}
static const char *said_element(const void *context, size_t i, char *buffer)
{
    (void)buffer;
    return said(context, i)->element;
}
static const char *said_attribute(const void *context, size_t i, char *buffer)
{
    (void)buffer;
    return said(context, i)->attr->name;
}
static const char *said_unit(const void *context, size_t i, char *buffer)
{
    (void)buffer;
    return fv_dim_si_unit(said(context, i)->attr->dim);
}
static const char *said_shown(const void *context, size_t i, char *buffer)
{
    const print_said_row *row = said(context, i);
    snprintf(buffer, PRINT_WORD_SIZE, "%s", print_shown_value(check_of(context)->units, row->attr, row->si).text);
    return buffer;
}
static const char *said_reason(const void *context, size_t i, char *buffer)
{
    (void)buffer;
    return said(context, i)->reason;
}
static const print_names *said_parts(const void *context, size_t i)
{
    return &said(context, i)->owners;
}

#define NUMBER(name, row, member, unit, where, show)                                                                   \
    {                                                                                                                  \
        name, unit, where, FIELD_NUMBER, show, offsetof(row, member), NULL, NULL, NULL                                 \
    }
#define WORD(name, where, function)                                                                                    \
    {                                                                                                                  \
        name, "", where, FIELD_WORD, FV_SHOW_NUMBER, 0, NULL, function, NULL                                           \
    }
#define NAMES(name, function)                                                                                          \
    {                                                                                                                  \
        name, "", IN_ALL, FIELD_NAMES, FV_SHOW_NUMBER, 0, NULL, NULL, function                                         \
    }
#define FIELDS(list) list, sizeof list / sizeof *list

static const print_field value_fields[] = {
    WORD("said", IN_DATA, said_word),          WORD("element", IN_ALL, said_element),
    WORD("attribute", IN_ALL, said_attribute), NUMBER("value_si", print_said_row, si, "", IN_DATA, FV_SHOW_NUMBER),
    WORD("unit", IN_DATA, said_unit),          WORD("shown", IN_ALL, said_shown),
    WORD("reason", IN_DATA, said_reason),      NAMES("parts", said_parts),
};

/* ---- vessels ---- */

static size_t vessel_rows(const void *context)
{
    return check_of(context)->answer->plant->vessel_count;
}
static const void *vessel_row(const void *context, size_t i)
{
    return &check_of(context)->answer->vessels[i];
}
static const fv_vessel *vessel(const void *context, size_t i)
{
    return check_of(context)->answer->plant->vessels[i];
}
static const char *vessel_id(const void *context, size_t i, char *buffer)
{
    (void)buffer;
    return vessel(context, i)->part.id;
}
static double vessel_target(const void *context, size_t i)
{
    return vessel(context, i)->target.v;
}
static double vessel_within(const void *context, size_t i)
{
    return vessel(context, i)->within.v;
}
static const char *vessel_allowed(const void *context, size_t i, char *buffer)
{
    snprintf(buffer, PRINT_WORD_SIZE, "%s", print_shown_time(vessel_within(context, i)).text);
    return buffer;
}

#define V(name, member, unit, where, show) NUMBER(name, fv_vessel_need, member, unit, where, show)
static const print_field vessel_fields[] = {
    WORD("vessel", IN_ALL, vessel_id),
    V("load_mass", load_mass, "_kg", IN_ALL, FV_SHOW_MASS),
    V("load_specific_heat", load_specific_heat, "_j_kg_k", IN_DATA, FV_SHOW_NUMBER),
    V("load", load, "_j", IN_ALL, FV_SHOW_ENERGY),
    V("shell", shell, "_j", IN_ALL, FV_SHOW_ENERGY),
    V("walls", walls, "_j", IN_ALL, FV_SHOW_ENERGY),
    V("wall_loss", wall_loss, "_w", IN_ALL, FV_SHOW_POWER),
    {"target", "_k", IN_ALL, FIELD_NUMBER, FV_SHOW_TEMPERATURE, 0, vessel_target, NULL, NULL},
    {"within", "_s", IN_DATA, FIELD_NUMBER, FV_SHOW_NUMBER, 0, vessel_within, NULL, NULL},
    WORD("within", IN_TEXT, vessel_allowed),
    V("need", need, "_w", IN_ALL, FV_SHOW_POWER),
};

/* ---- joints ---- */

static size_t joint_rows(const void *context)
{
    return check_of(context)->answer->plant->node_count;
}
static const void *joint_row(const void *context, size_t i)
{
    return &check_of(context)->joints[i];
}
static const char *joint_name(const void *context, size_t i, char *buffer)
{
    (void)buffer;
    return check_of(context)->answer->plant->nodes[i];
}
static const print_names *joint_parts(const void *context, size_t i)
{
    return &check_of(context)->joints[i];
}

static const print_field joint_fields[] = {
    WORD("joint", IN_ALL, joint_name),
    NAMES("parts", joint_parts),
};

const print_table report_check_tables[CHECK_TABLES] = {
    [CHECK_VALUES] = {"values", FIELDS(value_fields), said_rows, said_row},
    [CHECK_VESSELS] = {"vessels", FIELDS(vessel_fields), vessel_rows, vessel_row},
    [CHECK_JOINTS] = {"joints", FIELDS(joint_fields), joint_rows, joint_row},
};
