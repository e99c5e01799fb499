/* SPDX-License-Identifier: MIT */
/* What stands in the tables of the size answer. */
#include "report/size/report.h"
#include "print/fields.h"

#include <math.h>
#include <stdio.h>

static const fv_size_answer *size(const void *answer)
{
    return answer;
}

/* ---- choices ---- */

ROWS(choice_rows, size(answer)->row_count)
ROW(choice_row, &size(answer)->rows[i])
WORD_OF(choice_name, SHOWN(report_size_choice(i)))
static const char *choice_marks(const void *answer, size_t i, char *buffer)
{
    fv_text text = {0};
    report_size_marks(size(answer)->rows[i].marks, false, " ", &text);
    return print_word_take(&text, buffer);
}
static const char *vessel_id(const fv_size_answer *answer, int vessel)
{
    return vessel >= 0 ? answer->plant->vessels[vessel]->part.id : NULL;
}
WORD_OF(choice_last, vessel_id(size(answer), size(answer)->rows[i].run.slowest_vessel))
WORD_OF(choice_first, vessel_id(size(answer), size(answer)->rows[i].run.fastest_vessel))

#define R(name, member, unit, show) NUMBER(fv_size_row, name, member, unit, IN_DATA, show)
static const print_field choice_fields[] = {
    WORD("choice", IN_DATA, choice_name),
    WORD("marks", IN_DATA, choice_marks),
    FLAG(fv_size_row, "keeps", keeps, IN_DATA),
    R("cost", cost, "", FV_SHOW_NUMBER),
    COUNT(fv_size_row, "unpriced", unpriced, IN_DATA),
    COUNT(fv_size_row, "hands", step_count, IN_DATA),
    R("minutes", minutes, "", FV_SHOW_NUMBER),
    R("last_core", run.slowest, "_s", FV_SHOW_NUMBER),
    WORD("last_vessel", IN_DATA, choice_last),
    R("first_core", run.fastest, "_s", FV_SHOW_NUMBER),
    WORD("first_vessel", IN_DATA, choice_first),
    R("spread", run.spread, "", FV_SHOW_NUMBER),
    COUNT(fv_size_row, "starved", run.starved, IN_DATA),
    COUNT(fv_size_row, "lagging", run.lagging, IN_DATA),
    R("evenness", checks[FV_LIMIT_EVENNESS].value, "", FV_SHOW_NUMBER),
    R("boiler_pressure", checks[FV_LIMIT_PRESSURE].value, "_pa_gauge", FV_SHOW_PRESSURE),
    R("fuel", run.fuel, "_j", FV_SHOW_ENERGY),
    R("steam", run.steam, "_kg", FV_SHOW_MASS),
    R("water", run.water, "_kg", FV_SHOW_MASS),
    R("clogged_last_core", clogged.slowest, "_s", FV_SHOW_NUMBER),
    R("clogged_spread", clogged.spread, "", FV_SHOW_NUMBER),
    COUNT(fv_size_row, "clogged_starved", clogged.starved, IN_DATA),
    R("half_fire_last_core", half_fire.slowest, "_s", FV_SHOW_NUMBER),
    R("half_fire_spread", half_fire.spread, "", FV_SHOW_NUMBER),
    COUNT(fv_size_row, "half_fire_starved", half_fire.starved, IN_DATA),
};

/* ---- sizes: each dimension of each choice ---- */

static const fv_size_dimension *dimension_of(const void *answer, size_t i)
{
    return &size(answer)->dimensions[i % size(answer)->dimension_count];
}
/* The choice, by its number. */
static size_t choice_of(const void *answer, size_t i)
{
    return i / size(answer)->dimension_count;
}
ROWS(size_rows, size(answer)->row_count *size(answer)->dimension_count)
ROW(size_row, dimension_of(answer, i))
WORD_OF(size_choice, choice_name(answer, choice_of(answer, i), buffer))
WORD_OF(size_part, fv_size_part_word(dimension_of(answer, i)->part))
static const char *size_which(const void *answer, size_t i, char *buffer)
{
    const fv_size_dimension *d = dimension_of(answer, i);
    const fv_plant *plant = size(answer)->plant;
    (void)buffer;
    if (d->which < 0)
        return "all";
    return d->part == FV_SIZE_HOSE || d->part == FV_SIZE_HEADER ? plant->lines[d->which]->part.id
                                                                : plant->vessels[d->which]->part.id;
}
NUMBER_OF(size_value, size(answer)->rows[choice_of(answer, i)].sizes[i % size(answer)->dimension_count])
NUMBER_OF(size_length, dimension_of(answer, i)->part == FV_SIZE_HOLES || dimension_of(answer, i)->part == FV_SIZE_WORK
                           ? NAN
                           : size_value(answer, i))
NUMBER_OF(size_number, dimension_of(answer, i)->part == FV_SIZE_HOLES ? size_value(answer, i) : NAN)
static const char *size_changed(const void *answer, size_t i, char *buffer)
{
    const fv_size_row *row = &size(answer)->rows[choice_of(answer, i)];
    (void)buffer;
    return row->choice[i % size(answer)->dimension_count] > 0 ? "changed" : "kept";
}

