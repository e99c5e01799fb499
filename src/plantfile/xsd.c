/* SPDX-License-Identifier: MIT */
/* The XSD: as it is built in, and as it follows from the schema's tables. Quantities are plain strings
 * to it; what they may be is said in the annotations and checked, with better messages, by the reader. */
#include "farvessel/plantfile.h"
#include "model/contains.h"
#include "plantfile/encoding.h"
#include "plantfile/schema_text.h"

#include <math.h>
#include <string.h>

const char *fv_plantfile_xsd(size_t *length)
{
    if (!length)
        return NULL;
    *length = plantfile_schema_length;
    return (const char *)plantfile_schema_text;
}

static void add_document(fv_text *out, int depth, const char *text)
{
    fv_text_add(out, "%*s<xs:annotation><xs:documentation>", depth, "");
    plantfile_escape(text, '"', out);
    fv_text_add(out, "</xs:documentation></xs:annotation>\n");
}

static void add_limit(fv_text *doc, const char *what, fv_dim dim, double si)
{
    if (isnan(si))
        return;
    fv_text_add(doc, "%s ", what);
    if (!fv_quantity_write(dim, si, doc))
        fv_text_add(doc, "%g", si);
}

void fv_plantfile_describe(const fv_attr *attr, fv_text *out)
{
    if (!attr || !out)
        return;
    fv_text_add(out, "%s.", attr->doc);
    if (attr->dim != FV_DIM_WORD && !model_is_text(attr)) {
        fv_text_add(out, " It is %s, such as %s.", fv_dim_name(attr->dim), fv_dim_example(attr->dim));
        add_limit(out, " Default", attr->dim, attr->fallback);
        if (!isnan(attr->fallback))
            fv_text_add(out, ".");
        add_limit(out, " At least", attr->dim, attr->least);
        add_limit(out, isnan(attr->least) ? " At most" : ", at most", attr->dim, attr->most);
        if (!isnan(attr->least) || !isnan(attr->most))
            fv_text_add(out, ".");
    }
}

static void add_attr_document(fv_text *out, const fv_attr *attr)
{
    fv_text doc = {0};
    fv_plantfile_describe(attr, &doc);
    if (!doc.failed)
        add_document(out, 6, doc.text);
    out->failed = out->failed || doc.failed;
    fv_text_free(&doc);
}

/* Names must be there. Of the rest, what may come from a kind or from the part it is like cannot be required. */
static bool is_required(const fv_element *element, const fv_attr *attr)
{
    bool taken_over =
        fv_attr_find(element, "like") || element == model_element(EL_COIL) || element == model_element(EL_SHELL);
    return attr->required && (attr->dim == FV_DIM_ID || !taken_over);
}

static void add_words(fv_text *out, const char *words)
{
    fv_text_add(out, "      <xs:simpleType><xs:restriction base=\"xs:token\">\n");
    while (*words) {
        size_t n = strcspn(words, "|");
        fv_text_add(out, "        <xs:enumeration value=\"%.*s\"/>\n", (int)n, words);
        words += n + (words[n] == '|');
    }
    fv_text_add(out, "      </xs:restriction></xs:simpleType>\n");
}

static void add_attr(fv_text *out, const fv_element *element, const fv_attr *attr)
{
    bool words = attr->dim == FV_DIM_WORD;
    fv_text_add(out, "    <xs:attribute name=\"%s\"%s%s>\n", attr->name, words ? "" : " type=\"xs:string\"",
                is_required(element, attr) ? " use=\"required\"" : "");
    add_attr_document(out, attr);
    if (words)
        add_words(out, attr->words);
    fv_text_add(out, "    </xs:attribute>\n");
}

/* "stock/hose" is the type stock-hose. */
static void add_type_name(fv_text *out, const char *element)
{
    for (; *element; element++)
        fv_text_add(out, "%c", *element == '/' ? '-' : *element);
}

static void add_children(fv_text *out, const fv_element *element)
{
    const model_slot *first = model_slot_next(element, NULL);
    if (first)
        fv_text_add(out, "    <xs:choice minOccurs=\"0\" maxOccurs=\"unbounded\">\n");
    for (const model_slot *s = first; s; s = model_slot_next(element, s))
        for (const fv_element *e = model_element(s->first); e <= model_element(s->last); e++) {
            fv_text_add(out, "      <xs:element name=\"%s\" type=\"", model_tag(e));
            add_type_name(out, e->name);
            fv_text_add(out, "\"/>\n");
        }
    if (first)
        fv_text_add(out, "    </xs:choice>\n");
}

static void add_type(fv_text *out, const fv_element *element)
{
    fv_text_add(out, "  <xs:complexType name=\"");
    add_type_name(out, element->name);
    fv_text_add(out, "\">\n");
    add_document(out, 4, element->doc);
    add_children(out, element);
    for (size_t i = 0; i < element->attr_count; i++)
        add_attr(out, element, &element->attrs[i]);
    fv_text_add(out, "    <xs:attribute name=\"known\" type=\"known\"/>\n    <xs:attribute name=\"spread\" "
                     "type=\"spread\"/>\n  </xs:complexType>\n");
}

bool fv_plantfile_make_xsd(fv_text *out)
{
    if (!out)
        return false;
    size_t count;
    const fv_element *all = fv_schema(&count);
    fv_text_add(out,
                "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                "<!-- Made from the program's own table of attributes; a test holds the two together. -->\n"
                "<xs:schema xmlns:xs=\"http://www.w3.org/2001/XMLSchema\" xmlns=\"%s\"\n"
                "    targetNamespace=\"%s\" elementFormDefault=\"qualified\">\n"
                "  <xs:element name=\"network\" type=\"network\"/>\n",
                FV_PLANTFILE_NAMESPACE, FV_PLANTFILE_NAMESPACE);
    for (fv_provenance i = FV_SAYS_KNOWN; i < FV_SAYS; i++) {
        fv_text_add(out, "  <xs:simpleType name=\"%s\">\n", fv_provenance_attr(i)->name);
        add_document(out, 4, fv_provenance_attr(i)->doc);
        fv_text_add(out, "    <xs:restriction base=\"xs:string\"/>\n  </xs:simpleType>\n");
    }
    for (size_t i = 0; i < count; i++)
        add_type(out, &all[i]);
    fv_text_add(out, "</xs:schema>\n");
    return !out->failed;
}
