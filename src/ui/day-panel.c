/* The day's panel. Lists are made anew with each change. */
#include "ui/day-panel.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "domain/plan/gathering.h"
#include "models/gather-log.h"
#include "ui/day-weather.h"
#include "ui/field-labels.h"
#include "ui/pieces.h"
#include "ui/reminder-row.h"
#include "ui/sap-dialogs.h"
#include "ui/window.h"
#include "words/forecast-day-words.h"
#include "words/gather-words.h"
#include "words/season-words.h"
#include "words/stock-words.h"

typedef enum
{
  PART_AHEAD,
  PART_GATHERED,
  PART_STORE,
  PART_BOILS,
  PART_SAP, /* poured and found */
  PART_REMINDERS,
  N_PARTS
} Part;

struct _FrDayPanel
{
  AdwBin parent_instance;
  FrSeason *season;
  GtkWidget *title;
  GtkWidget *earlier;
  GtkWidget *later;
  GtkWidget *note;
  GtkWidget *marks;
  GtkWidget *groups[N_PARTS];
  GPtrArray *rows[N_PARTS]; /* of the groups, to be taken out again */
  GtkWidget *weather;
  gboolean stale;
};

G_DEFINE_FINAL_TYPE (FrDayPanel, fr_day_panel, ADW_TYPE_BIN)

static guint open_log_signal;

static FrBook *
book_of (FrDayPanel *self)
{
  return fr_season_get_book (self->season);
}

/* --- rows --- */

static void
put_row (FrDayPanel *self, Part part, GtkWidget *row)
{
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (self->groups[part]), row);
  g_ptr_array_add (self->rows[part], row);
}

static GtkWidget *
add_row (FrDayPanel *self, Part part, const char *title, const char *note)
{
  GtkWidget *row = adw_action_row_new ();
  g_autofree char *title_markup = g_markup_escape_text (title, -1);
  g_autofree char *note_markup = g_markup_escape_text (note != NULL ? note : "", -1);

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title_markup);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row), note_markup);
  put_row (self, part, row);
  return row;
}

static void
add_value (FrDayPanel *self, GtkWidget *row, double volume_l)
{
  GtkWidget *label = gtk_label_new (NULL);
  g_autofree char *number = NULL, *markup = NULL;
  const char *unit = "";

  if (isnan (volume_l))
    return;
  fr_quantity_format (volume_l, FR_QUANTITY_VOLUME, &fr_season_get_say (self->season)->units, -1, &number,
                      &unit);
  markup = g_markup_printf_escaped ("<b>%s</b> %s", number, unit);
  gtk_label_set_markup (GTK_LABEL (label), markup);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), label);
}

/* A record that the row opens, by kind and number, since it may be gone by then. */
static void
edit_cb (GtkWidget *row, gpointer user_data)
{
  FrDayPanel *self = FR_DAY_PANEL (user_data);
  FrKindId kind = (FrKindId)GPOINTER_TO_INT (g_object_get_data (G_OBJECT (row), "kind"));
  const gint64 *id = g_object_get_data (G_OBJECT (row), "id");
  const FrRecord *record = fr_book_find (book_of (self), kind, *id);

  if (record != NULL)
    fr_sap_edit (fr_window_of (GTK_WIDGET (self)), self->season, record);
}

static void
opens (FrDayPanel *self, GtkWidget *row, const FrRecord *record)
{
  g_object_set_data (G_OBJECT (row), "kind", GINT_TO_POINTER (record->kind->id));
  g_object_set_data_full (G_OBJECT (row), "id", g_memdup2 (&record->id, sizeof record->id), g_free);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), TRUE);
  g_signal_connect_object (row, "activated", G_CALLBACK (edit_cb), self, 0);
}

static void
empty_part (FrDayPanel *self, Part part)
{
  for (guint i = 0; i < self->rows[part]->len; i++)
    adw_preferences_group_remove (ADW_PREFERENCES_GROUP (self->groups[part]), self->rows[part]->pdata[i]);
  g_ptr_array_set_size (self->rows[part], 0);
}

