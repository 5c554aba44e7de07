/* Questions at entry: each by hand, and how often they come without cause and find what was planted, on
 * invented seasons. */
#include "domain/plan/gathering-ask.h"

#include "domain/maths/instrument.h"

#include "found.h"
#include "sap-season.h"

static const FrDate TODAY = { 2026, 4, 20 };
#define NOW_UTC (SAP_FIRST_UTC + 60 * SAP_DAY_S)

typedef struct
{
  FrZoneTable *zone;
  FrSeasonBook book;
  FrBush *bush;
  FrAsker *asker;
} Asked;

static Asked
ask_begin (SapSeason *s)
{
  Asked a = { .zone = fr_zone_table_new_utc () };

  a.book = sap_book (s, a.zone);
  a.bush = fr_bush_new (&s->bush.book, SAP_SEASON, TODAY);
  a.asker = fr_asker_new (&a.book, a.bush, NOW_UTC);
  return a;
}

static void
ask_end (Asked *a)
{
  fr_asker_free (a->asker);
  fr_bush_free (a->bush);
  fr_zone_table_free (a->zone);
}

/* Whether it is asked, and the question. */
static gboolean
asks (Asked *a, const FrRecord *record, FrAskCode code, FrQuestion *question_out)
{
  g_autoptr (GArray) questions = fr_asker_ask (a->asker, record);

  for (guint i = 0; i < questions->len; i++)
    if (g_array_index (questions, FrQuestion, i).code == code)
      {
        if (question_out != NULL)
          *question_out = g_array_index (questions, FrQuestion, i);
        return TRUE;
      }
  return FALSE;
}

static guint
n_asked (Asked *a, const FrRecord *record)
{
  g_autoptr (GArray) questions = fr_asker_ask (a->asker, record);

  return questions->len;
}

/* --- invented seasons --- */

typedef struct
{
  guint n, asked;
} Rate;

static double
percent (Rate rate)
{
  return 100.0 * rate.asked / rate.n;
}

typedef enum
{
  PLANT_NOTHING,
  PLANT_RAIN,
  PLANT_DRY,
  PLANT_LEAK
} Plant;

/* Lines of every tree on every day that runs; now and then a day is passed by. @every: one line in so many is
 * planted, from the fifth day on and where the tree gave a litre or more. */
static void
write_season (SapSeason *s, Plant plant, guint every, gboolean with_brix, GHashTable *planted)
{
  for (guint day = 0; day < s->n_days; day++)
    {
      if (s->run[day] < 0.05 || g_rand_int_range (s->rand, 0, 12) == 0)
        continue;
      for (guint i = 0; i < s->n_trees; i++)
        {
          double volume_l = sap_true_l (s, i, day),
                 brix = s->brix[i] * s->sweetness[day] * exp (0.06 * sap_normal (s->rand));
          FrGathering *line;
          const gboolean is_planted = plant != PLANT_NOTHING && day >= 5 && volume_l >= 1
                                      && g_rand_int_range (s->rand, 0, (gint)every) == 0;

          if (is_planted && plant == PLANT_RAIN)
            {
              volume_l *= 2;
              brix /= 2;
            }
          else if (is_planted)
            volume_l *= plant == PLANT_DRY ? g_rand_double_range (s->rand, 0, 0.1) : 0.3;
          line = sap_tree_line (s, day, i, sap_read_l (volume_l));
          if (with_brix)
            line->reading_brix.value = floor (10 * brix + 0.5) / 10;
          if (is_planted)
            g_hash_table_add (planted, line);
        }
    }
}

static gboolean
is_odd (const FrQuestion *question)
{
  return question->code == FR_ASK_THIN || question->code == FR_ASK_FAR_ABOVE
         || question->code == FR_ASK_FAR_BELOW;
}

