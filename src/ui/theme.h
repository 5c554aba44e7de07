/* The palette the window is shown in now, for drawn widgets. */
#pragma once

#include "paint/palette.h"

FrPalette
fr_theme_palette (void);
