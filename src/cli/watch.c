/* SPDX-License-Identifier: MIT */
/* An answer given anew each time a file was saved, until Ctrl-C. The kernel tells of it (inotify(7), of the folder, so
 * that an editor which puts another file in its place is followed); where it cannot, and for what is reached by a link,
 * a look once a second finds it. */
#include "cli/cli.h"

#include <fcntl.h>
#include <poll.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { LOOK_MS = 1000, STILL_MS = 50, PATH_MOST = 4096 };

#if defined(__linux__)
#include <sys/inotify.h>

static int watch_folder(const char *path)
{
    char folder[PATH_MOST];
    const char *slash = strrchr(path, '/');
    const int fd = inotify_init1(IN_NONBLOCK | IN_CLOEXEC);
    if (fd >= 0 && snprintf(folder, sizeof folder, "%.*s.", slash ? (int)(slash - path) + 1 : 0, path) < PATH_MOST)
        inotify_add_watch(fd, folder, IN_CLOSE_WRITE | IN_MOVED_TO);
    return fd;
}
#else
static int watch_folder(const char *path)
{
    (void)path;
    return -1;
}
#endif

/* All zero: it is not there, as while an editor replaces it. */
static struct stat look(const char *path)
{
    struct stat now;
    if (stat(path, &now) != 0)
        memset(&now, 0, sizeof now);
    return now;
}

static bool same(const struct stat *a, const struct stat *b)
{
    return a->st_dev == b->st_dev && a->st_ino == b->st_ino && a->st_size == b->st_size &&
           a->st_mtim.tv_sec == b->st_mtim.tv_sec && a->st_mtim.tv_nsec == b->st_mtim.tv_nsec;
}

/* Until the file is another than the one seen, and stands still; false where nobody reads what is answered. */
static bool wait_until_saved(int told, int out, const char *path, struct stat *seen)
{
    char events[4096];
    struct stat now, before;
    do {
        struct pollfd ends[] = {{.fd = out}, {.fd = told, .events = POLLIN}};
        poll(ends, 2, LOOK_MS);
        if (ends[0].revents)
            return false;
        while (ends[1].revents && read(told, events, sizeof events) > 0)
            continue;
        for (now = look(path), before = *seen; !same(&now, &before); now = look(path)) {
            before = now;
            poll(NULL, 0, STILL_MS);
        }
    } while (now.st_ino == 0 || same(&now, seen));
    *seen = now;
    return true;
}

bool cli_repeats(const cli_request *request)
{
    return request->value[OPTION_WATCH] || request->value[OPTION_FOLLOW];
}

cli_exit cli_watch(const cli_request *request, const char *path, cli_again answer, const void *question)
{
    const int out = request->value[OPTION_OUTPUT] ? -1 : STDOUT_FILENO;
    const bool screen = out >= 0 && isatty(out) == 1;
    const int told = watch_folder(path);
    struct stat seen = look(path);
    cli_exit code = CLI_GOOD;
    cli_signals_end_well();
    for (bool first = true; first || wait_until_saved(told, out, path, &seen); first = false) {
        fputs(screen ? "\033[H\033[2J\033[3J" : first || out < 0 ? "" : "\n", stdout);
        fflush(stdout);
        const cli_exit now = answer(request, question);
        if (first && (now == CLI_SYSTEM || seen.st_ino == 0)) {
            code = now;
            break;
        }
        if (isatty(STDERR_FILENO) == 1)
            fprintf(stderr, "(Answers anew when %s is saved; Ctrl-C ends.)\n", path);
    }
    if (told >= 0)
        close(told);
    return code;
}
