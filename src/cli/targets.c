/* SPDX-License-Identifier: MIT */
/* Where answer and plant may be written: never over what is read, nor over each other. */
#include "cli/cli.h"

#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* "-" names standard output, as standard input for the plant. */
static bool is_standard(const char *path)
{
    return strcmp(path, "-") == 0;
}

/* True if a plain file stands behind the descriptor, and the path leads to it. */
static bool is_behind(int fd, const char *path)
{
    struct stat open_file, named;
    return fstat(fd, &open_file) == 0 && S_ISREG(open_file.st_mode) && stat(path, &named) == 0 &&
           named.st_dev == open_file.st_dev && named.st_ino == open_file.st_ino;
}

static bool is_plant(const cli_request *request, const char *path)
{
    if (!request->operand)
        return false;
    return is_standard(request->operand) ? is_behind(STDIN_FILENO, path) : fv_file_same(path, request->operand);
}

static const char *file_of(const cli_request *request, cli_option_id option)
{
    const char *path = request->value[option];
    return path && !is_standard(path) ? path : NULL;
}

cli_exit cli_targets(const cli_request *request, cli_target *target)
{
    const char *given = request->value[OPTION_SAVE];
    *target = (cli_target){file_of(request, OPTION_OUTPUT), file_of(request, OPTION_SAVE)};
    if (given && !target->save)
        return cli_usage("--save needs a file; the answer has standard output");
    if (target->output && is_plant(request, target->output))
        return cli_usage("--output %s would overwrite the plant file itself", target->output);
    if (target->save && is_plant(request, target->save))
        return cli_usage("--save %s would overwrite the plant file itself", target->save);
    if (target->save && target->output ? !fv_file_is_special(target->save) && fv_file_same(target->save, target->output)
                                       : target->save && is_behind(STDOUT_FILENO, target->save))
        return cli_usage("--save %s would overwrite the answer", target->save);
    return CLI_GOOD;
}
