/* Reading the seasons out of the program's resources, and fitting on them. */
#include "formats/measured-seasons.h"

#include "formats/weather-file.h"

#include "formats/formats-seasons.h"
#include <string.h>

#define N_DRAWS 16384
#define N_MEMBERS 128
/* Of the clock on which holes are drilled; not known. */
#define TAPPED_HOUR 12

/* The day the 50 taps were set is written in the first; in the second the first emptying that was written down is taken. */
static const struct
{
  const char *name;
  const char *stem;
  FrDate tapped;
} seasons[] = {
  { "Whately 2013", "whately-2013", { 2013, 2, 22 } },
  { "Whately 2014", "whately-2014", { 2014, 2, 20 } },
};

guint
fr_n_measured_seasons (void)
{
  return G_N_ELEMENTS (seasons);
}

static GBytes *
resource (const char *stem, const char *what)
{
  g_autofree char *path = g_strdup_printf ("/org/frostrun/sap/%s-%s.csv", stem, what);
  GBytes *bytes = g_resource_lookup_data (fr_formats_seasons_get_resource (), path, G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);

  g_assert (bytes != NULL); /* built in */
  return bytes;
}

void
fr_measured_season (guint at, FrMeasuredSeason *season_out)
{
  g_autoptr (GBytes) days = NULL, gathered = NULL;
  gsize length;
  const char *text;

  g_return_if_fail (at < G_N_ELEMENTS (seasons));
  days = resource (seasons[at].stem, "days");
  gathered = resource (seasons[at].stem, "gathered");
  text = g_bytes_get_data (days, &length);
  season_out->name = seasons[at].name;
  season_out->tapped = seasons[at].tapped;
  season_out->weather = fr_weather_read (text, length, NULL, NULL);
  text = g_bytes_get_data (gathered, &length);
  season_out->gathered = fr_gathered_read (text, length, NULL);
  g_assert (season_out->weather != NULL && season_out->gathered != NULL);
}

void
fr_measured_season_clear (FrMeasuredSeason *season)
{
  g_clear_pointer (&season->weather, fr_weather_free);
  g_clear_pointer (&season->gathered, g_array_unref);
}

/* What is fitted on. */
typedef struct
{
  guint n;
  FrMeasuredSeason measured[G_N_ELEMENTS (seasons)];
  FrAirHours *air[G_N_ELEMENTS (seasons)];
  FrSapFitSpan *spans[G_N_ELEMENTS (seasons)];
  FrSapFitSeason fitted[G_N_ELEMENTS (seasons)];
} Training;

static void
training_init (Training *training, gint without)
{
  training->n = 0;
  for (guint i = 0; i < G_N_ELEMENTS (seasons); i++)
    {
      guint n = training->n;
      FrMeasuredSeason *season = &training->measured[n];
      FrSapFitSeason *one = &training->fitted[n];
      FrAirHours *air;

      if ((gint)i == without)
        continue;
      fr_measured_season (i, season);
      air = training->air[n] = fr_air_hours_new (season->weather, FR_COURSE_COSINE, 0);
      training->spans[n] = g_new (FrSapFitSpan, season->gathered->len);
      *one = (FrSapFitSeason){ air->n_hours, air->temp_c, 0, season->gathered->len, training->spans[n] };
      one->tapped_hour = fr_air_hours_midnight (air, season->tapped) + TAPPED_HOUR;
      for (guint g = 0; g < season->gathered->len; g++)
        {
          const FrSapGathered *gathered = &g_array_index (season->gathered, FrSapGathered, g);
          guint to = fr_air_hours_midnight (air, gathered->date);

          training->spans[n][g] = (FrSapFitSpan){ to - (guint)(24 * gathered->span_days + 0.5), to, gathered->per_tap_l };
        }
      training->n++;
    }
}

static void
training_clear (Training *training)
{
  for (guint i = 0; i < training->n; i++)
    {
      fr_measured_season_clear (&training->measured[i]);
      fr_air_hours_free (training->air[i]);
      g_free (training->spans[i]);
    }
}

FrSapFit *
fr_measured_fit (gint without)
{
  Training training;
  FrSapFit *fit;

  training_init (&training, without);
  fit = fr_sap_fit (training.fitted, training.n, N_DRAWS, N_MEMBERS);
  training_clear (&training);
  return fit;
}

FrScoreRivals *
fr_measured_rivals (gint without)
{
  Training training;
  FrScoreRivals *rivals;

  training_init (&training, without);
  rivals = fr_score_rivals_new (training.fitted, training.n);
  training_clear (&training);
  return rivals;
}
