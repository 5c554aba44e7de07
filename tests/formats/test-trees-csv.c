/* Tables in and out. Quoting follows RFC 4180, whose own examples (section 2) are among the rows; sentences
 * for what must not come in are kept word for word. */
#include "formats/trees-csv.h"
#include "random-bush.h"

#include <math.h>
#include <string.h>

/* --- rows and cells --- */

static const struct
{
  const char *name;
  const char *text;
  const char *cells; /* cells joined by |, rows by / */
} tables[] = {
  { "rfc-2.1", "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", "aaa|bbb|ccc/zzz|yyy|xxx" },
  { "rfc-2.2", "aaa,bbb,ccc\r\nzzz,yyy,xxx", "aaa|bbb|ccc/zzz|yyy|xxx" },
  { "rfc-2.4", "aaa,bbb , ccc", "aaa|bbb | ccc" },
  { "rfc-2.5", "\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx", "aaa|bbb|ccc/zzz|yyy|xxx" },
  { "rfc-2.6", "\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx", "aaa|b\r\nbb|ccc/zzz|yyy|xxx" },
  { "rfc-2.7", "\"aaa\",\"b\"\"bb\",\"ccc\"", "aaa|b\"bb|ccc" },
  { "line-feed", "a,b\nc,d\n", "a|b/c|d" },
  { "semicolon", "a;b;c,d\n1;2;3,4\n", "a|b|c,d/1|2|3,4" },
  { "tab", "a\tb\n1\t2\n", "a|b/1|2" },
  { "mark",
    "\xEF\xBB\xBF"
    "a,b\n",
    "a|b" },
  { "quoted-separator", "\"a;b;c\",d\n1,2", "a;b;c|d/1|2" },
  { "blank-rows", "\n a,b\n,\n  \n1,2\n\n", " a|b/1|2" },
  { "empty-cells", ",a,\n\"\",,x\n", "|a|/||x" },
  { "one-column", "a\n1\n", "a/1" },
  { "return-within", "a,b\rc\n", "a|b\rc" },
  { "nothing", "", "" },
};

static void
test_table (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) rows = fr_csv_read (tables[i].text, strlen (tables[i].text), &error);
  g_autoptr (GString) seen = g_string_new (NULL);

  g_assert_no_error (error);
  for (guint k = 0; k < rows->len; k++)
    {
      const FrCsvRow *row = rows->pdata[k];

      for (guint c = 0; c < row->cells->len; c++)
        g_string_append_printf (seen, "%s%s", c > 0 ? "|" : k > 0 ? "/" : "", (char *)row->cells->pdata[c]);
    }
  g_assert_cmpstr (seen->str, ==, tables[i].cells);
}

/* Whatever is written reads back, cell by cell. */
static void
test_random_cells (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (7);

  for (guint i = 0; i < 2000; i++)
    {
      g_autoptr (GString) text = g_string_new (NULL);
      g_autoptr (GPtrArray) cells = g_ptr_array_new_with_free_func (g_free);
      g_autoptr (GPtrArray) rows = NULL;
      const FrCsvRow *row;

      for (gint n = g_rand_int_range (random, 2, 6); n > 0; n--)
        g_ptr_array_add (cells, random_text (random, 50));
      fr_csv_append_row (text, (const char *const *)cells->pdata, cells->len);
      rows = fr_csv_read (text->str, text->len, NULL);
      g_assert_nonnull (rows);
      g_assert_cmpuint (rows->len, ==, 1);
      row = rows->pdata[0];
      g_assert_cmpuint (row->cells->len, ==, cells->len);
      for (guint k = 0; k < cells->len; k++)
        g_assert_cmpstr (row->cells->pdata[k], ==, cells->pdata[k]);
    }
}

static void
test_guard (void)
{
  static const char *const pairs[][2]
      = { { "=1+1", "'=1+1" }, { "+1", "'+1" },   { "-x", "'-x" },   { "@SUM(A1)", "'@SUM(A1)" },
          { "\tx", "'\tx" },   { "\rx", "'\rx" }, { "'=x", "''=x" }, { "''=x", "'''=x" },
          { "'tis", "'tis" },  { "'", "'" },      { "a=b", "a=b" },  { "  ", "'  " },
          { "", "" },          { "12", "12" },
          { "\n=1", "'\n=1" }, { "＝1", "'＝1" }, { "'＠A", "''＠A" }, { "é=1", "é=1" } };
  g_autoptr (GRand) random = g_rand_new_with_seed (8);

  for (guint i = 0; i < G_N_ELEMENTS (pairs); i++)
    {
      g_autofree char *guarded = fr_csv_guard (pairs[i][0]), *back = fr_csv_unguard (guarded);

      g_assert_cmpstr (guarded, ==, pairs[i][1]);
      g_assert_cmpstr (back, ==, pairs[i][0]);
    }
  for (guint i = 0; i < 5000; i++)
    {
      g_autofree char *text = random_text (random, 30), *guarded = fr_csv_guard (text),
                      *back = fr_csv_unguard (guarded);

      g_assert_cmpstr (back, ==, text);
      g_assert_null (strchr ("=+-@\t\r\n", guarded[0]));
    }
}

