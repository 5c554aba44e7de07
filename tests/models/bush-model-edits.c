/* The edits of the plain model and what may be kept, after the page's description and the ranges in the
 * documentation of the records. */
#include "bush-model-private.h"

#include <math.h>
#include <string.h>

enum
{
  TREE_X,
  TREE_Y,
  TREE_ELEVATION,
  TREE_DISTANCE,
  TREE_BEARING
};

enum
{
  TREE_NAME,
  TREE_SPECIES,
  TREE_FROM,
  TREE_CROWN,
  TREE_HEALTH,
  TREE_PERMISSION,
  TREE_OWNER,
  TREE_CHOICE
};

enum
{
  TAP_SEASON,
  TAP_DEPTH,
  TAP_BORE,
  TAP_HEIGHT,
  TAP_ANGLE,
  TAP_LITRES
};

enum
{
  TAP_SET,
  TAP_SET_BY,
  TAP_SPOUT,
  TAP_CONTAINER,
  TAP_PULLED,
  TAP_CLOSED
};

static const double ranges[M_KINDS][M_AMOUNTS][2] = {
  [M_TREE] = { { -1e7, 1e7 }, { -1e7, 1e7 }, { -430, 6000 }, { 0, 10000 }, { 0, 360 } },
  [M_GIRTH] = { { 0.005, 40 } },
  [M_TAP] = { { 1600, 2400 }, { 0.002, 0.3 }, { 0.002, 0.05 }, { 0, 10 }, { 0, 360 }, { 0.1, 10000 } },
  [M_YIELD] = { { 1600, 2400 }, { 0, 10000 }, { 0, 90 }, { -5, 110 } },
  [M_GROUND] = { { -1e7, 1e7 },
                 { -1e7, 1e7 },
                 { -90, 90 },
                 { -180, 180 },
                 { -180, 180 },
                 { -1e6, 1e6 },
                 { -1e6, 1e6 },
                 { -1e7, 1e7 },
                 { -1e7, 1e7 },
                 { -1e6, 1e6 },
                 { -1e6, 1e6 },
                 { -1e7, 1e7 },
                 { -1e7, 1e7 } },
  [M_TAPPING] = { { 0.005, 2 },
                  { 0.005, 4 },
                  { 0, 10 },
                  { 0, 10 },
                  { 0.5, 10000 },
                  { 0, 100000 },
                  { 0, 100000 },
                  { 0, 1e6 },
                  { 0, 100000 },
                  { 1, 366 },
                  { 1, 100 } },
};

/* Space on both sides, so that "red" is not found in another word. */
static const char *const choices[M_KINDS][M_TEXTS] = {
  [M_TREE] = { [TREE_SPECIES] = " sugar black red silver norway bigleaf boxelder other birch walnut ",
               [TREE_CROWN] = " unknown wide middling narrow ",
               [TREE_HEALTH] = " unknown healthy weak failing dead ",
               [TREE_PERMISSION] = " unknown own granted refused ",
               [TREE_CHOICE] = " open must never " },
  [M_GIRTH] = { [1] = " girth diameter " },
  [M_YIELD]
  = { [0] = " refractometer_atc refractometer hydrometer_38f hydrometer_60f hydrometer_68f guess " },
  [M_FEATURE] = { [1] = " path lane wall stream building boiling store " },
  [M_TAPPING] = { [0] = " conservative one_tap facts traditional ",
                  [1] = " six_twelve six_twentyfour four_twelve two_six own " },
};

/* Longest texts, where the tests come near; the others may be as long as they get here. */
static gboolean
is_name (MKind kind, guint text)
{
  return (kind == M_TREE && (text == TREE_NAME || text == TREE_FROM)) || (kind == M_FEATURE && text == 0);
}

void
m_row_init (MRow *row, MKind kind, gint64 id)
{
  memset (row, 0, sizeof *row);
  row->kind = kind;
  row->id = id;
  for (guint i = 0; i < M_AMOUNTS; i++)
    row->amounts[i].value = NAN;
  for (guint i = 0; i < M_TEXTS; i++)
    if (choices[kind][i] != NULL)
      {
        const char *first = choices[kind][i] + 1;

        g_strlcpy (row->texts[i], first, strcspn (first, " ") + 1);
      }
}

static gboolean
known (const MRow *row, guint amount)
{
  return !isnan (row->amounts[amount].value);
}

