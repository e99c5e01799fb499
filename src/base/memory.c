/* SPDX-License-Identifier: MIT */
/* Memory freed as one, growing arrays and growing text. */
#include "farvessel/base.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { CHUNK_BYTES = 1 << 16, ALIGNMENT = 16 };

typedef struct chunk {
    struct chunk *next;
    size_t used, size;
    _Alignas(ALIGNMENT) unsigned char bytes[];
} chunk;

struct fv_arena {
    chunk *chunks;
};

fv_arena *fv_arena_new(void)
{
    return calloc(1, sizeof(fv_arena));
}

void fv_arena_free(fv_arena *arena)
{
    if (!arena)
        return;
    for (chunk *c = arena->chunks; c;) {
        chunk *next = c->next;
        free(c);
        c = next;
    }
    free(arena);
}

void *fv_arena_alloc(fv_arena *arena, size_t count, size_t size)
{
    if (!arena)
        return NULL;
    if (size && count > (SIZE_MAX - CHUNK_BYTES) / size)
        return NULL;
    size_t need = (count * size + ALIGNMENT - 1) / ALIGNMENT * ALIGNMENT;
    chunk *c = arena->chunks;
    if (!c || c->size - c->used < need) {
        size_t bytes = need > CHUNK_BYTES ? need : CHUNK_BYTES;
        c = calloc(1, sizeof(chunk) + bytes);
        if (!c)
            return NULL;
        c->size = bytes;
        c->next = arena->chunks;
        arena->chunks = c;
    }
    void *result = c->bytes + c->used;
    c->used += need;
    return result;
}

char *fv_arena_copy(fv_arena *arena, const char *text)
{
    if (!arena || !text)
        return NULL;
    size_t bytes = strlen(text) + 1;
    char *copy = fv_arena_alloc(arena, bytes, 1);
    if (copy)
        memcpy(copy, text, bytes);
    return copy;
}

char *fv_arena_printf(fv_arena *arena, const char *fmt, ...)
{
    if (!arena || !fmt)
        return NULL;
    va_list args, again;
    va_start(args, fmt);
    va_copy(again, args);
    int length = vsnprintf(NULL, 0, fmt, args);
    va_end(args);
    char *text = length < 0 ? NULL : fv_arena_alloc(arena, (size_t)length + 1, 1);
    if (text)
        vsnprintf(text, (size_t)length + 1, fmt, again);
    va_end(again);
    return text;
}

bool fv_grow(void **array, size_t *cap, size_t need, size_t size)
{
    if (!cap)
        return false;
    if (need <= *cap)
        return true;
    size_t bigger = *cap < 8 ? 8 : *cap + *cap / 2;
    if (bigger < need)
        bigger = need;
    if (size && bigger > SIZE_MAX / size)
        return false;
    void *moved = realloc(*array, bigger * size);
    if (!moved)
        return false;
    *array = moved;
    *cap = bigger;
    return true;
}

void fv_text_addv(fv_text *text, const char *fmt, va_list args)
{
    if (text->failed)
        return;
    va_list again;
    va_copy(again, args);
    int length = vsnprintf(NULL, 0, fmt, args);
    void *bytes = text->text;
    if (length < 0 || !fv_grow(&bytes, &text->capacity, text->length + (size_t)length + 1, 1)) {
        text->failed = true;
    } else {
        text->text = bytes;
        vsnprintf(text->text + text->length, (size_t)length + 1, fmt, again);
        text->length += (size_t)length;
    }
    va_end(again);
}

void fv_text_add(fv_text *text, const char *fmt, ...)
{
    if (!text || !fmt)
        return;
    va_list args;
    va_start(args, fmt);
    fv_text_addv(text, fmt, args);
    va_end(args);
}

void fv_text_free(fv_text *text)
{
    if (!text)
        return;
    free(text->text);
    *text = (fv_text){0};
}
