/* The steps: every edit of the page with arguments by chance, good ones and bad ones. */
#include "bush-soak-private.h"

#include <math.h>
#include <string.h>

static void
pick_trees (Soak *soak)
{
  soak->n_trees = soak_one_in (soak, 20) ? 0 : (guint)soak_pick (soak, soak_one_in (soak, 2) ? 6 : 1) + 1;
  for (guint i = 0; i < soak->n_trees; i++)
    soak->trees[i] = soak_pick_id (soak, M_TREE);
}

/* From @low to @high in steps of a quarter, sometimes unknown, sometimes out of anything. */
static double
pick_amount (Soak *soak, double low, double high)
{
  static const double odd[] = { INFINITY, -INFINITY, 1e9, -1e9, -0.0, 1e-300 };

  if (soak_one_in (soak, 12))
    return NAN;
  if (soak_one_in (soak, 25))
    return ONE_OF (soak, odd);
  return low + (high - low) * soak_pick (soak, 41) / 40;
}

static const char *
pick_day (Soak *soak, FrDate *day_out)
{
  static const char *const days[]
      = { "2026-12-01", "2027-01-16", "2027-02-20", "2027-03-05", "2027-04-02", "" };
  const char *day = ONE_OF (soak, days);

  *day_out = (FrDate){ 0 };
  if (*day != '\0')
    g_assert_true (fr_date_parse (day, day_out));
  return day;
}

static guint
pick_season (Soak *soak)
{
  static const guint seasons[] = { SEASON, SEASON, SEASON, SEASON - 1, SEASON + 1, 99 };

  return seasons[soak_pick (soak, soak_one_in (soak, 5) ? 6 : 3)];
}

static const char *const species[] = { "sugar", "black", "red",    "silver", "norway", "bigleaf", "boxelder",
                                       "other", "birch", "walnut", "oak",    "",       NULL };
static const char *const long_name
    = "A name that goes on and on, longer than any label on any tree could ever be, for it has "
      "a hundred and twenty-one characters";

#define MEET(soak, model_call, book_call)                                                                    \
  G_STMT_START                                                                                               \
  {                                                                                                          \
    GError *error = NULL;                                                                                    \
    MAnswer answer = model_call;                                                                             \
    FrChange *change = book_call;                                                                            \
    soak_meet (soak, answer, change, error);                                                                 \
  }                                                                                                          \
  G_STMT_END

static void
step_add (Soak *soak)
{
  MModel *m = soak->model;
  FrBook *b = soak->book;
  static const char *const names[]
      = { NULL, NULL, NULL, "Gate", " Row 3 tree 9 ", "", "  ", "T007", "№ 5 b", "12", long_name };
  const char *name = ONE_OF (soak, names), *what = species[soak_pick (soak, soak_one_in (soak, 4) ? 13 : 10)],
             *day;
  double x = pick_amount (soak, -50, 50),
         y = isnan (x) && soak_pick (soak, 8) ? NAN : pick_amount (soak, -50, 50);
  gint64 from = soak_pick_id (soak, M_TREE);
  double distance = pick_amount (soak, 0, 60), bearing = pick_amount (soak, 0, 360);
  double girth = soak_one_in (soak, 2) ? NAN : pick_amount (soak, 0.3, 3);
  double diameter = soak_one_in (soak, 2) ? NAN : pick_amount (soak, 0.1, 1);
  FrDate date;

  if (soak_one_in (soak, 2))
    {
      MEET (soak, m_add_tree (m, name, what, x, y), fr_bush_edit_add_tree (b, name, what, x, y, &error));
      return;
    }
  day = pick_day (soak, &date);
  MEET (soak, m_add_measured (m, name, what, from, distance, bearing, girth, diameter, day),
        fr_bush_edit_add_measured (b, name, what, from, distance, bearing, girth, diameter, date, &error));
}

static void
step_move (Soak *soak)
{
  MModel *m = soak->model;
  FrBook *b = soak->book;
  double dx = pick_amount (soak, -5, 5), dy = pick_amount (soak, -5, 5);
  gint64 tree = soak_pick_id (soak, M_TREE);

  if (soak_one_in (soak, 3))
    {
      if (soak_one_in (soak, 4))
        dx = dy = NAN;
      MEET (soak, m_place (m, tree, dx, dy), fr_bush_edit_place (b, tree, dx, dy, &error));
      return;
    }
  pick_trees (soak);
  MEET (soak, m_move (m, soak->trees, soak->n_trees, dx, dy),
        fr_bush_edit_move (b, soak->trees, soak->n_trees, dx, dy, &error));
}

