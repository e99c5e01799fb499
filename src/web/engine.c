/* SPDX-License-Identifier: MIT */
/* The desk where it runs in the page itself: what its script calls. */
#include "farvessel/desk.h"

#include <stdlib.h>

typedef struct {
    fv_desk *desk;
    fv_text said; /* the last answer */
} web_engine;

/* The page keeps the file by handing it down. */
static fv_status keep(void *context, const char *bytes, size_t length, fv_faults *faults)
{
    (void)context, (void)bytes, (void)length, (void)faults;
    return FV_OK;
}

/* `bytes` NULL: there is no plant yet. `units`: an fv_unit_system, of a plant that is there; `clock` and `date` as in
 * fv_desk_options. NULL: the plant cannot be read. */
web_engine *web_begin(const char *bytes, size_t length, const char *name, int units, double clock, int twelve_hours,
                      const char *date)
{
    web_engine *engine = calloc(1, sizeof *engine);
    const fv_desk_options options = {.units = (fv_unit_system)units,
                                     .units_of_plant = !bytes,
                                     .clock = clock,
                                     .twelve_hours = twelve_hours != 0,
                                     .date = date && date[0] ? date : NULL,
                                     .keep = keep};
    if (!engine)
        return NULL;
    engine->desk = fv_desk_new(bytes, length, name, &options, NULL);
    if (engine->desk)
        return engine;
    free(engine);
    return NULL;
}

/* Does what a form asks for, or gives what the page has a link to; belongs to the engine until the next call. */
const char *web_ask(web_engine *engine, const char *name, const char *form, size_t length)
{
    fv_text_free(&engine->said);
    return fv_desk_give(engine->desk, name, form, length, &engine->said) == FV_OK ? engine->said.text : NULL;
}
