/* The panel shows the book as it stands and asks for one change at a time; what takes more than a line has a
 * dialog of its own. */
#include "ui/ground-panel.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "domain/units/geo-parse.h"
#include "models/bush-edit.h"
#include "ui/anchor-dialog.h"
#include "ui/bush-map-sketch.h"
#include "ui/entry-row.h"
#include "ui/field-labels.h"
#include "ui/picture-dialog.h"
#include "ui/picture-file.h"
#include "ui/pieces.h"
#include "ui/record-dialog.h"
#include "ui/window.h"
#include "words/ground-words.h"

struct _FrGroundPanel
{
  AdwBin parent_instance;
  FrSugarbush *bush;
  FrBushMap *map; /* stands in the same pane */
  GtkBox *box;
  GtkWidget *drawings;
  GtkWidget *form;
  GtkWidget *name;
  GtkWidget *anchor;
  GtkWidget *declination;
  GtkWidget *compass;
  GtkWidget *picture;
  GtkWidget *shown_row;
  GtkWidget *shown;
  GtkWidget *place;
  GtkWidget *take_away;
  gint64 redrawn; /* the drawing that is being drawn anew, 0: a new one */
  gboolean setting;
};

G_DEFINE_FINAL_TYPE (FrGroundPanel, fr_ground_panel, ADW_TYPE_BIN)

static guint close_signal;

static FrBook *
book_of (FrGroundPanel *self)
{
  return fr_sugarbush_get_book (self->bush);
}

static FrWindow *
window_of (FrGroundPanel *self)
{
  return fr_window_of (GTK_WIDGET (self));
}

static const FrGround *
ground_of (FrGroundPanel *self)
{
  FrRecordList *list = fr_book_get_list (book_of (self), FR_KIND_GROUND);

  return fr_record_list_get_size (list) > 0 ? (const FrGround *)fr_record_list_get (list, 0) : NULL;
}

static const char *
form_of (FrGroundPanel *self)
{
  const FrField *field = fr_kind_field (fr_kind (FR_KIND_FEATURE), "form");

  return field->codes[adw_combo_row_get_selected (ADW_COMBO_ROW (self->form))];
}

/* --- drawings --- */

static const FrFeature *
feature_of (FrGroundPanel *self, GtkWidget *widget)
{
  const gint64 *id = g_object_get_data (G_OBJECT (widget), "drawing");

  return (const FrFeature *)fr_book_find (book_of (self), FR_KIND_FEATURE, *id);
}

static void
edit_cb (GtkWidget *row, FrGroundPanel *self)
{
  const FrFeature *feature = feature_of (self, row);

  if (feature != NULL)
    gtk_window_present (GTK_WINDOW (fr_record_dialog_new (window_of (self), &feature->record, NULL, NULL)));
}

static void
sketched_cb (const FrGroundPoint *points, guint n, gpointer data)
{
  FrGroundPanel *self = FR_GROUND_PANEL (data);
  g_autofree char *text = n > 0 ? fr_ground_points_to_text (points, n) : NULL;
  g_autofree char *name = NULL;
  GError *error = NULL;
  FrChange *change;

  if (n == 0)
    return;
  if (self->redrawn != 0)
    change = fr_bush_edit_set_feature (book_of (self), self->redrawn, NULL, NULL, text, &error);
  else
    {
      fr_entry_row_finish (FR_ENTRY_ROW (self->name));
      name = g_strdup (fr_entry_row_get_text (FR_ENTRY_ROW (self->name)));
      change = fr_bush_edit_add_feature (book_of (self), form_of (self), name, text, &error);
    }
  if (fr_window_finish (window_of (self), change, error) && self->redrawn == 0)
    fr_entry_row_set_texts (FR_ENTRY_ROW (self->name), "", "", NULL);
}

static void
redraw_cb (GtkWidget *button, FrGroundPanel *self)
{
  const FrFeature *feature = feature_of (self, button);
  g_autofree FrGroundPoint *points = NULL;
  guint n = 0;

  if (feature == NULL || !fr_ground_points_parse (feature->points, &points, &n, NULL))
    return;
  self->redrawn = feature->record.id;
  fr_bush_map_sketch (self->map, feature->form, points, n, sketched_cb, self);
}

