/* Gatherings and stock in and out as tables. Random records go out and into a book that lacks them, and must
 * be the same there; by hand: units, days and clocks, names, what is the same again, what is refused or asked
 * about; and tables that no one should send. Unit figures: NIST SP 811 (2008), appendix B, from memory. */
#include "formats/sap-csv.h"
#include "random-bush.h"

#include <math.h>
#include <string.h>

#define NOW_UTC G_GINT64_CONSTANT (1780000000) /* 28 May 2026 */

/* --- a book --- */

typedef struct
{
  RandomBush *bush;
  GPtrArray *lists[FR_N_KINDS];
  FrZoneTable *zone;
  FrSeasonBook book;
} Sap;

/* Toronto in 2026 (tz database). */
#define SPRING_UTC G_GINT64_CONSTANT (1772953200) /* 8 March 07:00Z, 2:00 becomes 3:00 */
#define AUTUMN_UTC G_GINT64_CONSTANT (1793512800) /* 1 November 06:00Z, 2:00 becomes 1:00 */

static FrZoneTable *
toronto (void)
{
  const FrZoneSpan spans[] = { { G_MININT64, -5 * 3600, FALSE, "EST" },
                               { SPRING_UTC, -4 * 3600, TRUE, "EDT" },
                               { AUTUMN_UTC, -5 * 3600, FALSE, "EST" } };

  return fr_zone_table_new ("America/Toronto", spans, G_N_ELEMENTS (spans));
}

static GPtrArray *
records (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free);
}

/* Takes @bush. */
static Sap
sap_new (RandomBush *bush)
{
  Sap s = { .bush = bush, .zone = toronto () };

  for (guint k = 0; k < FR_N_KINDS; k++)
    s.lists[k] = records ();
  s.book = (FrSeasonBook){ .zone = s.zone,
                           .trees = bush->trees,
                           .taps = bush->taps,
                           .girths = bush->girths,
                           .yields = bush->yields,
                           .containers = s.lists[FR_KIND_CONTAINER],
                           .gatherings = s.lists[FR_KIND_GATHERING],
                           .pours = s.lists[FR_KIND_POUR],
                           .dips = s.lists[FR_KIND_DIP],
                           .nights = s.lists[FR_KIND_NIGHT],
                           .days = s.lists[FR_KIND_DAY] };
  return s;
}

static void
sap_clear (Sap *s)
{
  random_bush_free (s->bush);
  for (guint k = 0; k < FR_N_KINDS; k++)
    g_ptr_array_unref (s->lists[k]);
  fr_zone_table_free (s->zone);
}

static gpointer
add (GPtrArray *list, FrKindId kind)
{
  FrRecord *record = fr_record_new (kind);

  record->id = (gint64)list->len + 1;
  random_uid (record->uid);
  g_ptr_array_add (list, record);
  return record;
}

static void
set_text (FrRecord *record, const char *field, const char *text)
{
  fr_record_set_text (record, fr_kind_field (record->kind, field), text);
}

/* Two trees with a hole each, in the group Ridge, and a tub. */
static Sap
by_hand (void)
{
  Sap s = sap_new (random_bush_new_empty ());

  for (guint i = 0; i < 2; i++)
    {
      FrTree *tree = add (s.bush->trees, FR_KIND_TREE);
      FrTap *tap = add (s.bush->taps, FR_KIND_TAP);

      tree->name = g_strdup (i == 0 ? "Gate" : "Old Lady");
      tree->stand = g_strdup ("Ridge");
      tap->tree = tree->record.id;
      tap->season.value = 2026;
      tap->set_on = g_strdup ("2026-03-01");
    }
  {
    FrContainer *tub = add (s.lists[FR_KIND_CONTAINER], FR_KIND_CONTAINER);

    tub->name = g_strdup ("Tub");
    tub->capacity_l.value = 60;
  }
  return s;
}

static void
ids_of (const Sap *s, gint64 next_ids[FR_N_KINDS])
{
  for (guint k = 0; k < FR_N_KINDS; k++)
    next_ids[k] = s->lists[k]->len + 1;
}

static FrSapArrivals *
read_table (const Sap *s, const char *text, gboolean pasted)
{
  static const FrUnits us = { .system = FR_SYSTEM_US, .decimal_mark = '.' };
  const FrSapCsvOptions options = { s->zone, pasted ? &us : NULL, pasted };
  g_autoptr (GError) error = NULL;
  FrSapArrivals *arrivals = fr_sap_csv_read (text, strlen (text), &options, &error);

  g_assert_no_error (error);
  return arrivals;
}

static FrSapArrivalPreview *
preview (const Sap *s, const FrSapArrivals *arrivals)
{
  gint64 next_ids[FR_N_KINDS];

  ids_of (s, next_ids);
  return fr_sap_arrivals_preview (arrivals, &s->book, next_ids, NOW_UTC);
}

static void
apply (Sap *s, const FrChange *change)
{
  for (guint i = 0; i < change->steps->len; i++)
    {
      const FrStep *step = change->steps->pdata[i];
      GPtrArray *list = s->lists[step->after->kind->id];
      g_autoptr (GArray) problems = fr_record_check (step->after);

      g_assert_cmpuint (problems->len, ==, 0);
      if (step->before == NULL)
        {
          g_assert_cmpint (step->after->id, ==, list->len + 1);
          g_ptr_array_add (list, fr_record_copy (step->after));
          continue;
        }
      g_assert_true (fr_record_equal (step->before, list->pdata[step->after->id - 1]));
      fr_record_free (list->pdata[step->after->id - 1]);
      list->pdata[step->after->id - 1] = fr_record_copy (step->after);
    }
}

