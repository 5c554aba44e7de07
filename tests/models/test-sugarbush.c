/* The sugarbush model: the order and filter of its rows, that the list tells exactly what changes and keeps
 * its objects, selection and shading, and the season by the household's own day. A listener that only hears
 * items-changed keeps a copy of the rows; the copy must be the rows after every step. */
#include <math.h>
#include <string.h>

#include "models/bush-edit.h"
#include "models/sugarbush.h"

/* 17:00 UTC on 16 January 2027. */
#define NOW_UTC 1800118800

typedef struct
{
  FrBook *book;
  FrSugarbush *bush;
  guint changed;
  guint selection;
  guint hover;
} Page;

static void
count_changed (Page *page)
{
  page->changed++;
}

static void
count_selection (Page *page)
{
  page->selection++;
}

static void
count_hover (Page *page)
{
  page->hover++;
}

static void
page_init (Page *page)
{
  g_autoptr (GError) error = NULL;

  memset (page, 0, sizeof *page);
  page->book = fr_book_open (":memory:", &error);
  g_assert_no_error (error);
  page->bush = fr_sugarbush_new (page->book, NOW_UTC);
  g_signal_connect_swapped (page->bush, "changed", G_CALLBACK (count_changed), page);
  g_signal_connect_swapped (page->bush, "selection-changed", G_CALLBACK (count_selection), page);
  g_signal_connect_swapped (page->bush, "hover-changed", G_CALLBACK (count_hover), page);
}

static void
page_clear (Page *page)
{
  g_clear_object (&page->bush);
  g_clear_object (&page->book);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Page, page_clear)

static void
apply (Page *page, FrChange *change, const GError *failure)
{
  g_autoptr (FrChange) owned = change;
  g_autoptr (GError) error = NULL;

  g_assert_no_error (failure);
  g_assert_nonnull (owned);
  fr_book_apply (page->book, owned, &error);
  g_assert_no_error (error);
}

#define APPLY(page, call)                                                                                    \
  G_STMT_START                                                                                               \
  {                                                                                                          \
    GError *error = NULL;                                                                                    \
    FrChange *change = call;                                                                                 \
    apply (page, change, error);                                                                             \
  }                                                                                                          \
  G_STMT_END

static gint64
add (Page *page, const char *name)
{
  FrRecordList *list = fr_book_get_list (page->book, FR_KIND_TREE);

  APPLY (page, fr_bush_edit_add_tree (page->book, name, "sugar", NAN, NAN, &error));
  return fr_record_list_get (list, fr_record_list_get_size (list) - 1)->id;
}

static void
set (Page *page, gint64 id, const char *field, const char *text)
{
  APPLY (page, fr_bush_edit_set (page->book, &id, 1, field, text, 1, &error));
}

static const char *
name_of (Page *page, gint64 id)
{
  const FrBushTree *tree = fr_bush_find (fr_sugarbush_get_bush (page->bush), id);

  return tree != NULL ? tree->tree->name : NULL;
}

static void
assert_order (Page *page, const char *names)
{
  GListModel *rows = fr_sugarbush_get_rows (page->bush);
  g_autoptr (GString) found = g_string_new (NULL);

  for (guint i = 0; i < g_list_model_get_n_items (rows); i++)
    {
      g_autoptr (FrTreeItem) item = g_list_model_get_item (rows, i);
      guint place = G_MAXUINT;

      g_string_append_printf (found, i > 0 ? ", %s" : "%s", name_of (page, fr_tree_item_get_id (item)));
      g_assert_true (fr_sugarbush_find_row (page->bush, fr_tree_item_get_id (item), &place));
      g_assert_cmpuint (place, ==, i);
      g_assert_true (fr_sugarbush_find_item (page->bush, fr_tree_item_get_id (item)) == item);
      g_assert_true (fr_sugarbush_is_shown (page->bush, fr_tree_item_get_id (item)));
      g_assert_cmpint (fr_tree_item_get_tree (item)->id, ==, fr_tree_item_get_id (item));
    }
  g_assert_cmpstr (found->str, ==, names);
}

static void
test_names_by_number (void)
{
  static const char *const names[]
      = { "T10", "t2", "Gate 12", "gate 3 b", "9", "T1", "Gate", "T007", "gate 3", "Ä1" };
  g_auto (Page) page;

  page_init (&page);
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    add (&page, names[i]);
  fr_sugarbush_set_filter (page.bush, FR_TREE_SHOW_ALL, "t");
  assert_order (&page, "Gate, gate 3, gate 3 b, Gate 12, T1, t2, T007, T10");
  fr_sugarbush_set_sort (page.bush, FR_TREE_SORT_NAME, TRUE);
  assert_order (&page, "T10, T007, t2, T1, Gate 12, gate 3 b, gate 3, Gate");
  fr_sugarbush_set_filter (page.bush, FR_TREE_SHOW_ALL, " \t");
  g_assert_cmpuint (g_list_model_get_n_items (fr_sugarbush_get_rows (page.bush)), ==, G_N_ELEMENTS (names));
}