static void
delete_cb (GtkWidget *button, FrGroundPanel *self)
{
  const FrFeature *feature = feature_of (self, button);
  GError *error = NULL;
  FrChange *change;

  if (feature == NULL)
    return;
  change = fr_bush_edit_remove_feature (book_of (self), feature->record.id, &error);
  fr_window_finish (window_of (self), change, error);
}

void
fr_ground_panel_draw (FrGroundPanel *self)
{
  self->redrawn = 0;
  fr_bush_map_sketch (self->map, form_of (self), NULL, 0, sketched_cb, self);
}

static void
by_corners_cb (FrGroundPanel *self)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (FrRecord) record = fr_book_new_record (book_of (self), FR_KIND_FEATURE, 0, &error);
  const char *name = fr_entry_row_get_text (FR_ENTRY_ROW (self->name));

  if (record == NULL)
    {
      fr_window_show_error (window_of (self), error);
      return;
    }
  fr_record_set_text (record, fr_kind_field (record->kind, "form"), form_of (self));
  fr_record_set_text (record, fr_kind_field (record->kind, "name"), *name != '\0' ? name : NULL);
  gtk_window_present (GTK_WINDOW (fr_record_dialog_new (window_of (self), record, NULL, NULL)));
}

static GtkWidget *
small_button (const char *icon, const char *format, const char *what, gint64 id)
{
  GtkWidget *button = gtk_button_new_from_icon_name (icon);
  g_autofree char *words = g_strdup_printf (format, what);

  gtk_widget_add_css_class (button, "flat");
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_widget_set_tooltip_text (button, words);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  g_object_set_data_full (G_OBJECT (button), "drawing", g_memdup2 (&id, sizeof id), g_free);
  return button;
}

static GtkWidget *
drawing_row (FrGroundPanel *self, const FrFeature *feature)
{
  FrSay say = { .units = *fr_book_get_units (book_of (self)) };
  GtkWidget *row = adw_action_row_new (), *redraw, *delete;
  const char *form = fr_code_word ("form", feature->form);
  const char *title = feature->name != NULL ? feature->name : form;
  g_autofree FrGroundPoint *points = NULL;
  g_autofree char *size = NULL, *subtitle = NULL;
  gint64 id = feature->record.id;
  guint n = 0;

  if (fr_ground_points_parse (feature->points, &points, &n, NULL))
    size = fr_drawing_words (feature->form, points, n, &say);
  subtitle = g_strcmp0 (title, form) != 0 && size != NULL ? g_strdup_printf ("%s · %s", form, size)
             : size != NULL                               ? g_strdup (size)
                                                          : g_strdup (form);
  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row), subtitle);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), TRUE);
  gtk_widget_set_tooltip_text (row, _ ("Name, form and corners"));
  g_object_set_data_full (G_OBJECT (row), "drawing", g_memdup2 (&id, sizeof id), g_free);
  g_signal_connect (row, "activated", G_CALLBACK (edit_cb), self);
  redraw = small_button ("document-edit-symbolic", _ ("Draw on at “%s”"), title, id);
  delete = small_button ("user-trash-symbolic", _ ("Delete “%s”"), title, id);
  g_signal_connect (redraw, "clicked", G_CALLBACK (redraw_cb), self);
  g_signal_connect (delete, "clicked", G_CALLBACK (delete_cb), self);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), redraw);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), delete);
  return row;
}

static void
fill_drawings (FrGroundPanel *self)
{
  FrRecordList *list = fr_book_get_list (book_of (self), FR_KIND_FEATURE);
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (self->drawings)) != NULL)
    gtk_list_box_remove (GTK_LIST_BOX (self->drawings), child);
  for (guint i = 0; i < fr_record_list_get_size (list); i++)
    {
      const FrFeature *feature = (const FrFeature *)fr_record_list_get (list, i);

      if (!feature->record.archived)
        gtk_list_box_append (GTK_LIST_BOX (self->drawings), drawing_row (self, feature));
    }
  gtk_widget_set_visible (self->drawings, gtk_widget_get_first_child (self->drawings) != NULL);
}

/* --- earth and compass --- */

