/* Weather, litres and boils are typed in, not computed: a season that looks like one. */
#include "season.h"

#include <math.h>

#define DAY_S 86400
#define HOUR_S 3600

/* Low, high and litres of 32 days from 14 February; the rest is to come. */
static const double seen[][3] = {
  { -15, -6, NAN }, { -14, -5, NAN }, { -12, -3, NAN }, { -10, -1, NAN }, { -9, 1, NAN },  { -8, 2, NAN },
  { -7, 1, NAN },   { -6, 4, NAN },   { -5, 6, 9.4 },   { -7, 5, NAN },   { -4, 7, 14 },   { -3, 6, 12 },
  { -9, -1, NAN },  { -11, -2, NAN }, { -8, 2, 6 },     { -5, 3, NAN },   { -4, 5, 17.2 }, { -5, 7, 24 },
  { -3, 8, NAN },   { -1, 9, 22 },    { -2, 6, 12 },    { -4, 5, NAN },   { -8, NAN, 0 },  { -5, 4, 9 },
  { -4, 5, NAN },   { 1, 11, 31 },    { 2, 12, 18 },    { -3, 7, 26 },    { -6, 3, NAN },  { -5, 6, 20 },
  { -2, 8, 25 },    { -4, 5, NAN },   { -5, 6, 13 },    { -3, 7, 22 },
};

static const double to_come[][5] = {
  { -6, 4, 8, 14, 22 }, { -4, 7, 11, 19, 30 }, { -1, 9, 6, 13, 24 },
  { 1, 10, 2, 7, 16 },  { -3, -1, 0, 0.4, 2 },
};

static gint64
start_of (FrDate date)
{
  gboolean summer = fr_date_compare (date, (FrDate){ date.year, 3, 8 }) > 0
                    && fr_date_compare (date, (FrDate){ date.year, 11, 1 }) <= 0;

  return fr_date_to_days (date) * DAY_S - fr_date_to_days ((FrDate){ 1970, 1, 1 }) * DAY_S
         + (summer ? 4 : 5) * HOUR_S;
}

FrSeasonView
season_bare (FrDate first, guint n_days)
{
  FrSeasonView view = { .season = (guint)first.year,
                        .first = first,
                        .last = fr_date_add_days (first, (gint)n_days - 1),
                        .n_days = n_days,
                        .days = g_new0 (FrSeasonDay, n_days + 1),
                        .today = -1,
                        .capacity_l = NAN };

  for (guint i = 0; i < n_days; i++)
    {
      FrDate date = fr_date_add_days (first, (gint)i);
      view.days[i] = (FrSeasonDay){ .date = date,
                                    .from_utc = start_of (date),
                                    .to_utc = start_of (fr_date_add_days (date, 1)),
                                    .weekday = fr_date_weekday (date),
                                    .low_c = NAN,
                                    .high_c = NAN,
                                    .gathered_l = NAN,
                                    .sugar_kg = NAN,
                                    .ice_l = NAN,
                                    .expected_lo_l = NAN,
                                    .expected_l = NAN,
                                    .expected_hi_l = NAN,
                                    .store_l = NAN,
                                    .boiled_l = NAN,
                                    .energy_kwh = NAN,
                                    .cost_minor = NAN,
                                    .bottled_l = NAN,
                                    .buds = "unknown" };
    }
  return view;
}

static void
add_level (Season *season, gint64 utc_s, double volume_l)
{
  g_assert_cmpuint (season->view.n_levels, <, SEASON_LEVELS_MOST);
  season->levels[season->view.n_levels++] = (FrStockLevel){ utc_s, volume_l };
}

static void
fill_days (Season *season)
{
  static const guint boils[] = { 11, 17, 19, 21, 26, 28, 31 };
  static const guint bottles[][2] = { { 13, 2 }, { 22, 4 }, { 27, 5 } };
  double store = 0;
  guint boil = 0;

  for (guint i = 0; i < G_N_ELEMENTS (seen); i++)
    {
      FrSeasonDay *day = &season->days[i];
      day->low_c = seen[i][0];
      day->high_c = seen[i][1];
      day->gathered_l = seen[i][2];
      if (isfinite (seen[i][2]))
        {
          day->n_gatherings = 1;
          store += seen[i][2];
          add_level (season, day->from_utc + 16 * HOUR_S, store);
        }
      if (boil < G_N_ELEMENTS (boils) && boils[boil] == i)
        {
          day->n_boils = 1;
          day->boiled_l = MIN (store, 25);
          store -= day->boiled_l;
          add_level (season, day->from_utc + 21 * HOUR_S, store);
          boil++;
        }
      day->store_l = store;
    }
  for (guint i = 0; i < G_N_ELEMENTS (bottles); i++)
    season->days[bottles[i][0]].n_bottles = bottles[i][1];
  season->days[4].taps_set = 14;
  season->days[22].clock_change_s = HOUR_S;
  season->days[22].clock_change_utc = season->days[22].from_utc + 2 * HOUR_S;
  season->days[48].is_holiday = TRUE;
  for (guint i = 33; i < 37; i++)
    season->days[i].is_boil_planned = i != 34;
  season->days[33].n_boils = season->days[35].n_boils = season->days[36].n_boils = 1;
  season->records[30].note = (char *)"snow to the knees";
  season->days[30].day = &season->records[30];
}

