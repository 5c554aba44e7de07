/* What becomes of trees that arrive: each case by hand, on plans small enough to see. Shifts and turns are
 * made up and must be found again. */
#include "domain/plan/arrivals.h"
#include "domain/units/bearing.h"
#include "found.h"

#include <string.h>

static const FrGeoAnchor anchor = { 44.26, -72.58, 0, 0 };

/* --- a book and a file --- */

typedef struct
{
  GPtrArray *trees;
  GPtrArray *girths;
  GPtrArray *taps;
  GPtrArray *features;
  FrGround *ground;
  FrBushBook book;
  FrArrivals *arrivals;
  FrArrivalOptions options;
  FrArrivalPreview *preview;
} Case;

static void
new_uid (char uid_out[33])
{
  static guint n;

  g_snprintf (uid_out, 33, "%032x", ++n);
}

static Case *
case_new (gboolean tied)
{
  Case *c = g_new0 (Case, 1);
  GPtrArray **const lists[] = { &c->trees, &c->girths, &c->taps, &c->features };

  for (guint i = 0; i < G_N_ELEMENTS (lists); i++)
    *lists[i] = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free);
  if (tied)
    {
      c->ground = (FrGround *)fr_record_new (FR_KIND_GROUND);
      c->ground->record.id = 1;
      new_uid (c->ground->record.uid);
      fr_amount_set (&c->ground->anchor_lat_deg, anchor.lat_deg, NULL);
      fr_amount_set (&c->ground->anchor_lon_deg, anchor.lon_deg, NULL);
      fr_amount_set (&c->ground->anchor_x_m, 0, NULL);
      fr_amount_set (&c->ground->anchor_y_m, 0, NULL);
    }
  c->arrivals = fr_arrivals_new ();
  c->options = fr_arrival_options ("2026-03-19");
  return c;
}

static void
case_free (Case *c)
{
  g_ptr_array_unref (c->trees);
  g_ptr_array_unref (c->girths);
  g_ptr_array_unref (c->taps);
  g_ptr_array_unref (c->features);
  if (c->ground != NULL)
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
  new_uid (tree->record.uid);
  tree->name = g_strdup (name);
  fr_amount_set (&tree->x_m, x_m, NULL);
  fr_amount_set (&tree->y_m, y_m, NULL);
  return tree;
}

/* One of the file that lies on the earth where the tied plan has x, y. */
static FrArrival *
arrive (Case *c, const char *name, double x_m, double y_m)
{
  FrArrival *arrival = fr_arrivals_add_tree (c->arrivals, c->arrivals->trees->len + 1);

  if (name != NULL)
    {
      arrival->tree->name = g_strdup (name);
      fr_arrival_say (arrival, "name");
    }
  g_assert_true (fr_geo_from_plan (&anchor, x_m, y_m, &arrival->where));
  return arrival;
}

static void
look (Case *c)
{
  g_clear_pointer (&c->preview, fr_arrival_preview_free);
  c->book = (FrBushBook){
    .trees = c->trees, .girths = c->girths, .taps = c->taps, .features = c->features, .ground = c->ground
  };
  c->preview = fr_arrivals_preview (c->arrivals, &c->book, &c->options);
}

static const FrArrivalRow *
row (const Case *c, guint i)
{
  return c->preview->rows->pdata[i];
}

/* Makes the change, applies it, and looks at the same file again: nothing may be left to do. */
static FrChange *
bring_in (Case *c)
{
  FrArrivalIds ids = { .new_uid = new_uid };
  FrChange *change;
  GPtrArray *const lists[FR_N_KINDS] = { [FR_KIND_TREE] = c->trees,
                                         [FR_KIND_GIRTH] = c->girths,
                                         [FR_KIND_TAP] = c->taps,
                                         [FR_KIND_FEATURE] = c->features };

  for (guint k = 0; k < FR_N_KINDS; k++)
    ids.next[k] = lists[k] != NULL ? lists[k]->len + 1 : 1;
  change = fr_arrivals_change (c->preview, &ids, "walk.gpx");
  g_assert_cmpstr (change->label, ==, "import-trees");
  g_assert_cmpstr (change->subject, ==, "walk.gpx");
  for (guint i = 0; i < change->steps->len; i++)
    {
      const FrStep *step = change->steps->pdata[i];
      const FrRecord *record = step->after;
      GPtrArray *list = lists[record->kind->id];

      if (record->kind->id == FR_KIND_GROUND)
        {
          if (c->ground != NULL)
            fr_record_free (&c->ground->record);
          c->ground = (FrGround *)fr_record_copy (record);
        }
      else if (step->before == NULL)
        g_ptr_array_add (list, fr_record_copy (record));
      else
        {
          g_assert_true (fr_record_equal (list->pdata[record->id - 1], step->before));
          fr_record_free (list->pdata[record->id - 1]);
          list->pdata[record->id - 1] = fr_record_copy (record);
        }
    }
  look (c);
  {
    g_autoptr (FrChange) again = fr_arrivals_change (c->preview, &ids, NULL);

    g_assert_true (fr_change_is_empty (again));
  }
  return change;
}

