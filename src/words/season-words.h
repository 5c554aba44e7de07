/* A season in words: what it has come to, and one day of it. Window, paper and command line all say exactly this.
 *
 * Texts named markup may hold <b>…</b> and are escaped; all others are plain. All are to be freed. */
#pragma once

#include "domain/plan/season.h"
#include "words/say.h"

G_BEGIN_DECLS

/* Litres as a household says them: tenths, and whole ones from a hundred on; °C whole. */
char *fr_season_litres (const FrSay *say, double volume_l);

/* Markup: "<b>147 L</b> gathered, <b>31 L</b> waiting, <b>2.75 L</b> of syrup." */
char *fr_season_sentence (const FrSeasonView *view, const FrSay *say);

/* The softer line below: what was boiled, at what cost, and how much it was on the same date of @past (its tally up to
 * fr_season_same_date), or NULL. NULL when there is nothing to add. */
char *fr_season_reason (const FrSeasonView *view, const FrSeasonTally *past, const FrSay *say);

/* Gathered, sugar, waiting, syrup, cost; the note says the same of @past, or nothing. Elements FrFigure, which the array frees. */
GPtrArray *fr_season_figures (const FrSeasonTally *tally, const FrSeasonTally *past, const FrSay *say);

/* "Day 20 since tapping · −4 to 5 °C"; NULL when neither is known. */
char *fr_season_day_note (const FrSeasonView *view, const FrSeasonDay *day, const FrSay *say);

/* What the day was besides, in a few words each: "clocks go forward", "holiday, low all day", "2 taps set", "buds swelling". Elements
 * char *, which the array frees. */
GPtrArray *fr_season_day_marks (const FrSeasonView *view, const FrSeasonDay *day, const FrSay *say);

/* The first two of these alone: "clocks go forward", "holiday, low all day"; NULL on other days. */
char *fr_season_clock_words (const FrSeasonDay *day);
char *fr_season_holiday_words (const FrSeasonView *view, const FrSeasonDay *day);

/* All of a day in one spoken text: "Saturday 8 March. −7 to 4 °C. 22 L gathered at 2.2 °Bx. 31 L in store. …" */
char *fr_season_day_spoken (const FrSeasonView *view, const FrSeasonDay *day, const FrSay *say);

/* "−4 to 5 °C", "at least −4 °C", "up to 5 °C"; NULL when nothing is known. */
char *fr_season_span_words (double low_c, double high_c, const FrSay *say);

G_END_DECLS
