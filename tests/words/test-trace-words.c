/* The drawing's texts. Hours are counted on the wall's own clock by asking every second; prices have to cover
 * the frame. */
#include "../domain/evenings.h"
#include "sentences.h"

#include "words/trace-words.h"

static FrTariff *tariff;

static FrSay
say_of (const FrZoneTable *zone, gboolean twelve_hour)
{
  return (FrSay){ { .system = FR_SYSTEM_METRIC, .decimal_mark = '.' }, "CAD", zone, twelve_hour };
}

typedef struct
{
  const char *zone;
  gint64 change_utc;
  const char *label;
  const char *label_twelve;
} Change;

static const Change changes[] = {
  { "America/Toronto", 1741503600, "02→03", "2→3" },
  { "America/Toronto", 1762063200, "02→01", "2→1" },
  { "Europe/Paris", 1743296400, "02→03", "2→3" },
  { "Europe/Paris", 1761440400, "03→02", "3→2" },
  { "Australia/Adelaide", 1759595400, "02→03", "2→3" },
  /* Half an hour: the minutes are needed. */
  { "Australia/Lord_Howe", 1759591800, "02:00→02:30", "2:00→2:30" },
  { "Australia/Lord_Howe", 1743865200, "02:00→01:30", "2:00→1:30" },
};

static void
test_hours (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (changes); i++)
    for (guint twelve = 0; twelve < 2; twelve++)
      {
        g_autoptr (FrZoneTable) zone = test_zone (changes[i].zone);
        FrPlanInput input = evening_input (zone, 60);
        FrSay say = say_of (zone, twelve);
        g_autoptr (FrPlan) plan = NULL;
        g_autoptr (FrTraceWords) words = NULL;
        guint at = 0, n_changes = 0;

        input.start_utc = changes[i].change_utc - 7 * 3600 - 1234;
        input.off_by_utc = input.start_utc + 42600;
        input.oldest_utc = G_MININT64;
        plan = fr_plan_new (&input);
        words = fr_trace_words_new (plan, &input, 0, &say);
        for (gint64 s = (gint64)words->from_s; s <= (gint64)words->to_s; s++)
          {
            gint64 utc = input.start_utc + s;
            gboolean jump = utc == changes[i].change_utc;
            const FrHourMark *hour;
            g_autofree char *clock = NULL;

            if (!jump && fr_zone_local (zone, utc).second_of_day % 3600 != 0)
              continue;
            g_assert_cmpuint (at, <, words->hours->len);
            hour = &g_array_index (words->hours, FrHourMark, at++);
            g_assert_cmpfloat (hour->time_s, ==, (double)s);
            g_assert_cmpint (hour->clock_change, ==, jump);
            clock = fr_say_clock (&say, utc);
            g_assert_cmpstr (hour->label, ==,
                             !jump    ? clock
                             : twelve ? changes[i].label_twelve
                                      : changes[i].label);
            n_changes += jump;
          }
        g_assert_cmpuint (at, ==, words->hours->len);
        g_assert_cmpuint (n_changes, ==, 1);
      }
}

static void
test_prices (void)
{
  g_autoptr (FrZoneTable) zone = test_zone ("America/Toronto");
  FrSay say = say_of (zone, FALSE);

  for (gint shift = -12; shift <= 12; shift += 3)
    {
      FrPlanInput input = evening_input (zone, 12);
      g_autoptr (FrPlan) plan = NULL;
      g_autoptr (FrTraceWords) words = NULL;
      double at_s;
      guint n_long = 0;

      input.tariff = tariff;
      input.start_utc += shift * 3600;
      input.off_by_utc = input.start_utc + 42600;
      plan = fr_plan_new (&input);
      g_assert_cmpint (plan->status, ==, FR_PLAN_OK);
      words = fr_trace_words_new (plan, &input, 0, &say);
      at_s = words->from_s;
      for (guint i = 0; i < words->prices->len; i++)
        {
          const FrPriceMark *mark = &g_array_index (words->prices, FrPriceMark, i);
          double listed, full;
          gint64 until;
          FrTariffProblem problem;

          g_assert_cmpfloat (mark->from_s, ==, at_s);
          g_assert_cmpfloat (mark->to_s, >, mark->from_s);
          at_s = mark->to_s;
          g_assert_true (fr_tariff_price (tariff, zone, input.start_utc + (gint64)mark->from_s, &listed,
                                          &full, &until, &problem));
          g_assert_cmpfloat (mark->price, ==, full);
          sentence_parts (mark->label);
          if (mark->label_long != NULL)
            {
              n_long++;
              g_assert_true (g_str_has_suffix (mark->label_long, "/kWh"));
              sentence_parts (mark->cost);
            }
        }
      g_assert_cmpfloat (at_s, ==, words->to_s);
      g_assert_cmpuint (n_long, ==, 1);
    }
}

