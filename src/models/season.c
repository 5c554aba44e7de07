/* The season's state. The records that a view looks at are held as long as it lives, so that it stays whole
 * while the book is already moving; the view itself is made when it is asked for, since a log of two hundred
 * rows changes the book two hundred times and nobody looks at the calendar meanwhile. */
#include "models/season.h"

#include "formats/zone-source.h"
#include "domain/plan/bush.h"
#include "models/forecast.h"

/* One season as it was read. */
typedef struct
{
  FrSeasonBook records;
  FrSeasonView *view; /* NULL: not made yet */
  gboolean tried;
} Made;

struct _FrSeason
{
  GObject parent_instance;
  FrBook *book;
  FrForecaster *forecaster; /* or NULL */
  gulong handler;
  FrSeasonClock clock;
  gint64 now_utc;
  FrDate today;
  FrDate day;
  FrZoneTable *zone;
  char *zone_name;
  int zone_year;
  FrSay say;
  gboolean chosen; /* else the season follows today */

  Made shown, present, past;
  guint far_serial, whole_serial; /* that present and past were made at */
  FrSeasonTally past_tally;
  GArray *chores;
  FrLedger *ledger;
};

G_DEFINE_FINAL_TYPE (FrSeason, fr_season, G_TYPE_OBJECT)