static void
test_sorts (void)
{
  g_auto (Page) page;
  gint64 a, b, c, d;
  gboolean descending;

  page_init (&page);
  a = add (&page, "A");
  b = add (&page, "B");
  c = add (&page, "C");
  d = add (&page, "D");
  APPLY (&page, fr_bush_edit_girth (page.book, a, (FrDate){ 2026, 5, 1 }, TRUE, 1.2, NULL, &error));
  APPLY (&page, fr_bush_edit_girth (page.book, c, (FrDate){ 2026, 5, 1 }, TRUE, 0.9, NULL, &error));
  APPLY (&page, fr_bush_edit_girth (page.book, d, (FrDate){ 2026, 5, 1 }, TRUE, 1.9, NULL, &error));
  fr_sugarbush_set_sort (page.bush, FR_TREE_SORT_SIZE, FALSE);
  assert_order (&page, "C, A, D, B");
  fr_sugarbush_set_sort (page.bush, FR_TREE_SORT_SIZE, TRUE);
  assert_order (&page, "D, A, C, B");

  set (&page, a, "species", "red");
  set (&page, c, "species", "walnut");
  fr_sugarbush_set_sort (page.bush, FR_TREE_SORT_SPECIES, FALSE);
  assert_order (&page, "B, D, A, C");
  set (&page, d, "health", "weak");
  set (&page, b, "health", "healthy");
  set (&page, a, "health", "dead");
  fr_sugarbush_set_sort (page.bush, FR_TREE_SORT_HEALTH, FALSE);
  assert_order (&page, "B, D, A, C");
  fr_sugarbush_set_sort (page.bush, FR_TREE_SORT_HEALTH, TRUE);
  assert_order (&page, "A, D, B, C");

  APPLY (&page, fr_bush_edit_plan_taps (page.book, b, 2027, NULL, 2, &error));
  APPLY (&page, fr_bush_edit_plan_taps (page.book, d, 2027, NULL, 1, &error));
  fr_sugarbush_set_sort (page.bush, FR_TREE_SORT_TAPS, TRUE);
  g_assert_cmpint (fr_sugarbush_get_sort (page.bush, &descending), ==, FR_TREE_SORT_TAPS);
  g_assert_true (descending);
  g_assert_cmpstr (name_of (&page, b), ==, "B");
  {
    g_autoptr (FrTreeItem) first = g_list_model_get_item (fr_sugarbush_get_rows (page.bush), 0);
    g_autoptr (FrTreeItem) second = g_list_model_get_item (fr_sugarbush_get_rows (page.bush), 1);

    g_assert_cmpint (fr_tree_item_get_id (first), ==, b);
    g_assert_cmpint (fr_tree_item_get_id (second), ==, d);
  }

  APPLY (&page, fr_bush_edit_yield (page.book, c, 2027, 12, NAN, NULL, NAN, &error));
  APPLY (&page, fr_bush_edit_yield (page.book, b, 2027, 30, NAN, NULL, NAN, &error));
  APPLY (&page, fr_bush_edit_yield (page.book, a, 2026, 7, NAN, NULL, NAN, &error));
  fr_sugarbush_set_sort (page.bush, FR_TREE_SORT_YIELD, FALSE);
  assert_order (&page, "C, B, A, D"); /* A's is last season's */
}

static void
test_filters (void)
{
  g_auto (Page) page;
  gint64 a, b, c;

  page_init (&page);
  a = add (&page, "Ämter 1");
  b = add (&page, "B");
  c = add (&page, "C");
  set (&page, b, "owner", "The Neighbour");
  set (&page, b, "species", "silver");
  set (&page, c, "note", "two stems, NEIGHBOUR's side");
  set (&page, c, "health", "weak");
  APPLY (&page, fr_bush_edit_girth (page.book, a, (FrDate){ 2026, 5, 1 }, TRUE, 2.5, NULL, &error));
  APPLY (&page, fr_bush_edit_plan_taps (page.book, a, 2027, NULL, 1, &error));
  fr_sugarbush_set_filter (page.bush, FR_TREE_SHOW_ALL, "neighbour");
  assert_order (&page, "B, C");
  fr_sugarbush_set_filter (page.bush, FR_TREE_SHOW_ALL, "neighbour silver");
  assert_order (&page, "B");
  g_assert_false (fr_sugarbush_is_shown (page.bush, c));
  fr_sugarbush_set_filter (page.bush, FR_TREE_SHOW_ALL, "A\xcc\x88MTER"); /* A with a combining diaeresis */
  assert_order (&page, "Ämter 1");
  set (&page, c, "species", "norway");
  fr_sugarbush_set_filter (page.bush, FR_TREE_SHOW_ALL, "Norway MAPLE");
  assert_order (&page, "C"); /* the species by its word, too */
  fr_sugarbush_set_filter (page.bush, FR_TREE_SHOW_TAPPED, NULL);
  assert_order (&page, "Ämter 1");
  fr_sugarbush_set_filter (page.bush, FR_TREE_SHOW_UNTAPPED, "");
  assert_order (&page, "B, C");
  fr_sugarbush_set_filter (page.bush, FR_TREE_SHOW_WATCH, NULL);
  assert_order (&page, "C");
  fr_sugarbush_set_filter (page.bush, FR_TREE_SHOW_UNMEASURED, NULL);
  assert_order (&page, "B, C");
  fr_sugarbush_set_filter (page.bush, FR_TREE_SHOW_MAY_TAP, NULL);
  assert_order (&page, "Ämter 1");
  g_assert_cmpint (fr_sugarbush_get_show (page.bush), ==, FR_TREE_SHOW_MAY_TAP);
  g_assert_false (fr_sugarbush_is_shown (page.bush, 999));
}

