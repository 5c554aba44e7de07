/* Writing quantities in a household's units.
 *
 * The house precision follows what a hand can pour and a glance can use, not what the model computes; a
 * caller who needs more asks for it. Numbers never get group marks, so whatever is written can be typed back.
 * The decimal mark is an argument; digits come from g_ascii_formatd, which no locale touches. */
#include "domain/units/quantity-units.h"

#include <math.h>
#include <string.h>

#define UNIT_SPACE "\u00a0" /* fonts without a narrow no-break space would draw none */
#define MINUS "\u2212"
#define UNKNOWN "\u2013"
#define INFINITE "\u221e"
#define MOST_DECIMALS 15

static const FrUnits metric_units = { FR_SYSTEM_METRIC, FALSE, '.', NULL, 0 };

/* Decimals by kind and size of the number shown; *trim_out: fewer when the last ones are zeros. */
static int
house_decimals (FrQuantityKind kind, const FrUnits *units, double shown, gboolean *trim_out)
{
  gboolean metric = units->system == FR_SYSTEM_METRIC;
  double size = fabs (shown);

  *trim_out = FALSE;
  switch (kind)
    {
    case FR_QUANTITY_VOLUME:
      return (metric ? size < 1 : size < 10) ? 2 : 1;
    case FR_QUANTITY_MASS:
      return metric || size < 10 ? 2 : 1;
    case FR_QUANTITY_LENGTH:
      return size < 1 ? 2 : 1;
    case FR_QUANTITY_PRESSURE:
      return metric ? 0 : 2;
    case FR_QUANTITY_DIFFERENCE:
    case FR_QUANTITY_HEAT:
    case FR_QUANTITY_DISTANCE:
      return 1;
    case FR_QUANTITY_SWEETNESS:
      return units->baume || size < 9.95 ? 1 : 0;
    case FR_QUANTITY_ENERGY:
      return size < 10 ? 2 : 1;
    case FR_QUANTITY_LOSS:
    case FR_QUANTITY_SPAN:
      return 2;
    case FR_QUANTITY_RATIO:
      *trim_out = TRUE;
      return size < 9.95 ? 1 : 0;
    case FR_QUANTITY_CURRENT:
      *trim_out = TRUE;
      return 1;
    case FR_QUANTITY_PLAIN:
      *trim_out = TRUE;
      return 3;
    case FR_QUANTITY_PRICE:
      *trim_out = TRUE;
      return 5;
    case FR_QUANTITY_TEMPERATURE:
    case FR_QUANTITY_ALTITUDE:
    case FR_QUANTITY_ANGLE:
    case FR_QUANTITY_POWER:
    case FR_QUANTITY_VOLTAGE:
    default:
      return 0;
    }
}

static char *
write_number (double shown, int decimals, gboolean trim, char decimal_mark)
{
  char digits[G_ASCII_DTOSTR_BUF_SIZE + 320], format[8];
  char *point;
  gboolean is_zero;

  if (isinf (shown))
    return g_strdup (shown < 0 ? MINUS INFINITE : INFINITE);
  g_snprintf (format, sizeof format, "%%.%df", MIN (decimals, MOST_DECIMALS));
  g_ascii_formatd (digits, sizeof digits, format, fabs (shown));
  point = strchr (digits, '.');
  if (point && trim)
    {
      char *last = digits + strlen (digits) - 1;

      while (*last == '0')
        *last-- = 0;
      if (last == point)
        *last = 0;
    }
  is_zero = strspn (digits, "0.") == strlen (digits);
  point = strchr (digits, '.');
  if (point && decimal_mark == ',')
    *point = ',';
  return g_strconcat (shown < 0 && !is_zero ? MINUS : "", digits, NULL);
}

/* "1 h 56" and "min", rounded to the minute; seconds only where a minute says nothing. */
static char *
write_span (double span_s, char decimal_mark, const char **unit_out)
{
  const char *sign = span_s < 0 ? MINUS : "";
  double size = fabs (span_s);
  double minutes = round (size / 60), hours = floor (minutes / 60);

  if (size < 59.5 && size > 0)
    {
      *unit_out = "s";
      return write_number (span_s, 0, FALSE, decimal_mark);
    }
  if (!(minutes < 1e9)) /* nobody waits two thousand years */
    {
      *unit_out = "h";
      return write_number (span_s / 3600, 0, FALSE, decimal_mark);
    }
  if (minutes < 60 && size > 0)
    {
      *unit_out = "min";
      return g_strdup_printf ("%s%d", sign, (int)minutes);
    }
  if (minutes == hours * 60)
    {
      *unit_out = "h";
      return g_strdup_printf ("%s%d", sign, (int)hours);
    }
  *unit_out = "min";
  return g_strdup_printf ("%s%d" UNIT_SPACE "h" UNIT_SPACE "%02d", sign, (int)hours,
                          (int)(minutes - hours * 60));
}

void
fr_quantity_format (double value, FrQuantityKind kind, const FrUnits *units, int decimals, char **number_out,
                    const char **unit_out)
{
  double shown;
  gboolean trim = FALSE;

  g_return_if_fail ((int)kind >= 0 && kind < FR_N_QUANTITIES);
  g_return_if_fail (number_out != NULL && unit_out != NULL);

  units = units ? units : &metric_units;
  *unit_out = fr_quantity_unit (kind, units);
  shown = fr_quantity_to_shown (value, kind, units);
  if (isnan (shown))
    {
      *number_out = g_strdup (UNKNOWN);
      return;
    }
  if (kind == FR_QUANTITY_SPAN && decimals < 0)
    {
      *number_out = write_span (value, units->decimal_mark, unit_out);
      return;
    }
  if (decimals < 0)
    {
      decimals = house_decimals (kind, units, shown, &trim);
      trim = trim || shown == 0; /* nothing is nothing, however finely measured */
    }
  *number_out = write_number (shown, decimals, trim, units->decimal_mark);
}

