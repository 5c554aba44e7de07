/* The scene of the drawn widgets, on a sheet. */
#include "ui/season-paper.h"

#include "paint/season-sheet.h"
#include "ui/paper-table.h"
#include "ui/season-scene.h"
#include "words/season-words.h"

/* The days are only read, not written into. */
#define ROW_M 0.0055

GBytes *
fr_season_paper_pdf (FrSeason *season, FrSheetSize size, gboolean with_months, guint *n_pages, GError **error)
{
  const FrSeasonView *view = fr_season_get_view (season), *past_view = fr_season_get_past_view (season);
  const FrSay *say = fr_season_get_say (season);
  const FrHousehold *household = fr_book_get_household (fr_season_get_book (season));
  g_autoptr (GPtrArray) past = g_ptr_array_new (), names = g_ptr_array_new ();
  g_autoptr (GArray) months = g_array_new (FALSE, FALSE, sizeof (FrMonth));
  g_autoptr (FrPaperWords) days = fr_season_table_words_new (view, say);
  g_autofree char *title = fr_season_title (view->season), *date = fr_say_date (fr_season_get_today (season)),
                  *sentence = fr_season_sentence (view, say),
                  *reason = fr_season_reason (view, fr_season_get_past (season), say);
  g_auto (FrPaperTable) table = { NULL };

  if (past_view != NULL)
    g_ptr_array_add (past, (gpointer)past_view);
  g_autoptr (FrSeasonScene) scene = fr_season_scene_new (view, past, say);
  for (guint i = 0; with_months && i < scene->words->pages->len; i++)
    {
      const FrSeasonMonthPage *page = &g_array_index (scene->words->pages, FrSeasonMonthPage, i);
      FrMonth month = scene->month;

      month.year = page->first.year;
      month.month = page->first.month;
      g_array_append_val (months, month);
      g_ptr_array_add (names, page->title);
    }
  fr_paper_table_init (&table, days, say);
  table.sheet.row_height_m = ROW_M;
  FrSeasonSheet sheet = { .title = title,
                          .author = household != NULL ? household->name : NULL,
                          .date = date,
                          .sentence_markup = sentence,
                          .reason = reason,
                          .footer = household != NULL ? household->name : NULL,
                          .strip = &scene->strip,
                          .months = (const FrMonth *)(gpointer)months->data,
                          .month_names = (const char *const *)names->pdata,
                          .n_months = months->len,
                          .table = days->n_rows > 0 ? &table.sheet : NULL };
  return fr_season_sheet_pdf (&sheet, size, n_pages, error);
}
