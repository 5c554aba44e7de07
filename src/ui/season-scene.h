/* A season as its painters take it: the view's days with the words for them. Glue between words and paint,
 * shared by the drawn widgets and by the paper. */
#pragma once

#include "paint/month.h"
#include "paint/season-strip.h"
#include "words/season-picture-words.h"

G_BEGIN_DECLS

/**
 * FrSeasonScene:
 * @view: borrowed, and has to stay until the scene is freed
 * @strip, @month: ready to draw; whoever draws fills in what is selected, hovered, and which month
 * @spoken: a sentence a day
 */
typedef struct
{
  const FrSeasonView *view;
  FrUnits units;
  FrSeasonPictureWords *words;
  FrSeasonTexts texts;
  FrSeasonMonth *months;
  FrSeasonFoot *feet;
  FrMonthWord *month_words;
  FrSeasonPast *past;
  GPtrArray *past_l; /* double[] */
  GPtrArray *past_names;
  GPtrArray *spoken;
  FrSeasonStrip strip;
  FrMonth month;
} FrSeasonScene;

/* @past: (nullable) (element-type FrSeasonView): other seasons for comparison, copied; @say is borrowed for
 * the call. */
FrSeasonScene *
fr_season_scene_new (const FrSeasonView *view, const GPtrArray *past, const FrSay *say);
void
fr_season_scene_free (FrSeasonScene *scene);

/* The index of a day in the view, or −1. */
gssize
fr_season_scene_find (const FrSeasonScene *scene, FrDate date);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrSeasonScene, fr_season_scene_free)

G_END_DECLS
