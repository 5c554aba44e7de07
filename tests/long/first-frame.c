/* Loaded before a program (LD_PRELOAD): tells, once, when its first frame was drawn and what it holds in
 * memory then. GTK emits "after-paint" of the frame clock when a frame is done; a signal hook sees the first
 * one. */
#define _GNU_SOURCE
#include <gtk/gtk.h>
#include <stdio.h>
#include <unistd.h>

static gboolean
painted_cb (GSignalInvocationHint *hint, guint n, const GValue *values, gpointer data)
{
  long pages = 0, resident = 0;
  FILE *memory = fopen ("/proc/self/statm", "r");

  if (memory == NULL || fscanf (memory, "%ld %ld", &pages, &resident) != 2)
    _exit (1);
  fclose (memory);
  fprintf (stderr, "first-frame %" G_GINT64_FORMAT " us %ld kB\n", g_get_monotonic_time (),
           resident * sysconf (_SC_PAGESIZE) / 1024);
  _exit (0);
}

static gboolean
hook_cb (gpointer data)
{
  GType type = g_type_from_name ("GdkFrameClock");

  if (type == 0 || g_type_class_peek (type) == NULL)
    return G_SOURCE_CONTINUE;
  g_signal_add_emission_hook (g_signal_lookup ("after-paint", type), 0, painted_cb, NULL, NULL);
  return G_SOURCE_REMOVE;
}

__attribute__ ((constructor)) static void
begin (void)
{
  g_idle_add_full (G_PRIORITY_HIGH, hook_cb, NULL, NULL);
}