static void
step_set (Soak *soak)
{
  static const char *const fields[] = { "name",
                                        "species",
                                        "x_m",
                                        "y_m",
                                        "elevation_m",
                                        "measured_from",
                                        "from_distance_m",
                                        "from_bearing_deg",
                                        "crown",
                                        "health",
                                        "dead_limbs",
                                        "wires",
                                        "lean",
                                        "roadside",
                                        "permission",
                                        "owner",
                                        "choice",
                                        "photo",
                                        "note",
                                        "foreign_data" };
  static const char *const texts[]
      = { "sugar",          "red",     "weak", "healthy",   "dead", "wide",   "narrow",
          "granted",        "own",     "must", "never",     "open", "",       "  two stems ",
          "by the brook\n", "unknown", "T1",   "{\"a\":1}", "Gate", long_name };
  static const char *const typed[] = { NULL, NULL, "12.5", "820 ft" };
  const char *field = ONE_OF (soak, fields), *text = ONE_OF (soak, texts);
  double amount = pick_amount (soak, 0, 30);
  const FrField *known = fr_kind_field (fr_kind (FR_KIND_TREE), field);

  if (known->type == FR_FIELD_BOOL)
    amount = soak_pick (soak, 2);
  if (known->type == FR_FIELD_AMOUNT)
    text = ONE_OF (soak, typed);
  pick_trees (soak);
  MEET (soak, m_set (soak->model, soak->trees, soak->n_trees, field, text, amount),
        fr_bush_edit_set (soak->book, soak->trees, soak->n_trees, field, text, amount, &error));
}

static void
go_back (Soak *soak, gboolean back)
{
  MAnswer answer = M_CHANGED;
  g_autoptr (GError) error = NULL;
  gboolean any, ok;

  soak->counts.lost += m_refresh (soak->model);
  any = back ? m_undo (soak->model, &answer) : m_redo (soak->model, &answer);
  ok = back ? fr_book_undo (soak->book, &error) : fr_book_redo (soak->book, &error);
  if (ok != (!any || answer == M_CHANGED))
    g_error ("the model says %d, %s of the book: %s", answer, back ? "undo" : "redo",
             ok ? "done" : error->message);
  if (!any)
    soak->counts.empty++;
  else if (!ok)
    soak->counts.blocked++;
  else if (back)
    soak->counts.undone++;
  else
    soak->counts.redone++;
}

/* One amount of one record again and again, which is one step to undo unless something comes between. */
static void
step_nudge (Soak *soak)
{
  gint64 tree = soak_pick_id (soak, M_TREE);

  for (guint i = 0, n = (guint)soak_pick (soak, 4) + 2; i < n; i++)
    {
      double amount = soak_pick (soak, 6);

      if (soak_one_in (soak, 6))
        soak_write_beside (soak);
      if (soak_one_in (soak, 2))
        MEET (soak, m_set (soak->model, &tree, 1, "elevation_m", NULL, amount),
              fr_bush_edit_set (soak->book, &tree, 1, "elevation_m", NULL, amount, &error));
      else
        MEET (soak, m_single (soak->model, M_TAPPING, "buckets", NULL, amount, NULL),
              fr_bush_edit_single (soak->book, FR_KIND_TAPPING, "buckets", NULL, amount, NULL, &error));
      m_assert_same (soak->model, soak->book);
      if (soak_one_in (soak, 3))
        go_back (soak, TRUE);
    }
}

static void
step_remove (Soak *soak)
{
  MModel *m = soak->model;
  FrBook *b = soak->book;

  pick_trees (soak);
  if (soak_one_in (soak, 2))
    MEET (soak, m_remove (m, soak->trees, soak->n_trees),
          fr_bush_edit_remove (b, soak->trees, soak->n_trees, &error));
  else
    MEET (soak, m_restore (m, soak->trees, soak->n_trees),
          fr_bush_edit_restore (b, soak->trees, soak->n_trees, &error));
}

static void
step_measure (Soak *soak)
{
  static const char *const instruments[] = { NULL, NULL, "refractometer", "guess", "tongue", "" };
  static const char *const typed[] = { NULL, "150", "18 in" };
  MModel *m = soak->model;
  FrBook *b = soak->book;
  gint64 tree = soak_pick_id (soak, M_TREE), girth = soak_pick_id (soak, M_GIRTH);
  gboolean is_girth = soak_pick (soak, 2);
  double size = pick_amount (soak, 0.2, 3), volume = pick_amount (soak, 0, 60),
         brix = pick_amount (soak, 1, 4);
  double sample = pick_amount (soak, 0, 20);
  const char *day, *instrument = ONE_OF (soak, instruments), *as = ONE_OF (soak, typed);
  guint season = pick_season (soak);
  FrDate date;

  day = pick_day (soak, &date);
  switch (soak_pick (soak, 6))
    {
    case 0:
      MEET (soak, m_remove_girth (m, girth), fr_bush_edit_remove_girth (b, girth, &error));
      break;
    case 1:
    case 2:
      MEET (soak, m_yield (m, tree, season, volume, brix, instrument, sample),
            fr_bush_edit_yield (b, tree, season, volume, brix, instrument, sample, &error));
      break;
    case 3:
      MEET (soak, m_remove_yield (m, tree, season), fr_bush_edit_remove_yield (b, tree, season, &error));
      break;
    default:
      MEET (soak, m_girth (m, tree, day, is_girth, size, as),
            fr_bush_edit_girth (b, tree, date, is_girth, size, as, &error));
    }
}

