/* A season on paper: its answer, its picture, the months if asked for, and its days as a table. The seasons
 * before it are laid under its line of litres. */
#include "cli/cli-season-sheet.h"

#include "cli/cli-read.h"
#include "cli/cli-table.h"
#include "paint/season-sheet.h"
#include "words/season-picture-words.h"
#include "words/season-words.h"

#include <math.h>

/* More lines than these could not be told apart. */
#define PAST_MOST 6
/* Only read, not written into. */
#define ROW_M 0.0055

typedef struct
{
  GArray *months;    /* FrSeasonMonth */
  GArray *feet;      /* FrSeasonFoot */
  GArray *specials;  /* FrMonthWord */
  GArray *past;      /* FrSeasonPast */
  GPtrArray *texts;  /* of the past seasons */
  GPtrArray *litres; /* double[] of them */
  FrSeasonTexts words;
} Picture;

static FrSeasonLaneText
lane (const FrSeasonLaneWords *words)
{
  return (FrSeasonLaneText){ words->name, words->unit, words->known, words->expected, words->empty };
}

static void
picture_init (Picture *picture, const FrSeasonPictureWords *words)
{
  *picture = (Picture){ .months = g_array_new (FALSE, FALSE, sizeof (FrSeasonMonth)),
                        .feet = g_array_new (FALSE, FALSE, sizeof (FrSeasonFoot)),
                        .specials = g_array_new (FALSE, FALSE, sizeof (FrMonthWord)),
                        .past = g_array_new (FALSE, FALSE, sizeof (FrSeasonPast)),
                        .texts = g_ptr_array_new_with_free_func (g_free),
                        .litres = g_ptr_array_new_with_free_func (g_free) };
  for (guint i = 0; i < words->months->len; i++)
    {
      const FrSeasonMonthMark *mark = &g_array_index (words->months, FrSeasonMonthMark, i);
      FrSeasonMonth month = { mark->day, mark->label, mark->label_short };

      g_array_append_val (picture->months, month);
    }
  for (guint i = 0; i < words->marks->len; i++)
    {
      const FrSeasonDayMark *mark = &g_array_index (words->marks, FrSeasonDayMark, i);
      FrSeasonFoot foot = { mark->day, NULL, mark->number, mark->words };
      FrMonthWord special = { mark->date, mark->words };

      g_array_append_val (picture->feet, foot);
      g_array_append_val (picture->specials, special);
    }
  picture->words = (FrSeasonTexts){ .lanes = { [FR_SEASON_LANE_SPAN] = lane (&words->span),
                                               [FR_SEASON_LANE_GATHERED] = lane (&words->gathered),
                                               [FR_SEASON_LANE_SO_FAR] = lane (&words->so_far),
                                               [FR_SEASON_LANE_STORE] = lane (&words->store),
                                               [FR_SEASON_LANE_BOILS] = lane (&words->boils),
                                               [FR_SEASON_LANE_BOTTLES] = lane (&words->bottles),
                                               [FR_SEASON_LANE_PRICE] = lane (&words->price) },
                                    .today = words->today,
                                    .taps_set = words->taps_set,
                                    .taps_pulled = words->taps_pulled,
                                    .full = words->full,
                                    .months = (const FrSeasonMonth *)(gpointer)picture->months->data,
                                    .n_months = picture->months->len,
                                    .feet = (const FrSeasonFoot *)(gpointer)picture->feet->data,
                                    .n_feet = picture->feet->len };
}

static void
picture_clear (Picture *picture)
{
  g_array_unref (picture->months);
  g_array_unref (picture->feet);
  g_array_unref (picture->specials);
  g_array_unref (picture->past);
  g_ptr_array_unref (picture->texts);
  g_ptr_array_unref (picture->litres);
}

/* Of the seasons before with anything gathered in them, the latest. The tally of the last of them on the same
 * date comes back; its season is 0 when there is none. */
