/* Ten minutes of boiling plain water tell how much of a cooker's power reaches the liquid. */
#pragma once

#include <adwaita.h>

#include "models/tonight.h"

G_BEGIN_DECLS

#define FR_TYPE_WATER_TEST_DIALOG (fr_water_test_dialog_get_type ())
G_DECLARE_FINAL_TYPE (FrWaterTestDialog, fr_water_test_dialog, FR, WATER_TEST_DIALOG, AdwWindow)

/* @keep is called with the change when the person keeps the result. NULL when the cooker has no whole pan yet. */
GtkWidget *fr_water_test_dialog_new (GtkWindow *parent, FrBook *book, const FrCooker *cooker,
                                     void (*keep) (const FrChange *change, gpointer data), gpointer data);

G_END_DECLS
