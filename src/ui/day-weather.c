/* The editor of the day's record. It stays while the day does, for somebody may be typing. */
#include "ui/day-weather.h"

#include "models/edit.h"
#include "models/season-edit.h"
#include "ui/record-editor.h"

struct _FrDayWeather
{
  AdwBin parent_instance;
  FrSeason *season;
  FrDraft *draft; /* of the day's record; NULL: not shown yet */
  FrRecordEditor *editor;
};

G_DEFINE_FINAL_TYPE (FrDayWeather, fr_day_weather, ADW_TYPE_BIN)

static FrChange *
keep_day (FrBook *book, const FrRecord *record, gpointer data)
{
  /* What cannot be kept stands under its row. */
  return fr_season_edit_day (book, (const FrDay *)record, NULL);
}

static FrRecord *
day_now (FrSeason *season)
{
  const FrDay *kept = fr_season_find_day (fr_season_get_book (season), fr_season_get_day (season));
  g_autofree char *iso = fr_date_to_iso (fr_season_get_day (season));
  FrRecord *record;

  if (kept != NULL)
    return fr_record_copy (&kept->record);
  record = fr_record_new (FR_KIND_DAY);
  fr_edit_set_text (record, "day", iso);
  ((FrDay *)record)->expected = fr_date_compare (fr_season_get_day (season), fr_season_get_today (season)) > 0;
  return record;
}

void
fr_day_weather_show (FrDayWeather *self)
{
  static const char *const fields[] = { "low_c", "high_c", "expected", "rain_m", "buds", "note", NULL };
  FrBook *book = fr_season_get_book (self->season);
  g_autoptr (FrRecord) record = day_now (self->season);

  if (self->draft != NULL
      && g_strcmp0 (((const FrDay *)fr_draft_get_original (self->draft))->day, ((const FrDay *)record)->day)
             == 0)
    {
      fr_draft_rebase (self->draft, record);
      fr_record_editor_update (self->editor);
      return;
    }
  adw_bin_set_child (ADW_BIN (self), NULL);
  g_clear_pointer (&self->draft, fr_draft_free);
  self->draft = fr_draft_new (record, TRUE);
  self->editor = fr_record_editor_new (book, self->draft, fields);
  fr_record_editor_set_keep (self->editor, keep_day, NULL);
  adw_bin_set_child (ADW_BIN (self), GTK_WIDGET (self->editor));
}

static void
fr_day_weather_dispose (GObject *object)
{
  FrDayWeather *self = FR_DAY_WEATHER (object);

  adw_bin_set_child (ADW_BIN (self), NULL); /* the editor borrows the draft */
  g_clear_pointer (&self->draft, fr_draft_free);
  g_clear_object (&self->season);
  G_OBJECT_CLASS (fr_day_weather_parent_class)->dispose (object);
}

static void
fr_day_weather_class_init (FrDayWeatherClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_day_weather_dispose;
}

static void
fr_day_weather_init (FrDayWeather *self)
{
}

GtkWidget *
fr_day_weather_new (FrSeason *season)
{
  FrDayWeather *self = g_object_new (FR_TYPE_DAY_WEATHER, NULL);

  self->season = g_object_ref (season);
  return GTK_WIDGET (self);
}
