/* Plain tables of weather. Figures of the two open files are taken from the files themselves, cut up here without the reader;
 * conversions are those of the units' definitions; the highest air temperature is the World Meteorological Organization's. Sentences
 * are the house's own and kept word for word. */
#include "weather-said.h"

#include <stdlib.h>

/* --- what is read --- */

static const struct
{
  const char *name;
  const char *columns, *where; /* or NULL */
  const char *text;
  const char *said;
} tables[] = {
  { "given-names", NULL, NULL, "date,tmin_c,tmax_c\n2026-03-01,-4.8,6.2\n2026-03-02,-7.1,\n",
    "2026-03-01 -4.8 6.2; 2026-03-02 -7.1 ?" },
  { "other-order", NULL, NULL, "temp_max,date,temp_min\n6.2,2026-03-01,-4.8\n", "2026-03-01 -4.8 6.2" },
  { "fahrenheit", NULL, NULL, "Date,Low (°F),High (°F)\n2026-03-01,14,50\n", "2026-03-01 -10 10" },
  { "fahrenheit-suffix", NULL, NULL, "date,tmin_f,tmax_f,precip_in,snow_depth_in\n2026-03-01,32,212,1,10\n",
    "line 2, column “tmax_f”: “212” is no air temperature (over 90 °C from freezing); leave the cell empty where there is no value" },
  { "inches", NULL, NULL, "date,tmin_f,tmax_f,precip_in,snow_depth_in\n2026-03-01,5,41,1,10\n",
    "2026-03-01 -15 5 rain 25.4 snow 25.4" },
  { "capitals", NULL, NULL, "Day,MinTempC,MaxTempC\n2026-03-01,-1,2\n", "2026-03-01 -1 2" },
  { "daily-words", NULL, NULL, "time,temperature_2m_max (°C),temperature_2m_min (°C),precipitation_sum (mm)\n2026-03-01,2,-1,0.4\n",
    "2026-03-01 -1 2 rain 0.4" },
  { "sun", NULL, NULL, "date,tmin,tmax,solar_mj_m2\n2026-03-01,-1,2,14.8\n", "2026-03-01 -1 2 sun 14.8" },
  { "sun-kwh", "sun=rad:kwh", NULL, "date,tmin,tmax,rad\n2026-03-01,-1,2,1\n", "2026-03-01 -1 2 sun 3.6" },
  { "snow-unit-not-told", NULL, NULL, "date,tmin,tmax,snow_depth\n2026-03-01,-1,2,14.8\n", "2026-03-01 -1 2" },
  { "snow-unit-chosen", "snow=snow_depth:m", NULL, "date,tmin,tmax,snow_depth\n2026-03-01,-1,2,0.25\n", "2026-03-01 -1 2 snow 25" },
  { "snow-chosen-without", "snow=snow_depth", NULL, "date,tmin,tmax,snow_depth\n2026-03-01,-1,2,0.25\n",
    "the unit of the snow's depth is not told; say it behind the column, as in snow=snow_depth:cm" },
  { "site-season", NULL, NULL, "site,season,date,tmin_c,tmax_c,prec_mm,solar_mj_m2\nML,2013,2013-01-01,-10.05,0.17,0.0,4.1\n",
    "2013-01-01 -10.05 0.17 rain 0 sun 4.1" },
  { "semicolons", NULL, NULL, "Datum;Tmin;Tmax\n01.03.2026;-4,8;6,2\n02.03.2026;−7,1;0,5\n",
    "2026-03-01 -4.8 6.2; 2026-03-02 -7.1 0.5" },
  { "tabs", NULL, NULL, "date\ttmin\ttmax\n2026-03-01\t-4.8\t6.2\n", "2026-03-01 -4.8 6.2" },
  { "byte-order-mark", NULL, NULL, "\xEF\xBB\xBF" "date,tmin,tmax\n2026-03-01,-4.8,6.2\n", "2026-03-01 -4.8 6.2" },
  { "no-head", "date=#1,low=#2,high=#3", NULL, "2026-03-01,-4.8,6.2\n", "2026-03-01 -4.8 6.2" },
  { "no-head-unsaid", NULL, NULL, "2026-03-01,-4.8,6.2\n",
    "no column of the table is known as a temperature. It has #1, #2, #3; say which is which, as in date=#1,low=#2,high=#3" },
  { "chosen", "date=when,low=a:f,high=b:f", NULL, "when,a,b\n2026-03-01,14,50\n", "2026-03-01 -10 10" },
  { "left-out", "rain=-", NULL, "date,tmin,tmax,rain_mm\n2026-03-01,1,2,3\n", "2026-03-01 1 2" },
  { "eight-digits", NULL, NULL, "date,tmin,tmax\n20260301,1,2\n", "2026-03-01 1 2" },
  { "slashes-year-first", NULL, NULL, "date,tmin,tmax\n2026/3/1,1,2\n", "2026-03-01 1 2" },
  { "short-numbers", NULL, NULL, "date,tmin,tmax\n2026-3-1,1,2\n", "2026-03-01 1 2" },
  { "month-first", NULL, NULL, "date,tmin,tmax\n3/1/2026,1,2\n3/13/2026,3,4\n", "2026-03-01 1 2; 2026-03-13 3 4" },
  { "day-first", NULL, NULL, "date,tmin,tmax\n1/3/2026,1,2\n13/3/2026,3,4\n", "2026-03-01 1 2; 2026-03-13 3 4" },
  { "which-first", NULL, NULL, "date,tmin,tmax\n1/3/2026,1,2\n2/3/2026,1,2\n",
    "line 2, column “date”: whether day or month comes first in “1/3/2026” does not show anywhere in the table; write dates as year-month-day" },
  { "both-first", NULL, NULL, "date,tmin,tmax\n13/3/2026,1,2\n3/13/2026,1,2\n",
    "line 2, column “date”: some dates have the day first, others the month (as “13/3/2026”); write them as year-month-day" },
  { "midnights", NULL, NULL, "date,tmin,tmax,temp\n2026-03-01 00:00:00,1,2,1.5\n2026-03-02 00:00:00,3,4,3.5\n",
    "2026-03-01 1 2; 2026-03-02 3 4" },
  { "unordered", NULL, NULL, "date,tmin,tmax\n2026-03-02,3,4\n2026-03-01,1,2\n", "2026-03-01 1 2; 2026-03-02 3 4" },
  { "twice", NULL, NULL, "date,tmin,tmax\n2026-03-01,1,2\n2026-03-01,3,4\n", "2026-03-01 3 4" },
  { "absent-marks", NULL, NULL, "date,tmin,tmax\n2026-03-01,NA,-9999\n2026-03-02,NaN,-999.9\n2026-03-03,null,M\n2026-03-04,-,\n",
    "2026-03-01 ? ?; 2026-03-02 ? ?; 2026-03-03 ? ?; 2026-03-04 ? ?" },
  { "trace", NULL, NULL, "date,tmin,tmax,rain\n2026-03-01,1,2,T\n", "2026-03-01 1 2 rain 0" },
  { "crossed", NULL, NULL, "date,tmin,tmax\n2026-03-01,5,2\n2026-03-02,1,2\n", "2026-03-01 ?r ?r; 2026-03-02 1 2" },
  { "marks", NULL, NULL, "date,airtmax,f.airtmax,airtmin,f.airtmin\n2026-03-01,5,E,1,\n2026-03-02,5,Q,NA,M\n",
    "2026-03-01 1 5e; 2026-03-02 ? 5e" },
  { "only-lows", NULL, NULL, "date,low\n2026-03-01,-3\n", "2026-03-01 -3 ?" },
  { "ragged", NULL, NULL, "date,tmin,tmax\n2026-03-01,-3\n", "2026-03-01 -3 ?" },
  { "other-temperatures", NULL, NULL, "date,dewp_min,soil_temp_min,wind_max,tmin,tmax,tmax_time\n2026-03-01,-9,3,20,-1,2,14:00\n",
    "2026-03-01 -1 2" },
  { "hours", NULL, NULL, "time_utc,temp_c\n2026-03-01T06:00,-3\n2026-03-01T07:00,-2\n",
    "2026-03-01T06:00:00Z -3 3600; 2026-03-01T07:00:00Z -2 3600" },
  { "hours-offset", NULL, NULL, "time,temp_c\n2026-03-01T06:00:00-05:00,-3\n2026-03-01T12:00:00-05:00,1\n2026-03-01T18:00:00-05:00,0\n",
    "2026-03-01T11:00:00Z -3 21600; 2026-03-01T17:00:00Z 1 21600; 2026-03-01T23:00:00Z 0 21600" },
  { "hours-clock-column", NULL, NULL, "date,time (UTC),temp\n2026-03-01,06:00,-3\n2026-03-01,6:30,-2\n2026-03-01,7:00,-1\n",
    "2026-03-01T06:00:00Z -3 1800; 2026-03-01T06:30:00Z -2 1800; 2026-03-01T07:00:00Z -1 1800" },
  { "hours-zoneless", NULL, NULL, "time,temp_c\n2026-03-01T06:00,-3\n2026-03-01T07:00,-3\n",
    "line 2, column “time”: the table does not say of which zone its clock is; name the zone, or give each time its offset, as in "
    "2026-03-19T07:30-04:00" },
  { "hours-offset-in-head", NULL, NULL, "\"Date Time, GMT-05:00\",\"Temp, °F\"\n2026-03-01 06:00:00 AM,14\n2026-03-01 07:00:00 AM,32\n",
    "2026-03-01T11:00:00Z -10 3600; 2026-03-01T12:00:00Z 0 3600" },
  { "title-above", NULL, NULL, "\"Plot Title: back porch\"\n\"#\",\"Date Time, GMT+01:00\",\"Temp, °C\"\n1,03/13/2026 06:00:00 AM,1.5\n2,03/13/2026 07:00:00 AM,2\n",
    "2026-03-13T05:00:00Z 1.5 3600; 2026-03-13T06:00:00Z 2 3600" },
  { "place-above", NULL, NULL,
    "latitude,longitude,elevation,utc_offset_seconds\n44.26,-72.58,180.0,-14400\n\ntime,temperature_2m_max (°C),temperature_2m_min (°C)\n2026-03-10,7.3,-5.0\n",
    "2026-03-10 -5 7.3" },
  { "inches-beside-fahrenheit", NULL, NULL, "date,tmin_f,tmax_f,rain\n2026-03-01,5,41,1\n", "2026-03-01 -15 5 rain 25.4" },
  { "one-unit-for-both", NULL, NULL, "date,tmin,tmax_f\n2026-03-01,5,41\n", "2026-03-01 -15 5" },
  { "updated", NULL, NULL, "day,tmin,tmax,updated\n2026-03-01,1,2,2026-04-01\n", "2026-03-01 1 2" },
  { "ordered", NULL, NULL, "\"STATION\",\"NAME\",\"DATE\",\"PRCP\",\"TMAX\",\"TMIN\"\n\"USC00999999\",\"SYNTHETIC, VT US\",\"2026-03-01\",\"0.10\",\"41\",\"5\"\n",
    "an order from NOAA's archive comes in °F or in °C, and the file does not tell; say which, as in low=TMIN:f,high=TMAX:f" },
  { "ordered-chosen", "low=TMIN:f,high=TMAX:f", NULL,
    "\"STATION\",\"NAME\",\"DATE\",\"PRCP\",\"TMAX\",\"TMIN\"\n\"USC00999999\",\"SYNTHETIC, VT US\",\"2026-03-01\",\"0.10\",\"41\",\"5\"\n",
    "2026-03-01 -15 5 rain 2.54" },
  { "parts-of-days", NULL, NULL, "time_utc,tmin,tmax\n2026-03-01T06:00,1,2\n2026-03-01T07:00,1,2\n",
    "the table has lows and highs at several times of a day; a day's in one row, or temperatures with their times (temp=…), are asked for" },
  { "one-a-day", NULL, NULL, "date,temp_c\n2026-03-01,-3\n",
    "the table has one temperature a day and no time of day; a day's low and high, or an hour's temperature, is asked for" },
  { "places", NULL, NULL,
    "location,date,temp_max,temp_min\nSeattle,2012-01-01,12.8,5\nSeattle,2012-01-02,10,2\nNew York,2012-01-01,4,1\nNew York,2012-01-02,3,0\n",
    "the table holds 2 places in its column “location”: Seattle, New York. Choose one, as in where location=Seattle" },
  { "one-place", NULL, "location=new york",
    "location,date,temp_max,temp_min\nSeattle,2012-01-01,12.8,5\nSeattle,2012-01-02,10,2\nNew York,2012-01-01,4,1\nNew York,2012-01-02,3,0\n",
    "2012-01-01 1 4; 2012-01-02 0 3" },
  { "no-such-place", NULL, "location=Boston", "location,date,temp_max,temp_min\nSeattle,2012-01-01,12.8,5\n",
    "no row of the table has “Boston” in its column “location”" },
  { "no-such-column", "low=tmn", NULL, "date,tmin,tmax\n2026-03-01,1,2\n",
    "the table has no column “tmn”; it has 3: date, tmin, tmax. A number such as #2 names one by its place" },
  { "no-day", NULL, NULL, "tmin,tmax\n1,2\n",
    "no column of the table is a day. It has tmin, tmax; say which is which, as in date=#1,low=#2,high=#3" },
  { "no-rows", NULL, NULL, "date,tmin,tmax\n", "the table has a head and no rows" },
  { "bad-day", NULL, NULL, "date,tmin,tmax\n2026-02-28,1,2\n2026-02-29,1,2\n",
    "line 3, column “date”: “2026-02-29” is no day; write it as year-month-day, as in 2026-03-19" },
  { "blank-day", NULL, NULL, "date,tmin,tmax\n2026-02-28,1,2\n,1,2\n", "line 3, column “date”: the row has no day" },
  { "bad-number", NULL, NULL, "date,tmin,tmax\n2026-02-28,1,2\n2026-03-01,cold,2\n",
    "line 3, column “tmin”: “cold” is no number; leave the cell empty where there is no value" },
  { "absurd", NULL, NULL, "date,tmin_c,tmax_c\n2026-02-28,1,2\n2026-03-01,-90.1,2\n",
    "line 3, column “tmin_c”: “-90.1” is no air temperature (over 90 °C from freezing); leave the cell empty where there is no value" },
  { "bound", NULL, NULL, "date,tmin_c,tmax_c\n2026-02-28,-90,2\n", "2026-02-28 -90 2" },
  { "hotter-than-ever", NULL, NULL, "date,tmin,tmax\n2026-07-28,60,80\n",
    "line 2, column “tmin”: “60” would be hotter than any air measured, if it is °C; the table does not tell. If it is °F, say so, as in "
    "low=tmin:f" },
  { "negative-rain", NULL, NULL, "date,tmin,tmax,rain_mm\n2026-07-28,1,2,-1\n",
    "line 2, column “rain_mm”: “-1” is out of all bounds; leave the cell empty where there is no value, or say the unit" },
  { "page", NULL, NULL, "<!DOCTYPE html><html>", "the file is a web page or XML, and no table of weather" },
  { "nothing", NULL, NULL, " \n", "the file is empty" },
  { "nothing-but-a-mark", NULL, NULL, "\xEF\xBB\xBF", "the file is empty" },
  { "latin-1", NULL, NULL, "date,tmin (\xB0" "C)\n2026-03-01,1\n",
    "line 1: the file is not text in UTF-8. Save it in UTF-8 and try again" },
  { "open-quote", NULL, NULL, "date,tmin\n\"2026-03-01,1\n", "line 2: this quoted cell is not closed" },
};

