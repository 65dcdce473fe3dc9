#pragma once

#include <QWidget>
#include <optional>
#include <vector>

#include "core/intake/refuted_clock.h"

class QCheckBox;
class QLabel;
class QLineEdit;
class QPushButton;

namespace ui::footage {

/// What is known of a clip's clock and what is wrong with the clip, in plain words, and the place
/// where the reviewer states the capture rate. Confined.
class ClockPanel : public QWidget {
    Q_OBJECT

public:
    explicit ClockPanel(core::project::Store& store, QWidget* parent = nullptr);

    void showClip(std::optional<core::project::ClipId> clip);
    /// All that are chosen in the list, the shown one among them.
    void setChosenClips(std::vector<core::project::ClipId> clips);
    /// Whether the flight of a ball in the clip speaks against the clock.
    [[nodiscard]] bool isRefuted() const noexcept { return m_refuted.has_value(); }
    /// Whether its first button is what the footage needs next.
    void setLeads(bool leads);

Q_SIGNALS:
    /// Kept shots that rest on a clock that was changed.
    void readAgainWanted(const std::vector<core::project::ShotId>& shots);

private:
    void layOut();
    void refresh();
    void refreshFlight();
    void refreshResting();
    /// The rate in the field; absent when it is empty. Errors: why it cannot be used.
    [[nodiscard]] core::Result<std::optional<core::timebase::CaptureRate>> entered() const;
    [[nodiscard]] std::vector<core::project::ClipId> clipsOfFlight() const;
    void useFlight();
    void useEntry();
    void sendWord(std::optional<core::timebase::CaptureRate> rate);
    void showTrouble(const QString& text);

    core::project::Store& m_store;
    std::optional<core::project::ClipId> m_clip;
    std::vector<core::project::ClipId> m_chosen;
    std::optional<core::intake::RefutedClock> m_refuted;
    QLabel* m_summary;
    QLabel* m_flight;  ///< what the ball's flight says against the clock
    QPushButton* m_useFlight;
    QLabel* m_evidence;
    QLineEdit* m_rate;
    QCheckBox* m_distrust;
    QCheckBox* m_tagIsWrong;
    QPushButton* m_use;
    QPushButton* m_withdraw;
    QLabel* m_trouble;
    QLabel* m_resting;  ///< kept shots that are read again with another rate
    QLabel* m_remarks;
    std::shared_ptr<void> m_listening;
};

}  // namespace ui::footage