/* The plan's choice is made up; what is checked is how it is taken over. */
static void
take_plan (Soak *soak)
{
  guint n = 0;
  g_autoptr (GArray) taps = g_array_new (FALSE, FALSE, sizeof (guint));
  FrBushPlan plan = { .code = FR_BUSH_PLAN_OK, .taps = taps };

  if (m_is_stale (soak->model))
    return;
  for (guint i = 0; i < m_n_rows (soak->model, M_TREE); i++)
    if (!m_row_at (soak->model, M_TREE, i)->archived)
      {
        guint wanted = soak_one_in (soak, 3) ? (guint)soak_pick (soak, 3) : 0;

        g_array_append_val (taps, wanted);
        n++;
      }
  g_assert_cmpuint (n, ==, fr_bush_n_trees (fr_sugarbush_get_bush (soak->page)));
  MEET (soak,
        m_take_plan (soak->model, fr_sugarbush_get_season (soak->page), (const guint *)(gpointer)taps->data),
        fr_bush_edit_take_plan (soak->book, fr_sugarbush_get_bush (soak->page), &plan, &error));
}

static void
step_tap (Soak *soak)
{
  MModel *m = soak->model;
  FrBook *b = soak->book;
  FrBushPlace places[3] = { 0 };
  gint64 tree = soak_pick_id (soak, M_TREE), tap = soak_pick_id (soak, M_TAP);
  guint season = pick_season (soak), n = (guint)soak_pick (soak, 4);
  gboolean with_places = soak_pick (soak, 4), pull = soak_pick (soak, 2);
  const char *day;
  FrDate date;

  for (guint i = 0; i < 3; i++)
    places[i]
        = (FrBushPlace){ .angle_deg = pick_amount (soak, 0, 360), .height_m = pick_amount (soak, 0.3, 1.4) };
  switch (soak_pick (soak, 9))
    {
    case 0:
    case 1:
      MEET (soak, m_plan_taps (m, tree, season, with_places ? places : NULL, n),
            fr_bush_edit_plan_taps (b, tree, season, with_places ? places : NULL, n, &error));
      break;
    case 2:
      take_plan (soak);
      break;
    case 3:
    case 4:
    case 5:
      pick_trees (soak);
      day = pick_day (soak, &date);
      MEET (soak, m_date_taps (m, pull, soak->trees, soak->n_trees, season, day),
            pull ? fr_bush_edit_pull_taps (b, soak->trees, soak->n_trees, season, date, &error)
                 : fr_bush_edit_set_taps (b, soak->trees, soak->n_trees, season, date, &error));
      break;
    case 6:
      MEET (soak, m_remove_tap (m, tap), fr_bush_edit_remove_tap (b, tap, &error));
      break;
    default:
      MEET (soak, m_move_tap (m, tap, places[0].angle_deg, places[0].height_m),
            fr_bush_edit_move_tap (b, tap, places[0].angle_deg, places[0].height_m, &error));
    }
}

static void
step_feature (Soak *soak)
{
  static const char *const forms[]
      = { "path", "lane", "wall", "stream", "building", "boiling", "store", "pond", "" };
  static const char *const names[] = { NULL, "", "Lane", "  The shed " };
  static const char *const points[]
      = { "0 0", "0 0\n12.5 -3.25\n40 10", "1e3 -2", "0", "x y", "1 2 3", "", "1 2\n3" };
  guint nth = (guint)soak_pick (soak, G_N_ELEMENTS (points));
  gboolean good = nth < 3;
  const char *form = forms[soak_pick (soak, soak_one_in (soak, 5) ? 9 : 7)], *name = ONE_OF (soak, names),
             *at = points[nth];
  gint64 feature = soak_pick_id (soak, M_FEATURE);
  MModel *m = soak->model;
  FrBook *b = soak->book;

  switch (soak_pick (soak, m_n_rows (m, M_FEATURE) > 12 ? 3 : 5))
    {
    case 0:
      MEET (soak, m_remove_feature (m, feature), fr_bush_edit_remove_feature (b, feature, &error));
      break;
    case 1:
    case 2:
      if (soak_one_in (soak, 2))
        form = NULL;
      if (soak_one_in (soak, 2))
        at = NULL;
      MEET (soak, m_set_feature (m, feature, form, name, at, good),
            fr_bush_edit_set_feature (b, feature, form, name, at, &error));
      break;
    default:
      MEET (soak, m_add_feature (m, form, name, at, good),
            fr_bush_edit_add_feature (b, form, name, at, &error));
    }
}

