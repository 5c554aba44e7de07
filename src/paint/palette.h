/* Colours by role. Every painter and the style sheet ask for a role, never for a value, so that a chart is
 * the same chart on the screen, in the dark and on paper. */
#pragma once

#include <cairo.h>
#include <glib.h>

typedef enum
{
  FR_THEME_LIGHT,
  FR_THEME_DARK,
  FR_THEME_PAPER,
  FR_N_THEMES
} FrTheme;

typedef enum
{
  /* Marks and text. */
  FR_ROLE_INK,
  FR_ROLE_INK_SOFT,
  FR_ROLE_INK_FAINT,
  FR_ROLE_ACCENT,
  FR_ROLE_SAP,
  FR_ROLE_CONCENTRATE,
  FR_ROLE_SYRUP,
  FR_ROLE_FREEZE,
  FR_ROLE_THAW,
  FR_ROLE_PRICE_LOW,
  FR_ROLE_PRICE_MID,
  FR_ROLE_PRICE_HIGH,
  FR_ROLE_POWER,
  FR_ROLE_WARNING,
  FR_ROLE_ERROR,
  FR_ROLE_TREE_HARD,
  FR_ROLE_TREE_SOFT,
  FR_ROLE_TREE_OTHER,
  FR_ROLE_TREE_NONE,
  FR_ROLE_STAIN,
  FR_ROLE_PATH,
  FR_ROLE_BUILDING_EDGE,
  FR_ROLE_AXIS,
  FR_ROLE_GRID,
  /* Surfaces, and text on coloured surfaces. */
  FR_ROLE_WINDOW,
  FR_ROLE_SIDEBAR,
  FR_ROLE_HEADER_BAR,
  FR_ROLE_CARD,
  FR_ROLE_CARD_EDGE,
  FR_ROLE_ROW_LINE,
  FR_ROLE_NIGHT,
  FR_ROLE_GROUND,
  FR_ROLE_WOOD,
  FR_ROLE_BARK,
  FR_ROLE_BUILDING_FILL,
  FR_ROLE_ACCENT_BG,
  FR_ROLE_WARNING_BG,
  FR_ROLE_ON_ACCENT,
  FR_ROLE_ON_PRICE_HIGH,
  FR_ROLE_BUTTON_RAISED,
  FR_ROLE_ROW_SELECTED,
  FR_N_ROLES
} FrRole;

/**
 * FrRgba:
 * Channels 0 to 1, not premultiplied, in sRGB; laid out as GTK's own colour. A surface that a theme does not
 * have (the warning background on paper) is wholly transparent.
 */
typedef struct
{
  float red;
  float green;
  float blue;
  float alpha;
} FrRgba;

/**
 * FrPalette:
 * @theme: which column of the table
 * @high_contrast: the desktop asks for more contrast: the grid becomes as strong as the axis, faint as strong
 * as soft, bands get an edge and hatches double weight
 */
typedef struct
{
  FrTheme theme;
  gboolean high_contrast;
} FrPalette;

/**
 * fr_palette_color:
 * The colour of @role. Never fails; a role past the table is a programmer's mistake.
 */
FrRgba
fr_palette_color (const FrPalette *palette, FrRole role);

/**
 * fr_palette_set_source:
 * Makes @role the source of @cr, its own alpha times @alpha_ratio (0 to 1).
 */
void
fr_palette_set_source (const FrPalette *palette, cairo_t *cr, FrRole role, double alpha_ratio);

/**
 * fr_palette_hatch_px:
 * Width of a hatch line: 1 px, or 2 px in high contrast.
 */
double
fr_palette_hatch_px (const FrPalette *palette);

/**
 * fr_palette_band_edge_px:
 * Width of the edge round a tinted band: 0 (none), or 1.5 px in high contrast.
 */
double
fr_palette_band_edge_px (const FrPalette *palette);

/**
 * fr_rgba_mix:
 * The colour @part_ratio of the way from @from to @to, channel by channel.
 */
FrRgba
fr_rgba_mix (FrRgba from, FrRgba to, double part_ratio);

/**
 * fr_rgba_hex:
 * "#rrggbb", for a style sheet; alpha is left out. Caller frees.
 */
char *
fr_rgba_hex (FrRgba color);

/**
 * fr_contrast_ratio:
 * WCAG 2.1 contrast of two opaque colours, 1 to 21, in either order.
 */
double
fr_contrast_ratio (FrRgba a, FrRgba b);

/**
 * fr_role_name:
 * The role's stable name, as "ink-soft".
 */
const char *
fr_role_name (FrRole role);

/**
 * fr_role_from_name:
 * Returns: TRUE and the role, or FALSE if no role has that name
 */
gboolean
fr_role_from_name (const char *name, FrRole *role);