/* The listener. */
typedef struct
{
  GPtrArray *copy; /* items, with a reference */
  guint n_signals;
  guint n_rows; /* taken out and put in */
} Mirror;

static void
mirror_cb (GListModel *rows, guint position, guint removed, guint added, Mirror *mirror)
{
  mirror->n_signals++;
  mirror->n_rows += removed + added;
  g_assert_cmpuint (position + removed, <=, mirror->copy->len);
  if (removed > 0)
    g_ptr_array_remove_range (mirror->copy, position, removed);
  for (guint i = 0; i < added; i++)
    g_ptr_array_insert (mirror->copy, (gint)(position + i), g_list_model_get_item (rows, position + i));
  g_assert_cmpuint (mirror->copy->len, ==, g_list_model_get_n_items (rows));
  for (guint i = 0; i < mirror->copy->len; i++)
    {
      g_autoptr (FrTreeItem) item = g_list_model_get_item (rows, i);

      g_assert_true (item == mirror->copy->pdata[i]);
    }
}

static void
mirror_init (Mirror *mirror, Page *page)
{
  memset (mirror, 0, sizeof *mirror);
  mirror->copy = g_ptr_array_new_with_free_func (g_object_unref);
  g_signal_connect (fr_sugarbush_get_rows (page->bush), "items-changed", G_CALLBACK (mirror_cb), mirror);
}

static void
mirror_reset (Mirror *mirror)
{
  mirror->n_signals = 0;
  mirror->n_rows = 0;
}

static void
test_tells_least (void)
{
  g_auto (Page) page;
  Mirror mirror;
  gint64 ids[5];

  page_init (&page);
  mirror_init (&mirror, &page);
  for (guint i = 0; i < 5; i++)
    ids[i] = add (&page, (const char *[]){ "B", "D", "F", "H", "K" }[i]);
  mirror_reset (&mirror);

  add (&page, "E");
  g_assert_cmpuint (mirror.n_signals, ==, 1);
  g_assert_cmpuint (mirror.n_rows, ==, 1);
  mirror_reset (&mirror);

  set (&page, ids[2], "note", "changes nothing of the order");
  g_assert_cmpuint (mirror.n_signals, ==, 0);

  set (&page, ids[0], "name", "Z"); /* one row out, one in */
  g_assert_cmpuint (mirror.n_signals, ==, 2);
  g_assert_cmpuint (mirror.n_rows, ==, 2);
  mirror_reset (&mirror);

  APPLY (&page, fr_bush_edit_remove (page.book, &ids[1], 2, &error)); /* D and F, with E between */
  g_assert_cmpuint (mirror.n_signals, ==, 2);
  g_assert_cmpuint (mirror.n_rows, ==, 2);
  assert_order (&page, "E, H, K, Z");
  mirror_reset (&mirror);

  fr_sugarbush_set_sort (page.bush, FR_TREE_SORT_NAME, TRUE);
  assert_order (&page, "Z, K, H, E");
  g_assert_cmpuint (mirror.n_rows, ==, 6); /* one of four stays */
  g_ptr_array_unref (mirror.copy);
  g_signal_handlers_disconnect_by_data (fr_sugarbush_get_rows (page.bush), &mirror);
}

/* The item of each tree, which must be the one it was; takes @before. */
static GHashTable *
same_objects (FrSugarbush *self, GHashTable *before)
{
  const FrBush *bush = fr_sugarbush_get_bush (self);
  GHashTable *objects = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_object_unref);

  for (guint i = 0; i < fr_bush_n_trees (bush); i++)
    {
      gint64 id = fr_bush_tree_at (bush, i)->id;
      FrTreeItem *item = fr_sugarbush_find_item (self, id);
      gpointer known = g_hash_table_lookup (before, &id);

      g_assert_nonnull (item);
      g_assert_true (known == NULL || known == (gpointer)item);
      g_hash_table_insert (objects, g_memdup2 (&id, sizeof id), g_object_ref (item));
    }
  g_hash_table_unref (before);
  return objects;
}

/* Random edits, orders and filters; mirror_cb does the checking. An item that is still there is the same
 * object. */
