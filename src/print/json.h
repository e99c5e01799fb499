/* SPDX-License-Identifier: MIT */
/* Small helpers on Jansson. A NULL value stands for lack of memory; print_json_set passes it on to the root, so only
 * the root need be tested at the end. */
#ifndef PRINT_JSON_H
#define PRINT_JSON_H

#include "farvessel/model.h"
#include "print/names.h"

#include <jansson.h>

json_t *print_json_number(double value);   /* null for NaN */
json_t *print_json_word(const char *word); /* null for NULL or what is no UTF-8 */
json_t *print_json_text(const char *text); /* always a text: what is no UTF-8 as question marks */
json_t *print_json_names(const print_names *names);
/* {"program", "version", "kind", "plant": {"file", "title"}} */
json_t *print_json_head(const char *kind, const fv_plant *plant);
/* Takes over `value`. Where that fails the root is released and becomes NULL. */
void print_json_set(json_t **root, const char *key, json_t *value);
/* The same for arrays. */
void print_json_append(json_t **root, json_t *value);
/* Adds the indented text of `root` to `out` and releases it. */
fv_status print_json_finish(json_t *root, fv_text *out);

#endif
