/* How many taps a tree may carry, and how far apart holes are to be.
 *
 * Published guidelines and spacing rules as tables, each with its source; and a verdict on one tree: what its
 * size allows, what is taken off for poor health, slow growth and heavy tapping, and what to be careful of.
 * The verdict keeps what the size allows, since it warns and never forbids. Diameters are at breast
 * height, 1.37 m. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define FR_BREAST_HEIGHT_M 1.37          /* 4.5 ft, as foresters measure */
#define FR_BORE_M 0.0079375              /* 5/16 in, the standard spout */
#define FR_BORE_DEPTH_M 0.0381           /* 1.5 in, the shallow end of the printed 1.5 to 2 in */
#define FR_TAP_HEIGHT_MIN_M 0.6096       /* 2 ft */
#define FR_TAP_HEIGHT_MAX_M 1.2192       /* 4 ft */
#define FR_GROWTH_MIN_M_PER_YEAR 0.00254 /* 0.1 in of diameter; from memory, unverified */
#define FR_GROWTH_SPAN_MIN_YEARS 2.0
#define FR_HEAVY_SEASONS 3 /* how many past seasons the verdict looks at */
#define FR_HOLE_CLOSES_YEARS 3.0

typedef enum
{
  FR_GUIDELINE_CONSERVATIVE, /* the default */
  FR_GUIDELINE_ONE_TAP,
  FR_GUIDELINE_FACTS,
  FR_GUIDELINE_TRADITIONAL,
  FR_N_GUIDELINES
} FrGuidelineId;

/* Holds from @from_m to below the next row's. */
typedef struct
{
  double from_m; /* diameter */
  guint taps;
} FrGuidelineRow;

/**
 * FrGuideline:
 * @code: as kept in the book: conservative, one_tap, facts, traditional
 * @source: where it is printed and how it was seen; a citation, not for translation
 * @advised_against: its own source does not recommend it
 * @more_needs_growth: every tap after the first only on a tree known to grow well
 */
typedef struct
{
  FrGuidelineId id;
  const char *code;
  const char *source;
  gboolean advised_against;
  gboolean more_needs_growth;
  guint n_rows;
  FrGuidelineRow rows[4];
} FrGuideline;

const FrGuideline *
fr_guideline (FrGuidelineId id);
/* FALSE, with *id_out untouched, when there is none of that code. */
gboolean
fr_guideline_from_code (const char *code, FrGuidelineId *id_out);

/* What the guideline's table says to a diameter over 0; 0 below its first row. The bound itself belongs to
 * the row that begins there, whether it was typed in inches, in centimetres or as a girth (to a billionth).
 */
guint
fr_guideline_taps (const FrGuideline *guideline, double diameter_m);

typedef enum
{
  FR_SPACING_SIX_TWELVE, /* the default */
  FR_SPACING_SIX_TWENTYFOUR,
  FR_SPACING_FOUR_TWELVE,
  FR_SPACING_TWO_SIX,
  FR_SPACING_OWN, /* the household's: its distances are NAN here */
  FR_N_SPACINGS
} FrSpacingId;

/* Distances that a new hole keeps from an old one: either the one sideways or the other up or down. */
typedef struct
{
  FrSpacingId id;
  const char *code; /* six_twelve, six_twentyfour, four_twelve, two_six, own */
  double sideways_m;
  double up_down_m;
  const char *source;
} FrSpacing;

const FrSpacing *
fr_spacing (FrSpacingId id);
gboolean
fr_spacing_from_code (const char *code, FrSpacingId *id_out);

double
fr_diameter_from_girth_m (double girth_m);
double
fr_girth_from_diameter_m (double diameter_m);

/**
 * fr_growth_m_per_year:
 * @at_years: when each was measured, as years with a fraction (2024.8)
 * @diameter_m: what was found; NAN is passed over
 * @n: how many
 *
 * Growth of the diameter, the slope of the straight line with the least squares.
 *
 * Returns: m of diameter a year; NAN when the first and the last measuring lie less than
 * FR_GROWTH_SPAN_MIN_YEARS apart: half a centimetre of tape is 1.6 mm of diameter, as much as a slow year.
 */
double
fr_growth_m_per_year (const double *at_years, const double *diameter_m, guint n);

