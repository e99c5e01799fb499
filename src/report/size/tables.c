/* SPDX-License-Identifier: MIT */
/* What stands in the tables of the size answer. */
#include "report/size/report.h"

#include <math.h>
#include <stdio.h>

static const fv_size_answer *size(const void *answer)
{
    return answer;
}

#define NUMBER(row, name, member, unit, show)                                                                          \
    {                                                                                                                  \
        name, unit, IN_DATA, FIELD_NUMBER, show, offsetof(row, member), NULL, NULL, NULL                               \
    }
#define COUNT(row, name, member)                                                                                       \
    {                                                                                                                  \
        name, "", IN_DATA, FIELD_COUNT, FV_SHOW_NUMBER, offsetof(row, member), NULL, NULL, NULL                        \
    }
#define FLAG(row, member)                                                                                              \
    {                                                                                                                  \
#member, "", IN_DATA, FIELD_FLAG, FV_SHOW_NUMBER, offsetof(row, member), NULL, NULL, NULL                      \
    }
#define WORD(name, function)                                                                                           \
    {                                                                                                                  \
        name, "", IN_DATA, FIELD_WORD, FV_SHOW_NUMBER, 0, NULL, function, NULL                                         \
    }
#define CELL(name, unit, function)                                                                                     \
    {                                                                                                                  \
        name, unit, IN_DATA, FIELD_NUMBER, FV_SHOW_NUMBER, 0, function, NULL, NULL                                     \
    }
#define FIELDS(list) list, sizeof list / sizeof *list

static const char *shown(print_shown from, char buffer[PRINT_WORD_SIZE])
{
    snprintf(buffer, PRINT_WORD_SIZE, "%s", from.text);
    return buffer;
}

/* ---- choices ---- */

static size_t choice_rows(const void *answer)
{
    return size(answer)->row_count;
}
static const void *choice_row(const void *answer, size_t i)
{
    return &size(answer)->rows[i];
}
static const char *choice_name(const void *answer, size_t i, char *buffer)
{
    (void)answer;
    return shown(report_size_choice(i), buffer);
}
static const char *choice_marks(const void *answer, size_t i, char *buffer)
{
    fv_text text = {0};
    report_size_marks(size(answer)->rows[i].marks, false, " ", &text);
    snprintf(buffer, PRINT_WORD_SIZE, "%s", text.text && !text.failed ? text.text : "");
    fv_text_free(&text);
    return buffer;
}
static const char *vessel_id(const fv_size_answer *answer, int vessel)
{
    return vessel >= 0 ? answer->plant->vessels[vessel]->part.id : NULL;
}
static const char *choice_last(const void *answer, size_t i, char *buffer)
{
    (void)buffer;
    return vessel_id(size(answer), size(answer)->rows[i].run.slowest_vessel);
}
static const char *choice_first(const void *answer, size_t i, char *buffer)
{
    (void)buffer;
    return vessel_id(size(answer), size(answer)->rows[i].run.fastest_vessel);
}

#define R(name, member, unit, show) NUMBER(fv_size_row, name, member, unit, show)
static const print_field choice_fields[] = {
    WORD("choice", choice_name),
    WORD("marks", choice_marks),
    FLAG(fv_size_row, keeps),
    R("cost", cost, "", FV_SHOW_NUMBER),
    COUNT(fv_size_row, "unpriced", unpriced),
    R("last_core", run.slowest, "_s", FV_SHOW_NUMBER),
    WORD("last_vessel", choice_last),
    R("first_core", run.fastest, "_s", FV_SHOW_NUMBER),
    WORD("first_vessel", choice_first),
    R("spread", run.spread, "", FV_SHOW_NUMBER),
    COUNT(fv_size_row, "starved", run.starved),
    COUNT(fv_size_row, "lagging", run.lagging),
    R("evenness", checks[FV_LIMIT_EVENNESS].value, "", FV_SHOW_NUMBER),
    R("boiler_pressure", checks[FV_LIMIT_PRESSURE].value, "_pa_gauge", FV_SHOW_PRESSURE),
    R("fuel", run.fuel, "_j", FV_SHOW_ENERGY),
    R("steam", run.steam, "_kg", FV_SHOW_MASS),
    R("water", run.water, "_kg", FV_SHOW_MASS),
    R("clogged_last_core", clogged.slowest, "_s", FV_SHOW_NUMBER),
    R("clogged_spread", clogged.spread, "", FV_SHOW_NUMBER),
    COUNT(fv_size_row, "clogged_starved", clogged.starved),
    R("half_fire_last_core", half_fire.slowest, "_s", FV_SHOW_NUMBER),
    R("half_fire_spread", half_fire.spread, "", FV_SHOW_NUMBER),
    COUNT(fv_size_row, "half_fire_starved", half_fire.starved),
};

/* ---- sizes: each dimension of each choice ---- */

