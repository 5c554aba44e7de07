/* The style sheets name the colours of the palette by role; here each is compared with the palette's own
 * value. */
#include <gio/gio.h>

#include "paint/palette.h"

static void
check (const char *file, FrTheme theme)
{
  g_autofree char *path = g_strconcat ("/org/frostrun/Frostrun/", file, NULL);
  g_autoptr (GBytes) bytes = g_resources_lookup_data (path, 0, NULL);
  g_auto (GStrv) lines = NULL;
  FrPalette palette = { .theme = theme };
  guint n = 0;

  g_assert_nonnull (bytes);
  lines = g_strsplit (g_bytes_get_data (bytes, NULL), "\n", -1);
  for (guint i = 0; lines[i] != NULL; i++)
    {
      g_auto (GStrv) words = g_strsplit (lines[i], " ", -1);
      g_autofree char *name = NULL;
      g_autofree char *hex = NULL;
      g_autofree char *written = NULL;
      FrRole role;

      if (!g_str_has_prefix (lines[i], "@define-color fr_"))
        continue;
      name = g_strdelimit (g_strdup (words[1] + 3), "_", '-');
      g_test_message ("%s: %s", file, name);
      g_assert_true (fr_role_from_name (name, &role));
      hex = fr_rgba_hex (fr_palette_color (&palette, role));
      written = g_strconcat (hex, ";", NULL);
      g_assert_cmpstr (words[2], ==, written);
      n++;
    }
  g_assert_cmpuint (n, >=, 15);
}

static void
test_light (void)
{
  check ("style.css", FR_THEME_LIGHT);
}

static void
test_dark (void)
{
  check ("style-dark.css", FR_THEME_DARK);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/style/light", test_light);
  g_test_add_func ("/style/dark", test_dark);
  return g_test_run ();
}
