#pragma once

#include <QWidget>
#include <vector>

#include "core/findings/findings.h"

class QLabel;
class QTableView;

namespace ui::models {
class PairMatrixModel;
}

namespace ui::findings {

/// The square of pairs, what is said of the chosen pair, and what more filming would settle.
/// Confined.
class PairsView : public QWidget {
    Q_OBJECT

public:
    explicit PairsView(QWidget* parent = nullptr);

    void show(const core::findings::FindingsPtr& findings,
              const core::findings::Comparison* comparison);

Q_SIGNALS:
    /// The shots of both implements of a pair are wanted.
    void pairActivated(core::project::ImplementId first, core::project::ImplementId second);

private:
    void sayChosen();

    models::PairMatrixModel* m_pairs;
    QTableView* m_table;
    QLabel* m_summary;
    QLabel* m_sentence;
    QLabel* m_signs;
    std::optional<core::Rpm> m_step;
};

}  // namespace ui::findings