static gboolean
comes_in (const FrArrivalRow *one)
{
  return one->fate == FR_ARRIVAL_NEW || one->fate == FR_ARRIVAL_CHANGES || one->fate == FR_ARRIVAL_SAME;
}

#define assert_row(c, i, fate_, by_, reason_)                                                                \
  do                                                                                                         \
    {                                                                                                        \
      g_assert_cmpint (row (c, i)->fate, ==, fate_);                                                         \
      g_assert_cmpint (row (c, i)->by, ==, by_);                                                             \
      g_assert_cmpint (row (c, i)->reason, ==, reason_);                                                     \
    }                                                                                                        \
  while (0)

/* --- matching --- */

static void
test_new (void)
{
  g_autoptr (Case) c = case_new (TRUE);
  g_autoptr (FrChange) change = NULL;

  arrive (c, "A", 1, 2);
  look (c);
  assert_row (c, 0, FR_ARRIVAL_NEW, FR_ARRIVAL_BY_NOTHING, FR_ARRIVAL_FINE);
  g_assert_true (row (c, 0)->species_assumed);
  g_assert_cmpint (c->preview->tie, ==, FR_TIE_KEPT);
  change = bring_in (c);
  g_assert_cmpuint (c->trees->len, ==, 1);
  g_assert_cmpuint (change->steps->len, ==, 1);
  found_near ("a new tree's place", ((FrTree *)c->trees->pdata[0])->x_m.value, 1, 1e-6);
  assert_row (c, 0, FR_ARRIVAL_SAME, FR_ARRIVAL_BY_NAME, FR_ARRIVAL_FINE);
}

static void
test_by_name (void)
{
  g_autoptr (Case) c = case_new (TRUE);
  FrTree *tree = plant (c, "A", 10, 10);

  arrive (c, "A", 14, 13);
  look (c);
  /* It is not moved: a tape is surer than a receiver. */
  assert_row (c, 0, FR_ARRIVAL_SAME, FR_ARRIVAL_BY_NAME, FR_ARRIVAL_FINE);
  found_near ("how far the file has it", row (c, 0)->away_m, 5, 1e-6);
  c->options.replace = TRUE;
  look (c);
  assert_row (c, 0, FR_ARRIVAL_CHANGES, FR_ARRIVAL_BY_NAME, FR_ARRIVAL_FINE);
  g_assert_true (row (c, 0)->moves);
  g_assert_true (row (c, 0)->tree == tree);
  g_autoptr (FrChange) change = bring_in (c);
  g_assert_cmpuint (c->trees->len, ==, 1);
  found_near ("a moved tree's place", ((FrTree *)c->trees->pdata[0])->x_m.value, 14, 1e-6);
}

static void
test_far (void)
{
  g_autoptr (Case) c = case_new (TRUE);

  plant (c, "A", 0, 0);
  arrive (c, "A", 101, 0);
  look (c);
  assert_row (c, 0, FR_ARRIVAL_AMBIGUOUS, FR_ARRIVAL_BY_NOTHING, FR_ARRIVAL_FAR);
  c->options.far_m = 102;
  look (c);
  assert_row (c, 0, FR_ARRIVAL_SAME, FR_ARRIVAL_BY_NAME, FR_ARRIVAL_FINE);
}

