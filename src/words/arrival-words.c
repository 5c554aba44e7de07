/* One sentence for each thing that can become of an arrival. What stays out says what to do about it. */
#include "words/arrival-words.h"

#include "words/entry-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* Smaller misfits are the receiver's and the tape's own. */
/* Nobody empties a bucket that far off; common sense, no source. */
#define REMOTE_M 5000
#define TURN_DEG 2
#define STRETCH 0.03
#define RESIDUAL_M 5

static const char *
or_unnamed (const char *name)
{
  return name != NULL && *name != '\0' ? name : _ ("unnamed");
}

char *
fr_arrival_title (const FrArrivalRow *row)
{
  if (row->arrival->tree->name != NULL)
    return g_strdup (row->arrival->tree->name);
  return g_strdup (or_unnamed (row->after != NULL ? row->after->name : NULL));
}

char *
fr_arrival_where (const FrArrivals *arrivals, guint line)
{
  return g_strdup_printf (arrivals->by_line ? _ ("line %u") : _ ("entry %u"), line);
}

const char *
fr_arrival_fate_word (FrArrivalFate fate)
{
  switch (fate)
    {
    case FR_ARRIVAL_NEW:
      return _ ("New");
    case FR_ARRIVAL_CHANGES:
      return _ ("Changed");
    case FR_ARRIVAL_SAME:
      return _ ("Same");
    case FR_ARRIVAL_AMBIGUOUS:
      return _ ("Unclear");
    case FR_ARRIVAL_REFUSED:
      return _ ("Refused");
    case FR_N_ARRIVAL_FATES:
      break;
    }
  return "";
}

static char *
distance (const FrSay *say, double value_m)
{
  return fr_say_amount (say, value_m, FR_QUANTITY_DISTANCE, -1);
}

/* "12.5 m east and 3 m north" */
static char *
place (const FrSay *say, double x_m, double y_m)
{
  g_autofree char *x = distance (say, fabs (x_m)), *y = distance (say, fabs (y_m));

  return g_strdup_printf (x_m < 0 ? (y_m < 0 ? _ ("%s west and %s south") : _ ("%s west and %s north"))
                                  : (y_m < 0 ? _ ("%s east and %s south") : _ ("%s east and %s north")),
                          x, y);
}

/* Adds a sentence behind those there are. Takes @sentence. */
static void
add (GString *out, char *sentence)
{
  if (out->len > 0)
    g_string_append_c (out, ' ');
  g_string_append (out, sentence);
  g_free (sentence);
}

/* --- what comes in --- */

static void
add_history (GString *out, const FrArrivalRow *row)
{
  if (row->n_history > 0)
    add (out, g_strdup_printf (dngettext (GETTEXT_PACKAGE, "With %u entry of girths, taps and seasons.",
                                          "With %u entries of girths, taps and seasons.", row->n_history),
                               row->n_history));
}

static void
add_new (GString *out, const FrArrivalRow *row, const FrSay *say)
{
  g_autofree char *where = isnan (row->x_m) ? NULL : place (say, row->x_m, row->y_m);

  add (out, where == NULL ? g_strdup (_ ("New, without a place."))
                          : g_strdup_printf (_ ("New, %s on the plan."), where));
  if (row->arrival->tree->name == NULL && row->after != NULL)
    add (out, g_strdup_printf (_ ("It is called %s."), row->after->name));
  if (row->species_assumed)
    add (out, g_strdup (_ ("The file does not say its species.")));
}

/* By what it was known. */
static void
add_match (GString *out, const FrArrivalRow *row, const FrSay *say)
{
  g_autofree char *away = isnan (row->away_m) ? NULL : distance (say, row->away_m);
  const char *name = or_unnamed (row->tree->name);

  switch (row->by)
    {
    case FR_ARRIVAL_BY_NEARNESS:
      add (out, g_strdup_printf (_ ("Taken for %s, which stands %s away."), name, away));
      break;
    case FR_ARRIVAL_BY_PLACE:
      add (out, g_strdup_printf (_ ("Stands where %s does."), name));
      break;
    default:
      if (row->moves)
        add (out, g_strdup_printf (_ ("It moves by %s."), away != NULL ? away : "–"));
      else if (row->away_m > 0.5)
        add (out, g_strdup_printf (_ ("The file has it %s away; the place of the book is kept."), away));
    }
}