static void
test_texts (void)
{
  g_autoptr (FrZoneTable) zone = test_zone ("America/Toronto");

  for (guint n = 0; n < 6; n++)
    {
      FrPlanInput input = evening_input (zone, n < 3 ? 16 : 2);
      FrSay say = say_of (zone, n == 1);
      g_autoptr (FrPlan) plan = NULL;
      g_autoptr (FrTraceWords) words = NULL;

      say.units.system = n % 3;
      input.tariff = n % 2 == 0 ? tariff : NULL;
      input.kits[0].min_level_l = 1.5;
      plan = fr_plan_new (&input);
      words = fr_trace_words_new (plan, &input, 0, &say);
      sentence (words->spoken);
      /* Of a level that is held and a bucket only where there is one. */
      g_assert_cmpint (strstr (words->spoken, "bucket") != NULL, ==, n < 3);
      sentence_parts (words->level_label);
      sentence_parts (words->brix_label);
      sentence_parts (words->power_label);
      sentence_parts (words->feed_label);
      for (guint i = 0; i < words->marks->len; i++)
        {
          const FrMark *mark = &g_array_index (words->marks, FrMark, i);

          sentence_parts (mark->strong);
          sentence_parts (mark->word);
          g_assert_cmpfloat (mark->time_s, >=, 0);
          g_assert_cmpfloat (mark->time_s, <=, words->to_s);
        }
      g_assert_cmpuint (words->limits->len, ==, 2);
      for (guint i = 0; i < words->limits->len; i++)
        sentence_parts (g_array_index (words->limits, FrLimitMark, i).label);
      for (double s = -600; s < words->to_s; s += 1777)
        {
          g_autofree char *read = fr_trace_read_out (plan, &input, 0, s, &say);

          sentence_parts (read);
        }
      g_assert_null (fr_trace_read_out (plan, &input, 7, 0, &say));
    }
}

static void
test_empty (void)
{
  g_autoptr (FrZoneTable) zone = test_zone ("America/Toronto");
  FrPlanInput input = evening_input (zone, 0);
  FrSay say = say_of (zone, FALSE);
  g_autoptr (FrPlan) plan = fr_plan_new (&input);
  g_autoptr (FrTraceWords) words = fr_trace_words_new (plan, &input, 0, &say);

  sentence (words->spoken);
  g_assert_cmpuint (words->marks->len, ==, 0);
  g_assert_cmpuint (words->hours->len, >, 10);
  g_assert_null (fr_trace_read_out (plan, &input, 0, 0, &say));
}

int
main (int argc, char **argv)
{
  FrTariffProblem problem;
  int failed;

  g_test_init (&argc, &argv, NULL);
  tariff = fr_tariff_parse (WINTER_2024, NULL, 0, 0, &problem);
  g_assert_nonnull (tariff);
  g_test_add_func ("/trace-words/hours", test_hours);
  g_test_add_func ("/trace-words/prices", test_prices);
  g_test_add_func ("/trace-words/texts", test_texts);
  g_test_add_func ("/trace-words/empty", test_empty);
  failed = g_test_run ();
  fr_tariff_free (tariff);
  return failed;
}
