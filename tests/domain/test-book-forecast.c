/* A book turned into a question of sap, against sums done by hand on books of a few records. Ratios of taps are those that
 * maths/tree-yield.h promises: a sugar maple of 40 cm 1, its second tap 0.75 of the first, a red maple 26 L to 10 gal × 3^½ / 2. */
#include "domain/plan/book-forecast.h"

#include "by-hand.h"
#include "zones.h"

#include "domain/units/units.h"

#define NEAR(a, b) g_assert_cmpfloat_with_epsilon (a, b, 1e-9)

typedef struct
{
  FrSeasonBook book;
  FrZoneTable *zone;
  FrRecord *forecasting;
} Hand;

static void
hand_init (Hand *hand)
{
  *hand = (Hand){ .zone = fr_zone_table_new ("America/Toronto", toronto_spans, G_N_ELEMENTS (toronto_spans)) };
  hand->forecasting = RECORD (FR_KIND_FORECASTING, 1, "gather_minute", "1020");
  hand->book.zone = hand->zone;
  hand->book.forecasting = (const FrForecasting *)hand->forecasting;
  hand->book.trees = records_new ();
  hand->book.girths = records_new ();
  hand->book.taps = records_new ();
  hand->book.gatherings = records_new ();
  hand->book.days = records_new ();
  hand->book.stations = records_new ();
  hand->book.station_days = records_new ();
  hand->book.outlooks = records_new ();
}

static void
hand_clear (Hand *hand)
{
  GPtrArray *const arrays[] = { hand->book.trees,    hand->book.girths,       hand->book.taps, hand->book.gatherings, hand->book.days,
                                hand->book.stations, hand->book.station_days, hand->book.outlooks };

  for (guint i = 0; i < G_N_ELEMENTS (arrays); i++)
    g_ptr_array_unref (arrays[i]);
  fr_record_free (hand->forecasting);
  fr_zone_table_free (hand->zone);
}

/* Of the eastern clock. */
static gint64
at (const Hand *hand, const char *iso, gint hour, gint minute)
{
  FrDate date;
  gint64 first, second;

  g_assert_true (fr_date_parse (iso, &date));
  g_assert_cmpint (fr_zone_instant (hand->zone, date, hour * 3600 + minute * 60, &first, &second), ==, FR_ZONE_ONCE);
  return first;
}

static void
add_tree (Hand *hand, gint64 id, const char *species, const char *diameter_m, const char *stand)
{
  g_ptr_array_add (hand->book.trees, RECORD (FR_KIND_TREE, id, "species", species, "stand", stand));
  g_ptr_array_add (hand->book.girths, record_new (FR_KIND_GIRTH, id, (const char *const[]){ "measured_on", "2025-10-01", "measure", "diameter",
                                                                                            "size_m", diameter_m, NULL }));
  ((FrGirth *)hand->book.girths->pdata[hand->book.girths->len - 1])->tree = id;
}

static FrTap *
add_tap (Hand *hand, gint64 id, gint64 tree, const char *set_on)
{
  FrRecord *tap = RECORD (FR_KIND_TAP, id, "season", "2026");

  if (set_on != NULL)
    set (tap, "set_on", set_on);
  ((FrTap *)tap)->tree = tree;
  g_ptr_array_add (hand->book.taps, tap);
  return (FrTap *)tap;
}

static FrGathering *
add_gathering (Hand *hand, const char *iso, gint hour, const char *scope, gint64 of, const char *volume_l)
{
  FrRecord *record = RECORD (FR_KIND_GATHERING, hand->book.gatherings->len + 1, "scope", scope, "measured_by", "volume");
  FrGathering *gathering = (FrGathering *)record;

  if (volume_l != NULL)
    set (record, "volume_l", volume_l);
  gathering->gathered_utc = at (hand, iso, hour, 0);
  gathering->tree = g_strcmp0 (scope, "tree") == 0 ? of : 0;
  gathering->tap = g_strcmp0 (scope, "tap") == 0 ? of : 0;
  g_ptr_array_add (hand->book.gatherings, record);
  return gathering;
}

static void
add_day (Hand *hand, const char *iso, const char *low_c, const char *high_c)
{
  g_ptr_array_add (hand->book.days,
                   RECORD (FR_KIND_DAY, hand->book.days->len + 1, "day", iso, "low_c", low_c, "high_c", high_c));
}

