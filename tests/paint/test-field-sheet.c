/* The table for the walk: every text of every row is on the paper, the header row on each page, numbers of
 * pages right, nothing over the edge and no two words over each other. What is in the PDF is read by poppler.
 * Documents go to FROSTRUN_PICTURES. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "paint/field-sheet.h"
#include "stage.h"

static const FrFieldColumn columns[] = {
  { "Stop", FR_FIELD_SHEET_NUMBER, 0, 0 },   { "Tree", FR_FIELD_SHEET_TEXT, 0, 0 },
  { "Species", FR_FIELD_SHEET_TEXT, 0, 0 },  { "Girth", FR_FIELD_SHEET_NUMBER, 0, 0 },
  { "Taps", FR_FIELD_SHEET_NUMBER, 0, 0 },   { "Litres", FR_FIELD_SHEET_BOX, 0.018, 1 },
  { "Sweetness", FR_FIELD_SHEET_BOX, 0, 1 }, { "Remarks", FR_FIELD_SHEET_BOX, 0.040, 3 },
};
#define N_COLUMNS G_N_ELEMENTS (columns)

typedef struct
{
  GPtrArray *texts; /* owns */
  FrFieldSheet sheet;
} Walk;

static void
fill (Walk *walk, gsize n_rows)
{
  static const char *const headings[4000] = { "First trip: 22 L, 180 m", [20] = "Second trip: 17 L, 140 m" };

  walk->texts = g_ptr_array_new_with_free_func (g_free);
  for (gsize i = 0; i < n_rows; i++)
    {
      g_ptr_array_add (walk->texts, g_strdup_printf ("%u", (guint)i + 1));
      g_ptr_array_add (walk->texts,
                       i == 7 ? g_strdup ("The very old one behind the boiling shed by the broken wall")
                              : g_strdup_printf ("Tree%u", (guint)i));
      g_ptr_array_add (walk->texts, g_strdup (i % 3 ? "Sugar maple" : "Red maple"));
      g_ptr_array_add (walk->texts, g_strdup_printf ("%u cm", 90 + (guint)i % 150));
      g_ptr_array_add (walk->texts, g_strdup (i % 4 ? "1" : "2"));
      g_ptr_array_add (walk->texts, NULL);
      g_ptr_array_add (walk->texts, NULL);
      g_ptr_array_add (walk->texts, i == 3 ? g_strdup ("dead limb") : NULL);
    }
  walk->sheet
      = (FrFieldSheet){ .title = "Gathering round",
                        .author = "Hollow Lane",
                        .date = "11 March 2027",
                        .sentence = "40 buckets on 31 trees, 320 m in two trips, from the boiling shed.",
                        .columns = columns,
                        .n_columns = N_COLUMNS,
                        .cells = (const char *const *)walk->texts->pdata,
                        .headings = headings,
                        .n_rows = n_rows,
                        .footer = "Hollow Lane, 250 m" };
}

static void
clear (Walk *walk)
{
  g_ptr_array_unref (walk->texts);
}

static char *
words_of (GBytes *pdf, const char *keep_as)
{
  static const char *const options[] = { "-raw", NULL };
  g_autofree char *raw = stage_ask (pdf, "pdftotext", options, keep_as);

  return stage_flat (raw);
}

typedef struct
{
  double x0, y0, x1, y1;
  guint page;
} Word;

/* No two words of a page share any area worth the name. */
static void
check_apart (GBytes *pdf)
{
  static const char *const options[] = { "-bbox", NULL };
  g_autofree char *boxes = stage_ask (pdf, "pdftotext", options, NULL);
  g_autoptr (GArray) words = g_array_new (FALSE, FALSE, sizeof (Word));
  guint page = 0, from = 0;

  for (char *p = boxes; *p != '\0'; p++)
    {
      Word w;
      if (g_str_has_prefix (p, "<page "))
        {
          page++;
          from = words->len;
        }
      if (!g_str_has_prefix (p, "<word ")
          || sscanf (p, "<word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" yMax=\"%lf\">", &w.x0, &w.y0, &w.x1,
                     &w.y1)
                 != 4)
        continue;
      w.page = page;
      for (guint i = from; i < words->len; i++)
        {
          const Word *o = &g_array_index (words, Word, i);
          if (MIN (w.x1, o->x1) - MAX (w.x0, o->x0) > 1 && MIN (w.y1, o->y1) - MAX (w.y0, o->y0) > 3)
            g_test_fail_printf ("words lie over each other on page %u at %.0f %.0f", page, w.x0, w.y0);
        }
      g_array_append_val (words, w);
    }
}

