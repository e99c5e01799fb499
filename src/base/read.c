/* SPDX-License-Identifier: MIT */
/* Reading a file whole, up to a limit, without waiting for input that never comes. */
#include "farvessel/base.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { PIECE = 65536 };

/* Opens a file to read, without waiting at a pipe for somebody to write into it. `first`: a byte that was read to find
 * out whether there is anybody, or -1. */
static int open_to_read(const char *path, int *first)
{
    unsigned char byte;
    struct stat info;
    *first = -1;
    int fd = open(path, O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);
    if (fd < 0)
        return -1;
    int why = 0;
    if (fstat(fd, &info) != 0) {
        why = errno;
    } else if (S_ISDIR(info.st_mode)) {
        why = EISDIR;
    } else if (S_ISFIFO(info.st_mode)) {
        const ssize_t n = read(fd, &byte, 1);
        if (n == 1)
            *first = byte;
        else if (n == 0)
            why = EPIPE; /* nobody is at the other end */
        else if (errno != EAGAIN)
            why = errno;
    }
    const int flags = why ? -1 : fcntl(fd, F_GETFL);
    if (flags >= 0 && fcntl(fd, F_SETFL, flags & ~O_NONBLOCK) == 0)
        return fd;
    why = why ? why : errno;
    close(fd);
    errno = why;
    return -1;
}

/* NULL: errno says why. */
static char *read_all(int fd, int first, size_t most, size_t *length)
{
    void *bytes = NULL;
    size_t used = 0, capacity = 0;
    ssize_t n = 1;
    while (n != 0 && used <= most) {
        if (!fv_grow(&bytes, &capacity, used + PIECE, 1)) {
            free(bytes);
            errno = ENOMEM;
            return NULL;
        }
        if (first >= 0) {
            *(char *)bytes = (char)first;
            used = 1;
            first = -1;
        }
        n = read(fd, (char *)bytes + used, capacity - used);
        if (n < 0 && errno != EINTR) {
            const int why = errno;
            free(bytes);
            errno = why;
            return NULL;
        }
        used += n > 0 ? (size_t)n : 0;
    }
    *length = used;
    return bytes;
}

char *fv_read_whole(const char *path, size_t most, size_t *length, fv_faults *faults)
{
    if (!length) {
        fv_error_null(faults, __func__);
        return NULL;
    }
    const bool standard = path && strcmp(path, "-") == 0;
    const fv_loc loc = {standard ? "standard input" : path, 0};
    int first = -1;
    const int fd = standard ? STDIN_FILENO : path ? open_to_read(path, &first) : -1;
    char *bytes = fd >= 0 ? read_all(fd, first, most, length) : NULL;
    const int why = path ? errno : EINVAL;
    if (fd >= 0 && !standard)
        close(fd);
    if (!bytes && why == EPIPE)
        fv_error(faults, FV_ERR_INPUT, loc, "cannot read: it is no plain file but a pipe, and nobody writes into it");
    else if (!bytes)
        fv_error(faults, why == ENOMEM ? FV_ERR_SYSTEM : FV_ERR_INPUT, loc, "cannot read: %s", strerror(why));
    else if (*length > most)
        fv_error(faults, FV_ERR_INPUT, loc, "longer than the limit of %zu bytes (%.3g MiB)", most,
                 (double)most / 1048576.0);
    if (bytes && *length > most) {
        free(bytes);
        return NULL;
    }
    return bytes;
}
