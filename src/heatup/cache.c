/* SPDX-License-Identifier: MIT */
/* Pieces of one sort share their spectra, which take far longer to find than a copy to make (heatup/modal.c). The cache
 * keeps some pieces that never leave their start; when it is full, the oldest goes. */
#include "heatup/cache.h"

#include <stdlib.h>

enum { PIECES_MOST = 128 };

struct fv_heat_cache {
    heatup_body *pieces[PIECES_MOST];
    size_t next; /* place for the next one */
};

fv_heat_cache *fv_heat_cache_new(void)
{
    return calloc(1, sizeof(fv_heat_cache));
}

void fv_heat_cache_free(fv_heat_cache *cache)
{
    if (!cache)
        return;
    for (size_t i = 0; i < PIECES_MOST; i++)
        heatup_body_free(cache->pieces[i]);
    free(cache);
}

heatup_body *heatup_cache_body(fv_heat_cache *cache, const heatup_body_spec *spec)
{
    for (size_t i = 0; i < PIECES_MOST && cache->pieces[i]; i++)
        if (heatup_body_is_of(cache->pieces[i], spec))
            return heatup_body_copy(cache->pieces[i]);
    heatup_body *made = heatup_body_new(spec);
    if (!made)
        return NULL;
    heatup_body_free(cache->pieces[cache->next]);
    cache->pieces[cache->next] = made;
    cache->next = (cache->next + 1) % PIECES_MOST;
    return heatup_body_copy(made);
}
