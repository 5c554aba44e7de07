/* One record in a GObject. The properties are the few that list rows bind to; everything else is read from
 * the record itself. */
#include "models/record-object.h"

struct _FrRecordObject
{
  GObject parent_instance;
  FrRecord *record;
};

enum
{
  PROP_0,
  PROP_ID,
  PROP_LABEL,
  PROP_ARCHIVED,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (FrRecordObject, fr_record_object, G_TYPE_OBJECT)

static void
fr_record_object_finalize (GObject *object)
{
  FrRecordObject *self = FR_RECORD_OBJECT (object);

  g_clear_pointer (&self->record, fr_record_free);
  G_OBJECT_CLASS (fr_record_object_parent_class)->finalize (object);
}

static void
fr_record_object_get_property (GObject *object, guint prop_id, GValue *value, GParamSpec *pspec)
{
  FrRecordObject *self = FR_RECORD_OBJECT (object);

  switch (prop_id)
    {
    case PROP_ID:
      g_value_set_int64 (value, self->record->id);
      break;
    case PROP_LABEL:
      g_value_set_string (value, fr_record_label (self->record));
      break;
    case PROP_ARCHIVED:
      g_value_set_boolean (value, self->record->archived);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
fr_record_object_class_init (FrRecordObjectClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->finalize = fr_record_object_finalize;
  object_class->get_property = fr_record_object_get_property;

  properties[PROP_ID]
      = g_param_spec_int64 ("id", NULL, NULL, 0, G_MAXINT64, 0, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  properties[PROP_LABEL]
      = g_param_spec_string ("label", NULL, NULL, NULL, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  properties[PROP_ARCHIVED]
      = g_param_spec_boolean ("archived", NULL, NULL, FALSE, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
}

static void
fr_record_object_init (FrRecordObject *self)
{
}

FrRecordObject *
fr_record_object_new (const FrRecord *record)
{
  g_return_val_if_fail (record != NULL, NULL);

  FrRecordObject *self = g_object_new (FR_TYPE_RECORD_OBJECT, NULL);
  self->record = fr_record_hold (record);
  return self;
}

const FrRecord *
fr_record_object_get_record (FrRecordObject *self)
{
  g_return_val_if_fail (FR_IS_RECORD_OBJECT (self), NULL);
  return self->record;
}
