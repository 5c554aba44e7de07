/* The sugarbush's dialogs, driven as a person does: keys and buttons, with the book looked at afterwards. */
#include <math.h>
#include <string.h>

#include "models/bush-edit.h"
#include "ui/anchor-dialog.h"
#include "ui/bush-map-sketch.h"
#include "ui/export-dialog.h"
#include "ui/ground-panel.h"
#include "ui/import-dialog.h"
#include "ui/measured-dialog.h"
#include "ui/picture-dialog.h"
#include "ui/picture-view.h"
#include "window-tools.h"

/* Noon of 10 January 2026 in UTC, by `date -u -d '2026-01-10 12:00' +%s`. */
#define NOW_UTC 1768046400

typedef struct
{
  FrWindow *window;
  FrSugarbush *bush;
  GtkWidget *dialog;
} Shown;

static Shown
begin (const char *name)
{
  Shown shown = { .window = open_window (name, TOOLS_AS_IT_IS) };

  shown.bush = fr_sugarbush_new (fr_window_get_book (shown.window), NOW_UTC);
  return shown;
}

static void
show (Shown *shown, GtkWidget *dialog)
{
  shown->dialog = dialog;
  gtk_window_present (GTK_WINDOW (dialog));
  settle ();
}

static void
end (Shown *shown)
{
  gpointer left = shown->dialog;

  g_object_add_weak_pointer (G_OBJECT (left), &left);
  gtk_window_close (GTK_WINDOW (shown->dialog));
  settle ();
  g_assert_null (left);
  g_clear_object (&shown->bush);
  close_window (shown->window);
}

static FrBook *
book_of (const Shown *shown)
{
  return fr_window_get_book (shown->window);
}

static const FrTree *
tree_at (const Shown *shown, guint i)
{
  return (const FrTree *)fr_record_list_get (fr_book_get_list (book_of (shown), FR_KIND_TREE), i);
}

static guint
n_of (const Shown *shown, FrKindId kind)
{
  return fr_record_list_get_size (fr_book_get_list (book_of (shown), kind));
}

/* The row that has the focus now. */
static FrEntryRow *
focus_row (GtkWidget *dialog)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (dialog));
  GtkWidget *row = focus != NULL ? gtk_widget_get_ancestor (focus, FR_TYPE_ENTRY_ROW) : NULL;

  g_assert_nonnull (row);
  return FR_ENTRY_ROW (row);
}

static void
assert_focus (GtkWidget *dialog, const char *title)
{
  g_assert_cmpstr (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (focus_row (dialog))), ==, title);
}

static void
enter (GtkWidget *dialog, const char *text)
{
  if (text != NULL)
    type_keys (focus_row (dialog), text);
  g_assert_true (press_key (dialog, GDK_KEY_Return));
}

static void
apply (const Shown *shown, FrChange *change, GError *error)
{
  g_assert_no_error (error);
  g_assert_nonnull (change);
  g_assert_true (fr_book_apply (book_of (shown), change, &error));
  g_assert_no_error (error);
  fr_change_free (change);
}

/* --- finding --- */

static gboolean
is_icon_button (GtkWidget *widget, const char *icon)
{
  return GTK_IS_BUTTON (widget) && g_strcmp0 (gtk_button_get_icon_name (GTK_BUTTON (widget)), icon) == 0;
}

static gboolean
is_titled (GtkWidget *widget, const char *title)
{
  return ADW_IS_PREFERENCES_ROW (widget)
         && g_strcmp0 (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (widget)), title) == 0;
}

static GtkWidget *
find_combo (GtkWidget *dialog, const char *title)
{
  return find (dialog, is_titled, title);
}

static GtkWidget *
find_switch (GtkWidget *dialog, const char *title)
{
  return find (find (dialog, is_titled, title), is_a, "GtkSwitch");
}

/* --- by tape and compass --- */

/* The first tree of all needs no readings and stands at zero; thirty in all by keys alone, each from the one
 * before, and each one step of undo. Places checked by plane trigonometry. */
