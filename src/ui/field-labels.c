/* What each field of each kind is called to people. Figures in notes: water boils about 1 °C lower for each
 * 300 m (1976 standard atmosphere with the IAPWS saturation line: 99.0 °C at 300 m); propane has 50.2 MJ/kg,
 * the higher value (EIA: 91,452 Btu per US gallon, at 4.24 lb per gallon); common practice, no source, for
 * the rest. */
#include "ui/field-labels.h"

#include <glib/gi18n-lib.h>

#define ROUND "shape=cylinder"
#define CONE "shape=cone"
#define CAP "shape=cap"
#define BOX "shape=box"
#define TABLE "shape=table"

static const FrFieldLabel labels[] = {
  { FR_KIND_HOUSEHOLD, "name", N_ ("Place"), N_ ("Name of this book"), NULL },
  { FR_KIND_HOUSEHOLD, "place", N_ ("Place"), N_ ("Where"), N_ ("Town or road, for your own papers") },
  { FR_KIND_HOUSEHOLD, "zone", N_ ("Place"), N_ ("Time zone"),
    N_ ("Continent/City, for example Europe/London") },
  { FR_KIND_HOUSEHOLD, "altitude_m", N_ ("Place"), N_ ("Height above the sea"),
    N_ ("Water boils about 1 °C lower for each 300 m") },
  { FR_KIND_HOUSEHOLD, "units", N_ ("Numbers"), N_ ("Units"), NULL },
  { FR_KIND_HOUSEHOLD, "sweetness", N_ ("Numbers"), N_ ("Sweetness in"), NULL },
  { FR_KIND_HOUSEHOLD, "currency", N_ ("Numbers"), N_ ("Currency"),
    N_ ("Its three letters, for example EUR") },
  { FR_KIND_HOUSEHOLD, "measures", N_ ("Your Own Measures"), N_ ("Your own measures"),
    N_ ("One a line, in litres: bucket = 11. Then “2 buckets” can be typed for any volume.") },
  { FR_KIND_HOUSEHOLD, "syrup_brix", N_ ("Syrup"), N_ ("Syrup begins at"),
    N_ ("Most rules ask for 66 to 68.9 °Bx; yours may differ") },
  { FR_KIND_HOUSEHOLD, "jar_l", N_ ("Syrup"), N_ ("One jar holds"), NULL },

  { FR_KIND_CIRCUIT, "name", N_ ("Circuit"), N_ ("Name"), NULL },
  { FR_KIND_CIRCUIT, "breaker_a", N_ ("Circuit"), N_ ("Breaker"), N_ ("The number on its lever") },
  { FR_KIND_CIRCUIT, "volts_v", N_ ("Circuit"), N_ ("Voltage"), NULL },
  { FR_KIND_CIRCUIT, "other_load_w", N_ ("Circuit"), N_ ("Other load"),
    N_ ("What else draws on it during the night") },
  { FR_KIND_CIRCUIT, "gfci", N_ ("Circuit"), N_ ("Ground-fault interrupter"),
    N_ ("Cuts the power when current leaks, as steam and wet can cause") },

  { FR_KIND_VESSEL, "name", N_ ("Pan"), N_ ("Name"), NULL },
  { FR_KIND_VESSEL, "shape", N_ ("Pan"), N_ ("Shape"), NULL },
  { FR_KIND_VESSEL, "diameter_m", N_ ("Inside Measures"), N_ ("Width"), NULL, ROUND },
  { FR_KIND_VESSEL, "diameter_m", N_ ("Inside Measures"), N_ ("Width at the bottom"), NULL, CONE },
  { FR_KIND_VESSEL, "top_diameter_m", N_ ("Inside Measures"), N_ ("Width at the rim"), NULL, CONE },
  { FR_KIND_VESSEL, "diameter_m", N_ ("Inside Measures"), N_ ("Width at the rim"), NULL, CAP },
  { FR_KIND_VESSEL, "flat_diameter_m", N_ ("Inside Measures"), N_ ("Width of the flat bottom"),
    N_ ("Empty when it is round all the way"), CAP },
  { FR_KIND_VESSEL, "length_m", N_ ("Inside Measures"), N_ ("Length"), NULL, BOX },
  { FR_KIND_VESSEL, "width_m", N_ ("Inside Measures"), N_ ("Width"), NULL, BOX },
  { FR_KIND_VESSEL, "corner_m", N_ ("Inside Measures"), N_ ("Radius of the corners"),
    N_ ("Empty when they are square"), BOX },
  { FR_KIND_VESSEL, "height_m", N_ ("Inside Measures"), N_ ("Height"), N_ ("From the bottom to the rim"),
    "shape=cylinder,cone,box" },
  { FR_KIND_VESSEL, "height_m", N_ ("Inside Measures"), N_ ("Depth in the middle"), NULL, CAP },
  { FR_KIND_VESSEL, "rows", N_ ("Inside Measures"), N_ ("Measured depths"),
    N_ ("Pour in a known amount, measure the depth, and write both: 3.0 2.5 is 3 cm at 2.5 L. One pair a "
        "line, rising."),
    TABLE },
  { FR_KIND_VESSEL, "hold_l", N_ ("Levels"), N_ ("The feed holds"), N_ ("Amount in the pan while it boils") },
  { FR_KIND_VESSEL, "cutoff_l", N_ ("Levels"), N_ ("Power off at"),
    N_ ("Amount left when the power is cut") },
  { FR_KIND_VESSEL, "min_level_l", N_ ("Levels"), N_ ("Never below"),
    N_ ("Amount that just covers the element") },
  { FR_KIND_VESSEL, "foam_ratio", N_ ("Levels"), N_ ("Room for foam"),
    N_ ("Free height over the depth of the liquid; 1 is as much again") },
  { FR_KIND_VESSEL, "feed", N_ ("Bucket and Feed"), N_ ("Feed"), NULL },
  { FR_KIND_VESSEL, "bucket_l", N_ ("Bucket and Feed"), N_ ("Bucket holds"), NULL },
  { FR_KIND_VESSEL, "head_m", N_ ("Bucket and Feed"), N_ ("Sap over the outlet"),
    N_ ("Height from the outlet to the middle of the sap in the bucket") },
  { FR_KIND_VESSEL, "hole_m", N_ ("Bucket and Feed"), N_ ("Width of the hole"), NULL, "feed=hole" },
  { FR_KIND_VESSEL, "cover", N_ ("Heat and Safety"), N_ ("Side of the pan"), NULL },
  { FR_KIND_VESSEL, "wall_w_per_k", N_ ("Heat and Safety"), N_ ("Heat lost through the side"),
    N_ ("Only when measured; it is worked out otherwise") },
  { FR_KIND_VESSEL, "solder", N_ ("Heat and Safety"), N_ ("Old solder or zinc"),
    N_ ("Also for a metal you do not know") },

  { FR_KIND_COOKER, "name", N_ ("Cooker"), N_ ("Name"), NULL },
  { FR_KIND_COOKER, "power_w", N_ ("Cooker"), N_ ("Power"), N_ ("As on its plate, or better from a meter") },
  { FR_KIND_COOKER, "vessel", N_ ("Cooker"), N_ ("Pan on it"), NULL },
  { FR_KIND_COOKER, "circuit", N_ ("Cooker"), N_ ("Circuit"), NULL },
  { FR_KIND_COOKER, "place", N_ ("Cooker"), N_ ("It stands"), NULL },
  { FR_KIND_COOKER, "cutoff_by", N_ ("Cooker"), N_ ("Power is cut by"), NULL },
  { FR_KIND_COOKER, "heat_ratio", N_ ("Heat"), N_ ("Heat that reaches the pan"),
    N_ ("Part of the power; a first night measures it better than any guess") },
  { FR_KIND_COOKER, "heat_ratio_sd", N_ ("Heat"), N_ ("Known to within"),
    N_ ("Empty when never measured; 15 % either way is then assumed") },
  { FR_KIND_COOKER, "ratio_holds_wall", N_ ("Heat"), N_ ("Side losses are in it"),
    N_ ("On for a ratio from practice or from a table") },
  { FR_KIND_COOKER, "reflux_ratio", N_ ("Heat"), N_ ("Vapour dripping back"),
    N_ ("From a lid; 0 for an open pan") },

  { FR_KIND_TARIFF, "name", N_ ("Price Plan"), N_ ("Name"), NULL },
  { FR_KIND_TARIFF, "in_use", N_ ("Price Plan"), N_ ("Used for the nights"),
    N_ ("One price plan at a time") },
  { FR_KIND_TARIFF, "periods", N_ ("Prices"), N_ ("Prices"), NULL },
  { FR_KIND_TARIFF, "adder_per_kwh", N_ ("On Top"), N_ ("Added to every price"),
    N_ ("Delivery and levies that are counted by the kilowatt hour") },
  { FR_KIND_TARIFF, "tax_ratio", N_ ("On Top"), N_ ("Tax on all of it"), NULL },
  { FR_KIND_TARIFF, "holidays", N_ ("Holidays"), N_ ("Holidays"),
    N_ ("Dates that take the holiday prices, or the weekend ones. One a line: 2027-04-02") },

  { FR_KIND_FUEL, "name", N_ ("Fuel"), N_ ("Name"), NULL },
  { FR_KIND_FUEL, "fuel", N_ ("Fuel"), N_ ("Kind"), NULL },
  { FR_KIND_FUEL, "price_per_kg", N_ ("Fuel"), N_ ("Price"), NULL },
  { FR_KIND_FUEL, "heat_mj_per_kg", N_ ("Fuel"), N_ ("Heat in it"),
    N_ ("Higher heating value; propane has about 50.2") },
  { FR_KIND_FUEL, "heat_ratio", N_ ("Fuel"), N_ ("Heat that reaches the sap"), N_ ("After every loss") },
  { FR_KIND_FUEL, "flame", N_ ("Fuel"), N_ ("Burns with an open flame"), NULL },

  { FR_KIND_NIGHT, "evening", N_ ("Evening"), N_ ("Evening of"), NULL, NULL, TRUE },
  { FR_KIND_NIGHT, "cooker", N_ ("Evening"), N_ ("Cooker"), NULL, NULL, TRUE },
  { FR_KIND_NIGHT, "start_utc", N_ ("Evening"), N_ ("Switched on"), NULL, NULL, TRUE },
  { FR_KIND_NIGHT, "pan_l", N_ ("Evening"), N_ ("Poured into the pan"), NULL, NULL, TRUE },
  { FR_KIND_NIGHT, "bucket_l", N_ ("Evening"), N_ ("Poured into the bucket"), NULL, NULL, TRUE },
  { FR_KIND_NIGHT, "sap_brix", N_ ("Evening"), N_ ("Sweetness of the sap"), NULL, NULL, TRUE },
  { FR_KIND_NIGHT, "plan_dry_utc", N_ ("As Planned"), N_ ("Bucket dry"), NULL, NULL, TRUE },
  { FR_KIND_NIGHT, "plan_end_utc", N_ ("As Planned"), N_ ("Power off"), NULL, NULL, TRUE },
  { FR_KIND_NIGHT, "plan_left_l", N_ ("As Planned"), N_ ("Left in the pan"), NULL, NULL, TRUE },
  { FR_KIND_NIGHT, "plan_brix", N_ ("As Planned"), N_ ("Sweetness then"), NULL, NULL, TRUE },
  { FR_KIND_NIGHT, "plan_energy_kwh", N_ ("As Planned"), N_ ("Energy"), NULL, NULL, TRUE },
  { FR_KIND_NIGHT, "left_l", N_ ("The Morning After"), N_ ("Left in the pan"), NULL },
  { FR_KIND_NIGHT, "left_brix", N_ ("The Morning After"), N_ ("Its sweetness"), NULL },
  { FR_KIND_NIGHT, "left_boil_c", N_ ("The Morning After"), N_ ("Or where it boils"), NULL },
  { FR_KIND_NIGHT, "bucket_left_l", N_ ("The Morning After"), N_ ("Left in the bucket"), NULL },
  { FR_KIND_NIGHT, "meter_kwh", N_ ("The Morning After"), N_ ("Energy by the meter"), NULL },
  { FR_KIND_NIGHT, "end_utc", N_ ("The Morning After"), N_ ("Seen to be off"),
    N_ ("Date and clock: 2027-03-12 06:48") },
  { FR_KIND_NIGHT, "note", N_ ("Note"), N_ ("Note"), NULL },

  { FR_KIND_TREE, "name", N_ ("Tree"), N_ ("Name"), N_ ("As on its label") },
  { FR_KIND_TREE, "species", N_ ("Tree"), N_ ("Species"), NULL },
  { FR_KIND_TREE, "crown", N_ ("Tree"), N_ ("Crown"),
    N_ ("A wide crown in the open gives more and sweeter sap") },
  { FR_KIND_TREE, "health", N_ ("Tree"), N_ ("Health"), NULL },
  { FR_KIND_TREE, "choice", N_ ("Tree"), N_ ("In the tapping plan"), NULL },
  { FR_KIND_TREE, "stand", N_ ("Tree"), N_ ("Gathered with the group"), N_ ("A name that trees share") },
  { FR_KIND_TREE, "dead_limbs", N_ ("Dangers"), N_ ("Dead limbs above"),
    N_ ("Look up before you work under it") },
  { FR_KIND_TREE, "wires", N_ ("Dangers"), N_ ("Wires near it"), N_ ("Keep ladders and long poles away") },
  { FR_KIND_TREE, "lean", N_ ("Dangers"), N_ ("Leans"), NULL },
  { FR_KIND_TREE, "roadside", N_ ("Dangers"), N_ ("Beside a road"), N_ ("Traffic, ploughs and road salt") },
  { FR_KIND_TREE, "permission", N_ ("Land"), N_ ("May be tapped"), NULL },
  { FR_KIND_TREE, "owner", N_ ("Land"), N_ ("Owner"), NULL },
  { FR_KIND_TREE, "x_m", N_ ("Place on the Plan"), N_ ("East"),
    N_ ("From the plan’s zero; negative is west") },
  { FR_KIND_TREE, "y_m", N_ ("Place on the Plan"), N_ ("North"), N_ ("Negative is south") },
  { FR_KIND_TREE, "elevation_m", N_ ("Place on the Plan"), N_ ("Height above the sea"), NULL },
  { FR_KIND_TREE, "measured_from", N_ ("Place on the Plan"), N_ ("Measured from"), NULL, NULL, TRUE },
  { FR_KIND_TREE, "from_distance_m", N_ ("Place on the Plan"), N_ ("By the tape"), NULL, NULL, TRUE },
  { FR_KIND_TREE, "from_bearing_deg", N_ ("Place on the Plan"), N_ ("By the compass"), NULL, NULL, TRUE },
  { FR_KIND_TREE, "note", N_ ("Note"), N_ ("Note"), NULL },

  { FR_KIND_GIRTH, "measured_on", N_ ("Measure"), N_ ("Measured on"), N_ ("Year, month, day: 2027-01-16") },
  { FR_KIND_GIRTH, "measure", N_ ("Measure"), N_ ("What was measured"), NULL },
  { FR_KIND_GIRTH, "size_m", N_ ("Measure"), N_ ("Size"), N_ ("At breast height, 1.37 m or 4.5 ft up") },

  { FR_KIND_TAP, "season", N_ ("Tap"), N_ ("Season"), N_ ("The year of its spring") },
  { FR_KIND_TAP, "set_on", N_ ("Tap"), N_ ("Set on"), N_ ("Empty while it is only planned") },
  { FR_KIND_TAP, "set_by", N_ ("Tap"), N_ ("Set by"), NULL },
  { FR_KIND_TAP, "direction_deg", N_ ("Hole"), N_ ("Side of the trunk"),
    N_ ("0 is north, 90 east, 180 south, 270 west") },
  { FR_KIND_TAP, "height_m", N_ ("Hole"), N_ ("Above the ground"), NULL },
  { FR_KIND_TAP, "depth_m", N_ ("Hole"), N_ ("Depth"), NULL },
  { FR_KIND_TAP, "bore_m", N_ ("Hole"), N_ ("Bore"), N_ ("5/16 in is 7.9 mm, 7/16 in is 11.1 mm") },
  { FR_KIND_TAP, "spout", N_ ("Spout and Pail"), N_ ("Spout"), NULL },
  { FR_KIND_TAP, "container", N_ ("Spout and Pail"), N_ ("Hangs on it"), NULL },
  { FR_KIND_TAP, "container_l", N_ ("Spout and Pail"), N_ ("It holds"), NULL },
  { FR_KIND_TAP, "pulled_on", N_ ("End"), N_ ("Pulled on"), NULL },
  { FR_KIND_TAP, "closed_on", N_ ("End"), N_ ("Seen closed on"), N_ ("When bark had grown over the hole") },
  { FR_KIND_TAP, "note", N_ ("Note"), N_ ("Note"), NULL },

  { FR_KIND_YIELD, "season", N_ ("Season"), N_ ("Season"), N_ ("The year of its spring") },
  { FR_KIND_YIELD, "volume_l", N_ ("Season"), N_ ("Sap in all"), NULL },
  { FR_KIND_YIELD, "reading_brix", N_ ("Sweetness"), N_ ("As read"),
    N_ ("Uncorrected, straight from the scale") },
  { FR_KIND_YIELD, "instrument", N_ ("Sweetness"), N_ ("Read with"), NULL },
  { FR_KIND_YIELD, "sample_c", N_ ("Sweetness"), N_ ("Sample was at"), NULL },
  { FR_KIND_YIELD, "note", N_ ("Note"), N_ ("Note"), NULL },

  { FR_KIND_FEATURE, "form", N_ ("Drawing"), N_ ("What it is"), NULL },
  { FR_KIND_FEATURE, "name", N_ ("Drawing"), N_ ("Name"), NULL },
  { FR_KIND_FEATURE, "points", N_ ("Drawing"), N_ ("Corners"),
    N_ ("Metres east and north, one corner a line: 12.5 -3") },

  { FR_KIND_GROUND, "anchor_x_m", N_ ("Tie to the Earth"), N_ ("A point of the plan, east"), NULL },
  { FR_KIND_GROUND, "anchor_y_m", N_ ("Tie to the Earth"), N_ ("And north"), NULL },
  { FR_KIND_GROUND, "anchor_lat_deg", N_ ("Tie to the Earth"), N_ ("Its latitude"),
    N_ ("Degrees, south is negative: 44.2601") },
  { FR_KIND_GROUND, "anchor_lon_deg", N_ ("Tie to the Earth"), N_ ("Its longitude"),
    N_ ("Degrees, west is negative: -72.5802") },
  { FR_KIND_GROUND, "declination_deg", N_ ("Compass"), N_ ("Declination"),
    N_ ("How far east of true north the needle points here; west is negative") },

  { FR_KIND_TAPPING, "guideline", N_ ("Taps a Tree"), N_ ("Guideline"), NULL },
  { FR_KIND_TAPPING, "spacing", N_ ("Holes"), N_ ("Distance to old holes"), NULL },
  { FR_KIND_TAPPING, "sideways_m", N_ ("Holes"), N_ ("Sideways"), NULL, "spacing=own" },
  { FR_KIND_TAPPING, "up_down_m", N_ ("Holes"), N_ ("Up and down"), NULL, "spacing=own" },
  { FR_KIND_TAPPING, "min_height_m", N_ ("Holes"), N_ ("Not lower than"),
    N_ ("Above the ground or the usual snow") },
  { FR_KIND_TAPPING, "max_height_m", N_ ("Holes"), N_ ("Not higher than"), NULL },
  { FR_KIND_TAPPING, "buckets", N_ ("Limits"), N_ ("Buckets to hang"), NULL },
  { FR_KIND_TAPPING, "max_trees", N_ ("Limits"), N_ ("Trees at most"), N_ ("Empty for no limit") },
  { FR_KIND_TAPPING, "walk_m", N_ ("Limits"), N_ ("Longest walk"), N_ ("One round; empty for no limit") },
  { FR_KIND_TAPPING, "pail_l", N_ ("Limits"), N_ ("One load carries"),
    N_ ("What you carry at once, one pail or two") },
  { FR_KIND_TAPPING, "peak_boil_l", N_ ("Kitchen"), N_ ("Boils on a peak day"),
    N_ ("Litres of sap; empty for no limit") },
  { FR_KIND_TAPPING, "season_days", N_ ("Kitchen"), N_ ("Days of the season"), NULL },
  { FR_KIND_TAPPING, "peak_ratio", N_ ("Kitchen"), N_ ("Peak day"), N_ ("Times an average day") },

  { FR_KIND_CONTAINER, "name", N_ ("Container"), N_ ("Name"), N_ ("As on its lid") },
  { FR_KIND_CONTAINER, "role", N_ ("Container"), N_ ("Used for"), NULL },
  { FR_KIND_CONTAINER, "capacity_l", N_ ("Container"), N_ ("Holds"), N_ ("To the rim") },
  { FR_KIND_CONTAINER, "place", N_ ("Where It Stands"), N_ ("Place"), N_ ("The colder, the longer sap keeps") },
  { FR_KIND_CONTAINER, "insulation", N_ ("Where It Stands"), N_ ("Against warmth"), NULL },
  { FR_KIND_CONTAINER, "material", N_ ("Material"), N_ ("Made of"),
    N_ ("Old solder, galvanised and unknown metal may hold lead") },
  { FR_KIND_CONTAINER, "made_in", N_ ("Material"), N_ ("Made or bought in"), N_ ("A year") },
  { FR_KIND_CONTAINER, "diameter_m", N_ ("For Litres by Depth"), N_ ("Width at the bottom"), N_ ("Inside") },
  { FR_KIND_CONTAINER, "top_diameter_m", N_ ("For Litres by Depth"), N_ ("Width at the rim"),
    N_ ("Inside; empty for straight sides") },
  { FR_KIND_CONTAINER, "height_m", N_ ("For Litres by Depth"), N_ ("Height"), N_ ("Inside") },
  { FR_KIND_CONTAINER, "empty_kg", N_ ("For Litres by Weight"), N_ ("Weight, empty"), NULL },
  { FR_KIND_CONTAINER, "note", N_ ("Note"), N_ ("Note"), NULL },

  { FR_KIND_GATHERING, "gathered_utc", N_ ("Gathering"), N_ ("Gathered"), N_ ("Date and clock: 2027-03-11 16:20") },
  { FR_KIND_GATHERING, "scope", N_ ("Gathering"), N_ ("From"), NULL },
  { FR_KIND_GATHERING, "tree", N_ ("Gathering"), N_ ("Tree"), NULL, "scope=tree" },
  { FR_KIND_GATHERING, "tap", N_ ("Gathering"), N_ ("Tap"), NULL, "scope=tap" },
  { FR_KIND_GATHERING, "stand", N_ ("Gathering"), N_ ("Group"), NULL, "scope=group" },
  { FR_KIND_GATHERING, "measured_by", N_ ("Amount"), N_ ("Measured by"), NULL },
  { FR_KIND_GATHERING, "volume_l", N_ ("Amount"), N_ ("Amount"), NULL, "measured_by=volume" },
  { FR_KIND_GATHERING, "weight_kg", N_ ("Amount"), N_ ("Weight"), N_ ("With the bucket, if one is chosen"),
    "measured_by=weight" },
  { FR_KIND_GATHERING, "depth_m", N_ ("Amount"), N_ ("Depth"), NULL, "measured_by=depth" },
  { FR_KIND_GATHERING, "bucket", N_ ("Amount"), N_ ("In the bucket"), NULL, "measured_by=weight,depth" },
  { FR_KIND_GATHERING, "ice_l", N_ ("Amount"), N_ ("Ice thrown out"), N_ ("As water") },
  { FR_KIND_GATHERING, "ice_brix", N_ ("Amount"), N_ ("Sweetness of that ice"), N_ ("Melted; empty if not measured") },
  { FR_KIND_GATHERING, "reading_brix", N_ ("Sweetness"), N_ ("As read"),
    N_ ("Uncorrected, straight from the scale") },
  { FR_KIND_GATHERING, "instrument", N_ ("Sweetness"), N_ ("Read with"), NULL },
  { FR_KIND_GATHERING, "sample_c", N_ ("Sweetness"), N_ ("Sample was at"), NULL },
  { FR_KIND_GATHERING, "sap_c", N_ ("Sap"), N_ ("The sap was at"), NULL },
  { FR_KIND_GATHERING, "clarity", N_ ("Sap"), N_ ("Looks"), NULL },
  { FR_KIND_GATHERING, "smell", N_ ("Sap"), N_ ("Smells"), NULL },
  { FR_KIND_GATHERING, "container", N_ ("Sap"), N_ ("Poured into"), NULL },
  { FR_KIND_GATHERING, "who", N_ ("Note"), N_ ("Gathered by"), NULL },
  { FR_KIND_GATHERING, "note", N_ ("Note"), N_ ("Note"), NULL },

  { FR_KIND_POUR, "poured_utc", N_ ("Pouring"), N_ ("When"), N_ ("Date and clock: 2027-03-11 16:20") },
  { FR_KIND_POUR, "reason", N_ ("Pouring"), N_ ("Why"), NULL },
  { FR_KIND_POUR, "container", N_ ("Pouring"), N_ ("Out of"), NULL },
  { FR_KIND_POUR, "target", N_ ("Pouring"), N_ ("Into"), NULL, "reason=moved" },
  { FR_KIND_POUR, "volume_l", N_ ("Amount"), N_ ("Amount"), N_ ("Ice as water") },
  { FR_KIND_POUR, "reading_brix", N_ ("Sweetness"), N_ ("As read"), N_ ("Empty: as the sap in the container is") },
  { FR_KIND_POUR, "instrument", N_ ("Sweetness"), N_ ("Read with"), NULL },
  { FR_KIND_POUR, "sample_c", N_ ("Sweetness"), N_ ("Sample was at"), NULL },
  { FR_KIND_POUR, "night", N_ ("Pouring"), N_ ("On the night of"), NULL, "reason=boiled" },
  { FR_KIND_POUR, "note", N_ ("Note"), N_ ("Note"), NULL },

  { FR_KIND_DIP, "found_utc", N_ ("Found"), N_ ("When"), N_ ("Date and clock: 2027-03-11 16:20") },
  { FR_KIND_DIP, "container", N_ ("Found"), N_ ("In"), NULL },
  { FR_KIND_DIP, "measured_by", N_ ("Amount"), N_ ("Measured by"), NULL },
  { FR_KIND_DIP, "volume_l", N_ ("Amount"), N_ ("Amount"), N_ ("Ice counted as water"), "measured_by=volume" },
  { FR_KIND_DIP, "weight_kg", N_ ("Amount"), N_ ("Weight"), N_ ("With the container"), "measured_by=weight" },
  { FR_KIND_DIP, "depth_m", N_ ("Amount"), N_ ("Depth"), NULL, "measured_by=depth" },
  { FR_KIND_DIP, "reading_brix", N_ ("Sweetness"), N_ ("As read"), N_ ("Of the liquid, straight from the scale") },
  { FR_KIND_DIP, "instrument", N_ ("Sweetness"), N_ ("Read with"), NULL },
  { FR_KIND_DIP, "sample_c", N_ ("Sweetness"), N_ ("Sample was at"), NULL },
  { FR_KIND_DIP, "temp_c", N_ ("Sap"), N_ ("The sap is at"), NULL },
  { FR_KIND_DIP, "ice_ratio", N_ ("Sap"), N_ ("Of it is ice"), NULL },
  { FR_KIND_DIP, "clarity", N_ ("Sap"), N_ ("Looks"), NULL },
  { FR_KIND_DIP, "smell", N_ ("Sap"), N_ ("Smells"), NULL },
  { FR_KIND_DIP, "note", N_ ("Note"), N_ ("Note"), NULL },

  { FR_KIND_DAY, "day", N_ ("Day"), N_ ("Day"), NULL, NULL, TRUE },
  { FR_KIND_DAY, "low_c", N_ ("Weather"), N_ ("Low"), NULL },
  { FR_KIND_DAY, "high_c", N_ ("Weather"), N_ ("High"), NULL },
  { FR_KIND_DAY, "expected", N_ ("Weather"), N_ ("Only expected"), N_ ("Off once it was seen") },
  { FR_KIND_DAY, "rain_m", N_ ("Weather"), N_ ("Rain"), N_ ("Melted snow too") },
  { FR_KIND_DAY, "buds", N_ ("Trees"), N_ ("Buds"), NULL },
  { FR_KIND_DAY, "note", N_ ("Note"), N_ ("Note"), NULL },

  { FR_KIND_CHORE, "done_on", N_ ("Checklist"), N_ ("Done on"), N_ ("Year, month, day: 2027-02-21") },
  { FR_KIND_CHORE, "outcome", N_ ("Checklist"), N_ ("How it went"), NULL },
  { FR_KIND_CHORE, "who", N_ ("Checklist"), N_ ("Done by"), NULL },
  { FR_KIND_CHORE, "note", N_ ("Note"), N_ ("Note"), NULL },

  { FR_KIND_STORING, "keeping", N_ ("How Long Sap Keeps"), N_ ("By"), NULL },
  { FR_KIND_STORING, "own_rows", N_ ("How Long Sap Keeps"), N_ ("Your own table"),
    N_ ("Up to °C and hours, one pair a line: 4 48"), "keeping=own" },
  { FR_KIND_STORING, "tap_weeks", N_ ("Reminders"), N_ ("A tap is old after"), N_ ("Weeks") },
  { FR_KIND_STORING, "filters", N_ ("Supplies"), N_ ("Filters left"), NULL },
  { FR_KIND_STORING, "bottles", N_ ("Supplies"), N_ ("Empty bottles left"), NULL },
  { FR_KIND_STORING, "calendar_folder", N_ ("Calendar File"), N_ ("Folder"),
    N_ ("One that your phones read already") },

  { FR_KIND_STATION, "name", N_ ("Source"), N_ ("Name"), NULL },
  { FR_KIND_STATION, "source", N_ ("Source"), N_ ("Comes from"), NULL },
  { FR_KIND_STATION, "station_key", N_ ("Source"), N_ ("Its own key"), N_ ("As the source writes it") },
  { FR_KIND_STATION, "attribution", N_ ("Source"), N_ ("To be said of it"), N_ ("Whose figures these are") },
  { FR_KIND_STATION, "latitude_deg", N_ ("Place"), N_ ("Latitude"), N_ ("South of the equator below 0") },
  { FR_KIND_STATION, "longitude_deg", N_ ("Place"), N_ ("Longitude"), N_ ("West of Greenwich below 0") },
  { FR_KIND_STATION, "altitude_m", N_ ("Place"), N_ ("Height above the sea"), NULL },
  { FR_KIND_STATION, "reading_minute", N_ ("Reading"), N_ ("Read at"),
    N_ ("A clock time, such as 07:00. Empty: at midnight, or not known") },
  { FR_KIND_STATION, "shift_highs", N_ ("Reading"), N_ ("A morning’s high is yesterday’s"),
    N_ ("Many stations write the high down on the day it was read") },
  { FR_KIND_STATION, "low_offset_k", N_ ("Between It and Your Place"), N_ ("Added to its lows"),
    N_ ("Empty: learned from days that you wrote down too") },
  { FR_KIND_STATION, "high_offset_k", N_ ("Between It and Your Place"), N_ ("Added to its highs"),
    N_ ("Empty: learned from days that you wrote down too") },
  { FR_KIND_STATION, "note", N_ ("Note"), N_ ("Note"), NULL },

  { FR_KIND_STATION_DAY, "day", N_ ("Day"), N_ ("Day"), NULL, NULL, TRUE },
  { FR_KIND_STATION_DAY, "low_c", N_ ("Weather"), N_ ("Low"), NULL },
  { FR_KIND_STATION_DAY, "low_mark", N_ ("Weather"), N_ ("The low is"), NULL },
  { FR_KIND_STATION_DAY, "high_c", N_ ("Weather"), N_ ("High"), NULL },
  { FR_KIND_STATION_DAY, "high_mark", N_ ("Weather"), N_ ("The high is"), NULL },
  { FR_KIND_STATION_DAY, "rain_m", N_ ("Weather"), N_ ("Rain"), N_ ("Melted snow too") },
  { FR_KIND_STATION_DAY, "snow_m", N_ ("Weather"), N_ ("Snow lying"), NULL },
  { FR_KIND_STATION_DAY, "sun_j_per_m2", N_ ("Weather"), N_ ("Sun"), N_ ("Joules on a square metre of level ground") },

  { FR_KIND_FORECASTING, "service", N_ ("Forecast from the Net"), N_ ("From"), NULL },
  { FR_KIND_FORECASTING, "contact", N_ ("Forecast from the Net"), N_ ("Sent along with each question"),
    N_ ("An address under which the service can reach you; some ask for one") },
  { FR_KIND_FORECASTING, "base_address", N_ ("Forecast from the Net"), N_ ("Another address"),
    N_ ("Empty: the service’s own") },
  { FR_KIND_FORECASTING, "gather_minute", N_ ("Your Day"), N_ ("Buckets are emptied at"),
    N_ ("A clock time, such as 17:30") },
  { FR_KIND_FORECASTING, "error_first_k", N_ ("How Wrong Forecasts Are"), N_ ("On the first day"),
    N_ ("Standard deviation of a temperature. Empty: 1.5 °C") },
  { FR_KIND_FORECASTING, "error_week_k", N_ ("How Wrong Forecasts Are"), N_ ("On the seventh day"),
    N_ ("Empty: 3.5 °C") },
  { FR_KIND_FORECASTING, "error_memory_ratio", N_ ("How Wrong Forecasts Are"), N_ ("Kept from day to day"),
    N_ ("Correlation of one day’s error with the next day’s") },
};

