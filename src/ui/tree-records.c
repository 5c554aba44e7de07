/* Three short lists, newest first, folded away until they are looked at. They are built anew when they
 * differ: a tree has a handful of each. */
#include "ui/tree-records.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "ui/field-labels.h"
#include "ui/pieces.h"
#include "ui/record-dialog.h"
#include "ui/record-summary.h"
#include "words/say.h"

enum
{
  LIST_GIRTHS,
  LIST_TAPS,
  LIST_YIELDS,
  N_LISTS
};

struct _FrTreeRecords
{
  AdwBin parent_instance;
  FrBook *book;
  FrSugarbush *bush;
  gint64 tree;
  struct
  {
    GtkWidget *expander;
    GtkWidget *list;
    GtkWidget *empty;
  } lists[N_LISTS];
};

G_DEFINE_FINAL_TYPE (FrTreeRecords, fr_tree_records, ADW_TYPE_BIN)

static const struct
{
  FrKindId kind;
  const char *heading;
} list_kinds[N_LISTS] = {
  [LIST_GIRTHS] = { FR_KIND_GIRTH, N_ ("The Trunk Measured") },
  [LIST_TAPS] = { FR_KIND_TAP, N_ ("Taps") },
  [LIST_YIELDS] = { FR_KIND_YIELD, N_ ("What It Gave") },
};

/* "16 January 2026" in the locale's order; the text itself when it is no date. */
static char *
day_words (const char *iso)
{
  FrDate day;
  g_autoptr (GDateTime) time = NULL;

  if (iso == NULL || !fr_date_parse (iso, &day))
    return g_strdup (iso);
  time = g_date_time_new_utc (day.year, day.month, day.day, 12, 0, 0);
  /* Translators: day of the month, month, year */
  return time != NULL ? g_date_time_format (time, _ ("%-e %b %Y")) : g_strdup (iso);
}

static void
words_of (FrTreeRecords *self, const FrRecord *record, char **title_out, char **note_out)
{
  const FrUnits *units = fr_book_get_units (self->book);

  switch (record->kind->id)
    {
    case FR_KIND_GIRTH:
      {
        const FrGirth *girth = (const FrGirth *)record;
        g_autofree char *size = fr_amount_text (girth->size_m.value, FR_QUANTITY_LENGTH, units);

        /* Translators: %s is a length */
        *title_out = g_strcmp0 (girth->measure, "girth") == 0 ? g_strdup_printf (_ ("%s round"), size)
                                                              : g_strdup_printf (_ ("%s across"), size);
        *note_out = day_words (girth->measured_on);
        return;
      }
    case FR_KIND_TAP:
      {
        const FrTap *tap = (const FrTap *)record;
        g_autofree char *side = isnan (tap->direction_deg.value)
                                    ? NULL
                                    : fr_amount_text (tap->direction_deg.value, FR_QUANTITY_ANGLE, units);
        g_autofree char *height
            = isnan (tap->height_m.value)
                  ? NULL
                  : fr_quantity_to_string (tap->height_m.value, FR_QUANTITY_LENGTH, units, 0);
        g_autofree char *set = day_words (tap->set_on), *pulled = day_words (tap->pulled_on);

        if (side != NULL && height != NULL)
          /* Translators: season, compass angle, height above the ground */
          *title_out = g_strdup_printf (_ ("%.0f: %s, %s up"), tap->season.value, side, height);
        else
          *title_out = g_strdup_printf (_ ("%.0f: side not written down"), tap->season.value);
        *note_out = set == NULL      ? g_strdup (_ ("planned"))
                    : pulled == NULL ? g_strdup_printf (_ ("set %s"), set)
                                     : g_strdup_printf (_ ("set %s, pulled %s"), set, pulled);
        return;
      }
    default:
      {
        const FrYield *yield = (const FrYield *)record;
        g_autofree char *volume = fr_amount_text (yield->volume_l.value, FR_QUANTITY_VOLUME, units);

        *title_out = g_strdup_printf ("%.0f: %s", yield->season.value, volume);
        *note_out = isnan (yield->reading_brix.value)
                        ? g_strdup (_ ("sweetness not measured"))
                        : fr_amount_text (yield->reading_brix.value, FR_QUANTITY_SWEETNESS, units);
        return;
      }
    }
}

