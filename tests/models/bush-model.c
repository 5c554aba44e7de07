/* Rows, undo and comparison of the plain model; the edits are in bush-model-edits.c. */
#include "bush-model-private.h"

#include <math.h>
#include <string.h>

const char *const m_amount_names[M_KINDS][M_AMOUNTS + 1] = {
  [M_TREE] = { "x_m", "y_m", "elevation_m", "from_distance_m", "from_bearing_deg" },
  [M_GIRTH] = { "size_m" },
  [M_TAP] = { "season", "depth_m", "bore_m", "height_m", "direction_deg", "container_l" },
  [M_YIELD] = { "season", "volume_l", "reading_brix", "sample_c" },
  [M_GROUND]
  = { "anchor_x_m", "anchor_y_m", "anchor_lat_deg", "anchor_lon_deg", "declination_deg", "first_column",
      "first_row", "first_x_m", "first_y_m", "second_column", "second_row", "second_x_m", "second_y_m" },
  [M_TAPPING] = { "sideways_m", "up_down_m", "min_height_m", "max_height_m", "pail_l", "buckets", "max_trees",
                  "walk_m", "peak_boil_l", "season_days", "peak_ratio" },
};

const char *const m_text_names[M_KINDS][M_TEXTS + 1] = {
  [M_TREE] = { "name", "species", "measured_from", "crown", "health", "permission", "owner", "choice",
               "photo", "note", "foreign_data", "stand" },
  [M_GIRTH] = { "measured_on", "measure" },
  [M_TAP] = { "set_on", "set_by", "spout", "container", "pulled_on", "closed_on", "note" },
  [M_YIELD] = { "instrument", "note" },
  [M_FEATURE] = { "name", "form", "points" },
  [M_GROUND] = { "picture" },
  [M_TAPPING] = { "guideline", "spacing" },
};

const char *const m_bool_names[M_KINDS][M_BOOLS + 1] = {
  [M_TREE] = { "dead_limbs", "wires", "lean", "roadside" },
  [M_GROUND] = { "picture_shown" },
};

const FrKindId m_kinds[M_KINDS] = { FR_KIND_TREE,    FR_KIND_GIRTH,  FR_KIND_TAP,    FR_KIND_YIELD,
                                    FR_KIND_FEATURE, FR_KIND_GROUND, FR_KIND_TAPPING };

static gboolean
has_tree (MKind kind)
{
  return kind == M_GIRTH || kind == M_TAP || kind == M_YIELD;
}

guint
m_place_of (const char *const *names, const char *name)
{
  for (guint i = 0; names[i] != NULL; i++)
    if (strcmp (names[i], name) == 0)
      return i;
  return G_MAXUINT;
}

static MKind
kind_of (const FrRecord *record)
{
  for (guint k = 0; k < M_KINDS; k++)
    if (m_kinds[k] == record->kind->id)
      return (MKind)k;
  g_assert_not_reached ();
}

/* Reads a record; every field of its kind must have a place here. */
MRow
m_read_row (const FrRecord *record)
{
  static const FrField *amounts[M_KINDS][M_AMOUNTS], *texts[M_KINDS][M_TEXTS], *bools[M_KINDS][M_BOOLS],
      *refs[M_KINDS];
  static gboolean known[M_KINDS];
  MKind kind = kind_of (record);
  MRow row;

  if (!known[kind])
    {
      guint n = has_tree (kind) ? 1 : 0;

      for (guint i = 0; i < M_AMOUNTS && m_amount_names[kind][i] != NULL; i++, n++)
        amounts[kind][i] = fr_kind_field (record->kind, m_amount_names[kind][i]);
      for (guint i = 0; i < M_TEXTS && m_text_names[kind][i] != NULL; i++, n++)
        texts[kind][i] = fr_kind_field (record->kind, m_text_names[kind][i]);
      for (guint i = 0; i < M_BOOLS && m_bool_names[kind][i] != NULL; i++, n++)
        bools[kind][i] = fr_kind_field (record->kind, m_bool_names[kind][i]);
      if (has_tree (kind))
        refs[kind] = fr_kind_field (record->kind, "tree");
      g_assert_cmpuint (n, ==, record->kind->n_fields);
      known[kind] = TRUE;
    }
  m_row_init (&row, kind, record->id);
  g_strlcpy (row.uid, record->uid, sizeof row.uid);
  row.archived = record->archived;
  if (refs[kind] != NULL)
    row.tree = fr_record_int (record, refs[kind]);
  for (guint i = 0; i < M_AMOUNTS && amounts[kind][i] != NULL; i++)
    {
      const FrAmount *amount = fr_record_amount ((FrRecord *)record, amounts[kind][i]);

      row.amounts[i].value = amount->value;
      g_strlcpy (row.amounts[i].typed, amount->typed != NULL ? amount->typed : "",
                 sizeof row.amounts[i].typed);
    }
  for (guint i = 0; i < M_TEXTS && texts[kind][i] != NULL; i++)
    {
      const char *text = fr_record_text (record, texts[kind][i]);

      g_assert_true (text == NULL || strlen (text) < M_CHARS);
      g_strlcpy (row.texts[i], text != NULL ? text : "", M_CHARS);
    }
  for (guint i = 0; i < M_BOOLS && bools[kind][i] != NULL; i++)
    row.bools[i] = fr_record_int (record, bools[kind][i]) != 0;
  return row;
}

