/* Tonight's plan: from the sap on hand, the kit, the hours and the prices to litres, times, thickness and cost.
 *
 * Numbers and codes only; words/plan-words.h says them. Inputs and results are plain values that carry no pointer into
 * the book, so that a plan can be computed anywhere. Instants are UTC seconds, spans are elapsed seconds. */
#pragma once

#include "domain/maths/charge.h"
#include "domain/maths/circuit.h"
#include "domain/maths/cost.h"
#include "domain/maths/vessel.h"

G_BEGIN_DECLS

#define FR_PLAN_KITS_MAX 8
#define FR_PLAN_NAME_MAX 96

typedef enum
{
  FR_PLACE_OUTDOORS,
  FR_PLACE_SHED,
  FR_PLACE_INDOORS
} FrPlace;

typedef enum
{
  FR_CUTOFF_BY_WEIGHT,
  FR_CUTOFF_BY_THERMOSTAT,
  FR_CUTOFF_BY_FLOAT,
  FR_CUTOFF_BY_TIMER,
  FR_CUTOFF_BY_NONE
} FrCutoffBy;

/**
 * FrPlanKit:
 * One cooker with its pan, bucket and circuit. NAN for what is unknown.
 */
typedef struct
{
  char name[FR_PLAN_NAME_MAX];
  char pan_name[FR_PLAN_NAME_MAX];
  gint64 cooker_id;
  FrVessel vessel;
  double power_w;
  double heat_ratio;
  double heat_ratio_sd; /* NAN: uncalibrated, ± 15 % */
  double wall_w_per_k;
  double reflux_ratio;
  double hold_l;
  double cutoff_l;
  double min_level_l;   /* the element must stay covered */
  double foam_ratio;    /* free height wanted over the liquid, as a share of its depth */
  double bucket_l;      /* what the bucket holds, NAN: no matter */
  FrFeedKind feed;
  double head_m;        /* outlet above the pan */
  double hole_m;        /* its diameter */
  double rest_l;        /* already in the pan from last night; NAN or 0 none */
  double rest_brix;
  double rest_c;
  gint64 circuit_id;    /* 0: unknown */
  char circuit_name[FR_PLAN_NAME_MAX];
  double breaker_a;
  double volts_v;
  double other_load_w;
  gboolean gfci;
  FrPlace place;
  FrCutoffBy cutoff_by;
  gboolean solder;
  double poured_pan_l;  /* a kept night: what stands in pan and bucket is given, not sought; NAN for a plan */
  double poured_brix;   /* of the pan */
  double poured_c;
  double poured_bucket_l;
  gboolean off;         /* not tonight: it is passed over, save for a word when its circuit could not bear it */
} FrPlanKit;

/**
 * FrPlanInput:
 * Everything the evening asks.
 */
typedef struct
{
  double sap_l;
  double sap_brix;
  double sap_c;
  gint64 oldest_utc;     /* when the oldest of it was gathered; G_MININT64 unknown */
  gint64 spoils_utc;     /* when the first of it has been kept for as long as it may; G_MININT64 unknown: worked out from its age */
  gint64 now_utc;
  gboolean kept;         /* a night that was kept: every kit that is on has its poured_ members */
  guint n_kits;
  FrPlanKit kits[FR_PLAN_KITS_MAX];
  gint64 start_utc;
  gint64 off_by_utc;
  double max_brix;       /* no thicker than */
  double air_c;          /* mean of the night where the pan stands */
  double air_low_c;      /* lowest of the night outdoors; NAN unknown */
  double altitude_m;
  double water_boils_c;  /* plain water in this pot today, NAN: by altitude */
  const FrZoneTable *zone;  /* borrowed */
  const FrTariff *tariff;   /* borrowed; NULL: prices unknown */
  char fuel_name[FR_PLAN_NAME_MAX];
  double fuel_price_per_kg; /* minor units; NAN no fuel */
  double fuel_mj_per_kg;
  double fuel_heat_ratio;
  gboolean fuel_flame;
  double syrup_brix;
  double jar_l;
} FrPlanInput;