static gint64
tree_of (const FrRecord *record)
{
  return fr_record_int (record, fr_kind_field (record->kind, "tree"));
}

/* Newest first: by the day or season, then by id. */
static int
compare (gconstpointer a, gconstpointer b)
{
  const FrRecord *first = *(const FrRecord *const *)a, *second = *(const FrRecord *const *)b;
  int order;

  if (first->kind->id == FR_KIND_GIRTH)
    order = g_strcmp0 (((const FrGirth *)second)->measured_on, ((const FrGirth *)first)->measured_on);
  else
    {
      const FrField *field = fr_kind_field (first->kind, "season");
      double difference = fr_record_amount ((FrRecord *)second, field)->value
                          - fr_record_amount ((FrRecord *)first, field)->value;

      order = (difference > 0) - (difference < 0);
    }
  return order != 0 ? order : (first->id < second->id) - (first->id > second->id);
}

static void
fill (FrTreeRecords *self, guint which)
{
  FrKindId kind = list_kinds[which].kind;
  FrRecordList *records = fr_book_get_list (self->book, kind);
  GtkListBox *list = GTK_LIST_BOX (self->lists[which].list);
  g_autoptr (GPtrArray) mine = g_ptr_array_new ();
  GtkListBoxRow *old;

  for (guint i = 0; i < fr_record_list_get_size (records); i++)
    {
      const FrRecord *record = fr_record_list_get (records, i);

      if (!record->archived && tree_of (record) == self->tree)
        g_ptr_array_add (mine, (gpointer)record);
    }
  g_ptr_array_sort (mine, compare);
  while ((old = gtk_list_box_get_row_at_index (list, 0)) != NULL)
    gtk_list_box_remove (list, GTK_WIDGET (old));
  for (guint i = 0; i < mine->len; i++)
    {
      const FrRecord *record = g_ptr_array_index (mine, i);
      GtkWidget *row = adw_action_row_new ();
      g_autofree char *title = NULL, *note = NULL, *escaped = NULL, *escaped_note = NULL;

      words_of (self, record, &title, &note);
      escaped = g_markup_escape_text (title, -1);
      escaped_note = g_markup_escape_text (note != NULL ? note : "", -1);
      adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), escaped);
      adw_action_row_set_subtitle (ADW_ACTION_ROW (row), escaped_note);
      gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), TRUE);
      g_object_set_data_full (G_OBJECT (row), "id", g_memdup2 (&record->id, sizeof record->id), g_free);
      gtk_list_box_append (list, row);
    }
  {
    g_autofree char *label = mine->len > 0
                                 ? g_strdup_printf ("%s · %u", _ (list_kinds[which].heading), mine->len)
                                 : g_strdup (_ (list_kinds[which].heading));

    gtk_expander_set_label (GTK_EXPANDER (self->lists[which].expander), label);
    gtk_accessible_update_property (GTK_ACCESSIBLE (self->lists[which].expander),
                                    GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  }
  gtk_widget_set_visible (self->lists[which].list, mine->len > 0);
  gtk_widget_set_visible (self->lists[which].empty, mine->len == 0);
}

static void
open_dialog (FrTreeRecords *self, const FrRecord *record)
{
  FrWindow *window = fr_window_of (GTK_WIDGET (self));

  if (window != NULL)
    gtk_window_present (GTK_WINDOW (fr_record_dialog_new (window, record, NULL, NULL)));
}

void
fr_tree_records_open (FrTreeRecords *self, FrKindId kind, gint64 id)
{
  const FrRecord *record = fr_book_find (self->book, kind, id);

  if (record != NULL)
    open_dialog (self, record);
}

static void
activated_cb (GtkListBox *list, GtkListBoxRow *row, gpointer user_data)
{
  FrTreeRecords *self = FR_TREE_RECORDS (user_data);
  const gint64 *id = g_object_get_data (G_OBJECT (row), "id");

  for (guint i = 0; i < N_LISTS; i++)
    if (self->lists[i].list == GTK_WIDGET (list))
      fr_tree_records_open (self, list_kinds[i].kind, *id);
}

