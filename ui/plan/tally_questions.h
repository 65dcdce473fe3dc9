#pragma once

#include <QWidget>

#include "core/intake/tallies.h"

class QCheckBox;
class QComboBox;
class QPlainTextEdit;

namespace ui::plan {

/// What a person decides about a table of counts before it comes in: rows that cannot be read,
/// counts that can hardly be right, names that are alike, what a comma means. Hidden while there is
/// nothing to decide. Confined.
class TallyQuestions : public QWidget {
    Q_OBJECT

public:
    explicit TallyQuestions(QWidget* parent = nullptr);

    /// Puts the decisions into a source.
    void decide(core::intake::TallySource& source) const;
    /// Shows what is to be decided of a tally that was read with the decisions so far.
    void show(const core::intake::Tally& tally, const core::intake::TallySource& source);
    void showNothing();

Q_SIGNALS:
    void decided();

private:
    QPlainTextEdit* m_list;
    QCheckBox* m_leaveOut;
    QCheckBox* m_accept;
    QComboBox* m_alike;
    QComboBox* m_comma;
};

}  // namespace ui::plan
