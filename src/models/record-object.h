/* One record in a GObject, so that lists and templates can hold it. The object never changes: an edit puts a
 * new object in the list, so whoever still holds the old one sees what was. */
#pragma once

#include <glib-object.h>

#include "domain/records/record.h"

G_BEGIN_DECLS

#define FR_TYPE_RECORD_OBJECT (fr_record_object_get_type ())
G_DECLARE_FINAL_TYPE (FrRecordObject, fr_record_object, FR, RECORD_OBJECT, GObject)

/**
 * fr_record_object_new:
 * @record: is held, so nobody may write to it from now on
 */
FrRecordObject *
fr_record_object_new (const FrRecord *record);

/**
 * fr_record_object_get_record:
 *
 * Returns: the record, owned by @self and valid as long as it lives
 */
const FrRecord *
fr_record_object_get_record (FrRecordObject *self);

G_END_DECLS
