/* Low and high by hand. Until the middle of the afternoon the day's highest has not come: the high is yesterday's then, later today's. */
#include "ui/night-day-dialog.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "models/season-edit.h"
#include "ui/dialog-frame.h"
#include "ui/quantity-row.h"

/* Common sense, no source. */
#define AFTERNOON_S (16 * 3600)

enum
{
  ROW_LOW,
  ROW_HIGH,
  N_ROWS
};

struct _FrNightDayDialog
{
  AdwWindow parent_instance;
  FrWindow *window;
  FrSeason *season;
  FrDate dates[N_ROWS];
  double values_c[N_ROWS];
  char *typed[N_ROWS];
  GtkWidget *group;
  GtkWidget *rows[N_ROWS];
  GtkWidget *keep_button;
};

G_DEFINE_FINAL_TYPE (FrNightDayDialog, fr_night_day_dialog, ADW_TYPE_WINDOW)

static const FrUnits *
units_of (FrNightDayDialog *self)
{
  return &fr_season_get_say (self->season)->units;
}

static void
update (FrNightDayDialog *self)
{
  gboolean any = FALSE, wrong = FALSE;

  for (guint i = 0; i < N_ROWS; i++)
    {
      any = any || self->typed[i] != NULL;
      wrong = wrong || fr_entry_row_get_problem (FR_ENTRY_ROW (self->rows[i])) != NULL;
    }
  gtk_widget_set_sensitive (self->keep_button, any && !wrong);
}

static void
take (FrQuantityRow *row, const char *text, gboolean finished, gpointer user_data)
{
  FrNightDayDialog *self = FR_NIGHT_DAY_DIALOG (user_data);
  guint i = self->rows[ROW_LOW] == GTK_WIDGET (row) ? ROW_LOW : ROW_HIGH;
  double value_c;

  if (fr_quantity_row_read (row, text, finished, units_of (self), &value_c))
    {
      g_free (self->typed[i]);
      self->values_c[i] = value_c;
      self->typed[i] = isnan (value_c) ? NULL : g_strdup (text);
      if (finished)
        fr_quantity_row_set (row, value_c, text, units_of (self), NULL);
    }
  update (self);
}

static void
keep_cb (FrNightDayDialog *self)
{
  FrSeenAir seen[N_ROWS];
  GError *error = NULL;
  FrChange *change;

  for (guint i = 0; i < N_ROWS; i++)
    fr_entry_row_finish (FR_ENTRY_ROW (self->rows[i]));
  if (!gtk_widget_get_sensitive (self->keep_button))
    return;
  seen[0] = (FrSeenAir){ self->dates[ROW_LOW], self->values_c[ROW_LOW], self->typed[ROW_LOW], NAN, NULL };
  seen[1] = (FrSeenAir){ self->dates[ROW_HIGH], NAN, NULL, self->values_c[ROW_HIGH], self->typed[ROW_HIGH] };
  if (fr_date_compare (seen[0].date, seen[1].date) == 0)
    {
      seen[0].high_c = seen[1].high_c;
      seen[0].high_typed = seen[1].high_typed;
    }
  change = fr_season_edit_air (fr_season_get_book (self->season), seen,
                               fr_date_compare (seen[0].date, seen[1].date) == 0 ? 1 : 2, &error);
  if (error != NULL)
    {
      fr_entry_row_set_problem (FR_ENTRY_ROW (self->rows[ROW_HIGH]), error->message);
      g_error_free (error);
      return;
    }
  fr_window_finish (self->window, change, NULL);
  gtk_window_close (GTK_WINDOW (self));
}

