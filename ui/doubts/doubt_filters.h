#pragma once

#include <QWidget>

#include "core/doubts/find_doubts.h"
#include "core/project/snapshot.h"

class QCheckBox;
class QComboBox;
class QLineEdit;

namespace ui::doubts {

/// Which doubts are listed: of a reason, of a clip, of a cell or an implement with all hitters,
/// with words in them; settled ones too.
class DoubtFilters : public QWidget {
    Q_OBJECT

public:
    explicit DoubtFilters(QWidget* parent = nullptr);

    /// Offers what there is; the choice stays where it still can. doubts: null before the first
    /// look.
    void offer(const core::project::Snapshot& snapshot, const core::doubts::Doubts* doubts);
    [[nodiscard]] bool passes(const core::project::Snapshot& snapshot,
                              const core::doubts::Doubted& item) const;
    /// Something else than everything unsettled is asked for.
    [[nodiscard]] bool isNarrowed() const;
    /// All of an implement or of a cell, settled ones too; absent: of everything.
    void choose(core::project::ImplementId implement);
    void choose(std::optional<core::project::CellId> cell);

Q_SIGNALS:
    /// By the person.
    void changed();

private:
    void chooseOnly(qint64 whose);

    QLineEdit* m_words;
    QComboBox* m_reason;
    QComboBox* m_clip;
    QComboBox* m_cell;
    QCheckBox* m_settledToo;
};

}  // namespace ui::doubts
