/* The settings hold window state and appearance and nothing else, with defaults a first start can live with.
 */
#include <gio/gio.h>

static GSettings *
new_settings (void)
{
  return g_settings_new ("org.frostrun.Frostrun");
}

static void
test_keys (void)
{
  static const char *const expected[]
      = { "color-scheme",  "notify-reminders", "page",        "reminders-told", "sidebar-shown",
          "window-height", "window-maximized", "window-width" };
  g_autoptr (GSettings) settings = new_settings ();
  g_autoptr (GSettingsSchema) schema = NULL;

  g_object_get (settings, "settings-schema", &schema, NULL);
  g_auto (GStrv) keys = g_settings_schema_list_keys (schema);
  g_assert_cmpuint (g_strv_length (keys), ==, G_N_ELEMENTS (expected));
  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    g_assert_true (g_strv_contains ((const char *const *)keys, expected[i]));
}

static void
test_defaults (void)
{
  g_autoptr (GSettings) settings = new_settings ();
  g_autofree char *scheme = g_settings_get_string (settings, "color-scheme");
  g_autofree char *page = g_settings_get_string (settings, "page");

  g_assert_cmpstr (scheme, ==, "default");
  g_assert_cmpstr (page, ==, "tonight");
  g_assert_true (g_settings_get_boolean (settings, "sidebar-shown"));
  g_assert_false (g_settings_get_boolean (settings, "window-maximized"));
  g_assert_true (g_settings_get_boolean (settings, "notify-reminders"));
  g_assert_cmpint (g_settings_get_int (settings, "window-width"), ==, 1280);
  g_assert_cmpint (g_settings_get_int (settings, "window-height"), ==, 800);
}

/* Nonsense is refused by the schema, so that a window can never come back with no size. */
static void
test_range (void)
{
  g_autoptr (GSettings) settings = new_settings ();
  g_autoptr (GSettingsSchema) schema = NULL;

  g_object_get (settings, "settings-schema", &schema, NULL);
  g_autoptr (GSettingsSchemaKey) width = g_settings_schema_get_key (schema, "window-width");
  g_autoptr (GSettingsSchemaKey) scheme = g_settings_schema_get_key (schema, "color-scheme");
  g_autoptr (GVariant) none = g_variant_ref_sink (g_variant_new_int32 (0));
  g_autoptr (GVariant) narrow = g_variant_ref_sink (g_variant_new_int32 (360));
  g_autoptr (GVariant) dark = g_variant_ref_sink (g_variant_new_string ("dark"));
  g_autoptr (GVariant) pink = g_variant_ref_sink (g_variant_new_string ("pink"));

  g_assert_false (g_settings_schema_key_range_check (width, none));
  g_assert_true (g_settings_schema_key_range_check (width, narrow));
  g_assert_true (g_settings_schema_key_range_check (scheme, dark));
  g_assert_false (g_settings_schema_key_range_check (scheme, pink));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/settings/keys", test_keys);
  g_test_add_func ("/settings/defaults", test_defaults);
  g_test_add_func ("/settings/range", test_range);
  return g_test_run ();
}
