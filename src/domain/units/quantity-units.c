/* The words for units.
 *
 * One table of words for each kind, compared after folding, so that "KG", "kg." and "Kg" are the same and a
 * French or German measure name matches however its accents are coded. Plurals in s are understood. The
 * gallon's family (gal, qt, pt, cup, fl oz) hangs on the household: imperial for an imperial one, else the
 * United States one, which the trade's literature means by the bare word; "US gal" and "imp gal" never depend
 * on it. The gallon is 4 quarts, 8 pints, 16 cups, and 128 (US) or 160 (imperial) fluid ounces (definitions,
 * from memory; an imperial cup is taken as half an imperial pint). Other constants are in units.h; 1 Btu/lb
 * is exactly 2326 J/kg; mmHg is the inch of mercury over 25.4. */
#include "domain/units/quantity-units.h"

#include "domain/units/baume.h"
#include "domain/units/units.h"

#include <math.h>
#include <string.h>

typedef struct
{
  const char *word;
  double scale;
  double divisor;
} Word;

static const Word volume_words[] = {
  { "l", 1, 1 },     { "litre", 1, 1 },         { "liter", 1, 1 },
  { "dl", 1, 10 },   { "decilitre", 1, 10 },    { "deciliter", 1, 10 },
  { "cl", 1, 100 },  { "centilitre", 1, 100 },  { "centiliter", 1, 100 },
  { "ml", 1, 1000 }, { "millilitre", 1, 1000 }, { "milliliter", 1, 1000 },
  { "hl", 100, 1 },  { "hectolitre", 100, 1 },  { "hectoliter", 100, 1 },
  { NULL },
};

static const Word mass_words[] = {
  { "kg", 1, 1 },
  { "kilo", 1, 1 },
  { "kilogram", 1, 1 },
  { "g", 1, 1000 },
  { "gram", 1, 1000 },
  { "lb", FR_KG_PER_POUND, 1 },
  { "pound", FR_KG_PER_POUND, 1 },
  { "oz", FR_KG_PER_POUND, 16 },
  { "ounce", FR_KG_PER_POUND, 16 },
  { NULL },
};

static const Word length_words[] = {
  { "m", 1, 1 },
  { "metre", 1, 1 },
  { "meter", 1, 1 },
  { "dm", 1, 10 },
  { "cm", 1, 100 },
  { "centimetre", 1, 100 },
  { "centimeter", 1, 100 },
  { "mm", 1, 1000 },
  { "millimetre", 1, 1000 },
  { "millimeter", 1, 1000 },
  { "km", 1000, 1 },
  { "in", FR_METRES_PER_INCH, 1 },
  { "inch", FR_METRES_PER_INCH, 1 },
  { "inches", FR_METRES_PER_INCH, 1 },
  { "\"", FR_METRES_PER_INCH, 1 },
  { "ft", FR_METRES_PER_FOOT, 1 },
  { "foot", FR_METRES_PER_FOOT, 1 },
  { "feet", FR_METRES_PER_FOOT, 1 },
  { "'", FR_METRES_PER_FOOT, 1 },
  { NULL },
};

static const Word pressure_words[] = {
  { "pa", 1, 1 },
  { "pascal", 1, 1 },
  { "hpa", 100, 1 },
  { "mbar", 100, 1 },
  { "mb", 100, 1 },
  { "millibar", 100, 1 },
  { "kpa", 1000, 1 },
  { "bar", 100000, 1 },
  { "inhg", FR_PASCALS_PER_INCH_OF_MERCURY, 1 },
  { "in hg", FR_PASCALS_PER_INCH_OF_MERCURY, 1 },
  { "\"hg", FR_PASCALS_PER_INCH_OF_MERCURY, 1 },
  { "mmhg", FR_PASCALS_PER_INCH_OF_MERCURY, 25.4 },
  { "mm hg", FR_PASCALS_PER_INCH_OF_MERCURY, 25.4 },
  { NULL },
};

