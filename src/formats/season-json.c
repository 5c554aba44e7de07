/* The season's numbers and codes, key by key. Instants as ISO 8601 in UTC, days as local dates. */
#include "formats/season-json.h"

#include <math.h>

static void
put_text (FrOutput *output, const char *key, const char *text)
{
  if (text != NULL)
    fr_output_string (output, key, text);
  else
    fr_output_null (output, key);
}

static void
put_date (FrOutput *output, const char *key, FrDate date)
{
  g_autofree char *iso = date.year != 0 ? fr_date_to_iso (date) : NULL;

  put_text (output, key, iso);
}

static void
put_instant (FrOutput *output, const char *key, gint64 utc_s)
{
  if (utc_s != G_MININT64)
    fr_output_instant (output, key, utc_s);
  else
    fr_output_null (output, key);
}

void
fr_season_tally_write_json (FrOutput *output, const FrSeasonTally *tally)
{
  fr_output_number (output, "season", tally->season);
  put_date (output, "until", tally->until);
  fr_output_number (output, "gathered_l", tally->gathered_l);
  fr_output_number (output, "sugar_kg", tally->sugar_kg);
  fr_output_number (output, "ice_l", tally->ice_l);
  fr_output_number (output, "waiting_l", tally->waiting_l);
  fr_output_number (output, "boiled_l", tally->boiled_l);
  fr_output_number (output, "syrup_l", tally->syrup_l);
  fr_output_number (output, "energy_kwh", tally->energy_kwh);
  fr_output_number (output, "cost", tally->cost_minor);
  fr_output_number (output, "gathering_days", tally->n_gathering_days);
  fr_output_number (output, "nights", tally->n_nights);
  fr_output_number (output, "priced_nights", tally->n_priced);
}

static void
put_day (FrOutput *output, const FrSeasonDay *day)
{
  fr_output_object (output, NULL);
  put_date (output, "date", day->date);
  put_instant (output, "from", day->from_utc);
  put_instant (output, "to", day->to_utc);
  fr_output_number (output, "clock_change_s", day->clock_change_s);
  fr_output_boolean (output, "holiday", day->is_holiday);
  fr_output_number (output, "low_c", day->low_c);
  fr_output_number (output, "high_c", day->high_c);
  fr_output_boolean (output, "expected_weather", day->is_expected_weather);
  fr_output_string (output, "buds", day->buds);
  fr_output_number (output, "taps_set", day->taps_set);
  fr_output_number (output, "taps_pulled", day->taps_pulled);
  fr_output_number (output, "gatherings", day->n_gatherings);
  fr_output_number (output, "estimated", day->n_estimated);
  fr_output_number (output, "gathered_l", day->gathered_l);
  fr_output_number (output, "sugar_kg", day->sugar_kg);
  fr_output_boolean (output, "sugar_assumed", day->is_sugar_assumed);
  fr_output_number (output, "ice_l", day->ice_l);
  fr_output_number (output, "expected_lo_l", day->expected_lo_l);
  fr_output_number (output, "expected_l", day->expected_l);
  fr_output_number (output, "expected_hi_l", day->expected_hi_l);
  fr_output_number (output, "store_l", day->store_l);
  fr_output_number (output, "boils", day->n_boils);
  fr_output_boolean (output, "boil_planned", day->is_boil_planned);
  fr_output_number (output, "boiled_l", day->boiled_l);
  fr_output_number (output, "boiled_sugar_kg", day->boiled_sugar_kg);
  fr_output_number (output, "energy_kwh", day->energy_kwh);
  fr_output_number (output, "cost", day->cost_minor);
  fr_output_number (output, "bottles", day->n_bottles);
  fr_output_number (output, "bottled_l", day->bottled_l);
  fr_output_number (output, "reminders", day->n_reminders);
  put_text (output, "note", day->day != NULL ? day->day->note : NULL);
  fr_output_end_object (output);
}

