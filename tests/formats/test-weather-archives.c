/* GHCN-Daily and the daily files of Environment and Climate Change Canada. What is expected is worked out by hand from the formats'
 * documentation: the readme of GHCN-Daily (columns of the fixed width, marks, tenths, −9999) and the legend of the Canadian archive's
 * files (M missing, E estimated, T trace). The files are made up to show the syntax. */
#include "weather-said.h"

/* --- GHCN-Daily --- */

/* A line of .dly: @cells from the first day on, 8 characters each, the rest of 31 without a value. Free it. */
static char *
dly (const char *head, const char *cells)
{
  GString *line = g_string_new (head);

  g_string_append (line, cells);
  while (line->len < 21 + 31 * 8)
    g_string_append (line, "-9999   ");
  g_string_append_c (line, '\n');
  return g_string_free (line, FALSE);
}

static void
test_dly_file (void)
{
  gsize length;
  g_autofree char *text = fixture ("ghcnd-synthetic.dly", &length), *seen = read_said (text, NULL);
  g_autoptr (FrWeather) weather = fr_weather_read (text, length, NULL, NULL);

  /* 269 characters a line: 21 and 31 times 8. */
  g_assert_cmpuint (strcspn (text, "\r\n"), ==, 269);
  g_assert_cmpstr (seen, ==,
                   "2026-02-01 ? ? rain 0; 2026-02-02 ? ? rain 5.3; 2026-03-01 -6.1 7.2; 2026-03-02 -12.8 -1.1; 2026-03-03 -2 ?r; "
                   "2026-03-05 -5 0");
  g_assert_cmpint (weather->format, ==, FR_WEATHER_GHCND_DLY);
  g_assert_cmpstr (weather->station, ==, "USC00999999");
  g_assert_cmpuint (weather->n_refused, ==, 1);
  g_assert_cmpuint (weather->n_trace, ==, 1);
  g_assert_cmpint (weather->reading_minute, ==, -1);
}

static const struct
{
  const char *name, *head, *cells, *said;
} lines[] = {
  /* February 2026 has 28 days. */
  { "month-end", "USC00999999202602TMAX",
    "-9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   "
    "-9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999       5  7",
    "2026-02-28 ? 0.5" },
  { "beyond-month", "USC00999999202602TMAX",
    "-9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   "
    "-9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999       5  7",
    "line 1: TMAX has a value for day 29, which the month does not have" },
  { "leap-day", "USC00999999202402TMIN",
    "-9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   "
    "-9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999   -9999      -5  7",
    "2024-02-29 -0.5 ?" },
  { "snow-depth", "USC00999999202603SNWD", "  254  7", "2026-03-01 ? ? snow 25.4" },
  { "rain", "USC00999999202603PRCP", "   53  7", "2026-03-01 ? ? rain 5.3" },
  { "presumed-zero", "USC00999999202603PRCP", "    0P 7", "2026-03-01 ? ? rain 0" },
  { "lagged", "USC00999999202603TMAX", "   72L 7", "2026-03-01 ? 7.2e" },
  { "of-hourly-values", "USC00999999202603TMIN", "  -72H 7", "2026-03-01 -7.2e ?" },
  { "every-check-D", "USC00999999202603TMAX", "   72 D7", "2026-03-01 ? ?r" },
  { "every-check-Z", "USC00999999202603TMIN", "   72 Z7", "2026-03-01 ?r ?" },
  /* A value that failed its check is not looked at, however wild. */
  { "wild-but-refused", "USC00999999202603TMAX", " 9876 X7", "2026-03-01 ? ?r" },
  { "wild", "USC00999999202603TMAX", " 9876  7",
    "line 1, column “TMAX”: “9876” is no air temperature (over 90 °C from freezing); leave the cell empty where there is no value" },
  { "failed-rain", "USC00999999202603PRCP", "   53 X7", "the file has no value of TMAX, TMIN, PRCP or SNWD" },
  { "other-element", "USC00999999202603TOBS", "   53  7", "the file has no value of TMAX, TMIN, PRCP or SNWD" },
  { "letters", "USC00999999202603TMAX", "  7x2  7",
    "line 1: TMAX of day 1 is “  7x2  7”; it has to be a whole number of five characters and three marks" },
};