static void
test_thirty_by_keys (void)
{
  Shown shown = begin ("thirty.frostrun");
  double x_m = 0, y_m = 0;
  GError *error = NULL;

  apply (&shown,
         fr_bush_edit_single (book_of (&shown), FR_KIND_GROUND, "declination_deg", NULL, -14, NULL, &error),
         error);
  show (&shown, fr_measured_dialog_new (shown.window, shown.bush));
  assert_focus (shown.dialog, "Name");
  g_assert_null (find (shown.dialog, is_row, "Distance"));
  enter (shown.dialog, "Gate 1");
  assert_focus (shown.dialog, "Size");
  enter (shown.dialog, "151");
  g_assert_cmpuint (n_of (&shown, FR_KIND_TREE), ==, 1);
  g_assert_cmpfloat (tree_at (&shown, 0)->x_m.value, ==, 0);
  for (guint i = 1; i < 30; i++)
    {
      g_autofree char *distance = g_strdup_printf ("%g", 5.5 + i),
                      *bearing = g_strdup_printf ("%u", 37 * i % 360);
      double true_rad = (37 * i % 360 - 14.0) * G_PI / 180;

      assert_focus (shown.dialog, "Distance");
      enter (shown.dialog, distance);
      assert_focus (shown.dialog, "Bearing");
      enter (shown.dialog, i == 10 ? "N 10 E" : bearing); /* 37 × 10 = 370 = 10° */
      assert_focus (shown.dialog, "Name");
      enter (shown.dialog, NULL);
      enter (shown.dialog, i % 2 == 0 ? "140" : NULL);
      x_m += (5.5 + i) * sin (true_rad);
      y_m += (5.5 + i) * cos (true_rad);
      g_assert_cmpuint (n_of (&shown, FR_KIND_TREE), ==, i + 1);
      g_assert_cmpfloat_with_epsilon (tree_at (&shown, i)->x_m.value, x_m, 1e-9);
      g_assert_cmpfloat_with_epsilon (tree_at (&shown, i)->y_m.value, y_m, 1e-9);
    }
  g_assert_cmpstr (tree_at (&shown, 29)->name, ==, "Gate 30");
  g_assert_cmpstr (tree_at (&shown, 29)->measured_from, ==, "Gate 29");
  g_assert_cmpuint (n_of (&shown, FR_KIND_GIRTH), ==, 15);
  g_assert_cmpstr (
      ((const FrGirth *)fr_record_list_get (fr_book_get_list (book_of (&shown), FR_KIND_GIRTH), 0))
          ->measured_on,
      ==, "2026-01-10");
  for (guint i = 30; i-- > 0;)
    {
      g_assert_true (fr_book_undo (book_of (&shown), &error));
      g_assert_cmpuint (n_of (&shown, FR_KIND_TREE), ==, i);
    }
  end (&shown);
}

/* A reading that cannot be is told of at its own row, and no longer once it is put right. */
static void
test_measured_out_of_range (void)
{
  Shown shown = begin ("range.frostrun");
  GError *error = NULL;

  apply (&shown, fr_bush_edit_add_tree (book_of (&shown), "A", "red", 0, 0, &error), error);
  show (&shown, fr_measured_dialog_new (shown.window, shown.bush));
  fr_entry_row_enter (row (shown.dialog, "Distance"), "20 km");
  fr_entry_row_enter (row (shown.dialog, "Size"), "1000 m");
  g_assert_nonnull (fr_entry_row_get_problem (row (shown.dialog, "Distance")));
  g_assert_nonnull (fr_entry_row_get_problem (row (shown.dialog, "Size")));
  fr_entry_row_enter (row (shown.dialog, "Distance"), "20");
  g_assert_null (fr_entry_row_get_problem (row (shown.dialog, "Distance")));
  g_assert_nonnull (fr_entry_row_get_problem (row (shown.dialog, "Size")));
  g_assert_cmpuint (n_of (&shown, FR_KIND_TREE), ==, 1);
  end (&shown);
}

/* The sentence follows each key; the declination is said, or that it is unknown. */
static void
test_measured_sentence (void)
{
  Shown shown = begin ("sentence.frostrun");
  GError *error = NULL;
  g_autofree char *without = NULL, *with = NULL;

  apply (&shown, fr_bush_edit_add_tree (book_of (&shown), "A", "red", 0, 0, &error), error);
  show (&shown, fr_measured_dialog_new (shown.window, shown.bush));
  type_keys (row (shown.dialog, "Distance"), "12.5");
  type_keys (row (shown.dialog, "Bearing"), "230");
  settle ();
  without = label_texts (shown.dialog);
  assert_shows (without, "12.5 m at 230° by the compass, taken as true: the declination is unknown.");
  apply (&shown,
         fr_bush_edit_single (book_of (&shown), FR_KIND_GROUND, "declination_deg", NULL, -14, NULL, &error),
         error);
  with = label_texts (shown.dialog);
  assert_shows (with, "12.5 m at 230° by the compass, 216° true.");
  end (&shown);
}

