/* An invented night for the painters' tests: a pan held at 4.1 cm from 19:00 until the bucket is dry at
 * 06:07, cut off at 06:48, the price doubling at 07:00. Shapes only; the numbers are not results. */
#pragma once

#include "paint/trace.h"

#define NIGHT_SAMPLES 121

typedef struct
{
  double time_s[NIGHT_SAMPLES];
  double level_cm[NIGHT_SAMPLES];
  double brix[NIGHT_SAMPLES];
  double feed_l[NIGHT_SAMPLES];
  double power_w[NIGHT_SAMPLES];
  FrTraceLine line;
  FrTraceTick ticks[16];
  char tick_text[16][2][8];
  FrTracePrice prices[3];
  FrTraceEvent events[5];
  FrTraceLimit limits[1];
  FrTraceSpan nights[1];
  FrTraceView view;
} Night;

/* @night must stay where it is: its view points into it. */
void
night_fill (Night *night);