static gboolean
all_or_none (const MRow *row, guint first, guint n)
{
  guint n_known = 0;

  for (guint i = 0; i < n; i++)
    n_known += known (row, first + i);
  return n_known == 0 || n_known == n;
}

static gboolean
is_whole (const MRow *row, guint amount)
{
  return !known (row, amount) || floor (row->amounts[amount].value) == row->amounts[amount].value;
}

static gboolean
is_choice (const char *list, const char *text)
{
  g_autofree char *word = g_strdup_printf (" %s ", text);

  return *text != '\0' && strchr (text, ' ') == NULL && strstr (list, word) != NULL;
}

/* Both known and @late before @early. */
static gboolean
is_before (const char *late, const char *early)
{
  return *late != '\0' && *early != '\0' && strcmp (late, early) < 0;
}

static gboolean
may_be_kept (const MRow *row)
{
  for (guint i = 0; i < M_AMOUNTS; i++)
    if (known (row, i)
        && !(row->amounts[i].value >= ranges[row->kind][i][0]
             && row->amounts[i].value <= ranges[row->kind][i][1]))
      return FALSE;
  for (guint i = 0; i < M_TEXTS; i++)
    {
      if (choices[row->kind][i] != NULL && !is_choice (choices[row->kind][i], row->texts[i]))
        return FALSE;
      if (is_name (row->kind, i) && g_utf8_strlen (row->texts[i], -1) > 120)
        return FALSE;
    }
  switch (row->kind)
    {
    case M_TREE:
      return *row->texts[TREE_NAME] != '\0' && all_or_none (row, TREE_X, 2);
    case M_GIRTH:
      return known (row, 0) && *row->texts[0] != '\0';
    case M_TAP:
      return known (row, TAP_SEASON) && is_whole (row, TAP_SEASON)
             && !(*row->texts[TAP_PULLED] != '\0' && *row->texts[TAP_SET] == '\0')
             && !(*row->texts[TAP_CLOSED] != '\0' && *row->texts[TAP_SET] == '\0')
             && !is_before (row->texts[TAP_PULLED], row->texts[TAP_SET])
             && !is_before (row->texts[TAP_CLOSED], row->texts[TAP_SET])
             && !is_before (row->texts[TAP_CLOSED], row->texts[TAP_PULLED]);
    case M_YIELD:
      return known (row, 0) && is_whole (row, 0);
    case M_GROUND:
      return all_or_none (row, 0, 4) && all_or_none (row, 5, 4) && all_or_none (row, 9, 4)
             && !(row->amounts[5].value == row->amounts[9].value
                  && row->amounts[6].value == row->amounts[10].value)
             && !(row->amounts[7].value == row->amounts[11].value
                  && row->amounts[8].value == row->amounts[12].value);
    case M_TAPPING:
      return is_whole (row, 5) && is_whole (row, 6)
             && (strcmp (row->texts[1], "own") != 0 || (known (row, 0) && known (row, 1)))
             && !(row->amounts[2].value > row->amounts[3].value);
    case M_FEATURE:
    case M_KINDS:
      break;
    }
  return TRUE;
}

static void
begin (MModel *model, const char *label)
{
  m_leave (model);
  g_strlcpy (model->label, label, sizeof model->label);
}

/* Either may be NULL. FALSE when @after may not be kept. */
static gboolean
change (MModel *model, const MRow *before, const MRow *after)
{
  MStep step = { .before = { .kind = M_KINDS }, .after = { .kind = M_KINDS } };
  const MRow *row = before != NULL ? before : after;

  if (after != NULL && !may_be_kept (after))
    return FALSE;
  if (before != NULL && after != NULL && m_same_row (before, after))
    return TRUE;
  for (guint i = 0; i < model->pending->len; i++)
    {
      const MStep *other = &g_array_index (model->pending, MStep, i);
      const MRow *its = other->before.kind != M_KINDS ? &other->before : &other->after;

      if (its->kind == row->kind && its->id == row->id)
        return TRUE; /* the same tree named twice */
    }
  if (before != NULL)
    step.before = *before;
  if (after != NULL)
    step.after = *after;
  g_array_append_val (model->pending, step);
  return TRUE;
}

static MAnswer
end (MModel *model)
{
  return model->pending->len > 0 ? M_CHANGED : M_NOTHING;
}

