/* One sentence for each thing that can become of a row. */
#include "words/sap-arrival-words.h"

#include "domain/plan/gathering.h"
#include "words/ask-words.h"
#include "words/entry-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* Cells are cut to this for a sentence. */
#define CELL_CHARS 40

static const FrRecord *
find (GPtrArray *records, gint64 id)
{
  for (guint i = 0; records != NULL && i < records->len; i++)
    if (((FrRecord *)records->pdata[i])->id == id)
      return records->pdata[i];
  return NULL;
}

/* The container's name, of the book or of the table. */
static const char *
container_name (const FrSapArrivalPreview *preview, const FrSeasonBook *book, gint64 id)
{
  const FrRecord *found = id > 0 ? find (book->containers, id) : NULL;

  for (guint i = 0; found == NULL && id > 0 && i < preview->rows->len; i++)
    {
      const FrSapArrivalRow *row = preview->rows->pdata[i];

      if (row->after != NULL && row->after->kind->id == FR_KIND_CONTAINER && row->after->id == id)
        found = row->after;
    }
  return found != NULL ? fr_record_label (found) : NULL;
}

char *
fr_sap_arrival_title (const FrSapArrivalRow *row, const FrSeasonBook *book)
{
  const FrRecord *record = row->after != NULL ? row->after : row->arrival->record;
  char *const *names = row->arrival->names;
  const char *name = NULL;

  switch (record->kind->id)
    {
    case FR_KIND_CONTAINER:
      name = ((const FrContainer *)record)->name;
      break;
    case FR_KIND_GATHERING:
      name = names[FR_SAP_NAMES_TREE] != NULL ? names[FR_SAP_NAMES_TREE]
                                              : ((const FrGathering *)record)->stand;
      if (name == NULL && ((const FrGathering *)record)->tree != 0)
        name = fr_record_label (find (book->trees, ((const FrGathering *)record)->tree));
      if (name == NULL)
        return g_strdup (_ ("whole bush"));
      break;
    default:
      name = names[FR_SAP_NAMES_CONTAINER];
    }
  return g_strdup (name != NULL && *name != '\0' ? name : _ ("unnamed"));
}

const char *
fr_sap_fate_word (FrSapFate fate)
{
  static const char *const words[FR_N_SAP_FATES]
      = { N_ ("New"), N_ ("Changed"), N_ ("Same"), N_ ("Asked about"), N_ ("Refused") };

  g_return_val_if_fail ((guint)fate < FR_N_SAP_FATES, "");

  return _ (words[fate]);
}

/* --- refusals --- */

/* On one line, and nothing in it that moves the cursor or turns the text round. */
static char *
short_cell (const char *cell)
{
  g_autofree char *valid = g_utf8_make_valid (cell != NULL ? cell : "", -1);
  GString *out = g_string_new (NULL);
  guint n = 0;

  for (const char *p = valid; *p != '\0' && n < CELL_CHARS; p = g_utf8_next_char (p), n++)
    g_string_append_unichar (out, g_unichar_isprint (g_utf8_get_char (p)) ? g_utf8_get_char (p) : '?');
  if (n == CELL_CHARS && *g_utf8_offset_to_pointer (valid, n) != '\0')
    g_string_append (out, "…");
  return g_string_free (out, FALSE);
}

/* The codes that a column takes. */
static char *
codes_of (const FrSapArrival *arrival)
{
  const FrField *field = fr_kind_field (arrival->record->kind, arrival->column);

  return field != NULL && field->codes != NULL ? g_strjoinv (", ", (char **)field->codes) : g_strdup ("");
}

