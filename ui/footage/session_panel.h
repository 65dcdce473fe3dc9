#pragma once

#include <QWidget>
#include <array>
#include <optional>

#include "core/intake/day_setup.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QVBoxLayout;

namespace ui::footage {

/// The set-up of a filming day, said once for all its clips: ball, capture rate, exposure, readout,
/// field of view, camera. What the plan or the day before knows is filled in; nothing is kept until
/// it is used. What rests on a change is named, and read again with it. Confined.
class SessionPanel : public QWidget {
    Q_OBJECT

public:
    explicit SessionPanel(core::project::Store& store, QWidget* parent = nullptr);

    void showSession(std::optional<core::project::SessionId> session);
    [[nodiscard]] std::optional<core::project::SessionId> session() const noexcept {
        return m_session;
    }
    /// Puts the cursor into the first field.
    void begin();

Q_SIGNALS:
    void closed();
    /// Kept shots that rest on what was changed.
    void readAgainWanted(const std::vector<core::project::ShotId>& shots);

protected:
    void showEvent(QShowEvent* event) override;

private:
    enum Field { kDiameter, kRate, kExposure, kReadout, kFieldOfView, kFieldCount };
    [[nodiscard]] QWidget* makeForm();
    [[nodiscard]] QWidget* makeButtons();
    void connectParts();
    void refresh();
    void fill(const core::intake::ProposedSetUp& proposed);
    void refreshConsequences();
    void refreshDifferences();
    void use();
    /// What stands in the fields; absent when one cannot be used, which is said.
    [[nodiscard]] std::optional<core::intake::DaySetUp> entered();
    [[nodiscard]] std::optional<double> numberIn(Field field, double most, bool& isWrong);
    void say(const QString& trouble);

    core::project::Store& m_store;
    std::optional<core::project::SessionId> m_session;
    std::optional<core::intake::DaySetUp> m_kept;  ///< as shown
    core::intake::DaySetUp m_filled;               ///< what the fields were filled with
    QLabel* m_title;
    QLabel* m_source;
    QComboBox* m_marking;
    std::array<QLineEdit*, kFieldCount> m_fields{};
    QComboBox* m_stroke;
    QLineEdit* m_camera;
    QLabel* m_message;
    QVBoxLayout* m_remarks;
    QLabel* m_resting;
    QPushButton* m_use;
    QPushButton* m_close;
    std::shared_ptr<void> m_listening;
};

}  // namespace ui::footage
