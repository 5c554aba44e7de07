/* What the files of the gathering log share: its rows, and finding the rounds of a day. */
#pragma once

#include "domain/units/zone.h"
#include "models/draft.h"
#include "models/gather-log.h"

G_BEGIN_DECLS

/* What a gathering is of. Two of the same are never in one round. */
typedef struct
{
  FrGatherScope scope;
  gint64 tree;
  gint64 tap;
  char *stand;
} FrGatherTarget;

FrGatherTarget fr_gather_target_of (const FrGathering *gathering); /* borrows */
gboolean fr_gather_target_equal (const FrGatherTarget *a, const FrGatherTarget *b);

/* A row is what was typed over what was there: a record of the book, or the round's defaults. */
struct _FrGatherRow
{
  GObject parent_instance;
  FrBook *book; /* not a reference: the log's */
  FrGatherTarget target;
  char *title;
  char *name_key;
  FrRecord *base; /* id 0: the defaults */
  char *texts[FR_N_GATHER_FIELDS]; /* NULL: as in base */
  char *clarity, *smell;           /* the same */
  FrDraft *draft;                  /* of both, made when needed */
};

FrGatherRow *fr_gather_row_new (FrBook *book, const FrGatherTarget *target);
/* Another base, copied; what was typed stays unless @forget. */
void fr_gather_row_set_base (FrGatherRow *self, const FrRecord *base, gboolean forget);
gboolean fr_gather_row_set_text (FrGatherRow *self, FrGatherField field, const char *text);
void fr_gather_row_choose (FrGatherRow *self, const char *field, const char *code);
void fr_gather_row_forget (FrGatherRow *self);
/* NULL when it cannot be kept; free it. */
FrRecord *fr_gather_row_record (FrGatherRow *self);
void fr_gather_row_tell (FrGatherRow *self);

/* The gatherings of a day in rounds: elements GPtrArray of FrRecord, by time. Borrowed from the book; free the outer array. */
GPtrArray *fr_gather_rounds (FrBook *book, const FrZoneTable *zone, FrDate day);
/* The last gathering of the book before a moment, of a scope or of any (FR_N_GATHER_SCOPES); NULL when there is none. */
const FrGathering *fr_gather_last (FrBook *book, FrGatherScope scope, gint64 before_utc);
/* The gatherings of that scope on the local day of one of them, in the order they were typed. Free it. */
GPtrArray *fr_gather_order_of (FrBook *book, const FrZoneTable *zone, const FrGathering *last);

/* What several gatherings come to, by mass. */
typedef struct
{
  double volume_l;
  double sweet_kg; /* of what has a reading */
  double sugar_kg;
} FrGatherMix;

/* NAN litres are left out, NAN °Bx are not mixed. */
void fr_gather_mix_add (FrGatherMix *mix, double volume_l, double brix);
double fr_gather_mix_brix (const FrGatherMix *mix); /* NAN without a reading */

/* Litres of one gathering, in the bucket it names. */
double fr_gather_volume_l (FrBook *book, const FrGathering *gathering);

/* What can be gathered on a day, one target a row, in no order; free with g_array_unref. */
GArray *fr_gather_targets (FrBook *book, FrGatherScope scope, FrDate day);
/* What it is called. Free it. */
char *fr_gather_target_title (FrBook *book, const FrGatherTarget *target);

struct _FrGatherLog
{
  GObject parent_instance;
  FrBook *book;
  gulong handler;
  FrZoneTable *zone;
  gint64 now_utc;
  FrDate day;

  GPtrArray *rounds;  /* as fr_gather_rounds() */
  guint shown;       /* which of them, or their number for one that is not begun */
  GArray *shown_ids; /* gint64, its gatherings */
  gboolean typed_utc; /* a person said when; else it is now */
  FrGatherScope scope;
  FrGatherOrder order;
  GArray *walk; /* gint64 trees */
  FrRecord *defaults;
  GPtrArray *rows; /* FrGatherRow in order */
};

/* The round shown, or NULL for one that is not begun. */
GPtrArray *fr_gather_log_shown (FrGatherLog *self);
/* gather-log-rows.c: brings the rows to what the book, the round and the defaults are, and tells what differs. */
void fr_gather_log_make_rows (FrGatherLog *self);

G_END_DECLS
