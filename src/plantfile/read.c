/* SPDX-License-Identifier: MIT */
/* A plant from a file: bytes, tree, parts, links; and all their faults in one list. */
#include "plantfile/attributes.h"
#include "plantfile/bytes.h"
#include "plantfile/encoding.h"
#include "plantfile/limits.h"

#include "model/contains.h"
#include "model/near.h"

#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { NAME = 280 };

static const char *id_of(const tree_node *node)
{
    for (const tree_attr *a = node->attrs; a; a = a->next)
        if (strcmp(a->name, "id") == 0 && *a->value)
            return a->value;
    return NULL;
}

/* "hose 's6'", "coil of vessel 'bin1'", "site" */
static const char *name_of(const tree_node *node, char *buffer, size_t size)
{
    const char *id = id_of(node);
    const tree_node *owner = node->parent;
    if (id) {
        snprintf(buffer, size, "%s '%s'", fv_shorten(node->name, 40).text, fv_shorten(id, 40).text);
        return buffer;
    }
    while (owner && !id_of(owner))
        owner = owner->parent;
    if (owner)
        snprintf(buffer, size, "%s of %s '%s'", fv_shorten(node->name, 40).text, fv_shorten(owner->name, 40).text,
                 fv_shorten(id_of(owner), 40).text);
    else
        snprintf(buffer, size, "%s", fv_shorten(node->name, 40).text);
    return buffer;
}

/* The tags of what may stand in `parent`. */
static void list_children(const fv_element *parent, model_near *near, fv_text *all)
{
    for (const model_slot *s = model_slot_next(parent, NULL); s; s = model_slot_next(parent, s))
        for (const fv_element *e = model_element(s->first); e <= model_element(s->last); e++) {
            model_near_try(near, model_tag(e));
            fv_text_add(all, "%s%s", all->length ? ", " : "", model_tag(e));
        }
}

/* "<header>, <pipe>": where an element of that tag may stand. */
static void list_owners(const char *tag, fv_text *places)
{
    size_t count;
    const fv_element *all = fv_schema(&count), *child;
    for (size_t i = 0; i < count; i++)
        if (model_slot_find(&all[i], tag, &child))
            fv_text_add(places, "%s<%s>", places->length ? ", " : "", all[i].name);
}

static void say_unknown_child(reading *r, const fv_element *parent, const tree_node *node)
{
    char hint[NAME];
    model_near near = model_near_start(node->name);
    fv_text all = {0}, places = {0};
    list_children(parent, &near, &all);
    list_owners(node->name, &places);
    if (places.length)
        plantfile_reading_say(r, node->line, "<%s> does not belong in <%s>, but in %s", fv_shorten(node->name, 40).text,
                              parent->name, places.text);
    else if (near.best)
        plantfile_reading_say(r, node->line, "no element is called <%s>%s", fv_shorten(node->name, 40).text,
                              model_near_hint(&near, hint, sizeof hint));
    else if (all.length)
        plantfile_reading_say(r, node->line, "no element is called <%s>; in <%s> there can be: %s",
                              fv_shorten(node->name, 40).text, parent->name, all.text);
    else
        plantfile_reading_say(r, node->line, "<%s> inside <%s>, which holds no elements",
                              fv_shorten(node->name, 40).text, parent->name);
    fv_text_free(&all);
    fv_text_free(&places);
}

static bool is_ours(const tree_node *node)
{
    return node->space && strcmp(node->space, FV_PLANTFILE_NAMESPACE) == 0;
}

/* The line of an earlier sibling of that name; 0: none. */
static int line_of_first(const tree_node *node)
{
    for (const tree_node *n = node->parent->child; n != node; n = n->next)
        if (strcmp(n->name, node->name) == 0 && is_ours(n))
            return n->line;
    return 0;
}

static void read_element(reading *r, const tree_node *node)
{
    char who[NAME];
    name_of(node, who, sizeof who);
    plantfile_attributes_read(r, who, node->element, node->part, node);
    plantfile_spread_read(r, who, node);
    if (node->stray)
        plantfile_reading_say(r, node->stray_line,
                              "%s: stray text '%s'; values are written as attributes, name=\"value\"", who,
                              node->stray);
}

