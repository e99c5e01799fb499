/* SPDX-License-Identifier: MIT */
/* What a file says, before it means anything: elements with their attributes and lines. Lies in one arena. */
#ifndef PLANTFILE_TREE_H
#define PLANTFILE_TREE_H

#include "farvessel/plantfile.h"

#include <string.h>

typedef struct tree_attr {
    struct tree_attr *next;
    const char *name, *value;
    int line;
} tree_attr;

typedef struct tree_node {
    struct tree_node *parent, *next, *child, *last_child;
    const char *name;
    const char *space; /* namespace, or NULL */
    const char *stray; /* text between its tags that means nothing, or NULL */
    tree_attr *attrs, *last_attr;
    size_t parts; /* read so far of those inside it */
    int line;     /* of the start tag */
    int stray_line;
    const fv_element *element; /* what it stands for and was read into; NULL: not read */
    void *part;
} tree_node;

typedef struct {
    fv_arena *arena;
    const char *file; /* name for messages, in the plant's arena or the caller's */
    const fv_plantfile_limits *limits;
    fv_faults *faults;
    tree_node *root;
    bool broken; /* not well-formed: the tree holds what stands before the break */
} tree;

/* NULL: the element has no such attribute. */
static inline const tree_attr *tree_attr_of(const tree_node *node, const char *name)
{
    for (const tree_attr *a = node->attrs; a; a = a->next)
        if (strcmp(a->name, name) == 0)
            return a;
    return NULL;
}

/* False: not a file that can be understood at all, the reason is in the faults. */
bool plantfile_tree_parse(tree *t, const char *bytes, size_t length);

#endif
