/* import and export as a script would run them, on books of their own. Whatever is refused leaves the book's
 * bytes as they were. */
#include "books.h"
#include "spawn.h"

#include "domain/records/kinds.h"
#include "store/store.h"

#include <gio/gio.h>
#include <string.h>
#include <unistd.h>

#define HEAD "<gpx version=\"1.1\" creator=\"x\" xmlns=\"http://www.topografix.com/GPX/1/1\">"

static char *folder, *book;

/* A new book without anything in it. */
static void
setup (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (FrStore) store = NULL;

  folder = make_folder ();
  book = g_build_filename (folder, "book.frostrun", NULL);
  store = fr_store_open (book, TRUE, &error);
  g_assert_no_error (error);
}

static void
teardown (void)
{
  g_clear_pointer (&folder, drop_folder);
  g_clear_pointer (&book, g_free);
}

static guint
n_trees (void)
{
  g_autoptr (FrStore) store = fr_store_open (book, FALSE, NULL);
  g_autoptr (GPtrArray) trees = fr_store_load (store, FR_KIND_TREE, NULL);

  return trees->len;
}

static char *
fixture (const char *name)
{
  return g_test_build_filename (G_TEST_DIST, "fixtures", name, NULL);
}

/* --- import --- */

static void
test_import (void)
{
  g_autofree char *sample = fixture ("sample.gpx");
  g_autofree char *before = bytes_of (book);

  {
    g_auto (Answer) dry = run ("import %s --book %s --dry-run", NULL, sample, book);
    g_autofree char *after = bytes_of (book);

    g_assert_cmpint (dry.code, ==, 0);
    g_assert_cmpstr (before, ==, after);
    g_assert_cmpstr (
        dry.out, ==,
        "1 new.\n"
        "The middle of the trees, 44.26010° N, 72.58020° W, becomes the plan’s zero.\n"
        "Paths in the file: 1.\n"
        "Nothing is written: this is a dry run.\n"
        "\n"
        "  T01 (line 4): New, 0 m east and 0 m north on the plan. The file does not say its species.\n");
  }
  {
    g_auto (Answer) first = run ("import %s --book %s --json", NULL, sample, book);

    g_assert_cmpstr (answer_string (&first, "kind"), ==, "gpx");
    g_assert_cmpfloat (answer_number (&first, "new"), ==, 1);
    g_assert_cmpstr (answer_string (&first, "trees/0/fate"), ==, "new");
    g_assert_cmpstr (answer_string (&first, "tie/how"), ==, "middle");
    g_assert_cmpuint (n_trees (), ==, 1);
  }
  {
    g_autofree char *once = bytes_of (book);
    g_auto (Answer) second = run ("import %s --book %s --json", NULL, sample, book);
    g_autofree char *twice = bytes_of (book);

    g_assert_cmpfloat (answer_number (&second, "same"), ==, 1);
    g_assert_cmpstr (answer_string (&second, "trees/0/by"), ==, "name");
    g_assert_cmpstr (once, ==, twice);
  }
}

/* The diary has one step, from an import, that names the file; its inverse is an empty book again. */
static void
test_one_step (void)
{
  g_autofree char *full = fixture ("full.geojson");
  g_auto (Answer) first = run ("import %s --book %s", NULL, full, book);
  g_autoptr (FrStore) store = fr_store_open (book, FALSE, NULL);
  g_autoptr (GPtrArray) diary = fr_store_diary (store, 10, NULL);
  const FrDiaryRow *row = diary->pdata[0];

  g_assert_cmpint (first.code, ==, 0);
  g_assert_cmpuint (diary->len, ==, 1);
  g_assert_cmpstr (row->label, ==, "import-trees");
  g_assert_cmpstr (row->subject, ==, "full.geojson");
  g_assert_cmpstr (row->origin, ==, "import");
  g_assert_cmpuint (n_trees (), ==, 4);
}

/* The kind shows in what is in a file, not in its name; standard input has none. */
static void
test_kinds (void)
{
  static const char *const inputs[][2]
      = { { "gpx", "\xEF\xBB\xBF" HEAD "<wpt lat=\"44\" lon=\"-72\"><name>A</name></wpt></gpx>" },
          { "geojson", "{\"type\":\"Feature\",\"geometry\":null,\"properties\":{\"name\":\"B\"}}" },
          { "trees-csv", "name,girth_cm\nC,120\n" } };

  for (guint i = 0; i < G_N_ELEMENTS (inputs); i++)
    {
      g_auto (Answer) answer = run ("import - --book %s --json", inputs[i][1], book);

      g_assert_cmpstr (answer_string (&answer, "kind"), ==, inputs[i][0]);
    }
  g_assert_cmpuint (n_trees (), ==, 3);
}

