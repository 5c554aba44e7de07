/* Both values may be pasted into the first field at once, as a receiver or a message gives them. */
#include "ui/anchor-dialog.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "domain/units/geo-parse.h"
#include "models/bush-edit.h"
#include "ui/dialog-frame.h"
#include "ui/entry-row.h"
#include "ui/pieces.h"
#include "ui/place-group.h"
#include "words/ground-words.h"

struct _FrAnchorDialog
{
  AdwWindow parent_instance;
  FrWindow *window; /* the dialog is transient for it and goes first */
  FrPlaceGroup *place;
  GtkWidget *latitude;
  GtkWidget *longitude;
  GtkWidget *result;
  GtkWidget *keep_button;
  FrEarthPoint point;
};

G_DEFINE_FINAL_TYPE (FrAnchorDialog, fr_anchor_dialog, ADW_TYPE_WINDOW)

static FrBook *
book_of (FrAnchorDialog *self)
{
  return fr_window_get_book (self->window);
}

static void
update (FrAnchorDialog *self)
{
  FrSay say = { .units = *fr_book_get_units (book_of (self)) };
  FrGround ground = { .anchor_lat_deg = { .value = self->point.lat_deg },
                      .anchor_lon_deg = { .value = self->point.lon_deg } };
  gboolean ready = fr_place_group_get (self->place, &ground.anchor_x_m.value, &ground.anchor_y_m.value)
                   && fr_geo_is_point (self->point);
  g_autofree char *text = ready ? fr_anchor_sentence (&ground, &say) : NULL;

  gtk_label_set_text (GTK_LABEL (self->result), ready ? text : _ ("All four are needed."));
  gtk_widget_set_sensitive (self->keep_button, ready);
}

static void
show_degrees (GtkWidget *row, double value_deg)
{
  char digits[G_ASCII_DTOSTR_BUF_SIZE];

  if (isnan (value_deg))
    fr_entry_row_set_texts (FR_ENTRY_ROW (row), "", "", "°");
  else
    {
      g_autofree char *text = NULL;

      g_ascii_formatd (digits, sizeof digits, "%.9g", fabs (value_deg));
      text = g_strconcat (value_deg < 0 ? "−" : "", digits, NULL);
      fr_entry_row_set_texts (FR_ENTRY_ROW (row), text, text, "°");
    }
  fr_entry_row_set_problem (FR_ENTRY_ROW (row), NULL);
}

static void
latitude_cb (FrAnchorDialog *self, const char *text)
{
  FrEarthPoint both;

  if (fr_degrees_parse (text, TRUE, &self->point.lat_deg))
    show_degrees (self->latitude, self->point.lat_deg);
  else if (fr_earth_point_parse (text, &both))
    {
      self->point = both;
      show_degrees (self->latitude, both.lat_deg);
      show_degrees (self->longitude, both.lon_deg);
    }
  else
    {
      fr_entry_row_set_texts (FR_ENTRY_ROW (self->latitude), text, text, NULL);
      fr_entry_row_set_problem (FR_ENTRY_ROW (self->latitude),
                                *text != '\0' ? _ ("0 to 90 degrees: 44.2601, or 44° 15′ 36″ N.") : NULL);
    }
  update (self);
}

static void
longitude_cb (FrAnchorDialog *self, const char *text)
{
  if (fr_degrees_parse (text, FALSE, &self->point.lon_deg))
    show_degrees (self->longitude, self->point.lon_deg);
  else
    {
      fr_entry_row_set_texts (FR_ENTRY_ROW (self->longitude), text, text, NULL);
      fr_entry_row_set_problem (FR_ENTRY_ROW (self->longitude),
                                *text != '\0' ? _ ("0 to 180 degrees: −72.5802, or 72° 34′ 49″ W.") : NULL);
    }
  update (self);
}

static void
apply (FrAnchorDialog *self, FrChange *change, const GError *error)
{
  if (change == NULL && error != NULL)
    gtk_label_set_text (GTK_LABEL (self->result), error->message);
  else if (change == NULL || fr_window_apply (self->window, change))
    gtk_window_close (GTK_WINDOW (self));
}

