/* SPDX-License-Identifier: MIT */
/* Small helpers on Jansson. A NULL value stands for lack of memory; report_json_set passes it on to the root, so only
 * the root need be tested at the end. */
#ifndef REPORT_JSON_H
#define REPORT_JSON_H

#include "farvessel/model.h"
#include "print/names.h"

#include <jansson.h>

json_t *report_json_number(double value);   /* null for NaN */
json_t *report_json_word(const char *word); /* null for NULL or what is no UTF-8 */
json_t *report_json_text(const char *text); /* always a text: what is no UTF-8 as question marks */
json_t *report_json_names(const report_names *names);
/* {"program", "version", "kind", "plant": {"file", "title"}} */
json_t *report_json_head(const char *kind, const fv_plant *plant);
/* Takes over `value`. Where that fails the root is released and becomes NULL. */
void report_json_set(json_t **root, const char *key, json_t *value);
/* The same for arrays. */
void report_json_append(json_t **root, json_t *value);
/* Adds the indented text of `root` to `out` and releases it. */
fv_status report_json_finish(json_t *root, fv_text *out);

#endif
