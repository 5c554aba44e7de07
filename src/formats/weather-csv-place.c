/* Whether a table holds several places: rows of one moment that differ in a column which all rows have, by a few values. Of a column
 * that does not call itself a place more than a chance repetition is asked. */
#include "formats/weather-csv-private.h"

#include "formats/json-text.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define PLACES_MAX 200

static char *
moment_of (const FrWeatherTable *table, const FrCsvRow *row)
{
  g_autofree char *date = fr_weather_table_cell (table, row, table->use.index[FR_WEATHER_COLUMN_DATE]),
                  *clock = fr_weather_table_cell (table, row, table->use.index[FR_WEATHER_COLUMN_CLOCK]);

  return g_strdup_printf ("%s %s", date, clock);
}

static gboolean
names_a_place (const char *name)
{
  static const char *const words[] = { "location", "station", "site", "place", "city", "town", NULL };
  g_autofree char *low = g_ascii_strdown (name, -1);

  for (guint i = 0; words[i] != NULL; i++)
    if (strstr (low, words[i]) != NULL)
      return TRUE;
  return FALSE;
}

/* The values of a column, in order, when it parts the rows of equal moments; else NULL. */
static GPtrArray *
places_in (const FrWeatherTable *table, gint index, GPtrArray *moments, guint n_twice)
{
  const gboolean is_named = names_a_place (table->names->pdata[index]);
  g_autoptr (GPtrArray) values = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal),
                         pairs = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; i < table->rows->len; i++)
    {
      char *value = fr_weather_table_cell (table, table->rows->pdata[i], index);
      double number;

      g_hash_table_add (pairs, g_strdup_printf ("%s\x1f%s", (char *)moments->pdata[i], value));
      if (*value == '\0' || (!is_named && fr_weather_cell_number (value, &number)) || g_hash_table_contains (seen, value))
        {
          const gboolean is_known = g_hash_table_contains (seen, value);

          g_free (value);
          if (is_known)
            continue;
          return NULL;
        }
      g_ptr_array_add (values, value);
      g_hash_table_add (seen, value);
      if (values->len > PLACES_MAX)
        return NULL;
    }
  if (values->len < 2 || (!is_named && n_twice < 3) || (table->rows->len - g_hash_table_size (pairs)) * 10 > n_twice)
    return NULL;
  return g_steal_pointer (&values);
}

static gboolean
is_used (const FrWeatherUse *use, gint index)
{
  for (guint k = 0; k < FR_N_WEATHER_COLUMNS; k++)
    if (use->index[k] == index || use->flag[k] == index)
      return TRUE;
  return FALSE;
}

static gboolean
fail_places (const FrWeatherTable *table, gint index, GPtrArray *values)
{
  g_autofree char *name = fr_weather_column_name (table->names, index), *first = fr_json_quote (values->pdata[0]);
  g_autoptr (GString) list = g_string_new (NULL);

  for (guint i = 0; i < values->len && i < 6; i++)
    {
      g_autofree char *quoted = fr_json_quote (values->pdata[i]);

      g_string_append_printf (list, "%s%s", i > 0 ? ", " : "", quoted);
    }
  if (values->len > 6)
    g_string_append (list, ", …");
  return fr_weather_wrong (table->error,
                           _ ("the table holds %u places in its column “%s”: %s. Choose one, as in where %s=%s"), values->len,
                           name, list->str, name, first);
}

gboolean
fr_weather_table_check_place (const FrWeatherTable *table)
{
  g_autoptr (GPtrArray) moments = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  guint n_twice;

  for (guint i = 0; i < table->rows->len; i++)
    {
      g_ptr_array_add (moments, moment_of (table, table->rows->pdata[i]));
      g_hash_table_add (seen, moments->pdata[i]);
    }
  n_twice = table->rows->len - g_hash_table_size (seen);
  for (guint i = 0; n_twice > 0 && i < table->names->len; i++)
    {
      g_autoptr (GPtrArray) values = is_used (&table->use, (gint)i) || table->use.where == (gint)i
                                         ? NULL
                                         : places_in (table, (gint)i, moments, n_twice);

      if (values != NULL)
        return fail_places (table, (gint)i, values);
    }
  return TRUE;
}