static void
anchor_cb (FrGroundPanel *self)
{
  gtk_window_present (GTK_WINDOW (fr_anchor_dialog_new (window_of (self))));
}

static void
declination_cb (FrGroundPanel *self, const char *text)
{
  double value_deg;
  gboolean read = fr_degrees_parse (text, FALSE, &value_deg);
  GError *error = NULL;
  FrChange *change;

  if (!read && *text != '\0')
    {
      fr_entry_row_set_texts (FR_ENTRY_ROW (self->declination), text, text, "°");
      fr_entry_row_set_problem (FR_ENTRY_ROW (self->declination),
                                _ ("Degrees, west negative or with W: −14.2, or 14.2 W."));
      return;
    }
  change = fr_bush_edit_single (book_of (self), FR_KIND_GROUND, "declination_deg", NULL, value_deg,
                                read ? text : NULL, &error);
  fr_window_finish (window_of (self), change, error);
}

static void
fill_compass (FrGroundPanel *self, const FrGround *ground, const FrSay *say)
{
  g_autofree char *anchor = fr_anchor_sentence (ground, say);
  g_autofree char *compass = fr_declination_sentence (ground, say);
  double value_deg = ground != NULL ? ground->declination_deg.value : NAN;
  g_autofree char *rest = isnan (value_deg) ? g_strdup ("") : fr_say_number (say, value_deg, 1);
  const char *typed = ground != NULL ? ground->declination_deg.typed : NULL;

  fr_set_text (self->anchor, anchor);
  fr_set_text (self->compass, compass);
  fr_entry_row_set_texts (FR_ENTRY_ROW (self->declination), rest,
                          typed != NULL && !isnan (value_deg) ? typed : rest, "°");
  fr_entry_row_set_problem (FR_ENTRY_ROW (self->declination), NULL);
}

/* --- picture --- */

void
fr_ground_panel_place (FrGroundPanel *self, const char *path)
{
  gtk_window_present (GTK_WINDOW (fr_picture_dialog_new (window_of (self), self->map, path)));
}

static void
place_cb (FrGroundPanel *self)
{
  const FrGround *ground = ground_of (self);
  g_autofree char *path
      = ground != NULL && ground->picture != NULL ? fr_picture_path (book_of (self), ground->picture) : NULL;

  if (path != NULL)
    fr_ground_panel_place (self, path);
}

static void
chosen_cb (GtkNativeDialog *dialog, int response, gpointer user_data)
{
  g_autoptr (GFile) file = NULL;
  g_autofree char *path = NULL;

  if (response == GTK_RESPONSE_ACCEPT)
    file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
  path = file != NULL ? g_file_get_path (file) : NULL;
  if (path != NULL)
    fr_ground_panel_place (FR_GROUND_PANEL (user_data), path);
  g_object_unref (dialog);
}

