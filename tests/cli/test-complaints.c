/* Everything that is wrong with an input gets one sentence, the same word for word, and the exit code that
 * belongs to it. The ranges in the sentences are the house's own; the sentences are kept here so that none is
 * changed unawares. */
#include "spawn.h"

#include <string.h>

typedef struct
{
  const char *name;
  const char *command;
  const char *from; /* in the kept input; NULL: @to is the whole input */
  const char *to;
  const char *sentence; /* after "frostrun-cli: standard input: " */
} Row;

#define CYLINDER "{\"shape\":\"cylinder\",\"radius_m\":0.1,\"height_m\":0.18}"
#define STOP "{\"cutoff_volume_l\":0.8,\"after_s\":43200,\"brix\":60}"

static const Row rows[] = {
  /* not JSON */
  { "empty", "boil", NULL, "", "the input is empty" },
  { "blank", "boil", NULL, " \n\t ", "the input is empty" },
  { "word", "boil", NULL, "maple", "line 1, column 1: a value should stand here, not “m”" },
  { "cut-short", "boil", NULL,
    "{\"altitude_m\":250,\n\"air_c\":", "line 2, column 9: the text ends where a value should stand" },
  { "open-string", "boil", NULL, "{\"altitude_m", "line 1, column 2: this string is not closed" },
  { "no-colon", "boil", NULL, "{\"a\" 1}", "line 1, column 6: a colon should stand here, not “1”" },
  { "last-comma", "boil", NULL, "{\"a\":1,}",
    "line 1, column 8: a key in double quotes should stand here, not “}”" },
  { "bare-key", "boil", NULL, "{a:1}",
    "line 1, column 2: a key in double quotes should stand here, not “a”" },
  { "comment", "boil", NULL, "/* x */ {}", "line 1, column 1: a value should stand here, not “/”" },
  { "trailing", "boil", NULL, "{} x", "line 1, column 4: the end of the text should stand here, not “x”" },
  { "list", "boil", NULL, "[]", "the input is a list; it must be an object in { }" },
  { "number", "boil", NULL, "5", "the input is a number; it must be an object in { }" },
  { "not-utf8", "boil", NULL, "{\"\xff\":1}", "the input is not text in UTF-8: see byte 3" },
  { "escape", "boil", NULL, "{\"a\\q\":1}",
    "line 1, column 2: this string holds a \\ escape that JSON does not know" },
  { "escaped-zero", "boil", NULL, "{\"a\\u0000\":1}",
    "line 1, column 2: this string holds a \\ escape that JSON does not know" },
  { "half-a-pair", "boil", NULL, "{\"\\ud83d\":1}",
    "line 1, column 2: this string holds a \\ escape that JSON does not know" },
  { "control", "boil", NULL, "{\"a\n\":1}",
    "line 1, column 4: a string holds a line break or another control character" },
  { "empty-object", "boil", NULL, "{}",
    "cooker is missing; give an object in { } with power_w, heat_ratio, wall_w_per_k, reflux_ratio" },
  { "nan", "boil", "1800", "NaN", "line 1, column 111: NaN and Infinity are no numbers in JSON" },
  { "infinity", "boil", "1800", "Infinity", "line 1, column 111: NaN and Infinity are no numbers in JSON" },
  { "minus-infinity", "boil", "1800", "-Infinity", "line 1, column 111: no digit follows the minus sign" },
  { "octal", "boil", "1800", "01800", "line 1, column 111: a number starts with a needless 0" },
  { "hex", "boil", "1800", "0x708", "line 1, column 112: a comma or } should stand here, not “x”" },
  { "plus", "boil", "1800", "+1800", "line 1, column 111: a value should stand here, not “+”" },
  { "point", "boil", "1800", "1800.", "line 1, column 111: no digit follows the point of this number" },
  { "exponent", "boil", "1800", "18e", "line 1, column 111: no digit follows the e of this number" },
  { "comma-decimal", "boil", "\"heat_ratio\":0.85", "\"heat_ratio\":0,85",
    "line 1, column 131: a key in double quotes should stand here, not “8”" },
  { "twice", "boil", "\"power_w\":1800", "\"power_w\":1800,\"power_w\":1",
    "line 1, column 116: the key power_w is given twice" },
  { "twice-escaped", "boil", "\"power_w\":1800", "\"power_w\":1800,\"power\\u005fw\":1",
    "line 1, column 116: the key power_w is given twice" },
  /* missing */
  { "no-altitude", "boil", "\"altitude_m\":250,", "",
    "altitude_m is missing; give a number from -500 to 9000" },
  { "no-air", "boil", "\"air_c\":-3,", "", "air_c is missing; give a number from -60 to 60" },
  { "no-vessel", "boil", "\"vessel\":" CYLINDER ",", "", "vessel is missing; give an object in { }" },
  { "no-shape", "boil", "\"shape\":\"cylinder\",", "",
    "vessel.shape is missing; give a shape: cylinder, cone, cap, box or table" },
  { "no-radius", "boil", "\"radius_m\":0.1,", "",
    "vessel.radius_m is missing; give a number from 0.005 to 5" },
  { "no-height", "boil", ",\"height_m\":0.18", "",
    "vessel.height_m is missing; give a number from 0.005 to 5" },
  { "no-power", "boil", "\"power_w\":1800,", "",
    "cooker.power_w is missing; give a number from 1 to 1000000" },
  { "null-power", "boil", "1800", "null", "cooker.power_w is missing; give a number from 1 to 1000000" },
  { "no-ratio", "boil", "\"heat_ratio\":0.85,", "",
    "cooker.heat_ratio is missing; give a number from 0.01 to 1" },
  { "no-wall", "boil", ",\"wall_w_per_k\":0.9", "",
    "cooker.wall_w_per_k is missing; give a number from 0 to 1000" },
  { "no-start", "boil", "\"start\":{\"volume_l\":1.5,\"brix\":2,\"temp_c\":3},", "",
    "start is missing; give an object in { } with volume_l, brix, temp_c" },
  { "no-start-volume", "boil", "{\"volume_l\":1.5,", "{",
    "start.volume_l is missing; give a number from 0 to 100000" },
  { "no-start-brix", "boil", "1.5,\"brix\":2,", "1.5,", "start.brix is missing; give a number from 0 to 75" },
  { "no-start-temp", "boil", ",\"temp_c\":3},\"feed\"", "},\"feed\"",
    "start.temp_c is missing; give a number from -1 to 99.1738" },
  { "no-feed", "boil", "\"feed\":{\"volume_l\":12,\"brix\":2,\"temp_c\":3},", "",
    "feed is missing; give an object in { } with volume_l, brix, temp_c, capacity_l, kind, "
    "stream_ml_per_min, hole_diameter_m, head_m, bucket_diameter_m" },
  { "no-feed-volume", "boil", "\"volume_l\":12,", "",
    "feed.volume_l is missing; give a number from 0 to 100000" },
  { "no-feed-brix", "boil", "12,\"brix\":2,", "12,", "feed.brix is missing; give a number from 0 to 70" },
  { "no-feed-temp", "boil", ",\"temp_c\":3},\"hold", "},\"hold",
    "feed.temp_c is missing; give a number from -1 to 99.1437" },
  { "no-hold", "boil", "\"hold_volume_l\":1.5,", "",
    "hold_volume_l is missing; give a number from 0.05 to 100000" },
  { "charge-no-stop", "charge", ",\"stop\":" STOP, "",
    "stop is missing; give an object in { } with cutoff_volume_l, after_s, brix" },
  { "charge-no-cutoff", "charge", "\"cutoff_volume_l\":0.8,", "",
    "stop.cutoff_volume_l is missing; give a number from 0.05 to 1.5" },
  /* out of range */
  { "altitude-low", "boil", "250", "-501", "altitude_m is -501; it must be from -500 to 9000" },
  { "altitude-high", "boil", "250", "9001", "altitude_m is 9001; it must be from -500 to 9000" },
  { "pressure-low", "boil", "\"altitude_m\":250", "\"pressure_pa\":1013",
    "pressure_pa is 1013; it must be from 30000 to 115000" },
  { "boils-in-fahrenheit", "boil", "\"altitude_m\":250", "\"water_boils_c\":211",
    "water_boils_c is 211; it must be from 70 to 103" },
  { "air-low", "boil", "\"air_c\":-3", "\"air_c\":-300", "air_c is -300; it must be from -60 to 60" },
  { "radius-negative", "boil", "\"radius_m\":0.1", "\"radius_m\":-0.1",
    "vessel.radius_m is -0.1; it must be from 0.005 to 5" },
  { "radius-a-millimetre", "boil", "\"radius_m\":0.1", "\"radius_m\":0.001",
    "vessel.radius_m is 0.001; it must be from 0.005 to 5" },
  { "height-in-cm", "boil", "\"height_m\":0.18", "\"height_m\":18",
    "vessel.height_m is 18; it must be from 0.005 to 5" },
  { "power-negative", "boil", "1800", "-1800", "cooker.power_w is -1800; it must be from 1 to 1000000" },
  { "power-zero", "boil", "1800", "-0", "cooker.power_w is 0; it must be from 1 to 1000000" },
  { "power-tiny", "boil", "1800", "1e-320", "cooker.power_w is 9.99989e-321; it must be from 1 to 1000000" },
  { "power-huge", "boil", "1800", "1e308", "cooker.power_w is 1e+308; it must be from 1 to 1000000" },
  { "power-over-double", "boil", "1800", "1e999",
    "cooker.power_w is too large for a number; it must be from 1 to 1000000" },
  { "power-over-64-bits", "boil", "1800", "12345678901234567890",
    "cooker.power_w is 1.23457e+19; it must be from 1 to 1000000" },
  { "power-just-over", "boil", "1800", "1000000.01",
    "cooker.power_w is a trace over 1000000; it must be from 1 to 1000000" },
  { "ratio-percent", "boil", "0.85", "85", "cooker.heat_ratio is 85; it must be from 0.01 to 1" },
  { "wall-negative", "boil", "0.9", "-0.9", "cooker.wall_w_per_k is -0.9; it must be from 0 to 1000" },
  { "reflux-all", "boil", "0.9}", "0.9,\"reflux_ratio\":1}",
    "cooker.reflux_ratio is 1; it must be from 0 to 0.99" },
  { "start-negative", "boil", "\"volume_l\":1.5", "\"volume_l\":-1.5",
    "start.volume_l is -1.5; it must be from 0 to 100000" },
  { "start-over-the-rim", "boil", "\"volume_l\":1.5", "\"volume_l\":9",
    "start.volume_l is 9; the vessel holds 5.65487 L to the rim, so it must be from 0 to 5.65487" },
  { "start-brix", "boil", "1.5,\"brix\":2", "1.5,\"brix\":76", "start.brix is 76; it must be from 0 to 75" },
  { "start-ice", "boil", "\"temp_c\":3},\"feed\"", "\"temp_c\":-5},\"feed\"",
    "start.temp_c is -5; it must be from -1 to 99.1738" },
  { "feed-negative", "boil", "12", "-12", "feed.volume_l is -12; it must be from 0 to 100000" },
  { "feed-brix", "boil", "12,\"brix\":2", "12,\"brix\":-2", "feed.brix is -2; it must be from 0 to 70" },
  { "feed-hot", "boil", "\"temp_c\":3},\"hold", "\"temp_c\":103},\"hold",
    "feed.temp_c is 103; it must be from -1 to 99.1437" },
  { "hold-over-the-rim", "boil", "\"hold_volume_l\":1.5", "\"hold_volume_l\":6",
    "hold_volume_l is 6; the vessel holds 5.65487 L to the rim, so it must be from 0 to 5.65487" },
  { "hold-zero", "boil", "\"hold_volume_l\":1.5", "\"hold_volume_l\":0",
    "hold_volume_l is 0; it must be from 0.05 to 100000" },
  { "hold-negative-no-feed", "boil", "12,\"brix\":2,\"temp_c\":3},\"hold_volume_l\":1.5",
    "0,\"brix\":2,\"temp_c\":3},\"hold_volume_l\":-1.5",
    "hold_volume_l is -1.5; it must be from 0.05 to 100000" },
  { "cutoff-negative", "boil", "\"cutoff_volume_l\":0.8", "\"cutoff_volume_l\":-0.8",
    "stop.cutoff_volume_l is -0.8; it must be from 0 to 100000" },
  { "cutoff-over-the-rim", "boil", "\"cutoff_volume_l\":0.8", "\"cutoff_volume_l\":8",
    "stop.cutoff_volume_l is 8; the vessel holds 5.65487 L to the rim, so it must be from 0 to 5.65487" },
  { "after-negative", "boil", "43200", "-1", "stop.after_s is -1; it must be from 0 to 2592000" },
  { "brix-negative", "boil", "\"brix\":60", "\"brix\":-60", "stop.brix is -60; it must be from 0 to 100" },
  { "trip", "boil", "\"air_c\"", "\"trip_s\":-5,\"air_c\"", "trip_s is -5; it must be from 0 to 2592000" },
  { "foam", "boil", "\"air_c\"", "\"watch\":{\"foam_l\":60},\"air_c\"",
    "watch.foam_l is 60; the vessel holds 5.65487 L to the rim, so it must be from 0 to 5.65487" },
  { "charge-cutoff-over-hold", "charge", "\"cutoff_volume_l\":0.8", "\"cutoff_volume_l\":1.5",
    "stop.cutoff_volume_l is 1.5; it must be under hold_volume_l, which is 1.5" },
  { "charge-capacity", "charge", "\"volume_l\":12", "\"capacity_l\":-1",
    "feed.capacity_l is -1; it must be from 0 to 100000" },
  { "charge-nothing-limits", "charge", "12,\"brix\":2,\"temp_c\":3},\"hold_volume_l\":1.5,\"stop\":" STOP,
    "12,\"brix\":0,\"temp_c\":3},\"hold_volume_l\":1.5,\"stop\":{\"cutoff_volume_l\":0.8}",
    "stop.after_s is missing, and a feed without sugar has no other limit; give it or feed.capacity_l" },
  /* wrong type */
  { "power-text", "boil", "1800", "\"1800\"",
    "cooker.power_w is text; it must be a number from 1 to 1000000" },
  { "power-true", "boil", "1800", "true",
    "cooker.power_w is true or false; it must be a number from 1 to 1000000" },
  { "power-list", "boil", "1800", "[1800]",
    "cooker.power_w is a list; it must be a number from 1 to 1000000" },
  { "after-text", "boil", "43200", "\"12 h\"",
    "stop.after_s is text; it must be a number from 0 to 2592000" },
  { "cooker-number", "boil", "{\"power_w\":1800,\"heat_ratio\":0.85,\"wall_w_per_k\":0.9}", "1800",
    "cooker is a number; it must be an object in { }" },
  { "vessel-text", "boil", CYLINDER, "\"pot\"", "vessel is text; it must be an object in { }" },
  { "shape-number", "boil", "\"cylinder\"", "1",
    "vessel.shape is a number; it must be a shape: cylinder, cone, cap, box or table" },
  { "shape-unknown", "boil", "\"cylinder\"", "\"cilinder\"",
    "vessel.shape is “cilinder”; it must be a shape: cylinder, cone, cap, box or table" },
  /* unknown keys */
  { "key-misspelt", "boil", "power_w", "powr_w", "cooker.powr_w is no key here; did you mean power_w?" },
  { "key-swapped", "boil", "\"brix\":60", "\"birx\":60", "stop.birx is no key here; did you mean brix?" },
  { "key-unknown", "boil", "\"brix\":60", "\"colour\":1",
    "stop.colour is no key here; known are cutoff_volume_l, after_s, brix" },
  { "key-of-another-shape", "boil", "\"height_m\":0.18", "\"height_m\":0.18,\"length_m\":1",
    "vessel.length_m is no key here; known are shape, radius_m, height_m" },
  { "key-with-control", "boil", "\"brix\":60", "\"a\\u001b[2J\":1",
    "stop.a?[2J is no key here; known are cutoff_volume_l, after_s, brix" },
  /* shapes */
  { "cone-no-top", "boil", CYLINDER, "{\"shape\":\"cone\",\"bottom_radius_m\":0.1,\"height_m\":0.2}",
    "vessel.top_radius_m is missing; give a number from 0.005 to 5" },
  { "cap-flat", "boil", CYLINDER,
    "{\"shape\":\"cap\",\"rim_radius_m\":0.2,\"depth_m\":0.1,\"flat_radius_m\":0.2}",
    "vessel.flat_radius_m must be smaller than rim_radius_m" },
  { "cap-flat-wider", "boil", CYLINDER,
    "{\"shape\":\"cap\",\"rim_radius_m\":0.2,\"depth_m\":0.1,\"flat_radius_m\":0.3}",
    "vessel.flat_radius_m is 0.3; it must be from 0 to 0.2" },
  { "box-corner", "boil", CYLINDER,
    "{\"shape\":\"box\",\"length_m\":0.4,\"width_m\":0.3,\"corner_radius_m\":0.16,\"height_m\":0.1}",
    "vessel.corner_radius_m is 0.16; it must be from 0 to 0.15" },
  { "table-empty", "boil", CYLINDER, "{\"shape\":\"table\",\"rows\":[]}",
    "vessel.rows has 0 entries; it must have 2 to 64" },
  { "table-equal", "boil", CYLINDER, "{\"shape\":\"table\",\"rows\":[[0.1,2],[0.1,2]]}",
    "vessel.rows[1] does not rise above the row before; depth and litres must both rise" },
  { "table-triple", "boil", CYLINDER, "{\"shape\":\"table\",\"rows\":[[0.1,2,3],[0.2,2]]}",
    "vessel.rows[0] must be a pair [depth_m, litres]" },
  { "table-text", "boil", CYLINDER, "{\"shape\":\"table\",\"rows\":[[0.1,2],[0.2,\"4\"]]}",
    "vessel.rows[1][1] is text; it must be a number from 0 to 100000" },
  { "table-bottom", "boil", CYLINDER, "{\"shape\":\"table\",\"rows\":[[0,2],[0.2,4]]}",
    "vessel.rows[0] has only one of depth and litres at 0; no depth is no litres" },
  /* feeds */
  { "feed-kind", "boil", "\"volume_l\":12", "\"kind\":\"pump\",\"volume_l\":12",
    "feed.kind is “pump”; it must be a kind of feed: level, stream or hole" },
  { "stream-missing", "boil", "\"volume_l\":12", "\"kind\":\"stream\",\"volume_l\":12",
    "feed.stream_ml_per_min is missing; give a number from 6e-05 to 600000" },
  { "stream-negative", "boil", "\"volume_l\":12",
    "\"kind\":\"stream\",\"stream_ml_per_min\":-30,\"volume_l\":12",
    "feed.stream_ml_per_min is -30; it must be from 6e-05 to 600000" },
  { "stream-of-a-level", "boil", "\"volume_l\":12", "\"stream_ml_per_min\":30,\"volume_l\":12",
    "feed.stream_ml_per_min is only for a feed of kind stream, and this one is of kind level" },
  { "hole-negative", "boil", "\"volume_l\":12",
    "\"kind\":\"hole\",\"hole_diameter_m\":-0.001,\"head_m\":0.5,\"bucket_diameter_m\":0.3,\"volume_l\":12",
    "feed.hole_diameter_m is -0.001; it must be from 1.43304e-06 to 0.453168" },
  /* price */
  { "price-no-zone", "price", "\"zone\":\"America/Toronto\",", "",
    "zone is missing; give the name of a time zone like America/Toronto" },
  { "price-zone", "price", "America/Toronto", "America/Torono",
    "zone is “America/Torono”, which this machine does not know; a name looks like America/Toronto" },
  { "price-zone-empty", "price", "America/Toronto", "",
    "zone is “”, which this machine does not know; a name looks like America/Toronto" },
  { "price-start", "price", "2025-03-08T23:00", "8 March",
    "start is “8 March”; it must be local date and time like 2025-03-08T23:00" },
  { "price-start-never", "price", "2025-03-08T23:00", "2025-03-09T02:30",
    "start 2025-03-09T02:30 does not exist in America/Toronto: the clock goes from 01:59:59 straight to "
    "03:00:00" },
  { "price-no-season", "price", "2025-03-08T23:00", "2025-04-30T23:00",
    "tariff.seasons has no season for 2025-05-01" },
  { "price-gap", "price", "\"07:00\",9.8", "\"06:30\",9.8",
    "tariff.seasons[0].days.weekday does not cover 06:30; a day must be covered exactly once from 00:00 to "
    "24:00" },
  { "price-overlap", "price", "\"07:00\",9.8", "\"07:30\",9.8",
    "tariff.seasons[0].days.weekday[1] covers 07:00 a second time; a day must be covered exactly once from "
    "00:00 to 24:00" },
  { "price-no-days", "price", ",\"weekend\":[[\"00:00\",\"24:00\",9.8]]", "",
    "tariff.seasons[0].days says nothing for a saturday; give saturday, weekend or all" },
  { "price-two-seasons", "price", "\"seasons\":[",
    "\"seasons\":[{\"from\":\"04-30\",\"to\":\"06-01\",\"days\":{\"all\":[[\"00:00\",\"24:00\",1]]}},",
    "tariff.seasons[1] covers 04-30, which lies in another season too; a date may lie in one only" },
  { "price-same-season", "price", "\"seasons\":[",
    "\"seasons\":[{\"from\":\"11-01\",\"to\":\"04-30\",\"days\":{\"all\":[[\"00:00\",\"24:00\",1]]}},",
    "tariff.seasons[1].from and to are those of tariff.seasons[0]; a date may lie in one season only" },
  { "price-season-date", "price", "\"11-01\"", "\"11-31\"",
    "tariff.seasons[0].from is “11-31”; it must be a month and day like 11-01" },
  { "price-clock", "price", "\"07:00\",9.8", "\"7am\",9.8",
    "tariff.seasons[0].days.weekday[0][1] must be a time from \"00:00\" to \"24:00\"" },
  { "price-negative", "price", "20.3", "-20.3",
    "tariff.seasons[0].days.weekday[1][2] is -20.3; it must be from 0 to 1000000" },
  { "price-days-key", "price", "\"weekend\"", "\"weekends\"",
    "tariff.seasons[0].days.weekends is no key here; did you mean weekend?" },
  { "price-holiday", "price", "2025-04-18", "18 April",
    "tariff.holidays[0] must be a date like \"2025-04-18\"" },
  { "price-tax", "price", "\"tax_ratio\":0", "\"tax_ratio\":13",
    "tariff.tax_ratio is 13; it must be from 0 to 1" },
  { "price-power-negative", "price", "1800", "-1800", "power[0].w is -1800; it must be from 0 to 1000000" },
  { "price-power-order", "price", "28800", "0", "power[1].after_s must be later than the step before" },
  { "price-power-open", "price", "\"w\":0", "\"w\":5",
    "power[1].w must be 0 in the last step, so that the trace has an end" },
  { "price-power-empty", "price", "[{\"after_s\":0,\"w\":1800},{\"after_s\":28800,\"w\":0}]", "[]",
    "power has 0 entries; it must have 1 to 100000" },
  /* calibrate */
  { "calibrate-empty", "calibrate", NULL, "{\"altitude_m\":1,\"wall_w_per_k\":0,\"observations\":[]}",
    "observations has 0 entries; it must have 1 to 1000" },
  { "calibrate-no-wall", "calibrate", "\"wall_w_per_k\":0.9,", "",
    "wall_w_per_k is missing; give a number from 0 to 1000" },
  { "calibrate-kind", "calibrate", "weight_lost_kg", "weight_kg",
    "observations[0].kind is “weight_kg”; it must be a kind: level_drop_cm, volume_fed_l or weight_lost_kg" },
  { "calibrate-no-sd", "calibrate", "\"sd\":0.02,", "",
    "observations[0].sd is missing; give a number from 1e-06 to 10000" },
  { "calibrate-sd-zero", "calibrate", "\"sd\":0.02", "\"sd\":0",
    "observations[0].sd is 0; it must be from 1e-06 to 10000" },
  { "calibrate-hours", "calibrate", "\"hours\":1", "\"hours\":-1",
    "observations[0].hours is -1; it must be from 0.02 to 720" },
  { "calibrate-too-much", "calibrate", "\"value\":2.2", "\"value\":3.2",
    "observations[0] boiled off more than its power can: it would take a heat ratio of 1.15431, and at most "
    "1.05 is taken; value, hours or power_w is off" },
  { "calibrate-drop-no-vessel", "calibrate", "\"vessel\":" CYLINDER ",", "",
    "observations[2].kind is level_drop_cm, which needs vessel: give the vessel's shape" },
  { "calibrate-drop-no-depth", "calibrate", CYLINDER,
    "{\"shape\":\"cap\",\"rim_radius_m\":0.2,\"depth_m\":0.1}",
    "observations[2].from_depth_cm is missing; give a number from 0 to 10" },
  { "calibrate-drop-too-deep", "calibrate", "\"value\":7.3", "\"value\":18.1",
    "observations[2].value is 18.1; it must be from 0 to 18" },
  { "calibrate-no-feed-c", "calibrate",
    "\"value\":3.75,\"sd\":0.05,\"hours\":2,\"power_w\":1800,\"air_c\":20,\"feed_c\":3",
    "\"value\":3.75,\"sd\":0.05,\"hours\":2,\"power_w\":1800,\"air_c\":20",
    "observations[1].feed_c is missing; give a number from -1 to 100" },
  /* round */
  { "round-no-start", "round", "\"start\":[0,0],", "", "start is missing; give a pair [x, y] in metres" },
  { "round-start-text", "round", "[0,0]", "[0,\"here\"]",
    "start[1] is text; it must be a number from -500000 to 500000" },
  { "round-pail", "round", "\"pail_l\":20", "\"pail_l\":0", "pail_l is 0; it must be from 0.01 to 1000000" },
  { "round-small-pail", "round", "20,\"stops\":[",
    "0.02,\"stops\":[{\"name\":\"Z\",\"x\":0,\"y\":9,\"litres\":2001},",
    "stops[0].litres would, with those before, take more than 100000 full pails; pail_l is too small" },
  { "round-no-name", "round", "\"name\":\"A2\",", "", "stops[1].name is missing; give the stop's name" },
  { "round-empty-name", "round", "\"A2\"", "\"\"", "stops[1].name is empty; each stop needs a name" },
  { "round-same-name", "round", "B1", "A1",
    "stops[2].name is “A1”, like that of stops[0]; each stop needs a name of its own" },
  { "round-far", "round", "\"x\":60", "\"x\":6e6", "stops[1].x is 6000000; it must be from -500000 to 500000" },
  { "round-no-litres", "round", ",\"litres\":8", "", "stops[0].litres is missing; give a number from 0 to 1000000" },
  { "round-negative", "round", "\"litres\":8", "\"litres\":-8",
    "stops[0].litres is -8; it must be from 0 to 1000000" },
  { "round-key", "round", "\"litres\":8", "\"liters\":8", "stops[0].liters is no key here; did you mean litres?" },
};

