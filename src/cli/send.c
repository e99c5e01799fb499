/* SPDX-License-Identifier: MIT */
/* An answer into standard output, a device or a pipe, which may be slow, full or gone. */
#include "cli/cli.h"

#include <errno.h>
#include <poll.h>
#include <string.h>
#include <unistd.h>

enum { PIECE = 4096, PATIENCE_MS = 100 }; /* a pipe that has room at all has it for a piece */

/* False if a signal to end came while nobody read. */
static bool wait_for_room(int fd)
{
    struct pollfd room = {.fd = fd, .events = POLLOUT};
    while (poll(&room, 1, PATIENCE_MS) == 0)
        if (cli_signals_came())
            return false;
    return !cli_signals_came();
}

cli_exit cli_send(int fd, const fv_text *answer)
{
    for (size_t done = 0; done < answer->length;) {
        const size_t left = answer->length - done;
        if (!wait_for_room(fd))
            return CLI_SYSTEM; /* the signal says the rest */
        ssize_t n = write(fd, answer->text + done, left < PIECE ? left : PIECE);
        if (n >= 0) {
            done += (size_t)n;
        } else if (errno == EPIPE) {
            return CLI_GOOD; /* a reader that has seen enough and closed the pipe is no failure */
        } else if (errno != EINTR && errno != EAGAIN) {
            return cli_failed("cannot write the answer: %s", strerror(errno));
        }
    }
    return CLI_GOOD;
}
