/* The plain model's other edits: yields, taps, drawings and the single records. */
#include "bush-model-private.h"

#include <math.h>
#include <string.h>

static gboolean
is_one_of (const gint64 *trees, guint n, gint64 id)
{
  for (guint i = 0; i < n; i++)
    if (trees[i] == id)
      return TRUE;
  return FALSE;
}

static const MRow *
yield_of (MModel *model, gint64 tree, guint season)
{
  const MRow *found = NULL;

  for (guint i = 0; i < m_n_rows (model, M_YIELD); i++)
    {
      const MRow *row = m_row_at (model, M_YIELD, i);

      if (row->tree == tree && !row->archived && row->amounts[0].value == season)
        found = row;
    }
  return found;
}

MAnswer
m_yield (MModel *model, gint64 tree, guint season, double volume, double brix, const char *instrument,
         double sample)
{
  const MRow *before = yield_of (model, tree, season);
  MRow after;

  m_begin (model, before != NULL ? "edit-yield" : "add-yield");
  if (m_find (model, M_TREE, tree) == NULL)
    return M_REFUSED;
  if (before != NULL)
    after = *before;
  else
    {
      m_row_init (&after, M_YIELD, m_new_id (model, M_YIELD));
      after.tree = tree;
      after.amounts[0].value = season;
    }
  m_put_amount (&after, 1, volume, NULL);
  m_put_amount (&after, 2, brix, NULL);
  m_put_amount (&after, 3, sample, NULL);
  if (instrument != NULL)
    m_put_text (&after, 0, instrument);
  return m_change (model, before, &after) ? m_end (model) : M_REFUSED;
}

MAnswer
m_remove_yield (MModel *model, gint64 tree, guint season)
{
  const MRow *before = yield_of (model, tree, season);

  m_begin (model, "delete-yield");
  if (m_find (model, M_TREE, tree) == NULL)
    return M_REFUSED;
  if (before != NULL)
    m_change (model, before, NULL);
  return m_end (model);
}

static gboolean
plan_tap (MModel *model, gint64 tree, guint season, double angle, double height)
{
  MRow row;

  m_row_init (&row, M_TAP, m_new_id (model, M_TAP));
  row.tree = tree;
  row.amounts[TAP_SEASON].value = season;
  row.amounts[TAP_ANGLE].value = angle;
  row.amounts[TAP_HEIGHT].value = height;
  return m_change (model, NULL, &row);
}

MAnswer
m_plan_taps (MModel *model, gint64 tree, guint season, const FrBushPlace *places, guint n)
{
  m_begin (model, "plan-taps");
  if (m_find (model, M_TREE, tree) == NULL)
    return M_REFUSED;
  for (guint i = 0; i < n; i++)
    if (!plan_tap (model, tree, season, places != NULL ? places[i].angle_deg : NAN,
                   places != NULL ? places[i].height_m : NAN))
      return M_REFUSED;
  return m_end (model);
}

static gboolean
is_of (const MRow *tap, gint64 tree, guint season)
{
  return tap->tree == tree && !tap->archived && tap->amounts[TAP_SEASON].value == season;
}

MAnswer
m_take_plan (MModel *model, guint season, const guint *wanted)
{
  guint nth = 0;

  m_begin (model, "plan-taps");
  for (guint i = 0; i < m_n_rows (model, M_TREE); i++)
    {
      const MRow *tree = m_row_at (model, M_TREE, i);
      gint64 more;

      if (tree->archived)
        continue;
      more = wanted[nth++];
      /* what is set counts; of the planned ones the first stay */
      for (guint t = 0; t < m_n_rows (model, M_TAP); t++)
        {
          const MRow *tap = m_row_at (model, M_TAP, t);

          if (is_of (tap, tree->id, season) && *tap->texts[TAP_SET] != '\0')
            more--;
        }
      for (guint t = 0; t < m_n_rows (model, M_TAP); t++)
        {
          const MRow *tap = m_row_at (model, M_TAP, t);

          if (!is_of (tap, tree->id, season) || *tap->texts[TAP_SET] != '\0')
            continue;
          if (more-- <= 0)
            m_change (model, tap, NULL);
        }
      for (; more > 0; more--)
        plan_tap (model, tree->id, season, NAN, NAN);
    }
  model->learn_place = TRUE;
  return m_end (model);
}

MAnswer
m_date_taps (MModel *model, gboolean pull, const gint64 *trees, guint n, guint season, const char *day)
{
  m_begin (model, pull ? "pull-taps" : "set-taps");
  if (!m_are_trees (model, trees, n) || *day == '\0')
    return M_REFUSED;
  for (guint t = 0; t < m_n_rows (model, M_TAP); t++)
    {
      const MRow *before = m_row_at (model, M_TAP, t);
      gboolean is_set = *before->texts[TAP_SET] != '\0', is_pulled = *before->texts[TAP_PULLED] != '\0';
      MRow after = *before;

      if (!is_one_of (trees, n, before->tree) || !is_of (before, before->tree, season)
          || (pull ? !is_set || is_pulled : is_set))
        continue;
      m_put_text (&after, pull ? TAP_PULLED : TAP_SET, day);
      if (!m_change (model, before, &after))
        return M_REFUSED;
    }
  return m_end (model);
}

MAnswer
m_move_tap (MModel *model, gint64 tap, double angle, double height)
{
  const MRow *before = m_find (model, M_TAP, tap);
  MRow after;

  m_begin (model, "move-tap");
  if (before == NULL)
    return M_REFUSED;
  after = *before;
  m_put_amount (&after, TAP_ANGLE, angle, NULL);
  m_put_amount (&after, TAP_HEIGHT, height, NULL);
  return m_change (model, before, &after) ? m_end (model) : M_REFUSED;
}

