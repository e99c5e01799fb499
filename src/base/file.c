/* SPDX-License-Identifier: MIT */
/* Files that are written whole or not at all, several of them together. */
#include "base/place.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { NAMES_TRIED = 100 };

struct fv_file {
    char *name;      /* as the caller calls it */
    char *place;     /* where it lands: links followed */
    char *temporary; /* beside it, whole; NULL once it has moved */
    char *old;       /* what stood there before, under another name; NULL: nothing, or not kept */
    bool moved, was_there;
};

static void say(const char *name, int why, fv_faults *faults)
{
    fv_error(faults, FV_ERR_SYSTEM, (fv_loc){name, 0}, "cannot write: %s; what stood there before is untouched",
             strerror(why));
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

/* A name beside the place that no other process uses: short, for the place's own may be as long as names can be. */
static char *name_beside(const char *place, unsigned number)
{
    fv_text name = {0};
    fv_text_add(&name, "%.*sfarvessel-%ld-%u.tmp", (int)(strrchr(place, '/') - place + 1), place, (long)getpid(),
                number);
    if (name.failed)
        fv_text_free(&name);
    return name.text;
}

/* Makes the file under a name of its own. A new file gets what the umask allows; an old one keeps its permissions, but
 * for the bits by which it would run as somebody else. */
static int make_temporary(fv_file *file)
{
    struct stat old;
    int fd = -1;
    for (unsigned i = 0; i < NAMES_TRIED && fd < 0; i++) {
        free(file->temporary);
        file->temporary = name_beside(file->place, i);
        if (!file->temporary) {
            errno = ENOMEM;
            return -1;
        }
        fd = open(file->temporary, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (fd < 0 && errno != EEXIST)
            break;
    }
    file->was_there = stat(file->place, &old) == 0;
    if (fd < 0 || !file->was_there || fchmod(fd, old.st_mode & 0777) == 0)
        return fd;
    const int why = errno;
    close(fd);
    unlink(file->temporary);
    errno = why;
    return -1;
}

static bool fill(fv_file *file, const char *bytes, size_t length)
{
    int fd = make_temporary(file);
    if (fd < 0) {
        const int why = errno;
        free(file->temporary);
        file->temporary = NULL;
        errno = why;
        return false;
    }
    bool good = write_all(fd, bytes, length) && fsync(fd) == 0;
    const int why = errno;
    if (close(fd) != 0 && good)
        return false;
    errno = why;
    return good;
}

fv_file *fv_file_begin(const char *path, const char *bytes, size_t length, fv_faults *faults)
{
    fv_file *file = calloc(1, sizeof *file);
    struct stat info;
    int why = ENOMEM;
    if (file && (file->name = strdup(path ? path : "")) != NULL) {
        file->place = base_place(path);
        if (file->place && stat(file->place, &info) == 0 && S_ISDIR(info.st_mode))
            why = EISDIR;
        else if (file->place && fill(file, bytes, length))
            return file;
        else
            why = errno;
    }
    say(path, why, faults);
    fv_file_drop(file);
    return NULL;
}

/* Keeps what stands there under another name, as far as the file system can, so that it can be put back. */
static void keep_old(fv_file *file)
{
    for (unsigned i = 0; file->was_there && i < NAMES_TRIED; i++) {
        file->old = name_beside(file->place, NAMES_TRIED + i);
        if (file->old && link(file->place, file->old) == 0)
            return;
        free(file->old);
        file->old = NULL;
        if (errno != EEXIST)
            return;
    }
}

static void put_back(fv_file *file)
{
    if (file->moved && file->old) {
        if (rename(file->old, file->place) == 0) {
            free(file->old);
            file->old = NULL;
        }
    } else if (file->moved && !file->was_there) {
        unlink(file->place);
    }
}

bool fv_files_commit(fv_file *const files[], size_t count, fv_faults *faults)
{
    bool good = true;
    size_t several = 0;
    for (size_t i = 0; i < count; i++)
        several += files[i] != NULL;
    for (size_t i = 0; i < count && good; i++) {
        fv_file *file = files[i];
        if (!file)
            continue;
        if (several > 1)
            keep_old(file);
        good = file->moved = rename(file->temporary, file->place) == 0;
        if (good) {
            free(file->temporary);
            file->temporary = NULL;
        } else {
            say(file->name, errno, faults);
        }
    }
    for (size_t i = count; i-- > 0;) {
        if (files[i] && !good)
            put_back(files[i]);
        fv_file_drop(files[i]);
    }
    return good;
}

void fv_file_drop(fv_file *file)
{
    if (!file)
        return;
    if (file->temporary)
        unlink(file->temporary);
    if (file->old)
        unlink(file->old);
    free(file->temporary);
    free(file->old);
    free(file->place);
    free(file->name);
    free(file);
}

bool fv_file_is_special(const char *path)
{
    struct stat info;
    return path && stat(path, &info) == 0 && !S_ISREG(info.st_mode) && !S_ISDIR(info.st_mode);
}

int fv_file_open_special(const char *path, fv_faults *faults)
{
    if (!path) {
        fv_error_null(faults, __func__);
        return -1;
    }
    /* A pipe without a reader would make open wait for one. */
    int fd = open(path, O_WRONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);
    const int flags = fd >= 0 ? fcntl(fd, F_GETFL) : -1;
    if (flags >= 0 && fcntl(fd, F_SETFL, flags & ~O_NONBLOCK) == 0)
        return fd;
    if (fd < 0 && errno == ENXIO)
        fv_error(faults, FV_ERR_SYSTEM, (fv_loc){path, 0},
                 "cannot write: it is no plain file, and nobody reads from it");
    else
        say(path, errno, faults);
    if (fd >= 0)
        close(fd);
    return -1;
}

bool fv_write_whole(const char *path, const char *bytes, size_t length, fv_faults *faults)
{
    if (!fv_file_is_special(path)) {
        fv_file *file = fv_file_begin(path, bytes, length, faults);
        return file && fv_files_commit(&file, 1, faults);
    }
    int fd = fv_file_open_special(path, faults);
    if (fd < 0)
        return false;
    bool good = write_all(fd, bytes, length);
    int why = errno;
    if (close(fd) != 0 && good) {
        why = errno;
        good = false;
    }
    if (!good)
        say(path, why, faults);
    return good;
}