/* Brings a table in, all of what is asked about confirmed; how many steps that took. */
static guint
bring_in (Sap *s, const char *text)
{
  g_autoptr (FrSapArrivals) arrivals = read_table (s, text, FALSE);
  g_autoptr (FrSapArrivalPreview) seen = preview (s, arrivals);
  g_autoptr (FrChange) change = NULL;

  for (guint i = 0; i < seen->rows->len; i++)
    {
      FrSapArrivalRow *row = seen->rows->pdata[i];

      if (row->fate == FR_SAP_REFUSED)
        g_test_message ("line %u: %d %s", row->arrival->line, row->refusal,
                        row->refusal == FR_SAP_NOT_KEPT ? row->problem.field->name : "");
      g_assert_cmpint (row->fate, !=, FR_SAP_REFUSED);
      row->confirmed = TRUE;
    }
  g_assert_cmpuint (fr_sap_arrivals_n_open (seen), ==, 0);
  change = fr_sap_arrivals_change (seen, "import-gatherings", "a table", random_uid);
  apply (s, change);
  return change->steps->len;
}

/* --- random records --- */

static double
maybe (GRand *random, double least, double most)
{
  return g_rand_boolean (random) ? g_rand_double_range (random, least, most) : NAN;
}

static void
set_amount (GRand *random, FrAmount *amount, double value)
{
  /* Typed as people do, or not; what is typed means the amount. */
  if (!isnan (value) && g_rand_int_range (random, 0, 4) == 0)
    {
      g_autofree char *typed = g_strdup_printf ("%d", g_rand_int_range (random, 1, 9));

      fr_amount_set (amount, g_ascii_strtod (typed, NULL), typed);
      return;
    }
  fr_amount_set (amount, value, NULL);
}

static void
set_code (GRand *random, FrRecord *record, const char *name)
{
  const FrField *field = fr_kind_field (record->kind, name);

  fr_record_set_text (
      record, field, field->codes[g_rand_int_range (random, 0, (gint)g_strv_length ((char **)field->codes))]);
}

static void
set_words (GRand *random, FrRecord *record, const char *name)
{
  g_autofree char *text = g_rand_boolean (random) ? random_text (random, 40) : NULL;

  set_text (record, name, text);
}

static gint64
some (GRand *random, const GPtrArray *list)
{
  return list->len > 0 && g_rand_boolean (random)
             ? ((FrRecord *)list->pdata[g_rand_int_range (random, 0, (gint)list->len)])->id
             : 0;
}

static gint64
some_time (GRand *random)
{
  static const gint64 around[] = { SPRING_UTC, AUTUMN_UTC, 1774000000 };

  return around[g_rand_int_range (random, 0, 3)]
         + g_rand_int_range (random, -7200, 7200) * (g_rand_boolean (random) ? 1 : 60);
}

static void
set_reading (GRand *random, FrRecord *record)
{
  set_amount (random, fr_record_amount (record, fr_kind_field (record->kind, "reading_brix")),
              maybe (random, 0.5, 8));
  set_code (random, record, "instrument");
  fr_record_amount (record, fr_kind_field (record->kind, "sample_c"))->value = maybe (random, -4, 40);
  set_words (random, record, "note");
  fr_record_set_int (record, fr_kind_field (record->kind, "confirmed"), TRUE);
}

static void
random_container (GRand *random, Sap *s)
{
  FrContainer *one = add (s->lists[FR_KIND_CONTAINER], FR_KIND_CONTAINER);

  one->name = random_text (random, 20);
  set_code (random, &one->record, "role");
  set_code (random, &one->record, "place");
  set_code (random, &one->record, "insulation");
  set_code (random, &one->record, "material");
  set_amount (random, &one->capacity_l, g_rand_double_range (random, 0.2, 900));
  one->made_in.value = g_rand_boolean (random) ? g_rand_int_range (random, 1900, 2026) : NAN;
  if (g_rand_boolean (random))
    {
      one->diameter_m.value = g_rand_double_range (random, 0.1, 2);
      one->height_m.value = g_rand_double_range (random, 0.1, 2);
      one->top_diameter_m.value = maybe (random, 0.1, 2);
    }
  one->empty_kg.value = maybe (random, 0, 20);
  set_words (random, &one->record, "note");
  one->record.archived = g_rand_int_range (random, 0, 5) == 0;
}

