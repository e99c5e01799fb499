/* SPDX-License-Identifier: MIT */
/* How long a connection may take: whoever sends or reads byte by byte is cut off. */
#ifndef SERVE_CLOCK_H
#define SERVE_CLOCK_H

#include "serve/fence.h"

typedef struct {
    int socket;   /* -1: this place is free */
    double since; /* s, monotonic */
} serve_guest;
typedef struct {
    serve_guest guests[SERVE_CONNECTIONS_MOST];
} serve_clock;

void serve_clock_start(serve_clock *clock);
/* An MHD_NotifyConnectionCallback; its context is the clock. */
void serve_clock_notify(void *clock, struct MHD_Connection *connection, void **guest,
                        enum MHD_ConnectionNotificationCode what);
/* The time of a connection begins anew: what was computed for it took of it. */
void serve_clock_renew(struct MHD_Connection *connection);
/* Cuts off those whose time is over. */
void serve_clock_cut(serve_clock *clock);

#endif
