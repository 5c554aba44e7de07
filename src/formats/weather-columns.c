/* What the columns of a plain table are for, by their names: words are split at signs and at capitals, units set aside, and the
 * rest compared with the names that archives and loggers use. The day is told by what stands in its cells. */
#include "formats/weather-private.h"

#include "formats/csv-time.h"
#include "formats/json-input.h"
#include "formats/json-text.h"

#include <glib/gi18n-lib.h>
#include <stdlib.h>
#include <string.h>

#define HEAD_ROWS_MAX 40

/* A name taken apart. */
typedef struct
{
  GPtrArray *words; /* char *, lower case, without units */
  char *joined;
  guint units; /* bits of the units it names */
} Name;

/* Of numbers whose unit nobody tells. A depth of snow is not guessed at: centimetres, inches and metres are all in use. */
static FrWeatherUnit
usual_unit (FrWeatherColumn use)
{
  switch (use)
    {
    case FR_WEATHER_COLUMN_LOW:
    case FR_WEATHER_COLUMN_HIGH:
    case FR_WEATHER_COLUMN_TEMP:
      return FR_WEATHER_UNIT_C;
    case FR_WEATHER_COLUMN_RAIN:
      return FR_WEATHER_UNIT_MM;
    case FR_WEATHER_COLUMN_SUN:
      return FR_WEATHER_UNIT_MJ_PER_M2;
    default:
      return FR_WEATHER_UNIT_UNTOLD;
    }
}

static FrWeatherUnit
first_unit (guint bits)
{
  for (guint i = 0; i < FR_N_WEATHER_UNITS; i++)
    if ((bits & 1u << i) != 0)
      return i;
  return FR_WEATHER_UNIT_UNTOLD;
}

/* --- names --- */

static void
add_word (Name *name, GString *word)
{
  FrWeatherUnit unit;

  if (word->len == 0)
    return;
  /* The first word is what is meant: "in" and "m" alone are none. */
  if (name->words->len > 0 && fr_weather_unit_from_word (word->str, &unit))
    name->units |= 1u << unit;
  else
    g_ptr_array_add (name->words, g_strdup (word->str));
  g_string_truncate (word, 0);
}

static void
name_init (Name *name, const char *text)
{
  g_autoptr (GString) word = g_string_new (NULL);
  gboolean was_small = FALSE;

  *name = (Name){ g_ptr_array_new_with_free_func (g_free), NULL, 0 };
  for (const char *p = text; *p != '\0'; p = g_utf8_next_char (p))
    {
      gunichar c = g_utf8_get_char (p);

      if ((was_small && g_unichar_isupper (c)) || (!g_unichar_isalnum (c) && c != 0xB0))
        add_word (name, word);
      if (g_unichar_isalnum (c) || c == 0xB0)
        g_string_append_unichar (word, g_unichar_tolower (c));
      was_small = g_unichar_islower (c);
    }
  add_word (name, word);
  g_ptr_array_add (name->words, NULL);
  name->joined = g_strjoinv ("", (char **)name->words->pdata);
}

static void
name_clear (Name *name)
{
  g_ptr_array_unref (name->words);
  g_free (name->joined);
}

static gboolean
has_word (const Name *name, const char *const *words)
{
  for (guint i = 0; words[i] != NULL; i++)
    if (g_strv_contains ((const char *const *)name->words->pdata, words[i]))
      return TRUE;
  return FALSE;
}

static gboolean
has_part (const Name *name, const char *const *parts)
{
  for (guint i = 0; parts[i] != NULL; i++)
    if (strstr (name->joined, parts[i]) != NULL)
      return TRUE;
  return FALSE;
}

#define WORD(...) has_word (name, (const char *const[]){ __VA_ARGS__, NULL })
#define PART(...) has_part (name, (const char *const[]){ __VA_ARGS__, NULL })

static gboolean
is_of_air (const Name *name)
{
  return PART ("temp", "airt", "tair", "tmin", "tmax")
         || WORD ("t", "min", "max", "mint", "maxt", "minimum", "maximum", "tn", "tx", "low", "high", "lowest", "highest", "tobs", "t2m");
}

