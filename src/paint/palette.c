/* The table of colours, one row a role, one column a theme, and WCAG contrast to check it by. The values are
 * the design's; text and thin lines reach 4.5 against the surface they lie on, shapes that carry meaning 3,
 * and what is below carries no meaning alone. Contrast: W3C, Web Content Accessibility Guidelines 2.1,
 * definitions of relative luminance and contrast ratio; exact for opaque sRGB colours. */
#include "paint/palette.h"

#include <math.h>
#include <string.h>

/* No such surface in this theme. */
#define NONE 0xff000000u

typedef struct
{
  const char *name;
  guint32 rgb[FR_N_THEMES];
} Row;

static const Row rows[FR_N_ROLES] = {
  /* clang-format off */
  [FR_ROLE_INK] = { "ink", { 0x2e2d30, 0xffffff, 0x000000 } },
  [FR_ROLE_INK_SOFT] = { "ink-soft", { 0x5f5d64, 0xc3c1c8, 0x444444 } },
  [FR_ROLE_INK_FAINT] = { "ink-faint", { 0x86848b, 0x9c9aa2, 0x777777 } },
  [FR_ROLE_ACCENT] = { "accent", { 0x17695c, 0x6fcfbc, 0x0f5348 } },
  [FR_ROLE_SAP] = { "sap", { 0x086f8e, 0x6cc6e4, 0x075f7c } },
  [FR_ROLE_CONCENTRATE] = { "concentrate", { 0x946800, 0xe0b243, 0x7a5600 } },
  [FR_ROLE_SYRUP] = { "syrup", { 0x7c3410, 0xe5986a, 0x5f2708 } },
  [FR_ROLE_FREEZE] = { "freeze", { 0x3d4db3, 0x9fabff, 0x2b3890 } },
  [FR_ROLE_THAW] = { "thaw", { 0xb8420f, 0xff9a66, 0x94340a } },
  [FR_ROLE_PRICE_LOW] = { "price-low", { 0xe6e2f1, 0x454055, 0xefedf4 } },
  [FR_ROLE_PRICE_MID] = { "price-mid", { 0xb9aedb, 0x6d609c, 0xc9c2de } },
  [FR_ROLE_PRICE_HIGH] = { "price-high", { 0x6f5aa8, 0xb5a4ea, 0x5b4793 } },
  [FR_ROLE_POWER] = { "power", { 0x4a4458, 0xcfc8dc, 0x33303d } },
  [FR_ROLE_WARNING] = { "warning", { 0x8a4b00, 0xf3cd82, 0x6f3c00 } },
  [FR_ROLE_ERROR] = { "error", { 0xb3101c, 0xff9b94, 0x8f0c16 } },
  [FR_ROLE_TREE_HARD] = { "tree-hard", { 0xa1501a, 0xe79a63, 0x84400f } },
  [FR_ROLE_TREE_SOFT] = { "tree-soft", { 0x8a2f5d, 0xe58fb8, 0x702448 } },
  [FR_ROLE_TREE_OTHER] = { "tree-other", { 0x2b6076, 0x93c4d8, 0x1f4a5c } },
  [FR_ROLE_TREE_NONE] = { "tree-none", { 0x5f6368, 0xb0b3b8, 0x4a4d51 } },
  [FR_ROLE_STAIN] = { "stain", { 0x7a5230, 0xc39a6f, 0x6a4527 } },
  [FR_ROLE_PATH] = { "path", { 0x8f7e4a, 0xa3946a, 0x7a6a3e } },
  [FR_ROLE_BUILDING_EDGE] = { "building-edge", { 0x7d7870, 0x8d8a86, 0x55514b } },
  [FR_ROLE_AXIS] = { "axis", { 0x8c8a87, 0x8c8a91, 0x8a8a8a } },
  [FR_ROLE_GRID] = { "grid", { 0xe6e4e1, 0x474749, 0xd4d4d4 } },
  [FR_ROLE_WINDOW] = { "window", { 0xfafafa, 0x242424, 0xffffff } },
  [FR_ROLE_SIDEBAR] = { "sidebar", { 0xf0efed, 0x2b2b2c, 0xffffff } },
  [FR_ROLE_HEADER_BAR] = { "header-bar", { 0xf6f5f4, 0x303031, 0xffffff } },
  [FR_ROLE_CARD] = { "card", { 0xffffff, 0x363637, 0xffffff } },
  [FR_ROLE_CARD_EDGE] = { "card-edge", { 0xdcdad6, 0x454547, 0xb0b0b0 } },
  [FR_ROLE_ROW_LINE] = { "row-line", { 0xe9e7e4, 0x454547, 0xe0e0e0 } },
  [FR_ROLE_NIGHT] = { "night", { 0xeef0f7, 0x2e303c, 0xf2f3f8 } },
  [FR_ROLE_GROUND] = { "ground", { 0xf1f2ea, 0x2b2e29, 0xffffff } },
  [FR_ROLE_WOOD] = { "wood", { 0xead9c0, 0x4c4234, 0xf6efe2 } },
  [FR_ROLE_BARK] = { "bark", { 0xcdb592, 0x6d5c44, NONE } },
  [FR_ROLE_BUILDING_FILL] = { "building-fill", { 0xb5b0a8, 0x5d5a56, 0xdcdad6 } },
  [FR_ROLE_ACCENT_BG] = { "accent-bg", { 0xdcefea, 0x2b4a45, 0xe3efec } },
  [FR_ROLE_WARNING_BG] = { "warning-bg", { 0xfdf1d8, 0x4a3d22, NONE } },
  [FR_ROLE_ON_ACCENT] = { "on-accent", { 0xffffff, 0x10302a, 0xffffff } },
  [FR_ROLE_ON_PRICE_HIGH] = { "on-price-high", { 0xffffff, 0x1d1830, 0xffffff } },
  [FR_ROLE_BUTTON_RAISED] = { "button-raised", { 0xe7e5e2, 0x444446, NONE } },
  [FR_ROLE_ROW_SELECTED] = { "row-selected", { 0xe2e0dc, 0x48484a, NONE } },
  /* clang-format on */
};