static void
test_tells_exactly (void)
{
  g_auto (Page) page;
  Mirror mirror;
  g_autoptr (GRand) rand = g_rand_new_with_seed (20270116);
  g_autoptr (GHashTable) objects
      = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_object_unref);
  static const char *const healths[] = { "unknown", "healthy", "weak", "failing", "dead" };

  page_init (&page);
  mirror_init (&mirror, &page);
  for (guint step = 0; step < 400; step++)
    {
      GListModel *rows = fr_sugarbush_get_rows (page.bush);
      const FrBush *bush = fr_sugarbush_get_bush (page.bush);
      guint n = fr_bush_n_trees (bush);
      gint64 id = n > 0 ? fr_bush_tree_at (bush, (guint)g_rand_int_range (rand, 0, (gint)n))->id : 0;
      g_autofree char *name
          = g_strdup_printf ("%c%d", 'A' + g_rand_int_range (rand, 0, 3), g_rand_int_range (rand, 0, 40));

      switch (g_rand_int_range (rand, 0, n > 60 ? 8 : 10))
        {
        case 0:
          fr_sugarbush_set_sort (page.bush, (FrTreeSort)g_rand_int_range (rand, 0, FR_TREE_SORT_YIELD + 1),
                                 g_rand_boolean (rand));
          break;
        case 1:
          fr_sugarbush_set_filter (page.bush,
                                   (FrTreeShow)g_rand_int_range (rand, 0, FR_TREE_SHOW_UNMEASURED + 1),
                                   g_rand_boolean (rand) ? "a" : NULL);
          break;
        case 2:
          fr_sugarbush_set_filter (page.bush, FR_TREE_SHOW_ALL, NULL);
          break;
        case 3:
          if (n > 0)
            APPLY (&page, fr_bush_edit_remove (page.book, &id, 1, &error));
          break;
        case 4:
          if (fr_book_peek_undo (page.book) != NULL)
            g_assert_true (fr_book_undo (page.book, NULL));
          break;
        case 5:
        case 6:
          if (n > 0)
            {
              g_autoptr (FrChange) change = fr_bush_edit_set (
                  page.book, &id, 1, "health", healths[g_rand_int_range (rand, 0, 5)], 0, NULL);

              if (change != NULL)
                g_assert_true (fr_book_apply (page.book, change, NULL));
            }
          break;
        case 7:
          if (n > 0)
            {
              g_autoptr (FrChange) change = fr_bush_edit_set (page.book, &id, 1, "name", name, 0, NULL);

              if (change != NULL)
                g_assert_true (fr_book_apply (page.book, change, NULL));
            }
          break;
        default:
          add (&page, name);
        }
      for (guint i = 0; i < g_list_model_get_n_items (rows); i++)
        {
          g_autoptr (FrTreeItem) item = g_list_model_get_item (rows, i);

          g_assert_true (mirror.copy->pdata[i] == (gpointer)item);
        }
      objects = same_objects (page.bush, objects);
    }
  g_assert_cmpuint (mirror.n_signals, >, 50);
  g_ptr_array_unref (mirror.copy);
  g_signal_handlers_disconnect_by_data (fr_sugarbush_get_rows (page.bush), &mirror);
}

static void
count_cb (guint *n)
{
  (*n)++;
}

static void
test_items_live_on (void)
{
  g_auto (Page) page;
  gint64 id;
  g_autoptr (FrTreeItem) item = NULL;
  guint told = 0;

  page_init (&page);
  id = add (&page, "A");
  add (&page, "B");
  item = g_object_ref (fr_sugarbush_find_item (page.bush, id));
  g_signal_connect_swapped (item, "changed", G_CALLBACK (count_cb), &told);
  set (&page, id, "name", "C");
  g_assert_true (fr_sugarbush_find_item (page.bush, id) == item);
  g_assert_cmpuint (told, ==, 1);
  g_assert_cmpstr (fr_tree_item_get_tree (item)->tree->name, ==, "C");
  APPLY (&page, fr_bush_edit_remove (page.book, &id, 1, &error));
  g_assert_null (fr_tree_item_get_tree (item));
  g_assert_null (fr_sugarbush_find_item (page.bush, id));
  g_assert_true (fr_book_undo (page.book, NULL));
  g_clear_object (&page.bush);
  g_assert_null (fr_tree_item_get_tree (item));
  page.bush = fr_sugarbush_new (page.book, NOW_UTC);
}

static void
assert_selected (Page *page, const char *names, const char *current)
{
  g_autoptr (GString) found = g_string_new (NULL);
  const gint64 *ids = fr_sugarbush_get_selected (page->bush);

  for (guint i = 0; i < fr_sugarbush_n_selected (page->bush); i++)
    {
      g_string_append (found, name_of (page, ids[i]));
      g_assert_true (fr_sugarbush_is_selected (page->bush, ids[i]));
      g_assert_true (i == 0 || ids[i - 1] < ids[i]);
    }
  g_assert_cmpstr (found->str, ==, names);
  g_assert_cmpstr (name_of (page, fr_sugarbush_get_current (page->bush)), ==, current);
}

