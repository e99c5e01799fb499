/* SPDX-License-Identifier: MIT */
/* Small helpers on Jansson. Its packing functions release what they were given when they fail. */
#include "report/json.h"

#include "farvessel/report.h"

#include <math.h>
#include <stdlib.h>

json_t *report_json_number(double value)
{
    return isfinite(value) ? json_real(value) : json_null();
}

json_t *report_json_word(const char *word)
{
    json_t *text = word ? json_string(word) : NULL;
    return text ? text : json_null();
}

void report_json_set(json_t **root, const char *key, json_t *value)
{
    if (json_object_set_new(*root, key, value) == 0)
        return;
    json_decref(*root);
    *root = NULL;
}

void report_json_append(json_t **root, json_t *value)
{
    if (json_array_append_new(*root, value) == 0)
        return;
    json_decref(*root);
    *root = NULL;
}

json_t *report_json_names(const report_names *names)
{
    json_t *array = json_array();
    for (size_t i = 0; array && i < names->count; i++)
        report_json_append(&array, report_json_word(names->list[i]));
    return array;
}

json_t *report_json_head(const char *kind, const fv_plant *plant)
{
    return json_pack("{s:s, s:s, s:s, s:{s:o, s:o}}", "program", "farvessel", "version", FV_VERSION, "kind", kind,
                     "plant", "file", report_json_word(plant->file), "title", report_json_word(plant->title));
}

fv_status report_json_finish(json_t *root, fv_text *out)
{
    char *text = root ? json_dumps(root, JSON_INDENT(2) | JSON_REAL_PRECISION(15)) : NULL;
    json_decref(root);
    if (text)
        fv_text_add(out, "%s\n", text);
    else
        out->failed = true;
    free(text);
    return out->failed ? FV_FAIL : FV_OK;
}
