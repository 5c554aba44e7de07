/* frostrun-cli sheet on the demo's book. What is in the PDF is read by poppler (pdfinfo, pdftotext), not by
 * the code that wrote it: as many pages of the size as were asked for, the trees in the order that the round
 * of the same book tells, and the book untouched. */
#include "books.h"
#include "spawn.h"

#include <gio/gio.h>
#include <glib/gstdio.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static char *folder, *book, *pdf;

static Answer
ask (const char *options)
{
  return run ("sheet --book %s --now 2026-03-19T18:30 -o %s %s", NULL, book, pdf, options);
}

static void
assert_made (Answer *answer)
{
  g_assert_cmpstr (answer->err, ==, "");
  g_assert_cmpint (answer->code, ==, 0);
}

static void
page_size (guint *n_pages, double *width_pt, double *height_pt)
{
  const char *command[] = { "pdfinfo", pdf, NULL };
  g_autofree char *out = NULL;
  const char *at;

  run_program (command, &out);
  at = strstr (out, "Pages:");
  g_assert_cmpint (sscanf (at, "Pages: %u", n_pages), ==, 1);
  at = strstr (out, "Page size:");
  g_assert_cmpint (sscanf (at, "Page size: %lf x %lf", width_pt, height_pt), ==, 2);
}

static char *
text_of (void)
{
  const char *command[] = { "pdftotext", "-raw", pdf, "-", NULL };
  char *out = NULL;

  run_program (command, &out);
  return out;
}

/* A line of the table that begins with the number of the stop. */
static void
test_gathering (void)
{
  g_auto (Answer) answer = ask ("--kind gathering --json");
  g_autofree char *line
      = g_strdup_printf ("round --book %s --now 2026-03-19T18:30 --which planned --json", book),
      *text = text_of ();
  guint n_pages;
  double width_pt, height_pt, rows, pages;
  guint n_stops = 0;

  assert_made (&answer);
  rows = answer_number (&answer, "rows");
  pages = answer_number (&answer, "pages");
  page_size (&n_pages, &width_pt, &height_pt);
  g_assert_cmpfloat (pages, ==, n_pages);
  /* A4, ISO 216: 210 by 297 mm */
  g_assert_cmpfloat_with_epsilon (width_pt, 210 / 25.4 * 72, 0.5);
  g_assert_cmpfloat_with_epsilon (height_pt, 297 / 25.4 * 72, 0.5);
  g_assert_nonnull (strstr (text, "Sap, L"));
  g_assert_nonnull (strstr (text, "2026"));
  {
    g_auto (Answer) round = cli_run (line, NULL, 0);
    JsonArray *trips;

    assert_made (&round);
    trips = json_object_get_array_member (json_node_get_object (answer_root (&round)), "trips");
    for (guint t = 0; t < json_array_get_length (trips); t++)
      {
        JsonArray *stops = json_array_get_array_element (trips, t);

        for (guint i = 0; i < json_array_get_length (stops); i++)
          {
            g_autofree char *row = g_strdup_printf (
                "%u %s ", ++n_stops,
                json_object_get_string_member (json_array_get_object_element (stops, i), "name"));

            if (strstr (text, row) == NULL)
              g_error ("no row “%s” in\n%s", row, text);
          }
      }
  }
  g_assert_cmpfloat (rows, ==, n_stops);
}

static void
test_measuring (void)
{
  g_auto (Answer) answer = ask ("--kind measuring --paper letter --landscape --json");
  g_autofree char *text = text_of ();
  guint n_pages;
  double width_pt, height_pt;

  assert_made (&answer);
  g_assert_cmpfloat (answer_number (&answer, "rows"), ==, 31);
  page_size (&n_pages, &width_pt, &height_pt);
  /* US Letter, ANSI/ASME Y14.1: 8.5 by 11 in */
  g_assert_cmpfloat_with_epsilon (width_pt, 11 * 72, 0.5);
  g_assert_cmpfloat_with_epsilon (height_pt, 8.5 * 72, 0.5);
  g_assert_nonnull (strstr (text, "Girth, cm"));
  g_assert_nonnull (strstr (text, "Old Lady"));
}