static const Word power_words[] = {
  { "w", 1, 1 },
  { "watt", 1, 1 },
  { "kw", 1000, 1 },
  { "kilowatt", 1000, 1 },
  { "btu/h", FR_JOULES_PER_BTU, 3600 },
  { "btu/hr", FR_JOULES_PER_BTU, 3600 },
  { NULL },
};

static const Word difference_words[] = {
  { "k", 1, 1 },      { "c", 1, 1 },          { "°c", 1, 1 }, { "℃", 1, 1 },  { "deg c", 1, 1 },
  { "kelvin", 1, 1 }, { "celsius", 1, 1 },    { "f", 5, 9 },  { "°f", 5, 9 }, { "℉", 5, 9 },
  { "deg f", 5, 9 },  { "fahrenheit", 5, 9 }, { NULL },
};

static const Word ratio_words[]
    = { { "%", 1, 100 }, { "percent", 1, 100 }, { "per cent", 1, 100 }, { NULL } };

static const Word span_words[] = {
  { "s", 1, 1 },       { "sec", 1, 1 },  { "second", 1, 1 }, { "m", 60, 1 },      { "min", 60, 1 },
  { "minute", 60, 1 }, { "h", 3600, 1 }, { "hr", 3600, 1 },  { "hour", 3600, 1 }, { NULL },
};

static const Word current_words[] = { { "a", 1, 1 }, { "amp", 1, 1 }, { "ampere", 1, 1 }, { NULL } };

static const Word voltage_words[] = { { "v", 1, 1 }, { "volt", 1, 1 }, { NULL } };

static const Word energy_words[] = {
  { "kwh", 1, 1 }, { "kw h", 1, 1 }, { "wh", 1, 1000 }, { "w h", 1, 1000 }, { "mj", 1, 3.6 }, { NULL },
};

/* By dollar, euro and pound, which all have a hundred minor units. */
static const Word price_words[] = {
  { "¢", 1, 1 },       { "¢/kwh", 1, 1 },  { "¢/kg", 1, 1 },    { "c", 1, 1 },
  { "c/kwh", 1, 1 },   { "c/kg", 1, 1 },   { "ct", 1, 1 },      { "ct/kwh", 1, 1 },
  { "ct/kg", 1, 1 },   { "p", 1, 1 },      { "p/kwh", 1, 1 },   { "p/kg", 1, 1 },
  { "/kwh", 1, 1 },    { "/kg", 1, 1 },    { "$/kwh", 100, 1 }, { "$/kg", 100, 1 },
  { "€/kwh", 100, 1 }, { "€/kg", 100, 1 }, { "£/kwh", 100, 1 }, { "£/kg", 100, 1 },
  { "$", 100, 1 },     { "€", 100, 1 },    { "£", 100, 1 },     { NULL },
};

static const Word loss_words[] = { { "w/k", 1, 1 }, { "w/°c", 1, 1 }, { "w per k", 1, 1 }, { NULL } };

static const Word heat_words[] = {
  { "mj/kg", 1, 1 }, { "kj/kg", 1, 1000 }, { "kwh/kg", 3.6, 1 }, { "btu/lb", 2326, 1e6 }, { NULL },
};

static const Word angle_words[] = { { "°", 1, 1 }, { "deg", 1, 1 }, { "degree", 1, 1 }, { NULL } };

static const Word no_words[] = { { NULL } };