static void
test_selection (void)
{
  g_auto (Page) page;
  gint64 ids[5];

  page_init (&page);
  for (guint i = 0; i < 5; i++)
    ids[i] = add (&page, (const char *[]){ "A", "B", "C", "D", "E" }[i]);
  fr_sugarbush_select (page.bush, ids[2]);
  assert_selected (&page, "C", "C");
  g_assert_cmpuint (page.selection, ==, 1);
  fr_sugarbush_select (page.bush, ids[2]);
  g_assert_cmpuint (page.selection, ==, 1); /* nothing new */
  fr_sugarbush_select_also (page.bush, ids[0]);
  assert_selected (&page, "AC", "A");
  fr_sugarbush_select_also (page.bush, ids[2]);
  assert_selected (&page, "AC", "C");
  fr_sugarbush_toggle (page.bush, ids[4]);
  assert_selected (&page, "ACE", "E");
  fr_sugarbush_toggle (page.bush, ids[4]);
  assert_selected (&page, "AC", "C");
  fr_sugarbush_toggle (page.bush, ids[0]);
  assert_selected (&page, "C", "C");
  fr_sugarbush_select_many (page.bush, (gint64[]){ ids[3], ids[1], 77, ids[3] }, 4);
  assert_selected (&page, "BD", "D");
  fr_sugarbush_select_many (page.bush, (gint64[]){ ids[0], ids[3] }, 2);
  assert_selected (&page, "AD", "D"); /* the current one stays current */
  set (&page, ids[1], "note", "by the brook");
  set (&page, ids[4], "note", "by the brook");
  assert_selected (&page, "AD", "D");
  fr_sugarbush_set_filter (page.bush, FR_TREE_SHOW_ALL, "brook");
  assert_selected (&page, "AD", "D"); /* not shown, still selected */
  fr_sugarbush_select_shown (page.bush);
  assert_selected (&page, "BE", "B");

  page.selection = 0;
  APPLY (&page, fr_bush_edit_remove (page.book, &ids[1], 1, &error));
  assert_selected (&page, "E", "E");
  g_assert_cmpuint (page.selection, ==, 1);
  g_assert_true (fr_book_undo (page.book, NULL));
  assert_selected (&page, "E", "E");
  fr_sugarbush_select (page.bush, 0);
  assert_selected (&page, "", NULL);
  g_assert_cmpuint (page.selection, ==, 2);

  fr_sugarbush_set_hovered (page.bush, ids[0]);
  fr_sugarbush_set_hovered (page.bush, ids[0]);
  g_assert_cmpuint (page.hover, ==, 1);
  APPLY (&page, fr_bush_edit_remove (page.book, &ids[0], 1, &error));
  g_assert_cmpint (fr_sugarbush_get_hovered (page.bush), ==, 0);
  g_assert_cmpuint (page.hover, ==, 2);
}

static double
shade (Page *page, FrTreeShade which, gint64 id)
{
  fr_sugarbush_set_shade (page->bush, which);
  g_assert_cmpint (fr_sugarbush_get_shade (page->bush), ==, which);
  return fr_sugarbush_shade_ratio (page->bush, fr_bush_find (fr_sugarbush_get_bush (page->bush), id));
}

/* A: one tap, 12 L; B: two taps, 40 L, so 20 L a tap are the fullest; C: unknown. */
static void
test_shades (void)
{
  g_auto (Page) page;
  gint64 a, b, c;
  double empty, full;

  page_init (&page);
  a = add (&page, "A");
  b = add (&page, "B");
  c = add (&page, "C");
  g_assert_true (isnan (shade (&page, FR_TREE_SHADE_LITRES, a)));
  APPLY (&page, fr_bush_edit_plan_taps (page.book, a, 2027, NULL, 1, &error));
  APPLY (&page, fr_bush_edit_plan_taps (page.book, b, 2027, NULL, 2, &error));
  APPLY (&page,
         fr_bush_edit_set_taps (page.book, (gint64[]){ a, b }, 2, 2027, (FrDate){ 2027, 2, 1 }, &error));
  APPLY (&page, fr_bush_edit_yield (page.book, a, 2027, 12, 2, "guess", NAN, &error));
  g_assert_cmpfloat_with_epsilon (shade (&page, FR_TREE_SHADE_LITRES, a), 12.0 / 15, 1e-12);
  APPLY (&page, fr_bush_edit_yield (page.book, b, 2027, 40, 3, "guess", NAN, &error));
  g_assert_cmpfloat_with_epsilon (shade (&page, FR_TREE_SHADE_LITRES, a), 12.0 / 20, 1e-12);
  g_assert_cmpfloat_with_epsilon (shade (&page, FR_TREE_SHADE_LITRES, b), 1, 1e-12);
  g_assert_true (isnan (shade (&page, FR_TREE_SHADE_LITRES, c)));
  g_assert_true (fr_sugarbush_get_shade_range (page.bush, &empty, &full));
  g_assert_cmpfloat (empty, ==, 0);
  g_assert_cmpfloat (full, ==, 20);
  g_assert_cmpfloat_with_epsilon (shade (&page, FR_TREE_SHADE_SWEETNESS, a), 2.0 / 4, 1e-12);
  g_assert_cmpfloat (shade (&page, FR_TREE_SHADE_RANK, b), ==, 1);
  g_assert_cmpfloat (shade (&page, FR_TREE_SHADE_RANK, a), ==, 0);
  g_assert_true (isnan (shade (&page, FR_TREE_SHADE_RANK, c)));
  g_assert_false (fr_sugarbush_get_shade_range (page.bush, &empty, &full));
  APPLY (&page, fr_bush_edit_girth (page.book, a, (FrDate){ 2022, 1, 16 }, TRUE, 1.5, NULL, &error));
  APPLY (&page, fr_bush_edit_girth (page.book, b, (FrDate){ 1990, 1, 16 }, TRUE, 1.5, NULL, &error));
  /* five years, one leap day among them */
  g_assert_cmpfloat_with_epsilon (shade (&page, FR_TREE_SHADE_GIRTH_AGE, a), 1826 / 3652.425, 1e-9);
  g_assert_cmpfloat (shade (&page, FR_TREE_SHADE_GIRTH_AGE, b), ==, 1);
  g_assert_true (isnan (shade (&page, FR_TREE_SHADE_NONE, a)));
}

