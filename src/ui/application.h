/* The application: books and their windows, app-wide actions, command-line options. */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

#define FR_TYPE_APPLICATION (fr_application_get_type ())
G_DECLARE_FINAL_TYPE (FrApplication, fr_application, FR, APPLICATION, AdwApplication)

FrApplication *
fr_application_new (GApplicationFlags flags);

/* Raises the window of the book at @path, or opens it, made when missing. */
gboolean
fr_application_open_book (FrApplication *self, const char *path, GError **error);

/* Whether pictures that were asked for could not be made. */
gboolean
fr_application_get_failed (FrApplication *self);

G_END_DECLS