static void
test_two_named (void)
{
  g_autoptr (Case) c = case_new (TRUE);

  plant (c, "A", 0, 0);
  plant (c, "A", 10, 0);
  arrive (c, "A", 5, 0);
  look (c);
  assert_row (c, 0, FR_ARRIVAL_AMBIGUOUS, FR_ARRIVAL_BY_NOTHING, FR_ARRIVAL_TWO_NAMED);
  g_assert_nonnull (row (c, 0)->other);
  /* One of them put away is out of the question. */
  ((FrRecord *)c->trees->pdata[0])->archived = TRUE;
  look (c);
  assert_row (c, 0, FR_ARRIVAL_SAME, FR_ARRIVAL_BY_NAME, FR_ARRIVAL_FINE);
  g_assert_true (row (c, 0)->tree == c->trees->pdata[1]);
}

static void
test_archived (void)
{
  g_autoptr (Case) c = case_new (TRUE);

  plant (c, "A", 0, 0)->record.archived = TRUE;
  arrive (c, "A", 1, 0);
  look (c);
  /* A felled tree does not come back as a second one. */
  assert_row (c, 0, FR_ARRIVAL_SAME, FR_ARRIVAL_BY_NAME, FR_ARRIVAL_FINE);
}

static void
test_named_twice (void)
{
  g_autoptr (Case) c = case_new (TRUE);

  arrive (c, "A", 0, 0);
  arrive (c, "A", 10, 0);
  arrive (c, "B", 20, 0);
  arrive (c, "B", 20, 0);
  look (c);
  assert_row (c, 0, FR_ARRIVAL_REFUSED, FR_ARRIVAL_BY_NOTHING, FR_ARRIVAL_NAMED_TWICE);
  assert_row (c, 1, FR_ARRIVAL_REFUSED, FR_ARRIVAL_BY_NOTHING, FR_ARRIVAL_NAMED_TWICE);
  g_assert_cmpuint (row (c, 0)->other_line, ==, 2);
  g_assert_cmpuint (row (c, 1)->other_line, ==, 1);
  assert_row (c, 2, FR_ARRIVAL_NEW, FR_ARRIVAL_BY_NOTHING, FR_ARRIVAL_FINE);
  assert_row (c, 3, FR_ARRIVAL_REFUSED, FR_ARRIVAL_BY_NOTHING, FR_ARRIVAL_TWICE);
  g_autoptr (FrChange) change = bring_in (c);
  g_assert_cmpuint (c->trees->len, ==, 1);
}

static void
test_by_uid (void)
{
  g_autoptr (Case) c = case_new (TRUE);
  FrTree *tree = plant (c, "renamed", 0, 0);

  memcpy (arrive (c, "A", 0, 0)->tree->record.uid, tree->record.uid, 33);
  memcpy (arrive (c, "B", 9, 0)->tree->record.uid, tree->record.uid, 33);
  look (c);
  assert_row (c, 0, FR_ARRIVAL_SAME, FR_ARRIVAL_BY_UID, FR_ARRIVAL_FINE);
  assert_row (c, 1, FR_ARRIVAL_REFUSED, FR_ARRIVAL_BY_NOTHING, FR_ARRIVAL_TWICE);
  c->options.replace = TRUE;
  look (c);
  assert_row (c, 0, FR_ARRIVAL_CHANGES, FR_ARRIVAL_BY_UID, FR_ARRIVAL_FINE);
  g_autoptr (FrChange) change = bring_in (c);
  g_assert_cmpstr (((FrTree *)c->trees->pdata[0])->name, ==, "A");
}

static void
test_near (void)
{
  g_autoptr (Case) c = case_new (TRUE);

  plant (c, "A", 0, 0);
  plant (c, "B", 50, 0);
  plant (c, "C", 51, 0);
  arrive (c, NULL, 2.9, 0);
  arrive (c, "WPT7", 50.4, 0);
  arrive (c, NULL, 3.1, 50);
  look (c);
  assert_row (c, 0, FR_ARRIVAL_SAME, FR_ARRIVAL_BY_NEARNESS, FR_ARRIVAL_FINE);
  assert_row (c, 1, FR_ARRIVAL_AMBIGUOUS, FR_ARRIVAL_BY_NOTHING, FR_ARRIVAL_TWO_NEAR);
  assert_row (c, 2, FR_ARRIVAL_NEW, FR_ARRIVAL_BY_NOTHING, FR_ARRIVAL_FINE);
  c->options.near_m = 0.5;
  look (c);
  assert_row (c, 0, FR_ARRIVAL_NEW, FR_ARRIVAL_BY_NOTHING, FR_ARRIVAL_FINE);
  assert_row (c, 1, FR_ARRIVAL_SAME, FR_ARRIVAL_BY_NEARNESS, FR_ARRIVAL_FINE);
}