static gboolean
is_on_day (FrDayPanel *self, gint64 utc_s)
{
  return fr_date_compare (fr_zone_local (fr_season_get_zone (self->season), utc_s).date,
                          fr_season_get_day (self->season))
         == 0;
}

static gboolean
is_today (FrDayPanel *self)
{
  return fr_date_compare (fr_season_get_day (self->season), fr_season_get_today (self->season)) == 0;
}

/* --- gathered --- */

static void
open_round_cb (GtkWidget *row, gpointer user_data)
{
  FrDayPanel *self = FR_DAY_PANEL (user_data);

  g_signal_emit (self, open_log_signal, 0, fr_date_to_days (fr_season_get_day (self->season)),
                 GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (row), "round")));
}

static void
new_round_cb (FrDayPanel *self)
{
  g_signal_emit (self, open_log_signal, 0, fr_date_to_days (fr_season_get_day (self->season)), G_MAXUINT);
}

static char *
round_title (const FrGatherRound *round)
{
  if (round->only != NULL)
    return g_strdup (round->only);
  switch (round->scope)
    {
    case FR_GATHER_TREE:
      return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u tree", "%u trees", round->n), round->n);
    case FR_GATHER_TAP:
      return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u tap", "%u taps", round->n), round->n);
    case FR_GATHER_GROUP:
      return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u group", "%u groups", round->n), round->n);
    case FR_GATHER_BUSH:
    case FR_N_GATHER_SCOPES:
    default:
      return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u row", "%u rows", round->n), round->n);
    }
}

static void
show_gathered (FrDayPanel *self)
{
  const FrSay *say = fr_season_get_say (self->season);
  g_autoptr (GArray) rounds = fr_gather_day_rounds (book_of (self), fr_season_get_zone (self->season),
                                                    fr_season_get_day (self->season));
  double ice_l = 0;

  for (guint i = 0; i < rounds->len; i++)
    {
      const FrGatherRound *round = &g_array_index (rounds, FrGatherRound, i);
      g_autofree char *title = round_title (round), *clock = fr_say_clock (say, round->from_utc);
      g_autofree char *brix
          = isnan (round->brix) ? NULL : fr_say_amount (say, round->brix, FR_QUANTITY_SWEETNESS, -1);
      /* Translators: a clock time, a sweetness */
      g_autofree char *note = brix != NULL ? g_strdup_printf (_ ("%s, %s"), clock, brix) : g_strdup (clock);
      GtkWidget *row = add_row (self, PART_GATHERED, title, note);

      add_value (self, row, round->volume_l);
      g_object_set_data (G_OBJECT (row), "round", GUINT_TO_POINTER (i));
      gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), TRUE);
      g_signal_connect_object (row, "activated", G_CALLBACK (open_round_cb), self, 0);
      ice_l += round->ice_l;
    }
  if (ice_l > 0)
    add_value (self, add_row (self, PART_GATHERED, _ ("Ice thrown out"), NULL), ice_l);
  if (rounds->len == 0)
    add_row (self, PART_GATHERED, _ ("Nothing written down"), NULL);
}

/* --- expected --- */

static void
show_ahead (FrDayPanel *self)
{
  const FrForecast *forecast = fr_season_get_forecast (self->season);
  const FrForecastDay *day = forecast != NULL ? fr_forecast_day (forecast, fr_season_get_day (self->season)) : NULL;
  g_autoptr (FrForecastDayWords) words = NULL;

  if (day != NULL && day->is_ahead && !isnan (day->run_probability))
    {
      const FrFigure *chance;
      GtkWidget *label = gtk_label_new (NULL);
      g_autofree char *title = NULL, *markup = NULL;

      words = fr_forecast_day_words_new (forecast, day, -1, NAN, fr_season_get_say (self->season));
      chance = words->rows->pdata[0];
      /* Translators: a chance in percent, such as 91 */
      title = g_strdup_printf (_ ("%s %% chance of a run"), chance->number);
      markup = g_markup_printf_escaped ("<b>%s</b> %s", words->number, fr_quantity_unit (FR_QUANTITY_VOLUME, &fr_season_get_say (self->season)->units));
      gtk_label_set_markup (GTK_LABEL (label), markup);
      adw_action_row_add_suffix (ADW_ACTION_ROW (add_row (self, PART_AHEAD, title, words->range)), label);
    }
  gtk_widget_set_visible (self->groups[PART_AHEAD], self->rows[PART_AHEAD]->len > 0);
}

