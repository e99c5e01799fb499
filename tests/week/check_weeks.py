#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Reads timetables as the test of the search writes them, and holds each to its rules, week after week: hands, boiler,
places, vessels, cooling, presence. Shares nothing with the program. check_weeks.py FILE: prints how many were checked."""
import csv
import sys

ORDER = ("fill", "hang on", "light", "take off", "empty")


def check(name, problem, people, entries):
    slots, places, vessels, taken_off = problem[:4]
    tasks = {what: problem[4 + 2 * i:6 + 2 * i] for i, what in enumerate(ORDER)}
    batches = {k + 1: problem[14 + 3 * k:17 + 3 * k] for k in range(places)}
    week, weeks = 7 * slots, 6
    if len(people) != week:
        raise ValueError(f"{name}: people of {len(people)} slots")
    busy = [0] * ((weeks + 2) * week)
    clean, filled, hung, hot, off = vessels, 0, 0, [], []
    later = []  # (slot, what, payload)
    boiler_free = held = 0
    for turn in range(weeks):
        # The first weeks bring the plant into its rhythm: what is not there yet is left out, but nothing may break.
        settled = turn >= weeks - 2
        for slot, what, count in entries:
            now = turn * week + slot
            for event in sorted(e for e in later if e[0] <= now):
                later.remove(event)
                _, kind, load = event
                if kind == "fill":
                    filled += 1
                elif kind == "hang on":
                    hung += 1
                elif kind == "steam":
                    hot.extend([load[1]] * load[0])
                elif kind == "take off":
                    off.append(load)
                    held -= 1
                elif kind == "empty":
                    clean += 1
                    held -= 0 if taken_off else 1
            length, hands = tasks[what]
            possible = {"fill": clean > 0, "hang on": filled > 0 and held < places, "light": hung >= count,
                        "take off": bool(hot), "empty": any(c <= now for c in (off if taken_off else hot))}[what]
            if what == "light":
                steam, attended, cool = batches[count]
                possible = possible and boiler_free <= now
                if any(people[(now + s) % week] == 0 for s in range(attended)):
                    raise ValueError(f"{name}: slot {slot}: lit, and nobody stays")
            if not possible:
                if settled:
                    raise ValueError(f"{name}: slot {slot}: cannot {what}")
                continue
            for s in range(now, now + length):
                busy[s] += hands
                if busy[s] > people[s % week]:
                    raise ValueError(f"{name}: slot {slot}: too few hands to {what}")
            if what == "fill":
                clean -= 1
                later.append((now + length, "fill", None))
            elif what == "hang on":
                filled -= 1
                held += 1
                later.append((now + length, "hang on", None))
            elif what == "light":
                hung -= count
                boiler_free = now + steam
                later.append((now + steam, "steam", (count, now + steam + cool)))
            elif what == "take off":
                later.append((now + length, "take off", hot.pop(0)))
            else:
                cooled = off if taken_off else hot
                cooled.remove(min(cooled))
                later.append((now + length, "empty", None))
            if held > places or held < 0:
                raise ValueError(f"{name}: slot {slot}: {held} vessels on {places} places")


def main():
    problems = {}
    with open(sys.argv[1], encoding="utf-8") as file:
        for row in csv.reader(file):
            entry = problems.setdefault(row[1], {"entries": []})
            if row[0] == "entry":
                entry["entries"].append((int(row[2]), row[3], int(row[4])))
            else:
                entry[row[0]] = [int(x) for x in row[2:]]
    for name, p in problems.items():
        check(name, p["problem"], p["people"], p["entries"])
    print(f"{len(problems)} weeks checked, {sum(len(p['entries']) for p in problems.values())} tasks")


main()
