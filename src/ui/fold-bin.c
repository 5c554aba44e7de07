#include "ui/fold-bin.h"

typedef struct
{
  guint below; /* a bit for each limit the width is under; all bits before any is known */
  guint fold_id;
} FrFoldBinPrivate;

G_DEFINE_ABSTRACT_TYPE_WITH_PRIVATE (FrFoldBin, fr_fold_bin, ADW_TYPE_BIN)

static guint
limits_below (FrFoldBin *self, int width)
{
  const int *limits = FR_FOLD_BIN_GET_CLASS (self)->limits_px;
  guint below = 0;

  for (guint i = 0; limits[i] != 0; i++)
    below |= (guint)(width < limits[i]) << i;
  return below;
}

static gboolean
fold_cb (gpointer user_data)
{
  FrFoldBin *self = FR_FOLD_BIN (user_data);
  FrFoldBinPrivate *priv = fr_fold_bin_get_instance_private (self);
  int width = gtk_widget_get_width (GTK_WIDGET (self));
  guint below = limits_below (self, width);

  priv->fold_id = 0;
  if (below == priv->below)
    return G_SOURCE_REMOVE;
  priv->below = below;
  FR_FOLD_BIN_GET_CLASS (self)->fold (self, width);
  return G_SOURCE_REMOVE;
}

static void
fr_fold_bin_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                     int *minimum_baseline, int *natural_baseline)
{
  GtkWidget *child = adw_bin_get_child (ADW_BIN (widget));
  int least_px = FR_FOLD_BIN_GET_CLASS (widget)->least_px;

  if (child == NULL)
    return;
  gtk_widget_measure (child, orientation, for_size, minimum, natural, NULL, NULL);
  if (orientation == GTK_ORIENTATION_HORIZONTAL && least_px > 0)
    *minimum = MIN (*minimum, least_px);
}

static void
fr_fold_bin_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  FrFoldBin *self = FR_FOLD_BIN (widget);
  FrFoldBinPrivate *priv = fr_fold_bin_get_instance_private (self);
  GtkWidget *child = adw_bin_get_child (ADW_BIN (widget));

  if (child != NULL)
    gtk_widget_allocate (child, width, height, baseline, NULL);
  if (limits_below (self, width) != priv->below && priv->fold_id == 0)
    priv->fold_id = g_idle_add (fold_cb, self);
}

static void
fr_fold_bin_dispose (GObject *object)
{
  FrFoldBinPrivate *priv = fr_fold_bin_get_instance_private (FR_FOLD_BIN (object));

  g_clear_handle_id (&priv->fold_id, g_source_remove);
  G_OBJECT_CLASS (fr_fold_bin_parent_class)->dispose (object);
}

static void
fr_fold_bin_class_init (FrFoldBinClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = fr_fold_bin_dispose;
  widget_class->measure = fr_fold_bin_measure;
  widget_class->size_allocate = fr_fold_bin_size_allocate;
}

static void
fr_fold_bin_init (FrFoldBin *self)
{
  FrFoldBinPrivate *priv = fr_fold_bin_get_instance_private (self);

  priv->below = G_MAXUINT;
  /* With a layout manager the class would not be asked. */
  gtk_widget_set_layout_manager (GTK_WIDGET (self), NULL);
}