static void
test_dly_line (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  g_autofree char *text = dly (lines[i].head, lines[i].cells), *seen = read_said (text, NULL);

  g_assert_cmpstr (seen, ==, lines[i].said);
}

/* Blanks at the end taken away, line ends of both kinds. */
static void
test_dly_cut (void)
{
  g_autofree char *seen = read_said ("USC00999999202603TMAX   72  7\r\nUSC00999999202603TMIN  -61\r\n", NULL);

  g_assert_cmpstr (seen, ==, "2026-03-01 -6.1 7.2");
}

static void
test_dly_broken (void)
{
  g_autofree char *first = dly ("USC00999999202603TMAX", "   72  7"), *text = g_strconcat (first, "USC00999999202613TMAX   72  7\n", NULL),
                  *seen = read_said (text, NULL);

  g_assert_cmpstr (seen, ==,
                   "line 2: a line of GHCN-Daily begins with a station of 11 letters and digits, year, month and element; this one does not");
}

static void
test_rows_file (void)
{
  gsize length;
  g_autofree char *text = fixture ("ghcnd-byyear-synthetic.csv", &length), *seen = read_said (text, NULL);
  g_autoptr (FrWeather) weather = fr_weather_read (text, length, NULL, NULL);

  g_assert_cmpstr (seen, ==, "2026-03-01 -6.1 7.2 rain 0; 2026-03-03 ? ?r");
  g_assert_cmpint (weather->format, ==, FR_WEATHER_GHCND_ROWS);
  g_assert_cmpuint (weather->n_refused, ==, 1);
  g_assert_cmpuint (weather->n_trace, ==, 1);
  /* 0700. */
  g_assert_cmpint (weather->reading_minute, ==, 420);
}

static const struct
{
  const char *name, *where, *text, *said;
} rows[] = {
  { "head", NULL, "ID,DATE,ELEMENT,DATA_VALUE,M_FLAG,Q_FLAG,S_FLAG,OBS_TIME\nUSC00999999,20260301,TMAX,72,,,7,0700\n", "2026-03-01 ? 7.2" },
  { "no-clock", NULL, "USC00999999,20260301,TMAX,72,,,7\n", "2026-03-01 ? 7.2" },
  { "no-value", NULL, "USC00999999,20260301,TMAX,-9999,,,7,\nUSC00999999,20260301,TMIN,-9,,,7,\n", "2026-03-01 -0.9 ?" },
  { "unordered", NULL, "USC00999999,20260302,TMAX,10,,,7,\nUSC00999999,20260301,TMAX,20,,,7,\n", "2026-03-01 ? 2; 2026-03-02 ? 1" },
  { "stations", NULL, "USC00999999,20260302,TMAX,10,,,7,\nUSC00999998,20260301,TMAX,20,,,7,\n",
    "line 2: the file holds several stations, USC00999999 and USC00999998 among them. Choose one, as in where station=USC00999999" },
  { "one-station", "station=usc00999998", "USC00999999,20260302,TMAX,10,,,7,\nUSC00999998,20260301,TMAX,20,,,7,\n", "2026-03-01 ? 2" },
  { "no-such-station", "station=X", "USC00999999,20260302,TMAX,10,,,7,\n", "the file has no row of the station “X”" },
  { "other-where", "place=X", "USC00999999,20260302,TMAX,10,,,7,\n",
    "rows of GHCN-Daily are chosen by their station, as in where station=USC00999999, and not by “place”" },
  { "bad-day", NULL, "USC00999999,20260302,TMAX,10,,,7,\nUSC00999999,20260231,TMAX,10,,,7,\n",
    "line 2: “20260231” is no day; it has to be eight digits, year, month and day" },
  { "bad-value", NULL, "USC00999999,20260302,TMAX,1.5,,,7,\n", "line 1, column “TMAX”: “1.5” is no whole number in tenths" },
  { "not-utf8", NULL, "USC00999999,20260302,TMAX,10,,,7,\nUSC00999999,20260303,TMAX,10,\x9b,,7,\n",
    "line 2: the file is not text in UTF-8. Save it in UTF-8 and try again" },
  { "short-row", NULL, "USC00999999,20260302,TMAX,10,,,7,\nUSC00999999,20260303,TMAX\n",
    "line 2: the row has 3 fields; station, day, element, value and three marks are 7" },
};

