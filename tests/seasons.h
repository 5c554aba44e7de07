/* A season of Toronto's in a few lines, for tests: records made and dated by the day and hour of March 2025. */
#pragma once

#include "random-season.h"

#include <math.h>

static inline gint64
season_hour (const RandomSeason *season, guint day_of_march, guint hour_of_day)
{
  gint64 from, to;

  fr_day_span_utc (season->book.zone, (FrDate){ 2025, 3, (gint)day_of_march }, &from, &to);
  return from + 3600 * (gint64)hour_of_day;
}

static inline FrContainer *
season_can (RandomSeason *season, double capacity_l)
{
  FrContainer *made = random_season_add (season, FR_KIND_CONTAINER);

  made->capacity_l.value = capacity_l;
  return made;
}

static inline FrGathering *
season_gather (RandomSeason *season, gint64 utc_s, double volume_l, double brix, gint64 container)
{
  FrGathering *made = random_season_add (season, FR_KIND_GATHERING);

  made->gathered_utc = utc_s;
  made->volume_l.value = volume_l;
  random_season_text (&made->instrument, "guess");
  made->reading_brix.value = brix;
  made->container = container;
  return made;
}

static inline FrPour *
season_pour (RandomSeason *season, gint64 utc_s, const char *reason, double volume_l, gint64 container, gint64 target)
{
  FrPour *made = random_season_add (season, FR_KIND_POUR);

  made->poured_utc = utc_s;
  random_season_text (&made->reason, reason);
  random_season_text (&made->instrument, "guess");
  made->volume_l.value = volume_l;
  made->container = container;
  made->target = target;
  return made;
}

static inline FrDip *
season_dip (RandomSeason *season, gint64 utc_s, double volume_l, double brix, gint64 container)
{
  FrDip *made = random_season_add (season, FR_KIND_DIP);

  made->found_utc = utc_s;
  made->volume_l.value = volume_l;
  random_season_text (&made->instrument, "guess");
  made->reading_brix.value = brix;
  made->container = container;
  return made;
}

static inline FrDay *
season_day (RandomSeason *season, guint day_of_march, double low_c, double high_c)
{
  FrDay *made = random_season_add (season, FR_KIND_DAY);

  made->day = fr_date_to_iso ((FrDate){ 2025, 3, (gint)day_of_march });
  made->low_c.value = low_c;
  made->high_c.value = high_c;
  return made;
}

static inline FrNight *
season_night (RandomSeason *season, guint day_of_march, double pan_l, double bucket_l, double brix)
{
  FrNight *made = random_season_add (season, FR_KIND_NIGHT);

  made->evening = fr_date_to_iso ((FrDate){ 2025, 3, (gint)day_of_march });
  made->start_utc = season_hour (season, day_of_march, 19);
  made->off_by_utc = made->start_utc + 12 * 3600;
  made->pan_l.value = pan_l;
  made->bucket_l.value = bucket_l;
  made->pan_brix.value = made->sap_brix.value = brix;
  return made;
}
