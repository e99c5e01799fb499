/* SPDX-License-Identifier: MIT */
/* try: the page of a plant, to write in; in the browser of this machine, until Ctrl-C. */
#include "cli/cli.h"

#include "farvessel/serve.h"
#include "print/safe.h"

#include <math.h>
#include <signal.h>
#include <spawn.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

extern char **environ;

/* Opens the address with the desktop's own opener, which does not wait for Ctrl-C. */
static void open_browser(const char *url)
{
    char name[] = "xdg-open", address[128];
    char *const arguments[] = {name, address, NULL};
    posix_spawnattr_t attributes;
    sigset_t none;
    pid_t child;
    snprintf(address, sizeof address, "%s", url);
    sigemptyset(&none);
    if (posix_spawnattr_init(&attributes) != 0)
        return;
    posix_spawnattr_setsigmask(&attributes, &none);
    posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETSIGMASK);
    if (posix_spawnp(&child, name, NULL, &attributes, arguments, environ) != 0)
        fprintf(stderr, "There is no xdg-open here; open the address by hand.\n");
    posix_spawnattr_destroy(&attributes);
}

static void say_ready(void *context, const char *url)
{
    const cli_request *request = context;
    fv_text line = {0};
    fv_text_add(&line, "%s\n", url);
    cli_send(STDOUT_FILENO, &line);
    fv_text_free(&line);
    fprintf(stderr, "Open this address in a browser on this machine; only it can. Ctrl-C ends.\n"
                    "The file stays as it is until Save.\n");
    if (request->value[OPTION_OPEN])
        open_browser(url);
}

static bool is_over(void *context)
{
    (void)context;
    return cli_signals_came();
}

/* Ctrl-C ends what is asked on the page, too. */
static bool goes_on(void *context, double share, const char *what)
{
    (void)share, (void)what;
    return !is_over(context);
}

/* Beside the plant; NULL: out of memory. */
static char *recovery_of(const char *path)
{
    static const char suffix[] = ".unsaved";
    char *name = malloc(strlen(path) + sizeof suffix);
    if (name)
        sprintf(name, "%s%s", path, suffix);
    return name;
}

/* Nothing that was changed is lost with the window. */
static void keep_unsaved(const fv_desk *desk, const char *recovery)
{
    size_t length;
    const char *text = fv_desk_unsaved(desk) ? fv_desk_text(desk, &length) : NULL;
    fv_faults *faults = text ? fv_faults_new() : NULL;
    if (faults && !fv_write_whole(recovery, text, length, faults))
        cli_say_faults(faults);
    else if (faults)
        fprintf(stderr, "\nNot saved; the plant as it was last stands in %s\n", recovery);
    fv_faults_free(faults);
}

static cli_exit serve(const cli_request *request, fv_desk *desk, const char *path, double port, fv_faults *faults)
{
    char *recovery = recovery_of(path);
    if (!recovery)
        return cli_no_memory();
    if (access(recovery, F_OK) == 0) {
        fv_text file = {0};
        print_shell_word(recovery, &file);
        fprintf(stderr,
                "%s holds what an earlier session did not save: `farvessel try %s` opens it; the next takes its "
                "place.\n",
                recovery, file.text ? file.text : recovery);
        fv_text_free(&file);
    }
    union {
        const cli_request *given;
        void *context;
    } said = {.given = request};
    const fv_serve_options options = {
        .port = (unsigned)port, .ready = say_ready, .is_over = is_over, .context = said.context};
    cli_signals_hold();
    const bool good = fv_serve(desk, &options, faults) == FV_OK;
    cli_signals_end(true);
    keep_unsaved(desk, recovery);
    free(recovery);
    return good ? CLI_GOOD : cli_say_faults(faults);
}

static cli_exit there_already(const char *path)
{
    fv_text file = {0};
    print_shell_word(path, &file);
    cli_usage("%s is there already: `farvessel try %s`, or --new with another name", path,
              file.text ? file.text : path);
    fv_text_free(&file);
    return CLI_INPUT;
}

cli_exit cli_try(const cli_request *request)
{
    fv_kept_file file = {.path = NULL};
    double port = 0.0;
    fv_desk_options options = {
        .units = cli_units(request, NULL), .units_of_plant = !request->value[OPTION_UNITS], .clock = NAN};
    const bool is_new = request->value[OPTION_NEW] || !request->operand;
    const char *path = request->operand ? request->operand : "plant.xml";
    if (strcmp(path, "-") == 0)
        return cli_usage("Save needs a file of its own; as in `farvessel try plant.xml`");
    if (is_new && access(path, F_OK) == 0)
        return there_already(path);
    if (is_new && request->setting_count > 0)
        return cli_usage("--set needs a plant; there is none yet");
    cli_exit code = cli_read_start(request, &options.clock, &options.twelve_hours);
    if (code == CLI_GOOD)
        code = cli_read_whole(request, OPTION_PORT, 1.0, 65535.0, &port);
    if (code != CLI_GOOD)
        return code;
    fv_faults *faults = fv_faults_new();
    fv_desk *desk = NULL;
    const fv_progress progress = {.tick = goes_on};
    options.progress = &progress;
    options.keep = fv_kept_file_write;
    options.context = &file;
    file.path = path;
    if (faults && is_new)
        desk = fv_desk_new(NULL, 0, path, &options, faults);
    else if (faults && fv_kept_file_read(&file, path, faults))
        desk = cli_desk(request, file.bytes, file.length, &options, faults);
    if (!faults)
        code = cli_no_memory();
    else
        code = desk ? serve(request, desk, path, port, faults) : cli_say_faults(faults);
    fv_desk_free(desk);
    fv_kept_file_free(&file);
    fv_faults_free(faults);
    return code;
}
