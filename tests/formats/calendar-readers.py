#!/usr/bin/python3
"""Calendar files as other authors' readers see them, one TAP line each: calendar-readers.py WRITE_CALENDAR.

Readers: the Debian package python3-icalendar parses the file and makes a zone of its VTIMEZONE (pytz's machinery);
python3-dateutil, which that package needs, makes another of the same VTIMEZONE. The system's IANA database, read by Python's
zoneinfo, tells apart from the file what a local time of a named zone means. Every event goes in as UTC seconds and has to
come back as the same ones by all three."""
import datetime
import io
import json
import os
import random
import re
import subprocess
import sys
import zoneinfo

import dateutil.tz
import icalendar
import pytz

WRITE = sys.argv[1]
UTC = datetime.timezone.utc
CHANGED = 1772000000
ZONES = ["America/Toronto", "Europe/Paris", "Australia/Lord_Howe", "Asia/Kolkata", "America/St_Johns", "Pacific/Apia",
         "Africa/Casablanca", "Europe/Dublin"]
# Line ends of all kinds, marks the format escapes, what ends an event, controls, letters of one to four octets. A backslash
# before an n or another mark is left to test-calendar-file: python3-icalendar 4.0 undoes escapes twice.
HOSTILE = ["a,b;c\\d:e\"f\"", "one\ntwo\r\nthree\rfour\u2028five\u2029six\x85seven",
           "x\nEND:VEVENT\nBEGIN:VEVENT\nUID:other", " leading and trailing ", "\x01\x02bell\x07 escape\x1b[31m del\x7f \x9b31m",
           "\u202eright to left\u202c", "\ufeffmark", "érable à sucre 糖 🍁" * 40, "\t", "=1+1", "%s%n%d", "a" * 20000,
           "0" * 74 + "é", "0" * 73 + "🍁", "^n^'^^", "<b>&amp;</b>", "\u0301combining", "Z" * 75]


def write(events, zone, form="ics", name="Sugarbush", clock=None):
    env = dict(os.environ, **({"TZ": clock} if clock else {}))
    return subprocess.run([WRITE, zone, form, name], input=json.dumps(events).encode(), env=env, capture_output=True,
                          check=True).stdout


def timed(start, end=None, **more):
    return {"uid": f"t{start}-{end}@example", "start": start, "end": start + 3600 if end is None else end, "changed": CHANGED,
            "summary": "Boil", **more}


def days(first, last, **more):
    return {"uid": f"d{first}-{last}@example", "first": first, "last": last, "changed": CHANGED, "summary": "Run", **more}


def plain(text):
    text = re.sub("\r\n|\r|\x85|\u2028|\u2029", "\n", text)
    return re.sub(r"[\x00-\x08\x0b-\x1f\x7f-\x9f]", "", text)


def utc(text):
    return int(datetime.datetime.fromisoformat(text).replace(tzinfo=UTC).timestamp())


def changes(zone, first, last):
    """Instants at which the clock changes, found apart from the program: offsets of every quarter of an hour compared."""
    tz, at, end = zoneinfo.ZoneInfo(zone), utc(f"{first}-01-01"), utc(f"{last}-12-31")
    offset = lambda s: datetime.datetime.fromtimestamp(s, tz).utcoffset()
    while at < end:
        step = 86400 * 5
        if offset(at) != offset(at + step):
            lo, hi = at, at + step
            while hi - lo > 1:
                mid = (lo + hi) // 2
                lo, hi = (mid, hi) if offset(mid) == offset(at) else (lo, mid)
            yield hi
        at += step


def season(zone):
    """Around every change of the clock from 2010 to 2035, on leap days, at new year, and anywhere."""
    chance = random.Random(zone)
    starts = {at + step for at in changes(zone, 2010, 2035) for step in range(-9000, 9001, 1800)}
    starts |= {at + step for at in changes(zone, 2010, 2035) for step in (-1, 1)}
    starts |= {utc(f"{year}-{day}T{hour:02}:30:00") for year in (2012, 2028, 2032) for day in ("02-28", "02-29", "03-01")
               for hour in range(0, 24, 3)}
    starts |= {utc(f"{year}-12-31T12:00:00") + chance.randrange(86400) for year in range(2010, 2035)}
    starts |= {chance.randrange(utc("2010-01-01"), utc("2035-12-01")) for _ in range(200)}
    events = [timed(start, start + chance.choice([0, 1, 600, 3600, 5400, 50000])) for start in sorted(starts)]
    chance.shuffle(events)
    return events