static void
test_row (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  g_auto (FrWeatherColumns) choice = { 0 };
  g_autofree char *seen = NULL;

  if (rows[i].where != NULL)
    g_assert_true (fr_weather_columns_parse_where (&choice, rows[i].where, NULL));
  seen = read_said (rows[i].text, &choice);
  g_assert_cmpstr (seen, ==, rows[i].said);
}

/* Most of the extremes decide; midnight at the day's end is 2400. */
static void
test_reading (void)
{
  const char *text = "USC00999999,20260301,TMAX,10,,,7,0700\nUSC00999999,20260302,TMAX,10,,,7,2400\nUSC00999999,20260303,TMAX,10,,,7,2400\n"
                     "USC00999999,20260303,PRCP,0,,,7,0700\nUSC00999999,20260304,PRCP,0,,,7,0700\nUSC00999999,20260305,PRCP,0,,,7,0700\n";
  g_autoptr (FrWeather) weather = fr_weather_read (text, strlen (text), NULL, NULL);

  g_assert_cmpint (weather->reading_minute, ==, 1440);
}

static void
test_table_file (void)
{
  gsize length;
  g_autofree char *text = fixture ("ghcnd-access-synthetic.csv", &length), *seen = read_said (text, NULL);
  g_autoptr (FrWeather) weather = fr_weather_read (text, length, NULL, NULL);

  g_assert_cmpstr (seen, ==, "2026-03-01 -6.1 7.2 rain 0; 2026-03-03 -2 ?r");
  g_assert_cmpint (weather->format, ==, FR_WEATHER_GHCND_TABLE);
  g_assert_cmpstr (weather->place_name, ==, "SYNTHETIC STATION, VT US");
  g_assert_cmpfloat (weather->latitude_deg, ==, 44.26);
  g_assert_cmpfloat (weather->longitude_deg, ==, -72.58);
  g_assert_cmpfloat (weather->altitude_m, ==, 180);
  g_assert_cmpuint (weather->n_refused, ==, 1);
  g_assert_cmpuint (weather->n_trace, ==, 1);
  g_assert_cmpint (weather->reading_minute, ==, 420);
}

/* --- Environment and Climate Change Canada --- */

#define HEAD \
  "\"Longitude (x)\",\"Latitude (y)\",\"Station Name\",\"Climate ID\",\"Date/Time\",\"Year\",\"Month\",\"Day\",\"Data Quality\",\"Max Temp (°C)\"," \
  "\"Max Temp Flag\",\"Min Temp (°C)\",\"Min Temp Flag\",\"Total Precip (mm)\",\"Total Precip Flag\",\"Snow on Grnd (cm)\",\"Snow on Grnd Flag\"," \
  "\"Spd of Max Gust (km/h)\"\n"
#define DAY(date, rest) "\"-75.70\",\"45.42\",\"SYNTHETIC\",\"9999999\",\"" date "\",\"\",\"\",\"\",\"\"," rest "\n"

static void
test_eccc_file (void)
{
  gsize length;
  g_autofree char *text = fixture ("eccc-daily-synthetic.csv", &length), *seen = read_said (text, NULL);
  g_autoptr (FrWeather) weather = fr_weather_read (text, length, NULL, NULL);

  /* With a mark of the byte order, 31 columns and a gust of "<31". */
  g_assert_true (g_str_has_prefix (text, "\xEF\xBB\xBF"));
  g_assert_nonnull (strstr (text, "<31"));
  g_assert_cmpstr (seen, ==, "2026-03-01 -4.8 6.2 rain 0 snow 18; 2026-03-02 -7.1e ? rain 0 snow 17");
  g_assert_cmpint (weather->format, ==, FR_WEATHER_ECCC_DAILY);
  g_assert_cmpstr (weather->place_name, ==, "SYNTHETIC CDA");
  g_assert_cmpstr (weather->station, ==, "9999999");
  g_assert_cmpfloat (weather->latitude_deg, ==, 45.42);
  g_assert_cmpfloat (weather->longitude_deg, ==, -75.7);
  g_assert_cmpuint (weather->n_absent, ==, 1);
  g_assert_cmpuint (weather->n_estimated, ==, 1);
  g_assert_cmpuint (weather->n_trace, ==, 1);
}