static void
test_map (void)
{
  guint n_pages;
  double width_pt, height_pt;

  {
    g_auto (Answer) answer = ask ("--kind map --json");

    assert_made (&answer);
    g_assert_cmpfloat (answer_number (&answer, "pages"), ==, 1);
    page_size (&n_pages, &width_pt, &height_pt);
    g_assert_cmpuint (n_pages, ==, 1);
  }
  {
    g_auto (Answer) answer = ask ("--kind map --scale 250 --json");
    g_autofree char *text = text_of ();

    assert_made (&answer);
    g_assert_cmpfloat (answer_number (&answer, "scale"), ==, 250);
    page_size (&n_pages, &width_pt, &height_pt);
    g_assert_cmpfloat (answer_number (&answer, "pages"), ==, n_pages);
    g_assert_cmpuint (n_pages, >, 1);
    g_assert_nonnull (strstr (text, "1 : 250"));
    g_assert_nonnull (strstr (text, "House"));
  }
}

/* The litres of each day of a season, summed straight from the demo's file. All its gatherings are by volume and in
 * the afternoon, so that the day in UTC is the household's. Free the keys and values. */
static GHashTable *
litres_by_day (const char *from, const char *to)
{
  GHashTable *days = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_autoptr (JsonParser) parser = json_parser_new ();
  g_autoptr (GError) error = NULL;
  JsonArray *gatherings;

  json_parser_load_from_file (parser, g_getenv ("FROSTRUN_DEMO"), &error);
  g_assert_no_error (error);
  gatherings
      = json_object_get_array_member (json_node_get_object (json_parser_get_root (parser)), "gathering");
  for (guint i = 0; i < json_array_get_length (gatherings); i++)
    {
      JsonObject *one = json_array_get_object_element (gatherings, i);
      const char *when = json_object_get_string_member (one, "gathered_utc");
      double *sum;

      if (strcmp (when, from) < 0 || strcmp (when, to) > 0)
        continue;
      g_autofree char *day = g_strndup (when, 10);
      sum = g_hash_table_lookup (days, day);
      if (sum == NULL)
        {
          sum = g_new0 (double, 1);
          g_hash_table_insert (days, g_steal_pointer (&day), sum);
        }
      *sum += json_object_get_double_member (one, "volume_l");
    }
  return days;
}

/* The line that begins so; fails when there is none. */
static char *
line_with (const char *text, const char *start)
{
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);

  for (guint i = 0; lines[i] != NULL; i++)
    if (g_str_has_prefix (lines[i], start))
      return g_strdup (lines[i]);
  g_error ("no line “%s” in\n%s", start, text);
}

static void
test_season (void)
{
  g_auto (Answer) answer = ask ("--kind season --months --json");
  g_autofree char *text = text_of ();
  g_autoptr (GHashTable) days = litres_by_day ("2025-08-01", "2026-03-20");
  GHashTableIter iter;
  gpointer key, value;
  double all_l = 0, width_pt, height_pt;
  guint n_pages;

  assert_made (&answer);
  page_size (&n_pages, &width_pt, &height_pt);
  g_assert_cmpfloat (answer_number (&answer, "pages"), ==, n_pages);
  g_assert_cmpuint (n_pages, >=, 4);
  g_assert_cmpfloat_with_epsilon (width_pt, 297 / 25.4 * 72, 0.5);
  g_assert_cmpuint (g_hash_table_size (days), >, 3);
  g_assert_cmpfloat (answer_number (&answer, "rows"), >=, g_hash_table_size (days));
  g_hash_table_iter_init (&iter, days);
  while (g_hash_table_iter_next (&iter, &key, &value))
    {
      g_autofree char *iso = g_strdup_printf ("%sT12:00:00Z", (const char *)key);
      g_autoptr (GDateTime) noon = g_date_time_new_from_iso8601 (iso, NULL);
      g_autofree char *date = g_date_time_format (noon, "%A %-e %B "),
                      *litres = g_strdup_printf (" %.1f ", *(double *)value), *row = NULL;

      /* The page's own date has nothing behind it. */
      row = line_with (text, date);
      if (strstr (row, litres) == NULL)
        g_error ("“%s” does not hold “%s”", row, litres);
      all_l += *(double *)value;
    }
  {
    g_autofree char *sentence = g_strdup_printf ("%.0f", all_l);

    g_assert_cmpfloat (all_l, >=, 100);
    g_assert_true (g_str_has_prefix (text, "Thursday 19 March"));
    g_assert_nonnull (strstr (text, sentence));
  }
  g_assert_nonnull (strstr (text, "March 2026"));
  g_assert_nonnull (strstr (text, "clocks go forward"));

  /* Another one, without its months and on the other paper. */
  {
    g_auto (Answer) past = ask ("--kind season --season 2025 --paper letter --json");
    g_autofree char *other = text_of ();

    assert_made (&past);
    page_size (&n_pages, &width_pt, &height_pt);
    g_assert_cmpfloat_with_epsilon (width_pt, 11 * 72, 0.5);
    g_assert_nonnull (strstr (other, "2025"));
    g_assert_null (strstr (other, "March 2025"));
    g_assert_null (strstr (other, "Today"));
  }
  /* And one without an entry says so. */
  {
    g_auto (Answer) none = ask ("--kind season --season 1990");
    g_autofree char *other = text_of ();

    assert_made (&none);
    g_assert_nonnull (strstr (other, "Nothing is written down of this season."));
  }
}