/* The one that the file names otherwise is no longer in question for its neighbour. */
static void
test_near_taken (void)
{
  g_autoptr (Case) c = case_new (TRUE);

  plant (c, "A", 0, 0);
  arrive (c, NULL, 1, 0);
  arrive (c, "A", 0.1, 0);
  look (c);
  assert_row (c, 0, FR_ARRIVAL_NEW, FR_ARRIVAL_BY_NOTHING, FR_ARRIVAL_FINE);
  assert_row (c, 1, FR_ARRIVAL_SAME, FR_ARRIVAL_BY_NAME, FR_ARRIVAL_FINE);
  g_autoptr (FrChange) change = bring_in (c);
  assert_row (c, 0, FR_ARRIVAL_SAME, FR_ARRIVAL_BY_PLACE, FR_ARRIVAL_FINE);
}

/* Two points for one tree: the nearer is it, the other is a tree of its own, and stays so. */
static void
test_two_for_one (void)
{
  g_autoptr (Case) c = case_new (TRUE);

  plant (c, "A", 0, 0);
  arrive (c, "P", 2, 0);
  arrive (c, "Q", 0.5, 0);
  for (guint replace = 0; replace < 2; replace++)
    {
      c->options.replace = replace;
      look (c);
      assert_row (c, 0, replace ? FR_ARRIVAL_SAME : FR_ARRIVAL_NEW,
                  replace ? FR_ARRIVAL_BY_NAME : FR_ARRIVAL_BY_NOTHING, FR_ARRIVAL_FINE);
      g_assert_cmpint (row (c, 1)->by, ==, FR_ARRIVAL_BY_NEARNESS);
      g_autoptr (FrChange) change = bring_in (c);
      g_assert_cmpuint (c->trees->len, ==, 2);
    }
}

/* A place by tape is surer: half a metre, not three. */
static void
test_near_on_plan (void)
{
  g_autoptr (Case) c = case_new (TRUE);
  FrArrival *arrival;

  plant (c, "A", 0, 0);
  arrival = fr_arrivals_add_tree (c->arrivals, 1);
  fr_amount_set (&arrival->tree->x_m, 0.6, NULL);
  fr_amount_set (&arrival->tree->y_m, 0, NULL);
  look (c);
  assert_row (c, 0, FR_ARRIVAL_NEW, FR_ARRIVAL_BY_NOTHING, FR_ARRIVAL_FINE);
  fr_amount_set (&arrival->tree->x_m, 0.4, NULL);
  look (c);
  assert_row (c, 0, FR_ARRIVAL_SAME, FR_ARRIVAL_BY_NEARNESS, FR_ARRIVAL_FINE);
}

static void
test_unnamed (void)
{
  g_autoptr (Case) c = case_new (TRUE);

  plant (c, "1", 100, 100);
  arrive (c, NULL, 0, 0);
  arrive (c, "2", 10, 0);
  arrive (c, NULL, 20, 0);
  arrive (c, NULL, 20, 0.1);
  look (c);
  g_autoptr (FrChange) change = bring_in (c);
  g_assert_cmpuint (c->trees->len, ==, 5);
  g_assert_cmpstr (((FrTree *)c->trees->pdata[1])->name, ==, "3");
  g_assert_cmpstr (((FrTree *)c->trees->pdata[3])->name, ==, "4");
  g_assert_cmpstr (((FrTree *)c->trees->pdata[4])->name, ==, "5");
}

static void
test_beyond (void)
{
  g_autoptr (Case) c = case_new (TRUE);

  arrive (c, "A", 0, 0)->where = (FrEarthPoint){ -33, 151 };
  look (c);
  assert_row (c, 0, FR_ARRIVAL_REFUSED, FR_ARRIVAL_BY_NOTHING, FR_ARRIVAL_BEYOND);
}

/* Held against the middle one, which a stray does not move; only what would be new counts. */
static void
test_remote (void)
{
  g_autoptr (Case) c = case_new (TRUE);

  arrive (c, "a", 0, 0);
  arrive (c, "b", 3, 4);
  arrive (c, "c", 0, 0);
  arrive (c, "stray", 300, 400);
  look (c);
  g_assert_cmpfloat_with_epsilon (c->preview->remote_m, hypot (300, 400), 6);
  g_assert_true (c->preview->remote == row (c, 3));
  g_autoptr (FrChange) change = bring_in (c);

  look (c);
  g_assert_true (isnan (c->preview->remote_m));
  g_assert_null (c->preview->remote);
}