/* 02:00 UTC on 1 August 2026 is still 31 July in Toronto, the last day of that season. */
static void
test_season_by_the_households_day (void)
{
  const gint64 at = 1785549600;
  g_autoptr (FrBook) book = fr_book_open (":memory:", NULL);
  g_autoptr (FrSugarbush) bush = fr_sugarbush_new (book, at);
  g_autoptr (FrChange) change = fr_change_new ("set-up", NULL);
  g_autoptr (FrRecord) household = fr_book_new_record (book, FR_KIND_HOUSEHOLD, 0, NULL);

  g_assert_cmpuint (fr_sugarbush_get_season (bush), ==, 2027);
  fr_record_set_text (household, fr_kind_field (household->kind, "name"), "Ahornweg 3");
  fr_record_set_text (household, fr_kind_field (household->kind, "zone"), "America/Toronto");
  fr_record_set_text (household, fr_kind_field (household->kind, "currency"), "CAD");
  fr_change_add (change, NULL, household);
  g_assert_true (fr_book_apply (book, change, NULL));
  g_assert_cmpuint (fr_sugarbush_get_season (bush), ==, 2026);
  g_assert_cmpint (fr_sugarbush_get_today (bush).day, ==, 31);

  fr_sugarbush_set_now (bush, at + 3 * 3600); /* 01:00 on 1 August there */
  g_assert_cmpuint (fr_sugarbush_get_season (bush), ==, 2027);
  fr_sugarbush_set_season (bush, 2020);
  g_assert_cmpuint (fr_bush_get_season (fr_sugarbush_get_bush (bush)), ==, 2020);
  fr_sugarbush_set_now (bush, at); /* a chosen season stays */
  g_assert_cmpuint (fr_sugarbush_get_season (bush), ==, 2020);
  fr_sugarbush_set_season (bush, 2026);
  fr_sugarbush_set_now (bush, at + 3 * 3600);
  g_assert_cmpuint (fr_sugarbush_get_season (bush), ==, 2027);
}

/* The bush is whole at any moment, also while the book's lists are moving. */
static void
read_bush (FrSugarbush *bush)
{
  const FrBush *now = fr_sugarbush_get_bush (bush);

  for (guint i = 0; i < fr_bush_n_trees (now); i++)
    {
      g_autoptr (GArray) holes = fr_bush_holes (now, fr_bush_tree_at (now, i)->id);

      g_assert_cmpuint (strlen (fr_bush_tree_at (now, i)->tree->name), >, 0);
      for (guint h = 0; h < holes->len; h++)
        g_assert_cmpint (g_array_index (holes, FrBushHole, h).tap->tree, ==, fr_bush_tree_at (now, i)->id);
    }
}

static void
test_whole_while_moving (void)
{
  g_auto (Page) page;
  gint64 ids[2];

  page_init (&page);
  for (guint k = FR_KIND_TREE; k <= FR_KIND_TAPPING; k++)
    g_signal_connect_swapped (fr_book_get_list (page.book, (FrKindId)k), "items-changed",
                              G_CALLBACK (read_bush), page.bush);
  ids[0] = add (&page, "A");
  ids[1] = add (&page, "B");
  APPLY (&page, fr_bush_edit_plan_taps (page.book, ids[0], 2027, NULL, 3, &error));
  APPLY (&page, fr_bush_edit_set (page.book, ids, 2, "note", "x", 0, &error));
  APPLY (&page, fr_bush_edit_remove (page.book, ids, 2, &error));
  g_assert_true (fr_book_undo (page.book, NULL));
  g_assert_true (fr_book_undo (page.book, NULL));
  g_assert_cmpuint (page.changed, ==, 7);
}

