/* One sentence for each thing that can become of an arrival. What stays out says what to do about it. */
#include "words/arrival-words.h"

#include "words/entry-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* Smaller misfits are the receiver's and the tape's own. */
#define TURN_DEG 2
#define STRETCH 0.03
#define RESIDUAL_M 5

static const char *
or_unnamed (const char *name)
{
  return name != NULL && *name != '\0' ? name : _ ("unnamed");
}

char *
fr_arrival_title (const FrArrivalRow *row)
{
  if (row->arrival->tree->name != NULL)
    return g_strdup (row->arrival->tree->name);
  return g_strdup (row->after != NULL ? or_unnamed (row->after->name) : _ ("unnamed"));
}

char *
fr_arrival_where (const FrArrivals *arrivals, guint line)
{
  return g_strdup_printf (arrivals->by_line ? _ ("line %u") : _ ("entry %u"), line);
}

const char *
fr_arrival_fate_word (FrArrivalFate fate)
{
  switch (fate)
    {
    case FR_ARRIVAL_NEW:
      return _ ("New");
    case FR_ARRIVAL_CHANGES:
      return _ ("Changed");
    case FR_ARRIVAL_SAME:
      return _ ("Same");
    case FR_ARRIVAL_AMBIGUOUS:
      return _ ("Unclear");
    case FR_ARRIVAL_REFUSED:
      return _ ("Refused");
    case FR_N_ARRIVAL_FATES:
      break;
    }
  return "";
}

static char *
distance (const FrSay *say, double value_m)
{
  return fr_say_amount (say, value_m, FR_QUANTITY_DISTANCE, -1);
}

/* "12.5 m east and 3 m north" */
static char *
place (const FrSay *say, double x_m, double y_m)
{
  g_autofree char *x = distance (say, fabs (x_m)), *y = distance (say, fabs (y_m));

  return g_strdup_printf (x_m < 0 ? (y_m < 0 ? _ ("%s west and %s south") : _ ("%s west and %s north"))
                                  : (y_m < 0 ? _ ("%s east and %s south") : _ ("%s east and %s north")),
                          x, y);
}

/* --- what comes in --- */

static char *
new_sentence (const FrArrivalRow *row, const FrSay *say)
{
  GString *out = g_string_new (NULL);

  if (isnan (row->x_m))
    g_string_append (out, _ ("New, without a place."));
  else
    {
      g_autofree char *where = place (say, row->x_m, row->y_m);

      g_string_append_printf (out, _ ("New, %s on the plan."), where);
    }
  if (row->arrival->tree->name == NULL && row->after != NULL)
    {
      g_string_append_c (out, ' ');
      g_string_append_printf (out, _ ("It is called %s."), row->after->name);
    }
  if (row->n_history > 0)
    {
      g_string_append_c (out, ' ');
      g_string_append_printf (g_steal_pointer (&out) == NULL ? NULL : out, "%s", "");
    }
  return g_string_free (out, FALSE);
}
