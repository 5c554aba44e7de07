/* Records of one kind as a GListModel, sorted by id. Each change of the list tells exactly which rows
 * changed, so that views keep selection, focus and scroll place. Items are FrRecordObject. */
#pragma once

#include <gio/gio.h>

#include "models/record-object.h"

G_BEGIN_DECLS

#define FR_TYPE_RECORD_LIST (fr_record_list_get_type ())
G_DECLARE_FINAL_TYPE (FrRecordList, fr_record_list, FR, RECORD_LIST, GObject)

FrRecordList *
fr_record_list_new (FrKindId kind);
FrKindId
fr_record_list_get_kind (FrRecordList *self);

/* Makes the list hold just @records (elements FrRecord, by rising id), telling only the rows that differ, a run
 * of neighbours at once. The records are held, so nobody may write to them from now on. */
void
fr_record_list_load (FrRecordList *self, GPtrArray *records);

/* Adds a copy of the record, or puts it in the place of the one with the same id. */
void
fr_record_list_put (FrRecordList *self, const FrRecord *record);

/* Takes the record with @id out; nothing happens when there is none. */
void
fr_record_list_remove (FrRecordList *self, gint64 id);

/* The record with @id, or NULL. Valid until the list changes. */
const FrRecord *
fr_record_list_find (FrRecordList *self, gint64 id);

guint
fr_record_list_get_size (FrRecordList *self);
const FrRecord *
fr_record_list_get (FrRecordList *self, guint position);

/**
 * fr_record_list_get_records:
 *
 * Returns: (transfer none): what the list holds now, elements FrRecord; the same array until the list changes,
 * and as it is for whoever holds it by g_ptr_array_ref() beyond that
 */
GPtrArray *
fr_record_list_get_records (FrRecordList *self);

G_END_DECLS
