/* SPDX-License-Identifier: MIT */
/* What stands in the tables of the why answer. A new result field becomes one row here. */
#include "report/why/report.h"
#include "print/fields.h"

#include <math.h>

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
static const fv_why_vessel *vessel(const void *answer, size_t row)
{
    return &result(answer)->vessels[asked(answer, row)];
}
ROW(vessel_row, vessel(answer, i))
ROW(vessel_parts, &of(answer)->parts[asked(answer, i)])
WORD_OF(vessel_id, vessel_name(answer, asked(answer, i)))
WORD_OF(vessel_first, fv_why_cause_word(vessel(answer, i)->first))
WORD_OF(vessel_next, fv_why_cause_word(vessel(answer, i)->next))
static const char *vessel_place(const void *answer, size_t row, char *buffer)
{
    const int here = vessel(answer, row)->part_here;
    (void)buffer;
    return here > 0 ? "here" : here == 0 ? "elsewhere" : "both";
}
WORD_OF(vessel_measure, vessel(answer, i)->against_best ? vessel_name(answer, (size_t)result(answer)->best) : "ideal")
static const char *vessel_because(const void *answer, size_t row, char *buffer)
{
    fv_text text = {0};
    report_why_cause(of(answer), asked(answer, row), &text);
    return print_word_take(&text, buffer);
}
#define V(member, unit) NUMBER(fv_why_vessel, #member, member, unit, IN_DATA, FV_SHOW_NUMBER)
static const print_field vessel_fields[] = {
    WORD("vessel", IN_DATA, vessel_id),
    WORD("cause", IN_DATA, vessel_first),
    WORD("because", IN_DATA, vessel_because),
    {.name = "parts", .unit = "", .where = IN_DATA, .kind = FIELD_NAMES, .of_part = true},
    WORD("place", IN_DATA, vessel_place),
    WORD("next", IN_DATA, vessel_next),
    WORD("against", IN_DATA, vessel_measure),
    FLAG(fv_why_vessel, "arrives", arrives, IN_DATA),
    V(took, "_s"),
    V(ideal, "_s"),
    V(ample, "_s"),
    V(vent, "_m"),
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
ROWS(share_rows, asked_count(answer) * cause_count(result(answer)))
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
WORD_OF(share_id, vessel_id(answer, i / cause_count(result(answer)), buffer))
WORD_OF(share_word, fv_why_cause_word((fv_why_cause)share_cause(answer, i)))
static double share_value(const void *answer, size_t row)
{
    const size_t cause = share_cause(answer, row);
    for (size_t i = 0; i < result(answer)->kept_count; i++)
        if (result(answer)->kept[i] == cause)
            return share_vessel(answer, row)->share[cause];
    return NAN;
}
NUMBER_OF(share_alone, share_vessel(answer, i)->alone[share_cause(answer, i)])
NUMBER_OF(share_last, share_vessel(answer, i)->last[share_cause(answer, i)])

static const print_field share_fields[] = {
    WORD("vessel", IN_DATA, share_id),
    WORD("cause", IN_DATA, share_word),
    CELL("share", "_s", IN_DATA, FV_SHOW_NUMBER, share_value),
    CELL("alone", "_s", IN_DATA, FV_SHOW_NUMBER, share_alone),
    CELL("last", "_s", IN_DATA, FV_SHOW_NUMBER, share_last),
};

/* ---- pressure along the way ---- */

ROWS(place_rows, result(answer)->place_count)
ROW(place_row, &result(answer)->places[i])
WORD_OF(place_vessel, vessel_name(answer, (size_t)result(answer)->places[i].vessel))
WORD_OF(place_kind, fv_place_word(result(answer)->places[i].kind))

#define P(member, unit, show) NUMBER(fv_why_place, #member, member, unit, IN_DATA, show)
static const print_field place_fields[] = {
    WORD("vessel", IN_DATA, place_vessel),
    WORD("place", IN_DATA, place_kind),
    TEXT(fv_why_place, "part", part, IN_DATA),
    P(before, "_pa_gauge", FV_SHOW_PRESSURE),
    P(after, "_pa_gauge", FV_SHOW_PRESSURE),
    P(drop, "_pa", FV_SHOW_PRESSURE),
    P(friction, "_pa", FV_SHOW_PRESSURE),
    P(fittings, "_pa", FV_SHOW_PRESSURE),
    P(share, "", FV_SHOW_SHARE),
};

/* ---- remedies ---- */

static const fv_why_remedy *remedy(const void *answer, size_t row)
{
    return &result(answer)->remedies[row];
}
ROWS(remedy_rows, result(answer)->remedy_count)
ROW(remedy_row, remedy(answer, i))
NUMBER_OF(remedy_number, (double)(i + 1))
WORD_OF(remedy_kind, fv_remedy_word(remedy(answer, i)->kind))
WORD_OF(remedy_what, of(answer)->remedies[i])
WORD_OF(remedy_command, of(answer)->commands[i])
WORD_OF(remedy_effort, fv_effort_word(remedy(answer, i)->effort))
NUMBER_OF(remedy_gain, remedy(answer, i)->gain[result(answer)->target])
WORD_OF(remedy_next, (int)i == result(answer)->cheapest ? "yes" : "no")

#define R(member, unit, show) NUMBER(fv_why_remedy, #member, member, unit, IN_DATA, show)
static const print_field remedy_fields[] = {
    CELL("number", "", IN_DATA, FV_SHOW_NUMBER, remedy_number),
    WORD("remedy", IN_DATA, remedy_kind),
    WORD("what", IN_DATA, remedy_what),
    TEXT(fv_why_remedy, "part", part, IN_DATA),
    COUNT(fv_why_remedy, "parts", part_count, IN_DATA),
    WORD("effort", IN_DATA, remedy_effort),
    R(from, "", FV_SHOW_NUMBER),
    R(to, "", FV_SHOW_NUMBER),
    FLAG(fv_why_remedy, "from_stock", from_stock, IN_DATA),
    R(cost, "", FV_SHOW_NUMBER),
    R(worth, "_s", FV_SHOW_NUMBER),
    CELL("gain", "_s", IN_DATA, FV_SHOW_NUMBER, remedy_gain),
    R(slowest, "_s", FV_SHOW_NUMBER),
    R(pressure, "_pa_gauge", FV_SHOW_PRESSURE),
    FLAG(fv_why_remedy, "over_relief", over_relief, IN_DATA),
    FLAG(fv_why_remedy, "lifts_lid", lifts_lid, IN_DATA),
    WORD("next_step", IN_DATA, remedy_next),
    WORD("command", IN_DATA, remedy_command),
};

/* ---- what each remedy does to each vessel ---- */

static size_t effect_remedy(const void *answer, size_t row)
{
    return row / result(answer)->plant->vessel_count;
}
static size_t effect_vessel(const void *answer, size_t row)
{
    return row % result(answer)->plant->vessel_count;
}
ROWS(effect_rows, result(answer)->remedy_count *result(answer)->plant->vessel_count)
NUMBER_OF(effect_number, (double)(effect_remedy(answer, i) + 1))
WORD_OF(effect_id, vessel_name(answer, effect_vessel(answer, i)))
NUMBER_OF(effect_core, remedy(answer, effect_remedy(answer, i))->core[effect_vessel(answer, i)])
NUMBER_OF(effect_gain, remedy(answer, effect_remedy(answer, i))->gain[effect_vessel(answer, i)])

static const print_field effect_fields[] = {
    CELL("number", "", IN_DATA, FV_SHOW_NUMBER, effect_number),
    WORD("vessel", IN_DATA, effect_id),
    CELL("core", "_s", IN_DATA, FV_SHOW_NUMBER, effect_core),
    CELL("gain", "_s", IN_DATA, FV_SHOW_NUMBER, effect_gain),
};

const print_table report_why_tables[WHY_TABLES] = {
    [WHY_VESSELS] = {"vessels", FIELDS(vessel_fields), asked_count, vessel_row, vessel_parts},
    [WHY_SHARES] = {"shares", FIELDS(share_fields), share_rows, NULL, NULL},
    [WHY_PRESSURE] = {"pressure", FIELDS(place_fields), place_rows, place_row, NULL},
    [WHY_REMEDIES] = {"remedies", FIELDS(remedy_fields), remedy_rows, remedy_row, NULL},
    [WHY_EFFECTS] = {"effects", FIELDS(effect_fields), effect_rows, NULL, NULL},
};