static void
test_left_out (void)
{
  g_autoptr (Case) c = case_new (FALSE);
  FrArrivalIds ids = { .new_uid = new_uid };

  arrive (c, "A", 0, 0);
  look (c);
  ((FrArrivalRow *)c->preview->rows->pdata[0])->left_out = TRUE;
  g_autoptr (FrChange) change = fr_arrivals_change (c->preview, &ids, NULL);
  /* Nor is the plan tied for nothing. */
  g_assert_true (fr_change_is_empty (change));
}

/* --- what is kept --- */

static void
test_fill_and_replace (void)
{
  g_autoptr (Case) c = case_new (TRUE);
  FrTree *tree = plant (c, "A", 0, 0);
  FrArrival *arrival = arrive (c, "A", 0, 0);

  tree->note = g_strdup ("mine");
  tree->wires = TRUE;
  arrival->tree->note = g_strdup ("theirs");
  fr_arrival_say (arrival, "note");
  fr_amount_set (&arrival->tree->elevation_m, 300, NULL);
  fr_arrival_say (arrival, "elevation_m");
  g_free (arrival->tree->species);
  arrival->tree->species = g_strdup ("red");
  fr_arrival_say (arrival, "species");
  fr_arrival_say (arrival, "wires");
  look (c);
  assert_row (c, 0, FR_ARRIVAL_CHANGES, FR_ARRIVAL_BY_NAME, FR_ARRIVAL_FINE);
  g_assert_cmpuint (row (c, 0)->n_fields, ==, 1);
  g_assert_cmpstr (row (c, 0)->after->note, ==, "mine");
  g_assert_cmpstr (row (c, 0)->after->species, ==, "sugar");
  g_assert_true (row (c, 0)->after->wires);
  g_assert_cmpfloat (row (c, 0)->after->elevation_m.value, ==, 300);
  c->options.replace = TRUE;
  look (c);
  g_assert_cmpuint (row (c, 0)->n_fields, ==, 4);
  g_assert_cmpstr (row (c, 0)->after->note, ==, "theirs");
  g_assert_cmpstr (row (c, 0)->after->species, ==, "red");
  g_assert_false (row (c, 0)->after->wires);
  g_autoptr (FrChange) change = bring_in (c);
}

static void
test_history (void)
{
  g_autoptr (Case) c = case_new (TRUE);
  FrTree *tree = plant (c, "A", 0, 0);
  FrArrival *arrival = arrive (c, "A", 0, 0), *other = arrive (c, "B", 30, 0);
  FrGirth *girth = (FrGirth *)fr_record_new (FR_KIND_GIRTH), *kept = (FrGirth *)fr_record_new (FR_KIND_GIRTH);
  FrTap *tap = (FrTap *)fr_record_new (FR_KIND_TAP);

  g_ptr_array_add (c->girths, kept);
  kept->record.id = 1;
  new_uid (kept->record.uid);
  kept->tree = tree->record.id;
  kept->measured_on = g_strdup ("2024-10-01");
  fr_amount_set (&kept->size_m, 1.2, NULL);
  /* The same size without a day is that one; another size is another. */
  fr_amount_set (&girth->size_m, 1.2, NULL);
  g_ptr_array_add (arrival->history, girth);
  look (c);
  assert_row (c, 0, FR_ARRIVAL_SAME, FR_ARRIVAL_BY_NAME, FR_ARRIVAL_FINE);
  fr_amount_set (&girth->size_m, 1.25, NULL);
  fr_amount_set (&tap->season, 2026, NULL);
  g_ptr_array_add (other->history, tap);
  g_ptr_array_add (other->history, fr_record_copy (&tap->record));
  look (c);
  assert_row (c, 0, FR_ARRIVAL_CHANGES, FR_ARRIVAL_BY_NAME, FR_ARRIVAL_FINE);
  g_assert_cmpuint (row (c, 0)->n_history, ==, 1);
  g_assert_cmpuint (row (c, 1)->n_history, ==, 1);
  g_autoptr (FrChange) change = bring_in (c);
  g_assert_cmpuint (c->girths->len, ==, 2);
  g_assert_cmpstr (((FrGirth *)c->girths->pdata[1])->measured_on, ==, "2026-03-19");
  g_assert_cmpint (((FrGirth *)c->girths->pdata[1])->tree, ==, 1);
  g_assert_cmpuint (c->taps->len, ==, 1);
  g_assert_cmpint (((FrTap *)c->taps->pdata[0])->tree, ==, 2);
}