static void
complains (const char *command, const char *input, gssize length, const char *sentence)
{
  g_autofree char *arguments = g_strdup_printf ("%s - --json", command),
                  *expected = g_strdup_printf ("frostrun-cli: standard input: %s\n", sentence);
  g_auto (Answer) answer = cli_run (arguments, input, length);

  g_assert_cmpstr (answer.err, ==, expected);
  g_assert_cmpstr (answer.out, ==, "");
  g_assert_cmpint (answer.code, ==, 1);
}

static void
test_row (gconstpointer data)
{
  const Row *row = data;
  g_autofree char *name
      = g_strdup_printf ("%s.json", g_str_equal (row->command, "charge") ? "boil" : row->command);
  g_autofree char *kept = kept_text (name);
  g_autofree char *input = row->from == NULL ? g_strdup (row->to) : with (kept, row->from, row->to);

  complains (row->command, input, -1, row->sentence);
}

static void
test_huge (void)
{
  gsize length = 16 * 1024 * 1024 + 1;
  g_autofree char *input = g_malloc (length);

  memset (input, ' ', length);
  complains ("boil", input, length, "the input is larger than 16 MiB");
}

static void
test_deep (void)
{
  gsize length = 1000000;
  g_autofree char *input = g_malloc (length);

  memset (input, '[', length);
  complains ("boil", input, length, "line 1, column 33: lists and objects are nested more than 32 deep");
}

