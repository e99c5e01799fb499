/* SPDX-License-Identifier: MIT */
/* The fence that the program puts around itself before it reads what others wrote: no network, no other program, and
 * files are written only in the folders of those that the request names. seccomp(2) and landlock(7); where the kernel
 * has neither, or has other calls than those known here, the program works without, and nothing is said. */
#define _GNU_SOURCE
#include "cli/cli.h"

#include "base/place.h"

#include <stdlib.h>
#include <string.h>

#if defined(__linux__) && defined(__has_include)
#if __has_include(<linux/landlock.h>) && __has_include(<linux/seccomp.h>)
#define HAS_FENCES
#endif
#endif

#ifdef HAS_FENCES
#include <errno.h>
#include <fcntl.h>
#include <linux/audit.h>
#include <linux/filter.h>
#include <linux/landlock.h>
#include <linux/seccomp.h>
#include <stddef.h>
#include <sys/prctl.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

#if defined(__x86_64__)
#define MACHINE AUDIT_ARCH_X86_64
#elif defined(__aarch64__)
#define MACHINE AUDIT_ARCH_AARCH64
#elif defined(__riscv) && __riscv_xlen == 64
#define MACHINE AUDIT_ARCH_RISCV64
#else
#define MACHINE 0 /* its calls are not known here */
#endif

/* ---- calls ---- */

#define DENY BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ERRNO | EPERM)
#define DENY_CALL(number) BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, (number), 0, 1), DENY
#define LOAD(member) BPF_STMT(BPF_LD | BPF_W | BPF_ABS, offsetof(struct seccomp_data, member))

/* Sockets are the way to the network, io_uring a second way to all calls; calls of another machine's numbering (32
 * bits, x32) are a way around both. */
static void deny_calls(void)
{
    struct sock_filter filter[] = {
        LOAD(arch),
        BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, MACHINE, 1, 0),
        DENY,
        LOAD(nr),
#if defined(__x86_64__)
        BPF_JUMP(BPF_JMP | BPF_JGE | BPF_K, 0x40000000, 0, 1),
        DENY,
#endif
        DENY_CALL(SYS_socket),
        DENY_CALL(SYS_execve),
        DENY_CALL(SYS_execveat),
        DENY_CALL(SYS_io_uring_setup),
        BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ALLOW),
    };
    const struct sock_fprog program = {sizeof filter / sizeof *filter, filter};
    if (MACHINE != 0)
        prctl(PR_SET_SECCOMP, SECCOMP_MODE_FILTER, &program);
}

/* ---- files ---- */

#ifndef UNFENCED_FILES
#define UNFENCED_FILES 0 /* 1: a build that counts which lines are run writes down at its end what it counted */
#endif

#define FILE_RIGHTS (LANDLOCK_ACCESS_FS_WRITE_FILE | 1ull << 14) /* 14: truncate, since the third version */
#define FOLDER_RIGHTS                                                                                                  \
    (FILE_RIGHTS | LANDLOCK_ACCESS_FS_REMOVE_DIR | LANDLOCK_ACCESS_FS_REMOVE_FILE | LANDLOCK_ACCESS_FS_MAKE_CHAR |     \
     LANDLOCK_ACCESS_FS_MAKE_DIR | LANDLOCK_ACCESS_FS_MAKE_REG | LANDLOCK_ACCESS_FS_MAKE_SOCK |                        \
     LANDLOCK_ACCESS_FS_MAKE_FIFO | LANDLOCK_ACCESS_FS_MAKE_BLOCK | LANDLOCK_ACCESS_FS_MAKE_SYM)

typedef struct {
    int ruleset;
    unsigned long long known; /* rights that the kernel knows */
} file_fence;

static void allow(const file_fence *fence, const char *path, unsigned long long rights)
{
    struct landlock_path_beneath_attr rule = {.allowed_access = rights & fence->known};
    rule.parent_fd = open(path, O_PATH | O_CLOEXEC);
    if (rule.parent_fd < 0)
        return; /* what is not there cannot be written either */
    syscall(SYS_landlock_add_rule, fence->ruleset, LANDLOCK_RULE_PATH_BENEATH, &rule, 0);
    close(rule.parent_fd);
}

/* The folder that a path stands in. */
static bool allow_around(const file_fence *fence, const char *path)
{
    const char *slash = strrchr(path, '/');
    char *folder = slash ? strndup(path, (size_t)(slash - path) + 1) : strdup(".");
    if (folder)
        allow(fence, folder, FOLDER_RIGHTS);
    free(folder);
    return folder != NULL;
}

/* Where it is written, and beside where a link to it stands. False: out of memory. */
static bool allow_target(const file_fence *fence, const char *path)
{
    if (!path || strcmp(path, "-") == 0)
        return true;
    allow(fence, path, FILE_RIGHTS); /* a device or a pipe */
    char *place = base_place(path);
    const bool good = place ? allow_around(fence, place) : errno != ENOMEM;
    free(place);
    return good && allow_around(fence, path);
}

static void deny_files(const char *const *targets, size_t count, const char *folder)
{
    const long version = syscall(SYS_landlock_create_ruleset, NULL, 0, LANDLOCK_CREATE_RULESET_VERSION);
    file_fence fence = {.known = version < 3 ? FOLDER_RIGHTS & ~(1ull << 14) : FOLDER_RIGHTS};
    const struct landlock_ruleset_attr handled = {.handled_access_fs = fence.known | LANDLOCK_ACCESS_FS_EXECUTE};
    bool good = version > 0;
    if (!good)
        return;
    fence.ruleset = (int)syscall(SYS_landlock_create_ruleset, &handled, sizeof handled, 0);
    if (fence.ruleset < 0)
        return;
    for (size_t i = 0; i < count; i++)
        good = good && allow_target(&fence, targets[i]);
    if (folder)
        allow(&fence, folder, FOLDER_RIGHTS);
    if (good)
        syscall(SYS_landlock_restrict_self, fence.ruleset, 0);
    close(fence.ruleset);
}

void cli_fence(const char *const *targets, size_t count, const char *folder)
{
    if (prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) != 0)
        return;
    if (!UNFENCED_FILES)
        deny_files(targets, count, folder);
    deny_calls();
}
#else
void cli_fence(const char *const *targets, size_t count, const char *folder)
{
    (void)targets;
    (void)count;
    (void)folder;
}
#endif
