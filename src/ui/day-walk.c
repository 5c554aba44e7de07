/* Steps from day to day. */
#include "ui/day-walk.h"

FrDate
fr_day_add_months (FrDate date, gint months)
{
  gint at = date.year * 12 + date.month - 1 + months;
  FrDate to = { at / 12, at % 12 + 1, date.day };

  while (to.day > 28 && !fr_date_is_valid (to))
    to.day--;
  return to;
}

gboolean
fr_day_walk (guint keyval, FrDate from, FrDate first, FrDate last, FrDate home, FrDate end, gboolean is_grid,
             gboolean right_to_left, FrDate *to_out)
{
  gint forward = is_grid && right_to_left ? -1 : 1;
  FrDate to;

  switch (keyval)
    {
    case GDK_KEY_Left:
    case GDK_KEY_KP_Left:
      to = fr_date_add_days (from, -forward);
      break;
    case GDK_KEY_Right:
    case GDK_KEY_KP_Right:
      to = fr_date_add_days (from, forward);
      break;
    case GDK_KEY_Up:
    case GDK_KEY_KP_Up:
    case GDK_KEY_Down:
    case GDK_KEY_KP_Down:
      if (!is_grid)
        return FALSE;
      to = fr_date_add_days (from, keyval == GDK_KEY_Up || keyval == GDK_KEY_KP_Up ? -7 : 7);
      break;
    case GDK_KEY_Page_Up:
    case GDK_KEY_KP_Page_Up:
      to = fr_day_add_months (from, -1);
      break;
    case GDK_KEY_Page_Down:
    case GDK_KEY_KP_Page_Down:
      to = fr_day_add_months (from, 1);
      break;
    case GDK_KEY_Home:
    case GDK_KEY_KP_Home:
      to = home;
      break;
    case GDK_KEY_End:
    case GDK_KEY_KP_End:
      to = end;
      break;
    default:
      return FALSE;
    }
  if (fr_date_compare (to, first) < 0)
    to = first;
  if (fr_date_compare (to, last) > 0)
    to = last;
  *to_out = to;
  return TRUE;
}
