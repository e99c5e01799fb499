/* SPDX-License-Identifier: MIT */
/* Holds a plant file against the XSD with libxml2, which reading itself does without. */
#ifndef TESTS_PLANTFILE_AGAINST_XSD_H
#define TESTS_PLANTFILE_AGAINST_XSD_H

#include "farvessel/plantfile.h"

#include <libxml/parser.h>
#include <libxml/xmlschemas.h>

static void xsd_is_silent(void *context, xmlErrorPtr error)
{
    (void)context, (void)error;
}

/* NULL: out of memory, or the XSD is none. Free with xmlSchemaFree. */
static xmlSchemaPtr xsd_load(void)
{
    size_t length;
    const char *text = fv_plantfile_xsd(&length);
    xmlSchemaParserCtxtPtr reader = xmlSchemaNewMemParserCtxt(text, (int)length);
    xmlSchemaPtr schema = reader ? xmlSchemaParse(reader) : NULL;
    xmlSchemaFreeParserCtxt(reader);
    return schema;
}

static bool xsd_allows(xmlSchemaPtr schema, const char *bytes, size_t length)
{
    xmlSetStructuredErrorFunc(NULL, xsd_is_silent);
    xmlSchemaValidCtxtPtr validator = xmlSchemaNewValidCtxt(schema);
    xmlDocPtr doc = xmlReadMemory(bytes, (int)length, "x.xml", NULL, XML_PARSE_NONET);
    bool valid = validator && doc && xmlSchemaValidateDoc(validator, doc) == 0;
    xmlFreeDoc(doc);
    xmlSchemaFreeValidCtxt(validator);
    xmlSetStructuredErrorFunc(NULL, NULL);
    return valid;
}

#endif