/* --- trees --- */

static FrArrivals *
read_text (const char *text)
{
  g_autoptr (GError) error = NULL;
  FrArrivals *arrivals = fr_trees_csv_read (text, strlen (text), &error);

  g_assert_no_error (error);
  return arrivals;
}

/* A table by hand: no record column, other columns, in any order, semicolons. */
static void
test_by_hand (void)
{
  g_autoptr (FrArrivals) arrivals = read_text ("Name;Colour;girth_cm;x_m;Y_M;wires;species\n"
                                               " A1 ;=red;142.04;1.5;-2;yes;Red\n"
                                               "A2;;;;;;\n");
  g_autoptr (RandomBush) bush = random_bush_new_empty ();
  g_autoptr (FrChange) change = random_bush_import (bush, arrivals, FALSE, FALSE);
  g_autoptr (FrChange) second = random_bush_import (bush, arrivals, FALSE, FALSE);
  const FrTree *one = bush->trees->pdata[0], *two = bush->trees->pdata[1];
  const FrGirth *girth = bush->girths->pdata[0];
  g_autofree char *out = fr_trees_csv_write (&bush->book);

  g_assert_true (fr_change_is_empty (second));
  g_assert_cmpuint (bush->trees->len, ==, 2);
  g_assert_cmpstr (one->name, ==, "A1");
  g_assert_cmpstr (one->species, ==, "red");
  g_assert_true (one->wires);
  g_assert_cmpfloat (one->x_m.value, ==, 1.5);
  g_assert_cmpfloat (one->y_m.value, ==, -2);
  g_assert_cmpstr (one->foreign_data, ==, "{\"csv\":{\"Colour\":\"=red\"}}");
  g_assert_true (isnan (two->x_m.value));
  g_assert_cmpuint (bush->girths->len, ==, 1);
  g_assert_cmpfloat (girth->size_m.value, ==, 1.4204);
  g_assert_cmpstr (girth->measured_on, ==, "2026-03-19");
  g_assert_nonnull (strstr (out, ",142.04,"));
  g_assert_nonnull (strstr (out, ",'=red\r\n"));
  g_assert_cmpuint (arrivals->remarks->len, ==, 1);
}

/* A table of girths alone speaks of trees that are in the book. */
static void
test_history_alone (void)
{
  g_autoptr (FrArrivals) trees = read_text ("name,x_m,y_m\nA1,0,0\n");
  g_autoptr (FrArrivals) girths = read_text ("record,tree,measured_on,girth_cm,season,set_on,depth_mm\n"
                                             "girth,A1,2024-10-01,120,,,\n"
                                             "tap,A1,,,2025,2025-02-20,38\n"
                                             "girth,B7,2024-10-01,120,,,\n");
  g_autoptr (RandomBush) bush = random_bush_new_empty ();
  g_autoptr (FrChange) first = random_bush_import (bush, trees, FALSE, FALSE);
  g_autoptr (FrChange) second = random_bush_import (bush, girths, FALSE, FALSE);
  g_autoptr (FrChange) third = random_bush_import (bush, girths, FALSE, FALSE);

  g_assert_cmpuint (bush->trees->len, ==, 1);
  g_assert_cmpuint (bush->girths->len, ==, 1);
  g_assert_cmpuint (bush->taps->len, ==, 1);
  g_assert_cmpfloat (((FrTap *)bush->taps->pdata[0])->depth_m.value, ==, 0.038);
  g_assert_true (fr_change_is_empty (third));
}

/* --- what must not come in --- */

