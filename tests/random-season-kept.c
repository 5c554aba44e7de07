/* What happened is followed apart from what was written: litres in each container, day by day. A day's run varies by a factor of two or
 * so and fails on three days in ten (common sense; over a season the best fifth of days brings half of the sap). Measuring: a pail's
 * marks within 3 %, a scale within 1 %, a stick within 5 mm (common sense, no source). */
#include "random-season.h"

#include "domain/plan/gathering.h"

#include <math.h>

#define CANS_MAX 4
#define TREES_MAX 10
#define LEAST_L 3

typedef struct
{
  GRand *random;
  RandomSeason *season;
  guint n_cans;
  FrContainer *cans[CANS_MAX];
  double there_l[CANS_MAX];
  guint look_every[CANS_MAX]; /* days */
  double look_hours[CANS_MAX];
  guint n_parts;              /* entries a day */
  gboolean by_tree;
  double share[TREES_MAX];
  const char *way;
  double day_l; /* on a middling day */
} Kept;

static double
between (Kept *kept, double low, double high)
{
  return g_rand_double_range (kept->random, low, high);
}

static gboolean
chance (Kept *kept, double ratio)
{
  return g_rand_double (kept->random) < ratio;
}

/* Of a normal distribution, by the sum of twelve even ones. */
static double
noise (Kept *kept, double sd)
{
  double sum = -6;

  for (guint i = 0; i < 12; i++)
    sum += g_rand_double (kept->random);
  return sd * sum;
}

static gint64
at_hour (const Kept *kept, gint day, double hours)
{
  gint64 from, to;

  fr_day_span_utc (kept->season->book.zone, fr_date_add_days ((FrDate){ (gint)kept->season->season, 2, 25 }, day), &from,
                   &to);
  return from + (gint64)(hours * 60) * 60;
}

/* Litres as they are read on a pail or a scale, or a stick's depth; written to the nearest mark. */
static void
measure (Kept *kept, const char *way, const FrContainer *in, double litres_l, char **by, FrAmount *volume, FrAmount *weight,
         FrAmount *depth)
{
  random_season_text (by, way);
  if (g_str_equal (way, "weight"))
    weight->value = fmax (0, round (20 * (litres_l * 1.008 * (1 + noise (kept, 0.01)) + in->empty_kg.value)) / 20);
  else if (g_str_equal (way, "depth"))
    depth->value = fmax (0, round (1000 * (litres_l / 1000 / (G_PI / 4 * in->diameter_m.value * in->diameter_m.value)
                                           + noise (kept, 0.004)))
                                / 1000);
  else
    volume->value = fmax (0, round (10 * litres_l * (1 + noise (kept, 0.03))) / 10);
}

static void
write_gathering (Kept *kept, gint64 utc_s, guint can, guint part, double litres_l)
{
  FrGathering *made = random_season_add (kept->season, FR_KIND_GATHERING);
  const FrContainer *pail = kept->season->book.containers->pdata[kept->n_cans];

  made->gathered_utc = utc_s;
  made->container = kept->cans[can]->record.id;
  if (kept->by_tree)
    {
      random_season_text (&made->scope, "tree");
      made->tree = part + 1;
    }
  else if (kept->n_parts > 1)
    {
      random_season_text (&made->scope, "group");
      made->stand = g_strdup_printf ("Stand %u", part + 1);
    }
  made->bucket = pail->record.id;
  measure (kept, kept->way, pail, litres_l, &made->measured_by, &made->volume_l, &made->weight_kg, &made->depth_m);
  if (chance (kept, 0.4))
    made->reading_brix.value = round (10 * (2.2 + noise (kept, 0.2))) / 10;
}

static void
write_pour (Kept *kept, gint64 utc_s, const char *reason, guint can, gint64 target, gint64 night, double litres_l)
{
  FrPour *made = random_season_add (kept->season, FR_KIND_POUR);

  made->poured_utc = utc_s;
  random_season_text (&made->reason, reason);
  made->container = kept->cans[can]->record.id;
  made->target = target;
  made->night = night;
  made->volume_l.value = fmax (0, round (10 * litres_l * (1 + noise (kept, 0.03))) / 10);
}