/* Temperatures and sweetness are not in here: they have curves. */
static const Word *const words_by_kind[FR_N_QUANTITIES] = {
  [FR_QUANTITY_PLAIN] = no_words,
  [FR_QUANTITY_VOLUME] = volume_words,
  [FR_QUANTITY_MASS] = mass_words,
  [FR_QUANTITY_TEMPERATURE] = no_words,
  [FR_QUANTITY_DIFFERENCE] = difference_words,
  [FR_QUANTITY_LENGTH] = length_words,
  [FR_QUANTITY_ALTITUDE] = length_words,
  [FR_QUANTITY_PRESSURE] = pressure_words,
  [FR_QUANTITY_POWER] = power_words,
  [FR_QUANTITY_SWEETNESS] = no_words,
  [FR_QUANTITY_RATIO] = ratio_words,
  [FR_QUANTITY_SPAN] = span_words,
  [FR_QUANTITY_CURRENT] = current_words,
  [FR_QUANTITY_VOLTAGE] = voltage_words,
  [FR_QUANTITY_ENERGY] = energy_words,
  [FR_QUANTITY_PRICE] = price_words,
  [FR_QUANTITY_LOSS] = loss_words,
  [FR_QUANTITY_HEAT] = heat_words,
  [FR_QUANTITY_DISTANCE] = length_words,
  [FR_QUANTITY_ANGLE] = angle_words,
};

static const Word gallon_words[] = {
  { "gal", 1, 1 }, { "gallon", 1, 1 }, { "qt", 1, 4 },   { "quart", 1, 4 },
  { "pt", 1, 8 },  { "pint", 1, 8 },   { "cup", 1, 16 }, { NULL },
};

static const char *const celsius_words[] = { "c", "°c", "℃", "deg c", "celsius", NULL };
static const char *const fahrenheit_words[] = { "f", "°f", "℉", "deg f", "fahrenheit", NULL };
static const char *const brix_words[] = { "bx", "°bx", "brix", "°brix", "deg brix", "%", NULL };
static const char *const baume_words[]
    = { "be", "bé", "°be", "°bé", "baume", "baumé", "°baume", "°baumé", "deg baume", NULL };
static const char *const fluid_ounce_words[] = { "fl oz", "floz", "fluid ounce", "fluid oz", NULL };

char *
fr_unit_fold (const char *text, gsize length)
{
  g_autoptr (GString) flat = g_string_sized_new (length + 1);
  g_autofree char *composed = NULL;
  gunichar last = 0;
  const char *end = text + length;

  for (const char *p = text; p < end; p = g_utf8_next_char (p))
    {
      gunichar c = g_utf8_get_char (p);

      if (g_unichar_isspace (c))
        c = ' ';
      else if (c == 0x00BA || c == 0x02DA) /* the ordinal sign and the ring people find on their keyboards */
        c = 0x00B0;
      else if (c == 0x2032 || c == 0x2019)
        c = '\'';
      else if (c == 0x2033 || c == 0x201D)
        c = '"';
      if (c == '\'' && last == '\'')
        {
          g_string_truncate (flat, flat->len - 1);
          c = '"';
        }
      if (c == '.' && last && g_unichar_isalpha (last))
        continue;
      if (c == ' ' && (last == 0 || last == ' ' || last == 0x00B0))
        continue;
      g_string_append_unichar (flat, c);
      last = c;
    }
  while (flat->len && (flat->str[flat->len - 1] == ' ' || flat->str[flat->len - 1] == ','))
    g_string_truncate (flat, flat->len - 1);
  composed = g_utf8_normalize (flat->str, (gssize)flat->len, G_NORMALIZE_DEFAULT_COMPOSE);
  return composed ? g_utf8_casefold (composed, -1) : g_strdup (flat->str);
}

/* Whether @typed is @name or its plural. */
static gboolean
is_plural_of (const char *typed, const char *name)
{
  gsize n = strlen (name);

  if (strncmp (typed, name, n) != 0)
    return g_str_has_suffix (name, "y") && n > 1 && strncmp (typed, name, n - 1) == 0
           && strcmp (typed + n - 1, "ies") == 0;
  return typed[n] == 0 || (n > 1 && (strcmp (typed + n, "s") == 0 || strcmp (typed + n, "es") == 0));
}

