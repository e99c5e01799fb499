/* SPDX-License-Identifier: MIT */
/* Small helpers on Jansson. Its packing functions release what they were given when they fail. */
#include "print/json.h"
#include "print/safe.h"

#include "farvessel/print.h"

#include <math.h>

json_t *print_json_number(double value)
{
    return isfinite(value) ? json_real(value + 0.0) : json_null(); /* no -0.0 */
}

/* null for no word, and for one that is not UTF-8 (a file may be named so); NULL where memory is out. */
json_t *print_json_word(const char *word)
{
    json_t *text = word ? json_string(word) : json_null();
    for (const char *c = word; !text && *c; c++)
        if ((unsigned char)*c >= 0x80)
            return json_null();
    return text;
}

/* A text that may quote a file's name: where that is not UTF-8, its bytes beyond ASCII become question marks. */
json_t *print_json_text(const char *text)
{
    json_t *whole = json_string(text);
    fv_text plain = {0};
    for (const char *c = text; !whole && *c; c++)
        fv_text_add(&plain, "%c", (unsigned char)*c < 0x80 ? *c : '?');
    if (!whole && plain.text && !plain.failed)
        whole = json_string(plain.text);
    fv_text_free(&plain);
    return whole;
}

void print_json_set(json_t **root, const char *key, json_t *value)
{
    if (json_object_set_new(*root, key, value) == 0)
        return;
    json_decref(*root);
    *root = NULL;
}

void print_json_append(json_t **root, json_t *value)
{
    if (json_array_append_new(*root, value) == 0)
        return;
    json_decref(*root);
    *root = NULL;
}

json_t *print_json_names(const print_names *names)
{
    json_t *array = json_array();
    for (size_t i = 0; array && i < names->count; i++)
        print_json_append(&array, print_json_word(names->list[i]));
    return array;
}

json_t *print_json_head(const char *kind, const fv_plant *plant)
{
    return json_pack("{s:s, s:s, s:s, s:{s:o, s:o}}", "program", "farvessel", "version", FV_VERSION, "kind", kind,
                     "plant", "file", print_json_word(plant->file), "title", print_json_word(plant->title));
}

static int take(const char *bytes, size_t length, void *out)
{
    print_safe_json(bytes, length, out);
    return ((fv_text *)out)->failed ? -1 : 0;
}

/* Not with json_dumps, which drops a key and goes on where its own text cannot grow. */
fv_status print_json_finish(json_t *root, fv_text *out)
{
    if (!root || json_dump_callback(root, take, out, JSON_INDENT(2) | JSON_REAL_PRECISION(15)) != 0)
        out->failed = true;
    json_decref(root);
    fv_text_add(out, "\n");
    return out->failed ? FV_FAIL : FV_OK;
}
