#pragma once

#include <QWidget>
#include <memory>

#include "core/project/store.h"

class QLabel;
class QPushButton;
class QSpinBox;

namespace ui::doubts {

/// Draws a sample of kept shots to be read a second time blind, says how far that is, and shows the
/// way to it. Confined to the thread of the store.
class SecondReadingsPanel : public QWidget {
    Q_OBJECT

public:
    explicit SecondReadingsPanel(core::project::Store& store, QWidget* parent = nullptr);
    /// With how many are done, of those that were drawn.
    [[nodiscard]] const QString& title() const noexcept { return m_title; }

Q_SIGNALS:
    void titleChanged();
    /// The first that waits is to be read.
    void blindWanted();
    void said(const QString& text);

private:
    void refresh();
    void draw();

    core::project::Store& m_store;
    QSpinBox* m_count;
    QSpinBox* m_seed;
    QString m_title;
    QLabel* m_words;
    QPushButton* m_draw;
    QPushButton* m_goOn;
    std::shared_ptr<void> m_listening;  // last: silent before the rest goes
};

}  // namespace ui::doubts