static const struct
{
  const char *plural;
  const char *singular;
  const char *add;
  const char *empty;
} kind_words[FR_N_KINDS] = {
  [FR_KIND_HOUSEHOLD] = { N_ ("Household"), N_ ("Household"), N_ ("Add Household"), N_ ("No household yet") },
  [FR_KIND_CIRCUIT] = { N_ ("Circuits"), N_ ("Circuit"), N_ ("Add Circuit"), N_ ("No circuit yet") },
  [FR_KIND_VESSEL] = { N_ ("Pans and Buckets"), N_ ("Pan"), N_ ("Add Pan"), N_ ("No pan yet") },
  [FR_KIND_COOKER] = { N_ ("Cookers"), N_ ("Cooker"), N_ ("Add Cooker"), N_ ("No cooker yet") },
  [FR_KIND_TARIFF]
  = { N_ ("Electricity Prices"), N_ ("Price plan"), N_ ("Add Price Plan"), N_ ("No price yet") },
  [FR_KIND_FUEL] = { N_ ("Fuels"), N_ ("Fuel"), N_ ("Add Fuel"), N_ ("No fuel yet") },
  [FR_KIND_NIGHT] = { N_ ("Nights"), N_ ("Night"), N_ ("Add Night"), N_ ("No night kept yet") },
  [FR_KIND_TREE] = { N_ ("Trees"), N_ ("Tree"), N_ ("Add Tree"), N_ ("No tree yet") },
  [FR_KIND_GIRTH] = { N_ ("Measures"), N_ ("Measure"), N_ ("Add Measure"), N_ ("Not measured yet") },
  [FR_KIND_TAP] = { N_ ("Taps"), N_ ("Tap"), N_ ("Add Tap"), N_ ("Never tapped yet") },
  [FR_KIND_YIELD] = { N_ ("Seasons"), N_ ("Season"), N_ ("Add Season"), N_ ("No season yet") },
  [FR_KIND_FEATURE] = { N_ ("Drawings"), N_ ("Drawing"), N_ ("Add Drawing"), N_ ("Nothing drawn yet") },
  [FR_KIND_GROUND]
  = { N_ ("Ground"), N_ ("Ground"), N_ ("Add Ground"), N_ ("Nothing known of the ground yet") },
  [FR_KIND_TAPPING] = { N_ ("Tapping"), N_ ("Tapping"), N_ ("Add Tapping"), N_ ("As usual") },
  [FR_KIND_CONTAINER] = { N_ ("Containers"), N_ ("Container"), N_ ("Add Container"), N_ ("No container yet") },
  [FR_KIND_GATHERING] = { N_ ("Gatherings"), N_ ("Gathering"), N_ ("Add Gathering"), N_ ("Nothing gathered yet") },
  [FR_KIND_POUR] = { N_ ("Pourings"), N_ ("Pouring"), N_ ("Add Pouring"), N_ ("Nothing poured yet") },
  [FR_KIND_DIP] = { N_ ("Looks into Containers"), N_ ("Look into a container"), N_ ("Add Look"), N_ ("Not looked yet") },
  [FR_KIND_DAY] = { N_ ("Days"), N_ ("Day"), N_ ("Add Day"), N_ ("Nothing written of any day yet") },
  [FR_KIND_CHORE] = { N_ ("Checklist"), N_ ("Point"), N_ ("Add Point"), N_ ("Nothing done yet") },
  [FR_KIND_DISMISSAL] = { N_ ("Reminders Put Away"), N_ ("Reminder"), N_ ("Put Away"), N_ ("None put away") },
  [FR_KIND_STORING] = { N_ ("Keeping Sap"), N_ ("Keeping sap"), N_ ("Add Keeping"), N_ ("As usual") },
  [FR_KIND_STATION]
  = { N_ ("Sources of Weather"), N_ ("Source of weather"), N_ ("Add Source"), N_ ("No weather from elsewhere yet") },
  [FR_KIND_STATION_DAY]
  = { N_ ("Days of a Source"), N_ ("Day of a source"), N_ ("Add Day"), N_ ("No day of it yet") },
  [FR_KIND_OUTLOOK] = { N_ ("Forecasts"), N_ ("Forecast"), N_ ("Add Forecast"), N_ ("None kept yet") },
  [FR_KIND_FORECASTING]
  = { N_ ("Forecasting"), N_ ("Forecasting"), N_ ("Add Forecasting"), N_ ("As usual") },
};

