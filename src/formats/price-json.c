/* Prices from JSON. Seasons become the flat periods that tariff.c takes; what it finds wrong with a period is
 * told by the path of the entry it came from. */
#include "formats/price-json.h"

#include "formats/json-input.h"
#include "formats/json-output.h"
#include "formats/zone-source.h"

#include <math.h>
#include <string.h>

#define STEPS_MAX 100000
#define SPAN_MAX_S (400 * 86400.0)
#define PRICE_MAX 1e6
#define YEAR_MIN 1901
#define YEAR_MAX 2290 /* the zone loader goes to 2300 */

static const char *const root_keys[] = { "zone", "start", "power", "tariff", NULL };
static const char *const step_keys[] = { "after_s", "w", NULL };
static const char *const tariff_keys[] = { "seasons", "holidays", "adder_per_kwh", "tax_ratio", NULL };
static const char *const season_keys[] = { "from", "to", "days", NULL };
static const char *const days_keys[] = { "weekday", "saturday", "sunday", "weekend", "holiday", "all", NULL };

/* Periods and where each came from. */
typedef struct
{
  GArray *periods;
  GPtrArray *paths;   /* of the period: tariff.seasons[0].days.weekday[3] */
  GPtrArray *seasons; /* of its season: tariff.seasons[0] */
} Periods;

void
fr_price_input_free (FrPriceInput *input)
{
  if (input == NULL)
    return;
  g_free (input->zone);
  g_free (input->steps);
  fr_tariff_free (input->tariff);
  g_free (input);
}

/* "2025-03-08T23:00", also with seconds. */
static gboolean
parse_start (const char *text, FrDate *date_out, gint *second_out)
{
  g_autofree char *date = g_strndup (text, 10), *clock = NULL;
  gint minutes, seconds = 0;
  gsize length = strlen (text);

  if ((length != 16 && length != 19) || text[10] != 'T' || !fr_date_parse (date, date_out))
    return FALSE;
  clock = g_strndup (text + 11, 5);
  if (!fr_clock_parse (clock, &minutes) || minutes >= 24 * 60)
    return FALSE;
  if (length == 19)
    {
      if (text[16] != ':' || !g_ascii_isdigit (text[17]) || !g_ascii_isdigit (text[18]) || text[17] > '5')
        return FALSE;
      seconds = 10 * (text[17] - '0') + text[18] - '0';
    }
  *second_out = minutes * 60 + seconds;
  return TRUE;
}

static void
read_start (const FrInput *in, FrPriceInput *input)
{
  static const char what[] = "local date and time like 2025-03-08T23:00";
  const char *text = fr_input_string (in, "start", FR_INPUT_REQUIRED, what);

  if (text == NULL)
    return;
  if (!parse_start (text, &input->start, &input->start_second_of_day))
    {
      g_autofree char *quoted = fr_json_quote (text);

      fr_input_fail (in, "start", "is “%s”; it must be %s", quoted, what);
    }
  else if (input->start.year < YEAR_MIN || input->start.year > YEAR_MAX)
    fr_input_fail (in, "start", "is in the year %d; it must be from %d to %d", input->start.year, YEAR_MIN,
                   YEAR_MAX);
}

static void
read_power (const FrInput *in, FrPriceInput *input)
{
  JsonArray *list = fr_input_array (in, "power", FR_INPUT_REQUIRED, 1, STEPS_MAX);
  guint n, at = 0;

  if (list == NULL)
    return;
  n = json_array_get_length (list);
  input->steps = g_new0 (FrPowerStep, n + 1);
  for (guint i = 0; i < n && *in->error == NULL; i++)
    {
      FrInput one;
      FrPowerStep step;

      if (!fr_input_element (in, "power", list, i, step_keys, &one))
        return;
      step.after_s = fr_input_number (&one, "after_s", FR_INPUT_REQUIRED, 0, SPAN_MAX_S);
      step.power_w = fr_input_number (&one, "w", FR_INPUT_REQUIRED, 0, 1e6);
      if (*in->error != NULL)
        return;
      if (i == 0 && step.after_s > 0)
        input->steps[at++] = (FrPowerStep){ 0, 0 }; /* nothing until the first step */
      else if (i > 0 && !(step.after_s > input->steps[at - 1].after_s))
        fr_input_fail (&one, "after_s", "must be later than the step before");
      if (i + 1 == n && step.power_w != 0)
        fr_input_fail (&one, "w", "must be 0 in the last step, so that the trace has an end");
      input->steps[at++] = step;
    }
  input->n_steps = at;
}

