/* A bin that tells its subclass when its width passes a limit, so that columns can be put under each other.
 * This libadwaita has no breakpoints; and children must not be moved while they are being laid out, so it is
 * told just after. It can get narrower than its child asks for, or it would never come to the fold. */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

#define FR_TYPE_FOLD_BIN (fr_fold_bin_get_type ())
G_DECLARE_DERIVABLE_TYPE (FrFoldBin, fr_fold_bin, FR, FOLD_BIN, AdwBin)

/**
 * FrFoldBinClass:
 * @limits_px: widths, ended by 0, at most 8; set in class_init
 * @least_px: what it asks for at least, however wide its child is; 0: what the child asks for
 * @fold: called once when the first width is known, and whenever it lies between other limits than before
 */
struct _FrFoldBinClass
{
  AdwBinClass parent_class;
  const int *limits_px;
  int least_px;
  void (*fold) (FrFoldBin *self, int width_px);
};

G_END_DECLS
