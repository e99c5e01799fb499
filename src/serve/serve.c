/* SPDX-License-Identifier: MIT */
/* Requests to a session. One is served after the other; there is one user, at this machine. */
#include "farvessel/serve.h"

#include "farvessel/report.h"
#include "serve/clock.h"
#include "serve/fence.h"

#include <arpa/inet.h>
#include <errno.h>
#include <netinet/in.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    fv_desk *desk;
    serve_fence fence;
    serve_clock clock;
} server;

/* One request while its body comes in. */
typedef struct {
    char body[SERVE_BODY_MOST];
    size_t length;
    bool is_post, refused;
} request;

static const char *const always[][2] = {
    {MHD_HTTP_HEADER_CONNECTION, "close"},
    {MHD_HTTP_HEADER_CACHE_CONTROL, "no-store"},
    {"Content-Security-Policy",
     "default-src 'none'; script-src 'self'; style-src 'unsafe-inline'; connect-src 'self'; img-src data:; "
     "form-action 'self'; frame-ancestors 'none'; base-uri 'none'"},
    {"Referrer-Policy", "same-origin"}, /* without it a form's Origin would be null */
    {"X-Content-Type-Options", "nosniff"},
    {"X-Frame-Options", "DENY"},
    {"Cross-Origin-Opener-Policy", "same-origin"},
    {"Cross-Origin-Resource-Policy", "same-origin"},
};

/* The body is copied. */
static enum MHD_Result reply(struct MHD_Connection *connection, unsigned status, const char *type, const fv_text *body,
                             const char *location)
{
    struct MHD_Response *response =
        body->failed ? NULL : MHD_create_response_from_buffer(body->length, body->text, MHD_RESPMEM_MUST_COPY);
    if (!response)
        return MHD_NO;
    enum MHD_Result good = MHD_add_response_header(response, MHD_HTTP_HEADER_CONTENT_TYPE, type);
    for (size_t i = 0; i < sizeof always / sizeof *always && good == MHD_YES; i++)
        good = MHD_add_response_header(response, always[i][0], always[i][1]);
    if (location && good == MHD_YES)
        good = MHD_add_response_header(response, MHD_HTTP_HEADER_LOCATION, location);
    if (good == MHD_YES)
        good = MHD_queue_response(connection, status, response);
    MHD_destroy_response(response);
    return good;
}

static enum MHD_Result refuse(struct MHD_Connection *connection, unsigned status)
{
    fv_text words = {0};
    fv_text_add(&words, "farvessel: refused (%u). Open the address that the program printed, all of it.\n", status);
    const enum MHD_Result result = reply(connection, status, "text/plain; charset=utf-8", &words, NULL);
    fv_text_free(&words);
    return result;
}

static enum MHD_Result get(server *s, struct MHD_Connection *connection, const char *name)
{
    static const char *const types[][2] = {{"", "text/html; charset=utf-8"},
                                           {"report.html", "text/html; charset=utf-8"},
                                           {"try.js", "text/javascript; charset=utf-8"},
                                           {"plant.xml", "application/xml"}};
    size_t i = 0;
    while (i < sizeof types / sizeof *types && strcmp(name, types[i][0]) != 0)
        i++;
    if (i == sizeof types / sizeof *types)
        return refuse(connection, MHD_HTTP_NOT_FOUND);
    fv_text body = {0};
    if (strcmp(name, "try.js") == 0)
        fv_page_session_script(&body);
    else
        body.failed = fv_desk_give(s->desk, name, "", 0, &body) == FV_FAIL || body.failed;
    const enum MHD_Result result = reply(connection, MHD_HTTP_OK, types[i][1], &body, NULL);
    fv_text_free(&body);
    return result;
}

/* A script gets what is new, a browser without one is sent back to the page. */
static enum MHD_Result post(server *s, struct MHD_Connection *connection, const request *r)
{
    const char *accepts = MHD_lookup_connection_value(connection, MHD_HEADER_KIND, MHD_HTTP_HEADER_ACCEPT);
    const bool script = accepts && strstr(accepts, "application/json");
    fv_text body = {0};
    body.failed = fv_desk_do(s->desk, r->body, r->length, &body) == FV_FAIL || body.failed;
    if (!script && !body.failed && body.text)
        body.length = 0;
    const enum MHD_Result result =
        reply(connection, script ? MHD_HTTP_OK : MHD_HTTP_SEE_OTHER, "application/json", &body, script ? NULL : "./");
    fv_text_free(&body);
    return result;
}