static void
test_bad_record (void)
{
  g_autoptr (Case) c = case_new (TRUE);
  FrArrival *arrival = arrive (c, "A", 0, 0);
  FrTap *tap = (FrTap *)fr_record_new (FR_KIND_TAP);

  fr_amount_set (&tap->season, 2025.5, NULL);
  g_ptr_array_add (arrival->history, tap);
  look (c);
  assert_row (c, 0, FR_ARRIVAL_REFUSED, FR_ARRIVAL_BY_NOTHING, FR_ARRIVAL_BAD_RECORD);
  g_assert_cmpint (row (c, 0)->problem_kind, ==, FR_KIND_TAP);
  g_assert_cmpint (row (c, 0)->problem.code, ==, FR_PROBLEM_NOT_WHOLE);
}

/* --- plan and earth --- */

static void
test_tie_middle (void)
{
  g_autoptr (Case) c = case_new (FALSE);

  arrive (c, "A", -10, 0);
  arrive (c, "B", 30, 8);
  look (c);
  g_assert_cmpint (c->preview->tie, ==, FR_TIE_MIDDLE);
  g_autoptr (FrChange) change = bring_in (c);
  g_assert_cmpint (c->preview->tie, ==, FR_TIE_KEPT);
  found_near ("between two trees, to a tenth of a metre", ((FrTree *)c->trees->pdata[0])->x_m.value, -20,
              0.1);
  found_near ("between two trees, to a tenth of a metre", ((FrTree *)c->trees->pdata[1])->y_m.value, 4, 0.1);
  g_assert_cmpfloat (c->ground->anchor_x_m.value, ==, 0);
}

static void
test_tie_from_file (void)
{
  g_autoptr (Case) c = case_new (FALSE);

  c->arrivals->anchor = (FrGeoAnchor){ 44.26, -72.58, 7, 9 };
  arrive (c, "A", -10, 0);
  look (c);
  g_assert_cmpint (c->preview->tie, ==, FR_TIE_FROM_FILE);
  g_autoptr (FrChange) change = bring_in (c);
  found_near ("by the file's anchor", ((FrTree *)c->trees->pdata[0])->x_m.value, -3, 1e-6);
}

static void
test_tie_needs_names (void)
{
  g_autoptr (Case) c = case_new (FALSE);
  FrArrivalIds ids = { .new_uid = new_uid };

  plant (c, "A", 0, 0);
  arrive (c, "B", 0, 0);
  look (c);
  g_assert_cmpint (c->preview->tie, ==, FR_TIE_NEEDS_NAMES);
  assert_row (c, 0, FR_ARRIVAL_REFUSED, FR_ARRIVAL_BY_NOTHING, FR_ARRIVAL_UNTIED);
  g_autoptr (FrChange) change = fr_arrivals_change (c->preview, &ids, NULL);
  g_assert_true (fr_change_is_empty (change));
}

/* A drawing lies where it lies, too. */
static void
test_tie_drawn (void)
{
  g_autoptr (Case) c = case_new (FALSE);

  g_ptr_array_add (c->features, fr_record_new (FR_KIND_FEATURE));
  arrive (c, "B", 0, 0);
  look (c);
  g_assert_cmpint (c->preview->tie, ==, FR_TIE_NEEDS_NAMES);
}

