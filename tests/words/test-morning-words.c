/* The morning's sentences: every reason, with and without something learned. */
#include "../domain/evenings.h"
#include "sentences.h"

#include "words/morning-words.h"

static void
test_all (void)
{
  g_autoptr (FrZoneTable) zone = test_zone ("America/Toronto");
  g_autoptr (FrRecord) night = fr_record_new (FR_KIND_NIGHT);
  FrPlanKit kit = evening_kit ("Hot plate", 1800);

  ((FrNight *)night)->start_utc = EVENING_UTC;
  ((FrNight *)night)->heat_ratio.value = 0.8;
  for (FrWhy why = FR_WHY_AS_PLANNED; why <= FR_WHY_NOT_ENOUGH; why++)
    for (guint n = 0; n < 6; n++)
      {
        FrSay say = { { .system = n % 3, .decimal_mark = n % 2 ? ',' : '.' }, "CAD", zone, n == 1 };
        FrMorningReport report = {
          .has_learned = n < 4,
          .learned = { 0.7, 0.01, 0.69, 0.012, 1.1, n == 3 },
          .fact_brix = n == 5 ? NAN : 41,
          .fact_left_l = n == 5 ? NAN : 1.1,
          .fact_end_s = n == 5 ? NAN : 30000,
          .plan_end_s = 29000,
          .plan_brix = 44,
          .plan_left_l = 1.05,
          .plan_energy_kwh = 14.5,
          .fact_energy_kwh = n == 5 ? NAN : 15.1,
          .n_why = 1,
          .why = { why },
          .why_a = { 1.1 },
        };
        g_autoptr (FrMorningWords) words = fr_morning_words_new (&report, (FrNight *)night, &kit, &say);

        g_assert_cmpuint (words->lines->len, ==, 4);
        for (guint i = 0; i < 4; i++)
          {
            const FrMorningLine *line = words->lines->pdata[i];

            sentence_parts (line->what);
            sentence_parts (line->plan);
            sentence_parts (line->fact);
            if (n == 5)
              g_assert_true (g_str_has_prefix (line->fact, "–"));
          }
        g_assert_cmpuint (words->whys->len, ==, 1);
        sentence (words->whys->pdata[0]);
        sentence (words->learned);
        g_assert_cmpint (strstr (words->learned, "stays as it is") != NULL, ==, !report.has_learned);
      }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/morning-words/all", test_all);
  return g_test_run ();
}
