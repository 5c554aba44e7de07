/* Window state and appearance. GSettings aborts when a schema is missing, so it is looked up first: a copy
 * run from its build folder then still opens. */
#include "models/settings.h"

#define SCHEMA "org.frostrun.Frostrun"

GSettings *
fr_settings_new (void)
{
  static const char *const keys[] = { FR_SETTINGS_WIDTH,   FR_SETTINGS_HEIGHT, FR_SETTINGS_MAXIMIZED,
                                      FR_SETTINGS_SIDEBAR, FR_SETTINGS_PAGE,   FR_SETTINGS_COLOR_SCHEME,
                                      FR_SETTINGS_NOTIFY, FR_SETTINGS_REMINDERS_TOLD };
  GSettingsSchemaSource *source = g_settings_schema_source_get_default ();
  g_autoptr (GSettingsSchema) schema = NULL;

  if (source != NULL)
    schema = g_settings_schema_source_lookup (source, SCHEMA, TRUE);
  if (schema == NULL)
    return NULL;
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    if (!g_settings_schema_has_key (schema, keys[i])) /* an older copy is installed */
      return NULL;
  return g_settings_new_full (schema, NULL, NULL);
}
