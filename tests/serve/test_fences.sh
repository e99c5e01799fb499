#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# What keeps others out of a session. Beside each attack stands the same request without it, which is served: so each
# refusal is the work of its own fence. What browsers send is from the Fetch standard (Origin, Sec-Fetch-Site) and RFC 9110.
. "$(dirname "$0")/../cli/lib.sh"
cp "$root/networks/far-bench.xml" "$work/plant.xml"
python3 "$root/tests/serve/attacks.py" "$program" "$work"