/* Every line of 60 seasons asked as it stands in the book, the session complete. */
static void
count (Plant plant, guint every, gboolean with_brix, Rate *without_out, Rate *found_out, Rate *first_out)
{
  *without_out = *found_out = *first_out = (Rate){ 0, 0 };
  for (guint seed = 1000; seed < 1060; seed++)
    {
      SapSeason s = sap_season (seed, 10 + seed % 30, 40);
      g_autoptr (GHashTable) planted = g_hash_table_new (NULL, NULL);
      Asked a;

      write_season (&s, plant, every, with_brix, planted);
      a = ask_begin (&s);
      for (guint i = 0; i < s.gatherings->len; i++)
        {
          g_autoptr (GArray) questions = fr_asker_ask (a.asker, s.gatherings->pdata[i]);
          const gboolean is_planted = g_hash_table_contains (planted, s.gatherings->pdata[i]);
          Rate *rate = is_planted ? found_out : without_out;
          gboolean any = FALSE;

          for (guint k = 0; k < questions->len; k++)
            any = any || is_odd (&g_array_index (questions, FrQuestion, k));
          rate->n++;
          rate->asked += any;
          if (is_planted && any)
            {
              first_out->n++;
              for (guint k = 0; k < questions->len; k++)
                {
                  const FrQuestion *question = &g_array_index (questions, FrQuestion, k);

                  if (is_odd (question))
                    first_out->asked
                        += plant == PLANT_RAIN
                               ? question->code == FR_ASK_THIN && question->causes[0] == FR_CAUSE_RAIN
                               : question->code == FR_ASK_FAR_BELOW
                                     && (question->causes[0] == FR_CAUSE_LEAK
                                         || question->causes[0] == FR_CAUSE_TIPPED
                                         || question->causes[0] == FR_CAUSE_DRY_HOLE);
                }
            }
        }
      ask_end (&a);
      sap_season_clear (&s);
    }
}

static void
test_false_alarms (void)
{
  Rate without, found, first;

  count (PLANT_NOTHING, 1, TRUE, &without, &found, &first);
  g_test_message ("%u lines without a plant: %.2f %% asked", without.n, percent (without));
  found_near ("asked without cause, %", percent (without), 0, 2);
  count (PLANT_NOTHING, 1, FALSE, &without, &found, &first);
  g_test_message ("%u lines without sweetness: %.2f %% asked", without.n, percent (without));
  found_near ("asked without cause, sweetness not read, %", percent (without), 0, 2);
}

static void
test_rain (void)
{
  Rate without, found, first;

  count (PLANT_RAIN, 25, TRUE, &without, &found, &first);
  g_test_message (
      "%u with as much rain as sap: %.1f %% found, of them %.1f %% as such; %.2f %% of %u others asked",
      found.n, percent (found), percent (first), percent (without), without.n);
  found_near ("as much rain as sap, found, %", percent (found), 100, 10);
  g_assert_cmpfloat (percent (first), >, 95);
  g_assert_cmpfloat (percent (without), <, 2);
}

static void
test_dry (void)
{
  Rate without, found, first;

  count (PLANT_DRY, 25, FALSE, &without, &found, &first);
  g_test_message ("%u with up to a tenth of their sap: %.1f %% found, of them %.1f %% as such; %.2f %% of %u "
                  "others asked",
                  found.n, percent (found), percent (first), percent (without), without.n);
  found_near ("up to a tenth of their sap, found, %", percent (found), 100, 10);
  g_assert_cmpfloat (percent (first), >, 85);
  g_assert_cmpfloat (percent (without), <, 2);
  count (PLANT_LEAK, 25, FALSE, &without, &found, &first);
  g_test_message ("%u with a third of their sap: %.1f %% found", found.n, percent (found));
}

/* Asked while it is typed, with nothing known but the lines before: on a round's first rows there is less to
 * hold a line against. */