typedef enum
{
  FR_PLAN_OK,
  FR_PLAN_NO_SAP,     /* nothing on hand */
  FR_PLAN_NO_KIT,     /* no cooker chosen */
  FR_PLAN_NO_HOURS,   /* off-by is not after start */
  FR_PLAN_TOO_LITTLE, /* the sap would not stand above the cut-off in any pan */
  FR_PLAN_TOO_LATE,   /* not even the pan alone is done in time; see needs_start_utc */
  FR_PLAN_TOO_SWEET,  /* what is in the pan would end past the ceiling without any feed */
  FR_PLAN_NEVER_BOILS,/* the power does not lift it to the boil */
  FR_PLAN_BAD_KIT,    /* a number of the kit cannot be: fault */
  FR_PLAN_BAD_INPUT   /* a number of the evening cannot be: fault */
} FrPlanStatus;

/* How the bucket runs: what a stream set once does over the night. */
typedef struct
{
  double flow_ratio;   /* 0.8, 1.0, 1.2 of the set rate */
  FrEnd ended_by;
  double end_s;
  double dry_s;
  double rim_s;        /* NAN: never */
  double foam_s;
  double min_s;
} FrPlanFeedCase;

typedef struct
{
  double flow_l_per_h;     /* mean while it feeds */
  double ml_per_min;
  double s_per_100ml;
  double drops_per_min;    /* 20 drops a millilitre; above 300 it is a stream that cannot be counted */
  double hole_m;           /* opening for this flow at the head; NAN without a head */
  double trip_mass_kg;     /* liquid in the pan at the cut-off */
  guint n_cases;           /* for a stream or hole: set rate and ± 20 % */
  FrPlanFeedCase cases[3];
  double trip_worst_s;     /* if the power trips at the worst hour and the feed runs on: when, NAN harmless */
  double trip_rim_s;       /* and when it then runs over the rim */
} FrPlanFeed;

/* One cooker's part of the night. */
typedef struct
{
  guint kit;               /* index into the input */
  gboolean used;           /* FALSE: stays off tonight */
  FrPlanStatus off_because; /* why it stays off: TOO_LITTLE, TOO_LATE, TOO_SWEET or NEVER_BOILS */
  double pan_l;            /* sap to pour into the pan now, beside what is in it */
  double bucket_l;         /* recommended: holds at the unfavourable end of the heat ratio's range; rounded down to 0.1 L */
  double bucket_max_l;     /* at the heat ratio as it stands */
  FrLimit limited_by;      /* what bounds bucket_l */
  FrLimit next;
  double next_l;
  FrBoil boil;             /* the boil as planned; table is NULL outside the plan */
  FrBoilRun run;           /* with trace */
  double early_s;          /* end at the favourable and the unfavourable end of the range */
  double late_s;
  double finish_kg;        /* water still to boil off, 0 when already syrup */
  double finish_s;         /* boiling time for it on this cooker */
  double syrup_l;          /* at 20 °C */
  double level_hold_m;     /* depth at hold and cut-off */
  double level_cutoff_m;
  double energy_kwh;
  double cost_minor;       /* NAN when prices are unknown */
  FrPlanFeed feed;
  FrCircuitLoad circuit;
} FrPlanShare;

typedef enum
{
  FR_CAUTION_CIRCUIT_OVER,   /* a amps of b allowed, name */
  FR_CAUTION_NO_CUTOFF,      /* nothing cuts the power: name */
  FR_CAUTION_RUNS_OVER,      /* a trip at a s makes the feed run over at b s: name */
  FR_CAUTION_RIM,            /* level would rise past the rim at a s */
  FR_CAUTION_MIN_LEVEL,      /* cut-off a L is below the minimum b L over the element: name */
  FR_CAUTION_SOLDER,         /* old solder or galvanised metal: name */
  FR_CAUTION_STEAM,          /* a kg of steam indoors */
  FR_CAUTION_FOAM,           /* free height a m, wanted b m: name */
  FR_CAUTION_FROST,          /* the night's low a °C is below freezing of sap b °C: feed line */
  FR_CAUTION_CIRCUIT_NEAR,   /* a amps of b allowed, name */
  FR_CAUTION_LEFT_OFF,       /* an off cooker would draw a amps of b allowed, name */
  FR_CAUTION_NO_GFCI,        /* outdoors or in a shed without one: name */
  FR_CAUTION_AGE,            /* the sap is past its time by a s */
  FR_CAUTION_THICK,          /* what is left, a °Bx, is close to syrup: scorches fast */
  FR_CAUTION_UNCALIBRATED,   /* the heat ratio was never measured: name */
  FR_CAUTION_BREAKER_UNKNOWN,/* no circuit given: name */
  FR_CAUTION_FLAME,          /* a flame goes outdoors only */
  FR_CAUTION_ATTEND,         /* somebody stays within call; next look at a UTC */
  FR_CAUTION_STEAM_OK,       /* a passed check: outdoors and no flame */
  FR_N_CAUTIONS
} FrCautionCode;