/* Where to go on after a node without stepping into it (or with, if it was read): the tree is walked without recursion
 * on the stack of the machine, although its depth is limited. */
static tree_node *step(tree_node *node, const tree_node *root, bool inside)
{
    if (inside && node->child)
        return node->child;
    while (node != root && !node->next)
        node = node->parent;
    return node == root ? NULL : node->next;
}

/* False: there is too much of it, which ends the reading. */
static bool is_within_limits(reading *r, const fv_element *element, tree_node *node)
{
    size_t most = r->limits->inside_most;
    const char *what = plantfile_count(r->limits, &r->counts, element->name, &most);
    const fv_element *parent = node->parent->element;
    const bool inside_one =
        parent != model_element(EL_NETWORK) && parent != model_element(EL_STOCK) && parent != model_element(EL_SITE);
    if (!what && inside_one && ++node->parent->parts > most)
        what = "parts inside one part";
    if (!what)
        return true;
    plantfile_reading_say(r, node->line, "more than %zu %s; no plant file may hold so many", most, what);
    r->ended = true;
    return false;
}

/* False: it is not read, and what is inside neither. In a broken file (`broken`) elements may have slipped into one
 * that was never closed, so nothing is said of where they stand. */
static bool read_child(reading *r, tree_node *node, bool broken)
{
    char who[NAME];
    const fv_element *parent = node->parent->element, *element;
    const model_slot *slot = is_ours(node) ? model_slot_find(parent, node->name, &element) : NULL;
    if (!slot && broken)
        return false;
    if (!is_ours(node)) {
        plantfile_reading_say(r, node->line, "<%s> is of another namespace, %s; a plant is all of xmlns=\"%s\"",
                              fv_shorten(node->name, 40).text, node->space ? fv_shorten(node->space, 80).text : "none",
                              FV_PLANTFILE_NAMESPACE);
        return false;
    }
    if (!slot) {
        say_unknown_child(r, parent, node);
        return false;
    }
    int first = slot->count == MODEL_ONCE && !broken ? line_of_first(node) : 0;
    if (first) {
        plantfile_reading_say(r, node->line, "%s: there can be only one, and one stands in line %d",
                              name_of(node, who, sizeof who), first);
        return false;
    }
    if (!is_within_limits(r, element, node))
        return false;
    node->element = element;
    node->part = model_add(r->plant, node->parent->part, slot, element, (fv_loc){r->file, node->line});
    if (!node->part) {
        plantfile_reading_no_memory(r);
        return false;
    }
    read_element(r, node);
    return true;
}

/* So many faults that reading on helps nobody. */
static bool is_enough(const reading *r)
{
    return r->ended || r->said > r->most;
}

static void read_tree(reading *r, tree_node *root, bool broken)
{
    r->plant->loc.line = r->plant->site.part.loc.line = root->line;
    root->element = model_element(EL_NETWORK);
    root->part = r->plant;
    read_element(r, root);
    bool inside = true;
    for (tree_node *node = step(root, root, true); node && !is_enough(r); node = step(node, root, inside))
        inside = read_child(r, node, broken);
}

static bool has_right_root(reading *r, const tree_node *root)
{
    if (strcmp(root->name, "network") != 0) {
        plantfile_reading_say(r, root->line, "the file begins with <%s>; a plant begins with <network xmlns=\"%s\">",
                              fv_shorten(root->name, 40).text, FV_PLANTFILE_NAMESPACE);
        return false;
    }
    if (is_ours(root))
        return true;
    if (root->space)
        plantfile_reading_say(r, root->line, "<network> has xmlns=\"%s\"; this program reads xmlns=\"%s\"",
                              fv_shorten(root->space, 80).text, FV_PLANTFILE_NAMESPACE);
    else
        plantfile_reading_say(r, root->line, "<network> has no xmlns; write <network xmlns=\"%s\">",
                              FV_PLANTFILE_NAMESPACE);
    return false;
}

