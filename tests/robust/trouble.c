/* SPDX-License-Identifier: MIT */
/* Preloaded into the program by the scripts beside it: makes allocations and writes fail on purpose.
 *
 * TROUBLE_ALLOC=n: the n-th allocation (from 0) gives NULL.
 *
 * TROUBLE_ALLOC_ALL=n: so do all after it.
 *
 * TROUBLE_COUNT=file: the number of allocations goes there at the end.
 *
 * TROUBLE_EACH=folder: before every allocation the process forks, and in the child it fails (as with _ALLOC; at every
 * third in one more child as with _ALLOC_ALL). `N`, `N-all` there: a child's standard output, unless it ended with code
 * 4, said why and wrote nothing; `list`: N or N-all and the code of each. TROUBLE_FIRST=n, TROUBLE_STEP=n with it: the
 * first n one by one, of the others every n-th.
 *
 * TROUBLE_WRITE_MOST=n: a write takes at most n bytes, and every third is interrupted before it takes any.
 *
 * TROUBLE_WRITE_FULL=n: after n bytes the disk is full.
 *
 * TROUBLE_WRITE_KILL=n: after n bytes the process is killed.
 *
 * Only what the program itself, the C library, KLU, Jansson and GSL ask for is counted: libxml2's schema reader
 * and UDUNITS do not survive failing allocations inside themselves, and are not ours to mend. Writes to
 * standard error are left alone. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <link.h>
#include <limits.h>
#include <signal.h>
#include <stdatomic.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

extern void *__libc_malloc(size_t size);
extern void *__libc_calloc(size_t count, size_t size);
extern void *__libc_realloc(void *block, size_t size);

enum { RANGES_MOST = 32 };
static struct {
    ElfW(Addr) from, to;
} range[RANGES_MOST];
static int range_count, count_fd = -1, list_fd = -1;
static const char *each;
static bool ready;
static long fail_at = -1, fail_from = -1, first_ones, step = 1, write_most = -1, write_full = -1, write_kill = -1;
static atomic_long asked, written, writes;

static int note_range(struct dl_phdr_info *info, size_t size, void *first)
{
    (void)size;
    static const char *const ours[] = {"libc.so", "libklu", "libamd", "libcolamd", "libbtf", "libjansson", "libgsl."};
    bool wanted = *(bool *)first; /* the program comes first */
    *(bool *)first = false;
    for (size_t i = 0; i < sizeof ours / sizeof *ours; i++)
        wanted = wanted || strstr(info->dlpi_name, ours[i]);
    for (int i = 0; wanted && i < info->dlpi_phnum && range_count < RANGES_MOST; i++)
        if (info->dlpi_phdr[i].p_type == PT_LOAD && (info->dlpi_phdr[i].p_flags & PF_X)) {
            range[range_count].from = info->dlpi_addr + info->dlpi_phdr[i].p_vaddr;
            range[range_count].to = range[range_count].from + info->dlpi_phdr[i].p_memsz;
            range_count++;
        }
    return 0;
}

static long number_of(const char *name)
{
    const char *text = getenv(name);
    return text ? atol(text) : -1;
}

__attribute__((constructor)) static void begin(void)
{
    bool first = true;
    dl_iterate_phdr(note_range, &first);
    fail_at = number_of("TROUBLE_ALLOC");
    fail_from = number_of("TROUBLE_ALLOC_ALL");
    write_most = number_of("TROUBLE_WRITE_MOST");
    write_full = number_of("TROUBLE_WRITE_FULL");
    write_kill = number_of("TROUBLE_WRITE_KILL");
    const char *path = getenv("TROUBLE_COUNT");
    count_fd =
        path ? open(path, O_WRONLY | O_CREAT | O_TRUNC, 0600) : -1; /* later the program's fence would not let it */
    char text[PATH_MAX];
    each = getenv("TROUBLE_EACH");
    first_ones = number_of("TROUBLE_FIRST");
    step = number_of("TROUBLE_STEP") > 0 ? number_of("TROUBLE_STEP") : 1;
    if (each && snprintf(text, sizeof text, "%s/list", each) < (int)sizeof text)
        list_fd = open(text, O_WRONLY | O_CREAT | O_TRUNC | O_APPEND, 0600);
    ready = true;
}

