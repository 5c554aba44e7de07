/* The day's log. A line is written as it is left; the toast is spared, for the mark at the line's end says
 * so, and undo takes back line by line. */
#include "ui/log-view.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "domain/plan/bush.h"
#include "models/season-edit.h"
#include "ui/clock.h"
#include "ui/log-line.h"
#include "ui/log-round.h"
#include "ui/pieces.h"
#include "ui/sap-dialogs.h"
#include "ui/sap-import-dialog.h"
#include "ui/side-pane.h"
#include "ui/time-entry.h"
#include "ui/tonight-answer.h"
#include "ui/window.h"
#include "ui/wrap-layout.h"
#include "words/gather-words.h"

struct _FrLogView
{
  AdwBin parent_instance;
  FrGatherLog *log;
  FrSeason *season;
  FrSugarbush *bush;
  GtkWidget *answer;
  GtkWidget *day;
  GtkWidget *round;
  GtkWidget *scope;
  GtkWidget *order;
  GtkWidget *heads;
  GtkWidget *table; /* heads and list */
  GtkWidget *empty;
  GtkWidget *list;
  GHashTable *places; /* FrGatherRow, borrowed, to its place from 1 */
  GtkWidget *pane;
  gboolean walk_stale; /* trees or taps moved since the walk was asked for */
  gboolean filling;
};

G_DEFINE_FINAL_TYPE (FrLogView, fr_log_view, ADW_TYPE_BIN)

static FrBook *
book_of (FrLogView *self)
{
  return fr_gather_log_get_book (self->log);
}

static FrZoneTable *
zone_of (FrBook *book)
{
  return fr_book_zone (book, fr_clock_local (NULL).date.year);
}

static FrLogLine *
line_at (FrLogView *self, int index)
{
  GtkListBoxRow *row = index >= 0 ? gtk_list_box_get_row_at_index (GTK_LIST_BOX (self->list), index) : NULL;

  return row != NULL ? FR_LOG_LINE (row) : NULL;
}

/* --- what is shown --- */

static void
show_answer (FrLogView *self)
{
  static const FrGatheredWhat whats[FR_N_GATHER_SCOPES]
      = { FR_GATHERED_BUSH, FR_GATHERED_GROUPS, FR_GATHERED_TREES, FR_GATHERED_TAPS };
  FrSay say = { .units = *fr_book_get_units (book_of (self)) };
  FrGatherSum sum = fr_gather_log_sum (self->log);
  g_autofree char *sentence = fr_gathered_markup (&say, whats[fr_gather_log_get_scope (self->log)],
                                                  sum.n_rows, sum.n_kept, sum.volume_l);
  g_autofree char *reason = fr_gathered_reason (&say, sum.brix, sum.sugar_kg, sum.n_begun);

  fr_tonight_answer_set_texts (FR_TONIGHT_ANSWER (self->answer), sentence, reason, NULL, NULL);
}

static void
show_day (FrLogView *self)
{
  FrDate day = fr_gather_log_get_day (self->log);
  g_autoptr (FrZoneTable) zone = zone_of (book_of (self));
  g_autofree char *date = fr_say_date (day);
  gboolean today = fr_date_compare (fr_clock_local (zone).date, day) == 0;
  /* Translators: %s is a weekday and date */
  g_autofree char *words = today ? g_strdup_printf (_ ("Today, %s"), date) : g_strdup (date);

  gtk_label_set_text (GTK_LABEL (self->day), words);
}

static void
show_rounds (FrLogView *self)
{
  guint n = fr_gather_log_n_rounds (self->log);
  g_autoptr (GtkStringList) words = gtk_string_list_new (NULL);
  g_autoptr (FrZoneTable) zone = zone_of (book_of (self));
  FrSay say = { .zone = zone, .twelve_hour = fr_say_locale_is_twelve_hour () };

  for (guint i = 0; i < n; i++)
    {
      guint rows = 0;
      gint64 utc_s = fr_gather_log_round_utc (self->log, i, &rows);
      g_autofree char *clock
          = zone != NULL ? fr_say_clock (&say, utc_s) : fr_time_text (book_of (self), utc_s);
      g_autofree char *text
          /* Translators: a clock time, how many rows were written down */
          = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%s, %u row", "%s, %u rows", rows), clock, rows);

      gtk_string_list_append (words, text);
    }
  gtk_string_list_append (words, _ ("New Round"));
  if (!fr_words_are_shown (gtk_drop_down_get_model (GTK_DROP_DOWN (self->round)), words))
    gtk_drop_down_set_model (GTK_DROP_DOWN (self->round), G_LIST_MODEL (words));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->round), fr_gather_log_get_round (self->log));
  gtk_widget_set_visible (self->round, n > 0);
}

