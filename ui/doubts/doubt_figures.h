#pragma once

#include <QWidget>

#include "core/doubts/doubt.h"
#include "core/project/store.h"
#include "ui/bridge/job_runner.h"

class QBoxLayout;

namespace ui::doubts {

class RateScale;
class TurnPanel;

/// What can be seen of a doubt: the rates that rival beside the rest of the cell, and the turn that
/// the reading in use claims, in pictures; where a reading contradicts it, that one's turn too,
/// beside it or below. Confined to the thread of the store.
class DoubtFigures : public QWidget {
    Q_OBJECT

public:
    /// Both must outlive it.
    DoubtFigures(core::project::Store& store, bridge::JobRunner& jobs, QWidget* parent = nullptr);

    /// Null: nothing is chosen.
    void show(const core::doubts::Doubted* item);

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    core::project::Store& m_store;
    RateScale* m_scale;
    QBoxLayout* m_turns;
    TurnPanel* m_inUse;
    TurnPanel* m_rival;
};

}  // namespace ui::doubts
