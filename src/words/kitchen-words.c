/* The kitchen's coming nights in words. Local food rules come before any of it. */
#include "words/kitchen-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "words/forecast-words-private.h"

/* Less is not worth a warning. */
#define LATE_MIN_L 0.5

static FrDate
date_of (const FrKitchen *kitchen, gint day)
{
  return fr_date_add_days (kitchen->today, day);
}

/* "tonight", "on Friday": bold. */
static char *
night_name (const FrKitchen *kitchen, gint day)
{
  g_autofree char *name = NULL;

  if (day == 0)
    return g_strdup (_ ("<b>tonight</b>"));
  name = fr_say_bold (fr_forecast_day_name (date_of (kitchen, day), kitchen->today));
  /* Translators: behind "Boil": a weekday */
  return g_strdup_printf (_ ("on %s"), name);
}

static gint
next_must (const FrKitchen *kitchen, gint after)
{
  for (guint d = (guint)(after + 1); d < kitchen->n_days; d++)
    if (kitchen->courses[FR_KITCHEN_MIDDLE].nights[d].must_boil)
      return (gint)d;
  return -1;
}

/* The first two nights, and how many more. */
static char *
nights_text (const FrKitchen *kitchen)
{
  const FrKitchenCourseDays *course = &kitchen->courses[FR_KITCHEN_MIDDLE];
  g_autofree char *first = night_name (kitchen, course->first_must);
  g_autofree char *second
      = course->n_must > 1 ? night_name (kitchen, next_must (kitchen, course->first_must)) : NULL;

  if (course->n_must == 1)
    return g_steal_pointer (&first);
  if (course->n_must == 2)
    /* Translators: "tonight" or "on Friday", "on Saturday" */
    return g_strdup_printf (_ ("%s and %s"), first, second);
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                       /* Translators: "tonight" or "on Friday", "on Saturday", a number */
                                       "%s, %s and in %u more night", "%s, %s and in %u more nights",
                                       course->n_must - 2),
                          first, second, course->n_must - 2);
}

static char *
idle_sentence (const FrKitchen *kitchen)
{
  g_autofree char *until
      = fr_forecast_day_name (date_of (kitchen, (gint)kitchen->n_days - 1), kitchen->today);
  gboolean has_any = FALSE;

  for (guint d = 0; d < kitchen->n_days; d++)
    has_any = has_any || !kitchen->courses[FR_KITCHEN_MIDDLE].nights[d].is_nothing;
  if (!has_any)
    /* Translators: a weekday */
    return g_strdup_printf (_ ("Leave the pan cold: there is nothing to boil through %s."), until);
  /* Translators: a weekday */
  return g_strdup_printf (_ ("Boil when it suits: nothing has to through %s."), until);
}

char *
fr_kitchen_sentence (const FrKitchen *kitchen, const FrSay *say)
{
  const FrKitchenCourseDays *course = &kitchen->courses[FR_KITCHEN_MIDDLE];
  g_autofree char *nights = NULL;

  (void)say;
  if (isnan (kitchen->night_l))
    return g_strdup (_ ("Add a cooker and its pan: without them nothing can be said of nights."));
  if (course->n_must == 0)
    return idle_sentence (kitchen);
  nights = nights_text (kitchen);
  if (course->nights[course->first_must].is_for_room)
    /* Translators: "tonight and on Saturday" */
    return g_strdup_printf (_ ("Boil %s, or the store runs over."), nights);
  /* Translators: "tonight and on Saturday" */
  return g_strdup_printf (_ ("Boil %s, or sap is past its time."), nights);
}

/* "12 L more room by Saturday", or "12 L more room by Saturday and 30 L by Tuesday". */
static char *
room_text (const FrKitchen *kitchen, const FrKitchenCourseDays *course, const FrSay *say)
{
  g_autofree char *first = fr_forecast_say_litres (say, course->nights[course->first_over].over_l);
  g_autofree char *day = fr_forecast_day_name (date_of (kitchen, course->first_over), kitchen->today);
  g_autofree char *most = fr_forecast_say_litres (say, course->missing_l);
  g_autofree char *most_day = fr_forecast_day_name (date_of (kitchen, course->missing_by), kitchen->today);

  if (course->missing_by == course->first_over)
    /* Translators: litres, a weekday */
    return g_strdup_printf (_ ("%s more room by %s"), first, day);
  /* Translators: litres, a weekday, litres, a weekday */
  return g_strdup_printf (_ ("%s more room by %s and %s by %s"), first, day, most, most_day);
}

static char *
missing_text (const FrKitchen *kitchen, const FrSay *say)
{
  const FrKitchenCourseDays *middle = &kitchen->courses[FR_KITCHEN_MIDDLE];
  const FrKitchenCourseDays *hi = &kitchen->courses[FR_KITCHEN_NINE_IN_TEN];
  g_autofree char *room = NULL;

  if (middle->missing_by >= 0)
    {
      room = room_text (kitchen, middle, say);
      /* Translators: "12 L more room by Saturday" */
      return g_strdup_printf (_ ("Have %s: the pan alone cannot keep up."), room);
    }
  if (hi->missing_by < 0)
    return NULL;
  room = room_text (kitchen, hi, say);
  /* Translators: "12 L more room by Saturday" */
  return g_strdup_printf (_ ("Have %s to be safe nine times in ten."), room);
}

char *
fr_kitchen_reason (const FrKitchen *kitchen, const FrSay *say)
{
  const FrKitchenCourseDays *course = &kitchen->courses[FR_KITCHEN_MIDDLE];
  g_autofree char *missing = missing_text (kitchen, say), *late = NULL;

  if (course->first_late >= 0 && course->nights[course->first_late].late_l >= LATE_MIN_L && !isnan (kitchen->night_l))
    {
      g_autofree char *litres = fr_forecast_say_litres (say, course->nights[course->first_late].late_l);
      g_autofree char *day = fr_forecast_day_name (date_of (kitchen, course->first_late), kitchen->today);

      /* Translators: litres, a weekday */
      late = g_strdup_printf (_ ("All the same %s are past their time after %s: look at them before boiling; "
                                 "local food rules come first."),
                              litres, day);
    }
  if (missing != NULL && late != NULL)
    return g_strdup_printf ("%s %s", missing, late);
  return missing != NULL ? g_steal_pointer (&missing) : g_steal_pointer (&late);
}