static void
choose_cb (FrGroundPanel *self)
{
  GtkFileChooserNative *dialog
      = gtk_file_chooser_native_new (_ ("Picture under the Plan"), GTK_WINDOW (window_of (self)),
                                     GTK_FILE_CHOOSER_ACTION_OPEN, _ ("_Open"), _ ("_Cancel"));
  g_autoptr (GtkFileFilter) pictures = gtk_file_filter_new ();

  gtk_file_filter_set_name (pictures, _ ("Pictures"));
  gtk_file_filter_add_pixbuf_formats (pictures);
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (dialog), pictures);
  g_signal_connect_object (dialog, "response", G_CALLBACK (chosen_cb), self, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

static void
shown_cb (FrGroundPanel *self)
{
  GError *error = NULL;
  FrChange *change;

  if (self->setting)
    return;
  change = fr_bush_edit_single (book_of (self), FR_KIND_GROUND, "picture_shown", NULL,
                                gtk_switch_get_active (GTK_SWITCH (self->shown)) ? 1 : 0, NULL, &error);
  fr_window_finish (window_of (self), change, error);
}

static void
take_away_cb (FrGroundPanel *self)
{
  GError *error = NULL;
  FrChange *change = fr_bush_edit_picture (book_of (self), NULL, NULL, NULL, &error);

  fr_window_finish (window_of (self), change, error);
}

static void
fill_picture (FrGroundPanel *self, const FrGround *ground)
{
  gboolean has = ground != NULL && ground->picture != NULL;
  g_autofree char *missing = has ? fr_picture_missing (book_of (self), ground->picture) : NULL;
  g_autofree char *name = has ? g_path_get_basename (ground->picture) : NULL;
  g_autofree char *text = NULL;

  if (!has)
    text = g_strdup (_ ("None. An aerial photo or a scan of a plan can lie under the map."));
  else if (missing != NULL)
    text = g_strdup (missing);
  else if (isnan (ground->second_column.value))
    text = g_strdup_printf (_ ("“%s” is not placed yet."), name);
  else
    text = g_strdup (name);
  fr_set_text (self->picture, text);
  if (missing != NULL)
    gtk_widget_add_css_class (self->picture, "problem");
  else
    gtk_widget_remove_css_class (self->picture, "problem");
  gtk_widget_set_visible (self->shown_row, has);
  gtk_widget_set_visible (self->place, has && missing == NULL);
  gtk_widget_set_visible (self->take_away, has);
  self->setting = TRUE;
  gtk_switch_set_active (GTK_SWITCH (self->shown), has && ground->picture_shown);
  self->setting = FALSE;
}

static void
fill (FrGroundPanel *self)
{
  FrSay say = { .units = *fr_book_get_units (book_of (self)) };
  const FrGround *ground = ground_of (self);

  fill_drawings (self);
  fill_compass (self, ground, &say);
  fill_picture (self, ground);
}

/* --- building --- */

static void
close_cb (FrGroundPanel *self)
{
  g_signal_emit (self, close_signal, 0);
}

static GtkWidget *
build_head (FrGroundPanel *self)
{
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6), *title = gtk_label_new (_ ("Ground"));
  GtkWidget *close = gtk_button_new_from_icon_name ("window-close-symbolic");

  gtk_widget_add_css_class (title, "panel-title");
  gtk_label_set_xalign (GTK_LABEL (title), 0);
  gtk_widget_set_hexpand (title, TRUE);
  gtk_widget_add_css_class (close, "flat");
  gtk_widget_set_tooltip_text (close, _ ("Close"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (close), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Close the ground’s panel"), -1);
  g_signal_connect_object (close, "clicked", G_CALLBACK (close_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (head), title);
  gtk_box_append (GTK_BOX (head), close);
  return head;
}

static GtkWidget *
list (void)
{
  GtkWidget *box = gtk_list_box_new ();

  gtk_list_box_set_selection_mode (GTK_LIST_BOX (box), GTK_SELECTION_NONE);
  gtk_widget_add_css_class (box, "boxed-list");
  return box;
}

static GtkWidget *
button (FrGroundPanel *self, const char *label, GCallback clicked)
{
  GtkWidget *made = gtk_button_new_with_label (label);

  g_signal_connect_object (made, "clicked", clicked, self, G_CONNECT_SWAPPED);
  return made;
}

static GtkWidget *
line_of (GtkWidget *first, GtkWidget *second)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);

  gtk_box_append (GTK_BOX (line), first);
  if (second != NULL)
    gtk_box_append (GTK_BOX (line), second);
  return line;
}

static void
heading (FrGroundPanel *self, const char *words)
{
  GtkWidget *label = fr_wrapped_text (words, "card-heading");

  gtk_widget_set_margin_top (label, 12);
  gtk_box_append (self->box, label);
}

static void
build_drawings (FrGroundPanel *self)
{
  const FrField *field = fr_kind_field (fr_kind (FR_KIND_FEATURE), "form");
  g_autoptr (GtkStringList) words = gtk_string_list_new (NULL);
  GtkWidget *rows = list ();

  heading (self, _ ("Drawings"));
  self->drawings = list ();
  gtk_box_append (self->box, self->drawings);
  for (guint i = 0; field->codes[i] != NULL; i++)
    gtk_string_list_append (words, fr_code_word ("form", field->codes[i]));
  self->form = adw_combo_row_new ();
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self->form), _ ("New"));
  adw_combo_row_set_model (ADW_COMBO_ROW (self->form), G_LIST_MODEL (words));
  self->name = fr_entry_row_new (_ ("Its name"), NULL);
  fr_entry_row_set_texts (FR_ENTRY_ROW (self->name), "", "", NULL);
  gtk_list_box_append (GTK_LIST_BOX (rows), self->form);
  gtk_list_box_append (GTK_LIST_BOX (rows), self->name);
  gtk_box_append (self->box, rows);
  gtk_box_append (self->box, line_of (button (self, _ ("Draw on Map"), G_CALLBACK (fr_ground_panel_draw)),
                                      button (self, _ ("Type Corners…"), G_CALLBACK (by_corners_cb))));
}

