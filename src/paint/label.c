/* The list of drawn texts, and the measure of the reader's text size. */
#include "paint/label.h"

#include <string.h>

static void
box_clear (gpointer data)
{
  FrLabelBox *box = data;

  g_free (box->text);
}

GArray *
fr_label_list_new (void)
{
  GArray *list = g_array_new (FALSE, FALSE, sizeof (FrLabelBox));

  g_array_set_clear_func (list, box_clear);
  return list;
}

double
fr_text_scale_of_context (PangoContext *context)
{
  const PangoFontDescription *font = pango_context_get_font_description (context);
  int size = font != NULL ? pango_font_description_get_size (font) : 0;

  if (size <= 0)
    return 1.0;

  double px = (double)size / PANGO_SCALE;
  if (!pango_font_description_get_size_is_absolute (font))
    {
      double dpi = pango_cairo_context_get_resolution (context);
      if (dpi <= 0)
        {
          PangoFontMap *map = pango_context_get_font_map (context);
          dpi = PANGO_IS_CAIRO_FONT_MAP (map)
                    ? pango_cairo_font_map_get_resolution (PANGO_CAIRO_FONT_MAP (map))
                    : 96.0;
        }
      px *= dpi / 72.0;
    }
  return px / (11.0 * 96.0 / 72.0);
}
