/* SPDX-License-Identifier: MIT */
/* Who may ask what: any page of the web can send requests to a loopback address, so that the address alone is no fence.
 */
#ifndef SERVE_FENCE_H
#define SERVE_FENCE_H

#include "farvessel/base.h"

#include <microhttpd.h>

enum { SERVE_SECRET_SIZE = 33, SERVE_BODY_MOST = 16384, SERVE_SECONDS_MOST = 10, SERVE_CONNECTIONS_MOST = 32 };

typedef struct {
    char secret[SERVE_SECRET_SIZE]; /* hexadecimal digits; the first part of every path */
    unsigned port;
} serve_fence;

/* A fresh secret. False: the system gives none; said. */
bool serve_fence_make(serve_fence *fence, fv_faults *faults);
/* The HTTP status with which a request is refused, judged by its head alone; 0: it may go on, and *name is what it asks
 * for, "" the page. */
unsigned serve_fence_judge(const serve_fence *fence, struct MHD_Connection *connection, const char *path,
                           const char *method, const char **name);

#endif
