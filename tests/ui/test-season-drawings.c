/* The drawn season and the drawn month, by keys and by clicks: which day they lead to, what is told of it,
 * and what happens at the ends. Days are counted with GLib's calendar beside. */
#include "ui/month-view.h"
#include "ui/season-strip-view.h"
#include "window-tools.h"
#include "words/season-words.h"

#include "random-season.h"

typedef struct
{
  FrZoneTable *zone;
  RandomSeason *season;
  FrSeasonView *view;
  FrSay say;
  GtkWidget *window;
  FrSeasonStripView *strip;
  FrMonthView *month;
  gint64 selected; /* what the last signal said */
  gint64 activated;
  guint n_selected;
  guint n_months;
} Stage;

static void
selected_cb (GtkWidget *widget, gint64 day, gpointer user_data)
{
  ((Stage *)user_data)->selected = day;
  ((Stage *)user_data)->n_selected++;
}

static void
activated_cb (GtkWidget *widget, gint64 day, gpointer user_data)
{
  ((Stage *)user_data)->activated = day;
}

static void
month_cb (GtkWidget *widget, gpointer user_data)
{
  ((Stage *)user_data)->n_months++;
}

static void
add_gathering (RandomSeason *season, FrDate date, double volume_l)
{
  FrGathering *one = random_season_add (season, FR_KIND_GATHERING);

  one->gathered_utc = fr_date_to_days (date) * 86400 + 16 * 3600; /* in UTC, which has no clock changes */
  one->volume_l.value = volume_l;
  one->reading_brix.value = 2.2;
}

static void
set_up (Stage *stage)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);

  *stage = (Stage){ .zone = fr_zone_table_new_utc (), .window = gtk_window_new () };
  stage->season = random_season_new_empty (2026, stage->zone);
  for (gint day = 1; day < 12; day += 3)
    add_gathering (stage->season, (FrDate){ 2026, 3, day }, 7 + day);
  stage->view = fr_season_view_new (&stage->season->book, 2026,
                                    fr_date_to_days ((FrDate){ 2026, 3, 11 }) * 86400 + 72000);
  stage->say = (FrSay){ .units = { .decimal_mark = '.' }, .currency = "CAD", .zone = stage->zone };
  stage->strip = FR_SEASON_STRIP_VIEW (fr_season_strip_view_new ());
  stage->month = FR_MONTH_VIEW (fr_month_view_new ());
  gtk_widget_set_vexpand (GTK_WIDGET (stage->strip), TRUE);
  gtk_widget_set_vexpand (GTK_WIDGET (stage->month), TRUE);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (stage->strip));
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (stage->month));
  gtk_window_set_child (GTK_WINDOW (stage->window), box);
  gtk_window_set_default_size (GTK_WINDOW (stage->window), 800, 1200);
  gtk_window_present (GTK_WINDOW (stage->window));
  settle (); /* drawn once with nothing in them */
  fr_season_strip_view_set (stage->strip, stage->view, NULL, &stage->say);
  fr_month_view_set (stage->month, stage->view, &stage->say);
  for (guint i = 0; i < 2; i++)
    {
      gpointer drawing = i == 0 ? (gpointer)stage->strip : (gpointer)stage->month;
      g_signal_connect (drawing, "day-selected", G_CALLBACK (selected_cb), stage);
      g_signal_connect (drawing, "day-activated", G_CALLBACK (activated_cb), stage);
    }
  g_signal_connect (stage->month, "month-changed", G_CALLBACK (month_cb), stage);
  settle ();
}

static void
tear_down (Stage *stage)
{
  fr_season_strip_view_set (stage->strip, NULL, NULL, NULL);
  fr_month_view_set (stage->month, NULL, NULL);
  settle ();
  gtk_window_destroy (GTK_WINDOW (stage->window));
  settle ();
  fr_season_view_free (stage->view);
  random_season_free (stage->season);
  fr_zone_table_free (stage->zone);
}

static void
click (gpointer widget, double x, double y, int n_press)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) one = g_list_model_get_item (controllers, i);

      if (GTK_IS_GESTURE_CLICK (one))
        g_signal_emit_by_name (one, "pressed", n_press, x, y);
    }
}

static gint64
days (gint month, gint day)
{
  return fr_date_to_days ((FrDate){ 2026, month, day });
}

static void
assert_spoken (gpointer widget, const Stage *stage, FrDate date)
{
  g_autofree char *spoken
      = fr_season_day_spoken (stage->view, fr_season_view_day (stage->view, date), &stage->say);

  gtk_test_accessible_assert_property (widget, GTK_ACCESSIBLE_PROPERTY_LABEL, spoken);
}

