#pragma once

#include <QString>

namespace ui::footage {

/// For dialogs that ask for films.
inline QString filmFilter() {
    return QStringLiteral(
        "Video (*.mp4 *.mov *.m4v *.mkv *.avi *.webm *.mts *.3gp);;All files (*)");
}

}  // namespace ui::footage
