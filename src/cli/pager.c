/* SPDX-License-Identifier: MIT */
/* An answer longer than the terminal's window goes through a pager, which begins at its top: $PAGER, less where that is
 * not set, none where it is empty or cat. */
#include "cli/cli.h"

#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

enum { NOT_FOUND = 127 << 8 }; /* what pclose says where the shell found no such pager */

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

bool cli_page(const fv_text *answer)
{
    const char *pager = getenv("PAGER");
    const size_t rows = window_rows();
    if (rows == 0 || lines_of(answer) < rows)
        return false;
    if (!pager)
        pager = "less";
    if (!*pager || strcmp(pager, "cat") == 0)
        return false;
    setenv("LESS", "FRX", 0); /* leave at the end of what fits, keep colours and the screen */
    cli_signals_release();    /* the pager must not inherit that they wait */
    FILE *pipe = popen(pager, "w");
    void (*before)(int) = signal(SIGINT, SIG_IGN); /* Ctrl-C is the pager's */
    if (pipe)
        fwrite(answer->text, 1, answer->length, pipe); /* a pager that is left early is no failure */
    const int code = pipe ? pclose(pipe) : -1;
    signal(SIGINT, before);
    cli_signals_hold();
    return pipe && code != NOT_FOUND;
}
