/* The evening's state: what the book says, overlaid with what a person typed on the page. Changing the book
 * keeps the overlay. */
#include "models/tonight.h"

#include "domain/plan/bush.h"

#include <math.h>
#include <string.h>

#include <glib/gi18n-lib.h>

#include "formats/zone-source.h"
#include "models/forecast.h"
#include "words/forecast-day-words.h"

enum
{
  TURNED_ON = 1,
  TURNED_OFF = 2
};

typedef struct
{
  double value;
  char *typed; /* NULL: the book's own */
} Typed;

struct _FrTonight
{
  GObject parent_instance;
  FrBook *book;
  FrTonightClock clock;
  FrForecaster *forecaster; /* or NULL */
  gint64 now_utc;

  FrZoneTable *zone;
  char *zone_name;
  gboolean ready;
  FrSay say;
  FrTariff *tariff;
  FrTariffProblem tariff_problem;
  gboolean anew; /* plan what is left, though a night is kept */

  Typed typed[FR_N_TONIGHT_AMOUNTS];
  gint time_minutes[FR_N_TONIGHT_TIMES]; /* -1: as offered */
  GHashTable *turned; /* id of a cooker a person turned on or off, as pointers: 1 on, 2 off */

  FrPlanInput input;
  FrPlan *plan;
  FrPlanWords *words;
};

G_DEFINE_FINAL_TYPE (FrTonight, fr_tonight, G_TYPE_OBJECT)

static guint changed_signal;

static const FrQuantityKind amount_kinds[FR_N_TONIGHT_AMOUNTS]
    = { FR_QUANTITY_VOLUME,      FR_QUANTITY_SWEETNESS,   FR_QUANTITY_TEMPERATURE,
        FR_QUANTITY_SWEETNESS,   FR_QUANTITY_TEMPERATURE, FR_QUANTITY_TEMPERATURE,
        FR_QUANTITY_TEMPERATURE, FR_QUANTITY_VOLUME,      FR_QUANTITY_SWEETNESS };

FrQuantityKind
fr_tonight_amount_kind (FrTonightAmount amount)
{
  g_return_val_if_fail ((guint)amount < FR_N_TONIGHT_AMOUNTS, FR_QUANTITY_PLAIN);
  return amount_kinds[amount];
}

static GPtrArray *
records_of (FrBook *self, FrKindId kind)
{
  FrRecordList *list = fr_book_get_list (self, kind);
  GPtrArray *records = g_ptr_array_new ();

  for (guint i = 0; i < fr_record_list_get_size (list); i++)
    g_ptr_array_add (records, (gpointer)fr_record_list_get (list, i));
  return records;
}

/* The book with the season that the clock is in, which is not always the one that its lists hold. */
static void
book_init (FrTonight *self, FrSeasonBook *book)
{
  g_autoptr (GError) error = NULL;
  guint season = self->zone != NULL ? fr_season_of (fr_zone_local (self->zone, self->now_utc).date) : 0;

  if (season != 0 && season != fr_book_get_season (self->book))
    {
      if (fr_book_other_season_book (self->book, book, season, self->zone, &error))
        return;
      g_warning ("%s", error->message);
    }
  fr_book_season_book (self->book, book, self->zone);
}

/* Where an amount stands in the input; NULL for the rest in the pan, which is a kit's. */
static double *
amount_of (FrTonight *self, FrTonightAmount amount)
{
  switch (amount)
    {
    case FR_TONIGHT_SAP_L:
      return &self->input.sap_l;
    case FR_TONIGHT_SAP_BRIX:
      return &self->input.sap_brix;
    case FR_TONIGHT_SAP_C:
      return &self->input.sap_c;
    case FR_TONIGHT_MAX_BRIX:
      return &self->input.max_brix;
    case FR_TONIGHT_AIR_C:
      return &self->input.air_c;
    case FR_TONIGHT_LOW_C:
      return &self->input.air_low_c;
    case FR_TONIGHT_WATER_BOILS_C:
      return &self->input.water_boils_c;
    default:
      return NULL;
    }
}

