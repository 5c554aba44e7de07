/* Everything a person can do on the sugarbush page, each as one change and so one step of undo. Nothing is applied here: the
 * window applies what comes back, which gives the toast with its way back. NULL with @error says in a sentence why not; NULL
 * without one means that nothing would change. */
#pragma once

#include "domain/plan/bush.h"
#include "models/edit.h"

G_BEGIN_DECLS

/* The next free name: the last tree's name with its number raised, else "T1". Free it. */
char *fr_bush_edit_next_name (FrBook *book);

/* A new tree; @name NULL takes the next free one. @x_m, @y_m NAN: not placed. "add-tree". */
FrChange *fr_bush_edit_add_tree (FrBook *book, const char *name, const char *species, double x_m, double y_m, GError **error);
/* The same, measured by tape and compass from another tree: the readings are kept, the place is worked out with the plan's
 * declination. @diameter_m or @girth_m may be known too (NAN), measured @today. @from 0: the first tree, which stands at the
 * plan's zero; the readings are not asked for. */
FrChange *fr_bush_edit_add_measured (FrBook *book, const char *name, const char *species, gint64 from, double distance_m,
                                     double bearing_deg, double girth_m, double diameter_m, FrDate today, GError **error);
/* One tree to a place on the plan, or off it (both NAN). "edit-tree". */
FrChange *fr_bush_edit_place (FrBook *book, gint64 tree, double x_m, double y_m, GError **error);
/* All by the same way; unplaced ones stay. "move-trees", or "edit-tree" for one. */
FrChange *fr_bush_edit_move (FrBook *book, const gint64 *trees, guint n, double dx_m, double dy_m, GError **error);
/* One field of many trees at once: @text for texts and codes, @amount for amounts and switches (0 or 1); for an amount @text is how
 * it was typed, or NULL. "edit-trees", or "edit-tree" for one. */
FrChange *fr_bush_edit_set (FrBook *book, const gint64 *trees, guint n, const char *field, const char *text, double amount,
                            GError **error);
/* Trees without history go for good with their measures and planned taps; others are put away. "delete-trees"/"archive-trees"
 * (when any is put away), "delete-tree"/"archive-tree"/"restore-tree" for one. */
FrChange *fr_bush_edit_remove (FrBook *book, const gint64 *trees, guint n, GError **error);
FrChange *fr_bush_edit_restore (FrBook *book, const gint64 *trees, guint n, GError **error);

/* A measure of a trunk; one of the same day and kind is replaced. "add-girth", "edit-girth" when replaced. */
FrChange *fr_bush_edit_girth (FrBook *book, gint64 tree, FrDate day, gboolean is_girth, double size_m, const char *typed,
                              GError **error);

FrChange *fr_bush_edit_remove_girth (FrBook *book, gint64 girth, GError **error);
/* What a tree gave in a season, as a total; what stood there is replaced. NAN is unknown, @instrument NULL as it was or the first.
 * "add-yield", "edit-yield". */
FrChange *fr_bush_edit_yield (FrBook *book, gint64 tree, guint season, double volume_l, double reading_brix,
                              const char *instrument, double sample_c, GError **error);
FrChange *fr_bush_edit_remove_yield (FrBook *book, gint64 tree, guint season, GError **error);

/* New planned taps of a season; places may have NAN for unknown. "plan-taps". */
FrChange *fr_bush_edit_plan_taps (FrBook *book, gint64 tree, guint season, const FrBushPlace *places, guint n, GError **error);
/* Makes the season's planned taps of the whole bush those of the plan: adds what is missing (with the best places), takes away what
 * is too much; taps already set are left. "plan-taps". */
FrChange *fr_bush_edit_take_plan (FrBook *book, const FrBush *bush, const FrBushPlan *plan, GError **error);
/* Planned taps become set, or stand pulled, on a day; all planned or set ones of these trees and season. "set-taps", "pull-taps". */
FrChange *fr_bush_edit_set_taps (FrBook *book, const gint64 *trees, guint n, guint season, FrDate day, GError **error);
FrChange *fr_bush_edit_pull_taps (FrBook *book, const gint64 *trees, guint n, guint season, FrDate day, GError **error);
/* A tap to another side and height. "move-tap". */
FrChange *fr_bush_edit_move_tap (FrBook *book, gint64 tap, double angle_deg, double height_m, GError **error);
/* A planned tap goes; one that was set or gathered from is history and is put away. "delete-tap"/"archive-tap". */
FrChange *fr_bush_edit_remove_tap (FrBook *book, gint64 tap, GError **error);

/* Something drawn on the ground: new, other points, gone. "add-feature", "edit-feature", "delete-feature". For an edit NULL leaves
 * as it is; an empty name takes the name away. */
FrChange *fr_bush_edit_add_feature (FrBook *book, const char *form, const char *name, const char *points, GError **error);
FrChange *fr_bush_edit_set_feature (FrBook *book, gint64 feature, const char *form, const char *name, const char *points,
                                    GError **error);
FrChange *fr_bush_edit_remove_feature (FrBook *book, gint64 feature, GError **error);

/* The plan's tie to the earth; all NAN takes it away. "edit-ground". */
FrChange *fr_bush_edit_anchor (FrBook *book, double x_m, double y_m, double lat_deg, double lon_deg, GError **error);

/* A known point: where it is in the picture, in its pixels from the upper left, and where on the plan. */
typedef struct
{
  double column;
  double row;
  double x_m;
  double y_m;
} FrPicturePoint;

/* The picture under the plan, placed by two points; NULL points are unknown yet, NULL @file takes it away. "place-picture". */
FrChange *fr_bush_edit_picture (FrBook *book, const char *file, const FrPicturePoint *first, const FrPicturePoint *second,
                                GError **error);

/* One field of the single records, made when missing: "edit-ground", "edit-tapping". @kind GROUND or TAPPING. A
 * spacing of one's own begins with the distances of the rule it takes the place of. */
FrChange *fr_bush_edit_single (FrBook *book, FrKindId kind, const char *field, const char *text, double amount,
                               const char *typed, GError **error);

G_END_DECLS