static FrWeatherColumn
use_by_name (const Name *name)
{
  gboolean is_low, is_high;

  if (WORD ("f", "flag", "rh", "qc") || PART ("flag", "attrib", "qualit", "time", "date", "prob", "rate", "sourc"))
    return FR_WEATHER_COLUMN_NONE;
  if (WORD ("snwd") || (PART ("snow") && PART ("depth", "ground", "grnd", "lying")))
    return FR_WEATHER_COLUMN_SNOW;
  if (PART ("precip", "rain", "prcp") || WORD ("prec", "pcp"))
    return PART ("hours", "type") ? FR_WEATHER_COLUMN_NONE : FR_WEATHER_COLUMN_RAIN;
  if (PART ("solar", "slrt", "srad", "radiation", "insol", "globrad"))
    return PART ("net", "longwave", "diffuse", "direct", "max") ? FR_WEATHER_COLUMN_NONE : FR_WEATHER_COLUMN_SUN;
  if (!is_of_air (name)
      || PART ("dew", "hum", "wet", "wind", "soil", "ground", "grass", "pres", "bar", "feel", "apparent", "chill", "heat", "index",
               "water", "sea", "depart", "norm", "gust", "snow", "minute", "s10", "cloud", "tide"))
    return FR_WEATHER_COLUMN_NONE;
  is_low = PART ("min", "lowest") || WORD ("low", "tn");
  is_high = PART ("max", "highest") || WORD ("high", "tx");
  if (is_low && is_high)
    return FR_WEATHER_COLUMN_NONE;
  return is_low ? FR_WEATHER_COLUMN_LOW : is_high ? FR_WEATHER_COLUMN_HIGH : FR_WEATHER_COLUMN_TEMP;
}

/* --- the table's head --- */

gboolean
fr_weather_looks_like_date (const char *text)
{
  const char *at = text;
  gint number;
  char sign;

  if (strlen (text) == 8 && strspn (text, "0123456789") == 8)
    {
      FrDate date = { atoi (text) / 10000, atoi (text) / 100 % 100, atoi (text) % 100 };

      return date.year >= 1700 && date.year <= 2300 && fr_date_is_valid (date);
    }
  if (!fr_csv_read_digits (&at, 1, 4, &number) || *at == '\0' || strchr ("-./", *at) == NULL)
    return FALSE;
  sign = *at++;
  if (!fr_csv_read_digits (&at, 1, 2, &number) || *at++ != sign || !fr_csv_read_digits (&at, 1, 4, &number))
    return FALSE;
  return *at == '\0' || *at == ' ' || *at == 'T' || *at == 't' || *at == '.';
}

/* Whether a row may be a head: words only, one of them a temperature's. */
static gboolean
is_head (const FrCsvRow *row)
{
  gboolean has_temperature = FALSE;

  for (guint i = 0; i < row->cells->len; i++)
    {
      g_autofree char *text = fr_weather_cell_text (row->cells->pdata[i]);
      double number;
      Name name;

      if (fr_weather_looks_like_date (text) || fr_weather_cell_number (text, &number))
        return FALSE;
      name_init (&name, text);
      switch (use_by_name (&name))
        {
        case FR_WEATHER_COLUMN_LOW:
        case FR_WEATHER_COLUMN_HIGH:
        case FR_WEATHER_COLUMN_TEMP:
          has_temperature = TRUE;
          break;
        default:
          break;
        }
      name_clear (&name);
    }
  return has_temperature;
}

static gboolean
has_date (const FrCsvRow *row)
{
  for (guint i = 0; i < row->cells->len; i++)
    {
      g_autofree char *text = fr_weather_cell_text (row->cells->pdata[i]);

      if (fr_weather_looks_like_date (text))
        return TRUE;
    }
  return FALSE;
}

/* Loggers and services write a title, or lines about the place, above the head: it is the first that stands right before a date. The first
 * row where there is none like it. */
static guint
find_head (GPtrArray *rows)
{
  for (guint i = 0; i + 1 < rows->len && i < HEAD_ROWS_MAX; i++)
    if (is_head (rows->pdata[i]) && has_date (rows->pdata[i + 1]))
      return i;
  return 0;
}

GPtrArray *
fr_weather_table_names (GPtrArray *rows, guint *n_head_out)
{
  GPtrArray *names = g_ptr_array_new_with_free_func (g_free);
  const guint head = find_head (rows);
  const FrCsvRow *row = rows->pdata[head];
  gboolean is_data = FALSE;

  for (guint i = 0; i < row->cells->len; i++)
    {
      char *text = fr_weather_cell_text (row->cells->pdata[i]);
      double number;

      is_data |= fr_weather_looks_like_date (text) || fr_weather_cell_number (text, &number);
      g_ptr_array_add (names, text);
    }
  for (guint i = 0; is_data && i < names->len; i++)
    {
      g_free (names->pdata[i]);
      names->pdata[i] = g_strdup ("");
    }
  *n_head_out = is_data ? head : head + 1;
  return names;
}

char *
fr_weather_column_name (GPtrArray *names, gint index)
{
  const char *name = names->pdata[index];

  return *name != '\0' ? g_strdup (name) : g_strdup_printf ("#%d", index + 1);
}