/* "11-01"; the 29th of February is a day. */
static gboolean
read_day (const FrInput *season, const char *key, gint *month_out, gint *day_out)
{
  static const char what[] = "a month and day like 11-01";
  const char *text = fr_input_string (season, key, FR_INPUT_REQUIRED, what);
  g_autofree char *leap = NULL;
  FrDate date;

  if (text == NULL)
    return FALSE;
  leap = g_strconcat ("2000-", text, NULL);
  if (!fr_date_parse (leap, &date))
    {
      g_autofree char *quoted = fr_json_quote (text);

      return fr_input_fail (season, key, "is “%s”; it must be %s", quoted, what);
    }
  *month_out = date.month;
  *day_out = date.day;
  return TRUE;
}

static gboolean
read_clock (const FrInput *days, const char *path, JsonNode *node, gint *minutes_out)
{
  const char *text = JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_STRING
                         ? json_node_get_string (node)
                         : NULL;

  if (text != NULL && fr_clock_parse (text, minutes_out))
    return TRUE;
  return fr_input_fail (days, path, "must be a time from \"00:00\" to \"24:00\"");
}

static void
read_period (const FrInput *days, const char *key, guint index, JsonNode *node, FrTariffPeriod period,
             Periods *out, const char *season_path)
{
  char path[64], part[72];
  JsonArray *row;

  g_snprintf (path, sizeof path, "%s[%u]", key, index);
  if (!JSON_NODE_HOLDS_ARRAY (node) || json_array_get_length (json_node_get_array (node)) != 3)
    {
      fr_input_fail (days, path, "must be a list of three: [\"from\", \"to\", price]");
      return;
    }
  row = json_node_get_array (node);
  g_snprintf (part, sizeof part, "%s[0]", path);
  if (!read_clock (days, part, json_array_get_element (row, 0), &period.from_min))
    return;
  g_snprintf (part, sizeof part, "%s[1]", path);
  if (!read_clock (days, part, json_array_get_element (row, 1), &period.to_min))
    return;
  g_snprintf (part, sizeof part, "%s[2]", path);
  period.price_per_kwh = fr_input_array_number (days, row, 2, part, 0, PRICE_MAX);
  if (period.from_min == period.to_min || period.from_min == 24 * 60)
    fr_input_fail (days, path, "is empty: it must start before 24:00 and end at another time than it starts");
  g_array_append_val (out->periods, period);
  g_ptr_array_add (out->paths, g_strdup_printf ("%s.%s", days->path, path));
  g_ptr_array_add (out->seasons, g_strdup (season_path));
}

static void
read_season (const FrInput *season, Periods *out)
{
  FrTariffPeriod period = { 0 };
  FrInput days;

  if (!read_day (season, "from", &period.from_month, &period.from_day)
      || !read_day (season, "to", &period.to_month, &period.to_day))
    return;
  for (guint i = 0; i < out->periods->len; i++)
    {
      const FrTariffPeriod *other = &g_array_index (out->periods, FrTariffPeriod, i);

      if (other->from_month == period.from_month && other->from_day == period.from_day
          && other->to_month == period.to_month && other->to_day == period.to_day)
        {
          fr_input_fail (season, "from", "and to are those of %s; a date may lie in one season only",
                         (const char *)out->seasons->pdata[i]);
          return;
        }
    }
  if (!fr_input_object (season, "days", FR_INPUT_REQUIRED, days_keys, &days))
    return;
  if (json_object_get_size (days.object) == 0)
    {
      fr_input_fail (season, "days", "is empty; give weekday and weekend, or all");
      return;
    }
  for (guint k = 0; days_keys[k] != NULL && *season->error == NULL; k++)
    {
      JsonArray *list;

      if (!fr_input_has (&days, days_keys[k]) || !fr_days_from_code (days_keys[k], &period.days))
        continue;
      list = fr_input_array (&days, days_keys[k], FR_INPUT_REQUIRED, 1, 1440);
      for (guint i = 0; list != NULL && i < json_array_get_length (list) && *season->error == NULL; i++)
        read_period (&days, days_keys[k], i, json_array_get_element (list, i), period, out, season->path);
    }
}

