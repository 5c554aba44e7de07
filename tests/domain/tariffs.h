/* Published rate schedules as kept text. Sources: Ontario Energy Board, regulated prices in releases of 18 October 2024
 * and October 2025 (winter; ¢/kWh); ultra-low overnight 2024 from an Ontario distributor, of 2025 the mid and
 * on-peak price from memory; a Colorado rate of 2021-10-01 from an open utility rate database record, price and
 * adjustment added, in ¢/kWh; French regulated off-peak price of 2025-02-01 (secondary copy, ct/kWh). */
#pragma once

#define WINTER_TOU(OFF, MID, ON)                                                                                       \
  "11-01 04-30 weekday 19:00 07:00 " OFF "\n"                                                                          \
  "11-01 04-30 weekday 07:00 11:00 " ON "\n"                                                                           \
  "11-01 04-30 weekday 11:00 17:00 " MID "\n"                                                                          \
  "11-01 04-30 weekday 17:00 19:00 " ON "\n"                                                                           \
  "11-01 04-30 weekend 00:00 24:00 " OFF "\n"

#define OVERNIGHT_TOU(NIGHT, OFF, MID, ON)                                                                             \
  "01-01 12-31 weekday 23:00 07:00 " NIGHT "\n"                                                                        \
  "01-01 12-31 weekday 07:00 16:00 " MID "\n"                                                                          \
  "01-01 12-31 weekday 16:00 21:00 " ON "\n"                                                                           \
  "01-01 12-31 weekday 21:00 23:00 " MID "\n"                                                                          \
  "01-01 12-31 weekend 23:00 07:00 " NIGHT "\n"                                                                        \
  "01-01 12-31 weekend 07:00 23:00 " OFF "\n"

#define WINTER_2024 WINTER_TOU ("7.6", "12.2", "15.8")
#define WINTER_2025 WINTER_TOU ("9.8", "15.7", "20.3")
#define OVERNIGHT_2024 OVERNIGHT_TOU ("2.8", "7.6", "12.2", "28.4")
#define OVERNIGHT_2025 OVERNIGHT_TOU ("3.9", "9.8", "15.7", "39.1")

#define COLORADO_2021                                                                                                  \
  "10-01 05-31 weekday 21:00 09:00 9.9057\n"                                                                           \
  "10-01 05-31 weekday 09:00 14:00 9.47412\n"                                                                          \
  "10-01 05-31 weekday 14:00 18:00 15.8126\n"                                                                          \
  "10-01 05-31 weekday 18:00 21:00 9.47412\n"                                                                          \
  "10-01 05-31 weekend 21:00 09:00 9.9057\n"                                                                           \
  "10-01 05-31 weekend 09:00 21:00 9.47412\n"

#define OFF_PEAK_2025 "01-01 12-31 all 00:00 24:00 16.96\n"
