/* What is said of a place on the trunk. The figures behind it are checked in domain/test-taphole. */
#include "words/taphole-words.h"

#include <math.h>

#include "sentences.h"

static const FrTrunk trunk = { 1.5, 0.15, 0.3, 0.6, 1.2 };
static const FrSay say = { .units = { .decimal_mark = '.' } };

static FrHole
hole (double angle_deg, double height_m)
{
  return (FrHole){ angle_deg, height_m, NAN, NAN, NAN };
}

static void
says (const FrTaphole *place, const FrHole *holes, guint n, const guint *seasons, gboolean found,
      const char *wanted)
{
  g_autofree char *text = fr_taphole_reason (place, holes, n, seasons, found, &say);

  sentence (text);
  g_assert_cmpstr (text, ==, wanted);
}

static void
dragged (double angle_deg, double height_m, const guint *seasons, const char *wanted)
{
  const FrHole holes[] = { hole (90, 0.8), hole (270, 1.0) };
  FrTaphole place;

  g_assert_true (fr_taphole_clearance (&trunk, holes, 2, angle_deg, height_m, &place));
  says (&place, holes, 2, seasons, FALSE, wanted);
}

static void
test_found (void)
{
  const FrHole one = hole (90, 0.8);
  const guint year = 2024;
  FrTaphole place;

  g_assert_true (fr_taphole_find (&trunk, NULL, 0, &place));
  says (&place, NULL, 0, NULL, TRUE, "There is no old hole: the middle of the heights, on the south side.");
  says (&place, NULL, 0, NULL, FALSE, "There is no old hole to keep clear of.");
  g_assert_true (fr_taphole_find (&trunk, &one, 1, &place));
  says (&place, &one, 1, NULL, TRUE,
        "5.0 times the asked distance from every hole; it is the most this trunk offers. Nearest is hole 1, "
        "on the "
        "east side.");
  says (&place, &one, 1, &year, TRUE,
        "5.0 times the asked distance from every hole; it is the most this trunk offers. Nearest is the hole "
        "of 2024, "
        "on the east side.");
}

/* 15 cm of girth between holes at 36° steps and one height: halfway is 7.5 cm, half of what is asked. */
static void
test_no_place (void)
{
  const FrTrunk flat = { 1.5, 0.15, 0.3, 0.9, 0.9 };
  FrHole holes[10];
  FrTaphole place;

  for (guint i = 0; i < 10; i++)
    holes[i] = hole (36.0 * i, 0.9);
  g_assert_true (fr_taphole_find (&flat, holes, 10, &place));
  says (&place, holes, 10, NULL, TRUE,
        "No place keeps the asked distance: the best has 0.50 of it. Nearest is hole 5, on the south-east "
        "side.");
}

/* 15 cm above the hole of 2024 is half of 30 cm; 35 cm above is past its column of 23 cm as modelled. */
static void
test_dragged (void)
{
  static const guint seasons[] = { 2024, 0 };

  dragged (90, 0.95, seasons,
           "Too near: it has 0.50 of the asked distance. Nearest is the hole of 2024, on the east side. "
           "Straight above "
           "the hole of 2024: it would sit in its stained wood.");
  dragged (90.5, 1.15, seasons,
           "1.1 times the asked distance from every hole. Nearest is the hole of 2024, on the east side. "
           "Straight above "
           "the hole of 2024: its stained wood may reach this far.");
  dragged (270, 0.85, seasons,
           "Too near: it has 0.50 of the asked distance. Nearest is hole 2, on the west side. Straight below "
           "hole 2: it "
           "would sit in its stained wood.");
  dragged (90, 0.8, NULL,
           "Too near: it has 0.00 of the asked distance. Nearest is hole 1, on the east side. Right at hole "
           "1: it would "
           "sit in its stained wood.");
  dragged (0, 1.3, seasons,
           "Outside the heights that are asked for. 2.5 times the asked distance from every hole. Nearest is "
           "the hole of "
           "2024, on the east side.");
}

/* Rounded down: what falls a little short is not told as kept; what just keeps is 1.0. */
static void
test_rounding (void)
{
  const FrHole one = hole (0, 0.9);
  FrTaphole place;

  g_assert_true (fr_taphole_clearance (&trunk, &one, 1, 0, 0.9 + 0.2995, &place));
  says (&place, &one, 1, NULL, FALSE,
        "Too near: it has 0.99 of the asked distance. Nearest is hole 1, on the north side. Straight above "
        "hole 1: its "
        "stained wood may reach this far.");
  g_assert_true (fr_taphole_clearance (&trunk, &one, 1, 36, 0.9, &place));
  says (&place, &one, 1, NULL, FALSE,
        "1.0 times the asked distance from every hole. Nearest is hole 1, on the north side.");
  g_assert_true (fr_taphole_clearance (&trunk, &one, 1, 70, 0.9, &place));
  says (&place, &one, 1, NULL, FALSE,
        "1.9 times the asked distance from every hole. Nearest is hole 1, on the north side.");
}

static void
test_several (void)
{
  const FrHole one = hole (0, 0.9);
  FrTaphole places[2];

  g_assert_true (fr_taphole_find_several (&trunk, NULL, 0, 2, places));
  says (&places[0], NULL, 0, NULL, TRUE,
        "5.0 times the asked distance from every hole; it is the most this trunk offers. Nearest is another "
        "place of "
        "this season.");
  g_assert_true (fr_taphole_clearance (&trunk, &one, 1, 180, 0.9, &places[0]));
  says (&places[0], &one, 1, NULL, FALSE,
        "5.0 times the asked distance from every hole. Nearest is hole 1, on the north side.");
}

/* A household that writes a comma reads one. */
static void
test_comma (void)
{
  const FrSay comma = { .units = { .decimal_mark = ',' } };
  const FrHole one = hole (90, 0.8);
  g_autofree char *text = NULL;
  FrTaphole place;

  g_assert_true (fr_taphole_find (&trunk, &one, 1, &place));
  text = fr_taphole_reason (&place, &one, 1, NULL, TRUE, &comma);
  g_assert_true (g_str_has_prefix (text, "5,0 times"));
}

static void
test_sides (void)
{
  static const struct
  {
    double angle_deg;
    const char *side;
  } cases[] = { { 0, "north side" },        { 22.4, "north side" },     { 22.6, "north-east side" },
                { 90, "east side" },        { 135, "south-east side" }, { 180, "south side" },
                { 225, "south-west side" }, { 270, "west side" },       { 315, "north-west side" },
                { 337.6, "north side" },    { 360, "north side" },      { -90, "west side" },
                { 720, "north side" } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    g_assert_cmpstr (fr_trunk_side (cases[i].angle_deg), ==, cases[i].side);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/taphole-words/found", test_found);
  g_test_add_func ("/taphole-words/no-place", test_no_place);
  g_test_add_func ("/taphole-words/dragged", test_dragged);
  g_test_add_func ("/taphole-words/rounding", test_rounding);
  g_test_add_func ("/taphole-words/several", test_several);
  g_test_add_func ("/taphole-words/comma", test_comma);
  g_test_add_func ("/taphole-words/sides", test_sides);
  return g_test_run ();
}
