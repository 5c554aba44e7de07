/* Gatherings and stock through import and export as a script would run them, on a book of their own. What is
 * refused leaves the book's bytes as they were. Days lie in 2020, so that they are past on any machine. */
#include "books.h"
#include "spawn.h"

#include "domain/records/kinds.h"
#include "store/store.h"

#include <gio/gio.h>
#include <string.h>

static char *folder, *book, *empty;

static void
set_text (FrRecord *record, const char *field, const char *text)
{
  fr_record_set_text (record, fr_kind_field (record->kind, field), text);
}

static FrRecord *
new_record (FrKindId kind, gint64 id)
{
  FrRecord *record = fr_record_new (kind);

  record->id = id;
  g_snprintf (record->uid, sizeof record->uid, "%016x%016x", (guint)kind + 1, (guint)id);
  return record;
}

/* A household in Toronto with two tapped trees and a tub. */
static char *
new_book (const char *name)
{
  char *path = g_build_filename (folder, name, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (FrStore) store = fr_store_open (path, TRUE, &error);
  g_autoptr (FrChange) change = fr_change_new ("set-up", NULL);
  g_autoptr (FrRecord) household = new_record (FR_KIND_HOUSEHOLD, 1), tub = new_record (FR_KIND_CONTAINER, 1);

  g_assert_no_error (error);
  set_text (household, "name", "Hollow Road");
  set_text (household, "place", "Hollow Road");
  set_text (household, "zone", "America/Toronto");
  set_text (household, "currency", "CAD");
  set_text (household, "units", "metric");
  set_text (household, "sweetness", "brix");
  fr_amount_set (&((FrHousehold *)household)->altitude_m, 250, NULL);
  fr_amount_set (&((FrHousehold *)household)->syrup_brix, 66.9, NULL);
  fr_amount_set (&((FrHousehold *)household)->jar_l, 0.25, NULL);
  fr_change_add (change, NULL, household);
  set_text (tub, "name", "Tub");
  fr_amount_set (&((FrContainer *)tub)->capacity_l, 60, NULL);
  fr_change_add (change, NULL, tub);
  for (gint64 i = 1; i <= 2; i++)
    {
      g_autoptr (FrRecord) tree = new_record (FR_KIND_TREE, i), tap = new_record (FR_KIND_TAP, i);

      set_text (tree, "name", i == 1 ? "Gate" : "Old Lady");
      set_text (tree, "species", "sugar");
      ((FrTap *)tap)->tree = i;
      fr_amount_set (&((FrTap *)tap)->season, 2020, NULL);
      set_text (tap, "set_on", "2020-03-01");
      fr_change_add (change, NULL, tree);
      fr_change_add (change, NULL, tap);
    }
  fr_store_apply (store, change, FR_ORIGIN_WINDOW, 1580000000, &error);
  g_assert_no_error (error);
  return path;
}

static void
setup (void)
{
  folder = make_folder ();
  book = new_book ("book.frostrun");
  empty = new_book ("other.frostrun");
}

static void
teardown (void)
{
  g_clear_pointer (&folder, drop_folder);
  g_clear_pointer (&book, g_free);
  g_clear_pointer (&empty, g_free);
}

static guint
n_of (const char *path, FrKindId kind)
{
  g_autoptr (FrStore) store = fr_store_open (path, FALSE, NULL);
  g_autoptr (GPtrArray) records = fr_store_load (store, kind, NULL);

  return records->len;
}

#define LOG                                                                                                  \
  "date,time,tree,volume_l,reading_brix,container\n"                                                         \
  "2020-03-09,08:00,Gate,5.5,2.1,Tub\n"                                                                      \
  "2020-03-09,08:05,Old Lady,4,2.4,Tub\n"

static void
test_in (void)
{
  g_autofree char *before = bytes_of (book), *after = NULL;

  {
    g_auto (Answer) dry = run ("import - --book %s --dry-run", LOG, book);

    g_assert_cmpstr (dry.err, ==, "");
    g_assert_cmpstr (dry.out, ==,
                     "2 new.\n"
                     "Nothing is written: this is a dry run.\n"
                     "\n"
                     "  line 2, Gate: New.\n"
                     "  line 3, Old Lady: New.\n");
    after = bytes_of (book);
    g_assert_cmpstr (before, ==, after);
  }
  {
    g_auto (Answer) first = run ("import - --book %s --json", LOG, book);

    g_assert_cmpint (first.code, ==, 0);
    g_assert_cmpstr (answer_string (&first, "kind"), ==, "gatherings-csv");
    g_assert_cmpfloat (answer_number (&first, "new"), ==, 2);
    g_assert_cmpstr (answer_string (&first, "rows/0/fate"), ==, "new");
    g_assert_cmpuint (n_of (book, FR_KIND_GATHERING), ==, 2);
  }
  {
    g_auto (Answer) second = run ("import - --book %s", LOG, book);

    g_assert_true (g_str_has_prefix (second.out, "2 the same.\nThere is nothing to write.\n"));
    g_assert_cmpuint (n_of (book, FR_KIND_GATHERING), ==, 2);
  }
  {
    /* One step that can be undone, told by its own name. */
    g_autoptr (FrStore) store = fr_store_open (book, FALSE, NULL);
    g_autoptr (GPtrArray) diary = fr_store_diary (store, 1, NULL);

    g_assert_cmpstr (((FrDiaryRow *)diary->pdata[0])->label, ==, "import-gatherings");
  }
}

static void
test_all_or_nothing (void)
{
  const char *text
      = "date,tree,volume_l,reading_brix\n2020-03-09,Gate,5,2\n2020-03-10,Gat,5,2\n2020-03-11,Gate,4,22\n";
  g_autofree char *before = bytes_of (book), *after = NULL;

  {
    g_auto (Answer) answer = run ("import - --book %s", text, book);

    g_assert_cmpint (answer.code, ==, 1);
    g_assert_cmpstr (answer.err, ==,
                     "frostrun-cli: standard input: line 3: No tree is called “Gat”. Correct the name, or "
                     "add the tree first. "
                     "Nothing is read in while 2 rows are refused or asked about. Correct them, leave them "
                     "out, or confirm them. "
                     "See --dry-run, --confirm and --without-refused.\n");
    after = bytes_of (book);
    g_assert_cmpstr (before, ==, after);
  }
  {
    g_auto (Answer) asked = run ("import - --book %s --without-refused", text, book);

    g_assert_cmpint (asked.code, ==, 1);
    g_assert_cmpuint (n_of (book, FR_KIND_GATHERING), ==, 0);
  }
  {
    g_auto (Answer) both = run ("import - --book %s --without-refused --confirm --json", text, book);

    g_assert_cmpint (both.code, ==, 0);
    g_assert_cmpstr (answer_string (&both, "rows/1/reason"), ==, "no_such");
    g_assert_cmpstr (answer_string (&both, "rows/2/questions/0/code"), ==, "not_sap");
    g_assert_cmpuint (n_of (book, FR_KIND_GATHERING), ==, 2);
  }
}

/* Out of one book and into another; the second gives the same tables. */
static void
test_round (void)
{
  const char *stock = "record,name,capacity_l,place,date,time,container,reason,target,volume_l,temp_c\n"
                      "container,Snow tub,80,snowbank,,,,,,,\n"
                      "pour,,,,2020-03-09,10:00,Tub,moved,Snow tub,6,\n"
                      "dip,,,,2020-03-10,09:00,Snow tub,,,6,1.5\n";
  g_auto (Answer) log = run ("import - --book %s", LOG, book);
  g_auto (Answer) in = run ("import - --book %s", stock, book);
  g_auto (Answer) gatherings = run ("export --format csv --what gatherings --book %s", NULL, book);
  g_auto (Answer) kept = run ("export --format csv --what stock --book %s", NULL, book);
  g_auto (Answer) none = run ("export --format csv --what gatherings --season 2019 --book %s", NULL, book);
  g_auto (Answer) some = run ("export --format csv --what gatherings --season 2020 --book %s", NULL, book);

  g_assert_cmpint (log.code, ==, 0);
  g_assert_cmpint (in.code, ==, 0);
  g_assert_cmpstr (gatherings.out, ==, some.out);
  g_assert_true (
      g_str_has_prefix (gatherings.out, "date,time,utc_offset,scope,tree,volume_l,reading_brix,container,"));
  g_assert_nonnull (strstr (gatherings.out, "2020-03-09,08:00,UTC-04:00,tree,Gate,5.5,2.1,Tub,"));
  g_assert_null (strchr (strchr (none.out, '\n') + 1, '\n'));
  {
    g_auto (Answer) again = run ("import - --book %s", gatherings.out, book);
    g_auto (Answer) stock_again = run ("import - --book %s", kept.out, book);

    g_assert_true (g_str_has_prefix (again.out, "2 the same.\n"));
    g_assert_true (g_str_has_prefix (stock_again.out, "4 the same.\n"));
  }
  {
    /* The stock alone has more poured out than came in. */
    g_auto (Answer) early = run ("import - --book %s", kept.out, empty);
    g_auto (Answer) first = run ("import - --book %s", gatherings.out, empty);
    g_auto (Answer) second = run ("import - --book %s", kept.out, empty);
    g_auto (Answer) gatherings_again = run ("export --format csv --what gatherings --book %s", NULL, empty);
    g_auto (Answer) kept_again = run ("export --format csv --what stock --book %s", NULL, empty);

    g_assert_cmpint (early.code, ==, 1);
    g_assert_nonnull (strstr (early.err, "is more than there was in “Tub”, 0"));
    g_assert_cmpint (first.code, ==, 0);
    g_assert_cmpint (second.code, ==, 0);
    g_assert_cmpstr (gatherings_again.out, ==, gatherings.out);
    g_assert_cmpstr (kept_again.out, ==, kept.out);
  }
}

static void
test_into_a_file (void)
{
  g_autofree char *path = g_build_filename (folder, "log.csv", NULL);
  g_auto (Answer) log = run ("import - --book %s", LOG, book);
  g_auto (Answer) out = run ("export --format csv --what gatherings --book %s -o %s", NULL, book, path);
  g_auto (Answer) json = run ("export --format csv --what stock --book %s -o %s --json", NULL, book, path);
  g_auto (Answer) onto = run ("export --format csv --what stock --book %s -o %s", NULL, book, book);
  g_autofree char *told = g_strdup_printf ("2 rows are in %s.\n", path);

  g_assert_cmpint (log.code, ==, 0);
  g_assert_cmpstr (out.out, ==, told);
  g_assert_cmpstr (answer_string (&json, "kind"), ==, "stock-csv");
  g_assert_cmpfloat (answer_number (&json, "rows"), ==, 1);
  g_assert_cmpint (onto.code, ==, 1);
}

static void
test_wrong (void)
{
  static const struct
  {
    const char *arguments;
    const char *err;
  } cases[] = {
    { "export --format gpx --what stock", "frostrun-cli: stock go out as --format csv\n" },
    { "export --format csv --what sap", "frostrun-cli: --what “sap” must be trees, gatherings or stock\n" },
    { "export --format csv --season 2020", "frostrun-cli: --season goes with --what gatherings or stock\n" },
    { "export --format csv --what stock --season late",
      "frostrun-cli: --season “late” has to be a whole number from 1600 to 2400\n" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (Answer) answer = cli_run (cases[i].arguments, "", 0);

      g_assert_cmpstr (answer.err, ==, cases[i].err);
      g_assert_cmpint (answer.code, ==, 1);
    }
  {
    g_auto (Answer) latin = run ("import - --book %s", "date,tree,volume_l\n2020-03-09,\xc9rable,1\n", book);

    /* It is not known for a table of sap then, but the sentence is the same. */
    g_assert_cmpint (latin.code, ==, 1);
    g_assert_cmpstr (latin.err, ==,
                     "frostrun-cli: standard input: line 2: the file is not text in UTF-8. Save it in UTF-8 "
                     "and try again\n");
  }
}

/* Each keeps everything out with one line that says why, and nothing else on it. */
static void
test_hostile (void)
{
  static const struct
  {
    const char *text;
    const char *says;
  } cases[] = {
    { "date,tree,volume_l\n0001-01-01,Gate,1\n", "This is too early." },
    { "date,tree,volume_l\n9999-12-31,Gate,1\n", "This is too late." },
    { "date,tree,volume_l\n2020-03-09,Gate,1e308\n", "volume_l: This is far too much. " },
    { "date,tree,volume_l\n2020-03-09,Gate,-1e308\n", "volume_l: This is far too little. " },
    { "date,tree,volume_l\n2020-03-09,\"\n=1\",1\n", "“?=1”" },
    { "date,tree,volume_l\n2020-03-09,\x1b[31mGate,1\n", "“?[31mGate”" },
    { "date,tree,volume_l\n2020-03-09,\u202eGate,1\n", "“?Gate”" },
    { "date,tree,volume_furlong\n2020-03-09,Gate,1\n", "The column “volume_furlong” is not read." },
    { "tree,volume_l\nGate,1\n", "line 2: It has no date." },
    { "date,tree,volume_l\r2020-03-09,Gate,nan\r", "line 2: volume_l is “nan”, which is no number." },
    { "date,tree,volume_l\n2020-03-08,Gate,1\n2020-03-08T02:30,Gate,1\n", "from 01:59 to 03:00" },
  };
  g_autofree char *before = bytes_of (book);

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    for (guint confirmed = 0; confirmed < 2; confirmed++)
      {
        g_auto (Answer) answer
            = run ("import - --book %s %s", cases[i].text, book, confirmed ? "--confirm" : "");
        g_autofree char *after = bytes_of (book);

        g_assert_cmpint (answer.code, ==, 1);
        if (strstr (answer.err, cases[i].says) == NULL)
          g_error ("“%s” is not in “%s”", cases[i].says, answer.err);
        g_assert_true (g_str_has_prefix (answer.err, "frostrun-cli: "));
        g_assert_true (strchr (answer.err, '\n') == answer.err + strlen (answer.err) - 1);
        g_assert_cmpstr (after, ==, before);
      }
}

/* Odd, but right: they come in once, and the second time change nothing. */
static void
test_odd (void)
{
  static const char *const texts[] = {
    "date,tree,volume_l\n2020-03-09,Gate,-0\n",
    "date,tree,volume_l,reading_brix,container\n2020-03-10,Gate,1e-320,2,Tub\n",
    "date,tree,volume_l\r2020-03-11,Gate,1\r2020-03-11,Old Lady,2\r",
    "date,tree,volume_l,note\n2020-03-12,Gate,1,\"\n=1+1\"\n2020-03-13,Gate,1,\uff1d1+1\n",
  };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_auto (Answer) first = run ("import - --book %s", texts[i], book);
      g_auto (Answer) out = run ("export --format csv --what gatherings --book %s", NULL, book);
      g_auto (Answer) second = run ("import - --book %s", texts[i], book);
      g_auto (Answer) back = run ("import - --book %s", out.out, book);
      g_auto (Answer) out_again = run ("export --format csv --what gatherings --book %s", NULL, book);

      g_assert_cmpstr (first.err, ==, "");
      g_assert_cmpstr (second.err, ==, "");
      g_assert_nonnull (strstr (first.out, " new.\n"));
      g_assert_nonnull (strstr (second.out, "There is nothing to write.\n"));
      g_assert_nonnull (strstr (back.out, "There is nothing to write.\n"));
      g_assert_cmpstr (out_again.out, ==, out.out);
    }
  g_assert_cmpuint (n_of (book, FR_KIND_GATHERING), ==, 6);
}

static void
in_book (void (*test) (void))
{
  setup ();
  test ();
  teardown ();
}

static void
run_test (gconstpointer data)
{
  in_book ((void (*) (void))data);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_data_func ("/cli-sap/in", (gconstpointer)test_in, run_test);
  g_test_add_data_func ("/cli-sap/all-or-nothing", (gconstpointer)test_all_or_nothing, run_test);
  g_test_add_data_func ("/cli-sap/round", (gconstpointer)test_round, run_test);
  g_test_add_data_func ("/cli-sap/into-a-file", (gconstpointer)test_into_a_file, run_test);
  g_test_add_data_func ("/cli-sap/hostile", (gconstpointer)test_hostile, run_test);
  g_test_add_data_func ("/cli-sap/odd", (gconstpointer)test_odd, run_test);
  g_test_add_data_func ("/cli-sap/wrong", (gconstpointer)test_wrong, run_test);
  return g_test_run ();
}
