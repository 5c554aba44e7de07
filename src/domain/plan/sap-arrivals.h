/* Gatherings, containers, pours and looks that arrive from a table, held against those of the book: what becomes of each row, and the one
 * change that brings them in, all of them or none. A table read twice changes nothing the second time.
 *
 * A reader fills FrSapArrivals; fr_sap_arrivals_preview() says what would become of each row; a person may leave rows out and confirm
 * what is asked about; fr_sap_arrivals_change() makes the change once nothing is left open. */
#pragma once

#include "domain/plan/gathering-ask.h"
#include "domain/records/change.h"

G_BEGIN_DECLS

/* --- what a table says --- */

/* What a row names that is a record of its own. */
typedef enum
{
  FR_SAP_NAMES_TREE,
  FR_SAP_NAMES_TAP, /* an identity, or the how-manyeth of the tree's in that season */
  FR_SAP_NAMES_CONTAINER,
  FR_SAP_NAMES_BUCKET,
  FR_SAP_NAMES_TARGET,
  FR_SAP_NAMES_NIGHT, /* an identity, or the evening's date */
  FR_N_SAP_NAMES
} FrSapName;

typedef enum
{
  FR_SAP_FINE,
  /* told by the reader, with @column and @cell */
  FR_SAP_NO_NUMBER,
  FR_SAP_NO_QUANTITY, /* @quantity and @at say why */
  FR_SAP_NO_DATE,
  FR_SAP_NO_TIME,
  FR_SAP_NO_OFFSET,
  FR_SAP_DATELESS,     /* the row has no date */
  FR_SAP_SKIPPED,      /* the clock jumped over it: from @before_utc to @after_utc */
  FR_SAP_NO_CODE,
  FR_SAP_NO_YES,
  FR_SAP_NO_IDENTITY,
  FR_SAP_NO_RECORD,    /* the word for what kind of row it is */
  FR_SAP_TOO_LONG,
  FR_SAP_SAID_TWICE,   /* one thing in two columns */
  FR_SAP_TWO_AMOUNTS,  /* by volume, weight and depth at once */
  FR_SAP_NOT_OF_KIND,  /* such a row has no such column */
  FR_SAP_TOO_WIDE,     /* more cells than columns */
  /* told by the preview */
  FR_SAP_NO_SUCH,      /* nothing of that name: @cell in @column */
  FR_SAP_TWO_SUCH,     /* two of that name */
  FR_SAP_TWICE,        /* the row in @other_line has the same identity, or names the same container */
  FR_SAP_ELSEWHERE,    /* its identity is another kind of record's */
  FR_SAP_NOT_KEPT,     /* @problem */
  FR_N_SAP_REFUSALS
} FrSapRefusal;

/**
 * FrSapArrival:
 * One row.
 * @record: what is said, references and id 0, its uid that of the table or ""; fields not said are as in a new record
 * @said: bit i is set when field i of the kind is said
 * @names: as they stand in the table, NULL not said
 * @column: for a refusal, as the table calls it
 */
typedef struct
{
  guint line;
  FrRecord *record;
  guint64 said;
  char *names[FR_N_SAP_NAMES];
  FrSapRefusal refusal;
  char *column;
  char *cell;
  FrQuantityProblem quantity;
  gsize at;
  FrQuantityKind quantity_kind;
  gint64 before_utc;
  gint64 after_utc;
} FrSapArrival;

/* @remarks: sentences of the reader about what it left aside. */
typedef struct
{
  GPtrArray *rows;    /* FrSapArrival */
  GPtrArray *remarks; /* char * */
} FrSapArrivals;

FrSapArrivals *fr_sap_arrivals_new (void);
void fr_sap_arrivals_free (FrSapArrivals *arrivals);
/* Adds an empty one and gives it, still owned by @arrivals. */
FrSapArrival *fr_sap_arrivals_add (FrSapArrivals *arrivals, guint line, FrKindId kind);
void fr_sap_arrival_say (FrSapArrival *arrival, const FrField *field);
/* Refuses a row for what stands in a column; the first reason stays. */
void fr_sap_arrival_refuse (FrSapArrival *arrival, FrSapRefusal refusal, const char *column, const char *cell);
/* Whether any row is of that kind. */
gboolean fr_sap_arrivals_have (const FrSapArrivals *arrivals, FrKindId kind);
/* The first and last instant that rows speak of; FALSE when none does. */
gboolean fr_sap_arrivals_span (const FrSapArrivals *arrivals, gint64 *from_out, gint64 *to_out);

/* --- what would become of it --- */

typedef enum
{
  FR_SAP_NEW,
  FR_SAP_CHANGES, /* a record of the book, by its identity (a container also by its name), gains or changes something */
  FR_SAP_SAME,    /* there already */
  FR_SAP_ASKED,   /* new or changing, and asked about: comes in when it is confirmed */
  FR_SAP_REFUSED, /* cannot be kept */
  FR_N_SAP_FATES
} FrSapFate;

/**
 * FrSapArrivalRow:
 * @arrival: borrowed
 * @before: of the book, borrowed; NULL for a new one
 * @after: as it would be kept; NULL when refused
 * @refusal, @name: why it is refused, and which name if it is one
 * @n_fields: how many fields change
 * @questions: FrQuestion
 * @left_out, @confirmed: a person may set these before the change is made
 */
typedef struct
{
  FrSapFate fate;
  const FrSapArrival *arrival;
  const FrRecord *before;
  FrRecord *after;
  FrSapRefusal refusal;
  FrSapName name;
  guint other_line;
  FrProblem problem;
  guint n_fields;
  GArray *questions;
  gboolean left_out;
  gboolean confirmed;
} FrSapArrivalRow;

typedef struct
{
  GPtrArray *rows; /* FrSapArrivalRow, in the table's order */
  guint n[FR_N_SAP_FATES];
} FrSapArrivalPreview;

/* @book: gatherings, pours and looks of every season that the table speaks of, archived ones too. @next_ids: the next free id of each
 * kind. Borrows everything. Never NULL. */
FrSapArrivalPreview *fr_sap_arrivals_preview (const FrSapArrivals *arrivals, const FrSeasonBook *book,
                                              const gint64 next_ids[FR_N_KINDS], gint64 now_utc);
void fr_sap_arrival_preview_free (FrSapArrivalPreview *preview);

/* Rows that keep everything out: refused, or asked about and not confirmed; those left out do not count. */
guint fr_sap_arrivals_n_open (const FrSapArrivalPreview *preview);
/* Rows that would come in or change something. */
guint fr_sap_arrivals_n_wanted (const FrSapArrivalPreview *preview);

/* @label: "import-gatherings", "import-stock" or "paste-gatherings"; @subject: what it was read from, or NULL. NULL while a row is open;
 * empty when there is nothing to do. */
FrChange *fr_sap_arrivals_change (const FrSapArrivalPreview *preview, const char *label, const char *subject,
                                  void (*new_uid) (char uid_out[33]));

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrSapArrivals, fr_sap_arrivals_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrSapArrivalPreview, fr_sap_arrival_preview_free)

G_END_DECLS