static void
build_earth (FrGroundPanel *self)
{
  GtkWidget *rows = list ();

  heading (self, _ ("Tie to the Earth"));
  self->anchor = fr_wrapped_text (NULL, "soft");
  gtk_box_append (self->box, self->anchor);
  gtk_box_append (self->box, line_of (button (self, _ ("Change the Tie…"), G_CALLBACK (anchor_cb)), NULL));
  heading (self, _ ("Compass"));
  self->declination = fr_entry_row_new (_ ("Declination"), NULL);
  g_signal_connect_object (self->declination, "finished", G_CALLBACK (declination_cb), self,
                           G_CONNECT_SWAPPED);
  gtk_list_box_append (GTK_LIST_BOX (rows), self->declination);
  gtk_box_append (self->box, rows);
  self->compass = fr_wrapped_text (NULL, "soft");
  gtk_box_append (self->box, self->compass);
}

static void
build_picture (FrGroundPanel *self)
{
  GtkWidget *row = adw_action_row_new (), *buttons;

  heading (self, _ ("Picture under the Plan"));
  self->picture = fr_wrapped_text (NULL, "soft");
  self->shown = gtk_switch_new ();
  gtk_widget_set_valign (self->shown, GTK_ALIGN_CENTER);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->shown), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Picture shown"), -1);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), _ ("Shown"));
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), self->shown);
  adw_action_row_set_activatable_widget (ADW_ACTION_ROW (row), self->shown);
  self->shown_row = list ();
  gtk_list_box_append (GTK_LIST_BOX (self->shown_row), row);
  g_signal_connect_object (self->shown, "notify::active", G_CALLBACK (shown_cb), self, G_CONNECT_SWAPPED);
  self->place = button (self, _ ("Place…"), G_CALLBACK (place_cb));
  self->take_away = button (self, _ ("Take Away"), G_CALLBACK (take_away_cb));
  buttons = line_of (button (self, _ ("Choose…"), G_CALLBACK (choose_cb)), self->place);
  gtk_box_append (GTK_BOX (buttons), self->take_away);
  gtk_box_append (self->box, self->picture);
  gtk_box_append (self->box, self->shown_row);
  gtk_box_append (self->box, buttons);
}

static void
fr_ground_panel_dispose (GObject *object)
{
  FrGroundPanel *self = FR_GROUND_PANEL (object);

  adw_bin_set_child (ADW_BIN (self), NULL);
  g_clear_object (&self->bush);
  G_OBJECT_CLASS (fr_ground_panel_parent_class)->dispose (object);
}

static void
fr_ground_panel_class_init (FrGroundPanelClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_ground_panel_dispose;
  close_signal
      = g_signal_new ("close", FR_TYPE_GROUND_PANEL, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
fr_ground_panel_init (FrGroundPanel *self)
{
  GtkWidget *scroller = gtk_scrolled_window_new ();

  self->box = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 8));
  gtk_widget_add_css_class (GTK_WIDGET (self->box), "tree-panel");
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), GTK_WIDGET (self->box));
  adw_bin_set_child (ADW_BIN (self), scroller);
}

GtkWidget *
fr_ground_panel_new (FrSugarbush *bush, FrBushMap *map)
{
  FrGroundPanel *self = g_object_new (FR_TYPE_GROUND_PANEL, NULL);

  self->bush = g_object_ref (bush);
  self->map = map;
  gtk_box_append (self->box, build_head (self));
  build_drawings (self);
  build_earth (self);
  build_picture (self);
  g_signal_connect_object (book_of (self), "changed", G_CALLBACK (fill), self, G_CONNECT_SWAPPED);
  fill (self);
  return GTK_WIDGET (self);
}