static void
test_as_typed (void)
{
  Rate without = { 0 }, found = { 0 };

  for (guint seed = 2000; seed < 2008; seed++)
    {
      SapSeason s = sap_season (seed, 16, 30);
      g_autoptr (GHashTable) planted = g_hash_table_new (NULL, NULL);
      g_autoptr (GPtrArray) before = g_ptr_array_new ();
      Asked a;

      write_season (&s, PLANT_RAIN, 15, TRUE, planted);
      a = ask_begin (&s);
      a.book.gatherings = before;
      for (guint i = 0; i < s.gatherings->len; i++)
        {
          g_autoptr (FrRecord) line = fr_record_copy (s.gatherings->pdata[i]);
          Rate *rate = g_hash_table_contains (planted, s.gatherings->pdata[i]) ? &found : &without;

          line->id = 0;
          fr_asker_free (a.asker);
          a.asker = fr_asker_new (&a.book, a.bush, NOW_UTC);
          rate->n++;
          rate->asked += asks (&a, line, FR_ASK_THIN, NULL) || asks (&a, line, FR_ASK_FAR_ABOVE, NULL)
                         || asks (&a, line, FR_ASK_FAR_BELOW, NULL);
          g_ptr_array_add (before, s.gatherings->pdata[i]);
        }
      ask_end (&a);
      sap_season_clear (&s);
    }
  g_test_message ("while typed: %.2f %% of %u asked without cause, %.1f %% of %u with rain found",
                  percent (without), without.n, percent (found), found.n);
  found_near ("while typed: asked without cause, %", percent (without), 0, 2);
  found_near ("while typed: as much rain as sap, found, %", percent (found), 100, 10);
}

/* --- by hand --- */

/* Ten days of four trees alike, 4 L each; the eleventh day has been begun. */
static SapSeason
steady (void)
{
  SapSeason s = sap_season (7, 4, 1);

  for (guint i = 0; i < s.bush.book.girths->len; i++)
    ((FrGirth *)s.bush.book.girths->pdata[i])->size_m.value = 0.4;
  while (s.bush.book.taps->len > 0)
    g_ptr_array_remove_index (s.bush.book.taps, 0);
  for (guint i = 0; i < 4; i++)
    bush_tap (&s.bush, s.bush.book.trees->pdata[i], SAP_SEASON, "2026-03-01", 0, 0.9)->container_l.value = 11;
  for (guint day = 0; day < 10; day++)
    for (guint i = 0; i < 4; i++)
      sap_tree_line (&s, day, i, 4 + 0.25 * ((day + i) % 3))->reading_brix.value = 2.2;
  for (guint i = 0; i < 3; i++)
    sap_tree_line (&s, 10, i, 4)->reading_brix.value = 2.2;
  return s;
}

/* A line that is to be kept on the eleventh day for the fourth tree. */
static FrGathering *
new_line (double volume_l, double brix)
{
  FrGathering *line = (FrGathering *)fr_record_new (FR_KIND_GATHERING);

  line->gathered_utc = sap_utc (10, 3);
  bush_set (&line->scope, "tree");
  line->tree = 4;
  line->volume_l.value = volume_l;
  line->reading_brix.value = brix;
  return line;
}

static const struct
{
  const char *name;
  double volume_l;
  double brix;
  int code; /* FR_N_ASKS: nothing is asked */
  int cause;
} lines[] = {
  { "as-its-neighbours", 4, 2.2, FR_N_ASKS, 0 },
  { "half-as-much", 2, 2.2, FR_N_ASKS, 0 },
  { "twice-as-much", 8, 2.2, FR_N_ASKS, 0 },
  { "sweeter", 4, 2.6, FR_N_ASKS, 0 },
  { "as-much-rain-as-sap", 8, 1.1, FR_ASK_THIN, FR_CAUSE_RAIN },
  { "empty", 0, NAN, FR_ASK_FAR_BELOW, FR_CAUSE_TIPPED },
  { "a-sixth", 0.7, NAN, FR_ASK_FAR_BELOW, FR_CAUSE_LEAK },
  /* 4 L written as gallons: "1.1". And 4 gallons written in a column of litres' neighbours: 15.1. */
  { "gallons-for-litres", 1, NAN, FR_ASK_FAR_BELOW, FR_CAUSE_UNIT },
  { "point-left", 0.4, NAN, FR_ASK_FAR_BELOW, FR_CAUSE_POINT },
  { "litres-for-gallons", 15.1, 2.2, FR_ASK_FAR_ABOVE, FR_CAUSE_UNIT },
  { "point-right", 40, 2.2, FR_ASK_FAR_ABOVE, FR_CAUSE_POINT },
  { "concentrate", 4, 31, FR_ASK_NOT_SAP, FR_CAUSE_POINT },
  { "syrup", 4, 66.9, FR_ASK_NOT_SAP, FR_CAUSE_CONCENTRATE },
  { "sweet", 4, 9, FR_ASK_SWEET, FR_CAUSE_CONCENTRATE },
  { "watery", 4, 0.22, FR_ASK_WATERY, FR_CAUSE_POINT },
};

