/* Records are made with their usual ranges, at whole hours of forty days, so that ties are common. Litres are not rounded: sums of
 * tenths would land on the very amount that counts as empty. */
#include "random-season.h"

#include <math.h>

static GPtrArray *
new_records (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free);
}

RandomSeason *
random_season_new_empty (guint season, const FrZoneTable *zone)
{
  RandomSeason *made = g_new0 (RandomSeason, 1);
  gint64 ignored;

  made->season = season;
  fr_day_span_utc (zone, fr_season_first_day (season), &made->from_utc, &ignored);
  fr_day_span_utc (zone, fr_season_last_day (season), &ignored, &made->to_utc);
  made->book = (FrSeasonBook){ .zone = zone,
                               .trees = new_records (),
                               .girths = new_records (),
                               .taps = new_records (),
                               .yields = new_records (),
                               .containers = new_records (),
                               .gatherings = new_records (),
                               .pours = new_records (),
                               .dips = new_records (),
                               .days = new_records (),
                               .chores = new_records (),
                               .dismissals = new_records (),
                               .nights = new_records (),
                               .cookers = new_records (),
                               .vessels = new_records (),
                               .circuits = new_records (),
                               .tariffs = new_records (),
                               .fuels = new_records () };
  return made;
}

/* The season's array of a kind. */
static GPtrArray *
records_of (RandomSeason *season, FrKindId kind)
{
  FrSeasonBook *book = &season->book;

  switch ((int)kind)
    {
    case FR_KIND_TREE:
      return book->trees;
    case FR_KIND_GIRTH:
      return book->girths;
    case FR_KIND_TAP:
      return book->taps;
    case FR_KIND_YIELD:
      return book->yields;
    case FR_KIND_CONTAINER:
      return book->containers;
    case FR_KIND_GATHERING:
      return book->gatherings;
    case FR_KIND_POUR:
      return book->pours;
    case FR_KIND_DIP:
      return book->dips;
    case FR_KIND_DAY:
      return book->days;
    case FR_KIND_CHORE:
      return book->chores;
    case FR_KIND_DISMISSAL:
      return book->dismissals;
    case FR_KIND_NIGHT:
      return book->nights;
    case FR_KIND_COOKER:
      return book->cookers;
    case FR_KIND_VESSEL:
      return book->vessels;
    case FR_KIND_CIRCUIT:
      return book->circuits;
    case FR_KIND_TARIFF:
      return book->tariffs;
    case FR_KIND_FUEL:
      return book->fuels;
    default:
      g_error ("a season has no list of kind %d", (int)kind);
    }
}

void
random_season_free (RandomSeason *season)
{
  static const FrKindId kinds[]
      = { FR_KIND_TREE, FR_KIND_GIRTH,     FR_KIND_TAP,   FR_KIND_YIELD,  FR_KIND_CONTAINER, FR_KIND_GATHERING,
          FR_KIND_POUR, FR_KIND_DIP,       FR_KIND_DAY,   FR_KIND_CHORE,  FR_KIND_DISMISSAL, FR_KIND_NIGHT,
          FR_KIND_COOKER, FR_KIND_VESSEL,  FR_KIND_CIRCUIT, FR_KIND_TARIFF, FR_KIND_FUEL };

  if (season == NULL)
    return;
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    g_ptr_array_unref (records_of (season, kinds[i]));
  fr_record_free ((FrRecord *)season->book.household);
  fr_record_free ((FrRecord *)season->book.storing);
  fr_record_free ((FrRecord *)season->book.tapping);
  g_free (season);
}

gpointer
random_season_add (RandomSeason *season, FrKindId kind)
{
  GPtrArray *records = records_of (season, kind);
  FrRecord *record = fr_record_new (kind);

  record->id = records->len > 0 ? ((FrRecord *)records->pdata[records->len - 1])->id + 1 : 1;
  g_ptr_array_add (records, record);
  return record;
}

void
random_season_text (char **text, const char *value)
{
  g_free (*text);
  *text = g_strdup (value);
}

