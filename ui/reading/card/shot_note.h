#pragma once

#include <QWidget>
#include <optional>

#include "ui/reading/reading_desk.h"

namespace ui::reading {

class ReasonEdit;

/// A person's words about the shot, written where the shot is read. Enter keeps them, as does going
/// on to another shot; Escape leaves them as they were. While names are hidden they are too.
/// Confined.
class ShotNote : public QWidget {
    Q_OBJECT

public:
    explicit ShotNote(ReadingDesk& desk, QWidget* parent = nullptr);

private:
    void refresh();
    void keep();
    void leave();

    ReadingDesk& m_desk;
    ReasonEdit* m_line;
    std::optional<core::project::ShotId> m_shot;  ///< whose note is shown
};

}  // namespace ui::reading
