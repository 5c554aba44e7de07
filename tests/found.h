/* The largest error each outside check has seen, printed at the end of a test program so that docs/checks.md
 * can be kept true. */
#pragma once

#include <glib.h>

#include <math.h>
#include <stdio.h>

#define FOUND_MAX 48

typedef struct
{
  const char *what;
  double promised;
  double worst;
  guint n;
} Found;

static Found founds[FOUND_MAX];

/* Compares, fails the subtest beyond @promised, and remembers the largest error. @what is a literal. */
static inline void
found_near (const char *what, double got, double wanted, double promised)
{
  double error = fabs (got - wanted);
  guint i = 0;

  while (i < FOUND_MAX && founds[i].what != NULL && !g_str_equal (founds[i].what, what))
    i++;
  g_assert_cmpuint (i, <, FOUND_MAX);
  founds[i].what = what;
  founds[i].promised = promised;
  founds[i].n++;
  if (!(error <= founds[i].worst))
    founds[i].worst = error;
  if (!(error <= promised))
    g_test_fail_printf ("%s: got %.10g, wanted %.10g ± %g", what, got, wanted, promised);
}

/* Runs the tests, then prints what was found. Plain printf, since g_test_message would turn ° into ?. */
static inline int
found_run (void)
{
  int failed = g_test_run ();

  for (guint i = 0; i < FOUND_MAX && founds[i].what != NULL; i++)
    printf ("# found: %s: %.3g of %.3g promised, %u values\n", founds[i].what, founds[i].worst,
            founds[i].promised, founds[i].n);
  return failed;
}
