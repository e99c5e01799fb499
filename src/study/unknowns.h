/* SPDX-License-Identifier: MIT */
/* The list of a plant's unknowns, and plants with other values of them. */
#ifndef STUDY_UNKNOWNS_H
#define STUDY_UNKNOWNS_H

#include "farvessel/steady.h"
#include "farvessel/unknowns.h"

typedef struct {
    fv_unknown *list;
    size_t count;
} study_unknowns;

/* state: the network of that plant when steam first flows, from which values come that correlations supply; NULL: those
 * are left out. In arena. FV_FAIL: out of memory. */
fv_status study_unknowns_find(const fv_plant *plant, const fv_steady_result *state, fv_arena *arena,
                              study_unknowns *out);

/* A linked copy of the plant with the unknowns at z (one standard normal each), kept inside the limits of the schema.
 * NULL: said in faults. */
fv_plant *study_unknowns_plant(const study_unknowns *unknowns, const fv_plant *plant, const double *z,
                               fv_faults *faults);
/* One target's value at z. */
double study_unknown_target(const fv_unknown *unknown, size_t target, double z);

/* ---- unknowns_rows.c ---- */
typedef enum {
    UNKNOWN_EACH,  /* one for each part that has its own value */
    UNKNOWN_OWNER, /* one for all like values inside a part: the layers of a wall */
    UNKNOWN_ALL    /* one for all parts of the sort: an error of the correlation */
} study_unknown_scope;

typedef struct {
    const char *element;    /* of the schema */
    const char *attributes; /* "a b c": they go together */
    const char *noun;       /* "size of a piece"; NULL: the attribute's name */
    fv_spread_shape shape;
    double unsaid, tape, nameplate, probe, guess; /* spread by how the value is known */
    bool assumed;                                 /* defaults count, too */
    bool computed;                                /* values that correlations supply count, too */
    study_unknown_scope scope;
    bool of_day;
    fv_measurement measurement;
    const char *source;
} study_unknown_row;
const study_unknown_row *study_unknown_rows(size_t *count);
double study_unknown_spread(const study_unknown_row *row, fv_known known);

/* ---- unknowns_computed.c: values that nobody said, as correlations have them in the plant as it is. NaN: none ---- */
double study_computed_value(const fv_plant *plant, const fv_steady_result *state, const fv_element *element,
                            const void *part, const fv_part *owner, const char *attribute);

#endif
