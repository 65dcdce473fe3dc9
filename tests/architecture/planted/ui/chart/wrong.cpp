#include <sqlite3.h>

#include "core/findings/words.h"
#include "core/project/store.h"
#include "ui/reading/shot/scene_view.h"