static void
write_dip (Kept *kept, gint64 utc_s, guint can)
{
  FrDip *made = random_season_add (kept->season, FR_KIND_DIP);
  const char *way = isnan (kept->cans[can]->diameter_m.value) ? "volume" : "depth";

  made->found_utc = utc_s;
  made->container = kept->cans[can]->record.id;
  measure (kept, way, kept->cans[can], kept->there_l[can], &made->measured_by, &made->volume_l, &made->weight_kg,
           &made->depth_m);
  if (chance (kept, 0.3))
    made->reading_brix.value = round (10 * (2.2 + noise (kept, 0.15))) / 10;
}

static void
add_cans (Kept *kept)
{
  static const char *const ways[] = { "volume", "weight", "depth" };
  FrContainer *pail;

  kept->n_cans = (guint)g_rand_int_range (kept->random, 1, CANS_MAX);
  for (guint i = 0; i < kept->n_cans; i++)
    {
      FrContainer *can = kept->cans[i] = random_season_add (kept->season, FR_KIND_CONTAINER);

      can->name = g_strdup_printf ("Can %u", i + 1);
      can->capacity_l.value = round (between (kept, 60, 200));
      kept->look_every[i] = (guint)g_rand_int_range (kept->random, 1, 6);
      kept->look_hours[i] = chance (kept, 0.5) ? 9 : 18;
      if (chance (kept, 0.5))
        {
          can->diameter_m.value = 0.4;
          can->height_m.value = can->capacity_l.value / 1000 / (G_PI / 4 * 0.16) + 0.05;
        }
    }
  pail = random_season_add (kept->season, FR_KIND_CONTAINER);
  pail->name = g_strdup ("Pail");
  random_season_text (&pail->role, "bucket");
  pail->capacity_l.value = 1000;
  pail->empty_kg.value = 0.8;
  pail->diameter_m.value = 0.3;
  pail->height_m.value = 5; /* as high as needed */
  kept->way = ways[g_rand_int_range (kept->random, 0, 3)];
  kept->by_tree = chance (kept, 0.3);
  kept->n_parts = kept->by_tree ? (guint)g_rand_int_range (kept->random, 4, TREES_MAX + 1)
                                : (guint)g_rand_int_range (kept->random, 1, 4);
  for (guint i = 0; i < kept->n_parts; i++)
    kept->share[i] = between (kept, 0.5, 1.5) / kept->n_parts;
  kept->day_l = between (kept, 12, 40);
}

static void
gather (Kept *kept, gint day)
{
  double run = exp (noise (kept, 0.6)), hours = between (kept, 15, 17);

  if (chance (kept, 0.3))
    return;
  for (guint i = 0; i < kept->n_parts; i++)
    {
      double litres_l = kept->day_l * run * kept->share[i] * exp (noise (kept, 0.25));
      guint can = chance (kept, 0.8) ? i % kept->n_cans : (guint)g_rand_int_range (kept->random, 0, (gint32)kept->n_cans);

      if (kept->there_l[can] + litres_l > 0.97 * kept->cans[can]->capacity_l.value)
        continue; /* let it drip */
      kept->there_l[can] += litres_l;
      write_gathering (kept, at_hour (kept, day, hours + 0.1 * i), can, i, litres_l);
    }
}

static void
boil (Kept *kept, gint day)
{
  FrNight *night;
  double all_l = 0;

  for (guint i = 0; i < kept->n_cans; i++)
    all_l += kept->there_l[i];
  if (all_l < 1.5 * kept->day_l || chance (kept, 0.3))
    return;
  night = random_season_add (kept->season, FR_KIND_NIGHT);
  night->evening = fr_date_to_iso (fr_date_add_days ((FrDate){ (gint)kept->season->season, 2, 25 }, day));
  night->start_utc = at_hour (kept, day, 20);
  night->off_by_utc = at_hour (kept, day + 1, 7);
  night->bucket_l.value = 0;
  for (guint i = 0; i < kept->n_cans; i++)
    {
      double litres_l = kept->there_l[i] * (chance (kept, 0.5) ? between (kept, 0.9, 1) : between (kept, 0.3, 0.9));

      if (litres_l < 2)
        continue;
      kept->there_l[i] -= litres_l;
      write_pour (kept, at_hour (kept, day, 18.5 + 0.1 * i), "boiled", i, 0, night->record.id, litres_l);
      night->bucket_l.value += litres_l;
    }
  night->pan_l.value = 0;
}