static void
read_holidays (const FrInput *tariff, GArray *out)
{
  JsonArray *list = fr_input_array (tariff, "holidays", FR_INPUT_OPTIONAL, 0, 10000);

  for (guint i = 0; list != NULL && i < json_array_get_length (list); i++)
    {
      JsonNode *node = json_array_get_element (list, i);
      char path[32];
      FrDate date;

      g_snprintf (path, sizeof path, "holidays[%u]", i);
      if (!JSON_NODE_HOLDS_VALUE (node) || json_node_get_value_type (node) != G_TYPE_STRING
          || !fr_date_parse (json_node_get_string (node), &date))
        {
          fr_input_fail (tariff, path, "must be a date like \"2025-04-18\"");
          return;
        }
      g_array_append_val (out, date);
    }
}

/* What is wrong with the whole of a tariff or a date, as a sentence. @found may be NULL once the tariff
 * stands. */
static void
tell_problem (const FrInput *in, const FrTariffProblem *problem, const Periods *found)
{
  guint i = problem->line > 0 ? problem->line - 1 : 0;
  gboolean known = found != NULL && i < found->paths->len;
  const char *path = known ? found->paths->pdata[i] : "tariff",
             *season = known ? found->seasons->pdata[i] : "tariff";
  const char *days = fr_days_code (problem->days);
  g_autofree char *list = NULL;
  FrInput whole = { NULL, "", in->error };

  switch (problem->code)
    {
    case FR_TARIFF_GAP:
      list = g_strdup_printf ("%s.days.%s", season, days);
      fr_input_fail (&whole, list,
                     "does not cover %02d:%02d; a day must be covered exactly once from 00:00 to 24:00",
                     problem->minute / 60, problem->minute % 60);
      break;
    case FR_TARIFF_OVERLAP:
      fr_input_fail (&whole, path,
                     "covers %02d:%02d a second time; a day must be covered exactly once from 00:00 to 24:00",
                     problem->minute / 60, problem->minute % 60);
      break;
    case FR_TARIFF_NO_SEASON:
      fr_input_fail (&whole, "tariff.seasons", "has no season for %04d-%02d-%02d", problem->date.year,
                     problem->date.month, problem->date.day);
      break;
    case FR_TARIFF_TWO_SEASONS:
      fr_input_fail (&whole, season,
                     "covers %02d-%02d, which lies in another season too; a date may lie in one only",
                     problem->date.month, problem->date.day);
      break;
    case FR_TARIFF_NO_DAYS:
      list = g_strdup_printf ("%s.days", season);
      fr_input_fail (&whole, list, "says nothing for a %s; give %s, %sor all", days, days,
                     problem->days == FR_DAYS_WEEKDAY ? "" : "weekend ");
      break;
    default:
      fr_input_fail (&whole, path, "cannot be used");
    }
}

static void
read_tariff (const FrInput *in, FrPriceInput *input)
{
  Periods found = { g_array_new (FALSE, FALSE, sizeof (FrTariffPeriod)),
                    g_ptr_array_new_with_free_func (g_free), g_ptr_array_new_with_free_func (g_free) };
  g_autoptr (GArray) holidays = g_array_new (FALSE, FALSE, sizeof (FrDate));
  FrInput tariff, one;

  if (fr_input_object (in, "tariff", FR_INPUT_REQUIRED, tariff_keys, &tariff))
    {
      JsonArray *seasons = fr_input_array (&tariff, "seasons", FR_INPUT_REQUIRED, 1, 366);
      double adder = fr_input_number (&tariff, "adder_per_kwh", FR_INPUT_OPTIONAL, -PRICE_MAX, PRICE_MAX);
      double tax_ratio = fr_input_number (&tariff, "tax_ratio", FR_INPUT_OPTIONAL, 0, 1);

      read_holidays (&tariff, holidays);
      for (guint i = 0; seasons != NULL && i < json_array_get_length (seasons) && *in->error == NULL; i++)
        if (fr_input_element (&tariff, "seasons", seasons, i, season_keys, &one))
          read_season (&one, &found);
      if (*in->error == NULL)
        {
          FrTariffProblem problem;

          /* An adder or a tax that is not given is none. */
          input->tariff
              = fr_tariff_new ((FrTariffPeriod *)(gpointer)found.periods->data, found.periods->len,
                               (FrDate *)(gpointer)holidays->data, holidays->len, isnan (adder) ? 0 : adder,
                               isnan (tax_ratio) ? 0 : tax_ratio, &problem);
          if (input->tariff == NULL)
            tell_problem (in, &problem, &found);
        }
    }
  g_array_unref (found.periods);
  g_ptr_array_unref (found.paths);
  g_ptr_array_unref (found.seasons);
}

