/* The measured seasons that come with the program: data/sap/SOURCES.md says whose they are. */
#pragma once

#include "domain/maths/sap-fit.h"
#include "domain/maths/weather.h"
#include "domain/plan/forecast-score.h"
#include "formats/gathered-csv.h"

G_BEGIN_DECLS

/**
 * FrMeasuredSeason:
 * @name: of site and year, not for translation
 * @tapped: when the holes were drilled
 * @gathered: (element-type FrSapGathered)
 */
typedef struct
{
  const char *name;
  FrDate tapped;
  FrWeather *weather;
  GArray *gathered;
} FrMeasuredSeason;

/* How many there are. */
guint
fr_n_measured_seasons (void);
/* Owned: clear it. */
void
fr_measured_season (guint at, FrMeasuredSeason *season_out);
void
fr_measured_season_clear (FrMeasuredSeason *season);

/* Members fitted on all of them but one: @without is its number, −1 for all. The fit is as that of the members that ship. */
FrSapFit *
fr_measured_fit (gint without);
/* What scores hold the forecast against, learned from the same seasons. */
FrScoreRivals *
fr_measured_rivals (gint without);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (FrMeasuredSeason, fr_measured_season_clear)

G_END_DECLS
