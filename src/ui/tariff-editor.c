/* The prices of a plan as rows. The rows are the state; cells show them and write to them when left. They are
 * built anew only when rows come or go, so that typing and Tab are never disturbed. */
#include "ui/tariff-editor.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "domain/units/money.h"
#include "models/price-rows.h"
#include "ui/clock.h"
#include "ui/tariff-editor-private.h"
#include "words/entry-words.h"

static guint finished_signal;

G_DEFINE_FINAL_TYPE (FrTariffEditor, fr_tariff_editor, ADW_TYPE_BIN)

FrTariffPeriod *
fr_tariff_row_at (FrTariffEditor *self, guint i)
{
  return &g_array_index (self->rows, FrTariffPeriod, i);
}

/* The first row past the season that row @first begins. */
guint
fr_tariff_season_end (FrTariffEditor *self, guint first)
{
  guint end = first + 1;

  while (end < self->rows->len
         && fr_price_rows_same_season (fr_tariff_row_at (self, first), fr_tariff_row_at (self, end)))
    end++;
  return end;
}

void
fr_tariff_tell_problem (FrTariffEditor *self, const char *sentence)
{
  gtk_widget_remove_css_class (GTK_WIDGET (self->problem), "note");
  gtk_widget_add_css_class (GTK_WIDGET (self->problem), "problem");
  gtk_label_set_text (self->problem, sentence != NULL ? sentence : "");
  gtk_widget_set_visible (GTK_WIDGET (self->problem), sentence != NULL);
}

/* The day whose season is drawn: today, or the first day of the first season when today lies in none. */
static FrDate
shown_day (FrTariffEditor *self, const FrTariff *tariff, gboolean *today_out)
{
  g_autoptr (FrZoneTable) zone = fr_zone_table_new_utc ();
  FrDate day = fr_clock_local (NULL).date;
  gint64 first_s, second_s, until_s;
  double listed, full;
  FrTariffProblem problem;

  fr_zone_instant (zone, day, 0, &first_s, &second_s);
  *today_out = fr_tariff_price (tariff, zone, first_s, &listed, &full, &until_s, &problem);
  if (!*today_out && self->rows->len > 0)
    {
      day.month = fr_tariff_row_at (self, 0)->from_month;
      day.day = fr_tariff_row_at (self, 0)->from_day;
      if (!fr_date_is_valid (day))
        day.day = 28;
      day = fr_date_add_days (day, 7); /* so that the whole week lies in it */
    }
  return day;
}

/* Under the drawing: which day it shows, and whether what comes on top is in it. */
static void
tell_caption (FrTariffEditor *self, gboolean is_today)
{
  const char *sign = fr_money_minor_sign (self->currency);
  gboolean on_top = self->adder_per_kwh != 0 || self->tax_ratio != 0;
  g_autofree char *caption = NULL;

  if (is_today)
    caption = g_strdup_printf (on_top ? _ ("What a kilowatt hour costs today, %s, with what comes on top")
                                      : _ ("What a kilowatt hour costs today, %s"),
                               sign);
  else
    caption = g_strdup_printf (
        on_top ? _ ("What a kilowatt hour costs in the first season, %s, with what comes on top")
               : _ ("What a kilowatt hour costs in the first season, %s"),
        sign);
  gtk_label_set_text (self->caption, caption);
}

/* What the rows come to: drawn when they make a plan, else what keeps them from it. */
void
fr_tariff_review (FrTariffEditor *self)
{
  g_autofree char *text = fr_price_rows_text (self->rows);
  g_autoptr (FrTariff) tariff = NULL;
  FrTariffProblem problem = { 0 };

  if (self->rows->len == 0)
    {
      fr_price_view_set (self->view, NULL, (FrDate){ 0 }, &self->units);
      fr_tariff_tell_problem (self, NULL);
    }
  else if (text == NULL)
    {
      fr_price_view_set (self->view, NULL, (FrDate){ 0 }, &self->units);
      fr_tariff_tell_problem (self, _ ("Type the price of each row. Until then this is not kept."));
      /* nothing is wrong, something is not done yet */
      gtk_widget_remove_css_class (GTK_WIDGET (self->problem), "problem");
      gtk_widget_add_css_class (GTK_WIDGET (self->problem), "note");
    }
  else
    {
      tariff = fr_tariff_parse (text, self->holidays, self->adder_per_kwh, self->tax_ratio, &problem);
      if (tariff != NULL)
        {
          gboolean is_today = FALSE;
          FrDate day = shown_day (self, tariff, &is_today);

          fr_price_view_set (self->view, tariff, day, &self->units);
          tell_caption (self, is_today);
        }
      else
        fr_price_view_set (self->view, NULL, (FrDate){ 0 }, &self->units);
      if (tariff == NULL)
        {
          g_autofree char *sentence = fr_price_plan_sentence (&problem);

          fr_tariff_tell_problem (self, sentence);
        }
      else
        fr_tariff_tell_problem (self, NULL);
    }
  gtk_widget_set_visible (GTK_WIDGET (self->caption), gtk_widget_get_visible (GTK_WIDGET (self->view)));
}