const FrFieldLabel *
fr_field_labels (FrKindId kind, guint *n_out)
{
  guint first = 0;
  guint n = 0;

  while (first < G_N_ELEMENTS (labels) && labels[first].kind != kind)
    first++;
  while (first + n < G_N_ELEMENTS (labels) && labels[first + n].kind == kind)
    n++;
  *n_out = n;
  return labels + first;
}

gboolean
fr_field_label_applies (const FrFieldLabel *label, const FrRecord *record)
{
  g_auto (GStrv) sides = NULL;
  g_auto (GStrv) codes = NULL;
  const FrField *field;
  const char *code;

  if (label->when == NULL)
    return TRUE;
  sides = g_strsplit (label->when, "=", 2);
  field = fr_kind_field (record->kind, sides[0]);
  g_return_val_if_fail (field != NULL, TRUE);
  codes = g_strsplit (sides[1], ",", -1);
  code = fr_record_text (record, field);
  return code != NULL && g_strv_contains ((const char *const *)codes, code);
}

const char *
fr_field_label_group (const FrFieldLabel *label)
{
  return _ (label->group);
}

const char *
fr_field_label_text (const FrFieldLabel *label)
{
  return _ (label->label);
}

const char *
fr_field_label_note (const FrFieldLabel *label)
{
  return label->note != NULL ? _ (label->note) : NULL;
}

const char *
fr_kind_plural (FrKindId kind)
{
  return _ (kind_words[kind].plural);
}

const char *
fr_kind_singular (FrKindId kind)
{
  return _ (kind_words[kind].singular);
}

const char *
fr_kind_add (FrKindId kind)
{
  return _ (kind_words[kind].add);
}

const char *
fr_kind_empty (FrKindId kind)
{
  return _ (kind_words[kind].empty);
}