static size_t size_rows(const void *answer)
{
    return size(answer)->row_count * size(answer)->dimension_count;
}
static const fv_size_dimension *dimension_of(const void *answer, size_t i)
{
    return &size(answer)->dimensions[i % size(answer)->dimension_count];
}
static const void *size_row(const void *answer, size_t i)
{
    return dimension_of(answer, i);
}
static const char *size_choice(const void *answer, size_t i, char *buffer)
{
    return choice_name(answer, i / size(answer)->dimension_count, buffer);
}
static const char *size_part(const void *answer, size_t i, char *buffer)
{
    (void)buffer;
    return fv_size_part_word(dimension_of(answer, i)->part);
}
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
static double size_value(const void *answer, size_t i)
{
    const size_t count = size(answer)->dimension_count;
    return size(answer)->rows[i / count].sizes[i % count];
}
static double size_length(const void *answer, size_t i)
{
    return dimension_of(answer, i)->part == FV_SIZE_HOLES ? (double)NAN : size_value(answer, i);
}
static double size_number(const void *answer, size_t i)
{
    return dimension_of(answer, i)->part == FV_SIZE_HOLES ? size_value(answer, i) : (double)NAN;
}
static const char *size_changed(const void *answer, size_t i, char *buffer)
{
    const fv_size_row *row = &size(answer)->rows[i / size(answer)->dimension_count];
    (void)buffer;
    return row->choice[i % size(answer)->dimension_count] > 0 ? "changed" : "kept";
}

static const print_field size_fields[] = {
    WORD("choice", size_choice),     WORD("part", size_part),        WORD("at", size_which),
    CELL("size", "_m", size_length), CELL("holes", "", size_number), WORD("change", size_changed),
};

/* ---- limits ---- */

static size_t limit_rows(const void *answer)
{
    return size(answer)->row_count * FV_LIMITS;
}
static const void *limit_row(const void *answer, size_t i)
{
    return &size(answer)->rows[i / FV_LIMITS].checks[i % FV_LIMITS];
}
static const char *limit_choice(const void *answer, size_t i, char *buffer)
{
    return choice_name(answer, i / FV_LIMITS, buffer);
}
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
    WORD("choice", limit_choice),
    WORD("limit", limit_word),
    NUMBER(fv_size_check, "value", value, "", FV_SHOW_NUMBER),
    NUMBER(fv_size_check, "allowed", limit, "", FV_SHOW_NUMBER),
    NUMBER(fv_size_check, "excess", excess, "", FV_SHOW_SHARE),
    FLAG(fv_size_check, kept),
    WORD("at", limit_where),
};

/* ---- coils ---- */

static size_t coil_rows(const void *answer)
{
    return size(answer)->row_count * size(answer)->plant->vessel_count;
}
static const void *coil_row(const void *answer, size_t i)
{
    const size_t vessels = size(answer)->plant->vessel_count;
    return &size(answer)->rows[i / vessels].areas[i % vessels];
}
static const char *coil_choice(const void *answer, size_t i, char *buffer)
{
    return choice_name(answer, i / size(answer)->plant->vessel_count, buffer);
}
static const char *coil_vessel(const void *answer, size_t i, char *buffer)
{
    (void)buffer;
    return size(answer)->plant->vessels[i % size(answer)->plant->vessel_count]->part.id;
}
static const char *coil_rule(const void *answer, size_t i, char *buffer)
{
    const fv_size_area *area = coil_row(answer, i);
    (void)buffer;
    return area->spreader_applies ? "spreader" : "even_flow";
}

#define A(name, member, unit, show) NUMBER(fv_size_area, name, member, unit, show)
static const print_field coil_fields[] = {
    WORD("choice", coil_choice),
    WORD("vessel", coil_vessel),
    A("hole_area_to_bore", ratio, "", FV_SHOW_NUMBER),
    WORD("rule_that_applies", coil_rule),
    {"keeps_even_flow_rule", "", IN_DATA, FIELD_FLAG, FV_SHOW_NUMBER, offsetof(fv_size_area, uniform_kept), NULL, NULL,
     NULL},
    {"keeps_spreader_rule", "", IN_DATA, FIELD_FLAG, FV_SHOW_NUMBER, offsetof(fv_size_area, spreader_kept), NULL, NULL,
     NULL},
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
    WORD("choice", setting_choice),
    WORD("setting", setting_text),
};

const print_table report_size_tables[SIZE_TABLES] = {
    [SIZE_CHOICES] = {"choices", FIELDS(choice_fields), choice_rows, choice_row},
    [SIZE_SIZES] = {"sizes", FIELDS(size_fields), size_rows, size_row},
    [SIZE_LIMITS] = {"limits", FIELDS(limit_fields), limit_rows, limit_row},
    [SIZE_COILS] = {"coils", FIELDS(coil_fields), coil_rows, coil_row},
    [SIZE_SETTINGS] = {"settings", FIELDS(setting_fields), setting_rows, setting_row},
};
