/* Tonight as a page shows it: the book's evening with what a person has changed in it, the plan, and its words. It computes at
 * once (a plan takes well under a display frame) and writes nothing until fr_tonight_keep().
 *
 * Signals: "changed": everything below may differ. */
#pragma once

#include "domain/plan/evening.h"
#include "models/book.h"
#include "words/plan-words.h"

G_BEGIN_DECLS

typedef enum
{
  FR_TONIGHT_SAP_L,
  FR_TONIGHT_SAP_BRIX,
  FR_TONIGHT_SAP_C,
  FR_TONIGHT_MAX_BRIX,
  FR_TONIGHT_AIR_C,
  FR_TONIGHT_LOW_C,
  FR_TONIGHT_WATER_BOILS_C,
  FR_TONIGHT_REST_L,    /* already in the pan of the first cooker */
  FR_TONIGHT_REST_BRIX,
  FR_N_TONIGHT_AMOUNTS
} FrTonightAmount;

typedef enum
{
  FR_TONIGHT_START,
  FR_TONIGHT_OFF_BY,
  FR_N_TONIGHT_TIMES
} FrTonightTime;

#define FR_TYPE_TONIGHT (fr_tonight_get_type ())
G_DECLARE_FINAL_TYPE (FrTonight, fr_tonight, FR, TONIGHT, GObject)

/* What time it is; a held clock needs the household's zone, NULL while it is unknown. */
typedef gint64 (*FrTonightClock) (const FrZoneTable *zone);

/* @clock is asked anew whenever something changes. */
FrTonight *fr_tonight_new (FrBook *book, FrTonightClock clock);

/* Who knows when the next sap comes; told of while there is nothing to boil. */
typedef struct _FrForecaster FrForecaster;
void fr_tonight_set_forecaster (FrTonight *self, FrForecaster *forecaster);

/* Asks the clock again: for a window that stays open through the night. Nothing happens within the same minute. */
void fr_tonight_refresh (FrTonight *self);

/* FALSE while there is no household or its zone is unknown; then only the book can help. */
gboolean fr_tonight_is_ready (FrTonight *self);

/* All valid until the next "changed"; NULL while not ready. */
const FrPlanInput *fr_tonight_get_input (FrTonight *self);
const FrPlan *fr_tonight_get_plan (FrTonight *self);
const FrPlanWords *fr_tonight_get_words (FrTonight *self);
const FrSay *fr_tonight_get_say (FrTonight *self);
gint64 fr_tonight_get_now (FrTonight *self);
/* Why prices are unknown; code OK when they are known or there is no tariff. */
const FrTariffProblem *fr_tonight_get_tariff_problem (FrTonight *self);

/* What stands in an entry: the value (NAN unknown), what was typed or NULL, and whether a person changed it. */
FrQuantityKind fr_tonight_amount_kind (FrTonightAmount amount);
double fr_tonight_get_amount (FrTonight *self, FrTonightAmount amount, const char **typed_out, gboolean *changed_out);
/* An entry was left with @text; empty goes back to the book's own. FALSE and a problem when it cannot be read; the value then
 * stays as it was. */
gboolean fr_tonight_type_amount (FrTonight *self, FrTonightAmount amount, const char *text,
                                 FrQuantityProblem *problem_out, gsize *at_out);

gint64 fr_tonight_get_time (FrTonight *self, FrTonightTime time, gboolean *changed_out);
/* "19:00" or "7:00 pm"; empty goes back to what the prices offer. FALSE and a sentence when it is none or the clock jumps over it. */
gboolean fr_tonight_type_time (FrTonight *self, FrTonightTime time, const char *text, char **sentence_out);

/* Cookers the book holds completely enough to plan with, in order; `off` says whether each is on tonight. */
guint fr_tonight_get_n_cookers (FrTonight *self);
const FrPlanKit *fr_tonight_get_cooker (FrTonight *self, guint nth);
void fr_tonight_set_cooker_on (FrTonight *self, guint nth, gboolean on);

/* The change that keeps the plan; NULL when there is none to keep. */
FrChange *fr_tonight_keep (FrTonight *self, GError **error);

/* The latest kept night that is going on or starts within a day, or NULL. */
const FrNight *fr_tonight_pending_night (FrTonight *self);
/* While there is one the plan is that night's, as kept, until a person asks to plan the sap that is left. Its cookers are then off. */
gboolean fr_tonight_is_kept (FrTonight *self);
void fr_tonight_set_anew (FrTonight *self, gboolean anew);

/* The latest kept night that is over and has no findings yet, or NULL. */
const FrNight *fr_tonight_open_night (FrTonight *self);

/* A cooker with its pan and circuit as the book has them; FALSE while something is missing. */
gboolean fr_book_kit (FrBook *book, const FrCooker *cooker, FrPlanKit *kit_out);

G_END_DECLS