static void
assert_date (FrDate date, const char *iso)
{
  g_autofree char *text = fr_date_to_iso (date);

  g_assert_cmpstr (text, ==, iso);
}

/* Two sugar maples with three taps of one day and a red one tapped later: 1, 0.75, 1 and r. */
static void
plant (Hand *hand)
{
  add_tree (hand, 1, "sugar", "0.4", "Hill");
  add_tree (hand, 2, "sugar", "0.4", "Hill");
  add_tree (hand, 3, "red", "0.4", "Lane");
  add_tap (hand, 1, 1, "2026-03-01");
  add_tap (hand, 2, 1, "2026-03-01");
  add_tap (hand, 3, 2, "2026-03-01");
  add_tap (hand, 4, 3, "2026-03-05");
}

#define RED (26 / (8.660254037844386 * 3.785411784))

static FrBookForecast *
ask (const Hand *hand, const char *iso, gint hour)
{
  return fr_book_forecast_new (&hand->book, NULL, NULL, NAN, at (hand, iso, hour, 0));
}

static void
test_groups (void)
{
  Hand hand;
  FrTap *pulled;
  const FrTapGroup *groups;
  g_autoptr (FrBookForecast) asked = NULL, early = NULL;

  hand_init (&hand);
  plant (&hand);
  pulled = add_tap (&hand, 5, 2, "2026-03-01");
  set (&pulled->record, "pulled_on", "2026-03-09");
  add_tap (&hand, 6, 2, NULL); /* planned */
  set (&add_tap (&hand, 7, 2, "2025-03-02")->record, "season", "2025");
  add_tap (&hand, 8, 2, "2026-03-01")->record.archived = TRUE;
  asked = ask (&hand, "2026-03-10", 18);
  g_assert_cmpuint (asked->groups->len, ==, 2);
  groups = asked->question.groups;
  assert_date (groups[0].tapped, "2026-03-01");
  g_assert_cmpuint (groups[0].n_taps, ==, 3);
  NEAR (groups[0].yield_ratio, (1 + 0.75 + 1) / 3);
  assert_date (groups[1].tapped, "2026-03-05");
  g_assert_cmpuint (groups[1].n_taps, ==, 1);
  NEAR (groups[1].yield_ratio, RED);
  assert_date (asked->question.tapped, "2026-03-01");
  /* Four days before, the fourth tap is not there and the fifth still is: it is the second of its tree. */
  early = ask (&hand, "2026-03-04", 18);
  g_assert_cmpuint (early->groups->len, ==, 1);
  g_assert_cmpuint (early->question.groups[0].n_taps, ==, 4);
  NEAR (early->question.groups[0].yield_ratio, (1 + 0.75 + 1 + 0.75) / 4);
  hand_clear (&hand);
}

/* litres / ratios of the taps that gave them × mean ratio of all four. */
static void
test_gathered (void)
{
  Hand hand;
  const double mean = (1 + 0.75 + 1 + RED) / 4;
  const FrSapGathered *gathered;
  g_autoptr (FrBookForecast) asked = NULL;

  hand_init (&hand);
  plant (&hand);
  add_gathering (&hand, "2026-03-04", 16, "bush", 0, "11");   /* three taps, three days */
  add_gathering (&hand, "2026-03-06", 9, "tree", 1, "3.5");   /* two taps, two days */
  add_gathering (&hand, "2026-03-06", 10, "tap", 4, "0.5");   /* one, one day: 7 tap-days … of 3 taps: 5/3 */
  add_gathering (&hand, "2026-03-07", 17, "bush", 0, "6");    /* taps 1, 2, 4 after a day, tap 3 after three */
  add_gathering (&hand, "2026-03-08", 17, "tree", 3, NULL);   /* litres not known */
  add_gathering (&hand, "2026-03-09", 17, "bush", 0, "8");    /* 1, 2, 3 after two days, 4 after one */
  set (&add_gathering (&hand, "2026-03-10", 12, "group", 0, "2")->record, "stand", "Lane");
  add_gathering (&hand, "2026-03-10", 13, "tree", 9, "5");    /* of no tree: the day's litres a tap are not known */
  asked = ask (&hand, "2026-03-12", 18);
  gathered = asked->question.gathered;
  g_assert_cmpuint (asked->question.n_gathered, ==, 4);
  assert_date (gathered[0].date, "2026-03-04");
  NEAR (gathered[0].per_tap_l, 11 / 2.75 * mean);
  NEAR (gathered[0].span_days, 3);
  assert_date (gathered[1].date, "2026-03-06");
  NEAR (gathered[1].per_tap_l, 4 / (1.75 + RED) * mean);
  NEAR (gathered[1].span_days, 5.0 / 3);
  NEAR (gathered[2].per_tap_l, 6 / (2.75 + RED) * mean);
  NEAR (gathered[2].span_days, 6.0 / 4);
  assert_date (gathered[3].date, "2026-03-09");
  NEAR (gathered[3].per_tap_l, 8 / (2.75 + RED) * mean);
  NEAR (gathered[3].span_days, 7.0 / 4);
  hand_clear (&hand);
}

