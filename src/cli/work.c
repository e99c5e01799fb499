/* SPDX-License-Identifier: MIT */
/* Long work: a progress line where stderr is a terminal, and Ctrl-C that is served at once. Nothing is written before
 * the work is done, so ending in its midst leaves nothing half done; while files are written, signals wait. */
#include "cli/cli.h"

#include <math.h>
#include <signal.h>
#include <string.h>
#include <unistd.h>

static bool is_terminal(void)
{
    return isatty(STDERR_FILENO) == 1;
}

/* Seconds left if the rest goes as what was; NaN before that can be told. */
static double left(const cli_work *work, double share)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    const double past = difftime(now.tv_sec, work->began.tv_sec) + 1e-9 * (double)(now.tv_nsec - work->began.tv_nsec);
    return past > 2 && share > 0.05 ? past * (1 - share) / share : (double)NAN;
}

static bool tick(void *context, double share, const char *what)
{
    const cli_work *work = context;
    if (!work->shown)
        return true;
    fprintf(stderr, "\r\033[K%s", what);
    if (share >= 0.0)
        fprintf(stderr, ": %.0f %%", 100.0 * share);
    const double seconds = left(work, share);
    if (seconds >= 1)
        fprintf(stderr, ", about %.0f %s left", seconds < 90 ? ceil(seconds) : ceil(seconds / 60),
                seconds < 90 ? "s" : "min");
    return true;
}

/* Only what a signal handler may call. The default action ends the process once the handler returns. The text begins
 * with four bytes that clear a terminal's line. */
static void say(const char *text, size_t length, int number)
{
    size_t skip = is_terminal() ? 0 : 4;
    ssize_t written = write(STDERR_FILENO, text + skip, length - skip);
    (void)written;
    raise(number);
}

static void say_stopped(int number)
{
    static const char text[] = "\r\033[Kfarvessel: stopped; nothing was written\n";
    say(text, sizeof text - 1, number);
}

static void say_kept(int number)
{
    static const char text[] = "\r\033[Kfarvessel: stopped; the rows so far are kept, --resume goes on\n";
    say(text, sizeof text - 1, number);
}

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

static void end_well(int number)
{
    (void)number;
    if (is_terminal() && write(STDERR_FILENO, "\r\033[K", 4) < 0)
        _exit(CLI_SYSTEM);
    _exit(CLI_GOOD);
}

void cli_signals_say(void)
{
    listen(say_stopped);
}

void cli_signals_keep(void)
{
    listen(say_kept);
}

void cli_signals_end_well(void)
{
    listen(end_well);
}

void cli_signals_plain(void)
{
    listen(SIG_DFL);
}

void cli_work_begin(cli_work *work)
{
    work->shown = is_terminal();
    work->progress = (fv_progress){.tick = tick, .context = work};
    clock_gettime(CLOCK_MONOTONIC, &work->began);
}

static bool tick_until_signal(void *context, double share, const char *what)
{
    return fv_progress_tick(context, share, what) && !cli_signals_came();
}

fv_progress cli_stoppable(const fv_progress *shown)
{
    cli_signals_hold();
    return (fv_progress){.tick = tick_until_signal, .context = (void *)shown};
}

void cli_work_end(const cli_work *work)
{
    if (work->shown)
        fputs("\r\033[K", stderr);
}

static void change_mask(int how)
{
    sigset_t both;
    sigemptyset(&both);
    sigaddset(&both, SIGINT);
    sigaddset(&both, SIGTERM);
    sigprocmask(how, &both, NULL);
}

void cli_signals_hold(void)
{
    change_mask(SIG_BLOCK);
}

void cli_signals_release(void)
{
    change_mask(SIG_UNBLOCK);
}

void cli_signals_end(bool answered)
{
    sigset_t both;
    int number;
    sigemptyset(&both);
    sigaddset(&both, SIGINT);
    sigaddset(&both, SIGTERM);
    while (answered && cli_signals_came())
        sigwait(&both, &number);
    cli_signals_release();
}

bool cli_signals_came(void)
{
    sigset_t waiting;
    sigpending(&waiting);
    return sigismember(&waiting, SIGINT) == 1 || sigismember(&waiting, SIGTERM) == 1;
}
