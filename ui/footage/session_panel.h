#pragma once

#include <QWidget>
#include <array>
#include <optional>

#include "core/project/store.h"

class QComboBox;
class QLabel;
class QLineEdit;

namespace ui::footage {

/// The facts of the filming day that every reading needs: marking of the ball, its diameter, the
/// camera's exposure, field of view and readout. Each field is stored when it is left. Confined.
class SessionPanel : public QWidget {
    Q_OBJECT

public:
    explicit SessionPanel(core::project::Store& store, QWidget* parent = nullptr);

    void showSession(std::optional<core::project::SessionId> session);

private:
    enum Field { kDiameter, kExposure, kFieldOfView, kReadout, kFieldCount };
    void refresh();
    void commit();

    core::project::Store& m_store;
    std::optional<core::project::SessionId> m_session;
    QComboBox* m_marking;
    std::array<QLineEdit*, kFieldCount> m_fields{};
    QLabel* m_message;
    std::shared_ptr<void> m_listening;
};

}  // namespace ui::footage
