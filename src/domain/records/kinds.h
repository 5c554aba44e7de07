/* The kinds themselves: one plain struct each; those of a season's sap are in season-kinds.h, those of weather in weather-kinds.h. The
 * descriptors with ranges are in the .c files of the same names. */
#pragma once

#include "domain/records/record.h"
#include "domain/records/season-kinds.h"
#include "domain/records/weather-kinds.h"

G_BEGIN_DECLS

/* The household: one record a book. */
typedef struct
{
  FrRecord record;
  char *name;
  char *place;
  char *zone;      /* IANA name, for example "America/Toronto" */
  char *currency;  /* ISO 4217 */
  char *units;     /* code: metric, us, imperial */
  char *sweetness; /* code: brix, baume */
  char *measures;  /* text, "bucket = 11" a line, litres */
  FrAmount altitude_m;
  FrAmount syrup_brix; /* what this household calls syrup, 66.0 to 68.9 */
  FrAmount jar_l;
} FrHousehold;

typedef struct
{
  FrRecord record;
  char *name;
  FrAmount breaker_a;
  FrAmount volts_v;
  FrAmount other_load_w; /* what else draws on it during the night */
  gboolean gfci;         /* behind a ground-fault interrupter */
} FrCircuit;

/* A pan or pot with the bucket that feeds it. */
typedef struct
{
  FrRecord record;
  char *name;
  char *shape;            /* code: cylinder, cone, cap, box, table */
  FrAmount diameter_m;    /* cylinder; cone bottom; cap rim */
  FrAmount top_diameter_m; /* cone top */
  FrAmount flat_diameter_m; /* cap: flat bottom, unknown = none */
  FrAmount length_m;      /* box */
  FrAmount width_m;       /* box */
  FrAmount corner_m;      /* box: corner radius */
  FrAmount height_m;      /* cylinder, cone, box height; cap depth */
  char *rows;             /* table: "depth cm  litres" a line */
  FrAmount hold_l;        /* level the feed holds */
  FrAmount cutoff_l;      /* volume at which the power is cut */
  FrAmount min_level_l;   /* the element must stay covered; unknown = none */
  FrAmount foam_ratio;    /* free height kept for foam over liquid depth; 1 = as much again */
  char *cover;            /* code: bare, foil, wrapped */
  FrAmount wall_w_per_k;  /* measured, else from area and cover */
  FrAmount bucket_l;      /* capacity of the feed bucket */
  char *feed;             /* code: level, stream, hole */
  FrAmount head_m;        /* bucket outlet above the pan, to the liquid's mean height */
  FrAmount hole_m;        /* diameter of the outlet */
  gboolean solder;        /* old solder, galvanised or unknown metal */
} FrVesselRecord;

typedef struct
{
  FrRecord record;
  char *name;
  FrAmount power_w;
  FrAmount heat_ratio;    /* part of the power that reaches vessel and liquid */
  FrAmount heat_ratio_sd; /* unknown = never calibrated, then ± 15 % is assumed */
  gboolean ratio_holds_wall; /* ratio from practice or a table: use with wall 0 */
  FrAmount reflux_ratio;  /* vapour dripping back from a lid, 0 open */
  gint64 vessel;
  gint64 circuit;
  char *place;            /* code: outdoors, shed, indoors */
  char *cutoff_by;        /* code: weight, thermostat, float, timer, none */
} FrCooker;

typedef struct
{
  FrRecord record;
  char *name;
  char *periods;  /* see maths/tariff.h */
  char *holidays; /* ISO dates, one a line */
  FrAmount adder_per_kwh; /* unknown = none */
  FrAmount tax_ratio;     /* unknown = none */
  gboolean in_use; /* the one the plan uses */
} FrTariffRecord;

typedef struct
{
  FrRecord record;
  char *name;
  char *fuel;            /* code: propane */
  FrAmount price_per_kg; /* minor units */
  FrAmount heat_mj_per_kg; /* higher heating value */
  FrAmount heat_ratio;   /* holds all losses */
  gboolean flame;
} FrFuel;

/* A kept plan and, the morning after, what came of it: one record per cooker and night. */
typedef struct
{
  FrRecord record;
  char *evening;          /* ISO date of the evening it belongs to */
  gint64 cooker;
  gint64 start_utc;
  gint64 off_by_utc;
  FrAmount pan_l;         /* poured into the pan */
  FrAmount pan_brix;
  FrAmount pan_c;
  FrAmount bucket_l;      /* poured into the bucket */
  FrAmount sap_brix;
  FrAmount sap_c;
  FrAmount air_c;
  FrAmount water_boils_c; /* as measured that day, unknown = from altitude */
  FrAmount max_brix;
  FrAmount heat_ratio;    /* as assumed by the plan */
  gint64 plan_dry_utc;
  gint64 plan_end_utc;
  FrAmount plan_left_l;
  FrAmount plan_brix;
  FrAmount plan_energy_kwh;
  FrAmount plan_cost;     /* minor units */
  FrAmount left_l;        /* the morning after: all optional */
  FrAmount left_brix;
  FrAmount left_boil_c;
  FrAmount bucket_left_l; /* sap still in the bucket, when the clock came first */
  FrAmount meter_kwh;
  gint64 end_utc;         /* when the power was seen to be off */
  FrAmount learned_ratio;
  FrAmount learned_ratio_sd;
  char *note;
} FrNight;

