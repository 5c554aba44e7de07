/* A season on paper, read back with poppler: pages, size, the order of the words, nothing cut or outside, and
 * the same picture as on the screen in the paper's colours. */
#include <math.h>
#include <string.h>

#include "paint/season-sheet.h"
#include "season.h"
#include "stage.h"

static const char *const weekdays[] = { "Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun" };

typedef struct
{
  Season season;
  FrMonth months[2];
  const char *cells[3 * 40];
  FrFieldSheet table;
  FrSeasonSheet sheet;
} Paper;

static const FrFieldColumn columns[] = { { "Date", FR_FIELD_SHEET_TEXT, 0, 0 },
                                         { "Gathered, L", FR_FIELD_SHEET_NUMBER, 0, 0 },
                                         { "Note", FR_FIELD_SHEET_TEXT, 0, 0 } };

static void
fill (Paper *paper, guint n_rows)
{
  static const char *const names[] = { "March 2026", "April 2026" };

  *paper = (Paper){ 0 };
  season_fill (&paper->season, TRUE);
  paper->season.strip.selected = 20;
  paper->season.strip.selected_label = "never on paper";
  for (guint i = 0; i < 2; i++)
    paper->months[i] = (FrMonth){ .year = 2026,
                                  .month = (gint)i + 3,
                                  .first_weekday = 1,
                                  .view = &paper->season.view,
                                  .weekdays = weekdays,
                                  .today = { 2026, 3, 19 } };
  for (guint i = 0; i < n_rows; i++)
    {
      paper->cells[3 * i] = "Sunday 15 March";
      paper->cells[3 * i + 1] = i == 0 ? "20.5" : "7.0";
      paper->cells[3 * i + 2] = i == 0 ? "snow to the knees" : NULL;
    }
  paper->table = (FrFieldSheet){
    .title = "The days", .columns = columns, .n_columns = 3, .cells = paper->cells, .n_rows = n_rows
  };
  paper->sheet = (FrSeasonSheet){ .title = "Season 2026",
                                  .author = "Hollow Lane",
                                  .date = "Thursday 19 March",
                                  .sentence_markup = "<b>281 L</b> gathered, <b>106 L</b> waiting.",
                                  .reason = "Another 60 to 130 L are likely.",
                                  .footer = "Hollow Lane",
                                  .strip = &paper->season.strip,
                                  .months = paper->months,
                                  .month_names = names,
                                  .n_months = 2,
                                  .table = &paper->table };
}

static void
check_order (const char *text, const char *const *words, guint n)
{
  const char *at = text;

  for (guint i = 0; i < n; i++)
    {
      const char *found = strstr (at, words[i]);
      if (found == NULL)
        g_test_fail_printf ("“%s” is missing after “%s”", words[i], i > 0 ? words[i - 1] : "");
      else
        at = found + strlen (words[i]);
    }
}

static void
test_pages (void)
{
  static const char *const words[]
      = { "Season 2026", "281 L gathered, 106 L waiting.", "Another 60 to 130 L are likely." };
  static const char *const later[] = { "March 2026", "April 2026", "The days", "20.5", "snow to the knees" };

  for (guint k = 0; k < 2; k++)
    {
      Paper paper;
      guint n_pages = 0;
      g_autoptr (GError) error = NULL;
      /* ISO 216: 297 × 210 mm; ANSI letter: 11 × 8.5 inches. */
      double width = k == 0 ? 297 / 25.4 * 72 : 792, height = k == 0 ? 210 / 25.4 * 72 : 612;
      fill (&paper, 3);
      g_autoptr (GBytes) pdf
          = fr_season_sheet_pdf (&paper.sheet, k == 0 ? FR_SHEET_A4 : FR_SHEET_LETTER, &n_pages, &error);
      g_assert_no_error (error);
      g_assert_cmpuint (n_pages, ==, 4);
      g_autofree char *info = stage_ask (pdf, "pdfinfo", NULL, k == 0 ? "season.pdf" : "season-letter.pdf");
      g_autofree char *flat_info = stage_flat (info);
      g_autofree char *size = g_strdup_printf ("Page size: %g x %g pts", round (width * 100) / 100,
                                               round (height * 1000) / 1000);
      stage_check_contains (flat_info, "Pages: 4");
      stage_check_contains (flat_info, "Title: Season 2026");
      stage_check_contains (flat_info, "Author: Hollow Lane");
      if (k == 1)
        stage_check_contains (flat_info, size);
      g_autofree char *text = stage_ask (pdf, "pdftotext", NULL, NULL), *flat = stage_flat (text);
      check_order (flat, words, G_N_ELEMENTS (words));
      check_order (flat, later, G_N_ELEMENTS (later));
      stage_check_contains (flat, "Day’s span");
      stage_check_contains (flat, "taps set");
      /* Poppler leaves out the blanks round the stroke. */
      stage_check_contains (flat, "1/4");
      stage_check_contains (flat, "4/4");
      g_assert_null (strstr (flat, "never on paper"));
      g_assert_cmpuint (stage_count_words (flat, "Hollow Lane"), ==, 4);
      g_assert_cmpuint (stage_check_inside (pdf, width, height), >, 150);
    }
}