enum
{
  SIGNAL_CHANGED,
  SIGNAL_DAY_CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static void
made_clear (Made *made)
{
  if (made->view != NULL)
    {
      g_clear_pointer (&made->view, fr_season_view_free);
      fr_book_season_book_clear (&made->records);
    }
  made->tried = FALSE;
}

static void
forget (FrSeason *self)
{
  g_clear_pointer (&self->chores, g_array_unref); /* both borrow what was made */
  g_clear_pointer (&self->ledger, fr_ledger_free);
  made_clear (&self->shown);
  made_clear (&self->present);
  made_clear (&self->past);
}

/* After a change of the book: what is typed is mostly the shown season's sap, of which other seasons know nothing. */
static void
forget_changed (FrSeason *self)
{
  guint far_serial = fr_book_far_serial (self->book), whole_serial = fr_book_whole_serial (self->book);

  if (far_serial != self->far_serial || whole_serial != self->whole_serial)
    forget (self);
  self->far_serial = far_serial;
  self->whole_serial = whole_serial;
  g_clear_pointer (&self->chores, g_array_unref);
  g_clear_pointer (&self->ledger, fr_ledger_free);
  made_clear (&self->shown);
}

static void
fr_season_finalize (GObject *object)
{
  FrSeason *self = FR_SEASON (object);

  g_signal_handler_disconnect (self->book, self->handler);
  if (self->forecaster != NULL)
    g_signal_handlers_disconnect_by_data (self->forecaster, self);
  g_clear_object (&self->forecaster);
  forget (self);
  g_clear_pointer (&self->zone, fr_zone_table_free);
  g_free (self->zone_name);
  g_clear_object (&self->book);
  G_OBJECT_CLASS (fr_season_parent_class)->finalize (object);
}

static void
fr_season_class_init (FrSeasonClass *klass)
{
  static const char *const names[N_SIGNALS] = { "changed", "day-changed" };

  G_OBJECT_CLASS (klass)->finalize = fr_season_finalize;
  for (guint i = 0; i < N_SIGNALS; i++)
    signals[i]
        = g_signal_new (names[i], FR_TYPE_SEASON, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
fr_season_init (FrSeason *self)
{
}

/* A zone that this machine does not know is told of by the household's editor; days are those of UTC then.
 * Years round the season looked at and round today are in it. */
static void
find_now (FrSeason *self)
{
  const FrHousehold *household = fr_book_get_household (self->book);
  const char *name = household != NULL ? household->zone : NULL;
  int season = (int)fr_book_get_season (self->book), year;

  year = fr_date_from_days (self->clock (self->zone) / 86400).year;
  if (self->zone == NULL || g_strcmp0 (name, self->zone_name) != 0 || season + year != self->zone_year)
    {
      forget (self); /* which looks at it */
      g_clear_pointer (&self->zone, fr_zone_table_free);
      g_free (self->zone_name);
      self->zone_name = g_strdup (name);
      self->zone_year = season + year;
      if (name != NULL)
        self->zone = fr_zone_table_load (name, MIN (season, year) - 2, MAX (season, year) + 2, NULL);
      if (self->zone == NULL)
        self->zone = fr_zone_table_new_utc ();
    }
  self->now_utc = self->clock (self->zone);
  self->today = fr_zone_local (self->zone, self->now_utc).date;
  self->say = (FrSay){ *fr_book_get_units (self->book), household != NULL ? household->currency : NULL,
                       self->zone, fr_say_locale_is_twelve_hour () };
}

/* The book follows today, unless another season was chosen; what it cannot read it keeps. */
static void
follow (FrSeason *self)
{
  guint season = fr_season_of (self->today);

  if (!self->chosen && fr_book_get_season (self->book) != season)
    fr_book_set_season (self->book, season, self->zone, NULL);
}

static FrDate
into_season (FrSeason *self, FrDate day)
{
  guint season = fr_book_get_season (self->book);
  FrDate first = fr_season_first_day (season), last = fr_season_last_day (season);

  return fr_date_compare (day, first) < 0 ? first : fr_date_compare (day, last) > 0 ? last : day;
}

static void
book_changed_cb (FrSeason *self)
{
  forget_changed (self);
  find_now (self);
  self->day = into_season (self, self->day);
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
}

FrSeason *
fr_season_new (FrBook *book, FrSeasonClock clock)
{
  FrSeason *self = g_object_new (FR_TYPE_SEASON, NULL);

  self->book = g_object_ref (book);
  self->clock = clock;
  find_now (self);
  follow (self);
  self->day = self->today;
  self->handler = g_signal_connect_swapped (book, "changed", G_CALLBACK (book_changed_cb), self);
  return self;
}

FrBook *
fr_season_get_book (FrSeason *self)
{
  return self->book;
}

void
fr_season_refresh (FrSeason *self)
{
  gint64 before_utc = self->now_utc;
  FrDate before = self->today;

  if (self->clock (self->zone) / 60 == before_utc / 60)
    return;
  find_now (self);
  if (fr_date_compare (before, self->today) != 0 && fr_date_compare (self->day, before) == 0)
    self->day = self->today; /* who looked at today goes on doing so */
  follow (self);
  if (self->now_utc / 3600 == before_utc / 3600)
    return;
  forget (self);
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
  if (fr_date_compare (before, self->today) != 0)
    g_signal_emit (self, signals[SIGNAL_DAY_CHANGED], 0);
}

gint64
fr_season_get_now (FrSeason *self)
{
  return self->now_utc;
}

FrDate
fr_season_get_today (FrSeason *self)
{
  return self->today;
}

const FrZoneTable *
fr_season_get_zone (FrSeason *self)
{
  return self->zone;
}

const FrSay *
fr_season_get_say (FrSeason *self)
{
  return &self->say;
}

guint
fr_season_get_season (FrSeason *self)
{
  return fr_book_get_season (self->book);
}

gboolean
fr_season_is_present (FrSeason *self)
{
  return fr_book_get_season (self->book) == fr_season_of (self->today);
}

gboolean
fr_season_set_season (FrSeason *self, guint season, GError **error)
{
  gboolean before = self->chosen;

  self->chosen = season != fr_season_of (self->today);
  if (season == fr_book_get_season (self->book))
    return TRUE;
  if (!fr_book_set_season (self->book, season, self->zone, error))
    {
      self->chosen = before;
      return FALSE;
    }
  self->day = self->chosen ? fr_season_same_date (self->day, season) : self->today;
  g_signal_emit (self, signals[SIGNAL_DAY_CHANGED], 0);
  return TRUE;
}

/* Only today's season has days to come. */
static FrSeasonView *
view_new (FrSeason *self, const FrSeasonBook *records, guint season)
{
  FrSeasonView *view = fr_season_view_new (records, season, self->now_utc);
  const FrForecast *forecast = self->forecaster != NULL && season == fr_season_of (self->today)
                                   ? fr_forecaster_get (self->forecaster)
                                   : NULL;

  if (forecast != NULL)
    fr_season_view_expect (view, forecast, fr_forecaster_get_asked (self->forecaster)->weather);
  return view;
}

static void
answered_cb (FrSeason *self)
{
  if (fr_season_is_present (self))
    made_clear (&self->shown);
  made_clear (&self->present);
  g_clear_pointer (&self->chores, g_array_unref);
  g_clear_pointer (&self->ledger, fr_ledger_free);
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
}

void
fr_season_set_forecaster (FrSeason *self, FrForecaster *forecaster)
{
  g_return_if_fail (self->forecaster == NULL);

  self->forecaster = g_object_ref (forecaster);
  g_signal_connect_swapped (forecaster, "changed", G_CALLBACK (answered_cb), self);
}

const FrForecast *
fr_season_get_forecast (FrSeason *self)
{
  return self->forecaster != NULL ? fr_forecaster_get (self->forecaster) : NULL;
}

const FrSeasonView *
fr_season_get_view (FrSeason *self)
{
  if (self->shown.view == NULL)
    {
      fr_book_season_book (self->book, &self->shown.records, self->zone);
      self->shown.view = view_new (self, &self->shown.records, fr_book_get_season (self->book));
    }
  return self->shown.view;
}

/* NULL when the season cannot be read. */
static const FrSeasonView *
other_view (FrSeason *self, Made *made, guint season)
{
  if (!made->tried && fr_book_other_season_book (self->book, &made->records, season, self->zone, NULL))
    made->view = view_new (self, &made->records, season);
  made->tried = TRUE;
  return made->view;
}

const FrSeasonView *
fr_season_get_present (FrSeason *self)
{
  const FrSeasonView *view
      = fr_season_is_present (self) ? NULL : other_view (self, &self->present, fr_season_of (self->today));

  return view != NULL ? view : fr_season_get_view (self);
}

const FrLedger *
fr_season_get_ledger (FrSeason *self)
{
  const FrSeasonView *present = fr_season_get_present (self);
  const Made *made = present == self->shown.view ? &self->shown : &self->present;

  if (self->ledger == NULL)
    self->ledger = fr_ledger_new (&made->records, present->season, self->now_utc);
  return self->ledger;
}

const FrSeasonView *
fr_season_get_past_view (FrSeason *self)
{
  const FrSeasonView *view = other_view (self, &self->past, fr_book_get_season (self->book) - 1);

  return view != NULL && view->tally.n_gathering_days + view->tally.n_nights > 0 ? view : NULL;
}

const FrSeasonTally *
fr_season_get_past (FrSeason *self)
{
  const FrSeasonView *past = fr_season_get_past_view (self);

  if (past == NULL)
    return NULL;
  self->past_tally = fr_season_view_tally (
      past, fr_season_same_date (fr_season_get_view (self)->tally.until, past->season));
  return &self->past_tally;
}

const GArray *
fr_season_get_chores (FrSeason *self)
{
  fr_season_get_view (self);
  if (self->chores == NULL)
    self->chores = fr_chores (&self->shown.records, fr_book_get_season (self->book), self->now_utc);
  return self->chores;
}

/* The view is not made for it: a log asks once a row. */
GArray *
fr_season_ask (FrSeason *self, const FrBush *bush, const FrRecord *record)
{
  g_autoptr (FrAsker) asker = NULL;
  FrSeasonBook records;
  GArray *questions;

  fr_book_season_book (self->book, &records, self->zone);
  asker = fr_asker_new (&records, bush, self->now_utc);
  questions = fr_asker_ask (asker, record);
  g_clear_pointer (&asker, fr_asker_free);
  fr_book_season_book_clear (&records);
  return questions;
}

FrDate
fr_season_get_day (FrSeason *self)
{
  return self->day;
}

void
fr_season_set_day (FrSeason *self, FrDate day)
{
  FrDate inside = into_season (self, day);

  if (fr_date_compare (inside, self->day) == 0)
    return;
  self->day = inside;
  g_signal_emit (self, signals[SIGNAL_DAY_CHANGED], 0);
}