static char *
name_refused (const FrSapArrivalRow *row)
{
  g_autofree char *cell
      = short_cell (row->arrival->names[row->name] != NULL ? row->arrival->names[row->name]
                                                           : fr_record_label (row->arrival->record));
  const gboolean several = row->refusal == FR_SAP_TWO_SUCH;

  switch (row->name)
    {
    case FR_SAP_NAMES_TREE:
      return g_strdup_printf (
          several ? _ ("Two trees are called “%s”. Give one of them another name, or write its identity.")
                  : _ ("No tree is called “%s”. Correct the name, or add the tree first."),
          cell);
    case FR_SAP_NAMES_TAP:
      return g_strdup_printf (_ ("The tree has no tap “%s” that season. Write its identity, or which of the "
                                 "tree’s taps it is: 1, 2 …"),
                              cell);
    case FR_SAP_NAMES_NIGHT:
      return g_strdup_printf (
          several ? _ ("Two boils are of the evening “%s”. Write the identity of one.")
                  : _ ("No boil is of the evening “%s”. Correct the day, or leave the cell empty."),
          cell);
    default:
      return g_strdup_printf (
          several
              ? _ ("Two containers are called “%s”. Give one of them another name, or write its identity.")
              : _ ("No container is called “%s”. Correct the name, or read the table of containers first."),
          cell);
    }
}

static char *
refused (const FrSapArrivalRow *row, const FrSay *say)
{
  const FrSapArrival *arrival = row->arrival;
  const char *column = arrival->column != NULL ? arrival->column : "";
  g_autofree char *cell = short_cell (arrival->cell);

  switch (row->refusal)
    {
    case FR_SAP_NO_NUMBER:
      return g_strdup_printf (strchr (cell, ',') != NULL
                                  ? _ ("%s is “%s”, which is no number; decimals are written with a point.")
                                  : _ ("%s is “%s”, which is no number."),
                              column, cell);
    case FR_SAP_NO_QUANTITY:
      {
        /* A long one would be told whole. */
        g_autofree char *why
            = strlen (arrival->cell) <= CELL_CHARS && g_utf8_validate (arrival->cell, -1, NULL)
                  ? fr_entry_sentence (arrival->quantity, arrival->cell, arrival->at, arrival->quantity_kind,
                                       &say->units)
                  : NULL;

        return why != NULL
                   ? g_strdup_printf (_ ("%s is “%s”: %s"), column, cell, why)
                   : g_strdup_printf (_ ("%s is “%s”, which cannot be read as an amount."), column, cell);
      }
    case FR_SAP_NO_DATE:
      return g_strdup_printf (_ ("%s is “%s”; days are written 2026-03-19."), column, cell);
    case FR_SAP_NO_TIME:
      return g_strdup_printf (_ ("%s is “%s”; clock times are written 07:30 or 7:30 AM."), column, cell);
    case FR_SAP_NO_OFFSET:
      return g_strdup_printf (_ ("%s is “%s”; it is written UTC-04:00."), column, cell);
    case FR_SAP_DATELESS:
      return g_strdup (_ ("It has no date."));
    case FR_SAP_SKIPPED:
      {
        /* A clock is read to the nearest minute, and the last second before is not yet the minute after. */
        g_autofree char *before = fr_say_clock (say, arrival->before_utc - 59),
                        *after = fr_say_clock (say, arrival->after_utc);

        return g_strdup_printf (
            _ ("The clock jumped over that time, from %s to %s. Write one before or after it."), before,
            after);
      }
    case FR_SAP_NO_CODE:
      {
        g_autofree char *all = codes_of (arrival);

        return g_strdup_printf (_ ("%s is “%s”; it must be one of %s."), column, cell, all);
      }
    case FR_SAP_NO_YES:
      return g_strdup_printf (_ ("%s is “%s”; it must be yes or no."), column, cell);
    case FR_SAP_NO_IDENTITY:
      return g_strdup_printf (_ ("%s is “%s”; it must be 32 digits 0 to 9 and a to f, or empty."), column,
                              cell);
    case FR_SAP_NO_RECORD:
      return g_strdup_printf (_ ("%s is “%s”; it must be gathering, container, pour or dip."), column, cell);
    case FR_SAP_TOO_LONG:
      return g_strdup_printf (_ ("%s is too long to be kept."), column);
    case FR_SAP_SAID_TWICE:
      return g_strdup_printf (_ ("Two columns say the same thing; %s is one of them."), column);
    case FR_SAP_TWO_AMOUNTS:
      return g_strdup (
          _ ("It has a volume, a weight or a depth at once. Leave one, or say which in measured_by."));
    case FR_SAP_NOT_OF_KIND:
      return g_strdup_printf (_ ("Such a row has no %s."), column);
    case FR_SAP_TOO_WIDE:
      return g_strdup_printf (_ ("The cell “%s” has no column: the first row ends before it."), cell);
    case FR_SAP_NO_SUCH:
    case FR_SAP_TWO_SUCH:
      return name_refused (row);
    case FR_SAP_TWICE:
      return g_strdup_printf (_ ("It is the same record as in line %u."), row->other_line);
    case FR_SAP_ELSEWHERE:
      return g_strdup (
          _ ("Its identity is that of another kind of record. Leave the cell empty for a new one."));
    case FR_SAP_NOT_KEPT:
      {
        const FrRecord *record = row->after != NULL ? row->after : arrival->record;
        g_autofree char *why = fr_record_sentence (&row->problem, record, &say->units);

        return g_strdup_printf (_ ("It cannot be kept: %s: %s"), row->problem.field->name, why);
      }
    default:
      return g_strdup ("");
    }
}

