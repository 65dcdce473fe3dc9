#pragma once

#include <QWidget>

#include "core/intake/day_setup.h"

class QLabel;

namespace ui::reading {

class ReasonEdit;

/// Asks for the diameter of the ball of a filming day, before the first reading of the day is kept.
/// Enter uses it for every clip of the day; that nobody knows it is an answer too.
class DiameterQuestion : public QWidget {
    Q_OBJECT

public:
    explicit DiameterQuestion(core::project::Store& store, QWidget* parent = nullptr);

    void ask(core::project::SessionId session);

Q_SIGNALS:
    /// The answer is in the project; the kept shots that rest on it.
    void answered(const std::vector<core::project::ShotId>& resting);
    void givenUp();

private:
    void use(const QString& text);
    void store(const core::intake::DaySetUp& setUp);

    core::project::Store& m_store;
    core::project::SessionId m_session;
    ReasonEdit* m_field;
    QLabel* m_trouble;
};

}  // namespace ui::reading
