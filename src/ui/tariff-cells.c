/* The cells of the price editor: entries and choices that read a row and write to it when they are left. */
#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "models/price-rows.h"
#include "ui/tariff-editor-private.h"
#include "words/entry-words.h"

guint
fr_tariff_index_of (GtkWidget *cell)
{
  return GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (cell), "row"));
}

static FrTariffCell
kind_of (GtkWidget *cell)
{
  return (FrTariffCell)GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (cell), "cell"));
}

static char *
cell_text (FrTariffEditor *self, GtkWidget *cell)
{
  const FrTariffPeriod *row = fr_tariff_row_at (self, fr_tariff_index_of (cell));

  switch (kind_of (cell))
    {
    case CELL_FROM_DAY:
      return g_strdup_printf ("%d", row->from_day);
    case CELL_TO_DAY:
      return g_strdup_printf ("%d", row->to_day);
    case CELL_FROM:
      return fr_price_clock_text (row->from_min);
    case CELL_TO:
      return fr_price_clock_text (row->to_min);
    case CELL_PRICE:
    default:
      return fr_quantity_entry_text (row->price_per_kwh, NULL, FR_QUANTITY_PRICE, &self->units);
    }
}

/* A new first or last day goes to every row of the season. */
static void
set_season (FrTariffEditor *self, guint first, FrTariffCell cell, gint value)
{
  guint end = fr_tariff_season_end (self, first);

  for (guint i = first; i < end; i++)
    {
      FrTariffPeriod *row = fr_tariff_row_at (self, i);

      if (cell == CELL_FROM_DAY)
        row->from_day = value;
      else if (cell == CELL_TO_DAY)
        row->to_day = value;
      else if (cell == CELL_FROM_MONTH)
        row->from_month = value;
      else
        row->to_month = value;
    }
}

/* Reads a cell into its row. A sentence when it cannot be read. */
static char *
read_cell (FrTariffEditor *self, GtkWidget *cell)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (cell));
  g_autofree char *stripped = g_strstrip (g_strdup (text));
  guint at = fr_tariff_index_of (cell);
  FrTariffPeriod *row = fr_tariff_row_at (self, at);
  FrTariffCell kind = kind_of (cell);

  if (kind == CELL_FROM || kind == CELL_TO)
    {
      gint minutes;
      gboolean hours_only = *stripped != '\0' && strspn (stripped, "0123456789") == strlen (stripped);
      g_autofree char *clock = hours_only ? g_strconcat (stripped, ":00", NULL) : g_strdup (stripped);

      if (!fr_clock_parse (clock, &minutes))
        return g_strdup_printf (_ ("“%s” is no clock time. Write hours and minutes, 00:00 to 24:00."),
                                stripped);
      if (kind == CELL_FROM)
        row->from_min = minutes;
      else
        row->to_min = minutes;
      return NULL;
    }
  if (kind == CELL_FROM_DAY || kind == CELL_TO_DAY)
    {
      char *end = NULL;
      gint64 day = g_ascii_strtoll (stripped, &end, 10);
      gint month = kind == CELL_FROM_DAY ? row->from_month : row->to_month;
      FrDate date = { 2000, month, (gint)CLAMP (day, -1, 99) };

      if (*stripped == '\0' || *end != '\0' || !fr_date_is_valid (date))
        return g_strdup_printf (_ ("“%s” is no day of that month."), stripped);
      set_season (self, at, kind, (gint)day);
      return NULL;
    }
  {
    double price = NAN;
    FrQuantityProblem problem = FR_QUANTITY_OK;
    gsize where = 0;

    if (!fr_quantity_parse (stripped, FR_QUANTITY_PRICE, &self->units, &price, &problem, &where))
      return fr_entry_sentence (problem, stripped, where, FR_QUANTITY_PRICE, &self->units);
    row->price_per_kwh = price;
  }
  return NULL;
}

static void
finish_cell (FrTariffEditor *self, GtkWidget *cell)
{
  g_autofree char *sentence = NULL;
  g_autofree char *text = NULL;

  if (self->building)
    return;
  text = cell_text (self, cell);
  if (g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (cell)), text) == 0
      && !gtk_widget_has_css_class (cell, "error"))
    return;
  sentence = read_cell (self, cell);
  if (sentence != NULL)
    {
      gtk_widget_add_css_class (cell, "error");
      fr_tariff_tell_problem (self, sentence);
      return;
    }
  gtk_widget_remove_css_class (cell, "error");
  g_free (text);
  text = cell_text (self, cell);
  gtk_editable_set_text (GTK_EDITABLE (cell), text);
  g_object_ref (self);
  fr_tariff_send (self);
  g_object_unref (self);
}

static void
cell_activate_cb (GtkEntry *entry, gpointer user_data)
{
  finish_cell (FR_TARIFF_EDITOR (user_data), GTK_WIDGET (entry));
}

