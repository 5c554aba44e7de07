#include "night.h"

#include <glib.h>
#include <math.h>

void
night_fill (Night *night)
{
  const double boils_s = 11 * 60, dry_s = 11 * 3600 + 7 * 60, end_s = 11 * 3600 + 48 * 60;

  *night = (Night){ 0 };
  for (guint i = 0; i < NIGHT_SAMPLES; i++)
    {
      double t = i < 100 ? dry_s * i / 100 : dry_s + (end_s - dry_s) * (i - 100) / 20;
      double falling = t > dry_s ? (t - dry_s) / (end_s - dry_s) : 0;
      night->time_s[i] = t;
      night->level_cm[i] = t < boils_s ? 4.1 + 0.1 * t / boils_s : 4.1 - 2.8 * falling;
      night->brix[i] = t < dry_s ? 2.2 + 19.3 * MAX (t - boils_s, 0) / (dry_s - boils_s)
                                 : 21.5 * 4.1 / (4.1 - 2.55 * falling);
      night->feed_l[i] = MAX (22.5 * (1 - MAX (t - boils_s, 0) / (dry_s - boils_s)), 0);
      night->power_w[i] = 1800;
    }
  night->line = (FrTraceLine){
    .n_samples = NIGHT_SAMPLES,
    .time_s = night->time_s,
    .level_shown = night->level_cm,
    .brix = night->brix,
    .feed_l = night->feed_l,
    .power_w = night->power_w,
    .level_label = "Level 4.1 cm, held by the feed",
    .level_label_short = "Level 4.1 cm",
    .brix_label = "Sweetness in the pan",
    .brix_end_label = "57 °Bx",
    .feed_label = "22.5 L",
    .power_label = "1.8 kW",
  };
  for (guint i = 0; i < 13; i++)
    {
      g_snprintf (night->tick_text[i][0], 8, "%02u:00", (19 + i) % 24);
      g_snprintf (night->tick_text[i][1], 8, "%02u", (19 + i) % 24);
      night->ticks[i] = (FrTraceTick){ i * 3600.0, night->tick_text[i][0], night->tick_text[i][1], FALSE };
    }
  night->prices[0] = (FrTracePrice){ -4 * 3600, 0, 18.9, FR_PRICE_STEP_HIGH, "18.9", NULL, NULL };
  night->prices[1]
      = (FrTracePrice){ 0, 12 * 3600, 9.4, FR_PRICE_STEP_LOW, "9.4", "9.4 ¢/kWh", "17 ¢ an hour" };
  night->prices[2] = (FrTracePrice){ 12 * 3600, 16 * 3600, 18.9, FR_PRICE_STEP_HIGH, "18.9", NULL, NULL };
  night->events[0] = (FrTraceEvent){ 0, FR_TRACE_EVENT_FLAG, "19:00", "Start", NULL, 3 };
  night->events[1] = (FrTraceEvent){ boils_s, FR_TRACE_EVENT_MINOR, "19:11", "Boils", NULL, 0 };
  night->events[2] = (FrTraceEvent){ dry_s, FR_TRACE_EVENT_FLAG, "06:07", "Bucket dry", "Dry", 2 };
  night->events[3] = (FrTraceEvent){ end_s, FR_TRACE_EVENT_FLAG, "06:48", "Cut-off", NULL, 3 };
  night->events[4]
      = (FrTraceEvent){ 12 * 3600, FR_TRACE_EVENT_PRICE_RISE, "07:00", "Price doubles", "Price", 1 };
  night->limits[0] = (FrTraceLimit){ FR_TRACE_LIMIT_LEVEL, 1.3, "Cut-off level 1.3 cm" };
  night->nights[0] = (FrTraceSpan){ -3600, 11.5 * 3600 };
  night->view = (FrTraceView){
    .from_s = -2700,
    .to_s = 12.75 * 3600,
    .lines = &night->line,
    .n_lines = 1,
    .ticks = night->ticks,
    .n_ticks = 13,
    .prices = night->prices,
    .n_prices = 3,
    .events = night->events,
    .n_events = 5,
    .limits = night->limits,
    .n_limits = 1,
    .nights = night->nights,
    .n_nights = 1,
    .level_unit = "cm",
    .brix_unit = "°Bx",
    .bucket_name = "Bucket",
    .power_name = "Power",
    .price_name = "Price",
    .empty_sentence = "Enter tonight’s sap to see the night.",
    .selected_s = NAN,
  };
}
