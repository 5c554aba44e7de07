/* One row of the sugarbush's list. The object stays the same through every change of its tree, so that a view
 * keeps its place. */
#include "models/sugarbush-private.h"

#include <string.h>

#include "words/tree-words.h"

G_DEFINE_FINAL_TYPE (FrTreeItem, fr_tree_item, G_TYPE_OBJECT)

static guint changed_signal;

static void
forget_keys (FrTreeItem *self)
{
  g_clear_pointer (&self->name_key, g_free);
  g_clear_pointer (&self->haystack, g_free);
}

static void
fr_tree_item_finalize (GObject *object)
{
  FrTreeItem *self = FR_TREE_ITEM (object);

  forget_keys (self);
  g_clear_object (&self->record);
  G_OBJECT_CLASS (fr_tree_item_parent_class)->finalize (object);
}

static void
fr_tree_item_class_init (FrTreeItemClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = fr_tree_item_finalize;
  changed_signal
      = g_signal_new ("changed", FR_TYPE_TREE_ITEM, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
fr_tree_item_init (FrTreeItem *self)
{
}

FrTreeItem *
fr_tree_item_new (FrSugarbush *owner, gint64 id)
{
  FrTreeItem *self = g_object_new (FR_TYPE_TREE_ITEM, NULL);

  self->owner = owner;
  self->id = id;
  return self;
}

gint64
fr_tree_item_get_id (FrTreeItem *self)
{
  g_return_val_if_fail (FR_IS_TREE_ITEM (self), 0);
  return self->id;
}

const FrBushTree *
fr_tree_item_get_tree (FrTreeItem *self)
{
  g_return_val_if_fail (FR_IS_TREE_ITEM (self), NULL);
  return self->owner != NULL ? fr_bush_find (fr_sugarbush_get_bush (self->owner), self->id) : NULL;
}

void
fr_tree_item_set_record (FrTreeItem *self, FrRecordObject *record)
{
  if (g_set_object (&self->record, record))
    forget_keys (self);
}

void
fr_tree_item_tell (FrTreeItem *self)
{
  g_signal_emit (self, changed_signal, 0);
}

static const FrTree *
tree_of (FrTreeItem *self)
{
  return (const FrTree *)fr_record_object_get_record (self->record);
}

/* A run of digits becomes the digit "0", how many digits follow, and those: longer numbers are greater, and
 * all stand where digits stand among letters. Zeros in front do not count. */
static void
append_number (GString *key, const char *digits, gsize length)
{
  while (length > 1 && *digits == '0')
    {
      digits++;
      length--;
    }
  g_string_append_printf (key, "0%03u", (guint)MIN (length, 999));
  g_string_append_len (key, digits, (gssize)length);
}

static void
append_words (GString *key, const char *text, gsize length)
{
  g_autofree char *folded = g_utf8_casefold (text, (gssize)length);
  g_autofree char *collated = g_utf8_collate_key (folded, -1);

  g_string_append (key, collated);
  g_string_append_c (key, '\1');
}

const char *
fr_tree_item_name_key (FrTreeItem *self)
{
  GString *key;
  const char *at;

  if (self->name_key != NULL)
    return self->name_key;
  key = g_string_new (NULL);
  at = fr_record_label (&tree_of (self)->record);
  while (*at != '\0')
    {
      gsize digits = strspn (at, "0123456789");
      gsize others = strcspn (at, "0123456789");

      if (digits > 0)
        append_number (key, at, digits);
      else
        append_words (key, at, others);
      at += digits > 0 ? digits : others;
    }
  self->name_key = g_string_free (key, FALSE);
  return self->name_key;
}

/* Case and the way accents are written make no difference to a search. */
static char *
fold (const char *text)
{
  g_autofree char *normal = g_utf8_normalize (text, -1, G_NORMALIZE_ALL_COMPOSE);

  return g_utf8_casefold (normal != NULL ? normal : "", -1);
}

const char *
fr_tree_item_haystack (FrTreeItem *self)
{
  if (self->haystack == NULL)
    {
      const FrTree *tree = tree_of (self);
      const char *const parts[]
          = { tree->name, tree->species, fr_species_word (tree->species), tree->owner, tree->note };
      g_autoptr (GString) all = g_string_new (NULL);

      for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
        if (parts[i] != NULL)
          g_string_append_printf (all, "%s\n", parts[i]);
      self->haystack = fold (all->str);
    }
  return self->haystack;
}

char **
fr_tree_words (const char *text)
{
  g_autofree char *folded = text != NULL ? fold (text) : NULL;
  g_auto (GStrv) parts = folded != NULL ? g_strsplit_set (folded, " \t\n", -1) : NULL;
  g_autoptr (GPtrArray) words = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; parts != NULL && parts[i] != NULL; i++)
    if (*parts[i] != '\0')
      g_ptr_array_add (words, g_strdup (parts[i]));
  if (words->len == 0)
    return NULL;
  g_ptr_array_add (words, NULL);
  return (char **)g_ptr_array_free (g_steal_pointer (&words), FALSE);
}
