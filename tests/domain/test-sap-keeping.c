/* Keeping against cases worked out by hand and against a sum minute by minute. */
#include "domain/maths/sap-keeping.h"

#include "found.h"

static FrKeepingTable
table_of (const char *text)
{
  FrKeepingTable table;
  guint line;

  g_assert_true (fr_keeping_table_parse (text, &table, &line));
  return table;
}

static void
test_table (void)
{
  /* Common practice, no source: 72 h to 2 °C, 48 to 4, 24 to 10, 12 above. */
  const FrKeepingTable custom = table_of (FR_KEEPING_CUSTOM_TEXT),
                       published = table_of (FR_KEEPING_PUBLISHED_TEXT);

  g_assert_cmpfloat (fr_keeping_allowed_h (&custom, -3), ==, 72);
  g_assert_cmpfloat (fr_keeping_allowed_h (&custom, 2), ==, 72);
  g_assert_cmpfloat (fr_keeping_allowed_h (&custom, 2.01), ==, 48);
  g_assert_cmpfloat (fr_keeping_allowed_h (&custom, 4), ==, 48);
  g_assert_cmpfloat (fr_keeping_allowed_h (&custom, 7), ==, 24);
  g_assert_cmpfloat (fr_keeping_allowed_h (&custom, 10.5), ==, 12);
  g_assert_true (isnan (fr_keeping_allowed_h (&custom, NAN)));
  g_assert_cmpfloat (fr_keeping_allowed_h (&published, 3), ==, 7 * 24);
  g_assert_true (isnan (fr_keeping_allowed_h (&published, 3.1)));
}

static void
test_bad_lines (void)
{
  const struct
  {
    const char *text;
    guint line;
  } cases[] = { { "", 0 },
                { "# only words\n\n", 0 },
                { "2", 1 },
                { "2 72 1", 1 },
                { "2 0", 1 },
                { "2 72\nfour 48", 2 },
                { "2 72\n\n2 48", 3 },
                { "2 72\n1 48", 2 },
                { "2 48\n4 72", 2 },
                { "> 12\n20 6", 2 },
                { "2 72\n> 12\n> 6", 3 },
                { "2 1,500", 1 },
                { "1 20\n2 19\n3 18\n4 17\n5 16\n6 15\n7 14\n8 13\n9 12\n10 11\n11 10\n12 9\n13 8\n14 7\n15 "
                  "6\n16 5\n17 4",
                  17 } };
  FrKeepingTable table;
  guint line;

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_assert_false (fr_keeping_table_parse (cases[i].text, &table, &line));
      g_assert_cmpuint (line, ==, cases[i].line);
    }
  g_assert_false (fr_keeping_table_parse (NULL, &table, &line));
  g_assert_true (fr_keeping_table_parse ("# freezer\r\n-1,5 200\r\n\r\n 4\t48.5 \r\n>12", &table, &line));
  g_assert_cmpuint (table.n_rows, ==, 3);
  g_assert_cmpfloat (table.rows[0].up_to_c, ==, -1.5);
  g_assert_cmpfloat (table.rows[1].allowed_h, ==, 48.5);
  g_assert_true (isinf (table.rows[2].up_to_c));
}

static GArray *
trace_of (const FrSapBodyMoment *moments, guint n)
{
  GArray *trace = g_array_new (FALSE, FALSE, sizeof (FrSapBodyMoment));

  return g_array_append_vals (trace, moments, n);
}

#define HOUR 3600

/* By hand, custom table. 24 h at 3 °C are half of 48. From 0 to 12 °C in 12 h: 2/72 + 2/48 + 6/24 + 2/12; as
 * much on the way back. With half used before, 0.013889 is left after it, ten minutes at 12 °C. */
