/* How a kind is described, for the files that do. */
#pragma once

#include "domain/records/kinds.h"

#include <stddef.h>

G_BEGIN_DECLS

/* Instants of the years that a season may have, 1600 to 2400: the days around each have civil dates too. */
#define EARLIEST_UTC -11676096000.0
#define LATEST_UTC 13601087999.0

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

/* From FR_KIND_CONTAINER on. */
extern const FrKind fr_season_kinds[FR_N_KINDS - FR_KIND_CONTAINER];
extern const char *const fr_instrument_codes[];

G_END_DECLS