/* An emptying counts to the day whose hour is nearest: at 04:00 to yesterday's, at 06:00 to today's 17:00. On 8 March the clock goes to
 * summer time, by which 17:00 is 16:00 of the standard clock. */
static void
test_hours (void)
{
  Hand hand;
  g_autoptr (FrBookForecast) winter = NULL, summer = NULL, early = NULL, emptied = NULL, untold = NULL;

  hand_init (&hand);
  plant (&hand);
  add_gathering (&hand, "2026-03-04", 4, "bush", 0, "1");
  add_gathering (&hand, "2026-03-06", 6, "bush", 0, "1");
  winter = ask (&hand, "2026-03-06", 17);
  g_assert_cmpint (winter->question.gather_hour, ==, 17);
  assert_date (winter->question.as_of, "2026-03-06");
  assert_date (winter->question.gathered[0].date, "2026-03-03");
  assert_date (winter->question.gathered[1].date, "2026-03-06");
  NEAR (winter->now_h, 17);
  early = ask (&hand, "2026-03-06", 16);
  assert_date (early->question.as_of, "2026-03-05");
  summer = ask (&hand, "2026-03-10", 17);
  g_assert_cmpint (summer->question.gather_hour, ==, 16);
  assert_date (summer->question.as_of, "2026-03-10");
  NEAR (summer->now_h, 16);
  add_gathering (&hand, "2026-03-12", 14, "bush", 0, "1");
  emptied = ask (&hand, "2026-03-12", 15);
  assert_date (emptied->question.as_of, "2026-03-12");
  hand.book.forecasting = NULL;
  untold = ask (&hand, "2026-03-06", 16);
  g_assert_cmpint (untold->question.gather_hour, ==, -1);
  assert_date (untold->question.as_of, "2026-03-05");
  hand_clear (&hand);
}

static const FrWeatherDay *
weather_on (const FrBookForecast *asked, const char *iso)
{
  for (guint i = 0; i < asked->weather->days->len; i++)
    {
      const FrWeatherDay *day = &g_array_index (asked->weather->days, FrWeatherDay, i);
      g_autofree char *text = fr_date_to_iso (day->date);

      if (strcmp (text, iso) == 0)
        return day;
    }
  g_error ("no %s", iso);
}

static void
add_seen (Hand *hand, const char *iso, const char *low_c, const char *high_c)
{
  FrRecord *record
      = RECORD (FR_KIND_STATION_DAY, hand->book.station_days->len + 1, "day", iso, "low_c", low_c, "high_c", high_c);

  ((FrStationDay *)record)->station = 1;
  g_ptr_array_add (hand->book.station_days, record);
}

static void
add_outlook (Hand *hand, const char *iso, const char *body)
{
  FrRecord *record = RECORD (FR_KIND_OUTLOOK, hand->book.outlooks->len + 1, "body", body);
  FrOutlook *outlook = (FrOutlook *)record;

  outlook->station = 1;
  outlook->issued_utc = outlook->fetched_utc = at (hand, iso, 6, 0);
  g_ptr_array_add (hand->book.outlooks, record);
}