/* A plan shifted, turned and stretched against the earth: the shift is found, the rest told. */
static void
test_tie_names (void)
{
  g_autoptr (Case) c = case_new (FALSE);
  g_autoptr (GRand) random = g_rand_new_with_seed (9);
  double turn_deg = 14, stretch = 0.9144;

  for (guint i = 0; i < 12; i++)
    {
      double x_m = g_rand_double_range (random, -50, 50), y_m = g_rand_double_range (random, -50, 50);
      double angle = turn_deg * (G_PI / 180);
      g_autofree char *name = g_strdup_printf ("T%u", i);

      plant (c, name, x_m + 300, y_m - 70);
      /* Clockwise. */
      arrive (c, name, stretch * (x_m * cos (angle) + y_m * sin (angle)),
              stretch * (-x_m * sin (angle) + y_m * cos (angle)));
    }
  arrive (c, "U", 5, 5);
  look (c);
  g_assert_cmpint (c->preview->tie, ==, FR_TIE_NAMES);
  g_assert_cmpuint (c->preview->n_names, ==, 12);
  found_near ("turn of the plan, degrees", c->preview->turn_deg, turn_deg, 1e-3);
  found_near ("stretch of the plan", c->preview->stretch, stretch, 1e-5);
  g_assert_cmpfloat (c->preview->residual_m, >, 1);
  g_assert_cmpfloat (c->preview->worst_m, >=, c->preview->residual_m);
  for (guint i = 0; i < 12; i++)
    assert_row (c, i, FR_ARRIVAL_SAME, FR_ARRIVAL_BY_NAME, FR_ARRIVAL_FINE);
  assert_row (c, 12, FR_ARRIVAL_NEW, FR_ARRIVAL_BY_NOTHING, FR_ARRIVAL_FINE);
}

static void
test_tie_one_name (void)
{
  g_autoptr (Case) c = case_new (FALSE);

  plant (c, "A", 100, 200);
  arrive (c, "A", 0, 0);
  arrive (c, "B", 3, 4);
  look (c);
  g_assert_cmpint (c->preview->tie, ==, FR_TIE_NAMES);
  g_assert_true (isnan (c->preview->turn_deg));
  found_near ("residual of one name", c->preview->residual_m, 0, 1e-6);
  g_autoptr (FrChange) change = bring_in (c);
  found_near ("beside the one name", ((FrTree *)c->trees->pdata[1])->x_m.value, 103, 1e-4);
  found_near ("beside the one name", ((FrTree *)c->trees->pdata[1])->y_m.value, 204, 1e-4);
}

/* --- paths --- */

static void
test_paths (void)
{
  g_autoptr (Case) c = case_new (TRUE);
  FrArrivalPath *walk = fr_arrivals_add_path (c->arrivals, 1, "path"),
                *line = fr_arrivals_add_path (c->arrivals, 2, "wall"),
                *none = fr_arrivals_add_path (c->arrivals, 3, "path");
  const FrArrivalPathRow *drawn;

  /* Ten thousand points along a wave of five metres. */
  for (guint i = 0; i < 10000; i++)
    {
      FrEarthPoint point;

      fr_geo_from_plan (&anchor, 0.1 * i, 5 * sin (0.02 * i), &point);
      g_array_append_val (walk->points, point);
    }
  for (guint i = 0; i < 3; i++)
    {
      FrEarthPoint point;

      fr_geo_from_plan (&anchor, 10.0 * i, 0, &point);
      g_array_append_val (line->points, point);
    }
  look (c);
  g_assert_cmpuint (c->preview->paths->len, ==, 0);
  c->options.with_paths = TRUE;
  look (c);
  drawn = c->preview->paths->pdata[0];
  g_assert_cmpint (drawn->fate, ==, FR_ARRIVAL_NEW);
  g_assert_cmpuint (drawn->n_points, <, 1200);
  g_assert_cmpuint (drawn->n_points, >, 100);
  g_assert_cmpuint (strlen (drawn->after->points), <=, 20000);
  /* Three points on one line are a drawing; all of them are meant. */
  g_assert_cmpstr (((FrArrivalPathRow *)c->preview->paths->pdata[1])->after->points, ==,
                   "0.000 0.000\n10.000 0.000\n20.000 0.000");
  g_assert_cmpint (((FrArrivalPathRow *)c->preview->paths->pdata[2])->fate, ==, FR_ARRIVAL_REFUSED);
  g_assert_cmpuint (none->points->len, ==, 0);
  g_autoptr (FrChange) change = bring_in (c);
  g_assert_cmpuint (c->features->len, ==, 2);
  g_assert_cmpint (((FrArrivalPathRow *)c->preview->paths->pdata[0])->fate, ==, FR_ARRIVAL_SAME);
}