static void
test_options (void)
{
  const char *file = HEAD "<wpt lat=\"44\" lon=\"-72\"><name>A</name></wpt>"
                          "<wpt lat=\"44.00002\" lon=\"-72\"/></gpx>";
  g_auto (Answer) first = run ("import - --book %s --species red", file, book);
  g_autoptr (FrStore) store = fr_store_open (book, FALSE, NULL);
  g_autoptr (GPtrArray) trees = fr_store_load (store, FR_KIND_TREE, NULL);

  g_assert_cmpint (first.code, ==, 0);
  g_assert_cmpuint (trees->len, ==, 2);
  g_assert_cmpstr (((FrTree *)trees->pdata[0])->species, ==, "red");
}

/* --- what is refused --- */

static void
test_refused (void)
{
  static const struct
  {
    const char *input;
    gssize length;
    const char *sentence;
  } cases[] = {
    { "", 0, "the file is empty" },
    { " \n", -1, "the file is empty" },
    { "\xFF\xFE<\0g\0", 6,
      "line 1: the file is text in UTF-16; only UTF-8 is read. Save it in UTF-8 and try again" },
    { "<\0g\0p\0x\0", 8, "line 1: the file is no text, or text in UTF-16; only UTF-8 is read" },
    { "<!DOCTYPE gpx [<!ENTITY a \"b\">]><gpx/>", -1,
      "line 1: the file declares a document type or entities; GPX has neither" },
    { HEAD "<wpt lat=\"95\" lon=\"44\"/></gpx>", -1,
      "line 1: lat is 95; latitude goes from −90 to 90. Are the two swapped?" },
    { "{\"type\":\"FeatureCollection\"}", -1, "the FeatureCollection has no list of features" },
    { "name,x_m,y_m\nA,nan,1\n", -1, "line 2: x_m is “nan”, which is no number" },
    { "maple", -1,
      "line 1: the file is neither GPX nor GeoJSON, and no table of trees: its first row has no column "
      "called name, nor "
      "x_m and y_m, nor lat_deg and lon_deg" },
  };
  g_autofree char *before = bytes_of (book);

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *arguments = g_strdup_printf ("import - --book %s", book),
                      *wanted = g_strdup_printf ("frostrun-cli: standard input: %s\n", cases[i].sentence);
      g_auto (Answer) answer = cli_run (arguments, cases[i].input, cases[i].length);

      g_assert_cmpstr (answer.err, ==, wanted);
      g_assert_cmpstr (answer.out, ==, "");
      g_assert_cmpint (answer.code, ==, 1);
    }
  {
    g_autofree char *after = bytes_of (book);

    g_assert_cmpstr (before, ==, after);
  }
}

static void
test_untied (void)
{
  g_auto (Answer) drawn = run ("import - --book %s", "name,x_m,y_m\nA,0,0\n", book);
  g_autofree char *before = bytes_of (book);
  g_auto (Answer) other
      = run ("import - --book %s", HEAD "<wpt lat=\"44\" lon=\"-72\"><name>B</name></wpt></gpx>", book);
  g_autofree char *after = bytes_of (book);
  g_auto (Answer) out = run ("export --format gpx --book %s", NULL, book);
  g_auto (Answer) named = run ("import - --book %s",
                               HEAD "<wpt lat=\"44\" lon=\"-72\"><name>A</name></wpt>"
                                    "<wpt lat=\"44.0001\" lon=\"-72\"><name>B</name></wpt></gpx>",
                               book);

  g_assert_cmpint (drawn.code, ==, 0);
  g_assert_cmpint (other.code, ==, 1);
  g_assert_cmpstr (
      other.err, ==,
      "frostrun-cli: standard input: The plan is drawn already, but not tied to the earth, and no tree of "
      "the file has the name of one on it. Name one alike in both, or give the latitude and longitude of "
      "one point of the plan.\n");
  g_assert_cmpstr (before, ==, after);
  g_assert_cmpint (out.code, ==, 2);
  g_assert_cmpint (named.code, ==, 0);
  g_assert_nonnull (strstr (named.out, "The plan is laid on the earth by 1 tree of the same name"));
  g_assert_cmpuint (n_trees (), ==, 2);
}