static void
random_gathering (GRand *random, Sap *s)
{
  static const char *const ways[] = { "volume", "weight", "depth" };
  FrGathering *one = add (s->lists[FR_KIND_GATHERING], FR_KIND_GATHERING);
  const char *way = ways[g_rand_int_range (random, 0, 3)];

  one->gathered_utc = some_time (random);
  set_code (random, &one->record, "scope");
  one->tree = strcmp (one->scope, "tree") == 0 ? some (random, s->book.trees) : 0;
  one->tap = strcmp (one->scope, "tap") == 0 ? some (random, s->book.taps) : 0;
  if (strcmp (one->scope, "group") == 0)
    one->stand = random_text (random, 20);
  if ((strcmp (one->scope, "tree") == 0 && one->tree == 0)
      || (strcmp (one->scope, "tap") == 0 && one->tap == 0))
    set_text (&one->record, "scope", "bush");
  one->bucket = some (random, s->book.containers);
  if (one->bucket == 0)
    way = "volume";
  set_text (&one->record, "measured_by", way);
  if (strcmp (way, "volume") == 0)
    set_amount (random, &one->volume_l, g_rand_double_range (random, 0, 40));
  else if (strcmp (way, "weight") == 0)
    set_amount (random, &one->weight_kg, g_rand_double_range (random, 0, 40));
  else
    one->depth_m.value = g_rand_double_range (random, 0, 0.5);
  one->sap_c.value = maybe (random, -2, 20);
  set_code (random, &one->record, "clarity");
  set_code (random, &one->record, "smell");
  set_words (random, &one->record, "who");
  one->container = some (random, s->book.containers);
  one->ice_l.value = maybe (random, 0, 9);
  one->ice_brix.value = maybe (random, 0, 2);
  set_reading (random, &one->record);
  one->record.archived = g_rand_int_range (random, 0, 8) == 0;
}

static void
random_pour (GRand *random, Sap *s)
{
  FrPour *one = add (s->lists[FR_KIND_POUR], FR_KIND_POUR);

  one->poured_utc = some_time (random);
  set_code (random, &one->record, "reason");
  one->container = some (random, s->book.containers);
  if (strcmp (one->reason, "moved") == 0)
    one->target = some (random, s->book.containers);
  if (strcmp (one->reason, "moved") == 0 && one->target == one->container)
    set_text (&one->record, "reason", "spilled"), one->target = 0;
  if (strcmp (one->reason, "boiled") == 0)
    one->night = some (random, s->book.nights);
  set_amount (random, &one->volume_l, g_rand_double_range (random, 0, 40));
  set_reading (random, &one->record);
}

static void
random_dip (GRand *random, Sap *s)
{
  FrDip *one = add (s->lists[FR_KIND_DIP], FR_KIND_DIP);

  one->found_utc = some_time (random);
  one->container = some (random, s->book.containers);
  set_amount (random, &one->volume_l, maybe (random, 0, 40));
  one->temp_c.value = isnan (one->volume_l.value) ? 3.25 : maybe (random, -3, 12);
  one->ice_ratio.value = maybe (random, 0, 1);
  set_code (random, &one->record, "clarity");
  set_code (random, &one->record, "smell");
  set_reading (random, &one->record);
}

static Sap
random_sap (GRand *random)
{
  Sap s = sap_new (random_bush_new (random, 6));

  for (guint i = 0; i < 4; i++)
    {
      FrNight *night = add (s.lists[FR_KIND_NIGHT], FR_KIND_NIGHT);

      night->evening = g_strdup_printf ("2026-03-%02u", i < 3 ? i + 10 : 10);
    }
  for (gint n = g_rand_int_range (random, 0, 6); n > 0; n--)
    random_container (random, &s);
  for (gint n = g_rand_int_range (random, 0, 30); n > 0; n--)
    random_gathering (random, &s);
  for (gint n = g_rand_int_range (random, 0, 20); n > 0; n--)
    random_pour (random, &s);
  for (gint n = g_rand_int_range (random, 0, 20); n > 0; n--)
    random_dip (random, &s);
  for (guint k = FR_KIND_CONTAINER; k <= FR_KIND_DIP; k++)
    for (guint i = 0; i < s.lists[k]->len; i++)
      {
        g_autoptr (GArray) problems = fr_record_check (s.lists[k]->pdata[i]);

        if (problems->len > 0)
          g_error ("%s %s", fr_kind (k)->name, g_array_index (problems, FrProblem, 0).field->name);
      }
  return s;
}

/* What of the first is in the second, by identity; ids of what is named may differ. */
static void
assert_same (const Sap *wanted, const Sap *got)
{
  for (guint k = FR_KIND_CONTAINER; k <= FR_KIND_DIP; k++)
    {
      g_assert_cmpuint (wanted->lists[k]->len, ==, got->lists[k]->len);
      for (guint i = 0; i < wanted->lists[k]->len; i++)
        {
          const FrRecord *one = wanted->lists[k]->pdata[i], *two = NULL;

          for (guint m = 0; m < got->lists[k]->len && two == NULL; m++)
            if (strcmp (((FrRecord *)got->lists[k]->pdata[m])->uid, one->uid) == 0)
              two = got->lists[k]->pdata[m];
          g_assert_nonnull (two);
          g_assert_cmpint (one->archived, ==, two->archived);
          for (guint f = 0; f < one->kind->n_fields; f++)
            {
              const FrField *field = &one->kind->fields[f];
              const FrAmount *amounts[2];

              if (field->type == FR_FIELD_REF && field->ref_kind == FR_KIND_CONTAINER)
                {
                  const gint64 a = fr_record_int (one, field), b = fr_record_int (two, field);

                  g_assert_cmpint (a == 0, ==, b == 0);
                  if (a != 0)
                    g_assert_cmpstr (((FrRecord *)wanted->book.containers->pdata[a - 1])->uid, ==,
                                     ((FrRecord *)got->book.containers->pdata[b - 1])->uid);
                  continue;
                }
              if (!fr_record_field_equal (one, two, field))
                g_error ("%s %s differs", one->kind->name, field->name);
              if (field->type != FR_FIELD_AMOUNT)
                continue;
              amounts[0] = fr_record_amount ((FrRecord *)one, field);
              amounts[1] = fr_record_amount ((FrRecord *)two, field);
              g_assert_cmpstr (amounts[0]->typed, ==, amounts[1]->typed);
            }
        }
    }
}