static void
add_changes (GString *out, const FrArrivalRow *row, const FrSay *say)
{
  add (out, g_strdup_printf (_ ("%s is in the book and is filled in."), or_unnamed (row->tree->name)));
  add_match (out, row, say);
  if (row->moves && isnan (row->away_m))
    add (out, g_strdup (_ ("It gets a place.")));
  if (row->n_fields > 0)
    add (out, g_strdup_printf (
                  dngettext (GETTEXT_PACKAGE, "%u entry changes.", "%u entries change.", row->n_fields),
                  row->n_fields));
}

/* --- what stays out --- */

static void
add_ambiguous (GString *out, const FrArrivalRow *row, const FrSay *say)
{
  g_autofree char *away = isnan (row->away_m) ? NULL : distance (say, row->away_m);

  switch (row->reason)
    {
    case FR_ARRIVAL_TWO_NAMED:
      add (out, g_strdup_printf (_ ("Two trees of the book are called %s. Give one of them another name."),
                                 row->tree->name));
      break;
    case FR_ARRIVAL_TWO_NEAR:
      add (out, g_strdup_printf (
                    _ ("It may be %s or %s, which both stand near. Give it the name of one of them in the "
                       "file, or of neither and read it with a smaller distance."),
                    or_unnamed (row->tree->name), or_unnamed (row->other != NULL ? row->other->name : NULL)));
      break;
    default:
      add (out, g_strdup_printf (
                    _ ("It is called %s, but that stands %s away in the book. Give it another name, or "
                       "read it with a larger distance."),
                    row->tree->name, away));
    }
}

static const FrRecord *
bad_record (const FrArrivalRow *row)
{
  if (row->problem_kind == FR_KIND_TREE)
    return &row->after->record;
  return ((FrStep *)row->after_history->pdata[row->after_history->len - 1])->after;
}

static void
add_refused (GString *out, const FrArrivalRow *row, const FrArrivals *arrivals, const FrSay *say)
{
  g_autofree char *other = fr_arrival_where (arrivals, row->other_line);

  switch (row->reason)
    {
    case FR_ARRIVAL_NAMED_TWICE:
      add (out,
           g_strdup_printf (
               _ ("The name stands twice in the file, here and in %s. Give one of them another."), other));
      break;
    case FR_ARRIVAL_TWICE:
      add (out, g_strdup_printf (_ ("It is the same tree as in %s."), other));
      break;
    case FR_ARRIVAL_NAMELESS:
      add (out, g_strdup (_ ("It has neither a name nor a place.")));
      break;
    case FR_ARRIVAL_NO_SUCH_TREE:
      add (out,
           g_strdup (_ ("The file tells its history, but neither file nor book has a tree of this name.")));
      break;
    case FR_ARRIVAL_BEYOND:
      add (out, g_strdup (_ ("It lies more than 1000 km from the plan.")));
      break;
    case FR_ARRIVAL_UNTIED:
      add (out, g_strdup (_ ("It lies on the earth, but the plan is not tied to it.")));
      break;
    default:
      {
        g_autofree char *why = fr_record_sentence (&row->problem, bad_record (row), &say->units);

        add (out, g_strdup_printf (_ ("It cannot be kept: %s: %s"), row->problem.field->name, why));
      }
    }
}

char *
fr_arrival_sentence (const FrArrivalRow *row, const FrArrivals *arrivals, const FrSay *say)
{
  GString *out = g_string_new (NULL);

  switch (row->fate)
    {
    case FR_ARRIVAL_NEW:
      add_new (out, row, say);
      add_history (out, row);
      break;
    case FR_ARRIVAL_CHANGES:
      add_changes (out, row, say);
      add_history (out, row);
      break;
    case FR_ARRIVAL_SAME:
      add (out, g_strdup_printf (_ ("%s is in the book; nothing changes."), or_unnamed (row->tree->name)));
      add_match (out, row, say);
      break;
    case FR_ARRIVAL_AMBIGUOUS:
      add_ambiguous (out, row, say);
      break;
    default:
      add_refused (out, row, arrivals, say);
    }
  return g_string_free (out, FALSE);
}

char *
fr_arrival_path_sentence (const FrArrivalPathRow *row)
{
  switch (row->fate)
    {
    case FR_ARRIVAL_NEW:
      if (row->n_points < row->path->points->len)
        return g_strdup_printf (_ ("New, with %u of its %u points."), row->n_points, row->path->points->len);
      return g_strdup_printf (
          dngettext (GETTEXT_PACKAGE, "New, with %u point.", "New, with %u points.", row->n_points),
          row->n_points);
    case FR_ARRIVAL_SAME:
      return g_strdup (_ ("It is drawn already."));
    default:
      return g_strdup (row->reason == FR_ARRIVAL_BEYOND ? _ ("It lies more than 1000 km from the plan.")
                       : row->reason == FR_ARRIVAL_UNTIED
                           ? _ ("It lies on the earth, but the plan is not tied to it.")
                           : _ ("It has no points, or cannot be kept."));
    }
}

