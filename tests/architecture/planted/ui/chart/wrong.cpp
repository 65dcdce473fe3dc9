#include <sqlite3.h>

#include "core/findings/words.h"
#include "core/project/store.h"
#include "ui/reading/scene_view.h"
