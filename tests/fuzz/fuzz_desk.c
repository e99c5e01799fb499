/* SPDX-License-Identifier: MIT */
/* Any lines as requests to a session, one after the other: each is answered or refused, and what is taken back leaves
 * the file byte for byte. */
#include "farvessel/desk.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static char *bytes; /* read once */
    static size_t length;
    const fv_desk_options options = {.clock = NAN, .unanswered = true};
    if (!bytes)
        bytes = fv_read_whole("networks/far-bench.xml", 1 << 20, &length, NULL);
    fv_desk *desk = bytes ? fv_desk_new(bytes, length, "far-bench.xml", &options, NULL) : NULL;
    if (!desk)
        abort();
    for (size_t at = 0, end; at < size; at = end + 1) {
        const uint8_t *line = memchr(data + at, '\n', size - at);
        end = line ? (size_t)(line - data) : size;
        fv_text answer = {0};
        if (fv_desk_do(desk, (const char *)data + at, end - at, &answer) == FV_FAIL)
            abort();
        fv_text_free(&answer);
    }
    while (fv_desk_change_count(desk) > 0)
        if (fv_desk_take_back(desk, 0, NULL) == FV_FAIL)
            break; /* what is left is refused alone: the others stood on it */
    size_t now;
    const char *text = fv_desk_text(desk, &now);
    if (fv_desk_change_count(desk) == 0 && (now != length || memcmp(text, bytes, length) != 0))
        abort();
    fv_desk_free(desk);
    return 0;
}
