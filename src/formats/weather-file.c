/* Which format it is: JSON begins with a bracket and tells by its keys; all else is text in columns. */
#include "formats/weather-answer.h"

#include "formats/text-bytes.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define BYTE_ORDER_MARK "\xEF\xBB\xBF"

/* Behind the mark and blanks; the end when there is nothing else. */
static const char *
first_sign (const char *bytes, gsize length)
{
  gsize at = length >= 3 && memcmp (bytes, BYTE_ORDER_MARK, 3) == 0 ? 3 : 0;

  while (at < length && g_ascii_isspace (bytes[at]))
    at++;
  return bytes + at;
}

static GPtrArray *
read_table (const char *bytes, gsize length, GError **error)
{
  const char *first = first_sign (bytes, length);
  GPtrArray *rows;

  if (first < bytes + length && *first == '<')
    {
      fr_weather_wrong (error, "%s", _ ("the file is a web page or XML, and no table of weather"));
      return NULL;
    }
  rows = fr_csv_read (bytes, length, error);
  if (rows != NULL && rows->len == 0)
    {
      fr_weather_wrong (error, "%s", _ ("the file is empty"));
      g_clear_pointer (&rows, g_ptr_array_unref);
    }
  return rows;
}

/* A table of no archive's own form: its rows; NULL when there is none, or when it is of such a form (*weather_out then) or an error. */
static GPtrArray *
read_text (const char *bytes, gsize length, const FrWeatherColumns *choice, FrWeather **weather_out, GError **error)
{
  const char *text = first_sign (bytes, length), *end = bytes + length, *at = text;
  g_autoptr (GString) line = g_string_new (NULL);
  g_autoptr (GPtrArray) rows = NULL;
  gint head;

  if (text == end)
    {
      fr_weather_wrong (error, "%s", _ ("the file is empty"));
      return NULL;
    }
  if (*text == '{' || *text == '[')
    {
      /* Spaces and line ends before it stay: sentences count them. The mark is none of JSON's. */
      const char *start = memcmp (bytes, BYTE_ORDER_MARK, MIN (length, 3)) == 0 ? bytes + 3 : bytes;

      *weather_out = fr_weather_answer_read (start, (gsize)(end - start), choice, error);
      return NULL;
    }
  fr_weather_next_line (&at, end, line);
  if (fr_ghcnd_dly_looks_like (line->str))
    {
      *weather_out = fr_ghcnd_dly_read (text, (gsize)(end - text), choice, error);
      return NULL;
    }
  if (fr_ghcnd_rows_looks_like (line->str))
    {
      *weather_out = fr_ghcnd_rows_read (text, (gsize)(end - text), choice, error);
      return NULL;
    }
  rows = read_table (bytes, length, error);
  if (rows == NULL)
    return NULL;
  head = fr_eccc_head (rows);
  if (head >= 0)
    *weather_out = fr_eccc_read (rows, head, choice, error);
  else if (fr_ghcnd_table_looks_like (rows))
    *weather_out = fr_ghcnd_table_read (rows, choice, error);
  else
    return g_steal_pointer (&rows);
  return NULL;
}

FrWeather *
fr_weather_read (const char *bytes, gsize length, const FrWeatherColumns *choice, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;
  FrWeather *weather = NULL;

  if (!fr_text_bytes_check (bytes, length, FR_WEATHER_SIZE_MAX / (1024 * 1024), error))
    return NULL;
  rows = read_text (bytes, length, choice, &weather, error);
  return rows != NULL ? fr_weather_csv_read (rows, choice, error) : weather;
}

static void
found_free (gpointer data)
{
  FrWeatherFound *found = data;

  g_free (found->name);
  g_free (found->example);
  g_free (found);
}

static char *
find_example (GPtrArray *rows, guint n_head, guint index)
{
  for (guint i = n_head; i < rows->len; i++)
    {
      const FrCsvRow *row = rows->pdata[i];
      g_autofree char *text = index < row->cells->len ? fr_weather_cell_text (row->cells->pdata[index]) : NULL;

      if (text != NULL && *text != '\0')
        return g_steal_pointer (&text);
    }
  return g_strdup ("");
}

GPtrArray *
fr_weather_list_columns (const char *bytes, gsize length, const FrWeatherColumns *choice, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL, names = NULL, list = g_ptr_array_new_with_free_func (found_free);
  g_autoptr (FrWeather) weather = NULL;
  FrWeatherUse use;
  guint n_head;

  if (!fr_text_bytes_check (bytes, length, FR_WEATHER_SIZE_MAX / (1024 * 1024), error))
    return NULL;
  rows = read_text (bytes, length, choice, &weather, error);
  if (rows == NULL)
    return weather != NULL ? g_steal_pointer (&list) : NULL;
  names = fr_weather_table_names (rows, &n_head);
  if (!fr_weather_use_columns (names, rows->len > n_head ? rows->pdata[n_head] : NULL, choice, &use, error))
    return NULL;
  for (guint i = 0; i < names->len; i++)
    {
      FrWeatherFound *found = g_new0 (FrWeatherFound, 1);

      found->name = g_strdup (names->pdata[i]);
      found->example = find_example (rows, n_head, i);
      for (guint k = 1; k < FR_N_WEATHER_COLUMNS; k++)
        if (use.index[k] == (gint)i)
          {
            found->use = k;
            found->unit = use.unit[k];
            found->is_unit_told = use.is_unit_told[k];
          }
        else if (use.flag[k] == (gint)i)
          {
            found->use = k;
            found->is_mark = TRUE;
          }
      g_ptr_array_add (list, found);
    }
  return g_steal_pointer (&list);
}
