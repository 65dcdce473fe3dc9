#include "ui/findings/findings_bar.h"

#include <QCheckBox>
#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>
#include <algorithm>

#include "core/findings/settings.h"
#include "core/report/number_format.h"
#include "ui/style/hold_back.h"
#include "ui/style/plain_label.h"
#include "ui/style/rank.h"

namespace ui::findings {
namespace {

QLabel* labelFor(const QString& text, QWidget* buddy) {
    auto* label = new QLabel{text};
    label->setBuddy(buddy);
    return label;
}

}  // namespace

FindingsBar::FindingsBar(core::project::Store& store, QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_scope{new QComboBox},
      m_apart{new QCheckBox{tr("Hitters &apart")}},
      m_step{new QLineEdit},
      m_bands{new QLineEdit},
      m_refusal{new QLabel} {
    m_scope->setObjectName(QStringLiteral("scope"));
    m_scope->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    m_scope->setMaximumWidth(m_scope->fontMetrics().averageCharWidth() * 30);
    m_scope->setToolTip(tr("Hitters whose results are compared"));
    m_apart->setToolTip(tr("A marker for each hitter in the chart"));
    m_apart->setChecked(true);
    m_step->setObjectName(QStringLiteral("noticeable_step"));
    m_step->setPlaceholderText(tr("none"));
    m_step->setToolTip(
        tr("The smallest difference that a player notices, in rpm; empty "
           "for none; Enter keeps it"));
    m_step->setMaximumWidth(m_step->fontMetrics().averageCharWidth() * 12);
    m_bands->setObjectName(QStringLiteral("bands"));
    m_bands->setPlaceholderText(tr("none, for example: low 1200 medium 1500 high"));
    m_bands->setToolTip(
        tr("Names and edges in rpm in turn, lowest first; empty for "
           "none; Enter keeps them"));
    style::holdBack({m_step, m_bands}, QString::fromStdString(store.readOnlyReason()));
    m_refusal->setObjectName(QStringLiteral("refusal"));
    style::showPlainWords(m_refusal);
    m_refusal->hide();
    auto* fields = new QHBoxLayout;
    fields->addWidget(labelFor(tr("&Shots of"), m_scope));
    fields->addWidget(m_scope);
    fields->addWidget(m_apart);
    fields->addSpacing(12);
    fields->addWidget(labelFor(tr("&Noticeable step, rpm"), m_step));
    fields->addWidget(m_step);
    fields->addSpacing(12);
    fields->addWidget(labelFor(tr("&Bands, rpm"), m_bands));
    fields->addWidget(m_bands, 1);
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addLayout(fields);
    layout->addWidget(m_refusal);
    connect(m_scope, &QComboBox::currentIndexChanged, this, &FindingsBar::scopeChanged);
    connect(m_apart, &QCheckBox::toggled, this, &FindingsBar::scopeChanged);
    connect(m_step, &QLineEdit::editingFinished, this, &FindingsBar::keepStep);
    connect(m_bands, &QLineEdit::editingFinished, this, &FindingsBar::keepBands);
}

void FindingsBar::show(const core::findings::Findings& findings) {
    const auto before = hitter();
    {
        const QSignalBlocker quiet{m_scope};
        m_scope->clear();
        m_scope->addItem(tr("all hitters"), QVariant::fromValue(qlonglong{0}));
        for (const auto& comparison : findings.comparisons) {
            if (comparison.hitter) {
                m_scope->addItem(
                    tr("hitter %1").arg(QString::fromStdString(comparison.hitterName)),
                    QVariant::fromValue(static_cast<qlonglong>(comparison.hitter->value)));
            }
        }
        const int at =
            before ? m_scope->findData(QVariant::fromValue(static_cast<qlonglong>(before->value)))
                   : 0;
        m_scope->setCurrentIndex(std::max(0, at));
    }
    m_apart->setEnabled(m_scope->count() > 1 && !hitter());
    fill(m_step, findings.noticeableStep
                     ? QString::fromStdString(core::report::shortest(findings.noticeableStep->rpm))
                     : QString{});
    fill(m_bands, QString::fromStdString(findings.bands.text()));
}

std::optional<core::project::HitterId> FindingsBar::hitter() const {
    const auto id = m_scope->currentData().toLongLong();
    return id == 0 ? std::nullopt : std::optional{core::project::HitterId{id}};
}

bool FindingsBar::areHittersApart() const {
    return m_apart->isChecked();
}

void FindingsBar::fill(QLineEdit* field, const QString& text) {
    if (field != m_refused && !field->isModified()) {
        field->setText(text);
    }
}

void FindingsBar::refuse(QLineEdit* field, const std::string& why) {
    m_refused = field;
    style::setWrong(field, true);
    m_refusal->setText(QString::fromStdString(why));
    m_refusal->show();
}

void FindingsBar::keepStep() {
    if (!m_step->isModified()) {
        return;
    }
    const auto step = core::findings::parseStep(m_step->text().toStdString());
    const auto kept = step
                          ? core::findings::setNoticeableStep(m_store, step.value())
                          : core::Result<void>{core::fail(step.error().code, step.error().message)};
    if (!kept) {
        refuse(m_step, kept.error().message);
        return;
    }
    m_step->setModified(false);
    style::setWrong(m_step, false);
    if (m_refused == m_step) {
        m_refused = nullptr;
        m_refusal->hide();
    }
}

void FindingsBar::keepBands() {
    if (!m_bands->isModified()) {
        return;
    }
    const auto bands = core::findings::Bands::parse(m_bands->text().toStdString());
    const auto kept =
        bands ? core::findings::setBands(m_store, bands.value())
              : core::Result<void>{core::fail(bands.error().code, bands.error().message)};
    if (!kept) {
        refuse(m_bands, kept.error().message);
        return;
    }
    m_bands->setModified(false);
    style::setWrong(m_bands, false);
    if (m_refused == m_bands) {
        m_refused = nullptr;
        m_refusal->hide();
    }
}

}  // namespace ui::findings