static gboolean
load_zone (FrTonight *self, const FrHousehold *household)
{
  int year;

  if (household == NULL || household->zone == NULL)
    {
      g_clear_pointer (&self->zone, fr_zone_table_free);
      return FALSE;
    }
  if (self->zone != NULL && g_strcmp0 (self->zone_name, household->zone) == 0)
    return TRUE;
  g_clear_pointer (&self->zone, fr_zone_table_free);
  g_free (self->zone_name);
  self->zone_name = g_strdup (household->zone);
  year = fr_date_from_days (self->now_utc / 86400).year;
  /* An unknown name is shown by the household's own editor; here it only means that nothing can be planned.
   */
  self->zone = fr_zone_table_load (household->zone, year - 2, year + 2, NULL);
  return self->zone != NULL;
}

/* Which kits are on, and last night's rest in the first one's pan. */
static void
choose_kits (FrTonight *self)
{
  FrPlanKit *first = NULL;

  for (guint i = 0; i < self->input.n_kits; i++)
    {
      FrPlanKit *kit = &self->input.kits[i];
      gsize turned
          = GPOINTER_TO_SIZE (g_hash_table_lookup (self->turned, GSIZE_TO_POINTER ((gsize)kit->cooker_id)));

      if (turned != 0)
        kit->off = turned == TURNED_OFF;
      if (first == NULL && !kit->off)
        first = kit;
    }
  if (first != NULL && self->typed[FR_TONIGHT_REST_L].value > 0)
    {
      first->rest_l = self->typed[FR_TONIGHT_REST_L].value;
      first->rest_brix = self->typed[FR_TONIGHT_REST_BRIX].value;
      first->rest_c = isnan (self->input.air_c) ? 10 : MAX (0, self->input.air_c);
    }
}

/* The first time at or after @after_utc at which the clock shows @minutes. */
static gint64
next_clock (FrTonight *self, gint minutes, gint64 after_utc)
{
  FrDate date = fr_zone_local (self->zone, after_utc).date;

  for (gint day = 0; day < 3; day++)
    {
      gint64 first, second;

      if (fr_zone_instant (self->zone, fr_date_add_days (date, day), minutes * 60, &first, &second)
          == FR_ZONE_NEVER)
        continue;
      if (first >= after_utc)
        return first;
    }
  return after_utc;
}

/* What a person typed, over what the book says. */
static void
overlay (FrTonight *self)
{
  for (guint i = 0; i < FR_N_TONIGHT_AMOUNTS; i++)
    if (self->typed[i].typed != NULL && amount_of (self, i) != NULL)
      *amount_of (self, i) = self->typed[i].value;
  /* Another temperature makes another time of it. */
  if (self->typed[FR_TONIGHT_SAP_C].typed != NULL)
    self->input.spoils_utc = G_MININT64;
  if (self->time_minutes[FR_TONIGHT_START] >= 0)
    /* A start that has just passed is still tonight's. */
    self->input.start_utc = next_clock (self, self->time_minutes[FR_TONIGHT_START], self->now_utc - 6 * 3600);
  if (self->time_minutes[FR_TONIGHT_OFF_BY] >= 0)
    self->input.off_by_utc
        = next_clock (self, self->time_minutes[FR_TONIGHT_OFF_BY], self->input.start_utc + 60);
  choose_kits (self);
}

/* A kept night stands until it is over, unless a person plans anew. */
static gboolean
take_kept (FrTonight *self, GPtrArray *nights)
{
  const FrNight *pending = fr_evening_pending (nights, self->now_utc);
  FrPlanInput kept = self->input;

  if (pending == NULL)
    self->anew = FALSE;
  if (pending == NULL || self->anew || !fr_evening_as_kept (&kept, nights, pending))
    return FALSE;
  self->input = kept;
  return TRUE;
}

static void
say_ahead (FrTonight *self)
{
  const FrForecast *forecast;
  g_autofree char *ahead = NULL;

  if (self->forecaster == NULL)
    return;
  forecast = fr_forecaster_get (self->forecaster);
  if (forecast != NULL)
    ahead = fr_forecast_next_sentence (forecast, &self->say);
  if (ahead != NULL)
    fr_plan_words_add_ahead (self->words, self->plan, ahead);
}

