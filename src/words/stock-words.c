/* The store's sentences. Nothing here says that sap is good: how long it keeps is the household's table at
 * the temperatures that are known, and local food rules come first. */
#include "words/stock-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "words/reminder-words.h"
#include "words/season-words.h"

#define SOON_S (48 * 3600)
/* A share of ice that is worth a word. */
#define SOME_ICE_RATIO 0.02

static gboolean
is_empty (const FrStockPlace *place)
{
  return !(place->volume_l >= FR_STOCK_EMPTY_L);
}

static const FrRecord *
record_of (const FrStockPlace *place)
{
  return place->container != NULL ? &place->container->record : NULL;
}

FrKeeps
fr_stock_place_keeps (const FrStockPlace *place, gint64 now_utc)
{
  if (is_empty (place))
    return FR_KEEPS_EMPTY;
  if (place->used_ratio >= 1 || (place->spoils_utc != G_MININT64 && place->spoils_utc <= now_utc))
    return FR_KEEPS_PAST;
  if (place->spoils_utc != G_MININT64 && place->spoils_utc - now_utc <= SOON_S)
    return FR_KEEPS_SOON;
  return FR_KEEPS_WELL;
}

/* --- all together --- */

static const FrStockPlace *
first_past (const FrStock *stock)
{
  for (guint i = 0; i < stock->n_places; i++)
    if (fr_stock_place_keeps (&stock->places[i], stock->at_utc) == FR_KEEPS_PAST)
      return &stock->places[i];
  return NULL;
}

char *
fr_stock_sentence (const FrStock *stock, const FrSay *say)
{
  const FrStockPlace *past = first_past (stock);
  const FrStockPlace *first = stock->first >= 0 ? &stock->places[stock->first] : NULL;
  g_autofree char *litres = NULL, *name = NULL, *name_markup = NULL, *when = NULL;

  if (!(stock->volume_l >= FR_STOCK_EMPTY_L))
    return g_strdup (_ ("No sap waits."));
  litres = fr_say_bold (fr_season_litres (say, stock->volume_l));
  if (past == NULL && first == NULL)
    /* Translators: %s is an amount of sap */
    return g_strdup_printf (_ ("%s in store."), litres);
  name = fr_container_words (record_of (past != NULL ? past : first));
  name_markup = g_markup_escape_text (name, -1);
  if (past != NULL)
    /* Translators: an amount of sap, a container's name */
    return g_strdup_printf (_ ("%s in store. Look at %s before anything else: it is past its time."), litres,
                            name_markup);
  if (first->spoils_utc == G_MININT64)
    return g_strdup_printf (_ ("%s in store. Boil from %s first."), litres, name_markup);
  when = fr_say_bold (fr_say_when (say, first->spoils_utc, stock->at_utc));
  /* Translators: an amount of sap, a container's name, a weekday and clock time */
  return g_strdup_printf (_ ("%s in store. Boil from %s first: it keeps until %s."), litres, name_markup,
                          when);
}

char *
fr_stock_reason (const FrStock *stock, const FrSay *say)
{
  GString *all = g_string_new (NULL);

  if (stock->first_code == FR_FIRST_OLDEST)
    g_string_append (all, _ ("It has the oldest sap."));
  else if (stock->first_code == FR_FIRST_SPOILS)
    g_string_append (all, _ ("Another has older sap, but this one was warmer."));
  if (stock->sugar_kg > 0)
    {
      g_autofree char *brix
          = fr_say_amount (say, fr_season_brix (stock->volume_l, stock->sugar_kg), FR_QUANTITY_SWEETNESS, -1);
      g_autofree char *sugar = fr_say_amount (say, stock->sugar_kg, FR_QUANTITY_MASS, -1);

      /* Translators: a sweetness, an amount of sugar */
      g_string_append_printf (all, _ ("%sAll of it is at %s, with %s of sugar."), all->len > 0 ? " " : "",
                              brix, sugar);
    }
  if (stock->capacity_l > stock->volume_l)
    {
      g_autofree char *room = fr_season_litres (say, stock->capacity_l - MAX (stock->volume_l, 0));

      /* Translators: an amount of sap */
      g_string_append_printf (all, _ ("%sThere is room for %s more."), all->len > 0 ? " " : "", room);
    }
  return g_string_free (all, all->len == 0);
}

/* --- one container --- */

static void
add_part (GString *all, char *part)
{
  if (part != NULL)
    g_string_append_printf (all, "%s%s", all->len > 0 ? ", " : "", part);
  g_free (part);
}

static char *
temp_words (const FrStockPlace *place, const FrSay *say)
{
  g_autofree char *temp
      = isnan (place->temp_c) ? NULL : fr_say_amount (say, place->temp_c, FR_QUANTITY_TEMPERATURE, 0);

  if (temp == NULL)
    return NULL;
  switch (place->temp_from)
    {
    case FR_STOCK_TEMP_TYPED:
      /* Translators: a temperature */
      return g_strdup_printf (_ ("%s as last measured"), temp);
    case FR_STOCK_TEMP_MODELLED:
      return g_strdup_printf (_ ("%s as worked out from the weather"), temp);
    case FR_STOCK_TEMP_PLACE:
      return g_strdup_printf (_ ("%s as such a place usually is"), temp);
    case FR_STOCK_TEMP_UNKNOWN:
    default:
      return g_strdup (_ ("how cold is not known, so counted as warm"));
    }
}

