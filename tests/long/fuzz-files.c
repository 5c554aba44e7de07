/* A target for libFuzzer over every reader of trees and what stands behind it. What is read is brought into
 * an empty book; that book is written in each kind, read again into another empty book, and must be the same
 * trees then; the first file once more must change nothing. What is not read must have a sentence. How to
 * run: tests/long/fuzz-files. */
#include "formats/arrival-file.h"
#include "formats/foreign.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size);

typedef struct
{
  GPtrArray *lists[FR_N_KINDS];
  FrBushBook book;
} Bush;

static guint64 n_uids;

static void
new_uid (char uid_out[33])
{
  g_snprintf (uid_out, 33, "%016x%016" G_GINT64_MODIFIER "x", 0xf, ++n_uids);
}

static void
show (Bush *bush)
{
  bush->book = (FrBushBook){
    .trees = bush->lists[FR_KIND_TREE],
    .girths = bush->lists[FR_KIND_GIRTH],
    .taps = bush->lists[FR_KIND_TAP],
    .yields = bush->lists[FR_KIND_YIELD],
    .features = bush->lists[FR_KIND_FEATURE],
    .ground = bush->lists[FR_KIND_GROUND]->len > 0 ? bush->lists[FR_KIND_GROUND]->pdata[0] : NULL,
  };
}

static void
init (Bush *bush)
{
  for (guint k = 0; k < FR_N_KINDS; k++)
    bush->lists[k] = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free);
  show (bush);
}

static void
clear (Bush *bush)
{
  for (guint k = 0; k < FR_N_KINDS; k++)
    g_ptr_array_unref (bush->lists[k]);
}

/* How many steps it took. Only what is new may come to an empty book; later, what replaces must be there. */
static guint
bring_in (Bush *bush, const FrArrivals *arrivals, gboolean replace)
{
  FrArrivalOptions options = fr_arrival_options ("2026-03-19");
  FrArrivalIds ids = { .new_uid = new_uid };
  g_autoptr (FrArrivalPreview) preview = NULL;
  g_autoptr (FrChange) change = NULL;

  options.replace = replace;
  options.with_paths = TRUE;
  options.join_foreign = fr_foreign_join;
  for (guint k = 0; k < FR_N_KINDS; k++)
    ids.next[k] = bush->lists[k]->len + 1;
  preview = fr_arrivals_preview (arrivals, &bush->book, &options);
  change = fr_arrivals_change (preview, &ids, NULL);
  for (guint i = 0; i < change->steps->len; i++)
    {
      const FrStep *step = change->steps->pdata[i];
      GPtrArray *list = bush->lists[step->after->kind->id];
      g_autoptr (GArray) problems = fr_record_check (step->after);

      g_assert_cmpuint (problems->len, ==, 0);
      if (step->before == NULL)
        g_ptr_array_add (list, fr_record_copy (step->after));
      else
        {
          fr_record_free (list->pdata[step->after->id - 1]);
          list->pdata[step->after->id - 1] = fr_record_copy (step->after);
        }
    }
  show (bush);
  return change->steps->len;
}

static const FrTree *
find (const Bush *bush, const char *uid)
{
  for (guint i = 0; i < bush->lists[FR_KIND_TREE]->len; i++)
    if (strcmp (((FrRecord *)bush->lists[FR_KIND_TREE]->pdata[i])->uid, uid) == 0)
      return bush->lists[FR_KIND_TREE]->pdata[i];
  return NULL;
}

static void
tell_difference (const FrRecord *wanted, const FrRecord *got, FrArrivalFile kind)
{
  g_printerr ("%s:\n", fr_arrival_file_code (kind));
  for (guint i = 0; i < wanted->kind->n_fields; i++)
    {
      const FrField *field = &wanted->kind->fields[i];

      if (field->type == FR_FIELD_AMOUNT)
        g_printerr ("%s %.17g “%s” %.17g “%s”\n", field->name,
                    fr_record_amount ((FrRecord *)wanted, field)->value,
                    fr_record_amount ((FrRecord *)wanted, field)->typed,
                    fr_record_amount ((FrRecord *)got, field)->value,
                    fr_record_amount ((FrRecord *)got, field)->typed);
      else if (field->type != FR_FIELD_BOOL && field->type != FR_FIELD_REF)
        g_printerr ("%s “%s” “%s”\n", field->name, fr_record_text (wanted, field),
                    fr_record_text (got, field));
    }
}

static void
compare (const Bush *bush, const Bush *got, FrArrivalFile kind)
{
  for (guint i = 0; i < bush->lists[FR_KIND_TREE]->len; i++)
    {
      const FrTree *tree = bush->lists[FR_KIND_TREE]->pdata[i], *other = find (got, tree->record.uid);
      g_autoptr (FrRecord) copy = NULL;

      if ((tree->record.archived && kind != FR_ARRIVAL_FILE_TREES_CSV)
          || (isnan (tree->x_m.value) && kind == FR_ARRIVAL_FILE_GPX))
        continue;
      g_assert_nonnull (other);
      copy = fr_record_copy (&other->record);
      copy->id = tree->record.id;
      if (!fr_record_equal (copy, &tree->record))
        {
          tell_difference (&tree->record, copy, kind);
          g_assert_not_reached ();
        }
    }
}

static void
round_trip (const Bush *bush, FrArrivalFile kind)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *text = fr_arrival_file_write (kind, &bush->book, FALSE, NULL, &error);
  g_autoptr (FrArrivals) arrivals = NULL;
  FrArrivalFile seen;
  Bush other;

  if (text == NULL)
    {
      g_assert_nonnull (error);
      return;
    }
  arrivals = fr_arrival_file_read (text, strlen (text), &seen, &error);
  if (arrivals == NULL)
    g_error ("%s in %s", error->message, text);
  g_assert_cmpint (seen, ==, kind);
  init (&other);
  bring_in (&other, arrivals, FALSE);
  compare (bush, &other, kind);
  clear (&other);
}

/* So that the time goes to the kind it was given for. */
static gboolean
is_wanted (const uint8_t *data, size_t size)
{
  const char *wanted = g_getenv ("FUZZ_KIND");
  size_t at = 0;

  while (at < size && g_ascii_isspace (data[at]))
    at++;
  if (wanted == NULL || at == size)
    return wanted == NULL;
  switch (wanted[1])
    {
    case 'p':
      return data[at] == '<';
    case 'e':
      return data[at] == '{' || data[at] == '[';
    default:
      return data[at] != '<' && data[at] != '{' && data[at] != '[';
    }
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  if (!is_wanted (data, size))
    return -1;

  g_autoptr (GError) error = NULL;
  FrArrivalFile kind;
  g_autoptr (FrArrivals) arrivals = fr_arrival_file_read ((const char *)data, size, &kind, &error);
  Bush bush;

  if (arrivals == NULL)
    {
      g_assert_nonnull (error);
      g_assert_true (g_utf8_validate (error->message, -1, NULL));
      return 0;
    }
  init (&bush);
  bring_in (&bush, arrivals, FALSE);
  g_assert_cmpuint (bring_in (&bush, arrivals, FALSE), ==, 0);
  bring_in (&bush, arrivals, TRUE);
  g_assert_cmpuint (bring_in (&bush, arrivals, TRUE), ==, 0);
  for (guint k = 0; k < FR_N_ARRIVAL_FILES; k++)
    round_trip (&bush, k);
  clear (&bush);
  return 0;
}
