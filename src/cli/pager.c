/* SPDX-License-Identifier: MIT */
/* An answer longer than the terminal's window goes through a pager, which begins at its top: $PAGER, less where that is
 * not set, none where it is empty or cat. */
#include "cli/cli.h"

#include <errno.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/wait.h>
#include <unistd.h>

static size_t lines_of(const fv_text *answer)
{
    size_t lines = 0;
    for (size_t i = 0; i < answer->length; i++)
        lines += answer->text[i] == '\n';
    return lines;
}

/* Rows of the window on standard output; 0: it is no terminal, or does not say. */
static size_t window_rows(void)
{
    struct winsize window;
    if (isatty(STDOUT_FILENO) != 1 || ioctl(STDOUT_FILENO, TIOCGWINSZ, &window) != 0)
        return 0;
    return window.ws_row;
}

/* The pager; NULL: none is wanted. */
static const char *wanted(void)
{
    const char *pager = getenv("PAGER");
    if (!pager)
        return "less";
    return *pager && strcmp(pager, "cat") != 0 ? pager : NULL;
}

static void become_pager(void)
{
    setenv("LESS", "FRX", 0); /* leave at the end of what fits, keep colours and the screen */
    execl("/bin/sh", "sh", "-c", wanted(), (char *)NULL);
}

void cli_page_prepare(cli_helper *helper)
{
    if (window_rows() > 0 && wanted())
        cli_helper_start(helper, become_pager);
}

bool cli_page(const cli_helper *helper, const fv_text *answer)
{
    const size_t rows = window_rows();
    int status = -1;
    if (rows == 0 || lines_of(answer) < rows)
        return false;
    void (*before)(int) = signal(SIGINT, SIG_IGN); /* Ctrl-C is the pager's */
    const bool sent = cli_helper_send(helper, answer->text, answer->length);
    while (sent && waitpid(helper->child, &status, 0) < 0 && errno == EINTR)
        continue;
    signal(SIGINT, before);
    return sent && !(WIFEXITED(status) && WEXITSTATUS(status) == CLI_NO_SUCH_PROGRAM);
}
