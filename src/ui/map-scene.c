/* The bridge from the model to the painter. A tree's symbol is worked out once for each change of the book;
 * the painter keeps where names stand for as long as nothing it placed them by differs, which the revision
 * tells. */
#include "ui/map-scene.h"

#include <math.h>
#include <string.h>

#include "paint/map-bush.h"

#include "ui/picture-file.h"

struct _FrMapScene
{
  GArray *trees;         /* FrMapTree */
  GPtrArray *names;      /* the trees' own, for records go before the next drawing */
  GHashTable *index;     /* gint64 id → position + 1 */
  GArray *shapes;        /* FrMapShape */
  GPtrArray *points;     /* the shapes' own */
  char *picture_path;    /* what @read is or will be read from, or NULL */
  GCancellable *reading; /* while it is */
  FrPicture *read;
  FrBook *book; /* for when it is read */
  void (*changed) (gpointer data);
  gpointer data;
  FrMapPicture picture;
  gboolean has_picture;
  guint ground_hash; /* of what the ground's names are placed by */
  guint64 revision;
  guint n_loads;
};

static void
forget_picture (FrMapScene *scene)
{
  if (scene->reading != NULL)
    g_cancellable_cancel (scene->reading);
  g_clear_object (&scene->reading);
  g_clear_pointer (&scene->read, fr_picture_free);
  g_clear_pointer (&scene->picture_path, g_free);
  scene->has_picture = FALSE;
}

FrMapScene *
fr_map_scene_new (void)
{
  FrMapScene *scene = g_new0 (FrMapScene, 1);

  scene->trees = g_array_new (FALSE, TRUE, sizeof (FrMapTree));
  scene->names = g_ptr_array_new_with_free_func (g_free);
  scene->index = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  scene->shapes = g_array_new (FALSE, TRUE, sizeof (FrMapShape));
  scene->points = g_ptr_array_new_with_free_func (g_free);
  return scene;
}

void
fr_map_scene_free (FrMapScene *scene)
{
  if (scene == NULL)
    return;
  g_array_unref (scene->trees);
  g_ptr_array_unref (scene->names);
  g_hash_table_unref (scene->index);
  g_array_unref (scene->shapes);
  g_ptr_array_unref (scene->points);
  forget_picture (scene);
  g_clear_object (&scene->book);
  g_free (scene);
}

void
fr_map_tree_set (FrMapTree *map_tree, FrSugarbush *bush, const FrBushTree *tree)
{
  fr_map_tree_of (map_tree, tree);
  map_tree->level_ratio = fr_sugarbush_shade_ratio (bush, tree);
  map_tree->is_dimmed = !fr_sugarbush_is_shown (bush, tree->id);
}

/* The compass sides of this season's taps. */
static void
set_tap_sides (FrMapScene *scene, FrSugarbush *bush)
{
  FrRecordList *taps = fr_book_get_list (fr_sugarbush_get_book (bush), FR_KIND_TAP);
  guint season = fr_sugarbush_get_season (bush);

  for (guint i = 0; i < fr_record_list_get_size (taps); i++)
    {
      const FrTap *tap = (const FrTap *)fr_record_list_get (taps, i);
      gssize at = tap->record.archived || (guint)tap->season.value != season
                      ? -1
                      : fr_map_scene_find (scene, tap->tree);

      if (at >= 0)
        fr_map_tree_add_tap (&g_array_index (scene->trees, FrMapTree, at), tap);
    }
}

static gboolean
same (double a, double b)
{
  return a == b || (isnan (a) && isnan (b));
}

/* Whether names may stay where the painter put them. */
static gboolean
same_place (const FrMapTree *a, const FrMapTree *b)
{
  return a->id == b->id && same (a->x_m, b->x_m) && same (a->y_m, b->y_m)
         && same (a->diameter_m, b->diameter_m) && same (a->rank, b->rank)
         && g_strcmp0 (a->name, b->name) == 0;
}

static void
load_trees (FrMapScene *scene, FrSugarbush *bush)
{
  const FrBush *of = fr_sugarbush_get_bush (bush);
  guint n = of != NULL ? fr_bush_n_trees (of) : 0;
  gboolean differs = scene->trees->len != n;
  GPtrArray *names = g_ptr_array_new_with_free_func (g_free);

  g_array_set_size (scene->trees, n);
  g_hash_table_remove_all (scene->index);
  for (guint i = 0; i < n; i++)
    {
      FrMapTree *tree = &g_array_index (scene->trees, FrMapTree, i), before = *tree;

      fr_map_tree_set (tree, bush, fr_bush_tree_at (of, i));
      tree->name = g_strdup (tree->name);
      g_ptr_array_add (names, (char *)tree->name);
      differs = differs || !same_place (&before, tree);
      g_hash_table_insert (scene->index, g_memdup2 (&tree->id, sizeof tree->id), GUINT_TO_POINTER (i + 1));
    }
  g_ptr_array_unref (scene->names);
  scene->names = names;
  if (differs)
    scene->revision++;
  set_tap_sides (scene, bush);
}

static guint
hash_on (guint hash, const char *text)
{
  return 31 * hash + g_str_hash (text != NULL ? text : "");
}

