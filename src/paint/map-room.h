/* Which boxes of a large drawing are taken already, looked up by cells. Private to this room. */
#pragma once

#include "paint/canvas.h"

typedef struct
{
  FrBox box;
  gint32 next;
} FrMapTaken;

/* Boxes by cells of 64 px; a hash of the cell finds its list, and lists that share a place are merely longer.
 */
typedef struct
{
  GArray *taken; /* FrMapTaken */
  gint32 *heads;
  guint32 mask;
  GArray *large; /* FrBox */
} FrMapRoom;

/* For about @n boxes. */
void
fr_map_room_init (FrMapRoom *room, gsize n);

void
fr_map_room_clear (FrMapRoom *room);

void
fr_map_room_take (FrMapRoom *room, FrBox box);

gboolean
fr_map_room_is_free (const FrMapRoom *room, const FrBox *box);

gboolean
fr_box_touches (const FrBox *a, const FrBox *b);
