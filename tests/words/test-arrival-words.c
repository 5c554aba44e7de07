/* The sentences about trees that arrive, word for word: none may be empty, and what stays out says what to
 * do. Previews are made by the domain, so that each sentence stands for something that can happen. */
#include "domain/plan/arrivals.h"
#include "words/arrival-words.h"

#include <math.h>
#include <string.h>

static const FrGeoAnchor anchor = { 44.26, -72.58, 0, 0 };

typedef struct
{
  GPtrArray *trees;
  GPtrArray *features;
  FrGround *ground;
  FrArrivals *arrivals;
  FrArrivalOptions options;
  FrArrivalPreview *preview;
  FrSay say;
} Case;

static Case *
case_new (gboolean tied)
{
  Case *c = g_new0 (Case, 1);

  c->trees = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free);
  c->features = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free);
  c->ground = (FrGround *)fr_record_new (FR_KIND_GROUND);
  if (tied)
    {
      fr_amount_set (&c->ground->anchor_lat_deg, anchor.lat_deg, NULL);
      fr_amount_set (&c->ground->anchor_lon_deg, anchor.lon_deg, NULL);
      fr_amount_set (&c->ground->anchor_x_m, 0, NULL);
      fr_amount_set (&c->ground->anchor_y_m, 0, NULL);
    }
  c->arrivals = fr_arrivals_new ();
  c->arrivals->by_line = TRUE;
  c->options = fr_arrival_options ("2026-03-19");
  c->say.units.decimal_mark = '.';
  return c;
}

static void
case_free (Case *c)
{
  g_ptr_array_unref (c->trees);
  g_ptr_array_unref (c->features);
  fr_record_free (&c->ground->record);
  fr_arrivals_free (c->arrivals);
  fr_arrival_preview_free (c->preview);
  g_free (c);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Case, case_free)

static FrTree *
plant (Case *c, const char *name, double x_m, double y_m)
{
  FrTree *tree = (FrTree *)fr_record_new (FR_KIND_TREE);

  g_ptr_array_add (c->trees, tree);
  tree->record.id = c->trees->len;
  tree->name = g_strdup (name);
  fr_amount_set (&tree->x_m, x_m, NULL);
  fr_amount_set (&tree->y_m, y_m, NULL);
  return tree;
}

static FrArrival *
arrive (Case *c, const char *name, double x_m, double y_m)
{
  FrArrival *arrival = fr_arrivals_add_tree (c->arrivals, 10 + c->arrivals->trees->len);

  arrival->tree->name = g_strdup (name);
  if (name != NULL)
    fr_arrival_say (arrival, "name");
  fr_arrival_say (arrival, "species");
  fr_geo_from_plan (&anchor, x_m, y_m, &arrival->where);
  return arrival;
}

static void
look (Case *c)
{
  FrBushBook book = { .trees = c->trees, .features = c->features, .ground = c->ground };

  g_clear_pointer (&c->preview, fr_arrival_preview_free);
  c->preview = fr_arrivals_preview (c->arrivals, &book, &c->options);
}

/* No-break spaces are written as _ here. */
static void
assert_text (char *got, const char *wanted)
{
  g_auto (GStrv) parts = g_strsplit (got != NULL ? got : "", "\302\240", -1);
  g_autofree char *plain = g_strjoinv ("_", parts);

  g_assert_cmpstr (plain, ==, wanted);
  g_free (got);
}

static void
assert_row (Case *c, guint i, const char *wanted)
{
  assert_text (fr_arrival_sentence (c->preview->rows->pdata[i], c->arrivals, &c->say), wanted);
}

