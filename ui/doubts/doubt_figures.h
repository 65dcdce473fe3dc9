#pragma once

#include <QWidget>

#include "core/doubts/doubt.h"
#include "core/project/store.h"
#include "ui/bridge/job_runner.h"

class QLabel;

namespace ui::doubts {

class RateScale;
class TurnPictures;
class TurnStrip;

/// What can be seen of a doubt: the rates that rival beside the rest of the cell, and the turn that
/// the reading in use claims, in pictures. Confined to the thread of the store.
class DoubtFigures : public QWidget {
    Q_OBJECT

public:
    /// Both must outlive it.
    DoubtFigures(core::project::Store& store, bridge::JobRunner& jobs, QWidget* parent = nullptr);

    /// Null: nothing is chosen.
    void show(const core::doubts::Doubted* item);

private:
    void showTurn(const core::doubts::Doubted* item);
    void sayWhatLacks();

    core::project::Store& m_store;
    TurnPictures* m_pictures;
    RateScale* m_scale;
    QLabel* m_claim;
    TurnStrip* m_turn;
    QLabel* m_lack;  ///< why pictures are not there
};

}  // namespace ui::doubts
