/* The pan from the side. Words are made here, the drawing is paint's. */
#include "ui/vessel-view.h"

#include <adwaita.h>
#include <glib/gi18n-lib.h>
#include <math.h>

#include "domain/records/vessel-shape.h"
#include "paint/vessel-side.h"
#include "ui/record-summary.h"
#include "ui/theme.h"

#define N_LEVELS 3

struct _FrVesselView
{
  GtkWidget parent_instance;
  gboolean has_shape;
  FrVessel shape;
  FrVesselLevel levels[N_LEVELS];
  char *names[N_LEVELS];
  char *values[N_LEVELS];
  gsize n_levels;
  char *rim_value;
};

G_DEFINE_FINAL_TYPE (FrVesselView, fr_vessel_view, GTK_TYPE_WIDGET)

static void
forget (FrVesselView *self)
{
  for (gsize i = 0; i < N_LEVELS; i++)
    {
      g_clear_pointer (&self->names[i], g_free);
      g_clear_pointer (&self->values[i], g_free);
    }
  g_clear_pointer (&self->rim_value, g_free);
  self->n_levels = 0;
}

static void
fr_vessel_view_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                        int *natural, int *minimum_baseline, int *natural_baseline)
{
  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 280 : 150;
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 520 : 150;
}

static void
fr_vessel_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  FrVesselView *self = FR_VESSEL_VIEW (widget);
  int width = gtk_widget_get_width (widget);
  int height = gtk_widget_get_height (widget);
  FrPalette palette = fr_theme_palette ();
  PangoContext *context = gtk_widget_get_pango_context (widget);
  cairo_t *cr;

  if (!self->has_shape || width <= 0 || height <= 0)
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  fr_vessel_side_draw (cr, context, &palette, &self->shape, self->levels, self->n_levels, _ ("Rim"),
                       self->rim_value, width, height, fr_text_scale_of_context (context), NULL);
  cairo_destroy (cr);
}

static void
fr_vessel_view_finalize (GObject *object)
{
  forget (FR_VESSEL_VIEW (object));
  G_OBJECT_CLASS (fr_vessel_view_parent_class)->finalize (object);
}

static void
fr_vessel_view_class_init (FrVesselViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = fr_vessel_view_finalize;
  widget_class->measure = fr_vessel_view_measure;
  widget_class->snapshot = fr_vessel_view_snapshot;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
  gtk_widget_class_set_css_name (widget_class, "drawing");
}

static void
fr_vessel_view_init (FrVesselView *self)
{
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  gtk_widget_add_css_class (GTK_WIDGET (self), "card");
  gtk_widget_add_css_class (GTK_WIDGET (self), "drawing");
  fr_theme_redraws (GTK_WIDGET (self));
}

GtkWidget *
fr_vessel_view_new (void)
{
  return g_object_new (FR_TYPE_VESSEL_VIEW, NULL);
}

/* "0.8 L, 1.3 cm" */
static char *
level_text (double volume_l, double depth_m, const FrUnits *units)
{
  g_autofree char *volume = fr_amount_text (volume_l, FR_QUANTITY_VOLUME, units);
  g_autofree char *depth = fr_amount_text (depth_m, FR_QUANTITY_LENGTH, units);

  return g_strdup_printf ("%s, %s", volume, depth);
}

static void
add_level (FrVesselView *self, const char *name, double volume_l, gboolean strong, const FrUnits *units)
{
  double depth_m = isnan (volume_l) ? NAN : fr_vessel_depth_m (&self->shape, volume_l);
  gsize at = self->n_levels;

  if (isnan (depth_m))
    return;
  while (at > 0 && self->levels[at - 1].depth_m > depth_m)
    {
      self->levels[at] = self->levels[at - 1];
      self->names[at] = self->names[at - 1];
      self->values[at] = self->values[at - 1];
      at--;
    }
  self->names[at] = g_strdup (name);
  self->values[at] = level_text (volume_l, depth_m, units);
  self->levels[at] = (FrVesselLevel){ depth_m, self->names[at], self->values[at], strong };
  self->n_levels++;
}

void
fr_vessel_view_set (FrVesselView *self, const FrVesselRecord *vessel, const FrUnits *units)
{
  GString *words = g_string_new (_ ("The pan from the side."));

  forget (self);
  self->has_shape = fr_vessel_record_shape (vessel, &self->shape);
  if (self->has_shape)
    {
      self->rim_value
          = level_text (fr_vessel_capacity_l (&self->shape), fr_vessel_height_m (&self->shape), units);
      add_level (self, _ ("Never below"), vessel->min_level_l.value, FALSE, units);
      add_level (self, _ ("Power off at"), vessel->cutoff_l.value, FALSE, units);
      add_level (self, _ ("Held at"), vessel->hold_l.value, TRUE, units);
      g_string_append_printf (words, " %s %s.", _ ("Rim"), self->rim_value);
      for (gsize i = 0; i < self->n_levels; i++)
        g_string_append_printf (words, " %s %s.", self->levels[i].name, self->levels[i].value);
    }
  gtk_widget_set_visible (GTK_WIDGET (self), self->has_shape);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, words->str, -1);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self), NULL);
  g_string_free (words, TRUE);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