static void
test_line (gconstpointer data)
{
  const guint i = GPOINTER_TO_UINT (data);
  SapSeason s = steady ();
  Asked a = ask_begin (&s);
  g_autoptr (FrRecord) line = (FrRecord *)new_line (lines[i].volume_l, lines[i].brix);
  FrQuestion question = { 0 };

  if (lines[i].code == FR_N_ASKS)
    g_assert_cmpuint (n_asked (&a, line), ==, 0);
  else
    {
      g_assert_true (asks (&a, line, lines[i].code, &question));
      g_assert_cmpint (question.causes[0], ==, lines[i].cause);
      ((FrGathering *)line)->confirmed = TRUE;
      g_assert_cmpuint (n_asked (&a, line), ==, 0);
    }
  ask_end (&a);
  sap_season_clear (&s);
}

/* The numbers of a question: what was written, and what the neighbours lead to expect. Rain known or known
 * not to be. */
static void
test_numbers (void)
{
  SapSeason s = steady ();
  FrDay *day = bush_add (s.days, FR_KIND_DAY);
  g_autoptr (FrRecord) line = (FrRecord *)new_line (8, 1.1);
  FrQuestion question;
  Asked a;

  day->day = g_strdup ("2026-03-14");
  day->rain_m.value = 0;
  a = ask_begin (&s);
  g_assert_true (asks (&a, line, FR_ASK_THIN, &question));
  g_assert_cmpfloat (question.value_l, ==, 8);
  g_assert_cmpfloat_with_epsilon (question.usual_l, 4, 0.2);
  g_assert_cmpfloat_with_epsilon (question.brix, 1.1, 1e-9);
  g_assert_cmpfloat_with_epsilon (question.usual_brix, 2.2, 0.02);
  g_assert_cmpuint (question.n_compared, ==, 3);
  g_assert_cmpint (question.causes[0], ==, FR_CAUSE_MELT);
  g_assert_cmpfloat (question.rain_m, ==, 0);
  ask_end (&a);
  day->rain_m.value = 0.012;
  a = ask_begin (&s);
  g_assert_true (asks (&a, line, FR_ASK_THIN, &question));
  g_assert_cmpint (question.causes[0], ==, FR_CAUSE_RAIN);
  ask_end (&a);
  sap_season_clear (&s);
}

/* A tree that gave little for a week and then next to nothing: the hole. */
static void
test_drying (void)
{
  SapSeason s = steady ();
  g_autoptr (FrRecord) line = (FrRecord *)new_line (0.25, NAN);
  FrQuestion question;
  Asked a;

  for (guint i = 0; i < s.gatherings->len; i++)
    {
      FrGathering *one = s.gatherings->pdata[i];

      if (one->tree == 4)
        one->volume_l.value = 1.5;
    }
  a = ask_begin (&s);
  g_assert_true (asks (&a, line, FR_ASK_FAR_BELOW, &question));
  g_assert_cmpint (question.causes[0], ==, FR_CAUSE_DRY_HOLE);
  ask_end (&a);
  sap_season_clear (&s);
}

/* Passed by for two days, it has three days' sap; that is not much. */
static void
test_three_days (void)
{
  SapSeason s = steady ();
  g_autoptr (FrRecord) line = (FrRecord *)new_line (10.5, 2.2);
  Asked a;

  for (guint i = s.gatherings->len; i-- > 0;)
    {
      const FrGathering *one = s.gatherings->pdata[i];

      if (one->tree == 4 && one->gathered_utc >= sap_utc (8, 0))
        g_ptr_array_remove_index (s.gatherings, i);
    }
  a = ask_begin (&s);
  g_assert_cmpuint (n_asked (&a, line), ==, 0);
  ask_end (&a);
  sap_season_clear (&s);
}