static void
test_strip_keys (void)
{
  Stage stage;
  GtkWidget *strip;
  FrDate first, last;

  set_up (&stage);
  strip = GTK_WIDGET (stage.strip);
  first = stage.view->days[0].date;
  last = stage.view->days[stage.view->n_days - 1].date;
  g_assert_false (press_key (strip, GDK_KEY_Escape));
  g_assert_true (press_key (strip, GDK_KEY_Left)); /* shows where one is */
  g_assert_cmpint (stage.selected, ==, days (3, 11));
  assert_spoken (strip, &stage, (FrDate){ 2026, 3, 11 });
  press_key (strip, GDK_KEY_Left);
  g_assert_cmpint (stage.selected, ==, days (3, 10));
  assert_spoken (strip, &stage, (FrDate){ 2026, 3, 10 });
  press_key (strip, GDK_KEY_Right);
  g_assert_cmpint (stage.selected, ==, days (3, 11));
  g_assert_false (press_key (strip, GDK_KEY_Up));
  g_assert_false (press_key (strip, GDK_KEY_Down));
  press_key (strip, GDK_KEY_Home);
  g_assert_cmpint (stage.selected, ==, fr_date_to_days (first));
  press_key (strip, GDK_KEY_Left);
  press_key (strip, GDK_KEY_Page_Up);
  g_assert_cmpint (stage.selected, ==, fr_date_to_days (first));
  press_key (strip, GDK_KEY_End);
  press_key (strip, GDK_KEY_Right);
  press_key (strip, GDK_KEY_Page_Down);
  g_assert_cmpint (stage.selected, ==, fr_date_to_days (last));
  fr_season_strip_view_set_selected (stage.strip, (FrDate){ 2026, 3, 11 });
  press_key (strip, GDK_KEY_Page_Up);
  g_assert_cmpint (stage.selected, ==, MAX (days (2, 11), fr_date_to_days (first)));
  press_key (strip, GDK_KEY_Return);
  g_assert_cmpint (stage.activated, ==, stage.selected);
  g_assert_true (press_key (strip, GDK_KEY_Escape));
  g_assert_cmpint (stage.selected, ==, FR_NO_DAY);
  g_assert_cmpint (fr_season_strip_view_get_selected (stage.strip).year, ==, 0);
  g_assert_false (press_key (strip, GDK_KEY_a));
  tear_down (&stage);
}

static void
test_month_keys (void)
{
  Stage stage;
  GtkWidget *month;
  guint n;

  set_up (&stage);
  month = GTK_WIDGET (stage.month);
  g_assert_cmpint (fr_month_view_get_month (stage.month).month, ==, 3);
  press_key (month, GDK_KEY_Down);
  g_assert_cmpint (stage.selected, ==, days (3, 11));
  press_key (month, GDK_KEY_Down);
  g_assert_cmpint (stage.selected, ==, days (3, 18));
  press_key (month, GDK_KEY_Up);
  press_key (month, GDK_KEY_Up);
  g_assert_cmpint (stage.selected, ==, days (3, 4));
  assert_spoken (month, &stage, (FrDate){ 2026, 3, 4 });
  g_assert_cmpuint (stage.n_months, ==, 0);
  press_key (month, GDK_KEY_Up);
  g_assert_cmpint (stage.selected, ==, days (2, 25));
  g_assert_cmpuint (stage.n_months, ==, 1);
  g_assert_cmpint (fr_month_view_get_month (stage.month).month, ==, 2);
  press_key (month, GDK_KEY_End);
  g_assert_cmpint (stage.selected, ==, days (2, 28)); /* 2026 is no leap year */
  press_key (month, GDK_KEY_Right);
  g_assert_cmpint (stage.selected, ==, days (3, 1));
  press_key (month, GDK_KEY_End);
  g_assert_cmpint (stage.selected, ==, days (3, 31));
  press_key (month, GDK_KEY_Page_Up); /* 31 March to the last of February */
  g_assert_cmpint (stage.selected, ==, days (2, 28));
  press_key (month, GDK_KEY_Home);
  g_assert_cmpint (stage.selected, ==, days (2, 1));

  /* As far as the season goes: 1 August 2025 to 31 July 2026, and no farther. */
  for (guint i = 0; i < 20; i++)
    press_key (month, GDK_KEY_Page_Down);
  g_assert_cmpint (stage.selected, ==, days (7, 31));
  g_assert_false (fr_month_view_can_step (stage.month, 1));
  for (guint i = 0; i < 20; i++)
    press_key (month, GDK_KEY_Page_Up);
  g_assert_cmpint (stage.selected, ==, fr_date_to_days ((FrDate){ 2025, 8, 1 }));
  g_assert_false (fr_month_view_can_step (stage.month, -1));
  n = stage.n_months;
  fr_month_view_step (stage.month, -1);
  g_assert_cmpuint (stage.n_months, ==, n);
  fr_month_view_step (stage.month, 1);
  g_assert_cmpint (fr_month_view_get_month (stage.month).month, ==, 9);
  settle ();
  press_key (month, GDK_KEY_Return);
  g_assert_cmpint (stage.activated, ==, stage.selected);
  press_key (month, GDK_KEY_Escape);
  g_assert_cmpint (stage.selected, ==, FR_NO_DAY);
  tear_down (&stage);
}