void
fr_tariff_send (FrTariffEditor *self)
{
  g_autofree char *text = fr_price_rows_text (self->rows);

  fr_tariff_review (self);
  if (text == NULL || g_strcmp0 (text, self->text) == 0)
    return;
  g_free (self->text);
  self->text = g_strdup (text);
  g_signal_emit (self, finished_signal, 0, text);
}

static GtkWidget *
icon_button (FrTariffEditor *self, guint row, const char *icon, const char *name, GCallback callback)
{
  GtkWidget *button = gtk_button_new_from_icon_name (icon);

  fr_tariff_name_cell (self, button, row, CELL_PRICE, name);
  gtk_widget_add_css_class (button, "flat");
  g_signal_connect_object (button, "clicked", callback, self, 0);
  return button;
}

static void
remove_row_cb (GtkButton *button, gpointer user_data)
{
  FrTariffEditor *self = FR_TARIFF_EDITOR (user_data);

  g_array_remove_index (self->rows, fr_tariff_index_of (GTK_WIDGET (button)));
  fr_tariff_rebuild (self);
  fr_tariff_send (self);
}

static void
add_row_cb (GtkButton *button, gpointer user_data)
{
  FrTariffEditor *self = FR_TARIFF_EDITOR (user_data);
  guint first = fr_tariff_index_of (GTK_WIDGET (button));
  guint end = fr_tariff_season_end (self, first);
  FrTariffPeriod row = *fr_tariff_row_at (self, end - 1);

  /* It goes on where the last one ends. */
  row.from_min = row.to_min == 1440 ? 0 : row.to_min;
  row.to_min = 1440;
  row.price_per_kwh = NAN;
  g_array_insert_val (self->rows, end, row);
  fr_tariff_rebuild (self);
  fr_tariff_send (self);
}

static void
add_season_cb (GtkButton *button, gpointer user_data)
{
  FrTariffEditor *self = FR_TARIFF_EDITOR (user_data);
  FrTariffPeriod row = { 1, 1, 12, 31, FR_DAYS_ALL, 0, 1440, NAN };

  if (self->rows->len > 0) /* begins the day after the last one ends */
    {
      const FrTariffPeriod *last = fr_tariff_row_at (self, self->rows->len - 1);
      const FrTariffPeriod *first = fr_tariff_row_at (self, 0);
      FrDate next = fr_date_add_days ((FrDate){ 2001, last->to_month, MIN (last->to_day, 28) },
                                      last->to_day > 28 ? 1 + last->to_day - 28 : 1);
      FrDate before = fr_date_add_days ((FrDate){ 2001, first->from_month, MIN (first->from_day, 28) }, -1);

      row.from_month = next.month;
      row.from_day = next.day;
      row.to_month = before.month;
      row.to_day = before.day;
    }
  g_array_append_val (self->rows, row);
  fr_tariff_rebuild (self);
  fr_tariff_send (self);
}

static GtkWidget *
row_box (void)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  gtk_widget_add_css_class (box, "price-row");
  return box;
}

static void
add_line (GtkWidget *list, GtkWidget *box)
{
  GtkWidget *row = gtk_list_box_row_new ();

  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), FALSE);
  gtk_widget_set_focusable (row, FALSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Price row"), -1);
  gtk_list_box_append (GTK_LIST_BOX (list), row);
}

static GtkWidget *
soft_label (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_widget_add_css_class (label, "unit");
  return label;
}