static void
test_table (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  g_auto (FrWeatherColumns) choice = { 0 };
  g_autoptr (GError) error = NULL;
  g_autofree char *seen = NULL;

  if (tables[i].columns != NULL)
    g_assert_true (fr_weather_columns_parse (&choice, tables[i].columns, &error));
  if (tables[i].where != NULL)
    g_assert_true (fr_weather_columns_parse_where (&choice, tables[i].where, &error));
  g_assert_no_error (error);
  seen = read_said (tables[i].text, &choice);
  g_assert_cmpstr (seen, ==, tables[i].said);
}

static void
test_counts (void)
{
  const char *text = "date,tmin,tmax,f.tmax,rain\n2026-03-01,1,2,E,T\n2026-03-01,1,2,E,0\n2026-03-02,NA,,,0\n2026-03-04,9,2,,\n";
  g_autoptr (FrWeather) weather = fr_weather_read (text, strlen (text), NULL, NULL);
  g_autoptr (GArray) gaps = fr_weather_gaps (weather);

  g_assert_cmpint (weather->format, ==, FR_WEATHER_CSV);
  g_assert_cmpuint (weather->n_estimated, ==, 1);
  g_assert_cmpuint (weather->n_absent, ==, 2);
  g_assert_cmpuint (weather->n_refused, ==, 2);
  g_assert_cmpuint (weather->n_duplicates, ==, 1);
  g_assert_cmpuint (weather->n_trace, ==, 1);
  g_assert_cmpuint (gaps->len, ==, 1);
  g_assert_cmpuint (g_array_index (gaps, FrWeatherGap, 0).n_days, ==, 1);
}