static void
test_by_hand (void)
{
  const FrKeepingTable custom = table_of (FR_KEEPING_CUSTOM_TEXT);
  const FrSapBodyMoment still[] = { { 0, 3, 0 }, { 24 * HOUR, 3, 0 } };
  const FrSapBodyMoment climb[] = { { 5, 0, 0 }, { 5 + 12 * HOUR, 12, 0 } };
  const FrSapBodyMoment falls[] = { { 5, 12, 0 }, { 5 + 12 * HOUR, 0, 0 } };
  const FrSapBodyMoment steps[] = { { 0, 2, 0 }, { 6 * HOUR, 2, 0 }, { 6 * HOUR, 8, 0 }, { 9 * HOUR, 8, 0 } };
  const double half = 2.0 / 72 + 2.0 / 48 + 6.0 / 24 + 2.0 / 12;
  g_autoptr (GArray) a = trace_of (still, 2);
  g_autoptr (GArray) b = trace_of (climb, 2);
  g_autoptr (GArray) c = trace_of (falls, 2);
  g_autoptr (GArray) d = trace_of (steps, 4);
  gint64 utc;

  found_near ("used up, by hand", fr_keeping_used_ratio (&custom, a, NAN), 0.5, 1e-12);
  found_near ("used up, by hand", fr_keeping_used_ratio (&custom, b, NAN), half, 1e-12);
  found_near ("used up, by hand", fr_keeping_used_ratio (&custom, c, NAN), half, 1e-12);
  found_near ("used up, by hand", fr_keeping_used_ratio (&custom, d, NAN), 6.0 / 72 + 3.0 / 24, 1e-12);
  g_assert_true (fr_keeping_spoils_utc (&custom, 0.5, b, NAN, &utc));
  found_near ("used up when, by hand, s", (double)utc, 5 + 12 * HOUR + 600, 1);
  g_assert_true (fr_keeping_spoils_utc (&custom, 0.5, c, NAN, &utc)); /* the rest at 0 °C: one hour of 72 */
  found_near ("used up when, by hand, s", (double)utc, 5 + 13 * HOUR, 1);
  /* 0.8 used: falling, 2 h take 1/6, and 0.03333 of 24 h are 48 min more; climbing, 4 h take 0.0694, then
   * 0.1306 × 24 h. */
  g_assert_true (fr_keeping_spoils_utc (&custom, 0.8, c, NAN, &utc));
  found_near ("used up when, by hand, s", (double)utc, 5 + 2 * HOUR + 48 * 60, 1);
  g_assert_true (fr_keeping_spoils_utc (&custom, 0.8, b, NAN, &utc));
  found_near ("used up when, by hand, s", (double)utc, 5 + 4 * HOUR + (0.2 - 2.0 / 72 - 2.0 / 48) * 24 * HOUR,
              1);
  g_assert_true (fr_keeping_spoils_utc (&custom, 1.2, b, NAN, &utc));
  g_assert_cmpint (utc, ==, 5);
  /* More than all of it is told as such. */
  g_array_set_size (a, 1);
  g_array_append_vals (a, &(FrSapBodyMoment){ 96 * HOUR, 3, 0 }, 1);
  found_near ("used up, by hand", fr_keeping_used_ratio (&custom, a, NAN), 2, 1e-12);
}

static void
test_unknown (void)
{
  const FrKeepingTable custom = table_of (FR_KEEPING_CUSTOM_TEXT),
                       published = table_of (FR_KEEPING_PUBLISHED_TEXT);
  const FrSapBodyMoment moments[]
      = { { 0, 1, 0 }, { 9 * HOUR, 1, 0 }, { 10 * HOUR, NAN, NAN }, { 12 * HOUR, 4, 0 } };
  g_autoptr (GArray) trace = trace_of (moments, 4);
  g_autoptr (GArray) start = trace_of (moments, 3);
  gint64 utc = -1;

  g_assert_true (isnan (fr_keeping_used_ratio (&custom, trace, NAN)));
  found_near ("unknown taken as 8 °C, by hand", fr_keeping_used_ratio (&custom, trace, 8),
              9.0 / 72 + 3.0 / 24, 1e-12);
  g_assert_false (fr_keeping_spoils_utc (&custom, 0.5, trace, NAN, &utc));
  g_assert_false (fr_keeping_spoils_utc (&custom, NAN, trace, 8, &utc));
  g_assert_cmpint (utc, ==, -1);
  /* Used up before it is unknown. */
  g_assert_true (fr_keeping_spoils_utc (&custom, 0.9, trace, NAN, &utc));
  found_near ("used up when, s", (double)utc, 0.1 * 72 * HOUR, 1);
  /* Unknown at the end, and taken as 8 °C: 9/72 and 1/24 gone, the rest at 24 h. */
  g_assert_true (fr_keeping_spoils_utc (&custom, 0, start, 8, &utc));
  found_near ("used up when, s", (double)utc, 10 * HOUR + (1 - 9.0 / 72 - 1.0 / 24) * 24 * HOUR, 1);
  /* The published table says nothing of 4 °C. */
  g_assert_true (isnan (fr_keeping_used_ratio (&published, trace, 4)));
  found_near ("as the published table has it, by hand", fr_keeping_used_ratio (&published, start, 2),
              10.0 / 168, 1e-12);
  g_assert_false (fr_keeping_spoils_utc (&published, 0, trace, 4, &utc));
  g_array_set_size (start, 1);
  g_assert_true (fr_keeping_spoils_utc (&published, 0, start, NAN, &utc));
  found_near ("seven days, s", (double)utc, 7 * 24 * HOUR, 1);
  g_array_set_size (start, 0);
  found_near ("no time, nothing used", fr_keeping_used_ratio (&published, start, NAN), 0, 0);
}