void
fr_season_write_json (FrOutput *output, const FrSeasonView *view)
{
  fr_output_object (output, "tally");
  fr_season_tally_write_json (output, &view->tally);
  fr_output_end_object (output);
  put_instant (output, "now", view->now_utc);
  put_date (output, "today", view->today >= 0 ? view->days[view->today].date : (FrDate){ 0 });
  fr_output_number (output, "capacity_l", view->capacity_l);
  fr_output_array (output, "days");
  for (guint i = 0; i < view->n_days; i++)
    put_day (output, &view->days[i]);
  fr_output_end_array (output);
  fr_output_array (output, "levels");
  for (guint i = 0; i < view->n_levels; i++)
    {
      fr_output_object (output, NULL);
      put_instant (output, "at", view->levels[i].utc_s);
      fr_output_number (output, "volume_l", view->levels[i].volume_l);
      fr_output_end_object (output);
    }
  fr_output_end_array (output);
  fr_output_array (output, "prices");
  for (guint i = 0; i < view->n_prices; i++)
    {
      fr_output_object (output, NULL);
      put_instant (output, "from", view->prices[i].from_utc);
      put_instant (output, "to", view->prices[i].to_utc);
      fr_output_number (output, "price", view->prices[i].price_per_kwh);
      fr_output_number (output, "level", view->prices[i].level);
      fr_output_end_object (output);
    }
  fr_output_end_array (output);
}

static void
put_record (FrOutput *output, const char *key, const FrRecord *record)
{
  if (record == NULL)
    {
      fr_output_null (output, key);
      return;
    }
  fr_output_object (output, key);
  fr_output_string (output, "kind", record->kind->name);
  fr_output_string (output, "uid", record->uid);
  put_text (output, "name", fr_record_label (record));
  fr_output_end_object (output);
}

void
fr_reminder_write_json (FrOutput *output, const FrReminder *reminder)
{
  const gboolean counts = reminder->code == FR_REMIND_FROST || reminder->code == FR_REMIND_TAPS
                          || reminder->code == FR_REMIND_LEDGER || reminder->code == FR_REMIND_CHORE
                          || reminder->code == FR_REMIND_FILTERS || reminder->code == FR_REMIND_BOTTLES;

  fr_output_string (output, "code", fr_reminder_code (reminder->code));
  fr_output_string (output, "key", reminder->key);
  fr_output_string (output, "urgency", fr_urgency_code (reminder->urgency));
  fr_output_boolean (output, "dismissed", reminder->dismissed);
  put_instant (output, "due", reminder->due_utc);
  put_date (output, "day", reminder->day);
  put_record (output, "about", reminder->record);
  put_text (output, "task", reminder->code == FR_REMIND_CHORE ? fr_chore_code (reminder->item.task) : NULL);
  put_text (output, "buds", reminder->buds);
  fr_output_number (output, "n", counts ? reminder->n : NAN);
  fr_output_number (output, "wanted", reminder->n_wanted > 0 ? reminder->n_wanted : NAN);
  fr_output_number (output, "weeks", reminder->weeks > 0 ? reminder->weeks : NAN);
  fr_output_number (output, "volume_l", reminder->volume_l);
  fr_output_number (output, "capacity_l", reminder->capacity_l);
  fr_output_number (output, "temp_c", reminder->temp_c);
  fr_output_number (output, "age_s", reminder->age_s);
}

void
fr_chore_write_json (FrOutput *output, const FrChoreItem *item)
{
  static const char *const states[] = { "done", "not_needed", "later", "due", "late" };
  static const char *const whys[] = { "season", "never_measured", "unknown", "galvanised", "soldered", "old", "not_food",
                                      "no_protection", "no_circuit" };

  fr_output_string (output, "task", fr_chore_code (item->task));
  put_record (output, "kit", item->kit);
  fr_output_string (output, "state", states[item->state]);
  fr_output_string (output, "why", whys[item->why]);
  put_text (output, "done_on", item->done != NULL ? item->done->done_on : NULL);
  put_text (output, "who", item->done != NULL ? item->done->who : NULL);
  put_date (output, "used_on", item->used_on);
}