static const struct
{
  const char *name;
  const char *text;
  const char *sentence;
} rows[] = {
  { "empty", "", "line 1: the file is empty" },
  { "prose", "To whom it may concern",
    "line 1: the file is neither GPX nor GeoJSON, and no table of trees: its first row "
    "has no column called name, nor x_m and y_m, nor lat_deg and lon_deg" },
  { "latin-1", "name\nA\n\xe9rable\n",
    "line 3: the file is not text in UTF-8. Save it in UTF-8 and try again" },
  { "column-twice", "name,Name\nA,B\n", "line 1: the column “name” stands twice" },
  { "open-quote", "name\n\"A\nB\n", "line 2: this quoted cell is not closed" },
  { "late-quote", "name\nA\"B\n", "line 2: a quote stands within a cell that does not begin with one" },
  { "text-after-quote", "name\n\"A\"B\n",
    "line 2: a closing quote is followed by more text; quotes within a cell are doubled" },
  { "too-many-cells", "name\nA,B\n", "line 2: the row has 2 cells, the first row 1" },
  { "decimal-comma", "name;x_m;y_m\nA;1,5;2\n",
    "line 2: x_m is “1,5”, which is no number; decimals are written with a point" },
  { "nan", "name,x_m,y_m\nA,nan,2\n", "line 2: x_m is “nan”, which is no number" },
  { "infinite", "name,x_m,y_m\nA,1e999,2\n", "line 2: x_m is “1e999”, which is no number" },
  { "hex", "name,x_m,y_m\nA,0x10,2\n", "line 2: x_m is “0x10”, which is no number" },
  { "unit", "name,girth_cm\nA,150 cm\n", "line 2: girth_cm is “150 cm”, which is no number" },
  { "swapped", "name,lat_deg,lon_deg\nA,95,44\n",
    "line 2: lat_deg is 95; it goes from −90 to 90. Are latitude and longitude swapped?" },
  { "lon", "name,lat_deg,lon_deg\nA,5,181\n", "line 2: lon_deg is 181; it goes from −180 to 180" },
  { "code", "name,health\nA,fine\n",
    "line 2: health is “fine”; it must be one of unknown, healthy, weak, failing, dead" },
  { "yes", "name,wires\nA,perhaps\n", "line 2: wires is “perhaps”; it must be yes or no" },
  { "record", "record,name\nshrub,A\n", "line 2: record is “shrub”; it must be tree, girth, tap or yield" },
  { "no-tree", "record,tree,girth_cm\ngirth,,120\n",
    "line 2: the column tree must name the tree that this girth belongs to" },
  { "tree-of-tree", "record,tree,name\ntree,B,A\n",
    "line 2: a tree belongs to no other tree: the column tree must be empty in its row" },
  { "wrong-row", "record,tree,name,depth_mm\ntree,,A,38\n", "line 2: a tree has no depth_mm" },
  { "wrong-event", "record,tree,name,depth_mm\ngirth,A,,38\n", "line 2: a girth has no “depth_mm”" },
  { "two-sizes", "name,girth_cm,diameter_cm\nA,120,40\n",
    "line 2: a row has girth_cm or diameter_cm, not both" },
  { "no-size", "name,measured_on\nA,2024-10-01\n",
    "line 2: measured_on stands without girth_cm or diameter_cm" },
  { "uid", "name,uid\nA,7\n", "line 2: uid must be 32 digits 0 to 9 and a to f" },
  { "no-column", "name,\nA,B\n", "line 2: a cell has no column: the first row ends before it" },
};

static void
refused (const char *text, gsize length, const char *sentence)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (fr_trees_csv_read (text, length, &error));
  g_assert_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG);
  if (strcmp (error->message, sentence) != 0)
    g_test_fail_printf ("got %s, wanted %s", error->message, sentence);
}

static void
test_row (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);

  refused (rows[i].text, strlen (rows[i].text), rows[i].sentence);
}

static char *
repeated (const char *before, const char *what, guint n)
{
  GString *text = g_string_new (before);

  for (guint i = 0; i < n; i++)
    g_string_append (text, what);
  return g_string_free (text, FALSE);
}

static void
test_limits (void)
{
  g_autofree char *rows_text
      = repeated ("name\n", "x\n", FR_CSV_ROWS_MAX + 1),
      *columns = repeated ("name", ",x", FR_CSV_COLUMNS_MAX + 1),
      *cells = repeated ("name\n",
                         ",,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,\n",
                         FR_CSV_CELLS_MAX / 70),
      *name = repeated ("name\n", "xxxxxxxxxx", 1024 * 1024);

  refused (rows_text, strlen (rows_text), "line 200001: the file has more than 200000 rows");
  refused (columns, strlen (columns), "line 1: the row has more than 500 cells");
  refused (cells, strlen (cells), "line 50634: the file has more than 4000000 cells");
  refused (name, strlen (name), "line 2: name has 10485760 characters; it may have 120");
}

static void
test_many_trees (void)
{
  g_autofree char *text = repeated ("name\n", "x\n", 100000);

  refused (text, strlen (text), "line 20002: the file has more than 20000 trees");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (tables); i++)
    {
      g_autofree char *path = g_strdup_printf ("/csv/table/%s", tables[i].name);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_table);
    }
  g_test_add_func ("/csv/random-cells", test_random_cells);
  g_test_add_func ("/csv/guard", test_guard);
  g_test_add_func ("/trees-csv/by-hand", test_by_hand);
  g_test_add_func ("/trees-csv/history-alone", test_history_alone);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *path = g_strdup_printf ("/trees-csv/refused/%s", rows[i].name);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_row);
    }
  g_test_add_func ("/trees-csv/refused/limits", test_limits);
  g_test_add_func ("/trees-csv/refused/many-trees", test_many_trees);
  return g_test_run ();
}
