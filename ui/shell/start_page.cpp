#include "ui/shell/start_page.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>

#include "core/plan/cautions.h"
#include "ui/shell/cautions.h"
#include "ui/shell/recent_row.h"
#include "ui/shell/start_art.h"
#include "ui/style/let_go.h"
#include "ui/style/plain_label.h"
#include "ui/style/rank.h"
#include "ui/style/remark_line.h"
#include "ui/style/scrolled_down.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"

namespace ui::shell {
namespace {

constexpr int kColumnPx = 620;
constexpr int kArtPx = 760;
constexpr int kNarrowPx = 1280;  // the left half is smaller
constexpr int kLowPx = 560;      // or not there at all
constexpr qsizetype kMostRows = 3;

QLabel* quietWords(const QString& text) {
    auto* label = new QLabel{text};
    style::showPlainWords(label);
    label->setForegroundRole(QPalette::PlaceholderText);
    return label;
}

/// A line of what can be done, with its button.
QWidget* offer(const QString& title, const QString& words, QPushButton* button) {
    auto* head = new QLabel{title};
    style::setTextSize(head, style::TextSize::Body, style::Weight::Strong);
    auto* column = new QVBoxLayout;
    column->setSpacing(0);
    column->addWidget(head);
    column->addWidget(quietWords(words));
    auto* place = new QWidget;
    auto* row = new QHBoxLayout{place};
    row->setContentsMargins(0, 0, 0, 0);
    row->addLayout(column, 1);
    row->addWidget(button);
    return place;
}

}  // namespace

StartPage::StartPage(QWidget* parent) : QWidget{parent}, m_art{new StartArt} {
    auto* row = new QHBoxLayout{this};
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(0);
    row->addWidget(m_art);
    row->addWidget(new style::ScrolledDown{makeRight()}, 1);
    refresh();
}

QWidget* StartPage::makeRight() {
    m_troublePlace = new QVBoxLayout;
    m_recentHead = new QLabel;
    style::setTextSize(m_recentHead, style::TextSize::Title, style::Weight::Strong);
    m_rows = new QVBoxLayout;
    m_rows->setSpacing(style::kPairPx);
    m_openLast = new QPushButton;
    m_openLast->setObjectName(QStringLiteral("open_last"));
    auto* fresh = new QPushButton{tr("New project…")};
    fresh->setToolTip(tr("An empty project file (Ctrl+N)"));
    auto* open = new QPushButton{tr("Open a project…")};
    open->setToolTip(tr("A .turnmark file (Ctrl+O)"));
    connect(m_openLast, &QPushButton::clicked, this, [this] {
        if (!m_recent.isEmpty()) {
            Q_EMIT recentWanted(m_recent.front().file);
        }
    });
    connect(fresh, &QPushButton::clicked, this, &StartPage::newWanted);
    connect(open, &QPushButton::clicked, this, &StartPage::openWanted);
    auto* buttons = new QHBoxLayout;
    buttons->addWidget(m_openLast);
    buttons->addWidget(fresh);
    buttons->addWidget(open);
    buttons->addStretch(1);

    auto* column = new QWidget;
    column->setMaximumWidth(kColumnPx);
    auto* layout = new QVBoxLayout{column};
    layout->setContentsMargins(0, style::kGroupsPx, 0, style::kPagePx);
    layout->setSpacing(style::kCardsPx);
    layout->addLayout(m_troublePlace);
    layout->addWidget(m_recentHead);
    layout->addLayout(m_rows);
    layout->addLayout(buttons);
    layout->addSpacing(style::kCardsPx);
    layout->addWidget(makeDemo());
    layout->addWidget(makeTestClip());
    layout->addStretch(1);
    layout->addWidget(new style::RemarkLine{style::RemarkKind::Grave,
                                            QString::fromStdString(core::plan::cautionsHeading()),
                                            cautionsText()});
    // In a row, not aligned: an aligned widget is not asked how high its broken lines are.
    constexpr int kAllTheWidth = 1000;
    auto* page = new QWidget;
    auto* row = new QHBoxLayout{page};
    row->setContentsMargins(style::kGroupsPx, 0, style::kGroupsPx, 0);
    row->addStretch(1);
    row->addWidget(column, kAllTheWidth);
    row->addStretch(1);
    return page;
}

QWidget* StartPage::makeDemo() {
    m_demo = new QPushButton{tr("Open the demo")};
    m_demo->setObjectName(QStringLiteral("open_demo"));
    m_demo->setToolTip(
        tr("A club's stringing bench compares string set-ups; every figure is invented"));
    connect(m_demo, &QPushButton::clicked, this, &StartPage::demoWanted);
    return offer(tr("First time here?"),
                 tr("A stringing bench with 8 set-ups and 2 hitters; every figure is "
                    "invented."),
                 m_demo);
}

QWidget* StartPage::makeTestClip() {
    auto* test = new QPushButton{tr("Test clip…")};
    test->setObjectName(QStringLiteral("test_clip_wanted"));
    test->setToolTip(tr("A clip can also be dropped on this page"));
    connect(test, &QPushButton::clicked, this, &StartPage::testClipWanted);
    return offer(tr("Before the filming day"),
                 tr("A clip of a few strikes, dropped here: good to film like this, or "
                    "what to change."),
                 test);
}

void StartPage::refresh() {
    m_recent = recentProjects();
    style::emptyLayout(*m_rows);
    for (const RecentProject& each : m_recent.mid(0, kMostRows)) {
        auto* row = new RecentRow{each};
        connect(row, &RecentRow::clicked, this,
                [this, file = each.file] { Q_EMIT recentWanted(file); });
        m_rows->addWidget(row);
    }
    const bool isKnown = !m_recent.isEmpty();
    m_recentHead->setText(isKnown ? tr("Carry on") : tr("Begin"));
    m_openLast->setVisible(isKnown);
    if (isKnown) {
        m_openLast->setText(tr("Open %1").arg(
            m_openLast->fontMetrics().elidedText(m_recent.front().name(), Qt::ElideMiddle, 180)));
        m_openLast->setToolTip(m_recent.front().file);
    }
    style::setRank(m_openLast, style::Rank::Primary);
    style::setRank(m_demo, isKnown ? style::Rank::Secondary : style::Rank::Primary);
}

void StartPage::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    refresh();
}

void StartPage::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    constexpr int kSmallArtPx = 420;
    m_art->setVisible(height() >= kLowPx && width() >= 2 * kSmallArtPx);
    m_art->setFixedWidth(width() < kNarrowPx ? kSmallArtPx : std::min(kArtPx, width() * 5 / 9));
}

void StartPage::setDemoEnabled(bool enabled) {
    m_demo->setEnabled(enabled);
}

void StartPage::showTrouble(const QString& text, const QList<QPushButton*>& ways) {
    style::emptyLayout(*m_troublePlace);
    if (text.isEmpty()) {
        return;
    }
    auto* line = new style::RemarkLine{style::RemarkKind::Question, {}, text};
    m_troublePlace->addWidget(line);
    line->show();  // at once, not when the layout is asked
    if (!ways.isEmpty()) {
        auto* place = new QWidget;
        auto* row = new QHBoxLayout{place};
        row->setContentsMargins(0, 0, 0, 0);
        for (QPushButton* way : ways) {
            row->addWidget(way);
        }
        row->addStretch(1);
        m_troublePlace->addWidget(place);
        place->show();
    }
}

}  // namespace ui::shell