/* "VERB-tree" or "VERB-trees" by how many trees differ. */
static MAnswer
end_trees (MModel *model, const char *verb)
{
  guint n = 0;

  for (guint i = 0; i < model->pending->len; i++)
    n += g_array_index (model->pending, MStep, i).before.kind == M_TREE;
  g_snprintf (model->label, sizeof model->label, "%s-tree%s", verb, n == 1 ? "" : "s");
  return end (model);
}

static gint64
new_id (MModel *model, MKind kind)
{
  gint64 id = model->highest[kind] + 1;

  for (guint i = 0; i < model->pending->len; i++)
    {
      const MStep *step = &g_array_index (model->pending, MStep, i);

      if (step->before.kind == M_KINDS && step->after.kind == kind)
        id = MAX (id, step->after.id + 1);
    }
  return id;
}

static void
put_text (MRow *row, guint place, const char *text)
{
  g_autofree char *stripped = g_strdup (text != NULL ? text : "");

  g_strstrip (stripped);
  g_assert_cmpuint (strlen (stripped), <, M_CHARS);
  g_strlcpy (row->texts[place], stripped, M_CHARS);
}

/* The same number again, without words for it, leaves all as it was. */
static void
put_amount (MRow *row, guint place, double value, const char *typed)
{
  MAmount *amount = &row->amounts[place];

  if (isnan (value))
    typed = NULL;
  if (typed == NULL && ((isnan (value) && isnan (amount->value)) || value == amount->value))
    return;
  amount->value = value;
  g_strlcpy (amount->typed, typed != NULL ? typed : "", sizeof amount->typed);
}

static gboolean
are_trees (MModel *model, const gint64 *trees, guint n)
{
  for (guint i = 0; i < n; i++)
    if (m_find (model, M_TREE, trees[i]) == NULL)
      return FALSE;
  return TRUE;
}

static gboolean
is_one_of (const gint64 *trees, guint n, gint64 id)
{
  for (guint i = 0; i < n; i++)
    if (trees[i] == id)
      return TRUE;
  return FALSE;
}

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

  m_row_init (&row, M_TREE, new_id (model, M_TREE));
  next_name (model, free_name, sizeof free_name);
  put_text (&row, TREE_NAME, name != NULL ? name : free_name);
  if (species != NULL)
    put_text (&row, TREE_SPECIES, species);
  return row;
}

MAnswer
m_add_tree (MModel *model, const char *name, const char *species, double x, double y)
{
  MRow row;

  begin (model, "add-tree");
  row = new_tree (model, name, species);
  row.amounts[TREE_X].value = x;
  row.amounts[TREE_Y].value = y;
  return change (model, NULL, &row) ? end (model) : M_REFUSED;
}

static gboolean
add_girth (MModel *model, gint64 tree, const char *day, gboolean is_girth, double size, const char *typed)
{
  MRow row;

  m_row_init (&row, M_GIRTH, new_id (model, M_GIRTH));
  row.tree = tree;
  put_text (&row, 0, day);
  put_text (&row, 1, is_girth ? "girth" : "diameter");
  put_amount (&row, 0, size, typed);
  return change (model, NULL, &row);
}

MAnswer
m_add_measured (MModel *model, const char *name, const char *species, gint64 from, double distance,
                double bearing, double girth, double diameter, const char *day)
{
  const MRow *origin = m_find (model, M_TREE, from);
  const MRow *ground = m_n_rows (model, M_GROUND) > 0 ? m_row_at (model, M_GROUND, 0) : NULL;
  double turn = ground != NULL && known (ground, 4) ? ground->amounts[4].value : 0;
  MRow row;

  begin (model, "add-tree");
  if (origin == NULL || !(distance >= 0 && distance <= 10000) || !(bearing >= 0 && bearing <= 360)
      || !known (origin, TREE_X))
    return M_REFUSED;
  row = new_tree (model, name, species);
  put_text (&row, TREE_FROM, origin->texts[TREE_NAME]);
  row.amounts[TREE_DISTANCE].value = distance;
  row.amounts[TREE_BEARING].value = bearing;
  row.amounts[TREE_X].value
      = origin->amounts[TREE_X].value + distance * cos ((90 - bearing - turn) * G_PI / 180);
  row.amounts[TREE_Y].value
      = origin->amounts[TREE_Y].value + distance * sin ((90 - bearing - turn) * G_PI / 180);
  if (!change (model, NULL, &row) || (!isnan (girth) && !add_girth (model, row.id, day, TRUE, girth, NULL))
      || (!isnan (diameter) && !add_girth (model, row.id, day, FALSE, diameter, NULL)))
    return M_REFUSED;
  model->learn_place = TRUE;
  return end (model);
}

