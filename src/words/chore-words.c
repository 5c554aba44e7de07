/* The checklist's sentences. Where lead or electricity is the matter they say what to look at and leave the verdict to food authorities,
 * local codes and licensed electricians; none of them says that a thing is safe. */
#include "words/chore-words.h"

#include <glib/gi18n-lib.h>

const char *
fr_chore_title (FrChoreTask task)
{
  switch (task)
    {
    case FR_CHORE_WASH:
      return _ ("Wash");
    case FR_CHORE_WATER_TEST:
      return _ ("Test with plain water");
    case FR_CHORE_MATERIAL:
      return _ ("Look at the material");
    case FR_CHORE_GROUND_FAULT:
      return _ ("Test the ground-fault protection");
    case FR_CHORE_RINSE:
      return _ ("Rinse out");
    case FR_CHORE_DRY:
      return _ ("Dry and put away");
    default:
      g_return_val_if_reached (NULL);
    }
}

char *
fr_chore_item_title (const FrChoreItem *item)
{
  const char *name = fr_record_label (item->kit);

  switch (item->task)
    {
    case FR_CHORE_WASH:
      return g_strdup_printf (_ ("Wash: %s"), name);
    case FR_CHORE_WATER_TEST:
      return g_strdup_printf (_ ("Test with plain water: %s"), name);
    case FR_CHORE_MATERIAL:
      return g_strdup_printf (_ ("Look at the material: %s"), name);
    case FR_CHORE_GROUND_FAULT:
      return g_strdup_printf (_ ("Test the ground-fault protection: %s"), name);
    case FR_CHORE_RINSE:
      return g_strdup_printf (_ ("Rinse out: %s"), name);
    case FR_CHORE_DRY:
      return g_strdup_printf (_ ("Dry and put away: %s"), name);
    default:
      g_return_val_if_reached (NULL);
    }
}

static char *
material_sentence (const FrChoreItem *item)
{
  const char *fact, *remedy = _ ("Lead gathers in syrup as water boils off. Leave out what you cannot be sure of; the local food "
                                 "authority says what is allowed and how to test.");

  switch (item->why)
    {
    case FR_CHORE_WHY_GALVANISED:
      fact = _ ("Galvanised metal is not made for food, and old zinc coats hold lead.");
      break;
    case FR_CHORE_WHY_SOLDERED:
      fact = _ ("Soldered seams may hold lead.");
      break;
    case FR_CHORE_WHY_OLD:
      return g_strdup_printf (_ ("Metal from before %d may have seams soldered with lead, stainless too. %s"), FR_CHORE_LEAD_YEAR,
                              remedy);
    case FR_CHORE_WHY_NOT_FOOD:
      return g_strdup (_ ("Plastic that was not made for food may give off what it held or is made of. Use it for other things and "
                          "take a food-grade container."));
    default:
      if (item->kit->kind->id == FR_KIND_VESSEL)
        fact = _ ("It is marked as old solder, galvanised or unknown metal.");
      else
        fact = _ ("What it is made of is not known. Look for a maker’s mark, a magnet that sticks, dull grey seams.");
      break;
    }
  return g_strdup_printf ("%s %s", fact, remedy);
}

static const char *
ground_fault_sentence (FrChoreWhy why)
{
  switch (why)
    {
    case FR_CHORE_WHY_NO_PROTECTION:
      return _ ("It has no ground-fault protection. Outdoors and in the wet it needs one: have a licensed electrician fit it by the "
                "local code before anything boils on it.");
    case FR_CHORE_WHY_NO_CIRCUIT:
      return _ ("On which circuit it runs is not noted. Find the breaker and whether there is ground-fault protection; a licensed "
                "electrician can tell where you cannot.");
    default:
      return _ ("Press the test button with a lamp plugged in: it has to go out, and on again at reset. Where it does not, plug in "
                "nothing until a licensed electrician has looked.");
    }
}

char *
fr_chore_item_sentence (const FrChoreItem *item)
{
  switch (item->task)
    {
    case FR_CHORE_WASH:
      return g_strdup (_ ("Hot water and a clean brush, rinsed until nothing smells of soap. Last season’s film sours fresh sap."));
    case FR_CHORE_WATER_TEST:
      return g_strdup (item->why == FR_CHORE_WHY_NEVER_MEASURED
                           ? _ ("Boil plain water in it, and stay with it: a bad element, a leak or a cut-off that does not cut "
                                "shows now. Weighed before and after, the water also tells how much heat gets in, which was never "
                                "measured.")
                           : _ ("Boil plain water in it, and stay with it: a bad element, a leak or a cut-off that does not cut "
                                "shows now. Weighed before and after, the water also tells how much heat gets in."));
    case FR_CHORE_MATERIAL:
      return material_sentence (item);
    case FR_CHORE_GROUND_FAULT:
      return g_strdup (ground_fault_sentence (item->why));
    case FR_CHORE_RINSE:
      return g_strdup (_ ("Hot water, no scent of sap left. Sugar that stays feeds mould all summer."));
    case FR_CHORE_DRY:
      return g_strdup (_ ("Lid off until it is dry, then upside down where no mice get in."));
    default:
      g_return_val_if_reached (NULL);
    }
}

char *
fr_chore_state_words (const FrChoreItem *item)
{
  g_autofree char *date = NULL;
  FrDate day;

  switch (item->state)
    {
    case FR_CHORE_DONE:
      if (!fr_date_parse (item->done->done_on, &day))
        return g_strdup (_ ("done"));
      date = fr_say_date (day);
      return g_strdup_printf (_ ("done %s"), date);
    case FR_CHORE_NOT_NEEDED:
      return g_strdup (_ ("not needed"));
    case FR_CHORE_LATER:
      return g_strdup (fr_chore_is_cleaning (item->task) ? _ ("when the season is over") : _ ("before the season"));
    case FR_CHORE_LATE:
      date = fr_say_date (item->used_on);
      return g_strdup_printf (_ ("in use since %s"), date);
    case FR_CHORE_DUE:
    default:
      return g_strdup (_ ("due"));
    }
}