char *
fr_weather_list_names (GPtrArray *names)
{
  g_autoptr (GString) list = g_string_new (NULL);

  for (guint i = 0; i < names->len && i < 20; i++)
    {
      g_autofree char *name = fr_weather_column_name (names, (gint)i), *quoted = fr_json_quote (name);

      g_string_append_printf (list, "%s%s", i > 0 ? ", " : "", quoted);
    }
  if (names->len > 20)
    g_string_append (list, ", …");
  return g_strdup (list->str);
}

/* Column @wanted, a name or "#3"; −2 with the sentence when there is none. */
static gint
find_column (GPtrArray *names, const char *wanted, GError **error)
{
  g_autofree char *quoted = fr_json_quote (wanted), *list = fr_weather_list_names (names);
  guint64 number;

  if (*wanted == '#' && g_ascii_string_to_unsigned (wanted + 1, 10, 1, MAX (1, names->len), &number, NULL))
    return (gint)number - 1;
  for (guint i = 0; i < names->len; i++)
    if (*wanted != '\0' && g_ascii_strcasecmp (names->pdata[i], wanted) == 0)
      return (gint)i;
  fr_weather_wrong (error, _ ("the table has no column “%s”; it has %u: %s. A number such as #2 names one by its place"), quoted, names->len, list);
  return -2;
}

static const char *
cell_of (const FrCsvRow *row, gint index)
{
  return row != NULL && index >= 0 && (guint)index < row->cells->len ? row->cells->pdata[index] : "";
}

static gboolean
is_taken (const FrWeatherUse *use, gint index)
{
  if (use->where == index)
    return TRUE;
  for (guint k = 0; k < FR_N_WEATHER_COLUMNS; k++)
    if (use->index[k] == index)
      return TRUE;
  return FALSE;
}

static void
guess_date (GPtrArray *names, const FrCsvRow *first, FrWeatherUse *use)
{
  gint best = -1;
  gboolean best_is_named = FALSE;

  for (guint i = 0; i < names->len; i++)
    {
      Name taken_apart, *name = &taken_apart;
      g_autofree char *text = fr_weather_cell_text (cell_of (first, (gint)i));
      gboolean is_named;

      name_init (name, names->pdata[i]);
      is_named = WORD ("date", "datum") || g_str_has_prefix (name->joined, "date");
      /* Eight digits alone may be anything. */
      if (!is_taken (use, (gint)i)
          && ((fr_weather_looks_like_date (text) && (is_named || strlen (text) != 8 || strpbrk (text, "-./") != NULL))
              || (is_named && *text == '\0'))
          && (best < 0 || (is_named && !best_is_named)))
        {
          best = (gint)i;
          best_is_named = is_named;
        }
      name_clear (name);
    }
  use->index[FR_WEATHER_COLUMN_DATE] = best;
}

static void
guess_clock (GPtrArray *names, const FrCsvRow *first, FrWeatherUse *use)
{
  for (guint i = 0; i < names->len; i++)
    {
      g_autofree char *text = fr_weather_cell_text (cell_of (first, (gint)i));
      Name taken_apart, *name = &taken_apart;
      gint second;

      name_init (name, names->pdata[i]);
      if (use->index[FR_WEATHER_COLUMN_CLOCK] == -1 && !is_taken (use, (gint)i) && fr_csv_read_clock (text, &second)
          && (PART ("time", "hour", "clock") || *name->joined == '\0'))
        use->index[FR_WEATHER_COLUMN_CLOCK] = (gint)i;
      name_clear (name);
    }
}

/* The unit of the column chosen for a use, and the column with its marks. */
static void
read_unit_and_flag (GPtrArray *names, FrWeatherColumn kind, FrWeatherUnit chosen, FrWeatherUse *use)
{
  const char *column = names->pdata[use->index[kind]];
  g_autofree char *before = g_strdup_printf ("f.%s", column), *behind = g_strdup_printf ("%s_flag", column),
                  *apart = g_strdup_printf ("%s flag", column);
  Name name;

  name_init (&name, column);
  use->unit[kind] = chosen != FR_WEATHER_UNIT_UNTOLD ? chosen : first_unit (name.units & fr_weather_units_of (kind));
  use->is_unit_told[kind] = use->unit[kind] != FR_WEATHER_UNIT_UNTOLD;
  if (!use->is_unit_told[kind])
    use->unit[kind] = usual_unit (kind);
  name_clear (&name);
  for (guint i = 0; *column != '\0' && i < names->len; i++)
    if (g_ascii_strcasecmp (names->pdata[i], before) == 0 || g_ascii_strcasecmp (names->pdata[i], behind) == 0
        || g_ascii_strcasecmp (names->pdata[i], apart) == 0)
      use->flag[kind] = (gint)i;
}

