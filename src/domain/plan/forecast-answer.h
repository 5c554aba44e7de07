/* What the forecast tells a household to do: which days to empty the buckets, what to expect by when, what
 * comes after. Codes and numbers; sentences are in words.
 *
 * A run day is one on which a run is at least as likely as not. The days to empty are the next run days on
 * end; what they bring is told for the evening of the last. */
#pragma once

#include "domain/plan/forecast.h"

G_BEGIN_DECLS

#define FR_RUN_DAY_PROBABILITY 0.5
/* From when the season counts as over, and from when it is said that it may be; common sense, no source. */
#define FR_OVER_PROBABILITY 0.8
#define FR_OVER_MAYBE_PROBABILITY 0.3
/* The same of buds that may be tasted. */
#define FR_BUDS_PROBABILITY 0.5
#define FR_BUDS_MAYBE_PROBABILITY 0.2
/* Fewer known days ahead are said to be few. */
#define FR_FEW_DAYS 4
/* A night as cold as that within a freeze makes it a hard one; common sense, no source. */
#define FR_HARD_FREEZE_C (-8.0)

typedef enum
{
  FR_ANSWER_NO_WEATHER, /* nothing is known of any day ahead; without a hole: the forecast has no day at all */
  FR_ANSWER_NOT_TAPPED, /* no hole is drilled: when to tap is asked of tap-date.h */
  FR_ANSWER_EMPTY,      /* on the days from @first to @last */
  FR_ANSWER_HANGING,    /* no run day ahead, but what ran before as_of should still hang in the buckets */
  FR_ANSWER_WAIT,       /* no run day within the weather; @spell says why */
  FR_ANSWER_OVER,       /* the season is over */
  FR_N_ANSWERS
} FrAnswerCode;

/* What the days after the days to empty are like, or, without any, the days ahead. */
typedef enum
{
  FR_SPELL_UNKNOWN,     /* no day of them is known */
  FR_SPELL_HARD_FREEZE, /* frost nearly all day, with a night of FR_HARD_FREEZE_C or less */
  FR_SPELL_FREEZE,      /* frost nearly all day */
  FR_SPELL_WARM,        /* no frost at night */
  FR_SPELL_SLACK,       /* neither: little runs */
  FR_N_SPELLS
} FrSpell;

/* How what is expected fits what is free. */
typedef enum
{
  FR_ROOM_UNKNOWN,
  FR_ROOM_ENOUGH, /* nine times in ten */
  FR_ROOM_TIGHT,  /* for the middle, but not nine times in ten */
  FR_ROOM_SHORT,  /* not for the middle */
  FR_N_ROOMS
} FrRoom;

/**
 * FrForecastAnswer:
 * @today: the question's
 * @gather_hour: −1 not told
 * @first, @last: run days on end, year 0 without
 * @n_run_days: how many
 * @expected: of all taps (of one when @is_per_tap) by @last, or without by @known_until: with what hangs
 * @hanging_l: middle of what ran since the last emptying up to as_of; NAN when nothing was ever emptied this
 * season
 * @free_l: as asked, @is_after_boil too
 * @spell: from the day after @last on, or from the first day ahead, until the next run day
 * @next_run: the first run day after that, year 0 for none; @is_next_by_past: told by past seasons
 * @known_until: last day ahead that the weather knows, year 0 for none
 * @n_known: days ahead whose weather is known; @n_gaps: days ahead before @known_until whose weather is not
 * @over_probability, @off_flavour_probability: of the forecast
 */
typedef struct
{
  FrAnswerCode code;
  FrDate today;
  gint gather_hour;
  FrDate first;
  FrDate last;
  guint n_run_days;
  FrLitres expected;
  gboolean is_per_tap;
  double hanging_l;
  double free_l;
  gboolean is_after_boil;
  FrRoom room;
  FrSpell spell;
  FrDate next_run;
  gboolean is_next_by_past;
  FrDate known_until;
  guint n_known;
  guint n_gaps;
  double over_probability;
  double off_flavour_probability;
} FrForecastAnswer;

/**
 * FrAnswerQuestion:
 * @forecast: of the taps as they are set
 * @is_tapped: a hole is drilled
 * @today: as said of days: as_of or the day after
 * @gather_hour: as in FrForecastQuestion
 * @free_l: room for sap, NAN unknown; @is_after_boil: once tonight's boil has made room
 */
typedef struct
{
  const FrForecast *forecast;
  gboolean is_tapped;
  FrDate today;
  gint gather_hour;
  double free_l;
  gboolean is_after_boil;
} FrAnswerQuestion;

void
fr_forecast_answer (const FrAnswerQuestion *question, FrForecastAnswer *answer_out);

/* What the weather of one day is to the run. */
FrSpell
fr_forecast_day_spell (const FrForecastDay *day);

G_END_DECLS