__attribute__((destructor)) static void end(void)
{
    char text[32];
    int n = snprintf(text, sizeof text, "%ld\n", (long)asked);
    ready = false;
    if (count_fd >= 0 && write(count_fd, text, (size_t)n) == n)
        close(count_fd);
}

static int opened(const char *path)
{
    return open(path, O_WRONLY | O_CREAT | O_TRUNC | O_APPEND, 0600);
}

/* In a child from here on. */
static void begin_child(const char *out, const char *err, long n, bool all)
{
    dup2(opened(out), STDOUT_FILENO);
    dup2(opened(err), STDERR_FILENO);
    list_fd = count_fd = -1;
    *(all ? &fail_from : &fail_at) = n;
}

/* True: this is the child. The parent waits for it and lists how it ended. */
static bool forked(long n, bool all)
{
    char out[PATH_MAX], err[PATH_MAX], line[64];
    snprintf(out, sizeof out, "%s/%ld%s", each, n, all ? "-all" : "");
    snprintf(err, sizeof err, "%s/err", each);
    int status = 0;
    const pid_t child = fork();
    if (child == 0) {
        begin_child(out, err, n, all);
        return true;
    }
    struct stat wrote = {.st_size = 0}, said = {.st_size = 0};
    if (child < 0 || waitpid(child, &status, 0) != child || stat(out, &wrote) != 0 || stat(err, &said) != 0)
        status = -1;
    const int code = WIFEXITED(status) ? WEXITSTATUS(status) : 128;
    if (code == 4 && wrote.st_size == 0 && said.st_size > 0)
        unlink(out);
    const int length = snprintf(line, sizeof line, "%ld%s %d\n", n, all ? "-all" : "", code);
    if (write(list_fd, line, (size_t)length) != length)
        abort();
    return false;
}

/* The program's fence would keep children from writing their files. */
int prctl(int option, ...)
{
    va_list rest;
    unsigned long more[4];
    va_start(rest, option);
    for (int i = 0; i < 4; i++)
        more[i] = va_arg(rest, unsigned long);
    va_end(rest);
    errno = EPERM;
    return each ? -1 : (int)syscall(SYS_prctl, option, more[0], more[1], more[2], more[3]);
}

static bool fails(const void *caller)
{
    if (!ready)
        return false;
    bool counted = false;
    for (int i = 0; i < range_count; i++)
        counted = counted || ((ElfW(Addr))caller >= range[i].from && (ElfW(Addr))caller < range[i].to);
    if (!counted)
        return false;
    long n = asked++;
    if (list_fd >= 0 && (n < first_ones || (n - first_ones) % step == 0)) {
        ready = false; // what is asked for meanwhile does not count
        const bool child = forked(n, false) || (n % 3 == 0 && forked(n, true));
        ready = true;
        (void)child;
    }
    if (n != fail_at && (fail_from < 0 || n < fail_from))
        return false;
    errno = ENOMEM; // a good place for a breakpoint
    return true;
}

void *malloc(size_t size)
{
    return fails(__builtin_return_address(0)) ? NULL : __libc_malloc(size);
}
void *calloc(size_t count, size_t size)
{
    return fails(__builtin_return_address(0)) ? NULL : __libc_calloc(count, size);
}
void *realloc(void *block, size_t size)
{
    return fails(__builtin_return_address(0)) ? NULL : __libc_realloc(block, size);
}

static ssize_t really_write(int fd, const void *bytes, size_t count)
{
    static ssize_t (*next)(int, const void *, size_t);
    if (!next)
        *(void **)&next = dlsym(RTLD_NEXT, "write");
    return next(fd, bytes, count);
}

ssize_t write(int fd, const void *bytes, size_t count)
{
    if (!ready || fd == STDERR_FILENO)
        return really_write(fd, bytes, count);
    if (write_most >= 0 && writes++ % 3 == 2) {
        errno = EINTR;
        return -1;
    }
    size_t most = write_most >= 0 && count > (size_t)write_most ? (size_t)write_most : count;
    long limit = write_full >= 0 ? write_full : write_kill;
    if (limit >= 0) {
        size_t left = written < limit ? (size_t)(limit - written) : 0;
        if (left == 0 && write_kill >= 0)
            raise(SIGKILL);
        if (left == 0) {
            errno = ENOSPC;
            return -1;
        }
        most = most > left ? left : most;
    }
    ssize_t n = really_write(fd, bytes, most);
    if (n > 0)
        written += n;
    return n;
}
