/* SPDX-License-Identifier: MIT */
#include "print/names.h"

#include <stdio.h>
#include <string.h>

bool print_names_push(print_names *names, fv_arena *arena, const char *name)
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

/* "and 1 more" would be no shorter than the name. */
static size_t shown(const print_names *names, size_t most)
{
    return names->count > most + 1 ? most : names->count;
}

void print_names_print(const print_names *names, size_t most, char *buffer, size_t size)
{
    size_t many = shown(names, most), used = 0;
    snprintf(buffer, size, "%s", names->all ? names->all : "");
    for (size_t i = 0; !names->all && i < many && used < size; i++) {
        snprintf(buffer + used, size - used, "%s%s", i ? ", " : "", names->list[i]);
        used += strlen(buffer + used);
    }
    if (!names->all && many < names->count)
        snprintf(buffer + used, size - used, " and %zu more", names->count - many);
}

void print_names_say(const print_names *names, size_t most, fv_text *out)
{
    if (names->all) {
        fv_text_add(out, "%s", names->all);
        return;
    }
    size_t many = shown(names, most);
    for (size_t i = 0; i < many; i++)
        fv_text_add(out, "%s%s", i ? ", " : "", names->list[i]);
    if (many < names->count)
        fv_text_add(out, " and %zu more", names->count - many);
}