FrPriceInput *
fr_price_input_read (JsonNode *root, GError **error)
{
  g_autoptr (FrPriceInput) input = g_new0 (FrPriceInput, 1);
  GError *first = NULL;
  FrInput in;

  if (fr_input_root (root, root_keys, &first, &in))
    {
      input->zone = g_strdup (
          fr_input_string (&in, "zone", FR_INPUT_REQUIRED, "the name of a time zone like America/Toronto"));
      read_start (&in, input);
      read_power (&in, input);
      read_tariff (&in, input);
    }
  if (first != NULL)
    {
      g_propagate_error (error, first);
      return NULL;
    }
  input->last_year
      = fr_date_add_days (input->start, (gint)(input->steps[input->n_steps - 1].after_s / 86400) + 2).year;
  return g_steal_pointer (&input);
}

FrZoneTable *
fr_price_input_zone (const FrPriceInput *input, GError **error)
{
  g_autoptr (GError) unknown = NULL;
  FrZoneTable *table = fr_zone_table_load (input->zone, input->start.year, input->last_year, &unknown);

  if (table == NULL)
    {
      g_autofree char *quoted = fr_json_quote (input->zone);

      g_set_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG,
                   "zone is “%s”, which this machine does not know; a name looks like America/Toronto",
                   quoted);
    }
  return table;
}

static gboolean
find_start (const FrPriceInput *input, const FrZoneTable *zone, gint64 *utc_out, GError **error)
{
  gint64 first, second;
  FrLocalTime before, after;

  if (fr_zone_instant (zone, input->start, input->start_second_of_day, &first, &second) != FR_ZONE_NEVER)
    {
      *utc_out = first;
      return TRUE;
    }
  before = fr_zone_local (zone, first);
  after = fr_zone_local (zone, second);
  g_set_error (
      error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG,
      "start %04d-%02d-%02dT%02d:%02d does not exist in %s: the clock goes from %02d:%02d:%02d straight to "
      "%02d:%02d:%02d",
      input->start.year, input->start.month, input->start.day, input->start_second_of_day / 3600,
      input->start_second_of_day / 60 % 60, input->zone, before.second_of_day / 3600,
      before.second_of_day / 60 % 60, before.second_of_day % 60, after.second_of_day / 3600,
      after.second_of_day / 60 % 60, after.second_of_day % 60);
  return FALSE;
}

gboolean
fr_price_input_run (const FrPriceInput *input, const FrZoneTable *zone, FrCost *cost_out, GError **error)
{
  FrTariffProblem problem;
  GError *first = NULL;
  FrInput whole = { NULL, "", &first };
  gint64 start_utc;

  if (!find_start (input, zone, &start_utc, error))
    return FALSE;
  if (fr_cost_of_power (input->tariff, zone, start_utc, input->steps, input->n_steps, cost_out, &problem))
    return TRUE;
  tell_problem (&whole, &problem, NULL);
  g_propagate_error (error, first);
  return FALSE;
}

char *
fr_cost_to_json (const FrCost *cost)
{
  FrOutput out;

  fr_output_init (&out);
  fr_output_object (&out, NULL);
  fr_output_number (&out, "cost", cost->cost_minor);
  fr_output_number (&out, "energy_kwh", cost->energy_kwh);
  fr_output_array (&out, "bands");
  for (guint i = 0; i < cost->n_bands; i++)
    {
      const FrCostBand *band = &cost->bands[i];

      fr_output_object (&out, NULL);
      fr_output_number (&out, "price", band->listed_per_kwh);
      fr_output_number (&out, "full_price", band->full_per_kwh);
      fr_output_number (&out, "hours", band->hours_h);
      fr_output_number (&out, "energy_kwh", band->energy_kwh);
      fr_output_number (&out, "cost", band->cost_minor);
      fr_output_end_object (&out);
    }
  fr_output_end_array (&out);
  fr_output_end_object (&out);
  return fr_output_finish (&out);
}
