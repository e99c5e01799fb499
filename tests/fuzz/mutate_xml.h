/* SPDX-License-Identifier: MIT */
/* A mutator that knows how a plant file looks: most of its children are still well-formed, so that they get past the
 * reader and into the checks and the solver. One in four is libFuzzer's own mutation of bytes. */
#ifndef TESTS_FUZZ_MUTATE_XML_H
#define TESTS_FUZZ_MUTATE_XML_H

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

size_t LLVMFuzzerMutate(uint8_t *data, size_t size, size_t most);
size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t most, unsigned seed);

typedef struct {
    size_t from, to; /* the bytes from and up to but not including */
} span;

static unsigned next_of(unsigned *seed, unsigned below)
{
    *seed = *seed * 1664525u + 1013904223u;
    return below ? (*seed >> 8) % below : 0;
}

/* Puts `length` bytes in the place of `where`; the new size, or the old where there is no room. */
static size_t splice(uint8_t *data, size_t size, size_t most, span where, const uint8_t *bytes, size_t length)
{
    const size_t grown = size - (where.to - where.from) + length;
    uint8_t *copy = grown <= most && length > 0 ? malloc(length) : NULL;
    if (grown > most || (length > 0 && !copy))
        return size;
    if (length > 0)
        memcpy(copy, bytes, length);
    memmove(data + where.from + length, data + where.to, size - where.to);
    if (length > 0)
        memcpy(data + where.from, copy, length);
    free(copy);
    return grown;
}

static size_t find(const uint8_t *data, size_t from, size_t size, uint8_t byte)
{
    const uint8_t *at = from < size ? memchr(data + from, byte, size - from) : NULL;
    return at ? (size_t)(at - data) : size;
}

/* The value between the quotes of a chosen attribute; empty at the end of the file if there is none. */
static span some_value(const uint8_t *data, size_t size, unsigned *seed)
{
    span chosen = {size, size};
    unsigned seen = 0;
    for (size_t i = 0; i + 1 < size; i++) {
        if (data[i] != '=' || (data[i + 1] != '"' && data[i + 1] != '\''))
            continue;
        const size_t end = find(data, i + 2, size, data[i + 1]);
        if (end < size && next_of(seed, ++seen) == 0)
            chosen = (span){i + 2, end};
        i = end;
    }
    return chosen;
}

/* A chosen element, from its < to the end of its own end; children of the same name are taken as they come. */
static span some_element(const uint8_t *data, size_t size, unsigned *seed)
{
    span chosen = {size, size};
    unsigned seen = 0;
    for (size_t i = 0; i + 2 < size; i++)
        if (data[i] == '<' && data[i + 1] >= 'a' && data[i + 1] <= 'z' && next_of(seed, ++seen) == 0)
            chosen.from = i;
    if (chosen.from >= size)
        return chosen;
    const size_t close = find(data, chosen.from, size, '>');
    if (close < size && data[close - 1] == '/') {
        chosen.to = close + 1;
        return chosen;
    }
    char end[40];
    size_t n = (size_t)snprintf(end, sizeof end, "</");
    for (size_t i = chosen.from + 1; i < close && n + 2 < sizeof end && data[i] > ' '; i++)
        end[n++] = (char)data[i];
    end[n++] = '>';
    for (size_t i = close; i + n <= size; i++)
        if (memcmp(data + i, end, n) == 0) {
            chosen.to = i + n;
            return chosen;
        }
    return (span){size, size};
}

/* The number at the head of a value times something, its unit kept. */
static size_t scale(uint8_t *data, size_t size, size_t most, span value, unsigned *seed)
{
    static const double by[] = {0, -1, 1e-6, 1e-3, 0.1, 0.5, 0.9, 1.1, 2, 10, 1e3, 1e6};
    char text[64], number[32];
    const size_t length = value.to - value.from;
    if (length == 0 || length >= sizeof text)
        return size;
    memcpy(text, data + value.from, length);
    text[length] = 0;
    char *rest;
    const double was = strtod(text, &rest);
    if (rest == text)
        return size;
    const int n = snprintf(number, sizeof number, "%.6g", was * by[next_of(seed, sizeof by / sizeof *by)]);
    const span head = {value.from, value.from + (size_t)(rest - text)};
    return splice(data, size, most, head, (const uint8_t *)number, (size_t)n);
}

size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t most, unsigned seed)
{
    const span value = some_value(data, size, &seed), element = some_element(data, size, &seed);
    const unsigned what = next_of(&seed, 8);
    if (what < 2 || value.from >= size || element.from >= size)
        return LLVMFuzzerMutate(data, size, most);
    if (what < 5)
        return scale(data, size, most, value, &seed);
    if (what == 5) { /* the value of another attribute: joints, names, other dimensions */
        const span other = some_value(data, size, &seed);
        return splice(data, size, most, value, data + other.from, other.to - other.from);
    }
    if (what == 6)
        return splice(data, size, most, element, NULL, 0);
    const span other = some_element(data, size, &seed);
    return splice(data, size, most, (span){element.to, element.to}, data + other.from, other.to - other.from);
}

#endif
