#!/bin/sh
# SPDX-License-Identifier: MIT
# The pressure drop of every line of the demo, recomputed independently.
set -e
"${BUILD:-build}/farvessel" flow networks/far-bench.xml --format json --no-turndown | /usr/bin/python3 tests/steady/demo_lines.py
