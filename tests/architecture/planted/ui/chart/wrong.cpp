#include <sqlite3.h>

#include "core/findings/bands.h"
#include "core/project/store.h"
#include "ui/reading/shot/scene_view.h"