/* --- anything at all --- */

static gboolean
chance (GRand *random, double ratio)
{
  return g_rand_double (random) < ratio;
}

static const char *
one_of (GRand *random, const char *const *codes)
{
  return codes[g_rand_int_range (random, 0, (gint32)g_strv_length ((char **)codes))];
}

static double
rounded (GRand *random, double low, double high, double step)
{
  return step * round (g_rand_double_range (random, low, high) / step);
}

static gint64
some_hour (GRand *random, const RandomSeason *season)
{
  FrDate day = fr_date_add_days ((FrDate){ (gint)season->season, 2, 20 }, g_rand_int_range (random, 0, 40));
  gint64 from, to;

  fr_day_span_utc (season->book.zone, day, &from, &to);
  return from + 3600 * g_rand_int_range (random, 6, 22);
}

static void
add_containers (GRand *random, RandomSeason *season)
{
  static const char *const places[]
      = { "outdoors", "shed", "snowbank", "fridge", "cellar", "indoors", NULL };
  static const char *const insulations[] = { "bare", "wrapped", "chest", NULL };
  gint n = g_rand_int_range (random, 1, 7);

  for (gint i = 0; i < n; i++)
    {
      FrContainer *container = random_season_add (season, FR_KIND_CONTAINER);

      container->name = g_strdup_printf ("Can %d", i + 1);
      random_season_text (&container->role, i > 0 && chance (random, 0.3) ? "bucket" : "store");
      random_season_text (&container->place, one_of (random, places));
      random_season_text (&container->insulation, one_of (random, insulations));
      container->capacity_l.value = rounded (random, 10, 120, 1);
      if (chance (random, 0.7))
        {
          container->diameter_m.value = rounded (random, 0.2, 0.5, 0.01);
          container->height_m.value = rounded (random, 0.3, 0.9, 0.01);
          if (chance (random, 0.5))
            container->top_diameter_m.value = container->diameter_m.value + rounded (random, -0.05, 0.1, 0.01);
        }
      if (chance (random, 0.7))
        container->empty_kg.value = rounded (random, 0, 4, 0.1);
      container->record.archived = i > 1 && chance (random, 0.1);
    }
}

/* A container of the season, or none; ids not in the book too. */
static gint64
some_container (GRand *random, const RandomSeason *season)
{
  return g_rand_int_range (random, 0, (gint32)season->book.containers->len + 1);
}

static void
read_it (GRand *random, double ratio, char **instrument, FrAmount *reading, FrAmount *sample)
{
  static const char *const instruments[]
      = { "refractometer_atc", "refractometer", "hydrometer_38f", "hydrometer_60f", "hydrometer_68f", "guess", NULL };

  if (!chance (random, ratio))
    return;
  random_season_text (instrument, one_of (random, instruments));
  reading->value = rounded (random, 0.8, 4.5, 0.1);
  if (chance (random, 0.8))
    sample->value = rounded (random, 1, 25, 0.5);
}

static void
measure_it (GRand *random, double most_l, char **by, FrAmount *volume, FrAmount *weight, FrAmount *depth)
{
  static const char *const ways[] = { "volume", "weight", "depth", NULL };
  const char *way = chance (random, 0.5) ? "volume" : one_of (random, ways);

  random_season_text (by, way);
  if (g_str_equal (way, "weight"))
    weight->value = rounded (random, 0, most_l, 0.05);
  else if (g_str_equal (way, "depth"))
    depth->value = rounded (random, 0, 0.6, 0.005);
  else
    volume->value = chance (random, 0.05) ? 0 : g_rand_double_range (random, 0, most_l);
}