MAnswer
m_place (MModel *model, gint64 tree, double x, double y)
{
  const MRow *before = m_find (model, M_TREE, tree);
  MRow after;

  begin (model, "edit-tree");
  if (before == NULL)
    return M_REFUSED;
  after = *before;
  put_amount (&after, TREE_X, x, NULL);
  put_amount (&after, TREE_Y, y, NULL);
  return change (model, before, &after) ? end (model) : M_REFUSED;
}

MAnswer
m_move (MModel *model, const gint64 *trees, guint n, double dx, double dy)
{
  begin (model, "move-trees");
  if (!isfinite (dx) || !isfinite (dy) || !are_trees (model, trees, n))
    return M_REFUSED;
  for (guint i = 0; i < n; i++)
    {
      const MRow *before = m_find (model, M_TREE, trees[i]);
      MRow after = *before;

      if (known (before, TREE_X))
        {
          put_amount (&after, TREE_X, before->amounts[TREE_X].value + dx, NULL);
          put_amount (&after, TREE_Y, before->amounts[TREE_Y].value + dy, NULL);
        }
      if (!change (model, before, &after))
        return M_REFUSED;
    }
  return end_trees (model, model->pending->len == 1 ? "edit" : "move");
}

/* Puts one field, whatever it is. */
static void
put_field (MRow *row, const char *field, const char *text, double amount, const char *typed)
{
  guint place = m_place_of (m_amount_names[row->kind], field);

  if (place != G_MAXUINT)
    {
      put_amount (row, place, amount, typed);
      return;
    }
  place = m_place_of (m_text_names[row->kind], field);
  if (place != G_MAXUINT)
    put_text (row, place, text);
  else
    row->bools[m_place_of (m_bool_names[row->kind], field)] = amount == 1;
}

MAnswer
m_set (MModel *model, const gint64 *trees, guint n, const char *field, const char *text, double amount)
{
  begin (model, "edit-trees");
  if (!are_trees (model, trees, n))
    return M_REFUSED;
  for (guint i = 0; i < n; i++)
    {
      const MRow *before = m_find (model, M_TREE, trees[i]);
      MRow after = *before;

      put_field (&after, field, text, amount, text);
      if (!change (model, before, &after))
        return M_REFUSED;
    }
  return end_trees (model, "edit");
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

  begin (model, "delete-trees");
  if (!are_trees (model, trees, n))
    return M_REFUSED;
  for (guint i = 0; i < n; i++)
    {
      const MRow *before = m_find (model, M_TREE, trees[i]);
      MRow after = *before;

      after.archived = TRUE;
      if (has_history (model, trees[i]))
        {
          any_stays = TRUE;
          change (model, before, &after);
          continue;
        }
      change (model, before, NULL);
      for (guint k = M_GIRTH; k <= M_TAP; k++)
        for (guint r = 0; r < m_n_rows (model, (MKind)k); r++)
          if (m_row_at (model, (MKind)k, r)->tree == trees[i])
            change (model, m_row_at (model, (MKind)k, r), NULL);
    }
  return end_trees (model, any_stays ? "archive" : "delete");
}

MAnswer
m_restore (MModel *model, const gint64 *trees, guint n)
{
  begin (model, "restore-trees");
  if (!are_trees (model, trees, n))
    return M_REFUSED;
  for (guint i = 0; i < n; i++)
    {
      const MRow *before = m_find (model, M_TREE, trees[i]);
      MRow after = *before;

      after.archived = FALSE;
      change (model, before, &after);
    }
  return end_trees (model, "restore");
}

MAnswer
m_girth (MModel *model, gint64 tree, const char *day, gboolean is_girth, double size, const char *typed)
{
  const MRow *before = NULL;
  MRow after;

  begin (model, "add-girth");
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
    return add_girth (model, tree, day, is_girth, size, typed) ? end (model) : M_REFUSED;
  begin (model, "edit-girth");
  after = *before;
  put_amount (&after, 0, size, typed);
  return change (model, before, &after) ? end (model) : M_REFUSED;
}

