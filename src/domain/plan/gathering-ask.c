/* Questions of a record alone and of what the containers hold; its holes are asked in gathering-holes.c, its
 * neighbours in gathering-odd.c. The order of causes is what households find (common practice, no source),
 * but for what the numbers themselves point at. */
#include "domain/plan/gathering-ask-private.h"

#include "domain/maths/instrument.h"

#include <math.h>
#include <string.h>

FrQuestion
fr_question (FrAskCode code)
{
  return (FrQuestion){ .code = code,
                       .value_l = NAN,
                       .usual_l = NAN,
                       .limit_l = NAN,
                       .brix = NAN,
                       .usual_brix = NAN,
                       .rain_m = NAN,
                       .utc_s = G_MININT64,
                       .other_utc_s = G_MININT64 };
}

void
fr_question_because (FrQuestion *question, FrAskCause cause)
{
  for (guint i = 0; i < question->n_causes; i++)
    if (question->causes[i] == cause)
      return;
  if (question->n_causes < FR_ASK_CAUSES_MAX)
    question->causes[question->n_causes++] = cause;
}

/* --- the asker --- */

static void
hold_days (FrAsker *asker)
{
  asker->days = g_hash_table_new (g_str_hash, g_str_equal);
  for (guint i = 0; asker->book.days != NULL && i < asker->book.days->len; i++)
    {
      FrDay *day = asker->book.days->pdata[i];

      if (!day->record.archived && day->day != NULL && !day->expected)
        g_hash_table_insert (asker->days, day->day, day);
    }
}

FrAsker *
fr_asker_new (const FrSeasonBook *book, const FrBush *bush, gint64 now_utc)
{
  const FrBushBook own = { .trees = book->trees,
                           .girths = book->girths,
                           .taps = book->taps,
                           .containers = book->containers,
                           .zone = book->zone };
  g_autoptr (GPtrArray) gatherings = fr_gatherings_by_time (book->gatherings);
  FrAsker *asker = g_new0 (FrAsker, 1);

  asker->book = *book;
  asker->now_utc = now_utc;
  asker->own_bush = bush == NULL ? fr_bush_new_bare (&own) : NULL;
  fr_sap_run_init (&asker->run, bush != NULL ? bush : asker->own_bush, bush == NULL);
  asker->records = g_ptr_array_new ();
  asker->lines = g_array_new (FALSE, FALSE, sizeof (FrSapRunLine));
  asker->levels = g_array_new (FALSE, FALSE, sizeof (double));
  asker->offs = g_array_new (FALSE, FALSE, sizeof (double));
  asker->twins = g_array_new (FALSE, FALSE, sizeof (FrSapRunLine));
  for (guint i = 0; i < gatherings->len; i++)
    {
      FrSapRunLine line;

      if (((FrRecord *)gatherings->pdata[i])->archived
          || !fr_sap_run_read (&asker->run, gatherings->pdata[i], &line))
        continue;
      g_array_append_val (asker->lines, line);
      g_ptr_array_add (asker->records, gatherings->pdata[i]);
    }
  hold_days (asker);
  return asker;
}

void
fr_asker_free (FrAsker *asker)
{
  if (asker == NULL)
    return;
  fr_sap_run_clear (&asker->run);
  fr_bush_free (asker->own_bush);
  g_ptr_array_unref (asker->records);
  g_array_unref (asker->lines);
  g_array_unref (asker->levels);
  g_array_unref (asker->offs);
  g_array_unref (asker->twins);
  g_clear_pointer (&asker->stock, fr_stock_free);
  g_clear_pointer (&asker->stock_lines, g_hash_table_unref);
  g_clear_pointer (&asker->own, g_hash_table_unref);
  g_hash_table_unref (asker->days);
  g_free (asker);
}

/* --- of itself --- */

static void
ask_time (const FrAsker *asker, gint64 utc_s, GArray *questions)
{
  FrQuestion question = fr_question (FR_ASK_FUTURE);

  if (utc_s <= asker->now_utc)
    return;
  question.utc_s = utc_s;
  fr_question_because (&question, FR_CAUSE_DATE);
  g_array_append_val (questions, question);
}

static FrReadingCode
reading_code (const char *instrument, double reading_brix, double sample_c)
{
  FrInstrument which;

  if (isnan (reading_brix) || !fr_instrument_from_code (instrument, &which))
    return FR_READING_OK;
  return fr_instrument_correct (which, reading_brix, sample_c).code;
}

