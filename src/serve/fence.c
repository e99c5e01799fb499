/* SPDX-License-Identifier: MIT */
/* The secret stands in the path and not in a cookie, which browsers send to every port of a host. */
#include "serve/fence.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <sys/random.h>

bool serve_fence_make(serve_fence *fence, fv_faults *faults)
{
    unsigned char bytes[(SERVE_SECRET_SIZE - 1) / 2];
    if (getrandom(bytes, sizeof bytes, 0) != (ssize_t)sizeof bytes) {
        fv_error(faults, FV_ERR_SYSTEM, (fv_loc){NULL, 0}, "no random numbers: %s", strerror(errno));
        return false;
    }
    for (size_t i = 0; i < sizeof bytes; i++)
        snprintf(fence->secret + 2 * i, 3, "%02x", bytes[i]);
    return true;
}

static const char *header(struct MHD_Connection *connection, const char *name)
{
    return MHD_lookup_connection_value(connection, MHD_HEADER_KIND, name);
}

/* Against names that a foreign server lets point to this machine (DNS rebinding). */
static bool is_our_host(const serve_fence *fence, const char *host)
{
    static const char *const names[] = {"127.0.0.1", "localhost"};
    char ours[32];
    for (size_t i = 0; host && i < sizeof names / sizeof *names; i++) {
        snprintf(ours, sizeof ours, "%s:%u", names[i], fence->port);
        if (strcasecmp(host, ours) == 0)
            return true;
    }
    return false;
}

/* In a time that does not tell how much of it was right. */
static bool is_secret(const serve_fence *fence, const char *given)
{
    unsigned differs = 0;
    if (strlen(given) < SERVE_SECRET_SIZE - 1)
        return false;
    for (size_t i = 0; i < SERVE_SECRET_SIZE - 1; i++)
        differs |= (unsigned)((unsigned char)given[i] ^ (unsigned char)fence->secret[i]);
    return differs == 0;
}

/* A browser says which page a request comes from; what posts must be our own. */
static bool is_our_page(struct MHD_Connection *connection, const char *host)
{
    static const char scheme[] = "http://";
    const char *origin = header(connection, MHD_HTTP_HEADER_ORIGIN);
    return origin && strncmp(origin, scheme, sizeof scheme - 1) == 0 &&
           strcasecmp(origin + sizeof scheme - 1, host) == 0;
}

/* No other page embeds or fetches anything. */
static bool is_from_another_site(struct MHD_Connection *connection)
{
    const char *site = header(connection, "Sec-Fetch-Site");
    return site && strcmp(site, "same-origin") != 0 && strcmp(site, "none") != 0;
}

static bool is_form(struct MHD_Connection *connection)
{
    static const char form[] = "application/x-www-form-urlencoded";
    const char *type = header(connection, MHD_HTTP_HEADER_CONTENT_TYPE);
    return type && strncasecmp(type, form, sizeof form - 1) == 0;
}

static bool is_too_long(struct MHD_Connection *connection)
{
    const char *length = header(connection, MHD_HTTP_HEADER_CONTENT_LENGTH);
    return length && strtoull(length, NULL, 10) > SERVE_BODY_MOST;
}

unsigned serve_fence_judge(const serve_fence *fence, struct MHD_Connection *connection, const char *path,
                           const char *method, const char **name)
{
    const char *host = header(connection, MHD_HTTP_HEADER_HOST);
    const bool get = strcmp(method, MHD_HTTP_METHOD_GET) == 0, post = strcmp(method, MHD_HTTP_METHOD_POST) == 0;
    if (!is_our_host(fence, host) || is_from_another_site(connection))
        return MHD_HTTP_FORBIDDEN;
    if (path[0] != '/' || !is_secret(fence, path + 1) || path[SERVE_SECRET_SIZE] != '/')
        return MHD_HTTP_FORBIDDEN;
    if (!get && !post)
        return MHD_HTTP_METHOD_NOT_ALLOWED;
    if (post && !is_our_page(connection, host))
        return MHD_HTTP_FORBIDDEN;
    if (post && !is_form(connection))
        return MHD_HTTP_UNSUPPORTED_MEDIA_TYPE;
    if (is_too_long(connection))
        return MHD_HTTP_CONTENT_TOO_LARGE;
    *name = path + SERVE_SECRET_SIZE + 1;
    return post == (strcmp(*name, "do") == 0) ? 0 : MHD_HTTP_NOT_FOUND;
}
