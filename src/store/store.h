/* The room's door: one SQLite file, opened, loaded and changed here only.
 *
 * STRICT tables, foreign keys, WAL, user_version migrations from numbered SQL scripts, a backup beside the book before a
 * migration, newer files refused. Every change goes through fr_store_apply in one transaction with a diary row. Errors are
 * GErrors of FR_STORE_ERROR with a sentence a person can use (translatable by gettext's dgettext at the caller is not
 * needed: messages go through g_dgettext with the project's domain). */
#pragma once

#include "domain/records/change.h"

G_BEGIN_DECLS

#define FR_STORE_ERROR (fr_store_error_quark ())
GQuark fr_store_error_quark (void);

typedef enum
{
  FR_STORE_ERROR_CANNOT_OPEN,  /* missing folder, no permission, not a file */
  FR_STORE_ERROR_NOT_A_BOOK,   /* another kind of file, or damaged */
  FR_STORE_ERROR_NEWER,        /* made by a newer version */
  FR_STORE_ERROR_READ_ONLY,
  FR_STORE_ERROR_FULL,         /* disk full */
  FR_STORE_ERROR_BUSY,         /* another program holds it too long */
  FR_STORE_ERROR_CONFLICT,     /* a before-image no longer equals what is stored */
  FR_STORE_ERROR_REFUSED,      /* a record fails its check, or is still referred to */
  FR_STORE_ERROR_FAILED
} FrStoreError;

typedef enum
{
  FR_ORIGIN_WINDOW,
  FR_ORIGIN_CLI,
  FR_ORIGIN_IMPORT,
  FR_ORIGIN_DEMO
} FrOrigin;

typedef struct _FrStore FrStore;

/* @create: make the file (and its folder) when missing. ":memory:" is a book in memory. */
FrStore *fr_store_open (const char *path, gboolean create, GError **error);
void fr_store_close (FrStore *store);
const char *fr_store_path (const FrStore *store);
/* All records of a kind by id, archived ones too. Elements FrRecord, owned by the array. */
GPtrArray *fr_store_load (FrStore *store, FrKindId kind, GError **error);
/* Of a growing kind (FrKind.time_field) those that lie in a stretch of time, by id. */
GPtrArray *fr_store_load_span (FrStore *store, FrKindId kind, const FrRecordSpan *span, GError **error);
/* One record after the other; it is filled anew for the next. */
typedef void (*FrStoreEach) (const FrRecord *record, gpointer user_data);
/* Shows those of a stretch of time in its order, then by id, one at a time and with some fields alone: names that end
 * in NULL; the others are unknown, as is the uid. For sums over more than is held. */
gboolean fr_store_each (FrStore *store, FrKindId kind, const FrRecordSpan *span, const char *const *fields,
                        FrStoreEach each, gpointer user_data, GError **error);
/* What is stored under an id; TRUE and NULL when nothing is. */
gboolean fr_store_find (FrStore *store, FrKindId kind, gint64 id, FrRecord **record_out, GError **error);
/* Whether a record of kind @by refers to the record @id of kind @to. */
gboolean fr_store_refers (FrStore *store, FrKindId by, FrKindId to, gint64 id, gboolean *refers_out,
                          GError **error);
/* The next free id of a kind; add 1 for each further new record of the same change. */
gint64 fr_store_next_id (FrStore *store, FrKindId kind, GError **error);
/* The one door. Checks every before-image, every after-image's fr_record_check, writes, and adds a diary row. */
gboolean fr_store_apply (FrStore *store, const FrChange *change, FrOrigin origin, gint64 now_utc, GError **error);
/* PRAGMA data_version: moves when another connection has written. */
gint64 fr_store_data_version (FrStore *store);

/* One row of the diary, newest first. */
typedef struct
{
  gint64 utc_s;
  char *label;
  char *subject;
  char *origin;
} FrDiaryRow;
GPtrArray *fr_store_diary (FrStore *store, guint limit, GError **error);

/**
 * fr_store_last_changes:
 * @row: (inout): the last row of the diary that was read; 0 for all of it
 * @utc_inout: (array length=FR_N_KINDS): when a record of the kind was last changed, G_MININT64 never
 *
 * Reads the diary on from @row. A record that was taken back has changed too.
 */
gboolean fr_store_last_changes (FrStore *store, gint64 *row, gint64 *utc_inout, GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrStore, fr_store_close)

G_END_DECLS
