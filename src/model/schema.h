/* SPDX-License-Identifier: MIT */
/* The places of the elements in the schema's table, for code on this floor that knows what it holds. */
#ifndef MODEL_SCHEMA_H
#define MODEL_SCHEMA_H

#include "farvessel/model.h"

typedef enum {
    EL_NETWORK,
    EL_SITE,
    EL_WEATHER,
    EL_STOCK,
    EL_STOCK_HOSE, /* in the order of fv_stock_kind */
    EL_STOCK_HEADER,
    EL_STOCK_COIL,
    EL_STOCK_DRILL,
    EL_STOCK_LAGGING,
    EL_STOCK_BOILER,
    EL_BOILER,
    EL_REFILL,
    EL_HEADER, /* in the order of fv_line_kind */
    EL_PIPE,
    EL_HOSE,
    EL_FITTING, /* in the order of fv_fitting_kind */
    EL_BARB,
    EL_UNION,
    EL_VALVE,
    EL_LOSS,
    EL_TEE,
    EL_DRIP,
    EL_KIND,
    EL_VESSEL,
    EL_COIL,
    EL_HOLE,
    EL_LOAD,
    EL_SHELL,
    EL_WALL,
    EL_LAYER,
    EL_VENT, /* in the order of fv_opening_kind */
    EL_DRAIN,
    EL_GAP,
    EL_ACTION,
    EL_THERMOSTAT,
    EL_PROBE,
    EL_GAUGE,
    EL_METER,
    EL_WORK,
    EL_CREW,
    EL_TASK,
    EL_MORE,
    EL_PRICE,
    EL_COUNT
} model_place;

const fv_element *model_element(model_place place);

static inline const fv_element *model_line_element(fv_line_kind kind)
{
    return model_element((model_place)(EL_HEADER + (int)kind));
}
static inline const fv_element *model_fitting_element(fv_fitting_kind kind)
{
    return model_element((model_place)(EL_FITTING + (int)kind));
}
static inline const fv_element *model_opening_element(fv_opening_kind kind)
{
    return model_element((model_place)(EL_VENT + (int)kind));
}
static inline const fv_element *model_vessel_element(const fv_vessel *vessel)
{
    return model_element(vessel->is_kind ? EL_KIND : EL_VESSEL);
}

static inline bool model_is_line(const fv_element *element)
{
    return element >= model_element(EL_HEADER) && element <= model_element(EL_HOSE);
}
static inline bool model_is_text(const fv_attr *attr)
{
    return attr->dim == FV_DIM_TEXT || attr->dim == FV_DIM_ID;
}

/* Said for this very part, not assumed and not taken over. */
static inline bool model_is_own(fv_value value)
{
    return value.origin == FV_GIVEN || value.origin == FV_SETTING;
}
bool model_says(const fv_element *element, const void *part); /* any value or text of its own */
/* Whether a value has no effect beside another that this very part says (check_idle.c). */
bool model_is_outdone(const fv_element *element, const void *part, const fv_attr *attr);
/* Of a material against vapour, over still air, when wet; 0: it lets none through. */
double model_vapour_factor(const char *material);
fv_value model_fallback(double si); /* FV_ASSUMED, or FV_UNSET for NaN */
/* fv_element_inherit; without `own_too` only what `from` has taken over itself. */
void model_inherit(const fv_element *element, void *part, const void *from, bool own_too);

/* Bits of fv_part.lists_from_kind. */
enum {
    MODEL_FIRST_LIST = 1u, /* fittings, holes, walls, layers */
    MODEL_SECOND_LIST = 2u /* openings */
};

/* In fv_value.known, with the origin FV_GIVEN and a NaN: the reader refused the text and has said why. Such a plant
 * never leaves the reader. */
enum { MODEL_REFUSED = 255 };

#endif
