/* SPDX-License-Identifier: MIT */
/* What a plant file can name: materials, fittings, media, and every attribute with its default. */
#include "farvessel/print.h"

#include "print/fields.h"
#include "print/json.h"
#include "print/screen.h"

#include <string.h>

/* ---- materials and fittings ---- */

static const fv_material *material(size_t i)
{
    size_t count;
    return &fv_materials(&count)[i];
}
static size_t material_rows(const void *answer)
{
    size_t count;
    (void)answer;
    fv_materials(&count);
    return count;
}
ROW(material_row, material(i))

static const print_field material_fields[] = {
    TEXT(fv_material, "material", name, IN_ALL),
    NUMBER(fv_material, "conductivity", conductivity, "_w_m_k", IN_ALL, FV_SHOW_NUMBER),
    NUMBER(fv_material, "density", density, "_kg_m3", IN_ALL, FV_SHOW_NUMBER),
    NUMBER(fv_material, "specific_heat", specific_heat, "_j_kg_k", IN_ALL, FV_SHOW_NUMBER),
    NUMBER(fv_material, "roughness", roughness, "_m", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_material, "most", most, "_k", IN_ALL, FV_SHOW_TEMPERATURE),
    TEXT(fv_material, "source", source, IN_DATA),
};

static const fv_fitting_entry *fitting(size_t i)
{
    size_t count;
    return &fv_fittings(&count)[i];
}
static size_t fitting_rows(const void *answer)
{
    size_t count;
    (void)answer;
    fv_fittings(&count);
    return count;
}
ROW(fitting_row, fitting(i))

static const print_field fitting_fields[] = {
    TEXT(fv_fitting_entry, "fitting", name, IN_ALL),
    NUMBER(fv_fitting_entry, "n", n, "", IN_ALL, FV_SHOW_NUMBER),
    NUMBER(fv_fitting_entry, "k", k, "", IN_ALL, FV_SHOW_NUMBER),
    FLAG(fv_fitting_entry, "valve", valve, IN_ALL),
    TEXT(fv_fitting_entry, "source", source, IN_DATA),
};

/* ---- attributes ---- */

/* The attribute in row i over all elements, and its element. */
static const fv_attr *attribute(size_t i, const fv_element **element)
{
    size_t count;
    const fv_element *all = fv_schema(&count);
    for (size_t e = 0; e < count; i -= all[e++].attr_count) {
        if (i < all[e].attr_count) {
            *element = &all[e];
            return &all[e].attrs[i];
        }
    }
    *element = &all[0];
    return &all[0].attrs[0];
}
static size_t attribute_rows(const void *answer)
{
    size_t count, rows = 0;
    const fv_element *all = fv_schema(&count);
    (void)answer;
    for (size_t e = 0; e < count; e++)
        rows += all[e].attr_count;
    return rows;
}
static const void *attribute_row(const void *answer, size_t i)
{
    const fv_element *element;
    (void)answer;
    return attribute(i, &element);
}
static const void *attribute_element(const void *answer, size_t i)
{
    const fv_element *element;
    (void)answer;
    attribute(i, &element);
    return element;
}
static const char *attribute_dimension(const void *answer, size_t i, char *buffer)
{
    const fv_attr *attr = attribute_row(answer, i);
    (void)buffer;
    return attr->dim == FV_DIM_WORD ? attr->words : fv_dim_name(attr->dim);
}
WORD_OF(attribute_unit, fv_dim_si_unit(((const fv_attr *)attribute_row(answer, i))->dim))
/* What known="NAME:..." and spread="NAME:..." may say of it; "": they may not speak of it. */
static const char *attribute_known(const void *answer, size_t i, char *buffer)
{
    (void)buffer;
    return fv_attr_takes(attribute_row(answer, i), FV_SAYS_KNOWN) ? fv_provenance_attr(FV_SAYS_KNOWN)->words : "";
}
static const char *attribute_spread(const void *answer, size_t i, char *buffer)
{
    const fv_attr *attr = attribute_row(answer, i);
    (void)buffer;
    return !fv_attr_takes(attr, FV_SAYS_SPREAD) ? "" : attr->dim == FV_DIM_TEMPERATURE ? "K" : "%|factor";
}

static const print_field attribute_fields[] = {
    PART_TEXT(fv_element, "element", name, IN_DATA),
    TEXT(fv_attr, "attribute", name, IN_DATA),
    WORD("dimension", IN_DATA, attribute_dimension),
    FLAG(fv_attr, "required", required, IN_DATA),
    NUMBER(fv_attr, "default_si", fallback, "", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_attr, "least_si", least, "", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_attr, "most_si", most, "", IN_DATA, FV_SHOW_NUMBER),
    WORD("unit", IN_DATA, attribute_unit),
    WORD("known", IN_DATA, attribute_known),
    WORD("spread", IN_DATA, attribute_spread),
    TEXT(fv_attr, "doc", doc, IN_DATA),
};

/* ---- media: the words that a load can name, with what the schema says about them ---- */

static const fv_attr *medium(void)
{
    return fv_attr_find(fv_element_find("load"), "medium");
}
static size_t medium_rows(const void *answer)
{
    size_t rows = 1;
    (void)answer;
    for (const char *word = medium()->words; (word = strchr(word, '|')); word++)
        rows++;
    return rows;
}
WORD_OF(medium_word, fv_word_at(medium()->words, (int)i, buffer, PRINT_WORD_SIZE))

static const print_field medium_fields[] = {WORD("medium", IN_ALL, medium_word)};

enum { LIST_MATERIALS, LIST_FITTINGS, LIST_MEDIA, LIST_ATTRIBUTES, LISTS };
static const print_table tables[LISTS] = {
    [LIST_MATERIALS] = {"materials", FIELDS(material_fields), material_rows, material_row, NULL},
    [LIST_FITTINGS] = {"fittings", FIELDS(fitting_fields), fitting_rows, fitting_row, NULL},
    [LIST_MEDIA] = {"media", FIELDS(medium_fields), medium_rows, NULL, NULL},
    [LIST_ATTRIBUTES] = {"attributes", FIELDS(attribute_fields), attribute_rows, attribute_row, attribute_element},
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
    fv_text_add(out, "\n");
    for (fv_provenance i = FV_SAYS_KNOWN; i < FV_SAYS; i++)
        print_sayf(out, "", "Any element: %s: %s.", fv_provenance_attr(i)->name, fv_provenance_attr(i)->doc);
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

static void source_text(const char *name, const char *source, fv_text *out)
{
    print_sayf(out, "  ", "%s: %s", name, source);
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
        print_section(out, "Sources"); /* below the numbers, where they need not be cut */
        for (size_t i = 0; i < material_rows(NULL); i++)
            source_text(material(i)->name, material(i)->source, out);
        break;
    default:
        print_table_text(&tables[list], NULL, units, out);
        print_paragraph(out, "  ",
                        "K = n f_T on the line's bore, f_T the friction factor of that bore when fully "
                        "rough; or k as it is. A valve's figure is that of the open valve.");
        print_section(out, "Sources");
        for (size_t i = 0; i < fitting_rows(NULL); i++)
            source_text(fitting(i)->name, fitting(i)->source, out);
    }
}

fv_status fv_report_list(const char *list, const fv_report_options *options, fv_text *out)
{
    if (!list)
        return FV_FAIL;
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
