/* The morning after: what was found, beside what was planned, why they differ and what the cooker's heat becomes; kept in one step. */
#pragma once

#include <adwaita.h>

#include "models/tonight.h"

G_BEGIN_DECLS

#define FR_TYPE_MORNING_DIALOG (fr_morning_dialog_get_type ())
G_DECLARE_FINAL_TYPE (FrMorningDialog, fr_morning_dialog, FR, MORNING_DIALOG, AdwWindow)

/* @keep is called with the change when the person keeps it. NULL when the night's cooker is no longer whole. */
GtkWidget *fr_morning_dialog_new (GtkWindow *parent, FrBook *book, FrTonight *tonight, const FrNight *night,
                                  void (*keep) (const FrChange *change, gpointer data), gpointer data);

G_END_DECLS
