#!/usr/bin/python3
"""The rules of the house that a compiler cannot hold, one TAP line each: floors.py SOURCE_ROOT BUILD_ROOT.

docs/DESIGN.md draws the floors; ROOMS below is the same picture as a table."""
import pathlib
import re
import subprocess
import sys

root, build = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
UNITS, MATHS, RECORDS, PLAN = "domain/units", "domain/maths", "domain/records", "domain/plan"
DOMAIN, THIRD = [UNITS, MATHS, RECORDS, PLAN], ["store", "formats", "paint", "words"]
PURE = r"(glib|math|string|stddef|stdlib|float)\.h"
TEXT = r"glib/[\w-]+\.h|gio/gio\.h|errno\.h"
ROOMS = {  # room: (other rooms it may include, what else, as a pattern)
    UNITS: ([], PURE), MATHS: ([UNITS], PURE), RECORDS: ([UNITS, MATHS], PURE), PLAN: ([UNITS, MATHS, RECORDS], PURE),
    "store": (DOMAIN, rf"{PURE}|{TEXT}|sqlite3\.h|fcntl\.h|stdarg\.h|unistd\.h|sys/\w+\.h"),
    "formats": (DOMAIN, rf"{PURE}|{TEXT}|json-glib/.*|libical/ical\.h|libxml/\w+\.h"),
    "paint": (DOMAIN, rf"{PURE}|{TEXT}|cairo.*|pango/.*"),
    "words": (DOMAIN, rf"{PURE}|{TEXT}|langinfo\.h"),
    "models": (DOMAIN + THIRD + ["fetch"], rf"{PURE}|{TEXT}|glib-object\.h"),
    "fetch": (DOMAIN, rf"{PURE}|{TEXT}|libsoup/.*|fcntl\.h|unistd\.h|sys/file\.h"),
    "ui": (DOMAIN + THIRD + ["models", "fetch"], r"(?!libsoup).*"),
    "cli": (DOMAIN + THIRD, r"(?!gtk|adwaita|libsoup).*"),
}
UNIT = re.compile(r"_(l|kg|deg|c|f|k|w|s|h|days|years|m|m2|a|v|pa|j|mj|kwh|ml|px|utc|minor|brix|baume|ratio|probability"
                  r"|kg_m3|per_(k|s|h|day|kg|kwh|min|year))(_(out|sd|max|min|a|b))*$")
OF_A_KIND = set("""value shown limit min max sd b lo hi x x_tolerance root state rates slope fr_quantity_to_shown
    fr_quantity_from_shown fault_min fault_max density per_kelvin listed full prior_sd price_before price_after jars
    s_per_100ml fr_water_density_slope fr_water_specific_heat fr_sucrose_specific_heat fr_water_heat_slope
    fr_sugar_heat_slope fr_sucrose_brix_from_elevation fr_fahrenheit_from_celsius fr_celsius_from_fahrenheit
    fr_heat_ratio_half_range number fr_unit_to_inner fr_unit_from_inner fr_solution_water_share fr_sap_per_syrup
    fr_water_per_syrup fr_sap_per_syrup_rule_86 fr_sap_per_syrup_rule_87 fr_planning_cost stretch error litre_metres
    alone_sd tree_sd season_sd rest_sd worth apart_sd units fr_sap_step fr_sap_rule_units fr_forecast_run_units fr_forecast_run_span_units fr_score_log log_score""".split())  # unit by a kind beside it, or said at the declaration
UNFINISHED = re.compile(r"\b(TODO|FIXME|XXX|HACK|STUB|stub|lorem ipsum|not implemented)\b")
IMPURE = re.compile(r"\b(g_get_(real|monotonic)_time|g_date_time_new_now\w*|time|clock|setlocale|s?rand(om)?|g_random\w+"
                    r"|getenv|g_getenv|f?printf|fopen|g_file_\w+|g_print|_|gettext|dgettext)\s*\(")

def room(name):
    return next((r for r in ROOMS if name.startswith(r + "/")), None)

def code(text):  # without comments and strings
    return re.sub(r"/\*.*?\*/|//[^\n]*|\"(\\.|[^\"\\\n])*\"", " ", text, flags=re.S)

def includes():
    for name, text in files.items():
        others, system = ROOMS.get(room(name), ([], "(?!)"))
        for mark, what in re.findall(r"^\s*#\s*include\s*([<\"])([^>\"]+)", text, re.M):
            if not (re.fullmatch(system, what) if mark == "<" else room(what) in others + [room(name)]):
                yield f"{name} includes {what}"

def doubles():
    for name, text in files.items():
        for names in re.findall(r"\bdouble\s+([\w\s,*\[\]]+?)(?=[;(){=]|,\s*(?:const|double|int|char|g\w+|Fr\w+|struct)\b)",
                                code(text) if re.match(r"domain/.*\.h$", name) else ""):
            for one in re.findall(r"\w+", re.sub(r"\[\w*\]", "", names)):
                if one.removesuffix("_out") not in OF_A_KIND and not UNIT.search("_" + one):
                    yield f"{name}: {one} has no unit in its name"

def needed():
    programs = [p for p in build.glob("tests/domain/test-*") if p.is_file()] or [build / "no-domain-tests"]
    for program in programs:
        found = subprocess.run(["readelf", "-d", program], capture_output=True, text=True)
        if found.returncode or re.search(r"NEEDED.*(gio|sqlite|gobject|gtk|cairo)", found.stdout):
            yield f"{program.name}: {found.stderr or 'links more than GLib and libm'}"

files = {str(p.relative_to(root / "src")): p.read_text() for p in sorted((root / "src").rglob("*.[ch]"))}
RULES = {
    "a file includes only its own floor or lower": includes,
    "numbers in domain headers carry their unit": doubles,
    "domain tests link neither gio nor sqlite3": needed,
    "the domain has no clock, file, locale, chance or sentence": lambda: (
        f"{n}: {m[0]}" for n, t in files.items() if n.startswith("domain/") for m in [IMPURE.search(code(t))] if m),
    "no file in src is longer than 600 lines": lambda: (
        f"{n}: {len(t.splitlines())}" for n, t in files.items() if len(t.splitlines()) > 600),
    "nothing in src is unfinished": lambda: (
        f"{n}: {m[0]}" for n, t in files.items() for m in [UNFINISHED.search(t)] if m),
}
print(f"1..{len(RULES)}")
for number, (rule, check) in enumerate(RULES.items(), 1):
    found = list(check()) if files else ["no source found"]
    print("".join(f"# {line}\n" for line in found) + f"{'not ok' if found else 'ok'} {number} - {rule}")