static void
test_words (void)
{
  Walk walk;
  guint n = 0;

  fill (&walk, 40);
  for (guint i = 0; i < 4; i++)
    {
      walk.sheet.is_landscape = i & 1;
      walk.sheet.right_to_left = i == 3;
      g_autoptr (GError) error = NULL;
      g_autoptr (GBytes) pdf = fr_field_sheet_pdf (&walk.sheet, (FrSheetSize)(i / 2), &n, &error);
      g_assert_no_error (error);
      g_autofree char *name = g_strdup_printf ("field-%u.pdf", i);
      g_autofree char *text = words_of (pdf, name);
      g_assert_cmpuint (n, ==, i & 1 ? 3 : 2);
      stage_check_contains (text, walk.sheet.sentence);
      stage_check_contains (text, walk.sheet.date);
      stage_check_contains (text, "Second trip: 17 L, 140 m");
      stage_check_contains (text, "dead limb");
      g_assert_cmpuint (stage_count_words (text, "Sweetness"), ==, n);
      g_assert_cmpuint (stage_count_words (text, walk.sheet.footer), ==, n);
      for (guint page = 1; page <= n; page++)
        {
          g_autofree char *number = g_strdup_printf ("%u / %u", page, n);
          stage_check_contains (text, number);
        }
      for (guint k = 0; k < 40; k++)
        if (k != 7)
          {
            g_autofree char *tree = g_strdup_printf ("Tree%u", k);
            g_autofree char *girth = g_strdup_printf ("%u cm", 90 + k);
            stage_check_contains (text, tree);
            /* On one line: a number does not break while there is room elsewhere. */
            stage_check_contains (text, girth);
          }
      double width = i / 2 ? 612 : 595.276, height = i / 2 ? 792 : 841.89;
      g_assert_cmpuint (stage_check_inside (pdf, i & 1 ? height : width, i & 1 ? width : height), >, 200);
      check_apart (pdf);
      g_autofree char *info_raw = stage_ask (pdf, "pdfinfo", NULL, NULL);
      g_autofree char *info = stage_flat (info_raw);
      stage_check_contains (info, "Title: Gathering round");
      stage_check_contains (info, "Tagged: yes");
    }
  clear (&walk);
}

static void
test_many (void)
{
  Walk walk;
  guint n = 0;

  fill (&walk, 600);
  g_autoptr (GBytes) pdf = fr_field_sheet_pdf (&walk.sheet, FR_SHEET_A4, &n, NULL);
  g_autofree char *text = words_of (pdf, NULL);
  /* 8 mm a row and 265 mm at the most: no more than 33 to a page. */
  g_assert_cmpuint (n, >=, 600 / 33);
  g_assert_cmpuint (n, <, 600 / 24);
  g_assert_cmpuint (stage_count_words (text, "Sweetness"), ==, n);
  g_assert_cmpuint (stage_count_words (text, "Sugar maple") + stage_count_words (text, "Red maple"), ==, 600);
  clear (&walk);
}

/* A word too long for its column breaks; a note longer than a page goes on overleaf; both to their last
 * letter. */
static void
test_long (void)
{
  Walk walk;
  guint n = 0;
  g_autoptr (GString) essay = g_string_new (NULL), one_word = g_string_new (NULL);

  fill (&walk, 12);
  for (guint i = 0; i < 1500; i++)
    g_string_append_printf (essay, "w%u ", i);
  for (guint i = 0; i < 40; i++)
    g_string_append (one_word, "Donaudampfschiff");
  g_string_append (one_word, "Zq");
  g_free (walk.texts->pdata[4 * N_COLUMNS + 1]);
  walk.texts->pdata[4 * N_COLUMNS + 1] = g_strdup (essay->str);
  g_free (walk.texts->pdata[6 * N_COLUMNS + 7]);
  walk.texts->pdata[6 * N_COLUMNS + 7] = g_strdup (one_word->str);
  walk.sheet.sentence = essay->str;
  g_autoptr (GBytes) pdf = fr_field_sheet_pdf (&walk.sheet, FR_SHEET_A4, &n, NULL);
  static const char *const options[] = { "-raw", NULL };
  g_autofree char *raw = stage_ask (pdf, "pdftotext", options, "field-long.pdf");
  g_autofree char *text = stage_flat (raw);
  g_assert_cmpuint (n, >=, 3);
  for (guint i = 0; i < 1500; i++)
    {
      g_autofree char *word = g_strdup_printf ("w%u ", i);
      /* In the sentence and in the cell. */
      if (stage_count_words (text, word) != 2)
        g_test_fail_printf ("“%s” is there %u times", word, stage_count_words (text, word));
    }
  stage_check_contains (text, "Zq");
  stage_check_contains (text, "Tree11");
  stage_check_inside (pdf, 595.276, 841.89);
  check_apart (pdf);
  clear (&walk);
}

static void
test_sparse (void)
{
  FrFieldColumn one = { NULL, FR_FIELD_SHEET_TEXT, NAN, NAN };
  const char *cells[2] = { "only this", NULL };
  FrFieldSheet none = { .columns = &one, .n_columns = 1 },
               few = { .columns = &one, .n_columns = 1, .cells = cells, .n_rows = 2 };
  guint n = 0;

  g_autoptr (GBytes) blank = fr_field_sheet_pdf (&none, FR_SHEET_LETTER, &n, NULL);
  g_assert_nonnull (blank);
  g_assert_cmpuint (n, ==, 1);
  g_autoptr (GBytes) pdf = fr_field_sheet_pdf (&few, FR_SHEET_LETTER, &n, NULL);
  g_autofree char *text = words_of (pdf, NULL);
  stage_check_contains (text, "only this");
  stage_check_contains (text, "1 / 1");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/field-sheet/words", test_words);
  g_test_add_func ("/field-sheet/many", test_many);
  g_test_add_func ("/field-sheet/long", test_long);
  g_test_add_func ("/field-sheet/sparse", test_sparse);
  return g_test_run ();
}
