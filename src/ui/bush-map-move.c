/* Moving what is selected. While it lasts only outlines move and a line tells how far and which way; the book
 * changes once, at the end. */
#include "ui/bush-map-private.h"

#include <math.h>

#include "models/bush-edit.h"
#include "ui/window.h"
#include "words/tree-words.h"

gboolean
fr_bush_map_is_moving (FrBushMap *self)
{
  return self->ghosts != NULL;
}

static void
make_ghosts (FrBushMap *self)
{
  const gint64 *selected = fr_sugarbush_get_selected (self->bush);

  self->ghosts = g_array_new (FALSE, FALSE, sizeof (FrMapTree));
  for (guint i = 0; i < fr_sugarbush_n_selected (self->bush); i++)
    {
      gssize at = fr_map_scene_find (self->scene, selected[i]);

      if (at >= 0 && !isnan (self->view.trees[at].x_m))
        g_array_append_val (self->ghosts, self->view.trees[at]);
    }
}

/* By @dx_m east and @dy_m north of where they stand. */
void
fr_bush_map_move_to (FrBushMap *self, double dx_m, double dy_m)
{
  FrSay say = { .units = *fr_book_get_units (fr_sugarbush_get_book (self->bush)) };
  g_autofree char *way = NULL;
  gssize at;

  if (self->ghosts == NULL)
    make_ghosts (self);
  for (guint i = 0; i < self->ghosts->len; i++)
    {
      FrMapTree *ghost = &g_array_index (self->ghosts, FrMapTree, i);

      ghost->x_m += dx_m - self->move_x_m;
      ghost->y_m += dy_m - self->move_y_m;
    }
  self->move_x_m = dx_m;
  self->move_y_m = dy_m;
  at = fr_map_scene_find (self->scene,
                          self->pressed != 0 ? self->pressed : fr_sugarbush_get_current (self->bush));
  self->measure = (FrMapMeasure){ .from_x_m = NAN };
  if (at >= 0 && !isnan (self->view.trees[at].x_m))
    self->measure = (FrMapMeasure){ .from_x_m = self->view.trees[at].x_m,
                                    .from_y_m = self->view.trees[at].y_m,
                                    .to_x_m = self->view.trees[at].x_m + dx_m,
                                    .to_y_m = self->view.trees[at].y_m + dy_m };
  /* Over the map rather than on the line, which a short move hides under the tree. */
  way = fr_way_words (dx_m, dy_m, &say);
  fr_bush_map_hint (self, way);
  if (self->moving_by_keys)
    gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, way, -1);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
fr_bush_map_move_end (FrBushMap *self, gboolean keep)
{
  double dx_m = self->move_x_m, dy_m = self->move_y_m;

  g_clear_pointer (&self->ghosts, g_array_unref);
  fr_bush_map_hint (self, NULL);
  self->move_x_m = self->move_y_m = 0;
  self->moving_by_keys = FALSE;
  gtk_widget_queue_draw (GTK_WIDGET (self));
  if (keep && (dx_m != 0 || dy_m != 0))
    {
      GError *error = NULL;
      FrChange *change
          = fr_bush_edit_move (fr_sugarbush_get_book (self->bush), fr_sugarbush_get_selected (self->bush),
                               fr_sugarbush_n_selected (self->bush), dx_m, dy_m, &error);

      fr_window_finish (fr_window_of (GTK_WIDGET (self)), change, error);
    }
  fr_bush_map_say (self);
}
