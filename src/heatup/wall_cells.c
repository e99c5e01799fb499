/* SPDX-License-Identifier: MIT */
/* Cells of a layered wall: fine where heat comes in, coarser behind.
 *
 * Given:    layers from inside out, inside coefficient (0: none), refinement (1: default).
 * Returned: capacities, middles, conductances between the middles (two halves in series).
 * How:      in each layer the cells grow by an eighth from its inner side, from the depth that heat reaches in a
 * second, sqrt(alpha 1 s), to at most 1/12 of the layer, then all are scaled to fill it. Accuracy: heat into a thick
 * wall whose face jumps: 0.1 % low at all times, a quarter of that with cells divided by 2.
 */
#include "heatup/wall_cells.h"

#include <math.h>
#include <string.h>

#define GROWTH 0.12
#define REACH 1.0 /* s^0.5 */
#define COARSEST (1.0 / 12)
enum { COARSER_MOST = 16 }; /* times, where a wall has so many layers that there is no room for fine cells */

/* Sizes of one layer's cells, adding up to its thickness; 0: too many. */
static size_t divide(const fv_heat_layer *layer, double refine, double *sizes, size_t space)
{
    double capacity = layer->rho * layer->c;
    if (!(capacity > 0)) { // a mere resistance
        sizes[0] = layer->thickness;
        return space > 0 ? 1 : 0;
    }
    double most = COARSEST * layer->thickness / refine, total = 0;
    double size = fmin(sqrt(layer->k / capacity) * REACH / refine, most);
    size_t count = 0;
    while (total < layer->thickness * (1 - 1e-9)) {
        if (count == space)
            return 0;
        sizes[count++] = size;
        total += size;
        size = fmin(size * (1 + GROWTH / refine), most);
    }
    for (size_t i = 0; i < count; i++)
        sizes[i] *= layer->thickness / total;
    return count;
}

void heatup_wall_cells_resist(heatup_wall_cells *cells, size_t first, size_t end, double times)
{
    double resistance = cells->h_inside > 0 ? 1 / cells->h_inside : 0; // since the last middle
    for (size_t i = first; i < end; i++)
        cells->half[i] *= times;
    for (size_t i = 0; i < cells->count; i++) {
        cells->conductance[i] = 1 / (resistance + cells->half[i]);
        resistance = cells->half[i];
    }
    cells->conductance[cells->count] = 1 / resistance;
}

static fv_status lay_cells(heatup_wall_cells *cells, const fv_heat_layer *layers, size_t count, double h_inside,
                           double refine)
{
    memset(cells, 0, sizeof *cells);
    cells->h_inside = h_inside > 0 ? h_inside : 0;
    double depth = 0;
    if (count > STEADY_LAYERS_MOST)
        return FV_FAIL;
    for (size_t l = 0; l < count; l++) {
        const fv_heat_layer *layer = &layers[l];
        if (!(layer->thickness > 0) || !(layer->k > 0) || !(layer->rho >= 0) || !(layer->c >= 0))
            return FV_FAIL;
        double *sizes = &cells->middle[cells->count];
        size_t more = divide(layer, refine, sizes, WALL_CELLS_MOST - cells->count);
        if (more == 0)
            return FV_FAIL;
        for (size_t i = 0; i < more; i++, cells->count++) {
            double size = sizes[i];
            cells->capacity[cells->count] = layer->rho * layer->c * size;
            cells->half[cells->count] = size / (2 * layer->k);
            cells->middle[cells->count] = depth + size / 2;
            depth += size;
        }
        cells->end[l] = cells->count;
    }
    heatup_wall_cells_resist(cells, 0, 0, 1);
    return cells->count > 0 ? FV_OK : FV_FAIL;
}

fv_status heatup_wall_cells_init(heatup_wall_cells *cells, const fv_heat_layer *layers, size_t count, double h_inside,
                                 int refine)
{
    fv_status status = FV_FAIL;
    for (int coarser = 1; coarser <= COARSER_MOST && status == FV_FAIL; coarser *= 2)
        status = lay_cells(cells, layers, count, h_inside, (double)refine / coarser);
    return status;
}