static MAnswer
take_away (MModel *model, MKind kind, gint64 id, const char *label)
{
  const MRow *before = m_find (model, kind, id);

  begin (model, label);
  if (before == NULL)
    return M_REFUSED;
  change (model, before, NULL);
  return end (model);
}

MAnswer
m_remove_girth (MModel *model, gint64 girth)
{
  return take_away (model, M_GIRTH, girth, "delete-girth");
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

  begin (model, before != NULL ? "edit-yield" : "add-yield");
  if (m_find (model, M_TREE, tree) == NULL)
    return M_REFUSED;
  if (before != NULL)
    after = *before;
  else
    {
      m_row_init (&after, M_YIELD, new_id (model, M_YIELD));
      after.tree = tree;
      after.amounts[0].value = season;
    }
  put_amount (&after, 1, volume, NULL);
  put_amount (&after, 2, brix, NULL);
  put_amount (&after, 3, sample, NULL);
  if (instrument != NULL)
    put_text (&after, 0, instrument);
  return change (model, before, &after) ? end (model) : M_REFUSED;
}

MAnswer
m_remove_yield (MModel *model, gint64 tree, guint season)
{
  const MRow *before = yield_of (model, tree, season);

  begin (model, "delete-yield");
  if (m_find (model, M_TREE, tree) == NULL)
    return M_REFUSED;
  if (before != NULL)
    change (model, before, NULL);
  return end (model);
}

static gboolean
plan_tap (MModel *model, gint64 tree, guint season, double angle, double height)
{
  MRow row;

  m_row_init (&row, M_TAP, new_id (model, M_TAP));
  row.tree = tree;
  row.amounts[TAP_SEASON].value = season;
  row.amounts[TAP_ANGLE].value = angle;
  row.amounts[TAP_HEIGHT].value = height;
  return change (model, NULL, &row);
}

MAnswer
m_plan_taps (MModel *model, gint64 tree, guint season, const FrBushPlace *places, guint n)
{
  begin (model, "plan-taps");
  if (m_find (model, M_TREE, tree) == NULL)
    return M_REFUSED;
  for (guint i = 0; i < n; i++)
    if (!plan_tap (model, tree, season, places != NULL ? places[i].angle_deg : NAN,
                   places != NULL ? places[i].height_m : NAN))
      return M_REFUSED;
  return end (model);
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

  begin (model, "plan-taps");
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
            change (model, tap, NULL);
        }
      for (; more > 0; more--)
        plan_tap (model, tree->id, season, NAN, NAN);
    }
  model->learn_place = TRUE;
  return end (model);
}

MAnswer
m_date_taps (MModel *model, gboolean pull, const gint64 *trees, guint n, guint season, const char *day)
{
  begin (model, pull ? "pull-taps" : "set-taps");
  if (!are_trees (model, trees, n) || *day == '\0')
    return M_REFUSED;
  for (guint t = 0; t < m_n_rows (model, M_TAP); t++)
    {
      const MRow *before = m_row_at (model, M_TAP, t);
      gboolean is_set = *before->texts[TAP_SET] != '\0', is_pulled = *before->texts[TAP_PULLED] != '\0';
      MRow after = *before;

      if (!is_one_of (trees, n, before->tree) || !is_of (before, before->tree, season)
          || (pull ? !is_set || is_pulled : is_set))
        continue;
      put_text (&after, pull ? TAP_PULLED : TAP_SET, day);
      if (!change (model, before, &after))
        return M_REFUSED;
    }
  return end (model);
}

MAnswer
m_move_tap (MModel *model, gint64 tap, double angle, double height)
{
  const MRow *before = m_find (model, M_TAP, tap);
  MRow after;

  begin (model, "move-tap");
  if (before == NULL)
    return M_REFUSED;
  after = *before;
  put_amount (&after, TAP_ANGLE, angle, NULL);
  put_amount (&after, TAP_HEIGHT, height, NULL);
  return change (model, before, &after) ? end (model) : M_REFUSED;
}