static void
step_ground (Soak *soak)
{
  static const char *const fields[]
      = { "declination_deg", "picture", "picture_shown", "anchor_lat_deg", "first_column" };
  static const char *const files[] = { NULL, "", "bush.jpg", " other.png " };
  const char *field = ONE_OF (soak, fields), *file = ONE_OF (soak, files);
  double x = pick_amount (soak, -9, 9), y = pick_amount (soak, -9, 9), lat = pick_amount (soak, -90, 90);
  double lon = pick_amount (soak, -180, 180);
  FrPicturePoint one = { x, y, lat, lon },
                 two = { soak_pick (soak, 3), soak_pick (soak, 3), soak_pick (soak, 3), soak_pick (soak, 3) };
  gboolean with_one = soak_pick (soak, 2), with_two = soak_pick (soak, 2);
  MModel *m = soak->model;
  FrBook *b = soak->book;

  if (soak_one_in (soak, 3)) /* few places, so that the two meet */
    one = (FrPicturePoint){ soak_pick (soak, 3), soak_pick (soak, 3), soak_pick (soak, 3),
                            soak_pick (soak, 3) };
  switch (soak_pick (soak, 3))
    {
    case 0:
      if (soak_one_in (soak, 3))
        x = y = lat = lon = NAN;
      MEET (soak, m_anchor (m, x, y, lat, lon), fr_bush_edit_anchor (b, x, y, lat, lon, &error));
      break;
    case 1:
      MEET (soak, m_picture (m, file, with_one ? &one : NULL, with_two ? &two : NULL),
            fr_bush_edit_picture (b, file, with_one ? &one : NULL, with_two ? &two : NULL, &error));
      break;
    default:
      if (strcmp (field, "picture_shown") == 0)
        lat = with_one;
      MEET (soak, m_single (m, M_GROUND, field, file, lat, "12"),
            fr_bush_edit_single (b, FR_KIND_GROUND, field, file, lat, "12", &error));
    }
}

static void
step_tapping (Soak *soak)
{
  static const char *const fields[]
      = { "guideline", "spacing", "spacing",   "sideways_m", "up_down_m",   "min_height_m", "max_height_m",
          "pail_l",    "buckets", "max_trees", "walk_m",     "peak_boil_l", "season_days",  "peak_ratio" };
  static const char *const codes[]
      = { "conservative", "facts", "own", "two_six", "four_twelve", "six_twentyfour", "ten" };
  static const char *const typed[] = { NULL, NULL, "18", "2 ft" };
  const char *field = ONE_OF (soak, fields), *code = ONE_OF (soak, codes), *as = ONE_OF (soak, typed);
  double amount = pick_amount (soak, 0, 4);

  MEET (soak, m_single (soak->model, M_TAPPING, field, code, amount, as),
        fr_bush_edit_single (soak->book, FR_KIND_TAPPING, field, code, amount, as, &error));
}

/* Some steps back, then some of them forth again. */
static void
step_back (Soak *soak)
{
  guint back = (guint)soak_pick (soak, soak_one_in (soak, 8) ? 20 : 4) + 1;
  guint forth = (guint)soak_pick (soak, (gint)back + 2);

  for (guint i = 0; i < back + forth; i++)
    {
      go_back (soak, i < back);
      m_assert_same (soak->model, soak->book);
    }
}

void
soak_step (Soak *soak)
{
  static void (*const steps[]) (Soak * soak)
      = { step_add,     step_move,    step_set,     step_set,  step_nudge,
          step_remove,  step_measure, step_measure, step_tap,  step_tap,
          step_feature, step_ground,  step_tapping, step_back, step_back };
  guint n = m_n_rows (soak->model, M_TREE);

  if (n < 8 && soak_one_in (soak, 2))
    step_add (soak);
  else if (n >= MOST_TREES && soak_one_in (soak, 2))
    step_remove (soak);
  else
    steps[soak_pick (soak, G_N_ELEMENTS (steps))](soak);
  if (soak_one_in (soak, 30))
    fr_sugarbush_toggle (soak->page, soak_pick_id (soak, M_TREE));
}