/* Each day where it is drawn takes a click; a second one opens it; beside the days nothing happens. */
static void
test_clicks (void)
{
  Stage stage;
  guint n = 0;

  set_up (&stage);
  for (guint i = 0; i < stage.view->n_days; i++)
    {
      GdkRectangle day;
      FrDate date = stage.view->days[i].date;

      g_assert_true (fr_season_strip_view_get_day (stage.strip, date, &day));
      click (stage.strip, day.x + day.width / 2.0, day.y + day.height / 2.0, 1);
      g_assert_cmpint (stage.selected, ==, fr_date_to_days (date));
      if (!fr_month_view_get_day (stage.month, date, &day))
        continue;
      click (stage.month, day.x + day.width / 2.0, day.y + day.height / 2.0, 1);
      click (stage.month, day.x + day.width / 2.0, day.y + day.height / 2.0, 2);
      g_assert_cmpint (stage.selected, ==, fr_date_to_days (date));
      g_assert_cmpint (stage.activated, ==, fr_date_to_days (date));
      n++;
    }
  g_assert_cmpuint (n, ==, 31);
  n = stage.n_selected;
  click (stage.strip, 2, 300, 1);
  click (stage.month, 2, 2, 1);
  g_assert_cmpuint (stage.n_selected, ==, n);
  tear_down (&stage);
}

/* What is set from outside is shown and not told again; another view keeps the day. */
static void
test_set (void)
{
  Stage stage;
  GdkRectangle day;

  set_up (&stage);
  fr_season_strip_view_set_selected (stage.strip, (FrDate){ 2026, 3, 7 });
  fr_month_view_set_selected (stage.month, (FrDate){ 2026, 4, 7 });
  g_assert_cmpuint (stage.n_selected, ==, 0);
  g_assert_cmpint (fr_month_view_get_month (stage.month).month, ==, 4);
  fr_season_strip_view_set (stage.strip, stage.view, NULL, &stage.say);
  fr_month_view_set (stage.month, stage.view, &stage.say);
  settle ();
  g_assert_cmpint (fr_season_strip_view_get_selected (stage.strip).day, ==, 7);
  g_assert_cmpint (fr_month_view_get_selected (stage.month).month, ==, 4);
  g_assert_cmpint (fr_month_view_get_month (stage.month).month, ==, 4);
  assert_spoken (stage.strip, &stage, (FrDate){ 2026, 3, 7 });
  /* A day that the view does not reach. */
  fr_season_strip_view_set_selected (stage.strip, (FrDate){ 2025, 9, 1 });
  settle ();
  g_assert_false (fr_season_strip_view_get_day (stage.strip, (FrDate){ 2025, 9, 1 }, &day));
  g_assert_true (press_key (GTK_WIDGET (stage.strip), GDK_KEY_Right));
  g_assert_cmpint (stage.selected, ==, days (3, 11));
  tear_down (&stage);
}

/* Against GLib's calendar, over a leap year's end of February. */
static void
test_walk (void)
{
  const FrDate first = { 2023, 1, 1 }, last = { 2025, 12, 31 };

  for (FrDate date = first; fr_date_compare (date, last) <= 0; date = fr_date_add_days (date, 1))
    for (guint k = 0; k < 4; k++)
      {
        static const guint keys[] = { GDK_KEY_Page_Up, GDK_KEY_Page_Down, GDK_KEY_Up, GDK_KEY_KP_Down };
        g_autoptr (GDate) other
            = g_date_new_dmy ((GDateDay)date.day, (GDateMonth)date.month, (GDateYear)date.year);
        FrDate to = { 0, 0, 0 };

        g_assert_true (fr_day_walk (keys[k], date, (FrDate){ 2000, 1, 1 }, (FrDate){ 2100, 1, 1 }, first,
                                    last, TRUE, FALSE, &to));
        if (k == 0)
          g_date_subtract_months (other, 1);
        else if (k == 1)
          g_date_add_months (other, 1);
        else if (k == 2)
          g_date_subtract_days (other, 7);
        else
          g_date_add_days (other, 7);
        g_assert_cmpint (to.year, ==, g_date_get_year (other));
        g_assert_cmpint (to.month, ==, (gint)g_date_get_month (other));
        g_assert_cmpint (to.day, ==, g_date_get_day (other));
      }
}

int
main (int argc, char **argv)
{
  tools_init (&argc, &argv);
  g_test_add_func ("/season-drawings/strip-keys", test_strip_keys);
  g_test_add_func ("/season-drawings/month-keys", test_month_keys);
  g_test_add_func ("/season-drawings/clicks", test_clicks);
  g_test_add_func ("/season-drawings/set", test_set);
  g_test_add_func ("/season-drawings/walk", test_walk);
  return tools_run ();
}
