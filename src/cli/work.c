/* SPDX-License-Identifier: MIT */
/* Long work: a progress line where stderr is a terminal, and a clean end when the user asks for it. */
#include "cli/cli.h"

#include <signal.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

/* The only state that outlives a call: a signal handler can reach nothing else. */
static volatile sig_atomic_t stop_signal;

static void on_signal(int number)
{
    stop_signal = number;
}

/* SA_RESETHAND: who asks twice is served at once. */
static void listen(void (*handler)(int))
{
    struct sigaction action;
    memset(&action, 0, sizeof action);
    action.sa_handler = handler;
    action.sa_flags = (int)SA_RESETHAND;
    sigemptyset(&action.sa_mask);
    sigaction(SIGINT, &action, NULL);
    sigaction(SIGTERM, &action, NULL);
}

static bool is_terminal(void)
{
    return isatty(STDERR_FILENO) == 1;
}

static bool tick(void *context, double share, const char *what)
{
    (void)context;
    if (is_terminal() && share >= 0.0)
        fprintf(stderr, "\r\033[K%s: %.0f %%", what, 100.0 * share);
    else if (is_terminal())
        fprintf(stderr, "\r\033[K%s", what);
    return stop_signal == 0;
}

void cli_work_begin(fv_progress *progress)
{
    *progress = (fv_progress){.tick = tick, .context = NULL};
    stop_signal = 0;
    listen(on_signal);
}

bool cli_work_end(void)
{
    if (is_terminal())
        fputs("\r\033[K", stderr);
    return stop_signal != 0;
}

void cli_die_interrupted(void)
{
    fputs("farvessel: stopped; nothing was written\n", stderr);
    listen(SIG_DFL);
    raise(stop_signal);
}
