#!/usr/bin/python3
"""A whole season written down through the window by key presses alone, and what the book holds of it afterwards.

sh tests/headless /usr/bin/python3 tests/long/season-by-keyboard.py BUILD [KEEP.frostrun [DAYS]]

BUILD is a build folder; the finished book is copied to KEEP.frostrun; DAYS (40) may be fewer for a look. It takes about ten
minutes.

An invented household of 28 trees and 35 taps writes down 40 days: thirty evenings as they come, the window opened on each,
and the sap of the last ten days in one evening from a notebook. Every row is typed as a person types it: amount, Tab, reading, Tab, sample,
Enter. Some days are one row for the whole bush or one for each group; some rows bring ice, a correction, or a question
that is answered with Keep. Boils and the day's low and high are typed too. Key presses come from xdotool, which is a script
and no person: its milliseconds say how long the program takes, its count of keys how much there is to press. What was typed
is added up here, apart from the program, and held against the book's file and the command line."""
import atexit
import collections
import datetime
import json
import os
import pathlib
import random
import shutil
import sqlite3
import statistics
import subprocess
import sys
import tempfile
import time
import zoneinfo

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "ui"))
from keys import focused, give_keyboard, plain, program_window, wait, walk  # noqa: E402

build = pathlib.Path(sys.argv[1]).resolve()
keep = pathlib.Path(sys.argv[2]).resolve() if len(sys.argv) > 2 else None
N_DAYS = int(sys.argv[3]) if len(sys.argv) > 3 else 40
FIRST = datetime.date(2026, 3, 3)
N_EVENINGS = N_DAYS * 3 // 4
BUSH_DAYS, GROUP_DAYS = (12, 26), (19, 31)
KEYS_A_SECOND = 2  # of somebody with cold hands; common sense, no source
STANDS = ("Lane", "Yard", "Slope", "Creek")
ZONE = zoneinfo.ZoneInfo("America/Toronto")
chance = random.Random(2026)
number = 0


def case(name, good, seen=""):
    global number
    number += 1
    if not good:
        print("".join(f"# {line}\n" for line in str(seen).splitlines()), end="")
    print(f"{'ok' if good else 'not ok'} {number} - {name}", flush=True)
    if not good:
        print("Bail out! the next steps stand on this one", flush=True)
        raise SystemExit(1)


# --- the household and its season, invented ---

def uid():
    return f"{chance.getrandbits(128):032x}"