/* No cell that a spreadsheet would run; a number may have its minus. */
static void
assert_harmless (const char *text)
{
  g_autoptr (GPtrArray) rows = fr_csv_read (text, strlen (text), NULL);

  for (guint i = 0; i < rows->len; i++)
    {
      const FrCsvRow *row = rows->pdata[i];

      for (guint c = 0; c < row->cells->len; c++)
        {
          const char *cell = row->cells->pdata[c];

          if (*cell != '\0' && strchr ("=+-@\t\r", *cell) != NULL)
            g_assert_true (*cell == '-' && cell[1] != '\0'
                           && cell[1 + strspn (cell + 1, "0123456789.")] == '\0');
        }
    }
}

static void
test_round_trip (void)
{
  guint n = 0;

  for (guint seed = 0; seed < 200; seed++)
    {
      g_autoptr (GRand) random = g_rand_new_with_seed (seed);
      g_autoptr (GRand) same = g_rand_new_with_seed (seed);
      Sap s = random_sap (random), got = random_sap (same);
      g_autofree char *gatherings = fr_gatherings_csv_write (&s.book, G_MININT64, G_MAXINT64);
      g_autofree char *stock = fr_stock_csv_write (&s.book, G_MININT64, G_MAXINT64);

      assert_harmless (gatherings);
      assert_harmless (stock);
      g_assert_true (fr_sap_csv_looks_like (gatherings, strlen (gatherings)));
      g_assert_true (fr_sap_csv_looks_like (stock, strlen (stock)));
      /* Into itself: nothing. */
      g_assert_cmpuint (bring_in (&s, gatherings), ==, 0);
      g_assert_cmpuint (bring_in (&s, stock), ==, 0);
      /* The same trees and nights in a book without any of it. */
      for (guint i = 0; i < s.bush->trees->len; i++)
        memcpy (((FrRecord *)got.bush->trees->pdata[i])->uid, ((FrRecord *)s.bush->trees->pdata[i])->uid, 33);
      for (guint i = 0; i < s.bush->taps->len; i++)
        memcpy (((FrRecord *)got.bush->taps->pdata[i])->uid, ((FrRecord *)s.bush->taps->pdata[i])->uid, 33);
      for (guint i = 0; i < s.book.nights->len; i++)
        memcpy (((FrRecord *)got.book.nights->pdata[i])->uid, ((FrRecord *)s.book.nights->pdata[i])->uid, 33);
      for (guint k = FR_KIND_CONTAINER; k <= FR_KIND_DIP; k++)
        {
          n += s.lists[k]->len;
          g_ptr_array_set_size (got.lists[k], 0);
        }
      bring_in (&got, stock);
      bring_in (&got, gatherings);
      assert_same (&s, &got);
      g_assert_cmpuint (bring_in (&got, gatherings), ==, 0);
      g_assert_cmpuint (bring_in (&got, stock), ==, 0);
      sap_clear (&s);
      sap_clear (&got);
    }
  g_test_message ("%u records", n);
}

/* --- by hand --- */

static const FrGathering *
gathering_at (const Sap *s, guint i)
{
  g_assert_cmpuint (i, <, s->lists[FR_KIND_GATHERING]->len);
  return s->lists[FR_KIND_GATHERING]->pdata[i];
}

