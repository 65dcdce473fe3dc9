#include "ui/shell/start_page.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "ui/shell/cautions.h"
#include "ui/style/rank.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"

namespace ui::shell {
namespace {

constexpr int kColumnWidth = 640;

QPushButton* wideButton(const QString& text, const QString& tip) {
    auto* button = new QPushButton{text};
    button->setToolTip(tip);
    return button;
}

}  // namespace

StartPage::StartPage(QWidget* parent) : QWidget{parent}, m_trouble{new QLabel} {
    auto* title = new QLabel{QStringLiteral("Turnmark")};
    style::setTextSize(title, style::TextSize::Head, style::Weight::Strong);
    auto* what =
        new QLabel{QStringLiteral("Reads the spin of a struck ball from your footage, with the "
                                  "uncertainty of every number.")};
    what->setWordWrap(true);
    m_demo = wideButton(
        QStringLiteral("Open the demo"),
        QStringLiteral(
            "A club's stringing bench compares string set-ups; every figure is invented"));
    m_demo->setObjectName(QStringLiteral("open_demo"));
    style::setRank(m_demo, style::Rank::Primary);
    auto* fresh = wideButton(QStringLiteral("New project…"),
                             QStringLiteral("An empty project file (Ctrl+N)"));
    auto* open =
        wideButton(QStringLiteral("Open a project…"), QStringLiteral("A .turnmark file (Ctrl+O)"));
    connect(m_demo, &QPushButton::clicked, this, &StartPage::demoWanted);
    connect(fresh, &QPushButton::clicked, this, &StartPage::newWanted);
    connect(open, &QPushButton::clicked, this, &StartPage::openWanted);
    m_trouble->setWordWrap(true);
    m_trouble->hide();
    auto* head = new QLabel{QStringLiteral("Before anybody swings")};
    style::setTextSize(head, style::TextSize::Title, style::Weight::Strong);
    auto* cautions = new QLabel{cautionsText()};
    cautions->setWordWrap(true);

    auto* column = new QWidget;
    column->setMaximumWidth(kColumnWidth);
    auto* layout = new QVBoxLayout{column};
    layout->setSpacing(style::kBetweenPx);
    for (QWidget* widget :
         std::initializer_list<QWidget*>{title, what, m_trouble, m_demo, fresh, open}) {
        layout->addWidget(widget);
    }
    layout->addSpacing(style::kGroupsPx);
    layout->addWidget(head);
    layout->addWidget(cautions);
    // In a row, not aligned: an aligned widget is not asked how high its broken lines are.
    constexpr int kAllTheWidth = 1000;
    auto* row = new QHBoxLayout;
    row->addStretch(1);
    row->addWidget(column, kAllTheWidth);
    row->addStretch(1);
    auto* outer = new QVBoxLayout{this};
    outer->addStretch(2);
    outer->addLayout(row);
    outer->addStretch(3);
}

void StartPage::setDemoEnabled(bool enabled) {
    m_demo->setEnabled(enabled);
}

void StartPage::showTrouble(const QString& text) {
    m_trouble->setText(text);
    m_trouble->setVisible(!text.isEmpty());
}

}  // namespace ui::shell
