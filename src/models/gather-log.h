/* The log of one round of gathering: a row for each tree, tap or group, or one for the whole bush, in the order a person walks, with
 * what was typed and what of it is in the book. Nothing here writes: a row that is left gives its change, which the page applies.
 *
 * Each row is a change of its own. A household types with wet hands and is called away; what was left is kept then, and one undo takes
 * back one tree. A row that the book would refuse, or that is asked about, stays as typed until it is put right or confirmed.
 *
 * A round is what was gathered on one day without a pause of over two hours and without the same tree twice. A day has any number.
 *
 * Signals:
 * - "rows-changed" (): other rows, or another order
 * - "changed" (): the defaults, the round or what the rows come to differ; rows tell their own */
#pragma once

#include "domain/units/zone.h"
#include "models/book.h"

G_BEGIN_DECLS

typedef enum
{
  FR_GATHER_BUSH,
  FR_GATHER_GROUP,
  FR_GATHER_TREE,
  FR_GATHER_TAP,
  FR_N_GATHER_SCOPES
} FrGatherScope;

typedef enum
{
  FR_GATHER_AS_LAST, /* as the round before was typed; the rest in walking order */
  FR_GATHER_ROUND,   /* in walking order, as the printed sheet */
  FR_GATHER_NAME,
  FR_N_GATHER_ORDERS
} FrGatherOrder;

/* What is typed into a row. */
typedef enum
{
  FR_GATHER_AMOUNT, /* volume, weight or depth, as the row's gathering says */
  FR_GATHER_SUGAR,
  FR_GATHER_SAMPLE_C,
  FR_GATHER_ICE_L,
  FR_GATHER_ICE_BRIX,
  FR_GATHER_NOTE,
  FR_N_GATHER_FIELDS
} FrGatherField;

#define FR_TYPE_GATHER_ROW (fr_gather_row_get_type ())
G_DECLARE_FINAL_TYPE (FrGatherRow, fr_gather_row, FR, GATHER_ROW, GObject)

/* Signal "changed" (): values, problems or whether it is in the book differ. */

/* What it is called: the tree's name, "Gate · 2" for a tap, the group, or the whole bush. */
const char *fr_gather_row_get_title (FrGatherRow *self);
/* The gathering as it would be kept; unread entries keep what was there. Valid until the next "changed". */
const FrGathering *fr_gather_row_get (FrGatherRow *self);
/* Its number in the book, 0 while it is not there. */
gint64 fr_gather_row_get_id (FrGatherRow *self);
/* Which field of the record an entry is. */
const FrField *fr_gather_row_field (FrGatherRow *self, FrGatherField field);
/* What stands in an entry to be edited; free it. */
char *fr_gather_row_text (FrGatherRow *self, FrGatherField field, const FrUnits *units);
/* Why an entry cannot be kept, free it; NULL when nothing is wrong. An amount that is still missing is wrong only in a row that was
 * begun. */
char *fr_gather_row_problem (FrGatherRow *self, FrGatherField field, const FrUnits *units);
/* Whether something was typed that is not in the book. */
gboolean fr_gather_row_is_begun (FrGatherRow *self);
/* Litres and true °Bx as they would be kept; NAN unknown. */
double fr_gather_row_volume_l (FrGatherRow *self);
double fr_gather_row_brix (FrGatherRow *self);

#define FR_TYPE_GATHER_LOG (fr_gather_log_get_type ())
G_DECLARE_FINAL_TYPE (FrGatherLog, fr_gather_log, FR, GATHER_LOG, GObject)

/* @zone is copied; NULL is UTC. @now_utc: the moment the window stands at. */
FrGatherLog *fr_gather_log_new (FrBook *book, const FrZoneTable *zone, gint64 now_utc);
FrBook *fr_gather_log_get_book (FrGatherLog *self);
/* The clock moved, or the zone: a round that was not begun takes the new moment. */
void fr_gather_log_set_now (FrGatherLog *self, const FrZoneTable *zone, gint64 now_utc);

/* The day shown, and the rounds it has; the latest is shown first, or a new one. */
FrDate fr_gather_log_get_day (FrGatherLog *self);
void fr_gather_log_set_day (FrGatherLog *self, FrDate day);
guint fr_gather_log_n_rounds (FrGatherLog *self);
/* When the round began, and how many gatherings it has. */
gint64 fr_gather_log_round_utc (FrGatherLog *self, guint nth, guint *n_out);
/* The one shown; fr_gather_log_n_rounds() for one that is not begun. What was typed into rows and not kept goes with another. */
guint fr_gather_log_get_round (FrGatherLog *self);
void fr_gather_log_set_round (FrGatherLog *self, guint nth);

FrGatherScope fr_gather_log_get_scope (FrGatherLog *self);
void fr_gather_log_set_scope (FrGatherLog *self, FrGatherScope scope);
FrGatherOrder fr_gather_log_get_order (FrGatherLog *self);
void fr_gather_log_set_order (FrGatherLog *self, FrGatherOrder order);
/* The trees in walking order, as far as it is known. */
void fr_gather_log_set_walk (FrGatherLog *self, const gint64 *trees, guint n);

/* What every row that is not in the book yet begins with: when, into which container, who, with what it is measured and read, and how
 * the sap is; of what and how much is not looked at. Another day in it shows that day. */
const FrGathering *fr_gather_log_get_defaults (FrGatherLog *self);
void fr_gather_log_set_defaults (FrGatherLog *self, const FrGathering *defaults);

guint fr_gather_log_n_rows (FrGatherLog *self);
FrGatherRow *fr_gather_log_row (FrGatherLog *self, guint nth);
/* A person's text of one entry of a row, and what is chosen in it. */
void fr_gather_log_type_row (FrGatherLog *self, FrGatherRow *row, FrGatherField field, const char *text);
void fr_gather_log_choose_row (FrGatherLog *self, FrGatherRow *row, const char *field, const char *code);
/* Back to what the book holds, or to nothing. */
void fr_gather_log_restore_row (FrGatherLog *self, FrGatherRow *row);

/* The row as it is to be kept, with the defaults where it has nothing of its own: a new record without an id, or the edited one; free
 * it. NULL when nothing was typed or something in it cannot be read or kept. */
FrRecord *fr_gather_log_record (FrGatherLog *self, FrGatherRow *row);

/* What the round comes to, rows in the book and rows typed. */
typedef struct
{
  guint n_rows;
  guint n_kept;     /* in the book */
  guint n_begun;    /* typed, not in the book */
  double volume_l;  /* in the book; 0 for none */
  double sugar_kg;  /* of what has a reading; NAN when nothing has */
  double brix;      /* of that */
} FrGatherSum;

FrGatherSum fr_gather_log_sum (FrGatherLog *self);

/* A round of a day, for a list: when it began, how many were written down, what they come to (as in FrGatherSum), the ice thrown out; the
 * scope all have, FR_N_GATHER_SCOPES when they differ; @only: what a single one is of, else NULL. */
typedef struct
{
  gint64 from_utc;
  guint n;
  FrGatherScope scope;
  char *only;
  double volume_l;
  double brix;
  double ice_l;
} FrGatherRound;

/* Elements FrGatherRound by time; free with g_array_unref. */
GArray *fr_gather_day_rounds (FrBook *book, const FrZoneTable *zone, FrDate day);

G_END_DECLS