static void
changed_cb (FrLogView *self)
{
  self->filling = TRUE;
  show_answer (self);
  show_day (self);
  show_rounds (self);
  fr_log_heads_set (self->heads, self->log);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->scope), fr_gather_log_get_scope (self->log));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->order), fr_gather_log_get_order (self->log));
  gtk_widget_set_sensitive (self->order, fr_gather_log_n_rows (self->log) > 1);
  gtk_widget_set_visible (self->table, fr_gather_log_n_rows (self->log) > 0);
  gtk_widget_set_visible (self->empty, fr_gather_log_n_rows (self->log) == 0);
  self->filling = FALSE;
}

/* --- writing --- */

/* The bush of the log's season, or NULL while another is looked at. */
static const FrBush *
bush_of (FrLogView *self)
{
  return fr_sugarbush_get_season (self->bush) == fr_season_of (fr_gather_log_get_day (self->log))
             ? fr_sugarbush_get_bush (self->bush)
             : NULL;
}

static gboolean
write_line (FrLogView *self, FrLogLine *line, gboolean confirmed)
{
  g_autoptr (FrRecord) record = fr_gather_log_record (self->log, fr_log_line_get_row (line));
  FrWindow *window = fr_window_of (GTK_WIDGET (self));
  g_autofree char *question = NULL;
  GError *error = NULL;
  FrChange *change;

  if (record == NULL || window == NULL)
    return FALSE;
  ((FrGathering *)record)->confirmed = confirmed;
  question = confirmed ? NULL : fr_sap_question (self->season, bush_of (self), record);
  fr_log_line_set_question (line, question);
  if (question != NULL)
    return FALSE;
  change = fr_season_edit_keep (book_of (self), record, &error);
  return fr_window_write (window, change, error);
}

static void
left_cb (FrLogLine *line, gpointer user_data)
{
  write_line (FR_LOG_VIEW (user_data), line, FALSE);
}

static void
kept_anyway_cb (FrLogLine *line, gpointer user_data)
{
  write_line (FR_LOG_VIEW (user_data), line, TRUE);
}

static void
step_cb (FrLogLine *line, int field, int by, gpointer user_data)
{
  FrLogView *self = FR_LOG_VIEW (user_data);
  FrLogLine *next = line_at (self, gtk_list_box_row_get_index (GTK_LIST_BOX_ROW (line)) + by);

  if (next != NULL)
    {
      fr_log_line_focus (next, (FrGatherField)field);
      return;
    }
  write_line (self, line, FALSE); /* Enter in the last one */
  fr_log_line_focus (line, (FrGatherField)field);
}

static void
pasted_cb (FrLogLine *line, const char *text, gpointer user_data)
{
  FrLogView *self = FR_LOG_VIEW (user_data);
  FrWindow *window = fr_window_of (GTK_WIDGET (self));
  g_autoptr (GError) error = NULL;
  GtkWidget *dialog = window != NULL
                          ? fr_sap_import_dialog_new (window, self->season, text, strlen (text), NULL, &error)
                          : NULL;

  if (dialog != NULL)
    gtk_window_present (GTK_WINDOW (dialog));
  else if (error != NULL)
    fr_window_show_error (window, error);
}

static GtkWidget *
line_new (FrLogView *self, FrGatherRow *row)
{
  GtkWidget *line = fr_log_line_new (self->log, row);

  g_signal_connect (line, "left", G_CALLBACK (left_cb), self);
  g_signal_connect (line, "step", G_CALLBACK (step_cb), self);
  g_signal_connect (line, "pasted", G_CALLBACK (pasted_cb), self);
  g_signal_connect (line, "kept-anyway", G_CALLBACK (kept_anyway_cb), self);
  return line;
}

