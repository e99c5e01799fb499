/* SPDX-License-Identifier: MIT */
/* The steps of fv_plant_link, in their order. Each says what it finds and goes on. */
#ifndef MODEL_LINK_H
#define MODEL_LINK_H

#include "model/parts.h"

typedef struct {
    fv_plant *plant;
    fv_faults *faults;
    model_names names;
    size_t taken;  /* parts that `like` has brought in */
    bool too_many; /* of them: the rest of the plant is not looked at */
} model_link;

/* All return false when memory is out. */
bool model_take_kinds(model_link *link);    /* `like` */
bool model_make_nodes(model_link *link);    /* joints, lines of tees */
bool model_derive(model_link *link);        /* defaults that follow from other values */
bool model_check_limits(model_link *link);  /* missing, outside the schema's limits */
bool model_check_idle(model_link *link);    /* said, but without effect */
bool model_check_lines(model_link *link);   /* boilers, lines, fittings, site, stock */
bool model_check_vessels(model_link *link); /* vessels, coils, loads, walls, openings */
bool model_check_actions(model_link *link); /* actions and start-after */
bool model_check_thermostats(model_link *link);
bool model_check_probes(model_link *link); /* probes, gauges, meters */
bool model_check_work(model_link *link);   /* crew, tasks, vessels beyond the places, prices */
bool model_check_graph(model_link *link);  /* what hangs together, dead ends, rises, tees */

/* Searching for the name that was meant takes time; a large plant with many wrong names would take for ever. */
static inline bool model_may_hint(const model_link *link)
{
    return link->names.count <= 2000 && link->plant->node_count <= 2000;
}

/* So many errors that nobody reads on; the rest of the plant is then not looked at. */
static inline bool model_is_enough(const model_link *link)
{
    return link->too_many || fv_faults_errors(link->faults) > 2000;
}

#define MODEL_SAY 160 /* room for a part's name or a quantity in a message */

/* "19 mm": into buffer, which is returned. */
const char *model_quantity(fv_dim dim, double si, char *buffer, size_t size);
/* The name of a part at the top or of one inside another. */
const char *model_name_of(const fv_element *element, const void *part, char *buffer, size_t size);

#endif
