#include "ui/style/empty_page.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPainter>
#include <QPushButton>
#include <QVBoxLayout>

#include "ui/style/plain_label.h"
#include "ui/style/rank.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"
#include "ui/style/turn_mark.h"

namespace ui::style {
namespace {

constexpr int kEmptyBallPx = 64;
constexpr int kEmptyWordsPx = 560;

class EmptyBall : public QWidget {
public:
    explicit EmptyBall(double turn) : m_turn{turn} {
        setFixedSize(kEmptyBallPx + 4, kEmptyBallPx + 4);
    }

protected:
    void paintEvent(QPaintEvent* /*event*/) override {
        QPainter painter{this};
        drawBall(painter, QRectF{rect()}.center(), kEmptyBallPx / 2.0, m_turn, BallLook::Outline,
                 palette());
    }

private:
    double m_turn;
};

}  // namespace

EmptyPage::EmptyPage(double turn, QWidget* parent)
    : QWidget{parent},
      m_missing{new QLabel},
      m_next{new QLabel},
      m_lead{new QPushButton},
      m_column{new QVBoxLayout} {
    m_missing->setObjectName(QStringLiteral("empty"));
    m_next->setObjectName(QStringLiteral("empty_next"));
    m_lead->setObjectName(QStringLiteral("empty_lead"));
    for (QLabel* label : {m_missing, m_next}) {
        showPlainWords(label);
        label->setAlignment(Qt::AlignCenter);
    }
    setTextSize(m_missing, TextSize::Title);
    setRank(m_lead, Rank::Primary);
    m_lead->hide();
    m_column->setSpacing(kCardsPx);
    m_column->addStretch(1);
    m_column->addWidget(new EmptyBall{turn}, 0, Qt::AlignHCenter);
    m_column->addWidget(m_missing);
    m_column->addWidget(m_next);
    m_column->addWidget(m_lead, 0, Qt::AlignHCenter);
    m_column->addStretch(2);
    // In a row, not aligned: an aligned widget is not asked how high its broken lines are.
    auto* words = new QWidget;
    words->setMaximumWidth(kEmptyWordsPx);
    words->setLayout(m_column);
    auto* row = new QHBoxLayout{this};
    row->addStretch(1);
    row->addWidget(words, 1000);
    row->addStretch(1);
    connect(m_lead, &QPushButton::clicked, this, [this] { Q_EMIT wayChosen(m_way); });
}

void EmptyPage::say(const QString& missing, const QString& next, Way way) {
    m_missing->setText(missing);
    m_next->setText(next);
    m_next->setVisible(!next.isEmpty());
    m_way = way;
    m_lead->setVisible(way != Way::None);
    m_lead->setText(way == Way::Footage   ? tr("Go to Footage")
                    : way == Way::Reading ? tr("Go to Reading")
                                          : QString{});
}

void EmptyPage::addBelow(QWidget* widget) {
    m_column->insertWidget(m_column->count() - 1, widget);
}

}  // namespace ui::style