gboolean
m_same_amount (const MAmount *a, const MAmount *b)
{
  return ((isnan (a->value) && isnan (b->value)) || a->value == b->value) && strcmp (a->typed, b->typed) == 0;
}

gboolean
m_same_row (const MRow *a, const MRow *b)
{
  gboolean same = a->kind == b->kind && a->id == b->id && strcmp (a->uid, b->uid) == 0
                  && !a->archived == !b->archived && a->tree == b->tree;

  for (guint i = 0; same && i < M_AMOUNTS; i++)
    same = m_same_amount (&a->amounts[i], &b->amounts[i]);
  for (guint i = 0; same && i < M_TEXTS; i++)
    same = strcmp (a->texts[i], b->texts[i]) == 0;
  for (guint i = 0; same && i < M_BOOLS; i++)
    same = !a->bools[i] == !b->bools[i];
  return same;
}

typedef struct
{
  char *label;
  GArray *steps; /* MStep */
} MDone;

static void
done_free (gpointer data)
{
  MDone *done = data;

  g_free (done->label);
  g_array_unref (done->steps);
  g_free (done);
}

MModel *
m_model_new (void)
{
  MModel *model = g_new0 (MModel, 1);

  for (guint k = 0; k < M_KINDS; k++)
    {
      model->view[k] = g_array_new (FALSE, FALSE, sizeof (MRow));
      model->kept[k] = g_array_new (FALSE, FALSE, sizeof (MRow));
    }
  model->pending = g_array_new (FALSE, FALSE, sizeof (MStep));
  model->done = g_ptr_array_new_with_free_func (done_free);
  model->undone = g_ptr_array_new_with_free_func (done_free);
  return model;
}

void
m_model_free (MModel *model)
{
  for (guint k = 0; k < M_KINDS; k++)
    {
      g_array_unref (model->view[k]);
      g_array_unref (model->kept[k]);
    }
  g_array_unref (model->pending);
  g_ptr_array_unref (model->done);
  g_ptr_array_unref (model->undone);
  g_free (model);
}

static MRow *
find_in (GArray *rows, gint64 id, guint *place_out)
{
  guint i = 0;

  while (i < rows->len && g_array_index (rows, MRow, i).id < id)
    i++;
  if (place_out != NULL)
    *place_out = i;
  return i < rows->len && g_array_index (rows, MRow, i).id == id ? &g_array_index (rows, MRow, i) : NULL;
}

guint
m_n_rows (MModel *model, MKind kind)
{
  return model->view[kind]->len;
}

const MRow *
m_row_at (MModel *model, MKind kind, guint nth)
{
  return &g_array_index (model->view[kind], MRow, nth);
}

const MRow *
m_find (MModel *model, MKind kind, gint64 id)
{
  return find_in (model->view[kind], id, NULL);
}

static const MRow *
either (const MStep *step)
{
  return step->before.kind != M_KINDS ? &step->before : &step->after;
}

static void
put_step (GArray *rows, const MStep *step)
{
  guint place;
  MRow *row = find_in (rows, either (step)->id, &place);

  if (step->after.kind == M_KINDS)
    g_array_remove_index (rows, place);
  else if (row != NULL)
    *row = step->after;
  else
    g_array_insert_val (rows, place, step->after);
}

static void
put_steps (MModel *model, GArray *steps)
{
  for (guint i = 0; i < steps->len; i++)
    {
      const MStep *step = &g_array_index (steps, MStep, i);
      MKind kind = either (step)->kind;

      put_step (model->view[kind], step);
      put_step (model->kept[kind], step);
      if (step->after.kind != M_KINDS)
        model->highest[kind] = MAX (model->highest[kind], step->after.id);
    }
}

