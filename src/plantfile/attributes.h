/* SPDX-License-Identifier: MIT */
/* Attribute texts to values of a part. */
#ifndef PLANTFILE_ATTRIBUTES_H
#define PLANTFILE_ATTRIBUTES_H

#include "plantfile/limits.h"
#include "plantfile/tree.h"

typedef struct {
    fv_plant *plant;
    const fv_units *units;
    fv_faults *faults;
    const char *file;
    const fv_plantfile_limits *limits; /* NULL but for a file */
    plantfile_counts counts;
    size_t said; /* errors so far */
    size_t most; /* of them to be listed */
    bool ended;  /* a limit is reached or memory is out: nothing further is read */
} reading;

/* Adds an error of the file, up to the limit. */
void plantfile_reading_say(reading *r, int line, const char *fmt, ...) FV_PRINTF(3, 4);
/* Memory is out, which is no fault of the file. */
void plantfile_reading_no_memory(reading *r);

/* One attribute from its text, with `origin`. False: refused, said at `line`. `who`: the part in messages. */
bool plantfile_attribute_read(reading *r, const char *who, const fv_attr *attr, void *part, const char *text,
                              fv_origin origin, int line);
/* Says that `says`, known= or spread=, speaks of what is not given beside it. */
void plantfile_not_given(reading *r, const char *who, const tree_node *node, const fv_element *element,
                         const tree_attr *says, const char *name);
/* All attributes of an element. */
void plantfile_attributes_read(reading *r, const char *who, const fv_element *element, void *part,
                               const tree_node *node);

/* spread.c: spread="cd:7 % outside:25 %", where it stands, of a part whose other attributes have been read. */
void plantfile_spread_read(reading *r, const char *who, const tree_node *node);

#endif
