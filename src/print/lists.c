/* SPDX-License-Identifier: MIT */
/* What a plant file can name: materials, fittings, media, and every attribute with its default. */
#include "farvessel/print.h"

#include "print/json.h"
#include "print/screen.h"
#include "print/show.h"
#include "print/table.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define NUMBER(row, member, unit, where, show)                                                                         \
    {                                                                                                                  \
#member, unit, where, FIELD_NUMBER, show, offsetof(row, member), NULL, NULL, NULL                              \
    }
#define WORD(name, where, function)                                                                                    \
    {                                                                                                                  \
        name, "", where, FIELD_WORD, FV_SHOW_NUMBER, 0, NULL, function, NULL                                           \
    }
#define FIELDS(list) list, sizeof list / sizeof *list

/* ---- materials ---- */

static size_t material_rows(const void *context)
{
    size_t count;
    (void)context;
    fv_materials(&count);
    return count;
}
static const fv_material *material(size_t i)
{
    size_t count;
    return &fv_materials(&count)[i];
}
static const void *material_row(const void *context, size_t i)
{
    (void)context;
    return material(i);
}
static const char *material_name(const void *context, size_t i, char *buffer)
{
    (void)context;
    (void)buffer;
    return material(i)->name;
}
static const char *material_source(const void *context, size_t i, char *buffer)
{
    (void)context;
    (void)buffer;
    return material(i)->source;
}
static const print_field material_fields[] = {
    WORD("material", IN_ALL, material_name),
    NUMBER(fv_material, conductivity, "_w_m_k", IN_ALL, FV_SHOW_NUMBER),
    NUMBER(fv_material, density, "_kg_m3", IN_ALL, FV_SHOW_NUMBER),
    NUMBER(fv_material, specific_heat, "_j_kg_k", IN_ALL, FV_SHOW_NUMBER),
    NUMBER(fv_material, roughness, "_m", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_material, most, "_k", IN_ALL, FV_SHOW_TEMPERATURE),
    WORD("source", IN_DATA, material_source),
};

/* ---- fittings ---- */

static size_t fitting_rows(const void *context)
{
    size_t count;
    (void)context;
    fv_fittings(&count);
    return count;
}
static const fv_fitting_entry *fitting(size_t i)
{
    size_t count;
    return &fv_fittings(&count)[i];
}
static const void *fitting_row(const void *context, size_t i)
{
    (void)context;
    return fitting(i);
}
static const char *fitting_name(const void *context, size_t i, char *buffer)
{
    (void)context;
    (void)buffer;
    return fitting(i)->name;
}
static const char *fitting_source(const void *context, size_t i, char *buffer)
{
    (void)context;
    (void)buffer;
    return fitting(i)->source;
}
static const print_field fitting_fields[] = {
    WORD("fitting", IN_ALL, fitting_name),
    NUMBER(fv_fitting_entry, n, "", IN_ALL, FV_SHOW_NUMBER),
    NUMBER(fv_fitting_entry, k, "", IN_ALL, FV_SHOW_NUMBER),
    {"valve", "", IN_ALL, FIELD_FLAG, FV_SHOW_NUMBER, offsetof(fv_fitting_entry, valve), NULL, NULL, NULL},
    WORD("source", IN_DATA, fitting_source),
};

/* ---- attributes ---- */

/* The attribute in row i over all elements, and its element. */
static const fv_attr *attribute(const void *context, size_t i, const fv_element **element)
{
    size_t count;
    const fv_element *all = fv_schema(&count);
    (void)context;
    for (size_t e = 0; e < count; i -= all[e++].attr_count) {
        if (i < all[e].attr_count) {
            *element = &all[e];
            return &all[e].attrs[i];
        }
    }
    *element = &all[0];
    return &all[0].attrs[0];
}
static size_t attribute_rows(const void *context)
{
    size_t count, rows = 0;
    const fv_element *all = fv_schema(&count);
    (void)context;
    for (size_t e = 0; e < count; e++)
        rows += all[e].attr_count;
    return rows;
}
static const void *attribute_row(const void *context, size_t i)
{
    const fv_element *element;
    return attribute(context, i, &element);
}
static const char *attribute_element(const void *context, size_t i, char *buffer)
{
    const fv_element *element;
    (void)buffer;
    attribute(context, i, &element);
    return element->name;
}
static const char *attribute_name(const void *context, size_t i, char *buffer)
{
    const fv_element *element;
    (void)buffer;
    return attribute(context, i, &element)->name;
}
static const char *attribute_dimension(const void *context, size_t i, char *buffer)
{
    const fv_element *element;
    const fv_attr *attr = attribute(context, i, &element);
    (void)buffer;
    return attr->dim == FV_DIM_WORD ? attr->words : fv_dim_name(attr->dim);
}
static const char *attribute_unit(const void *context, size_t i, char *buffer)
{
    const fv_element *element;
    (void)buffer;
    return fv_dim_si_unit(attribute(context, i, &element)->dim);
}
static const char *attribute_doc(const void *context, size_t i, char *buffer)
{
    const fv_element *element;
    (void)buffer;
    return attribute(context, i, &element)->doc;
}
static const print_field attribute_fields[] = {
    WORD("element", IN_DATA, attribute_element),
    WORD("attribute", IN_DATA, attribute_name),
    WORD("dimension", IN_DATA, attribute_dimension),
    {"required", "", IN_DATA, FIELD_FLAG, FV_SHOW_NUMBER, offsetof(fv_attr, required), NULL, NULL, NULL},
    {"default_si", "", IN_DATA, FIELD_NUMBER, FV_SHOW_NUMBER, offsetof(fv_attr, fallback), NULL, NULL, NULL},
    {"least_si", "", IN_DATA, FIELD_NUMBER, FV_SHOW_NUMBER, offsetof(fv_attr, least), NULL, NULL, NULL},
    {"most_si", "", IN_DATA, FIELD_NUMBER, FV_SHOW_NUMBER, offsetof(fv_attr, most), NULL, NULL, NULL},
    WORD("unit", IN_DATA, attribute_unit),
    WORD("doc", IN_DATA, attribute_doc),
};