static void
test_zero_byte (void)
{
  complains ("boil", "{}\0{}", 5, "the input is not text in UTF-8: see byte 3");
}

/* What is not the input's fault is 2; what is asked wrongly is 1. */
static void
test_arguments (void)
{
  static const struct
  {
    const char *arguments;
    int code;
    const char *err;
  } cases[] = {
    { "boil /nowhere/in.json", 2,
      "frostrun-cli: /nowhere/in.json: cannot be read: No such file or directory\n" },
    { "boil /", 2, "frostrun-cli: /: cannot be read: Is a directory\n" },
    { "boil", 1, "frostrun-cli: boil needs a file, or - for standard input; see frostrun-cli boil --help\n" },
    { "boil - again", 1, "frostrun-cli: boil does not take “again”; see frostrun-cli boil --help\n" },
    { "boli -", 1, "frostrun-cli: “boli” is no command; did you mean boil?\n" },
    { "fly", 1, "frostrun-cli: “fly” is no command; see frostrun-cli --help\n" },
    { "boil - --jason", 1, "frostrun-cli: Unknown option --jason; see frostrun-cli boil --help\n" },
    { "syrup --brix 66.9", 1, "frostrun-cli: altitude_m is missing; give a number from -500 to 9000\n" },
    { "syrup --altitude-m 300", 1, "frostrun-cli: brix is missing; give a number from 0 to 80\n" },
    { "syrup --altitude-m 300 --brix 81", 1, "frostrun-cli: brix is 81; it must be from 0 to 80\n" },
    { "syrup --altitude-m 300m --brix 66", 1, "frostrun-cli: --altitude-m “300m” is not a number\n" },
    { "syrup --altitude-m nan --brix 66", 1, "frostrun-cli: --altitude-m “nan” is not a number\n" },
    { "syrup --altitude-m 0x10 --brix 66", 1, "frostrun-cli: --altitude-m “0x10” is not a number\n" },
    { "syrup --altitude-m 1e9 --brix 66", 1,
      "frostrun-cli: altitude_m is 1e+09; it must be from -500 to 9000\n" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (Answer) answer = cli_run (cases[i].arguments, "", 0);

      g_assert_cmpstr (answer.err, ==, cases[i].err);
      g_assert_cmpstr (answer.out, ==, "");
      g_assert_cmpint (answer.code, ==, cases[i].code);
    }
}

int
main (int argc, char **argv)
{
  g_setenv ("LC_ALL", "C.UTF-8", TRUE);
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *path = g_strdup_printf ("/cli/complaint/%s", rows[i].name);

      g_test_add_data_func (path, &rows[i], test_row);
    }
  g_test_add_func ("/cli/complaint/huge", test_huge);
  g_test_add_func ("/cli/complaint/deep", test_deep);
  g_test_add_func ("/cli/complaint/zero-byte", test_zero_byte);
  g_test_add_func ("/cli/complaint/arguments", test_arguments);
  return g_test_run ();
}
