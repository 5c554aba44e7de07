/* Recomputes the contrast of every colour role against the surfaces it lies on (tests/tables/contrast.csv,
 * where the sources are named) and holds the floors for text and for shapes. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "paint/palette.h"

static const char *theme_names[FR_N_THEMES] = { "light", "dark", "paper" };

typedef struct
{
  FrTheme theme;
  FrRole fore;
  FrRole back;
  double ratio;
  double floor;
} Pair;

static void
test_pair (gconstpointer data)
{
  const Pair *p = data;
  FrPalette palette = { p->theme, FALSE };
  FrRgba fore = fr_palette_color (&palette, p->fore);
  FrRgba back = fr_palette_color (&palette, p->back);

  /* Paper has no warning background: the words lie on the sheet. */
  if (back.alpha == 0)
    back = fr_palette_color (&palette, FR_ROLE_CARD);
  double got = fr_contrast_ratio (fore, back);
  /* 0.1 as stated, and half a unit of the last printed digit is inside it. */
  if (fabs (got - p->ratio) > 0.1 + 1e-9)
    g_test_fail_printf ("%s on %s: %.3f, the table says %.1f", fr_role_name (p->fore), fr_role_name (p->back),
                        got, p->ratio);
  if (got < p->floor)
    g_test_fail_printf ("%s on %s: %.3f is under the floor of %.1f", fr_role_name (p->fore),
                        fr_role_name (p->back), got, p->floor);
}

static void
add_pairs (void)
{
  g_autofree char *path = g_build_filename (g_getenv ("G_TEST_SRCDIR"), "tables", "contrast.csv", NULL);
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;
  guint n = 0;

  if (!g_file_get_contents (path, &text, NULL, &error))
    g_error ("%s", error->message);
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  for (guint i = 0; lines[i] != NULL; i++)
    {
      if (lines[i][0] == '#' || lines[i][0] == '\0' || g_str_has_prefix (lines[i], "theme,"))
        continue;
      g_auto (GStrv) cells = g_strsplit (lines[i], ",", -1);
      g_assert_cmpuint (g_strv_length (cells), ==, 5);
      Pair *p = g_new0 (Pair, 1);
      gboolean known = FALSE;
      for (guint t = 0; t < FR_N_THEMES; t++)
        if (strcmp (cells[0], theme_names[t]) == 0)
          {
            p->theme = (FrTheme)t;
            known = TRUE;
          }
      if (!known || !fr_role_from_name (cells[1], &p->fore) || !fr_role_from_name (cells[2], &p->back))
        g_error ("unknown name in: %s", lines[i]);
      p->ratio = g_ascii_strtod (cells[3], NULL);
      p->floor = g_ascii_strtod (cells[4], NULL);
      g_autofree char *name = g_strdup_printf ("/palette/contrast/%s/%s-on-%s", cells[0], cells[1], cells[2]);
      g_test_add_data_func_full (name, p, test_pair, g_free);
      n++;
    }
  /* 24 roles on card and 21 pairs elsewhere, three themes each. */
  g_assert_cmpuint (n, ==, 135);
}

/* The ends of the scale: black on white is 21 and a colour on itself 1, by definition (WCAG 2.1); #767676 on
 * white is the well-known lightest grey that reaches 4.5 (WebAIM: 4.54, from memory). */
static void
test_formula (void)
{
  FrRgba black = { 0, 0, 0, 1 };
  FrRgba white = { 1, 1, 1, 1 };
  FrRgba grey = { 0x76 / 255.0f, 0x76 / 255.0f, 0x76 / 255.0f, 1 };

  g_assert_cmpfloat_with_epsilon (fr_contrast_ratio (black, white), 21.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (fr_contrast_ratio (white, black), 21.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (fr_contrast_ratio (grey, grey), 1.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (fr_contrast_ratio (grey, white), 4.54, 0.01);
}

static void
test_high_contrast (void)
{
  for (guint t = 0; t < FR_N_THEMES; t++)
    {
      FrPalette plain = { (FrTheme)t, FALSE };
      FrPalette strong = { (FrTheme)t, TRUE };
      FrRgba card = fr_palette_color (&strong, FR_ROLE_CARD);

      /* Once asked for, nothing that is text or line may be under 3. */
      g_assert_cmpfloat (fr_contrast_ratio (fr_palette_color (&strong, FR_ROLE_GRID), card), >=, 3.0);
      g_assert_cmpfloat (fr_contrast_ratio (fr_palette_color (&strong, FR_ROLE_INK_FAINT), card), >=, 4.5);
      g_assert_cmpfloat (fr_palette_hatch_px (&strong), ==, 2 * fr_palette_hatch_px (&plain));
      g_assert_cmpfloat (fr_palette_band_edge_px (&strong), ==, 1.5);
      g_assert_cmpfloat (fr_palette_band_edge_px (&plain), ==, 0.0);
    }
}

static void
test_names (void)
{
  FrRole role;

  for (guint i = 0; i < FR_N_ROLES; i++)
    {
      g_assert_nonnull (fr_role_name ((FrRole)i));
      g_assert_true (fr_role_from_name (fr_role_name ((FrRole)i), &role));
      g_assert_cmpuint (role, ==, i);
    }
  g_assert_false (fr_role_from_name ("crimson", &role));
}

static void
test_hex (void)
{
  FrPalette light = { FR_THEME_LIGHT, FALSE };
  FrPalette paper = { FR_THEME_PAPER, FALSE };
  g_autofree char *hex = fr_rgba_hex (fr_palette_color (&light, FR_ROLE_ACCENT));

  g_assert_cmpstr (hex, ==, "#17695c");
  g_assert_cmpfloat (fr_palette_color (&paper, FR_ROLE_WARNING_BG).alpha, ==, 0);
  g_assert_cmpfloat (fr_palette_color (&paper, FR_ROLE_CARD).alpha, ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/palette/formula", test_formula);
  g_test_add_func ("/palette/high-contrast", test_high_contrast);
  g_test_add_func ("/palette/names", test_names);
  g_test_add_func ("/palette/hex", test_hex);
  add_pairs ();
  return g_test_run ();
}
