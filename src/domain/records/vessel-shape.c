/* Diameters are what a household can measure and radii what the maths want, so the halving happens here,
 * once. A measured table is read line by line from the text it was typed in; the text stays the kept form. */
#include "domain/records/vessel-shape.h"

#include "domain/units/number-read.h"

#include <math.h>
#include <string.h>

gboolean
fr_vessel_rows_parse (const char *text, FrVessel *vessel_out, guint *bad_line_out)
{
  guint line = 0;
  const char *at = text != NULL ? text : "";

  vessel_out->n_rows = 0;
  *bad_line_out = 0;
  while (*at != '\0')
    {
      const char *end = at + strcspn (at, "\n");
      line++;
      at += strspn (at, " \t\r");
      if (at < end && *at != '#')
        {
          guint n = vessel_out->n_rows;
          double depth_cm, litres_l;
          gboolean ok
              = n < FR_VESSEL_ROWS_MAX && fr_number_read (&at, &depth_cm) && fr_number_read (&at, &litres_l);
          if (ok)
            {
              at += strspn (at, " \t\r");
              ok = at == end;
            }
          if (ok && n > 0)
            ok = depth_cm / 100.0 > vessel_out->row_depth_m[n - 1] && litres_l > vessel_out->row_l[n - 1];
          if (!ok)
            {
              *bad_line_out = line;
              return FALSE;
            }
          vessel_out->row_depth_m[n] = depth_cm / 100.0;
          vessel_out->row_l[n] = litres_l;
          vessel_out->n_rows++;
        }
      at = *end == '\n' ? end + 1 : end;
    }
  return vessel_out->n_rows >= 2;
}

gboolean
fr_vessel_record_shape (const FrVesselRecord *record, FrVessel *vessel_out)
{
  guint bad_line;

  memset (vessel_out, 0, sizeof *vessel_out);
  if (record->shape == NULL || !fr_shape_from_code (record->shape, &vessel_out->shape))
    return FALSE;

  vessel_out->height_m = record->height_m.value;
  switch (vessel_out->shape)
    {
    case FR_SHAPE_CYLINDER:
      vessel_out->a_m = record->diameter_m.value / 2.0;
      break;
    case FR_SHAPE_CONE:
      vessel_out->a_m = record->diameter_m.value / 2.0;
      vessel_out->b_m = record->top_diameter_m.value / 2.0;
      break;
    case FR_SHAPE_CAP:
      vessel_out->a_m = record->diameter_m.value / 2.0;
      vessel_out->b_m = isnan (record->flat_diameter_m.value) ? 0.0 : record->flat_diameter_m.value / 2.0;
      break;
    case FR_SHAPE_BOX:
      vessel_out->a_m = record->length_m.value;
      vessel_out->b_m = record->width_m.value;
      vessel_out->c_m = isnan (record->corner_m.value) ? 0.0 : record->corner_m.value;
      break;
    case FR_SHAPE_TABLE:
      vessel_out->height_m = 0.0;
      if (!fr_vessel_rows_parse (record->rows, vessel_out, &bad_line))
        return FALSE;
      break;
    case FR_N_SHAPES:
      return FALSE;
    }
  return fr_vessel_check (vessel_out) == FR_VESSEL_OK;
}