/* 8 March 2026 is the day the clocks go forward: 09:30 is 13:30Z. */
static void
test_units (void)
{
  Sap s = by_hand ();
  const char *text = "Date;Time;Tree;volume_us_gal;volume_imp_gal;volume_gal;volume_ml;weight_lb;reading_"
                     "brix;sample_f;sap_c;"
                     "Container;bucket\n"
                     "2026-03-08;09:30;Gate;2;;;;;2.1;59;-0.5;Tub;\n"
                     "2026-03-08;09:31;Old Lady;;2;;;;;;;;\n"
                     "2026-03-09;9:30 PM;Gate;;;1.5;;;;;;;\n"
                     "2026-03-10T07:00:30-04:00;;Gate;;;;750;;;;;;\n"
                     "2026-03-11;;Gate;;;;;10;;;;;Tub\n"
                     "2026-03-12 07:15:00;;Ridge;1;;;;;;;;;\n"
                     "2026-03-13;;;3;;;;;;;;;\n";

  g_assert_cmpuint (bring_in (&s, text), ==, 7);
  g_assert_cmpfloat_with_epsilon (gathering_at (&s, 0)->volume_l.value, 7.570823568, 1e-12);
  g_assert_cmpfloat (gathering_at (&s, 0)->reading_brix.value, ==, 2.1);
  g_assert_cmpfloat_with_epsilon (gathering_at (&s, 0)->sample_c.value, 15, 1e-12);
  g_assert_cmpfloat (gathering_at (&s, 0)->sap_c.value, ==, -0.5);
  g_assert_cmpint (gathering_at (&s, 0)->container, ==, 1);
  g_assert_cmpint (gathering_at (&s, 0)->gathered_utc, ==, 1772976600);
  g_assert_cmpint (gathering_at (&s, 0)->tree, ==, 1);
  g_assert_cmpstr (gathering_at (&s, 0)->scope, ==, "tree");
  g_assert_cmpfloat_with_epsilon (gathering_at (&s, 1)->volume_l.value, 9.09218, 1e-12);
  g_assert_cmpfloat_with_epsilon (gathering_at (&s, 2)->volume_l.value, 5.678117676, 1e-12);
  g_assert_cmpint (gathering_at (&s, 2)->gathered_utc, ==, 1773106200);
  g_assert_cmpfloat (gathering_at (&s, 3)->volume_l.value, ==, 0.75);
  g_assert_cmpint (gathering_at (&s, 3)->gathered_utc, ==, 1773140430);
  g_assert_cmpfloat_with_epsilon (gathering_at (&s, 4)->weight_kg.value, 4.5359237, 1e-12);
  g_assert_cmpstr (gathering_at (&s, 4)->measured_by, ==, "weight");
  g_assert_cmpint (gathering_at (&s, 4)->gathered_utc, ==, 1773244800); /* noon */
  g_assert_cmpstr (gathering_at (&s, 5)->scope, ==, "group");
  g_assert_cmpstr (gathering_at (&s, 5)->stand, ==, "Ridge");
  g_assert_cmpstr (gathering_at (&s, 6)->scope, ==, "bush");
  /* Once more, as it is and from the book's own export. */
  g_assert_cmpuint (bring_in (&s, text), ==, 0);
  {
    g_autofree char *own = fr_gatherings_csv_write (&s.book, G_MININT64, G_MAXINT64);

    g_assert_cmpuint (bring_in (&s, own), ==, 0);
    g_assert_nonnull (strstr (own, "2026-03-08,09:30,UTC-04:00,tree,Gate,7.570823568,2.1,"));
  }
  sap_clear (&s);
}

/* From a spreadsheet's clipboard, without a head: the log's columns; amounts as a household of US units types
 * them. */
static void
test_pasted (void)
{
  Sap s = by_hand ();
  g_autoptr (FrSapArrivals) arrivals
      = read_table (&s,
                    "2026-03-09\t08:00\tGate\t1 gal 2 qt\t2.2\t\t\tTub\tclear\t\tRuth\n"
                    "2026-03-09\t08:05\tOld Lady\t1\t2,2\t41 F\n",
                    TRUE);
  g_autoptr (FrSapArrivalPreview) seen = preview (&s, arrivals);
  const FrGathering *one = (const FrGathering *)((FrSapArrivalRow *)seen->rows->pdata[0])->after,
                    *two = (const FrGathering *)((FrSapArrivalRow *)seen->rows->pdata[1])->after;

  g_assert_cmpuint (seen->n[FR_SAP_NEW], ==, 2);
  g_assert_cmpfloat_with_epsilon (one->volume_l.value, 1.5 * 3.785411784, 1e-12);
  g_assert_cmpstr (one->volume_l.typed, ==, "1 gal 2 qt");
  g_assert_cmpstr (one->clarity, ==, "clear");
  g_assert_cmpstr (one->who, ==, "Ruth");
  g_assert_cmpint (one->container, ==, 1);
  g_assert_cmpfloat_with_epsilon (two->volume_l.value, 3.785411784, 1e-12);
  g_assert_cmpfloat (two->reading_brix.value, ==, 2.2);
  g_assert_cmpfloat_with_epsilon (two->sample_c.value, 5, 1e-12);
  sap_clear (&s);
}

/* With a head its columns hold, pasted or not. */
static void
test_pasted_head (void)
{
  Sap s = by_hand ();
  g_autoptr (FrSapArrivals) arrivals
      = read_table (&s, "volume_l\tdate\ttree\n12.5\t2026-03-09\tGate\n", TRUE);

  g_assert_cmpuint (arrivals->rows->len, ==, 1);
  g_assert_cmpfloat (((FrGathering *)((FrSapArrival *)arrivals->rows->pdata[0])->record)->volume_l.value, ==,
                     12.5);
  sap_clear (&s);
}

/* A row of its identity changes what it says; one without says the same, or is another. */
static void
test_again (void)
{
  Sap s = by_hand ();
  g_autofree char *changed = NULL;

  g_assert_cmpuint (bring_in (&s, "date,tree,volume_l,note\n2026-03-09,Gate,5,first\n2026-03-09,Gate,5.5,\n"),
                    ==, 2);
  changed
      = g_strdup_printf ("uid,date,tree,volume_l\n%s,2026-03-09,Gate,6\n", gathering_at (&s, 0)->record.uid);
  g_assert_cmpuint (bring_in (&s, changed), ==, 1);
  g_assert_cmpfloat (gathering_at (&s, 0)->volume_l.value, ==, 6);
  g_assert_cmpstr (gathering_at (&s, 0)->note, ==, "first");
  g_assert_cmpuint (bring_in (&s, changed), ==, 0);
  /* 5.5 is there; twice it is once more. */
  g_assert_cmpuint (bring_in (&s, "date,tree,volume_l\n2026-03-09,Gate,5.5\n2026-03-09,Gate,5.5\n"), ==, 1);
  g_assert_cmpuint (bring_in (&s, "date,tree,volume_l\n2026-03-09,Gate,5.5\n2026-03-09,Gate,5.5\n"), ==, 0);
  sap_clear (&s);
}

