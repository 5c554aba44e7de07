/* What the window's tests share. */
#include "window-tools.h"

#include <glib/gstdio.h>
#include <string.h>

#include "formats/book-json.h"
#include "formats/json-text.h"
#include "sample-records.h"

static FrApplication *app;
static char *folder;

static gboolean
tick (gpointer data)
{
  *(gboolean *)data = TRUE;
  return G_SOURCE_REMOVE;
}

void
settle (void)
{
  gboolean done = FALSE;

  g_timeout_add (30, tick, &done);
  while (!done || g_main_context_pending (NULL))
    g_main_context_iteration (NULL, TRUE);
}

static void
wait_until_mapped (GtkWidget *widget)
{
  gboolean late = FALSE;
  guint id = g_timeout_add (20000, tick, &late);

  while (!gtk_widget_get_mapped (widget) && !late)
    g_main_context_iteration (NULL, TRUE);
  g_assert_false (late);
  g_source_remove (id);
}

FrApplication *
tools_app (void)
{
  return app;
}

char *
tools_path (const char *name)
{
  return g_build_filename (folder, name, NULL);
}

/* --- finding --- */

GtkWidget *
find (GtkWidget *widget, Match match, const char *text)
{
  if (match (widget, text))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = gtk_widget_get_mapped (child) ? find (child, match, text) : NULL;

      if (found != NULL)
        return found;
    }
  return NULL;
}

gboolean
is_row (GtkWidget *widget, const char *title)
{
  return FR_IS_ENTRY_ROW (widget)
         && g_strcmp0 (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (widget)), title) == 0;
}

gboolean
is_button (GtkWidget *widget, const char *label)
{
  return GTK_IS_BUTTON (widget) && g_strcmp0 (gtk_button_get_label (GTK_BUTTON (widget)), label) == 0;
}

gboolean
is_tooltip (GtkWidget *widget, const char *text)
{
  return g_strcmp0 (gtk_widget_get_tooltip_text (widget), text) == 0;
}

gboolean
is_label (GtkWidget *widget, const char *text)
{
  return GTK_IS_LABEL (widget) && g_strcmp0 (gtk_label_get_text (GTK_LABEL (widget)), text) == 0;
}

gboolean
is_a (GtkWidget *widget, const char *type_name)
{
  return g_strcmp0 (G_OBJECT_TYPE_NAME (widget), type_name) == 0;
}

FrEntryRow *
row (gpointer window, const char *title)
{
  GtkWidget *found = find (GTK_WIDGET (window), is_row, title);

  if (found == NULL)
    g_error ("no row %s", title);
  return FR_ENTRY_ROW (found);
}

void
press (gpointer window, const char *label)
{
  GtkWidget *found = find (GTK_WIDGET (window), is_button, label);

  if (found == NULL)
    g_error ("no button %s", label);
  g_signal_emit_by_name (found, "clicked");
  settle ();
}

void
act (FrWindow *window, const char *action, const char *target)
{
  g_assert_true (target != NULL ? gtk_widget_activate_action (GTK_WIDGET (window), action, "s", target)
                                : gtk_widget_activate_action (GTK_WIDGET (window), action, NULL));
  settle ();
}

GtkWidget *
find_window (const char *type_name)
{
  g_autoptr (GList) windows = gtk_window_list_toplevels ();

  for (GList *at = windows; at != NULL; at = at->next)
    if (is_a (at->data, type_name))
      return at->data;
  return NULL;
}

/* --- typing --- */

void
type_keys (FrEntryRow *into, const char *text)
{
  GtkWidget *entry = find (GTK_WIDGET (into), is_a, "GtkText");
  int at = 0;

  g_assert_nonnull (entry);
  fr_entry_row_grab (into);
  gtk_editable_delete_text (GTK_EDITABLE (entry), 0, -1);
  for (const char *c = text; *c != '\0'; c = g_utf8_next_char (c))
    gtk_editable_insert_text (GTK_EDITABLE (entry), c, (int)(g_utf8_next_char (c) - c), &at);
}

gboolean
press_key (GtkWidget *widget, guint keyval)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);
  gboolean taken = FALSE;

  for (guint i = 0; !taken && i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) one = g_list_model_get_item (controllers, i);

      if (GTK_IS_EVENT_CONTROLLER_KEY (one))
        g_signal_emit_by_name (one, "key-pressed", keyval, 0, 0, &taken);
    }
  return taken;
}

/* --- reading --- */

char *
plain_spaces (const char *text)
{
  GString *plain = g_string_new (NULL);

  for (const char *c = text; *c != '\0'; c = g_utf8_next_char (c))
    if (!g_unichar_isspace (g_utf8_get_char (c)))
      g_string_append_len (plain, c, g_utf8_next_char (c) - c);
    else if (plain->len > 0 && plain->str[plain->len - 1] != ' ')
      g_string_append_c (plain, ' ');
  return g_string_free (plain, FALSE);
}