static void
test_first_day (void)
{
  SapSeason s = sap_season (7, 4, 1);
  g_autoptr (FrRecord) line = (FrRecord *)new_line (30, NAN);
  Asked a = ask_begin (&s);

  ((FrGathering *)line)->tree = 1;
  /* A tree alone on the first day: no neighbours. What hangs there holds 20 or 40. */
  g_assert_cmpuint (n_asked (&a, line), ==, fr_bush_find (a.bush, 1)->taps_set == 1);
  ask_end (&a);
  sap_season_clear (&s);
}

static void
test_time (void)
{
  SapSeason s = steady ();
  Asked a = ask_begin (&s);
  g_autoptr (FrRecord) record = (FrRecord *)new_line (4, 2.2);
  FrGathering *line = (FrGathering *)record;
  FrQuestion question;

  line->gathered_utc = NOW_UTC;
  g_assert_false (asks (&a, record, FR_ASK_FUTURE, NULL));
  line->gathered_utc = NOW_UTC + 1;
  g_assert_true (asks (&a, record, FR_ASK_FUTURE, &question));
  g_assert_cmpint (question.utc_s, ==, NOW_UTC + 1);
  g_assert_cmpint (question.causes[0], ==, FR_CAUSE_DATE);
  /* The holes were set on 1 March. */
  line->gathered_utc = SAP_FIRST_UTC - 4 * SAP_DAY_S;
  g_assert_true (asks (&a, record, FR_ASK_NO_TAP, &question));
  g_assert_cmpstr (question.day, ==, "2026-03-01");
  line->gathered_utc = SAP_FIRST_UTC - 3 * SAP_DAY_S;
  g_assert_false (asks (&a, record, FR_ASK_NO_TAP, NULL));
  /* In a book without holes nothing is known of them. */
  line->gathered_utc = SAP_FIRST_UTC - 400 * (gint64)SAP_DAY_S;
  g_assert_false (asks (&a, record, FR_ASK_NO_TAP, NULL));
  ask_end (&a);
  sap_season_clear (&s);
}

/* The same again within a round is asked about at the later one, alone; with another reading it is another
 * pail. */
static void
test_twice (void)
{
  SapSeason s = steady ();
  g_autoptr (FrRecord) record = (FrRecord *)new_line (4, 2.2);
  FrGathering *line = (FrGathering *)record, *kept;
  FrQuestion question;
  Asked a;

  line->tree = 3;
  line->gathered_utc = sap_utc (10, 20);
  a = ask_begin (&s);
  g_assert_true (asks (&a, record, FR_ASK_TWICE, &question));
  g_assert_cmpint (question.other, ==, ((FrRecord *)s.gatherings->pdata[42])->id);
  g_assert_cmpint (question.other_utc_s, ==, sap_utc (10, 2));
  line->gathered_utc = sap_utc (10, 2 + 121);
  g_assert_false (asks (&a, record, FR_ASK_TWICE, NULL));
  line->gathered_utc = sap_utc (10, 20);
  line->reading_brix.value = 2.4;
  g_assert_false (asks (&a, record, FR_ASK_TWICE, NULL));
  ask_end (&a);
  /* Both in the book. */
  kept = sap_tree_line (&s, 10, 2, 4);
  kept->gathered_utc = sap_utc (10, 30);
  a = ask_begin (&s);
  g_assert_false (asks (&a, s.gatherings->pdata[42], FR_ASK_TWICE, NULL));
  g_assert_true (asks (&a, &kept->record, FR_ASK_TWICE, NULL));
  ask_end (&a);
  sap_season_clear (&s);
}