static gboolean
is_one_of (const char *typed, const char *const *words)
{
  for (guint i = 0; words[i]; i++)
    if (is_plural_of (typed, words[i]))
      return TRUE;
  return FALSE;
}

static gboolean
set_fit (FrUnitFit *fit, FrUnitCurve curve, double scale, double divisor)
{
  fit->curve = curve;
  fit->scale_ratio = scale;
  fit->divisor_ratio = divisor;
  return TRUE;
}

static gboolean
find_word (const char *typed, const Word *words, double factor, FrUnitFit *fit)
{
  for (guint i = 0; words[i].word; i++)
    if (is_plural_of (typed, words[i].word))
      return set_fit (fit, FR_UNIT_LINEAR, words[i].scale * factor, words[i].divisor);
  return FALSE;
}

static gboolean
find_gallon (const char *typed, FrSystem system, FrUnitFit *fit)
{
  static const char *const prefixes[] = { "us ", "imp ", "imperial ", "uk " };
  double gallon;

  for (guint i = 0; i < G_N_ELEMENTS (prefixes); i++)
    if (g_str_has_prefix (typed, prefixes[i]))
      {
        system = i == 0 ? FR_SYSTEM_US : FR_SYSTEM_IMPERIAL;
        typed += strlen (prefixes[i]);
        break;
      }
  gallon = system == FR_SYSTEM_IMPERIAL ? FR_LITRES_PER_IMPERIAL_GALLON : FR_LITRES_PER_US_GALLON;
  if (is_one_of (typed, fluid_ounce_words))
    return set_fit (fit, FR_UNIT_LINEAR, gallon, system == FR_SYSTEM_IMPERIAL ? 160 : 128);
  return find_word (typed, gallon_words, gallon, fit);
}

static gboolean
find_measure (const char *typed, const FrUnits *units, FrUnitFit *fit)
{
  for (guint i = 0; i < units->n_measures; i++)
    {
      const FrMeasure *measure = &units->measures[i];
      g_autofree char *name = NULL;

      if (!measure->name || !g_utf8_validate (measure->name, -1, NULL) || !(measure->litres_l > 0))
        continue;
      name = fr_unit_fold (measure->name, strlen (measure->name));
      /* the other way round too: a household that wrote "buckets" means one bucket by "1 bucket" */
      if (*name && (is_plural_of (typed, name) || is_plural_of (name, typed)))
        return set_fit (fit, FR_UNIT_LINEAR, measure->litres_l, 1);
    }
  return FALSE;
}

gboolean
fr_unit_find (const char *folded, FrQuantityKind kind, const FrUnits *units, FrUnitFit *fit_out)
{
  gboolean is_shown_degree = strcmp (folded, "°") == 0 || strcmp (folded, "deg") == 0;

  if (*folded == 0)
    return FALSE;
  switch (kind)
    {
    case FR_QUANTITY_VOLUME:
      if (find_measure (folded, units, fit_out) || find_gallon (folded, units->system, fit_out))
        return TRUE;
      break;
    case FR_QUANTITY_TEMPERATURE:
      if (is_one_of (folded, celsius_words))
        return set_fit (fit_out, FR_UNIT_LINEAR, 1, 1);
      if (is_one_of (folded, fahrenheit_words))
        return set_fit (fit_out, FR_UNIT_FAHRENHEIT, 1, 1);
      break;
    case FR_QUANTITY_SWEETNESS:
      if (is_one_of (folded, brix_words))
        return set_fit (fit_out, FR_UNIT_LINEAR, 1, 1);
      if (is_one_of (folded, baume_words))
        return set_fit (fit_out, FR_UNIT_BAUME, 1, 1);
      break;
    default:
      break;
    }
  if (is_shown_degree
      && (kind == FR_QUANTITY_TEMPERATURE || kind == FR_QUANTITY_DIFFERENCE || kind == FR_QUANTITY_SWEETNESS))
    {
      *fit_out = fr_unit_shown (kind, units);
      return TRUE;
    }
  return find_word (folded, words_by_kind[kind], 1, fit_out);
}

