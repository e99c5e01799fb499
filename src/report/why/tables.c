/* SPDX-License-Identifier: MIT */
/* What stands in the tables of the why answer. A new result field becomes one row here. */
#include "report/why/report.h"

#include <math.h>
#include <stdio.h>

static const report_why *of(const void *answer)
{
    return answer;
}
static const fv_why_answer *result(const void *answer)
{
    return of(answer)->answer;
}
static const char *vessel_name(const void *answer, size_t vessel)
{
    return result(answer)->plant->vessels[vessel]->part.id;
}

#define NUMBER(row, member, unit, show)                                                                                \
    {                                                                                                                  \
#member, unit, IN_DATA, FIELD_NUMBER, show, offsetof(row, member), NULL, NULL, NULL                            \
    }
#define FOUND(name, unit, function)                                                                                    \
    {                                                                                                                  \
        name, unit, IN_DATA, FIELD_NUMBER, FV_SHOW_NUMBER, 0, function, NULL, NULL                                     \
    }
#define FLAG(row, member)                                                                                              \
    {                                                                                                                  \
#member, "", IN_DATA, FIELD_FLAG, FV_SHOW_NUMBER, offsetof(row, member), NULL, NULL, NULL                      \
    }
#define COUNT(name, row, member)                                                                                       \
    {                                                                                                                  \
        name, "", IN_DATA, FIELD_COUNT, FV_SHOW_NUMBER, offsetof(row, member), NULL, NULL, NULL                        \
    }
#define WORD(name, function)                                                                                           \
    {                                                                                                                  \
        name, "", IN_DATA, FIELD_WORD, FV_SHOW_NUMBER, 0, NULL, function, NULL                                         \
    }
#define FIELDS(list) list, sizeof list / sizeof *list

/* ---- vessels: those asked about ---- */

static size_t asked_count(const void *answer)
{
    size_t count = 0;
    for (size_t i = 0; i < result(answer)->plant->vessel_count; i++)
        count += result(answer)->vessels[i].asked;
    return count;
}
/* The row-th of those asked about. */
static size_t asked(const void *answer, size_t row)
{
    for (size_t i = 0; i < result(answer)->plant->vessel_count; i++)
        if (result(answer)->vessels[i].asked && row-- == 0)
            return i;
    return 0;
}
static const void *vessel_row(const void *answer, size_t row)
{
    return &result(answer)->vessels[asked(answer, row)];
}
static const fv_why_vessel *vessel(const void *answer, size_t row)
{
    return vessel_row(answer, row);
}
static const char *vessel_id(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return vessel_name(answer, asked(answer, row));
}
static const char *vessel_first(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return fv_why_cause_word(vessel(answer, row)->first);
}
static const char *vessel_next(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return fv_why_cause_word(vessel(answer, row)->next);
}
static const char *vessel_place(const void *answer, size_t row, char *buffer)
{
    const int here = vessel(answer, row)->part_here;
    (void)buffer;
    return here > 0 ? "here" : here == 0 ? "elsewhere" : "both";
}
static const char *vessel_measure(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return vessel(answer, row)->against_best ? vessel_name(answer, (size_t)result(answer)->best) : "ideal";
}
static const char *vessel_because(const void *answer, size_t row, char *buffer)
{
    fv_text text = {0};
    report_why_cause(of(answer), asked(answer, row), &text);
    snprintf(buffer, PRINT_WORD_SIZE, "%s", text.text && !text.failed ? text.text : "");
    fv_text_free(&text);
    return buffer;
}
static const print_names *vessel_parts(const void *answer, size_t row)
{
    return &of(answer)->parts[asked(answer, row)];
}

#define V(member, unit) NUMBER(fv_why_vessel, member, unit, FV_SHOW_NUMBER)
static const print_field vessel_fields[] = {
    WORD("vessel", vessel_id),
    WORD("cause", vessel_first),
    WORD("because", vessel_because),
    {"parts", "", IN_DATA, FIELD_NAMES, FV_SHOW_NUMBER, 0, NULL, NULL, vessel_parts},
    WORD("place", vessel_place),
    WORD("next", vessel_next),
    WORD("against", vessel_measure),
    FLAG(fv_why_vessel, arrives),
    V(took, "_s"),
    V(ideal, "_s"),
    V(ample, "_s"),
    V(small, "_s"),
};

/* ---- shares: each cause that is there, of each vessel asked about ---- */

static bool is_there(const fv_why_answer *answer, size_t cause)
{
    return answer->plant->vessel_count > 0 && !isnan(answer->vessels[0].alone[cause]);
}
static size_t cause_count(const fv_why_answer *answer)
{
    size_t count = 0;
    for (size_t c = 0; c < FV_WHY_CAUSES; c++)
        count += is_there(answer, c);
    return count;
}
static size_t share_rows(const void *answer)
{
    return asked_count(answer) * cause_count(result(answer));
}
static const fv_why_vessel *share_vessel(const void *answer, size_t row)
{
    return vessel(answer, row / cause_count(result(answer)));
}
static size_t share_cause(const void *answer, size_t row)
{
    size_t left = row % cause_count(result(answer)), c = 0;
    for (; c < FV_WHY_CAUSES; c++)
        if (is_there(result(answer), c) && left-- == 0)
            break;
    return c;
}
static const char *share_id(const void *answer, size_t row, char *buffer)
{
    return vessel_id(answer, row / cause_count(result(answer)), buffer);
}
static const char *share_word(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return fv_why_cause_word((fv_why_cause)share_cause(answer, row));
}
static double share_value(const void *answer, size_t row)
{
    const size_t cause = share_cause(answer, row);
    for (size_t i = 0; i < result(answer)->kept_count; i++)
        if (result(answer)->kept[i] == cause)
            return share_vessel(answer, row)->share[cause];
    return NAN;
}
static double share_alone(const void *answer, size_t row)
{
    return share_vessel(answer, row)->alone[share_cause(answer, row)];
}
static double share_last(const void *answer, size_t row)
{
    return share_vessel(answer, row)->last[share_cause(answer, row)];
}

