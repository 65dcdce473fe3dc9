#pragma once

#include <QString>

#include "ui/footage/tr.h"

namespace ui::footage {

/// For dialogs that ask for films.
inline QString filmFilter() {
    return tr("Video (*.mp4 *.mov *.m4v *.mkv *.avi *.webm *.mts *.3gp);;All files (*)");
}

}  // namespace ui::footage