static void
ask_sweetness (const char *instrument, const FrAmount *reading, const FrAmount *sample, double brix,
               gboolean is_raw, GArray *questions)
{
  FrQuestion question = fr_question (FR_ASK_READING);

  question.reading = reading_code (instrument, reading->value, sample->value);
  question.brix = brix;
  if (isnan (reading->value))
    return;
  if (question.reading == FR_READING_OUT_OF_SCALE && reading->value >= FR_ASK_CONCENTRATE_BRIX)
    question.brix = brix = reading->value;
  else if (question.reading != FR_READING_OK)
    {
      g_array_append_val (questions, question);
      return;
    }
  if (!is_raw)
    return;
  if (brix >= FR_ASK_CONCENTRATE_BRIX || brix > FR_ASK_MOST_BRIX)
    {
      question.code = brix >= FR_ASK_CONCENTRATE_BRIX ? FR_ASK_NOT_SAP : FR_ASK_SWEET;
      if (brix / 10 >= 1 && brix / 10 <= FR_ASK_MOST_BRIX / 2)
        fr_question_because (&question, FR_CAUSE_POINT);
      fr_question_because (&question, FR_CAUSE_CONCENTRATE);
      fr_question_because (&question, FR_CAUSE_FROZEN);
    }
  else if (brix < FR_ASK_LEAST_BRIX)
    {
      question.code = FR_ASK_WATERY;
      if (brix * 10 >= 1 && brix * 10 <= FR_ASK_MOST_BRIX / 2)
        fr_question_because (&question, FR_CAUSE_POINT);
      fr_question_because (&question, FR_CAUSE_RAIN);
      fr_question_because (&question, FR_CAUSE_INSTRUMENT);
    }
  else
    return;
  g_array_append_val (questions, question);
}

/* --- of what the containers hold --- */

static gboolean
is_told (const FrStockLine *line)
{
  return line->code == FR_LINE_OVERFLOW || line->code == FR_LINE_NEGATIVE;
}

static gint64
time_of (const FrRecord *record)
{
  switch (record->kind->id)
    {
    case FR_KIND_GATHERING:
      return ((const FrGathering *)record)->gathered_utc;
    case FR_KIND_POUR:
      return ((const FrPour *)record)->poured_utc;
    default:
      return ((const FrDip *)record)->found_utc;
    }
}

static void
season_span (const FrAsker *asker, gint64 utc_s, gint64 *from_out, gint64 *to_out)
{
  const guint season = fr_season_of (fr_zone_local (asker->run.zone, utc_s).date);
  gint64 ignored;

  fr_day_span_utc (asker->run.zone, fr_season_first_day (season), from_out, &ignored);
  fr_day_span_utc (asker->run.zone, fr_season_last_day (season), &ignored, to_out);
}

static GPtrArray **
list_of (FrSeasonBook *book, const FrRecord *record)
{
  switch (record->kind->id)
    {
    case FR_KIND_GATHERING:
      return &book->gatherings;
    case FR_KIND_POUR:
      return &book->pours;
    default:
      return &book->dips;
    }
}

/* Found once for all, since many may be asked. */
static gboolean
is_own (FrAsker *asker, const FrRecord *record)
{
  GPtrArray *const lists[] = { asker->book.gatherings, asker->book.pours, asker->book.dips };

  if (asker->own == NULL)
    {
      asker->own = g_hash_table_new (NULL, NULL);
      for (guint k = 0; k < G_N_ELEMENTS (lists); k++)
        for (guint i = 0; lists[k] != NULL && i < lists[k]->len; i++)
          g_hash_table_add (asker->own, lists[k]->pdata[i]);
    }
  return g_hash_table_contains (asker->own, record);
}

static void
ask_line (const FrStockLine *line, GArray *questions)
{
  FrQuestion question = fr_question (line->code == FR_LINE_OVERFLOW ? FR_ASK_OVERFLOW : FR_ASK_NEGATIVE);

  question.other = line->container;
  if (line->code == FR_LINE_OVERFLOW)
    {
      question.value_l = line->computed_l;
      question.limit_l = line->computed_l + line->volume_l;
    }
  else
    {
      question.limit_l = MAX (line->computed_l, 0);
      question.value_l = ((const FrPour *)line->record)->volume_l.value;
    }
  fr_question_because (&question, FR_CAUSE_MISSED_LINE);
  fr_question_because (&question, FR_CAUSE_CONTAINER);
  fr_question_because (&question, FR_CAUSE_UNIT);
  g_array_append_val (questions, question);
}

/* With the book's own records the season is replayed once for all of them; with another in place of one, or
 * beside them, for it. */
