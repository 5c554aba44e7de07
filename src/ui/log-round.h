/* What the rows of a round have in common, beside the log: when, with what it was measured and read, how the sap is, into which container,
 * who. Rows that are not written down yet follow it. */
#pragma once

#include "models/gather-log.h"

#include <adwaita.h>

G_BEGIN_DECLS

#define FR_TYPE_LOG_ROUND (fr_log_round_get_type ())
G_DECLARE_FINAL_TYPE (FrLogRound, fr_log_round, FR, LOG_ROUND, AdwBin)

GtkWidget *fr_log_round_new (FrGatherLog *log);

G_END_DECLS