static int
by_place (GtkListBoxRow *a, GtkListBoxRow *b, gpointer user_data)
{
  GHashTable *places = FR_LOG_VIEW (user_data)->places;

  return GPOINTER_TO_INT (g_hash_table_lookup (places, fr_log_line_get_row (FR_LOG_LINE (a))))
         - GPOINTER_TO_INT (g_hash_table_lookup (places, fr_log_line_get_row (FR_LOG_LINE (b))));
}

/* Lines of rows that stay are the same widgets and never leave the list, for somebody may be typing in one. */
static void
rows_changed_cb (FrLogView *self)
{
  g_autoptr (GHashTable) known = g_hash_table_new (NULL, NULL);
  FrLogLine *line;

  g_hash_table_remove_all (self->places);
  for (guint i = 0; i < fr_gather_log_n_rows (self->log); i++)
    g_hash_table_insert (self->places, fr_gather_log_row (self->log, i), GINT_TO_POINTER (i + 1));
  for (int i = 0; (line = line_at (self, i)) != NULL;)
    if (g_hash_table_contains (self->places, fr_log_line_get_row (line)))
      {
        g_hash_table_add (known, fr_log_line_get_row (line));
        i++;
      }
    else
      gtk_list_box_remove (GTK_LIST_BOX (self->list), GTK_WIDGET (line));
  for (guint i = 0; i < fr_gather_log_n_rows (self->log); i++)
    if (!g_hash_table_contains (known, fr_gather_log_row (self->log, i)))
      gtk_list_box_append (GTK_LIST_BOX (self->list), line_new (self, fr_gather_log_row (self->log, i)));
  gtk_list_box_invalidate_sort (GTK_LIST_BOX (self->list));
}

/* What is being typed is finished first. Rows that cannot be kept would be lost with another day or round:
 * they have to be put right or given up. */
static gboolean
may_leave (FrLogView *self)
{
  FrWindow *window = fr_window_of (GTK_WIDGET (self));
  FrLogLine *line;

  if (window != NULL)
    gtk_window_set_focus (GTK_WINDOW (window), NULL);
  for (int i = 0; (line = line_at (self, i)) != NULL; i++)
    if (fr_gather_row_is_begun (fr_log_line_get_row (line)))
      {
        if (window != NULL)
          fr_window_tell (
              window,
              _ ("A row is typed and not written down yet. Put it right, or take it back with Escape."));
        fr_log_line_focus (line, FR_GATHER_AMOUNT);
        return FALSE;
      }
  return TRUE;
}

void
fr_log_view_begin (FrLogView *self)
{
  FrLogLine *line;

  for (int i = 0; (line = line_at (self, i)) != NULL; i++)
    if (fr_gather_row_get_id (fr_log_line_get_row (line)) == 0)
      {
        fr_log_line_focus (line, FR_GATHER_AMOUNT);
        return;
      }
  if (!may_leave (self))
    return;
  fr_gather_log_set_round (self->log, fr_gather_log_n_rounds (self->log));
  if ((line = line_at (self, 0)) != NULL)
    fr_log_line_focus (line, FR_GATHER_AMOUNT);
}

gboolean
fr_log_view_show_day (FrLogView *self, FrDate day)
{
  if (!may_leave (self))
    return FALSE;
  fr_gather_log_set_day (self->log, day);
  return TRUE;
}

/* --- what a person chooses --- */

static void
round_cb (FrLogView *self)
{
  guint chosen = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->round));

  if (self->filling || chosen == GTK_INVALID_LIST_POSITION || chosen == fr_gather_log_get_round (self->log))
    return;
  if (may_leave (self))
    fr_gather_log_set_round (self->log, chosen);
  else
    changed_cb (self); /* the choice goes back */
}

static void
scope_cb (FrLogView *self)
{
  if (!self->filling)
    fr_gather_log_set_scope (self->log,
                             (FrGatherScope)gtk_drop_down_get_selected (GTK_DROP_DOWN (self->scope)));
}

static void
order_cb (FrLogView *self)
{
  if (!self->filling)
    fr_gather_log_set_order (self->log,
                             (FrGatherOrder)gtk_drop_down_get_selected (GTK_DROP_DOWN (self->order)));
}

static void
earlier_cb (FrLogView *self)
{
  fr_log_view_show_day (self, fr_date_add_days (fr_gather_log_get_day (self->log), -1));
}

