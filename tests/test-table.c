/* The reader of check tables must refuse what it would otherwise skip. */
#include "table.h"

#include <math.h>

#define HEAD "# Source: none. Unit: 1. Tolerance: none.\n"

typedef struct
{
  const char *name;
  const char *text;
  const char *says;
} Bad;

static const Bad bad[] = {
  { "too-few-cells", HEAD "a,b\n1,2\n3\n", "t.csv:4: 1 cells under 2 names" },
  { "too-many-cells", HEAD "a,b\n1,2,3\n", "t.csv:3: 3 cells under 2 names" },
  { "gap", HEAD "a,b\n1,2\n\n3,4\n", "t.csv:4: empty line, quote, tab or carriage return" },
  { "quote", HEAD "a,b\n\"1\",2\n", "t.csv:3: empty line, quote, tab or carriage return" },
  { "no-rows", HEAD "a,b\n", "t.csv: no row" },
  { "nothing", "", "t.csv: the opening lines do not name the source" },
  { "no-tolerance", "# Source, unit\na\n1\n", "t.csv: the opening lines do not name the tolerance" },
  { "source-too-late", "# Unit, tolerance\na\n# source\n1\n",
    "t.csv: the opening lines do not name the source" },
  { "nameless-column", HEAD "a,\n1,2\n", "t.csv:2: a column without a name, or named twice" },
  { "column-twice", HEAD "a,a\n1,2\n", "t.csv:2: a column without a name, or named twice" },
};

static void
test_bad (gconstpointer data)
{
  const Bad *b = data;
  g_autofree char *problem = NULL;
  g_autoptr (GPtrArray) rows = test_table_parse ("t.csv", b->text, &problem);

  g_assert_null (rows);
  g_assert_cmpstr (problem, ==, b->says);
}

static void
test_good (void)
{
  g_autofree char *problem = NULL;
  g_autoptr (GPtrArray) rows
      = test_table_parse ("t.csv", HEAD "a, b,c\n1,-2.5e1,x y\n# remark\n,3,z\n", &problem);
  const TestRow *row;

  g_assert_null (problem);
  g_assert_cmpuint (rows->len, ==, 2);
  row = g_ptr_array_index (rows, 0);
  g_assert_cmpuint (row->line, ==, 3);
  g_assert_cmpfloat (test_row_number (row, "b"), ==, -25);
  g_assert_cmpstr (test_row_text (row, "c"), ==, "x y");
  row = g_ptr_array_index (rows, 1);
  g_assert_cmpuint (row->line, ==, 5);
  g_assert_true (isnan (test_row_number_or_nan (row, "a")));
}

static void
test_stops (gconstpointer data)
{
  if (g_test_subprocess ())
    {
      g_autofree char *problem = NULL;
      g_autoptr (GPtrArray) rows = test_table_parse ("t.csv", HEAD "a,b\n,1x\n", &problem);

      test_row_number (g_ptr_array_index (rows, 0), data);
      return;
    }
  g_test_trap_subprocess (NULL, 0, 0);
  g_test_trap_assert_failed ();
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autofree char *path = g_strdup_printf ("/table/refuses/%s", bad[i].name);

      g_test_add_data_func (path, &bad[i], test_bad);
    }
  g_test_add_func ("/table/reads", test_good);
  g_test_add_data_func ("/table/stops/empty-cell", "a", test_stops);
  g_test_add_data_func ("/table/stops/no-number", "b", test_stops);
  g_test_add_data_func ("/table/stops/no-column", "d", test_stops);
  return g_test_run ();
}