/* What is missing or wrong is said under its row, and nothing is added. */
static void
test_measured_refuses (void)
{
  Shown shown = begin ("refuse.frostrun");
  GError *error = NULL;

  apply (&shown, fr_bush_edit_add_tree (book_of (&shown), "A", "red", 0, 0, &error), error);
  show (&shown, fr_measured_dialog_new (shown.window, shown.bush));
  enter (shown.dialog, "-3");
  assert_focus (shown.dialog, "Distance");
  g_assert_nonnull (fr_entry_row_get_problem (row (shown.dialog, "Distance")));
  enter (shown.dialog, "3");
  enter (shown.dialog, "somewhere");
  assert_focus (shown.dialog, "Bearing");
  g_assert_nonnull (fr_entry_row_get_problem (row (shown.dialog, "Bearing")));
  enter (shown.dialog, "");
  enter (shown.dialog, "A");
  assert_focus (shown.dialog, "Name");
  g_assert_cmpstr (fr_entry_row_get_problem (row (shown.dialog, "Name")), ==, "Another tree is called so.");
  enter (shown.dialog, "B");
  enter (shown.dialog, NULL);
  assert_focus (shown.dialog, "Bearing");
  g_assert_cmpuint (n_of (&shown, FR_KIND_TREE), ==, 1);
  enter (shown.dialog, "SSE");
  enter (shown.dialog, NULL);
  enter (shown.dialog, NULL);
  g_assert_cmpuint (n_of (&shown, FR_KIND_TREE), ==, 2);
  g_assert_cmpfloat_with_epsilon (tree_at (&shown, 1)->from_bearing_deg.value, 157.5, 1e-9);
  g_assert_cmpstr (tree_at (&shown, 1)->species, ==, "red"); /* as the tree before */
  end (&shown);
}

/* With the switch on, all are measured from one tree; a diameter is kept as one. */
static void
test_measured_stay (void)
{
  Shown shown = begin ("stay.frostrun");
  GError *error = NULL;
  GtkWidget *stay;

  apply (&shown, fr_bush_edit_add_tree (book_of (&shown), "A", "sugar", 3, 4, &error), error);
  show (&shown, fr_measured_dialog_new (shown.window, shown.bush));
  stay = find (shown.dialog, is_a, "GtkSwitch");
  gtk_switch_set_active (GTK_SWITCH (stay), TRUE);
  for (guint i = 0; i < 3; i++)
    {
      enter (shown.dialog, "10");
      enter (shown.dialog, i == 0 ? "N" : i == 1 ? "E" : "S");
      enter (shown.dialog, NULL);
      enter (shown.dialog, NULL);
    }
  g_assert_cmpuint (n_of (&shown, FR_KIND_TREE), ==, 4);
  for (guint i = 1; i < 4; i++)
    g_assert_cmpstr (tree_at (&shown, i)->measured_from, ==, "A");
  g_assert_cmpfloat_with_epsilon (tree_at (&shown, 2)->x_m.value, 13, 1e-9);
  g_assert_cmpfloat_with_epsilon (tree_at (&shown, 3)->y_m.value, -6, 1e-9);
  end (&shown);
}

/* --- the ground --- */

/* The sugarbush's page with its map, and the ground in the panel. */
static FrBushMap *
show_ground (const Shown *shown)
{
  GtkWidget *map;

  fr_window_show_page (shown->window, "sugarbush");
  act (shown->window, "bush.ground", NULL);
  map = find (GTK_WIDGET (shown->window), is_a, "FrBushMap");
  g_assert_nonnull (map);
  g_assert_nonnull (find (GTK_WIDGET (shown->window), is_a, "FrGroundPanel"));
  return FR_BUSH_MAP (map);
}

static void
leave (Shown *shown)
{
  g_clear_object (&shown->bush);
  close_window (shown->window);
}

