/* The ground's sentences. Sizes and turns worked out by hand: 3-4-5 triangles, a box of 6 by 4, a quarter
 * turn. */
#include <math.h>
#include <string.h>

#include "words/ground-words.h"

static const FrSay metric = { .units = { .system = FR_SYSTEM_METRIC, .decimal_mark = '.' } };

/* As seen: a thin gap stands between number and unit. */
static void
assert_says (char *text, const char *wanted)
{
  g_autofree char *taken = text;
  GString *plain = g_string_new (NULL);

  g_assert_nonnull (text);
  for (const char *c = text; *c != '\0'; c = g_utf8_next_char (c))
    if (g_unichar_isspace (g_utf8_get_char (c)))
      g_string_append_c (plain, ' ');
    else
      g_string_append_len (plain, c, g_utf8_next_char (c) - c);
  g_assert_cmpstr (plain->str, ==, wanted);
  g_string_free (plain, TRUE);
}

static void
test_measured (void)
{
  assert_says (fr_measured_sentence (12.5, 230, -14, &metric), "12.5 m at 230° by the compass, 216° true.");
  assert_says (fr_measured_sentence (9, 5, -11.5, &metric), "9.0 m at 5° by the compass, 353.5° true.");
  assert_says (fr_measured_sentence (9, 355, 10, &metric), "9.0 m at 355° by the compass, 5° true.");
  assert_says (fr_measured_sentence (9, 90, NAN, &metric),
               "9.0 m at 90° by the compass, taken as true: the declination is unknown.");
}

static void
test_drawings (void)
{
  static const FrGroundPoint line[] = { { 0, 0 }, { 3, 4 }, { 3, 9 } };
  static const FrGroundPoint box[] = { { 7, 5 }, { 1, 1 } };
  static const FrGroundPoint outline[] = { { 0, 0 }, { 6, 0 }, { 6, 4 }, { 0, 4 } };

  assert_says (fr_drawing_words ("path", line, 3, &metric), "10.0 m long, 3 corners");
  assert_says (fr_drawing_words ("building", box, 2, &metric), "6.0 m by 4.0 m");
  assert_says (fr_drawing_words ("building", outline, 4, &metric), "24 m² of ground");
  assert_says (fr_drawing_words ("store", box, 1, &metric), "a mark");
}

static void
test_earth (void)
{
  FrGround ground = { .anchor_lat_deg = { .value = 44.26 },
                      .anchor_lon_deg = { .value = -72.5 },
                      .declination_deg = { .value = -13.5 } };

  assert_says (fr_anchor_sentence (&ground, &metric), "The plan’s zero lies at 44.26000° N, 72.50000° W.");
  assert_says (fr_declination_sentence (&ground, &metric), "The needle points 13.5° west of true north.");
  ground.anchor_x_m.value = 12;
  ground.anchor_y_m.value = -3;
  assert_says (fr_anchor_sentence (&ground, &metric),
               "12.0 m east and 3.0 m south of zero lies at 44.26000° N, 72.50000° W.");
  assert_says (fr_declination_sentence (NULL, &metric), "Unknown, so bearings are taken as true.");
}

/* What lies to the right in the picture and to the south on the plan: its upper edge looks east. */
static void
test_picture (void)
{
  assert_says (fr_picture_sentence (0, 0, 0, 0, 100, 0, 25, 0, 200, 100, &metric),
               "1 px is 25.0 cm, so it covers 50.0 m by 25.0 m. North is up in it.");
  assert_says (fr_picture_sentence (0, 0, 0, 0, 100, 0, 0, -25, 200, 100, &metric),
               "1 px is 25.0 cm, so it covers 50.0 m by 25.0 m. Up in it is 90° east of north.");
  assert_says (fr_picture_sentence (0, 100, 0, 0, 0, 0, -3, 4, 200, 100, &metric),
               "1 px is 5.0 cm, so it covers 10.0 m by 5.0 m. Up in it is 36.9° west of north.");
  g_assert_null (fr_picture_sentence (5, 5, 0, 0, 5, 5, 1, 0, 200, 100, &metric));
  g_assert_null (fr_picture_sentence (0, 0, 1, 1, 5, 5, 1, 1, 200, 100, &metric));
  g_assert_null (fr_picture_sentence (NAN, 0, 1, 1, 5, 5, 1, 0, 200, 100, &metric));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ground-words/measured", test_measured);
  g_test_add_func ("/ground-words/drawings", test_drawings);
  g_test_add_func ("/ground-words/earth", test_earth);
  g_test_add_func ("/ground-words/picture", test_picture);
  return g_test_run ();
}
