/* A household's own measures of volume, as text in the book: "bucket = 11.4", one a line, in litres.
 *
 * A name that is a unit already ("cup", "l") is refused, so that no later reading of "22.5 l" can mean
 * something else; a digit in a name is refused because numbers end where digits end. */
#include "domain/units/quantity-units.h"

#include <math.h>
#include <string.h>

#define LARGEST_L 10000.0

/* Trims white space of any script at both ends, in place. */
static char *
trim (char *text)
{
  char *end = text + strlen (text);

  while (*text && g_unichar_isspace (g_utf8_get_char (text)))
    text = g_utf8_next_char (text);
  while (end > text)
    {
      char *before = g_utf8_prev_char (end);

      if (!g_unichar_isspace (g_utf8_get_char (before)))
        break;
      end = before;
    }
  *end = 0;
  return text;
}

static gboolean
is_good_name (const char *name, const GArray *before)
{
  static const FrUnits bare = { FR_SYSTEM_US, FALSE, '.', NULL, 0 };
  const FrUnits known = { FR_SYSTEM_US, FALSE, '.', (const FrMeasure *)(gpointer)before->data, before->len };
  g_autofree char *text = NULL;
  double litres_l;

  /* must read as a unit, and not as one of those there are */
  text = g_strdup_printf ("1 %s", name);
  for (const char *p = name; *p; p = g_utf8_next_char (p))
    if (g_unichar_isdigit (g_utf8_get_char (p)) || g_unichar_iscntrl (g_utf8_get_char (p)))
      return FALSE;
  if (fr_quantity_parse (text, FR_QUANTITY_VOLUME, &bare, &litres_l, NULL, NULL)
      || fr_quantity_parse (text, FR_QUANTITY_VOLUME, &known, &litres_l, NULL, NULL))
    return FALSE;
  {
    const FrMeasure self = { (char *)(gpointer)name, 1 };
    const FrUnits own = { FR_SYSTEM_US, FALSE, '.', &self, 1 };

    return fr_quantity_parse (text, FR_QUANTITY_VOLUME, &own, &litres_l, NULL, NULL) && litres_l == 1;
  }
}

static gboolean
read_line (char *line, const GArray *before, FrMeasure *measure)
{
  char *sign = strchr (line, '=');
  char *name, *size, *last;

  if (!sign)
    return FALSE;
  *sign = 0;
  name = trim (line);
  size = trim (sign + 1);
  last = *size ? size + strlen (size) - 1 : size;
  if (*last == 'l' || *last == 'L')
    *last = 0;
  if (!fr_quantity_parse (size, FR_QUANTITY_PLAIN, NULL, &measure->litres_l, NULL, NULL)
      || !(measure->litres_l > 0 && measure->litres_l <= LARGEST_L) || !is_good_name (name, before))
    return FALSE;
  measure->name = g_strdup (name);
  return TRUE;
}

gboolean
fr_measures_parse (const char *text, FrMeasure **measures_out, guint *n_out, guint *bad_line_out)
{
  g_auto (GStrv) lines = NULL;
  g_autoptr (GArray) measures = g_array_new (FALSE, FALSE, sizeof (FrMeasure));
  guint bad_line = 0;

  g_return_val_if_fail (measures_out != NULL && n_out != NULL, FALSE);

  *measures_out = NULL;
  *n_out = 0;
  lines = g_strsplit (text ? text : "", "\n", -1);
  for (guint i = 0; lines[i] && !bad_line; i++)
    {
      FrMeasure measure = { NULL, NAN };

      if (!g_utf8_validate (lines[i], -1, NULL))
        bad_line = i + 1;
      else if (*trim (lines[i]) == 0)
        continue;
      else if (read_line (lines[i], measures, &measure))
        g_array_append_val (measures, measure);
      else
        bad_line = i + 1;
    }
  if (bad_line_out)
    *bad_line_out = bad_line;
  if (bad_line)
    {
      guint n = measures->len;

      fr_measures_free ((FrMeasure *)(gpointer)g_array_free (g_steal_pointer (&measures), FALSE), n);
      return FALSE;
    }
  *n_out = measures->len;
  *measures_out = (FrMeasure *)(gpointer)g_array_free (g_steal_pointer (&measures), FALSE);
  return TRUE;
}

void
fr_measures_free (FrMeasure *measures, guint n)
{
  for (guint i = 0; i < n; i++)
    g_free (measures[i].name);
  g_free (measures);
}