def seconds(value):
    return int(value.timestamp())


def instants(component, key, tz_of_file, text_tz):
    """What the three readers take DTSTART or DTEND for. Raises when a local time is ambiguous or does not exist."""
    value = component[key]
    naive = value.dt.replace(tzinfo=None)
    tzid = value.params.get("TZID")
    if value.dt.tzinfo is not None and tzid is None:
        return {seconds(naive.replace(tzinfo=UTC))}
    by_name = naive.replace(tzinfo=zoneinfo.ZoneInfo(tzid))
    if by_name.utcoffset() != by_name.replace(fold=1).utcoffset():
        raise ValueError(f"{naive} in {tzid} happens twice or never")
    return {seconds(by_name), seconds(tz_of_file.localize(naive, is_dst=None)), seconds(naive.replace(tzinfo=text_tz))}


def read_zone(calendar):
    zones = calendar.walk("VTIMEZONE")
    if len(zones) != 1:
        raise ValueError(f"{len(zones)} zones")
    return zones[0].to_tz(), dateutil.tz.tzical(io.StringIO(zones[0].to_ical().decode())).get()


def check_zone(zone):
    events = season(zone)
    data = write(events, zone)
    calendar = icalendar.Calendar.from_ical(data)
    tz_of_file, text_tz = read_zone(calendar)
    back = {str(event["UID"]): event for event in calendar.walk("VEVENT")}
    bad, in_utc = [], 0
    for event in events:
        one = back[event["uid"]]
        found = instants(one, "DTSTART", tz_of_file, text_tz)
        end = instants(one, "DTEND", tz_of_file, text_tz) if "DTEND" in one else found
        in_utc += "TZID" not in one["DTSTART"].params
        if found != {event["start"]} or end != {event["end"]}:
            bad.append(f"{event}: {found} {end}")
    if len(back) != len(events):
        bad.append(f"{len(back)} of {len(events)} events")
    print(f"# {zone}: {len(events)} events, {in_utc} of them in UTC")
    return bad


def check_days():
    spans = [("2028-02-29", "2028-02-29"), ("2028-02-28", "2028-03-01"), ("2027-02-28", "2027-02-28"),
             ("2026-03-08", "2026-03-08"), ("2026-11-01", "2026-11-01"), ("2026-12-31", "2027-01-01"), ("2026-02-20", "2026-04-15")]
    calendar = icalendar.Calendar.from_ical(write([days(*span) for span in spans], "America/Toronto"))
    found = {(str(e["DTSTART"].dt), str(e["DTEND"].dt - datetime.timedelta(days=1))) for e in calendar.walk("VEVENT")
             if not isinstance(e["DTSTART"].dt, datetime.datetime)}
    return [] if found == set(spans) else [f"{found}"]


def check_hostile():
    events = [timed(1772951400 + i, summary="." + text, description=text, place=text, category=text, uid=f"{i}" + text)
              for i, text in enumerate(HOSTILE)]
    data = write(events, "Europe/Paris", name=HOSTILE[0])
    calendar = icalendar.Calendar.from_ical(data)
    bad = [] if calendar["NAME"] == HOSTILE[0] else [f"name: {calendar['NAME']}"]
    back = calendar.walk("VEVENT")
    for event, one in zip(events, back):
        for key, prop in ("summary", "SUMMARY"), ("description", "DESCRIPTION"), ("place", "LOCATION"), ("uid", "UID"):
            if str(one.get(prop, "")) != plain(event[key]):
                bad.append(f"{prop}: {one.get(prop)!r} for {event[key]!r}")
        wanted = re.sub("[,;]", "/", plain(event["category"]))
        if one["CATEGORIES"].cats != [wanted]:
            bad.append(f"CATEGORIES: {[str(c) for c in one['CATEGORIES'].cats]} for {wanted!r}")
    if len(back) != len(events):
        bad.append(f"{len(back)} events")
    lines = data.split(b"\r\n")
    bad += [f"long line: {line}" for line in lines if len(line) > 75 or b"\n" in line or b"\r" in line]
    for line in lines:
        line.decode()  # no character cut in two
    return bad


