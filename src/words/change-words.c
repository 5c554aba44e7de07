/* What a change did, in a sentence for a toast, an undo button or the diary, by the code it bears. */
#include "words/entry-words.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static const struct
{
  const char *label;
  const char *with; /* with the subject */
  const char *without;
} done[] = {
  { "keep-night", N_ ("Night kept"), N_ ("Night kept") },
  { "morning-after", N_ ("The heat of “%s” learned from the night"), N_ ("Night written down") },
  { "water-test", N_ ("The heat of “%s” measured"), N_ ("Heat measured") },
  { "add-household", N_ ("Household “%s” added"), N_ ("Household added") },
  { "edit-household", N_ ("Household changed"), N_ ("Household changed") },
  { "add-circuit", N_ ("Circuit “%s” added"), N_ ("Circuit added") },
  { "edit-circuit", N_ ("Circuit “%s” changed"), N_ ("Circuit changed") },
  { "delete-circuit", N_ ("Circuit “%s” deleted"), N_ ("Circuit deleted") },
  { "archive-circuit", N_ ("Circuit “%s” put away"), N_ ("Circuit put away") },
  { "restore-circuit", N_ ("Circuit “%s” taken out again"), N_ ("Circuit taken out again") },
  { "add-vessel", N_ ("Pan “%s” added"), N_ ("Pan added") },
  { "edit-vessel", N_ ("Pan “%s” changed"), N_ ("Pan changed") },
  { "delete-vessel", N_ ("Pan “%s” deleted"), N_ ("Pan deleted") },
  { "archive-vessel", N_ ("Pan “%s” put away"), N_ ("Pan put away") },
  { "restore-vessel", N_ ("Pan “%s” taken out again"), N_ ("Pan taken out again") },
  { "add-cooker", N_ ("Cooker “%s” added"), N_ ("Cooker added") },
  { "edit-cooker", N_ ("Cooker “%s” changed"), N_ ("Cooker changed") },
  { "delete-cooker", N_ ("Cooker “%s” deleted"), N_ ("Cooker deleted") },
  { "archive-cooker", N_ ("Cooker “%s” put away"), N_ ("Cooker put away") },
  { "restore-cooker", N_ ("Cooker “%s” taken out again"), N_ ("Cooker taken out again") },
  { "add-tariff", N_ ("Prices “%s” added"), N_ ("Prices added") },
  { "edit-tariff", N_ ("Prices “%s” changed"), N_ ("Prices changed") },
  { "delete-tariff", N_ ("Prices “%s” deleted"), N_ ("Prices deleted") },
  { "archive-tariff", N_ ("Prices “%s” put away"), N_ ("Prices put away") },
  { "restore-tariff", N_ ("Prices “%s” taken out again"), N_ ("Prices taken out again") },
  { "add-fuel", N_ ("Fuel “%s” added"), N_ ("Fuel added") },
  { "edit-fuel", N_ ("Fuel “%s” changed"), N_ ("Fuel changed") },
  { "delete-fuel", N_ ("Fuel “%s” deleted"), N_ ("Fuel deleted") },
  { "archive-fuel", N_ ("Fuel “%s” put away"), N_ ("Fuel put away") },
  { "restore-fuel", N_ ("Fuel “%s” taken out again"), N_ ("Fuel taken out again") },
  { "add-night", N_ ("Night of %s kept"), N_ ("Night kept") },
  { "edit-night", N_ ("Night of %s changed"), N_ ("Night changed") },
  { "delete-night", N_ ("Night of %s deleted"), N_ ("Night deleted") },
  { "archive-night", N_ ("Night of %s put away"), N_ ("Night put away") },
  { "restore-night", N_ ("Night of %s taken out again"), N_ ("Night taken out again") },
  { "add-tree", N_ ("Tree “%s” added"), N_ ("Tree added") },
  { "edit-tree", N_ ("Tree “%s” changed"), N_ ("Tree changed") },
  { "delete-tree", N_ ("Tree “%s” deleted"), N_ ("Tree deleted") },
  { "archive-tree", N_ ("Tree “%s” put away"), N_ ("Tree put away") },
  { "restore-tree", N_ ("Tree “%s” taken out again"), N_ ("Tree taken out again") },
  { "add-girth", N_ ("Measure of a trunk added"), N_ ("Measure of a trunk added") },
  { "edit-girth", N_ ("Measure of a trunk changed"), N_ ("Measure of a trunk changed") },
  { "delete-girth", N_ ("Measure of a trunk deleted"), N_ ("Measure of a trunk deleted") },
  { "archive-girth", N_ ("Measure of a trunk put away"), N_ ("Measure of a trunk put away") },
  { "restore-girth", N_ ("Measure of a trunk taken out again"), N_ ("Measure of a trunk taken out again") },
  { "add-tap", N_ ("Tap added"), N_ ("Tap added") },
  { "edit-tap", N_ ("Tap changed"), N_ ("Tap changed") },
  { "delete-tap", N_ ("Tap deleted"), N_ ("Tap deleted") },
  { "archive-tap", N_ ("Tap put away"), N_ ("Tap put away") },
  { "restore-tap", N_ ("Tap taken out again"), N_ ("Tap taken out again") },
  { "add-yield", N_ ("A tree’s season added"), N_ ("A tree’s season added") },
  { "edit-yield", N_ ("A tree’s season changed"), N_ ("A tree’s season changed") },
  { "delete-yield", N_ ("A tree’s season deleted"), N_ ("A tree’s season deleted") },
  { "archive-yield", N_ ("A tree’s season put away"), N_ ("A tree’s season put away") },
  { "restore-yield", N_ ("A tree’s season taken out again"), N_ ("A tree’s season taken out again") },
  { "add-feature", N_ ("“%s” added"), N_ ("Drawing added") },
  { "edit-feature", N_ ("“%s” changed"), N_ ("Drawing changed") },
  { "delete-feature", N_ ("“%s” deleted"), N_ ("Drawing deleted") },
  { "archive-feature", N_ ("“%s” put away"), N_ ("Drawing put away") },
  { "restore-feature", N_ ("“%s” taken out again"), N_ ("Drawing taken out again") },
  { "add-ground", N_ ("Ground added"), N_ ("Ground added") },
  { "edit-ground", N_ ("Ground changed"), N_ ("Ground changed") },
  { "delete-ground", N_ ("Ground deleted"), N_ ("Ground deleted") },
  { "archive-ground", N_ ("Ground put away"), N_ ("Ground put away") },
  { "restore-ground", N_ ("Ground taken out again"), N_ ("Ground taken out again") },
  { "add-tapping", N_ ("Way of tapping added"), N_ ("Way of tapping added") },
  { "edit-tapping", N_ ("Way of tapping changed"), N_ ("Way of tapping changed") },
  { "delete-tapping", N_ ("Way of tapping deleted"), N_ ("Way of tapping deleted") },
  { "archive-tapping", N_ ("Way of tapping put away"), N_ ("Way of tapping put away") },
  { "restore-tapping", N_ ("Way of tapping taken out again"), N_ ("Way of tapping taken out again") },
  { "add-container", N_ ("Container “%s” added"), N_ ("Container added") },
  { "edit-container", N_ ("Container “%s” changed"), N_ ("Container changed") },
  { "delete-container", N_ ("Container “%s” deleted"), N_ ("Container deleted") },
  { "archive-container", N_ ("Container “%s” put away"), N_ ("Container put away") },
  { "restore-container", N_ ("Container “%s” taken out again"), N_ ("Container taken out again") },
  { "add-gathering", N_ ("Gathering added"), N_ ("Gathering added") },
  { "edit-gathering", N_ ("Gathering changed"), N_ ("Gathering changed") },
  { "delete-gathering", N_ ("Gathering deleted"), N_ ("Gathering deleted") },
  { "archive-gathering", N_ ("Gathering put away"), N_ ("Gathering put away") },
  { "restore-gathering", N_ ("Gathering taken out again"), N_ ("Gathering taken out again") },
  { "add-pour", N_ ("Pouring added"), N_ ("Pouring added") },
  { "edit-pour", N_ ("Pouring changed"), N_ ("Pouring changed") },
  { "delete-pour", N_ ("Pouring deleted"), N_ ("Pouring deleted") },
  { "archive-pour", N_ ("Pouring put away"), N_ ("Pouring put away") },
  { "restore-pour", N_ ("Pouring taken out again"), N_ ("Pouring taken out again") },
  { "add-dip", N_ ("What was found added"), N_ ("What was found added") },
  { "edit-dip", N_ ("What was found changed"), N_ ("What was found changed") },
  { "delete-dip", N_ ("What was found deleted"), N_ ("What was found deleted") },
  { "archive-dip", N_ ("What was found put away"), N_ ("What was found put away") },
  { "restore-dip", N_ ("What was found taken out again"), N_ ("What was found taken out again") },
  { "add-day", N_ ("Day %s added"), N_ ("Day added") },
  { "edit-day", N_ ("Day %s changed"), N_ ("Day changed") },
  { "delete-day", N_ ("Day %s deleted"), N_ ("Day deleted") },
  { "archive-day", N_ ("Day %s put away"), N_ ("Day put away") },
  { "restore-day", N_ ("Day %s taken out again"), N_ ("Day taken out again") },
  { "add-chore", N_ ("Checklist added"), N_ ("Checklist added") },
  { "edit-chore", N_ ("Checklist changed"), N_ ("Checklist changed") },
  { "delete-chore", N_ ("Checklist deleted"), N_ ("Checklist deleted") },
  { "archive-chore", N_ ("Checklist put away"), N_ ("Checklist put away") },
  { "restore-chore", N_ ("Checklist taken out again"), N_ ("Checklist taken out again") },
  { "add-dismissal", N_ ("Reminder put away"), N_ ("Reminder put away") },
  { "edit-dismissal", N_ ("Reminder put away"), N_ ("Reminder put away") },
  { "delete-dismissal", N_ ("Reminder shown again"), N_ ("Reminder shown again") },
  { "archive-dismissal", N_ ("Reminder shown again"), N_ ("Reminder shown again") },
  { "restore-dismissal", N_ ("Reminder put away"), N_ ("Reminder put away") },
  { "add-storing", N_ ("Ways of keeping sap added"), N_ ("Ways of keeping sap added") },
  { "edit-storing", N_ ("Ways of keeping sap changed"), N_ ("Ways of keeping sap changed") },
  { "delete-storing", N_ ("Ways of keeping sap deleted"), N_ ("Ways of keeping sap deleted") },
  { "archive-storing", N_ ("Ways of keeping sap put away"), N_ ("Ways of keeping sap put away") },
  { "restore-storing", N_ ("Ways of keeping sap taken out again"), N_ ("Ways of keeping sap taken out again") },
  { "log-gatherings", N_ ("Gatherings written down"), N_ ("Gatherings written down") },
  { "import-gatherings", N_ ("Gatherings read from %s"), N_ ("Gatherings read from a file") },
  { "import-stock", N_ ("Stock read from %s"), N_ ("Stock read from a file") },
  { "paste-gatherings", N_ ("Gatherings pasted"), N_ ("Gatherings pasted") },
  { "add-trees", N_ ("Trees added"), N_ ("Trees added") },
  { "edit-trees", N_ ("Trees changed"), N_ ("Trees changed") },
  { "move-trees", N_ ("Trees moved"), N_ ("Trees moved") },
  { "delete-trees", N_ ("Trees deleted"), N_ ("Trees deleted") },
  { "archive-trees", N_ ("Trees put away"), N_ ("Trees put away") },
  { "restore-trees", N_ ("Trees taken out again"), N_ ("Trees taken out again") },
  { "import-trees", N_ ("Trees read from %s"), N_ ("Trees read from a file") },
  { "plan-taps", N_ ("Taps planned"), N_ ("Taps planned") },
  { "set-taps", N_ ("Taps set"), N_ ("Taps set") },
  { "pull-taps", N_ ("Taps pulled"), N_ ("Taps pulled") },
  { "move-tap", N_ ("Tap moved"), N_ ("Tap moved") },
  { "place-picture", N_ ("Picture placed under the plan"), N_ ("Picture placed under the plan") },
  { "set-up", N_ ("Book “%s” set up"), N_ ("Book set up") },
};

char *
fr_change_sentence (const char *label, const char *subject)
{
  for (guint i = 0; i < G_N_ELEMENTS (done); i++)
    {
      if (g_strcmp0 (done[i].label, label) != 0)
        continue;
      if (subject != NULL && *subject != '\0' && strstr (done[i].with, "%s") != NULL)
        {
          g_auto (GStrv) parts = g_strsplit (_ (done[i].with), "%s", 2);

          return g_strconcat (parts[0], subject, parts[1], NULL);
        }
      return g_strdup (_ (done[i].without));
    }
  return g_strdup (_ ("Changed"));
}
