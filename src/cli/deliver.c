/* SPDX-License-Identifier: MIT */
/* The answer leaves here, whole. */
#include "cli/cli.h"

#include "farvessel/plantfile.h"

#include <errno.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* True if both names lead to the same file: the plant must not be overwritten by its own answer. */
static bool same_file(const char *a, const char *b)
{
    struct stat sa, sb;
    return stat(a, &sa) == 0 && stat(b, &sb) == 0 && sa.st_dev == sb.st_dev && sa.st_ino == sb.st_ino;
}

/* As for the plant, which may come from standard input. */
static bool is_stdout(const char *path)
{
    return strcmp(path, "-") == 0;
}

static bool is_writable_target(const cli_request *request, cli_option_id option, const char *name)
{
    const char *path = request->value[option];
    if (path && option == OPTION_SAVE && is_stdout(path)) {
        cli_usage("--save needs a file; the answer has standard output");
        return false;
    }
    if (!path || !request->operand || !same_file(path, request->operand))
        return true;
    cli_usage("--%s %s would overwrite the plant file itself", name, path);
    return false;
}

/* A reader that has seen enough and closed the pipe is no failure. */
static cli_exit to_stdout(const fv_text *answer)
{
    for (size_t done = 0; done < answer->length;) {
        ssize_t n = write(STDOUT_FILENO, answer->text + done, answer->length - done);
        if (n >= 0) {
            done += (size_t)n;
        } else if (errno == EPIPE) {
            return CLI_GOOD;
        } else if (errno != EINTR) {
            fprintf(stderr, "farvessel: cannot write the answer: %s\n", strerror(errno));
            return CLI_SYSTEM;
        }
    }
    return CLI_GOOD;
}

static bool save(const cli_request *request, const fv_plant *plant, fv_faults *faults)
{
    const char *path = request->value[OPTION_SAVE];
    fv_text xml = {0};
    bool good = fv_plantfile_write(plant, &xml) && !xml.failed;
    if (!good)
        fv_error(faults, FV_ERR_SYSTEM, (fv_loc){path, 0}, "out of memory");
    good = good && fv_write_whole(path, xml.text, xml.length, faults);
    fv_text_free(&xml);
    return good;
}

cli_exit cli_deliver(const cli_request *request, const fv_plant *plant, const fv_text *answer)
{
    const char *named = request->value[OPTION_OUTPUT], *output = named && !is_stdout(named) ? named : NULL;
    if (!is_writable_target(request, OPTION_OUTPUT, "output") || !is_writable_target(request, OPTION_SAVE, "save"))
        return CLI_INPUT;
    if (answer->failed || !answer->text) {
        fputs("farvessel: out of memory\n", stderr);
        return CLI_SYSTEM;
    }
    fv_faults *faults = fv_faults_new();
    cli_signals_hold();
    cli_signals_plain();
    bool good = faults && (!plant || !request->value[OPTION_SAVE] || save(request, plant, faults)) &&
                (!output || fv_write_whole(output, answer->text, answer->length, faults));
    cli_signals_release();
    cli_exit code = !good ? cli_say_faults(faults) : output ? CLI_GOOD : to_stdout(answer);
    fv_faults_free(faults);
    return code;
}
