/* The bush's numbers and codes, key by key. */
#include "formats/bush-json.h"

#include <math.h>

static const struct
{
  FrTreeReason reason;
  const char *code;
} reasons[] = {
  { FR_TREE_TOO_SMALL, "too_small" },
  { FR_TREE_FAILING, "failing" },
  { FR_TREE_REFUSED, "refused" },
  { FR_TREE_WISHED_OFF, "never" },
  { FR_TREE_NO_PLACE, "no_place" },
  { FR_TREE_WEAK, "weak" },
  { FR_TREE_SLOW, "slow" },
  { FR_TREE_TAPPED_HARD, "tapped_hard" },
  { FR_TREE_GROWTH_UNKNOWN, "growth_unknown" },
  { FR_TREE_SIZE_UNKNOWN, "size_unknown" },
  { FR_TREE_NO_RULE, "no_rule" },
  { FR_TREE_DEAD_LIMBS, "dead_limbs" },
  { FR_TREE_WIRES, "wires" },
  { FR_TREE_LEANS, "leans" },
  { FR_TREE_ROADSIDE, "roadside" },
  { FR_TREE_NOT_ASKED, "not_asked" },
  { FR_TREE_OVER_GUIDELINE, "over_guideline" },
};

static const char *const groups[] = { "hard", "soft", "other", "not_maple" };
static const char *const states[] = { "planned", "this_season", "open", "closed" };

const char *
fr_tree_reason_code (FrTreeReason reason)
{
  for (guint i = 0; i < G_N_ELEMENTS (reasons); i++)
    if (reasons[i].reason == reason)
      return reasons[i].code;
  g_return_val_if_reached (NULL);
}

static void
put_text (FrOutput *output, const char *key, const char *text)
{
  if (text != NULL)
    fr_output_string (output, key, text);
  else
    fr_output_null (output, key);
}

/* −1 and 0 stand for unknown and none where a struct says so. */
static void
put_count (FrOutput *output, const char *key, gint64 count, gboolean known)
{
  fr_output_number (output, key, known ? (double)count : NAN);
}

static void
put_tree (FrOutput *output, const FrBushTree *row)
{
  const FrTree *tree = row->tree;

  put_text (output, "name", tree->name);
  put_text (output, "species", tree->species);
  fr_output_string (output, "group", groups[row->group]);
  put_text (output, "health", tree->health);
  fr_output_number (output, "x_m", tree->x_m.value);
  fr_output_number (output, "y_m", tree->y_m.value);
  fr_output_number (output, "diameter_m", row->diameter_m);
  fr_output_number (output, "girth_m", row->girth_m);
  put_text (output, "measured_on", row->measured_on);
  fr_output_number (output, "growth_m_per_year", row->growth_m_per_year);
  put_count (output, "taps_by_size", row->taps_by_size, row->taps_by_size >= 0);
  put_count (output, "taps_max", row->taps_max, row->taps_max >= 0);
  fr_output_boolean (output, "do_not_tap", (row->reasons & FR_TREE_FORBIDS) != 0);
  fr_output_array (output, "reasons");
  for (guint i = 0; i < G_N_ELEMENTS (reasons); i++)
    if (row->reasons & reasons[i].reason)
      fr_output_string (output, NULL, reasons[i].code);
  fr_output_end_array (output);
  put_count (output, "taps_set", row->taps_set, TRUE);
  put_count (output, "taps_planned", row->taps_planned, TRUE);
  fr_output_number (output, "season_l", row->season_l);
  fr_output_number (output, "season_brix", row->season_brix);
  fr_output_number (output, "season_sugar_kg", row->season_sugar_kg);
  fr_output_number (output, "gathered_l", row->gathered_l);
  fr_output_number (output, "gathered_brix", row->gathered_brix);
  fr_output_number (output, "estimated_l", row->estimated_l);
  fr_output_number (output, "estimated_sugar_kg", row->estimated_sugar_kg);
  put_count (output, "last_season", row->last_season, row->last_season > 0);
  fr_output_number (output, "last_l", row->last_l);
  put_count (output, "rank", row->rank, row->rank > 0);
  put_count (output, "n_ranked", row->n_ranked, TRUE);
  fr_output_number (output, "trend_ratio", row->trend_ratio);
  fr_output_number (output, "expected_l", row->expected_l);
  fr_output_number (output, "expected_low_l", row->expected_low_l);
  fr_output_number (output, "expected_high_l", row->expected_high_l);
  fr_output_number (output, "expected_brix", row->expected_brix);
}