def check_same_bytes():
    events = season("America/Toronto")[:100] + [days("2028-02-29", "2028-02-29")]
    first = write(events, "America/Toronto")
    turned = [write(events[::-1], "America/Toronto"), write(events, "America/Toronto")]
    clocks = [write(events, "America/Toronto", clock=c) for c in ("UTC", "America/Toronto", "Asia/Kolkata", "Pacific/Apia")]
    return [f"text {i} differs" for i, text in enumerate(turned + clocks) if text != first]


def check_update():
    """A calendar that takes, of two events of one UID, the later changed (RFC 5546, 2.1.5), has the corrected one."""
    shelf = {}
    for changed, summary, start in (CHANGED, "Boil", 1772951400), (CHANGED + 60, "Boil, 21 L", 1772955000):
        event = {"uid": "boil@example", "start": start, "end": start + 60, "changed": changed, "summary": summary}
        for one in icalendar.Calendar.from_ical(write([event, days("2026-03-01", "2026-03-01")], "Asia/Kolkata")).walk("VEVENT"):
            old = shelf.get(str(one["UID"]))
            if old is None or one["DTSTAMP"].dt > old["DTSTAMP"].dt:
                shelf[str(one["UID"])] = one
    boil = shelf["boil@example"]
    good = len(shelf) == 2 and boil["SUMMARY"] == "Boil, 21 L" and boil["LAST-MODIFIED"].dt == boil["DTSTAMP"].dt
    return [] if good and seconds(boil["DTSTART"].dt) == 1772955000 else [f"{shelf}"]


def check_alarm():
    events = [timed(1772951400, alarm=90), timed(1772951401, alarm=0), timed(1772951402)]
    found = [[a["TRIGGER"].dt.total_seconds() for a in e.walk("VALARM")]
             for e in icalendar.Calendar.from_ical(write(events, "Europe/Paris")).walk("VEVENT")]
    return [] if found == [[-5400], [0], []] else [f"{found}"]


def check_json():
    events = season("Australia/Lord_Howe") + [days("2028-02-29", "2028-03-01", place="Shed")]
    events += [timed(1772951400 + i, summary=text, description=text, uid=f"{i}" + text, alarm=i) for i, text in enumerate(HOSTILE)]
    answer = json.loads(write(events, "Australia/Lord_Howe", "json", "The \"bush\""))
    bad = [] if (answer["name"], answer["zone"]) == ("The \"bush\"", "Australia/Lord_Howe") else ["name or zone"]
    back = {one["uid"]: one for one in answer["events"]}
    iso = lambda s: datetime.datetime.fromtimestamp(s, UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
    for event in events:
        wanted = {"uid": event["uid"], "all_day": "first" in event, "changed": iso(event["changed"]), "summary": event["summary"],
                  **{key: event.get(key) for key in ("description", "category", "place")}, "alarm_lead_min": event.get("alarm")}
        if "first" in event:
            wanted |= {"first": event["first"], "last": event["last"]}
        else:
            wanted |= {"start": iso(event["start"]), "end": iso(event["end"])}
        if back.get(event["uid"]) != wanted:
            bad.append(f"{back.get(event['uid'])} for {wanted}")
    calendar = icalendar.Calendar.from_ical(write(events[:900], "Australia/Lord_Howe"))
    order = [one["uid"] for one in json.loads(write(events[:900], "Australia/Lord_Howe", "json"))["events"]]
    if [str(one["UID"]) for one in calendar.walk("VEVENT")] != order:
        bad.append("another order than the calendar file's")
    return bad


CASES = [(f"{zone}: every instant is the same by three readers", lambda zone=zone: check_zone(zone)) for zone in ZONES] + [
    ("whole days, leap days among them", check_days),
    ("hostile text comes back as text", check_hostile),
    ("the same events give the same bytes, in any order and under any clock", check_same_bytes),
    ("reading again updates by UID", check_update),
    ("alarms", check_alarm),
    ("JSON tells the same", check_json)]
print(f"1..{len(CASES)}")
for number, (name, check) in enumerate(CASES, 1):
    try:
        found = check()
    except (ValueError, KeyError, AttributeError, AssertionError, pytz.InvalidTimeError, subprocess.CalledProcessError) as problem:
        found = [f"{type(problem).__name__}: {problem} {getattr(problem, 'stderr', '') or ''}"]
    for line in found[:10]:
        print("#", line.replace("\n", "\n# "))
    print(f"{'not ok' if found else 'ok'} {number} - {name}")