/* Only the picture; a table over several pages numbers all of them; nothing at all to say. */
static void
test_parts (void)
{
  Paper paper;
  guint n_pages = 0;
  g_autoptr (GError) error = NULL;

  fill (&paper, 40);
  paper.sheet.n_months = 0;
  g_autoptr (GBytes) long_one = fr_season_sheet_pdf (&paper.sheet, FR_SHEET_A4, &n_pages, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (n_pages, >, 2);
  g_autofree char *text = stage_ask (long_one, "pdftotext", NULL, NULL), *flat = stage_flat (text);
  g_autofree char *last = g_strdup_printf ("%u/%u", n_pages, n_pages);
  stage_check_contains (flat, last);
  g_assert_cmpuint (stage_count_words (flat, "Sunday 15 March"), ==, 40);

  paper.sheet.table = NULL;
  g_autoptr (GBytes) picture = fr_season_sheet_pdf (&paper.sheet, FR_SHEET_A4, &n_pages, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (n_pages, ==, 1);
  g_assert_nonnull (picture);

  FrSeasonView bare = season_bare ((FrDate){ 2026, 2, 15 }, 56);
  FrSeasonStrip strip = { .view = &bare, .texts = &paper.season.texts, .selected = -1, .hovered = -1 };
  FrSeasonSheet nothing = { .strip = &strip };
  g_autoptr (GBytes) empty = fr_season_sheet_pdf (&nothing, FR_SHEET_A4, &n_pages, &error);
  g_assert_no_error (error);
  g_autofree char *said = stage_ask (empty, "pdftotext", NULL, NULL);
  stage_check_contains (said, "Every gathering becomes a bar on its day.");
  g_free (bare.days);
}

/* Texts of any length stay on the page. */
static void
test_long (void)
{
  Paper paper;
  g_autoptr (GString) much = g_string_new (NULL);
  g_autoptr (GError) error = NULL;
  const double width = 297 / 25.4 * 72, height = 210 / 25.4 * 72;

  for (guint i = 0; i < 120; i++)
    g_string_append (much, "much to say ");
  fill (&paper, 3);
  paper.sheet.sentence_markup = much->str;
  paper.sheet.reason = much->str;
  paper.sheet.title = "A season with a title that takes more than one line of the page because nobody told "
                      "its writer to stop in time";
  paper.sheet.footer = much->str;
  g_autoptr (GBytes) pdf = fr_season_sheet_pdf (&paper.sheet, FR_SHEET_A4, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (stage_check_inside (pdf, width, height), >, 200);
  g_autofree char *text = stage_ask (pdf, "pdftotext", NULL, NULL), *flat = stage_flat (text);
  stage_check_contains (flat, "told its writer to stop in time");
  stage_check_contains (flat, "Gathered");
}

static void
test_markup (void)
{
  Paper paper;
  g_autoptr (GError) error = NULL;

  fill (&paper, 1);
  paper.sheet.sentence_markup = "<b>281 L gathered";
  g_assert_null (fr_season_sheet_pdf (&paper.sheet, FR_SHEET_A4, NULL, &error));
  g_assert_error (error, G_MARKUP_ERROR, G_MARKUP_ERROR_PARSE);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/season-sheet/pages", test_pages);
  g_test_add_func ("/season-sheet/parts", test_parts);
  g_test_add_func ("/season-sheet/long", test_long);
  g_test_add_func ("/season-sheet/markup", test_markup);
  return g_test_run ();
}
