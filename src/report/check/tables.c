/* SPDX-License-Identifier: MIT */
/* What stands in the tables of the check answer. */
#include "report/check/report.h"
#include "print/clock.h"
#include "print/fields.h"

#include <math.h>
#include <string.h>
#include "print/show.h"
#include "report/assumptions.h"

#include <stdio.h>

static const report_check *check_of(const void *context)
{
    return context;
}

static bool meet(report_check *check, int node, const char *part)
{
    return node < 0 || print_names_push(&check->joints[node], check->said.arena, part);
}

/* Tees and reducers that are counted without being declared. */
static bool find_fittings(report_check *check)
{
    const fv_plant *plant = check->answer->plant;
    fv_joint *joints = fv_arena_alloc(check->said.arena, plant->node_count + 1, sizeof *joints);
    bool good = joints && fv_plant_joints(plant, joints);
    for (size_t i = 0; good && i < plant->node_count; i++) {
        const char *last = joints[i].kind == FV_JOINT_TEE       ? plant->lines[joints[i].line[2]]->part.id
                           : joints[i].kind == FV_JOINT_REDUCER ? plant->lines[joints[i].line[1]]->part.id
                                                                : NULL;
        if (last)
            good = meet(check, (int)i,
                        fv_arena_printf(check->said.arena,
                                        joints[i].kind == FV_JOINT_TEE ? "a tee (branch %s)" : "a reducer (narrow %s)",
                                        last));
    }
    return good;
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
    return good && find_fittings(check);
}

bool report_check_make(const fv_check_answer *answer, const fv_report_options *options, report_check *check)
{
    *check = (report_check){.answer = answer, .assumed = options->assumed, .units = options->units};
    return print_said_collect(answer->plant, &check->said) && find_joints(check);
}

void report_check_free(report_check *check)
{
    print_said_free(&check->said);
}

/* ---- values that are not the user's own ---- */

static const print_said_row *said(const void *answer, size_t i)
{
    return &check_of(answer)->said.rows[i];
}
ROWS(said_rows, check_of(answer)->said.row_count)
ROW(said_row, said(answer, i))
ROW(said_part, said(answer, i)->attr)
WORD_OF(said_word, print_said_word(said(answer, i)->said))
WORD_OF(said_unit, fv_dim_si_unit(said(answer, i)->attr->dim))
WORD_OF(said_shown, SHOWN(print_shown_value(check_of(answer)->units, said(answer, i)->attr, said(answer, i)->si)))

static const print_field value_fields[] = {
    WORD("said", IN_DATA, said_word),
    TEXT(print_said_row, "element", element, IN_ALL),
    PART_TEXT(fv_attr, "attribute", name, IN_ALL),
    NUMBER(print_said_row, "value_si", si, "", IN_DATA, FV_SHOW_NUMBER),
    WORD("unit", IN_DATA, said_unit),
    WORD("shown", IN_ALL, said_shown),
    TEXT(print_said_row, "reason", reason, IN_DATA),
    NAMES(print_said_row, "parts", owners, IN_ALL),
};

/* ---- vessels ---- */

static const fv_vessel *vessel(const void *answer, size_t i)
{
    return check_of(answer)->answer->plant->vessels[i];
}
ROWS(vessel_rows, check_of(answer)->answer->plant->vessel_count)
ROW(vessel_row, &check_of(answer)->answer->vessels[i])
ROW(vessel_part, vessel(answer, i))
WORD_OF(vessel_allowed, SHOWN(print_shown_time(vessel(answer, i)->within.v)))

#define V(member, unit, where, show) NUMBER(fv_vessel_need, #member, member, unit, where, show)
static const print_field vessel_fields[] = {
    PART_TEXT(fv_vessel, "vessel", part.id, IN_ALL),
    V(load_mass, "_kg", IN_ALL, FV_SHOW_MASS),
    V(load_specific_heat, "_j_kg_k", IN_DATA, FV_SHOW_NUMBER),
    V(load, "_j", IN_ALL, FV_SHOW_ENERGY),
    V(shell, "_j", IN_ALL, FV_SHOW_ENERGY),
    V(walls, "_j", IN_ALL, FV_SHOW_ENERGY),
    V(wall_loss, "_w", IN_ALL, FV_SHOW_POWER),
    PART_VALUE(fv_vessel, "target", target, "_k", IN_ALL, FV_SHOW_TEMPERATURE),
    PART_VALUE(fv_vessel, "within", within, "_s", IN_DATA, FV_SHOW_NUMBER),
    WORD("within", IN_TEXT, vessel_allowed),
    V(need, "_w", IN_ALL, FV_SHOW_POWER),
};