typedef enum
{
  FR_HEALTH_UNKNOWN,
  FR_HEALTH_HEALTHY,
  FR_HEALTH_WEAK,
  FR_HEALTH_FAILING,
  FR_HEALTH_DEAD,
  FR_N_HEALTHS
} FrHealth;

/* Codes of the book: unknown, healthy, weak, failing, dead. */
gboolean
fr_health_from_code (const char *code, FrHealth *health_out);

/**
 * FrTapFacts:
 * @dbh_m: diameter at breast height; NAN unknown
 * @is_maple: the guidelines speak of maples alone
 * @growth_m_per_year: of the diameter; NAN unknown
 * @past_taps: taps in each past season, the latest first, or NULL
 * @n_past_taps: how many seasons; the first FR_HEAVY_SEASONS count
 * @refused: the owner of the ground said no
 * @never: the household wants it left alone
 */
typedef struct
{
  double dbh_m;
  gboolean is_maple;
  FrHealth health;
  double growth_m_per_year;
  const guint *past_taps;
  guint n_past_taps;
  gboolean refused;
  gboolean never;
  gboolean dead_limbs;
  gboolean wires;
  gboolean lean;
  gboolean roadside;
} FrTapFacts;

/* Why, and what to be careful of. In the order in which they are told. */
typedef enum
{
  FR_TAP_REFUSED = 1 << 0,         /* do not tap */
  FR_TAP_NEVER = 1 << 1,           /* do not tap */
  FR_TAP_DEAD = 1 << 2,            /* do not tap */
  FR_TAP_FAILING = 1 << 3,         /* do not tap */
  FR_TAP_NOT_A_MAPLE = 1 << 4,     /* no rule */
  FR_TAP_SIZE_UNKNOWN = 1 << 5,    /* no rule */
  FR_TAP_TOO_SMALL = 1 << 6,       /* under the guideline's first row */
  FR_TAP_WEAK = 1 << 7,            /* one at most */
  FR_TAP_GREW_SLOWLY = 1 << 8,     /* one fewer */
  FR_TAP_GROWTH_UNKNOWN = 1 << 9,  /* one, where the guideline asks for good growth */
  FR_TAP_HEAVILY_TAPPED = 1 << 10, /* one fewer */
  FR_TAP_DEAD_LIMBS = 1 << 11,     /* warning */
  FR_TAP_WIRES = 1 << 12,          /* warning */
  FR_TAP_LEAN = 1 << 13,           /* warning */
  FR_TAP_ROADSIDE = 1 << 14        /* warning */
} FrTapReason;

#define FR_N_TAP_REASONS 15

/**
 * FrTapVerdict:
 * @size_known: whether a rule speaks of this tree; @taps_by_size means nothing otherwise
 * @taps_by_size: what the guideline's table says to the size alone
 * @max_known: whether @taps_max means something: a rule speaks, or the tree is not to be tapped whatever its
 * size
 * @taps_max: after everything; 0 is "do not tap" (for how long, the reasons tell)
 * @reasons: a set of FrTapReason
 */
typedef struct
{
  gboolean size_known;
  guint taps_by_size;
  gboolean max_known;
  guint taps_max;
  guint reasons;
} FrTapVerdict;

/* First one fewer for slow growth and one fewer for heavy tapping lately, then one at most where the tree is
 * weak (or the guideline asks for good growth and it is not known), then none where it must not be tapped.
 * Past seasons are held against what today's size allows: a tree that passed a bound since then is judged too
 * mildly by that one tap. */
FrTapVerdict
fr_tap_verdict (const FrTapFacts *facts, const FrGuideline *guideline);

typedef enum
{
  FR_CLOSING_NOT_YET,
  FR_CLOSING_SEEN,   /* the household saw it closed */
  FR_CLOSING_LIKELY, /* by its age */
  FR_CLOSING_UNSURE  /* old enough, but on a weak tree, or of unknown age: to be counted as open */
} FrClosing;

/* @since_years: since it was drilled, NAN unknown. A tree whose health was not noted counts as healthy here.
 */
FrClosing
fr_hole_closing (gboolean seen_closed, double since_years, FrHealth health);
gboolean
fr_hole_is_open (FrClosing closing);

G_END_DECLS
