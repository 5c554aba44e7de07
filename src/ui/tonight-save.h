/* Asks where the page for the shed and the alarms for the phone go, and writes them there. */
#pragma once

#include <gtk/gtk.h>

#include "models/tonight.h"

G_BEGIN_DECLS

/* @page: whose window asks and is told of the outcome; the answer is dropped when it is gone by then. */
void fr_tonight_save_page (GtkWidget *page, FrTonight *tonight, const char *household);
void fr_tonight_save_alarms (GtkWidget *page, FrTonight *tonight);

G_END_DECLS
