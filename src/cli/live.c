/* SPDX-License-Identifier: MIT */
/* A plant's desk for try and for the live page, and where the script of that page stands. */
#include "cli/cli.h"

#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* "s1.bore=25 mm" */
static fv_status set(fv_desk *desk, const char *setting, fv_faults *faults)
{
    char *copy = strdup(setting), *equals = copy ? strchr(copy, '=') : NULL;
    if (equals)
        *equals = '\0';
    char *dot = equals ? strrchr(copy, '.') : NULL;
    fv_status status = FV_FAIL;
    if (dot) {
        *dot = '\0';
        char *end = dot + strlen(dot + 1);
        while (end > dot && *end == ' ')
            *end-- = '\0';
        status = fv_desk_set(desk, copy, dot + 1, equals + 1, faults);
    } else {
        fv_error(faults, FV_ERR_INPUT, (fv_loc){"--set", 0}, "'%s': write part.attribute=value, such as s1.bore=25 mm",
                 fv_shorten(setting, 80).text);
    }
    free(copy);
    return status;
}

fv_desk *cli_desk(const cli_request *request, const char *bytes, size_t length, const fv_desk_options *options,
                  fv_faults *faults)
{
    fv_desk *desk = fv_desk_new(bytes, length, request->operand, options, faults);
    bool good = desk != NULL;
    for (size_t i = 0; i < request->setting_count && good; i++)
        good = set(desk, request->settings[i], faults) != FV_FAIL;
    if (good)
        return desk;
    fv_desk_free(desk);
    return NULL;
}

/* Beside this program: where `make web` puts it, or `make install`. NULL: it is nowhere; said. */
static char *read_engine(fv_faults *faults)
{
    enum { ENGINE_MOST = 16 << 20 };
    static const char *const places[] = {"web/live.js", "../share/farvessel/live.js"};
    char path[PATH_MAX + 64];
    const ssize_t length = readlink("/proc/self/exe", path, PATH_MAX);
    if (length > 0)
        path[length] = '\0';
    char *name = length > 0 ? strrchr(path, '/') + 1 : path;
    for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
        size_t read;
        snprintf(name, 64, "%s", places[i]);
        if (access(path, R_OK) == 0)
            return fv_read_whole(path, ENGINE_MOST, &read, faults);
    }
    fv_error(faults, FV_ERR_SYSTEM, (fv_loc){NULL, 0},
             "--live: the part of the page that computes is not built here; build it with `make web` in the source's "
             "folder, and install it with `make install`");
    return NULL;
}

/* The plant with its changes is what the page begins from; without one it asks for it. */
static bool write_live(const cli_request *request, const fv_desk_options *options, fv_text *page, fv_faults *faults)
{
    size_t length = 0;
    char *engine = read_engine(faults);
    char *bytes = engine && request->operand
                      ? fv_read_whole(request->operand, fv_plantfile_limits_default().bytes_most, &length, faults)
                      : NULL;
    fv_desk_options quiet = *options;
    quiet.unanswered = true;
    fv_desk *changed = bytes ? cli_desk(request, bytes, length, &quiet, faults) : NULL;
    const char *text = fv_desk_text(changed, &length);
    const bool able = text || (engine && !request->operand);
    fv_desk *desk =
        able ? fv_desk_new(text, length, request->operand ? request->operand : "plant.xml", options, faults) : NULL;
    if (desk && fv_desk_live(desk, engine, page) == FV_FAIL)
        page->failed = true;
    const bool good = desk != NULL;
    fv_desk_free(desk);
    fv_desk_free(changed);
    free(bytes);
    free(engine);
    return good;
}

cli_exit cli_live(const cli_request *request, const fv_page_options *page)
{
    const fv_desk_options options = {.units = page->units,
                                     .units_of_plant = !request->value[OPTION_UNITS],
                                     .clock = page->clock,
                                     .twelve_hours = page->twelve_hours,
                                     .date = page->date};
    fv_text text = {0};
    fv_faults *faults = fv_faults_new();
    cli_exit code = faults ? CLI_GOOD : cli_no_memory();
    if (code == CLI_GOOD)
        code =
            write_live(request, &options, &text, faults) ? cli_deliver(request, NULL, &text) : cli_say_faults(faults);
    fv_text_free(&text);
    fv_faults_free(faults);
    return code;
}
