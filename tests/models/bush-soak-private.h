/* What the files of the soak share: its state, and chance. */
#pragma once

#include "bush-model.h"
#include "bush-soak.h"
#include "models/sugarbush.h"

/* 16 January 2027, 17:00 UTC. */
#define NOW_UTC 1800118800
#define SEASON 2027
#define MOST_TREES 40

typedef struct
{
  GRand *rand;
  char *path;
  FrBook *book;
  FrSugarbush *page;
  MModel *model;
  BushSoak counts;
  gint64 trees[6]; /* the trees of this step */
  guint n_trees;
  gint64 beside; /* the tree the other program wrote of last, 0 none */
} Soak;

#define ONE_OF(soak, list) list[soak_pick (soak, G_N_ELEMENTS (list))]

/* From 0 to below @n. */
gint
soak_pick (Soak *soak, gint n);
gboolean
soak_one_in (Soak *soak, gint n);
/* A record's number, now and then one that is not there. */
gint64
soak_pick_id (Soak *soak, MKind kind);

void
soak_step (Soak *soak);
void
soak_write_beside (Soak *soak);
/* What came of an edit on both sides; takes @change and @error. */
void
soak_meet (Soak *soak, MAnswer answer, FrChange *change, GError *error);