/* Adds what linking found, errors and cautions up to the limit. */
static void link_plant(reading *r)
{
    fv_faults *found = fv_faults_new();
    if (!found) {
        plantfile_reading_no_memory(r);
        return;
    }
    fv_plant_link(r->plant, found); /* whether it succeeded shows in the faults */
    fv_faults_sort(found);
    size_t cautions = 0;
    for (size_t i = 0; i < fv_faults_count(found); i++) {
        const fv_fault *f = fv_faults_at(found, i);
        cautions += f->caution;
        if (!f->caution && f->blame == FV_ERR_SYSTEM)
            plantfile_reading_no_memory(r);
        else if (!f->caution)
            plantfile_reading_say(r, f->line, "%s", f->text);
        else if (cautions <= r->most)
            fv_caution(r->faults, f->blame, (fv_loc){f->file, f->line}, "%s", f->text);
        else if (cautions == r->most + 1)
            fv_caution(r->faults, f->blame, (fv_loc){f->file, f->line},
                       "more than %zu cautions; the rest is not listed", r->most);
    }
    fv_faults_free(found);
}

/* From bytes to a linked plant in r->plant. */
static void read_bytes(reading *r, const char *bytes, size_t length, const fv_plantfile_limits *limits)
{
    tree t = {.arena = fv_arena_new(), .file = r->file, .limits = limits, .faults = r->faults};
    char *made = NULL;
    const char *text = NULL;
    bool whole = false;
    if (!t.arena)
        plantfile_reading_no_memory(r);
    else if (length == 0)
        plantfile_reading_say(r, 1, "the file is empty; a plant begins with <network xmlns=\"%s\">",
                              FV_PLANTFILE_NAMESPACE);
    else
        text = plantfile_utf8(bytes, &length, r->file, &made, r->faults);
    if (text && plantfile_bytes_are_fair(text, length, r->file, r->faults))
        whole = plantfile_tree_parse(&t, text, length);
    free(made);
    /* What stands before a break in the XML is read, too, so that its faults are said in the same run. */
    if (t.root && (whole || t.broken) && has_right_root(r, t.root)) {
        read_tree(r, t.root, t.broken);
        if (whole && !is_enough(r))
            link_plant(r);
    }
    fv_arena_free(t.arena);
}

fv_plant *fv_plantfile_read_memory(const char *bytes, size_t length, const char *name,
                                   const fv_plantfile_limits *limits, fv_faults *faults)
{
    const fv_plantfile_limits usual = fv_plantfile_limits_default();
    if (!limits)
        limits = &usual;
    if (length > limits->bytes_most || length > INT_MAX / 2) { /* the parser counts in int, and it may double */
        fv_error(faults, FV_ERR_INPUT, (fv_loc){name, 0}, "longer than the limit of %zu bytes", limits->bytes_most);
        return NULL;
    }
    fv_faults *found = fv_faults_new();
    fv_plant *plant = fv_plant_new(name);
    fv_units *units = plant && found ? fv_units_new(found) : NULL;
    if (units) {
        plant->taken_most = limits->taken_most;
        reading r = {.plant = plant,
                     .units = units,
                     .faults = found,
                     .file = plant->file,
                     .limits = limits,
                     .most = limits->faults_most};
        read_bytes(&r, bytes, length, limits);
    } else if (!plant || !found) {
        fv_error(faults, FV_ERR_SYSTEM, (fv_loc){name, 0}, "out of memory");
    }
    fv_units_free(units);
    fv_faults_sort(found);
    for (size_t i = 0; i < fv_faults_count(found); i++) {
        const fv_fault *f = fv_faults_at(found, i);
        (f->caution ? fv_caution : fv_error)(faults, f->blame, (fv_loc){f->file, f->line}, "%s", f->text);
    }
    if (!units || fv_faults_errors(found) > 0) {
        fv_plant_free(plant);
        plant = NULL;
    }
    fv_faults_free(found);
    return plant;
}

fv_plant *fv_plantfile_read(const char *path, const fv_plantfile_limits *limits, fv_faults *faults)
{
    const fv_plantfile_limits usual = fv_plantfile_limits_default();
    size_t length;
    char *bytes = fv_read_whole(path, limits ? limits->bytes_most : usual.bytes_most, &length, faults);
    if (!bytes)
        return NULL;
    const char *name = strcmp(path, "-") == 0 ? "standard input" : path;
    fv_plant *plant = fv_plantfile_read_memory(bytes, length, name, limits, faults);
    free(bytes);
    return plant;
}
