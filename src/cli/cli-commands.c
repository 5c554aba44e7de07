/* The table of commands; each one's work is in a file of its own. */
#include "cli/cli-commands.h"
#include "cli/cli-bush.h"
#include "cli/cli-forecast-ask.h"
#include "cli/cli-season.h"
#include "cli/cli-stock.h"
#include "cli/cli-tonight.h"
#include "cli/cli-weather.h"

const FrCommand fr_commands[] = {
  { "tonight", "[--book FILE]", "Plan tonight's boil from a book",
    "Says how much to pour into pan and bucket, when to switch on, when the bucket is dry and the pan cuts "
    "off, how "
    "thick and how much is left, what it costs and what to be careful of. Amounts follow the book's units; "
    "every "
    "option stands for this answer only and nothing is written.",
    "frostrun-cli tonight --book sugarbush.frostrun --off-by 06:50", FALSE, fr_tonight_entries,
    fr_tonight_run },
  { "morning", "[--book FILE] [--meter KWH]", "Compare the latest kept night with what came of it",
    "Says what was planned and what was found, why they differ, and what the cooker's heat ratio becomes. "
    "Findings in the "
    "book are used; each option stands for this answer only and nothing is written.",
    "frostrun-cli morning --book sugarbush.frostrun --meter 20.1", FALSE, fr_morning_entries,
    fr_run_morning },
  { "season", "[--book FILE] [--season YEAR]", "What a season has come to, day by day",
    "Says how much sap was gathered, waits and was boiled, what syrup it makes and what the power cost, against the season before "
    "on the same date; then every day of which anything is known. Nothing is written.",
    "frostrun-cli season --book sugarbush.frostrun --season 2026", FALSE, fr_season_entries, fr_run_season },
  { "reminders", "[--book FILE] [--all]", "What the book's data calls for",
    "Says what must be boiled and by when, whether to gather before tonight's frost, what is nearly full, how old the taps are, what "
    "does not add up, which points of the checklist are due and what to order. Nothing is written.",
    "frostrun-cli reminders --book sugarbush.frostrun", FALSE, fr_reminders_entries, fr_run_reminders },
  { "checklist", "[--book FILE] [--season YEAR]", "What is to be done to each piece of kit",
    "Says of every container, pan, cooker and circuit what is to be done before the season and after it, and what was done. Nothing is "
    "written.",
    "frostrun-cli checklist --book sugarbush.frostrun", FALSE, fr_checklist_entries, fr_run_checklist },
  { "calendar", "--format KIND [--book FILE] [--from DATE --to DATE] [-o FILE]", "A season's events for other calendars",
    "Writes what was gathered, boils and their moments, sap to be boiled by, taps, clock changes and holidays as iCalendar or JSON. "
    "Each event keeps its name, so that reading the file again replaces what changed.",
    "frostrun-cli calendar --book sugarbush.frostrun --format ics -o sap.ics", FALSE, fr_calendar_entries, fr_run_calendar },
  { "bush", "[--book FILE] [--season YEAR]", "The trees of a book, as a season sees them",
    "Says of every tree how thick it is, how many taps it may carry and has, what it gave, its place among "
    "the others and "
    "what to be careful of. Nothing is written.",
    "frostrun-cli bush --book sugarbush.frostrun --season 2026", FALSE, fr_bush_entries, fr_run_bush },
  { "trunk", "--tree NAME [--book FILE]", "One tree of a book: its holes, and where the next one goes",
    "Says what to do with a tree, where on its trunk the old holes are, which places keep clear of them by "
    "the most, and "
    "what it gave by season. Nothing is written.",
    "frostrun-cli trunk --book sugarbush.frostrun --tree Gate", FALSE, fr_trunk_entries, fr_run_trunk },
  { "stock", "[--book FILE] [--at TIME] [--season YEAR]", "The sap in store: how much, how sweet, until when",
    "Says which container to boil from first, and of each how much is in it, how old, sweet and cold it is and until when it keeps by "
    "the household's table; then what does not add up. It informs; local food rules come first. Nothing is written.",
    "frostrun-cli stock --book sugarbush.frostrun --at 2026-03-19T18:00", FALSE, fr_stock_entries, fr_run_stock },
  { "ledger", "[--book FILE] [--season YEAR] [--at TIME]", "A season's sap: what came in, where it went, what does not add up",
    "Adds up each container's litres and sugar from tap to boil, compares nights with what was taken out for them, and names for each "
    "difference the causes that are likely, with how likely each is. Nothing is written.",
    "frostrun-cli ledger --book sugarbush.frostrun --season 2026", FALSE, fr_ledger_entries, fr_run_ledger },
  { "kitchen", "[--book FILE] [--at TIME]", "Which nights must boil by the forecast, and what room is missing",
    "Follows the store through the evenings whose weather is known: what comes in by the forecast, what has to be boiled before it is past its "
    "time or runs over, in the middle and nine times in ten. It informs; local food rules come first. Nothing is written.",
    "frostrun-cli kitchen --book sugarbush.frostrun --at 2026-03-19T18:00", FALSE, fr_kitchen_entries, fr_run_kitchen },
  { "reading", "--instrument WHICH --reading BX [--sample-c C]",
    "Correct a refractometer's or hydrometer's reading",
    "Says the true sweetness for a reading at the sample's temperature, or what to do with the sample.",
    "frostrun-cli reading --instrument hydrometer_60f --reading 2.2 --sample-c 3", FALSE, fr_reading_entries,
    fr_run_reading },
  { "syrup", "--altitude-m M --brix BX", "Where syrup of a given density is done",
    "Says where plain water boils, where syrup of so much sugar boils, and its density (true, in vacuum) at "
    "20 °C and "
    "at the boil.",
    "frostrun-cli syrup --altitude-m 300 --brix 66.9", FALSE, fr_syrup_entries, fr_run_syrup },
  { "boil", "IN.json", "Follow a boil from switch-on to its end",
    "Says when and why a fed pan stops, when the bucket runs dry, how much is left and how thick it is. "
    "The input is described in frostrun-cli(1) and docs/json.md.",
    "echo '{\"altitude_m\":250,\"air_c\":-3,\n"
    "  \"vessel\":{\"shape\":\"cylinder\",\"radius_m\":0.1,\"height_m\":0.18},\n"
    "  \"cooker\":{\"power_w\":1800,\"heat_ratio\":0.85,\"wall_w_per_k\":0.9},\n"
    "  \"start\":{\"volume_l\":1.5,\"brix\":2,\"temp_c\":3},\n"
    "  \"feed\":{\"volume_l\":12,\"brix\":2,\"temp_c\":3},\n"
    "  \"hold_volume_l\":1.5,\n"
    "  \"stop\":{\"cutoff_volume_l\":0.8,\"after_s\":43200,\"brix\":60}}' | frostrun-cli boil -",
    TRUE, NULL, fr_run_boil },
  { "charge", "IN.json", "The most sap that fits into a night",
    "Finds the largest feed.volume_l whose run cuts off no later than stop.after_s, with what is left no "
    "thicker than "
    "stop.brix, and not over feed.capacity_l; says which of these limits it and which is next. The input is "
    "that of boil.",
    "frostrun-cli charge tonight.json --json", TRUE, NULL, fr_run_charge },
  { "price", "IN.json", "What a night's power costs",
    "Prices a trace of power by a tariff with seasons, kinds of days and hours of the local clock. After a "
    "change of the "
    "clocks the night is an hour shorter or longer, as it is. Prices are minor units (cents) per kWh.",
    "echo '{\"zone\":\"America/Toronto\",\"start\":\"2025-03-08T23:00\",\n"
    "  \"power\":[{\"after_s\":0,\"w\":1800},{\"after_s\":28800,\"w\":0}],\n"
    "  \"tariff\":{\"seasons\":[{\"from\":\"11-01\",\"to\":\"04-30\",\"days\":{\n"
    "    \"weekday\":[[\"19:00\",\"07:00\",9.8],[\"07:00\",\"19:00\",20.3]],\n"
    "    \"weekend\":[[\"00:00\",\"24:00\",9.8]]}}]}}' | frostrun-cli price -",
    TRUE, NULL, fr_run_price },
  { "calibrate", "IN.json", "A cooker's heat ratio from what it did",
    "Combines observations of steady boils, each with its uncertainty, into the part of the power that "
    "reaches the liquid. "
    "Those that do not fit the others are pointed out and set aside.",
    "echo '{\"altitude_m\":250,\"wall_w_per_k\":0.9,\"observations\":[\n"
    "  {\"kind\":\"weight_lost_kg\",\"value\":2.2,\"sd\":0.02,\"hours\":1,\n"
    "   \"power_w\":1800,\"air_c\":15,\"brix\":0}]}' | frostrun-cli calibrate -",
    TRUE, NULL, fr_run_calibrate },
  { "taphole", "IN.json", "Where on a trunk this year's hole goes",
    "Finds the place that keeps clear of all old holes by the most, measured by a spacing rule: sideways along the bark or "
    "up and down. Says how "
    "many times the asked distance that is, or that no place keeps it. Angles are compass degrees.",
    "echo '{\"girth_cm\":150,\n"
    "  \"rule\":{\"sideways_cm\":15,\"up_down_cm\":30,\"min_height_cm\":60,\"max_height_cm\":120},\n"
    "  \"holes\":[{\"angle_deg\":90,\"height_cm\":80}]}' | frostrun-cli taphole -",
    TRUE, NULL, fr_run_taphole },
  { "tap-plan", "IN.json | --book FILE", "Which trees to tap, and how many taps each",
    "Chooses taps so that a season's sap holds the most sugar, within the buckets, what the kitchen boils on a peak day and a "
    "number of trees. Says what the next bucket would add and from how many buckets the kitchen is the limit.",
    "echo '{\"buckets\":3,\"boil_litres_per_day\":9,\"season_days\":35,\"peak_ratio\":3,\"trees\":[\n"
    "  {\"name\":\"T1\",\"taps_max\":2,\"litres_per_tap\":[40,30],\"brix\":2.1},\n"
    "  {\"name\":\"T2\",\"taps_max\":1,\"litres_per_tap\":[45],\"brix\":1.8}]}' | frostrun-cli tap-plan -",
    TRUE, fr_tap_plan_entries, fr_run_tap_plan, &fr_cli_plan_book },
  { "round", "IN.json | --book FILE", "The shortest walk to the trees with a pail",
    "Finds the trips from the start past all stops and back, a pail emptied at the start, with the least walk and "
    "then the "
    "fewest litre-metres; says how far any walk can be below it. A stop with more than a pail gets full trips "
    "alone first.",
    "echo '{\"start\":[0,0],\"pail_l\":20,\"stops\":[\n"
    "  {\"name\":\"A1\",\"x\":30,\"y\":5,\"litres\":8},\n"
    "  {\"name\":\"A2\",\"x\":42,\"y\":-6,\"litres\":11},\n"
    "  {\"name\":\"B1\",\"x\":-15,\"y\":20,\"litres\":26}]}' | frostrun-cli round -",
    TRUE, fr_round_entries, fr_run_round, &fr_cli_plan_book },
  { "import", "FILE [--book FILE] [--dry-run]", "Trees, gatherings, stock or weather from a file into a book",
    "Tells what becomes of each waypoint, point or row: a new tree, one of the book (by its identity, its name, its place or "
    "standing near), or none, and why. All that comes in is one step that the window can undo; the same file again "
    "changes nothing. A table of gatherings, containers, pours or looks comes in whole or not at all: rows that are asked about are "
    "confirmed with --confirm, those refused left out with --without-refused. What kind of file it is shows in what is in it, but weather is told by --kind weather "
    "and its source by --station.",
    "frostrun-cli import walk.gpx --book sugarbush.frostrun --dry-run", TRUE, fr_import_entries, fr_run_import },
  { "export", "--format KIND [--book FILE] [-o FILE]", "A book's trees, gatherings or stock as a file",
    "Writes the trees in use (as CSV those put away too) with their girths, taps and seasons, and what the files they came from said of them, so "
    "that reading the file into an empty book gives the same trees.",
    "frostrun-cli export --book sugarbush.frostrun --format gpx -o trees.gpx", FALSE, fr_export_entries,
    fr_run_export },
  { "weather", "FILE [--columns LIST] [--where COLUMN=VALUE]", "What weather a file holds",
    "Reads a plain table of days or hours, GHCN-Daily (.dly and both CSV forms), daily CSV of Environment and Climate Change Canada, "
    "MET Norway compact, US National Weather Service gridpoint or Open-Meteo JSON, and says of what place and which days it is, "
    "what is missing, estimated or refused. Which format it is shows in what is in it. Nothing is written.",
    "frostrun-cli weather station.csv --columns date=day,low=tmin:f,high=tmax:f", TRUE, fr_weather_entries, fr_run_weather },
  { "forecast", "--book FILE [--now TIME] | --weather FILE [--taps N] [--tapped DATE] …", "When sap will run, how much, and how sure",
    "For each day the chance of a run and the litres a tap, for the season what is still to come and whether it is over. A day ends at the "
    "gathering hour and began 24 hours before. What was emptied up to --as-of teaches it how this bush runs; nothing after that day is "
    "looked at, and later weather counts as forecast. Past seasons of the same file, or of --seasons, stand in where the forecast ends.",
    "frostrun-cli forecast --weather station.csv --taps 14 --tapped 2026-02-22 --gathered gathered.csv --as-of 2026-03-19", FALSE,
    fr_forecast_entries, fr_run_forecast },
  { "tap-date", "--weather FILE [--seasons FILE]… [--as-of DATE] …", "When to tap, and what a week early or late loses",
    "For each date the litres that a hole drilled on it is likely to give by the season's end, over this year's weather and every past "
    "season that may follow it. Recommended is the latest date from --as-of on that is within one per cent of the best: a hole only "
    "gets older.",
    "frostrun-cli tap-date --weather station.csv --seasons older.csv --as-of 2026-02-10", FALSE, fr_tap_date_entries,
    fr_run_tap_date },
  { "score", "[--weather FILE --gathered FILE --tapped DATE] …", "How well the forecast of sap did, beside simpler ways",
    "Foretells each emptying of a season as of the one before it, with only what was known then, and holds it against what came: rank "
    "correlation, errors of litres, chances and ranges, with how sure each score is. Without options the two measured seasons that come "
    "with the program, each with numbers fitted on the other. Weather to come is told as observed, and again with drawn errors.",
    "frostrun-cli score --weather station.csv --gathered gathered.csv --tapped 2026-02-22", FALSE, fr_score_entries, fr_run_score },
  { "sheet", "--kind KIND [--book FILE] -o FILE", "A sheet to take to the trees, or the season, as PDF",
    "Gathering: the trees with taps in walking order, trip by trip, with boxes for sap, sweetness and remarks. Measuring: all trees, "
    "with boxes for girth, health and remarks. Map: the ground true to a scale, over several pages where one is not enough. Season: its "
    "answer, its picture and its days as a table.",
    "frostrun-cli sheet --book sugarbush.frostrun --kind map --scale 500 -o map.pdf", FALSE, fr_sheet_entries,
    fr_run_sheet },
};

const guint fr_n_commands = G_N_ELEMENTS (fr_commands);
