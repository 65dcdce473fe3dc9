#pragma once

#include <QWidget>
#include <optional>

#include "core/project/store.h"

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
    /// Whether its first button is what the footage needs next.
    void setLeads(bool leads);

private:
    void refresh();
    void useEntry();
    void sendWord(std::optional<core::timebase::CaptureRate> rate);
    void showTrouble(const QString& text);

    core::project::Store& m_store;
    std::optional<core::project::ClipId> m_clip;
    QLabel* m_summary;
    QLabel* m_evidence;
    QLineEdit* m_rate;
    QCheckBox* m_distrust;
    QCheckBox* m_tagIsWrong;
    QPushButton* m_use;
    QPushButton* m_withdraw;
    QLabel* m_trouble;
    QLabel* m_remarks;
    std::shared_ptr<void> m_listening;
};

}  // namespace ui::footage