/* Containers of the same table can be named before they come. */
static void
test_stock (void)
{
  Sap s = by_hand ();
  const char *text
      = "record,name,capacity_l,role,place,date,container,reason,target,volume_l,temp_c,ice_percent\n"
        "pour,,,,,2026-03-09,Tub,moved,Snow tub,12,,\n"
        "container,Snow tub,80,store,snowbank,,,,,,,\n"
        "container,Tub,70,,,,,,,,,\n"
        "dip,,,,,2026-03-10,Snow tub,,,11.5,-0.5,25\n";
  const FrPour *pour;
  const FrDip *dip;

  g_assert_cmpuint (bring_in (&s, text), ==, 4);
  g_assert_cmpuint (s.lists[FR_KIND_CONTAINER]->len, ==, 2);
  g_assert_cmpfloat (((FrContainer *)s.lists[FR_KIND_CONTAINER]->pdata[0])->capacity_l.value, ==, 70);
  pour = s.lists[FR_KIND_POUR]->pdata[0];
  g_assert_cmpint (pour->container, ==, 1);
  g_assert_cmpint (pour->target, ==, 2);
  dip = s.lists[FR_KIND_DIP]->pdata[0];
  g_assert_cmpfloat (dip->ice_ratio.value, ==, 0.25);
  g_assert_cmpfloat (dip->temp_c.value, ==, -0.5);
  g_assert_cmpuint (bring_in (&s, text), ==, 0);
  sap_clear (&s);
}

static const struct
{
  const char *name;
  const char *text;
  FrSapRefusal refusal;
  const char *cell;
} refused[] = {
  { "no-number", "date,tree,volume_l\n2026-03-09,Gate,twelve\n", FR_SAP_NO_NUMBER, "twelve" },
  { "decimal-comma", "date;tree;volume_l\n2026-03-09;Gate;1,5\n", FR_SAP_NO_NUMBER, "1,5" },
  { "nan", "date,tree,volume_l\n2026-03-09,Gate,NaN\n", FR_SAP_NO_NUMBER, "NaN" },
  { "formula", "date,tree,volume_l\n2026-03-09,Gate,=1+1\n", FR_SAP_NO_NUMBER, "=1+1" },
  { "huge-in-gallons", "date,tree,volume_us_gal\n2026-03-09,Gate,1e308\n", FR_SAP_NO_NUMBER, "1e308" },
  { "huge", "date,tree,volume_l\n2026-03-09,Gate,1e308\n", FR_SAP_NOT_KEPT, NULL },
  { "below-nought", "date,tree,volume_l\n2026-03-09,Gate,-1\n", FR_SAP_NOT_KEPT, NULL },
  { "no-quantity", "date,tree,volume\n2026-03-09,Gate,3 jars\n", FR_SAP_NO_QUANTITY, "3 jars" },
  { "day-first", "date,tree,volume_l\n09/03/2026,Gate,1\n", FR_SAP_NO_DATE, "09/03/2026" },
  { "no-such-day", "date,tree,volume_l\n2026-02-29,Gate,1\n", FR_SAP_NO_DATE, "2026-02-29" },
  { "no-clock", "date,time,tree,volume_l\n2026-03-09,25:00,Gate,1\n", FR_SAP_NO_TIME, "25:00" },
  { "thirteen-pm", "date,time,tree,volume_l\n2026-03-09,13:00 pm,Gate,1\n", FR_SAP_NO_TIME, "13:00 pm" },
  { "no-offset", "date,time,utc_offset,tree,volume_l\n2026-03-09,8:00,EST,Gate,1\n", FR_SAP_NO_OFFSET,
    "EST" },
  { "dateless", "date,tree,volume_l\n,Gate,1\n", FR_SAP_DATELESS, NULL },
  { "skipped", "date,time,tree,volume_l\n2026-03-08,02:30,Gate,1\n", FR_SAP_SKIPPED, NULL },
  { "no-code", "date,tree,volume_l,clarity\n2026-03-09,Gate,1,murky\n", FR_SAP_NO_CODE, "murky" },
  { "no-yes", "date,tree,volume_l,confirmed\n2026-03-09,Gate,1,perhaps\n", FR_SAP_NO_YES, "perhaps" },
  { "no-identity", "date,tree,volume_l,uid\n2026-03-09,Gate,1,12\n", FR_SAP_NO_IDENTITY, "12" },
  { "no-record", "date,record,tree,volume_l\n2026-03-09,tree,Gate,1\n", FR_SAP_NO_RECORD, "tree" },
  { "said-twice", "date,tree,volume_l,volume_gal\n2026-03-09,Gate,1,1\n", FR_SAP_SAID_TWICE, "1" },
  { "two-amounts", "date,tree,volume_l,weight_kg\n2026-03-09,Gate,1,1\n", FR_SAP_TWO_AMOUNTS, NULL },
  { "not-of-kind", "date,record,tree,volume_l,capacity_l\n2026-03-09,gathering,Gate,1,5\n",
    FR_SAP_NOT_OF_KIND, "gathering" },
  { "too-wide", "date,tree,volume_l\n2026-03-09,Gate,1,5\n", FR_SAP_TOO_WIDE, "5" },
  { "no-such-tree", "date,tree,volume_l\n2026-03-09,Gat,1\n", FR_SAP_NO_SUCH, NULL },
  { "no-such-container", "date,tree,volume_l,container\n2026-03-09,Gate,1,Tubs\n", FR_SAP_NO_SUCH, NULL },
  { "no-such-tap", "date,tree,tap,volume_l\n2026-03-09,Gate,2,1\n", FR_SAP_NO_SUCH, NULL },
  { "depth-without-bucket", "date,tree,depth_cm\n2026-03-09,Gate,20\n", FR_SAP_NOT_KEPT, NULL },
  { "no-amount", "date,tree,note\n2026-03-09,Gate,hello\n", FR_SAP_NOT_KEPT, NULL },
};

