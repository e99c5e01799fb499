/* SPDX-License-Identifier: MIT */
/* Progress, and files that are written whole or not at all. */
#include "farvessel/base.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

bool fv_progress_tick(const fv_progress *progress, double share, const char *what)
{
    return !progress || !progress->tick || progress->tick(progress->context, share, what);
}

static bool write_all(int fd, const char *bytes, size_t length)
{
    while (length > 0) {
        ssize_t n = write(fd, bytes, length);
        if (n < 0 && errno == EINTR)
            continue;
        if (n <= 0)
            return false;
        bytes += n;
        length -= (size_t)n;
    }
    return true;
}

/* A new file gets what the umask allows; an old one keeps its permissions. */
static mode_t mode_for(const char *path)
{
    struct stat old;
    if (stat(path, &old) == 0)
        return old.st_mode & 07777;
    mode_t mask = umask(0);
    umask(mask);
    return 0666 & ~mask;
}

static bool is_special(const char *path)
{
    struct stat old;
    return stat(path, &old) == 0 && !S_ISREG(old.st_mode);
}

/* A terminal, a pipe or /dev/null cannot be replaced by a rename; it is written in place. */
static bool write_in_place(const char *path, const char *bytes, size_t length)
{
    FILE *f = fopen(path, "wb");
    if (!f)
        return false;
    bool good = fwrite(bytes, 1, length, f) == length;
    return (fclose(f) == 0) && good;
}

bool fv_write_whole(const char *path, const char *bytes, size_t length, fv_faults *faults)
{
    fv_loc loc = {path, 0};
    fv_text temporary = {0};
    bool good = false;
    if (is_special(path)) {
        good = write_in_place(path, bytes, length);
    } else {
        fv_text_add(&temporary, "%s.XXXXXX", path);
        int fd = temporary.failed ? -1 : mkstemp(temporary.text);
        if (fd >= 0) {
            good = write_all(fd, bytes, length) && fchmod(fd, mode_for(path)) == 0 && fsync(fd) == 0;
            good = (close(fd) == 0) && good;
            good = good && rename(temporary.text, path) == 0;
            int why = errno;
            if (!good)
                unlink(temporary.text);
            errno = why;
        }
    }
    if (!good)
        fv_error(faults, FV_ERR_SYSTEM, loc, "cannot write: %s; what stood there before is untouched",
                 temporary.failed ? "out of memory" : strerror(errno));
    fv_text_free(&temporary);
    return good;
}