static FrRgba
unpack (guint32 rgb)
{
  if (rgb == NONE)
    return (FrRgba){ 0, 0, 0, 0 };
  return (FrRgba){ (float)((rgb >> 16) & 0xff) / 255.0f, (float)((rgb >> 8) & 0xff) / 255.0f,
                   (float)(rgb & 0xff) / 255.0f, 1.0f };
}

FrRgba
fr_palette_color (const FrPalette *palette, FrRole role)
{
  g_return_val_if_fail (palette != NULL, ((FrRgba){ 0, 0, 0, 1 }));
  g_return_val_if_fail ((guint)role < FR_N_ROLES && (guint)palette->theme < FR_N_THEMES,
                        ((FrRgba){ 0, 0, 0, 1 }));

  if (palette->high_contrast)
    {
      if (role == FR_ROLE_GRID)
        role = FR_ROLE_AXIS;
      else if (role == FR_ROLE_INK_FAINT)
        role = FR_ROLE_INK_SOFT;
    }
  return unpack (rows[role].rgb[palette->theme]);
}

void
fr_palette_set_source (const FrPalette *palette, cairo_t *cr, FrRole role, double alpha_ratio)
{
  FrRgba c = fr_palette_color (palette, role);

  cairo_set_source_rgba (cr, c.red, c.green, c.blue, c.alpha * alpha_ratio);
}

double
fr_palette_hatch_px (const FrPalette *palette)
{
  return palette->high_contrast ? 2.0 : 1.0;
}

double
fr_palette_band_edge_px (const FrPalette *palette)
{
  return palette->high_contrast ? 1.5 : 0.0;
}

FrRgba
fr_rgba_mix (FrRgba from, FrRgba to, double part_ratio)
{
  float p = (float)part_ratio;

  return (FrRgba){ from.red + (to.red - from.red) * p, from.green + (to.green - from.green) * p,
                   from.blue + (to.blue - from.blue) * p, from.alpha + (to.alpha - from.alpha) * p };
}

char *
fr_rgba_hex (FrRgba color)
{
  return g_strdup_printf ("#%02x%02x%02x", (guint)lroundf (color.red * 255.0f),
                          (guint)lroundf (color.green * 255.0f), (guint)lroundf (color.blue * 255.0f));
}

static double
linear (double channel)
{
  return channel <= 0.03928 ? channel / 12.92 : pow ((channel + 0.055) / 1.055, 2.4);
}

static double
luminance (FrRgba c)
{
  return 0.2126 * linear (c.red) + 0.7152 * linear (c.green) + 0.0722 * linear (c.blue);
}

double
fr_contrast_ratio (FrRgba a, FrRgba b)
{
  double la = luminance (a);
  double lb = luminance (b);

  return (MAX (la, lb) + 0.05) / (MIN (la, lb) + 0.05);
}

const char *
fr_role_name (FrRole role)
{
  g_return_val_if_fail ((guint)role < FR_N_ROLES, NULL);
  return rows[role].name;
}

gboolean
fr_role_from_name (const char *name, FrRole *role)
{
  for (guint i = 0; i < FR_N_ROLES; i++)
    if (strcmp (rows[i].name, name) == 0)
      {
        *role = (FrRole)i;
        return TRUE;
      }
  return FALSE;
}
