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
  const FrKeepingTable custom = table_of (FR_KEEPING_CUSTOM_TEXT), published = table_of (FR_KEEPING_PUBLISHED_TEXT);

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
                { "1 20\n2 19\n3 18\n4 17\n5 16\n6 15\n7 14\n8 13\n9 12\n10 11\n11 10\n12 9\n13 8\n14 7\n15 6\n16 5\n17 4",
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

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sap-keeping/table", test_table);
  g_test_add_func ("/sap-keeping/bad-lines", test_bad_lines);
  return found_run ();
}
