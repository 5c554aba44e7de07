/* Records: what a household keeps. A kind is described once, by one FrKind; binding to SQL, JSON, equality, difference,
 * checks and editor rows are all driven from that description. A record is a plain struct whose first member is FrRecord.
 *
 * Unknown is NAN for numbers, NULL for text, 0 for references and G_MININT64 for instants; never 0 for a number.
 *
 * A kind of which a book holds more each season without end is a growing one: it is loaded a stretch of time at once. */
#pragma once

#include "domain/units/quantity.h"
#include "domain/units/calendar.h"

G_BEGIN_DECLS

typedef enum
{
  FR_KIND_HOUSEHOLD,
  FR_KIND_CIRCUIT,
  FR_KIND_VESSEL,
  FR_KIND_COOKER,
  FR_KIND_TARIFF,
  FR_KIND_FUEL,
  FR_KIND_NIGHT,
  FR_KIND_TREE,
  FR_KIND_GIRTH,
  FR_KIND_TAP,
  FR_KIND_YIELD,
  FR_KIND_FEATURE,
  FR_KIND_GROUND,
  FR_KIND_TAPPING,
  FR_KIND_CONTAINER,
  FR_KIND_GATHERING,
  FR_KIND_POUR,
  FR_KIND_DIP,
  FR_KIND_DAY,
  FR_KIND_CHORE,
  FR_KIND_DISMISSAL,
  FR_KIND_STORING,
  FR_KIND_STATION,
  FR_KIND_STATION_DAY,
  FR_KIND_OUTLOOK,
  FR_KIND_FORECASTING,
  FR_N_KINDS
} FrKindId;

/* A number in its inner unit with the words it was typed in (NULL when it was not typed). */
typedef struct
{
  double value;
  char *typed;
} FrAmount;

typedef enum
{
  FR_FIELD_TEXT,   /* char * */
  FR_FIELD_CODE,   /* char *, one of codes[] */
  FR_FIELD_AMOUNT, /* FrAmount; SQL: two columns, name and name_typed */
  FR_FIELD_BOOL,   /* gboolean */
  FR_FIELD_TIME,   /* gint64 UTC seconds, G_MININT64 unknown */
  FR_FIELD_DATE,   /* char *, ISO yyyy-mm-dd */
  FR_FIELD_REF     /* gint64 id of a record of ref_kind, 0 none */
} FrFieldType;

/**
 * FrField:
 * @name: column and JSON key; the unit is in the name
 * @min, @max: allowed range in the inner unit, both inclusive, for amounts and instants; for texts @max is the greatest
 *   length in characters
 */
typedef struct
{
  const char *name;
  FrFieldType type;
  FrQuantityKind quantity;
  gsize offset;
  gboolean required;
  double min;
  double max;
  const char *const *codes;
  FrKindId ref_kind;
} FrField;

typedef struct
{
  FrKindId id;
  const char *name;  /* table and JSON name: "vessel" */
  gsize size;
  const FrField *fields;
  guint n_fields;
  const char *label_field; /* what names the record to people */
  gboolean single;         /* a book holds at most one */
  const char *time_field;  /* the instant or date that places the records of a growing kind in time; NULL: not growing */
} FrKind;

typedef struct
{
  const FrKind *kind;
  gint64 id;    /* integer key, 0 before it is given one */
  char uid[33]; /* 128 random bits in hex, made at the edge */
  gboolean archived;
  gint n_holders; /* private: fr_record_hold() */
} FrRecord;

/**
 * FrRecordSpan:
 * A stretch of time, in the two ways in which records are placed in it.
 * @from_utc, @to_utc: instants; the last is not in it
 * @first, @last: days, both in it
 */
typedef struct
{
  gint64 from_utc;
  gint64 to_utc;
  FrDate first;
  FrDate last;
} FrRecordSpan;

typedef enum
{
  FR_PROBLEM_MISSING,
  FR_PROBLEM_NOT_FINITE,
  FR_PROBLEM_BELOW, /* @limit */
  FR_PROBLEM_ABOVE, /* @limit */
  FR_PROBLEM_NOT_A_CODE,
  FR_PROBLEM_BAD_DATE,
  FR_PROBLEM_BAD_TEXT, /* a structured text (table rows, measures, tariff) cannot be read; @line */
  FR_PROBLEM_TOO_LONG,
  FR_PROBLEM_NOT_WHOLE, /* a year or a count with a fraction */
  FR_PROBLEM_CONFLICT /* two fields contradict: @field and @other */
} FrProblemCode;

typedef struct
{
  FrProblemCode code;
  const FrField *field;
  const FrField *other;
  double limit;
  guint line;
} FrProblem;

const FrKind *fr_kind (FrKindId id);
const FrKind *fr_kind_by_name (const char *name);
const FrField *fr_kind_field (const FrKind *kind, const char *name);

FrRecord *fr_record_new (FrKindId kind); /* everything unknown, codes at their first value */
FrRecord *fr_record_copy (const FrRecord *record);
/* One more holder of the same record, which from then on nobody writes to; each lets go by fr_record_free(). */
FrRecord *fr_record_hold (const FrRecord *record);
void fr_record_free (FrRecord *record);
gboolean fr_record_equal (const FrRecord *a, const FrRecord *b); /* same kind, id, uid, archived and all fields */
/* By kind and id alone, for hash tables: the same record, whatever is written in it. */
guint fr_record_hash (gconstpointer record);
gboolean fr_record_is_same (gconstpointer a, gconstpointer b);
/* All problems of a record; an empty array when it may be kept. Elements FrProblem. Free with g_array_unref. */
GArray *fr_record_check (const FrRecord *record);
/* Adds those of one field by itself to an array of FrProblem. */
void fr_record_check_field (GArray *problems, const FrRecord *record, const FrField *field);
/* Whether a record of a growing kind lies in a stretch of time; one of another kind lies in any. */
gboolean fr_record_in_span (const FrRecord *record, const FrRecordSpan *span);
/* What names it to people; "" when nothing does. */
const char *fr_record_label (const FrRecord *record);

/* Typed access by description, for generic code. Setters copy; an empty text becomes NULL, unknown. */
const char *fr_record_text (const FrRecord *record, const FrField *field); /* TEXT, CODE, DATE */
void fr_record_set_text (FrRecord *record, const FrField *field, const char *text);
FrAmount *fr_record_amount (FrRecord *record, const FrField *field);
void fr_record_set_amount (FrRecord *record, const FrField *field, double value, const char *typed);
gint64 fr_record_int (const FrRecord *record, const FrField *field); /* BOOL, TIME, REF */
void fr_record_set_int (FrRecord *record, const FrField *field, gint64 value);

/* Whether both mean the same in that field; how an amount was typed does not count. */
gboolean fr_record_field_equal (const FrRecord *a, const FrRecord *b, const FrField *field);
/* Whether both are the same in it, typed alike too. */
gboolean fr_record_field_same (const FrRecord *a, const FrRecord *b, const FrField *field);
void fr_record_copy_field (FrRecord *to, const FrRecord *from, const FrField *field);

void fr_amount_set (FrAmount *amount, double value, const char *typed);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrRecord, fr_record_free)

G_END_DECLS
