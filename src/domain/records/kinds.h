/* The kinds themselves: one plain struct each. The descriptors with ranges are in kinds.c. */
#pragma once

#include "domain/records/record.h"

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

typedef struct
{
  FrRecord record;
  gint64 collected_utc;
  FrAmount volume_l;
  FrAmount reading_brix;  /* raw, as read */
  char *instrument;       /* code: refractometer_atc, refractometer, hydrometer_38f, hydrometer_60f, hydrometer_68f, guess */
  FrAmount sample_c;      /* temperature of the sample when read */
  FrAmount store_c;       /* how cold it is kept */
  FrAmount used_l;        /* what nights have taken from it */
  char *note;
} FrSapLot;

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

G_END_DECLS