static void
add_cb (GtkButton *button, gpointer user_data)
{
  FrTreeRecords *self = FR_TREE_RECORDS (user_data);
  FrKindId kind = (FrKindId)GPOINTER_TO_INT (g_object_get_data (G_OBJECT (button), "kind"));
  FrDate today = fr_sugarbush_get_today (self->bush);
  double season = fr_sugarbush_get_season (self->bush);
  g_autoptr (GError) error = NULL;
  g_autoptr (FrRecord) record = fr_book_new_record (self->book, kind, 0, &error);
  char *day;

  if (record == NULL)
    {
      fr_window_show_error (fr_window_of (GTK_WIDGET (self)), error);
      return;
    }
  fr_record_set_int (record, fr_kind_field (record->kind, "tree"), self->tree);
  day = g_strdup_printf ("%04d-%02d-%02d", (int)today.year, (int)today.month, (int)today.day);
  if (kind == FR_KIND_GIRTH)
    fr_record_set_text (record, fr_kind_field (record->kind, "measured_on"), day);
  else
    fr_record_set_amount (record, fr_kind_field (record->kind, "season"), season, NULL);
  g_free (day);
  open_dialog (self, record);
}

static void
fr_tree_records_dispose (GObject *object)
{
  g_clear_object (&FR_TREE_RECORDS (object)->book);
  g_clear_object (&FR_TREE_RECORDS (object)->bush);
  G_OBJECT_CLASS (fr_tree_records_parent_class)->dispose (object);
}

static void
fr_tree_records_class_init (FrTreeRecordsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_tree_records_dispose;
}

static void
fr_tree_records_init (FrTreeRecords *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);

  for (guint i = 0; i < N_LISTS; i++)
    {
      GtkWidget *inside = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
      GtkWidget *add = gtk_button_new_with_label (fr_kind_add (list_kinds[i].kind));

      gtk_widget_set_halign (add, GTK_ALIGN_START);
      g_object_set_data (G_OBJECT (add), "kind", GINT_TO_POINTER (list_kinds[i].kind));
      g_signal_connect_object (add, "clicked", G_CALLBACK (add_cb), self, 0);
      self->lists[i].list = gtk_list_box_new ();
      gtk_list_box_set_selection_mode (GTK_LIST_BOX (self->lists[i].list), GTK_SELECTION_NONE);
      gtk_widget_add_css_class (self->lists[i].list, "boxed-list");
      gtk_accessible_update_property (GTK_ACCESSIBLE (self->lists[i].list), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                      _ (list_kinds[i].heading), -1);
      g_signal_connect_object (self->lists[i].list, "row-activated", G_CALLBACK (activated_cb), self, 0);
      self->lists[i].empty = fr_wrapped_text (fr_kind_empty (list_kinds[i].kind), "note");
      gtk_box_append (GTK_BOX (inside), self->lists[i].list);
      gtk_box_append (GTK_BOX (inside), self->lists[i].empty);
      gtk_box_append (GTK_BOX (inside), add);
      gtk_widget_set_margin_top (inside, 8);
      self->lists[i].expander = gtk_expander_new (NULL);
      gtk_widget_add_css_class (self->lists[i].expander, "fold");
      gtk_expander_set_child (GTK_EXPANDER (self->lists[i].expander), inside);
      gtk_box_append (GTK_BOX (box), self->lists[i].expander);
    }
  adw_bin_set_child (ADW_BIN (self), box);
}

GtkWidget *
fr_tree_records_new (FrBook *book, FrSugarbush *bush)
{
  FrTreeRecords *self = g_object_new (FR_TYPE_TREE_RECORDS, NULL);

  self->book = g_object_ref (book);
  self->bush = g_object_ref (bush);
  return GTK_WIDGET (self);
}

void
fr_tree_records_set (FrTreeRecords *self, gint64 tree)
{
  self->tree = tree;
  for (guint i = 0; i < N_LISTS; i++)
    fill (self, i);
}
