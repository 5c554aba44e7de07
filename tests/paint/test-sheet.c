/* The sheet for the shed: the words are in the document, it has a title, as many pages as it should, and
 * nothing overflows. What is in the PDF is read by poppler's pdftotext and pdfinfo, not by the code that
 * wrote it. Page sizes: ISO 216 (A4) and ANSI Letter. With FROSTRUN_PICTURES set to a folder the documents
 * are kept there. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include <glib/gstdio.h>

#include "night.h"
#include "paint/sheet.h"

static const FrSheetTime times[]
    = { { "19:00", "Switch on" }, { "06:07", "Bucket dry" }, { "06:48", "Cuts off" } };
static const FrSheetFigure figures[] = {
  { "Sap used tonight", "<b>25.0</b> L", "6.0 L stays for Friday" },
  { "Left in the pan", "<b>0.97</b> kg", "57 °Bx, not past syrup" },
  { "Still to finish", "<b>0.14</b> kg", "water, for 0.62 L" },
  { "Night’s cost", "<b>$2.00</b>", "21.2 kWh" },
  { "Limit", "<b>Time</b>", "then 60 °Bx, +1.8 L" },
};
static const FrSheetFigure feeds[] = {
  { "Set the drip to", "<b>34</b> ml/min", NULL },
  { "100 ml in", "<b>2:55</b> min", NULL },
  { "Hole at 30 cm", "<b>0.7</b> mm", NULL },
};
static const FrSheetCaution cautions[] = {
  { "15.0 A of 16.0 A on the shed circuit. Nothing else may run on it.", FALSE },
  { "−6 °C at 04:00. Wrap the feed line or it freezes.", FALSE },
  { "Steam goes outdoors, no flame.", TRUE },
};

static FrSheet
full_sheet (const Night *night)
{
  return (FrSheet){
    .title = "Tonight’s boil",
    .author = "Hollow Lane",
    .date = "Thursday 11 March",
    .sentence_markup
    = "Pour <b>2.5 L</b> into the pan and <b>22.5 L</b> into the bucket. Start at <b>19:00</b>.",
    .reason
    = "Dry at 06:07. The pan cuts off at 06:48 with 0.8 L at 57 °Bx, 12 minutes before the price doubles.",
    .times = times,
    .n_times = G_N_ELEMENTS (times),
    .figures = figures,
    .n_figures = G_N_ELEMENTS (figures),
    .trace = &night->view,
    .feed_heading = "Feed",
    .feeds = feeds,
    .n_feeds = G_N_ELEMENTS (feeds),
    .cautions_heading = "Cautions",
    .cautions = cautions,
    .n_cautions = G_N_ELEMENTS (cautions),
    .footer = "Hollow Lane, 250 m. Somebody stays within call while it boils.",
  };
}

/* Writes the document to a file of its own and gives back what a poppler tool prints about it. */
static char *
ask (GBytes *pdf, const char *tool, const char *option, const char *keep_as)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = g_dir_make_tmp ("frostrun-sheet-XXXXXX", &error);
  g_assert_no_error (error);
  g_autofree char *path = g_build_filename (folder, "sheet.pdf", NULL);
  gsize size;
  const char *data = g_bytes_get_data (pdf, &size);
  char *out = NULL;
  g_autofree char *err = NULL;
  int status = 0;

  g_assert_true (g_file_set_contents (path, data, (gssize)size, &error));
  const char *argv_text[] = { tool, option, path, "-", NULL };
  const char *argv_info[] = { tool, path, NULL };
  gboolean text = strcmp (tool, "pdftotext") == 0;
  g_assert_true (g_spawn_sync (NULL, (char **)(text ? argv_text : argv_info), NULL, G_SPAWN_SEARCH_PATH, NULL,
                               NULL, &out, &err, &status, &error));
  g_assert_no_error (error);
  g_assert_cmpint (status, ==, 0);
  g_assert_cmpstr (err, ==, "");
  g_assert_cmpint (g_remove (path), ==, 0);
  g_assert_cmpint (g_rmdir (folder), ==, 0);
  if (keep_as != NULL && g_getenv ("FROSTRUN_PICTURES") != NULL)
    {
      g_autofree char *kept = g_build_filename (g_getenv ("FROSTRUN_PICTURES"), keep_as, NULL);
      g_assert_true (g_file_set_contents (kept, data, (gssize)size, NULL));
    }
  return out;
}

