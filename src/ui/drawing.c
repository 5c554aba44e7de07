/* The frame around a painter. */
#include "ui/drawing.h"

#include "ui/theme.h"

void
fr_drawing_class_init (GtkWidgetClass *widget_class)
{
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
  gtk_widget_class_set_css_name (widget_class, "drawing");
}

void
fr_drawing_listen (GtkWidget *widget, GCallback motion, GCallback leave, GCallback pressed, GCallback key)
{
  GtkEventController *pointer = gtk_event_controller_motion_new (), *keys = gtk_event_controller_key_new ();
  GtkGesture *click = gtk_gesture_click_new ();

  gtk_widget_set_focusable (widget, TRUE);
  gtk_widget_set_overflow (widget, GTK_OVERFLOW_HIDDEN);
  if (motion != NULL)
    g_signal_connect (pointer, "motion", motion, widget);
  if (leave != NULL)
    g_signal_connect (pointer, "leave", leave, widget);
  g_signal_connect (keys, "key-pressed", key, widget);
  g_signal_connect (click, "pressed", pressed, widget);
  gtk_widget_add_controller (widget, pointer);
  gtk_widget_add_controller (widget, keys);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (click));
  g_signal_connect (widget, "notify::has-focus", G_CALLBACK (gtk_widget_queue_draw), NULL);
  fr_theme_redraws (widget);
}