/* ---- media: the words that a load can name, with what the schema says about them ---- */

static const fv_attr *medium(void)
{
    return fv_attr_find(fv_element_find("load"), "medium");
}
static size_t medium_rows(const void *context)
{
    size_t rows = 1;
    (void)context;
    for (const char *word = medium()->words; (word = strchr(word, '|')); word++)
        rows++;
    return rows;
}
static const void *medium_row(const void *context, size_t i)
{
    (void)context;
    (void)i;
    return NULL;
}
static const char *medium_word(const void *context, size_t i, char *buffer)
{
    (void)context;
    return fv_word_at(medium()->words, (int)i, buffer, PRINT_WORD_SIZE);
}
static const print_field medium_fields[] = {WORD("medium", IN_ALL, medium_word)};

enum { LIST_MATERIALS, LIST_FITTINGS, LIST_MEDIA, LIST_ATTRIBUTES, LISTS };
static const print_table tables[LISTS] = {
    [LIST_MATERIALS] = {"materials", FIELDS(material_fields), material_rows, material_row},
    [LIST_FITTINGS] = {"fittings", FIELDS(fitting_fields), fitting_rows, fitting_row},
    [LIST_MEDIA] = {"media", FIELDS(medium_fields), medium_rows, medium_row},
    [LIST_ATTRIBUTES] = {"attributes", FIELDS(attribute_fields), attribute_rows, attribute_row},
};

static void attribute_text(const fv_attr *attr, fv_text *out)
{
    bool word = attr->dim == FV_DIM_WORD;
    print_sayf(out, "    ", "%s (%s%s): %s", attr->name, word ? attr->words : fv_dim_name(attr->dim),
               attr->required ? ", required" : "", attr->doc);
}

/* For people each attribute is a sentence: its text would be cut in a grid. */
static void attributes_text(fv_text *out)
{
    size_t count;
    const fv_element *all = fv_schema(&count);
    for (size_t e = 0; e < count; e++) {
        fv_text_add(out, "%s", e ? "\n" : "");
        print_sayf(out, "", "<%s>: %s", all[e].name, all[e].doc);
        for (size_t i = 0; i < all[e].attr_count; i++)
            attribute_text(&all[e].attrs[i], out);
    }
}

static void media_text(fv_text *out)
{
    static const char *const told[] = {"medium", "moisture", "density", "specific-heat", "conductivity"};
    fv_text_add(out, "A load's medium can be: ");
    for (const char *c = medium()->words; *c; c++)
        fv_text_add(out, "%c%s", *c == '|' ? ',' : *c, *c == '|' ? " " : "");
    fv_text_add(out, "\n");
    for (size_t i = 0; i < sizeof told / sizeof *told; i++)
        attribute_text(fv_attr_find(fv_element_find("load"), told[i]), out);
}

/* The sources below the numbers, where they need not be cut. */
static void sources_text(const char *(*name)(const void *, size_t, char *),
                         const char *(*source)(const void *, size_t, char *), size_t rows, fv_text *out)
{
    print_section(out, "Sources");
    for (size_t i = 0; i < rows; i++)
        print_sayf(out, "  ", "%s: %s", name(NULL, i, NULL), source(NULL, i, NULL));
}

static void list_text(int list, fv_unit_system units, fv_text *out)
{
    switch (list) {
    case LIST_ATTRIBUTES:
        attributes_text(out);
        break;
    case LIST_MEDIA:
        media_text(out);
        break;
    case LIST_MATERIALS:
        print_table_text(&tables[list], NULL, units, out);
        print_paragraph(out, "  ",
                        "Conductivity in W/m/K, density in kg/m3, specific heat in J/kg/K; most: the "
                        "temperature above which it softens or is not rated.");
        sources_text(material_name, material_source, material_rows(NULL), out);
        break;
    default:
        print_table_text(&tables[list], NULL, units, out);
        print_paragraph(out, "  ",
                        "K = n f_T on the line's bore, f_T the friction factor of that bore when fully "
                        "rough; or k as it is. A valve's figure is that of the open valve.");
        sources_text(fitting_name, fitting_source, fitting_rows(NULL), out);
    }
}

fv_status fv_report_list(const char *list, const fv_report_options *options, fv_text *out)
{
    for (int i = 0; i < LISTS; i++) {
        if (strcmp(tables[i].name, list) != 0)
            continue;
        json_t *root = NULL;
        switch (options->format) {
        case FV_REPORT_CSV:
            print_table_csv(&tables[i], NULL, out);
            break;
        case FV_REPORT_JSON:
            root = json_object();
            print_json_set(&root, tables[i].name, print_table_json(&tables[i], NULL));
            return print_json_finish(root, out);
        case FV_REPORT_TEXT:
            list_text(i, options->units, out);
            break;
        }
        return out->failed ? FV_FAIL : FV_OK;
    }
    return FV_FAIL;
}