static char *
ice_words (const FrStockPlace *place, const FrSay *say)
{
  g_autofree char *share = NULL;

  if (!(place->ice_ratio >= SOME_ICE_RATIO))
    return NULL;
  share = fr_say_amount (say, place->ice_ratio, FR_QUANTITY_RATIO, 0);
  if (isnan (place->liquid_brix))
    /* Translators: a share in percent */
    return g_strdup_printf (_ ("%s of it ice"), share);
  {
    g_autofree char *rest = fr_say_amount (say, place->liquid_brix, FR_QUANTITY_SWEETNESS, -1);

    /* Translators: a share in percent, a sweetness */
    return g_strdup_printf (_ ("%s of it ice and the rest at %s"), share, rest);
  }
}

static char *
age_words (const FrStockPlace *place, const FrStock *stock, const FrSay *say)
{
  FrDate day, today;
  g_autofree char *date = NULL;

  if (place->oldest_utc == G_MININT64)
    return NULL;
  day = fr_zone_local (say->zone, place->oldest_utc).date;
  today = fr_zone_local (say->zone, stock->at_utc).date;
  if (fr_date_compare (day, today) == 0)
    return g_strdup (_ ("Gathered today"));
  date = fr_date_to_days (today) - fr_date_to_days (day) < 7 ? fr_say_weekday (day) : fr_say_date (day);
  /* Translators: a weekday, or a date */
  return g_strdup_printf (_ ("Oldest from %s"), date);
}

char *
fr_stock_place_note (const FrStockPlace *place, const FrStock *stock, const FrSay *say)
{
  GString *all = g_string_new (NULL);

  if (!is_empty (place))
    {
      add_part (all, age_words (place, stock, say));
      if (!isnan (place->brix))
        {
          g_autofree char *brix = fr_say_amount (say, place->brix, FR_QUANTITY_SWEETNESS, -1);

          add_part (all, place->brix_assumed
                             /* Translators: a sweetness */
                             ? g_strdup_printf (_ ("about %s by the season’s other readings"), brix)
                             : g_strdup (brix));
        }
      add_part (all, temp_words (place, say));
      add_part (all, ice_words (place, say));
    }
  return g_string_free (all, all->len == 0);
}

char *
fr_stock_place_keeping (const FrStockPlace *place, gint64 now_utc, const FrSay *say)
{
  g_autofree char *when
      = place->spoils_utc != G_MININT64 ? fr_say_when (say, place->spoils_utc, now_utc) : NULL;

  switch (fr_stock_place_keeps (place, now_utc))
    {
    case FR_KEEPS_PAST:
      return when == NULL
                 ? g_strdup (_ (
                     "Past its time. Pour away what is cloudy, sour or ropy; local food rules come first."))
                 /* Translators: a weekday and clock time */
                 : g_strdup_printf (
                     _ ("Past its time since %s. Pour away what is cloudy, sour or ropy; local food rules "
                        "come first."),
                     when);
    case FR_KEEPS_SOON:
    case FR_KEEPS_WELL:
      if (when == NULL)
        return g_strdup (_ ("How long it keeps is not known."));
      /* Translators: a weekday and clock time */
      return g_strdup_printf (_ ("Keeps until %s if it stays as cold."), when);
    case FR_KEEPS_EMPTY:
    default:
      return NULL;
    }
}

char *
fr_stock_place_spoken (const FrStockPlace *place, const char *name, const FrStock *stock, const FrSay *say)
{
  g_autofree char *litres = fr_season_litres (say, MAX (place->volume_l, 0));
  g_autofree char *note = fr_stock_place_note (place, stock, say);
  g_autofree char *keeps = fr_stock_place_keeping (place, stock->at_utc, say);

  if (note == NULL)
    /* Translators: a container's name */
    return g_strdup_printf (_ ("%s, empty"), name);
  return g_strdup_printf ("%s, %s, %s. %s", name, litres, note, keeps != NULL ? keeps : "");
}

/* --- what does not add up --- */

char *
fr_stock_line_sentence (const FrStockLine *line, const FrRecord *container, const FrSay *say)
{
  g_autofree char *name = fr_container_words (container);
  g_autofree char *date = fr_say_date (fr_zone_local (say->zone, line->utc_s).date);
  g_autofree char *litres = fr_season_litres (say, fabs (line->volume_l));

  switch (line->code)
    {
    case FR_LINE_FOUND:
      if (isnan (line->volume_l))
        return g_strdup_printf (_ ("On %s %s was found at another sweetness than it should have."), date,
                                name);
      return g_strdup_printf (line->volume_l < 0
                                  /* Translators: a date, litres, a container */
                                  ? _ ("On %s %s less were found in %s than there should be.")
                                  : _ ("On %s %s more were found in %s than there should be."),
                              date, litres, name);
    case FR_LINE_NEGATIVE:
      return g_strdup_printf (_ ("On %s %s more were taken out of %s than were in it."), date, litres, name);
    case FR_LINE_OVERFLOW:
      return g_strdup_printf (_ ("On %s %s more were poured into %s than it holds."), date, litres, name);
    case FR_LINE_SUGAR:
      return g_strdup_printf (
          _ ("On %s a reading takes more sugar out of %s than was in it, or leaves more than can be."), date,
          name);
    case FR_LINE_NO_AMOUNT:
      return g_strdup_printf (
          _ ("On %s an amount for %s cannot be worked out and is left out: its measures or its empty "
             "weight are missing, or do not allow it."),
          date, name);
    case FR_LINE_NO_SUGAR:
      return g_strdup_printf (_ ("Nothing is known of the sweetness of what is in %s since %s."), name, date);
    case FR_N_LINES:
    default:
      return NULL;
    }
}