static void
add_labels (GtkWidget *widget, GString *texts)
{
  if (GTK_IS_LABEL (widget))
    {
      g_autofree char *plain = plain_spaces (gtk_label_get_text (GTK_LABEL (widget)));

      g_string_append_printf (texts, "%s\n", plain);
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    add_labels (child, texts);
  /* An expander's child has no parent while it is folded. */
  if (GTK_IS_EXPANDER (widget) && !gtk_expander_get_expanded (GTK_EXPANDER (widget)))
    add_labels (gtk_expander_get_child (GTK_EXPANDER (widget)), texts);
}

char *
label_texts (GtkWidget *widget)
{
  GString *texts = g_string_new (NULL);

  add_labels (widget, texts);
  return g_string_free (texts, FALSE);
}

void
assert_shows (const char *texts, const char *part)
{
  g_autofree char *plain = plain_spaces (part);

  if (strstr (texts, plain) == NULL)
    g_error ("“%s” is not in:\n%s", plain, texts);
}

guint
diary_rows (const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (FrStore) store = fr_store_open (path, FALSE, &error);
  g_autoptr (GPtrArray) rows = NULL;

  g_assert_no_error (error);
  rows = fr_store_diary (store, 10000, &error);
  g_assert_no_error (error);
  return rows->len;
}

GPtrArray *
snapshot (FrBook *book)
{
  GPtrArray *records = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free);

  for (guint k = 0; k < FR_N_KINDS; k++)
    for (guint i = 0; i < fr_record_list_get_size (fr_book_get_list (book, (FrKindId)k)); i++)
      g_ptr_array_add (records,
                       fr_record_copy (fr_record_list_get (fr_book_get_list (book, (FrKindId)k), i)));
  return records;
}

void
assert_same (GPtrArray *before, GPtrArray *after)
{
  g_assert_cmpuint (before->len, ==, after->len);
  for (guint i = 0; i < before->len; i++)
    g_assert_true (fr_record_equal (before->pdata[i], after->pdata[i]));
}

/* --- windows --- */

static FrChange *
demo_change (void)
{
  g_autofree char *path = g_build_filename (g_getenv ("G_TEST_SRCDIR"), "..", "demo", "book.json", NULL);
  g_autofree char *text = NULL;
  g_autoptr (JsonNode) root = NULL;
  g_autoptr (GPtrArray) records = NULL;
  g_autoptr (GError) error = NULL;
  FrChange *change = fr_change_new ("demo-book", NULL);
  gsize length;

  g_file_get_contents (path, &text, &length, &error);
  g_assert_no_error (error);
  root = fr_json_parse (text, length, &error);
  g_assert_no_error (error);
  records = fr_book_from_json (root, &error);
  g_assert_no_error (error);
  for (guint i = 0; i < records->len; i++)
    fr_change_add (change, NULL, records->pdata[i]);
  return change;
}

FrWindow *
open_window (const char *name, ToolsBook book)
{
  g_autofree char *path = tools_path (name);
  g_autoptr (GError) error = NULL;
  GtkWindow *window;

  if (book != TOOLS_AS_IT_IS)
    {
      g_autoptr (FrStore) store = fr_store_open (path, TRUE, &error);
      g_autoptr (FrChange) all = book == TOOLS_DEMO ? demo_change () : sample_book (2);

      g_assert_no_error (error);
      fr_store_apply (store, all, FR_ORIGIN_DEMO, 1800000000, &error);
      g_assert_no_error (error);
    }
  fr_application_open_book (app, path, &error);
  g_assert_no_error (error);
  window = gtk_application_get_active_window (GTK_APPLICATION (app));
  g_assert_true (FR_IS_WINDOW (window));
  wait_until_mapped (GTK_WIDGET (window));
  settle ();
  return FR_WINDOW (window);
}

void
close_window (FrWindow *window)
{
  gpointer left = window;
  gpointer book = fr_window_get_book (window);

  g_object_add_weak_pointer (G_OBJECT (window), &left);
  g_object_add_weak_pointer (G_OBJECT (book), &book);
  gtk_window_destroy (GTK_WINDOW (window));
  settle ();
  g_assert_null (left);
  g_assert_null (book);
}

/* --- the program --- */

void
tools_init (int *argc, char ***argv)
{
  g_autoptr (GError) error = NULL;

  gtk_test_init (argc, argv, NULL);
  adw_init ();
  folder = g_dir_make_tmp ("frostrun-XXXXXX", NULL);
  app = fr_application_new (G_APPLICATION_NON_UNIQUE);
  g_application_register (G_APPLICATION (app), NULL, &error);
  g_assert_no_error (error);
  g_application_hold (G_APPLICATION (app));
}

static void
remove_folder (void)
{
  GDir *dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *file = tools_path (name);

      g_unlink (file);
    }
  g_dir_close (dir);
  g_rmdir (folder);
}

int
tools_run (void)
{
  int result = g_test_run ();

  g_application_release (G_APPLICATION (app));
  g_object_unref (app);
  remove_folder ();
  g_free (folder);
  return result;
}
