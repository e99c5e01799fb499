/* SPDX-License-Identifier: MIT */
/* Floor 7: answers to text, JSON and CSV. Nothing is computed here: what is printed stands in the answer, and a number
 * of the text has the same name as in the JSON. Every function only appends to `out`; when memory runs out,
 * `out->failed` is true, FV_FAIL comes back and nothing of `out` should be used. */
#ifndef FARVESSEL_REPORT_H
#define FARVESSEL_REPORT_H

#include "farvessel/base.h"
#include "farvessel/model.h"
#include "farvessel/steady.h"
#include "farvessel/units.h"

#define FV_VERSION "0.1.0"

/* The text is made for a terminal this wide; no row is longer. */
#define FV_REPORT_WIDTH 80

typedef enum { FV_REPORT_TEXT, FV_REPORT_JSON, FV_REPORT_CSV } fv_report_format;
#define FV_REPORT_FORMATS "text|json|csv"

typedef struct {
    fv_report_format format;
    fv_unit_system units; /* of the text, and of the sentences in the JSON; numbers in JSON and CSV are SI */
    const char *table;    /* CSV: which table; NULL: the first */
} fv_report_options;
void fv_report_defaults(fv_report_options *options); /* text, metric */

/* Tables that CSV can give. */
#define FV_REPORT_CHECK_TABLES "values|vessels|joints"
#define FV_REPORT_FLOW_TABLES "vessels|lines|boilers|nodes|holes|turndown"

/* `remarks` are the cautions that reader and solver left (may be NULL); errors in it are not repeated. */
fv_status fv_report_check(const fv_check_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                          fv_text *out);
fv_status fv_report_flow(const fv_flow_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                         fv_text *out);

/* What can be named in a plant file: "materials", "fittings", "media" or "attributes". FV_FAIL: no such list. */
#define FV_REPORT_LISTS "materials|fittings|media|attributes"
fv_status fv_report_list(const char *list, const fv_report_options *options, fv_text *out);

/* Errors and cautions as people read them, one line each: `plant.xml:12: what is wrong`. */
void fv_report_faults(const fv_faults *faults, fv_text *out);

#endif
