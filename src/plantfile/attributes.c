/* SPDX-License-Identifier: MIT */
/* Attribute texts to values of a part. */
#include "plantfile/attributes.h"

#include "model/near.h"
#include "model/schema.h"

#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { SAY = 200, SHOWN = 60 };

void plantfile_reading_say(reading *r, int line, const char *fmt, ...)
{
    va_list args;
    fv_text text = {0};
    r->said++;
    if (r->said > r->most + 1)
        return;
    if (r->said > r->most) {
        fv_error(r->faults, FV_ERR_INPUT, (fv_loc){r->file, line}, "more than %zu faults; the rest is not listed",
                 r->most);
        return;
    }
    va_start(args, fmt);
    fv_text_addv(&text, fmt, args);
    va_end(args);
    if (text.failed)
        plantfile_reading_no_memory(r);
    else
        fv_error(r->faults, FV_ERR_INPUT, (fv_loc){r->file, line}, "%s", text.text);
    fv_text_free(&text);
}

void plantfile_reading_no_memory(reading *r)
{
    if (!r->ended)
        fv_error(r->faults, FV_ERR_SYSTEM, (fv_loc){r->file, 0}, "out of memory");
    r->said++;
    r->ended = true;
}

/* Letters of any script, digits, - _ and . but nothing that a terminal would obey. */
static bool is_name(const char *text)
{
    const bool empty = *text == '\0';
    while (*text) {
        unsigned code;
        const size_t bytes = fv_utf8_read(text, &code);
        if (bytes == 0 || !fv_utf8_is_text(code))
            return false;
        if (code < 0x80 && !isalnum((int)code) && !strchr("-_.", (int)code))
            return false;
        text += bytes;
    }
    return !empty;
}

static char *trimmed(const char *text)
{
    while (isspace((unsigned char)*text))
        text++;
    size_t n = strlen(text);
    while (n > 0 && isspace((unsigned char)text[n - 1]))
        n--;
    char *made = malloc(n + 1);
    if (made) {
        memcpy(made, text, n);
        made[n] = '\0';
    }
    return made;
}

static bool read_text(reading *r, const char *who, const fv_attr *attr, void *part, const char *text, int line)
{
    if (*text == '\0') {
        if (!attr->required) /* what is required and empty counts as missing, which linking says */
            plantfile_reading_say(r, line, "%s: %s is empty; %s", who, attr->name, attr->doc);
        return attr->required;
    }
    if (attr->dim == FV_DIM_ID && !is_name(text)) {
        plantfile_reading_say(r, line,
                              "%s: %s=\"%s\" is no name; letters, digits, - _ and . make one, such as \"bin-1\"", who,
                              attr->name, fv_shorten(text, SHOWN).text);
        return false;
    }
    *fv_attr_text(part, attr) = fv_arena_copy(r->plant->arena, text);
    if (*fv_attr_text(part, attr))
        return true;
    plantfile_reading_no_memory(r);
    return false;
}

/* "with|back|drip" as "with, back or drip" */
static void list_words(const char *words, fv_text *out)
{
    while (*words) {
        size_t n = strcspn(words, "|");
        const char *after = words + n + (words[n] == '|');
        bool last = *after && !strchr(after, '|');
        fv_text_add(out, "%.*s%s", (int)n, words, !*after ? "" : last ? " or " : ", ");
        words = after;
    }
}

static bool read_word(reading *r, const char *who, const fv_attr *attr, const char *text, double *v, int line)
{
    int index = fv_word_find(attr->words, text);
    *v = index;
    if (index >= 0)
        return true;
    fv_text words = {0};
    list_words(attr->words, &words);
    plantfile_reading_say(r, line, "%s: %s=\"%s\"; it must be %s (%s)", who, attr->name, fv_shorten(text, SHOWN).text,
                          words.text ? words.text : attr->words, attr->doc);
    fv_text_free(&words);
    return false;
}

static bool read_quantity(reading *r, const char *who, const fv_attr *attr, const char *text, double *v, int line)
{
    char *why = NULL;
    if (fv_quantity_parse(r->units, attr->dim, text, v, &why) == FV_OK)
        return true;
    if (why)
        plantfile_reading_say(r, line, "%s: %s=\"%s\": %s", who, attr->name, fv_shorten(text, SHOWN).text, why);
    else
        plantfile_reading_no_memory(r);
    free(why);
    return false;
}

bool plantfile_attribute_read(reading *r, const char *who, const fv_attr *attr, void *part, const char *given,
                              fv_origin origin, int line)
{
    char *text = trimmed(given);
    if (!text) {
        plantfile_reading_no_memory(r);
        return false;
    }
    bool good;
    if (model_is_text(attr)) {
        good = read_text(r, who, attr, part, text, line);
    } else {
        fv_value *value = fv_attr_value(part, attr);
        double v = NAN;
        good = attr->dim == FV_DIM_WORD ? read_word(r, who, attr, text, &v, line)
                                        : read_quantity(r, who, attr, text, &v, line);
        if (good)
            *value = (fv_value){.v = v, .known = value->known, .spread_as = value->spread_as, .spread = value->spread};
        if (good)
            value->origin = (unsigned char)origin;
    }
    free(text);
    return good;
}

