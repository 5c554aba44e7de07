#!/usr/bin/python3
"""A made-up season through all its states: books of the demo's household as of six evenings, what the forecast says on each, and its
pictures. The weather is invented: a level that rises from winter to spring, a thaw, a long freeze and a warm spell laid over it.

season-states.py BUILD FOLDER (from the source folder, under tests/headless for the pictures)
"""
import datetime as D, hashlib, json, math, os, subprocess, sys

build, folder = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
DAY = D.timedelta(1)
STATES = [("1-deep-winter", "2026-01-24", False), ("2-before-the-first-run", "2026-02-21", False), ("3-first-run", "2026-02-27", True),
          ("4-long-freeze", "2026-03-09", True), ("5-warm-spell", "2026-03-26", True), ("6-budding", "2026-04-18", True)]
TAPPED = "2026-02-23"


def air(day):
    """Low and high."""
    at = (day - D.date(2026, 1, 1)).days
    level = -9 + 17 * (1 - math.cos(math.pi * at / 160)) / 2 + 2.2 * math.sin(at / 3.1)
    if D.date(2026, 2, 23) <= day <= D.date(2026, 3, 4):
        level += 5
    if D.date(2026, 3, 6) <= day <= D.date(2026, 3, 15):
        level -= 9
    if D.date(2026, 3, 25) <= day <= D.date(2026, 4, 1):
        level += 8
    if day >= D.date(2026, 4, 10):
        level += 5
    return round(level - 5.5, 1), round(level + 5, 1)


def uid(*parts):
    return hashlib.md5("-".join(map(str, parts)).encode()).hexdigest()


def book(now, is_tapped):
    made = json.load(open("demo/book.json"))
    for kind in ("gathering", "pour", "dip", "day", "night", "outlook"):
        made[kind] = []
    made["station_day"] = [one for one in made["station_day"] if one["day"] < "2026"]
    taps = [one for one in made["tap"] if one["season"] == 2026]
    made["tap"] = [one for one in made["tap"] if one["season"] != 2026] + [{**one, "set_on": TAPPED} for one in taps if is_tapped]
    day, number = D.date(2026, 1, 1), 1000
    while day <= now:
        low, high = air(day)
        number += 1
        made["station_day"].append({"id": number, "uid": uid("day", day), "station": 1, "day": str(day), "low_c": low, "high_c": high,
                                    "low_mark": "plain", "high_mark": "plain"})
        day += DAY
    ahead = [air(now + (i + 1) * DAY) for i in range(9)]
    made["outlook"] = [{"id": 1, "uid": uid("outlook", now), "station": 1, "issued_utc": f"{now}T20:00:00Z", "fetched_utc": f"{now}T21:00:00Z",
                        "body": f"from {now + DAY}\nlow " + " ".join(str(low) for low, _ in ahead) + "\nhigh " + " ".join(str(high) for _, high in ahead)}]
    day, number, waiting = D.date.fromisoformat(TAPPED), 0, 0.0
    while is_tapped and day < now:
        day += DAY
        low, high = air(day)
        waiting += max(0, min(high, 8)) * (1.6 if low < -1 else 0.7) * math.exp(-(day - D.date.fromisoformat(TAPPED)).days / 45)
        if waiting >= 8 and (day.toordinal() % 2 == 0 or day == now):
            number += 1
            made["gathering"].append({"id": number, "uid": uid("gathering", day), "gathered_utc": f"{day}T21:30:00Z", "scope": "bush",
                                      "measured_by": "volume", "volume_l": round(waiting, 1), "reading_brix": 2.1, "instrument": "refractometer_atc",
                                      "sample_c": 12, "clarity": "clear", "smell": "fresh"})
            waiting = 0.0
    return made


os.makedirs(folder, exist_ok=True)
for name, date, is_tapped in STATES:
    now = D.date.fromisoformat(date)
    source, path = f"{folder}/{name}.json", f"{folder}/{name}.frostrun"
    json.dump(book(now, is_tapped), open(source, "w"))
    for old in (path, path + "-wal", path + "-shm"):
        if os.path.exists(old):
            os.remove(old)
    subprocess.run([f"{build}/demo/make-book", source, path, f"{date}T18:30:00-04:00"], check=True)
    said = subprocess.run([f"{build}/src/cli/frostrun-cli", "forecast", "--book", path, "--now", f"{date}T18:30"], capture_output=True, text=True,
                          check=True).stdout
    print(f"== {name}\n" + said.split("\n\n")[0] + "\n")
    if os.environ.get("DISPLAY"):
        subprocess.run([f"{build}/src/ui/frostrun", "--now", f"{date}T18:30", "--pictures", f"{folder}/{name}", path], check=True,
                       env={**os.environ, "GSETTINGS_SCHEMA_DIR": f"{build}/data"})