/* A tree that gives sap, or might. */
typedef struct
{
  FrRecord record;
  char *name;          /* as on its label */
  char *species;       /* code: sugar, black, red, silver, norway, bigleaf, boxelder, other (another maple), birch, walnut */
  FrAmount x_m;        /* on the plan, east of its zero; x and y unknown = not placed yet */
  FrAmount y_m;        /* north of its zero */
  FrAmount elevation_m;
  char *measured_from; /* the name of the tree it was measured from, with the two readings as taken */
  FrAmount from_distance_m;
  FrAmount from_bearing_deg; /* by the compass, before the declination */
  char *crown;         /* code: unknown, wide, middling, narrow */
  char *health;        /* code: unknown, healthy, weak, failing, dead */
  gboolean dead_limbs;
  gboolean wires;
  gboolean lean;
  gboolean roadside;
  char *permission;    /* code: unknown, own, granted, refused */
  char *owner;         /* whose land it stands on */
  char *choice;        /* code: open, must, never: what the tapping plan may do with it */
  char *photo;         /* a file */
  char *note;
  char *foreign_data;  /* what an imported file said beyond this, as a JSON object, for its export */
  char *stand;         /* the group of trees it is gathered with */
} FrTree;

/* One measuring of a trunk at breast height. */
typedef struct
{
  FrRecord record;
  gint64 tree;
  char *measured_on;
  char *measure;   /* code: girth, diameter */
  FrAmount size_m; /* as read */
} FrGirth;

/* One hole of one season: planned until it has a date. */
typedef struct
{
  FrRecord record;
  gint64 tree;
  FrAmount season;        /* the year of its spring */
  char *set_on;           /* unknown = planned */
  char *set_by;
  FrAmount depth_m;
  FrAmount bore_m;
  FrAmount height_m;      /* above the ground */
  FrAmount direction_deg; /* compass side of the trunk, 0 north, clockwise, true */
  char *spout;
  char *container;
  FrAmount container_l;
  char *pulled_on;
  char *closed_on;        /* when the bark was seen to have closed over it */
  char *note;
} FrTap;

/* What one tree gave in one season, as a total. */
typedef struct
{
  FrRecord record;
  gint64 tree;
  FrAmount season;
  FrAmount volume_l;
  FrAmount reading_brix; /* raw, as read */
  char *instrument;      /* code: refractometer_atc, refractometer, hydrometer_38f, hydrometer_60f, hydrometer_68f, guess */
  FrAmount sample_c;
  char *note;
} FrYield;

/* Something on the ground beside the trees. */
typedef struct
{
  FrRecord record;
  char *name;
  char *form;   /* code: path, lane, wall, stream, building, boiling, store */
  char *points; /* "x y" a line, metres on the plan; see ground-points.h */
} FrFeature;

/* The plan's tie to the earth and the picture under it: one record a book. */
typedef struct
{
  FrRecord record;
  FrAmount anchor_x_m; /* this point of the plan ... */
  FrAmount anchor_y_m;
  FrAmount anchor_lat_deg; /* ... lies here (WGS 84); the plan's y axis is true north there */
  FrAmount anchor_lon_deg;
  FrAmount declination_deg; /* how far east of true north the compass points; unknown = bearings are true */
  char *picture;            /* a file */
  gboolean picture_shown;
  FrAmount first_column;    /* a known point in the picture, in its pixels from the upper left */
  FrAmount first_row;
  FrAmount first_x_m;       /* and on the plan */
  FrAmount first_y_m;
  FrAmount second_column;
  FrAmount second_row;
  FrAmount second_x_m;
  FrAmount second_y_m;
} FrGround;

/* How this household taps, carries and boils: one record a book. */
typedef struct
{
  FrRecord record;
  char *guideline;      /* code, see maths/tapping.h */
  char *spacing;        /* code, see maths/tapping.h; own = the two amounts below */
  FrAmount sideways_m;
  FrAmount up_down_m;
  FrAmount min_height_m; /* holes between these heights; unknown = as published */
  FrAmount max_height_m;
  FrAmount pail_l;       /* one carried load; unknown = no limit */
  FrAmount buckets;      /* to hang this season */
  FrAmount max_trees;    /* unknown = no limit */
  FrAmount walk_m;       /* longest round wanted; unknown = no limit */
  FrAmount peak_boil_l;  /* what the kitchen boils on a peak day; unknown = no limit */
  FrAmount season_days;
  FrAmount peak_ratio;   /* the peak day's litres over the average day's */
} FrTapping;

G_END_DECLS