/* Sums over short pieces of 300 random traces and tables, each piece by a look-up written apart. */
static double
apart_h (const double *up_to_c, const double *hours, guint n, double temp_c)
{
  for (guint i = 0; i < n; i++)
    if (temp_c <= up_to_c[i])
      return hours[i];
  return hours[n];
}

static void
test_minutes (void)
{
  enum
  {
    PIECE_S = 10
  };
  g_autoptr (GRand) rand = g_rand_new_with_seed (21);

  for (guint k = 0; k < 300; k++)
    {
      g_autoptr (GArray) trace = trace_of (NULL, 0);
      g_autoptr (GString) text = g_string_new (NULL);
      double up_to_c[5], hours[6], used = 0, before = g_rand_double (rand) * 0.5, last_c;
      guint n = (guint)g_rand_int_range (rand, 1, 6);
      gint64 utc = 1000, spoils = 0, told = 0;
      FrKeepingTable table;

      for (guint i = 0; i <= n; i++)
        {
          hours[i] = i == 0 ? g_rand_int_range (rand, 60, 200)
                            : MAX (1, floor (hours[i - 1] * g_rand_double_range (rand, 0.4, 1)));
          if (i < n)
            {
              up_to_c[i]
                  = i == 0 ? g_rand_int_range (rand, -3, 4) : up_to_c[i - 1] + g_rand_int_range (rand, 1, 5);
              g_string_append_printf (text, "%d %d\n", (gint)up_to_c[i], (gint)hours[i]);
            }
          else
            g_string_append_printf (text, ">%d", (gint)hours[i]);
        }
      table = table_of (text->str);
      for (guint i = 0; i < 40; i++)
        {
          FrSapBodyMoment moment = { utc, g_rand_double_range (rand, -6, 16), 0 };

          if (i > 0 && g_rand_int_range (rand, 0, 5) == 0)
            moment.temp_c = g_array_index (trace, FrSapBodyMoment, i - 1).temp_c;
          g_array_append_val (trace, moment);
          if (g_rand_int_range (rand, 0, 8) > 0)
            utc += PIECE_S * g_rand_int_range (rand, 1, 1000);
        }
      for (guint i = 1; i < trace->len; i++)
        {
          const FrSapBodyMoment *a = &g_array_index (trace, FrSapBodyMoment, i - 1), *b = a + 1;

          for (gint64 t = a->utc_s; t < b->utc_s; t += PIECE_S)
            {
              double share = ((double)(t - a->utc_s) + PIECE_S / 2.0) / (double)(b->utc_s - a->utc_s);

              used += PIECE_S / 3600.0
                      / apart_h (up_to_c, hours, n, a->temp_c + share * (b->temp_c - a->temp_c));
              if (spoils == 0 && before + used >= 1)
                spoils = t + PIECE_S;
            }
        }
      last_c = g_array_index (trace, FrSapBodyMoment, trace->len - 1).temp_c;
      if (spoils == 0)
        spoils = g_array_index (trace, FrSapBodyMoment, trace->len - 1).utc_s
                 + (gint64)((1 - before - used) * 3600 * apart_h (up_to_c, hours, n, last_c));
      found_near ("used up, against a sum of ten seconds each", fr_keeping_used_ratio (&table, trace, NAN),
                  used, 1e-3);
      g_assert_true (fr_keeping_spoils_utc (&table, before, trace, NAN, &told));
      found_near ("used up when, against that sum, s", (double)told, (double)spoils, 60);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sap-keeping/table", test_table);
  g_test_add_func ("/sap-keeping/bad-lines", test_bad_lines);
  g_test_add_func ("/sap-keeping/by-hand", test_by_hand);
  g_test_add_func ("/sap-keeping/unknown", test_unknown);
  g_test_add_func ("/sap-keeping/minutes", test_minutes);
  return found_run ();
}