FrUnitFit
fr_unit_shown (FrQuantityKind kind, const FrUnits *units)
{
  gboolean metric = units->system == FR_SYSTEM_METRIC;
  FrUnitFit fit = { FR_UNIT_LINEAR, 1, 1 };

  switch (kind)
    {
    case FR_QUANTITY_VOLUME:
      if (!metric)
        fit.scale_ratio
            = units->system == FR_SYSTEM_US ? FR_LITRES_PER_US_GALLON : FR_LITRES_PER_IMPERIAL_GALLON;
      break;
    case FR_QUANTITY_MASS:
      fit.scale_ratio = metric ? 1 : FR_KG_PER_POUND;
      break;
    case FR_QUANTITY_TEMPERATURE:
      fit.curve = metric ? FR_UNIT_LINEAR : FR_UNIT_FAHRENHEIT;
      break;
    case FR_QUANTITY_DIFFERENCE:
      fit.scale_ratio = metric ? 1 : 5;
      fit.divisor_ratio = metric ? 1 : 9;
      break;
    case FR_QUANTITY_LENGTH:
      fit.scale_ratio = metric ? 1 : FR_METRES_PER_INCH;
      fit.divisor_ratio = metric ? 100 : 1;
      break;
    case FR_QUANTITY_ALTITUDE:
    case FR_QUANTITY_DISTANCE:
      fit.scale_ratio = metric ? 1 : FR_METRES_PER_FOOT;
      break;
    case FR_QUANTITY_PRESSURE:
      fit.scale_ratio = metric ? 100 : FR_PASCALS_PER_INCH_OF_MERCURY;
      break;
    case FR_QUANTITY_SWEETNESS:
      fit.curve = units->baume ? FR_UNIT_BAUME : FR_UNIT_LINEAR;
      break;
    case FR_QUANTITY_RATIO:
      fit.divisor_ratio = 100;
      break;
    case FR_QUANTITY_SPAN:
      fit.scale_ratio = 3600;
      break;
    default:
      break;
    }
  return fit;
}

double
fr_unit_to_inner (FrUnitFit fit, double number)
{
  switch (fit.curve)
    {
    case FR_UNIT_FAHRENHEIT:
      return fr_celsius_from_fahrenheit (number);
    case FR_UNIT_BAUME:
      return fr_brix_from_baume (number);
    case FR_UNIT_LINEAR:
    default:
      return number * fit.scale_ratio / fit.divisor_ratio;
    }
}

double
fr_unit_from_inner (FrUnitFit fit, double value)
{
  switch (fit.curve)
    {
    case FR_UNIT_FAHRENHEIT:
      return fr_fahrenheit_from_celsius (value);
    case FR_UNIT_BAUME:
      return fr_baume_from_brix (value);
    case FR_UNIT_LINEAR:
    default:
      return value * fit.divisor_ratio / fit.scale_ratio;
    }
}

gboolean
fr_quantity_adds (FrQuantityKind kind)
{
  return kind == FR_QUANTITY_VOLUME || kind == FR_QUANTITY_MASS || kind == FR_QUANTITY_LENGTH
         || kind == FR_QUANTITY_ALTITUDE || kind == FR_QUANTITY_DISTANCE || kind == FR_QUANTITY_SPAN || kind == FR_QUANTITY_POWER
         || kind == FR_QUANTITY_ENERGY;
}

gboolean
fr_quantity_may_be_negative (FrQuantityKind kind)
{
  return kind == FR_QUANTITY_PLAIN || kind == FR_QUANTITY_TEMPERATURE || kind == FR_QUANTITY_DIFFERENCE
         || kind == FR_QUANTITY_ALTITUDE || kind == FR_QUANTITY_DISTANCE || kind == FR_QUANTITY_ANGLE
         || kind == FR_QUANTITY_PRICE;
}