/* --- in store --- */

static void
open_store_cb (GtkWidget *row, gpointer user_data)
{
  gtk_widget_activate_action (GTK_WIDGET (user_data), "season.view", "s", "store");
}

static void
show_store (FrDayPanel *self, const FrSeasonDay *day)
{
  const FrSay *say = fr_season_get_say (self->season);

  if (is_today (self))
    {
      const FrStock *stock = fr_season_get_present (self->season)->stock;

      for (guint i = 0; i < stock->n_places; i++)
        {
          const FrStockPlace *place = &stock->places[i];
          g_autofree char *note = fr_stock_place_note (place, stock, say);
          GtkWidget *row;

          if (note == NULL && !(place->volume_l < -FR_STOCK_NOTHING_L))
            continue;
          row = add_row (self, PART_STORE,
                         place->container != NULL ? place->container->name : _ ("Place not said"), note);
          add_value (self, row, place->volume_l);
          gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), TRUE);
          g_signal_connect_object (row, "activated", G_CALLBACK (open_store_cb), self, 0);
        }
    }
  else if (day != NULL && !isnan (day->store_l))
    add_value (self, add_row (self, PART_STORE, _ ("All containers"), _ ("At the day’s end")), day->store_l);
  gtk_widget_set_visible (self->groups[PART_STORE], self->rows[PART_STORE]->len > 0);
}

/* --- boils --- */

static void
show_boils (FrDayPanel *self)
{
  FrRecordList *list = fr_book_get_list (book_of (self), FR_KIND_NIGHT);
  const FrSay *say = fr_season_get_say (self->season);
  g_autofree char *iso = fr_date_to_iso (fr_season_get_day (self->season));

  for (guint i = 0; i < fr_record_list_get_size (list); i++)
    {
      const FrNight *night = (const FrNight *)fr_record_list_get (list, i);
      const FrRecord *cooker;
      gint64 end_utc;
      g_autofree char *from = NULL, *to = NULL, *cost = NULL, *note = NULL;
      GtkWidget *row;

      if (night->record.archived || g_strcmp0 (night->evening, iso) != 0)
        continue;
      cooker = fr_book_find (book_of (self), FR_KIND_COOKER, night->cooker);
      end_utc = night->end_utc != G_MININT64 ? night->end_utc : night->plan_end_utc;
      from = fr_say_clock (say, night->start_utc);
      to = end_utc != G_MININT64 ? fr_say_clock (say, end_utc) : g_strdup ("–");
      cost = fr_say_money (say, night->plan_cost.value);
      /* Translators: clock times, an amount of money */
      note = g_strdup_printf (_ ("%s to %s, %s"), from, to, cost);
      row = add_row (self, PART_BOILS, cooker != NULL ? fr_record_label (cooker) : _ ("Boil"), note);
      add_value (self, row,
                 (isnan (night->pan_l.value) ? 0 : night->pan_l.value)
                     + (isnan (night->bucket_l.value) ? 0 : night->bucket_l.value));
      opens (self, row, &night->record);
    }
  adw_preferences_group_set_title (ADW_PREFERENCES_GROUP (self->groups[PART_BOILS]),
                                   is_today (self) ? _ ("Tonight") : _ ("Boils"));
  gtk_widget_set_visible (self->groups[PART_BOILS], self->rows[PART_BOILS]->len > 0);
}

/* --- poured and found --- */