/* A pail of 11 L: 5 % over is let pass. What was emptied before in the same round counts. */
static void
test_over_buckets (void)
{
  SapSeason s = steady ();
  g_autoptr (FrRecord) record = (FrRecord *)new_line (11.5, 2.2);
  FrGathering *line = (FrGathering *)record;
  FrQuestion question;
  Asked a = ask_begin (&s);

  g_assert_false (asks (&a, record, FR_ASK_OVER_BUCKETS, NULL));
  line->volume_l.value = 12;
  g_assert_true (asks (&a, record, FR_ASK_OVER_BUCKETS, &question));
  g_assert_cmpfloat (question.limit_l, ==, 11);
  g_assert_cmpfloat (question.value_l, ==, 12);
  line->tree = 3;
  line->volume_l.value = 8;
  g_assert_true (asks (&a, record, FR_ASK_OVER_BUCKETS, &question));
  g_assert_cmpfloat (question.value_l, ==, 12);
  bush_set (&line->scope, "bush");
  line->volume_l.value = 46;
  g_assert_false (asks (&a, record, FR_ASK_OVER_BUCKETS, NULL));
  line->volume_l.value = 47;
  g_assert_true (asks (&a, record, FR_ASK_OVER_BUCKETS, &question));
  g_assert_cmpfloat (question.limit_l, ==, 44);
  ask_end (&a);
  sap_season_clear (&s);
}

static void
test_reading (void)
{
  SapSeason s = steady ();
  Asked a = ask_begin (&s);
  g_autoptr (FrRecord) record = (FrRecord *)new_line (4, 2.2);
  FrGathering *line = (FrGathering *)record;
  FrQuestion question;

  bush_set (&line->instrument, "hydrometer_60f");
  g_assert_true (asks (&a, record, FR_ASK_READING, &question));
  g_assert_cmpuint (question.reading, ==, FR_READING_NEEDS_TEMPERATURE);
  line->sample_c.value = 15;
  g_assert_false (asks (&a, record, FR_ASK_READING, NULL));
  ask_end (&a);
  sap_season_clear (&s);
}

/* Into a tub of 20 L, and out of it. */
static void
test_stock (void)
{
  SapSeason s = steady ();
  FrContainer *tub = bush_add (s.containers, FR_KIND_CONTAINER);
  g_autoptr (GPtrArray) pours = bush_records ();
  g_autoptr (FrRecord) record = (FrRecord *)new_line (4, 2.2), poured = fr_record_new (FR_KIND_POUR);
  FrPour *pour = (FrPour *)poured;
  FrQuestion question;
  Asked a;

  tub->name = g_strdup ("Tub");
  tub->capacity_l.value = 20;
  for (guint i = 0; i < 4; i++)
    ((FrGathering *)s.gatherings->pdata[i])->container = tub->record.id; /* 16.75 L */
  ((FrGathering *)record)->container = tub->record.id;
  a = ask_begin (&s);
  a.book.pours = pours;
  fr_asker_free (a.asker);
  a.asker = fr_asker_new (&a.book, a.bush, NOW_UTC);
  g_assert_true (asks (&a, record, FR_ASK_OVERFLOW, &question));
  g_assert_cmpfloat_with_epsilon (question.value_l, 20.75, 1e-9);
  g_assert_cmpfloat_with_epsilon (question.limit_l, 20, 1e-9);
  g_assert_cmpint (question.other, ==, tub->record.id);
  ((FrGathering *)record)->volume_l.value = 3;
  g_assert_false (asks (&a, record, FR_ASK_OVERFLOW, NULL));
  pour->poured_utc = sap_utc (1, 0);
  bush_set (&pour->reason, "boiled");
  pour->container = tub->record.id;
  pour->volume_l.value = 16.75;
  g_assert_cmpuint (n_asked (&a, poured), ==, 0);
  pour->volume_l.value = 19;
  g_assert_true (asks (&a, poured, FR_ASK_NEGATIVE, &question));
  g_assert_cmpfloat_with_epsilon (question.limit_l, 16.75, 1e-9);
  g_assert_cmpfloat_with_epsilon (question.value_l, 19, 1e-9);
  /* The same as one of the book's own. */
  poured->id = 1;
  g_ptr_array_add (pours, fr_record_copy (poured));
  fr_asker_free (a.asker);
  a.asker = fr_asker_new (&a.book, a.bush, NOW_UTC);
  g_assert_true (asks (&a, pours->pdata[0], FR_ASK_NEGATIVE, &question));
  g_assert_cmpfloat_with_epsilon (question.limit_l, 16.75, 1e-9);
  /* Edited, it stands in its own place. */
  pour->volume_l.value = 16;
  g_assert_cmpuint (n_asked (&a, poured), ==, 0);
  ask_end (&a);
  sap_season_clear (&s);
}