typedef enum
{
  FR_SEVERITY_DANGER, /* to life: first, never dismissible */
  FR_SEVERITY_WARN,
  FR_SEVERITY_PASSED
} FrSeverity;

typedef struct
{
  FrCautionCode code;
  FrSeverity severity;
  guint kit;  /* which cooker, or G_MAXUINT */
  double a;
  double b;
} FrCaution;

/* The same sap on another way. */
typedef enum
{
  FR_WAY_TONIGHT,
  FR_WAY_DAY,   /* started when the price rises */
  FR_WAY_BEST,  /* cheapest start within the next 24 hours, when it beats tonight */
  FR_WAY_FUEL   /* on the fuel; kg in a */
} FrWayCode;

typedef struct
{
  FrWayCode code;
  gint64 start_utc;
  double fuel_kg;
  double cost_minor;
} FrWay;

/* What would take the sap that stays. */
typedef enum
{
  FR_OPTION_EARLIER,      /* start at start_utc instead */
  FR_OPTION_LATER,        /* go on into dearer hours until end_utc; extra cost */
  FR_OPTION_SECOND,       /* a second cooker of power_w on a circuit of its own */
  FR_OPTION_REFILL,       /* the bucket's size binds: fill it again at utc */
  FR_OPTION_HIGHER_CUTOFF /* the ceiling binds: cut off at cutoff_l instead */
} FrOptionCode;

typedef struct
{
  FrOptionCode code;
  guint kit;          /* REFILL, HIGHER_CUTOFF: which cooker; else G_MAXUINT */
  gint64 utc;         /* start or end; REFILL: the bucket is dry then */
  double power_w;
  double cutoff_l;
  double extra_minor; /* cost beside tonight's, NAN unknown */
} FrOption;

/* A stretch of one price, for the skyline. */
typedef struct
{
  gint64 from_utc;
  gint64 to_utc;
  double full_per_kwh;
} FrPriceSpan;

typedef struct
{
  FrPlanStatus status;
  char fault[48];          /* member of FrBoil or of the input that is out of range */
  guint fault_kit;
  double fault_min;
  double fault_max;
  double pressure_pa;
  double water_boils_c;
  double finish_c;         /* syrup's boiling temperature today */
  guint n_shares;
  FrPlanShare shares[FR_PLAN_KITS_MAX];
  double used_l;           /* sap used tonight */
  double over_l;           /* sap that stays */
  gint64 keep_until_utc;   /* the oldest of it keeps until then at its temperature; G_MININT64 unknown */
  gint64 dry_utc;          /* last bucket dry, last cut-off */
  gint64 end_utc;
  gint64 early_utc;
  gint64 late_utc;
  double left_kg;          /* in all pans */
  double left_l;
  double left_brix;        /* mixed */
  double finish_kg;
  double finish_s;
  double syrup_l;
  double jars;
  double energy_kwh;
  double cost_minor;
  FrTariffProblem price_problem; /* why the cost is unknown, code OK when it is not or there is no tariff */
  gint64 rise_utc;         /* next rise of the price after start, G_MININT64 none within two days */
  double price_before;     /* full, minor per kWh */
  double price_after;
  guint n_spans;
  FrPriceSpan *spans;
  guint n_ways;
  FrWay ways[4];
  double start_cost_minor[24]; /* the same run started 0 to 23 hours after start; NAN unknown */
  double fuel_break_even_per_kg;
  guint n_options;
  FrOption options[4];
  guint n_cautions;
  FrCaution cautions[FR_PLAN_KITS_MAX * 12 + 8];
  gint64 needs_start_utc;  /* TOO_LATE: start by then */
} FrPlan;

/* Never NULL; look at status first. */
FrPlan *fr_plan_new (const FrPlanInput *input);
void fr_plan_free (FrPlan *plan);

/* Hours to offer: the next stretch of the lowest price of the coming day, its start (or now, if inside it) and ten minutes before
 * its end; without a tariff 19:00 to 06:50. At least three hours of a stretch must be left. */
void fr_plan_default_hours (const FrTariff *tariff, const FrZoneTable *zone, gint64 now_utc, gint64 *start_out,
                            gint64 *off_by_out);

const char *fr_plan_status_code (FrPlanStatus status);
const char *fr_caution_code (FrCautionCode code);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrPlan, fr_plan_free)

G_END_DECLS