static void
test_refused (gconstpointer data)
{
  const guint i = GPOINTER_TO_UINT (data);
  Sap s = by_hand ();
  g_autofree char *with = g_strconcat (
      refused[i].text, strchr (refused[i].text, ';') != NULL ? "2026-03-09;Old Lady;1\n" : "", NULL);
  g_autoptr (FrSapArrivals) arrivals = read_table (&s, with, FALSE);
  g_autoptr (FrSapArrivalPreview) seen = preview (&s, arrivals);
  FrSapArrivalRow *row = seen->rows->pdata[0];

  g_assert_cmpint (row->fate, ==, FR_SAP_REFUSED);
  g_assert_cmpint (row->refusal, ==, refused[i].refusal);
  g_assert_cmpstr (row->arrival->cell, ==, refused[i].cell);
  /* All or nothing. */
  g_assert_cmpuint (fr_sap_arrivals_n_open (seen), ==, 1);
  g_assert_null (fr_sap_arrivals_change (seen, "import-gatherings", NULL, random_uid));
  row->left_out = TRUE;
  {
    g_autoptr (FrChange) change = fr_sap_arrivals_change (seen, "import-gatherings", NULL, random_uid);

    g_assert_cmpuint (change->steps->len, ==, arrivals->rows->len - 1);
  }
  sap_clear (&s);
}

/* The hole of a tree by its number. */
static void
test_tap (void)
{
  Sap s = by_hand ();

  g_assert_cmpuint (bring_in (&s, "date,tree,tap,volume_l\n2026-03-09,Old Lady,1,4\n"), ==, 1);
  g_assert_cmpstr (gathering_at (&s, 0)->scope, ==, "tap");
  g_assert_cmpint (gathering_at (&s, 0)->tap, ==, 2);
  g_assert_cmpint (gathering_at (&s, 0)->tree, ==, 0);
  sap_clear (&s);
}

/* What is asked about waits for a word. */
static void
test_asked (void)
{
  Sap s = by_hand ();
  g_autoptr (FrSapArrivals) arrivals = read_table (
      &s, "date,tree,volume_l,reading_brix,confirmed\n2026-03-09,Gate,4,22,\n2026-03-10,Gate,4,22,yes\n",
      FALSE);
  g_autoptr (FrSapArrivalPreview) seen = preview (&s, arrivals);
  FrSapArrivalRow *one = seen->rows->pdata[0], *two = seen->rows->pdata[1];

  g_assert_cmpint (one->fate, ==, FR_SAP_ASKED);
  g_assert_cmpint (g_array_index (one->questions, FrQuestion, 0).code, ==, FR_ASK_NOT_SAP);
  g_assert_cmpint (two->fate, ==, FR_SAP_NEW);
  g_assert_cmpuint (fr_sap_arrivals_n_open (seen), ==, 1);
  g_assert_null (fr_sap_arrivals_change (seen, "import-gatherings", NULL, random_uid));
  one->confirmed = TRUE;
  {
    g_autoptr (FrChange) change = fr_sap_arrivals_change (seen, "import-gatherings", NULL, random_uid);

    g_assert_cmpuint (change->steps->len, ==, 2);
    g_assert_true (((FrGathering *)((FrStep *)change->steps->pdata[0])->after)->confirmed);
  }
  sap_clear (&s);
}

static void
test_twins (void)
{
  Sap s = by_hand ();
  FrContainer *second = add (s.lists[FR_KIND_CONTAINER], FR_KIND_CONTAINER);
  g_autofree char *text = g_strdup_printf ("date,tree,volume_l,container,uid\n"
                                           "2026-03-09,Gate,4,Tub,\n"
                                           "2026-03-09,Gate,4,%s,0123456789abcdef0123456789abcdef\n"
                                           "2026-03-09,Gate,5,,0123456789abcdef0123456789abcdef\n"
                                           "2026-03-09,Gate,6,,%s\n",
                                           second->record.uid, second->record.uid);
  g_autoptr (FrSapArrivals) arrivals = read_table (&s, text, FALSE);
  g_autoptr (FrSapArrivalPreview) seen = NULL;

  second->name = g_strdup ("Tub");
  second->capacity_l.value = 20;
  seen = preview (&s, arrivals);
  g_assert_cmpint (((FrSapArrivalRow *)seen->rows->pdata[0])->refusal, ==, FR_SAP_TWO_SUCH);
  g_assert_cmpint (((FrSapArrivalRow *)seen->rows->pdata[1])->fate, ==, FR_SAP_NEW);
  g_assert_cmpint (((FrGathering *)((FrSapArrivalRow *)seen->rows->pdata[1])->after)->container, ==, 2);
  g_assert_cmpint (((FrSapArrivalRow *)seen->rows->pdata[2])->refusal, ==, FR_SAP_TWICE);
  g_assert_cmpuint (((FrSapArrivalRow *)seen->rows->pdata[2])->other_line, ==, 3);
  g_assert_cmpint (((FrSapArrivalRow *)seen->rows->pdata[3])->refusal, ==, FR_SAP_ELSEWHERE);
  sap_clear (&s);
}

