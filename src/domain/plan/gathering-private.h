/* The sap of a season followed from session to session: how much of it has flowed, and what each tree or tap gives of it. Sharing and
 * asking both look at this. */
#pragma once

#include "domain/plan/bush-private.h"
#include "domain/plan/gathering-share.h"

G_BEGIN_DECLS

#define FR_SAP_RUN_NONE G_MAXUINT

typedef enum
{
  FR_SAP_RUN_BUSH,
  FR_SAP_RUN_GROUP,
  FR_SAP_RUN_TREE,
  FR_SAP_RUN_TAP
} FrSapRunScope;

/* A gathering, worked out. @entry and @tap are places in the bush's arrays. */
typedef struct
{
  gint64 id;
  gint64 utc_s;
  FrSapRunScope scope;
  guint entry;
  guint tap;
  const GArray *group; /* guint, entries; NULL for a name that no tree bears */
  double volume_l;
  double brix;
} FrSapRunLine;

/* A tree or a tap: what it gives against its expectation, as sums of logarithms that lose half their weight in a week. */
typedef struct
{
  guint pass; /* through a season, that the rest is of */
  gint64 at_utc;
  double log_sum_ratio;
  double weight_ratio;
  double brix_log_sum_ratio;
  double brix_weight_ratio;
  double emptied_ratio; /* how much of the season had flowed when it was emptied */
  guint session;        /* the last one that it was measured in, and where it stands among those */
  guint taken;
  guint own_session;    /* of a tree: the last one with a line of its own or of its taps, */
  guint group_session;  /* and with one of its group */
} FrSapRunUnit;

/* A tree or tap as one session found it. */
typedef struct
{
  FrSapRunUnit *unit;
  guint entry;
  guint tap;
  guint n_taps;
  double taken_l;
  double sweet_l;        /* the part whose sweetness was read */
  double sweet_brix_l;   /* sum of its litres times °Bx */
  double expected_l;     /* in a whole season, by bush or kind */
  double pace_l;         /* the same by what it gave lately */
  double pace_sd_ratio;  /* how unsure that is, as a logarithm */
  double backlog_ratio;  /* of the season, flowed before the session before it and not taken */
  double usual_brix;
  double usual_brix_sd_ratio;
} FrSapRunTaken;

typedef struct
{
  guint day_number;
  double flowed_ratio;
} FrSapRunStep;

typedef struct
{
  const FrBush *bush;
  gboolean by_kind; /* expect by species, size and crown alone */
  FrSapRunUnit *trees;
  FrSapRunUnit *taps;
  GHashTable *tap_places; /* id → place + 1 */
  GHashTable *containers; /* id → FrContainer */
  GHashTable *stands;     /* name → GArray of entries */
  FrZoneTable *utc;       /* when the book has no zone */
  const FrZoneTable *zone;
  guint pass; /* counts the seasons begun */
  guint season;
  gint64 from_utc;
  gint64 to_utc;
  GArray *tapped; /* entries with a hole set this season; NULL until asked for */
  GArray *steps;  /* FrSapRunStep */
  double flowed_ratio;
  double spread_ratio; /* of litres about their share, sd of a logarithm */
  guint spread_lines;
  double brix_spread_ratio;
  guint brix_spread_lines;
  double brix_level_ratio; /* the last session's, logarithm */
  double level_log_ratio;  /* of sessions: mean logarithm, and how far they are apart */
  double level_apart_ratio;
  guint n_levels;
  /* the session at hand */
  guint session;
  gint64 session_utc;
  char day[11];
  guint day_number;
  GArray *lines; /* FrSapRunLine */
  GArray *taken; /* FrSapRunTaken */
  double level_ratio; /* of the season that flowed up to it since the one before; NAN with nothing to tell */
} FrSapRun;

void fr_sap_run_init (FrSapRun *run, const FrBush *bush, gboolean by_kind);
void fr_sap_run_clear (FrSapRun *run);
/* FALSE when its litres or its tree are not known. */
gboolean fr_sap_run_read (FrSapRun *run, const FrGathering *gathering, FrSapRunLine *line_out);
/* Whether a line at that time begins another season, or another session. */
gboolean fr_sap_run_is_new_season (const FrSapRun *run, gint64 utc_s);
gboolean fr_sap_run_is_new_session (const FrSapRun *run, gint64 utc_s);
/* Forgets the season before. */
void fr_sap_run_begin_season (FrSapRun *run, gint64 utc_s);
void fr_sap_run_begin_session (FrSapRun *run, gint64 utc_s);
/* One more line of the session. */
void fr_sap_run_add (FrSapRun *run, const FrSapRunLine *line);
/* Fills taken and level_ratio from the lines. */
void fr_sap_run_weigh (FrSapRun *run);
/* Learns from the session and leaves it behind. */
void fr_sap_run_end_session (FrSapRun *run);

/* The taps of a tree set on the session's day; where they begin in the bush's taps, and how many of them. The set ones need not stand
 * together: @is_set says. */
guint fr_sap_run_n_taps (const FrSapRun *run, guint entry);
gboolean fr_sap_run_is_set (const FrSapRun *run, const FrTap *tap);
/* Entries a total is of; elements guint. Free with g_array_unref. */
GArray *fr_sap_run_trees_of (FrSapRun *run, const FrSapRunLine *line);
/* The tree, or the tap, as it stands at this round: what it learned has aged up to it. */
FrSapRunUnit *fr_sap_run_unit (FrSapRun *run, guint entry, guint tap);
/* Its place among the session's, with the line's tree or tap. */
FrSapRunTaken *fr_sap_run_taken (FrSapRun *run, const FrSapRunLine *line);
double fr_sap_run_expected_brix (const FrSapRun *run, guint entry);
/* What a tree gives when so much of a season flows, in litres: @pace_l × what flowed since the last session + @backlog_l. */
void fr_sap_run_pace (FrSapRun *run, guint entry, double *pace_l_out, double *backlog_l_out);
/* The same of one of its taps. */
void fr_sap_run_tap_pace (FrSapRun *run, guint entry, guint tap, double *pace_l_out, double *backlog_l_out);
/* How far a litre figure may lie from its share by chance, sd of a logarithm: the spread and what a reading of the level misses. */
double fr_sap_run_reading_sd_ratio (const FrSapRun *run, double expected_l);

/* The records by time, then id; borrowed. Free with g_ptr_array_unref. */
GPtrArray *fr_gatherings_by_time (GPtrArray *gatherings);
/* FrGatheredTotals of all the bush's own gatherings, every season from species, size and crown; for a bush that is only sorted yet. */
GArray *fr_gathering_totals (const FrBush *bush);

/* As the stock counts it; NAN at an unknown sweetness. */
double fr_gathering_sugar_kg (double volume_l, double brix);

G_END_DECLS
