#include "ui/reading/card/diameter_question.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "core/base/number.h"
#include "ui/models/number_text.h"
#include "ui/reading/card/reason_edit.h"
#include "ui/style/plain_label.h"
#include "ui/style/rank.h"
#include "ui/style/tokens.h"

namespace ui::reading {
namespace {

constexpr double kLeastDiameterMm = 5.0;
constexpr double kMostDiameterMm = 500.0;

QLabel* sentence(const QString& text) {
    auto* label = new QLabel{text};
    style::showPlainWords(label);
    return label;
}

}  // namespace

DiameterQuestion::DiameterQuestion(core::project::Store& store, QWidget* parent)
    : QWidget{parent}, m_store{store}, m_field{new ReasonEdit}, m_trouble{sentence({})} {
    setObjectName(QStringLiteral("diameter_question"));
    m_field->setObjectName(QStringLiteral("ask_diameter"));
    m_field->setAccessibleName(tr("Ball diameter in mm"));
    m_field->setPlaceholderText(tr("mm"));
    auto* unknown = new QPushButton{tr("Not known")};
    unknown->setObjectName(QStringLiteral("diameter_not_known"));
    unknown->setToolTip(
        tr("Nothing checks the capture rate then: a slow-motion export would go unnoticed"));
    style::setRank(unknown, style::Rank::Quiet);
    auto* row = new QHBoxLayout;
    row->addWidget(new QLabel{tr("Ball diameter")});
    row->addWidget(m_field, 1);
    row->addWidget(new QLabel{tr("mm")});
    row->addWidget(unknown);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(style::kPairPx);
    column->addWidget(sentence(
        tr("Before the first reading of this filming day: how large is the ball? With it its fall "
           "checks the capture rate. Enter uses it for the whole day.")));
    column->addLayout(row);
    column->addWidget(m_trouble);
    connect(m_field, &ReasonEdit::given, this, &DiameterQuestion::use);
    connect(m_field, &ReasonEdit::givenUp, this, &DiameterQuestion::givenUp);
    connect(unknown, &QPushButton::clicked, this, [this] {
        if (auto setUp = core::intake::setUpOf(*m_store.snapshot(), m_session)) {
            setUp.value().isDiameterNotKnown = true;
            DiameterQuestion::store(setUp.value());
        }
    });
}

void DiameterQuestion::ask(core::project::SessionId session) {
    m_session = session;
    m_field->clear();
    m_trouble->hide();
    style::setWrong(m_field, false);
    show();
    m_field->setFocus(Qt::OtherFocusReason);
}

void DiameterQuestion::use(const QString& text) {
    const auto typed = models::typedNumber(text, kMostDiameterMm);
    const bool isUsable = typed && typed.value() && *typed.value() >= kLeastDiameterMm;
    style::setWrong(m_field, !isUsable);
    if (!isUsable) {
        m_trouble->setText(
            typed ? tr("Enter it in mm, %1 or more, or press Not known.").arg(kLeastDiameterMm)
                  : QString::fromStdString(typed.error().message));
        m_trouble->show();
        return;
    }
    if (auto setUp = core::intake::setUpOf(*m_store.snapshot(), m_session)) {
        setUp.value().session.ballDiameterMm = typed.value();
        store(setUp.value());
    }
}

void DiameterQuestion::store(const core::intake::DaySetUp& setUp) {
    const auto done = core::intake::setUpDay(m_store, setUp);
    if (done) {
        Q_EMIT answered(done.value());
    } else {
        m_trouble->setText(QString::fromStdString(done.error().message));
        m_trouble->show();
    }
}

}  // namespace ui::reading
