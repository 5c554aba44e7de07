/* A place on the trunk in words. Ratios are rounded down, so that what falls short never reads as kept. */
#include "words/taphole-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define SIDES 8
#define ON_THE_HOLE_M 0.01 /* as high as the old hole, to a finger's breadth */
#define GUARD 1e-6         /* 1.6 kept exactly is not 1.5 */

static const char *const sides[SIDES] = {
  N_ ("north side"), N_ ("north-east side"), N_ ("east side"), N_ ("south-east side"),
  N_ ("south side"), N_ ("south-west side"), N_ ("west side"), N_ ("north-west side"),
};

const char *
fr_trunk_side (double angle_deg)
{
  const double turn_deg = fmod (fmod (angle_deg, 360) + 360, 360);

  g_return_val_if_fail (isfinite (angle_deg), "");
  return _ (sides[(guint)floor (turn_deg / (360.0 / SIDES) + 0.5) % SIDES]);
}

static char *
ratio_text (const FrSay *say, double ratio)
{
  const int decimals = ratio < 1 - GUARD ? 2 : 1;
  const double scale = pow (10, decimals);

  return fr_say_number (say, floor (ratio * scale + GUARD) / scale, decimals);
}

/* "the hole of 2024", "hole 3". */
static char *
hole_name (guint index, const guint *seasons)
{
  if (seasons != NULL && seasons[index] > 0)
    return g_strdup_printf (_ ("the hole of %u"), seasons[index]);
  return g_strdup_printf (_ ("hole %u"), index + 1);
}

static void
add (GString *text, char *sentence)
{
  if (text->len > 0)
    g_string_append_c (text, ' ');
  g_string_append (text, sentence);
  g_free (sentence);
}

static void
say_clearance (GString *text, const FrTaphole *place, gboolean found, const FrSay *say)
{
  g_autofree char *ratio = NULL;

  if (isnan (place->clearance_ratio))
    {
      add (text, g_strdup (found ? _ ("There is no old hole: the middle of the heights, on the south side.")
                                 : _ ("There is no old hole to keep clear of.")));
      return;
    }
  ratio = ratio_text (say, place->clearance_ratio);
  if (place->keeps_rule)
    add (text,
         g_strdup_printf (
             found ? _ ("%s times the asked distance from every hole; it is the most this trunk offers.")
                   : _ ("%s times the asked distance from every hole."),
             ratio));
  else
    add (text, g_strdup_printf (found ? _ ("No place keeps the asked distance: the best has %s of it.")
                                      : _ ("Too near: it has %s of the asked distance."),
                                ratio));
}

static void
say_nearest (GString *text, const FrTaphole *place, const FrHole *holes, guint n_holes, const guint *seasons)
{
  g_autofree char *name = NULL;

  if (place->nearest < 0)
    return;
  if ((guint)place->nearest >= n_holes)
    {
      add (text, g_strdup (_ ("Nearest is another place of this season.")));
      return;
    }
  name = hole_name (place->nearest, seasons);
  add (text, g_strdup_printf (_ ("Nearest is %s, on the %s."), name,
                              fr_trunk_side (holes[place->nearest].angle_deg)));
}

static void
say_stain (GString *text, const FrTaphole *place, const FrHole *holes, guint n_holes, const guint *seasons)
{
  g_autofree char *name = NULL;
  double above_m;

  if (place->stain == FR_STAIN_CLEAR || (guint)place->stain_of >= n_holes)
    return;
  name = hole_name (place->stain_of, seasons);
  above_m = place->height_m - holes[place->stain_of].height_m;
  if (place->stain == FR_STAIN_IN_LINE)
    add (text, g_strdup_printf (above_m > 0 ? _ ("Straight above %s: its stained wood may reach this far.")
                                            : _ ("Straight below %s: its stained wood may reach this far."),
                                name));
  else if (fabs (above_m) < ON_THE_HOLE_M)
    add (text, g_strdup_printf (_ ("Right at %s: it would sit in its stained wood."), name));
  else
    add (text, g_strdup_printf (above_m > 0 ? _ ("Straight above %s: it would sit in its stained wood.")
                                            : _ ("Straight below %s: it would sit in its stained wood."),
                                name));
}

char *
fr_taphole_reason (const FrTaphole *place, const FrHole *holes, guint n_holes, const guint *seasons,
                   gboolean found, const FrSay *say)
{
  GString *text = g_string_new (NULL);

  g_return_val_if_fail (place != NULL && say != NULL && (holes != NULL || n_holes == 0), NULL);
  if (!place->in_range)
    add (text, g_strdup (_ ("Outside the heights that are asked for.")));
  say_clearance (text, place, found, say);
  say_nearest (text, place, holes, n_holes, seasons);
  say_stain (text, place, holes, n_holes, seasons);
  return g_string_free (text, FALSE);
}
