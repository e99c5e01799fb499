/* SPDX-License-Identifier: MIT */
/* What the program cannot do behind its fence, each tried by a child that puts it up in the same way, and beside it
 * that the same can be done without it; and what still works. Source: seccomp(2), landlock(7), the kernel's error for
 * each. */
#define _GNU_SOURCE
#include "cli/cli.h"

#include <errno.h>
#include <fcntl.h>
#include <pthread.h>
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>

static char folder[] = "/tmp/farvessel-fence-XXXXXX";
static char within[64], inside[64], outside[64], moved[64], target[64];

/* What the try says, 0 or errno, in a child; with the fence where `fenced`. */
static int in_child(int (*attempt)(void), bool fenced)
{
    const char *const targets[] = {NULL, target};
    int status = 0;
    fflush(NULL);
    const pid_t child = fork();
    if (child == 0) {
        if (fenced)
            cli_fence(targets, 2, NULL);
        _exit(attempt());
    }
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFEXITED(status));
    return WEXITSTATUS(status);
}

static int opens_socket(void)
{
    return socket(AF_INET, SOCK_STREAM, 0) >= 0 ? 0 : errno;
}

static void *socket_in_thread(void *code)
{
    *(int *)code = opens_socket();
    return NULL;
}

static int opens_socket_in_thread(void)
{
    pthread_t thread;
    int code = 0;
    if (pthread_create(&thread, NULL, socket_in_thread, &code) != 0)
        return 255;
    pthread_join(thread, NULL);
    return code;
}

static int starts_program(void)
{
    int nowhere = open("/dev/null", O_WRONLY);
    dup2(nowhere, STDOUT_FILENO);
    execl("/bin/sh", "sh", "-c", "exit 0", (char *)NULL);
    return errno;
}

static int writes_at(const char *path)
{
    const int fd = open(path, O_WRONLY | O_CREAT | O_TRUNC, 0600);
    return fd < 0 ? errno : write(fd, "x", 1) == 1 ? 0 : 255;
}

static int writes_outside(void)
{
    return writes_at(outside);
}

static int removes_outside(void)
{
    return unlink(outside) == 0 ? 0 : errno;
}

static int writes_inside(void)
{
    const int code = writes_at(inside);
    return code ? code : rename(inside, moved) == 0 ? 0 : errno;
}

static int reads(void)
{
    const int fd = open("/etc/passwd", O_RDONLY);
    char byte;
    return fd >= 0 && read(fd, &byte, 1) == 1 ? 0 : errno;
}

static bool kernel_has(const char *name, int denied, int with)
{
    if (with == denied)
        return true;
    assert_int_equal(with, 0);
    printf("this kernel has no %s: nothing to be seen\n", name);
    return false;
}

static void reaches_no_network(void **state)
{
    (void)state;
    assert_int_equal(in_child(opens_socket, false), 0);
    if (kernel_has("seccomp", EPERM, in_child(opens_socket, true)))
        assert_int_equal(in_child(opens_socket_in_thread, true), EPERM);
}

static void starts_no_program(void **state)
{
    (void)state;
    assert_int_equal(in_child(starts_program, false), 0);
    kernel_has("seccomp", EPERM, in_child(starts_program, true));
}

static void writes_where_it_was_told_alone(void **state)
{
    (void)state;
    assert_int_equal(in_child(writes_outside, false), 0);
    assert_int_equal(in_child(writes_inside, true), 0);
    assert_int_equal(in_child(reads, true), 0);
    if (kernel_has("landlock", EACCES, in_child(writes_outside, true)))
        assert_int_equal(in_child(removes_outside, true), EACCES);
    assert_int_equal(in_child(removes_outside, false), 0);
}

static int make_folders(void **state)
{
    (void)state;
    if (!mkdtemp(folder))
        return 1;
    snprintf(outside, sizeof outside, "%s/outside", folder);
    snprintf(within, sizeof within, "%s/in", folder);
    snprintf(inside, sizeof inside, "%s/in/part", folder);
    snprintf(moved, sizeof moved, "%s/in/whole", folder);
    snprintf(target, sizeof target, "%s/in/answer", folder);
    return mkdir(within, 0700);
}

static int remove_folders(void **state)
{
    (void)state;
    unlink(moved);
    return rmdir(within) + rmdir(folder);
}

static void become_copier(void)
{
    int file = open(moved, O_WRONLY | O_CREAT | O_TRUNC, 0600);
    dup2(file, STDOUT_FILENO);
    execl("/bin/cat", "cat", (char *)NULL);
}

/* Ctrl-C reaches all of a terminal's foreground: what waits for the answer outlives the stop of what finds it. */
static void a_waiting_helper_outlives_ctrl_c(void **state)
{
    (void)state;
    cli_helper helper = {0};
    char got[8] = {0};
    int status;
    cli_helper_start(&helper, become_copier);
    assert_true(helper.child > 0);
    usleep(50000); /* until it waits */
    kill(helper.child, SIGINT);
    usleep(50000);
    assert_true(cli_helper_send(&helper, "answer", 6));
    assert_int_equal(waitpid(helper.child, &status, 0), helper.child);
    assert_true(WIFEXITED(status) && WEXITSTATUS(status) == 0);
    const int file = open(moved, O_RDONLY);
    assert_int_equal(read(file, got, sizeof got - 1), 6);
    close(file);
    unlink(moved);
    assert_string_equal(got, "answer");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reaches_no_network),
        cmocka_unit_test(starts_no_program),
        cmocka_unit_test(writes_where_it_was_told_alone),
        cmocka_unit_test(a_waiting_helper_outlives_ctrl_c),
    };
    return cmocka_run_group_tests(tests, make_folders, remove_folders);
}