static void
test_answers_are_kept (void)
{
  g_auto (Page) page;
  gint64 ids[3];
  const FrBushRound *round;

  page_init (&page);
  g_assert_null (fr_sugarbush_get_round (page.bush, FR_ROUND_PLANNED, 1));
  for (guint i = 0; i < 3; i++)
    {
      APPLY (&page, fr_bush_edit_add_tree (page.book, NULL, "sugar", 10.0 * (2 - i), 5, &error));
      ids[i] = fr_bush_tree_at (fr_sugarbush_get_bush (page.bush), i)->id;
    }
  APPLY (&page, fr_bush_edit_add_feature (page.book, "boiling", NULL, "-1 5", &error));
  APPLY (&page, fr_bush_edit_plan_taps (page.book, ids[0], 2027, NULL, 1, &error));
  APPLY (&page, fr_bush_edit_plan_taps (page.book, ids[2], 2027, NULL, 1, &error));
  round = fr_sugarbush_get_round (page.bush, FR_ROUND_PLANNED, 1);
  g_assert_nonnull (round);
  g_assert_cmpuint (round->stops->len, ==, 2);
  g_assert_true (fr_sugarbush_get_round (page.bush, FR_ROUND_PLANNED, 1) == round);
  fr_sugarbush_select_many (page.bush, ids, 3);
  g_assert_cmpuint (fr_sugarbush_get_round (page.bush, FR_ROUND_SELECTED, 1)->stops->len, ==, 3);
  fr_sugarbush_select (page.bush, ids[1]);
  g_assert_cmpuint (fr_sugarbush_get_round (page.bush, FR_ROUND_SELECTED, 1)->stops->len, ==, 1);
  g_assert_true (fr_sugarbush_get_round (page.bush, FR_ROUND_PLANNED, 1) == round);

  /* T3 is at the boiling place, T1 beyond it, or the round is walked the other way; T2 has no tap */
  fr_sugarbush_set_sort (page.bush, FR_TREE_SORT_ROUND, FALSE);
  {
    g_autoptr (FrTreeItem) last = g_list_model_get_item (fr_sugarbush_get_rows (page.bush), 2);
    g_autoptr (FrTreeItem) first = g_list_model_get_item (fr_sugarbush_get_rows (page.bush), 0);

    g_assert_cmpint (fr_tree_item_get_id (last), ==, ids[1]);
    g_assert_cmpint (fr_tree_item_get_id (first), ==, g_array_index (round->stops, FrBushStop, 0).tree);
  }
  g_assert_true (fr_sugarbush_get_plan (page.bush) == fr_sugarbush_get_plan (page.bush));
  g_assert_cmpint (fr_sugarbush_get_plan (page.bush)->code, ==, FR_BUSH_PLAN_NO_BUCKETS);
}

static void
count_answered (guint *n)
{
  (*n)++;
}

static void
wait_answered (guint *answered, guint n)
{
  while (*answered < n)
    g_main_context_iteration (NULL, TRUE);
}

static void
set_buckets (Page *page, double buckets)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (FrChange) change
      = fr_bush_edit_single (page->book, FR_KIND_TAPPING, "buckets", NULL, buckets, NULL, &error);

  g_assert_no_error (error);
  fr_book_apply (page->book, change, &error);
  g_assert_no_error (error);
}

static void
add_measured_tree (Page *page, double x_m)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (FrChange) tree = fr_bush_edit_add_tree (page->book, NULL, "sugar", x_m, 0, &error);
  g_autoptr (FrChange) girth = NULL;
  gint64 id;

  g_assert_no_error (error);
  id = ((const FrStep *)tree->steps->pdata[0])->after->id;
  g_assert_true (fr_book_apply (page->book, tree, &error));
  girth = fr_bush_edit_girth (page->book, id, (FrDate){ 2026, 10, 1 }, TRUE, 1.3, NULL, &error);
  g_assert_no_error (error);
  g_assert_true (fr_book_apply (page->book, girth, &error));
}

/* What comes from the thread is what is worked out at once; what was asked before a change is no answer after it. */
static void
test_answers_beside (void)
{
  Page page;
  const FrBushPlan *plan = NULL;
  const FrBushRound *round = NULL;
  g_autoptr (FrBushPlan) at_once = NULL;
  guint answered = 0;

  page_init (&page);
  g_signal_connect_swapped (page.bush, "answered", G_CALLBACK (count_answered), &answered);
  for (guint i = 0; i < 5; i++)
    add_measured_tree (&page, 10 * i);
  set_buckets (&page, 2);

  g_assert_false (fr_sugarbush_ask_plan (page.bush, &plan));
  g_assert_null (plan);
  set_buckets (&page, 3); /* while it is worked out */
  wait_answered (&answered, 1);
  g_assert_false (fr_sugarbush_ask_plan (page.bush, &plan));
  wait_answered (&answered, 2);
  g_assert_true (fr_sugarbush_ask_plan (page.bush, &plan));
  at_once = fr_bush_plan (fr_sugarbush_get_bush (page.bush));
  g_assert_cmpint (plan->code, ==, FR_BUSH_PLAN_OK);
  g_assert_cmpuint (plan->n_taps, ==, 3);
  g_assert_cmpuint (plan->n_taps, ==, at_once->n_taps);
  g_assert_cmpfloat (plan->sugar_kg, ==, at_once->sugar_kg);
  g_assert_true (fr_sugarbush_get_plan (page.bush) == plan);

  /* a round of the selection, which changes meanwhile */
  fr_sugarbush_select (page.bush, 1);
  g_assert_false (fr_sugarbush_ask_round (page.bush, FR_ROUND_SELECTED, 1, &round));
  fr_sugarbush_select_also (page.bush, 2);
  wait_answered (&answered, 3);
  g_assert_false (fr_sugarbush_ask_round (page.bush, FR_ROUND_SELECTED, 1, &round));
  wait_answered (&answered, 4);
  g_assert_true (fr_sugarbush_ask_round (page.bush, FR_ROUND_SELECTED, 1, &round));
  g_assert_cmpuint (round->stops->len, ==, 2);

  /* nobody is there any more when the answer comes */
  set_buckets (&page, 4);
  g_assert_false (fr_sugarbush_ask_plan (page.bush, &plan));
  page_clear (&page);
  g_usleep (50000);
  while (g_main_context_iteration (NULL, FALSE))
    ;
  g_assert_cmpuint (answered, ==, 4);
}

