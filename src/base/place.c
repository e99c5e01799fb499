/* SPDX-License-Identifier: MIT */
/* Where a file that is written under some name really lands: links are followed, whether or not the file is there. */
#define _XOPEN_SOURCE 700 /* realpath */
#include "base/place.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { LINKS_MOST = 40, NAME_ROOM = 4096 };

/* Where a link leads; takes over its name. */
static char *follow(char *path)
{
    char leads_to[NAME_ROOM + 1];
    const ssize_t length = readlink(path, leads_to, NAME_ROOM);
    fv_text next = {0};
    if (length >= 0) {
        const char *slash = strrchr(path, '/');
        leads_to[length] = '\0';
        if (leads_to[0] != '/' && slash)
            fv_text_add(&next, "%.*s", (int)(slash - path + 1), path);
        fv_text_add(&next, "%s", leads_to);
    }
    free(path);
    if (next.failed)
        errno = ENOMEM;
    if (!next.failed)
        return next.text;
    fv_text_free(&next);
    return NULL;
}

static char *past_links(const char *path)
{
    struct stat info;
    char *at = strdup(path);
    for (int links = 0; at && lstat(at, &info) == 0 && S_ISLNK(info.st_mode); links++) {
        if (links == LINKS_MOST) {
            free(at);
            errno = ELOOP;
            return NULL;
        }
        at = follow(at);
    }
    return at;
}

/* The folder of `path`, absolute and without links. */
static char *folder_of(const char *path, const char *slash)
{
    if (!slash)
        return realpath(".", NULL);
    if (slash == path)
        return realpath("/", NULL);
    char *folder = strndup(path, (size_t)(slash - path));
    char *real = folder ? realpath(folder, NULL) : NULL;
    free(folder);
    return real;
}

char *base_place(const char *path)
{
    if (!path || !*path) {
        errno = ENOENT;
        return NULL;
    }
    char *at = past_links(path);
    const char *slash = at ? strrchr(at, '/') : NULL;
    char *folder = at ? folder_of(at, slash) : NULL;
    fv_text place = {0};
    if (folder)
        fv_text_add(&place, "%s/%s", strcmp(folder, "/") == 0 ? "" : folder, slash ? slash + 1 : at);
    const int why = place.failed ? ENOMEM : errno;
    if (place.failed)
        fv_text_free(&place);
    free(folder);
    free(at);
    errno = why;
    return place.text;
}

bool fv_file_same(const char *a, const char *b)
{
    struct stat sa, sb;
    if (!a || !b)
        return false;
    if (stat(a, &sa) == 0 && stat(b, &sb) == 0)
        return sa.st_dev == sb.st_dev && sa.st_ino == sb.st_ino;
    char *pa = base_place(a), *pb = base_place(b);
    bool same = pa && pb && strcmp(pa, pb) == 0;
    free(pa);
    free(pb);
    return same;
}