/* Enter in the first entry leads to the second, in the second it keeps. */
static gboolean
key_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state, gpointer user_data)
{
  FrNightDayDialog *self = FR_NIGHT_DAY_DIALOG (user_data);
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));

  if ((keyval != GDK_KEY_Return && keyval != GDK_KEY_KP_Enter && keyval != GDK_KEY_ISO_Enter) || focus == NULL
      || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return FALSE;
  if (gtk_widget_is_ancestor (focus, self->rows[ROW_LOW]))
    {
      fr_entry_row_finish (FR_ENTRY_ROW (self->rows[ROW_LOW]));
      fr_entry_row_grab (FR_ENTRY_ROW (self->rows[fr_entry_row_get_problem (FR_ENTRY_ROW (self->rows[ROW_LOW])) ? ROW_LOW : ROW_HIGH]));
      return TRUE;
    }
  if (gtk_widget_is_ancestor (focus, self->rows[ROW_HIGH]))
    {
      keep_cb (self);
      return TRUE;
    }
  return FALSE;
}

static void
fr_night_day_dialog_finalize (GObject *object)
{
  FrNightDayDialog *self = FR_NIGHT_DAY_DIALOG (object);

  for (guint i = 0; i < N_ROWS; i++)
    g_free (self->typed[i]);
  g_clear_object (&self->season);
  G_OBJECT_CLASS (fr_night_day_dialog_parent_class)->finalize (object);
}

static void
fr_night_day_dialog_class_init (FrNightDayDialogClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = fr_night_day_dialog_finalize;
  fr_dialog_frame_class_init (GTK_WIDGET_CLASS (klass));
}

static void
fr_night_day_dialog_init (FrNightDayDialog *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkBox *inner;

  self->keep_button
      = fr_dialog_frame_build (ADW_WINDOW (self), _ ("Night and Day"), 460, 230, G_CALLBACK (keep_cb), self, &inner);
  self->group = adw_preferences_group_new ();
  gtk_box_append (inner, self->group);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
}

GtkWidget *
fr_night_day_dialog_new (FrWindow *window, FrSeason *season)
{
  FrNightDayDialog *self = g_object_new (FR_TYPE_NIGHT_DAY_DIALOG, "transient-for", window, NULL);
  FrBook *book = fr_season_get_book (season);
  FrLocalTime now = fr_zone_local (fr_season_get_zone (season), fr_season_get_now (season));
  gboolean is_late = now.second_of_day >= AFTERNOON_S;

  self->window = window;
  self->season = g_object_ref (season);
  self->dates[ROW_LOW] = now.date;
  self->dates[ROW_HIGH] = is_late ? now.date : fr_date_add_days (now.date, -1);
  for (guint i = 0; i < N_ROWS; i++)
    {
      const FrDay *kept = fr_season_find_day (book, self->dates[i]);
      const FrAmount *amount = kept == NULL || kept->expected ? NULL : i == ROW_LOW ? &kept->low_c : &kept->high_c;
      g_autofree char *date = fr_say_date (self->dates[i]);
      /* Translators: a date */
      g_autofree char *night = g_strdup_printf (_ ("Lowest, night to %s"), date);
      /* Translators: a date */
      g_autofree char *day = g_strdup_printf (_ ("Highest on %s"), date);

      self->values_c[i] = amount != NULL ? amount->value : NAN;
      self->rows[i] = fr_quantity_row_new (i == ROW_LOW ? night : day, NULL, FR_QUANTITY_TEMPERATURE);
      fr_quantity_row_set (FR_QUANTITY_ROW (self->rows[i]), self->values_c[i], amount != NULL ? amount->typed : NULL,
                           units_of (self), NULL);
      if (amount != NULL && !isnan (amount->value))
        self->typed[i] = g_strdup (amount->typed);
      fr_quantity_row_on_text (FR_QUANTITY_ROW (self->rows[i]), take, self);
      adw_preferences_group_add (ADW_PREFERENCES_GROUP (self->group), self->rows[i]);
    }
  adw_preferences_group_set_description (ADW_PREFERENCES_GROUP (self->group),
                                         _ ("As your own thermometer had it. One of the two will do."));
  update (self);
  fr_entry_row_grab (FR_ENTRY_ROW (self->rows[ROW_LOW]));
  return GTK_WIDGET (self);
}