/* --- what was gathered --- */

static FrRecord *
new_of (Page *page, FrKindId kind, guint nth)
{
  return fr_book_new_record (page->book, kind, nth, NULL);
}

static void
apply_change (Page *page, FrChange *change)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (fr_book_apply (page->book, change, &error));
  g_assert_no_error (error);
  fr_change_free (change);
}

static double
gathered_l (Page *page, guint season)
{
  g_autoptr (GArray) history = fr_bush_history (fr_sugarbush_get_bush (page->bush), 1);

  for (guint i = 0; i < history->len; i++)
    if (g_array_index (history, FrTreeSeason, i).season == season)
      return g_array_index (history, FrTreeSeason, i).volume_l;
  return NAN;
}

static void
iterate (void)
{
  while (g_main_context_iteration (NULL, FALSE))
    ;
}

/* Seasons that the book's lists do not hold are summed beside the main loop, and anew when they change; an edit that does not touch
 * them leaves it. */
static void
test_gathered_before (void)
{
  Page page;
  g_autoptr (FrRecord) tree = NULL, tap = NULL, one = NULL, two = NULL, edited = NULL;
  FrChange *change = fr_change_new ("import-book", NULL);
  guint changed;

  page_init (&page);
  tree = new_of (&page, FR_KIND_TREE, 0);
  tap = new_of (&page, FR_KIND_TAP, 0);
  one = new_of (&page, FR_KIND_GATHERING, 0);
  two = new_of (&page, FR_KIND_GATHERING, 1);
  ((FrTree *)tree)->name = g_strdup ("Gate");
  ((FrTap *)tap)->tree = tree->id;
  ((FrTap *)tap)->season.value = 2020;
  ((FrTap *)tap)->set_on = g_strdup ("2020-03-01");
  for (guint i = 0; i < 2; i++)
    {
      FrGathering *line = (FrGathering *)(i == 0 ? one : two);

      /* 9 March 2020 and 2019: the second is of a season before any tap. */
      line->gathered_utc = i == 0 ? 1583755200 : 1552132800;
      g_free (line->scope);
      line->scope = g_strdup ("tree");
      line->tree = tree->id;
      fr_amount_set (&line->volume_l, i == 0 ? 11 : 4, NULL);
    }
  fr_change_add (change, NULL, tree);
  fr_change_add (change, NULL, tap);
  fr_change_add (change, NULL, one);
  fr_change_add (change, NULL, two);
  apply_change (&page, change);
  iterate ();
  g_assert_cmpfloat (gathered_l (&page, 2020), ==, 11);
  g_assert_cmpfloat (gathered_l (&page, 2019), ==, 4);
  edited = fr_record_copy (one);
  fr_amount_set (&((FrGathering *)edited)->volume_l, 12, NULL);
  change = fr_change_new ("edit-gathering", NULL);
  fr_change_add (change, one, edited);
  apply_change (&page, change);
  iterate ();
  g_assert_cmpfloat (gathered_l (&page, 2020), ==, 12);
  changed = page.changed;
  {
    g_autoptr (FrRecord) noted = fr_record_copy (tree);

    ((FrTree *)noted)->note = g_strdup ("by the brook");
    change = fr_change_new ("edit-tree", NULL);
    fr_change_add (change, tree, noted);
    apply_change (&page, change);
  }
  iterate ();
  g_assert_cmpuint (page.changed, ==, changed + 1);
  g_assert_cmpfloat (gathered_l (&page, 2020), ==, 12);
  g_assert_true (fr_book_undo (page.book, NULL));
  g_assert_true (fr_book_undo (page.book, NULL));
  iterate ();
  g_assert_cmpfloat (gathered_l (&page, 2020), ==, 11);
  page_clear (&page);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sugarbush/gathered-before", test_gathered_before);
  g_test_add_func ("/sugarbush/names-by-number", test_names_by_number);
  g_test_add_func ("/sugarbush/sorts", test_sorts);
  g_test_add_func ("/sugarbush/filters", test_filters);
  g_test_add_func ("/sugarbush/tells-least", test_tells_least);
  g_test_add_func ("/sugarbush/tells-exactly", test_tells_exactly);
  g_test_add_func ("/sugarbush/items-live-on", test_items_live_on);
  g_test_add_func ("/sugarbush/selection", test_selection);
  g_test_add_func ("/sugarbush/shades", test_shades);
  g_test_add_func ("/sugarbush/season-by-the-households-day", test_season_by_the_households_day);
  g_test_add_func ("/sugarbush/whole-while-moving", test_whole_while_moving);
  g_test_add_func ("/sugarbush/answers-are-kept", test_answers_are_kept);
  g_test_add_func ("/sugarbush/answers-beside", test_answers_beside);
  return g_test_run ();
}
