/* Bracketed roots; every search in the house uses this one. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef double (*FrSolveFunc) (double x, gpointer data);

/**
 * fr_solve_root:
 * @func: continuous function of one variable
 * @data: passed to @func
 * @lo: one end of the bracket
 * @hi: the other end
 * @x_tolerance: absolute tolerance on the root, over 0
 * @root_out: the root
 *
 * Finds where @func crosses zero between @lo and @hi (Brent's method).
 *
 * Returns: FALSE, with @root_out NAN, when the ends do not bracket a sign change or a value is not finite.
 */
gboolean fr_solve_root (FrSolveFunc func, gpointer data, double lo, double hi, double x_tolerance, double *root_out);

G_END_DECLS
