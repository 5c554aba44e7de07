/* Between the files of season.h, chores.h and reminders.h; not for others. */
#pragma once

#include "domain/plan/season.h"

G_BEGIN_DECLS

/* A record of an array by id, NULL when it is not there or archived; the array is by id. */
const FrRecord *fr_season_find (GPtrArray *records, gint64 id);

/* The date of a text, year 0 when there is none. */
FrDate fr_season_date (const char *iso);
/* The date an evening has at an instant: until six in the morning that of the day before. */
FrDate fr_season_evening (const FrZoneTable *zone, gint64 utc_s);
/* The full hour of the local clock at or before an instant. When sap spoils is not known to the minute. */
gint64 fr_season_full_hour (const FrZoneTable *zone, gint64 utc_s);
gboolean fr_season_holds (guint season, FrDate day);
/* Whether a tap is one of a season that was set on a day of it; *set_out the day. */
gboolean fr_season_tap (const FrTap *tap, guint season, FrDate *set_out);

/* What a kept night put into pan and bucket. */
typedef struct
{
  FrDate evening;
  gboolean is_planned; /* has not begun */
  double volume_l;     /* of sap */
  double sugar_kg;     /* in it, without what stayed in the bucket; NAN unknown */
  double energy_kwh;
  double cost_minor;
} FrSeasonBoil;

/**
 * fr_season_boil:
 * @night: the night
 * @store_l: what was poured out of store for it, NAN unknown
 * @now_utc: the moment
 * @boil_out: what it says
 *
 * A pan sweeter than the sap holds what an earlier boil left, whose sugar was counted then: such a night counts what left the store for
 * it, or its bucket where that is not known.
 */
void fr_season_boil (const FrNight *night, double store_l, gint64 now_utc, FrSeasonBoil *boil_out);

/* Whether something was written down of how it went. */
gboolean fr_season_night_has_findings (const FrNight *night);
/* When it was seen to be off, else when the plan ends, else when it has to be off, else its start. */
gint64 fr_season_night_end_utc (const FrNight *night);

/* Kilograms of sugar in a litre of the household's syrup. */
double fr_season_syrup_sugar_kg (const FrHousehold *household);

/* Index of a date into the days, −1 outside. */
int fr_season_index (const FrSeasonView *view, FrDate day);

void fr_season_fill_weather (FrSeasonView *view, const FrSeasonBook *book);
void fr_season_fill_sap (FrSeasonView *view, const FrSeasonBook *book);
void fr_season_fill_boils (FrSeasonView *view, const FrSeasonBook *book);
void fr_season_fill_prices (FrSeasonView *view, const FrSeasonBook *book);

G_END_DECLS
