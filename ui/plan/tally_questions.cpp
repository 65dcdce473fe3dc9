#include "ui/plan/tally_questions.h"

#include <QCheckBox>
#include <QComboBox>
#include <QHBoxLayout>
#include <QPlainTextEdit>
#include <QVBoxLayout>

#include "core/base/words.h"

namespace ui::plan {
namespace {

using core::CommaMeaning;
using core::intake::AlikeNames;

constexpr int kLinesShown = 5;

QComboBox* choiceOf(const char* name, const QStringList& texts) {
    auto* choice = new QComboBox;
    choice->setObjectName(QLatin1String{name});
    choice->addItems(texts);
    return choice;
}

void addLines(QStringList& lines, const std::vector<core::intake::TallyRemark>& remarks) {
    constexpr std::size_t kMost = 200;
    for (std::size_t i = 0; i < std::min(remarks.size(), kMost); ++i) {
        lines << QString::fromStdString(remarks[i].message);
    }
    if (remarks.size() > kMost) {
        lines << TallyQuestions::tr("and %1 more").arg(remarks.size() - kMost);
    }
}

/// kind: as core::intake::AlikeGroup has it.
QString alikeWords(const std::string& kind) {
    if (kind == "implement") {
        return TallyQuestions::tr("The names of implements %1 differ only in case or spaces.");
    }
    return kind == "hitter"
               ? TallyQuestions::tr("The names of hitters %1 differ only in case or spaces.")
               : TallyQuestions::tr("The names of conditions %1 differ only in case or spaces.");
}

QString counted(std::size_t count, const char* one, const char* more) {
    return QString::fromStdString(core::counted(count, one, more));
}

}  // namespace

TallyQuestions::TallyQuestions(QWidget* parent)
    : QWidget{parent},
      m_list{new QPlainTextEdit},
      m_leaveOut{new QCheckBox},
      m_accept{new QCheckBox},
      m_alike{choiceOf("tally_alike",
                       {tr("Names that are alike: choose…"), tr("Names that are alike: one name"),
                        tr("Names that are alike: kept apart")})},
      m_comma{choiceOf("tally_comma",
                       {tr("1,000 means: choose…"), tr("1,000 means 1"), tr("1,000 means 1000")})} {
    m_list->setObjectName(QStringLiteral("tally_doubts"));
    m_list->setAccessibleName(tr("What is to be decided"));
    m_list->setReadOnly(true);
    m_list->setTabChangesFocus(true);
    m_list->setLineWrapMode(QPlainTextEdit::WidgetWidth);
    m_list->setFixedHeight(m_list->fontMetrics().lineSpacing() * kLinesShown + 12);
    m_leaveOut->setObjectName(QStringLiteral("tally_leave_out"));
    m_accept->setObjectName(QStringLiteral("tally_accept"));
    auto* decisions = new QHBoxLayout;
    decisions->setSpacing(16);
    for (QWidget* each : {static_cast<QWidget*>(m_leaveOut), static_cast<QWidget*>(m_accept),
                          static_cast<QWidget*>(m_alike), static_cast<QWidget*>(m_comma)}) {
        decisions->addWidget(each);
    }
    decisions->addStretch();
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(m_list);
    layout->addLayout(decisions);
    connect(m_leaveOut, &QCheckBox::toggled, this, &TallyQuestions::decided);
    connect(m_accept, &QCheckBox::toggled, this, &TallyQuestions::decided);
    connect(m_alike, &QComboBox::currentIndexChanged, this, &TallyQuestions::decided);
    connect(m_comma, &QComboBox::currentIndexChanged, this, &TallyQuestions::decided);
    showNothing();
}

void TallyQuestions::decide(core::intake::TallySource& source) const {
    source.leaveOutBadRows = m_leaveOut->isChecked();
    source.acceptImprobable = m_accept->isChecked();
    source.alike = static_cast<AlikeNames>(m_alike->currentIndex());
    source.comma = static_cast<CommaMeaning>(m_comma->currentIndex());
}

void TallyQuestions::show(const core::intake::Tally& tally,
                          const core::intake::TallySource& source) {
    QStringList lines;
    addLines(lines, tally.faults);
    addLines(lines, tally.improbable);
    for (const auto& group : tally.alike) {
        QStringList names;
        for (const auto& name : group.names) {
            names << QStringLiteral("\"%1\"").arg(QString::fromStdString(name));
        }
        lines << alikeWords(group.kind)
                     .arg(names.size() == 2 ? tr("%1 and %2").arg(names[0], names[1])
                                            : names.join(QStringLiteral(", ")));
    }
    m_leaveOut->setText(
        tr("Leave out %1")
            .arg(counted(tally.faults.size(), "row with a fault", "rows with a fault")));
    m_accept->setText(tr("Take %1").arg(
        counted(tally.improbable.size(), "odd count as it is", "odd counts as they are")));
    m_leaveOut->setVisible(!tally.faults.empty());
    m_accept->setVisible(!tally.improbable.empty());
    m_alike->setVisible(!tally.alike.empty() || source.alike != AlikeNames::Ask);
    m_comma->setVisible(tally.hasTwoReadings || source.comma != CommaMeaning::Ask);
    m_list->setVisible(!lines.isEmpty());
    if (const QString text = lines.join(QLatin1Char('\n')); text != m_list->toPlainText()) {
        m_list->setPlainText(text);
    }
    setVisible(!lines.isEmpty() || m_alike->isVisibleTo(this) || m_comma->isVisibleTo(this));
}

void TallyQuestions::showNothing() {
    m_list->clear();
    hide();
}

}  // namespace ui::plan
