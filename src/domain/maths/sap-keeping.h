/* How long sap keeps: hours allowed by temperature, and how much of them the temperatures it had have used
 * up.
 *
 * It informs; local rules on food decide. Nothing here knows smell, cloudiness or what the container held
 * before. */
#pragma once

#include "domain/maths/sap-body.h"

G_BEGIN_DECLS

#define FR_KEEPING_ROWS_MAX 16

/**
 * FrKeepingRow:
 * @up_to_c: the warmest the sap may be for this row; INFINITY for the row of all that is warmer
 * @allowed_h: hours it keeps there
 */
typedef struct
{
  double up_to_c;
  double allowed_h;
} FrKeepingRow;

/* Warmer from row to row, and none keeps longer than the one before. A plain value. */
typedef struct
{
  guint n_rows;
  FrKeepingRow rows[FR_KEEPING_ROWS_MAX];
} FrKeepingTable;

/* The household's own, to be edited: common practice, no source. As kept: a line each with °C and hours, the
 * last with ">" and hours for what is warmer. */
#define FR_KEEPING_CUSTOM_TEXT "2 72\n4 48\n10 24\n> 12\n"

/* Seven days at 3 °C (38 °F) or colder: extension pages, seen in copies; others of them say one or two days.
 * Of anything warmer they say nothing. */
#define FR_KEEPING_PUBLISHED_TEXT "3 168\n"

/* Reads such a text; "," and "." are decimal, blank lines and lines starting with # are passed over. FALSE
 * and the 1-based line when a line cannot be read, is not warmer than the one before, keeps longer or not at
 * all, follows the one with ">", or is one too many; line 0 when there is no row. */
gboolean
fr_keeping_table_parse (const char *text, FrKeepingTable *table_out, guint *bad_line_out);

/* Hours at a temperature, in steps: between two rows the warmer one's, which is the stricter. NAN for an
 * unknown temperature and for one warmer than the table speaks of. */
double
fr_keeping_allowed_h (const FrKeepingTable *table, double temp_c);

/**
 * fr_keeping_used_ratio:
 * @trace: (element-type FrSapBodyMoment): temperatures with straight lines between; times do not fall
 * @unknown_c: the temperature to take between two moments of which one is unknown, or NAN
 *
 * The sum of time over the time allowed, exact for the straight lines; 1 means used up.
 *
 * Returns: NAN when some of the time is at a temperature without an answer
 */
double
fr_keeping_used_ratio (const FrKeepingTable *table, const GArray *trace, double unknown_c);

/**
 * fr_keeping_spoils_utc:
 * @used_ratio: used up before the first moment of @forecast
 * @forecast: (element-type FrSapBodyMoment): at least one moment; after the last its temperature stays
 * @unknown_c: as in fr_keeping_used_ratio
 * @utc_out: when the sum reaches 1, rounded down to the second; the first moment's when it had before
 *
 * Returns: FALSE when that cannot be told
 */
gboolean
fr_keeping_spoils_utc (const FrKeepingTable *table, double used_ratio, const GArray *forecast,
                       double unknown_c, gint64 *utc_out);

G_END_DECLS