/* --- clocks --- */

static void
test_zone (void)
{
  /* Eastern time in 2026: from 8 March 07:00 UTC and from 1 November 06:00 UTC (Energy Policy Act of 2005: second Sunday in March, first
   * in November, at 2 o'clock). */
  const FrZoneSpan spans[] = { { G_MININT64, -18000, FALSE, "EST" }, { 1772953200, -14400, TRUE, "EDT" }, { 1793512800, -18000, FALSE, "EST" } };
  g_autoptr (FrZoneTable) zone = fr_zone_table_new ("America/New_York", spans, G_N_ELEMENTS (spans));
  const FrWeatherColumns choice = { .zone = zone };
  g_autofree char *plain = read_said ("time,temp\n2026-03-08T01:00,1\n2026-03-08T03:00,2\n", &choice),
                  *never = read_said ("time,temp\n2026-03-08T01:30,1\n2026-03-08T02:30,2\n", &choice),
                  *twice = read_said ("time,temp\n2026-11-01 00:00,1\n2026-11-01 01:00,2\n2026-11-01 01:00,3\n2026-11-01 02:00,4\n", &choice);

  g_assert_cmpstr (plain, ==, "2026-03-08T06:00:00Z 1 3600; 2026-03-08T07:00:00Z 2 3600");
  g_assert_cmpstr (never, ==,
                   "line 3, column “time”: the zone's clock jumps over this time; a thermometer that keeps standard time needs its fixed "
                   "offset as the zone, as in -05:00");
  g_assert_cmpstr (twice, ==,
                   "2026-11-01T04:00:00Z 1 3600; 2026-11-01T05:00:00Z 2 3600; 2026-11-01T06:00:00Z 3 3600; 2026-11-01T07:00:00Z 4 3600");
}

