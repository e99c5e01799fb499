/* SPDX-License-Identifier: MIT */
/* The one other program that a request may need: a pager or a browser. It is begun by a child from before the fence,
 * which waits until it is sent something, and ends where nothing comes. */
#include "cli/cli.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

static void wait_and_become(int in, void (*become)(void))
{
    struct pollfd sent = {.fd = in, .events = POLLIN};
    signal(SIGINT, SIG_IGN); /* meant for what is computed, whose answer is still to come; else the input ends */
    signal(SIGTERM, SIG_IGN);
    while (poll(&sent, 1, -1) < 0 && errno == EINTR)
        continue;
    if (!(sent.revents & POLLIN))
        _exit(0);
    cli_signals_plain();
    if (in != STDIN_FILENO) { /* it is where that was shut at the start */
        dup2(in, STDIN_FILENO);
        close(in);
    }
    become();
    _exit(CLI_NO_SUCH_PROGRAM);
}

void cli_helper_start(cli_helper *helper, void (*become)(void))
{
    int ends[2];
    if (pipe(ends) != 0)
        return;
    helper->child = fork();
    if (helper->child == 0) {
        close(ends[1]);
        wait_and_become(ends[0], become);
    }
    close(ends[0]);
    helper->in = ends[1];
    fcntl(helper->in, F_SETFD, FD_CLOEXEC);
}

bool cli_helper_send(const cli_helper *helper, const char *bytes, size_t length)
{
    if (helper->child <= 0)
        return false;
    for (size_t done = 0; done < length;) {
        const ssize_t n = write(helper->in, bytes + done, length - done);
        if (n < 0 && errno != EINTR)
            break; /* left early, which is its own affair */
        done += n > 0 ? (size_t)n : 0;
    }
    close(helper->in);
    return true;
}