/* Where only one of a day's extremes has a unit the other has it too; and who measures in °F measures rain in inches. */
static void
assume_units (FrWeatherUse *use)
{
  const FrWeatherColumn low = FR_WEATHER_COLUMN_LOW, high = FR_WEATHER_COLUMN_HIGH, rain = FR_WEATHER_COLUMN_RAIN;

  if (use->is_unit_told[low] && !use->is_unit_told[high] && use->index[high] >= 0)
    use->unit[high] = use->unit[low];
  else if (use->is_unit_told[high] && !use->is_unit_told[low] && use->index[low] >= 0)
    use->unit[low] = use->unit[high];
  if (use->index[rain] >= 0 && !use->is_unit_told[rain]
      && (use->unit[low] == FR_WEATHER_UNIT_F || use->unit[high] == FR_WEATHER_UNIT_F))
    use->unit[rain] = FR_WEATHER_UNIT_IN;
}

/* "time (UTC)", "Date Time, GMT-05:00". */
static void
read_head_offset (const char *column, FrWeatherUse *use)
{
  g_autofree char *low = g_ascii_strdown (column, -1);
  const char *at = strstr (low, "utc");
  Name taken_apart, *name = &taken_apart;
  g_autofree char *rest = NULL;

  if (at == NULL)
    at = strstr (low, "gmt");
  rest = at != NULL ? g_strstrip (g_strndup (at + 3, strcspn (at + 3, ")],;"))) : NULL;
  name_init (name, column);
  if (rest != NULL && (*rest == '+' || *rest == '-'))
    use->has_offset = fr_csv_read_offset (rest, &use->offset_s);
  else if (WORD ("utc", "gmt", "z", "zulu"))
    use->has_offset = TRUE;
  name_clear (name);
}

gboolean
fr_weather_use_columns (GPtrArray *names, const FrCsvRow *first, const FrWeatherColumns *choice, FrWeatherUse *use_out,
                        GError **error)
{
  FrWeatherUse *use = use_out;

  *use = (FrWeatherUse){ .where = -1 };
  for (guint k = 0; k < FR_N_WEATHER_COLUMNS; k++)
    use->index[k] = use->flag[k] = -1;
  for (guint k = 1; choice != NULL && k < FR_N_WEATHER_COLUMNS; k++)
    if (choice->names[k] != NULL && strcmp (choice->names[k], "-") != 0
        && (use->index[k] = find_column (names, choice->names[k], error)) == -2)
      return FALSE;
  if (choice != NULL && choice->where_column != NULL
      && (use->where = find_column (names, choice->where_column, error)) == -2)
    return FALSE;
  if (choice == NULL || choice->names[FR_WEATHER_COLUMN_DATE] == NULL)
    guess_date (names, first, use);
  if (choice == NULL || choice->names[FR_WEATHER_COLUMN_CLOCK] == NULL)
    guess_clock (names, first, use);
  for (guint i = 0; i < names->len; i++)
    {
      FrWeatherColumn kind;
      Name name;

      name_init (&name, names->pdata[i]);
      kind = use_by_name (&name);
      if (kind != FR_WEATHER_COLUMN_NONE && use->index[kind] == -1 && !is_taken (use, (gint)i)
          && (choice == NULL || choice->names[kind] == NULL)
          && (usual_unit (kind) != FR_WEATHER_UNIT_UNTOLD || (name.units & fr_weather_units_of (kind)) != 0
              || (choice != NULL && choice->units[kind] != FR_WEATHER_UNIT_UNTOLD)))
        use->index[kind] = (gint)i;
      name_clear (&name);
    }
  for (guint k = 1; k < FR_N_WEATHER_COLUMNS; k++)
    if (use->index[k] >= 0)
      {
        if (k >= FR_WEATHER_COLUMN_LOW)
          read_unit_and_flag (names, k, choice != NULL ? choice->units[k] : FR_WEATHER_UNIT_UNTOLD, use);
        if (k == FR_WEATHER_COLUMN_SNOW && use->unit[k] == FR_WEATHER_UNIT_UNTOLD)
          return fr_weather_wrong (error, _ ("the unit of the snow's depth is not told; say it behind the column, as in snow=%s:cm"),
                       (const char *)names->pdata[use->index[k]]);
        if (k <= FR_WEATHER_COLUMN_CLOCK)
          read_head_offset (names->pdata[use->index[k]], use);
      }
  assume_units (use);
  return TRUE;
}