static void
fill_prices (Season *season)
{
  static const struct
  {
    gint from_h, to_h;
    double price;
    guint level;
  } weekday[] = {
    { 0, 7, 9.8, 0 }, { 7, 11, 20.3, 2 }, { 11, 17, 15.7, 1 }, { 17, 19, 20.3, 2 }, { 19, 24, 9.8, 0 }
  };

  for (guint i = 0; i < SEASON_DAYS; i++)
    {
      const FrSeasonDay *day = &season->days[i];
      gboolean is_low = day->weekday >= 6 || day->is_holiday;
      for (guint k = 0; k < (is_low ? 1 : G_N_ELEMENTS (weekday)); k++)
        season->prices[season->view.n_prices++]
            = is_low
                  ? (FrSeasonPrice){ day->from_utc, day->to_utc, 9.8, 0 }
                  : (FrSeasonPrice){ day->from_utc + weekday[k].from_h * HOUR_S,
                                     k + 1 < G_N_ELEMENTS (weekday) ? day->from_utc + weekday[k].to_h * HOUR_S
                                                                    : day->to_utc,
                                     weekday[k].price, weekday[k].level };
    }
}

static void
fill_past (Season *season)
{
  static const char *const names[3] = { "2025", "2024", "2023" };
  static const double factors[3] = { 0.8, 1.15, 0.45 };

  for (guint k = 0; k < 3; k++)
    {
      for (guint i = 0; i < 60; i++)
        season->past_l[k][i] = (i * 7 + k * 3) % 5 < 2 ? factors[k] * (6 + (double)((i * 13 + k) % 17)) : NAN;
      season->past[k] = (FrSeasonPast){
        names[k], 2025 - k, { (gint)(2025 - k), 2, 20 - (gint)k * 3 }, 60, season->past_l[k]
      };
    }
}

static const FrSeasonTexts texts = {
  .lanes = {
    [FR_SEASON_LANE_SPAN] = { "Day’s span", "°C", NULL, "expected", "The lows and highs you write down stand here, thaw over the line, frost under it." },
    [FR_SEASON_LANE_GATHERED] = { "Gathered", "L a day", NULL, "expected, 8 in 10 inside", "Every gathering becomes a bar on its day." },
    [FR_SEASON_LANE_SO_FAR] = { "So far", "L", "2026", NULL, "The season’s litres add up here, beside other seasons." },
    [FR_SEASON_LANE_STORE] = { "In store", "L", NULL, NULL, "What waits in containers stands here." },
    [FR_SEASON_LANE_BOILS] = { "Boils", NULL, "116 L in 7 nights", "3 planned", NULL },
    [FR_SEASON_LANE_BOTTLES] = { "Bottles", NULL, "11 bottles of 250 ml", NULL, NULL },
    [FR_SEASON_LANE_PRICE] = { "Price", "¢/kWh", NULL, NULL, "No price plan yet." },
  },
  .today = "Today",
  .taps_set = "taps set",
  .taps_pulled = "taps pulled",
  .full = "full",
};

void
season_fill (Season *season, gboolean with_forecast)
{
  *season = (Season){ 0 };
  season->view = season_bare ((FrDate){ 2026, 2, 14 }, SEASON_DAYS);
  for (guint i = 0; i < SEASON_DAYS; i++)
    season->days[i] = season->view.days[i];
  g_free (season->view.days);
  season->view.days = season->days;
  season->view.levels = season->levels;
  season->view.prices = season->prices;
  season->view.capacity_l = 80;
  season->view.today = 33;
  season->view.now_utc = season->days[33].from_utc + 18 * HOUR_S + 1800;
  fill_days (season);
  fill_prices (season);
  fill_past (season);
  for (guint i = 0; with_forecast && i < G_N_ELEMENTS (to_come); i++)
    {
      FrSeasonDay *day = &season->days[34 + i];
      day->is_expected_weather = TRUE;
      day->low_c = to_come[i][0];
      day->high_c = to_come[i][1];
      day->expected_lo_l = to_come[i][2];
      day->expected_l = to_come[i][3];
      day->expected_hi_l = to_come[i][4];
    }
  season->texts = texts;
  season->months[0] = (FrSeasonMonth){ 0, "14 February", "Feb" };
  season->months[1] = (FrSeasonMonth){ 15, "March", "Mar" };
  season->months[2] = (FrSeasonMonth){ 46, "April", "Apr" };
  season->months[3] = (FrSeasonMonth){ 76, "May", "May" };
  season->feet[0] = (FrSeasonFoot){ 22, "clocks go forward", "8", NULL };
  season->feet[1] = (FrSeasonFoot){ 48, NULL, "3", "holiday, low all day" };
  season->texts.months = season->months;
  season->texts.n_months = 4;
  season->texts.feet = season->feet;
  season->texts.n_feet = 2;
  season->strip = (FrSeasonStrip){ .view = &season->view,
                                   .texts = &season->texts,
                                   .past = season->past,
                                   .n_past = 3,
                                   .selected = -1,
                                   .hovered = -1 };
}
