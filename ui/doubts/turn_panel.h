#pragma once

#include <QWidget>
#include <optional>

#include "core/project/store.h"
#include "ui/bridge/job_runner.h"

class QLabel;

namespace ui::doubts {

class TurnPictures;
class TurnStrip;

/// The turn that a reading claims: said, and in pictures; where these are not there, why. Confined
/// to the thread of the store.
class TurnPanel : public QWidget {
    Q_OBJECT

public:
    /// Both must outlive it.
    TurnPanel(core::project::Store& store, bridge::JobRunner& jobs, QWidget* parent = nullptr);

    /// Hides itself where the reading claims no turn that can be shown.
    void show(std::optional<core::project::ReadingId> reading);
    /// Of each picture, px.
    void setPictureSide(int px);

private:
    void sayWhatLacks();

    core::project::Store& m_store;
    TurnPictures* m_pictures;
    QLabel* m_claim;
    TurnStrip* m_turn;
    QLabel* m_lack;  ///< why pictures are not there
};

}  // namespace ui::doubts