static void
compute (FrTonight *self)
{
  FrSeasonBook book;
  FrTariff *tariff = NULL;

  g_clear_pointer (&self->plan, fr_plan_free);
  g_clear_pointer (&self->words, fr_plan_words_free);
  self->ready = FALSE;
  self->now_utc = self->clock (NULL);
  if (load_zone (self, fr_book_get_household (self->book)))
    self->now_utc = self->clock (self->zone);
  book_init (self, &book);
  if (self->zone != NULL && book.household != NULL
      && fr_evening_input (&book, self->zone, self->now_utc, &self->input, &tariff, &self->tariff_problem))
    {
      g_clear_pointer (&self->tariff, fr_tariff_free);
      self->tariff = tariff;
      self->ready = TRUE;
      if (!take_kept (self, book.nights))
        overlay (self);
      self->say = (FrSay){ *fr_book_get_units (self->book), book.household->currency, self->zone,
                           fr_say_locale_is_twelve_hour () };
      self->plan = fr_plan_new (&self->input);
      self->words = fr_plan_words_new (self->plan, &self->input, &self->say);
      say_ahead (self);
    }
  fr_book_season_book_clear (&book);
  g_signal_emit (self, changed_signal, 0);
}

static void
answered_cb (FrTonight *self)
{
  if (self->plan != NULL)
    compute (self);
}

void
fr_tonight_set_forecaster (FrTonight *self, FrForecaster *forecaster)
{
  g_return_if_fail (self->forecaster == NULL);

  self->forecaster = g_object_ref (forecaster);
  g_signal_connect_swapped (forecaster, "changed", G_CALLBACK (answered_cb), self);
  answered_cb (self);
}

static void
fr_tonight_finalize (GObject *object)
{
  FrTonight *self = FR_TONIGHT (object);

  if (self->forecaster != NULL)
    g_signal_handlers_disconnect_by_data (self->forecaster, self);
  g_clear_object (&self->forecaster);

  for (guint i = 0; i < FR_N_TONIGHT_AMOUNTS; i++)
    g_free (self->typed[i].typed);
  g_clear_pointer (&self->plan, fr_plan_free);
  g_clear_pointer (&self->words, fr_plan_words_free);
  g_clear_pointer (&self->tariff, fr_tariff_free);
  g_clear_pointer (&self->zone, fr_zone_table_free);
  g_free (self->zone_name);
  g_hash_table_unref (self->turned);
  g_object_unref (self->book);
  G_OBJECT_CLASS (fr_tonight_parent_class)->finalize (object);
}