static const struct
{
  const char *name, *text, *said;
} days[] = {
  { "marks", HEAD DAY ("2026-03-01", "\"6.2\",\"E\",\"-4\",\"C\",\"1.2\",\"A\",\"18\",\"\",\"<31\""), "2026-03-01 -4e 6.2e rain 1.2 snow 18" },
  { "missing-though-written", HEAD DAY ("2026-03-01", "\"6.2\",\"M\",\"-4\",\"\",\"\",\"L\",\"\",\"\",\"\""), "2026-03-01 -4 ?" },
  { "days-to-come", HEAD DAY ("2026-03-01", "\"6.2\",\"\",\"-4\",\"\",\"\",\"\",\"\",\"\",\"\"")
                        DAY ("2026-03-02", "\"\",\"\",\"\",\"\",\"\",\"\",\"\",\"\",\"\"")
                            DAY ("2026-03-03", "\"\",\"\",\"\",\"\",\"\",\"\",\"\",\"\",\"\""),
    "2026-03-01 -4 6.2" },
  { "empty-within", HEAD DAY ("2026-03-01", "\"6.2\",\"\",\"-4\",\"\",\"\",\"\",\"\",\"\",\"\"")
                        DAY ("2026-03-02", "\"\",\"M\",\"\",\"M\",\"\",\"\",\"\",\"\",\"\"")
                            DAY ("2026-03-03", "\"1\",\"\",\"\",\"M\",\"\",\"\",\"\",\"\",\"\""),
    "2026-03-01 -4 6.2; 2026-03-02 ? ?; 2026-03-03 ? 1" },
  { "columns-elsewhere",
    "\"Date/Time\",\"Min Temp Flag\",\"Min Temp (°C)\",\"Max Temp Flag\",\"Max Temp (°C)\"\n\"2026-03-01\",\"E\",\"-4\",\"\",\"6\"\n",
    "2026-03-01 -4e 6" },
  { "old-preamble",
    "\"Station Name\",\"OLD SYNTHETIC\"\n\"Province\",\"ONTARIO\"\n\"Latitude\",\"45.38\"\n\"Longitude\",\"-75.72\"\n\"Elevation\",\"79.20\"\n"
    "\"Climate Identifier\",\"9999998\"\n\"WMO Identifier\",\"\"\n\"TC Identifier\",\"\"\n\n\"Legend\"\n\"A\",\"Accumulated\"\n"
    "\"C\",\"Precipitation occurred, amount uncertain\"\n\"E\",\"Estimated\"\n\"F\",\"Accumulated and estimated\"\n"
    "\"L\",\"Precipitation may or may not have occurred\"\n\"M\",\"Missing\"\n\"N\",\"Temperature missing but known to be > 0\"\n"
    "\"S\",\"More than one occurrence\"\n\"T\",\"Trace\"\n\"Y\",\"Temperature missing but known to be < 0\"\n\"[empty]\",\"No data available\"\n"
    "\"^\",\"The value displayed is based on incomplete data\"\n\n"
    "\"Date/Time\",\"Year\",\"Month\",\"Day\",\"Data Quality\",\"Max Temp (°C)\",\"Max Temp Flag\",\"Min Temp (°C)\",\"Min Temp Flag\"\n"
    "\"2006-03-01\",\"2006\",\"03\",\"01\",\"\",\"-3.4\",\"\",\"-14.2\",\"\"\n\"2006-03-02\",\"2006\",\"03\",\"02\",\"\",\"\",\"N\",\"-9\",\"^\"\n",
    "2006-03-01 -14.2 -3.4; 2006-03-02 -9e ?" },
  /* From memory. */
  { "french",
    "\"Longitude (x)\",\"Latitude (y)\",\"Nom de la Station\",\"ID climatologique\",\"Date/Heure\",\"Temp max.(°C)\",\"Temp max. Indicateur\","
    "\"Temp min.(°C)\",\"Temp min. Indicateur\",\"Précip. totales (mm)\",\"Précip. totales Indicateur\",\"Neige au sol (cm)\"\n"
    "\"-72.00\",\"46.00\",\"SYNTHÉTIQUE\",\"7999999\",\"2026-03-01\",\"6.2\",\"\",\"-4.8\",\"E\",\"0.0\",\"T\",\"18\"\n",
    "2026-03-01 -4.8e 6.2 rain 0 snow 18" },
  { "bad-number", HEAD DAY ("2026-03-01", "\"warm\",\"\",\"-4\",\"\",\"\",\"\",\"\",\"\",\"\""), "line 2, column “Max Temp”: “warm” is no number" },
  { "absurd", HEAD DAY ("2026-03-01", "\"621\",\"\",\"-4\",\"\",\"\",\"\",\"\",\"\",\"\""),
    "line 2, column “Max Temp”: “621” is no air temperature (over 90 °C from freezing); leave the cell empty where there is no value" },
  { "bad-day", HEAD DAY ("2026-02-30", "\"6\",\"\",\"-4\",\"\",\"\",\"\",\"\",\"\",\"\""),
    "line 2, column “Date/Time”: “2026-02-30” is no day; write it as year-month-day, as in 2026-03-19" },
  { "nothing", HEAD DAY ("2026-03-01", "\"\",\"M\",\"\",\"M\",\"\",\"\",\"\",\"\",\"\""), "the file has no day with a value" },
};