/* --- the whole --- */

char *
fr_arrival_tie_sentence (const FrArrivalPreview *preview, const FrSay *say)
{
  g_autofree char *lat = NULL, *lon = NULL, *residual = NULL;

  switch (preview->tie)
    {
    case FR_TIE_NOT_NEEDED:
    case FR_TIE_KEPT:
      return NULL;
    case FR_TIE_NEEDS_NAMES:
      return g_strdup (
          _ ("The plan is drawn already, but not tied to the earth, and no tree of the file has the name of "
             "one on it. Name one alike in both, or give the latitude and longitude of one point of the "
             "plan."));
    default:
      break;
    }
  lat = fr_say_latitude (say, preview->anchor.lat_deg);
  lon = fr_say_longitude (say, preview->anchor.lon_deg);
  switch (preview->tie)
    {
    case FR_TIE_FROM_FILE:
      return g_strdup_printf (_ ("The plan takes over where the file’s plan lies: %s, %s."), lat, lon);
    case FR_TIE_MIDDLE:
      return g_strdup_printf (_ ("The middle of the trees, %s, %s, becomes the plan’s zero."), lat, lon);
    default:
      residual = distance (say, preview->residual_m);
      return g_strdup_printf (
          dngettext (GETTEXT_PACKAGE,
                     "The plan is laid on the earth by %u tree of the same name, which fits to %s.",
                     "The plan is laid on the earth by %u trees of the same name, which fit to %s.",
                     preview->n_names),
          preview->n_names, residual);
    }
}

char *
fr_arrival_fit_sentence (const FrArrivalPreview *preview, const FrSay *say)
{
  GString *out = g_string_new (NULL);

  if (preview->remote_m > REMOTE_M)
    {
      g_autofree char *off = fr_say_amount (say, preview->remote_m, FR_QUANTITY_DISTANCE, 0);

      add (out, g_strdup_printf (_ ("%s lies %s from the other trees; are its coordinates right?"),
                                 or_unnamed (preview->remote->arrival->tree->name), off));
    }
  if (preview->tie == FR_TIE_NAMES && preview->n_names > 1)
    {
      if (fabs (preview->turn_deg) >= TURN_DEG)
        {
          g_autofree char *turn = fr_say_number (say, fabs (preview->turn_deg), 0);

          add (out, g_strdup_printf (
                        preview->turn_deg > 0
                            ? _ ("Turned %s° clockwise the plan would fit better: was the compass read "
                                 "without its declination?")
                            : _ ("Turned %s° anticlockwise the plan would fit better: was the compass read "
                                 "without its declination?"),
                        turn));
        }
      if (fabs (preview->stretch - 1) >= STRETCH)
        {
          g_autofree char *percent = fr_say_number (say, 100 * preview->stretch, 0);

          add (out, g_strdup_printf (_ ("Distances on the earth are %s %% of those on the plan."), percent));
        }
      if (preview->worst_m >= RESIDUAL_M && preview->worst_m > 1.5 * preview->residual_m)
        {
          g_autofree char *off = distance (say, preview->worst_m);

          add (out, g_strdup_printf (_ ("%s is %s off; is it the same tree?"),
                                     or_unnamed (preview->worst->name), off));
        }
    }
  return g_string_free (out, out->len == 0);
}

char *
fr_arrival_summary (const FrArrivalPreview *preview)
{
  static const char *const parts[FR_N_ARRIVAL_FATES]
      = { N_ ("%u new"), N_ ("%u changed"), N_ ("%u the same"), N_ ("%u unclear"), N_ ("%u refused") };
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < FR_N_ARRIVAL_FATES; i++)
    {
      g_autofree char *part = NULL;
      g_auto (GStrv) halves = g_strsplit (_ (parts[i]), "%u", 2);

      if (preview->n[i] == 0)
        continue;
      part = g_strdup_printf ("%s%u%s", halves[0], preview->n[i], halves[1] != NULL ? halves[1] : "");
      g_string_append_printf (out, "%s%s", out->len > 0 ? ", " : "", part);
    }
  if (out->len == 0)
    g_string_append (out, _ ("No tree in the file"));
  g_string_append_c (out, '.');
  return g_string_free (out, FALSE);
}
