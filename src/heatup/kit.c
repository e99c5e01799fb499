/* SPDX-License-Identifier: MIT */
/* Pieces of one sort share their spectra, which take far longer to find than a copy to make (heatup/modal.c). The kit
 * keeps some pieces that never leave their start; when it is full, the oldest goes. */
#include "heatup/kit.h"

#include <stdlib.h>

enum { PIECES_MOST = 128 };

struct fv_heat_kit {
    heatup_body *pieces[PIECES_MOST];
    size_t next; /* place for the next one */
};

fv_heat_kit *fv_heat_kit_new(void)
{
    return calloc(1, sizeof(fv_heat_kit));
}

void fv_heat_kit_free(fv_heat_kit *kit)
{
    if (!kit)
        return;
    for (size_t i = 0; i < PIECES_MOST; i++)
        heatup_body_free(kit->pieces[i]);
    free(kit);
}

heatup_body *heatup_kit_body(fv_heat_kit *kit, const heatup_body_spec *spec)
{
    for (size_t i = 0; i < PIECES_MOST && kit->pieces[i]; i++)
        if (heatup_body_is_of(kit->pieces[i], spec))
            return heatup_body_copy(kit->pieces[i]);
    heatup_body *made = heatup_body_new(spec);
    if (!made)
        return NULL;
    heatup_body_free(kit->pieces[kit->next]);
    kit->pieces[kit->next] = made;
    kit->next = (kit->next + 1) % PIECES_MOST;
    return heatup_body_copy(made);
}
