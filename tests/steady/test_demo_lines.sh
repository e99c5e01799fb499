#!/bin/sh
# SPDX-License-Identifier: MIT
# The pressure drop of every line of the demo, recomputed independently, without what its joints cost.
set -e
"${BUILD:-build}/farvessel" flow networks/far-bench.xml --set site.tees=none --format json --no-turndown | /usr/bin/python3 tests/steady/demo_lines.py
