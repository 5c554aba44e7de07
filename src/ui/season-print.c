/* What to choose of the sheet, and where to. */
#include "ui/season-print.h"

#include <glib/gi18n-lib.h>

#include "ui/choice-rows.h"
#include "ui/dialog-frame.h"
#include "ui/forecast-paper.h"
#include "ui/pieces.h"
#include "ui/save-file.h"
#include "ui/season-paper.h"

struct _FrSeasonPrint
{
  AdwWindow parent_instance;
  FrWindow *window;
  FrSeason *season;
  FrForecaster *forecaster; /* NULL: the season is printed */
  FrForecastScores *scores;
  GtkWidget *paper;
  GtkWidget *months; /* NULL of a forecast */
};

G_DEFINE_FINAL_TYPE (FrSeasonPrint, fr_season_print, ADW_TYPE_WINDOW)

GBytes *
fr_season_print_make (FrSeasonPrint *self, guint *n_pages, GError **error)
{
  FrSheetSize size = (FrSheetSize)adw_combo_row_get_selected (ADW_COMBO_ROW (self->paper));

  if (self->forecaster != NULL)
    return fr_forecast_paper_pdf (self->forecaster, fr_forecast_scores_get (self->scores), self->season, size, n_pages, error);
  return fr_season_paper_pdf (self->season, size, gtk_switch_get_active (GTK_SWITCH (self->months)), n_pages, error);
}

static GBytes *
make (GtkWindow *dialog, GError **error)
{
  return fr_season_print_make (FR_SEASON_PRINT (dialog), NULL, error);
}

static void
save_cb (FrSeasonPrint *self)
{
  g_autofree char *today = fr_date_to_iso (fr_season_get_today (self->season));
  g_autofree char *name = self->forecaster != NULL
                              ? g_strdup_printf ("forecast-%s.pdf", today)
                              : g_strdup_printf ("season-%u.pdf", fr_season_get_season (self->season));

  fr_save_pdf (self->window, GTK_WINDOW (self), name, make);
}

static void
fr_season_print_dispose (GObject *object)
{
  g_clear_object (&FR_SEASON_PRINT (object)->season);
  g_clear_object (&FR_SEASON_PRINT (object)->forecaster);
  g_clear_object (&FR_SEASON_PRINT (object)->scores);
  G_OBJECT_CLASS (fr_season_print_parent_class)->dispose (object);
}

static void
fr_season_print_class_init (FrSeasonPrintClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_season_print_dispose;
  fr_dialog_frame_class_init (GTK_WIDGET_CLASS (klass));
}

static void
fr_season_print_init (FrSeasonPrint *self)
{
}

static FrSeasonPrint *
print_new (FrWindow *window, FrSeason *season, const char *what)
{
  FrSeasonPrint *self = g_object_new (FR_TYPE_SEASON_PRINT, "transient-for", window, NULL);
  GtkWidget *list = gtk_list_box_new (), *save;
  GtkBox *inner;

  self->window = window;
  self->season = g_object_ref (season);
  save = fr_dialog_frame_build (ADW_WINDOW (self), _ ("Print"), 460, 270, G_CALLBACK (save_cb), self, &inner);
  gtk_button_set_label (GTK_BUTTON (save), _ ("_Save…"));
  gtk_list_box_set_selection_mode (GTK_LIST_BOX (list), GTK_SELECTION_NONE);
  gtk_widget_add_css_class (list, "boxed-list");
  self->paper = fr_paper_row_new (fr_season_get_say (season)->units.system);
  gtk_list_box_append (GTK_LIST_BOX (list), self->paper);
  gtk_box_append (inner, list);
  gtk_box_append (inner, fr_wrapped_text (what, "soft"));
  return self;
}

GtkWidget *
fr_season_print_new (FrWindow *window, FrSeason *season)
{
  FrSeasonPrint *self
      = print_new (window, season, _ ("The season’s answer and its picture, then its days as a table."));

  gtk_list_box_append (GTK_LIST_BOX (gtk_widget_get_parent (self->paper)),
                       fr_switch_row_new (_ ("A page for each month"), NULL, &self->months));
  return GTK_WIDGET (self);
}

GtkWidget *
fr_forecast_print_new (FrWindow *window, FrSeason *season, FrForecaster *forecaster, FrForecastScores *scores)
{
  FrSeasonPrint *self = print_new (window, season,
                                   _ ("What to do and the picture of the days ahead, then the days as a table, the season "
                                      "so far and how well the forecast did."));

  self->forecaster = g_object_ref (forecaster);
  self->scores = g_object_ref (scores);
  return GTK_WIDGET (self);
}
