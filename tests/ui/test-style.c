/* The style sheets name the colours of the palette by role; here each is compared with the palette's own
 * value. */
#include <gio/gio.h>

#include "paint/palette.h"

/* What the high-contrast sheets put in a role's place, beyond what the palette changes by itself: edges are
 * as strong as axes, soft text as strong as ink. */
static FrRole
stronger (FrRole role)
{
  switch (role)
    {
    case FR_ROLE_CARD_EDGE:
    case FR_ROLE_ROW_LINE:
      return FR_ROLE_AXIS;
    case FR_ROLE_INK_SOFT:
      return FR_ROLE_INK;
    default:
      return role;
    }
}

static void
check (const char *file, FrTheme theme, gboolean high_contrast, guint least)
{
  g_autofree char *path = g_strconcat ("/org/frostrun/Frostrun/", file, NULL);
  g_autoptr (GBytes) bytes = g_resources_lookup_data (path, 0, NULL);
  g_auto (GStrv) lines = NULL;
  FrPalette palette = { theme, high_contrast };
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
      if (high_contrast)
        role = stronger (role);
      hex = fr_rgba_hex (fr_palette_color (&palette, role));
      written = g_strconcat (hex, ";", NULL);
      g_assert_cmpstr (words[2], ==, written);
      n++;
    }
  g_assert_cmpuint (n, >=, least);
}

static void
test_light (void)
{
  check ("style.css", FR_THEME_LIGHT, FALSE, 15);
}

static void
test_dark (void)
{
  check ("style-dark.css", FR_THEME_DARK, FALSE, 15);
}

static void
test_light_high_contrast (void)
{
  check ("style-hc.css", FR_THEME_LIGHT, TRUE, 4);
}

static void
test_dark_high_contrast (void)
{
  check ("style-hc-dark.css", FR_THEME_DARK, TRUE, 4);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/style/light", test_light);
  g_test_add_func ("/style/dark", test_dark);
  g_test_add_func ("/style/light-high-contrast", test_light_high_contrast);
  g_test_add_func ("/style/dark-high-contrast", test_dark_high_contrast);
  return g_test_run ();
}
