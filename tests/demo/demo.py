#!/usr/bin/python3
"""The demo's household, one TAP line each: demo.py MAKE_BOOK CLI SOURCE_ROOT.

The loader and the command line are run as demo/start runs them; the kept night is held against a boil of its own."""
import json
import pathlib
import subprocess
import sys
import tempfile

make_book, cli, root = sys.argv[1:4]
source = pathlib.Path(root, "demo/book.json")
book = json.loads(source.read_text())
number = 0


def case(name, good, seen=""):
    global number
    number += 1
    if not good:
        print("".join(f"# {line}\n" for line in str(seen).splitlines()), end="")
    print(f"{'ok' if good else 'not ok'} {number} - {name}")


def run(*args, text=None):
    return subprocess.run(args, input=text, capture_output=True, text=True)


def cautions(answer, code):
    return [c["cooker"] for c in json.loads(answer.stdout or "{}").get("cautions", []) if c["caution"] == code]


print("1..9")
with tempfile.TemporaryDirectory() as folder:
    path = pathlib.Path(folder, "demo.frostrun")
    made = run(make_book, source, path, "2026-03-19T18:30:00-04:00")
    case("the book is made", made.returncode == 0 and path.exists(), made.stderr)
    again = run(make_book, source, path, "2026-03-19T18:30:00-04:00")
    case("a book that is there is not written over", again.returncode == 1 and "already" in again.stderr, again.stderr)
    tonight = (cli, "tonight", "--json", "--book", path, "--now", "2026-03-19T18:30")
    first, second, kettle = run(*tonight), run(*tonight), run(*tonight, "--cooker", "kettle base")
    case("its evening has a plan", first.returncode == 0 and json.loads(first.stdout)["status"] == "ok", first.stderr)
    case("the same plan comes out every time", first.stdout == second.stdout)
    # Continuous load: 80 % of 15 A is 12 A; 1500 W at 120 V is 12.5 A. 1800 W on 20 A is 15 A of 16 A.
    case("the kettle stays off, for its circuit cannot bear it", cautions(first, "left_off") == ["kettle base"]
         and cautions(first, "circuit_over") == [], first.stdout)
    case("turned on all the same, it is a danger", cautions(kettle, "circuit_over") == ["kettle base"], kettle.stdout)

night, pot = book["night"][0], book["vessel"][0]
plate = next(c for c in book["cooker"] if c["id"] == night["cooker"])


def boil(ratio):
    sap = {"brix": night["sap_brix"], "temp_c": night["sap_c"]}
    asked = {"altitude_m": book["household"][0]["altitude_m"], "air_c": night["air_c"],
             "vessel": {"shape": "cylinder", "radius_m": pot["diameter_m"] / 2, "height_m": pot["height_m"]},
             "cooker": {"power_w": plate["power_w"], "heat_ratio": ratio, "wall_w_per_k": 0},
             "start": {"volume_l": night["pan_l"], **sap}, "feed": {"volume_l": night["bucket_l"], **sap},
             "hold_volume_l": pot["hold_l"], "stop": {"cutoff_volume_l": pot["cutoff_l"]}}
    with tempfile.NamedTemporaryFile("w", suffix=".json") as file:
        file.write(json.dumps(asked))
        file.flush()
        answer = run(cli, "boil", "--json", file.name)
    return json.loads(answer.stdout) if answer.returncode == 0 else {"error": answer.stderr}


planned, happened = boil(night["heat_ratio"]), boil(night["learned_ratio"])
case("the kept night is what was planned", "error" not in planned
     and abs(planned["time_s"] - (night["plan_end_utc"] - night["start_utc"])) < 60
     and abs(planned["feed_dry_s"] - (night["plan_dry_utc"] - night["start_utc"])) < 60
     and abs(planned["left_brix"] - night["plan_brix"]) < 0.1
     and abs(planned["energy_kwh"] - night["plan_energy_kwh"]) < 0.02, planned)
case("what was learned explains the meter", "error" not in happened
     and abs(happened["energy_kwh"] - night["meter_kwh"]) < 0.1, happened)
case("the cooker knows what was learned", plate["heat_ratio"] == night["learned_ratio"], plate)
