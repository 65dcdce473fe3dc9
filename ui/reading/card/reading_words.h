#pragma once

#include <QList>
#include <QPair>
#include <QString>

#include "ui/reading/shot/shot_view.h"

/// What the reading card says, in words.
namespace ui::reading {

/// Something to know about a reading, one line.
struct Remark {
    enum class Kind { Warning, LooksAlike, Note, Agrees };
    Kind kind{Kind::Note};
    QString text;
};

/// What could fool the reader, most serious first.
[[nodiscard]] QList<Remark> remarksOf(const ShotView& view);

/// What to do next, as long as there is no reading; empty when there is one.
[[nodiscard]] QString nextStepOf(const ShotView& view);

/// What the reading rests on: name and value of each fact.
[[nodiscard]] QList<QPair<QString, QString>> factsOf(const ShotView& view);

/// "12 (+4.2 ms)"
[[nodiscard]] QString frameText(const ShotView& view, core::timebase::FrameIndex frame);
/// "17 (turn 1), between 21 and 22 (turn 2)"
[[nodiscard]] QString returnsText(const ShotView& view);
/// "rectangular, ± 0.0042 s"
[[nodiscard]] QString distributionText(const core::spin::BudgetRow& row);

}  // namespace ui::reading