static const FrFeature *
feature_at (const Shown *shown, guint i)
{
  return (const FrFeature *)fr_record_list_get (fr_book_get_list (book_of (shown), FR_KIND_FEATURE), i);
}

static void
keys (FrBushMap *map, const guint *keyvals, guint n)
{
  for (guint i = 0; i < n; i++)
    g_assert_true (press_key (GTK_WIDGET (map), keyvals[i]));
}

/* A path by keys alone: the cross starts in the middle of what is seen and goes by whole metres. Backspace
 * takes the last corner back, Enter ends, and it is one step of undo. */
static void
test_draw_by_keys (void)
{
  static const guint drawn[]
      = { GDK_KEY_space, GDK_KEY_Right, GDK_KEY_Right,     GDK_KEY_Up,    GDK_KEY_space,
          GDK_KEY_Left,  GDK_KEY_space, GDK_KEY_BackSpace, GDK_KEY_Return };
  Shown shown = begin ("draw.frostrun");
  FrBushMap *map = show_ground (&shown);
  g_autofree FrGroundPoint *points = NULL;
  GError *error = NULL;
  guint n = 0;

  press (shown.window, "Draw on Map");
  g_assert_true (fr_bush_map_is_sketching (map));
  keys (map, drawn, G_N_ELEMENTS (drawn));
  g_assert_false (fr_bush_map_is_sketching (map));
  g_assert_cmpuint (n_of (&shown, FR_KIND_FEATURE), ==, 1);
  g_assert_cmpstr (feature_at (&shown, 0)->form, ==, "path");
  g_assert_true (fr_ground_points_parse (feature_at (&shown, 0)->points, &points, &n, NULL));
  g_assert_cmpuint (n, ==, 2);
  g_assert_cmpfloat_with_epsilon (points[1].x_m - points[0].x_m, 2, 1e-9);
  g_assert_cmpfloat_with_epsilon (points[1].y_m - points[0].y_m, 1, 1e-9);
  g_assert_true (fr_book_undo (book_of (&shown), &error));
  g_assert_cmpuint (n_of (&shown, FR_KIND_FEATURE), ==, 0);
  leave (&shown);
}

/* A line of one corner is none yet; Escape lets go and the book is as it was. */
static void
test_draw_lets_go (void)
{
  static const guint one[] = { GDK_KEY_space, GDK_KEY_Return };
  static const guint escape[] = { GDK_KEY_Escape };
  Shown shown = begin ("let-go.frostrun");
  FrBushMap *map = show_ground (&shown);

  press (shown.window, "Draw on Map");
  keys (map, one, G_N_ELEMENTS (one));
  g_assert_true (fr_bush_map_is_sketching (map));
  keys (map, escape, G_N_ELEMENTS (escape));
  g_assert_false (fr_bush_map_is_sketching (map));
  g_assert_cmpuint (n_of (&shown, FR_KIND_FEATURE), ==, 0);
  /* A window that goes while something is drawn takes it along. */
  press (shown.window, "Draw on Map");
  leave (&shown);
}

/* A drawing is drawn on at, deleted, and comes back. */
static void
test_draw_on (void)
{
  static const guint more[] = { GDK_KEY_Right, GDK_KEY_space, GDK_KEY_Return };
  Shown shown = begin ("draw-on.frostrun");
  FrBushMap *map = show_ground (&shown);
  GError *error = NULL;
  GtkWidget *button;
  g_autofree char *texts = NULL;

  apply (&shown, fr_bush_edit_add_feature (book_of (&shown), "wall", "Long wall", "0 0\n3 4", &error), error);
  settle ();
  texts = label_texts (GTK_WIDGET (shown.window));
  assert_shows (texts, "Wall or fence · 5.0 m long, 2 corners"); /* 3, 4, 5 */
  button = find (GTK_WIDGET (shown.window), is_icon_button, "document-edit-symbolic");
  g_signal_emit_by_name (button, "clicked");
  keys (map, more, G_N_ELEMENTS (more));
  g_assert_cmpstr (feature_at (&shown, 0)->points, ==, "0.000 0.000\n3.000 4.000\n4.000 4.000");
  g_assert_cmpstr (feature_at (&shown, 0)->name, ==, "Long wall");
  settle ();
  g_signal_emit_by_name (find (GTK_WIDGET (shown.window), is_icon_button, "user-trash-symbolic"), "clicked");
  g_assert_cmpuint (n_of (&shown, FR_KIND_FEATURE), ==, 0);
  g_assert_true (fr_book_undo (book_of (&shown), &error));
  g_assert_cmpuint (n_of (&shown, FR_KIND_FEATURE), ==, 1);
  leave (&shown);
}