def household():
    trees, taps, girths = [], [], []
    names = ("Gatepost", "Mailbox", "Lantern", "Ladder", "Woodpile", "Swing", "Henhouse", "Kitchen", "Pump", "Bench", "Cellar",
             "Orchard", "Split Rock", "Twin", "Fern", "Ledge", "Fox", "Owl", "Burnt Stump", "Old One", "Leaner", "Bridge",
             "Ford", "Alder", "Frog", "Willow Bend", "Stile", "Far Corner")
    for i, name in enumerate(names):
        x, y = 14 * (i % 7) + chance.uniform(-4, 4), 16 * (i // 7) + chance.uniform(-5, 5)
        big = i % 4 == 0
        trees.append({"id": i + 1, "uid": uid(), "name": name, "species": "sugar" if i % 3 else "red", "x_m": round(x, 1),
                      "y_m": round(y, 1), "crown": "wide" if big else "middling", "health": "healthy", "permission": "own",
                      "stand": STANDS[i // 7]})
        girths.append({"id": i + 1, "uid": uid(), "tree": i + 1, "measured_on": "2025-10-18", "measure": "girth",
                       "size_m": round(chance.uniform(1.6, 2.0) if big else chance.uniform(0.95, 1.4), 2)})
        for direction in (160, 270)[:2 if big else 1]:
            taps.append({"id": len(taps) + 1, "uid": uid(), "tree": i + 1, "season": 2026, "set_on": "2026-03-01",
                         "set_by": "Nell", "depth_m": 0.038, "bore_m": 0.0079, "height_m": round(chance.uniform(0.7, 1.2), 2),
                         "direction_deg": direction, "spout": "5/16 in, plain", "container": "bucket with a lid",
                         "container_l": 11})
    return {"household": [{"id": 1, "uid": uid(), "name": "Foxglove Corner", "place": "Made up, 240 m up", "zone": str(ZONE),
                           "currency": "CAD", "units": "metric", "sweetness": "brix", "altitude_m": 240, "syrup_brix": 66.9,
                           "jar_l": 0.25}],
            "tariff": [{"id": 1, "uid": uid(), "name": "Day and night", "in_use": True, "holidays": "2026-04-03",
                        "periods": "01-01 12-31 weekday 07:00 21:00 16.5\n01-01 12-31 weekday 21:00 07:00 8.5\n"
                                   "01-01 12-31 weekend 00:00 24:00 8.5\n"}],
            "tree": trees, "girth": girths, "tap": taps,
            "container": [{"id": 1, "uid": uid(), "name": "Spring-house tank", "role": "store", "capacity_l": 200,
                           "place": "shed", "insulation": "wrapped", "material": "stainless"},
                          {"id": 2, "uid": uid(), "name": "Snowbank can", "role": "store", "capacity_l": 40,
                           "place": "snowbank", "insulation": "bare", "material": "stainless"}]}


class Day:
    """Weather of a spring that swings once a week and warms; sap runs when a frost is followed by a thaw."""

    def __init__(self, nth):
        self.date = FIRST + datetime.timedelta(days=nth)
        swing = (0.0, 1.6, 2.8, 1.2, -0.6, -2.4, -1.4)[nth % 7]
        self.low_c = round(-6.0 + 0.13 * nth + 0.7 * swing + chance.uniform(-1.0, 1.0))
        self.high_c = round(2.5 + 0.17 * nth + 1.2 * swing + chance.uniform(-1.0, 1.0))
        self.flow = min(max(0.15 * self.high_c + 0.05 * min(-self.low_c, 6), 0.25), 1.3) * (1.0 if nth < 34 else 0.6)
        self.brix = 2.7 - 0.022 * nth + chance.uniform(-0.1, 0.1)
        self.sample_c = chance.randint(2, 8)
        self.scope = "bush" if nth in BUSH_DAYS else "group" if nth in GROUP_DAYS else "tree"

    def local(self, hour, minute):
        return datetime.datetime.combine(self.date, datetime.time(hour, minute), ZONE)


tree_l = [chance.uniform(0.9, 1.5) * (1.7 if i % 4 == 0 else 1.0) for i in range(28)]
tree_brix = [chance.uniform(-0.25, 0.25) for i in range(28)]


def line_of(day, trees):
    """What a row of so many trees is to say: litres, reading, sample."""
    litres = sum(tree_l[t] * day.flow * chance.uniform(0.93, 1.07) for t in trees)
    brix = statistics.mean(day.brix + tree_brix[t] for t in trees)
    return f"{max(litres, 0.2):.1f}", f"{brix:.1f}", str(day.sample_c)


# --- the window, by keys ---

VIEWS = ("calendar", "log", "store")
KEYSYMS = {".": "period", "-": "minus", ":": "colon", " ": "space"}


def press(*keys):
    """One process for all: a person's pause between keys is not ours to show. Returns how many."""
    if keys:
        subprocess.run(["xdotool", "key", "--clearmodifiers", "--delay", "2", *keys], check=True)
    return len(keys)


def typed(text):
    return [KEYSYMS.get(c, c) for c in text]


def rows(query, *arguments):
    return connection.execute(query, arguments).fetchall()


def one(query, *arguments):
    return rows(query, *arguments)[0][0]


def instant(local):
    return int(local.timestamp())


def choose(*keys):
    """In a list that opens, which takes its time to come and to go."""
    count = press("space")
    time.sleep(0.4)
    count += press(*keys, "Return")
    time.sleep(0.4)
    return count


class Window:
    """The program opened at a moment, its season shown."""

    steps = {}  # how many presses led where, from one visit to the next

    def __init__(self, now):
        environment = dict(os.environ, GTK_A11Y="atspi", G_DEBUG="fatal-criticals",
                           GSETTINGS_SCHEMA_DIR=str(build / "data"))
        self.process = subprocess.Popen([build / "src/ui/frostrun", "--application-id", "org.frostrun.Season", "--now",
                                         now.strftime("%Y-%m-%dT%H:%M"), book], env=environment, stdout=sys.stderr)
        atexit.register(self.close)
        self.app = program_window(self.process.pid).parent
        case(f"the window of {now:%d %B} takes the keyboard", give_keyboard())
        press("ctrl+3")
        self.view = "calendar"
        wait(lambda: self.focus() == "Season Before")

    def close(self):
        if self.process.poll() is None:
            self.process.terminate()
            self.process.wait()

    def focus(self):
        """The name of what has the keyboard, in the newest window."""
        newest = self.app.getChildAtIndex(self.app.childCount - 1)
        return next((plain(n.name or "") for n in walk(newest) if focused(n)), None)

    def go(self, by, name, most=120):
        """Presses a key until what has the keyboard is called so, once around the window and more."""
        count = press(*[by] * self.steps.get((by, name), 0))
        seen = wait(self.focus, 5) or ""
        while name not in seen and count < most:
            count += press(by)
            seen = wait(self.focus, 5) or ""
        if name not in seen:
            case(f"{by} leads to {name}", False, seen)
        self.steps[by, name] = count

    def show(self, view):
        by = VIEWS.index(view) - VIEWS.index(self.view)
        self.view = view
        if by != 0:
            press(*["ctrl+Page_Down" if by > 0 else "ctrl+Page_Up"] * abs(by))

    def lines(self):
        """What the log has rows for, from top to bottom."""
        return wait(lambda: [plain(n.name)[:-len(", amount")] for n in walk(self.app)
                             if n.getRoleName() == "text" and (n.name or "").endswith(", amount")]) or []

    def set_scope(self, from_scope, to_scope):
        """From a row of the log by the keyboard: back to the choice of rows, and in it."""
        keys = press("ctrl+n", *["shift+Tab"] * (1 if from_scope == "bush" else 2))
        keys += choose("Home", *["Down"] * ("bush", "group", "tree", "tap").index(to_scope)) + press("ctrl+n")
        case(f"rows are for each {to_scope}", wait(lambda: (self.focus() or "").endswith(", amount")), self.focus())
        return keys


ICE = ("0.8", "0.4")


class Log:
    """What was typed into the log, by how many keys and how fast."""

    def __init__(self):
        self.ms, self.keys, self.expected = collections.defaultdict(list), collections.defaultdict(list), []
        self.asked, self.unplanned = 0, []

    def row(self, window, day, target, values, kind, planned=False, ice=False):
        amount, brix, sample = values
        before = one("SELECT count(*) FROM gathering")
        start = time.monotonic()
        keys = press(*typed(amount), "Tab", *typed(brix), "Tab", *typed(sample))
        if ice:
            keys += press("Tab", "space")
            time.sleep(0.3)  # the row grows, which no two keys of a person outrun
            keys += press("Tab", *typed(ICE[0]), "Tab", *typed(ICE[1]))
        keys += press("Return")
        arrived = wait_row(before, 1.0 if planned else 5)
        if not arrived:  # it is asked about: back to the button under the row, and over it
            keys += press("shift+Tab", "space")
            self.asked += 1
            arrived = wait_row(before, 5)
            if not planned:
                self.unplanned.append(f"{day.date} {target} {values}")
        if not arrived:
            case(f"{day.date} {target} {values} is in the book", False, window.focus())
        self.ms[kind].append((time.monotonic() - start) * 1e3)
        self.keys[kind].append(keys)
        row = rows("SELECT scope, (SELECT name FROM tree WHERE id = tree), stand, volume_l, reading_brix, sample_c, "
                   "gathered_utc FROM gathering ORDER BY id DESC LIMIT 1")[0]
        seen = (row[0], row[1] or row[2] or "bush", *row[3:6], datetime.datetime.fromtimestamp(row[6], ZONE).date())
        told = (day.scope, target if day.scope != "bush" else "bush", float(amount), float(brix), float(sample), day.date)
        if seen != told:
            case("the row is as typed", False, f"typed {told}\nbook {seen}")
        self.expected.append([day.date, target, float(amount), float(brix)])


def wait_row(before, seconds):
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        if one("SELECT count(*) FROM gathering") > before:
            return True
        time.sleep(0.002)
    return False


def type_day(window, log, nth, day):
    """A day's gathering, the keyboard in the first row that is empty."""
    lines = window.lines()
    if day.scope == "bush":
        case("one row for the bush", len(lines) == 1, lines)
        log.row(window, day, lines[0], line_of(day, range(28)), "whole bush")
    elif day.scope == "group":
        case("a row for each group", sorted(lines) == sorted(STANDS), lines)
        for name in lines:
            log.row(window, day, name, line_of(day, range(7 * STANDS.index(name), 7 * STANDS.index(name) + 7)), "group")
    else:
        case(f"{day.date}: a row for each of 28 trees", sorted(lines) == sorted(TREES), lines)
        odd = lines[5] if nth in (9, 22) else None
        for name in lines:
            values = line_of(day, [TREES.index(name)])
            if name == odd:
                values = (f"{float(values[0]) * 4 + 3:.1f}", f"{float(values[1]) / 3:.1f}", values[2])
            ice = nth == 4 and name in lines[2:5]
            log.row(window, day, name, values, "tree, with ice" if ice else "tree, asked about" if name == odd else "tree",
                    name == odd, ice)


def boil(window, day, litres, when=None):
    """In the store, over to the dialog of a boil."""
    window.go("Tab", "Boil from Spring-house tank")
    before = one("SELECT count(*) FROM pour")
    press("Return")
    wait(lambda: window.app.childCount == 2)
    give_keyboard()
    window.go("Tab", "Amount")
    press(*typed(str(litres)), "Return")
    if when is not None:
        window.go("Tab", "When")
        press("ctrl+a", *typed(f"{when:%Y-%m-%d %H:%M}"), "Return")
    press("alt+k")
    case(f"{day.date}: {litres} L go to the boil", wait(lambda: one("SELECT count(*) FROM pour") > before), window.focus())
    wait(lambda: window.app.childCount == 1)
    give_keyboard()
    seen = rows("SELECT volume_l, poured_utc FROM pour ORDER BY id DESC LIMIT 1")[0]
    told = (float(litres), instant(when) if when is not None else seen[1])
    case("as typed", seen == told, f"{told} {seen}")


def weather(day):
    """The keyboard in the day's low."""
    press(*typed(str(day.low_c)), "Return", "Tab", *typed(str(day.high_c)), "Return")
    told = [(float(day.low_c), float(day.high_c))]
    case(f"{day.date}: {day.low_c} to {day.high_c} °C",
         wait(lambda: rows("SELECT low_c, high_c FROM day WHERE day = ?", day.date.isoformat()) == told),
         rows("SELECT * FROM day WHERE day = ?", day.date.isoformat()))


def ask_cli(command, *options):
    done = subprocess.run([build / "src/cli/frostrun-cli", command, "--book", book, "--json", *options], capture_output=True,
                          text=True)
    if done.returncode != 0:
        raise SystemExit(f"Bail out! {command}: {done.stderr}")
    return json.loads(done.stdout)


def correct(window, log, day):
    """Three rows up from the last one its litres are typed anew; the first are in the diary."""
    litres = f"{log.expected[-4][2] + 0.3:.1f}"
    before = one("SELECT count(*) FROM diary")
    press("Up", "Up", "Up", *typed(litres), "Return")
    case(f"{day.date}: a correction is one more step in the diary",
         wait(lambda: one("SELECT count(*) FROM diary") > before, 5), window.focus())
    log.expected[-4][2] = float(litres)


def undo(window, log):
    """Of the last row, and back."""
    before = one("SELECT count(*) FROM gathering")
    press("ctrl+z")
    case("Ctrl+Z takes the last row out", wait(lambda: one("SELECT count(*) FROM gathering") == before - 1, 5), window.focus())
    press("shift+ctrl+z")
    case("and Shift+Ctrl+Z brings it back", wait(lambda: one("SELECT count(*) FROM gathering") == before, 5))


folder = tempfile.mkdtemp()
book = str(pathlib.Path(folder, "season.frostrun"))
source = pathlib.Path(folder, "book.json")
records = household()
TREES = [tree["name"] for tree in records["tree"]]
source.write_text(json.dumps(records))
subprocess.run([build / "demo/make-book", source, book, "2026-03-01T12:00:00-05:00"], check=True)
connection = sqlite3.connect(f"file:{book}?mode=ro", uri=True)
days = [Day(nth) for nth in range(N_DAYS)]
last_evening = days[-1].local(20, 5)
log = Log()
began = time.monotonic()
there_l, boiled, scope, window = 0.0, [], "tree", None

for nth, day in enumerate(days):
    evening = nth < N_EVENINGS
    if nth <= N_EVENINGS:
        for other in [day] if evening else days[nth:]:  # the thermometer is read every evening
            window = Window(other.local(18, 20) if other != days[-1] else last_evening)
            window.go("shift+Tab", "Low")
            weather(other)
            if not evening and other != days[-1]:
                window.close()
    window.show("log")
    if not evening:  # from the notebook: the days before this one, then one after the other
        press(*["alt+Left"] * (N_DAYS - 1 - nth) if nth == N_EVENINGS else ["alt+Right"])
    press("ctrl+n")
    case("Ctrl+N goes to a row", wait(lambda: (window.focus() or "").endswith(", amount")), window.focus())
    if nth == 0:  # into what it is poured is said once
        window.go("shift+Tab", "Poured into")
        choose("Down")
        press("ctrl+n")
    if day.scope != scope:
        log.keys["other rows"].append(window.set_scope(scope, day.scope))
        scope = day.scope
    type_day(window, log, nth, day)
    if nth == 7:
        correct(window, log, day)
    if nth == N_DAYS - 1:
        undo(window, log)
    there_l = sum(row[2] for row in log.expected) - sum(litres for _, litres in boiled)
    if there_l > 62 and nth < N_DAYS - 1:
        litres = round(there_l, 1)
        window.show("store")
        boil(window, day, litres, None if evening else day.local(21, 0))  # the gatherings are at 20:05
        boiled.append((day.date, litres))
    if evening:
        window.close()

window.close()
minutes = (time.monotonic() - began) / 60
if keep:
    keep.unlink(missing_ok=True)
    with sqlite3.connect(keep) as copy:
        connection.backup(copy)
    copy.close()

# --- how long it took ---

for kind, ms in log.ms.items():
    ms.sort()
    keys = log.keys[kind]
    most = f", 9 in 10 under {ms[int(0.9 * len(ms))]:.0f} ms" if len(ms) >= 20 else ""
    print(f"# a row for {kind}: {len(ms)} rows, {statistics.mean(keys):.1f} keys; by this script, from the first key until the "
          f"row is in the file, median {statistics.median(ms):.0f} ms{most}, longest {ms[-1]:.0f} ms")
whole = statistics.mean(log.keys["whole bush"]) if log.keys["whole bush"] else 0
print(f"# a day as one row: {whole:.0f} keys and Ctrl+3, Ctrl+Page Down, Ctrl+N: {(whole + 3) / KEYS_A_SECOND:.0f} s at "
      f"{KEYS_A_SECOND} keys a second")
print(f"# {log.asked} rows asked about and kept; {sum(map(sum, log.keys.values()))} keys for {len(log.expected)} rows; "
      f"{minutes:.1f} minutes in all")

# --- what the book holds, against what was typed ---

at = last_evening.strftime("%Y-%m-%dT%H:%M")
case("ice with its sweetness in three rows" if N_DAYS > 4 else "no ice yet",
     rows("SELECT ice_l, ice_brix FROM gathering WHERE ice_l IS NOT NULL") == [tuple(map(float, ICE))] * (3 if N_DAYS > 4 else 0))
kept = rows("SELECT gathered_utc, coalesce((SELECT name FROM tree WHERE id = tree), stand, 'bush'), volume_l, reading_brix "
            "FROM gathering WHERE NOT archived ORDER BY id")
told = log.expected
kept = [[datetime.datetime.fromtimestamp(row[0], ZONE).date(), *row[1:]] for row in kept]
for row in told:
    if row[1] not in TREES and row[1] not in STANDS:
        row[1] = "bush"
case(f"{len(told)} rows of {N_DAYS} days are in the book, each as typed, in the order typed", kept == told,
     next(((a, b) for a, b in zip(told, kept) if a != b), (len(told), len(kept))))
case("and nothing was asked about that was not meant to be", not log.unplanned, "\n".join(log.unplanned))

season = ask_cli("season", "--now", at)
ledger = ask_cli("ledger", "--at", at)["all"]
stock = ask_cli("stock", "--at", at)
by_day = {day["date"]: day for day in season["days"]}
sums = collections.defaultdict(float)
for row in told:
    sums[row[0].isoformat()] += row[2]
all_l, out_l = sum(sums.values()), sum(litres for _, litres in boiled)
off = max(abs(by_day[date]["gathered_l"] - litres) for date, litres in sums.items())
case("each day's litres on the command line", off < 1e-9, off)
case("and each day's low and high", all((by_day[d.date.isoformat()]["low_c"], by_day[d.date.isoformat()]["high_c"])
                                        == (d.low_c, d.high_c) for d in days))
case(f"{all_l:.1f} L gathered in the season and in the account",
     abs(season["tally"]["gathered_l"] - all_l) < 1e-9 and abs(ledger["gathered"]["volume_l"] - all_l) < 1e-9,
     (season["tally"]["gathered_l"], ledger["gathered"]["volume_l"], all_l))
case(f"{out_l:.1f} L boiled in {len(boiled)} nights", abs(ledger["boiled"]["volume_l"] - out_l) < 1e-9,
     ledger["boiled"]["volume_l"])
# Mixing sap of 1.5 and 3 °Bx changes its volume by less than a ten-thousandth.
case(f"{all_l - out_l:.1f} L left", abs(stock["volume_l"] - (all_l - out_l)) < 1e-4 * all_l, stock["volume_l"])
# Sap of a few degrees weighs 1 kg and 3.9 g for each °Bx a litre: water at 4 °C, and ICUMSA to 4 °Bx, from memory.
sugar_kg = sum(row[2] * row[3] / 100 * (1.0 + 0.0039 * row[3]) for row in told)
case("sugar of all readings", abs(season["tally"]["sugar_kg"] / sugar_kg - 1) < 1e-3, (season["tally"]["sugar_kg"], sugar_kg))
shutil.rmtree(folder)

print(f"1..{number}")