static void
add_gatherings (GRand *random, RandomSeason *season, double reading_ratio)
{
  static const char *const clarities[] = { "unknown", "clear", "hazy", "cloudy", "yellow", NULL };
  gint n = g_rand_int_range (random, 0, 120);

  for (gint i = 0; i < n; i++)
    {
      FrGathering *gathering = random_season_add (season, FR_KIND_GATHERING);

      gathering->gathered_utc = some_hour (random, season);
      measure_it (random, 30, &gathering->measured_by, &gathering->volume_l, &gathering->weight_kg,
                  &gathering->depth_m);
      gathering->bucket = some_container (random, season);
      if (chance (random, 0.5) && !g_str_equal (gathering->measured_by, "depth"))
        gathering->bucket = 0;
      read_it (random, reading_ratio, &gathering->instrument, &gathering->reading_brix, &gathering->sample_c);
      gathering->container = some_container (random, season);
      random_season_text (&gathering->clarity, one_of (random, clarities));
      if (chance (random, 0.5))
        gathering->sap_c.value = rounded (random, -0.5, 8, 0.5);
      if (chance (random, 0.2))
        gathering->ice_l.value = rounded (random, 0, 10, 0.1);
      gathering->record.archived = chance (random, 0.05);
    }
}

static void
add_pours (GRand *random, RandomSeason *season, double reading_ratio)
{
  static const char *const reasons[] = { "moved", "boiled", "ice", "spilled", "spoiled", "drunk", NULL };
  gint n = g_rand_int_range (random, 0, 80);

  for (gint i = 0; i < n; i++)
    {
      FrPour *pour = random_season_add (season, FR_KIND_POUR);

      pour->poured_utc = some_hour (random, season);
      random_season_text (&pour->reason, one_of (random, reasons));
      pour->container = some_container (random, season);
      if (g_str_equal (pour->reason, "moved"))
        pour->target = (pour->container + 1) % ((gint64)season->book.containers->len + 1);
      pour->volume_l.value = g_rand_double_range (random, 0, 25);
      read_it (random, reading_ratio / 2, &pour->instrument, &pour->reading_brix, &pour->sample_c);
      pour->record.archived = chance (random, 0.05);
    }
}

static void
add_dips (GRand *random, RandomSeason *season, double reading_ratio)
{
  gint n = g_rand_int_range (random, 0, 40);

  for (gint i = 0; i < n; i++)
    {
      FrDip *dip = random_season_add (season, FR_KIND_DIP);

      dip->found_utc = some_hour (random, season);
      dip->container = some_container (random, season);
      if (chance (random, 0.8))
        measure_it (random, 60, &dip->measured_by, &dip->volume_l, &dip->weight_kg, &dip->depth_m);
      read_it (random, reading_ratio / 2, &dip->instrument, &dip->reading_brix, &dip->sample_c);
      if (chance (random, 0.3))
        dip->ice_ratio.value = rounded (random, 0, 0.9, 0.05);
      if (chance (random, 0.4))
        dip->temp_c.value = rounded (random, -3, 9, 0.5);
      if (chance (random, 0.2))
        random_season_text (&dip->clarity, "cloudy");
      dip->record.archived = chance (random, 0.05);
    }
}

static void
add_days (GRand *random, RandomSeason *season)
{
  for (gint i = 0; i < 60; i++)
    {
      FrDay *day;

      if (chance (random, 0.1))
        continue;
      day = random_season_add (season, FR_KIND_DAY);
      day->day = fr_date_to_iso (fr_date_add_days ((FrDate){ (gint)season->season, 2, 15 }, i));
      day->low_c.value = rounded (random, -14, 2, 0.5);
      day->high_c.value = day->low_c.value + rounded (random, 2, 14, 0.5);
      day->expected = i > 50;
    }
}

RandomSeason *
random_season_new (GRand *random, guint season, const FrZoneTable *zone)
{
  RandomSeason *made = random_season_new_empty (season, zone);
  /* Now and then nobody read anything. */
  double reading_ratio = chance (random, 0.1) ? 0 : g_rand_double_range (random, 0.05, 1);

  add_containers (random, made);
  add_gatherings (random, made, chance (random, 0.1) ? 0 : reading_ratio);
  add_pours (random, made, reading_ratio);
  add_dips (random, made, reading_ratio);
  add_days (random, made);
  return made;
}