/* What the household saw, then the station moved by the offset written down, then the last forecast issued up to now, moved likewise. */
static void
test_weather (void)
{
  Hand hand;
  g_autoptr (FrBookForecast) asked = NULL;

  hand_init (&hand);
  g_ptr_array_add (hand.book.stations, RECORD (FR_KIND_STATION, 1, "name", "Mill", "source", "file", "low_offset_k", "-2",
                                               "high_offset_k", "0.5", "latitude_deg", "44"));
  add_day (&hand, "2026-03-02", "-7", "3");
  add_seen (&hand, "2026-03-01", "-4", "4");
  add_seen (&hand, "2026-03-02", "-4", "4");
  add_outlook (&hand, "2026-03-03", "from 2026-03-02\nlow 1 -3 -2\nhigh 9 5 6\n");
  add_outlook (&hand, "2026-03-02", "from 2026-03-03\nlow 2 2\nhigh 12 12\n");
  add_outlook (&hand, "2026-03-05", "from 2026-03-03\nlow 3 3\nhigh 13 13\n"); /* not issued yet */
  asked = ask (&hand, "2026-03-03", 18);
  NEAR (weather_on (asked, "2026-03-01")->low_c, -6);
  NEAR (weather_on (asked, "2026-03-01")->high_c, 4.5);
  NEAR (weather_on (asked, "2026-03-02")->low_c, -7);
  NEAR (weather_on (asked, "2026-03-02")->high_c, 3);
  NEAR (weather_on (asked, "2026-03-03")->low_c, -5);
  NEAR (weather_on (asked, "2026-03-03")->high_c, 5.5);
  g_assert_true (weather_on (asked, "2026-03-03")->is_forecast);
  g_assert_false (weather_on (asked, "2026-03-01")->is_forecast);
  g_assert_cmpint (asked->outlook_utc, ==, at (&hand, "2026-03-03", 6, 0));
  g_assert_false (asked->question.is_south);
  assert_date (asked->air->first, "2026-03-01");
  hand_clear (&hand);
}

/* Ten nights that were two degrees colder than at the station: what is learned is drawn towards nothing, by 1.5² to 1.3²/10. */
static void
test_learned (void)
{
  Hand hand;
  g_autoptr (FrBookForecast) asked = NULL;
  const double weight = 1.5 * 1.5 / (1.5 * 1.5 + 1.3 * 1.3 / 10);

  hand_init (&hand);
  g_ptr_array_add (hand.book.stations, RECORD (FR_KIND_STATION, 1, "name", "Mill", "source", "file"));
  for (guint i = 1; i <= 10; i++)
    {
      g_autofree char *iso = g_strdup_printf ("2026-03-%02u", i);

      add_day (&hand, iso, "-6", "5");
      add_seen (&hand, iso, "-4", "5");
    }
  add_seen (&hand, "2026-03-11", "-4", "5");
  asked = ask (&hand, "2026-03-11", 18);
  NEAR (asked->lows.mean_k, -2 * weight);
  g_assert_cmpuint (asked->lows.n_days, ==, 10);
  NEAR (weather_on (asked, "2026-03-11")->low_c, -4 - 2 * weight);
  NEAR (weather_on (asked, "2026-03-11")->high_c, 5);
  hand_clear (&hand);
}

static void
test_settings (void)
{
  Hand hand;
  g_autoptr (FrBookForecast) asked = NULL;

  hand_init (&hand);
  set (hand.forecasting, "error_first_k", "1");
  set (hand.forecasting, "error_week_k", "2.5");
  set (hand.forecasting, "error_memory_ratio", "0.3");
  asked = ask (&hand, "2026-03-03", 18);
  NEAR (fr_forecast_error_sd_k (&asked->question.errors, 1), 1);
  NEAR (fr_forecast_error_sd_k (&asked->question.errors, 4), 1.75); /* halfway */
  NEAR (fr_forecast_error_sd_k (&asked->question.errors, 7), 2.5);
  NEAR (asked->question.errors.day_ratio, 0.3);
  hand_clear (&hand);
}

/* The answer's litres up to now are those of the book, also where a total was of some taps only. */
static void
test_back (void)
{
  Hand hand;
  g_autoptr (FrBookForecast) asked = NULL;
  g_autoptr (FrForecast) forecast = NULL;
  const FrForecastDay *day;

  hand_init (&hand);
  plant (&hand);
  for (guint i = 1; i <= 14; i++)
    {
      g_autofree char *iso = g_strdup_printf ("2026-03-%02u", i);

      add_day (&hand, iso, "-5", "6");
      ((FrDay *)hand.book.days->pdata[i - 1])->expected = i > 8;
    }
  add_gathering (&hand, "2026-03-04", 17, "bush", 0, "11");
  add_gathering (&hand, "2026-03-06", 17, "tree", 1, "3.5");
  asked = ask (&hand, "2026-03-08", 18);
  forecast = fr_book_forecast_answer (asked);
  NEAR (forecast->gathered_l, 14.5);
  g_assert_cmpuint (forecast->n_taps, ==, 4);
  day = fr_forecast_day (forecast, (FrDate){ 2026, 3, 3 });
  NEAR (day->so_far.middle_l, 0);
  day = fr_forecast_day (forecast, (FrDate){ 2026, 3, 5 });
  NEAR (day->so_far.lo_l, 11);
  day = fr_forecast_day (forecast, (FrDate){ 2026, 3, 8 });
  NEAR (day->so_far.hi_l, 14.5);
  day = fr_forecast_day (forecast, (FrDate){ 2026, 3, 13 });
  g_assert_true (day->is_ahead);
  g_assert_cmpfloat (day->so_far.lo_l, >=, 14.5);
  NEAR (forecast->to_come.middle_l, forecast->days[forecast->n_days - 1].so_far.middle_l - 14.5);
  /* Five nights of frost and days of thaw, by common practice, bring something. */
  g_assert_cmpfloat (forecast->to_come.middle_l, >, 0);
  hand_clear (&hand);
}