/* What MHD calls: once with the head, then for each piece of the body, then once more. */
static enum MHD_Result on_request(void *context, struct MHD_Connection *connection, const char *url, const char *method,
                                  const char *http_version, const char *upload, size_t *upload_size, void **place)
{
    server *s = context;
    request *r = *place;
    (void)http_version;
    if (!r) {
        const char *name = "";
        const unsigned status = serve_fence_judge(&s->fence, connection, url, method, &name);
        r = *place = calloc(1, sizeof *r);
        if (!r)
            return MHD_NO;
        r->refused = status != 0;
        r->is_post = strcmp(method, MHD_HTTP_METHOD_POST) == 0;
        return r->refused ? refuse(connection, status) : MHD_YES;
    }
    if (r->refused) {
        *upload_size = 0;
        return MHD_YES;
    }
    if (*upload_size > 0) {
        if (*upload_size > sizeof r->body - r->length)
            return MHD_NO; /* more than was announced, or nothing was */
        memcpy(r->body + r->length, upload, *upload_size);
        r->length += *upload_size;
        *upload_size = 0;
        return MHD_YES;
    }
    const enum MHD_Result result =
        r->is_post ? post(s, connection, r) : get(s, connection, url + SERVE_SECRET_SIZE + 1);
    serve_clock_renew(connection);
    return result;
}

static void on_completed(void *context, struct MHD_Connection *connection, void **place,
                         enum MHD_RequestTerminationCode how)
{
    (void)context, (void)connection, (void)how;
    free(*place);
    *place = NULL;
}

static struct MHD_Daemon *start(server *s, unsigned port)
{
    struct sockaddr_in here = {.sin_family = AF_INET, .sin_port = htons((uint16_t)port)};
    here.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    serve_clock_start(&s->clock);
    return MHD_start_daemon(MHD_NO_FLAG, (uint16_t)port, NULL, NULL, on_request, s, MHD_OPTION_SOCK_ADDR, &here,
                            MHD_OPTION_CONNECTION_LIMIT, (unsigned)SERVE_CONNECTIONS_MOST,
                            MHD_OPTION_CONNECTION_TIMEOUT, (unsigned)SERVE_SECONDS_MOST, MHD_OPTION_NOTIFY_COMPLETED,
                            on_completed, NULL, MHD_OPTION_NOTIFY_CONNECTION, serve_clock_notify, &s->clock,
                            MHD_OPTION_END);
}

static void run(server *s, struct MHD_Daemon *daemon, const fv_serve_options *options)
{
    enum { WAIT = 100 }; /* ms */
    char url[96];
    snprintf(url, sizeof url, "http://127.0.0.1:%u/%s/", s->fence.port, s->fence.secret);
    options->ready(options->context, url);
    while (!options->is_over(options->context)) {
        MHD_run_wait(daemon, WAIT);
        serve_clock_cut(&s->clock);
    }
}

fv_status fv_serve(fv_desk *desk, const fv_serve_options *options, fv_faults *faults)
{
    const fv_loc nowhere = {NULL, 0};
    if (!desk || !options || !options->ready || !options->is_over)
        return fv_error_null(faults, __func__);
    server *s = calloc(1, sizeof *s);
    if (!s)
        return fv_error(faults, FV_ERR_SYSTEM, nowhere, "out of memory");
    s->desk = desk;
    fv_status status = FV_FAIL;
    errno = 0;
    struct MHD_Daemon *daemon = serve_fence_make(&s->fence, faults) ? start(s, options->port) : NULL;
    const union MHD_DaemonInfo *info = daemon ? MHD_get_daemon_info(daemon, MHD_DAEMON_INFO_BIND_PORT) : NULL;
    if (info) {
        s->fence.port = info->port;
        run(s, daemon, options);
        status = FV_OK;
    } else {
        fv_error(faults, FV_ERR_SYSTEM, nowhere, "cannot listen on 127.0.0.1:%u: %s", options->port,
                 errno ? strerror(errno) : "is something else there?");
    }
    if (daemon)
        MHD_stop_daemon(daemon);
    free(s);
    return status;
}
