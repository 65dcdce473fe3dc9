#include <QString>

#include "core/base/units.h"
#include "core/spin/mark_set.h"
#include "ui/style/palette.h"