static void
ask_stock (FrAsker *asker, const FrRecord *record, GArray *questions)
{
  const gint64 at_utc = time_of (record);
  gint64 from_utc, to_utc;
  FrSeasonBook book = asker->book;
  GPtrArray **list = list_of (&book, record);
  g_autoptr (GPtrArray) with = NULL;
  g_autoptr (FrStock) stock = NULL;

  season_span (asker, at_utc, &from_utc, &to_utc);
  /* No line rests on how warm the sap was; following that is most of a replay. */
  book.zone = NULL;
  book.days = NULL;
  if (is_own (asker, record))
    {
      if (asker->stock == NULL || asker->stock->from_utc != from_utc)
        {
          g_clear_pointer (&asker->stock, fr_stock_free);
          g_clear_pointer (&asker->stock_lines, g_hash_table_unref);
          asker->stock = fr_stock_new (&book, from_utc, to_utc);
          asker->stock_lines = g_hash_table_new (NULL, NULL);
          for (guint i = 0; i < asker->stock->n_lines; i++)
            if (is_told (&asker->stock->lines[i])
                && !g_hash_table_contains (asker->stock_lines, asker->stock->lines[i].record))
              g_hash_table_insert (asker->stock_lines, (gpointer)asker->stock->lines[i].record,
                                   &asker->stock->lines[i]);
        }
      {
        const FrStockLine *line = g_hash_table_lookup (asker->stock_lines, record);

        if (line != NULL)
          ask_line (line, questions);
      }
      return;
    }
  with = g_ptr_array_new ();
  for (guint i = 0; *list != NULL && i < (*list)->len; i++)
    if (record->id == 0 || ((FrRecord *)(*list)->pdata[i])->id != record->id)
      g_ptr_array_add (with, (*list)->pdata[i]);
  g_ptr_array_add (with, (gpointer)record);
  *list = with;
  stock = fr_stock_new (&book, from_utc, at_utc);
  for (guint i = 0; i < stock->n_lines; i++)
    if (stock->lines[i].record == record && is_told (&stock->lines[i]))
      {
        ask_line (&stock->lines[i], questions);
        return;
      }
}

/* --- all --- */

static double
rain_m (const FrAsker *asker, gint64 utc_s)
{
  g_autofree char *day = fr_date_to_iso (fr_zone_local (asker->run.zone, utc_s).date);
  const FrDay *found = g_hash_table_lookup (asker->days, day);

  return found != NULL ? found->rain_m.value : NAN;
}

static void
ask_gathering (FrAsker *asker, const FrGathering *gathering, GArray *questions)
{
  FrSapRunLine line;

  ask_time (asker, gathering->gathered_utc, questions);
  ask_sweetness (gathering->instrument, &gathering->reading_brix, &gathering->sample_c,
                 fr_gathering_brix (gathering), TRUE, questions);
  if (!fr_sap_run_read (&asker->run, gathering, &line))
    return;
  if (is_own (asker, &gathering->record))
    fr_asker_sit (asker, line.utc_s, NULL, 0);
  else
    fr_asker_sit (asker, line.utc_s, &line, gathering->record.id);
  fr_asker_look_at_holes (asker, &line, questions);
  fr_asker_compare (asker, &line, questions, rain_m (asker, line.utc_s));
}

static gint
by_code (gconstpointer a, gconstpointer b)
{
  const FrQuestion *one = a, *two = b;

  return (one->code > two->code) - (one->code < two->code);
}

GArray *
fr_asker_ask (FrAsker *asker, const FrRecord *record)
{
  GArray *questions = g_array_new (FALSE, FALSE, sizeof (FrQuestion));

  g_return_val_if_fail (asker != NULL && record != NULL, questions);

  switch ((int)record->kind->id)
    {
    case FR_KIND_GATHERING:
      if (!((const FrGathering *)record)->confirmed)
        ask_gathering (asker, (const FrGathering *)record, questions);
      break;
    case FR_KIND_POUR:
      {
        const FrPour *pour = (const FrPour *)record;

        if (pour->confirmed)
          return questions;
        ask_time (asker, pour->poured_utc, questions);
        ask_sweetness (pour->instrument, &pour->reading_brix, &pour->sample_c, fr_pour_brix (pour), FALSE,
                       questions);
        break;
      }
    case FR_KIND_DIP:
      {
        const FrDip *dip = (const FrDip *)record;

        if (dip->confirmed)
          return questions;
        ask_time (asker, dip->found_utc, questions);
        ask_sweetness (dip->instrument, &dip->reading_brix, &dip->sample_c, fr_dip_brix (dip), FALSE,
                       questions);
        break;
      }
    default:
      return questions;
    }
  if (record->kind->id != FR_KIND_GATHERING || !((const FrGathering *)record)->confirmed)
    ask_stock (asker, record, questions);
  g_array_sort (questions, by_code);
  return questions;
}

gboolean
fr_ask_clock (const FrZoneTable *zone, FrDate date, gint second_of_day, gint64 *utc_out,
              FrQuestion *question_out)
{
  gint64 second_utc;
  const FrZoneFit fit = fr_zone_instant (zone, date, second_of_day, utc_out, &second_utc);

  *question_out = fr_question (fit == FR_ZONE_NEVER ? FR_ASK_CLOCK_SKIPPED : FR_ASK_CLOCK_TWICE);
  question_out->utc_s = *utc_out;
  question_out->other_utc_s = second_utc;
  if (fit == FR_ZONE_NEVER)
    *utc_out = second_utc;
  return fit != FR_ZONE_ONCE;
}