/* The declination takes a side in letters; the tie takes a pasted pair and a tree's place. */
static void
test_anchor (void)
{
  Shown shown = begin ("anchor.frostrun");
  GError *error = NULL;
  const FrGround *ground;
  GtkWidget *keep;

  apply (&shown, fr_bush_edit_add_tree (book_of (&shown), "A", "sugar", 12.5, -3, &error), error);
  show_ground (&shown);
  fr_entry_row_enter (row (shown.window, "Declination"), "13.5 W");
  ground = (const FrGround *)fr_record_list_get (fr_book_get_list (book_of (&shown), FR_KIND_GROUND), 0);
  g_assert_cmpfloat_with_epsilon (ground->declination_deg.value, -13.5, 1e-12);
  show (&shown, fr_anchor_dialog_new (shown.window));
  keep = find (shown.dialog, is_button, "_Keep");
  g_assert_false (gtk_widget_get_sensitive (keep));
  fr_entry_row_enter (row (shown.dialog, "Latitude"), "44° 15' 36\" N, 72.5 W");
  g_assert_true (gtk_widget_get_sensitive (keep));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (find (shown.dialog, is_a, "GtkDropDown")), 1);
  press (shown.dialog, "_Keep");
  ground = (const FrGround *)fr_record_list_get (fr_book_get_list (book_of (&shown), FR_KIND_GROUND), 0);
  g_assert_cmpfloat_with_epsilon (ground->anchor_lat_deg.value, 44.26, 1e-12);
  g_assert_cmpfloat_with_epsilon (ground->anchor_lon_deg.value, -72.5, 1e-12);
  g_assert_cmpfloat (ground->anchor_x_m.value, ==, 12.5);
  g_assert_cmpfloat (ground->anchor_y_m.value, ==, -3);
  show (&shown, fr_anchor_dialog_new (shown.window));
  press (shown.dialog, "_Untie");
  ground = (const FrGround *)fr_record_list_get (fr_book_get_list (book_of (&shown), FR_KIND_GROUND), 0);
  g_assert_true (isnan (ground->anchor_lat_deg.value));
  g_assert_cmpfloat_with_epsilon (ground->declination_deg.value, -13.5, 1e-12);
  leave (&shown);
}

/* --- a picture --- */

static char *
make_picture (const char *name, int width, int height)
{
  char *path = tools_path (name);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);

  g_assert_cmpint (cairo_surface_write_to_png (surface, path), ==, CAIRO_STATUS_SUCCESS);
  cairo_surface_destroy (surface);
  return path;
}

static void
wait_for_picture (FrPictureView *view)
{
  for (guint i = 0; i < 100 && fr_picture_view_get (view) == NULL; i++)
    settle ();
  g_assert_nonnull (fr_picture_view_get (view));
}

/* Two points by keys and coordinates place it; beside the book it is kept by its name alone. 100 px across
 * and 25 m east, so one px is 25 cm and 200 px are 50 m. */