const char *
m_label (MModel *model)
{
  return model->label;
}

/* What the book alone knows of a new row. */
static void
learn (MModel *model, MStep *step, FrBook *book)
{
  const FrRecord *record = fr_book_find (book, m_kinds[step->after.kind], step->after.id);
  MRow real;

  g_assert_nonnull (record);
  real = m_read_row (record);
  g_assert_cmpuint (strlen (real.uid), ==, 32);
  g_strlcpy (step->after.uid, real.uid, sizeof step->after.uid);
  if (model->learn_place && step->after.kind == M_TREE)
    for (guint i = 0; i < 2; i++)
      {
        g_assert_cmpfloat_with_epsilon (real.amounts[i].value, step->after.amounts[i].value, 1e-7);
        step->after.amounts[i].value = real.amounts[i].value;
      }
  if (model->learn_place && step->after.kind == M_TAP)
    for (guint i = 3; i < 5; i++)
      step->after.amounts[i].value = real.amounts[i].value;
}

/* The one amount in which a step of one row changes it; FALSE when it is any other change. */
static gboolean
one_amount (GArray *steps, guint *place_out)
{
  const MStep *step = &g_array_index (steps, MStep, 0);
  MRow before, after;
  guint n = 0;

  if (steps->len != 1 || step->before.kind == M_KINDS || step->after.kind == M_KINDS)
    return FALSE;
  before = step->before;
  after = step->after;
  for (guint i = 0; i < M_AMOUNTS; i++)
    if (!m_same_amount (&before.amounts[i], &after.amounts[i]))
      {
        *place_out = i;
        n++;
        after.amounts[i] = before.amounts[i];
      }
  return n == 1 && m_same_row (&before, &after);
}

/* Edits of one amount of one row, one after the other, are one step. */
static gboolean
join (MModel *model)
{
  MDone *top;
  MStep *last, *now = &g_array_index (model->pending, MStep, 0);
  guint one, two;

  if (!model->may_join || model->done->len == 0)
    return FALSE;
  top = g_ptr_array_index (model->done, model->done->len - 1);
  if (strcmp (top->label, model->label) != 0 || !one_amount (top->steps, &one)
      || !one_amount (model->pending, &two) || one != two)
    return FALSE;
  last = &g_array_index (top->steps, MStep, 0);
  if (!m_same_row (&last->after, &now->before))
    return FALSE;
  last->after = now->after;
  if (m_same_row (&last->before, &last->after))
    g_ptr_array_remove_index (model->done, model->done->len - 1);
  return TRUE;
}

void
m_take (MModel *model, FrBook *book)
{
  MDone *done;

  for (guint i = 0; i < model->pending->len; i++)
    {
      MStep *step = &g_array_index (model->pending, MStep, i);

      if (step->before.kind == M_KINDS)
        learn (model, step, book);
    }
  put_steps (model, model->pending);
  g_ptr_array_set_size (model->undone, 0);
  if (!join (model))
    {
      done = g_new0 (MDone, 1);
      done->label = g_strdup (model->label);
      done->steps = g_array_copy (model->pending);
      g_ptr_array_add (model->done, done);
      model->may_join = TRUE;
    }
  m_leave (model);
}

void
m_leave (MModel *model)
{
  g_array_set_size (model->pending, 0);
  model->learn_place = FALSE;
}

static const MStep *
pending_of (MModel *model, MKind kind, gint64 id)
{
  for (guint i = 0; i < model->pending->len; i++)
    {
      const MStep *step = &g_array_index (model->pending, MStep, i);

      if (either (step)->kind == kind && either (step)->id == id)
        return step;
    }
  return NULL;
}

/* Whether a tree is there once the edit is kept. */
static gboolean
tree_will_be_there (MModel *model, gint64 id)
{
  const MStep *step = pending_of (model, M_TREE, id);

  return step != NULL ? step->after.kind != M_KINDS : find_in (model->kept[M_TREE], id, NULL) != NULL;
}

static gboolean
tree_is_wanted (MModel *model, gint64 id)
{
  for (guint k = 0; k < M_KINDS; k++)
    for (guint i = 0; has_tree ((MKind)k) && i < model->kept[k]->len; i++)
      {
        const MRow *row = &g_array_index (model->kept[k], MRow, i);
        const MStep *step = pending_of (model, (MKind)k, row->id);

        if (row->tree == id && (step == NULL || step->after.kind != M_KINDS))
          return TRUE;
      }
  return FALSE;
}

