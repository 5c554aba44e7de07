/* One step of an ordinary differential equation. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define FR_STEP_STATES_MAX 8

/* The rates of @state; FALSE where the state lies outside what is known. */
typedef gboolean (*FrRatesFunc) (const double *state, double *rates, gpointer data);

/**
 * fr_dormand_prince_step:
 * @func: the right side; it does not depend on time
 * @data: passed to @func
 * @n: number of states, up to FR_STEP_STATES_MAX
 * @state: where the step begins
 * @rates: the rates there
 * @h: length of the step
 * @state_out: where it ends, fifth order
 * @rates_out: the rates there, which the method has worked out anyway; @func was last asked for these
 * @error_out: how far the fourth-order answer stands from it, by state, or NULL
 *
 * Returns: FALSE when @func refused a state on the way.
 */
gboolean
fr_dormand_prince_step (FrRatesFunc func, gpointer data, guint n, const double *state, const double *rates,
                        double h, double *state_out, double *rates_out, double *error_out);

G_END_DECLS