static void
later_cb (FrLogView *self)
{
  fr_log_view_show_day (self, fr_date_add_days (fr_gather_log_get_day (self->log), 1));
}

static void
whole_bush_cb (FrLogView *self)
{
  fr_gather_log_set_scope (self->log, FR_GATHER_BUSH);
  fr_log_view_begin (self);
}

/* The walk takes a while to find, so it is asked for only when what it depends on moved; it is known at once
 * or soon after. */
static void
walk_cb (FrLogView *self)
{
  const FrBushRound *round = NULL;
  g_autoptr (GArray) trees = g_array_new (FALSE, FALSE, sizeof (gint64));

  if (!self->walk_stale || !gtk_widget_get_mapped (GTK_WIDGET (self))
      || fr_sugarbush_get_season (self->bush) != fr_season_of (fr_gather_log_get_day (self->log))
      || !fr_sugarbush_ask_round (self->bush, FR_ROUND_SET, 1, &round) || round == NULL)
    return;
  self->walk_stale = FALSE;
  for (guint i = 0; i < round->stops->len; i++)
    g_array_append_val (trees, g_array_index (round->stops, FrBushStop, i).tree);
  fr_gather_log_set_walk (self->log, (const gint64 *)(gpointer)trees->data, trees->len);
}

static void
walk_moved_cb (FrLogView *self)
{
  self->walk_stale = TRUE;
}

static void
map_cb (FrLogView *self)
{
  g_autoptr (FrZoneTable) zone = zone_of (book_of (self));

  fr_gather_log_set_now (self->log, zone, fr_clock_now (zone));
  walk_cb (self);
}

/* --- making --- */

static GtkWidget *
choice_new (const char *title, const char *const *words, GCallback callback, FrLogView *self)
{
  GtkWidget *choice = gtk_drop_down_new_from_strings (words);

  gtk_accessible_update_property (GTK_ACCESSIBLE (choice), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
  gtk_widget_set_tooltip_text (choice, title);
  g_signal_connect_object (choice, "notify::selected", callback, self, G_CONNECT_SWAPPED);
  return choice;
}

static GtkWidget *
arrow_new (const char *icon, const char *name, GCallback callback, FrLogView *self)
{
  GtkWidget *button = gtk_button_new_from_icon_name (icon);

  gtk_widget_add_css_class (button, "flat");
  gtk_widget_set_tooltip_text (button, name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_signal_connect_object (button, "clicked", callback, self, G_CONNECT_SWAPPED);
  return button;
}

static GtkWidget *
make_bar (FrLogView *self, GtkWidget *toggle)
{
  const char *const scopes[]
      = { _ ("One row for the bush"), _ ("A row a group"), _ ("A row a tree"), _ ("A row a tap"), NULL };
  const char *const orders[] = { _ ("As last time"), _ ("As walked"), _ ("By name"), NULL };
  const char *const none[] = { NULL };
  GtkWidget *bar = fr_wrap_box_new (8, 6);
  GtkWidget *day = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 2);

  self->day = gtk_label_new (NULL);
  gtk_widget_add_css_class (self->day, "card-heading");
  self->round = choice_new (_ ("Round of the day"), none, G_CALLBACK (round_cb), self);
  self->scope = choice_new (_ ("Rows"), scopes, G_CALLBACK (scope_cb), self);
  self->order = choice_new (_ ("Order of the rows"), orders, G_CALLBACK (order_cb), self);
  gtk_box_append (GTK_BOX (day),
                  arrow_new ("go-previous-symbolic", _ ("Day Before"), G_CALLBACK (earlier_cb), self));
  gtk_box_append (GTK_BOX (day), self->day);
  gtk_box_append (GTK_BOX (day),
                  arrow_new ("go-next-symbolic", _ ("Day After"), G_CALLBACK (later_cb), self));
  gtk_widget_set_hexpand (day, TRUE);
  gtk_box_append (GTK_BOX (bar), day);
  gtk_box_append (GTK_BOX (bar), self->round);
  gtk_box_append (GTK_BOX (bar), self->scope);
  gtk_box_append (GTK_BOX (bar), self->order);
  gtk_box_append (GTK_BOX (bar), toggle);
  return bar;
}

static GtkWidget *
make_empty (FrLogView *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *words = fr_wrapped_text (
      _ ("A tap stands here from the day it is set on the sugarbush page until it is pulled. What came from "
         "all of them together can be written down without."),
      "soft");
  GtkWidget *button = gtk_button_new_with_label (_ ("One Row for the Whole Bush"));

  gtk_widget_set_halign (button, GTK_ALIGN_START);
  g_signal_connect_object (button, "clicked", G_CALLBACK (whole_bush_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (box), words);
  gtk_box_append (GTK_BOX (box), button);
  return box;
}

static GtkWidget *
make_content (FrLogView *self, GtkWidget *toggle)
{
  GtkWidget *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12), *scroller = gtk_scrolled_window_new ();

  self->answer = fr_tonight_answer_new ();
  self->heads = fr_log_heads_new ();
  self->list = gtk_list_box_new ();
  gtk_list_box_set_selection_mode (GTK_LIST_BOX (self->list), GTK_SELECTION_NONE);
  gtk_list_box_set_sort_func (GTK_LIST_BOX (self->list), by_place, self, NULL);
  gtk_widget_add_css_class (self->list, "boxed-list");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->list), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Gathered"),
                                  -1);
  self->table = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  gtk_box_append (GTK_BOX (self->table), self->heads);
  gtk_box_append (GTK_BOX (self->table), self->list);
  self->empty = make_empty (self);
  gtk_box_append (GTK_BOX (page), self->answer);
  gtk_box_append (GTK_BOX (page), make_bar (self, toggle));
  gtk_box_append (GTK_BOX (page), self->table);
  gtk_box_append (GTK_BOX (page), self->empty);
  gtk_widget_add_css_class (page, "page");
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), page);
  gtk_widget_set_hexpand (scroller, TRUE);
  return scroller;
}

