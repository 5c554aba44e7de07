/* Numbers with a unit at the edge: what people type becomes one fixed inner unit, and back.
 *
 * Inside, each kind of quantity has one unit (see FrQuantityKind). Reading follows one grammar:
 *   number [unit] { number unit }          "1.5"  "1,5 l"  "1 ½"  "3 gal 1 qt"  "36 F"  "2 buckets"
 * A bare number has the unit the household shows for that kind. gal, qt, pt, cup and fl oz follow the household's US or
 * imperial choice (a metric household's are the US ones); "US gal" and "imp gal" say so. Parts add up for volume, mass,
 * length, altitude, span, power and energy; only a single part may be negative, and only a plain number, a temperature, a
 * difference, an altitude, a place on the plan, an angle or a price. Group marks are not read: "1,500" in a book whose decimal mark is a point is a
 * question, not a number. Units and decimal mark are arguments; there is no locale here. NULL units are metric with a
 * point. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * FrQuantityKind:
 * What a number measures, and the unit it has inside the program.
 */
typedef enum
{
  FR_QUANTITY_PLAIN,       /* a count or a pure number */
  FR_QUANTITY_VOLUME,      /* L;    shown L, US gal or imp gal */
  FR_QUANTITY_MASS,        /* kg;   shown kg or lb */
  FR_QUANTITY_TEMPERATURE, /* °C;   shown °C or °F */
  FR_QUANTITY_DIFFERENCE,  /* K;    a difference of temperatures, shown K (as °C) or °F */
  FR_QUANTITY_LENGTH,      /* m;    shown cm or in */
  FR_QUANTITY_ALTITUDE,    /* m;    shown m or ft */
  FR_QUANTITY_PRESSURE,    /* Pa;   shown hPa or inHg */
  FR_QUANTITY_POWER,       /* W;    shown W */
  FR_QUANTITY_SWEETNESS,   /* °Bx;  shown °Bx or °Bé (modulus 145, 20/20) */
  FR_QUANTITY_RATIO,       /* 1;    shown % ; "85" and "85 %" both mean 0.85 */
  FR_QUANTITY_SPAN,        /* s;    shown h and min; "1 h 30 min", "1 h 30", "90 min", "1:30"; a bare 2 is hours */
  FR_QUANTITY_CURRENT,     /* A */
  FR_QUANTITY_VOLTAGE,     /* V */
  FR_QUANTITY_ENERGY,      /* kWh */
  FR_QUANTITY_PRICE,       /* minor units of the currency per kWh (or per kg), up to five decimals; the unit depends on
                              the currency, which is not known here: fr_quantity_unit gives "" */
  FR_QUANTITY_LOSS,        /* W/K */
  FR_QUANTITY_HEAT,        /* MJ/kg, heat content of a fuel */
  FR_QUANTITY_DISTANCE,    /* m;    on the ground, shown m or ft; may be negative, as a place on the plan */
  FR_QUANTITY_ANGLE,       /* °;    degrees of a circle, of latitude or longitude */
  FR_N_QUANTITIES
} FrQuantityKind;

typedef enum
{
  FR_SYSTEM_METRIC,
  FR_SYSTEM_US,
  FR_SYSTEM_IMPERIAL
} FrSystem;

/* A household's own measure: "bucket" = 11 L. Read with or without an English plural ending, in any case. */
typedef struct
{
  char *name;
  double litres_l;
} FrMeasure;

/**
 * FrUnits:
 * How one household writes numbers. Plain value; strings and @measures are borrowed and must outlive it.
 */
typedef struct
{
  FrSystem system;         /* gal/qt/cup meaning, and which units are shown */
  gboolean baume;          /* show sweetness as °Bé(145) */
  char decimal_mark;       /* '.' or ',' when writing; both are read */
  const FrMeasure *measures;
  guint n_measures;
} FrUnits;

typedef enum
{
  FR_QUANTITY_OK,
  FR_QUANTITY_EMPTY,           /* nothing typed: unknown, the value becomes NAN */
  FR_QUANTITY_NOT_A_NUMBER,    /* @at points at what could not be read */
  FR_QUANTITY_UNKNOWN_UNIT,    /* the word at @at is no unit of this kind */
  FR_QUANTITY_AMBIGUOUS_GROUP, /* "1,500": thousand or one and a half */
  FR_QUANTITY_MIXED,           /* parts cannot be added ("3 gal 4 kg"), or a part is negative */
  FR_QUANTITY_TOO_LONG         /* absurd length (over 200 bytes) or magnitude (over 1e12, or past the end of the °Bé scale) */
} FrQuantityProblem;

/* Reads @text (UTF-8). On OK, or EMPTY with NAN, *value_out has the inner unit and TRUE is returned.
 * On a problem FALSE is returned, *value_out is NAN and *at_out (bytes into @text) says where. */
gboolean fr_quantity_parse (const char *text, FrQuantityKind kind, const FrUnits *units, double *value_out,
                            FrQuantityProblem *problem_out, gsize *at_out);

/* A value as a number and its unit apart, for example "22.5" and "L". @decimals under 0 takes the house precision for
 * the kind and size (litres 0.1, under one 0.01; °Bx 0.1 below 10 and 1 above; °C 1, kg 0.01, W 1, m as cm 0.1). A span is
 * then "1 h 56" and "min", a whole one "8" and "h", under an hour "56" and "min", under a minute "45" and "s"; with
 * @decimals it is hours. NAN gives "–" and the unit. Real minus sign, never before a zero. Free *number_out; the unit is
 * static. */
void fr_quantity_format (double value, FrQuantityKind kind, const FrUnits *units, int decimals, char **number_out,
                         const char **unit_out);

/* The same as one string with a no-break space between; an angle's sign stands at the number. Free it. */
char *fr_quantity_to_string (double value, FrQuantityKind kind, const FrUnits *units, int decimals);

/* The value that a bare number would need in the shown unit, and back: for entries and spin steps. NAN off the °Bé scale. */
double fr_quantity_to_shown (double value, FrQuantityKind kind, const FrUnits *units);
double fr_quantity_from_shown (double shown, FrQuantityKind kind, const FrUnits *units);
const char *fr_quantity_unit (FrQuantityKind kind, const FrUnits *units);

/* What to put in an entry that reopens: the text as typed if it still means @value, else the value written out in the
 * shown unit, without the unit, so that reading it back gives the same number: exactly (1e-9) where six decimals can,
 * otherwise to two decimals more than is shown, a span to the millisecond. Free it. NAN gives "". */
char *fr_quantity_entry_text (double value, const char *typed, FrQuantityKind kind, const FrUnits *units);

/* Own measures as kept in the book: one "name = 11.4" (litres, an L may follow) a line; empty lines are skipped. FALSE and
 * the line number from 1 when unreadable: no name, a name with a digit or one that is a unit of volume already, the same
 * name twice, or a size that is not above 0 and at most 10,000 L. Free with fr_measures_free. */
gboolean fr_measures_parse (const char *text, FrMeasure **measures_out, guint *n_out, guint *bad_line_out);
void fr_measures_free (FrMeasure *measures, guint n);

G_END_DECLS