/* --- choosing columns --- */

static void
test_list (void)
{
  const char *text = "location,date,precipitation,temp_max,f.temp_max,tmin_f,wind\n,2012-01-01,0.5,52.8,E,41,\n";
  g_autoptr (GPtrArray) found = fr_weather_list_columns (text, strlen (text), NULL, NULL);
  g_autoptr (GString) seen = g_string_new (NULL);

  for (guint i = 0; i < found->len; i++)
    {
      const FrWeatherFound *one = found->pdata[i];

      g_string_append_printf (seen, "%s=%s%s:%s%s(%s) ", one->name, one->is_mark ? "marks of " : "", fr_weather_column_code (one->use),
                              fr_weather_unit_code (one->unit), one->is_unit_told ? "!" : "", one->example);
    }
  g_assert_cmpstr (seen->str, ==,
                   "location=none:() date=date:(2012-01-01) precipitation=rain:in(0.5) temp_max=high:f(52.8) f.temp_max=marks of high:(E) "
                   "tmin_f=low:f!(41) wind=none:() ");
}

static const struct
{
  const char *name, *text, *sentence;
} choices[] = {
  { "no-equal", "tmin", "“tmin” has to be a use, = and a column, as in low=tmin" },
  { "no-column", "low=", "“low=” has to be a use, = and a column, as in low=tmin" },
  { "no-use", "cold=tmin", "“cold=tmin” names no use of a column; known are date, time, low, high, temp, rain, snow and sun" },
  { "no-unit", "low=tmin:mm",
    "“low=tmin:mm” has a unit that does not belong to it: temperatures take c or f, rain and snow mm, cm, m or in, sun mj or kwh" },
};