static void
show_sap (FrDayPanel *self)
{
  static const FrKindId kinds[] = { FR_KIND_POUR, FR_KIND_DIP };
  const FrSay *say = fr_season_get_say (self->season);

  for (guint k = 0; k < G_N_ELEMENTS (kinds); k++)
    {
      FrRecordList *list = fr_book_get_list (book_of (self), kinds[k]);

      for (guint i = 0; i < fr_record_list_get_size (list); i++)
        {
          const FrRecord *record = fr_record_list_get (list, i);
          const FrPour *pour = kinds[k] == FR_KIND_POUR ? (const FrPour *)record : NULL;
          const FrDip *dip = kinds[k] == FR_KIND_DIP ? (const FrDip *)record : NULL;
          gint64 utc_s = pour != NULL ? pour->poured_utc : dip->found_utc;
          const FrRecord *container = fr_book_find (book_of (self), FR_KIND_CONTAINER,
                                                    pour != NULL ? pour->container : dip->container);
          g_autofree char *clock = NULL, *note = NULL, *name = NULL;
          GtkWidget *row;

          if (record->archived || !is_on_day (self, utc_s))
            continue;
          clock = fr_say_clock (say, utc_s);
          name = g_strdup (container != NULL ? fr_record_label (container) : _ ("Place not said"));
          /* Translators: a container's name, a clock time */
          note = g_strdup_printf (_ ("%s, %s"), name, clock);
          row = add_row (self, PART_SAP,
                         pour != NULL ? fr_code_word ("reason", pour->reason) : _ ("Looked into"), note);
          add_value (self, row,
                     pour != NULL ? pour->volume_l.value
                                  : fr_dip_l (dip, (const FrContainer *)container, FR_STOCK_SAP_BRIX));
          opens (self, row, record);
        }
    }
  gtk_widget_set_visible (self->groups[PART_SAP], self->rows[PART_SAP]->len > 0);
}

/* --- reminders --- */

static void
show_reminders (FrDayPanel *self)
{
  GPtrArray *reminders = fr_season_get_present (self->season)->reminders;

  for (guint i = 0; i < reminders->len; i++)
    {
      const FrReminder *reminder = reminders->pdata[i];

      if (fr_date_compare (reminder->day, fr_season_get_day (self->season)) == 0)
        put_row (self, PART_REMINDERS, fr_reminder_row_new (self->season, reminder));
    }
  gtk_widget_set_visible (self->groups[PART_REMINDERS], self->rows[PART_REMINDERS]->len > 0);
}

/* --- all --- */

static void
show_head (FrDayPanel *self, const FrSeasonDay *day)
{
  const FrSeasonView *view = fr_season_get_view (self->season);
  const FrSay *say = fr_season_get_say (self->season);
  FrDate date = fr_season_get_day (self->season);
  guint season = fr_season_get_season (self->season);
  g_autofree char *title = fr_say_date (date);
  g_autofree char *note = day != NULL ? fr_season_day_note (view, day, say) : NULL;
  g_autoptr (GPtrArray) marks = day != NULL ? fr_season_day_marks (view, day, say) : NULL;
  g_autofree char *joined = NULL;

  if (marks != NULL && marks->len > 0)
    {
      g_ptr_array_add (marks, NULL);
      joined = g_strjoinv (" · ", (char **)marks->pdata);
    }
  gtk_label_set_text (GTK_LABEL (self->title), title);
  fr_set_text (self->note, note);
  fr_set_text (self->marks, joined);
  gtk_widget_set_sensitive (self->earlier, fr_date_compare (date, fr_season_first_day (season)) > 0);
  gtk_widget_set_sensitive (self->later, fr_date_compare (date, fr_season_last_day (season)) < 0);
}

static void
show (FrDayPanel *self)
{
  const FrSeasonDay *day;

  if (!gtk_widget_get_mapped (GTK_WIDGET (self)))
    {
      self->stale = TRUE;
      return;
    }
  self->stale = FALSE;
  day = fr_season_view_day (fr_season_get_view (self->season), fr_season_get_day (self->season));
  for (guint part = 0; part < N_PARTS; part++)
    empty_part (self, (Part)part);
  show_head (self, day);
  show_ahead (self);
  show_gathered (self);
  show_store (self, day);
  show_boils (self);
  show_sap (self);
  fr_day_weather_show (FR_DAY_WEATHER (self->weather));
  show_reminders (self);
}

static void
map_cb (FrDayPanel *self)
{
  if (self->stale)
    show (self);
}

static void
step (FrDayPanel *self, int by)
{
  fr_season_set_day (self->season, fr_date_add_days (fr_season_get_day (self->season), by));
}

static void
earlier_cb (FrDayPanel *self)
{
  step (self, -1);
}

static void
later_cb (FrDayPanel *self)
{
  step (self, 1);
}