char *
fr_quantity_to_string (double value, FrQuantityKind kind, const FrUnits *units, int decimals)
{
  g_autofree char *number = NULL;
  const char *unit = "";

  fr_quantity_format (value, kind, units, decimals, &number, &unit);
  /* Degrees of a circle stand at the number, those of temperature do not. */
  return g_strconcat (number, *unit && kind != FR_QUANTITY_ANGLE ? UNIT_SPACE : "", unit, NULL);
}

double
fr_quantity_to_shown (double value, FrQuantityKind kind, const FrUnits *units)
{
  return fr_unit_from_inner (fr_unit_shown (kind, units ? units : &metric_units), value);
}

double
fr_quantity_from_shown (double shown, FrQuantityKind kind, const FrUnits *units)
{
  return fr_unit_to_inner (fr_unit_shown (kind, units ? units : &metric_units), shown);
}

const char *
fr_quantity_unit (FrQuantityKind kind, const FrUnits *units)
{
  gboolean metric = !units || units->system == FR_SYSTEM_METRIC;

  switch (kind)
    {
    case FR_QUANTITY_VOLUME:
      return metric ? "L" : "gal";
    case FR_QUANTITY_MASS:
      return metric ? "kg" : "lb";
    case FR_QUANTITY_TEMPERATURE:
    case FR_QUANTITY_DIFFERENCE:
      return metric ? "°C" : "°F";
    case FR_QUANTITY_LENGTH:
      return metric ? "cm" : "in";
    case FR_QUANTITY_ALTITUDE:
    case FR_QUANTITY_DISTANCE:
      return metric ? "m" : "ft";
    case FR_QUANTITY_PRESSURE:
      return metric ? "hPa" : "inHg";
    case FR_QUANTITY_POWER:
      return "W";
    case FR_QUANTITY_SWEETNESS:
      return units && units->baume ? "°Bé" : "°Bx";
    case FR_QUANTITY_RATIO:
      return "%";
    case FR_QUANTITY_SPAN:
      return "h";
    case FR_QUANTITY_CURRENT:
      return "A";
    case FR_QUANTITY_VOLTAGE:
      return "V";
    case FR_QUANTITY_ENERGY:
      return "kWh";
    case FR_QUANTITY_LOSS:
      return "W/K";
    case FR_QUANTITY_HEAT:
      return "MJ/kg";
    case FR_QUANTITY_ANGLE:
      return "°";
    case FR_QUANTITY_PLAIN:
    case FR_QUANTITY_PRICE:
    case FR_N_QUANTITIES:
    default:
      return "";
    }
}

static gboolean
means (const char *text, double value, FrQuantityKind kind, const FrUnits *units)
{
  double back;

  return fr_quantity_parse (text, kind, units, &back, NULL, NULL)
         && fabs (back - value) <= 1e-9 * fabs (value);
}

/* Hours, minutes and seconds, as far as they are needed; whole milliseconds come in. */
static char *
span_entry (double span_s, char decimal_mark)
{
  double hours = floor (span_s / 3600), rest = span_s - hours * 3600;
  double minutes = floor (rest / 60), seconds = rest - minutes * 60;
  g_autofree char *seconds_text = write_number (seconds, 3, TRUE, decimal_mark);
  GString *text = g_string_new (NULL);

  if (hours > 0)
    g_string_append_printf (text, "%.0f h ", hours);
  if (minutes > 0)
    g_string_append_printf (text, "%.0f min ", minutes);
  if (strcmp (seconds_text, "0") != 0)
    g_string_append_printf (text, "%s s ", seconds_text);
  if (text->len == 0)
    g_string_append (text, "0 ");
  g_string_truncate (text, text->len - 1);
  return g_string_free (text, FALSE);
}

char *
fr_quantity_entry_text (double value, const char *typed, FrQuantityKind kind, const FrUnits *units)
{
  g_autofree char *written = NULL;
  double shown, back;
  gboolean trim;
  int decimals;

  g_return_val_if_fail ((int)kind >= 0 && kind < FR_N_QUANTITIES, NULL);

  units = units ? units : &metric_units;
  if (!isfinite (value))
    return g_strdup ("");
  if (typed && means (typed, value, kind, units))
    return g_strdup (typed);
  shown = fr_quantity_to_shown (value, kind, units);
  if (kind == FR_QUANTITY_SPAN && value >= 0 && value < 1e9)
    return span_entry (round (value * 1000) / 1000, units->decimal_mark);
  for (decimals = 0; decimals <= 6 && !isnan (shown); decimals++)
    {
      char *text = write_number (shown, decimals, FALSE, units->decimal_mark);

      if (means (text, value, kind, units))
        return text;
      g_free (text);
    }
  decimals = house_decimals (kind, units, shown, &trim) + 2;
  written = write_number (shown, decimals, TRUE, units->decimal_mark);
  if (units->baume && kind == FR_QUANTITY_SWEETNESS
      && !fr_quantity_parse (written, kind, units, &back, NULL, NULL))
    {
      /* past the end of the °Bé scale, or rounded past it: the other scale has no end */
      g_autofree char *brix = write_number (value, 3, TRUE, units->decimal_mark);

      return g_strconcat (brix, " °Bx", NULL);
    }
  return g_steal_pointer (&written);
}