/* What was refused counts as said, so that nothing calls it missing; a name is kept as it is, so that what hangs on it
 * is not called unknown. */
static void mark_refused(reading *r, const fv_attr *attr, void *part, const char *given)
{
    if (model_is_text(attr)) {
        *fv_attr_text(part, attr) = fv_arena_copy(r->plant->arena, given);
        if (!*fv_attr_text(part, attr))
            plantfile_reading_no_memory(r);
    } else {
        *fv_attr_value(part, attr) = (fv_value){.v = NAN, .origin = FV_GIVEN, .known = MODEL_REFUSED};
    }
}

static void say_unknown(reading *r, const char *who, const fv_element *element, const tree_attr *given)
{
    char hint[SAY];
    model_near near = model_near_start(given->name);
    model_near_attributes(&near, element);
    for (fv_provenance i = FV_SAYS_KNOWN; i < FV_SAYS; i++)
        model_near_try(&near, fv_provenance_attr(i)->name);
    if (near.best) {
        plantfile_reading_say(r, given->line, "%s: no attribute is called '%s'%s", who,
                              fv_shorten(given->name, SHOWN).text, model_near_hint(&near, hint, sizeof hint));
        return;
    }
    fv_text all = {0};
    for (size_t i = 0; i < element->attr_count; i++)
        fv_text_add(&all, "%s%s", i ? ", " : "", element->attrs[i].name);
    plantfile_reading_say(r, given->line, "%s: no attribute is called '%s'; there are: %s", who,
                          fv_shorten(given->name, SHOWN).text, all.text ? all.text : "none");
    fv_text_free(&all);
}

typedef struct {
    reading *r;
    const char *who;
    const fv_element *element;
    void *part;
    const tree_node *node;
    const tree_attr *says;
} provenance;

void plantfile_not_given(reading *r, const char *who, const tree_node *node, const fv_element *element,
                         const tree_attr *says, const char *name)
{
    char hint[SAY];
    model_near near = model_near_start(name);
    for (const tree_attr *given = node->attrs; given; given = given->next) {
        const fv_attr *attr = fv_attr_find(element, given->name);
        if (attr && !model_is_text(attr))
            model_near_try(&near, attr->name);
    }
    plantfile_reading_say(r, says->line, "%s: %s speaks of '%s', which is not given here%s", who, says->name,
                          fv_shorten(name, SHOWN).text, model_near_hint(&near, hint, sizeof hint));
}

static void set_known(fv_value *value, int word)
{
    if (value->origin == FV_GIVEN && value->known != MODEL_REFUSED)
        value->known = (unsigned char)(FV_KNOWN_TAPE + word);
}

static void known_of_all(const provenance *p, int word)
{
    for (size_t i = 0; i < p->element->attr_count; i++)
        if (!model_is_text(&p->element->attrs[i]))
            set_known(fv_attr_value(p->part, &p->element->attrs[i]), word);
}

/* One piece of known="tape bore:guess". */
static void read_known_piece(const provenance *p, char *piece)
{
    char *colon = strchr(piece, ':');
    int word = fv_word_find(fv_provenance_attr(FV_SAYS_KNOWN)->words, colon ? colon + 1 : piece);
    if (word < 0) {
        plantfile_reading_say(
            p->r, p->says->line,
            "%s: known=\"%s\"; it must be tape, nameplate, probe or guess, for one attribute such as bore:guess",
            p->who, fv_shorten(piece, SHOWN).text);
        return;
    }
    if (!colon) {
        known_of_all(p, word);
        return;
    }
    *colon = '\0';
    const fv_attr *attr = fv_attr_find(p->element, piece);
    if (!attr || model_is_text(attr) || !tree_attr_of(p->node, piece))
        plantfile_not_given(p->r, p->who, p->node, p->element, p->says, piece);
    else
        set_known(fv_attr_value(p->part, attr), word);
}

static void read_known(const provenance *p, const char *text)
{
    char *copy = malloc(strlen(text) + 1), *rest = NULL;
    if (!copy)
        plantfile_reading_no_memory(p->r);
    /* Words for all come first, so that those for one attribute win wherever they stand. */
    for (int single = 0; copy && single < 2; single++) {
        memcpy(copy, text, strlen(text) + 1);
        for (char *piece = strtok_r(copy, " \t\r\n", &rest); piece; piece = strtok_r(NULL, " \t\r\n", &rest))
            if ((strchr(piece, ':') != NULL) == (single == 1))
                read_known_piece(p, piece);
    }
    free(copy);
}

void plantfile_attributes_read(reading *r, const char *who, const fv_element *element, void *part,
                               const tree_node *node)
{
    for (const tree_attr *given = node->attrs; given && r->said <= r->most && !r->ended; given = given->next) {
        const fv_attr *attr = fv_attr_find(element, given->name);
        if (attr) {
            if (!plantfile_attribute_read(r, who, attr, part, given->value, FV_GIVEN, given->line))
                mark_refused(r, attr, part, given->value);
        } else if (strcmp(given->name, "known") != 0 && strcmp(given->name, "spread") != 0) {
            say_unknown(r, who, element, given);
        }
    }
    const tree_attr *known = tree_attr_of(node, "known");
    if (known)
        read_known(&(provenance){r, who, element, part, node, known}, known->value);
}
