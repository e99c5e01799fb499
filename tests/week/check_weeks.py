#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Reads timetables as the test of the search writes them, and holds each to its rules, week after week: hands, boiler,
places, vessels, cooling, presence. Shares nothing with the program. check_weeks.py FILE: prints how many were checked."""
import csv
import sys

ORDER = ("fill", "hang on", "light", "take off", "empty")


def check(name, problem, people, entries, kinds):
    slots, places, vessels, taken_off = problem[:4]
    tasks = {what: problem[4 + 2 * i:6 + 2 * i] for i, what in enumerate(ORDER)}
    times = problem[14:]
    batches = {k + 1: times[3 * k:3 * k + 3] for k in range(len(times) // 3)}
    # Of alike vessels batch k is k of them; else each kind says how many of it every batch has.
    kinds = kinds or [[places, vessels] + list(batches)]
    places = [k[0] for k in kinds]
    of = {b: [k[1 + b] for k in kinds] for b in batches}
    kind_of = [k for k, row in enumerate(kinds) for _ in range(row[1])]
    week, weeks = 7 * slots, 6
    if len(people) != week:
        raise ValueError(f"{name}: people of {len(people)} slots")
    busy = [0] * ((weeks + 2) * week)
    clean, filled, hung, held = [row[1] for row in kinds], *([0] * len(kinds) for _ in range(3))
    hot, off = [[] for _ in kinds], [[] for _ in kinds]
    later = []  # (slot, what, kind, payload)
    boiler_free = 0
    for turn in range(weeks):
        # The first weeks bring the plant into its rhythm: what is not there yet is left out, but nothing may break.
        settled = turn >= weeks - 2
        for slot, what, which in entries:
            now = turn * week + slot
            for event in sorted(e for e in later if e[0] <= now):
                later.remove(event)
                _, done, k, load = event
                if done == "fill":
                    filled[k] += 1
                elif done == "hang on":
                    hung[k] += 1
                elif done == "steam":
                    hot[k].extend([load[1]] * load[0])
                elif done == "take off":
                    off[k].append(load)
                    held[k] -= 1
                elif done == "empty":
                    clean[k] += 1
                    held[k] -= 0 if taken_off else 1
            length, hands = tasks[what]
            k = 0 if what == "light" else kind_of[which]
            cooled = off[k] if taken_off else hot[k]
            possible = {"fill": clean[k] > 0, "hang on": filled[k] > 0 and held[k] < places[k],
                        "light": what == "light" and all(h >= n for h, n in zip(hung, of[which])),
                        "take off": bool(hot[k]), "empty": any(c <= now for c in cooled)}[what]
            if what == "light":
                steam, attended, cool = batches[which]
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
                clean[k] -= 1
                later.append((now + length, "fill", k, None))
            elif what == "hang on":
                filled[k] -= 1
                held[k] += 1
                later.append((now + length, "hang on", k, None))
            elif what == "light":
                boiler_free = now + steam
                for kind, count in enumerate(of[which]):
                    hung[kind] -= count
                    later.append((now + steam, "steam", kind, (count, now + steam + cool)))
            elif what == "take off":
                later.append((now + length, "take off", k, hot[k].pop(0)))
            else:
                cooled.remove(min(cooled))
                later.append((now + length, "empty", k, None))
            if held[k] > places[k] or held[k] < 0:
                raise ValueError(f"{name}: slot {slot}: {held[k]} vessels on {places[k]} places")


def main():
    problems = {}
    with open(sys.argv[1], encoding="utf-8") as file:
        for row in csv.reader(file):
            entry = problems.setdefault(row[1], {"entries": [], "kinds": []})
            if row[0] == "entry":
                entry["entries"].append((int(row[2]), row[3], int(row[4])))
            elif row[0] == "kind":
                entry["kinds"].append([int(x) for x in row[2:]])
            else:
                entry[row[0]] = [int(x) for x in row[2:]]
    for name, p in problems.items():
        check(name, p["problem"], p["people"], p["entries"], p["kinds"])
    print(f"{len(problems)} weeks checked, {sum(len(p['entries']) for p in problems.values())} tasks")


main()