/* Line breaks are the layout's business. */
static char *
flat (const char *text)
{
  g_autoptr (GRegex) spaces = g_regex_new ("\\s+", 0, 0, NULL);

  return g_regex_replace_literal (spaces, text, -1, 0, " ", 0, NULL);
}

static void
check_contains (const char *text, const char *words)
{
  if (strstr (text, words) == NULL)
    g_test_fail_printf ("“%s” is missing", words);
}

static void
test_words (void)
{
  Night night;
  guint n = 0;
  g_autoptr (GError) error = NULL;

  night_fill (&night);
  FrSheet sheet = full_sheet (&night);
  g_autoptr (GBytes) pdf = fr_sheet_pdf (&sheet, FR_SHEET_A4, &n, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (n, ==, 1);
  g_autofree char *raw = ask (pdf, "pdftotext", "-raw", "sheet-a4.pdf");
  g_autofree char *text = flat (raw);
  check_contains (text, "Pour 2.5 L into the pan and 22.5 L into the bucket. Start at 19:00.");
  check_contains (text, sheet.reason);
  check_contains (text, sheet.date);
  check_contains (text, sheet.footer);
  for (guint i = 0; i < G_N_ELEMENTS (times); i++)
    {
      check_contains (text, times[i].time);
      check_contains (text, times[i].word);
    }
  for (guint i = 0; i < G_N_ELEMENTS (cautions); i++)
    check_contains (text, cautions[i].text);
  check_contains (text, "6.0 L stays for Friday");
  check_contains (text, "34 ml/min");
  /* The trace's own words are text too. */
  check_contains (text, "Sweetness in the pan");
}

static void
test_size (void)
{
  static const char *sizes[] = { "595.276 x 841.89 pts (A4)", "612 x 792 pts (letter)" };

  for (guint i = 0; i < 2; i++)
    {
      Night night;
      guint n = 0;
      night_fill (&night);
      FrSheet sheet = full_sheet (&night);
      g_autoptr (GBytes) pdf = fr_sheet_pdf (&sheet, i == 0 ? FR_SHEET_A4 : FR_SHEET_LETTER, &n, NULL);
      g_assert_nonnull (pdf);
      g_assert_cmpuint (n, ==, 1);
      g_autofree char *raw = ask (pdf, "pdfinfo", NULL, i == 1 ? "sheet-letter.pdf" : NULL);
      g_autofree char *info = flat (raw);
      check_contains (info, sizes[i]);
      check_contains (info, "Title: Tonight’s boil");
      check_contains (info, "Author: Hollow Lane");
      check_contains (info, "Tagged: yes");
      check_contains (info, "Pages: 1");
    }
}

/* Every word box that poppler finds lies inside the page. */
static void
check_inside (GBytes *pdf, double width_pt, double height_pt)
{
  g_autofree char *boxes = ask (pdf, "pdftotext", "-bbox", NULL);
  guint n = 0;

  for (char *p = strstr (boxes, "<word xMin=\""); p != NULL; p = strstr (p + 1, "<word xMin=\""))
    {
      double x0, y0, x1, y1;
      g_assert_cmpint (
          sscanf (p, "<word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" yMax=\"%lf\"", &x0, &y0, &x1, &y1), ==, 4);
      if (x0 < 20 || y0 < 10 || x1 > width_pt - 20 || y1 > height_pt - 10)
        g_test_fail_printf ("a word lies at %.1f %.1f %.1f %.1f on %.0f × %.0f", x0, y0, x1, y1, width_pt,
                            height_pt);
      n++;
    }
  g_assert_cmpuint (n, >, 10);
}

static char *
repeat (const char *text, guint n)
{
  GString *all = g_string_new (NULL);

  for (guint i = 0; i < n; i++)
    g_string_append (all, text);
  return g_string_free (all, FALSE);
}

static void
test_inside (void)
{
  Night night;

  night_fill (&night);
  FrSheet sheet = full_sheet (&night);
  g_autoptr (GBytes) a4 = fr_sheet_pdf (&sheet, FR_SHEET_A4, NULL, NULL);
  g_autoptr (GBytes) letter = fr_sheet_pdf (&sheet, FR_SHEET_LETTER, NULL, NULL);
  check_inside (a4, 595.276, 841.89);
  check_inside (letter, 612, 792);
}

/* A little too much: smaller type, still one page. Far too much: more pages, and the last word is on one of
 * them. */
static void
test_long (void)
{
  Night night;
  guint n = 0;
  g_autofree char *longer
      = repeat ("The pan stands on the north side and the wind comes round the corner. ", 8);
  g_autofree char *longest
      = repeat ("The pan stands on the north side and the wind comes round the corner. ", 120);
  g_autofree char *end = g_strconcat (longest, "Lastword.", NULL);
  g_autofree char *unbroken = repeat ("Donaudampfschifffahrt", 30);
  FrSheetCaution many[4] = { cautions[0], cautions[1], { longer, FALSE }, cautions[2] };
  FrSheetFigure wide[2] = { { unbroken, "<b>1</b> L", unbroken }, { "Note", "<b>2</b> L", longest } };

  night_fill (&night);
  FrSheet sheet = full_sheet (&night);
  sheet.cautions = many;
  sheet.n_cautions = 4;
  g_autoptr (GBytes) shrunk = fr_sheet_pdf (&sheet, FR_SHEET_LETTER, &n, NULL);
  g_assert_cmpuint (n, ==, 1);
  check_inside (shrunk, 612, 792);
  g_autofree char *kept = ask (shrunk, "pdfinfo", NULL, "sheet-shrunk.pdf");

  many[2].text = end;
  sheet.figures = wide;
  sheet.n_figures = 2;
  g_autoptr (GBytes) pages = fr_sheet_pdf (&sheet, FR_SHEET_A4, &n, NULL);
  g_assert_cmpuint (n, >=, 2);
  check_inside (pages, 595.276, 841.89);
  g_autofree char *raw = ask (pages, "pdftotext", "-raw", "sheet-long.pdf");
  g_autofree char *text = flat (raw);
  check_contains (text, "Lastword.");
  check_contains (text, "Steam goes outdoors, no flame.");
  g_autofree char *first = g_strdup_printf ("1 / %u", n);
  check_contains (text, first);
}

static void
test_right_to_left (void)
{
  Night night;
  guint n = 0;

  night_fill (&night);
  FrSheet sheet = full_sheet (&night);
  sheet.right_to_left = TRUE;
  g_autoptr (GBytes) pdf = fr_sheet_pdf (&sheet, FR_SHEET_A4, &n, NULL);
  g_assert_cmpuint (n, ==, 1);
  check_inside (pdf, 595.276, 841.89);
  g_autofree char *kept = ask (pdf, "pdfinfo", NULL, "sheet-rtl.pdf");
}

static void
test_sparse (void)
{
  FrSheet sheet = { .sentence_markup = "Nothing to boil tonight." };
  guint n = 0;
  g_autoptr (GBytes) pdf = fr_sheet_pdf (&sheet, FR_SHEET_A4, &n, NULL);

  g_assert_cmpuint (n, ==, 1);
  g_autofree char *text = ask (pdf, "pdftotext", "-raw", NULL);
  check_contains (text, "Nothing to boil tonight.");

  FrSheet nothing = { 0 };
  g_autoptr (GBytes) blank = fr_sheet_pdf (&nothing, FR_SHEET_A4, &n, NULL);
  g_assert_nonnull (blank);
  g_assert_cmpuint (n, ==, 1);
}

static void
test_broken_markup (void)
{
  g_autoptr (GError) error = NULL;
  FrSheet sheet = { .title = "T", .sentence_markup = "Pour <b>2.5 L into the pan" };

  g_assert_null (fr_sheet_pdf (&sheet, FR_SHEET_A4, NULL, &error));
  g_assert_nonnull (error);
  g_clear_error (&error);
  FrSheetFigure broken = { "Left", "<b>0.97</i>", NULL };
  sheet = (FrSheet){ .figures = &broken, .n_figures = 1 };
  g_assert_null (fr_sheet_pdf (&sheet, FR_SHEET_A4, NULL, &error));
  g_assert_nonnull (error);
  /* A time is plain text: what looks like markup is not. */
  FrSheetTime odd = { "<b>&", "Start" };
  sheet = (FrSheet){ .times = &odd, .n_times = 1 };
  g_autoptr (GBytes) pdf = fr_sheet_pdf (&sheet, FR_SHEET_A4, NULL, NULL);
  g_assert_nonnull (pdf);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheet/words", test_words);
  g_test_add_func ("/sheet/size", test_size);
  g_test_add_func ("/sheet/inside", test_inside);
  g_test_add_func ("/sheet/long", test_long);
  g_test_add_func ("/sheet/right-to-left", test_right_to_left);
  g_test_add_func ("/sheet/sparse", test_sparse);
  g_test_add_func ("/sheet/broken-markup", test_broken_markup);
  return g_test_run ();
}