/* --- making --- */

static void
make_head (FrDayPanel *self, GtkBox *box)
{
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 2),
            *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);

  self->title = fr_wrapped_text (NULL, "panel-title");
  gtk_widget_set_hexpand (self->title, TRUE);
  self->earlier = fr_icon_button_new ("go-previous-symbolic", _ ("Day Before"), G_CALLBACK (earlier_cb), self);
  self->later = fr_icon_button_new ("go-next-symbolic", _ ("Day After"), G_CALLBACK (later_cb), self);
  gtk_box_append (GTK_BOX (head), self->title);
  gtk_box_append (GTK_BOX (head), self->earlier);
  gtk_box_append (GTK_BOX (head), self->later);
  self->note = fr_wrapped_text (NULL, "soft");
  self->marks = fr_wrapped_text (NULL, "soft");
  gtk_box_append (GTK_BOX (words), head);
  gtk_box_append (GTK_BOX (words), self->note);
  gtk_box_append (GTK_BOX (words), self->marks);
  gtk_box_append (box, words);
}

static void
make_part (FrDayPanel *self, GtkBox *box, Part part, const char *title)
{
  self->groups[part] = adw_preferences_group_new ();
  self->rows[part] = g_ptr_array_new ();
  adw_preferences_group_set_title (ADW_PREFERENCES_GROUP (self->groups[part]), title);
  gtk_box_append (box, self->groups[part]);
}

static void
fr_day_panel_dispose (GObject *object)
{
  FrDayPanel *self = FR_DAY_PANEL (object);

  adw_bin_set_child (ADW_BIN (self), NULL);
  if (self->season != NULL)
    g_signal_handlers_disconnect_by_data (self->season, self);
  for (guint part = 0; part < N_PARTS; part++)
    g_clear_pointer (&self->rows[part], g_ptr_array_unref);
  g_clear_object (&self->season);
  G_OBJECT_CLASS (fr_day_panel_parent_class)->dispose (object);
}

static void
fr_day_panel_class_init (FrDayPanelClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_day_panel_dispose;
  open_log_signal = g_signal_new ("open-log", FR_TYPE_DAY_PANEL, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 2, G_TYPE_INT64, G_TYPE_UINT);
}

static void
fr_day_panel_init (FrDayPanel *self)
{
}

GtkWidget *
fr_day_panel_new (FrSeason *season)
{
  FrDayPanel *self = g_object_new (FR_TYPE_DAY_PANEL, NULL);
  GtkBox *box = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 18));
  GtkWidget *add = gtk_button_new_from_icon_name ("list-add-symbolic");

  self->season = g_object_ref (season);
  make_head (self, box);
  make_part (self, box, PART_AHEAD, _ ("Expected"));
  make_part (self, box, PART_GATHERED, _ ("Gathered"));
  make_part (self, box, PART_STORE, _ ("In Store"));
  make_part (self, box, PART_BOILS, _ ("Boils"));
  make_part (self, box, PART_SAP, _ ("Poured and Found"));
  make_part (self, box, PART_REMINDERS, _ ("Reminders"));
  self->weather = fr_day_weather_new (season);
  gtk_box_append (box, self->weather);
  gtk_widget_add_css_class (add, "flat");
  gtk_widget_set_tooltip_text (add, _ ("Write Down a Gathering of This Day"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (add), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Write down a gathering of this day"), -1);
  g_signal_connect_object (add, "clicked", G_CALLBACK (new_round_cb), self, G_CONNECT_SWAPPED);
  adw_preferences_group_set_header_suffix (ADW_PREFERENCES_GROUP (self->groups[PART_GATHERED]), add);
  gtk_widget_add_css_class (GTK_WIDGET (box), "tree-panel");
  adw_bin_set_child (ADW_BIN (self), GTK_WIDGET (box));
  self->stale = TRUE;
  g_signal_connect_swapped (season, "changed", G_CALLBACK (show), self);
  g_signal_connect_swapped (season, "day-changed", G_CALLBACK (show), self);
  g_signal_connect_after (self, "map", G_CALLBACK (map_cb), NULL);
  return GTK_WIDGET (self);
}