static void
keep_cb (FrAnchorDialog *self)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (FrChange) change = NULL;
  double x_m, y_m;

  fr_place_group_finish (self->place);
  fr_entry_row_finish (FR_ENTRY_ROW (self->latitude));
  fr_entry_row_finish (FR_ENTRY_ROW (self->longitude));
  if (!gtk_widget_get_sensitive (self->keep_button) || !fr_place_group_get (self->place, &x_m, &y_m))
    return;
  change = fr_bush_edit_anchor (book_of (self), x_m, y_m, self->point.lat_deg, self->point.lon_deg, &error);
  apply (self, change, error);
}

static void
untie_cb (FrAnchorDialog *self)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (FrChange) change = fr_bush_edit_anchor (book_of (self), NAN, NAN, NAN, NAN, &error);

  apply (self, change, error);
}

static void
fr_anchor_dialog_class_init (FrAnchorDialogClass *klass)
{
  fr_dialog_frame_class_init (GTK_WIDGET_CLASS (klass));
}

static void
fr_anchor_dialog_init (FrAnchorDialog *self)
{
  self->point = (FrEarthPoint){ NAN, NAN };
}

static GtkWidget *
build_earth (FrAnchorDialog *self)
{
  GtkWidget *group = adw_preferences_group_new ();

  self->latitude = fr_entry_row_new (_ ("Latitude"), _ ("South is negative, or S"));
  self->longitude = fr_entry_row_new (_ ("Longitude"), _ ("West is negative, or W"));
  fr_entry_row_set_width (FR_ENTRY_ROW (self->latitude), 18);
  fr_entry_row_set_width (FR_ENTRY_ROW (self->longitude), 18);
  g_signal_connect_object (self->latitude, "finished", G_CALLBACK (latitude_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->longitude, "finished", G_CALLBACK (longitude_cb), self, G_CONNECT_SWAPPED);
  adw_preferences_group_set_title (ADW_PREFERENCES_GROUP (group), _ ("Lies at"));
  adw_preferences_group_set_description (ADW_PREFERENCES_GROUP (group),
                                         _ ("As a receiver shows it (WGS 84). Both may be pasted at once."));
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), self->latitude);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), self->longitude);
  return group;
}

GtkWidget *
fr_anchor_dialog_new (FrWindow *window)
{
  FrAnchorDialog *self = g_object_new (FR_TYPE_ANCHOR_DIALOG, "transient-for", window, NULL);
  FrRecordList *list = fr_book_get_list (fr_window_get_book (window), FR_KIND_GROUND);
  const FrGround *ground
      = fr_record_list_get_size (list) > 0 ? (const FrGround *)fr_record_list_get (list, 0) : NULL;
  gboolean tied = ground != NULL && !isnan (ground->anchor_lat_deg.value);
  GtkBox *inner;

  self->window = window;
  self->keep_button = fr_dialog_frame_build (ADW_WINDOW (self), _ ("Tie to the Earth"), 480, 560,
                                             G_CALLBACK (keep_cb), self, &inner);
  self->place = FR_PLACE_GROUP (fr_place_group_new (_ ("This Point of the Plan"), book_of (self)));
  gtk_box_append (inner, GTK_WIDGET (self->place));
  gtk_box_append (inner, build_earth (self));
  self->result = fr_wrapped_text (NULL, "strong");
  gtk_box_append (inner, self->result);
  if (tied)
    {
      GtkWidget *untie = gtk_button_new_with_mnemonic (_ ("_Untie"));

      self->point = (FrEarthPoint){ ground->anchor_lat_deg.value, ground->anchor_lon_deg.value };
      gtk_widget_set_halign (untie, GTK_ALIGN_START);
      g_signal_connect_swapped (untie, "clicked", G_CALLBACK (untie_cb), self);
      gtk_box_append (inner, untie);
    }
  show_degrees (self->latitude, self->point.lat_deg);
  show_degrees (self->longitude, self->point.lon_deg);
  g_signal_connect_object (self->place, "changed", G_CALLBACK (update), self, G_CONNECT_SWAPPED);
  fr_place_group_set (self->place, tied ? ground->anchor_x_m.value : 0, tied ? ground->anchor_y_m.value : 0);
  update (self);
  fr_entry_row_grab (FR_ENTRY_ROW (self->latitude));
  return GTK_WIDGET (self);
}
