/* A grid without edges: the plan at a close scale is millions of pixels wide, and only cells with something
 * in them cost anything. Very large boxes are few and kept in a list of their own. */
#include "paint/map-room.h"

#include <math.h>
#include <string.h>

#define CELL_PX 64.0
#define MOST_CELLS_OF_A_BOX 40

static guint32
slot (const FrMapRoom *room, gint64 column, gint64 row)
{
  guint64 hash = (guint64)column * 0x9e3779b97f4a7c15u ^ (guint64)row * 0xc2b2ae3d27d4eb4fu;

  return (guint32)(hash >> 33) & room->mask;
}

static void
cells_of (const FrBox *box, gint64 cells[4])
{
  cells[0] = (gint64)floor (box->x_px / CELL_PX);
  cells[1] = (gint64)floor (box->y_px / CELL_PX);
  cells[2] = (gint64)floor ((box->x_px + box->width_px) / CELL_PX);
  cells[3] = (gint64)floor ((box->y_px + box->height_px) / CELL_PX);
}

void
fr_map_room_take (FrMapRoom *room, FrBox box)
{
  gint64 c[4];

  if (!isfinite (box.x_px + box.y_px)
      || box.width_px * box.height_px > MOST_CELLS_OF_A_BOX * CELL_PX * CELL_PX)
    {
      g_array_append_val (room->large, box);
      return;
    }
  cells_of (&box, c);
  for (gint64 row = c[1]; row <= c[3]; row++)
    for (gint64 column = c[0]; column <= c[2]; column++)
      {
        guint32 at = slot (room, column, row);
        FrMapTaken taken = { box, room->heads[at] };
        room->heads[at] = (gint32)room->taken->len;
        g_array_append_val (room->taken, taken);
      }
}

gboolean
fr_box_touches (const FrBox *a, const FrBox *b)
{
  return a->x_px < b->x_px + b->width_px && b->x_px < a->x_px + a->width_px
         && a->y_px < b->y_px + b->height_px && b->y_px < a->y_px + a->height_px;
}

gboolean
fr_map_room_is_free (const FrMapRoom *room, const FrBox *box)
{
  gint64 c[4];

  for (guint i = 0; i < room->large->len; i++)
    if (fr_box_touches (box, &g_array_index (room->large, FrBox, i)))
      return FALSE;
  cells_of (box, c);
  for (gint64 row = c[1]; row <= c[3]; row++)
    for (gint64 column = c[0]; column <= c[2]; column++)
      for (gint32 i = room->heads[slot (room, column, row)]; i >= 0;
           i = g_array_index (room->taken, FrMapTaken, i).next)
        if (fr_box_touches (box, &g_array_index (room->taken, FrMapTaken, i).box))
          return FALSE;
  return TRUE;
}

void
fr_map_room_init (FrMapRoom *room, gsize n)
{
  guint32 size = 256;

  while (size < 4 * n && size < (1u << 20))
    size *= 2;
  room->mask = size - 1;
  room->heads = g_new (gint32, size);
  memset (room->heads, 0xff, size * sizeof *room->heads);
  room->taken = g_array_sized_new (FALSE, FALSE, sizeof (FrMapTaken), (guint)(2 * n + 16));
  room->large = g_array_new (FALSE, FALSE, sizeof (FrBox));
}

void
fr_map_room_clear (FrMapRoom *room)
{
  g_free (room->heads);
  g_array_unref (room->taken);
  g_array_unref (room->large);
}
