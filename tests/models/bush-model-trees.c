/* The plain model's edits of trees and their measures. */
#include "bush-model-private.h"

#include <math.h>
#include <string.h>

/* The last number of the last name, raised until nobody has it. */
static void
next_name (MModel *model, char *name, gsize size)
{
  guint n = m_n_rows (model, M_TREE);
  g_autofree char *last = g_strdup (n > 0 ? m_row_at (model, M_TREE, n - 1)->texts[TREE_NAME] : "T0");
  g_autoptr (GRegex) number = g_regex_new ("^(.*?)([0-9]+)([^0-9]*)$", G_REGEX_DOTALL, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  g_autofree char *digits = NULL, *before = NULL, *after = NULL;
  gint64 value;
  gboolean taken = TRUE;

  if (!g_regex_match (number, last, 0, &match) || g_utf8_strlen (last, -1) >= 100)
    {
      g_clear_pointer (&match, g_match_info_free);
      g_regex_match (number, "T0", 0, &match);
    }
  before = g_match_info_fetch (match, 1);
  digits = g_match_info_fetch (match, 2);
  after = g_match_info_fetch (match, 3);
  g_assert_cmpuint (strlen (digits), <=, 9);
  value = g_ascii_strtoll (digits, NULL, 10);
  while (taken)
    {
      g_snprintf (name, size, "%s%0*d%s", before, (int)strlen (digits), (int)++value, after);
      taken = FALSE;
      for (guint i = 0; i < n; i++)
        taken |= strcmp (m_row_at (model, M_TREE, i)->texts[TREE_NAME], name) == 0;
    }
}

static MRow
new_tree (MModel *model, const char *name, const char *species)
{
  char free_name[M_CHARS];
  MRow row;

  m_row_init (&row, M_TREE, m_new_id (model, M_TREE));
  next_name (model, free_name, sizeof free_name);
  m_put_text (&row, TREE_NAME, name != NULL ? name : free_name);
  if (species != NULL)
    m_put_text (&row, TREE_SPECIES, species);
  return row;
}

MAnswer
m_add_tree (MModel *model, const char *name, const char *species, double x, double y)
{
  MRow row;

  m_begin (model, "add-tree");
  row = new_tree (model, name, species);
  row.amounts[TREE_X].value = x;
  row.amounts[TREE_Y].value = y;
  return m_change (model, NULL, &row) ? m_end (model) : M_REFUSED;
}

static gboolean
add_girth (MModel *model, gint64 tree, const char *day, gboolean is_girth, double size, const char *typed)
{
  MRow row;

  m_row_init (&row, M_GIRTH, m_new_id (model, M_GIRTH));
  row.tree = tree;
  m_put_text (&row, 0, day);
  m_put_text (&row, 1, is_girth ? "girth" : "diameter");
  m_put_amount (&row, 0, size, typed);
  return m_change (model, NULL, &row);
}

MAnswer
m_add_measured (MModel *model, const char *name, const char *species, gint64 from, double distance,
                double bearing, double girth, double diameter, const char *day)
{
  const MRow *origin = m_find (model, M_TREE, from);
  const MRow *ground = m_n_rows (model, M_GROUND) > 0 ? m_row_at (model, M_GROUND, 0) : NULL;
  double turn = ground != NULL && m_known (ground, 4) ? ground->amounts[4].value : 0;
  MRow row;

  m_begin (model, "add-tree");
  if (origin == NULL || !(distance >= 0 && distance <= 10000) || !(bearing >= 0 && bearing <= 360)
      || !m_known (origin, TREE_X))
    return M_REFUSED;
  row = new_tree (model, name, species);
  m_put_text (&row, TREE_FROM, origin->texts[TREE_NAME]);
  row.amounts[TREE_DISTANCE].value = distance;
  row.amounts[TREE_BEARING].value = bearing;
  row.amounts[TREE_X].value
      = origin->amounts[TREE_X].value + distance * cos ((90 - bearing - turn) * G_PI / 180);
  row.amounts[TREE_Y].value
      = origin->amounts[TREE_Y].value + distance * sin ((90 - bearing - turn) * G_PI / 180);
  if (!m_change (model, NULL, &row) || (!isnan (girth) && !add_girth (model, row.id, day, TRUE, girth, NULL))
      || (!isnan (diameter) && !add_girth (model, row.id, day, FALSE, diameter, NULL)))
    return M_REFUSED;
  model->learn_place = TRUE;
  return m_end (model);
}

MAnswer
m_place (MModel *model, gint64 tree, double x, double y)
{
  const MRow *before = m_find (model, M_TREE, tree);
  MRow after;

  m_begin (model, "edit-tree");
  if (before == NULL)
    return M_REFUSED;
  after = *before;
  m_put_amount (&after, TREE_X, x, NULL);
  m_put_amount (&after, TREE_Y, y, NULL);
  return m_change (model, before, &after) ? m_end (model) : M_REFUSED;
}

MAnswer
m_move (MModel *model, const gint64 *trees, guint n, double dx, double dy)
{
  m_begin (model, "move-trees");
  if (!isfinite (dx) || !isfinite (dy) || !m_are_trees (model, trees, n))
    return M_REFUSED;
  for (guint i = 0; i < n; i++)
    {
      const MRow *before = m_find (model, M_TREE, trees[i]);
      MRow after = *before;

      if (m_known (before, TREE_X))
        {
          m_put_amount (&after, TREE_X, before->amounts[TREE_X].value + dx, NULL);
          m_put_amount (&after, TREE_Y, before->amounts[TREE_Y].value + dy, NULL);
        }
      if (!m_change (model, before, &after))
        return M_REFUSED;
    }
  return m_end_trees (model, model->pending->len == 1 ? "edit" : "move");
}

MAnswer
m_set (MModel *model, const gint64 *trees, guint n, const char *field, const char *text, double amount)
{
  m_begin (model, "edit-trees");
  if (!m_are_trees (model, trees, n))
    return M_REFUSED;
  for (guint i = 0; i < n; i++)
    {
      const MRow *before = m_find (model, M_TREE, trees[i]);
      MRow after = *before;

      m_put_field (&after, field, text, amount, text);
      if (!m_change (model, before, &after))
        return M_REFUSED;
    }
  return m_end_trees (model, "edit");
}

static gboolean
has_history (MModel *model, gint64 tree)
{
  for (guint i = 0; i < m_n_rows (model, M_TAP); i++)
    if (m_row_at (model, M_TAP, i)->tree == tree && *m_row_at (model, M_TAP, i)->texts[TAP_SET] != '\0')
      return TRUE;
  for (guint i = 0; i < m_n_rows (model, M_YIELD); i++)
    if (m_row_at (model, M_YIELD, i)->tree == tree)
      return TRUE;
  return FALSE;
}

MAnswer
m_remove (MModel *model, const gint64 *trees, guint n)
{
  gboolean any_stays = FALSE;

  m_begin (model, "delete-trees");
  if (!m_are_trees (model, trees, n))
    return M_REFUSED;
  for (guint i = 0; i < n; i++)
    {
      const MRow *before = m_find (model, M_TREE, trees[i]);
      MRow after = *before;

      after.archived = TRUE;
      if (has_history (model, trees[i]))
        {
          any_stays = TRUE;
          m_change (model, before, &after);
          continue;
        }
      m_change (model, before, NULL);
      for (guint k = M_GIRTH; k <= M_TAP; k++)
        for (guint r = 0; r < m_n_rows (model, (MKind)k); r++)
          if (m_row_at (model, (MKind)k, r)->tree == trees[i])
            m_change (model, m_row_at (model, (MKind)k, r), NULL);
    }
  return m_end_trees (model, any_stays ? "archive" : "delete");
}

MAnswer
m_restore (MModel *model, const gint64 *trees, guint n)
{
  m_begin (model, "restore-trees");
  if (!m_are_trees (model, trees, n))
    return M_REFUSED;
  for (guint i = 0; i < n; i++)
    {
      const MRow *before = m_find (model, M_TREE, trees[i]);
      MRow after = *before;

      after.archived = FALSE;
      m_change (model, before, &after);
    }
  return m_end_trees (model, "restore");
}

MAnswer
m_girth (MModel *model, gint64 tree, const char *day, gboolean is_girth, double size, const char *typed)
{
  const MRow *before = NULL;
  MRow after;

  m_begin (model, "add-girth");
  if (m_find (model, M_TREE, tree) == NULL)
    return M_REFUSED;
  for (guint i = 0; i < m_n_rows (model, M_GIRTH); i++)
    {
      const MRow *row = m_row_at (model, M_GIRTH, i);

      if (row->tree == tree && !row->archived && strcmp (row->texts[0], day) == 0
          && strcmp (row->texts[1], is_girth ? "girth" : "diameter") == 0)
        before = row;
    }
  if (before == NULL)
    return add_girth (model, tree, day, is_girth, size, typed) ? m_end (model) : M_REFUSED;
  m_begin (model, "edit-girth");
  after = *before;
  m_put_amount (&after, 0, size, typed);
  return m_change (model, before, &after) ? m_end (model) : M_REFUSED;
}

MAnswer
m_remove_girth (MModel *model, gint64 girth)
{
  return m_take_away (model, M_GIRTH, girth, "delete-girth");
}
