/* SPDX-License-Identifier: MIT */
/* What everything that is printed shares: formats, units and clock of an answer, lists of what a plant file can name,
 * and faults as people read them. Every function only appends to `out`; when memory runs out, `out->failed` is true,
 * FV_FAIL comes back and nothing of `out` should be used. */
#ifndef FARVESSEL_PRINT_H
#define FARVESSEL_PRINT_H

#include "farvessel/base.h"
#include "farvessel/units.h"

FV_C_BEGIN

#define FV_VERSION "0.1.0"
#define FV_DATE "2026-11-30" /* of that version */

/* The text is made for a terminal this wide; no row is longer. */
#define FV_REPORT_WIDTH 80

typedef enum { FV_REPORT_TEXT, FV_REPORT_JSON, FV_REPORT_CSV } fv_report_format;
#define FV_REPORT_FORMATS "text|json|csv"

typedef struct {
    fv_report_format format;
    fv_unit_system units; /* of the text, and of the sentences in the JSON; numbers in JSON and CSV are SI */
    const char *table;    /* CSV: which table; NULL: the first */
    double clock;         /* s after midnight at which a run in time begins; NaN: times count from its start */
    bool twelve_hours;    /* "6:30 am" */
    bool brief;           /* text: no more than the answer and its table, 20 lines at most */
    bool cautions;        /* text: all words of the cautions, not a line for each */
    bool series;          /* JSON of a run in time: its samples, too */
    const struct fv_assumed_answer *assumed;   /* of check and heat: which assumptions matter most; NULL: not known */
    const struct fv_overheat_answer *overheat; /* of heat: what keeps loads below their limits; NULL: not asked */
    const struct fv_lid_answer *lids;          /* of check, flow, heat and why: JSON and CSV show it; NULL: not asked */
    const struct fv_choices_answer *odds;      /* how sure the answer is; NULL: not asked */
} fv_report_options;
void fv_report_defaults(fv_report_options *options); /* text, metric, no clock */

/* What can be named in a plant file: "materials", "fittings", "media" or "attributes". FV_FAIL: no such list. */
#define FV_REPORT_LISTS "materials|fittings|media|attributes"
fv_status fv_report_list(const char *list, const fv_report_options *options, fv_text *out);

/* Errors and cautions as people read them, one line each: `plant.xml:12: what is wrong`. */
void fv_report_faults(const fv_faults *faults, fv_text *out);
/* What is left in a whole answer that commands a terminal becomes '?'; line ends and tabs stay. */
void fv_report_safe(fv_text *text);

FV_C_END

#endif