MAnswer
m_remove_tap (MModel *model, gint64 tap)
{
  const MRow *before = m_find (model, M_TAP, tap);
  MRow after;

  if (before == NULL || *before->texts[TAP_SET] == '\0')
    return take_away (model, M_TAP, tap, "delete-tap");
  begin (model, "archive-tap");
  after = *before;
  after.archived = TRUE;
  change (model, before, &after);
  return end (model);
}

MAnswer
m_add_feature (MModel *model, const char *form, const char *name, const char *points,
               gboolean points_are_good)
{
  MRow row;

  begin (model, "add-feature");
  m_row_init (&row, M_FEATURE, new_id (model, M_FEATURE));
  put_text (&row, 0, name);
  put_text (&row, 1, form);
  put_text (&row, 2, points);
  return points_are_good && change (model, NULL, &row) ? end (model) : M_REFUSED;
}

MAnswer
m_set_feature (MModel *model, gint64 feature, const char *form, const char *name, const char *points,
               gboolean points_are_good)
{
  const MRow *before = m_find (model, M_FEATURE, feature);
  MRow after;

  begin (model, "edit-feature");
  if (before == NULL || (points != NULL && !points_are_good))
    return M_REFUSED;
  after = *before;
  if (name != NULL)
    put_text (&after, 0, name);
  if (form != NULL)
    put_text (&after, 1, form);
  if (points != NULL)
    put_text (&after, 2, points);
  return change (model, before, &after) ? end (model) : M_REFUSED;
}

MAnswer
m_remove_feature (MModel *model, gint64 feature)
{
  return take_away (model, M_FEATURE, feature, "delete-feature");
}

static MAnswer
end_single (MModel *model, MKind kind, const MRow *before, const MRow *after)
{
  MRow empty;

  m_row_init (&empty, kind, after->id);
  if (before == NULL && m_same_row (after, &empty))
    return M_NOTHING;
  return change (model, before, after) ? end (model) : M_REFUSED;
}

static MRow
single (MModel *model, MKind kind, const MRow **before_out)
{
  MRow row;

  *before_out = m_n_rows (model, kind) > 0 ? m_row_at (model, kind, 0) : NULL;
  if (*before_out != NULL)
    return **before_out;
  m_row_init (&row, kind, new_id (model, kind));
  return row;
}

MAnswer
m_anchor (MModel *model, double x, double y, double lat, double lon)
{
  const MRow *before;
  MRow after;

  begin (model, "edit-ground");
  after = single (model, M_GROUND, &before);
  put_amount (&after, 0, x, NULL);
  put_amount (&after, 1, y, NULL);
  put_amount (&after, 2, lat, NULL);
  put_amount (&after, 3, lon, NULL);
  return end_single (model, M_GROUND, before, &after);
}

MAnswer
m_picture (MModel *model, const char *file, const FrPicturePoint *first, const FrPicturePoint *second)
{
  const FrPicturePoint *const points[] = { first, second };
  const MRow *before;
  MRow after;

  begin (model, "place-picture");
  after = single (model, M_GROUND, &before);
  put_text (&after, 0, file);
  after.bools[0] = file != NULL && *file != '\0';
  for (guint i = 0; i < 2; i++)
    {
      put_amount (&after, 5 + 4 * i, points[i] != NULL ? points[i]->column : NAN, NULL);
      put_amount (&after, 6 + 4 * i, points[i] != NULL ? points[i]->row : NAN, NULL);
      put_amount (&after, 7 + 4 * i, points[i] != NULL ? points[i]->x_m : NAN, NULL);
      put_amount (&after, 8 + 4 * i, points[i] != NULL ? points[i]->y_m : NAN, NULL);
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
      if (!known (row, 0))
        row->amounts[0].value = rules[i].sideways_in * 0.0254;
      if (!known (row, 1))
        row->amounts[1].value = rules[i].up_down_in * 0.0254;
    }
}

MAnswer
m_single (MModel *model, MKind kind, const char *field, const char *text, double amount, const char *typed)
{
  const MRow *before;
  MRow after;
  char was[M_CHARS];

  begin (model, kind == M_GROUND ? "edit-ground" : "edit-tapping");
  after = single (model, kind, &before);
  g_strlcpy (was, after.texts[1], sizeof was);
  put_field (&after, field, text, amount, typed);
  if (strcmp (field, "spacing") == 0 && strcmp (after.texts[1], "own") == 0)
    begin_own (&after, was);
  return end_single (model, kind, before, &after);
}
