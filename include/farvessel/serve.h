/* SPDX-License-Identifier: MIT */
/* Floor 10: a session in the browser of the same machine. The only place with sockets. */
#ifndef FARVESSEL_SERVE_H
#define FARVESSEL_SERVE_H

#include "farvessel/desk.h"

FV_C_BEGIN

typedef struct {
    unsigned port; /* 0: any that is free */
    /* Called once with the address to open, which holds a secret; and several times a second, true ends it. */
    void (*ready)(void *context, const char *url);
    bool (*is_over)(void *context);
    void *context;
} fv_serve_options;

/* Serves the session on 127.0.0.1 until it is over. FV_FAIL: said in `faults`. */
fv_status fv_serve(fv_desk *desk, const fv_serve_options *options, fv_faults *faults);

/* The file that a session was begun with, and what it is known to hold. `bytes` NULL: it is not there yet. */
typedef struct {
    const char *path;
    char *bytes;
    size_t length;
} fv_kept_file;
/* False: said in `faults`. `path` must outlive it. */
bool fv_kept_file_read(fv_kept_file *file, const char *path, fv_faults *faults);
void fv_kept_file_free(fv_kept_file *file);
/* Writes it whole or not at all, unless something else has changed it since it was read or written here. Fit for
 * fv_desk_options.keep, with the file as its context. */
fv_status fv_kept_file_write(void *file, const char *bytes, size_t length, fv_faults *faults);

FV_C_END

#endif
