/* How a kind is described, for the files that do. */
#pragma once

#include "domain/records/kinds.h"

#include <stddef.h>

G_BEGIN_DECLS

/* Instants of the years that a season may have, 1600 to 2400: the days around each have civil dates too. */
#define EARLIEST_UTC -11676096000.0
#define LATEST_UTC 13601087999.0

/* What a station may tell: what has been measured on earth with some room (from memory: air −89.2 and 56.7 °C, rain of a
 * day 1.8 m, snow lying 11.8 m; the sun above the air gives at most some 48 MJ/m² in a day). */
#define TOLD_MIN_C -95
#define TOLD_MAX_C 65
#define TOLD_RAIN_MAX_M 3
#define TOLD_SNOW_MAX_M 30
#define TOLD_SUN_MAX_J_PER_M2 6e7

#define NAME_CHARS 120
#define LINE_CHARS 200
#define NOTE_CHARS 4000
#define TABLE_CHARS 20000

#define TEXT(S, member, chars, need)                                                                         \
  {                                                                                                          \
    .name = #member, .type = FR_FIELD_TEXT, .offset = offsetof (S, member), .required = need, .max = chars   \
  }
#define CODE(S, member, list)                                                                                \
  {                                                                                                          \
    .name = #member, .type = FR_FIELD_CODE, .offset = offsetof (S, member), .required = TRUE, .codes = list  \
  }
#define AMOUNT(S, member, measures, from, to, need)                                                          \
  {                                                                                                          \
    .name = #member, .type = FR_FIELD_AMOUNT, .quantity = FR_QUANTITY_##measures,                            \
    .offset = offsetof (S, member), .required = need, .min = from, .max = to                                 \
  }
#define BOOL(S, member)                                                                                      \
  {                                                                                                          \
    .name = #member, .type = FR_FIELD_BOOL, .offset = offsetof (S, member)                                   \
  }
#define TIME(S, member, need)                                                                                \
  {                                                                                                          \
    .name = #member, .type = FR_FIELD_TIME, .offset = offsetof (S, member), .required = need,                \
    .min = EARLIEST_UTC, .max = LATEST_UTC                                                                   \
  }
#define DATE(S, member, need)                                                                                \
  {                                                                                                          \
    .name = #member, .type = FR_FIELD_DATE, .offset = offsetof (S, member), .required = need, .max = 10      \
  }
#define REF(S, member, other, need)                                                                          \
  {                                                                                                          \
    .name = #member, .type = FR_FIELD_REF, .offset = offsetof (S, member), .required = need,                 \
    .ref_kind = FR_KIND_##other                                                                              \
  }

#define NEEDED TRUE
#define OPTIONAL FALSE

#define KIND(id_, name_, S, list, label, one)                                                                \
  {                                                                                                          \
    .id = id_, .name = name_, .size = sizeof (S), .fields = list, .n_fields = G_N_ELEMENTS (list),           \
    .label_field = label, .single = one                                                                      \
  }

/* A growing kind; @when is the member that places it in time. */
#define GROWING(id_, name_, S, list, label, when)                                                            \
  {                                                                                                          \
    .id = id_, .name = name_, .size = sizeof (S), .fields = list, .n_fields = G_N_ELEMENTS (list),           \
    .label_field = label, .time_field = when                                                                 \
  }

/* From FR_KIND_CONTAINER on, and from FR_KIND_STATION on. */
extern const FrKind fr_season_kinds[FR_KIND_STATION - FR_KIND_CONTAINER];
extern const FrKind fr_weather_kinds[FR_N_KINDS - FR_KIND_STATION];
extern const char *const fr_instrument_codes[];

G_END_DECLS