static const print_field share_fields[] = {
    WORD("vessel", share_id),          WORD("cause", share_word),       FOUND("share", "_s", share_value),
    FOUND("alone", "_s", share_alone), FOUND("last", "_s", share_last),
};

/* ---- pressure along the way ---- */

static size_t place_rows(const void *answer)
{
    return result(answer)->place_count;
}
static const void *place_row(const void *answer, size_t row)
{
    return &result(answer)->places[row];
}
static const char *place_vessel(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return vessel_name(answer, (size_t)result(answer)->places[row].vessel);
}
static const char *place_kind(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return fv_place_word(result(answer)->places[row].kind);
}
static const char *place_part(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return result(answer)->places[row].part;
}

#define P(member, unit, show) NUMBER(fv_why_place, member, unit, show)
static const print_field place_fields[] = {
    WORD("vessel", place_vessel),
    WORD("place", place_kind),
    WORD("part", place_part),
    P(before, "_pa_gauge", FV_SHOW_PRESSURE),
    P(after, "_pa_gauge", FV_SHOW_PRESSURE),
    P(drop, "_pa", FV_SHOW_PRESSURE),
    P(friction, "_pa", FV_SHOW_PRESSURE),
    P(fittings, "_pa", FV_SHOW_PRESSURE),
    P(share, "", FV_SHOW_SHARE),
};

/* ---- remedies ---- */

static size_t remedy_rows(const void *answer)
{
    return result(answer)->remedy_count;
}
static const fv_why_remedy *remedy(const void *answer, size_t row)
{
    return &result(answer)->remedies[row];
}
static const void *remedy_row(const void *answer, size_t row)
{
    return remedy(answer, row);
}
static const char *remedy_kind(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return fv_remedy_word(remedy(answer, row)->kind);
}
static const char *remedy_what(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return of(answer)->remedies[row];
}
static const char *remedy_command(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return of(answer)->commands[row];
}
static const char *remedy_effort(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return fv_effort_word(remedy(answer, row)->effort);
}
static const char *remedy_part(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return remedy(answer, row)->part;
}
static double remedy_number(const void *answer, size_t row)
{
    (void)answer;
    return (double)(row + 1);
}
static double remedy_gain(const void *answer, size_t row)
{
    return remedy(answer, row)->gain[result(answer)->target];
}
static const char *remedy_next(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return (int)row == result(answer)->cheapest ? "yes" : "no";
}

#define R(member, unit, show) NUMBER(fv_why_remedy, member, unit, show)
static const print_field remedy_fields[] = {
    FOUND("number", "", remedy_number),
    WORD("remedy", remedy_kind),
    WORD("what", remedy_what),
    WORD("part", remedy_part),
    COUNT("parts", fv_why_remedy, part_count),
    WORD("effort", remedy_effort),
    R(from, "", FV_SHOW_NUMBER),
    R(to, "", FV_SHOW_NUMBER),
    FLAG(fv_why_remedy, from_stock),
    R(cost, "", FV_SHOW_NUMBER),
    R(worth, "_s", FV_SHOW_NUMBER),
    FOUND("gain", "_s", remedy_gain),
    R(slowest, "_s", FV_SHOW_NUMBER),
    R(pressure, "_pa_gauge", FV_SHOW_PRESSURE),
    FLAG(fv_why_remedy, over_relief),
    WORD("next_step", remedy_next),
    WORD("command", remedy_command),
};

/* ---- what each remedy does to each vessel ---- */

static size_t effect_rows(const void *answer)
{
    return result(answer)->remedy_count * result(answer)->plant->vessel_count;
}
static size_t effect_remedy(const void *answer, size_t row)
{
    return row / result(answer)->plant->vessel_count;
}
static size_t effect_vessel(const void *answer, size_t row)
{
    return row % result(answer)->plant->vessel_count;
}
static double effect_number(const void *answer, size_t row)
{
    return (double)(effect_remedy(answer, row) + 1);
}
static const char *effect_id(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return vessel_name(answer, effect_vessel(answer, row));
}
static double effect_core(const void *answer, size_t row)
{
    return remedy(answer, effect_remedy(answer, row))->core[effect_vessel(answer, row)];
}
static double effect_gain(const void *answer, size_t row)
{
    return remedy(answer, effect_remedy(answer, row))->gain[effect_vessel(answer, row)];
}

static const print_field effect_fields[] = {
    FOUND("number", "", effect_number),
    WORD("vessel", effect_id),
    FOUND("core", "_s", effect_core),
    FOUND("gain", "_s", effect_gain),
};

const print_table report_why_tables[WHY_TABLES] = {
    [WHY_VESSELS] = {"vessels", FIELDS(vessel_fields), asked_count, vessel_row},
    [WHY_SHARES] = {"shares", FIELDS(share_fields), share_rows, NULL},
    [WHY_PRESSURE] = {"pressure", FIELDS(place_fields), place_rows, place_row},
    [WHY_REMEDIES] = {"remedies", FIELDS(remedy_fields), remedy_rows, remedy_row},
    [WHY_EFFECTS] = {"effects", FIELDS(effect_fields), effect_rows, NULL},
};