/* Nothing that stays is farther off than it was told to be. */
static void
test_thinning (void)
{
  g_autoptr (Case) c = case_new (TRUE);
  FrArrivalPath *walk = fr_arrivals_add_path (c->arrivals, 1, "path");
  g_auto (GStrv) lines = NULL;

  for (guint i = 0; i <= 1000; i++)
    {
      FrEarthPoint point;

      fr_geo_from_plan (&anchor, 0.1 * i, 0, &point);
      g_array_append_val (walk->points, point);
    }
  c->options.with_paths = TRUE;
  look (c);
  lines = g_strsplit (((FrArrivalPathRow *)c->preview->paths->pdata[0])->after->points, "\n", -1);
  /* A straight line is its ends. */
  g_assert_cmpuint (g_strv_length (lines), ==, 2);
  g_assert_cmpstr (lines[1], ==, "100.000 0.000");
}

/* Files of random trees, some near each other, some of one name: never two from one, never more the second
 * time. */
static void
test_random_twice (void)
{
  for (guint seed = 0; seed < 400; seed++)
    {
      g_autoptr (GRand) random = g_rand_new_with_seed (seed);
      g_autoptr (Case) c = case_new (g_rand_boolean (random));
      guint n_trees = (guint)g_rand_int_range (random, 0, 12),
            n_arrive = (guint)g_rand_int_range (random, 1, 16);

      for (guint i = 0; i < n_trees; i++)
        {
          g_autofree char *name = g_strdup_printf ("T%d", g_rand_int_range (random, 0, 12));

          plant (c, name, g_rand_double_range (random, 0, 20), g_rand_double_range (random, 0, 20));
        }
      for (guint i = 0; i < n_arrive; i++)
        {
          g_autofree char *name = g_strdup_printf ("T%d", g_rand_int_range (random, 0, 24));

          arrive (c, g_rand_int_range (random, 0, 3) == 0 ? NULL : name, g_rand_double_range (random, 0, 20),
                  g_rand_double_range (random, 0, 20));
        }
      c->options.replace = g_rand_boolean (random);
      look (c);
      if (c->preview->tie == FR_TIE_NEEDS_NAMES)
        continue;
      for (guint i = 0; i < c->preview->rows->len; i++)
        for (guint k = 0; k < i; k++)
          if (comes_in (row (c, i)) && comes_in (row (c, k)) && row (c, i)->tree != NULL)
            g_assert_true (row (c, i)->tree != row (c, k)->tree);
      {
        g_autoptr (FrChange) change = bring_in (c);
        g_autoptr (FrChange) inverse = fr_change_invert (change);

        g_assert_cmpuint (inverse->steps->len, ==, change->steps->len);
      }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/arrivals/new", test_new);
  g_test_add_func ("/arrivals/by-name", test_by_name);
  g_test_add_func ("/arrivals/far", test_far);
  g_test_add_func ("/arrivals/two-named", test_two_named);
  g_test_add_func ("/arrivals/archived", test_archived);
  g_test_add_func ("/arrivals/named-twice", test_named_twice);
  g_test_add_func ("/arrivals/by-uid", test_by_uid);
  g_test_add_func ("/arrivals/near", test_near);
  g_test_add_func ("/arrivals/near-taken", test_near_taken);
  g_test_add_func ("/arrivals/two-for-one", test_two_for_one);
  g_test_add_func ("/arrivals/near-on-plan", test_near_on_plan);
  g_test_add_func ("/arrivals/unnamed", test_unnamed);
  g_test_add_func ("/arrivals/beyond", test_beyond);
  g_test_add_func ("/arrivals/remote", test_remote);
  g_test_add_func ("/arrivals/left-out", test_left_out);
  g_test_add_func ("/arrivals/fill-and-replace", test_fill_and_replace);
  g_test_add_func ("/arrivals/history", test_history);
  g_test_add_func ("/arrivals/bad-record", test_bad_record);
  g_test_add_func ("/arrivals/tie/middle", test_tie_middle);
  g_test_add_func ("/arrivals/tie/from-file", test_tie_from_file);
  g_test_add_func ("/arrivals/tie/needs-names", test_tie_needs_names);
  g_test_add_func ("/arrivals/tie/drawn", test_tie_drawn);
  g_test_add_func ("/arrivals/tie/names", test_tie_names);
  g_test_add_func ("/arrivals/tie/one-name", test_tie_one_name);
  g_test_add_func ("/arrivals/paths", test_paths);
  g_test_add_func ("/arrivals/thinning", test_thinning);
  g_test_add_func ("/arrivals/random-twice", test_random_twice);
  return found_run ();
}
