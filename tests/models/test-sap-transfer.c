/* Tables of gatherings into the book and out of it: a paste without a head, the same table twice, all or
 * nothing, and a season of another year that the lists do not hold. */
#include <math.h>
#include <string.h>

#include "edits.h"
#include "models/sap-transfer.h"

/* 2027-03-11 20:20 UTC; the books here have no household, so times are those of UTC. */
#define NOW_UTC 1804796400

static FrBook *
bush_new (void)
{
  FrBook *book = book_new ();
  g_autoptr (FrChange) change = fr_change_new ("import-trees", NULL);
  static const char *const names[] = { "Gate", "Old oak", "Lane 1" };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autoptr (GError) failure = NULL;
      g_autoptr (FrRecord) tree = fr_book_new_record (book, FR_KIND_TREE, i, &failure);
      g_autoptr (FrRecord) tap = fr_book_new_record (book, FR_KIND_TAP, 2 * i, &failure);
      g_autoptr (FrRecord) old = fr_book_new_record (book, FR_KIND_TAP, 2 * i + 1, &failure);

      fr_edit_set_text (tree, "name", names[i]);
      ((FrTap *)tap)->tree = ((FrTap *)old)->tree = tree->id;
      fr_amount_set (&((FrTap *)tap)->season, 2027, NULL);
      fr_edit_set_text (tap, "set_on", "2027-02-20");
      fr_amount_set (&((FrTap *)old)->season, 2025, NULL);
      fr_edit_set_text (old, "set_on", "2025-02-20");
      fr_change_add (change, NULL, tree);
      fr_change_add (change, NULL, tap);
      fr_change_add (change, NULL, old);
    }
  {
    g_autoptr (GError) failure = NULL;

    fr_book_apply (book, change, &failure);
    g_assert_no_error (failure);
  }
  return book;
}

static FrSapImport *
read_table (FrBook *book, const char *text, gboolean pasted)
{
  g_autoptr (GError) failure = NULL;
  FrSapImport *import = fr_sap_import_new (book, text, strlen (text), pasted, NOW_UTC, &failure);

  g_assert_no_error (failure);
  return import;
}

static void
take_in (FrBook *book, FrSapImport *import, const char *label)
{
  g_autoptr (FrChange) change = fr_sap_import_change (import, NULL);
  g_autoptr (GError) failure = NULL;

  g_assert_nonnull (change);
  g_assert_cmpstr (change->label, ==, label);
  g_assert_true (fr_book_apply (book, change, &failure));
  g_assert_no_error (failure);
}

static void
test_paste (void)
{
  g_autoptr (FrBook) book = bush_new ();
  /* The log's columns in their order: date, clock, tree, litres, reading; tabs between cells, as a
   * spreadsheet copies. */
  g_autoptr (FrSapImport) import = read_table (book,
                                               "2027-03-11\t16:20\tGate\t2.5\t2.2\n"
                                               "2027-03-11\t16:25\tOld oak\t3\t2\n",
                                               TRUE);
  g_autoptr (GError) failure = NULL;
  const FrGathering *kept;

  g_assert_cmpuint (fr_sap_import_preview (import)->n[FR_SAP_NEW], ==, 2);
  take_in (book, import, "paste-gatherings");
  g_assert_cmpuint (count (book, FR_KIND_GATHERING), ==, 2);
  kept = (const FrGathering *)last (book, FR_KIND_GATHERING);
  g_assert_cmpfloat (kept->volume_l.value, ==, 3);
  g_assert_cmpfloat (kept->reading_brix.value, ==, 2);
  g_assert_cmpstr (kept->scope, ==, "tree");
  g_assert_true (fr_book_undo (book, &failure)); /* both with one step */
  g_assert_cmpuint (count (book, FR_KIND_GATHERING), ==, 0);
}

static void
test_all_or_nothing (void)
{
  g_autoptr (FrBook) book = bush_new ();
  g_autoptr (FrSapImport) import = read_table (book,
                                               "2027-03-11\t16:20\tGate\t2.5\t2.2\n"
                                               "2027-03-11\t16:25\tNobody\t3\t2\n",
                                               TRUE);
  FrSapArrivalPreview *preview = fr_sap_import_preview (import);

  g_assert_cmpuint (preview->n[FR_SAP_REFUSED], ==, 1);
  g_assert_null (fr_sap_import_change (import, NULL));
  ((FrSapArrivalRow *)preview->rows->pdata[1])->left_out = TRUE;
  take_in (book, import, "paste-gatherings");
  g_assert_cmpuint (count (book, FR_KIND_GATHERING), ==, 1);
}

/* Written out and read in again nothing is new, whichever season it is of. */
static void
test_there_and_back (void)
{
  g_autoptr (FrBook) book = bush_new ();
  g_autoptr (FrSapImport) import = read_table (book,
                                               "2025-03-11\t16:20\tGate\t2.5\t2.2\n"
                                               "2025-03-12\t16:25\tLane 1\t3\t2\n",
                                               TRUE);
  g_autoptr (FrSapImport) again = NULL, garbage = NULL;
  g_autofree char *text = NULL;
  g_autoptr (GError) failure = NULL;

  take_in (book, import, "paste-gatherings");
  g_assert_cmpuint (count (book, FR_KIND_GATHERING), ==, 0); /* the lists hold 2027 */
  g_assert_true (fr_book_set_season (book, 2025, NULL, &failure));
  g_assert_cmpuint (count (book, FR_KIND_GATHERING), ==, 2);
  text = fr_sap_export (book, FALSE);
  g_assert_true (fr_book_set_season (book, 2027, NULL, &failure));
  again = read_table (book, text, FALSE);
  g_assert_cmpuint (fr_sap_import_preview (again)->n[FR_SAP_SAME], ==, 2);
  g_assert_null (fr_sap_import_change (again, "table.csv"));
  garbage = fr_sap_import_new (book, "{\"a\": 1}", 8, FALSE, NOW_UTC, &failure);
  g_assert_null (garbage);
  g_assert_nonnull (failure);
  g_assert_cmpuint (strlen (failure->message), >, 10);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sap-transfer/paste", test_paste);
  g_test_add_func ("/sap-transfer/all-or-nothing", test_all_or_nothing);
  g_test_add_func ("/sap-transfer/there-and-back", test_there_and_back);
  return g_test_run ();
}