static void
test_expect (void)
{
  Hand hand;
  g_autoptr (FrBookForecast) asked = NULL;
  g_autoptr (FrForecast) forecast = NULL;
  g_autoptr (FrSeasonView) view = NULL;
  const FrSeasonDay *day;

  hand_init (&hand);
  plant (&hand);
  g_ptr_array_add (hand.book.stations, RECORD (FR_KIND_STATION, 1, "name", "Mill", "source", "file"));
  add_day (&hand, "2026-03-06", "-6", "5");
  add_day (&hand, "2026-03-07", "-6", "5");
  add_outlook (&hand, "2026-03-07", "from 2026-03-08\nlow -5 -5 -4\nhigh 6 6 7\n");
  asked = ask (&hand, "2026-03-07", 18);
  forecast = fr_book_forecast_answer (asked);
  view = fr_season_view_new (&hand.book, 2026, at (&hand, "2026-03-07", 18, 0));
  fr_season_view_expect (view, forecast, asked->weather);
  day = fr_season_view_day (view, (FrDate){ 2026, 3, 9 });
  NEAR (day->expected_l, fr_forecast_day (forecast, day->date)->bush.middle_l);
  g_assert_cmpfloat (day->expected_lo_l, <=, day->expected_l);
  g_assert_cmpfloat (day->expected_l, <=, day->expected_hi_l);
  NEAR (day->low_c, -5);
  g_assert_true (day->is_expected_weather);
  g_assert_true (isnan (fr_season_view_day (view, (FrDate){ 2026, 3, 7 })->expected_l));
  g_assert_true (isnan (fr_season_view_day (view, (FrDate){ 2026, 3, 15 })->expected_l));
  NEAR (fr_season_view_day (view, (FrDate){ 2026, 3, 7 })->low_c, -6);
  hand_clear (&hand);
}

/* No weather, no taps, nothing at all: an answer without days, or one for a tap yet to be set. */
static void
test_little (void)
{
  Hand hand;
  g_autoptr (FrBookForecast) nothing = NULL, lone = NULL;
  g_autoptr (FrForecast) none = NULL, some = NULL;

  hand_init (&hand);
  nothing = ask (&hand, "2026-03-07", 18);
  none = fr_book_forecast_answer (nothing);
  g_assert_cmpuint (none->n_days, ==, 0);
  g_assert_cmpint (nothing->outlook_utc, ==, G_MININT64);
  add_day (&hand, "2026-03-07", "-6", "5");
  add_day (&hand, "2026-03-08", "-6", "5");
  add_day (&hand, "2026-03-09", "-6", "5");
  lone = ask (&hand, "2026-03-07", 18);
  some = fr_book_forecast_answer (lone);
  g_assert_cmpuint (some->n_taps, ==, 1);
  g_assert_cmpuint (some->n_days, >, 0);
  g_assert_true (isnan (some->days[0].bush.middle_l));
  g_assert_false (isnan (some->days[0].per_tap.middle_l));
  hand_clear (&hand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/book-forecast/groups", test_groups);
  g_test_add_func ("/book-forecast/gathered", test_gathered);
  g_test_add_func ("/book-forecast/hours", test_hours);
  g_test_add_func ("/book-forecast/weather", test_weather);
  g_test_add_func ("/book-forecast/learned", test_learned);
  g_test_add_func ("/book-forecast/settings", test_settings);
  g_test_add_func ("/book-forecast/back", test_back);
  g_test_add_func ("/book-forecast/expect", test_expect);
  g_test_add_func ("/book-forecast/little", test_little);
  return g_test_run ();
}