static void
test_picture (void)
{
  Shown shown = begin ("picture.frostrun");
  g_autofree char *path = make_picture ("photo.png", 200, 100), *texts = NULL;
  const FrGround *ground;
  FrPictureView *view;
  GtkWidget *keep;

  show (&shown, fr_picture_dialog_new (shown.window, NULL, path));
  view = FR_PICTURE_VIEW (find (shown.dialog, is_a, "FrPictureView"));
  keep = find (shown.dialog, is_button, "_Keep");
  wait_for_picture (view);
  fr_picture_view_set_point (view, 0, 50, 50);
  fr_picture_view_ask (view, 1);
  g_assert_true (press_key (GTK_WIDGET (view), GDK_KEY_space)); /* the cross begins in the middle: 100, 50 */
  fr_picture_view_set_point (view, 1, 150, 50);
  g_assert_false (gtk_widget_get_sensitive (keep));
  {
    GtkWidget *first = find (shown.dialog, is_a, "FrPlaceGroup");
    GtkWidget *second
        = find (gtk_widget_get_next_sibling (gtk_widget_get_parent (first)), is_a, "FrPlaceGroup");

    fr_entry_row_enter (row (first, "East"), "0");
    fr_entry_row_enter (row (first, "North"), "0");
    fr_entry_row_enter (row (second, "East"), "25");
    fr_entry_row_enter (row (second, "North"), "0");
  }
  texts = label_texts (shown.dialog);
  assert_shows (texts, "1 px is 25.0 cm, so it covers 50.0 m by 25.0 m. North is up in it.");
  press (shown.dialog, "_Keep");
  ground = (const FrGround *)fr_record_list_get (fr_book_get_list (book_of (&shown), FR_KIND_GROUND), 0);
  g_assert_cmpstr (ground->picture, ==, "photo.png");
  g_assert_true (ground->picture_shown);
  g_assert_cmpfloat (ground->second_column.value, ==, 150);
  g_assert_cmpfloat (ground->second_x_m.value, ==, 25);
  leave (&shown);
}

/* A file that is not there or no picture is told of in the dialog; one that goes later, in the panel. */
static void
test_picture_missing (void)
{
  Shown shown = begin ("missing.frostrun");
  g_autofree char *path = tools_path ("no.png"), *dialog_texts = NULL, *texts = NULL;
  FrPicturePoint first = { 0, 0, 0, 0 }, second = { 10, 0, 5, 0 };
  GError *error = NULL;

  show (&shown, fr_picture_dialog_new (shown.window, NULL, path));
  for (guint i = 0; i < 20; i++)
    settle ();
  dialog_texts = label_texts (shown.dialog);
  assert_shows (dialog_texts, "is not there.");
  gtk_window_close (GTK_WINDOW (shown.dialog));
  apply (&shown, fr_bush_edit_picture (book_of (&shown), "no.png", &first, &second, &error), error);
  show_ground (&shown);
  texts = label_texts (GTK_WIDGET (shown.window));
  assert_shows (texts, "The file is not there:");
  leave (&shown);
}

/* --- files --- */

static GFile *
fixture (const char *name)
{
  g_autofree char *path = g_build_filename (g_getenv ("G_TEST_SRCDIR"), "fixtures", name, NULL);

  return g_file_new_for_path (path);
}

static void
wait_for_reading (const Shown *shown)
{
  for (guint i = 0; i < 100 && fr_import_dialog_is_reading (FR_IMPORT_DIALOG (shown->dialog)); i++)
    settle ();
  g_assert_false (fr_import_dialog_is_reading (FR_IMPORT_DIALOG (shown->dialog)));
  settle ();
}

/* Of five waypoints the two of one name stay out; the others come in with the path in one step. Read again,
 * nothing is new. 0.00018° of latitude are 20.0 m there: a degree is 111132.95 − 559.82 cos 2φ + 1.17 cos 4φ
 * m on WGS 84, from memory. */
static void
test_import (void)
{
  Shown shown = begin ("import.frostrun");
  g_autoptr (GFile) file = fixture ("walk.gpx");
  g_autoptr (GPtrArray) before = snapshot (book_of (&shown)), after = NULL;
  g_autofree char *texts = NULL;
  GError *error = NULL;
  guint n;

  show (&shown, fr_import_dialog_new (shown.window, shown.bush, file));
  wait_for_reading (&shown);
  texts = label_texts (shown.dialog);
  assert_shows (texts, "Hill 1 · New");
  assert_shows (texts, "Hill 4 · Refused");
  gtk_switch_set_active (GTK_SWITCH (find_switch (shown.dialog, "With paths")), TRUE);
  settle ();
  press (shown.dialog, "_Import");
  n = n_of (&shown, FR_KIND_TREE);
  g_assert_cmpuint (n, ==, 3);
  g_assert_cmpuint (n_of (&shown, FR_KIND_FEATURE), ==, 1);
  g_assert_cmpfloat_with_epsilon (tree_at (&shown, 1)->y_m.value - tree_at (&shown, 0)->y_m.value, 20, 0.05);
  g_assert_cmpuint (fr_sugarbush_n_selected (shown.bush), ==, n);
  show (&shown, fr_import_dialog_new (shown.window, shown.bush, file));
  wait_for_reading (&shown);
  g_assert_false (gtk_widget_get_sensitive (find (shown.dialog, is_button, "_Import")));
  gtk_window_close (GTK_WINDOW (shown.dialog));
  g_assert_true (fr_book_undo (book_of (&shown), &error));
  after = snapshot (book_of (&shown));
  assert_same (before, after);
  leave (&shown);
}

