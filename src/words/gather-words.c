/* What a round of gathering comes to, in a sentence. */
#include "words/gather-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "words/season-words.h"

static char *
from_where (FrGatheredWhat what, guint n)
{
  switch (what)
    {
    case FR_GATHERED_GROUPS:
      return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u group", "%u groups", n), n);
    case FR_GATHERED_TREES:
      return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u tree", "%u trees", n), n);
    case FR_GATHERED_TAPS:
      return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u tap", "%u taps", n), n);
    case FR_GATHERED_BUSH:
    default:
      return NULL;
    }
}

static char *
some_of (FrGatheredWhat what, guint n, guint all)
{
  switch (what)
    {
    case FR_GATHERED_GROUPS:
      return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u of %u group", "%u of %u groups", all), n,
                              all);
    case FR_GATHERED_TREES:
      return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u of %u tree", "%u of %u trees", all), n, all);
    case FR_GATHERED_TAPS:
      return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u of %u tap", "%u of %u taps", all), n, all);
    case FR_GATHERED_BUSH:
    default:
      return NULL;
    }
}

char *
fr_gathered_markup (const FrSay *say, FrGatheredWhat what, guint n_rows, guint n_kept, double volume_l)
{
  g_autofree char *litres = NULL, *where = NULL;

  if (n_kept == 0 && n_rows == 0)
    return g_strdup (_ ("No tap is set on this day."));
  if (n_kept == 0)
    return g_strdup (_ ("Nothing is written down yet."));
  litres = fr_say_bold (fr_season_litres (say, volume_l));
  if (what == FR_GATHERED_BUSH)
    /* Translators: %s is an amount of sap */
    return g_strdup_printf (_ ("%s gathered."), litres);
  where = fr_say_bold (n_kept < n_rows ? some_of (what, n_kept, n_rows) : from_where (what, n_kept));
  /* Translators: an amount of sap, then "11 trees" or "9 of 11 trees" */
  return g_strdup_printf (_ ("%s from %s."), litres, where);
}

char *
fr_gathered_reason (const FrSay *say, double brix, double sugar_kg, guint n_begun)
{
  GString *all = g_string_new (NULL);

  if (!isnan (brix))
    {
      g_autofree char *sweet = fr_say_amount (say, brix, FR_QUANTITY_SWEETNESS, -1);
      g_autofree char *sugar = fr_say_amount (say, sugar_kg, FR_QUANTITY_MASS, -1);

      /* Translators: a sweetness, an amount of sugar */
      g_string_append_printf (all, _ ("At %s, with %s of sugar in it."), sweet, sugar);
    }
  if (n_begun > 0)
    {
      if (all->len > 0)
        g_string_append_c (all, ' ');
      g_string_append_printf (all,
                              g_dngettext (GETTEXT_PACKAGE, "%u row is typed and not written down yet.",
                                           "%u rows are typed and not written down yet.", n_begun),
                              n_begun);
    }
  if (all->len == 0)
    {
      g_string_free (all, TRUE);
      return NULL;
    }
  return g_string_free (all, FALSE);
}