static void
test_comes_in (void)
{
  g_autoptr (Case) c = case_new (TRUE);
  FrGirth *girth = (FrGirth *)fr_record_new (FR_KIND_GIRTH);
  FrArrival *filled;

  plant (c, "A", 0, 0);
  plant (c, "B", 50, 0);
  plant (c, "C", -50, 0);
  arrive (c, "N", 12.5, -3);
  arrive (c, NULL, -12, 30)->said = 0;
  filled = arrive (c, "A", 4, 3);
  fr_amount_set (&filled->tree->elevation_m, 200, NULL);
  fr_arrival_say (filled, "elevation_m");
  fr_amount_set (&girth->size_m, 1.2, NULL);
  g_ptr_array_add (filled->history, girth);
  arrive (c, "WPT", 51, 0);
  arrive (c, NULL, -50, 0);
  look (c);
  assert_row (c, 0, "New, 12.5_m east and 3.0_m south on the plan.");
  assert_row (
      c, 1,
      "New, 12.0_m west and 30.0_m north on the plan. It is called 1. The file does not say its species.");
  assert_row (
      c, 2,
      "A is in the book and is filled in. The file has it 5.0_m away; the place of the book is kept. 1 entry "
      "changes. With 1 entry of girths, taps and seasons.");
  assert_row (c, 3, "B is in the book; nothing changes. Taken for B, which stands 1.0_m away.");
  assert_row (c, 4, "C is in the book; nothing changes. Stands where C does.");
  assert_text (fr_arrival_summary (c->preview), "2 new, 1 changed, 2 the same.");
  assert_text (fr_arrival_tie_sentence (c->preview, &c->say), "");
  assert_text (fr_arrival_title (c->preview->rows->pdata[0]), "N");
  assert_text (fr_arrival_title (c->preview->rows->pdata[1]), "1");
  assert_text (fr_arrival_where (c->arrivals, 7), "line 7");
  c->arrivals->by_line = FALSE;
  assert_text (fr_arrival_where (c->arrivals, 7), "entry 7");
  c->options.replace = TRUE;
  look (c);
  assert_row (c, 2,
              "A is in the book and is filled in. It moves by 5.0_m. 1 entry changes. With 1 entry of "
              "girths, taps and "
              "seasons.");
}

static void
test_stays_out (void)
{
  g_autoptr (Case) c = case_new (TRUE);
  FrArrival *unplaced, *unknown;
  FrTap *tap = (FrTap *)fr_record_new (FR_KIND_TAP);

  plant (c, "A", 0, 0);
  plant (c, "A", 10, 0);
  plant (c, "B", 200, 0);
  plant (c, "C", 300, 0);
  plant (c, "D", 301, 0);
  arrive (c, "A", 5, 0);
  arrive (c, "B", 0, 0);
  arrive (c, NULL, 300.4, 0);
  arrive (c, "X", 40, 0);
  arrive (c, "X", 60, 0);
  arrive (c, "Y", 80, 0);
  arrive (c, "Y", 80, 0);
  arrive (c, "Z", 0, 0)->where = (FrEarthPoint){ -33, 151 };
  unplaced = arrive (c, NULL, 0, 0);
  unplaced->where = (FrEarthPoint){ NAN, NAN };
  unknown = arrive (c, "Q", 0, 0);
  unknown->where = (FrEarthPoint){ NAN, NAN };
  unknown->refers = TRUE;
  fr_amount_set (&tap->season, 2025.5, NULL);
  g_ptr_array_add (arrive (c, "T", 99, 0)->history, tap);
  look (c);
  assert_row (c, 0, "Two trees of the book are called A. Give one of them another name.");
  assert_row (c, 1,
              "It is called B, but that stands 200.0_m away in the book. Give it another name, or read it "
              "with a larger "
              "distance.");
  assert_row (c, 2,
              "It may be C or D, which both stand near. Give it the name of one of them in the file, or of "
              "neither and read "
              "it with a smaller distance.");
  assert_row (c, 3, "The name stands twice in the file, here and in line 14. Give one of them another.");
  assert_row (c, 4, "The name stands twice in the file, here and in line 13. Give one of them another.");
  assert_row (c, 6, "It is the same tree as in line 15.");
  assert_row (c, 7, "It lies more than 1000 km from the plan.");
  assert_row (c, 8, "It has neither a name nor a place.");
  assert_row (c, 9, "The file tells its history, but neither file nor book has a tree of this name.");
  {
    g_autofree char *bad = fr_arrival_sentence (c->preview->rows->pdata[10], c->arrivals, &c->say);

    g_assert_true (g_str_has_prefix (bad, "It cannot be kept: season: "));
  }
  assert_text (fr_arrival_summary (c->preview), "1 new, 3 unclear, 7 refused.");
}

static void
test_nothing (void)
{
  g_autoptr (Case) c = case_new (TRUE);

  look (c);
  assert_text (fr_arrival_summary (c->preview), "No tree in the file.");
}

static void
test_tie (void)
{
  g_autoptr (Case) c = case_new (FALSE);

  arrive (c, "A", 0, 0);
  look (c);
  assert_text (fr_arrival_tie_sentence (c->preview, &c->say),
               "The middle of the trees, 44.26000° N, 72.58000° W, becomes the plan’s zero.");
  c->arrivals->anchor = (FrGeoAnchor){ 44.25, -72.5, 0, 0 };
  look (c);
  assert_text (fr_arrival_tie_sentence (c->preview, &c->say),
               "The plan takes over where the file’s plan lies: 44.25000° N, 72.50000° W.");
  plant (c, "B", 0, 0);
  look (c);
  assert_text (fr_arrival_tie_sentence (c->preview, &c->say),
               "The plan is drawn already, but not tied to the earth, and no tree of the file has the name "
               "of one on it. "
               "Name one alike in both, or give the latitude and longitude of one point of the plan.");
  assert_row (c, 0, "It lies on the earth, but the plan is not tied to it.");
  plant (c, "A", 7, 7);
  look (c);
  assert_text (fr_arrival_tie_sentence (c->preview, &c->say),
               "The plan is laid on the earth by 1 tree of the same name, which fits to 0_m.");
  assert_text (fr_arrival_fit_sentence (c->preview, &c->say), "");
}