MAnswer
m_remove_tap (MModel *model, gint64 tap)
{
  const MRow *before = m_find (model, M_TAP, tap);
  MRow after;

  if (before == NULL || *before->texts[TAP_SET] == '\0')
    return m_take_away (model, M_TAP, tap, "delete-tap");
  m_begin (model, "archive-tap");
  after = *before;
  after.archived = TRUE;
  m_change (model, before, &after);
  return m_end (model);
}

MAnswer
m_add_feature (MModel *model, const char *form, const char *name, const char *points,
               gboolean points_are_good)
{
  MRow row;

  m_begin (model, "add-feature");
  m_row_init (&row, M_FEATURE, m_new_id (model, M_FEATURE));
  m_put_text (&row, 0, name);
  m_put_text (&row, 1, form);
  m_put_text (&row, 2, points);
  return points_are_good && m_change (model, NULL, &row) ? m_end (model) : M_REFUSED;
}

MAnswer
m_set_feature (MModel *model, gint64 feature, const char *form, const char *name, const char *points,
               gboolean points_are_good)
{
  const MRow *before = m_find (model, M_FEATURE, feature);
  MRow after;

  m_begin (model, "edit-feature");
  if (before == NULL || (points != NULL && !points_are_good))
    return M_REFUSED;
  after = *before;
  if (name != NULL)
    m_put_text (&after, 0, name);
  if (form != NULL)
    m_put_text (&after, 1, form);
  if (points != NULL)
    m_put_text (&after, 2, points);
  return m_change (model, before, &after) ? m_end (model) : M_REFUSED;
}

MAnswer
m_remove_feature (MModel *model, gint64 feature)
{
  return m_take_away (model, M_FEATURE, feature, "delete-feature");
}

static MAnswer
end_single (MModel *model, MKind kind, const MRow *before, const MRow *after)
{
  MRow empty;

  m_row_init (&empty, kind, after->id);
  if (before == NULL && m_same_row (after, &empty))
    return M_NOTHING;
  return m_change (model, before, after) ? m_end (model) : M_REFUSED;
}

static MRow
single (MModel *model, MKind kind, const MRow **before_out)
{
  MRow row;

  *before_out = m_n_rows (model, kind) > 0 ? m_row_at (model, kind, 0) : NULL;
  if (*before_out != NULL)
    return **before_out;
  m_row_init (&row, kind, m_new_id (model, kind));
  return row;
}

MAnswer
m_anchor (MModel *model, double x, double y, double lat, double lon)
{
  const MRow *before;
  MRow after;

  m_begin (model, "edit-ground");
  after = single (model, M_GROUND, &before);
  m_put_amount (&after, 0, x, NULL);
  m_put_amount (&after, 1, y, NULL);
  m_put_amount (&after, 2, lat, NULL);
  m_put_amount (&after, 3, lon, NULL);
  return end_single (model, M_GROUND, before, &after);
}

MAnswer
m_picture (MModel *model, const char *file, const FrPicturePoint *first, const FrPicturePoint *second)
{
  const FrPicturePoint *const points[] = { first, second };
  const MRow *before;
  MRow after;

  m_begin (model, "place-picture");
  after = single (model, M_GROUND, &before);
  m_put_text (&after, 0, file);
  after.bools[0] = file != NULL && *file != '\0';
  for (guint i = 0; i < 2; i++)
    {
      m_put_amount (&after, 5 + 4 * i, points[i] != NULL ? points[i]->column : NAN, NULL);
      m_put_amount (&after, 6 + 4 * i, points[i] != NULL ? points[i]->row : NAN, NULL);
      m_put_amount (&after, 7 + 4 * i, points[i] != NULL ? points[i]->x_m : NAN, NULL);
      m_put_amount (&after, 8 + 4 * i, points[i] != NULL ? points[i]->y_m : NAN, NULL);
    }
  return end_single (model, M_GROUND, before, &after);
}

/* Sideways and up and down of the published rules, in inches. */
static void
begin_own (MRow *row, const char *was)
{
  static const struct
  {
    const char *code;
    double sideways_in;
    double up_down_in;
  } rules[] = {
    { "six_twelve", 6, 12 }, { "six_twentyfour", 6, 24 }, { "four_twelve", 4, 12 }, { "two_six", 2, 6 }
  };

  for (guint i = 0; i < G_N_ELEMENTS (rules); i++)
    {
      if (strcmp (was, rules[i].code) != 0)
        continue;
      if (!m_known (row, 0))
        row->amounts[0].value = rules[i].sideways_in * 0.0254;
      if (!m_known (row, 1))
        row->amounts[1].value = rules[i].up_down_in * 0.0254;
    }
}

MAnswer
m_single (MModel *model, MKind kind, const char *field, const char *text, double amount, const char *typed)
{
  const MRow *before;
  MRow after;
  char was[M_CHARS];

  m_begin (model, kind == M_GROUND ? "edit-ground" : "edit-tapping");
  after = single (model, kind, &before);
  g_strlcpy (was, after.texts[1], sizeof was);
  m_put_field (&after, field, text, amount, typed);
  if (strcmp (field, "spacing") == 0 && strcmp (after.texts[1], "own") == 0)
    begin_own (&after, was);
  return end_single (model, kind, before, &after);
}