gboolean
m_fits (MModel *model)
{
  for (guint i = 0; i < model->pending->len; i++)
    {
      const MStep *step = &g_array_index (model->pending, MStep, i);
      MKind kind = either (step)->kind;
      const MRow *kept = find_in (model->kept[kind], either (step)->id, NULL);

      if (step->before.kind == M_KINDS ? kept != NULL : kept == NULL || !m_same_row (kept, &step->before))
        return FALSE;
      if (step->before.kind == M_KINDS && (kind == M_GROUND || kind == M_TAPPING)
          && model->kept[kind]->len > 0)
        return FALSE;
      if (step->after.kind != M_KINDS && has_tree (kind) && !tree_will_be_there (model, step->after.tree))
        return FALSE;
      if (step->after.kind == M_KINDS && kind == M_TREE && tree_is_wanted (model, step->before.id))
        return FALSE;
    }
  return TRUE;
}

static gboolean
go (MModel *model, GPtrArray *from, GPtrArray *to, gboolean back, MAnswer *answer_out)
{
  MDone *top;

  if (from->len == 0)
    return FALSE;
  top = g_ptr_array_index (from, from->len - 1);
  for (guint i = 0; i < top->steps->len; i++)
    {
      MStep step = g_array_index (top->steps, MStep, i);

      if (back)
        {
          MRow swap = step.before;

          step.before = step.after;
          step.after = swap;
        }
      g_array_append_val (model->pending, step);
    }
  *answer_out = m_fits (model) ? M_CHANGED : M_REFUSED;
  if (*answer_out == M_CHANGED)
    {
      put_steps (model, model->pending);
      g_ptr_array_add (to, g_ptr_array_steal_index (from, from->len - 1));
      model->may_join = FALSE;
    }
  m_leave (model);
  return TRUE;
}

gboolean
m_undo (MModel *model, MAnswer *answer_out)
{
  return go (model, model->done, model->undone, TRUE, answer_out);
}

gboolean
m_redo (MModel *model, MAnswer *answer_out)
{
  return go (model, model->undone, model->done, FALSE, answer_out);
}

void
m_write_beside (MModel *model, const FrRecord *before, const FrRecord *after)
{
  MStep step = { .before = { .kind = M_KINDS }, .after = { .kind = M_KINDS } };
  MKind kind = kind_of (before != NULL ? before : after);

  if (before != NULL)
    step.before = m_read_row (before);
  if (after != NULL)
    step.after = m_read_row (after);
  put_step (model->kept[kind], &step);
  if (after != NULL)
    model->highest[kind] = MAX (model->highest[kind], after->id);
  model->moved = TRUE;
}

static gboolean
differs (MModel *model, MKind kind, gint64 id)
{
  const MRow *seen = find_in (model->view[kind], id, NULL);
  const MRow *kept = find_in (model->kept[kind], id, NULL);

  if (seen == NULL || kept == NULL)
    return seen != kept;
  return !m_same_row (seen, kept);
}

/* From the newest to the oldest: out goes what touches a row that moved, or a row of what went. */
static guint
drop_steps (MModel *model, GPtrArray *stack)
{
  g_autoptr (GHashTable) gone = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  guint n = 0;

  for (guint i = stack->len; i-- > 0;)
    {
      MDone *done = g_ptr_array_index (stack, i);
      gboolean out = FALSE;

      for (guint pass = 0; pass < 2; pass++)
        for (guint s = 0; s < done->steps->len; s++)
          {
            const MRow *row = either (&g_array_index (done->steps, MStep, s));
            g_autofree char *key = g_strdup_printf ("%d/%" G_GINT64_FORMAT, row->kind, row->id);

            if (pass == 0)
              out |= differs (model, row->kind, row->id) || g_hash_table_contains (gone, key);
            else if (out)
              g_hash_table_add (gone, g_steal_pointer (&key));
          }
      if (out)
        g_ptr_array_remove_index (stack, i);
      n += out;
    }
  return n;
}

guint
m_refresh (MModel *model)
{
  guint n;

  if (!model->moved)
    return 0;
  n = drop_steps (model, model->done) + drop_steps (model, model->undone);
  for (guint k = 0; k < M_KINDS; k++)
    {
      g_array_unref (model->view[k]);
      model->view[k] = g_array_copy (model->kept[k]);
    }
  model->moved = FALSE;
  model->may_join = FALSE;
  return n;
}

gboolean
m_is_stale (MModel *model)
{
  return model->moved;
}

void
m_reopen (MModel *model)
{
  m_refresh (model);
  g_ptr_array_set_size (model->done, 0);
  g_ptr_array_set_size (model->undone, 0);
  model->may_join = FALSE;
}