static void
cell_leave_cb (GtkEventControllerFocus *controller, gpointer user_data)
{
  finish_cell (FR_TARIFF_EDITOR (user_data),
               gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (controller)));
}

static gboolean
cell_key_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state,
             gpointer user_data)
{
  FrTariffEditor *self = FR_TARIFF_EDITOR (user_data);
  GtkWidget *cell = gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (controller));
  g_autofree char *text = cell_text (self, cell);

  if (keyval != GDK_KEY_Escape || g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (cell)), text) == 0)
    return FALSE;
  gtk_editable_set_text (GTK_EDITABLE (cell), text);
  gtk_widget_remove_css_class (cell, "error");
  fr_tariff_review (self);
  return TRUE;
}

void
fr_tariff_name_cell (FrTariffEditor *self, GtkWidget *cell, guint row, FrTariffCell kind, const char *name)
{
  g_object_set_data (G_OBJECT (cell), "row", GUINT_TO_POINTER (row));
  g_object_set_data (G_OBJECT (cell), "cell", GUINT_TO_POINTER (kind));
  gtk_widget_set_valign (cell, GTK_ALIGN_CENTER);
  gtk_widget_set_tooltip_text (cell, name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (cell), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

GtkWidget *
fr_tariff_entry_cell (FrTariffEditor *self, guint row, FrTariffCell kind, const char *name, int chars)
{
  GtkWidget *entry = gtk_entry_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();
  GtkEventController *key = gtk_event_controller_key_new ();
  g_autofree char *text = NULL;

  fr_tariff_name_cell (self, entry, row, kind, name);
  text = cell_text (self, entry);
  gtk_editable_set_width_chars (GTK_EDITABLE (entry), chars);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (entry), chars);
  gtk_editable_set_alignment (GTK_EDITABLE (entry), 1.0f);
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
  gtk_widget_add_css_class (entry, "cell");
  g_signal_connect_object (entry, "activate", G_CALLBACK (cell_activate_cb), self, 0);
  g_signal_connect_object (focus, "leave", G_CALLBACK (cell_leave_cb), self, 0);
  gtk_event_controller_set_propagation_phase (key, GTK_PHASE_CAPTURE);
  g_signal_connect_object (key, "key-pressed", G_CALLBACK (cell_key_cb), self, 0);
  gtk_widget_add_controller (entry, focus);
  gtk_widget_add_controller (entry, key);
  return entry;
}

static void
choice_cb (GtkDropDown *choice, GParamSpec *pspec, gpointer user_data)
{
  FrTariffEditor *self = FR_TARIFF_EDITOR (user_data);
  guint at = fr_tariff_index_of (GTK_WIDGET (choice));
  guint selected = gtk_drop_down_get_selected (choice);
  FrTariffCell kind = kind_of (GTK_WIDGET (choice));

  if (self->building || selected == GTK_INVALID_LIST_POSITION)
    return;
  if (kind == CELL_DAYS)
    fr_tariff_row_at (self, at)->days = (FrDays)selected;
  else
    {
      guint end = fr_tariff_season_end (self, at);

      set_season (self, at, kind, (gint)selected + 1);
      /* The 31st moves to the last day of a shorter month. */
      for (guint i = at; i < end; i++)
        {
          FrTariffPeriod *row = fr_tariff_row_at (self, i);

          while (!fr_date_is_valid ((FrDate){ 2000, row->from_month, row->from_day }))
            row->from_day--;
          while (!fr_date_is_valid ((FrDate){ 2000, row->to_month, row->to_day }))
            row->to_day--;
        }
      fr_tariff_rebuild (self);
    }
  fr_tariff_send (self);
}

GtkWidget *
fr_tariff_choice_cell (FrTariffEditor *self, guint row, FrTariffCell kind, const char *name,
                       const char *const *names, guint selected)
{
  GtkWidget *choice = gtk_drop_down_new_from_strings (names);

  fr_tariff_name_cell (self, choice, row, kind, name);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), selected);
  gtk_widget_add_css_class (choice, "cell");
  g_signal_connect_object (choice, "notify::selected", G_CALLBACK (choice_cb), self, 0);
  return choice;
}

GtkWidget *
fr_tariff_month_cell (FrTariffEditor *self, guint row, FrTariffCell kind, const char *name, gint month)
{
  const char *names[13] = { NULL };
  GtkWidget *cell;

  for (int i = 0; i < 12; i++)
    {
      g_autoptr (GDateTime) first = g_date_time_new_utc (2001, i + 1, 1, 0, 0, 0);

      names[i] = g_date_time_format (first, "%OB");
    }
  cell = fr_tariff_choice_cell (self, row, kind, name, names, (guint)month - 1);
  for (int i = 0; i < 12; i++)
    g_free ((char *)names[i]);
  return cell;
}
