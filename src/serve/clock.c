/* SPDX-License-Identifier: MIT */
#include "serve/clock.h"

#include <sys/socket.h>
#include <time.h>

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

void serve_clock_start(serve_clock *clock)
{
    for (size_t i = 0; i < SERVE_CONNECTIONS_MOST; i++)
        clock->guests[i].socket = -1;
}

void serve_clock_notify(void *context, struct MHD_Connection *connection, void **place,
                        enum MHD_ConnectionNotificationCode what)
{
    serve_clock *clock = context;
    serve_guest *guest = *place;
    if (what == MHD_CONNECTION_NOTIFY_CLOSED && guest)
        guest->socket = -1;
    const union MHD_ConnectionInfo *info = MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CONNECTION_FD);
    for (size_t i = 0; what == MHD_CONNECTION_NOTIFY_STARTED && info && i < SERVE_CONNECTIONS_MOST; i++)
        if (clock->guests[i].socket < 0) {
            clock->guests[i] = (serve_guest){info->connect_fd, now()};
            *place = &clock->guests[i];
            return;
        }
}

void serve_clock_renew(struct MHD_Connection *connection)
{
    const union MHD_ConnectionInfo *info = MHD_get_connection_info(connection, MHD_CONNECTION_INFO_SOCKET_CONTEXT);
    serve_guest *guest = info ? info->socket_context : NULL;
    if (guest)
        guest->since = now();
}

void serve_clock_cut(serve_clock *clock)
{
    for (size_t i = 0; i < SERVE_CONNECTIONS_MOST; i++)
        if (clock->guests[i].socket >= 0 && now() - clock->guests[i].since > SERVE_SECONDS_MOST)
            shutdown(clock->guests[i].socket, SHUT_RDWR);
}