/* --- tables that are none --- */

static const struct
{
  const char *name;
  const char *text;
  gsize length; /* 0: to its end */
  const char *sentence;
} wrong[] = {
  { "empty", "", 0, "line 1: there is nothing in it" },
  { "prose", "Dear diary, today it ran\n", 0, "line 1: the first row names no column of a gathering log" },
  { "latin-1", "date,tree,volume_l\n2026-03-09,\xc9rable,1\n", 0,
    "line 2: the file is not text in UTF-8. Save it in UTF-8 and try again" },
  { "mixed", "date,tree,note\n2026-03-09,\xc3\x89rable,\xc9\n", 0,
    "line 2: the file is not text in UTF-8. Save it in UTF-8 and try again" },
  { "nul", "date,tree\n2026-03-09,Ga\0te\n", 27,
    "line 2: the file is not text in UTF-8. Save it in UTF-8 and try again" },
  { "open-quote", "date,tree\n\"2026-03-09,Gate\n", 0, "line 2: this quoted cell is not closed" },
  { "column-twice", "date,tree,Date\n", 0, "line 1: the column “date” stands twice" },
};

static void
test_wrong (gconstpointer data)
{
  const guint i = GPOINTER_TO_UINT (data);
  const FrSapCsvOptions options = { NULL, NULL, FALSE };
  g_autoptr (GError) error = NULL;
  FrSapArrivals *arrivals = fr_sap_csv_read (
      wrong[i].text, wrong[i].length > 0 ? wrong[i].length : strlen (wrong[i].text), &options, &error);

  g_assert_null (arrivals);
  g_assert_cmpstr (error->message, ==, wrong[i].sentence);
}

/* A mark of the byte order, and a column that is not known. */
static void
test_odd_heads (void)
{
  Sap s = by_hand ();
  g_autoptr (FrSapArrivals) arrivals = read_table (
      &s, "\xEF\xBB\xBF\"date\",tree,volum_l,Colour,volume_l\r\n2026-03-09,Gate,,=red,4\r\n", FALSE);

  g_assert_cmpuint (arrivals->remarks->len, ==, 2);
  g_assert_cmpstr (arrivals->remarks->pdata[0], ==, "The column “volum_l” is not read; is volume_l meant?");
  g_assert_cmpstr (arrivals->remarks->pdata[1], ==, "The column “Colour” is not read.");
  sap_clear (&s);
}

/* 100,000 rows of one morning and of one tree, the worst for whoever compares all with all; then the same
 * once more. */
static void
test_many (void)
{
  Sap s = by_hand ();
  g_autoptr (GString) text = g_string_new ("date,time,tree,volume_l,container\n");
  const gint64 start = g_get_monotonic_time ();
  double took_s;

  for (guint i = 0; i < 100000; i++)
    g_string_append_printf (text, "2026-03-09,08:%02u:%02u,Gate,%u.%u,Tub\n", i / 60 % 60, i % 60, i % 7,
                            i % 10);
  g_assert_cmpuint (bring_in (&s, text->str), ==, 100000);
  g_assert_cmpuint (bring_in (&s, text->str), ==, 0);
  took_s = (double)(g_get_monotonic_time () - start) / G_USEC_PER_SEC;
  g_test_message ("twice 100,000 rows in %.1f s", took_s);
  g_assert_cmpfloat (took_s, <, 60);
  sap_clear (&s);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sap-csv/round-trip", test_round_trip);
  g_test_add_func ("/sap-csv/units", test_units);
  g_test_add_func ("/sap-csv/pasted", test_pasted);
  g_test_add_func ("/sap-csv/pasted-head", test_pasted_head);
  g_test_add_func ("/sap-csv/again", test_again);
  g_test_add_func ("/sap-csv/stock", test_stock);
  g_test_add_func ("/sap-csv/tap", test_tap);
  g_test_add_func ("/sap-csv/asked", test_asked);
  g_test_add_func ("/sap-csv/twins", test_twins);
  g_test_add_func ("/sap-csv/odd-heads", test_odd_heads);
  for (guint i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      g_autofree char *path = g_strconcat ("/sap-csv/refused/", refused[i].name, NULL);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_refused);
    }
  for (guint i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      g_autofree char *path = g_strconcat ("/sap-csv/wrong/", wrong[i].name, NULL);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_wrong);
    }
  g_test_add_func ("/sap-csv/many", test_many);
  return g_test_run ();
}