static void
test_eccc_day (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  g_autofree char *seen = read_said (days[i].text, NULL);

  g_assert_cmpstr (seen, ==, days[i].said);
}

static void
test_eccc_preamble (void)
{
  const char *text = days[5].text;
  g_autoptr (FrWeather) weather = fr_weather_read (text, strlen (text), NULL, NULL);

  g_assert_cmpstr (days[5].name, ==, "old-preamble");
  g_assert_cmpstr (weather->place_name, ==, "OLD SYNTHETIC");
  g_assert_cmpstr (weather->station, ==, "9999998");
  g_assert_cmpfloat (weather->altitude_m, ==, 79.2);
  g_assert_cmpfloat (weather->latitude_deg, ==, 45.38);
}

/* No archive's form needs its columns chosen. */
static void
test_no_columns (void)
{
  static const char *const files[] = { "ghcnd-synthetic.dly", "ghcnd-byyear-synthetic.csv", "ghcnd-access-synthetic.csv", "eccc-daily-synthetic.csv" };

  for (guint i = 0; i < G_N_ELEMENTS (files); i++)
    {
      gsize length;
      g_autofree char *text = fixture (files[i], &length);
      g_autoptr (GPtrArray) found = fr_weather_list_columns (text, length, NULL, NULL);

      g_assert_cmpuint (found->len, ==, 0);
    }
}

#define ADD_ALL(list, prefix, test)                                                                                                      \
  for (guint i = 0; i < G_N_ELEMENTS (list); i++)                                                                                        \
    {                                                                                                                                    \
      g_autofree char *path = g_strdup_printf ("/weather-archives/" prefix "/%s", list[i].name);                                        \
                                                                                                                                         \
      g_test_add_data_func (path, GUINT_TO_POINTER (i), test);                                                                           \
    }

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/weather-archives/dly-file", test_dly_file);
  ADD_ALL (lines, "dly", test_dly_line)
  g_test_add_func ("/weather-archives/dly-cut", test_dly_cut);
  g_test_add_func ("/weather-archives/dly-broken", test_dly_broken);
  g_test_add_func ("/weather-archives/rows-file", test_rows_file);
  ADD_ALL (rows, "rows", test_row)
  g_test_add_func ("/weather-archives/reading", test_reading);
  g_test_add_func ("/weather-archives/table-file", test_table_file);
  g_test_add_func ("/weather-archives/eccc-file", test_eccc_file);
  ADD_ALL (days, "eccc", test_eccc_day)
  g_test_add_func ("/weather-archives/eccc-preamble", test_eccc_preamble);
  g_test_add_func ("/weather-archives/no-columns", test_no_columns);
  return g_test_run ();
}