static void
odds_and_ends (Kept *kept, gint day)
{
  guint i = (guint)g_rand_int_range (kept->random, 0, (gint32)kept->n_cans), j = (i + 1) % kept->n_cans;
  double litres_l = kept->there_l[i] * between (kept, 0.1, 0.7);

  if (chance (kept, 0.1) && i != j && kept->there_l[j] + litres_l < 0.97 * kept->cans[j]->capacity_l.value
      && litres_l > 2)
    {
      kept->there_l[i] -= litres_l;
      kept->there_l[j] += litres_l;
      write_pour (kept, at_hour (kept, day, 10), "moved", i, kept->cans[j]->record.id, 0, litres_l);
    }
  else if (chance (kept, 0.05) && kept->there_l[i] > 3)
    {
      kept->there_l[i] -= 1;
      write_pour (kept, at_hour (kept, day, 11), "spilled", i, 0, 0, 1);
    }
  else if (chance (kept, 0.05) && kept->there_l[i] > 3)
    kept->there_l[i] -= between (kept, 0, 0.5); /* and nobody noticed */
}

/* Into each container every few days, in the morning or the evening as its habit is. */
static void
look (Kept *kept, gint day, double hours, gboolean all)
{
  for (guint i = 0; i < kept->n_cans; i++)
    if (all || (day % (gint)kept->look_every[i] == 0 && kept->look_hours[i] == hours))
      write_dip (kept, at_hour (kept, day, hours), i);
}

RandomSeason *
random_season_new_kept (GRand *random, guint season, const FrZoneTable *zone)
{
  Kept kept = { .random = random, .season = random_season_new_empty (season, zone) };
  gint n_days = g_rand_int_range (random, 25, 46);

  add_cans (&kept);
  for (gint day = 0; day < n_days; day++)
    {
      look (&kept, day, 9, FALSE);
      odds_and_ends (&kept, day);
      gather (&kept, day);
      look (&kept, day, 18, day == n_days - 1);
      boil (&kept, day);
    }
  return kept.season;
}

/* --- mistakes --- */

static gint64
time_of (const FrRecord *record)
{
  if (record->kind->id == FR_KIND_GATHERING)
    return ((const FrGathering *)record)->gathered_utc;
  return record->kind->id == FR_KIND_POUR ? ((const FrPour *)record)->poured_utc : ((const FrDip *)record)->found_utc;
}

static gint64
place_of (const FrRecord *record)
{
  if (record->kind->id == FR_KIND_GATHERING)
    return ((const FrGathering *)record)->container;
  return record->kind->id == FR_KIND_POUR ? ((const FrPour *)record)->container : ((const FrDip *)record)->container;
}

/* The first look into the same container at or after it. */
static const FrDip *
look_after (const RandomSeason *season, const FrRecord *record)
{
  const FrDip *first = NULL;

  if (record->kind->id == FR_KIND_DIP)
    return (const FrDip *)record;
  for (guint i = 0; i < season->book.dips->len; i++)
    {
      const FrDip *dip = season->book.dips->pdata[i];

      if (dip->container == place_of (record) && dip->found_utc >= time_of (record)
          && (first == NULL || dip->found_utc < first->found_utc))
        first = dip;
    }
  return first;
}

static double
litres_of (const RandomSeason *season, const FrRecord *record)
{
  if (record->kind->id == FR_KIND_GATHERING)
    return fr_gathering_l ((const FrGathering *)record,
                           season->book.containers->pdata[((const FrGathering *)record)->bucket - 1], 2);
  if (record->kind->id == FR_KIND_POUR)
    return ((const FrPour *)record)->volume_l.value;
  return fr_dip_l ((const FrDip *)record, season->book.containers->pdata[((const FrDip *)record)->container - 1], 2);
}