static void
build_season (FrTariffEditor *self, guint first, guint end)
{
  const char *days[FR_N_DAYS + 1] = { NULL };
  GtkWidget *list = gtk_list_box_new ();
  const FrTariffPeriod *season = fr_tariff_row_at (self, first);
  GtkWidget *box = row_box ();
  GtkWidget *add, *unit_label;
  g_autofree char *unit = g_strdup_printf ("%s/kWh", fr_money_minor_sign (self->currency));

  days[FR_DAYS_WEEKDAY] = _ ("Weekdays");
  days[FR_DAYS_SATURDAY] = _ ("Saturdays");
  days[FR_DAYS_SUNDAY] = _ ("Sundays");
  days[FR_DAYS_WEEKEND] = _ ("Weekends");
  days[FR_DAYS_HOLIDAY] = _ ("Holidays");
  days[FR_DAYS_ALL] = _ ("Every day");

  gtk_list_box_set_selection_mode (GTK_LIST_BOX (list), GTK_SELECTION_NONE);
  gtk_widget_add_css_class (list, "boxed-list");
  gtk_accessible_update_property (GTK_ACCESSIBLE (list), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Season"), -1);

  gtk_box_append (GTK_BOX (box),
                  fr_tariff_entry_cell (self, first, CELL_FROM_DAY, _ ("First day of the season"), 2));
  gtk_box_append (GTK_BOX (box), fr_tariff_month_cell (self, first, CELL_FROM_MONTH,
                                                       _ ("First month of the season"), season->from_month));
  gtk_box_append (GTK_BOX (box), soft_label (_ ("to")));
  gtk_box_append (GTK_BOX (box),
                  fr_tariff_entry_cell (self, first, CELL_TO_DAY, _ ("Last day of the season"), 2));
  gtk_box_append (GTK_BOX (box), fr_tariff_month_cell (self, first, CELL_TO_MONTH,
                                                       _ ("Last month of the season"), season->to_month));
  unit_label = soft_label (unit); /* once, over the prices */
  gtk_widget_set_hexpand (unit_label, TRUE);
  gtk_widget_set_halign (unit_label, GTK_ALIGN_END);
  gtk_widget_set_margin_end (unit_label, 44);
  gtk_box_append (GTK_BOX (box), unit_label);
  add_line (list, box);

  for (guint i = first; i < end; i++)
    {
      GtkWidget *spring = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

      box = row_box ();
      gtk_box_append (GTK_BOX (box), fr_tariff_choice_cell (self, i, CELL_DAYS, _ ("Kind of day"), days,
                                                            fr_tariff_row_at (self, i)->days));
      gtk_box_append (GTK_BOX (box), fr_tariff_entry_cell (self, i, CELL_FROM, _ ("From, clock time"), 5));
      gtk_box_append (GTK_BOX (box), soft_label ("–"));
      gtk_box_append (GTK_BOX (box), fr_tariff_entry_cell (self, i, CELL_TO, _ ("To, clock time"), 5));
      gtk_widget_set_hexpand (spring, TRUE);
      gtk_box_append (GTK_BOX (box), spring);
      gtk_box_append (GTK_BOX (box), fr_tariff_entry_cell (self, i, CELL_PRICE, _ ("Price"), 6));
      gtk_box_append (GTK_BOX (box), icon_button (self, i, "user-trash-symbolic", _ ("Remove this row"),
                                                  G_CALLBACK (remove_row_cb)));
      add_line (list, box);
    }
  add = gtk_button_new_with_label (_ ("Add Hours"));
  gtk_widget_add_css_class (add, "flat");
  g_object_set_data (G_OBJECT (add), "row", GUINT_TO_POINTER (first));
  g_signal_connect_object (add, "clicked", G_CALLBACK (add_row_cb), self, 0);
  box = row_box ();
  gtk_box_append (GTK_BOX (box), add);
  add_line (list, box);
  gtk_box_append (self->seasons, list);
}

void
fr_tariff_rebuild (FrTariffEditor *self)
{
  GtkWidget *child;

  self->building = TRUE;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->seasons))) != NULL)
    gtk_box_remove (self->seasons, child);
  for (guint first = 0; first < self->rows->len;)
    {
      guint end = fr_tariff_season_end (self, first);

      build_season (self, first, end);
      first = end;
    }
  self->building = FALSE;
}