/* A file that cannot be read says why where it was chosen, and the book is as it was. */
static void
test_import_refused (void)
{
  Shown shown = begin ("refused.frostrun");
  g_autofree char *path = tools_path ("bad.gpx"), *texts = NULL;
  g_autoptr (GFile) file = g_file_new_for_path (path);

  g_assert_true (g_file_set_contents (path, "<gpx><wpt lat=\"91\" lon=\"0\"/></gpx>", -1, NULL));
  show (&shown, fr_import_dialog_new (shown.window, shown.bush, file));
  wait_for_reading (&shown);
  texts = label_texts (shown.dialog);
  assert_shows (texts, "line 1");
  g_assert_false (gtk_widget_get_sensitive (find (shown.dialog, is_button, "_Import")));
  end (&shown);
}

/* What goes out comes back as the same; one selected tree goes alone. */
static void
test_export (void)
{
  Shown shown = begin ("export.frostrun");
  g_autofree char *path = tools_path ("out.gpx"), *text = NULL;
  g_autoptr (GFile) file = g_file_new_for_path (path);
  GError *error = NULL;

  apply (&shown, fr_bush_edit_anchor (book_of (&shown), 0, 0, 44, -72, &error), error);
  apply (&shown, fr_bush_edit_add_tree (book_of (&shown), "Ash", "sugar", 0, 0, &error), error);
  apply (&shown, fr_bush_edit_add_tree (book_of (&shown), "Bee", "sugar", 10, 0, &error), error);
  fr_sugarbush_select (shown.bush, tree_at (&shown, 1)->record.id);
  show (&shown, fr_export_dialog_new (shown.window, shown.bush));
  g_assert_true (fr_export_dialog_write (FR_EXPORT_DIALOG (shown.dialog), file));
  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  g_assert_nonnull (strstr (text, "Ash"));
  g_assert_nonnull (strstr (text, "Bee"));
  g_clear_pointer (&text, g_free);
  settle ();
  show (&shown, fr_export_dialog_new (shown.window, shown.bush));
  adw_combo_row_set_selected (ADW_COMBO_ROW (find_combo (shown.dialog, "Trees")), 1);
  g_assert_true (fr_export_dialog_write (FR_EXPORT_DIALOG (shown.dialog), file));
  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  g_assert_null (strstr (text, "Ash"));
  g_assert_nonnull (strstr (text, "Bee"));
  settle ();
  show (&shown, fr_import_dialog_new (shown.window, shown.bush, file));
  wait_for_reading (&shown);
  g_assert_false (gtk_widget_get_sensitive (find (shown.dialog, is_button, "_Import")));
  end (&shown);
}

int
main (int argc, char **argv)
{
  tools_init (&argc, &argv);
  g_test_add_func ("/bush-dialogs/measured/thirty-by-keys", test_thirty_by_keys);
  g_test_add_func ("/bush-dialogs/measured-out-of-range", test_measured_out_of_range);
  g_test_add_func ("/bush-dialogs/measured/sentence", test_measured_sentence);
  g_test_add_func ("/bush-dialogs/measured/refuses", test_measured_refuses);
  g_test_add_func ("/bush-dialogs/measured/stay", test_measured_stay);
  g_test_add_func ("/bush-dialogs/ground/draw-by-keys", test_draw_by_keys);
  g_test_add_func ("/bush-dialogs/ground/draw-lets-go", test_draw_lets_go);
  g_test_add_func ("/bush-dialogs/ground/draw-on", test_draw_on);
  g_test_add_func ("/bush-dialogs/ground/anchor", test_anchor);
  g_test_add_func ("/bush-dialogs/picture/placed", test_picture);
  g_test_add_func ("/bush-dialogs/picture/missing", test_picture_missing);
  g_test_add_func ("/bush-dialogs/files/import", test_import);
  g_test_add_func ("/bush-dialogs/files/import-refused", test_import_refused);
  g_test_add_func ("/bush-dialogs/files/export", test_export);
  return tools_run ();
}
