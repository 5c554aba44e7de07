/* Between the files of sap-body.h: a body and its heat. */
#pragma once

#include "domain/maths/sap-body.h"

G_BEGIN_DECLS

/* Temperature and ice for so much heat above liquid at 0 °C; mass and sugar stand. Unknown heat, unknown
 * both. */
void
fr_sap_body_settle (FrSapBody *body, double heat_j);

/* The same where its fr_sap_body_onset_j() is known: one that is followed has the same all the way. */
void
fr_sap_body_settle_at (FrSapBody *body, double heat_j, double onset_j);

/* The heat at which the first ice comes and the last goes. */
double
fr_sap_body_onset_j (const FrSapBody *body);

G_END_DECLS