/* ---- joints ---- */

typedef struct {
    print_names names;
} joint;
ROWS(joint_rows, check_of(answer)->answer->plant->node_count)
ROW(joint_row, &check_of(answer)->joints[i])
WORD_OF(joint_name, check_of(answer)->answer->plant->nodes[i])

static const print_field joint_fields[] = {
    WORD("joint", IN_ALL, joint_name),
    NAMES(joint, "parts", names, IN_ALL),
};

/* ---- what matters most of what is assumed ---- */

static const fv_assumed_row *assumed(const void *answer, size_t i)
{
    return &check_of(answer)->assumed->rows[i];
}
ROWS(assumed_rows, check_of(answer)->assumed ? check_of(answer)->assumed->row_count : 0)
ROW(assumed_row, assumed(answer, i))
ROW(assumed_attr, assumed(answer, i)->attr)
WORD_OF(assumed_element, assumed(answer, i)->element->name)
WORD_OF(assumed_unit, fv_dim_si_unit(assumed(answer, i)->attr->dim))
WORD_OF(assumed_from,
        SHOWN(report_assumed_value(check_of(answer)->units, assumed(answer, i), assumed(answer, i)->from)))
/* The same unit is not said twice where it is long. */
static const char *without_unit(print_shown shown, char *buffer)
{
    char *unit = strchr(shown.text, ' ');
    if (unit && strlen(unit) > 10)
        *unit = '\0';
    return SHOWN(shown);
}
WORD_OF(assumed_to,
        without_unit(report_assumed_value(check_of(answer)->units, assumed(answer, i), assumed(answer, i)->to), buffer))
static const char *shift_shown(const fv_assumed_row *row, char *buffer)
{
    if (!isfinite(row->shift))
        return SHOWN(report_assumed_shift(row));
    snprintf(buffer, PRINT_WORD_SIZE, "%c%s", row->shift < 0.0 ? '-' : '+', print_hours(fabs(row->shift)).text);
    return buffer;
}
WORD_OF(assumed_shift, shift_shown(assumed(answer, i), buffer))

static const print_field assumed_fields[] = {
    WORD("element", IN_ALL, assumed_element),
    PART_TEXT(fv_attr, "attribute", name, IN_ALL),
    TEXT(fv_assumed_row, "part", part, IN_DATA),
    COUNT(fv_assumed_row, "parts", parts, IN_DATA),
    FLAG(fv_assumed_row, "guess", guess, IN_DATA),
    WORD("taken_as", IN_ALL, assumed_from),
    WORD("tried", IN_ALL, assumed_to),
    NUMBER(fv_assumed_row, "from_si", from, "", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_assumed_row, "to_si", to, "", IN_DATA, FV_SHOW_NUMBER),
    WORD("unit", IN_DATA, assumed_unit),
    NUMBER(fv_assumed_row, "last_core", last_core, "_s", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_assumed_row, "shift", shift, "_s", IN_DATA, FV_SHOW_NUMBER),
    WORD("last_core", IN_TEXT, assumed_shift),
};

const print_table report_check_tables[CHECK_TABLES] = {
    [CHECK_VALUES] = {"values", FIELDS(value_fields), said_rows, said_row, said_part},
    [CHECK_VESSELS] = {"vessels", FIELDS(vessel_fields), vessel_rows, vessel_row, vessel_part},
    [CHECK_JOINTS] = {"joints", FIELDS(joint_fields), joint_rows, joint_row, NULL},
    [CHECK_MATTERS] = {"matters", FIELDS(assumed_fields), assumed_rows, assumed_row, assumed_attr},
};
