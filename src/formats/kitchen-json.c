/* Two courses, each a list of evenings and what it comes to; unknown is null. */
#include "formats/kitchen-json.h"

static void
put_day (FrOutput *output, const char *key, const FrKitchen *kitchen, gint day)
{
  g_autofree char *iso = day >= 0 ? fr_date_to_iso (fr_date_add_days (kitchen->today, day)) : NULL;

  if (iso != NULL)
    fr_output_string (output, key, iso);
  else
    fr_output_null (output, key);
}

static void
put_nights (FrOutput *output, const FrKitchen *kitchen, const FrKitchenCourseDays *course)
{
  fr_output_array (output, "evenings");
  for (guint d = 0; d < kitchen->n_days; d++)
    {
      const FrKitchenNight *night = &course->nights[d];

      fr_output_object (output, NULL);
      put_day (output, "date", kitchen, (gint)d);
      fr_output_number (output, "store_l", night->store_l);
      fr_output_number (output, "over_l", night->over_l);
      fr_output_boolean (output, "must_boil", night->must_boil);
      fr_output_boolean (output, "for_room", night->is_for_room);
      fr_output_boolean (output, "for_time", night->is_for_time);
      fr_output_number (output, "boiled_l", night->boiled_l);
      fr_output_number (output, "past_its_time_l", night->late_l);
      fr_output_boolean (output, "nothing_to_boil", night->is_nothing);
      fr_output_end_object (output);
    }
  fr_output_end_array (output);
}

static void
put_course (FrOutput *output, const char *key, const FrKitchen *kitchen, const FrKitchenCourseDays *course)
{
  fr_output_object (output, key);
  fr_output_number (output, "must_nights", course->n_must);
  put_day (output, "first_must", kitchen, course->first_must);
  put_day (output, "first_over", kitchen, course->first_over);
  put_day (output, "first_over_without_boiling", kitchen, course->first_over_idle);
  fr_output_number (output, "missing_l", course->missing_l);
  put_day (output, "missing_by", kitchen, course->missing_by);
  put_day (output, "first_past_its_time", kitchen, course->first_late);
  put_nights (output, kitchen, course);
  fr_output_end_object (output);
}

void
fr_kitchen_write_json (FrOutput *output, const FrKitchen *kitchen)
{
  if (kitchen == NULL)
    {
      fr_output_null (output, "middle");
      fr_output_null (output, "nine_in_ten");
      return;
    }
  fr_output_number (output, "stored_l", kitchen->stored_l);
  fr_output_number (output, "capacity_l", kitchen->capacity_l);
  fr_output_number (output, "night_l", kitchen->night_l);
  fr_output_number (output, "free_l", kitchen->free_now_l);
  fr_output_number (output, "free_after_boil_l", kitchen->free_after_l);
  put_course (output, "middle", kitchen, &kitchen->courses[FR_KITCHEN_MIDDLE]);
  put_course (output, "nine_in_ten", kitchen, &kitchen->courses[FR_KITCHEN_NINE_IN_TEN]);
}
