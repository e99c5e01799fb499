/* SPDX-License-Identifier: MIT */
#include "report/names.h"

#include <string.h>

bool report_names_push(report_names *names, fv_arena *arena, const char *name)
{
    size_t n = names->count;
    if ((n & (n - 1)) == 0) { /* full at every power of two */
        const char **bigger = fv_arena_alloc(arena, n ? 2 * n : 1, sizeof(char *));
        if (!bigger)
            return false;
        if (n)
            memcpy(bigger, names->list, n * sizeof(char *));
        names->list = bigger;
    }
    names->list[names->count++] = name;
    return true;
}

void report_names_say(const report_names *names, size_t most, fv_text *out)
{
    if (names->all) {
        fv_text_add(out, "%s", names->all);
        return;
    }
    /* "and 1 more" would be no shorter than the name. */
    size_t shown = names->count > most + 1 ? most : names->count;
    for (size_t i = 0; i < shown; i++)
        fv_text_add(out, "%s%s", i ? ", " : "", names->list[i]);
    if (shown < names->count)
        fv_text_add(out, " and %zu more", names->count - shown);
}
