#pragma once

#include <QComboBox>
#include <optional>

#include "core/project/store.h"

namespace ui::footage {

/// A filming day to choose: one of the project's, or a new one where that is offered. Until
/// somebody chooses it is the last one. Confined.
class SessionBox : public QComboBox {
    Q_OBJECT

public:
    enum class Offer { Known, KnownAndNew };
    SessionBox(core::project::Store& store, Offer offer, QWidget* parent = nullptr);

    /// Absent for a new one, and while the project has none.
    [[nodiscard]] std::optional<core::project::SessionId> session() const;
    /// The one of this name, as soon as the project has it; whether it does.
    bool chooseAdded(const std::string& name);
    [[nodiscard]] QSize sizeHint() const override;

private:
    void refresh();

    core::project::Store& m_store;
    Offer m_offer;
    bool m_isChosen{};  ///< by somebody
    std::shared_ptr<void> m_listening;
};

}  // namespace ui::footage