/* A file of another valley, 6 km off, among trees of the plan; 4 km would pass. */
static void
test_remote (void)
{
  g_autoptr (Case) c = case_new (TRUE);

  plant (c, "A", 0, 0);
  plant (c, "B", 30, 0);
  arrive (c, "C", 30, 4000);
  look (c);
  assert_text (fr_arrival_fit_sentence (c->preview, &c->say), "");
  arrive (c, "D", 30, 6000);
  look (c);
  assert_text (fr_arrival_fit_sentence (c->preview, &c->say),
               "D lies 6000_m from the other trees; are its coordinates right?");
}

/* A plan drawn by a compass that points 10° too far west, in yards taken for metres, with one tree mistaken.
 */
static void
test_fit (void)
{
  static const double places[][2] = { { -60, -60 }, { 60, -60 }, { 60, 60 }, { -60, 60 }, { 0, 80 } };
  g_autoptr (Case) c = case_new (FALSE);
  double turn = 10 * G_PI / 180;

  for (guint i = 0; i < 5; i++)
    {
      g_autofree char *name = g_strdup_printf ("T%u", i);
      double x_m = places[i][0], y_m = places[i][1];

      plant (c, name, x_m, y_m);
      arrive (c, name, 0.9144 * (x_m * cos (turn) + y_m * sin (turn)),
              0.9144 * (-x_m * sin (turn) + y_m * cos (turn)));
    }
  look (c);
  assert_text (fr_arrival_fit_sentence (c->preview, &c->say),
               "Turned 10° clockwise the plan would fit better: was the compass read without its "
               "declination? Distances on "
               "the earth are 91 % of those on the plan.");
  plant (c, "far", 0, 0);
  arrive (c, "far", 90, 0);
  look (c);
  {
    g_autofree char *said = fr_arrival_fit_sentence (c->preview, &c->say);

    g_assert_nonnull (strstr (said, "far is "));
    g_assert_true (g_str_has_suffix (said, " off; is it the same tree?"));
  }
}

static void
test_paths (void)
{
  g_autoptr (Case) c = case_new (TRUE);
  FrArrivalPath *path = fr_arrivals_add_path (c->arrivals, 1, "path"),
                *none = fr_arrivals_add_path (c->arrivals, 2, "path"),
                *walk = fr_arrivals_add_path (c->arrivals, 3, "path"),
                *away = fr_arrivals_add_path (c->arrivals, 4, "path");
  FrEarthPoint point = { 44.26, -72.58 }, elsewhere = { -33, 151 };

  g_array_append_val (path->points, point);
  g_array_append_val (away->points, elsewhere);
  for (guint i = 0; i < 300; i++)
    {
      point.lat_deg += 1e-6;
      g_array_append_val (walk->points, point);
    }
  g_assert_cmpuint (none->points->len, ==, 0);
  c->options.with_paths = TRUE;
  look (c);
  assert_text (fr_arrival_path_sentence (c->preview->paths->pdata[0]), "New, with 1 point.");
  assert_text (fr_arrival_path_sentence (c->preview->paths->pdata[1]),
               "It has no points, or cannot be kept.");
  assert_text (fr_arrival_path_sentence (c->preview->paths->pdata[2]), "New, with 2 of its 300 points.");
  assert_text (fr_arrival_path_sentence (c->preview->paths->pdata[3]),
               "It lies more than 1000 km from the plan.");
}

int
main (int argc, char **argv)
{
  g_setenv ("LC_ALL", "C.UTF-8", TRUE);
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/arrival-words/comes-in", test_comes_in);
  g_test_add_func ("/arrival-words/stays-out", test_stays_out);
  g_test_add_func ("/arrival-words/nothing", test_nothing);
  g_test_add_func ("/arrival-words/tie", test_tie);
  g_test_add_func ("/arrival-words/fit", test_fit);
  g_test_add_func ("/arrival-words/remote", test_remote);
  g_test_add_func ("/arrival-words/paths", test_paths);
  return g_test_run ();
}
