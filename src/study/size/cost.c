/* SPDX-License-Identifier: MIT */
/* What a choice costs by the prices of the stock list. Holes can be made wider, not narrower, and not moved. */
#include "study/size/parts.h"
#include "study/sizes.h"

#include <math.h>

static const double SAME = 1e-9; /* of a size */

typedef struct {
    const fv_plant *plant;
    double sum;
    size_t priced, unpriced;
} bill;

static void buy(bill *b, fv_stock_kind kind, double size, double amount)
{
    const double price = study_size_price(b->plant, kind, size);
    if (isnan(price)) {
        b->unpriced++;
    } else {
        b->sum += price * amount;
        b->priced++;
    }
}

static bool differs(double a, double b)
{
    return !(fabs(a - b) <= SAME * fabs(b)) && !(isnan(a) && isnan(b));
}

static double largest_drill(const fv_coil *coil, double *least)
{
    double most = 0;
    *least = INFINITY;
    for (size_t i = 0; i < coil->hole_count; i++) {
        most = fmax(most, coil->hole[i]->drill.v);
        *least = fmin(*least, coil->hole[i]->drill.v);
    }
    if (coil->hole_count == 0)
        most = *least = coil->drill.v;
    return most;
}

/* A pipe that has holes where none may be, or wider ones, is of no use. */
static bool needs_new_pipe(const fv_coil *now, const fv_coil *then)
{
    double least;
    const double most = largest_drill(now, &least);
    double least_then;
    largest_drill(then, &least_then);
    return differs(now->bore.v, then->bore.v) || differs(now->holes.v, then->holes.v) ||
           differs(now->spacing.v, then->spacing.v) || least_then < most * (1 - SAME);
}

static bool is_at_hand(const fv_plant *plant, double drill)
{
    for (size_t i = 0; i < plant->vessel_count; i++) {
        double least;
        if (!differs(largest_drill(&plant->vessels[i]->coil, &least), drill) || !differs(least, drill))
            return true;
    }
    return false;
}

static void buy_drills(bill *b, const fv_plant *changed)
{
    for (size_t i = 0; i < changed->vessel_count; i++) {
        double least, drill = largest_drill(&changed->vessels[i]->coil, &least);
        bool bought = is_at_hand(b->plant, drill);
        for (size_t j = 0; j < i; j++)
            bought = bought || !differs(largest_drill(&changed->vessels[j]->coil, &least), drill);
        if (!bought)
            buy(b, FV_STOCK_DRILL, drill, 1);
    }
}

double size_cost(const fv_plant *plant, const fv_plant *changed, size_t *unpriced)
{
    bill b = {.plant = plant};
    for (size_t i = 0; i < plant->line_count; i++) {
        const fv_line *line = changed->lines[i];
        if (differs(plant->lines[i]->bore.v, line->bore.v))
            buy(&b, line->kind == FV_LINE_HOSE ? FV_STOCK_HOSE : FV_STOCK_HEADER, line->bore.v, line->length.v);
    }
    for (size_t i = 0; i < plant->vessel_count; i++) {
        const fv_coil *coil = &changed->vessels[i]->coil;
        if (needs_new_pipe(&plant->vessels[i]->coil, coil))
            buy(&b, FV_STOCK_COIL, coil->bore.v, coil->length.v);
    }
    buy_drills(&b, changed);
    *unpriced = b.unpriced;
    return b.priced || !b.unpriced ? b.sum : NAN;
}

bool size_has_prices(const fv_plant *plant, unsigned vary)
{
    const unsigned coils = 1u << FV_SIZE_DRILL | 1u << FV_SIZE_HOLES | 1u << FV_SIZE_SPACING | 1u << FV_SIZE_COIL;
    for (size_t i = 0; i < plant->stock_count; i++) {
        const fv_stock_item *item = plant->stock[i];
        const bool of_coil = item->kind == FV_STOCK_DRILL || item->kind == FV_STOCK_COIL;
        const bool counts = (item->kind == FV_STOCK_HOSE && vary >> FV_SIZE_HOSE & 1u) ||
                            (item->kind == FV_STOCK_HEADER && vary >> FV_SIZE_HEADER & 1u) || (of_coil && vary & coils);
        if (counts && fv_is_set(item->price))
            return true;
    }
    return false;
}