/* Toronto in 2026 (tz database: second Sunday of March, first of November, at 2:00). */
static void
test_clock (void)
{
  const gint64 spring_utc = 1772953200, autumn_utc = 1793512800; /* 8 March 07:00Z, 1 November 06:00Z */
  const FrZoneSpan spans[] = { { G_MININT64, -5 * 3600, FALSE, "EST" },
                               { spring_utc, -4 * 3600, TRUE, "EDT" },
                               { autumn_utc, -5 * 3600, FALSE, "EST" } };
  g_autoptr (FrZoneTable) zone = fr_zone_table_new ("America/Toronto", spans, 3);
  FrQuestion question;
  gint64 utc_s;

  g_assert_true (fr_ask_clock (zone, (FrDate){ 2026, 3, 8 }, 9000, &utc_s, &question));
  g_assert_cmpint (question.code, ==, FR_ASK_CLOCK_SKIPPED);
  g_assert_cmpint (question.utc_s, ==, spring_utc - 1);
  g_assert_cmpint (question.other_utc_s, ==, spring_utc);
  g_assert_cmpint (utc_s, ==, spring_utc);
  g_assert_true (fr_ask_clock (zone, (FrDate){ 2026, 11, 1 }, 5400, &utc_s, &question));
  g_assert_cmpint (question.code, ==, FR_ASK_CLOCK_TWICE);
  g_assert_cmpint (utc_s, ==, autumn_utc - 1800);
  g_assert_cmpint (question.other_utc_s, ==, autumn_utc + 1800);
  g_assert_false (fr_ask_clock (zone, (FrDate){ 2026, 3, 8 }, 3 * 3600, &utc_s, &question));
  g_assert_cmpint (utc_s, ==, spring_utc);
}

/* Asked in any order, in place or beside, a line gets the same answer. */
static void
test_any_order (void)
{
  SapSeason s = sap_season (42, 12, 20);
  g_autoptr (GHashTable) planted = g_hash_table_new (NULL, NULL);
  g_autofree guint *n = NULL;
  Asked a;

  write_season (&s, PLANT_DRY, 10, TRUE, planted);
  a = ask_begin (&s);
  n = g_new0 (guint, s.gatherings->len + 1);
  for (guint i = 0; i < s.gatherings->len; i++)
    n[i] = n_asked (&a, s.gatherings->pdata[i]);
  for (guint k = 0; k < 300; k++)
    {
      const guint i = g_rand_int_range (s.rand, 0, (gint)s.gatherings->len);
      g_autoptr (FrRecord) copy = fr_record_copy (s.gatherings->pdata[i]);

      g_assert_cmpuint (n_asked (&a, s.gatherings->pdata[i]), ==, n[i]);
      /* A copy is as if edited: it stands in the place of the book's. */
      g_assert_cmpuint (n_asked (&a, copy), ==, n[i]);
    }
  ask_end (&a);
  sap_season_clear (&s);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (lines); i++)
    {
      g_autofree char *path = g_strconcat ("/gathering-ask/line/", lines[i].name, NULL);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_line);
    }
  g_test_add_func ("/gathering-ask/numbers", test_numbers);
  g_test_add_func ("/gathering-ask/drying", test_drying);
  g_test_add_func ("/gathering-ask/three-days", test_three_days);
  g_test_add_func ("/gathering-ask/first-day", test_first_day);
  g_test_add_func ("/gathering-ask/time", test_time);
  g_test_add_func ("/gathering-ask/twice", test_twice);
  g_test_add_func ("/gathering-ask/over-buckets", test_over_buckets);
  g_test_add_func ("/gathering-ask/reading", test_reading);
  g_test_add_func ("/gathering-ask/stock", test_stock);
  g_test_add_func ("/gathering-ask/clock", test_clock);
  g_test_add_func ("/gathering-ask/any-order", test_any_order);
  g_test_add_func ("/gathering-ask/false-alarms", test_false_alarms);
  g_test_add_func ("/gathering-ask/rain", test_rain);
  g_test_add_func ("/gathering-ask/as-typed", test_as_typed);
  g_test_add_func ("/gathering-ask/dry", test_dry);
  return found_run ();
}
