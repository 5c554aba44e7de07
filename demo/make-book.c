/* make-book BOOK.json FILE INSTANT: makes a new book of the records in a JSON file, as one change through the
 * store's door, noted in the diary at that instant. An existing file is refused, so that no book is ever
 * written over. */
#include <gio/gio.h>
#include <locale.h>

#include "formats/book-json.h"
#include "store/store.h"

static gboolean
make_book (const char *from, const char *to, const char *instant, GError **error)
{
  g_autofree char *text = NULL;
  gsize length;
  g_autoptr (GDateTime) now = g_date_time_new_from_iso8601 (instant, NULL);
  JsonNode *root = NULL;
  g_autoptr (GPtrArray) records = NULL;
  g_autoptr (FrChange) change = fr_change_new ("demo-book", NULL);
  g_autoptr (FrStore) store = NULL;

  if (now == NULL || g_file_test (to, G_FILE_TEST_EXISTS))
    {
      g_set_error (error, G_FILE_ERROR, now == NULL ? G_FILE_ERROR_INVAL : G_FILE_ERROR_EXIST,
                   now == NULL ? "“%s” is no instant with a zone, such as 2026-03-19T18:30:00-04:00"
                               : "%s is there already",
                   now == NULL ? instant : to);
      return FALSE;
    }
  if (!g_file_get_contents (from, &text, &length, error))
    return FALSE;
  root = fr_json_parse (text, length, error);
  if (root == NULL)
    return FALSE;
  records = fr_book_from_json (root, error);
  json_node_unref (root);
  if (records == NULL)
    return FALSE;
  for (guint i = 0; i < records->len; i++)
    fr_change_add (change, NULL, records->pdata[i]);
  store = fr_store_open (to, TRUE, error);
  return store != NULL && fr_store_apply (store, change, FR_ORIGIN_DEMO, g_date_time_to_unix (now), error);
}

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;

  setlocale (LC_ALL, "");
  if (argc != 4)
    {
      g_printerr ("make-book BOOK.json FILE INSTANT\n");
      return 1;
    }
  if (!make_book (argv[1], argv[2], argv[3], &error))
    {
      g_printerr ("make-book: %s\n", error->message);
      return 1;
    }
  return 0;
}
