#pragma once

#include <QWidget>
#include <optional>

#include "core/findings/findings.h"
#include "core/project/store.h"

class QCheckBox;
class QComboBox;
class QLabel;
class QLineEdit;

namespace ui::findings {

/// Whose findings are shown, and what the tester sets: the noticeable step and the bands, typed in
/// the place. Refused input stays in the field, and a line under it says why. Confined.
class FindingsBar : public QWidget {
    Q_OBJECT

public:
    explicit FindingsBar(core::project::Store& store, QWidget* parent = nullptr);

    /// Fields and choices as the findings have them; a field that is being typed in is left alone.
    void show(const core::findings::Findings& findings);
    [[nodiscard]] std::optional<core::project::HitterId> hitter() const;
    [[nodiscard]] bool areHittersApart() const;

Q_SIGNALS:
    void scopeChanged();

private:
    void keepStep();
    void keepBands();
    void refuse(QLineEdit* field, const std::string& why);
    void fill(QLineEdit* field, const QString& text);

    core::project::Store& m_store;
    QComboBox* m_scope;
    QCheckBox* m_apart;
    QLineEdit* m_step;
    QLineEdit* m_bands;
    QLabel* m_refusal;
    QLineEdit* m_refused{};
};

}  // namespace ui::findings