static void
load_shapes (FrMapScene *scene, FrBook *book)
{
  FrRecordList *list = fr_book_get_list (book, FR_KIND_FEATURE);
  guint hash = 0;

  g_array_set_size (scene->shapes, 0);
  g_ptr_array_set_size (scene->points, 0);
  for (guint i = 0; i < fr_record_list_get_size (list); i++)
    {
      const FrFeature *feature = (const FrFeature *)fr_record_list_get (list, i);
      FrMapShape shape;

      if (!fr_map_shape_of (&shape, feature))
        continue;
      hash = hash_on (hash_on (hash_on (hash, feature->form), feature->name), feature->points);
      g_ptr_array_add (scene->points, (gpointer)shape.points);
      g_array_append_val (scene->shapes, shape);
    }
  if (hash != scene->ground_hash)
    scene->revision++;
  scene->ground_hash = hash;
}

/* Where the picture lies, as the book says. */
static void
lay_picture (FrMapScene *scene, const FrGround *ground)
{
  const FrPicture *read = scene->read;
  cairo_matrix_t matrix;

  scene->has_picture = FALSE;
  if (read == NULL || ground == NULL)
    return;
  scene->picture = (FrMapPicture){
    .surface = read->surface,
    .first_column = ground->first_column.value * read->scale_ratio,
    .first_row = ground->first_row.value * read->scale_ratio,
    .first_x_m = ground->first_x_m.value,
    .first_y_m = ground->first_y_m.value,
    .second_column = ground->second_column.value * read->scale_ratio,
    .second_row = ground->second_row.value * read->scale_ratio,
    .second_x_m = ground->second_x_m.value,
    .second_y_m = ground->second_y_m.value,
  };
  scene->has_picture = fr_map_picture_matrix (&scene->picture, &matrix);
}

static const FrGround *
ground_of (FrBook *book)
{
  FrRecordList *list = fr_book_get_list (book, FR_KIND_GROUND);

  return fr_record_list_get_size (list) > 0 ? (const FrGround *)fr_record_list_get (list, 0) : NULL;
}

/* What cannot be read is not drawn; the panel of the ground says why. */
static void
read_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (GError) error = NULL;
  FrPicture *picture = fr_picture_load_finish (result, &error);
  FrMapScene *scene;

  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return; /* the scene is gone, or wants another one */
  scene = user_data;
  g_clear_object (&scene->reading);
  scene->read = picture;
  lay_picture (scene, ground_of (scene->book));
  if (scene->changed != NULL)
    scene->changed (scene->data);
}

static void
load_picture (FrMapScene *scene, FrBook *book)
{
  const FrGround *ground = ground_of (book);
  g_autofree char *path = NULL;

  if (ground != NULL && ground->picture_shown && ground->picture != NULL)
    path = fr_picture_path (book, ground->picture);
  if (g_strcmp0 (path, scene->picture_path) != 0)
    {
      forget_picture (scene);
      scene->picture_path = g_strdup (path);
      if (path != NULL)
        {
          g_set_object (&scene->book, book);
          scene->reading = g_cancellable_new ();
          fr_picture_load_async (path, scene->reading, read_cb, scene);
        }
    }
  lay_picture (scene, ground);
}

void
fr_map_scene_on_change (FrMapScene *scene, void (*changed) (gpointer data), gpointer data)
{
  scene->changed = changed;
  scene->data = data;
}

void
fr_map_scene_load (FrMapScene *scene, FrSugarbush *bush)
{
  FrBook *book = fr_sugarbush_get_book (bush);

  load_trees (scene, bush);
  load_shapes (scene, book);
  load_picture (scene, book);
  scene->n_loads++;
}

void
fr_map_scene_mark (FrMapScene *scene, FrSugarbush *bush, gint64 focus)
{
  gint64 hovered = fr_sugarbush_get_hovered (bush);

  for (guint i = 0; i < scene->trees->len; i++)
    {
      FrMapTree *tree = &g_array_index (scene->trees, FrMapTree, i);

      tree->is_selected = fr_sugarbush_is_selected (bush, tree->id);
      tree->is_hovered = tree->id == hovered;
      tree->is_focused = tree->id == focus;
    }
}

void
fr_map_scene_show (FrMapScene *scene, FrMapView *view)
{
  view->revision = scene->revision;
  view->trees = (const FrMapTree *)(gpointer)scene->trees->data;
  view->n_trees = scene->trees->len;
  view->shapes = (const FrMapShape *)(gpointer)scene->shapes->data;
  view->n_shapes = scene->shapes->len;
  view->picture = scene->has_picture ? &scene->picture : NULL;
}

guint
fr_map_scene_n_trees (const FrMapScene *scene)
{
  return scene->trees->len;
}

const FrMapTree *
fr_map_scene_tree_at (const FrMapScene *scene, gsize index)
{
  g_return_val_if_fail (index < scene->trees->len, NULL);

  return &g_array_index (scene->trees, FrMapTree, index);
}

gssize
fr_map_scene_find (const FrMapScene *scene, gint64 tree)
{
  return (gssize)GPOINTER_TO_UINT (g_hash_table_lookup (scene->index, &tree)) - 1;
}

guint
fr_map_scene_n_loads (const FrMapScene *scene)
{
  return scene->n_loads;
}
