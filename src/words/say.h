/* How one household is spoken to: units, money, clock and zone, and the small words made from them. */
#pragma once

#include "domain/units/money.h"
#include "domain/units/quantity.h"
#include "domain/units/zone.h"

G_BEGIN_DECLS

/**
 * FrSay:
 * Plain value; everything in it is borrowed.
 */
typedef struct
{
  FrUnits units;
  const char *currency;
  const FrZoneTable *zone;
  gboolean twelve_hour; /* 7:00 PM instead of 19:00 */
} FrSay;

/* A number with its unit, for a figure: the number stands large, the unit beside it. */
typedef struct
{
  char *label;
  char *number;
  char *unit; /* "" for none */
  char *note; /* or NULL */
} FrFigure;

void fr_figure_free (FrFigure *figure);

/* Whether the person's locale writes the clock in twelve hours. */
gboolean fr_say_locale_is_twelve_hour (void);

/* "19:00", "7:00 PM"; the instant on the zone's clock. */
char *fr_say_clock (const FrSay *say, gint64 utc);
/* "19", for an axis. */
char *fr_say_hour (const FrSay *say, gint64 utc);
/* "Thursday 11 March" in the locale's order. */
char *fr_say_date (FrDate date);
/* As strftime(3) has it; "–" for a date that is none. */
char *fr_say_date_as (FrDate date, const char *format);
/* "Thursday". */
char *fr_say_weekday (FrDate date);
/* "Sunday 14:00", or only the clock when it is the same local day as @than_utc, or with the date when over six days off. */
char *fr_say_when (const FrSay *say, gint64 utc, gint64 than_utc);
/* "1 h 56 min", "12 min", "under a minute", "2 days". */
char *fr_say_span (double span_s);
/* "22.5 L" with the unit, house precision; @decimals −1 for the house's. */
char *fr_say_amount (const FrSay *say, double value, FrQuantityKind kind, int decimals);
/* "$2.00" from minor units, rounded once; "–" when unknown. */
char *fr_say_money (const FrSay *say, double minor);
/* "9.4 ¢". */
char *fr_say_price (const FrSay *say, double minor_per_kwh);
/* A plain number with the household's decimal mark. */
char *fr_say_number (const FrSay *say, double value, int decimals);
/* "45.19980° N", to a metre. */
char *fr_say_latitude (const FrSay *say, double lat_deg);
char *fr_say_longitude (const FrSay *say, double lon_deg);

/* Markup: <b>…</b> around, escaped. Takes @text. */
char *fr_say_bold (char *text);
/* Drops the markup for the terminal. */
char *fr_say_plain (const char *markup);

G_END_DECLS