/* --- rows --- */

/* Of a gathering itself; a question may be of what came before on the same round too. */
static double
litres_of (const FrSapArrivalRow *row, const FrSeasonBook *book)
{
  const FrGathering *gathering = (const FrGathering *)row->after;

  if (row->after->kind->id != FR_KIND_GATHERING)
    return NAN;
  return fr_gathering_l (gathering, (const FrContainer *)find (book->containers, gathering->bucket), NAN);
}

char *
fr_sap_arrival_sentence (const FrSapArrivalRow *row, const FrSapArrivalPreview *preview,
                         const FrSeasonBook *book, const FrSay *say)
{
  GString *text;

  switch (row->fate)
    {
    case FR_SAP_NEW:
      return g_strdup (_ ("New."));
    case FR_SAP_CHANGES:
      return g_strdup_printf (
          dngettext (GETTEXT_PACKAGE, "%u entry changes.", "%u entries change.", row->n_fields),
          row->n_fields);
    case FR_SAP_SAME:
      return g_strdup (_ ("In the book already; nothing changes."));
    case FR_SAP_ASKED:
      text = g_string_new (NULL);
      for (guint i = 0; i < row->questions->len; i++)
        {
          const FrQuestion *question = &g_array_index (row->questions, FrQuestion, i);
          /* Others are of a gathering, and looking for that among the containers takes long. */
          const gboolean is_of_container
              = question->code == FR_ASK_OVERFLOW || question->code == FR_ASK_NEGATIVE;
          g_autofree char *sentence = fr_question_sentence (
              question, is_of_container ? container_name (preview, book, question->other) : NULL,
              litres_of (row, book), say);

          g_string_append_printf (text, "%s%s", i > 0 ? " " : "", sentence);
        }
      return g_string_free (text, FALSE);
    default:
      return refused (row, say);
    }
}

char *
fr_sap_arrival_summary (const FrSapArrivalPreview *preview)
{
  static const char *const parts[FR_N_SAP_FATES]
      = { N_ ("%u new"), N_ ("%u changed"), N_ ("%u the same"), N_ ("%u asked about"), N_ ("%u refused") };
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < FR_N_SAP_FATES; i++)
    if (preview->n[i] > 0)
      {
        g_auto (GStrv) halves = g_strsplit (_ (parts[i]), "%u", 2);

        g_string_append_printf (text, "%s%s%u%s", text->len > 0 ? ", " : "", halves[0], preview->n[i],
                                halves[1] != NULL ? halves[1] : "");
      }
  if (text->len == 0)
    g_string_append (text, _ ("No row in the table"));
  g_string_append_c (text, '.');
  return g_string_free (text, FALSE);
}

char *
fr_sap_arrival_open_sentence (const FrSapArrivalPreview *preview)
{
  const guint n = fr_sap_arrivals_n_open (preview);

  if (n == 0)
    return NULL;
  return g_strdup_printf (dngettext (GETTEXT_PACKAGE,
                                     "Nothing is read in while %u row is refused or asked about. Correct it, "
                                     "leave it out, or confirm it.",
                                     "Nothing is read in while %u rows are refused or asked about. Correct "
                                     "them, leave them out, or confirm them.",
                                     n),
                          n);
}