static void
fr_tariff_editor_dispose (GObject *object)
{
  FrTariffEditor *self = FR_TARIFF_EDITOR (object);

  self->building = TRUE; /* cells that lose the focus now have nothing to say */
  G_OBJECT_CLASS (fr_tariff_editor_parent_class)->dispose (object);
}

static void
fr_tariff_editor_finalize (GObject *object)
{
  FrTariffEditor *self = FR_TARIFF_EDITOR (object);

  g_array_unref (self->rows);
  g_free (self->text);
  g_free (self->currency);
  g_free (self->holidays);
  G_OBJECT_CLASS (fr_tariff_editor_parent_class)->finalize (object);
}

static void
fr_tariff_editor_class_init (FrTariffEditorClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_tariff_editor_dispose;
  G_OBJECT_CLASS (klass)->finalize = fr_tariff_editor_finalize;
  finished_signal = g_signal_new ("finished", FR_TYPE_TARIFF_EDITOR, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 1, G_TYPE_STRING);
}

static void
fr_tariff_editor_init (FrTariffEditor *self)
{
  GtkWidget *add = gtk_button_new_with_label (_ ("Add Season"));

  self->rows = g_array_new (FALSE, TRUE, sizeof (FrTariffPeriod));
  self->units.decimal_mark = '.';
  self->box = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 12));
  self->seasons = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 12));
  self->view = FR_PRICE_VIEW (fr_price_view_new ());
  self->caption = GTK_LABEL (gtk_label_new (""));
  self->problem = GTK_LABEL (gtk_label_new (""));
  gtk_label_set_xalign (self->caption, 0.0f);
  gtk_widget_add_css_class (GTK_WIDGET (self->caption), "note");
  gtk_label_set_xalign (self->problem, 0.0f);
  gtk_label_set_wrap (self->problem, TRUE);
  gtk_widget_add_css_class (GTK_WIDGET (self->problem), "problem");
  gtk_widget_set_halign (add, GTK_ALIGN_START);
  g_signal_connect_object (add, "clicked", G_CALLBACK (add_season_cb), self, 0);

  gtk_box_append (self->box, GTK_WIDGET (self->view));
  gtk_box_append (self->box, GTK_WIDGET (self->caption));
  gtk_box_append (self->box, GTK_WIDGET (self->seasons));
  gtk_box_append (self->box, GTK_WIDGET (self->problem));
  gtk_box_append (self->box, add);
  adw_bin_set_child (ADW_BIN (self), GTK_WIDGET (self->box));
}

GtkWidget *
fr_tariff_editor_new (void)
{
  return g_object_new (FR_TYPE_TARIFF_EDITOR, NULL);
}

void
fr_tariff_editor_set (FrTariffEditor *self, const FrTariffRecord *tariff, const FrUnits *units,
                      const char *currency)
{
  gboolean same_currency = g_strcmp0 (currency, self->currency) == 0;

  self->units = (FrUnits){ .system = units->system, .decimal_mark = units->decimal_mark };
  g_free (self->currency);
  self->currency = g_strdup (currency);
  g_free (self->holidays);
  self->holidays = g_strdup (tariff->holidays);
  self->adder_per_kwh = isnan (tariff->adder_per_kwh.value) ? 0 : tariff->adder_per_kwh.value;
  self->tax_ratio = isnan (tariff->tax_ratio.value) ? 0 : tariff->tax_ratio.value;

  /* Rows on their way (a price still missing) stay until they can be sent. */
  if (g_strcmp0 (tariff->periods, self->text) != 0 || !same_currency || self->rows->len == 0)
    {
      guint bad_line = 0;
      GArray *rows = fr_price_rows_parse (tariff->periods, &bad_line);

      if (rows != NULL)
        {
          g_array_unref (self->rows);
          self->rows = rows;
          g_free (self->text);
          self->text = g_strdup (tariff->periods);
        }
      if (rows != NULL && self->rows->len == 0)
        {
          FrTariffPeriod row = { 1, 1, 12, 31, FR_DAYS_ALL, 0, 1440, NAN };

          g_array_append_val (self->rows, row); /* one to begin with; it waits for its price */
        }
      fr_tariff_rebuild (self);
    }
  fr_tariff_review (self);
}