/* One of the season's of 3 L or more that will show; NULL after many tries. */
static FrRecord *
pick (GRand *random, const RandomSeason *season, GPtrArray *records, const FrDip **look_out)
{
  for (guint i = 0; i < 200 && records->len > 0; i++)
    {
      FrRecord *record = records->pdata[g_rand_int_range (random, 0, (gint32)records->len)];

      *look_out = look_after (season, record);
      if (*look_out != NULL && litres_of (season, record) >= LEAST_L)
        return record;
    }
  return NULL;
}

static void
slip (GRand *random, FrRecord *record)
{
  static const double by_volume[] = { 3.785411784, 4.54609, 1 / 3.785411784, 1 / 4.54609, 10, 0.1 },
                      by_weight[] = { 0.45359237, 1 / 0.45359237, 10, 0.1 }, by_depth[] = { 2.54, 1 / 2.54, 10, 0.1 };
  FrAmount *amount;
  const char *way = "volume";

  if (record->kind->id == FR_KIND_GATHERING)
    {
      FrGathering *gathering = (FrGathering *)record;

      way = gathering->measured_by;
      amount = g_str_equal (way, "weight")  ? &gathering->weight_kg
               : g_str_equal (way, "depth") ? &gathering->depth_m
                                            : &gathering->volume_l;
    }
  else if (record->kind->id == FR_KIND_DIP)
    {
      FrDip *dip = (FrDip *)record;

      way = dip->measured_by;
      amount = g_str_equal (way, "depth") ? &dip->depth_m : &dip->volume_l;
    }
  else
    amount = &((FrPour *)record)->volume_l;
  if (g_str_equal (way, "weight"))
    amount->value *= by_weight[g_rand_int_range (random, 0, G_N_ELEMENTS (by_weight))];
  else if (g_str_equal (way, "depth"))
    amount->value *= by_depth[g_rand_int_range (random, 0, G_N_ELEMENTS (by_depth))];
  else
    amount->value *= by_volume[g_rand_int_range (random, 0, G_N_ELEMENTS (by_volume))];
}

/* Once more, up to three hours later but before the look, now and then rounded or without its reading. */
static const FrRecord *
repeat (GRand *random, RandomSeason *season, const FrGathering *first, const FrDip *shows)
{
  FrGathering *second = (FrGathering *)fr_record_copy (&first->record);
  GPtrArray *all = season->book.gatherings;
  gint64 later_utc = first->gathered_utc + 60 * g_rand_int_range (random, 0, 180);

  second->record.id = ((const FrRecord *)all->pdata[all->len - 1])->id + 1;
  second->gathered_utc = MIN (shows->found_utc, later_utc);
  if (g_rand_int_range (random, 0, 5) == 0)
    second->reading_brix.value = NAN;
  if (g_rand_int_range (random, 0, 5) == 0 && g_str_equal (second->measured_by, "volume"))
    second->volume_l.value = round (2 * second->volume_l.value) / 2;
  g_ptr_array_add (all, second);
  return &second->record;
}

const FrDip *
random_season_plant (GRand *random, RandomSeason *season, RandomMistake mistake, const FrRecord **record_out)
{
  GPtrArray *kinds[] = { season->book.gatherings, season->book.gatherings, season->book.pours, season->book.dips };
  GPtrArray *from = mistake == RANDOM_MISTAKE_UNIT ? kinds[g_rand_int_range (random, 0, 4)] : kinds[0];
  const FrDip *shows;
  FrRecord *record = pick (random, season, from, &shows);

  *record_out = NULL;
  if (record == NULL)
    return NULL;
  if (mistake == RANDOM_MISTAKE_UNIT)
    {
      slip (random, record);
      *record_out = record;
    }
  else if (mistake == RANDOM_MISTAKE_TWICE)
    *record_out = repeat (random, season, (const FrGathering *)record, shows);
  else
    g_ptr_array_remove (from, record);
  return shows;
}