char *
fr_bush_to_json (const FrBush *bush)
{
  FrOutput output;

  fr_output_init (&output);
  fr_output_object (&output, NULL);
  fr_output_number (&output, "season", fr_bush_get_season (bush));
  fr_output_string (&output, "guideline", fr_bush_guideline (bush)->code);
  fr_output_array (&output, "trees");
  for (guint i = 0; i < fr_bush_n_trees (bush); i++)
    {
      fr_output_object (&output, NULL);
      put_tree (&output, fr_bush_tree_at (bush, i));
      fr_output_end_object (&output);
    }
  fr_output_end_array (&output);
  fr_output_end_object (&output);
  return fr_output_finish (&output);
}

static void
put_holes (FrOutput *output, const FrBush *bush, gint64 tree)
{
  g_autoptr (GArray) holes = fr_bush_holes (bush, tree);

  fr_output_array (output, "holes");
  for (guint i = 0; i < holes->len; i++)
    {
      const FrBushHole *hole = &g_array_index (holes, FrBushHole, i);

      fr_output_object (output, NULL);
      fr_output_number (output, "season", hole->season);
      put_text (output, "set_on", hole->tap->set_on);
      fr_output_number (output, "angle_deg", hole->angle_deg);
      fr_output_number (output, "height_m", hole->height_m);
      fr_output_string (output, "state", states[hole->state]);
      fr_output_number (output, "stain_half_width_m", hole->stain_half_width_m);
      fr_output_number (output, "stain_half_height_m", hole->stain_half_height_m);
      fr_output_end_object (output);
    }
  fr_output_end_array (output);
}

static void
put_seasons (FrOutput *output, const FrBush *bush, gint64 tree)
{
  g_autoptr (GArray) seasons = fr_bush_history (bush, tree);

  fr_output_array (output, "seasons");
  for (guint i = 0; i < seasons->len; i++)
    {
      const FrTreeSeason *season = &g_array_index (seasons, FrTreeSeason, i);

      fr_output_object (output, NULL);
      fr_output_number (output, "season", season->season);
      put_count (output, "taps", season->taps, TRUE);
      fr_output_number (output, "volume_l", season->volume_l);
      fr_output_number (output, "brix", season->brix);
      fr_output_number (output, "sugar_kg", season->sugar_kg);
      fr_output_number (output, "gathered_l", season->gathered_l);
      fr_output_number (output, "estimated_l", season->estimated_l);
      put_count (output, "rank", season->rank, season->rank > 0);
      put_count (output, "n_ranked", season->n_ranked, TRUE);
      fr_output_end_object (output);
    }
  fr_output_end_array (output);
}

static void
put_places (FrOutput *output, const FrBushPlace *places, guint n)
{
  fr_output_array (output, "places");
  for (guint i = 0; i < n; i++)
    {
      fr_output_object (output, NULL);
      fr_output_number (output, "angle_deg", places[i].angle_deg);
      fr_output_number (output, "height_m", places[i].height_m);
      fr_output_number (output, "clearance_ratio", places[i].clearance_ratio);
      fr_output_boolean (output, "keeps_rule", places[i].keeps_rule);
      fr_output_boolean (output, "in_column", places[i].in_column);
      fr_output_end_object (output);
    }
  fr_output_end_array (output);
}

char *
fr_bush_trunk_to_json (const FrBush *bush, const FrBushTree *row, const FrBushPlace *places, guint n,
                       const char *headline, const char *why)
{
  const FrBushSpacing spacing = fr_bush_spacing (bush);
  FrOutput output;

  fr_output_init (&output);
  fr_output_object (&output, NULL);
  fr_output_number (&output, "season", fr_bush_get_season (bush));
  put_text (&output, "sentence", headline);
  put_text (&output, "reason", why);
  put_tree (&output, row);
  fr_output_number (&output, "sideways_m", spacing.sideways_m);
  fr_output_number (&output, "up_down_m", spacing.up_down_m);
  fr_output_number (&output, "min_height_m", spacing.min_height_m);
  fr_output_number (&output, "max_height_m", spacing.max_height_m);
  put_holes (&output, bush, row->id);
  put_places (&output, places, n);
  put_seasons (&output, bush, row->id);
  fr_output_end_object (&output);
  return fr_output_finish (&output);
}