static void
fr_tonight_class_init (FrTonightClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = fr_tonight_finalize;
  changed_signal
      = g_signal_new ("changed", FR_TYPE_TONIGHT, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
fr_tonight_init (FrTonight *self)
{
  self->turned = g_hash_table_new (NULL, NULL);
  for (guint i = 0; i < FR_N_TONIGHT_AMOUNTS; i++)
    self->typed[i].value = NAN;
  for (guint i = 0; i < FR_N_TONIGHT_TIMES; i++)
    self->time_minutes[i] = -1;
}

FrTonight *
fr_tonight_new (FrBook *book, FrTonightClock clock)
{
  FrTonight *self = g_object_new (FR_TYPE_TONIGHT, NULL);

  self->book = g_object_ref (book);
  self->clock = clock;
  g_signal_connect_object (book, "changed", G_CALLBACK (compute), self, G_CONNECT_SWAPPED);
  compute (self);
  return self;
}

void
fr_tonight_refresh (FrTonight *self)
{
  if (self->clock (self->zone) / 60 != self->now_utc / 60)
    compute (self);
}

gboolean
fr_tonight_is_ready (FrTonight *self)
{
  return self->ready;
}

const FrPlanInput *
fr_tonight_get_input (FrTonight *self)
{
  return self->ready ? &self->input : NULL;
}

const FrPlan *
fr_tonight_get_plan (FrTonight *self)
{
  return self->plan;
}

const FrPlanWords *
fr_tonight_get_words (FrTonight *self)
{
  return self->words;
}

const FrSay *
fr_tonight_get_say (FrTonight *self)
{
  return self->ready ? &self->say : NULL;
}

gint64
fr_tonight_get_now (FrTonight *self)
{
  return self->now_utc;
}

const FrTariffProblem *
fr_tonight_get_tariff_problem (FrTonight *self)
{
  return &self->tariff_problem;
}

double
fr_tonight_get_amount (FrTonight *self, FrTonightAmount amount, const char **typed_out, gboolean *changed_out)
{
  const double *value = amount_of (self, amount);

  *typed_out = self->typed[amount].typed;
  *changed_out = self->typed[amount].typed != NULL;
  if (value == NULL || !self->ready)
    return self->typed[amount].value;
  return *value;
}

gboolean
fr_tonight_type_amount (FrTonight *self, FrTonightAmount amount, const char *text,
                        FrQuantityProblem *problem_out, gsize *at_out)
{
  double value;

  if (!fr_quantity_parse (text, amount_kinds[amount], fr_book_get_units (self->book), &value, problem_out,
                          at_out)
      && *problem_out != FR_QUANTITY_EMPTY)
    return FALSE;
  g_free (self->typed[amount].typed);
  self->typed[amount].typed = isnan (value) ? NULL : g_strdup (text);
  self->typed[amount].value = value;
  compute (self);
  return TRUE;
}

gint64
fr_tonight_get_time (FrTonight *self, FrTonightTime time, gboolean *changed_out)
{
  *changed_out = self->time_minutes[time] >= 0;
  if (!self->ready)
    return G_MININT64;
  return time == FR_TONIGHT_START ? self->input.start_utc : self->input.off_by_utc;
}

/* Up to two digits at *at; −1 when there are none. */
static gint
read_two (const char **at)
{
  gint value = -1;

  for (guint i = 0; i < 2 && g_ascii_isdigit (**at); i++, (*at)++)
    value = MAX (value, 0) * 10 + g_ascii_digit_value (**at);
  return value;
}

/* "19:30", "19.30", "19h30", "1930", "19", "7:30 pm", "7 p.m." */
static gboolean
read_clock (const char *text, gint *minutes_out)
{
  const char *at = text;
  gint hour = read_two (&at), minute = 0;

  if (hour < 0)
    return FALSE;
  if (*at == ':' || *at == '.' || *at == 'h')
    at++;
  if (g_ascii_isdigit (*at))
    minute = read_two (&at);
  at += strspn (at, " ");
  if (*at != '\0')
    {
      gboolean pm = g_ascii_strcasecmp (at, "pm") == 0 || g_ascii_strcasecmp (at, "p.m.") == 0;
      gboolean am = g_ascii_strcasecmp (at, "am") == 0 || g_ascii_strcasecmp (at, "a.m.") == 0;

      if (!(pm || am) || hour < 1 || hour > 12)
        return FALSE;
      hour = hour % 12 + (pm ? 12 : 0);
    }
  if (hour > 23 || minute > 59)
    return FALSE;
  *minutes_out = hour * 60 + minute;
  return TRUE;
}

gboolean
fr_tonight_type_time (FrTonight *self, FrTonightTime time, const char *text, char **sentence_out)
{
  g_autofree char *trimmed = g_strstrip (g_strdup (text));
  gint minutes = -1;

  *sentence_out = NULL;
  if (trimmed[0] != '\0' && !read_clock (trimmed, &minutes))
    {
      *sentence_out = g_strdup (_ ("This is no time of day. Write it as 19:00 or 7 pm."));
      return FALSE;
    }
  if (minutes >= 0 && self->ready)
    {
      /* The night the time falls in, to see whether the clock jumps over it. */
      gint64 around = time == FR_TONIGHT_START ? self->now_utc : self->input.start_utc;

      for (gint day = 0; day < 2; day++)
        {
          FrDate date = fr_date_add_days (fr_zone_local (self->zone, around).date, day);
          gint64 first, second;

          if (fr_zone_instant (self->zone, date, minutes * 60, &first, &second) == FR_ZONE_NEVER
              && second >= around && first - around < 86400)
            {
              g_autofree char *before = fr_say_clock (&self->say, first - 59);
              g_autofree char *after = fr_say_clock (&self->say, second);

              *sentence_out = g_strdup_printf (
                  _ ("The clock jumps from %s to %s that night. Take one of the two."), before, after);
              return FALSE;
            }
        }
    }
  self->time_minutes[time] = minutes;
  compute (self);
  return TRUE;
}

guint
fr_tonight_get_n_cookers (FrTonight *self)
{
  return self->ready ? self->input.n_kits : 0;
}

const FrPlanKit *
fr_tonight_get_cooker (FrTonight *self, guint nth)
{
  g_return_val_if_fail (nth < fr_tonight_get_n_cookers (self), NULL);
  return &self->input.kits[nth];
}

void
fr_tonight_set_cooker_on (FrTonight *self, guint nth, gboolean on)
{
  g_return_if_fail (nth < fr_tonight_get_n_cookers (self));
  if (on == !self->input.kits[nth].off)
    return;
  g_hash_table_insert (self->turned, GSIZE_TO_POINTER ((gsize)self->input.kits[nth].cooker_id),
                       GSIZE_TO_POINTER (on ? TURNED_ON : TURNED_OFF));
  compute (self);
}

FrChange *
fr_tonight_keep (FrTonight *self, GError **error)
{
  g_autoptr (FrRecord) next = NULL, pour = NULL;
  FrSeasonBook book;
  FrChange *change;

  if (self->plan == NULL || self->plan->status != FR_PLAN_OK || self->input.kept)
    return NULL;
  next = fr_book_new_record (self->book, FR_KIND_NIGHT, 0, error);
  pour = next != NULL ? fr_book_new_record (self->book, FR_KIND_POUR, 0, error) : NULL;
  if (pour == NULL)
    return NULL;
  book_init (self, &book);
  change = fr_evening_keep (self->plan, &self->input, &book, next->id, pour->id, fr_book_new_uid);
  fr_book_season_book_clear (&book);
  return change;
}

const FrNight *
fr_tonight_pending_night (FrTonight *self)
{
  g_autoptr (GPtrArray) nights = records_of (self->book, FR_KIND_NIGHT);

  return fr_evening_pending (nights, self->now_utc);
}

gboolean
fr_tonight_is_kept (FrTonight *self)
{
  return self->ready && self->input.kept;
}

void
fr_tonight_set_anew (FrTonight *self, gboolean anew)
{
  if (anew == self->anew)
    return;
  self->anew = anew;
  compute (self);
}

const FrNight *
fr_tonight_open_night (FrTonight *self)
{
  FrRecordList *list = fr_book_get_list (self->book, FR_KIND_NIGHT);
  const FrNight *latest = NULL;

  for (guint i = 0; i < fr_record_list_get_size (list); i++)
    {
      const FrNight *night = (const FrNight *)fr_record_list_get (list, i);

      if (night->record.archived || night->plan_end_utc == G_MININT64 || night->plan_end_utc > self->now_utc)
        continue;
      if (!isnan (night->left_l.value) || !isnan (night->left_brix.value) || !isnan (night->left_boil_c.value)
          || !isnan (night->meter_kwh.value) || night->end_utc != G_MININT64)
        continue;
      if (latest == NULL || night->plan_end_utc > latest->plan_end_utc)
        latest = night;
    }
  return latest;
}

gboolean
fr_book_kit (FrBook *book, const FrCooker *cooker, FrPlanKit *kit_out)
{
  FrSeasonBook records;
  gboolean found;

  fr_book_season_book (book, &records, NULL);
  found = fr_evening_kit (&records, cooker, kit_out);
  fr_book_season_book_clear (&records);
  return found;
}