static void
test_choice (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  g_auto (FrWeatherColumns) choice = { 0 };
  g_autoptr (GError) error = NULL;

  g_assert_false (fr_weather_columns_parse (&choice, choices[i].text, &error));
  g_assert_cmpstr (error->message, ==, choices[i].sentence);
}

/* A colon that is no unit belongs to the name. */
static void
test_colon (void)
{
  g_auto (FrWeatherColumns) choice = { 0 };

  g_assert_true (fr_weather_columns_parse (&choice, "low=air:low,high=air:high:f", NULL));
  g_assert_cmpstr (choice.names[FR_WEATHER_COLUMN_LOW], ==, "air:low");
  g_assert_cmpstr (choice.names[FR_WEATHER_COLUMN_HIGH], ==, "air:high");
  g_assert_cmpint (choice.units[FR_WEATHER_COLUMN_HIGH], ==, FR_WEATHER_UNIT_F);
}

/* --- open files --- */

/* Three years and a leap year, every day of them, for each city; sums as the lines say. */
static void
test_two_cities (void)
{
  gsize length;
  g_autofree char *text = fixture ("seattle-new-york.csv", &length), *refusal = read_said (text, NULL);
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  static const char *const cities[] = { "Seattle", "New York" };

  g_assert_cmpstr (refusal, ==,
                   "the table holds 2 places in its column “location”: Seattle, New York. Choose one, as in where location=Seattle");
  for (guint c = 0; c < G_N_ELEMENTS (cities); c++)
    {
      g_auto (FrWeatherColumns) choice = { .where_column = g_strdup ("location"), .where_value = g_strdup (cities[c]) };
      g_autoptr (FrWeather) weather = fr_weather_read (text, length, &choice, NULL);
      double lows = 0, highs = 0, rains = 0;
      guint n = 0;

      g_assert_nonnull (weather);
      for (guint i = 1; lines[i] != NULL && *lines[i] != '\0'; i++)
        {
          g_auto (GStrv) cells = g_strsplit (lines[i], ",", -1);
          const FrWeatherDay *day;
          g_autofree char *iso = NULL;

          if (strcmp (cells[0], cities[c]) != 0)
            continue;
          day = &g_array_index (weather->days, FrWeatherDay, n++);
          iso = fr_date_to_iso (day->date);
          g_assert_cmpstr (iso, ==, cells[1]);
          rains += atof (cells[2]) - day->rain_m * 1000;
          highs += fabs (atof (cells[3]) - day->high_c);
          lows += fabs (atof (cells[4]) - day->low_c);
        }
      g_assert_cmpuint (n, ==, 3 * 365 + 366);
      g_assert_cmpuint (weather->days->len, ==, n);
      g_assert_cmpfloat (lows, ==, 0);
      g_assert_cmpfloat (highs, ==, 0);
      g_assert_cmpfloat_with_epsilon (rains, 0, 1e-9);
      g_assert_cmpuint (weather->n_absent + weather->n_refused + weather->n_estimated + weather->n_duplicates, ==, 0);
    }
}