static FrSeasonTally
add_past (Picture *picture, const FrCliBush *bush, const FrSeasonView *view, gint64 now_utc)
{
  FrSeasonTally last = { 0 };
  guint first = view->season;

  for (guint i = 0; i < bush->evening.kinds[FR_KIND_GATHERING]->len; i++)
    {
      const FrGathering *one = bush->evening.kinds[FR_KIND_GATHERING]->pdata[i];
      first = MIN (first, fr_season_of (fr_zone_local (bush->evening.zone, one->gathered_utc).date));
    }
  for (guint season = view->season - 1; season >= first && picture->past->len < PAST_MOST; season--)
    {
      g_autoptr (FrSeasonView) other = fr_season_view_new (&bush->evening.book, season, now_utc);
      FrSeasonPast past = { .season = season, .first = other->days[0].date, .n_days = other->n_days };
      double *litres;

      if (!(other->tally.n_gathering_days > 0))
        continue;
      if (last.season == 0)
        last = fr_season_view_tally (other, view->today >= 0
                                                ? fr_season_same_date (view->days[view->today].date, season)
                                                : fr_season_last_day (season));
      litres = g_new (double, other->n_days);
      for (guint i = 0; i < other->n_days; i++)
        litres[i] = other->days[i].gathered_l;
      g_ptr_array_add (picture->litres, litres);
      g_ptr_array_add (picture->texts, g_strdup_printf ("%u", season));
      past.gathered_l = litres;
      past.label = picture->texts->pdata[picture->texts->len - 1];
      g_array_append_val (picture->past, past);
    }
  return last;
}

static void
add_months (const Picture *picture, const FrSeasonPictureWords *words, const FrSeasonView *view,
            const FrUnits *units, GArray *months, GPtrArray *names)
{
  for (guint i = 0; i < words->pages->len; i++)
    {
      const FrSeasonMonthPage *page = &g_array_index (words->pages, FrSeasonMonthPage, i);
      FrMonth month = { .year = page->first.year,
                        .month = page->first.month,
                        .first_weekday = 1,
                        .view = view,
                        .units = units,
                        .weekdays = (const char *const *)words->weekdays,
                        .words = (const FrMonthWord *)(gpointer)picture->specials->data,
                        .n_words = picture->specials->len };

      if (view->today >= 0)
        month.today = view->days[view->today].date;
      g_array_append_val (months, month);
      g_ptr_array_add (names, page->title);
    }
}

GBytes *
fr_cli_season_sheet (const FrCliBush *bush, const char *household, gboolean with_months, FrSheetSize size,
                     guint *n_pages, guint *n_rows, GError **error)
{
  const FrSay *say = &bush->evening.say;
  g_autoptr (FrSeasonView) view
      = fr_season_view_new (&bush->evening.book, fr_bush_get_season (bush->bush), bush->now_utc);
  g_autoptr (FrSeasonPictureWords) words = fr_season_picture_words_new (view, say);
  g_autoptr (FrPaperWords) days = fr_season_table_words_new (view, say);
  g_autoptr (GPtrArray) names = g_ptr_array_new ();
  g_autoptr (GArray) months = g_array_new (FALSE, FALSE, sizeof (FrMonth));
  g_auto (FrCliTable) table = { NULL };
  g_autofree char *title = fr_season_title (view->season), *date = fr_say_date (bush->today),
                  *sentence = fr_season_sentence (view, say), *reason = NULL;
  Picture picture;
  FrSeasonTally past;
  GBytes *pdf;

  fr_cli_table_init (&table, days, say);
  table.sheet.row_height_m = ROW_M;
  picture_init (&picture, words);
  past = add_past (&picture, bush, view, bush->now_utc);
  reason = fr_season_reason (view, past.season > 0 ? &past : NULL, say);
  if (with_months)
    add_months (&picture, words, view, &say->units, months, names);
  FrSeasonStrip strip = { .view = view,
                          .units = &say->units,
                          .texts = &picture.words,
                          .past = (const FrSeasonPast *)(gpointer)picture.past->data,
                          .n_past = picture.past->len,
                          .selected = -1,
                          .hovered = -1 };
  FrSeasonSheet sheet = { .title = title,
                          .author = household,
                          .date = date,
                          .sentence_markup = sentence,
                          .reason = reason,
                          .footer = household,
                          .strip = &strip,
                          .months = (const FrMonth *)(gpointer)months->data,
                          .month_names = (const char *const *)names->pdata,
                          .n_months = months->len,
                          .table = days->n_rows > 0 ? &table.sheet : NULL };
  pdf = fr_season_sheet_pdf (&sheet, size, n_pages, error);
  *n_rows = days->n_rows;
  picture_clear (&picture);
  return pdf;
}
