#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Runs a command with stderr on a terminal of its own: terminal.py OUT ERR [SECONDS] -- COMMAND...
Standard output goes to OUT, what the terminal saw to ERR. After SECONDS a SIGINT is sent, as Ctrl-C would. Ends with the
command's code, 128 + the signal where one ended it."""
import os
import pty
import signal
import subprocess
import sys
import time

split = sys.argv.index("--")
out, err = sys.argv[1:3]
seconds = float(sys.argv[3]) if split > 3 else None
main, side = pty.openpty()
with open(out, "wb") as out_file, open(err, "wb") as err_file:
    process = subprocess.Popen(sys.argv[split + 1:], stdin=subprocess.DEVNULL, stdout=out_file, stderr=side)
    os.close(side)
    if seconds is not None:
        time.sleep(seconds)
        process.send_signal(signal.SIGINT)
    while True:
        try:
            seen = os.read(main, 4096)
        except OSError:  # the other side is closed
            break
        if not seen:
            break
        err_file.write(seen)
    code = process.wait()
sys.exit(code if code >= 0 else 128 - code)
