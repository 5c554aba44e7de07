/* Zone tables for the tests, written by hand. Source: the IANA time zone database, release 2024a, as printed
 * by zdump for the years shown (Pacific/Apia left out the whole of 2011-12-30; Lord Howe moves by half an
 * hour). */
#pragma once

#include "domain/units/zone.h"

/* second Sunday of March 07:00 UTC, first Sunday of November 06:00 UTC */
static const FrZoneSpan toronto_spans[] = {
  { G_MININT64, -18000, FALSE, "EST" }, { 1710054000, -14400, TRUE, "EDT" },
  { 1730613600, -18000, FALSE, "EST" }, { 1741503600, -14400, TRUE, "EDT" },
  { 1762063200, -18000, FALSE, "EST" }, { 1772953200, -14400, TRUE, "EDT" },
};

/* last Sunday of March and of October, 01:00 UTC */
static const FrZoneSpan paris_spans[] = {
  { G_MININT64, 3600, FALSE, "CET" }, { 1711846800, 7200, TRUE, "CEST" }, { 1729990800, 3600, FALSE, "CET" },
  { 1743296400, 7200, TRUE, "CEST" }, { 1761440400, 3600, FALSE, "CET" },
};

/* southern summer: back on the first Sunday of April, forward on the first Sunday of October; half-hour
 * offsets */
static const FrZoneSpan adelaide_spans[] = {
  { G_MININT64, 37800, TRUE, "ACDT" }, { 1712421000, 34200, FALSE, "ACST" },
  { 1728145800, 37800, TRUE, "ACDT" }, { 1743870600, 34200, FALSE, "ACST" },
  { 1759595400, 37800, TRUE, "ACDT" },
};

static const FrZoneSpan lord_howe_spans[] = {
  { G_MININT64, 39600, TRUE, "+11" },
  { 1743865200, 37800, FALSE, "+1030" },
  { 1759591800, 39600, TRUE, "+11" },
};

static const FrZoneSpan apia_spans[] = {
  { G_MININT64, -39600, FALSE, "-11" },
  { 1316872800, -36000, TRUE, "-10" },
  { 1325239200, 50400, TRUE, "+14" },
};

static const FrZoneSpan kolkata_spans[] = {
  { G_MININT64, 19800, FALSE, "IST" },
};

typedef struct
{
  const char *name;
  const FrZoneSpan *spans;
  guint n_spans;
} TestZone;

static const TestZone test_zones[] = {
  { "America/Toronto", toronto_spans, G_N_ELEMENTS (toronto_spans) },
  { "Europe/Paris", paris_spans, G_N_ELEMENTS (paris_spans) },
  { "Australia/Adelaide", adelaide_spans, G_N_ELEMENTS (adelaide_spans) },
  { "Australia/Lord_Howe", lord_howe_spans, G_N_ELEMENTS (lord_howe_spans) },
  { "Pacific/Apia", apia_spans, G_N_ELEMENTS (apia_spans) },
  { "Asia/Kolkata", kolkata_spans, G_N_ELEMENTS (kolkata_spans) },
};

static inline FrZoneTable *
test_zone (const char *name)
{
  for (guint i = 0; i < G_N_ELEMENTS (test_zones); i++)
    if (g_str_equal (name, test_zones[i].name))
      return fr_zone_table_new (name, test_zones[i].spans, test_zones[i].n_spans);
  g_error ("no test zone %s", name);
}
