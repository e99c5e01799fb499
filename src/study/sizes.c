/* SPDX-License-Identifier: MIT */
#include "farvessel/constants.h"
#include "study/sizes.h"

#include <math.h>

static const double SAME = 1e-6; /* of a size: the same written in another unit */

/* Steam hose as it is sold, common practice, no source. */
static const double hoses[] = {0.013, 0.016, 0.019, 0.025, 0.032, 0.038, 0.05, 0.065};
static const double us_hoses[] = {0.5 * FV_INCH,  0.625 * FV_INCH, 0.75 * FV_INCH, 1 * FV_INCH,
                                  1.25 * FV_INCH, 1.5 * FV_INCH,   2 * FV_INCH,    2.5 * FV_INCH};
/* Inside of steel pipe 1/2 to 4 in (EN 10255 medium series, from memory). */
static const double pipes[] = {0.0161, 0.0217, 0.0273, 0.036, 0.0419, 0.0531, 0.0689, 0.0809, 0.1053};
/* The same of schedule 40 (ASME B36.10, from memory). */
static const double us_pipes[] = {0.622 * FV_INCH, 0.824 * FV_INCH, 1.049 * FV_INCH, 1.380 * FV_INCH, 1.610 * FV_INCH,
                                  2.067 * FV_INCH, 2.469 * FV_INCH, 3.068 * FV_INCH, 4.026 * FV_INCH};
static const double us_drills[] = {FV_INCH / 16,     5 * FV_INCH / 64, 3 * FV_INCH / 32,
                                   FV_INCH / 8,      5 * FV_INCH / 32, 3 * FV_INCH / 16,
                                   7 * FV_INCH / 32, FV_INCH / 4,      5 * FV_INCH / 16};
static const double us_laggings[] = {1 * FV_INCH, 2 * FV_INCH};
static const double drills[] = {0.0015, 0.002, 0.0025, 0.003, 0.0035, 0.004, 0.005, 0.006, 0.008};
static const double laggings[] = {0.025, 0.05};
static const double bigger_boiler[] = {1.5}; /* times the output: no list of boilers is common */

#define LIST(list)                                                                                                     \
    {                                                                                                                  \
        list, sizeof list / sizeof *list                                                                               \
    }
typedef struct {
    const double *sizes;
    size_t count;
} size_list;
static const size_list common[] = {
    [FV_STOCK_HOSE] = LIST(hoses),   [FV_STOCK_HEADER] = LIST(pipes),     [FV_STOCK_COIL] = LIST(pipes),
    [FV_STOCK_DRILL] = LIST(drills), [FV_STOCK_LAGGING] = LIST(laggings), [FV_STOCK_BOILER] = LIST(bigger_boiler)};
static const size_list us_common[] = {[FV_STOCK_HOSE] = LIST(us_hoses),       [FV_STOCK_HEADER] = LIST(us_pipes),
                                      [FV_STOCK_COIL] = LIST(us_pipes),       [FV_STOCK_DRILL] = LIST(us_drills),
                                      [FV_STOCK_LAGGING] = LIST(us_laggings), [FV_STOCK_BOILER] = LIST(bigger_boiler)};

/* Trade sizes where the grower buys. */
static const size_list *common_of(const fv_plant *plant, fv_stock_kind kind)
{
    return study_is_us(plant) ? &us_common[kind] : &common[kind];
}

bool study_is_us(const fv_plant *plant)
{
    return fv_or(plant->units, FV_METRIC) == FV_US;
}

static bool is_in_stock(const fv_plant *plant, fv_stock_kind kind)
{
    for (size_t i = 0; i < plant->stock_count; i++)
        if (plant->stock[i]->kind == kind)
            return true;
    return false;
}

/* Of a metre, a square metre or a piece; NaN: none is said. */
static double price_of(const fv_stock_item *item)
{
    const double foot = fv_or(item->per, FV_STOCK_PER_METRE) == FV_STOCK_PER_FOOT ? FV_FOOT : 1;
    return fv_or(item->price, (double)NAN) / (item->kind == FV_STOCK_LAGGING ? foot * foot : foot);
}

static study_size of_item(const fv_stock_item *item)
{
    const fv_material *material = item->material ? fv_material_find(item->material) : NULL;
    return (study_size){.size = item->kind == FV_STOCK_BOILER ? item->output.v : item->size.v,
                        .price = price_of(item),
                        .from_stock = true,
                        .conductivity = material ? material->conductivity : NAN};
}

bool study_sizes_are_common(const fv_plant *plant, fv_stock_kind kind)
{
    return !is_in_stock(plant, kind);
}

size_t study_sizes(const fv_plant *plant, fv_stock_kind kind, study_size *list)
{
    const bool stock = is_in_stock(plant, kind);
    size_t count = 0;
    for (size_t i = 0; i < (stock ? plant->stock_count : common_of(plant, kind)->count); i++) {
        if (stock && plant->stock[i]->kind != kind)
            continue;
        if (list)
            list[count] =
                stock ? of_item(plant->stock[i])
                      : (study_size){.size = common_of(plant, kind)->sizes[i], .price = NAN, .conductivity = NAN};
        count++;
    }
    return count;
}

/* The nearest size strictly beyond `than` in the direction. */
static bool nearest(const fv_plant *plant, fv_stock_kind kind, double than, bool up, study_size *found)
{
    bool any = false;
    const bool stock = is_in_stock(plant, kind);
    const size_t count = stock ? plant->stock_count : common_of(plant, kind)->count;
    for (size_t i = 0; i < count; i++) {
        if (stock && plant->stock[i]->kind != kind)
            continue;
        const double scale = kind == FV_STOCK_BOILER ? than : 1;
        const study_size s =
            stock ? of_item(plant->stock[i])
                  : (study_size){.size = scale * common_of(plant, kind)->sizes[i], .price = NAN, .conductivity = NAN};
        const bool beyond = up ? s.size > than * (1 + SAME) : s.size < than * (1 - SAME);
        if (beyond && (!any || (up ? s.size < found->size : s.size > found->size))) {
            *found = s;
            any = true;
        }
    }
    return any;
}

bool study_size_next(const fv_plant *plant, fv_stock_kind kind, double than, int step, study_size *found)
{
    bool any = step != 0;
    for (int i = 0; any && i != step; i += step > 0 ? 1 : -1) {
        any = nearest(plant, kind, than, step > 0, found);
        than = any ? found->size : than;
    }
    return any;
}

double study_size_price(const fv_plant *plant, fv_stock_kind kind, double size)
{
    for (size_t i = 0; i < plant->stock_count; i++) {
        const study_size s = of_item(plant->stock[i]);
        if (plant->stock[i]->kind == kind && fabs(s.size - size) <= SAME * size)
            return s.price;
    }
    return NAN;
}