static void
fr_log_view_dispose (GObject *object)
{
  FrLogView *self = FR_LOG_VIEW (object);

  adw_bin_set_child (ADW_BIN (self), NULL);
  if (self->log != NULL)
    g_signal_handlers_disconnect_by_data (self->log, self);
  g_clear_object (&self->log);
  g_clear_object (&self->bush);
  g_clear_object (&self->season);
  g_clear_pointer (&self->places, g_hash_table_unref);
  G_OBJECT_CLASS (fr_log_view_parent_class)->dispose (object);
}

static void
fr_log_view_class_init (FrLogViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_log_view_dispose;
}

static void
fr_log_view_init (FrLogView *self)
{
  self->places = g_hash_table_new (NULL, NULL);
}

GtkWidget *
fr_log_view_new (FrSeason *season, FrSugarbush *bush)
{
  static const FrKindId walked[]
      = { FR_KIND_TREE, FR_KIND_TAP, FR_KIND_FEATURE, FR_KIND_GROUND, FR_KIND_TAPPING };
  FrLogView *self = g_object_new (FR_TYPE_LOG_VIEW, NULL);
  g_autoptr (FrZoneTable) zone = zone_of (fr_season_get_book (season));
  GtkWidget *toggle = gtk_toggle_button_new_with_label (_ ("This Round"));
  GtkWidget *content, *panel;

  self->season = g_object_ref (season);
  self->bush = g_object_ref (bush);
  self->log = fr_gather_log_new (fr_season_get_book (season), zone, fr_clock_now (zone));
  content = make_content (self, toggle);
  panel = fr_log_round_new (self->log);
  self->pane = fr_side_pane_new (content, panel, GTK_TOGGLE_BUTTON (toggle));
  adw_bin_set_child (ADW_BIN (self), self->pane);
  g_signal_connect_swapped (self->log, "changed", G_CALLBACK (changed_cb), self);
  g_signal_connect_swapped (self->log, "rows-changed", G_CALLBACK (rows_changed_cb), self);
  self->walk_stale = TRUE;
  for (guint i = 0; i < G_N_ELEMENTS (walked); i++)
    g_signal_connect_object (fr_book_get_list (fr_season_get_book (season), walked[i]), "items-changed",
                             G_CALLBACK (walk_moved_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (bush, "answered", G_CALLBACK (walk_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (bush, "changed", G_CALLBACK (walk_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect (self, "map", G_CALLBACK (map_cb), NULL);
  rows_changed_cb (self);
  changed_cb (self);
  return GTK_WIDGET (self);
}

FrGatherLog *
fr_log_view_get_log (FrLogView *self)
{
  return self->log;
}