static void
test_arguments (void)
{
  static const struct
  {
    const char *arguments;
    int code;
    const char *err;
  } cases[] = {
    { "import", 1,
      "frostrun-cli: import needs a file, or - for standard input; see frostrun-cli import --help\n" },
    { "import - --book /nowhere/x --near -1", 2, NULL },
    { "export --format gpx --book /nowhere/x", 2, NULL },
    { "export", 1, "frostrun-cli: --format is missing; give gpx, geojson, trees-csv or csv\n" },
    { "export --format kml", 1, "frostrun-cli: --format “kml” must be gpx, geojson, trees-csv or csv\n" },
    { "export --format gpx --json", 1,
      "frostrun-cli: --json goes with --output: without it the file itself is the answer\n" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (Answer) answer = cli_run (cases[i].arguments, "", 0);

      if (cases[i].err != NULL)
        g_assert_cmpstr (answer.err, ==, cases[i].err);
      g_assert_cmpstr (answer.out, ==, "");
      g_assert_cmpint (answer.code, ==, cases[i].code);
    }
  {
    g_auto (Answer) near = run ("import - --book %s --near far", "name\nA\n", book);
    g_auto (Answer) species = run ("import - --book %s --species oak", "name\nA\n", book);

    g_assert_cmpstr (near.err, ==,
                     "frostrun-cli: standard input: --near “far” is no number of metres from 0 to 1000000\n");
    g_assert_cmpint (near.code, ==, 1);
    g_assert_cmpint (species.code, ==, 1);
    g_assert_cmpuint (n_trees (), ==, 0);
  }
}

/* --- export --- */

/* Out of one book and into another by each kind of file; the second book gives the same file. */
static void
test_round (void)
{
  static const char *const kinds[] = { "gpx", "geojson", "trees-csv" };
  g_autofree char *full = fixture ("full.gpx");
  g_auto (Answer) first = run ("import %s --book %s", NULL, full, book);

  g_assert_cmpint (first.code, ==, 0);
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      g_autofree char *other = g_strdup_printf ("%s/other-%u.frostrun", folder, i),
                      *file = g_strdup_printf ("%s/trees-%u", folder, i);
      g_autoptr (FrStore) store = fr_store_open (other, TRUE, NULL);
      g_auto (Answer) out = run ("export --format %s --book %s", NULL, kinds[i], book);
      g_auto (Answer) kept = run ("export --format %s --book %s -o %s --json", NULL, kinds[i], book, file);
      g_autofree char *text = NULL;

      g_assert_cmpint (out.code, ==, 0);
      g_assert_cmpfloat (answer_number (&kept, "trees"), ==, 3);
      g_assert_true (g_file_get_contents (file, &text, NULL, NULL));
      g_assert_cmpstr (text, ==, out.out);
      {
        g_auto (Answer) in = run ("import %s --book %s", NULL, file, other);
        g_auto (Answer) again = run ("export --format %s --book %s", NULL, kinds[i], other);

        g_assert_cmpint (in.code, ==, 0);
        g_assert_cmpstr (again.out, ==, out.out);
      }
    }
}

/* By whichever name the book is called. */
static void
test_never_over_the_book (void)
{
  g_autofree char *link = g_build_filename (folder, "link", NULL), *wal = g_strconcat (book, "-wal", NULL),
                  *round_about = g_build_filename (folder, ".", "book.frostrun", NULL);
  const char *const names[] = { book, link, wal, round_about };
  g_auto (Answer) first = run ("import - --book %s", "name,x_m,y_m\nA,0,0\n", book);
  g_autofree char *before = bytes_of (book);

  g_assert_cmpint (first.code, ==, 0);
  g_assert_cmpint (symlink (book, link), ==, 0);
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_auto (Answer) answer = run ("export --format trees-csv --book %s --output %s", NULL, book, names[i]);
      g_autofree char *after = bytes_of (book);

      g_assert_cmpint (answer.code, ==, 1);
      g_assert_nonnull (strstr (answer.err, "is the book itself; give the file another name"));
      g_assert_cmpstr (before, ==, after);
    }
}

static void
test_unwritable (void)
{
  g_auto (Answer) answer = run ("export --format trees-csv --book %s -o /nowhere/trees.csv", NULL, book);

  g_assert_cmpint (answer.code, ==, 2);
}

static void
on_setup (char *unused, gconstpointer data)
{
  setup ();
}

static void
on_teardown (char *unused, gconstpointer data)
{
  teardown ();
}

static void
on_run (char *unused, gconstpointer data)
{
  ((void (*) (void))data) ();
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *path;
    void (*run) (void);
  } tests[] = {
    { "/transfer/import", test_import },
    { "/transfer/one-step", test_one_step },
    { "/transfer/kinds", test_kinds },
    { "/transfer/options", test_options },
    { "/transfer/refused", test_refused },
    { "/transfer/untied", test_untied },
    { "/transfer/arguments", test_arguments },
    { "/transfer/round", test_round },
    { "/transfer/never-over-the-book", test_never_over_the_book },
    { "/transfer/unwritable", test_unwritable },
  };

  g_setenv ("LC_ALL", "C.UTF-8", TRUE);
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add (tests[i].path, char, tests[i].run, on_setup, on_run, on_teardown);
  return g_test_run ();
}