/* The archive's columns are airt, airtmax, airtmin (°C), prec (mm), slrt (MJ/m²), each with a mark before it as f.NAME. */
static void
test_fisher_station (void)
{
  gsize length;
  g_autofree char *text = fixture ("fisher-station-ten-days.csv", &length), *seen = read_said (text, NULL);

  g_assert_cmpstr (seen, ==,
                   "2003-01-06 -10.7 -3 rain 1 sun 2.3; 2003-01-07 -12 -4.3 rain 0 sun 4.6; 2003-01-08 -10.6 -1 rain 1.8 sun 2.4; "
                   "2003-01-09 -2 1.2 rain 2 sun 4.9; 2003-01-10 -11.4e 0.3e rain 0 sun 8.8; 2003-01-11 -12.1 -4.8 rain 0 sun 5.7; "
                   "2003-01-12 -8 -2.3 rain 0 sun 8.1; 2003-01-13 -10.5 -1.2 rain 0 sun 5.5; 2003-01-14 -15.9 -6.1 rain 0 sun 9.5; "
                   "2003-01-15 -16.4 -6 rain 0 sun 8");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (tables); i++)
    {
      g_autofree char *path = g_strdup_printf ("/weather-csv/table/%s", tables[i].name);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_table);
    }
  for (guint i = 0; i < G_N_ELEMENTS (choices); i++)
    {
      g_autofree char *path = g_strdup_printf ("/weather-csv/choice/%s", choices[i].name);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_choice);
    }
  g_test_add_func ("/weather-csv/colon", test_colon);
  g_test_add_func ("/weather-csv/counts", test_counts);
  g_test_add_func ("/weather-csv/zone", test_zone);
  g_test_add_func ("/weather-csv/list", test_list);
  g_test_add_func ("/weather-csv/two-cities", test_two_cities);
  g_test_add_func ("/weather-csv/fisher-station", test_fisher_station);
  return g_test_run ();
}