/* A text in one line, single plain spaces. */
static char *
flat (const char *text)
{
  g_auto (GStrv) parts = g_strsplit (text, "\u00a0", -1);
  g_autofree char *spaced = g_strjoinv (" ", parts);
  g_auto (GStrv) words = g_strsplit_set (spaced, " \n\f", -1);
  GString *all = g_string_new (NULL);

  for (guint i = 0; words[i] != NULL; i++)
    if (words[i][0] != '\0')
      g_string_append_printf (all, all->len > 0 ? " %s" : "%s", words[i]);
  return g_string_free (all, FALSE);
}

/* Every line of @told up to the first empty one, but for the first @n_skipped; how many. */
static guint
assert_says (const char *text, const char *told, guint n_skipped)
{
  g_autofree char *all = flat (text);
  g_auto (GStrv) lines = g_strsplit (told, "\n", -1);
  guint n = n_skipped;

  for (; lines[n] != NULL && lines[n][0] != '\0'; n++)
    {
      g_autofree char *line = flat (lines[n]);

      if (strstr (all, line) == NULL)
        g_error ("“%s” is not in\n%s", line, text);
    }
  return n - n_skipped;
}

/* The first sentences of the command that tells the same book's forecast, and its days' lows and chances. */
static void
test_forecast (void)
{
  g_auto (Answer) answer = ask ("--kind forecast --json");
  g_auto (Answer) told = run ("forecast --book %s --now 2026-03-19T18:30", NULL, book);
  g_auto (Answer) numbers = run ("forecast --book %s --now 2026-03-19T18:30 --json", NULL, book);
  g_autofree char *text = text_of ();
  guint n_pages, n_known = 0;
  double width_pt, height_pt;
  JsonArray *days;

  assert_made (&answer);
  assert_made (&told);
  assert_made (&numbers);
  page_size (&n_pages, &width_pt, &height_pt);
  g_assert_cmpfloat (answer_number (&answer, "pages"), ==, n_pages);
  g_assert_cmpfloat_with_epsilon (width_pt, 210 / 25.4 * 72, 0.5);
  g_assert_cmpuint (assert_says (text, told.out, 0), >=, 3);
  days = json_object_get_array_member (json_node_get_object (answer_root (&numbers)), "days");
  for (guint i = 0; i < json_array_get_length (days); i++)
    {
      JsonObject *day = json_array_get_object_element (days, i);
      const char *iso = json_object_get_string_member (day, "date");
      g_autofree char *noon_text = g_strdup_printf ("%sT12:00:00Z", iso), *row = NULL, *date = NULL, *chance = NULL;
      g_autoptr (GDateTime) noon = NULL;

      /* From the day of the moment on, as far as paper has room: two weeks with the day before. */
      if (strcmp (iso, "2026-03-19") < 0 || strcmp (iso, "2026-03-31") > 0)
        continue;
      noon = g_date_time_new_from_iso8601 (noon_text, NULL);
      date = g_date_time_format (noon, "%A %-e %B ");
      row = line_with (text, date);
      chance = g_strdup_printf (" %.0f ", 100 * json_object_get_double_member (day, "run_probability"));
      if (strstr (row, chance) == NULL)
        g_error ("“%s” does not hold “%s”", row, chance);
      n_known++;
    }
  g_assert_cmpuint (n_known, >=, 10);
  g_assert_cmpfloat (answer_number (&answer, "rows"), >=, n_known);

  /* Other paper, and a moment before any hole of the season: when to tap is said first. The command says before it that none is drilled. */
  {
    g_auto (Answer) before
        = run ("sheet --book %s --now 2026-01-20T12:00 -o %s --kind forecast --paper letter", NULL, book, pdf);
    g_auto (Answer) told_before = run ("forecast --book %s --now 2026-01-20T12:00", NULL, book);
    g_autofree char *other = text_of ();

    assert_made (&before);
    page_size (&n_pages, &width_pt, &height_pt);
    g_assert_cmpfloat_with_epsilon (width_pt, 8.5 * 72, 0.5);
    g_assert_cmpuint (assert_says (other, told_before.out, 1), >=, 3);
  }
}

