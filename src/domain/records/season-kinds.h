/* The kinds that a season's sap is kept in: what came in, where it waits, what left, what was found, the days, and what was done and
 * put away beside that. The descriptors are in season-kinds.c. */
#pragma once

#include "domain/records/record.h"

G_BEGIN_DECLS

/* Something sap is kept in, or a gathering bucket whose depth or weight tells the litres. */
typedef struct
{
  FrRecord record;
  char *name;
  char *role; /* code: store, bucket (store: sap waits in it; bucket: it only measures) */
  FrAmount capacity_l; /* to the rim */
  char *place; /* code: outdoors, shed, snowbank, fridge, cellar, indoors */
  char *insulation; /* code: bare, wrapped, chest */
  char *material; /* code: unknown, food_plastic, other_plastic, stainless, enamel, glass, aluminium, galvanised,
                     soldered */
  FrAmount made_in; /* the year it was made or bought */
  FrAmount diameter_m; /* inside at the bottom; for litres by depth */
  FrAmount top_diameter_m; /* inside at the rim, unknown = straight sides */
  FrAmount height_m; /* inside */
  FrAmount empty_kg; /* for litres by weight */
  char *note;
} FrContainer;

/* Sap brought in: from a tap, a tree, a group of trees or the whole bush, as it was read. */
typedef struct
{
  FrRecord record;
  gint64 gathered_utc;
  char *scope; /* code: bush, group, tree, tap */
  gint64 tree; /* scope tree */
  gint64 tap; /* scope tap */
  char *stand; /* scope group: the trees that bear this group's name */
  char *measured_by; /* code: volume, weight, depth */
  FrAmount volume_l; /* by volume, without the ice thrown out */
  FrAmount weight_kg; /* by weight, with the bucket if one is named */
  FrAmount depth_m; /* by depth in the bucket named */
  gint64 bucket; /* what it was measured in */
  FrAmount reading_brix; /* raw, as read */
  char *instrument; /* code */
  FrAmount sample_c;
  FrAmount sap_c; /* how cold the sap was */
  char *clarity; /* code: unknown, clear, hazy, cloudy, yellow */
  char *smell; /* code: unknown, fresh, sour, buddy, other */
  char *who;
  gint64 container; /* poured into; 0 = where was not said */
  FrAmount ice_l; /* thrown out with what froze, as water */
  FrAmount ice_brix; /* of that ice melted */
  gboolean confirmed; /* asked about and kept all the same */
  char *note;
} FrGathering;

/* Sap that left a container: into another, to the boil, or lost. */
typedef struct
{
  FrRecord record;
  gint64 poured_utc;
  char *reason; /* code: moved, boiled, ice, spilled, spoiled, drunk (ice: frozen and thrown out) */
  gint64 container; /* out of; 0 = the sap whose place was not said */
  gint64 target; /* moved into; 0 = its place was not said */
  FrAmount volume_l; /* ice as water */
  FrAmount reading_brix; /* raw; unknown = as the mix is, for ice as ice is */
  char *instrument; /* code */
  FrAmount sample_c;
  gint64 night; /* boiled on */
  gboolean confirmed; /* asked about and kept all the same */
  char *note;
} FrPour;

/* What was found in a container; what is known of it holds from then on. */
typedef struct
{
  FrRecord record;
  gint64 found_utc;
  gint64 container; /* 0 = the sap whose place was not said */
  char *measured_by; /* code */
  FrAmount volume_l; /* liquid and ice together, as water */
  FrAmount weight_kg; /* with the container */
  FrAmount depth_m;
  FrAmount reading_brix; /* raw, as read; of the liquid */
  char *instrument; /* code */
  FrAmount sample_c;
  FrAmount temp_c; /* of the sap */
  FrAmount ice_ratio; /* how much of it is ice */
  char *clarity; /* code */
  char *smell; /* code */
  gboolean confirmed; /* asked about and kept all the same */
  char *note;
} FrDip;

/* A day's weather as written down, and its notes. A book holds at most one of a date, beside those put away. */
typedef struct
{
  FrRecord record;
  char *day;
  FrAmount low_c;
  FrAmount high_c;
  gboolean expected; /* the two are somebody's forecast, not what was seen */
  FrAmount rain_m; /* rain and melted snow */
  char *buds; /* code: unknown, tight, swelling, open */
  char *note;
} FrDay;

/* One point of a checklist, done for one piece of kit in one season. */
typedef struct
{
  FrRecord record;
  FrAmount season; /* the year of its spring */
  char *task; /* code: wash, water_test, material, ground_fault, rinse, dry */
  gint64 container; /* one of these four, or none */
  gint64 vessel;
  gint64 cooker;
  gint64 circuit;
  char *done_on;
  char *outcome; /* code: done, not_needed */
  char *who;
  char *note;
} FrChore;

/* A reminder that was put away. */
typedef struct
{
  FrRecord record;
  char *about; /* which one: the key that plan/reminders.h gives it */
  gint64 dismissed_utc;
} FrDismissal;

/* How this household keeps sap and what it wants to be told in time: one record a book. */
typedef struct
{
  FrRecord record;
  char *keeping; /* code: careful, published, own (see maths/sap-keeping.h) */
  char *own_rows; /* "up to °C, hours" a line, for own */
  FrAmount tap_weeks; /* a tap older than this is told of */
  FrAmount filters; /* left */
  FrAmount bottles; /* left, empty */
  char *calendar_folder; /* where the calendar file is kept up to date */
} FrStoring;

G_END_DECLS