static const print_field size_fields[] = {
    WORD("choice", IN_DATA, size_choice),
    WORD("part", IN_DATA, size_part),
    WORD("at", IN_DATA, size_which),
    CELL("size", "_m", IN_DATA, FV_SHOW_NUMBER, size_length),
    CELL("holes", "", IN_DATA, FV_SHOW_NUMBER, size_number),
    WORD("change", IN_DATA, size_changed),
};

/* ---- limits ---- */

ROWS(limit_rows, size(answer)->row_count *FV_LIMITS)
ROW(limit_row, &size(answer)->rows[i / FV_LIMITS].checks[i % FV_LIMITS])
WORD_OF(limit_choice, choice_name(answer, i / FV_LIMITS, buffer))
static const char *limit_word(const void *answer, size_t i, char *buffer)
{
    (void)answer;
    const fv_size_limit limit = (fv_size_limit)(i % FV_LIMITS);
    snprintf(buffer, PRINT_WORD_SIZE, "%s%s", report_size_limit_word(limit), report_size_limit_unit(limit));
    return buffer;
}
static const char *limit_where(const void *answer, size_t i, char *buffer)
{
    const fv_size_check *check = limit_row(answer, i);
    (void)buffer;
    return check->at < 0 ? NULL : report_size_where(size(answer), (fv_size_limit)(i % FV_LIMITS), check->at);
}

static const print_field limit_fields[] = {
    WORD("choice", IN_DATA, limit_choice),
    WORD("limit", IN_DATA, limit_word),
    NUMBER(fv_size_check, "value", value, "", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_size_check, "allowed", limit, "", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_size_check, "excess", excess, "", IN_DATA, FV_SHOW_SHARE),
    FLAG(fv_size_check, "kept", kept, IN_DATA),
    WORD("at", IN_DATA, limit_where),
};

/* ---- coils ---- */

static const fv_size_area *coil(const void *answer, size_t i)
{
    const size_t vessels = size(answer)->plant->vessel_count;
    return &size(answer)->rows[i / vessels].areas[i % vessels];
}
ROWS(coil_rows, size(answer)->row_count *size(answer)->plant->vessel_count)
ROW(coil_row, coil(answer, i))
ROW(coil_part, size(answer)->plant->vessels[i % size(answer)->plant->vessel_count])
WORD_OF(coil_choice, choice_name(answer, i / size(answer)->plant->vessel_count, buffer))
WORD_OF(coil_rule, coil(answer, i)->spreader_applies ? "spreader" : "even_flow")

#define A(name, member, unit, show) NUMBER(fv_size_area, name, member, unit, IN_DATA, show)
static const print_field coil_fields[] = {
    WORD("choice", IN_DATA, coil_choice),
    PART_TEXT(fv_vessel, "vessel", part.id, IN_DATA),
    A("hole_area_to_bore", ratio, "", FV_SHOW_NUMBER),
    WORD("rule_that_applies", IN_DATA, coil_rule),
    FLAG(fv_size_area, "keeps_even_flow_rule", uniform_kept, IN_DATA),
    FLAG(fv_size_area, "keeps_spreader_rule", spreader_kept, IN_DATA),
    A("evenness", evenness, "", FV_SHOW_NUMBER),
    A("coil_pressure", coil_pressure, "_pa_gauge", FV_SHOW_PRESSURE),
    A("boiler_pressure", boiler_pressure, "_pa_gauge", FV_SHOW_PRESSURE),
};

/* ---- settings: what --set takes ---- */

static size_t setting_rows(const void *answer)
{
    size_t count = 0;
    for (size_t i = 0; i < size(answer)->row_count; i++)
        count += size(answer)->rows[i].change.count;
    return count;
}
static const void *setting_row(const void *answer, size_t i)
{
    const fv_size_answer *a = size(answer);
    for (size_t row = 0; row < a->row_count; row++) {
        if (i < a->rows[row].change.count)
            return &a->rows[row].change.settings[i];
        i -= a->rows[row].change.count;
    }
    return NULL;
}
static const char *setting_choice(const void *answer, size_t i, char *buffer)
{
    const fv_size_answer *a = size(answer);
    size_t row = 0;
    while (row + 1 < a->row_count && i >= a->rows[row].change.count)
        i -= a->rows[row++].change.count;
    return choice_name(answer, row, buffer);
}
static const char *setting_text(const void *answer, size_t i, char *buffer)
{
    fv_text text = {0};
    const bool good = fv_setting_write(setting_row(answer, i), size(answer)->plant, &text);
    snprintf(buffer, PRINT_WORD_SIZE, "%s", good ? text.text : "");
    fv_text_free(&text);
    return buffer;
}

static const print_field setting_fields[] = {
    WORD("choice", IN_DATA, setting_choice),
    WORD("setting", IN_DATA, setting_text),
};

const print_table report_size_tables[SIZE_TABLES] = {
    [SIZE_CHOICES] = {"choices", FIELDS(choice_fields), choice_rows, choice_row, NULL},
    [SIZE_SIZES] = {"sizes", FIELDS(size_fields), size_rows, size_row, NULL},
    [SIZE_LIMITS] = {"limits", FIELDS(limit_fields), limit_rows, limit_row, NULL},
    [SIZE_COILS] = {"coils", FIELDS(coil_fields), coil_rows, coil_row, coil_part},
    [SIZE_SETTINGS] = {"settings", FIELDS(setting_fields), setting_rows, setting_row, NULL},
};