static void
assert_refused (const char *options, const char *sentence)
{
  g_auto (Answer) answer = ask (options);

  g_assert_cmpint (answer.code, !=, 0);
  if (strstr (answer.err, sentence) == NULL)
    g_error ("“%s” is not in “%s”", sentence, answer.err);
  g_assert_cmpstr (answer.out, ==, "");
}

static void
test_refusals (void)
{
  g_autofree char *before = NULL, *after = NULL, *line = NULL;
  gsize n_before, n_after;

  g_unlink (pdf);
  assert_refused ("", "--kind is missing");
  assert_refused ("--kind poster", "--kind “poster” must be");
  assert_refused ("--kind map --paper a3", "--paper “a3” must be a4 or letter");
  assert_refused ("--kind map --scale 0", "--scale “0” has to be a whole number");
  assert_refused ("--kind gathering --scale 500", "--scale goes with --kind map");
  assert_refused ("--kind map --months", "--months goes with --kind season");
  assert_refused ("--kind season --scale 500", "--scale goes with --kind map");
  assert_refused ("--kind forecast --months", "--months goes with --kind season");
  assert_refused ("--kind forecast --season 2025", "--season does not go with --kind forecast");
  assert_refused ("--kind map --scale 10", "pages, more than");
  assert_refused ("--kind gathering --season 1990", "no tree has a tap set or planned");
  g_assert_false (g_file_test (pdf, G_FILE_TEST_EXISTS));

  /* never over the book */
  g_assert_true (g_file_get_contents (book, &before, &n_before, NULL));
  line = g_strdup_printf ("sheet --book %s --kind map -o %s", book, book);
  {
    g_auto (Answer) answer = cli_run (line, NULL, 0);

    g_assert_cmpint (answer.code, !=, 0);
    g_assert_nonnull (strstr (answer.err, "is the book itself"));
  }
  g_assert_true (g_file_get_contents (book, &after, &n_after, NULL));
  g_assert_cmpmem (before, n_before, after, n_after);
}

int
main (int argc, char **argv)
{
  int result;

  g_test_init (&argc, &argv, NULL);
  folder = make_folder ();
  book = g_build_filename (folder, "demo.frostrun", NULL);
  pdf = g_build_filename (folder, "sheet.pdf", NULL);
  make_book (book, NULL, "2026-03-19T18:30:00-04:00");
  g_test_add_func ("/cli-sheet/gathering", test_gathering);
  g_test_add_func ("/cli-sheet/measuring", test_measuring);
  g_test_add_func ("/cli-sheet/map", test_map);
  g_test_add_func ("/cli-sheet/season", test_season);
  g_test_add_func ("/cli-sheet/forecast", test_forecast);
  g_test_add_func ("/cli-sheet/refusals", test_refusals);
  result = g_test_run ();
  drop_folder (folder);
  g_free (book);
  g_free (pdf);
  return result;
}
