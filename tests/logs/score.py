# SPDX-License-Identifier: MIT
"""Scores fit and forecast against logs whose truth is known: python3 score.py PROGRAM [full|half] [FOLDER...]
Prints a line a vessel, and last: coverage of the 80 % band of core times, mean error and median width in minutes."""
import datetime
import json
import pathlib
import statistics
import subprocess
import sys

here = pathlib.Path(__file__).parent


def answer(program, folder, truth, half):
    lit = truth["fire_lit"][:16]
    command = [program, "fit", folder / "plant.xml", "--log", folder / "log.csv", "--lit", lit, "--format", "json"]
    if half:
        last = max(v["core_target_s"] for v in truth["vessels"].values())
        now = datetime.datetime.fromisoformat(truth["fire_lit"]) + datetime.timedelta(seconds=last / 2)
        command += ["--now", now.strftime("%Y-%m-%d %H:%M")]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    if done.returncode:
        sys.exit(f"{folder.name}: {done.stderr}")
    return json.loads(done.stdout)


def main():
    program = sys.argv[1]
    half = len(sys.argv) > 2 and sys.argv[2] == "half"
    folders = [pathlib.Path(x) for x in sys.argv[3:]] or sorted(x.parent for x in here.glob("*/truth.json"))
    inside, errors, widths = 0, [], []
    for folder in folders:
        truth = json.loads((folder / "truth.json").read_text())
        for v in answer(program, folder, truth, half)["vessels"]:
            true = truth["vessels"][v["vessel"]]["core_target_s"]
            good = v["core_10_s"] <= true <= v["core_90_s"]
            inside += good
            errors.append((v["core_50_s"] - true) / 60)
            widths.append((v["core_90_s"] - v["core_10_s"]) / 60)
            print(f"{folder.name} {v['vessel']}: true {true / 60:.0f}, {v['core_10_s'] / 60:.0f} to "
                  f"{v['core_90_s'] / 60:.0f} min{'' if good else '  outside'}")
    print(f"coverage {inside / len(errors):.2f} of {len(errors)}, mean error {statistics.mean(errors):.1f} min, "
          f"median width {statistics.median(widths):.1f} min")


main()
