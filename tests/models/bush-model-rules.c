/* What may be kept, after the page's description and the ranges in the documentation of the records; and the
 * making of an edit of the plain model. */
#include "bush-model-private.h"

#include <math.h>
#include <string.h>

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
all_or_none (const MRow *row, guint first, guint n)
{
  guint n_known = 0;

  for (guint i = 0; i < n; i++)
    n_known += m_known (row, first + i);
  return n_known == 0 || n_known == n;
}

static gboolean
is_whole (const MRow *row, guint amount)
{
  return !m_known (row, amount) || floor (row->amounts[amount].value) == row->amounts[amount].value;
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

gboolean
m_may_be_kept (const MRow *row)
{
  for (guint i = 0; i < M_AMOUNTS; i++)
    if (m_known (row, i)
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
      return m_known (row, 0) && *row->texts[0] != '\0';
    case M_TAP:
      return m_known (row, TAP_SEASON) && is_whole (row, TAP_SEASON)
             && !(*row->texts[TAP_PULLED] != '\0' && *row->texts[TAP_SET] == '\0')
             && !(*row->texts[TAP_CLOSED] != '\0' && *row->texts[TAP_SET] == '\0')
             && !is_before (row->texts[TAP_PULLED], row->texts[TAP_SET])
             && !is_before (row->texts[TAP_CLOSED], row->texts[TAP_SET])
             && !is_before (row->texts[TAP_CLOSED], row->texts[TAP_PULLED]);
    case M_YIELD:
      return m_known (row, 0) && is_whole (row, 0);
    case M_GROUND:
      return all_or_none (row, 0, 4) && all_or_none (row, 5, 4) && all_or_none (row, 9, 4)
             && !(row->amounts[5].value == row->amounts[9].value
                  && row->amounts[6].value == row->amounts[10].value)
             && !(row->amounts[7].value == row->amounts[11].value
                  && row->amounts[8].value == row->amounts[12].value);
    case M_TAPPING:
      return is_whole (row, 5) && is_whole (row, 6)
             && (strcmp (row->texts[1], "own") != 0 || (m_known (row, 0) && m_known (row, 1)))
             && !(row->amounts[2].value > row->amounts[3].value);
    case M_FEATURE:
    case M_KINDS:
      break;
    }
  return TRUE;
}

gboolean
m_known (const MRow *row, guint amount)
{
  return !isnan (row->amounts[amount].value);
}

void
m_begin (MModel *model, const char *label)
{
  m_leave (model);
  g_strlcpy (model->label, label, sizeof model->label);
}

/* Either may be NULL. FALSE when @after may not be kept. */
gboolean
m_change (MModel *model, const MRow *before, const MRow *after)
{
  MStep step = { .before = { .kind = M_KINDS }, .after = { .kind = M_KINDS } };
  const MRow *row = before != NULL ? before : after;

  if (after != NULL && !m_may_be_kept (after))
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

MAnswer
m_end (MModel *model)
{
  return model->pending->len > 0 ? M_CHANGED : M_NOTHING;
}

/* "VERB-tree" or "VERB-trees" by how many trees differ. */
MAnswer
m_end_trees (MModel *model, const char *verb)
{
  guint n = 0;

  for (guint i = 0; i < model->pending->len; i++)
    n += g_array_index (model->pending, MStep, i).before.kind == M_TREE;
  g_snprintf (model->label, sizeof model->label, "%s-tree%s", verb, n == 1 ? "" : "s");
  return m_end (model);
}

gint64
m_new_id (MModel *model, MKind kind)
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

void
m_put_text (MRow *row, guint place, const char *text)
{
  g_autofree char *stripped = g_strdup (text != NULL ? text : "");

  g_strstrip (stripped);
  g_assert_cmpuint (strlen (stripped), <, M_CHARS);
  g_strlcpy (row->texts[place], stripped, M_CHARS);
}

/* The same number again, without words for it, leaves all as it was. */
void
m_put_amount (MRow *row, guint place, double value, const char *typed)
{
  MAmount *amount = &row->amounts[place];

  if (isnan (value))
    typed = NULL;
  if (typed == NULL && ((isnan (value) && isnan (amount->value)) || value == amount->value))
    return;
  amount->value = value;
  g_strlcpy (amount->typed, typed != NULL ? typed : "", sizeof amount->typed);
}

gboolean
m_are_trees (MModel *model, const gint64 *trees, guint n)
{
  for (guint i = 0; i < n; i++)
    if (m_find (model, M_TREE, trees[i]) == NULL)
      return FALSE;
  return TRUE;
}

MAnswer
m_take_away (MModel *model, MKind kind, gint64 id, const char *label)
{
  const MRow *before = m_find (model, kind, id);

  m_begin (model, label);
  if (before == NULL)
    return M_REFUSED;
  m_change (model, before, NULL);
  return m_end (model);
}

/* Puts one field, whatever it is. */
void
m_put_field (MRow *row, const char *field, const char *text, double amount, const char *typed)
{
  guint place = m_place_of (m_amount_names[row->kind], field);

  if (place != G_MAXUINT)
    {
      m_put_amount (row, place, amount, typed);
      return;
    }
  place = m_place_of (m_text_names[row->kind], field);
  if (place != G_MAXUINT)
    m_put_text (row, place, text);
  else
    row->bools[m_place_of (m_bool_names[row->kind], field)] = amount == 1;
}
