#include "ui/wrap-layout.h"

struct _FrWrapLayout
{
  GtkLayoutManager parent_instance;
  int across_px;
  int down_px;
};

G_DEFINE_FINAL_TYPE (FrWrapLayout, fr_wrap_layout, GTK_TYPE_LAYOUT_MANAGER)

/* A line from @first on; gives the child after it. */
typedef struct
{
  GtkWidget *first;
  GtkWidget *end;
  int width_px; /* natural, with the gaps */
  int height_px;
  int n_expand;
} Line;

static gboolean
is_laid_out (GtkWidget *child)
{
  return gtk_widget_should_layout (child);
}

static int
natural_px (GtkWidget *child, int room_px)
{
  int least = 0, natural = 0;

  gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &least, &natural, NULL, NULL);
  return MAX (least, MIN (natural, room_px));
}

static Line
next_line (FrWrapLayout *self, GtkWidget *from, int room_px)
{
  Line line = { .first = from };
  GtkWidget *child = from;

  for (; child != NULL; child = gtk_widget_get_next_sibling (child))
    {
      int width_px, height_px;

      if (!is_laid_out (child))
        continue;
      width_px = natural_px (child, room_px);
      if (line.width_px > 0 && line.width_px + self->across_px + width_px > room_px)
        break;
      gtk_widget_measure (child, GTK_ORIENTATION_VERTICAL, width_px, NULL, &height_px, NULL, NULL);
      line.width_px += width_px + (line.width_px > 0 ? self->across_px : 0);
      line.height_px = MAX (line.height_px, height_px);
      line.n_expand += gtk_widget_compute_expand (child, GTK_ORIENTATION_HORIZONTAL);
    }
  line.end = child;
  return line;
}

static GtkSizeRequestMode
fr_wrap_layout_get_request_mode (GtkLayoutManager *manager, GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
fr_wrap_layout_measure (GtkLayoutManager *manager, GtkWidget *widget, GtkOrientation orientation,
                        int for_size, int *minimum, int *natural, int *minimum_baseline,
                        int *natural_baseline)
{
  FrWrapLayout *self = FR_WRAP_LAYOUT (manager);
  int least_px = 0, whole_px = 0, height_px = 0;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (is_laid_out (child))
      {
        int least = 0, wanted = 0;

        gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &least, &wanted, NULL, NULL);
        least_px = MAX (least_px, least);
        whole_px += wanted + (whole_px > 0 ? self->across_px : 0);
      }
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = least_px;
      *natural = MAX (least_px, whole_px);
      return;
    }
  for (GtkWidget *at = gtk_widget_get_first_child (widget); at != NULL;)
    {
      Line line = next_line (self, at, for_size >= 0 ? MAX (for_size, least_px) : whole_px);

      height_px += line.height_px + (height_px > 0 ? self->down_px : 0);
      at = line.end;
    }
  *minimum = *natural = height_px;
}

static void
fr_wrap_layout_allocate (GtkLayoutManager *manager, GtkWidget *widget, int width, int height, int baseline)
{
  FrWrapLayout *self = FR_WRAP_LAYOUT (manager);
  gboolean right_to_left = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  int y = 0;

  for (GtkWidget *at = gtk_widget_get_first_child (widget); at != NULL;)
    {
      Line line = next_line (self, at, width);
      int more_px = line.n_expand > 0 ? MAX (0, width - line.width_px) / line.n_expand : 0, x = 0;

      for (GtkWidget *child = line.first; child != line.end; child = gtk_widget_get_next_sibling (child))
        if (is_laid_out (child))
          {
            int wide_px = natural_px (child, width)
                          + (gtk_widget_compute_expand (child, GTK_ORIENTATION_HORIZONTAL) ? more_px : 0);

            gtk_widget_size_allocate (
                child,
                &(GtkAllocation){ right_to_left ? width - x - wide_px : x, y, wide_px, line.height_px }, -1);
            x += wide_px + self->across_px;
          }
      y += line.height_px + self->down_px;
      at = line.end;
    }
}

static void
fr_wrap_layout_class_init (FrWrapLayoutClass *klass)
{
  GtkLayoutManagerClass *manager_class = GTK_LAYOUT_MANAGER_CLASS (klass);

  manager_class->get_request_mode = fr_wrap_layout_get_request_mode;
  manager_class->measure = fr_wrap_layout_measure;
  manager_class->allocate = fr_wrap_layout_allocate;
}

static void
fr_wrap_layout_init (FrWrapLayout *self)
{
}

GtkWidget *
fr_wrap_box_new (int across_px, int down_px)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  FrWrapLayout *layout = g_object_new (FR_TYPE_WRAP_LAYOUT, NULL);

  layout->across_px = across_px;
  layout->down_px = down_px;
  gtk_widget_set_layout_manager (box, GTK_LAYOUT_MANAGER (layout));
  return box;
}
